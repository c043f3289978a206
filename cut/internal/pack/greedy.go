package pack

import (
	"cmp"
	"slices"
)

// greedyOf makes a greedy plan of some counts of the solver's instance.
func (s *solver) greedyOf(need []int) []Use {
	sub, was := s.in.restrict(need)
	if len(was) == 0 {
		return nil
	}
	return rename(s.greedy(sub, sub.needs()), was)
}

// rename gives a plan's kinds the numbers they had.
func rename(plan []Use, was []int) []Use {
	out := make([]Use, len(plan))
	for i, u := range plan {
		out[i] = Use{renamed(u.Pattern, was), u.Boards}
	}
	return out
}

func renamed(p Pattern, was []int) Pattern {
	q := make(Pattern, len(p))
	for i, it := range p {
		q[i] = Item{was[it.Kind], it.N}
	}
	return q
}

// greedy fills board after board, the longest part that still fits first, and
// cuts each filling as often as the counts allow.
func (s *solver) greedy(in *Instance, need []int) []Use {
	left := slices.Clone(need)
	order := in.longestFirst()
	f := newFiller(in)
	var plan []Use
	for {
		p := f.fill(order, left)
		if len(p) == 0 {
			return plan
		}
		s.work += int64(len(order))
		plan = s.take(plan, p, 1<<30, left)
	}
}

// longestFirst gives the kinds by length.
func (in *Instance) longestFirst() []int {
	order := make([]int, len(in.Kinds))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(in.Kinds[b].Length, in.Kinds[a].Length) })
	return order
}

// A filler fills single boards.
type filler struct {
	in    *Instance
	rel   relaxed
	count []int
}

func newFiller(in *Instance) *filler {
	return &filler{in, in.relax(), make([]int, len(in.Kinds))}
}

// fill takes kinds in the order given, as many of each as fit.
func (f *filler) fill(order []int, left []int) Pattern {
	clear(f.count)
	room := f.rel.room - f.rel.out[f.in.start()]
	for _, k := range order {
		for f.count[k] < left[k] && f.rel.width[k] <= room {
			f.count[k]++
			if !f.in.Fits(f.pattern()) {
				f.count[k]--
				break
			}
			room -= f.rel.width[k]
		}
	}
	return f.pattern()
}

// pattern gives what the filler has on the board.
func (f *filler) pattern() Pattern {
	var p Pattern
	for k, n := range f.count {
		if n > 0 {
			p = append(p, Item{k, n})
		}
	}
	return p
}
