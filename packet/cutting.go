package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// cuttingPaper is, for each timber, what to buy, the cut list, and the boards
// to scale.
func cuttingPaper(r job.Result) paper {
	p := paper{title: "Cutting", right: [2]string{plural(r.Overall.BoardCount, "board") + " to buy, " + plural(r.Overall.PartCount, "part"),
		"long points first; the other system in pencil"}, entry: "Cut list", joins: true}
	for i, t := range r.Timber {
		buy := buying(r, t)
		if i == 0 {
			buy.gap = 0
		}
		p.blocks = append(p.blocks, buy)
		p.blocks = append(p.blocks, cutList(r, t)...)
		entry := ""
		if i == 0 {
			entry = "Boards to scale"
		}
		p.blocks = append(p.blocks, boards(r, t, entry)...)
	}
	return p
}

// buying is the count in large figures, the stock, and how good the plan is.
func buying(r job.Result, t job.TimberFacts) block {
	stock := first(r.Job, t.Thickness) + " × " + first(r.Job, t.Width) + " × " + first(r.Job, t.Length)
	other := second(r.Job, t.Thickness) + " × " + second(r.Job, t.Width) + " × " + second(r.Job, t.Length)
	claim := sentence(t.Claim)
	if t.Cost != "" {
		claim += " " + t.Cost + " in all."
	}
	claim += fmt.Sprintf(" By total length alone one would say %d. %s.", t.ByLength, proofSays(t))
	lines := wrap(claim, drawing.Regular, drawing.Body, 120)
	twins := []twin{webHead(joined(", ", t.Name, t.Species, "laid "+t.Laid), stock+"; "+other),
		webLoud(itoa(t.Buy), word(t.Buy, "board")+" to buy"), webPara(claim)}
	return block{h: max(20, 14+leading(drawing.Body)*float64(len(lines))), gap: 10, keep: true, twins: twins, draw: func(s *sheet, y float64) {
		s.rule(drawing.PenHeadRule, y)
		n := fitted(drawing.Label(drawing.Pt(24, y+15.5), drawing.Bench, itoa(t.Buy)).Bold(), 36, drawing.Figure)
		s.say(drawing.Label(drawing.Pt(0, y+6), drawing.Body, "Buy"))
		n.At.X = 0
		n.At.Y = y + 19
		s.say(n)
		s.say(drawing.Label(drawing.Pt(n.Width()+2, y+19), drawing.Lead, word(t.Buy, "board")).Medium())
		s.say(fitted(drawing.Label(drawing.Pt(66, y+5.8), drawing.Lead, joined(", ", t.Name, t.Species, "laid "+t.Laid)).Bold(), fieldW-66, drawing.Small))
		sz := fitted(drawing.Label(drawing.Pt(66, y+11), drawing.Body, stock), 121, drawing.Small)
		s.say(sz)
		if left := fieldW - 66 - sz.Width() - 3; left > 30 {
			s.say(fitted(drawing.Label(drawing.Pt(66+sz.Width()+3, y+11), drawing.Small, other).Quiet(), left, drawing.Small))
		}
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(66, y+16.6+leading(drawing.Body)*float64(i)), drawing.Body, l))
		}
	}}
}

func word(n int, w string) string {
	if n != 1 {
		return w + "s"
	}
	return w
}

func proofSays(t job.TimberFacts) string {
	l := t.Levels.Boards
	switch {
	case l.Proved && l.Rechecked:
		return "The proof was worked out again by a second program"
	case l.Proved:
		return "Proved by search, not checked again"
	}
	return fmt.Sprintf("At least %d are needed; whether fewer than %d will do is not known", l.Bound, t.Buy)
}

// cutList is the table of parts of one timber.
func cutList(r job.Result, t job.TimberFacts) []block {
	var rows [][]cell
	for _, k := range r.Kinds {
		if k.Timber != t.Name || k.Laid != t.Laid {
			continue
		}
		for _, p := range k.Parts {
			rows = append(rows, partRow(r, k, p))
		}
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"part", 13, false}, {"saw", 10, true}, {"long point", 25, true}, {"short point", 25, true},
		{"first end", 16, true}, {"second end", 17, true}, {"how it is sawn", 66, false}}
	return append([]block{heading("Cut list", "settings count from straight across", "")}, table(0, cols, rows)...)
}

func partRow(r job.Result, k job.KindFacts, p job.PartFacts) []cell {
	return []cell{bold(p.Mark), bold(itoa(p.Count)), over(first(r.Job, p.LongPoint), second(r.Job, p.LongPoint)),
		over(first(r.Job, p.ShortPoint), second(r.Job, p.ShortPoint)),
		bold(p.First.Setting.Text), bold(p.Second.Setting.Text), sawnHow(r, k, p)}
}

// sawnHow is the way of sawing and all that is out of the ordinary.
func sawnHow(r job.Result, k job.KindFacts, p job.PartFacts) cell {
	more := []string{joined(", ", k.Title, sides(p))}
	if p.Outside.MM < p.InsideLength.MM {
		more = append(more, "the inside face is the long one")
	}
	if p.Tip.MM > p.LongPoint.MM+1e-3 {
		more = append(more, "tip to tip "+both(r.Job, p.Tip))
	}
	if p.Hand != "" {
		more = append(more, joined(", ", p.Hand, mirrorWords(p)))
	}
	if p.Fitted {
		more = append(more, "fitted: cut to what closes the frame")
	}
	c := small(way(p))
	if p.Rough != nil {
		c = append(c, strong("Rough length first: "+both(r.Job, *p.Rough))...)
	}
	return append(c, quietLine(strings.Join(more, "; ")))
}

func mirrorWords(p job.PartFacts) string {
	if p.MirrorOf == "" {
		return ""
	}
	return "mirror image of " + p.MirrorOf
}

func sides(p job.PartFacts) string {
	var ns []string
	for _, n := range p.Sides {
		ns = append(ns, itoa(n))
	}
	return word(len(ns), "side") + " " + strings.Join(ns, " ")
}

// way is how both ends are sawn, said once when they are sawn alike.
func way(p job.PartFacts) string {
	if p.First.Way == p.Second.Way {
		return p.First.Way
	}
	return "first end " + p.First.Way + "; second end " + p.Second.Way
}
