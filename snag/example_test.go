package snag_test

import (
	"fmt"

	"bowerwright/snag"
)

func ExampleText() {
	unknown := snag.Kind{Code: "unknown-frame", Meaning: "The layout names a frame that the job does not have."}
	job := "layout:\n  - frame: hexgon\n"
	place := snag.Place{File: "arbour.yaml", Line: 2, Column: 12, Path: "layout.1.frame"}
	list := snag.List{unknown.At(place, "hexgon", `no frame is called "hexgon"`,
		"did you mean "+snag.DidYouMean("hexgon", []string{"house", "hexagon"})+"?")}
	fmt.Print(snag.Text(list, func(string) (string, bool) { return job, true }, snag.Width))
	// Output:
	// arbour.yaml:2:12: no frame is called "hexgon" [unknown-frame]
	//       - frame: hexgon
	//                ^
	//   did you mean hexagon?
}
