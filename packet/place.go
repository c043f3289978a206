package packet

import (
	"math"

	"bowerwright/drawing"
)

// A box is an upright rectangle on the page, mm.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) overlaps(c box) bool { return b.x0 < c.x1 && c.x0 < b.x1 && b.y0 < c.y1 && c.y0 < b.y1 }
func (b box) within(c box) bool {
	return b.x0 >= c.x0 && b.x1 <= c.x1 && b.y0 >= c.y0 && b.y1 <= c.y1
}
func (b box) grown(d float64) box { return box{b.x0 - d, b.y0 - d, b.x1 + d, b.y1 + d} }

// around is a box of a size about its middle.
func around(p drawing.Point, w, h float64) box {
	return box{p.X - w/2, p.Y - h/2, p.X + w/2, p.Y + h/2}
}

// A placer finds free places for words among lines and other words. It keeps
// both in cells of a grid, so that thousands cost little.
type placer struct {
	bound box
	lines map[[2]int][][2]drawing.Point
	boxes map[[2]int][]box
}

// placerCell is the side of a grid cell, mm: a little more than a label.
const placerCell = 8.0

func newPlacer(bound box) *placer {
	return &placer{bound: bound, lines: map[[2]int][][2]drawing.Point{}, boxes: map[[2]int][]box{}}
}

// cells calls f for every cell that a box touches until f says stop.
func cells(b box, f func([2]int) bool) bool {
	for i := int(math.Floor(b.x0 / placerCell)); float64(i)*placerCell <= b.x1; i++ {
		for j := int(math.Floor(b.y0 / placerCell)); float64(j)*placerCell <= b.y1; j++ {
			if !f([2]int{i, j}) {
				return false
			}
		}
	}
	return true
}

// line marks a stroke that words must not lie on.
func (p *placer) line(a, b drawing.Point) {
	cells(box{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}, func(c [2]int) bool {
		p.lines[c] = append(p.lines[c], [2]drawing.Point{a, b})
		return true
	})
}

// ring marks a closed outline.
func (p *placer) ring(pts []drawing.Point) {
	for i := range pts {
		p.line(pts[i], pts[(i+1)%len(pts)])
	}
}

// take marks a box as used.
func (p *placer) take(b box) {
	cells(b, func(c [2]int) bool {
		p.boxes[c] = append(p.boxes[c], b)
		return true
	})
}

// clear says whether no words lie in a box; free, whether no line does either.
func (p *placer) clear(b box) bool {
	return b.within(p.bound) && cells(b, func(c [2]int) bool {
		for _, o := range p.boxes[c] {
			if o.overlaps(b) {
				return false
			}
		}
		return true
	})
}

func (p *placer) free(b box) bool {
	return p.clear(b) && cells(b, func(c [2]int) bool {
		for _, l := range p.lines[c] {
			if crosses(b, l[0], l[1]) {
				return false
			}
		}
		return true
	})
}

// crosses says whether a stroke passes through a box, by cutting it at the
// box's four sides (the Liang-Barsky clip, a textbook method).
func crosses(b box, p, q drawing.Point) bool {
	t0, t1 := 0.0, 1.0
	cut := func(d, off float64) bool {
		if d == 0 {
			return off >= 0
		}
		if t := off / d; d < 0 {
			t0 = max(t0, t)
		} else {
			t1 = min(t1, t)
		}
		return t0 <= t1
	}
	dx, dy := q.X-p.X, q.Y-p.Y
	return cut(-dx, p.X-b.x0) && cut(dx, b.x1-p.X) && cut(-dy, p.Y-b.y0) && cut(dy, b.y1-p.Y)
}

// inside says whether a point lies in an outline, by counting crossings.
func inside(pts []drawing.Point, p drawing.Point) bool {
	in := false
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// extent is the box round points.
func extent(pts []drawing.Point) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range pts {
		b = box{min(b.x0, p.X), min(b.y0, p.Y), max(b.x1, p.X), max(b.y1, p.Y)}
	}
	return b
}
