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
	small  bool    // labels are set small
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
	if p.f.Round { // its outline is a circle in short straight bits, not joints
		return
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
