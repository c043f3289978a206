package stand

import "slices"

// overhead finds the frames over people's heads that a single seam holds: two
// fixings that do not depend on each other are then wanted (common practice, no
// source).
func (s *strengthSums) overhead() {
	over, chain := s.in.overHeads(s.rules), s.in.chain()
	before := chain.reached(-1)
	for i, seam := range s.in.Layout.Seams {
		var hang []int
		after := chain.reached(i)
		for f := range over {
			if before[f] && !after[f] && over[f] && !slices.Contains(s.in.Tethered, f) {
				hang = append(hang, f)
			}
		}
		if hang != nil {
			s.problems = append(s.problems, Problem{Code: OneFixing, Seam: seam.Number, Frames: hang, Names: s.in.names(hang)})
		}
	}
}

func (in StrengthInput) overHeads(rules StrengthRules) []bool {
	if in.OverHeads != nil {
		return in.OverHeads
	}
	out := make([]bool, len(in.Layout.Frames))
	for i, f := range in.Layout.Frames {
		low := f.Box.Min.Y + in.Lifted
		out[i] = low >= rules.Overhead
		for k, arch := range in.Layout.Frames {
			if k != i && arch.Open && low >= rules.Overhead-rules.UnderArch && f.Box.Max.X > arch.Box.Min.X && f.Box.Min.X < arch.Box.Max.X {
				out[i] = true
			}
		}
	}
	return out
}

// A chain says which frames are joined to the floor or the base through seams.
type chain struct {
	from []int
	to   [][]link // by frame
}

type link struct{ seam, frame int }

func (in StrengthInput) chain() chain {
	c := chain{from: slices.Concat(in.standing(), in.held()), to: make([][]link, len(in.Layout.Frames))}
	for i, s := range in.Layout.Seams {
		a, b := s.Sides[0].Frame, s.Sides[1].Frame
		c.to[a], c.to[b] = append(c.to[a], link{i, b}), append(c.to[b], link{i, a})
	}
	return c
}

// reached says which are, one seam left out.
func (c chain) reached(gone int) []bool {
	out := make([]bool, len(c.to))
	next := slices.Clone(c.from)
	for len(next) > 0 {
		f := next[len(next)-1]
		next = next[:len(next)-1]
		if out[f] {
			continue
		}
		out[f] = true
		for _, l := range c.to[f] {
			if l.seam != gone && !out[l.frame] {
				next = append(next, l.frame)
			}
		}
	}
	return out
}
