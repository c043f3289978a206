package pack

import (
	"math/rand"
	"slices"
	"testing"
)

// tailOf gives the tail of supplies where an offcut is what is left behind the
// free end; what must be held is one more for some.
func tailOf(supplies []Supply) Tail {
	tail := Tail{}
	for _, u := range supplies {
		tail.Bought = append(tail.Bought, u.Weight > 0)
		free := *u.Plan
		free.End = slices.Clone(u.Plan.End)
		tail.Free = append(tail.Free, &free)
	}
	tail.With = func(k int, offcut int64) Supply {
		in := *supplies[k].Plan
		in.End = slices.Clone(in.End)
		for s := range in.End {
			in.End[s] += offcut
		}
		return Supply{Plan: &in, Bound: &in, Weight: supplies[k].Weight}
	}
	return tail
}

// leastLeft gives by brute force the longest offcut of a plan of some weight.
func leastLeft(supplies []Supply, weight int64) int64 {
	best := int64(0)
	for k, u := range supplies {
		if u.Weight == 0 {
			continue
		}
		counts := make([]int, len(supplies))
		for j := range supplies {
			counts[j] = supplies[j].Limit
		}
		counts[k]--
		for _, p := range all(u.Plan) {
			if len(p) == 0 {
				continue
			}
			rest := limited(supplies, counts)
			need := u.Plan.needs()
			if !holds(need, p) {
				continue
			}
			p.from(need, 1)
			for j := range rest {
				in := *rest[j].Plan
				in.Kinds = slices.Clone(in.Kinds)
				for i := range in.Kinds {
					in.Kinds[i].Need = need[i]
				}
				rest[j].Plan = &in
			}
			if lightest(rest)+u.Weight == weight {
				best = max(best, u.Plan.Room-u.Plan.Used(p))
			}
		}
	}
	return best
}

// No offcut is longer than the bound, one found is what it says, and mostly the
// two meet.
func TestLongestBruteForce(t *testing.T) {
	r := rand.New(rand.NewSource(41))
	met, rounds := 0, 0
	for range 120 {
		supplies := heap(r, 1+r.Intn(2), 3)
		shared := Share(bg, supplies, budget)
		if shared.Bound != shared.Weight {
			continue
		}
		rounds++
		want := leastLeft(supplies, shared.Weight)
		had := longestHad(supplies, shared.Plan)
		l := shared.Longest(bg, supplies, tailOf(supplies), had, 0, budget)
		if l.Bound < want {
			t.Fatalf("%+v: bound %d, longest %d", supplies, l.Bound, want)
		}
		if l.Plan != nil {
			right(t, supplies, l.Plan, shared.Weight)
			if got := longestHad(supplies, l.Plan); got > want || got < had {
				t.Fatalf("found %d, had %d, longest %d", got, had, want)
			} else {
				had = got
			}
		}
		for _, u := range l.Rulings {
			soundRuling(t, supplies, u)
		}
		if l.Sure && had == l.Bound {
			met++
		}
	}
	t.Logf("%d of %d met", met, rounds)
	if met < rounds/2 {
		t.Errorf("%d of %d met", met, rounds)
	}
}

// longestHad gives the longest offcut of a plan's boards of some weight.
func longestHad(supplies []Supply, plan []Cut) int64 {
	most := int64(0)
	for _, c := range plan {
		if u := supplies[c.Supply]; u.Weight > 0 {
			most = max(most, u.Plan.Room-u.Plan.Used(c.Pattern))
		}
	}
	return most
}

// Three parts of 4 on boards of 10 leave 6 beside a pair; the bound says so
// without a search.
func TestLongestByHand(t *testing.T) {
	in := plainInstance(10, Kind{Length: 4, Need: 3})
	supplies := []Supply{{Plan: in, Bound: in, Weight: 1, Limit: 3}}
	shared := Share(bg, supplies, budget)
	l := shared.Longest(bg, supplies, tailOf(supplies), 0, 0, budget)
	if l.Bound != 6 || !l.Sure {
		t.Errorf("%+v", l)
	}
	if got := longestHad(supplies, l.Plan); got != 6 && longestHad(supplies, shared.Plan) != 6 {
		t.Errorf("found %d", got)
	}
	// Where the weight is not proved nothing is known.
	shared.Bound--
	if l := shared.Longest(bg, supplies, tailOf(supplies), 0, 0, budget); l.Sure || l.Bound != 10 || l.Plan != nil {
		t.Errorf("%+v", l)
	}
	// Nor without work.
	shared.Bound++
	if l := shared.Longest(bg, supplies, tailOf(supplies), 0, 0, 1); l.Bound < 6 {
		t.Errorf("%+v", l)
	}
}
