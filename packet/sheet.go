package packet

import (
	"fmt"
	"time"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
)

// The field is the part of the paper that is drawn on: one layout for Letter
// and A4, centred across, so that a packet looks alike on both. All places in
// this package are mm from the field's top left corner.
const (
	fieldW    = 187.0
	fieldH    = 258.0
	fieldTop  = 12.0 // from the paper's top edge
	bodyTop   = 19.0 // below the head
	bodyFoot  = 243.5
	footRule  = 247.0
	joinGap   = 9.0  // above a paper that shares a page
	joinHead  = 9.0  // its own small head
	joinLeast = 42.0 // and at least this much of it
)

// A sheet takes what is drawn in the field.
type sheet struct {
	items []drawing.Item
	top   float64 // where a head has just been drawn: no second rule there
}

// rule draws a rule above what begins at y, unless a head's rule is there.
func (s *sheet) rule(pen drawing.Pen, y float64) {
	if y > bodyTop && y != s.top {
		s.line(pen, 0, y, fieldW, y)
	}
}

func (s *sheet) add(items ...drawing.Item) { s.items = append(s.items, items...) }

// say sets a line of text, with runes the fonts lack replaced.
func (s *sheet) say(t drawing.Text) {
	if len(t.Spans) == 0 {
		return
	}
	spans := make([]drawing.Span, len(t.Spans))
	for i, sp := range t.Spans {
		sp.S = clean(sp.S)
		spans[i] = sp
	}
	t.Spans = spans
	s.add(t)
}

func (s *sheet) line(pen drawing.Pen, x0, y0, x1, y1 float64) {
	s.add(drawing.Stroke(pen, drawing.Pt(x0, y0), drawing.Pt(x1, y1)))
}

// prose sets wrapped text from the baseline of its first line and gives the
// baseline after its last.
func (s *sheet) prose(x, y, w float64, t drawing.Text) float64 {
	for _, l := range wrap(plain(t), t.Font, size(t), w) {
		line := t
		line.At, line.Spans = drawing.Pt(x, y), []drawing.Span{{S: l}}
		s.say(line)
		y += leading(size(t))
	}
	return y
}

// head is the paper's name at 24 pt, two short lines at its right, a rule.
func (p *page) head() {
	right := 0.0
	for i, l := range p.right {
		t := fitted(drawing.Label(drawing.Pt(fieldW, 5+float64(i)*5.2), drawing.Body, l).RightAligned(), 92, drawing.Small)
		right = max(right, t.Width())
		p.say(t)
	}
	p.say(fitted(drawing.Label(drawing.Pt(0, 10.2), drawing.Title, p.title).Bold(), fieldW-right-6, drawing.Lead))
	p.line(drawing.PenHeadRule, 0, 13.6, fieldW, 13.6)
}

// joinHead is the head of a paper that begins in the middle of a page.
func (p *page) joinHead(q paper) {
	p.line(drawing.PenHeadRule, 0, p.y-3, fieldW, p.y-3)
	t := fitted(drawing.Label(drawing.Pt(fieldW, p.y+3.4), drawing.Small, q.right[0]).RightAligned(), 90, drawing.Small)
	p.say(t)
	p.say(fitted(drawing.Label(drawing.Pt(0, p.y+3.6), drawing.Figure, q.title).Bold(), fieldW-t.Width()-6, drawing.Lead))
	p.y += joinHead
	p.top = p.y
}

// foot says which job, which page and how old the paper is, and carries the
// check bars: held against a tape they show whether the printer scaled.
func (p *page) foot(j job.JobFacts, mark string, n, of int, made time.Time) {
	p.line(drawing.PenDimension, 0, footRule, fieldW, footRule)
	name := fitted(drawing.Label(drawing.Pt(0, 251.6), drawing.Small, j.Name).Bold(), 40, drawing.Small)
	p.say(name)
	p.say(drawing.Label(drawing.Pt(name.Width(), 251.6), drawing.Small, fmt.Sprintf(", page %d of %d", n, of)))
	when := ""
	if !made.IsZero() {
		when = "made " + made.Format("2 January 2006, 15:04")
	}
	if mark != "" {
		mark = "mark " + mark
	}
	p.say(drawing.Label(drawing.Pt(0, 256.2), drawing.Small, joined(", ", when, mark)))
	p.add(drawing.CheckBars(drawing.Pt(71.5, 253.2))...)
}

// list is the finished page on its paper, with the thumb tab and fold marks,
// which lie outside the field.
func (p *page) list(size pdf.Size, n int) drawing.List {
	w, h := size.W, size.H
	l := drawing.List{W: w, H: h, Title: p.title}
	l.Add(drawing.Group{Move: drawing.Shift((w-fieldW)/2, fieldTop), Items: p.items})
	l.Add(drawing.FoldMarks(w, h)...)
	if n > 1 {
		l.Add(drawing.ThumbTab(w, p.tab-1, fmt.Sprint(n))...)
	}
	return l
}
