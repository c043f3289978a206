package dressing

import (
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// A Piece is a set piece as it is built, seen from the front.
type Piece struct {
	Layout layout.Layout
	Frames []Frame  // one for each of Layout.Frames, in their order
	Fitted []Weight // what is screwed on in every way of dressing: battens, hooks, lights
}

// A Frame is what the layout does not know of one: its mass, how deep it is
// from front to back, and how far its front edges lie behind the foremost ones.
type Frame struct {
	Mass         unit.Mass
	Depth, Front float64 // mm
}

// A Way of dressing is what hangs on the piece at one time, under a name of the
// user's: bare, part-dressed, dressed, draped.
type Way struct {
	Name   string
	Layers []Layer
}

// A Layer is one kind of dressing: greenery, drape, a wreath of foam.
type Layer struct {
	Name    string
	Mass    unit.Mass // in all; or, with PerArea, on top of it
	PerArea float64   // kg to a square metre of what it covers
	On      Region
	Closes  float64 // share of what it covers that it closes to the wind, 0 to 1
	Front   float64 // mm that its middle hangs in front of the foremost edges; below 0 behind them
	Wet     float64 // mass soaked over mass dry, 1 or more; 0 means that it takes no water
	Flame   string  // what shows that it is hard to set alight: paper, treatment, nothing
}

// A Region is a part of the front view. The zero Region is all that lies within
// the outlines. With Frames it is what lies within those; with Shapes, those;
// with both, both. From and To cut it to a band of heights in mm above the
// piece's foot; a To of 0 cuts nothing off above.
type Region struct {
	Frames   []int // indices into Layout.Frames
	Shapes   []geom.Polygon
	From, To float64
}

// A Weight is a mass and where its middle is: At in the front view, Back mm
// behind the foremost front edges. Wet is the mass with all the water it takes.
type Weight struct {
	What      string
	Mass, Wet unit.Mass
	At        geom.Point
	Back      float64
}

// A Balance is a mass and its centre.
type Balance struct {
	Mass unit.Mass
	At   geom.Point
	Back float64 // mm behind the foremost front edges
}

// A State is a piece in one way of dressing.
type State struct {
	Way      string
	Weights  []Weight // the frames in their order, then what is fitted, then the layers
	Dry, Wet Balance
	Gross    Profile // everything within the outlines and what hangs beyond them
	Solid    Profile // what stops the wind of it
	Pressure geom.Point
	Layers   []Hung
}

// Solidity is the solid share of the gross area, 0 to 1.
func (s State) Solidity() float64 {
	if g := s.Gross.Area(); g > 0 {
		return min(s.Solid.Area()/g, 1)
	}
	return 0
}

// A Hung is a layer where it hangs.
type Hung struct {
	Layer     Layer
	Covers    float64 // mm2
	Stops     float64 // mm2 of the solid area that go when it alone is taken down
	Mass, Wet unit.Mass
	At        geom.Point // the middle of what it covers
}

// squareMetre in mm2: a definition.
const squareMetre = 1000 * 1000

// Dress puts one way of dressing on the piece. Layers with a problem are left
// out of the State.
func (p Piece) Dress(w Way) (State, []Problem) {
	layers, problems := p.sound(w)
	v := newView(p, layers)
	v.sweep()
	s := State{Way: w.Name, Gross: v.gross, Solid: v.solid, Pressure: v.stops.centre()}
	for i, l := range layers {
		covers := v.covers[i]
		if covers.area <= 0 {
			problems = append(problems, Problem{Code: NoArea, Way: w.Name, Layer: l.Name})
			continue
		}
		s.Layers = append(s.Layers, l.hung(covers, v.alone[i]))
	}
	return s.On(p), problems
}

func (l Layer) hung(covers tally, alone float64) Hung {
	mass := l.Mass + unit.Mass(l.PerArea*covers.area/squareMetre)
	return Hung{Layer: l, Covers: covers.area, Stops: alone, Mass: mass, Wet: mass * unit.Mass(max(1, l.Wet)), At: covers.centre()}
}

// Build dresses the piece in every way, in their order; problems come in that
// order too.
func (p Piece) Build(ways []Way) ([]State, []Problem) {
	states := make([]State, len(ways))
	var problems []Problem
	names := map[string]bool{}
	for i, w := range ways {
		if names[w.Name] {
			problems = append(problems, Problem{Code: WayTwice, Way: w.Name})
		}
		names[w.Name] = true
		var wrong []Problem
		states[i], wrong = p.Dress(w)
		problems = append(problems, wrong...)
	}
	return states, problems
}

// On is the same way of dressing on a piece of the same layout whose frames weigh
// otherwise, lie deeper, or have other things fitted to them. What it covers and
// closes does not hang on that, so that only weights are summed anew: for designs
// that are tried one after the other.
func (s State) On(p Piece) State {
	s.Weights = p.weights(s.Layers)
	s.Dry, s.Wet = Balanced(s.Weights, false), Balanced(s.Weights, true)
	return s
}

// Without is a way of dressing with one layer taken down, counted from 0.
func (w Way) Without(layer int) Way {
	rest := make([]Layer, 0, len(w.Layers))
	rest = append(rest, w.Layers[:layer]...)
	return Way{Name: w.Name, Layers: append(rest, w.Layers[layer+1:]...)}
}

func (p Piece) weights(layers []Hung) []Weight {
	out := make([]Weight, 0, len(p.Frames)+len(p.Fitted)+len(layers))
	for i, f := range p.Frames {
		out = append(out, f.weight(p.Layout.Frames[i]))
	}
	for _, w := range p.Fitted {
		w.Wet = max(w.Wet, w.Mass)
		out = append(out, w)
	}
	for _, h := range layers {
		out = append(out, Weight{What: h.Layer.Name, Mass: h.Mass, Wet: h.Wet, At: h.At, Back: -h.Layer.Front})
	}
	return out
}

// weight of a frame sits in the middle of its wood: the outline's area about
// its centre less the opening's about its own.
func (f Frame) weight(at layout.Frame) Weight {
	out, in := at.Outside.CCW(), at.Inside.CCW()
	a, b := out.Area(), in.Area()
	centre := out.Centroid().Mul(a).Sub(in.Centroid().Mul(b)).Mul(1 / (a - b))
	if a-b <= geom.Eps {
		centre = out.Centroid()
	}
	return Weight{What: at.ID, Mass: f.Mass, Wet: f.Mass, At: centre, Back: f.Front + f.Depth/2}
}

// Balanced is the sum of weights, dry or wet, about their common centre.
func Balanced(weights []Weight, wet bool) Balance {
	var b Balance
	for _, w := range weights {
		m := w.Mass
		if wet {
			m = w.Wet
		}
		b.Mass += m
		b.At = b.At.Add(w.At.Mul(float64(m)))
		b.Back += float64(m) * w.Back
	}
	if b.Mass > 0 {
		b.At, b.Back = b.At.Mul(1/float64(b.Mass)), b.Back/float64(b.Mass)
	}
	return b
}
