// Package fixing decides how every seam of a layout is fixed: with what, where
// it goes, which frame holds the heads, with which driver, what is drilled
// first; and counts what goes into the bags and the boxes.
//
// # Where things are
//
// Everything is float64 mm in the layout's own coordinates: x to the right, y
// up, as seen from the side that the layout is seen from. Depth is counted
// backwards from the front edges, which all lie in one plane. Along is counted
// from the left end of a seam (the lower end of an upright one). Lengths that
// are bought are unit.Length. Directions in words are those of the layout.
//
// # The rules
//
// A board on edge, or square, is thin along a seam: a screw goes through it
// into the board behind. Two screws lie along the seam where both boards take
// them, clear of the mitres at every depth of the screw; else two lie one
// behind the other across the depth; one only by choice, and by choice as many
// again in a second row through the depth. The head is on the face away from
// the seam, on the side where fewer eyes see it among those where a driver
// reaches it: straight, or with a right-angle head, or at a slant from the open
// back or front. A flat frame is joined to another by
// plates or battens on the back or by counterbored bolts, never by a screw
// through two widths. A flat board beside a board on edge takes the screw
// through the thin one into its edge. Pieces that go up and down often, and
// site seams, take bolts or threaded inserts; a site seam two locating pegs too.
//
// # The promise
//
// Equal input gives an equal Plan. Every seam comes back fixed or as a Problem
// that names it. No point comes out, no fastener is nearer to an end, an edge
// or another path than the Rules say. The work grows about linearly with the
// number of frames.
//
// # What it does not know
//
// Weight, wind and strength: it gives positions and penetrations for those who
// do, and says where a seam is outside the standard. The order of assembly:
// every frame is taken to be in its place when a seam is driven, and the whole
// to lie on the bench, so that no floor is in the way. Knots. It never says
// that a seam may be trusted.
package fixing
