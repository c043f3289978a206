package job

import "bowerwright/unit"

// A Progress is what happened at the bench: a round for each packet that was
// sawn from, the first packet first.
type Progress struct{ Rounds []Round }

// A Round is what happened while one packet was sawn from.
type Round struct {
	Packet string // its mark
	Boards []Sawn
	Spoilt []Spoilt
	Path   string // where it stands, for snags
}

// A Sawn is what became of a board, or of a run of boards. What is not told of
// was not touched.
type Sawn struct {
	Timber   string // "" for the only one
	Laid     string // "on edge" or "flat"; "" for the only way
	From, To int    // numbers on the papers
	Cut      bool   // whole
	Parts    int    // so many of its parts are cut, from the first end on
	// Spans cannot be used, measured from the board's first end; of a board begun,
	// from the cut that ended its last part.
	Spans    [][2]unit.Length
	Short    unit.Length // what the board, or what is left of it, measures instead; 0: as it should
	Rejected bool        // what is left is used no more
	Path     string
}

// A Spoilt is parts that were sawn and cannot be used.
type Spoilt struct {
	Mark  string
	Count int
	Path  string
}
