package job

// MakingFacts are how the frames are made once their parts are sawn: gluing up,
// sanding, finish, the dry lay.
type MakingFacts struct {
	Hands  int         `json:"hands"`  // people at the glue
	Straps []Size      `json:"straps"` // owned; goes name them by number, from 1
	Glue   GlueFacts   `json:"glue"`
	Kinds  []MadeFacts `json:"kinds"` // in the order of Result.Kinds
	Goes   []GoFacts   `json:"goes"`
	Finish FinishFacts `json:"finish"`
	Lay    LayFacts    `json:"lay"`
}

// A Time is a stretch of time, or a time on a clock that starts with the first
// go, as it is written: "35 min", "4 h", "0:35". Never with seconds.
type Time struct {
	Minutes float64 `json:"minutes"`
	Text    string  `json:"text"`
}

// GlueFacts are the glue by its label, or as assumed.
type GlueFacts struct {
	Shop     string `json:"shop"`      // temperature there
	Least    string `json:"least"`     // that the glue allows
	OpenTime Time   `json:"open_time"` // in the shop
	Wait     Time   `json:"wait"`      // from sizing to the second coat
	Hold     Time   `json:"hold"`      // until a frame may be moved
	Flat     Time   `json:"flat"`      // under weight
	Full     Time   `json:"full"`      // until full strength
}

// MadeFacts are how one kind of frame is glued up.
type MadeFacts struct {
	Kind   string `json:"kind"`
	Letter string `json:"letter"`
	Title  string `json:"title"`
	Count  int    `json:"count"`

	Method   string       `json:"method"`
	Why      string       `json:"why"`
	Asked    bool         `json:"asked"` // in the job file, and not chosen
	Tried    []TriedFacts `json:"tried"` // in the order in which they are thought of
	Help     string       `json:"help,omitempty"`
	Joints   int          `json:"joints"` // of one frame
	Row      Size         `json:"row"`    // all outside lengths end to end
	PerGo    int          `json:"joints_per_go"`
	Tape     *TapeFacts   `json:"tape,omitempty"`   // rolled
	Straps   []int        `json:"straps,omitempty"` // that go round it, by number
	Strapped int          `json:"straps_at_once,omitempty"`
	Batten   *Size        `json:"batten,omitempty"`        // open: between the feet, inside
	Across   *BattenFacts `json:"batten_across,omitempty"` // open: what keeps them so
	Truing   *TruingFacts `json:"truing,omitempty"`        // two halves
	Layers   int          `json:"layers"`
	Clear    Size         `json:"clear"` // narrowest way across the inside
	Wipe     bool         `json:"wipe"`  // too narrow for a chisel
	Steps    []StepFacts  `json:"steps"`

	Corner    string             `json:"corner"` // glue, brads, corner block, plate, spline
	CornerHow string             `json:"corner_how"`
	Pieces    []CornerPieceFacts `json:"pieces"` // that strengthen its corners, alike ones together

	Checks []CheckFacts `json:"checks"`
	Equal  bool         `json:"checks_equal"` // all measures across read the same
	Within Size         `json:"within"`       // what two of them may differ by
	Ways   int          `json:"ways"`         // in which it may lie in its place
	Turns  string       `json:"turns"`        // those ways, in words
	Areas  AreasFacts   `json:"areas"`        // of one frame
}

// TriedFacts are one way of gluing held against its limits.
type TriedFacts struct {
	Method string `json:"method"`
	OK     bool   `json:"ok"`
	Why    string `json:"why"` // what it stays within, or what stands against it
}

// TapeFacts are the strips of tape along a row.
type TapeFacts struct {
	Strips int  `json:"strips"`
	Width  Size `json:"width"`
	Length Size `json:"length"` // of one: the row and a lap at both ends
}

// TruingFacts are how two halves are made to meet.
type TruingFacts struct {
	Corners [2]int  `json:"corners"` // whose joints stay dry at first
	Off     Size    `json:"off"`     // taken off both ends of each half
	Lost    Size    `json:"lost"`    // by so much the frame is smaller across
	Sides   [2]Size `json:"sides"`   // by so much each side at those corners is shorter
}

// StepFacts are one thing to do, and how long to wait before the next.
type StepFacts struct {
	Do    string `json:"do"`
	Wait  *Time  `json:"wait,omitempty"`
	After bool   `json:"after_closing,omitempty"` // of a glue-up: alike for every way of gluing
}

// CornerPieceFacts are pieces that strengthen corners, alike but for the corner.
type CornerPieceFacts struct {
	What     string `json:"what"`           // "18 gauge brad x 1 in", "corner block", "spline"
	Cut      bool   `json:"cut"`            // in the shop, and not bought by its name
	Mark     string `json:"mark,omitempty"` // of the piece of board it is ripped from
	Rip      string `json:"rip,omitempty"`  // how blocks come out of it
	Corners  []int  `json:"corners"`
	Each     int    `json:"each"`  // to a corner
	Count    int    `json:"count"` // in the whole job
	Length   Size   `json:"length"`
	Width    Size   `json:"width"`
	Thick    Size   `json:"thickness"`
	Bevel    Angle  `json:"bevel"`                 // of a block's edge, from square to its face
	At       Size   `json:"at"`                    // brad: from the tip; block: behind the front edge
	Behind   []Size `json:"behind,omitempty"`      // brads, splines: places behind the front edge; of brads by turns from the one part and the other
	Slot     *Size  `json:"slot,omitempty"`        // spline: from the tip along the mitre
	Lean     Angle  `json:"lean"`                  // spline: of the boards of the cradle, from the table
	Lies     string `json:"lies,omitempty"`        // block: which face and edge lie on the sides
	FromBack bool   `json:"from_inside,omitempty"` // brad: driven from the inside face
	Screw    string `json:"screw,omitempty"`
	Screws   int    `json:"screws,omitempty"`     // to one
	Pilot    *Size  `json:"pilot_hole,omitempty"` // plate: for its screws
	Stop     *Size  `json:"drill_stop,omitempty"` // plate: from its face, through it
}

// CheckFacts are one measure across a frame: corner to corner, or to the middle
// of a side.
type CheckFacts struct {
	From int  `json:"from"`
	To   int  `json:"to,omitempty"`
	Side int  `json:"side,omitempty"`
	Size Size `json:"size"`
}

// AreasFacts are faces by where they look.
type AreasFacts struct {
	Inside    Area `json:"inside"`
	Outside   Area `json:"outside"`
	FrontBack Area `json:"front_and_back"`
	Mitres    Area `json:"mitres"` // both faces of every joint
	Feet      Area `json:"feet"`
	Sanded    Area `json:"sanded"` // all but mitres and feet
}

// GoFacts are what is coated and closed without a break.
type GoFacts struct {
	Number int    `json:"number"`
	Kind   string `json:"kind"`
	Letter string `json:"letter"`
	Stage  int    `json:"stage"`
	Stages int    `json:"stages"`
	From   int    `json:"from"` // frames of the kind, counted as they are glued
	To     int    `json:"to"`
	What   string `json:"what"` // "frames 1 and 2", "halves of frame 3"
	Joints int    `json:"joints"`
	Start  Time   `json:"start"`
	Coat   Time   `json:"coat"`
	By     Time   `json:"close_by"` // rounded down to the minute
	Free   Time   `json:"free"`
	Full   Time   `json:"full"`
	Straps []int  `json:"straps"` // round its frames until they are free, by number
}

// FinishFacts are how the job is sanded, filled and finished.
type FinishFacts struct {
	Inside  string      `json:"inside"` // when the insides are finished: "before gluing", "after gluing", "none"
	Grits   []int       `json:"grits"`
	Between int         `json:"between,omitempty"` // grit between coats
	Coats   int         `json:"coats"`
	ADay    int         `json:"coats_a_day"`
	Recoat  Time        `json:"recoat"`
	Set     Time        `json:"filler_set"`
	Sand    Time        `json:"filler_sand"`
	Paint   Time        `json:"filler_paint"`
	Total   AreasFacts  `json:"total"` // of all frames made
	Seams   Area        `json:"seams"` // faces in seams: they stay bare
	Painted Area        `json:"painted"`
	Bare    []BareFacts `json:"bare"`
	Steps   []StepFacts `json:"steps"`
}

// BareFacts are a stretch of a side that lies in a seam: masked, never painted.
type BareFacts struct {
	Frame string `json:"frame"`
	Side  int    `json:"side"`
	Seam  int    `json:"seam"`
	From  Size   `json:"from"` // along the side, from the corner where it starts
	To    Size   `json:"to"`
	Whole bool   `json:"whole"` // from corner to corner, within the joint tolerance
}

// LayFacts are how the set piece is laid out dry, face down: left and right are
// those of somebody who looks at its back.
type LayFacts struct {
	Width     Size            `json:"width"`
	Height    Size            `json:"height"`
	Floor     [2]Size         `json:"floor"` // wide and deep, with room to kneel
	Straight  *StraightFacts  `json:"straight,omitempty"`
	Order     []LaidFacts     `json:"order"`
	Diagonals []DiagonalFacts `json:"diagonals"`
	Equal     bool            `json:"diagonals_equal"`
	Chalk     []ChalkFacts    `json:"chalk"` // in the order of laying
	Alike     []AlikeFacts    `json:"alike"`
	Gaps      []GapFacts      `json:"gaps"` // by seam
	Shims     ShimFacts       `json:"shims"`
	Steps     []StepFacts     `json:"steps"`
}

// StraightFacts are the known-straight length that is clamped to all standing
// sides first.
type StraightFacts struct {
	Length Size     `json:"length"`
	From   SideFrom `json:"from"` // its left end, from the centre line
	To     SideFrom `json:"to"`
	Frames []string `json:"frames"`
	Most   Size     `json:"at_hand"`
	Short  bool     `json:"too_short"` // what is at hand does not reach along all of them
}

// A SideFrom is a distance to the left or right of the centre line.
type SideFrom struct {
	Side string `json:"side"` // "left", "right", or "" on the line
	Size Size   `json:"size"`
}

// LaidFacts are one step of the laying.
type LaidFacts struct {
	Frame   string `json:"frame"`
	How     string `json:"how"` // "on the base line", "by its marks", "against 3, 5"
	Against []int  `json:"against"`
}

// DiagonalFacts are one of the two measures right across the whole.
type DiagonalFacts struct {
	From SpotFacts `json:"from"`
	To   SpotFacts `json:"to"`
	Size Size      `json:"size"`
}

// SpotFacts are a corner of a placed frame, seen from the back.
type SpotFacts struct {
	Frame  string   `json:"frame"`
	Corner int      `json:"corner"`
	Across SideFrom `json:"across"` // from the centre line
	Up     Size     `json:"up"`     // from the base line
	At     XY       `json:"at"`     // in the front view, as everywhere
}

// ChalkFacts are where a frame lies, from the one base line and the one centre
// line: all its corners, and the two that are chalked, which lie far apart.
type ChalkFacts struct {
	Frame    string      `json:"frame"`
	Step     int         `json:"step"` // of the laying
	Corners  []SpotFacts `json:"corners"`
	Marks    [2]int      `json:"marks"`               // places in Corners of the two that are chalked
	UpSide   int         `json:"up_side"`             // where the arrow goes; 0 where a corner is up, and for a ring sawn round
	UpCorner int         `json:"up_corner,omitempty"` // the corner that is up, where none of the sides is level there
}

// AlikeFacts are frames that may be tried in each other's places.
type AlikeFacts struct {
	Kind   string   `json:"kind"`
	Title  string   `json:"title"`
	Frames []string `json:"frames"`
	Ways   int      `json:"ways"`
	Turns  string   `json:"turns"`
}

// GapFacts are a seam and the gap that it is planned with.
type GapFacts struct {
	Seam    int       `json:"seam"`
	Frames  [2]string `json:"frames"`
	Planned Size      `json:"planned"`
}

// ShimFacts say what to do where a seam stands open.
type ShimFacts struct {
	Planned Size      `json:"planned"` // that most seams are laid out with
	Over    Size      `json:"over"`    // beyond a seam's planned gap, up to which nothing is done
	Each    Size      `json:"each"`    // thickness of one
	Counts  []ShimRow `json:"counts"`
}

// A ShimRow is how many shims go into a gap that is so much wider than planned.
type ShimRow struct {
	Beyond Size `json:"beyond"`
	Count  int  `json:"count"`
}

// emptyLists makes lists that hold nothing empty ones.
func (m *MakingFacts) emptyLists() {
	empty(&m.Straps)
	empty(&m.Kinds)
	empty(&m.Goes)
	empty(&m.Finish.Grits)
	empty(&m.Finish.Bare)
	empty(&m.Finish.Steps)
	for i := range m.Kinds {
		empty(&m.Kinds[i].Pieces)
	}
	for i := range m.Goes {
		empty(&m.Goes[i].Straps)
	}
	m.Lay.emptyLists()
}

func (l *LayFacts) emptyLists() {
	empty(&l.Order)
	empty(&l.Diagonals)
	empty(&l.Chalk)
	empty(&l.Alike)
	empty(&l.Gaps)
	empty(&l.Steps)
	empty(&l.Shims.Counts)
	for i := range l.Order {
		empty(&l.Order[i].Against)
	}
}
