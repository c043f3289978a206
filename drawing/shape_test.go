package drawing_test

import (
	"math"
	"strings"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// TestFigures writes every ready figure down in points, so that a change of
// shape is read as such.
func TestFigures(t *testing.T) {
	var b strings.Builder
	for _, f := range []struct {
		name  string
		items []drawing.Item
	}{
		{"up-mark", drawing.UpMark(pt(50, 50), 10)},
		{"adult", drawing.Adult.Figure(pt(50, 90), 0.04)},
		{"skirt", drawing.Skirt.Figure(pt(50, 90), 0.04)},
		{"arrow", drawing.Arrow(pt(10, 10), pt(30, 10))},
		{"vial, well inside", drawing.Vial(pt(0, 50), 75, 0.2)},
		{"vial, near", drawing.Vial(pt(0, 50), 75, 0.8)},
		{"vial, over", drawing.Vial(pt(0, 50), 75, 1.2)},
		{"disc in hand", drawing.Disc(pt(50, 50), 5, "A", drawing.Handled)},
		{"disc standing", drawing.Disc(pt(50, 50), 5, "B", drawing.Stands)},
		{"box to tick", []drawing.Item{drawing.TickBox(pt(10, 10))}},
		{"tick", []drawing.Item{drawing.Tick(pt(10, 10), 5)}},
		{"angle", []drawing.Item{drawing.Angle(pt(10, 10), 5)}},
		{"bolt", []drawing.Item{drawing.Bolt(pt(10, 10))}},
		{"thumb tab", drawing.ThumbTab(210, 2, "7")},
	} {
		b.WriteString(f.name + "\n")
		for line := range strings.Lines(sketched(f.items...).log.String()) {
			b.WriteString("  " + line)
		}
	}
	golden(t, "figures.txt", b.String())
}

// TestHatchings writes each hatching of one small square down in points.
func TestHatchings(t *testing.T) {
	var b strings.Builder
	for _, h := range allHatches {
		b.WriteString(h.String() + "\n")
		s := sketched(drawing.Rect(drawing.Pen{}, drawing.Fill{Hatch: h}, 10, 10, 5, 5))
		for line := range strings.Lines(s.log.String()) {
			b.WriteString("  " + line)
		}
	}
	golden(t, "hatchings.txt", b.String())
}

func anyAffine(t *rapid.T, name string) drawing.Affine {
	v := func(s string) float64 { return rapid.Float64Range(-3, 3).Draw(t, name+s) }
	return drawing.Affine{XX: v("xx"), XY: v("xy"), YX: v("yx"), YY: v("yy"), X: v("x"), Y: v("y")}
}

// TestNestedMoves: a group in a group is moved by the inner map and then by the
// outer, whatever they are.
func TestNestedMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, p := anyAffine(t, "a"), anyAffine(t, "b"), anyPoint(t, "p")
		s := sketched(drawing.Group{Move: a, Items: []drawing.Item{
			drawing.Group{Move: b, Items: []drawing.Item{drawing.Stroke(drawing.PenEdge, p, pt(0, 0)), drawing.Label(p, 9, "x")}},
		}})
		want := a.Apply(b.Apply(p))
		if got := s.shapes[0].outlines[0].Start; got.Dist(want) > 1e-9*(1+want.Len()) {
			t.Fatalf("the line starts at %v, want %v", got, want)
		}
		if got := s.words[0].At; got.Dist(want) > 1e-9*(1+want.Len()) {
			t.Fatalf("the word stands at %v, want %v", got, want)
		}
	})
}

// TestFigureClearOfTicks: however long the line, a dimension's figure never
// lies on its ticks.
func TestFigureClearOfTicks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		long := rapid.Float64Range(0.1, 60).Draw(t, "length")
		_, ticks, w := dimensioned(drawing.Level(pt(10, 10), pt(10+long, 10), 20, "27 11/16 in"))
		for _, k := range ticks {
			lo, hi := min(k.Start.X, k.End().X), max(k.Start.X, k.End().X)
			if w.At.X < hi && w.At.X+w.Width > lo {
				t.Fatalf("%g mm long: the figure from %g to %g lies on the tick from %g to %g", long, w.At.X, w.At.X+w.Width, lo, hi)
			}
		}
	})
}

// TestDefaults: a text with nothing said is body text in ink; a span's own
// settings win.
func TestDefaults(t *testing.T) {
	r := sketched(drawing.Text{At: pt(5, 5), Spans: []drawing.Span{{S: "plain"}, {S: "own", Font: drawing.Mono, Size: 20, Tone: drawing.Chalk}}}).words[0].Runs
	if r[0].Font != drawing.Regular || r[0].Size != drawing.Body || r[0].Tone != drawing.Ink {
		t.Errorf("nothing said gives %+v", r[0])
	}
	if r[1].Font != drawing.Mono || r[1].Size != 20 || r[1].Tone != drawing.Chalk || !near(r[1].X, r[0].Width, 1e-9) {
		t.Errorf("the span's own are %+v", r[1])
	}
}

// TestMethodsCopy: setting a text changes a copy.
func TestMethodsCopy(t *testing.T) {
	a := drawing.Label(pt(1, 1), 9, "a")
	if b := a.Bold().Medium().Mono().Quiet().Centred().Turned(90).Verbatim(); b.Font != drawing.Mono || b.Tone != drawing.Pencil || !b.Plain || b.Turn != 90 {
		t.Errorf("set, it is %+v", b)
	}
	if a.Font != drawing.Regular || a.Tone != drawing.None || a.Align != drawing.Left || a.Turn != 0 || a.Plain {
		t.Errorf("the first became %+v", a)
	}
}

// TestRoundHatch: a hatching in a circle ends on the circle, as near as curves
// are flattened.
func TestRoundHatch(t *testing.T) {
	c, r := pt(40, 40), 15.0
	for _, o := range hatched(drawing.LevelLines, drawing.EllipseAt(c, r, r))[0].outlines {
		for _, p := range []drawing.Point{o.Start, o.End()} {
			if miss := math.Abs(p.Dist(c) - r); miss > drawing.FlatMM+0.005 {
				t.Errorf("a line ends %g mm off the circle", miss)
			}
		}
	}
}

// TestFillAlone: a hatching over white is fill, lines, outline, in that order,
// so that the outline lies on top.
func TestFillAlone(t *testing.T) {
	s := sketched(drawing.Rect(drawing.PenSeam, drawing.Hatched(drawing.Waste), 0, 0, 10, 10))
	if n := len(s.shapes); n != 3 || s.shapes[0].fill != drawing.Sheet || s.shapes[0].pen.Draws() || s.shapes[2].pen != drawing.PenSeam || s.shapes[2].fill != drawing.None {
		t.Errorf("%d shapes:\n%s", n, s.log.String())
	}
	if s := sketched(drawing.Rect(drawing.Pen{}, drawing.Solid(drawing.Wash), 0, 0, 10, 10)); len(s.shapes) != 1 || s.shapes[0].fill != drawing.Wash {
		t.Errorf("a plain fill is\n%s", s.log.String())
	}
}
