package assume

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The ids that code can name are exactly those of the file.
func TestConstantsAreTheFile(t *testing.T) {
	named := []ID{Moisture, JointTolerance, Keep, Kerf, KnotMargin, TrimFar, TrimFirst, Adult, Child, Skirt, NearMiss, SeamGap,
		OpeningFoot, OpeningHead, OpeningHip, OpeningShoulder, RoughAllowance, RoughGreatest, RoughLeast, ClampHold, SawError, Hold, Swing, Tilt, Mark, MarkMetric, TestCornerShow,
		FixApart, FixEdge, FixEnd, FixEndLeast, FixPitch, FixPitchAcross, FixBoltEdge, FixBoltEnd, FixBoltEndLeast, FixBoltPitch,
		FixKeep, FixSink, FixHold, FixFull, FixReach, FixStandard, FixEvery, FixBore, EyeStanding, EyeSeated, EyeCamera,
		EyeDistance, DriverLength, DriverBit, DriverHalf, RightAngleLength, RightAngleBit, RightAngleHalf, SlantMost, NutRoom,
		CornerBevel, CornerBlock, CornerBlockBack, CornerBradEnd, CornerBradHold, CornerBrads, CornerKeep, CornerRipLeast, CornerRipMost, CornerSlot,
		FillerJoint, FillerPaint, FillerSand, FillerSet, FinishCoats, FinishCoatsDay, FinishCoverage,
		FinishRecoat, FinishWaste, GlueChisel, GlueClose, GlueCoverage, GlueFace, GlueFlat, GlueFull,
		GlueHold, GlueOpen, GluePitch, GlueRow, GlueSide, GlueSizeFace, GlueSizeWait, GlueSpread,
		GlueStock, GlueTemperature, GlueTruing, GlueWarm, GlueWaste, LayBlanket, LayMargin, LaySheet,
		LayShim, LayShimOver, LayStraight, RollLap, RollPitch, RollWidth, SandBetween, SandFirst,
		SandLast, SandSheet, ShopTemperature,
		BuyBrushes, BuyGlueBrushes, BuyMasks, BuyPencils, BuySpareFinish, BuySpareFixings, BuySpareGlue, BuySheetYield,
		BallastBag, BallastBagLength, BallastBagWidth, BallastBagHeight, BasePlywood, BaseThickness, BaseSheetLength, BaseSheetWidth, BaseSheetThickest, BaseJointStrip, BaseJointEvery,
		BaseCornerScrews, BaseBraceScrews, BaseBracketScrews, BaseStraps, WindExpected,
		DressCloses, DressFront, LiftConstant, LiftReach, LiftReachMost, LiftHeight, LiftHeightLoss, LiftHeightMost,
		LiftTravelShare, LiftTravel, LiftTravelLeast, LiftTravelMost, LiftTwist, LiftTwistMost, LiftFrequency,
		LiftGrip, LiftSpan, LiftTeamTwo, LiftTeamThree, LiftTeamMost, LiftPerson, LiftZoneFloor, LiftZoneKnuckle,
		LiftZoneElbow, LiftZoneShoulder, LiftZoneOver, LiftShin, LiftKnuckle, LiftElbow, LiftShoulder, LiftUp,
		LiftEven, StandFactor, StandDead, StandDeadOver, StandBallast, StandFriction, StandFrictionPolished,
		StandFrictionRough, StandFrictionGrass, StandSoftEdge, StandSoftLean, StandLean, StandPush, StandPushHeight,
		StandCrowd, StandCrowdHeight, StandHallLow, StandHallHigh, StandHallStep, StandWell, StandBallastGap,
		StandBallastStack, WindPressure, WindGust, WindGustEffect, WindThin, WindThinTo, WindOpen, WindOpenTo,
		WindClose, WindCloseTo, WindSolid, WindSolid05, WindSolid10, WindSolid20, WindSolid50, WindSolidPower, WindOblique, WindAlong, WindStop, WindWatch, WindAct,
		StrengthSlip, StrengthDraw, StrengthRock, StrengthPress, StrengthStiff, StrengthShearStiff, StrengthRupture,
		StrengthRupturePower, StrengthBending, StrengthShear, StrengthMitre, StrengthMitreChosen, StrengthMitreSoft, StrengthWeight,
		StrengthShort, StrengthDamp, StrengthRedriven, StrengthLeast, StrengthCrush, StrengthWasher, StrengthInsert,
		StrengthHead, StrengthBracket, StrengthBracketSlide, StrengthPly, StrengthHandling, StrengthHand, StrengthOverhead,
		StrengthLoose, StrengthBand, StrengthBandGlue, StrengthRow, StrengthHands, StrengthUnderArch, StrengthBaseEvery,
		StrengthBaseScrew, StrengthBattenScrew,
		SectionsWrap, SectionsFingers, SectionsLay, SectionsPut, SectionsScrew, SectionsUnscrew, SectionsTilt, SectionsBallast,
		SectionsUndress, SectionsTake, SectionsSweep, SectionsStrangersLeast, SectionsStrangersMost}
	slices.Sort(named)
	if ids := BuiltInBook().IDs(); !slices.Equal(ids, named) {
		t.Errorf("the file has %v, the code names %v", ids, named)
	}
}

// Common practice, no source, but for the distances in D, which are advice of the
// standard's commentary, second-hand: a change of them changes papers.
func TestBuiltInValues(t *testing.T) {
	b := BuiltInBook()
	for id, want := range map[ID]string{
		Hold: "8 in", ClampHold: "3 in", JointTolerance: "0.03125 in", NearMiss: "0.5 in", SeamGap: "0.03125 in",
		Kerf: "0.125 in", TrimFirst: "0 in", TrimFar: "0 in", SawError: "0.25 deg", TestCornerShow: "0.0625 in",
		RoughAllowance: "0.5 in", Moisture: "12 %", Adult: "5.5 ft", Skirt: "5.25 ft", Child: "3.5 ft",
		OpeningFoot: "0 ft", OpeningHip: "3 ft", OpeningShoulder: "5 ft", OpeningHead: "6.5 ft",
		Mark: "0.0625 in", MarkMetric: "1 mm", Swing: "50 deg", Tilt: "45 deg",
		FixApart: "3 D", FixEdge: "2.5 D", FixEnd: "10 D", FixEndLeast: "5 D", FixPitch: "10 D", FixPitchAcross: "5 D", FixBoltEdge: "4 D", FixBoltEnd: "7 D", FixBoltEndLeast: "3.5 D", FixBoltPitch: "4 D", FixKeep: "0.0625 in", FixSink: "0 in", FixHold: "2 D", FixFull: "10 D", FixReach: "72 in", FixStandard: "6 D", FixEvery: "12 in", FixBore: "0.0625 in", EyeStanding: "63 in", EyeSeated: "46 in", EyeCamera: "60 in", EyeDistance: "10 ft", DriverLength: "7.5 in", DriverBit: "2 in", DriverHalf: "1.125 in", RightAngleLength: "2.25 in", RightAngleBit: "1 in", RightAngleHalf: "0.75 in", SlantMost: "45 deg", NutRoom: "2 in",
		CornerBevel: "45 deg", CornerBlock: "1.5 in", CornerBlockBack: "0.5 in", CornerBradEnd: "0.1875 in", CornerBradHold: "0.375 in", CornerBrads: "2 brads",
		CornerKeep: "0.0625 in", CornerSlot: "1.5 in", FillerJoint: "3 ml", FillerPaint: "24 h", FillerSand: "4 h",
		FillerSet: "20 min", FinishCoats: "3 coats", FinishCoatsDay: "2 coats", FinishCoverage: "10 m2/L", FinishRecoat: "2 h", FinishWaste: "10 %",
		GlueChisel: "8 in", GlueClose: "10 s", GlueCoverage: "6.1 m2/L", GlueFace: "20 s", GlueFlat: "12 h", GlueFull: "24 h",
		GlueHold: "60 min", GlueOpen: "10 min", GluePitch: "12 in", GlueRow: "8 ft", GlueSide: "24 in", GlueSizeFace: "10 s",
		GlueSizeWait: "5 min", GlueSpread: "0.1 m2/min", GlueStock: "1 in", GlueTemperature: "10 C", GlueTruing: "0.03125 in", GlueWarm: "50 %",
		GlueWaste: "25 %", LayBlanket: "3.7 m2", LayMargin: "12 in", LaySheet: "4 in", LayShim: "0.015625 in", LayShimOver: "0.03125 in",
		LayStraight: "8 ft", RollLap: "4 in", RollPitch: "3 in", RollWidth: "2 in", SandBetween: "320 grit", SandFirst: "120 grit",
		SandLast: "180 grit", SandSheet: "1 m2", ShopTemperature: "20 C",
		BuyBrushes: "1 brushes", BuyGlueBrushes: "1 brushes", BuyMasks: "2 masks", BuyPencils: "2 pencils",
		BuySpareFinish: "10 %", BuySpareFixings: "10 %", BuySpareGlue: "10 %", BuySheetYield: "75 %",
		DressCloses: "100 %", DressFront: "3 in", LiftConstant: "23 kg", LiftReach: "25 cm", LiftReachMost: "63 cm", LiftHeight: "75 cm",
		LiftHeightLoss: "0.3 %/cm", LiftHeightMost: "175 cm", LiftTravelShare: "82 %", LiftTravel: "4.5 cm", LiftTravelLeast: "25 cm",
		LiftTravelMost: "175 cm", LiftTwist: "0.32 %/deg", LiftTwistMost: "135 deg", LiftFrequency: "100 %", LiftGrip: "95 %", LiftSpan: "30 in", LiftTeamTwo: "66.6667 %",
		LiftTeamThree: "50 %", LiftTeamMost: "4 people", LiftPerson: "100 %", LiftZoneFloor: "10 kg", LiftZoneKnuckle: "20 kg", LiftZoneElbow: "25 kg",
		LiftZoneShoulder: "20 kg", LiftZoneOver: "10 kg", LiftShin: "14 in", LiftKnuckle: "29 in", LiftElbow: "42 in", LiftShoulder: "56 in",
		LiftUp: "66 in", LiftEven: "1 in", StandFactor: "1.5 times", StandDead: "90 %", StandDeadOver: "110 %", StandBallast: "100 %",
		StandFriction: "0.3 times", StandFrictionPolished: "0.2 times", StandFrictionRough: "0.4 times", StandFrictionGrass: "0 times",
		StandSoftEdge: "10 %", StandSoftLean: "1 deg", StandLean: "10 deg", StandPush: "20 lb", StandPushHeight: "60 in", StandCrowd: "50 lb",
		StandCrowdHeight: "48 in", StandHallLow: "0.125 kN/m2", StandHallHigh: "0.063 kN/m2", StandHallStep: "4 m", StandWell: "50 %",
		StandBallastGap: "1 in", StandBallastStack: "2 units", WindPressure: "0.00256 psf", WindGust: "1.6 times", WindGustEffect: "1 times",
		WindThin: "2 times", WindThinTo: "10 %", WindOpen: "1.8 times", WindOpenTo: "30 %", WindClose: "1.6 times", WindCloseTo: "70 %",
		WindSolid: "1.49 times", WindSolid05: "1.8 times", WindSolid10: "1.7 times", WindSolid20: "1.65 times", WindSolid50: "1.55 times", WindSolidPower: "1.5 times", WindOblique: "20 %", WindAlong: "100 %", WindStop: "30 mph", WindWatch: "60 %",
		WindAct: "80 %", WindExpected: "20 mph",
		BallastBag: "25 lb", BallastBagLength: "18 in", BallastBagWidth: "10 in", BallastBagHeight: "5 in", BasePlywood: "34 lb/ft3", BaseThickness: "0.75 in",
	} {
		v, ok := b.Lookup(id)
		if got := Number(v.Value) + " " + v.Unit; !ok || got != want {
			t.Errorf("%s is %s, want %s", id, got, want)
		}
	}
}

func TestEveryRowIsWhole(t *testing.T) {
	for _, v := range BuiltInBook().Values() {
		if v.Source == "" || !v.Status.Known() || v.Name == "" || v.Origin != BuiltIn || v.Low > v.Value || v.Value > v.High {
			t.Errorf("%+v", v)
		}
		if topic, name, ok := strings.Cut(string(v.ID), "."); !ok || topic == "" || name == "" {
			t.Errorf("%s is no topic and name", v.ID)
		}
		if v.Status == CommonPractice && v.Source != "common practice, no source" {
			t.Errorf("%s: common practice with the source %q", v.ID, v.Source)
		}
	}
}

func TestWith(t *testing.T) {
	built := BuiltInBook()
	b, err := built.With(Shop, Hold, 10)
	if err != nil {
		t.Fatal(err)
	}
	if v, _ := b.Lookup(Hold); v.Value != 10 || v.Origin != Shop {
		t.Errorf("the shop's value is %+v", v)
	}
	if v, _ := built.Lookup(Hold); v.Value != 8 || v.Origin != BuiltIn {
		t.Errorf("the book it came from changed: %+v", v)
	}
	var unknown *UnknownError
	if _, err := b.With(Job, "saw.hodl", 10); !errors.As(err, &unknown) || unknown.ID != "saw.hodl" || !strings.Contains(err.Error(), "saw.hodl") {
		t.Errorf("a wrong id: %v", err)
	}
}

func TestWithRange(t *testing.T) {
	b, err := Parse(header + "\na.hold,hold,8,in,4,24,memory,a book,\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []float64{4, 24} {
		if _, err := b.With(Job, "a.hold", n); err != nil {
			t.Errorf("%v is at the end of the range: %v", n, err)
		}
	}
	for _, n := range []float64{3.999, 24.001, -8, math.NaN(), math.Inf(1)} {
		got, err := b.With(Job, "a.hold", n)
		var r *RangeError
		if !errors.As(err, &r) || r.Value.ID != "a.hold" {
			t.Errorf("%v is accepted: %v", n, err)
		}
		if v, _ := got.Lookup("a.hold"); v.Value != 8 {
			t.Errorf("after a refusal the value is %v", v.Value)
		}
	}
	_, err = b.With(Job, "a.hold", 2.5)
	if want := "2.5 in is out of range for a.hold: write 4 to 24 in"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// In whatever order the origins speak, the last of built in, shop, job, flags
// that spoke is in force; of one origin the last word counts.
func TestPrecedence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := BuiltInBook()
		want := map[Origin]float64{BuiltIn: 8}
		top := BuiltIn
		for range rapid.IntRange(0, 8).Draw(t, "overrides") {
			o := Origin(rapid.IntRange(int(Shop), int(Flags)).Draw(t, "origin"))
			n := float64(rapid.IntRange(4, 24).Draw(t, "value"))
			next, err := b.With(o, Hold, n)
			if err != nil {
				t.Fatal(err)
			}
			b, want[o], top = next, n, max(top, o)
		}
		if v, _ := b.Lookup(Hold); v.Value != want[top] || v.Origin != top {
			t.Fatalf("%v from %v, want %v from %v", v.Value, v.Origin, want[top], top)
		}
	})
}

func TestReader(t *testing.T) {
	b, err := BuiltInBook().With(Flags, Kerf, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	r := b.Reader()
	if got := r.Used(); len(got) != 0 {
		t.Errorf("nothing was read, used are %v", got)
	}
	for _, id := range []ID{Mark, Kerf, Hold, Kerf} {
		if v := r.Get(id); v.ID != id {
			t.Errorf("%s gives %s", id, v.ID)
		}
	}
	var ids []ID
	for _, v := range r.Used() {
		ids = append(ids, v.ID)
		if v.ID == Kerf && (v.Value != 0.1 || v.Origin != Flags) {
			t.Errorf("the used kerf is %+v", v)
		}
	}
	if want := []ID{Kerf, Hold, Mark}; !slices.Equal(ids, want) {
		t.Errorf("used are %v, want %v", ids, want)
	}
	defer func() {
		if recover() == nil {
			t.Error("an id that does not exist is read")
		}
	}()
	r.Get("saw.hodl")
}

func TestParseRefusals(t *testing.T) {
	row := func(fields string) string { return header + "\n" + fields + "\n" }
	good := "a.b,name,1,in,0,2,memory,a book,"
	if b, err := Parse(row(good)); err != nil || len(b.Values()) != 1 {
		t.Fatalf("a good row: %v", err)
	}
	for name, text := range map[string]string{
		"empty":       "",
		"header":      "id,name\na,b\n",
		"columns":     row("a.b,name,1"),
		"quote":       row(`a.b,"name,1,in,0,2,memory,a book,`),
		"no id":       row(strings.Replace(good, "a.b", "", 1)),
		"no name":     row(strings.Replace(good, "name", "", 1)),
		"no unit":     row(strings.Replace(good, "in", "", 1)),
		"no source":   row(strings.Replace(good, "a book", "", 1)),
		"status":      row(strings.Replace(good, "memory", "rumour", 1)),
		"no number":   row(strings.Replace(good, ",1,", ",one,", 1)),
		"not a range": row(strings.Replace(good, ",0,2,", ",2,0,", 1)),
		"outside":     row(strings.Replace(good, ",1,", ",3,", 1)),
		"twice":       row(good + "\n" + good),
	} {
		if b, err := Parse(text); err == nil {
			t.Errorf("%s: read as %v", name, b.Values())
		}
	}
}

func TestMarkdown(t *testing.T) {
	text := header + "\nz.last,the last,0.5,in,0,2,memory,a book,\na.first,one | two,12,%,0,30,seen,a table,half\n"
	b, err := Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	page := Markdown(b)
	want := "| `a.first` | one \\| two | 12 % | 0 | 30 | seen | a table | half |\n| `z.last` | the last | 0.5 in | 0 | 2 | memory | a book |  |\n"
	if !strings.HasSuffix(page, want) {
		t.Errorf("the page ends\n%s", page)
	}
	if page != Markdown(b) {
		t.Error("the page differs when written again")
	}
	for _, id := range BuiltInBook().IDs() {
		if !strings.Contains(Markdown(BuiltInBook()), "| `"+string(id)+"` |") {
			t.Errorf("%s is not on the page", id)
		}
	}
}

func TestOriginText(t *testing.T) {
	for o, want := range map[Origin]string{BuiltIn: "built in", Shop: "shop file", Job: "job file", Flags: "flag", 9: "origin 9"} {
		if o.String() != want {
			t.Errorf("%d is %q, want %q", int(o), o, want)
		}
	}
	v, _ := BuiltInBook().Lookup(MarkMetric)
	got, err := json.Marshal(v)
	want := `{"id":"tape.mark-metric","name":"fineness of the tape in millimetres","value":1,"unit":"mm","low":0.1,"high":1,"source":"common practice, no source","status":"common practice","note":"1 mm","origin":"built in"}`
	if err != nil || string(got) != want {
		t.Errorf("got %s, %v", got, err)
	}
}
