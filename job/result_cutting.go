package job

import "bowerwright/unit"

// TimberFacts are one stock size laid one way: what to take and to buy, and how
// to saw it. They are the same whether their parts come from a job or from a
// bare list of parts.
type TimberFacts struct {
	Name      string  `json:"name"`
	Size      string  `json:"size"` // "1 x 4", or "measured"
	Thickness Size    `json:"thickness"`
	Width     Size    `json:"width"`
	Length    Size    `json:"length"` // of the longest board that is sawn: to this boards are drawn
	Species   string  `json:"species"`
	Moisture  float64 `json:"moisture_percent"`
	Density   float64 `json:"density_kg_m3"`
	Depth     Size    `json:"depth"` // the stock dimension in the plane
	Laid      string  `json:"laid"`
	Turning   bool    `json:"turning"`
	Kerf      Size    `json:"kerf"`
	TrimFirst Size    `json:"trim_first"`
	TrimFar   Size    `json:"trim_far"`
	Hold      Size    `json:"hold"`
	Clamp     bool    `json:"clamp"`
	Keep      Size    `json:"keep"`   // least offcut worth keeping
	Margin    Size    `json:"margin"` // left beside what cannot be used

	Stocks    []StockFacts `json:"stocks"`    // on hand first, then what is bought
	Buy       int          `json:"buy"`       // boards
	FromHand  int          `json:"from_hand"` // boards on hand that are sawn
	Cost      string       `json:"cost,omitempty"`
	CostMinor int64        `json:"cost_minor,omitempty"` // of what is bought, and of what is on hand and has a price
	Currency  string       `json:"currency,omitempty"`

	Claim    string      `json:"claim"` // "7 boards; fewer is impossible", or bound and gap
	Levels   LevelsFacts `json:"levels"`
	ByLength int         `json:"by_length"`  // what total length alone would need, all boards the longest
	Used     float64     `json:"used_share"` // of the timber sawn that ends in parts

	Parts    []WantedFacts `json:"parts"`  // in the order of the kinds
	Boards   []BoardFacts  `json:"boards"` // on hand first
	Stops    []StopFacts   `json:"stops"`  // in bench order
	Trims    []TrimFacts   `json:"trims"`  // of parts that are first sawn to a rough length
	Session  SessionFacts  `json:"session"`
	Cutting  string        `json:"cutting"`            // "fewest boards" or "fewest changes": the way that is on paper
	Ways     []WayFacts    `json:"ways"`               // the ways to cut it, the one on paper among them
	Unturned *WayFacts     `json:"unturned,omitempty"` // what it would take if no board were turned

	Bench *BenchFacts `json:"bench,omitempty"` // what was sawn before

	Order ExactOrder `json:"order"` // what was asked of the solver, whole
	Plan  ExactPlan  `json:"plan"`  // what it answered, with its proofs
	Seal  string     `json:"seal"`  // SHA-256 of all of this, the seal empty: a changed digit shows
}

// StockFacts are boards of one length and price: to be bought, or on hand.
type StockFacts struct {
	Name       string      `json:"name"` // "8 ft", or "41 in, on hand"
	Length     Size        `json:"length"`
	OnHand     bool        `json:"on_hand"`
	Limit      int         `json:"limit"`           // boards to be had; 0 is no limit
	Used       int         `json:"used"`            // boards sawn
	Buy        int         `json:"buy"`             // of them bought
	Price      string      `json:"price,omitempty"` // of a board
	PriceMinor int64       `json:"price_minor,omitempty"`
	Cost       string      `json:"cost,omitempty"` // of those used
	CostMinor  int64       `json:"cost_minor,omitempty"`
	Spans      []SpanFacts `json:"spans,omitempty"` // what of it cannot be used
}

// SpanFacts are a length of a board that cannot be used, from its first end.
type SpanFacts struct {
	From    Size `json:"from"`
	To      Size `json:"to"`
	OutFrom Size `json:"out_from"` // where it is sawn out, square: the margin beyond
	OutTo   Size `json:"out_to"`
}

// LevelsFacts are how good a plan is: the three aims, one after the other.
type LevelsFacts struct {
	Cost   LevelFacts `json:"cost"`   // least
	Boards LevelFacts `json:"boards"` // fewest bought among plans that cost no more
	Offcut LevelFacts `json:"offcut"` // longest worth keeping of a board bought, among plans as good in both
}

// LevelFacts are one aim: what the plan comes to, what no plan can better, and
// what shows it.
type LevelFacts struct {
	Value     int64  `json:"value"`      // minor units, boards, or nanometres
	Bound     int64  `json:"bound"`      // no plan betters it
	Text      string `json:"text"`       // the value as it is written, "$31.43"
	BoundText string `json:"bound_text"` // the bound, likewise
	Proved    bool   `json:"proved"`     // value and bound are one
	Rechecked bool   `json:"rechecked"`  // the proof was followed by a program that did not make it
	Proof     string `json:"proof"`      // "multipliers", "multipliers by counts", "multipliers and cover" or "none"
	Says      string `json:"says"`       // all of it in words
}

// WantedFacts are one part as it is wanted from the boards.
type WantedFacts struct {
	Mark   string `json:"mark"`
	Kind   string `json:"kind,omitempty"` // of frame
	What   string `json:"what,omitempty"` // of what is no part of a frame: "corner blocks ..."
	Length Size   `json:"length"`         // outside, or of a square piece
	Long   Size   `json:"long_point"`
	Short  Size   `json:"short_point"`
	First  Angle  `json:"first_end"`
	Second Angle  `json:"second_end"`
	Way    string `json:"way"`              // how it is sawn: "standing, swung"
	Fitted bool   `json:"fitted"`           // cut to what closes its frame
	Need   int    `json:"need"`             // that end in the set piece and in spare frames
	Spare  int    `json:"spare"`            // spare parts
	Reject int    `json:"reject"`           // more, for those expected to be spoilt
	Sawn   int    `json:"sawn,omitempty"`   // already, at the bench
	Spoilt int    `json:"spoilt,omitempty"` // of those
	Saw    int    `json:"saw"`              // all that are still to be sawn
}

// A StopFacts is one position of the stop, in bench order: all parts that are
// the same stick.
type StopFacts struct {
	Number     int         `json:"number"` // in bench order, from 1
	Parts      []StopPart  `json:"parts"`
	Way        string      `json:"way"`
	Short      Size        `json:"shorter_face"`
	LongEnough bool        `json:"long_enough_to_hold"`
	Stop       Size        `json:"stop"`  // tooth to stop
	Point      string      `json:"point"` // "long point", "tip" or "square end"
	Face       string      `json:"face"`  // which face of the board touches the stop
	First      Angle       `json:"first_end"`
	Second     Angle       `json:"second_end"`
	Rough      bool        `json:"rough"`    // sawn square to a rough length, trimmed later
	Settings   []Angle     `json:"settings"` // of the saw at this stop, as they first come
	SawSet     int         `json:"saw_set"`  // times the saw is set anew here
	Count      int         `json:"count"`    // parts sawn, spare ones included
	Boards     []StopBoard `json:"boards"`   // in the order in which they are taken
	Held       string      `json:"held"`     // what is held and why it is long enough
}

// Has says whether a part is sawn at the stop.
func (s StopFacts) Has(mark string) bool {
	for _, p := range s.Parts {
		if p.Mark == mark {
			return true
		}
	}
	return false
}

// A StopPart is a part that is sawn at a stop.
type StopPart struct {
	Mark  string `json:"mark"`
	Kind  string `json:"kind,omitempty"`
	Count int    `json:"count"`
}

// A StopBoard is a board that comes to a stop, and how many parts it gives
// there.
type StopBoard struct {
	Board int `json:"board"` // its number
	Count int `json:"count"`
}

// TrimFacts are the ends of parts sawn to a rough length that are trimmed at
// one setting of the saw, together.
type TrimFacts struct {
	Setting Angle     `json:"setting"`
	Ends    []TrimEnd `json:"ends"`
}

// A TrimEnd is one end of a part to be trimmed; a second end is trimmed to the
// stop, which stands at the part's tip-to-tip length.
type TrimEnd struct {
	Mark  string `json:"mark"`
	End   string `json:"end"` // "first" or "second"
	Count int    `json:"count"`
	Stop  *Size  `json:"stop,omitempty"` // tooth to stop, where this end is the part's second
}

// SessionFacts count what is set at the saw for all boards of a timber.
type SessionFacts struct {
	StopSettings int  `json:"stop_settings"` // times the stop is set, the first included
	SawSettings  int  `json:"saw_settings"`  // times the saw is set, the first included
	LongestFirst bool `json:"longest_first"` // the stops may also be run longest first
}

// WayFacts are one way to cut a timber, to stand beside others.
type WayFacts struct {
	Name         string      `json:"name"`              // "fewest boards", "by saw setting", "fewest changes", "without turning"
	SameAs       string      `json:"same_as,omitempty"` // an earlier way that it comes to
	Closed       string      `json:"closed,omitempty"`  // why it is not open; the rest is then empty
	Chosen       bool        `json:"chosen"`            // it is the one on paper
	Buy          int         `json:"buy"`
	FromHand     int         `json:"from_hand"`
	Cost         string      `json:"cost,omitempty"`
	CostMinor    int64       `json:"cost_minor,omitempty"`
	StopSettings int         `json:"stop_settings"`
	SawSettings  int         `json:"saw_settings"`
	Rough        []string    `json:"rough,omitempty"` // parts that are first sawn to a rough length
	Levels       LevelsFacts `json:"levels"`
	Says         string      `json:"says"`           // against the one on paper: "one more board, $4.49, saves 14 settings"
	Plan         *ExactPlan  `json:"plan,omitempty"` // unless it is the one on paper, or an earlier one
}

// BoardFacts are one board to saw; boards sawn alike are told once.
type BoardFacts struct {
	Numbers   []int       `json:"numbers"` // 1.. within the timber
	Stock     string      `json:"stock"`   // by its name
	Length    Size        `json:"length"`
	OnHand    bool        `json:"on_hand"`
	Spans     []SpanFacts `json:"spans,omitempty"` // sawn out first
	Parts     []SawnFacts `json:"parts"`
	Waste     Size        `json:"waste"`
	Offcut    Size        `json:"offcut"`               // the longest, on its shorter face, 0 if none
	Keep      bool        `json:"keep"`                 // worth keeping
	More      []Size      `json:"more,omitempty"`       // other offcuts worth keeping, of a board with spans
	Exact     bool        `json:"exact"`                // its last part reaches its end uncut: it must not be a hair short
	Summary   string      `json:"summary"`              // "6 x B at 10 3/8 in"
	Begun     bool        `json:"begun,omitempty"`      // parts were sawn from it before: lengths count from the last of them
	TurnFirst string      `json:"turn_first,omitempty"` // of one begun: what to do with it before the first cut
	Changed   bool        `json:"changed,omitempty"`    // the papers before had it otherwise, or not at all
}

// SawnFacts are one part in a board, with lengths along the middle of it, from
// the first end of the board.
type SawnFacts struct {
	Mark       string  `json:"mark"`
	Clear      int     `json:"clear"` // of a board with spans: which clear length of it, from 0
	Rolled     bool    `json:"rolled"`
	Swapped    bool    `json:"swapped"`
	Start      float64 `json:"start_mm"` // along the middle of the board
	End        float64 `json:"end_mm"`
	LeftSlope  float64 `json:"left_slope_mm"` // across the depth, bottom to top
	RightSlope float64 `json:"right_slope_mm"`
	Shares     bool    `json:"shares_cut"` // its first end is the cut before
	Turn       string  `json:"turn"`       // what to do with the board before the next cut
	Held       string  `json:"held"`       // "board" or "part" at the cut that frees it
	HeldLength Size    `json:"held_length"`
}

// An ExactOrder is what the solver was asked, in whole nanometres and in
// degrees as they are.
type ExactOrder struct {
	Parts   []ExactPart  `json:"parts"`
	Stocks  []ExactStock `json:"stocks"`
	Depth   unit.Length  `json:"depth_nm"`
	Kerf    unit.Length  `json:"kerf_nm"`
	Hold    unit.Length  `json:"hold_nm"`
	Keep    unit.Length  `json:"keep_nm"`
	Turning bool         `json:"turning"`
}

// An ExactPart is one part of the order.
type ExactPart struct {
	Mark    string      `json:"mark"`
	Outside unit.Length `json:"outside_nm"`
	First   float64     `json:"first_end_degrees"`
	Second  float64     `json:"second_end_degrees"`
	Rough   unit.Length `json:"rough_nm,omitempty"` // beyond the saw: planned as so long, square
	Count   int         `json:"count"`
}

// An ExactStock is one stock of the order.
type ExactStock struct {
	Name      string           `json:"name"`
	Length    unit.Length      `json:"length_nm"`
	TrimFirst unit.Length      `json:"trim_first_nm"`
	TrimFar   unit.Length      `json:"trim_far_nm"`
	Price     int64            `json:"price_minor"`
	Limit     int              `json:"limit"`
	OnHand    bool             `json:"on_hand"`
	Spans     [][2]unit.Length `json:"spans_nm,omitempty"`
	Margin    unit.Length      `json:"margin_nm,omitempty"`
	Begun     bool             `json:"begun,omitempty"`        // the length counts from the right end of the last part sawn from it
	Lean      float64          `json:"lean_degrees,omitempty"` // of the cut there, which the first part may share
}

// An ExactPlan is a plan as the solver gave it.
type ExactPlan struct {
	BySetting bool          `json:"by_setting"`         // parts lie by saw setting
	Unturned  bool          `json:"unturned,omitempty"` // no board is turned, whatever the order allows
	Rough     []unit.Length `json:"rough_nm,omitempty"` // by part: sawn so long and square first; 0 for no
	Boards    []ExactBoard  `json:"boards"`
	Cost      ExactLevel    `json:"cost"`
	Bought    ExactLevel    `json:"bought"`
	Offcut    ExactLevel    `json:"offcut"`
	ByLength  int           `json:"by_length"`
}

// An ExactBoard is a board of the plan, or one clear length of a board with
// spans; Times boards are alike.
type ExactBoard struct {
	Times   int           `json:"times"`
	Stock   int           `json:"stock"` // index in the order
	Stretch int           `json:"stretch,omitempty"`
	From    unit.Length   `json:"from_nm,omitempty"`
	Offcut  unit.Length   `json:"offcut_nm"`
	Parts   []ExactPlaced `json:"parts"`
}

// An ExactPlaced is a part on a board, mm to the millionth of a micrometre.
type ExactPlaced struct {
	Part      int     `json:"part"` // index in the order
	Rolled    bool    `json:"rolled,omitempty"`
	Swapped   bool    `json:"swapped,omitempty"`
	Start     float64 `json:"start_mm"`
	End       float64 `json:"end_mm"`
	Left      float64 `json:"left_slope_mm"`
	Right     float64 `json:"right_slope_mm"`
	Shares    bool    `json:"shares_cut,omitempty"`
	Turn      int     `json:"turn,omitempty"` // 0 none, 1 roll, 2 swap ends, 3 both
	Held      int     `json:"held,omitempty"` // 0 the board, 1 the part, 2 not cut off
	HeldShort float64 `json:"held_mm"`
}

// An ExactLevel is one aim with its proof.
type ExactLevel struct {
	Value   int64         `json:"value"`
	Bound   int64         `json:"bound"`
	Proof   string        `json:"proof"`
	Rulings []ExactRuling `json:"rulings,omitempty"`
}

// An ExactRuling gives every part a worth, and every board, or clear length of
// one, the greatest worth that it holds. Boards that hold less in sum than All
// are ruled out; with Counts, so many boards, and any fewer.
type ExactRuling struct {
	Worth  []int64 `json:"worth"`
	All    int64   `json:"all"` // of all parts together
	Most   []int64 `json:"most"`
	Counts []int   `json:"counts,omitempty"`
}
