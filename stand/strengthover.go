package stand

import "slices"

// overhead finds the frames over people's heads that a single seam holds: two
// fixings that do not depend on each other are then wanted (common practice, no
// source).
func (s *strengthSums) overhead() {
	over := s.in.overHeads(s.rules)
	for i, seam := range s.in.Layout.Seams {
		var hang []int
		for _, f := range s.in.cutOff(i) {
			if over[f] && !slices.Contains(s.in.Tethered, f) {
				hang = append(hang, f)
			}
		}
		if hang != nil {
			s.problems = append(s.problems, Problem{Code: OneFixing, Seam: seam.Number, Frames: hang, Names: s.in.names(hang)})
		}
	}
}

// underArch is how much lower than over heads a frame may be that counts when it
// lies over an arch people go through, mm: 1 1/2 ft, from a head to a shoulder
// (common practice, no source).
const underArch = 18 * anInch

func (in StrengthInput) overHeads(rules StrengthRules) []bool {
	if in.OverHeads != nil {
		return in.OverHeads
	}
	out := make([]bool, len(in.Layout.Frames))
	for i, f := range in.Layout.Frames {
		low := f.Box.Min.Y + in.Lifted
		out[i] = low >= rules.Overhead
		for k, arch := range in.Layout.Frames {
			if k != i && arch.Open && low >= rules.Overhead-underArch && f.Box.Max.X > arch.Box.Min.X && f.Box.Min.X < arch.Box.Max.X {
				out[i] = true
			}
		}
	}
	return out
}

// cutOff are the frames that a chain of seams no longer joins to one that stands
// when a seam is gone, though one did before; by index.
func (in StrengthInput) cutOff(gone int) []int {
	before, after := in.reached(-1), in.reached(gone)
	var out []int
	for i := range before {
		if before[i] && !after[i] {
			out = append(out, i)
		}
	}
	return out
}

// reached says which frames are joined to the floor or the base, one seam left
// out.
func (in StrengthInput) reached(gone int) []bool {
	out := make([]bool, len(in.Layout.Frames))
	next := append(in.standing(), in.held()...)
	for len(next) > 0 {
		f := next[0]
		next = next[1:]
		if out[f] {
			continue
		}
		out[f] = true
		for i, s := range in.Layout.Seams {
			for k, e := range s.Sides {
				if other := s.Sides[1-k].Frame; i != gone && e.Frame == f && !out[other] {
					next = append(next, other)
				}
			}
		}
	}
	return out
}
