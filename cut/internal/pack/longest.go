package pack

import (
	"context"
	"slices"
)

// A Tail says how supplies leave offcuts. Bought ones are those whose offcuts
// count.
type Tail struct {
	Bought []bool
	// With gives a supply as it is when a board leaves an offcut at least so
	// long.
	With func(supply int, offcut int64) Supply
	// Free gives by supply an instance rounded down whose End leaves no offcut
	// but charges the last cut, and forgets what must be held.
	Free []*Instance
}

// A Longest is what is known about the longest offcut of a board bought, among
// plans of one weight. Plan is nil when none was found that leaves a longer
// one than was had.
type Longest struct {
	Plan    []Cut
	Bound   int64 // no offcut is longer
	Sure    bool  // Rulings show so; otherwise Bound is a whole board
	Rulings []Ruling
	Work    int64
}

// mostReached is how often a longer offcut is tried for.
const mostReached = 8

// Longest looks for the plan of a sharing's weight with the longest offcut on
// a board bought, and for a bound. One of length had is there already.
//
// The other boards of a plan hold no more than they are worth by a ruling; so
// the worth that is left must lie on the board with the offcut, and the
// shortest parts of that worth leave the longest one.
func (r Sharing) Longest(ctx context.Context, supplies []Supply, tail Tail, had, slip, work int64) Longest {
	s := newSharer(ctx, supplies, work)
	s.rulings = slices.Clone(r.Rulings)
	for _, c := range r.Plan {
		s.keep(c.Supply, c.Pattern)
	}
	l := &reach{s: s, tail: tail, memo: map[[3]int64]int64{}}
	counts, sure := s.each(r.Weight)
	if !sure || r.Bound != r.Weight {
		return Longest{Bound: l.whole(), Work: s.work}
	}
	l.counts = counts
	out := l.search(had, slip)
	out.Work = s.work
	return out
}

// A reach is one search for a longest offcut.
type reach struct {
	s      *sharer
	tail   Tail
	counts [][]int
	memo   map[[3]int64]int64 // offcut by ruling, supply and worth
}

// A goal is an offcut on a board of a supply, the boards given.
type goal struct {
	counts []int
	supply int
	offcut int64
}

// whole gives the longest board bought.
func (l *reach) whole() int64 {
	most := int64(0)
	for k, in := range l.tail.Free {
		if l.tail.Bought[k] {
			most = max(most, in.Room)
		}
	}
	return most
}

// search tries the bound first, and while it cannot be met lengths between it
// and what is had.
func (l *reach) search(had, slip int64) Longest {
	out := Longest{}
	aim := int64(never)
	for range mostReached {
		g, sure := l.bound()
		if !sure {
			return Longest{Plan: out.Plan, Bound: l.whole()}
		}
		out.Bound, out.Sure, out.Rulings = g.offcut, true, l.s.rulings
		if g.offcut <= had+slip || l.s.spent() {
			return out
		}
		g.offcut = min(g.offcut-slip, aim)
		plan, ruling := l.try(g)
		switch {
		case plan != nil:
			out.Plan, had = plan, g.offcut
			aim = never
			if out.Bound <= had+slip {
				return out
			}
			aim = had + (out.Bound-had)/2
		case ruling != nil:
			l.s.rulings = append(l.s.rulings, *ruling)
			aim = never
		default:
			aim = had + (g.offcut-had)/2
		}
	}
	if g, sure := l.bound(); sure {
		out.Bound, out.Rulings = g.offcut, l.s.rulings
	}
	return out
}

// bound gives the longest offcut that the rulings allow.
func (l *reach) bound() (best goal, sure bool) {
	for _, counts := range l.counts {
		for k, n := range counts {
			if n == 0 || !l.tail.Bought[k] {
				continue
			}
			offcut, sure := l.allowed(counts, k)
			if !sure {
				return best, false
			}
			if offcut > best.offcut {
				best = goal{counts, k, offcut}
			}
		}
	}
	return best, true
}

// allowed gives the longest offcut on a board of supply k that every ruling
// allows, with boards of some counts.
func (l *reach) allowed(counts []int, k int) (offcut int64, sure bool) {
	in := l.tail.Free[k]
	offcut = in.Room
	for j := range l.s.rulings {
		r := &l.s.rulings[j]
		if r.Counts != nil {
			continue
		}
		w := r.Most[k] - r.slack(l.s.need, counts)
		if w <= 0 {
			continue
		}
		key := [3]int64{int64(j), int64(k), w}
		o, ok := l.memo[key]
		if !ok {
			p := newPricer(l.s.ctx, in)
			p.limit = l.s.limit - l.s.work
			length, sure := p.shortest(r.Value, w)
			l.s.work += p.work
			if !sure {
				return 0, false
			}
			o = in.Room - length
			l.memo[key] = o
		}
		offcut = min(offcut, o)
	}
	return offcut, true
}

// try looks for a plan with an offcut, and for a ruling against one. The board
// that leaves it is a supply of its own.
func (l *reach) try(g goal) ([]Cut, *Ruling) {
	n := len(l.s.supplies)
	s := newSharer(l.s.ctx, append(slices.Clone(l.s.supplies), l.tail.With(g.supply, g.offcut)), l.s.limit)
	s.work = l.s.work
	s.found = true // no other plan is wanted
	defer func() { l.s.work = s.work }()
	for _, c := range l.s.pool {
		s.keep(c.Supply, c.Pattern)
		if c.Supply == g.supply && s.supplies[n].Plan.Fits(c.Pattern) {
			s.keep(n, c.Pattern)
		}
	}
	s.supplies[n].Limit = 1
	counts := append(slices.Clone(g.counts), 1)
	counts[g.supply]--
	plan := s.greedy(s.need, counts)
	if plan == nil {
		if r := s.relaxed(counts); r != nil {
			r.Most = r.Most[:n]
			return nil, r
		}
	}
	for _, d := range dives[:4] {
		if plan == nil {
			plan = s.dive(counts, d)
		}
	}
	for i := range plan {
		if plan[i].Supply == n {
			plan[i].Supply = g.supply
		}
	}
	return plan, nil
}
