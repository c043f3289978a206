package job

import (
	"math"
	"slices"

	"bowerwright/cut"
	"bowerwright/unit"
)

// exactOrder writes an order down whole.
func exactOrder(s stack) ExactOrder {
	e := ExactOrder{Depth: s.depth, Kerf: s.kerf, Hold: s.hold, Keep: s.keep, Turning: s.facts.Turning}
	for _, q := range s.sticks {
		e.Parts = append(e.Parts, ExactPart{Mark: q.mark, Outside: q.outside, First: degrees(q.left), Second: degrees(q.right), Rough: q.rough, Count: q.saw()})
	}
	for _, t := range s.stocks {
		x := ExactStock{Name: t.Name, Length: t.Length, TrimFirst: t.TrimFirst, TrimFar: t.TrimFar, Price: t.Price, Limit: t.Limit, OnHand: t.OnHand, Margin: t.Margin,
			Begun: t.Begun, Lean: degrees(t.Lean)}
		for _, p := range t.Spans {
			x.Spans = append(x.Spans, [2]unit.Length{p.From, p.To})
		}
		e.Stocks = append(e.Stocks, x)
	}
	return e
}

// exactPlan writes a plan down whole, boards alike once.
func exactPlan(s stack, w *way) *ExactPlan {
	p := w.plan
	e := &ExactPlan{BySetting: w.order.BySetting, Unturned: s.facts.Turning && !w.order.Turning, ByLength: p.AreaBound,
		Cost: exactLevel(w.order, p.Cost), Bought: exactLevel(w.order, p.Bought), Offcut: exactLevel(w.order, p.Offcut)}
	if slices.Contains(w.rough, true) {
		for i, r := range w.rough {
			long := unit.Length(0)
			if r {
				long = w.order.Parts[i].Outside
			}
			e.Rough = append(e.Rough, long)
		}
	}
	for i, b := range p.Boards {
		x := exactBoard(b)
		if n := len(e.Boards) - 1; n >= 0 && i > 0 && b.Stock == p.Boards[i-1].Stock && slices.Equal(x.Parts, e.Boards[n].Parts) && x.Stretch == e.Boards[n].Stretch {
			e.Boards[n].Times++
			continue
		}
		e.Boards = append(e.Boards, x)
	}
	return e
}

func exactBoard(b cut.Board) ExactBoard {
	x := ExactBoard{Times: 1, Stock: b.Stock, Stretch: b.Stretch, From: b.From, Offcut: b.Offcut}
	for _, q := range b.Parts {
		x.Parts = append(x.Parts, ExactPlaced{Part: q.Part, Rolled: q.Rolled, Swapped: q.Swapped, Start: pico(q.Start), End: pico(q.End),
			Left: pico(q.LeftSlope), Right: pico(q.RightSlope), Shares: q.SharesCut, Turn: int(q.Turn), Held: int(q.Held.What), HeldShort: pico(q.Held.Short)})
	}
	return x
}

// pico rounds mm to the millionth of a micrometre: the dust of floating point
// goes, and the checker, which allows a nanometre, sees no difference.
func pico(mm float64) float64 { return math.Round(mm*1e9)/1e9 + 0 }

// tidy rounds the places of a plan to what is written down of them, so that
// what is read back is what was worked with.
func tidy(boards []cut.Board) {
	for _, b := range boards {
		for i := range b.Parts {
			q := &b.Parts[i]
			for _, x := range []*float64{&q.Start, &q.End, &q.LeftSlope, &q.RightSlope, &q.Held.Short} {
				*x = pico(*x)
			}
		}
	}
}

func exactLevel(o cut.Order, l cut.Level) ExactLevel {
	e := ExactLevel{Value: l.Value, Bound: l.Bound, Proof: string(l.Proof.Kind)}
	for _, r := range l.Proof.Rulings {
		x := ExactRuling{Worth: r.V, Most: r.Z, Counts: r.Counts}
		for i, v := range r.V {
			x.All += v * int64(o.Parts[i].Count)
		}
		e.Rulings = append(e.Rulings, x)
	}
	return e
}
