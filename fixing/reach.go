package fixing

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// Horizon, in mm, is how far the room in front of a head is looked into:
// farther than any driver with its bit and screw.
const Horizon = 1000

// A lane is the room in front of a head: along out, square to the face.
type lane struct {
	at, out, dir geom.Point
	z            float64
}

// clear is how far the way is free from a place beside the axis and out from
// the face.
func (w *work) clear(l lane, beside, start, length float64) float64 {
	from := l.at.Add(l.dir.Mul(beside)).Add(l.out.Mul(start))
	r := ray{from: from, to: from.Add(l.out.Mul(length)), z: l.z}
	return w.woods.hit(r) * length
}

// room is how far the axis is free.
func (w *work) room(l lane) float64 { return min(Horizon, offFace+w.clear(l, 0, offFace, Horizon)) }

// fits says whether a tool drives a screw straight: behind the screw on its
// bit, in one line, with both its flanks clear of the neighbouring boards all
// the way from the screw standing on the face to its head being home.
func (w *work) fits(l lane, t Tool, screw, room float64) bool {
	if room < t.Bit+screw+t.Length {
		return false
	}
	body := screw + t.Length
	for _, beside := range []float64{-t.Half, t.Half} {
		if w.clear(l, beside, t.Bit, body) < body-geom.Eps {
			return false
		}
	}
	return true
}

// slantStep is the step in which slants are stated: what is read off a bevel
// gauge by eye (common practice, no source).
const slantStep = 5

// slants are the slants to try, least first.
func (w *work) slants() []unit.Angle {
	var out []unit.Angle
	for d := slantStep; unit.FromDegrees(float64(d)) <= w.rules.Slant+1e-9; d += slantStep {
		out = append(out, unit.FromDegrees(float64(d)))
	}
	return out
}

// leaves says whether a driver at a slant clears the board opposite: its far
// flank, Half beside the axis, has left by the open side, depth away from the
// head, before it is out as far as the room. With the axis at a from square,
// the flank crosses the plane of the open side (depth cos a + Half) / sin a out
// from the face. Its near flank must pass over the face that the head is in
// when the bit is home: Bit cos a >= Half sin a.
func (t Tool) leaves(a unit.Angle, depth, room float64) bool {
	sin, cos := math.Sincos(float64(a))
	return (depth*cos+t.Half)/sin <= room && t.Bit*cos >= t.Half*sin
}

// roomAside is the room that a slanted driver has: the least over its width.
func (w *work) roomAside(l lane, t Tool, room float64) float64 {
	start := t.Bit * math.Cos(float64(w.rules.Slant))
	for _, beside := range []float64{-t.Half, t.Half} {
		room = min(room, start+w.clear(l, beside, start, Horizon))
	}
	return room
}
