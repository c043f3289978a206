package layout

import (
	"slices"

	"bowerwright/geom"
	"bowerwright/unit"
)

// Back gives the layout as it is seen from behind, left for right; numbers,
// side numbers and places along sides stay with their frames. The back of the
// back is the front.
func Back(l Layout) Layout {
	flip := func(p geom.Point) geom.Point { return geom.Point{X: l.Width - p.X, Y: p.Y} }
	b := l
	b.FromBack, b.Origin = !l.FromBack, flip(l.Origin)
	b.Frames = each(l.Frames, func(f Frame) Frame {
		f.Move = geom.Move{Mirror: !f.Move.Mirror, Turn: -f.Move.Turn, Shift: flip(f.Move.Shift)}
		f.Outside, f.Inside = each(f.Outside, flip), each(f.Inside, flip)
		f.Box, f.Centre = f.wood(), flip(f.Centre)
		return f
	})
	b.Seams = each(l.Seams, func(s Seam) Seam {
		s.From, s.To = leftFirst(flip(s.From), flip(s.To))
		return s
	})
	b.Touches = each(l.Touches, func(t Touch) Touch { t.At = flip(t.At); return t })
	b.Misses = each(l.Misses, func(m Miss) Miss {
		m.At, m.Towards.X = flip(m.At), -m.Towards.X
		return m
	})
	b.Overlaps = each(l.Overlaps, func(o Overlap) Overlap { o.At = flip(o.At); return o })
	turnOver := func(p geom.Polygon) geom.Polygon {
		q := each(p, flip)
		slices.Reverse(q)
		return q
	}
	b.Outline, b.Voids = each(l.Outline, turnOver), each(l.Voids, turnOver)
	b.flipFloor(l)
	b.Hanging = slices.Clone(l.Hanging)
	b.Groups = each(l.Groups, func(g []int) []int { return slices.Clone(g) })
	return b
}

// flipFloor turns what is measured along the floor of l.
func (l *Layout) flipFloor(front Layout) {
	w := l.Width
	l.Standing = each(front.Standing, func(s Standing) Standing { s.From, s.To = w-s.To, w-s.From; return s })
	l.Feet = each(front.Feet, func(f Foot) Foot { f.From, f.To = w-f.To, w-f.From; return f })
	l.Tips = each(front.Tips, func(t Tip) Tip { t.X = w - t.X; return t })
	l.sortFloor()
	l.Clear = each(front.Clear, func(c Clear) Clear {
		if c.Found {
			c.Left, c.Right = w-c.Right, w-c.Left
		}
		all := each(c.All, func(i geom.Interval) geom.Interval { return geom.Interval{From: w - i.To, To: w - i.From} })
		slices.Reverse(all)
		c.All = all
		return c
	})
}

// each is a new list of f of every element; nil stays nil.
func each[S ~[]E, E, T any](list S, f func(E) T) []T {
	if list == nil {
		return nil
	}
	out := make([]T, len(list))
	for i, e := range list {
		out[i] = f(e)
	}
	return out
}

// A Shift is how a frame moved from one layout to another, each measured from
// its own left end and floor.
type Shift struct {
	ID   string
	By   geom.Point // of the centre, mm
	Turn unit.Angle // anticlockwise
}

// Moved lists, in the order of b, how the frames that both layouts have lie in b
// compared with a: b as built against a as asked for, say.
func Moved(a, b Layout) []Shift {
	before := make(map[string]Frame, len(a.Frames))
	for _, f := range a.Frames {
		before[f.ID] = f
	}
	var shifts []Shift
	for _, f := range b.Frames {
		if was, ok := before[f.ID]; ok {
			turn := unit.Angle(wrap(f.Move.Turn - was.Move.Turn))
			shifts = append(shifts, Shift{ID: f.ID, By: f.Centre.Sub(was.Centre), Turn: turn})
		}
	}
	return shifts
}
