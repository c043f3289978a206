package packet

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// Two columns below the picture, mm.
const (
	orderWide = 92.0
	orderGap  = 7.0
	stepIn    = 8.0
	stepGap   = 1.3
	sideHigh  = 40.0 // of the picture that says which side is which
	sideLow   = 30.0 // the same on a tight card
)

// orderAndMeasures are the two columns below the picture: what to do in what
// order, and what the parts and the frame measure when they are right.
func orderAndMeasures(r job.Result, k job.KindFacts, ts []task, f form) block {
	left := orderColumn(r, k, ts, f.words())
	right := measureColumn(r, k, ts, f)
	high := sideHigh
	if f.tight > 0 {
		high = sideLow
	}
	if len(ts) > 1 && !f.sidesAtFoot(ts) { // which side is which goes below the shorter column
		if height(left) < height(right) {
			left = append(left, sidesBlock(k, stepIn, orderWide, high))
		} else {
			right = append(right, sidesBlock(k, orderWide+orderGap, fieldW, high))
		}
	}
	gap := 4.0
	if f.tight > 1 {
		gap = 2
	}
	return block{h: max(height(left), height(right)), gap: gap, twins: twinsOf(append(left, right...)...), draw: func(s *sheet, y float64) {
		stack(s, y, left)
		stack(s, y, right)
	}}
}

// words is the size of running text on a card, pt.
func (f form) words() float64 {
	if f.tight > 1 {
		return drawing.Small
	}
	return drawing.Body
}

func columnTitle(x float64, words string) block {
	return block{h: 7, twins: []twin{webHead(words, "")}, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(x, y+4), drawing.Lead, words).Bold())
	}}
}

func orderColumn(r job.Result, k job.KindFacts, ts []task, pt float64) []block {
	out := []block{columnTitle(0, "In this order")}
	steps := stepsFor(r, k, ts)
	out[0].twins = append(out[0].twins, webSteps(steps...))
	for i, st := range steps {
		lines := wrap(st, drawing.Regular, pt, orderWide-stepIn)
		out = append(out, block{h: leading(pt)*float64(len(lines)) + stepGap, twins: []twin{}, draw: func(s *sheet, y float64) {
			s.say(drawing.Label(drawing.Pt(0, y+4), pt+drawing.Lead-drawing.Body, itoa(i+1)).Bold())
			for j, l := range lines {
				s.say(drawing.Label(drawing.Pt(stepIn, y+4+leading(pt)*float64(j)), pt, l))
			}
		}})
	}
	return out
}

func sidesBlock(k job.KindFacts, x0, x1, high float64) block {
	wide := x1 - x0 + 12 // numbers may stand a little outside
	return block{h: high, gap: 2, twins: []twin{webPicture(sidesSay(k), wide, sideHigh+4, func(s *sheet) {
		whichSide(s, box{6, 2, wide - 6, sideHigh + 2}, k)
	})}, draw: func(s *sheet, y float64) {
		whichSide(s, box{x0, y, x1, y + high - 2}, k)
	}}
}

// sidesSay says which part is on which side.
func sidesSay(k job.KindFacts) string {
	var out []string
	for _, p := range k.Parts {
		out = append(out, p.Mark+" on "+sides(p))
	}
	return "Which side is which: " + strings.Join(out, ", ") + ". Side 1 is the one it stands on; they go round anticlockwise."
}

func measureColumn(r job.Result, k job.KindFacts, ts []task, f form) []block {
	x := orderWide + orderGap
	out := []block{columnTitle(x, "Right when it measures")}
	rows := table(x, []column{{"", 44, false}, {"", fieldW - x - 44 - colGap, true}}, measureRows(r, k, ts, f))[1:]
	out = append(out, rows...)
	pt := f.words()
	note := wrap(errorSays(r, k), drawing.Regular, pt, fieldW-x-4)
	h := leading(pt) * float64(len(note))
	return append(out, block{h: h + 1, gap: 2.5, twins: []twin{webCaution(errorSays(r, k))}, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.Pen{}, drawing.Black, x, y, 1.2, h))
		for i, l := range note {
			s.say(drawing.Label(drawing.Pt(x+4, y+3.7+leading(pt)*float64(i)), pt, l))
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
	pl := newPlacer(box{max(0, b.x0-6), b.y0 - 2, min(fieldW, b.x1+6), b.y1 + 2})
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
	out := testSteps(r, k)
	out = append(out, "Cut 0 takes the board's end off at the first setting: that is waste.")
	set := "Set the stop, tooth to stop, " + ts[0].stop.Point + " touching"
	if f := ts[0].stop.Face; f != "" {
		set += " (" + f + ")"
	}
	out = append(out, set+". Saw one and measure it.")
	if len(ts) > 1 {
		order := "Shortest stop first, in the order of the table; a board ends on a part long enough to hold."
		if t, _ := timberOf(r, k); t.Plan.BySetting {
			order = "In the order of the table, by saw setting; what is left of a board is long enough to hold at every cut."
		}
		out = append(out, order)
	}
	out = append(out, turnSteps(ts)...)
	if leansOut(ts) {
		out = append(out, "A minus sign: the saw leans the other way, so that the inside is longer at that end.")
	}
	if h := ts[0].stop.Held; h != "" {
		out = append(out, sentence(h))
	}
	return append(out, fmt.Sprintf("Lay %s dry on a flat bench before any glue.", plural(partsOf(k), "part")))
}

// turnSteps say how the board is turned, first for all parts and then for those
// that differ, alike ones in one step.
func turnSteps(ts []task) []string {
	order, marks := []string{ts[0].turn}, map[string][]string{}
	for _, x := range ts[1:] {
		if x.turn != ts[0].turn && x.turn != "" {
			order = addNew(order, x.turn)
			marks[x.turn] = append(marks[x.turn], x.part.Mark)
		}
	}
	var out []string
	for i, turn := range order {
		what := "Saw, push up to the stop, saw again."
		if turns(turn) {
			what = "Saw, then " + turn + ", push up to the stop, saw again."
		}
		if i > 0 {
			what = strings.Join(marks[turn], ", ") + ": s" + what[1:]
		}
		out = append(out, what)
	}
	return out
}

// testSteps are the test corners of a kind, several of them in one step.
func testSteps(r job.Result, k job.KindFacts) []string {
	var all []string
	for _, c := range r.Tests {
		if c.Kind == k.Name {
			all = append(all, fmt.Sprintf("%s outside, close to %s from tip to tip", first(r.Job, c.Arms), first(r.Job, c.Across)))
		}
	}
	switch len(all) {
	case 0:
		return nil
	case 1:
		return []string{"Test corner first: two arms of scrap, " + all[0] + "."}
	}
	for i := range all[1:] { // what the figures are is said with the first
		all[i+1] = strings.NewReplacer(" outside, close", "", " from tip to tip", "").Replace(all[i+1])
	}
	return []string{"Test corners first: two arms of scrap, " + strings.Join(all, "; ") + "."}
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

// measureRows are the built sizes of the frame, those alike under their first
// name, and the short points of its parts.
func measureRows(r job.Result, k job.KindFacts, ts []task, f form) [][]cell {
	var rows [][]cell
	row := func(name string, z job.Size) {
		if f.tight > 1 {
			rows = append(rows, []cell{small(name), smallPair(r, z)})
			return
		}
		rows = append(rows, []cell{text(name), pair(first(r.Job, z), second(r.Job, z))})
	}
	all := measures(k.Sizes, false)
	for _, m := range all[:min(len(all), f.measures)] {
		row(m.names[0], m.built)
	}
	seen := map[string]int{}
	var short []measure
	for _, t := range ts {
		z := t.part.ShortPoint
		i, ok := seen[z.US+z.Metric]
		if !ok {
			i = len(short)
			seen[z.US+z.Metric] = i
			short = append(short, measure{built: z})
		}
		short[i].names = append(short[i].names, t.part.Mark)
	}
	for _, m := range short[:min(len(short), mostShort)] {
		row("short point of "+strings.Join(m.names, ", "), m.built)
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
	if k.SawnRound != "" {
		s = sentence(k.SawnRound) + " "
	}
	if k.Closes != "" {
		s += sentence(k.Closes) + " "
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

// waysOut are the panels for parts that the saw cannot reach; mirror images
// share one.
func waysOut(r job.Result, ts []task, wide float64, f form) []block {
	var groups [][]task
	seen := map[string]int{}
	for _, t := range ts {
		if t.part.Rough == nil {
			continue
		}
		ends := [2]string{blockAt(t.part, 0), blockAt(t.part, 1)}
		if ends[0] > ends[1] {
			ends[0], ends[1] = ends[1], ends[0]
		}
		key := strings.Join([]string{t.part.Rough.US, t.part.Rough.Metric, ends[0], ends[1], t.part.WayOut}, "|")
		i, ok := seen[key]
		if !ok {
			i = len(groups)
			seen[key] = i
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], t)
	}
	var out []block
	for _, g := range groups {
		out = append(out, wayOut(r, g, wide, f))
	}
	return out
}

// blockAt is the angle of the block at an end, or nothing.
func blockAt(p job.PartFacts, end int) string {
	if end < len(p.Block) {
		return p.Block[end].Text
	}
	return ""
}

// wayOut is the panel for parts that are trimmed alike.
func wayOut(r job.Result, ts []task, wide float64, f form) block {
	var marks []string
	where := map[string][]string{}
	var angles []string
	for _, t := range ts {
		marks = append(marks, t.part.Mark)
		for i, end := range [2]string{"first", "second"} {
			a := blockAt(t.part, i)
			if a == "" {
				continue
			}
			at := "the " + end + " end"
			if len(ts) > 1 {
				at += " of " + t.part.Mark
			}
			angles = addNew(angles, a)
			where[a] = append(where[a], at)
		}
	}
	blocks := ""
	for _, a := range angles {
		blocks += " Block at " + strings.Join(where[a], " and ") + ": " + a + "."
	}
	words := fmt.Sprintf("%s %s. Square to %s first.%s %s", word(len(marks), "Part"), strings.Join(marks, ", "),
		both(r.Job, *ts[0].part.Rough), blocks, sentence(ts[0].part.WayOut))
	pt, gap := f.words(), 3.0
	if f.tight > 0 {
		gap = 2
	}
	lines := wrap(words, drawing.Medium, pt, wide-10)
	h := leading(pt)*float64(len(lines)) + 3.4
	return block{h: h, gap: gap, twins: []twin{webCaution(words)}, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenRule, drawing.White, 0, y, wide, h))
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(5, y+1.2+leading(pt)*(float64(i)+0.8)), pt, l).Medium())
		}
	}}
}
