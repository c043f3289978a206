package fixing_test

import (
	"fmt"

	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// Two squares of 500 mm, of 20 x 95 mm boards on edge, one on the other, fixed
// with metric screws.
func ExampleFix() {
	outside := geom.Polygon{{}, {X: 500}, {X: 500, Y: 500}, {Y: 500}}
	inside, err := outside.Offset(20)
	if err != nil {
		fmt.Println(err)
		return
	}
	l, _ := layout.Build(
		[]layout.Kind{{Name: "square", Outside: outside, Inside: inside}},
		[]layout.Place{
			{ID: "low", Kind: "square", At: &geom.Point{}},
			{ID: "high", Kind: "square", Attach: []layout.Attach{{To: "low", Side: 1, ToSide: 3}}},
		},
		layout.Settings{})
	pine := fixing.Board{Boards: frame.Boards{Thickness: 20 * unit.Millimetre, Width: 95 * unit.Millimetre, OnEdge: true}, Gravity: 0.42}

	plan, problems := fixing.Fix(l, []fixing.Board{pine, pine}, fixing.Settings{Screws: []string{"4 mm", "3.5 mm"}})
	fmt.Println("problems:", len(problems))
	for _, s := range plan.Seams {
		for _, f := range s.Fasteners {
			fmt.Printf("seam %d: %s %s from %s, %.0f mm along, %.1f mm deep, %.0f mm in, pilot %v mm\n", s.Number, f.Name, f.Way,
				l.Frames[f.Head].ID, f.Along, f.Depth, f.Penetration, f.Holes.Pilot.MM())
		}
		for _, n := range s.Notes {
			fmt.Println(n.Text())
		}
	}
	for _, t := range plan.Totals {
		fmt.Printf("buy %d box of %d: %s\n", t.Boxes, t.Pack, t.Name)
	}
	// Output:
	// problems: 0
	// seam 1: 4 x 35 mm up from low, 125 mm along, 47.5 mm deep, 15 mm in, pilot 2 mm
	// seam 1: 4 x 35 mm up from low, 375 mm along, 47.5 mm deep, 15 mm in, pilot 2 mm
	// Outside the standard: NDS wants a penetration of 6 diameters (second-hand).
	// buy 1 box of 100: 4 x 35 mm
}
