// Package cut shares parts out over boards: at the least cost, on the fewest
// boards bought, leaving the longest offcut, each with proof; and every part
// placed as it is sawn.
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
// Where another order is wanted, kinds lie by saw setting first. Any fixed order
// will do for the hold, since what is left of a board holds its last part.
//
// # Boards
//
// An order names one length of board, or several stocks: each with a length,
// trims, a price, how many there are, and whether they are on hand. A board on
// hand, as an offcut, costs nothing unless priced and does not count as bought.
// A single board on hand may have spans that cannot be used; what is clear
// between them are stretches, which the solver takes for boards of their own.
// The rest of a board begun counts from the part last cut from it, and the next
// part may share that cut.
//
// # Three aims
//
// The first is the cost of all boards, the second the number bought among plans
// of no greater cost, the third the longest offcut, worth keeping, of a board
// bought among plans as good in both. Of boards on hand at one price the
// shortest that does is cut. Each aim is a Level with a bound and a proof of
// its own, or an honest gap between the two.
//
// A proof is a list of rulings. Each gives the parts worths and every board a
// most, the greatest worth that it holds; boards that together hold less than
// all parts are worth are ruled out. (The worths are the prices of a linear
// program, made whole; a bad price weakens a ruling and never falsifies it.)
// No counts of boards that would be better than the bound escape all rulings:
// the solver chose its boards as the cheapest that do, and cut the parts from
// those. Where worths cannot tell, a ruling names counts whose patterns were
// listed one by one. The third aim needs no more: what the other boards do not
// hold must lie on the board with the offcut. The checker follows all of it by
// searches of its own, over patterns and over counts, and says what it could
// not follow.
//
// # At the saw
//
// A Session runs the boards stop by stop, each stop set once, and counts how
// often stop and saw are set. Choose shows side by side the plan as it is, by
// saw setting, and for the fewest changes, where parts with unlike ends are cut
// to rough lengths and trimmed together.
//
// # The promise
//
// Every part is cut as often as ordered and every rule above is kept. Proved
// means that nothing better is possible: the solver works in whole nanometres,
// rounded up for the plan and down for the bound, on boards a micrometre longer
// than ordered so that an exact fit stays one; only when both agree is anything
// called proved. Taking a part off a board never makes a board wrong, which the
// method relies on. One order and budget give the same plan always.
//
// Boards of one length told by Board keep the plan that has the fewest, waste
// gathered by local search; the bound of its longest offcut may then stay open.
//
// # What it does not know
//
// Timber, where knots are found, saws and their reach, currencies, taxes, the
// minutes that a change takes. A board with spans that has a price, or is still
// to be bought. Whether a plan of fewer changes exists than those it shows.
package cut
