package packet

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// Boards on paper, mm.
const (
	boardLeft  = 4.0
	boardRight = 183.0
	boardHigh  = 6.8
)

const boardsTitle = "Boards to scale"

// boards draws each board of a timber, those sawn alike once.
func boards(r job.Result, t job.TimberFacts, entry string) []block {
	if len(t.Boards) == 0 {
		return nil
	}
	d := newBoardScale(t)
	out := []block{heading(boardsTitle, t.Name+", kerf "+first(r.Job, t.Kerf)+", hold "+first(r.Job, t.Hold), entry), para(boardsSay(r, t, d), fieldW, drawing.Text{})}
	out[1].keep = true
	for i, b := range t.Boards {
		out = append(out, boardBlock(r, t, b, d, i == len(t.Boards)-1))
	}
	return out
}

func boardsSay(r job.Result, t job.TimberFacts, d boardScale) string {
	s := fmt.Sprintf("Lengths are to scale along the middle of the board, its %s drawn %s as large.", depthWord(t), times(d.thick))
	if !t.Turning {
		s = "These boards have one good face and are not rolled. " + s
	}
	if len(r.Timber) > 0 && t.Name != r.Timber[0].Name {
		return s
	}
	if spanned(t) {
		s = "Black cannot be used; it is sawn out square with its margin first. " + s
	}
	return "Cut 0, hatched, takes the end off and is waste. Roll: the board turns over about its length, its end staying put. " +
		"Swap ends: it turns end for end. Neighbours with one line between them share a cut. " +
		"Every board ends on a part long enough to hold, or on a rest that is. " + s
}

// spanned says whether something of a board cannot be used.
func spanned(t job.TimberFacts) bool {
	for _, b := range t.Boards {
		if len(b.Spans) > 0 {
			return true
		}
	}
	return false
}

func depthWord(t job.TimberFacts) string {
	if t.Laid == "flat" {
		return "width"
	}
	return "thickness"
}

// times writes a scale in words short enough for a sentence.
func times(k float64) string {
	if k < 0.95 || k > 1.05 {
		return strings.TrimSuffix(fmt.Sprintf("%.1f", k), ".0") + " times"
	}
	return "just"
}

// A boardScale is how a timber's boards are drawn: page mm to a real mm along
// them, how much larger their depth is drawn, and how much larger the slants.
type boardScale struct{ along, thick, slant float64 }

// newBoardScale draws slants as large as thickness where there is room, and
// less where neighbouring ends of unlike slope would cross.
func newBoardScale(t job.TimberFacts) boardScale {
	l := max(t.Length.MM, 1)
	d := boardScale{along: (boardRight - boardLeft) / (l * 1.006)}
	depth := t.Thickness.MM
	if t.Laid == "flat" {
		depth = t.Width.MM
	}
	d.thick = boardHigh / (max(depth, 1) * d.along)
	d.slant = d.thick
	for _, b := range t.Boards {
		l := max(longOf(t, b), 1)
		for i, p := range b.Parts {
			if i > 0 && p.Clear == b.Parts[i-1].Clear {
				q := b.Parts[i-1]
				if turn := abs(q.RightSlope-p.LeftSlope) / 2; turn > 1e-6 {
					d.slant = min(d.slant, max(1, (p.Start-q.End)/turn))
				}
			}
			// Nor may a part's own two slants meet, or pass far beyond the board.
			d.slant = min(d.slant, d.overhang(p.LeftSlope, p.Start), d.overhang(p.RightSlope, l-p.End))
			if own := (abs(p.LeftSlope) + abs(p.RightSlope)) / 2; own > 1e-6 {
				d.slant = min(d.slant, max(1, (p.End-p.Start)/own))
			}
		}
	}
	return d
}

// overhang is how much larger a slant may be drawn at a distance from the
// board's end and still stay in the field.
func (d boardScale) overhang(slope, from float64) float64 {
	if half := abs(slope) / 2; half > 1e-6 {
		return max(1, (from+(boardLeft-0.5)/d.along)/half)
	}
	return math.Inf(1)
}

func (d boardScale) x(mm float64) float64 { return boardLeft + 0.5 + mm*d.along }

// slanted is a part's outline at a height on the page.
func (d boardScale) slanted(p job.SawnFacts, y float64) []drawing.Point {
	l, r := p.LeftSlope*d.slant*d.along/2, p.RightSlope*d.slant*d.along/2
	return []drawing.Point{drawing.Pt(d.x(p.Start)-l, y+boardHigh), drawing.Pt(d.x(p.End)-r, y+boardHigh),
		drawing.Pt(d.x(p.End)+r, y), drawing.Pt(d.x(p.Start)+l, y)}
}

// boardBlock is one board, or several alike: boxes to tick, what is in it, the
// board itself, a ruler, and how it is turned.
func boardBlock(r job.Result, t job.TimberFacts, b job.BoardFacts, d boardScale, ruler bool) block {
	left := fitted(drawing.Label(drawing.Point{}, drawing.Body, restSays(r, b)).RightAligned(), 60, drawing.Small)
	x, under := float64(len(b.Numbers))*boxStep+1.4, 0.0
	if len(b.Numbers) > mostBoxes { // then they stand in rows of their own
		x, under = 0, math.Ceil(float64(len(b.Numbers))/rowBoxes)*boxStep
	}
	name := fitted(drawing.Label(drawing.Point{}, drawing.Lead, boardName(t, b)).Bold(), fieldW-x-left.Width()-3, drawing.Small)
	says, sum := turnsSay(r, b), drawing.Label(drawing.Point{}, drawing.Body, crossed(b.Summary))
	if x+name.Width()+3+sum.Width() > fieldW-left.Width()-3 {
		says, sum.Spans = crossed(b.Summary)+". "+says, nil
	}
	lines := wrap(says, drawing.Regular, drawing.Small, fieldW)
	figures := 0.0
	if ruler {
		figures = 3.6
	}
	top := drawing.BoxMM + 2 + under // of the board
	h := top + boardHigh + 2.6 + figures + leading(drawing.Small)*float64(len(lines)) + 1
	return block{h: h, gap: 3.4, twins: boardTwins(r, t, b, d), draw: func(s *sheet, y float64) {
		s.boxes(y, len(b.Numbers))
		for _, w := range []struct {
			t drawing.Text
			x float64
		}{{left, fieldW}, {name, x}, {sum, x + name.Width() + 3}} {
			w.t.At = drawing.Pt(w.x, y+4.1)
			s.say(w.t)
		}
		d.board(s, r, t, b, y+top)
		at := y + top + boardHigh + 2.6
		if ruler {
			d.figures(s, r, longOf(t, b), at-1.2)
		}
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(0, at+figures+2.8+leading(drawing.Small)*float64(i)), drawing.Small, l))
		}
	}}
}

// boardTwins are the same for screens: its name with what is left, what is in it
// in the order it is sawn, its picture, and a box for each of the boards.
func boardTwins(r job.Result, t job.TimberFacts, b job.BoardFacts, d boardScale) []twin {
	var labels, marks []string
	for _, n := range b.Numbers {
		labels = append(labels, "Board "+itoa(n))
	}
	for _, p := range b.Parts {
		marks = append(marks, p.Mark)
	}
	alt := "The board to scale, from its trimmed end: parts " + strings.Join(marks, ", ") + "; then " + restSays(r, b) + "."
	if u := unusable(r, b.Spans); u != "" {
		alt += " " + sentence(u)
	}
	return []twin{
		webLead(boardName(t, b), joined(", ", crossed(b.Summary), restSays(r, b))),
		webPicture(alt, fieldW, boardHigh+8, func(s *sheet) {
			d.board(s, r, t, b, 1)
			d.figures(s, r, longOf(t, b), boardHigh+2.4)
		}),
		webPara(turnsSay(r, b)), webTicks(joined(", ", "Sawn: "+boardName(t, b), t.Name, "laid "+t.Laid), labels...)}
}

// boxes are one box to tick for each of n boards alike.
func (s *sheet) boxes(y float64, n int) {
	for i := range n {
		at := drawing.Pt(float64(i)*boxStep, y)
		if n > mostBoxes {
			at = drawing.Pt(float64(i%rowBoxes)*boxStep, y+float64(1+i/rowBoxes)*boxStep)
		}
		s.add(drawing.TickBox(at))
	}
}

// crossed writes a count of parts with the multiplication sign: 6 × B.
func crossed(s string) string { return strings.ReplaceAll(s, " x ", " × ") }

// boxStep is from one box to tick to the next, mm.
const boxStep = drawing.BoxMM + 0.8

// mostBoxes is how many boxes to tick stand before a row of alike boards; more
// would leave no room for its name, and stand below it, rowBoxes to a row.
const (
	mostBoxes = 12
	rowBoxes  = 31
)

// numbersSay names the boards: 3, 3 to 7, or 3, 5 and 9.
func numbersSay(ns []int) string {
	switch len(ns) {
	case 0:
		return "Board"
	case 1:
		return "Board " + itoa(ns[0])
	}
	return "Boards " + numbersList(ns) + ", all alike"
}

// numbersList writes numbers: 3, 3 to 7, or 3, 5 and 9.
func numbersList(ns []int) string {
	ns = append([]int(nil), ns...)
	sort.Ints(ns)
	switch n := len(ns); {
	case n == 0:
		return ""
	case n == 1:
		return itoa(ns[0])
	case n > 2 && ns[n-1]-ns[0] == n-1:
		return fmt.Sprintf("%d to %d", ns[0], ns[n-1])
	}
	var ws []string
	for _, v := range ns[:len(ns)-1] {
		ws = append(ws, itoa(v))
	}
	return fmt.Sprintf("%s and %d", strings.Join(ws, ", "), ns[len(ns)-1])
}

// boardName is a board's number, and which length it is of where there are
// several.
func boardName(t job.TimberFacts, b job.BoardFacts) string {
	name := numbersSay(b.Numbers)
	if len(t.Stocks) > 1 {
		name += ", " + b.Stock
	}
	if b.Changed {
		name += ", changed"
	}
	return name
}

// longOf is how long a board is, mm: its own length, or its timber's.
func longOf(t job.TimberFacts, b job.BoardFacts) float64 {
	if b.Length.MM > 0 {
		return b.Length.MM
	}
	return t.Length.MM
}

func restSays(r job.Result, b job.BoardFacts) string {
	switch {
	case b.Keep:
		s := "keep " + first(r.Job, b.Offcut)
		for _, more := range b.More {
			s += " and " + first(r.Job, more)
		}
		return s
	case b.Offcut.MM > 0:
		return "left " + first(r.Job, b.Offcut)
	}
	return "nothing left"
}

// turnsSay is what to do after each cut, runs of the same said once, and what
// is held at the last.
func turnsSay(r job.Result, b job.BoardFacts) string {
	var out []string
	for i := 0; i < len(b.Parts); {
		j := i
		for j < len(b.Parts) && b.Parts[j].Turn == b.Parts[i].Turn {
			j++
		}
		if turn := b.Parts[i].Turn; turn != "" && turn != "none" {
			which := "after cut " + itoa(i+1)
			if j > i+1 {
				which = fmt.Sprintf("after cuts %d to %d", i+1, j)
			}
			out = append(out, which+" "+turn)
		}
		i = j
	}
	s := "No turning."
	if len(out) > 0 {
		s = sentence(strings.Join(out, "; "))
	}
	if b.TurnFirst != "" {
		s = "First " + b.TurnFirst + ". " + s
	}
	if u := unusable(r, b.Spans); u != "" {
		s = sentence(u+", square") + " " + s
	}
	if b.Exact {
		s = "Its last part reaches the very end: measure the board first. " + s
	}
	if n := len(b.Parts); n > 0 {
		last := b.Parts[n-1]
		held := "the rest of the board"
		if last.Held == "part" {
			held = "part " + last.Mark
		}
		s += " At the last cut hold " + held + ", " + both(r.Job, last.HeldLength) + " on its shorter face."
	}
	return s
}

// board draws one board: waste hatched, parts white, each with its mark.
func (d boardScale) board(s *sheet, r job.Result, t job.TimberFacts, b job.BoardFacts, y float64) {
	x0, x1 := d.x(0), d.x(longOf(t, b))
	for _, p := range b.Parts {
		for _, q := range d.slanted(p, y) {
			x0, x1 = min(x0, q.X), max(x1, q.X)
		}
	}
	s.add(drawing.Rect(drawing.PenEdge, drawing.Hatched(drawing.Waste), x0, y, x1-x0, boardHigh))
	end := x0
	for _, p := range b.Parts {
		q := d.slanted(p, y)
		s.add(drawing.Polygon(drawing.PenEdge, drawing.White, q...))
		end = max(q[1].X, q[2].X)
		mid, w := (d.x(p.Start)+d.x(p.End))/2, (p.End-p.Start)*d.along
		if m := drawing.Label(drawing.Pt(mid, y+boardHigh/2+capHeight(drawing.Small)/2), drawing.Small, p.Mark).Bold().Centred(); m.Width() < w-0.5 {
			s.say(m)
		}
	}
	for _, u := range b.Spans { // black: sawn out, whatever the hatching says
		from, to := d.x(u.OutFrom.MM), d.x(u.OutTo.MM)
		s.add(drawing.Rect(drawing.PenEdge, drawing.Hatched(drawing.Lattice), from, y, to-from, boardHigh),
			drawing.Rect(drawing.Pen{}, drawing.Black, d.x(u.From.MM), y, max(d.x(u.To.MM)-d.x(u.From.MM), 0.6), boardHigh))
	}
	if room := x1 - end; b.Keep && len(b.Spans) == 0 && room > 12 {
		words := fitted(drawing.Label(drawing.Pt((end+x1)/2, y+boardHigh/2+1.2), drawing.Small, "keep").Centred(), room-4, drawing.Small)
		s.add(drawing.Rect(drawing.Pen{}, drawing.White, words.At.X-words.Width()/2-1, y+1, words.Width()+2, boardHigh-2))
		s.say(words)
	}
	d.ticks(s, r, longOf(t, b), y+boardHigh)
}

// division is the step of the ruler under a board and how many small ones it
// has.
func division(r job.Result) (step float64, small int, unit string) {
	if r.Job.Show == "metric" {
		return 500, 5, "m"
	}
	return 304.8, 2, "ft"
}

func (d boardScale) ticks(s *sheet, r job.Result, long, y float64) {
	step, small, _ := division(r)
	for i := 0; float64(i)*step/float64(small) <= long+0.5; i++ {
		h := 0.8
		if i%small == 0 {
			h = 1.7
		}
		x := d.x(float64(i) * step / float64(small))
		s.line(drawing.PenDimension, x, y, x, y+h)
	}
}

// figures writes the ruler's figures, under the last board.
func (d boardScale) figures(s *sheet, r job.Result, long, y float64) {
	step, _, unit := division(r)
	free := -1e9
	for i := 0; float64(i)*step <= long+0.5; i++ {
		f := itoa(i)
		if unit == "m" {
			f = strings.TrimSuffix(fmt.Sprintf("%.1f", float64(i)/2), ".0")
		}
		if i == 0 {
			f += " " + unit
		}
		x := d.x(float64(i) * step)
		w := drawing.Width(f, drawing.Regular, drawing.Small)
		if x-w/2 < free {
			continue
		}
		free = x + w/2 + 1
		s.say(drawing.Label(drawing.Pt(min(max(x, w/2), fieldW-w/2), y+3), drawing.Small, f).Centred())
	}
}
