package base

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/assume"
	"bowerwright/geom"
	"bowerwright/unit"
)

// A Unit is one kind of weight that the user owns: sandbag, iron weight, water
// can. Length lies along the piece, Width from front to back.
type Unit struct {
	Name                  string
	Mass                  unit.Mass
	Length, Width, Height float64 // mm
	Owned                 int
}

// A Room says where ballast may stand.
type Room struct {
	Gap     float64 // mm between the frames and the nearest unit: fingers, cables, stems
	Stack   int     // most units on each other; 0 is 1
	Hidden  float64 // mm up to which the dressing hides it; 0 does not matter
	InFront bool    // units may stand in front of the frames: dressing hides them or nobody minds
}

// A Spot is a place for units of one kind, one on the other.
type Spot struct {
	At    geom.Point
	On    string // the piece of the base
	Front bool   // it is in front of the frames
	Most  int    // units that may be stacked there
}

// Spots lists the places for a unit on the base: in rows behind the frames, the
// nearest row first, each row from the middle of the deck outwards to where the
// deck ends; then likewise in front of them, where that is allowed.
func (s Stance) Spots(u Unit, room Room) []Spot {
	most := room.stack(u)
	if most == 0 || u.Length <= 0 || u.Width <= 0 {
		return nil
	}
	var out []Spot
	taken := func(at geom.Point) bool {
		return slices.ContainsFunc(out, func(o Spot) bool {
			d := at.Sub(o.At)
			return math.Abs(d.X) < u.Length-geom.Eps && math.Abs(d.Y) < u.Width-geom.Eps
		})
	}
	back, front := s.Back()+room.Gap, s.Front()-room.Gap
	for _, p := range s.Deck {
		for _, f := range p.Footprint {
			for _, at := range u.rows(f, back, front, room.InFront) {
				if p.takes(f, u.around(at)) && !taken(at) {
					out = append(out, Spot{at, p.Name, at.Y < s.Front(), most})
				}
			}
		}
	}
	return out
}

// SharedSpots lists, for each of several kinds of unit, places that any of them
// may take: the same for all, roomy enough for the longest and widest of them.
func (s Stance) SharedSpots(units []Unit, room Room) [][]Spot {
	var largest Unit
	for _, u := range units {
		largest.Length, largest.Width = max(largest.Length, u.Length), max(largest.Width, u.Width)
	}
	places := s.Spots(largest, room)
	out := make([][]Spot, len(units))
	for i, u := range units {
		most := room.stack(u)
		for _, at := range places {
			if at.Most = most; most > 0 {
				out[i] = append(out[i], at)
			}
		}
	}
	return out
}

func (r Room) stack(u Unit) int {
	most := max(1, r.Stack)
	if r.Hidden > 0 && u.Height > 0 {
		most = min(most, int(math.Floor(r.Hidden/u.Height+geom.Eps)))
	}
	return most
}

func (u Unit) around(at geom.Point) geom.Polygon {
	return Rectangle(at.X-u.Length/2, at.Y-u.Width/2, u.Length, u.Width)
}

// rows lists the middles of units side by side over a footprint, in rows from
// the frames outwards and in each row from the middle outwards.
func (u Unit) rows(f geom.Polygon, back, front float64, inFront bool) []geom.Point {
	box := f.Box()
	ys := spread(max(back, box.Min.Y), box.Max.Y, u.Width)
	if inFront {
		ys = append(ys, spread(min(front, box.Max.Y), box.Min.Y, u.Width)...)
	}
	xs := u.columns(box)
	out := make([]geom.Point, 0, len(ys)*len(xs))
	for _, y := range ys {
		for _, x := range xs {
			out = append(out, geom.Point{X: x, Y: y})
		}
	}
	return out
}

// spread gives the middles of as many strips as fit from one place to another,
// the first against the first place, the last against the other, the rest
// evenly between; a single one in the middle.
func spread(from, to, width float64) []float64 {
	room := math.Abs(to - from)
	n := int(math.Floor((room + geom.Eps) / width))
	sign := 1.0
	if to < from {
		sign = -1
	}
	switch {
	case n < 1:
		return nil
	case n == 1:
		return []float64{(from + to) / 2}
	}
	out := make([]float64, n)
	for k := range out {
		out[k] = from + sign*(width/2+float64(k)*(room-width)/float64(n-1))
	}
	return out
}

// columns are the middles side by side from the left end to the right, listed
// from the middle outwards, left before right.
func (u Unit) columns(box geom.Box) []float64 {
	xs := spread(box.Min.X, box.Max.X, u.Length)
	mid := box.Centre().X
	slices.SortStableFunc(xs, func(a, b float64) int {
		if d := math.Abs(a-mid) - math.Abs(b-mid); math.Abs(d) > geom.Eps {
			return cmp.Compare(d, 0)
		}
		return cmp.Compare(a, b)
	})
	return xs
}

// takes says whether a unit's box lies wholly on a footprint and off its hole.
func (p Piece) takes(f, box geom.Polygon) bool {
	for i, c := range box {
		if !f.Contains(c) || !f.Contains(box.Side(i).Mid()) {
			return false
		}
	}
	return len(p.Hole) == 0 || !meet(p.Hole, box)
}

// meet says whether two outlines lie over each other by more than a hair.
func meet(a, b geom.Polygon) bool { return a.Overlap(b, geom.Eps).Area > 0 }

// RoomFrom is the usual room from a book of assumptions: behind the frames,
// whatever hides it.
func RoomFrom(r *assume.Reader) Room {
	gap := r.Get(assume.StandBallastGap)
	u, ok := unit.UnitNamed(gap.Unit)
	if !ok {
		panic("base: " + string(gap.ID) + " is in " + gap.Unit + ", which is no length")
	}
	return Room{Gap: gap.Value * u.Length().MM(), Stack: int(r.Get(assume.StandBallastStack).Value)}
}
