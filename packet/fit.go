package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// fitPaper is what is tried before anything is numbered, and every seam's gap.
func fitPaper(r job.Result) paper {
	l := r.Making.Lay
	p := paper{title: "Fit, gaps and shims", entry: "Fit, gaps and shims", right: [2]string{seenFromBack, "measure, shim, then number"}, joins: true, balance: true}
	if len(l.Gaps) == 0 { // nothing lies against anything: any frame may lie anywhere
		return paper{}
	}
	if rows := swapRows(l); len(rows) > 0 {
		p.blocks = append(p.blocks, para("Frames of a kind are alike but for a hair. Where a seam stands open, try these in each other's places, and every way round, until the gaps are smallest. Only then write numbers and arrows.", fieldW, drawing.Text{}))
		p.blocks = append(p.blocks, table(0, []column{{"try in each other's places", 116, false}, {"and every way round", 68.5, false}}, rows)...)
	}
	p.blocks = append(p.blocks, heading("Gaps", "never pulled in with screws", ""), para(shimSay(r), fieldW, drawing.Text{}))
	if b, ok := shimTable(r); ok {
		p.blocks = append(p.blocks, b)
	}
	var rows [][]cell
	for _, g := range l.Gaps {
		rows = append(rows, []cell{bold(itoa(g.Seam)), small(g.Frames[0] + "/" + g.Frames[1]), small(first(r.Job, g.Planned)), text(blankLine), text(blankLine)})
	}
	p.blocks = append(p.blocks, gapList(rows))
	return p
}

// blankLine is a place to write on: low lines, which read as one.
const blankLine = "___"

func gapList(rows [][]cell) block {
	b := columnsOf(3, []column{{"seam", 8, false}, {"frames", 14, false}, {"plan", 11.1, false}, {"gap", 7, false}, {"shim", 7.5, false}}, rows)
	b.gap = 3
	return b
}

func swapRows(l job.LayFacts) [][]cell {
	var rows [][]cell
	for _, a := range l.Alike {
		if len(a.Frames) > 1 || a.Ways > 1 {
			rows = append(rows, []cell{pair(strings.Join(a.Frames, ", "), a.Title), text(a.Turns)})
		}
	}
	return rows
}

// shimSay is the rule.
func shimSay(r job.Result) string {
	s, wider := r.Making.Lay.Shims, "No gap may be wider than its seam is planned with: it is"
	if s.Over.MM > 0 {
		wider = fmt.Sprintf("A gap may be %s wider than its seam is planned with; from there on it is", both(r.Job, s.Over))
	}
	return fmt.Sprintf("Most seams are laid out with a gap of %s; plan in the list is what each has. %s filled with shims, each %s thick. Take the plan off the gap that is found: the rest says how many. Write down the gap, and the shims.",
		both(r.Job, s.Planned), wider, both(r.Job, s.Each))
}

// shimTable is how many shims go into a gap, by how much wider it is than planned.
func shimTable(r job.Result) (block, bool) {
	s := r.Making.Lay.Shims
	if len(s.Counts) == 0 {
		return block{}, false
	}
	w := (fieldW - 30) / float64(len(s.Counts))
	cols := []column{{title: "gap less plan"}}
	row := []cell{bold("shims")}
	for _, c := range s.Counts {
		cols = append(cols, column{title: first(r.Job, c.Beyond)})
		row = append(row, text(itoa(c.Count)))
	}
	return block{h: 13, gap: 2, keep: true, draw: func(sh *sheet, y float64) {
		sh.say(drawing.Label(drawing.Pt(0, y+4.6), drawing.Small, "gap less plan").Quiet())
		sh.say(drawing.Label(drawing.Pt(0, y+10.6), drawing.Small, "shims").Quiet())
		for i, c := range s.Counts {
			x := 30 + w*float64(i)
			sh.say(fitted(drawing.Label(drawing.Pt(x, y+4.6), drawing.Body, first(r.Job, c.Beyond)), w-2, drawing.Small))
			sh.say(drawing.Label(drawing.Pt(x, y+11), drawing.Lead, itoa(c.Count)).Bold())
		}
		sh.line(drawing.PenHair, 0, y+6.2, fieldW, y+6.2)
		sh.line(drawing.PenHair, 0, y+12.6, fieldW, y+12.6)
	}}.says(webTable("Shims for what is beyond the plan", cols, [][]cell{row})), true
}
