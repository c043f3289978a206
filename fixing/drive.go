package fixing

import (
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/stock"
	"bowerwright/unit"
)

// fix fixes one seam.
func (w *work) fix(i int) (Seam, bool) {
	c := w.contact(i)
	choice := w.s.Seams[c.seam.Number]
	seam := Seam{Number: c.seam.Number, Index: i}
	loose := (choice.Site || choice.Often || w.s.Often) && !choice.Screws
	var p *Problem
	flat := !c.sides[0].thin() && !c.sides[1].thin()
	bolts := loose || flat && w.s.Flat == CounterboredBolts
	switch {
	case flat && !bolts && choice.Rows == 2:
		p = w.problem(NoRows, c)
	case flat && bolts:
		p = w.boreBolts(c, choice, &seam)
	case flat:
		p = w.overBack(c, &seam)
	case bolts:
		p = w.bolt(c, choice, &seam)
	default:
		p = w.screw(c, choice, &seam)
	}
	if p != nil {
		p.Bolts, p.Flat, p.Rows = bolts, flat, choice.Rows == 2
		w.problems = append(w.problems, *p)
		return seam, false
	}
	w.say(c, choice, &seam)
	if choice.Site {
		w.peg(c, &seam)
		if len(seam.Pegs) > 1 { // two pegs keep the frames from turning
			seam.Notes = slices.DeleteFunc(seam.Notes, func(n Note) bool { return n == Pivot })
		}
	}
	seam.Bag = w.bag(seam)
	return seam, true
}

// ways gives the counts to try: two along, else two across; one by choice. Where
// two rows are chosen for a seam it has two or is a problem; where they are
// asked for in general, it has one if there is no room for two.
func (w *work) ways(choice Choice) []count {
	switch {
	case choice.One:
		return []count{single}
	case choice.Rows == 2:
		return []count{grid, across}
	case w.s.Rows == 2 && choice.Rows == 0:
		return []count{grid, along, across}
	}
	return []count{along, across}
}

// screw fixes a seam with wood screws: two along before two across, and of
// these the preferred thickness first.
func (w *work) screw(c contact, choice Choice, seam *Seam) *Problem {
	bad := w.problem(NoScrew, c)
	for _, as := range w.ways(choice) {
		for i, g := range w.screws {
			t, p := w.choose(c, func(head int) (trial, *Problem) { return w.screwsFrom(c, head, g, as) })
			if p != nil {
				bad = farther(bad, p)
				continue
			}
			w.keep(seam, Screwed, t, as)
			if i > 0 {
				seam.note(Thinner)
			}
			return nil
		}
	}
	return bad
}

// screwsFrom tries screws of one thickness with their heads on one side.
func (w *work) screwsFrom(c contact, head int, g gauge, as count) (trial, *Problem) {
	f, ok := w.fit(g, c, head, 0)
	if !ok {
		p := w.problem(NoLength, c)
		p.Room, p.Need = c.sides[1-head].thick, w.rules.Hold.of(g.Diameter)
		return trial{}, p
	}
	a, p := w.arrange(c, w.screwNeed(c, head, g, f.penetration), as)
	if p != nil {
		return trial{}, p
	}
	return w.outOfTheWay(c, a, g.Diameter.MM(), func(a arrangement) (trial, *Problem) { return w.drive(c, head, g, f, a) })
}

func (w *work) screwNeed(c contact, head int, g gauge, penetration float64) need {
	n := need{diameter: g.Diameter, edge: []Diameters{w.rules.Edge}, ends: []Diameters{w.rules.End, w.rules.EndLeast},
		pitch: w.rules.Pitch, pitchAcross: w.rules.PitchAcross}
	n.h[head], n.h[1-head] = c.sides[head].thick, min(penetration, c.sides[1-head].thick)
	return n
}

// drive puts a screw at every spot, each with the best driver that reaches it.
func (w *work) drive(c contact, head int, g gauge, f fit, a arrangement) (trial, *Problem) {
	t := trial{a: a}
	for _, sp := range a.spots {
		fast, p := w.reach(c, head, g, f, sp, a)
		if p != nil {
			return t, p
		}
		t.add(fast, lookOf(fast), w.pathOf(fast, c))
	}
	return t, nil
}

func lookOf(f Fastener) look { return look{f.At, f.HeadIn, f.Axis.Mul(-1)} }

// pathOf runs from the head to the point.
func (w *work) pathOf(f Fastener, c contact) path {
	sin, cos := math.Sincos(float64(f.Slant))
	long := f.First + f.Penetration + c.gap/cos
	forward := sin * long // towards the front, when it is driven from the back
	if f.From == Front {
		forward = -forward
	}
	return pathOf(f.At, f.At.Add(f.Axis.Mul(long*cos)), f.HeadIn, f.HeadIn-forward, f.Diameter.MM(), c.seam.Number)
}

// reach finds the driver for one spot: straight, then a right-angle head, then
// a slant from the back, then one from the front.
func (w *work) reach(c contact, head int, g gauge, f fit, sp spot, a arrangement) (Fastener, *Problem) {
	fast := w.straight(c, head, g, f, sp)
	l := lane{at: fast.At, out: fast.Axis.Mul(-1), dir: c.dir, z: sp.z}
	long := f.Length.MM()
	fast.Room = w.room(l)
	shortest := w.rules.Driver
	if w.fits(l, w.rules.Driver, long, fast.Room) {
		return fast, nil
	}
	if w.s.HasRightAngle {
		shortest = w.rules.RightAngle
		if w.fits(l, w.rules.RightAngle, long, fast.Room) {
			fast.Tool = Angled
			return fast, nil
		}
	}
	if s, ok := w.slanted(c, head, g, fast, l, a); ok {
		return s, nil
	}
	p := w.problem(NoReach, c)
	p.Room, p.Need = fast.Room, shortest.Bit+shortest.Length+long
	return fast, p
}

// straight is a screw driven square to the seam.
func (w *work) straight(c contact, head int, g gauge, f fit, sp spot) Fastener {
	fast := Fastener{Kind: stock.WoodScrew, Name: f.Name, Gauge: g.Name, Diameter: g.Diameter, Root: g.Root, Length: f.Fastener.Length,
		Along: sp.s, Depth: sp.z, HeadIn: sp.z, Head: c.sides[head].frame, Tip: c.sides[1-head].frame,
		At: c.on(sp.s, head, c.sides[head].thick), Axis: c.into(1 - head), Tool: Straight}
	fast.Way = direction(fast.Axis)
	w.fill(&fast, g, f, c.sides[1-head].gravity)
	return fast
}

func (w *work) fill(fast *Fastener, g gauge, f fit, gravity float64) {
	fast.Name, fast.Length = f.Name, f.Fastener.Length
	fast.First, fast.Penetration, fast.Spare = f.first, f.penetration, f.spare
	fast.Holes = w.holes(g.Screw, f, gravity)
}

// slanted tries slants from the back, then from the front: the least at which
// the driver leaves by the open side, the screw holds and stays in, and its
// head and point keep clear of the edges. It crosses the seam where the
// straight one would.
func (w *work) slanted(c contact, head int, g gauge, fast Fastener, l lane, a arrangement) (Fastener, bool) {
	room := w.roomAside(l, w.rules.Driver, fast.Room)
	edge := w.rules.Edge.of(g.Diameter)
	rise := c.sides[head].rise
	for _, from := range []Side{Back, Front} {
		for _, slant := range w.slants() {
			f, ok := w.fit(g, c, head, slant)
			if !ok {
				continue
			}
			sin, cos := math.Sincos(float64(slant))
			behind := sin * f.first         // of the seam, towards the driver
			beyond := sin * (f.penetration) // of the seam, away from it
			headIn, tipIn, open := fast.Depth+behind, fast.Depth-beyond, rise-fast.Depth-behind
			if from == Front {
				headIn, tipIn, open = fast.Depth-behind, fast.Depth+beyond, fast.Depth-behind
			}
			ok = w.rules.Driver.leaves(slant, open, room) &&
				inside(geom.Interval{From: edge, To: rise - edge}, headIn) &&
				inside(geom.Interval{From: edge, To: c.sides[1-head].rise - edge}, tipIn) &&
				w.inSpan(c, head, g, f.penetration*cos, fast.Along, a)
			if ok {
				fast.Slant, fast.From, fast.HeadIn, fast.Tool = slant, from, headIn, AtASlant
				fast.Way = direction(fast.Axis) + ", from the " + string(from)
				w.fill(&fast, g, f, c.sides[1-head].gravity)
				return fast, true
			}
		}
	}
	return fast, false
}

// inSpan says whether a place along the seam keeps its distance from the ends
// for another penetration than the arrangement was made for.
func (w *work) inSpan(c contact, head int, g gauge, penetration, s float64, a arrangement) bool {
	n := w.screwNeed(c, head, g, penetration)
	in := c.span(n.h)
	end := w.rules.End.of(g.Diameter)
	if a.nearMitre {
		end = w.rules.EndLeast.of(g.Diameter)
	}
	return inside(geom.Interval{From: in.From + end, To: in.To - end}, s)
}

// keep puts a trial into the seam, and its paths among those to keep clear of.
func (w *work) keep(seam *Seam, m Method, t trial, as count) {
	seam.Method, seam.Fasteners, seam.Across = m, t.fasteners, as == across
	if as == grid {
		seam.Rows = 2
	}
	seam.Seen, seam.Looks = t.seen, len(t.looks)*len(w.eyes)
	w.paths.add(t.paths...)
	for _, n := range []struct {
		when bool
		note Note
	}{
		{as == single, Pivot}, {as == across, TwoAcross}, {t.a.nearMitre, NearMitre}, {t.a.nearEdge, NearEdge},
		{t.tool == AtASlant, Slanted}, {t.tool == Angled, NeedsAngle}, {t.moved, Moved}, {t.seen > 0, Visible},
	} {
		if n.when {
			seam.note(n.note)
		}
	}
}

func (s *Seam) note(n Note) { s.Notes = append(s.Notes, n) }

// say adds the notes that hang on the seam and not on how it was tried.
func (w *work) say(c contact, choice Choice, seam *Seam) {
	if c.sides[0].thin() != c.sides[1].thin() {
		seam.note(Mixed)
	}
	for _, f := range seam.Fasteners {
		if f.Kind == stock.WoodScrew && f.Diameters() < float64(w.rules.Standard) {
			seam.note(Outside)
			break
		}
	}
	if choice.Screws && (choice.Site || choice.Often || w.s.Often) && seam.Method == Screwed {
		seam.note(Redriven)
	}
}

// level is how far, in radians, a way may be from level or upright and still
// be called so: what is not seen by eye over the length of a driver.
const level = math.Pi / 180

// direction says a way in the plane in words.
func direction(v geom.Point) string {
	a := unit.Angle(math.Atan2(v.Y, v.X))
	turns := float64(a) / (math.Pi / 2)
	if near := math.Round(turns); math.Abs(turns-near)*math.Pi/2 <= level {
		return [4]string{"to the right", "up", "to the left", "down"}[(int(near)+4)%4]
	}
	return [4]string{"up to the right", "up to the left", "down to the left", "down to the right"}[(int(math.Floor(turns))+4)%4]
}
