package stand

import (
	"fmt"
	"math"
	"slices"

	"bowerwright/dressing"
	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A StrengthFrame is what the layout does not know of a frame.
type StrengthFrame struct {
	Boards  frame.Boards
	Gravity float64   // specific gravity of its timber
	Stiff   float64   // MPa along the grain; 0: from the gravity
	Front   float64   // mm behind the foremost front edges
	Mass    unit.Mass // of the frame as it is lifted
	Corner  making.Corner
}

// A BaseMethod is how frames are held to the base.
type BaseMethod string

// The methods. The zero holds nothing: the piece just stands.
const (
	NotHeld    BaseMethod = ""
	ScrewedUp  BaseMethod = "screws up through the plywood"
	Bracketed  BaseMethod = "brackets"
	BoltedDown BaseMethod = "bolts with washers"
	clamped    BaseMethod = "without give" // for checks alone: it has no ratio of its own
)

// A BaseJoint is how the piece is held to its base. The base itself is taken not
// to bend.
type BaseJoint struct {
	Method BaseMethod
	// Frames are held, by index; nil: all that stand on the floor. One that does
	// not is held at its lowest side, by a post or a block of the base.
	Frames []int
	Each   int // fasteners at each held side; 0: two to four, as its length asks
	Rows   int // rows of them from front to back, 0: brackets in two, all else in one
	// Screw is what holds: Diameter, Root and Length; zero: No. 8 by 1 1/4 in, or a
	// bolt of 1/4 in. Sheet is the plywood's thickness in mm, 0: 18.
	Screw Dowel
	Sheet float64
}

// A Brace is a strut behind the piece: from the back of a frame, at a place in
// the front view, down to the base, so far behind the back.
type Brace struct {
	At     geom.Point
	Behind float64 // mm
	Boards frame.Boards
}

// A Strongback is a batten screwed across the back: from a place to another in
// the front view, flat, two screws wherever it crosses a board.
type Strongback struct {
	From, To geom.Point
	Boards   frame.Boards
	Lift     bool  // off again when the piece stands
	Screw    Dowel // its diameter, root and length; zero: a No. 8 as long as the rules say
}

// A WayLoad is a load on the piece in one way of dressing.
type WayLoad struct {
	State int // index in StrengthInput.States
	Load  Load
}

// A LiftInput is how the piece is carried, from LiftRules.Lifts; nil: it is built
// up frame by frame where it stands.
type LiftInput struct {
	Rules  LiftRules
	Lifts  Lifts
	People int // who carry it flat; 0: as few as may
	// Best and Worst are places to carry it by, such as those of CarryPlaces; nil:
	// those of Lifts.
	Best, Worst []Holder
}

// A StrengthInput is all that strength is reckoned from. Depths of the fixing
// count from the front edges of its frames.
type StrengthInput struct {
	Layout layout.Layout
	Frames []StrengthFrame // one for each of Layout.Frames
	Fixing fixing.Plan
	Base   BaseJoint

	Bare   dressing.State
	States []dressing.State
	Loads  []WayLoad
	Lifted float64    // mm that the base lifts the piece
	Lean   unit.Angle // that it is to stand without wind or push; 0: not looked at

	Braces      []Brace
	Strongbacks []Strongback
	Damp        bool   // it stays outdoors
	OverHeads   []bool // frames that people stand or pass under; nil: by the rules
	Tethered    []int  // frames with a second fixing of their own, such as a retaining line
	Lift        *LiftInput
	Stand       *Setup // tried again with a change of the base; may be nil
}

// StrengthLoads are the loads of a setup as strength takes them.
func (s Setup) StrengthLoads() []WayLoad {
	var out []WayLoad
	for i, state := range s.States {
		for _, l := range s.loads(state) {
			out = append(out, WayLoad{i, l})
		}
	}
	return out
}

// A Code names what must be put right before strength can be reckoned or relied
// on in the sums; it never changes once published.
type Code string

// The codes, with the fields of Problem that go with each.
const (
	BadNumber  Code = "strength-number"     // Frame: a size, mass or gravity that is none
	Unfixed    Code = "strength-unfixed"    // Seam: nothing holds it
	LooseFrame Code = "strength-loose"      // Frames can move without resistance, under Case
	ShortHold  Code = "strength-short-hold" // Seam: its screws hold by too little to count
	OneFixing  Code = "strength-one-fixing" // Seam alone holds Frames over people's heads
	Undecided  Code = "strength-undecided"  // Case: contacts did not come to rest
)

// Snags lists the codes for the docs.
var Snags = []snag.Kind{
	{Code: string(BadNumber), Meaning: "A size, mass or gravity of a frame is no sensible number."},
	{Code: string(Unfixed), Meaning: "A seam has nothing that holds it."},
	{Code: string(LooseFrame), Meaning: "Frames can move without resistance."},
	{Code: string(ShortHold), Meaning: "The screws of a seam hold by so little that they count for nothing."},
	{Code: string(OneFixing), Meaning: "Frames over people's heads are held by one seam alone."},
	{Code: string(Undecided), Meaning: "The sums of one load did not come to an end."},
}

// A Problem is something the user must put right. Frames are indices in the
// layout; Seam is a number, 0 for none.
type Problem struct {
	Code   Code
	Seam   int
	Frames []int
	Names  []string // of the frames
	Case   string
}

// Text says what is wrong and what helps, as phrases without a full stop.
func (p Problem) Text() (problem, remedy string) {
	names := list(p.Names)
	switch p.Code {
	case BadNumber:
		return "no sensible size, mass or gravity: " + names, "give the boards and the timber of the frame"
	case Unfixed:
		return fmt.Sprintf("nothing holds seam %d, between %s", p.Seam, names), "fix it, or move the frames apart"
	case LooseFrame:
		where := ""
		if p.Seam > 0 {
			where = fmt.Sprintf(" about seam %d", p.Seam)
		}
		return fmt.Sprintf("%s can move without resistance%s (%s)", names, where, p.Case), "a second screw, another seam, or hold it at the base"
	case ShortHold:
		return fmt.Sprintf("the screws of seam %d, between %s, hold by too little to count", p.Seam, names), "longer screws, or bolts"
	case OneFixing:
		return fmt.Sprintf("over people's heads, %s is held by seam %d alone", names, p.Seam),
			"a second fixing that does not depend on the first: a seam with another frame, or a retaining line"
	}
	return fmt.Sprintf("the sums did not come to an end (%s)", p.Case), "change the seams a little and try again"
}

// list joins names.
func list(names []string) string {
	out := ""
	for i, n := range names {
		switch {
		case i == 0:
		case i == len(names)-1:
			out += " and "
		default:
			out += ", "
		}
		out += n
	}
	return out
}

func (in StrengthInput) names(frames []int) []string {
	out := make([]string, len(frames))
	for i, f := range frames {
		out[i] = in.Layout.Frames[f].ID
	}
	return out
}

// check finds what is missing before anything is reckoned.
func (in StrengthInput) check() ([]Problem, error) {
	if len(in.Frames) != len(in.Layout.Frames) {
		return nil, fmt.Errorf("stand: %d frames for a layout of %d", len(in.Frames), len(in.Layout.Frames))
	}
	var out []Problem
	for i, f := range in.Frames {
		sizes := []float64{f.Boards.Rise().MM(), f.Boards.Depth().MM(), f.Gravity}
		if slices.Min(sizes) <= 0 || !(f.Mass >= 0) || math.IsInf(float64(f.Mass), 0) || !(f.Stiff >= 0) {
			out = append(out, Problem{Code: BadNumber, Frames: []int{i}, Names: in.names([]int{i})})
		}
	}
	fixed := map[int]bool{}
	for _, s := range in.Fixing.Seams {
		if s.Index < 0 || s.Index >= len(in.Layout.Seams) {
			return nil, fmt.Errorf("stand: fixing of seam %d of %d", s.Index, len(in.Layout.Seams))
		}
		fixed[s.Index] = len(s.Fasteners) > 0
	}
	for i, s := range in.Layout.Seams {
		if !fixed[i] {
			frames := []int{s.Sides[0].Frame, s.Sides[1].Frame}
			out = append(out, Problem{Code: Unfixed, Seam: s.Number, Frames: frames, Names: in.names(frames)})
		}
	}
	return out, nil
}

// Held are the frames that the base holds, by their index.
func (in StrengthInput) Held() []int { return slices.Clone(in.held()) }

// NextHeld are the lowest frames that the base does not hold yet, all at one
// height.
func (in StrengthInput) NextHeld() []int { return in.nextHeld() }

// held are the frames that the base holds.
func (in StrengthInput) held() []int {
	switch {
	case in.Base.Method == NotHeld:
		return nil
	case in.Base.Frames != nil:
		return in.Base.Frames
	}
	return in.standing()
}

// standing are the frames with a board or a foot on the floor, from left to
// right; those on a corner when there are no others.
func (in StrengthInput) standing() []int {
	var out []int
	add := func(f int) {
		if !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	for _, s := range in.Layout.Standing {
		add(s.Frame)
	}
	for _, s := range in.Layout.Feet {
		add(s.Frame)
	}
	if out == nil {
		for _, s := range in.Layout.Tips {
			add(s.Frame)
		}
	}
	return out
}
