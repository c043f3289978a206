package cut

import (
	"context"
	"math"
	"testing"

	"bowerwright/unit"
)

const (
	inch = unit.Inch
	mm   = unit.Millimetre
	deg  = math.Pi / 180
)

// plan solves an order and wants a plan without faults.
func plan(t *testing.T, o Order) Plan {
	t.Helper()
	p, err := Solve(context.Background(), o, Settings{})
	if err != nil {
		t.Fatal(err)
	}
	faults, rechecked := Check(o, p)
	for _, f := range faults {
		t.Errorf("the checker: %v", f)
	}
	if p.Bought.Proved() && !rechecked.Bought {
		t.Errorf("the checker could not follow the proof")
	}
	return p
}

// want tells the boards that a proved plan must have.
func want(t *testing.T, o Order, boards int) Plan {
	t.Helper()
	p := plan(t, o)
	if len(p.Boards) != boards || !p.Bought.Proved() || p.Bought.Bound != int64(boards) {
		t.Errorf("%d boards, bound %d, proved %v; want %d, proved", len(p.Boards), p.Bought.Bound, p.Bought.Proved(), boards)
	}
	return p
}

// polygon gives n equal mitred parts.
func polygon(outside unit.Length, degrees float64, n int) Part {
	return Part{Name: "side", Outside: outside, Left: unit.Angle(degrees * deg), Right: unit.Angle(degrees * deg), Count: n}
}

// square gives n parts with square ends.
func square(length unit.Length, n int) Part { return polygon(length, 0, n) }

// extent gives how much of a board its parts take in the strip.
func extent(b Board) float64 {
	first, last := b.Parts[0], b.Parts[len(b.Parts)-1]
	return last.End + math.Abs(last.RightSlope)/2 - (first.Start - math.Abs(first.LeftSlope)/2)
}

// Public maker's report, corrected by plain geometry: a giant open hexagon of
// 48 in sides from 8 ft boards. Two parts of a board take 2(48 - w tan 30) +
// w tan 30 + kerf / cos 30.
func TestGiantHexagon(t *testing.T) {
	for _, c := range []struct {
		depth  unit.Length
		length float64 // in
	}{{7 * inch / 2, 94.12}, {3 * inch / 2, 95.28}} {
		o := Order{Board: 96 * inch, Depth: c.depth, Kerf: inch / 8, Turning: true, Parts: []Part{polygon(48*inch, 30, 6)}}
		p := want(t, o, 3)
		for _, b := range p.Boards {
			if got := extent(b) / 25.4; math.Abs(got-c.length) > 0.005 {
				t.Errorf("depth %v in: two parts take %.3f in, want %.2f", c.depth.Inches(), got, c.length)
			}
		}
	}
}

// Public maker's report: six parts of a 250 mm hexagon from one 2400 mm board,
// and by plain geometry nine would fit.
func TestMetricHexagon(t *testing.T) {
	o := Order{Board: 2400 * mm, Depth: 22 * mm, Kerf: 3 * mm, Turning: true, Parts: []Part{polygon(250*mm, 30, 6)}}
	want(t, o, 1)
	o.Parts[0].Count = 9
	want(t, o, 1)
	o.Parts[0].Count = 10
	want(t, o, 2)
}

// Common practice, no source: 8 in parts from a 96 in board are 11, not 12;
// 12 in ones are 7, not 8, for the kerf.
func TestKerfCosts(t *testing.T) {
	for _, c := range []struct {
		inches unit.Length
		fit    int
	}{{8, 11}, {12, 7}} {
		o := Order{Board: 96 * inch, Kerf: inch / 8, Parts: []Part{square(c.inches*inch, c.fit)}}
		want(t, o, 1)
		o.Parts[0].Count++
		want(t, o, 2)
	}
}

// Public maker's report, corrected: a photo wall from 8 ft boards takes seven
// if the 48 in parts may be 47 15/16 (two of them and a kerf of 1/8 are 96 in
// exactly). Exact ones take a board each, and the 60 in part goes with none:
// 4 + 4 + 1.
func TestPhotoWall(t *testing.T) {
	o := Order{Board: 96 * inch, Depth: 3 * inch / 2, Kerf: inch / 8, Hold: 8 * inch, Parts: []Part{
		square(96*inch, 4), square(48*inch-inch/16, 4), square(60*inch, 1)}}
	want(t, o, 7)
	o.Parts[1].Outside = 48 * inch
	want(t, o, 9)
}

// Plain geometry: the parts of a cluster of five hexagons on edge. With kerf 3
// the parts alone take 9 400 mm of centre lines and 26 x 3.46 of kerf: five
// boards and not four, with 200 mm to hold as without.
func TestCluster(t *testing.T) {
	for _, hold := range []unit.Length{0, 200 * mm} {
		want(t, Order{Board: 2400 * mm, Depth: 18 * mm, Kerf: 3 * mm, Hold: hold, Turning: true, Parts: []Part{
			polygon(600*mm, 30, 6), polygon(400*mm, 30, 12), polygon(200*mm, 30, 12)}}, 5)
	}
}

// Plain geometry: a 96 in board gives 30 sides of a hexagon 6 in across flats
// by arithmetic, and 27 with 8 in left in the hand.
func TestHold(t *testing.T) {
	side := unit.Length(math.Round(6 / math.Sqrt(3) * float64(inch)))
	o := Order{Board: 96 * inch, Depth: 3 * inch / 4, Kerf: inch / 8, Turning: true}
	for _, c := range []struct {
		hold unit.Length
		fit  int
	}{{0, 30}, {8 * inch, 27}} {
		o.Hold = c.hold
		o.Parts = []Part{polygon(side, 30, c.fit)}
		want(t, o, 1)
		o.Parts[0].Count++
		want(t, o, 2)
	}
}

// A published textbook problem: a 5600 mm roll in 13 widths. 73 rolls is in
// the article that states it.
func TestRoll5600(t *testing.T) {
	o := Order{Board: 5600 * mm}
	for _, w := range [][2]int{{1380, 22}, {1520, 25}, {1560, 12}, {1710, 14}, {1820, 18}, {1880, 18}, {1930, 20},
		{2000, 10}, {2050, 12}, {2100, 14}, {2140, 16}, {2150, 18}, {2200, 20}} {
		o.Parts = append(o.Parts, square(unit.Length(w[0])*mm, w[1]))
	}
	want(t, o, 73)
}

// A textbook problem (Gilmore and Gomory's model; Chvatal, Linear Programming,
// chapter 13, from memory): a 100 in roll. Prices of 1/2, 1/2, 1/4 and 0 of a
// roll give a bound of 452.25, so 453 is least.
func TestRoll100(t *testing.T) {
	want(t, Order{Board: 100 * inch, Parts: []Part{
		square(45*inch, 97), square(36*inch, 610), square(31*inch, 395), square(14*inch, 211)}}, 453)
}
