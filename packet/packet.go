// Package packet makes the papers of a job out of its Result: a cover, the
// drawing from the front and from the back, cut list, boards to scale, a bench
// card for each kind of frame, what was assumed; and the cut list as a table
// for other programs.
//
// Every figure printed is a field of the Result: the package lays out and
// draws, it works out no dimension. Places on paper are mm from the field's
// top left corner, x right and y down; places of the set piece are the
// Result's, mm, x from its left end and y up from the floor, seen from the
// front.
//
// Promise: the same Result and the same time give the same pages. No words lie
// over each other and none leave the field, however long the names; runes that
// the fonts lack are replaced by a box.
//
// What it does not know: timber, saws and geometry beyond where a word has
// room; files; the time (it is told).
package packet

import (
	"time"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
)

// Build lays out all papers of a job. Made is printed on every page; the zero
// time is left out, so that one job gives the same bytes on any day.
func Build(r job.Result, made time.Time) pdf.Doc { return build(r).doc(r, made) }

// build lays out all papers, in the order of the bench.
func build(r job.Result) *book {
	b := &book{tab: 1}
	front := b.begin(r.Job.Name, [2]string{})
	rest := drawingPage(b, r, false, frameList(r), sizeSections(r))
	rest = drawingPage(b, r, true, seamList(r), rest)
	b.flow(sizesPaper(r, rest))
	b.flow(buyingPaper(r))
	b.flow(benchPaper(r))
	b.flow(cuttingPaper(r))
	b.flow(stopsPaper(r))
	b.flow(sawPaper(r))
	for _, k := range r.Kinds {
		benchCard(b, r, k)
	}
	glueing(b, r)
	laying(b, r)
	drilling(b, r)
	standing(b, r)
	b.flow(assumedPaper(r))
	cover(front, r, b.entries)
	return b
}

// doc finishes the pages: heads, feet, and the paper round the field.
func (b *book) doc(r job.Result, made time.Time) pdf.Doc {
	d := pdf.Doc{Title: clean(r.Job.Name), Author: clean(r.Job.Maker), Subject: "Packet of a set piece", Made: made}
	size := pdf.Letter
	if r.Job.Paper == "a4" {
		size = pdf.A4
	}
	mark := map[int]string{1: "Cover"}
	for _, e := range b.entries {
		if _, ok := mark[e.page]; !ok {
			mark[e.page] = e.text
		}
	}
	for i, p := range b.pages {
		if i > 0 {
			p.head()
		}
		p.foot(r.Job, r.Mark, i+1, len(b.pages), made)
		l := p.list(size, i+1)
		d.Pages = append(d.Pages, pdf.Page{List: l, Size: size, Bookmark: clean(mark[i+1])})
	}
	return d
}

// Front is the dimensioned front view alone, as for front.svg and front.png.
func Front(r job.Result) drawing.List { return alone(r, false) }

// Back is the same seen from behind.
func Back(r job.Result) drawing.List { return alone(r, true) }

func alone(r job.Result, back bool) drawing.List {
	w := sideWords[back]
	var s sheet
	d := draw(&s, r, box{drawLeft, 6, drawRight, 170}, back)
	y := d.v.origin.Y + 27
	s.say(drawing.Label(drawing.Pt(4, y), drawing.Bench, w.word).Bold())
	s.say(fitted(drawing.Label(drawing.Pt(fieldW-4, y), drawing.Lead, r.Job.Name).RightAligned(), 110, drawing.Small))
	l := drawing.List{W: fieldW, H: y + 8, Title: r.Job.Name + ", " + w.title,
		Desc: w.word + ": " + plural(len(r.Frames), "frame") + ", " + both(r.Job, r.Overall.Width) + " wide, " + both(r.Job, r.Overall.Height) + " high"}
	l.Add(drawing.Rect(drawing.Pen{}, drawing.White, 0, 0, l.W, l.H))
	l.Add(s.items...)
	return l
}
