package cut

import (
	"math/rand"
	"testing"

	"bowerwright/unit"
)

// doable gives random orders of up to n parts that can be cut.
func doable(r *rand.Rand, n int) Order {
	for {
		if o := random(r, n); o.impossible(o.stretches()) == nil {
			return o
		}
	}
}

// least gives the boards of a proved plan.
func least(t *testing.T, o Order) int {
	t.Helper()
	p := plan(t, o)
	if !p.Bought.Proved() {
		t.Errorf("%+v: %d boards, bound %d", o, len(p.Boards), p.Bought.Bound)
	}
	return len(p.Boards)
}

// What makes an order harder never saves a board; what makes it easier never
// costs one.
func TestHarderNeverSaves(t *testing.T) {
	r := rand.New(rand.NewSource(31))
	for range 60 {
		o := doable(r, 20)
		n := least(t, o)
		for name, harder := range map[string]func(o *Order){
			"a wider kerf":    func(o *Order) { o.Kerf += mm },
			"more to hold":    func(o *Order) { o.Hold += 10 * mm },
			"more trim":       func(o *Order) { o.TrimFirst += 3 * mm },
			"no turning":      func(o *Order) { o.Turning = false },
			"a part more":     func(o *Order) { o.Parts[0].Count++ },
			"a longer part":   func(o *Order) { o.Parts[0].Outside += mm },
			"a shorter board": func(o *Order) { o.Board -= 5 * mm },
		} {
			q := o
			q.Parts = append([]Part(nil), o.Parts...)
			harder(&q)
			if q.impossible(q.stretches()) != nil {
				continue
			}
			if m := least(t, q); m < n {
				t.Errorf("%+v: %d boards, with %s %d", o, n, name, m)
			}
		}
	}
}

// An order twice as large in every length takes as many boards.
func TestScaled(t *testing.T) {
	r := rand.New(rand.NewSource(32))
	for range 60 {
		o := doable(r, 20)
		q := o
		for _, l := range []*unit.Length{&q.Board, &q.TrimFirst, &q.TrimFar, &q.Depth, &q.Kerf, &q.Hold} {
			*l *= 2
		}
		q.Parts = append([]Part(nil), o.Parts...)
		for i := range q.Parts {
			q.Parts[i].Outside *= 2
		}
		if n, m := least(t, o), least(t, q); n != m {
			t.Errorf("%+v: %d boards, twice as large %d", o, n, m)
		}
	}
}

// Two orders of one kind of board take no more together than apart, and no
// fewer than the longer of the two.
func TestTogether(t *testing.T) {
	r := rand.New(rand.NewSource(33))
	for range 60 {
		a := doable(r, 12)
		b := a
		b.Parts = nil
		for _, p := range doable(r, 12).Parts {
			b.Parts = []Part{p}
			if b.impossible(b.stretches()) == nil {
				break
			}
		}
		if b.impossible(b.stretches()) != nil {
			continue
		}
		both := a
		both.Parts = append(append([]Part(nil), a.Parts...), b.Parts...)
		n, m, all := least(t, a), least(t, b), least(t, both)
		if all > n+m || all < max(n, m) {
			t.Errorf("%+v and %+v: %d and %d boards, together %d", a, b, n, m, all)
		}
	}
}
