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
	drawFoot  = 186.0 // the lowest the floor line may lie
)

// sideWords say on each of the two drawing pages from where one looks.
var sideWords = map[bool]struct{ title, word, right, key string }{
	false: {"Front", "FRONT", "as the guests see it", "Left is left."},
	true: {"Back", "BACK", "assemble from this side, face down",
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
	v.origin.Y -= top - b.y0
	ps := v.placed(r.Frames)
	v.picture(s, r, ps)
	v.overall(s, r, 9, 10)
	pl := newPlacer(box{b.x0 - 4, b.y0 - 2, b.x1 + 2, v.origin.Y - 0.3})
	for _, p := range ps {
		p.block(pl)
	}
	v.heights(s, r, ps, b.x1+3)
	return drawn{v: v, unlabeled: v.labels(s, ps, pl), bare: v.numbers(s, r, pl)}
}

// drawingPage is the front or the back with what belongs to it; list is set in
// the room that is left and is told whether it was.
func drawingPage(b *book, r job.Result, back bool, list []block) (set bool) {
	w := sideWords[back]
	b.tab++
	p := b.begin(w.title, [2]string{w.right, plural(len(r.Frames), "frame") + ", " + plural(len(r.Seams), "seam")})
	b.note(w.title + " drawing")
	d := draw(&p.sheet, r, box{drawLeft, drawTop, drawRight, drawFoot}, back)
	y := d.v.origin.Y + 26
	p.say(drawing.Label(drawing.Pt(0, y), drawing.Bench, w.word).Bold())
	x := drawing.Width(w.word, drawing.Bold, drawing.Bench) + 8
	end := p.prose(x, y-9.5, fieldW-x, drawing.Label(drawing.Point{}, drawing.Body, key(r, w.key, d)))
	p.y = max(y, end-2) + 3
	if len(list) == 0 || p.y+6+height(list) > bodyFoot {
		return false
	}
	for _, k := range list {
		p.y += k.gap
		k.draw(&p.sheet, p.y)
		p.y += k.h
	}
	return true
}

// seamIs explains the word once, where it first appears.
const seamIs = "A seam is where sides of two frames lie against each other and are fixed."

// key explains what is on a drawing.
func key(r job.Result, words string, d drawn) string {
	s := words + " Letter and number name the frame; the mark over them shows which way is up."
	if len(r.Seams) > 0 {
		s += " The heavy lines are seams, each with one number on both its sides."
		if !d.v.back {
			s += " " + seamIs
		}
	}
	if d.bare > 0 {
		s += fmt.Sprintf(" %s too close to number here: see the table of seams.", plural(d.bare, "seam"))
	}
	if n := len(d.unlabeled); n > 0 {
		s += fmt.Sprintf(" No room for the labels of %s.", joined(", ", d.unlabeled[:min(n, 6)]...))
	}
	return s
}

// frameList is every frame in reading order, with its height over the floor.
func frameList(r job.Result) []block {
	if len(r.Frames) == 0 {
		return nil
	}
	var rows [][]cell
	for _, f := range r.Frames {
		low := "on the floor"
		if !f.Stands {
			low = first(r.Job, f.Lowest)
		}
		rows = append(rows, []cell{quiet(itoa(f.Number)), bold(f.Label), quiet(low)})
	}
	cols := []column{{"", 7, false}, {"frame", 12, false}, {"over the floor", 20, false}}
	return append([]block{heading("Frames, as one reads from the front", "", "")}, columnsOf(4, cols, rows, 200)...)
}

// seamList is every seam: its frames and their sides, and how long they touch.
func seamList(r job.Result) []block {
	if len(r.Seams) == 0 {
		return nil
	}
	var rows [][]cell
	for _, m := range r.Seams {
		rows = append(rows, []cell{bold(itoa(m.Number)), quiet(sideOf(m, 0) + ", " + sideOf(m, 1)),
			quiet(first(r.Job, m.Length)), quiet(second(r.Job, m.Length))})
	}
	cols := []column{{"seam", 6.5, false}, {"frame/side", 18.5, false}, {"touch for", 13, true}, {"", 12, true}}
	return append([]block{heading("Seams", seamIs, "Seams")}, columnsOf(3, cols, rows, 210)...)
}

func sideOf(m job.SeamFacts, i int) string { return m.Frames[i] + "/" + itoa(m.Sides[i]) }
