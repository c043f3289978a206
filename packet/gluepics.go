package packet

import (
	"math"

	"bowerwright/drawing"
	"bowerwright/job"
	"bowerwright/making"
)

// picHigh is how high a picture of a way of gluing is, mm.
const picHigh = 52.0

// methodPicture shows a way of gluing on a frame with as many sides as the kind
// has, as a sketch and not to scale.
func methodPicture(r job.Result, k job.MadeFacts) block {
	n := k.Joints
	if f, ok := kindOf(r, k.Kind); ok && f.Open {
		n++
	}
	n = min(max(n, 3), 8)
	switch making.Method(k.Method) {
	case making.Rolled:
		return picture(picHigh, "Boards lie in a row, outside up, tips touching, with tape along them. Turned over, tape down, gaps like a V stand open between them for the glue. Then the row is rolled up from one end.",
			func(s *sheet, y float64) { rolledPicture(s, y, n) })
	case making.Strapped:
		return picture(picHigh, "A strap goes round the frame over a small block at every corner and is drawn tight.",
			func(s *sheet, y float64) { strapPicture(s, y, n) })
	case making.Halves:
		return picture(picHigh, "The frame lies in two halves; the joints at two opposite corners stay dry and are trued along the dashed line.",
			func(s *sheet, y float64) { halvesPicture(s, y, n) })
	case making.InLayers:
		return picture(picHigh, "Segments of the second layer, dashed, lie over the joints of the first.", layersPicture)
	}
	return picture(picHigh, "Two parts are pushed into a fence with the frame's corner on the bench; every other joint of the frame is closed first.",
		func(s *sheet, y float64) { jointPicture(s, y, n) })
}

// ring is a regular frame on the page: its outside and inside corners, a side
// level at the foot.
func ring(c drawing.Point, radius, depth float64, n int) (out, in []drawing.Point) {
	inner := radius - depth/math.Cos(math.Pi/float64(n))
	for i := range n {
		a := math.Pi/2 + math.Pi/float64(n) - 2*math.Pi*float64(i)/float64(n)
		u := drawing.Pt(math.Cos(a), math.Sin(a))
		out, in = append(out, c.Add(u.Mul(radius))), append(in, c.Add(u.Mul(inner)))
	}
	return out, in
}

// parts draws the parts of a ring from side a to side b, from 0, as boards.
func (s *sheet) parts(out, in []drawing.Point, a, b int, fill drawing.Fill) {
	n := len(out)
	for i := a; i < b; i++ {
		j := (i + 1) % n
		s.add(drawing.Polygon(drawing.PenEdge, fill, out[i%n], out[j], in[j], in[i%n]))
	}
}

// shiftedBy is points shifted by a vector.
func shiftedBy(ps []drawing.Point, by drawing.Point) []drawing.Point {
	q := make([]drawing.Point, len(ps))
	for i, p := range ps {
		q[i] = p.Add(by)
	}
	return q
}

func tiny(s *sheet, x, y float64, words string) {
	s.say(drawing.Label(drawing.Pt(x, y), drawing.Small, words))
}

// rolledPicture: the row with its tape, the row turned over with its gaps open,
// and the row half rolled.
func rolledPicture(s *sheet, y float64, n int) {
	const thick = 4.2
	shown := min(n, 5)
	w := (picWide - 4) / float64(shown)
	lean := min(thick*math.Tan(math.Pi/float64(n)), w*0.3)
	row := func(y float64, up bool) {
		for i := range shown {
			x := 1 + w*float64(i)
			s.add(drawing.Polygon(drawing.PenEdge, drawing.White, trapezoid(x, x+w, y, y+thick, lean, lean, up)...))
		}
	}
	tape := drawing.Pen{Weight: 3, Tone: drawing.Ink}
	s.line(tape, 0, y+3.4, picWide-2, y+3.4)
	row(y+4, true)
	tiny(s, 1, y+12.4, "outside up, tips touching, tape along it")
	row(y+17, false)
	s.line(tape, 0, y+17+thick+0.6, picWide-2, y+17+thick+0.6)
	tiny(s, 1, y+26, "turned over: glue in the open gaps")
	// Rolled up from the left: the last sides stand up in turn.
	at, turn := drawing.Pt(picWide-3, y+47), 0.0
	for i := range 3 {
		q := trapezoid(-w, 0, -thick, 0, lean, lean, false)
		for j, p := range q {
			q[j] = at.Add(drawing.Pt(p.X, p.Y).Rot(turn))
		}
		s.add(drawing.Polygon(drawing.PenEdge, drawing.White, q...))
		if i < 2 {
			at = q[0]
		}
		if i > 0 || n < 4 {
			turn += 2 * math.Pi / float64(n)
		}
	}
	s.add(drawing.Arc(drawing.PenCut.At(1.2), drawing.Pt(24, y+42), 8, 80, 190))
	s.add(drawing.Arrow(drawing.Pt(25.6, y+34.1), drawing.Pt(29.4, y+35.5))...)
	tiny(s, 1, y+51, "rolled up; the last joint taped")
}

func strapPicture(s *sheet, y float64, n int) {
	c := drawing.Pt(34, y+24)
	out, in := ring(c, 18, 5, n)
	s.parts(out, in, 0, n, drawing.White)
	strap, _ := ring(c, 18+5, 5, n)
	for i := range out { // the strap passes over a block at every corner
		u := out[i].Sub(c).Unit()
		v := u.Perp()
		o := out[i].Add(u.Mul(0.4))
		s.add(drawing.Polygon(drawing.PenEdge, drawing.Solid(drawing.Boxwood), o.Add(v.Mul(2.6)), o.Add(v.Mul(-2.6)), o.Add(v.Mul(-2.6)).Add(u.Mul(3.4)), o.Add(v.Mul(2.6)).Add(u.Mul(3.4))))
	}
	s.add(drawing.Polygon(drawing.Pen{Weight: 2, Tone: drawing.Ink}, drawing.Fill{}, strap...))
	s.line(drawing.PenEdge, strap[0].X+2, strap[0].Y-2, 62, y+8)
	tiny(s, 59, y+6.6, "strap")
	tiny(s, 1, y+51, "a block outside every corner")
}

func halvesPicture(s *sheet, y float64, n int) {
	n -= n % 2
	out, in := ring(drawing.Pt(36, y+24), 17, 5, n)
	// Corners 0 and n/2 are opposite.
	axis := out[n/2].Sub(out[0]).Unit()
	apart := axis.Perp().Mul(-3)
	s.parts(shiftedBy(out, apart), shiftedBy(in, apart), 0, n/2, drawing.White)
	s.parts(shiftedBy(out, apart.Mul(-1)), shiftedBy(in, apart.Mul(-1)), n/2, n, drawing.White)
	a, b := out[0].Sub(axis.Mul(5)), out[n/2].Add(axis.Mul(5))
	s.add(drawing.Stroke(drawing.PenHidden, a, b))
	tiny(s, 1, y+51, "true both ends of each half along the line")
}

func jointPicture(s *sheet, y float64, n int) {
	out, in := ring(drawing.Pt(30, y+24), 18, 5, n)
	c := drawing.Pt(30, y+24)
	for i := 0; i < n; i += 2 { // pairs, drawn a little apart
		mid := out[(i+1)%n].Sub(c).Unit().Mul(2.6)
		if i+1 >= n {
			mid = out[i].Add(out[(i+1)%n]).Mul(0.5).Sub(c).Unit().Mul(2.6)
		}
		s.parts(shiftedBy(out, mid), shiftedBy(in, mid), i, min(i+2, n), drawing.White)
	}
	tiny(s, 1, y+51, "every other joint first; then the pieces")
}

func layersPicture(s *sheet, y float64) {
	const n = 8
	c := drawing.Pt(34, y+24)
	out, in := ring(c, 21, 7, n)
	s.parts(out, in, 0, n, drawing.White)
	for i := range n {
		a, b := out[i].Lerp(out[(i+1)%n], 0.5), in[i].Lerp(in[(i+1)%n], 0.5)
		s.add(drawing.Stroke(drawing.PenHidden, a, b))
	}
	s.add(drawing.Circle(drawing.PenCutInside, drawing.Fill{}, c, 19), drawing.Circle(drawing.PenCutInside, drawing.Fill{}, c, 14.6))
	tiny(s, 1, y+51, "dashed: joints of the next layer; the saw's two circles")
}

// cornerPicHigh is how high a picture of a corner is, mm.
const cornerPicHigh = 34.0

// cornerPicture shows one corner with what strengthens it, as a sketch.
func cornerPicture(way string) block {
	alts := map[string]string{
		"brads":        "A corner from the front: two brads cross the joint, one from each part, driven square to the outside faces near the tip, the one behind the other.",
		"corner block": "A corner from the front: a block lies in it behind the front edge, a face on one side, an edge on the other.",
		"plate":        "A corner from the back: a plate with four screws lies square across the middle of the mitre.",
		"spline":       "A closed corner stands in a cradle, tip down, between two boards that rise from the saw's table. The blade comes up through the tip; the slot that it saws, hatched, runs across both parts and ends in a straight line short of the inside.",
	}
	return picture(cornerPicHigh, alts[way], func(s *sheet, y float64) {
		k := cornerSketch{s: s, tip: drawing.Pt(37, y+29.5)}
		if way == "spline" {
			k.tip.Y -= 5
		}
		k.parts()
		k.piece(way)
	})
}

// A cornerSketch is a corner of 120 degrees with its tip at the foot.
type cornerSketch struct {
	s   *sheet
	tip drawing.Point
}

const (
	sketchDepth = 9.0
	sketchArm   = 30.0
)

// arm is the direction of a side away from the tip, and the one into the wood
// from its outside face.
func (k cornerSketch) arm(right bool) (along, into drawing.Point) {
	sin, cos := math.Sincos(math.Pi / 6)
	if right {
		return drawing.Pt(cos, -sin), drawing.Pt(-sin, -cos)
	}
	return drawing.Pt(-cos, -sin), drawing.Pt(sin, -cos)
}

// heel is where the inside faces meet.
func (k cornerSketch) heel() drawing.Point {
	return k.tip.Add(drawing.Pt(0, -sketchDepth/math.Cos(math.Pi/6)))
}

func (k cornerSketch) parts() {
	for _, right := range []bool{false, true} {
		along, into := k.arm(right)
		far := k.tip.Add(along.Mul(sketchArm))
		k.s.add(drawing.Polygon(drawing.PenEdge, drawing.White, k.tip, far, far.Add(into.Mul(sketchDepth)), k.heel()))
	}
}

func (k cornerSketch) piece(way string) {
	heavy := drawing.Pen{Weight: 2, Tone: drawing.Ink}
	mid := k.tip.Lerp(k.heel(), 0.5)
	switch way {
	case "brads":
		for _, right := range []bool{false, true} {
			along, into := k.arm(right)
			at := k.tip.Add(along.Mul(4))
			k.s.add(drawing.Stroke(heavy, at, at.Add(into.Mul(sketchDepth*0.95))))
		}
	case "plate":
		k.s.add(drawing.Rect(drawing.PenEdge, drawing.Hatched(drawing.Waste), mid.X-15, mid.Y-2, 30, 4))
		for _, x := range []float64{-12, -6, 6, 12} {
			k.s.add(drawing.Circle(drawing.PenEdge, drawing.White, mid.Add(drawing.Pt(x, 0)), 1))
		}
	case "spline":
		k.cradle()
	case "corner block":
		along, into := k.arm(true)
		other, _ := k.arm(false)
		h := k.heel()
		k.s.add(drawing.Polygon(drawing.PenEdge, drawing.Hatched(drawing.Waste), h, h.Add(along.Mul(12)), h.Add(along.Mul(12)).Add(into.Mul(5)), h.Add(other.Mul(5/math.Sin(2*math.Pi/3)))))
	}
}

// cradle is the slot across the corner, the two boards under it, the saw's table
// and as much of the blade as stands above it.
func (k cornerSketch) cradle() {
	const deep, board, table, blade = 6.4, 2.2, 3.0, 12.0 // slot, the cradle's boards, tip over the table, the blade's radius
	floor := k.tip.Add(drawing.Pt(0, table))
	wide := deep * math.Tan(math.Pi/3)
	k.s.add(drawing.Polygon(drawing.PenEdge, drawing.Hatched(drawing.Waste), k.tip, k.tip.Add(drawing.Pt(wide, -deep)), k.tip.Add(drawing.Pt(-wide, -deep))))
	for _, right := range []bool{false, true} {
		along, into := k.arm(right)
		out := into.Mul(-board)
		k.s.add(drawing.Polygon(drawing.PenEdge, drawing.Solid(drawing.Boxwood), k.tip.Add(along.Mul(1.4)), k.tip.Add(along.Mul(24)), k.tip.Add(along.Mul(24)).Add(out), k.tip.Add(along.Mul(1.4)).Add(out)))
	}
	k.s.add(drawing.Arc(drawing.PenHidden, k.tip.Add(drawing.Pt(0, blade-deep)), blade, 8, 172))
	k.s.line(drawing.PenOutline, 1, floor.Y+1, picWide-2, floor.Y+1)
	tiny(k.s, 1, floor.Y+5.4, "saw table; dashed: the blade; hatched: the slot")
}
