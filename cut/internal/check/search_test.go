package check

import (
	"math"
	"math/rand"
	"slices"
	"testing"
)

// random gives a stock and parts with a few settings, some negative, some
// unlike at the two ends.
func random(r *rand.Rand, kinds int) (Stock, []Part) {
	s := Stock{Board: float64(300+r.Intn(300)) * mm, Depth: float64(r.Intn(40)) * mm,
		Kerf: float64(r.Intn(4)) * mm, Turning: r.Intn(2) == 0}
	if r.Intn(2) == 0 {
		s.Hold = float64(r.Intn(90)) * mm
	}
	if r.Intn(2) == 0 {
		s.TrimFirst, s.TrimFar = float64(r.Intn(20))*mm, float64(r.Intn(20))*mm
	}
	settings := []float64{0, math.Pi / 6, math.Pi / 4, -0.3}
	parts := make([]Part, kinds)
	for i := range parts {
		a := settings[r.Intn(4)]
		parts[i] = Part{float64(100+10*r.Intn(20)) * mm, a, a, 1 + r.Intn(3)}
		if r.Intn(3) == 0 {
			parts[i].Right = settings[r.Intn(4)]
		}
	}
	return s, parts
}

// fits lays parts in bench order, every way, corner by corner, and says whether
// some way goes on a board.
func fits(s Stock, parts []Part, set []int) bool {
	order := slices.Clone(set)
	rank := ranks(s, parts)
	slices.SortStableFunc(order, func(a, b int) int { return rank[a] - rank[b] })
	return laid(s, parts, order, corners{}, 0)
}

// laid lays the rest of a row behind a part whose kerf is given, 0 for none.
func laid(s Stock, parts []Part, rest []int, last corners, kerf float64) bool {
	if len(rest) == 0 {
		return true
	}
	p := parts[rest[0]]
	for turn := range 4 {
		q, left, right := drawn(s, p), s.Kerf/math.Cos(p.Left), s.Kerf/math.Cos(p.Right)
		if turn&1 == 1 {
			q = q.roll()
		}
		if turn&2 == 2 {
			q, left, right = q.swap(), right, left
		}
		if !s.Turning && turn > 0 {
			continue
		}
		at := s.TrimFirst - min(q.bl, q.tl)
		if last != (corners{}) {
			wide := max(kerf, left)
			at = max(last.br+wide-q.bl, last.tr+wide-q.tl)
		}
		q = corners{q.bl + at, q.br + at, q.tl + at, q.tr + at}
		if q.right() > s.Board-s.TrimFar+slip {
			continue
		}
		if len(rest) == 1 && max(q.short(), s.Board-q.right()-right) < s.Hold-slip/2 {
			continue
		}
		if laid(s, parts, rest[1:], q, right) {
			return true
		}
	}
	return false
}

// every gives all sets of the parts wanted, as counts.
func every(parts []Part) [][]int {
	out := [][]int{nil}
	for _, p := range parts {
		var next [][]int
		for _, have := range out {
			for n := range p.Count + 1 {
				next = append(next, append(slices.Clone(have), n))
			}
		}
		out = next
	}
	return out
}

// singly turns counts into parts.
func singly(count []int) []int {
	var out []int
	for p, n := range count {
		for range n {
			out = append(out, p)
		}
	}
	return out
}

// worthOf gives what counts of parts are worth.
func worthOf(count []int, value []int64) int64 {
	w := int64(0)
	for p, n := range count {
		w += int64(n) * value[p]
	}
	return w
}

// The search over rows finds what laying every set every way finds, and the
// listing finds the same sets. Sets of over five parts are left out of the
// orders, to keep the ways few.
func TestExceedsEveryWay(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for range 200 {
		s, parts := random(r, 3)
		value := []int64{int64(1 + r.Intn(50)), int64(1 + r.Intn(50)), int64(1 + r.Intn(50))}
		best, whole := int64(0), true
		for _, p := range parts {
			whole = whole && drawn(s, p).short() > near
		}
		if !whole {
			continue
		}
		for _, c := range every(parts) {
			if w := worthOf(c, value); w > best && fits(s, parts, singly(c)) {
				best = w
			}
		}
		b := benchOf(s, parts, value)
		over, known := b.exceeds(best - 1)
		beyond, sure := b.exceeds(best)
		if best > 0 && !over || !known || beyond || !sure {
			t.Fatalf("%+v %+v %v: best %d, over %v, beyond %v", s, parts, value, best, over, beyond)
		}
	}
}

// Listed is every set of enough worth that fits, and kept are those that none
// holds.
func TestListEverySet(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for range 100 {
		s, parts := random(r, 3)
		value := []int64{1, 100, 10_000} // tells sets apart
		if slices.ContainsFunc(parts, func(p Part) bool { return drawn(s, p).short() <= near }) {
			continue
		}
		want := map[int64]bool{}
		for _, c := range every(parts) {
			if fits(s, parts, singly(c)) {
				want[worthOf(c, value)] = true
			}
		}
		b := benchOf(s, parts, value)
		l := &search{b: b, listed: map[string]bool{}}
		if !l.list(0, make(set, len(b.sticks)), []row{{foot: -1}}) {
			t.Fatal("gave up")
		}
		if len(l.sets) != len(want) {
			t.Fatalf("%+v %+v: %d sets listed, %d fit", s, parts, len(l.sets), len(want))
		}
		listed := len(l.sets)
		l.maximal()
		for _, a := range l.sets {
			for _, b := range l.sets {
				if &a[0] != &b[0] && within(a, b) {
					t.Errorf("%v is within %v", a, b)
				}
			}
		}
		if len(l.sets) == 0 || len(l.sets) > listed {
			t.Errorf("%d of %d are kept", len(l.sets), listed)
		}
	}
}

// within says whether b has all that a has.
func within(a, b set) bool {
	for k := range a {
		if a[k] > b[k] {
			return false
		}
	}
	return true
}

// Turned about, a stick is the same stick; its mirror, a parallelogram or one
// with another end is not.
func TestSticks(t *testing.T) {
	a := math.Pi / 4
	s := Stock{Board: 1000 * mm, Depth: 10 * mm, Turning: true}
	parts := []Part{
		{300 * mm, a, a / 2, 1},
		{300 * mm, a / 2, a, 2}, // ends swapped
		{300*mm - 10*mm*(math.Tan(a)+math.Tan(a/2)), -a, -a / 2, 1}, // from the other face
		{300 * mm, a, a, 1},
		{300 * mm, a, -a, 1},
		{300 * mm, a, a / 2, 0},
	}
	got := sticks(s, parts, nil)
	if len(got) != 3 || !slices.Equal(got[1].parts, []int{0, 1, 2}) || got[1].count != 4 {
		t.Errorf("%+v", got)
	}
	if rank := ranks(s, parts); !slices.Equal(rank, []int{1, 1, 1, 0, 2, 0}) {
		t.Errorf("ranks %v", rank)
	}
	if got := sticks(s, parts, []int64{1, 2, 1, 1, 1, 1}); len(got) != 4 {
		t.Errorf("parts of different worth: %+v", got)
	}
	s.Turning = false
	if got := sticks(s, parts, nil); len(got) != 5 || !slices.Equal(got[1].parts, []int{0}) {
		t.Errorf("not to be turned: %+v", got)
	}
}

// Rolling twice, or swapping twice, changes nothing; both keep the lengths.
func TestTurnsUndo(t *testing.T) {
	q := drawn(Stock{Depth: 20 * mm}, Part{Outside: 300 * mm, Left: 0.5, Right: -0.2})
	if q.roll().roll() != q || q.swap().swap() != q {
		t.Error("a turn does not undo itself")
	}
	if q.roll().short() != q.short() || q.swap().short() != q.short() {
		t.Error("a turn changes a length")
	}
}

// Of rows on one foot only those stay that pay for their length.
func TestUndominated(t *testing.T) {
	got := undominated([]row{{1, 10, 5}, {0, 7, 3}, {0, 7, 4}, {0, 9, 4}, {0, 9, 6}, {1, 12, 5}, {1, 8, 6}})
	if want := []row{{0, 7, 4}, {0, 9, 6}, {1, 8, 6}}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// A place is told counted from 1.
func TestFaultString(t *testing.T) {
	for want, f := range map[string]Fault{
		"x":                  {-1, -1, "x"},
		"board 1: x":         {0, -1, "x"},
		"board 3, part 2: x": {2, 1, "x"},
	} {
		if f.String() != want {
			t.Errorf("%q, want %q", f, want)
		}
	}
}
