// Package dressing works out, for each way in which a set piece is dressed,
// what it weighs, where that weight hangs, and how much of it stops the wind.
//
// # Where things are
//
// The front view is that of the layout: float64 mm, x to the right from the left
// end, y up from the floor. Back is counted from the foremost front edges of the
// frames, away from the guests, as the depth of a screw is; what hangs in front
// of them has a Back below 0. Areas are mm2, masses kg.
//
// # What is computed
//
// A frame's weight sits in the middle of its boards. A layer's weight sits in
// the middle of what it covers, as far in front as it is said to hang. A layer
// closes a share of what it covers; where two layers lie over each other, the
// second closes its share of what the first has left open, so that their order
// does not matter and nothing is counted twice; wood is closed already. The
// gross area is what lies within the outlines, with every opening in it and the
// way under an arch, and whatever a layer covers beyond them.
//
// # The promise
//
// Areas are exact for straight outlines but for strips lower than geom.Eps:
// the front view is cut into level slabs at every corner and every crossing,
// and between those all edges are straight. Equal input gives an equal result.
// All that is wrong with a way of dressing comes at once.
//
// # What it does not know
//
// What the wind does with the areas; that is for package stand. How drape moves
// in a gust. Whether a flame paper is any good: it passes on what it is told.
package dressing
