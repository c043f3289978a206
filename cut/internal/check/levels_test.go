package check

import (
	"math"
	"math/rand"
	"slices"
	"testing"
)

// Stretches lie where no span does, new ends without trim.
func TestNewYard(t *testing.T) {
	for _, c := range []struct {
		spans [][2]float64
		want  [][4]float64 // from, length, trims
	}{
		{nil, [][4]float64{{0, 100, 3, 4}}},
		{[][2]float64{{40, 50}}, [][4]float64{{0, 38, 3, 0}, {52, 48, 0, 4}}},
		{[][2]float64{{60, 70}, {20, 65}}, [][4]float64{{0, 18, 3, 0}, {72, 28, 0, 4}}},
		{[][2]float64{{30, 40}, {44, 50}}, [][4]float64{{0, 28, 3, 0}, {52, 48, 0, 4}}},
		{[][2]float64{{0, 1}, {99, 100}}, [][4]float64{{3, 94, 0, 0}}},
		{[][2]float64{{0, 100}}, nil},
	} {
		y := NewYard(Stock{Kerf: 1}, 0, []Timber{{Length: 100, TrimFirst: 3, TrimFar: 4, Margin: 2, OnHand: true, Limit: 1, Spans: c.spans}})
		var got [][4]float64
		for i, u := range y.stretches {
			got = append(got, [4]float64{u.from, u.Board, u.TrimFirst, u.TrimFar})
			if u.number != i || u.bought != 0 || u.Kerf != 1 || u.limit != 1 {
				t.Errorf("%+v", u)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.spans, got, c.want)
		}
	}
}

// two is a board of 1000 mm at 5 with a part of 700 mm, and one of 600 mm on
// hand with a part of 500; another on hand, of 550, has its price.
func two() (Yard, []Part, Claim) {
	y := NewYard(Stock{}, 100*mm, []Timber{{Length: 1000 * mm, Price: 5}, {Length: 600 * mm, OnHand: true, Limit: 2}, {Length: 550 * mm, OnHand: true, Limit: 1, Price: 1}})
	parts := []Part{{Outside: 700 * mm, Count: 1}, {Outside: 500 * mm, Count: 1}}
	ruling := Ruling{V: []int64{1, 0}, Z: []int64{1, 0, 0}}
	return y, parts, Claim{
		Boards: []Board{
			{Pieces: []Piece{{Part: 0, End: 700 * mm, HeldShort: 700 * mm, Held: 1}}, Offcut: 300 * mm, Alike: 1},
			{Stock: 1, Pieces: []Piece{{Part: 1, End: 500 * mm, HeldShort: 500 * mm, Held: 1}}, Offcut: 100 * mm, Alike: 1},
		},
		AreaBound: 2,
		Cost:      Level{5, 5, []Ruling{ruling}},
		Bought:    Level{1, 1, []Ruling{ruling}},
		Offcut:    Level{300 * mm, 300 * mm, []Ruling{ruling}},
	}
}

// Each thing that can be wrong with boards of several stocks is told.
func TestSeveralFaults(t *testing.T) {
	y, parts, claim := two()
	if f := Boards(y, parts, claim); len(f) > 0 {
		t.Fatalf("%v", f)
	}
	if f, done := Levels(y, parts, claim, Effort); len(f) > 0 || done != (Followed{true, true, true}) {
		t.Fatalf("%v, %v", f, done)
	}
	for _, c := range []struct {
		says   string
		change func(y *Yard, c *Claim)
	}{
		{"of no stock", func(y *Yard, c *Claim) { c.Boards[1].Stock = 3 }},
		{"of no stock", func(y *Yard, c *Claim) { c.Boards[1].Stretch = 1 }},
		{"2 boards of stock 1, there are 1", func(y *Yard, c *Claim) { y.stretches[0].limit = 1; c.Boards[1].Stock = 0 }},
		{"begins at", func(y *Yard, c *Claim) { c.Boards[1].From = 10 }},
		{"would do", func(y *Yard, c *Claim) { y.stretches[2].price = 0 }},
	} {
		y, parts, claim := two()
		c.change(&y, &claim)
		told(t, c.says, Boards(y, parts, claim))
	}
	for _, c := range []struct {
		says   string
		change func(c *Claim)
	}{
		{"the cost is 5, not 6", func(c *Claim) { c.Cost.Value = 6 }},
		{"boards of the stocks may hold", func(c *Claim) { c.Cost.Rulings[0].Z[1] = 1 }},
		{"betters its bound", func(c *Claim) { c.Cost.Bound = 6 }},
		{"an offcut may be longer", func(c *Claim) { c.Offcut.Rulings[0].V = []int64{0, 1}; c.Offcut.Rulings[0].Z = []int64{1, 1, 1} }},
		{"there are 2 and 3", func(c *Claim) { c.Bought.Rulings[0].Z = []int64{1} }},
		{"there are 2 and 3", func(c *Claim) { c.Bought.Rulings[0].Counts = []int{1} }},
		{"may exist", func(c *Claim) { c.Bought.Rulings[0].Counts = []int{1, 1, 0} }},
	} {
		y, parts, claim := two()
		c.change(&claim)
		f, _ := Levels(y, parts, claim, Effort)
		told(t, c.says, f)
	}
	// An offcut not worth keeping is none.
	y.Keep = 301 * mm
	f, _ := Levels(y, parts, claim, Effort)
	told(t, "longest offcut is 0", f)
}

// The counter finds counts within a budget that no ruling rules out if there
// are any, against all counts.
func TestCounterEveryCount(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	found := 0
	for range 2000 {
		j := &judge{effort: Effort, parts: []Part{{Count: 30}}}
		for range 1 + r.Intn(3) {
			j.y.stretches = append(j.y.stretches, stretch{price: int64(r.Intn(4)), bought: int64(r.Intn(2)), limit: 1 + r.Intn(5)})
		}
		var rulings []ruling
		for range 1 + r.Intn(3) {
			u := ruling{total: int64(r.Intn(40))}
			for range j.y.stretches {
				u.Z = append(u.Z, int64(r.Intn(9)))
			}
			if r.Intn(4) == 0 {
				for range j.y.stretches {
					u.Counts = append(u.Counts, r.Intn(5))
				}
			}
			rulings = append(rulings, u)
		}
		b := budget{int64(r.Intn(20)), int64(r.Intn(8))}
		c := j.counter(rulings, func([]int) bool { return true })
		if !c.from(0, b, c.lacking()) {
			t.Fatal("gave up")
		}
		if want := allowed(j.y, rulings, b); (c.found != nil) != want {
			t.Fatalf("%+v %+v %+v: found %v, want %v", j.y, rulings, b, c.found, want)
		}
		if c.found != nil {
			found++
		}
	}
	if found < 200 || found > 1800 {
		t.Errorf("%d of 2000 found: it tests little", found)
	}
}

// allowed tries all counts.
func allowed(y Yard, rulings []ruling, b budget) bool {
	n := make([]int, len(y.stretches))
	for {
		cost, bought := int64(0), int64(0)
		for k, t := range y.stretches {
			cost, bought = cost+t.price*int64(n[k]), bought+t.bought*int64(n[k])
		}
		ok := cost <= b.cost && bought <= b.bought
		for _, u := range rulings {
			held, within := int64(0), true
			for k := range n {
				held += u.Z[k] * int64(n[k])
				within = within && u.Counts != nil && n[k] <= u.Counts[k]
			}
			if u.Counts == nil && held < u.total || within {
				ok = false
			}
		}
		if ok {
			return true
		}
		k := 0
		for k < len(n) && n[k] == y.stretches[k].limit {
			n[k] = 0
			k++
		}
		if k == len(n) {
			return false
		}
		n[k]++
	}
}

func TestTimes(t *testing.T) {
	if times(3, 5) != 15 || times(1<<20, 1<<60) != math.MaxInt64/2 || times(4, 0) != 0 {
		t.Error(times(3, 5), times(1<<20, 1<<60), times(4, 0))
	}
}

// By setting the parts of one setting lie together, whatever their lengths.
func TestBySetting(t *testing.T) {
	a := math.Pi / 6
	parts := []Part{{300 * mm, a, a, 1}, {200 * mm, 0, 0, 1}, {100 * mm, -a, -a, 1}, {400 * mm, 0, a, 1}}
	for by, want := range map[bool][]int{false: {2, 1, 0, 3}, true: {3, 0, 2, 1}} {
		s := Stock{Board: 1000 * mm, Depth: 10 * mm, Turning: true, BySetting: by}
		if got := ranks(s, parts); !slices.Equal(got, want) {
			t.Errorf("by setting %v: ranks %v, want %v", by, got, want)
		}
	}
}
