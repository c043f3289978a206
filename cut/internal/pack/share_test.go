package pack

import (
	"math/rand"
	"slices"
	"testing"
)

// some gives random counts of boards within the limits.
func some(r *rand.Rand, supplies []Supply) []int {
	out := make([]int, len(supplies))
	for k, u := range supplies {
		out[k] = r.Intn(min(u.Limit, 4) + 1)
	}
	return out
}

// limited gives supplies with as many boards as counted.
func limited(supplies []Supply, counts []int) []Supply {
	out := slices.Clone(supplies)
	for k, n := range counts {
		out[k].Limit = n
	}
	return out
}

// sufficient says by brute force whether boards of some counts hold all parts.
func sufficient(supplies []Supply, counts []int) bool {
	return lightest(limited(supplies, counts)) < 1<<60
}

// ready gives a sharer with its first rulings.
func ready(supplies []Supply) *sharer {
	s := newSharer(bg, supplies, budget)
	s.offer(s.greedy(s.need, s.limits()))
	s.root()
	return s
}

// Boards that hold all parts are never ruled out, and those that do not are, or
// no plan comes of them: whichever of the steps is asked.
func TestStepsAgainstCounts(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	said := map[string]int{}
	for range 250 {
		supplies := heap(r, 2+r.Intn(2), 5)
		counts := some(r, supplies)
		s := ready(supplies)
		can := sufficient(supplies, counts)
		weigh := func(plan []Cut) (w int64) {
			for _, c := range plan {
				w += int64(c.Boards) * supplies[c.Supply].Weight
			}
			return w
		}
		for name, plan := range map[string][]Cut{
			"greedy": s.greedy(s.need, counts), "dive": s.dive(counts, dives[0]), "dive aside": s.dive(counts, dives[5]),
		} {
			if plan != nil {
				right(t, limited(supplies, counts), plan, weigh(plan))
				said[name]++
			}
			if plan != nil && !can {
				t.Fatalf("%s: a plan of %v, which cannot be", name, counts)
			}
		}
		if u := s.relaxed(counts); u != nil {
			soundRuling(t, supplies, *u)
			said["ruled out"]++
			if can || !u.against(s.need, counts) {
				t.Fatalf("%v are ruled out by %+v, can be %v", counts, u, can)
			}
		}
		plan, u := s.cover(counts)
		switch {
		case plan != nil:
			right(t, limited(supplies, counts), plan, weigh(plan))
			said["covered"]++
		case u != nil:
			said["not covered"]++
			if !slices.Equal(u.Counts, counts) {
				t.Errorf("%v are ruled out as %v", counts, u.Counts)
			}
		}
		if (plan != nil) != can || (u != nil) == can {
			t.Fatalf("%v: cover %v, ruling %v, can be %v", counts, plan, u, can)
		}
		if plan, u := s.try(counts); (plan != nil) != can || (u != nil) == can {
			t.Fatalf("%v: tried %v, ruling %v, can be %v", counts, plan, u, can)
		}
	}
	t.Logf("%v", said)
	for _, name := range []string{"greedy", "dive", "dive aside", "ruled out", "covered", "not covered"} {
		if said[name] < 10 {
			t.Errorf("%s: said %d times", name, said[name])
		}
	}
}

// The floor is no more than the least weight.
func TestFloor(t *testing.T) {
	r := rand.New(rand.NewSource(32))
	above := 0
	for range 150 {
		supplies := heap(r, 1+r.Intn(3), 3)
		s := ready(supplies)
		f, least := s.floor(), lightest(supplies)
		if f > least {
			t.Fatalf("floor %d, least %d", f, least)
		}
		if f > 0 {
			above++
		}
	}
	if above < 75 {
		t.Errorf("%d floors of 150 say something", above)
	}
}

// Rulings from any prices are sound: here prices that no program gave.
func TestAnyPricesRule(t *testing.T) {
	r := rand.New(rand.NewSource(33))
	for range 150 {
		supplies := heap(r, 3, 3)
		s := newSharer(bg, supplies, budget)
		p := s.program(s.need, s.limits(), make([]float64, len(supplies)), 1)
		for k := range p.price {
			p.price[k] = r.NormFloat64()
		}
		u := p.ruling()
		if u == nil {
			t.Fatal("no ruling")
		}
		soundRuling(t, supplies, *u)
		for range 5 {
			if counts := some(r, supplies); u.against(s.need, counts) && sufficient(supplies, counts) {
				t.Fatalf("%v are ruled out by %+v, and hold all parts", counts, u)
			}
		}
	}
}

// What boards may lose is added up without overflow.
func TestSlack(t *testing.T) {
	for _, c := range []struct {
		most   []int64
		counts []int
		want   int64
	}{
		{[]int64{10, 7}, []int{2, 1}, 27 - 12}, {[]int64{10, 7}, []int{0, 1}, 7 - 12}, {[]int64{0, 0}, []int{9, 9}, -12},
		{[]int64{1 << 52, 1}, []int{200_000, 1}, never}, {[]int64{1 << 60, 1 << 60}, []int{1, 1}, 1<<61 - 12},
	} {
		u := Ruling{Value: []int64{3, 2}, Most: c.most}
		if got := u.slack([]int{2, 3}, c.counts); got != c.want {
			t.Errorf("%+v: %d", c, got)
		}
	}
}

// The ruling that leaves least to lose is taken for a cover.
func TestTightest(t *testing.T) {
	s := &sharer{need: []int{4}, rulings: []Ruling{
		{Value: []int64{5}, Most: []int64{12}}, {Value: []int64{5}, Most: []int64{10}}, {Value: []int64{1}, Most: []int64{9}}}}
	if got := s.tightest([]int{2}); got != &s.rulings[1] {
		t.Errorf("%+v", got)
	}
}

// A pattern is kept once for each supply, and known to a program with the
// parts still needed only, as often as they are.
func TestPool(t *testing.T) {
	in := plainInstance(10, Kind{Length: 2, Need: 4}, Kind{Length: 3, Need: 2})
	s := newSharer(bg, []Supply{{Plan: in, Bound: in, Limit: 3}, {Plan: in, Bound: in, Limit: 3}}, budget)
	s.keep(0, Pattern{{0, 2}, {1, 2}})
	s.keep(0, Pattern{{0, 2}, {1, 2}})
	s.keep(1, Pattern{{0, 2}, {1, 2}})
	s.keep(0, Pattern{{0, 2}})
	if len(s.pool) != 3 {
		t.Errorf("pool %v", s.pool)
	}
	p := s.program([]int{1, 0}, []int{1, 0}, []float64{1, 1}, 9)
	if len(p.own) != 2 || p.own[1].Supply != 0 || !slices.Equal(p.own[1].Pattern, Pattern{{0, 1}}) {
		t.Errorf("columns %v", p.own)
	}
	p = s.program([]int{4, 1}, []int{1, 1}, []float64{1, 1}, 9)
	if len(p.own) != 2+3 || len(p.cols) != len(p.own) || len(p.master.costs) != len(p.own) {
		t.Errorf("columns %v, %v", p.own, p.cols)
	}
}

// Boards of no weight are filled first, then those light for their length.
func TestGreedySeveral(t *testing.T) {
	short, long := plainInstance(5, Kind{Length: 2, Need: 7}), plainInstance(9, Kind{Length: 2, Need: 7})
	long.Kinds = short.Kinds
	s := newSharer(bg, []Supply{
		{Plan: long, Weight: 10, Limit: 9}, {Plan: short, Weight: 6, Limit: 9}, {Plan: short, Limit: 1}}, budget)
	plan := s.greedy(s.need, s.limits())
	right(t, s.supplies, plan, 10+6)
	if plan[0].Supply != 2 || plan[1].Supply != 0 || plan[2].Supply != 1 {
		t.Errorf("%v", plan)
	}
	if plan := s.greedy(s.need, []int{1, 0, 1}); plan != nil {
		t.Errorf("seven on boards for six: %v", plan)
	}
	if got := s.others(plan); !slices.Equal(got, []int{8, 8, 0}) {
		t.Errorf("left %v", got)
	}
}

// Of an answer, whole boards are fixed and large fractions, or one column that
// stands aside; what is fixed comes off the parts and the boards.
func TestFix(t *testing.T) {
	in := plainInstance(10, Kind{Length: 4, Need: 5}, Kind{Length: 6, Need: 5}, Kind{Length: 9, Need: 2})
	s := newSharer(bg, []Supply{{Plan: in, Bound: in, Weight: 1, Limit: 9}}, budget)
	for d, want := range map[dive][]int{{0.6, 0}: {0, 0, 0}, {0.6, 1}: {5, 5, 1}} {
		p := s.program(s.need, []int{7}, []float64{1}, 50)
		p.generate(false, true)
		need, boards := slices.Clone(s.need), []int{7}
		plan := p.fix(nil, need, boards, d)
		n := 0
		for _, c := range plan {
			n += c.Boards
		}
		if !slices.Equal(need, want) || boards[0] != 7-n || n != 7-want[0]-want[2] {
			t.Errorf("%+v: %v, left %v of %v", d, plan, need, boards)
		}
	}
}
