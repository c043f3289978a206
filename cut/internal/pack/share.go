package pack

import (
	"math"
	"slices"
)

// A program is the linear program of parts and boards left: which patterns, on
// how many boards, within those there are. Parts may go unmet at a price.
type program struct {
	*master
	s       *sharer
	was     []int // the kind that each of its kinds was
	costs   []float64
	boards  []int
	pricers []*pricer
	own     []Cut // of each column, Pattern nil when it is parts unmet
}

// program sets one up with the patterns in the pool. A board of supply k costs
// costs[k], and a part unmet penalty times its share of the longest board.
func (s *sharer) program(need, boards []int, costs []float64, penalty float64) *program {
	sub, was := s.supplies[0].Plan.restrict(need)
	kinds, n := len(was), len(was)+len(s.supplies)
	m := &master{rows: n, caps: len(s.supplies), need: make([]float64, n), x: make([]float64, n), price: make([]float64, n),
		basis: make([]int, n), inv: make([][]float64, n), costs: []float64{}}
	p := &program{master: m, s: s, was: was, costs: costs, boards: boards, pricers: make([]*pricer, len(s.supplies))}
	longest := 0.0
	for _, u := range s.supplies {
		longest = max(longest, float64(u.Plan.Room))
	}
	for r := range n {
		m.inv[r] = make([]float64, n)
		m.inv[r][r] = 1
		if r >= kinds {
			m.need[r], m.x[r], m.basis[r] = float64(boards[r-kinds]), float64(boards[r-kinds]), -1-r
			continue
		}
		_, frac := math.Modf(float64(r+1) * math.Phi)
		m.need[r] = float64(sub.Kinds[r].Need) + stir*frac
		m.x[r], m.basis[r] = m.need[r], r
		m.price[r] = penalty * float64(sub.Kinds[r].Length) / longest
		m.cols, m.costs = append(m.cols, Pattern{{r, 1}}), append(m.costs, m.price[r])
		p.own = append(p.own, Cut{})
	}
	p.known(need)
	return p
}

// known takes the patterns of the pool, as far as their parts are needed.
func (p *program) known(need []int) {
	now := make([]int, len(need))
	for i, k := range p.was {
		now[k] = i + 1
	}
	seen := map[string]bool{}
	for _, c := range p.s.pool {
		if p.boards[c.Supply] == 0 {
			continue
		}
		var q Pattern
		for _, it := range c.Pattern {
			if i := now[it.Kind]; i > 0 {
				q = append(q, Item{i - 1, min(it.N, need[it.Kind])})
			}
		}
		if key := string(rune(c.Supply)) + q.key(); len(q) > 0 && !seen[key] {
			seen[key] = true
			p.add(c.Supply, q)
		}
	}
}

// add adds a column.
func (p *program) add(supply int, q Pattern) {
	p.cols = append(p.cols, append(slices.Clone(q), Item{len(p.was) + supply, 1}))
	p.master.costs = append(p.master.costs, p.costs[supply])
	p.own = append(p.own, Cut{Supply: supply, Pattern: renamed(q, p.was)})
}

// unmet gives the parts that the boards do not hold, about.
func (p *program) unmet() float64 {
	t := 0.0
	for r, col := range p.basis {
		if col >= 0 && p.own[col].Pattern == nil {
			t += math.Max(p.x[r], 0)
		}
	}
	return t
}

// met is what unmet may come to for all parts to count as met: the counts are
// stirred by less.
const met = 1e-3

// generate brings the program to its end, or with easy until all parts are met.
// Without sure patterns are guessed at and some may have been missed.
func (p *program) generate(easy, sure bool) {
	for !p.s.spent() {
		before := p.work
		p.solve(50 * p.rows)
		p.s.work += p.work - before
		if easy && p.unmet() < met {
			return
		}
		if !p.more(guesses) && (!sure || !p.more(0)) {
			return
		}
	}
}

// more adds patterns that save something, and says whether there were any.
func (p *program) more(cells int) bool {
	value, board := scale(p.price[:len(p.was)])
	any := false
	for k := range p.s.supplies {
		if p.boards[k] == 0 {
			continue
		}
		for _, q := range p.find(k, value, p.above(k, board), cells).patterns {
			own := append(slices.Clone(q), Item{len(p.was) + k, 1})
			if p.gain(own, p.costs[k]) > enough {
				p.add(k, q)
				p.s.keep(k, renamed(q, p.was))
				any = true
			}
		}
	}
	return any
}

// above gives the value over which a pattern of supply k saves something, no
// more than no pattern has.
func (p *program) above(k int, board float64) int64 {
	return int64(min(max(p.costs[k]-p.price[len(p.was)+k], 0)*board*(1+enough), never))
}

// find looks for the patterns of supply k of the most value.
func (p *program) find(k int, value []int64, above int64, cells int) found {
	if p.pricers[k] == nil {
		need := make([]int, len(p.s.need))
		for i, was := range p.was {
			need[was] = int(p.need[i])
		}
		in, _ := p.s.supplies[k].Plan.restrict(need)
		p.pricers[k] = newPricer(p.s.ctx, in)
	}
	pr := p.pricers[k]
	pr.limit = pr.work + p.s.limit - p.s.work
	before := pr.work
	f := pr.search(value, above, cells)
	p.s.work += pr.work - before
	return f
}

// ruling makes a ruling of the prices of a program of all parts. It takes what
// a board is worth at most from lengths rounded down.
func (p *program) ruling() *Ruling {
	value, board := scale(p.price[:len(p.was)])
	r := &Ruling{Value: value, Most: make([]int64, len(p.s.supplies))}
	for k, u := range p.s.supplies {
		pr := newPricer(p.s.ctx, u.Bound)
		pr.limit = p.s.limit - p.s.work
		above := int64(0)
		if p.boards[k] > 0 {
			above = min(p.above(k, board), worth(value, p.s.need))
		}
		f := pr.search(value, above, 0)
		p.s.work += pr.work
		if !f.sure {
			return nil
		}
		r.Most[k] = f.value
	}
	return r
}

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
