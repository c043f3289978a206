package stand

import (
	"math"

	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/unit"
)

// Directions is into how many directions a load is turned: every 10 degrees.
const Directions = 36

// The words for a finding.
const (
	WellInside = "well inside"
	NearLimit  = "near the limit"
	Over       = "over"
)

// Word gives the word for a ratio of what is wanted to what there is.
func (r Rules) Word(ratio float64) string {
	switch {
	case ratio <= r.Well:
		return WellInside
	case ratio <= 1:
		return NearLimit
	}
	return Over
}

// A Mode is a way to go.
type Mode int

// The modes.
const (
	Tipping Mode = iota
	Sliding
)

// String names the mode.
func (m Mode) String() string {
	if m == Sliding {
		return "sliding"
	}
	return "tipping"
}

// A Direction is what holds the whole against a load that pushes one way:
// factors of what there is over what pushes.
type Direction struct {
	Toward     unit.Angle
	Force      unit.Force // with what is added for this direction
	Tip, Slide float64
	Edge       int // of the hull, the one that it would tip over
}

// A Governing is the least favourable of many: by which mode, in which
// direction, over which edge of the hull when it tips.
type Governing struct {
	Mode   Mode
	Held   float64 // what holds over what pushes
	Ratio  float64 // what is wanted over what there is; infinite when it goes by itself
	Word   string
	Toward unit.Angle
	Edge   geom.Segment
	Wet    bool
}

// A Finding is one way of dressing under one load.
type Finding struct {
	Way        string
	Load       Load
	Directions [Directions]Direction // dry or wet, whichever is worse in each
	Square     Governing             // of straight forwards and backwards
	Worst      Governing             // of every direction there is
}

// stopped is over where the gust is over the stop: nothing stays up then, however
// well it would stand.
func (s Setup) stopped(f Finding) Finding {
	if over := float64(f.Load.Gust / s.Rules.Wind.Stop); f.Load.Kind == GustLoad && over > 1 {
		f.Worst.Ratio, f.Worst.Word = math.Max(f.Worst.Ratio, over), Over
	}
	return f
}

// Check tries every way of dressing, in their order, under every load.
func (s Setup) Check() []Finding {
	var out []Finding
	for _, state := range s.States {
		wholes := s.wholes(state)
		for _, l := range s.loads(state) {
			out = append(out, s.stopped(s.find(state.Way, wholes, l)))
		}
	}
	return out
}

// wholes are the piece dry and, when it takes water, wet.
func (s Setup) wholes(state dressing.State) []*whole {
	out := []*whole{s.whole(state, false)}
	if state.Wet.Mass > state.Dry.Mass {
		out = append(out, s.whole(state, true))
	}
	return out
}

// find looks at the hardest push along the floor first, so that it is named when
// several directions are alike.
func (s Setup) find(way string, wholes []*whole, l Load) Finding {
	f := Finding{Way: way, Load: l}
	f.Square.Ratio, f.Worst.Ratio = -1, -1
	for i, w := range wholes {
		f.Worst = f.Worst.worse(s.governs(w, s.drifting(w, l), i > 0))
		for d := range f.Directions {
			toward := unit.Angle(2 * math.Pi * float64(d) / Directions)
			got := s.turned(w, l, toward)
			if was := f.Directions[d]; i == 0 || math.Min(got.Tip, got.Slide) < math.Min(was.Tip, was.Slide) {
				f.Directions[d] = got
			}
			if s.squareOn(toward) {
				f.Square = f.Square.worse(s.governs(w, got, i > 0))
			}
			f.Worst = f.Worst.worse(s.governs(w, got, i > 0))
		}
		for k := range w.edges {
			f.Worst = f.Worst.worse(s.governs(w, s.across(w, l, k), i > 0))
		}
	}
	return f
}

// turned is a load in one direction, over whichever edge is nearest to going.
func (s Setup) turned(w *whole, l Load, toward unit.Angle) Direction {
	dir := geom.Point{X: 1}.Rot(float64(toward))
	force := float64(l.Force) * s.turnedBy(l, toward)
	d := Direction{Toward: toward, Force: unit.Force(force), Tip: math.Inf(1), Slide: w.slide(force)}
	for k, e := range w.edges {
		part := math.Max(0, dir.Dot(e.normal))
		if held := w.tip(k, force*part, l.Height); held < d.Tip {
			d.Tip, d.Edge = held, k
		}
	}
	return d
}

// across is a load pushing straight over one edge. For wind it is as strong as
// it gets a hair to either side of square on, and when the wind has one side,
// as strong as what of it still reaches that way.
func (s Setup) across(w *whole, l Load, k int) Direction {
	toward := w.edges[k].toward()
	force := float64(l.Force) * s.most(l, toward)
	return Direction{Toward: toward, Force: unit.Force(force), Tip: w.tip(k, force, l.Height), Slide: w.slide(force), Edge: k}
}

// governs takes the worse of tipping and sliding. What goes over by itself goes
// straight over its edge, wherever it is pushed.
func (s Setup) governs(w *whole, d Direction, wet bool) Governing {
	g := Governing{Mode: Tipping, Held: d.Tip, Toward: d.Toward, Wet: wet, Edge: w.edges[d.Edge].side}
	if d.Slide < d.Tip {
		g.Mode, g.Held, g.Edge = Sliding, d.Slide, geom.Segment{}
	} else if d.Tip <= 0 {
		g.Toward = w.edges[d.Edge].toward()
	}
	g.Ratio = s.Rules.ratio(g.Held)
	g.Word = s.Rules.Word(g.Ratio)
	return g
}

// ratio of what is wanted to what there is.
func (r Rules) ratio(held float64) float64 {
	if held <= 0 {
		return math.Inf(1)
	}
	return r.Factor / held
}

// worse keeps the first of equals: alike to within a rounding error.
func (g Governing) worse(h Governing) Governing {
	if h.Ratio > g.Ratio*(1+sameRatio) {
		return h
	}
	return g
}

// sameRatio is how near two ratios are called the same: rounding of sums of some
// hundred weights, far below any figure that is shown.
const sameRatio = 1e-12

// squareOn says whether a direction is straight forwards or backwards, to within
// a hundredth of the step between directions.
func (s Setup) squareOn(toward unit.Angle) bool {
	return math.Abs(math.Cos(float64(toward))) < math.Sin(2*math.Pi/Directions/percent)
}

// turnedBy is the share of a load's force in a direction. Pushes come from
// everywhere alike, and so does the load of exhibition rules. Wind at a slant
// is stronger; along the piece a share of it is left; and where it has one
// side, nothing comes from the other.
func (s Setup) turnedBy(l Load, toward unit.Angle) float64 {
	if l.Kind != GustLoad {
		return 1
	}
	if to := s.Loads.WindToward; to != nil && math.Cos(float64(toward-*to)) < -sameRatio {
		return 0
	}
	if s.squareOn(toward) {
		return 1
	}
	return s.slanted(toward)
}

func (s Setup) slanted(toward unit.Angle) float64 {
	w := s.Rules.Wind
	return (1 + w.Oblique) * (w.Along + (1-w.Along)*math.Abs(math.Sin(float64(toward))))
}

// most is the largest share of a load that pushes straight over an edge with an
// outward normal in a direction.
func (s Setup) most(l Load, normal unit.Angle) float64 {
	if l.Kind != GustLoad {
		return 1
	}
	part := 1.0
	if to := s.Loads.WindToward; to != nil {
		if off := math.Abs(math.Remainder(float64(normal-*to), 2*math.Pi)); off > math.Pi/2 {
			part = math.Cos(off - math.Pi/2)
		}
	}
	return part * s.slanted(normal)
}

// Towards says a direction in words, as seen from the front.
func Towards(a unit.Angle) string {
	names := [...]string{"to the right", "backwards and to the right", "backwards", "backwards and to the left",
		"to the left", "forwards and to the left", "forwards", "forwards and to the right"}
	eighths := math.Round(float64(a) / (2 * math.Pi) * float64(len(names)))
	return names[((int(eighths)%len(names))+len(names))%len(names)]
}
