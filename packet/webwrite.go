package packet

import (
	"fmt"
	"html"
	"strings"
	"unicode"

	"bowerwright/drawing"
)

// A webWriter gathers the page. It keeps what elements share with those around
// them: the heading they stand under, the table that is open, and counts that
// make identifiers differ.
type webWriter struct {
	b        strings.Builder
	id       string // of the paper that is being written
	under    string // the last heading in words, for captions
	heads    int
	pictures int
	open     *grid // the table whose rows are being written
	scrolls  bool  // it stands in a box that scrolls
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
			b.WriteString(plainHTML(p.S))
			continue
		}
		gap := ""
		if i > 0 && endsInDigit(pieces[i-1].S) {
			gap = `<span class="gap"> </span>`
		}
		fmt.Fprintf(&b, `%s<span class="frac"><span class="num">%s</span>/<span class="den">%s</span></span>`, gap, p.Num, p.Den)
	}
	return b.String()
}

func endsInDigit(s string) bool {
	return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9'
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
	w.put(`<h3 id="%s">%s</h3>`+"\n", w.headID(), rich(h.s))
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
	w.put("<fieldset><legend>%s</legend>\n", rich(t.legend))
	for _, l := range t.labels {
		w.put(`<label><input type="checkbox" autocomplete="off"> %s</label>`+"\n", rich(l))
	}
	w.put("</fieldset>\n")
}

// scrollFrom is the width from which a table or a picture gets a box of its own
// that scrolls on a phone, mm: about what a screen of 390 px shows in letters
// of reading size.
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
	w.begin(t.cols, true)
	for _, r := range t.rows {
		w.row(t.cols, r)
	}
	w.close()
}

func (r rowTwin) write(w *webWriter) {
	if w.open == nil {
		w.begin(r.grid.cols, r.cells == nil)
		w.open = r.grid
	}
	if r.cells != nil {
		w.row(r.grid.cols, r.cells)
	}
}

// begin opens a table under the heading's name.
func (w *webWriter) begin(cols []column, head bool) {
	wide := 0.0
	named := false
	for _, c := range cols {
		wide += c.w
		named = named || c.title != ""
	}
	w.scrolls = wide >= scrollFrom || len(cols) > scrollCols
	if w.scrolls {
		w.scroll("scroll", w.under+", table")
	}
	w.put(`<table><caption class="hid">%s</caption>`+"\n", rich(w.under))
	if head && named {
		w.put("<thead><tr>")
		for _, c := range cols {
			w.headCell(c)
		}
		w.put("</tr></thead>\n")
	}
	w.put("<tbody>\n")
}

// headCell names a column; one without a name is no heading to a reader.
func (w *webWriter) headCell(c column) {
	if c.title == "" {
		w.put("<td></td>")
		return
	}
	w.put(`<th scope="col"%s>%s</th>`, c.class(), rich(c.title))
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
func (w *webWriter) row(cols []column, cells []cell) {
	w.put("<tr>")
	for i, c := range cols {
		s := ""
		if i < len(cells) {
			s = cells[i].html()
		}
		if i == 0 && s != "" {
			w.put(`<th scope="row"%s>%s</th>`, c.class(), s)
		} else {
			w.put("<td%s>%s</td>", c.class(), s)
		}
	}
	w.put("</tr>\n")
}

// close ends the table that is open.
func (w *webWriter) close() {
	w.open = nil
	w.put("</tbody></table>\n")
	if w.scrolls {
		w.put("</div>\n")
	}
}
