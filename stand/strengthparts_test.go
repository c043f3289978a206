package stand

import (
	"context"
	"math"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/dressing"
	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/unit"
)

// Every assumption of strength is read, and a change of it changes the rules.
func TestEveryAssumptionOfStrengthCounts(t *testing.T) {
	book := assume.BuiltInBook()
	before := StrengthRulesFrom(book.Reader())
	n := 0
	for _, v := range book.Values() {
		if !strings.HasPrefix(string(v.ID), "strength.") {
			continue
		}
		n++
		to := v.Low
		if to == v.Value {
			to = v.High
		}
		other, err := book.With(assume.Job, v.ID, to)
		if err != nil {
			t.Fatal(err)
		}
		if StrengthRulesFrom(other.Reader()) == before {
			t.Errorf("%s changes nothing", v.ID)
		}
	}
	if n < 30 {
		t.Errorf("only %d", n)
	}
}

// post is an arch of two posts and a beam, in inches, open below.
func post(t testing.TB) layout.Layout {
	t.Helper()
	at := func(pts ...float64) geom.Polygon {
		var p geom.Polygon
		for i := 0; i < len(pts); i += 2 {
			p = append(p, geom.Point{X: pts[i] * inch, Y: pts[i+1] * inch})
		}
		return p
	}
	// Counter-clockwise, from the foot on the right.
	k := layout.Kind{Name: "arch", Open: true, Outside: at(36, 0, 36, 84, 0, 84, 0, 0), Inside: at(35.25, 0, 35.25, 83.25, 0.75, 83.25, 0.75, 0)}
	l, problems := layout.Build([]layout.Kind{k}, []layout.Place{{ID: "arch", Kind: "arch", At: &geom.Point{}}}, layout.Settings{})
	if len(problems) > 0 {
		t.Fatalf("%+v", problems)
	}
	return l
}

func edge34(gravity float64, pounds float64) StrengthFrame {
	return StrengthFrame{Gravity: gravity, Mass: kilos(pounds), Boards: frame.Boards{Thickness: unit.Inch * 3 / 4, Width: unit.Inch * 7 / 2, OnEdge: true}}
}

// A portal pushed along at its beam: the moments at feet and knees by the closed
// form (Hh/2)(3k+1)/(6k+1) and (Hh/2) 3k/(6k+1), k = h/l of beams alike, on the
// centre lines.
func TestPortalByHand(t *testing.T) {
	in := StrengthInput{Layout: post(t), Frames: []StrengthFrame{edge34(0.4, 0)}, Base: BaseJoint{Method: clamped}}
	in.Bare = pane(in.Layout.Width, in.Layout.Height, 1, 0, 0)
	in.Bare.Weights = nil
	in = in.pushAt(10, 84)
	rules := strengthRules()
	c := reckon(t, in, rules).caseOf(t, "pushed along")
	h, l := 83.625, 35.25
	k := h / l
	foot, knee := 10*h/2*(3*k+1)/(6*k+1), 10*h/2*3*k/(6*k+1)
	along := 10 * h * (1 - (3*k+1)/(6*k+1)) / l // pull in the posts
	s := 3.5 * 0.75 * 0.75 / 6
	share(t, "boards", float64(c.of(t, BoardPart).Stress)/psi, foot/s+along/(0.75*3.5), 2e-3)
	mitre := 3.5 * math.Pow(0.75*math.Sqrt2, 2) / 6
	share(t, "mitre", float64(c.of(t, CornerPart).Stress)/psi, knee/mitre, 0.02)
}

// A board that is bent: what is allowed is a tenth of what clear wood breaks at.
func TestBoardsAllow(t *testing.T) {
	in := StrengthInput{Layout: post(t), Frames: []StrengthFrame{edge34(0.4, 0)}, Base: BaseJoint{Method: clamped}}
	in.Bare = pane(1, 1, 1, 0, 0)
	in.Bare.Weights = nil
	d := reckon(t, in.pushAt(10, 84), strengthRules()).caseOf(t, "pushed along").of(t, BoardPart)
	share(t, "ratio", d.Plain, float64(d.Stress)/psi/(0.1*25700*math.Pow(0.4, 1.25)), 1e-9)
	share(t, "for minutes", d.Ratio, d.Plain/1.6, 1e-9)
}

// stack is two hexagons on each other, screwed up into the lower one.
func stack(t testing.TB) StrengthInput {
	t.Helper()
	l := comb(t, 20, [2]float64{0, 0}, [2]float64{0, 20})
	in := piece(l, fixedBy(l, pair...), 0)
	in.Base = BaseJoint{Method: ScrewedUp, Sheet: 0.75 * inch}
	return in.pushAt(2, 40)
}

// The joint to the base by hand: two screws at mid depth against an edge, 2 lb at
// 40 in less half a board; T = M / (2 x lever), lever to the contacts near the
// edge. Screwed up through 3/4 in with 1/2 in of hold.
func TestJointToTheBase(t *testing.T) {
	in := stack(t)
	for i := range in.Frames {
		in.Frames[i].Mass = 0
	}
	d := reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, BasePart)
	share(t, "pull", pounds(d.Pull), 2*(40-0.375)/2/1.70, 2e-3)
	share(t, "slide", pounds(d.Slide), 1, 1e-3)
	share(t, "ratio", d.Plain, together(pounds(d.Pull), 1, 30.2875, inPounds(Dowel{Diameter: numberEight, Root: rootOfEight, Length: 1.25 * inch,
		Side: 0.75 * inch, Hold: inch / 2, HeadGravity: 0.42, HoldGravity: 0.36}.Lateral().Least)*0.50813), 3e-3)
	if d.Frame != 0 || !strings.Contains(d.Where(), "hex-1 to the base") {
		t.Errorf("%+v", d)
	}
}

// Brackets front and back have a longer lever than screws at mid depth, and two
// rows of screws than one.
func TestWaysToHold(t *testing.T) {
	in := stack(t)
	pull := func(b BaseJoint) float64 {
		in.Base = b
		return float64(reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, BasePart).Pull)
	}
	oneRow, twoRows := pull(BaseJoint{Method: ScrewedUp}), pull(BaseJoint{Method: ScrewedUp, Rows: 2})
	brackets := pull(BaseJoint{Method: Bracketed})
	if !(twoRows < oneRow && brackets < twoRows && brackets > 0) {
		t.Errorf("one row %v, two %v, brackets %v", oneRow, twoRows, brackets)
	}
	in.Base = BaseJoint{Method: Bracketed, Rows: 1} // behind alone
	p := reckon(t, in, strengthRules())
	if d := p.caseOf(t, "pushed forwards").of(t, BasePart); !(float64(d.Pull) > brackets/2) {
		t.Errorf("brackets behind alone hold forwards by %+v", d)
	}
	if d := p.caseOf(t, "pushed backwards").of(t, MovementPart); d.Word != Over {
		t.Errorf("brackets behind alone hold backwards: %+v", d)
	}
	if more := pull(BaseJoint{Method: ScrewedUp, Each: 6}); !(more < oneRow/2) {
		t.Errorf("six screws pull %v, two %v", more, oneRow)
	}
	if bolts := reckonBase(t, in, BaseJoint{Method: BoltedDown}); !(bolts.Ratio < reckonBase(t, in, BaseJoint{Method: ScrewedUp}).Ratio) {
		t.Errorf("bolts %+v", bolts)
	}
}

func reckonBase(t *testing.T, in StrengthInput, b BaseJoint) Demand {
	in.Base = b
	return reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, BasePart)
}

// No screw is pulled out of end grain: an arch screwed up through its feet holds
// nothing back, brackets do.
func TestFeetAreEndGrain(t *testing.T) {
	in := StrengthInput{Layout: post(t), Frames: []StrengthFrame{edge34(0.4, 12)}, Base: BaseJoint{Method: ScrewedUp}}
	in.Bare = pane(1, 1, 1, 0, 0)
	in.Bare.Weights = nil
	in = in.pushAt(5, 60)
	if d := reckonBase(t, in, in.Base); !math.IsInf(d.Ratio, 1) || d.Word != Over {
		t.Errorf("%+v", d)
	}
	if d := reckonBase(t, in, BaseJoint{Method: Bracketed}); !(d.Ratio > 0 && d.Ratio < 10) {
		t.Errorf("%+v", d)
	}
}

// A piece that only stands, pushed: it goes over, which is not a loose frame.
func TestStandsAlone(t *testing.T) {
	in := stack(t)
	in.Base = BaseJoint{}
	p := reckon(t, in.pushAt(20, 40), strengthRules())
	if c := p.caseOf(t, "pushed backwards"); c.Settled || !math.IsInf(c.Governs.Ratio, 1) || p.Word != Over {
		t.Errorf("%+v", c)
	}
	if c := p.caseOf(t, "own weight"); !c.Settled || c.Governs.Word == Over {
		t.Errorf("%+v", c)
	}
}

// Wet, driven again, corners with a block: each by its factor.
func TestFactors(t *testing.T) {
	in := stack(t)
	dry := reckon(t, in, strengthRules()).caseOf(t, "pushed backwards")
	in.Damp = true
	wet := reckon(t, in, strengthRules()).caseOf(t, "pushed backwards")
	for _, p := range []Part{SeamPart, CornerPart, BoardPart, BasePart} {
		share(t, "damp: "+string(p), wet.of(t, p).Ratio, dry.of(t, p).Ratio/0.7, 1e-9)
	}
	in.Damp = false
	in.Fixing.Seams[0].Notes = []fixing.Note{fixing.Redriven}
	again := reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, SeamPart)
	share(t, "driven again", again.Ratio, dry.of(t, SeamPart).Ratio/0.7, 0.02)
	for choice, by := range map[making.Corner]float64{making.Blocks: 2, making.Plates: 2, making.Splines: 2, making.Brads: 1} {
		for i := range in.Frames {
			in.Frames[i].Corner = choice
		}
		share(t, string(choice), reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, CornerPart).Ratio, dry.of(t, CornerPart).Ratio/by, 1e-9)
	}
}

// A wall and its mirror image bear the same; one farther back, too.
func TestMirrorAndDepth(t *testing.T) {
	at := [][2]float64{{0, 0}, {0, 20}, {20 * math.Cos(math.Pi/6), 10}, {20 * math.Cos(math.Pi/6), 30}}
	var mirrored [][2]float64
	for _, p := range at {
		mirrored = append(mirrored, [2]float64{-p[0], p[1]})
	}
	a, b := comb(t, 20, at...), comb(t, 20, mirrored...)
	x, y := piece(a, fixedBy(a, pair...), 0).pushAt(3, 50), piece(b, fixedBy(b, pair...), 0).pushAt(3, 50)
	p, q := reckon(t, x, strengthRules()), reckon(t, y, strengthRules())
	share(t, "mirror image", q.caseOf(t, "pushed backwards").of(t, SeamPart).Ratio, p.caseOf(t, "pushed backwards").of(t, SeamPart).Ratio, 1e-6)
	for i := range x.Frames {
		x.Frames[i].Front = 100
	}
	share(t, "farther back", reckon(t, x, strengthRules()).Governs.Ratio, p.Governs.Ratio, 1e-9)
}

// Weight of dressing comes to what it is, wherever it hangs; wind, to its force
// at its height.
func TestLoadsAreWhole(t *testing.T) {
	l := comb(t, 20, flower(20)...)
	in := piece(l, fixedBy(l, pair...), 1)
	hung := func(on dressing.Region, back float64) dressing.State {
		s := in.Bare
		s.Way = "dressed"
		for range in.Frames {
			s.Weights = append(s.Weights, dressing.Weight{})
		}
		s.Weights = append(s.Weights, dressing.Weight{What: "greenery", Mass: 3, Wet: 6, At: l.Frames[0].Centre, Back: back})
		s.Layers = []dressing.Hung{{Layer: dressing.Layer{On: on}, Mass: 3, Wet: 6}}
		return s
	}
	for _, on := range []dressing.Region{{}, {Frames: []int{3}}, {From: 500, To: 900}, {From: 1e6}, {Shapes: []geom.Polygon{{{X: 0, Y: 0}, {X: 700, Y: 0}, {X: 0, Y: 700}}}}} {
		m := newStrengthModel(in, strengthRules(), false)
		finish := m.stands()
		s := hung(on, -40)
		w := m.own()
		w.state = &s
		gust := wanted{StrengthCase: StrengthCase{Force: 100, At: 700}, toward: direction(geom.Point{}).Add([3]float64{0, 1, 0})}
		m.frames()
		finish()
		down, lever := 0.0, 0.0
		for _, n := range m.load(w).Nodal {
			down += n.Force[2]
			lever += n.Force[2] * (m.At(n.Node)[1] + n.Arm[1])
		}
		share(t, "weight, wet", -down, 6*gravity, 1e-9)
		share(t, "in front", lever/down, -40, -1e-9)
		force, moment := 0.0, 0.0
		for _, sp := range m.load(gust).Spread {
			mid, long, _ := m.stickMid(sp.Member)
			force, moment = force+sp.Force[1]*long, moment+sp.Force[1]*long*mid.Y
		}
		share(t, "wind", force, 100, 1e-9)
		share(t, "its height", moment/force, 700, 1e-6)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := Strength(ctx, stack(t), strengthRules()); err == nil {
		t.Error("a cancelled context gives a plan")
	}
}
