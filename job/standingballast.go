package job

import (
	"fmt"
	"math"
	"slices"

	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/stand"
	"bowerwright/unit"
)

// weights are frames, base and ballast; then each way with all of it.
func (s *stander) weights(f *StandingFacts, t trial) {
	lift := t.setup.Stance.Lift
	for i, w := range t.bare.Weights {
		f.Weights = append(f.Weights, s.weight(s.p.labels[i], "frame", w.Mass, w.Mass, w.At.X, w.At.Y+lift, w.Back))
	}
	for _, b := range t.setup.Stance.Weights {
		f.Weights = append(f.Weights, s.weight(b.What, "base", b.Mass, b.Mass, b.At.X, b.Up, b.At.Y))
	}
	for _, b := range t.loaded.Ballast {
		f.Weights = append(f.Weights, s.weight(b.Name, "ballast", b.Mass, b.Mass, b.At.X, b.Up, b.At.Y))
	}
	f.Parts = s.parts()
	limits := map[string]stand.Limit{}
	if t.footing {
		for _, l := range t.loaded.GustLimits() {
			limits[l.Way] = l
		}
	}
	for _, state := range t.states {
		f.Ways = append(f.Ways, s.way(state, t, limits[state.Way]))
	}
}

// parts weigh by the middle of their two faces.
func (s *stander) parts() (out []PartWeight) {
	const cubicMetre = 1e9 // mm3
	for _, k := range s.p.result.Kinds {
		shape := s.p.kinds[s.p.kindAt[k.Name]]
		for _, q := range k.Parts {
			volume := (q.Outside.MM + q.InsideLength.MM) / 2 * shape.boards.Depth().MM() * shape.boards.Rise().MM()
			out = append(out, PartWeight{q.Mark, s.p.w.weight(unit.Mass(volume / cubicMetre * float64(shape.board.density)))})
		}
	}
	return out
}

func (s *stander) weight(what, kind string, dry, wet unit.Mass, x, up, back float64) WeightFacts {
	w := s.p.w
	return WeightFacts{What: what, Kind: kind, Weight: w.weight(dry), Wet: w.weight(wet), Right: w.looked(x), Up: w.looked(up), Back: w.off(back)}
}

// way is the piece as dressed, with the base and the ballast under it.
func (s *stander) way(state dressing.State, t trial, limit stand.Limit) DressedFacts {
	w, lift := s.p.w, t.setup.Stance.Lift
	d := DressedFacts{Name: state.Way, Gross: w.area(unit.Area(state.Gross.Area())), Solid: w.area(unit.Area(state.Solid.Area())),
		Solidity: fmt.Sprintf("%.0f %%", 100*state.Solidity()), Pressure: w.xy(state.Pressure), High: w.looked(state.Pressure.Y + lift)}
	d.Whole = s.whole(state, t)
	for _, l := range state.Layers {
		d.Layers = append(d.Layers, s.weight(l.Layer.Name, "dressing", l.Mass, l.Wet, l.At.X, l.At.Y+lift, -l.Layer.Front))
		d.Covers = append(d.Covers, w.area(unit.Area(l.Covers)))
	}
	if t.footing && limit.Gust > 0 {
		g := w.limitOf(limit.Gust)
		d.Gust, d.Stop = &g, limit.Stop
		d.GustBy = goes(limit.By)
	}
	return d
}

// goes is how it would go: "tipping backwards", "sliding forwards".
func goes(g stand.Governing) string { return g.Mode.String() + " " + stand.Towards(g.Toward) }

// whole is everything that stands there, about its common middle.
func (s *stander) whole(state dressing.State, t trial) WeightFacts {
	sum, wet := unit.Mass(0), unit.Mass(0)
	var x, y, up float64
	add := func(m unit.Mass, at geom.Point, high float64) {
		sum += m
		x, y, up = x+float64(m)*at.X, y+float64(m)*at.Y, up+float64(m)*high
	}
	add(state.Dry.Mass, geom.Point{X: state.Dry.At.X, Y: state.Dry.Back}, state.Dry.At.Y+t.setup.Stance.Lift)
	for _, b := range t.setup.Stance.Weights {
		add(b.Mass, b.At, b.Up)
	}
	for _, b := range t.loaded.Ballast {
		add(b.Mass, b.At, b.Up)
	}
	wet = sum - state.Dry.Mass + max(state.Dry.Mass, state.Wet.Mass)
	m := float64(sum)
	return s.weight("the whole", "whole", sum, wet, x/m, up/m, y/m)
}

// plan is what stands on the floor.
func (s *stander) plan(f *StandingFacts, t trial) {
	w, st := s.p.w, t.setup.Stance
	f.Plan.Hull, f.Plan.Width, f.Plan.Depth = w.outline(st.Hull), w.looked(0), w.looked(0)
	if len(st.Hull) > 0 {
		b := st.Hull.Box()
		f.Plan.Width, f.Plan.Depth = w.looked(b.Max.X-b.Min.X), w.looked(b.Max.Y-b.Min.Y)
	}
	f.Plan.Lift = w.looked(st.Lift)
	for _, l := range s.lines {
		f.Plan.Boards = append(f.Plan.Boards, w.outline(geom.Polygon{{X: l.From, Y: l.Front}, {X: l.To, Y: l.Front}, {X: l.To, Y: l.Front + l.Depth}, {X: l.From, Y: l.Front + l.Depth}}))
	}
	for _, p := range t.pieces {
		b := BasePiece{Name: p.Name, Kind: p.Kind.String(), Hole: w.outline(p.Hole), Weight: w.weight(p.Mass), Carries: p.Carries}
		for _, o := range p.Footprint {
			b.On = append(b.On, w.outline(o))
		}
		f.Plan.Pieces = append(f.Plan.Pieces, b)
	}
	for _, k := range st.Stakes {
		f.Plan.Stakes = append(f.Plan.Stakes, w.xy(k.At))
	}
}

// ballast is the map of units, and what a heap in the middle of the base would
// have to weigh.
func (s *stander) ballast(f *StandingFacts, t trial) {
	w, b := s.p.w, &f.Ballast
	b.Needed = !t.lack.Nothing()
	b.Units, b.Weight, b.Enough, b.Fewest = t.plan.Units, w.held(t.plan.Mass), t.plan.Enough || !b.Needed, t.plan.Fewest
	for _, k := range t.plan.Stacks {
		half := geom.Point{X: k.Unit.Length / 2, Y: k.Unit.Width / 2}
		a, c := k.Spot.At.Sub(half), k.Spot.At.Add(half)
		b.Stacks = append(b.Stacks, StackFacts{Unit: k.Unit.Name, Count: k.Count, Each: w.held(k.Unit.Mass), At: w.xy(k.Spot.At), Right: w.looked(k.Spot.At.X), Behind: w.off(k.Spot.At.Y),
			Outline: []XY{w.xy(a), w.xy(geom.Point{X: c.X, Y: a.Y}), w.xy(c), w.xy(geom.Point{X: a.X, Y: c.Y})}, On: k.Spot.On})
	}
	if b.Needed {
		middle := t.setup.Stance.Hull.Centroid()
		if m := t.lack.Heap(middle).Mass(); !math.IsInf(float64(m), 1) {
			heap := w.weight(m)
			b.Heap = &heap
		}
	}
	b.Says = s.ballastSays(*b, t)
	s.width(f, t)
}

func (s *stander) ballastSays(b BallastFacts, t trial) string {
	heap := ""
	if b.Heap != nil {
		heap = "; " + s.p.w.say(b.Heap.US, b.Heap.Metric) + " would have to stand in the middle of what it stands on"
	}
	switch {
	case !b.Needed:
		return "no ballast is needed by calculation"
	case b.Heap == nil && t.lack.Slide > 0 && t.setup.Floor.Friction == 0:
		return "no ballast is enough: this floor is reckoned without friction, so it slides; stakes hold, or another floor"
	case len(t.units) == 0:
		return "ballast is missing and no units are described" + heap
	case b.Enough && b.Fewest:
		return fmt.Sprintf("%s of ballast, in all %s: by calculation enough, and no fewer are", howMany(b.Units, "unit"), s.p.w.say(b.Weight.US, b.Weight.Metric))
	case b.Enough:
		return fmt.Sprintf("%s of ballast, in all %s: by calculation enough; fewer may do", howMany(b.Units, "unit"), s.p.w.say(b.Weight.US, b.Weight.Metric))
	case len(t.setup.Stance.Deck) == 0:
		return "ballast is missing and there is no base to stand it on" + heap
	}
	return fmt.Sprintf("%s find room or are owned, in all %s: not enough%s", howMany(b.Units, "unit"), s.p.w.say(b.Weight.US, b.Weight.Metric), heap)
}

func (s *stander) width(f *StandingFacts, t trial) {
	w, box := s.p.w, t.setup.Stance.Hull.Box()
	x := t.setup.Width()
	f.Width.Slides = x.Slide
	sliding := ""
	if x.Slide {
		sliding = "; it slides whatever its size: ballast, stakes or a floor with more friction are needed all the same"
	}
	if x.Scale <= mostScale {
		wide, deep := w.next((box.Max.X-box.Min.X)*x.Scale), w.next((box.Max.Y-box.Min.Y)*x.Scale)
		f.Width.Enough, f.Width.Wide, f.Width.Deep = true, &wide, &deep
	}
	if x.Deep <= mostScale && (box.Max.Y-box.Min.Y)*x.Deep <= mostOnly {
		only := w.next((box.Max.Y - box.Min.Y) * x.Deep)
		f.Width.Only = &only
	}
	switch {
	case x.Deep <= 1:
		f.Width.Says = "against going over it needs no wider base" + sliding
	case f.Width.Only != nil:
		f.Width.Says = fmt.Sprintf("without ballast it would have to stand on %s by %s against going over%s", w.text(w.looked(box.Max.X-box.Min.X)), w.text(*f.Width.Only), sliding)
	case f.Width.Enough:
		f.Width.Says = fmt.Sprintf("without ballast it would have to stand on %s by %s against going over%s", w.text(*f.Width.Wide), w.text(*f.Width.Deep), sliding)
	default:
		f.Width.Says = "no base of this shape that finds room does without ballast" + sliding
	}
}

// wind is what is done at which gust, where there is wind.
func (s *stander) wind(f *StandingFacts, t trial) {
	for _, state := range t.states {
		l := t.loaded.PushLimit(state, s.rules.PushHeight)
		height := min(s.rules.PushHeight, state.Gross.Top()) + t.setup.Stance.Lift
		f.Push = append(f.Push, PushFacts{Way: state.Way, Force: s.p.w.holds(l.Force), Height: s.p.w.looked(height), By: goes(l.By)})
	}
	if t.asked.at.Where != outdoors {
		return
	}
	for _, way := range t.ways {
		plan := t.loaded.WindPlan(s.piece, way)
		w := s.p.w
		x := WindPlanFacts{Way: way.Name, Limit: w.limitOf(plan.Limit.Gust), Watch: w.limitOf(plan.Watch), Act: w.limitOf(plan.Act), Stop: plan.Limit.Stop, By: goes(plan.Limit.By)}
		for _, d := range plan.Down {
			x.Down = append(x.Down, DownFacts{d.Layer, w.limitOf(d.Then)})
		}
		f.Wind = append(f.Wind, x)
	}
}

// flame lists every material once, in the order of the job.
func flame(ways []dressing.Way) []FlameFacts {
	var out []FlameFacts
	for _, w := range ways {
		for _, l := range w.Layers {
			i := slices.IndexFunc(out, func(f FlameFacts) bool { return f.Material == l.Name && f.Evidence == l.Flame })
			if i < 0 {
				i = len(out)
				out = append(out, FlameFacts{Material: l.Name, Evidence: l.Flame})
			}
			out[i].Ways = append(out[i].Ways, w.Name)
		}
	}
	return out
}

// Beyond these a base is none that anybody would build: times what it is, and mm
// from front to back.
const (
	mostScale = 8
	mostOnly  = 4000
)
