package cut

import "bowerwright/unit"

// A Plan is how an order is cut.
type Plan struct {
	Boards []Board
	// Bound is the number of boards below which no plan can go, as far as the
	// proof shows; Proved says that the plan reaches it.
	Bound     int
	Proved    bool
	AreaBound int  // boards by length alone, no kerf, no waste: for comparison
	CutShort  bool // the context ended the search
	Proof     Proof
	Work      int64 // steps counted
}

// A Proof shows that fewer boards than Bound are impossible; see its Kind.
type Proof struct {
	Kind ProofKind
	// V gives every part of the order a worth. In whole nanometres, rounded
	// down, no board holds parts worth more than Z together.
	V     []int64
	Z     int64
	Bound int
}

// A ProofKind says what follows from the worths.
type ProofKind string

// The kinds of proof.
const (
	// Multipliers: all parts are worth more than Bound-1 boards can hold.
	Multipliers ProofKind = "multipliers"
	// Cover: Bound-1 boards can be worth as much as all parts. But then their
	// patterns lose, each against Z, no more than (Bound-1) Z less the worth of
	// all parts, in sum, and no patterns that lose so little cover the counts.
	Cover ProofKind = "multipliers and cover"
)

// A Board is one board with its parts from the first end on.
type Board struct {
	Parts []Placed
	// Offcut is what is left behind the last cut, on the shorter face, less
	// the far trim.
	Offcut unit.Length
	Alike  int // boards of the plan with the same parts, this one among them
}

// A Placed is a part as it lies on its board. Lengths are in millimetres from
// the first end of the board, on the centre line; slopes are the ends' shifts
// from bottom to top.
type Placed struct {
	Part                  int // index in the order
	Rolled, Swapped       bool
	Start, End            float64
	LeftSlope, RightSlope float64
	SharesCut             bool // its left end is the cut that ends the part before
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
