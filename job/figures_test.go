package job

import (
	"math"
	"testing"

	"bowerwright/unit"
)

// leftmost gives the corner of a kind's outline that stands furthest left.
func leftmost(outline []XY) XY {
	best := outline[0]
	for _, c := range outline {
		if c[0] < best[0] {
			best = c
		}
	}
	return best
}

// Measures and words of a kind reach the constructor they belong to: heights
// by plane geometry, in inches.
func TestMeasuresReachTheShape(t *testing.T) {
	for _, c := range []struct {
		line   string
		height float64
	}{
		{"A = square: side 20", 20},
		{"A = square: side 20, stands on corner", 20 * math.Sqrt2},
		{"A = kite: width 20, top 8, bottom 18", 26},
		{"A = arch: segments 4, outside 50", 25},
		{"A = arch: segments 4, outside 50, circle flats", 25 / math.Cos(math.Pi/8)},
		{"A = half hexagon: width 40, open yes", 20 * math.Sqrt(3) / 2},
		{"A = elongated hexagon: width 24, height 50, uprights 30", 50},
	} {
		near(t, c.line, worked(t, spec(c.line, "A1 at 0 0")).Overall.AskedHeight.MM/inch, c.height, 1e-3)
	}
	kite := worked(t, spec("A = kite: width 20, top 8, bottom 18", "A1 at 0 0")).Frames[0].Outside
	near(t, "the kite's widest level", leftmost(kite)[1]/inch, 18, 0.1) // on the tape
}

// Two squares of 10 in on each other and one beside, gaps of 1/4 in: seams at
// 10 1/8 and 5 in, one square 10 1/4 in over the floor, 20 in of board on it.
func TestHeightsOverTheFloor(t *testing.T) {
	s := spec("Q = square: side 10, spare 2", "Q1 at 0 0", "Q2 side 1 on Q1 side 3", "Q3 side 4 on Q1 side 2")
	s.Gap = ptr(unit.Inch / 4)
	r := worked(t, s)
	near(t, "seam", max(r.Seams[0].Height.MM, r.Seams[1].Height.MM)/inch, 10.125, 1e-3)
	near(t, "seam", min(r.Seams[0].Height.MM, r.Seams[1].Height.MM)/inch, 5, 1e-3)
	near(t, "upper square", frameOf(t, r, "Q2").Lowest.MM/inch, 10.25, 1e-3)
	near(t, "on the floor", r.Overall.StandingLength.MM/inch, 20, 1e-3)
	if len(r.Overall.Hanging) != 1 || len(r.Overall.Standing) != 2 {
		t.Errorf("%v hang, %v stand", r.Overall.Hanging, r.Overall.Standing)
	}
	if k := r.Kinds[0]; k.Make != 5 || k.Placed != 3 {
		t.Errorf("%d made, %d placed", k.Make, k.Placed)
	}
	// Each part is 10 in outside and 8 1/2 inside: 9 1/4 in of a board.
	near(t, "used", r.Timber[0].Used, 20*9.25/(96*float64(r.Timber[0].Buy)), 0.0006)
}
