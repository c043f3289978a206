package frame

import (
	"math"

	"bowerwright/unit"
)

// What a test corner is made for. The mark that the arms are rounded up to and
// the change that is easily read across their tips are common practice, no
// source.
const (
	ArmMark     = unit.Inch / 8
	ShownAtTips = unit.Inch / 16
	LongestArms = 4 * unit.Foot // longer arms bend and cannot be laid flat on a bench
)

// A TestCorner is two arms of scrap with one mitre each, square at the other
// end, closed tight and measured across their outside tips.
type TestCorner struct {
	Setting unit.Angle // what the saw is set to, without its sign
	Error   unit.Angle // error per cut that shows
	Shows   unit.Length
	Arm     unit.Length // outside length of each arm
	Tips    float64     // across the tips when the saw is true, mm
	Coarse  bool        // the arms would be longer than LongestArms: cut a whole ring of scrap and read its last gap
}

// NewTestCorner makes the arms so long that an error of e per cut changes the
// tips by shows (zero: ShownAtTips). Two arms A at an inside angle t are
// 2 A sin(t/2) apart; two ends out by e turn t by 2e, which moves the tips by
// 2 A e cos(t/2) = 2 A e sin(setting) for small e. A setting of 0 has no
// corner to test and gives the zero TestCorner, as e = 0 does. The arms are
// rounded up to ArmMark.
func NewTestCorner(setting, e unit.Angle, shows unit.Length) TestCorner {
	a := unit.Angle(math.Abs(float64(setting)))
	if a < sameAngle || e == 0 {
		return TestCorner{}
	}
	if shows <= 0 {
		shows = ShownAtTips
	}
	t := TestCorner{Setting: a, Error: unit.Angle(math.Abs(float64(e))), Shows: shows}
	arm, ok := unit.FromMM(shows.MM()/(2*float64(t.Error)*math.Sin(float64(a))), ArmMark, unit.Up)
	if !ok || arm > LongestArms {
		t.Coarse = true
		arm = LongestArms
	}
	t.Arm = arm
	t.Tips = 2 * arm.MM() * math.Cos(float64(a))
	return t
}

// A Reading is what a test corner tells of the saw.
type Reading struct {
	True  unit.Angle // the setting the saw really cut
	Error unit.Angle // True less the setting wanted: positive is too steep
	SetTo unit.Angle // what its scale must show for the setting wanted
}

// Read turns the arms and the measure across their tips, both as measured,
// into the saw's true setting: the inside angle is 2 asin(tips / 2 arm), and
// the setting half of what it lacks of 180°. It is false when no corner has
// such tips. The scale is taken to be out by the same angle near this setting.
func Read(setting unit.Angle, arm, tips unit.Length) (Reading, bool) {
	if arm <= 0 || tips <= 0 || tips > 2*arm {
		return Reading{}, false
	}
	want := unit.Angle(math.Abs(float64(setting)))
	cut := unit.Angle(math.Acos(tips.MM() / (2 * arm.MM())))
	return Reading{True: cut, Error: cut - want, SetTo: 2*want - cut}, true
}
