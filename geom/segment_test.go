package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func seg(ax, ay, bx, by float64) Segment { return Segment{Point{ax, ay}, Point{bx, by}} }

func TestSegmentDistances(t *testing.T) {
	base := seg(0, 0, 10, 0)
	for _, c := range []struct {
		s    Segment
		dist float64
	}{
		{seg(0, 3, 10, 3), 3},
		{seg(13, 4, 20, 4), 5},     // end to end, 3-4-5
		{seg(5, -5, 5, 5), 0},      // crosses
		{seg(10, 0, 20, 5), 0},     // shares an end
		{seg(5, 2, 5, 9), 2},       // points at the middle
		{seg(12, 0, 20, 0), 2},     // in one line
		{seg(4, 0, 20, 0), 0},      // in one line, overlapping
		{seg(11, -5, 11, 5), 1},    // passes beyond the end
		{seg(5, 1, 5, 1), 1},       // a point
		{seg(-3, -4, -3, -4), 5},   // a point beyond the start
		{seg(0, 10, 10, 1e-9), 0},  // ends a picometre short
		{seg(0, -1, 10, -1), 1},    // the other side
		{seg(10, -1, 0, -1), 1},    // the other way round
		{seg(20, 10, 10.6, .8), 1}, // off the end, aslant
	} {
		want(t, "distance", base.Dist(c.s), c.dist, 1e-6)
		want(t, "distance the other way", c.s.Dist(base), c.dist, 1e-6)
	}
}

func TestGapStartsAndEndsOnTheSegments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Segment{drawPoint(t, "a"), drawPoint(t, "b")}
		u := Segment{drawPoint(t, "c"), drawPoint(t, "d")}
		g := s.Gap(u)
		if s.PointDist(g.A) > 1e-6 || u.PointDist(g.B) > 1e-6 {
			t.Fatalf("gap %v leaves the segments", g)
		}
		for range 20 { // no pair of places is nearer
			p := s.A.Lerp(s.B, rapid.Float64Range(0, 1).Draw(t, "on s"))
			q := u.A.Lerp(u.B, rapid.Float64Range(0, 1).Draw(t, "on u"))
			if p.Dist(q) < g.Len()-1e-6 {
				t.Fatalf("%v and %v are nearer than %g", p, q, g.Len())
			}
		}
	})
}

func TestCollinearOverlap(t *testing.T) {
	base := seg(0, 0, 10, 0)
	for _, c := range []struct {
		name     string
		s        Segment
		ok       bool
		from, to float64
	}{
		{"inside", seg(2, 0, 5, 0), true, 2, 5},
		{"against the grain", seg(5, 0, 2, 0), true, 2, 5},
		{"past the end", seg(8, 0.1, 15, 0.1), true, 8, 10},
		{"too far off", seg(2, 1, 5, 1), false, 0, 0},
		{"aslant", seg(0, 0, 10, 3), false, 0, 0},
		{"beyond", seg(11, 0, 15, 0), false, 0, 0},
		{"end to end", seg(10, 0, 15, 0), false, 0, 0},
	} {
		got, ok := base.CollinearOverlap(c.s, 0.2)
		if ok != c.ok || got.A.X != c.from || got.B.X != c.to {
			t.Errorf("%s: %v %v", c.name, got, ok)
		}
	}
}

func TestOffsetIsSigned(t *testing.T) {
	base := seg(0, 0, 10, 0)
	want(t, "left", base.Offset(seg(0, 2, 5, 2)), 2, 1e-12)
	want(t, "right", base.Offset(seg(5, -2, 0, -2)), -2, 1e-12)
}

func TestMovesCompose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n, p := drawMove(t, "m"), drawMove(t, "n"), drawPoint(t, "p")
		if got, want := m.Then(n).Apply(p), n.Apply(m.Apply(p)); got.Dist(want) > 1e-6 {
			t.Fatalf("then: %v, want %v", got, want)
		}
		if got, want := m.Compose(n).Apply(p), m.Apply(n.Apply(p)); got.Dist(want) > 1e-6 {
			t.Fatalf("compose: %v, want %v", got, want)
		}
		if back := m.Inverse().Apply(m.Apply(p)); back.Dist(p) > 1e-6 {
			t.Fatalf("inverse: %v, want %v", back, p)
		}
		if back := m.Then(m.Inverse()).Apply(p); back.Dist(p) > 1e-6 {
			t.Fatalf("then inverse: %v, want %v", back, p)
		}
	})
}

func TestMovesKeepMeasures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, m := drawStar(t, "p"), drawMove(t, "m")
		q := m.Polygon(p)
		sign := 1.0
		if m.Mirror {
			sign = -1
		}
		if !near(q.Area(), sign*p.Area(), 1e-3) || !near(q.Perimeter(), p.Perimeter(), 1e-6) {
			t.Fatalf("area %g to %g, perimeter %g to %g", p.Area(), q.Area(), p.Perimeter(), q.Perimeter())
		}
		if q.Centroid().Dist(m.Apply(p.Centroid())) > 1e-5 {
			t.Fatal("the centroid does not move along")
		}
		if s := m.Segment(p.Side(0)); s != q.Side(0) {
			t.Fatalf("side 0 moved to %v, want %v", s, q.Side(0))
		}
	})
}

func TestZeroMoveMovesNothing(t *testing.T) {
	if got := (Move{}).Polygon(ell); got[3] != ell[3] {
		t.Errorf("corner 3 moved to %v", got[3])
	}
	if p := (Point{}).Unit(); p != (Point{}) {
		t.Errorf("unit of nothing = %v", p)
	}
	want(t, "perp", Point{1, 0}.Perp().Y, 1, 0)
	want(t, "scaled area", ell.Scale(2).Area(), 2000, 1e-9)
	want(t, "unit length", Point{3, 4}.Unit().Len(), 1, 1e-15)
	want(t, "distance with no crossing", poly(0, 0, 1, 0, 0, 1).BoundaryDist(Point{2, 2}), 3/math.Sqrt2, 1e-12)
}
