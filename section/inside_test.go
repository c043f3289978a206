package section

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"bowerwright/geom"
)

func setOf(fs ...int) set {
	var s set
	for _, f := range fs {
		s |= one(f)
	}
	return s
}

func TestSet(t *testing.T) {
	s := setOf(0, 3, 63)
	if s.size() != 3 || s.first() != 0 || !s.has(63) || s.has(1) || !slices.Equal(s.list(), []int{0, 3, 63}) {
		t.Errorf("%v", s.list())
	}
	if !s.meets(setOf(3, 4)) || s.meets(setOf(4)) || !setOf(3).within(s) || s.within(setOf(3)) {
		t.Error("meets, within")
	}
}

// tangle is a cluster with random seams and masses.
func tangle(r *rand.Rand, n int) Problem {
	var p Problem
	for i := range n {
		p.Frames = append(p.Frames, Frame{Mass: 1 + 4*r.Float64(), Centre: geom.Point{X: float64(i)}})
		for j := range i {
			if j == i-1 || r.IntN(n) < 2 {
				p.Seams = append(p.Seams, Seam{A: j, B: i, Screws: r.IntN(4)})
			}
		}
	}
	return p
}

func worldOf(t *testing.T, p Problem) *world {
	t.Helper()
	w, err := newWorld(p)
	if err != nil {
		t.Fatal(err)
	}
	w.begun()
	return w
}

// flood reaches just what steps from frame to frame reach.
func TestFlood(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 300 {
		n := 2 + r.IntN(12)
		w := worldOf(t, tangle(r, n))
		within := set(r.Uint64()) & w.all
		from := r.IntN(n)
		want := map[int]bool{from: true}
		for range n {
			for _, s := range w.p.Seams {
				for _, e := range [][2]int{{s.A, s.B}, {s.B, s.A}} {
					if want[e[0]] && within.has(e[1]) {
						want[e[1]] = true
					}
				}
			}
		}
		got := flood(one(from), within, w.frames)
		if got.size() != len(want) {
			t.Fatalf("from %d within %v: %v, want %v", from, within.list(), got.list(), want)
		}
	}
}

func TestUnits(t *testing.T) {
	p := Problem{Frames: make([]Frame, 6), Together: [][2]int{{4, 1}}}
	for i := range p.Frames {
		p.Frames[i].Mass = float64(i)
	}
	p.Seams = []Seam{{A: 0, B: 1, Screws: 2}, {A: 1, B: 2, Screws: 3, Shop: true}, {A: 2, B: 3, Screws: 5}, {A: 3, B: 4, Screws: 7}, {A: 4, B: 5}}
	w := worldOf(t, p)
	if got := fmt.Sprint(w.unitList()); got != "[[0] [1 2 4] [3] [5]]" {
		t.Errorf("units %s", got)
	}
	if w.units[1].mass != 7 || w.cuts[1][2] != 12 || w.cuts[0][1] != 2 || w.near[3] != one(1) {
		t.Errorf("mass %g, screws %v, near %v", w.units[1].mass, w.cuts, w.near)
	}
}

// Poured is the least that the squares can come to: no placing of the rest
// comes below it, and it is met where the rest can be divided at will.
func TestPoured(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 500 {
		n, most := 3+r.IntN(8), 2+r.IntN(3)
		w := worldOf(t, tangle(r, n))
		x := &tie{w: w, most: most}
		var groups []group
		masses := make([]float64, most)
		free := w.all
		for i := range r.IntN(most) {
			g := w.start(i)
			groups, masses[i] = append(groups, g), g.mass
			free &^= one(i)
		}
		least := x.poured(groups, free)
		for _, u := range free.list() {
			masses[r.IntN(most)] += w.units[u].mass
		}
		var squares float64
		for _, m := range masses {
			squares += m * m
		}
		if squares < least-1e-9 {
			t.Fatalf("%v comes to %g, poured %g", masses, squares, least)
		}
	}
	w := worldOf(t, Problem{Frames: []Frame{{Mass: 5}, {Mass: 1}, {Mass: 2}}})
	x := &tie{w: w, most: 3}
	// 2 kg beside 5 and 1: level at 1.5 in the two lighter ones.
	if got := x.poured([]group{w.start(0), w.start(1)}, one(2)); math.Abs(got-(25+2*1.5*1.5)) > 1e-9 {
		t.Errorf("poured %g", got)
	}
}

// The order by nearness lists every unit once, and moving units about keeps a
// plan a plan and never makes it worse.
func TestBetterKeepsToTheRules(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	gained := 0
	for range 200 {
		n := 4 + r.IntN(12)
		p := tangle(r, n)
		p.Limits.Mass = 6 + 10*r.Float64()
		p.Apart = [][2]int{{0, n - 1}}
		w := worldOf(t, p)
		order := w.byNearness()
		slices.Sort(order)
		if len(order) != n || order[0] != 0 || order[n-1] != n-1 || len(slices.Compact(order)) != n {
			t.Fatalf("order %v", order)
		}
		var plan []set
		for i := range n {
			plan = append(plan, one(i))
		}
		before := w.score(plan)
		plan = w.better(plan)
		after := w.score(plan)
		if before.better(after) {
			t.Fatalf("%+v became %+v", before, after)
		}
		if after.better(before) {
			gained++
		}
		var out Plan
		w.describe(&out, plan)
		if err := p.Check(out); err != nil {
			t.Fatal(err)
		}
	}
	if gained < 190 {
		t.Errorf("only %d plans got better", gained)
	}
}

func TestScore(t *testing.T) {
	a := score{2, 10, 50}
	for _, b := range []score{{3, 0, 0}, {2, 11, 0}, {2, 10, 51}} {
		if !a.better(b) || b.better(a) {
			t.Errorf("%+v and %+v", a, b)
		}
	}
	if a.better(a) || (score{2, 10, 50 - 1e-9}).better(a) {
		t.Error("rounding is no gain")
	}
}

// Of what has grown, the longest stage that bears is taken.
func TestLongest(t *testing.T) {
	for most := range 7 {
		p := tangle(rand.New(rand.NewPCG(4, 4)), 6)
		p.Limits.Bear = func(fs []int) bool { return len(fs) <= most }
		w := worldOf(t, p)
		g, ok := w.longest(w.growOne(0, w.all))
		if ok != (most > 0) || g.units.size() != most {
			t.Errorf("at most %d: %v, %v", most, g.units.list(), ok)
		}
	}
}

// The allowance of questions about bearing is kept, and a plan still comes.
func TestAsksAreCounted(t *testing.T) {
	p := tangle(rand.New(rand.NewPCG(5, 5)), 10)
	asked := 0
	p.Limits.Bear = func(fs []int) bool { asked++; return len(fs) < 3 }
	w := worldOf(t, p)
	w.asks = 4
	for f := range 10 {
		w.bear(one(f))
	}
	if asked != 4 || !w.spent || w.bear(one(9)) || !w.bear(one(0)) {
		t.Errorf("asked %d times, spent %v", asked, w.spent)
	}
	p.Limits.Asks = 60
	plan, err := Solve(p)
	if err != nil || len(plan.Sections) < 5 {
		t.Errorf("%v: %+v", err, plan)
	}
	p.Limits.Asks = 2
	if _, err = Solve(p); err == nil {
		t.Error("a plan whose sections nobody asked about")
	}
}
