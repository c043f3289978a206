package passage_test

import (
	"fmt"
	"math"

	"bowerwright/geom"
	"bowerwright/passage"
)

// A panel of 2.1 x 1.2 m through a door of 0.9 x 2.0 m.
func ExampleDoor() {
	panel := passage.Piece{Outlines: []geom.Polygon{{{}, {X: 1200}, {X: 1200, Y: 2100}, {Y: 2100}}}, Thickness: 90, Fingers: 30}
	body, err := panel.Body()
	if err != nil {
		fmt.Println(err)
		return
	}
	v := passage.Door{Width: 900, Height: 2000}.Pass(body)
	for _, w := range v.Ways {
		fmt.Printf("%v: %.0f mm\n", w.Hold.Kind, w.Clearance)
	}
	easy, _ := v.Easiest(100)
	fmt.Printf("%v, turned %.0f degrees\n", easy.Hold.Kind, easy.Hold.Turn*180/math.Pi)
	// Output:
	// upright: -160 mm
	// on edge: 740 mm
	// flat: -360 mm
	// leaned: 740 mm
	// broadside: -360 mm
	// on edge, turned 90 degrees
}
