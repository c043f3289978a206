package packet

import (
	"strings"
	"unicode"

	"bowerwright/drawing"
)

// missing stands for a rune that the fonts do not have.
const missing = '□'

// clean makes text fit for one line: runes the fonts lack become a box, and
// what would break the line a space. Names come from outside and may hold
// anything.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\u00a0':
			return r
		case unicode.IsSpace(r) || unicode.IsControl(r):
			return ' '
		case !drawing.Regular.Has(r) || !drawing.Bold.Has(r):
			return missing
		}
		return r
	}, s)
}

// size is the size a text is set in.
func size(t drawing.Text) float64 {
	if t.Size == 0 {
		return drawing.Body
	}
	return t.Size
}

// leading is the distance of lines of text, mm.
func leading(pt float64) float64 { return pt * drawing.TextLeading * drawing.MMPerPt }

// capHeight is the height of capitals and figures, mm.
func capHeight(pt float64) float64 { return pt * drawing.CapHeight * drawing.MMPerPt }

func plain(t drawing.Text) string {
	var b strings.Builder
	for _, s := range t.Spans {
		b.WriteString(s.S)
	}
	return b.String()
}

// wrap breaks text into lines no wider than w mm; there is always one line.
func wrap(s string, f drawing.Font, pt, w float64) []string {
	return drawing.Wrap(strings.TrimSpace(clean(s)), f, pt, w)
}

// fitted is a line of one span made to fit w mm: set smaller, but not under
// least pt, and then cut short with an ellipsis.
func fitted(t drawing.Text, w, least float64) drawing.Text {
	s := clean(plain(t))
	t.Size = size(t)
	t.Spans = []drawing.Span{{S: s}}
	if have := t.Width(); have > w {
		t.Size = max(least, t.Size*w/have)
	}
	rs := []rune(s)
	for len(rs) > 0 && t.Width() > w+1e-6 {
		rs = rs[:len(rs)-1]
		t.Spans = []drawing.Span{{S: strings.TrimRight(string(rs), " ") + "…"}}
	}
	return t
}
