package cut

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"reflect"
	"testing"

	"bowerwright/unit"
)

// cleared gives every stretch of an order as a plain order for it, looked at
// millimetre by millimetre, and the stock it is of.
func cleared(o Order) (each []Order, stock []int) {
	for i, s := range o.Stocks {
		n := int(s.Length / mm)
		bad := make([]bool, n+1)
		bad[n] = true
		for _, p := range s.Spans {
			for x := max(int((p.From-s.Margin)/mm), 0); x < min(int((p.To+s.Margin)/mm), n); x++ {
				bad[x] = true
			}
		}
		from := 0
		for x := range bad {
			if !bad[x] {
				continue
			}
			if x > from {
				q := o
				q.Stocks, q.Board = nil, unit.Length(x-from)*mm
				if from == 0 {
					q.TrimFirst = s.TrimFirst
				}
				if x == n {
					q.TrimFar = s.TrimFar
				}
				each, stock = append(each, q), append(stock, i)
			}
			from = x + 1
		}
	}
	return each, stock
}

// A truth is what brute force knows about an order of several stocks.
type truth struct {
	possible bool
	weight   int64 // cost, then boards bought
	offcut   float64
}

const none = math.MaxInt64

// truthOf shares the parts out in every way: for each stock and set of parts
// that fits on it, what the rest takes.
func truthOf(o Order) truth {
	each, stock := cleared(o)
	all := singles(o)
	full := 1<<len(all) - 1
	weight, limit := make([]int64, len(each)), make([]int, len(each))
	fit := make([][]bool, len(each))
	for k, q := range each {
		s := o.Stocks[stock[k]]
		weight[k], limit[k], fit[k] = s.Price*1000, s.Limit, sets(q, all)
		if !s.OnHand {
			weight[k]++
		}
		if limit[k] == 0 || limit[k] > len(all) {
			limit[k] = len(all)
		}
	}
	least := func(but int) []int64 {
		best := make([]int64, full+1)
		for m := 1; m <= full; m++ {
			best[m] = none
		}
		for k := range each {
			n := limit[k]
			if k == but {
				n--
			}
			for range n {
				next := append([]int64(nil), best...)
				for m := 1; m <= full; m++ {
					for s := m; s > 0; s = (s - 1) & m {
						if fit[k][s] && best[m&^s] < none {
							next[m] = min(next[m], best[m&^s]+weight[k])
						}
					}
				}
				best = next
			}
		}
		return best
	}
	t := truth{weight: least(-1)[full]}
	t.possible = t.weight < none
	for k, q := range each {
		if !t.possible || o.Stocks[stock[k]].OnHand {
			continue
		}
		rest := least(k)
		for s := 1; s <= full; s++ {
			if fit[k][s] && rest[full&^s] < none && rest[full&^s]+weight[k] == t.weight {
				t.offcut = max(t.offcut, longestLeft(q, all, s))
			}
		}
	}
	return t
}

// longestLeft gives the longest offcut that a set of parts can leave.
func longestLeft(o Order, all []int, set int) (left float64) {
	var parts []int
	for i, p := range all {
		if set>>i&1 == 1 {
			parts = append(parts, p)
		}
	}
	lie := make([]way, len(parts))
	ways := []way{{}, {true, false}, {false, true}, {true, true}}
	for c := 0; c < 1<<(2*len(parts)); c++ {
		for i := range lie {
			lie[i] = ways[c>>(2*i)&3]
		}
		if b, ok := lay(o, parts, lie); ok {
			left = max(left, float64(b.Offcut))
		}
	}
	return left
}

// stocked gives a random order of up to n parts over two to four stocks: to
// be bought or on hand, some limited, some with spans.
func stocked(r *rand.Rand, n int) Order {
	o := random(r, n)
	first := Stock{Length: o.Board, TrimFirst: o.TrimFirst, TrimFar: o.TrimFar, Price: int64(r.Intn(2) * (100 + r.Intn(500)))}
	if r.Intn(4) == 0 {
		first.Limit = 1 + r.Intn(4)
	}
	o.Board, o.TrimFirst, o.TrimFar = 0, 0, 0
	o.Stocks = []Stock{first}
	for range 1 + r.Intn(3) {
		s := Stock{Length: unit.Length(200+10*r.Intn(40)) * mm, Limit: r.Intn(3)}
		switch r.Intn(3) {
		case 0:
			s.Price = int64(r.Intn(2) * (50 + r.Intn(500)))
		case 1:
			s.OnHand, s.Limit, s.Price = true, 1+r.Intn(2), int64(r.Intn(2)*r.Intn(200))
		default:
			s.OnHand, s.Limit, s.Margin = true, 1, unit.Length(r.Intn(10))*mm
			for range r.Intn(3) {
				at := unit.Length(r.Intn(int(s.Length/mm))) * mm
				s.Spans = append(s.Spans, Span{at, min(at+unit.Length(r.Intn(40))*mm, s.Length)})
			}
		}
		o.Stocks = append(o.Stocks, s)
	}
	r.Shuffle(len(o.Stocks), func(i, j int) { o.Stocks[i], o.Stocks[j] = o.Stocks[j], o.Stocks[i] })
	o.BySetting = r.Intn(3) == 0
	if r.Intn(2) == 0 {
		o.Keep = unit.Length(r.Intn(300)) * mm
	}
	return o
}

// Solve finds the least cost, then the fewest boards bought, then the longest
// offcut, over several stocks, as brute force does; the checker agrees.
func TestSeveralBruteForce(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	rounds, solved, short := 700, 0, 0
	open, unchecked := [3]int{}, [3]int{}
	if testing.Short() {
		rounds = 60
	}
	for range rounds {
		o := stocked(r, 2+r.Intn(5))
		want := truthOf(o)
		p, err := Solve(context.Background(), o, Settings{})
		var few *Short
		if errors.As(err, &few) && !few.Proved {
			t.Fatalf("%+v\n%v", o, err)
		}
		if (err == nil) != want.possible {
			t.Fatalf("%+v\npossible %v, error %v", o, want.possible, err)
		}
		if err != nil {
			short++
			continue
		}
		solved++
		faults, done := Check(o, p)
		if len(faults) > 0 {
			t.Fatalf("%+v\n%+v\nfaults %v", o, p, faults)
		}
		if p.Cost.Bound > want.weight/1000 || p.Cost.Proved() && p.Bought.Bound > want.weight%1000 || p.Cost.Value*1000+p.Bought.Value != want.weight {
			t.Fatalf("%+v\n%+v\nleast cost and boards %d", o, p, want.weight)
		}
		if want.offcut < float64(o.Keep) {
			want.offcut = 0
		}
		if float64(p.Offcut.Value) > want.offcut+2*OffcutSlip || float64(p.Offcut.Bound) < want.offcut-2*OffcutSlip {
			t.Fatalf("%+v\n%+v\nlongest offcut %.0f", o, p, want.offcut)
		}
		for i, l := range []Level{p.Cost, p.Bought, p.Offcut} {
			if !l.Proved() {
				open[i]++
			} else if ![]bool{done.Cost, done.Bought, done.Offcut}[i] {
				unchecked[i]++
			}
		}
	}
	t.Logf("%d solved, %d cannot be; open %v, proved and not followed %v", solved, short, open, unchecked)
	if solved < rounds/3 || open[0]+open[1] > 0 || unchecked != [3]int{} {
		t.Errorf("%d of %d solved, open %v, proved and not followed %v", solved, rounds, open, unchecked)
	}
}

// Of two plans with the same boards nothing is said that brute force denies:
// whatever is changed in the levels of a plan, the checker passes only what is
// true.
func TestSeveralMutants(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	passed, caught := 0, 0
	for passed+caught < 3000 {
		o := stocked(r, 2+r.Intn(4))
		p, err := Solve(context.Background(), o, Settings{})
		if err != nil {
			continue
		}
		want := truthOf(o)
		for range 30 {
			m := clone(p)
			mutateLevel(r, &m)
			faults, done := Check(o, m)
			if len(faults) > 0 {
				caught++
				continue
			}
			passed++
			if done.Cost && m.Cost.Bound > want.weight/1000 ||
				done.Bought && m.Cost.Value == want.weight/1000 && m.Bought.Bound > want.weight%1000 ||
				done.Offcut && float64(m.Offcut.Bound) < want.offcut-2*OffcutSlip && want.offcut >= float64(o.Keep) {
				t.Fatalf("%+v\n%+v\nmutant %+v\npasses %+v; true %+v", o, p, m, done, want)
			}
		}
	}
	t.Logf("%d passed, %d caught", passed, caught)
	if caught < passed/4 {
		t.Errorf("%d passed, %d caught: they test little", passed, caught)
	}
}

// mutateLevel changes a bound, a worth, or what a board holds at most.
func mutateLevel(r *rand.Rand, p *Plan) {
	l := []*Level{&p.Cost, &p.Bought, &p.Offcut}[r.Intn(3)]
	switch n := len(l.Proof.Rulings); {
	case r.Intn(3) == 0 && l != &p.Offcut:
		if l.Bound < l.Value {
			l.Bound++
		} else {
			l.Value, l.Bound = l.Value+1, l.Bound+1
		}
	case r.Intn(3) == 0 && l == &p.Offcut:
		l.Bound = l.Value + r.Int63n(1+l.Bound-l.Value)
	case n == 0:
		l.Bound -= r.Int63n(2)
	default:
		u := l.Proof.Rulings[r.Intn(n)]
		z := &u.Z[r.Intn(len(u.Z))]
		if r.Intn(2) == 0 {
			z = &u.V[r.Intn(len(u.V))]
		}
		*z += r.Int63n(1+*z/2) - *z/4
	}
}

// stocksOf gives an order of plain parts from stocks.
func stocksOf(stocks []Stock, parts ...Part) Order { return Order{Stocks: stocks, Parts: parts} }

// Plain arithmetic: two parts of 0.9 m come from one board of 2 m at 9 rather
// than two of 1 m at 5, and from those when the long one costs 11.
func TestCheapest(t *testing.T) {
	for price, boards := range map[int64]int{9: 1, 11: 2} {
		o := stocksOf([]Stock{{Length: 1000 * mm, Price: 5}, {Length: 2000 * mm, Price: price}}, square(900*mm, 2))
		if p := plan(t, o); len(p.Boards) != boards || p.Cost.Value != min(price, 10) || !p.Cost.Proved() || !p.Bought.Proved() || !p.Offcut.Proved() {
			t.Errorf("at %d: %d boards, %+v", price, len(p.Boards), p)
		}
	}
}

// At one cost the fewest boards are bought, and of two offcuts on hand that
// would do the shorter is cut.
func TestTies(t *testing.T) {
	o := stocksOf([]Stock{{Length: 1000 * mm, Price: 5}, {Length: 2000 * mm, Price: 10}}, square(900*mm, 2))
	if p := plan(t, o); p.Cost.Value != 10 || p.Bought.Value != 1 || !p.Bought.Proved() {
		t.Errorf("%+v", p)
	}
	o = stocksOf([]Stock{{Length: 700 * mm, OnHand: true, Limit: 1}, {Length: 500 * mm, OnHand: true, Limit: 2}, {Length: 2000 * mm}}, square(300*mm, 1))
	if p := plan(t, o); len(p.Boards) != 1 || p.Boards[0].Stock != 1 || p.Bought.Value != 0 {
		t.Errorf("%+v", p)
	}
	o.Stocks[1].Price = 1 // then the free one
	if p := plan(t, o); p.Boards[0].Stock != 0 || p.Cost.Value != 0 {
		t.Errorf("%+v", p)
	}
}

// A knot from 900 to 1000 mm with 20 mm of margin leaves 880 and 980 mm of a
// board of 2 m.
func TestSpans(t *testing.T) {
	s := Stock{Length: 2000 * mm, TrimFirst: 5 * mm, OnHand: true, Limit: 1, Spans: []Span{{900 * mm, 1000 * mm}}, Margin: 20 * mm}
	ts := s.clear(0)
	if len(ts) != 2 || ts[0].length != 880*mm || ts[1].from != 1020*mm || ts[1].length != 980*mm || ts[0].trimFirst != 5*mm || ts[1].trimFirst != 0 {
		t.Fatalf("%+v", ts)
	}
	o := stocksOf([]Stock{s}, square(875*mm, 1), square(980*mm, 1))
	p := plan(t, o)
	if len(p.Boards) != 2 || p.Boards[0].From+p.Boards[1].From != 1020*mm || p.Boards[0].Stretch+p.Boards[1].Stretch != 1 {
		t.Errorf("%+v", p.Boards)
	}
	o.Parts[0].Outside += mm
	var few *Short
	var never *Impossible
	if _, err := Solve(context.Background(), o, Settings{}); !errors.As(err, &few) || !few.Proved {
		t.Errorf("876 mm go behind 5 of trim: %v", err)
	}
	o.Parts[0].Outside = 981 * mm
	if _, err := Solve(context.Background(), o, Settings{}); !errors.As(err, &never) || never.Parts[0].Needs != 980*mm {
		t.Errorf("981 mm: %v", err)
	}
	for spans, want := range map[string][]Span{"": {{0, 2000 * mm}}, "0+1020": {{300 * mm, 310 * mm}, {290 * mm, 1000 * mm}}} {
		s.Spans = want
		got := ""
		for i, u := range s.clear(0) {
			got += []string{"", "+"}[i] + fmt.Sprint(int64(u.from/mm))
		}
		if got != spans {
			t.Errorf("%v: begins %s, want %s", want, got, spans)
		}
	}
}

// Boards told wrongly are our caller's fault.
func TestNotStocks(t *testing.T) {
	for i, s := range []Stock{
		{}, {Length: 21 * unit.Metre}, {Length: mm, TrimFar: -1}, {Length: mm, Price: -1}, {Length: mm, Limit: -1},
		{Length: mm, OnHand: true}, {Length: mm, Price: mostCost}, {Length: mm, Spans: []Span{{0, 1}}}, {Length: mm, Margin: -1},
		{Length: mm, OnHand: true, Limit: 2, Spans: []Span{{0, 1}}}, {Length: mm, OnHand: true, Limit: 1, Spans: []Span{{2, 1}}},
		{Length: mm, OnHand: true, Limit: 1, Price: 1, Spans: []Span{{0, 1}}}, {Length: mm, OnHand: true, Limit: 1, Spans: []Span{{0, 2 * mm}}},
	} {
		o := stocksOf([]Stock{s}, square(mm/2, 2))
		if _, err := Solve(context.Background(), o, Settings{}); err == nil {
			t.Errorf("%d: %+v is taken", i, s)
		}
		if faults, _ := Check(o, Plan{}); len(faults) == 0 {
			t.Errorf("%d: %+v passes", i, s)
		}
	}
	if _, err := Solve(context.Background(), Order{Board: mm, Stocks: []Stock{{Length: mm}}}, Settings{}); err == nil {
		t.Error("boards told twice are taken")
	}
}

// One stock without limit or price is the same as a board.
func TestOneStockIsABoard(t *testing.T) {
	for seed := range int64(10) {
		o := shop(seed, 6, 60)
		q := o
		q.Stocks = []Stock{{Length: o.Board, TrimFirst: o.TrimFirst, TrimFar: o.TrimFar}}
		q.Board, q.TrimFirst, q.TrimFar = 0, 0, 0
		a, b := plan(t, o), plan(t, q)
		if len(a.Boards) != len(b.Boards) || a.Bought.Bound != b.Bought.Bound || b.Offcut.Value < a.Offcut.Value || b.Offcut.Bound > a.Offcut.Bound {
			t.Errorf("seed %d:\n%+v\n%+v", seed, a, b)
		}
	}
}

// Without work or time left a plan is right and its bounds too; the same order
// gives the same plan.
func TestSeveralStopped(t *testing.T) {
	for seed := range int64(12) {
		o := mitred(seed)
		best := plan(t, o)
		if again := plan(t, o); !reflect.DeepEqual(best, again) {
			t.Fatalf("seed %d: two plans", seed)
		}
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		a, err := Solve(ctx, o, Settings{})
		b, err2 := Solve(context.Background(), o, Settings{Work: 500})
		if err != nil || err2 != nil || !a.CutShort || b.CutShort {
			t.Fatalf("seed %d: %v, %v", seed, err, err2)
		}
		for _, p := range []Plan{a, b} {
			if faults, _ := Check(o, p); len(faults) > 0 || p.Cost.Bound > best.Cost.Value || p.Cost.Value < best.Cost.Value {
				t.Errorf("seed %d: faults %v, cost %d, bound %d, least %d", seed, faults, p.Cost.Value, p.Cost.Bound, best.Cost.Value)
			}
		}
	}
}
