// Package frame turns a shape into the parts of a mitred timber frame: how
// long each side is, what the saw is set to at each end, what the tape makes of
// it, how each end is sawn and what a saw out of true does.
//
// Start at an outline: Regular, Rectangle, House, HalfRound, ByCorners and so
// on, each named for the measures one holds. Build lays boards along it and
// gives the Frame as it comes off the saw. Saw.Cut says how a part is sawn.
//
// Lengths that are typed, bought or sawn are unit.Length; what follows from
// them is float64 millimetres, angles are radians as unit.Angle. Everything is
// seen from the front, x to the right and y up from the floor. All measures of
// a shape are outside measures unless their name says inside.
//
// Corners run counter-clockwise. Side k, counted from 1, runs from corner k to
// corner k+1. Side 1 is the side the frame stands on; a frame that stands on a
// corner starts there, with the side going up to the right. An arch is open:
// corner 1 is its right foot, the last corner its left foot, and the side that
// is missing is the floor between them.
//
// A setting is counted from straight across the board and has a sign: positive
// makes the inside shorter. At a corner with inside angle t it is (180° - t)/2
// at both parts, so it is negative where the outline turns inwards, and the
// settings of any closed frame, each counted twice, add to 360°: the outside
// angles of a simple polygon do.
//
// The package promises that a frame closes: what rounding to the tape leaves
// at the last joint is stated, and above the joint tolerance two parts get
// fitted lengths instead. It knows nothing of boards as bought, of hold or of
// where frames stand, and it never says that a cut may be made: the saw
// maker's own instructions come first.
package frame
