package stand

import (
	"cmp"
	"context"
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/making"
)

// Ways lists changes that may help with what is over.
func (p StrengthPlan) Ways(in StrengthInput) []Change {
	out := append(p.seamWays(in), in.cornerWays()...)
	if f := in.nextHeld(); f != nil {
		out = append(out, Change{Kind: HoldMore, Frames: f})
	}
	out = append(out, in.baseWays()...)
	for _, n := range []int{1, 2, 3, 4} {
		out = append(out, Change{Kind: RearBrace, Braces: in.bracesAt(n, 1-1.0/4)}, Change{Kind: RearBrace, Braces: in.bracesAt(n, 1)})
	}
	lift := in.Lift != nil && !p.standingOver()
	out = append(out, Change{Kind: AddBattens, Strongbacks: in.battensAt(false, lift)}, Change{Kind: AddBattens, Strongbacks: in.battensAt(true, lift)})
	return append(out, p.liftWays(in)...)
}

// seamWays are twice the screws, or bolts, where they are over and everywhere.
func (p StrengthPlan) seamWays(in StrengthInput) []Change {
	var all, over []int
	for _, s := range in.Fixing.Seams {
		all = append(all, s.Number)
	}
	for _, d := range p.Seams {
		if d.Ratio > 1 {
			over = append(over, d.Seam)
		}
	}
	var out []Change
	if len(over) > 0 && len(over) < len(all) {
		out = append(out, Change{Kind: SecondScrew, Seams: over}, Change{Kind: UseBolts, Seams: over})
	}
	if len(all) > 0 {
		out = append(out, Change{Kind: SecondScrew, Seams: all}, Change{Kind: UseBolts, Seams: all})
	}
	return out
}

// cornerWays are blocks in frames of boards on edge, plates on flat ones.
func (in StrengthInput) cornerWays() []Change {
	var out []Change
	for _, on := range []struct {
		edge bool
		with making.Corner
	}{{true, making.Blocks}, {false, making.Plates}} {
		if f := in.plain(on.edge); f != nil {
			out = append(out, Change{Kind: Reinforce, Corner: on.with, Frames: f})
		}
	}
	return out
}

// plain are the frames, of boards on edge or flat, whose corners are only glued.
func (in StrengthInput) plain(edge bool) []int {
	var out []int
	for i, f := range in.Frames {
		if !reinforced(f) && f.Boards.OnEdge == edge {
			out = append(out, i)
		}
	}
	return out
}

func (in StrengthInput) baseWays() []Change {
	var out []Change
	if in.Base.Method == clamped {
		return nil
	}
	for _, b := range []BaseJoint{{Method: Bracketed}, {Method: Bracketed, Each: most}, {Method: BoltedDown, Each: most, Rows: 2}} {
		b.Sheet = in.Base.Sheet
		if b.Method != in.Base.Method || b.Each != in.Base.Each {
			out = append(out, Change{Kind: HoldBetter, Base: b})
		}
	}
	return out
}

// nextHeld are the lowest frames that are not held yet, all at one height.
func (in StrengthInput) nextHeld() []int {
	held, low := in.held(), math.Inf(1)
	var out []int
	for i, f := range in.Layout.Frames {
		y := f.Box.Min.Y
		if slices.Contains(held, i) || y > low+sameSpot {
			continue
		}
		if y < low-sameSpot {
			out, low = nil, y
		}
		out = append(out, i)
	}
	return out
}

// bracesAt are so many struts spread over the width, from a share of the height,
// half as far behind as they are high.
func (in StrengthInput) bracesAt(n int, up float64) []Brace {
	var out []Brace
	for i := range n {
		at := geom.Point{X: in.Layout.Width * (float64(i) + 1.0/2) / float64(n), Y: in.Layout.Height * up}
		out = append(out, Brace{At: at, Behind: at.Y / 2, Boards: in.Frames[0].Boards})
	}
	return out
}

// battensAt are two strongbacks, upright or level, a third of the way from
// either end.
func (in StrengthInput) battensAt(level, lift bool) []Strongback {
	w, h := in.Layout.Width, in.Layout.Height
	var out []Strongback
	for _, k := range []float64{1, 2} {
		b := Strongback{From: geom.Point{X: w * k / 3}, To: geom.Point{X: w * k / 3, Y: h}, Boards: in.Frames[0].Boards, Lift: lift}
		if level {
			b.From, b.To = geom.Point{Y: h * k / 3}, geom.Point{X: w, Y: h * k / 3}
		}
		out = append(out, b)
	}
	return out
}

// liftWays are more people, as long as a team is one, and not lifting it at all.
func (p StrengthPlan) liftWays(in StrengthInput) []Change {
	if in.Lift == nil {
		return nil
	}
	var out []Change
	for n := 1; n <= len(in.Lift.Lifts.Carry); n++ {
		if n > newStrengthModel(in, StrengthRules{}, false).carriers() && in.Lift.Lifts.Carry[n-1].Found {
			out = append(out, Change{Kind: MorePeople, People: n})
		}
	}
	return append(out, Change{Kind: InPlace})
}

func (p StrengthPlan) standingOver() bool {
	return slices.ContainsFunc(p.Cases, func(c CaseResult) bool { return !c.Lift && c.Governs.Ratio > 1 })
}

// left says by how much everything that is over is over, each part in each case
// by the logarithm of its ratio: so that a change counts which helps with one
// thing while another governs. Each problem counts as one that is far over.
func (p StrengthPlan) left(problems int) float64 {
	farOver := math.Log(ten)
	sum := farOver * float64(problems)
	for _, c := range p.Cases {
		for _, d := range c.Worst {
			if d.Ratio > 1 {
				sum += math.Min(math.Log(d.Ratio), farOver*2)
			}
		}
	}
	return sum
}

// WaysOut tries every change that may help, each by itself; and when none is
// enough, the best together with the best of the rest, and so on, until it is
// enough or nothing helps further. Verdicts come the best first: what is enough,
// then what leaves least over.
func WaysOut(ctx context.Context, in StrengthInput, rules StrengthRules, plan StrengthPlan) ([]Verdict, error) {
	var out []Verdict
	for _, c := range plan.Ways(in) {
		v, err := Try(ctx, in, rules, plan, c)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	slices.SortStableFunc(out, compareVerdicts)
	singles := leading(out)
	for len(out) > 0 && out[0].Word == Over && len(out[0].Changes) < mostTogether {
		next, err := furthered(ctx, in, rules, plan, out[0], singles)
		if err != nil {
			return nil, err
		}
		if next == nil || compareVerdicts(*next, out[0]) >= 0 {
			break
		}
		out = slices.Insert(out, 0, *next)
	}
	if len(out) == 0 || out[0].Word == Over {
		return out, nil
	}
	fewer, err := pruned(ctx, in, rules, plan, out[0])
	if err == nil && len(fewer.Changes) < len(out[0].Changes) {
		out = slices.Insert(out, 0, fewer)
	}
	return out, err
}

// pruned leaves out what is not needed, from the last change to the first, as
// long as the rest is enough.
func pruned(ctx context.Context, in StrengthInput, rules StrengthRules, plan StrengthPlan, v Verdict) (Verdict, error) {
	for i := len(v.Changes) - 1; i >= 0 && len(v.Changes) > 1; i-- {
		less, err := Try(ctx, in, rules, plan, slices.Delete(slices.Clone(v.Changes), i, i+1)...)
		if err != nil {
			return v, err
		}
		if less.Word != Over {
			v = less
		}
	}
	return v, nil
}

// mostTogether is how many changes are proposed at once: more is another design.
// mostSingles is how many are tried on top of others.
const (
	mostTogether = 7
	mostSingles  = 12
)

// leading are the changes that do most by themselves, the best of each kind,
// and of corners by what they are made with.
func leading(sorted []Verdict) []Change {
	var out []Change
	type sort struct {
		kind ChangeKind
		with making.Corner
	}
	seen := map[sort]bool{}
	for _, v := range sorted {
		c := v.Changes[0]
		if k := (sort{c.Kind, c.Corner}); !seen[k] && len(out) < mostSingles {
			seen[k] = true
			out = append(out, c)
		}
	}
	return out
}

// furthered is the best of one more change on top of others; nil when there is
// none left.
func furthered(ctx context.Context, in StrengthInput, rules StrengthRules, plan StrengthPlan, on Verdict, singles []Change) (*Verdict, error) {
	var next *Verdict
	for _, c := range singles {
		if slices.ContainsFunc(on.Changes, c.clashes) {
			continue
		}
		v, err := Try(ctx, in, rules, plan, append(slices.Clone(on.Changes), c)...)
		if err != nil {
			return nil, err
		}
		if next == nil || compareVerdicts(v, *next) < 0 {
			next = &v
		}
	}
	return next, nil
}

// clashes says whether two changes are not to be made together: two of a kind,
// but for corners of other frames; screws and bolts; lifts of what is not lifted.
func (c Change) clashes(d Change) bool {
	if c.Kind == d.Kind {
		return c.Kind != Reinforce || c.Corner == d.Corner
	}
	both := func(a, b ChangeKind) bool { return c.Kind == a && d.Kind == b || c.Kind == b && d.Kind == a }
	return both(SecondScrew, UseBolts) || both(InPlace, MorePeople)
}

func compareVerdicts(a, b Verdict) int {
	over := func(v Verdict) int {
		if v.Word == Over {
			return 1
		}
		return 0
	}
	if c := cmp.Or(cmp.Compare(over(a), over(b)), cmp.Compare(len(a.Changes)*(1-over(a)), len(b.Changes)*(1-over(b)))); c != 0 {
		return c
	}
	return cmp.Or(cmp.Compare(a.left, b.left), cmp.Compare(a.After.Ratio, b.After.Ratio))
}
