package stand

import (
	"fmt"
	"math"

	"bowerwright/assume"
	"bowerwright/unit"
)

// Rules are the numbers behind the sums, each an assumption that can be edited;
// its source stands in the book.
type Rules struct {
	Factor         float64 // what tipping and sliding are to be held by
	Dead, DeadOver float64 // share of a weight that is counted where it holds; where it pulls over
	Ballast        float64 // share of ballast that is counted
	Well           float64 // ratio up to which a finding is well inside
	Lean           unit.Angle
	SoftEdge       float64    // share by which an edge gives on a soft floor
	SoftLean       unit.Angle // lean on a soft floor

	Push, Crowd             unit.Force
	PushHeight, CrowdHeight float64       // mm above what the piece stands on
	HallLow, HallHigh       unit.Pressure // level load indoors, MPa
	HallStep                float64       // height above the floor where the second begins, mm

	Wind Wind
	Lift LiftRules
}

// Wind are the rules of the wind.
type Wind struct {
	Unit       unit.Pressure // pressure at 1 m/s; it grows with the square
	GustOfMean float64       // gust over mean
	GustEffect float64
	Bands      []Band  // coefficients of open frames on the solid area, by rising solidity
	Solid      []Slim  // coefficients of a solid wall on the gross area, beyond the last band, by rising width
	Power      float64 // of the open share, in the reduction of a wall with openings
	Oblique    float64 // more force at a slant
	Along      float64 // share of the force that is left along the piece
	Stop       Speed
	Watch, Act float64 // shares of the limit
}

// A Band is a force coefficient that holds up to a solidity.
type Band struct{ To, Coefficient float64 }

// A Slim is the force coefficient of a solid wall that is so many times as wide
// as it is high.
type Slim struct{ Wide, Coefficient float64 }

// LiftRules are the rules of lifting.
type LiftRules struct {
	NIOSH    Equation
	Zones    []Zone // by rising height
	Person   float64
	Two      float64 // share of the sum of two
	Three    float64 // of three and more
	Most     int
	Carry    float64 // height of the hands of those who carry flat, mm
	Up       float64 // highest hands when tilting up, mm
	Even     float64 // how far the weight may be off the line of hands, mm
	HandSpan float64 // hands of one person apart at the most, mm
}

// A Zone is what one person lifts with the hands at most at a height.
type Zone struct {
	To   float64 // mm above the floor; the last has no end
	Mass unit.Mass
}

// reading takes assumptions from a book in the units of this package.
type reading struct{ *assume.Reader }

func (r reading) number(id assume.ID) float64 { return r.Get(id).Value }
func (r reading) share(id assume.ID) float64  { return r.in(id, "%") / percent }
func (r reading) mass(id assume.ID) unit.Mass { return unit.Mass(r.in(id, "kg")) }
func (r reading) force(id assume.ID) unit.Force {
	return PoundsForce(r.in(id, "lb"))
}
func (r reading) angle(id assume.ID) unit.Angle { return unit.FromDegrees(r.in(id, "deg")) }

// percent is a hundredth's inverse: a definition.
const percent = 100

// in gives a value that must be listed in a unit: another is a fault of the
// book, as an unknown id is.
func (r reading) in(id assume.ID, want string) float64 {
	v := r.Get(id)
	if v.Unit != want {
		panic(fmt.Sprintf("stand: %s is in %s, not in %s", id, v.Unit, want))
	}
	return v.Value
}

func (r reading) length(id assume.ID) float64 {
	v := r.Get(id)
	u, ok := unit.UnitNamed(v.Unit)
	if !ok {
		panic(fmt.Sprintf("stand: %s is in %s, which is no length", id, v.Unit))
	}
	return v.Value * u.Length().MM()
}

// level is a pressure given in kN/m2.
func (r reading) level(id assume.ID) unit.Pressure {
	return unit.Pressure(r.in(id, "kN/m2") * kilo / squareMetre)
}

// RulesFrom reads the rules from a book of assumptions.
func RulesFrom(book *assume.Reader) Rules {
	r := reading{book}
	return Rules{
		Factor: r.number(assume.StandFactor), Dead: r.share(assume.StandDead), DeadOver: r.share(assume.StandDeadOver),
		Ballast: r.share(assume.StandBallast), Well: r.share(assume.StandWell), Lean: r.angle(assume.StandLean),
		SoftEdge: r.share(assume.StandSoftEdge), SoftLean: r.angle(assume.StandSoftLean),
		Push: r.force(assume.StandPush), PushHeight: r.length(assume.StandPushHeight),
		Crowd: r.force(assume.StandCrowd), CrowdHeight: r.length(assume.StandCrowdHeight),
		HallLow: r.level(assume.StandHallLow), HallHigh: r.level(assume.StandHallHigh), HallStep: r.length(assume.StandHallStep),
		Wind: r.wind(), Lift: r.lift(),
	}
}

func (r reading) wind() Wind {
	atOneMPH := r.in(assume.WindPressure, "psf") * poundForce / squareFoot
	return Wind{
		Unit:       unit.Pressure(atOneMPH / math.Pow(float64(FromMPH(1)), 2)),
		GustOfMean: r.number(assume.WindGust), GustEffect: r.number(assume.WindGustEffect),
		Bands: []Band{
			{r.share(assume.WindThinTo), r.number(assume.WindThin)},
			{r.share(assume.WindOpenTo), r.number(assume.WindOpen)},
			{r.share(assume.WindCloseTo), r.number(assume.WindClose)},
		},
		Solid: []Slim{
			{wide05, r.number(assume.WindSolid05)}, {wide10, r.number(assume.WindSolid10)}, {wide20, r.number(assume.WindSolid20)},
			{wide50, r.number(assume.WindSolid50)}, {wide72, r.number(assume.WindSolid)},
		},
		Power:   r.number(assume.WindSolidPower),
		Oblique: r.share(assume.WindOblique), Along: r.share(assume.WindAlong),
		Stop: FromMPH(r.in(assume.WindStop, "mph")), Watch: r.share(assume.WindWatch), Act: r.share(assume.WindAct),
	}
}

// The widths, in heights, of ASCE 7 figure 29.3-1 up to that of the plain wall of
// the check table; wider walls have lower coefficients there, and the last of
// these is kept for them.
const (
	wide05 = 0.05
	wide10 = 0.10
	wide20 = 0.20
	wide50 = 0.50
	wide72 = 0.72
)

func (r reading) lift() LiftRules {
	return LiftRules{
		NIOSH: r.equation(),
		Zones: []Zone{
			{r.length(assume.LiftShin), r.mass(assume.LiftZoneFloor)},
			{r.length(assume.LiftKnuckle), r.mass(assume.LiftZoneKnuckle)},
			{r.length(assume.LiftElbow), r.mass(assume.LiftZoneElbow)},
			{r.length(assume.LiftShoulder), r.mass(assume.LiftZoneShoulder)},
			{math.Inf(1), r.mass(assume.LiftZoneOver)},
		},
		Person: r.share(assume.LiftPerson), Two: r.share(assume.LiftTeamTwo), Three: r.share(assume.LiftTeamThree),
		Most: int(r.number(assume.LiftTeamMost)), Carry: r.length(assume.LiftKnuckle), Up: r.length(assume.LiftUp),
		Even: r.length(assume.LiftEven), HandSpan: r.length(assume.LiftSpan),
	}
}

func (r reading) equation() Equation {
	perCentimetre := float64(unit.Centimetre) / float64(unit.Millimetre)
	return Equation{
		Constant: r.mass(assume.LiftConstant), Reach: r.length(assume.LiftReach), ReachMost: r.length(assume.LiftReachMost),
		Height: r.length(assume.LiftHeight), HeightMost: r.length(assume.LiftHeightMost),
		HeightLoss:  r.in(assume.LiftHeightLoss, "%/cm") / percent / perCentimetre,
		TravelShare: r.share(assume.LiftTravelShare), Travel: r.length(assume.LiftTravel),
		TravelLeast: r.length(assume.LiftTravelLeast), TravelMost: r.length(assume.LiftTravelMost),
		Twist: r.in(assume.LiftTwist, "%/deg") / percent, TwistMost: r.angle(assume.LiftTwistMost),
		Frequency: r.share(assume.LiftFrequency), Grip: r.share(assume.LiftGrip),
	}
}
