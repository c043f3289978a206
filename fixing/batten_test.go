package fixing

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"

	"pgregory.net/rapid"
)

// onWood says whether a point lies on the back of one of a seam's two frames.
func onWood(l layout.Layout, s layout.Seam, q geom.Point) bool {
	for _, side := range s.Sides {
		f := l.Frames[side.Frame]
		if f.Outside.Contains(q) && !f.Inside.Contains(q) {
			return true
		}
	}
	return false
}

// Nothing of a batten is seen past an outline or in an opening, whatever the
// mitres at its ends; it is a length of the narrower frame's board, sawn to a
// step of a quarter inch.
func TestBattensKeepToTheirBoards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := &made{}
		side := rapid.Float64Range(14, 40).Draw(t, "side")
		n := rapid.IntRange(3, 8).Draw(t, "sides")
		low, high := flat, board(0.75, rapid.SampledFrom([]float64{2.5, 3.5}).Draw(t, "upper board"), false)
		m.box("box", side, 30, low)
		m.regular("top", n, side/math.Tan(math.Pi/float64(n)), high)
		m.at("A", "box", 0, 0)
		m.attach("B", "top", "A", 1, 3)
		l, problems := layout.Build(m.kinds, m.places, layout.Settings{})
		if len(problems) > 0 || len(l.Seams) != 1 {
			t.Skip("no such piece")
		}
		p, bad := Fix(l, []Board{low, high}, Settings{Flat: Battens})
		if len(bad) > 0 {
			if side > 30 {
				t.Fatalf("a seam of %g in takes no batten: %s", side, bad[0].Code)
			}
			return
		}
		q := p.Seams[0].Plates[0]
		if narrow := min(low.Width, high.Width).MM(); math.Abs(q.Width-narrow) > 1e-9 {
			t.Fatalf("%g mm wide, the narrower board %g", q.Width, narrow)
		}
		if steps := q.Length / (inch / 4); math.Abs(steps-math.Round(steps)) > 1e-6 || q.Length <= 0 {
			t.Fatalf("%g in long", q.Length/inch)
		}
		o := pieceOutline(l.Seams[0], Battened, q)
		mid := geom.Point{}
		for _, c := range o {
			mid = mid.Add(c.Mul(0.25))
		}
		for i := range o {
			for step := range 20 {
				at := o[i].Add(o[(i+1)%4].Sub(o[i]).Mul(float64(step) / 20))
				if at = at.Add(mid.Sub(at).Mul(1e-4)); !onWood(l, l.Seams[0], at) {
					t.Fatalf("%v of %v is on no board", at, o)
				}
			}
		}
	})
}

// By hand: over a triangle's side of 16 in a board of 3 1/2 in keeps, 1 3/4 in
// above the seam, 1 3/4 in x tan 60° = 3.03 in off either end: 9.94 in, so 9 3/4.
func TestBattenOnATriangle(t *testing.T) {
	m := &made{}
	m.box("box", 16, 16, flat)
	m.regular("tri", 3, 16/math.Tan(math.Pi/3), flat)
	m.at("A", "box", 0, 0)
	m.attach("B", "tri", "A", 1, 3)
	_, p := m.fix(t, Settings{Flat: Battens})
	if q := p.Seams[0].Plates[0]; fmt.Sprintf("%.4f at %.4f of frame %d", q.Length/inch, q.Along/inch, q.Of) != "9.7500 at 8.0000 of frame 1" {
		t.Errorf("%.4f in at %.4f of frame %d", q.Length/inch, q.Along/inch, q.Of)
	}
}

// Battens about a shared corner are shortened, and only as much as is needed:
// the first laid lies on all of its boards.
func TestBattensAreShortened(t *testing.T) {
	_, p := flatComb(4, 24, flat).fix(t, Settings{Flat: Battens})
	// 24 in across flats has sides of 13.86 in; mitres of 30° take 1 3/4 x tan 30°
	// = 1.01 in off either end.
	short := 0
	for i, s := range p.Seams {
		switch got := s.Plates[0].Length / inch; {
		case got < 11.75-1e-6:
			short++
		case i == 0 && math.Abs(got-11.75) > 1e-6:
			t.Errorf("the first batten is %g in long", got)
		}
	}
	if short == len(p.Seams) {
		t.Errorf("%d of %d battens are shortened", short, len(p.Seams))
	}
}
