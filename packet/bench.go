package packet

import (
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// cardEntry begins every bench card's line in the contents.
const cardEntry = "Bench card "

// benchCard is what hangs at the saw while one kind is sawn: folded once, its
// face shows saw, stop, count and picture.
func benchCard(b *book, r job.Result, k job.KindFacts) {
	ts := tasks(r, k)
	if len(ts) == 0 {
		return
	}
	t, _ := timberOf(r, k)
	p := paper{title: cardEntry + k.Letter + ", " + k.Title, balance: true, entry: cardEntry + k.Letter + ", " + k.Title,
		right: [2]string{"make " + itoa(k.Make), stockWords(r, k, t)}}
	p.blocks = card(r, k, ts)
	b.flow(p)
}

// A form is one way to lay out a card.
type form struct {
	per      int  // tick-offs to a row
	measures int  // of the frame, at most
	onFace   bool // the pictures stand above the words
	beside   bool // tick-offs and frames glued stand side by side
	tight    int  // 1: smaller pictures and rows; 2: smaller words too
	pictures int  // at most
}

// forms are the ways to lay out a card on one page, the roomiest first: only
// when all else is tight are pictures left out, from the last on. What they
// show stands in the table too.
func forms(pictures int) []form {
	out := []form{
		{tickRow, mostSizes, true, false, 0, pictures},
		{2 * tickRow, mostSizes, true, false, 0, pictures},
		{2 * tickRow, fewSizes, true, false, 0, pictures},
		{tickRow, mostSizes, true, true, 0, pictures},
		{2 * tickRow, fewSizes, true, true, 0, pictures},
		{2 * tickRow, mostSizes, true, true, 1, pictures},
	}
	for n := pictures; n > 0; n-- {
		out = append(out, form{2 * tickRow, mostSizes, true, true, 2, n}, form{2 * tickRow, fewSizes, true, true, 2, n})
	}
	return out
}

// card takes the roomiest form that fits one page; when none does, the pictures
// go below the words and the card runs on.
func card(r job.Result, k job.KindFacts, ts []task) []block {
	all := len(unlike(ts))
	for _, f := range forms(all) {
		if bs := cardBlocks(r, k, ts, f); height(bs) <= bodyFoot-bodyTop {
			return bs
		}
	}
	f := form{per: tickRow, measures: mostSizes, onFace: one(ts), pictures: all}
	if totalOf(ts) > tickMany {
		f.per *= 2
	}
	best := cardBlocks(r, k, ts, f)
	for f.tight = 1; f.pictures > 0; f.pictures-- {
		if bs := cardBlocks(r, k, ts, f); pages(bs) < pages(best) {
			best = bs
		}
	}
	return best
}

// pages is how many pages blocks take.
func pages(blocks []block) int {
	starts, _ := paper{blocks: blocks}.dryRun(bodyTop)
	return len(starts)
}

// cardBlocks are a card from its figures to the last box to tick.
func cardBlocks(r job.Result, k job.KindFacts, ts []task, f form) []block {
	var face, pictures []block
	if one(ts) {
		face = append(face, threeFigures(r, ts[0]))
	} else {
		face = append(face, stopsTable(r, ts, f.tight)...)
	}
	size := roomyPicture
	if f.tight > 0 {
		size = smallPicture
	}
	if f.tight > 1 {
		size = tightPicture
	}
	shown := unlike(ts)
	if f.pictures < len(shown) { // a square cut needs no picture
		slices.SortStableFunc(shown, func(a, b task) int { return square(a) - square(b) })
	}
	for _, x := range shown[:min(len(shown), f.pictures)] {
		pictures = append(pictures, fencePicture(r, x, len(ts) > 1, size))
	}
	words := []block{strip(), orderAndMeasures(r, k, ts, f)}
	if f.sidesAtFoot(ts) {
		return append(append(append(face, pictures...), words...), foot(r, k, ts, f))
	}
	words = append(words, waysOut(r, ts, fieldW, f)...)
	if f.onFace {
		face = append(append(face, pictures...), words...)
	} else {
		face = append(append(face, words...), pictures...)
	}
	return append(face, done(r, k, ts, fieldW, f)...)
}

// square is 1 for a part that is first sawn square, else 0.
func square(t task) int {
	if t.part.Rough != nil {
		return 1
	}
	return 0
}

// sidesAtFoot says whether the picture of which side is which stands at the
// card's foot and not below a column of words.
func (f form) sidesAtFoot(ts []task) bool { return f.tight > 1 && len(ts) > 1 }

// foot is the end of a tight card: which side is which, at the right of all
// that is left to say and to tick.
func foot(r job.Result, k job.KindFacts, ts []task, f form) block {
	const side, gap = 46.0, 6.0
	left := append(waysOut(r, ts, fieldW-side-gap, f), done(r, k, ts, fieldW-side-gap, f)...)
	high := max(height(left), sideLow)
	sides := sidesBlock(k, fieldW-side, fieldW, min(high, sideHigh))
	return block{h: high, gap: 1, twins: twinsOf(append(left, sides)...), draw: func(s *sheet, y float64) {
		stack(s, y, left)
		stack(s, y, []block{sides})
	}}
}

// stack draws blocks below each other.
func stack(s *sheet, y float64, blocks []block) {
	for _, b := range blocks {
		y += b.gap
		b.draw(s, y)
		y += b.h
	}
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
		{52, "Saw", itoa(t.part.Count), "", perFrame(r, t)},
	}
	twins := []twin{}
	for _, c := range cells {
		twins = append(twins, webLoud(joined(" ", c.big, c.unit), c.over+", "+c.sub))
	}
	const h = 37.0
	return block{h: h + 1.5, twins: twins, draw: func(s *sheet, y float64) {
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
	line := func(pt float64) drawing.Text {
		t := drawing.LabelOf(drawing.Pt(x-pt*0.02, y), pt, drawing.B(figure))
		if unit != "" {
			t.Spans = append(t.Spans, drawing.Span{S: " " + unit, Font: drawing.Bold, Size: pt * 0.45})
		}
		return t
	}
	t := line(pt)
	for t.Width() > w && pt > drawing.Figure {
		pt *= 0.97
		t = line(pt)
	}
	s.say(t)
}

// stopsTable is the stops of a kind with several parts, in bench order.
func stopsTable(r job.Result, ts []task, tight int) []block {
	row := stopRow{14.5, 8.2, 12.6, drawing.Title}
	switch tight {
	case 1:
		row = stopRow{11, 5.9, 9.7, drawing.Figure}
	case 2:
		row = stopRow{9.2, 5.3, 8.4, drawing.Figure}
	}
	cols := []struct {
		x     float64
		title string
	}{{0, "part"}, {52, "first end"}, {78, "second end"}, {106, "stop at"}, {163, "saw"}}
	head := block{h: 6, keep: true, twins: []twin{stopsTwin(r, ts)}, draw: func(s *sheet, y float64) {
		for _, c := range cols {
			s.say(drawing.Label(drawing.Pt(c.x, y+3.6), drawing.Small, c.title).Quiet())
		}
		s.line(drawing.PenRule, 0, y+5.6, fieldW, y+5.6)
	}}
	out := []block{head}
	for _, t := range ts {
		out = append(out, block{h: row.h, again: &head, twins: []twin{}, draw: func(s *sheet, y float64) { row.draw(s, y, r, t) }})
	}
	return out
}

// stopsTwin is the same table for screens.
func stopsTwin(r job.Result, ts []task) twin {
	var rows [][]cell
	for _, t := range ts {
		who := cell{boldLine(t.part.Mark), quietLine(joined(", ", sides(t.part), t.part.Hand))}
		rows = append(rows, []cell{who, over(t.stop.First.Text, ""), over(t.stop.Second.Text, ""), quiet(verbLow(t.part)),
			over(first(r.Job, t.stop.Stop), t.stop.Point+" · "+second(r.Job, t.stop.Stop)), bold(itoa(t.part.Count))})
	}
	return webTable("Stops, in the order of the bench", []column{{"part", 30, false}, {"first end", 20, true}, {"second end", 20, true},
		{"how", 45, false}, {"stop at", 40, true}, {"saw", 15, true}}, rows)
}

// A stopRow is how a row of the stops is set, mm and pt.
type stopRow struct{ h, figures, under, size float64 }

func (w stopRow) draw(s *sheet, y float64, r job.Result, t task) {
	say := func(x, at, size, room float64, words string) {
		t := drawing.Label(drawing.Pt(x, y+at), size, words).Bold()
		if size == drawing.Small {
			t = drawing.Label(t.At, size, words).Quiet()
		}
		s.say(fitted(t, room, drawing.Small))
	}
	say(0, w.figures, drawing.Figure, 18, t.part.Mark)
	foot := 0.8
	if w.h < 10 { // clear of the words below
		foot = -0.3
	}
	s.part(box{19, y + w.figures - 4.4 - foot, 48, y + w.figures + foot}, t.part)
	say(0, w.under, drawing.Small, 50, joined(", ", sides(t.part), t.part.Hand))
	for i, a := range []job.Angle{t.stop.First, t.stop.Second} {
		say(52+26*float64(i), w.figures, drawing.Figure, 25, a.Text)
	}
	say(52, w.under, drawing.Small, 52, verbLow(t.part))
	say(106, w.figures, w.size, 54, first(r.Job, t.stop.Stop))
	say(106, w.under, drawing.Small, 54, t.stop.Point+" · "+second(r.Job, t.stop.Stop))
	say(163, w.figures, w.size, 24, itoa(t.part.Count))
	s.line(drawing.PenHair, 0, y+w.h-0.3, fieldW, y+w.h-0.3)
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
	return block{h: h, gap: 1, twins: []twin{webCaution("At the saw: " + stripWords)}, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenRule, drawing.White, 0, y, fieldW, h), drawing.Rect(drawing.Pen{}, drawing.Black, 0, y, x-3, h))
		s.say(drawing.Label(drawing.Pt((x-3)/2, y+h/2+1.4), drawing.Body, "At the saw").Bold().Centred().In(drawing.OnChalk))
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(x, y+4.5+leading(drawing.Small)*float64(i)), drawing.Small, l).Medium())
		}
	}}
}
