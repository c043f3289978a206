// Package making says how frames are put together once their parts are sawn:
// how each kind is glued and why so, in which goes against the clock, what
// holds its corners, what is sanded, filled and finished in which order, how
// the whole is laid out dry on the floor, and what all that uses up.
//
// Start at Make: it takes the kinds of frame as built, the layout and a Shop,
// and gives a Plan and every Problem there is.
//
// # Units
//
// Lengths are float64 mm, areas unit.Area (mm²), times minutes, temperatures
// °C, volumes ml. What is bought by its own length is unit.Length. Corners and
// sides are numbered as package frame does; frames of a layout are named by
// their index in it.
//
// # The promise
//
// Equal input gives an equal Plan. No joint waits longer for its partner than
// the glue's open time at the shop's temperature: what cannot be closed in
// time is split over goes, given to more hands, or named as a Problem. No two
// goes of one frame come nearer to each other than the glue holds. Every frame
// that is laid out lies against one that lies already, or starts on the known-
// straight length, or starts a piece of its own and is then named.
//
// # What it does not know
//
// Strength: a mitre is largely end grain (USDA Wood Handbook GTR-190, chapter
// 10: an end-grain butt joint has at best about 25 % of the wood's tensile
// strength along the grain), and which corner is wanted is decided elsewhere.
// Prices. The bottle in hand: the label of glue, filler and finish comes before
// every figure here. It never says that a joint may be trusted.
package making
