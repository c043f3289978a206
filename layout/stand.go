package layout

import (
	"cmp"
	"slices"

	"bowerwright/geom"
)

// stand finds what is on the floor. What is within the joint tolerance of the
// floor is on it: such a crack closes under weight or takes a shim.
func (l *Layout) stand(s Settings) {
	for i := range l.Frames {
		f := &l.Frames[i]
		if low := f.Box.Min.Y; low > s.JointTolerance {
			l.Hanging = append(l.Hanging, Hanging{Frame: i, Clearance: low})
			continue
		}
		l.standFrame(i, s.JointTolerance)
	}
	slices.SortStableFunc(l.Hanging, func(a, b Hanging) int {
		return cmp.Compare(l.Frames[a.Frame].Number, l.Frames[b.Frame].Number)
	})
	l.sortFloor()
}

func (l *Layout) standFrame(i int, tolerance float64) {
	f, n := l.Frames[i], len(l.Frames[i].Outside)
	on := make([]bool, n) // corner belongs to a standing board or a foot
	for k := range f.Sides() {
		a, b := f.Outside[k], f.Outside[(k+1)%n]
		if max(a.Y, b.Y) <= tolerance {
			on[k], on[(k+1)%n] = true, true
			l.Standing = append(l.Standing, Standing{Frame: i, Side: k + 1, From: min(a.X, b.X), To: max(a.X, b.X)})
		}
	}
	for _, k := range []int{0, n - 1} {
		a, b := f.Outside[k], f.Inside[k]
		if f.Open && max(a.Y, b.Y) <= tolerance {
			on[k] = true
			l.Feet = append(l.Feet, Foot{Frame: i, Corner: k + 1, From: min(a.X, b.X), To: max(a.X, b.X)})
		}
	}
	for k, c := range f.Outside {
		if on[k] {
			continue
		}
		if end := k == 0 || k == n-1; f.Open && end && f.Inside[k].Y < c.Y {
			c = f.Inside[k] // sawn square: it stands on its inner edge
		}
		if c.Y <= tolerance {
			l.Tips = append(l.Tips, Tip{Frame: i, Corner: k + 1, X: c.X})
		}
	}
}

func (l *Layout) sortFloor() {
	slices.SortStableFunc(l.Standing, func(a, b Standing) int { return cmp.Compare(a.From, b.From) })
	slices.SortStableFunc(l.Feet, func(a, b Foot) int { return cmp.Compare(a.From, b.From) })
	slices.SortStableFunc(l.Tips, func(a, b Tip) int { return cmp.Compare(a.X, b.X) })
}

// groups collects the frames that hang together through seams.
func (l *Layout) groups() [][]int {
	leader := make([]int, len(l.Frames))
	for i := range leader {
		leader[i] = i
	}
	find := func(i int) int {
		for leader[i] != i {
			leader[i] = leader[leader[i]]
			i = leader[i]
		}
		return i
	}
	for _, s := range l.Seams {
		leader[find(s.Sides[0].Frame)] = find(s.Sides[1].Frame)
	}
	byNumber := make([]int, len(l.Frames))
	for i, f := range l.Frames {
		byNumber[f.Number-1] = i
	}
	var groups [][]int
	at := map[int]int{}
	for _, i := range byNumber {
		g, ok := at[find(i)]
		if !ok {
			g = len(groups)
			at[find(i)] = g
			groups = append(groups, nil)
		}
		groups[g] = append(groups[g], i)
	}
	return groups
}

// lineAbove is how far above each height, in mm, the clear width is taken: just
// over a board's edge that lies exactly there, such as the feet on the floor.
const lineAbove = 1

// clearWidths finds the widest opening at each height.
func (l *Layout) clearWidths(heights []float64) []Clear {
	out := make([]Clear, len(heights))
	for i, h := range heights {
		out[i] = l.clearAt(h)
	}
	return out
}

func (l *Layout) clearAt(height float64) Clear {
	c := Clear{Height: height}
	wood := l.woodAt(height + lineAbove)
	for i := 1; i < len(wood); i++ {
		left, right := wood[i-1].To, wood[i].From
		if right-left > narrowest {
			c.All = append(c.All, geom.Interval{From: left, To: right})
		}
		if right-left > max(c.Width()+sameSpot, narrowest) {
			c.Found, c.Left, c.Right = true, left, right
		}
		wood[i].To = max(wood[i].To, left)
	}
	return c
}

// narrowest is the least width, in mm, called an opening: what is narrower is
// the gap of a seam or a near miss.
const narrowest = DefaultNearMiss

// woodAt lists the stretches of wood along a level line, by their left ends.
func (l *Layout) woodAt(y float64) []geom.Interval {
	var wood []geom.Interval
	for _, f := range l.Frames {
		if y < f.Box.Min.Y || y > f.Box.Max.Y {
			continue
		}
		in := f.Inside.IntervalsAt(y)
		for _, out := range f.Outside.IntervalsAt(y) {
			wood = append(wood, without(out, in)...)
		}
	}
	slices.SortFunc(wood, func(a, b geom.Interval) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To))
	})
	return wood
}

// without cuts holes, sorted and apart, out of a stretch.
func without(whole geom.Interval, holes []geom.Interval) []geom.Interval {
	var left []geom.Interval
	for _, h := range holes {
		if h.To <= whole.From || h.From >= whole.To {
			continue
		}
		if h.From > whole.From {
			left = append(left, geom.Interval{From: whole.From, To: h.From})
		}
		whole.From = h.To
	}
	if whole.From < whole.To {
		left = append(left, whole)
	}
	return left
}
