package packet

import (
	"fmt"
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
	if one(ts) {
		p.blocks = append(p.blocks, threeFigures(r, ts[0]))
	} else {
		p.blocks = append(p.blocks, stopsTable(r, k, ts)...)
	}
	p.blocks = append(p.blocks, fencePicture(r, k, ts[0]), strip(), orderAndMeasures(r, k, ts, t))
	for _, x := range ts {
		if x.part.Rough != nil {
			p.blocks = append(p.blocks, wayOut(r, x))
		}
	}
	p.blocks = append(p.blocks, tickOffs(ts)...)
	p.blocks = append(p.blocks, glued(r, k)...)
	b.flow(p)
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
	const h = 42.0
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
			bigFigure(s, left, y+31, w, c.big, c.unit)
			s.say(fitted(drawing.Label(drawing.Pt(left, y+39), drawing.Lead, c.sub), w, drawing.Small))
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
func stopsTable(r job.Result, k job.KindFacts, ts []task) []block {
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
const stripWords = "No gloves, loose sleeves or cords. Dust mask, eyes, ears. Hands clear of the blade; it has stopped before it is raised, and " +
	"nothing is cleared by hand while it turns. No part is trapped between stop and blade. This phone or paper is read with the blade stopped."

// strip is the boxed line of cautions.
func strip() block {
	const x = 26.0
	lines := wrap(stripWords, drawing.Medium, drawing.Small, fieldW-x-6)
	h := leading(drawing.Small)*float64(len(lines)) + 4
	return block{h: h, gap: 2, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenRule, drawing.White, 0, y, fieldW, h), drawing.Rect(drawing.Pen{}, drawing.Black, 0, y, x-3, h))
		s.say(drawing.Label(drawing.Pt((x-3)/2, y+h/2+1.7), drawing.Lead, "At the saw").Bold().Centred().In(drawing.OnChalk))
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(x, y+4.9+leading(drawing.Small)*float64(i)), drawing.Small, l).Medium())
		}
	}}
}

// orderAndMeasures are the two columns below the picture: what to do in what
// order, and what the parts and the frame measure when they are right.
func orderAndMeasures(r job.Result, k job.KindFacts, ts []task, t job.TimberFacts) block {
	const left, gap = 95.0, 8.0
	steps := stepsFor(r, k, ts, t)
	hl := 9.0
	set := make([][]string, len(steps))
	for i, st := range steps {
		set[i] = wrap(st, drawing.Regular, drawing.Body, left-9)
		hl += leading(drawing.Body)*float64(len(set[i])) + 1.6
	}
	measures := table(left+gap, []column{{"", 38, false}, {"", 38.5, true}}, measureRows(r, k, ts))[1:]
	note := wrap(errorSays(r, k), drawing.Regular, drawing.Body, fieldW-left-gap-4)
	hr := 9 + height(measures) + 3 + leading(drawing.Body)*float64(len(note)) + 1
	turnHigh := 0.0
	if hasTurn(ts) {
		turnHigh = 21
	}
	hl += turnHigh
	return block{h: max(hl, hr), gap: 5, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(0, y+4), drawing.Lead, "In this order").Bold())
		at := y + 11
		for i, lines := range set {
			s.say(drawing.Label(drawing.Pt(0, at), drawing.Lead, itoa(i+1)).Bold())
			for _, l := range lines {
				s.say(drawing.Label(drawing.Pt(9, at), drawing.Body, l))
				at += leading(drawing.Body)
			}
			at += 1.6
		}
		if turnHigh > 0 {
			turnPictures(s, box{9, at - 2.5, left, at + turnHigh - 4})
		}
		x := left + gap
		s.say(drawing.Label(drawing.Pt(x, y+4), drawing.Lead, "Right when it measures").Bold())
		s.line(drawing.PenHair, x, y+6.5, fieldW, y+6.5)
		at = y + 6.5
		for _, m := range measures {
			m.draw(s, at)
			at += m.h
		}
		at += 3
		s.add(drawing.Rect(drawing.Pen{}, drawing.Black, x, at, 1.2, leading(drawing.Body)*float64(len(note))))
		for i, l := range note {
			s.say(drawing.Label(drawing.Pt(x+4, at+3.7+leading(drawing.Body)*float64(i)), drawing.Body, l))
		}
	}}
}

func hasTurn(ts []task) bool {
	for _, t := range ts {
		if turns(t.turn) {
			return true
		}
	}
	return false
}

// turns says whether a turn is one: "" and "none" are not.
func turns(s string) bool { return s != "" && s != "none" }

// stepsFor is the order of work, in the card's words, figures from the Result.
func stepsFor(r job.Result, k job.KindFacts, ts []task, t job.TimberFacts) []string {
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
		if i > 0 && x.turn == ts[0].turn {
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
	if h := ts[0].stop.Held; h != "" {
		out = append(out, "Held at every cut: "+h+".")
	}
	return append(out, fmt.Sprintf("Lay %s dry on a flat bench before any glue.", plural(partsOf(k), "part")))
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
func measureRows(r job.Result, k job.KindFacts, ts []task) [][]cell {
	var rows [][]cell
	for _, n := range k.Sizes {
		rows = append(rows, []cell{text(n.Name), over(first(r.Job, n.Built), second(r.Job, n.Built))})
	}
	for _, t := range ts[:min(len(ts), 4)] {
		rows = append(rows, []cell{text("short point of " + t.part.Mark), over(first(r.Job, t.part.ShortPoint), second(r.Job, t.part.ShortPoint))})
	}
	return rows
}

// errorSays is what a saw out of true does to this kind, and how it closes.
func errorSays(r job.Result, k job.KindFacts) string {
	e := k.SawError
	s := ""
	if k.Closes != "" {
		s = "The frame " + strings.TrimRight(k.Closes, ".") + ". "
	}
	if e.Error.Text == "" {
		return s
	}
	s += fmt.Sprintf("A saw out by %s a cut opens the last joint %s. Too steep: %s. Too shallow: %s. For a joint of %s it must be true to %s a cut.",
		e.Error.Text, both(r.Job, e.LastGap), e.TooSteep, e.TooShallow, first(r.Job, r.Job.Tolerance), e.TrueTo.Text)
	return s
}

// wayOut is the panel for a part that the saw cannot reach.
func wayOut(r job.Result, t task) block {
	blocks := ""
	for i, a := range t.part.Block {
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
	tickMany  = 72
	tickHigh  = 5.6
	tickEvery = 6
)

// tickOffs are the parts as shapes to strike through, every sixth numbered.
func tickOffs(ts []task) []block {
	total := 0
	for _, t := range ts {
		total += t.part.Count
	}
	per := tickRow
	if total > tickMany {
		per = 2 * tickRow
	}
	out := []block{{h: 6, gap: 4, keep: true, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(0, y+4), drawing.Lead, "Sawn").Bold())
		s.say(drawing.Label(drawing.Pt(fieldW, y+4), drawing.Small, "strike through as you go").RightAligned().Quiet())
	}}}
	for _, t := range ts {
		for from := 0; from < t.part.Count; from += per {
			mark := ""
			if len(ts) > 1 && from == 0 {
				mark = t.part.Mark
			}
			out = append(out, tickLine(t.part, from, min(from+per, t.part.Count), per, mark, len(ts) > 1))
		}
	}
	return out
}

func tickLine(p job.PartFacts, from, to, per int, mark string, indent bool) block {
	return block{h: tickHigh + 1.2, draw: func(s *sheet, y float64) {
		x0 := 0.0
		if indent {
			x0 = 14
			s.say(fitted(drawing.Label(drawing.Pt(0, y+tickHigh-1.4), drawing.Body, mark).Bold(), 12, drawing.Small))
		}
		w := (fieldW - x0) / float64(per)
		lean := min(w*0.2, 2.6)
		for i := from; i < to; i++ {
			x := x0 + float64(i-from)*w
			up := i%2 == 0
			q := trapezoid(x+0.3, x+w-0.6+lean*0.6, y, y+tickHigh, lean, lean, up)
			if p.Rough != nil || p.First.Setting.Degrees == 0 && p.Second.Setting.Degrees == 0 {
				q = trapezoid(x+0.3, x+w-0.6, y, y+tickHigh, 0, 0, up)
			}
			if (i-from)%per == per-1 {
				q = clipRight(q, fieldW)
			}
			s.add(drawing.Polygon(drawing.PenEdge, drawing.White, q...))
			if (i+1)%tickEvery == 0 {
				s.say(drawing.Label(drawing.Pt((q[0].X+q[1].X)/2, y+tickHigh/2+1.15), drawing.Small, itoa(i+1)).Centred())
			}
		}
	}}
}

func clipRight(q []drawing.Point, x float64) []drawing.Point {
	for i := range q {
		q[i].X = min(q[i].X, x)
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
				s.say(fitted(drawing.Label(drawing.Pt(x+6.1, y+5.3), drawing.Body, l).Bold(), w-6.6, 7.5))
			}
		}})
	}
	return out
}
