package snag

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// show renders one snag at line 1 of a source.
func show(line string, column, width int) string {
	s := testKind.At(Place{"j.yaml", 1, column, ""}, "", "p", "")
	return Text(List{s}, func(string) (string, bool) { return line, true }, width)
}

func TestText(t *testing.T) {
	source := func(file string) (string, bool) {
		return "bowerwright: 1\r\nframes:\r\n  big: hexgon\r\n", file == "j.yaml"
	}
	note := Snag{Code: "near-miss", Severity: Note, Place: Place{Path: "layout.B3"}, Problem: "two sides nearly touch"}
	l := List{at("j.yaml", 3, 8, ""), at("j.yaml", 4, 1, ""), at("j.yaml", 99, 1, ""), at("other.yaml", 1, 2, ""), at("j.yaml", 2, 0, ""), at("j.yaml", 0, 0, "frames.big"), note, at("j.yaml", 0, 0, ""), at("", 0, 0, "")}
	want := `j.yaml:3:8: no frame has this name [unknown-frame]
      big: hexgon
           ^
  write hexagon

j.yaml:4:1: no frame has this name [unknown-frame]
    
    ^
  write hexagon

j.yaml:99:1: no frame has this name [unknown-frame]
  write hexagon

other.yaml:1:2: no frame has this name [unknown-frame]
  write hexagon

j.yaml:2: no frame has this name [unknown-frame]
    frames:
  write hexagon

j.yaml: frames.big: no frame has this name [unknown-frame]
  write hexagon

layout.B3: note: two sides nearly touch [near-miss]

j.yaml: no frame has this name [unknown-frame]
  write hexagon

no frame has this name [unknown-frame]
  write hexagon
`
	if got := Text(l, source, 0); got != want {
		t.Errorf("got\n%s", got)
	}
	if got := Text(l[:1], nil, 0); strings.Contains(got, "^") {
		t.Errorf("a caret without a source:\n%s", got)
	}
	if got := Text(nil, source, 0); got != "" {
		t.Errorf("no snags give %q", got)
	}
}

// The caret stands under the code point of the column, whatever stands before.
func TestCaret(t *testing.T) {
	for _, c := range []struct {
		name, line string
		column     int
		shown      string
		caret      int
	}{
		{"plain", "big: hexgon", 6, "big: hexgon", 5},
		{"first", "big", 1, "big", 0},
		{"behind the end", "big:", 5, "big:", 4},
		{"far behind the end", "big:", 50, "big:", 4},
		{"no column", "big:", 0, "big:", -1},
		{"negative column", "big:", -3, "big:", -1},
		{"tab first", "\tbig", 2, "    big", 4},
		{"tab later", "ab\tc", 4, "ab  c", 4},
		{"tab under the caret", "ab\tc", 3, "ab  c", 2},
		{"wide", "木の枠: x", 6, "木の枠: x", 8},
		{"combining", "e\u0301e\u0301: x", 7, "e\u0301e\u0301: x", 4},
		{"picture", "💐 x", 3, "💐 x", 3},
		{"terminal code", "\x1b[31mx", 6, "\ufffd[31mx", 5},
		{"turned writing", "a\u202eb", 3, "a\ufffdb", 2},
		{"broken UTF-8", "a\xffb", 3, "a\ufffdb", 2},
		{"empty", "", 1, "", 0},
	} {
		shown, caret := window(c.line, c.column, Width)
		if shown != c.shown || caret != c.caret {
			t.Errorf("%s: %q with the caret at %d, want %q, %d", c.name, shown, caret, c.shown, c.caret)
		}
	}
}

func TestLongLine(t *testing.T) {
	line := strings.Repeat("0123456789", 20)
	for _, c := range []struct {
		column int
		want   string
	}{
		{1, "012345678901234567…\n    ^"},
		{101, "…123456789012345678…\n              ^"},
		{200, "…234567890123456789\n                      ^"},
	} {
		got := show(line, c.column, 20)
		if !strings.Contains(got, "    "+c.want+"\n") {
			t.Errorf("column %d:\n%s\nwant\n%s", c.column, got, c.want)
		}
	}
}

// lineOf draws a line of plain, wide, combining and tab characters.
func lineOf(t *rapid.T) string {
	runes := rapid.SliceOfN(rapid.SampledFrom([]rune("ab:木\u0301\t💐\u00a0")), 0, 120).Draw(t, "line")
	return string(runes)
}

// Whatever the line, what is shown fits, the caret stands in it, and the code
// point above the caret is the one that was asked for.
func TestWindowProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		line := lineOf(t)
		n := utf8.RuneCountInString(line)
		column := rapid.IntRange(1, n+1).Draw(t, "column")
		width := rapid.IntRange(20, 60).Draw(t, "width")
		shown, caret := window(line, column, width)
		total, above := 0, rune(0)
		for _, r := range shown {
			if total <= caret && caret < total+runeWidth(r) {
				above = r
			}
			total += runeWidth(r)
		}
		if total > width || caret < 0 || caret > width {
			t.Fatalf("%q takes %d of %d cells, caret at %d", shown, total, width, caret)
		}
		asked := append([]rune(line), ' ')[column-1]
		if runeWidth(asked) == 0 || asked == '\t' || above == 0 {
			return // a mark has no cell of its own; trailing spaces are not shown
		}
		if above != asked && !(above == '…' && column == n+1) {
			t.Fatalf("%q column %d: %q under %q", shown, column, asked, above)
		}
	})
}

func TestPhrasesAreCleaned(t *testing.T) {
	s := Snag{Code: "c", Place: Place{Path: "a\nb"}, Problem: "bad \x1b[2J name\nhere", Remedy: "write \u202eevil"}
	want := "a b: bad \ufffd[2J name here [c]\n  write \ufffdevil\n"
	if got := Text(List{s}, nil, 0); got != want {
		t.Errorf("got %q", got)
	}
}

func TestRuneWidth(t *testing.T) {
	// Unicode Standard Annex 11 and the general categories, spot-checked.
	for r, want := range map[rune]int{
		'a': 1, ' ': 1, 'é': 1, 'ß': 1, '½': 1, '″': 1, '×': 1, '…': 1, '\u00ad': 1,
		'\u0301': 0, '\u20dd': 0, '\u200d': 0, '\ufe0f': 0, '\ufeff': 0,
		'木': 2, 'か': 2, '한': 2, '（': 2, '💐': 2, '🪵': 2, '\U00020000': 2,
		'\x1b': 1, '\u202e': 1, // shown as a mark of their own
	} {
		if got := runeWidth(r); got != want {
			t.Errorf("%U takes %d, want %d", r, got, want)
		}
	}
	for i := 1; i < len(wide.R16); i++ {
		if wide.R16[i].Lo <= wide.R16[i-1].Hi {
			t.Errorf("the wide ranges are out of order at %x", wide.R16[i].Lo)
		}
	}
	for i := 1; i < len(wide.R32); i++ {
		if wide.R32[i].Lo <= wide.R32[i-1].Hi {
			t.Errorf("the wide ranges are out of order at %x", wide.R32[i].Lo)
		}
	}
}

// A source is asked for once, however many snags lie in it.
func TestSourceIsAskedOnce(t *testing.T) {
	asked := 0
	source := func(string) (string, bool) { asked++; return "a\nb\nc", true }
	got := Text(List{at("j", 1, 1, ""), at("j", 3, 1, ""), at("j", 2, 1, "")}, source, 0)
	if asked != 1 || strings.Count(got, "^") != 3 {
		t.Errorf("asked %d times:\n%s", asked, got)
	}
}
