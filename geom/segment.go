package geom

import "math"

// A Segment is a straight line from A to B, in mm.
type Segment struct{ A, B Point }

// Vec is the displacement from A to B.
func (s Segment) Vec() Point { return s.B.Sub(s.A) }

// Len is the length in mm.
func (s Segment) Len() float64 { return s.A.Dist(s.B) }

// Mid is the middle.
func (s Segment) Mid() Point { return s.A.Lerp(s.B, 0.5) }

// xAt is where the segment's line crosses the level y; the segment is not
// level.
func (s Segment) xAt(y float64) float64 {
	return s.A.X + (y-s.A.Y)/(s.B.Y-s.A.Y)*(s.B.X-s.A.X)
}

// Nearest is the place on the segment nearest to q.
func (s Segment) Nearest(q Point) Point {
	v := s.Vec()
	l2 := v.Dot(v)
	if l2 == 0 {
		return s.A
	}
	t := q.Sub(s.A).Dot(v) / l2
	return s.A.Lerp(s.B, math.Max(0, math.Min(1, t)))
}

// PointDist is the distance in mm from q to the segment.
func (s Segment) PointDist(q Point) float64 { return s.Nearest(q).Dist(q) }

// Gap is the shortest straight way from s to t: it starts on s, ends on t, and
// has no length where they touch or cross.
func (s Segment) Gap(t Segment) Segment {
	if p, ok := s.Cross(t); ok {
		return Segment{p, p}
	}
	best := Segment{s.A, t.Nearest(s.A)}
	for _, g := range []Segment{
		{s.B, t.Nearest(s.B)}, {s.Nearest(t.A), t.A}, {s.Nearest(t.B), t.B},
	} {
		if g.Len() < best.Len() {
			best = g
		}
	}
	return best
}

// Dist is the shortest distance in mm between two segments, 0 where they touch.
func (s Segment) Dist(t Segment) float64 { return s.Gap(t).Len() }

// Cross gives the place where two segments that are not parallel meet.
func (s Segment) Cross(t Segment) (Point, bool) {
	u, v := s.Vec(), t.Vec()
	d := u.Cross(v)
	if d == 0 {
		return Point{}, false
	}
	w := t.A.Sub(s.A)
	a, b := w.Cross(v)/d, w.Cross(u)/d
	if a < 0 || a > 1 || b < 0 || b > 1 {
		return Point{}, false
	}
	return s.A.Lerp(s.B, a), true
}

// Along gives the stretch of s that lies beside t: both ends of t dropped
// square onto s, cut to s. It is meant for segments that are nearly parallel
// and says nothing of how far apart they are; false when they are not abreast.
func (s Segment) Along(t Segment) (Segment, bool) {
	u := s.Vec().Unit()
	a, b := t.A.Sub(s.A).Dot(u), t.B.Sub(s.A).Dot(u)
	lo, hi := math.Max(0, math.Min(a, b)), math.Min(s.Len(), math.Max(a, b))
	if hi <= lo {
		return Segment{}, false
	}
	return Segment{s.A.Add(u.Mul(lo)), s.A.Add(u.Mul(hi))}, true
}

// Offset is how far t's middle lies to the left of s's line, in mm; negative
// to the right.
func (s Segment) Offset(t Segment) float64 {
	return s.Vec().Unit().Cross(t.Mid().Sub(s.A))
}

// CollinearOverlap gives the stretch of s that t lies on. Both ends of t's
// stretch must be within tol mm of s's line.
func (s Segment) CollinearOverlap(t Segment, tol float64) (Segment, bool) {
	on, ok := s.Along(t)
	if !ok || t.PointDist(on.A) > tol || t.PointDist(on.B) > tol {
		return Segment{}, false
	}
	return on, true
}
