package stand

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bowerwright/fixing"
	"bowerwright/statics"
	"bowerwright/unit"
)

// drawComb is some frames of a honeycomb, grown one beside another.
func drawComb(t *rapid.T, most int) [][2]float64 {
	at := [][2]float64{{0, 0}}
	for range rapid.IntRange(1, most-1).Draw(t, "more") {
		from := at[rapid.IntRange(0, len(at)-1).Draw(t, "beside")]
		k := rapid.IntRange(0, 5).Draw(t, "way")
		s, c := math.Sincos((30 + 60*float64(k)) * math.Pi / 180)
		to := [2]float64{from[0] + 20*c, from[1] + 20*s}
		if !slices.ContainsFunc(at, func(p [2]float64) bool { return math.Hypot(p[0]-to[0], p[1]-to[1]) < 1 }) {
			at = append(at, to)
		}
	}
	return at
}

// What hangs over heads by one seam, against taking each seam out in turn.
func TestOverheadAgainstTakingOut(t *testing.T) {
	named := 0
	rapid.Check(t, func(r *rapid.T) {
		l := comb(t, 20, drawComb(r, 14)...)
		in := piece(l, fixedBy(l, pair...), 0)
		in.OverHeads = make([]bool, len(l.Frames))
		for i := range in.OverHeads {
			in.OverHeads[i] = rapid.Bool().Draw(r, "over heads")
		}
		s := &strengthSums{in: in, rules: strengthRules()}
		s.overhead()
		stands := slices.Concat(in.standing(), in.held())
		got := map[int]map[int]bool{}
		for _, p := range s.problems {
			got[p.Seam] = map[int]bool{}
			for _, f := range p.Frames {
				got[p.Seam][f] = true
			}
		}
		named += len(got)
		never := overheadBrute(l, stands, in.OverHeads, -1)
		for i, seam := range l.Seams {
			want := overheadBrute(l, stands, in.OverHeads, i)
			maps.DeleteFunc(want, func(f int, _ bool) bool { return never[f] })
			if !maps.Equal(got[seam.Number], want) && len(got[seam.Number])+len(want) > 0 {
				r.Fatalf("seam %d: %v, want %v", seam.Number, got[seam.Number], want)
			}
		}
	})
	if named == 0 {
		t.Error("no case had anything to name")
	}
}

// Own weight alone: contacts begin at no gap, so that all of it k times as heavy
// bears k times as much on every part; a heavier piece never does better.
func TestWeightScales(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		l := comb(t, 20, drawComb(r, 6)...)
		in := piece(l, fixedBy(l, pair...), 0)
		k := rapid.Float64Range(1, 5).Draw(r, "times")
		before := reckon(t, in, strengthRules()).caseOf(t, "own weight")
		for i := range in.Frames {
			in.Frames[i].Mass *= unit.Mass(k)
		}
		after := reckon(t, in, strengthRules()).caseOf(t, "own weight")
		for _, d := range before.Worst {
			if got, want := after.of(t, d.Part).Ratio, k*d.Ratio; math.Abs(got-want) > 1e-6*want+1e-12 {
				r.Fatalf("%s: %v, %v times as heavy %v", d.Part, d.Ratio, k, got)
			}
		}
	})
}

// A push higher up never asks less of the joint to the base, nor moves the piece
// less; a level load that is greater asks more of every part.
func TestHigherAndHarderNeverImproves(t *testing.T) {
	in := heldFlower(t)
	last := map[Part]float64{}
	for _, h := range []float64{10, 20, 30, 40, 50, 60} {
		c := reckon(t, in.pushAt(10, h), strengthRules()).caseOf(t, "pushed backwards")
		for _, p := range []Part{BasePart, MovementPart} {
			if r := c.of(t, p).Ratio; r < last[p]*(1-1e-9) {
				t.Errorf("pushed at %v in: %s %v after %v", h, p, r, last[p])
			} else {
				last[p] = r
			}
		}
	}
	clear(last)
	for _, n := range []float64{20, 40, 80, 160} {
		in.Loads = []WayLoad{{-1, Load{Kind: HallLoad, Force: 1, Height: 700}}}
		in.Loads[0].Load.Force *= PoundsForce(n / 4)
		p := reckon(t, in, strengthRules())
		for _, c := range p.Cases {
			if c.Force == 0 {
				continue
			}
			for _, d := range c.Worst {
				key := Part(fmt.Sprint(d.Part, c.Name[len(c.Name)-9:]))
				if d.Ratio < last[key]*(1-1e-9) {
					t.Errorf("%v: %s %v after %v", n, key, d.Ratio, last[key])
				}
				last[key] = d.Ratio
			}
		}
	}
	if len(last) < 10 {
		t.Errorf("only %d lines were compared", len(last))
	}
}

// One more frame held at the base, or one more screw, never lets a push do more
// work: what stores energy is only added, and contacts begin at no gap, so that
// the work is twice the energy.
func TestHoldingMoreNeverMovesFarther(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		l := comb(t, 20, drawComb(r, 6)...)
		in := piece(l, fixedBy(l, pair...), 0)
		for i := range in.Frames {
			in.Frames[i].Mass = 0
		}
		in = in.pushAt(2, l.Height/inch)
		moved := func(in StrengthInput) float64 {
			m := newStrengthModel(in, strengthRules(), false)
			finish := m.stands()
			push := m.pushes(in.Loads[0].Load)[0]
			m.frames()
			finish()
			load := m.load(push)
			p, err := statics.Prepare(context.Background(), &m.Model, statics.Limits{})
			if err != nil {
				r.Fatal(err)
			}
			res, err := p.Solve(context.Background(), load)
			if err != nil || res.Outcome != statics.Settled {
				r.Fatal(err, res.Outcome)
			}
			work := 0.0
			for _, n := range load.Nodal {
				work += n.Force.Dot(res.Moves[n.Node].Shift)
			}
			return work
		}
		before := moved(in)
		other := in
		other.Base.Frames = append([]int{rapid.IntRange(0, len(l.Frames)-1).Draw(r, "held")}, in.Base.Frames...)
		if after := moved(other); after > before*(1+1e-9) {
			r.Fatalf("with frame %d held the work is %v, without %v", other.Base.Frames[0], after, before)
		}
		other = in
		other.Fixing = in.refixed([]int{rapid.IntRange(1, len(l.Seams)).Draw(r, "seam")}, func(s *fixing.Seam) { s.Fasteners = append(s.Fasteners, s.Fasteners[0]) })
		if after := moved(other); after > before*(1+1e-9) {
			r.Fatalf("with another screw the work is %v, without %v", after, before)
		}
	})
}

// Taking one screw out changes the line of its seam, whichever screw and seam.
func TestEveryScrewCounts(t *testing.T) {
	in := heldFlower(t)
	before := reckon(t, in, strengthRules().withRock())
	for _, s := range in.Fixing.Seams {
		for k := range s.Fasteners {
			fewer := in
			fewer.Fixing = in.refixed([]int{s.Number}, func(f *fixing.Seam) { f.Fasteners = slices.Delete(f.Fasteners, k, k+1) })
			after := reckon(t, fewer, strengthRules().withRock())
			a, b := lineOf(before, s.Number), lineOf(after, s.Number)
			if a.Ratio == b.Ratio || a.Seam == 0 || b.Seam == 0 {
				t.Errorf("seam %d without screw %d: %v as before", s.Number, k, b.Ratio)
			}
		}
	}
}

func lineOf(p StrengthPlan, seam int) Demand {
	for _, d := range p.Seams {
		if d.Seam == seam {
			return d
		}
	}
	return Demand{}
}
