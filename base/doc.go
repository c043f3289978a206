// Package base is what a set piece stands on: plates, rings, feet, frame bases,
// braces behind it, wings that stand at an angle to it; and the ballast and
// stakes that hold it there.
//
// # Where things are
//
// Everything is seen in plan, float64 mm: x to the right from the left end of
// the piece, as in the front view, and y backwards from the foremost front edges
// of its frames, away from the guests. Heights are counted from the floor.
// Angles run anticlockwise as seen from above: 0 points to the right, a quarter
// turn backwards.
//
// # What is computed
//
// From the standing boards and the pieces of the base: the support polygon's
// convex hull, over whose edges alone the whole can tip; how far the base lifts
// the piece; the weights of the base with their places; where units of ballast
// find room on it; and the edge on which the piece turns when it is tilted up.
//
// A base that goes under the piece carries it: then the standing boards do not
// touch the floor and the hull is the base's alone. Without one the hull goes
// round the standing boards and the braces, wings and feet beside them, which
// are taken to be packed up to one level.
//
// # The promise
//
// Equal input gives an equal result; all that is wrong comes at once.
//
// # What it does not know
//
// Whether the joint between piece and base holds: that is strength, and a base
// that is wide enough is of no use under a joint that is not. It does not know
// the floor but by the words and the friction that it is told.
package base
