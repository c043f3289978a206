package packet

import (
	"bowerwright/drawing"
	"bowerwright/job"
)

// stands are the places of two people before a set piece, real mm from its left
// end, apart by a gap: where they hide fewest boards, and among those nearest
// to a third of the width. A figure before a leg would look like part of it.
func stands(r job.Result, w, gap float64) (adult, child float64) {
	const steps = 48
	best, at, other := -1.0, w*personShare, w*personShare+gap
	for i := range steps + 1 {
		x := w * float64(i) / steps
		for _, y := range []float64{x + gap, x - gap} {
			if min(x, y) < 0 || max(x, y)+drawing.Adult.Height()*personHalf > w {
				continue
			}
			hidden := hides(r, drawing.Adult, x) + hides(r, drawing.Child, y) + abs(x-w*personShare)/w*personStays
			if best < 0 || hidden < best-1e-9 {
				best, at, other = hidden, x, y
			}
		}
	}
	return at, other
}

// personShare is where along the width an adult stands by preference.
const personShare = 0.36

// personStays is how many edges more must be free for a person to go away from
// there by the whole width: less is not worth it.
const personStays = 24.0

// hides is how many edges of boards pass behind a person at a place.
func hides(r job.Result, p drawing.Person, x float64) float64 {
	half := p.Height() * personHalf
	b := box{x - half, 0, x + half, p.Height()}
	n := 0.0
	for _, f := range r.Frames {
		for _, ring := range [][]job.XY{f.Outside, f.Inside} {
			for i := range ring {
				j := (i + 1) % len(ring)
				if f.Open && j == 0 {
					continue
				}
				if crosses(b, drawing.Pt(ring[i][0], ring[i][1]), drawing.Pt(ring[j][0], ring[j][1])) {
					n++
				}
			}
		}
	}
	return n
}

// personHalf is half a person's width with some air, in parts of the height:
// the widest place of the figure is at the shoulders.
const personHalf = 0.14
