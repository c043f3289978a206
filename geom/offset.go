package geom

import "fmt"

// A CollapseError says that an outline has no inside at the depth asked for.
type CollapseError struct {
	Asked float64 // the depth asked for, mm
	Most  float64 // the greatest depth that still leaves an inside, mm, to 1 in a million
	Side  int     // the first side, counted from 0, whose inside vanishes or runs into another
}

func (e *CollapseError) Error() string {
	return fmt.Sprintf("an outline taken in by %.3f mm collapses at side %d; %.3f mm is the most",
		e.Asked, e.Side+1, e.Most)
}

// Offset takes a counter-clockwise outline in by w mm: every side's line moves
// square to itself, and neighbours meet again in corner i for corner i. A
// negative w lets it out. The error is a *CollapseError when a side vanishes,
// turns round or runs into another.
func (p Polygon) Offset(w float64) (Polygon, error) {
	in, side := p.offset(w)
	if side < 0 {
		return in, nil
	}
	lo, hi := 0.0, w
	for range 60 { // halving to a float's grain
		mid := (lo + hi) / 2
		if _, s := p.offset(mid); s < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return nil, &CollapseError{Asked: w, Most: lo, Side: side}
}

// offset moves the lines; side is the first side that went wrong, or -1.
func (p Polygon) offset(w float64) (in Polygon, side int) {
	n := len(p)
	in = make(Polygon, n)
	for i := range p {
		in[i] = MeetOffset(p.Side((i+n-1)%n), p.Side(i), w, w)
	}
	return in, p.Collapsed(in)
}

// MeetOffset is where two sides that follow each other meet when their lines
// have moved to the left, the first by wa mm and the second by wb.
func MeetOffset(a, b Segment, wa, wb float64) Point {
	u, v := a.Vec().Unit().Perp(), b.Vec().Unit().Perp()
	if wa == wb { // good for sides in one line too
		return b.A.Add(u.Add(v).Mul(wa / (1 + u.Dot(v))))
	}
	d := u.Cross(v)
	return b.A.Add(Point{wa*v.Y - wb*u.Y, wb*u.X - wa*v.X}.Mul(1 / d))
}

// Collapsed says which side of p, counted from 0, has lost its way in an
// outline taken in from it corner for corner: vanished, turned round or run
// into another. It is -1 when none has.
func (p Polygon) Collapsed(in Polygon) int {
	for i := range p {
		if in.Side(i).Vec().Dot(p.Side(i).Vec().Unit()) <= Eps {
			return i
		}
	}
	if c := in.Crossings(); len(c) > 0 {
		return c[0][0]
	}
	return -1
}
