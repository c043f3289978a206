package drawing

import "strings"

// A Font is one of the five Go fonts.
type Font uint8

// The fonts. Figures of one font all have one width, so columns line up.
const (
	Regular Font = iota // text
	Medium              // labels
	Bold                // figures and names
	Mono                // timers and keys
	MonoBold
	Fonts // how many there are
)

var fontNames = [Fonts]string{"Go Regular", "Go Medium", "Go Bold", "Go Mono", "Go Mono Bold"}

// String is the font's full name, such as "Go Bold".
func (f Font) String() string { return fontNames[f] }

// Sizes of type by name, in pt on paper.
const (
	Small  = 9.0  // captions; nothing smaller
	Body   = 10.5 // text
	Lead   = 13.0 // headings
	Figure = 18.0 // live figures
	Title  = 24.0 // the paper's name
	Bench  = 40.0 // counts
	Saw    = 75.0 // the figure set on the saw, read at 1 m
)

// Leading of headings and of text, in parts of the size.
const (
	HeadLeading = 1.2
	TextLeading = 1.35
)

// An Align says which end of a line of text stands at its place.
type Align uint8

// Left is the zero Align.
const (
	Left Align = iota
	Centre
	Right
)

// A Span is text of one kind. Zero fields take the Text's own, so a Regular
// span in a Bold line is bold: set the line Regular and bolden the others.
type Span struct {
	S    string
	Font Font
	Size float64
	Tone Tone
}

// A Text is one line. At is on the baseline; Turn turns it about At in degrees
// anticlockwise (90 reads from the right). Fractions in it are built, as Rich
// finds them, unless Plain.
type Text struct {
	At    Point
	Spans []Span
	Font  Font
	Size  float64 // pt; zero is Body
	Tone  Tone    // None is Ink
	Align Align
	Turn  float64
	Plain bool
}

// Label is a line of text at a place on its baseline. The methods below change
// a copy: Label(p, Body, "stop").Bold().Centred().
func Label(at Point, size float64, s string) Text {
	return Text{At: at, Size: size, Spans: []Span{{S: s}}}
}

// LabelOf is a line of several spans.
func LabelOf(at Point, size float64, spans ...Span) Text {
	return Text{At: at, Size: size, Spans: spans}
}

// B and R are a bold and a plain span; Q is a plain one in pencil.
func B(s string) Span { return Span{S: s, Font: Bold} }

// R is a span in the text's own font.
func R(s string) Span { return Span{S: s} }

// Q is a quiet span, in pencil.
func Q(s string) Span { return Span{S: s, Tone: Pencil} }

// Bold sets the line in Bold.
func (t Text) Bold() Text { t.Font = Bold; return t }

// Medium sets the line in Medium.
func (t Text) Medium() Text { t.Font = Medium; return t }

// Mono sets the line in Mono.
func (t Text) Mono() Text { t.Font = Mono; return t }

// In sets the line in a tone.
func (t Text) In(tone Tone) Text { t.Tone = tone; return t }

// Quiet sets the line in pencil.
func (t Text) Quiet() Text { return t.In(Pencil) }

// Centred puts the middle of the line at its place.
func (t Text) Centred() Text { t.Align = Centre; return t }

// RightAligned puts the end of the line at its place.
func (t Text) RightAligned() Text { t.Align = Right; return t }

// Turned turns the line, in degrees anticlockwise.
func (t Text) Turned(deg float64) Text { t.Turn = deg; return t }

// Verbatim leaves fractions as typed.
func (t Text) Verbatim() Text { t.Plain = true; return t }

// String is what the line says, in plain text: "10 3/8 in".
func (t Text) String() string {
	var b strings.Builder
	for _, s := range t.Spans {
		b.WriteString(s.S)
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// whole fills in what the text leaves to its defaults.
func (t Text) whole() Text {
	if t.Size == 0 {
		t.Size = Body
	}
	if t.Tone == None {
		t.Tone = Ink
	}
	spans := make([]Span, len(t.Spans))
	for i, s := range t.Spans {
		spans[i] = t.fill(s)
	}
	t.Spans = spans
	return t
}

func (t Text) fill(s Span) Span {
	if s.Font == Regular {
		s.Font = t.Font
	}
	if s.Size == 0 {
		s.Size = t.Size
	}
	if s.Tone == None {
		s.Tone = t.Tone
	}
	return s
}

// unitsPerEm is the grid of the advance table: 1/2048 em.
const unitsPerEm = 2048

// Advance is the width of a rune in 1/2048 em and whether the font has it; a
// rune it lacks is as wide as the square drawn for it.
func (f Font) Advance(r rune) (int, bool) {
	if r == '\u00a0' {
		r = ' '
	}
	if a, ok := advances[r]; ok && a[f] > 0 {
		return int(a[f]), true
	}
	return int(advances['\u25a1'][f]), false
}

// Has says whether a font has a rune.
func (f Font) Has(r rune) bool {
	_, ok := f.Advance(r)
	return ok
}

// Printable is a string with the runes a font lacks shown as squares, as the
// makers draw it; Check finds them beforehand.
func (f Font) Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if f.Has(r) {
			return r
		}
		return '\u25a1'
	}, s)
}

// plainWidth is the width in mm of a string as typed, at a size in pt.
func plainWidth(s string, f Font, size float64) float64 {
	sum := 0
	for _, r := range s {
		a, _ := f.Advance(r)
		sum += a
	}
	return float64(sum) / unitsPerEm * size * MMPerPt
}

// Width is the width in mm of a string at a size in pt, its fractions built.
func Width(s string, f Font, size float64) float64 {
	return Text{Spans: []Span{{S: s}}, Font: f, Size: size}.Width()
}

// Width is the line's width in mm.
func (t Text) Width() float64 {
	_, w := t.runs()
	return w
}

// Ascent and Descent bound the letters above and below the baseline, in parts
// of the size: capitals of the Go fonts are 0.72 high, ascenders 0.76, and tails
// hang 0.21 (measured in the font files).
const (
	CapHeight = 0.72
	Ascent    = 0.78
	Descent   = 0.22
)
