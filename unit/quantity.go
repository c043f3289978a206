package unit

import (
	"fmt"
	"strings"
)

// Pound is an avoirdupois pound: 0.45359237 kg exactly (NIST SP 811,
// appendix B).
const Pound Mass = 0.45359237

// ParseAngle reads an angle in degrees: 30, 30 deg, 30°, 22.5 degrees, -15°.
// Angles of more than 360 degrees either way are refused. Every error is a
// *ParseError.
func ParseAngle(s string) (Angle, error) {
	v, err := parseDecimal(s, "30 or 22.5 degrees", "an angle in degrees", map[string]float64{
		"": 1, "°": 1, "deg": 1, "deg.": 1, "degree": 1, "degrees": 1})
	if err != nil {
		return 0, err
	}
	if v > 360 || v < -360 {
		return 0, &ParseError{Text: s, Problem: "this is more than a full turn", Write: "an angle of less than a full turn"}
	}
	return FromDegrees(v), nil
}

// ParseMass reads a mass: 62 lb, 28 kg, 1.5 pounds; a bare number is refused.
// Every error is a *ParseError.
func ParseMass(s string) (Mass, error) {
	lb := float64(Pound)
	v, err := parseDecimal(s, "62 lb or 28 kg", "a mass", map[string]float64{
		"lb": lb, "lb.": lb, "lbs": lb, "lbs.": lb, "pound": lb, "pounds": lb,
		"kg": 1, "kilogram": 1, "kilograms": 1})
	return Mass(v), err
}

// ParsePercent reads a share: 12 % gives 12; a bare number is refused. Every
// error is a *ParseError.
func ParsePercent(s string) (float64, error) {
	return parseDecimal(s, "12 %", "a share in percent", map[string]float64{"%": 1, "percent": 1})
}

// parseDecimal reads one signed decimal number and a unit that is one of the
// given words, each with its size.
func parseDecimal(s, example, what string, words map[string]float64) (float64, error) {
	r, err := newReader(s, example)
	if err != nil {
		return 0, err
	}
	neg := r.sign()
	from := r.at
	v, err := r.decimal()
	if err != nil {
		return 0, err
	}
	figures := r.plain[from:r.at]
	r.space()
	name := strings.TrimRight(r.plain[r.at:], " ")
	size, ok := words[strings.ToLower(name)]
	if !ok && name == "" {
		return 0, r.failAt(r.at, "there is no unit after "+figures, example)
	}
	if !ok {
		return 0, r.failAt(r.at, fmt.Sprintf("%q does not belong to %s", name, what), example)
	}
	f, _ := v.Float64()
	if neg {
		f = -f
	}
	return f * size, nil
}
