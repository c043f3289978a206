package making

import (
	"math"

	"bowerwright/layout"
	"bowerwright/unit"
)

// Areas are the faces of one frame by where they look, all layers counted.
// FrontBack are both edges of boards on edge, both broad faces of flat ones.
type Areas struct {
	Inside, Outside, FrontBack unit.Area
	Mitres                     unit.Area // both faces of every joint: glued, never sanded
	Feet                       unit.Area // ends that stand on the floor
}

// Sanded is all that is sanded: everything but mitres and feet.
func (a Areas) Sanded() unit.Area { return a.Inside + a.Outside + a.FrontBack }

// areasOf adds up the parts: length times the boards' other dimension for faces,
// the plane figure of each part twice for front and back. Layers lie on each
// other.
func areasOf(k Kind) Areas {
	f := k.Frame
	rise, n := f.Boards.Rise().MM(), float64(max(k.Layers, 1))
	var a Areas
	for _, p := range f.Parts {
		a.Inside += unit.Area(n * p.Inside * rise)
		a.Outside += unit.Area(n * p.Outside.MM() * rise)
		a.FrontBack += unit.Area(2 * math.Abs(p.Face.Area()))
	}
	for i := range f.Built.Corners {
		if ends := unit.Area(n * mitreArea(f, i+1)); f.Built.IsFoot(i + 1) {
			a.Feet += ends
		} else {
			a.Mitres += 2 * ends
		}
	}
	if r := k.Ring; r.Outside > 0 { // its faces are those left after it is sawn round
		a.Inside, a.Outside = unit.Area(n*math.Pi*r.Inside*rise), unit.Area(n*math.Pi*r.Outside*rise)
		a.FrontBack = unit.Area(math.Pi / 2 * (r.Outside*r.Outside - r.Inside*r.Inside))
	}
	return a
}

func (a Areas) times(n int) Areas {
	k := unit.Area(n)
	return Areas{a.Inside * k, a.Outside * k, a.FrontBack * k, a.Mitres * k, a.Feet * k}
}

func (a Areas) plus(b Areas) Areas {
	return Areas{a.Inside + b.Inside, a.Outside + b.Outside, a.FrontBack + b.FrontBack, a.Mitres + b.Mitres, a.Feet + b.Feet}
}

// Filler is what the label of the filler says, in minutes, and how many ml go
// into one joint. Thin coats set in about 15 minutes by common practice; data
// sheets give hours until it may be sanded.
type Filler struct{ Set, Sand, Paint, Joint float64 }

// Finishing is how the job is sanded, filled and finished.
type Finishing struct {
	First   bool // insides are finished before gluing
	Grits   []int
	Between int // grit between coats
	Coats   int
	Filler  Filler

	Total   Areas     // of all frames that are made
	Seams   unit.Area // faces that lie against each other: bare, both sides counted
	Painted unit.Area // what each coat covers
	Bare    []Bare    // by frame, side and place along it

	Steps []Step
}

// A Bare is a stretch of a side that lies in a seam: it is masked, stays
// unpainted, and its edges are not rounded. From and To are mm along the side
// from the corner where it starts.
type Bare struct {
	Frame, Side int
	Inner       bool // the face towards the frame's own opening
	From, To    float64
	Area        unit.Area
	Seam        int // number of the seam
}

func (m *maker) finishing(l layout.Layout) Finishing {
	r := m.shop.Rates
	f := Finishing{First: m.shop.FinishFirst && !m.shop.BareInside, Grits: []int{r.Sanding.First}, Coats: r.Finish.Coats, Filler: r.Filler}
	if r.Sanding.Last > r.Sanding.First {
		f.Grits = append(f.Grits, r.Sanding.Last)
	}
	if f.Coats > 1 {
		f.Between = r.Sanding.Between
	}
	for _, k := range m.plan.Kinds {
		f.Total = f.Total.plus(k.Areas.times(k.Count))
	}
	f.Bare = m.bare(l)
	for _, b := range f.Bare {
		f.Seams += b.Area
	}
	f.Painted = max(0, f.Total.Sanded()-f.Seams)
	if m.shop.BareInside {
		f.Painted = max(0, f.Painted-f.Total.Inside)
	}
	if f.Coats == 0 {
		f.Painted = 0
	}
	f.Steps = m.finishSteps(f)
	return f
}

// bare lists both faces of every seam. With front edges flush the shallower
// frame says how far back they touch.
func (m *maker) bare(l layout.Layout) []Bare {
	var out []Bare
	for _, s := range l.Seams {
		rise := math.Inf(1)
		for _, side := range s.Sides {
			rise = min(rise, m.deep(l.Frames[side.Frame]))
		}
		for _, side := range s.Sides {
			out = append(out, Bare{Frame: side.Frame, Side: side.Side, Inner: side.Inner, From: side.From, To: side.To,
				Area: unit.Area((side.To - side.From) * rise), Seam: s.Number})
		}
	}
	sortBare(out)
	return out
}

// deep is how deep a placed frame is from front to back, all layers.
func (m *maker) deep(f layout.Frame) float64 {
	k := m.kindOf(f)
	return k.Frame.Boards.Rise().MM() * float64(max(k.Layers, 1))
}

// Dry is how long so many coats take until the last may be handled: so many a
// day at the most, with the rest of the day and the night between.
func (r FinishRates) Dry(coats int) float64 {
	if coats <= 0 {
		return 0
	}
	aDay := max(r.ADay, 1)
	nights, last := (coats-1)/aDay, (coats-1)%aDay+1
	return float64(nights)*24*60 + float64(last)*r.Recoat
}

func (m *maker) finishSteps(f Finishing) []Step {
	dry := m.shop.Rates.Finish.Dry(f.Coats)
	rings, others := m.ringsAndOthers()
	out := []Step{{Do: "Sand one sample as all will be sanded and measure it: sanding thins boards, and the cut list counts on their thickness."}}
	if others {
		out = append(out, Step{Do: "Sand the inside faces of all parts, grit after grit, before gluing" + except(rings) + ". Never touch a mitre face: a rounded edge there is a gap."})
	}
	if f.First && f.Coats > 0 && others {
		out = append(out, Step{Do: "Mask every mitre face and finish the insides" + except(rings) + "; peel the masks off before gluing.", Wait: dry})
	}
	out = append(out, Step{Do: "Glue up."})
	if rings {
		out = append(out, Step{Do: "Saw the rings round, then sand their insides: there is none before that."})
	}
	out = append(out,
		Step{Do: "Fill gaps in thin coats. The label comes first: about 15 minutes to a thin coat is common practice, data sheets give hours until it is sanded.", Wait: f.Filler.Set},
		Step{Do: "Let the last coat of filler harden until it dusts.", Wait: max(0, f.Filler.Sand-f.Filler.Set)},
		Step{Do: "Sand the outside, front and back, along the grain. Leave the edges of every seam face sharp: a rounded one shows as a groove."})
	if f.Coats == 0 {
		return out
	}
	return append(out,
		Step{Do: "Wait until the filler takes paint.", Wait: max(0, f.Filler.Paint-f.Filler.Sand)},
		Step{Do: "Mask the seam faces: paint there makes the whole wider, and glue or tape does not hold on it."},
		Step{Do: finishDo(f, m.shop.BareInside, rings), Wait: dry})
}

// ringsAndOthers says whether rings that are sawn round are made, and whether
// anything else is.
func (m *maker) ringsAndOthers() (rings, others bool) {
	for _, k := range m.kinds {
		if k.Ring.Outside > 0 {
			rings = true
		} else {
			others = true
		}
	}
	return rings, others
}

// except leaves rings out of what is done to insides before gluing.
func except(rings bool) string {
	if rings {
		return ", but of rings that are sawn round"
	}
	return ""
}

func finishDo(f Finishing, bareInside, rings bool) string {
	what := "Finish all that is not masked"
	if f.First || bareInside {
		what = "Finish the outside, front and back"
	}
	if f.First && rings {
		what += ", and the insides of the rings"
	}
	if f.Between > 0 {
		what += ", with a light sanding between coats"
	}
	return what + "."
}
