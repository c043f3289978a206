// Package geom holds points, polygons and rigid moves in the plane, in float64
// millimetres, x to the right and y up, as seen from the front.
//
// Polygons are simple and counter-clockwise unless a function says otherwise.
// The package knows no timber.
package geom

import "math"

// A Point is a place or a displacement, in mm.
type Point struct{ X, Y float64 }

// Add, Sub and Mul are the vector operations.
func (p Point) Add(q Point) Point             { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) Sub(q Point) Point             { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) Mul(k float64) Point           { return Point{p.X * k, p.Y * k} }
func (p Point) Dot(q Point) float64           { return p.X*q.X + p.Y*q.Y }
func (p Point) Cross(q Point) float64         { return p.X*q.Y - p.Y*q.X }
func (p Point) Len() float64                  { return math.Hypot(p.X, p.Y) }
func (p Point) Dist(q Point) float64          { return p.Sub(q).Len() }
func (p Point) Lerp(q Point, t float64) Point { return p.Add(q.Sub(p).Mul(t)) }

// Perp is p turned a quarter turn anticlockwise.
func (p Point) Perp() Point { return Point{-p.Y, p.X} }

// Unit is p scaled to length 1; the zero vector stays zero.
func (p Point) Unit() Point {
	if l := p.Len(); l > 0 {
		return p.Mul(1 / l)
	}
	return p
}

// Rot is p turned about the origin by a radians, anticlockwise.
func (p Point) Rot(a float64) Point {
	s, c := math.Sincos(a)
	return Point{c*p.X - s*p.Y, s*p.X + c*p.Y}
}

// A Polygon is a closed outline by its corners, without the first repeated.
type Polygon []Point

// A Box is the smallest upright rectangle round something.
type Box struct{ Min, Max Point }

// A Move is a rigid move of the plane: mirror in the y axis (x to -x) first if
// Mirror, then turn by Turn radians anticlockwise, then shift by Shift. The
// zero Move moves nothing.
type Move struct {
	Mirror bool
	Turn   float64
	Shift  Point
}

// Apply moves a point.
func (m Move) Apply(p Point) Point {
	if m.Mirror {
		p.X = -p.X
	}
	return p.Rot(m.Turn).Add(m.Shift)
}
