package drawing_test

import (
	"math"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// extent is the box of all that shapes draw, line weights left aside.
func extent(shapes []drawnShape) (lo, hi drawing.Point) {
	lo, hi = pt(math.Inf(1), math.Inf(1)), pt(math.Inf(-1), math.Inf(-1))
	for _, s := range shapes {
		for _, o := range s.outlines {
			for _, p := range o.Flat(0.001) {
				lo, hi = pt(min(lo.X, p.X), min(lo.Y, p.Y)), pt(max(hi.X, p.X), max(hi.Y, p.Y))
			}
		}
	}
	return lo, hi
}

// TestPeopleAreTheirHeight: feet on the ground, crown at the height, the head
// 1/7.5 of it, the figure as wide on both sides.
func TestPeopleAreTheirHeight(t *testing.T) {
	for p, inches := range map[drawing.Person]float64{drawing.Adult: 66, drawing.Skirt: 63, drawing.Child: 42} {
		shapes := sketched(p.Figure(pt(50, 90), 0.04)...).shapes
		lo, hi := extent(shapes)
		if h := hi.Y - lo.Y; !near(h, inches*25.4*0.04, 0.01) || !near(hi.Y, 90, 1e-9) {
			t.Errorf("%s stands %g mm high with its feet at %g", p.Says(), h, hi.Y)
		}
		if !near(50-lo.X, hi.X-50, 0.01) {
			t.Errorf("%s reaches %g left and %g right", p.Says(), 50-lo.X, hi.X-50)
		}
		hlo, hhi := extent(shapes[len(shapes)-1:])
		if got := (hi.Y - lo.Y) / (hhi.Y - hlo.Y); !near(got, 7.5, 0.01) {
			t.Errorf("%s is %g heads high", p.Says(), got)
		}
		for _, s := range shapes {
			if s.pen != drawing.PenPerson || (s.fill != drawing.Sheet && s.fill != drawing.None) {
				t.Errorf("%s is not outline only: %v", p.Says(), s)
			}
		}
	}
}

func TestPersonNamed(t *testing.T) {
	s := sketched(drawing.Adult.Named(pt(50, 90), 0.04)...)
	if len(s.words) != 1 || s.words[0].Plain != "5 ft 6" || s.words[0].At.Y >= 90-drawing.Adult.Height()*0.04 {
		t.Errorf("the height is not written over the head: %+v", s.words)
	}
}

func TestUseOf(t *testing.T) {
	for share, want := range map[float64]string{0: "well inside", 0.5: "well inside", 0.501: "near the limit", 1: "near the limit", 1.001: "over", math.Inf(1): "over", -1: "well inside"} {
		if got := drawing.UseOf(share).String(); got != want {
			t.Errorf("%g is %q, want %q", share, got, want)
		}
	}
	if drawing.UseOf(math.NaN()) != drawing.Over {
		t.Error("what is no number does not count as over")
	}
}

// TestVialSaysItsWord: the bubble lies wholly in the stretch its word names,
// whatever the share, and a black end is there when and only when it is over.
func TestVialSaysItsWord(t *testing.T) {
	const w = 60.0
	check := func(t interface{ Fatalf(string, ...any) }, share float64) {
		shapes := sketched(drawing.Vial(pt(10, 50), w, share)...).shapes
		lo, hi := extent(shapes[len(shapes)-1:])
		dashed, heavy := 10+w*63/150, 10+w*114/150
		stretch := [][2]float64{{10, dashed}, {dashed, heavy}, {heavy, 10 + w}}[drawing.UseOf(share)]
		if lo.X <= stretch[0] || hi.X >= stretch[1] {
			t.Fatalf("share %g: bubble from %g to %g, its stretch from %g to %g", share, lo.X, hi.X, stretch[0], stretch[1])
		}
		if black := len(shapes) == 5 && shapes[3].fill == drawing.Ink; black != (drawing.UseOf(share) == drawing.Over) {
			t.Fatalf("share %g: black end %v", share, black)
		}
		full := shapes[len(shapes)-1].fill == drawing.Ink
		if full != (drawing.UseOf(share) == drawing.Near) {
			t.Fatalf("share %g: full bubble %v", share, full)
		}
	}
	rapid.Check(t, func(t *rapid.T) { check(t, rapid.Float64Range(0, 3).Draw(t, "share")) })
	for _, share := range []float64{0, 0.5, 1, math.Inf(1), math.NaN(), -4} {
		check(t, share)
	}
}

// TestVialMoves: more used is never further left.
func TestVialMoves(t *testing.T) {
	last := 0.0
	for i := range 120 {
		shapes := sketched(drawing.Vial(pt(0, 50), 60, float64(i)/100)...).shapes
		lo, _ := extent(shapes[len(shapes)-1:])
		if lo.X < last-1e-9 {
			t.Fatalf("at %d %% the bubble goes back to %g", i, lo.X)
		}
		last = lo.X
	}
}

// TestCheckBarsMeasure 100 mm and 4 in, exactly.
func TestCheckBarsMeasure(t *testing.T) {
	var whole []float64
	for _, s := range sketched(drawing.CheckBars(pt(20, 50))...).shapes {
		if d := s.outlines[0].End().Sub(s.outlines[0].Start); d.Y == 0 {
			whole = append(whole, d.X)
		}
	}
	if len(whole) != 2 || !near(whole[0], 100, 1e-9) || !near(whole[1], 101.6, 1e-9) {
		t.Errorf("the bars measure %v", whole)
	}
}

func TestArrow(t *testing.T) {
	for _, to := range []drawing.Point{pt(10, 30), pt(40, 10), pt(10.5, 10), pt(-5, -7)} {
		s := sketched(drawing.Arrow(pt(10, 10), to)...).shapes
		head := s[1].outlines[0]
		if s[1].fill != drawing.Ink || head.Start != to || !head.Closed {
			t.Errorf("the head is %s, want its tip at %v", notation(head), to)
		}
		if stem := s[0].outlines[0]; stem.End().Dist(to) < 0.2*to.Dist(stem.Start) && stem.End().Dist(to) < 1 {
			t.Errorf("the stem %s shows beside the tip %v", notation(stem), to)
		}
	}
}

// TestDiscHoldsItsLetters, one or three, inside the disc and level with its
// middle.
func TestDiscHoldsItsLetters(t *testing.T) {
	for _, letters := range []string{"A", "W", "WW", "WWW"} {
		for _, st := range []drawing.Standing{drawing.Handled, drawing.Stands} {
			s := sketched(drawing.Disc(pt(50, 50), 4, letters, st)...)
			w := s.words[0]
			if cap := w.Runs[0].Size * drawing.CapHeight * drawing.MMPerPt; w.Width > 8 || !near(w.At.Y-cap/2, 50, 1e-9) {
				t.Errorf("%s is %g mm wide, its middle at %g", letters, w.Width, w.At.Y-cap/2)
			}
			if black := s.shapes[0].fill == drawing.Ink; black == bool(st) {
				t.Errorf("%s: black disc %v, stands %v", letters, black, st)
			}
		}
	}
}

func TestSmallFigures(t *testing.T) {
	lo, hi := extent(sketched(drawing.TickBox(pt(5, 6))).shapes)
	if lo != pt(5, 6) || !near(hi.X-lo.X, 5.08, 1e-9) || !near(hi.Y-lo.Y, 5.08, 1e-9) {
		t.Errorf("the box to tick is %v to %v", lo, hi)
	}
	lo, hi = extent(sketched(drawing.UpMark(pt(50, 50), 6)...).shapes)
	if !near(hi.X-lo.X, 6, 1e-9) || hi.Y != 50 || !near(lo.X+hi.X, 100, 1e-9) {
		t.Errorf("the up-mark is %v to %v", lo, hi)
	}
	for name, it := range map[string]drawing.Item{"tick": drawing.Tick(pt(5, 20), 4), "angle": drawing.Angle(pt(5, 20), 4)} {
		lo, hi := extent(sketched(it).shapes)
		if lo.X < 5 || hi.Y > 20 || hi.Y-lo.Y > 4 || hi.Y-lo.Y < 3 {
			t.Errorf("the %s is %v to %v", name, lo, hi)
		}
	}
	if lo, hi := extent(sketched(drawing.Bolt(pt(9, 9))).shapes); !near(hi.X-lo.X, 2.6, 0.01) {
		t.Errorf("a bolt is %v to %v", lo, hi)
	}
}

// TestThumbTabsStep down the edge, the same way on every set of ten.
func TestThumbTabsStep(t *testing.T) {
	top := func(i int) float64 {
		lo, hi := extent(sketched(drawing.ThumbTab(215.9, i, "7")...).shapes)
		if hi.X != 215.9 || hi.Y > 258 {
			t.Errorf("tab %d is %v to %v", i, lo, hi)
		}
		return lo.Y
	}
	for i := range 9 {
		if top(i+1) <= top(i) {
			t.Errorf("tab %d is not under tab %d", i+1, i)
		}
	}
	if top(10) != top(0) {
		t.Error("the eleventh tab does not start again")
	}
}

func TestFoldMarks(t *testing.T) {
	lo, hi := extent(sketched(drawing.FoldMarks(210, 297)...).shapes)
	if lo != pt(0, 148.5) || hi != pt(210, 148.5) {
		t.Errorf("fold marks from %v to %v", lo, hi)
	}
}
