package passage

import (
	"math"
)

// straight looks at every hold of a body in a room that it enters along the
// way, and gives the best of each kind.
func (b *Body) straight(r Room) []Way {
	free := r.shrink(b.room)
	edge := func(h float64) float64 { return math.Min(free.Across-b.thick, free.Up-h) }
	flat := func(h float64) float64 { return math.Min(free.Across-h, free.Up-b.thick) }
	face := func(h float64) float64 { return math.Min(free.Along-b.thick, free.Up-h) }
	lean := func(h float64) float64 { _, s := b.lean(h, free); return s }
	leanTurn := b.turn(free.Along, lean)
	_, high := b.Size(leanTurn)
	angle, _ := b.lean(high, free)
	return []Way{
		b.way(Hold{Kind: Upright}, free),
		b.way(Hold{Kind: OnEdge, Turn: b.turn(free.Along, edge)}, free),
		b.way(Hold{Kind: Flat, Turn: b.turn(free.Along, flat), Lean: math.Pi / 2}, free),
		b.way(Hold{Kind: Leaned, Turn: leanTurn, Lean: angle}, free),
		b.way(Hold{Kind: Broadside, Turn: b.turn(free.Across, face)}, free),
	}
}

func (b *Body) way(h Hold, free Room) Way {
	w := Way{Hold: h, Takes: b.Takes(h)}
	w.Slack = free.less(w.Takes)
	w.Clearance = w.Slack.Least()
	return w
}

// fits is the same question without how, for a search that asks it often.
func (b *Body) fits(r Room) bool {
	free := r.shrink(b.room - Snug)
	if _, high, ok := b.flattest(free.Along); ok {
		if _, s := b.lean(high, free); s >= 0 {
			return true
		}
	}
	_, high, ok := b.flattest(free.Across)
	return ok && free.Along >= b.thick && free.Up >= high
}

// lean finds how far a plate so high leans, edge first, to leave the most of
// the lesser slack, and that slack. Leaned by a it takes h cos a + t sin a
// upward and h sin a + t cos a across. Each is concave in a, so the best lies
// at an end or where both slacks are equal: there (h-t)(cos a - sin a) is what
// the opening is higher than wide.
func (b *Body) lean(high float64, free Room) (angle, slack float64) {
	try := func(a float64) float64 {
		s, c := math.Sincos(a)
		return math.Min(free.Across-high*s-b.thick*c, free.Up-high*c-b.thick*s)
	}
	slack = try(0)
	if s := try(math.Pi / 2); s > slack {
		angle, slack = math.Pi/2, s
	}
	if k := (free.Up - free.Across) / (high - b.thick); math.Abs(k) <= 1 {
		a := math.Acos(k/math.Sqrt2) - math.Pi/4
		if s := try(a); s > slack {
			angle, slack = a, s
		}
	}
	return angle, slack
}

// halvings is how often an interval is halved in looking for a slack: 10 m go
// below Snug/16 in 38.
const halvings = 40

// turn finds the turn in the plane that leaves the most of the lesser of
// limit - width and of(height), where of falls as the height grows. For a
// slack s the best turn is the flattest of those no wider than limit - s; the
// greatest s that this still leaves is found by halving.
func (b *Body) turn(limit float64, of func(high float64) float64) float64 {
	if math.IsInf(limit, 1) {
		turn, _, _ := b.flattest(limit)
		return turn
	}
	wide, high := b.Size(0)
	best, least := 0.0, math.Min(limit-wide, of(high))
	lo, hi := least, least+b.diameter()+math.Abs(least)
	for range halvings {
		s := (lo + hi) / 2
		turn, high, ok := b.flattest(limit - s)
		if ok && of(high) >= s {
			lo = s
			if s > least+Snug {
				best = turn
			}
		} else {
			hi = s
		}
	}
	return best
}

// diameter is more than the hull measures in any direction.
func (b *Body) diameter() float64 {
	w, h := b.Size(0)
	return w + h
}
