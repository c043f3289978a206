package geom

import (
	"math"
	"slices"
)

// An Interval is a stretch of a level line, in mm.
type Interval struct{ From, To float64 }

// Len is its length in mm.
func (i Interval) Len() float64 { return i.To - i.From }

// IntervalsAt gives the stretches of the level line y that lie inside an
// outline of either sense, from left to right. At a corner's own level a
// stretch counts as just above it.
func (p Polygon) IntervalsAt(y float64) []Interval {
	var xs []float64
	for i := range p {
		if s := p.Side(i); (s.A.Y > y) != (s.B.Y > y) {
			xs = append(xs, s.xAt(y))
		}
	}
	slices.Sort(xs)
	var ivs []Interval
	for i := 0; i+1 < len(xs); i += 2 {
		ivs = append(ivs, Interval{xs[i], xs[i+1]})
	}
	return ivs
}

// Common gives the stretches that lie in both lists; each list is sorted and
// without overlaps in itself.
func Common(a, b []Interval) []Interval {
	var both []Interval
	for i, j := 0, 0; i < len(a) && j < len(b); {
		iv := Interval{math.Max(a[i].From, b[j].From), math.Min(a[i].To, b[j].To)}
		if iv.From < iv.To {
			both = append(both, iv)
		}
		if a[i].To < b[j].To {
			i++
		} else {
			j++
		}
	}
	return both
}

// An Overlap is what two outlines have in common.
type Overlap struct {
	Area  float64 // mm²
	Depth float64 // mm, see Polygon.Overlap
	At    Point   // the middle of the deepest place found
}

// Overlap measures the region inside both outlines, convex or not, of either
// sense. The region is cut into level slabs at every corner and crossing;
// within a slab all sides run straight, so the area is exact. Depth is the
// diameter of the largest circle found in the region, looked for round the
// middles of the slabs: for two sides pushed into each other it is how far,
// and it is never more than the true figure. Regions shallower than tol mm
// count as touching and give the zero Overlap.
func (p Polygon) Overlap(q Polygon, tol float64) Overlap {
	var o Overlap
	if !p.Box().Within(q.Box(), -tol) {
		return o
	}
	ys := p.slabs(q)
	for i := 1; i < len(ys); i++ {
		h, mid := ys[i]-ys[i-1], (ys[i]+ys[i-1])/2
		for _, iv := range Common(p.IntervalsAt(mid), q.IntervalsAt(mid)) {
			o.Area += iv.Len() * h
			c := Point{(iv.From + iv.To) / 2, mid}
			if d := p.room(q, &c, math.Max(iv.Len(), h)/2); d > o.Depth {
				o.Depth, o.At = d, c
			}
		}
	}
	if o.Depth <= tol {
		return Overlap{}
	}
	return o
}

// room climbs from c to a place with more room, by steps of halving size, and
// gives the diameter of the circle there.
func (p Polygon) room(q Polygon, c *Point, step float64) float64 {
	best := p.clear(q, *c)
	for range 12 { // from half a slab down to its 8000th part
		for _, d := range []Point{{step, 0}, {-step, 0}, {0, step}, {0, -step}} {
			if at := c.Add(d); p.clear(q, at) > best {
				best, *c = p.clear(q, at), at
			}
		}
		step /= 2
	}
	return 2 * best
}

// clear is the distance from c to the nearer boundary, 0 outside either.
func (p Polygon) clear(q Polygon, c Point) float64 {
	if !p.encloses(c) || !q.encloses(c) {
		return 0
	}
	return math.Min(p.BoundaryDist(c), q.BoundaryDist(c))
}

// slabs lists the levels of all corners and crossings, sorted, each once.
func (p Polygon) slabs(q Polygon) []float64 {
	var ys []float64
	for _, c := range p {
		ys = append(ys, c.Y)
	}
	for _, c := range q {
		ys = append(ys, c.Y)
	}
	for i := range p {
		for j := range q {
			if c, ok := p.Side(i).Cross(q.Side(j)); ok {
				ys = append(ys, c.Y)
			}
		}
	}
	slices.Sort(ys)
	return slices.Compact(ys)
}
