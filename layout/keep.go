package layout

import (
	"math"

	"bowerwright/geom"
)

// BuildAs builds a layout of frames as they are made so that it lies as another
// of the same places does, asked with no rounding. A frame whose parts are on
// the tape closes with a hair's error at its corners; laid strictly side to
// side, a row of such frames would turn a little more at each. In the shop all
// that stands is clamped to one straight length, and the hair stays in the
// seams. So each frame keeps the turn that it has in asked, and those that stand
// there on the floor are put down on one floor line, as long as its
// attached side goes no further than the joint tolerance from where it would lie
// strictly. Otherwise a frame lies as it is attached.
func BuildAs(kinds []Kind, places []Place, s Settings, asked Layout) (Layout, []Problem) {
	k := keepOf(asked)
	frames, _ := place(kinds, places, s.withDefaults(), k)
	k.findLine(frames)
	return build(kinds, places, s, k)
}

// A keeper knows how the frames lie as asked. Its nil keeps nothing.
type keeper struct {
	turn   map[string]float64
	stands map[string]bool
	line   *float64 // height of the floor in the places' coordinates
}

func keepOf(asked Layout) *keeper {
	k := &keeper{turn: map[string]float64{}, stands: map[string]bool{}}
	for _, f := range asked.Frames {
		k.turn[f.ID] = f.Move.Turn
	}
	for _, s := range asked.Standing {
		k.stands[asked.Frames[s.Frame].ID] = true
	}
	for _, f := range asked.Feet {
		k.stands[asked.Frames[f.Frame].ID] = true
	}
	for _, t := range asked.Tips {
		k.stands[asked.Frames[t.Frame].ID] = true
	}
	return k
}

// findLine puts the floor midway between the highest and the lowest of what
// stands as asked, so that the least is asked of any seam.
func (k *keeper) findLine(frames []Frame) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, f := range frames {
		if k.stands[f.ID] {
			low, high = min(low, f.Box.Min.Y), max(high, f.Box.Min.Y)
		}
	}
	if low <= high {
		line := (low + high) / 2
		k.line = &line
	}
}

// kept gives the move of place i as asked where that is near enough to m, which
// attachment at makes exact.
func (p *placing) kept(i int, at Attach, m geom.Move) geom.Move {
	turn, known := p.turnAsked(i)
	if !known || at.Corner != 0 {
		return m
	}
	outside := p.kinds[p.places[i].Kind].Outside
	side := outside.Side(at.Side - 1)
	turned := geom.Move{Mirror: m.Mirror, Turn: turn}
	turned.Shift = m.Apply(side.Mid()).Sub(turned.Apply(side.Mid()))
	strict := m.Segment(side)
	near := func(n geom.Move) bool {
		got := n.Segment(side)
		off := func(a, b geom.Point) float64 { return math.Abs(b.Sub(a).Cross(strict.Vec().Unit())) }
		return max(off(strict.A, got.A), off(strict.B, got.B)) <= p.tolerance
	}
	for _, n := range []geom.Move{p.down(i, turned), turned} {
		if near(n) {
			return n
		}
	}
	return m
}

func (p *placing) turnAsked(i int) (float64, bool) {
	if p.keep == nil {
		return 0, false
	}
	turn, known := p.keep.turn[p.places[i].ID]
	return turn, known
}

// down puts place i on the floor line when it stands as asked.
func (p *placing) down(i int, m geom.Move) geom.Move {
	if p.keep == nil || p.keep.line == nil || !p.keep.stands[p.places[i].ID] {
		return m
	}
	low := newFrame(i, p.places[i], p.kinds[p.places[i].Kind], m).Box.Min.Y
	m.Shift.Y += *p.keep.line - low
	return m
}
