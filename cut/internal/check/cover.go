package check

import "slices"

// mostSets is how many sets of parts are listed before it is called too long.
const mostSets = 400_000

// A set is the parts of one board, by stick.
type set []uint32

func (s set) key() string {
	b := make([]byte, 0, 4*len(s))
	for _, n := range s {
		b = append(b, byte(n), byte(n>>8), byte(n>>16), byte(n>>24))
	}
	return string(b)
}

// A search lists sets and covers the counts with them. Benches are the stretches,
// all with the same sticks.
type search struct {
	b      *bench // whose sets are listed
	floor  int64  // least worth of a set that a plan can use
	listed map[string]bool
	sets   []set
	on     [][]set // by stretch, when all are listed
	z      []int64 // that a board is worth, by stretch
	failed map[string]bool
	left   []int
}

// covered says whether boards of some counts, none worth more than its z, may
// hold all parts, worth total together: whether some sets that miss z by no
// more than the boards' worth less total, in sum, hold every count.
func covered(benches []*bench, counts []int, z []int64, total int64) (found, known bool) {
	slack := -total
	for k, n := range counts {
		slack += int64(n) * z[k]
	}
	s := &search{z: z, failed: map[string]bool{}}
	for k, b := range benches {
		s.b, s.sets = b, nil
		if counts[k] > 0 {
			s.floor, s.listed = z[k]-slack, map[string]bool{}
			if !s.list(0, make(set, len(b.sticks)), []row{{foot: -1}}) {
				return false, false
			}
			s.maximal()
		}
		s.on = append(s.on, s.sets)
	}
	for _, t := range benches[0].sticks {
		s.left = append(s.left, t.count)
	}
	return s.cover(slices.Clone(counts), slack)
}

// list lists every set worth the floor that grows from have, which can be laid
// as any of rows, by sticks from k on.
func (s *search) list(k int, have set, rows []row) bool {
	b := s.b
	if *b.effort--; *b.effort < 0 || len(s.sets) > mostSets {
		return false
	}
	if rows[0].worth >= s.floor && b.stands(rows) {
		own := slices.Clone(have)
		s.listed[own.key()] = true
		s.sets = append(s.sets, own)
	}
	for j := k; j < len(b.sticks); j++ {
		if int(have[j]) == b.sticks[j].count {
			continue
		}
		next := b.grown(rows, j)
		if len(next) == 0 || float64(rows[0].worth)+s.hope(rows, j) < float64(s.floor) {
			continue
		}
		have[j]++
		ok := s.list(j, have, next)
		have[j]--
		if !ok {
			return false
		}
	}
	return true
}

// hope is the most that the sticks from k on can add to the best of rows.
func (s *search) hope(rows []row, k int) float64 {
	rest := s.b.after(k)
	most := 0.0
	for _, r := range rows {
		most = max(most, s.b.hope(r, rest))
	}
	return most
}

// stands says whether one of rows ends inside the board.
func (b *bench) stands(rows []row) bool {
	return slices.ContainsFunc(rows, func(r row) bool {
		return r.foot < 0 || r.length+b.feet[r.foot].tail <= b.room()
	})
}

// grown lays one more stick behind each row and keeps the shortest on each
// foot.
func (b *bench) grown(rows []row, k int) []row {
	var next []row
	for _, r := range rows {
		for _, p := range b.poses[k] {
			g := row{p.foot, r.length + b.head(r.foot, p) + b.centre[k], r.worth + b.sticks[k].value}
			if g.length <= b.room() {
				next = append(next, g)
			}
		}
	}
	return undominated(next)
}

// maximal drops the sets that are listed with one part more too.
func (s *search) maximal() {
	s.sets = slices.DeleteFunc(s.sets, func(t set) bool {
		for k := range t {
			if int(t[k]) == s.b.sticks[k].count {
				continue
			}
			t[k]++
			more := s.listed[t.key()]
			t[k]--
			if more {
				return true
			}
		}
		return false
	})
}

// cover looks for sets on no more boards than there are, losing no more than
// slack, that hold what is left. It always goes on with the longest stick that
// is left.
func (s *search) cover(boards []int, slack int64) (found, known bool) {
	k := len(s.left) - 1
	for k >= 0 && s.left[k] == 0 {
		k--
	}
	if k < 0 {
		return true, true
	}
	var now set
	for _, n := range append(slices.Clone(boards), s.left...) {
		now = append(now, uint32(n))
	}
	if s.failed[now.key()] {
		return false, true
	}
	for i, sets := range s.on {
		if boards[i] == 0 {
			continue
		}
		for _, t := range sets {
			if *s.b.effort--; *s.b.effort < 0 {
				return false, false
			}
			if t[k] == 0 {
				continue
			}
			used, loss := s.take(t, s.z[i])
			if loss <= slack {
				boards[i]--
				found, known = s.cover(boards, slack-loss)
				boards[i]++
			}
			for j, n := range used {
				s.left[j] += int(n)
			}
			if loss <= slack && (found || !known) {
				return found, known
			}
		}
	}
	s.failed[now.key()] = true
	return false, true
}

// take takes a set's parts off what is left, as far as they are, and gives
// what it took and by how much that misses z.
func (s *search) take(t set, z int64) (used set, loss int64) {
	used, loss = make(set, len(t)), z
	for k, n := range t {
		used[k] = uint32(min(int(n), s.left[k]))
		s.left[k] -= int(used[k])
		loss -= int64(used[k]) * s.b.sticks[k].value
	}
	return used, loss
}
