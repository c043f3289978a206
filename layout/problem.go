package layout

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A Code names what is wrong; it never changes once published.
type Code string

// The codes, with the fields of Problem that go with each.
const (
	BadKind       Code = "kind-shape"     // Name: a kind without three corners, with other corners inside than outside, clockwise, or with corners that are no numbers
	DuplicateKind Code = "kind-twice"     // Name: two kinds of one name
	DuplicateID   Code = "frame-twice"    // a second frame of one ID; the first stays
	UnknownKind   Code = "kind-unknown"   // Name: the kind asked for
	UnknownFrame  Code = "frame-unknown"  // Name: the frame attached to
	UnknownSide   Code = "side-unknown"   // Name: the frame; Number: the side it has not; Most: its last side
	UnknownCorner Code = "corner-unknown" // Name, Number, Most likewise
	OpenSide      Code = "side-open"      // Name: the frame; Number: the side of an arch that is no board
	Unplaced      Code = "frame-unplaced" // neither a position nor an attachment
	BadNumber     Code = "number-bad"     // a position, turn or shift that is no number
	Cycle         Code = "attach-cycle"   // Frames: attached in a ring, none of them to a placed one
	LoopOpen      Code = "loop-open"      // Name: the other frame; Off, OffTurn
	Overlapping   Code = "frames-overlap" // Name: the other frame; Depth, Area, At
	NothingPlaced Code = "nothing-placed" // no frame could be placed
)

// A Problem is something the user must put right. Unused fields are zero, but
// Place and Attach are -1 when it is about no particular one.
type Problem struct {
	Code         Code
	Frame        string // ID of the frame it is about
	Place        int    // its index in the places
	Attach       int    // index of its attachment
	Name         string
	Number, Most int
	Frames       []string
	Off          geom.Point // mm, from where the attachment wants the frame to where it is
	OffTurn      unit.Angle // likewise, anticlockwise as seen from the front
	Depth, Area  float64    // mm, mm2
	At           geom.Point
}

// Direction says a displacement in words as seen from the front, such as "3.2 mm
// to the right and 1 mm down". Length renders mm in the reader's unit. What
// renders the same as nothing at all is left out; "" when both do.
func Direction(off geom.Point, length func(mm float64) string) string {
	across := one(off.X, "to the right", "to the left", length)
	along := one(off.Y, "up", "down", length)
	if across != "" && along != "" {
		return across + " and " + along
	}
	return across + along
}

func one(mm float64, plus, minus string, length func(float64) string) string {
	text := length(math.Abs(mm))
	if text == length(0) {
		return ""
	}
	if mm < 0 {
		plus = minus
	}
	return text + " " + plus
}
