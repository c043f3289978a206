package job

import (
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// build lays the frames out from the given shapes. Copies are taken from where
// the first pass puts their originals, so they are placed and not attached. With
// as given, the frames lie as they do there.
func build(s Spec, kinds []layout.Kind, set layout.Settings, as *layout.Layout) (layout.Layout, []layout.Problem) {
	lay := layout.Build
	if as != nil {
		lay = func(kinds []layout.Kind, places []layout.Place, set layout.Settings) (layout.Layout, []layout.Problem) {
			return layout.BuildAs(kinds, places, set, *as)
		}
	}
	places := layoutPlaces(s.Layout)
	l, problems := lay(kinds, places, set)
	if len(s.Copies) == 0 || len(problems) > 0 {
		return l, problems
	}
	return lay(kinds, append(places, copies(s, l)...), set)
}

func layoutPlaces(in []Place) []layout.Place {
	out := make([]layout.Place, len(in))
	for i, p := range in {
		out[i] = layout.Place{ID: p.ID, Kind: p.Kind, Mirror: p.Mirror, Turn: p.Turn, At: p.At}
		for _, a := range p.Attach {
			out[i].Attach = append(out[i].Attach, layout.Attach{
				Side: a.Side, To: a.To, ToSide: a.ToSide,
				Align: aligns[a.Align], Shift: a.Shift.MM(),
				Corner: a.Corner, ToCorner: a.ToCorner,
			})
		}
	}
	return out
}

// aligns are the words of the job file; the empty word is centred.
var aligns = map[string]layout.Align{
	"centred": layout.Centred, "flush at start": layout.FlushStart, "flush at end": layout.FlushEnd,
}

// copies places every copy where its original's move, mirrored or shifted,
// takes it. An original that does not exist is left out: checkCopies tells.
func copies(s Spec, l layout.Layout) []layout.Place {
	moves, kinds := movesAsTyped(l)
	var out []layout.Place
	for _, c := range s.Copies {
		for i, id := range c.From {
			m, ok := moves[id]
			if !ok || i >= len(c.As) {
				continue
			}
			m = c.move(m)
			moves[c.As[i]], kinds[c.As[i]] = m, kinds[id]
			at := m.Shift
			out = append(out, layout.Place{ID: c.As[i], Kind: kinds[id], Mirror: m.Mirror, Turn: unit.Angle(m.Turn), At: &at})
		}
	}
	return out
}

// checkCopies finds copies of nothing. The job file has refused them.
func (p *planner) checkCopies() {
	known := map[string]bool{}
	for _, q := range p.spec.Layout {
		known[q.ID] = true
	}
	for _, c := range p.spec.Copies {
		if len(c.From) != len(c.As) {
			p.fault("%d frames are copied as %d", len(c.From), len(c.As))
			return
		}
		for i, id := range c.From {
			if !known[id] {
				p.fault("a copy of %q, which is no frame", id)
			}
			known[c.As[i]] = true
		}
	}
}

// move is where a copy of something at m goes.
func (c Copy) move(m geom.Move) geom.Move {
	if c.MirrorAt == nil {
		m.Shift = m.Shift.Add(c.By)
		return m
	}
	return geom.Move{Mirror: !m.Mirror, Turn: -m.Turn, Shift: geom.Point{X: 2*c.MirrorAt.MM() - m.Shift.X, Y: m.Shift.Y}}
}

// movesAsTyped gives each frame's move in the job file's own coordinates: the
// layout has shifted everything to start at the left end and the floor.
func movesAsTyped(l layout.Layout) (map[string]geom.Move, map[string]string) {
	moves, kinds := map[string]geom.Move{}, map[string]string{}
	for _, f := range l.Frames {
		m := f.Move
		m.Shift = m.Shift.Sub(l.Origin)
		moves[f.ID], kinds[f.ID] = m, f.Kind
	}
	return moves, kinds
}
