package drawing_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// TestWrapKeepsNumbersWhole sets text in ever narrower columns: a number never
// parts from its fraction or unit while they fit a line.
func TestWrapKeepsNumbersWhole(t *testing.T) {
	const s = "stop at 15 63/64 in then 263.5 mm and 5 ft 6 1/2 in, 4 × L, 62 lb"
	for width := 30.0; width < 120; width += 0.5 {
		for _, l := range drawing.Wrap(s, drawing.Regular, 10.5, width) {
			for _, bad := range []string{"15", "263.5", "63/64", "1/2", "5", "6", "62", "4"} {
				if l == bad || strings.HasSuffix(l, " "+bad) {
					t.Fatalf("at %g mm a line ends in %q: %q", width, bad, l)
				}
			}
		}
	}
}

func TestBind(t *testing.T) {
	for s, want := range map[string]string{
		"10 3/8 in":        "10~3/8~in",
		"7 ft 6 1/16 in":   "7~ft 6~1/16~in",
		"2 people, 15 lb":  "2 people, 15~lb",
		"page 7 of 15":     "page 7 of 15",
		"6 × L at 16 in":   "6~× L at 16~in",
		"12 inside, 3 min": "12 inside, 3~min",
	} {
		if got := strings.ReplaceAll(drawing.Bind(s), "\u00a0", "~"); got != want {
			t.Errorf("%q binds as %q, want %q", s, got, want)
		}
	}
}

// TestWrapNeverExceeds: no line is wider than the column, unless it is a single
// letter; and no letter is lost.
func TestWrapNeverExceeds(t *testing.T) {
	word := rapid.SampledFrom([]string{"a", "board", "10", "3/8", "in", "mm", "×", "1/16", "neighbours", "Wwwwwwwwwwwwwwwwwwwwww", "", "\n", "5"})
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOf(word).Draw(t, "words"), " ")
		width := rapid.Float64Range(1, 80).Draw(t, "width")
		font := drawing.Font(rapid.IntRange(0, int(drawing.Fonts)-1).Draw(t, "font"))
		lines := drawing.Wrap(s, font, 10.5, width)
		for _, l := range lines {
			if w := drawing.Width(l, font, 10.5); w > width+1e-9 && len([]rune(l)) > 1 {
				t.Fatalf("%q is %g mm wide, column %g", l, w, width)
			}
		}
		if got, want := squeezed(strings.Join(lines, "")), squeezed(s); got != want {
			t.Fatalf("%q became %q", want, got)
		}
	})
}

func squeezed(s string) string { return strings.Join(strings.Fields(s), "") }

func TestWrapLines(t *testing.T) {
	for _, c := range []struct {
		s     string
		width float64
		want  string
	}{
		{"", 50, ""},
		{"one two", 500, "one two"},
		{"one\n\ntwo", 500, "one||two"},
		{"one two three", 0.9 * drawing.Width("one two", drawing.Regular, 10), "one|two|three"},
		{"one two three", drawing.Width("one two", drawing.Regular, 10), "one two|three"},
		{"a  b", 500, "a b"},
		{"abcdef", drawing.Width("abc", drawing.Regular, 10), "abc|def"},
	} {
		if got := strings.Join(drawing.Wrap(c.s, drawing.Regular, 10, c.width), "|"); got != c.want {
			t.Errorf("%q in %.1f mm is %q, want %q", c.s, c.width, got, c.want)
		}
	}
}

// TestParagraphSpans: a word that runs over two spans does not break between
// them, and each part keeps its font.
func TestParagraphSpans(t *testing.T) {
	b := drawing.Paragraph(pt(10, 20), 40, 10, 1.5, drawing.R("measure the "), drawing.B("long point"), drawing.R(". Then saw the rest of them"))
	var lines []string
	for _, it := range b.Items {
		lines = append(lines, it.(drawing.Text).String())
	}
	if i := slices.IndexFunc(lines, func(s string) bool { return strings.HasPrefix(s, ".") }); i >= 0 {
		t.Errorf("a full stop begins line %d of %q", i, lines)
	}
	bold := ""
	for _, w := range sketched(b.Items...).words {
		for _, r := range w.Runs {
			if r.Font == drawing.Bold {
				bold += r.S
			}
		}
	}
	if squeezed(bold) != "longpoint" {
		t.Errorf("bold is %q", bold)
	}
	if want := 20 + float64(len(lines))*15*drawing.MMPerPt; b.Lines != len(lines) || !near(b.Next, want, 1e-9) {
		t.Errorf("%d lines, next at %g, want %d and %g", b.Lines, b.Next, len(lines), want)
	}
}

func TestParagraphKeepsSpansApart(t *testing.T) {
	b := drawing.Paragraph(pt(0, 0), 500, 10, 1.35, drawing.B("Comb wall"), drawing.R(", page 7 of 15"))
	if got := b.Items[0].(drawing.Text).String(); got != "Comb wall, page 7 of 15" {
		t.Errorf("got %q", got)
	}
}

// BenchmarkWrap holds wrapping against the length of what is typed: ten times
// the text should take ten times as long, broken words or not.
func BenchmarkWrap(b *testing.B) {
	for name, s := range map[string]string{"words": "saw 15 63/64 in and 4 × L ", "one word": "neighbours"} {
		for _, n := range []int{100, 1000} {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				text := strings.Repeat(s, n)
				for b.Loop() {
					drawing.Wrap(text, drawing.Regular, 10, 100)
				}
			})
		}
	}
}
