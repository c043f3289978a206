package check

import (
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"
)

const mm = 1e6

// hand is a plan made by hand: three parts of 400 mm, 30 degrees on a depth of
// 20, from boards of 1000 with a kerf of 4 and 5 of trim at the first end.
func hand() (Stock, []Part, Claim) {
	a := math.Pi / 6
	s := Stock{Board: 1000 * mm, TrimFirst: 5 * mm, Depth: 20 * mm, Kerf: 4 * mm, Hold: 100 * mm, Turning: true}
	lean := 20 * mm * math.Tan(a)
	kerf := 4 * mm / math.Cos(a)
	centre := 400*mm - lean
	one := Piece{Start: 5*mm + lean/2, End: 5*mm + lean/2 + centre, Left: lean, Right: -lean}
	one.HeldShort = 1000*mm - one.End - kerf - lean/2
	two := Piece{Rolled: true, Shares: true, Turn: 1, Start: one.End + kerf, Left: -lean, Right: lean}
	two.End = two.Start + centre
	two.Held, two.HeldShort = 1, 400*mm-2*lean
	alone := one
	alone.HeldShort = 1000*mm - one.End - kerf - lean/2
	return s, []Part{{400 * mm, a, a, 3}}, Claim{
		Boards: []Board{
			{Pieces: []Piece{one, two}, Offcut: 1000*mm - two.End - kerf - lean/2, Alike: 1},
			{Pieces: []Piece{alone}, Offcut: alone.HeldShort, Alike: 1},
		},
		AreaBound: 2,
		Bought:    Level{2, 2, []Ruling{{V: []int64{1}, Z: []int64{2}}}},
		Offcut:    Level{int64(alone.HeldShort), int64(alone.HeldShort), []Ruling{{V: []int64{1}, Z: []int64{2}}}},
	}
}

// plain gives a yard of boards of one length without limit.
func plain(s Stock) Yard {
	return NewYard(s, 0, []Timber{{Length: s.Board, TrimFirst: s.TrimFirst, TrimFar: s.TrimFar}})
}

// benchOf gives a bench with effort enough.
func benchOf(s Stock, parts []Part, value []int64) *bench {
	b := newBench(s, parts, value)
	*b.effort = Effort
	return b
}

func TestHandMadePlan(t *testing.T) {
	s, parts, claim := hand()
	if f := Boards(plain(s), parts, claim); len(f) > 0 {
		t.Errorf("%v", f)
	}
	if f, done := Levels(plain(s), parts, claim, Effort); len(f) > 0 || done != (Followed{true, true, true}) {
		t.Errorf("%v, followed %v", f, done)
	}
}

// Each thing that can be wrong is found and told.
func TestFaults(t *testing.T) {
	for _, c := range []struct {
		says   string
		change func(s *Stock, parts []Part, c *Claim)
	}{
		{"cut 3 times, not 4", func(s *Stock, parts []Part, c *Claim) { parts[0].Count = 4 }},
		{"no part 1", func(s *Stock, parts []Part, c *Claim) { c.Boards[0].Pieces[0].Part = 1 }},
		{"is empty", func(s *Stock, parts []Part, c *Claim) { c.Boards = append(c.Boards, Board{}) }},
		{"boards alike", func(s *Stock, parts []Part, c *Claim) { c.Boards[0].Alike = 2 }},
		{"not the part it should be", func(s *Stock, parts []Part, c *Claim) { parts[0].Outside += 10 }},
		{"not the part it should be", func(s *Stock, parts []Part, c *Claim) { parts[0].Left += 1e-3 }},
		{"board is turned", func(s *Stock, parts []Part, c *Claim) { s.Turning = false }},
		{"begin at the trim", func(s *Stock, parts []Part, c *Claim) { s.TrimFirst += 10 }},
		{"shares no cut", func(s *Stock, parts []Part, c *Claim) { c.Boards[0].Pieces[0].Shares = true }},
		{"a cut is", func(s *Stock, parts []Part, c *Claim) { s.Kerf += 10 }},
		{"shares a cut", func(s *Stock, parts []Part, c *Claim) { c.Boards[0].Pieces[1].Shares = false }},
		{"turn is 1", func(s *Stock, parts []Part, c *Claim) { c.Boards[0].Pieces[1].Turn = 2 }},
		{"held is told wrongly", func(s *Stock, parts []Part, c *Claim) { c.Boards[0].Pieces[1].Held = 0 }},
		{"held is told wrongly", func(s *Stock, parts []Part, c *Claim) { c.Boards[1].Pieces[0].HeldShort += 10 }},
		{"are held, not", func(s *Stock, parts []Part, c *Claim) { s.Hold = 380 * mm }},
		{"far trim", func(s *Stock, parts []Part, c *Claim) { s.TrimFar = 205 * mm }},
		{"the offcut is", func(s *Stock, parts []Part, c *Claim) { c.Boards[1].Offcut += 10 }},
	} {
		s, parts, claim := hand()
		c.change(&s, parts, &claim)
		told(t, c.says, Boards(plain(s), parts, claim))
	}
}

// told wants one of the faults to say something.
func told(t *testing.T, says string, faults []Fault) {
	t.Helper()
	if !slices.ContainsFunc(faults, func(f Fault) bool { return strings.Contains(f.String(), says) }) {
		t.Errorf("not told: %q; told %v", says, faults)
	}
}

// Parts of two kinds the wrong way round.
func TestBenchOrder(t *testing.T) {
	s := Stock{Board: 1000 * mm}
	parts := []Part{{Outside: 300 * mm, Count: 1}, {Outside: 200 * mm, Count: 1}}
	claim := Claim{Boards: []Board{{Alike: 1, Offcut: 500 * mm, Pieces: []Piece{
		{Part: 0, End: 300 * mm, HeldShort: 700 * mm},
		{Part: 1, Start: 300 * mm, End: 500 * mm, Shares: true, HeldShort: 500 * mm},
	}}}}
	told(t, "should come before", Boards(plain(s), parts, claim))
	p := claim.Boards[0].Pieces
	p[0], p[1] = Piece{Part: 1, End: 200 * mm, HeldShort: 800 * mm}, Piece{Part: 0, Start: 200 * mm, End: 500 * mm, Shares: true, HeldShort: 500 * mm}
	if f := Boards(plain(s), parts, claim); len(f) > 0 {
		t.Errorf("%v", f)
	}
}

func TestLevelFaults(t *testing.T) {
	for _, c := range []struct {
		says   string
		change func(c *Claim)
	}{
		{"betters its bound", func(c *Claim) { c.Bought.Bound = 3 }},
		{"betters its bound", func(c *Claim) { c.Offcut.Bound -= 1 }},
		{"number of boards is 2", func(c *Claim) { c.Bought.Value = 3 }},
		{"longest offcut is", func(c *Claim) { c.Offcut.Value-- }},
		{"the cost is 0", func(c *Claim) { c.Cost.Value = 7 }},
		{"by length alone", func(c *Claim) { c.AreaBound = 1 }},
		{"a ruling of 0 parts", func(c *Claim) { c.Bought.Rulings[0].V = nil }},
		{"more than the proof allows", func(c *Claim) { c.Bought.Rulings[0].Z[0] = 1 }},
		{"boards: [1] boards of the stocks may", func(c *Claim) { c.Bought.Rulings[0].Z[0] = 3 }},
		{"negative worth", func(c *Claim) { c.Bought.Rulings[0].V[0] = -1 }},
		{"may hold all parts", func(c *Claim) { c.Bought.Rulings[0].V[0] = 0 }},
		{"may hold all parts", func(c *Claim) { c.Bought.Rulings = nil }},
		{"may be longer than", func(c *Claim) { c.Offcut.Rulings[0].Z[0] = 3 }},
	} {
		s, parts, claim := hand()
		c.change(&claim)
		faults, _ := Levels(plain(s), parts, claim, Effort)
		told(t, c.says, faults)
	}
	s, parts, claim := hand()
	if f, done := Levels(plain(s), parts, claim, 1); done.Bought || done.Offcut || len(f) > 0 {
		t.Errorf("followed %v in one step, %v", done, f)
	}
}

// N equal parts that share cuts take N(L - w tan a) + w tan a + (N-1) kerf /
// cos a: the search agrees with the closed form on how many a board holds.
func TestExceedsClosedForm(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 300 {
		a := r.Float64()
		s := Stock{Board: 2400 * mm, Depth: float64(r.Intn(60)) * mm, Kerf: float64(r.Intn(4)) * mm, Turning: true}
		l := float64(200+r.Intn(400)) * mm
		w := s.Depth * math.Tan(a)
		n := int((s.Board - w + s.Kerf/math.Cos(a)) / (l - w + s.Kerf/math.Cos(a)))
		b := benchOf(s, []Part{{l, a, a, 50}}, []int64{1})
		over, known := b.exceeds(int64(n) - 1)
		beyond, sure := b.exceeds(int64(n))
		if !over || !known || beyond || !sure {
			t.Errorf("%g at %g on %+v: holds %d; over %v, beyond %v", l, a, s, n, over, beyond)
		}
	}
}

// Plain lengths against every subset.
func TestExceedsSubsets(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 300 {
		s := Stock{Board: 100 * mm, Kerf: float64(r.Intn(3)) * mm}
		parts, value := make([]Part, 8), make([]int64, 8)
		for i := range parts {
			parts[i], value[i] = Part{Outside: float64(10+r.Intn(50)) * mm, Count: 1}, int64(r.Intn(50))
		}
		best := int64(0)
		for m := range 1 << 8 {
			long, worth := -s.Kerf, int64(0)
			for i := range parts {
				if m>>i&1 == 1 {
					long, worth = long+parts[i].Outside+s.Kerf, worth+value[i]
				}
			}
			if long <= s.Board {
				best = max(best, worth)
			}
		}
		b := benchOf(s, parts, value)
		over, _ := b.exceeds(best - 1)
		beyond, _ := b.exceeds(best)
		if !over || beyond {
			t.Errorf("%v %v: best %d, over %v, beyond %v", parts, value, best, over, beyond)
		}
	}
}

// Three of 6 and three of 4 on boards of 10 need three boards, whatever the
// worths say.
func TestCovered(t *testing.T) {
	s := Stock{Board: 10 * mm}
	parts := []Part{{Outside: 6 * mm, Count: 3}, {Outside: 4 * mm, Count: 3}}
	for _, c := range []struct {
		value []int64
		z     int64
	}{{[]int64{1, 1}, 2}, {[]int64{6, 4}, 10}, {[]int64{2, 1}, 3}, {[]int64{1, 0}, 1}} {
		for n, want := range map[int]bool{2: false, 3: true, 4: true} {
			b := benchOf(s, parts, c.value)
			found, known := covered([]*bench{b}, []int{n}, []int64{c.z}, 3*(c.value[0]+c.value[1]))
			if found != want || !known {
				t.Errorf("%v: cover by %d: %v, known %v", c.value, n, found, known)
			}
		}
	}
	b := benchOf(s, parts, []int64{1, 1})
	*b.effort = 1
	if _, known := covered([]*bench{b}, []int{3}, []int64{2}, 6); known {
		t.Error("known after a step")
	}
	for n, says := range map[int]string{2: "", 3: "a plan of [3] boards may exist"} {
		j := judge{y: plain(s), parts: parts, effort: Effort, seen: map[string]ruling{}}
		_, ok := j.rulings([]Ruling{{V: []int64{1, 1}, Z: []int64{4}, Counts: []int{n}}})
		if ok != (says == "") {
			t.Errorf("%d boards: %v", n, ok)
		}
		if says != "" {
			told(t, says, j.faults)
		}
	}
}
