package stand

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Screws of NDS 2018 Appendix L3: diameter and root in inches.
var screwSizes = map[int][2]float64{6: {0.138, 0.113}, 8: {0.164, 0.131}, 9: {0.177, 0.142}, 10: {0.190, 0.152}, 12: {0.216, 0.171}, 14: {0.242, 0.196}}

// screwOf is a wood screw through a side piece in inches, its point so many
// diameters deep.
func screwOf(number int, side, diameters, gravity float64) Dowel {
	d := screwSizes[number]
	return Dowel{Diameter: d[0] * inch, Root: d[1] * inch, Length: 1e6, Side: side * inch, Hold: diameters * d[0] * inch, HeadGravity: gravity, HoldGravity: gravity}
}

func inPounds(newtons float64) float64 { return newtons / poundForce }

// TestWithdrawal: NDS 2018 Table 12.2B and its formula, lb an inch of thread.
func TestWithdrawal(t *testing.T) {
	for _, c := range []struct {
		number  int
		gravity float64
		want    float64
		tol     float64
	}{
		{10, 0.50, 135, 0.5}, {8, 0.42, 82, 0.5}, {14, 0.55, 208, 1}, {14, 0.50, 172, 0.5}, {14, 0.42, 121, 1}, // published cells
		{10, 0.45, 109.7, 0.05}, // a published worked example
		{8, 0.36, 60.575, 0.001}, {9, 0.55, 152.6, 0.05}, {12, 0.67, 276.3, 0.1}, {6, 0.36, 51.0, 0.05}, {14, 0.67, 309.6, 0.05},
	} {
		d := screwOf(c.number, 0.75, 0, c.gravity)
		d.Hold = inch
		want(t, fmt.Sprintf("No. %d in %v", c.number, c.gravity), inPounds(d.Withdrawal()), c.want, c.tol)
	}
}

// Thread is two thirds of a screw: what is in the wood beyond it does not pull.
func TestOnlyThreadPulls(t *testing.T) {
	d := screwOf(8, 0.75, 0, 0.36)
	d.Length, d.Hold = 1.25*inch, 1.25*inch
	want(t, "all of it in the wood", inPounds(d.Withdrawal()), 60.575*1.25*2/3, 0.01)
}

// TestPullThrough: NDS 2018 Table 12.2F, four published cells.
func TestPullThrough(t *testing.T) {
	for _, c := range []struct{ gravity, head, side, want float64 }{
		{0.50, 0.234, 5.0 / 16, 40}, {0.50, 0.312, 1, 132}, {0.50, 0.312, 0.75, 127}, {0.42, 0.500, 1.5, 239},
	} {
		d := Dowel{Side: c.side * inch, HeadGravity: c.gravity}
		want(t, fmt.Sprintf("%+v", c), inPounds(d.PullThrough(c.head*inch)), c.want, 0.6)
	}
}

// TestPublishedLateral: NDS 2018 Table 12L, wood screws in single shear, ten
// diameters deep; the cells that were found published. The table rounds the bearing
// strength to 50 psi, which is worth half a pound.
func TestPublishedLateral(t *testing.T) {
	for _, c := range []struct {
		side    float64
		number  int
		gravity float64
		want    float64
		mode    string
	}{
		{0.5, 8, 0.50, 73, "IIIs"}, {0.5, 10, 0.50, 90, "IIIs"}, {0.5, 14, 0.50, 120, "IIIs"}, {1.5, 10, 0.50, 117, "IV"}, {0.5, 12, 0.42, 91, "IIIs"},
	} {
		y := screwOf(c.number, c.side, 10, c.gravity).Lateral()
		want(t, fmt.Sprintf("%+v", c), inPounds(y.Least), c.want, 0.7)
		if y.Mode != c.mode {
			t.Errorf("%+v: mode %s", c, y.Mode)
		}
	}
}

// TestThreeQuarters: the same for a side piece of 3/4 in, by other arithmetic of
// the same formulas, with bearing strengths rounded as in the table.
func TestThreeQuarters(t *testing.T) {
	for gravity, row := range map[float64]map[int]float64{
		0.36: {6: 46.0, 8: 56.2, 9: 64.0, 10: 68.9, 12: 83.6, 14: 90.6},
		0.42: {6: 56.5, 8: 68.6, 10: 83.4, 14: 108.0},
		0.50: {6: 72.3, 8: 88.3, 9: 99.1, 10: 106.6, 12: 126.5, 14: 135.3},
		0.67: {6: 94.5, 8: 120.5, 9: 141.5, 10: 152.9, 12: 191.7, 14: 202.8},
	} {
		for number, lb := range row {
			want(t, fmt.Sprintf("No. %d in %v", number, gravity), inPounds(screwOf(number, 0.75, 10, gravity).Lateral().Least), lb, 0.006*lb)
		}
	}
}

// TestShortScrew: No. 8 by 1 1/4 through 3/4 into 3/4, outside the standard: all
// six modes.
func TestShortScrew(t *testing.T) {
	d := screwOf(8, 0.75, 0, 0.36)
	d.Hold, d.Length = inch/2, 1.25*inch
	y := d.Lateral()
	for i, lb := range []float64{50.6865, 113.1396, 38.0644, 48.1033, 55.9465, 68.0038} {
		want(t, modeNames[i], inPounds(y.Modes[i]), lb, 1e-3)
	}
	if y.Mode != "II" || !d.Outside() {
		t.Errorf("%+v", y)
	}
	want(t, "in use", inPounds(y.Least*d.short()), 19.3417, 1e-3)
	want(t, "pull", inPounds(d.Withdrawal()), 30.28752, 1e-4)
}

// TestQuarterBolt: 1/4 in through two boards of 3/4, both across the grain, mild
// steel; by other arithmetic of the same formulas, as no table has so thin a bolt.
func TestQuarterBolt(t *testing.T) {
	for gravity, lb := range map[float64]float64{0.36: 48, 0.42: 60, 0.50: 77} {
		d := Dowel{Diameter: inch / 4, Side: 0.75 * inch, Hold: 0.75 * inch, HeadGravity: gravity, HoldGravity: gravity, Bolt: true}
		y := d.Lateral()
		want(t, fmt.Sprint(gravity), inPounds(y.Least), lb, 0.6)
		if y.Mode != "II" || d.Outside() {
			t.Errorf("%v: %+v", gravity, y)
		}
	}
}

// TestTogether: NDS 2018 12.4-1, by hand.
func TestTogether(t *testing.T) {
	for _, c := range []struct{ pull, slide, want float64 }{
		{10, 10, 0.599254}, {27.5737, 2.5, 0.9183}, {30.29, 0, 1}, {0, 19.33, 1}, {0, 0, 0},
	} {
		want(t, fmt.Sprint(c), together(c.pull, c.slide, 30.29, 19.33), c.want, 5e-5)
	}
	if r := together(1, 1, 0, 5); !math.IsInf(r, 1) {
		t.Errorf("a screw that bears nothing: %v", r)
	}
	if r := together(0, 1, 0, 5); r != 0.2 {
		t.Errorf("a slide where no pull is allowed: %v", r)
	}
}

// More gravity, or more wood to hold in, never bears less; a shorter point never
// more.
func TestScrewsAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.SampledFrom([]int{6, 8, 9, 10, 12, 14}).Draw(t, "number")
		g := rapid.Float64Range(0.31, 0.7).Draw(t, "gravity")
		deep := rapid.Float64Range(2, 12).Draw(t, "diameters")
		a, b := screwOf(number, 0.75, deep, g), screwOf(number, 0.75, deep, g*1.03)
		c := screwOf(number, 0.75, deep*1.05, g)
		for name, f := range map[string]func(Dowel) float64{"pull": Dowel.Withdrawal, "head": func(d Dowel) float64 { return d.PullThrough(8) },
			"slide": func(d Dowel) float64 { return d.Lateral().Least * d.short() }} {
			if f(b) < f(a) {
				t.Errorf("%s: denser wood %v < %v", name, f(b), f(a))
			}
			if f(c) < f(a)*(1-1e-12) {
				t.Errorf("%s: deeper %v < %v", name, f(c), f(a))
			}
		}
	})
}

// The modulus of twist against the textbook factors c1 of a b2 (Timoshenko and
// Goodier, table of section 109; from memory): square 0.208, 2:1 0.246, thin 1/3.
func TestTwistModulus(t *testing.T) {
	for _, c := range []struct{ ratio, want float64 }{{1, 0.208}, {1.5, 0.231}, {2, 0.246}, {4, 0.282}, {10, 0.312}, {1000, 0.3331}} {
		want(t, fmt.Sprint(c.ratio), twistModulus(1, c.ratio)/c.ratio, c.want, 6e-4)
	}
	want(t, "face of a mitre of the worked wall, in3", twistModulus(0.75/math.Cos(math.Pi/6), 3.5), 0.741, 1e-3)
	want(t, "in the plane, in3", modulus(3.5, 0.75/math.Cos(math.Pi/6)), 0.4375, 1e-9)
	want(t, "out of it, in3", modulus(0.75/math.Cos(math.Pi/6), 3.5), 1.768, 1e-3)
}
