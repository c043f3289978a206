package geom

import "math"

// Eps is the distance, in mm, below which two places are one place: a
// nanometre, the grain of every length that is typed or sawn. Sums of float64
// millimetres over the size of a hall stay well inside it.
const Eps = 1e-6

// Side gives side i, counted from 0, from corner i to the next one round.
func (p Polygon) Side(i int) Segment { return Segment{p[i], p[(i+1)%len(p)]} }

// Area is the enclosed area in mm²: positive counter-clockwise, negative
// clockwise (shoelace formula).
func (p Polygon) Area() float64 {
	if len(p) == 0 {
		return 0
	}
	sum := 0.0
	for i := range p { // measured from corner 0, so that far places lose no digits
		s := p.Side(i)
		sum += s.A.Sub(p[0]).Cross(s.B.Sub(p[0]))
	}
	return sum / 2
}

// Perimeter is the length once round, in mm.
func (p Polygon) Perimeter() float64 {
	sum := 0.0
	for i := range p {
		sum += p.Side(i).Len()
	}
	return sum
}

// Centroid is the centre of the enclosed area; the mean of the corners when
// there is no area.
func (p Polygon) Centroid() Point {
	if len(p) == 0 {
		return Point{}
	}
	area, sum := p.Area(), Point{}
	if math.Abs(area) < Eps*Eps {
		for _, q := range p {
			sum = sum.Add(q)
		}
		return sum.Mul(1 / float64(len(p)))
	}
	for i := range p {
		s := p.Side(i)
		a, b := s.A.Sub(p[0]), s.B.Sub(p[0])
		sum = sum.Add(a.Add(b).Mul(a.Cross(b)))
	}
	return p[0].Add(sum.Mul(1 / (6 * area)))
}

// Reverse gives the same outline the other way round; corner 0 stays first.
func (p Polygon) Reverse() Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[(len(p)-i)%len(p)] = q
	}
	return r
}

// CCW gives the outline counter-clockwise, reversed if need be.
func (p Polygon) CCW() Polygon {
	if p.Area() < 0 {
		return p.Reverse()
	}
	return p
}

// From gives the same outline with corner i first.
func (p Polygon) From(i int) Polygon {
	r := make(Polygon, 0, len(p))
	return append(append(r, p[i:]...), p[:i]...)
}

// Shift gives the outline displaced by d.
func (p Polygon) Shift(d Point) Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[i] = q.Add(d)
	}
	return r
}

// Scale gives the outline k times as large, about the origin.
func (p Polygon) Scale(k float64) Polygon {
	r := make(Polygon, len(p))
	for i, q := range p {
		r[i] = q.Mul(k)
	}
	return r
}

// Box is the smallest upright rectangle round the corners; the zero Box for no
// corners.
func (p Polygon) Box() Box {
	if len(p) == 0 {
		return Box{}
	}
	b := Box{p[0], p[0]}
	for _, q := range p[1:] {
		b = b.Union(Box{q, q})
	}
	return b
}

// Width is the extent in x, Height the extent in y, in mm.
func (b Box) Width() float64  { return b.Max.X - b.Min.X }
func (b Box) Height() float64 { return b.Max.Y - b.Min.Y }

// Centre is the middle of the box.
func (b Box) Centre() Point { return b.Min.Lerp(b.Max, 0.5) }

// Union is the smallest box round both.
func (b Box) Union(c Box) Box {
	return Box{
		Point{math.Min(b.Min.X, c.Min.X), math.Min(b.Min.Y, c.Min.Y)},
		Point{math.Max(b.Max.X, c.Max.X), math.Max(b.Max.Y, c.Max.Y)},
	}
}

// Within says whether the boxes come within d mm of each other in both
// directions; with d negative, whether they overlap by more than that.
func (b Box) Within(c Box, d float64) bool {
	return b.Min.X <= c.Max.X+d && c.Min.X <= b.Max.X+d &&
		b.Min.Y <= c.Max.Y+d && c.Min.Y <= b.Max.Y+d
}

// InsideAngle is the angle in radians on the inside of corner i, counted from
// 0, of a counter-clockwise outline: more than π at a re-entrant corner.
func (p Polygon) InsideAngle(i int) float64 {
	n := len(p)
	in, out := p.Side((i+n-1)%n).Vec(), p.Side(i).Vec()
	return math.Pi - math.Atan2(in.Cross(out), in.Dot(out))
}

// Crossings lists the pairs of sides, counted from 0, that meet anywhere but
// at the corner they share; empty for a simple outline.
func (p Polygon) Crossings() [][2]int {
	var pairs [][2]int
	n := len(p)
	for i := range p {
		for j := i + 1; j < n; j++ {
			if p.sidesMeet(i, j) {
				pairs = append(pairs, [2]int{i, j})
			}
		}
	}
	return pairs
}

// sidesMeet says whether sides i < j meet where they should not. Neighbours
// may only share their corner, so for them it is enough to look for one folded
// back on the other.
func (p Polygon) sidesMeet(i, j int) bool {
	a, b := p.Side(i), p.Side(j)
	if n := len(p); j != i+1 && !(i == 0 && j == n-1) {
		return a.Dist(b) < Eps
	}
	u, v := a.Vec().Unit(), b.Vec().Unit()
	if u == (Point{}) || v == (Point{}) {
		return true
	}
	// Folded back: the shorter one's far end lies on the other side.
	return u.Dot(v) < 0 && math.Abs(u.Cross(v))*math.Min(a.Len(), b.Len()) < Eps
}

// IsSimple says whether the outline has at least three corners and no side
// meets another but at their shared corner.
func (p Polygon) IsSimple() bool { return len(p) >= 3 && len(p.Crossings()) == 0 }

// Contains says whether q is inside or within Eps of the boundary.
func (p Polygon) Contains(q Point) bool {
	return p.BoundaryDist(q) <= Eps || p.encloses(q)
}

// encloses is the even-odd rule; what it says on the boundary means nothing.
func (p Polygon) encloses(q Point) bool {
	in := false
	for i := range p {
		s := p.Side(i)
		if (s.A.Y > q.Y) != (s.B.Y > q.Y) && q.X < s.xAt(q.Y) {
			in = !in
		}
	}
	return in
}

// BoundaryDist is the distance in mm from q to the nearest side.
func (p Polygon) BoundaryDist(q Point) float64 {
	d := math.Inf(1)
	for i := range p {
		d = math.Min(d, p.Side(i).PointDist(q))
	}
	return d
}
