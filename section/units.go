package section

import (
	"math/bits"
	"slices"
)

// A set is of frames or of units, one bit each.
type set uint64

func one(i int) set             { return 1 << i }
func (s set) has(i int) bool    { return s>>i&1 != 0 }
func (s set) size() int         { return bits.OnesCount64(uint64(s)) }
func (s set) first() int        { return bits.TrailingZeros64(uint64(s)) }
func (s set) meets(o set) bool  { return s&o != 0 }
func (s set) within(o set) bool { return s&^o == 0 }

func (s set) list() []int {
	out := make([]int, 0, s.size())
	for ; s != 0; s &= s - 1 {
		out = append(out, s.first())
	}
	return out
}

// A world is the problem in units: frames that cannot be parted are one.
type world struct {
	p      Problem
	units  []unit
	all    set   // of units
	near   []set // units that share a seam with each unit
	frames []set // frames that share a seam with each frame
	passes map[set]bool
	bears  map[set]bool
	cuts   [][]int // screws between units

	asks    int // about bearing, left to this search
	spent   bool
	didGrow bool
	growth  []set
}

type unit struct {
	frames set
	mass   float64
	apart  set // units it must not be with
}

// newWorld joins what cannot be parted. The error is a *Stuck when a unit
// fails by itself.
func newWorld(p Problem) (*world, error) {
	w := &world{p: p, passes: map[set]bool{}, bears: map[set]bool{}}
	of := w.join()
	w.connect(of)
	for _, q := range p.Apart {
		a, b := of[q[0]], of[q[1]]
		if a == b {
			return nil, &Stuck{w.units[a].frames.list(), "are kept together and apart"}
		}
		w.units[a].apart |= one(b)
		w.units[b].apart |= one(a)
	}
	for _, u := range w.units {
		if !w.keeps(u.frames, w.massOf(u.frames)) {
			return nil, &Stuck{u.frames.list(), "do not pass or weigh too much by themselves"}
		}
	}
	return w, nil
}

// join makes units and says which each frame is in; units are in the order of
// their first frames.
func (w *world) join() []int {
	of := make([]int, len(w.p.Frames))
	for i := range of {
		of[i] = i
	}
	merge := func(a, b int) {
		a, b = min(of[a], of[b]), max(of[a], of[b])
		for i := range of {
			if of[i] == b {
				of[i] = a
			}
		}
	}
	for _, q := range w.p.Together {
		merge(q[0], q[1])
	}
	for _, s := range w.p.Seams {
		if s.Shop {
			merge(s.A, s.B)
		}
	}
	number := map[int]int{}
	for i, r := range of {
		if _, ok := number[r]; !ok {
			number[r] = len(w.units)
			w.units = append(w.units, unit{})
		}
		of[i] = number[r]
		u := &w.units[of[i]]
		u.frames |= one(i)
		u.mass += w.p.Frames[i].Mass
	}
	return of
}

func (w *world) connect(of []int) {
	n := len(w.units)
	w.all = set(^uint64(0) >> (64 - n))
	w.near = make([]set, n)
	w.frames = make([]set, len(of))
	w.cuts = make([][]int, n)
	for i := range w.cuts {
		w.cuts[i] = make([]int, n)
	}
	for _, s := range w.p.Seams {
		w.frames[s.A] |= one(s.B)
		w.frames[s.B] |= one(s.A)
		a, b := of[s.A], of[s.B]
		if a != b {
			w.near[a] |= one(b)
			w.near[b] |= one(a)
			w.cuts[a][b] += s.Screws
			w.cuts[b][a] += s.Screws
		}
	}
}

func (w *world) massOf(frames set) float64 {
	var m float64
	for _, f := range frames.list() {
		m += w.p.Frames[f].Mass
	}
	return m
}

// lighter is the grain of masses, kg: sums of the same masses in another order
// differ by less, and nobody weighs a frame to a milligram.
const lighter = 1e-6

// keeps says whether frames of a mass keep to what a part of them keeps too.
func (w *world) keeps(frames set, mass float64) bool {
	if w.p.Limits.Mass > 0 && mass > w.p.Limits.Mass+lighter {
		return false
	}
	if w.p.Limits.Pass == nil {
		return true
	}
	ok, known := w.passes[frames]
	if !known {
		ok = w.p.Limits.Pass(frames.list())
		w.passes[frames] = ok
	}
	return ok
}

// whole says whether frames can be a section: connected, and bearing it.
func (w *world) whole(frames set) bool {
	return frames.within(flood(one(frames.first()), frames, w.frames)) && w.bear(frames)
}

// begun gives a search its own allowance of questions about bearing.
func (w *world) begun() {
	w.asks, w.spent = w.p.Limits.Asks, false
	if w.asks == 0 {
		w.asks = Asks
	}
}

// bear asks no further when the allowance is spent, and then says no.
func (w *world) bear(frames set) bool {
	if w.p.Limits.Bear == nil {
		return true
	}
	ok, known := w.bears[frames]
	if !known {
		if w.asks--; w.asks < 0 {
			w.spent = true
			return false
		}
		ok = w.p.Limits.Bear(frames.list())
		w.bears[frames] = ok
	}
	return ok
}

// flood spreads from some over near as far as within allows.
func flood(from, within set, near []set) set {
	for edge := from; edge != 0; {
		var next set
		for ; edge != 0; edge &= edge - 1 {
			next |= near[edge.first()]
		}
		edge = next & within &^ from
		from |= edge
	}
	return from
}

// A group is a section that is being filled.
type group struct {
	units, frames set
	mass          float64
	open          set // units that may still join
}

func (w *world) start(u int) group {
	return group{one(u), w.units[u].frames, w.units[u].mass, w.all &^ w.units[u].apart}
}

func (w *world) add(g group, u int) group {
	x := w.units[u]
	return group{g.units | one(u), g.frames | x.frames, g.mass + x.mass, g.open &^ x.apart}
}

// narrow leaves open only what keeps to the limits and can be reached from all
// of the group through what is open. It is false when the group cannot become
// connected any more.
func (w *world) narrow(g *group, free set) bool {
	var open set
	for _, u := range (g.open & free).list() {
		x := w.units[u]
		if w.keeps(g.frames|x.frames, g.mass+x.mass) {
			open |= one(u)
		}
	}
	within := g.frames
	for _, u := range open.list() {
		within |= w.units[u].frames
	}
	// By frames and not by units: a unit kept together by wish alone need not be
	// connected, and what touches one half does not touch the other.
	reached := flood(one(g.frames.first()), within, w.frames)
	if !g.frames.within(reached) {
		return false
	}
	g.open = 0
	for _, u := range open.list() {
		if w.units[u].frames.meets(reached) {
			g.open |= one(u)
		}
	}
	return true
}

func sorted(groups []group) []set {
	var out []set
	for _, g := range groups {
		out = append(out, g.frames)
	}
	slices.Sort(out)
	return out
}
