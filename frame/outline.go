package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// Limits of what is made. Common practice, no source: they only keep typing
// slips from becoming drawings.
const (
	MostRegular = 24               // sides of a regular polygon, segments of a ring or arch
	MostSides   = 64               // corners of any outline
	MostMeasure = 100 * unit.Metre // any measure of a frame
)

// MostSetting is the steepest setting that is taken for meant. No saw reaches
// it; beyond it tan grows so fast that the length of a part means nothing.
var MostSetting = unit.FromDegrees(85)

// An Outline is the outside of a frame as asked, as it stands: lowest point at
// y = 0, its box centred on x = 0, corners as the package comment says.
// Outlines come from the constructors, which check them; the zero Outline is
// no shape.
type Outline struct {
	Corners    geom.Polygon // mm
	Open       bool         // the side from the last corner to the first is the floor, no board
	SquareFeet bool         // feet sawn straight across instead of to the floor
}

// Sides is how many sides have a board.
func (o Outline) Sides() int {
	if o.Open {
		return len(o.Corners) - 1
	}
	return len(o.Corners)
}

// Side is side k, counted from 1.
func (o Outline) Side(k int) geom.Segment { return o.Corners.Side(k - 1) }

// Length is the outside length of side k, counted from 1, in mm.
func (o Outline) Length(k int) float64 { return o.Side(k).Len() }

// IsFoot says whether corner k, counted from 1, is a foot of an open outline.
func (o Outline) IsFoot(k int) bool { return o.Open && (k == 1 || k == len(o.Corners)) }

// InsideAngle is the inside angle at corner k, counted from 1; at a foot it is
// the angle between the board and the floor.
func (o Outline) InsideAngle(k int) unit.Angle { return unit.Angle(o.Corners.InsideAngle(k - 1)) }

// Setting is the signed saw setting at corner k, counted from 1: half of what
// the inside angle lacks of 180° where two parts share a corner; at a foot the
// whole of what it lacks of 90°, or nothing when feet are sawn square.
func (o Outline) Setting(k int) unit.Angle {
	switch t := o.InsideAngle(k); {
	case !o.IsFoot(k):
		return level((math.Pi - t) / 2)
	case o.SquareFeet:
		return 0
	default:
		return level(math.Pi/2 - t)
	}
}

// sameAngle is the difference in radians below which two settings are one:
// 0.005°, finer than any saw is set, and coarser than what corners typed to a
// thousandth of an inch leave on a side of a foot.
const sameAngle = 0.005 * math.Pi / 180

// level takes the dust of trigonometry off a square cut.
func level(a unit.Angle) unit.Angle {
	if math.Abs(float64(a)) < sameAngle {
		return 0
	}
	return a
}

// Mirrored is the outline in a mirror, numbered anew.
func (o Outline) Mirrored() Outline {
	m := geom.Move{Mirror: true}.Polygon(o.Corners)
	if o.Open { // the right foot was the last corner
		for i, j := 0, len(m)-1; i < j; i, j = i+1, j-1 {
			m[i], m[j] = m[j], m[i]
		}
		o.Corners = seat(m)
		return o
	}
	o.Corners = seat(startAtFoot(m.CCW()))
	return o
}

// newOutline checks corners in either sense and seats them. The error is a
// *Refusal with sides and corners counted as given.
func newOutline(corners geom.Polygon, open, squareFeet bool) (Outline, error) {
	if err := checkCorners(corners); err != nil {
		return Outline{}, err
	}
	o := Outline{Open: open, SquareFeet: squareFeet}
	if open {
		o.Corners = rightFootFirst(corners)
		if err := checkFeet(o.Corners); err != nil {
			return Outline{}, err
		}
	} else {
		o.Corners = startAtFoot(corners.CCW())
	}
	o.Corners = seat(o.Corners)
	return o, o.checkAngles()
}

// checkCorners looks at what does not depend on the order of the corners.
func checkCorners(p geom.Polygon) error {
	if n := len(p); n < 3 || n > MostSides {
		return &Refusal{Code: BadCount, Got: float64(n), Least: 3, Most: MostSides}
	}
	for i, q := range p {
		if m := math.Max(math.Abs(q.X), math.Abs(q.Y)); !(m <= MostMeasure.MM()) { // NaN too
			return &Refusal{Code: BadMeasure, What: "a corner's place", Got: m, Most: MostMeasure.MM(), Corner: i + 1}
		}
	}
	for i := range p {
		if p.Side(i).Len() < leastSide {
			return &Refusal{Code: SideTooShort, Sides: []int{i + 1}}
		}
	}
	if c := p.Crossings(); len(c) > 0 {
		return &Refusal{Code: SidesCross, Sides: []int{c[0][0] + 1, c[0][1] + 1}}
	}
	return nil
}

// leastSide is the shortest side, in mm, that is not a repeated corner: less
// than the finest tape mark.
const leastSide = 0.1

func rightFootFirst(p geom.Polygon) geom.Polygon {
	q := append(geom.Polygon(nil), p...)
	if q.Area() < 0 {
		for i, j := 0, len(q)-1; i < j; i, j = i+1, j-1 {
			q[i], q[j] = q[j], q[i]
		}
	}
	return q
}

// checkFeet wants both feet level and nothing below them.
func checkFeet(p geom.Polygon) error {
	low := p.Box().Min.Y
	off := math.Max(p[0].Y, p[len(p)-1].Y) - low
	if off > geom.Eps {
		return &Refusal{Code: FeetNotOnFloor, Got: off}
	}
	return nil
}

// startAtFoot renumbers a counter-clockwise outline from the longest level
// side on the floor, the leftmost of equals, or else from the leftmost corner
// on the floor.
func startAtFoot(p geom.Polygon) geom.Polygon {
	low := p.Box().Min.Y + geom.Eps
	best, longest := -1, 0.0
	for i := range p {
		s := p.Side(i)
		l := 0.0
		switch {
		case s.A.Y > low:
			continue
		case s.B.Y <= low:
			l = s.Len()
		}
		left := best >= 0 && math.Abs(l-longest) <= geom.Eps && s.A.X < p[best].X
		if best < 0 || l > longest+geom.Eps || left {
			best, longest = i, l
		}
	}
	return p.From(best)
}

// seat shifts an outline so that it stands on y = 0, centred on x = 0.
func seat(p geom.Polygon) geom.Polygon {
	b := p.Box()
	return p.Shift(geom.Point{X: -b.Centre().X, Y: -b.Min.Y})
}

// checkAngles wants every setting within MostSetting.
func (o Outline) checkAngles() error {
	most := MostSetting.Degrees()
	for k := range o.Corners {
		t, least := o.InsideAngle(k+1).Degrees(), 180-2*most
		greatest := 360 - least
		if o.IsFoot(k + 1) {
			least, greatest = 90-most, 90+most
		}
		if t < least || t > greatest {
			return &Refusal{Code: CornerTooSharp, Corner: k + 1, Got: t, Least: least, Most: greatest}
		}
	}
	return nil
}
