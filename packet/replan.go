package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// benchPaper is what was sawn before this plan was made: it stays sawn, and
// stays on paper, struck out. It has no blocks when nothing was.
func benchPaper(r job.Result) paper {
	if r.Progress == nil {
		return paper{}
	}
	f := *r.Progress
	p := paper{title: "Done so far", entry: "Done so far", balance: true, right: [2]string{"sawn from papers marked " + strings.Join(f.Packets, ", "),
		"what is cut stays cut"}}
	p.blocks = append(p.blocks, para(f.Says+" "+benchScope(r), fieldW, drawing.Text{}))
	for _, t := range r.Timber {
		if t.Bench != nil {
			p.blocks = append(p.blocks, benchBlocks(r, t)...)
		}
	}
	return p
}

// benchScope says which papers are for what is left.
func benchScope(r job.Result) string {
	if len(r.Frames) == 0 {
		return "The papers that follow are for what is left, and for no more."
	}
	return "The papers on buying and on cutting, board by board and by stop, are for what is left, and for no more; bench cards and all others are those of the whole job."
}

// benchBlocks are one timber: what is to be bought, the parts with what is sawn
// of them, and the boards that were touched.
func benchBlocks(r job.Result, t job.TimberFacts) []block {
	says := t.Bench.Says
	if len(t.Bench.Dropped) > 0 {
		says += fmt.Sprintf(" The old papers' %s %s %s sawn otherwise now: strike %s out there.", word(len(t.Bench.Dropped), "board"), numbersList(t.Bench.Dropped),
			isAre(len(t.Bench.Dropped)), map[bool]string{true: "it", false: "them"}[len(t.Bench.Dropped) == 1])
	}
	says += " A board that the old papers had otherwise, or not at all, is called changed; every other keeps its number and its cuts."
	out := []block{heading(joined(", ", t.Name, "laid "+t.Laid), "", ""), para(says, fieldW, drawing.Text{})}
	out[1].keep = true
	var rows [][]cell
	for _, w := range t.Parts {
		rows = append(rows, []cell{bold(w.Mark), small(itoa(w.Need + w.Spare + w.Reject)), small(itoa(w.Sawn)), small(itoa(w.Spoilt)), bold(itoa(w.Saw))})
	}
	out = append(out, table(0, []column{{"part", 60, false}, {"wanted", 22, true}, {"sawn", 22, true}, {"of them spoilt", 30, true}, {"left to saw", 26, true}}, rows)...)
	if len(t.Bench.Done) == 0 {
		return out
	}
	old := t
	old.Boards, old.Length = nil, job.Size{}
	for _, d := range t.Bench.Done {
		old.Boards = append(old.Boards, d.Board)
		if d.Board.Length.MM > old.Length.MM {
			old.Length = d.Board.Length
		}
	}
	scale := newBoardScale(old)
	out = append(out, heading("Boards touched", "as their papers had them", ""))
	for _, d := range t.Bench.Done {
		out = append(out, doneBlock(r, old, d, scale))
	}
	return out
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// doneBlock is one board that was touched: the parts cut are struck out.
func doneBlock(r job.Result, t job.TimberFacts, d job.DoneFacts, scale boardScale) block {
	title := numbersSay(d.Board.Numbers) + ", " + d.Board.Stock
	more := d.Says + "; packet " + d.Packet
	left := fitted(drawing.Label(drawing.Point{}, drawing.Body, more).RightAligned(), 110, drawing.Small)
	name := fitted(drawing.Label(drawing.Point{}, drawing.Lead, title).Bold(), fieldW-left.Width()-3, drawing.Small)
	const top = 6.4
	var marks []string
	for i, p := range d.Board.Parts {
		if i < d.Cut {
			marks = append(marks, p.Mark)
		}
	}
	cutSays := "no part of it is cut"
	if len(marks) > 0 {
		cutSays = "cut, and struck out: " + strings.Join(marks, ", ")
	}
	return block{h: top + boardHigh + 2.6, gap: 3.4, twins: []twin{webLead(title, more), webPara(sentence(cutSays))}, draw: func(s *sheet, y float64) {
		name.At, left.At = drawing.Pt(0, y+4.1), drawing.Pt(fieldW, y+4.1)
		s.say(name)
		s.say(left)
		scale.board(s, r, t, d.Board, y+top)
		for i, p := range d.Board.Parts {
			if i < d.Cut {
				scale.strike(s, p, y+top)
			}
		}
		if d.Rejected {
			s.line(drawing.PenOutline, scale.x(0), y+top, scale.x(longOf(t, d.Board)), y+top+boardHigh)
			s.line(drawing.PenOutline, scale.x(0), y+top+boardHigh, scale.x(longOf(t, d.Board)), y+top)
		}
	}}
}

// strike draws a line through a part that is cut, and through its mark.
func (d boardScale) strike(s *sheet, p job.SawnFacts, y float64) {
	s.line(drawing.PenOutline, d.x(p.Start), y+boardHigh/2, d.x(p.End), y+boardHigh/2)
}
