package frame

import (
	"bowerwright/unit"
)

// A Trim says how parts beyond the saw are trimmed clamped to a square block.
// The zero value stands for the defaults below; all are common practice, no
// source, and the saw maker's own instructions come before them.
type Trim struct {
	Allowance unit.Length // left on at each end of the rough length; zero: DefaultAllowance
	Least     unit.Length // shortest rough length trimmed so; zero: DefaultLeastTrim
	Greatest  unit.Length // longest; zero: DefaultGreatestTrim
}

// Defaults of Trim: the allowance covers the saw's own width and a mark out of
// place; a shorter piece cannot be clamped clear of the blade; a longer one
// swings out into the room.
const (
	DefaultAllowance    = unit.Inch
	DefaultLeastTrim    = 12 * unit.Inch
	DefaultGreatestTrim = 4 * unit.Foot
)

func (t Trim) filled() Trim {
	fill := func(l *unit.Length, d unit.Length) {
		if *l <= 0 {
			*l = d
		}
	}
	fill(&t.Allowance, DefaultAllowance)
	fill(&t.Least, DefaultLeastTrim)
	fill(&t.Greatest, DefaultGreatestTrim)
	return t
}

// A WayOut is what to do about a part that the saw cannot mitre.
type WayOut int

// The ways out.
const (
	NoneNeeded   WayOut = iota
	TrimOnBlock         // rough length first, then trimmed clamped to a square block
	AnotherShape        // too short or too long for that: another shape or stock
)

func (w WayOut) String() string {
	return [...]string{"", "rough length first, then trimmed clamped to a square block", "another shape or stock"}[w]
}

// A Sawing is how a part is sawn at both ends.
type Sawing struct {
	Start, End EndCut
	WayOut     WayOut
	Rough      unit.Length // sawn square to this first, up to the nanometre; zero when no end needs it
}

// Cut says how a part is sawn on boards laid like b. When an end is beyond the
// saw the part is planned as a rough length: its tip-to-tip length and the
// allowance at each end.
func (s Saw) Cut(b Boards, p Part, t Trim) Sawing {
	c := Sawing{Start: s.End(b, p.Start), End: s.End(b, p.End)}
	if c.Start.Way != RoughThenBlock && c.End.Way != RoughThenBlock {
		return c
	}
	t = t.filled()
	tip, _ := unit.FromMM(p.TipToTip, unit.Nanometre, unit.Up)
	c.Rough = tip + 2*t.Allowance
	c.WayOut = TrimOnBlock
	if c.Rough < t.Least || c.Rough > t.Greatest || c.Start.Reason == TooBig || c.End.Reason == TooBig {
		c.WayOut = AnotherShape
	}
	return c
}
