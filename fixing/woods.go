package fixing

import (
	"math"

	"bowerwright/geom"
	"bowerwright/layout"
)

// A solid is one board as a prism: a four-sided outline, counter-clockwise,
// from the front edges back to its rise.
type solid struct {
	outline geom.Polygon
	box     geom.Box
	rise    float64
}

// woods finds the boards near a place, by a grid of square cells.
type woods struct {
	solids  []solid
	cell    float64
	cells   map[[2]int][]int32
	deepest float64
	seen    []int // by solid: the query that last looked at it
	query   int
}

func newWoods(l layout.Layout, boards []Board) *woods {
	g := &woods{cells: map[[2]int][]int32{}}
	for i, f := range l.Frames {
		rise := boards[i].Rise().MM()
		g.deepest = max(g.deepest, rise)
		for k := range f.Sides() {
			j := (k + 1) % len(f.Outside)
			outline := geom.Polygon{f.Outside[k], f.Outside[j], f.Inside[j], f.Inside[k]}.CCW()
			s := solid{outline, outline.Box(), rise}
			g.cell += max(s.box.Width(), s.box.Height())
			g.solids = append(g.solids, s)
		}
	}
	g.seen = make([]int, len(g.solids))
	g.cell = max(g.cell/float64(max(len(g.solids), 1)), leastCell)
	for i, s := range g.solids {
		g.eachCell(s.box, func(at [2]int) { g.cells[at] = append(g.cells[at], int32(i)) })
	}
	return g
}

// leastCell, in mm, keeps the grid of the smallest frames from growing finer
// than it is worth.
const leastCell = 50

func (g *woods) eachCell(b geom.Box, visit func([2]int)) {
	at := func(x float64) int { return int(math.Floor(x / g.cell)) }
	for x := at(b.Min.X); x <= at(b.Max.X); x++ {
		for y := at(b.Min.Y); y <= at(b.Max.Y); y++ {
			visit([2]int{x, y})
		}
	}
}

// A ray runs in space from a point, z behind the front edges, to another. At a
// constant depth dz is 0.
type ray struct {
	from, to geom.Point
	z, dz    float64
}

// hit gives the least share of the way along r at which it is inside wood for
// longer than touch, 1 when it is nowhere.
func (g *woods) hit(r ray) float64 {
	first := 1.0
	box := geom.Polygon{r.from, r.to}.Box()
	g.query++
	g.eachCell(box, func(at [2]int) {
		for _, i := range g.cells[at] {
			if g.seen[i] == g.query {
				continue
			}
			g.seen[i] = g.query
			if s := &g.solids[i]; s.box.Within(box, 0) {
				first = min(first, s.hit(r))
			}
		}
	})
	return first
}

// touch, in mm, is how far a ray may run in wood and still count as passing by:
// it covers the last bits of sums of mm.
const touch = 1e-3

func (s *solid) hit(r ray) float64 {
	from, to := 0.0, 1.0
	way := r.to.Sub(r.from)
	for i := range s.outline {
		side := s.outline.Side(i)
		v := side.Vec()
		// Wood is where both are over 0: on the left of every side.
		if !half(v.Cross(r.from.Sub(side.A)), v.Cross(way), &from, &to) {
			return 1
		}
	}
	if !half(r.z, r.dz, &from, &to) || !half(s.rise-r.z, -r.dz, &from, &to) {
		return 1
	}
	if (to-from)*(way.Len()+math.Abs(r.dz)) <= touch {
		return 1
	}
	return from
}

// half narrows from..to to where a + t b >= 0; false when nothing is left. What
// runs along the very edge is in: else a ray along a mitre would pass between
// its two boards.
func half(a, b float64, from, to *float64) bool {
	switch {
	case b > 0:
		*from = max(*from, -a/b)
	case b < 0:
		*to = min(*to, -a/b)
	case a < 0:
		return false
	}
	return *from < *to
}
