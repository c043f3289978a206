package pack

import (
	"math"
	"math/rand"
	"reflect"
	"slices"
	"testing"
)

// A greedy plan is a plan, of no fewer boards than the fewest.
func TestGreedy(t *testing.T) {
	r := rand.New(rand.NewSource(21))
	for range 200 {
		in := random(r, 1+r.Intn(4), 3)
		s := &solver{ctx: bg, in: in, need: in.needs()}
		plan := s.greedy(in, s.need)
		valid(t, in, plan, count(plan))
		if n := fewest(in); count(plan) < n {
			t.Fatalf("%d boards, fewest %d", count(plan), n)
		}
	}
}

// What is left after a part of the counts is planned keeps its kinds' numbers.
func TestGreedyOfTheRest(t *testing.T) {
	in := plainInstance(10, Kind{Length: 6, Need: 3}, Kind{Length: 5, Need: 2}, Kind{Length: 4, Need: 3})
	s := &solver{ctx: bg, in: in, need: in.needs()}
	want := []Use{{Pattern{{0, 1}, {2, 1}}, 1}}
	if got := s.greedyOf([]int{1, 0, 1}); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if got := s.greedyOf([]int{0, 0, 0}); got != nil {
		t.Errorf("of nothing: %v", got)
	}
}

// Nothing is cut in vain: a pattern is trimmed to what is needed, and cut no
// oftener.
func TestTake(t *testing.T) {
	s := &solver{}
	need := []int{5, 1}
	plan := s.take(nil, Pattern{{0, 2}, {1, 1}}, 9, need)
	want := []Use{{Pattern{{0, 2}, {1, 1}}, 1}, {Pattern{{0, 2}}, 1}, {Pattern{{0, 1}}, 1}}
	if !reflect.DeepEqual(plan, want) || need[0] != 0 || need[1] != 0 {
		t.Errorf("%v, left %v", plan, need)
	}
	need = []int{7}
	if plan := s.take(nil, Pattern{{0, 2}}, 2, need); !reflect.DeepEqual(plan, []Use{{Pattern{{0, 2}}, 2}}) || need[0] != 3 {
		t.Errorf("%v, left %v", plan, need)
	}
}

// Merging keeps what no shorter label outbids, sorted, and tells what came of
// the second list.
func TestMerge(t *testing.T) {
	r := rand.New(rand.NewSource(22))
	front := func() []label {
		var l []label
		n, v := int64(0), int64(0)
		for range r.Intn(8) {
			n, v = n+int64(1+r.Intn(4)), v+int64(1+r.Intn(4))
			l = append(l, label{n, v, int32(r.Intn(1000))})
		}
		return l
	}
	for range 500 {
		p := &pricer{}
		a, b := front(), front()
		both := append(slices.Clone(a), b...)
		inB := slices.Clone(b)
		all, kept := p.merge(a, b)
		for i, l := range all {
			if i > 0 && (l.len <= all[i-1].len || l.val <= all[i-1].val) {
				t.Fatalf("not sorted: %v", all)
			}
			if slices.ContainsFunc(both, func(o label) bool { return o.len <= l.len && o.val > l.val }) {
				t.Fatalf("%v is outbid in %v", l, both)
			}
		}
		for _, o := range both {
			if !slices.ContainsFunc(all, func(l label) bool { return l.len <= o.len && l.val >= o.val }) {
				t.Fatalf("%v is lost from %v", o, all)
			}
		}
		for _, k := range kept {
			if !slices.Contains(all, k) || !slices.Contains(inB, k) {
				t.Fatalf("%v kept of %v in %v", k, inB, all)
			}
		}
	}
}

// A guess keeps a label a stretch at most, and only labels it was given.
func TestThin(t *testing.T) {
	p := &pricer{in: plainInstance(100), cells: 5, best: 50}
	var list []label
	for i := range int64(60) {
		list = append(list, label{i, i, int32(i)})
	}
	whole := slices.Clone(list)
	kept := p.thin(list)
	if len(kept) > 6 || len(kept) < 2 {
		t.Errorf("%d kept", len(kept))
	}
	for _, l := range kept {
		if !slices.Contains(whole, l) {
			t.Errorf("%v came from nowhere", l)
		}
	}
	p.cells = 0
	if got := p.thin(whole); len(got) != 60 {
		t.Errorf("an exact search dropped %d labels", 60-len(got))
	}
}

// The bound on what a suffix can add is never under what it can.
func TestSuffixBounds(t *testing.T) {
	r := rand.New(rand.NewSource(23))
	for range 200 {
		in := random(r, 4, 3)
		p := newPricer(bg, in)
		p.value = loose(r, 4)
		p.sortByDensity()
		from := r.Intn(5)
		var tail suffix
		tail.from(p, from)
		for _, pat := range all(in) {
			room, worth := int64(0), int64(0)
			for _, it := range pat {
				if it.Kind >= from {
					room += p.rel.width[it.Kind] * int64(it.N)
					worth += p.value[it.Kind] * int64(it.N)
				}
			}
			if tail.bound(room) < float64(worth) {
				t.Fatalf("%v from %d: bound %g in %d, worth %d", pat, from, tail.bound(room), room, worth)
			}
		}
	}
}

// Multipliers are whole, in the proportion of the prices, 0 for what is free
// or not a number.
func TestScale(t *testing.T) {
	v, board := scale([]float64{0.5, 0.25, 0, -1e-12, math.NaN()})
	if board != float64(int64(1)<<39) || !slices.Equal(v, []int64{1 << 38, 1 << 37, 0, 0, 0}) {
		t.Errorf("%v, board %g", v, board)
	}
	if v, board := scale([]float64{0, 0}); board != 0 || v[0] != 0 {
		t.Errorf("of nothing: %v, %g", v, board)
	}
}

// The cutoff is the greatest worth of a board that still proves the aim.
func TestCutoff(t *testing.T) {
	for total := int64(1); total < 60; total++ {
		for aim := 2; aim < 9 && int64(aim) <= total; aim++ {
			z := cutoff(total, aim)
			if bound(total, z) < aim || bound(total, z+1) >= aim {
				t.Errorf("cutoff(%d, %d) = %d", total, aim, z)
			}
		}
	}
	if z := cutoff(7, 1); bound(7, z) != 1 {
		t.Errorf("for one board: %d", z)
	}
}

// An inverse times its matrix is the unit matrix; a singular one has none.
func TestEliminate(t *testing.T) {
	r := rand.New(rand.NewSource(24))
	for range 100 {
		n := 1 + r.Intn(6)
		a, m := make([][]float64, n), make([][]float64, n)
		for i := range a {
			a[i] = make([]float64, 2*n)
			for j := range n {
				a[i][j] = r.NormFloat64()
			}
			a[i][n+i] = 1
			m[i] = slices.Clone(a[i][:n])
		}
		if !eliminate(a) {
			t.Fatal("called singular")
		}
		for i := range n {
			for j := range n {
				sum := 0.0
				for k := range n {
					sum += a[i][n+k] * m[k][j]
				}
				if unit := map[bool]float64{true: 1}[i == j]; math.Abs(sum-unit) > 1e-6 {
					t.Fatalf("row %d, column %d: %g", i, j, sum)
				}
			}
		}
	}
	if eliminate([][]float64{{1, 2, 1, 0}, {2, 4, 0, 1}}) {
		t.Error("a singular matrix was inverted")
	}
}

// At its end the program's counts are met, no known column saves anything, and
// the price of all parts is the boards used.
func TestMasterIsOptimal(t *testing.T) {
	r := rand.New(rand.NewSource(25))
	for range 200 {
		in := random(r, 1+r.Intn(5), 3)
		m := newMaster(in)
		for _, p := range all(in) {
			if len(p) > 0 {
				m.cols = append(m.cols, p)
			}
		}
		m.solve(1000)
		if m.missed() > drift {
			t.Fatalf("missed by %g", m.missed())
		}
		if col, ok := m.entering(); ok {
			t.Fatalf("column %d still saves", col)
		}
		used := 0.0
		for r, col := range m.basis {
			if m.x[r] < -drift {
				t.Fatalf("%g boards of a column", m.x[r])
			}
			used += m.x[r] * m.cost(col)
		}
		if math.Abs(used-m.boards()) > drift || used > float64(fewest(in))+drift*10 {
			t.Fatalf("%g boards used, priced at %g, fewest %d", used, m.boards(), fewest(in))
		}
	}
}

// Each dive ends in a plan or leaves the one there was.
func TestDives(t *testing.T) {
	r := rand.New(rand.NewSource(26))
	for range 60 {
		in := random(r, 5, 4)
		for _, d := range dives {
			s := &solver{ctx: bg, in: in, need: in.needs(), have: map[string]bool{}, limit: budget}
			s.offer(s.greedy(in, s.need))
			s.root()
			before := s.boards
			s.proof.Bound = 0 // so that it dives whatever is proved
			s.dive(d)
			valid(t, in, s.plan, s.boards)
			if s.boards > before {
				t.Fatalf("%v made %d boards of %d", d, s.boards, before)
			}
		}
	}
}

// A restricted instance has the kinds still needed, and can name them.
func TestRestrict(t *testing.T) {
	in := plainInstance(10, Kind{Length: 6, Need: 3}, Kind{Length: 5, Need: 2}, Kind{Length: 4, Need: 3})
	sub, was := in.restrict([]int{0, 1, 2})
	if len(sub.Kinds) != 2 || sub.Kinds[0].Length != 5 || sub.Kinds[1].Need != 2 || !slices.Equal(was, []int{1, 2}) {
		t.Errorf("%+v, was %v", sub, was)
	}
	if in.Kinds[1].Need != 2 {
		t.Error("the instance itself was changed")
	}
}

// A pattern's length is that of its cheapest walk: two ways of lying, of which
// the second saves a gap.
func TestUsed(t *testing.T) {
	in := &Instance{
		Room: 100,
		Gap:  [][]int64{{3, 8}, {8, 4}, {1, 2}},
		End:  []int64{5, 6},
		Kinds: []Kind{
			{Length: 10, Need: 2, Ways: []Way{{0, 1}, {1, 0}}},
			{Length: 20, Need: 1, Ways: []Way{{0, 0}}},
		},
	}
	for _, c := range []struct {
		p    Pattern
		want int64
	}{
		{nil, 0},
		{Pattern{{0, 1}}, 17},         // 1+10+6 or 2+10+5
		{Pattern{{0, 2}}, 30},         // 2+10+3+10+6 or 1+10+4+10+5
		{Pattern{{0, 1}, {1, 1}}, 40}, // 2+10+3+20+5
		{Pattern{{0, 2}, {1, 1}}, 1 + 10 + 4 + 10 + 3 + 20 + 5},
	} {
		if got := in.Used(c.p); got != c.want {
			t.Errorf("%v takes %d, want %d", c.p, got, c.want)
		}
	}
	if n := in.alone(0); n != 2 {
		t.Errorf("%d alone on a board", n)
	}
}
