package price

import "math"

// mostExact is how many units of the greatest common measure of the packs are
// covered exactly: far over any job's need (262 l of paint by the ml, 2.6 km of
// tape by the cm), and little enough to tabulate. What a need has beyond it is
// bought in the pack that is cheapest for its size.
const mostExact = 1 << 18

// A weight is what is kept small, in this order.
type weight struct{ cost, packs, amount int64 }

func (w weight) less(v weight) bool {
	if w.cost != v.cost {
		return w.cost < v.cost
	}
	if w.packs != v.packs {
		return w.packs < v.packs
	}
	return w.amount < v.amount
}

func (w weight) add(v weight) weight {
	return weight{sum(w.cost, v.cost), sum(w.packs, v.packs), sum(w.amount, v.amount)}
}

// sum adds numbers that are not negative, and stops at the greatest.
func sum(a, b int64) int64 {
	if a > math.MaxInt64-b {
		return math.MaxInt64
	}
	return a + b
}

// cover finds how many packs of each size to buy so that they hold need: the
// least cost, then the fewest packs, then the least amount, then the pack that
// stands first. Sizes are over 0, costs 0 or more. It tabulates the best for
// every need from 1 up (the unbounded covering knapsack), in units of the
// sizes' greatest common divisor.
func cover(need int64, sizes, costs []int64) []int64 {
	counts := make([]int64, len(sizes))
	if need <= 0 || len(sizes) == 0 {
		return counts
	}
	unit := sizes[0]
	for _, s := range sizes {
		unit = gcd(unit, s)
	}
	need = (need-1)/unit + 1
	packs := make([]weight, len(sizes))
	for i, s := range sizes {
		packs[i] = weight{costs[i], 1, s / unit}
	}
	if need > mostExact {
		best := cheapestForItsSize(packs)
		counts[best] = (need - mostExact + packs[best].amount - 1) / packs[best].amount
		need -= counts[best] * packs[best].amount
	}
	for i, n := range exactly(need, packs) {
		counts[i] += n
	}
	return counts
}

// exactly tabulates best covers of 1 to need and walks back from the last.
func exactly(need int64, packs []weight) []int64 {
	counts := make([]int64, len(packs))
	if need <= 0 {
		return counts
	}
	best := make([]weight, need+1)
	with := make([]int32, need+1)
	for n := int64(1); n <= need; n++ {
		for i, p := range packs {
			w := best[max(0, n-p.amount)].add(p)
			if i == 0 || w.less(best[n]) {
				best[n], with[n] = w, int32(i)
			}
		}
	}
	for n := need; n > 0; n -= packs[with[n]].amount {
		counts[with[n]]++
	}
	return counts
}

// cheapestForItsSize compares cost / amount in floats: it only says where the
// bulk of an absurd need is bought.
func cheapestForItsSize(packs []weight) int {
	best := 0
	for i, p := range packs {
		q := packs[best]
		if float64(p.cost)*float64(q.amount) < float64(q.cost)*float64(p.amount) {
			best = i
		}
	}
	return best
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
