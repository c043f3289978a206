package pack

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// inflate makes up for the rounding of a few float64 operations (each under
// 2.3e-16 of its value) when a bound is used to give something up.
const inflate = 1 + 1e-12

// A label is a walk over part of the kinds: its length so far and its value.
type label struct {
	len, val int64
	id       int32 // of its step
}

// A step leads back along the walk of a label.
type step struct {
	before, kind int32
}

// A pricer looks for the most valuable pattern, by labels in the kinds' order,
// of which it keeps per state those that no shorter one outbids.
type pricer struct {
	ctx   context.Context
	in    *Instance
	rel   relaxed
	need  []int
	value []int64
	dense []int // kinds of value above 0, best value a width first
	tail  suffix
	steps []step
	lists [][]label // by state left
	spare [][]label // to be used again
	best  int64     // the value to beat
	top   []int32   // steps of the patterns that beat it, worst first
	work  int64     // labels looked at
	limit int64     // on work; over it a search is given up
	cells int       // 0: exact; otherwise at most so many labels a state
	less  int64     // of the room is not to be used
	short bool      // the shortest pattern that beats best is wanted, not the best
}

// newPricer makes a pricer for the counts an instance needs.
func newPricer(ctx context.Context, in *Instance) *pricer {
	return &pricer{ctx: ctx, in: in, rel: in.relax(), need: in.needs(), limit: math.MaxInt64}
}

// found is what a search for patterns came to.
type found struct {
	value    int64     // the best pattern's, or the value that none beats
	patterns []Pattern // those found that beat the value asked for, best first
	sure     bool      // whether none is better than value
}

// search looks for patterns worth more than above. With cells 0 the answer is
// sure unless the limit on work is met; with cells above 0 it is a guess.
func (p *pricer) search(value []int64, above int64, cells int) found {
	p.value, p.best, p.cells, p.less = value, above, cells, 0
	p.steps, p.top = append(p.steps[:0], step{-1, -1}), p.top[:0]
	p.sortByDensity()
	for _, list := range p.lists {
		p.put(list)
	}
	p.lists = make([][]label, len(p.in.Gap))
	p.lists[p.in.start()] = append(p.get(1), label{})
	for k := range p.in.Kinds {
		if value[k] <= 0 {
			continue
		}
		p.tail.from(p, k)
		p.prune()
		p.stage(k)
		if p.work > p.limit || p.ctx.Err() != nil {
			return found{p.best, p.patterns(), false}
		}
	}
	return found{p.best, p.patterns(), cells == 0}
}

// shortest gives the least length of a board that holds some worth, its end
// charged; never when none does.
func (p *pricer) shortest(value []int64, worth int64) (length int64, sure bool) {
	p.short = true
	f := p.search(value, worth-1, 0)
	p.short = false
	if p.less == 0 {
		return never, f.sure
	}
	return p.in.Room - p.less + 1, f.sure
}

// sortByDensity orders the kinds of some value by value a width.
func (p *pricer) sortByDensity() {
	p.dense = p.dense[:0]
	for k, v := range p.value {
		if v > 0 && p.need[k] > 0 {
			p.dense = append(p.dense, k)
		}
	}
	density := func(k int) float64 { return float64(p.value[k]) / float64(p.rel.width[k]) }
	slices.SortStableFunc(p.dense, func(a, b int) int { return cmp.Compare(density(b), density(a)) })
}

// A suffix bounds the value of what the kinds from some kind on can add.
type suffix struct {
	width, value []float64 // sums over the kinds, the densest first
	rate         []float64
	least        int64 // the least width of a kind
}

// from sets the suffix up for the kinds from k on.
func (t *suffix) from(p *pricer, k int) {
	t.width, t.value, t.rate = append(t.width[:0], 0), append(t.value[:0], 0), t.rate[:0]
	t.least = never
	w, v := 0.0, 0.0
	for _, j := range p.dense {
		if j < k {
			continue
		}
		t.least = min(t.least, p.rel.width[j])
		w += float64(p.rel.width[j]) * float64(p.need[j])
		v += float64(p.value[j]) * float64(p.need[j])
		t.width, t.value = append(t.width, w), append(t.value, v)
		t.rate = append(t.rate, float64(p.value[j])/float64(p.rel.width[j]))
	}
}

// bound gives the most value that parts of the suffix can have in room, were
// they divisible.
func (t *suffix) bound(room int64) float64 {
	if room < t.least {
		return 0
	}
	r := float64(room)
	lo, hi := 0, len(t.rate)
	for lo < hi {
		if mid := (lo + hi) / 2; t.width[mid+1] <= r {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if lo == len(t.rate) {
		return t.value[lo] * inflate
	}
	return (t.value[lo] + (r-t.width[lo])*t.rate[lo]) * inflate
}

// hopeful says whether a label that leaves by s may still grow into a pattern
// that beats the best.
func (p *pricer) hopeful(l label, s int) bool {
	room := p.rel.room - p.less - l.len - p.rel.out[s]
	return room >= p.tail.least && float64(l.val)+p.tail.bound(room) >= float64(p.best+1)
}

// prune drops the labels without hope.
func (p *pricer) prune() {
	for s, list := range p.lists {
		p.lists[s] = slices.DeleteFunc(list, func(l label) bool { return !p.hopeful(l, s) })
	}
}

// stage adds the parts of kind k, one at a time, to all labels.
func (p *pricer) stage(k int) {
	front := p.lists
	for n := 0; n < p.need[k]; n++ {
		next := p.extend(front, k)
		more := false
		for s := range next {
			if n > 0 {
				p.put(front[s])
			}
			p.lists[s], next[s] = p.merge(p.lists[s], next[s])
			more = more || len(next[s]) > 0
		}
		if !more {
			break
		}
		front = next
	}
	for s := range p.lists {
		p.lists[s] = p.thin(p.lists[s])
	}
}

// extend puts one part of kind k behind every label.
func (p *pricer) extend(front [][]label, k int) [][]label {
	next := make([][]label, len(front))
	kind := &p.in.Kinds[k]
	for s, list := range front {
		if len(list) == 0 {
			continue
		}
		for _, w := range kind.Ways {
			grown := p.grow(list, p.in.Gap[s][w.In]+kind.Length, w.Out, k)
			var kept []label
			next[w.Out], kept = p.merge(next[w.Out], grown)
			p.put(kept)
		}
	}
	return next
}

// grow lengthens the labels of a list by one part of kind k, noting what beats
// the best and keeping what has hope.
func (p *pricer) grow(list []label, by int64, out, k int) []label {
	grown := p.get(len(list))
	v, end := p.value[k], p.in.Room-p.less-p.in.End[out]
	for _, l := range list {
		g := label{l.len + by, l.val + v, int32(len(p.steps))}
		whole := g.len <= end && g.val > p.best
		if !whole && !p.hopeful(g, out) {
			continue
		}
		p.steps = append(p.steps, step{l.id, int32(k)})
		grown = append(grown, g)
		switch {
		case whole && p.short:
			end = g.len - 1
			p.less = p.in.Room - p.in.End[out] - end
		case whole:
			p.best = g.val
			p.top = append(p.top, g.id)
		}
	}
	p.work += int64(len(list))
	return grown
}

// get gives an empty list with room for n labels.
func (p *pricer) get(n int) []label {
	if last := len(p.spare) - 1; last >= 0 {
		list := p.spare[last]
		p.spare = p.spare[:last]
		if cap(list) >= n {
			return list[:0]
		}
	}
	return make([]label, 0, n+n/2)
}

// put takes a list back that nothing refers to.
func (p *pricer) put(list []label) {
	if cap(list) > 0 {
		p.spare = append(p.spare, list)
	}
}

// merge joins two lists sorted by length in which longer is always worth more,
// and gives with the join those of b that are in it. It uses a and b up.
func (p *pricer) merge(a, b []label) (all, kept []label) {
	if len(b) == 0 {
		p.put(b)
		return a, nil
	}
	all, kept = p.get(len(a)+len(b)), p.get(len(b))
	worth := int64(-1)
	for i, j := 0, 0; i < len(a) || j < len(b); {
		if j == len(b) || i < len(a) && (a[i].len < b[j].len || a[i].len == b[j].len && a[i].val >= b[j].val) {
			if a[i].val > worth {
				worth = a[i].val
				all = append(all, a[i])
			}
			i++
			continue
		}
		if b[j].val > worth {
			worth = b[j].val
			all, kept = append(all, b[j]), append(kept, b[j])
		}
		j++
	}
	p.put(a)
	p.put(b)
	return all, kept
}

// thin keeps of a list the best label of each of so many stretches of the
// board, when the search is a guess.
func (p *pricer) thin(list []label) []label {
	if p.cells == 0 || len(list) <= p.cells {
		return list
	}
	rate := float64(p.best) / float64(p.in.Room)
	worth := func(l label) float64 { return float64(l.val) - rate*float64(l.len) }
	cell := p.in.Room/int64(p.cells) + 1
	kept := list[:1]
	for _, l := range list[1:] {
		last := &kept[len(kept)-1]
		if l.len/cell != last.len/cell {
			kept = append(kept, l)
		} else if worth(l) > worth(*last) {
			*last = l
		}
	}
	return kept
}

// most is how many patterns one search hands back: a few more than the best
// save rounds of column generation.
const most = 6

// patterns gives the patterns noted, best first.
func (p *pricer) patterns() []Pattern {
	var out []Pattern
	for i := len(p.top) - 1; i >= 0 && len(out) < most; i-- {
		out = append(out, p.walk(p.top[i]))
	}
	return out
}

// walk gives the pattern that a step ends.
func (p *pricer) walk(id int32) Pattern {
	var pat Pattern
	for s := p.steps[id]; s.kind >= 0; s = p.steps[s.before] {
		if n := len(pat); n > 0 && pat[n-1].Kind == int(s.kind) {
			pat[n-1].N++
		} else {
			pat = append(pat, Item{int(s.kind), 1})
		}
	}
	slices.Reverse(pat)
	return pat
}
