// Package svg makes SVG pictures of drawings: one file that needs nothing else.
//
// Letters are drawn as outlines of the Go fonts, so that the picture looks the
// same in a browser, an editor and a print shop that lack the fonts; over them
// lies the same text, invisible, so that it can be searched, chosen, copied and
// read aloud. A page that serves the Go fonts itself may ask for live type.
//
// Promise: the same list and Options give the same bytes. Places are rounded to
// a thousandth of a mm. The picture has a role, a title and a description.
package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/drawing"
	"bowerwright/drawing/internal/face"
)

// Options say how the picture is to be coloured and set. The zero Options give
// a file for paper.
type Options struct {
	// Palette colours the tones; nil is drawing.Paper.
	Palette *drawing.Palette
	// Variables writes var(--ink) and so on, for a page whose style sheet
	// defines the tones; Palette is then what stands when it does not.
	Variables bool
	// LiveType sets letters as text in the fonts "Go" and "Go Mono".
	LiveType bool
	// ID begins the picture's own identifiers, which must differ between
	// pictures inside one page. Empty is "d".
	ID string
}

// Write makes a picture of a list.
func Write(w io.Writer, l drawing.List, o Options) error {
	if o.Palette == nil {
		o.Palette = &drawing.Paper
	}
	if o.ID == "" {
		o.ID = "d"
	}
	s := &surface{o: o, glyphs: map[string]string{}}
	drawing.Play(l, s)
	if s.err != nil {
		return s.err
	}
	_, err := w.Write(s.file(l))
	return err
}

// A surface gathers the body of the file and the glyphs it uses.
type surface struct {
	o      Options
	body   bytes.Buffer
	glyphs map[string]string // identifier to outline
	clips  int
	err    error
}

// file puts head, glyphs and body together.
func (s *surface) file(l drawing.List) []byte {
	var b bytes.Buffer
	w, h := num(l.W), num(l.H)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" role="img" aria-labelledby="%s-t %s-d">`+"\n", w, h, w, h, s.o.ID, s.o.ID)
	fmt.Fprintf(&b, "<title id=\"%s-t\">%s</title>\n<desc id=\"%s-d\">%s</desc>\n", s.o.ID, esc(l.Title), s.o.ID, esc(l.Desc))
	if len(s.glyphs) > 0 {
		ids := make([]string, 0, len(s.glyphs))
		for id := range s.glyphs {
			ids = append(ids, id)
		}
		slices.Sort(ids)
		b.WriteString("<defs>\n")
		for _, id := range ids {
			fmt.Fprintf(&b, "<path id=%q d=%q/>\n", id, s.glyphs[id])
		}
		b.WriteString("</defs>\n")
	}
	b.Write(s.body.Bytes())
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func (s *surface) put(format string, args ...any) { fmt.Fprintf(&s.body, format+"\n", args...) }

// num rounds to a thousandth and leaves out what is nought; -0 is 0.
func num(v float64) string {
	r := math.Round(v*1000) / 1000
	if r == 0 {
		return "0"
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}

func esc(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes all
	return b.String()
}

func (s *surface) tone(t drawing.Tone) string {
	c := s.o.Palette.Of(t)
	hex := fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B)
	if s.o.Variables {
		return fmt.Sprintf("var(--%s,%s)", t, hex)
	}
	return hex
}

// d is the outlines as path data.
func d(os []drawing.Outline) string {
	var b strings.Builder
	for _, o := range os {
		fmt.Fprintf(&b, "M%s", at(o.Start))
		for _, t := range o.Steps {
			if t.Bent {
				fmt.Fprintf(&b, "C%s %s %s", at(t.C1), at(t.C2), at(t.To))
			} else {
				fmt.Fprintf(&b, "L%s", at(t.To))
			}
		}
		if o.Closed {
			b.WriteByte('Z')
		}
	}
	return b.String()
}

func at(p drawing.Point) string { return num(p.X) + " " + num(p.Y) }

// Shape is one path.
func (s *surface) Shape(os []drawing.Outline, fill drawing.Tone, pen drawing.Pen) {
	if len(os) == 0 || (fill == drawing.None && !pen.Draws()) {
		return
	}
	paint := ` fill="none"`
	if fill != drawing.None {
		paint = fmt.Sprintf(` fill="%s"`, s.tone(fill))
	}
	s.put(`<path d="%s"%s%s/>`, d(os), paint, s.stroke(pen))
}

func (s *surface) stroke(p drawing.Pen) string {
	if !p.Draws() {
		return ""
	}
	out := fmt.Sprintf(` stroke="%s" stroke-width="%s"`, s.tone(p.Tone), num(p.MM()))
	if dash := p.DashMM(); dash != nil {
		var ds []string
		for _, v := range dash {
			ds = append(ds, num(v))
		}
		out += fmt.Sprintf(` stroke-dasharray="%s"`, strings.Join(ds, " "))
	}
	if p.Round {
		out += ` stroke-linecap="round" stroke-linejoin="round"`
	}
	return out
}

// Words draws a line of text, each run of letters in its place.
func (s *surface) Words(w drawing.Words) {
	if w.Plain == "" {
		return
	}
	turn := ""
	if w.Turn != 0 {
		turn = fmt.Sprintf(` transform="rotate(%s %s)"`, num(-w.Turn), at(w.At))
	}
	if s.o.LiveType {
		s.liveType(w, turn)
		return
	}
	if turn != "" {
		s.put("<g%s>", turn)
		defer s.put("</g>")
	}
	for _, r := range w.Runs {
		s.outlines(w, r)
	}
	s.put(`<text x="%s" y="%s" font-family="Go, sans-serif" font-size="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" fill-opacity="0">%s</text>`,
		num(w.At.X), num(w.At.Y), num(w.Runs[0].Size*drawing.MMPerPt), num(w.Width), esc(w.Plain))
}

// em is the grid glyphs are written on: whole numbers of 1/2048.
const em = face.UnitsPerEm

// outlines draws a run: its glyphs, defined once, moved to their places.
func (s *surface) outlines(w drawing.Words, r drawing.Run) {
	var uses strings.Builder
	x := 0
	for _, c := range r.Font.Printable(r.S) {
		if id := s.glyph(r.Font, c); id != "" {
			fmt.Fprintf(&uses, `<use href="#%s" x="%d"/>`, id, x)
		}
		a, _ := r.Font.Advance(c)
		x += a
	}
	k := r.Size * drawing.MMPerPt / em
	s.put(`<g fill="%s" transform="translate(%s) scale(%s)">%s</g>`, s.tone(r.Tone),
		at(w.At.Add(drawing.Pt(r.X, -r.Rise))), strconv.FormatFloat(k, 'g', 6, 64), uses.String())
}

// glyph defines a glyph and gives its identifier; a blank has none.
func (s *surface) glyph(f drawing.Font, c rune) string {
	id := fmt.Sprintf("%s-g%d-%04x", s.o.ID, f, c)
	if _, ok := s.glyphs[id]; ok {
		return id
	}
	ft, err := face.Open(f.String())
	if err != nil {
		s.err = err
		return ""
	}
	steps, err := ft.Outline(c)
	if err != nil {
		s.err = err
		return ""
	}
	if len(steps) == 0 {
		return ""
	}
	s.glyphs[id] = glyphPath(steps)
	return id
}

func glyphPath(steps []face.Step) string {
	var b strings.Builder
	u := func(p [2]float64) string { return num(p[0]*em) + " " + num(p[1]*em) }
	for i, t := range steps {
		if t.Op == 'M' && i > 0 {
			b.WriteByte('Z')
		}
		b.WriteByte(t.Op)
		b.WriteString(u(t.P[0]))
		if t.Op == 'Q' {
			b.WriteString(" " + u(t.P[1]))
		}
	}
	b.WriteByte('Z')
	return b.String()
}

// liveType sets the runs as text. The name says a fraction as one reads it.
func (s *surface) liveType(w drawing.Words, turn string) {
	var b strings.Builder
	for _, r := range w.Runs {
		family, weight := "Go, sans-serif", 400
		switch r.Font {
		case drawing.Medium:
			weight = 500
		case drawing.Bold:
			weight = 700
		case drawing.Mono, drawing.MonoBold:
			family = "Go Mono, monospace"
			weight = 400 + 300*int(r.Font-drawing.Mono)
		}
		fmt.Fprintf(&b, `<tspan x="%s" y="%s" font-family="%s" font-weight="%d" font-size="%s" fill="%s">%s</tspan>`,
			num(w.At.X+r.X), num(w.At.Y-r.Rise), family, weight, num(r.Size*drawing.MMPerPt), s.tone(r.Tone), esc(r.S))
	}
	label := ""
	if w.Built {
		label = fmt.Sprintf(` aria-label="%s"`, esc(w.Plain))
	}
	s.put(`<text xml:space="preserve"%s%s>%s</text>`, label, turn, b.String())
}

// Picture holds the PNG inside the file.
func (s *surface) Picture(im drawing.Image) {
	s.put(`<image x="%s" y="%s" width="%s" height="%s" preserveAspectRatio="none" href="data:image/png;base64,%s"><title>%s</title></image>`,
		num(im.At.X), num(im.At.Y), num(im.W), num(im.H), base64.StdEncoding.EncodeToString(im.PNG), esc(im.Alt))
}

// Clip opens a clipped group, Unclip closes it.
func (s *surface) Clip(os []drawing.Outline) {
	s.clips++
	s.put(`<clipPath id="%s-c%d"><path d="%s"/></clipPath>`, s.o.ID, s.clips, d(os))
	s.put(`<g clip-path="url(#%s-c%d)">`, s.o.ID, s.clips)
}

// Unclip closes the group the last Clip opened.
func (s *surface) Unclip() { s.put("</g>") }

// Link is a box one may press; a link to a page has no place in a picture.
func (s *surface) Link(l drawing.Link) {
	if l.URL == "" {
		return
	}
	s.put(`<a href="%s"><rect x="%s" y="%s" width="%s" height="%s" fill-opacity="0"/></a>`, esc(l.URL), num(l.At.X), num(l.At.Y), num(l.W), num(l.H))
}
