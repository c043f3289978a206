package making

import (
	"math"
	"strconv"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// An Amount is one line for the buying list: so much of a thing, in Unit (ml, L,
// m, m2, pieces, sheets). Pieces and sheets are whole; the rest is what is used
// up, and packs are somebody else's.
type Amount struct {
	Item     string // glue, gluing tape, brads, ...
	Name     string // the name it is sold by, or its size class: 120 grit
	Quantity float64
	Unit     string
	Length   float64 // what is cut or used in lengths: mm of one; tape: its width is Width
	Width    float64
	Thick    float64
	Bevel    unit.Angle
}

// amounts lists what making uses up, in the order of the work.
func (m *maker) amounts(l layout.Layout) []Amount {
	a := tally{}
	m.glueAmounts(&a)
	m.cornerAmounts(&a)
	m.finishAmounts(&a)
	m.layAmounts(&a, l)
	return a.out
}

// A tally adds up lines that are alike but for the quantity.
type tally struct{ out []Amount }

func (t *tally) add(a Amount) {
	if a.Quantity <= 0 {
		return
	}
	for i, b := range t.out {
		q := b.Quantity
		b.Quantity = a.Quantity
		if a == b {
			t.out[i].Quantity = q + a.Quantity
			return
		}
	}
	t.out = append(t.out, a)
}

func (m *maker) glueAmounts(a *tally) {
	for _, k := range m.plan.Kinds {
		a.add(Amount{Item: "glue", Quantity: k.Corners.Glue * float64(k.Count), Unit: "ml"})
	}
	for _, k := range m.plan.Kinds {
		t := k.Corners.Tape
		a.add(Amount{Item: "gluing tape", Width: t.Width, Quantity: float64(k.Count*t.Strips) * t.Length / 1000, Unit: "m"})
	}
	a.add(Amount{Item: "waxed sheet", Quantity: m.pressed() / 1e6, Unit: "m2"})
}

// pressed is the most floor or bench, in mm², that frames lie on at one time
// while their glue holds, with the sheet's margin round each.
func (m *maker) pressed() float64 {
	most := 0.0
	for _, at := range m.plan.Goes {
		area := 0.0
		for _, g := range m.plan.Goes {
			if g.Coat <= at.Close && g.Free > at.Close {
				area += float64(g.To-g.From+1) * m.sheet(m.kinds[g.Kind].Frame.Built.Corners.Box())
			}
		}
		most = max(most, area)
	}
	return most
}

func (m *maker) sheet(b geom.Box) float64 {
	beyond := 2 * m.shop.Rates.Laying.Sheet
	return (b.Width() + beyond) * (b.Height() + beyond)
}

func (m *maker) cornerAmounts(a *tally) {
	for _, k := range m.plan.Kinds {
		for _, p := range k.Corners.Pieces {
			line := Amount{Item: itemOf(k.Corners.Choice), Name: p.Name, Quantity: float64(k.Count * p.Count), Unit: "pieces"}
			if p.Cut {
				line.Name, line.Length, line.Width, line.Thick, line.Bevel = "", p.Length, p.Width, p.Thickness, p.Bevel
			}
			a.add(line)
			a.add(Amount{Item: "screws", Name: p.Screw, Quantity: float64(k.Count * p.Count * p.Screws), Unit: "pieces"})
		}
	}
}

func itemOf(c Corner) string {
	switch c {
	case Blocks:
		return "corner blocks"
	case Plates:
		return "plates"
	case Splines:
		return "splines"
	}
	return string(c)
}

func (m *maker) finishAmounts(a *tally) {
	f, r := m.plan.Finish, m.shop.Rates
	for _, k := range m.plan.Kinds {
		a.add(Amount{Item: "filler", Quantity: float64(k.Count*k.GlueUp.Joints) * f.Filler.Joint, Unit: "ml"})
	}
	for _, grit := range f.Grits {
		a.add(sheets(grit, float64(f.Total.Sanded()), r.Sanding.Sheet))
	}
	if f.Between > 0 {
		a.add(sheets(f.Between, float64(f.Painted)*float64(f.Coats-1), r.Sanding.Sheet))
	}
	a.add(Amount{Item: "finish", Quantity: float64(f.Painted) * float64(f.Coats) / r.Finish.Coverage * (1 + r.Finish.Waste) / 1000, Unit: "L"})
}

// sheets is whole sheets of one grit for an area.
func sheets(grit int, area, perSheet float64) Amount {
	return Amount{Item: "abrasive", Name: strconv.Itoa(grit) + " grit", Quantity: math.Ceil(area/perSheet - wholeJoint), Unit: "sheets"}
}

// layAmounts: masking tape along both edges of both faces of every seam, and
// blankets under what is laid out.
func (m *maker) layAmounts(a *tally, l layout.Layout) {
	if len(l.Frames) == 0 {
		return
	}
	if m.plan.Finish.Coats > 0 {
		long := 0.0
		for _, b := range m.plan.Finish.Bare {
			long += b.To - b.From
		}
		a.add(Amount{Item: "masking tape", Quantity: 2 * long / 1000, Unit: "m"})
	}
	r := m.shop.Rates.Laying
	floor := (l.Width + 2*r.Margin) * (l.Height + 2*r.Margin)
	a.add(Amount{Item: "blankets", Quantity: math.Ceil(floor/r.Blanket - wholeJoint), Unit: "pieces"})
	if s := m.plan.Lay.Straight; len(s.Frames) > 0 {
		a.add(Amount{Item: "known-straight length", Quantity: 1, Unit: "pieces", Length: s.Length()})
	}
}
