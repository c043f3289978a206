package fixing

import (
	"bowerwright/geom"
)

// An Eye looks at the piece. X is from the layout's left end, Height above the
// floor, Distance in front of the front edges or, Behind, behind the deepest
// board; all in mm.
type Eye struct {
	Name                string
	X, Height, Distance float64
	Behind              bool
}

// DefaultEyes are a standing guest, a seated guest and a camera, each before
// the left end, the middle and the right end of a piece of some width; with
// both, behind it as well.
func DefaultEyes(width float64, r Rules, both bool) []Eye {
	var eyes []Eye
	sides := []bool{false}
	if both {
		sides = []bool{false, true}
	}
	for _, behind := range sides {
		for _, who := range []Eye{{Name: "standing guest", Height: r.Standing}, {Name: "seated guest", Height: r.Seated}, {Name: "camera", Height: r.Camera}} {
			for _, x := range []float64{0, width / 2, width} {
				who.X, who.Distance, who.Behind = x, r.Distance, behind
				eyes = append(eyes, who)
			}
		}
	}
	return eyes
}

// A look is a head in a face: where, how deep behind the front edges, and the
// way out of the face; no way out is the back, where whoever stands behind sees
// it.
type look struct {
	at  geom.Point
	z   float64
	out geom.Point
}

// offFace, in mm, lifts the line of sight, and the room in front of a head, off
// the face of the head, so that the board it sits in is not in its own way. With
// lengths on the tape a side may lie at a hair's angle to its seam, its face
// out by as much as a closed joint may gape, 1/32 in.
const offFace = 1

// sees says whether an eye sees a head: it is on the open side of the face,
// and no board of any frame is in between.
func (w *work) sees(e Eye, h look) bool {
	if h.at.Y < w.s.DressedBelow.MM() || w.s.DressedAbove > 0 && h.at.Y > w.s.DressedAbove.MM() {
		return false
	}
	if h.out == (geom.Point{}) {
		return e.Behind
	}
	eye := geom.Point{X: e.X, Y: e.Height}
	if eye.Sub(h.at).Dot(h.out) <= offFace {
		return false
	}
	z, edge := -e.Distance, 0.0
	if e.Behind {
		z, edge = w.woods.deepest+e.Distance, w.woods.deepest
	}
	// Beyond the front edges, or the deepest board, nothing is in the way.
	share := 1.0
	if z != h.z {
		share = min((edge-h.z)/(z-h.z), 1)
	}
	r := ray{from: h.at.Add(h.out.Mul(offFace)), to: h.at.Lerp(eye, share), z: h.z, dz: (z - h.z) * share}
	return w.woods.hit(r) == 1
}

// seenBy counts the pairs of eye and head that it sees.
func (w *work) seenBy(heads []look) int {
	n := 0
	for _, h := range heads {
		for _, e := range w.eyes {
			if w.sees(e, h) {
				n++
			}
		}
	}
	return n
}
