package drawing_test

import (
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"
)

// TestLegendTellsAll: every hatching of a section with its letter, every word of
// the vial, and every person's height is on the page that explains them.
func TestLegendTellsAll(t *testing.T) {
	said := drawing.Texts(listOf(drawing.Legend()...))
	var want []string
	for i := range 8 {
		letter, h, _ := drawing.Section(i)
		want = append(want, letter, h.String())
	}
	for _, u := range []drawing.Use{drawing.WellInside, drawing.Near, drawing.Over} {
		want = append(want, u.String())
	}
	for _, p := range []drawing.Person{drawing.Adult, drawing.Skirt, drawing.Child} {
		want = append(want, p.Says())
	}
	for _, w := range want {
		if !slices.Contains(said, w) {
			t.Errorf("the page does not say %q", w)
		}
	}
	for _, s := range said {
		if strings.Contains(s, "safe") {
			t.Errorf("the page says %q", s)
		}
	}
}

// TestLegendDrawsWhatItNames: beside a line's name lies that line.
func TestLegendDrawsWhatItNames(t *testing.T) {
	s := sketched(drawing.Legend()...)
	for name, pen := range map[string]drawing.Pen{
		"outline": drawing.PenOutline, "seam": drawing.PenSeam, "site seam": drawing.PenSiteSeam, "cut": drawing.PenCut,
		"hidden": drawing.PenHidden, "in hand": drawing.PenInHand, "dimension": drawing.PenDimension, "reach": drawing.PenReach,
	} {
		i := slices.IndexFunc(s.words, func(w drawing.Words) bool { return w.Plain == name })
		if i < 0 {
			t.Errorf("no line is called %q", name)
			continue
		}
		y := s.words[i].At.Y
		if !slices.ContainsFunc(s.shapes, func(d drawnShape) bool {
			o := d.outlines[0]
			return d.pen == pen && near(o.Start.Y, y, 2) && o.Start.Y == o.End().Y && o.End().X < s.words[i].At.X
		}) {
			t.Errorf("beside %q lies no such line", name)
		}
	}
}

// TestOverlapsHatchOnce: where two outlines that run one way overlap, the
// hatching neither stops nor doubles.
func TestOverlapsHatchOnce(t *testing.T) {
	a, b := drawing.Ring(points("10,10 30,10 30,30 10,30")...), drawing.Ring(points("20,10 40,10 40,30 20,30")...)
	both := hatched(drawing.LevelLines, a, b)[0].outlines
	one := hatched(drawing.LevelLines, drawing.Ring(points("10,10 40,10 40,30 10,30")...))[0].outlines
	if len(both) != len(one) {
		t.Fatalf("%d lines in two overlapping squares, %d in their union", len(both), len(one))
	}
	for i := range both {
		if got, want := notation(both[i]), notation(one[i]); got != want {
			t.Errorf("line %d is %s, want %s", i, got, want)
		}
	}
}

// FuzzText: whatever is typed, it is laid out in order, read back as typed and
// wrapped without loss.
func FuzzText(f *testing.F) {
	for _, s := range []string{"10 3/8 in", "5 ft 6 1/2 in", "3/8/2027", "7 of 15", "", " ", "1/2", "9 1/2 ", "\u00a0", "é ✓", "\xff1/2 in"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w := sketched(drawing.Label(pt(0, 0), 10, s)).words[0]
		x := 0.0
		for _, r := range w.Runs {
			if r.X < x-1 || r.Width < 0 {
				t.Fatalf("%q: the run %q goes back to %g", s, r.S, r.X)
			}
			x = r.X
		}
		if w.Plain != strings.ReplaceAll(s, "\u00a0", " ") {
			t.Fatalf("%q reads back as %q", s, w.Plain)
		}
		if strings.ToValidUTF8(s, "") != s {
			return // a stray byte is wrapped as the sign for one
		}
		if got := squeezed(strings.Join(drawing.Wrap(s, drawing.Bold, 10, 15), "")); got != squeezed(s) {
			t.Fatalf("%q is wrapped as %q", s, got)
		}
	})
}
