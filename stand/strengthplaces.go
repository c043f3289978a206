package stand

import (
	"cmp"
	"context"
	"math"
	"slices"

	"bowerwright/statics"
)

// A PlaceChoice is a choice of places to carry a piece flat, by what it does to
// the piece.
type PlaceChoice struct {
	Grip    Grip
	Governs Demand
}

// Places is the best and the worst choice for the piece among those that its
// carriers can bear; the best for the carriers may be neither.
type Places struct {
	Best, Worst PlaceChoice
	Found       bool
	Tried       int
}

// CarryPlaces looks through choices of places for so many people who carry the
// piece flat, and reckons what each does to seams, corners and boards. Work is
// how many choices are reckoned: those whose people carry most alike first, as
// they are most like each other under the weight.
func CarryPlaces(ctx context.Context, in StrengthInput, rules StrengthRules, s Section, people, work int) (Places, error) {
	var out Places
	if in.Lift == nil {
		return out, nil
	}
	grips := in.Lift.Rules.gripsOf(s, people, work)
	m := newStrengthModel(in, rules, false)
	finish := m.lies()
	cases := make([]wanted, len(grips))
	for i, g := range grips {
		cases[i] = wanted{StrengthCase: StrengthCase{Name: "carried flat", Lift: true, Time: rules.Time}, gravity: statics.Vec{0, rules.Handling, 0}, hands: m.holders(g.Holders)}
	}
	m.frames()
	finish()
	at := map[hand]int{}
	for _, w := range cases {
		for _, h := range w.hands {
			if _, ok := at[h]; !ok {
				at[h] = m.load(wanted{hands: []hand{h}}).On[0]
			}
		}
	}
	p, err := statics.Prepare(ctx, &m.Model, statics.Limits{Steps: steps})
	if err != nil {
		return out, err
	}
	for i, w := range cases {
		c := statics.Case{Gravity: w.gravity}
		for _, h := range w.hands {
			c.On = append(c.On, at[h])
		}
		r, err := p.Solve(ctx, c)
		if err != nil {
			return out, err
		}
		if r.Outcome == statics.Settled {
			out.take(PlaceChoice{grips[i], m.worstOf(w, r)})
		}
	}
	return out, nil
}

// worstOf is what governs one case.
func (m *strengthModel) worstOf(w wanted, r *statics.Result) Demand {
	worst := Demand{Ratio: -1}
	keep := func(d Demand) {
		if d.Ratio > worst.Ratio*(1+sameRatio) || worst.Ratio < 0 {
			worst = d
		}
	}
	j := judge{m, w.Time}
	j.springs(r, keep)
	j.corners(r, keep)
	j.boards(r, keep)
	return worst
}

func (p *Places) take(c PlaceChoice) {
	p.Tried++
	if !p.Found || c.Governs.Ratio < p.Best.Governs.Ratio*(1-sameLoad) {
		p.Best = c
	}
	if !p.Found || c.Governs.Ratio > p.Worst.Governs.Ratio*(1+sameLoad) {
		p.Worst = c
	}
	p.Found = true
}

// gripsOf lists choices that hold the middle of the weight and that no one of
// the people is over with, the most even first, as many as the work allows.
func (l LiftRules) gripsOf(s Section, people, work int) []Grip {
	holders := thin(l.Holders(s.Layout), people, s.Middle, work*work)
	var out []Grip
	choose(len(holders), people, func(pick []int) {
		if g, ok := l.grip(holders, pick, s.Middle, s.Mass); ok && g.Ratio <= 1 {
			out = append(out, g)
		}
	})
	slices.SortStableFunc(out, func(a, b Grip) int { return cmp.Compare(math.Round(a.Ratio/sameLoad), math.Round(b.Ratio/sameLoad)) })
	return out[:min(len(out), work)]
}
