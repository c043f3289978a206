package fixing

import (
	"math"

	"bowerwright/geom"
)

// A path is the axis of a fastener in the wood, in space, and its radius.
type path struct {
	a, b   [3]float64
	radius float64
	seam   int
}

func pathOf(p, q geom.Point, zp, zq, diameter float64, seam int) path {
	return path{[3]float64{p.X, p.Y, zp}, [3]float64{q.X, q.Y, zq}, diameter / 2, seam}
}

// paths are those of the fasteners already placed, in square cells.
type paths struct {
	all   []path
	cells map[[2]int][]int
}

// pathCell, in mm, is about the length of a screw with its surroundings.
const pathCell = 100

func newPaths() *paths { return &paths{cells: map[[2]int][]int{}} }

func (p path) eachCell(more float64, visit func([2]int)) {
	at := func(x float64) int { return int(math.Floor(x / pathCell)) }
	for x := at(min(p.a[0], p.b[0]) - more); x <= at(max(p.a[0], p.b[0])+more); x++ {
		for y := at(min(p.a[1], p.b[1]) - more); y <= at(max(p.a[1], p.b[1])+more); y++ {
			visit([2]int{x, y})
		}
	}
}

func (g *paths) add(ps ...path) {
	for _, p := range ps {
		p.eachCell(0, func(at [2]int) { g.cells[at] = append(g.cells[at], len(g.all)) })
		g.all = append(g.all, p)
	}
}

// clearance is the least wood between p and the paths within reach of it, and
// the seam of the nearest; reach when none is.
func (g *paths) clearance(p path, reach float64) (float64, int) {
	least, seam := reach, 0
	p.eachCell(reach+pathCell/4, func(at [2]int) {
		for _, i := range g.cells[at] {
			if d := p.dist(g.all[i]) - p.radius - g.all[i].radius; d < least {
				least, seam = d, g.all[i].seam
			}
		}
	})
	return least, seam
}

// dist is the shortest distance between two axes in space: the lines' nearest
// points where they lie on both, else one of the ends to the other axis.
func (p path) dist(q path) float64 {
	u, v, d := sub(p.b, p.a), sub(q.b, q.a), sub(p.a, q.a)
	a, b, c := dot(u, u), dot(u, v), dot(v, v)
	if det := a*c - b*b; det > 1e-9*a*c {
		s, t := (b*dot(v, d)-c*dot(u, d))/det, (a*dot(v, d)-b*dot(u, d))/det
		if s >= 0 && s <= 1 && t >= 0 && t <= 1 {
			return norm(sub(p.point(s), q.point(t)))
		}
	}
	return min(q.toPoint(p.a), q.toPoint(p.b), p.toPoint(q.a), p.toPoint(q.b))
}

func (p path) point(t float64) [3]float64 {
	return [3]float64{p.a[0] + t*(p.b[0]-p.a[0]), p.a[1] + t*(p.b[1]-p.a[1]), p.a[2] + t*(p.b[2]-p.a[2])}
}

func (p path) toPoint(x [3]float64) float64 {
	v := sub(p.b, p.a)
	t := 0.0
	if l := dot(v, v); l > 0 {
		t = clamp(dot(sub(x, p.a), v)/l, 0, 1)
	}
	return norm(sub(x, p.point(t)))
}

func sub(a, b [3]float64) [3]float64 { return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func norm(a [3]float64) float64 { return math.Sqrt(dot(a, a)) }
