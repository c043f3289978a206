package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// Boards are a stock size and how it lies in the frame.
type Boards struct {
	Thickness, Width unit.Length
	OnEdge           bool // thickness in the plane of the frame; otherwise the width is
}

// Depth is the stock dimension that lies in the plane of the frame.
func (b Boards) Depth() unit.Length {
	if b.OnEdge {
		return b.Thickness
	}
	return b.Width
}

// Rise is the other dimension: how deep the frame is from front to back.
func (b Boards) Rise() unit.Length {
	if b.OnEdge {
		return b.Width
	}
	return b.Thickness
}

// Settings are what Build needs besides an outline.
type Settings struct {
	Boards         Boards
	Mark           unit.Length         // the tape's finest mark; zero: no rounding
	JointTolerance unit.Length         // a gap at the last joint up to this is closed
	Pinned         map[int]unit.Length // side, counted from 1, to a length settled elsewhere
	Density        unit.Density        // zero: no mass
}

// A Frame is an outline with boards along it, as it comes off the saw.
type Frame struct {
	Asked      Outline
	Built      Outline      // from the lengths as sawn; numbered like Asked
	Inside     geom.Polygon // as built, corner k inside outline corner k, mm
	Boards     Boards
	Parts      []Part // Parts[k-1] is side k
	Closing    Closing
	AskedSizes []Size
	BuiltSizes []Size // the same measures where the built shape still has them

	OutsideArea, InsideArea unit.Area // as built; an open outline counts to the floor
	Volume                  float64   // of timber in the parts, mm³
	Mass                    unit.Mass
}

// A Closing says how the sides come together after rounding to the tape.
type Closing struct {
	Gap        float64 // mm left at the last joint by tape lengths alone, corners kept true; open: how far out of level the feet are
	Fitted     []int   // sides given fitted lengths because Gap is over the joint tolerance
	Left       float64 // mm pulled in at the last joint of the parts as listed
	SpanChange float64 // open outlines: by how much the feet stand further apart than asked, mm
}

// Build lays boards along an outline and rounds every side to the tape once.
// Angles stay as asked; what the rounded lengths leave (Closing.Left, within
// the joint tolerance) is pulled in at the last joint, at corner 1, by turning
// the last side. The error is a *Refusal.
func Build(o Outline, s Settings) (Frame, error) {
	if err := s.check(o); err != nil {
		return Frame{}, err
	}
	depth := s.Boards.Depth()
	if _, err := o.insideAt(depth.MM()); err != nil {
		return Frame{}, err
	}
	tape, err := roundToTape(o, s)
	if err != nil {
		return Frame{}, err
	}
	f := Frame{Asked: o, Boards: s.Boards, Closing: tape.closing, Parts: makeParts(o, tape, s)}
	f.Built = o.rebuilt(tape.lengths)
	if f.Inside, err = f.Built.insideAt(depth.MM()); err != nil {
		return Frame{}, err
	}
	f.settle()
	f.AskedSizes, f.BuiltSizes = o.Sizes(depth), f.Built.Sizes(depth)
	f.measure(s.Density)
	return f, nil
}

func (s Settings) check(o Outline) error {
	err := checkMeasures(measure{"board thickness", s.Boards.Thickness}, measure{"board width", s.Boards.Width})
	if err != nil {
		return err
	}
	for k := range MostSides + 1 { // in order, so that the same slip is named each time
		l, ok := s.Pinned[k]
		switch {
		case !ok:
		case k < 1 || k > o.Sides():
			return &Refusal{Code: NoSuchSide, Got: float64(k)}
		default:
			if err := checkMeasure("a fixed side", l); err != nil {
				return err
			}
		}
	}
	return nil
}

// rebuilt walks the sides at new lengths in the directions asked; the last
// side goes straight back to corner 1.
func (o Outline) rebuilt(lengths []unit.Length) Outline {
	p := make(geom.Polygon, len(o.Corners))
	p[0] = o.Corners[0]
	for k := 1; k < len(p); k++ {
		p[k] = p[k-1].Add(o.Side(k).Vec().Unit().Mul(lengths[k-1].MM()))
	}
	o.Corners = seat(p)
	return o
}

// insideAt is the inside outline of boards w mm deep, or a Refusal that says
// how deep they may be.
func (o Outline) insideAt(w float64) (geom.Polygon, error) {
	in, side := o.inside(w)
	if side == 0 {
		return in, nil
	}
	lo, hi := 0.0, w
	for range 60 { // halving to a float's grain
		mid := (lo + hi) / 2
		if _, s := o.inside(mid); s == 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	// A shape k times as large takes boards k times as deep.
	return nil, &Refusal{Code: InsideCollapses, Got: w, Most: lo, Scale: w / lo, Sides: []int{side}}
}

// inside gives the inside outline, and the side, counted from 1, that has no
// inside left; 0 when all have.
func (o Outline) inside(w float64) (in geom.Polygon, side int) {
	n := len(o.Corners)
	in = make(geom.Polygon, n)
	deep := func(i int) float64 { // the floor has no board
		if o.Open && i == n-1 {
			return 0
		}
		return w
	}
	for i := range o.Corners {
		before := (i + n - 1) % n
		in[i] = geom.MeetOffset(o.Corners.Side(before), o.Corners.Side(i), deep(before), deep(i))
	}
	if o.Open && o.SquareFeet {
		first, last := o.Side(1), o.Side(n-1)
		in[0] = first.A.Add(first.Vec().Unit().Perp().Mul(w))
		in[n-1] = last.B.Add(last.Vec().Unit().Perp().Mul(w))
	}
	return in, o.Corners.Collapsed(in) + 1
}

// settle puts the lowest wood on the floor: feet sawn square can reach below
// the outside corners.
func (f *Frame) settle() {
	if low := f.Inside.Box().Min.Y; low < 0 {
		up := geom.Point{Y: -low}
		f.Built.Corners, f.Inside = f.Built.Corners.Shift(up), f.Inside.Shift(up)
	}
	for i := range f.Parts {
		j := (i + 1) % len(f.Inside)
		c := f.Built.Corners
		f.Parts[i].Face = geom.Polygon{c[i], c[j], f.Inside[j], f.Inside[i]}
	}
}

func (f *Frame) measure(d unit.Density) {
	f.OutsideArea = unit.Area(f.Built.Corners.Area())
	f.InsideArea = unit.Area(f.Inside.Area())
	for _, p := range f.Parts {
		f.Volume += (p.Outside.MM() + p.Inside) / 2 * f.Boards.Depth().MM() * f.Boards.Rise().MM()
	}
	const cubicMetre = 1e9 // mm³
	f.Mass = unit.Mass(f.Volume / cubicMetre * float64(d))
}

// TipToTip is the greatest extent along the board, in mm, of a part with the
// given outside length and settings: the inside reaches past the outside where
// a setting is negative.
func TipToTip(outside, depth float64, start, end unit.Angle) float64 {
	past := func(a unit.Angle) float64 { return math.Max(0, -depth*math.Tan(float64(a))) }
	return outside + past(start) + past(end)
}
