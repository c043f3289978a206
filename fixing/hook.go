package fixing

import (
	"bowerwright/geom"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A Hook asks for hooks or ties for dressing on one side of a frame, on its
// back edge.
type Hook struct {
	Frame string // ID
	Side  int
	Count int            // 0: one
	Kind  stock.Hardware // stock.Hook or stock.Tie; "": hook
}

// Fixed is where one hook or tie goes.
type Fixed struct {
	Name        string
	Frame, Side int
	Along       float64 // from the corner where the side starts, on its outside
	At          geom.Point
	Thread      float64     // deep into the back edge
	Hole        unit.Length // the drill for it, as deep as the thread
}

// hookHole is the hole for a hook's or a tie's thread: half as wide as it, to the
// nearest drill that is sold (common practice, no source).
func hookHole(thread unit.Length) unit.Length {
	return max(unit.Round(thread/2, drillStep(thread)), drillStep(thread))
}

// hooks places all that are asked for.
func (w *work) hooks() []Fixed {
	var out []Fixed
	for _, h := range w.s.Hooks {
		placed, p := w.hook(h)
		if p != nil {
			w.problems = append(w.problems, *p)
			continue
		}
		out = append(out, placed...)
	}
	return out
}

func (w *work) frameByID(id string) (int, bool) {
	for i, f := range w.l.Frames {
		if f.ID == id {
			return i, true
		}
	}
	return 0, false
}

// hook spreads the hooks of one side over its inside length, each moved along
// until it is clear of the screws.
func (w *work) hook(h Hook) ([]Fixed, *Problem) {
	bad := &Problem{Code: NoFrame, Frames: [2]string{h.Frame}, Side: h.Side}
	i, ok := w.frameByID(h.Frame)
	if !ok || h.Side < 1 || h.Side > w.l.Frames[i].Sides() {
		return nil, bad
	}
	bad.Code = NoHook
	if h.Kind == "" {
		h.Kind = stock.Hook
	}
	all := w.cat.Fasteners(h.Kind)
	if len(all) == 0 {
		return nil, bad
	}
	from, to, out := w.l.Frames[i].Side(h.Side)
	bad.At = from.Lerp(to, 0.5)
	if rise, wants := w.boards[i].Rise().MM(), all[0].Length.MM()+w.rules.Keep; wants > rise {
		bad.Room, bad.Need = rise, wants
		return nil, bad
	}
	n := max(h.Count, 1)
	var placed []Fixed
	for k := range n {
		lo, hi := from.Lerp(to, float64(k)/float64(n)), from.Lerp(to, float64(k+1)/float64(n))
		f, ok := w.hookIn(geom.Segment{A: lo, B: hi}, out, i, all[0])
		if !ok {
			return nil, bad
		}
		f.Side, f.Along = h.Side, f.At.Sub(from).Dot(to.Sub(from).Unit())
		placed = append(placed, f)
	}
	for _, f := range placed {
		w.paths.add(w.hookPath(f, all[0]))
	}
	return placed, nil
}

// hookTries is how finely the stretch of one hook is looked through.
const hookTries = 24

// hookIn finds the place nearest to the middle of a stretch of a side that is
// clear of the mitres and of all screws: at half the board's thickness.
func (w *work) hookIn(on geom.Segment, out geom.Point, frame int, f stock.Fastener) (Fixed, bool) {
	b := w.boards[frame]
	thick := b.Depth().MM()
	apart := float64(w.rules.Apart) * f.Diameter.MM()
	for i := range hookTries {
		step := float64((i+1)/2) / hookTries
		if i%2 == 1 {
			step = -step
		}
		at := on.A.Lerp(on.B, 0.5+step).Sub(out.Mul(thick / 2))
		h := Fixed{Name: f.Name, Frame: frame, At: at, Thread: f.Length.MM(), Hole: hookHole(f.Diameter)}
		end := w.rules.EndLeast.of(f.Diameter)
		if d, _ := w.paths.clearance(w.hookPath(h, f), apart); d >= apart && w.endsAway(frame, at) >= end {
			return h, true
		}
	}
	return Fixed{}, false
}

// endsAway is the distance to the nearest mitre of the frame.
func (w *work) endsAway(frame int, at geom.Point) float64 {
	f := w.l.Frames[frame]
	least := f.Outside[0].Dist(at)
	for i := range f.Outside {
		least = min(least, geom.Segment{A: f.Outside[i], B: f.Inside[i]}.PointDist(at))
	}
	return least
}

func (w *work) hookPath(h Fixed, f stock.Fastener) path {
	rise := w.boards[h.Frame].Rise().MM()
	return pathOf(h.At, h.At, rise-h.Thread, rise, f.Diameter.MM(), 0)
}
