package cut

import "bowerwright/unit"

// A Plan is how an order is cut. Its three levels say how good it is, one
// after the other: what is bought costs least; of the plans that cost no more
// the fewest boards are bought; of those the longest offcut stays on one of
// the boards bought. Where nothing is priced the first says nothing.
type Plan struct {
	Boards    []Board
	Cost      Level // in minor units, what is on hand at its price included
	Bought    Level // boards
	Offcut    Level // in nanometres, 0 when none is worth keeping
	AreaBound int   // boards by length alone, all the longest, no kerf, no waste: for comparison
	CutShort  bool  // the context ended the search
	Work      int64 // steps counted
}

// A Level is one aim: what the plan comes to, and what no plan that is as good
// at the levels before can better. For an offcut Bound is met to OffcutSlip.
type Level struct {
	Value, Bound int64
	Proof        Proof
}

// Proved says that nothing better is possible at this level.
func (l Level) Proved() bool { return l.Value == l.Bound }

// OffcutSlip is by how much, in nanometres, a longer offcut than the bound may
// be possible: the micrometre by which a board may be overrun, and as much for
// the rounding of its parts to whole nanometres.
const OffcutSlip = 2 * slip

// A Proof shows that a bound cannot be bettered. No boards that could do so
// are allowed by its rulings: see Ruling. For the offcut, the worth of all
// parts less what the other boards hold must lie on the board with the offcut,
// and no parts of that worth are short enough.
type Proof struct {
	Kind    ProofKind
	Rulings []Ruling
}

// A Ruling rules out boards by worths. V gives every part of the order a worth.
// In whole nanometres, rounded down, a board of a stretch holds no parts worth
// more than its Z together. The stretches are the boards of the stocks in
// order; of a board with spans, the clear lengths one by one. Boards of less Z
// in sum than all parts are worth are ruled out. A ruling with Counts, by
// stretch, rules out so many boards, and any fewer: they could be worth as
// much, but their patterns then lose no more than the difference, each against
// its Z, and no patterns that lose so little cover the counts.
type Ruling struct {
	V      []int64
	Z      []int64
	Counts []int
}

// A ProofKind says what a proof consists of.
type ProofKind string

// The kinds of proof.
const (
	Multipliers ProofKind = "multipliers"           // one ruling by worths
	ByCounts    ProofKind = "multipliers by counts" // several: each rules other counts of boards out
	Cover       ProofKind = "multipliers and cover" // with counts whose patterns are listed anew
	NoProof     ProofKind = "none"                  // the bound says nothing
)

// A Board is one board with its parts from the first end on: or, of a board
// with spans, one of its clear lengths.
type Board struct {
	Stock   int         // index in the order's Stocks; 0 for Board
	Stretch int         // which clear length of a board with spans
	From    unit.Length // where that begins, from the first end of the board
	Parts   []Placed
	// Offcut is what is left behind the last cut, on the shorter face, less
	// the far trim.
	Offcut unit.Length
	Alike  int // boards of the plan of this stock with the same parts, this one among them
}

// A Placed is a part as it lies on its board. Lengths are in millimetres from
// the first end of the board (or clear length), on the centre line; slopes are the ends' shifts
// from bottom to top.
type Placed struct {
	Part                  int // index in the order
	Rolled, Swapped       bool
	Start, End            float64
	LeftSlope, RightSlope float64
	SharesCut             bool // its left end is the cut that ends the part before, or the board's own of one begun
	// Turn is what brings the part before into the position of this one.
	// Where both would, a roll is named and not a swap, since the board then
	// stays in its place. The first part of a board has none.
	Turn Turn
	Held Held // at the cut that ends it
}

// A Turn is how a board is turned between cuts.
type Turn int

// The turns.
const (
	None Turn = iota
	Roll
	SwapEnds
	RollAndSwap
)

// A Held is what the maker holds at a cut.
type Held struct {
	What  Hold
	Short float64 // its length on the shorter face, mm
}

// A Hold is one of the two pieces a cut parts, or none.
type Hold int

// What is held. At the last cut of a board it is the longer of the two; before
// it, the rest of the board. A part that reaches the end of its board is not
// cut off.
const (
	TheBoard Hold = iota
	ThePart
	NoCut
)
