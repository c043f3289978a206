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

func (f face) segment() geom.Segment { return geom.Segment{A: f.from, B: f.to} }

func (f face) box() geom.Box { return geom.Polygon{f.from, f.to}.Box() }

func (f face) length() float64 { return f.segment().Len() }

// along is how far p lies along the face from its start.
func (f face) along(p geom.Point) float64 { return p.Sub(f.from).Dot(f.dir) }

// near is the point of the face nearest to p.
func (f face) near(p geom.Point) geom.Point { return f.segment().Nearest(p) }

// approachOf finds the nearest points of two faces.
func approachOf(f, g face) approach {
	gap := f.segment().Gap(g.segment())
	return approach{a: gap.A, b: gap.B, corners: f.isEnd(gap.A) && g.isEnd(gap.B)}
}

func (f face) isEnd(p geom.Point) bool {
	return min(p.Dist(f.from), p.Dist(f.to)) < sameSpot
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
