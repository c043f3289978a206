package job

// A Result is everything that is computed from a job, in the order of the
// packet. It is what result.json holds and what every paper and page reads: a
// figure that stands twice on paper is one field here.
//
// Lengths are Sizes; coordinates are mm to the micrometre, x from the left end
// of the set piece, y up from the floor, seen from the front.
type Result struct {
	Format      string `json:"format"`       // "bowerwright result"
	Version     int    `json:"version"`      // 1
	MadeBy      string `json:"made_by"`      // program and version
	InputSHA256 string `json:"input_sha256"` // of the job file's bytes (and the shop file's after it)
	Mark        string `json:"mark"`         // first four hex digits of it: an old paper shows another

	Job      JobFacts       `json:"job"`
	Overall  Overall        `json:"overall"`
	Kinds    []KindFacts    `json:"kinds"`
	Families []FamilyFacts  `json:"families"`
	Frames   []FrameFacts   `json:"frames"`
	Seams    []SeamFacts    `json:"seams"`
	Touches  []TouchFacts   `json:"touches"`
	Near     []NearFacts    `json:"near_misses"`
	Openings []OpeningFacts `json:"openings"`
	Moved    []MovedFacts   `json:"moved"`
	Timber   []TimberFacts  `json:"timber"`
	Saw      SawFacts       `json:"saw"`
	Tests    []TestCorner   `json:"test_corners"`
	Fixing   FixingFacts    `json:"fixing"`
	Making   MakingFacts    `json:"making"`
	Buying   BuyingFacts    `json:"buying"`
	Standing *StandingFacts `json:"standing,omitempty"` // nil for a bare cut list
	Sections *SectionsFacts `json:"sections,omitempty"` // nil where the job names no tight spots

	Progress *ProgressFacts `json:"progress,omitempty"` // what was sawn before this plan was made

	Assumed  []AssumedFacts `json:"assumed"`
	Cautions []Caution      `json:"cautions"`
	Banner   string         `json:"banner"` // what has not been checked
	Notes    []Note         `json:"notes"`  // what the maker should look at; nothing here stops the job

	Seal string `json:"seal"` // SHA-256 of all of this, the seal empty: a changed digit shows
}

// A Size is one length, as a number and as it is written in both systems.
// The text is rounded; MM is to the micrometre.
type Size struct {
	MM     float64 `json:"mm"`
	US     string  `json:"us"`
	Metric string  `json:"metric"`
}

// An Angle is one angle in degrees, with its text.
type Angle struct {
	Degrees float64 `json:"degrees"` // to 0.0001
	Text    string  `json:"text"`
}

// A Weight is one mass, in text up to the next whole pound and kilogram, under
// ten up to the next tenth.
type Weight struct {
	KG     float64 `json:"kg"`
	US     string  `json:"us"`
	Metric string  `json:"metric"`
}

// An Area is one area, to the square millimetre and as it is written in both
// systems.
type Area struct {
	MM2    float64 `json:"mm2"`
	US     string  `json:"us"`
	Metric string  `json:"metric"`
}

// An XY is a place in the front view, mm.
type XY [2]float64

// JobFacts say whose job it is.
type JobFacts struct {
	Name      string `json:"name"`
	For       string `json:"for,omitempty"`
	Date      string `json:"date,omitempty"` // YYYY-MM-DD
	Venue     string `json:"venue,omitempty"`
	Maker     string `json:"maker,omitempty"`
	Note      string `json:"note,omitempty"`
	Show      string `json:"show"`   // "us" or "metric" first
	Paper     string `json:"paper"`  // "letter" or "a4"
	Finest    string `json:"finest"` // the mark on the tape, "1/16 in"
	Tolerance Size   `json:"joint_tolerance"`
	Gap       Size   `json:"seam_gap"`
}

// Overall is the whole set piece.
type Overall struct {
	Width          Size       `json:"width"` // gaps at the seams included
	Height         Size       `json:"height"`
	AskedWidth     Size       `json:"asked_width"` // from the sizes as asked, before the tape
	AskedHeight    Size       `json:"asked_height"`
	GapsInWidth    Size       `json:"gaps_in_width"` // how much of the width is gaps at seams
	Weight         Weight     `json:"weight"`        // timber of the placed frames only
	FrameCount     int        `json:"frame_count"`
	SeamCount      int        `json:"seam_count"`
	PartCount      int        `json:"part_count"` // spares included
	BoardCount     int        `json:"board_count"`
	Standing       []string   `json:"standing"` // labels of frames with a side or feet on the floor
	StandingLength Size       `json:"standing_length"`
	Hanging        []string   `json:"hanging"`        // labels of frames that do not reach the floor
	DoubledLength  Size       `json:"doubled_length"` // where two boards lie side by side
	Groups         [][]string `json:"groups"`         // labels of frames joined by seams; more than one group is a note
}

// KindFacts are one kind of frame, made Make times.
type KindFacts struct {
	Name        string        `json:"name"`
	Letter      string        `json:"letter"` // the mark of its parts: B, S, M, ...
	Title       string        `json:"title"`
	Shape       string        `json:"shape"`
	Sides       int           `json:"sides"`
	Open        bool          `json:"open"`
	Make        int           `json:"make"` // placed and spare
	Placed      int           `json:"placed"`
	Timber      string        `json:"timber"`
	Laid        string        `json:"laid"`  // "on edge" or "flat"
	Depth       Size          `json:"depth"` // the stock dimension in the plane
	Rise        Size          `json:"rise"`  // the other one: how deep the frame is, front to back
	Given       string        `json:"given"` // which size was given, "flats"
	Sizes       []NamedSize   `json:"sizes"` // asked and built, all that exist for the shape
	Corners     []Corner      `json:"corners"`
	Outside     []XY          `json:"outside"` // as built, as it stands
	Inside      []XY          `json:"inside"`
	OutsideArea Area          `json:"outside_area"`
	InsideArea  Area          `json:"inside_area"`
	Weight      Weight        `json:"weight"` // of one
	Parts       []PartFacts   `json:"parts"`
	Closing     Size          `json:"closing_gap"` // what rounding leaves at the last joint
	Closes      string        `json:"closes"`      // in words
	SawError    SawErrorFacts `json:"saw_error"`
	FamilyOf    string        `json:"family,omitempty"`
	SawnRound   string        `json:"sawn_round,omitempty"` // for rings sawn round afterwards
}

// A NamedSize is one measure of a shape, as asked and as built.
type NamedSize struct {
	Name  string `json:"name"` // "across flats, outside"
	Asked Size   `json:"asked"`
	Built Size   `json:"built"`
	Given bool   `json:"given"`
}

// A Corner is one corner of a kind.
type Corner struct {
	Number  int   `json:"number"`
	Inside  Angle `json:"inside_angle"`
	Setting Angle `json:"setting"`
	Foot    bool  `json:"foot,omitempty"`
}

// PartFacts are parts that are sawn alike.
type PartFacts struct {
	Mark         string   `json:"mark"`  // "B", or "H1" where a kind has several
	Sides        []int    `json:"sides"` // of the frame
	PerFrame     int      `json:"per_frame"`
	Count        int      `json:"count"` // in the whole job
	Outside      Size     `json:"outside"`
	InsideLength Size     `json:"inside"`
	Tip          Size     `json:"tip_to_tip"`
	LongPoint    Size     `json:"long_point"`
	ShortPoint   Size     `json:"short_point"`
	Asked        Size     `json:"asked_outside"` // before rounding to the tape
	First        EndFacts `json:"first_end"`
	Second       EndFacts `json:"second_end"`
	Hand         string   `json:"hand"`                // "", "left", "right": mirror-handed pairs
	MirrorOf     string   `json:"mirror_of,omitempty"` // mark of its mirror image
	Fitted       bool     `json:"fitted"`              // cut to fit: its length closes the frame
	Rough        *Size    `json:"rough,omitempty"`     // sawn square to this first, then trimmed against a block
	Block        []Angle  `json:"block,omitempty"`     // angle of the fence block at each end
	WayOut       string   `json:"way_out,omitempty"`
}

// EndFacts say how one end is sawn.
type EndFacts struct {
	Setting Angle  `json:"setting"` // signed, from straight across
	Along   Angle  `json:"along"`   // what a saw that counts from along the board reads
	Way     string `json:"way"`     // "standing, head swung", "lying, head tilted", "lying, head swung", "standing, head tilted", "rough, then against a block", "not checked against a saw"
	Reach   bool   `json:"within_reach"`
	Detent  bool   `json:"at_detent"`
}

// SawErrorFacts say what a saw out of true does to a kind.
type SawErrorFacts struct {
	Error      Angle  `json:"error"`     // per cut
	LastGap    Size   `json:"last_gap"`  // all of it at the last joint
	EachGap    Size   `json:"each_gap"`  // shared among all joints
	TrueTo     Angle  `json:"true_to"`   // per cut, for the joint tolerance
	TooSteep   string `json:"too_steep"` // which side opens
	TooShallow string `json:"too_shallow"`
	Open       bool   `json:"open"` // an open outline has no last joint: its feet turn
}

// FamilyFacts are kinds whose sides are whole multiples of one length.
type FamilyFacts struct {
	Unit  Size     `json:"unit"`
	Kinds []string `json:"kinds"`
	Times []int    `json:"times"` // one for each kind: its side is Times x Unit
	Why   string   `json:"why"`   // "named in the job" or "meet flush at both ends"
}

// FrameFacts are one placed frame.
type FrameFacts struct {
	ID      string `json:"id"`
	Kind    string `json:"kind"`
	Number  int    `json:"number"` // reading order from the front
	Label   string `json:"label"`  // letter and number, "B3"
	Mirror  bool   `json:"mirrored"`
	Turn    Angle  `json:"turn"`
	Centre  XY     `json:"centre"`
	Outside []XY   `json:"outside"`
	Inside  []XY   `json:"inside"`
	Open    bool   `json:"open"`
	Round   bool   `json:"sawn_round"` // its outline is a circle in short straight bits
	Stands  bool   `json:"stands"`
	Lowest  Size   `json:"lowest"`   // over the floor
	Up      XY     `json:"up"`       // unit vector that is up, in the kind's own coordinates
	TopSide int    `json:"top_side"` // its highest side: where the up-mark goes
}

// SeamFacts are one seam: where sides of two frames lie against each other and
// are fixed.
type SeamFacts struct {
	Number    int       `json:"number"`
	Frames    [2]string `json:"frames"` // labels
	Sides     [2]int    `json:"sides"`
	Length    Size      `json:"length"`
	From      XY        `json:"from"`
	To        XY        `json:"to"`
	Height    Size      `json:"height"` // of its middle over the floor
	FlushBoth bool      `json:"flush_both"`
	Along     [2]Size   `json:"along"` // where it starts on each side, from that side's first corner
}

// TouchFacts are a corner-only contact: nothing can be fixed there.
type TouchFacts struct {
	Frames [2]string `json:"frames"`
	At     XY        `json:"at"`
}

// NearFacts are two boards that nearly meet.
type NearFacts struct {
	Frames   [2]string `json:"frames"`
	Distance Size      `json:"distance"`
	At       XY        `json:"at"`
}

// OpeningFacts are the clear width at one height.
type OpeningFacts struct {
	Height  Size    `json:"height"`
	Clear   Size    `json:"clear"`
	From    float64 `json:"from_mm"`
	To      float64 `json:"to_mm"`
	Bounded bool    `json:"bounded"` // there is a board on both sides
	Where   string  `json:"where"`   // in words: through which arch, or between what
}

// MovedFacts say how far a frame sits from where the asked sizes put it.
type MovedFacts struct {
	Frame string `json:"frame"`
	By    Size   `json:"by"`
	Right Size   `json:"right"` // signed
	Up    Size   `json:"up"`
}

// SawFacts are the saw as assumed or given.
type SawFacts struct {
	Name    string        `json:"name"`
	Given   bool          `json:"given"`
	From    string        `json:"from"`
	Scale   string        `json:"scale"`
	Stop    string        `json:"stop_side"`
	Kerf    Size          `json:"kerf"`
	Hold    Size          `json:"hold"` // in force: by hand, or under the clamp
	Clamp   bool          `json:"clamp"`
	Reading *ReadingFacts `json:"reading,omitempty"`
}

// ReadingFacts are what the test corner told about the saw.
type ReadingFacts struct {
	Kind   string `json:"kind"`
	Arms   Size   `json:"arms"`
	Across Size   `json:"across"`
	True   Angle  `json:"true_setting"`
	Error  Angle  `json:"error"`
	SetTo  Angle  `json:"set_to"` // what the scale must show for the true setting
}

// A TestCorner is what to cut first: two arms that show a saw out of true.
type TestCorner struct {
	Kind    string `json:"kind"`
	Title   string `json:"title"`
	Setting Angle  `json:"setting"`
	Arms    Size   `json:"arms"`             // outside length of each
	Across  Size   `json:"across"`           // tip to tip when true
	Shows   Size   `json:"shows"`            // change across the tips at the limit
	Error   Angle  `json:"error"`            // per cut that shows it
	Coarse  string `json:"coarse,omitempty"` // when even that cannot be read
}

// AssumedFacts are one assumption the job used.
type AssumedFacts struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Value  string `json:"value"`
	Range  string `json:"range"`
	Source string `json:"source"`
	Status string `json:"status"`
	From   string `json:"from"` // built in, shop file, job file or flag
}

// A Caution is one warning that goes on the papers named.
type Caution struct {
	ID   string `json:"id"`
	Text string `json:"text"`
}

// A Note is something to look at: it does not stop the job.
type Note struct {
	Code  string `json:"code"`
	Where string `json:"where"`
	Text  string `json:"text"`
	Do    string `json:"do"`
}

// emptyLists makes every list that holds nothing an empty one, so that
// result.json has no null where a reader expects a list.
func (r *Result) emptyLists() {
	r.Fixing.emptyLists()
	empty(&r.Families)
	empty(&r.Seams)
	empty(&r.Touches)
	empty(&r.Near)
	empty(&r.Openings)
	empty(&r.Moved)
	empty(&r.Tests)
	empty(&r.Notes)
	empty(&r.Overall.Standing)
	empty(&r.Overall.Hanging)
	empty(&r.Overall.Groups)
	for i := range r.Kinds {
		empty(&r.Kinds[i].Sizes)
	}
}

func empty[T any](list *[]T) {
	if *list == nil {
		*list = []T{}
	}
}
