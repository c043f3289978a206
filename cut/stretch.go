package cut

import (
	"fmt"
	"math"
	"slices"

	"bowerwright/unit"
)

// A stretch is a clear length of timber that parts are cut from: a board, or
// what lies between the spans of one.
type stretch struct {
	stock, number      int
	from, length       unit.Length
	trimFirst, trimFar unit.Length
	begun              bool       // the first end is the cut that ended a part
	lean               unit.Angle // of that cut
	price              int64
	onHand             bool
	limit              int // 0: none
}

// stocks gives the stocks, one for a plain order.
func (o *Order) stocks() []Stock {
	if len(o.Stocks) == 0 {
		return []Stock{{Length: o.Board, TrimFirst: o.TrimFirst, TrimFar: o.TrimFar}}
	}
	return o.Stocks
}

// stretches gives the stretches of all stocks in order.
func (o *Order) stretches() []stretch {
	var out []stretch
	for i, s := range o.stocks() {
		out = append(out, s.clear(i)...)
	}
	return out
}

// clear gives the stretches of a stock. At a span the saw has made a new end,
// square and clean, which takes no trim.
func (s Stock) clear(stock int) []stretch {
	t := stretch{stock: stock, length: s.Length, trimFirst: s.TrimFirst, trimFar: s.TrimFar, price: s.Price, onHand: s.OnHand, limit: s.Limit,
		begun: s.Begun, lean: s.Lean}
	var out []stretch
	add := func(from, to unit.Length) {
		u := t
		u.number, u.from, u.length = len(out), from, to-from
		if from > 0 {
			u.trimFirst, u.begun, u.lean = 0, false, 0
		}
		if to < s.Length {
			u.trimFar = 0
		}
		if u.length > 0 {
			out = append(out, u)
		}
	}
	spans := slices.Clone(s.Spans)
	slices.SortFunc(spans, func(a, b Span) int { return int(a.From - b.From) })
	from := unit.Length(0)
	for _, p := range spans {
		add(from, p.From-s.Margin)
		from = max(from, p.To+s.Margin)
	}
	if from < s.Length {
		add(from, s.Length)
	}
	return out
}

// one says whether boards of one stretch are bought without limit: the fewest
// boards are then all there is to find.
func one(ts []stretch) bool { return len(ts) == 1 && ts[0].limit == 0 }

// mostCost is the greatest cost of all parts a board each, in minor units: a
// cost and a count then share 63 bits.
const mostCost = 1 << 40

// validStocks says what is wrong with the boards of an order.
func (o *Order) validStocks() error {
	if len(o.Stocks) > 0 && (o.Board != 0 || o.TrimFirst != 0 || o.TrimFar != 0) {
		return fmt.Errorf("cut: boards told twice")
	}
	parts := int64(0)
	for _, p := range o.Parts {
		parts += int64(max(p.Count, 0))
	}
	for i, s := range o.stocks() {
		if s.Length < 1 || s.Length > longest {
			return fmt.Errorf("cut: board %d of %g mm", i, s.Length.MM())
		}
		for _, l := range []unit.Length{s.TrimFirst, s.TrimFar, s.Margin} {
			if l < 0 || l > longest {
				return fmt.Errorf("cut: board %d: trim or margin of %g mm", i, l.MM())
			}
		}
		if s.Price < 0 || s.Limit < 0 || parts > 0 && s.Price > mostCost/parts {
			return fmt.Errorf("cut: board %d: price %d, limit %d", i, s.Price, s.Limit)
		}
		if !s.Begun && s.Lean != 0 || s.Begun && (s.TrimFirst != 0 || !(math.Abs(float64(s.Lean)) < math.Pi/2)) {
			return fmt.Errorf("cut: board %d begun with trim %g mm, lean %g degrees", i, s.TrimFirst.MM(), s.Lean.Degrees())
		}
		if s.OnHand && s.Limit == 0 {
			return fmt.Errorf("cut: board %d on hand, but not how many", i)
		}
		if len(s.Spans) > 0 && (!s.OnHand || s.Limit != 1 || s.Price != 0) {
			return fmt.Errorf("cut: board %d with spans is not a single free one on hand", i)
		}
		for _, p := range s.Spans {
			if p.From < 0 || p.To < p.From || p.To > s.Length {
				return fmt.Errorf("cut: board %d: span from %g to %g mm", i, p.From.MM(), p.To.MM())
			}
		}
	}
	return nil
}
