package passage

import (
	"math"
	"math/rand/v2"
	"testing"

	"bowerwright/geom"
)

func cloud(r *rand.Rand, n int) []geom.Point {
	var ps []geom.Point
	for range n {
		ps = append(ps, geom.Point{X: math.Round(r.Float64() * 40), Y: math.Round(r.Float64() * 30)})
	}
	return ps
}

// The hull holds every point, has only points of the cloud for corners, and
// turns left at each.
func TestHull(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		ps := cloud(r, 3+r.IntN(20))
		h := Hull(ps)
		if len(h) < 3 {
			continue // all in a line
		}
		for i := range h {
			if h.Side(i).Vec().Cross(h.Side((i+1)%len(h)).Vec()) <= 0 {
				t.Fatalf("corner %d of %v does not turn left", i+1, h)
			}
			if !contains(ps, h[i]) {
				t.Fatalf("%v is no point of %v", h[i], ps)
			}
		}
		for _, p := range ps {
			if !h.Contains(p) {
				t.Fatalf("%v is outside %v", p, h)
			}
		}
	}
	if h := Hull([]geom.Point{{}, {X: 1}, {X: 2}, {X: 2}}); len(h) > 2 {
		t.Errorf("a line has the hull %v", h)
	}
}

func contains(ps []geom.Point, p geom.Point) bool {
	for _, q := range ps {
		if p == q {
			return true
		}
	}
	return false
}

func bodyOf(t *testing.T, ps []geom.Point, thick float64) *Body {
	t.Helper()
	b, err := Piece{Outlines: []geom.Polygon{ps}, Thickness: thick}.Body()
	if err != nil {
		t.Skip(err)
	}
	return b
}

// Between cuts, width and height are the sinusoids that the arcs say.
func TestArcsAreTheSizes(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		b := bodyOf(t, append(cloud(r, 8), geom.Point{X: -1}, geom.Point{Y: -1}, geom.Point{X: 50, Y: 50}), 5)
		at := 0.0
		for _, a := range b.arcs {
			if a.from-at > 1e-9 || a.to <= a.from {
				t.Fatalf("the arcs leave out turns from %g to %g", at, a.from)
			}
			at = a.to
			turn := a.from + r.Float64()*(a.to-a.from)
			w, h := a.size(turn)
			if W, H := b.Size(turn); math.Abs(w-W)+math.Abs(h-H) > 1e-9 {
				t.Fatalf("turned %g: %g x %g, not %g x %g", turn, w, h, W, H)
			}
		}
		if math.Abs(at-math.Pi) > 1e-9 {
			t.Fatalf("the arcs end at %g", at)
		}
	}
}

// flattest is no worse than any of many small steps, and is within its limit.
func TestFlattestAgainstSmallSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		b := bodyOf(t, append(cloud(r, 7), geom.Point{X: -1}, geom.Point{Y: -1}, geom.Point{X: 60, Y: 9}), 5)
		limit := 10 + 70*r.Float64()
		turn, high, ok := b.flattest(limit)
		for i := range 3000 {
			if w, h := b.Size(float64(i) * math.Pi / 3000); w <= limit && (!ok || h < high-1e-6) {
				t.Fatalf("%v within %g: step %d is %g high, found %g (%v)", b.hull, limit, i, h, high, ok)
			}
		}
		if w, h := b.Size(turn); ok && (w > limit+Snug || math.Abs(h-high) > Snug) {
			t.Fatalf("turned %g: %g x %g, said %g within %g", turn, w, h, high, limit)
		}
	}
}

// What is drawn in the opening is as wide and high as what is said to be taken.
func TestSeenIsAsLargeAsTaken(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		b := bodyOf(t, append(cloud(r, 7), geom.Point{X: -1}, geom.Point{Y: -1}, geom.Point{X: 60, Y: 9}), 5)
		for _, h := range []Hold{{Kind: Broadside, Turn: 3 * r.Float64()}, {Kind: Leaned, Turn: 3 * r.Float64(), Lean: 1.5 * r.Float64()}} {
			box, takes := b.Seen(h).Box(), b.Takes(h)
			if math.Abs(box.Width()-takes.Across)+math.Abs(box.Height()-takes.Up) > 1e-9 || box.Centre().Len() > 1e-9 {
				t.Fatalf("%v: drawn %v, takes %v", h, box, takes)
			}
		}
	}
}

// The lean found leaves as much as the best of many small steps.
func TestLeanAgainstSmallSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	b := bodyOf(t, []geom.Point{{}, {X: 9}, {Y: 9}}, 1)
	for range 500 {
		b.thick = 1 + 20*r.Float64()
		free := Room{Across: 5 + 60*r.Float64(), Up: 5 + 60*r.Float64()}
		high := 80 * r.Float64()
		_, got := b.lean(high, free)
		best := math.Inf(-1)
		for i := range 2001 {
			s, c := math.Sincos(float64(i) * math.Pi / 4000)
			best = math.Max(best, math.Min(free.Across-high*s-b.thick*c, free.Up-high*c-b.thick*s))
		}
		if got < best-1e-9 || got > best+0.1 {
			t.Fatalf("%g x %g in %v: %g, steps %g", high, b.thick, free, got, best)
		}
	}
}
