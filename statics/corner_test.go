package statics

import (
	"fmt"
	"math"
	"testing"
)

// softCorners is a flower wall whose corners are two nodes each, joined over the
// mitred face by a patch of two by two springs: a quarter of the stiffness of the
// face at each, a third of it in shear.
func softCorners(face float64) *cluster {
	const wide, deep = 0.866, 3.5
	c := newCluster(acrossFlats, handPine(), nil, same(twoScrews))
	for i, mid := range flower(acrossFlats) {
		h := &cell{mid: mid}
		group := fmt.Sprintf("frame %d", i+1)
		radius := (acrossFlats - 0.75) / math.Sqrt(3)
		var after [6]Node // the half of a corner that belongs to the side after it
		for k := range 6 {
			s, co := math.Sincos(float64(k) * math.Pi / 3)
			out := Vec{co, s}
			at := mid.Add(out.Mul(radius))
			h.corner[k], after[k] = c.Node(at, group), c.Node(at, group)
			along := Vec{0, 0, 1}.Cross(out)
			for _, x := range []float64{-wide / 4, wide / 4} {
				for _, z := range []float64{-deep / 4, deep / 4} {
					spot := at.Add(out.Mul(x)).Add(Vec{0, 0, z})
					c.Spring(Spring{A: h.corner[k], B: after[k], At: spot, Axis: along, Along: face / 4, Across: face / 12})
				}
			}
		}
		for k := range 6 {
			a, b := after[k], h.corner[(k+1)%6]
			h.side[k] = c.Node(c.At(a).Add(c.At(b)).Mul(0.5), group)
			for _, ends := range [][2]Node{{a, h.side[k]}, {h.side[k], b}} {
				c.Member(Member{A: ends[0], B: ends[1], Depth: Vec{0, 0, 1}, Section: handPine()})
			}
		}
		c.cells = append(c.cells, h)
	}
	c.joinAll(same(twoScrews))
	return c
}

// TestSoftCorners: how far the top moves when the mitres give, against the other
// solver's figures. Where exactly its springs stood on the face is not known,
// which makes up to 3 %; rigid mitres are the limit of stiff ones.
func TestSoftCorners(t *testing.T) {
	rigid := flowerWall(1, twoScrews)
	top := func(w *cluster) float64 { return solve(t, &w.Model, w.pushed(20)).Moves[w.cells[4].side[1]].Shift[2] }
	near(t, "very stiff", topWith(top, 6.7e9), top(rigid), 1e-4)
	last := top(rigid)
	for _, c := range []struct{ face, top float64 }{{6.7e6, 5.93}, {6.7e5, 6.09}, {6.7e4, 7.71}} {
		got := topWith(top, c.face)
		near(t, fmt.Sprintf("a face of %v", c.face), got, c.top, 0.03)
		if got <= last {
			t.Errorf("a softer face, %v, moves less: %v after %v", c.face, got, last)
		}
		last = got
	}
}

func topWith(top func(*cluster) float64, face float64) float64 {
	w := softCorners(face)
	w.holdBottom(w.cells[1])
	return top(w)
}
