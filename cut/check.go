package cut

import (
	"bowerwright/cut/internal/check"
	"bowerwright/unit"
)

// A Fault is a rule that a plan breaks: where, and in words.
type Fault = check.Fault

// Check looks a plan over with a program that shares nothing with the one that
// made it. Faults are ours, never the user's. Rechecked says whether it could
// follow the proof of the bound to its end; a proof by a long search may be
// beyond its budget, and the plan is then proved by search, not re-checked.
func Check(o Order, p Plan) (faults []Fault, rechecked bool) {
	if o.valid() != nil {
		return []Fault{{Board: -1, Piece: -1, Says: o.valid().Error()}}, false
	}
	s := check.Stock{
		Board: float64(o.Board), TrimFirst: float64(o.TrimFirst), TrimFar: float64(o.TrimFar),
		Depth: float64(o.Depth), Kerf: float64(o.Kerf), Hold: float64(o.Hold), Turning: o.Turning,
	}
	parts := make([]check.Part, len(o.Parts))
	for i, q := range o.Parts {
		parts[i] = check.Part{Outside: float64(q.Outside), Left: float64(q.Left), Right: float64(q.Right), Count: q.Count}
	}
	claim := p.claim()
	faults = check.Boards(s, parts, claim)
	more, rechecked := check.Bound(s, parts, claim, check.Effort)
	return append(faults, more...), rechecked
}

// claim gives a plan as the checker's plain numbers.
func (p Plan) claim() check.Claim {
	c := check.Claim{
		Bound: p.Bound, AreaBound: p.AreaBound, Proved: p.Proved,
		V: p.Proof.V, Z: p.Proof.Z, ProofBound: p.Proof.Bound, Cover: p.Proof.Kind == Cover,
	}
	const mm = float64(unit.Millimetre)
	for _, b := range p.Boards {
		cb := check.Board{Offcut: float64(b.Offcut), Alike: b.Alike}
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
