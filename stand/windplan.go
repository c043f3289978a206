package stand

import (
	"math"

	"bowerwright/dressing"
)

// A WindPlan says what is done at which gust, for one way of dressing.
type WindPlan struct {
	Limit      Limit
	Watch, Act Speed  // somebody watches; it comes down
	Down       []Down // the order in which dressing comes down; the first one helps most
}

// A Down is one layer taken down: by it the limit rises to Then.
type Down struct {
	Layer string
	Then  Speed
	Calc  Speed // by calculation, without the stop
}

// WindPlan works one out. Layers come down one by one, each time the one that
// raises the limit most; of equals the first.
func (s Setup) WindPlan(p dressing.Piece, way dressing.Way) WindPlan {
	state, _ := p.Dress(way)
	plan := WindPlan{Limit: s.GustLimit(state)}
	plan.Watch, plan.Act = Speed(s.Rules.Wind.Watch)*plan.Limit.Gust, Speed(s.Rules.Wind.Act)*plan.Limit.Gust
	for len(way.Layers) > 0 {
		first := s.helpsMost(p, way)
		name := way.Layers[first].Name
		way = way.Without(first)
		state, _ := p.Dress(way)
		plan.Down = append(plan.Down, Down{name, s.GustLimit(state).Gust, s.calculated(state)})
	}
	return plan
}

// helpsMost is the layer whose going raises the limit most.
func (s Setup) helpsMost(p dressing.Piece, way dressing.Way) int {
	best, at := Speed(-1), 0
	for i := range way.Layers {
		state, _ := p.Dress(way.Without(i))
		if g := s.calculated(state); g > best*(1+sameRatio) {
			best, at = g, i
		}
	}
	return at
}

// calculated is the limit without the stop, so that two layers can be told apart
// beyond it.
func (s Setup) calculated(state dressing.State) Speed {
	s.Rules.Wind.Stop = Speed(math.Inf(1))
	return s.GustLimit(state).Gust
}
