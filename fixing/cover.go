package fixing

import (
	"math"

	"bowerwright/geom"
)

// A cover is the outline of a plate or batten on the backs.
type cover struct {
	outline geom.Polygon
	seam    int
}

// covers finds those near a place, in square cells, so that thousands cost
// little.
type covers struct{ cells map[[2]int][]cover }

func newCovers() *covers { return &covers{map[[2]int][]cover{}} }

func (g *covers) eachCell(p geom.Polygon, visit func([2]int)) {
	at := func(x float64) int { return int(math.Floor(x / pathCell)) }
	box := p.Box()
	for x := at(box.Min.X); x <= at(box.Max.X); x++ {
		for y := at(box.Min.Y); y <= at(box.Max.Y); y++ {
			visit([2]int{x, y})
		}
	}
}

func (g *covers) add(seam int, ps ...geom.Polygon) {
	for _, p := range ps {
		g.eachCell(p, func(at [2]int) { g.cells[at] = append(g.cells[at], cover{p, seam}) })
	}
}

// under gives the number of the seam whose plate or batten one of these would
// lie on, 0 for none.
func (g *covers) under(ps ...geom.Polygon) int {
	seam := 0
	for _, p := range ps {
		g.eachCell(p, func(at [2]int) {
			for _, c := range g.cells[at] {
				if seam == 0 && p.Overlap(c.outline, touch).Depth > touch {
					seam = c.seam
				}
			}
		})
	}
	return seam
}

// outline is a rectangle on the backs about a place of the seam: so long along
// it and so wide across it.
func (c contact) outline(s, long, wide float64) geom.Polygon {
	at := c.seam.From.Add(c.dir.Mul(s))
	u, v := c.dir.Mul(long/2), c.dir.Perp().Mul(wide/2)
	return geom.Polygon{at.Sub(u).Sub(v), at.Add(u).Sub(v), at.Add(u).Add(v), at.Sub(u).Add(v)}
}
