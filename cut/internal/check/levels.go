package check

import (
	"fmt"
	"math"
	"slices"
)

// Effort is how many steps the proofs of a plan may take to follow: seconds.
const Effort = 40_000_000

// Followed says of which levels the proof was followed to its end.
type Followed struct{ Cost, Bought, Offcut bool }

// offcutSlip is by how much an offcut may pass its bound, in nanometres.
const offcutSlip = 2 * slip

// Levels gives what is wrong with what a plan says of itself, and which of its
// proofs could be followed.
func Levels(y Yard, parts []Part, claim Claim, effort int) (faults []Fault, done Followed) {
	j := &judge{y: y, parts: parts, effort: effort, seen: map[string]ruling{}}
	if area := y.areaBound(parts); area != claim.AreaBound {
		j.wrong("by length alone it is %d boards, not %d", area, claim.AreaBound)
	}
	j.values(claim)
	if len(j.faults) > 0 {
		return j.faults, done
	}
	all := budget{math.MaxInt64, math.MaxInt64}
	done.Cost = j.follow("cost", claim.Cost, budget{claim.Cost.Bound - 1, all.bought})
	done.Bought = j.follow("boards", claim.Bought, budget{claim.Cost.Value, claim.Bought.Bound - 1})
	done.Offcut = j.offcut(claim.Offcut, budget{claim.Cost.Value, claim.Bought.Value})
	return j.faults, done
}

// areaBound gives the boards the parts fill by their centre lines, were all the
// longest.
func (y Yard) areaBound(parts []Part) int {
	total, room := 0.0, 0.0
	for _, p := range parts {
		q := drawn(y.Rules, p)
		total += float64(p.Count) * math.Floor((q.br-q.bl+q.tr-q.tl)/2+hair)
	}
	for _, t := range y.stretches {
		room = max(room, t.Board-t.TrimFirst-t.TrimFar)
	}
	if total == 0 {
		return 0
	}
	return int(math.Ceil(total / room))
}

// A judge follows proofs.
type judge struct {
	y      Yard
	parts  []Part
	effort int
	faults []Fault
	seen   map[string]ruling // that were looked over
}

func (j *judge) wrong(format string, args ...any) {
	j.faults = append(j.faults, Fault{-1, -1, fmt.Sprintf(format, args...)})
}

// values checks what the plan comes to against its boards.
func (j *judge) values(claim Claim) {
	cost, bought, offcut := int64(0), int64(0), 0.0
	for _, b := range claim.Boards {
		t := j.y.stretches[j.y.find(b)]
		cost, bought = cost+t.price, bought+t.bought
		if t.bought > 0 && b.Offcut >= j.y.Keep {
			offcut = max(offcut, b.Offcut)
		}
	}
	for _, c := range []struct {
		name  string
		level Level
		is    int64
		sign  int64
	}{{"cost", claim.Cost, cost, 1}, {"number of boards", claim.Bought, bought, 1}, {"longest offcut", claim.Offcut, int64(offcut), -1}} {
		if c.level.Value != c.is {
			j.wrong("the %s is %d, not %d", c.name, c.is, c.level.Value)
		}
		if c.sign*(c.level.Value-c.level.Bound) < 0 {
			j.wrong("the %s of %d betters its bound %d", c.name, c.level.Value, c.level.Bound)
		}
	}
}

// A budget is what boards may cost and how many may be bought.
type budget struct{ cost, bought int64 }

// A ruling is one that was looked over: no board is worth more than its z.
type ruling struct {
	Ruling
	total   int64
	benches []*bench // by stretch
}

// follow says whether the proof of a level shows that no boards within a budget
// hold all parts.
func (j *judge) follow(name string, l Level, b budget) bool {
	if l.Bound <= 0 {
		return true // it says nothing, truly
	}
	rulings, ok := j.rulings(l.Rulings)
	if !ok {
		return false
	}
	c := j.counter(rulings, func([]int) bool { return true })
	known := c.from(0, b, c.lacking())
	if known && c.found != nil {
		j.wrong("%s: %v boards of the stocks may hold all parts", name, c.found)
	}
	return known && c.found == nil
}

// rulings looks rulings over, each once; one that cannot be followed is an end.
func (j *judge) rulings(list []Ruling) (out []ruling, ok bool) {
	for _, r := range list {
		key := fmt.Sprint(r)
		u, seen := j.seen[key]
		if !seen {
			if u, ok = j.ruling(r); !ok {
				return nil, false
			}
			j.seen[key] = u
		}
		out = append(out, u)
	}
	return out, true
}

// ruling looks a ruling over: it speaks of these parts and boards, and no board
// holds more than it says.
func (j *judge) ruling(r Ruling) (u ruling, ok bool) {
	if len(r.V) != len(j.parts) || len(r.Z) != len(j.y.stretches) || r.Counts != nil && len(r.Counts) != len(r.Z) {
		j.wrong("a ruling of %d parts and %d lengths of timber, there are %d and %d", len(r.V), len(r.Z), len(j.parts), len(j.y.stretches))
		return u, false
	}
	u.Ruling = r
	for i, p := range j.parts {
		if r.V[i] < 0 {
			j.wrong("a part of negative worth")
			return u, false
		}
		u.total += r.V[i] * int64(p.Count)
	}
	for k, t := range j.y.stretches {
		b := newBench(t.Stock, j.parts, r.V)
		b.effort = &j.effort
		u.benches = append(u.benches, b)
		over, known := b.exceeds(r.Z[k])
		if over {
			j.wrong("a board can hold more than the proof allows")
		}
		if over || !known {
			return u, false
		}
	}
	return u, j.covers(u)
}

// covers says whether what a ruling says of its counts is so.
func (j *judge) covers(r ruling) bool {
	if r.Counts == nil {
		return true
	}
	found, known := covered(r.benches, r.Counts, r.Z, r.total)
	if found {
		j.wrong("a plan of %v boards may exist", r.Counts)
	}
	return known && !found
}

// A counter looks for counts of boards within a budget that no ruling rules
// out and that satisfy wanted: it gives the first it finds.
type counter struct {
	j       *judge
	rulings []ruling
	counts  []int
	limits  []int
	wanted  func(counts []int) bool
	found   []int
}

func (j *judge) counter(rulings []ruling, wanted func([]int) bool) *counter {
	c := &counter{j: j, rulings: rulings, wanted: wanted, counts: make([]int, len(j.y.stretches))}
	all := 0
	for _, p := range j.parts {
		all += p.Count
	}
	for _, t := range j.y.stretches {
		if t.limit == 0 || t.limit > all {
			t.limit = all
		}
		c.limits = append(c.limits, t.limit)
	}
	return c
}

// lacking gives the worth that no board holds yet, by ruling.
func (c *counter) lacking() []int64 {
	var out []int64
	for _, r := range c.rulings {
		out = append(out, r.total)
	}
	return out
}

// from tries counts of the stretches from k on; rest is what each ruling lacks.
// A stretch without price or purchase is taken whole: more boards only help.
func (c *counter) from(k int, b budget, rest []int64) bool {
	if c.j.effort -= len(rest) + 1; c.j.effort < 0 {
		return false
	}
	if b.cost < 0 || b.bought < 0 || c.hopeless(k, b, rest) {
		return true
	}
	if k == len(c.counts) {
		if !c.forbidden() && c.wanted(c.counts) {
			c.found = slices.Clone(c.counts)
		}
		return true
	}
	t := c.j.y.stretches[k]
	least := 0
	if t.price == 0 && t.bought == 0 {
		least = c.limits[k]
	}
	next := make([]int64, len(rest))
	for n := least; n <= c.limits[k] && c.found == nil; n++ {
		left := budget{b.cost - t.price*int64(n), b.bought - t.bought*int64(n)}
		if left.cost < 0 || left.bought < 0 {
			break
		}
		c.counts[k] = n
		for i, l := range rest {
			next[i] = l - min(l, times(n, c.rulings[i].Z[k]))
		}
		if !c.from(k+1, left, next) {
			return false
		}
	}
	c.counts[k] = 0
	return true
}

// times multiplies, and stops at the most there is.
func times(n int, z int64) int64 {
	if z > 0 && int64(n) > math.MaxInt64/2/z {
		return math.MaxInt64 / 2
	}
	return int64(n) * z
}

// hopeless says whether some ruling lacks more than the stretches from k on
// can give within the budget: by their number, by what they cost and by how
// many may be bought. A little is added for the rounding of float64.
func (c *counter) hopeless(k int, b budget, rest []int64) bool {
	for i, l := range rest {
		if l <= 0 || c.rulings[i].Counts != nil {
			continue
		}
		free, rate, own, best := 0.0, 0.0, 0.0, 0.0
		for s := k; s < len(c.counts); s++ {
			t, z := c.j.y.stretches[s], float64(c.rulings[i].Z[s])
			whole := z * float64(c.limits[s])
			if t.price > 0 {
				rate = max(rate, z/float64(t.price))
			} else {
				free += whole
			}
			if t.bought > 0 {
				best = max(best, z)
			} else {
				own += whole
			}
		}
		most := math.Min(free+rate*float64(b.cost), own+best*float64(b.bought))
		if most*(1+1e-9) < float64(l) {
			return true
		}
	}
	return false
}

// forbidden says whether a ruling rules the counts out.
func (c *counter) forbidden() bool {
	for _, r := range c.rulings {
		if r.Counts == nil {
			held := int64(0)
			for k, n := range c.counts {
				held += min(times(n, r.Z[k]), r.total)
			}
			if held < r.total {
				return true
			}
			continue
		}
		within := true
		for k, n := range c.counts {
			within = within && n <= r.Counts[k]
		}
		if within {
			return true
		}
	}
	return false
}

// offcut says whether the proof shows that within a budget no board bought
// leaves an offcut longer than the bound, the slip aside.
func (j *judge) offcut(l Level, b budget) bool {
	if len(l.Rulings) == 0 {
		return false
	}
	rulings, ok := j.rulings(l.Rulings)
	if !ok {
		return false
	}
	known := true
	over := func(counts []int) bool {
		for k, n := range counts {
			if n == 0 || j.y.stretches[k].bought == 0 {
				continue
			}
			leaves, sure := j.leaves(rulings, counts, k, max(float64(l.Bound), j.y.Keep-1))
			known = known && sure
			if leaves {
				return true
			}
		}
		return false
	}
	c := j.counter(rulings, over)
	known = c.from(0, b, c.lacking()) && known
	if known && c.found != nil {
		j.wrong("with %v boards of the stocks an offcut may be longer than %d nm", c.found, l.Bound)
	}
	return known && c.found == nil
}

// leaves says whether with boards of some counts one of stretch k may leave
// more than an offcut: whether by every ruling parts worth what the other boards
// do not hold go on what is left of it.
func (j *judge) leaves(rulings []ruling, counts []int, k int, offcut float64) (may, known bool) {
	for _, r := range rulings {
		if r.Counts != nil {
			continue
		}
		want := r.total
		for i, n := range counts {
			if i == k {
				n--
			}
			want -= min(want, times(n, r.Z[i]))
		}
		if want <= 0 {
			continue
		}
		s := j.y.stretches[k].Stock
		s.TrimFar += offcut + offcutSlip
		s.Hold = 0
		b := newBench(s, j.parts, r.V)
		b.effort = &j.effort
		for i := range b.feet { // the last cut is made too
			b.feet[i].tail += least(b.feet[i].kerf)
		}
		over, known := b.exceeds(want - 1)
		if !known {
			return false, false
		}
		if !over {
			return false, true
		}
	}
	return true, true
}
