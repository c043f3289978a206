package stand

import (
	"math"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"
)

// An arch lifted flat by its two legs, by hand: each leg lies on the hands at its
// ends, and the beam on the knees, as legs with free feet hold back no twist. The
// middle of a leg bears w H²/8.
func TestArchLiftedByItsLegs(t *testing.T) {
	in := StrengthInput{Layout: post(t), Frames: []StrengthFrame{edge34(0.4, 12)}, Base: BaseJoint{Method: clamped}}
	in.Bare = pane(1, 1, 1, 0, 0)
	in.Bare.Weights = nil
	r := strengthRules()
	c := reckon(t, in, r).caseOf(t, "built up in place: arch")
	h, l := 83.625, 35.25
	w := 12 / (2*h + l)
	d := c.of(t, BoardPart)
	share(t, "leg", float64(d.Stress)/psi, r.Handling*w*h*h/8/(0.75*3.5*3.5/6), 1e-3)
	if d.Frame != 0 || d.Side == 2 || !c.Lift || c.Time != r.Time {
		t.Errorf("%+v", c)
	}
}

// A regular frame is lifted by any pair alike; twice the handling is twice the
// demand; of frames of several weights the heaviest governs, and it is named.
func TestFramesLiftedByThemselves(t *testing.T) {
	in := heldFlower(t)
	r := strengthRules()
	before := reckon(t, in, r)
	one := before.caseOf(t, "built up in place: hex-1")
	if len(before.Cases) > MostCases {
		t.Errorf("%d cases", len(before.Cases))
	}
	in.Frames[5].Mass *= 3
	heavy := reckon(t, in, r).caseOf(t, "built up in place: hex-6")
	share(t, "three times as heavy", heavy.Governs.Ratio, 3*one.Governs.Ratio, 1e-9)
	for _, d := range append(heavy.Worst, heavy.Governs) {
		if d.Frame != 5 || d.Name != "hex-6" {
			t.Errorf("%+v", d)
		}
	}
	r.Handling *= 2
	share(t, "handled twice as hard", reckon(t, in, r).caseOf(t, "built up in place").Governs.Ratio, 2*heavy.Governs.Ratio, 1e-9)
	for _, d := range heavy.Worst {
		if d.Part != CornerPart && d.Part != BoardPart {
			t.Errorf("a frame by itself has no %s", d.Part)
		}
	}
}

// A hexagon is lifted by opposite sides, its three pairs all tried; a frame of
// five by sides that are two apart; four hands have the middle in their midst as
// nearly as two sides let them.
func TestPairsOfSides(t *testing.T) {
	in := heldFlower(t)
	m := newStrengthModel(in.alone(3), strengthRules(), false)
	pairs := m.pairs(0)
	if len(pairs) != 3 {
		t.Fatalf("%d pairs", len(pairs))
	}
	for _, p := range pairs {
		if p[0].number-p[1].number != 3 {
			t.Errorf("sides %d and %d", p[0].number, p[1].number)
		}
		hands := append(m.bothEnds(p[0]), m.bothEnds(p[1])...)
		sum := hands[0].at
		for _, h := range hands[1:] {
			sum = sum.Add(h.at)
		}
		if d := sum.Mul(0.25).Dist(in.Layout.Frames[3].Centre); d > 1e-6 {
			t.Errorf("the hands are %v mm off the middle", d)
		}
	}
	five := in.alone(0)
	f := &five.Layout.Frames[0]
	f.Outside, f.Inside = nil, nil
	for k := range 5 {
		d := geom.Point{X: 1}.Rot(2 * math.Pi * float64(k) / 5)
		f.Outside, f.Inside = append(f.Outside, f.Centre.Add(d.Mul(300))), append(f.Inside, f.Centre.Add(d.Mul(280)))
	}
	pairs = newStrengthModel(five, strengthRules(), false).pairs(0)
	if len(pairs) != 5 {
		t.Errorf("%d pairs of five", len(pairs))
	}
	for _, p := range pairs {
		if d := p[0].number - p[1].number; d != 2 && d != 3 {
			t.Errorf("sides %d and %d of five", p[0].number, p[1].number)
		}
	}
}

// Built up in place is another case than carried: one or the other, and with
// the change that builds it up the lifts of the whole go.
func TestLiftedWholeOrInPlace(t *testing.T) {
	in, _ := liftedFlower(t)
	whole := reckon(t, in, strengthRules())
	in = Change{Kind: InPlace}.Apply(in, strengthRules())
	place := reckon(t, in, strengthRules())
	names := func(p StrengthPlan) (all string) {
		for _, c := range p.Cases {
			if c.Lift {
				all += c.Name + ";"
			}
		}
		return all
	}
	for _, want := range []string{"carried flat by 2 where each", "carried flat by 2 where one", "tilted up", "turned over"} {
		if !strings.Contains(names(whole), want) || strings.Contains(names(place), want) {
			t.Errorf("%q: whole %s in place %s", want, names(whole), names(place))
		}
	}
	if strings.Contains(names(whole), "built up") || strings.Count(names(place), ";") != 1 {
		t.Errorf("whole %s in place %s", names(whole), names(place))
	}
	lone := place.caseOf(t, "built up").Governs.Ratio
	if w := whole.caseOf(t, "carried flat by 2 where one").Governs.Ratio; !(lone < w/2) {
		t.Errorf("one frame by itself %v, all of it %v", lone, w)
	}
}

// overheadBrute names the frames over heads that nothing holds any more when one
// seam is gone, by painting what is joined to the floor until nothing changes.
func overheadBrute(l layout.Layout, stands []int, over []bool, gone int) map[int]bool {
	held := map[int]bool{}
	for _, f := range stands {
		held[f] = true
	}
	for changed := true; changed; {
		changed = false
		for i, s := range l.Seams {
			a, b := s.Sides[0].Frame, s.Sides[1].Frame
			if i != gone && held[a] != held[b] {
				held[a], held[b], changed = true, true, true
			}
		}
	}
	out := map[int]bool{}
	for f := range l.Frames {
		if over[f] && !held[f] {
			out[f] = true
		}
	}
	return out
}

// The picture of a loose frame is that of a rigid one: no two of its corners come
// nearer or go apart, and at least one moves.
func TestLoosePictureIsRigid(t *testing.T) {
	l := comb(t, 20, [2]float64{0, 0}, [2]float64{0, 20}, [2]float64{20 * math.Cos(math.Pi/6), 30})
	in := piece(l, fixedBy(l, pair...), 0).pushAt(2, 40)
	for i, s := range l.Seams {
		if f := l.Frames; f[s.Sides[0].Frame].ID == "hex-3" || f[s.Sides[1].Frame].ID == "hex-3" {
			in.Fixing.Seams[i].Fasteners = nil
		}
	}
	p := reckonAny(t, in)
	if len(p.Loose) == 0 {
		t.Fatal("nothing is loose")
	}
	for _, loose := range p.Loose {
		most := 0.0
		for i, a := range loose.Moves {
			most = math.Max(most, math.Hypot(a.Right, math.Hypot(a.Back, a.Up)))
			for _, b := range loose.Moves[:i] {
				if a.Frame != b.Frame {
					continue
				}
				d := b.At.Sub(a.At)
				if apart := d.X*(b.Right-a.Right) + d.Y*(b.Up-a.Up); math.Abs(apart) > 1e-6*d.Len() {
					t.Errorf("corners %d and %d of frame %d come apart by %v", a.Corner, b.Corner, a.Frame, apart/d.Len())
				}
			}
		}
		if !(most > 0.01) {
			t.Errorf("%+v: nothing moves", loose.Frames)
		}
	}
}
