package stand

import (
	"testing"

	"pgregory.net/rapid"
)

// ASCE 7-16 table 29.4-2, flat-sided members, as read in a permit calculation:
// 2.0 below a solidity of 0.1, 1.8 to 0.29, 1.6 from 0.3 to 0.7. Its worked
// figures: solidity 0.153, 1.8, and 17.86 psf from 11.67 psf at a gust-effect
// factor of 0.85.
func TestCoefficients(t *testing.T) {
	w := rules().Wind
	for _, c := range []struct{ solidity, cf float64 }{
		{0.05, 2}, {0.0999, 2}, {0.153, 1.8}, {0.2, 1.8}, {0.29, 1.8}, {0.35, 1.6}, {0.5, 1.6}, {0.7, 1.6},
	} {
		want(t, "coefficient", w.Coefficient(c.solidity, 1)/c.solidity, c.cf, 1e-9)
	}
	want(t, "permit", 11.67*0.85*w.Coefficient(0.153, 1)/0.153, 17.86, 0.005)
	want(t, "0.74, by the table of the plain wall", w.Coefficient(0.74, 1), 1.49*(1-0.26*0.5099019513592785), 1e-12)
	want(t, "solid", w.Coefficient(1, 1), 1.49, 1e-12)
	want(t, "more than solid", w.Coefficient(1.2, 1), 1.49, 1e-12)
	want(t, "nothing", w.Coefficient(0, 1), 0, 0)
	// Just above a step down the force of just below it is kept.
	want(t, "0.1", w.Coefficient(0.1, 1), 0.2, 1e-12)
	want(t, "0.31", w.Coefficient(0.31, 1), 0.54, 1e-12)
}

func TestClosingMoreNeverTakesForceOff(t *testing.T) {
	w := rules().Wind
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 1).Draw(t, "a")
		b := rapid.Float64Range(a, 1).Draw(t, "b")
		if w.Coefficient(a, 0.3) > w.Coefficient(b, 0.3) {
			t.Fatalf("%g at %g, %g at %g", w.Coefficient(a, 0.3), a, w.Coefficient(b, 0.3), b)
		}
	})
}

// ASCE 7 26.10 (second-hand): exposure C at 15 ft, 0.85 x 0.85 x 0.00256 V2:
// 2.959 psf at 40 mph, 24.46 at 115. And 0.613 V2 in Pa.
func TestPressure(t *testing.T) {
	w := rules().Wind
	psf := poundForce / squareFoot
	want(t, "40 mph", float64(w.Pressure(FromMPH(40)))/psf*0.85*0.85, 2.959, 0.001)
	want(t, "115 mph", float64(w.Pressure(FromMPH(115)))/psf*0.85*0.85, 24.46, 0.005)
	want(t, "10 m/s in Pa", float64(w.Pressure(10))*1e6, 61.3, 0.05)
	want(t, "back again", float64(w.gustAt(w.Pressure(12.3))), 12.3, 1e-9)
}

// A forecast of 10 mph is a mean: about 16 mph in gusts.
func TestGustOfAMean(t *testing.T) {
	want(t, "gust", rules().Wind.Gust(FromMPH(10)).MPH(), 16, 1e-9)
}

func TestSpeeds(t *testing.T) {
	want(t, "mph", float64(FromMPH(1)), 0.44704, 1e-12) // exact: NIST SP 811
	want(t, "km/h", float64(FromKMH(36)), 10, 1e-12)
	want(t, "km/h back", FromKMH(38).KMH(), 38, 1e-12)
	want(t, "a mile", FromMPH(24).KMH(), 38.624256, 1e-9)
	for _, c := range []struct{ v, down float64 }{{19.99, 19}, {20, 20}, {20.01, 20}, {0.4, 0}} {
		want(t, "rounded down", FromMPH(c.v).DownTo(FromMPH(1)).MPH(), c.down, 1e-9)
	}
	want(t, "a pound", float64(PoundsForce(1)), 4.4482216152605, 1e-12) // NIST SP 811
	want(t, "and back", float64(Mass(Weigh(3))), 3, 1e-12)
}

// Dressing that hangs far beyond the outline thins the whole out: it must not
// take anything off the wind on the bare piece.
func TestThinDressingTakesNothingOff(t *testing.T) {
	w := rules().Wind
	bare := Drag{100, 900}
	for _, d := range []Drag{{80, 1000}, {100, 900}, {130, 700}, {130, 500}} {
		got := d.atLeast(bare)
		if got.Area < bare.Area || got.Area*got.Height < bare.Area*bare.Height-1e-9 || got.Area < d.Area || got.Area*got.Height < d.Area*d.Height-1e-9 {
			t.Errorf("%v at least %v is %v", d, bare, got)
		}
	}
	if (Drag{}).atLeast(Drag{}) != (Drag{}) || (Drag{}).and(Drag{}) != (Drag{}) {
		t.Error("nothing catches wind")
	}
	sum := (Drag{100, 900}).and(w.face(Face{Gross: 360000, Solid: 360000, Height: 300}))
	want(t, "area", sum.Area, 100+360000*1.49, 1e-9)
	want(t, "height", sum.Height, (100*900+360000*1.49*300)/(100+360000*1.49), 1e-9)
	if w.face(Face{}) != (Drag{}) {
		t.Error("a wing without area catches wind")
	}
}

// ASCE 7 figure 29.3-1 (second-hand), a wall on the ground: 1.80, 1.70, 1.65 and
// 1.55 at widths of 0.05, 0.1, 0.2 and 0.5 heights; 1.49 from 0.72 (the table of
// the plain wall). It has 1.45, 1.40 and 1.30 at 1, 2 and 10: not below those.
func TestSolidWallsByTheirWidth(t *testing.T) {
	w := rules().Wind
	for _, c := range []struct{ wide, cf float64 }{{0.01, 1.8}, {0.05, 1.8}, {0.1, 1.7}, {0.15, 1.675}, {0.2, 1.65}, {0.5, 1.55}, {0.72, 1.49}, {1, 1.49}, {10, 1.49}} {
		want(t, "solid", w.Coefficient(1, c.wide), c.cf, 1e-9)
	}
	for wide, least := range map[float64]float64{1: 1.45, 2: 1.40, 4: 1.35, 5: 1.35, 10: 1.30} {
		if w.Coefficient(1, wide) < least {
			t.Errorf("%g: %g is below the figure's %g", wide, w.Coefficient(1, wide), least)
		}
	}
	narrow, wide := pane(500, 2500, 1, 0, 1), pane(5000, 2500, 1, 0, 1)
	want(t, "a column", w.Drag(narrow).Area, 1.65*500*2500, 1e-6)
	want(t, "a wall", w.Drag(wide).Area, 1.49*5000*2500, 1e-6)
}
