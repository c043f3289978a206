package fixing

import (
	"testing"

	"bowerwright/geom"
)

// A side that lies at a hair's angle to its seam, as lengths on the tape leave
// it, does not stand in the way of its own bolts: its face is half a millimetre
// out from end to end, a closed joint still.
func TestOwnBoardIsNotInTheWay(t *testing.T) {
	for _, lean := range []float64{0, 0.5, -0.5} {
		m := &made{}
		m.box("box", 18, 24, oneByFour)
		w, h := 18*inch, 24*inch
		m.kind("lean", geom.Polygon{{}, {X: w}, {X: w, Y: h}, {X: -lean, Y: h}}, oneByFour)
		m.at("A", "box", 9, 0)
		m.at("B", "lean", 27, 0)
		l, p := m.fix(t, Settings{Often: true})
		if len(p.Seams) != 1 || p.Seams[0].Across || len(p.Seams[0].Fasteners) != 2 {
			t.Errorf("lean %g mm:\n%s", lean, text(l, p))
		}
	}
}
