package passage

import "math"

// A Spot is somewhere a piece must pass.
type Spot interface {
	// Pass says how the piece passes and with how much to spare.
	Pass(*Body) Verdict
	// Fits says only whether, and faster.
	Fits(*Body) bool
}

// A Door is an opening that one goes straight through: a door, a hatch, a
// window, clear of leaf, stop and closer. However deep its walls are does not
// matter.
type Door struct{ Width, Height float64 }

func (d Door) room() Room { return Room{math.Inf(1), d.Width, d.Height} }

// Pass looks at every hold straight through.
func (d Door) Pass(b *Body) Verdict { return verdict(b.straight(d.room())) }

// Fits says whether one of them passes.
func (d Door) Fits(b *Body) bool { return b.fits(d.room()) }

// A Chamber is a room that a piece goes straight into and stays as it was held:
// a lift car, or the load space of a vehicle whose width is that between the
// wheel arches. Nothing is reckoned of the room above them.
type Chamber struct {
	Length, Width, Height float64 // inside; Length is from the door
	Door                  Door
}

func (c Chamber) room() Room {
	return Room{c.Length, math.Min(c.Width, c.Door.Width), math.Min(c.Height, c.Door.Height)}
}

// Pass looks at every hold that passes the door and ends inside.
func (c Chamber) Pass(b *Body) Verdict { return verdict(b.straight(c.room())) }

// Fits says whether there is one.
func (c Chamber) Fits(b *Body) bool { return b.fits(c.room()) }

// A Floor is where a piece is laid flat: the lay-out floor of the shop, a
// clear place at the venue.
type Floor struct{ Length, Width float64 }

func (f Floor) free(b *Body) Room {
	return Room{f.Length, f.Width, math.Inf(1)}.shrink(b.room)
}

// Pass lays the piece down, turned in its plane as needed.
func (f Floor) Pass(b *Body) Verdict {
	free := f.free(b)
	turn := b.turn(free.Along, func(h float64) float64 { return free.Across - h })
	return verdict([]Way{b.way(Hold{Kind: Flat, Turn: turn, Lean: math.Pi / 2}, free)})
}

// Fits says whether it lies there.
func (f Floor) Fits(b *Body) bool {
	_, high, ok := b.flattest(f.Length - b.room + Snug)
	return ok && high <= f.Width-b.room+Snug
}

// A Ceiling is what is overhead where a set piece goes up: Spot where it
// stands, Rising over where it is tilted up, mm. A zero is no limit.
type Ceiling struct{ Spot, Rising float64 }

// A Stood is a set piece as it stands: so high, and so deep at the foot from
// the edge it turns on to the front, mm.
type Stood struct{ Height, Depth float64 }

// Highest is how high it reaches on its way up: the far top corner goes over
// the heel at √(height² + depth²).
func (s Stood) Highest() float64 { return math.Hypot(s.Height, s.Depth) }

// Clear is what is left overhead: standing, and while it is tilted up from
// lying on its back; +Inf without a limit. What fits standing and not tilted
// is built up from the base instead.
func (c Ceiling) Clear(s Stood) (standing, rising float64) {
	return left(c.Spot, s.Height), left(c.Rising, s.Highest())
}

func left(limit, need float64) float64 {
	if limit == 0 {
		return math.Inf(1)
	}
	return limit - need
}
