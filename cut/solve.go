package cut

import (
	"cmp"
	"context"
	"math"
	"slices"

	"bowerwright/cut/internal/pack"
	"bowerwright/unit"
)

// Solve makes a plan. The error is an *Impossible when parts can never be cut, a
// *Short when there are not boards enough, and says what is wrong with the
// order when it is none. A cancelled context gives the best plan so far, marked
// CutShort; a spent budget gives the best plan and bounds.
func Solve(ctx context.Context, o Order, s Settings) (Plan, error) {
	if err := o.valid(); err != nil {
		return Plan{}, err
	}
	ts := o.stretches()
	if e := o.impossible(ts); e != nil {
		return Plan{}, e
	}
	work := s.Work
	if work <= 0 {
		work = DefaultWork
	}
	ks := o.kinds()
	if len(ks) == 0 {
		none := Level{Proof: Proof{Kind: NoProof}}
		return Plan{Cost: none, Bought: none, Offcut: none}, nil
	}
	y := o.yard(ks, ts)
	if one(ts) {
		return y.fewest(ctx, work), nil
	}
	return y.cheapest(ctx, work)
}

// impossible lists the parts that cannot be cut even alone on a board. A part
// that fits beside others fits alone, since whatever the others leave to hold
// is then left of the board.
func (o *Order) impossible(ts []stretch) error {
	e := &Impossible{}
	for i, p := range o.Parts {
		if t := o.troubleOn(p, ts); t.Why != 0 {
			t.Part, t.Name = i, p.Name
			e.Parts = append(e.Parts, t)
		}
	}
	if len(e.Parts) == 0 {
		return nil
	}
	return e
}

// troubleOn says why a part cannot be cut from any stretch, by the one that
// comes nearest.
func (o *Order) troubleOn(p Part, ts []stretch) (best Trouble) {
	for i, t := range ts {
		trouble := o.trouble(p, t)
		if trouble.Why == 0 {
			return trouble
		}
		if i == 0 || trouble.Needs-trouble.Has > best.Needs-best.Has && trouble.Why == best.Why || trouble.Why > best.Why {
			best = trouble
		}
	}
	if len(ts) == 0 && p.Count > 0 {
		best = Trouble{Why: TooLong, Has: p.Outside}
	}
	return best
}

// trouble says why a part cannot be cut from a stretch, if it cannot.
func (o *Order) trouble(p Part, t stretch) Trouble {
	if p.Count == 0 {
		return Trouble{}
	}
	s := o.stick(p)
	if s.short <= whole {
		return Trouble{Why: NoFace, Has: unit.Length(down(s.short))}
	}
	rest := math.Inf(-1)
	takes := math.Inf(1)
	for _, w := range o.ways() {
		l := w.lying(s.ends)
		left, right := o.end(l[0]), o.end(l[1])
		at := o.before(t, left) + math.Abs(right.slope)/2 + s.centre
		takes = min(takes, at+float64(t.trimFar))
		rest = max(rest, float64(t.length)-at-right.kerf)
	}
	switch {
	case up(takes) > int64(t.length)+slip:
		return Trouble{Why: TooLong, Has: unit.Length(up(takes)), Needs: t.length}
	case !o.holds(s, t) && down(rest) < int64(o.Hold)-slip:
		return Trouble{Why: NothingToHold, Has: unit.Length(down(max(rest, s.short))), Needs: o.Hold}
	}
	return Trouble{}
}

// areaBound gives the boards that the parts fill by length alone.
func (o *Order) areaBound(ks []kind, ts []stretch) int {
	room := int64(0)
	for _, t := range ts {
		room = max(room, int64(t.length-t.trimFirst-t.trimFar))
	}
	total := int64(0)
	for _, k := range ks {
		total += down(k.centre) * int64(k.count)
	}
	return int((total + room - 1) / room)
}

// layOut places every board: those on hand first, stock by stock, the fullest
// first, boards alike together.
func (o *Order) layOut(ks []kind, ts []stretch, plan []pack.Cut) []Board {
	left := make([]int, len(o.Parts))
	for i, p := range o.Parts {
		left[i] = p.Count
	}
	var out []Board
	for _, c := range plan {
		for range c.Boards {
			out = append(out, o.place(deal(ks, c.Pattern, left), ts[c.Supply]))
		}
	}
	var toBuy []int // by stock: 0 on hand, 1 to be bought
	for _, s := range o.stocks() {
		toBuy = append(toBuy, 1)
		if s.OnHand {
			toBuy[len(toBuy)-1] = 0
		}
	}
	slices.SortStableFunc(out, func(a, b Board) int {
		return cmp.Or(cmp.Compare(toBuy[a.Stock], toBuy[b.Stock]), cmp.Compare(a.Stock, b.Stock), cmp.Compare(a.Stretch, b.Stretch),
			cmp.Compare(a.Offcut, b.Offcut), slices.Compare(names(a), names(b)))
	})
	count := map[string]int{}
	for _, b := range out {
		count[string(signature(b))]++
	}
	for i, b := range out {
		out[i].Alike = count[string(signature(b))]
	}
	return out
}

// deal takes the parts of a pattern from those left, in bench order.
func deal(ks []kind, p pack.Pattern, left []int) []int {
	var parts []int
	for _, it := range p {
		n := it.N
		for _, part := range ks[it.Kind].parts {
			for ; n > 0 && left[part] > 0; n-- {
				left[part]--
				parts = append(parts, part)
			}
		}
	}
	return parts
}

// names gives the parts of a board in order.
func names(b Board) []int {
	out := make([]int, len(b.Parts))
	for i, p := range b.Parts {
		out[i] = p.Part
	}
	return out
}

// signature gives the stock and the parts of a board as bytes.
func signature(b Board) []byte {
	out := []byte{byte(b.Stock), byte(b.Stock >> 8)}
	for _, n := range names(b) {
		out = append(out, byte(n), byte(n>>8), byte(n>>16))
	}
	return out
}
