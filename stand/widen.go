package stand

import (
	"math"

	"bowerwright/geom"
)

// A Width is the size that a base of the same shape would need to do without
// ballast, its weight taken to stay as it is.
type Width struct {
	Scale float64      // of the hull about its middle; infinite when none is enough
	Hull  geom.Polygon // scaled
	Slide bool         // it slides whatever its size: ballast, stakes or a mat are needed all the same
}

// scaleTolerance is how near the scale comes to the exact one, always from above:
// a tenth of a millimetre on a base of a metre.
const scaleTolerance = 1e-4

// scaleMost is the largest base that is looked for: twice doubled six times over
// is larger than any hall.
const scaleMost = 1 << 6

// Width finds it by halving: a wider base never holds less. Ballast that stands
// is left out.
func (s Setup) Width() Width {
	s.Ballast = nil
	w := Width{Scale: math.Inf(1), Slide: s.Missing().Slide > 0}
	if !s.holds(scaleMost) {
		return w
	}
	lo, hi := 0.0, float64(scaleMost)
	for hi-lo > scaleTolerance {
		if mid := (lo + hi) / 2; s.holds(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	w.Scale, w.Hull = hi, scaled(s.Stance.Hull, hi)
	return w
}

// holds says whether no edge lacks anything when the hull is scaled.
func (s Setup) holds(scale float64) bool {
	s.Stance.Hull = scaled(s.Stance.Hull, scale)
	for _, e := range s.Missing().Edges {
		if e.Moment > 0 {
			return false
		}
	}
	return true
}

func scaled(hull geom.Polygon, scale float64) geom.Polygon {
	c := hull.Centroid()
	return hull.Shift(c.Mul(-1)).Scale(scale).Shift(c)
}
