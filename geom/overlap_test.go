package geom

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

const touchTol = 0.01

func TestIntervalsOfAnL(t *testing.T) {
	for _, c := range []struct {
		y    float64
		want []Interval
	}{
		{5, []Interval{{0, 30}}},
		{20, []Interval{{0, 10}}},
		{0, []Interval{{0, 30}}},  // just above the floor
		{10, []Interval{{0, 10}}}, // just above the notch
		{30, nil},
		{-1, nil},
	} {
		if got := ell.IntervalsAt(c.y); !slices.Equal(got, c.want) {
			t.Errorf("at %g: %v, want %v", c.y, got, c.want)
		}
	}
	arch := poly(30, 0, 30, 30, 0, 30, 0, 0, 10, 0, 10, 20, 20, 20, 20, 0)
	if got := arch.IntervalsAt(5); !slices.Equal(got, []Interval{{0, 10}, {20, 30}}) {
		t.Errorf("legs of an arch: %v", got)
	}
}

func TestCommon(t *testing.T) {
	a := []Interval{{0, 10}, {20, 30}}
	b := []Interval{{5, 25}, {30, 40}}
	if got := Common(a, b); !slices.Equal(got, []Interval{{5, 10}, {20, 25}}) {
		t.Errorf("common %v", got)
	}
	if got := Common(a, nil); got != nil {
		t.Errorf("common with nothing: %v", got)
	}
}

func TestOverlapOfSquares(t *testing.T) {
	square := poly(0, 0, 100, 0, 100, 100, 0, 100)
	for _, c := range []struct {
		name        string
		at          Point
		area, depth float64
	}{
		{"apart", Point{200, 0}, 0, 0},
		{"side by side", Point{100, 0}, 0, 0},
		{"corner on corner", Point{100, 100}, 0, 0},
		{"a hair inside", Point{99.995, 0}, 0, 0}, // within touchTol
		{"pushed in by 1", Point{99, 0}, 100, 1},
		{"pushed in by 1, aside", Point{99, 40}, 60, 1},
		{"corner in", Point{90, 90}, 100, 10},
		{"one on the other", Point{}, 10000, 100},
	} {
		o := square.Overlap(square.Shift(c.at), touchTol)
		want(t, c.name+": area", o.Area, c.area, 1e-6)
		want(t, c.name+": depth", o.Depth, c.depth, 0.01*c.depth)
		if o.Depth > c.depth+1e-9 {
			t.Errorf("%s: depth %g is more than it is", c.name, o.Depth)
		}
		if c.depth > 0 && !square.Contains(o.At) {
			t.Errorf("%s: deepest at %v", c.name, o.At)
		}
	}
}

func TestOverlapInsideANotch(t *testing.T) {
	block := poly(10, 10, 20, 10, 20, 20, 10, 20)
	if o := ell.Overlap(block, touchTol); o != (Overlap{}) {
		t.Errorf("a block set in the notch overlaps by %v", o)
	}
	o := ell.Overlap(block.Shift(Point{-1, -1}), touchTol)
	want(t, "area with the block pushed in", o.Area, 19, 1e-9)
}

// inside says how many cells of a grid lie inside both: brute force.
func inside(p, q Polygon, cell float64) float64 {
	b := p.Box()
	n := 0
	for x := b.Min.X + cell/2; x < b.Max.X; x += cell {
		for y := b.Min.Y + cell/2; y < b.Max.Y; y += cell {
			if c := (Point{x, y}); p.encloses(c) && q.encloses(c) {
				n++
			}
		}
	}
	return float64(n) * cell * cell
}

func TestOverlapAgainstSampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawStar(t, "p"), drawStar(t, "q").Shift(drawPoint(t, "at"))
		const cell = 10
		o := p.Overlap(q, touchTol)
		// A grid counts a region to about one cell along its boundary.
		if slack := cell * (p.Perimeter() + q.Perimeter()); math.Abs(inside(p, q, cell)-o.Area) > slack/2 {
			t.Fatalf("area %g, sampled %g", o.Area, inside(p, q, cell))
		}
		if o.Area > math.Min(p.Area(), q.Area())+1e-3 {
			t.Fatal("more in common than either has")
		}
		if o.Depth > 0 && !near(o.Depth, 2*math.Min(p.BoundaryDist(o.At), q.BoundaryDist(o.At)), 1e-6) {
			t.Fatalf("no circle of %g at %v", o.Depth, o.At)
		}
	})
}

func TestOverlapIsTheSameBothWaysAndAnywhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q, m := drawStar(t, "p"), drawStar(t, "q").Shift(drawPoint(t, "at")), drawMove(t, "m")
		a := p.Overlap(q, touchTol).Area
		if b := q.Overlap(p, touchTol).Area; !near(a, b, 1e-3) {
			t.Fatalf("%g one way, %g the other", a, b)
		}
		if c := m.Polygon(p).Overlap(m.Polygon(q), touchTol); a > 10 && c.Depth > 1 && !near(a, c.Area, 1e-2) {
			t.Fatalf("%g before a move, %g after", a, c.Area)
		}
	})
}

func TestBoxesWithin(t *testing.T) {
	a, b := Box{Point{0, 0}, Point{10, 10}}, Box{Point{12, 0}, Point{20, 10}}
	if a.Within(b, 1) || !a.Within(b, 2) {
		t.Error("boxes 2 apart")
	}
	if u := a.Union(b); u.Width() != 20 || u.Height() != 10 {
		t.Errorf("union %v", u)
	}
}

func BenchmarkOverlapOfHexagons(b *testing.B) {
	var hex Polygon
	for i := range 6 {
		hex = append(hex, Point{500, 0}.Rot(float64(i)*math.Pi/3))
	}
	other := hex.Shift(Point{860, 20})
	for b.Loop() {
		hex.Overlap(other, touchTol)
	}
}
