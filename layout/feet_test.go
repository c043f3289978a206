package layout

import (
	"math"
	"testing"

	"bowerwright/geom"
)

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// A flat arch whose feet are sawn square stands on their inner edges: the lowest
// wood is on the floor, and the height is counted from there.
func TestSquareFeetStandOnTheirInnerEdges(t *testing.T) {
	const r, deep, n = 1000.0, 140.0, 8
	half := math.Pi / n / 2
	var out, in geom.Polygon
	for k := range n + 1 {
		a := math.Pi * float64(k) / n
		p := pt(r*math.Cos(a), r*math.Sin(a))
		q := p.Mul(1 - deep/math.Cos(half)/r)
		switch k { // square ends: deep across the first and the last board
		case 0:
			q = p.Add(pt(-math.Cos(half), -math.Sin(half)).Mul(deep))
		case n:
			q = p.Add(pt(math.Cos(half), -math.Sin(half)).Mul(deep))
		}
		out, in = append(out, p), append(in, q)
	}
	at := pt(0, 0)
	l, problems := Build([]Kind{{Name: "a", Outside: out, Inside: in, Open: true}}, []Place{{ID: "A1", Kind: "a", At: &at}}, Settings{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	drop := deep * math.Sin(half)
	for name, got := range map[string]float64{
		"inner edge": l.Frames[0].Inside[0].Y, "outer corner": l.Frames[0].Outside[0].Y - drop, "height": l.Height - (r + drop),
	} {
		if math.Abs(got) > 1e-6 {
			t.Errorf("%s is %g mm off", name, got)
		}
	}
	if len(l.Tips) != 2 || len(l.Feet) != 0 || len(l.Hanging) != 0 || math.Abs(l.Tips[1].X-l.Tips[0].X-2*(r-deep*math.Cos(half))) > 1e-6 {
		t.Errorf("tips %+v, feet %+v, hanging %+v", l.Tips, l.Feet, l.Hanging)
	}
	if b := Back(l); b.Frames[0].Box.Min.Y != 0 || b.Frames[0].Box != l.Frames[0].Box {
		t.Errorf("from behind the box is %+v, from the front %+v", b.Frames[0].Box, l.Frames[0].Box)
	}
}
