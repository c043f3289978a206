package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// cuttingPaper is, for each timber, what to buy and to take, how good the plan
// is, what other ways of cutting would take, the cut list, and the boards to
// scale.
func cuttingPaper(r job.Result) paper {
	p := paper{title: "Cutting", right: [2]string{boardsToTake(r) + ", " + sawnSays(r),
		"long points first; the other system in pencil"}, entry: "Cutting", joins: true}
	for i, t := range r.Timber {
		buy := buying(r, t)
		if i == 0 {
			buy.gap = 0
		}
		p.blocks = append(p.blocks, buy)
		p.blocks = append(p.blocks, taking(r, t)...)
		p.blocks = append(p.blocks, cutList(r, t)...)
		p.blocks = append(p.blocks, waysTable(r, t)...)
		entry := ""
		if i == 0 {
			entry = boardsTitle
		}
		p.blocks = append(p.blocks, boards(r, t, entry)...)
	}
	return p
}

// sawnSays counts what is sawn, and how much of it is spare.
func sawnSays(r job.Result) string {
	saw, more := 0, 0
	for _, t := range r.Timber {
		for _, w := range t.Parts {
			saw, more = saw+w.Saw, more+w.Spare+w.Reject
		}
	}
	if saw == 0 { // all is sawn, or nobody counted
		return plural(r.Overall.PartCount, "part")
	}
	if more == 0 {
		return plural(saw, "part") + " to saw"
	}
	return fmt.Sprintf("%s to saw, %d of them to spare", plural(saw, "part"), more)
}

// boardsToTake counts what is bought, and what is on hand.
func boardsToTake(r job.Result) string {
	hand := 0
	for _, t := range r.Timber {
		hand += t.FromHand
	}
	s := plural(r.Overall.BoardCount, "board") + " to buy"
	if hand > 0 {
		s += fmt.Sprintf(", %d on hand", hand)
	}
	return s
}

// buying is the count in large figures, the stock, and how good the plan is.
func buying(r job.Result, t job.TimberFacts) block {
	size := func(say func(job.JobFacts, job.Size) string) string {
		s := say(r.Job, t.Thickness) + " × " + say(r.Job, t.Width)
		if len(t.Stocks) < 2 {
			s += " × " + say(r.Job, t.Length)
		}
		return s
	}
	stock, other := size(first), size(second)
	claim := claimSays(r, t)
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

// claimSays is what is taken and how good that is, and what must be looked at.
func claimSays(r job.Result, t job.TimberFacts) string {
	claim := sentence(t.Claim)
	if t.Cost != "" && len(t.Stocks) < 2 {
		for _, s := range t.Stocks {
			claim += " " + s.Price + " a board,"
		}
		claim = strings.TrimSuffix(claim, ",") + ", " + t.Cost + " in all."
	}
	claim += " " + byLength(t) + " " + proofSays(t) + "."
	if exact := exactBoards(t); exact != "" {
		claim += " " + exact
	}
	return claim
}

// exactBoards are those that their last part fills to the end.
func exactBoards(t job.TimberFacts) string {
	var ns []int
	for _, b := range t.Boards {
		if b.Exact {
			ns = append(ns, b.Numbers...)
		}
	}
	if len(ns) == 0 {
		return ""
	}
	return "Measure first: the last part reaches the very end of board" + map[bool]string{true: "", false: "s"}[len(ns) == 1] + " " + numbersList(ns) +
		", which must not be a hair short."
}

// byLength is what the sum of lengths would say, for comparison.
func byLength(t job.TimberFacts) string {
	if t.FromHand > 0 {
		return fmt.Sprintf("By total length alone one would say %d, all as long as the longest, those on hand counted in.", t.ByLength)
	}
	return fmt.Sprintf("By total length alone one would say %d.", t.ByLength)
}

func word(n int, w string) string {
	if n != 1 {
		return w + "s"
	}
	return w
}

// proofSays is how well what the claim says is proved: of the cost where that
// chooses between boards, else of their number.
func proofSays(t job.TimberFacts) string {
	l := t.Levels.Boards
	if t.Cost != "" && len(t.Stocks) > 1 {
		l = t.Levels.Cost
	}
	switch {
	case l.Proved && l.Rechecked:
		return "The proof was worked out again by a second program"
	case l.Proved:
		return "Proved by search, not checked again"
	}
	return fmt.Sprintf("At least %s are needed; whether less than %s will do is not known", l.BoundText, l.Text)
}

// taking is which boards to take from where, those on hand first.
func taking(r job.Result, t job.TimberFacts) []block {
	if len(t.Stocks) < 2 {
		return nil
	}
	var rows [][]cell
	for _, s := range t.Stocks {
		who := strong(s.Name)
		if u := unusable(r, s.Spans); u != "" {
			who = append(who, quietLine(u))
		}
		had := "as many as wanted"
		if s.Limit > 0 {
			had = itoa(s.Limit)
		}
		from := "buy"
		if s.OnHand {
			from = "on hand"
		}
		cost := s.Cost
		if s.Used == 0 {
			cost = ""
		}
		rows = append(rows, []cell{bold(itoa(s.Used)), who, small(second(r.Job, s.Length)), small(from), small(had), small(s.Price), strong(cost)})
	}
	cols := []column{{"take", 11, true}, {"boards", 55, false}, {"", 20, true}, {"from", 15, false}, {"to be had", 29, false}, {"each", 20, true}, {"cost", 21, true}}
	return append([]block{heading("Boards to take", "on hand first, then what is bought", "")}, table(0, cols, rows)...)
}

// unusable says what of a board is sawn out.
func unusable(r job.Result, spans []job.SpanFacts) string {
	var out []string
	for _, s := range spans {
		out = append(out, fmt.Sprintf("saw out from %s to %s", first(r.Job, s.OutFrom), first(r.Job, s.OutTo)))
	}
	return strings.Join(out, "; ")
}

// cutList is the table of parts of one timber.
func cutList(r job.Result, t job.TimberFacts) []block {
	var rows [][]cell
	for _, k := range r.Kinds {
		if k.Timber != t.Name || k.Laid != t.Laid {
			continue
		}
		for _, p := range k.Parts {
			rows = append(rows, partRow(r, k, p, wantedOf(t, p.Mark)))
		}
	}
	for _, w := range t.Parts {
		if w.Kind == "" {
			rows = append(rows, pieceRow(r, w))
		}
	}
	if rows == nil {
		return nil
	}
	cols := []column{{"part", 13, false}, {"saw", 10, true}, {"long point", 25, true}, {"short point", 25, true},
		{"first end", 16, true}, {"second end", 17, true}, {"how it is sawn", 66, false}}
	return append([]block{heading("Cut list", "settings count from straight across", "")}, table(0, cols, rows)...)
}

// wantedOf is how often a part is sawn, and why.
func wantedOf(t job.TimberFacts, mark string) job.WantedFacts {
	for _, w := range t.Parts {
		if w.Mark == mark {
			return w
		}
	}
	return job.WantedFacts{}
}

// moreSays tells spare parts and those for spoilt ones from what is used.
func moreSays(w job.WantedFacts) string {
	if w.Saw == w.Need {
		return ""
	}
	out := []string{itoa(w.Need) + " to use"}
	if w.Spare > 0 {
		out = append(out, itoa(w.Spare)+" spare")
	}
	if w.Reject > 0 {
		out = append(out, itoa(w.Reject)+" in case of spoilt ones")
	}
	if w.Sawn > 0 {
		out = append(out, itoa(w.Sawn)+" sawn already")
	}
	if w.Spoilt > 0 {
		out = append(out, itoa(w.Spoilt)+" of them spoilt")
	}
	return strings.Join(out, ", ")
}

func partRow(r job.Result, k job.KindFacts, p job.PartFacts, w job.WantedFacts) []cell {
	saw := p.Count
	if w.Saw > 0 {
		saw = w.Saw
	}
	return []cell{bold(p.Mark), bold(itoa(saw)), over(first(r.Job, p.LongPoint), second(r.Job, p.LongPoint)),
		over(first(r.Job, p.ShortPoint), second(r.Job, p.ShortPoint)),
		bold(p.First.Setting.Text), bold(p.Second.Setting.Text), sawnHow(r, k, p, w)}
}

// pieceRow is something sawn that is no part of a frame.
func pieceRow(r job.Result, w job.WantedFacts) []cell {
	point := func(s job.Size) cell { return over(first(r.Job, s), second(r.Job, s)) }
	return []cell{bold(w.Mark), bold(itoa(w.Saw)), point(w.Long), point(w.Short), bold(w.First.Text), bold(w.Second.Text),
		append(small(w.Way), quietLine(joined("; ", w.What, moreSays(w))))}
}

// sawnHow is the way of sawing and all that is out of the ordinary.
func sawnHow(r job.Result, k job.KindFacts, p job.PartFacts, w job.WantedFacts) cell {
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
	if says := moreSays(w); says != "" {
		more = append(more, says)
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
