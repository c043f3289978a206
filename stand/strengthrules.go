package stand

import (
	"math"

	"bowerwright/assume"
	"bowerwright/unit"
)

// StrengthRules are the numbers behind the sums of strength, each an assumption
// that can be edited; its source stands in the book. N, mm, MPa.
type StrengthRules struct {
	Well float64 // ratio up to which a finding is well inside

	Slip, Draw, Rock float64 // stiffness of a No. 8 screw across, along and bent over: N/mm, N/mm, N mm a radian
	Press            float64 // stiffness across the grain over that along it

	Stiff, ShearStiff    float64 // E for a specific gravity of 1, MPa; E over G
	Rupture, Power       float64 // clear wood of a specific gravity of 1, MPa; power of the gravity
	Bending, Shear       float64 // share of that; MPa
	Mitre, MitreChosen   float64 // MPa; times as much when reinforced
	MitreSoft            float64 // N/mm a mm2
	TimeWeight, Time     float64 // load duration: for good; for minutes
	Damp, Redriven       float64
	Least                float64 // diameters of penetration
	Crush                float64 // MPa under a washer
	Washer, Head         float64 // diameters of the fastener
	Insert               float64 // N
	Bracket, BracketSide float64 // N
	Plywood              float64 // specific gravity
	Handling, Hand       float64 // times the weight; N/mm
	Overhead             float64 // mm
	Loose                float64 // share of the height
	Band, BandGlue       float64
	Row                  float64 // mm
	Hands, UnderArch     float64 // mm: of a push; lower than over heads
	BaseEvery            float64 // mm of a held side for each fastener beyond two
	BaseScrew, Batten    float64 // mm: lengths of screws
}

// per is a stiffness or a stress given in pounds and inches; the power is that
// of the inch below the line.
func (r reading) per(id assume.ID, name string, power float64) float64 {
	return r.in(id, name) * poundForce / math.Pow(anInch, power)
}

// anInch in mm, exact by definition (NIST SP 811, appendix B).
const anInch = float64(unit.Inch) / float64(unit.Millimetre)

// StrengthRulesFrom reads the rules from a book of assumptions.
func StrengthRulesFrom(book *assume.Reader) StrengthRules {
	r := reading{book}
	return StrengthRules{
		Well: r.share(assume.StandWell),
		Slip: r.per(assume.StrengthSlip, "lb/in", 1), Draw: r.per(assume.StrengthDraw, "lb/in", 1),
		Rock: r.per(assume.StrengthRock, "lb in", -1), Press: r.in(assume.StrengthPress, "% of E") / percent,
		Stiff: r.per(assume.StrengthStiff, "psi", 2), ShearStiff: r.number(assume.StrengthShearStiff),
		Rupture: r.per(assume.StrengthRupture, "psi", 2), Power: r.number(assume.StrengthRupturePower),
		Bending: r.share(assume.StrengthBending), Shear: r.per(assume.StrengthShear, "psi", 2),
		Mitre: r.per(assume.StrengthMitre, "psi", 2), MitreChosen: r.number(assume.StrengthMitreChosen),
		MitreSoft:  r.per(assume.StrengthMitreSoft, "lb/in3", 3),
		TimeWeight: r.number(assume.StrengthWeight), Time: r.number(assume.StrengthShort),
		Damp: r.share(assume.StrengthDamp), Redriven: r.share(assume.StrengthRedriven), Least: r.in(assume.StrengthLeast, "D"),
		Crush: r.per(assume.StrengthCrush, "psi", 2), Washer: r.in(assume.StrengthWasher, "D"), Head: r.in(assume.StrengthHead, "D"),
		Insert: float64(r.force(assume.StrengthInsert)), Bracket: float64(r.force(assume.StrengthBracket)),
		BracketSide: float64(r.force(assume.StrengthBracketSlide)), Plywood: r.number(assume.StrengthPly),
		Handling: r.number(assume.StrengthHandling), Hand: r.per(assume.StrengthHand, "lb/in", 1),
		Overhead: r.length(assume.StrengthOverhead), Loose: r.in(assume.StrengthLoose, "% of its height") / percent,
		Band: r.share(assume.StrengthBand), BandGlue: r.share(assume.StrengthBandGlue), Row: r.length(assume.StrengthRow),
		Hands: r.length(assume.StrengthHands), UnderArch: r.length(assume.StrengthUnderArch), BaseEvery: r.length(assume.StrengthBaseEvery),
		BaseScrew: r.length(assume.StrengthBaseScrew), Batten: r.length(assume.StrengthBattenScrew),
	}
}

// Word gives the word for a ratio of demand to what is allowed.
func (r StrengthRules) Word(ratio float64) string { return Rules{Well: r.Well}.Word(ratio) }
