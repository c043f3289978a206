package pack

import (
	"context"
	"math"
	"math/rand"
	"reflect"
	"slices"
	"testing"
)

// heap gives a random yard of the small instances, states and all: lengths cut
// off them for the shorter boards.
func heap(r *rand.Rand, kinds, need int) []Supply {
	in := random(r, kinds, need)
	all := sum(in.needs())
	var out []Supply
	for k := range 1 + r.Intn(3) {
		own := *in
		if k > 0 {
			own.Room -= int64(r.Intn(int(in.Room) / 2))
		}
		u := Supply{Plan: &own, Bound: &own, Weight: int64(r.Intn(30)), Limit: all}
		if k > 0 {
			u.Limit = 1 + r.Intn(3)
		}
		out = append(out, u)
	}
	return out
}

// lightest gives the least weight by brute force: for every counts left, the
// best of all patterns on all boards.
func lightest(supplies []Supply) int64 {
	type state struct {
		need   string
		boards string
	}
	memo := map[state]int64{}
	pats := make([][]Pattern, len(supplies))
	for k, u := range supplies {
		pats[k] = all(u.Plan)
	}
	limit := make([]int, len(supplies))
	for k, u := range supplies {
		limit[k] = u.Limit
	}
	var least func(need, boards []int) int64
	least = func(need, boards []int) int64 {
		if sum(need) == 0 {
			return 0
		}
		key := state{patternOf(need).key(), patternOf(boards).key()}
		if w, ok := memo[key]; ok {
			return w
		}
		best := int64(math.MaxInt64 / 2)
		for k, ps := range pats {
			if boards[k] == 0 {
				continue
			}
			boards[k]--
			for _, p := range ps {
				if !holds(need, p) || len(p) == 0 {
					continue
				}
				p.from(need, 1)
				best = min(best, supplies[k].Weight+least(need, boards))
				p.from(need, -1)
			}
			boards[k]++
		}
		memo[key] = best
		return best
	}
	return least(supplies[0].Plan.needs(), limit)
}

// right checks a plan over several lengths.
func right(t *testing.T, supplies []Supply, plan []Cut, weight int64) {
	t.Helper()
	got, boards := make([]int, len(supplies[0].Plan.Kinds)), make([]int, len(supplies))
	w := int64(0)
	for _, c := range plan {
		if !supplies[c.Supply].Plan.Fits(c.Pattern) {
			t.Errorf("%v does not fit board %d", c.Pattern, c.Supply)
		}
		c.Pattern.from(got, -c.Boards)
		boards[c.Supply] += c.Boards
		w += int64(c.Boards) * supplies[c.Supply].Weight
	}
	if !slices.Equal(got, supplies[0].Plan.needs()) {
		t.Errorf("cut %v, needed %v", got, supplies[0].Plan.needs())
	}
	for k, n := range boards {
		if n > supplies[k].Limit {
			t.Errorf("%d boards of %d", n, supplies[k].Limit)
		}
	}
	if w != weight {
		t.Errorf("it weighs %d, not %d", w, weight)
	}
}

func TestShareIsLightest(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	proved := 0
	const rounds = 150
	for range rounds {
		supplies := heap(r, 1+r.Intn(3), 3)
		want := lightest(supplies)
		got := Share(bg, supplies, budget)
		right(t, supplies, got.Plan, got.Weight)
		if got.Weight != want || got.Bound > want {
			t.Fatalf("%+v: %d, bound %d; least %d", supplies, got.Weight, got.Bound, want)
		}
		if got.Bound == want {
			proved++
		}
		for _, u := range got.Rulings {
			soundRuling(t, supplies, u)
		}
	}
	if proved < rounds*9/10 {
		t.Errorf("%d of %d proved", proved, rounds)
	}
}

// soundRuling checks that no pattern is worth more than a ruling says.
func soundRuling(t *testing.T, supplies []Supply, u Ruling) {
	t.Helper()
	for k, s := range supplies {
		for _, p := range all(s.Bound) {
			if v := p.of(u.Value); v > u.Most[k] {
				t.Fatalf("%v is worth %d on board %d, at most %d", p, v, k, u.Most[k])
			}
		}
	}
}

// The counter finds the lightest counts that no ruling forbids, against every
// counts there are.
func TestCounter(t *testing.T) {
	r := rand.New(rand.NewSource(22))
	for range 300 {
		s := &sharer{ctx: bg, need: []int{1 + r.Intn(20), r.Intn(20)}, limit: budget}
		for range 1 + r.Intn(3) {
			s.supplies = append(s.supplies, Supply{Weight: int64(r.Intn(12)), Limit: r.Intn(9)})
		}
		for range 1 + r.Intn(3) {
			u := Ruling{Value: []int64{int64(r.Intn(5)), int64(r.Intn(5))}}
			for range s.supplies {
				u.Most = append(u.Most, int64(r.Intn(15)))
			}
			s.rulings = append(s.rulings, u)
		}
		if r.Intn(3) == 0 {
			u := s.rulings[0]
			for range s.supplies {
				u.Counts = append(u.Counts, r.Intn(6))
			}
			s.rulings = append(s.rulings, u)
		}
		want, each := int64(never), 0
		everyCounts(s.supplies, func(n []int) {
			w := int64(0)
			for k := range n {
				w += int64(n[k]) * s.supplies[k].Weight
			}
			for i := range s.rulings {
				u := &s.rulings[i]
				if u.against(s.need, n) || u.Counts != nil && within(n, u.Counts) {
					return
				}
			}
			if w < want {
				want, each = w, 0
			}
			if w == want {
				each++
			}
		})
		got, weight, sure := s.least(never)
		if !sure || (got == nil) != (want == never) || got != nil && weight != want {
			t.Fatalf("%+v: %v at %d, sure %v; want %d", s, got, weight, sure, want)
		}
		if got == nil {
			continue
		}
		if list, sure := s.each(want); sure && len(list) != each {
			t.Fatalf("%+v: %d of weight %d, want %d", s, len(list), want, each)
		}
		if got, _, _ := s.least(want); got != nil {
			t.Fatalf("%v under the least", got)
		}
	}
}

// everyCounts calls with all counts of boards; those without weight are all
// taken.
func everyCounts(supplies []Supply, call func([]int)) {
	n := make([]int, len(supplies))
	var from func(k int)
	from = func(k int) {
		if k == len(n) {
			call(n)
			return
		}
		low := 0
		if supplies[k].Weight == 0 {
			low = supplies[k].Limit
		}
		for n[k] = low; n[k] <= supplies[k].Limit; n[k]++ {
			from(k + 1)
		}
	}
	from(0)
}

func within(a, b []int) bool {
	for k := range a {
		if a[k] > b[k] {
			return false
		}
	}
	return true
}

func TestLack(t *testing.T) {
	for _, c := range []struct {
		worth, most int64
		n           int
		want        int64
	}{{10, 3, 2, 4}, {10, 3, 4, 0}, {10, 0, 5, 10}, {0, 3, 1, 0}, {-1, 3, 0, 0}, {1 << 60, 1 << 51, 1 << 18, 0}, {7, 7, 1, 0}} {
		if got := lack(c.worth, c.most, c.n); got != c.want {
			t.Errorf("%+v: %d", c, got)
		}
	}
}

// The shortest board of some worth, against all patterns.
func TestShortest(t *testing.T) {
	r := rand.New(rand.NewSource(23))
	for range 300 {
		in := random(r, 3, 3)
		value := loose(r, 3)
		want := 1 + r.Int63n(1+2*value[0]+value[1])
		least := int64(never)
		for _, p := range all(in) {
			if p.of(value) >= want {
				least = min(least, in.Used(p))
			}
		}
		if got, sure := newPricer(bg, in).shortest(value, want); !sure || got != least {
			t.Fatalf("%+v, worth %d: %d, want %d", in, want, got, least)
		}
	}
}

// A pricer that looked for the shortest finds the best again.
func TestShortestLeavesNothing(t *testing.T) {
	in := perfect()
	p := newPricer(bg, in)
	value := lengths(in).Value
	before := p.search(value, 0, 0)
	p.shortest(value, before.value/2)
	if after := p.search(value, 0, 0); !reflect.DeepEqual(before, after) {
		t.Errorf("%+v, then %+v", before, after)
	}
}

// Boards that cannot hold the parts are called short, and a spent budget gives
// no false bound.
func TestShareShort(t *testing.T) {
	in := plainInstance(10, Kind{Length: 6, Need: 3}, Kind{Length: 4, Need: 1})
	u := []Supply{{Plan: in, Bound: in, Weight: 1, Limit: 2}}
	if r := Share(bg, u, budget); !r.None || !r.Short {
		t.Errorf("%+v", r)
	}
	u[0].Limit = 3
	if r := Share(bg, u, budget); r.None || r.Weight != 3 || r.Bound != 3 {
		t.Errorf("%+v", r)
	}
	ctx, cancel := context.WithCancel(bg)
	cancel()
	if r := Share(ctx, u, budget); r.None || r.Bound > 3 || !r.CutShort {
		t.Errorf("cancelled: %+v", r)
	}
	for work := range int64(60) {
		if r := Share(bg, u, work); r.Bound > 3 || !r.None && r.Weight < 3 || r.Short {
			t.Errorf("work %d: %+v", work, r)
		}
	}
}

// A linear program with caps: three boards of 10 hold all but one part of four
// of 6 and two of 4, whichever is left out.
func TestCappedProgram(t *testing.T) {
	in := plainInstance(10, Kind{Length: 4, Need: 2}, Kind{Length: 6, Need: 4})
	s := newSharer(bg, []Supply{{Plan: in, Bound: in, Weight: 1, Limit: 3}}, budget)
	s.rulings = []Ruling{s.lengths()}
	p := s.program(s.need, []int{3}, []float64{0}, 1)
	p.generate(true, true)
	if u := p.unmet(); math.Abs(u-1) > 1e-3 {
		t.Errorf("%g parts are unmet", u)
	}
	if u := p.ruling(); u == nil || !u.against(s.need, []int{3}) || u.against(s.need, []int{4}) {
		t.Errorf("ruling %+v", u)
	}
	if m := p.missed(); m > drift {
		t.Errorf("the basis misses the counts by %g", m)
	}
	before := slices.Clone(p.price)
	p.refactor()
	for k, y := range before {
		if math.Abs(p.price[k]-y) > 1e-9 {
			t.Errorf("price %g, worked out anew %g", y, p.price[k])
		}
	}
}

func TestSameSharingTwice(t *testing.T) {
	for seed := range int64(20) {
		a := Share(bg, yardOf(rand.New(rand.NewSource(seed)), 2), budget)
		b := Share(bg, yardOf(rand.New(rand.NewSource(seed)), 2), budget)
		if !reflect.DeepEqual(a, b) {
			t.Fatalf("%+v\n%+v", a, b)
		}
	}
}

// The shop instances, as timed: aim a median under 2 ms and none over 50.
func BenchmarkShop72(b *testing.B) {
	var all []shopInstance
	for _, line := range lines(b, "shop72", "", 1) {
		all = append(all, parseShop(b, line))
	}
	for _, c := range all {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if r := Share(bg, c.supplies, budget); r.Weight != c.least || r.Bound != c.least {
					b.Fatalf("%d, bound %d; least %d", r.Weight, r.Bound, c.least)
				}
			}
		})
	}
}
