package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A Measure names a size of a shape.
type Measure int

// The measures. All are outside measures but InsideFlats and Inside.
const (
	Side            Measure = iota // outside length of one side
	Flats                          // between opposite sides; even n only
	Points                         // between opposite corners; even n only
	InsideFlats                    // between the inside faces of opposite sides; even n only
	CornerCircle                   // diameter of the circle through the corners
	InscribedCircle                // diameter of the circle that touches every side from within
	Height                         // as it stands
	Width                          // as it stands
	Outside                        // of a ring: the circle through the outside corners
	Inside                         // of a ring: the largest circle that fits inside
	Diameter                       // what people say, never clear: always refused
)

var measureNames = [...]string{
	"side", "across flats", "across points", "across inside flats", "corner circle",
	"inscribed circle", "height as it stands", "width as it stands", "outside of the ring",
	"inside of the ring", "diameter",
}

func (m Measure) String() string { return measureNames[m] }

// A Stance is what a shape stands on.
type Stance int

// The stances.
const (
	OnSide Stance = iota
	OnCorner
)

// A Size is one measure of a shape, in mm.
type Size struct {
	Measure Measure
	MM      float64
}

// Sizes lists the sizes an outline has, with boards of the given depth in the
// plane: width and height always, the side when all are equal, the rest for
// regular polygons.
func (o Outline) Sizes(depth unit.Length) []Size {
	var s []Size
	n := o.Sides()
	if o.equalSided() {
		s = append(s, Size{Side, o.Length(1)})
	}
	if r, ok := o.cornerRadius(); ok {
		flat := r * math.Cos(math.Pi/float64(n))
		in := flat - depth.MM()
		if n%2 == 0 {
			s = append(s, Size{Flats, 2 * flat}, Size{Points, 2 * r}, Size{InsideFlats, 2 * in})
		}
		s = append(s, Size{CornerCircle, 2 * r}, Size{InscribedCircle, 2 * flat}, Size{Inside, 2 * in})
	}
	b := o.Corners.Box()
	return append(s, Size{Height, b.Height()}, Size{Width, b.Width()})
}

// Size is one size of the outline in mm, false when the shape has none such.
func (o Outline) Size(m Measure, depth unit.Length) (float64, bool) {
	if m == Outside {
		m = CornerCircle
	}
	for _, s := range o.Sizes(depth) {
		if s.Measure == m {
			return s.MM, true
		}
	}
	return 0, false
}

func (o Outline) equalSided() bool {
	for k := 2; k <= o.Sides(); k++ {
		if math.Abs(o.Length(k)-o.Length(1)) > sameMM {
			return false
		}
	}
	return !o.Open
}

// sameMM is the difference in mm below which two lengths that were computed
// are one: a few nanometres, the dust of trigonometry on typed lengths.
const sameMM = 4 * geom.Eps

// cornerRadius is the radius through all corners of a regular polygon.
func (o Outline) cornerRadius() (float64, bool) {
	if !o.equalSided() {
		return 0, false
	}
	for k := range o.Corners {
		if math.Abs(float64(o.Setting(k+1))-math.Pi/float64(o.Sides())) > sameAngle {
			return 0, false
		}
	}
	return o.Length(1) / (2 * math.Sin(math.Pi/float64(o.Sides()))), true
}
