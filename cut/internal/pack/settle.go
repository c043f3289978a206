package pack

import (
	"cmp"
	"context"
	"fmt"
	"slices"
)

// Limits of the search for a cover, beyond which it is not worth starting.
const (
	mostListed = 60_000    // patterns
	mostNodes  = 3_000_000 // steps of listing them
)

// settle asks whether a plan of as many boards as the bound exists, and raises
// the bound while there is none.
func (s *solver) settle() {
	s.tighten()
	value, most := s.proof.Value, s.proof.Most
	for !s.done() {
		plan, sure := s.cover(value, most, s.proof.Bound)
		switch {
		case plan != nil:
			s.offer(s.asUses(plan))
			return
		case !sure:
			return
		}
		s.proof = Proof{Value: value, Most: most, Bound: s.proof.Bound + 1, Cover: true}
	}
}

// cover looks for a plan of n boards by listing every pattern that one could
// use. The parts are worth total together and a board at most most, so that
// the patterns of a plan of n boards lose, each against most, exactly
// n most - total in all. Without a plan, sure says that there is none.
func (s *solver) cover(value []int64, most int64, n int) (plan []Pattern, sure bool) {
	slack := int64(n)*most - worth(value, s.need)
	l := lister{ctx: s.ctx, in: s.in, need: s.need, value: value, least: most - slack, limit: min(s.limit-s.work, mostNodes)}
	sure = l.list()
	s.work += l.work
	if !sure {
		return nil, false
	}
	c := cover{ctx: s.ctx, need: slices.Clone(s.need), value: value, most: []int64{most}, boards: []int{n},
		limit: s.limit - s.work, seen: map[string]bool{}}
	found, sure := c.search(l.found, slack)
	s.work += c.work
	return patterns(found), sure
}

// tighten brings the linear program of the whole instance to its end, where the
// multipliers leave a plan the least to lose.
func (s *solver) tighten() {
	p := newPricer(s.ctx, s.in)
	for !s.done() {
		s.top.solve(50 * s.top.rows)
		value, board := scale(s.top.price)
		p.limit = p.work + s.limit - s.work
		before := p.work
		f := p.search(value, int64(board*(1+enough)), 0)
		s.work += p.work - before
		cols := saving(s.top, f.patterns)
		if len(cols) > 0 {
			s.top.cols = append(s.top.cols, cols...)
			continue
		}
		if f.sure && bound(worth(value, s.need), f.value) >= s.proof.Bound {
			s.proof = Proof{Value: value, Most: f.value, Bound: bound(worth(value, s.need), f.value)}
		}
		return
	}
}

// asUses makes a plan of patterns, no part of it in vain.
func (s *solver) asUses(pats []Pattern) []Use {
	need := slices.Clone(s.need)
	var plan []Use
	for _, p := range pats {
		plan = s.take(plan, p, 1, need)
	}
	return plan
}

// A lister lists the patterns worth at least least to which nothing can be
// added.
type lister struct {
	ctx   context.Context
	in    *Instance
	need  []int
	value []int64
	least int64
	tails []suffix // by first kind
	rel   relaxed
	count []int
	found []*listed
	work  int64
	limit int64
}

// list says whether it listed them all.
func (l *lister) list() bool {
	p := newPricer(l.ctx, l.in)
	p.value = l.value
	p.sortByDensity()
	l.rel, l.count = p.rel, make([]int, len(l.need))
	l.tails = make([]suffix, len(l.need)+1)
	for k := range l.tails {
		l.tails[k].from(p, k)
	}
	return l.from(0, l.in.empty(), 0)
}

// from lists what the pattern so far can grow into with kinds from k on.
func (l *lister) from(k int, at []int64, val int64) bool {
	l.work++
	if l.work > l.limit || len(l.found) > mostListed || l.ctx.Err() != nil {
		return false
	}
	if val >= l.least && l.in.used(at) <= l.in.Room && l.full() {
		l.found = append(l.found, &listed{pattern: patternOf(l.count)})
	}
	room := l.room(at)
	next := make([]int64, len(at))
	for j := k; j < len(l.need); j++ {
		if float64(val)+l.tails[j].bound(room) < float64(l.least) {
			return true
		}
		if l.count[j] == l.need[j] || l.rel.width[j] > room {
			continue
		}
		l.in.add(at, next, j)
		l.count[j]++
		ok := l.from(j, next, val+l.value[j])
		l.count[j]--
		if !ok {
			return false
		}
	}
	return true
}

// room gives the most that widths can still share behind what is there.
func (l *lister) room(at []int64) int64 {
	least := int64(never)
	for s, n := range at {
		if n < never {
			least = min(least, n+l.rel.out[s])
		}
	}
	return l.rel.room - least
}

// full says whether nothing can be added to the pattern.
func (l *lister) full() bool {
	for k := range l.need {
		if l.count[k] == l.need[k] {
			continue
		}
		l.count[k]++
		fits := l.in.Fits(patternOf(l.count))
		l.count[k]--
		l.work++
		if fits {
			return false
		}
	}
	return true
}

// patternOf makes a pattern of counts by kind.
func patternOf(count []int) Pattern {
	var p Pattern
	for k, n := range count {
		if n > 0 {
			p = append(p, Item{k, n})
		}
	}
	return p
}

// patterns gives those listed as patterns, nil for nil.
func patterns(list []*listed) []Pattern {
	if list == nil {
		return nil
	}
	out := make([]Pattern, len(list))
	for i, l := range list {
		out[i] = l.pattern
	}
	return out
}

// A listed pattern is one that a cover may use.
type listed struct {
	pattern Pattern
	length  int   // which length of board it is on
	loss    int64 // against a board's worth, when last looked at
	tried   bool  // and no cover of what is left uses it
}

// A cover looks for a given number of patterns that hold every count.
type cover struct {
	ctx    context.Context
	need   []int
	value  []int64
	most   []int64         // that a board is worth, by length
	boards []int           // left, by length
	seen   map[string]bool // what was left where no cover was found
	chose  []*listed
	work   int64
	limit  int64
}

// search gives the patterns of a cover by those listed that lose no more than
// slack; without one, sure says that there is none. A pattern that was tried
// and led to no cover is not tried again beneath its siblings.
func (c *cover) search(list []*listed, slack int64) (plan []*listed, sure bool) {
	if c.left() == 0 {
		return append([]*listed{}, c.chose...), true
	}
	key := patternOf(c.need).key() + fmt.Sprint(c.boards)
	if c.seen[key] {
		return nil, true
	}
	list = c.usable(list, slack)
	with := c.scarcest(list)
	defer func() {
		for _, l := range with {
			l.tried = false
		}
	}()
	for _, l := range with {
		if c.work > c.limit || c.ctx.Err() != nil {
			return nil, false
		}
		cut := c.cut(l.pattern)
		c.chose = append(c.chose, l)
		c.boards[l.length]--
		plan, sure = c.search(list, slack-c.loss(cut, l.length, true))
		c.boards[l.length]++
		c.chose = c.chose[:len(c.chose)-1]
		for _, it := range cut {
			c.need[it.Kind] += it.N
		}
		if plan != nil || !sure {
			return plan, sure
		}
		l.tried = true
	}
	c.seen[key] = true
	return nil, true
}

// left gives the parts not yet covered.
func (c *cover) left() int {
	n := 0
	for _, d := range c.need {
		n += d
	}
	return n
}

// cut takes a pattern's parts off the counts and gives those it took.
func (c *cover) cut(p Pattern) Pattern {
	var cut Pattern
	for _, it := range p {
		if n := min(it.N, c.need[it.Kind]); n > 0 {
			cut = append(cut, Item{it.Kind, n})
			c.need[it.Kind] -= n
		}
	}
	return cut
}

// loss gives by how much less than its board's most a pattern is worth now; of
// one already cut, all parts count.
func (c *cover) loss(p Pattern, length int, isCut bool) int64 {
	l := c.most[length]
	for _, it := range p {
		n := it.N
		if !isCut {
			n = min(n, c.need[it.Kind])
		}
		l -= c.value[it.Kind] * int64(n)
	}
	return l
}

// usable gives the patterns not tried that lose no more than slack, the least
// loss first.
func (c *cover) usable(list []*listed, slack int64) []*listed {
	var ok []*listed
	for _, l := range list {
		if l.tried || c.boards[l.length] == 0 {
			continue
		}
		if loss := c.loss(l.pattern, l.length, false); loss <= slack {
			l.loss = loss
			ok = append(ok, l)
		}
	}
	c.work += int64(4 * len(list))
	slices.SortStableFunc(ok, func(a, b *listed) int { return cmp.Compare(a.loss, b.loss) })
	return ok
}

// scarcest gives the patterns that hold the kind still needed that the fewest
// hold.
func (c *cover) scarcest(list []*listed) (with []*listed) {
	holds := make([]int, len(c.need))
	for _, l := range list {
		for _, it := range l.pattern {
			holds[it.Kind]++
		}
	}
	kind := -1
	for k, d := range c.need {
		if d > 0 && (kind < 0 || holds[k] < holds[kind]) {
			kind = k
		}
	}
	for _, l := range list {
		if l.pattern.has(kind) {
			with = append(with, l)
		}
	}
	return with
}

// has says whether a pattern has parts of kind k.
func (p Pattern) has(k int) bool {
	return slices.ContainsFunc(p, func(it Item) bool { return it.Kind == k })
}
