package packet

import (
	"fmt"

	"bowerwright/drawing"
	"bowerwright/job"
)

// A row of the goes, mm: a box to tick, columns of text, and a line to write
// the real time on.
const (
	goHigh = 8.6
	goLine = 163.0 // where the line for the real time begins
)

var goCols = []struct {
	title string
	x, w  float64
}{
	{"go", 8, 8}, {"frames", 17, 62}, {"joints", 82, 10}, {"start", 94, 13}, {"second coat", 109, 17}, {"close by", 128, 16}, {"free", 146, 14}, {"your clock", goLine, 24},
}

// goBlocks are the goes, a row each, against a clock that starts with the first.
func goBlocks(r job.Result) []block {
	goes := r.Making.Goes
	if len(goes) == 0 {
		return nil
	}
	out := []block{heading("Goes, against the clock", "0:00 is when the first go is started; breaks and nights are not counted", "Goes, against the clock"),
		para("Lay everything ready first: rows taped, brushes, damp rag, weights. Start each go at its time or later, never before what it builds on is free. "+
			"Write the real time of the second coat on the line; the last joint is closed within the open time from there.", fieldW, drawing.Text{})}
	out[1].keep = true
	out[1].twins = append(out[1].twins, goTable(r))
	head := goHead()
	out = append(out, head)
	for _, g := range goes {
		out = append(out, goRow(r, g, &head))
	}
	return out
}

func goHead() block {
	return block{h: 5.6, keep: true, draw: func(s *sheet, y float64) {
		for _, c := range goCols {
			s.say(fitted(drawing.Label(drawing.Pt(c.x, y+3.6), drawing.Small, c.title).Quiet(), c.w+1, drawing.Small))
		}
		s.line(drawing.PenEdge, 0, y+5.6, fieldW, y+5.6)
	}}.says()
}

func goRow(r job.Result, g job.GoFacts, head *block) block {
	cells := goCells(r, g)
	return block{h: goHigh, again: head, draw: func(s *sheet, y float64) {
		s.add(drawing.TickBox(drawing.Pt(0, y+(goHigh-drawing.BoxMM)/2)))
		for i, words := range cells {
			c := goCols[i]
			t := drawing.Label(drawing.Pt(c.x, y+5.9), drawing.Lead, words)
			switch c.title {
			case "frames":
				t = drawing.Label(t.At, drawing.Body, words)
			case "close by", "go":
				t = t.Bold()
			}
			s.say(fitted(t, c.w, drawing.Small))
		}
		s.line(drawing.PenDimension, goLine, y+6.6, fieldW, y+6.6)
		s.line(drawing.PenHair, 0, y+goHigh, fieldW, y+goHigh)
	}}.says()
}

func goCells(r job.Result, g job.GoFacts) []string {
	title := g.Letter
	if k, ok := kindOf(r, g.Kind); ok {
		title = k.Letter + ", " + k.Title
	}
	what := title + ": " + g.What
	for i, n := range g.Straps {
		if i == 0 {
			what += ", strap"
		}
		what += fmt.Sprintf(" %d", n)
	}
	return []string{fmt.Sprint(g.Number), what, fmt.Sprint(g.Joints), g.Start.Text, g.Coat.Text, g.By.Text, g.Free.Text}
}

// goTable is the same for screens.
func goTable(r job.Result) twin {
	var cols []column
	for _, c := range goCols[:len(goCols)-1] {
		cols = append(cols, column{title: c.title})
	}
	var rows [][]cell
	for _, g := range r.Making.Goes {
		var row []cell
		for i, words := range goCells(r, g) {
			if goCols[i].title == "close by" {
				row = append(row, bold(words))
			} else {
				row = append(row, text(words))
			}
		}
		rows = append(rows, row)
	}
	return webTable("Goes", cols, rows)
}
