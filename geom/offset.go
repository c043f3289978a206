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
		a := p.Side((i + n - 1) % n).Vec().Unit().Perp()
		b := p.Side(i).Vec().Unit().Perp()
		in[i] = p[i].Add(a.Add(b).Mul(w / (1 + a.Dot(b))))
	}
	for i := range p {
		if in.Side(i).Vec().Dot(p.Side(i).Vec().Unit()) <= Eps {
			return in, i
		}
	}
	if c := in.Crossings(); len(c) > 0 {
		return in, c[0][0]
	}
	return in, -1
}
