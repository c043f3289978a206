package png

import (
	"math"

	"bowerwright/drawing"
)

// miterLimit is how far a mitred corner may reach, in line weights, before it
// is cut off; all makers keep to it.
const miterLimit = 4

// stroke is the area a pen covers along points, as rings that all run the same
// way, so that where they overlap they still count as covered. Points, and the
// rings, are in pixels; k is pixels to a mm.
func stroke(pts []drawing.Point, closed bool, pen drawing.Pen, k float64) [][]drawing.Point {
	pts = distinct(pts, closed)
	if len(pts) < 2 {
		return nil
	}
	r := pen.MM() * k / 2
	dash := pen.DashMM()
	if dash == nil {
		return along(pts, closed, r, pen.Round)
	}
	if closed {
		pts = append(pts[:len(pts):len(pts)], pts[0])
	}
	for i := range dash {
		dash[i] *= k
	}
	var rings [][]drawing.Point
	for _, piece := range dashes(pts, dash) {
		rings = append(rings, along(piece, false, r, pen.Round)...)
	}
	return rings
}

// distinct leaves out points that lie on the one before.
func distinct(pts []drawing.Point, closed bool) []drawing.Point {
	const same = 1e-6 // pixels; no eye or raster tells such points apart
	var out []drawing.Point
	for _, p := range pts {
		if n := len(out); n == 0 || out[n-1].Dist(p) > same {
			out = append(out, p)
		}
	}
	if n := len(out); closed && n > 1 && out[0].Dist(out[n-1]) <= same {
		out = out[:n-1]
	}
	return out
}

// along is the area of a whole line: a rectangle a segment, and a corner piece
// a corner.
func along(pts []drawing.Point, closed bool, r float64, round bool) [][]drawing.Point {
	n := len(pts)
	segments := n - 1
	if closed {
		segments = n
	}
	var rings [][]drawing.Point
	for i := range segments {
		a, b := pts[i], pts[(i+1)%n]
		side := b.Sub(a).Unit().Perp().Mul(r)
		rings = append(rings, positive(a.Add(side), b.Add(side), b.Sub(side), a.Sub(side)))
		if last := i == segments-1; !last || closed {
			if c := corner(a, b, pts[(i+2)%n], r); !round && c != nil {
				rings = append(rings, c)
			}
		}
	}
	if round {
		for _, p := range pts {
			rings = append(rings, positive(drawing.EllipseAt(p, r, r).Flat(0.1)...))
		}
	}
	return rings
}

// corner fills the outside of a bend at b: to the mitre's tip or, when that is
// too far, straight across.
func corner(a, b, c drawing.Point, r float64) []drawing.Point {
	u, v := b.Sub(a).Unit(), c.Sub(b).Unit()
	bend := u.Cross(v)
	if math.Abs(bend) < 1e-9 && u.Dot(v) > 0 {
		return nil
	}
	out := -r
	if bend < 0 {
		out = r
	}
	p, q := b.Add(u.Perp().Mul(out)), b.Add(v.Perp().Mul(out))
	// The mitre reaches 1/sin(half the angle between the sides), in weights.
	half := math.Sqrt((1 + u.Dot(v)) / 2) // cosine of half the bend, the same sine
	if half*miterLimit < 1 {
		return positive(b, p, q)
	}
	tip := b.Add(u.Perp().Add(v.Perp()).Unit().Mul(out / half))
	return positive(b, p, tip, q)
}

// positive turns a ring the one way round.
func positive(pts ...drawing.Point) []drawing.Point {
	sum := 0.0
	for i, p := range pts {
		sum += p.Cross(pts[(i+1)%len(pts)])
	}
	if sum < 0 {
		for i, j := 0, len(pts)-1; i < j; i, j = i+1, j-1 {
			pts[i], pts[j] = pts[j], pts[i]
		}
	}
	return pts
}

// dashes cuts an open line into its drawn pieces. A dash that turns a corner
// keeps the corner. Lengths are in pixels.
func dashes(pts []drawing.Point, dash []float64) [][]drawing.Point {
	if len(dash)%2 == 1 {
		dash = append(dash, dash...)
	}
	const least = 1e-6 // a pattern of nothing would never get on
	total := 0.0
	for _, d := range dash {
		total += d
	}
	if total < least {
		return [][]drawing.Point{pts}
	}
	var out [][]drawing.Point
	i, left, run := 0, dash[0], []drawing.Point{pts[0]}
	for n := 1; n < len(pts); n++ {
		a, b := pts[n-1], pts[n]
		for a.Dist(b) > left {
			a = a.Add(b.Sub(a).Unit().Mul(left))
			if i%2 == 0 {
				out = append(out, append(run, a))
			}
			i = (i + 1) % len(dash)
			left, run = dash[i], []drawing.Point{a}
		}
		left -= a.Dist(b)
		run = append(run, b)
	}
	if i%2 == 0 && len(run) > 1 {
		out = append(out, run)
	}
	return out
}
