package frame

import (
	"math"

	"bowerwright/unit"
)

// A Scale says where a saw's scale counts from.
type Scale int

// The scales.
const (
	FromAcross Scale = iota // 0 is straight across the board
	FromAlong               // 0 is along the board, 90 straight across
)

// A Saw is the record of the user's saw. A zero value means "not given", and
// then nothing is claimed about it: an empty record knows settings only.
type Saw struct {
	SwingLeft, SwingRight unit.Angle // reach of the head, from straight across
	TiltLeft, TiltRight   unit.Angle // reach of the head, from upright
	Detents               []unit.Angle
	Takes                 []Capacity
	Kerf                  unit.Length
	Hold, ClampHold       unit.Length // least length held by hand, and under a clamp
	Clamp                 bool        // a hold-down clamp and waste fence are used
	Scale                 Scale
}

// A Capacity is the widest and thickest board the saw takes one way at one
// setting. A standing board has its width upright, so Widest is then a height.
// Both dimensions are the board's own.
type Capacity struct {
	Standing, Tilted bool
	At               unit.Angle
	Widest, Thickest unit.Length
}

// A Way is how one end is sawn.
type Way int

// The ways. A board on edge in the frame is mitred across its thickness: it
// stands against the fence under a swung head, or lies under a tilted one. A
// flat board is mitred across its width: the other two.
const (
	NotChecked    Way = iota // the record does not say enough
	StandingSwung            // standing against the fence, head swung
	LyingSwung               // lying, head swung
	StandingTilted
	LyingTilted
	RoughThenBlock // beyond this saw: rough length first, then trimmed against a block
)

var wayNames = [...]string{
	"not checked against a saw", "standing, head swung", "lying, head swung",
	"standing, head tilted", "lying, head tilted", "rough, then against a block",
}

func (w Way) String() string { return wayNames[w] }

func (w Way) standing() bool { return w == StandingSwung || w == StandingTilted }
func (w Way) tilted() bool   { return w == StandingTilted || w == LyingTilted }

// A Reason says why a saw cannot make a cut.
type Reason int

// The reasons.
const (
	Reaches  Reason = iota // it can
	TooSteep               // the setting is beyond the head's reach
	TooBig                 // the board is beyond what the saw takes at this setting
)

func (r Reason) String() string {
	return [...]string{"", "beyond the head's reach", "the board is too big at this setting"}[r]
}

// An EndCut is how one end of a part is sawn.
type EndCut struct {
	Setting unit.Angle // signed, from straight across
	Way     Way
	Reads   unit.Angle // what the scale in use shows: no sign; a scale from along reads 90° less the setting
	Detent  bool       // the head clicks in there
	OneWay  int        // -1: only to the left, 1: only to the right, 0: either
	Size    bool       // the board's size was checked too
	Reason  Reason     // with RoughThenBlock: why the way preferred fails
	Block   unit.Angle // with RoughThenBlock: angle of the fence block, the complement of the setting
}

// End says how an end with this setting is sawn on boards laid like b. Of the
// ways that work the swung head comes first: its scale is the truer one on most
// saws (common practice, no source).
func (s Saw) End(b Boards, setting unit.Angle) EndCut {
	a := unit.Angle(math.Abs(float64(setting)))
	ways := [2]Way{LyingSwung, StandingTilted}
	if b.OnEdge {
		ways = [2]Way{StandingSwung, LyingTilted}
	}
	e := EndCut{Setting: setting, Reads: s.reads(a)}
	e.Way, e.Size, e.Reason = s.choose(ways, b, a)
	switch e.Way {
	case NotChecked:
	case RoughThenBlock:
		e.Block = level(math.Pi/2 - a)
	default:
		e.Detent = !e.Way.tilted() && s.detent(a)
		e.OneWay = s.oneWay(e.Way, a)
	}
	return e
}

// choose takes the first way that is known to work, else the first that is not
// known to fail; with none left, the reason is the first way's.
func (s Saw) choose(ways [2]Way, b Boards, a unit.Angle) (w Way, size bool, r Reason) {
	unsure := false
	reached := RoughThenBlock
	for i, w := range ways {
		switch v := s.judge(w, b, a); {
		case v == fits:
			return w, true, Reaches
		case v == fitsAngle && reached == RoughThenBlock:
			reached = w
		case v == unknown:
			unsure = true
		case i == 0 && v == tooBig:
			r = TooBig
		case i == 0:
			r = TooSteep
		}
	}
	switch {
	case reached != RoughThenBlock:
		return reached, false, Reaches
	case unsure:
		return NotChecked, false, Reaches
	}
	return RoughThenBlock, false, r
}

// A verdict is what the record says of one way.
type verdict int

const (
	unknown   verdict = iota // reach not given
	fits                     // reach and size do
	fitsAngle                // reach does, size not given
	tooSteep
	tooBig
)

func (s Saw) judge(w Way, b Boards, a unit.Angle) verdict {
	left, right := s.reach(w)
	switch most := max(left, right); {
	case most == 0 && (a > 0 || len(s.Takes) == 0):
		return unknown
	case a > most+sameAngle:
		return tooSteep
	}
	c, ok := s.capacity(w, a)
	switch {
	case !ok && s.tooBigStraighter(w, b, a):
		return tooBig
	case !ok:
		return fitsAngle
	case b.Width > c.Widest || b.Thickness > c.Thickest:
		return tooBig
	}
	return fits
}

// tooBigStraighter says whether a board is beyond a row of a smaller setting:
// turned further, a saw takes no more.
func (s Saw) tooBigStraighter(w Way, b Boards, a unit.Angle) bool {
	for _, c := range s.Takes {
		same := c.Standing == w.standing() && (c.Tilted == w.tilted() || c.At == 0) && c.At <= a+sameAngle
		if same && (c.Widest > 0 && b.Width > c.Widest || c.Thickest > 0 && b.Thickness > c.Thickest) {
			return true
		}
	}
	return false
}

func (s Saw) reach(w Way) (left, right unit.Angle) {
	if w.tilted() {
		return s.TiltLeft, s.TiltRight
	}
	return s.SwingLeft, s.SwingRight
}

// oneWay says whether the head reaches the setting to one side only. Where a
// reach is not given, no more is claimed than that the other one does.
func (s Saw) oneWay(w Way, a unit.Angle) int {
	left, right := s.reach(w)
	switch {
	case a == 0 || a <= min(left, right)+sameAngle:
		return 0
	case left > right:
		return -1
	}
	return 1
}

// steepestRow is the steepest setting saw makers give sizes for.
var steepestRow = unit.FromDegrees(45)

// capacity is what the saw takes at a setting: the row of the next larger
// setting, since a saw takes less the further it is turned. Past 45° the size
// across the turn shrinks from the 45° row's with the cosine (an assumption:
// the blade's reach is then what limits it).
func (s Saw) capacity(w Way, a unit.Angle) (Capacity, bool) {
	var row *Capacity
	for i, c := range s.Takes {
		right := c.Standing == w.standing() && c.Tilted == w.tilted() && c.Widest > 0 && c.Thickest > 0
		if c.At == 0 && !right { // the head straight up and across is one row for both turns
			right = c.Standing == w.standing() && c.Widest > 0 && c.Thickest > 0 && a == 0
		}
		if right && c.At >= min(a, steepestRow)-sameAngle && (row == nil || c.At < row.At) {
			row = &s.Takes[i]
		}
	}
	if row == nil {
		return Capacity{}, false
	}
	c := *row
	if a > c.At {
		k := math.Cos(float64(a)) / math.Cos(float64(c.At))
		if w.tilted() == w.standing() { // the width lies along the blade's turn
			c.Widest = unit.Length(float64(c.Widest) * k)
		} else {
			c.Thickest = unit.Length(float64(c.Thickest) * k)
		}
	}
	return c, true
}

func (s Saw) reads(a unit.Angle) unit.Angle {
	if s.Scale == FromAlong {
		return level(math.Pi/2 - a)
	}
	return a
}

// atDetent is how near a setting must be to a detent to be cut there: less
// than a scale can be read to.
var atDetent = unit.FromDegrees(0.005)

func (s Saw) detent(a unit.Angle) bool {
	for _, d := range s.Detents {
		if math.Abs(math.Abs(float64(d))-float64(a)) <= float64(atDetent) {
			return true
		}
	}
	return false
}

// HoldInForce is the least length that must be held at a cut: under the clamp
// if one is used and its length is given, by hand otherwise; zero when not
// given.
func (s Saw) HoldInForce() unit.Length {
	if s.Clamp && s.ClampHold > 0 {
		return s.ClampHold
	}
	return s.Hold
}
