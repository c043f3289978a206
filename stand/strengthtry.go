package stand

import (
	"context"
	"fmt"
	"math"
	"slices"

	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/making"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A ChangeKind is a way out.
type ChangeKind string

// The ways out. Each names the fields of Change that go with it.
const (
	SecondScrew  ChangeKind = "second screws" // Seams
	UseBolts     ChangeKind = "bolts"         // Seams
	Reinforce    ChangeKind = "corners"       // Corner, Frames
	HoldMore     ChangeKind = "hold more"     // Frames
	HoldBetter   ChangeKind = "hold better"   // Base
	RearBrace    ChangeKind = "rear braces"   // Braces
	AddBattens   ChangeKind = "strongbacks"   // Strongbacks
	WiderBase    ChangeKind = "wider base"    // Scale
	MoreBallast  ChangeKind = "ballast"       // Ballast
	SecondFixing ChangeKind = "second fixing" // Frames
	MorePeople   ChangeKind = "more people"   // People
	InPlace      ChangeKind = "in place"
)

// A Change is one way out, as data: what the job file would say otherwise.
type Change struct {
	Kind        ChangeKind
	Seams       []int // numbers
	Frames      []int // indices
	Corner      making.Corner
	Base        BaseJoint
	Braces      []Brace
	Strongbacks []Strongback
	Scale       float64 // of the base's hull about its middle
	People      int     // who carry it flat
	Ballast     []Placed
}

// Text says a change, as a phrase.
func (c Change) Text(in StrengthInput) string {
	switch c.Kind {
	case SecondScrew:
		return "twice as many screws, in two rows where there were two, at " + seamList(c.Seams)
	case UseBolts:
		return "bolts with washers at " + seamList(c.Seams)
	case Reinforce:
		return "a " + string(c.Corner) + " at every corner of " + list(in.names(c.Frames))
	case HoldMore:
		return "hold " + list(in.names(c.Frames)) + " at the base as well"
	case HoldBetter:
		if c.Base.Each > 0 {
			return fmt.Sprintf("hold every held frame to the base by %s at %d places", c.Base.Method, c.Base.Each)
		}
		return "hold it to the base by " + string(c.Base.Method)
	case RearBrace:
		from := "the back"
		if len(c.Braces) > 0 && c.Braces[0].At.Y > in.Layout.Height-sameSpot {
			from = "the top"
		}
		return fmt.Sprintf("%d %s from %s to the base", len(c.Braces), plural(len(c.Braces), "brace"), from)
	case AddBattens:
		way := "up the back"
		if b := c.Strongbacks[0]; math.Abs(b.To.X-b.From.X) > math.Abs(b.To.Y-b.From.Y) {
			way = "across the back"
		}
		return fmt.Sprintf("%d %s %s", len(c.Strongbacks), plural(len(c.Strongbacks), "strongback"), way)
	case WiderBase:
		return fmt.Sprintf("a base %.1f times as wide and deep", c.Scale)
	case MoreBallast:
		return fmt.Sprintf("%d more %s of ballast", len(c.Ballast), plural(len(c.Ballast), "unit"))
	case MorePeople:
		return fmt.Sprintf("%d people to carry it", c.People)
	case InPlace:
		return "build it up frame by frame where it stands, and never lift it in one"
	}
	return "a retaining line to " + list(in.names(c.Frames))
}

func plural(n int, name string) string {
	if n == 1 {
		return name
	}
	return name + "s"
}

func seamList(seams []int) string {
	names := make([]string, len(seams))
	for i, n := range seams {
		names[i] = fmt.Sprint(n)
	}
	return plural(len(seams), "seam") + " " + list(names)
}

// Apply gives the input with a change made; the one given stays as it is.
func (c Change) Apply(in StrengthInput, rules StrengthRules) StrengthInput {
	switch c.Kind {
	case SecondScrew:
		in.Fixing = in.refixed(c.Seams, func(s *fixing.Seam) { in.second(s, rules.Row) })
	case UseBolts:
		in.Fixing = in.refixed(c.Seams, in.bolted)
	case Reinforce:
		in.Frames = slices.Clone(in.Frames)
		for _, f := range c.Frames {
			in.Frames[f].Corner = c.Corner
		}
	case HoldMore:
		in.Base.Frames = append(slices.Clone(in.held()), c.Frames...)
		if in.Base.Method == NotHeld {
			in.Base.Method = Bracketed
		}
	case HoldBetter:
		held := in.held()
		in.Base = c.Base
		if in.Base.Frames == nil && len(held) > 0 {
			in.Base.Frames = held
		}
	case RearBrace:
		in.Braces = append(slices.Clone(in.Braces), c.Braces...)
	case AddBattens:
		in.Strongbacks = append(slices.Clone(in.Strongbacks), c.Strongbacks...)
	case SecondFixing:
		in.Tethered = append(slices.Clone(in.Tethered), c.Frames...)
	case InPlace:
		in.Lift = nil
	case MorePeople:
		if in.Lift != nil {
			lift := *in.Lift
			lift.People, lift.Best, lift.Worst = c.People, nil, nil
			in.Lift = &lift
		}
	default:
		in.Stand = c.restand(in.Stand)
	}
	return in
}

// restand changes what stability is reckoned from.
func (c Change) restand(s *Setup) *Setup {
	if s == nil {
		return nil
	}
	out := *s
	if c.Kind == WiderBase {
		out.Stance.Hull = stretched(s.Stance.Hull, c.Scale, c.Scale)
	}
	out.Ballast = append(slices.Clone(s.Ballast), c.Ballast...)
	return &out
}

// refixed changes some seams of a plan.
func (in StrengthInput) refixed(numbers []int, change func(*fixing.Seam)) fixing.Plan {
	plan := in.Fixing
	plan.Seams = slices.Clone(plan.Seams)
	for i := range plan.Seams {
		if s := &plan.Seams[i]; slices.Contains(numbers, s.Number) {
			s.Fasteners = slices.Clone(s.Fasteners)
			change(s)
		}
	}
	return plan
}

// second gives a seam of one fastener a second one along it, and one of more a
// second row through the depth.
func (in StrengthInput) second(s *fixing.Seam, row float64) {
	long := in.Layout.Seams[s.Index].Length
	if len(s.Fasteners) == 1 {
		a, b := s.Fasteners[0], s.Fasteners[0]
		a.Along, b.Along = long/4, long*3/4
		s.Fasteners = []fixing.Fastener{a, b}
		return
	}
	var out []fixing.Fastener
	for _, f := range s.Fasteners {
		rise := in.Frames[f.Tip].Boards.Rise().MM()
		off := math.Min(row, rise/3)
		a, b := f, f
		a.Depth, b.Depth = rise/2-off, rise/2+off
		if math.Abs(f.Depth-rise/2) > off/2 || f.Axis == (geom.Point{}) {
			a, b = f, f // rows there are already, or plates: one more of each
		}
		out = append(out, a, b)
	}
	s.Fasteners = out
}

// bolted puts a bolt with washers in the place of every screw.
func (in StrengthInput) bolted(s *fixing.Seam) {
	if s.Method == fixing.Plated || s.Method == fixing.Battened {
		return
	}
	s.Method = fixing.Bolted
	for i := range s.Fasteners {
		f := &s.Fasteners[i]
		f.Kind, f.Diameter, f.Root, f.Slant = stock.Bolt, unit.Inch/4, 0, 0
		f.First, f.Penetration = in.Frames[f.Head].Boards.Depth().MM(), in.Frames[f.Tip].Boards.Depth().MM()
	}
}

// A Verdict is a change, or several together, that has been reckoned.
type Verdict struct {
	Changes       []Change
	Says          []string // each change as a phrase
	Before, After Demand   // what governs
	Case          string   // under which, after
	Word          string   // after
	Problems      int      // that are left
	Standing      *Governing
	Helps         bool // it is better than before
	Strongbacks   []StrongbackList

	left float64 // by how much all is over, see strengthSums.left
}

// Try makes changes to a piece and reckons it anew.
func Try(ctx context.Context, in StrengthInput, rules StrengthRules, before StrengthPlan, changes ...Change) (Verdict, error) {
	v := Verdict{Changes: changes, Before: before.Governs}
	was := in.stability()
	for _, c := range changes {
		v.Says = append(v.Says, c.Text(in))
		in = c.Apply(in, rules)
	}
	plan, problems, err := Strength(ctx, in, rules)
	if err != nil {
		return v, err
	}
	v.After, v.Case, v.Word, v.Problems, v.Strongbacks = plan.Governs, plan.Case, plan.Word, len(problems), plan.Strongbacks
	v.Standing, v.left = in.stability(), plan.lefts
	v.Helps = v.left < before.lefts-sameRatio || plan.better(before) || was != nil && v.Standing.Ratio < was.Ratio*(1-sameRatio)
	return v, nil
}

func (p StrengthPlan) better(q StrengthPlan) bool {
	if len(p.Loose) != len(q.Loose) {
		return len(p.Loose) < len(q.Loose)
	}
	return p.Governs.Sized() && (!q.Governs.Sized() || p.Governs.Ratio < q.Governs.Ratio*(1-sameRatio))
}

// stability is the worst that its setup gives; nil without one.
func (in StrengthInput) stability() *Governing {
	if in.Stand == nil {
		return nil
	}
	worst := Governing{Ratio: -1}
	for _, f := range in.Stand.Check() {
		worst = worst.worse(f.Worst)
	}
	return &worst
}
