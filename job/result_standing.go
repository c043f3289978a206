package job

// StandingFacts say whether the set piece stays on its feet, by calculation,
// and how it is lifted. Plans are seen from above: x from the left end, y
// backwards from the foremost front edges, mm.
type StandingFacts struct {
	Assumed  []string `json:"assumed"` // what was taken since the job does not say
	Where    string   `json:"where"`
	Floor    string   `json:"floor"`    // in words
	Friction float64  `json:"friction"` // level force over weight at which it slides
	Watch    string   `json:"watch,omitempty"`

	Word    string `json:"word"` // the worst of standing, strength and lifting: "well inside", "near the limit", "over", or "falls" where it has no footing
	Over    bool   `json:"over"`
	Says    string `json:"says"` // one line: what governs, and the limit by calculation
	Cannot  string `json:"cannot,omitempty"`
	Helps   string `json:"helps,omitempty"`
	Stays   string `json:"stays"`   // one line on tipping and sliding alone
	Governs int    `json:"governs"` // index in Findings, -1 when a lean does or there is none

	Weights  []WeightFacts   `json:"weights"` // frames, base, ballast
	Parts    []PartWeight    `json:"parts"`   // of one part as sawn
	Ways     []DressedFacts  `json:"ways"`
	Plan     PlanFacts       `json:"plan"`
	Findings []FindingFacts  `json:"findings"`
	Leans    []LeanFacts     `json:"leans"`
	Ballast  BallastFacts    `json:"ballast"`
	Width    WidthFacts      `json:"base_without_ballast"`
	WaysOut  []WayOutFacts   `json:"ways_out"`
	Wind     []WindPlanFacts `json:"wind"`
	Push     []PushFacts     `json:"push"` // one for each way
	Lift     LiftFacts       `json:"lift"`
	Flame    []FlameFacts    `json:"flame"`
	Strength *StrengthFacts  `json:"strength,omitempty"` // nil: it has no footing
	Hard     []string        `json:"not_checked"`
	Engineer []string        `json:"engineer"` // when a licensed engineer is needed
	PullTest *PullTestFacts  `json:"pull_test,omitempty"`
}

// A Force is one level or upward force.
type Force struct {
	N      float64 `json:"n"`
	US     string  `json:"us"`
	Metric string  `json:"metric"`
}

// A Speed is one wind, a 3-second gust where nothing else is said. Limits are
// rounded down, forces and weights up.
type Speed struct {
	MS     float64 `json:"ms"`
	US     string  `json:"us"`
	Metric string  `json:"metric"`
}

// Use is a share of a limit, as the vial shows it: Ratio is capped at 100, its
// text at "over 10".
type Use struct {
	Ratio float64 `json:"ratio"`
	Text  string  `json:"text"`
	Word  string  `json:"word"`
}

// WeightFacts are one weight and where its middle is.
type WeightFacts struct {
	What   string `json:"what"`
	Kind   string `json:"kind"` // "frame", "base", "ballast", "dressing", "whole"
	Weight Weight `json:"weight"`
	Wet    Weight `json:"wet"`
	Right  Size   `json:"right"` // of its middle, from the left end
	Up     Size   `json:"up"`    // over the floor
	Back   Size   `json:"back"`  // behind the foremost edges, signed
}

// PartWeight is what one part as sawn weighs.
type PartWeight struct {
	Mark   string `json:"mark"`
	Weight Weight `json:"weight"`
}

// DressedFacts are the piece in one way of dressing.
type DressedFacts struct {
	Name     string        `json:"name"`
	Whole    WeightFacts   `json:"whole"` // with base and ballast
	Layers   []WeightFacts `json:"layers"`
	Covers   []Area        `json:"covers"` // by each layer
	Gross    Area          `json:"gross"`
	Solid    Area          `json:"solid"`
	Solidity string        `json:"solidity"` // in per cent
	Pressure XY            `json:"pressure"` // centre of what stops the wind, in the front view from the foot
	High     Size          `json:"pressure_height"`
	Gust     *Speed        `json:"gust_limit,omitempty"` // by calculation, rounded down; nil where it does not stand by itself
	Stop     bool          `json:"gust_stop"`            // the limit is the stop, nothing stays up beyond it
	GustBy   string        `json:"gust_by"`              // how it would go at the limit
}

// FindingFacts are one way of dressing under one load.
type FindingFacts struct {
	Way    string     `json:"way"`
	Load   string     `json:"load"` // "push at shoulder height", "gust of 20 mph"
	Force  Force      `json:"force"`
	Height Size       `json:"height"` // of the force over the floor
	Use    Use        `json:"use"`
	Mode   string     `json:"mode"` // "tipping" or "sliding"
	Toward string     `json:"toward"`
	Angle  Angle      `json:"angle"` // of that direction
	Edge   *[2]XY     `json:"edge,omitempty"`
	EdgeIs string     `json:"edge_is,omitempty"` // "the back edge"
	Wet    bool       `json:"wet"`
	Limit  string     `json:"limit_by_calculation"` // the largest load of the kind, rounded down: "a push of 12 lb", "35 % of it"
	Rose   []RoseFact `json:"rose"`                 // the 36 directions
}

// A RoseFact is one direction, anticlockwise from the right as seen from above.
type RoseFact struct {
	Degrees float64 `json:"degrees"`
	Tip     float64 `json:"tip"` // what is wanted over what there is, capped at 100
	Slide   float64 `json:"slide"`
}

// LeanFacts are the lean at which the piece goes by itself.
type LeanFacts struct {
	Use    Use    `json:"use"`
	Way    string `json:"way"`
	Angle  Angle  `json:"angle"`
	Wanted Angle  `json:"wanted"`
	Word   string `json:"word"`
	Toward string `json:"toward"`
}

// PlanFacts are what stands on the floor, seen from above.
type PlanFacts struct {
	Hull   []XY        `json:"hull"`
	Boards [][]XY      `json:"boards"` // where the frames stand
	Pieces []BasePiece `json:"pieces"`
	Stakes []XY        `json:"stakes"`
	Width  Size        `json:"width"` // of the hull
	Depth  Size        `json:"depth"`
	Lift   Size        `json:"lift"` // the base is so high
}

// BasePiece is one piece of the base.
type BasePiece struct {
	Name    string `json:"name"`
	Kind    string `json:"kind"`
	On      [][]XY `json:"on_the_floor"`
	Hole    []XY   `json:"hole"`
	Weight  Weight `json:"weight"`
	Carries bool   `json:"carries_ballast"`
}

// BallastFacts are what weight stands where.
type BallastFacts struct {
	Needed bool         `json:"needed"` // something is over without it
	Units  int          `json:"units"`
	Weight Weight       `json:"weight"`
	Enough bool         `json:"enough"`
	Fewest bool         `json:"fewest"` // every plan with fewer was ruled out
	Stacks []StackFacts `json:"stacks"`
	Heap   *Weight      `json:"heap,omitempty"` // needed if all stood in the middle of the base, nil when none is enough
	Says   string       `json:"says"`
}

// StackFacts are units on each other in one place.
type StackFacts struct {
	Unit    string `json:"unit"`
	Count   int    `json:"count"`
	Each    Weight `json:"each"` // rounded down
	At      XY     `json:"at"`
	Right   Size   `json:"right"`  // of its middle, from the left end of the piece
	Behind  Size   `json:"behind"` // of its middle, behind the front edges, signed
	Outline []XY   `json:"outline"`
	On      string `json:"on"`
}

// WidthFacts are the size that the base would need without ballast.
type WidthFacts struct {
	Enough bool   `json:"enough"` // some size is
	Wide   *Size  `json:"wide,omitempty"`
	Deep   *Size  `json:"deep,omitempty"`
	Only   *Size  `json:"deep_alone,omitempty"` // as wide as it is, so deep
	Slides bool   `json:"slides"`               // it slides whatever its size
	Says   string `json:"says"`
}

// WayOutFacts are a change that was reckoned.
type WayOutFacts struct {
	Number int      `json:"number"`
	Kind   string   `json:"kind"` // "base", "ballast", "wings", "brace", "stakes", "floor", "dressing"
	Says   string   `json:"says"`
	Steps  []string `json:"steps"` // each of several changes that are made together
	Use    Use      `json:"use"`
	After  string   `json:"after"` // what governs then
	Units  int      `json:"ballast_units"`
	Helps  bool     `json:"helps"`  // it is better than before
	Enough bool     `json:"enough"` // nothing is over then
	Edits  []EditTo `json:"edits"`  // what it is in the job file
}

// EditTo is a field of the job file and the text it gets; an empty one goes.
type EditTo struct {
	Path string `json:"path"`
	Text string `json:"text"`
}

// WindPlanFacts are what is done at which gust, for one way of dressing.
type WindPlanFacts struct {
	Way   string      `json:"way"`
	Limit Speed       `json:"limit"`
	Watch Speed       `json:"watch"` // somebody watches from here
	Act   Speed       `json:"act"`   // it comes down
	Stop  bool        `json:"stop"`
	By    string      `json:"by"`
	Down  []DownFacts `json:"down"` // what comes down first
}

// DownFacts are one layer taken down and the limit after it.
type DownFacts struct {
	Layer string `json:"layer"`
	Then  Speed  `json:"then"`
}

// PushFacts are the push that a way of dressing takes by calculation.
type PushFacts struct {
	Way    string `json:"way"`
	Force  Force  `json:"force"` // rounded down
	Height Size   `json:"height"`
	By     string `json:"by"`
}

// BackFacts are one strongback: a batten from a place to another in the front
// view, screwed across the back.
type BackFacts struct {
	From      XY   `json:"from"`
	To        XY   `json:"to"`
	FromRight Size `json:"from_right"` // from the left end
	FromUp    Size `json:"from_up"`    // over the foot of the piece
	ToRight   Size `json:"to_right"`
	ToUp      Size `json:"to_up"`
	Length    Size `json:"length"` // as sawn

	Mark   string `json:"mark"`   // in the cut list; they are alike
	Screws int    `json:"screws"` // two wherever it crosses a board
	Thing  string `json:"thing"`  // the screw as sold
}

// PullTestFacts are a pull that the sums pass.
type PullTestFacts struct {
	Force  Force `json:"force"`
	Height Size  `json:"height"`
}

// FlameFacts are one material and what shows that it is hard to set alight.
type FlameFacts struct {
	Material string   `json:"material"`
	Ways     []string `json:"ways"`
	Evidence string   `json:"evidence"` // "" for none told
}

// LiftFacts are how the whole piece is handled without its base, bare.
type LiftFacts struct {
	Weight  Weight      `json:"weight"`
	Carry   CarryFacts  `json:"carry"`
	Turn    *TurnFacts  `json:"turn,omitempty"` // nil: no team is enough
	Tilt    TiltFacts   `json:"tilt"`
	Swing   Size        `json:"swing"` // room over the floor while it is tilted up
	Built   []BuiltLift `json:"built"` // each kind of lift of single frames, the heaviest first
	Rules   []string    `json:"rules"`
	Helpers int         `json:"helpers"`     // who lift, as the job says; 0: not said
	Short   bool        `json:"short"`       // some lift wants more
	Over    bool        `json:"over"`        // it is short, or no team is enough
	InPlace bool        `json:"in_place"`    // built up frame by frame: never lifted in one
	Backs   []BackFacts `json:"strongbacks"` // battens across its back on the way
	Says    string      `json:"says"`
}

// CarryFacts are the fewest people who carry it flat, and their places.
type CarryFacts struct {
	People  int        `json:"people"` // 0: no team that works as one is enough
	Holds   []HoldFact `json:"hand_holds"`
	Most    Weight     `json:"most"` // what the hardest pressed carries
	Allowed Weight     `json:"allowed"`
	Use     Use        `json:"use"`
	Worst   []HoldFact `json:"worst"` // the worst places for as many
	Worse   Weight     `json:"worst_most"`
}

// HoldFact is where one person holds: two hands on a side of a frame.
type HoldFact struct {
	Frame   string `json:"frame"`
	Side    int    `json:"side"`
	Hands   [2]XY  `json:"hands"`
	Carries Weight `json:"carries"`
}

// TurnFacts are the piece turned over from its front on to its back.
type TurnFacts struct {
	About  string `json:"about"`
	People int    `json:"people"`
	Force  Force  `json:"force"`
}

// TiltFacts are the piece raised from lying on its back.
type TiltFacts struct {
	People  int     `json:"people"` // 0: no team is enough
	Force   Force   `json:"force"`  // the most on the way, of all hands
	At      Angle   `json:"at"`
	Balance Angle   `json:"balance"`
	Grip    float64 `json:"grip"` // friction that its heel needs
}

// BuiltLift is frames that are lifted into place alike.
type BuiltLift struct {
	Frames []string `json:"frames"`
	Weight Weight   `json:"weight"`
	To     Size     `json:"to"` // height of its middle
	People int      `json:"people"`
	Single Weight   `json:"niosh_one_person"`
	Steps  bool     `json:"steps"`
}

// emptyLists is Result.emptyLists for this part.
func (s *StandingFacts) emptyLists() {
	empty(&s.Assumed)
	empty(&s.Weights)
	empty(&s.Parts)
	empty(&s.Ways)
	empty(&s.Findings)
	empty(&s.Leans)
	empty(&s.WaysOut)
	empty(&s.Wind)
	empty(&s.Push)
	empty(&s.Flame)
	empty(&s.Hard)
	empty(&s.Engineer)
	empty(&s.Ballast.Stacks)
	empty(&s.Lift.Carry.Holds)
	empty(&s.Lift.Carry.Worst)
	empty(&s.Lift.Built)
	empty(&s.Lift.Backs)
	s.Strength.emptyLists()
	empty(&s.Lift.Rules)
	empty(&s.Plan.Hull)
	empty(&s.Plan.Boards)
	empty(&s.Plan.Pieces)
	empty(&s.Plan.Stakes)
	for i := range s.Ways {
		empty(&s.Ways[i].Layers)
		empty(&s.Ways[i].Covers)
	}
	for i := range s.Plan.Pieces {
		empty(&s.Plan.Pieces[i].Hole)
	}
	for i := range s.Wind {
		empty(&s.Wind[i].Down)
	}
	for i := range s.WaysOut {
		empty(&s.WaysOut[i].Edits)
		empty(&s.WaysOut[i].Steps)
	}
}
