package price

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// bruteForce tries every number of every pack up to what covers the need alone.
func bruteForce(need int64, sizes, costs []int64) weight {
	best := weight{1 << 60, 0, 0}
	var try func(i int, w weight)
	try = func(i int, w weight) {
		if w.amount >= need {
			if w.less(best) {
				best = w
			}
			return
		}
		if i == len(sizes) {
			return
		}
		for n := int64(0); ; n++ {
			try(i+1, weight{w.cost + n*costs[i], w.packs + n, w.amount + n*sizes[i]})
			if w.amount+n*sizes[i] >= need {
				return
			}
		}
	}
	try(0, weight{})
	return best
}

func weigh(counts, sizes, costs []int64) (w weight) {
	for i, n := range counts {
		w = w.add(weight{n * costs[i], n, n * sizes[i]})
	}
	return w
}

func TestCoverAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds := rapid.IntRange(1, 4).Draw(t, "kinds")
		sizes := rapid.SliceOfN(rapid.Int64Range(1, 30), kinds, kinds).Draw(t, "sizes")
		costs := rapid.SliceOfN(rapid.Int64Range(0, 20), kinds, kinds).Draw(t, "costs")
		need := rapid.Int64Range(1, 60).Draw(t, "need")
		counts := cover(need, sizes, costs)
		got, want := weigh(counts, sizes, costs), bruteForce(need, sizes, costs)
		if slices.Min(counts) < 0 || got.amount < need {
			t.Fatalf("%v of %v do not hold %d", counts, sizes, need)
		}
		// The amount is weighed in units of the greatest common divisor, which orders
		// sums of sizes alike.
		if got != want {
			t.Fatalf("%v of %v at %v for %d: %+v, best %+v", counts, sizes, costs, need, got, want)
		}
	})
}

func TestCover(t *testing.T) {
	for _, c := range []struct {
		name         string
		need         int64
		sizes, costs []int64
		want         []int64
	}{
		{"nothing", 0, []int64{8, 16}, []int64{5, 9}, []int64{0, 0}},
		{"no packs", 5, nil, nil, nil},
		{"the large one is cheaper than two small", 9, []int64{8, 16}, []int64{5, 9}, []int64{0, 1}},
		{"two small are cheaper than a large", 9, []int64{8, 16}, []int64{5, 11}, []int64{2, 0}},
		{"a mixture", 24, []int64{8, 16}, []int64{5, 9}, []int64{1, 1}},
		{"more than needed, for less money", 3, []int64{1, 10}, []int64{4, 9}, []int64{0, 1}},
		{"the same money: fewer packs", 20, []int64{10, 20}, []int64{5, 10}, []int64{0, 1}},
		{"the same money and packs: less over", 5, []int64{9, 6}, []int64{4, 4}, []int64{0, 1}},
		{"all the same: the first", 5, []int64{6, 6}, []int64{4, 4}, []int64{1, 0}},
		{"free packs", 5, []int64{2, 9}, []int64{0, 1}, []int64{3, 0}},
	} {
		if got := cover(c.need, c.sizes, c.costs); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// What is beyond mostExact is bought in bulk: it still holds the need, and costs
// no more than the bulk pack alone would.
func TestCoverOfAbsurdNeeds(t *testing.T) {
	sizes, costs := []int64{237, 473, 3785}, []int64{549, 899, 5499}
	for _, need := range []int64{mostExact, mostExact + 1, 10*mostExact + 7, 1 << 50} {
		w := weigh(cover(need, sizes, costs), sizes, costs)
		if alone := (need + 3784) / 3785 * 5499; w.amount < need || w.cost > alone {
			t.Errorf("%d: %+v, the gallons alone %d", need, w, alone)
		}
	}
}

// A price near the greatest number does not wrap round into a bargain.
func TestCoverOfAbsurdPrices(t *testing.T) {
	if got := cover(4, []int64{2, 4}, []int64{1 << 62, 5}); got[1] != 1 {
		t.Error(got)
	}
}

func BenchmarkCover(b *testing.B) {
	sizes, costs := []int64{237, 473, 946, 3785}, []int64{549, 899, 1699, 5499}
	for b.Loop() {
		cover(6000, sizes, costs)
	}
}
