package fixing

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/stock"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// flatComb is n flat hexagons about a corner that three of them share.
func flatComb(n int, flats float64, b Board) *made {
	m := &made{}
	m.regular("hex", 6, flats, b)
	side := flats / math.Sqrt(3)
	for i, at := range [][2]float64{{0, 0}, {0, flats}, {1.5 * side, flats / 2}, {1.5 * side, -flats / 2}, {3 * side, 0}} {
		if i < n {
			m.at(fmt.Sprint("h", i), "hex", at[0], at[1]+flats*2)
		}
	}
	return m
}

// pieceOutline is where a plate or batten lies, worked out from the seam alone.
func pieceOutline(s layout.Seam, m Method, p Piece) geom.Polygon {
	dir := s.To.Sub(s.From).Unit()
	at := s.From.Add(dir.Mul(p.Along))
	long, wide := p.Width, p.Length // a plate's length lies across the seam
	if m == Battened {
		long, wide = wide, long
	}
	u, v := dir.Mul(long/2), geom.Point{X: -dir.Y, Y: dir.X}.Mul(wide/2)
	return geom.Polygon{at.Add(u).Add(v), at.Sub(u).Add(v), at.Sub(u).Sub(v), at.Add(u).Sub(v)}
}

// apart says whether a line lies between two rectangles: one along a side of
// either (the separating axis theorem).
func apart(p, q geom.Polygon) bool {
	for _, r := range []geom.Polygon{p, q} {
		for i := range r {
			n := r[(i+1)%len(r)].Sub(r[i]).Perp().Unit()
			if reach(p, n).To <= reach(q, n).From+1e-3 || reach(q, n).To <= reach(p, n).From+1e-3 {
				return true
			}
		}
	}
	return false
}

func reach(p geom.Polygon, n geom.Point) geom.Interval {
	in := geom.Interval{From: math.Inf(1), To: math.Inf(-1)}
	for _, q := range p {
		in.From, in.To = min(in.From, q.Dot(n)), max(in.To, q.Dot(n))
	}
	return in
}

// No plate or batten lies on another, and each covers the screws that go
// through it; where three frames meet at a corner there would be no room for
// battens as long as their seams.
func TestNothingLiesOnAnother(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		flats := rapid.Float64Range(10, 30).Draw(t, "flats")
		wide := rapid.SampledFrom([]float64{2.5, 3.5, 5.5}).Draw(t, "board")
		way := rapid.SampledFrom([]FlatWay{Plates, Battens}).Draw(t, "way")
		if wide > flats/3 {
			t.Skip("no inside")
		}
		l, boards := layoutOf(flatComb(rapid.IntRange(2, 5).Draw(t, "frames"), flats, board(0.75, wide, false)))
		p, problems := Fix(l, boards, Settings{Flat: way})
		if len(p.Seams)+len(problems) != len(l.Seams) {
			t.Fatalf("%d seams, %d fixed, %d problems", len(l.Seams), len(p.Seams), len(problems))
		}
		var outlines []geom.Polygon
		for _, s := range p.Seams {
			covered := 0
			for _, q := range s.Plates {
				o := pieceOutline(l.Seams[s.Index], s.Method, q)
				for _, f := range s.Fasteners {
					if o.Contains(f.At) {
						covered++
					}
				}
				for _, other := range outlines {
					if !apart(o, other) {
						t.Fatalf("seam %d lies on another: %v on %v", s.Number, o, other)
					}
				}
				outlines = append(outlines, o)
			}
			if covered != len(s.Fasteners) {
				t.Fatalf("seam %d: %d of %d screws are under its plates", s.Number, covered, len(s.Fasteners))
			}
		}
	})
}

// covers finds what a walk over all outlines finds.
func TestCoversFindAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newCovers()
		c := contact{}
		var all []geom.Polygon
		for i := range rapid.IntRange(1, 12).Draw(t, "n") {
			a := rapid.Float64Range(0, 3).Draw(t, "turn")
			c.dir = geom.Point{X: math.Cos(a), Y: math.Sin(a)}
			c.seam.From = geom.Point{X: rapid.Float64Range(-300, 300).Draw(t, "x"), Y: rapid.Float64Range(-300, 300).Draw(t, "y")}
			o := c.outline(0, rapid.Float64Range(5, 300).Draw(t, "long"), rapid.Float64Range(5, 100).Draw(t, "wide"))
			want := false
			for _, other := range all {
				want = want || other.Overlap(o, touch).Depth > touch
			}
			if got := g.under(o) > 0; got != want {
				t.Fatalf("outline %d: %v, want %v", i, got, want)
			}
			g.add(i+1, o)
			all = append(all, o)
		}
	})
}

// In a metric shop screws, bolts with what goes on them, pegs and plates are
// metric; in the other none is. Holes for bolts are 1/32 in wider or more, of a
// drill that is sold.
func TestHardwareOfOneSystem(t *testing.T) {
	for _, metricShop := range []bool{false, true} {
		for _, b := range []Board{board(0.75, 3.5, true), board(0.75, 3.5, false)} {
			_, p := stacked(6, 24, b).fix(t, Settings{Metric: metricShop, Seams: map[int]Choice{1: {Site: true}}})
			_, q := stacked(6, 24, b).fix(t, Settings{Metric: metricShop})
			for _, total := range append(p.Totals, q.Totals...) {
				f, ok := stock.BuiltIn().Fastener(total.Name)
				if !ok {
					t.Fatalf("%s is not sold", total.Name)
				}
				d := f.Diameter
				if d == 0 {
					screw, _ := stock.BuiltIn().Screw(f.Screw)
					d = screw.Diameter
				}
				if unit.OnMark(d, unit.Millimetre/10) != metricShop {
					t.Errorf("metric %v: %s", metricShop, total.Name)
				}
			}
			for _, f := range p.Seams[0].Fasteners {
				hole := f.Holes.Clearance
				step := unit.Inch / 64
				if metricShop {
					step = unit.Millimetre / 2
				}
				if f.Kind == stock.Bolt && (hole < f.Diameter+unit.Inch/32 || hole%step != 0) {
					t.Errorf("metric %v: a bolt of %g mm in a hole of %g", metricShop, f.Diameter.MM(), hole.MM())
				}
			}
		}
	}
}
