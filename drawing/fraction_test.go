package drawing_test

import (
	"strings"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// built writes pieces with fractions in brackets.
func built(s string) string {
	var b strings.Builder
	for _, p := range drawing.Rich(s) {
		if p.Den != "" {
			b.WriteString("[" + p.Num + "|" + p.Den + "]")
		} else {
			b.WriteString(p.S)
		}
	}
	return b.String()
}

func TestRichFindsFractions(t *testing.T) {
	for s, want := range map[string]string{
		"10 3/8 in":                      "10[3|8] in",
		"5 ft 6 1/2 in":                  "5 ft 6[1|2] in",
		"7 ft 6 13/16 in · 2307 mm":      "7 ft 6[13|16] in · 2307 mm",
		"3/4 in × 3 1/2 in":              "[3|4] in × 3[1|2] in",
		"3/4 × 3 1/2 in":                 "[3|4] × 3[1|2] in",
		"-1/32 in, −3/64 in":             "-[1|32] in, −[3|64] in",
		"kerf 1/8 in":                    "kerf [1|8] in",
		"(15 63/64 in)":                  "(15[63|64] in)",
		"short point 15 1/8 in, saw":     "short point 15[1|8] in, saw",
		"it is 15 1/8.":                  "it is 15[1|8].",
		"at 16 1/16":                     "at 16[1|16]",
		"10\u00a03/8\u00a0in":            "10[3|8]\u00a0in",
		"1/2 in":                         "[1|2] in",
		"1/32 inch":                      "[1|32] inch",
		"4 × L at 16 1/4 in, 2 × 1/2 in": "4 × L at 16[1|4] in, 2 × [1|2] in",
	} {
		if got := built(s); got != want {
			t.Errorf("%q is built as %q, want %q", s, got, want)
		}
	}
}

// TestRichLeavesTheRest: nothing that might be a date, a share or a part of a
// name is touched.
func TestRichLeavesTheRest(t *testing.T) {
	for _, s := range []string{
		"7 of 15", "31 of 48 · 17 to go", "made 3/8/2027", "on 3/8", "3/8", "page 1/2", "12/16/2027", "24/7",
		"10 8/3 in", "10 3/7 in", "10 0/8 in", "10 3/128 in", "L3/4 in", "10 3/8x", "1/2inch", "and/or", "/", "3/", "10 3/ 8 in",
		"1.3/8 in", "10 3/8/4 in", "12 June 2027", "", "in 1/2 internal", "scale 1/8, as drawn",
	} {
		if got := built(s); got != s {
			t.Errorf("%q became %q", s, got)
		}
	}
}

// TestRichLosesNothing: put together again, the pieces say what was typed, but
// for the space a fraction swallows.
func TestRichLosesNothing(t *testing.T) {
	word := rapid.SampledFrom([]string{"10", "3/8", "1/2", "in", "ft", "×", "7", "of", "3/8/27", ",", "(", "a", "63/64", "\u00a0"})
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOf(word).Draw(t, "words"), rapid.SampledFrom([]string{" ", ""}).Draw(t, "between"))
		var b strings.Builder
		for _, p := range drawing.Rich(s) {
			if (p.S == "") == (p.Den == "") {
				t.Fatalf("a piece of %q is neither text nor fraction: %+v", s, p)
			}
			b.WriteString(p.S)
			if p.Den != "" {
				b.WriteString(p.Num + "/" + p.Den)
			}
		}
		bare := func(s string) string { return strings.NewReplacer(" ", "", "\u00a0", "").Replace(s) }
		if bare(b.String()) != bare(s) {
			t.Fatalf("%q came back as %q", s, b.String())
		}
	})
}

// TestBuiltLayout: figures at 0.7 of the size, the numerator raised 0.42 of its
// own size, the denominator on the line, the stroke between in the light font.
func TestBuiltLayout(t *testing.T) {
	w := sketched(drawing.Label(pt(0, 0), 40, "10 3/8 in").Bold()).words[0]
	if len(w.Runs) != 5 {
		t.Fatalf("runs: %+v", w.Runs)
	}
	whole, num, stroke, den, in := w.Runs[0], w.Runs[1], w.Runs[2], w.Runs[3], w.Runs[4]
	em := 40 * drawing.MMPerPt
	if num.Size != 28 || den.Size != 28 || !near(num.Rise, 0.42*0.7*em, 1e-9) || den.Rise != 0 {
		t.Errorf("numerator %+v, denominator %+v", num, den)
	}
	if stroke.S != "⁄" || stroke.Font != drawing.Regular || stroke.Size != 40 {
		t.Errorf("the stroke is %+v", stroke)
	}
	if gap := num.X - (whole.X + whole.Width); !near(gap, 0.14*em, 1e-9) {
		t.Errorf("gap before the fraction %g mm", gap)
	}
	if num.X >= stroke.X || stroke.X >= den.X || !near(in.X, den.X+den.Width, 1e-9) || !near(w.Width, in.X+in.Width, 1e-9) {
		t.Errorf("runs are not in order: %+v", w.Runs)
	}
	if !w.Built || w.Plain != "10 3/8 in" {
		t.Errorf("built %v, plain %q", w.Built, w.Plain)
	}
}

// TestGapBeforeFraction: after a figure alone.
func TestGapBeforeFraction(t *testing.T) {
	for s, gap := range map[string]float64{"10 3/8 in": 0.14, "-3/8 in": 0, "(3/8 in)": 0, "kerf 3/8 in": 0} {
		r := sketched(drawing.Label(pt(0, 0), 20, s)).words[0].Runs
		if got := (r[1].X - r[0].Width) / (20 * drawing.MMPerPt); !near(got, gap, 1e-9) {
			t.Errorf("%q: the gap is %g of the size, want %g", s, got, gap)
		}
	}
}

// TestFractionsStayReadable: no figure of a fraction is under 7.5 pt on paper
// unless the text itself is.
func TestFractionsStayReadable(t *testing.T) {
	for size, want := range map[float64]float64{6: 6, 9: 7.5, 10.5: 7.5, 13: 9.1, 75: 52.5} {
		for _, r := range sketched(drawing.Label(pt(0, 0), size, "3/8 in")).words[0].Runs[:1] {
			if !near(r.Size, want, 1e-9) {
				t.Errorf("at %g pt the numerator is %g pt, want %g", size, r.Size, want)
			}
		}
	}
}

func TestVerbatim(t *testing.T) {
	w := sketched(drawing.Label(pt(0, 0), 10, "10 3/8 in").Verbatim()).words[0]
	if w.Built || len(w.Runs) != 1 || w.Runs[0].S != "10 3/8 in" {
		t.Errorf("%+v", w)
	}
}

// TestWidthIsTheSumOfAdvances, by hand: figures of Go Regular are 1139 of 2048
// em wide and the blank 569.
func TestWidthIsTheSumOfAdvances(t *testing.T) {
	want := (2*1139.0 + 569 + 1139) / 2048 * 10 * 25.4 / 72
	if got := drawing.Width("10 7", drawing.Regular, 10); !near(got, want, 1e-9) {
		t.Errorf("width %g, want %g", got, want)
	}
}

// TestFiguresLineUp: all figures of a font have one width.
func TestFiguresLineUp(t *testing.T) {
	for f := range drawing.Fonts {
		zero, _ := f.Advance('0')
		for r := '1'; r <= '9'; r++ {
			if a, ok := f.Advance(r); !ok || a != zero {
				t.Errorf("%s: %c is %d wide, 0 is %d", f, r, a, zero)
			}
		}
	}
}

func TestMissingRunes(t *testing.T) {
	if drawing.Regular.Has('✓') || !drawing.Regular.Has('⁄') || !drawing.Mono.Has('×') {
		t.Error("the fonts have no tick, but a fraction's stroke and a times sign")
	}
	if got := drawing.Bold.Printable("a✓b☐"); got != "a□b□" {
		t.Errorf("missing runes print as %q", got)
	}
	if drawing.Width("✓", drawing.Regular, 10) != drawing.Width("□", drawing.Regular, 10) {
		t.Error("a missing rune is not as wide as the square drawn for it")
	}
}
