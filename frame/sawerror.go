package frame

import (
	"math"

	"bowerwright/unit"
)

// DefaultSawError is the error of a saw's scale, on every cut, that papers
// reckon with when none is given: a quarter of a degree (common practice, no
// source).
var DefaultSawError = unit.FromDegrees(0.25)

// An Opens says which side of a joint gapes.
type Opens int

// The sides.
const (
	Closed Opens = iota
	OpensInside
	OpensOutside
)

func (o Opens) String() string { return [...]string{"", "inside", "outside"}[o] }

// A SawError is what one error, on every end, does to a frame.
//
// Every joint is out by twice the error, once for each end, so n joints add to
// 2 n times it; that angle, opened over a joint face, is the gap. For the small
// angles of a saw the gap is angle x face in radians, which is within 1 in
// 1000 of the chord up to 8°. A joint face is the depth over the cosine of the
// setting. Where corners turn inwards a scale that reads too steep works the
// other way, so this is the most it can be.
type SawError struct {
	PerCut   unit.Angle // positive: every setting too steep
	Joints   int
	Total    unit.Angle // 2 x Joints x PerCut: all of it at the last joint
	Face     float64    // longest joint face, mm
	LastGap  float64    // at the last joint, the others closed tight, mm; an open outline has none: its feet turn by Total instead
	EachGap  float64    // shared by all joints, mm
	Opens    Opens      // too steep opens the inside, too shallow the outside
	TrueTo   unit.Angle // per cut, for LastGap within the joint tolerance (for EachGap in an open outline)
	OpenEnds bool       // an open outline: no last joint
}

// SawError says what an error of perCut does to a frame, and how true the saw
// must be for the joint tolerance.
func (f Frame) SawError(perCut unit.Angle, tolerance unit.Length) SawError {
	e := SawError{PerCut: perCut, OpenEnds: f.Asked.Open}
	for k := range f.Asked.Corners {
		if !f.Asked.IsFoot(k + 1) {
			e.Joints++
			e.Face = math.Max(e.Face, JointFace(f.Boards.Depth(), f.Asked.Setting(k+1)))
		}
	}
	e.Total = unit.Angle(2*e.Joints) * perCut
	e.EachGap = 2 * math.Abs(float64(perCut)) * e.Face
	e.TrueTo = TrueTo(1, e.Face, tolerance.MM())
	if !e.OpenEnds {
		e.LastGap = math.Abs(float64(e.Total)) * e.Face
		e.TrueTo = TrueTo(e.Joints, e.Face, tolerance.MM())
	}
	switch {
	case perCut > 0:
		e.Opens = OpensInside
	case perCut < 0:
		e.Opens = OpensOutside
	}
	return e
}

// JointFace is the length of a mitre's face in the plane, mm.
func JointFace(depth unit.Length, setting unit.Angle) float64 {
	return depth.MM() / math.Cos(float64(setting))
}

// TrueTo is the error per cut at which the last of so many joints, with this
// face in mm, gapes by gap mm: the two ends of every joint share gap / face.
func TrueTo(joints int, face, gap float64) unit.Angle {
	return unit.Angle(gap / face / float64(2*joints))
}
