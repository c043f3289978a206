package job

import (
	"context"
	"slices"

	"bowerwright/cut"
	"bowerwright/unit"
)

// wayBefore is the name of the plan of the papers before, where it goes on.
const wayBefore = "as before"

// goOn gives the plan of the papers before for what is left of it, where
// nothing went wrong. No board has to be bought for it, so that no plan is
// better, and nobody at the saw is told anew what they know. ok is false where
// it cannot be so.
func (b *bench) goOn(ctx context.Context, s stack) (stack, TimberFacts, bool) {
	if b.packet == "" || b.wrong {
		return s, TimberFacts{}, false
	}
	var boards []ExactBoard
	used := make([]int, len(s.stocks))
	for _, x := range b.before {
		rest, ok := b.left(x)
		if !ok {
			return s, TimberFacts{}, false
		}
		if len(rest) == 0 {
			continue
		}
		at := b.stockOf(x)
		if at < 0 {
			return s, TimberFacts{}, false
		}
		used[at]++
		for _, c := range rest {
			c.Stock = at
			boards = append(boards, c)
		}
	}
	out, kept := s, []onBench{}
	out.stocks = nil
	index := make([]int, len(s.stocks))
	for i, t := range s.stocks {
		if used[i] == 0 {
			continue
		}
		t.Limit = used[i]
		index[i] = len(out.stocks)
		out.stocks = append(out.stocks, t)
		on := b.stocks[i]
		on.Stock = t
		kept = append(kept, on)
	}
	if len(boards) == 0 {
		return s, TimberFacts{}, false
	}
	for i := range boards {
		boards[i].Stock = index[boards[i].Stock]
	}
	none := ExactLevel{Proof: string(cut.NoProof)}
	was := b.facts.Plan
	plan := ExactPlan{BySetting: was.BySetting, Rough: was.Rough, Boards: boards, Cost: none, Bought: none, Offcut: none}
	var ok bool
	if plan.ByLength, ok = byLength(ctx, out); !ok {
		return s, TimberFacts{}, false
	}
	w := &way{name: wayBefore}
	if err := w.read(out, plan); err != nil {
		return s, TimberFacts{}, false
	}
	b.stocks = kept
	return out, b.cutter.facts(out, []*way{w}, nil), true
}

// left gives what of a board of the papers before is still to be cut.
func (b *bench) left(x benchBoard) ([]ExactBoard, bool) {
	if !b.told[x.number] {
		return x.clear, true
	}
	at := slices.IndexFunc(b.bench.Done, func(d DoneFacts) bool { return d.Packet == b.packet && slices.Contains(d.Board.Numbers, x.number) })
	n := b.bench.Done[at].Cut
	if n == len(x.laid()) {
		return nil, true
	}
	if n == 0 || len(x.clear) != 1 || x.clear[0].Stretch != 0 || x.clear[0].From != 0 {
		return nil, false
	}
	rest := x.clear[0]
	// The length of what is left is a whole number of nanometres; so is the shift.
	gone := unit.Length(rest.Parts[n-1].End*float64(unit.Millimetre) + 0.5).MM()
	rest.Parts = slices.Clone(rest.Parts[n:])
	for i := range rest.Parts {
		q := &rest.Parts[i]
		q.Start, q.End = pico(q.Start-gone), pico(q.End-gone)
	}
	rest.Parts[0].Turn = 0
	return []ExactBoard{rest}, true
}

// stockOf finds the stock that a board of the papers before is cut from now.
func (b *bench) stockOf(x benchBoard) int {
	if b.told[x.number] {
		return slices.IndexFunc(b.stocks, func(t onBench) bool { return t.number == x.number })
	}
	t := x.was
	return slices.IndexFunc(b.stocks, func(u onBench) bool {
		return u.of < 0 && u.number == t.number && u.Name == t.Name && u.Length == t.Length && u.Price == t.Price && len(u.Spans) == len(t.Spans)
	})
}

// byLength is how many boards the total length alone would take, all the
// longest: as cut counts it.
func byLength(ctx context.Context, s stack) (int, bool) {
	o := s.order()
	room := unit.Length(0)
	for _, t := range o.Stocks {
		room = max(room, t.Length-t.TrimFirst-t.TrimFar)
	}
	o.Stocks, o.Board, o.Hold = nil, room, 0
	p, err := cut.Solve(ctx, o, cut.Settings{Work: 1})
	return p.AreaBound, err == nil
}
