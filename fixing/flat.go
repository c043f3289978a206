package fixing

import (
	"math"

	"bowerwright/geom"
	"bowerwright/stock"
)

// Plates have four holes in a row, these far from their ends and from the
// middle: common practice, no source; the drill sheet says to measure one.
const plateHole = 25.4 * 3 / 8

// battenName is the board that is laid along the seam: common practice, no
// source.
func (w *work) battenName() string {
	if w.s.Metric {
		return "18x95"
	}
	return "1x4"
}

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
		t, p := w.rows(c, g, plate.Thickness.MM(), offs, outlines)
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

// batten lays one board along the seam, half on either frame.
func (w *work) batten(c contact, seam *Seam) *Problem {
	size, ok := w.cat.Lookup(w.battenName())
	bad := w.problem(NoPlate, c)
	if !ok || len(w.screws) == 0 {
		bad.Code = NoScrew
		return bad
	}
	g := w.screws[0]
	off := size.Width.MM() / 4
	bad.Room, bad.Need = min(c.sides[0].thick, c.sides[1].thick), off+w.rules.Edge.of(g.Diameter)
	if bad.Room < bad.Need {
		return bad
	}
	long := w.battenLong(c, size.Width.MM())
	t, p := w.rows(c, g, size.Thickness.MM(), []float64{off}, func(a arrangement) []geom.Polygon {
		// No longer than keeps it off its neighbours, no shorter than its screws.
		reach := 0.0
		for _, sp := range a.spots {
			reach = max(reach, 2*(math.Abs(sp.s-c.seam.Length/2)+w.rules.Edge.of(g.Diameter)))
		}
		return []geom.Polygon{c.outline(c.seam.Length/2, max(long, reach), size.Width.MM())}
	})
	if p != nil {
		return p
	}
	seam.Plates = []Piece{{Name: size.Name, Along: c.seam.Length / 2, Length: long, Width: size.Width.MM()}}
	w.covers.add(seam.Number, c.outline(c.seam.Length/2, long, size.Width.MM()))
	t.seen = w.seenBy(t.looks)
	w.keep(seam, Battened, t, along)
	return nil
}

// battenTries are how many steps a batten is shortened by, together its own
// width: what clears another that ends at the same corner.
const battenTries = 4

// battenLong is how long a batten may be: as the seam, or shortened at both ends
// so that it does not lie on those of other seams.
func (w *work) battenLong(c contact, wide float64) float64 {
	for i := range battenTries + 1 {
		long := c.seam.Length - 2*wide*float64(i)/battenTries
		if long > 0 && w.covers.under(c.outline(c.seam.Length/2, long, wide)) == 0 {
			return long
		}
	}
	return c.seam.Length
}

// rows screws something of a thickness to both backs, at each place along the
// seam and each offset to either side of it. Outlines are what it covers of the
// backs: nothing may lie there yet.
func (w *work) rows(c contact, g gauge, thickness float64, offs []float64, outlines func(arrangement) []geom.Polygon) (trial, *Problem) {
	f, ok := w.fitThrough(g, thickness, 0, c.rise(), 0)
	if !ok {
		p := w.problem(NoLength, c)
		p.Room, p.Need = c.rise(), w.rules.Hold.of(g.Diameter)
		return trial{}, p
	}
	far := offs[len(offs)-1]
	n := need{diameter: g.Diameter, edge: []Diameters{0}, ends: []Diameters{w.rules.End, w.rules.EndLeast}, pitch: w.rules.Pitch, h: [2]float64{far, far}}
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
				for _, off := range offs {
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
