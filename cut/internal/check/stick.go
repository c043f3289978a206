package check

import (
	"cmp"
	"math"
	"slices"
)

// A lie is one way to see a stick: the face that is at the bottom, and the
// settings read from there.
type lie struct{ bottom, left, right float64 }

// lies gives the ways a part may lie on a board. Read from the other face a
// part has that face's length and the settings' signs turned round.
func lies(s Stock, p Part) []lie {
	out := []lie{{p.Outside, p.Left, p.Right}}
	if s.Turning {
		top := p.Outside - s.Depth*(math.Tan(p.Left)+math.Tan(p.Right))
		out = append(out, lie{p.Outside, p.Right, p.Left}, lie{top, -p.Left, -p.Right}, lie{top, -p.Right, -p.Left})
	}
	return out
}

// alike is the difference in radians that no cut shows: 1 nm over a metre.
const alike = 1e-9

func (a lie) same(b lie) bool {
	return math.Abs(a.bottom-b.bottom) <= near/2 && math.Abs(a.left-b.left) < alike && math.Abs(a.right-b.right) < alike
}

// A stick is a part, or several that are the same.
type stick struct {
	parts       []int
	lies        []lie
	short, long float64
	count       int
	value       int64
}

// sticks gives the sticks wanted in bench order: setting where that comes
// first, shorter face, longer face, first part. Parts of different value are kept apart.
func sticks(s Stock, parts []Part, value []int64) []stick {
	var out []stick
	for i, p := range parts {
		if p.Count == 0 {
			continue
		}
		v := int64(0)
		if value != nil {
			v = value[i]
		}
		at := slices.IndexFunc(out, func(t stick) bool {
			return t.value == v && slices.ContainsFunc(lies(s, p), t.lies[0].same)
		})
		if at < 0 {
			q := drawn(s, p)
			at = len(out)
			out = append(out, stick{lies: lies(s, p), short: q.short(), long: max(q.br-q.bl, q.tr-q.tl), value: v})
		}
		out[at].parts = append(out[at].parts, i)
		out[at].count += p.Count
	}
	slices.SortStableFunc(out, func(a, b stick) int {
		if s.BySetting {
			if c := slices.Compare(a.settings(), b.settings()); c != 0 {
				return c
			}
		}
		return cmp.Or(cmp.Compare(math.Round(a.short), math.Round(b.short)),
			cmp.Compare(math.Round(a.long), math.Round(b.long)), cmp.Compare(a.parts[0], b.parts[0]))
	})
	return out
}

// settings gives a stick's settings without their signs, the larger first, in
// steps that no cut shows.
func (t stick) settings() []float64 {
	l, r := math.Round(math.Abs(t.lies[0].left)/alike), math.Round(math.Abs(t.lies[0].right)/alike)
	return []float64{max(l, r), min(l, r)}
}

// ranks gives every part its place in bench order.
func ranks(s Stock, parts []Part) []int {
	rank := make([]int, len(parts))
	for i, t := range sticks(s, parts, nil) {
		for _, p := range t.parts {
			rank[p] = i
		}
	}
	return rank
}
