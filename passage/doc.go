// Package passage says whether one rigid piece passes one tight spot, how it is
// held and what is left over.
//
// A [Piece] is flat: outlines in its own plane as seen from the front, x to the
// right and y up, and one thickness. [Piece.Body] prepares it once; every
// [Spot] then answers with a [Verdict]. Lengths are float64 millimetres and
// angles radians.
//
// The promise: a piece that passes here passes in one position held still from
// one side of the spot to the other. Straight through, one direction of the
// piece's plane lies along the way, across it or upright; all such positions
// are looked at, by the angles at which a side of the hull lies flush. Round a
// corner it stands upright or lies flat and turns on the floor; all turns of
// its convex hull are looked at. A clearance is the whole slack left in a
// direction, half on either side with the piece in the middle; it is negative
// by as much as is missing. More room never turns a yes into a no.
//
// What it does not know: threading, which is turning or leaning on the way
// through; bending; carrying a door post through the opening of a frame;
// positions askew in two ways at once; the slope of a stair, a handrail above
// it, a door leaf that does not open wholly; the rounding of a wheel arch or a
// load above it. So a no means [NotStill], and not that it cannot be done.
package passage

// NotStill is what is said of a piece that does not pass.
const NotStill = "does not pass held still; threading is not considered"

// Snug is how much, in mm, a piece may lack and still count as passing: a
// nanometre, the grain of every length typed, so that a piece as large as its
// opening passes whatever the rounding of its sums.
const Snug = 1e-6
