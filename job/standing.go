package job

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"reflect"
	"slices"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/layout"
	"bowerwright/snag"
	"bowerwright/stand"
	"bowerwright/unit"
)

// What the job file may ask for under dressing and base that cannot be.
var (
	baseSnags = adopt(base.Snags, func(code string) bool {
		return slices.Contains([]base.Code{base.NoFoot, base.Overhangs}, base.Code(code))
	})
	dressingSnags = adopt(dressing.Snags, func(code string) bool {
		return slices.Contains([]dressing.Code{dressing.NoArea, dressing.BadRegion}, dressing.Code(code))
	})
	snagRim = define("base-rim", "The rim of a ring or a frame base leaves no opening.")
)

// Work budgets in counted steps: of the search for ballast on the job's own
// base, on one that is only proposed, and of the places to carry from.
const (
	ballastWork = 100_000
	triedWork   = 10_000
	carryWork   = 20_000
)

// An outfit is all that decides on standing: what the job says, or what it would
// say after a change.
type outfit struct {
	ways    []WayAsked
	base    []BaseAsked
	at      StandingAsked
	lift    LiftingAsked
	fixing  FixingAsked
	corners []string // as Kind.Corner, by kind
}

// clone may be changed without the original noticing.
func (a outfit) clone() outfit {
	a.ways, a.base, a.at.Ballast = slices.Clone(a.ways), slices.Clone(a.base), slices.Clone(a.at.Ballast)
	a.fixing.Seams, a.corners, a.at.HeldFrames = slices.Clone(a.fixing.Seams), slices.Clone(a.corners), slices.Clone(a.at.HeldFrames)
	for i := range a.ways {
		a.ways[i].Layers = slices.Clone(a.ways[i].Layers)
	}
	return a
}

// waysWanted is how far changes are looked for where something is over.
type waysWanted int

// Each change by itself is what a packet has room for; several together, where
// none is enough by itself, are work for a second or more.
const (
	waysAlone waysWanted = iota
	waysTogether
	noWays
)

// A stander knows what stays the same in every trial of one job.
type stander struct {
	p     *planner
	rules stand.Rules
	bears stand.StrengthRules
	piece dressing.Piece
	lines []base.Line
	deep  float64 // of the frames, mm
	// book is read by the job's own trial, whose assumptions are listed, and aside
	// for changes that are only tried.
	book    *assume.Reader
	lifted  map[float64]stand.Lifts // by how high the base is
	dressed []dressedAs
	ways    waysWanted
}

// stands fills Result.Standing. What the job file asks for under dressing and
// base and cannot be is a snag; that something is over is no snag, since frames
// can be made while it is settled.
func (p *planner) stands() {
	if len(p.built.Frames) == 0 {
		return
	}
	s := p.stander()
	s.ways = p.ways
	t := s.try(p.outfit(), ballastWork)
	if s.snags(t); p.snags.Stops() || p.err != nil {
		return
	}
	s.wayNotes(t)
	s.strong(&t)
	s.book = p.book.Aside()
	p.result.Standing = s.facts(t)
	p.result.Banner = banner(p.result.Standing)
}

// outfit is what the job says.
func (p *planner) outfit() outfit {
	a := outfit{ways: p.spec.Dressing, base: p.spec.Base, at: p.spec.Standing, lift: p.spec.Lifting, fixing: p.spec.Fixing}
	for _, k := range p.kinds {
		a.corners = append(a.corners, k.Corner)
	}
	return a
}

func (p *planner) stander() *stander {
	s := &stander{p: p, rules: stand.RulesFrom(p.book), bears: stand.StrengthRulesFrom(p.book), book: p.book}
	frames := make([]base.Frame, len(p.built.Frames))
	s.piece.Layout = p.built
	for i, f := range p.built.Frames {
		k := p.kinds[p.kindAt[f.Kind]]
		deep := k.rise().MM()
		frames[i] = base.Frame{Depth: deep}
		s.piece.Frames = append(s.piece.Frames, dressing.Frame{Mass: k.mass(), Depth: deep})
		s.deep = max(s.deep, deep)
	}
	// A circle stands on no side, though the short bits that stand for it may.
	l := p.built
	l.Standing = slices.DeleteFunc(slices.Clone(l.Standing), func(b layout.Standing) bool { return p.kinds[p.kindAt[l.Frames[b.Frame].Kind]].round != nil })
	s.lines = base.Lines(l, frames)
	return s
}

// A trial is how the piece stands as asked.
type trial struct {
	asked    outfit
	ways     []dressing.Way
	bare     dressing.State
	states   []dressing.State
	pieces   []base.Piece
	owners   []int // which BaseAsked a piece is of
	setup    stand.Setup
	units    []base.Unit
	lack     stand.Missing
	plan     stand.Plan
	loaded   stand.Setup // with the ballast of the plan
	findings []stand.Finding
	leans    []stand.Lean
	footing  bool // it stands on more than a line
	rims     []int
	inWay    []int // which BaseAsked stand where people walk through
	badBase  []base.Problem
	badDress []dressing.Problem

	// strong fills these in; without it they are empty.
	strength *stand.StrengthPlan
	weak     []stand.Problem
	input    stand.StrengthInput
}

// try puts the piece up as asked, with as few units of ballast as will do.
func (s *stander) try(a outfit, work int) trial {
	t := trial{asked: a}
	s.dress(&t)
	s.base(&t)
	if len(t.badDress)+len(t.badBase)+len(t.rims) > 0 || !t.footing {
		return t
	}
	t.setup.Rules, t.setup.Floor, t.setup.Loads = s.rules, s.floor(a.at), s.loads(a.at)
	t.setup.Bare, t.setup.States = t.bare, t.states
	t.units = s.units(a.at)
	if a.at.Heap > 0 {
		t.setup.Ballast = []stand.Placed{{Name: "weight in the middle", Mass: a.at.Heap, At: t.setup.Stance.Hull.Centroid(), Up: t.setup.Stance.Lift}}
	}
	t.lack = t.setup.Missing()
	if !t.lack.Nothing() && len(t.units) > 0 {
		t.plan = t.lack.Best(t.setup.Stance, t.units, s.room(a.at), work)
	}
	t.loaded = t.setup.With(t.plan)
	t.findings, t.leans = t.loaded.Check(), t.loaded.Leans()
	return t
}

// A dressedAs is a trial as far as dressing. Most changes leave that alone, and
// to measure the front view anew is most of the work of a small trial.
type dressedAs struct {
	ways []WayAsked
	only string
	made trial
}

// dress puts the ways on, or takes them from a trial that was dressed alike.
func (s *stander) dress(t *trial) {
	i := slices.IndexFunc(s.dressed, func(d dressedAs) bool {
		return d.only == t.asked.at.Way && reflect.DeepEqual(d.ways, t.asked.ways)
	})
	if i < 0 {
		i = len(s.dressed)
		made := trial{asked: t.asked}
		s.makeWays(&made)
		s.dressed = append(s.dressed, dressedAs{t.asked.clone().ways, t.asked.at.Way, made})
	}
	made := s.dressed[i].made
	t.ways, t.bare, t.states, t.badDress = made.ways, made.bare, made.states, made.badDress
}

// makeWays makes the ways, bare first where the job names no bare one of its own.
func (s *stander) makeWays(t *trial) {
	var usual dressing.Layer
	if len(t.asked.ways) > 0 {
		usual = dressing.Usual(s.book)
	}
	for _, w := range t.asked.ways {
		way := dressing.Way{Name: w.Name}
		for _, l := range w.Layers {
			way.Layers = append(way.Layers, s.layer(l, usual))
		}
		t.ways = append(t.ways, way)
	}
	if !slices.ContainsFunc(t.ways, func(w dressing.Way) bool { return len(w.Layers) == 0 }) {
		t.ways = append([]dressing.Way{{Name: bareName(t.ways)}}, t.ways...)
	}
	if only := t.asked.at.Way; only != "" {
		t.ways = slices.DeleteFunc(t.ways, func(w dressing.Way) bool { return w.Name != only && (only != "bare" || len(w.Layers) > 0) })
	}
	t.bare, _ = s.piece.Dress(dressing.Way{Name: "bare"})
	t.states, t.badDress = s.piece.Build(t.ways)
}

// bareName is one that no way of the user's has.
func bareName(ways []dressing.Way) string {
	if slices.ContainsFunc(ways, func(w dressing.Way) bool { return w.Name == "bare" }) {
		return "undressed"
	}
	return "bare"
}

func (s *stander) layer(l LayerAsked, usual dressing.Layer) dressing.Layer {
	out := dressing.Layer{Name: l.Name, Mass: l.Mass, PerArea: l.PerArea, Closes: usual.Closes, Front: usual.Front, Wet: l.Wet, Flame: l.Flame}
	if l.Closes != nil {
		out.Closes = *l.Closes
	}
	if l.Front != nil {
		out.Front = l.Front.MM()
	}
	out.On.From, out.On.To = l.From.MM(), l.To.MM()
	for _, id := range l.Frames {
		out.On.Frames = append(out.On.Frames, slices.IndexFunc(s.piece.Layout.Frames, func(f layout.Frame) bool { return f.ID == id }))
	}
	return out
}

// Floors of the job file by name; the ones of package base.
func (s *stander) floor(at StandingAsked) base.Floor {
	name := cmp.Or(at.Floor, base.Hall)
	if at.Floor == "" && at.Where == outdoors {
		name = base.Grass
	}
	for _, f := range base.Floors(s.book.Aside()) {
		if f.Name == name {
			s.book.Get(floorIDs[name])
			f.Soft, f.Slope = f.Soft || at.Soft, at.Slope
			return f
		}
	}
	s.p.fault("no floor is called %q", name)
	return base.Floor{}
}

var floorIDs = map[string]assume.ID{base.Hall: assume.StandFriction, base.Polished: assume.StandFrictionPolished, base.Rough: assume.StandFrictionRough, base.Grass: assume.StandFrictionGrass}

const outdoors = "outdoors"

var windFrom = map[string]float64{"front": math.Pi / 2, "back": -math.Pi / 2, "left": 0, "right": math.Pi}

// loads: indoors the exhibition load, outdoors the gust, a push in both.
func (s *stander) loads(at StandingAsked) stand.Loads {
	l := stand.Loads{Hall: at.Where != outdoors, HallSolid: at.Openings, Push: !at.NoPush, Crowd: at.Crowd}
	switch {
	case at.Gust > 0:
		l.Gusts = []stand.Speed{stand.Speed(at.Gust)}
	case at.Mean > 0:
		l.Gusts = []stand.Speed{s.rules.Wind.Gust(stand.Speed(at.Mean))}
	case at.Where == outdoors:
		l.Gusts = []stand.Speed{stand.FromMPH(s.book.Get(assume.WindExpected).Value)}
	}
	if toward, ok := windFrom[at.WindFrom]; ok {
		a := unit.Angle(toward)
		l.WindToward = &a
	}
	return l
}

func (s *stander) room(at StandingAsked) base.Room {
	r := base.RoomFrom(s.book)
	r.Hidden, r.InFront = at.Hidden.MM(), at.InFront
	return r
}

func (s *stander) units(at StandingAsked) []base.Unit {
	var out []base.Unit
	for _, b := range at.Ballast {
		out = append(out, base.Unit{Name: b.Name, Mass: b.Mass, Length: b.Length.MM(), Width: b.Width.MM(), Height: b.Height.MM(), Owned: b.Owned})
	}
	return out
}

// over says whether anything is over, and how far: the worst ratio of all.
func (t trial) worst() (ratio float64, word string) {
	if !t.footing {
		return math.Inf(1), stand.Over
	}
	for _, f := range t.findings {
		if f.Worst.Ratio > ratio || word == "" {
			ratio, word = f.Worst.Ratio, f.Worst.Word
		}
	}
	for _, l := range t.leans {
		if l.By.Ratio > ratio || word == "" {
			ratio, word = l.By.Ratio, l.Word
		}
	}
	return ratio, word
}

func (t trial) over() bool {
	_, word := t.worst()
	return word == stand.Over
}

// snags are what the job file asks for and cannot be. Without a base of its own
// a piece on a line only is told of in the facts: it is as drawn.
func (s *stander) snags(t trial) {
	p := s.p
	for _, i := range t.rims {
		b := t.asked.base[i]
		p.snag(snagRim, "base."+b.Name+".rim", p.w.text(p.w.looked(b.Rim.MM())), fmt.Sprintf("the rim of %s leaves no opening", b.Name), "write a smaller rim, or make it a plate")
	}
	for _, q := range t.badDress {
		problem, remedy := q.Text()
		if k, ok := dressingSnags[string(q.Code)]; ok {
			p.snag(k, "dressing."+q.Way+"."+q.Layer, q.Layer, problem, remedy)
		} else {
			p.fault("dressing %s: %s", q.Way, problem)
		}
	}
	for _, q := range t.badBase {
		s.baseSnag(t, q)
	}
}

func (s *stander) baseSnag(t trial, q base.Problem) {
	p := s.p
	problem, remedy := q.Text()
	k, ok := baseSnags[string(q.Code)]
	if !ok {
		p.fault("base: %s", problem)
		return
	}
	if q.Code == base.Overhangs {
		l := s.lines[q.Index]
		problem = fmt.Sprintf("what stands on the floor at %s from the left end has no base under it", p.w.text(p.w.looked((l.From+l.To)/2)))
	}
	p.snag(k, "base", "", problem, remedy)
}

// Stand works out a job as far as standing and lifting, without cutting and
// buying. Of the Result only what comes before them is filled in. Snags and
// errors are as Plan's.
func Stand(ctx context.Context, spec Spec, cat Catalogue) (Result, snag.List, error) {
	return standWith(ctx, spec, cat, waysTogether)
}

func standWith(ctx context.Context, spec Spec, cat Catalogue, ways waysWanted) (Result, snag.List, error) {
	p := start(spec, cat)
	p.ways = ways
	p.prepare()
	p.layAsked()
	for _, step := range []func(){p.layBuilt, p.facts, p.fixAndMake} {
		if p.err != nil {
			return Result{}, nil, p.err
		}
		if p.snags.Stops() {
			return p.stopped(ctx)
		}
		step()
	}
	if p.err != nil {
		return Result{}, nil, p.err
	}
	if p.snags.Stops() {
		return p.stopped(ctx)
	}
	p.snags.Sort()
	return p.result, p.snags, ctx.Err()
}
