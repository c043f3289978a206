package cut

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"
)

func TestImpossible(t *testing.T) {
	base := Order{Board: 1000 * mm, Depth: 100 * mm, Kerf: 3 * mm, Turning: true}
	for _, c := range []struct {
		name       string
		change     func(o *Order)
		part       Part
		why        Why
		has, needs float64 // mm
	}{
		{"longer than the board", func(o *Order) {}, square(1001*mm, 1), TooLong, 1001, 1000},
		{"too long for the trims", func(o *Order) { o.TrimFirst, o.TrimFar = 5*mm, 7*mm }, square(990*mm, 1), TooLong, 1002, 1000},
		// At 45 degrees the ends take the part's own outside.
		{"too long outside", func(o *Order) {}, polygon(1000*mm+mm/10, 45, 1), TooLong, 1000.1, 1000},
		{"no inside", func(o *Order) {}, polygon(150*mm, 45, 1), NoFace, -50, 0},
		{"nothing to hold", func(o *Order) { o.Hold = 600 * mm }, square(500*mm, 1), NothingToHold, 500, 600},
		// A leaning cut: 1000 - 450 - 3/cos 45 is held on its shorter face.
		{"nothing to hold behind a mitre", func(o *Order) { o.Hold = 550 * mm }, polygon(450*mm, 45, 1), NothingToHold, 550 - 3*math.Sqrt2, 550},
	} {
		o := base
		c.change(&o)
		c.part.Name = c.name
		o.Parts = []Part{square(100*mm, 2), c.part}
		_, err := Solve(context.Background(), o, Settings{})
		var e *Impossible
		if !errors.As(err, &e) || len(e.Parts) != 1 {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got := e.Parts[0]
		if got.Part != 1 || got.Name != c.name || got.Why != c.why ||
			math.Abs(got.Has.MM()-c.has) > 1e-5 || math.Abs(got.Needs.MM()-c.needs) > 1e-5 {
			t.Errorf("%s: %+v", c.name, got)
		}
		if !strings.Contains(err.Error(), c.name) {
			t.Errorf("the error does not name the part: %v", err)
		}
	}
}

// All parts that cannot be cut are told at once.
func TestImpossibleAll(t *testing.T) {
	o := Order{Board: 100 * mm, Parts: []Part{square(101*mm, 1), square(50*mm, 1), square(102*mm, 1)}}
	_, err := Solve(context.Background(), o, Settings{})
	var e *Impossible
	if !errors.As(err, &e) || len(e.Parts) != 2 || e.Parts[1].Part != 2 {
		t.Errorf("%v", err)
	}
}

func TestNotAnOrder(t *testing.T) {
	for _, c := range []func(o *Order){
		func(o *Order) { o.Board = 0 },
		func(o *Order) { o.Board = 21 * unit.Metre },
		func(o *Order) { o.Kerf = -1 },
		func(o *Order) { o.Parts[0].Count = -1 },
		func(o *Order) { o.Parts[0].Count = MostParts + 1 },
		func(o *Order) { o.Parts[0].Outside = 0 },
		func(o *Order) { o.Parts[0].Left = math.Pi / 2 },
		func(o *Order) { o.Parts[0].Right = unit.Angle(math.NaN()) },
		func(o *Order) { o.Parts = append(o.Parts, square(mm, MostParts)) },
	} {
		o := Order{Board: 1000 * mm, Parts: []Part{square(100*mm, 2)}}
		c(&o)
		var e *Impossible
		if _, err := Solve(context.Background(), o, Settings{}); err == nil || errors.As(err, &e) {
			t.Errorf("%+v: %v", o, err)
		}
	}
}

func TestNothingToCut(t *testing.T) {
	for _, o := range []Order{{Board: 1000 * mm}, {Board: 1000 * mm, Parts: []Part{square(2000*mm, 0)}}} {
		if p := plan(t, o); len(p.Boards) != 0 || !p.Bought.Proved() {
			t.Errorf("%+v", p)
		}
	}
}

// A part as long as its board needs no cut, and so nothing to hold.
func TestWholeBoard(t *testing.T) {
	o := Order{Board: 1000 * mm, Kerf: 3 * mm, Hold: 2000 * mm, Parts: []Part{square(1000*mm, 2)}}
	p := want(t, o, 2)
	if got := p.Boards[0].Parts[0].Held; got.What != NoCut {
		t.Errorf("held: %+v", got)
	}
	o.TrimFar = mm
	if _, err := Solve(context.Background(), o, Settings{}); err == nil {
		t.Error("with a trim it must be cut, and does not fit")
	}
}

// N equal parts that share their cuts take N(L - w tan a) + w tan a +
// (N-1) kerf / cos a, by plain geometry.
func TestSharedCuts(t *testing.T) {
	for _, degrees := range []float64{0, 15, 22.5, 30, 45, 60, -30} {
		o := Order{Board: 2400 * mm, Depth: 40 * mm, Kerf: 3 * mm, Turning: true, Parts: []Part{polygon(300*mm, degrees, 5)}}
		b := want(t, o, 1).Boards[0]
		lean, n := 40*math.Tan(degrees*deg), 5.0
		should := n*(300-lean) + math.Abs(lean) + (n-1)*3/math.Cos(degrees*deg)
		if got := extent(b); math.Abs(got-should) > 1e-6 {
			t.Errorf("%g degrees: %g mm, want %g", degrees, got, should)
		}
		for i, p := range b.Parts {
			if i > 0 && !p.SharesCut || i > 0 && degrees != 0 && p.Turn != Roll || degrees == 0 && p.Turn != None {
				t.Errorf("%g degrees, part %d: shares %v, turn %v", degrees, i, p.SharesCut, p.Turn)
			}
		}
	}
}

// One good face: the parts cannot be rolled, and each wedge between two is
// waste, w tan a on the centre line.
func TestOneGoodFace(t *testing.T) {
	o := Order{Board: 2400 * mm, Depth: 40 * mm, Kerf: 3 * mm, Parts: []Part{polygon(300*mm, 30, 5)}}
	b := want(t, o, 1).Boards[0]
	should := 5*300 + 4*3/math.Cos(30*deg)
	if got := extent(b); math.Abs(got-should) > 1e-6 {
		t.Errorf("%g mm, want %g", got, should)
	}
	// A part that leans alike at both ends shares its cuts all the same.
	o.Parts = []Part{{Outside: 300 * mm, Left: 30 * deg, Right: -30 * deg, Count: 5}}
	for i, p := range want(t, o, 1).Boards[0].Parts {
		if p.Rolled != p.Swapped || i > 0 && !p.SharesCut {
			t.Errorf("part %d: %+v", i, p)
		}
	}
}

// Unlike ends share their cuts when ends are swapped.
func TestUnlikeEnds(t *testing.T) {
	o := Order{Board: 2400 * mm, Depth: 40 * mm, Kerf: 3 * mm, Turning: true,
		Parts: []Part{{Outside: 300 * mm, Left: 45 * deg, Right: 22.5 * deg, Count: 4}}}
	for i, p := range want(t, o, 1).Boards[0].Parts {
		if i > 0 && (!p.SharesCut || p.Turn != SwapEnds) {
			t.Errorf("part %d: %+v", i, p)
		}
	}
}

// The shorter parts come first, and a board ends on its longest.
func TestBenchOrder(t *testing.T) {
	o := Order{Board: 2400 * mm, Depth: 18 * mm, Kerf: 3 * mm, Hold: 200 * mm, Turning: true,
		Parts: []Part{polygon(600*mm, 30, 1), polygon(150*mm, 30, 3), polygon(400*mm, 30, 2)}}
	b := want(t, o, 1).Boards[0]
	if got := names(b); !slices.Equal(got, []int{1, 1, 1, 2, 2, 0}) {
		t.Errorf("order %v", got)
	}
	for i, p := range b.Parts {
		if p.Held.Short < 200 || i < 5 && p.Held.What != TheBoard {
			t.Errorf("part %d: held %+v", i, p.Held)
		}
	}
}

// The waste is gathered: two boards could leave 1 and 699, or 300 and 400.
func TestLongOffcut(t *testing.T) {
	o := Order{Board: 1000 * mm, Parts: []Part{square(600*mm, 1), square(400*mm, 1), square(300*mm, 1)}}
	p := want(t, o, 2)
	if got := p.Boards[1].Offcut; got != 700*mm {
		t.Errorf("longest offcut %v mm, want 700", got.MM())
	}
}

// The same order gives the same plan; the same parts in another order, split
// or turned, as many boards.
func TestSameAgain(t *testing.T) {
	r := rand.New(rand.NewSource(4))
	for seed := range int64(6) {
		o := shop(seed, 8, 60)
		p := plan(t, o)
		if a, b := fmt.Sprintf("%+v", p), fmt.Sprintf("%+v", plan(t, o)); a != b {
			t.Fatalf("two plans of one order:\n%s\n%s", a, b)
		}
		q := o
		q.Parts = slices.Clone(o.Parts)
		r.Shuffle(len(q.Parts), func(i, j int) { q.Parts[i], q.Parts[j] = q.Parts[j], q.Parts[i] })
		first := q.Parts[0]
		q.Parts[0].Count--
		first.Count, first.Left, first.Right = 1, first.Right, first.Left
		q.Parts = append(q.Parts, first)
		want(t, q, len(p.Boards))
	}
}

// Parts that are one stick are planned as one kind, whichever face is called
// the outside.
func TestOneStick(t *testing.T) {
	o := Order{Board: 1000 * mm, Depth: 10 * mm, Turning: true, Parts: []Part{
		{Outside: 300 * mm, Left: 45 * deg, Right: 45 * deg, Count: 1},
		{Outside: 280 * mm, Left: -45 * deg, Right: -45 * deg, Count: 1},
		{Outside: 300 * mm, Left: 45 * deg, Right: -45 * deg, Count: 1},
	}}
	if ks := o.kinds(); len(ks) != 2 || !slices.Equal(ks[0].parts, []int{0, 1}) {
		t.Errorf("%+v", ks)
	}
	o.Turning = false
	if ks := o.kinds(); len(ks) != 3 {
		t.Errorf("not to be turned: %+v", ks)
	}
}

// A spent budget and a cancelled context give a right plan and a right bound.
func TestStopped(t *testing.T) {
	o := shop(3, 30, 200)
	best := len(plan(t, o).Boards)
	p, err := Solve(context.Background(), o, Settings{Work: 50})
	if err != nil || p.CutShort || p.Bought.Bound > int64(best) || len(p.Boards) < best {
		t.Errorf("budget: %d boards, bound %d, best %d, %v", len(p.Boards), p.Bought.Bound, best, err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	q, err := Solve(ctx, o, Settings{})
	if err != nil || !q.CutShort || q.Bought.Bound > int64(best) || len(q.Boards) < best {
		t.Errorf("cancelled: %d boards, bound %d, best %d, %v", len(q.Boards), q.Bought.Bound, best, err)
	}
	for _, p := range []Plan{p, q} {
		if faults, _ := Check(o, p); len(faults) > 0 {
			t.Errorf("faults %v", faults)
		}
	}
}

// Orders like a shop's are proved, and the proof followed.
func TestShopOrders(t *testing.T) {
	for seed := range int64(10) {
		for _, turning := range []bool{true, false} {
			o := shop(100+seed, 12, 120)
			o.Turning = turning
			want(t, o, len(plan(t, o).Boards))
		}
	}
}
