package drawing_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"
)

func listOf(items ...drawing.Item) drawing.List { return drawing.List{W: 100, H: 100, Items: items} }

func TestTexts(t *testing.T) {
	l := listOf(
		drawing.Label(pt(10, 10), 10, "stop at 10\u00a03/8\u00a0in"),
		drawing.Group{Items: []drawing.Item{drawing.Level(pt(0, 0), pt(50, 0), 5, "1/2 in"), drawing.Label(pt(0, 0), 9, "last")}},
	)
	if got, want := drawing.Texts(l), []string{"stop at 10 3/8 in", "1/2 in", "last"}; !slices.Equal(got, want) {
		t.Errorf("texts %q, want %q", got, want)
	}
}

// TestDimensionsReadBack: what a page says can be held against what it draws.
func TestDimensionsReadBack(t *testing.T) {
	const scale = 0.04
	l := listOf(drawing.Group{Move: drawing.View(scale, pt(10, 90)), Items: []drawing.Item{
		drawing.Level(pt(0, 0), pt(406.4, 0), -200, "16 in"),
		drawing.Group{Move: drawing.Shift(100, 0), Items: []drawing.Item{drawing.Upright(pt(0, 0), pt(0, 1000), -300, "1000 mm")}},
	}})
	ds := drawing.Dimensions(l)
	if len(ds) != 2 {
		t.Fatalf("%d dimensions", len(ds))
	}
	for i, want := range []float64{406.4, 1000} {
		if got := ds[i].From.Dist(ds[i].To) / scale; !near(got, want, 1e-9) || !near(ds[i].LineFrom.Dist(ds[i].LineTo)/scale, want, 1e-9) {
			t.Errorf("%q is drawn over %g mm", ds[i].S, got)
		}
	}
	if ds[1].From != pt(14, 90) {
		t.Errorf("the upright one starts at %v on the page", ds[1].From)
	}
}

func TestCheckFindsRunes(t *testing.T) {
	l := listOf(
		drawing.Label(pt(0, 10), 10, "done ✓ ✓ at 30° × 2"),
		drawing.Group{Items: []drawing.Item{drawing.Level(pt(0, 0), pt(50, 0), 5, "∠ 30")}},
	)
	if got, want := string(drawing.Check(l)), "∠✓"; got != want {
		t.Errorf("missing %q, want %q", got, want)
	}
}

func TestThin(t *testing.T) {
	fine := drawing.PenDimension.At(0.49)
	got := drawing.Thin(listOf(drawing.Stroke(fine, pt(0, 0), pt(1, 1)), drawing.Stroke(fine, pt(0, 0), pt(2, 1)), drawing.Stroke(drawing.PenDimension, pt(0, 0), pt(2, 1)), drawing.Rect(drawing.Pen{}, drawing.Black, 0, 0, 1, 1)))
	if !slices.Equal(got, []drawing.Pen{fine}) {
		t.Errorf("thin pens %v", got)
	}
}

func TestOutside(t *testing.T) {
	w := drawing.Width("label", drawing.Regular, 10)
	got := drawing.Outside(listOf(
		drawing.Label(pt(100-w-0.1, 50), 10, "label"),
		drawing.Label(pt(100-w+0.1, 60), 10, "label too far right"),
		drawing.Label(pt(50, 1), 10, "too high"),
		drawing.Label(pt(50, 2), 10, "turned too far").Turned(90),
		drawing.Label(pt(50, 100), 10, "on the foot"),
	))
	if want := []string{"label too far right", "too high", "turned too far"}; !slices.Equal(got, want) {
		t.Errorf("outside %q, want %q", got, want)
	}
}

func TestCrowded(t *testing.T) {
	for _, c := range []struct {
		name string
		a, b drawing.Text
		want bool
	}{
		{"apart", drawing.Label(pt(10, 10), 10, "one"), drawing.Label(pt(40, 10), 10, "two"), false},
		{"next lines", drawing.Label(pt(10, 10), 10, "one"), drawing.Label(pt(10, 14.7), 10, "two"), false},
		{"over", drawing.Label(pt(10, 10), 10, "one"), drawing.Label(pt(12, 11), 10, "two"), true},
		{"end to end", drawing.Label(pt(10, 10), 10, "one"), drawing.Label(pt(10+drawing.Width("one", drawing.Regular, 10), 10), 10, "two"), false},
		{"crossed", drawing.Label(pt(10, 50), 10, "a long level line"), drawing.Label(pt(20, 60), 10, "a long upright").Turned(90), true},
		{"boxes meet, slanted lines do not", drawing.Label(pt(10, 50), 10, "a slanted line").Turned(45), drawing.Label(pt(26, 50), 10, "x"), false},
	} {
		if got := drawing.Crowded(listOf(c.a, c.b)) != nil; got != c.want {
			t.Errorf("%s: crowded %v", c.name, got)
		}
	}
	got := drawing.Crowded(listOf(drawing.Label(pt(10, 10), 10, "one"), drawing.Label(pt(10, 10), 10, "two"), drawing.Label(pt(10, 10), 10, "")))
	if want := []string{"one | two"}; !slices.Equal(got, want) {
		t.Errorf("crowded %q, want %q", got, want)
	}
}

// contrast is the ratio of WCAG 2.2, "contrast ratio" and "relative luminance".
func contrast(a, b drawing.RGB) float64 {
	lum := func(c drawing.RGB) float64 {
		lin := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.04045 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
	}
	x, y := lum(a)+0.05, lum(b)+0.05
	return max(x, y) / min(x, y)
}

// TestContrast: text keeps 4.5 to 1, lines of a drawing 3 to 1 (WCAG 2.2, 1.4.3
// and 1.4.11), in every palette.
func TestContrast(t *testing.T) {
	for name, p := range map[string]*drawing.Palette{"paper": &drawing.Paper, "light": &drawing.Light, "dark": &drawing.Dark} {
		for _, c := range []struct {
			on, what drawing.Tone
			least    float64
		}{
			{drawing.Sheet, drawing.Ink, 4.5}, {drawing.Sheet, drawing.Pencil, 4.5}, {drawing.Sheet, drawing.Chalk, 4.5}, {drawing.Sheet, drawing.Line, 3},
			{drawing.Slip, drawing.Ink, 4.5}, {drawing.Slip, drawing.Pencil, 4.5}, {drawing.Slip, drawing.Line, 3},
			{drawing.Boxwood, drawing.Ink, 4.5}, {drawing.Wash, drawing.Ink, 4.5}, {drawing.ChalkWash, drawing.Ink, 4.5}, {drawing.ChalkWash, drawing.Line, 3},
			{drawing.Chalk, drawing.OnChalk, 4.5}, {drawing.Ink, drawing.OnChalk, 4.5},
		} {
			if got := contrast(p.Of(c.on), p.Of(c.what)); got < c.least {
				t.Errorf("%s: %s on %s is %.1f to 1", name, c.what, c.on, got)
			}
		}
	}
	if got := contrast(drawing.Light.Of(drawing.Sheet), drawing.Light.Of(drawing.Ink)); !near(got, 16.3, 0.05) {
		t.Errorf("ink on the sheet is %.2f to 1, the look says 16.3", got)
	}
}

// TestChalkPrintsAsInk: black toner only is the test print.
func TestChalkPrintsAsInk(t *testing.T) {
	if drawing.Paper.Of(drawing.Chalk) != drawing.Paper.Of(drawing.Ink) || drawing.Paper.Of(drawing.ChalkWash) != drawing.Paper.Of(drawing.Sheet) {
		t.Error("chalk has a tone of its own on paper")
	}
}

// TestPens: no line under half a point, and no two kinds of line that a black
// print could not tell apart.
func TestPens(t *testing.T) {
	pens := map[string]drawing.Pen{
		"outline": drawing.PenOutline, "seam": drawing.PenSeam, "site seam": drawing.PenSiteSeam, "cut": drawing.PenCut, "hidden": drawing.PenHidden,
		"in hand": drawing.PenInHand, "dimension": drawing.PenDimension, "reach": drawing.PenReach, "greenery": drawing.PenGreenery, "draped": drawing.PenDraped,
	}
	for a, p := range pens {
		if p.Weight < drawing.ThinnestPt {
			t.Errorf("%s is %g pt", a, p.Weight)
		}
		for b, q := range pens {
			if a < b && p.Dash == q.Dash && math.Abs(p.Weight-q.Weight) < 0.5 {
				t.Errorf("%s and %s look alike", a, b)
			}
		}
	}
	if got := drawing.PenSiteSeam.DashMM(); len(got) != 4 || !near(got[0], 6*25.4/72, 1e-9) {
		t.Errorf("the site seam's dash is %v mm", got)
	}
	if drawing.PenOutline.DashMM() != nil || (drawing.Pen{}).Draws() || drawing.PenSeam.In(drawing.None).Draws() {
		t.Error("a whole line has a dash, or no pen draws")
	}
	if got := drawing.PenSeam.MM(); !near(got, 1.8/72*25.4, 1e-12) {
		t.Errorf("a seam is %g mm", got)
	}
}

func TestNames(t *testing.T) {
	seen := map[string]bool{}
	for tone := drawing.None; tone <= drawing.Wash; tone++ {
		if n := tone.String(); n == "" || seen[n] || strings.ToLower(n) != n {
			t.Errorf("tone %d is called %q", tone, n)
		}
		seen[tone.String()] = true
	}
	for _, h := range allHatches {
		if h.String() == "" || h.String() == drawing.NoHatch.String() {
			t.Errorf("hatching %d is called %q", h, h)
		}
	}
}
