package job

import (
	"bowerwright/geom"
	"bowerwright/unit"
)

// A Spec is one job as asked: what jobfile reads out of a job file and a shop
// file, with nothing computed. Zero fields and nil pointers mean "not given"; Plan
// fills them from the assumptions. A pointer stands where 0 can be meant.
type Spec struct {
	Name, For, Date, Venue, Maker, Note string

	Show  string // "us" or "metric": the units that come first on paper
	Paper string // "letter" or "a4"

	Mark           unit.Length  // finest mark on the tape, e.g. 1/16 in
	JointTolerance *unit.Length // a gap up to this is a closed joint
	Gap            *unit.Length // between the faces of every seam: paint, glue line
	NearMiss       *unit.Length // gaps above the tolerance and under this are pointed out

	Saw      Saw
	Timber   []Timber // in file order; the first is what a kind uses when it names none
	Kinds    []Kind   // "frames" in the job file
	Families [][]string
	Layout   []Place
	Copies   []Copy
	Test     *TestReading

	Driver Driver
	People []Person

	Cutting string // FewestBoards or FewestChanges; "" for the first

	Fixing FixingAsked
	Making MakingAsked
	Buying BuyingAsked

	Dressing []WayAsked
	Base     []BaseAsked
	Standing StandingAsked
	Lifting  LiftingAsked

	TightSpots []SpotAsked // in the order in which they are met
	Sections   SectionsAsked

	Assume []Override // in file order, with where each came from

	// Said tells where a field that is an assumption by another name (seam gap,
	// kerf, ...) came from, by the assumption's id: "shop file", or "job file",
	// which is also what a missing entry means.
	Said map[string]string
}

// A Saw is the record of the user's saw. A zero capacity row means that the
// row is not given, and then nothing is claimed about it.
type Saw struct {
	Name                  string
	SwingLeft, SwingRight unit.Angle // from straight across
	TiltLeft, TiltRight   unit.Angle // from upright
	Detents               []unit.Angle
	Takes                 []Capacity
	Kerf                  *unit.Length
	Hold, ClampHold       *unit.Length
	Clamp                 bool   // a hold-down clamp and waste fence are used
	Scale                 string // "across" (0 is straight across) or "along" (0 is along the board)
	Stop                  string // side of the blade the stop is on: "left" or "right"
	From                  string // "built in", "shop file" or "job file"
}

// A Capacity is the widest and thickest board the saw takes one way at one
// setting. Standing boards have their width upright, so Widest is then a
// height.
type Capacity struct {
	Standing, Tilted bool
	At               unit.Angle
	Widest, Thickest unit.Length
}

// Timber is one stock size as bought.
type Timber struct {
	Name               string
	Nominal            string      // "1x4", or "" when measured
	Thickness, Width   unit.Length // measured; zero: from the catalogue by Nominal
	Length             unit.Length // of a board as bought
	TrimFirst, TrimFar *unit.Length
	Species            string
	Moisture           float64       // per cent; 0: assumed
	Turning            *bool         // nil: yes
	PriceMinor         int64         // per board, minor units
	Currency           string        // ISO 4217, "" when no price is given
	Lengths            []StockLength // several lengths to buy, instead of Length and its price
	OnHand             []HandBoard   // boards and offcuts that are there already
	SpareParts         int           // of each part
	Reject             float64       // share of each part expected to be spoilt, per cent
	From               string
}

// A StockLength is a length in which boards are bought.
type StockLength struct {
	Length     unit.Length
	PriceMinor int64
	Currency   string // "" when no price is given
	Most       int    // boards to be had; 0: as many as wanted
}

// A HandBoard is boards or offcuts of one length on hand.
type HandBoard struct {
	Count      int
	Length     unit.Length
	PriceMinor int64
	Currency   string           // "" when they cost nothing
	Spans      [][2]unit.Length // of a single board: what cannot be used, from and to, from its first end
}

// A Kind is one kind of frame: a shape, its measures, and what it is made of.
type Kind struct {
	Name    string
	Title   string // what people call it, "" for the shape's own name
	Shape   string // a name in Shapes
	Lengths map[string]unit.Length
	Angles  map[string]unit.Angle
	Counts  map[string]int
	Words   map[string]string
	Corners []geom.Point // mm, for shape "corners"
	Run     []RunSide    // for shape "sides"
	Timber  string       // a Timber's name, "" for the first
	Flat    bool         // boards lie flat: the width is in the plane
	Spare   int          // frames made and not placed
	Corner  string       // "glue" or "", "brads", "corner block", "plate", "spline"
	GlueUp  string       // "" (chosen), "rolled", "strap", "two halves", "joint by joint", "in layers"
	Layers  int          // of a ring sawn round, boards on each other; 0: 1
}

// A RunSide is one side of a shape given by sides and angles: its outside
// length and the inside angle at its far end (0 at the last one: computed).
type RunSide struct {
	Length unit.Length
	Inside unit.Angle
}

// A Place puts one frame into the set piece.
type Place struct {
	ID, Kind string
	Mirror   bool
	Turn     unit.Angle
	At       *geom.Point // mm; where the kind's middle of its foot goes
	Attach   []Attach    // the first places the frame, the others must hold
}

// An Attach lays one side of a frame against one side of another.
type Attach struct {
	Side             int
	To               string // a frame's id, or "previous"
	ToSide           int
	Align            string      // "centred" or "", "flush at start", "flush at end"
	Shift            unit.Length // towards the end of the other's side
	Corner, ToCorner int         // instead of sides: corner on corner, turned as the Place says
}

// A Copy repeats placed frames with new ids, moved or mirrored.
type Copy struct {
	From, As []string     // ids, one for one
	MirrorAt *unit.Length // mirrored in the upright line at this x
	By       geom.Point   // mm, when not mirrored
}

// A TestReading is what the test corner measured.
type TestReading struct {
	Kind         string
	Arms, Across unit.Length
}

// A Driver is the user's drill or driver.
type Driver struct {
	Name        string
	Length, Bit unit.Length
	Width       unit.Length // across its body
	RightAngle  bool        // a right-angle head is at hand
	HeadLength  unit.Length // of that head, along its bit
}

// A Person is somebody who makes, carries or puts up.
type Person struct {
	Name, Does string
	Lifts      bool // counts as one who lifts
}

// An Override sets an assumption by its id.
type Override struct {
	ID    string
	Value float64 // in the assumption's own unit
	Text  string  // as typed
	From  string  // "shop file", "job file" or "flag"
}
