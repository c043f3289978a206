package making

import (
	"cmp"
	"math"
	"slices"
)

// A Go is what is coated and closed without a break. Its times are minutes from
// the first go's start, breaks and nights not counted.
type Go struct {
	Number   int
	Kind     int // index in the plan's kinds
	Stage    int // from 1
	Of       int // stages of the kind
	From, To int // frames of the kind, from 1
	Units    int
	Joints   int

	Start float64 // sizing begins, on a whole minute
	Coat  float64 // the second coat begins, and the open time with it; on a whole minute
	Close float64 // the last joint is closed
	By    float64 // the last joint must be closed: Coat and the open time
	Free  float64 // it may be moved, and what it holds is free again
	Full  float64 // full strength

	Straps []int // of the shop, by index, that are round its frames until Free
}

// goes sets the glue-up of all kinds against the clock: first the first stages
// of every kind, then the next, so that one frame's glue sets while another is
// spread.
func goes(kinds []KindPlan, s Shop) []Go {
	c := clock{shop: s, kinds: kinds, free: map[[3]int]float64{}, strap: make([]float64, len(s.Straps))}
	for stage := 0; c.any(stage); stage++ {
		for i := range kinds {
			c.stage(i, stage)
		}
	}
	return c.out
}

type clock struct {
	shop  Shop
	kinds []KindPlan
	out   []Go
	hands float64            // when they are free again
	free  map[[3]int]float64 // kind, frame and stage to when its last go holds
	strap []float64          // when each strap is free again
}

func (c *clock) any(stage int) bool {
	return slices.ContainsFunc(c.kinds, func(k KindPlan) bool { return stage < len(k.GlueUp.Stages) })
}

// stage packs the units of one stage of all frames of a kind into goes, as many
// joints in each as the open time allows and as many frames as there are
// straps.
func (c *clock) stage(kind, stage int) {
	g := c.kinds[kind].GlueUp
	if stage >= len(g.Stages) || !g.Possible {
		return
	}
	each := g.Stages[stage]
	most := max(1, g.PerGo/each.Joints)
	if g.Strapped > 0 {
		most = max(1, min(most, len(g.Straps)/g.Strapped))
	}
	for done, all := 0, c.kinds[kind].Count*each.Units; done < all; {
		units := min(most, all-done)
		c.add(Go{Kind: kind, Stage: stage + 1, Of: len(g.Stages), Units: units, Joints: units * each.Joints,
			From: done/each.Units + 1, To: (done+units-1)/each.Units + 1})
		done += units
	}
}

// add sets one go against the clock. It waits for what it builds on, the stage
// before; the halves of one frame, or its pairs, do not wait for each other.
func (c *clock) add(o Go) {
	g, r := c.kinds[o.Kind].GlueUp, c.shop.Rates.Glue
	people := float64(c.shop.People)
	o.Number, o.Start = len(c.out)+1, c.hands
	for f := o.From; f <= o.To; f++ {
		o.Start = max(o.Start, c.free[[3]int{o.Kind, f, o.Stage - 1}])
	}
	o.Straps = c.takeStraps(g, o.To-o.From+1)
	for _, s := range o.Straps {
		o.Start = max(o.Start, c.strap[s])
	}
	o.Start = wholeMinute(o.Start)
	o.Coat = wholeMinute(o.Start + float64(o.Joints)*g.Sizing/people + r.SizeWait)
	o.Close, o.By = o.Coat+float64(o.Joints)*g.PerUnit/people, o.Coat+r.OpenTime()
	o.Free, o.Full = o.Close+r.Hold, o.Close+r.Full
	c.hands = o.Close
	for f := o.From; f <= o.To; f++ {
		at := [3]int{o.Kind, f, o.Stage}
		c.free[at] = max(o.Free, c.free[at])
	}
	for _, s := range o.Straps {
		c.strap[s] = o.Free
	}
	c.out = append(c.out, o)
}

// wholeMinute takes a time up to the next full minute, which is what a clock on
// the wall shows: starting or coating a little later does no harm. A sum that is
// a whole minute but for the last digit of a float stays.
func wholeMinute(t float64) float64 { return max(0, math.Ceil(t-wholeJoint)) }

// takeStraps are those that are free first.
func (c *clock) takeStraps(g GlueUp, frames int) []int {
	order := slices.Clone(g.Straps)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(c.strap[a], c.strap[b]) })
	return order[:min(len(order), g.Strapped*frames)]
}
