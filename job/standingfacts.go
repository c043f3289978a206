package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/stand"
	"bowerwright/unit"
)

// Falls is the word for a piece that touches the floor on no more than a line.
const Falls = "falls"

// What the banner of a packet says of the checks that do not exist yet, and of
// what is over.
const (
	strengthOpen = "Whether seams, corners, boards and the joint to the base hold is not yet checked, nor is fire. Nothing here says that the set piece stays up, can be lifted or may be brought into the venue: a working estimate, not an engineer's certificate."
	overIs       = "OVER"
)

// banner says what is over and what is not yet checked.
func banner(s *StandingFacts) string {
	if s.Over {
		return overIs + ". " + upper(strings.TrimPrefix(s.Says, stand.Over+": ")) + ". " + strengthOpen
	}
	return "Standing, by calculation: " + s.Says + ". " + strengthOpen
}

// facts fills in what is printed.
func (s *stander) facts(t trial) *StandingFacts {
	at := t.asked.at
	f := &StandingFacts{Where: cmp.Or(at.Where, "indoors"), Watch: at.Watch, Governs: -1, Assumed: s.assumed(t.asked)}
	floor := s.floor(at)
	f.Floor, f.Friction = floorWords(floor.Name, floor.Soft, s.p.w.angle(floor.Slope)), floor.Friction
	f.Hard, f.Engineer = notChecked(), engineer(at)
	f.Flame = flame(t.ways)
	f.Lift = s.lift(t)
	s.plan(f, t)
	if !t.footing {
		f.Word, f.Over = Falls, true
		f.Cannot, f.Helps = "it touches the floor on no more than a line, so that nothing keeps it from going over", "give it a base, feet, braces behind it or wings"
		f.Says = f.Cannot
		s.weights(f, t)
		f.WaysOut = s.waysOut(t)
		f.emptyLists()
		return f
	}
	s.weights(f, t)
	s.findings(f, t)
	s.ballast(f, t)
	s.wind(f, t)
	f.Word, f.Says = s.verdict(f, t)
	f.Over = f.Word == stand.Over
	f.WaysOut = s.waysOut(t)
	f.PullTest = s.pullTest(t)
	f.emptyLists()
	return f
}

func notChecked() []string {
	return append(stand.NotChecked(), "People who walk round it, cables, candles and heaters near it, and what the venue's own rules ask for.")
}

// engineer says when a licensed engineer is needed. Common practice, no source:
// local codes say it for a place.
func engineer(at StandingAsked) []string {
	out := []string{
		"Anything that is over its limit here and is to go up all the same.",
		"Anything over people's heads that more than one seam must hold, or that people climb, sit or lean on.",
		"Whatever the venue, its insurer or the local code asks one for: often above a height of 4 m, and outdoors above 3 m.",
	}
	if at.Where == outdoors {
		out = append(out, "Public places outdoors, and gusts over the stop.")
	}
	return out
}

func floorWords(name string, soft bool, slope Angle) string {
	words := map[string]string{"hall": "hall floor", "polished": "polished floor", "rough": "carpet or rough concrete", "grass": "grass"}[name]
	if soft && name != "grass" {
		words += ", soft or uneven"
	}
	if slope.Degrees > 0 {
		words += ", falling by " + slope.Text
	}
	return words
}

// assumed says what was taken since the job does not say.
func (s *stander) assumed(a outfit) []string {
	var out []string
	if len(a.ways) == 0 {
		out = append(out, "No dressing is described: reckoned bare. Whatever hangs on it or closes it to the wind makes it worse.")
	}
	if len(a.base) == 0 {
		out = append(out, "No base is described: it stands on its own boards alone.")
	}
	if at := a.at; at.Where == "" && at.Floor == "" && at.Gust == 0 && at.Mean == 0 {
		out = append(out, "Nothing is said of where it stands: taken to be indoors on a hall floor.")
	}
	if a.at.Where == outdoors && a.at.Gust == 0 && a.at.Mean == 0 {
		out = append(out, "No gust is named: "+s.speedText(s.loads(a.at).Gusts[0])+" is tried.")
	}
	return out
}

func (s *stander) speedText(v stand.Speed) string {
	g := s.p.w.gust(v)
	return s.p.w.say(g.US, g.Metric)
}

// weights are frames, base and ballast; then each way with all of it.
func (s *stander) weights(f *StandingFacts, t trial) {
	lift := t.setup.Stance.Lift
	for i, w := range t.bare.Weights {
		f.Weights = append(f.Weights, s.weight(s.p.labels[i], "frame", w.Mass, w.Mass, w.At.X, w.At.Y+lift, w.Back))
	}
	for _, b := range t.setup.Stance.Weights {
		f.Weights = append(f.Weights, s.weight(b.What, "base", b.Mass, b.Mass, b.At.X, b.Up, b.At.Y))
	}
	for _, b := range t.loaded.Ballast {
		f.Weights = append(f.Weights, s.weight(b.Name, "ballast", b.Mass, b.Mass, b.At.X, b.Up, b.At.Y))
	}
	f.Parts = s.parts()
	limits := map[string]stand.Limit{}
	if t.footing {
		for _, l := range t.loaded.GustLimits() {
			limits[l.Way] = l
		}
	}
	for _, state := range t.states {
		f.Ways = append(f.Ways, s.way(state, t, limits[state.Way]))
	}
}

// parts weigh by the middle of their two faces.
func (s *stander) parts() (out []PartWeight) {
	const cubicMetre = 1e9 // mm3
	for _, k := range s.p.result.Kinds {
		shape := s.p.kinds[s.p.kindAt[k.Name]]
		for _, q := range k.Parts {
			volume := (q.Outside.MM + q.InsideLength.MM) / 2 * shape.boards.Depth().MM() * shape.boards.Rise().MM()
			out = append(out, PartWeight{q.Mark, s.p.w.weight(unit.Mass(volume / cubicMetre * float64(shape.board.density)))})
		}
	}
	return out
}

func (s *stander) weight(what, kind string, dry, wet unit.Mass, x, up, back float64) WeightFacts {
	w := s.p.w
	return WeightFacts{What: what, Kind: kind, Weight: w.weight(dry), Wet: w.weight(wet), Right: w.looked(x), Up: w.looked(up), Back: w.off(back)}
}

// way is the piece as dressed, with the base and the ballast under it.
func (s *stander) way(state dressing.State, t trial, limit stand.Limit) DressedFacts {
	w, lift := s.p.w, t.setup.Stance.Lift
	d := DressedFacts{Name: state.Way, Gross: w.area(unit.Area(state.Gross.Area())), Solid: w.area(unit.Area(state.Solid.Area())),
		Solidity: fmt.Sprintf("%.0f %%", 100*state.Solidity()), Pressure: w.xy(state.Pressure), High: w.looked(state.Pressure.Y + lift)}
	d.Whole = s.whole(state, t)
	for _, l := range state.Layers {
		d.Layers = append(d.Layers, s.weight(l.Layer.Name, "dressing", l.Mass, l.Wet, l.At.X, l.At.Y+lift, -l.Layer.Front))
		d.Covers = append(d.Covers, w.area(unit.Area(l.Covers)))
	}
	if t.footing && limit.Gust > 0 {
		g := w.limitOf(limit.Gust)
		d.Gust, d.Stop = &g, limit.Stop
		d.GustBy = goes(limit.By)
	}
	return d
}

// goes is how it would go: "tipping backwards", "sliding forwards".
func goes(g stand.Governing) string { return g.Mode.String() + " " + stand.Towards(g.Toward) }

// whole is everything that stands there, about its common middle.
func (s *stander) whole(state dressing.State, t trial) WeightFacts {
	sum, wet := unit.Mass(0), unit.Mass(0)
	var x, y, up float64
	add := func(m unit.Mass, at geom.Point, high float64) {
		sum += m
		x, y, up = x+float64(m)*at.X, y+float64(m)*at.Y, up+float64(m)*high
	}
	add(state.Dry.Mass, geom.Point{X: state.Dry.At.X, Y: state.Dry.Back}, state.Dry.At.Y+t.setup.Stance.Lift)
	for _, b := range t.setup.Stance.Weights {
		add(b.Mass, b.At, b.Up)
	}
	for _, b := range t.loaded.Ballast {
		add(b.Mass, b.At, b.Up)
	}
	wet = sum - state.Dry.Mass + max(state.Dry.Mass, state.Wet.Mass)
	m := float64(sum)
	return s.weight("the whole", "whole", sum, wet, x/m, up/m, y/m)
}

// plan is what stands on the floor.
func (s *stander) plan(f *StandingFacts, t trial) {
	w, st := s.p.w, t.setup.Stance
	f.Plan.Hull, f.Plan.Width, f.Plan.Depth = w.outline(st.Hull), w.looked(0), w.looked(0)
	if len(st.Hull) > 0 {
		b := st.Hull.Box()
		f.Plan.Width, f.Plan.Depth = w.looked(b.Max.X-b.Min.X), w.looked(b.Max.Y-b.Min.Y)
	}
	f.Plan.Lift = w.looked(st.Lift)
	for _, l := range s.lines {
		f.Plan.Boards = append(f.Plan.Boards, w.outline(geom.Polygon{{X: l.From, Y: l.Front}, {X: l.To, Y: l.Front}, {X: l.To, Y: l.Front + l.Depth}, {X: l.From, Y: l.Front + l.Depth}}))
	}
	for _, p := range t.pieces {
		b := BasePiece{Name: p.Name, Kind: p.Kind.String(), Hole: w.outline(p.Hole), Weight: w.weight(p.Mass), Carries: p.Carries}
		for _, o := range p.Footprint {
			b.On = append(b.On, w.outline(o))
		}
		f.Plan.Pieces = append(f.Plan.Pieces, b)
	}
	for _, k := range st.Stakes {
		f.Plan.Stakes = append(f.Plan.Stakes, w.xy(k.At))
	}
}

func (s *stander) findings(f *StandingFacts, t trial) {
	for _, x := range t.findings {
		f.Findings = append(f.Findings, s.finding(x, t))
	}
	worst := -1.0
	for i, x := range t.findings {
		if x.Worst.Ratio > worst {
			worst, f.Governs = x.Worst.Ratio, i
		}
	}
	for _, l := range t.leans {
		f.Leans = append(f.Leans, LeanFacts{Way: l.Way, Use: useOf(l.By.Ratio, l.Word), Angle: s.p.w.angle(max(0, floorTo(l.Angle))), Wanted: s.p.w.angle(s.rules.Lean), Word: l.Word, Toward: stand.Towards(l.By.Toward)})
		if l.By.Ratio > worst {
			worst, f.Governs = l.By.Ratio, -1
		}
	}
}

// floorTo rounds an angle down to tenths of a degree.
func floorTo(a unit.Angle) unit.Angle {
	return unit.FromDegrees(rounded(a.Degrees(), 0.1, false))
}

func (s *stander) finding(x stand.Finding, t trial) FindingFacts {
	w, g := s.p.w, x.Worst
	f := FindingFacts{Way: x.Way, Load: s.loadWords(x.Load), Force: w.push(x.Load.Force), Height: w.looked(x.Load.Height),
		Use: useOf(g.Ratio, g.Word), Mode: g.Mode.String(), Toward: stand.Towards(g.Toward), Angle: w.angle(g.Toward), Wet: g.Wet}
	if g.Mode == stand.Tipping {
		f.Edge = &[2]XY{w.xy(g.Edge.A), w.xy(g.Edge.B)}
		f.EdgeIs = edgeWords(g.Edge)
	}
	f.Holds = s.holdsTo(x, t)
	for _, d := range x.Directions {
		f.Rose = append(f.Rose, RoseFact{Degrees: math.Round(d.Toward.Degrees()), Tip: s.wanted(d.Tip), Slide: s.wanted(d.Slide)})
	}
	return f
}

// edgeWords names an edge of a hull that runs counter-clockwise.
func edgeWords(e geom.Segment) string {
	v := e.Vec()
	switch side := stand.Towards(unit.Angle(math.Atan2(-v.X, v.Y))); side {
	case "forwards":
		return "its front edge"
	case "backwards":
		return "its back edge"
	case "to the left":
		return "its left edge"
	case "to the right":
		return "its right edge"
	default:
		return "its edge " + side
	}
}

// wanted is the ratio of what is wanted to what holds.
func (s *stander) wanted(held float64) float64 {
	if held <= 0 {
		return mostRatio
	}
	return capped(s.rules.Factor / held)
}

func (s *stander) loadWords(l stand.Load) string {
	if l.Kind == stand.GustLoad {
		return "gust of " + s.speedText(l.Gust)
	}
	return l.String()
}

// holdsTo is the largest load of the kind, by calculation.
func (s *stander) holdsTo(x stand.Finding, t trial) string {
	state := t.states[slices.IndexFunc(t.states, func(d dressing.State) bool { return d.Way == x.Way })]
	w := s.p.w
	push := func(height float64) string {
		l := t.loaded.PushLimit(state, height)
		if l.Force <= 0 {
			return "holds to no push at all"
		}
		f := w.holds(l.Force)
		if stand.Mass(l.Force).Pounds() < 1 {
			return "holds to a push of less than " + w.say("1 lb", "5 N")
		}
		return "holds to a push of " + w.say(f.US, f.Metric)
	}
	switch x.Load.Kind {
	case stand.PushLoad:
		return push(s.rules.PushHeight)
	case stand.CrowdLoad:
		return push(s.rules.CrowdHeight)
	case stand.GustLoad:
		l := t.loaded.GustLimit(state)
		if l.Gust <= 0 {
			return "holds to no gust at all"
		}
		g := w.limitOf(l.Gust)
		if l.Stop {
			return "holds to the stop of " + w.say(g.US, g.Metric)
		}
		return "holds to a gust of " + w.say(g.US, g.Metric)
	}
	if x.Worst.Ratio <= 1 {
		return fmt.Sprintf("uses %.0f %% of what holds", rounded(100*x.Worst.Ratio, 1, true))
	}
	return fmt.Sprintf("holds %.0f %% of it", rounded(100/x.Worst.Ratio, 1, false))
}

// verdict is the word of all, and one line that says what governs.
func (s *stander) verdict(f *StandingFacts, t trial) (word, says string) {
	if f.Governs < 0 {
		for _, l := range t.leans {
			if word == "" || stand.Over == l.Word {
				lf := f.Leans[slices.IndexFunc(f.Leans, func(x LeanFacts) bool { return x.Way == l.Way })]
				word = l.Word
				says = fmt.Sprintf("%s: %s, it goes over %s by itself at a lean of %s; %s is wanted", word, l.Way, lf.Toward, lf.Angle.Text, lf.Wanted.Text)
			}
		}
		return word, says
	}
	x := f.Findings[f.Governs]
	return x.Use.Word, x.Use.Word + ": " + governs(x)
}

// governs is a finding in one line.
func governs(x FindingFacts) string {
	way := x.Way
	if x.Wet {
		way += ", soaked"
	}
	over := ""
	if x.EdgeIs != "" {
		over = " over " + x.EdgeIs
	}
	return fmt.Sprintf("%s, %s: %s %s%s; %s", way, x.Load, x.Mode, x.Toward, over, x.Holds)
}

// ballast is the map of units, and what a heap in the middle of the base would
// have to weigh.
func (s *stander) ballast(f *StandingFacts, t trial) {
	w, b := s.p.w, &f.Ballast
	b.Needed = !t.lack.Nothing()
	b.Units, b.Weight, b.Enough, b.Fewest = t.plan.Units, w.weight(t.plan.Mass), t.plan.Enough || !b.Needed, t.plan.Fewest
	for _, k := range t.plan.Stacks {
		half := geom.Point{X: k.Unit.Length / 2, Y: k.Unit.Width / 2}
		a, c := k.Spot.At.Sub(half), k.Spot.At.Add(half)
		b.Stacks = append(b.Stacks, StackFacts{Unit: k.Unit.Name, Count: k.Count, Each: w.weight(k.Unit.Mass), At: w.xy(k.Spot.At), Right: w.looked(k.Spot.At.X), Behind: w.off(k.Spot.At.Y),
			Outline: []XY{w.xy(a), w.xy(geom.Point{X: c.X, Y: a.Y}), w.xy(c), w.xy(geom.Point{X: a.X, Y: c.Y})}, On: k.Spot.On})
	}
	if b.Needed {
		middle := t.setup.Stance.Hull.Centroid()
		if m := t.lack.Heap(middle).Mass(); !math.IsInf(float64(m), 1) {
			heap := w.weight(m)
			b.Heap = &heap
		}
	}
	b.Says = s.ballastSays(*b, t)
	s.width(f, t)
}

func (s *stander) ballastSays(b BallastFacts, t trial) string {
	heap := ""
	if b.Heap != nil {
		heap = "; " + s.p.w.say(b.Heap.US, b.Heap.Metric) + " would have to stand in the middle of what it stands on"
	}
	switch {
	case !b.Needed:
		return "no ballast is needed by calculation"
	case len(t.units) == 0:
		return "ballast is missing and no units are described" + heap
	case b.Enough && b.Fewest:
		return fmt.Sprintf("%s of ballast, in all %s: by calculation enough, and no fewer are", howMany(b.Units, "unit"), s.p.w.say(b.Weight.US, b.Weight.Metric))
	case b.Enough:
		return fmt.Sprintf("%s of ballast, in all %s: by calculation enough; fewer may do", howMany(b.Units, "unit"), s.p.w.say(b.Weight.US, b.Weight.Metric))
	case len(t.setup.Stance.Deck) == 0:
		return "ballast is missing and there is no base to stand it on" + heap
	}
	return fmt.Sprintf("%s find room or are owned, in all %s: not enough%s", howMany(b.Units, "unit"), s.p.w.say(b.Weight.US, b.Weight.Metric), heap)
}

// Beyond these a base is none that anybody would build: times what it is, and mm
// from front to back.
const (
	mostScale = 8
	mostOnly  = 4000
)

func (s *stander) width(f *StandingFacts, t trial) {
	w, box := s.p.w, t.setup.Stance.Hull.Box()
	x := t.setup.Width()
	f.Width.Slides = x.Slide
	sliding := ""
	if x.Slide {
		sliding = "; it slides whatever its size: ballast, stakes or a floor with more friction are needed all the same"
	}
	if x.Scale <= mostScale {
		wide, deep := w.next((box.Max.X-box.Min.X)*x.Scale), w.next((box.Max.Y-box.Min.Y)*x.Scale)
		f.Width.Enough, f.Width.Wide, f.Width.Deep = true, &wide, &deep
	}
	if x.Deep <= mostScale && (box.Max.Y-box.Min.Y)*x.Deep <= mostOnly {
		only := w.next((box.Max.Y - box.Min.Y) * x.Deep)
		f.Width.Only = &only
	}
	switch {
	case x.Deep <= 1:
		f.Width.Says = "against going over it needs no wider base" + sliding
	case f.Width.Only != nil:
		f.Width.Says = fmt.Sprintf("without ballast it would have to stand on %s by %s against going over%s", w.text(w.looked(box.Max.X-box.Min.X)), w.text(*f.Width.Only), sliding)
	case f.Width.Enough:
		f.Width.Says = fmt.Sprintf("without ballast it would have to stand on %s by %s against going over%s", w.text(*f.Width.Wide), w.text(*f.Width.Deep), sliding)
	default:
		f.Width.Says = "no base of this shape that finds room does without ballast" + sliding
	}
}

// wind is what is done at which gust, where there is wind.
func (s *stander) wind(f *StandingFacts, t trial) {
	for _, state := range t.states {
		l := t.loaded.PushLimit(state, s.rules.PushHeight)
		height := min(s.rules.PushHeight, state.Gross.Top()) + t.setup.Stance.Lift
		f.Push = append(f.Push, PushFacts{Way: state.Way, Force: s.p.w.holds(l.Force), Height: s.p.w.looked(height), By: goes(l.By)})
	}
	if t.asked.at.Where != outdoors {
		return
	}
	for _, way := range t.ways {
		plan := t.loaded.WindPlan(s.piece, way)
		w := s.p.w
		x := WindPlanFacts{Way: way.Name, Limit: w.limitOf(plan.Limit.Gust), Watch: w.limitOf(plan.Watch), Act: w.limitOf(plan.Act), Stop: plan.Limit.Stop, By: goes(plan.Limit.By)}
		for _, d := range plan.Down {
			x.Down = append(x.Down, DownFacts{d.Layer, w.limitOf(d.Then)})
		}
		f.Wind = append(f.Wind, x)
	}
}

// pullTest is the one person's push, where the sums pass it in every way of
// dressing. Until strength is checked too there is none.
func (s *stander) pullTest(t trial) *PullTestFacts {
	return nil
}

// flame lists every material once, in the order of the job.
func flame(ways []dressing.Way) []FlameFacts {
	var out []FlameFacts
	for _, w := range ways {
		for _, l := range w.Layers {
			i := slices.IndexFunc(out, func(f FlameFacts) bool { return f.Material == l.Name && f.Evidence == l.Flame })
			if i < 0 {
				i = len(out)
				out = append(out, FlameFacts{Material: l.Name, Evidence: l.Flame})
			}
			out[i].Ways = append(out[i].Ways, w.Name)
		}
	}
	return out
}

// lift is the whole piece without its base, undressed.
func (s *stander) lift(t trial) LiftFacts {
	p, w := s.p, s.p.w
	masses := make([]unit.Mass, len(s.piece.Frames))
	for i, f := range s.piece.Frames {
		masses[i] = f.Mass
	}
	section := stand.Section{Layout: p.built, Frames: masses, Mass: t.bare.Dry.Mass, Middle: t.bare.Dry.At, Back: t.bare.Dry.Back, Depth: s.deep, Lift: t.setup.Stance.Lift}
	rules := s.rules.Lift
	x := rules.Lifts(section, carryWork)
	f := LiftFacts{Weight: w.weight(section.Mass), Swing: w.next(x.Swing), Rules: stand.NotCovered()}
	s.carry(&f, x)
	if turn, ok := x.Easiest(); ok {
		f.Turn = &TurnFacts{About: turn.About, People: turn.People, Force: w.push(max(turn.Up.Peak.Force, turn.Down.Peak.Force))}
	}
	f.Tilt = TiltFacts{People: x.Tilt.People, Force: w.push(x.Tilt.Peak.Force), At: w.angle(floorTo(x.Tilt.Peak.Angle)), Balance: w.angle(floorTo(x.Tilt.Balance)), Grip: math.Ceil(x.Tilt.Grip*100-grain) / 100}
	f.Built = s.built(x.Built, masses)
	for _, q := range p.spec.People {
		if q.Lifts {
			f.Helpers++
		}
	}
	f.Short = f.Helpers > 0 && (f.Carry.People == 0 || f.Tilt.People == 0 || max(f.Carry.People, f.Tilt.People) > f.Helpers)
	f.Says = liftSays(f)
	return f
}

func liftSays(f LiftFacts) string {
	say := func(n int, what string) string {
		if n == 0 {
			return "no team that works as one is enough to " + what
		}
		if n == 1 {
			return "1 person to " + what
		}
		return fmt.Sprintf("%d people to %s", n, what)
	}
	out := say(f.Carry.People, "carry it flat") + "; " + say(f.Tilt.People, "tilt it up")
	if f.Short {
		out += "; so many are there to lift: " + fmt.Sprint(f.Helpers)
	}
	return out
}

// carry is the best and the worst choice of places for the fewest people, or for
// the largest team when none is enough.
func (s *stander) carry(f *LiftFacts, x stand.Lifts) {
	w, rules := s.p.w, s.rules.Lift
	n := cmp.Or(x.People, len(x.Carry))
	g := x.Carry[n-1]
	f.Carry.People = x.People
	if !g.Found {
		return
	}
	allowed := rules.Alone(rules.Carry) * unit.Mass(rules.TeamShare(n))
	f.Carry.Allowed = w.held(allowed)
	f.Carry.Use = useOf(g.Best.Ratio, s.rules.Word(g.Best.Ratio))
	f.Carry.Holds, f.Carry.Most = s.places(g.Best)
	f.Carry.Worst, f.Carry.Worse = s.places(g.Worst)
}

func (s *stander) places(g stand.Grip) (out []HoldFact, most Weight) {
	w := s.p.w
	for i, h := range g.Holders {
		out = append(out, HoldFact{Frame: s.p.labels[h.Frame], Side: h.Side, Hands: [2]XY{w.xy(h.Hands[0]), w.xy(h.Hands[1])}, Carries: w.weight(g.People[i])})
	}
	return out, w.weight(slices.Max(g.People))
}

// built gathers frames that are lifted alike: same people, same need of steps.
func (s *stander) built(raised []stand.Raised, masses []unit.Mass) []BuiltLift {
	w := s.p.w
	type key struct {
		kind   string
		people int
		steps  bool
	}
	at := map[key]int{}
	tops := map[key]float64{}
	var out []BuiltLift
	for _, r := range raised {
		frame := s.p.built.Frames[r.Frame]
		k := key{frame.Kind, r.Crew.People, r.Crew.Steps}
		i, ok := at[k]
		if !ok {
			i = len(out)
			at[k] = i
			out = append(out, BuiltLift{Weight: w.weight(masses[r.Frame]), People: r.Crew.People, Single: w.held(r.Crew.Single), Steps: r.Crew.Steps})
		}
		b := &out[i]
		b.Frames = append(b.Frames, s.p.labels[r.Frame])
		if high := frame.Centre.Y; high >= tops[k] {
			tops[k], b.To = high, w.looked(high)
		}
		if single := w.held(r.Crew.Single); single.KG < b.Single.KG {
			b.Single = single
		}
	}
	slices.SortStableFunc(out, func(a, b BuiltLift) int { return cmp.Compare(b.Weight.KG, a.Weight.KG) })
	return out
}
