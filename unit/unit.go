// Package unit holds the quantities of the trade.
//
// A Length is a whole number of nanometres, so that tape marks down to 1/64 in
// and tenths of a millimetre are exact; it is used for whatever is typed,
// bought or sawn. Geometry works in float64 millimetres and comes back to a
// Length in one place, FromMM, with a mark and a direction.
//
// The other quantities are distinct float64 types in one engineering set
// (mm, N, MPa, kg): the compiler keeps them apart.
//
// The package does not know what a length is a length of.
package unit

import "math"

// A Length is a whole number of nanometres. Zero is no length at all; negative
// lengths are offsets.
type Length int64

// Exact lengths. The inch is 25.4 mm by the international yard and pound
// agreement of 1959 (NIST SP 811, appendix B).
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
)

// MM gives the length in millimetres.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Inches gives the length in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// A Rounding says to which mark FromMM goes.
type Rounding int

// The directions of rounding.
const (
	Nearest Rounding = iota // ties go away from zero
	Down                    // towards minus infinity
	Up                      // towards plus infinity
)

// FromMM turns millimetres into a Length on a whole number of marks. A mark of
// zero or less means one nanometre. It is the only way from geometry's floats
// to a length that somebody saws. NaN and what does not fit an int64 give 0,
// false.
func FromMM(mm float64, mark Length, to Rounding) (Length, bool) {
	if mark <= 0 {
		mark = Nanometre
	}
	n := mm * float64(Millimetre) / float64(mark)
	switch to {
	case Down:
		n = math.Floor(n)
	case Up:
		n = math.Ceil(n)
	default:
		n = math.Round(n)
	}
	if math.IsNaN(n) || math.Abs(n) > float64(math.MaxInt64/2)/float64(mark) {
		return 0, false
	}
	return Length(n) * mark, true
}

// An Angle is in radians; 0 is along +x or, for a saw, straight across.
type Angle float64

// Degrees gives the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) * 180 / math.Pi }

// FromDegrees makes an Angle of degrees.
func FromDegrees(d float64) Angle { return Angle(d * math.Pi / 180) }

// The engineering set: mm, kg, N, MPa.
type (
	Area     float64 // square millimetres
	Mass     float64 // kilograms
	Force    float64 // newtons
	Pressure float64 // megapascals
	Density  float64 // kilograms per cubic metre
)

// Pounds gives the mass in avoirdupois pounds: 0.45359237 kg exactly (NIST SP
// 811, appendix B).
func (m Mass) Pounds() float64 { return float64(m / Pound) }

// poundPerCubicFoot is one lb/ft3 in kg/m3, exactly by the definitions of the
// pound and the foot.
const poundPerCubicFoot = float64(Pound) / (0.3048 * 0.3048 * 0.3048)

// FromPoundsPerCubicFoot makes a Density of lb/ft3.
func FromPoundsPerCubicFoot(d float64) Density { return Density(d * poundPerCubicFoot) }

// PoundsPerCubicFoot gives the density in lb/ft3.
func (d Density) PoundsPerCubicFoot() float64 { return float64(d) / poundPerCubicFoot }
