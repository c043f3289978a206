package stand

import (
	"math"

	"bowerwright/geom"
)

// A choice is a spot for units of one store. What a unit adds to each demand is
// counted as high as the topmost of the stack would be, so that a stack of any
// height may be counted by its units.
type choice struct {
	store, spot int
	place       int // index of its place: stores may share places
	most        int
	adds        []float64 // by demand, as a share of what is missing
}

// A packing is the search for the fewest units. Demands are scaled so that 1 of
// each is needed.
type packing struct {
	choices []choice
	owned   []int // by store
	room    []int // by place: units that may still be put there
	demands int
	best    [][]float64 // by choice and demand: the most that it or a later choice adds
	sum     []float64   // by choice: the most that it or a later one adds to all demands together
	work    int

	counts []int // of the walk
	have   []float64
	found  []int
	spare  float64
}

func newPacking(m Missing, stores []Store, lift float64, work int) *packing {
	q := &packing{work: work, spare: math.Inf(-1)}
	var need []float64
	for _, e := range m.Edges {
		if e.Moment > 0 {
			need = append(need, e.Moment)
		}
	}
	if m.Slide > 0 {
		need = append(need, float64(m.Slide))
	}
	q.demands = len(need)
	places := map[geom.Point]int{}
	for i, s := range stores {
		q.owned = append(q.owned, s.Unit.Owned)
		for j, spot := range s.Spots {
			place, known := places[spot.At]
			if !known {
				place = len(q.room)
				places[spot.At] = place
				q.room = append(q.room, 0)
			}
			q.room[place] = max(q.room[place], spot.Most)
			c := choice{store: i, spot: j, place: place, most: min(spot.Most, s.Unit.Owned)}
			up := Stack{Unit: s.Unit, Spot: spot}.up(lift, spot.Most-1)
			for k, adds := range m.adds(spot.At, up) {
				c.adds = append(c.adds, adds*float64(Weigh(s.Unit.Mass))/need[k])
			}
			q.choices = append(q.choices, c)
		}
	}
	q.bound()
	return q
}

// adds is what a newton at a place gains for each demand.
func (m Missing) adds(at geom.Point, up float64) []float64 {
	var out []float64
	for _, e := range m.Edges {
		if e.Moment > 0 {
			out = append(out, m.gain(e.edge, at, up))
		}
	}
	if m.Slide > 0 {
		out = append(out, m.grip())
	}
	return out
}

// bound prepares what the rest of the choices can add at the most.
func (q *packing) bound() {
	n := len(q.choices)
	q.best, q.sum = make([][]float64, n+1), make([]float64, n+1)
	q.best[n] = make([]float64, q.demands)
	for i := n - 1; i >= 0; i-- {
		q.best[i] = make([]float64, q.demands)
		total := 0.0
		for k, a := range q.choices[i].adds {
			q.best[i][k] = math.Max(q.best[i+1][k], a)
			total += a
		}
		q.sum[i] = math.Max(q.sum[i+1], total)
	}
}

// enough is how near to 1 a demand must come: the rounding of sums of some
// hundred terms.
const enough = 1 - 1e-9

// solve gives the counts of the plan, whether it is enough, and whether fewer
// were ruled out. First a plan that
// takes the most helpful unit each time, as an upper bound; then, from the
// fewest units that the bounds allow upwards, every plan of that many.
func (q *packing) solve() (counts []int, met, fewest bool) {
	counts, met = q.greedy()
	top := 0
	for _, n := range q.owned {
		top += n
	}
	if met {
		top = total(counts)
	}
	for n := q.fewest(top); n <= top && q.work > 0; n++ {
		q.counts, q.have = make([]int, len(q.choices)), make([]float64, q.demands)
		q.walk(0, n)
		if q.found != nil {
			return q.found, true, true
		}
	}
	return counts, met, q.work > 0
}

func total(counts []int) int {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	return sum
}

// fewest units that could do, by each demand alone and by their sum.
func (q *packing) fewest(top int) int {
	have := make([]float64, q.demands)
	for n := 1; n < top; n++ {
		if q.mayReach(have, 0, n) {
			return n
		}
	}
	return top
}

// mayReach says whether so many more units from a choice on could be enough.
func (q *packing) mayReach(have []float64, from, units int) bool {
	lacks := 0.0
	for k, h := range have {
		if h+float64(units)*q.best[from][k] < enough {
			return false
		}
		lacks += enough - h
	}
	return float64(units)*q.sum[from] >= lacks
}

// walk spreads so many units over the choices from one on.
func (q *packing) walk(from, units int) {
	if q.work--; q.work < 0 {
		return
	}
	if units == 0 {
		q.keep()
		return
	}
	if from == len(q.choices) || !q.mayReach(q.have, from, units) {
		return
	}
	c := q.choices[from]
	n := min(c.most, units, q.owned[c.store], q.room[c.place])
	q.put(from, n)
	for ; ; n-- {
		q.walk(from+1, units-n)
		if n == 0 {
			return
		}
		q.put(from, -1)
	}
}

func (q *packing) put(i, n int) {
	q.counts[i] += n
	q.owned[q.choices[i].store] -= n
	q.room[q.choices[i].place] -= n
	for k, a := range q.choices[i].adds {
		q.have[k] += float64(n) * a
	}
}

// keep takes a plan that is enough when it has more to spare than the last.
func (q *packing) keep() {
	spare := least(q.have)
	if spare >= enough && spare > q.spare*(1+sameRatio) {
		q.found, q.spare = append([]int(nil), q.counts...), spare
	}
}

func least(have []float64) float64 {
	low := math.Inf(1)
	for _, h := range have {
		low = math.Min(low, h)
	}
	return low
}

// greedy takes, unit by unit, the one that helps most with what is still
// missing.
func (q *packing) greedy() ([]int, bool) {
	q.counts, q.have = make([]int, len(q.choices)), make([]float64, q.demands)
	for least(q.have) < enough {
		at, help := -1, 0.0
		for i, c := range q.choices {
			if q.counts[i] < c.most && q.owned[c.store] > 0 && q.room[c.place] > 0 {
				if h := q.helps(c); h > help {
					at, help = i, h
				}
			}
		}
		if at < 0 {
			break
		}
		q.put(at, 1)
	}
	counts, met := q.counts, least(q.have) >= enough
	for i, n := range counts {
		q.owned[q.choices[i].store] += n
		q.room[q.choices[i].place] += n
	}
	return counts, met
}

// helps is how much a unit brings all demands nearer together.
func (q *packing) helps(c choice) float64 {
	sum := 0.0
	for k, a := range c.adds {
		was := math.Max(0, 1-q.have[k])
		sum += was - math.Max(0, 1-q.have[k]-a)
	}
	return sum
}
