package job

import "bowerwright/unit"

// A StandingAsked is what the job says of where the set piece stands and what
// pushes it there. The zero value is indoors on a hall floor, without ballast.
type StandingAsked struct {
	Where    string     // "indoors" or "", "outdoors"
	Floor    string     // "hall" or "", "polished", "rough", "grass"; outdoors "" is grass
	Soft     bool       // the floor gives, or it is uneven
	Slope    unit.Angle // steepest fall of the floor
	Gust     float64    // m/s, expected 3-second gust; 0: from Mean, else assumption wind.expected outdoors, none indoors
	Mean     float64    // m/s, mean wind as forecasts name it
	WindFrom string     // "" (any side), "front", "back", "left", "right"
	NoPush   bool       // nobody can reach it
	Crowd    bool       // a crowd may lean on it
	Openings bool       // the venue lets openings be left out of the exhibition load
	Ballast  []BallastAsked
	InFront  bool        // ballast may stand in front of the frames too
	Hidden   unit.Length // height up to which dressing hides ballast; 0 does not matter
	Watch    string      // who watches the wind

	Held       string   // to the base: "screws", "brackets", "bolts", "nothing"; "": screws where it has one
	HeldFrames []string // ids; none: all that stand on the floor
	HeldEach   int      // fasteners at each of them; 0: two to four, as its length asks
	Lines      []string // ids of frames that a retaining line holds besides their seams

	// Not from a job file: what is tried in its place.
	Way  string    // this way of dressing alone; "" for all
	Heap unit.Mass // so much in the middle of what it stands on, instead of Ballast
}

// A BallastAsked is weights of one kind that are owned.
type BallastAsked struct {
	Name                  string
	Mass                  unit.Mass // of one
	Length, Width, Height unit.Length
	Owned                 int
}

// A WayAsked is one way of dressing, under the user's name.
type WayAsked struct {
	Name   string
	Layers []LayerAsked
}

// A LayerAsked is one kind of dressing in a way.
type LayerAsked struct {
	Name     string
	Mass     unit.Mass    // in all, on top of PerArea
	PerArea  float64      // kg to a square metre of what it covers
	Frames   []string     // ids it hangs on; none: all
	From, To unit.Length  // heights over the piece's foot; a To of 0 is its top
	Closes   *float64     // share of what it covers, 0 to 1; nil: assumption dress.closes
	Front    *unit.Length // its middle before the foremost edges; nil: assumption dress.front
	Wet      float64      // mass soaked over mass dry; 0: takes no water
	Flame    string       // what shows that it is hard to set alight
}

// A BaseAsked is one piece of the base, or its stakes.
type BaseAsked struct {
	Name  string
	Kind  string // a name in BaseKinds
	Shape string // of a plate or ring: "rectangle" or "", "hexagon", "octagon", "round"

	Width, Depth unit.Length  // along the piece; from front to back
	Across       unit.Length  // of other shapes: from corner to corner, or the diameter
	Thickness    unit.Length  // 0: assumption base.thickness
	Rim          unit.Length  // of a ring or frame base: width of its boards in plan
	Behind       unit.Length  // of a brace: from the back of the frames to the end of its foot
	Fixed        unit.Length  // of a brace: height where it is fixed
	Length       unit.Length  // of a wing, along it
	Height       unit.Length  // of a wing
	Left         *unit.Length // its left end, from that of the piece; nil: centred
	Front        *unit.Length // how far it reaches before the frames; nil: centred on their depth
	Count        int          // of feet, braces, stakes; 0: 2, of stakes 4
	Side         string       // of a wing: "left", "right", "both" or ""
	Angle        *unit.Angle  // of a wing: from straight on along the piece, backwards; nil: a quarter turn
	Mass         *unit.Mass   // nil: from its size, as plywood
	Closes       float64      // of a wing: share closed to the wind, 0 to 1
	Split        bool         // in two pieces for the van
	Pull         unit.Force   // that one stake held when it was tried
	Sideways     unit.Force
}

// A BaseKind is a kind of base with the fields that it needs and may have.
type BaseKind struct {
	Name, Doc   string
	Needs, Also []string // fields by their keys in the job file
}

// BaseKinds are the kinds of base that a job file may name.
var BaseKinds = []BaseKind{
	{"plate", "a sheet that the piece stands on", nil, []string{"shape", "width", "depth", "across", "thickness", "weight", "left", "front", "split"}},
	{"ring", "a sheet with an opening, its rim as wide as said", []string{"rim"}, []string{"shape", "width", "depth", "across", "thickness", "weight", "left", "front"}},
	{"feet", "bars under the piece, from front to back, spread evenly", []string{"width", "depth"}, []string{"count", "thickness", "weight", "front"}},
	{"frame base", "a rectangle of boards under the piece; ballast does not stand on it", []string{"width", "depth", "rim"}, []string{"thickness", "weight", "left", "front"}},
	{"brace", "struts behind the piece with feet on the floor, spread evenly beside the way through an arch", []string{"behind", "fixed", "width", "weight"}, []string{"count", "left"}},
	{"wing", "a plane hinged to an end that stands at an angle, a return at a quarter turn", []string{"length", "height", "weight"}, []string{"side", "angle", "thickness", "closes"}},
	{"stakes", "stakes that hold the base to the ground, spread round it, by what one of them held when it was tried there", []string{"pull", "sideways"}, []string{"count"}},
}
