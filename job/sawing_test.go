package job

import (
	"context"
	"math"
	"strings"
	"testing"

	"bowerwright/unit"
)

func only(t testing.TB, r Result) (PartFacts, TimberFacts) {
	t.Helper()
	if len(r.Kinds) != 1 || len(r.Kinds[0].Parts) != 1 || len(r.Timber) != 1 {
		t.Fatalf("%d kinds, %d timber", len(r.Kinds), len(r.Timber))
	}
	return r.Kinds[0].Parts[0], r.Timber[0]
}

// Triangles of 600 mm have ends at 60 degrees. A head that swings to 50 cannot
// cut them: the boards are planned square to the rough length, tip to tip and
// an allowance at each end, and the ends are trimmed on a block of 30.
func TestRoughLengths(t *testing.T) {
	s := spec("T = triangle: side 600 mm", "T1 at 0 0")
	s.Show, s.Saw.SwingLeft, s.Saw.SwingRight, s.Saw.TiltLeft, s.Saw.TiltRight = "metric", unit.FromDegrees(50), unit.FromDegrees(50), unit.FromDegrees(45), unit.FromDegrees(45)
	for _, allowance := range []float64{0.5, 2} {
		s.Assume = []Override{{ID: "rough.allowance", Value: allowance, From: "job file"}}
		r := worked(t, s)
		p, boards := only(t, r)
		rough := 600 + 2*allowance*inch
		if p.Rough == nil || len(p.Block) != 2 {
			t.Fatalf("%+v", p)
		}
		near(t, "rough length", p.Rough.MM, rough, 0.01)
		near(t, "block", p.Block[0].Degrees, 30, 1e-3)
		near(t, "block", p.Block[1].Degrees, 30, 1e-3)
		if p.First.Reach || p.First.Way != "rough, then against a block" || !strings.Contains(p.WayOut, "beyond the head's reach") || !strings.Contains(p.WayOut, "never freehand") {
			t.Errorf("%+v, %s", p.First, p.WayOut)
		}
		for _, b := range boards.Boards {
			for _, q := range b.Parts {
				near(t, "planned", q.End-q.Start, rough, 0.01)
				near(t, "square", math.Abs(q.LeftSlope)+math.Abs(q.RightSlope), 0, 0)
			}
		}
		stop := boards.Stops[0]
		near(t, "stop", stop.Stop.MM, rough, 0.01)
		if stop.First.Degrees != 0 || stop.Point != "square end" || stop.Way != "square to rough length" {
			t.Errorf("%+v", stop)
		}
		if n := noted(r, "saw-reach"); len(n) != 1 || n[0].Where != "frames.T" {
			t.Errorf("%+v", r.Notes)
		}
	}
}

// A head that swings to 62 cuts them as they are.
func TestSteepSawNeedsNoRough(t *testing.T) {
	s := spec("T = triangle: side 600 mm", "T1 at 0 0")
	s.Saw.SwingLeft, s.Saw.SwingRight = unit.FromDegrees(62), unit.FromDegrees(62)
	r := worked(t, s)
	p, boards := only(t, r)
	if p.Rough != nil || p.WayOut != "" || len(p.Block) != 0 || !p.First.Reach || p.First.Way != "standing, head swung" {
		t.Errorf("%+v", p)
	}
	if q := boards.Boards[0].Parts[0]; math.Abs(math.Abs(q.LeftSlope)-0.75*inch*math.Tan(math.Pi/3)) > 0.01 {
		t.Errorf("its end slopes %g mm", q.LeftSlope)
	}
	if len(noted(r, "saw-reach")) != 0 {
		t.Errorf("%+v", r.Notes)
	}
}

// Only one head swings that far: the saw still reaches, to one side.
func TestOneSidedSwing(t *testing.T) {
	s := spec("T = triangle: side 600 mm", "T1 at 0 0")
	s.Saw.SwingLeft, s.Saw.SwingRight = unit.FromDegrees(45), unit.FromDegrees(60)
	if p, _ := only(t, worked(t, s)); !p.First.Reach {
		t.Errorf("%+v", p)
	}
}

// What cannot be trimmed against a block either needs another shape or boards:
// too big for the saw, or too short or too long to clamp.
func TestAnotherShapeOrBoards(t *testing.T) {
	small := Saw{SwingLeft: unit.FromDegrees(50), SwingRight: unit.FromDegrees(50), TiltLeft: unit.FromDegrees(20), TiltRight: unit.FromDegrees(20),
		Takes: []Capacity{{Standing: true, At: unit.FromDegrees(45), Widest: inches("2"), Thickest: inches("2")}}}
	for kind, c := range map[string]struct {
		saw    Saw
		reason string
	}{
		"B = hexagon: flats 18":         {small, "the board is too big at this setting"},
		"B = triangle: side 8":          {Saw{}, "beyond the head's reach"}, // 9 in rough: under 12
		"B = triangle: side 55":         {Saw{}, "beyond the head's reach"}, // 56 in rough: over 48
		"B = diamond: side 9, angle 40": {Saw{}, "beyond the head's reach"},
	} {
		s := spec(kind, "B1 at 0 0")
		s.Saw = c.saw
		r := worked(t, s)
		p := r.Kinds[0].Parts[0]
		if !strings.Contains(p.WayOut, "another shape or other boards") || !strings.Contains(p.WayOut, c.reason) {
			t.Errorf("%s: %q", kind, p.WayOut)
		}
		if n := noted(r, "saw-reach"); len(n) == 0 || !strings.Contains(n[0].Do, "other boards or another saw") {
			t.Errorf("%s: %+v", kind, r.Notes)
		}
	}
	roomy := small
	roomy.Takes = []Capacity{{Standing: true, At: unit.FromDegrees(45), Widest: inches("3.5"), Thickest: inches("2")}}
	s := spec("B = hexagon: flats 18", "B1 at 0 0")
	s.Saw = roomy
	if p, _ := only(t, worked(t, s)); p.WayOut != "" {
		t.Error(p.WayOut)
	}
}

// boardsFor cuts n parts of the one kind of a job.
func boardsFor(t testing.TB, s Spec, n int) TimberFacts {
	t.Helper()
	p := start(s, BuiltIn())
	p.prepare()
	p.layAsked()
	p.layBuilt()
	p.facts()
	p.sawings[0].count = n
	if err := p.cutAll(context.Background()); err != nil || p.err != nil || len(p.snags) > 0 {
		t.Fatal(err, p.err, p.snags)
	}
	f := p.result.Timber[0]
	if !f.Levels.Boards.Proved || !f.Levels.Boards.Rechecked {
		t.Errorf("%d parts: %s", n, f.Claim)
	}
	return f
}

// Hexagons of 6 in flats: sides of 3 7/16 in, 3.0045 in along the middle of a
// 3/4 in board, and a cut at 30 degrees takes 0.1443: 3.1488 in a part. With
// 8 in of the board held at the last cut 27 come out of 96 in; with 1/2 in
// under a clamp 30 do. A board that may not be turned gives 3.5818 in a part,
// since long faces all lie on one side: 24.
func TestHoldAndTurning(t *testing.T) {
	hand := spec("B = hexagon: flats 6", "B1 at 0 0")
	clamp := hand
	clamp.Saw = Saw{Clamp: true, ClampHold: ptr(inches("0.5"))}
	one := spec("B = hexagon: flats 6", "B1 at 0 0")
	one.Timber[0].Turning = ptr(false)
	for _, c := range []struct {
		what string
		job  Spec
		most int
	}{{"by hand", hand, 27}, {"under the clamp", clamp, 30}, {"one good face", one, 24}} {
		if f := boardsFor(t, c.job, c.most); f.Buy != 1 {
			t.Errorf("%s, %d parts: %s", c.what, c.most, f.Claim)
		}
		if f := boardsFor(t, c.job, c.most+1); f.Buy != 2 {
			t.Errorf("%s, %d parts: %s", c.what, c.most+1, f.Claim)
		}
	}
	if f := boardsFor(t, one, 24); f.Turning || f.Boards[0].Parts[1].Turn != "" {
		t.Errorf("turned: %+v", f.Boards[0].Parts[1])
	}
	if f := boardsFor(t, hand, 27); f.Boards[0].Parts[1].Turn != "roll" || !f.Boards[0].Parts[1].Shares {
		t.Errorf("not turned: %+v", f.Boards[0].Parts[1])
	}
}

// What is held at every cut is at least the hold length, on the shorter face.
func TestHeldEnough(t *testing.T) {
	for name, s := range variety() {
		r := worked(t, s)
		for _, f := range r.Timber {
			for _, b := range f.Boards {
				for _, q := range b.Parts {
					if q.Held != "" && q.HeldLength.MM < f.Hold.MM-0.001 {
						t.Errorf("%s: %s of %s is held, %s at least", name, q.HeldLength.US, q.Held, f.Hold.US)
					}
				}
			}
		}
	}
}

// Stops are in bench order, shortest shorter face first, and what is too short
// to hold is said so.
func TestStopsInBenchOrder(t *testing.T) {
	r := worked(t, sixths("family B M S"))
	last := 0.0
	for _, f := range r.Timber[0].Stops {
		if f.Short.MM < last {
			t.Errorf("%s comes after a longer one", f.Parts[0].Mark)
		}
		last = f.Short.MM
		long := f.Short.MM >= 8*inch
		if f.LongEnough != long || strings.Contains(f.Held, "too short to hold") == long {
			t.Errorf("%s, shorter face %s: %s", f.Parts[0].Mark, f.Short.US, f.Held)
		}
		if f.Point != "long point" || f.Face != "outside face" {
			t.Errorf("%s: %s on the %s", f.Parts[0].Mark, f.Point, f.Face)
		}
	}
	if len(r.Timber[0].Stops) != 3 {
		t.Errorf("%d stops", len(r.Timber[0].Stops))
	}
}

// A hold of less than 6 in by hand is pointed out, and not under a clamp.
func TestShortHoldIsNoted(t *testing.T) {
	for _, c := range []struct {
		hold  string
		clamp bool
		notes int
	}{{"5.9", false, 1}, {"6", false, 0}, {"5.9", true, 0}} {
		s := hexagons()
		s.Saw = Saw{Hold: ptr(inches(c.hold)), Clamp: c.clamp}
		if r := worked(t, s); len(noted(r, "hold-short")) != c.notes {
			t.Errorf("%+v: %+v", c, r.Notes)
		}
	}
}

// A quarter of a degree, for hexagons, on arms of 14 3/8 in: two arms of A at
// an inside angle of 180 less twice the setting are 2 A cos(setting) apart.
func TestTestCorner(t *testing.T) {
	r := worked(t, hexagons())
	if len(r.Tests) != 1 {
		t.Fatalf("%+v", r.Tests)
	}
	c := r.Tests[0]
	near(t, "arms", c.Arms.MM/inch, 14.375, 1e-4)
	near(t, "across", c.Across.MM/inch, 2*14.375*math.Cos(math.Pi/6), 1e-3)
	if r.Saw.Reading != nil {
		t.Errorf("%+v", r.Saw.Reading)
	}
	for _, off := range []float64{0.25, -0.25, 0, 1.5} {
		s := hexagons()
		across := 2 * 14.375 * math.Cos((30+off)*math.Pi/180)
		s.Test = &TestReading{Kind: "B", Arms: inches("14 3/8"), Across: unit.Length(math.Round(across * float64(unit.Inch)))}
		q := worked(t, s).Saw.Reading
		near(t, "true setting", q.True.Degrees, 30+off, 1e-3)
		near(t, "error", q.Error.Degrees, off, 1e-3)
		near(t, "set to", q.SetTo.Degrees, 30-off, 1e-3)
	}
}

// One test corner for every setting but straight across, once each.
func TestATestCornerForEverySetting(t *testing.T) {
	r := worked(t, spec("H = house: width 48, eaves 60, ridge 84", "B = hexagon: flats 18", "C = hexagon: flats 12", "H1 at 0 0", "B1 at 60 0", "C1 at 90 0"))
	var got []float64
	for _, c := range r.Tests {
		got = append(got, math.Round(c.Setting.Degrees*100)/100)
	}
	// sill and walls meet square, walls and roof (pitch 45) at 135, the ridge is square
	if want := []float64{45, 22.5, 30}; len(got) != 3 || got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("%v, want %v", got, want)
	}
}

// Boards on edge and flat boards of one timber are bought apart; price is by
// the board.
func TestStacksAndPrice(t *testing.T) {
	s := spec("B = hexagon: flats 18", "F = square: side 30, flat", "O = square: side 20, timber oak", "B1 at 0 0", "F1 at 60 0", "O1 at 120 0")
	s.Timber[0].PriceMinor, s.Timber[0].Currency = 449, "USD"
	s.Timber = append(s.Timber, Timber{Name: "oak", Thickness: inches("0.8"), Width: inches("3"), Length: inches("60"), Species: "red oak"})
	r := worked(t, s)
	want := []struct {
		name, laid string
		buy        int
		cost       int64
	}{{"pine", "on edge", 1, 449}, {"pine", "flat", 2, 898}, {"oak", "on edge", 2, 0}}
	if len(r.Timber) != len(want) {
		t.Fatalf("%d stacks", len(r.Timber))
	}
	for i, f := range r.Timber {
		if w := want[i]; f.Name != w.name || f.Laid != w.laid || f.Buy != w.buy || f.CostMinor != w.cost || (f.Cost == "") != (w.cost == 0) {
			t.Errorf("%s %s: %d boards, %q", f.Name, f.Laid, f.Buy, f.Cost)
		}
		if f.Used <= 0 || f.Used > 1 {
			t.Errorf("%g of the timber ends in frames", f.Used)
		}
	}
}

// Long enough to keep: an offcut of a foot.
func TestOffcutsWorthKeeping(t *testing.T) {
	for name, s := range variety() {
		for _, f := range worked(t, s).Timber {
			for _, b := range f.Boards {
				if b.Keep != (b.Offcut.MM >= 304.8) {
					t.Errorf("%s: an offcut of %s, kept: %v", name, b.Offcut.US, b.Keep)
				}
			}
		}
	}
}

// A house has settings of 45 and 22.5 degrees: the arms say which was tried.
func TestReadingFindsItsCorner(t *testing.T) {
	for _, setting := range []float64{45, 22.5} {
		s := spec("H = house: width 48, eaves 60, ridge 84", "H1 at 0 0")
		arms := inches("14 3/8")
		tips, _ := unit.FromMM(2*arms.MM()*math.Cos((setting+0.2)*math.Pi/180), unit.Nanometre, unit.Nearest)
		s.Test = &TestReading{"H", arms, tips}
		r := worked(t, s).Saw.Reading
		if math.Abs(r.True.Degrees-setting-0.2) > 1e-3 || math.Abs(r.SetTo.Degrees-setting+0.2) > 1e-3 {
			t.Errorf("%g: %+v", setting, r)
		}
	}
}
