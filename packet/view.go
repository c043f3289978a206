package packet

import (
	"sort"
	"strconv"

	"bowerwright/drawing"
	"bowerwright/job"
)

func itoa(n int) string { return strconv.Itoa(n) }

// A view turns the set piece's places (mm, x from its left end, y up from the
// floor) into places on a page. Seen from behind, left and right change over
// and nothing else does: words stay readable.
type view struct {
	scale  float64 // page mm to a real mm
	origin drawing.Point
	width  float64 // of the set piece, real mm
	back   bool
}

// viewIn fits the whole set piece into a box, standing on the box's foot in the
// middle of it.
func viewIn(r job.Result, b box, back bool) view {
	w, h := max(r.Overall.Width.MM, 1), max(r.Overall.Height.MM, 1)
	v := view{scale: min((b.x1-b.x0)/w, (b.y1-b.y0)/h), width: w, back: back}
	v.origin = drawing.Pt((b.x0+b.x1)/2-w*v.scale/2, b.y1)
	return v
}

func (v view) at(p job.XY) drawing.Point {
	x := p[0]
	if v.back {
		x = v.width - x
	}
	return drawing.Pt(v.origin.X+x*v.scale, v.origin.Y-p[1]*v.scale)
}

func (v view) all(ps []job.XY) []drawing.Point {
	out := make([]drawing.Point, len(ps))
	for i, p := range ps {
		out[i] = v.at(p)
	}
	return out
}

// left and right are the ends of the set piece on the page.
func (v view) left() float64  { return v.origin.X }
func (v view) right() float64 { return v.origin.X + v.width*v.scale }

// A placed frame, in page mm.
type placed struct {
	f       job.FrameFacts
	out, in []drawing.Point
	box     box
}

func (v view) placed(frames []job.FrameFacts) []placed {
	ps := make([]placed, len(frames))
	for i, f := range frames {
		ps[i] = placed{f: f, out: v.all(f.Outside), in: v.all(f.Inside)}
		ps[i].box = extent(ps[i].out)
	}
	return ps
}

// finest is the narrowest board drawn with both its edges, page mm: nearer,
// the two lines run into one.
const finest = 0.45

// boards draws a frame: both edges of its boards and the joints between them.
func (p placed) boards(s *sheet) {
	if len(p.out) < 2 {
		return
	}
	if len(p.in) != len(p.out) || p.depth() < finest {
		s.add(p.outline(drawing.PenOutline))
		return
	}
	if p.f.Open {
		ring := append([]drawing.Point{}, p.out...)
		for i := len(p.in) - 1; i >= 0; i-- {
			ring = append(ring, p.in[i])
		}
		s.add(drawing.Polygon(drawing.PenEdge, drawing.White, ring...))
	} else {
		s.add(drawing.Holed(drawing.PenEdge, drawing.White, drawing.Ring(p.out...), drawing.Ring(p.in...)))
	}
	for i := range p.out {
		if !p.f.Open || i > 0 && i < len(p.out)-1 {
			s.add(drawing.Stroke(drawing.PenHair.In(drawing.Ink), p.out[i], p.in[i]))
		}
	}
}

func (p placed) outline(pen drawing.Pen) drawing.Item {
	if p.f.Open {
		return drawing.Stroke(pen, p.out...)
	}
	return drawing.Polygon(pen, drawing.Fill{}, p.out...)
}

// depth is how wide a board looks on the page: the distance from the inside's
// first corner to the outside of the first side.
func (p placed) depth() float64 {
	d := p.out[1].Sub(p.out[0])
	if d.Len() == 0 {
		return 0
	}
	c := d.Cross(p.in[1].Sub(p.out[0])) / d.Len()
	return max(c, -c)
}

// block tells the placer where a frame's lines are.
func (p placed) block(pl *placer) {
	pl.ring(p.out)
	if len(p.in) > 1 {
		pl.ring(p.in)
	}
}

// picture draws all frames, the seams over them and the floor under them.
func (v view) picture(s *sheet, r job.Result, ps []placed) {
	for _, p := range ps {
		p.boards(s)
	}
	for _, m := range r.Seams {
		s.add(drawing.Stroke(drawing.PenSeam, v.at(m.From), v.at(m.To)))
	}
	s.line(drawing.PenGround, v.left()-9, v.origin.Y, v.right()+9, v.origin.Y)
}

// overall draws the two outermost dimensions.
func (v view) overall(s *sheet, r job.Result, dx, dy float64) {
	lo, hi := drawing.Pt(v.left(), v.origin.Y), drawing.Pt(v.right(), v.origin.Y)
	top := drawing.Pt(v.left(), v.origin.Y-r.Overall.Height.MM*v.scale)
	s.add(sized(drawing.Level(lo, hi, v.origin.Y+dy, ""), r.Job, r.Overall.Width))
	s.add(sized(drawing.Upright(lo, top, v.left()-dx, ""), r.Job, r.Overall.Height))
}

// riser is how far above a low set piece the figure of its height stands when
// it does not fit beside it: it then goes on past the top.
func (v view) riser(r job.Result) float64 {
	d := sized(drawing.Dimension{}, r.Job, r.Overall.Height)
	w := drawing.LabelOf(drawing.Point{}, drawing.Body, drawing.B(d.S), drawing.R(d.After)).Width() + 4
	if high := r.Overall.Height.MM * v.scale; w > high {
		return w
	}
	return 0
}

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
	for _, g := range tags {
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

func abs(x float64) float64 { return max(x, -x) }

// A level is a height over the floor shared by frames.
type level struct {
	size job.Size
	from drawing.Point // where its reach line starts: the frame nearest the edge
}

// heights writes at the right edge how high the frames that do not stand on the
// floor begin. Levels nearer than a line of text are left to the table.
func (v view) heights(s *sheet, r job.Result, ps []placed, x float64) {
	byText := map[string]int{}
	var levels []level
	for _, p := range ps {
		if p.f.Stands || p.f.Lowest.MM <= onFloor {
			continue
		}
		low := drawing.Pt(p.box.x1, p.box.y1)
		i, ok := byText[p.f.Lowest.US]
		if !ok {
			byText[p.f.Lowest.US] = len(levels)
			levels = append(levels, level{p.f.Lowest, low})
		} else if low.X > levels[i].from.X {
			levels[i].from = low
		}
	}
	sort.SliceStable(levels, func(i, j int) bool { return levels[i].from.Y > levels[j].from.Y })
	last := v.origin.Y + 1
	for _, l := range levels {
		y := l.from.Y
		if last-y < 4.6 {
			continue
		}
		last = y
		s.line(drawing.PenReach, l.from.X, y, x, y)
		s.add(fitted(drawing.Label(drawing.Pt(x+1, y+1.1), drawing.Small, first(r.Job, l.size)), fieldW-x-1, drawing.Small))
	}
}
