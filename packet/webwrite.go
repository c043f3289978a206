package packet

import (
	"fmt"
	"html"
	"regexp"
	"strings"
	"unicode"

	"bowerwright/drawing"
)

// A webWriter gathers the page. It keeps what elements share with those around
// them: the heading they stand under, the table that is open, and counts that
// make identifiers differ.
type webWriter struct {
	b        strings.Builder
	id       string          // of the paper that is being written
	under    string          // the last heading in words, for captions
	title    string          // of the paper
	captions map[string]bool // of the tables so far
	legends  map[string]bool // of the boxes to tick so far
	heads    int
	pictures int
	open     *grid // the table whose rows are being written
	cols     []column
	ticks    bool // a box before each row of it
	wide     bool // it is too wide for a phone
	err      error
}

func (w *webWriter) put(format string, args ...any) { fmt.Fprintf(&w.b, format, args...) }

// all writes twins one after the other; rows of one grid become one table.
func (w *webWriter) all(ts []twin) {
	for _, t := range ts {
		if r, ok := t.(rowTwin); w.open != nil && !(ok && r.grid == w.open) {
			w.close()
		}
		t.write(w)
	}
	if w.open != nil {
		w.close()
	}
}

// plainHTML makes text fit for the page: what would break its line is a space,
// and unlike on paper every letter stays, as a screen has more fonts.
func plainHTML(s string) string {
	s = strings.Map(func(r rune) rune {
		if r != '\u00a0' && (unicode.IsSpace(r) || unicode.IsControl(r)) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return html.EscapeString(s)
}

// rich is text with its fractions built by the style sheet. What is copied or
// read aloud is the plain text: 10 3/8 in.
func rich(s string) string {
	var b strings.Builder
	pieces := drawing.Rich(s)
	for i, p := range pieces {
		if p.Den == "" {
			before, whole := wholeOf(p.S)
			if i+1 == len(pieces) { // no fraction follows
				before, whole = p.S, ""
			}
			b.WriteString(plainHTML(unparted(before, i > 0)))
			if whole != "" {
				fmt.Fprintf(&b, `<span class="mixed">%s<span class="gap"> </span>%s</span>`, whole, fraction(pieces[i+1]))
			}
			continue
		}
		if i > 0 && pieces[i-1].Den == "" {
			if _, whole := wholeOf(pieces[i-1].S); whole != "" {
				continue // written with its whole number
			}
		}
		b.WriteString(fraction(p))
	}
	return b.String()
}

// fraction is one built fraction.
func fraction(p drawing.Piece) string {
	return fmt.Sprintf(`<span class="frac"><span class="num">%s</span>/<span class="den">%s</span></span>`, p.Num, p.Den)
}

// wholeOf parts text from the whole number it ends in, which no line end may
// take from its fraction.
func wholeOf(s string) (before, whole string) {
	at := len(s)
	for at > 0 && s[at-1] >= '0' && s[at-1] <= '9' {
		at--
	}
	return s[:at], s[at:]
}

// unitAfter is a number with its unit, unitFirst a unit that follows a fraction.
var (
	unitAfter = regexp.MustCompile(`(\d) (in|ft|mm|m|lb|kg|oz|°|mph)\b`)
	unitFirst = regexp.MustCompile(`^ (in|ft)\b`)
)

// unparted keeps a number and its unit in one line.
func unparted(s string, afterFraction bool) string {
	s = unitAfter.ReplaceAllString(s, "$1\u00a0$2")
	if afterFraction {
		s = unitFirst.ReplaceAllString(s, "\u00a0$1")
	}
	return s
}

// spans are pieces of a line: what a person acts on is bold, what is in pencil
// on paper is quiet.
func spans(line []drawing.Span) string {
	var b strings.Builder
	for _, s := range line {
		words := rich(s.S)
		if words == "" {
			continue
		}
		if s.Font == drawing.Bold {
			words = "<b>" + words + "</b>"
		}
		if s.Tone == drawing.Pencil {
			words = `<span class="quiet">` + words + "</span>"
		}
		b.WriteString(words)
	}
	return b.String()
}

// html are a cell's lines, one below the other.
func (c cell) html() string {
	var ls []string
	for _, l := range c {
		if s := spans(l); s != "" {
			ls = append(ls, s)
		}
	}
	return strings.Join(ls, "<br>")
}

func (h headTwin) write(w *webWriter) {
	w.heads++
	w.under = h.s
	w.put(`<h%d id="%s">%s</h%d>`+"\n", h.level, w.headID(), rich(h.s), h.level)
	if h.note != "" {
		w.put(`<p class="quiet note">%s</p>`+"\n", rich(h.note))
	}
}

// headID is the identifier of the last heading.
func (w *webWriter) headID() string { return fmt.Sprintf("%s-%d", w.id, w.heads) }

func (p paraTwin) write(w *webWriter) {
	class := ""
	if p.class != "" {
		class = fmt.Sprintf(` class="%s"`, p.class)
	}
	var ls []string
	for _, l := range p.line {
		ls = append(ls, spans(l))
	}
	w.put("<p%s>%s</p>\n", class, strings.TrimSpace(strings.Join(ls, " ")))
}

func (l listTwin) write(w *webWriter) {
	tag := "ul"
	if l.ordered {
		tag = "ol"
	}
	w.put("<%s>\n", tag)
	for _, s := range l.items {
		w.put("<li>%s</li>\n", rich(s))
	}
	w.put("</%s>\n", tag)
}

func (f factsTwin) write(w *webWriter) {
	w.put("<dl>\n")
	for _, p := range f {
		w.put("<div><dt>%s</dt><dd>%s</dd></div>\n", rich(p[0]), rich(p[1]))
	}
	w.put("</dl>\n")
}

func (t ticksTwin) write(w *webWriter) {
	w.put("<fieldset><legend>%s</legend>\n", rich(w.legend(t.legend)))
	for _, l := range t.labels {
		w.put(`<label><input type="checkbox" autocomplete="off"> %s</label>`+"\n", rich(l))
	}
	w.put("</fieldset>\n")
}

// legend tells boxes of one name on several papers apart.
func (w *webWriter) legend(s string) string {
	if w.legends[s] && w.title != "" {
		s = w.title + ": " + s
	}
	once := s
	for n := 2; w.legends[s]; n++ {
		s = fmt.Sprintf("%s, %d", once, n)
	}
	if w.legends == nil {
		w.legends = map[string]bool{}
	}
	w.legends[s] = true
	return s
}

// scrollFrom is the width from which a table or a picture is more than a phone
// shows, mm: about what a screen of 390 px has in letters of reading size.
const scrollFrom = 75.0

// scrollCols is how many columns a phone shows in any case.
const scrollCols = 3

// scroll opens a box that scrolls by itself, and can be reached by keyboard, so
// that the page never does sideways.
func (w *webWriter) scroll(class, name string) {
	w.put(`<div class="%s" role="group" tabindex="0" aria-label="%s">`+"\n", class, plainHTML(name))
}

func (t tableTwin) write(w *webWriter) {
	if t.caption != "" {
		w.under = t.caption
	}
	w.begin(&grid{cols: t.cols}, true)
	for _, r := range t.rows {
		w.row(r)
	}
	w.close()
}

func (r rowTwin) write(w *webWriter) {
	if w.open == nil {
		w.begin(r.grid, r.cells == nil)
		w.open = r.grid
	}
	if r.cells != nil {
		w.row(r.cells)
	}
}

// caption names a table by what it stands under, and by its paper where
// another has that name already; a number is the last resort.
func (w *webWriter) caption(name string) string {
	c := joined(", ", w.under, name)
	if w.captions[c] && w.title != w.under {
		c = joined(", ", w.title+": "+w.under, name)
	}
	once := c
	for n := 2; w.captions[c]; n++ {
		c = fmt.Sprintf("%s, table %d", once, n)
	}
	if w.captions == nil {
		w.captions = map[string]bool{}
	}
	w.captions[c] = true
	return c
}

// begin opens a table. One too wide for a phone is there set row by row, each
// cell under its column's name; browsers then forget that it is a table, so
// that its roles are written out.
func (w *webWriter) begin(g *grid, head bool) {
	wide, named := 0.0, false
	for _, c := range g.cols {
		wide += c.w
		named = named || c.title != ""
	}
	w.cols, w.ticks, w.wide = g.cols, g.ticks, wide >= scrollFrom || len(g.cols) > scrollCols
	caption := w.caption(g.name)
	kind := ""
	if w.wide {
		w.scroll("scroll", caption+", table")
		kind = ` class="wide"`
	}
	w.put(`<table%s%s><caption class="hid">%s</caption>`+"\n", kind, w.role("table"), rich(caption))
	if head && named {
		w.put("<thead%s><tr%s>", w.role("rowgroup"), w.role("row"))
		for _, c := range g.cols {
			w.headCell(c)
		}
		w.put("</tr></thead>\n")
	}
	w.put("<tbody%s>\n", w.role("rowgroup"))
}

// role writes out what an element of a wide table is.
func (w *webWriter) role(r string) string {
	if !w.wide {
		return ""
	}
	return ` role="` + r + `"`
}

// headCell names a column; one without a name is no heading to a reader.
func (w *webWriter) headCell(c column) {
	if c.title == "" {
		w.put("<td%s></td>", w.role("cell"))
		return
	}
	w.put(`<th scope="col"%s%s>%s</th>`, w.role("columnheader"), c.class(), rich(c.title))
}

// class says how a column's cells are set: figures at the right and unbroken,
// words with room to read, short ones in one line where the table scrolls.
func (c column) class() string {
	switch {
	case c.right:
		return ` class="fig"`
	case c.w >= wordsFrom:
		return ` class="words"`
	case c.w >= fewFrom:
		return ` class="few"`
	case c.w > 0:
		return ` class="short"`
	}
	return ""
}

// wordsFrom is the width of a column that holds sentences, and fewFrom of one
// that holds a few words, mm.
const (
	wordsFrom = 45.0
	fewFrom   = 24.0
)

// row writes a row; its first cell names it where it says anything.
func (w *webWriter) row(cells []cell) {
	w.put("<tr%s>", w.role("row"))
	for i, c := range w.cols {
		s := ""
		if i < len(cells) {
			s = cells[i].html()
		}
		switch {
		case i == 0 && s != "" && w.ticks:
			s = `<label class="tick"><input type="checkbox" autocomplete="off"><span>` + s + `</span></label>`
			fallthrough
		case i == 0 && s != "":
			w.put(`<th scope="row"%s%s%s>%s</th>`, w.role("rowheader"), w.label(c, s), c.class(), s)
		default:
			w.put("<td%s%s%s>%s</td>", w.role("cell"), w.label(c, s), c.class(), s)
		}
	}
	w.put("</tr>\n")
}

// label is the column's name at a cell, shown where rows are set as slips.
func (w *webWriter) label(c column, s string) string {
	if !w.wide || c.title == "" || s == "" {
		return ""
	}
	return ` data-is="` + plainHTML(c.title) + `"`
}

// close ends the table that is open.
func (w *webWriter) close() {
	w.open = nil
	w.put("</tbody></table>\n")
	if w.wide {
		w.put("</div>\n")
	}
}
