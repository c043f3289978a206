package pack

import (
	"math"
	"slices"
)

// root makes the first ruling: of the linear program of all parts and boards,
// or by lengths alone.
func (s *sharer) root() {
	heaviest := int64(1)
	for _, u := range s.supplies {
		heaviest = max(heaviest, u.Weight)
	}
	costs := make([]float64, len(s.supplies))
	for k, u := range s.supplies {
		costs[k] = float64(u.Weight) / float64(heaviest)
	}
	s.rulings = append(s.rulings, s.lengths())
	for _, c := range s.plan {
		s.keep(c.Supply, c.Pattern)
	}
	// Half of the work is kept: prices that are not the best make a ruling too.
	limit := s.limit
	s.limit -= (s.limit - s.work) / 2
	p := s.program(s.need, s.limits(), costs, 50)
	p.generate(false, true)
	s.limit = limit
	if r := p.ruling(); r != nil {
		s.rulings = append([]Ruling{*r}, s.rulings...)
	}
}

// lengths is the ruling by lengths alone.
func (s *sharer) lengths() Ruling {
	r := Ruling{Value: lengths(s.supplies[0].Bound).Value}
	for _, u := range s.supplies {
		r.Most = append(r.Most, u.Bound.Room)
	}
	return r
}

// relaxed gives a ruling against boards of some counts if even divided they do
// not hold the parts.
func (s *sharer) relaxed(counts []int) *Ruling {
	p := s.program(s.need, counts, make([]float64, len(counts)), 1)
	p.generate(true, true)
	if p.unmet() < met {
		return nil
	}
	r := p.ruling()
	if r == nil || !r.against(s.need, counts) {
		return nil
	}
	return r
}

// slack gives by how much boards of some counts may lose.
func (r *Ruling) slack(need, counts []int) int64 {
	t := -worth(r.Value, need)
	for k, n := range counts {
		if r.Most[k] > 0 && int64(n) > never/r.Most[k] || t > never {
			return never
		}
		t += r.Most[k] * int64(n)
	}
	return t
}

// against says whether the ruling rules boards of some counts out.
func (r *Ruling) against(need, counts []int) bool {
	return r.Counts == nil && r.slack(need, counts) < 0
}

// dive rounds part of the linear program's answer, solves that of the rest, and
// so on, within boards of some counts. On the way it offers plans that take
// other boards too.
func (s *sharer) dive(counts []int, d dive) []Cut {
	need, boards := slices.Clone(s.need), slices.Clone(counts)
	plan := []Cut{}
	for !s.spent() {
		if sum(need) == 0 {
			return plan
		}
		if rest := s.greedy(need, boards); rest != nil {
			return append(plan, rest...)
		}
		if rest := s.greedy(need, s.others(plan)); rest != nil {
			s.offer(append(plan[:len(plan):len(plan)], rest...))
		}
		p := s.program(need, boards, s.shares(), 50)
		p.generate(false, false)
		if p.unmet() >= met {
			return nil
		}
		plan = p.fix(plan, need, boards, d)
		d.aside = 0
	}
	return nil
}

// others gives the boards there are beside those of a plan.
func (s *sharer) others(plan []Cut) []int {
	out := s.limits()
	for _, c := range plan {
		out[c.Supply] -= c.Boards
	}
	return out
}

// shares gives boards a cost by length, so that a program of fixed boards
// leaves as much over as it can.
func (s *sharer) shares() []float64 {
	out := make([]float64, len(s.supplies))
	longest := int64(1)
	for _, u := range s.supplies {
		longest = max(longest, u.Plan.Room)
	}
	for k, u := range s.supplies {
		out[k] = float64(u.Plan.Room) / float64(longest)
	}
	return out
}

// fix takes whole boards of the answer into the plan and those columns whose
// fraction is large, or when a column is to stand aside only that one.
func (p *program) fix(plan []Cut, need, boards []int, d dive) []Cut {
	var shares []share
	for _, c := range p.inUse() {
		if p.own[c.col].Pattern != nil {
			shares = append(shares, c)
		}
	}
	take := func(c share, n int) bool {
		own := p.own[c.col]
		cut, times := trim(own.Pattern, need)
		n = min(n, times, boards[own.Supply])
		if n <= 0 || len(cut) == 0 {
			return false
		}
		cut.from(need, n)
		boards[own.Supply] -= n
		plan = append(plan, Cut{own.Supply, cut, n})
		return true
	}
	if d.aside > 0 && d.aside < len(shares) {
		take(shares[len(shares)-d.aside], 1)
		return plan
	}
	took := false
	most, best := 0.0, -1
	for i, c := range shares {
		whole := int(c.boards + 1e-3)
		took = whole > 0 && take(c, whole) || took
		frac := c.boards - math.Floor(c.boards+1e-3)
		if frac > most {
			most, best = frac, i
		}
		if frac >= d.from && p.s.needed(p.own[c.col].Pattern, need) {
			took = take(c, 1) || took
		}
	}
	if !took && best >= 0 {
		take(shares[best], 1)
	}
	return plan
}

// needed says whether every part of a pattern is still needed.
func (s *sharer) needed(p Pattern, need []int) bool {
	return !slices.ContainsFunc(p, func(it Item) bool { return need[it.Kind] < it.N })
}

// cover lists every pattern that a plan from boards of some counts could use,
// and looks for a cover. Without one that is a ruling.
func (s *sharer) cover(counts []int) ([]Cut, *Ruling) {
	r := s.tightest(counts)
	plan, sure := s.covered(r, counts, func(u Supply) *Instance { return u.Plan })
	if plan != nil || !sure {
		return plan, nil
	}
	if s.supplies[0].Bound != s.supplies[0].Plan {
		if other, sure := s.covered(r, counts, func(u Supply) *Instance { return u.Bound }); other != nil || !sure {
			return nil, nil
		}
	}
	return nil, &Ruling{Value: r.Value, Most: r.Most, Counts: counts}
}

// tightest gives the ruling that leaves boards of some counts the least to
// lose, against what the best of them is worth.
func (s *sharer) tightest(counts []int) *Ruling {
	var best *Ruling
	least := math.Inf(1)
	for j := range s.rulings {
		r := &s.rulings[j]
		if loss := float64(r.slack(s.need, counts)) / float64(slices.Max(r.Most)+1); loss < least {
			best, least = r, loss
		}
	}
	return best
}

// covered looks for a cover by patterns of the instances chosen; without one,
// sure says that there is none.
func (s *sharer) covered(r *Ruling, counts []int, of func(Supply) *Instance) (plan []Cut, sure bool) {
	slack := r.slack(s.need, counts)
	var list []*listed
	for k, u := range s.supplies {
		if counts[k] == 0 {
			continue
		}
		l := lister{ctx: s.ctx, in: of(u), need: s.need, value: r.Value, least: r.Most[k] - slack, limit: min(s.limit-s.work, mostNodes)}
		sure := l.list()
		s.work += l.work
		if !sure || len(list)+len(l.found) > mostListed {
			return nil, false
		}
		for _, f := range l.found {
			f.length = k
		}
		list = append(list, l.found...)
	}
	c := cover{ctx: s.ctx, need: slices.Clone(s.need), value: r.Value, most: r.Most, boards: slices.Clone(counts),
		limit: s.limit - s.work, seen: map[string]bool{}}
	found, sure := c.search(list, slack)
	s.work += c.work
	if found == nil {
		return nil, sure
	}
	need := slices.Clone(s.need)
	plan = []Cut{}
	for _, f := range found {
		if cut, _ := trim(f.pattern, need); len(cut) > 0 {
			cut.from(need, 1)
			plan = append(plan, Cut{f.length, cut, 1})
		}
	}
	return plan, true
}
