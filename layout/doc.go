// Package layout puts frames in their places and reads off what follows from
// their places alone: which sides lie against each other (seams), what merely
// touches, what almost touches, what overlaps, what stands on the floor, how
// wide the opening is, and in which order the frames are numbered.
//
// Everything is in float64 mm in the plane of the set piece, seen from the
// front: x to the right from the left end, y up from the floor, which is the
// lowest point of any frame. Angles are radians, anticlockwise.
//
// The frames come in as built, after their parts were rounded to the tape, so
// that every figure here is one that can be measured on the finished piece. A
// second layout of the sizes as asked for shows, through Moved, what the
// rounding did.
//
// Snap finds where one more frame, held near the others, comes to lie: what the
// drawing in the browser does while a frame is dragged.
//
// The promise: equal input gives an equal Layout; all problems are found in one
// run; the work grows about linearly with the number of frames.
//
// It knows nothing of boards as bought, of screws, weight or strength, and it
// does not put anything right: a loop that does not close is reported, never
// spread over its seams.
package layout
