package statics

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"
)

// TestWallsSettle loads walls of many seams at random, with gaps and screws that
// only pull, and holds what comes out to the conditions of least energy, which
// for a convex energy are proof: nodes in balance (or Solve says so), contacts
// with a push or a gap and not both, screws that do not push. Steps stay few.
func TestWallsSettle(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 22))
	most := 0
	for range 40 {
		kind := twoScrews
		kind.pullOnly = rng.IntN(2) == 0
		frames := 3 + rng.IntN(25)
		w := newCluster(acrossFlats, handPine(), honeycomb(acrossFlats, frames), same(kind))
		w.holdBottom(w.cells[rng.IntN(frames)])
		for i := range w.contacts {
			if rng.IntN(3) == 0 {
				w.contacts[i].Gap = 0.002 * rng.Float64()
			}
		}
		c := Case{Gravity: Vec{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}}
		for range 4 {
			f := Vec{rng.NormFloat64(), rng.NormFloat64(), rng.NormFloat64()}.Mul(10)
			c.Nodal = append(c.Nodal, w.cells[rng.IntN(frames)].topLoad(f)...)
		}
		r := solve(t, &w.Model, c)
		most = max(most, r.Steps)
		for i, f := range r.Contacts {
			if f.Push < 0 || f.Gap < 0 || f.Push > 0 && f.Gap > 0 {
				t.Fatalf("contact %d: %+v", i, f)
			}
		}
		for i, f := range r.Springs {
			if kind.pullOnly && f.Along < 0 {
				t.Fatalf("screw %d pushes with %v", i, -f.Along)
			}
		}
	}
	if most > 15 {
		t.Errorf("%d steps; a few were always enough", most)
	}
	t.Logf("at most %d steps", most)
}

// TestNoLoad: nothing moves, and seams that only touch stay as they are.
func TestNoLoad(t *testing.T) {
	kind := twoScrews
	kind.pullOnly = true
	w := flowerWall(1, kind)
	r := solve(t, &w.Model, Case{})
	for n, v := range r.Moves {
		if v != (Motion{}) {
			t.Fatalf("node %d moves by %v", n, v)
		}
	}
}

// TestUnloadedSeam: a frame beyond the loaded ones, on screws that only pull,
// bears nothing; that its contacts touch without a push is enough to hold it.
func TestUnloadedSeam(t *testing.T) {
	kind := twoScrews
	kind.pullOnly = true
	w := newCluster(acrossFlats, handPine(), []Vec{{}, {0, acrossFlats}, {0, 2 * acrossFlats}}, same(kind))
	w.holdBottom(w.cells[0])
	r := solve(t, &w.Model, Case{Nodal: w.cells[1].topLoad(Vec{0, 0, 3})})
	for i, s := range w.springs {
		if f := r.Springs[i]; s.Seam == "2-3" && f.Along+f.Across.Len() > 1e-6 {
			t.Errorf("screw %d bears %+v", i, f)
		}
	}
}

// TestCasesAtOnce solves the cases of a wall side by side; each gives the bits it
// gives alone.
func TestCasesAtOnce(t *testing.T) {
	c, cases := wall(20)
	p, err := Prepare(context.Background(), &c.Model, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	together := make([]*Result, len(cases))
	var all sync.WaitGroup
	for i, one := range cases {
		all.Go(func() { together[i], _ = p.Solve(context.Background(), one) })
	}
	all.Wait()
	for i, one := range cases {
		alone, err := p.Solve(context.Background(), one)
		if err != nil || !reflect.DeepEqual(alone, together[i]) {
			t.Errorf("case %d differs: %v", i, err)
		}
	}
}

// TestHarderPushNeverHelps: along one direction of load the compliance of a
// frame with contacts grows or stays, and the work grows faster than the load.
func TestHarderPushNeverHelps(t *testing.T) {
	w := flowerWall(1, twoScrews)
	last, lastRatio := 0.0, 0.0
	for f := 1.0; f <= 64; f *= 2 {
		r := solve(t, &w.Model, w.pushed(f))
		top := r.Moves[w.cells[4].side[1]].Shift[2]
		_, _, ratio := w.worst(r)
		if top < 2*last*(1-1e-9) || ratio < lastRatio {
			t.Errorf("push %v: top %v after %v, ratio %v after %v", f, top, last, ratio, lastRatio)
		}
		last, lastRatio = top, ratio
	}
}

// TestWeightPressesSeams: weight above a seam takes pull off its screws, as much
// as there is of it over its lever.
func TestWeightPressesSeams(t *testing.T) {
	pull := func(weight float64) float64 {
		w := newCluster(acrossFlats, handPine(), []Vec{{}, {0, acrossFlats}}, same(twoScrews))
		w.holdBottom(w.cells[0])
		for _, n := range w.cells[1].side {
			w.Weight(Weight{Node: n, N: weight / 6})
		}
		c := Case{Gravity: Vec{0, -1}, Nodal: w.cells[1].topLoad(Vec{0, 0, 5})}
		p, _, _ := w.worst(solve(t, &w.Model, c))
		return p
	}
	// Half a pound more presses half a pound less out of the two screws.
	near(t, "pull", pull(0)-pull(0.5), 0.5/2, 1e-6)
	if math.IsNaN(pull(3)) {
		t.Error("no pull left")
	}
}
