package layout

import (
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/unit"
)

// SnapSettings say what draws a frame in hand, all in mm.
type SnapSettings struct {
	Gap            float64    // between the faces of every seam, as in Settings
	JointTolerance float64    // as in Settings; 0 takes the default
	Capture        float64    // how far a frame lets itself be drawn, along a face's way out and to the floor
	Mark           float64    // of the tape: shifts, and places on the floor, are whole marks; 0 leaves them as held
	Floor          *float64   // the height of the floor line; nil where there is none
	Origin         geom.Point // the zero of the places in the job file, see Layout.Origin
}

// A Snapped frame has come to lie somewhere.
type Snapped struct {
	Place   Place // as Build takes it, without an ID: one attachment, or At and Turn on the floor
	To      int   // index of the frame that it is attached to; -1 on the floor
	Move    geom.Move
	Outside geom.Polygon // where Move takes the kind's outside
	Off     float64      // mm that it was drawn in all; see offer
}

const (
	// snapTurn is how far, in radians, a frame in hand turns by itself: 20
	// degrees, less than the 30 between the sides of one hexagon and the corners
	// of another, so that both can be meant (common practice, no source).
	snapTurn = math.Pi / 9
	// snapNamed is the share of Settings.Capture over which a named place along a
	// side (centred, flush) draws. What is further along is shifted by whole
	// marks, so that a closer look, with a smaller capture, gives finer shifts.
	snapNamed = 0.5
	// snapSame is the difference, in mm, up to which two distances count as
	// equal: far below any mark and far above the error of floating point, so
	// that a program in another language decides alike.
	snapSame = 1e-6
)

// Snap finds where a frame of a kind, held at a move, comes to lie: side to side
// with one of the frames, else corner on corner, else on the floor. Each pair
// of sides, and each pair of corners, offers one place; of those at which the
// frame overlaps no other and does not reach under the floor, the one nearest
// to where it is held is taken. Of places equally near, within snapSame, the
// first wins: by the order of the frames, then of their sides, then of the sides
// in hand. From a corner or the floor it is drawn on to what is near enough from
// there, so that what has snapped stays. It is false when nothing is near enough.
//
// The work grows with the pairs of sides: meant for the frames of one set piece,
// at every movement of a hand. web/src/snap.ts does the same, held to
// the same testdata/snap.json.
func Snap(frames []Frame, kind Kind, held geom.Move, s SnapSettings) (Snapped, bool) {
	if !kind.sound() {
		return Snapped{}, false
	}
	if s.JointTolerance <= 0 {
		s.JointTolerance = DefaultJointTolerance
	}
	got, how := snapOnce(frames, kind, held, s)
	for how == byCorner || how == byFloor {
		next, better := snapOnce(frames, kind, got.Move, s)
		if better >= how {
			break
		}
		next.Off += got.Off
		got, how = next, better
	}
	return got, how != byNothing
}

// How a frame is drawn, the strongest first.
const (
	bySide = iota
	byCorner
	byFloor
	byNothing
)

// snapOnce takes the best of the strongest offers.
func snapOnce(frames []Frame, kind Kind, held geom.Move, s SnapSettings) (got Snapped, how int) {
	h := hand{frames: frames, kind: kind, held: newFrame(-1, Place{Kind: kind.Name}, &kind, held), set: s}
	for how, offers := range []func() []offer{bySide: h.sides, byCorner: h.corners, byFloor: h.floor} {
		if got, ok := h.nearest(offers()); ok {
			return got, how
		}
	}
	return Snapped{}, byNothing
}

// A hand holds a frame among others.
type hand struct {
	frames []Frame
	kind   Kind
	held   Frame
	set    SnapSettings
}

// An offer is one place where the frame could lie. Off is how far it is drawn:
// over a side, away from its middle and along it, with what turning moves the
// side's ends by, taken together by Pythagoras; over a corner or to the floor,
// the distance.
type offer struct {
	to    int
	place Place
	move  geom.Move
	off   float64
}

// nearest takes the best offer at which the frame is free.
func (h hand) nearest(offers []offer) (Snapped, bool) {
	for len(offers) > 0 {
		best := 0
		for i, o := range offers {
			if o.off < offers[best].off-snapSame {
				best = i
			}
		}
		if o := offers[best]; h.free(o) {
			return Snapped{Place: o.place, To: o.to, Move: o.move, Outside: o.move.Polygon(h.kind.Outside), Off: o.off}, true
		}
		offers = slices.Delete(offers, best, best+1)
	}
	return Snapped{}, false
}

// free says whether the frame at an offer reaches neither under the floor nor
// into another frame. On a corner it must not lie side to side as well: that
// would be a seam without its gap.
func (h hand) free(o offer) bool {
	f := newFrame(-1, o.place, &h.kind, o.move)
	if h.set.Floor != nil && f.Box.Min.Y < *h.set.Floor-h.set.JointTolerance {
		return false
	}
	boards := boardsOf(f)
	for _, other := range h.frames {
		if !f.Box.Within(other.Box, 0) {
			continue
		}
		if _, deep := overlapOf(boards, boardsOf(other), h.set.JointTolerance); deep {
			return false
		}
	}
	return o.to < 0 || o.place.Attach[0].Corner == 0 || !h.seamed(f, h.frames[o.to])
}

// seamed says whether two frames have a seam, side to side.
func (h hand) seamed(f, g Frame) bool {
	s := Settings{Gap: h.set.Gap, JointTolerance: h.set.JointTolerance}
	for i := range f.Sides() {
		for j := range g.Sides() {
			a, b := f.face(i+1, false), g.face(j+1, false)
			if from, to, ok := facingStretch(a, b); ok {
				if _, ok := seamOf(a, b, from, to, s); ok {
					return true
				}
			}
		}
	}
	return false
}

// sides offers every side of the frame in hand to every other side.
func (h hand) sides() []offer {
	var offers []offer
	for i, f := range h.frames {
		for toSide := 1; toSide <= f.Sides(); toSide++ {
			theirs := f.face(toSide, false)
			for side := 1; side <= h.held.Sides(); side++ {
				at, off, ok := h.along(theirs, h.held.face(side, false))
				if !ok {
					continue
				}
				at.To, at.Side, at.ToSide = f.ID, side, toSide
				offers = append(offers, offer{
					to:    i,
					place: Place{Kind: h.kind.Name, Mirror: h.held.Move.Mirror, Attach: []Attach{at}},
					move:  lieOn(h.kind.Outside, h.held.Move.Mirror, at, theirs, h.set.Gap),
					off:   off,
				})
			}
		}
	}
	return offers
}

// along finds the place that one of our sides takes along one of theirs.
func (h hand) along(theirs, ours face) (at Attach, off float64, ok bool) {
	if min(theirs.length(), ours.length()) < LeastSeam {
		return Attach{}, 0, false
	}
	turn := wrap(angle(theirs.out) + math.Pi - angle(ours.out))
	middle := ours.segment().Mid()
	away := middle.Sub(theirs.from).Dot(theirs.out) - h.set.Gap
	if math.Abs(turn) > snapTurn+snapSame || math.Abs(away) > h.set.Capture+snapSame {
		return Attach{}, 0, false
	}
	at, place := h.alignOf(theirs.length(), ours.length(), theirs.along(middle))
	half := ours.length() / 2
	if min(theirs.length(), place+half)-max(0, place-half) < LeastSeam-snapSame {
		return Attach{}, 0, false
	}
	off = math.Hypot(math.Hypot(away, theirs.along(middle)-place), turn*half)
	return at, off, true
}

// alignOf names the place of a side along another, by how far its middle lies
// along the other, and says where its middle then comes to lie. A named place
// that is near enough is taken, else the one with the least shift; where the
// sides are as long as each other all three are one. What lies half way between
// two of them may be nearer to the other once it is shifted by whole marks: it
// goes on from there, each time with a lesser shift or an earlier name.
func (h hand) alignOf(theirs, ours, middle float64) (Attach, float64) {
	named := [...]float64{Centred: theirs / 2, FlushStart: ours / 2, FlushEnd: theirs - ours/2}
	for {
		best, least := Centred, h.shift(middle-named[Centred])
		for a, place := range named {
			shift := h.shift(middle - place)
			nearer := shift == 0 && math.Abs(middle-place) < math.Abs(middle-named[best])-snapSame
			if math.Abs(shift) < math.Abs(least)-snapSame || least == 0 && nearer {
				best, least = Align(a), shift
			}
		}
		place := named[best] + least
		if math.Abs(place-middle) <= snapSame || least == 0 {
			return Attach{Align: best, Shift: least}, place
		}
		middle = place
	}
}

// shift is that from a named place to one so many mm further on: none as far as
// the named place draws.
func (h hand) shift(mm float64) float64 {
	shift := h.marks(mm)
	if math.Abs(shift) <= snapNamed*h.set.Capture+snapSame {
		return 0
	}
	return shift
}

// marks takes a length to the nearest mark, from the middle of two to the upper.
func (h hand) marks(mm float64) float64 {
	if h.set.Mark <= 0 {
		return mm
	}
	return math.Floor((mm+snapSame)/h.set.Mark+0.5) * h.set.Mark
}

// corners offers every corner of the frame in hand, turned as it is held, to
// every other corner.
func (h hand) corners() []offer {
	var offers []offer
	for i, f := range h.frames {
		for toCorner, there := range f.Outside {
			for corner, here := range h.held.Outside {
				off := here.Dist(there)
				if off > h.set.Capture+snapSame || !isCorner(f, toCorner) || !isCorner(h.held, corner) {
					continue
				}
				move := h.held.Move
				move.Shift = move.Shift.Add(there.Sub(here))
				at := Attach{To: f.ID, Corner: corner + 1, ToCorner: toCorner + 1}
				offers = append(offers, offer{
					to:    i,
					place: Place{Kind: h.kind.Name, Mirror: move.Mirror, Turn: unit.Angle(move.Turn), Attach: []Attach{at}},
					move:  move,
					off:   off,
				})
			}
		}
	}
	return offers
}

// isCorner says whether corner k, from 0, has a side long enough for a seam. A
// ring sawn round has no such corner.
func isCorner(f Frame, k int) bool {
	n := len(f.Outside)
	return max(f.Outside.Side(k).Len(), f.Outside.Side((k+n-1)%n).Len()) >= LeastSeam
}

// floor offers the place straight under, or over, the frame in hand. It turns
// about its middle, and its origin comes to lie on a mark along the floor.
func (h hand) floor() []offer {
	if h.set.Floor == nil || math.Abs(h.held.Box.Min.Y-*h.set.Floor) > h.set.Capture+snapSame {
		return nil
	}
	move := h.held.Move
	move.Turn = wrap(move.Turn + h.level())
	middle := move.Apply(h.kind.Outside.Centroid())
	move.Shift = move.Shift.Add(h.held.Centre.Sub(middle))
	at := move.Shift.Sub(h.set.Origin)
	foot := newFrame(-1, Place{}, &h.kind, move).Box.Min.Y
	at = geom.Point{X: h.marks(at.X), Y: at.Y + *h.set.Floor - foot}
	move.Shift = at.Add(h.set.Origin)
	place := Place{Kind: h.kind.Name, Mirror: move.Mirror, Turn: unit.Angle(move.Turn), At: &at}
	return []offer{{to: -1, place: place, move: move, off: math.Abs(h.held.Box.Min.Y - *h.set.Floor)}}
}

// level is the turn that makes the frame in hand stand as its kind does, or on
// one of its sides, whichever is less; 0 when all are too far.
func (h hand) level() float64 {
	best, found := wrap(-h.held.Move.Turn), true
	if math.Abs(best) > snapTurn+snapSame {
		best, found = 0, false
	}
	for side := 1; side <= h.held.Sides(); side++ {
		turn := wrap(-math.Pi/2 - angle(h.held.face(side, false).out))
		if math.Abs(turn) > snapTurn+snapSame || found && math.Abs(turn) >= math.Abs(best)-snapSame || !h.standsOn(side) {
			continue
		}
		best, found = turn, true
	}
	return best
}

// standsOn says whether no wood lies beyond a side.
func (h hand) standsOn(side int) bool {
	f := h.held.face(side, false)
	if f.length() < LeastSeam {
		return false
	}
	for k, p := range h.held.Outside {
		if max(p.Sub(f.from).Dot(f.out), h.held.Inside[k].Sub(f.from).Dot(f.out)) > snapSame {
			return false
		}
	}
	return true
}
