package job

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"bowerwright/cut"
	"bowerwright/price"
	"bowerwright/unit"
)

// A stack is all parts that are sawn from one timber laid one way, and what
// they may be sawn from. It is the seam between where parts come from, frames
// (planner.stacks) or a bare list, and how they are cut (cutter.cut): nothing
// behind it knows of frames. Make one with planner.newStack, add its sticks, and
// give it to planner.cutStacks.
type stack struct {
	facts    TimberFacts // what is known of the timber before it is cut
	sticks   []stick
	stocks   []cut.Stock // on hand first
	currency string      // of their prices, "" when there are none
	depth    unit.Length // stock dimension in the plane that ends slant across
	kerf     unit.Length
	hold     unit.Length
	keep     unit.Length
	changes  bool        // the way of fewest changes goes on paper
	margin   unit.Length // left beside what cannot be used
	bench    *BenchFacts // what was sawn before, nil for nothing
}

// A stick is one part wanted from a stack.
type stick struct {
	mark        string // unlike every other mark of the stack
	kind, what  string // of the frame it belongs to, or what else it is
	path        string // where it stands in the file, for snags
	outside     unit.Length
	left, right unit.Angle  // from straight across, positive when the inside is shorter
	rough       unit.Length // beyond the saw: first sawn so long and square; 0 for no
	way         string      // how it is sawn, "standing, swung"
	fitted      bool        // cut to what closes its frame, off the tape's marks
	need        int         // that are used
	spare       int         // spare ones
	reject      int         // more for those expected to be spoilt
	sawn        int         // already, at the bench
	spoilt      int         // of those
}

// saw is how many of a stick are sawn.
//
// Of those sawn already, spoilt ones are taken from the reject; at least what is
// used and spare is sawn.
func (q stick) saw() int {
	return max(q.need+q.spare-(q.sawn-q.spoilt), q.need+q.spare+q.reject-q.sawn, 0)
}

// cutAll plans the boards of every timber.
func (p *planner) cutAll(ctx context.Context) error { return p.cutStacks(ctx, p.stacks()) }

// cutStacks cuts stacks and adds them to the Result, and what is to be put
// right to the snags.
func (p *planner) cutStacks(ctx context.Context, stacks []stack) error {
	if p.done != nil {
		return p.resume(ctx, stacks)
	}
	for _, s := range stacks {
		facts, snags, err := cutter{p.w}.cut(ctx, s)
		if err != nil {
			return err
		}
		p.snags.Add(snags...)
		p.result.Timber = append(p.result.Timber, facts)
		p.result.Overall.BoardCount += facts.Buy
	}
	return nil
}

// stacks sorts the parts by timber, in the job's order, and by how they lie:
// boards on edge and flat boards slant across different depths, so they share
// no cuts.
func (p *planner) stacks() []stack {
	var out []stack
	for _, t := range p.spec.Timber {
		for _, flat := range []bool{false, true} {
			s := p.newStack(p.timber[t.Name], flat)
			for _, q := range p.sawings {
				if q.kind.board.Name == t.Name && q.kind.Flat == flat && q.count > 0 {
					s.add(p.stick(q), t)
				}
			}
			for _, q := range p.pieces {
				if q.timber == t.Name && q.flat == flat && q.count > 0 {
					s.add(stick{mark: q.mark, what: q.what, path: "timber." + t.Name, outside: q.length, way: "square", need: q.count}, t)
				}
			}
			if len(s.sticks) > 0 {
				out = append(out, s)
			}
		}
	}
	return out
}

// stick is a part of a frame as it is wanted from the boards.
func (p *planner) stick(q sawn) stick {
	return stick{mark: q.mark, kind: q.kind.Name, path: "frames." + q.kind.Name, outside: q.part.Outside, left: q.part.Start, right: q.part.End,
		rough: q.sawing.Rough, way: q.sawing.Start.Way.String(), fitted: q.part.Fitted, need: q.count}
}

// add puts a stick on a stack, with the spare ones that its timber asks for.
func (s *stack) add(q stick, t Timber) {
	q.spare += t.SpareParts
	q.reject = int(math.Ceil(float64(q.need)*t.Reject/100 - dust))
	s.sticks = append(s.sticks, q)
}

// dust is what a count may pass a whole number by before it is rounded up: 5 %
// of 20 is 1, whatever float64 makes of it.
const dust = 1e-9

// newStack is an empty stack of a timber laid one way.
func (p *planner) newStack(b board, flat bool) stack {
	s := stack{depth: b.thickness, kerf: p.set.kerf, hold: p.set.hold, keep: p.set.keep, changes: p.spec.Cutting == FewestChanges, margin: p.set.margin}
	if flat {
		s.depth = b.width
	}
	s.stocks, s.currency = p.stocksOf(b)
	s.facts = TimberFacts{
		Name: b.Name, Size: b.size, Thickness: p.w.stock(b.thickness), Width: p.w.stock(b.width),
		Species: b.Species, Moisture: b.moisture, Density: math.Round(float64(b.density)*10) / 10, Laid: laid(flat), Turning: b.turning,
		Clamp: p.set.clamp, Margin: p.w.fine(p.set.margin.MM()), Currency: s.currency,
	}
	return s
}

// The ways to cut that a job may choose between.
const (
	FewestBoards  = "fewest boards"
	FewestChanges = "fewest changes"
)

// lengths gives the lengths in which a timber is bought.
func (t Timber) lengths() []StockLength {
	if len(t.Lengths) == 0 && t.Length > 0 {
		return []StockLength{{Length: t.Length, PriceMinor: t.PriceMinor, Currency: t.Currency}}
	}
	return t.Lengths
}

// stocksOf gives the boards of a timber, on hand first, the shortest first; and
// the currency of their prices.
func (p *planner) stocksOf(b board) (stocks []cut.Stock, currency string) {
	for _, h := range b.OnHand {
		s := cut.Stock{Length: h.Length, TrimFirst: b.trimFirst, TrimFar: b.trimFar, Price: h.PriceMinor, Limit: h.Count, OnHand: true}
		for _, span := range h.Spans {
			s.Spans, s.Margin = append(s.Spans, cut.Span{From: span[0], To: span[1]}), p.set.margin
		}
		stocks = addStock(stocks, s)
		currency = cmp.Or(currency, h.Currency)
	}
	for _, l := range b.lengths() {
		s := cut.Stock{Length: l.Length, TrimFirst: b.trimFirst, TrimFar: b.trimFar, Price: l.PriceMinor, Limit: l.Most}
		stocks = addStock(stocks, s)
		currency = cmp.Or(currency, l.Currency)
	}
	sortStocks(stocks)
	for i := range stocks {
		stocks[i].Name = p.stockName(stocks[:i], stocks[i])
	}
	return stocks, currency
}

// checkStocks says what is wrong with the boards of a timber taken together.
func (p *planner) checkStocks(b board) {
	path := "timber." + b.Name
	lengths := b.lengths()
	if len(lengths) == 0 && len(b.OnHand) == 0 {
		p.snag(snagTimberLength, path, b.Name, "the boards have no length", "write how long they are bought, length: 8 ft")
	}
	longest := unit.Length(0)
	currencies, priced := map[string]bool{}, 0
	for _, l := range lengths {
		longest = max(longest, l.Length)
		if l.Currency != "" {
			currencies[l.Currency] = true
			priced++
		}
	}
	for _, h := range b.OnHand {
		longest = max(longest, h.Length)
		if h.Currency != "" {
			currencies[h.Currency] = true
		}
	}
	switch {
	case len(currencies) > 1:
		p.snag(snagCurrency, path, b.Name, "the boards have prices in "+list(currencies), "write all prices of a timber in one currency")
	case len(currencies) > 0 && priced < len(lengths):
		p.snag(snagPrice, path, b.Name, "some boards have a price and others that would have to be bought have none: the cheapest cannot be told",
			p.priceMissing(b, lengths))
	}
	if longest > 0 && b.trimFirst+b.trimFar >= longest {
		p.snag(snagTimberTrim, path+".trim", "", "the trim leaves nothing of a board", "write a shorter trim")
	}
}

// priceMissing says where the lengths without a price get theirs: in the price
// list, if it is from there that others have one.
func (p *planner) priceMissing(b board, lengths []StockLength) string {
	listed, missing := false, []string{}
	for _, l := range lengths {
		names := p.boardNames(b.Name, l.Length)
		if l.Currency == "" {
			missing = append(missing, names[0])
		} else if o, ok := price.Single(p.offers, names...); ok && o.From == PriceList {
			listed = true
		}
	}
	if !listed {
		return "write a price behind every length, or none at all"
	}
	return "fill in the price list for every length: " + andList(missing) + " wait for a price"
}

// addStock adds boards to those that are the same but for their number.
func addStock(stocks []cut.Stock, s cut.Stock) []cut.Stock {
	for i, t := range stocks {
		if t.Length == s.Length && t.OnHand == s.OnHand && t.Price == s.Price && len(t.Spans) == 0 && len(s.Spans) == 0 && (t.OnHand || t.Limit == s.Limit) {
			if t.OnHand {
				stocks[i].Limit += s.Limit
			}
			return stocks
		}
	}
	return append(stocks, s)
}

// stockName names boards by their length, and by a number where others before
// have that name.
func (p *planner) stockName(before []cut.Stock, s cut.Stock) string {
	name := p.w.text(p.w.whole(s.Length.MM()))
	if s.OnHand {
		name = p.w.text(p.w.cut(s.Length.MM())) + " on hand"
	}
	for n := 1; ; n++ {
		full := name
		if n > 1 {
			full = fmt.Sprintf("%s, no. %d", name, n)
		}
		if !named(before, full) {
			return full
		}
	}
}

func named(stocks []cut.Stock, name string) bool {
	for _, s := range stocks {
		if s.Name == name {
			return true
		}
	}
	return false
}

// list writes words in order.
func list(words map[string]bool) string {
	return strings.Join(slices.Sorted(maps.Keys(words)), " and ")
}

// sortStocks puts boards on hand first, and the shortest first.
func sortStocks(stocks []cut.Stock) {
	slices.SortStableFunc(stocks, func(a, b cut.Stock) int {
		return cmp.Or(cmp.Compare(bought(a), bought(b)), cmp.Compare(a.Length, b.Length))
	})
}

func bought(s cut.Stock) int {
	if s.OnHand {
		return 0
	}
	return 1
}
