package fixing

import (
	"math"

	"bowerwright/geom"
	"bowerwright/stock"
)

// Plates have four holes in a row, these far from their ends and from the
// middle: common practice, no source; the drill sheet says to measure one.
const plateHole = 25.4 * 3 / 8

// stepAllowed, in mm, is how far two backs may be out of one plane under a
// plate: 1/32 in, what a plate's screws pull flat (common practice, no source).
const stepAllowed = 25.4 / 32

// overBack joins two flat frames by plates or a batten on their backs.
func (w *work) overBack(c contact, seam *Seam) *Problem {
	if step := math.Abs(c.sides[0].rise - c.sides[1].rise); step > stepAllowed {
		p := w.problem(Uneven, c)
		p.Room = step
		return p
	}
	if w.s.Flat == Battens {
		return w.batten(c, seam)
	}
	return w.plates(c, seam)
}

// plates lays the longest plate that both widths take, at two or more places.
func (w *work) plates(c contact, seam *Seam) *Problem {
	width := min(c.sides[0].thick, c.sides[1].thick)
	all := w.plated
	bad := w.problem(NoPlate, c)
	bad.Room = width
	for i := len(all) - 1; i >= 0; i-- {
		plate := all[i]
		g, ok := w.plateScrews[plate.Screw]
		half := plate.Length.MM() / 2
		bad.Need = half
		if !ok || half > width {
			continue
		}
		offs := []float64{plateHole, half - plateHole}
		outlines := func(a arrangement) []geom.Polygon {
			var out []geom.Polygon
			for _, sp := range a.spots {
				out = append(out, c.outline(sp.s, plate.Width.MM(), plate.Length.MM()))
			}
			return out
		}
		t, p := w.rows(c, g, laid{thickness: plate.Thickness.MM(), offs: offs}, outlines)
		if p != nil {
			return p
		}
		for _, sp := range t.a.spots {
			seam.Plates = append(seam.Plates, Piece{Name: plate.Name, Along: sp.s, Length: plate.Length.MM(), Width: plate.Width.MM()})
		}
		w.covers.add(seam.Number, outlines(t.a)...)
		t.seen = w.seenBy(t.looks)
		w.keep(seam, Plated, t, along)
		return nil
	}
	return bad
}

// battenStep is what battens are sawn to, downwards, so that many are alike:
// common practice, no source.
func (w *work) battenStep() float64 {
	if w.s.Metric {
		return 5
	}
	return 25.4 / 4
}

// battenTries are how many steps a batten is shortened by at each end, together
// its own width: what clears another that ends at the same corner.
const battenTries = 4

// batten lays a length of the narrower frame's board along the seam, half on
// either frame. It lies on the two boards of the seam alone: where they are
// mitred to slant away from it, it is so much shorter, and nothing of it is seen
// past an outline or in an opening.
func (w *work) batten(c contact, seam *Seam) *Problem {
	if len(w.screws) == 0 {
		return w.problem(NoScrew, c)
	}
	g := w.screws[0]
	of := c.narrower()
	half := of.thick / 2
	if need := 2 * w.rules.Edge.of(g.Diameter); half < need {
		bad := w.problem(NoPlate, c)
		bad.Room, bad.Need = half, need
		return bad
	}
	var worst *Problem
	for i := range battenTries + 1 {
		on := w.battenOn(c, half, 2*half*float64(i)/battenTries)
		if on.Len() <= 0 && worst != nil {
			break
		}
		t, p := w.battenRows(c, g, of, on)
		if p != nil {
			worst = farther(worst, p)
			continue
		}
		mid := (on.From + on.To) / 2
		seam.Plates = []Piece{{Name: "batten", Along: mid, Length: on.Len(), Width: of.thick, Of: of.frame}}
		w.covers.add(seam.Number, c.outline(mid, on.Len(), of.thick))
		t.seen = w.seenBy(t.looks)
		w.keep(seam, Battened, t, along)
		return nil
	}
	return worst
}

// battenOn is the stretch of the seam that a batten lies on: where there is
// wood under all its width, less so much at both ends, down to a step.
func (w *work) battenOn(c contact, half, less float64) geom.Interval {
	on := c.span([2]float64{half, half})
	long := math.Floor((on.Len()-2*less)/w.battenStep()+geom.Eps) * w.battenStep()
	mid := (on.From + on.To) / 2
	return geom.Interval{From: mid - long/2, To: mid + long/2}
}

func (w *work) battenRows(c contact, g gauge, of side, on geom.Interval) (trial, *Problem) {
	l := laid{thickness: of.rise, offs: []float64{of.thick / 4}, within: &on}
	return w.rows(c, g, l, func(arrangement) []geom.Polygon {
		return []geom.Polygon{c.outline((on.From+on.To)/2, on.Len(), of.thick)}
	})
}

// A laid thing is screwed to both backs: so thick, with screws so far to either
// side of the seam, and none outside of a stretch of it.
type laid struct {
	thickness float64
	offs      []float64
	within    *geom.Interval // nil: the whole seam
}

// rows screws something to both backs, at each place along the seam and each
// offset to either side of it. Outlines are what it covers of the backs: nothing
// may lie there yet.
func (w *work) rows(c contact, g gauge, l laid, outlines func(arrangement) []geom.Polygon) (trial, *Problem) {
	f, ok := w.fitThrough(g, l.thickness, 0, c.rise(), 0)
	if !ok {
		p := w.problem(NoLength, c)
		p.Room, p.Need = c.rise(), w.rules.Hold.of(g.Diameter)
		return trial{}, p
	}
	far := l.offs[len(l.offs)-1]
	n := need{diameter: g.Diameter, edge: []Diameters{0}, ends: []Diameters{w.rules.End, w.rules.EndLeast}, pitch: w.rules.Pitch, h: [2]float64{far, far}, within: l.within}
	a, p := w.arrange(c, n, along)
	if p != nil {
		return trial{}, p
	}
	return w.outOfTheWay(c, a, g.Diameter.MM(), func(a arrangement) (trial, *Problem) {
		t := trial{a: a}
		if other := w.covers.under(outlines(a)...); other > 0 {
			p := w.problem(Crossing, c)
			p.Other = other
			return t, p
		}
		for _, sp := range a.spots {
			for k := range c.sides {
				for _, off := range l.offs {
					w.fromBack(c, g, f, &t, sp.s, k, off)
				}
			}
		}
		return t, nil
	})
}

// fromBack adds one screw driven from the back, off into side k's wood. Heads
// on the back are looked at from behind alone, square to the plane.
func (w *work) fromBack(c contact, g gauge, f fit, t *trial, s float64, k int, off float64) {
	rise := c.sides[k].rise
	at := c.on(s, k, off)
	fast := Fastener{Kind: stock.WoodScrew, Gauge: g.Name, Diameter: g.Diameter, Root: g.Root, Along: s, Off: off * c.into(k).Dot(c.n),
		Depth: rise, HeadIn: rise, Head: c.sides[k].frame, Tip: c.sides[k].frame, At: at, From: Back, Way: "from the back", Tool: FromAbove, Room: Horizon}
	w.fill(&fast, g, f, c.sides[k].gravity)
	t.add(fast, look{at: at, z: rise}, pathOf(at, at, rise, rise-f.penetration, g.Diameter.MM(), c.seam.Number))
}
