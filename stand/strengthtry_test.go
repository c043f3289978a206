package stand

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/base"
	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/making"
	"bowerwright/unit"
)

func try(t *testing.T, in StrengthInput, changes ...Change) (before StrengthPlan, v Verdict) {
	t.Helper()
	before = reckon(t, in, strengthRules())
	v, err := Try(context.Background(), in, strengthRules(), before, changes...)
	if err != nil {
		t.Fatal(err)
	}
	return before, v
}

func heldFlower(t testing.TB) StrengthInput {
	l := comb(t, 20, flower(20)...)
	in := piece(l, fixedBy(l, pair...), 1)
	in.Base = BaseJoint{Method: Bracketed}
	return in.pushAt(20, 60)
}

// Every way out says what it is, leaves the input as it was, and the verdict is
// that of the piece with the change.
func TestEveryWayOut(t *testing.T) {
	in := heldFlower(t)
	bat := in.battensAt(false, false)
	for _, c := range []struct {
		change Change
		says   string
		helps  bool
	}{
		{Change{Kind: SecondScrew, Seams: []int{1, 2}}, "seams 1 and 2", true},
		{Change{Kind: UseBolts, Seams: []int{11}}, "seam 11", true},
		{Change{Kind: Reinforce, Corner: making.Blocks, Frames: []int{1}}, "corner block at every corner of hex-2", true},
		{Change{Kind: HoldMore, Frames: []int{2, 6}}, "hold hex-3 and hex-7", true},
		{Change{Kind: HoldBetter, Base: BaseJoint{Method: BoltedDown}}, "bolts with washers", true},
		{Change{Kind: RearBrace, Braces: in.bracesAt(2, 0.75)}, "2 braces", true},
		{Change{Kind: AddBattens, Strongbacks: bat[:1]}, "1 strongback", true},
		{Change{Kind: SecondFixing, Frames: []int{4}}, "retaining line to hex-5", false},
	} {
		before, v := try(t, in, c.change)
		if got := v.Says[0]; !strings.Contains(got, c.says) {
			t.Errorf("%q does not say %q", got, c.says)
		}
		again := reckon(t, in, strengthRules())
		if again.Governs != before.Governs {
			t.Fatalf("%s: the input was changed", v.Says[0])
		}
		with := reckon(t, c.change.Apply(in, strengthRules()), strengthRules())
		if with.Governs != v.After || with.Word != v.Word {
			t.Errorf("%s: %+v is not %+v", v.Says[0], v.After, with.Governs)
		}
		if !c.helps && v.Helps {
			t.Errorf("%s helps", v.Says[0])
		}
		if v.Helps != (v.After.Ratio < before.Governs.Ratio*(1-sameRatio) || with.lefts < before.lefts-1e-9) {
			t.Errorf("%s: %v to %v, helps %v", v.Says[0], before.Governs.Ratio, v.After.Ratio, v.Helps)
		}
	}
}

// seam and corner ratios of the flower fall when they should.
func TestWaysEaseTheirPart(t *testing.T) {
	in := heldFlower(t)
	at := func(in StrengthInput, p Part) float64 {
		return reckon(t, in, strengthRules()).caseOf(t, "pushed backwards").of(t, p).Ratio
	}
	all := make([]int, len(in.Layout.Seams))
	for i := range all {
		all[i] = i + 1
	}
	rules := strengthRules()
	for _, c := range []struct {
		change Change
		part   Part
		least  float64 // times better, at the least
	}{
		{Change{Kind: SecondScrew, Seams: all}, SeamPart, 1.5},
		{Change{Kind: UseBolts, Seams: all}, SeamPart, 2},
		{Change{Kind: Reinforce, Corner: making.Splines, Frames: in.plain(true)}, CornerPart, 1.99},
		{Change{Kind: HoldMore, Frames: []int{2, 6}}, SeamPart, 1.4},
		{Change{Kind: HoldMore, Frames: []int{2, 6}}, CornerPart, 2},
		{Change{Kind: RearBrace, Braces: in.bracesAt(1, 0.75)}, MovementPart, 2},
		{Change{Kind: HoldBetter, Base: BaseJoint{Method: BoltedDown, Rows: 2}}, BasePart, 1.01},
	} {
		before, after := at(in, c.part), at(c.change.Apply(in, rules), c.part)
		if !(after*c.least < before) {
			t.Errorf("%s: %s from %v to %v", c.change.Text(in), c.part, before, after)
		}
	}
}

// Enough is found for the flower by a few changes together, each of them run.
func TestWaysOutOfTheFlower(t *testing.T) {
	in := heldFlower(t)
	plan := reckon(t, in, strengthRules())
	if plan.Word != Over {
		t.Fatal(plan.Says())
	}
	ways, err := WaysOut(context.Background(), in, strengthRules(), plan)
	if err != nil {
		t.Fatal(err)
	}
	best := ways[0]
	if best.Word == Over || len(best.Changes) < 2 || len(best.Changes) > mostTogether {
		t.Errorf("%+v: %s", best.Says, best.Word)
	}
	if !slices.IsSortedFunc(ways, compareVerdicts) {
		t.Error("not the best first")
	}
	for i := range best.Changes { // none of them can be left out
		_, v := try(t, in, slices.Delete(slices.Clone(best.Changes), i, i+1)...)
		if v.Word != Over {
			t.Errorf("enough without %q", best.Says[i])
		}
	}
	for _, c := range best.Changes {
		in = c.Apply(in, strengthRules())
	}
	p := reckon(t, in, strengthRules())
	if p.Governs != best.After {
		t.Errorf("%+v is not %+v", p.Governs, best.After)
	}
	if force, h, ok := p.PullTest(); !ok || math.Abs(pounds(force)-20) > 1e-9 || math.Abs(h-60*inch) > 1e-9 {
		t.Errorf("a pull test of %v at %v: %v", force, h, ok)
	}
	if _, _, ok := plan.PullTest(); ok {
		t.Error("a pull test where the sums do not pass")
	}
}

// Ballast and a wider base change how it stands, not what its seams bear.
func TestBallastAndBase(t *testing.T) {
	in := heldFlower(t)
	state := pane(in.Layout.Width, in.Layout.Height, 0.3, 0, kilos(18))
	s := on(t, rules(), state, 0.3, Loads{Push: true}, slab(0, -300, in.Layout.Width, 700))
	in.Stand = &s
	for _, c := range []Change{{Kind: WiderBase, Scale: 1.5},
		{Kind: MoreBallast, Ballast: []Placed{{Name: "bag", Mass: 20, At: base.Rectangle(0, 0, 1000, 10).Centroid()}}}} {
		before, v := try(t, in, c)
		was := in.stability()
		if !v.Helps || !(v.Standing.Ratio < was.Ratio) || v.After != before.Governs {
			t.Errorf("%s: %+v from %+v", v.Says[0], v.Standing, was)
		}
	}
	if len(in.Stand.Ballast) != 0 {
		t.Error("the setup was changed")
	}
	if got := (Change{Kind: WiderBase, Scale: 1.5}).Text(in); got != "a base 1.5 times as wide and deep" {
		t.Error(got)
	}
}

// Two on each other by one screw each turn about it: named, with a picture; and
// a second screw is a way out.
func TestLooseFrame(t *testing.T) {
	l := comb(t, 20, [2]float64{0, 0}, [2]float64{0, 20})
	in := piece(l, fixedBy(l, one...), 0).pushAt(2, 40)
	r := strengthRules()
	p, problems, err := Strength(context.Background(), in, r)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(p.Pivots, []int{1}) {
		t.Errorf("pivots %v", p.Pivots)
	}
	// With its screw alone, contacts open: own weight presses it down, a push
	// turns it.
	if len(problems) == 0 && p.Word != Over {
		t.Errorf("%s", p.Says())
	}
	in.Fixing.Seams = nil
	p, problems, err = Strength(context.Background(), in, r)
	if err != nil || p.Word != Over {
		t.Fatal(err, p.Says())
	}
	codes := map[Code]Problem{}
	for _, q := range problems {
		codes[q.Code] = q
	}
	if q := codes[Unfixed]; q.Seam != 1 || !slices.Equal(q.Names, []string{"hex-2", "hex-1"}) {
		t.Errorf("%+v", problems)
	}
	if q := codes[LooseFrame]; !slices.Equal(q.Names, []string{"hex-2"}) {
		t.Fatalf("%+v", problems)
	}
	moved := 0.0
	for _, m := range p.Loose[0].Moves {
		moved = math.Max(moved, math.Hypot(math.Hypot(m.Right, m.Back), m.Up))
	}
	if len(p.Loose[0].Moves) != 6 || !(moved > 0.1) {
		t.Errorf("%+v", p.Loose[0])
	}
	if _, _, ok := p.PullTest(); ok || len(p.Cases) != 0 {
		t.Error("figures for a loose frame")
	}
}

// Frames over heads by one seam alone; two seams, a second fixing, or a place
// near the floor are not named.
func TestOneFixingOverhead(t *testing.T) {
	at := [][2]float64{{0, 0}, {0, 20}, {0, 40}, {0, 60}, {0, 80}}
	for _, c := range []struct {
		name  string
		extra [][2]float64
		set   func(*StrengthInput)
		want  []string
	}{
		{"a stack", nil, nil, []string{"hex-5"}},
		{"beside each other", [][2]float64{{20 * math.Cos(math.Pi/6), 70}}, nil, []string{"hex-5"}}, // both hang by the one seam under the fourth
		{"a retaining line", nil, func(in *StrengthInput) { in.Tethered = []int{4} }, nil},
		{"nobody passes", nil, func(in *StrengthInput) { in.OverHeads = make([]bool, 5) }, nil},
		{"said so", nil, func(in *StrengthInput) { in.OverHeads = []bool{3: true, 4: false} }, []string{"hex-4"}},
	} {
		l := comb(t, 20, append(slices.Clone(at), c.extra...)...)
		in := piece(l, fixedBy(l, pair...), 0)
		if c.set != nil {
			c.set(&in)
		}
		_, problems, err := Strength(context.Background(), in, strengthRules())
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, p := range problems {
			if p.Code == OneFixing {
				for _, n := range p.Names {
					if !slices.Contains(got, n) {
						got = append(got, n)
					}
				}
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

func TestProblemsSayWhatHelps(t *testing.T) {
	in := stack(t)
	in.Frames[1].Gravity = 0
	in.Fixing.Seams[0].Fasteners[0].Penetration = 1
	_, problems, err := Strength(context.Background(), in, strengthRules())
	if err != nil || len(problems) != 1 || problems[0].Code != BadNumber || problems[0].Names[0] != "hex-2" {
		t.Fatal(err, problems)
	}
	in.Frames[1].Gravity = 0.36
	in.Fixing.Seams[0].Fasteners[1].Penetration = 1
	p, problems, err := Strength(context.Background(), in, strengthRules())
	if err != nil || len(problems) != 1 || problems[0].Code != ShortHold || p.Word != Over {
		t.Fatal(err, problems, p.Word)
	}
	seen := map[string]bool{}
	for _, k := range Snags {
		text, remedy := Problem{Code: Code(k.Code), Seam: 3, Names: []string{"a", "b", "c"}, Case: "own weight"}.Text()
		if text == "" || remedy == "" || seen[text] || strings.HasSuffix(text, ".") {
			t.Errorf("%s: %q, %q", k.Code, text, remedy)
		}
		seen[text] = true
	}
	if len(seen) != 6 {
		t.Errorf("%d codes", len(seen))
	}
	in.Frames = in.Frames[:1]
	if _, _, err := Strength(context.Background(), in, strengthRules()); err == nil {
		t.Error("a frame too few is no error")
	}
}

// Plates and bolts through a real fixing of flat frames, and boards on edge.
func TestFixingAsDrawn(t *testing.T) {
	l := comb(t, 20, flower(20)...)
	in := piece(l, fixing.Plan{}, 1, 2, 6)
	var boards []fixing.Board
	for _, f := range in.Frames {
		boards = append(boards, fixing.Board{Boards: f.Boards, Gravity: f.Gravity})
	}
	ratios := map[string]float64{}
	for name, s := range map[string]fixing.Settings{"screws": {}, "bolts": {Often: true}, "inserts": {Often: true, Inserts: true}} {
		plan, problems := fixing.Fix(l, boards, s)
		if len(problems) > 0 || len(plan.Seams) != 12 {
			t.Fatalf("%s: %v", name, problems)
		}
		in.Fixing = plan
		p := reckon(t, in.pushAt(20, 60), strengthRules())
		ratios[name] = p.caseOf(t, "pushed backwards").of(t, SeamPart).Ratio
		if outside := len(p.Outside) == 12; outside != (name == "screws") || len(p.Seams) != 12 {
			t.Errorf("%s: outside the standard: %v", name, p.Outside)
		}
	}
	if !(ratios["bolts"] < ratios["inserts"] && ratios["bolts"] < ratios["screws"]) {
		t.Errorf("%v", ratios)
	}
	share(t, "screws as the worked ones, driven where the drill sheet says", ratios["screws"]*1.6, 1.42, 0.12)
}

func TestFlatFramesByPlates(t *testing.T) {
	l := comb(t, 20, [2]float64{0, 0}, [2]float64{0, 20})
	var flat []fixing.Board
	// The layout is drawn with boards on edge; flat ones need wide openings.
	for range l.Frames {
		flat = append(flat, fixing.Board{Gravity: 0.4, Boards: frame.Boards{Thickness: unit.Inch * 3 / 4, Width: unit.Inch * 7 / 2}})
	}
	for i := range l.Frames {
		f := &l.Frames[i]
		for k := range f.Inside {
			f.Inside[k] = f.Centre.Lerp(f.Outside[k], 13.0/20)
		}
	}
	for name, way := range map[string]fixing.FlatWay{"plates": fixing.Plates, "battens": fixing.Battens} {
		plan, problems := fixing.Fix(l, flat, fixing.Settings{Flat: way})
		if len(problems) > 0 {
			t.Fatalf("%s: %v", name, problems)
		}
		in := StrengthInput{Layout: l, Fixing: plan, Base: BaseJoint{Method: clamped, Frames: []int{0}}, Bare: pane(1, 1, 1, 0, 0)}
		in.Bare.Weights = nil
		for _, b := range flat {
			in.Frames = append(in.Frames, StrengthFrame{Boards: b.Boards, Gravity: b.Gravity, Mass: 1})
		}
		p := reckon(t, in.pushAt(1, 40), strengthRules())
		back, forth := p.caseOf(t, "pushed backwards").of(t, SeamPart), p.caseOf(t, "pushed forwards").of(t, SeamPart)
		if !(back.Ratio > 0 && forth.Ratio > 0) || math.IsInf(back.Ratio+forth.Ratio, 1) {
			t.Errorf("%s: %+v, %+v", name, back, forth)
		}
		// Pushed forwards the seam opens at the back, where the plate is far from the
		// edge that presses: 1/2 in of lever and more; pushed backwards, none.
		if !(forth.Pull > back.Pull) {
			t.Errorf("%s: forwards pulls %v, backwards %v", name, forth.Pull, back.Pull)
		}
	}
}

// A brace takes what it is given, and its bolts are judged.
func TestBrace(t *testing.T) {
	in := heldFlower(t)
	in.Braces = []Brace{{At: geom.Point{X: in.Layout.Width / 2, Y: in.Layout.Height}, Behind: in.Layout.Height, Boards: in.Frames[0].Boards}}
	d := reckon(t, in, strengthRules()).caseOf(t, "pushed forwards").of(t, BracePart)
	// At 45 degrees a brace at the height of the push takes nearly all of it: about
	// 20 lb level at its head.
	share(t, "level at its head", pounds(d.Pull), 20, 0.1)
	share(t, "ratio", d.Ratio, together(pounds(d.Pull), pounds(d.Slide), 60, 60), 1e-6)
}

func TestWordsOfDemands(t *testing.T) {
	for ratio, want := range map[float64]string{0.234: "0.23", 0.5: "0.50", 0.997: "1.0", 1: "1.0", 1.004: "1.1", 1.06: "1.1", 3.304: "3.3", 9.96: "10.0", 11: "over 10", math.Inf(1): "over 10"} {
		if got := TwoDigits(ratio); got != want {
			t.Errorf("%v is %q, want %q", ratio, got, want)
		}
	}
	for _, c := range []struct {
		d    Demand
		want string
	}{
		{Demand{Part: SeamPart, Seam: 7}, "the fixing of seam 7"}, {Demand{Part: CornerPart, Corner: 2, Name: "big"}, "corner 2 of big"},
		{Demand{Part: BoardPart, Side: 3, Name: "big"}, "board 3 of big"}, {Demand{Part: BoardPart, Name: "brace"}, "the brace"},
		{Demand{Part: MovementPart}, "how far it moves"},
	} {
		if got := c.d.Where(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
	p := reckon(t, heldFlower(t), strengthRules())
	if !strings.HasPrefix(p.Says(), "over: ") || !strings.Contains(p.Says(), "of what is allowed") {
		t.Error(p.Says())
	}
	for _, c := range p.Cases {
		for _, d := range c.Worst {
			if d.Ratio > 0 && !(d.Low < d.Ratio && d.Ratio < d.High) || d.Word != strengthRules().Word(d.Ratio) {
				t.Errorf("%+v", d)
			}
		}
	}
}

// A greater push never improves anything; one screw
// fewer changes the line of its seam.
func TestStrengthIsMonotone(t *testing.T) {
	in := heldFlower(t)
	last := map[Part]float64{}
	for _, lb := range []float64{2, 5, 10, 15, 20, 40} {
		c := reckon(t, in.pushAt(lb, 60), strengthRules()).caseOf(t, "pushed backwards")
		for _, p := range []Part{SeamPart, CornerPart, BoardPart, BasePart, MovementPart} {
			if r := c.of(t, p).Ratio; r < last[p] {
				t.Errorf("%v lb: %s %v after %v", lb, p, r, last[p])
			} else {
				last[p] = r
			}
		}
	}
	before := reckon(t, in, strengthRules())
	for i, s := range in.Fixing.Seams {
		fewer := in
		fewer.Fixing = in.refixed([]int{s.Number}, func(f *fixing.Seam) { f.Fasteners = f.Fasteners[:1] })
		after := reckon(t, fewer, strengthRules().withRock())
		if after.Seams[i] == before.Seams[i] {
			t.Errorf("seam %d of one screw bears as with two", s.Number)
		}
	}
}

// withRock gives screws their own stiffness back, so that one holds a frame.
func (r StrengthRules) withRock() StrengthRules {
	r.Rock *= 1e3
	return r
}

// The same input gives the same plan.
func TestStrengthIsTheSameTwice(t *testing.T) {
	in := wallOf(t, 20)
	a, b := reckonAny(t, in), reckonAny(t, in)
	if a.Governs != b.Governs || a.Move != b.Move || a.MoveMost != b.MoveMost || len(a.Cases) != MostCases || !slices.Equal(a.Seams, b.Seams) {
		t.Errorf("%+v\n%+v", a.Governs, b.Governs)
	}
}

func reckonAny(t *testing.T, in StrengthInput) StrengthPlan {
	t.Helper()
	p, _, err := Strength(context.Background(), in, strengthRules())
	if err != nil {
		t.Fatal(err)
	}
	return p
}
