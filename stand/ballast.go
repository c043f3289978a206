package stand

import (
	"math"

	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/unit"
)

// A Missing is what has to be added so that every finding holds by the factor
// that is wanted.
type Missing struct {
	Edges []MissingMoment
	Slide unit.Force // against the floor, after friction, N
	rules Rules
	whole *whole
}

// A MissingMoment is what is missing over one edge of the hull, in N mm.
type MissingMoment struct {
	Edge   geom.Segment
	Moment float64
	edge   edge
}

// Missing goes through every way of dressing, under no load and under every one,
// and takes, for each edge and for sliding, the most that is missing. What is
// not missing is 0. Ballast that already stands is counted.
func (s Setup) Missing() Missing {
	m := Missing{rules: s.Rules}
	for _, state := range s.States {
		loads := s.loads(state)
		for _, w := range s.wholes(state) {
			m.start(w)
			m.take(s, w, Load{Kind: PushLoad}) // it is to stand by itself, too
			for _, l := range loads {
				m.take(s, w, l)
			}
		}
	}
	return m
}

func (m *Missing) start(w *whole) {
	if m.whole != nil {
		return
	}
	m.whole = w
	m.Edges = make([]MissingMoment, len(w.edges))
	for k, e := range w.edges {
		m.Edges[k] = MissingMoment{Edge: e.side, edge: e}
	}
}

func (m *Missing) take(s Setup, w *whole, l Load) {
	for k := range w.edges {
		force := float64(s.strongest(w, l, k).Force)
		lacks := s.Rules.Factor*(force*l.Height+w.drift[k]) - w.help[k]
		m.Edges[k].Moment = math.Max(m.Edges[k].Moment, lacks)
	}
	force := float64(s.drifting(w, l).Force)
	m.Slide = unit.Force(math.Max(float64(m.Slide), s.Rules.Factor*(force+w.downhill)-w.resist))
}

// Nothing says that nothing is missing.
func (m Missing) Nothing() bool {
	for _, e := range m.Edges {
		if e.Moment > 0 {
			return false
		}
	}
	return m.Slide <= 0
}

// gain is what a newton of ballast at a place adds over an edge and against
// sliding, less what it adds to the lean.
func (m Missing) gain(e edge, at geom.Point, up float64) float64 {
	lever := e.lever(at)
	share := m.rules.Ballast
	if lever < 0 {
		share = m.rules.DeadOver
	}
	return share*lever - m.rules.Factor*m.whole.lean*up
}

func (m Missing) grip() float64 {
	return m.whole.friction*m.rules.Ballast - m.rules.Factor*m.whole.lean
}

// A Heap is ballast in one place: how much against tipping, and how much against
// sliding. The larger is needed; infinite means that none is enough there.
type Heap struct {
	At         geom.Point
	Tip, Slide unit.Mass
	Over       geom.Segment // the edge that asks for Tip
}

// Mass is the larger of the two.
func (h Heap) Mass() unit.Mass { return max(h.Tip, h.Slide) }

// Heap gives the ballast needed if all of it stands in one place on the floor:
// the lever counts, so near an edge it holds the other side and not this one.
func (m Missing) Heap(at geom.Point) Heap {
	h := Heap{At: at}
	for _, e := range m.Edges {
		if need := m.need(e.Moment, m.gain(e.edge, at, 0)); need > h.Tip {
			h.Tip, h.Over = need, e.Edge
		}
	}
	if m.Slide > 0 {
		h.Slide = m.need(float64(m.Slide), m.grip())
	}
	return h
}

func (m Missing) need(lacks, gain float64) unit.Mass {
	switch {
	case lacks <= 0:
		return 0
	case gain <= 0:
		return unit.Mass(math.Inf(1))
	}
	return Mass(unit.Force(lacks / gain))
}

// A Store is units of ballast of one kind and where such a unit may stand.
type Store struct {
	Unit  base.Unit
	Spots []base.Spot
}

// A Stack is units of one kind on each other in one place.
type Stack struct {
	Unit  base.Unit
	Spot  base.Spot
	Count int
}

// Placed lists the units of a stack as weights on a base that is lift thick.
func (k Stack) Placed(lift float64) []Placed {
	out := make([]Placed, k.Count)
	for i := range out {
		out[i] = Placed{k.Unit.Name, k.Unit.Mass, k.Spot.At, k.up(lift, i)}
	}
	return out
}

func (k Stack) up(lift float64, i int) float64 {
	return lift + k.Unit.Height*(float64(i)+1.0/2)
}

// With gives the setup with a plan's ballast in its place, to be checked.
func (s Setup) With(p Plan) Setup {
	ballast := append([]Placed(nil), s.Ballast...)
	for _, k := range p.Stacks {
		ballast = append(ballast, k.Placed(s.Stance.Lift)...)
	}
	s.Ballast = ballast
	return s
}

// A Plan of ballast is the fewest units that make up what is missing.
type Plan struct {
	Stacks []Stack
	Units  int
	Mass   unit.Mass
	Enough bool // all that is missing is made up; else the Stacks are the best that was found
	Fewest bool // every plan with fewer units was ruled out; when not Enough, every plan was
}

// Fewest finds the fewest units out of what is owned, and their places, such
// that nothing is missing. Of plans with equally many it takes the one that has
// most to spare where it has least. Stores may share places, as those of
// base.Stance.SharedSpots do; places that overlap otherwise must not be given
// together. Work is the budget of the search in steps; when it is spent the plan
// may not be the fewest, and says so.
func (m Missing) Fewest(stores []Store, lift float64, work int) Plan {
	if m.Nothing() {
		return Plan{Enough: true, Fewest: true}
	}
	q := newPacking(m, stores, lift, work)
	counts, enough, fewest := q.solve()
	p := Plan{Enough: enough, Fewest: fewest}
	for i, n := range counts {
		if n > 0 {
			c := q.choices[i]
			p.Stacks = append(p.Stacks, Stack{stores[c.store].Unit, stores[c.store].Spots[c.spot], n})
			p.Units += n
			p.Mass += unit.Mass(n) * stores[c.store].Unit.Mass
		}
	}
	return p
}

// Best tries every kind of unit by itself at its own places, and all kinds
// together at places that they share, and takes the plan that is enough with the
// fewest units; of equals the lightest, then the first.
func (m Missing) Best(on base.Stance, units []base.Unit, room base.Room, work int) Plan {
	var tries [][]Store
	for _, u := range units {
		tries = append(tries, []Store{{u, on.Spots(u, room)}})
	}
	if len(units) > 1 {
		var all []Store
		for i, spots := range on.SharedSpots(units, room) {
			all = append(all, Store{units[i], spots})
		}
		tries = append(tries, all)
	}
	best := m.Fewest(nil, on.Lift, work)
	for _, t := range tries {
		if p := m.Fewest(t, on.Lift, work); p.before(best) {
			best = p
		}
	}
	return best
}

// before says whether a plan is to be preferred. When neither is enough the one
// that weighs more comes nearer.
func (p Plan) before(q Plan) bool {
	switch {
	case p.Enough != q.Enough:
		return p.Enough
	case !p.Enough:
		return p.Mass > q.Mass
	case p.Units != q.Units:
		return p.Units < q.Units
	}
	return p.Mass < q.Mass
}
