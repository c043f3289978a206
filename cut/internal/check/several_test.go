package check

import (
	"math"
	"math/rand"
	"testing"
)

// lengthsOf gives random plain parts and up to three boards of their own
// length, with worths.
func lengthsOf(r *rand.Rand) (stocks []Stock, parts []Part, value []int64) {
	for range 1 + r.Intn(3) {
		stocks = append(stocks, Stock{Board: float64(60+r.Intn(60)) * mm, Kerf: float64(r.Intn(3)) * mm})
	}
	for i := range stocks {
		stocks[i].Kerf = stocks[0].Kerf
	}
	for range 1 + r.Intn(3) {
		parts = append(parts, Part{Outside: float64(15+r.Intn(45)) * mm, Count: 1 + r.Intn(3)})
		value = append(value, int64(1+r.Intn(30)))
	}
	return stocks, parts, value
}

// onBoard says whether counts of plain parts go on a board.
func onBoard(s Stock, parts []Part, count []int) bool {
	long := -s.Kerf
	for i, n := range count {
		long += float64(n) * (parts[i].Outside + s.Kerf)
	}
	return long <= s.Board
}

// shared says by brute force whether all of count goes on boards of some counts.
func shared(stocks []Stock, parts []Part, count, boards []int) bool {
	if worthOf(count, ones(len(count))) == 0 {
		return true
	}
	for k, n := range boards {
		if n == 0 {
			continue
		}
		boards[k]--
		for _, c := range every(parts) {
			if worthOf(c, ones(len(c))) == 0 || !onBoard(stocks[k], parts, c) {
				continue
			}
			rest, ok := make([]int, len(c)), true
			for i := range c {
				rest[i] = count[i] - c[i]
				ok = ok && rest[i] >= 0
			}
			if ok && shared(stocks, parts, rest, boards) {
				boards[k]++
				return true
			}
		}
		boards[k]++
	}
	return false
}

func ones(n int) []int64 {
	out := make([]int64, n)
	for i := range out {
		out[i] = 1
	}
	return out
}

// mostOn gives the most worth on a board, by brute force.
func mostOn(s Stock, parts []Part, value []int64) (most int64) {
	for _, c := range every(parts) {
		if onBoard(s, parts, c) {
			most = max(most, worthOf(c, value))
		}
	}
	return most
}

// A cover over several lengths is found when there is one and only then,
// whatever the worths.
func TestCoveredSeveral(t *testing.T) {
	r := rand.New(rand.NewSource(11))
	can, cannot := 0, 0
	for range 400 {
		stocks, parts, value := lengthsOf(r)
		boards, z := make([]int, len(stocks)), make([]int64, len(stocks))
		effort := Effort
		var benches []*bench
		for k, s := range stocks {
			boards[k], z[k] = r.Intn(4), mostOn(s, parts, value)
			b := newBench(s, parts, value)
			b.effort = &effort
			benches = append(benches, b)
		}
		var count []int
		for _, p := range parts {
			count = append(count, p.Count)
		}
		found, known := covered(benches, boards, z, worthOf(count, value))
		want := shared(stocks, parts, count, boards)
		if !known || found != want {
			t.Fatalf("%+v %+v on %v: found %v, known %v, want %v", stocks, parts, boards, found, known, want)
		}
		if want {
			can++
		} else {
			cannot++
		}
	}
	if can < 80 || cannot < 80 {
		t.Errorf("%d can, %d cannot: it tests little", can, cannot)
	}
}

// Plain arithmetic: three of 6 and three of 4 on boards of 10 and of 6.
func TestCoveredByHand(t *testing.T) {
	parts := []Part{{Outside: 6 * mm, Count: 3}, {Outside: 4 * mm, Count: 3}}
	for _, c := range []struct {
		boards []int
		want   bool
	}{{[]int{3, 0}, true}, {[]int{2, 1}, false}, {[]int{2, 2}, true}, {[]int{0, 6}, true}, {[]int{0, 5}, false}, {[]int{1, 4}, true}, {[]int{1, 3}, false}} {
		effort := Effort
		var benches []*bench
		for _, l := range []float64{10, 6} {
			b := newBench(Stock{Board: l * mm}, parts, []int64{6, 4})
			b.effort = &effort
			benches = append(benches, b)
		}
		if found, known := covered(benches, c.boards, []int64{10, 6}, 30); !known || found != c.want {
			t.Errorf("%v: found %v, known %v", c.boards, found, known)
		}
	}
}

// Whether parts go on another board is told as laying them every way tells.
func TestHolds(t *testing.T) {
	r := rand.New(rand.NewSource(12))
	fit, not := 0, 0
	for range 300 {
		s, parts := random(r, 3)
		if !allDrawn(s, parts) {
			continue
		}
		sets := every(parts)
		set := singly(sets[r.Intn(len(sets))])
		if len(set) == 0 || len(set) > 5 {
			continue
		}
		var b Board
		for _, p := range set {
			b.Pieces = append(b.Pieces, Piece{Part: p})
		}
		want := fits(s, parts, set)
		if got := (stretch{Stock: s}).holds(parts, b); got != want {
			t.Fatalf("%+v %+v: %v go on it: %v, want %v", s, parts, set, got, want)
		}
		if want {
			fit++
		} else {
			not++
		}
	}
	if fit < 20 || not < 20 {
		t.Errorf("%d go, %d do not: it tests little", fit, not)
	}
}

// allDrawn says whether every part has a shorter face.
func allDrawn(s Stock, parts []Part) bool {
	for _, p := range parts {
		if drawn(s, p).short() <= near {
			return false
		}
	}
	return true
}

// An offcut is denied only where no plan leaves it: plain parts, by the worths
// given and by lengths, against every way to share them out.
func TestLeavesIsSound(t *testing.T) {
	r := rand.New(rand.NewSource(13))
	denied, allowed := 0, 0
	for range 300 {
		stocks, parts, value := lengthsOf(r)
		j := &judge{parts: parts, effort: Effort, seen: map[string]ruling{}}
		boards := make([]int, len(stocks))
		byWorth, byLength := Ruling{V: value}, Ruling{}
		for _, p := range parts {
			byLength.V = append(byLength.V, int64(p.Outside+stocks[0].Kerf))
		}
		for k, s := range stocks {
			boards[k] = r.Intn(3)
			j.y.stretches = append(j.y.stretches, stretch{Stock: s, bought: 1, limit: 9})
			byWorth.Z = append(byWorth.Z, mostOn(s, parts, value))
			byLength.Z = append(byLength.Z, int64(s.Board+s.Kerf)+slip)
		}
		rulings, ok := j.rulings([]Ruling{byWorth, byLength})
		if !ok {
			t.Fatalf("rulings: %v", j.faults)
		}
		k := r.Intn(len(stocks))
		if boards[k] == 0 {
			boards[k] = 1
		}
		offcut := float64(1+r.Intn(50)) * mm
		may, known := j.leaves(rulings, boards, k, offcut-offcutSlip)
		if !known {
			t.Fatal("gave up")
		}
		if may {
			allowed++
			continue
		}
		denied++
		if canLeave(stocks, parts, boards, k, offcut) {
			t.Fatalf("%+v %+v on %v: board %d can leave %g", stocks, parts, boards, k, offcut)
		}
	}
	if denied < 40 || allowed < 40 {
		t.Errorf("%d denied, %d allowed: it tests little", denied, allowed)
	}
}

// canLeave says by brute force whether boards hold all parts while one of stock
// k leaves an offcut behind a last cut.
func canLeave(stocks []Stock, parts []Part, boards []int, k int, offcut float64) bool {
	short := append(append([]Stock(nil), stocks...), stocks[k])
	short[len(stocks)].Board -= offcut + stocks[k].Kerf
	counts := append(append([]int(nil), boards...), 1)
	counts[k]--
	var all []int
	for _, p := range parts {
		all = append(all, p.Count)
	}
	return shared(short, parts, all, counts)
}

// By length alone the longest board counts, its trims taken off; no parts need
// no board.
func TestAreaBound(t *testing.T) {
	y := NewYard(Stock{}, 0, []Timber{{Length: 900 * mm}, {Length: 1000 * mm, TrimFirst: 10 * mm, TrimFar: 10 * mm}})
	for n, want := range map[int]int{0: 0, 1: 1, 9: 1, 10: 2, 98: 10, 99: 11} {
		if got := y.areaBound([]Part{{Outside: 100 * mm, Count: n}}); got != want {
			t.Errorf("%d parts: %d boards, want %d", n, got, want)
		}
	}
}

// A proof is followed within its effort or not at all, and never falsely.
func TestEffort(t *testing.T) {
	y, parts, claim := two()
	before := Followed{}
	for effort := range 60 {
		f, done := Levels(y, parts, claim, effort)
		if len(f) > 0 {
			t.Fatalf("%d steps: %v", effort, f)
		}
		if before.Cost && !done.Cost || before.Bought && !done.Bought || before.Offcut && !done.Offcut {
			t.Errorf("%d steps follow less than %d: %+v, %+v", effort, effort-1, done, before)
		}
		before = done
	}
	if before != (Followed{true, true, true}) {
		t.Errorf("60 steps: %+v", before)
	}
	if _, done := Levels(y, parts, claim, 1); done.Cost {
		t.Error("one step is enough")
	}
	claim.Offcut.Bound = math.MaxInt64 / 4
	if f, _ := Levels(y, parts, claim, Effort); len(f) > 0 {
		t.Errorf("a bound that says nothing: %v", f)
	}
}
