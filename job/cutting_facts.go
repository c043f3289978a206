package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/cut"
	"bowerwright/money"
	"bowerwright/unit"
)

// facts writes down what comes of a stack: the way that goes on paper, and the
// others beside it.
func (c cutter) facts(s stack, ways []*way, unturned *way) TimberFacts {
	paper := 0
	if s.changes {
		paper = len(ways) - 1
	}
	for ways[paper].sameAs != "" {
		paper = slices.IndexFunc(ways, func(w *way) bool { return w.name == ways[paper].sameAs })
	}
	f := s.facts
	w := ways[paper]
	k := c.book(s, w)
	f.Cutting = FewestBoards
	if s.changes {
		f.Cutting = FewestChanges
	}
	f.Depth, f.Kerf, f.Hold, f.Keep = c.w.stock(s.depth), c.w.fine(s.kerf.MM()), c.w.cut(s.hold.MM()), c.w.cut(s.keep.MM())
	f.TrimFirst, f.TrimFar = c.w.fine(s.stocks[0].TrimFirst.MM()), c.w.fine(s.stocks[0].TrimFar.MM())
	f.Order, f.Plan = exactOrder(s), *exactPlan(s, w)
	f.Stocks, f.Length = k.stocks(), k.longest()
	f.Buy, f.FromHand = k.buy, k.fromHand
	f.Cost, f.CostMinor = k.money(w.plan.Cost.Value), w.plan.Cost.Value
	f.Levels = k.levels()
	f.Claim = k.claim(f.Stocks)
	f.ByLength = w.plan.AreaBound
	f.Parts = c.wanted(s)
	f.Boards = k.boards()
	f.Stops, f.Trims = k.stops(), k.trims()
	f.Session = SessionFacts{StopSettings: w.session.StopSettings, SawSettings: w.session.SawSettings, LongestFirst: w.session.LongestFirst}
	f.Used = k.share()
	for i, v := range ways {
		f.Ways = append(f.Ways, c.wayFacts(s, v, w, i == paper))
	}
	if unturned != nil {
		u := c.wayFacts(s, unturned, w, false)
		f.Unturned = &u
	}
	if s.bench != nil {
		f.apply(*s.bench)
	}
	f.Seal = seal(f)
	return f
}

// A cutPlan is one way to cut a stack with its boards counted: what the facts
// are read off.
type cutPlan struct {
	cutter
	s        stack
	w        *way
	number   []int // of the board that a board of the plan is, by its index
	taken    []int // boards of each stock
	buy      int
	fromHand int
}

// book counts the boards of a way. The clear lengths of a board with spans are
// one board.
func (c cutter) book(s stack, w *way) cutPlan {
	k := cutPlan{cutter: c, s: s, w: w, taken: make([]int, len(s.stocks)), number: make([]int, len(w.plan.Boards))}
	n := 0
	for i, b := range w.plan.Boards {
		spans := len(s.stocks[b.Stock].Spans) > 0
		if !spans || i == 0 || w.plan.Boards[i-1].Stock != b.Stock {
			n++
			k.taken[b.Stock]++
			if s.stocks[b.Stock].OnHand {
				k.fromHand++
			} else {
				k.buy++
			}
		}
		k.number[i] = n
	}
	return k
}

// money writes an amount of minor units; nothing without a currency.
func (k cutPlan) money(minor int64) string { return k.s.money(minor) }

func (s stack) money(minor int64) string {
	if s.currency == "" {
		return ""
	}
	return money.Amount{Minor: minor, Currency: money.Currency(s.currency)}.String()
}

// stocks says what is taken of each stock.
func (k cutPlan) stocks() []StockFacts {
	var out []StockFacts
	for i, s := range k.s.stocks {
		f := StockFacts{Name: s.Name, Length: k.stockLength(s), OnHand: s.OnHand, Limit: s.Limit, Used: k.taken[i], PriceMinor: s.Price,
			CostMinor: s.Price * int64(k.taken[i]), Spans: k.spans(s)}
		if !s.OnHand {
			f.Buy = f.Used
		}
		if !s.OnHand || s.Price > 0 {
			f.Price, f.Cost = k.money(s.Price), k.money(f.CostMinor)
		}
		out = append(out, f)
	}
	return out
}

// stockLength writes the length of a board: feet from six feet up where it is
// bought.
func (k cutPlan) stockLength(s cut.Stock) Size {
	if s.OnHand {
		return k.cutter.w.cut(s.Length.MM())
	}
	return k.cutter.w.whole(s.Length.MM())
}

// spans are what of a board cannot be used, in order.
func (k cutPlan) spans(s cut.Stock) (out []SpanFacts) {
	at := func(l unit.Length) Size { return k.cutter.w.cut(l.MM()) }
	spans := slices.Clone(s.Spans)
	slices.SortFunc(spans, func(a, b cut.Span) int { return int(a.From - b.From) })
	for _, p := range spans {
		out = append(out, SpanFacts{From: at(p.From), To: at(p.To), OutFrom: at(max(p.From-s.Margin, 0)), OutTo: at(min(p.To+s.Margin, s.Length))})
	}
	return out
}

// longest is the longest board that is sawn.
func (k cutPlan) longest() Size {
	at := -1
	for i, s := range k.s.stocks {
		if k.taken[i] > 0 && (at < 0 || s.Length > k.s.stocks[at].Length) {
			at = i
		}
	}
	if at < 0 {
		at = len(k.s.stocks) - 1
	}
	return k.stockLength(k.s.stocks[at])
}

// share is the share of the timber sawn that ends in parts.
func (k cutPlan) share() float64 {
	parts, boards := 0.0, 0.0
	for i, s := range k.s.stocks {
		boards += s.Length.MM() * float64(k.taken[i])
	}
	for _, q := range k.s.sticks {
		slant := k.s.depth.MM() * (math.Tan(float64(q.left)) + math.Tan(float64(q.right))) / 2
		parts += (q.outside.MM() - slant) * float64(q.saw())
	}
	if boards == 0 {
		return 0
	}
	return math.Round(parts/boards*1000) / 1000
}

// wanted lists the sticks of a stack.
func (c cutter) wanted(s stack) []WantedFacts {
	var out []WantedFacts
	for _, q := range s.sticks {
		size := c.w.cut
		if q.fitted {
			size = c.w.fitted
		}
		short := s.short(q)
		long := s.long(q)
		out = append(out, WantedFacts{Mark: q.mark, Kind: q.kind, What: q.what, Length: size(q.outside.MM()), Long: size(long), Short: size(short),
			First: c.w.angle(q.left), Second: c.w.angle(q.right), Way: q.way, Fitted: q.fitted, Need: q.need, Spare: q.spare, Reject: q.reject, Sawn: q.sawn, Spoilt: q.spoilt, Saw: q.saw()})
	}
	return out
}

// boards lists the boards; those sawn alike stand together.
func (k cutPlan) boards() []BoardFacts {
	var out []BoardFacts
	for i := 0; i < len(k.number); {
		j := i + 1
		for j < len(k.number) && k.number[j] == k.number[i] {
			j++
		}
		f := k.board(k.w.plan.Boards[i:j])
		n := len(out) - 1
		if n >= 0 && j == i+1 && f.alike(out[n]) {
			out[n].Numbers = append(out[n].Numbers, k.number[i])
		} else {
			f.Numbers = []int{k.number[i]}
			out = append(out, f)
		}
		i = j
	}
	return out
}

// alike says whether two boards are sawn the same, from the same stock.
func (f BoardFacts) alike(g BoardFacts) bool {
	return f.Stock == g.Stock && len(f.Spans) == 0 && f.Summary == g.Summary && slices.Equal(f.Parts, g.Parts)
}

// board writes down one board: its clear lengths one after the other.
func (k cutPlan) board(clear []cut.Board) BoardFacts {
	stock := k.s.stocks[clear[0].Stock]
	f := BoardFacts{Stock: stock.Name, Length: k.stockLength(stock), OnHand: stock.OnHand, Spans: k.spans(stock)}
	centre, kept := 0.0, 0.0
	var offcuts []unit.Length
	var counts []string
	used := map[int]bool{}
	for _, b := range clear {
		used[b.Stretch] = true
		for i, q := range b.Parts {
			next := cut.None // a part carries the turn that follows it
			if i+1 < len(b.Parts) {
				next = b.Parts[i+1].Turn
			}
			f.Parts = append(f.Parts, k.placed(q, next, b.Stretch, b.From))
			centre += q.End - q.Start
		}
		counts = append(counts, k.countsOf(b)...)
		offcuts = append(offcuts, b.Offcut)
		last := b.Parts[len(b.Parts)-1]
		f.Exact = f.Exact || b.From.MM()+last.End+math.Abs(last.RightSlope)/2 > stock.Length.MM()-hair
	}
	for i, l := range clearLengths(stock) {
		if !used[i] {
			offcuts = append(offcuts, l)
		}
	}
	slices.Sort(offcuts)
	slices.Reverse(offcuts)
	for i, l := range offcuts {
		keep := l >= k.s.keep && l > 0
		if keep {
			kept += l.MM()
		}
		switch size := k.cutter.w.cut(l.MM()); {
		case i == 0:
			f.Offcut, f.Keep = size, keep
		case keep:
			f.More = append(f.More, size)
		}
	}
	f.Waste = k.cutter.w.cut(math.Max(stock.Length.MM()-centre-kept, 0))
	f.Summary = strings.Join(counts, ", ")
	return f
}

// clearLengths are what lies between the spans of a board.
func clearLengths(s cut.Stock) (out []unit.Length) {
	spans := slices.Clone(s.Spans)
	slices.SortFunc(spans, func(a, b cut.Span) int { return int(a.From - b.From) })
	from := unit.Length(0)
	for _, p := range append(spans, cut.Span{From: s.Length + s.Margin, To: s.Length}) {
		if to := p.From - s.Margin; to > from {
			out = append(out, to-from)
		}
		from = max(from, p.To+s.Margin)
	}
	return out
}

// hair is how near, in mm, a last part may come to the end of its board before
// it is said to fill it: no tape shows a hundredth.
const hair = 0.01

// countsOf says how many of which part a board gives.
func (k cutPlan) countsOf(b cut.Board) (out []string) {
	n := 0
	for i, q := range b.Parts {
		n++
		if i+1 == len(b.Parts) || b.Parts[i+1].Part != q.Part {
			out = append(out, fmt.Sprintf("%d x %s at %s", n, k.s.sticks[q.Part].mark, k.cutter.w.text(k.stopOf(q.Part))))
			n = 0
		}
	}
	return out
}

func (k cutPlan) placed(q cut.Placed, next cut.Turn, clear int, from unit.Length) SawnFacts {
	return SawnFacts{
		Mark: k.s.sticks[q.Part].mark, Clear: clear, Rolled: q.Rolled, Swapped: q.Swapped, Start: micro(from.MM() + q.Start), End: micro(from.MM() + q.End),
		LeftSlope: micro(q.LeftSlope), RightSlope: micro(q.RightSlope), Shares: q.SharesCut,
		Turn: turns[next], Held: held[q.Held.What], HeldLength: k.cutter.w.cut(q.Held.Short),
	}
}

var turns = map[cut.Turn]string{cut.None: "", cut.Roll: "roll", cut.SwapEnds: "swap ends", cut.RollAndSwap: "roll and swap ends"}
var held = map[cut.Hold]string{cut.TheBoard: "board", cut.ThePart: "part", cut.NoCut: ""}
