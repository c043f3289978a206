package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// Regular is a regular polygon of 3 to 24 sides by one named size. depth is
// the stock dimension in the plane; only InsideFlats and Inside need it. Flats,
// Points and InsideFlats exist for even n only, and Diameter never: those are
// refused with NoSuchSize and the things they could mean.
func Regular(n int, by Measure, size unit.Length, stance Stance, depth unit.Length) (Outline, error) {
	if err := checkCount(n, 3); err != nil {
		return Outline{}, err
	}
	if err := checkMeasure(by.String(), size); err != nil {
		return Outline{}, err
	}
	mm := size.MM()
	per, ok := perRadius(n, by, stance)
	if !ok {
		return Outline{}, unclear(n, by, mm, stance)
	}
	if by == InsideFlats || by == Inside {
		mm += 2 * depth.MM()
	}
	return newOutline(regularCorners(n, mm/per, stance), false, false)
}

// Ring is a ring of n straight segments, standing on a flat or a corner: the
// regular polygon of that many sides. by is Outside, Inside or any measure of
// Regular.
func Ring(n int, by Measure, size unit.Length, stance Stance, depth unit.Length) (Outline, error) {
	return Regular(n, by, size, stance, depth)
}

// perRadius is the size of a polygon whose corners lie on the unit circle
// (plane trigonometry; the tables of regular polygons in Machinery's Handbook,
// 31st ed., p. 82, agree and are tested). InsideFlats and Inside give the
// outside of the boards.
func perRadius(n int, by Measure, stance Stance) (float64, bool) {
	half := math.Pi / float64(n)
	flats := 2 * math.Cos(half)
	switch by {
	case Side:
		return 2 * math.Sin(half), true
	case Flats, InsideFlats:
		return flats, n%2 == 0
	case Points:
		return 2, n%2 == 0
	case CornerCircle, Outside:
		return 2, true
	case InscribedCircle, Inside:
		return flats, true
	case Height:
		return boxOfUnit(n, stance).Height(), true
	case Width:
		return boxOfUnit(n, stance).Width(), true
	}
	return 0, false
}

func boxOfUnit(n int, stance Stance) geom.Box { return regularCorners(n, 1, stance).Box() }

// regularCorners starts at the left end of the lowest side, or at the lowest
// corner.
func regularCorners(n int, radius float64, stance Stance) geom.Polygon {
	p := make(geom.Polygon, n)
	step := 2 * math.Pi / float64(n)
	at := -math.Pi / 2
	if stance == OnSide {
		at -= step / 2
	}
	for i := range p {
		s, c := math.Sincos(at + float64(i)*step)
		p[i] = geom.Point{X: radius * c, Y: radius * s}
	}
	return p
}

func unclear(n int, by Measure, mm float64, stance Stance) *Refusal {
	r := &Refusal{Code: NoSuchSize, What: by.String(), Got: mm}
	means := []Measure{CornerCircle, InscribedCircle, Height}
	if n%2 == 0 {
		means = []Measure{Points, Flats, Height}
	}
	side, _ := perRadius(n, Side, stance)
	for _, m := range means {
		per, _ := perRadius(n, m, stance)
		r.Meanings = append(r.Meanings, Meaning{m, mm / per * side})
	}
	return r
}

func checkCount(n, least int) error {
	if n < least || n > MostRegular {
		return &Refusal{Code: BadCount, Got: float64(n), Least: float64(least), Most: MostRegular}
	}
	return nil
}

// checkMeasure wants a length above nothing and within MostMeasure.
func checkMeasure(what string, l unit.Length) error {
	if l <= 0 || l > MostMeasure {
		return &Refusal{Code: BadMeasure, What: what, Got: l.MM(), Most: MostMeasure.MM()}
	}
	return nil
}

// A measure is a named length for checkMeasures.
type measure struct {
	what string
	l    unit.Length
}

func checkMeasures(ms ...measure) error {
	for _, m := range ms {
		if err := checkMeasure(m.what, m.l); err != nil {
			return err
		}
	}
	return nil
}
