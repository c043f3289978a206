package drawing

import "math"

// A Dimension is a measured distance: From and To are the points it is taken
// from, LineFrom and LineTo the ends of the line its figure stands on. Reach
// lines go from the points to the line; the ends are saw-ticks at 45 degrees.
// The figure stands above the line, reading from below or from the right; when
// the line is shorter than the figure, the line goes on past its end and the
// figure stands there.
//
// The figure is text: this package knows no units. S is its main part, After
// what follows in pencil.
type Dimension struct {
	From, To, LineFrom, LineTo Point
	S, After                   string
	Font                       Font
	Size                       float64 // pt; zero is Body
}

// Level is a dimension on a level line at the height y.
func Level(from, to Point, y float64, s string) Dimension {
	return Dimension{From: from, To: to, LineFrom: Pt(from.X, y), LineTo: Pt(to.X, y), S: s, Font: Medium}
}

// Upright is a dimension on an upright line at x.
func Upright(from, to Point, x float64, s string) Dimension {
	return Dimension{From: from, To: to, LineFrom: Pt(x, from.Y), LineTo: Pt(x, to.Y), S: s, Font: Medium}
}

// Along is a dimension beside the line from one point to another, off mm to its
// left as one walks it on the page.
func Along(from, to Point, off float64, s string) Dimension {
	u := to.Sub(from).Unit()
	d := Pt(u.Y, -u.X).Mul(off)
	return Dimension{From: from, To: to, LineFrom: from.Add(d), LineTo: to.Add(d), S: s, Font: Medium}
}

// The shape of a dimension, in mm on paper.
const (
	tickMM      = 10 * 0.6 * MMPerPt // length of a saw-tick: 10 px of the screen
	figureGap   = 1.3                // from the line up to the figure's foot
	figureSlack = 1.0                // clear of the ticks on both sides
	reachGap    = 0.8                // between the thing and its reach line
)

// moved is the dimension with its points mapped.
func (d Dimension) moved(a Affine) Dimension {
	d.From, d.To, d.LineFrom, d.LineTo = a.Apply(d.From), a.Apply(d.To), a.Apply(d.LineFrom), a.Apply(d.LineTo)
	return d
}

// items draws the dimension from strokes and a text.
func (d Dimension) items() []Item {
	a, b := d.LineFrom, d.LineTo
	u := b.Sub(a).Unit()
	turn := math.Atan2(-u.Y, u.X) * 180 / math.Pi
	if turn <= -90+uprightSlack || turn > 90+uprightSlack { // would read from above or from the left
		a, b, u = b, a, u.Mul(-1)
		turn = math.Mod(turn+360+180, 360)
		if turn > 180 {
			turn -= 360
		}
	}
	text, end := d.figure(a, b, u, turn)
	out := []Item{}
	for _, r := range [][2]Point{{d.From, d.LineFrom}, {d.To, d.LineTo}} {
		if s, ok := reach(r[0], r[1]); ok {
			out = append(out, s)
		}
	}
	out = append(out, Stroke(PenDimension, a, end), tick(d.LineFrom, u), tick(d.LineTo, u))
	return append(out, text)
}

// uprightSlack, in degrees, makes an upright line read from the right in spite
// of the last bit of its angle.
const uprightSlack = 1e-6

// figure places the text over the middle of the line or, when it does not fit
// between the ticks, past the line's end; end is where the line then stops.
func (d Dimension) figure(a, b, u Point, turn float64) (Text, Point) {
	up := Pt(u.Y, -u.X)
	t := Text{Spans: []Span{{S: d.S, Font: d.Font}}, Size: d.Size, Turn: turn, Align: Centre}
	if d.After != "" {
		t.Spans = append(t.Spans, Span{S: d.After, Tone: Pencil})
	}
	w := t.Width()
	at, end := a.Lerp(b, 0.5), b
	if w+2*figureSlack > b.Sub(a).Len() {
		start := b.Add(u.Mul(tickMM/2 + figureSlack))
		at, end = start, start.Add(u.Mul(w))
		t.Align = Left
	}
	t.At = at.Add(up.Mul(figureGap))
	return t, end
}

// tick is a saw-tick: a heavy stroke at 45 degrees to the line. On level and
// upright lines alike it rises to the right.
func tick(p, u Point) Shape {
	d := Pt(u.X+u.Y, u.Y-u.X).Unit().Mul(tickMM / 2)
	if math.Abs(u.X) < 1e-9 {
		d = Pt(1, -1).Unit().Mul(tickMM / 2)
	}
	return Stroke(PenTick, p.Sub(d), p.Add(d))
}

// reach is the line from a measured point to the dimension's line, when there
// is room for one.
func reach(p, q Point) (Shape, bool) {
	v := q.Sub(p)
	if v.Len() <= 2*reachGap {
		return Shape{}, false
	}
	return Stroke(PenReachLine, p.Add(v.Unit().Mul(reachGap)), q), true
}
