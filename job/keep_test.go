package job

import (
	"math"
	"testing"

	"bowerwright/layout"
)

// TestWhatStandsStaysOnTheFloor: houses whose parts are on the tape do not close
// to a hair; laid side to side in a row each would hang a little higher than the
// one before. As built all stand on the floor as asked, none turned, and every
// seam is as wide as planned within the joint tolerance.
func TestWhatStandsStaysOnTheFloor(t *testing.T) {
	s := spec("H = house: width 18.9, eaves 27.55, ridge 35.45",
		"H1 at 0 0", "H2 side 5 on H1 side 2", "H3 side 5 on H2 side 2", "H4 side 5 on H3 side 2", "H5 side 5 on H4 side 2")
	p := start(s, BuiltIn())
	p.prepare()
	p.layAsked()
	p.layBuilt()
	if p.err != nil || p.snags.Stops() {
		t.Fatal(p.err, p.snags)
	}
	built := func(s *shape) layout.Kind { return s.laid(s.built.Built.Corners, s.built.Inside) }
	strict, _ := p.lay(p.set.gap, built, nil)
	if len(strict.Standing) == 5 {
		t.Error("laid strictly all stand too: the test shows nothing")
	}
	if len(p.built.Standing) != 5 || len(p.built.Seams) != len(p.asked.Seams) {
		t.Errorf("%d of 5 stand, %d of %d seams", len(p.built.Standing), len(p.built.Seams), len(p.asked.Seams))
	}
	for i, f := range p.built.Frames {
		if turn := math.Abs(f.Move.Turn - p.asked.Frames[i].Move.Turn); turn > 1e-12 {
			t.Errorf("%s is turned by %g", f.ID, turn)
		}
	}
	tolerance := p.set.tolerance.MM()
	for _, m := range p.built.Seams {
		if off := math.Abs(m.Gap - p.set.gap.MM()); off > tolerance {
			t.Errorf("seam %d: gap %g", m.Number, m.Gap)
		}
	}
}
