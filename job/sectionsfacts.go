package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/geom"
	"bowerwright/passage"
	"bowerwright/section"
	"bowerwright/unit"
)

// facts are what is printed of a trip, or of what stands against one.
func (s *sectioner) facts(t section.Trip, stuck *section.Stuck, blocked *section.Blocked) *SectionsFacts {
	f := &SectionsFacts{AtLeast: t.Plan.AtLeast, Tied: t.Plan.BestOfTies, Screws: t.Plan.Screws, NotChecked: notOfSections()}
	f.Proved = len(t.Plan.Sections) > 0 && t.Plan.Fewest()
	way, because := s.way()
	f.Way, f.Because = way.String(), because
	s.spotFacts(f)
	for _, x := range t.Plan.Sections {
		f.Sections = append(f.Sections, s.sectionFacts(x))
	}
	s.siteSeams(f, t.Plan)
	for _, k := range t.Closed {
		f.Closed = append(f.Closed, s.number[k])
	}
	f.Rests = s.rests()
	switch {
	case stuck != nil:
		s.stuck(f, stuck)
	case blocked != nil:
		s.blocked(f, blocked)
	default:
		s.orders(f, t)
	}
	f.Over = len(f.Amiss) > 0
	f.Says = s.says(f)
	f.emptyLists()
	return f
}

// notOfSections is what must stand beside sections.
func notOfSections() []string {
	return []string{
		"Passing is reckoned held still, from one side to the other: turning or leaning on the way through is not.",
		"The base, ballast and dressing are not tried at the tight spots; nor is whether all sections lie in the vehicle together.",
		"Whether a section bears being carried is not reckoned by itself, nor whether what is half put up stays up: hands hold it until it is all joined and its ballast is on.",
		"No step lays the base down or fixes frames to it; the times are for the steps listed.",
		"No slope, step or sill, no rail, no door leaf that stands in the way, but as the measures tell it.",
	}
}

// spotFacts tell of each tight spot, and what the whole set piece does there.
func (s *sectioner) spotFacts(f *SectionsFacts) {
	w := s.p.w
	var all []int
	for i := range s.frames {
		all = append(all, i)
	}
	for _, a := range s.p.spec.TightSpots {
		x := TightSpotFacts{Name: a.Name, Kind: a.Kind, Measures: s.measures(a), By: a.By, Verified: a.By != ""}
		if a.Kind == "ceiling" {
			s.ceiling(f, &x, a)
		} else if b := s.body(all); b != nil {
			whole := s.pass(tightSpot{a, spotOf(a)}, b)
			x.Whole = &whole
		}
		if a.Payload > 0 && a.Kind == "vehicle" { // a lift goes more than once, and its payload limits each section
			load, may := w.weight(unit.Mass(s.load())), w.held(a.Payload)
			x.Load, x.Payload = &load, &may
			if s.load() > float64(a.Payload) {
				f.Amiss = append(f.Amiss, fmt.Sprintf("%s carries %s, and all together weighs %s", a.Name, w.say(may.US, may.Metric), w.say(load.US, load.Metric)))
			}
		}
		f.Spots = append(f.Spots, x)
	}
}

// load is what a vehicle carries, kg: frames, base and ballast.
func (s *sectioner) load() float64 {
	sum := 0.0
	for _, x := range s.frames {
		sum += x.Mass
	}
	if st := s.p.result.Standing; st != nil {
		sum += st.Ballast.Weight.KG
		for _, x := range st.Weights {
			if x.Kind == "base" {
				sum += x.Weight.KG
			}
		}
	}
	return sum
}

func (s *sectioner) ceiling(f *SectionsFacts, x *TightSpotFacts, a SpotAsked) {
	w := s.p.w
	standing, rising := s.overhead(a)
	stands, tilting := w.clear(standing), w.clear(rising)
	x.Stands, x.Tilting = &stands, &tilting
	if standing < 0 {
		f.Amiss = append(f.Amiss, fmt.Sprintf("the set piece does not stand under %s: %s is missing", a.Name, w.text(w.up(-standing))))
	}
}

// clear is what is left at a tight spot, down to the mark, so that no more is
// promised than there is; what is missing is more below 0.
func (w scribe) clear(mm float64) Size {
	if mm >= -passage.Snug {
		return w.down(max(0, mm))
	}
	out := w.up(-mm)
	return Size{MM: -out.MM, US: minus(out.US), Metric: minus(out.Metric)}
}

// measures are a tight spot's own, in words.
func (s *sectioner) measures(a SpotAsked) string {
	var out []string
	for _, m := range []struct {
		what string
		l    unit.Length
	}{{"length", a.Length}, {"depth", a.Depth}, {"width", a.Width}, {"width after", a.After}, {"height", a.Height}, {"tilting height", a.Tilting},
		{"door width", a.DoorWidth}, {"door height", a.DoorHeight}} {
		if m.l > 0 {
			out = append(out, m.what+" "+s.p.w.text(s.p.w.stock(m.l)))
		}
	}
	if a.Turn > 0 {
		out = append(out, "turn "+a.Turn.String())
	}
	if a.Payload > 0 {
		may := s.p.w.held(a.Payload)
		out = append(out, "payload "+s.p.w.say(may.US, may.Metric))
	}
	return strings.Join(out, ", ")
}

// pass is how a piece passes a spot: the easiest way that is enough, else the
// one that lacks least.
func (s *sectioner) pass(x tightSpot, b *passage.Body) PassFacts {
	v := x.is.Pass(b)
	way, ok := v.Easiest(-passage.Snug)
	if !v.Passes || !ok {
		way = v.Best
	}
	w := s.p.w
	f := PassFacts{Spot: x.asked.Name, Passes: v.Passes, Hold: way.Hold.Kind.String(), FaceDown: way.Hold.FaceDown,
		Turn: w.angle(unit.Angle(way.Hold.Turn)), Lean: w.angle(unit.Angle(way.Hold.Lean)), Clearance: w.clear(way.Clearance)}
	limit := func(mm float64) *Size {
		if math.IsInf(mm, 0) || math.IsNaN(mm) {
			return nil
		}
		c := w.clear(mm)
		return &c
	}
	f.Across, f.Up, f.Along = limit(way.Slack.Across), limit(way.Slack.Up), limit(way.Slack.Along)
	f.Says = f.Spot + ": " + s.passSays(f)
	return f
}

func (s *sectioner) passSays(f PassFacts) string {
	w := s.p.w
	if !f.Passes {
		lacks := Size{US: strings.TrimPrefix(f.Clearance.US, "-"), Metric: strings.TrimPrefix(f.Clearance.Metric, "-")}
		return fmt.Sprintf("%s; at best %s is missing, %s", passage.NotStill, w.text(lacks), holdWords(f))
	}
	return fmt.Sprintf("passes %s, %s to spare", holdWords(f), w.text(f.Clearance))
}

// holdWords say how it is held.
func holdWords(f PassFacts) string {
	out := f.Hold
	if f.FaceDown {
		out += ", face down"
	}
	if math.Abs(f.Turn.Degrees) >= 0.05 {
		out += ", turned " + f.Turn.Text
	}
	if f.Hold == passage.Leaned.String() {
		out += ", " + f.Lean.Text + " from upright"
	}
	return out
}

func (s *sectioner) sectionFacts(x section.Section) SectionFacts {
	w := s.p.w
	box := geom.Polygon{}
	deep := 0.0
	for _, i := range x.Frames {
		box = append(box, s.p.built.Frames[i].Outside...)
		deep = max(deep, s.deep[i])
	}
	size := box.Box()
	g := s.grip(x.Frames)
	f := SectionFacts{Letter: x.Letter, Frames: s.labels(x.Frames), Weight: w.weight(unit.Mass(x.Mass)), Middle: w.xy(x.Centre),
		Width: w.looked(size.Max.X - size.Min.X), Height: w.looked(size.Max.Y - size.Min.Y), Depth: w.looked(deep), People: g.people, Most: w.weight(unit.Mass(x.Mass))}
	if g.found {
		st := stander{p: s.p}
		f.Holds, f.Most = st.places(g.best)
	}
	for _, q := range s.spots {
		f.Passes = append(f.Passes, s.pass(q, s.body(x.Frames)))
	}
	return f
}

func (s *sectioner) labels(frames []int) []string {
	var out []string
	for _, i := range frames {
		out = append(out, s.p.labels[i])
	}
	return out
}

func (s *sectioner) siteSeams(f *SectionsFacts, plan section.Plan) {
	in := map[int]string{}
	for _, x := range plan.Sections {
		for _, i := range x.Frames {
			in[i] = x.Letter
		}
	}
	for _, k := range plan.SiteSeams {
		seam, asked := s.seams[k], s.asked(s.number[k])
		f.Site = append(f.Site, SiteSeam{Number: s.number[k], Frames: asked.Frames, Sections: [2]string{in[seam.A], in[seam.B]}, Count: seam.Screws, Thing: asked.Thing})
	}
}

// rests is what the number of sections rests on.
func (s *sectioner) rests() []string {
	w, ask := s.p.w, s.p.spec.Sections
	lim := w.held(unit.Mass(s.heaviest()))
	out := []string{
		fmt.Sprintf("%s of wrapping on every face and %s for hands on every side", w.text(w.looked(s.wrap)), w.text(w.looked(s.finger))),
		fmt.Sprintf("no section over %s, what %d people carry flat by their guideline weights or a payload allows", w.say(lim.US, lim.Metric), s.crew()),
		"each carried flat by a team that works as one, with hands on sides that no seam of it takes",
	}
	for _, t := range ask.Together {
		out = append(out, "kept together: "+andList(s.labels(s.indices(t))))
	}
	for _, t := range ask.Apart {
		out = append(out, "kept apart: "+andList(s.labels(s.indices(t))))
	}
	for _, x := range s.p.result.Fixing.Seams {
		if x.Site {
			out = append(out, fmt.Sprintf("seam %d is a site seam, as the job says", x.Number))
		}
	}
	for _, n := range s.p.result.Fixing.Undone {
		out = append(out, fmt.Sprintf("seam %d cannot be fixed as drawn, and holds nothing together", n))
	}
	for _, a := range s.p.spec.TightSpots {
		if a.By == "" {
			out = append(out, a.Name+" as written: nobody is said to have measured it")
		}
	}
	return out
}

// unverified notes the tight spots that nobody is said to have measured.
func (p *planner) unverified() {
	var names []string
	for _, a := range p.spec.TightSpots {
		if a.By == "" {
			names = append(names, a.Name)
		}
	}
	if names != nil {
		p.note("tight-spot-unverified", "tight spots", "nobody is said to have measured "+andList(names), "Measure there, at the narrowest, and write who did under measured by.")
	}
}

func (s *sectioner) stuck(f *SectionsFacts, x *section.Stuck) {
	f.Stuck = &StuckFacts{Frames: s.labels(x.Frames), Why: x.Why}
	if len(x.Frames) > 0 {
		for _, q := range s.spots {
			if pass := s.pass(q, s.body(x.Frames)); !pass.Passes {
				f.Stuck.Passes = append(f.Stuck.Passes, pass)
			}
		}
	}
	switch {
	case len(x.Frames) == 0:
		f.Amiss = append(f.Amiss, "no parting is found: "+x.Why)
	case len(f.Stuck.Passes) == 0:
		f.Amiss = append(f.Amiss, fmt.Sprintf("no parting is found: %s %s", andList(f.Stuck.Frames), x.Why))
	}
	for _, q := range f.Stuck.Passes {
		f.Amiss = append(f.Amiss, andList(f.Stuck.Frames)+" at "+q.Says)
	}
}

func (s *sectioner) blocked(f *SectionsFacts, b *section.Blocked) {
	x := &BlockedFacts{Frames: s.labels(b.Frames)}
	switch {
	case b.Tired:
		x.Says = "no order of work is found within the work allowed"
	case b.Seam >= 0:
		x.Seam = s.number[b.Seam]
		x.Says = fmt.Sprintf("no order of work: the screws of seam %d cannot be reached when their turn comes", x.Seam)
		if len(b.By) > 0 {
			x.Says += ", behind " + andList(s.labels(b.By))
		}
	default:
		x.Says = fmt.Sprintf("no order of work: %s would stand on nothing or not stay up", andList(x.Frames))
	}
	for _, h := range b.Helps {
		x.Helps = append(x.Helps, h.String())
	}
	f.Blocked = x
	f.Amiss = append(f.Amiss, x.Says)
}

// says is the one line.
func (s *sectioner) says(f *SectionsFacts) string {
	if f.Over {
		return "over: " + strings.Join(f.Amiss, "; ")
	}
	n := len(f.Sections)
	if n == 1 {
		return "it travels in one"
	}
	var seams []int
	for _, x := range f.Site {
		seams = append(seams, x.Number)
	}
	out := fmt.Sprintf("%s, %s in %s on site", howMany(n, "section"), s.fasteners(f.Screws, seams), howMany(len(f.Site), "seam"))
	if f.Proved {
		return out + "; fewer are ruled out"
	}
	return out + fmt.Sprintf("; fewer than %d are ruled out", f.AtLeast)
}

// orders are the steps in the shop, on site and of the strike.
func (s *sectioner) orders(f *SectionsFacts, t section.Trip) {
	ask := s.p.spec.Sections
	for i, o := range t.Shop {
		x := t.Plan.Sections[i]
		if len(x.Frames) > 1 {
			shop := s.order(o, nil)
			shop.Section, shop.Fits, shop.By = x.Letter, true, "makers"
			f.Shop = append(f.Shop, shop)
		}
	}
	build, strike := s.order(t.Site, t.Plan.Sections), s.order(t.Strike, t.Plan.Sections)
	strike.Way = "from the top down"
	if t.Strike.Way == section.Tilted {
		strike.Way = "let down flat and taken apart"
	}
	s.window(f, &build, "putting it up", ask.Window)
	s.window(f, &strike, "taking it down", ask.Strike)
	f.Build, f.Strike = &build, &strike
}

// window holds an order to the time that the venue gives.
func (s *sectioner) window(f *SectionsFacts, o *OrderFacts, what string, minutes float64) {
	o.By, o.Fits = "makers", true
	takes := o.Makers
	if s.p.spec.Sections.By == "strangers" {
		o.By, takes = "strangers", o.Most
	}
	if minutes == 0 {
		return
	}
	w := s.p.w.lasts(minutes)
	o.Window, o.Fits = &w, takes.Minutes <= minutes
	if !o.Fits {
		f.Amiss = append(f.Amiss, fmt.Sprintf("%s takes %s %s, the window is %s", what, o.By, takes.Text, w.Text))
	}
}

func (s *sectioner) order(o section.Order, sections []section.Section) OrderFacts {
	w := s.p.w
	makers, least, most := o.Minutes(s.rates)
	out := OrderFacts{Way: o.Way.String(), Count: o.Screws(), Makers: w.lasts(makers), Least: w.lasts(least), Most: w.lasts(most)}
	for _, x := range o.Steps {
		step := WorkStep{Do: x.Do.String(), Count: x.Screws, People: x.People, Time: w.lasts(x.Minutes)}
		for _, k := range x.Seams {
			step.Seams = append(step.Seams, s.number[k])
		}
		step.What = s.labels(x.Frames)
		if sections != nil {
			step.What = letters(sections, x.Frames)
		}
		step.Says = s.stepSays(step)
		out.Steps = append(out.Steps, step)
	}
	return out
}

// letters are those of the sections that frames make up.
func letters(sections []section.Section, frames []int) []string {
	var out []string
	for _, x := range sections {
		if slices.Contains(frames, x.Frames[0]) {
			out = append(out, x.Letter)
		}
	}
	return out
}

// fasteners counts what closes seams, by what it is.
func (s *sectioner) fasteners(n int, seams []int) string {
	screws, bolts := false, false
	for _, k := range seams {
		bolt := strings.Contains(s.asked(k).Method, "bolt") || strings.Contains(s.asked(k).Method, "insert")
		screws, bolts = screws || !bolt, bolts || bolt
	}
	switch {
	case screws && bolts:
		return fmt.Sprintf("%d screws and bolts", n)
	case bolts:
		return howMany(n, "bolt")
	}
	return howMany(n, "screw")
}

// seamsOf names seams by their numbers.
func seamsOf(seams []int) string {
	names := make([]string, len(seams))
	for i, n := range seams {
		names[i] = fmt.Sprint(n)
	}
	if len(names) == 1 {
		return "seam " + names[0]
	}
	return "seams " + andList(names)
}

// stepSays is a step in words.
func (s *sectioner) stepSays(x WorkStep) string {
	what := andList(x.What)
	switch x.Do {
	case section.Lay.String():
		return "lay " + what + " down in its place"
	case section.Put.String():
		return "put " + what + " up in its place and hold it"
	case section.Drive.String():
		return fmt.Sprintf("drive %s of %s", s.fasteners(x.Count, x.Seams), seamsOf(x.Seams))
	case section.Tilt.String():
		return "tilt the whole up and hold it"
	case section.BallastOn.String():
		return "set the ballast in its places; nobody lets go before"
	case section.LetGo.String():
		return "let go"
	case section.Undress.String():
		return "take greenery, fabric and lights off"
	case section.Hold.String():
		return "hold " + what
	case section.Undo.String():
		return fmt.Sprintf("undo %s of %s", s.fasteners(x.Count, x.Seams), seamsOf(x.Seams))
	case section.Take.String():
		return "take " + what + " off"
	case section.Lower.String():
		return "let the whole down flat"
	case section.BallastOff.String():
		return "take the ballast off the base"
	}
	return "sweep the floor, search it for screws and wire, count them back"
}
