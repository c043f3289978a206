package statics

import (
	"math"
	"testing"
)

func TestTwoFramesByHand(t *testing.T) {
	const across = 20.0
	for _, weight := range []float64{0, 1} {
		c := newCluster(across, pine(1.1e6, 1.1e6/16), []Vec{{}, {0, across}}, same(twoScrews))
		c.holdBottom(c.cells[0])
		r := solve(t, &c.Model, Case{Gravity: Vec{0, -weight}, Nodal: c.cells[1].topLoad(Vec{0, 0, 5})})
		pull, slide, ratio := c.worst(r)
		t.Log(pull, slide, ratio, r.Steps, r.Residual, r.Balance)
	}
}

func TestFlowerWall(t *testing.T) {
	const across = 20.0
	for held := 1; held <= 3; held += 2 {
		for _, po := range []bool{false, true} {
			k := twoScrews
			k.pullOnly = po
			c := newCluster(across, pine(1.1e6, 1.1e6/16), flower(across), same(k))
			c.holdBottom(c.cells[1])
			if held == 3 {
				c.holdBottom(c.cells[2])
				c.holdBottom(c.cells[6])
			}
			r := solve(t, &c.Model, Case{Gravity: Vec{0, -1}, Nodal: c.cells[4].topLoad(Vec{0, 0, 20})})
			pull, slide, ratio := c.worst(r)
			out, twist := 0.0, 0.0
			for _, s := range r.Members {
				for _, e := range []Load{s.A, s.B} {
					out, twist = max(out, math.Abs(e.Moment[1])), max(twist, math.Abs(e.Moment[0]))
				}
			}
			t.Log(held, pull, slide, ratio, "top", r.Moves[c.cells[4].side[1]].Shift[2], out, twist, r.Steps, r.Residual, r.Balance)
		}
	}
}
