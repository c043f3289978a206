package job

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/geom"
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
	ways []WayAsked
	base []BaseAsked
	at   StandingAsked
}

// clone may be changed without the original noticing.
func (a outfit) clone() outfit {
	a.ways, a.base, a.at.Ballast = slices.Clone(a.ways), slices.Clone(a.base), slices.Clone(a.at.Ballast)
	for i := range a.ways {
		a.ways[i].Layers = slices.Clone(a.ways[i].Layers)
	}
	return a
}

// A stander knows what stays the same in every trial of one job.
type stander struct {
	p     *planner
	rules stand.Rules
	piece dressing.Piece
	lines []base.Line
	deep  float64 // of the frames, mm
	// book is read by the job's own trial, whose assumptions are listed, and aside
	// for changes that are only tried.
	book *assume.Reader
}

// stands fills Result.Standing. What the job file asks for under dressing and
// base and cannot be is a snag; that something is over is no snag, since frames
// can be made while it is settled.
func (p *planner) stands() {
	if len(p.built.Frames) == 0 {
		return
	}
	s := p.stander()
	t := s.try(outfit{p.spec.Dressing, p.spec.Base, p.spec.Standing}, ballastWork)
	if s.snags(t); p.snags.Stops() || p.err != nil {
		return
	}
	s.book = p.book.Aside()
	p.result.Standing = s.facts(t)
	p.result.Banner = banner(p.result.Standing)
}

func (p *planner) stander() *stander {
	s := &stander{p: p, rules: stand.RulesFrom(p.book), book: p.book}
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
	badBase  []base.Problem
	badDress []dressing.Problem
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

// dress makes the ways, bare first where the job names no bare one of its own.
func (s *stander) dress(t *trial) {
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

// piecesOf makes the pieces of the base that one entry of the job file asks for.
func (s *stander) piecesOf(b BaseAsked) (out []base.Piece, ok bool) {
	w, mid := s.p.built.Width, s.deep/2
	thick := cmp.Or(b.Thickness.MM(), s.mm(assume.BaseThickness))
	board := base.Board{Thickness: thick, Density: s.plywood()}
	centred := func(size float64, at *unit.Length, middle, sign float64) float64 {
		if at != nil {
			return sign * at.MM()
		}
		return middle - size/2
	}
	box := func() geom.Polygon {
		wide := cmp.Or(b.Width.MM(), w)
		return base.Rectangle(centred(wide, b.Left, w/2, 1), centred(b.Depth.MM(), b.Front, mid, -1), wide, b.Depth.MM())
	}
	one := func(p base.Piece, err error) ([]base.Piece, bool) {
		return []base.Piece{p}, err == nil
	}
	switch b.Kind {
	case "plate", "ring":
		outline := box()
		if n, regular := corners[b.Shape]; regular {
			a := b.Across.MM()
			middle := geom.Point{X: centred(a, b.Left, w/2, 1) + a/2, Y: centred(a, b.Front, mid, -1) + a/2}
			outline = base.RegularFromPoints(middle, n, a/2, 0)
		}
		if b.Kind == "plate" {
			p := base.PlateOf(outline, board)
			if b.Split {
				at := outline.Centroid().X
				p.SplitAt = &at
			}
			return one(p, nil)
		}
		hole, err := outline.CCW().Offset(b.Rim.MM())
		if err != nil {
			return nil, false
		}
		return one(base.RingOf(outline, hole, board), nil)
	case "frame base":
		return one(base.FrameOf(box(), b.Rim.MM(), board))
	case "feet":
		from := centred(b.Depth.MM(), b.Front, mid, -1)
		return one(base.FeetAt(spread(s.lines, w, b.Width.MM(), cmp.Or(b.Count, 2)), b.Width.MM(), from, from+b.Depth.MM(), board), nil)
	case "brace":
		n := cmp.Or(b.Count, 2)
		each := *b.Mass / unit.Mass(n)
		for i := range n {
			x := w * (float64(i) + 0.5) / float64(n)
			if b.Left != nil && n == 1 {
				x = b.Left.MM()
			}
			out = append(out, base.BraceAt(x, b.Width.MM(), s.deep, s.deep+b.Behind.MM(), s.deep, b.Fixed.MM(), each))
		}
		return out, true
	case "wing":
		return s.wings(b), true
	}
	s.p.fault("no base is called %q", b.Kind)
	return nil, false
}

// corners of the shapes that a plate may have; a round one is drawn inside its
// circle, so that its levers are not taken too long.
var corners = map[string]int{"hexagon": 6, "octagon": 8, "round": 36}

// spread puts n bars under what stands on the floor, the outer two at its ends.
func spread(lines []base.Line, w, wide float64, n int) []float64 {
	from, to := w, 0.0
	for _, l := range lines {
		from, to = min(from, l.From), max(to, l.To)
	}
	if n == 1 || to-from <= wide {
		return []float64{(from + to) / 2}
	}
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = from + wide/2 + (to-from-wide)*float64(i)/float64(n-1)
	}
	return xs
}

// wings stand at the ends, hinged at the front; their thickness lies inwards.
func (s *stander) wings(b BaseAsked) (out []base.Piece) {
	w := s.p.built.Width
	turn := unit.FromDegrees(90)
	if b.Angle != nil {
		turn = *b.Angle
	}
	thick := cmp.Or(b.Thickness.MM(), s.deep)
	sides := []string{"left", "right"}
	if b.Side == "left" || b.Side == "right" {
		sides = []string{b.Side}
	}
	mass := *b.Mass / unit.Mass(len(sides))
	for _, side := range sides {
		if side == "right" {
			out = append(out, base.WingAt(geom.Point{X: w}, turn, b.Length.MM(), thick, mass, b.Height.MM()/2))
			continue
		}
		away := unit.Angle(math.Pi - float64(turn))
		hinge := geom.Point{}.Sub(geom.Point{X: 1}.Rot(float64(away)).Perp().Mul(thick))
		out = append(out, base.WingAt(hinge, away, b.Length.MM(), thick, mass, b.Height.MM()/2))
	}
	return out
}

// mm reads an assumption that is a length.
func (s *stander) mm(id assume.ID) float64 {
	v := s.book.Get(id)
	u, _ := unit.UnitNamed(v.Unit)
	return v.Value * u.Length().MM()
}

// plywood is the density of a base.
func (s *stander) plywood() unit.Density {
	const perCubicFoot = float64(unit.Pound) / (0.3048 * 0.3048 * 0.3048) // exact by definition of the pound and the foot
	return unit.Density(s.book.Get(assume.BasePlywood).Value * perCubicFoot)
}

// base builds what it stands on. Stakes stand at the corners of the rest.
func (s *stander) base(t *trial) {
	var b base.Base
	var stakes []BaseAsked
	for i, a := range t.asked.base {
		if a.Kind == "stakes" {
			stakes = append(stakes, a)
			continue
		}
		pieces, ok := s.piecesOf(a)
		if !ok {
			t.rims = append(t.rims, i)
			continue
		}
		for _, p := range pieces {
			p.Name = a.Name
			if a.Mass != nil && a.Kind != "brace" && a.Kind != "wing" {
				p.Mass = *a.Mass
			}
			b.Pieces, t.owners = append(b.Pieces, p), append(t.owners, i)
		}
		if a.Kind == "wing" {
			t.setup.Faces = append(t.setup.Faces, faces(a, len(pieces))...)
		}
	}
	t.pieces = b.Pieces
	stance, problems := b.Stand(s.lines)
	if len(stance.Hull) >= 3 {
		t.footing = true
		for _, a := range stakes {
			for _, at := range round(stance.Hull, cmp.Or(a.Count, 4)) {
				b.Stakes = append(b.Stakes, base.Stake{At: at, Sideways: a.Sideways, Pull: a.Pull})
			}
		}
		stance, problems = b.Stand(s.lines)
	}
	if len(t.asked.base) == 0 {
		problems = nil // as drawn, it may have no footing; the facts tell
	}
	t.badBase, t.setup.Stance = problems, stance
}

func faces(a BaseAsked, n int) []stand.Face {
	gross := a.Length.MM() * a.Height.MM()
	return slices.Repeat([]stand.Face{{Name: a.Name, Gross: gross, Solid: gross * a.Closes, Height: a.Height.MM() / 2}}, n)
}

// round gives n places spread round a hull, from its corner at the left front.
func round(hull geom.Polygon, n int) []geom.Point {
	start, best := 0, math.Inf(1)
	for i, c := range hull {
		if v := c.X + c.Y; v < best {
			start, best = i, v
		}
	}
	if n == len(hull) {
		return slices.Clone(hull.From(start))
	}
	var out []geom.Point
	whole := hull.Perimeter()
	for k := range n {
		out = append(out, alongHull(hull.From(start), whole*float64(k)/float64(n)))
	}
	return out
}

func alongHull(hull geom.Polygon, far float64) geom.Point {
	for i := range hull {
		side := hull.Side(i)
		if far <= side.Len() {
			return side.A.Lerp(side.B, far/side.Len())
		}
		far -= side.Len()
	}
	return hull[0]
}

// Stand works out a job as far as standing and lifting, without cutting and
// buying. Of the Result only what comes before them is filled in. Snags and
// errors are as Plan's.
func Stand(ctx context.Context, spec Spec, cat Catalogue) (Result, snag.List, error) {
	p := start(spec, cat)
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
