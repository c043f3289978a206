package job

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"bowerwright/assume"
	"bowerwright/dressing"
	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/passage"
	"bowerwright/section"
	"bowerwright/snag"
	"bowerwright/stand"
	"bowerwright/unit"
)

// Work budgets in counted steps: of each search for sections, of the places to
// carry one from, and how many sections a search may ask about carrying.
const (
	sectionWork = 6_000
	holdWork    = 1_000
	holdAsks    = 60
)

// A lot is frames of the layout by index, as a set.
type lot uint64

func lotOf(frames []int) (l lot) {
	for _, f := range frames {
		l |= 1 << f
	}
	return l
}

// A tightSpot is one tight spot that sections pass.
type tightSpot struct {
	asked SpotAsked
	is    passage.Spot
}

// A sectioner asks what the search wants to know of the frames, each thing once.
type sectioner struct {
	p      *planner
	rules  stand.LiftRules
	wrap   float64
	finger float64
	rates  section.Rates
	spots  []tightSpot
	frames []section.Frame
	deep   []float64 // of each frame, mm
	seams  []section.Seam
	number []int // of each seam, its number in the layout
	reach  [][]section.Reach
	bodies map[lot]*passage.Body
	fits   map[lot]bool
	grips  map[lot]grip
}

// A grip is how a section is carried flat.
type grip struct {
	people int // 0: no team is enough
	best   stand.Grip
	found  bool
}

// sections fills Result.Sections where the job names tight spots, or where they
// are asked for. That something does not pass is no snag: frames can be made
// while it is settled.
func (p *planner) sections() {
	n := len(p.built.Frames)
	if len(p.spec.TightSpots) == 0 && !p.spec.Sections.Wanted || n == 0 || p.err != nil || p.snags.Stops() {
		return
	}
	if n > section.Most {
		p.result.Sections = &SectionsFacts{Over: true, Says: fmt.Sprintf("over: %d frames; sections are looked for among up to %d", n, section.Most)}
		p.result.Sections.Amiss = []string{p.result.Sections.Says}
		return
	}
	s := p.sectioner()
	problem, site := s.problem(), s.assembly()
	trip, err := section.Travel(problem, site)
	var stuck *section.Stuck
	var blocked *section.Blocked
	if err != nil && !errors.As(err, &stuck) && !errors.As(err, &blocked) {
		p.fault("%v", err)
		return
	}
	p.result.Sections = s.facts(trip, stuck, blocked)
	p.unverified()
}

func (p *planner) sectioner() *sectioner {
	s := &sectioner{p: p, rules: stand.RulesFrom(p.book.Aside()).Lift, wrap: p.length(assume.SectionsWrap).MM(), finger: p.length(assume.SectionsFingers).MM(),
		bodies: map[lot]*passage.Body{}, fits: map[lot]bool{}, grips: map[lot]grip{}}
	minutes := func(id assume.ID) float64 { return p.book.Get(id).Value }
	s.rates = section.Rates{Lay: minutes(assume.SectionsLay), Put: minutes(assume.SectionsPut), Screw: minutes(assume.SectionsScrew),
		Unscrew: minutes(assume.SectionsUnscrew), Tilt: minutes(assume.SectionsTilt), Ballast: minutes(assume.SectionsBallast),
		Undress: minutes(assume.SectionsUndress), Take: minutes(assume.SectionsTake), Sweep: minutes(assume.SectionsSweep),
		Strangers: [2]float64{minutes(assume.SectionsStrangersLeast), minutes(assume.SectionsStrangersMost)}}
	if s.rates.Strangers[1] < s.rates.Strangers[0] {
		s.rates.Strangers[1] = s.rates.Strangers[0]
	}
	for _, a := range p.spec.TightSpots {
		if is := spotOf(a); is != nil {
			s.spots = append(s.spots, tightSpot{a, is})
		}
	}
	s.weigh()
	s.join()
	return s
}

// spotOf is a tight spot as package passage takes it; nil for a ceiling, which
// the whole set piece stands under.
func spotOf(a SpotAsked) passage.Spot {
	w, h := a.Width.MM(), a.Height.MM()
	door := passage.Door{Width: cmp.Or(a.DoorWidth.MM(), w), Height: cmp.Or(a.DoorHeight.MM(), h)}
	switch a.Kind {
	case "door":
		return door
	case "vehicle":
		return passage.Chamber{Length: a.Length.MM(), Width: w, Height: h, Door: door}
	case "lift":
		return passage.Chamber{Length: a.Depth.MM(), Width: w, Height: h, Door: door}
	case "corridor":
		return passage.Corner{First: w, Second: cmp.Or(a.After.MM(), w), Height: h, Turn: float64(a.Turn)}
	case "landing":
		return passage.Landing{Up: w, Down: cmp.Or(a.After.MM(), w), Depth: a.Depth.MM(), Length: a.Length.MM(), Height: h}
	case "lay-out floor":
		return passage.Floor{Length: a.Length.MM(), Width: w}
	}
	return nil
}

// weigh finds mass and middle of each frame by itself.
func (s *sectioner) weigh() {
	p := s.p
	foot := map[int]bool{}
	for _, b := range p.built.Standing {
		foot[b.Frame] = true
	}
	for _, b := range p.built.Feet {
		foot[b.Frame] = true
	}
	for _, b := range p.built.Tips {
		foot[b.Frame] = true
	}
	for i, f := range p.built.Frames {
		k := p.kinds[p.kindAt[f.Kind]]
		deep := k.rise().MM()
		alone := dressing.Piece{Layout: layout.Layout{Frames: []layout.Frame{f}}, Frames: []dressing.Frame{{Mass: k.mass(), Depth: deep}}}
		bare, _ := alone.Dress(dressing.Way{Name: "bare"})
		s.frames = append(s.frames, section.Frame{Mass: float64(k.mass()), Centre: bare.Dry.At, Foot: foot[i]})
		s.deep = append(s.deep, deep)
	}
}

// join lists the seams that are fixed, and how each is reached. Fixing has every
// head reached with all frames in place on the bench, so that nothing can come
// in the way; standing, the floor can.
func (s *sectioner) join() {
	d := s.p.spec.Driver
	tool := fixing.RulesFrom(s.p.book.Aside()).Driver
	need := cmp.Or(d.Length.MM(), tool.Length) + cmp.Or(d.Bit.MM(), tool.Bit)
	for _, f := range s.p.fixed.Seams {
		at := s.p.built.Seams[f.Index]
		s.seams = append(s.seams, section.Seam{A: at.Sides[0].Frame, B: at.Sides[1].Frame, Screws: len(f.Fasteners)})
		s.number = append(s.number, f.Number)
		r := section.Reach{Lying: true, Standing: true}
		for _, x := range f.Fasteners {
			r.From = string(x.Tool)
			r.Standing = r.Standing && x.At.Y-x.Axis.Y*need >= 0
		}
		s.reach = append(s.reach, []section.Reach{r})
	}
}

func (s *sectioner) problem() section.Problem {
	q := section.Problem{Frames: s.frames, Seams: s.seams, Work: sectionWork}
	for _, ids := range s.p.spec.Sections.Together {
		at := s.indices(ids)
		for i := 1; i < len(at); i++ {
			q.Together = append(q.Together, [2]int{at[0], at[i]})
		}
	}
	for _, ids := range s.p.spec.Sections.Apart {
		at := s.indices(ids)
		for i := range at {
			for _, b := range at[i+1:] {
				q.Apart = append(q.Apart, [2]int{at[i], b})
			}
		}
	}
	for k, seam := range s.seams {
		if s.asked(s.number[k]).Site {
			q.Apart = append(q.Apart, [2]int{seam.A, seam.B})
		}
	}
	q.Limits = section.Limits{Pass: s.passes, Mass: s.heaviest(), Bear: func(f []int) bool { return s.grip(f).people > 0 }, Asks: holdAsks}
	return q
}

// asked is how a seam is fixed, by its number.
func (s *sectioner) asked(number int) SeamFixing { return s.p.result.Fixing.Seams[number-1] }

func (s *sectioner) indices(ids []string) []int {
	var out []int
	for _, id := range ids {
		out = append(out, slices.IndexFunc(s.p.built.Frames, func(f layout.Frame) bool { return f.ID == id }))
	}
	return out
}

// crew is the largest team there is: those who lift, as the job says, and no
// more than work as one.
func (s *sectioner) crew() int {
	if n := s.p.lifters(); n > 0 {
		return min(n, s.rules.Most)
	}
	return s.rules.Most
}

// heaviest is what a section may weigh: what the best team carries, and what a
// vehicle or a lift takes.
func (s *sectioner) heaviest() float64 {
	most := 0.0
	for n := 1; n <= s.crew(); n++ {
		most = max(most, float64(s.rules.Team(n, s.rules.Carry)))
	}
	for _, a := range s.p.spec.TightSpots {
		if a.Payload > 0 {
			most = min(most, float64(a.Payload))
		}
	}
	return most
}

func (s *sectioner) passes(frames []int) bool {
	key := lotOf(frames)
	if ok, known := s.fits[key]; known {
		return ok
	}
	b := s.body(frames)
	ok := b != nil && !slices.ContainsFunc(s.spots, func(x tightSpot) bool { return !x.is.Fits(b) })
	s.fits[key] = ok
	return ok
}

// body is frames as one rigid piece.
func (s *sectioner) body(frames []int) *passage.Body {
	key := lotOf(frames)
	if b, ok := s.bodies[key]; ok {
		return b
	}
	piece := passage.Piece{Wrap: s.wrap, Fingers: s.finger}
	for _, f := range frames {
		piece.Outlines = append(piece.Outlines, s.p.built.Frames[f].Outside)
		piece.Thickness = max(piece.Thickness, s.deep[f])
	}
	b, err := piece.Body()
	if err != nil {
		s.p.fault("%v", err)
	}
	s.bodies[key] = b
	return b
}

// grip finds the fewest people who carry frames flat as one piece, by the sides
// that no seam within it takes.
func (s *sectioner) grip(frames []int) grip {
	key := lotOf(frames)
	if g, ok := s.grips[key]; ok {
		return g
	}
	var g grip
	middle, mass := s.middle(frames)
	holders := s.rules.Holders(s.part(frames))
	for n := 1; n <= s.crew() && g.people == 0; n++ {
		x := s.rules.CarryFlat(holders, n, middle, unit.Mass(mass), holdWork)
		if !x.Found {
			continue
		}
		g.best, g.found = x.Best, true
		if x.Best.Ratio <= 1 {
			g.people = n
		}
	}
	if s.byOne(frames, mass) {
		g = grip{people: 1}
	}
	for i := range g.best.Holders {
		g.best.Holders[i].Frame = frames[g.best.Holders[i].Frame]
	}
	s.grips[key] = g
	return g
}

// byOne says whether one person carries frames with a hand on either side: light
// enough, and no wider one way than hands are apart.
func (s *sectioner) byOne(frames []int, mass float64) bool {
	b := s.body(frames)
	if b == nil || unit.Mass(mass) > s.rules.Alone(s.rules.Carry) {
		return false
	}
	wide, high := b.Size(0)
	return min(wide, high) <= s.rules.HandSpan
}

// middle of the weight of frames, and the weight, kg.
func (s *sectioner) middle(frames []int) (at geom.Point, mass float64) {
	for _, f := range frames {
		at = at.Add(s.frames[f].Centre.Mul(s.frames[f].Mass))
		mass += s.frames[f].Mass
	}
	return at.Mul(1 / mass), mass
}

// part is the layout of some frames, where they are.
func (s *sectioner) part(frames []int) layout.Layout {
	var l layout.Layout
	at := map[int]int{}
	for i, f := range frames {
		at[f] = i
		l.Frames = append(l.Frames, s.p.built.Frames[f])
	}
	for _, seam := range s.p.built.Seams {
		a, okA := at[seam.Sides[0].Frame]
		b, okB := at[seam.Sides[1].Frame]
		if okA && okB {
			seam.Sides[0].Frame, seam.Sides[1].Frame = a, b
			l.Seams = append(l.Seams, seam)
		}
	}
	return l
}

// assembly is how the sections are put up on site.
func (s *sectioner) assembly() section.Assembly {
	j := section.Assembly{Reach: s.reach, Rates: s.rates, Crew: s.hands, Work: sectionWork}
	j.Way, _ = s.way()
	if f := s.p.result.Standing; f != nil {
		j.Ballast = f.Ballast.Units
	}
	return j
}

// way is how it goes up: tilted up in one, unless the job, the ceiling or the
// crew is against it.
func (s *sectioner) way() (section.Way, string) {
	f := s.p.result.Standing
	switch {
	case s.p.spec.Lifting.InPlace:
		return section.BuiltUp, "the job says so"
	case s.lowest() < 0:
		return section.BuiltUp, "there is no room overhead to tilt it up"
	case f != nil && (f.Lift.Tilt.People == 0 || f.Lift.Tilt.People > s.crew()):
		return section.BuiltUp, "no team is enough to tilt it up"
	}
	return section.Tilted, ""
}

// lowest is the least room overhead while it is tilted up; +Inf without a
// ceiling.
func (s *sectioner) lowest() float64 {
	least := math.Inf(1)
	for _, a := range s.p.spec.TightSpots {
		if a.Kind == "ceiling" {
			_, rising := s.overhead(a)
			least = min(least, rising)
		}
	}
	return least
}

// overhead is what a ceiling leaves over the whole set piece.
func (s *sectioner) overhead(a SpotAsked) (standing, rising float64) {
	c := passage.Ceiling{Spot: a.Height.MM(), Rising: cmp.Or(a.Tilting.MM(), a.Height.MM())}
	high := s.p.built.Height
	if f := s.p.result.Standing; f != nil {
		high += f.Plan.Lift.MM
	}
	return c.Clear(passage.Stood{Height: high, Depth: slices.Max(s.deep)})
}

// hands are how many people a doing needs.
func (s *sectioner) hands(d section.Doing, frames []int) int {
	switch d {
	case section.Drive, section.Undo, section.Undress, section.BallastOn, section.BallastOff, section.Sweep:
		return 1
	case section.Lay, section.Take:
		return s.grip(frames).people
	case section.Put:
		return s.raise(frames)
	case section.Tilt, section.Lower:
		if f := s.p.result.Standing; f != nil {
			return f.Lift.Tilt.People
		}
	case section.Hold:
		if len(frames) < len(s.frames) {
			return s.raise(frames)
		}
	}
	return 0
}

// raise is who lift a section to its place: no fewer than carried it there.
func (s *sectioner) raise(frames []int) int {
	at, mass := s.middle(frames)
	up, carry := s.rules.Crew(stand.Heave{Mass: unit.Mass(mass), From: s.rules.Carry, To: at.Y}).People, s.grip(frames).people
	if up == 0 || carry == 0 {
		return 0
	}
	return max(up, carry)
}

// Sections works a job out as far as its sections, whether or not it names tight
// spots; as [Stand] otherwise.
func Sections(ctx context.Context, spec Spec, cat Catalogue) (Result, snag.List, error) {
	spec.Sections.Wanted = true
	return standWith(ctx, spec, cat, noWays)
}
