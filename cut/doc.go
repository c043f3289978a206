// Package cut shares parts out over boards of one length: as few boards as
// possible, with proof, and every part placed as it is sawn.
//
// # The model
//
// A board has a length, a trim at its first end (cut 0) and one at its far end,
// and a depth: the stock dimension lying in the plane of the shape, thickness
// for boards on edge, width for flat frames. The package works in the strip of
// length by depth. A part has an outside length along the bottom of the strip
// and a signed saw setting an end; a positive setting makes the inside, along
// the top, shorter:
//
//	inside = outside - depth tan left - depth tan right
//
// Its length is counted on the centre line, midway. An end is a slanted line
// whose slope is its shift along the board from bottom to top: +depth tan left
// at a left end, -depth tan right at a right one. A part may lie as given
// (slopes l, r), rolled (-l, -r), its ends swapped (r, l), or rolled and
// swapped (-r, -l). Where turning is not allowed, as with one good face, every
// part lies as given: whichever way boards lie in the frame, the good face and
// the ends of the board stay where they are.
//
// A blade at setting a takes kerf / cos a off the centre line. Neighbours with
// equal slopes share one cut and lie that far apart. Others take two cuts,
// which may overlap in the waste but may enter no part: with slopes r and l
// the distance is linear in the height, least at a face, so that on the centre
// line it is at least
//
//	max(kerf/cos, of each end) + |r-l| / 2
//
// No kerf is charged at the ends of a board, where the blade falls in the
// waste; a part exactly as long as its board, square, untrimmed, needs no cut.
//
// Kinds of parts lie in blocks on a board, shortest first by the shorter face
// (then by the longer, then as ordered), so that a board ends on its longest
// part. That is the order of the bench, and the length of a board is charged in
// it with the ways of lying that use least. Hold: at every cut the piece held
// measures at least Hold on its shorter face. In this order it means that the
// last part does, or else the rest of the board behind the last cut, far trim
// included: at earlier cuts the rest is longer.
//
// # The promise
//
// Every part is cut as often as ordered and every rule above is kept. Proved
// means that fewer boards are impossible: the solver works in whole nanometres,
// rounded up for the plan and down for the bound, on boards a micrometre longer
// than ordered so that an exact fit stays one; only when both agree is anything
// called proved. Taking a part off a board never makes a board wrong,
// which the method relies on. Among plans of as few boards the one chosen has a
// long offcut, by local search; that is not proved. One order and budget give
// the same plan always.
//
// # What it does not know
//
// Timber, knots, saws and their reach, prices, more than one length of board.
package cut
