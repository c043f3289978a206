package check

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

// hair is the part of a nanometre that a computed length may miss the whole
// one it is: float64 carries 20 m to 4e-6 nm.
const hair = 1e-4

// least rounds down, for a bound: a board may seem to hold more, never less.
func least(nm float64) int64 { return int64(math.Floor(nm + hair)) }

// A foot is how a stick ends at the right: how it leans, whether it can be
// held there, and what it asks of the board behind it when it is the last.
type foot struct {
	lean, kerf, slope float64
	held              bool
	tail              int64
}

// A pose is a way a stick may lie: the foot it stands on and its head at the
// left.
type pose struct {
	kerf, slope float64
	foot        int
}

// A bench is the sticks with whole lengths.
type bench struct {
	s      Stock
	sticks []stick
	centre []int64
	thin   []int64 // least length that is the stick's own, half the cuts beside it included
	poses  [][]pose
	feet   []foot
	ends   float64 // most that the end of a board gives back against thin
	begin  float64 // and its first end
	effort *int
}

func newBench(s Stock, parts []Part, value []int64) *bench {
	b := &bench{s: s, sticks: sticks(s, parts, value), effort: new(int)}
	for _, t := range b.sticks {
		l := t.lies[0]
		mean := (t.short + t.long) / 2
		b.centre = append(b.centre, least(mean))
		b.thin = append(b.thin, least(mean)+int64((b.kerf(l.left)+b.kerf(l.right))/2)-1)
		uncut := !s.Begun && l.left == 0 && l.right == 0 && l.bottom == s.Board && s.TrimFirst == 0 && s.TrimFar == 0
		held := uncut || t.short >= s.Hold-hair
		var poses []pose
		for _, l := range t.lies {
			poses = append(poses, pose{b.kerf(l.left), b.slope(l.left), b.foot(-l.right, held)})
			b.begin = max(b.begin, b.kerf(l.left)/2+1)
		}
		b.poses = append(b.poses, poses)
	}
	for _, f := range b.feet {
		b.ends = max(b.ends, f.kerf/2+1+s.TrimFar-float64(f.tail))
	}
	return b
}

func (b *bench) kerf(a float64) float64  { return b.s.Kerf / math.Cos(a) }
func (b *bench) slope(a float64) float64 { return b.s.Depth * math.Tan(a) }

// foot gives the number of a foot.
func (b *bench) foot(lean float64, held bool) int {
	for i, f := range b.feet {
		if f.held == held && math.Abs(f.lean-lean) < alike {
			return i
		}
	}
	f := foot{lean: lean, kerf: b.kerf(lean), slope: b.slope(lean), held: held}
	behind := b.s.TrimFar
	if !held {
		behind = max(behind, f.kerf+b.s.Hold)
	}
	f.tail = least(math.Abs(f.slope)/2 + behind)
	b.feet = append(b.feet, f)
	return len(b.feet) - 1
}

// head gives the length before the head of the first part, or between a foot
// and a head.
func (b *bench) head(foot int, p pose) int64 {
	if foot < 0 && b.s.Begun {
		return least(max(b.kerf(b.s.Lean), p.kerf) + math.Abs(b.slope(b.s.Lean)-p.slope)/2)
	}
	if foot < 0 {
		return least(b.s.TrimFirst + math.Abs(p.slope)/2)
	}
	f := b.feet[foot]
	return least(max(f.kerf, p.kerf) + math.Abs(f.slope-p.slope)/2)
}

// room gives the length that parts may fill.
func (b *bench) room() int64 { return least(b.s.Board + slip) }

// A row is parts laid from the first end: to where on the centre line, on
// which foot, worth what.
type row struct {
	foot          int
	length, worth int64
}

// exceeds says whether a board can hold more than z. It grows rows stick by
// stick in bench order, and drops a row when another on the same foot is no
// longer and worth no less, or when even divisible parts could not bring it
// past z.
func (b *bench) exceeds(z int64) (over, known bool) {
	rows := []row{{foot: -1}}
	for k, t := range b.sticks {
		rest := b.after(k)
		front := rows
		for n := 0; n < t.count && len(front) > 0; n++ {
			var next []row
			for _, r := range front {
				for _, p := range b.poses[k] {
					*b.effort--
					g := row{p.foot, r.length + b.head(r.foot, p) + b.centre[k], r.worth + t.value}
					room := b.room() - g.length
					if g.worth > z && room >= b.feet[p.foot].tail {
						return true, true
					}
					if room >= 0 && float64(g.worth)+b.hope(g, rest) > float64(z) {
						next = append(next, g)
					}
				}
			}
			if *b.effort < 0 {
				return false, false
			}
			front = undominated(next)
			rows = append(rows, front...)
		}
		rows = undominated(rows)
	}
	return false, true
}

// undominated drops rows that another is no longer and worth no less than.
func undominated(rows []row) []row {
	slices.SortFunc(rows, func(a, b row) int {
		switch {
		case a.foot != b.foot:
			return a.foot - b.foot
		case a.length != b.length:
			return cmp.Compare(a.length, b.length)
		}
		return cmp.Compare(b.worth, a.worth)
	})
	var out []row
	for _, r := range rows {
		if n := len(out); n == 0 || out[n-1].foot != r.foot || out[n-1].worth < r.worth {
			out = append(out, r)
		}
	}
	return out
}

// after gives the sticks from k on of some worth, the most for their length
// first.
func (b *bench) after(k int) []int {
	var out []int
	for j := k; j < len(b.sticks); j++ {
		if b.sticks[j].value > 0 {
			out = append(out, j)
		}
	}
	rate := func(j int) float64 { return float64(b.sticks[j].value) / float64(b.thin[j]) }
	sort.SliceStable(out, func(i, j int) bool { return rate(out[i]) > rate(out[j]) })
	return out
}

// hope gives the most worth that the sticks of rest can add to a row, were
// they divisible: a cut is at least half of each kerf beside it, so that every
// stick takes its thin length, less what the ends of the board give back. It is
// a little too much, for the rounding of float64.
func (b *bench) hope(r row, rest []int) float64 {
	room := float64(b.room()) - b.s.TrimFar - float64(r.length) + b.ends
	if r.foot >= 0 {
		room -= b.feet[r.foot].kerf/2 - 1
	} else {
		room += b.begin
	}
	worth := 0.0
	for _, j := range rest {
		t := b.sticks[j]
		long := float64(b.thin[j]) * float64(t.count)
		if long >= room {
			return (worth + max(room, 0)*float64(t.value)/float64(b.thin[j])) * (1 + 1e-9)
		}
		room -= long
		worth += float64(t.value) * float64(t.count)
	}
	return worth * (1 + 1e-9)
}
