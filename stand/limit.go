package stand

import (
	"math"

	"bowerwright/dressing"
	"bowerwright/unit"
)

// A Limit is the most that a piece is to be given, by calculation: the factor
// that is wanted is just held. It has not been rounded; round it down.
type Limit struct {
	Way   string
	Gust  Speed      // for wind
	Force unit.Force // for a push
	Stop  bool       // the wind would have to be stronger, but nothing stays up beyond the stop
	By    Governing  // what goes first at the limit
}

// GustLimits gives the largest gust for every way of dressing, dry or soaked, in
// every direction that the wind can have. It is exact: force grows with the
// square of the speed, and what holds does not hang on it.
func (s Setup) GustLimits() []Limit {
	out := make([]Limit, len(s.States))
	for i, state := range s.States {
		out[i] = s.GustLimit(state)
	}
	return out
}

// GustLimit is the largest gust for one way of dressing.
func (s Setup) GustLimit(state dressing.State) Limit {
	d := s.drag(state)
	l := Load{Kind: GustLoad, Force: unit.Force(d.Area), Height: d.Height + s.Stance.Lift}
	q, by := s.largest(state, l)
	limit := Limit{Way: state.Way, Gust: s.Rules.Wind.Stop, Stop: true, By: by}
	if g := s.Rules.Wind.gustAt(unit.Pressure(q)); !math.IsInf(q, 1) && g <= limit.Gust {
		limit.Gust, limit.Stop = g, false
	}
	return limit
}

// PushLimit is the largest push at a height above the foot of the piece, or at
// its top if that is lower: the force up to which a pull test makes sense.
func (s Setup) PushLimit(state dressing.State, height float64) Limit {
	l := Load{Kind: PushLoad, Force: 1, Height: math.Min(height, state.Gross.Top()) + s.Stance.Lift}
	f, by := s.largest(state, l)
	return Limit{Way: state.Way, Force: unit.Force(f), By: by}
}

// largest is how many times a load may be applied, and what goes first then.
func (s Setup) largest(state dressing.State, l Load) (float64, Governing) {
	most, by := math.Inf(1), Governing{}
	take := func(times float64, w *whole, wet bool, d Direction) {
		if times < most {
			most, by = times, s.governs(w, d, wet)
		}
	}
	for i, w := range s.wholes(state) {
		for k := range w.edges {
			d := s.strongest(w, l, k)
			n := times(w.help[k], w.drift[k], float64(d.Force)*l.Height, w.rules.Factor)
			d.Tip, d.Slide = w.tip(k, n*float64(d.Force), l.Height), math.Inf(1)
			take(n, w, i > 0, d)
		}
		d := s.drifting(w, l)
		n := times(w.resist, w.downhill, float64(d.Force), w.rules.Factor)
		d.Slide = w.slide(n * float64(d.Force))
		take(n, w, i > 0, d)
	}
	return most, by
}

// times solves holds = factor x (always + times x each): 0 when it does not hold
// even without the load, infinite when the load is none.
func times(holds, always, each, factor float64) float64 {
	spare := holds/factor - always
	switch {
	case spare < 0:
		return 0
	case each <= 0:
		return math.Inf(1)
	}
	return spare / each
}

// strongest is the direction that pushes hardest over an edge: straight over it,
// or one of the 36 where the wind is weaker along the piece than at a slant.
// Its force is the part that pushes over the edge.
func (s Setup) strongest(w *whole, l Load, k int) Direction {
	best := s.across(w, l, k)
	n := w.edges[k].normal
	for d := range Directions {
		toward := unit.Angle(2 * math.Pi * float64(d) / Directions)
		part := math.Cos(float64(toward))*n.X + math.Sin(float64(toward))*n.Y
		if f := unit.Force(float64(l.Force) * s.turnedBy(l, toward) * part); f > best.Force*(1+sameRatio) {
			best.Toward, best.Force = toward, f
		}
	}
	return best
}

// drifting is the direction in which a load pushes the whole along hardest: all
// are alike for a push, and then it is called forwards, towards the guests; for
// wind it is a hair off square on, from whichever side it comes.
func (s Setup) drifting(w *whole, l Load) Direction {
	forwards := unit.Angle(-math.Pi / 2)
	d := Direction{Toward: forwards, Force: l.Force, Tip: math.Inf(1)}
	if l.Kind == GustLoad {
		if s.turnedBy(l, forwards) == 0 {
			d.Toward = -forwards
		}
		d.Force *= unit.Force(s.slanted(forwards))
	}
	d.Slide = w.slide(float64(d.Force))
	return d
}

// A Lean is the lean at which the whole goes over by itself, without wind or
// push, by its weights as they are.
type Lean struct {
	Way   string
	Angle unit.Angle // below 0: it does not stand
	Word  string     // by the lean that it should bear
	By    Governing
}

// Leans gives the lean for every way of dressing, the lesser of dry and soaked.
func (s Setup) Leans() []Lean {
	out := make([]Lean, len(s.States))
	for i, state := range s.States {
		for j, w := range s.wholes(state) {
			a, k := w.tilt()
			if j > 0 && a >= out[i].Angle {
				continue
			}
			ratio := math.Inf(1)
			if a > 0 {
				ratio = math.Tan(float64(s.Rules.Lean)) / math.Tan(float64(a))
			}
			out[i] = Lean{state.Way, a, s.Rules.Word(ratio), Governing{Mode: Tipping, Ratio: ratio, Word: s.Rules.Word(ratio),
				Toward: w.edges[k].toward(), Edge: w.edges[k].side, Wet: j > 0}}
		}
	}
	return out
}
