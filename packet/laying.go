package packet

import (
	"fmt"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// laying are the papers of the dry lay: the plan on the floor, the chalk marks,
// what is tried and shimmed, and the labels.
func laying(b *book, r job.Result) {
	if len(r.Making.Lay.Order) == 0 {
		return
	}
	b.flow(layPaper(r))
	if len(r.Making.Lay.Chalk) > fewFrames {
		b.flow(chalkPaper(r))
	}
	b.flow(fitPaper(r))
	b.flow(labelPaper(r))
}

// fewFrames is how many frames have a chalk plan so short that it stands below
// the dry lay.
const fewFrames = 3

// seenFromBack heads every page that is read with the piece face down.
const seenFromBack = "BACK: face down, as you kneel before it"

// layPaper is the plan of the back on the floor, and the order of the work.
func layPaper(r job.Result) paper {
	l := r.Making.Lay
	p := paper{title: "Dry lay", entry: "Dry lay", right: [2]string{seenFromBack, plural(len(r.Frames), "frame") + ", " + plural(len(r.Seams), "seam")}}
	steps := madeSteps(l.Steps)
	below := append([]block{backWord(layKey(l)), bigFacts(layFacts(r))}, stepList(steps, 1, 0, fieldW)...)
	below[2].twins, below[2].gap = []twin{saidSteps(steps)}, 3
	room := bodyFoot - bodyTop - height(below) - layRest - 0.5
	if len(l.Chalk) <= fewFrames {
		chalk := chalkPaper(r)
		below = append(append(below, heading(chalk.title, chalk.right[1], chalk.entry)), chalk.blocks...)
		room -= height(below[len(below)-len(chalk.blocks)-1:])
	}
	p.blocks = append([]block{layPicture(r, room)}, below...)
	return p
}

func layKey(l job.LayFacts) string {
	s := "The level line is the base line, the broken upright the centre line; every mark is measured from these two alone. Rings are the two chalk marks of a frame: its lowest corner, and the one farthest from that."
	if l.Straight != nil {
		s += " The bar under the base line is the known-straight length, clamped to all standing sides before anything is built on them."
	}
	return s + " Left and right have changed over; numbers stay with their frames."
}

// backWord is the word BACK, large, with what is to be known beside it.
func backWord(words string) block {
	w := drawing.Width("BACK", drawing.Bold, drawing.Bench) + 8
	lines := wrap(words, drawing.Regular, drawing.Body, fieldW-w)
	return block{h: max(16, leading(drawing.Body)*float64(len(lines))+2), gap: 2, keep: true, draw: func(s *sheet, y float64) {
		s.say(drawing.Label(drawing.Pt(0, y+13), drawing.Bench, "BACK").Bold())
		for i, l := range lines {
			s.say(drawing.Label(drawing.Pt(w, y+4.4+leading(drawing.Body)*float64(i)), drawing.Body, l))
		}
	}}.says(webLoud("BACK", ""), webPara(words))
}

func layFacts(r job.Result) []bigFact {
	l := r.Making.Lay
	var out []bigFact
	if s := l.Straight; s != nil {
		is := fmt.Sprintf("known-straight length, from %s to %s", fromLine(r, s.From), fromLine(r, s.To))
		if s.Short {
			is += "; " + first(r.Job, s.Most) + " at hand: two end to end against a taut string"
		}
		out = append(out, bigFact{first(r.Job, s.Length), is})
	}
	for _, d := range l.Diagonals {
		out = append(out, bigFact{first(r.Job, d.Size), "diagonal, " + spotName(d.From) + " to " + spotName(d.To)})
	}
	return append(out, bigFact{first(r.Job, l.Floor[0]), "wide and " + first(r.Job, l.Floor[1]) + " deep: clear floor, with room to kneel"})
}

func spotName(s job.SpotFacts) string {
	if s.Corner == 0 {
		return s.Frame
	}
	return fmt.Sprintf("%s corner %d", s.Frame, s.Corner)
}

// fromLine is a distance from the centre line in words.
func fromLine(r job.Result, s job.SideFrom) string {
	if s.Side == "" {
		return "the centre line"
	}
	return s.Side + " " + first(r.Job, s.Size)
}

// Round the drawing of the lay, mm: white over it, and the names of its lines
// below.
const (
	layOver = 5.0
	layRest = 17.0
)

// layPicture is the back on the floor between its two lines, with chalk marks
// and the straight length.
func layPicture(r job.Result, room float64) block {
	alt := fmt.Sprintf("The set piece from behind, on its base line, with the centre line through its middle: %s, %s wide and %s high. Where each frame lies stands in the chalk plan.",
		plural(len(r.Frames), "frame"), both(r.Job, r.Overall.Width), both(r.Job, r.Overall.Height))
	v := viewIn(r, box{16, 0, fieldW - 16, room}, true)
	high := r.Overall.Height.MM * v.scale
	return picture(high+layRest, alt, func(s *sheet, y float64) {
		v := v
		v.origin.Y = y + high + layOver
		v.lay(s, r)
	})
}

// lay draws frames, marks, labels and the lines they are measured from.
func (v view) lay(s *sheet, r job.Result) {
	ps := v.placed(r.Frames)
	v.picture(s, r, ps)
	mid := (v.left() + v.right()) / 2
	s.add(drawing.Stroke(drawing.PenSiteSeam.At(0.9), drawing.Pt(mid, v.origin.Y-r.Overall.Height.MM*v.scale-4), drawing.Pt(mid, v.origin.Y+6)))
	s.line(drawing.PenSeam, v.left()-12, v.origin.Y, v.right()+12, v.origin.Y)
	pl := newPlacer(box{v.left() - 14, v.origin.Y - r.Overall.Height.MM*v.scale - 5, v.right() + 14, v.origin.Y - 0.3})
	for _, p := range ps {
		p.block(pl)
	}
	pl.line(drawing.Pt(mid, v.origin.Y-r.Overall.Height.MM*v.scale-4), drawing.Pt(mid, v.origin.Y))
	for _, c := range r.Making.Lay.Chalk {
		for _, i := range c.Marks {
			if i < len(c.Corners) {
				at := v.at(c.Corners[i].At)
				s.add(drawing.Circle(drawing.PenDimension, drawing.White, at, chalkRing))
				pl.take(around(at, 2*chalkRing, 2*chalkRing))
			}
		}
	}
	v.labels(s, ps, pl)
	v.numbers(s, r, pl)
	v.underLine(s, r, mid)
}

// chalkRing is the radius of the sign for a chalk mark, mm.
const chalkRing = 0.9

// underLine is what stands under the base line: the straight length and the
// names of the two lines.
func (v view) underLine(s *sheet, r job.Result, mid float64) {
	y := v.origin.Y
	if q := r.Making.Lay.Straight; q != nil {
		x0, x1 := v.signed(mid, q.From), v.signed(mid, q.To)
		s.add(drawing.Rect(drawing.PenEdge, drawing.Hatched(drawing.Waste), x0, y+0.9, x1-x0, 2.6))
	}
	s.say(drawing.Label(drawing.Pt(mid, y+9.4), drawing.Small, "centre line").Centred())
	s.say(drawing.Label(drawing.Pt(0, y+9.4), drawing.Small, "base line"))
	if q := r.Making.Lay.Straight; q != nil {
		s.say(drawing.Label(drawing.Pt(fieldW, y+9.4), drawing.Small, "hatched: known-straight length, "+first(r.Job, q.Length)).RightAligned())
	}
}

// signed is a distance from the centre line as a place across the page.
func (v view) signed(mid float64, s job.SideFrom) float64 {
	d := s.Size.MM * v.scale
	if s.Side == "left" {
		return mid - d
	}
	return mid + d
}

// chalkPaper is every frame's place from the two lines, in the order of laying.
func chalkPaper(r job.Result) paper {
	l := r.Making.Lay
	p := paper{title: "Chalk plan", entry: "Chalk plan", right: [2]string{seenFromBack, "from one base line and one centre line"}, joins: true, balance: true}
	head := chalkHead()
	intro := backWord("Chalk two marks for each frame before it is laid: so far left or right of the centre line, as you kneel at the base line, so far up from the base line. " +
		"Never measure from one frame to the next. Lay in this order, each frame against those that lie; the arrow goes where it is up.")
	intro.twins = append(intro.twins, chalkTable(r))
	p.blocks = append(p.blocks, intro, head)
	for i := range l.Chalk {
		p.blocks = append(p.blocks, chalkRow(r, i, &head))
	}
	return p
}

// A row of the chalk plan, mm: read from a knee's height, so its figures are
// large.
const chalkHigh = 9.2

var chalkCols = []struct {
	title string
	x, w  float64
}{
	{"", 0, 9}, {"frame", 8, 18}, {"lowest corner: across", 28, 33.8}, {"up", 64, 22.8}, {"far corner: across", 90, 33.8}, {"up", 126, 18.8}, {"side or corner up", 146, 16}, {"against seams", 163, 24},
}

func chalkHead() block {
	return block{h: 5.6, keep: true, draw: func(s *sheet, y float64) {
		for _, c := range chalkCols {
			s.say(fitted(drawing.Label(drawing.Pt(c.x, y+3.6), drawing.Small, c.title).Quiet(), c.w+1.5, drawing.Small))
		}
		s.line(drawing.PenEdge, 0, y+5.6, fieldW, y+5.6)
	}}.says()
}

func chalkRow(r job.Result, i int, head *block) block {
	c, cells := r.Making.Lay.Chalk[i], chalkCells(r, i)
	return block{h: chalkHigh, again: head, draw: func(s *sheet, y float64) {
		s.add(drawing.TickBox(drawing.Pt(0, y+(chalkHigh-drawing.BoxMM)/2)))
		for k, words := range cells {
			col := chalkCols[k+1]
			t := drawing.Label(drawing.Pt(col.x, y+5.2), drawing.Lead, words).Bold()
			switch k {
			case 0:
				t = drawing.Label(drawing.Pt(col.x, y+6.6), drawing.Figure, words).Bold()
			case 5, 6:
				t = drawing.Label(t.At, drawing.Body, words)
			}
			s.say(fitted(t, col.w, drawing.Small))
		}
		for k := range cells {
			if n := chalkCorner(c, k); n > 0 {
				s.say(drawing.Label(drawing.Pt(chalkCols[k+1].x, y+8.6), drawing.Small, "corner "+itoa(n)).Quiet())
			}
		}
		s.line(drawing.PenHair, 0, y+chalkHigh, fieldW, y+chalkHigh)
	}}.says()
}

// chalkCells are a frame, its two marks, the side that is up, and the seams that
// close as it is laid.
func chalkCells(r job.Result, i int) []string {
	c, how := r.Making.Lay.Chalk[i], ""
	if i < len(r.Making.Lay.Order) {
		o := r.Making.Lay.Order[i]
		var seams []string
		for _, n := range o.Against {
			seams = append(seams, itoa(n))
		}
		if how = strings.Join(seams, ", "); how == "" {
			how = o.How
		}
	}
	out := []string{c.Frame}
	for _, m := range c.Marks {
		if m < len(c.Corners) {
			out = append(out, fromLine(r, c.Corners[m].Across), first(r.Job, c.Corners[m].Up))
		} else {
			out = append(out, "", "")
		}
	}
	up := "any"
	switch {
	case c.UpSide > 0:
		up = "side " + itoa(c.UpSide)
	case c.UpCorner > 0:
		up = "corner " + itoa(c.UpCorner)
	}
	return append(out, up, how)
}

// chalkCorner is the number of the corner that a cell measures across to, else 0.
func chalkCorner(c job.ChalkFacts, cell int) int {
	if m := (cell - 1) / 2; (cell == 1 || cell == 3) && c.Marks[m] < len(c.Corners) {
		return c.Corners[c.Marks[m]].Corner
	}
	return 0
}

// chalkTable is the same for screens.
func chalkTable(r job.Result) twin {
	cols := []column{{title: "frame"}, {title: "lowest corner: across"}, {title: "lowest corner: up"}, {title: "far corner: across"}, {title: "far corner: up"}, {title: "side or corner up"}, {title: "against seams"}}
	var rows [][]cell
	for i := range r.Making.Lay.Chalk {
		var row []cell
		for k, words := range chalkCells(r, i) {
			c := text(words)
			if n := chalkCorner(r.Making.Lay.Chalk[i], k); n > 0 {
				c = over(words, "corner "+itoa(n))
			}
			row = append(row, c)
		}
		rows = append(rows, row)
	}
	return webTable("Chalk marks", cols, rows)
}
