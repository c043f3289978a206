package job

import (
	"fmt"
	"math"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// A ring that is sawn round is cut from straight blanks and stands in the
// layout as what it is in the end: a circle.

// mass is the timber of one finished frame.
func (s *shape) mass() unit.Mass {
	if s.round == nil {
		return s.built.Mass
	}
	const cubicMetre = 1e9 // mm3
	return unit.Mass(float64(s.round.Area) * s.rise().MM() / cubicMetre * float64(s.board.density))
}

// rise is how deep a finished frame is, from front to back: all its layers.
func (s *shape) rise() unit.Length { return s.boards.Rise() * unit.Length(s.layers()) }

// outsideArea and insideArea are those of the finished frame.
func (s *shape) outsideArea() unit.Area {
	if s.round == nil {
		return s.built.OutsideArea
	}
	return circleArea(s.round.Outside)
}

func (s *shape) insideArea() unit.Area {
	if s.round == nil {
		return s.built.InsideArea
	}
	return circleArea(s.round.Inside)
}

func circleArea(diameter unit.Length) unit.Area {
	r := diameter.MM() / 2
	return unit.Area(math.Pi * r * r)
}

// laid is the kind as the layout takes it.
func (s *shape) laid(outside, inside geom.Polygon) layout.Kind {
	if s.round == nil {
		return layout.Kind{Name: s.Name, Outside: outside, Inside: inside, Open: s.outline.Open}
	}
	R, r := s.round.Outside.MM()/2, s.round.Inside.MM()/2
	n := 4 * int(math.Ceil(2*math.Pi*R/(4*facet)))
	return layout.Kind{Name: s.Name, Outside: circle(R, R, n), Inside: circle(r, R, n)}
}

// facet is the length in mm of the straight bits that stand for a circle: too
// short to make a seam (layout.LeastSeam), and off the circle by less than a
// hundredth of a millimetre at a foot across.
const facet = layout.LeastSeam / 2

// circle gives n corners on a circle whose middle lies up mm over the origin,
// the lowest first.
func circle(radius, up float64, n int) geom.Polygon {
	p := make(geom.Polygon, n)
	for i := range p {
		s, c := math.Sincos(2*math.Pi*float64(i)/float64(n) - math.Pi/2)
		p[i] = geom.Point{X: radius * c, Y: up + radius*s}
	}
	return p
}

// checkRound names layout lines that use a side of a ring sawn round.
func (p *planner) checkRound() {
	round := map[string]bool{} // ids
	kind := map[string]bool{}
	for _, k := range p.kinds {
		kind[k.Name] = k.round != nil
	}
	for _, f := range p.spec.Layout {
		round[f.ID] = kind[f.Kind]
	}
	for _, f := range p.spec.Layout {
		for _, a := range f.Attach {
			if round[f.ID] || round[a.To] {
				p.snag(snagRoundSide, "layout."+f.ID, f.ID, fmt.Sprintf("%s and %s lie side on side, and a ring that is sawn round has no sides", f.ID, a.To),
					"place it by its position, such as: ring at 40 in, 0 in")
				break
			}
		}
	}
}
