package job

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/cut"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A bench is one stack while it is sawn: what is cut, what lies there, and the
// plan in force.
type bench struct {
	cutter
	s            stack     // as the job asks
	sawn, spoilt []int     // by stick, all so far
	bought       []int     // boards of each stock of s, so far
	hand         []onBench // boards that lie there, those of the plan in force among them
	facts        TimberFacts
	bench        BenchFacts
	last         int // highest number given to a board

	stocks []onBench // in force, as the plan's stocks are
	boards []benchBoard
	before []benchBoard // of the papers before
	packet string       // their mark
	told   map[int]bool
	wrong  bool      // something was told that changes what can be cut
	pieces []onBench // what the round told left behind
}

// An onBench is boards that are alike: a stock, and what is known of it.
type onBench struct {
	cut.Stock
	of     int // index in the stack's stocks of what is still to be bought; -1 when it is here
	at     int // index in hand, when it is here
	number int // of the one board it is, 0 for boards not yet touched
	way    way2
}

// A way2 is how the last part cut from a board begun lay.
type way2 struct{ rolled, swapped bool }

// A benchBoard is one board of the plan in force.
type benchBoard struct {
	number int
	stock  int // index in bench.stocks
	clear  []ExactBoard
	facts  BoardFacts
	was    onBench // the board itself, before any cut of the papers
}

func newBench(c cutter, s stack) *bench {
	b := &bench{cutter: c, s: s, sawn: make([]int, len(s.sticks)), spoilt: make([]int, len(s.sticks)), bought: make([]int, len(s.stocks))}
	for _, t := range s.stocks {
		if t.OnHand {
			b.hand = append(b.hand, onBench{Stock: t, of: -1})
		}
	}
	return b
}

// wantedNow are the sticks with what is sawn of them.
func (b *bench) wantedNow() []stick {
	out := slices.Clone(b.s.sticks)
	for i := range out {
		out[i].sawn, out[i].spoilt = b.sawn[i], b.spoilt[i]
	}
	return out
}

// now is the stack as it is: what is still wanted, from what is there and what
// can still be bought.
func (b *bench) now() stack {
	s := b.s
	s.sticks = b.wantedNow()
	b.stocks = nil
	for i, t := range b.hand {
		t.at = i
		b.stocks = append(b.stocks, t)
	}
	for i, t := range b.s.stocks {
		if t.OnHand {
			continue
		}
		if t.Limit > 0 {
			if t.Limit -= b.bought[i]; t.Limit <= 0 {
				continue
			}
		}
		b.stocks = append(b.stocks, onBench{Stock: t, of: i})
	}
	slices.SortStableFunc(b.stocks, func(x, y onBench) int {
		return cmp.Or(cmp.Compare(bought(x.Stock), bought(y.Stock)), cmp.Compare(x.Length, y.Length), cmp.Compare(x.number, y.number))
	})
	s.stocks = nil
	for _, t := range b.stocks {
		s.stocks = append(s.stocks, t.Stock)
	}
	return s
}

// plan plans what is left.
func (b *bench) plan(ctx context.Context) (snag.List, error) {
	s := b.now()
	left := 0
	for _, q := range s.sticks {
		left += q.saw()
	}
	if len(s.stocks) == 0 && left > 0 {
		return snag.List{snagShort.At(snag.Place{Path: "timber." + s.facts.Name}, s.facts.Name, "no board of "+s.facts.Name+" is left, and none can be bought",
			"name a length to buy, or raise how many are to be had (at most)")}, nil
	}
	if len(s.stocks) == 0 { // nothing is wanted; the stock is only told
		s.stocks = b.s.stocks
		b.stocks = nil
		for i, t := range s.stocks {
			b.stocks = append(b.stocks, onBench{Stock: t, of: i})
		}
	}
	s, f, on := b.goOn(ctx, s)
	if !on {
		var snags snag.List
		var err error
		if f, snags, err = b.cut(ctx, s); err != nil || snags.Stops() {
			return snags, err
		}
		if fewer, ok := b.fewer(ctx, s, f); ok {
			if g, again, err := b.cut(ctx, fewer); err == nil && !again.Stops() && g.Buy == 0 {
				f, s = g, fewer
			}
		}
	}
	b.number(f)
	b.sum(s, f)
	if b.packet != "" {
		f.apply(b.bench)
		f.Seal = seal(f)
	}
	b.facts = f
	return nil, nil
}

// fewer gives the stack with no more of the boards bought before than will do.
// They are free, so that the plan would not spare them; one that stays whole can
// go back to the yard.
func (b *bench) fewer(ctx context.Context, s stack, f TimberFacts) (stack, bool) {
	if f.Buy > 0 || b.packet == "" {
		return s, false
	}
	o := s.order()
	o.Stocks = nil
	var index []int
	for i, t := range s.stocks {
		if !t.OnHand {
			continue
		}
		if b.stocks[i].number == 0 && !b.own(t) {
			t.OnHand, t.Price = false, 0
		}
		o.Stocks = append(o.Stocks, t)
		index = append(index, i)
	}
	if len(o.Stocks) == 0 {
		return s, false
	}
	plan, err := cut.Solve(ctx, o, cut.Settings{})
	if err != nil || plan.CutShort {
		return s, false
	}
	used := make([]int, len(s.stocks))
	for _, x := range plan.Boards {
		used[index[x.Stock]]++
	}
	before := 0
	for i, t := range f.Stocks {
		if s.stocks[i].OnHand && len(s.stocks[i].Spans) == 0 {
			before += t.Used
		}
	}
	after := 0
	out := s
	out.stocks = nil
	var kept []onBench
	for i, t := range s.stocks {
		if len(t.Spans) == 0 {
			after += used[i]
		}
		if t.OnHand && !o.Stocks[slices.Index(index, i)].OnHand {
			if used[i] == 0 {
				continue
			}
			t.Limit = used[i]
		}
		out.stocks = append(out.stocks, t)
		kept = append(kept, b.stocks[i])
	}
	if after >= before || len(out.stocks) == 0 {
		return s, false
	}
	for i := range kept {
		kept[i].Stock = out.stocks[i]
	}
	b.stocks = kept
	return out, true
}

// own tells boards that were on hand before the first packet: they are used up
// first.
func (b *bench) own(t cut.Stock) bool {
	return slices.ContainsFunc(b.s.stocks, func(u cut.Stock) bool { return u.OnHand && u.Name == t.Name })
}

// number gives the boards of a plan their numbers. One that the papers before
// had just so keeps its number, and so does one that was touched; any other
// gets a number that no paper has had.
func (b *bench) number(f TimberFacts) {
	b.boards = b.physical(f)
	free := map[string][]int{}
	for _, old := range b.before {
		if !b.told[old.number] {
			k := old.key()
			free[k] = append(free[k], old.number)
		}
	}
	b.bench = BenchFacts{Done: b.bench.Done, Boards: []BenchMark{}}
	kept := map[int]bool{}
	for i := range b.boards {
		x := &b.boards[i]
		on := b.stocks[x.stock]
		m := BenchMark{Begun: on.Begun, Changed: b.packet != ""}
		switch k := x.key(); {
		case on.number > 0:
			m.Number = on.number
			x.number = on.number
			m.Changed = !b.goesOn(*x)
			m.Turn = turns[turnFrom(on.way, x.clear[0].Parts[0])]
		case len(free[k]) > 0:
			m.Number, m.Changed = free[k][0], false
			free[k] = free[k][1:]
		default:
			b.last++
			m.Number = b.last
		}
		kept[m.Number] = true
		x.number = m.Number
		b.bench.Boards = append(b.bench.Boards, m)
	}
	for _, old := range b.before {
		if !b.told[old.number] && !kept[old.number] {
			b.bench.Dropped = append(b.bench.Dropped, old.number)
		}
	}
	slices.Sort(b.bench.Dropped)
	empty(&b.bench.Dropped)
	empty(&b.bench.Done)
}

// turnFrom is the turn that brings a board from the way in which its last part
// lay to that of the next.
func turnFrom(from way2, to ExactPlaced) cut.Turn {
	t := cut.None
	if from.rolled != to.Rolled {
		t += cut.Roll
	}
	if from.swapped != to.Swapped {
		t += cut.SwapEnds
	}
	return t
}

// goesOn tells whether a board that was begun goes on as the papers before had
// it.
func (b *bench) goesOn(x benchBoard) bool {
	at := slices.IndexFunc(b.before, func(old benchBoard) bool { return old.number == x.number })
	if at < 0 {
		return false
	}
	was := b.before[at].facts
	old := was.Parts
	skip := len(old) - len(x.facts.Parts)
	untouched := was.Length == x.facts.Length && len(was.Spans) == len(x.facts.Spans) && skip == 0
	if !untouched && (skip <= 0 || len(x.facts.Spans) > 0 || !b.stocks[x.stock].Begun) {
		return false
	}
	for i, q := range x.facts.Parts {
		if old[skip+i].Mark != q.Mark {
			return false
		}
	}
	return true
}

// key tells boards sawn alike from lengths alike.
func (x benchBoard) key() string {
	var marks []string
	for _, q := range x.facts.Parts {
		marks = append(marks, fmt.Sprint(q.Mark, q.Rolled, q.Swapped))
	}
	return fmt.Sprintf("%g %v %s", x.facts.Length.MM, len(x.facts.Spans), strings.Join(marks, " "))
}

// physical lists the boards of a plan one by one, in its order. The clear
// lengths of a board with spans are one board.
func (b *bench) physical(f TimberFacts) []benchBoard {
	facts := map[int]BoardFacts{}
	for _, x := range f.Boards {
		for _, n := range x.Numbers {
			y := x
			y.Numbers = []int{n}
			facts[n] = y
		}
	}
	var out []benchBoard
	last := -1
	for _, x := range f.Plan.Boards {
		for range x.Times {
			one := x
			one.Times = 1
			if spans := len(b.stocks[x.Stock].Spans) > 0; spans && last == x.Stock {
				out[len(out)-1].clear = append(out[len(out)-1].clear, one)
				continue
			}
			last = x.Stock
			out = append(out, benchBoard{stock: x.Stock, clear: []ExactBoard{one}, facts: facts[len(out)+1]})
		}
	}
	return out
}

// begin starts a round on the plan in force: what it takes of each stock is
// bought and lies there.
func (b *bench) begin(packet string) {
	b.packet, b.told, b.before, b.pieces, b.wrong = packet, map[int]bool{}, b.boards, nil, false
	for i, x := range b.before {
		b.before[i].was = b.untouched(x)
	}
	used := make([]int, len(b.stocks))
	for _, x := range b.boards {
		used[x.stock]++
	}
	there := b.hand
	for i, t := range b.stocks {
		if t.of >= 0 {
			b.bought[t.of] += used[i]
		} else {
			there[t.at].Limit -= used[i]
		}
	}
	b.hand = nil
	for _, t := range there {
		if t.Limit > 0 {
			b.lay(t)
		}
	}
}

// lay puts boards with what lies there, those alike together.
func (b *bench) lay(t onBench) {
	if t.number == 0 && len(t.Spans) == 0 {
		for i, u := range b.hand {
			if u.number == 0 && len(u.Spans) == 0 && u.Name == t.Name && u.Length == t.Length && u.Price == t.Price {
				b.hand[i].Limit += t.Limit
				return
			}
		}
	}
	b.hand = append(b.hand, t)
}

// put lays what the round has not touched, and what it has left, with what is
// there.
func (b *bench) put() {
	for _, x := range b.boards {
		if !b.told[x.number] {
			b.lay(b.untouched(x))
		}
	}
	for _, t := range b.pieces {
		b.lay(t)
	}
}

// untouched is a board of the plan in force before any cut: one that was bought
// is on hand now, and paid for.
func (b *bench) untouched(x benchBoard) onBench {
	t := b.stocks[x.stock]
	if t.of >= 0 {
		t.Stock.Name += ", bought"
		t.Stock.OnHand, t.Stock.Price, t.of = true, 0, -1
	}
	t.Stock.Limit = 1
	return t
}

// tell takes in what became of a board.
func (b *bench) tell(n int, told Sawn) snag.List {
	at := slices.IndexFunc(b.boards, func(x benchBoard) bool { return x.number == n })
	say := func(k snag.Kind, problem, remedy string) snag.List {
		return snag.List{k.At(snag.Place{Path: told.Path}, fmt.Sprint(n), problem, remedy)}
	}
	switch {
	case at < 0:
		return say(snagBoardNumber, fmt.Sprintf("those papers have no board %d of %s", n, b.s.facts.Name), "write one of: "+numbersOf(b.boards))
	case b.told[n]:
		return say(snagBoardNumber, fmt.Sprintf("board %d is told twice", n), "tell all of it in one line")
	}
	b.told[n] = true
	b.wrong = b.wrong || told.Rejected || told.Short > 0 || len(told.Spans) > 0
	x := b.boards[at]
	t := b.untouched(x)
	parts := x.laid()
	cutNow := told.Parts
	if told.Cut {
		cutNow = len(parts)
	}
	if cutNow > len(parts) {
		return say(snagBoardDone, fmt.Sprintf("%d parts are told as cut from board %d, which has %d", cutNow, n, len(parts)), "count the parts that are cut")
	}
	for _, q := range parts[:cutNow] {
		b.sawn[q.Part]++
	}
	rest, wrong := b.rests(t, x, cutNow, told)
	if wrong != "" {
		return say(snagBoardDone, wrong, "measure from the end that is sawn first; of a board begun from its last cut, on the shorter face")
	}
	for i := range rest {
		rest[i].number = n
		if i > 0 { // only one piece of a board can bear its number
			b.last++
			rest[i].number = b.last
		}
	}
	if !told.Rejected {
		b.pieces = append(b.pieces, rest...)
	}
	b.bench.Done = append(b.bench.Done, DoneFacts{Board: b.doneBoard(x), Packet: b.packet, Cut: cutNow, Rejected: told.Rejected, Says: b.says(cutNow, len(parts), told)})
	return nil
}

func numbersOf(boards []benchBoard) string {
	var ns []int
	for _, x := range boards {
		ns = append(ns, x.number)
	}
	slices.Sort(ns)
	var out []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		if j > i {
			out = append(out, fmt.Sprintf("%d..%d", ns[i], ns[j]))
		} else {
			out = append(out, fmt.Sprint(ns[i]))
		}
		i = j + 1
	}
	return strings.Join(out, ", ")
}

func (b *bench) doneBoard(x benchBoard) BoardFacts {
	f := x.facts
	f.Numbers = []int{x.number}
	return f
}

// says tells what became of a board.
func (b *bench) says(cutNow, all int, told Sawn) string {
	var out []string
	switch {
	case cutNow == all:
		out = append(out, "cut whole")
	case cutNow > 0:
		out = append(out, fmt.Sprintf("%d of %s cut", cutNow, counted(all, "part")))
	default:
		out = append(out, "not begun")
	}
	size := func(l unit.Length) string { return b.w.text(b.w.cut(l.MM())) }
	for _, s := range told.Spans {
		out = append(out, fmt.Sprintf("unusable %s to %s", size(s[0]), size(s[1])))
	}
	if told.Short > 0 {
		out = append(out, "measures "+size(told.Short))
	}
	if told.Rejected {
		out = append(out, "rejected")
	}
	return strings.Join(out, ", ")
}

// laid gives the parts of a board in the order in which they are cut.
func (x benchBoard) laid() (out []ExactPlaced) {
	for _, c := range x.clear {
		out = append(out, c.Parts...)
	}
	return out
}

// rests gives what is left of a board when its first parts are cut. wrong says
// what of it cannot be.
func (b *bench) rests(t onBench, x benchBoard, cutNow int, told Sawn) (out []onBench, wrong string) {
	if cutNow == 0 {
		return b.whole(t, told)
	}
	done := 0
	for _, u := range b.clearOf(t) {
		at := slices.IndexFunc(x.clear, func(c ExactBoard) bool { return c.Stretch == u.stretch })
		if at < 0 { // a clear length that holds no part: sawn out, and there
			out = append(out, u.onBench)
			continue
		}
		parts := x.clear[at].Parts
		mine := min(max(cutNow-done, 0), len(parts))
		done += len(parts)
		switch {
		case mine == 0:
			out = append(out, u.onBench)
		case mine == len(parts) && x.clear[at].Offcut < b.s.keep: // waste
		default:
			out = append(out, u.behind(parts[mine-1], b.s.depth))
		}
	}
	for i := range out {
		out[i].Name = b.restName(x, i)
	}
	if len(told.Spans) > 0 || told.Short > 0 {
		if len(out) == 0 {
			return nil, "nothing is left of the board"
		}
		wrong = b.trouble(&out[0], told)
	}
	return out, wrong
}

func (b *bench) restName(x benchBoard, i int) string {
	name := fmt.Sprintf("rest of board %d", x.number)
	if i > 0 {
		name += fmt.Sprintf(", no. %d", i+1)
	}
	return name
}

// whole gives a board from which nothing was cut yet.
func (b *bench) whole(t onBench, told Sawn) ([]onBench, string) {
	n := told.From
	if len(told.Spans) == 0 && told.Short == 0 {
		if told.Rejected {
			return nil, ""
		}
		return nil, "nothing is told of it"
	}
	t.Name = fmt.Sprintf("board %d, %s", n, b.w.text(b.w.cut(t.Length.MM())))
	wrong := b.trouble(&t, told)
	if told.Short > 0 {
		t.Name = fmt.Sprintf("board %d, %s", n, b.w.text(b.w.cut(told.Short.MM())))
	}
	return []onBench{t}, wrong
}

// trouble puts knots and a short length on what is left of a board.
func (b *bench) trouble(t *onBench, told Sawn) (wrong string) {
	from := unit.Length(0) // of the end that is measured from
	if t.Begun {
		lean := float64(t.Lean)
		from = unit.Length(math.Ceil(float64(b.s.kerf)/math.Cos(lean) + math.Abs(float64(b.s.depth)*math.Tan(lean))/2))
	}
	if told.Short > 0 {
		if told.Short+from > t.Length {
			return fmt.Sprintf("it is told to measure %s, more than it can", b.w.text(b.w.cut(told.Short.MM())))
		}
		t.Length = told.Short + from
	}
	for _, s := range told.Spans {
		if s[1]+from > t.Length {
			return fmt.Sprintf("%s lies beyond its end", b.w.text(b.w.cut(s[1].MM())))
		}
		t.Spans = append(t.Spans, cut.Span{From: s[0] + from, To: s[1] + from})
		t.Margin = b.s.margin
	}
	if len(t.Spans) > 0 {
		t.Price = 0
	}
	return ""
}

// A clearLength is one clear length of a board.
type clearLength struct {
	onBench
	stretch int
}

// clearOf gives the clear lengths of a board, which are boards of their own once
// the spans are sawn out.
func (b *bench) clearOf(t onBench) (out []clearLength) {
	if len(t.Spans) == 0 {
		return []clearLength{{t, 0}}
	}
	from := unit.Length(0)
	spans := slices.Clone(t.Spans)
	slices.SortFunc(spans, func(a, b cut.Span) int { return cmp.Compare(a.From, b.From) })
	for _, s := range append(spans, cut.Span{From: t.Length + t.Margin, To: t.Length}) {
		if to := s.From - t.Margin; to > from {
			u := t
			u.Spans, u.Margin, u.Length = nil, 0, to-from
			if from > 0 {
				u.TrimFirst, u.Begun, u.Lean = 0, false, 0
			}
			if to < t.Length {
				u.TrimFar = 0
			}
			out = append(out, clearLength{u, len(out)})
		}
		from = max(from, s.To+t.Margin)
	}
	return out
}

// behind gives what is left of a clear length behind a part.
func (u clearLength) behind(q ExactPlaced, depth unit.Length) onBench {
	t := u.onBench
	t.Length -= unit.Length(math.Round(q.End * float64(unit.Millimetre)))
	t.TrimFirst, t.Begun, t.Lean = 0, true, 0
	if depth > 0 {
		t.Lean = unit.FromDegrees(degrees(unit.Angle(math.Atan(q.Right / depth.MM()))))
	}
	t.way = way2{q.Rolled, q.Swapped}
	return t
}

// sum says what is to be bought now.
func (b *bench) sum(s stack, f TimberFacts) {
	all, used := 0, 0
	for _, t := range b.hand {
		if t.number == 0 && !b.own(t.Stock) {
			all += t.Limit
		}
	}
	for _, x := range b.boards {
		if t := b.stocks[x.stock]; t.of < 0 && t.number == 0 && !b.own(t.Stock) {
			used++
		}
	}
	for _, n := range b.bought {
		b.bench.Bought += n
	}
	b.bench.Whole = all - used
	name := f.Name + ", " + f.Laid + ": "
	switch {
	case f.Buy == 0:
		b.bench.Says = name + "no board has to be bought"
	default:
		b.bench.Says = name + counted(f.Buy, "board") + " more to buy"
		if f.Cost != "" {
			b.bench.Says += ", " + f.Cost
		}
	}
	if b.bench.Whole > 0 {
		b.bench.Says += fmt.Sprintf("; %s bought before not needed any more", counted(b.bench.Whole, "board"))
	}
	b.bench.Says += "."
}

// apply puts the numbers of the papers on the boards of a timber, and marks
// those that are begun or changed.
func (f *TimberFacts) apply(m BenchFacts) {
	f.Bench = &m
	n := 0
	for _, x := range f.Boards {
		n += len(x.Numbers)
	}
	if len(m.Boards) != n { // of a file that was changed; the numbers then stay the plan's, and that shows
		return
	}
	boards := f.Boards
	f.Boards = nil
	for _, x := range boards {
		for _, n := range x.Numbers {
			y := x
			y.Numbers, y.Parts = []int{m.Boards[n-1].Number}, slices.Clone(x.Parts)
			y.Changed, y.Begun, y.TurnFirst = m.Boards[n-1].Changed, m.Boards[n-1].Begun, m.Boards[n-1].Turn
			if last := len(f.Boards) - 1; last >= 0 && !y.Begun && y.Changed == f.Boards[last].Changed && y.alike(f.Boards[last]) {
				f.Boards[last].Numbers = append(f.Boards[last].Numbers, y.Numbers[0])
				continue
			}
			f.Boards = append(f.Boards, y)
		}
	}
	for i := range f.Stops {
		for j := range f.Stops[i].Boards {
			x := &f.Stops[i].Boards[j]
			x.Board = m.Boards[x.Board-1].Number
		}
	}
}
