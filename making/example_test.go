package making_test

import (
	"fmt"

	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/unit"
)

// Four hexagons, 18 in across flats, of 1x4 on edge: how they are glued, and
// when.
func ExampleMake() {
	boards := frame.Boards{Thickness: 3 * unit.Inch / 4, Width: 7 * unit.Inch / 2, OnEdge: true}
	outline, err := frame.Regular(6, frame.Flats, 18*unit.Inch, frame.OnSide, boards.Depth())
	if err != nil {
		panic(err)
	}
	hex, err := frame.Build(outline, frame.Settings{Boards: boards, Mark: unit.MarkUS, JointTolerance: unit.Inch / 32})
	if err != nil {
		panic(err)
	}
	plan, problems, err := making.Make([]making.Kind{{Name: "hex", Frame: hex, Count: 4}}, layout.Layout{}, making.Shop{})
	if err != nil || len(problems) > 0 {
		panic(fmt.Sprint(problems, err))
	}
	g := plan.Kinds[0].GlueUp
	fmt.Printf("%s: a row of %s, %d joints to a go\n", g.Method, unit.FormatOverall(g.RowLength(), unit.Style{}), g.PerGo)
	for _, o := range plan.Goes {
		fmt.Printf("go %d: frames %d to %d, coat at %.0f min, closed at %.0f, may be moved at %.0f\n", o.Number, o.From, o.To, o.Coat, o.Close, o.Free)
	}
	// Output:
	// laid on tape and rolled: a row of 62 1/4 in, 12 joints to a go
	// go 1: frames 1 to 2, coat at 9 min, closed at 19, may be moved at 79
	// go 2: frames 3 to 4, coat at 28 min, closed at 38, may be moved at 98
}
