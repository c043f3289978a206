package passage

import (
	"math"

	"bowerwright/geom"
)

// A Kind is how a piece is held, the easiest first.
type Kind int

// The kinds of hold. All but Broadside go edge first.
const (
	Upright   Kind = iota // as it stands
	OnEdge                // upright, turned in its own plane
	Flat                  // face to the floor
	Leaned                // edge first, leaning over to one side
	Broadside             // face first
)

var kindNames = []string{"upright", "on edge", "flat", "leaned", "broadside"}

func (k Kind) String() string { return kindNames[k] }

// A Hold is one position: the piece is turned anticlockwise in its own plane as
// seen from the front, then leaned over from upright, 0, to flat, π/2. Edge
// first, what was its right side leads or follows.
type Hold struct {
	Kind       Kind
	Turn, Lean float64 // radians
	FaceDown   bool    // of Flat: the front is below
}

// A Room is a size or what is left of one: along the way, across it and up, mm.
// An opening without an end has +Inf along.
type Room struct{ Along, Across, Up float64 }

// Least is the smallest of the three.
func (r Room) Least() float64 { return math.Min(r.Along, math.Min(r.Across, r.Up)) }

func (r Room) less(o Room) Room {
	return Room{r.Along - o.Along, r.Across - o.Across, r.Up - o.Up}
}

func (r Room) shrink(d float64) Room { return r.less(Room{d, d, d}) }

// Takes is the room that the bare piece takes up in a hold.
func (b *Body) Takes(h Hold) Room {
	wide, high := b.Size(h.Turn)
	if h.Kind == Broadside {
		return Room{b.thick, wide, high}
	}
	s, c := math.Sincos(h.Lean)
	return Room{wide, high*s + b.thick*c, high*c + b.thick*s}
}

// Seen is the hull of the piece in a hold as one sees it along the way, the
// middle at the origin: the picture to draw in the opening.
func (b *Body) Seen(h Hold) geom.Polygon {
	if h.Kind == Broadside {
		turned := geom.Move{Turn: h.Turn}.Polygon(b.hull)
		return turned.Shift(turned.Box().Centre().Mul(-1))
	}
	_, high := b.Size(h.Turn)
	return geom.Move{Turn: -h.Lean}.Polygon(rectangle(b.thick, high))
}

// rectangle is one about the origin, anticlockwise.
func rectangle(w, h float64) geom.Polygon {
	return geom.Polygon{{X: -w / 2, Y: -h / 2}, {X: w / 2, Y: -h / 2}, {X: w / 2, Y: h / 2}, {X: -w / 2, Y: h / 2}}
}

// A Way is one hold and what it leaves.
type Way struct {
	Hold      Hold
	Takes     Room // bare
	Slack     Room // after wrapping and fingers
	Clearance float64
	Poses     []Pose // round a corner: as it comes, where it is tightest, as it goes
}

// A Pose is where a piece is while it turns a corner, seen from above: the
// outer corner at the origin, the passage it leaves by along +x.
type Pose struct {
	Turn    float64      // how far it is turned from its hold, anticlockwise, radians
	Outline geom.Polygon // mm
}

// A Verdict is what a spot says of a piece.
type Verdict struct {
	Passes bool
	Best   Way   // the most clearance; of equals the easiest
	Ways   []Way // the best of each kind of hold that was tried, easiest first
	Why    string
}

// Easiest is the first of the ways with at least so much clearance, in mm.
func (v Verdict) Easiest(clearance float64) (Way, bool) {
	for _, w := range v.Ways {
		if w.Clearance >= clearance-Snug {
			return w, true
		}
	}
	return Way{}, false
}

func verdict(ways []Way) Verdict {
	v := Verdict{Ways: ways, Best: ways[0]}
	for _, w := range ways[1:] {
		if w.Clearance > v.Best.Clearance+Snug {
			v.Best = w
		}
	}
	v.Passes = v.Best.Clearance >= -Snug
	if !v.Passes {
		v.Why = NotStill
	}
	return v
}
