package packet

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// drilling are the papers of the seams: what is drilled and driven, and the bags.
func drilling(b *book, r job.Result) {
	if len(r.Fixing.Seams) > 0 {
		b.flow(drillingPaper(r))
		b.flow(bagsPaper(r))
	}
	b.flow(hooksPaper(r))
}

// drillingPaper is the back view with the way every seam is driven, the order
// of work at a seam, and every seam by its number.
func drillingPaper(r job.Result) paper {
	f := r.Fixing
	p := paper{title: "Drilling", entry: "Drilling", balance: true, joins: true,
		right: [2]string{drivenCount(r) + " at " + plural(len(f.Seams)-len(f.Undone), "seam"), "lying face down, seen from the back"}}
	p.blocks = append(p.blocks, drillPicture(r))
	p.blocks = append(p.blocks, undone(r)...)
	p.blocks = append(p.blocks, drillOrder(r)...)
	p.blocks = append(p.blocks, seamTable(r)...)
	p.blocks = append(p.blocks, drillSheets(r)...)
	return p
}

// drivenCount is how many screws and bolts there are: "62 screws, 8 bolts".
func drivenCount(r job.Result) string {
	screws, bolts := 0, 0
	for _, s := range r.Fixing.Seams {
		for _, d := range s.Fasteners {
			if d.Kind == "screw" {
				screws++
			} else {
				bolts++
			}
		}
	}
	var parts []string
	if screws > 0 || bolts == 0 {
		parts = append(parts, plural(screws, "screw"))
	}
	if bolts > 0 {
		parts = append(parts, plural(bolts, "bolt"))
	}
	return joined(", ", parts...)
}

// Where the back view stands on its page, mm.
const (
	drillTop   = bodyTop + 2
	drillFoot  = 128.0
	drillDeep  = 196.0 // where there are many seams to number
	manySeams  = 40
	drillLeft  = 8.0
	drillRight = fieldW - 8
)

// drillPicture is the set piece from behind with the seams' numbers and an
// arrow at each, the way its screws are driven.
func drillPicture(r job.Result) block {
	high := picHeight(r)
	return picture(high+16, drillSays(r), func(s *sheet, y float64) {
		bare := backOf(s, r, box{drillLeft, y + 2, drillRight, y + 2 + high - 4}, true, false)
		s.say(drawing.Label(drawing.Pt(0, y+high+13), drawing.Bench, "BACK").Bold())
		words := "The piece lies face down, front edges on the sheet: left and right have changed over. An arrow goes from the board that holds the heads the way its screws are driven; a ring is driven from the back. Numbers are those of the seams."
		if bare > 0 {
			words += fmt.Sprintf(" %s too close to number here: see the table.", plural(bare, "seam"))
		}
		x := drawing.Width("BACK", drawing.Bold, drawing.Bench) + 8
		s.prose(x, y+high+3.5, fieldW-x, drawing.Label(drawing.Point{}, drawing.Body, words))
	})
}

// picHeight is how high the back view is drawn: all the width there is, but no
// higher than leaves room for what is below it.
func picHeight(r job.Result) float64 {
	w, h := max(r.Overall.Width.MM, 1), max(r.Overall.Height.MM, 1)
	foot := drillFoot
	if len(r.Seams) > manySeams {
		foot = drillDeep
	}
	return min(foot-drillTop, (drillRight-drillLeft)/w*h+6)
}

func drillSays(r job.Result) string {
	return "The set piece from the BACK, lying face down, with the number of every seam and an arrow the way its screws are driven; the table of seams says the same."
}

// backOf draws the set piece from behind with the numbers of the seams, the ways
// they are driven or where hooks go; it gives the number of seams without a
// number.
//
// Where frames' labels leave a seam no room for its number they are set small:
// a seam without a number has to be looked for in the table.
func backOf(s *sheet, r job.Result, b box, arrows, hooks bool) (bare int) {
	var try sheet
	usual := backWith(&try, r, b, arrows, hooks, false)
	small := usual > 0 && backWith(&try, r, b, arrows, hooks, true) < usual
	return backWith(s, r, b, arrows, hooks, small)
}

func backWith(s *sheet, r job.Result, b box, arrows, hooks, small bool) (bare int) {
	v := viewIn(r, b, true)
	v.small = small
	ps := v.placed(r.Frames)
	for _, p := range ps {
		p.boards(s)
	}
	pl := newPlacer(b.grown(2))
	for _, p := range ps {
		p.block(pl)
	}
	for _, m := range r.Seams {
		s.add(drawing.Stroke(seamPen(r, m.Number), v.at(m.From), v.at(m.To)))
	}
	if arrows {
		v.arrows(s, r, pl)
	}
	if hooks {
		v.hooks(s, r, pl)
	}
	v.labels(s, ps, pl)
	sides := v.numbers(s, r, pl)
	v.secondNumbers(s, r, pl, sides)
	for _, side := range sides {
		if side == 0 {
			bare++
		}
	}
	return bare
}

// seamPen is dashed for a seam that is closed at the venue.
func seamPen(r job.Result, number int) drawing.Pen {
	if f, ok := fixingOf(r, number); ok && f.Site {
		return drawing.PenSiteSeam
	}
	return drawing.PenSeam
}

func fixingOf(r job.Result, number int) (job.SeamFixing, bool) {
	for _, s := range r.Fixing.Seams {
		if s.Number == number {
			return s, true
		}
	}
	return job.SeamFixing{}, false
}

// Half of an arrow across a seam, at the least and at the most, and a ring's
// radius, page mm.
const (
	arrowLeast = 1.7
	arrowMost  = 3.2
	ringSize   = 1.1
)

// arrows marks the way each seam is driven, in its middle.
func (v view) arrows(s *sheet, r job.Result, pl *placer) {
	for _, m := range r.Seams {
		f, ok := fixingOf(r, m.Number)
		if !ok {
			continue
		}
		mid := v.at(m.From).Lerp(v.at(m.To), 0.5)
		switch {
		case !f.Fixed:
			s.cross(mid)
			pl.take(around(mid, 4, 4))
		case f.Arrow == job.XY{}:
			s.add(drawing.Circle(drawing.PenEdge, drawing.White, mid, ringSize))
			pl.take(around(mid, 3, 3))
		default:
			a := drawing.Pt(f.Arrow[0], -f.Arrow[1])
			if v.back {
				a.X = -a.X
			}
			half := min(max(v.at(m.From).Dist(v.at(m.To))/6, arrowLeast), arrowMost)
			from, to := mid.Sub(a.Mul(half)), mid.Add(a.Mul(half))
			s.add(drawing.Arrow(from, to)...)
			pl.line(from, to)
			pl.take(around(to, 2, 2))
		}
	}
}

// cross marks a seam that cannot be fixed as drawn.
func (s *sheet) cross(c drawing.Point) {
	const half = 1.9
	for _, e := range [2]float64{1, -1} {
		s.add(drawing.Stroke(drawing.PenRule, drawing.Pt(c.X-half, c.Y-half*e), drawing.Pt(c.X+half, c.Y+half*e)))
	}
}

// undone says in boxes which seams cannot be fixed as drawn, and what helps.
func undone(r job.Result) []block {
	var order []string
	seams := map[string][]int{}
	for _, s := range r.Fixing.Seams {
		if s.Fixed {
			continue
		}
		key := sentence(s.Cannot) + " What helps: " + sentence(s.Helps)
		if seams[key] == nil {
			order = append(order, key)
		}
		seams[key] = append(seams[key], s.Number)
	}
	var out []block
	for _, key := range order {
		out = append(out, boxed(sentence(upperFirst(seamsSay(seams[key]))+" cannot be fixed as drawn (marked × above)"), key))
	}
	return out
}

// boxed is a warning in a heavy box: what is wrong in bold, more below it.
func boxed(head, more string) block {
	const in = 3.0
	top := wrap(head, drawing.Bold, drawing.Body, fieldW-2*in)
	rest := wrap(more, drawing.Regular, drawing.Body, fieldW-2*in)
	lead := leading(drawing.Body)
	h := lead*float64(len(top)+len(rest)) + 2*in - 1
	return block{h: h, gap: 3, draw: func(s *sheet, y float64) {
		s.add(drawing.Rect(drawing.PenRule, drawing.Fill{}, 0, y, fieldW, h))
		at := y + in + 2.6
		for _, l := range top {
			s.say(drawing.Label(drawing.Pt(in, at), drawing.Body, l).Bold())
			at += lead
		}
		for _, l := range rest {
			s.say(drawing.Label(drawing.Pt(in, at), drawing.Body, l))
			at += lead
		}
	}}.says(webCaution(head + " " + more))
}

// seamsSay names seams: "seam 3", "seams 3, 5 and 9".
func seamsSay(ns []int) string {
	if len(ns) == 1 {
		return "seam " + itoa(ns[0])
	}
	return "seams " + listed(ns)
}

// listed is "3, 5 and 9", with runs of three and more drawn together: "3 to 7".
func listed(ns []int) string {
	var parts []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		if j >= i+2 {
			parts = append(parts, itoa(ns[i])+" to "+itoa(ns[j]))
		} else {
			for k := i; k <= j; k++ {
				parts = append(parts, itoa(ns[k]))
			}
		}
		i = j + 1
	}
	if n := len(parts); n > 1 {
		return joined(", ", parts[:n-1]...) + " and " + parts[n-1]
	}
	return joined("", parts...)
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// drillOrder is the order of work at every seam.
func drillOrder(r job.Result) []block {
	out := []block{heading("At every seam, in this order", "no gloves, sleeves or cords at the drill; eyes covered", "")}
	for i, step := range drillSteps(r) {
		out = append(out, para(itoa(i+1)+".  "+step, fieldW, drawing.Text{}))
	}
	out = append(out, para("Drill sheets measure from the left end of the board that holds the heads, as you look along the screws with the piece face down: along the seam from its outside corner, or, where it says inside, in that frame from its inside corner. Depth counts up from the sheet, behind the front edge.", fieldW, drawing.Text{}))
	out = append(out, para(aboutScrews(r), fieldW, drawing.Text{Tone: drawing.Pencil, Size: drawing.Small}))
	return out
}

func drillSteps(r job.Result) []string {
	steps := []string{"Clamp the two frames with their front edges flush, down on the sheet, and close at the seam; a gap over the shim rule is shimmed, never pulled in with screws. Write the seam's number on both back edges beside it."}
	screws, bolts := has(r, "screw"), has(r, "bolt") || has(r, "insert")
	if screws {
		steps = append(steps,
			"Drill the clearance hole through the first board only, from the face that the head sits in, so that the screw draws the second board up to it.",
			"Drill the pilot hole on through it into the second board; a stop on the drill keeps it from coming out.",
			sinkStep(r),
			"Drive it by hand or at a low clutch until the head is home. Then take the clamps off.")
	}
	if bored := slices.ContainsFunc(r.Fixing.Seams, func(s job.SeamFixing) bool { return s.Method == "counterbored bolts" }); bored {
		steps = append(steps, "Where bolts are counterbored through flat frames: before the frames lie together, drill each board by itself, square, from the face at the seam; then its counterbore from inside, with a right-angle head where the drill has no room. A thin-walled socket turns the nut in its bore.")
	}
	if bolts {
		where := "Drill"
		if screws {
			where = "Where there are bolts: drill"
		}
		steps = append(steps, where+" both boards in one go with a block clamped behind, so that the far face does not split out; counterbores first. For an insert drill the bolt's hole through the first board alone and the insert's own in the second.",
			"Put the bolt through with a washer under the head and under the nut; tighten until the washers just mark the wood.")
	}
	if slices.ContainsFunc(r.Fixing.Seams, func(s job.SeamFixing) bool { return len(s.Pegs) > 0 }) {
		steps = append(steps, "Pegs of a site seam come before its bolts, with the frames apart: bore their holes where the sheet says in the board that holds the heads, put dowel centres or a pin into them, lay the other frame against it and bore where they mark. Glue each peg into the first board only.")
	}
	if slices.ContainsFunc(r.Fixing.Seams, func(s job.SeamFixing) bool { return s.Site }) {
		steps = append(steps, "Undo a site seam again and bag what belongs to it.")
	}
	return steps
}

// sinkStep says how deep the heads go: flush, or as far under the face as the
// drill stops reckon with.
func sinkStep(r job.Result) string {
	for _, a := range r.Assumed {
		if a.ID == "fixing.sink" && !strings.HasPrefix(a.Value, "0 ") {
			return "Sink the head until it is " + a.Value + " under the face, and no deeper."
		}
	}
	return "Sink the head until it is flush, and no deeper."
}

// has says whether anything of a kind is driven.
func has(r job.Result, kind string) bool {
	for _, s := range r.Fixing.Seams {
		for _, d := range s.Fasteners {
			if d.Kind == kind {
				return true
			}
		}
	}
	return false
}

// aboutScrews is what holds for all seams: the standard, and who looks.
func aboutScrews(r job.Result) string {
	out := 0
	for _, s := range r.Fixing.Seams {
		for _, c := range s.NoteCodes {
			if c == outsideStandard {
				out++
			}
		}
	}
	words := ""
	if out > 0 {
		words = fmt.Sprintf("At %d of the seams the screws go into the second board by less than 6 diameters: that is outside the standard (NDS 12.1.5.6, second-hand), usual as it is in boards of this thickness. ", out)
	}
	var eyes []string
	for _, e := range r.Fixing.Eyes {
		say := e.Name + ", eyes " + first(r.Job, e.Height) + " high, " + first(r.Job, e.Distance) + " off"
		if e.Behind {
			say += ", behind"
		}
		eyes = append(eyes, say)
	}
	return words + "Heads are put where fewest are seen by: " + joined("; ", eyes...) + ". Reckoned with " + joined("; ", r.Fixing.Driver...) + "."
}

// outsideStandard is the note that nearly every seam of thin boards has: it is
// said once.
const outsideStandard = "outside-standard"

// seamTable finds every seam by its number.
func seamTable(r job.Result) []block {
	var rows [][]cell
	for _, s := range r.Fixing.Seams {
		rows = append(rows, seamRow(s))
	}
	cols := []column{{"seam", 8, false}, {"sheet", 8, false}, {"heads in", 13, false}, {"drive, as on this BACK", 38, false}, {"left end", 13, false}}
	return []block{heading("Every seam", "left end: the corner that places are measured from", ""), columnsOf(2, cols, rows)}
}

func seamRow(s job.SeamFixing) []cell {
	if !s.Fixed {
		return []cell{strong(itoa(s.Number)), quiet("×"), small(s.Frames[0] + ", " + s.Frames[1]), strong("not as drawn, see above"), quiet("")}
	}
	way, head, left := s.WayBack, s.Head+"/"+itoa(headSide(s)), "corner "+itoa(s.Left)
	if fromBack(s) {
		way, head = s.Way, s.Head+", "+s.Into
	}
	return []cell{strong(itoa(s.Number)), small(itoa(s.Sheet)), small(head), small(joined(", ", way, siteSays(s))), quiet(left)}
}

// siteSays marks a seam that is closed at the venue.
func siteSays(s job.SeamFixing) string {
	switch {
	case s.Steps:
		return "site, steps"
	case s.Site:
		return "site seam"
	}
	return ""
}

// fromBack says that the screws go into the backs, through plates or a batten.
func fromBack(s job.SeamFixing) bool { return s.Arrow == job.XY{} }

// headSide is the side of the frame that holds the heads.
func headSide(s job.SeamFixing) int {
	if s.Head == s.Frames[1] {
		return s.Sides[1]
	}
	return s.Sides[0]
}
