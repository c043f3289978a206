package packet

import (
	"sort"

	"bowerwright/drawing"
	"bowerwright/job"
)

// labels puts up-mark and label inside every frame where there is room, and
// gives the labels that found none.
func (v view) labels(s *sheet, ps []placed, pl *placer) (left []string) {
	order := make([]int, len(ps))
	for i := range order {
		order[i] = i
	}
	// Small frames have the fewest places, so they choose first.
	sort.SliceStable(order, func(i, j int) bool { return area2(ps[order[i]].box) < area2(ps[order[j]].box) })
	for _, i := range order {
		if !v.label(s, ps, i, pl) {
			left = append(left, ps[i].f.Label)
		}
	}
	return left
}

func area2(b box) float64 { return (b.x1 - b.x0) * (b.y1 - b.y0) }

// A tag is one way to set a label with its up-mark, within a width and height.
type tag struct {
	pt, mark float64
	over     bool // the mark stands over the label, else before it
}

// The tags, largest first; the last has no mark: on paper all is upright.
var tags = []tag{
	{drawing.Lead, 3.4, true}, {drawing.Body, 2.7, true}, {drawing.Small, 2.3, true}, {drawing.Small, 2.2, false}, {drawing.Small, 0, false},
}

// smallTags is where those begin that leave the most room beside them.
const smallTags = 3

// tagShare is how much of a frame's height its tag may take, so that the seams
// above and below find room for their numbers.
const tagShare = 0.45

func (g tag) size(label string) (w, h float64) {
	w, h = drawing.Width(label, drawing.Bold, g.pt), capHeight(g.pt)
	switch {
	case g.over:
		return max(w, g.mark), h + g.mark*1.1 + 1
	case g.mark > 0:
		return w + g.mark + 0.8, h
	}
	return w, h
}

// label tries the tags in turn, and then one beside the frame with a line to
// it.
func (v view) label(s *sheet, ps []placed, i int, pl *placer) bool {
	p := ps[i]
	at := p.places(7)
	sizes := tags
	if v.small {
		sizes = tags[smallTags:]
	}
	for _, g := range sizes {
		w, h := g.size(p.f.Label)
		if high := p.box.y1 - p.box.y0; g.over && h > tagShare*high || h > high || w > p.box.x1-p.box.x0 {
			continue
		}
		air := 0.7
		if !g.over { // small frames: every tenth counts
			air = 0.35
		}
		if c, ok := roomIn(ps, i, pl, at, w, h, air); ok {
			s.tag(g, c, w, h, p.f.Label)
			return true
		}
	}
	return len(ps) <= mostBeside && v.beside(s, p, pl)
}

// mostBeside is the number of frames beyond which labels beside their frames
// would hide the drawing; the list of frames then has to do.
const mostBeside = 200

func (s *sheet) tag(g tag, c drawing.Point, w, h float64, label string) {
	s.white(around(c, w, h).grown(0.3))
	t := drawing.Label(drawing.Pt(c.X+w/2, c.Y+h/2), g.pt, label).Bold().RightAligned()
	switch {
	case g.over:
		t.At.X = c.X
		t = t.Centred()
		s.add(drawing.UpMark(drawing.Pt(c.X, c.Y-h/2+g.mark*1.1), g.mark)...)
	case g.mark > 0:
		s.add(drawing.UpMark(drawing.Pt(c.X-w/2+g.mark/2, c.Y+h/2), g.mark)...)
	}
	s.say(t)
}

// roomIn takes the first free place in a frame for words of a size.
func roomIn(ps []placed, i int, pl *placer, at []drawing.Point, w, h, air float64) (drawing.Point, bool) {
	for _, c := range at {
		if b := around(c, w, h).grown(air); pl.free(b) && owner(ps, c) == i {
			pl.take(b)
			return c, true
		}
	}
	return drawing.Point{}, false
}

// places are points of a frame's inside, nearest to its middle first.
func (p placed) places(n int) []drawing.Point {
	region := p.in
	if len(region) < 3 {
		region = p.out
	}
	b := extent(region)
	mid := drawing.Pt((b.x0+b.x1)/2, (b.y0+b.y1)/2)
	var out []drawing.Point
	for i := range 2*n + 1 {
		for j := range 2*n + 1 {
			c := drawing.Pt(b.x0+(b.x1-b.x0)*float64(i)/float64(2*n), b.y0+(b.y1-b.y0)*float64(j)/float64(2*n))
			if inside(region, c) {
				out = append(out, c)
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Dist(mid) < out[j].Dist(mid) })
	return out
}

// owner is the smallest frame that a point lies in: a frame inside an arch is
// not the arch.
func owner(ps []placed, c drawing.Point) int {
	best := -1
	for i, p := range ps {
		if c.X < p.box.x0 || c.X > p.box.x1 || c.Y < p.box.y0 || c.Y > p.box.y1 || !inside(p.out, c) {
			continue
		}
		if best < 0 || area2(p.box) < area2(ps[best].box) {
			best = i
		}
	}
	return best
}

// beside puts a label next to a frame that has no room in it, with a line to
// its nearest board.
func (v view) beside(s *sheet, p placed, pl *placer) bool {
	w, h := drawing.Width(p.f.Label, drawing.Bold, drawing.Small), capHeight(drawing.Small)
	if len(p.out) == 0 {
		return false
	}
	mid := p.middle()
	for r := 3.0; r < 30; r += 1.5 {
		for _, from := range p.out {
			for a := range 16 {
				c := from.Add(drawing.Pt(r, 0).Rot(float64(a) * 0.3926990817))
				if b := around(c, w, h).grown(0.6); pl.free(b) {
					pl.take(b)
					s.line(drawing.PenEdge, c.X, c.Y, mid.X, mid.Y)
					s.add(drawing.Circle(drawing.Pen{}, drawing.Black, mid, 0.7))
					s.white(b)
					s.say(drawing.Label(drawing.Pt(c.X, c.Y+h/2), drawing.Small, p.f.Label).Bold().Centred())
					return true
				}
			}
		}
	}
	return false
}

// middle is a point of the frame for a line to end at: inside it where it is
// closed, on its first board where that would be in the open.
func (p placed) middle() drawing.Point {
	if at := p.places(3); len(at) > 0 && !p.f.Open {
		return at[0]
	}
	return p.out[0].Lerp(p.out[1%len(p.out)], 0.5)
}

// white clears a box, so that reach lines do not run through words.
func (s *sheet) white(b box) {
	s.add(drawing.Rect(drawing.Pen{}, drawing.White, b.x0, b.y0, b.x1-b.x0, b.y1-b.y0))
}

// numbers puts every seam's number on one side of it. It gives the side for
// each: 1 left as one walks along it, -1 right, 0 where there is no room.
func (v view) numbers(s *sheet, r job.Result, pl *placer) []float64 {
	sides := make([]float64, len(r.Seams))
	for i, m := range r.Seams {
		for _, sign := range []float64{1, -1} {
			if v.number(s, m, pl, sign) {
				sides[i] = sign
				break
			}
		}
	}
	return sides
}

// secondNumbers puts the number on the other side too, where the labels have
// left room.
func (v view) secondNumbers(s *sheet, r job.Result, pl *placer, sides []float64) {
	for i, m := range r.Seams {
		if sides[i] != 0 {
			v.number(s, m, pl, -sides[i])
		}
	}
}

// Where along a seam its number may stand, best first, and how far from it in
// mm: clear of the board's edge at most scales.
var (
	alongSeam = []float64{0.5, 0.35, 0.65, 0.2, 0.8}
	awayMost  = 7.0
)

func (v view) number(s *sheet, m job.SeamFacts, pl *placer, sign float64) bool {
	a, b := v.at(m.From), v.at(m.To)
	u := b.Sub(a).Unit()
	text := itoa(m.Number)
	w, h := drawing.Width(text, drawing.Regular, drawing.Small), capHeight(drawing.Small)
	n := u.Perp().Mul(sign)
	reach := (w*abs(n.X) + h*abs(n.Y)) / 2
	c, ok := pl.seat(alongSeam, func(t, d float64) box {
		return around(a.Lerp(b, t).Add(n.Mul(reach+0.6+d)), w, h).grown(0.35)
	})
	if ok {
		pl.take(c)
		s.white(c)
		s.say(drawing.Label(drawing.Pt((c.x0+c.x1)/2, c.y1-0.35), drawing.Small, text).Centred())
	}
	return ok
}

// seat looks for the nearest free box.
func (p *placer) seat(ts []float64, at func(t, d float64) box) (box, bool) {
	for d := 0.0; d <= awayMost; d += 0.5 {
		for _, t := range ts {
			if b := at(t, d); p.free(b) {
				return b, true
			}
		}
	}
	return box{}, false
}
