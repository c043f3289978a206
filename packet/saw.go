package packet

import (
	"bowerwright/drawing"
	"bowerwright/job"
)

// sawPaper is what to cut first, the saw, and the cautions.
func sawPaper(r job.Result) paper {
	p := paper{title: "The saw", right: [2]string{"what to cut first", "local rules and licensed people come first"},
		entry: "The saw", joins: true, balance: true}
	return p.of(tests(r), sawFacts(r), cautions(r))
}

// assumedPaper is what the sums rest on. Nobody needs it at the bench, so it is
// the last.
func assumedPaper(r job.Result) paper {
	p := paper{title: "Assumptions", right: [2]string{"what the sums rest on", "each can be changed in the job file by its name"},
		entry: "Assumptions", joins: true, balance: true}
	return p.of(assumed(r))
}

// of fills a paper with its sections.
func (p paper) of(sections ...[]block) paper {
	for _, bs := range sections {
		p.blocks = append(p.blocks, bs...)
	}
	if len(p.blocks) > 0 {
		p.blocks[0].gap = 0
	}
	return p
}

func tests(r job.Result) []block {
	if len(r.Tests) == 0 {
		return nil
	}
	out := []block{heading("Test corner, cut first", "two arms of scrap, closed to a corner, show a saw out of true", "")}
	var rows [][]cell
	for _, t := range r.Tests {
		name := t.Kind
		if k, ok := kindOf(r, t.Kind); ok {
			name = k.Letter + ", " + k.Title
		} else if t.Title != "" {
			name = t.Title
		}
		who := strong(name)
		if t.Coarse != "" {
			who = append(who, quietLine(sentence(t.Coarse)))
		}
		rows = append(rows, []cell{who, strong(t.Setting.Text), smallPair(r, t.Arms), smallPair(r, t.Across), quiet(t.Error.Text), smallPair(r, t.Shows)})
	}
	cols := []column{{"for", 43, false}, {"setting", 15, true}, {"arms, outside", 34, true}, {"tip to tip when true", 34, true},
		{"a cut out by", 19, true}, {"moves it by", 27, true}}
	out = append(out, table(0, cols, rows)...)
	return append(out, para("Measure across the two tips and enter the reading in the job: the saw's true setting follows from it.", fieldW, drawing.Text{}))
}

func sawFacts(r job.Result) []block {
	s := r.Saw
	words := "Kerf " + both(r.Job, s.Kerf) + ". "
	if s.Name != "" {
		words = sentence(s.Name+", from the "+s.From) + " " + words
	}
	if !s.Given {
		words += "No saw is described: how far its head swings and tilts is assumed, and what it takes is not checked. "
	}
	if s.Scale == "along" {
		words += "Its scale counts from along the board; every setting in this packet counts from straight across. "
	}
	if s.Stop != "" {
		words += "The stop is on the " + s.Stop + " of the blade. "
	}
	if t := s.Reading; t != nil {
		words += "The test corner of " + t.Kind + " read " + both(r.Job, t.Across) + ": the saw is out by " + t.Error.Text +
			"; for " + t.True.Text + " set it to " + t.SetTo.Text + "."
	}
	return []block{heading("The saw", "", ""), para(words, fieldW, drawing.Text{})}
}

func cautions(r job.Result) []block {
	if len(r.Cautions) == 0 {
		return nil
	}
	out := []block{heading("Cautions", "", "")}
	for i, c := range r.Cautions {
		b := para(c.Text, fieldW-5, drawing.Text{})
		draw := b.draw
		out = append(out, block{h: b.h, twins: []twin{webCaution(c.Text)}, keep: i == 0 && len(r.Cautions) > 1, draw: func(s *sheet, y float64) {
			var in sheet
			draw(&in, y)
			s.add(drawing.Group{Move: drawing.Shift(5, 0), Items: in.items},
				drawing.Rect(drawing.Pen{}, drawing.Black, 0, y+0.9, 1.2, b.h-1.6))
		}})
	}
	return out
}
