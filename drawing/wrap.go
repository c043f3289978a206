package drawing

import (
	"regexp"
	"strings"
)

// stuck finds a number and what must not part from it: its fraction, its unit.
// A whole number, a fraction and a unit stay on one line.
var stuck = regexp.MustCompile(`(\d) (\d{1,2}/\d{1,2}\b|(?:in|ft|mm|cm|m|lb|kg|oz|mph|pt|h|min|s)\b|×)`)

// Bind puts spaces that do not break between a number and its fraction or unit.
func Bind(s string) string {
	for {
		t := stuck.ReplaceAllString(s, "$1\u00a0$2")
		t = fractionUnit.ReplaceAllString(t, "$1\u00a0$2")
		if t == s {
			return s
		}
		s = t
	}
}

var fractionUnit = regexp.MustCompile(`(\d/\d{1,2}) (in|ft)\b`)

// Wrap breaks a string into lines no wider than width mm, at spaces and at
// line feeds; a word wider than a line is broken where it must be. Numbers keep
// their units. A line is never empty unless the string asks for it.
func Wrap(s string, f Font, size, width float64) []string {
	var out []string
	for _, l := range WrapSpans([]Span{{S: s, Font: f, Size: size}}, width) {
		out = append(out, Text{Spans: l}.String())
	}
	return out
}

// WrapSpans is Wrap for text of several spans; every span needs its Size.
func WrapSpans(spans []Span, width float64) [][]Span {
	var w wrapper
	w.width = width
	for _, s := range spans {
		for i, par := range strings.Split(Bind(s.S), "\n") {
			if i > 0 {
				w.newLine()
			}
			for j, word := range strings.Split(par, " ") {
				w.add(s, word, j > 0)
			}
		}
	}
	w.flushWord()
	w.newLine()
	return w.lines
}

// A wrapper gathers words, which may run over several spans, into lines.
type wrapper struct {
	width float64
	lines [][]Span
	line  []Span
	word  []Span // what has come since the last space
	space bool   // the word follows a space
}

func (w *wrapper) add(s Span, word string, afterSpace bool) {
	if afterSpace {
		w.flushWord()
		w.space = true
	}
	if word != "" {
		s.S = word
		w.word = append(w.word, s)
	}
}

// flushWord puts the gathered word on the line, or on a new one.
func (w *wrapper) flushWord() {
	if len(w.word) == 0 {
		return
	}
	longer := w.line
	if w.space && len(longer) > 0 {
		longer = extend(longer, Span{S: " "})
	}
	for _, s := range w.word {
		longer = extend(longer, s)
	}
	switch {
	case lineWidth(longer) <= w.width:
		w.line = longer
	case len(w.line) > 0 && lineWidth(w.line) > 0:
		w.lines = append(w.lines, w.line)
		w.line = nil
		w.flushWord()
		return
	default:
		w.breakWord()
	}
	w.word, w.space = nil, false
}

// breakWord puts a word wider than the line on lines of its own, as many
// letters as fit on each and at least one.
func (w *wrapper) breakWord() {
	for _, s := range w.word {
		for _, r := range s.S {
			s.S = string(r)
			longer := extend(w.line, s)
			if len(w.line) > 0 && lineWidth(longer) > w.width {
				w.lines = append(w.lines, w.line)
				longer = extend(nil, s)
			}
			w.line = longer
		}
	}
}

func (w *wrapper) newLine() {
	w.flushWord()
	w.lines = append(w.lines, w.line)
	w.line, w.space = nil, false
}

// extend adds a span to a copy of a line, joining what is set alike; a space
// takes the setting of what stands before it.
func extend(line []Span, s Span) []Span {
	line = append([]Span(nil), line...)
	n := len(line)
	if n > 0 && s.S == " " {
		line[n-1].S += " "
		return line
	}
	if n > 0 && line[n-1].Font == s.Font && line[n-1].Size == s.Size && line[n-1].Tone == s.Tone {
		line[n-1].S += s.S
		return line
	}
	return append(line, s)
}

func lineWidth(line []Span) float64 { return Text{Spans: line}.Width() }

// A Block is a paragraph set: its lines, and the baseline that a next line of
// the same size would stand on.
type Block struct {
	Items []Item
	Next  float64
	Lines int
}

// Paragraph sets spans in lines no wider than width mm. At is on the baseline
// of the first line; size and leading hold for spans that name none.
func Paragraph(at Point, width, size, leading float64, spans ...Span) Block {
	t := Text{Size: size, Spans: spans}.whole()
	var b Block
	for _, line := range WrapSpans(t.Spans, width) {
		b.Items = append(b.Items, LabelOf(at, size, line...))
		at.Y += size * leading * MMPerPt
		b.Lines++
	}
	b.Next = at.Y
	return b
}
