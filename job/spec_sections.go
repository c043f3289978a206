package job

import "bowerwright/unit"

// A SpotAsked is one tight spot, as measured: zero measures are not given.
type SpotAsked struct {
	Name string
	Kind string // a name in SpotKinds

	Width, After  unit.Length // clear; of a turn and a landing: before and after it
	Length, Depth unit.Length
	Height        unit.Length // clear
	Tilting       unit.Length // of a ceiling: over where it is tilted up
	DoorWidth     unit.Length // of a vehicle and a lift
	DoorHeight    unit.Length
	Turn          unit.Angle // 0: a right angle
	Payload       unit.Mass  // 0: not given
	By            string     // who measured it; "": nobody, so it is unverified
}

// A SpotKind is a kind of tight spot with the fields that it needs and may have.
type SpotKind struct {
	Name, Doc   string
	Needs, Also []string // fields by their keys in the job file
}

// SpotKinds are the kinds of tight spot that a job file may name.
var SpotKinds = []SpotKind{
	{"door", "an opening that one goes straight through, or a hatch", []string{"width", "height"}, nil},
	{"vehicle", "a load space: its floor from the door on, its width between the wheel arches, its height", []string{"length", "width", "height"}, []string{"door width", "door height", "payload"}},
	{"corridor", "a passage with a turn: its width before and after it", []string{"width", "height"}, []string{"width after", "turn"}},
	{"landing", "a half landing between two flights of stairs side by side: the widths of the flights, how deep the landing is and how long across both", []string{"width", "depth", "length", "height"}, []string{"width after"}},
	{"lift", "a lift car: how deep it is from its door on, how wide and how high", []string{"depth", "width", "height"}, []string{"door width", "door height", "payload"}},
	{"ceiling", "what is overhead where the set piece stands, and where it is tilted up", []string{"height"}, []string{"tilting height"}},
	{"lay-out floor", "where a section is put together lying", []string{"length", "width"}, nil},
}

// SectionsAsked are the user's wishes about sections.
type SectionsAsked struct {
	Together [][]string // ids of frames that travel as one, a list for each lot
	Apart    [][]string // ids of frames, no two of which travel as one
	By       string     // who puts it up: "makers" or "", "strangers"
	Window   float64    // minutes to put it up in; 0: not said
	Strike   float64    // minutes to take it down in; 0: not said
	Wanted   bool       // also without tight spots; not from a job file
}
