package packet

import (
	"fmt"

	"bowerwright/drawing"
	"bowerwright/job"
)

// Where things stand on the two drawing pages, mm from the field's corner.
const (
	drawTop   = 21.0
	drawLeft  = 16.0  // the height's dimension stands left of it
	drawRight = 160.0 // heights over the floor are written right of it
	drawFoot  = 162.0 // the lowest the floor line may lie
	fewFoot   = 128.0 // the same for a few frames, which need not be so large
	fewDrawn  = 3
)

// sideWords say on each of the two drawing pages from where one looks.
var sideWords = map[bool]struct{ title, word, right, list, key string }{
	false: {"Front", "FRONT", "as the guests see it", "Frames", "This is what the guests see."},
	true: {"Back", "BACK", "assemble from this side, face down", "Seams",
		"The piece is put together face down: left and right have changed over, numbers stay with their frames."},
}

// drawn is one drawing: the set piece with labels and seams, its overall sizes
// outermost, and the heights over the floor.
type drawn struct {
	v         view
	unlabeled []string
	bare      int // seams without a number
}

// draw draws the set piece standing in a box; the box's foot may be moved up to
// close the white below a low piece.
func draw(s *sheet, r job.Result, b box, back bool) drawn {
	v := viewIn(r, b, back)
	top := v.origin.Y - r.Overall.Height.MM*v.scale
	v.origin.Y -= top - b.y0 - v.riser(r)
	ps := v.placed(r.Frames)
	v.picture(s, r, ps)
	v.overall(s, r, 9, 10)
	pl := newPlacer(box{b.x0 - 4, b.y0 - 2, b.x1 + 2, v.origin.Y - 0.3})
	for _, p := range ps {
		p.block(pl)
	}
	v.heights(s, r, ps, b.x1+3)
	d := drawn{v: v, unlabeled: v.labels(s, ps, pl)}
	numbered := v.numbers(s, r, pl)
	v.secondNumbers(s, r, pl, numbered)
	for _, side := range numbered {
		if side == 0 {
			d.bare++
		}
	}
	return d
}

// drawingPage is the front or the back, with the list that belongs to it and as
// many of the sections as there is room for; it gives back the others.
func drawingPage(b *book, r job.Result, back bool, list section, sections []section) (rest []section) {
	w := sideWords[back]
	b.tab++
	p := b.begin(w.title+" drawing", [2]string{w.right, plural(len(r.Frames), "frame") + ", " + plural(len(r.Seams), "seam")})
	b.note(w.title + " drawing")
	foot := drawFoot
	if len(r.Frames) <= fewDrawn {
		foot = fewFoot
	}
	d := draw(&p.sheet, r, box{drawLeft, drawTop, drawRight, foot}, back)
	seen := section{drawnBlock(r, d, p.items, back)}
	seen = append(seen, list...)
	y := d.v.origin.Y + 26
	p.say(drawing.Label(drawing.Pt(0, y), drawing.Bench, w.word).Bold())
	x := drawing.Width(w.word, drawing.Bold, drawing.Bench) + 8
	end := p.prose(x, y-9.5, fieldW-x, drawing.Label(drawing.Point{}, drawing.Body, key(r, w.key, d)))
	p.y = max(y, end-4) + 2
	now, later := list.fitting(bodyFoot-p.y, w.list)
	b.put(p, now)
	if len(later) > 0 {
		rest = append(rest, later)
	}
	for _, s := range sections {
		if p.y+height(s) <= bodyFoot {
			b.put(p, s)
			seen = append(seen, s...)
		} else {
			rest = append(rest, s)
		}
	}
	b.shown(webPaper{w.title + " drawing", p.right, w.title + " drawing", seen})
	return rest
}

// drawnBlock is what the page's drawing says to those who do not see paper; it
// is only shown there, and cut to where the drawing stands on the page.
func drawnBlock(r job.Result, d drawn, items []drawing.Item, back bool) block {
	const top, under = drawTop - 6, 14.0
	w := sideWords[back]
	return block{}.says(webLoud(w.word, ""), webPara(key(r, w.key, d)),
		webPicture(drawingSays(r, back), fieldW, d.v.origin.Y+under-top, func(s *sheet) {
			s.add(drawing.Group{Move: drawing.Shift(0, -top), Items: items})
		}))
}

// drawingSays is the drawing in words.
func drawingSays(r job.Result, back bool) string {
	s := sideWords[back].word + ": " + plural(len(r.Frames), "frame") + ", " + both(r.Job, r.Overall.Width) + " wide, " + both(r.Job, r.Overall.Height) + " high."
	if back {
		s += " Left and right have changed over."
	}
	return s + " Every frame, and every seam, stands in the lists of this page and of the other drawing's."
}

// leastList is the room below which a list is not begun, mm.
const leastList = 40.0

// fitting parts a list, a heading and one block, into what fits a room and what
// goes on elsewhere.
func (s section) fitting(room float64, name string) (now, later section) {
	switch {
	case len(s) < 2 || height(s) <= room:
		return s, nil
	case room < leastList:
		return nil, s
	}
	first, more, ok := s[1].split(room - s[0].gap - s[0].h)
	if !ok {
		return nil, s
	}
	// The page for screens has the list whole, where it begins.
	return section{s[0], first}, section{heading(name+", continued", "", "").says(), more.says()}
}

// put draws a section on the page that is open; the caller has seen that there
// is room.
func (b *book) put(p *page, s section) {
	for _, k := range s {
		p.draw(b, k, k.gap)
	}
}

// seamIs explains the word once, where it first appears.
const seamIs = "A seam is where sides of two frames lie against each other and are fixed."

// key explains what is on a drawing.
func key(r job.Result, words string, d drawn) string {
	s := words + " Letter and number name the frame; the mark over them shows which way is up."
	if len(r.Seams) > 0 {
		s += " The heavy lines are seams, each with its number, on both sides where there is room."
		if !d.v.back {
			s += " " + seamIs
		}
	}
	if d.bare > 0 {
		s += fmt.Sprintf(" %s too close to number here: see the table of seams.", plural(d.bare, "seam"))
	}
	switch n := len(d.unlabeled); {
	case n > 6:
		s += fmt.Sprintf(" No room for the labels of %d frames: see the list.", n)
	case n > 0:
		s += fmt.Sprintf(" No room for the labels of %s.", joined(", ", d.unlabeled...))
	}
	return s
}

// frameList is every frame in reading order, with its height over the floor.
func frameList(r job.Result) section {
	if len(r.Frames) == 0 {
		return nil
	}
	var rows [][]cell
	for _, f := range r.Frames {
		low := "on the floor"
		if !f.Stands && f.Lowest.MM > onFloor {
			low = first(r.Job, f.Lowest)
		}
		rows = append(rows, []cell{strong(f.Label), quiet(f.ID), quiet(low)})
	}
	cols := []column{{"frame", 12, false}, {"job file", 20, false}, {"over floor", 20.5, false}}
	return section{heading("Frames, as one reads from the front", "with their ids in the job file", ""), columnsOf(3, cols, rows)}
}

// seamList is every seam: its frames and their sides, and how long they touch.
func seamList(r job.Result) section {
	if len(r.Seams) == 0 {
		return nil
	}
	var rows [][]cell
	for _, m := range r.Seams {
		rows = append(rows, []cell{strong(itoa(m.Number)), quiet(sideOf(m, 0) + ", " + sideOf(m, 1)), quiet(first(r.Job, m.Length))})
	}
	cols := []column{{"seam", 8, false}, {"frame/side", 26, false}, {"touch for", 18.5, true}}
	return section{heading("Seams", seamIs, "Seams"), columnsOf(3, cols, rows)}
}

// onFloor is what stands on the floor in spite of the last digit, mm.
const onFloor = 0.05

// sideOf is a frame and its side: B3/2.
func sideOf(m job.SeamFacts, i int) string { return m.Frames[i] + "/" + itoa(m.Sides[i]) }
