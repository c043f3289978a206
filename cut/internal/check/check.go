// Package check looks over a cutting plan without the program that made it.
//
// It knows the plan as plain numbers and shares no code with the solver. It
// draws every part as four corners in the strip of a board, bottom and top,
// and asks of each board what a person with a rule could ask: is each part
// itself, does nothing enter anything, is there a kerf between, does it stay
// inside the trims, is something held at every cut. The proof is followed by a
// search of its own, in bound.go and cover.go.
//
// Lengths are in nanometres, angles in radians.
package check

import (
	"fmt"
	"math"
	"slices"
)

// A Stock is a clear length of timber and the rules.
type Stock struct {
	Board, TrimFirst, TrimFar, Depth, Kerf, Hold float64
	Turning, BySetting                           bool
	Begun                                        bool    // the first end is the cut that ended a part
	Lean                                         float64 // of that cut, positive to the far end at the top
}

// A Part is a stick wanted Count times: its outside and signed settings.
type Part struct {
	Outside, Left, Right float64
	Count                int
}

// A Piece is a part as the plan says it lies: centre-line places and slopes.
type Piece struct {
	Part                    int
	Rolled, Swapped, Shares bool
	Start, End, Left, Right float64
	Turn                    int     // 0 none, 1 roll, 2 swap ends, 3 both
	Held                    int     // 0 the board, 1 the part, 2 no cut
	HeldShort               float64 // on the shorter face
}

// A Board is one board of the plan: of which stock, which clear length of it,
// and where that begins.
type Board struct {
	Stock, Stretch int
	From           float64
	Pieces         []Piece
	Offcut         float64
	Alike          int
}

// A Claim is a plan.
type Claim struct {
	Boards               []Board
	AreaBound            int
	Cost, Bought, Offcut Level
}

// A Level is what the plan comes to at one aim, what is said to be possible at
// best, and the rulings that show it.
type Level struct {
	Value, Bound int64
	Rulings      []Ruling
}

// A Ruling is worths by part, the most a board of a stretch holds, and with
// Counts the boards it rules out.
type Ruling struct {
	V, Z   []int64
	Counts []int
}

// A Fault is one rule broken.
type Fault struct {
	Board int // -1: the plan as a whole
	Piece int // -1: the board as a whole
	Says  string
}

// String gives the fault in words, places counted from 1.
func (f Fault) String() string {
	switch {
	case f.Board < 0:
		return f.Says
	case f.Piece < 0:
		return fmt.Sprintf("board %d: %s", f.Board+1, f.Says)
	}
	return fmt.Sprintf("board %d, part %d: %s", f.Board+1, f.Piece+1, f.Says)
}

// near is how far, in nanometres, two ways of computing one length may differ:
// a plan's millimetres in float64 are good to a hundredth of it.
const near = 1.0

// slip is how far, in nanometres, parts may overrun a board: a micrometre, by
// which the plan's whole nanometres may add up to more than an exact fit.
const slip = 1000

func same(a, b float64) bool { return math.Abs(a-b) <= near }

// A checker gathers faults.
type checker struct {
	stock        Stock // of the board looked at
	parts        []Part
	rank         []int // bench order, by part
	board, piece int
	faults       []Fault
}

func (c *checker) wrong(format string, args ...any) {
	c.faults = append(c.faults, Fault{c.board, c.piece, fmt.Sprintf(format, args...)})
}

// Boards gives what is wrong with the boards of a plan.
func Boards(y Yard, parts []Part, claim Claim) []Fault {
	c := &checker{parts: parts, rank: ranks(y.Rules, parts), board: -1, piece: -1}
	c.counts(claim)
	c.taken(y, claim)
	if len(c.faults) > 0 {
		return c.faults // the rest would trip over parts and boards that do not exist
	}
	alike := map[string]int{}
	for _, b := range claim.Boards {
		alike[b.parts()]++
	}
	spare := c.spare(y, claim)
	for i, b := range claim.Boards {
		c.board, c.piece = i, -1
		c.shortest(y, b, spare)
		if n := alike[b.parts()]; n != b.Alike {
			c.wrong("%d boards alike, not %d", n, b.Alike)
		}
		t := y.stretches[y.find(b)]
		if !same(t.from, b.From) {
			c.wrong("its length begins at %.0f nm, not %.0f", t.from, b.From)
		}
		c.stock = t.Stock
		c.one(b)
	}
	return c.faults
}

// spare gives the boards on hand of which some are left.
func (c *checker) spare(y Yard, claim Claim) (out []stretch) {
	taken := make([]int, len(y.stretches))
	for _, b := range claim.Boards {
		taken[y.find(b)]++
	}
	for k, t := range y.stretches {
		if t.bought == 0 && taken[k] < t.limit {
			out = append(out, t)
		}
	}
	return out
}

// shortest checks that no shorter board on hand, at the same price and left
// over, holds what is on one.
func (c *checker) shortest(y Yard, b Board, spare []stretch) {
	own := y.stretches[y.find(b)]
	for _, t := range spare {
		if own.bought == 0 && t.price == own.price && t.Board < own.Board && t.holds(c.parts, b) {
			c.wrong("a board of %.0f nm would do", t.Board)
		}
	}
}

// holds says whether the parts of a board go on a stretch.
func (t stretch) holds(parts []Part, b Board) bool {
	n := newBench(t.Stock, parts, make([]int64, len(parts)))
	have := make([]int, len(n.sticks))
	for _, p := range b.Pieces {
		have[slices.IndexFunc(n.sticks, func(s stick) bool { return slices.Contains(s.parts, p.Part) })]++
	}
	rows := []row{{foot: -1}}
	for k, count := range have {
		for range count {
			if rows = n.grown(rows, k); len(rows) == 0 {
				return false
			}
		}
	}
	return n.stands(rows)
}

// taken checks that no more boards are cut than there are.
func (c *checker) taken(y Yard, claim Claim) {
	taken := make([]int, len(y.stretches))
	for i, b := range claim.Boards {
		at := y.find(b)
		if at < 0 {
			c.wrong("board %d is of no stock", i+1)
			continue
		}
		taken[at]++
	}
	for k, t := range y.stretches {
		if t.limit > 0 && taken[k] > t.limit {
			c.wrong("%d boards of stock %d, there are %d", taken[k], t.stock+1, t.limit)
		}
	}
}

// parts gives the stock and parts of a board in words.
func (b Board) parts() string {
	s := fmt.Sprint(b.Stock, ":")
	for _, p := range b.Pieces {
		s += fmt.Sprint(p.Part, " ")
	}
	return s
}

// counts checks that every part is cut as often as it is wanted.
func (c *checker) counts(claim Claim) {
	got := make([]int, len(c.parts))
	for i, b := range claim.Boards {
		if len(b.Pieces) == 0 {
			c.wrong("board %d is empty", i+1)
		}
		for _, p := range b.Pieces {
			if p.Part < 0 || p.Part >= len(got) {
				c.wrong("no part %d", p.Part)
				return
			}
			got[p.Part]++
		}
	}
	for i, p := range c.parts {
		if got[i] != p.Count {
			c.wrong("part %d is cut %d times, not %d", i, got[i], p.Count)
		}
	}
}

// one checks a board.
func (c *checker) one(b Board) {
	shapes := make([]corners, len(b.Pieces))
	for i, p := range b.Pieces {
		c.piece = i
		shapes[i] = c.shape(p)
		if i == 0 {
			c.first(p, shapes[0])
		} else {
			c.between(b.Pieces[i-1], p, shapes[i-1], shapes[i])
		}
		c.held(p, shapes[i], i == len(b.Pieces)-1)
	}
	c.piece = -1
	n := len(b.Pieces) - 1
	end := shapes[n].right()
	if end > c.stock.Board-c.stock.TrimFar+slip {
		c.wrong("the last part ends in the far trim")
	}
	offcut := max(c.stock.Board-c.stock.TrimFar-end-c.kerf(b.Pieces[n], false), 0)
	if math.Abs(offcut-b.Offcut) > 2*near {
		c.wrong("the offcut is %.0f nm, not %.0f", offcut, b.Offcut)
	}
}

// A corners is a part in the strip: x at the left and right, bottom and top.
type corners struct{ bl, br, tl, tr float64 }

func (q corners) right() float64 { return max(q.br, q.tr) }
func (q corners) short() float64 { return min(q.br-q.bl, q.tr-q.tl) }

// drawn draws a part as given, its outside at the bottom from 0 on.
func drawn(s Stock, p Part) corners {
	return corners{0, p.Outside, s.Depth * math.Tan(p.Left), p.Outside - s.Depth*math.Tan(p.Right)}
}

// roll turns the strip over its length, swap turns it about its middle.
func (q corners) roll() corners { return corners{q.tl, q.tr, q.bl, q.br} }
func (q corners) swap() corners { return corners{-q.tr, -q.tl, -q.br, -q.bl} }

// shape gives the corners of a piece, and checks that they are its part's.
func (c *checker) shape(p Piece) corners {
	is := corners{p.Start - p.Left/2, p.End - p.Right/2, p.Start + p.Left/2, p.End + p.Right/2}
	should := drawn(c.stock, c.parts[p.Part])
	if p.Rolled {
		should = should.roll()
	}
	if p.Swapped {
		should = should.swap()
	}
	at := is.bl - should.bl
	if !same(is.br-at, should.br) || !same(is.tl-at, should.tl) || !same(is.tr-at, should.tr) {
		c.wrong("it is not the part it should be")
	}
	if !c.stock.Turning && (p.Rolled || p.Swapped) {
		c.wrong("the board is turned")
	}
	return is
}

// kerf gives the width of the cut at an end of a piece, along the board.
func (c *checker) kerf(p Piece, left bool) float64 {
	part := c.parts[p.Part]
	a := part.Right
	if left != p.Swapped {
		a = part.Left
	}
	return c.stock.Kerf / math.Cos(a)
}

// first checks the first part of a board: clear of the trim, and no further.
func (c *checker) first(p Piece, q corners) {
	if c.stock.Begun {
		c.after(p, q)
		return
	}
	if !same(min(q.bl, q.tl), c.stock.TrimFirst) {
		c.wrong("it does not begin at the trim")
	}
	if p.Shares || p.Turn != 0 {
		c.wrong("the first part shares no cut and needs no turn")
	}
}

// after checks the first part of a board from which others were cut before: it
// lies behind the last of them as behind a neighbour, which ends at 0.
func (c *checker) after(p Piece, q corners) {
	lean := c.stock.Depth * math.Tan(c.stock.Lean)
	bottom, top := q.bl+lean/2, q.tl-lean/2
	if wide := max(c.stock.Kerf/math.Cos(c.stock.Lean), c.kerf(p, true)); !same(min(bottom, top), wide) {
		c.wrong("it lies %.0f nm from the parts cut before, a cut is %.0f", min(bottom, top), wide)
	}
	if p.Shares != same(bottom, top) {
		c.wrong("whether it shares the board's own cut is told wrongly")
	}
	if p.Turn != 0 {
		c.wrong("the first part needs no turn")
	}
}

// between checks two neighbours.
func (c *checker) between(a, b Piece, p, q corners) {
	bottom, top := q.bl-p.br, q.tl-p.tr
	wide := max(c.kerf(a, false), c.kerf(b, true))
	if !same(min(bottom, top), wide) {
		c.wrong("it lies %.0f nm from the part before, a cut is %.0f", min(bottom, top), wide)
	}
	if b.Shares != same(bottom, top) {
		c.wrong("whether it shares a cut is told wrongly")
	}
	turn := 0
	if a.Rolled != b.Rolled {
		turn++
	}
	if a.Swapped != b.Swapped {
		turn += 2
	}
	if b.Turn != turn {
		c.wrong("its turn is %d, not %d", turn, b.Turn)
	}
	if c.rank[b.Part] < c.rank[a.Part] || c.rank[b.Part] == c.rank[a.Part] && b.Part < a.Part {
		c.wrong("it should come before the part before it")
	}
}

// held checks what is held at the cut that ends a piece.
func (c *checker) held(p Piece, q corners, last bool) {
	rest := c.stock.Board - q.right() - c.kerf(p, false)
	what, short := 0, rest
	square := same(q.br, q.tr)
	switch {
	case last && square && c.stock.TrimFar == 0 && c.stock.Board-q.br < slip:
		what, short = 2, 0
	case last && q.short() > rest:
		what, short = 1, q.short()
	}
	if p.Held != what || !same(p.HeldShort, short) {
		c.wrong("what is held is told wrongly")
	}
	if what == 2 {
		return // the cut before held this part as the rest of the board
	}
	if short < c.stock.Hold-slip {
		c.wrong("%.0f nm are held, not %.0f", short, c.stock.Hold)
	}
}
