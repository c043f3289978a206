package base

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/unit"
)

const fullTurn = 2 * math.Pi

// Hull is the convex hull of points, counter-clockwise from the leftmost, then
// frontmost of them (Andrew's monotone chain). Corners less than geom.Eps off
// the line through their neighbours are left out. Points that all lie in one
// line have no hull: nil.
func Hull(points []geom.Point) geom.Polygon {
	sorted := slices.Clone(points)
	slices.SortFunc(sorted, func(a, b geom.Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	low := chain(sorted)
	slices.Reverse(sorted)
	high := chain(sorted)
	if len(low) < 2 || len(low)+len(high) < 5 {
		return nil
	}
	return append(geom.Polygon(low[:len(low)-1]), high[:len(high)-1]...)
}

// chain keeps the points where a walk through them turns left.
func chain(points []geom.Point) []geom.Point {
	var kept []geom.Point
	for _, p := range points {
		for len(kept) > 1 && !leftOf(kept[len(kept)-2], kept[len(kept)-1], p) {
			kept = kept[:len(kept)-1]
		}
		if len(kept) == 0 || kept[len(kept)-1].Dist(p) > geom.Eps {
			kept = append(kept, p)
		}
	}
	return kept
}

// leftOf says whether the middle one of three points stands out from the line
// through the others to the right, so that the way turns left there.
func leftOf(a, b, c geom.Point) bool {
	return b.Sub(a).Cross(c.Sub(b)) > geom.Eps*c.Dist(a)
}

// A Half is one piece of a base that is split for the van.
type Half struct {
	Outlines []geom.Polygon
	Mass     unit.Mass // by its share of the area
	Box      geom.Box  // round it
}

// Split gives the halves of a piece that is split, left and right; nil for a
// piece in one.
func (p Piece) Split() []Half {
	if p.SplitAt == nil {
		return nil
	}
	halves, areas := make([]Half, 2), [2]float64{}
	for _, f := range p.Footprint {
		for i, h := range both(f, *p.SplitAt) {
			if h != nil {
				halves[i].add(h)
				areas[i] += math.Abs(h.Area())
			}
		}
	}
	for i, h := range both(p.Hole, *p.SplitAt) {
		areas[i] -= math.Abs(h.Area())
	}
	for i := range halves {
		halves[i].Mass = p.Mass * unit.Mass(areas[i]/(areas[0]+areas[1]))
	}
	return halves
}

func both(outline geom.Polygon, x float64) [2]geom.Polygon {
	left, right := Halves(outline, x)
	return [2]geom.Polygon{left, right}
}

func (h *Half) add(outline geom.Polygon) {
	if len(h.Outlines) == 0 {
		h.Box = outline.Box()
	}
	h.Outlines, h.Box = append(h.Outlines, outline), h.Box.Union(outline.Box())
}

// Halves cuts a footprint along the line at x into what lies left and right of
// it; a base in two pieces for the van. One of them is nil when the line misses.
func Halves(outline geom.Polygon, x float64) (left, right geom.Polygon) {
	return half(outline, x, 1), half(outline, x, -1)
}

// half keeps what lies to the left of x for a sign of 1, to the right for -1
// (Sutherland and Hodgman's clipping by one line; right for outlines that the
// line crosses twice).
func half(outline geom.Polygon, x, sign float64) geom.Polygon {
	var kept geom.Polygon
	for i := range outline {
		s := outline.Side(i)
		a, b := sign*(x-s.A.X), sign*(x-s.B.X)
		if a >= 0 {
			kept = append(kept, s.A)
		}
		if a > 0 && b < 0 || a < 0 && b > 0 {
			kept = append(kept, s.A.Lerp(s.B, a/(a-b)))
		}
	}
	if len(kept) < 3 || math.Abs(kept.Area()) <= geom.Eps {
		return nil
	}
	return kept
}
