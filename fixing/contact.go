package fixing

import (
	"math"

	"bowerwright/geom"
	"bowerwright/layout"
)

// A contact is a seam with the boards on both sides of it, in the seam's own
// measures: s along it from its left end, h square to it into either wood.
type contact struct {
	index int
	seam  layout.Seam
	dir   geom.Point // along
	n     geom.Point // across, from side 0's wood towards side 1's
	gap   float64    // 0 where the faces are pressed
	sides [2]side
}

// A side is one board of a contact.
type side struct {
	frame     int
	thick     float64 // in the plane, square to the seam
	rise      float64 // from front to back
	gravity   float64
	near, far geom.Interval // where it ends at the seam (h = 0) and on its other face (h = thick)
}

// square is the difference of thickness and width, in mm, below which a board
// counts as square and so as thin either way: no board is planed nearer.
const square = 0.5

// thin says whether a screw may be driven through the board: it lies on edge,
// or is square.
func (s side) thin() bool { return s.thick <= s.rise+square }

// at is where the board ends, h into it: the mitres run straight from face to
// face.
func (s side) at(h float64) geom.Interval {
	t := h / s.thick
	return geom.Interval{From: s.near.From + t*(s.far.From-s.near.From), To: s.near.To + t*(s.far.To-s.near.To)}
}

func (w *work) contact(i int) contact {
	seam := w.l.Seams[i]
	c := contact{index: i, seam: seam, dir: seam.To.Sub(seam.From).Unit(), gap: max(seam.Gap, 0)}
	for k, ss := range seam.Sides {
		c.sides[k] = w.side(ss, seam.From, c.dir)
	}
	_, _, out := w.l.Frames[seam.Sides[0].Frame].Side(seam.Sides[0].Side)
	if seam.Sides[0].Inner {
		out = out.Mul(-1)
	}
	// Square to the seam, so that both ends of every figure agree.
	c.n = c.dir.Perp()
	if c.n.Dot(out) < 0 {
		c.n = c.n.Mul(-1)
	}
	return c
}

func (w *work) side(ss layout.SeamSide, origin, dir geom.Point) side {
	f, b := w.l.Frames[ss.Frame], w.boards[ss.Frame]
	i, j := ss.Side-1, ss.Side%len(f.Outside)
	along := func(p, q geom.Point) geom.Interval {
		a, b := p.Sub(origin).Dot(dir), q.Sub(origin).Dot(dir)
		return geom.Interval{From: min(a, b), To: max(a, b)}
	}
	s := side{frame: ss.Frame, thick: b.Depth().MM(), rise: b.Rise().MM(), gravity: b.Gravity,
		near: along(f.Outside[i], f.Outside[j]), far: along(f.Inside[i], f.Inside[j])}
	if ss.Inner {
		s.near, s.far = s.far, s.near
	}
	return s
}

// narrower is the side with the narrower board.
func (c contact) narrower() side {
	if c.sides[1].thick < c.sides[0].thick-geom.Eps {
		return c.sides[1]
	}
	return c.sides[0]
}

// into is the way from the seam into side k's wood.
func (c contact) into(k int) geom.Point {
	if k == 0 {
		return c.n.Mul(-1)
	}
	return c.n
}

// on is the point s along the seam, h into side k's wood.
func (c contact) on(s float64, k int, h float64) geom.Point {
	return c.seam.From.Add(c.dir.Mul(s)).Add(c.into(k).Mul(c.gap/2 + h))
}

// rise is the depth from front to back that both boards share.
func (c contact) rise() float64 { return math.Min(c.sides[0].rise, c.sides[1].rise) }

// span is the stretch of the seam in which a path lies in wood, h[k] deep into
// side k: the narrowest over all depths, which is at one end of each path since
// mitres are straight.
func (c contact) span(h [2]float64) geom.Interval {
	in := geom.Interval{From: 0, To: c.seam.Length}
	for k, s := range c.sides {
		for _, deep := range []float64{0, h[k]} {
			e := s.at(deep)
			in.From, in.To = max(in.From, e.From), min(in.To, e.To)
		}
	}
	return in
}
