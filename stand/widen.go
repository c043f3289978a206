package stand

import (
	"math"

	"bowerwright/geom"
)

// A Width is the size that a base of the same shape would need to do without
// ballast, its weight taken to stay as it is. Scales are of the hull about its
// middle, rounded up; infinite when none is enough.
type Width struct {
	Scale float64      // both ways
	Hull  geom.Polygon // scaled both ways
	Deep  float64      // from front to back alone
	Slide bool         // it slides whatever its size: ballast, stakes or a mat are needed all the same
}

// scaleTolerance is how near a scale comes to the exact one, always from above:
// a tenth of a millimetre on a base of a metre.
const scaleTolerance = 1e-4

// scaleMost is the largest scale that is looked for: of a base of half a metre,
// wider than any hall.
const scaleMost = 1 << 8

// Width finds it by halving: a wider base never holds less. Ballast that stands
// is left out.
func (s Setup) Width() Width {
	s.Ballast = nil
	both := func(k float64) geom.Polygon { return stretched(s.Stance.Hull, k, k) }
	deep := func(k float64) geom.Polygon { return stretched(s.Stance.Hull, 1, k) }
	w := Width{Scale: s.least(both), Deep: s.least(deep), Slide: s.Missing().Slide > 0}
	if !math.IsInf(w.Scale, 1) {
		w.Hull = both(w.Scale)
	}
	return w
}

// least scale of a hull at which nothing is missing over its edges.
func (s Setup) least(hull func(scale float64) geom.Polygon) float64 {
	if !s.holds(hull(scaleMost)) {
		return math.Inf(1)
	}
	lo, hi := 0.0, float64(scaleMost)
	for hi-lo > scaleTolerance {
		if mid := (lo + hi) / 2; s.holds(hull(mid)) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

func (s Setup) holds(hull geom.Polygon) bool {
	s.Stance.Hull = hull
	for _, e := range s.Missing().Edges {
		if e.Moment > 0 {
			return false
		}
	}
	return true
}

// stretched about the middle.
func stretched(hull geom.Polygon, x, y float64) geom.Polygon {
	c := hull.Centroid()
	out := make(geom.Polygon, len(hull))
	for i, p := range hull {
		out[i] = geom.Point{X: c.X + x*(p.X-c.X), Y: c.Y + y*(p.Y-c.Y)}
	}
	return out
}
