// # Strength
//
// Whether what stands also holds together: Strength puts the frames on their
// centre lines as sticks (package statics), every seam as its real screws, each
// where the drill sheet has it, with four contacts that only push, and the joint
// to the base as an element of its own. At most twelve loads are reckoned, among
// them those of the way there: carried flat, tilted up, turned over, or each
// frame lifted by itself where it is built up in place. Corners do not give when
// forces are found, and do when movement is.
//
// What is borne over what is allowed is the Ratio of a Demand: a screw by the
// withdrawal and the yield modes of the NDS, both together by its 12.4-1, cut
// again where the screw is too short for that standard; a mitre by the stress in
// its glue, an assumption, as no published figure was found; a board by a share of
// what clear wood breaks at; brackets by an assumption. Half of the figures are
// known to within a third at best: show two digits, one of them for movement, and
// the band.
//
// WaysOut are changes of the piece, each of which has been reckoned.
package stand
