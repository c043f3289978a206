// Package assume holds every number that is neither geometry nor input: what a
// shop usually does, what a board usually weighs.
//
// A Value has an id, a range, a source and a status, so that it can be shown
// and edited. A Book is a set of them; overriding a value gives a new Book and
// never changes an old one. Reading through a Reader records what was used.
//
// The package does not convert units: a value comes as a number and the name of
// its unit. It does not know what a value is for.
package assume

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// An ID names a value: topic and name, as in saw.hold.
type ID string

// The values that are built in.
const (
	Moisture        ID = "board.moisture"
	JointTolerance  ID = "corner.tolerance"
	Keep            ID = "cut.keep"
	Kerf            ID = "cut.kerf"
	KnotMargin      ID = "cut.knot-margin"
	TrimFar         ID = "cut.trim-far"
	TrimFirst       ID = "cut.trim-first"
	Adult           ID = "figure.adult"
	Child           ID = "figure.child"
	Skirt           ID = "figure.skirt"
	NearMiss        ID = "layout.near-miss"
	SeamGap         ID = "layout.seam-gap"
	OpeningFoot     ID = "opening.foot"
	OpeningHead     ID = "opening.head"
	OpeningHip      ID = "opening.hip"
	OpeningShoulder ID = "opening.shoulder"
	RoughAllowance  ID = "rough.allowance"
	RoughGreatest   ID = "rough.greatest"
	RoughLeast      ID = "rough.least"
	ClampHold       ID = "saw.clamp-hold"
	SawError        ID = "saw.error"
	Hold            ID = "saw.hold"
	Swing           ID = "saw.swing"
	Tilt            ID = "saw.tilt"
	Mark            ID = "tape.mark"
	MarkMetric      ID = "tape.mark-metric"
	TestCornerShow  ID = "test-corner.show"

	// Fixing: distances in diameters (D) of the fastener, eyes, drivers.
	FixApart         ID = "fixing.apart"
	FixEdge          ID = "fixing.edge"
	FixEnd           ID = "fixing.end"
	FixEndLeast      ID = "fixing.end-least"
	FixPitch         ID = "fixing.pitch"
	FixPitchAcross   ID = "fixing.pitch-across"
	FixBoltEdge      ID = "fixing.bolt-edge"
	FixBoltEnd       ID = "fixing.bolt-end"
	FixBoltEndLeast  ID = "fixing.bolt-end-least"
	FixBoltPitch     ID = "fixing.bolt-pitch"
	FixKeep          ID = "fixing.keep"
	FixSink          ID = "fixing.sink"
	FixHold          ID = "fixing.hold"
	FixFull          ID = "fixing.full"
	FixReach         ID = "fixing.reach"
	FixStandard      ID = "fixing.standard"
	FixEvery         ID = "fixing.every"
	FixBore          ID = "fixing.bore"
	EyeStanding      ID = "eye.standing"
	EyeSeated        ID = "eye.seated"
	EyeCamera        ID = "eye.camera"
	EyeDistance      ID = "eye.distance"
	DriverLength     ID = "driver.length"
	DriverBit        ID = "driver.bit"
	DriverHalf       ID = "driver.half"
	RightAngleLength ID = "driver.right-angle"
	RightAngleBit    ID = "driver.right-angle-bit"
	RightAngleHalf   ID = "driver.right-angle-half"
	SlantMost        ID = "driver.slant"
	NutRoom          ID = "driver.nut"

	// Buying: spare, standing lists.
	BuyBrushes      ID = "buying.brushes"
	BuyGlueBrushes  ID = "buying.glue-brushes"
	BuyMasks        ID = "buying.masks"
	BuyPencils      ID = "buying.pencils"
	BuySpareFinish  ID = "buying.spare-finish"
	BuySpareFixings ID = "buying.spare-fixings"
	BuySpareGlue    ID = "buying.spare-glue"
	BuySheetYield   ID = "buying.yield"

	// Making: glue, corners, filler, finish, abrasive, and laying out.
	CornerBevel     ID = "corner.bevel"
	CornerBlock     ID = "corner.block"
	CornerBlockBack ID = "corner.block-back"
	CornerBradEnd   ID = "corner.brad-end"
	CornerBradHold  ID = "corner.brad-hold"
	CornerBrads     ID = "corner.brads"
	CornerKeep      ID = "corner.keep"
	CornerRipLeast  ID = "corner.rip-least"
	CornerRipMost   ID = "corner.rip-most"
	CornerSlot      ID = "corner.slot"
	FillerJoint     ID = "filler.joint"
	FillerPaint     ID = "filler.paint"
	FillerSand      ID = "filler.sand"
	FillerSet       ID = "filler.set"
	FinishCoats     ID = "finish.coats"
	FinishCoatsDay  ID = "finish.coats-day"
	FinishCoverage  ID = "finish.coverage"
	FinishRecoat    ID = "finish.recoat"
	FinishWaste     ID = "finish.waste"
	GlueChisel      ID = "glue.chisel"
	GlueClose       ID = "glue.close"
	GlueCoverage    ID = "glue.coverage"
	GlueFace        ID = "glue.face"
	GlueFlat        ID = "glue.flat"
	GlueFull        ID = "glue.full"
	GlueHold        ID = "glue.hold"
	GlueOpen        ID = "glue.open"
	GluePitch       ID = "glue.pitch"
	GlueRow         ID = "glue.row"
	GlueSide        ID = "glue.side"
	GlueSizeFace    ID = "glue.size-face"
	GlueSizeWait    ID = "glue.size-wait"
	GlueSpread      ID = "glue.spread"
	GlueStock       ID = "glue.stock"
	GlueTemperature ID = "glue.temperature"
	GlueTruing      ID = "glue.truing"
	GlueWarm        ID = "glue.warm"
	GlueWaste       ID = "glue.waste"
	LayBlanket      ID = "lay.blanket"
	LayMargin       ID = "lay.margin"
	LaySheet        ID = "lay.sheet"
	LayShim         ID = "lay.shim"
	LayShimOver     ID = "lay.shim-over"
	LayStraight     ID = "lay.straight"
	RollLap         ID = "roll.lap"
	RollPitch       ID = "roll.pitch"
	RollWidth       ID = "roll.width"
	SandBetween     ID = "sand.between"
	SandFirst       ID = "sand.first"
	SandLast        ID = "sand.last"
	SandSheet       ID = "sand.sheet"
	ShopTemperature ID = "shop.temperature"

	// Dressing, standing and lifting: loads, wind, floors, ballast, people.
	DressCloses           ID = "dress.closes"
	DressFront            ID = "dress.front"
	LiftConstant          ID = "lift.constant"
	LiftReach             ID = "lift.reach"
	LiftReachMost         ID = "lift.reach-most"
	LiftHeight            ID = "lift.height"
	LiftHeightLoss        ID = "lift.height-loss"
	LiftHeightMost        ID = "lift.height-most"
	LiftTravelShare       ID = "lift.travel-share"
	LiftTravel            ID = "lift.travel"
	LiftTravelLeast       ID = "lift.travel-least"
	LiftTravelMost        ID = "lift.travel-most"
	LiftTwist             ID = "lift.twist"
	LiftTwistMost         ID = "lift.twist-most"
	LiftFrequency         ID = "lift.frequency"
	LiftGrip              ID = "lift.grip"
	LiftSpan              ID = "lift.span"
	LiftTeamTwo           ID = "lift.team-two"
	LiftTeamThree         ID = "lift.team-three"
	LiftTeamMost          ID = "lift.team-most"
	LiftPerson            ID = "lift.person"
	LiftZoneFloor         ID = "lift.zone-floor"
	LiftZoneKnuckle       ID = "lift.zone-knuckle"
	LiftZoneElbow         ID = "lift.zone-elbow"
	LiftZoneShoulder      ID = "lift.zone-shoulder"
	LiftZoneOver          ID = "lift.zone-over"
	LiftShin              ID = "lift.shin"
	LiftKnuckle           ID = "lift.knuckle"
	LiftElbow             ID = "lift.elbow"
	LiftShoulder          ID = "lift.shoulder"
	LiftUp                ID = "lift.up"
	LiftEven              ID = "lift.even"
	StandFactor           ID = "stand.factor"
	StandDead             ID = "stand.dead"
	StandDeadOver         ID = "stand.dead-over"
	StandBallast          ID = "stand.ballast"
	StandFriction         ID = "stand.friction"
	StandFrictionPolished ID = "stand.friction-polished"
	StandFrictionRough    ID = "stand.friction-rough"
	StandFrictionGrass    ID = "stand.friction-grass"
	StandSoftEdge         ID = "stand.soft-edge"
	StandSoftLean         ID = "stand.soft-lean"
	StandLean             ID = "stand.lean"
	StandPush             ID = "stand.push"
	StandPushHeight       ID = "stand.push-height"
	StandCrowd            ID = "stand.crowd"
	StandCrowdHeight      ID = "stand.crowd-height"
	StandHallLow          ID = "stand.hall-low"
	StandHallHigh         ID = "stand.hall-high"
	StandHallStep         ID = "stand.hall-step"
	StandWell             ID = "stand.well"
	StandBallastGap       ID = "stand.ballast-gap"
	StandBallastStack     ID = "stand.ballast-stack"
	BallastBag            ID = "ballast.bag"
	BallastBagLength      ID = "ballast.bag-length"
	BallastBagWidth       ID = "ballast.bag-width"
	BallastBagHeight      ID = "ballast.bag-height"
	BasePlywood           ID = "base.plywood"
	BaseThickness         ID = "base.thickness"
	BaseSheetLength       ID = "base.sheet-length"
	BaseSheetWidth        ID = "base.sheet-width"
	BaseSheetThickest     ID = "base.sheet-thickest"
	BaseJointStrip        ID = "base.joint-strip"
	BaseJointEvery        ID = "base.joint-every"
	BaseCornerScrews      ID = "base.corner-screws"
	BaseBraceScrews       ID = "base.brace-screws"
	BaseBracketScrews     ID = "base.bracket-screws"
	BaseStraps            ID = "base.straps"
	WindExpected          ID = "wind.expected"
	WindPressure          ID = "wind.pressure"
	WindGust              ID = "wind.gust"
	WindGustEffect        ID = "wind.gust-effect"
	WindThin              ID = "wind.thin"
	WindThinTo            ID = "wind.thin-to"
	WindOpen              ID = "wind.open"
	WindOpenTo            ID = "wind.open-to"
	WindClose             ID = "wind.close"
	WindCloseTo           ID = "wind.close-to"
	WindSolid             ID = "wind.solid"
	WindSolid05           ID = "wind.solid-05"
	WindSolid10           ID = "wind.solid-10"
	WindSolid20           ID = "wind.solid-20"
	WindSolid50           ID = "wind.solid-50"
	WindSolidPower        ID = "wind.solid-power"
	WindOblique           ID = "wind.oblique"
	WindAlong             ID = "wind.along"
	WindStop              ID = "wind.stop"
	WindWatch             ID = "wind.watch"
	WindAct               ID = "wind.act"

	// Strength: what screws, corners, boards and the joint to the base bear.
	StrengthSlip         ID = "strength.screw-slip"
	StrengthDraw         ID = "strength.screw-draw"
	StrengthRock         ID = "strength.screw-rock"
	StrengthPress        ID = "strength.press"
	StrengthStiff        ID = "strength.stiff"
	StrengthShearStiff   ID = "strength.shear-stiff"
	StrengthRupture      ID = "strength.rupture"
	StrengthRupturePower ID = "strength.rupture-power"
	StrengthBending      ID = "strength.bending"
	StrengthShear        ID = "strength.shear"
	StrengthMitre        ID = "strength.mitre"
	StrengthMitreChosen  ID = "strength.mitre-reinforced"
	StrengthMitreSoft    ID = "strength.mitre-soft"
	StrengthWeight       ID = "strength.time-weight"
	StrengthShort        ID = "strength.time-short"
	StrengthDamp         ID = "strength.damp"
	StrengthRedriven     ID = "strength.redriven"
	StrengthLeast        ID = "strength.least-hold"
	StrengthCrush        ID = "strength.crush"
	StrengthWasher       ID = "strength.washer"
	StrengthInsert       ID = "strength.insert"
	StrengthHead         ID = "strength.head"
	StrengthBracket      ID = "strength.bracket"
	StrengthBracketSlide ID = "strength.bracket-slide"
	StrengthPly          ID = "strength.plywood"
	StrengthHandling     ID = "strength.handling"
	StrengthHand         ID = "strength.hand"
	StrengthOverhead     ID = "strength.overhead"
	StrengthLoose        ID = "strength.loose"
	StrengthBand         ID = "strength.band"
	StrengthBandGlue     ID = "strength.band-glue"
	StrengthRow          ID = "strength.row"
	StrengthHands        ID = "strength.push-span"
	StrengthUnderArch    ID = "strength.under-arch"
	StrengthBaseEvery    ID = "strength.base-every"
	StrengthBaseScrew    ID = "strength.base-screw"
	StrengthBattenScrew  ID = "strength.batten-screw"

	SectionsWrap           ID = "sections.wrap"
	SectionsFingers        ID = "sections.fingers"
	SectionsLay            ID = "sections.lay"
	SectionsPut            ID = "sections.put"
	SectionsScrew          ID = "sections.screw"
	SectionsUnscrew        ID = "sections.unscrew"
	SectionsTilt           ID = "sections.tilt"
	SectionsBallast        ID = "sections.ballast"
	SectionsUndress        ID = "sections.undress"
	SectionsTake           ID = "sections.take"
	SectionsSweep          ID = "sections.sweep"
	SectionsStrangersLeast ID = "sections.strangers-least"
	SectionsStrangersMost  ID = "sections.strangers-most"
)

// A Status says how well a number is known.
type Status string

// The statuses, best first. Only the first two may be printed as a fact.
const (
	Seen           Status = "seen"            // read in the source itself
	SecondHand     Status = "second-hand"     // read in a copy of the source
	Computed       Status = "computed"        // arithmetic from a formula whose own status is given
	Memory         Status = "memory"          // recalled, not read
	CommonPractice Status = "common practice" // a habit of the trade, no source
)

// Known tells whether s is one of the statuses.
func (s Status) Known() bool {
	return slices.Contains([]Status{Seen, SecondHand, Computed, Memory, CommonPractice}, s)
}

// An Origin says where a value in force came from. The later one wins.
type Origin int

// The origins in order of precedence.
const (
	BuiltIn Origin = iota
	Shop
	Job
	Flags
)

// String names the origin as it is shown: built in, shop file, job file, flag.
func (o Origin) String() string {
	names := [...]string{"built in", "shop file", "job file", "flag"}
	if o < 0 || int(o) >= len(names) {
		return "origin " + strconv.Itoa(int(o))
	}
	return names[o]
}

// MarshalText writes the origin's name.
func (o Origin) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// A Value is one assumption. Low and High are the range in which it is
// accepted, both included, in its unit. Source and Status speak of the built-in
// value; an overridden one has its Origin for a source.
type Value struct {
	ID     ID      `json:"id"`
	Name   string  `json:"name"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"` // in, ft, mm, deg, %, D (diameters of the fastener)
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
	Source string  `json:"source"`
	Status Status  `json:"status"`
	Note   string  `json:"note,omitempty"`
	Origin Origin  `json:"origin"`
}

// A Book is a set of values by id. It does not change; With gives another.
type Book struct{ values map[ID]Value }

// An UnknownError says that no value has the id.
type UnknownError struct{ ID ID }

// Error names the id.
func (e *UnknownError) Error() string { return fmt.Sprintf("no assumption is called %q", string(e.ID)) }

// A RangeError says that a value is not in its range. Value is the assumption
// as it stood before, Asked the number that was refused.
type RangeError struct {
	Value Value
	Asked float64
}

// Error gives the number and the range.
func (e *RangeError) Error() string {
	v := e.Value
	return fmt.Sprintf("%s %s is out of range for %s: write %s to %s %s",
		Number(e.Asked), v.Unit, v.ID, Number(v.Low), Number(v.High), v.Unit)
}

// Number writes a float64 in the fewest digits that give it back.
func Number(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// Lookup finds a value by id.
func (b Book) Lookup(id ID) (Value, bool) {
	v, ok := b.values[id]
	return v, ok
}

// IDs lists the ids in order.
func (b Book) IDs() []ID { return slices.Sorted(maps.Keys(b.values)) }

// Values lists the values in the order of their ids.
func (b Book) Values() []Value {
	var out []Value
	for _, id := range b.IDs() {
		out = append(out, b.values[id])
	}
	return out
}

// With gives a Book in which the value of id is n, in the value's own unit,
// said by origin. When a later origin has already spoken its value stays, so
// that overrides may come in any order. The error is an *UnknownError or a
// *RangeError (which NaN is, too).
func (b Book) With(origin Origin, id ID, n float64) (Book, error) {
	v, ok := b.values[id]
	if !ok {
		return b, &UnknownError{id}
	}
	if !(n >= v.Low && n <= v.High) {
		return b, &RangeError{v, n}
	}
	if origin < v.Origin {
		return b, nil
	}
	v.Value, v.Origin = n, origin
	next := Book{maps.Clone(b.values)}
	next.values[id] = v
	return next, nil
}

// A Reader reads from a Book and records which values were used. One goroutine
// at a time may use it.
type Reader struct {
	book Book
	used map[ID]bool
}

// Reader starts a record of use.
func (b Book) Reader() *Reader { return &Reader{b, map[ID]bool{}} }

// Get gives a value and records its use. The id is one of the constants above
// or known to be in the Book: an unknown one is a fault of the program and
// panics.
func (r *Reader) Get(id ID) Value {
	v, ok := r.book.values[id]
	if !ok {
		panic("assume: " + (&UnknownError{id}).Error())
	}
	r.used[id] = true
	return v
}

// Aside reads from the same Book without being recorded, for whoever takes many
// values and uses some.
func (r *Reader) Aside() *Reader { return r.book.Reader() }

// Used lists the values read so far, in the order of their ids.
func (r *Reader) Used() []Value {
	var out []Value
	for _, id := range slices.Sorted(maps.Keys(r.used)) {
		out = append(out, r.book.values[id])
	}
	return out
}

//go:embed builtin.csv
var builtInCSV string

// BuiltInBook gives the values that the program comes with.
func BuiltInBook() Book {
	b, err := Parse(builtInCSV)
	if err != nil {
		panic(err) // the file is part of the program and a test reads it
	}
	return b
}

const header = "id,name,value,unit,low,high,status,source,note"

// Parse reads a Book from CSV with the columns id, name, value, unit, low,
// high, status, source, note. Every row must have a source, a known status and
// a value in its range; no id may come twice.
func Parse(text string) (Book, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = strings.Count(header, ",") + 1
	rows, err := r.ReadAll()
	if err != nil {
		return Book{}, fmt.Errorf("assume: %w", err)
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != header {
		return Book{}, fmt.Errorf("assume: the first line must be %s", header)
	}
	b := Book{map[ID]Value{}}
	for _, row := range rows[1:] {
		v, err := parseRow(row)
		if err != nil {
			return Book{}, fmt.Errorf("assume: %s: %w", row[0], err)
		}
		if _, twice := b.values[v.ID]; twice {
			return Book{}, fmt.Errorf("assume: %s stands twice", v.ID)
		}
		b.values[v.ID] = v
	}
	return b, nil
}

func parseRow(row []string) (Value, error) {
	v := Value{ID: ID(row[0]), Name: row[1], Unit: row[3], Status: Status(row[6]), Source: row[7], Note: row[8]}
	for _, f := range []struct {
		to   *float64
		text string
	}{{&v.Value, row[2]}, {&v.Low, row[4]}, {&v.High, row[5]}} {
		n, err := strconv.ParseFloat(f.text, 64)
		if err != nil {
			return Value{}, err
		}
		*f.to = n
	}
	switch {
	case v.ID == "" || v.Name == "" || v.Unit == "":
		return Value{}, fmt.Errorf("id, name or unit is empty")
	case v.Source == "" || !v.Status.Known():
		return Value{}, fmt.Errorf("source is empty or status %q is unknown", v.Status)
	case !(v.Low <= v.Value && v.Value <= v.High):
		return Value{}, fmt.Errorf("%s is not within %s to %s", Number(v.Value), Number(v.Low), Number(v.High))
	}
	return v, nil
}

// Markdown writes the page that lists every value of a Book.
func Markdown(b Book) string {
	var s strings.Builder
	s.WriteString("# Assumptions\n\nEvery number that is neither geometry nor input. Each can be set by its id under `assume:` in the shop file or the job file; the job file wins.\n\n")
	s.WriteString("| id | what | value | from | to | status | source | note |\n|---|---|---|---|---|---|---|---|\n")
	cell := strings.NewReplacer("|", `\|`, "\n", " ")
	for _, v := range b.Values() {
		fmt.Fprintf(&s, "| `%s` | %s | %s %s | %s | %s | %s | %s | %s |\n", v.ID, cell.Replace(v.Name),
			Number(v.Value), v.Unit, Number(v.Low), Number(v.High), v.Status, cell.Replace(v.Source), cell.Replace(v.Note))
	}
	return s.String()
}
