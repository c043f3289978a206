package pack

import (
	"math"
	"slices"
)

// dives are the ways to round a linear program's answer. Later ones cost more
// or begin worse.
var dives = []dive{{0.6, 0}, {0.85, 0}, {0.51, 0}, {0.97, 0}, {0.6, 1}, {0.85, 2}, {0.51, 3}, {0.6, 4}, {0.85, 5}, {0.51, 6}}

// A dive fixes all columns whose fraction of a board is at least from, or the
// greatest if none is. At the first depth it begins with one column that stands
// aside places down the list.
type dive struct {
	from  float64
	aside int
}

// improve looks for better plans by dives, then settles what the bound leaves
// open by a search for a cover.
func (s *solver) improve() {
	for _, d := range dives {
		if s.done() {
			return
		}
		s.dive(d)
	}
	s.settle()
}

// dive rounds part of the linear program's answer, solves that of the rest,
// and so on, and offers a greedy end at each depth.
func (s *solver) dive(d dive) {
	need := slices.Clone(s.need)
	var plan []Use
	for !s.done() {
		in, was := s.in.restrict(need)
		if len(was) == 0 {
			s.offer(plan)
			return
		}
		m := s.residual(in, was)
		if len(plan) > 0 && count(plan)+int(math.Ceil(m.boards()-1e-3)) >= s.boards {
			return
		}
		if d.aside > 0 {
			if shares := m.inUse(); d.aside < len(shares) {
				plan = s.take(plan, renamed(m.cols[shares[len(shares)-d.aside].col], was), 1, need)
			}
			d.aside = 0
			continue
		}
		plan = s.fix(plan, m, was, need, d.from)
		s.offer(append(plan[:len(plan):len(plan)], s.greedyOf(need)...))
	}
}

// count gives the boards of a plan.
func count(plan []Use) int {
	n := 0
	for _, u := range plan {
		n += u.Boards
	}
	return n
}

// residual solves the linear program of what is left, from the patterns known.
func (s *solver) residual(in *Instance, was []int) *master {
	m := newMaster(in)
	now := make([]int, len(s.in.Kinds))
	for i, k := range was {
		now[k] = i + 1
	}
	seen := map[string]bool{}
	for _, p := range s.pool {
		var q Pattern
		for _, it := range p {
			if i := now[it.Kind]; i > 0 {
				q = append(q, Item{i - 1, min(it.N, in.Kinds[i-1].Need)})
			}
		}
		if key := q.key(); len(q) > 0 && !seen[key] {
			seen[key] = true
			m.cols = append(m.cols, q)
		}
	}
	known := len(m.cols)
	s.generate(in, m, false)
	for _, p := range m.cols[known:] {
		s.keep(renamed(p, was))
	}
	return m
}

// fix takes whole boards of the linear program's answer into the plan, and
// those columns whose fraction is large.
func (s *solver) fix(plan []Use, m *master, was, need []int, from float64) []Use {
	shares := m.inUse()
	took := false
	for _, c := range shares {
		if n := int(c.boards + 1e-3); n > 0 {
			plan, took = s.take(plan, renamed(m.cols[c.col], was), n, need), true
		}
	}
	most, best := 0.0, -1
	for i, c := range shares {
		frac := c.boards - math.Floor(c.boards+1e-3)
		if frac > most {
			most, best = frac, i
		}
		if frac >= from && s.whole(renamed(m.cols[c.col], was), need) {
			plan, took = s.take(plan, renamed(m.cols[c.col], was), 1, need), true
		}
	}
	if !took && best >= 0 {
		plan = s.take(plan, renamed(m.cols[shares[best].col], was), 1, need)
	}
	return plan
}

// whole says whether every part of a pattern is still needed.
func (s *solver) whole(p Pattern, need []int) bool {
	for _, it := range p {
		if need[it.Kind] < it.N {
			return false
		}
	}
	return true
}
