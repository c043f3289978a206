package drawing

import (
	"math"

	"bowerwright/geom"
)

// A Point is a place on the page in mm: x to the right and y down, from the
// top left corner.
type Point = geom.Point

// Pt is a point; it is short because drawings are full of them.
func Pt(x, y float64) Point { return Point{X: x, Y: y} }

// A Step goes on from the point before: straight to To, or, when Bent, by a
// cubic Bézier curve with the handles C1 and C2.
type Step struct {
	C1, C2, To Point
	Bent       bool
}

// An Outline is one line of steps; when Closed it comes back to its start.
type Outline struct {
	Start  Point
	Steps  []Step
	Closed bool
}

// Lines is an open outline through points.
func Lines(pts ...Point) Outline {
	var o Outline
	for i, p := range pts {
		if i == 0 {
			o.Start = p
			continue
		}
		o.Steps = append(o.Steps, Step{To: p})
	}
	return o
}

// Ring is a closed outline through points; the first is not repeated.
func Ring(pts ...Point) Outline {
	o := Lines(pts...)
	o.Closed = true
	return o
}

// LineTo and CurveTo go on from an outline's end.
func (o Outline) LineTo(p Point) Outline { return o.step(Step{To: p}) }

// CurveTo goes on by a cubic Bézier curve.
func (o Outline) CurveTo(c1, c2, to Point) Outline {
	return o.step(Step{C1: c1, C2: c2, To: to, Bent: true})
}

func (o Outline) step(s Step) Outline {
	o.Steps = append(o.Steps[:len(o.Steps):len(o.Steps)], s)
	return o
}

// End is the last point an outline was drawn to.
func (o Outline) End() Point {
	if len(o.Steps) == 0 {
		return o.Start
	}
	return o.Steps[len(o.Steps)-1].To
}

// EllipseAt is a closed ellipse about a centre, as four quarter arcs.
func EllipseAt(c Point, rx, ry float64) Outline {
	o := arc(c, rx, ry, 0, 360)
	o.Closed = true
	return o
}

// ArcAt is an open arc of a circle, from one angle to another in degrees,
// counted from the right and anticlockwise as seen on the page.
func ArcAt(c Point, r, from, to float64) Outline { return arc(c, r, r, from, to) }

// arc cuts the turn into pieces of at most a quarter. Each is a cubic whose
// handles are 4/3 tan(a/4) of the radius long, which meets the circle at both
// ends and in the middle; the worst miss of a quarter is 0.03 % of the radius
// (textbook result for cubic arcs, from memory; the test measures it).
func arc(c Point, rx, ry, from, to float64) Outline {
	n := int(math.Ceil(math.Abs(to-from)/90 - 1e-9))
	if n < 1 {
		n = 1
	}
	a, da := from*math.Pi/180, (to-from)*math.Pi/180/float64(n)
	k := 4.0 / 3 * math.Tan(da/4)
	on := func(t, along float64) Point {
		s, co := math.Sincos(t)
		return Pt(c.X+rx*(co-along*s), c.Y-ry*(s+along*co))
	}
	o := Outline{Start: on(a, 0)}
	for i := range n {
		t0, t1 := a+float64(i)*da, a+float64(i+1)*da
		o = o.CurveTo(on(t0, k), on(t1, -k), on(t1, 0))
	}
	return o
}

// SlotAt is a rectangle with round corners of radius r.
func SlotAt(x, y, w, h, r float64) Outline {
	corners := []struct {
		c    Point
		from float64
	}{{Pt(x+w-r, y+r), 90}, {Pt(x+w-r, y+h-r), 0}, {Pt(x+r, y+h-r), -90}, {Pt(x+r, y+r), 180}}
	o := Outline{Start: Pt(x+r, y), Closed: true}
	for _, q := range corners {
		a := arc(q.c, r, r, q.from, q.from-90)
		if a.Start.Dist(o.End()) > 1e-9 { // none between two ends that are half a circle
			o = o.LineTo(a.Start)
		}
		o.Steps = append(o.Steps, a.Steps...)
	}
	return o
}

// Reversed is the outline drawn the other way round.
func (o Outline) Reversed() Outline {
	r := Outline{Start: o.End(), Closed: o.Closed}
	for i := len(o.Steps) - 1; i >= 0; i-- {
		s, to := o.Steps[i], o.Start
		if i > 0 {
			to = o.Steps[i-1].To
		}
		r.Steps = append(r.Steps, Step{C1: s.C2, C2: s.C1, To: to, Bent: s.Bent})
	}
	return r
}

// FlatMM is how far a flattened curve may miss the true one, in mm: a quarter
// of the thinnest line, so no eye finds the corner.
const FlatMM = 0.04

// Flat is the outline as points, its curves cut into straight pieces that miss
// by no more than tol mm. A closed outline does not repeat its start.
func (o Outline) Flat(tol float64) []Point {
	pts := []Point{o.Start}
	at := o.Start
	for _, s := range o.Steps {
		if s.Bent {
			pts = append(pts, flatCurve(at, s, tol)...)
		} else {
			pts = append(pts, s.To)
		}
		at = s.To
	}
	if n := len(pts); o.Closed && n > 1 && pts[n-1].Dist(pts[0]) < 1e-9 {
		pts = pts[:n-1]
	}
	return pts
}

// flatCurve cuts a cubic into equal steps of its parameter. A chord of a step
// dt misses by at most dt²/8 times the greatest second derivative, which is at
// a handle: 6 |p0-2p1+p2| or 6 |p1-2p2+p3|.
func flatCurve(a Point, s Step, tol float64) []Point {
	bend := math.Max(a.Sub(s.C1.Mul(2)).Add(s.C2).Len(), s.C1.Sub(s.C2.Mul(2)).Add(s.To).Len())
	n := max(1, int(math.Ceil(math.Sqrt(6*bend/(8*tol)))))
	pts := make([]Point, n)
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		pts[i-1] = a.Mul(u * u * u).Add(s.C1.Mul(3 * u * u * t)).Add(s.C2.Mul(3 * u * t * t)).Add(s.To.Mul(t * t * t))
	}
	pts[n-1] = s.To
	return pts
}

// area is twice the signed area of a flattened outline; it is positive for a
// ring that runs clockwise as seen on the page.
func (o Outline) area() float64 {
	pts := o.Flat(FlatMM)
	sum := 0.0
	for i, p := range pts {
		sum += p.Cross(pts[(i+1)%len(pts)])
	}
	return sum
}

// An Affine maps points: x' = XX x + XY y + X, y' = YX x + YY y + Y. The zero
// Affine leaves points where they are.
type Affine struct{ XX, XY, YX, YY, X, Y float64 }

// View maps a world in mm with y up to the page: scale page mm to a world mm
// (0.04 is 1:25), the world's origin at a place on the page.
func View(scale float64, origin Point) Affine {
	return Affine{XX: scale, YY: -scale, X: origin.X, Y: origin.Y}
}

// Shift moves by a vector on the page.
func Shift(x, y float64) Affine { return Affine{XX: 1, YY: 1, X: x, Y: y} }

func (a Affine) whole() Affine {
	if a == (Affine{}) {
		return Affine{XX: 1, YY: 1}
	}
	return a
}

// Apply maps a point.
func (a Affine) Apply(p Point) Point {
	a = a.whole()
	return Pt(a.XX*p.X+a.XY*p.Y+a.X, a.YX*p.X+a.YY*p.Y+a.Y)
}

// after is the map that does b first and then a.
func (a Affine) after(b Affine) Affine {
	a, b = a.whole(), b.whole()
	o := a.Apply(Pt(b.X, b.Y))
	return Affine{
		XX: a.XX*b.XX + a.XY*b.YX, XY: a.XX*b.XY + a.XY*b.YY,
		YX: a.YX*b.XX + a.YY*b.YX, YY: a.YX*b.XY + a.YY*b.YY, X: o.X, Y: o.Y,
	}
}

// Outline maps an outline.
func (a Affine) Outline(o Outline) Outline {
	m := Outline{Start: a.Apply(o.Start), Closed: o.Closed, Steps: make([]Step, len(o.Steps))}
	for i, s := range o.Steps {
		m.Steps[i] = Step{C1: a.Apply(s.C1), C2: a.Apply(s.C2), To: a.Apply(s.To), Bent: s.Bent}
	}
	return m
}

func (a Affine) outlines(os []Outline) []Outline {
	m := make([]Outline, len(os))
	for i, o := range os {
		m[i] = a.Outline(o)
	}
	return m
}
