package section

import (
	"fmt"
	"slices"

	"bowerwright/geom"
	"bowerwright/section/internal/check"
)

// Solve finds the plan. The error is a *[Stuck] when there is none; any other
// is a fault of ours or of how the problem was put.
func Solve(p Problem) (Plan, error) {
	if err := p.check(); err != nil {
		return Plan{}, err
	}
	if p.Work == 0 {
		p.Work = Steps
	}
	w, err := newWorld(p)
	if err != nil {
		return Plan{}, err
	}
	best, plan, err := w.fewest()
	if err != nil {
		return Plan{}, err
	}
	w.begun()
	best = w.better(best)
	best, steps, all := w.settle(best, p.Work)
	plan.BestOfTies = all
	plan.Work += steps
	w.describe(&plan, best)
	if err := p.Check(plan); err != nil {
		return Plan{}, fmt.Errorf("section: our plan is wrong: %w", err)
	}
	return plan, nil
}

// fewest asks for one section, two, three. Where a short search leaves a number
// open, plans that are grown may show that it is enough; else a long one is
// made. Where that tires as well, the grown plan stands, unless a number in
// between is found.
func (w *world) fewest() ([]set, Plan, error) {
	var plan Plan
	for k := 1; k <= len(w.units); k++ {
		plan.AtLeast = k
		h, v := w.hunted(k, w.p.Work/glance, &plan)
		if v == tired {
			if len(w.grown()) == k {
				return w.grown(), plan, nil
			}
			h, v = w.hunted(k, w.p.Work, &plan)
		}
		switch v {
		case refuted:
			plan.Refutation = Refutation{Sections: k, Units: w.unitList(), Tree: h.tree}
		case planned:
			return h.found, plan, nil
		case tired:
			best := w.around(&plan)
			if best == nil {
				return nil, plan, &Stuck{w.everything(), "could not be parted within the work allowed"}
			}
			return best, plan, nil
		}
	}
	return nil, plan, &Stuck{w.everything(), "cannot be parted into sections that are each in one piece and bear being carried"}
}

// glance is the share of the work after which a search looks whether growing
// has the answer: most searches that end at all end sooner.
const glance = 10

func (w *world) hunted(k, work int, plan *Plan) (*hunt, verdict) {
	h, v := w.hunt(k, work)
	plan.Work += work - max(h.work, 0)
	return h, v
}

// around gives the fewest sections that can be found when proving has tired.
func (w *world) around(plan *Plan) []set {
	best := w.grown()
	most := len(best)
	if best == nil {
		most = len(w.units) + 1
	}
	for k := plan.AtLeast + 1; k < most; k++ {
		if h, v := w.hunted(k, w.p.Work, plan); v == planned {
			return h.found
		}
	}
	return best
}

func (w *world) unitList() [][]int {
	var out [][]int
	for _, u := range w.units {
		out = append(out, u.frames.list())
	}
	return out
}

func (w *world) everything() []int { return set(^uint64(0) >> (64 - len(w.p.Frames))).list() }

func (w *world) describe(p *Plan, sections []set) {
	for _, f := range sections {
		p.Sections = append(p.Sections, w.section(f))
	}
	slices.SortStableFunc(p.Sections, func(a, b Section) int {
		switch d := a.Centre.Sub(b.Centre); {
		case d.X < -geom.Eps || d.X <= geom.Eps && d.Y < -geom.Eps:
			return -1
		case d.X > geom.Eps || d.Y > geom.Eps:
			return 1
		}
		return a.Frames[0] - b.Frames[0]
	})
	for i := range p.Sections {
		p.Sections[i].Letter = Letter(i)
	}
	for i, s := range w.p.Seams {
		if !slices.ContainsFunc(sections, func(f set) bool { return f.has(s.A) && f.has(s.B) }) {
			p.SiteSeams = append(p.SiteSeams, i)
			p.Screws += s.Screws
		}
	}
}

func (w *world) section(frames set) Section {
	s := Section{Frames: frames.list(), Mass: w.massOf(frames)}
	for _, f := range s.Frames {
		share := 1 / float64(len(s.Frames)) // without masses, the middle of the frames
		if s.Mass > 0 {
			share = w.p.Frames[f].Mass / s.Mass
		}
		s.Centre = s.Centre.Add(w.p.Frames[f].Centre.Mul(share))
	}
	return s
}

// Letter names sections A to Z, then AA, AB.
func Letter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return Letter(i/26-1) + Letter(i%26)
}

// Check goes over a plan with a program that shares no code with the search:
// the sections, what is counted, and the refutation. A plan whose AtLeast is
// no more than one needs none.
func (p Problem) Check(plan Plan) error {
	in := check.Problem{
		Frames: len(p.Frames), Together: p.Together, Apart: p.Apart,
		Pass: p.Limits.Pass, Bear: p.Limits.Bear, MassLimit: p.Limits.Mass, Grain: lighter,
	}
	for _, f := range p.Frames {
		in.Mass = append(in.Mass, f.Mass)
	}
	for _, s := range p.Seams {
		in.Seams = append(in.Seams, check.Seam{A: s.A, B: s.B, Screws: s.Screws, Shop: s.Shop})
	}
	var sections [][]int
	for _, s := range plan.Sections {
		sections = append(sections, s.Frames)
	}
	if err := in.Sections(sections, plan.SiteSeams, plan.Screws); err != nil {
		return err
	}
	if plan.AtLeast <= 1 {
		return nil
	}
	r := plan.Refutation
	if r.Sections != plan.AtLeast-1 {
		return fmt.Errorf("%d sections are refuted, but at least %d claimed", r.Sections, plan.AtLeast)
	}
	return in.Refutation(r.Sections, r.Units, r.Tree)
}
