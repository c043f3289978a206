package cut

import (
	"bowerwright/cut/internal/check"
	"bowerwright/unit"
)

// A Fault is a rule that a plan breaks: where, and in words.
type Fault = check.Fault

// Rechecked says at which levels a program that did not make the plan could
// follow the proof of the bound to its end. Where it could not, a plan is proved
// by search, not re-checked.
type Rechecked = check.Followed

// Check looks a plan over with a program that shares nothing with the one that
// made it. Faults are ours, never the user's. A proof by a long search may be
// beyond the checker's budget.
func Check(o Order, p Plan) (faults []Fault, rechecked Rechecked) {
	if err := o.valid(); err != nil {
		return []Fault{{Board: -1, Piece: -1, Says: err.Error()}}, rechecked
	}
	rules := check.Stock{Depth: float64(o.Depth), Kerf: float64(o.Kerf), Hold: float64(o.Hold), Turning: o.Turning, BySetting: o.BySetting}
	y := check.NewYard(rules, float64(o.Keep), o.timber())
	parts := make([]check.Part, len(o.Parts))
	for i, q := range o.Parts {
		parts[i] = check.Part{Outside: float64(q.Outside), Left: float64(q.Left), Right: float64(q.Right), Count: q.Count}
	}
	claim := p.claim()
	if faults = check.Boards(y, parts, claim); len(faults) > 0 {
		return faults, rechecked
	}
	return check.Levels(y, parts, claim, check.Effort)
}

// timber gives the boards of an order as the checker's plain numbers.
func (o Order) timber() []check.Timber {
	var out []check.Timber
	for _, s := range o.stocks() {
		t := check.Timber{
			Length: float64(s.Length), TrimFirst: float64(s.TrimFirst), TrimFar: float64(s.TrimFar), Margin: float64(s.Margin),
			Price: s.Price, OnHand: s.OnHand, Limit: s.Limit,
			Begun: s.Begun, Lean: float64(s.Lean),
		}
		for _, p := range s.Spans {
			t.Spans = append(t.Spans, [2]float64{float64(p.From), float64(p.To)})
		}
		out = append(out, t)
	}
	return out
}

// claim gives a plan as the checker's plain numbers.
func (p Plan) claim() check.Claim {
	c := check.Claim{AreaBound: p.AreaBound, Cost: p.Cost.claim(), Bought: p.Bought.claim(), Offcut: p.Offcut.claim()}
	const mm = float64(unit.Millimetre)
	for _, b := range p.Boards {
		cb := check.Board{Stock: b.Stock, Stretch: b.Stretch, From: float64(b.From), Offcut: float64(b.Offcut), Alike: b.Alike}
		for _, q := range b.Parts {
			cb.Pieces = append(cb.Pieces, check.Piece{
				Part: q.Part, Rolled: q.Rolled, Swapped: q.Swapped, Shares: q.SharesCut,
				Start: q.Start * mm, End: q.End * mm, Left: q.LeftSlope * mm, Right: q.RightSlope * mm,
				Turn: int(q.Turn), Held: int(q.Held.What), HeldShort: q.Held.Short * mm,
			})
		}
		c.Boards = append(c.Boards, cb)
	}
	return c
}

// claim gives a level as the checker's plain numbers.
func (l Level) claim() check.Level {
	c := check.Level{Value: l.Value, Bound: l.Bound}
	for _, r := range l.Proof.Rulings {
		c.Rulings = append(c.Rulings, check.Ruling{V: r.V, Z: r.Z, Counts: r.Counts})
	}
	return c
}
