package unit

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// near allows for the rounding of a float64 or two.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(1, math.Abs(b)) }

func TestParseAngle(t *testing.T) {
	for text, deg := range map[string]float64{
		"30": 30, "30 deg": 30, "30°": 30, "22.5 degrees": 22.5, "-15°": -15, "−15 DEG.": -15, ".5 degree": 0.5, "360": 360,
	} {
		if a, err := ParseAngle(text); err != nil || !near(a.Degrees(), deg) {
			t.Errorf("%q is %v, %v; want %v degrees", text, a.Degrees(), err, deg)
		}
	}
}

func TestParseMass(t *testing.T) {
	// 1 lb is 0.45359237 kg: NIST SP 811, appendix B.
	for text, kg := range map[string]float64{
		"62 lb": 62 * 0.45359237, "62lbs": 62 * 0.45359237, "1 pound": 0.45359237, "28 kg": 28, "1.5 Kilograms": 1.5, "-2 kg": -2,
	} {
		if m, err := ParseMass(text); err != nil || !near(float64(m), kg) {
			t.Errorf("%q is %v kg, %v; want %v", text, float64(m), err, kg)
		}
	}
}

func TestParsePercent(t *testing.T) {
	for text, want := range map[string]float64{"12 %": 12, "12%": 12, "7.5 percent": 7.5, "-3 %": -3} {
		if got, err := ParsePercent(text); err != nil || got != want {
			t.Errorf("%q is %v, %v; want %v", text, got, err, want)
		}
	}
}

func TestQuantityRefusals(t *testing.T) {
	angle := func(s string) error { _, err := ParseAngle(s); return err }
	mass := func(s string) error { _, err := ParseMass(s); return err }
	percent := func(s string) error { _, err := ParsePercent(s); return err }
	for _, c := range []struct {
		parse  func(string) error
		text   string
		offset int
		part   string
	}{
		{angle, "", 0, "nothing"},
		{angle, "30 mm", 3, `"mm" does not belong to an angle`},
		{angle, "30° 20", 2, "does not belong"},
		{angle, "22 1/2", 3, "does not belong"},
		{angle, "361", 0, "full turn"},
		{angle, "-400 deg", 0, "full turn"},
		{angle, "22,5", 2, "comma"},
		{angle, "°", 0, "number is missing"},
		{mass, "62", 2, "no unit after 62"},
		{mass, "62 stone", 3, "does not belong to a mass"},
		{percent, "12", 2, "no unit after 12"},
		{percent, "12 in", 3, "share in percent"},
		{percent, strings.Repeat("1", 70), 64, "too long"},
	} {
		var e *ParseError
		if err := c.parse(c.text); !errors.As(err, &e) || e.Offset != c.offset || !strings.Contains(e.Problem, c.part) || e.Write == "" {
			t.Errorf("%q: %+v; want %q at %d", c.text, e, c.part, c.offset)
		}
	}
}

// An angle that is written with two decimals is read back within half of the
// last one.
func TestAngleRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.Float64Range(-360, 360).Draw(t, "degrees")
		a := FromDegrees(deg)
		got, err := ParseAngle(a.String())
		if err != nil || math.Abs(got.Degrees()-deg) > 0.005+1e-9 {
			t.Fatalf("%v is written %s and read as %v, %v", deg, a, got.Degrees(), err)
		}
	})
}

func TestDensity(t *testing.T) {
	// 1 lb/ft3 is 16.01846 kg/m3: NIST SP 811, appendix B.8.
	if d := FromPoundsPerCubicFoot(1); math.Abs(float64(d)-16.01846) > 5e-6 {
		t.Errorf("1 lb/ft3 is %v kg/m3", float64(d))
	}
	if got := FromPoundsPerCubicFoot(34).PoundsPerCubicFoot(); !near(got, 34) {
		t.Errorf("34 lb/ft3 comes back as %v", got)
	}
}

func TestExactDefinitions(t *testing.T) {
	// NIST SP 811, appendix B: 1 in = 25.4 mm, 1 ft = 0.3048 m.
	if Inch.MM() != 25.4 || Foot.MM() != 304.8 || Foot.Inches() != 12 || Inch/64*64 != Inch {
		t.Error("the inch or the foot is off")
	}
}
