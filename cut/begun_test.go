package cut

import (
	"context"
	"math"
	"math/rand"
	"testing"

	"bowerwright/unit"
)

// rest gives the stock that is left of a board when its first n parts are cut.
func rest(o Order, b Board, n int) Stock {
	last := b.Parts[n-1]
	lean := way{last.Rolled, last.Swapped}.lying(o.stick(o.Parts[last.Part]).ends)[1]
	return Stock{Name: "begun", Length: o.Board - unit.Length(math.Round(last.End*1e6)), TrimFar: o.TrimFar,
		Limit: 1, OnHand: true, Begun: true, Lean: lean}
}

// randomParts are a few parts with ends of three settings.
func randomParts(r *rand.Rand, n int) []Part {
	settings := []float64{0, 22.5, 30, -30}
	var out []Part
	for i := range n {
		out = append(out, Part{Name: string(rune('a' + i)), Outside: unit.Length(150+r.Intn(400)) * mm,
			Left: unit.FromDegrees(settings[r.Intn(4)]), Right: unit.FromDegrees(settings[r.Intn(4)]), Count: 1 + r.Intn(3)})
	}
	return out
}

// What was planned behind the parts already cut still goes on what is left of
// the board, and leaves the same offcut.
func TestABoardBegunGoesOnAsPlanned(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	shared := 0
	for range 150 {
		o := Order{Board: 2400 * mm, TrimFirst: 6 * mm, TrimFar: unit.Length(r.Intn(2)) * 5 * mm, Depth: 19 * mm, Kerf: 3 * mm,
			Turning: r.Intn(3) > 0, Parts: randomParts(r, 3)}
		p, err := Solve(context.Background(), o, Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range p.Boards {
			for n := 1; n < len(b.Parts); n++ {
				q := o
				q.Board, q.TrimFirst, q.TrimFar, q.Stocks = 0, 0, 0, []Stock{rest(o, b, n)}
				q.Parts = append([]Part(nil), o.Parts...)
				for i := range q.Parts {
					q.Parts[i].Count = 0
				}
				for _, part := range b.Parts[n:] {
					q.Parts[part.Part].Count++
				}
				again, err := Solve(context.Background(), q, Settings{})
				if err != nil {
					t.Fatalf("%d parts of %+v cut: %v", n, b, err)
				}
				if faults, _ := Check(q, again); len(faults) > 0 {
					t.Fatalf("%v in %+v", faults, again.Boards)
				}
				if off := again.Boards[0].Offcut - b.Offcut; off < -1000 {
					t.Fatalf("the offcut is %v shorter", off)
				}
				if again.Boards[0].Parts[0].SharesCut {
					shared++
				}
			}
		}
	}
	if shared < 100 {
		t.Errorf("only %d boards go on from a cut they share", shared)
	}
}

// A begun board holds just what brute force lays behind the part cut before.
func TestABoardBegunAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewSource(6))
	fits, full := 0, 0
	all := []way{{}, {true, false}, {false, true}, {true, true}}
	for range 400 {
		o := Order{Depth: unit.Length(19+70*r.Intn(2)) * mm, Kerf: 3 * mm, Turning: r.Intn(3) > 0, Parts: randomParts(r, 4)}
		o.Parts[0].Outside = 150 * mm // the one that is cut
		o.Board = unit.Length(r.Intn(120)-40) * mm
		for i := range o.Parts {
			o.Parts[i].Count = 1
			o.Board += o.Parts[i].Outside // a little more or less than all that is asked
		}
		behind := singles(Order{Depth: o.Depth, Parts: o.Parts[1:]})
		order := []int{0}
		for _, i := range behind {
			order = append(order, i+1)
		}
		holds := false
		var try func(lie []way)
		try = func(lie []way) {
			if len(lie) == len(order) {
				_, ok := lay(o, order, lie)
				holds = holds || ok
				return
			}
			for _, w := range all {
				try(append(append([]way(nil), lie...), w))
			}
		}
		try([]way{{}})
		first, ok := lay(o, order[:1], []way{{}})
		if !ok {
			continue
		}
		q := o
		q.Board, q.Stocks, q.Parts = 0, []Stock{rest(o, first, 1)}, append([]Part(nil), o.Parts...)
		q.Parts[0].Count = 0
		p, err := Solve(context.Background(), q, Settings{})
		if (err == nil) != holds {
			t.Fatalf("brute force says %v, the solver %v: %+v", holds, err, q)
		}
		if err != nil {
			full++
			continue
		}
		fits++
		if faults, _ := Check(q, p); len(faults) > 0 {
			t.Fatal(faults)
		}
	}
	if fits < 50 || full < 50 {
		t.Errorf("%d fit and %d do not: the test says little", fits, full)
	}
}

// The checker finds a first part that stands wrongly behind the cut before it.
func TestTheCheckerKnowsABoardBegun(t *testing.T) {
	o := Order{Depth: 19 * mm, Kerf: 3 * mm, Turning: true,
		Stocks: []Stock{{Length: 1000 * mm, Limit: 1, OnHand: true, Begun: true, Lean: unit.FromDegrees(30)}},
		Parts:  []Part{{Name: "a", Outside: 300 * mm, Left: unit.FromDegrees(30), Right: unit.FromDegrees(30), Count: 2}}}
	p, err := Solve(context.Background(), o, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if !p.Boards[0].Parts[0].SharesCut {
		t.Error("the first part does not share the board's own cut")
	}
	if faults, _ := Check(o, p); len(faults) > 0 {
		t.Fatal(faults)
	}
	for name, change := range map[string]func(*Placed){
		"shares no cut": func(q *Placed) { q.SharesCut = false },
		"nearer":        func(q *Placed) { q.Start--; q.End-- },
		"turned":        func(q *Placed) { q.Turn = Roll },
	} {
		bad := p
		bad.Boards = []Board{p.Boards[0]}
		bad.Boards[0].Parts = append([]Placed(nil), p.Boards[0].Parts...)
		change(&bad.Boards[0].Parts[0])
		if faults, _ := Check(o, bad); len(faults) == 0 {
			t.Errorf("%s: not found", name)
		}
	}
	for name, change := range map[string]func(*Stock){
		"with a trim":       func(s *Stock) { s.TrimFirst = mm },
		"lean, not begun":   func(s *Stock) { s.Begun = false },
		"lean of the board": func(s *Stock) { s.Lean = unit.FromDegrees(90) },
	} {
		bad := o
		bad.Stocks = []Stock{o.Stocks[0]}
		change(&bad.Stocks[0])
		if _, err := Solve(context.Background(), bad, Settings{}); err == nil {
			t.Errorf("%s: taken", name)
		}
	}
}
