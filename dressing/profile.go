package dressing

import "bowerwright/geom"

// A Strip is a level slab of the front view in which a width runs straight from
// AtFrom to AtTo, all in mm.
type Strip struct{ From, To, AtFrom, AtTo float64 }

// cut is the part of a strip between two heights; ok is false when there is none.
func (s Strip) cut(from, to float64) (part Strip, ok bool) {
	lo, hi := max(s.From, from), min(s.To, to)
	if hi <= lo {
		return Strip{}, false
	}
	return Strip{lo, hi, s.widthAt(lo), s.widthAt(hi)}, true
}

func (s Strip) widthAt(y float64) float64 {
	return s.AtFrom + (y-s.From)/(s.To-s.From)*(s.AtTo-s.AtFrom)
}

// area by the trapezoid rule, moment about the floor by its first moment: both
// exact for a width that runs straight.
func (s Strip) area() float64 { return (s.To - s.From) * (s.AtFrom + s.AtTo) / 2 }
func (s Strip) moment() float64 {
	h := s.To - s.From
	return s.From*s.area() + h*h*(s.AtFrom+2*s.AtTo)/6
}

// A Profile is how wide something is at every height, from below upwards.
type Profile []Strip

// Area in mm2.
func (p Profile) Area() float64 {
	sum := 0.0
	for _, s := range p {
		sum += s.area()
	}
	return sum
}

// Moment is the area's first moment about the floor, in mm3.
func (p Profile) Moment() float64 {
	sum := 0.0
	for _, s := range p {
		sum += s.moment()
	}
	return sum
}

// Height is where the middle of the area lies, in mm above the foot; 0 when
// there is no area.
func (p Profile) Height() float64 {
	if a := p.Area(); a > 0 {
		return p.Moment() / a
	}
	return 0
}

// Between is the part of a profile from one height to another.
func (p Profile) Between(from, to float64) Profile {
	var out Profile
	for _, s := range p {
		if part, ok := s.cut(from, to); ok {
			out = append(out, part)
		}
	}
	return out
}

// Top is the highest place with any width, in mm above the foot.
func (p Profile) Top() float64 {
	for i := len(p) - 1; i >= 0; i-- {
		if p[i].AtFrom > geom.Eps || p[i].AtTo > geom.Eps {
			return p[i].To
		}
	}
	return 0
}
