package dressing

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

func drawWay(t *rapid.T, p Piece) Way {
	w := Way{Name: "dressed"}
	for i := range rapid.IntRange(0, 3).Draw(t, "layers") {
		l := drawLayer(t, p)
		l.Name = fmt.Sprint("layer ", i)
		l.PerArea = rapid.Float64Range(0, 2).Draw(t, "per area")
		l.Wet = rapid.SampledFrom([]float64{0, 1, 1.5, 3}).Draw(t, "wet")
		l.Front = rapid.Float64Range(-100, 200).Draw(t, "in front")
		w.Layers = append(w.Layers, l)
	}
	return w
}

// A way of dressing put on a piece whose frames weigh otherwise is, to the last
// bit, that way measured anew on it; the state it came from stays as it was.
func TestOnIsDressedAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPiece(t)
		w := drawWay(t, p)
		s, _ := p.Dress(w)
		before, _ := p.Dress(w)
		q := p
		q.Frames = nil
		for range p.Frames {
			q.Frames = append(q.Frames, Frame{unit.Mass(rapid.Float64Range(0, 9).Draw(t, "mass")), rapid.Float64Range(10, 200).Draw(t, "depth"), rapid.Float64Range(0, 90).Draw(t, "front")})
		}
		q.Fitted = []Weight{{What: "batten", Mass: 2, At: geom.Point{X: 100, Y: 900}, Back: 110}, {What: "lights", Mass: 1, Wet: 1.2}}
		want, _ := q.Dress(w)
		if got := s.On(q); !reflect.DeepEqual(got, want) {
			t.Fatalf("%+v, want %+v", got, want)
		}
		if !reflect.DeepEqual(s, before) {
			t.Fatal("the state it came from was changed")
		}
	})
}

// Weights add up: frames, what is fitted, each layer by its own mass and by what
// it covers; the whole balances about its middle, wet and dry; water only adds.
func TestWeightsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPiece(t)
		p.Fitted = []Weight{{What: "hook", Mass: 0.2, At: geom.Point{X: 50, Y: 60}, Back: 20}}
		s, _ := p.Dress(drawWay(t, p))
		sum := 0.2
		for _, f := range p.Frames {
			sum += float64(f.Mass)
		}
		wet := sum
		for _, h := range s.Layers {
			mass := float64(h.Layer.Mass) + h.Layer.PerArea*h.Covers/1e6
			sum += mass
			wet += mass * math.Max(1, h.Layer.Wet)
			if h.Covers <= 0 || h.Stops < -1e-6 || h.Stops > h.Covers+1e-6 {
				t.Fatalf("covers %g, stops %g", h.Covers, h.Stops)
			}
		}
		if math.Abs(float64(s.Dry.Mass)-sum) > 1e-9*sum || math.Abs(float64(s.Wet.Mass)-wet) > 1e-9*wet {
			t.Fatalf("dry %v of %v, wet %v of %v", s.Dry.Mass, sum, s.Wet.Mass, wet)
		}
		for _, b := range []struct {
			Balance
			wet bool
		}{{s.Dry, false}, {s.Wet, true}} {
			right, up, back := 0.0, 0.0, 0.0
			for _, w := range s.Weights {
				m := float64(w.Mass)
				if b.wet {
					m = float64(w.Wet)
				}
				right, up, back = right+m*(w.At.X-b.At.X), up+m*(w.At.Y-b.At.Y), back+m*(w.Back-b.Back)
			}
			if off := math.Abs(right) + math.Abs(up) + math.Abs(back); off > 1e-6*float64(b.Mass) {
				t.Fatalf("turns about its own middle by %g", off)
			}
		}
	})
}

// One layer over all of the piece closes the same share of whatever is open: the
// solid area is the wood and that share of the rest (by hand).
func TestOneLayerOverAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPiece(t)
		closes := rapid.Float64Range(0, 1).Draw(t, "closes")
		bare, _ := p.Dress(Way{Name: "bare"})
		s, _ := p.Dress(Way{"all", []Layer{{Name: "l", Mass: 1, Closes: closes}}})
		gross, wood := bare.Gross.Area(), bare.Solid.Area()
		if want := wood + closes*(gross-wood); math.Abs(s.Solid.Area()-want) > 1e-6*gross {
			t.Fatalf("solid %g, by hand %g", s.Solid.Area(), want)
		}
		twice, _ := p.Dress(Way{"twice", []Layer{{Name: "a", Mass: 1, Closes: closes}, {Name: "b", Mass: 1, Closes: closes}}})
		if want := wood + (1-(1-closes)*(1-closes))*(gross-wood); math.Abs(twice.Solid.Area()-want) > 1e-6*gross {
			t.Fatalf("two on each other: solid %g, by hand %g", twice.Solid.Area(), want)
		}
	})
}
