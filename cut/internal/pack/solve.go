package pack

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// A Proof shows that fewer boards than Bound are impossible. Value gives each
// kind a worth; no pattern, of no more parts of a kind than are needed, is
// worth more than Most. When Cover is false, all parts together are worth more
// than Bound-1 boards can be. When it is true, Bound-1 boards can be worth as
// much, but the patterns that lose so little against Most cover the counts in
// no way.
type Proof struct {
	Value []int64
	Most  int64
	Bound int
	Cover bool
}

// worth gives what all parts needed are worth.
func worth(value []int64, need []int) int64 {
	t := int64(0)
	for k, n := range need {
		t += value[k] * int64(n)
	}
	return t
}

// bound gives the boards that parts of a total worth need at least, when a
// board holds no more than most.
func bound(total, most int64) int {
	if most <= 0 {
		return 0
	}
	return int((total + most - 1) / most)
}

// A Result is the best plan found and the best bound.
type Result struct {
	Plan     []Use
	Boards   int
	Proof    Proof
	Fraction float64 // least boards were boards divisible, as far as known
	CutShort bool    // the context ended the search
	Work     int64
}

// Proved says whether fewer boards are impossible.
func (r Result) Proved() bool { return r.Boards == r.Proof.Bound }

// A solver holds one search.
type solver struct {
	ctx    context.Context
	in     *Instance
	need   []int
	pool   []Pattern
	have   map[string]bool // patterns in the pool
	top    *master         // of the whole instance
	plan   []Use
	boards int
	proof  Proof
	work   int64
	limit  int64
}

// Solve shares the kinds out over as few boards as it can within a budget of
// counted work (labels, pivots and nodes). Every kind must fit a board alone.
func Solve(ctx context.Context, in *Instance, work int64) Result {
	s := &solver{ctx: ctx, in: in, need: in.needs(), have: map[string]bool{}, limit: work}
	s.proof = lengths(in)
	s.offer(s.greedy(in, s.need))
	r := Result{}
	if s.boards > 0 {
		r.Fraction = s.root()
		s.improve()
	}
	r.Plan, r.Boards, r.Proof, r.Work = s.plan, s.boards, s.proof, s.work
	r.CutShort = ctx.Err() != nil
	return r
}

// done says whether there is nothing left to do, or no budget to do it with.
func (s *solver) done() bool {
	return s.boards <= s.proof.Bound || s.spent()
}

func (s *solver) spent() bool { return s.work >= s.limit || s.ctx.Err() != nil }

// offer takes a plan if it is better than the one there is.
func (s *solver) offer(plan []Use) {
	n := 0
	for _, u := range plan {
		n += u.Boards
	}
	if s.plan == nil || n < s.boards {
		s.plan, s.boards = plan, n
	}
}

// keep adds patterns to the pool, once each.
func (s *solver) keep(pats ...Pattern) {
	for _, p := range pats {
		if key := p.key(); !s.have[key] {
			s.have[key] = true
			s.pool = append(s.pool, p)
		}
	}
}

// key gives a pattern as a string of bytes, for maps: kinds and counts under
// 2^24.
func (p Pattern) key() string {
	b := make([]byte, 0, 6*len(p))
	for _, it := range p {
		b = append(b, byte(it.Kind), byte(it.Kind>>8), byte(it.Kind>>16), byte(it.N), byte(it.N>>8), byte(it.N>>16))
	}
	return string(b)
}

// root solves the linear program of the whole instance and takes its bound. It
// gives the least boards as a fraction.
func (s *solver) root() float64 {
	m := newMaster(s.in)
	for _, u := range s.plan {
		m.cols = append(m.cols, u.Pattern)
	}
	s.top = m
	s.generate(s.in, m, true)
	s.keep(m.cols...)
	s.offer(s.roundUp(m))
	return m.boards()
}

// scale turns prices in boards into whole multipliers, the greatest of them
// 2^38: a board's worth then stays under 2^52, exact in a float64, up to 2^14
// parts a board.
func scale(price []float64) (value []int64, board float64) {
	top := 0.0
	for _, y := range price {
		if y > top { // which no NaN is
			top = y
		}
	}
	value = make([]int64, len(price))
	if top <= 0 || math.IsInf(top, 1) {
		return value, 0
	}
	board = float64(int64(1)<<38) / top
	for k, y := range price {
		if y > 0 {
			value[k] = int64(y * board)
		}
	}
	return value, board
}

// guesses is the number of labels a state that a guess at a pattern keeps.
const guesses = 128

// generate adds columns to m until none saves anything. With prove it takes
// the bounds met on the way, and stops when the best plan is proved.
func (s *solver) generate(in *Instance, m *master, prove bool) {
	p := newPricer(s.ctx, in)
	for !s.spent() {
		before := m.work
		m.solve(50 * m.rows)
		s.work += m.work - before
		value, board := scale(m.price)
		cols := s.price(p, in, m, value, board, prove)
		if len(cols) == 0 {
			return
		}
		m.cols = append(m.cols, cols...)
		if prove && s.boards <= s.proof.Bound {
			return
		}
	}
}

// price looks for columns that save something, by a guess first.
func (s *solver) price(p *pricer, in *Instance, m *master, value []int64, board float64, prove bool) []Pattern {
	at := int64(board * (1 + enough))
	p.limit = p.work + s.limit - s.work
	before := p.work
	defer func() { s.work += p.work - before }()
	guess := p.search(value, at, guesses)
	cols := saving(m, guess.patterns)
	if !prove {
		return cols
	}
	total := worth(value, in.needs())
	aim := min(s.boards, int(math.Ceil(float64(total)/board-1e-6)))
	if len(cols) > 0 && bound(total, guess.value) < aim {
		return cols
	}
	sure := p.search(value, cutoff(total, aim), 0)
	if sure.sure {
		s.claim(value, sure.value, total)
	}
	return append(cols, saving(m, sure.patterns)...)
}

// cutoff gives the most that the best pattern may be worth for all parts
// together to prove aim boards.
func cutoff(total int64, aim int) int64 {
	if aim < 2 {
		return total
	}
	return max((total-1)/int64(aim-1), 1)
}

// saving gives those of the patterns that save something.
func saving(m *master, pats []Pattern) []Pattern {
	var out []Pattern
	for _, p := range pats {
		if m.saves(p) > enough {
			out = append(out, p)
		}
	}
	return out
}

// claim takes a bound if it is better than the one there is.
func (s *solver) claim(value []int64, most, total int64) {
	if b := bound(total, most); b > s.proof.Bound {
		s.proof = Proof{Value: value, Most: most, Bound: b}
	}
}

// roundUp makes a plan of the linear program's: whole boards as they are, the
// rest greedily.
func (s *solver) roundUp(m *master) []Use {
	need := slices.Clone(s.need)
	var plan []Use
	for _, c := range m.inUse() {
		if n := int(c.boards + 1e-3); n > 0 {
			plan = s.take(plan, m.cols[c.col], n, need)
		}
	}
	return append(plan, s.greedyOf(need)...)
}

// take cuts a pattern on up to n boards, no part of it in vain.
func (s *solver) take(plan []Use, p Pattern, n int, need []int) []Use {
	for n > 0 {
		cut, times := trim(p, need)
		if len(cut) == 0 {
			break
		}
		times = min(times, n)
		for _, it := range cut {
			need[it.Kind] -= times * it.N
		}
		plan = append(plan, Use{cut, times})
		n -= times
	}
	return plan
}

// trim takes out of a pattern what is not needed, and says how often it can
// then be cut with nothing in vain.
func trim(p Pattern, need []int) (cut Pattern, times int) {
	times = math.MaxInt
	for _, it := range p {
		if n := min(it.N, need[it.Kind]); n > 0 {
			cut = append(cut, Item{it.Kind, n})
			times = min(times, need[it.Kind]/n)
		}
	}
	return cut, times
}

// A share is a column and its boards in the linear program.
type share struct {
	col    int
	boards float64
}

// inUse gives the columns in use, those of most boards first.
func (m *master) inUse() []share {
	var out []share
	for r, col := range m.basis {
		if col >= 0 && m.x[r] > 1e-5 {
			out = append(out, share{col, m.x[r]})
		}
	}
	slices.SortFunc(out, func(a, b share) int {
		return cmp.Or(cmp.Compare(b.boards, a.boards), cmp.Compare(a.col, b.col))
	})
	return out
}
