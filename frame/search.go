package frame

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"bowerwright/geom"
	"bowerwright/unit"
)

// sameCost is the difference in mm² below which two sums of squared changes
// are one: changes differ by whole dust or by parts of a tape mark, never by
// this.
const sameCost = 1e-7

// A search tries every number of sides up in every bunch: all ways of one half
// of the bunches are listed, all of the other half sorted, and only pairs whose
// errors nearly cancel are looked at.
type search struct {
	rounding
	base        []unit.Length // all free sides at their lower mark
	left, right []half
}

// A half is one way up or down for the sides of half of the bunches.
type half struct {
	e    geom.Point // the closing error it adds
	cost float64    // the sum of squared changes, mm²
	up   uint64     // bit i set: side i+1 goes up; MostSides fit
}

func newSearch(r rounding, base []unit.Length, free [][]int) *search {
	s := &search{rounding: r, base: base}
	s.left, s.right = []half{{e: r.left(base)}}, []half{{}}
	for _, b := range free { // to the shorter list, so that they stay balanced
		if len(s.left) <= len(s.right) {
			s.left = s.spread(s.left, b)
		} else {
			s.right = s.spread(s.right, b)
		}
	}
	slices.SortStableFunc(s.right, func(a, b half) int { return cmp.Compare(s.key(a.e), s.key(b.e)) })
	return s
}

// spread gives every half with every number of a bunch going up: the last ones,
// which comes first in the order of lengths.
func (s *search) spread(halves []half, bunch []int) []half {
	st, m := s.sticks[bunch[0]], len(bunch)
	mark := (st.choices[1] - st.choices[0]).MM()
	down, up := st.choices[0].MM()-st.asked, st.choices[1].MM()-st.asked
	more := make([]half, 0, len(halves)*(m+1))
	for _, h := range halves {
		h.cost += float64(m) * down * down
		more = append(more, h)
		for j := m - 1; j >= 0; j-- {
			h.e = s.counts(h.e.Add(st.dir.Mul(mark)))
			h.cost += up*up - down*down
			h.up |= 1 << bunch[j]
			more = append(more, h)
		}
	}
	return more
}

// key is the coordinate the halves are sorted by: the only one that counts in
// an open outline.
func (s *search) key(e geom.Point) float64 {
	if s.open {
		return e.Y
	}
	return e.X
}

func (s *search) run() []unit.Length {
	least := math.Inf(1)
	s.pairs(func() float64 { return least }, func(l, r half) {
		least = math.Min(least, l.e.Add(r.e).Len())
	})
	var best half
	found := false
	s.pairs(func() float64 { return least + sameMM }, func(l, r half) {
		if l.e.Add(r.e).Len() > least+sameMM {
			return
		}
		if h := (half{cost: l.cost + r.cost, up: l.up | r.up}); !found || s.better(h, best) {
			best, found = h, true
		}
	})
	return s.lengths(best.up)
}

// pairs visits the pairs of halves that could leave no more than reach, which
// may shrink on the way.
func (s *search) pairs(reach func() float64, visit func(l, r half)) {
	for _, l := range s.left {
		k := -s.key(l.e)
		from := 0
		if d := reach(); !math.IsInf(d, 1) {
			from = sort.Search(len(s.right), func(i int) bool { return s.key(s.right[i].e) >= k-d })
		}
		for _, r := range s.right[from:] {
			if s.key(r.e) > k+reach() {
				break
			}
			visit(l, r)
		}
	}
}

// better says whether a comes before b among choices that close equally well.
func (s *search) better(a, b half) bool {
	if math.Abs(a.cost-b.cost) > sameCost {
		return a.cost < b.cost
	}
	la, lb := s.lengths(a.up), s.lengths(b.up)
	if na, nb := s.parted(la), s.parted(lb); na != nb {
		return na < nb
	}
	return slices.Compare(la, lb) < 0
}

func (s *search) lengths(up uint64) []unit.Length {
	l := slices.Clone(s.base)
	for i, st := range s.sticks {
		if up&(1<<i) != 0 {
			l[i] = st.choices[1]
		}
	}
	return l
}

// parted counts the pairs of sides asked alike that did not stay alike.
func (s *search) parted(lengths []unit.Length) int {
	n := 0
	for i, a := range s.sticks {
		for j := i + 1; j < len(s.sticks); j++ {
			if math.Abs(a.asked-s.sticks[j].asked) <= sameMM && lengths[i] != lengths[j] {
				n++
			}
		}
	}
	return n
}
