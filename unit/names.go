package unit

import "strings"

// A Unit is one that a length may be written in.
type Unit int

// The units of length. NoUnit, the zero, says that a bare number is refused.
const (
	NoUnit Unit = iota
	Inches
	Millimetres
	Centimetres
	Metres
	Feet
)

var unitLength = [...]Length{0, Inch, Millimetre, Centimetre, Metre, Foot}
var unitName = [...]string{"", "in", "mm", "cm", "m", "ft"}

// String gives the symbol: in, mm, cm, m, ft; nothing for NoUnit.
func (u Unit) String() string {
	if u < 0 || int(u) >= len(unitName) {
		return ""
	}
	return unitName[u]
}

// Length gives the length of one unit, 0 for NoUnit.
func (u Unit) Length() Length {
	if u < 0 || int(u) >= len(unitLength) {
		return 0
	}
	return unitLength[u]
}

// unitWords lists every spelling that is read as a unit of length, in lower
// case. Primes and quotes are what people type for feet and inches; the
// straight double prime as two single ones comes from old keyboards.
var unitWords = map[string]Unit{
	"in": Inches, "in.": Inches, "inch": Inches, "inches": Inches,
	`"`: Inches, "″": Inches, "”": Inches, "“": Inches, "''": Inches, "′′": Inches, "’’": Inches,
	"ft": Feet, "ft.": Feet, "foot": Feet, "feet": Feet,
	"'": Feet, "′": Feet, "’": Feet, "‘": Feet,
	"mm": Millimetres, "millimetre": Millimetres, "millimetres": Millimetres,
	"millimeter": Millimetres, "millimeters": Millimetres,
	"cm": Centimetres, "centimetre": Centimetres, "centimetres": Centimetres,
	"centimeter": Centimetres, "centimeters": Centimetres,
	"m": Metres, "metre": Metres, "metres": Metres, "meter": Metres, "meters": Metres,
}

// UnitNamed finds a unit by any spelling that ParseLength reads, such as in,
// inches or mm; case does not matter.
func UnitNamed(name string) (Unit, bool) {
	u, ok := unitWords[strings.ToLower(strings.TrimSpace(name))]
	return u, ok
}

// Of gives n units as a Length, to the nearest nanometre; false when that is
// beyond MaxLength, not a number, or u is NoUnit. It is how a figure kept as
// number and unit, such as an assumption, becomes a Length.
func Of(n float64, u Unit) (Length, bool) {
	l, ok := FromMM(n*u.Length().MM(), Nanometre, Nearest)
	if !ok || u.Length() == 0 || l > MaxLength || l < -MaxLength {
		return 0, false
	}
	return l, true
}

// In gives the length as a number of units; 0 for NoUnit.
func (l Length) In(u Unit) float64 {
	if u.Length() == 0 {
		return 0
	}
	return float64(l) / float64(u.Length())
}
