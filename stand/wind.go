package stand

import (
	"math"

	"bowerwright/dressing"
	"bowerwright/unit"
)

// Gust gives the gust of a mean wind, as forecasts name it.
func (w Wind) Gust(mean Speed) Speed { return Speed(w.GustOfMean) * mean }

// Pressure of a gust: q = constant times the square of the speed.
func (w Wind) Pressure(gust Speed) unit.Pressure {
	return w.Unit * unit.Pressure(gust*gust)
}

// gustAt is the speed at a pressure.
func (w Wind) gustAt(q unit.Pressure) Speed {
	return Speed(math.Sqrt(float64(q / w.Unit)))
}

// Coefficient is force over pressure and gross area for a wall of a solidity that
// is so many times as wide as it is high: for open frames the band's coefficient
// on the solid area, beyond the last band that of a solid wall, less what its
// openings let through. It is the running maximum, since closing more of a wall
// does not take force off it.
func (w Wind) Coefficient(solidity, wide float64) float64 {
	e, most := math.Min(1, solidity), 0.0
	for i, b := range w.Bands {
		if last := i == len(w.Bands)-1; e < b.To || last && e <= b.To {
			return math.Max(most, b.Coefficient*e)
		}
		most = math.Max(most, b.Coefficient*b.To)
	}
	return math.Max(most, w.wall(wide)*(1-math.Pow(1-e, w.Power)))
}

// wall is the coefficient of a solid wall: along straight lines between the
// widths that are known, level beyond them.
func (w Wind) wall(wide float64) float64 {
	last := w.Solid[0]
	for _, s := range w.Solid {
		if wide <= s.Wide {
			if s.Wide == last.Wide {
				return s.Coefficient
			}
			return last.Coefficient + (wide-last.Wide)/(s.Wide-last.Wide)*(s.Coefficient-last.Coefficient)
		}
		last = s
	}
	return last.Coefficient
}

// A Drag is an area that stands for all that the wind does: force over pressure,
// in mm2, and the height above the foot of the piece at which it acts, in mm.
type Drag struct{ Area, Height float64 }

// Drag of a piece in one way of dressing. Its width is that of a rectangle of its
// area and height.
func (w Wind) Drag(s dressing.State) Drag {
	return Drag{w.GustEffect * w.Coefficient(s.Solidity(), slimness(s.Gross.Area(), s.Gross.Top())) * s.Gross.Area(), s.Pressure.Y}
}

// slimness is width over height of a rectangle; without a height it is wide.
func slimness(area, height float64) float64 {
	if height <= 0 {
		return math.Inf(1)
	}
	return area / (height * height)
}

// and adds what another plane catches.
func (d Drag) and(e Drag) Drag {
	sum := d.Area + e.Area
	if sum <= 0 {
		return Drag{}
	}
	return Drag{sum, (d.Area*d.Height + e.Area*e.Height) / sum}
}

// atLeast lifts a drag to what another has, in force and in moment: dressing
// that hangs beyond the outline thins the whole out, and the coefficient of a
// thinner wall is lower; it takes nothing off what is already there.
func (d Drag) atLeast(e Drag) Drag {
	area := math.Max(d.Area, e.Area)
	if area <= 0 {
		return d
	}
	return Drag{area, math.Max(d.Area*d.Height, e.Area*e.Height) / area}
}

// A Face is another plane of the piece, a wing or a return, that the front view
// does not show: areas in mm2, heights of their middle above its foot in mm.
type Face struct {
	Name         string
	Gross, Solid float64
	Height       float64
}

func (w Wind) face(f Face) Drag {
	if f.Gross <= 0 {
		return Drag{}
	}
	return Drag{w.GustEffect * w.Coefficient(f.Solid/f.Gross, slimness(f.Gross, 2*f.Height)) * f.Gross, f.Height}
}
