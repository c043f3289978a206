package frame

import (
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A tape is what rounding decided: one length a side.
type tape struct {
	lengths []unit.Length
	closing Closing
}

func (t tape) fitted(k int) bool {
	for _, f := range t.closing.Fitted {
		if f == k {
			return true
		}
	}
	return false
}

// A stick is a side to be rounded: its direction as asked, its length, and the
// one or two marks it may go to, the shorter first.
type stick struct {
	dir     geom.Point
	asked   float64
	choices []unit.Length
}

// onMarkMM is how near, in mm, a length must be to a mark to count as on it:
// the nanometres that a walk round the corners adds to a typed length.
const onMarkMM = sameMM

// marks gives the lengths a side may be sawn to: the mark below and the mark
// above, or the one it is on. A side shorter than a mark goes up to it.
func marks(mm float64, mark unit.Length) []unit.Length {
	near, _ := unit.FromMM(mm, mark, unit.Nearest)
	if mark <= unit.Nanometre || math.Abs(near.MM()-mm) <= onMarkMM {
		return []unit.Length{near}
	}
	down, _ := unit.FromMM(mm, mark, unit.Down)
	if down == 0 {
		return []unit.Length{mark}
	}
	return []unit.Length{down, down + mark}
}

func (o Outline) sticks(s Settings) []stick {
	sticks := make([]stick, o.Sides())
	for i := range sticks {
		side := o.Side(i + 1)
		sticks[i] = stick{dir: side.Vec().Unit(), asked: side.Len(), choices: marks(side.Len(), s.Mark)}
		if l, ok := s.Pinned[i+1]; ok {
			sticks[i].choices = []unit.Length{l}
		}
	}
	return sticks
}

// roundToTape takes every side to a mark so that the frame closes best, and
// fits the last two sides where that is not good enough.
func roundToTape(o Outline, s Settings) (tape, error) {
	sticks := o.sticks(s)
	r := rounding{sticks: sticks, open: o.Open}
	t := tape{lengths: r.best()}
	e := r.left(t.lengths)
	t.closing.Gap, t.closing.Left = e.Len(), e.Len()
	if e.Len() > s.JointTolerance.MM()+sameMM {
		if err := t.fit(sticks, o.Open, s.Pinned); err != nil {
			return tape{}, err
		}
	}
	if o.Open {
		t.closing.SpanChange = -rounding{sticks: sticks}.left(t.lengths).X - o.span()
	}
	return t, nil
}

// span is how far apart the feet of an open outline stand, mm.
func (o Outline) span() float64 {
	return o.Corners[0].X - o.Corners[len(o.Corners)-1].X
}

// fit gives two sides the lengths that close the frame exactly. In an open
// outline one side that rises is enough to bring the feet level.
func (t *tape) fit(sticks []stick, open bool, pinned map[int]unit.Length) error {
	e := rounding{sticks: sticks, open: open}.left(t.lengths)
	other, last := toFit(sticks, open, pinned)
	if other < 0 {
		return &Refusal{Code: PinnedDoNotClose, Got: e.Len()}
	}
	if u, v := sticks[other].dir, sticks[last].dir; open {
		t.lengthen(last, -e.Y/v.Y)
		t.closing.Fitted = []int{last + 1}
	} else { // e + a u + b v = 0 by Cramer's rule
		t.lengthen(other, -e.Cross(v)/u.Cross(v))
		t.lengthen(last, -u.Cross(e)/u.Cross(v))
		t.closing.Fitted = []int{other + 1, last + 1}
	}
	t.closing.Left = rounding{sticks: sticks, open: open}.left(t.lengths).Len()
	if t.lengths[last] <= 0 || t.lengths[other] <= 0 {
		return &Refusal{Code: PinnedDoNotClose, Got: e.Len()}
	}
	return nil
}

// toFit chooses the last two sides that are neither fixed nor parallel, among
// those that are not on a mark as asked if it can: a 1200 mm sill stays 1200,
// and two equal roof slopes stay equal. It gives -1 when there are none; in an
// open outline both are the last side that rises.
func toFit(sticks []stick, open bool, pinned map[int]unit.Length) (other, last int) {
	var able []int
	for _, offMark := range []bool{false, true} { // the best come last
		for i, s := range sticks {
			if _, held := pinned[i+1]; !held && (len(s.choices) == 2) == offMark {
				able = append(able, i)
			}
		}
	}
	for n := len(able) - 1; n >= 0; n-- {
		v := sticks[able[n]].dir
		if open && math.Abs(v.Y) > leastLean {
			return able[n], able[n]
		}
		for m := n - 1; m >= 0 && !open; m-- {
			if math.Abs(sticks[able[m]].dir.Cross(v)) > leastLean {
				return min(able[m], able[n]), max(able[m], able[n])
			}
		}
	}
	return -1, -1
}

// leastLean is the sine of the least angle at which a side can make up for
// another: under 5° a fitted length would grow by more than ten times what it
// mends.
var leastLean = math.Sin(5 * math.Pi / 180)

func (t *tape) lengthen(i int, by float64) {
	t.lengths[i], _ = unit.FromMM(t.lengths[i].MM()+by, unit.Nanometre, unit.Nearest)
}

// A rounding is the choice of a mark for every side.
type rounding struct {
	sticks []stick
	open   bool // only the height counts: the feet may stand further apart
}

// left is the displacement from the last side's end back to corner 1's start
// that the lengths leave, mm.
func (r rounding) left(lengths []unit.Length) geom.Point {
	var e geom.Point
	for i, s := range r.sticks {
		e = e.Add(s.dir.Mul(lengths[i].MM()))
	}
	return r.counts(e)
}

func (r rounding) counts(e geom.Point) geom.Point {
	if r.open {
		e.X = 0
	}
	return e
}

// nearest takes every side to the nearer of its marks, the shorter on a tie.
func (r rounding) nearest() []unit.Length {
	lengths := make([]unit.Length, len(r.sticks))
	for i, s := range r.sticks {
		lengths[i] = s.choices[0]
		if len(s.choices) == 2 && s.choices[1].MM()-s.asked < s.asked-s.choices[0].MM()-onMarkMM {
			lengths[i] = s.choices[1]
		}
	}
	return lengths
}

// mostWays is how many ways of rounding are reckoned with: as many as 24 sides
// that all differ have. The search meets in the middle, so the work is that of
// twice its square root and of the pairs that come near. In an outline with
// more ways, the sides that would pass it go to the nearest mark.
const mostWays = 1 << 24

// best is the choice with the least closing error; of equals the one with the
// least sum of squared changes, then the one that keeps most sides alike that
// were asked alike, then the one that is first in the order of lengths.
func (r rounding) best() []unit.Length {
	lengths := r.nearest()
	if r.left(lengths).Len() <= sameMM {
		return lengths // no error, and no smaller change: nothing can beat it
	}
	var free [][]int
	ways := 1
	for _, b := range r.bunches() {
		if ways*(len(b)+1) > mostWays {
			continue
		}
		ways *= len(b) + 1
		free = append(free, b)
		for _, i := range b {
			lengths[i] = r.sticks[i].choices[0]
		}
	}
	if len(free) == 0 {
		return lengths
	}
	return newSearch(r, lengths, free).run()
}

// bunches groups the sides that may go up or down. Sides of one direction and
// length are interchangeable: only how many of them go up makes a difference.
func (r rounding) bunches() [][]int {
	var all [][]int
	for i, s := range r.sticks {
		if len(s.choices) < 2 {
			continue
		}
		at := slices.IndexFunc(all, func(b []int) bool { return s.like(r.sticks[b[0]]) })
		if at < 0 {
			at = len(all)
			all = append(all, nil)
		}
		all[at] = append(all[at], i)
	}
	return all
}

func (s stick) like(t stick) bool {
	return math.Abs(s.asked-t.asked) <= sameMM && s.dir.Dist(t.dir) < sameAngle &&
		slices.Equal(s.choices, t.choices)
}
