package pack

import (
	"cmp"
	"math"
	"slices"
)

// A counter looks for the least weight of boards that no ruling forbids. It
// counts supply by supply, those that weigh most for their worth first, so that
// the last one takes what is left; boards without weight are all taken.
type counter struct {
	s      *sharer
	order  []int       // supplies of some weight
	rate   [][]float64 // by ruling and place in order: least weight a worth from there on
	counts []int
	best   []int
	weight int64   // of best, or that which it must be under
	all    [][]int // every one, when they are asked for
	each   bool
	spread int  // boards that may still be of other supplies than the last
	met    bool // best weighs no more than is known to be least
	work   int64
	limit  int64
}

// mostCounted is the number of steps of one search for counts, far more than
// prices of a shop take.
const mostCounted = 5_000_000

// least gives the counts of least weight under some weight that no ruling
// forbids and that were not skipped, nil when there are none. Without sure it
// gave up.
func (s *sharer) least(under int64) (counts []int, weight int64, sure bool) {
	c := s.counter(under)
	for _, c.spread = range spreads {
		sure = c.from(0, 0, c.lacking())
		if c.met {
			break
		}
	}
	s.work += c.work
	return c.best, c.weight, sure
}

// spreads are how many boards may be of supplies that weigh much for their
// worth, search after search: light counts are mostly found with few, and then
// little is left to look at.
var spreads = []int{4, 32, math.MaxInt}

// floor gives a weight that no ruling lets boards stay under, were they
// divisible: what is known when nothing else is.
func (s *sharer) floor() int64 {
	c := s.counter(never)
	return int64(math.Ceil(min(c.atLeast(0, c.lacking()), float64(c.weight))))
}

// mostEach is the number of counts that are looked at one by one.
const mostEach = 64

// each gives all counts of a weight that no ruling forbids, when no lesser
// weight is left.
func (s *sharer) each(weight int64) (counts [][]int, sure bool) {
	c := s.counter(weight + 1)
	c.each, c.spread = true, math.MaxInt
	sure = c.from(0, 0, c.lacking())
	s.work += c.work
	return c.all, sure && len(c.all) < mostEach
}

// counter sets a counter up.
func (s *sharer) counter(under int64) *counter {
	c := &counter{s: s, counts: s.limits(), weight: under, limit: min(mostCounted, s.limit-s.work)}
	for k, u := range s.supplies {
		if u.Weight > 0 {
			c.order = append(c.order, k)
			c.counts[k] = 0
		}
	}
	first := s.rulings[0].Most
	dear := func(k int) float64 { return float64(s.supplies[k].Weight) / (float64(first[k]) + 1) }
	slices.SortStableFunc(c.order, func(a, b int) int { return cmp.Compare(dear(b), dear(a)) })
	c.rates()
	return c
}

// rates works out what a worth weighs at least.
func (c *counter) rates() {
	c.rate = make([][]float64, len(c.s.rulings))
	for j, r := range c.s.rulings {
		c.rate[j] = make([]float64, len(c.order)+1)
		c.rate[j][len(c.order)] = math.Inf(1)
		for i := len(c.order) - 1; i >= 0; i-- {
			k := c.order[i]
			c.rate[j][i] = min(c.rate[j][i+1], float64(c.s.supplies[k].Weight)/float64(r.Most[k]))
		}
	}
}

// lacking gives by ruling the worth that the boards without weight do not
// hold.
func (c *counter) lacking() []int64 {
	out := make([]int64, len(c.s.rulings))
	for j, r := range c.s.rulings {
		if r.Counts != nil {
			continue
		}
		out[j] = worth(r.Value, c.s.need)
		for k, n := range c.counts {
			out[j] = lack(out[j], r.Most[k], n)
		}
	}
	return out
}

// lack takes n boards off a worth, and stops at nothing, so that it never
// overflows.
func lack(worth, most int64, n int) int64 {
	if worth <= 0 || most > 0 && int64(n) > worth/most {
		return 0
	}
	return max(worth-most*int64(n), 0)
}

// from goes on at a place in the order; rest is what each ruling still lacks.
func (c *counter) from(i int, weight int64, rest []int64) bool {
	c.work += int64(len(rest)) + 1
	if c.work > c.limit {
		return false
	}
	if c.met {
		return true
	}
	if float64(weight)+c.atLeast(i, rest) >= float64(c.weight) {
		return true
	}
	if i == len(c.order) {
		if weight >= c.weight || !c.allowed() {
			return true
		}
		if c.each {
			c.all = append(c.all, slices.Clone(c.counts))
			return len(c.all) < mostEach
		}
		c.best, c.weight = slices.Clone(c.counts), weight
		c.met = weight <= c.s.bound && len(c.s.skipped) == 0
		return true
	}
	k := c.order[i]
	w, from, to := c.s.supplies[k].Weight, 0, c.s.supplies[k].Limit
	last := i == len(c.order)-1
	if last {
		from = c.enough(k, rest)
	} else {
		to = min(to, c.spread)
	}
	next := make([]int64, len(rest))
	for n := from; n <= to && weight+w*int64(n) < c.weight; n++ {
		c.counts[k] = n
		if !last {
			c.spread -= n
		}
		for j, l := range rest {
			next[j] = lack(l, c.s.rulings[j].Most[k], n)
		}
		sure := c.from(i+1, weight+w*int64(n), next)
		if !last {
			c.spread += n
		}
		if !sure {
			return false
		}
	}
	c.counts[k] = 0
	return true
}

// atLeast gives a weight that what is lacking takes at least, a little less
// for the rounding of float64.
func (c *counter) atLeast(i int, rest []int64) float64 {
	most := 0.0
	for j, l := range rest {
		if l > 0 {
			most = max(most, float64(l)*c.rate[j][i])
		}
	}
	return most * (1 - 1e-9)
}

// enough gives the boards of supply k that hold all that is lacking.
func (c *counter) enough(k int, rest []int64) int {
	n := int64(0)
	for j, l := range rest {
		m := c.s.rulings[j].Most[k]
		switch {
		case l > 0 && m <= 0:
			return c.s.supplies[k].Limit + 1
		case l > 0:
			n = max(n, (l+m-1)/m)
		}
	}
	return int(min(n, int64(c.s.supplies[k].Limit)+1))
}

// allowed says whether the counts are neither ruled out as such nor skipped.
func (c *counter) allowed() bool {
	within := func(counts []int) bool {
		for k, n := range c.counts {
			if n > counts[k] {
				return false
			}
		}
		return counts != nil
	}
	for _, r := range c.s.rulings {
		if r.Counts != nil && within(r.Counts) {
			return false
		}
	}
	return !slices.ContainsFunc(c.s.skipped, within)
}
