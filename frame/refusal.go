package frame

import (
	"cmp"
	"fmt"
	"strings"
)

// A Code names a reason for refusing a shape; it never changes.
type Code string

// The reasons.
const (
	BadCount         Code = "side-count"         // Got sides (or What); Least to Most can be made
	BadMeasure       Code = "measure-range"      // a measure What of Got mm (or degrees) is not within Least to Most
	NoSuchSize       Code = "size-unclear"       // this shape has no such size; Meanings are what it could be
	SideTooShort     Code = "side-too-short"     // side Sides[0] has no length
	SidesCross       Code = "sides-cross"        // Sides[0] and Sides[1] meet
	CornerTooSharp   Code = "corner-too-sharp"   // inside angle Got degrees at Corner, not within Least to Most
	DoesNotClose     Code = "sides-do-not-close" // the last side ends Got mm from the first corner
	AnglesDisagree   Code = "angles-disagree"    // angles add to Got degrees, not Least
	FeetNotOnFloor   Code = "feet-not-on-floor"  // an open outline's first and last corners are its lowest, level
	InsideCollapses  Code = "no-inside"          // boards as deep as Got mm fill the shape; at this size Most mm fits
	BoardTooNarrow   Code = "board-too-narrow"   // a ring needs a board at least Least mm wide
	PinnedDoNotClose Code = "fixed-sides-open"   // the sides fixed by others leave Got mm that no other part can close
	NoSuchSide       Code = "no-such-side"       // Got is no side of this outline
	NoFamily         Code = "no-family"          // the sides are in no whole-number ratio
)

// A Meaning is one thing that an unclear size could mean, with the side that
// would follow from it, in mm.
type Meaning struct {
	Measure Measure
	Side    float64
}

// A Refusal is a shape that cannot be made, with the figures needed to put it
// right. Got, Least and Most are in the unit that Code says.
type Refusal struct {
	Code             Code
	What             string // the measure or part meant, in the words of the trade
	Got, Least, Most float64
	Sides            []int
	Corner           int
	Meanings         []Meaning
	Scale            float64 // with InsideCollapses: times as large works
	Ratio            []int   // with NoFamily: the nearest ratio
}

func (r *Refusal) Error() string {
	switch r.Code {
	case BadCount:
		return fmt.Sprintf("%.0f %s: it must be %.0f to %.0f", r.Got, cmp.Or(r.What, "sides"), r.Least, r.Most)
	case BadMeasure:
		return fmt.Sprintf("%s is %.6g: it must be over %.6g and under %.6g", r.What, r.Got, r.Least, r.Most)
	case NoSuchSize:
		return fmt.Sprintf("%s could mean %s: name one", r.What, r.meanings())
	case SideTooShort:
		return fmt.Sprintf("side %d has no length", r.Sides[0])
	case SidesCross:
		return fmt.Sprintf("sides %d and %d meet", r.Sides[0], r.Sides[1])
	case CornerTooSharp:
		return fmt.Sprintf("the inside angle at corner %d is %.2f degrees: it must be %.0f to %.0f",
			r.Corner, r.Got, r.Least, r.Most)
	case DoesNotClose:
		return fmt.Sprintf("the last side ends %.2f mm from where the first begins", r.Got)
	case AnglesDisagree:
		return fmt.Sprintf("the inside angles add to %.2f degrees, not %.2f", r.Got, r.Least)
	case FeetNotOnFloor:
		return fmt.Sprintf("the feet must be level and the lowest: one is %.2f mm off", r.Got)
	case InsideCollapses:
		return fmt.Sprintf("boards %.1f mm deep in the plane fill the shape: at most %.1f mm, or a shape %.3f times as large",
			r.Got, r.Most, r.Scale)
	case BoardTooNarrow:
		return fmt.Sprintf("a board %.1f mm wide is too narrow for this ring: at least %.1f mm", r.Got, r.Least)
	case PinnedDoNotClose:
		return fmt.Sprintf("the fixed sides leave %.2f mm that no other part can close", r.Got)
	case NoSuchSide:
		return fmt.Sprintf("there is no side %.0f", r.Got)
	case NoFamily:
		return fmt.Sprintf("the sides are in no whole-number ratio up to %d; the nearest is %v", MostTimes, r.Ratio)
	}
	return string(r.Code)
}

func (r *Refusal) meanings() string {
	var b strings.Builder
	for i, m := range r.Meanings {
		switch {
		case i > 0 && i == len(r.Meanings)-1:
			b.WriteString(" or ")
		case i > 0:
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%s (side %.1f mm)", m.Measure, m.Side)
	}
	return b.String()
}
