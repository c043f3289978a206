package frame

import (
	"math"
	"testing"

	"bowerwright/unit"

	"pgregory.net/rapid"
)

func deg(d float64) unit.Angle { return unit.FromDegrees(d) }

// bench is an invented saw: it swings to 50 left and 60 right, tilts to 48
// left only.
var bench = Saw{
	SwingLeft: deg(50), SwingRight: deg(60), TiltLeft: deg(48),
	Detents: []unit.Angle{0, deg(15), deg(22.5), deg(30), deg(45)},
	Takes: []Capacity{
		{At: 0, Widest: 300 * mm, Thickest: 90 * mm},
		{At: deg(30), Widest: 250 * mm, Thickest: 90 * mm},
		{At: deg(45), Widest: 200 * mm, Thickest: 90 * mm},
		{Standing: true, At: 0, Widest: 100 * mm, Thickest: 60 * mm},
		{Standing: true, At: deg(30), Widest: 100 * mm, Thickest: 50 * mm},
		{Standing: true, At: deg(45), Widest: 100 * mm, Thickest: 40 * mm},
		{Tilted: true, At: deg(45), Widest: 300 * mm, Thickest: 45 * mm},
		{Standing: true, Tilted: true, At: deg(45), Widest: 60 * mm, Thickest: 40 * mm},
	},
	Hold: 200 * mm, ClampHold: 100 * mm,
}

func TestWayOfSawing(t *testing.T) {
	narrow := Boards{Thickness: 19 * mm, Width: 89 * mm}
	edge, tall := narrow, Boards{Thickness: 19 * mm, Width: 140 * mm, OnEdge: true}
	edge.OnEdge = true
	wide := Boards{Thickness: 19 * mm, Width: 230 * mm}
	beam := Boards{Thickness: 80 * mm, Width: 140 * mm, OnEdge: true}
	for _, c := range []struct {
		name    string
		b       Boards
		setting float64
		way     Way
		detent  bool
		oneWay  int
		reason  Reason
	}{
		{"hexagon on edge", edge, 30, StandingSwung, true, 0, Reaches},
		{"hexagon flat", narrow, 30, LyingSwung, true, 0, Reaches},
		{"at a corner that turns in", narrow, -30, LyingSwung, true, 0, Reaches},
		{"between detents", narrow, 25.714, LyingSwung, false, 0, Reaches},
		{"taller than the fence", tall, 30, LyingTilted, false, -1, Reaches},
		{"past the left reach", narrow, 54, LyingSwung, false, 1, Reaches},
		{"triangle's 60, just", narrow, 60, LyingSwung, false, 1, Reaches},
		{"past every reach", narrow, 66, RoughThenBlock, false, 0, TooSteep},
		{"past every reach, inwards", narrow, -66, RoughThenBlock, false, 0, TooSteep},
		{"too wide at 36", wide, 36, RoughThenBlock, false, 0, TooBig},
		{"wide enough at 29", wide, 29, LyingSwung, false, 0, Reaches},
		{"square end", wide, 0, LyingSwung, true, 0, Reaches},
		{"square end on edge", edge, 0, StandingSwung, true, 0, Reaches},
		{"too big either way", beam, 30, RoughThenBlock, false, 0, TooBig},
		{"too tall to stand, tilt too steep", tall, 55, RoughThenBlock, false, 0, TooBig},
	} {
		e := bench.End(c.b, deg(c.setting))
		if e.Way != c.way || e.Detent != c.detent || e.OneWay != c.oneWay || e.Reason != c.reason {
			t.Errorf("%s: %+v", c.name, e)
		}
		if e.Way != RoughThenBlock && !e.Size {
			t.Errorf("%s: size not checked", c.name)
		}
		want(t, c.name+": reads", e.Reads.Degrees(), math.Abs(c.setting), 1e-9)
		if c.reason != Reaches {
			want(t, c.name+": block", e.Block.Degrees(), 90-math.Abs(c.setting), 1e-9)
		}
	}
}

func TestCapacityBetweenAndBeyondTheRows(t *testing.T) {
	for _, c := range []struct {
		w           Way
		at          float64
		wide, thick float64
	}{
		{LyingSwung, 0, 300, 90},
		{LyingSwung, 0.1, 250, 90},
		{LyingSwung, 30, 250, 90},
		{LyingSwung, 30.1, 200, 90},
		{LyingSwung, 60, 200 * math.Cos(math.Pi/3) / math.Cos(math.Pi/4), 90},
		{StandingSwung, 60, 100, 40 * math.Cos(math.Pi/3) / math.Cos(math.Pi/4)},
		{LyingTilted, 60, 300, 45 * math.Cos(math.Pi/3) / math.Cos(math.Pi/4)},
		{StandingTilted, 60, 60 * math.Cos(math.Pi/3) / math.Cos(math.Pi/4), 40},
		{LyingTilted, 10, 300, 45}, // the next row is 45
		{LyingTilted, 0, 300, 90},  // upright and across: either turn's row
	} {
		got, ok := bench.capacity(c.w, deg(c.at))
		if !ok || !near(got.Widest.MM(), c.wide, 1e-5) || !near(got.Thickest.MM(), c.thick, 1e-5) {
			t.Errorf("%s at %g: %v x %v, %v", c.w, c.at, got.Widest, got.Thickest, ok)
		}
	}
	if _, ok := (Saw{Takes: bench.Takes[:2]}).capacity(LyingSwung, deg(40)); ok {
		t.Error("a size is claimed past the last row given")
	}
}

func TestNothingIsClaimedThatIsNotGiven(t *testing.T) {
	b := Boards{Thickness: 19 * mm, Width: 89 * mm}
	for _, a := range []float64{0, 30, 60} {
		if e := (Saw{}).End(b, deg(a)); e.Way != NotChecked || e.Setting != deg(a) || e.Size {
			t.Errorf("no saw given, %g: %+v", a, e)
		}
	}
	swing := Saw{SwingLeft: deg(50), SwingRight: deg(50)}
	if e := swing.End(b, deg(30)); e.Way != LyingSwung || e.Size {
		t.Errorf("reach given without sizes: %+v", e)
	}
	if e := swing.End(b, deg(55)); e.Way != NotChecked {
		t.Errorf("past the swing, tilt not given: %+v", e)
	}
	known := swing // the tilted way is known to fit, the swung one is not
	known.TiltLeft, known.TiltRight = deg(45), deg(45)
	known.Takes = []Capacity{{Standing: true, Tilted: true, At: deg(45), Widest: 90 * mm, Thickest: 40 * mm}}
	if e := known.End(b, deg(30)); e.Way != StandingTilted || !e.Size {
		t.Errorf("one way known to fit: %+v", e)
	}
	known.TiltLeft, known.TiltRight = deg(20), deg(20)
	if e := known.End(b, deg(55)); e.Way != RoughThenBlock || e.Reason != TooSteep {
		t.Errorf("past both reaches: %+v", e)
	}
}

func TestScaleFromAlong(t *testing.T) {
	s := bench
	s.Scale = FromAlong
	b := Boards{Thickness: 19 * mm, Width: 89 * mm}
	want(t, "hexagon", s.End(b, deg(30)).Reads.Degrees(), 60, 1e-9)
	want(t, "square", s.End(b, 0).Reads.Degrees(), 90, 1e-9)
	want(t, "turning in", s.End(b, deg(-22.5)).Reads.Degrees(), 67.5, 1e-9)
}

// A steeper cut or a bigger board is never easier.
func TestReachIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Boards{
			Thickness: unit.Length(rapid.IntRange(10, 100).Draw(t, "thick")) * mm,
			Width:     unit.Length(rapid.IntRange(20, 320).Draw(t, "wide")) * mm,
			OnEdge:    rapid.Bool().Draw(t, "on edge"),
		}
		a := rapid.Float64Range(0, 80).Draw(t, "setting")
		if bench.End(b, deg(a)).Way != RoughThenBlock {
			return
		}
		b.Thickness += unit.Length(rapid.IntRange(0, 20).Draw(t, "thicker")) * mm
		b.Width += unit.Length(rapid.IntRange(0, 20).Draw(t, "wider")) * mm
		a += rapid.Float64Range(0, 9).Draw(t, "steeper")
		if e := bench.End(b, deg(a)); e.Way != RoughThenBlock {
			t.Fatalf("easier at %g on %v: %+v", a, b, e)
		}
	})
}

func TestRoughLength(t *testing.T) {
	o := must(DiamondFromSide(600*mm, deg(50))) // 65 at the sharp ends, 25 at the blunt
	b := flat(40 * mm)
	f := build(t, o, Settings{Boards: b, JointTolerance: mm})
	c := bench.Cut(b, f.Parts[0], Trim{})
	if c.Start.Way != RoughThenBlock || c.End.Way != LyingSwung || c.WayOut != TrimOnBlock {
		t.Fatalf("%+v", c)
	}
	want(t, "rough length", c.Rough.MM(), 600+2*25.4, 1e-5)
	want(t, "block", c.Start.Block.Degrees(), 25, 1e-9)
	if c = bench.Cut(b, f.Parts[0], Trim{Allowance: 10 * mm, Least: 700 * mm}); c.WayOut != AnotherShape || !near(c.Rough.MM(), 620, 1e-5) {
		t.Errorf("shorter than the least: %+v", c)
	}
	if c = bench.Cut(b, f.Parts[0], Trim{Greatest: 600 * mm}); c.WayOut != AnotherShape {
		t.Errorf("longer than the greatest: %+v", c)
	}
	if c = bench.Cut(flat(240*mm), Part{Outside: 600 * mm, TipToTip: 600, Start: deg(45)}, Trim{}); c.WayOut != AnotherShape {
		t.Errorf("too wide a board: %+v", c)
	}
	hex := build(t, hexagon(Side, 600*mm), Settings{Boards: b, JointTolerance: mm})
	if c = bench.Cut(b, hex.Parts[0], Trim{}); c.WayOut != NoneNeeded || c.Rough != 0 {
		t.Errorf("a hexagon needs a way out: %+v", c)
	}
}

func TestRoughLengthHoldsAPartThatTurnsIn(t *testing.T) {
	b := flat(100 * mm)
	p := Part{Outside: 400 * mm, Start: deg(-70), End: deg(10)}
	p.TipToTip = TipToTip(400, 100, p.Start, p.End)
	want(t, "tip to tip", p.TipToTip, 400+100*math.Tan(70*math.Pi/180), 1e-9)
	c := bench.Cut(b, p, Trim{})
	if c.Rough.MM() < p.TipToTip+2*25.4 || c.Rough.MM() > p.TipToTip+2*25.4+1e-5 {
		t.Errorf("rough %v for a tip to tip of %g", c.Rough, p.TipToTip)
	}
}

func TestHoldInForce(t *testing.T) {
	s := bench
	if s.HoldInForce() != 200*mm {
		t.Error("by hand")
	}
	s.Clamp = true
	if s.HoldInForce() != 100*mm {
		t.Error("under the clamp")
	}
	s.ClampHold = 0
	if s.HoldInForce() != 200*mm || (Saw{}).HoldInForce() != 0 {
		t.Error("clamp length not given")
	}
}

func TestCase5OctagonNeedsATrueSaw(t *testing.T) {
	for _, c := range []struct{ face, total, per float64 }{{2, 0.448, 0.028}, {3, 0.298, 0.0187}} {
		per := TrueTo(8, c.face*25.4, 25.4/64).Degrees()
		want(t, "per cut", per, c.per, 6e-5)
		want(t, "total", 16*per, c.total, 6e-4)
	}
}

func TestCase6HexagonAQuarterDegreeOut(t *testing.T) {
	for _, c := range []struct{ depth, gap float64 }{{0.75, 0.045}, {1.5, 0.091}, {3.5, 0.212}} {
		f := build(t, hexagon(Side, 24*inch), Settings{Boards: flat(in(c.depth)), JointTolerance: mm})
		e := f.SawError(DefaultSawError, inch/64)
		want(t, "last gap", e.LastGap/25.4, c.gap, 5e-4)
		want(t, "total", e.Total.Degrees(), 3, 1e-9)
		want(t, "each gap", e.EachGap*6, e.LastGap, 1e-9)
		if e.Opens != OpensInside || f.SawError(-DefaultSawError, 0).Opens != OpensOutside || f.SawError(0, 0).Opens != Closed {
			t.Error("opens on the wrong side")
		}
		again := f.SawError(e.TrueTo, inch/64)
		want(t, "gap at the limit", again.LastGap, 25.4/64, 1e-9)
		if shallow := f.SawError(-DefaultSawError, inch/64); !near(shallow.LastGap, e.LastGap, 1e-12) || shallow.TrueTo != e.TrueTo {
			t.Error("too shallow is not as bad as too steep")
		}
	}
	// Figures computed apart from this code: 0.0353 in at each joint of 3 1/2 in
	// boards; an octagon 0.1 out is 1.6 out in all, a square 0.5 out 4.
	f := build(t, hexagon(Side, 24*inch), Settings{Boards: flat(in(3.5)), JointTolerance: mm})
	want(t, "shared", f.SawError(deg(0.25), 0).EachGap/25.4, 0.0353, 5e-5)
	for n, total := range map[int]float64{8: 0.1 * 16, 4: 0.5 * 8} {
		f = build(t, must(Regular(n, Side, 24*inch, OnSide, 0)), Settings{Boards: flat(in(3.5)), JointTolerance: mm})
		want(t, "total", f.SawError(deg(total/float64(2*n)), 0).Total.Degrees(), total, 1e-9)
	}
}

// The gap by angle x face against frames that are really out: turn each part
// by twice the error and measure what is left between the first and the last.
func TestSawErrorAgainstAWalk(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 24).Draw(t, "n")
		e := rapid.Float64Range(0.01, 0.25).Draw(t, "degrees")
		f, err := Build(must(Regular(n, CornerCircle, 40*inch, OnSide, 0)), Settings{Boards: flat(30 * mm)})
		if err != nil {
			t.Fatal(err)
		}
		got := f.SawError(deg(e), 0)
		chord := 2 * got.Face * math.Sin(float64(got.Total)/2)
		if !near(got.LastGap, chord, 0.004*chord) {
			t.Fatalf("gap %g, chord %g", got.LastGap, chord)
		}
	})
}

func TestArchHasNoLastJoint(t *testing.T) {
	f := build(t, must(HalfRound(8, 1000*mm, CornersOn, false)), Settings{Boards: flat(50 * mm), JointTolerance: mm})
	e := f.SawError(deg(0.25), mm)
	if !e.OpenEnds || e.Joints != 7 || e.LastGap != 0 {
		t.Fatalf("%+v", e)
	}
	want(t, "feet turn by", e.Total.Degrees(), 3.5, 1e-9)
	want(t, "gap at the limit", f.SawError(e.TrueTo, mm).EachGap, 1, 1e-9)
}

func TestTestCorner(t *testing.T) {
	c := NewTestCorner(deg(30), DefaultSawError, 0)
	if c.Arm != in(14.375) || c.Coarse {
		t.Errorf("hexagon's arms %v", c.Arm)
	}
	want(t, "arms before rounding", 1/16.0/(2*0.25*math.Pi/180*0.5), 14.32, 0.005)
	want(t, "tips", c.Tips/25.4, 14.375*math.Sqrt(3), 1e-6)
	if s := NewTestCorner(deg(-30), -DefaultSawError, 0); s != c {
		t.Errorf("signs change the test corner: %+v", s)
	}
	if c = NewTestCorner(deg(7.5), DefaultSawError, 0); !c.Coarse || c.Arm != LongestArms {
		t.Errorf("24 sides: %+v", c)
	}
	if (NewTestCorner(0, DefaultSawError, 0) != TestCorner{}) || (NewTestCorner(deg(30), 0, 0) != TestCorner{}) {
		t.Error("a test corner of nothing")
	}
}

func TestReadingGivesTheTrueSetting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		setting := rapid.Float64Range(8, 75).Draw(t, "setting")
		e := rapid.Float64Range(-1, 1).Draw(t, "error")
		c := NewTestCorner(deg(setting), DefaultSawError, 0)
		// Put the arms together: two unit vectors at the inside angle really cut.
		inside := math.Pi - 2*(setting+e)*math.Pi/180
		tips, _ := unit.FromMM(c.Arm.MM()*math.Hypot(math.Cos(inside)-1, math.Sin(inside)), unit.Micrometre, unit.Nearest)
		r, ok := Read(c.Setting, c.Arm, tips)
		if !ok || !near(r.True.Degrees(), setting+e, 0.002) || !near(r.Error.Degrees(), e, 0.002) ||
			!near(r.SetTo.Degrees(), setting-e, 0.002) {
			t.Fatalf("cut at %g: read %+v", setting+e, r)
		}
		// An error of c.Error moves the tips by about what it is made to show.
		if !c.Coarse && math.Abs(e) > 0.2 && math.Abs(e) < 0.3 {
			moved := math.Abs(tips.MM() - c.Tips)
			if at := moved * 0.25 / math.Abs(e); at < 0.95*c.Shows.MM() || at > 1.25*c.Shows.MM() {
				t.Fatalf("a quarter degree moves the tips by %g mm", at)
			}
		}
	})
	for _, bad := range [][2]unit.Length{{0, mm}, {mm, 0}, {mm, 3 * mm}} {
		if _, ok := Read(deg(30), bad[0], bad[1]); ok {
			t.Errorf("arms %v with tips %v read", bad[0], bad[1])
		}
	}
}

func TestWordsForEverything(t *testing.T) {
	for _, s := range []string{
		NotChecked.String(), LyingTilted.String(), RoughThenBlock.String(), TooSteep.String(), TooBig.String(),
		TrimOnBlock.String(), AnotherShape.String(), OpensInside.String(), OpensOutside.String(),
		LeftHanded.String(), RightHanded.String(), Side.String(), Diameter.String(),
	} {
		if s == "" {
			t.Error("a value without words")
		}
	}
	if Symmetric.String() != "" || Reaches.String() != "" || NoneNeeded.String() != "" || Closed.String() != "" {
		t.Error("words where there is nothing to say")
	}
}
