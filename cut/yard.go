package cut

import (
	"context"
	"reflect"
	"slices"

	"bowerwright/cut/internal/pack"
)

// A yard is an order as the solver takes it: a supply a stretch.
type yard struct {
	o         *Order
	kinds     []kind
	stretches []stretch
	desk      *desk
	supplies  []pack.Supply
}

// countBits is how many bits of a supply's weight count boards: more than
// MostParts takes. Those above are the price.
const countBits = 20

func (o *Order) yard(ks []kind, ts []stretch) *yard {
	y := &yard{o: o, kinds: ks, stretches: ts, desk: o.desk(ks, ts)}
	all := 0
	for _, k := range ks {
		all += k.count
	}
	for _, t := range ts {
		u := y.supply(t, y.desk.tail(t))
		u.Weight, u.Limit = t.price<<countBits, t.limit
		if !t.onHand {
			u.Weight++
		}
		if t.limit == 0 || t.limit > all {
			u.Limit = all
		}
		y.supplies = append(y.supplies, u)
	}
	return y
}

// supply gives a stretch's instances.
func (y *yard) supply(t stretch, tail func(e end, held bool) float64) pack.Supply {
	u := pack.Supply{Plan: y.desk.instance(t, up, tail), Bound: y.desk.instance(t, down, tail)}
	if reflect.DeepEqual(u.Plan, u.Bound) {
		u.Bound = u.Plan
	}
	return u
}

// fewest plans boards of one length without limit: the fewest boards cost
// least.
func (y *yard) fewest(ctx context.Context, work int64) Plan {
	u := y.supplies[0]
	r := pack.Solve(ctx, u.Plan, work)
	proof := r.Proof
	if u.Plan != u.Bound {
		proof = pack.Confirm(ctx, u.Bound, r.Proof, work)
	}
	rulings := []pack.Ruling{{Value: proof.Value, Most: []int64{proof.Most}}}
	if proof.Cover {
		rulings = append(rulings, pack.Ruling{Value: proof.Value, Most: []int64{proof.Most}, Counts: []int{proof.Bound - 1}})
	}
	y.supplies[0].Limit = r.Boards
	shared := pack.Sharing{Weight: u.Weight * int64(r.Boards), Bound: u.Weight * int64(proof.Bound), Rulings: rulings,
		CutShort: r.CutShort, Work: r.Work}
	for _, use := range r.Plan {
		shared.Plan = append(shared.Plan, pack.Cut{Supply: 0, Pattern: use.Pattern, Boards: use.Boards})
	}
	return y.plan(ctx, shared, work)
}

// cheapest plans boards of several lengths.
func (y *yard) cheapest(ctx context.Context, work int64) (Plan, error) {
	r := pack.Share(ctx, y.supplies, work)
	if r.None {
		return Plan{}, &Short{Proved: r.Short}
	}
	return y.plan(ctx, r, work), nil
}

// A Short says that parts are left when all boards to be had are cut. Proved
// says that no plan does better; otherwise the search found none.
type Short struct{ Proved bool }

func (e *Short) Error() string {
	if e.Proved {
		return "cut: the boards there are cannot hold all parts"
	}
	return "cut: no plan was found that holds all parts on the boards there are"
}

// plan lays a sharing out, the waste gathered, and says how good it is.
func (y *yard) plan(ctx context.Context, r pack.Sharing, work int64) Plan {
	p := Plan{AreaBound: y.o.areaBound(y.kinds, y.stretches)}
	r.Plan = y.shortest(pack.Gather(y.supplies, r.Plan))
	p.Boards = y.o.layOut(y.kinds, y.stretches, r.Plan)
	p.Cost.Value, p.Bought.Value = y.o.spent(p.Boards)
	if one(y.stretches) {
		p.Cost.Bound, p.Bought.Bound = y.stretches[0].price*(r.Bound&(1<<countBits-1)), r.Bound&(1<<countBits-1)
	} else {
		p.Cost.Bound = r.Bound >> countBits
		if p.Cost.Proved() {
			p.Bought.Bound = r.Bound & (1<<countBits - 1)
		}
	}
	p.Cost.Proof, p.Bought.Proof = y.proof(p.Cost.Bound, r.Rulings), y.proof(p.Bought.Bound, r.Rulings)
	l := y.offcut(ctx, &p, r, work)
	p.Work = r.Work + l.Work
	p.CutShort = ctx.Err() != nil
	return p
}

// shortest moves what is on a board on hand to a shorter one of the same price
// that is left over and holds it.
func (y *yard) shortest(plan []pack.Cut) []pack.Cut {
	left := make([]int, len(y.supplies))
	for k, u := range y.supplies {
		left[k] = u.Limit
	}
	var out []pack.Cut
	for _, c := range plan {
		left[c.Supply] -= c.Boards
		for range c.Boards {
			out = append(out, pack.Cut{Supply: c.Supply, Pattern: c.Pattern, Boards: 1})
		}
	}
	for moved := true; moved; {
		moved = false
		for i, c := range out {
			if k := y.shorter(c, left); k != c.Supply {
				left[c.Supply]++
				left[k]--
				out[i].Supply, moved = k, true
			}
		}
	}
	return out
}

// shorter gives the shortest supply on hand that would do instead, of those of
// which some are left, or a cut's own.
func (y *yard) shorter(c pack.Cut, left []int) int {
	best := c.Supply
	for k, t := range y.stretches {
		own := y.stretches[best]
		if t.onHand && own.onHand && t.price == own.price && left[k] > 0 && t.length < own.length && y.supplies[k].Plan.Fits(c.Pattern) {
			best = k
		}
	}
	return best
}

// spent gives what boards cost and how many were bought. Of a board with spans
// each stretch is told by itself, but it is on hand and free.
func (o *Order) spent(boards []Board) (cost, bought int64) {
	stocks := o.stocks()
	for _, b := range boards {
		s := stocks[b.Stock]
		cost += s.Price
		if !s.OnHand {
			bought++
		}
	}
	return cost, bought
}

// rounding is how many nanometres the rounding of lengths may make of an
// offcut in another program: one a part and a few more.
const rounding = 100

// offcut looks for the longest offcut, and tells the level.
func (y *yard) offcut(ctx context.Context, p *Plan, r pack.Sharing, work int64) pack.Longest {
	tail := pack.Tail{With: y.withOffcut}
	for _, t := range y.stretches {
		tail.Bought = append(tail.Bought, !t.onHand)
		tail.Free = append(tail.Free, y.desk.instance(t, down, func(e end, _ bool) float64 { return e.kerf + float64(t.trimFar) }))
	}
	value := y.o.longestOffcut(p.Boards)
	had := value
	if len(y.o.Stocks) == 0 {
		had = int64(longest) // the plan stands; only the bound is wanted
	}
	l := r.Longest(ctx, y.supplies, tail, had, OffcutSlip, max(work/4, 1))
	if l.Plan != nil {
		boards := y.o.layOut(y.kinds, y.stretches, y.shortest(pack.Gather(y.supplies, l.Plan)))
		if v := y.o.longestOffcut(boards); v > value {
			p.Boards, value = boards, v
		}
	}
	p.Offcut = Level{Value: value, Bound: l.Bound, Proof: Proof{Kind: NoProof}}
	if l.Sure {
		p.Offcut.Proof = y.proof(1, l.Rulings)
	}
	if p.Offcut.Bound < int64(y.o.Keep) {
		p.Offcut.Bound = 0
	}
	if d := p.Offcut.Bound - value; d < OffcutSlip-rounding {
		p.Offcut.Bound = value
	}
	return l
}

// longestOffcut gives the longest offcut worth keeping of a board bought.
func (o *Order) longestOffcut(boards []Board) int64 {
	most, stocks := int64(0), o.stocks()
	for _, b := range boards {
		if !stocks[b.Stock].OnHand && b.Offcut >= o.Keep {
			most = max(most, int64(b.Offcut))
		}
	}
	return most
}

// withOffcut gives a supply as it is when a board leaves an offcut.
func (y *yard) withOffcut(k int, offcut int64) pack.Supply {
	t := y.stretches[k]
	u := y.supply(t, y.desk.tailWith(t, float64(offcut)))
	u.Weight = y.supplies[k].Weight
	return u
}

// proof gives rulings about kinds as a proof about parts; a bound of nothing
// needs none.
func (y *yard) proof(bound int64, rulings []pack.Ruling) Proof {
	if bound <= 0 {
		return Proof{Kind: NoProof}
	}
	p := Proof{Kind: Multipliers}
	if len(rulings) > 1 {
		p.Kind = ByCounts
	}
	for _, r := range rulings {
		out := Ruling{V: make([]int64, len(y.o.Parts)), Z: slices.Clone(r.Most), Counts: slices.Clone(r.Counts)}
		for i, k := range y.kinds {
			for _, part := range k.parts {
				out.V[part] = r.Value[i]
			}
		}
		if r.Counts != nil {
			p.Kind = Cover
		}
		p.Rulings = append(p.Rulings, out)
	}
	return p
}
