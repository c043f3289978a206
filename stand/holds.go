package stand

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// A Holder is a place for one person: two hands on one free side of a frame.
type Holder struct {
	Frame, Side int // index of the frame; side from 1
	Hands       [2]geom.Point
}

// Holders lists the places where a person can take hold: on every side that no
// seam uses, as many side by side as their hands have room, from the first frame
// to the last.
func (l LiftRules) Holders(lay layout.Layout) []Holder {
	taken := map[[2]int]bool{}
	for _, s := range lay.Seams {
		for _, side := range s.Sides {
			taken[[2]int{side.Frame, side.Side}] = true
		}
	}
	var out []Holder
	for i, f := range lay.Frames {
		for k := 1; k <= f.Sides(); k++ {
			if !taken[[2]int{i, k}] {
				from, to, _ := f.Side(k)
				out = append(out, l.along(i, k, geom.Segment{A: from, B: to})...)
			}
		}
	}
	return out
}

// along spreads people along one side.
func (l LiftRules) along(frame, side int, s geom.Segment) []Holder {
	n := max(1, int(s.Len()/l.HandSpan))
	half := math.Min(s.Len(), l.HandSpan) / 2
	out := make([]Holder, n)
	for i := range out {
		at := s.A.Lerp(s.B, (float64(i)+1.0/2)/float64(n))
		reach := s.Vec().Unit().Mul(half)
		out[i] = Holder{frame, side, [2]geom.Point{at.Sub(reach), at.Add(reach)}}
	}
	return out
}

// A Grip is a choice of people at their places.
type Grip struct {
	Holders []Holder
	Hands   []unit.Force // two for each holder
	People  []unit.Mass  // what each of them carries
	Ratio   float64      // of the one who carries most to what each may carry in such a team
}

// Grips is the best and the worst choice of places to carry a piece flat.
type Grips struct {
	Best, Worst Grip
	Found       bool // false when no choice of such a team holds the middle of the weight
	Tried       int
}

// CarryFlat looks through every choice of places for so many people who carry the
// piece flat, its weight about a middle. The best is the one whose hardest
// pressed person carries least; of equals, the one whose hands are farthest
// apart, then the first. The worst still holds the middle of the weight. Work
// is how many choices may be looked at; with more, places are thinned out evenly
// round the middle.
func (l LiftRules) CarryFlat(holders []Holder, people int, middle geom.Point, mass unit.Mass, work int) Grips {
	holders = thin(holders, people, middle, work)
	var g Grips
	choose(len(holders), people, func(pick []int) {
		g.Tried++
		if grip, ok := l.grip(holders, pick, middle, mass); ok {
			g.take(grip)
		}
	})
	return g
}

func (g *Grips) take(grip Grip) {
	if !g.Found {
		g.Best, g.Worst, g.Found = grip, grip, true
		return
	}
	if grip.before(g.Best) {
		g.Best = grip
	}
	if g.Worst.before(grip) {
		g.Worst = grip
	}
}

// sameLoad is how near two loads are called the same: what a bathroom scale does
// not show, so that mirror images are told apart by their places alone.
const sameLoad = 1e-6

func (g Grip) before(h Grip) bool {
	if d := g.Ratio - h.Ratio; math.Abs(d) > sameLoad*h.Ratio {
		return d < 0
	}
	return g.spread() > h.spread()*(1+sameLoad)
}

// spread is the sum of the distances between the hands of all.
func (g Grip) spread() float64 {
	sum := 0.0
	for i, a := range g.Holders {
		for _, b := range g.Holders[:i] {
			sum += a.middle().Dist(b.middle())
		}
	}
	return sum
}

func (h Holder) middle() geom.Point { return h.Hands[0].Lerp(h.Hands[1], 1.0/2) }

func (l LiftRules) grip(holders []Holder, pick []int, middle geom.Point, mass unit.Mass) (Grip, bool) {
	hands := make([]geom.Point, 0, 2*len(pick))
	for _, i := range pick {
		hands = append(hands, holders[i].Hands[:]...)
	}
	loads, err := Hands(hands, middle, Weigh(mass), l.Even)
	if err != nil {
		return Grip{}, false
	}
	g := Grip{Hands: loads}
	most := unit.Mass(0)
	for i, p := range pick {
		m := Mass(loads[2*i] + loads[2*i+1])
		g.Holders, g.People = append(g.Holders, holders[p]), append(g.People, m)
		most = max(most, m)
	}
	g.Ratio = float64(most / (l.Alone(l.Carry) * unit.Mass(l.TeamShare(len(pick)))))
	return g, true
}

// thin keeps so many holders, evenly by their bearing from the middle, that the
// choices among them do not exceed the budget.
func thin(holders []Holder, people int, middle geom.Point, work int) []Holder {
	n := len(holders)
	for n > people && choices(n, people) > float64(work) {
		n--
	}
	if n == len(holders) {
		return holders
	}
	sorted := slices.Clone(holders)
	bearing := func(h Holder) float64 { d := h.middle().Sub(middle); return math.Atan2(d.Y, d.X) }
	slices.SortStableFunc(sorted, func(a, b Holder) int { return cmp.Compare(bearing(a), bearing(b)) })
	out := make([]Holder, n)
	for i := range out {
		out[i] = sorted[i*len(sorted)/n]
	}
	return out
}

// choices of k out of n.
func choices(n, k int) float64 {
	c := 1.0
	for i := range k {
		c *= float64(n-i) / float64(i+1)
	}
	return c
}

// choose calls do with every choice of k out of n, in order.
func choose(n, k int, do func([]int)) {
	pick := make([]int, 0, max(k, 0))
	var from func(int)
	from = func(i int) {
		if len(pick) == k {
			do(pick)
			return
		}
		for ; i <= n-(k-len(pick)); i++ {
			pick = append(pick, i)
			from(i + 1)
			pick = pick[:len(pick)-1]
		}
	}
	if k > 0 {
		from(0)
	}
}
