package job

// FixingFacts say how every seam is fixed, and what hangs on the frames.
type FixingFacts struct {
	Seams  []SeamFixing    `json:"seams"`        // one for each seam, by number
	Sheets []DrillSheet    `json:"drill_sheets"` // seams that are drilled alike stand on one
	Hooks  []HookFacts     `json:"hooks"`        // in the order asked for
	Totals []HardwareTotal `json:"totals"`       // what the bags hold in all, and the hooks
	Eyes   []EyeFacts      `json:"eyes"`         // who decides from where heads are seen
	Driver []string        `json:"driver"`       // the tools that heads must be reached with, in words
	Undone []int           `json:"undone"`       // numbers of the seams that cannot be fixed as drawn
}

// A SeamFixing is how one seam is fixed. All but the first fields are empty
// when it cannot be fixed as drawn.
type SeamFixing struct {
	Number  int       `json:"number"`
	Frames  [2]string `json:"frames"` // labels, in the order of the seam
	Sides   [2]int    `json:"sides"`
	Fixed   bool      `json:"fixed"`
	Cannot  string    `json:"cannot,omitempty"` // why it cannot be fixed as drawn
	Helps   string    `json:"helps,omitempty"`  // what helps
	Sheet   int       `json:"drill_sheet"`      // number of its drill sheet, 0 for none
	Method  string    `json:"method,omitempty"` // "screws", "bolts", "threaded inserts", "plates", "battens" or "counterbored bolts"
	Site    bool      `json:"site_seam"`        // closed only at the venue
	Count   int       `json:"count"`            // screws or bolts
	Rows    int       `json:"rows,omitempty"`   // 2: as many again in a second row through the depth
	Thing   string    `json:"thing,omitempty"`  // as sold: "No. 8 x 1 1/4 in"
	Head    string    `json:"head,omitempty"`   // label of the frame that holds the heads; for plates and battens, of the near one
	Into    string    `json:"into,omitempty"`   // label of the frame that holds the points or nuts; the far one
	Arrow   XY        `json:"arrow"`            // unit vector along which they are driven, seen from the front; 0, 0 from the back
	Way     string    `json:"way,omitempty"`    // the same in words, standing, seen from the front: "up to the left"
	WayBack string    `json:"way_from_back,omitempty"`
	Tool    string    `json:"tool,omitempty"`

	Left      int          `json:"left_corner,omitempty"` // corner at the left end of the heads' board as one looks along the screws, face down
	IntoLeft  int          `json:"into_left_corner,omitempty"`
	Height    Size         `json:"height"` // of the highest head over the floor, standing
	Steps     bool         `json:"steps"`  // a site seam with heads that are not reached from the floor
	Room      *Size        `json:"room,omitempty"`
	Fasteners []Driven     `json:"fasteners"`
	Pegs      []PegFacts   `json:"pegs"`
	Pieces    []PieceFacts `json:"plates"` // plates or battens on the back
	Bag       []ItemFacts  `json:"bag"`
	Seen      int          `json:"seen"`  // pairs of an eye and a head that it sees
	Looks     int          `json:"looks"` // pairs there are
	Warnings  []string     `json:"warnings"`
	NoteCodes []string     `json:"note_codes"`
}

// A Driven is one screw or bolt in its place. From, Face and Into are measured
// from the left end of a board as one looks the way the screw is driven, the
// piece lying face down.
type Driven struct {
	Number      int     `json:"number"` // within the seam
	Kind        string  `json:"kind"`   // "screw", "bolt" or "insert"
	Thing       string  `json:"thing"`
	Head        string  `json:"head"`        // label of the frame that holds the head
	From        Size    `json:"from"`        // along the seam from the outside corner of the heads' board
	Face        Size    `json:"face"`        // along the face that the head is in, from that face's own corner
	IntoFrom    Size    `json:"into_from"`   // along the seam from the corner of the other board
	Along       [2]Size `json:"along"`       // on the sides of both frames, in the order of the seam, from the corner with the side's number
	Off         Size    `json:"off"`         // across the seam into the board of Head: 0 but for plates and battens
	Depth       Size    `json:"depth"`       // behind the front edges where it crosses the seam
	HeadDepth   Size    `json:"head_depth"`  // behind the front edges at the head
	HeadHeight  Size    `json:"head_height"` // over the floor, standing
	At          XY      `json:"at"`          // the head, front view
	Slant       Angle   `json:"slant"`       // from square to the board
	Side        string  `json:"from_side"`   // "back" or "front": the open side it is driven from, when slanted or into the back
	Through     Size    `json:"through"`     // of the board or plate under the head
	Penetration Size    `json:"penetration"`
	Diameters   float64 `json:"penetration_diameters"`
	Spare       Size    `json:"wood_over_point"`
	Clearance   Size    `json:"clearance_hole"`
	Pilot       Size    `json:"pilot_hole"`
	PilotSource string  `json:"pilot_source"`
	Sink        Size    `json:"countersink"` // width of the countersink, counterbore or washer
	Bore        Size    `json:"counterbore_depth"`
	Stop        Size    `json:"drill_stop"` // from the face under the head, along the drill
	Thread      string  `json:"thread,omitempty"`
	Tool        string  `json:"tool"`
}

// A PegFacts is a peg that locates the two frames of a site seam.
type PegFacts struct {
	Thing string  `json:"thing"`
	Along [2]Size `json:"along"` // as in Driven
	From  Size    `json:"from"`
	Depth Size    `json:"depth"` // behind the front edges
	Hole  Size    `json:"hole"`
	Into  [2]Size `json:"into"` // depth of the hole in each board
}

// A PieceFacts is a plate or batten across a seam, on the back.
type PieceFacts struct {
	Thing  string `json:"thing"`
	Mark   string `json:"mark,omitempty"` // of a batten in the cut list
	From   Size   `json:"from"`           // its middle, along the seam as in Driven
	Start  Size   `json:"start"`          // its left end (a plate's left edge), likewise
	Length Size   `json:"length"`
	Width  Size   `json:"width"`
}

// A BattenFacts is a batten, sawn square from the frames' own boards where it
// has a mark.
type BattenFacts struct {
	Mark   string `json:"mark,omitempty"` // in the cut list; none where no board is so long
	Length Size   `json:"length"`
	Width  Size   `json:"width"`
}

// An ItemFacts is so many of one thing.
type ItemFacts struct {
	Thing string `json:"thing"`
	Count int    `json:"count"`
}

// A HardwareTotal is what is bought of one thing.
type HardwareTotal struct {
	Thing string `json:"thing"`
	Kind  string `json:"kind"` // "screw", "bolt", "nut", "washer", "insert", "plate", "peg", "hook" or "tie"
	Count int    `json:"count"`
	Pack  int    `json:"in_a_box"`
	Boxes int    `json:"boxes"`
}

// An EyeFacts is somebody who looks at the heads.
type EyeFacts struct {
	Name     string `json:"name"`
	Height   Size   `json:"height"`
	Distance Size   `json:"distance"`
	Behind   bool   `json:"behind"`
}

// A HookFacts is one hook or tie on the back edge of a side.
type HookFacts struct {
	Thing  string `json:"thing"`
	Frame  string `json:"frame"` // label
	Side   int    `json:"side"`
	Along  Size   `json:"along"` // from the corner with the side's number, along its outside
	At     XY     `json:"at"`
	Height Size   `json:"height"` // over the floor
	Thread Size   `json:"thread"` // deep into the back edge
	Hole   Size   `json:"hole"`   // drilled first, as deep as the thread
}

// A DrillSheet is what is drilled alike at one seam or several. Its picture is
// laid with the heads' board below, so that screws are driven up; it is seen
// from behind, as the maker sees the piece lying face down. Places in it are mm
// to the micrometre, x from the left corner of the heads' board, y from the
// middle of the seam towards the other board.
type DrillSheet struct {
	Number  int        `json:"number"`
	Seams   []int      `json:"seams"`
	Boards  [2][]XY    `json:"boards"`  // the heads' board and the other one, outlines seen from behind
	Section [2][4]XY   `json:"section"` // the same cut across: x across the seam, y behind the front edges
	Axes    []AxisView `json:"axes"`
	Pieces  [][]XY     `json:"plates"` // outlines of plates and battens, seen from behind
	Pegs    []AxisView `json:"pegs"`
}

// An AxisView is a screw, bolt or peg in a drill sheet's two pictures.
type AxisView struct {
	Back    [2]XY `json:"back"`    // from head to point, seen from behind
	Section [2]XY `json:"section"` // from head to point, cut across
}

// emptyLists is Result.emptyLists for this part.
func (f *FixingFacts) emptyLists() {
	empty(&f.Seams)
	empty(&f.Sheets)
	empty(&f.Hooks)
	empty(&f.Totals)
	empty(&f.Eyes)
	empty(&f.Driver)
	empty(&f.Undone)
}
