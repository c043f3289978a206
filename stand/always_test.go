package stand

import (
	"math"
	"testing"

	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// drawSetup is a pane on a base of any shape, dressed in front, on any floor.
func drawSetup(t *rapid.T, loads Loads) Setup {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	state := pane(f("wide", 500, 3000), f("high", 800, 3500), f("solidity", 0, 1), f("back", -50, 200), unit.Mass(f("mass", 3, 80)))
	m := unit.Mass(f("greenery", 0, 20))
	state.Weights = append(state.Weights, dressing.Weight{What: "greenery", Mass: m, Wet: 2 * m,
		At: geom.Point{X: f("x", 0, 500), Y: f("y", 0, 2000)}, Back: f("front", -300, 0)})
	state.Dry, state.Wet = dressing.Balanced(state.Weights, false), dressing.Balanced(state.Weights, true)
	middle := geom.Point{X: state.Gross[0].AtFrom / 2, Y: 50}
	plate := base.PlateOf(base.RegularFromPoints(middle, rapid.IntRange(3, 8).Draw(t, "corners"), f("across", 300, 1500), unit.Angle(f("turn", 0, 6))),
		base.Board{Thickness: 18, Density: 550})
	stance, _ := base.Base{Pieces: []base.Piece{plate}}.Stand([]base.Line{{From: 0, To: 100, Front: 0, Depth: 90}})
	s := Setup{Rules: rules(), Stance: stance, Bare: state, States: []dressing.State{state}, Loads: loads,
		Floor: base.Floor{Friction: f("friction", 0.1, 0.8), Soft: rapid.Bool().Draw(t, "soft")}}
	if rapid.Bool().Draw(t, "sloping") {
		s.Floor.Slope = unit.Angle(f("slope", 0, 0.05))
	}
	return s
}

// heldBrute turns a load through so many directions and takes the worst, with
// levers and sums of its own.
func heldBrute(s Setup, l Load, wet bool, turns int) float64 {
	worst := math.Inf(1)
	r := s.Rules
	lean, give := float64(s.Floor.Slope), 0.0
	if s.Floor.Soft {
		lean, give = lean+float64(r.SoftLean), r.SoftEdge
	}
	type force struct {
		n    float64
		p    geom.Point
		high float64
	}
	var all []force
	for _, w := range s.States[0].Weights {
		m := w.Mass
		if wet {
			m = w.Wet
		}
		all = append(all, force{float64(m) * 9.80665, geom.Point{X: w.At.X, Y: w.Back}, w.At.Y + s.Stance.Lift})
	}
	for _, w := range s.Stance.Weights {
		all = append(all, force{float64(w.Mass) * 9.80665, w.At, w.Up})
	}
	sum, high := 0.0, 0.0
	for _, a := range all {
		sum, high = sum+a.n, high+a.n*a.high
	}
	slant := 1.0
	if l.Kind == GustLoad {
		slant += r.Wind.Oblique
	}
	hull, middle := s.Stance.Hull, s.Stance.Hull.Centroid()
	for i := range turns {
		d := geom.Point{X: 1}.Rot(2 * math.Pi * float64(i) / float64(turns))
		f := float64(l.Force) * slant
		worst = math.Min(worst, s.Floor.Friction*r.Dead*sum/(f+sum*math.Tan(lean)))
		for k := range hull {
			a, b := hull[k], hull[(k+1)%len(hull)]
			in := geom.Point{X: a.Y - b.Y, Y: b.X - a.X}.Unit()
			part := -in.Dot(d)
			if part <= 0 {
				continue
			}
			from := in.Dot(a) + give*(in.Dot(middle)-in.Dot(a))
			holds := 0.0
			for _, w := range all {
				if e := in.Dot(w.p) - from; e >= 0 {
					holds += r.Dead * w.n * e
				} else {
					holds += r.DeadOver * w.n * e
				}
			}
			worst = math.Min(worst, math.Max(0, holds)/(f*part*l.Height+high*math.Tan(lean)))
		}
	}
	return worst
}

// The worst direction, found by the edges, is never above what a thousand
// directions find and hardly below; the 36 directions lie just above it.
func TestWorstDirectionAgainstTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t, Loads{Hall: true, Push: true, Gusts: []Speed{8}})
		for _, f := range s.Check() {
			brute := math.Min(heldBrute(s, f.Load, false, 1000), heldBrute(s, f.Load, true, 1000))
			if worst := math.Max(0, f.Worst.Held); worst > brute*(1+1e-9) || worst < brute*math.Cos(math.Pi/500)*(1-1e-9)-1e-12 {
				t.Fatalf("%v: worst %g, by turning %g", f.Load, worst, brute)
			}
			least := math.Inf(1)
			for _, d := range f.Directions {
				least = math.Min(least, math.Min(d.Tip, d.Slide))
			}
			step := math.Cos(2 * math.Pi / Directions) // the direction nearest to the worst may be the one square on
			if worst := f.Worst.Held; worst > 0 && (least < worst*(1-1e-9) || least > worst/step*(1+1e-9)) {
				t.Fatalf("%v: worst %g, of 36 directions %g", f.Load, worst, least)
			}
			if f.Square.Ratio > f.Worst.Ratio*(1+1e-9) {
				t.Fatalf("%v: square on %g, worst %g", f.Load, f.Square.Ratio, f.Worst.Ratio)
			}
		}
	})
}

// turnedSetup is the whole turned in plan.
func turnedSetup(s Setup, turn float64) Setup {
	rot := func(p geom.Point) geom.Point { return p.Rot(turn) }
	hull := make(geom.Polygon, len(s.Stance.Hull))
	for i, p := range s.Stance.Hull {
		hull[i] = rot(p)
	}
	s.Stance.Hull = hull
	s.Stance.Weights = append([]base.Weight(nil), s.Stance.Weights...)
	for i := range s.Stance.Weights {
		s.Stance.Weights[i].At = rot(s.Stance.Weights[i].At)
	}
	state := s.States[0]
	state.Weights = append([]dressing.Weight(nil), state.Weights...)
	for i, w := range state.Weights {
		p := rot(geom.Point{X: w.At.X, Y: w.Back})
		state.Weights[i].At.X, state.Weights[i].Back = p.X, p.Y
	}
	s.States = []dressing.State{state}
	return s
}

func TestTurningTheWholeChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t, Loads{Hall: true, Push: true, Crowd: true, Gusts: []Speed{10}})
		q := turnedSetup(s, rapid.Float64Range(-4, 4).Draw(t, "by"))
		a, b := s.Check(), q.Check()
		for i := range a {
			if !alike(a[i].Worst.Ratio, b[i].Worst.Ratio) {
				t.Fatalf("%v: ratio %g, turned %g", a[i].Load, a[i].Worst.Ratio, b[i].Worst.Ratio)
			}
		}
		if x, y := s.GustLimits()[0], q.GustLimits()[0]; !alike(float64(x.Gust), float64(y.Gust)) {
			t.Fatalf("limit %v, turned %v", x, y)
		}
	})
}

func alike(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-7*math.Abs(a) }

// More gust, more push, more solidity and more height never improve a finding;
// ballast within the hull on a hard floor and more friction never worsen one.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Speed(rapid.Float64Range(1, 20).Draw(t, "gust"))
		s := drawSetup(t, Loads{Hall: true, Push: true, Gusts: []Speed{v}})
		before := s.Check()
		worse := func(what string, after []Finding) {
			for i := range before {
				if after[i].Worst.Ratio < before[i].Worst.Ratio*(1-1e-9) {
					t.Fatalf("%s improves %v: %g to %g", what, before[i].Load, before[i].Worst.Ratio, after[i].Worst.Ratio)
				}
			}
		}
		more := rapid.Float64Range(1, 1.5).Draw(t, "more")
		q := s
		q.Loads.Gusts = []Speed{v * Speed(more)}
		q.Rules.Push *= unit.Force(more)
		worse("more load", q.Check())
		q = s
		q.States = []dressing.State{closed(s.States[0], more)}
		worse("more solidity", q.Check())
		q = s
		q.States = []dressing.State{higher(s.States[0], more)}
		worse("more height", q.Check())
		q = s
		q.Stance.Hull = stretched(s.Stance.Hull, 1/more, 1/more)
		worse("a smaller hull", q.Check())

		hard := s
		hard.Floor.Soft, hard.Floor.Slope = false, 0
		before = hard.Check()
		better := func(what string, after []Finding) {
			for i := range before {
				if after[i].Worst.Ratio > before[i].Worst.Ratio*(1+1e-9) {
					t.Fatalf("%s worsens %v: %g to %g", what, before[i].Load, before[i].Worst.Ratio, after[i].Worst.Ratio)
				}
			}
		}
		q = hard
		hull := s.Stance.Hull
		at := hull.Centroid().Lerp(hull[0], rapid.Float64Range(0, 1).Draw(t, "at"))
		q.Ballast = []Placed{{"bag", unit.Mass(rapid.Float64Range(0, 40).Draw(t, "bag")), at, 60}}
		better("ballast", q.Check())
		q = hard
		q.Floor.Friction *= more
		better("friction", q.Check())
		q = hard
		q.Stance.Stakes = []base.Stake{{At: at, Sideways: 50, Pull: 200}}
		better("a stake", q.Check())
	})
}

// closed has more of the same outline closed, higher is stretched upwards with
// its weights where they are.
func closed(s dressing.State, times float64) dressing.State {
	was := s.Solidity()
	e := math.Min(1, was*times)
	w := s.Gross[0].AtFrom
	s.Solid = dressing.Profile{{From: s.Gross[0].From, To: s.Gross[0].To, AtFrom: w * e, AtTo: w * e}}
	return s
}

func higher(s dressing.State, times float64) dressing.State {
	stretch := func(p dressing.Profile) dressing.Profile {
		q := p[0]
		q.To *= times
		return dressing.Profile{q}
	}
	s.Gross, s.Solid = stretch(s.Gross), stretch(s.Solid)
	s.Pressure.Y *= times
	return s
}

// At the limit the ratio is 1, a hair beyond it is over; the limit rounded down
// is not over.
func TestLimitsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t, Loads{})
		if rapid.Bool().Draw(t, "along") {
			s.Rules.Wind.Along = rapid.Float64Range(0, 1).Draw(t, "share")
		}
		state := s.States[0]
		limit := s.GustLimit(state)
		at := func(v Speed) float64 {
			s.Loads = Loads{Gusts: []Speed{v}}
			return s.Check()[0].Worst.Ratio
		}
		switch {
		case limit.Gust == 0: // a piece with no area goes over by itself
			if r := at(0.01); r < 1-1e-6 {
				t.Fatalf("limit 0, but at next to nothing %g", r)
			}
		case limit.Stop:
			if r := at(limit.Gust); r > 1+1e-9 {
				t.Fatalf("at the stop %g", r)
			}
		default:
			if r := at(limit.Gust); math.Abs(r-1) > 1e-9 {
				t.Fatalf("at the limit of %v: %g", limit.Gust, r)
			}
			if r := at(limit.Gust.DownTo(FromMPH(1))); r > 1 && r > 1+1e-9 {
				t.Fatalf("rounded down %g", r)
			}
			if math.Abs(limit.By.Ratio-1) > 1e-9 {
				t.Fatalf("what goes first: %+v", limit.By)
			}
		}
		push := s.PushLimit(state, 1500)
		s.Rules.Push, s.Rules.PushHeight, s.Loads = push.Force, 1500, Loads{Push: true}
		if r := s.Check()[0].Worst.Ratio; push.Force > 0 && math.Abs(r-1) > 1e-9 {
			t.Fatalf("at the largest push %g", r)
		}
	})
}

// Beyond the stop nothing stays up, whatever the sums give.
func TestStop(t *testing.T) {
	s := on(t, rules(), pane(1000, 1000, 0.1, 0, 500), 0.8, Loads{}, slab(-2000, -2000, 5000, 4000))
	l := s.GustLimits()[0]
	if !l.Stop || math.Abs(l.Gust.MPH()-30) > 1e-9 {
		t.Errorf("limit %+v", l)
	}
	l = on(t, rules(), pane(1000, 1000, 0, 0, 5), 0.8, Loads{}, slab(-2000, -2000, 5000, 4000)).GustLimits()[0]
	if !l.Stop || l.Gust.MPH() < 29.999 {
		t.Errorf("nothing to catch the wind: %+v", l)
	}
}

// By hand: 20 kg at the middle of a plate 2 x 1 m on a soft floor that slopes 2
// degrees. The edges give 10 % of 500, the lean is 3 degrees, the weight 1 m up.
func TestSoftSlopingFloor(t *testing.T) {
	s := on(t, rules(), pane(2000, 2000, 1, 0, 20), 0.5, Loads{Push: true}, slab(0, -500, 2000, 1000))
	s.Floor.Soft, s.Floor.Slope = true, unit.FromDegrees(2)
	f := s.Check()[0]
	w, lean := 20*9.80665, math.Tan(3*math.Pi/180)
	push := 20 * 4.4482216152605
	want(t, "tip", f.Directions[9].Tip, 0.9*w*450/(push*60*inch+w*1000*lean), 1e-9)
	want(t, "slide", f.Directions[9].Slide, 0.5*0.9*w/(push+w*lean), 1e-9)
}

// Wind that pushes forwards only: the back edge is never in question, slanting
// edges count as far as it reaches them.
func TestWindFromOneSide(t *testing.T) {
	hex := base.PlateOf(base.RegularFromPoints(geom.Point{X: 500}, 6, 600, unit.FromDegrees(30)), base.Board{})
	s := on(t, rules(), pane(1000, 2000, 0.5, 0, 10), 0.8, Loads{Gusts: []Speed{9}}, hex)
	all := s.Missing()
	forwards := unit.Angle(-math.Pi / 2)
	s.Loads.WindToward = &forwards
	one := s.Missing()
	for k, e := range one.Edges {
		off := math.Abs(math.Remainder(float64(e.edge.toward()-forwards), 2*math.Pi))
		switch {
		case off > 5.1*math.Pi/6 && e.Moment != 0: // the two at the back, 150 degrees off
			t.Errorf("edge %d at %g from the wind: %g", k, off, e.Moment)
		case off < math.Pi/2+0.01 && math.Abs(e.Moment-all.Edges[k].Moment) > 1e-6*all.Edges[k].Moment:
			t.Errorf("edge %d at %g: %g, with wind from all sides %g", k, off, e.Moment, all.Edges[k].Moment)
		case e.Moment > all.Edges[k].Moment*(1+1e-12):
			t.Errorf("edge %d: more from one side than from all", k)
		}
	}
	for _, toward := range []unit.Angle{forwards, -forwards} {
		s.Loads.WindToward = &toward
		d := s.drifting(s.whole(s.States[0], false), Load{Kind: GustLoad, Force: 1})
		if Towards(d.Toward) != Towards(toward) || math.Abs(float64(d.Force)-1.2) > 1e-12 {
			t.Errorf("wind %s drifts %s by %g", Towards(toward), Towards(d.Toward), d.Force)
		}
	}
	s.Loads.WindToward = &forwards
	f := s.Check()[0]
	if !math.IsInf(f.Directions[9].Slide, 1) || math.IsInf(f.Directions[27].Slide, 1) {
		t.Error("it blows backwards too")
	}
}

// Wings catch wind of their own and weigh with the rest.
func TestWings(t *testing.T) {
	s := on(t, rules(), pane(1000, 2000, 1, 0, 30), 0.4, Loads{Hall: true, Gusts: []Speed{8}}, slab(0, -500, 1000, 1000))
	plain := s.Check()
	s.Faces = []Face{{Name: "left", Gross: 400 * 2000, Solid: 400 * 2000, Height: 1000}}
	winged := s.Check()
	times := []float64{1.4, (1.55*1000 + 1.65*400) / (1.55 * 1000)} // a wall half as wide as high, a wing a fifth
	for i := range plain {
		want(t, "force", float64(winged[i].Load.Force), times[i]*float64(plain[i].Load.Force), 1e-9)
		want(t, "height", winged[i].Load.Height, plain[i].Load.Height, 1e-9)
	}
	s.Loads = Loads{Hall: true, HallSolid: true}
	want(t, "solid only", float64(s.Check()[0].Load.Force), 1.4*0.125*2000, 1e-9)
}

func TestWords(t *testing.T) {
	r := rules()
	for _, c := range []struct {
		ratio float64
		word  string
	}{{0, WellInside}, {0.5, WellInside}, {0.500001, NearLimit}, {1, NearLimit}, {1.000001, Over}, {math.Inf(1), Over}} {
		if got := r.Word(c.ratio); got != c.word {
			t.Errorf("%g is %q", c.ratio, got)
		}
	}
	for deg, word := range map[float64]string{0: "to the right", 90: "backwards", 180: "to the left", 270: "forwards", -90: "forwards",
		45: "backwards and to the right", 225: "forwards and to the left", 359: "to the right", 720 + 100: "backwards"} {
		if got := Towards(unit.FromDegrees(deg)); got != word {
			t.Errorf("%g degrees is %q, want %q", deg, got, word)
		}
	}
	if Tipping.String() != "tipping" || Sliding.String() != "sliding" {
		t.Error("a mode has another name")
	}
	for _, l := range []Load{{Kind: HallLoad}, {Kind: PushLoad}, {Kind: CrowdLoad}, {Kind: GustLoad, Gust: FromMPH(20)}} {
		if l.String() == "" {
			t.Errorf("%v has no words", l.Kind)
		}
	}
	if got := (Load{Kind: GustLoad, Gust: FromMPH(20)}).String(); got != "gust of 20 mph" {
		t.Error(got)
	}
}
