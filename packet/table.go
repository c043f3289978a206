package packet

import (
	"strings"

	"bowerwright/drawing"
)

// A column of a table, mm. Figures stand at its right edge.
type column struct {
	title string
	w     float64
	right bool
}

// A cell is one or more lines, each wrapped in its column's width.
type cell [][]drawing.Span

func span(s string, f drawing.Font, size float64, t drawing.Tone) drawing.Span {
	return drawing.Span{S: s, Font: f, Size: size, Tone: t}
}

// bold is what a person acts on, quiet is in pencil.
func bold(s string) cell   { return cell{boldLine(s)} }
func text(s string) cell   { return cell{plainLine(s)} }
func quiet(s string) cell  { return cell{quietLine(s)} }
func strong(s string) cell { return cell{{span(s, drawing.Bold, drawing.Small, drawing.Ink)}} }

func small(s string) cell { return cell{{span(s, drawing.Regular, drawing.Small, drawing.Ink)}} }

func boldLine(s string) []drawing.Span {
	return []drawing.Span{span(s, drawing.Bold, rowSize, drawing.Ink)}
}
func plainLine(s string) []drawing.Span {
	return []drawing.Span{span(s, drawing.Regular, rowSize, drawing.Ink)}
}
func quietLine(s string) []drawing.Span {
	return []drawing.Span{span(s, drawing.Regular, drawing.Small, drawing.Pencil)}
}

// over is a bold line over a quiet one; pair is both on one line.
func over(a, b string) cell { return cell{boldLine(a), quietLine(b)} }
func pair(a, b string) cell {
	return cell{append(boldLine(a), quietLine(" \u00a0"+strings.ReplaceAll(b, " ", "\u00a0"))...)}
}

// Inside a table, mm. Rows of small type stand closer.
const (
	rowPad   = 1.3
	closePad = 0.55
	colGap   = 2.5
	rowSize  = drawing.Body
)

// lines are a cell's lines of text, wrapped, with their baselines from the top
// of the row.
func (c cell) lines(w float64) (out []drawing.Text, h float64) {
	pad := closePad
	for _, l := range c {
		for _, s := range l {
			if s.Size > drawing.Small {
				pad = rowPad
			}
		}
	}
	y := pad
	for _, l := range c {
		size := 0.0
		cleaned := make([]drawing.Span, len(l))
		for i, s := range l {
			s.S = clean(s.S)
			cleaned[i], size = s, max(size, s.Size)
		}
		for _, spans := range drawing.WrapSpans(cleaned, w) {
			y += leading(size)
			out = append(out, drawing.LabelOf(drawing.Pt(0, y-0.3*size*drawing.MMPerPt), size, spans...))
		}
	}
	return out, y + pad
}

// table makes a head and a row for each row of cells, a hairline under each.
// The head is drawn again on every page that the table runs to.
func table(x float64, cols []column, rows [][]cell) []block {
	g := &grid{cols: cols}
	head := tableHead(x, cols).says(rowTwin{g, nil})
	blocks := []block{head}
	for _, r := range rows {
		blocks = append(blocks, tableRow(x, cols, r, &head).says(rowTwin{g, r}))
	}
	return blocks
}

func tableHead(x float64, cols []column) block {
	return block{h: 5.6, keep: true, draw: func(s *sheet, y float64) {
		at := x
		for _, c := range cols {
			t := drawing.Label(drawing.Pt(at, y+3.6), drawing.Small, c.title).Quiet()
			if c.right {
				t = t.RightAligned()
				t.At.X = at + c.w
			}
			s.say(fitted(t, c.w, drawing.Small))
			at += c.w + colGap
		}
		s.line(drawing.PenEdge, x, y+5.6, at-colGap, y+5.6)
	}}
}

func tableRow(x float64, cols []column, cells []cell, head *block) block {
	h := 0.0
	set := make([][]drawing.Text, len(cols))
	for i, c := range cols {
		if i < len(cells) {
			var ch float64
			set[i], ch = cells[i].lines(c.w)
			h = max(h, ch)
		}
	}
	return block{h: h, again: head, draw: func(s *sheet, y float64) {
		at := x
		for i, c := range cols {
			for _, t := range set[i] {
				t.At = drawing.Pt(at, y+t.At.Y)
				if c.right {
					t = t.RightAligned()
					t.At.X = at + c.w
				}
				s.say(t)
			}
			at += c.w + colGap
		}
		s.line(drawing.PenHair, x, y+h, at-colGap, y+h)
	}}
}

// heading is a section's heading, under a rule, with a quiet line at its right.
// It stays with what follows.
func heading(s, right, entry string) block {
	return block{h: 8.6, gap: 6, keep: true, entry: entry, draw: func(sh *sheet, y float64) {
		sh.rule(drawing.PenRule, y)
		t := fitted(drawing.Label(drawing.Pt(fieldW, y+5.6), drawing.Small, right).RightAligned().Quiet(), 110, drawing.Small)
		sh.say(t)
		sh.say(fitted(drawing.Label(drawing.Pt(0, y+5.8), drawing.Lead, s).Bold(), fieldW-t.Width()-5, drawing.Small))
	}}.says(webHead(s, right))
}

// para is a paragraph of text over the whole width, or w of it.
func para(s string, w float64, t drawing.Text) block {
	lines := wrap(s, t.Font, size(t), w)
	lead := leading(size(t))
	return block{h: lead*float64(len(lines)) + 1.2, gap: 1, draw: func(sh *sheet, y float64) {
		for i, l := range lines {
			line := t
			line.At, line.Spans = drawing.Pt(0, y+lead*(float64(i)+0.75)), []drawing.Span{{S: l}}
			sh.say(line)
		}
	}}.says(webPara(s))
}

// columnsOf sets many short rows in n columns side by side, reading down each.
// It may be split between pages.
func columnsOf(n int, cols []column, rows [][]cell) block {
	l := list{n: n, rows: make([]block, len(rows))}
	for i, r := range rows {
		l.rows[i] = tableRow(0, cols, r, nil)
		l.h = max(l.h, l.rows[i].h)
	}
	l.head = tableHead(0, cols)
	return l.block().says(webTable("", cols, rows))
}

// A list is rows of one height in n columns, each under the same head.
type list struct {
	n    int
	h    float64
	head block
	rows []block
}

func (l list) block() block {
	deep := (len(l.rows) + l.n - 1) / l.n
	return block{h: l.head.h + float64(deep)*l.h, split: l.split, draw: func(s *sheet, y float64) {
		for i := range l.n {
			part := l.rows[min(i*deep, len(l.rows)):min((i+1)*deep, len(l.rows))]
			l.column(s, float64(i)*(fieldW+setGap)/float64(l.n), y, part)
		}
	}}
}

// split keeps as many whole lines of rows as fit a room.
func (l list) split(room float64) (now, later block, ok bool) {
	fit := int((room-l.head.h)/l.h) * l.n
	if fit <= 0 || fit >= len(l.rows) {
		return block{}, block{}, false
	}
	// No line alone on the next page.
	if least := len(l.rows) - widow*l.n; fit > least && least > 0 {
		fit = least
	}
	first, rest := l, l
	first.rows, rest.rows = l.rows[:fit], l.rows[fit:]
	return first.block(), rest.block(), true
}

// widow is the number of lines that go on to the next page at least.
const widow = 3

// column draws rows below a head at a place.
func (l list) column(s *sheet, x, y float64, rows []block) {
	if len(rows) == 0 {
		return
	}
	var in sheet
	l.head.draw(&in, 0)
	at := l.head.h
	for _, b := range rows {
		b.draw(&in, at)
		at += l.h
	}
	s.add(drawing.Group{Move: drawing.Shift(x, y), Items: in.items})
}

// setGap is the white between tables side by side, mm.
const setGap = 7.0
