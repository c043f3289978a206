package packet

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// cardEntry begins every bench card's line in the contents.
const cardEntry = "Bench card "

// A task is one part of a kind with its stop: what the card is about.
type task struct {
	part job.PartFacts
	stop job.StopFacts
	turn string // what is done to the board after most of its cuts
}

// benchCard is what hangs at the saw while one kind is sawn: folded once, its
// face shows saw, stop, count and picture.
func benchCard(b *book, r job.Result, k job.KindFacts) {
	ts := tasks(r, k)
	if len(ts) == 0 {
		return
	}
	t, _ := timberOf(r, k.Timber)
	p := paper{title: k.Letter + ", " + k.Title, entry: cardEntry + k.Letter + ", " + k.Title,
		right: [2]string{"Bench card, make " + itoa(k.Make), stockWords(r, k, t)}}
	p.blocks = card(r, k, ts)
	b.flow(p)
}

// A form is one way to lay out a card.
type form struct {
	per      int  // tick-offs to a row
	measures int  // of the frame, at most
	onFace   bool // the pictures stand above the words
	pictures int  // at most
}

// card takes the roomiest form that fits one page; when none does, the pictures
// go below the words and the card runs on.
func card(r job.Result, k job.KindFacts, ts []task) []block {
	const full = bodyFoot - bodyTop
	all := len(ts)
	for _, f := range []form{{tickRow, mostSizes, true, all}, {2 * tickRow, mostSizes, true, all}, {2 * tickRow, fewSizes, true, all}} {
		if bs := cardBlocks(r, k, ts, f); height(bs) <= full {
			return bs
		}
	}
	f := form{tickRow, mostSizes, one(ts), all}
	if totalOf(ts) > tickMany {
		f.per *= 2
	}
	bs := cardBlocks(r, k, ts, f)
	// Pictures are left out from the last on while that saves a page: what they
	// show stands in the table too.
	for n := all - 1; n > 1; n-- {
		f.pictures = n
		fewer := cardBlocks(r, k, ts, f)
		if math.Ceil(height(fewer)/full) < math.Ceil((height(bs)+picHigh)/full) {
			return fewer
		}
	}
	return bs
}

// cardBlocks are a card from its figures to the last box to tick.
func cardBlocks(r job.Result, k job.KindFacts, ts []task, f form) []block {
	var face, pictures []block
	if one(ts) {
		face = append(face, threeFigures(r, ts[0]))
	} else {
		face = append(face, stopsTable(r, ts)...)
	}
	shown := unlike(ts)
	for _, x := range shown[:min(len(shown), f.pictures)] {
		pictures = append(pictures, fencePicture(r, x, len(ts) > 1))
	}
	words := []block{strip(), orderAndMeasures(r, k, ts, f.measures)}
	for _, x := range ts {
		if x.part.Rough != nil {
			words = append(words, wayOut(r, x))
		}
	}
	if f.onFace {
		face = append(append(face, pictures...), words...)
	} else {
		face = append(append(face, words...), pictures...)
	}
	return append(append(face, tickOffs(ts, f.per)...), glued(r, k)...)
}

// unlike leaves out parts whose picture would be that of an earlier one: the
// same two settings, whichever end comes first.
func unlike(ts []task) []task {
	var out []task
	seen := map[[3]string]bool{}
	for _, t := range ts {
		key := [3]string{t.stop.First.Text, t.stop.Second.Text, t.turn}
		turned := [3]string{key[1], key[0], t.turn}
		if !seen[key] && !seen[turned] {
			seen[key] = true
			out = append(out, t)
		}
	}
	return out
}

func totalOf(ts []task) int {
	n := 0
	for _, t := range ts {
		n += t.part.Count
	}
	return n
}

func stockWords(r job.Result, k job.KindFacts, t job.TimberFacts) string {
	return joined(" ", k.Timber, "laid", k.Laid+",", first(r.Job, t.Thickness), "×", first(r.Job, t.Width))
}

// one says whether a card needs only three figures: one part, both ends alike.
func one(ts []task) bool {
	return len(ts) == 1 && ts[0].part.First.Setting == ts[0].part.Second.Setting
}

// tasks are a kind's parts in bench order, shortest stop first, as the timber's
// stops stand; a part without a stop comes last.
func tasks(r job.Result, k job.KindFacts) []task {
	t, _ := timberOf(r, k.Timber)
	var ts []task
	done := map[string]bool{}
	for _, s := range t.Stops {
		for _, p := range k.Parts {
			if p.Mark == s.Part && !done[p.Mark] {
				done[p.Mark] = true
				ts = append(ts, task{p, s, turnOf(t, p.Mark)})
			}
		}
	}
	for _, p := range k.Parts {
		if !done[p.Mark] {
			ts = append(ts, task{p, job.StopFacts{Part: p.Mark, Stop: p.LongPoint, Point: "long point", Count: p.Count,
				First: p.First.Setting, Second: p.Second.Setting}, turnOf(t, p.Mark)})
		}
	}
	return ts
}

// turnOf is the commonest turn of the board after a cut of a part; ties go to
// the one met first.
func turnOf(t job.TimberFacts, mark string) string {
	count := map[string]int{}
	best := ""
	for _, b := range t.Boards {
		for _, p := range b.Parts {
			if p.Mark == mark && p.Turn != "" {
				if count[p.Turn] += len(b.Numbers); count[p.Turn] > count[best] {
					best = p.Turn
				}
			}
		}
	}
	return best
}

// verb is what one does to the saw for a part.
func verb(p job.PartFacts) string {
	switch {
	case p.Rough != nil:
		return "Set saw to"
	case strings.Contains(p.First.Way, "tilted"):
		return "Tilt saw to"
	case strings.Contains(p.First.Way, "swung"):
		return "Swing saw to"
	}
	return "Set saw to"
}

// leans says which way a negative setting goes: the inside is the longer face.
func leans(a job.Angle) string {
	if a.Degrees < 0 {
		return ", inside longer"
	}
	return ""
}

// threeFigures are the setting, the stop and the count, read at a metre.
func threeFigures(r job.Result, t task) block {
	figure, unit := split(first(r.Job, t.stop.Stop))
	cells := [3]struct {
		w                    float64
		over, big, unit, sub string
	}{
		{56, verb(t.part), unsigned(t.stop.First), "", "from straight across" + leans(t.stop.First)},
		{79, "Stop at", figure, unit, t.stop.Point + " · " + second(r.Job, t.stop.Stop)},
		{52, "Saw", itoa(t.part.Count), "", itoa(t.part.PerFrame) + " to a frame, all alike"},
	}
	const h = 37.0
	return block{h: h + 1.5, draw: func(s *sheet, y float64) {
		x := 0.0
		for i, c := range cells {
			left := x
			if i > 0 {
				s.line(drawing.PenRule, x, y, x, y+h)
				left += 5
			}
			w := x + c.w - left - 3
			s.say(drawing.Label(drawing.Pt(left, y+4.6), drawing.Lead, c.over))
			bigFigure(s, left, y+27, w, c.big, c.unit)
			s.say(fitted(drawing.Label(drawing.Pt(left, y+34), drawing.Lead, c.sub), w, drawing.Small))
			x += c.w
		}
		s.line(drawing.PenHeadRule, 0, y+h, fieldW, y+h)
	}}
}

// bigFigure sets a figure as large as fits, its unit beside it at half the
// size.
func bigFigure(s *sheet, x, y, w float64, figure, unit string) {
	pt := drawing.Saw
	t := drawing.LabelOf(drawing.Pt(x, y), pt, drawing.B(figure))
	line := func(pt float64) drawing.Text {
		t := drawing.LabelOf(drawing.Pt(x-pt*0.02, y), pt, drawing.B(figure))
		if unit != "" {
			t.Spans = append(t.Spans, drawing.Span{S: " " + unit, Font: drawing.Bold, Size: pt * 0.45})
		}
		return t
	}
	for t = line(pt); t.Width() > w && pt > drawing.Figure; t = line(pt) {
		pt *= 0.97
	}
	s.say(t)
}

// stopsTable is the stops of a kind with several parts, in bench order.
func stopsTable(r job.Result, ts []task) []block {
	const h = 14.5
	cols := []struct {
		x     float64
		title string
	}{{0, "part"}, {52, "first end"}, {78, "second end"}, {106, "stop at"}, {163, "saw"}}
	head := block{h: 6, keep: true, draw: func(s *sheet, y float64) {
		for _, c := range cols {
			s.say(drawing.Label(drawing.Pt(c.x, y+3.6), drawing.Small, c.title).Quiet())
		}
		s.line(drawing.PenRule, 0, y+5.6, fieldW, y+5.6)
	}}
	out := []block{head}
	for _, t := range ts {
		out = append(out, block{h: h, again: &head, draw: func(s *sheet, y float64) {
			base := y + 8.2
			s.say(fitted(drawing.Label(drawing.Pt(0, base), drawing.Figure, t.part.Mark).Bold(), 18, drawing.Small))
			s.part(box{19, y + 3, 48, y + 9}, t.part)
			s.say(fitted(drawing.Label(drawing.Pt(0, y+12.6), drawing.Small, joined(", ", sides(t.part), t.part.Hand)).Quiet(), 50, drawing.Small))
			for i, a := range []job.Angle{t.stop.First, t.stop.Second} {
				x := cols[1+i].x
				s.say(fitted(drawing.Label(drawing.Pt(x, base), drawing.Figure, a.Text).Bold(), 25, drawing.Small))
			}
			s.say(fitted(drawing.Label(drawing.Pt(52, y+12.6), drawing.Small, verbLow(t.part)).Quiet(), 52, drawing.Small))
			s.say(fitted(drawing.Label(drawing.Pt(106, base), drawing.Title, first(r.Job, t.stop.Stop)).Bold(), 54, drawing.Small))
			s.say(fitted(drawing.Label(drawing.Pt(106, y+12.6), drawing.Small, t.stop.Point+" · "+second(r.Job, t.stop.Stop)).Quiet(), 54, drawing.Small))
			s.say(fitted(drawing.Label(drawing.Pt(163, base), drawing.Title, itoa(t.part.Count)).Bold(), 24, drawing.Small))
			s.line(drawing.PenHair, 0, y+h-0.6, fieldW, y+h-0.6)
		}})
	}
	return out
}

func verbLow(p job.PartFacts) string {
	if p.Rough != nil {
		return "square, then see below"
	}
	return way(p)
}

// part draws a part true in its angles in a box, its outside face below.
func (s *sheet) part(b box, p job.PartFacts) {
	l, r := slants(p, b.y1-b.y0)
	s.add(drawing.Polygon(drawing.PenEdge, drawing.White, trapezoid(b.x0, b.x1, b.y0, b.y1, l, r, false)...))
}

// slants are how far a part's ends lean over a depth on the page, signed as
// the settings are.
func slants(p job.PartFacts, depth float64) (l, r float64) {
	if p.Rough != nil {
		return 0, 0
	}
	return depth * tanDeg(p.First.Setting.Degrees), depth * tanDeg(p.Second.Setting.Degrees)
}

// trapezoid is a part between x0 and x1 with its outside face at the foot, or
// at the top when up; l and r lean its ends inward on the other face.
func trapezoid(x0, x1, y0, y1, l, r float64, up bool) []drawing.Point {
	// A long lean is taken back so that the part stays a part on paper.
	if most := (x1 - x0) * 0.8; l+r > most {
		l, r = l*most/(l+r), r*most/(l+r)
	}
	lo, hi := y1, y0
	if up {
		lo, hi = y0, y1
	}
	out := [2]float64{x0, x1}
	if l < 0 {
		out[0] -= l
		l = -l
		return []drawing.Point{drawing.Pt(out[0], lo), drawing.Pt(x1-max(0, -r), lo), drawing.Pt(x1-max(0, r), hi), drawing.Pt(x0, hi)}
	}
	return []drawing.Point{drawing.Pt(x0, lo), drawing.Pt(x1-max(0, -r), lo), drawing.Pt(x1-max(0, r), hi), drawing.Pt(x0+l, hi)}
}

// stripWords hang on every card, beside the saw maker's own instructions.
const stripWords = "No gloves, loose sleeves or cords. Mask, eyes, ears. Blade stopped before it is raised or cleared. " +
	"No part trapped between stop and blade. Phone or paper is read with the blade stopped."

// strip is the boxed line of cautions.
func strip() block {
	const x = 29.0
	lines := wrap(stripWords, drawing.Medium, drawing.Small, fieldW-x-3)
	h := leading(drawing.Small)*float64(len(lines)) + 3
	return block{h: h, gap: 1, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenRule, drawing.White, 0, y, fieldW, h), drawing.Rect(drawing.Pen{}, drawing.Black, 0, y, x-3, h))
		s.say(drawing.Label(drawing.Pt((x-3)/2, y+h/2+1.4), drawing.Body, "At the saw").Bold().Centred().In(drawing.OnChalk))
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(x, y+4.5+leading(drawing.Small)*float64(i)), drawing.Small, l).Medium())
		}
	}}
}

// Two columns below the picture, mm.
const (
	orderWide = 92.0
	orderGap  = 7.0
	stepIn    = 8.0
	stepGap   = 1.3
	sideHigh  = 40.0 // of the picture that says which side is which
)

// orderAndMeasures are the two columns below the picture: what to do in what
// order, and what the parts and the frame measure when they are right.
func orderAndMeasures(r job.Result, k job.KindFacts, ts []task, measures int) block {
	left := orderColumn(r, k, ts)
	right := measureColumn(r, k, ts, measures)
	if len(ts) > 1 { // which side is which goes below the shorter column
		if height(left) < height(right) {
			left = append(left, sidesBlock(k, stepIn, orderWide))
		} else {
			right = append(right, sidesBlock(k, orderWide+orderGap, fieldW))
		}
	}
	return block{h: max(height(left), height(right)), gap: 4, draw: func(s *sheet, y float64) {
		for _, c := range [][]block{left, right} {
			at := y
			for _, b := range c {
				at += b.gap
				b.draw(s, at)
				at += b.h
			}
		}
	}}
}

func columnTitle(x float64, words string) block {
	return block{h: 7, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(x, y+4), drawing.Lead, words).Bold())
	}}
}

func orderColumn(r job.Result, k job.KindFacts, ts []task) []block {
	out := []block{columnTitle(0, "In this order")}
	for i, st := range stepsFor(r, k, ts) {
		lines := wrap(st, drawing.Regular, drawing.Body, orderWide-stepIn)
		out = append(out, block{h: leading(drawing.Body)*float64(len(lines)) + stepGap, draw: func(s *sheet, y float64) {
			s.say(drawing.Label(drawing.Pt(0, y+4), drawing.Lead, itoa(i+1)).Bold())
			for j, l := range lines {
				s.say(drawing.Label(drawing.Pt(stepIn, y+4+leading(drawing.Body)*float64(j)), drawing.Body, l))
			}
		}})
	}
	return out
}

func sidesBlock(k job.KindFacts, x0, x1 float64) block {
	return block{h: sideHigh, gap: 2, draw: func(s *sheet, y float64) {
		whichSide(s, box{x0, y, x1, y + sideHigh - 2}, k)
	}}
}

func measureColumn(r job.Result, k job.KindFacts, ts []task, measures int) []block {
	x := orderWide + orderGap
	out := []block{columnTitle(x, "Right when it measures")}
	rows := table(x, []column{{"", 44, false}, {"", fieldW - x - 44 - colGap, true}}, measureRows(r, k, ts, measures))[1:]
	out = append(out, rows...)
	note := wrap(errorSays(r, k), drawing.Regular, drawing.Body, fieldW-x-4)
	h := leading(drawing.Body) * float64(len(note))
	return append(out, block{h: h + 1, gap: 2.5, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.Pen{}, drawing.Black, x, y, 1.2, h))
		for i, l := range note {
			s.say(drawing.Label(drawing.Pt(x+4, y+3.7+leading(drawing.Body)*float64(i)), drawing.Body, l))
		}
	}})
}

// whichSide draws the frame small, each side with its number and the mark of
// its part.
func whichSide(s *sheet, b box, k job.KindFacts) {
	e := job.Result{Overall: job.Overall{Width: extentSize(k.Outside, 0), Height: extentSize(k.Outside, 1)}}
	v := viewIn(e, b, false)
	lo := lowest(k.Outside)
	shifted := func(ps []job.XY) []drawing.Point {
		out := make([]drawing.Point, len(ps))
		for i, p := range ps {
			out[i] = v.at(job.XY{p[0] - lo[0], p[1] - lo[1]})
		}
		return out
	}
	p := placed{f: job.FrameFacts{Open: k.Open}, out: shifted(k.Outside), in: shifted(k.Inside)}
	p.boards(s)
	pl := newPlacer(box{b.x0 - 6, b.y0 - 4, b.x1 + 6, b.y1 + 4})
	p.block(pl)
	for _, q := range k.Parts {
		for _, n := range q.Sides {
			sideMark(s, pl, p, n, q.Mark)
		}
	}
}

// sideMark writes a side's number and part inside the frame, or outside it
// where that is full.
func sideMark(s *sheet, pl *placer, p placed, n int, mark string) {
	if n < 1 || n > len(p.out) {
		return
	}
	a, b := p.out[n-1], p.out[n%len(p.out)]
	u := b.Sub(a).Unit()
	for _, words := range []string{mark, itoa(n)} {
		w, h := drawing.Width(words, drawing.Bold, drawing.Small), capHeight(drawing.Small)
		for _, sign := range []float64{-1, 1} { // page y runs down: the inside is on the right hand
			nrm := u.Perp().Mul(sign)
			reach := (w*abs(nrm.X) + h*abs(nrm.Y)) / 2
			c, ok := pl.seat(alongSeam, func(t, d float64) box {
				return around(a.Lerp(b, t).Add(nrm.Mul(reach+0.8+d)), w, h).grown(0.3)
			})
			if ok {
				pl.take(c)
				s.say(drawing.Label(drawing.Pt((c.x0+c.x1)/2, c.y1-0.3), drawing.Small, words).Bold().Centred())
				return
			}
		}
	}
}

func lowest(ps []job.XY) job.XY {
	lo := job.XY{math.Inf(1), math.Inf(1)}
	for _, p := range ps {
		lo = job.XY{min(lo[0], p[0]), min(lo[1], p[1])}
	}
	return lo
}

// extentSize is how far an outline reaches along an axis, for a picture's scale
// only: it is not printed.
func extentSize(ps []job.XY, axis int) job.Size {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		lo, hi = min(lo, p[axis]), max(hi, p[axis])
	}
	return job.Size{MM: hi - lo}
}

// turns says whether a turn is one: "" and "none" are not.
func turns(s string) bool { return s != "" && s != "none" }

// stepsFor is the order of work, in the card's words, figures from the Result.
func stepsFor(r job.Result, k job.KindFacts, ts []task) []string {
	var out []string
	for _, c := range r.Tests {
		if c.Kind == k.Name {
			out = append(out, fmt.Sprintf("Test corner first: two arms of scrap, %s outside, close to %s from tip to tip.",
				first(r.Job, c.Arms), first(r.Job, c.Across)))
		}
	}
	out = append(out, "Cut 0 takes the board's end off at the first setting: that is waste.")
	set := "Set the stop, tooth to stop, " + ts[0].stop.Point + " touching"
	if f := ts[0].stop.Face; f != "" {
		set += " (" + f + ")"
	}
	out = append(out, set+". Saw one and measure it.")
	if len(ts) > 1 {
		out = append(out, "Shortest stop first, in the order of the table; a board ends on a part long enough to hold.")
	}
	for i, x := range ts {
		if i > 0 && (x.turn == ts[0].turn || x.turn == "") {
			continue
		}
		what := "Saw, push up to the stop, saw again"
		if turns(x.turn) {
			what = "Saw, then " + x.turn + ", push up to the stop, saw again"
		}
		if len(ts) > 1 && i > 0 {
			what = x.part.Mark + ": " + strings.ToLower(what[:1]) + what[1:]
		}
		out = append(out, what+".")
	}
	if leansOut(ts) {
		out = append(out, "A minus sign: the saw leans the other way, so that the inside is longer at that end.")
	}
	if h := ts[0].stop.Held; h != "" {
		out = append(out, sentence(h))
	}
	return append(out, fmt.Sprintf("Lay %s dry on a flat bench before any glue.", plural(partsOf(k), "part")))
}

func leansOut(ts []task) bool {
	for _, t := range ts {
		if t.part.First.Setting.Degrees < 0 || t.part.Second.Setting.Degrees < 0 {
			return true
		}
	}
	return false
}

func partsOf(k job.KindFacts) int {
	n := 0
	for _, p := range k.Parts {
		n += p.PerFrame
	}
	return n
}

// measureRows are the built sizes of the frame and the short points of its
// parts.
func measureRows(r job.Result, k job.KindFacts, ts []task, most int) [][]cell {
	var rows [][]cell
	row := func(name string, z job.Size) {
		rows = append(rows, []cell{text(name), pair(first(r.Job, z), second(r.Job, z))})
	}
	for _, n := range k.Sizes[:min(len(k.Sizes), most)] {
		row(n.Name, n.Built)
	}
	for _, t := range ts[:min(len(ts), mostShort)] {
		row("short point of "+t.part.Mark, t.part.ShortPoint)
	}
	return rows
}

// How many measures a card has room for; all of them are in the list of sizes.
const (
	mostSizes = 5
	fewSizes  = 3
	mostShort = 4
)

// errorSays is what a saw out of true does to this kind, and how it closes.
func errorSays(r job.Result, k job.KindFacts) string {
	e := k.SawError
	s := ""
	if k.Closes != "" {
		s = sentence(k.Closes) + " "
	}
	if e.Error.Text == "" {
		return s
	}
	what := "opens the last joint " + both(r.Job, e.LastGap) + ": " + e.TooSteep + " if too steep, " + e.TooShallow + " if too shallow"
	if e.Open {
		what = "turns the feet out of the floor's plane: they stand on an edge"
	}
	return s + fmt.Sprintf("A saw out by %s a cut %s. For %s it must be true to %s a cut.",
		e.Error.Text, what, first(r.Job, r.Job.Tolerance), e.TrueTo.Text)
}

// wayOut is the panel for a part that the saw cannot reach.
func wayOut(r job.Result, t task) block {
	blocks := ""
	for i, a := range t.part.Block {
		if a.Text == "" {
			continue
		}
		blocks += fmt.Sprintf(" Block at the %s end: %s.", [2]string{"first", "second"}[min(i, 1)], a.Text)
	}
	words := fmt.Sprintf("%s: beyond the saw's reach. Square to %s first.%s %s", t.part.Mark, both(r.Job, *t.part.Rough), blocks, sentence(t.part.WayOut))
	lines := wrap(words, drawing.Medium, drawing.Body, fieldW-10)
	h := leading(drawing.Body)*float64(len(lines)) + 5
	return block{h: h, gap: 3, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenRule, drawing.White, 0, y, fieldW, h))
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(5, y+6+leading(drawing.Body)*float64(i)), drawing.Body, l).Medium())
		}
	}}
}

// Tick-offs: twelve to a row, and four and twenty when there are many.
const (
	tickRow   = 12
	tickMany  = 36
	tickHigh  = 5.6
	tickGap   = 1.2
	tickEvery = 6
)

// A slot is one place in the rows of tick-offs: a part to strike through, or
// the mark of the parts that follow.
type slot struct {
	part job.PartFacts
	n    int // 1..; 0 is the mark
}

// tickOffs are the parts as shapes to strike through, every sixth numbered.
func tickOffs(ts []task, per int) []block {
	var slots []slot
	for _, t := range ts {
		if len(ts) > 1 {
			slots = append(slots, slot{t.part, 0})
		}
		for i := range t.part.Count {
			slots = append(slots, slot{t.part, i + 1})
		}
	}
	out := []block{{h: 6, gap: 3, keep: true, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(0, y+4), drawing.Lead, "Sawn").Bold())
		s.say(drawing.Label(drawing.Pt(fieldW, y+4), drawing.Small, "strike through as you go").RightAligned().Quiet())
	}}}
	for len(slots) > 0 {
		row := slots[:min(per, len(slots))]
		slots = slots[len(row):]
		out = append(out, block{h: tickHigh + tickGap, draw: func(s *sheet, y float64) {
			for i, sl := range row {
				w := fieldW / float64(per)
				sl.draw(s, float64(i)*w, y, w)
			}
		}})
	}
	return out
}

// draw puts a slot at a place; parts are turned one by one, as they lie in the
// board.
func (sl slot) draw(s *sheet, x, y, w float64) {
	if sl.n == 0 {
		s.say(fitted(drawing.Label(drawing.Pt(x+w-1.6, y+tickHigh-1.4), drawing.Body, sl.part.Mark).Bold().RightAligned(), w-2, drawing.Small))
		return
	}
	lean := min(w*0.16, 2.2)
	if sl.part.Rough != nil || sl.part.First.Setting.Degrees == 0 && sl.part.Second.Setting.Degrees == 0 {
		lean = 0
	}
	q := trapezoid(x+0.3-lean/2, x+w-0.6+lean/2, y, y+tickHigh, lean, lean, sl.n%2 == 1)
	q = clipped(q, 0, fieldW)
	s.add(drawing.Polygon(drawing.PenEdge, drawing.White, q...))
	if sl.n%tickEvery == 0 {
		s.say(drawing.Label(drawing.Pt(x+w/2, y+tickHigh/2+1.15), drawing.Small, itoa(sl.n)).Centred())
	}
}

// clipped keeps corners between two uprights.
func clipped(q []drawing.Point, x0, x1 float64) []drawing.Point {
	for i := range q {
		q[i].X = min(max(q[i].X, x0), x1)
	}
	return q
}

// glued are the frames of a kind to tick off, each with its label.
func glued(r job.Result, k job.KindFacts) []block {
	var labels []string
	for _, f := range r.Frames {
		if f.Kind == k.Name {
			labels = append(labels, f.Label)
		}
	}
	for i := len(labels); i < k.Make; i++ {
		labels = append(labels, "spare")
	}
	if len(labels) == 0 {
		return nil
	}
	const per, w, h = 12, fieldW / 12, 9.0
	out := []block{{h: 6, gap: 3, keep: true, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(0, y+4), drawing.Lead, "Glued, and square").Bold())
		s.say(drawing.Label(drawing.Pt(fieldW, y+4), drawing.Small, "corner to corner alike before the glue grabs").RightAligned().Quiet())
	}}}
	for from := 0; from < len(labels); from += per {
		row := labels[from:min(from+per, len(labels))]
		out = append(out, block{h: h, draw: func(s *sheet, y float64) {
			for i, l := range row {
				x := float64(i) * w
				s.add(drawing.TickBox(drawing.Pt(x, y+1.4)))
				s.say(fitted(drawing.Label(drawing.Pt(x+6.1, y+5.3), drawing.Body, l).Bold(), w-6.6, drawing.Small))
			}
		}})
	}
	return out
}
