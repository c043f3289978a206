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
	picDepth  = 17.0
	picRail   = 6.5
	picHigh   = 52.0
	picStop   = 9.0
	picBoard  = 28.0 // of the board beyond the blade
	picBlade  = 14.0 // the blade's line runs past the part by this
	picStart  = 18.0 // the stop's face
	picLength = 104.0
)

// fencePicture shows the part against the fence (or on the table, when the head
// is tilted) with the stop, the blade and what is held.
func fencePicture(r job.Result, k job.KindFacts, t task) block {
	return block{h: picHigh, gap: 3, draw: func(s *sheet, y float64) {
		tilted := strings.Contains(t.part.First.Way, "tilted")
		pic := sawPicture{s: s, r: r, t: t, y: y, right: r.Saw.Stop == "right", tilted: tilted}
		pic.draw()
	}}
}

// A sawPicture is drawn with the stop at the left and turned over when it is on
// the right. Down is away from the fence, or, tilted, up from the table.
type sawPicture struct {
	s      *sheet
	r      job.Result
	t      task
	y      float64
	right  bool // the stop is right of the blade
	tilted bool
}

// pt turns a place counted from the stop's end and from the rail into one on
// the page.
func (p sawPicture) pt(x, d float64) drawing.Point {
	if p.right {
		x = fieldW - x
	}
	if p.tilted {
		return drawing.Pt(x, p.y+picHigh-picRail-1-d)
	}
	return drawing.Pt(x, p.y+picRail+1+d)
}

// cut is the two ends' leans at the rail's face: positive when the face at the
// rail is the longer.
func (p sawPicture) leans() (l, r float64) {
	l, r = slants(p.t.part, picDepth)
	if strings.Contains(p.t.stop.Face, "inside") {
		return -l, -r
	}
	return l, r
}

func (p sawPicture) draw() {
	l, r := p.leans()
	x0, x1 := picStart, picStart+picLength
	// The corner that touches the stop is the end's farthest point.
	near := [2]float64{x0 + max(0, -l), x1 - max(0, -r)}
	far := [2]float64{x0 + max(0, l), x1 - max(0, r)}
	p.rail()
	p.s.add(drawing.Polygon(drawing.Pen{}, drawing.Black, p.pt(x0-picStop, 0), p.pt(x0, 0), p.pt(x0, picDepth+4), p.pt(x0-picStop, picDepth+4)))
	rest := drawing.PenHidden
	p.s.add(drawing.Stroke(rest, p.pt(near[1], 0), p.pt(near[1]+picBoard+max(0, -r), 0)),
		drawing.Stroke(rest, p.pt(far[1], picDepth), p.pt(near[1]+picBoard+max(0, -r), picDepth)))
	p.s.add(drawing.Polygon(drawing.PenOutline, drawing.Solid(drawing.Slip), p.pt(near[0], 0), p.pt(near[1], 0), p.pt(far[1], picDepth), p.pt(far[0], picDepth)))
	p.blade(near[1], far[1])
	p.words(max(near[0], far[0]), min(near[1], far[1]))
	p.held(max(near[1], far[1]))
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
	stop := drawing.Label(p.pt(picStart-picStop/2, picDepth+4), drawing.Small, "stop").Centred()
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

// blade is the cut's line through the part and past it, the line straight
// across, and the angle between them.
func (p sawPicture) blade(near, far float64) {
	u := drawing.Pt(far-near, picDepth).Unit()
	at := func(d float64) drawing.Point { return p.pt(near+u.X*d/u.Y, d) }
	foot := picDepth + picBlade
	p.s.add(drawing.Stroke(drawing.PenCut, at(-picRail-0.4), at(foot)))
	setting := p.t.stop.Second
	end := near + u.X*foot/u.Y
	words := unsigned(setting)
	p.s.add(drawing.Stroke(drawing.PenHidden, p.pt(end, foot), p.pt(end, picDepth+2)))
	if math.Abs(setting.Degrees) > 0.5 {
		p.arc(end, foot, math.Atan2(-u.X, u.Y))
	}
	dir := 1.0
	if far > near {
		dir = -1
	}
	big := drawing.Label(p.pt(end+dir*(9+max(0, near-far)*0.4), foot-3), drawing.Figure, words).Bold()
	small := drawing.Label(big.At, drawing.Small, "from straight across").Quiet()
	along := drawing.Label(big.At, drawing.Small, "a scale counting from along the board reads "+p.t.part.Second.Along.Text).Quiet()
	if p.right == (dir > 0) {
		big, small, along = big.RightAligned(), small.RightAligned(), along.RightAligned()
	}
	if p.t.part.Rough != nil {
		along.Spans = nil
	}
	step := 4.4
	if p.tilted {
		big.At.Y -= 0
	}
	small.At.Y += step
	along.At.Y += 2 * step
	p.s.say(big)
	p.s.say(small)
	p.s.say(along)
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
	if strings.Contains(p.t.stop.Face, "inside") {
		railSize, farSize = farSize, railSize
	}
	if part.Rough != nil {
		railSize, farSize = *part.Rough, *part.Rough
	}
	name := pointName(part, railSize) + " " + first(p.r.Job, railSize) + ", " + face
	p.s.say(fitted(drawing.Label(at(picDepth*0.27), drawing.Lead, name).Bold().Centred(), w-12, drawing.Small))
	if part.Rough == nil {
		p.s.say(fitted(drawing.Label(at(picDepth*0.72), drawing.Lead, pointName(part, farSize)+" "+first(p.r.Job, farSize)).Centred(), w, drawing.Small))
	}
	foot := p.pt(x0+5, picDepth*0.5)
	if p.right {
		foot = p.pt(x1-5, picDepth*0.5)
	}
	foot.Y += 2
	p.s.add(drawing.UpMark(foot, 4)...)
}

func pointName(p job.PartFacts, s job.Size) string {
	switch {
	case p.Rough != nil:
		return "square ends"
	case math.Abs(p.LongPoint.MM-p.ShortPoint.MM) < 1e-6:
		return "length"
	case math.Abs(s.MM-p.LongPoint.MM) <= math.Abs(s.MM-p.ShortPoint.MM):
		return "long point"
	}
	return "short point"
}

// held names what the hand or the clamp is on: the board beyond the blade.
func (p sawPicture) held(x float64) {
	t := drawing.Label(p.pt(x+6, picDepth/2), drawing.Small, "board, held here")
	t.At.Y += 1.2
	if p.right {
		t = t.RightAligned()
	}
	p.s.say(fitted(t, fieldW-x-8, drawing.Small))
}

// turnPictures show the two ways to turn a board, each with its name.
func turnPictures(s *sheet, b box) {
	w := (b.x1 - b.x0 - 6) / 2
	for i, name := range []string{"roll: about its length", "swap ends: end for end"} {
		x, y := b.x0+float64(i)*(w+6), b.y0+2
		q := trapezoid(x+4, x+w-6, y+3, y+9, 3.5, 0, true)
		s.add(drawing.Polygon(drawing.PenEdge, drawing.White, q...))
		if i == 0 {
			s.add(drawing.Stroke(drawing.PenHidden, drawing.Pt(x, y+6), drawing.Pt(x+w, y+6)))
			s.add(drawing.Path(drawing.PenEdge, drawing.Fill{}, drawing.Lines(drawing.Pt(x+w-6, y+10.5)).CurveTo(drawing.Pt(x+w+1, y+10.5), drawing.Pt(x+w+1, y+1.5), drawing.Pt(x+w-4, y+1.5))))
			s.add(drawing.Arrow(drawing.Pt(x+w-3.5, y+1.5), drawing.Pt(x+w-8, y+1.5))...)
		} else {
			c := drawing.Pt(x+w/2, y+6)
			s.add(drawing.Circle(drawing.Pen{}, drawing.Black, c, 0.7))
			s.add(drawing.Arc(drawing.PenEdge, c, 4.6, 20, 140))
			s.add(drawing.Arrow(drawing.Pt(c.X-3.2, c.Y-3.2), drawing.Pt(c.X-5.4, c.Y-0.2))...)
		}
		s.say(drawing.Label(drawing.Pt(x+2, y+14), drawing.Small, name))
	}
}
