package stand

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/geom"
	"bowerwright/statics"
	"bowerwright/unit"
)

// A CaseResult is what one load does.
type CaseResult struct {
	StrengthCase
	Settled bool     // false: no figures
	Worst   []Demand // of each part there is, the worst first
	Governs Demand
	Move    float64 // mm, the farthest of any place; 0 on the way
}

// A Looseness is frames that can move without resistance, and how: the shift of
// each of their corners, the greatest being 1. Shift[1] is backwards.
type Looseness struct {
	Frames []int
	Seams  []int  // across which they move
	Case   string // "" when it needs no load
	Moves  []CornerMove
}

// A CornerMove is how a corner goes in the picture of a loose frame.
type CornerMove struct {
	Frame, Corner int
	At            geom.Point
	Right         float64
	Back          float64
	Up            float64
}

// A StrengthPlan is what strength comes to.
type StrengthPlan struct {
	Cases   []CaseResult // at most MostCases
	Governs Demand       // of all
	Case    string       // under which
	Word    string
	Seams   []Demand // the worst of each seam in any case, by number

	Move, MoveMost float64 // mm: corners that do not give, corners that do; one digit is known
	MoveCase       string

	Loose       []Looseness
	Pivots      []int // seams of a single screw: nothing there resists a turn about it
	Outside     []int // seams whose screws the standard does not cover
	Strongbacks []StrongbackList

	lefts float64 // by how much all is over
}

// Over says whether anything is over, loose or could not be reckoned.
func (p StrengthPlan) Over() bool { return p.Word != WellInside && p.Word != NearLimit }

// Left is by how much all that is over is over, summed so that a change counts
// which helps with one thing while another governs; 0 where nothing is.
func (p StrengthPlan) Left() float64 { return p.lefts }

// PullTest is a push that the sums pass, at its height above the foot, for a
// test with a luggage scale before guests come; false where they do not pass.
func (p StrengthPlan) PullTest() (force unit.Force, height float64, ok bool) {
	if p.Over() {
		return 0, 0, false
	}
	for _, c := range p.Cases {
		if strings.HasPrefix(c.Name, "pushed backwards") && c.Governs.Ratio <= 1 {
			return c.Force, c.At, true
		}
	}
	return 0, 0, false
}

// Strength reckons what screws, corners, boards and the joint to the base bear,
// in at most MostCases cases. Problems are the user's to put right; with one
// about loose frames there are no figures. The error is that of a cancelled
// context, or a fault of ours.
func Strength(ctx context.Context, in StrengthInput, rules StrengthRules) (StrengthPlan, []Problem, error) {
	problems, err := in.check()
	if err != nil {
		return StrengthPlan{}, nil, err
	}
	if slices.ContainsFunc(problems, func(p Problem) bool { return p.Code == BadNumber }) {
		return StrengthPlan{Word: Over}, problems, nil
	}
	s := &strengthSums{ctx: ctx, in: in, rules: rules, problems: problems}
	s.overhead()
	if len(in.Frames) > 0 {
		if err := s.all(); err != nil {
			return StrengthPlan{}, nil, err
		}
	}
	s.conclude()
	return s.plan, s.problems, nil
}

type strengthSums struct {
	ctx      context.Context
	in       StrengthInput
	rules    StrengthRules
	plan     StrengthPlan
	problems []Problem
}

func (s *strengthSums) all() error {
	m := newStrengthModel(s.in, s.rules, false)
	loose, err := s.run(m, m.standingCases, m.stands, true)
	if err != nil || loose {
		return err
	}
	if err := s.softest(); err != nil {
		return err
	}
	if s.in.Lift == nil {
		return s.raised()
	}
	m = newStrengthModel(s.in, s.rules, false)
	_, err = s.run(m, m.liftCases, m.lies, false)
	return err
}

// stands builds the model as it stands; lies, as it is carried. Both say how the
// model goes on once its frames are there.
func (m *strengthModel) stands() func() {
	joints, pads := m.seams(), m.pads()
	tops := make([]mark, len(m.in.Braces))
	for i, b := range m.in.Braces {
		tops[i] = m.nearest(b.At)
	}
	battens := m.allCrossings(false)
	return func() {
		for _, j := range joints {
			m.join(j)
		}
		m.standOn(pads)
		for i, b := range m.in.Braces {
			m.brace(b, tops[i])
		}
		m.allBattens(battens)
	}
}

func (m *strengthModel) lies() func() {
	joints, battens := m.seams(), m.allCrossings(true)
	return func() {
		for _, j := range joints {
			m.join(j)
		}
		m.allBattens(battens)
	}
}

func (m *strengthModel) allCrossings(lift bool) map[int][]crossing {
	out := map[int][]crossing{}
	for i, b := range m.in.Strongbacks {
		if lift || !b.Lift {
			out[i] = m.crossings(b)
		}
	}
	return out
}

func (m *strengthModel) allBattens(cross map[int][]crossing) {
	for i, b := range m.in.Strongbacks {
		if c := cross[i]; len(c) > 0 {
			m.batten(b, c)
		}
	}
}

// run builds one model and solves its cases.
func (s *strengthSums) run(m *strengthModel, cases func() []wanted, build func() func(), stands bool) (loose bool, err error) {
	finish := build()
	list := cases()
	m.frames()
	finish()
	loads := make([]statics.Case, len(list))
	for i, w := range list {
		loads[i] = m.load(w)
	}
	p, err := statics.Prepare(s.ctx, &m.Model, statics.Limits{Steps: steps})
	if err != nil {
		return false, err
	}
	if len(m.battens) > len(s.plan.Strongbacks) {
		s.plan.Strongbacks = m.battens
	}
	if stands {
		s.seamNotes(m, p)
		if l := p.Mechanism(); l != nil {
			s.loosen(m, l, "")
			return true, nil
		}
	}
	for i, w := range list {
		r, err := p.Solve(s.ctx, loads[i])
		if err != nil {
			return false, err
		}
		s.take(m, w, r)
	}
	return false, nil
}

// seamNotes says what is to be known of the seams before any load.
func (s *strengthSums) seamNotes(m *strengthModel, p *statics.Prepared) {
	for _, name := range p.Pivots() {
		if n, ok := seamNumber(name); ok {
			s.plan.Pivots = append(s.plan.Pivots, n)
		}
	}
	slices.Sort(s.plan.Pivots)
	short := map[int]bool{}
	for _, t := range m.ties {
		if t.part != SeamPart {
			continue
		}
		if t.outside && !slices.Contains(s.plan.Outside, t.number) {
			s.plan.Outside = append(s.plan.Outside, t.number)
		}
		if t.short && !short[t.number] {
			short[t.number] = true
			s.problems = append(s.problems, Problem{Code: ShortHold, Seam: t.number, Frames: t.frames[:], Names: s.in.names(t.frames[:])})
		}
	}
}

func seamNumber(name string) (int, bool) {
	text, ok := strings.CutPrefix(name, "seam ")
	n, err := strconv.Atoi(text)
	return n, ok && err == nil
}

// loosen records frames that can move.
func (s *strengthSums) loosen(m *strengthModel, l *statics.Mechanism, name string) {
	out := Looseness{Case: name}
	for i, f := range s.in.Layout.Frames {
		if slices.Contains(l.Groups, f.ID) {
			out.Frames = append(out.Frames, i)
		}
	}
	for _, seam := range l.Seams {
		if n, ok := seamNumber(seam); ok {
			out.Seams = append(out.Seams, n)
		}
	}
	slices.Sort(out.Seams)
	for _, i := range out.Frames {
		out.Moves = append(out.Moves, m.moves(i, l.Picture)...)
	}
	s.plan.Loose = append(s.plan.Loose, out)
	p := Problem{Code: LooseFrame, Frames: out.Frames, Names: s.in.names(out.Frames), Case: name}
	if name == "" {
		p.Case = "without any load"
	}
	if len(out.Seams) > 0 {
		p.Seam = out.Seams[0]
	}
	s.problems = append(s.problems, p)
}

// moves is the picture at the corners of a frame.
func (m *strengthModel) moves(i int, picture []statics.Motion) []CornerMove {
	var out []CornerMove
	for k := range m.in.Layout.Frames[i].Outside {
		mark := m.cornerMark(i, k+1)
		shift := picture[mark.node()].Shift
		out = append(out, CornerMove{Frame: i, Corner: k + 1, At: m.corner(i, k), Right: shift[0], Back: shift[1], Up: shift[2]})
	}
	return out
}

// take judges one case.
func (s *strengthSums) take(m *strengthModel, w wanted, r *statics.Result) {
	c := CaseResult{StrengthCase: w.StrengthCase, Settled: r.Outcome == statics.Settled}
	switch r.Outcome {
	case statics.Unsettled:
		s.problems = append(s.problems, Problem{Code: Undecided, Case: w.Name})
	case statics.Loose:
		s.tips(m, &c, r.Loose)
	default:
		s.judge(m, &c, w, r)
	}
	s.plan.Cases = append(s.plan.Cases, c)
}

// tips is a piece that nothing holds to its base, pushed over: that is for its
// stability to say, and here it is over. Anything else is a loose frame.
func (s *strengthSums) tips(m *strengthModel, c *CaseResult, l *statics.Mechanism) {
	if len(s.in.held()) > 0 || c.Lift || slices.ContainsFunc(l.Seams, func(n string) bool { _, ok := seamNumber(n); return ok }) {
		s.loosen(m, l, c.Name)
		return
	}
	d := Demand{Part: BasePart, Frame: -1, Name: "the piece", Ratio: math.Inf(1), Plain: math.Inf(1)}
	if f := s.in.standing(); len(f) > 0 {
		d.Frame, d.Name = f[0], s.in.Layout.Frames[f[0]].ID
	}
	c.Governs = judge{m, 1}.finish(d, s.rules.Band)
	c.Worst = []Demand{c.Governs}
}

func (s *strengthSums) judge(m *strengthModel, c *CaseResult, w wanted, r *statics.Result) {
	worst := map[Part]Demand{}
	keep := func(d Demand) {
		if old, ok := worst[d.Part]; !ok || d.Ratio > old.Ratio*(1+sameRatio) {
			worst[d.Part] = d
		}
		if d.Part == SeamPart {
			s.ofSeam(d)
		}
	}
	j := judge{m, w.Time}
	j.springs(r, keep)
	j.corners(r, keep)
	j.boards(r, keep)
	if !w.Lift {
		j.movement(r, c, keep)
	}
	for _, p := range []Part{SeamPart, CornerPart, BoardPart, BasePart, TiePart, BracePart, MovementPart} {
		if d, ok := worst[p]; ok {
			c.Worst = append(c.Worst, d)
		}
	}
	slices.SortStableFunc(c.Worst, func(a, b Demand) int {
		switch {
		case a.Ratio > b.Ratio:
			return -1
		case a.Ratio < b.Ratio:
			return 1
		}
		return 0
	})
	c.Governs = c.Worst[0]
}

// movement is the farthest that any place moves, against what counts as loose.
func (j judge) movement(r *statics.Result, c *CaseResult, keep func(Demand)) {
	for _, move := range r.Moves {
		c.Move = math.Max(c.Move, move.Shift.Len())
	}
	ratio := c.Move / (j.m.rules.Loose * j.m.in.Layout.Height)
	keep(j.finish(Demand{Part: MovementPart, Frame: -1, Ratio: ratio, Plain: ratio}, 1)) // known to a factor of two
}

func (s *strengthSums) ofSeam(d Demand) {
	for i, old := range s.plan.Seams {
		if old.Seam == d.Seam {
			if d.Ratio > old.Ratio*(1+sameRatio) {
				s.plan.Seams[i] = d
			}
			return
		}
	}
	s.plan.Seams = append(s.plan.Seams, d)
}

// softest runs the case that moves farthest again with mitres that give: forces
// hardly change with that, movement does.
func (s *strengthSums) softest() error {
	at := -1
	for i, c := range s.plan.Cases {
		if c.Settled && c.Move > s.plan.Move {
			at, s.plan.Move, s.plan.MoveCase = i, c.Move, c.Name
		}
	}
	if at < 0 {
		return nil
	}
	s.plan.MoveMost = s.plan.Move
	m := newStrengthModel(s.in, s.rules, true)
	finish := m.stands()
	list := m.standingCases()
	m.frames()
	finish()
	load := m.load(list[at])
	p, err := statics.Prepare(s.ctx, &m.Model, statics.Limits{Steps: steps})
	if err != nil {
		return err
	}
	r, err := p.Solve(s.ctx, load)
	if err != nil || r.Outcome != statics.Settled {
		return err
	}
	for _, move := range r.Moves {
		s.plan.MoveMost = math.Max(s.plan.MoveMost, move.Shift.Len())
	}
	return nil
}

// conclude finds the one thing that governs.
func (s *strengthSums) conclude() {
	p := &s.plan
	p.Word = WellInside
	for _, c := range p.Cases {
		if !p.Governs.Sized() || c.Governs.Ratio > p.Governs.Ratio*(1+sameRatio) {
			p.Governs, p.Case = c.Governs, c.Name
		}
	}
	if p.Governs.Sized() {
		p.Word = p.Governs.Word
	}
	p.lefts = p.left(len(s.problems))
	slices.SortFunc(p.Seams, func(a, b Demand) int { return a.Seam - b.Seam })
	slices.Sort(p.Outside)
	if slices.ContainsFunc(s.problems, func(q Problem) bool { return q.Code != OneFixing }) {
		p.Word = Over
	}
}

// Says is the one line: what governs, where, under what.
func (p StrengthPlan) Says() string {
	if len(p.Loose) > 0 || !p.Governs.Sized() {
		return p.Word + ": something can move, or could not be reckoned"
	}
	return fmt.Sprintf("%s: %s, %s (%s of what is allowed)", p.Word, p.Governs.Where(), p.Case, TwoDigits(p.Governs.Ratio))
}

// StrengthNotChecked is what must stand beside any figure on strength.
func StrengthNotChecked() []string {
	return []string{
		"A working estimate, not an engineer's certificate: a venue or a public place outdoors may ask for one.",
		"Screws of these lengths hold by less than the timber standard asks: its formulas are used outside their range, and cut.",
		"Not checked: bad glue, knots, split ends, overdriven heads, dried-out boards, children who climb, lamps and flowers added later; the base itself.",
		"Over heads, over its limit, or where people lean on it: ask a licensed engineer.",
	}
}

// steps bounds the search for which contacts are closed: single screws and a push
// along the piece open many, one after the other.
const steps = 80
