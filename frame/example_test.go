package frame_test

import (
	"fmt"

	"bowerwright/frame"
	"bowerwright/unit"
)

// A hexagon 18 in across flats of 1x4 on edge, sawn to a tape in sixteenths.
func Example() {
	boards := frame.Boards{Thickness: unit.Inch * 3 / 4, Width: unit.Inch * 7 / 2, OnEdge: true}
	outline, err := frame.Regular(6, frame.Flats, 18*unit.Inch, frame.OnSide, boards.Depth())
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := frame.Build(outline, frame.Settings{
		Boards: boards, Mark: unit.Inch / 16, JointTolerance: unit.Inch / 64,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, k := range f.Kinds() {
		fmt.Printf("%d parts: outside %.4f in, inside %.3f in, set to %.1f and %.1f degrees\n", len(k.Sides),
			k.Part.Outside.Inches(), k.Part.Inside/25.4, k.Part.Start.Degrees(), k.Part.End.Degrees())
	}
	flats, _ := f.Built.Size(frame.Flats, boards.Depth())
	fmt.Printf("across flats as built: %.3f in\n", flats/25.4)
	// Output:
	// 6 parts: outside 10.3750 in, inside 9.509 in, set to 30.0 and 30.0 degrees
	// across flats as built: 17.970 in
}

// A five-sided frame has no flats: the refusal says what could be meant.
func ExampleRegular_unclear() {
	_, err := frame.Regular(5, frame.Diameter, 1000*unit.Millimetre, frame.OnSide, 0)
	fmt.Println(err)
	// Output:
	// diameter could mean corner circle (side 587.8 mm), inscribed circle (side 726.5 mm) or height as it stands (side 649.8 mm): name one
}
