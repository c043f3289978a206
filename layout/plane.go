package layout

import (
	"math"

	"bowerwright/geom"
)

// A face is a straight edge of a frame's wood with the direction out of the
// wood, so that it means the same on a mirrored frame.
type face struct {
	from, to geom.Point
	dir, out geom.Point // unit vectors: from towards to, and away from the wood
}

// sideOf is the outside face of side k (from 1) of a counter-clockwise outline,
// after a move. Mirroring turns the outline clockwise; the way out follows.
func sideOf(outline geom.Polygon, k int, m geom.Move) face {
	return newFace(m.Apply(outline[k-1]), m.Apply(outline[k%len(outline)]), m.Mirror)
}

// newFace has the wood on the left of from-to, or on the right.
func newFace(from, to geom.Point, woodOnRight bool) face {
	dir := to.Sub(from).Unit()
	out := dir.Perp()
	if !woodOnRight {
		out = out.Mul(-1)
	}
	return face{from: from, to: to, dir: dir, out: out}
}

func (f face) length() float64 { return f.to.Sub(f.from).Len() }

// along is how far p lies along the face from its start.
func (f face) along(p geom.Point) float64 { return p.Sub(f.from).Dot(f.dir) }

// near is the point of the face nearest to p.
func (f face) near(p geom.Point) geom.Point {
	t := min(max(f.along(p), 0), f.length())
	return f.from.Add(f.dir.Mul(t))
}

func angle(p geom.Point) float64 { return math.Atan2(p.Y, p.X) }

// wrap brings an angle into (-pi, pi].
func wrap(a float64) float64 {
	a = math.Remainder(a, 2*math.Pi)
	if a <= -math.Pi {
		a += 2 * math.Pi
	}
	return a
}

func moved(p geom.Polygon, m geom.Move) geom.Polygon {
	out := make(geom.Polygon, len(p))
	for i, c := range p {
		out[i] = m.Apply(c)
	}
	return out
}

func boxOf(p []geom.Point) geom.Box {
	b := geom.Box{Min: p[0], Max: p[0]}
	for _, c := range p[1:] {
		b = joinBoxes(b, geom.Box{Min: c, Max: c})
	}
	return b
}

func joinBoxes(a, b geom.Box) geom.Box {
	return geom.Box{
		Min: geom.Point{X: min(a.Min.X, b.Min.X), Y: min(a.Min.Y, b.Min.Y)},
		Max: geom.Point{X: max(a.Max.X, b.Max.X), Y: max(a.Max.Y, b.Max.Y)},
	}
}

// within says whether two boxes are at most reach apart in both directions.
func within(a, b geom.Box, reach float64) bool {
	return a.Min.X-reach <= b.Max.X && b.Min.X-reach <= a.Max.X &&
		a.Min.Y-reach <= b.Max.Y && b.Min.Y-reach <= a.Max.Y
}

// signedArea is positive counter-clockwise (the shoelace formula).
func signedArea(p []geom.Point) float64 {
	sum := 0.0
	for i, c := range p {
		sum += c.Sub(p[0]).Cross(p[(i+1)%len(p)].Sub(p[0]))
	}
	return sum / 2
}

// centroid of the area of an outline, either way round. An outline without area
// has the mean of its corners.
func centroid(p []geom.Point) geom.Point {
	var sum, mean geom.Point
	twice := 0.0
	for i, c := range p {
		a, b := c.Sub(p[0]), p[(i+1)%len(p)].Sub(p[0])
		cross := a.Cross(b)
		twice += cross
		sum = sum.Add(a.Add(b).Mul(cross))
		mean = mean.Add(a.Mul(1 / float64(len(p))))
	}
	if twice == 0 {
		return p[0].Add(mean)
	}
	return p[0].Add(sum.Mul(1 / (3 * twice)))
}

func (f face) box() geom.Box { return boxOf([]geom.Point{f.from, f.to}) }

// approachOf finds the nearest points of two faces. Unless they cross, one of
// them is an end.
func approachOf(f, g face) approach {
	if p, ok := crossing(f, g); ok {
		return approach{a: p, b: p}
	}
	best := approach{a: f.from, b: g.near(f.from)}
	for _, c := range []approach{
		{a: f.to, b: g.near(f.to)},
		{a: f.near(g.from), b: g.from},
		{a: f.near(g.to), b: g.to},
	} {
		if c.distance() < best.distance() {
			best = c
		}
	}
	best.corners = f.isEnd(best.a) && g.isEnd(best.b)
	return best
}

func (f face) isEnd(p geom.Point) bool {
	return min(p.Dist(f.from), p.Dist(f.to)) < sameSpot
}

// crossing is the point where two faces properly cross.
func crossing(f, g face) (geom.Point, bool) {
	u, v := f.to.Sub(f.from), g.to.Sub(g.from)
	g1, g2 := u.Cross(g.from.Sub(f.from)), u.Cross(g.to.Sub(f.from))
	f1, f2 := v.Cross(f.from.Sub(g.from)), v.Cross(f.to.Sub(g.from))
	if g1*g2 >= 0 || f1*f2 >= 0 {
		return geom.Point{}, false
	}
	return f.from.Lerp(f.to, f1/(f1-f2)), true
}

// contains says whether p lies inside an outline, either way round, by counting
// the edges crossed on the way to the right.
func contains(outline geom.Polygon, p geom.Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y <= p.Y) != (b.Y <= p.Y) && p.X < crossesAt(a, b, p.Y) {
			in = !in
		}
	}
	return in
}

// crossesAt is the x at which the line through a and b has height y.
func crossesAt(a, b geom.Point, y float64) float64 {
	return a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
}

// crossings lists the x at which an outline crosses height y, unsorted, an even
// number of them.
func crossings(outline []geom.Point, y float64) []float64 {
	var xs []float64
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y <= y) != (b.Y <= y) {
			xs = append(xs, crossesAt(a, b, y))
		}
	}
	return xs
}
