package job

import "bowerwright/unit"

// A FixingAsked is what the job says about how seams are fixed, dressed and
// looked at. The zero value leaves everything to package fixing.
type FixingAsked struct {
	Screws    []string      // thicknesses of the catalogue, the preferred first; none: No. 8, then No. 6
	Lengths   []unit.Length // of screws at hand; none: all that are sold
	Often     bool          // goes up and down often: bolts or inserts at every seam
	Inserts   bool          // threaded inserts rather than bolts right through
	Rows      int           // 2: two rows through the depth wherever boards are deep enough; 0 or 1: one
	Flat      string        // how flat frames are joined: "plates" or "", "battens", "counterbored bolts"
	BothSides bool          // the usual eyes look from behind as well
	Eyes      []EyeAsked    // none: the usual ones

	DressedBelow, DressedAbove unit.Length // heads lower, higher than this are covered by dressing; 0: none

	Seams []SeamAsked
	Hooks []HooksAsked
}

// An EyeAsked is somebody who looks at the set piece.
type EyeAsked struct {
	Name     string
	Height   unit.Length  // over the floor
	Distance *unit.Length // from the set piece; nil: assumption eye.distance
	Left     *unit.Length // from the left end; nil: one at either end and one before the middle
	Behind   bool
}

// A SeamAsked is what the job says of all seams between two frames.
type SeamAsked struct {
	Key    string    // as written: the rest of its path
	Frames [2]string // ids
	One    bool      // one screw or bolt, in spite of its warning
	Rows   int       // 2: in two rows through the depth; 1: in one, whatever is asked for in general
	Site   bool      // closed only at the venue
	Bolts  bool      // bolts or inserts, as where the piece goes up often
	Screws bool      // screws in spite of Site or Often
}

// A HooksAsked asks for hooks or ties on the back edge of one side.
type HooksAsked struct {
	Key   string
	Frame string // id
	Side  int
	Count int
	Ties  bool
}
