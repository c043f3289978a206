package stand

import (
	"context"
	"fmt"
	"math"
	"testing"

	"bowerwright/assume"
	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/stock"
	"bowerwright/unit"
)

// comb is a layout of hexagon frames 20 in across flats, of boards 3/4 by 3 1/2
// in, standing on a side, at places given in inches.
func comb(t testing.TB, across float64, at ...[2]float64) layout.Layout {
	t.Helper()
	var outside, inside geom.Polygon
	for k := range 6 {
		d := geom.Point{X: 1}.Rot(float64(k) * math.Pi / 3)
		outside = append(outside, d.Mul(across*inch/math.Sqrt(3)))
		inside = append(inside, d.Mul((across-1.5)*inch/math.Sqrt(3)))
	}
	var places []layout.Place
	for i, p := range at {
		places = append(places, layout.Place{ID: fmt.Sprintf("hex-%d", i+1), Kind: "hex", At: &geom.Point{X: p[0] * inch, Y: p[1] * inch}})
	}
	l, problems := layout.Build([]layout.Kind{{Name: "hex", Outside: outside, Inside: inside}}, places, layout.Settings{})
	for _, p := range problems {
		t.Fatalf("%+v", p)
	}
	return l
}

// flower is one frame with six around it, the one below second.
func flower(across float64) [][2]float64 {
	out := [][2]float64{{0, 0}}
	for k := range 6 {
		s, c := math.Sincos((-90 + 60*float64(k)) * math.Pi / 180)
		out = append(out, [2]float64{across * c, across * s})
	}
	return out
}

// fixedBy fixes every seam alike with No. 8 by 1 1/4 at places along it, as a
// share of its length from the middle, and through the depth, in inches from mid
// depth.
func fixedBy(l layout.Layout, at ...[2]float64) fixing.Plan {
	var plan fixing.Plan
	for i, s := range l.Seams {
		one := fixing.Seam{Number: s.Number, Index: i, Method: fixing.Screwed}
		n := s.To.Sub(s.From).Unit().Perp()
		f := l.Frames
		if n.Dot(f[s.Sides[1].Frame].Centre.Sub(f[s.Sides[0].Frame].Centre)) < 0 {
			n = n.Mul(-1)
		}
		for _, p := range at {
			one.Fasteners = append(one.Fasteners, fixing.Fastener{Kind: stock.WoodScrew, Diameter: unit.Inch * 164 / 1000, Root: unit.Inch * 131 / 1000,
				Length: unit.Inch + unit.Inch/4, Along: s.Length * (0.5 + p[0]), Depth: (1.75 + p[1]) * inch, Axis: n,
				Head: s.Sides[0].Frame, Tip: s.Sides[1].Frame, First: 0.75 * inch, Penetration: 0.5 * inch})
		}
		plan.Seams = append(plan.Seams, one)
	}
	return plan
}

var (
	pair = [][2]float64{{-0.25, 0}, {0.25, 0}}
	four = [][2]float64{{-0.25, -1}, {0.25, -1}, {-0.25, 1}, {0.25, 1}}
	one  = [][2]float64{{0, 0}}
)

// strengthRules are those of the worked examples: screws that do not resist being
// bent over, contacts of a stiffer wood.
func strengthRules() StrengthRules {
	r := StrengthRulesFrom(assume.BuiltInBook().Reader())
	r.Rock, r.Press = r.Rock*1e-3, r.Press*1.2/1.1
	return r
}

const psi = poundForce / (anInch * anInch)

// piece is a comb of pine, E 1.1 million psi, of 0.0147 lb/in3.
func piece(l layout.Layout, plan fixing.Plan, held ...int) StrengthInput {
	in := StrengthInput{Layout: l, Fixing: plan, Base: BaseJoint{Method: clamped, Frames: held}}
	for _, f := range l.Frames {
		long := 0.0
		for k := range f.Outside {
			j := (k + 1) % len(f.Outside)
			long += f.Outside[k].Lerp(f.Inside[k], 0.5).Dist(f.Outside[j].Lerp(f.Inside[j], 0.5))
		}
		in.Frames = append(in.Frames, StrengthFrame{Gravity: 0.36, Stiff: 1.1e6 * psi, Mass: kilos(0.0147 * 0.75 * 3.5 * long / inch),
			Boards: frame.Boards{Thickness: unit.Inch * 3 / 4, Width: unit.Inch * 7 / 2, OnEdge: true}})
	}
	in.Bare = pane(l.Width, l.Height, 0.3, 0, 1)
	in.Bare.Weights = nil
	return in
}

// pushAt asks for a push of so many pounds at a height in inches.
func (in StrengthInput) pushAt(lb, height float64) StrengthInput {
	in.Loads = []WayLoad{{-1, Load{Kind: PushLoad, Force: PoundsForce(lb), Height: height * inch}}}
	return in
}

func reckon(t testing.TB, in StrengthInput, r StrengthRules) StrengthPlan {
	t.Helper()
	plan, problems, err := Strength(context.Background(), in, r)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		text, _ := p.Text()
		t.Fatalf("%s: %s", p.Code, text)
	}
	return plan
}

// caseOf finds a case by the beginning of its name.
func (p StrengthPlan) caseOf(t testing.TB, name string) CaseResult {
	t.Helper()
	for _, c := range p.Cases {
		if len(c.Name) >= len(name) && c.Name[:len(name)] == name {
			return c
		}
	}
	t.Fatalf("no case %q", name)
	return CaseResult{}
}

func (c CaseResult) of(t testing.TB, p Part) Demand {
	t.Helper()
	for _, d := range c.Worst {
		if d.Part == p {
			return d
		}
	}
	t.Fatalf("%s: no %s", c.Name, p)
	return Demand{}
}
