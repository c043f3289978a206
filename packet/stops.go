package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// stopsPaper is the cutting stop by stop, for whoever stands at the saw: each
// position of the stop once, which boards come to it, and a box for each part.
func stopsPaper(r job.Result) paper {
	stops, saw := 0, 0
	for _, t := range r.Timber {
		stops, saw = stops+t.Session.StopSettings, saw+t.Session.SawSettings
	}
	p := paper{title: "Cutting by stop", entry: "Cutting by stop", joins: true,
		right: [2]string{fmt.Sprintf("stop set %s, saw set %s", often(stops), often(saw)), "strike a box for each part sawn"}}
	for i, t := range r.Timber {
		bs := timberStops(r, t)
		if i == 0 && len(bs) > 0 {
			bs[0].gap = 0
		}
		p.blocks = append(p.blocks, bs...)
	}
	return p
}

func often(n int) string {
	if n == 1 {
		return "once"
	}
	return itoa(n) + " times"
}

// timberStops are the stops of one timber, then what is trimmed.
func timberStops(r job.Result, t job.TimberFacts) []block {
	if len(t.Stops) == 0 {
		return nil
	}
	out := []block{heading(joined(", ", t.Name, "laid "+t.Laid), fmt.Sprintf("stop set %s, saw set %s", often(t.Session.StopSettings), often(t.Session.SawSettings)), "")}
	out = append(out, para(sessionSays(r, t), fieldW, drawing.Text{}))
	out[1].keep = true
	for _, s := range t.Stops {
		out = append(out, stopBlocks(r, t, s)...)
	}
	return append(out, trimBlocks(r, t)...)
}

// sessionSays is how the boards go through the saw.
func sessionSays(r job.Result, t job.TimberFacts) string {
	s := "Set the stop, saw all parts of that length off the boards named, in the order named; then set the next stop. A board waits between its stops: chalk its number on it. "
	if first := t.Stops[0]; len(first.Boards) > 0 && t.TrimFirst.MM > 0 {
		s += "A board's first cut takes its end off, at least " + both(r.Job, t.TrimFirst) + ". "
	}
	if t.Session.LongestFirst {
		s += "The stops may also be run from the last to the first: every board still holds its parts, and a spoilt part can become a shorter one. "
	}
	return strings.TrimSpace(s)
}

// Of a stop on paper, mm.
const (
	stopHigh   = 21.5
	stopFigure = 64.0 // where its words begin
)

// stopBlocks are one stop: figure, what touches, saw and boards, and the boxes.
func stopBlocks(r job.Result, t job.TimberFacts, s job.StopFacts) []block {
	words := stopWords(r, t, s)
	lines := wrap(words, drawing.Regular, drawing.Body, fieldW-stopFigure)
	parts := stopParts(s)
	figure, unit := split(first(r.Job, s.Stop))
	h := max(stopHigh, 7.5+leading(drawing.Body)*float64(len(lines))+1)
	head := block{h: h, gap: 4, keep: len(s.Boards) > 0, twins: []twin{webSub("Stop "+itoa(s.Number)+", "+first(r.Job, s.Stop), parts),
		webLoud(first(r.Job, s.Stop), second(r.Job, s.Stop)+", tooth to stop"), webPara(words)}, draw: func(sh *sheet, y float64) {
		sh.line(drawing.PenRule, 0, y, fieldW, y)
		sh.say(drawing.Label(drawing.Pt(0, y+5.4), drawing.Small, "stop "+itoa(s.Number)).Quiet())
		sh.say(fitted(drawing.Label(drawing.Pt(stopFigure-4, y+5.4), drawing.Small, second(r.Job, s.Stop)).RightAligned().Quiet(), stopFigure-20, drawing.Small))
		f := drawing.LabelOf(drawing.Pt(0, y+18), drawing.Bench, drawing.B(figure))
		if unit != "" {
			f.Spans = append(f.Spans, drawing.Span{S: " " + unit, Font: drawing.Bold, Size: drawing.Bench * 0.5})
		}
		for f.Width() > stopFigure-4 && f.Size > drawing.Figure {
			f.Size *= 0.96
			f.Spans[len(f.Spans)-1].Size *= 0.96
		}
		sh.say(f)
		sh.say(fitted(drawing.Label(drawing.Pt(stopFigure, y+5.6), drawing.Lead, parts).Bold(), fieldW-stopFigure, drawing.Small))
		for i, l := range lines {
			sh.say(drawing.Label(drawing.Pt(stopFigure, y+11.2+leading(drawing.Body)*float64(i)), drawing.Body, l))
		}
	}}
	return append([]block{head}, tally(s)...)
}

// stopParts are the parts of a stop with their counts: 36 × S.
func stopParts(s job.StopFacts) string {
	var out []string
	for _, p := range s.Parts {
		out = append(out, itoa(p.Count)+" × "+p.Mark)
	}
	return strings.Join(out, ", ")
}

// stopMore says how many of a stop's parts are spare.
func stopMore(t job.TimberFacts, s job.StopFacts) string {
	var out []string
	for _, p := range s.Parts {
		if more := moreSays(wantedOf(t, p.Mark)); more != "" {
			out = append(out, p.Mark+": "+more+".")
		}
	}
	return strings.Join(out, " ")
}

// stopWords are what touches the stop, what the saw is set to, and which boards
// come.
func stopWords(r job.Result, t job.TimberFacts, s job.StopFacts) string {
	touch := sentence(s.Point + " at the stop, " + s.Face)
	if s.Point == "square end" {
		touch = "Square end at the stop."
	}
	var set []string
	for _, a := range s.Settings {
		set = append(set, a.Text)
	}
	saw := "The saw stays as it is set."
	if s.SawSet > 0 {
		saw = "Set the saw to " + strings.Join(set, ", then ") + " from straight across."
		if s.SawSet > len(set) {
			saw = fmt.Sprintf("The saw is set %s here, to %s from straight across.", often(s.SawSet), strings.Join(set, " and "))
		}
	}
	for _, a := range s.Settings {
		if a.Degrees < 0 {
			saw += " Minus: leaning the other way."
			break
		}
	}
	how := sentence(s.Way)
	if s.Rough {
		how = "Square to the rough length; trimmed later."
	}
	same := ""
	if len(s.Parts) > 1 {
		same = "All are the same stick: mark them as the picture of their board says."
	}
	return joined(" ", touch, how, saw, boardsCome(s), same, stopMore(t, s), sentence(s.Held))
}

// boardsCome says how many parts each board gives at a stop, boards that give
// as many together.
func boardsCome(s job.StopFacts) string {
	var out []string
	for i := 0; i < len(s.Boards); {
		j := i
		var ns []int
		for j < len(s.Boards) && s.Boards[j].Count == s.Boards[i].Count {
			ns = append(ns, s.Boards[j].Board)
			j++
		}
		each := itoa(s.Boards[i].Count) + " off board " + numbersList(ns)
		if len(ns) > 1 {
			each = itoa(s.Boards[i].Count) + " off each of boards " + numbersList(ns)
		}
		out = append(out, each)
		i = j
	}
	return sentence(strings.Join(out, ", "))
}

// The boxes of a stop: to a row, and mm.
const (
	tallyRow  = 28
	tallyHigh = 5.4
	tallyGap  = 1.2
)

// A tallyBox is one box: the n-th part of the stop; 0 names the board that
// those behind it come off.
type tallyBox struct{ n, board int }

// tallyBoxes lays out the boxes of a stop. A board's number is never the last
// of a row, away from its boxes.
func tallyBoxes(s job.StopFacts) (out []tallyBox) {
	n := 0
	for _, b := range s.Boards {
		if len(out)%tallyRow == tallyRow-1 {
			out = append(out, tallyBox{-1, 0})
		}
		out = append(out, tallyBox{0, b.Board})
		for range b.Count {
			n++
			out = append(out, tallyBox{n, b.Board})
		}
	}
	return out
}

// tally are the rows of boxes to strike, every sixth numbered, those of a board
// behind its number.
func tally(s job.StopFacts) (out []block) {
	boxes := tallyBoxes(s)
	const w = fieldW / tallyRow
	for from := 0; from < len(boxes); from += tallyRow {
		row := boxes[from:min(from+tallyRow, len(boxes))]
		k := block{h: tallyHigh + tallyGap, keep: from == 0 && len(boxes) > tallyRow, twins: []twin{}, draw: func(sh *sheet, y float64) {
			for i, b := range row {
				b.draw(sh, float64(i)*w, y, w)
			}
		}}
		if from == 0 {
			k.twins = tallyTwins(s)
		}
		out = append(out, k)
	}
	return out
}

// tallyTwins are the boxes on a screen, board by board.
func tallyTwins(s job.StopFacts) (out []twin) {
	n := 0
	for _, b := range s.Boards {
		var labels []string
		for range b.Count {
			n++
			labels = append(labels, itoa(n))
		}
		out = append(out, webTicks("Stop "+itoa(s.Number)+", off board "+itoa(b.Board), labels...))
	}
	return out
}

func (b tallyBox) draw(s *sheet, x, y, w float64) {
	mid := y + tallyHigh/2 + 1.2
	switch b.n {
	case -1:
		return
	case 0:
		s.say(fitted(drawing.Label(drawing.Pt(x+w-1.4, mid+0.2), drawing.Body, itoa(b.board)).Bold().RightAligned(), w-1, drawing.Small))
		return
	}
	s.add(drawing.Rect(drawing.PenEdge, drawing.White, x+0.4, y, w-1, tallyHigh))
	if b.n%tickEvery == 0 {
		s.say(drawing.Label(drawing.Pt(x+w/2-0.1, mid), drawing.Small, itoa(b.n)).Centred())
	}
}

// blockTrimmed are the parts sawn to a rough length because the saw does not
// reach their settings.
func blockTrimmed(t job.TimberFacts) (marks []string) {
	trimmed := map[string]bool{}
	for _, f := range t.Trims {
		for _, e := range f.Ends {
			trimmed[e.Mark] = true
		}
	}
	for _, s := range t.Stops {
		for _, p := range s.Parts {
			if s.Rough && !trimmed[p.Mark] {
				marks = append(marks, p.Mark)
			}
		}
	}
	return marks
}

// trimBlocks are what is trimmed off parts that were sawn to rough lengths.
func trimBlocks(r job.Result, t job.TimberFacts) []block {
	out := []block{heading("Then trim", "parts sawn to rough lengths, all ends of one setting together", "")}
	if marks := blockTrimmed(t); len(marks) > 0 {
		out = append(out, para(strings.Join(marks, ", ")+": beyond the saw's reach; each is trimmed clamped to a square block, as its bench card says.", fieldW, drawing.Text{}))
	}
	if len(t.Trims) == 0 {
		if len(out) == 1 {
			return nil
		}
		return out
	}
	var rows [][]cell
	for _, f := range t.Trims {
		for i, e := range f.Ends {
			at := ""
			if i == 0 {
				at = f.Setting.Text
			}
			stop := text("no stop: take off as little as makes it clean")
			if e.Stop != nil {
				stop = pair(first(r.Job, *e.Stop), second(r.Job, *e.Stop))
			}
			rows = append(rows, []cell{bold(at), bold(itoa(e.Count) + " × " + e.Mark), text(e.End + " end"), stop})
		}
	}
	cols := []column{{"set the saw to", 28, false}, {"parts", 30, false}, {"which end", 30, false}, {"stop at, tooth to stop", 91.5, false}}
	return append(out, table(0, cols, rows)...)
}
