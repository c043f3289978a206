package job

import "bowerwright/unit"

// A piece is something small that is sawn square from the frames' own boards
// besides their parts: a corner block before its edge is ripped. makeUp counts
// them, cutAll shares them out over the boards with the parts.
type piece struct {
	mark   string      // unlike every part's mark
	what   string      // "corner blocks of the big hexagon, two from each"
	timber string      // name of the Timber
	flat   bool        // with which stack it is sawn
	length unit.Length // square at both ends
	count  int         // lengths sawn off the board
}
