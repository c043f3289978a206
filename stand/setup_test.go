package stand

import (
	"math"
	"testing"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/unit"
)

const inch = 25.4

func want(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// rules are the built-in ones.
func rules() Rules { return RulesFrom(assume.BuiltInBook().Reader()) }

// plain are rules of textbook sums: the weight as it is, no slant.
func plain() Rules {
	r := rules()
	r.Dead, r.DeadOver, r.Factor, r.Wind.Oblique = 1, 1, 1, 0
	return r
}

// pane is a rectangle w by h whose weight is m at its middle and at back behind
// the front, closed to the wind by a share.
func pane(w, h, solidity, back float64, m unit.Mass) dressing.State {
	at := geom.Point{X: w / 2, Y: h / 2}
	s := dressing.State{Way: "bare", Pressure: at,
		Weights: []dressing.Weight{{What: "pane", Mass: m, Wet: m, At: at, Back: back}},
		Gross:   dressing.Profile{{From: 0, To: h, AtFrom: w, AtTo: w}},
		Solid:   dressing.Profile{{From: 0, To: h, AtFrom: w * solidity, AtTo: w * solidity}}}
	s.Dry, s.Wet = dressing.Balanced(s.Weights, false), dressing.Balanced(s.Weights, true)
	return s
}

// on stands a state on a base, with a floor of a friction.
func on(t testing.TB, r Rules, state dressing.State, friction float64, loads Loads, pieces ...base.Piece) Setup {
	t.Helper()
	stance, problems := base.Base{Pieces: pieces}.Stand([]base.Line{{From: 0, To: state.Gross[0].AtFrom, Front: 0, Depth: 1}})
	for _, p := range problems {
		if p.Code != base.Overhangs {
			t.Fatal(problems)
		}
	}
	return Setup{Rules: r, Stance: stance, Floor: base.Floor{Friction: friction}, Bare: state, States: []dressing.State{state}, Loads: loads}
}

// slab is a plate without thickness or weight.
func slab(x, y, w, d float64) base.Piece {
	return base.PlateOf(base.Rectangle(x, y, w, d), base.Board{})
}

func kilos(pounds float64) unit.Mass { return unit.Mass(pounds) * unit.Pound }

func pounds(f unit.Force) float64 { return Mass(f).Pounds() }
