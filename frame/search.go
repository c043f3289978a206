package frame

import (
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

// A search tries every way up or down for the free sides: all ways of the
// first half are listed, all of the second half sorted, and only pairs whose
// errors nearly cancel are looked at.
type search struct {
	rounding
	base        []unit.Length // all free sides at their lower mark
	free        []int
	left, right []half
}

// A half is one way up or down for half of the free sides.
type half struct {
	e    geom.Point // the closing error it adds
	cost float64    // the sum of squared changes, mm²
	up   uint32     // bit j set: side free[j] goes up
}

func newSearch(r rounding, base []unit.Length, free []int) *search {
	s := &search{rounding: r, base: base, free: free}
	mid := len(free) / 2
	s.left = s.halves(free[:mid], 0, half{e: s.rounding.left(base)})
	s.right = s.halves(free[mid:], mid, half{})
	slices.SortStableFunc(s.right, func(a, b half) int {
		return cmp2(s.key(a.e), s.key(b.e))
	})
	return s
}

func cmp2(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// key is the coordinate the halves are sorted by: the only one that counts in
// an open outline.
func (s *search) key(e geom.Point) float64 {
	if s.open {
		return e.Y
	}
	return e.X
}

// halves lists all ways for the given sides, added to what start holds.
func (s *search) halves(sides []int, bit int, start half) []half {
	all := []half{start}
	for j, i := range sides {
		st := s.sticks[i]
		mark := (st.choices[1] - st.choices[0]).MM()
		down, up := st.choices[0].MM()-st.asked, st.choices[1].MM()-st.asked
		for _, h := range all[:len(all):len(all)] {
			all = append(all, half{
				e:    s.counts(h.e.Add(st.dir.Mul(mark))),
				cost: h.cost + up*up,
				up:   h.up | 1<<(bit+j),
			})
		}
		for n := range len(all) / 2 {
			all[n].cost += down * down
		}
	}
	return all
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

func (s *search) lengths(up uint32) []unit.Length {
	l := slices.Clone(s.base)
	for j, i := range s.free {
		if up&(1<<j) != 0 {
			l[i] = s.sticks[i].choices[1]
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
