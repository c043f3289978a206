package cut

import (
	"context"
	"errors"
	"math"
	"math/rand"
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
	if r.Intn(2) == 0 {
		o.Keep = unit.Length(r.Intn(300)) * mm
	}
	return o
}

// Solve finds the least cost, then the fewest boards bought, then the longest
// offcut, over several stocks, as brute force does; the checker agrees.
func TestSeveralBruteForce(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	rounds, solved, short := 400, 0, 0
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
