package passage

import (
	"errors"
	"math"
	"slices"

	"bowerwright/geom"
)

// A Piece is what is carried: one or more outlines that are held together, in
// one plane, and how thick they are, in mm.
type Piece struct {
	Outlines  []geom.Polygon
	Thickness float64
	Wrap      float64 // blanket or foam on every face, mm; an assumption of the caller
	Fingers   float64 // room for hands on every side, mm; an assumption of the caller
}

// A Body is a piece made ready for questions. It is not changed by them.
type Body struct {
	hull  geom.Polygon
	thick float64
	room  float64 // taken off every opening: both sides of wrapping and fingers
	arcs  []arc
}

// An arc is a stretch of turns over which the same two corners of the hull
// bound the width, and the same two the height.
type arc struct {
	from, to   float64 // turns, radians
	wide, high geom.Point
}

// Body prepares a piece. The error says what is wrong with its measures.
func (p Piece) Body() (*Body, error) {
	var all []geom.Point
	for _, o := range p.Outlines {
		all = append(all, o...)
	}
	for _, v := range all {
		if !finite(v.X) || !finite(v.Y) {
			return nil, errors.New("passage: an outline has a corner that is not a place")
		}
	}
	hull := Hull(all)
	if len(hull) < 3 {
		return nil, errors.New("passage: the outlines enclose nothing")
	}
	if !(p.Thickness > 0) || !finite(p.Thickness) || p.Wrap < 0 || p.Fingers < 0 || !finite(p.Wrap+p.Fingers) {
		return nil, errors.New("passage: thickness must be more than nothing, wrapping and fingers not less")
	}
	b := &Body{hull: hull, thick: p.Thickness, room: 2 * (p.Wrap + p.Fingers)}
	b.arcs = arcsOf(hull)
	return b, nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Hull is the convex hull, anticlockwise, without corners on a straight side
// (monotone chain; A. M. Andrew, Information Processing Letters 9, 1979).
func Hull(points []geom.Point) geom.Polygon {
	ps := slices.Clone(points)
	slices.SortFunc(ps, func(a, b geom.Point) int {
		if a.X != b.X {
			return order(a.X, b.X)
		}
		return order(a.Y, b.Y)
	})
	ps = slices.Compact(ps)
	if len(ps) < 3 {
		return geom.Polygon(ps)
	}
	lower := chain(ps)
	slices.Reverse(ps)
	upper := chain(ps)
	return geom.Polygon(append(lower[:len(lower)-1], upper[:len(upper)-1]...))
}

func order(a, b float64) int {
	if a < b {
		return -1
	}
	return 1
}

// chain keeps the corners that turn left. What is out of line by less than
// Snug is in line: else rounding would leave corners of no meaning.
func chain(ps []geom.Point) []geom.Point {
	var c []geom.Point
	for _, p := range ps {
		for len(c) > 1 {
			a, b := c[len(c)-2], c[len(c)-1]
			if b.Sub(a).Cross(p.Sub(a)) > Snug*p.Dist(a) {
				break
			}
			c = c[:len(c)-1]
		}
		c = append(c, p)
	}
	return c
}

// Hull is the convex hull of the piece, bare, as seen from the front.
func (b *Body) Hull() geom.Polygon { return slices.Clone(b.hull) }

// Size is how wide and high the piece is, bare, turned anticlockwise by a.
func (b *Body) Size(a float64) (wide, high float64) {
	x, y := across(a)
	return spread(b.hull, x), spread(b.hull, y)
}

// across gives the directions, in the piece's own plane, that lie level and
// upright once it is turned by a.
func across(a float64) (level, upright geom.Point) {
	s, c := math.Sincos(a)
	return geom.Point{X: c, Y: -s}, geom.Point{X: s, Y: c}
}

func spread(hull geom.Polygon, d geom.Point) float64 {
	return reach(hull, d).Dot(d)
}

// reach is the displacement from the corner least far along d to the farthest.
func reach(hull geom.Polygon, d geom.Point) geom.Point {
	least, most := hull[0], hull[0]
	for _, p := range hull[1:] {
		if p.Dot(d) < least.Dot(d) {
			least = p
		}
		if p.Dot(d) > most.Dot(d) {
			most = p
		}
	}
	return most.Sub(least)
}

// arcsOf cuts half a turn at every angle at which a side of the hull lies level
// or upright, and at none and a quarter: between two of those width and height
// are each one sinusoid about its top, and so concave.
func arcsOf(hull geom.Polygon) []arc {
	cuts := []float64{0, math.Pi / 2, math.Pi}
	for i := range hull {
		v := hull.Side(i).Vec()
		level := math.Mod(2*math.Pi-math.Atan2(v.Y, v.X), math.Pi)
		cuts = append(cuts, level, math.Mod(level+math.Pi/2, math.Pi))
	}
	slices.Sort(cuts)
	var arcs []arc
	for i, from := range cuts[:len(cuts)-1] {
		to := cuts[i+1]
		if to-from < sameTurn {
			continue
		}
		x, y := across((from + to) / 2)
		arcs = append(arcs, arc{from, to, reach(hull, x), reach(hull, y)})
	}
	return arcs
}

// sameTurn is the angle, in radians, below which two turns are one: at 10 m
// from the middle it moves a corner by 1e-8 mm, far under Snug.
const sameTurn = 1e-12

func (a arc) size(turn float64) (wide, high float64) {
	x, y := across(turn)
	return a.wide.Dot(x), a.high.Dot(y)
}

// stops gives the turns of the arc at which the least height for a width up to
// limit can lie: its ends, and where the width is just the limit.
func (a arc) stops(limit float64) []float64 {
	stops := []float64{a.from, a.to}
	r := a.wide.Len()
	if limit > r || limit < 0 {
		return stops
	}
	top, off := -math.Atan2(a.wide.Y, a.wide.X), math.Acos(limit/r)
	for _, t := range []float64{top - off, top + off} {
		t -= 2 * math.Pi * math.Floor((t-a.from)/(2*math.Pi))
		if t < a.to {
			stops = append(stops, t)
		}
	}
	return stops
}

// flattest finds the turn with the least height among those no wider than
// limit; false when none is. Of equals the earliest turn is taken, so that a
// piece stays as it stands unless turning it gains something.
func (b *Body) flattest(limit float64) (turn, high float64, ok bool) {
	high = math.Inf(1)
	for _, a := range b.arcs {
		for _, t := range a.stops(limit) {
			w, h := a.size(t)
			if w <= limit+Snug/8 && h < high-Snug/8 {
				turn, high, ok = t, h, true
			}
		}
	}
	return turn, high, ok
}
