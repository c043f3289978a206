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
