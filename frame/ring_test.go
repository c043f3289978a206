package frame

import (
	"math"
	"testing"

	"bowerwright/unit"

	"pgregory.net/rapid"
)

// A ring sawn round lies in its blanks: from where they are glued up, every
// point of both circles is wood, whatever the board; and no shorter blank on the
// tape covers the outside, but for boards that reach near the middle.
func TestBlanksCoverTheRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 24).Draw(t, "n")
		outside := unit.Length(rapid.Int64Range(100, 3000).Draw(t, "outside")) * mm
		inside := unit.Length(float64(outside) * rapid.Float64Range(0.1, 0.95).Draw(t, "share"))
		R, r, c := outside.MM()/2, inside.MM()/2, math.Cos(math.Pi/float64(n))
		board, _ := unit.FromMM((R-r*c)*rapid.Float64Range(1, 3).Draw(t, "wide"), unit.Nanometre, unit.Up)
		mark := rapid.SampledFrom([]unit.Length{0, mm, inch / 32}).Draw(t, "mark")
		ring, err := RingSawnRound(n, outside, inside, board, mark, OnSide)
		if err != nil {
			t.Fatal(err)
		}
		far, near := math.Inf(-1), math.Inf(1) // of the middle of side 1, and of the inside corners
		a, b := ring.Blanks.Corners[0], ring.Blanks.Corners[1]
		middle := ring.Blanks.Corners.Centroid()
		face := a.Lerp(b, 0.5).Dist(middle)
		far = math.Max(far, face)
		near = math.Min(near, (face-board.MM())/c)
		long := ring.Blanks.Length(1)
		if near > r+1e-5 || far < R-1e-5 && long < ring.WholeWidth-1e-5 {
			t.Fatalf("wood from %v to %v, ring from %v to %v", near, far, r, R)
		}
		if far < R-1e-5 {
			t.Fatalf("the board is %v wide, %v would do, and the outside is not covered", board.MM(), ring.LeastBoard)
		}
		if least := 2 * R * math.Tan(math.Pi/float64(n)); long > least+mark.MM()+1e-5 && near*c > r*c*halfIn+mark.MM()/2/math.Tan(math.Pi/float64(n))+1e-5 {
			t.Fatalf("blanks of %v, %v would do", long, least)
		}
	})
}

// Two hoops from boards of 120 mm: 2 x 450 tan 15 = 241.2 and 2 x 250 tan 22.5 =
// 207.1 mm, not the 260.6 and 260.2 of the whole width.
func TestLeastBlanks(t *testing.T) {
	for _, c := range []struct {
		n               int
		outside, inside unit.Length
		least, whole    float64
	}{{12, 900 * mm, 760 * mm, 241.15, 261.01}, {8, 500 * mm, 420 * mm, 207.11, 260.13}} {
		r, err := RingSawnRound(c.n, c.outside, c.inside, 120*mm, 0, OnSide)
		if err != nil {
			t.Fatal(err)
		}
		want(t, "least", r.Blanks.Length(1), c.least, 0.01)
		want(t, "whole width", r.WholeWidth, c.whole, 0.01)
		if up, _ := RingSawnRound(c.n, c.outside, c.inside, 120*mm, mm, OnSide); up.Blanks.Length(1) < c.least || math.Abs(math.Mod(up.Blanks.Length(1)+0.5, 1)-0.5) > 1e-6 {
			t.Errorf("on the tape %v", up.Blanks.Length(1))
		}
	}
}
