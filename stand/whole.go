package stand

import (
	"math"

	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/unit"
)

// A Setup is all that decides whether a piece stays up.
type Setup struct {
	Rules   Rules
	Stance  base.Stance
	Floor   base.Floor
	Ballast []Placed
	Bare    dressing.State // the piece without dressing
	States  []dressing.State
	Faces   []Face // wings and returns
	Loads   Loads
}

// A Placed is a weight of ballast in its place.
type Placed struct {
	Name string
	Mass unit.Mass
	At   geom.Point
	Up   float64 // height of its middle above the floor, mm
}

// An edge is a side of the hull that the whole can tip over.
type edge struct {
	side   geom.Segment
	normal geom.Point // outwards
	give   float64    // mm that it gives way on a soft floor
}

// lever is how far a place lies inside the edge, in mm.
func (e edge) lever(p geom.Point) float64 {
	return -e.normal.Dot(p.Sub(e.side.A)) - e.give
}

// toward is the direction straight over the edge.
func (e edge) toward() unit.Angle { return unit.Angle(math.Atan2(e.normal.Y, e.normal.X)) }

func edgesOf(hull geom.Polygon, give float64) []edge {
	out := make([]edge, len(hull))
	middle := hull.Centroid()
	for i := range hull {
		s := hull.Side(i)
		e := edge{side: s, normal: s.Vec().Unit().Perp().Mul(-1)}
		e.give = give * e.lever(middle)
		out[i] = e
	}
	return out
}

// A weight is a force downwards. Ballast is weighed, so its share differs.
type weight struct {
	force   float64 // N
	at      geom.Point
	up      float64
	ballast bool
}

// A whole is a piece in one way of dressing, dry or wet, on its base.
type whole struct {
	rules    Rules
	friction float64
	lean     float64 // tangent of the floor's lean
	weights  []weight
	stakes   []base.Stake
	edges    []edge
	help     []float64 // by edge: moment that holds, N mm
	drift    []float64 // by edge: moment of the lean, N mm
	resist   float64   // N against sliding
	downhill float64   // N of weight down the slope
}

// whole joins what the packages below have weighed.
func (s Setup) whole(state dressing.State, wet bool) *whole {
	w := &whole{rules: s.Rules, friction: s.Floor.Friction, stakes: s.Stance.Stakes}
	lean, give := s.Floor.Slope, 0.0
	if s.Floor.Soft {
		lean, give = lean+s.Rules.SoftLean, s.Rules.SoftEdge
	}
	w.lean = math.Tan(float64(lean))
	for _, p := range state.Weights {
		m := p.Mass
		if wet {
			m = p.Wet
		}
		w.add(m, geom.Point{X: p.At.X, Y: p.Back}, p.At.Y+s.Stance.Lift, false)
	}
	for _, p := range s.Stance.Weights {
		w.add(p.Mass, p.At, p.Up, false)
	}
	for _, p := range s.Ballast {
		w.add(p.Mass, p.At, p.Up, true)
	}
	w.edges = edgesOf(s.Stance.Hull, give)
	w.sum()
	return w
}

func (w *whole) add(m unit.Mass, at geom.Point, up float64, ballast bool) {
	w.weights = append(w.weights, weight{float64(Weigh(m)), at, up, ballast})
}

// share of a weight that is counted: less where it holds, more where it pulls
// over.
func (w *whole) share(p weight, lever float64) float64 {
	switch {
	case lever < 0:
		return w.rules.DeadOver
	case p.ballast:
		return w.rules.Ballast
	}
	return w.rules.Dead
}

func (w *whole) sum() {
	w.help, w.drift = make([]float64, len(w.edges)), make([]float64, len(w.edges))
	w.resist, w.downhill = 0, 0
	for _, p := range w.weights {
		w.resist += w.friction * w.share(p, 0) * p.force
		w.downhill += w.lean * p.force
		for k, e := range w.edges {
			lever := e.lever(p.at)
			w.help[k] += w.share(p, lever) * p.force * lever
			w.drift[k] += w.lean * p.force * p.up
		}
	}
	for _, s := range w.stakes {
		w.resist += float64(s.Sideways)
		for k, e := range w.edges {
			w.help[k] += float64(s.Pull) * math.Max(0, e.lever(s.At))
		}
	}
}

// tip is by how much the whole is held against a level force at a height that
// pushes straight over edge k: infinite when nothing tips it, 0 or less when it
// goes over by itself.
func (w *whole) tip(k int, force, height float64) float64 {
	return over(w.help[k], force*height+w.drift[k])
}

// slide is likewise for sliding.
func (w *whole) slide(force float64) float64 { return over(w.resist, force+w.downhill) }

func over(holds, tips float64) float64 {
	if tips <= 0 {
		if holds <= 0 {
			return 0
		}
		return math.Inf(1)
	}
	return holds / tips
}

// tilt is the lean at which the whole goes over by itself, and over which edge.
func (w *whole) tilt() (unit.Angle, int) {
	least, at := math.Inf(1), 0
	for k, e := range w.edges {
		moment, high := 0.0, 0.0
		for _, p := range w.weights {
			moment += p.force * e.lever(p.at)
			high += p.force * p.up
		}
		if a := math.Atan2(moment, high); a < least {
			least, at = a, k
		}
	}
	return unit.Angle(least), at
}
