package packet

import (
	"math"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

func tanDeg(d float64) float64 { return math.Tan(d * math.Pi / 180) }

// The picture of a part at the saw, page mm. Angles are true; the part's length
// and depth are drawn to be seen, not to scale.
const (
	picRail   = 6.5
	picStop   = 9.0
	picBoard  = 28.0 // of the board beyond the blade
	picStart  = 18.0 // the stop's face
	picLength = 104.0
)

// A picSize is how large a picture is, mm.
type picSize struct {
	high  float64 // in all
	depth float64 // of the part, from rail to front
	blade float64 // the blade's line runs past the part by this
	turn  float64 // from the part to the signs for turning
}

var (
	roomyPicture = picSize{46, 16, 13, 7}
	smallPicture = picSize{38, 12, 11, 5.6}
	tightPicture = picSize{34, 12, 11, 5.6}
)

// fencePicture shows the part against the fence (or on the table, when the head
// is tilted) with the stop, the blade, what is held, and how the board is
// turned after the cut. Named says which part it is.
func fencePicture(r job.Result, t task, named bool, size picSize) block {
	k := picture(size.high, fenceSays(r, t), func(s *sheet, y float64) {
		pic := sawPicture{picSize: size, s: s, r: r, t: t, y: y, right: r.Saw.Stop == "right", tilted: strings.Contains(t.part.First.Way, "tilted"), named: named}
		pic.draw()
	})
	k.gap = 2
	return k
}

// fenceSays is the picture in words: what lies where, and the same figures.
func fenceSays(r job.Result, t task) string {
	p := t.part
	side, from := "left", "seen from above: the part lies with one face against the fence"
	if r.Saw.Stop == "right" {
		side = "right"
	}
	if strings.Contains(p.First.Way, "tilted") {
		from = "seen from the front: the part lies on the saw's table"
	}
	s := "Part " + p.Mark + " at the saw, " + from + ", its end at the stop on the " + side + ", the board held beyond the blade. "
	if p.Rough != nil {
		return s + "Square ends, " + first(r.Job, *p.Rough) + " long."
	}
	s += "Outside face " + first(r.Job, p.Outside) + ", inside face " + first(r.Job, p.InsideLength) + ", stop at " + first(r.Job, t.stop.Stop) +
		"; the blade stands at " + unsigned(t.stop.Second) + " from straight across, counted from along the board: " + p.Second.Along.Text + "."
	if turns(t.turn) {
		s += " After each cut: " + t.turn + "."
	}
	return s
}

// A sawPicture is drawn with the stop at the left and turned over when it is on
// the right. Down is away from the fence, or, tilted, up from the table.
type sawPicture struct {
	picSize
	s      *sheet
	r      job.Result
	t      task
	y      float64
	right  bool // the stop is right of the blade
	tilted bool
	named  bool
}

// pt turns a place counted from the stop's end and from the rail into one on
// the page.
func (p sawPicture) pt(x, d float64) drawing.Point {
	if p.right {
		x = fieldW - x
	}
	if p.tilted {
		return drawing.Pt(x, p.y+p.high-picRail-1-d)
	}
	return drawing.Pt(x, p.y+picRail+1+d)
}

// leans are the two ends' leans at the rail's face: positive when the face at the
// rail is the longer.
func (p sawPicture) leans() (l, r float64) {
	l, r = slants(p.t.part, p.depth)
	if p.insideAtRail() {
		return -l, -r
	}
	return l, r
}

// insideAtRail says whether the frame's inside lies at the fence: where the
// inside carries both long points.
func (p sawPicture) insideAtRail() bool { return strings.HasPrefix(p.t.stop.Face, "inside") }

func (p sawPicture) draw() {
	l, r := p.leans()
	x0, x1 := picStart, picStart+picLength
	// The corner that touches the stop is the end's farthest point.
	near := [2]float64{x0 + max(0, -l), x1 - max(0, -r)}
	far := [2]float64{x0 + max(0, l), x1 - max(0, r)}
	p.rail()
	p.s.add(drawing.Polygon(drawing.Pen{}, drawing.Black, p.pt(x0-picStop, 0), p.pt(x0, 0), p.pt(x0, p.depth+4), p.pt(x0-picStop, p.depth+4)))
	rest := drawing.PenHidden
	p.s.add(drawing.Stroke(rest, p.pt(near[1], 0), p.pt(near[1]+picBoard+max(0, -r), 0)),
		drawing.Stroke(rest, p.pt(far[1], p.depth), p.pt(near[1]+picBoard+max(0, -r), p.depth)))
	p.s.add(drawing.Polygon(drawing.PenOutline, drawing.Solid(drawing.Slip), p.pt(near[0], 0), p.pt(near[1], 0), p.pt(far[1], p.depth), p.pt(far[0], p.depth)))
	p.cut(near[1], far[1])
	p.words(max(near[0], far[0]), min(near[1], far[1]))
	p.held(max(near[1], far[1]))
	p.turning()
}

// rail is the fence, or the table.
func (p sawPicture) rail() {
	a, b := p.pt(0, -picRail), p.pt(fieldW, 0)
	p.s.add(drawing.Rect(drawing.PenEdge, drawing.Solid(drawing.Boxwood), min(a.X, b.X), min(a.Y, b.Y), fieldW, picRail))
	name := "fence, seen from above"
	if p.tilted {
		name = "saw table, seen from the front"
	}
	t := drawing.Label(p.pt(fieldW-3, -picRail/2), drawing.Small, name)
	t.At.Y += 1.15
	if !p.right {
		t = t.RightAligned()
	}
	p.s.say(t)
	stop := drawing.Label(p.pt(picStart-picStop/2, p.depth+4), drawing.Small, "stop").Centred()
	stop.At.Y = p.below(stop.At.Y)
	p.s.say(stop)
}

// below moves a baseline just past a line, away from the rail.
func (p sawPicture) below(y float64) float64 {
	if p.tilted {
		return y - 1.6
	}
	return y + 4
}

// cut is the cut's line through the part and past it, the line straight
// across, and the angle between them.
func (p sawPicture) cut(near, far float64) {
	u := drawing.Pt(far-near, p.depth).Unit()
	at := func(d float64) drawing.Point { return p.pt(near+u.X*d/u.Y, d) }
	foot := p.depth + p.blade
	p.s.add(drawing.Stroke(drawing.PenCut, at(-picRail-0.4), at(foot)))
	setting := p.t.stop.Second
	end := near + u.X*foot/u.Y
	p.s.add(drawing.Stroke(drawing.PenHidden, p.pt(end, foot), p.pt(end, p.depth+2)))
	if math.Abs(setting.Degrees) > 0.5 {
		p.arc(end, foot, math.Atan2(-u.X, u.Y))
	}
	p.setting(end, foot)
}

// setting says the angle beside the blade's foot, clear of the signs for
// turning: beyond the blade, and where a blade leaning out leaves little room
// there, at the edge and without the other way of counting.
func (p sawPicture) setting(end, foot float64) {
	const clear, room = 116.0, 55.0
	x := max(end+7, clear)
	edge := x+room > fieldW
	if edge {
		x = fieldW
	}
	at := p.pt(x, foot-4)
	if p.tilted {
		at.Y = p.y + 5.5 // clear of the board, which lies at the foot
	}
	lines := []drawing.Text{drawing.Label(at, drawing.Figure, unsigned(p.t.stop.Second)).Bold(),
		drawing.Label(at, drawing.Small, "from straight across").Quiet()}
	if p.t.part.Rough == nil && !edge && p.high > tightPicture.high {
		lines = append(lines, drawing.Label(at, drawing.Small, "counted from along the board: "+p.t.part.Second.Along.Text).Quiet())
	}
	for i, l := range lines {
		if p.right != edge {
			l = l.RightAligned()
		}
		l.At.Y += float64(i) * leading(drawing.Small)
		p.s.say(l)
	}
}

// arc marks the angle from the line straight across to the blade's.
func (p sawPicture) arc(x, d, lean float64) {
	const radius, n = 10.0, 12
	pts := make([]drawing.Point, n+1)
	for i := range pts {
		a := lean * float64(i) / n
		pts[i] = p.pt(x+radius*math.Sin(a), d-radius*math.Cos(a))
	}
	p.s.add(drawing.Stroke(drawing.PenEdge, pts...))
}

// words are the lengths along both faces and the up-mark.
func (p sawPicture) words(x0, x1 float64) {
	part := p.t.part
	w := x1 - x0 - 6
	at := func(d float64) drawing.Point {
		q := p.pt((x0+x1)/2, d)
		q.Y += 1.4
		return q
	}
	face := "against the fence"
	if p.tilted {
		face = "on the table"
	}
	railSize, farSize := part.Outside, part.InsideLength
	if p.insideAtRail() {
		railSize, farSize = farSize, railSize
	}
	if part.Rough != nil {
		railSize, farSize = *part.Rough, *part.Rough
	}
	name := pointName(part, railSize) + " " + first(p.r.Job, railSize)
	if p.tips() {
		name = "tip to tip " + first(p.r.Job, p.t.stop.Stop)
	}
	if p.named {
		name = part.Mark + ": " + name
	}
	if full := name + ", " + face; !p.tips() && drawing.Width(full, drawing.Bold, drawing.Body) < w-12 {
		name = full
	}
	p.s.say(fitted(drawing.Label(at(p.depth*0.27), drawing.Lead, name).Bold().Centred(), w-12, drawing.Small))
	if part.Rough == nil {
		p.s.say(fitted(drawing.Label(at(p.depth*0.72), drawing.Lead, pointName(part, farSize)+" "+first(p.r.Job, farSize)).Centred(), w, drawing.Small))
	}
	foot := p.pt(x0+5, p.depth*0.5)
	if p.right {
		foot = p.pt(x1-5, p.depth*0.5)
	}
	foot.Y += 2
	p.s.add(drawing.UpMark(foot, 4)...)
}

// tips says whether the stop counts between tips on two faces.
func (p sawPicture) tips() bool { return p.t.stop.Point == "tip" }

func pointName(p job.PartFacts, s job.Size) string {
	switch {
	case p.Rough != nil:
		return "square ends"
	case math.Abs(p.LongPoint.MM-p.ShortPoint.MM) < 1e-6:
		return "both faces"
	case math.Abs(s.MM-p.LongPoint.MM) <= math.Abs(s.MM-p.ShortPoint.MM):
		return "long point"
	}
	return "short point"
}

// held names what the hand or the clamp is on: the board beyond the blade.
func (p sawPicture) held(x float64) {
	t := drawing.Label(p.pt(x+6, p.depth/2), drawing.Small, "board, held here")
	t.At.Y += 1.2
	if p.right {
		t = t.RightAligned()
	}
	p.s.say(fitted(t, fieldW-x-8, drawing.Small))
}

// turning shows how the board is turned after the cut, below the part.
func (p sawPicture) turning() {
	if !turns(p.t.turn) {
		return
	}
	x, y := turnStart, p.y+picRail+p.depth+p.turn
	if p.tilted {
		y = p.y + 1
	}
	roll, swap := strings.Contains(p.t.turn, "roll"), strings.Contains(p.t.turn, "swap")
	if p.right {
		x = fieldW - turnStart - turnWide
		if roll && swap {
			x -= turnSign
		}
	}
	if roll {
		rollSign(p.s, x, y)
		x += turnSign
	}
	if swap {
		swapSign(p.s, x, y)
		x += turnSign
	}
	p.s.say(fitted(drawing.Label(drawing.Pt(x, y+5), drawing.Small, "after each cut:").Quiet(), 30, drawing.Small))
	p.s.say(fitted(drawing.Label(drawing.Pt(x, y+9.6), drawing.Body, p.t.turn).Bold(), 38, drawing.Small))
}

// How much room the signs take, mm.
const (
	turnStart = 25.0
	turnSign  = 24.0
	turnWide  = 62.0
)

// rollSign is a board turning over about its length, its end staying put.
func rollSign(s *sheet, x, y float64) {
	s.add(drawing.Polygon(drawing.PenEdge, drawing.White, trapezoid(x, x+16, y+2.5, y+8.5, 3.2, 0, true)...))
	s.add(drawing.Stroke(drawing.PenHidden, drawing.Pt(x-2, y+5.5), drawing.Pt(x+19, y+5.5)))
	s.add(drawing.Path(drawing.PenEdge, drawing.Fill{}, drawing.Lines(drawing.Pt(x+15, y+10.4)).CurveTo(
		drawing.Pt(x+22, y+10.4), drawing.Pt(x+22, y+0.8), drawing.Pt(x+17, y+0.8))))
	s.add(drawing.Arrow(drawing.Pt(x+17.4, y+0.8), drawing.Pt(x+13.4, y+0.8))...)
}

// swapSign is a board turning end for end on the table.
func swapSign(s *sheet, x, y float64) {
	s.add(drawing.Polygon(drawing.PenEdge, drawing.White, trapezoid(x, x+18, y+3.5, y+9.5, 3.2, 0, true)...))
	c := drawing.Pt(x+9, y+6.5)
	s.add(drawing.Circle(drawing.Pen{}, drawing.Black, c, 0.7), drawing.Arc(drawing.PenEdge, c, 5, 25, 140))
	s.add(drawing.Arrow(drawing.Pt(c.X-3.3, c.Y-3.7), drawing.Pt(c.X-5.6, c.Y-0.9))...)
}
