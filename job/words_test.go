package job

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"

	"pgregory.net/rapid"
)

// Lengths on the tape can open a loop that closes as asked: two squares of
// 10.3 in over a rectangle of 20.6, to half inches, are 21 in over 20 1/2. It
// is told and does not stop the job.
func TestLoopOpenedByTheTape(t *testing.T) {
	s := spec("R = rectangle: width 20.6, height 12.2", "Q = square: side 10.3", "R1 at 0 0",
		"Q1 side 1 on R1 side 3, flush at start", "Q2 side 2 on Q1 side 4, and side 1 on R1 side 3, flush at end")
	s.Mark, s.Gap = unit.Inch/2, ptr(unit.Length(0))
	n := noted(worked(t, s), "loop-after-rounding")
	if len(n) != 1 || n[0].Where != "layout.Q2" || !strings.Contains(n[0].Text, "1/2 in") {
		t.Errorf("%+v", n)
	}
	s.Mark = unit.Inch / 64
	if n := noted(worked(t, s), "loop-after-rounding"); len(n) != 0 {
		t.Errorf("%+v", n)
	}
}

// Frames that stand free as asked can press into each other when sawn: squares
// of 10.3 in at 10.35 in from each other, to half inches, by 0.15 in.
func TestOverlapByTheTape(t *testing.T) {
	s := spec("Q = square: side 10.3", "Q1 at 0 0", "Q2 at 10.35 0")
	s.Mark = unit.Inch / 2
	n := noted(worked(t, s), "overlap-after-rounding")
	if len(n) != 1 || n[0].Where != "layout.Q1" || !strings.Contains(n[0].Text, "5/32 in") {
		t.Errorf("%+v", n)
	}
}

// An L and a U: a part between an outward and an inward mitre reaches from tip
// to tip, 3/4 in more than its side; one between two inward mitres is longest
// on its inside face, by 1 1/2 in.
func TestStopPoints(t *testing.T) {
	l := worked(t, spec("L = corners: corners 0 0 / 40 0 / 40 20 / 20 20 / 20 40 / 0 40", "L1 at 0 0"))
	u := worked(t, spec("U = corners: corners 0 0 / 60 0 / 60 40 / 40 40 / 40 20 / 20 20 / 20 40 / 0 40", "U1 at 0 0"))
	for _, c := range []struct {
		r           Result
		side        int
		stop        float64
		point, face string
	}{
		{l, 1, 40, "long point", "outside face"},
		{l, 3, 20.75, "tip", "tip to tip, outside face to inside face"},
		{u, 5, 21.5, "long point", "inside face"},
	} {
		mark := ""
		for _, p := range c.r.Kinds[0].Parts {
			if slices.Contains(p.Sides, c.side) {
				mark = p.Mark
			}
		}
		i := slices.IndexFunc(c.r.Timber[0].Stops, func(s StopFacts) bool { return s.Has(mark) })
		s := c.r.Timber[0].Stops[i]
		near(t, "stop of "+mark, s.Stop.MM/inch, c.stop, 1e-4)
		if s.Point != c.point || s.Face != c.face {
			t.Errorf("%s: %s, %s; want %s, %s", mark, s.Point, s.Face, c.point, c.face)
		}
	}
}

// A kind is called what people call it, and never by a word twice.
func TestTitles(t *testing.T) {
	for _, c := range []struct{ line, title, want string }{
		{"big = hexagon: flats 18", "", "big hexagon"},
		{"big = hexagon: flats 18", "Honey cell", "Honey cell"},
		{"hexagon = hexagon: flats 18", "", "hexagon"},
		{"leaf = corners: corners 0 0 / 20 0 / 20 20", "", "leaf"},
		{"leaf = sides: sides 24 60 / 24 60 / 24", "", "leaf"},
	} {
		s := spec(c.line)
		s.Kinds[0].Title = c.title
		s.read(s.Kinds[0].Name + "1 at 0 0")
		if got := worked(t, s).Kinds[0].Title; got != c.want {
			t.Errorf("%s: %q, want %q", c.line, got, c.want)
		}
	}
}

// How a kind closes is said in words that agree with its figures.
func TestHowItCloses(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"A = hexagon: flats 18", "It closes with every length on the tape."},
		{"A = arch: segments 6, outside 50", "The feet stand level."},
		{"A = corners: corners 0 0 / 30 0 / 12.3 17.7", "cut to fit"},
	} {
		s := spec(c.line, "A1 at 0 0")
		s.JointTolerance = ptr(unit.Inch / 64)
		k := worked(t, s).Kinds[0]
		fitted := slices.ContainsFunc(k.Parts, func(p PartFacts) bool { return p.Fitted })
		if !strings.Contains(k.Closes, c.says) || fitted != strings.Contains(k.Closes, "fitted") {
			t.Errorf("%s: %q, fitted: %v", c.line, k.Closes, fitted)
		}
	}
}

// Refused measures are told in the job's own unit and with the figure.
func TestRefusalsSayFigures(t *testing.T) {
	for line, says := range map[string]string{
		"A = rectangle: width 0, height 20":                                     "width is 0 in: it must be over nothing",
		"A = sides: sides 24 60 / 24 60 / 20":                                   "the last side ends 4 in from where the first begins",
		"A = corners: corners 0 0 / 20 3 / 20 20 / 0 20, open yes":              "feet must be level",
		"A = corners: corners 0 0 / 20 20 / 20 0 / 0 20":                        "meet",
		"A = hexagon: flats 4, flat":                                            "boards laid flat are 3 1/2 in deep in the plane and fill the shape",
		"A = ring: segments 8, outside 22, inside 12, flat":                     "the board is 3 1/2 in wide, too narrow for this ring",
		"A = half hexagon: side 1":                                              "on edge",
		"A = arch on legs: width 40, legs 30, segments 4, circle corners, flat": "",
	} {
		s := spec(line, "A1 at 0 0")
		if says == "" {
			worked(t, s)
			continue
		}
		snags := refusals(t, s)
		if len(snags) != 1 || !strings.Contains(snags[0].Problem, says) {
			t.Errorf("%s: %+v, want %q", line, snags, says)
		}
		if !s.Kinds[0].Flat && strings.Contains(snags[0].Remedy, "on edge") {
			t.Errorf("%s lies on edge already: %s", line, snags[0].Remedy)
		}
	}
}

// Groups that no seam joins are pointed out.
func TestGroupsAreNoted(t *testing.T) {
	if r := worked(t, hexagons()); len(noted(r, "groups")) != 0 || len(r.Overall.Groups) != 1 {
		t.Errorf("%+v", r.Notes)
	}
	if r := worked(t, spec("B = hexagon: flats 18", "B1 at 0 0", "B2 at 40 0")); len(noted(r, "groups")) != 1 || len(r.Overall.Groups) != 2 {
		t.Errorf("%+v", r.Notes)
	}
}

// A small gap is never written as none, and a shift keeps its sign where there
// is a figure.
func TestSmallFigures(t *testing.T) {
	w := newScribe(Spec{Show: "us"})
	for _, c := range []struct {
		got, want Size
	}{
		{w.fine(0), Size{0, "0 in", "0 mm"}},
		{w.fine(0.01), Size{0.01, "under 1/64 in", "under 0.1 mm"}},
		{w.fine(0.3), Size{0.3, "1/64 in", "0.3 mm"}},
		{w.signed(-0.01), Size{-0.01, "under 1/64 in", "under 0.1 mm"}},
		{w.signed(-0.3), Size{-0.3, "-1/64 in", "-0.3 mm"}},
		{w.signed(0), Size{0, "0 in", "0 mm"}},
		{w.up(25.41), Size{25.41, "1 1/16 in", "25.5 mm"}},
		{w.down(25.39), Size{25.39, "15/16 in", "25 mm"}},
		{w.cut(263.7), Size{263.7, "10 3/8 in", "263.5 mm"}},
		{w.looked(263.7), Size{263.7, "10 3/8 in", "264 mm"}},
		{w.whole(2288), Size{2288, "7 ft 6 1/16 in", "2288 mm"}},
	} {
		if c.got != c.want {
			t.Errorf("%+v, want %+v", c.got, c.want)
		}
	}
}

// A mass is carried, so each unit goes up to its next whole.
func TestWeightsGoUp(t *testing.T) {
	w := newScribe(Spec{})
	for _, c := range []struct{ kg, lb, up float64 }{{1, 2.3, 1}, {0.45359237, 1, 0.5}, {1.001, 2.3, 1.1}, {4.5, 10, 4.5}, {10.01, 23, 11}, {0, 0, 0}} {
		if got := w.weight(unit.Mass(c.kg)); got.US != fmt.Sprintf("%g lb", c.lb) || got.Metric != fmt.Sprintf("%g kg", c.up) {
			t.Errorf("%g kg is %+v", c.kg, got)
		}
	}
}

// The weight of the whole is that of its boards' volume: six boards of a
// hexagon, each as long as the mean of its faces. Eastern white pine has a
// gravity of 0.36 oven-dry; at 12 % stock.Density says what a board weighs.
func TestWeightOfAHexagon(t *testing.T) {
	r := worked(t, hexagons())
	p := r.Kinds[0].Parts[0]
	volume := 6 * (p.Outside.MM + p.InsideLength.MM) / 2 * 0.75 * inch * 3.5 * inch // mm3
	near(t, "one", r.Kinds[0].Weight.KG, volume*1e-9*r.Timber[0].Density, 0.005)
	near(t, "both", r.Overall.Weight.KG, 2*volume*1e-9*r.Timber[0].Density, 0.01)
}

// Random trees of frames side on side: whatever they do, Plan gives a result
// that adds up, or snags, and never an error; and the same twice.
func TestRandomTrees(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := spec("B = hexagon: flats 18", "Q = square: side 10.4", "T = triangle: side 12", "H = half hexagon: side 9, open yes")
		sides := map[string]int{"B": 6, "Q": 4, "T": 3, "H": 3}
		n := rapid.IntRange(1, 8).Draw(rt, "frames")
		for i := range n {
			kind := rapid.SampledFrom([]string{"B", "Q", "T", "H"}).Draw(rt, "kind")
			q := Place{ID: fmt.Sprintf("%s%d", kind, i), Kind: kind, Mirror: rapid.Bool().Draw(rt, "mirror")}
			if i == 0 {
				q.At = point([]string{"0", "0"})
			} else {
				to := s.Layout[rapid.IntRange(0, i-1).Draw(rt, "to")]
				q.Attach = []Attach{{Side: rapid.IntRange(1, sides[kind]).Draw(rt, "side"), To: to.ID, ToSide: rapid.IntRange(1, sides[to.Kind]).Draw(rt, "to side"),
					Align: rapid.SampledFrom([]string{"", "flush at start", "flush at end"}).Draw(rt, "align")}}
			}
			s.Layout = append(s.Layout, q)
		}
		plan := func() (Result, []string) {
			p := start(s, BuiltIn())
			for _, step := range []func(){p.prepare, p.layAsked, p.layBuilt, p.facts} {
				if step(); p.err != nil {
					rt.Fatal(p.err)
				}
				if p.snags.Stops() {
					break
				}
			}
			var codes []string
			for _, q := range p.snags {
				codes = append(codes, q.Code+" "+q.Place.Path)
			}
			return p.result, codes
		}
		r, codes := plan()
		again, codesAgain := plan()
		if !slices.Equal(codes, codesAgain) || !reflect.DeepEqual(r, again) {
			rt.Fatal("two runs differ")
		}
		for _, c := range codes {
			if !strings.HasPrefix(c, "layout-overlap ") {
				rt.Fatal(c)
			}
		}
		if len(codes) == 0 {
			checkTree(rt, r, n)
		}
	})
}

// checkTree checks what must hold for a tree that has no overlap: one seam at
// least for every attachment, so one piece; the lowest point at 0, the left
// end at 0; every frame inside the overall size.
func checkTree(t *rapid.T, r Result, n int) {
	if len(r.Seams) < n-1 || len(r.Overall.Groups) != 1 {
		t.Fatalf("%d seams and %d groups of %d frames", len(r.Seams), len(r.Overall.Groups), n)
	}
	left, low, right, high := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, f := range r.Frames {
		for _, c := range f.Outside {
			left, right, low, high = min(left, c[0]), max(right, c[0]), min(low, c[1]), max(high, c[1])
		}
	}
	if math.Abs(left) > 0.002 || math.Abs(low) > 0.002 || math.Abs(right-r.Overall.Width.MM) > 0.003 || math.Abs(high-r.Overall.Height.MM) > 0.003 {
		t.Fatalf("from %g, %g to %g, %g; the cover says %g x %g", left, low, right, high, r.Overall.Width.MM, r.Overall.Height.MM)
	}
}
