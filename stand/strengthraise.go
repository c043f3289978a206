package stand

import (
	"fmt"
	"math"

	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/statics"
)

// raised is a piece built up where it stands: of each kind of frame one is lifted
// by itself, flat, by two people at opposite sides, whichever pair is hardest on
// it and lets both carry. The worst of all is one case.
func (s *strengthSums) raised() error {
	var worst CaseResult
	seen := map[frameKind]bool{}
	for i, f := range s.in.Layout.Frames {
		if kind := (frameKind{f.Kind, s.in.Frames[i]}); seen[kind] {
			continue
		} else {
			seen[kind] = true
		}
		c, err := s.raise(i)
		if err != nil {
			return err
		}
		if c.Settled && (!worst.Settled || c.Governs.Ratio > worst.Governs.Ratio*(1+sameRatio)) {
			worst = c
		}
	}
	if worst.Settled {
		s.plan.Cases = append(s.plan.Cases, worst)
	}
	return nil
}

// Frames that are alike bear alike.
type frameKind struct {
	kind string
	StrengthFrame
}

// alone is a piece of one frame, with nothing that holds it.
func (in StrengthInput) alone(i int) StrengthInput {
	f := in.Layout.Frames[i]
	in.Layout = layout.Layout{Frames: []layout.Frame{f}, Width: in.Layout.Width, Height: in.Layout.Height}
	in.Frames = []StrengthFrame{in.Frames[i]}
	in.Fixing, in.Base, in.Stand = fixing.Plan{}, BaseJoint{}, nil
	in.Braces, in.Strongbacks, in.States, in.Loads = nil, nil, nil, nil
	return in
}

// raise tries every pair of sides that lifts one frame evenly.
func (s *strengthSums) raise(i int) (CaseResult, error) {
	m := newStrengthModel(s.in.alone(i), s.rules, false)
	name := fmt.Sprintf("built up in place: %s lifted flat by two", s.in.Layout.Frames[i].ID)
	out := CaseResult{StrengthCase: StrengthCase{Name: name, Way: s.in.Bare.Way, Lift: true, Time: s.rules.Time}}
	var ways []wanted
	for _, by := range m.pairs(0) {
		ways = append(ways, wanted{StrengthCase: out.StrengthCase, gravity: statics.Vec{0, s.rules.Handling, 0}, hands: append(m.bothEnds(by[0]), m.bothEnds(by[1])...)})
	}
	m.frames()
	loads := make([]statics.Case, len(ways))
	for k, w := range ways {
		loads[k] = m.load(w)
	}
	p, err := statics.Prepare(s.ctx, &m.Model, statics.Limits{Steps: steps})
	if err != nil {
		return out, err
	}
	for k, w := range ways {
		r, err := p.Solve(s.ctx, loads[k])
		if err != nil {
			return out, err
		}
		if r.Outcome != statics.Settled || !allCarry(r, loads[k].On) { // nobody lifts it so
			continue
		}
		c := CaseResult{StrengthCase: out.StrengthCase, Settled: true}
		s.judge(m, &c, w, r)
		if !out.Settled || c.Governs.Ratio > out.Governs.Ratio*(1+sameRatio) {
			out = c
		}
	}
	out.Governs = out.Governs.of(i)
	for k := range out.Worst {
		out.Worst[k] = out.Worst[k].of(i)
	}
	return out, nil
}

// allCarry says whether no hand has to press down on what it lifts.
func allCarry(r *statics.Result, hands []int) bool {
	least, most := math.Inf(1), math.Inf(-1)
	for _, n := range hands {
		least, most = math.Min(least, r.Springs[n].Along), math.Max(most, r.Springs[n].Along)
	}
	return least*most >= 0 || math.Min(-least, most) < sameLoad*math.Max(-least, most)
}

// of gives a demand on a frame by itself the frame's place in the piece.
func (d Demand) of(frame int) Demand {
	d.Frame = frame
	return d
}

// pairs are the two sides of a frame by which it is lifted most evenly: half way
// between their middles is as near to the frame's as for any two.
func (m *strengthModel) pairs(frame int) [][2]*side {
	var out [][2]*side
	least := math.Inf(1)
	for i, a := range m.sides[frame] {
		for _, b := range m.sides[frame][:i] {
			off := a.middle().Lerp(b.middle(), 1.0/2).Dist(m.in.Layout.Frames[frame].Centre)
			if off < least-sameSpot {
				out, least = nil, off
			}
			if off < least+sameSpot {
				out = append(out, [2]*side{a, b})
			}
		}
	}
	return out
}

func (s *side) middle() geom.Point { return s.line.A.Lerp(s.line.B, 1.0/2) }

// bothEnds are a person's two hands at the ends of a side.
func (m *strengthModel) bothEnds(a *side) []hand {
	return []hand{{mark: m.mark(a.frame, a.number, a.line.A), at: a.line.A}, {mark: m.mark(a.frame, a.number, a.line.B), at: a.line.B}}
}
