package stand

import (
	"math"
	"testing"

	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/unit"
)

const footLong = 12 * inch

// Case 17, plain statics: a field panel 10 ft high and 4 ft wide on a base 5 x
// 3.5 ft, force coefficient 2.0. At 15 mph 46.08 lb and 230 lb-ft; the weight
// that balances over the 3.5 ft way is 132 lb, with a factor of 1.5 198; over
// the 5 ft way 92 and 138. Sliding at friction 0.4: 115 and 173. At 25 mph 128
// lb, 366 and 549.
func TestFieldPanel(t *testing.T) {
	for _, c := range []struct{ mph, factor, force, deep, wide, slide float64 }{
		{15, 1, 46.08, 132, 92, 115}, {15, 1.5, 46.08, 198, 138, 173}, {25, 1, 128, 366, 256, 320}, {25, 1.5, 128, 549, 384, 480},
	} {
		r := plain()
		r.Factor, r.Wind.Solid = c.factor, []Slim{{1, 2}}
		s := on(t, r, pane(4*footLong, 10*footLong, 1, 0, 0), 0.4, Loads{Gusts: []Speed{FromMPH(c.mph)}},
			slab(-0.5*footLong, -1.75*footLong, 5*footLong, 3.5*footLong))
		f := s.Check()[0]
		want(t, "force", pounds(f.Load.Force), c.force, 0.005)
		want(t, "moment in lb-ft", pounds(f.Load.Force)*f.Load.Height/footLong, 5*c.force, 0.05)
		m := s.Missing()
		middle := geom.Point{X: 2 * footLong}
		want(t, "weight", m.Heap(middle).Tip.Pounds(), c.deep, 0.6)
		want(t, "sliding", m.Heap(middle).Slide.Pounds(), c.slide, 0.5)
		for _, e := range m.Edges {
			if e.Edge.Vec().X == 0 { // the ends
				want(t, "over the 5 ft way", Mass(unit.Force(e.Moment/(2.5*footLong))).Pounds(), c.wide, 0.5)
			}
		}
	}
}

// Case 18, by 0.613 V2: a solid wall 2.4 x 2.4 m on a base 0.9 m deep,
// coefficient 1.5, factor 1.5: 138, 216, 486 and 864 kg at 8, 10, 15 and 20 m/s.
// The same outline a quarter solid, by 1 - (1 - e)^1.5: 48, 76, 170, 303 kg.
func TestSolidWall(t *testing.T) {
	for _, c := range []struct{ v, solid, quarter float64 }{{8, 138, 48}, {10, 216, 76}, {15, 486, 170}, {20, 864, 303}} {
		for _, e := range []float64{1, 0.25} {
			r := plain()
			r.Factor, r.Wind.Solid, r.Wind.Bands, r.Wind.Unit = 1.5, []Slim{{1, 1.5}}, nil, 0.613e-6
			s := on(t, r, pane(2400, 2400, e, 0, 0), 0.3, Loads{Gusts: []Speed{Speed(c.v)}}, slab(0, -450, 2400, 900))
			need := c.solid
			if e < 1 {
				need = c.quarter
			}
			want(t, "weight in kg", float64(s.Missing().Heap(geom.Point{X: 1200}).Tip), need, 0.8)
		}
	}
}

// Case 19: a flat braced with a jack, 40 lb with its middle 0.4 in behind its
// front edge, pushed forwards with 15 lb at 5 ft: (900 - 16)/20 = 44 lb at 20 in
// behind, 67 with a factor of 1.5.
func TestJack(t *testing.T) {
	for _, c := range []struct{ factor, need float64 }{{1, 44}, {1.5, 67}} {
		r := plain()
		r.Factor, r.Push, r.PushHeight = c.factor, PoundsForce(15), 60*inch
		s := on(t, r, pane(48*inch, 96*inch, 1, 0.4*inch, kilos(40)), 1, Loads{Push: true},
			base.BraceAt(24*inch, 40*inch, 20*inch, 24*inch, 0, 0, 0))
		m := s.Missing()
		for _, e := range m.Edges {
			if e.Edge.A.Y == 0 && e.Edge.B.Y == 0 {
				want(t, "at the jack's foot", Mass(unit.Force(e.Moment/(20*inch))).Pounds(), c.need, 0.5)
			}
		}
	}
}

// EN 1990 EQU on the exhibition load: a solid wall 2.4 x 2.4 m takes 0.720 kN at
// 1.2 m, 0.864 kN m; with 0.9 and 1.5 it just stands at G e = 1.44 kN m.
func TestExhibitionWall(t *testing.T) {
	e := 400.0
	s := on(t, rules(), pane(2400, 2400, 1, 0, Mass(unit.Force(1.44e6/e))), 10, Loads{Hall: true}, slab(-5000, -e, 12400, 2*e))
	f := s.Check()[0]
	want(t, "force", float64(f.Load.Force), 720, 1e-6)
	want(t, "moment", float64(f.Load.Force)*f.Load.Height, 0.864e6, 1e-3)
	want(t, "ratio", f.Worst.Ratio, 1, 1e-9)
	if f.Worst.Word != NearLimit || f.Worst.Mode != Tipping {
		t.Errorf("%+v", f.Worst)
	}
}

// Above 4 m over the floor the lower pressure counts, base and all: 6 m high and
// 1 m wide on 100 mm, by hand.
func TestExhibitionLoadAboveFourMetres(t *testing.T) {
	board := base.Board{Thickness: 100}
	s := on(t, rules(), pane(1000, 6000, 1, 0, 10), 1, Loads{Hall: true}, base.PlateOf(base.Rectangle(0, -400, 1000, 800), board))
	l := s.Check()[0].Load
	low, high := 0.125*3.9, 0.063*2.1
	want(t, "force in N", float64(l.Force), 1000*(low+high), 1e-6)
	want(t, "height", l.Height, 100+1000*(low*3.9/2+high*(3.9+2.1/2))/(low+high), 1e-6)
}

// The tilt test of floor-standing equipment (IEC 62368-1, second-hand): 10
// degrees needs 0.1763 times the height of the weight from it to the edge.
func TestLean(t *testing.T) {
	s := on(t, rules(), pane(1000, 2000, 1, 0, 10), 0.3, Loads{}, slab(0, -176.327, 1000, 2*176.327))
	l := s.Leans()[0]
	want(t, "lean", l.Angle.Degrees(), 10, 1e-3)
	want(t, "ratio", l.By.Ratio, 1, 1e-4)
	s = on(t, rules(), pane(1000, 2000, 1, -500, 10), 0.3, Loads{Push: true}, slab(0, -400, 1000, 800))
	l = s.Leans()[0]
	if l.Angle > 0 || !math.IsInf(l.By.Ratio, 1) || l.Word != Over || Towards(l.By.Toward) != "forwards" {
		t.Errorf("a weight before its base: %+v", l)
	}
	if f := s.Check()[0]; !math.IsInf(f.Worst.Ratio, 1) || f.Worst.Word != Over || Towards(f.Worst.Toward) != "forwards" {
		t.Errorf("and pushed: %+v", f.Worst)
	}
}
