package frame

import (
	"math"
	"slices"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

const sixteenth = inch / 16

// rounded is the tape's lengths of an outline with no fitting.
func rounded(o Outline, mark unit.Length, pinned map[int]unit.Length) (rounding, []unit.Length) {
	r := rounding{sticks: o.sticks(Settings{Mark: mark, Pinned: pinned}), open: o.Open}
	return r, r.best()
}

func (r rounding) cost(lengths []unit.Length) float64 {
	sum := 0.0
	for i, s := range r.sticks {
		d := lengths[i].MM() - s.asked
		sum += d * d
	}
	return sum
}

// bruteForce tries every way up or down and keeps the best by plain rules.
func bruteForce(r rounding) []unit.Length {
	all := [][]unit.Length{nil}
	for _, s := range r.sticks {
		var more [][]unit.Length
		for _, l := range all {
			for _, c := range s.choices {
				more = append(more, append(slices.Clone(l), c))
			}
		}
		all = more
	}
	least := math.Inf(1)
	for _, l := range all {
		least = math.Min(least, r.left(l).Len())
	}
	var best []unit.Length
	s := &search{rounding: r}
	for _, l := range all {
		if r.left(l).Len() > least+sameMM {
			continue
		}
		switch d := 0.0; {
		case best == nil:
			best = l
		default:
			d = r.cost(l) - r.cost(best)
			same := math.Abs(d) <= sameCost
			parted := s.parted(l) - s.parted(best)
			if d < -sameCost || same && (parted < 0 || parted == 0 && slices.Compare(l, best) < 0) {
				best = l
			}
		}
	}
	return best
}

func TestRoundingAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOutline(t)
		if o.Sides() > 10 {
			t.Skip("too many sides to try all ways")
		}
		mark := rapid.SampledFrom([]unit.Length{mm, 5 * mm, sixteenth, inch / 2, 100 * mm}).Draw(t, "mark")
		r, got := rounded(o, mark, nil)
		if want := bruteForce(r); !slices.Equal(got, want) {
			t.Fatalf("rounded to %v (gap %g, cost %g), best is %v (gap %g, cost %g)",
				got, r.left(got).Len(), r.cost(got), want, r.left(want).Len(), r.cost(want))
		}
	})
}

// Outlines drawn on a lattice tie often: many sides are equal and parallel.
func TestRoundingOfTiesAgainstBruteForce(t *testing.T) {
	step := rapid.Float64Range(10.01, 11)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 10).Draw(t, "sides")
		k, square := step.Draw(t, "step"), rapid.Bool().Draw(t, "square")
		var r rounding
		for range n {
			turn := math.Pi / 3
			if square {
				turn = math.Pi / 2
			}
			l := k * float64(rapid.IntRange(1, 3).Draw(t, "times"))
			u := geom.Point{X: 1}.Rot(turn * float64(rapid.IntRange(0, 5).Draw(t, "heading")))
			r.sticks = append(r.sticks, stick{dir: u, asked: l, choices: marks(l, mm)})
		}
		r.open = rapid.Bool().Draw(t, "open")
		got, want := r.best(), bruteForce(r)
		if !slices.Equal(got, want) {
			t.Fatalf("rounded to %v (gap %g, cost %g), best is %v (gap %g, cost %g)",
				got, r.left(got).Len(), r.cost(got), want, r.left(want).Len(), r.cost(want))
		}
	})
}

func TestTiesKeepEqualSidesEqual(t *testing.T) {
	// A square of 10.5 mm sides and a stray 0.3 mm that nothing can mend: 10 and
	// 11 all round, or 10 and 11 in opposite pairs, leave the same gap at the
	// same cost.
	var r rounding
	for k := range 4 {
		u := geom.Point{X: 1}.Rot(float64(k) * math.Pi / 2)
		r.sticks = append(r.sticks, stick{dir: u, asked: 10.5, choices: marks(10.5, mm)})
	}
	r.sticks = append(r.sticks, stick{dir: geom.Point{X: 1}, asked: 0.3, choices: []unit.Length{mm * 3 / 10}})
	want := []unit.Length{10 * mm, 10 * mm, 10 * mm, 10 * mm, mm * 3 / 10}
	if got := r.best(); !slices.Equal(got, want) {
		t.Errorf("rounded to %v", got)
	}
	s := &search{rounding: r}
	if a, b := s.parted([]unit.Length{10, 11, 10, 11, 3}), s.parted([]unit.Length{11, 11, 11, 11, 3}); a != 4 || b != 0 {
		t.Errorf("parted pairs: %d and %d", a, b)
	}
}

func TestFramesCloseAfterRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOutline(t)
		s := Settings{Boards: flat(20 * mm), Mark: sixteenth, JointTolerance: inch / 64}
		f, err := Build(o, s)
		if err != nil {
			t.Skip(err)
		}
		c := f.Closing
		if (c.Gap > s.JointTolerance.MM()+sameMM) != (len(c.Fitted) == 2) {
			t.Fatalf("gap %g and fitted sides %v", c.Gap, c.Fitted)
		}
		var e geom.Point // walk the parts as listed
		for i, p := range f.Parts {
			e = e.Add(o.Side(i + 1).Vec().Unit().Mul(p.Outside.MM()))
			fitted := slices.Contains(c.Fitted, p.Side)
			if p.Fitted != fitted || !fitted && p.Outside%s.Mark != 0 {
				t.Fatalf("side %d of %v: fitted %v", p.Side, p.Outside, p.Fitted)
			}
			if !fitted && math.Abs(p.Outside.MM()-p.Asked) > s.Mark.MM() {
				t.Fatalf("side %d moved from %g to %g", p.Side, p.Asked, p.Outside.MM())
			}
		}
		if !near(e.Len(), c.Left, 1e-6) || c.Left > s.JointTolerance.MM()+sameMM {
			t.Fatalf("the walk ends %g off, said %g", e.Len(), c.Left)
		}
		if !near(f.Built.Corners.Side(f.Built.Sides()-1).Len(), f.Parts[len(f.Parts)-1].Outside.MM(), c.Left+1e-6) {
			t.Fatal("the last side takes up more than what is left")
		}
	})
}

func TestEqualSidesStayEqual(t *testing.T) {
	for n := 3; n <= MostRegular; n++ {
		o := must(Regular(n, CornerCircle, in(40), OnSide, 0))
		f := build(t, o, Settings{Boards: flat(25 * mm), Mark: sixteenth, JointTolerance: inch / 64})
		if len(f.Kinds()) != 1 || f.Closing.Gap > 1e-6 {
			t.Errorf("%d sides: %d kinds, gap %g", n, len(f.Kinds()), f.Closing.Gap)
		}
		near, _ := unit.FromMM(o.Length(1), sixteenth, unit.Nearest)
		if f.Parts[0].Outside != near || f.Parts[0].Fitted {
			t.Errorf("%d sides: %v, want %v", n, f.Parts[0].Outside, near)
		}
		if r, ok := f.Built.cornerRadius(); !ok || math.Abs(r-508) > 25.4 {
			t.Errorf("%d sides: built shape has lost its sizes", n)
		}
	}
}

func TestAskedAndBuiltSizes(t *testing.T) {
	// 18 in flats: side 10.392, on the tape 10 3/8, so flats are 17.970.
	f := build(t, hexagon(Flats, 18*inch), Settings{Boards: onEdge(in(0.75)), Mark: sixteenth, JointTolerance: inch / 64})
	if f.Parts[0].Outside != in(10.375) {
		t.Errorf("side %v", f.Parts[0].Outside)
	}
	if len(f.AskedSizes) != len(f.BuiltSizes) {
		t.Fatal("built sizes are not those asked")
	}
	for i, a := range f.AskedSizes {
		b := f.BuiltSizes[i]
		if a.Measure != b.Measure || math.Abs(a.MM-b.MM) > inch.MM()/16*2 || a.MM == b.MM {
			t.Errorf("%s: asked %g, built %g", a.Measure, a.MM, b.MM)
		}
	}
	v, _ := f.Built.Size(Flats, 0)
	want(t, "flats as built", v/25.4, 10.375*math.Sqrt(3), 1e-6)
	want(t, "mass of no density", float64(f.Mass), 0, 0)
}

func TestMass(t *testing.T) {
	f := build(t, must(Rectangle(1000*mm, 1000*mm)), Settings{Boards: flat(100 * mm), Density: 500, JointTolerance: mm})
	// A ring of 1000² - 800² mm², 19 mm deep.
	want(t, "kg", float64(f.Mass), 0.36*0.019*500, 1e-9)
	want(t, "outside area", float64(f.OutsideArea), 1e6, 1e-6)
	want(t, "inside area", float64(f.InsideArea), 0.64e6, 1e-3)
}

func TestHouseIsFittedAtItsRoof(t *testing.T) {
	// By hand: with roofs of 848 the ridge is 0.747 short, with 849 0.667 too
	// long, with one of each 0.708 out.
	o := must(House(1200*mm, 1500*mm, 2100*mm))
	f := build(t, o, Settings{Boards: flat(45 * mm), Mark: mm, JointTolerance: in(1.0 / 64)})
	want(t, "gap by the tape", f.Closing.Gap, 0.6673, 1e-4)
	if !slices.Equal(f.Closing.Fitted, []int{3, 4}) || f.Closing.Left > 1e-5 {
		t.Fatalf("closing %+v", f.Closing)
	}
	for i, l := range []unit.Length{1200 * mm, 1500 * mm, 0, 0, 1500 * mm} {
		if p := f.Parts[i]; l > 0 && p.Outside != l || l == 0 && !near(p.Outside.MM(), 600*math.Sqrt2, 2e-6) {
			t.Errorf("side %d: %v", i+1, p.Outside)
		}
	}
	// With a coarser joint it may stay on the tape.
	g := build(t, o, Settings{Boards: flat(45 * mm), Mark: mm, JointTolerance: mm})
	if g.Parts[2].Outside != 849*mm || len(g.Closing.Fitted) != 0 || !near(g.Closing.Left, 0.6673, 1e-4) {
		t.Errorf("within 1 mm: %+v", g.Closing)
	}
}

func TestPinnedSidesStay(t *testing.T) {
	o := hexagon(Side, in(10.392))
	s := Settings{Boards: flat(40 * mm), Mark: sixteenth, JointTolerance: inch / 64}
	s.Pinned = map[int]unit.Length{1: in(10.4375), 4: in(10.4375)}
	f := build(t, o, s)
	if f.Parts[0].Outside != in(10.4375) || !f.Parts[0].Pinned || f.Parts[1].Pinned || f.Closing.Gap > 1e-6 {
		t.Errorf("parts %v %v, closing %+v", f.Parts[0].Outside, f.Parts[1].Outside, f.Closing)
	}
	s.Pinned = map[int]unit.Length{2: in(10.2)} // alone it cannot close on the tape
	f = build(t, o, s)
	if f.Parts[1].Outside != in(10.2) || len(f.Closing.Fitted) != 2 || f.Closing.Left > 1e-5 {
		t.Errorf("parts %v, closing %+v", f.Parts[1].Outside, f.Closing)
	}
	s.Pinned = map[int]unit.Length{}
	for k := 1; k <= 6; k++ {
		s.Pinned[k] = 10 * inch
	}
	s.Pinned[6] = 11 * inch
	_, err := Build(o, s)
	want(t, "gap left", refusal(t, err, PinnedDoNotClose).Got, 25.4, 1e-5)
	delete(s.Pinned, 5)
	_, err = Build(o, s) // one free side cannot close two directions
	refusal(t, err, PinnedDoNotClose)
	s.Pinned = map[int]unit.Length{7: inch}
	_, err = Build(o, s)
	refusal(t, err, NoSuchSide)
	s.Pinned = map[int]unit.Length{3: 0}
	_, err = Build(o, s)
	refusal(t, err, BadMeasure)
	s.Pinned = map[int]unit.Length{1: in(40)} // the others would have to run backwards
	_, err = Build(o, s)
	if err == nil {
		t.Error("a side longer than all the others closes")
	}
}

func TestFeetStayLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "segments")
		size := unit.Length(rapid.IntRange(1_000_000, 3_000_000).Draw(t, "size µm")) * unit.Micrometre
		o := must(HalfRound(n, size, CornersOn, false))
		f, err := Build(o, Settings{Boards: flat(30 * mm), Mark: sixteenth, JointTolerance: inch / 64})
		if err != nil {
			t.Fatal(err)
		}
		c := f.Built.Corners
		if !near(c[0].Y, 0, 1e-5) || !near(c[n].Y, 0, 1e-5) {
			t.Fatalf("feet at %g and %g", c[0].Y, c[n].Y)
		}
		if !near(f.Built.span(), o.span()+f.Closing.SpanChange, 1e-5) {
			t.Fatalf("span %g, asked %g, said to change by %g", f.Built.span(), o.span(), f.Closing.SpanChange)
		}
	})
}

func TestUnevenArchGetsOneFittedPart(t *testing.T) {
	o := must(OpenByCorners([]geom.Point{{X: -500}, {X: -300, Y: 801.3}, {X: 350, Y: 700.7}, {X: 500}}, false))
	s := Settings{Boards: flat(45 * mm), Mark: 5 * mm, JointTolerance: mm / 10}
	f := build(t, o, s)
	if len(f.Closing.Fitted) != 1 || f.Closing.Left > 1e-5 {
		t.Fatalf("closing %+v", f.Closing)
	}
	c := f.Built.Corners
	want(t, "left foot", c[len(c)-1].Y, 0, 1e-5)
	for _, p := range f.Parts {
		if !p.Fitted && p.Outside%(5*mm) != 0 {
			t.Errorf("side %d: %v is off the tape", p.Side, p.Outside)
		}
	}
	s.Pinned = map[int]unit.Length{1: 700 * mm, 2: 660 * mm, 3: 800 * mm}
	_, err := Build(o, s)
	refusal(t, err, PinnedDoNotClose)
}

func TestMarks(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		mark unit.Length
		want []unit.Length
	}{
		{10.4, mm, []unit.Length{10 * mm, 11 * mm}},
		{10, mm, []unit.Length{10 * mm}},
		{10 + 1e-7, mm, []unit.Length{10 * mm}},
		{10 - 1e-7, mm, []unit.Length{10 * mm}},
		{0.3, mm, []unit.Length{mm}}, // never to nothing
		{10.4, 0, []unit.Length{in(10.4 / 25.4)}},
		{264.3, inch / 16, []unit.Length{in(10.375), in(10.4375)}},
	} {
		if got := marks(c.mm, c.mark); !slices.Equal(got, c.want) {
			t.Errorf("%g to %v: %v, want %v", c.mm, c.mark, got, c.want)
		}
	}
}

// More sides than are tried both ways still close, by fitted lengths if need be.
func TestManySides(t *testing.T) {
	var p geom.Polygon
	for i := range 40 {
		p = append(p, geom.Point{X: 3000 + 37.7*float64(i%7)}.Rot(float64(i)*2*math.Pi/40))
	}
	f := build(t, must(ByCorners(p)), Settings{Boards: flat(20 * mm), Mark: mm, JointTolerance: in(1.0 / 64)})
	if f.Closing.Left > inch.MM()/64+1e-6 {
		t.Errorf("closing %+v", f.Closing)
	}
}

func TestFamily(t *testing.T) {
	// 18, 12 and 6 in flats: sides 10.392, 6.928, 3.464, so 3u, 2u, u.
	var sides []float64
	for _, fl := range []float64{18, 12, 6} {
		sides = append(sides, hexagon(Flats, in(fl)).Length(1))
	}
	f, err := FamilyOf(sides, sixteenth)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(f.Times, []int{3, 2, 1}) || f.Unit != in(3.4375) || f.Length(0) != in(10.3125) {
		t.Errorf("family %v of %v", f.Times, f.Unit)
	}
	f, err = FamilyOf([]float64{264, 176, 88}, mm) // on the tape already
	if err != nil || f.Unit != 88*mm || !slices.Equal(f.Times, []int{3, 2, 1}) {
		t.Errorf("family %v of %v, %v", f.Times, f.Unit, err)
	}
	f, err = FamilyOf([]float64{600, 400, 400, 1000}, mm)
	if err != nil || f.Unit != 200*mm || !slices.Equal(f.Times, []int{3, 2, 2, 5}) {
		t.Errorf("family %v of %v, %v", f.Times, f.Unit, err)
	}
	f, err = FamilyOf([]float64{10}, mm)
	if err != nil || f.Unit != 10*mm {
		t.Errorf("one side: %v, %v", f, err)
	}
	_, err = FamilyOf([]float64{1000, 1000 * math.Sqrt2}, mm)
	if r := refusal(t, err, NoFamily); !slices.Equal(r.Ratio, []int{17, 24}) {
		t.Errorf("nearest ratio of a square's side and diagonal: %v", r.Ratio)
	}
	_, err = FamilyOf([]float64{10, 1000}, mm)
	refusal(t, err, NoFamily)
	_, err = FamilyOf(nil, mm)
	refusal(t, err, NoFamily)
	_, err = FamilyOf([]float64{10, 0}, mm)
	refusal(t, err, SideTooShort)
}

func TestFamilyUnitIsTheBestOnTheTape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.Float64Range(20, 300).Draw(t, "unit")
		var sides []float64
		for range rapid.IntRange(1, 6).Draw(t, "kinds") {
			sides = append(sides, u*float64(rapid.IntRange(1, 8).Draw(t, "times")))
		}
		f, err := FamilyOf(sides, sixteenth)
		if err != nil {
			t.Fatal(err)
		}
		cost := func(u unit.Length) (sum float64) {
			for i, s := range sides {
				sum += math.Pow(float64(f.Times[i])*u.MM()-s, 2)
			}
			return
		}
		for _, other := range []unit.Length{f.Unit - sixteenth, f.Unit + sixteenth} {
			if cost(other) < cost(f.Unit)-sameCost {
				t.Fatalf("%v is better than %v", other, f.Unit)
			}
		}
		if f.Unit%sixteenth != 0 {
			t.Fatalf("%v is off the tape", f.Unit)
		}
	})
}

func BenchmarkBuildHexagon(b *testing.B) {
	o := hexagon(Flats, 18*inch)
	for b.Loop() {
		if _, err := Build(o, Settings{Boards: flat(40 * mm), Mark: sixteenth, JointTolerance: inch / 64}); err != nil {
			b.Fatal(err)
		}
	}
}

// The most that rounding has to do: 24 sides, none on a mark, none equal.
func BenchmarkBuild24UnequalSides(b *testing.B) {
	var p geom.Polygon
	for i := range 24 {
		p = append(p, geom.Point{X: 1500 + 13.37*float64(i*i%11)}.Rot(float64(i)*math.Pi/12))
	}
	o := must(ByCorners(p))
	for b.Loop() {
		if _, err := Build(o, Settings{Boards: flat(20 * mm), Mark: sixteenth, JointTolerance: inch / 64}); err != nil {
			b.Fatal(err)
		}
	}
}
