package dressing_test

import (
	"fmt"

	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/layout"
)

// A frame of 1 m by 2 m, bare and with greenery over its upper half.
func ExamplePiece_Dress() {
	box := func(x, y, w, h float64) geom.Polygon {
		return geom.Polygon{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
	}
	l, _ := layout.Build(
		[]layout.Kind{{Name: "big", Outside: box(0, 0, 1000, 2000), Inside: box(50, 50, 900, 1900)}},
		[]layout.Place{{ID: "A", Kind: "big", At: &geom.Point{}}}, layout.Settings{})
	p := dressing.Piece{Layout: l, Frames: []dressing.Frame{{Mass: 8, Depth: 90}}}
	greenery := dressing.Layer{Name: "greenery", Mass: 4, Closes: 0.6, Front: 80, On: dressing.Region{From: 1000}}
	for _, w := range []dressing.Way{{Name: "bare"}, {Name: "dressed", Layers: []dressing.Layer{greenery}}} {
		s, _ := p.Dress(w)
		fmt.Printf("%s: %.0f kg, %.0f %% solid, wind at %.0f mm, weight %.0f mm behind the front\n",
			s.Way, s.Dry.Mass, 100*s.Solidity(), s.Pressure.Y, s.Dry.Back)
	}
	// Output:
	// bare: 8 kg, 14 % solid, wind at 1000 mm, weight 45 mm behind the front
	// dressed: 12 kg, 40 % solid, wind at 1303 mm, weight 3 mm behind the front
}
