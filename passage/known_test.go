package passage_test

import (
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/passage"
)

const inch = 25.4

// ngon is a regular polygon of n sides of length s, its lowest side level.
func ngon(n int, s float64) geom.Polygon {
	r := s / 2 / math.Sin(math.Pi/float64(n))
	var p geom.Polygon
	for i := range n {
		a := -math.Pi/2 - math.Pi/float64(n) + 2*math.Pi*float64(i)/float64(n)
		p = append(p, geom.Point{X: r * math.Cos(a), Y: r * math.Sin(a)})
	}
	return p
}

func rect(w, h float64) geom.Polygon {
	return geom.Polygon{{}, {X: w}, {X: w, Y: h}, {Y: h}}
}

func body(t testing.TB, thick float64, outlines ...geom.Polygon) *passage.Body {
	t.Helper()
	b, err := passage.Piece{Outlines: outlines, Thickness: thick}.Body()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, tol)
	}
}

func way(t *testing.T, v passage.Verdict, k passage.Kind) passage.Way {
	t.Helper()
	for _, w := range v.Ways {
		if w.Hold.Kind == k {
			return w
		}
	}
	t.Fatalf("no way %v", k)
	return passage.Way{}
}

// A hexagon with sides of 48 in through a door 34 x 79 in clear. The figures
// follow from plain geometry: 83.138 in across flats, leaned until both slacks
// are equal.
func TestHexagonThroughADoor(t *testing.T) {
	door := passage.Door{Width: 34 * inch, Height: 79 * inch}
	v := door.Pass(body(t, 3.5*inch, ngon(6, 48*inch)))
	if !v.Passes || way(t, v, passage.Upright).Clearance >= 0 || v.Best.Hold.Kind != passage.Leaned {
		t.Fatalf("verdict %+v", v)
	}
	near(t, "lean, degrees", v.Best.Hold.Lean*180/math.Pi, 21.5, 0.06)
	near(t, "to spare, in", v.Best.Clearance/inch, 0.34, 0.005)
	near(t, "slack across is slack up", v.Best.Slack.Across, v.Best.Slack.Up, 1e-6)

	v = door.Pass(body(t, 5.5*inch, ngon(6, 48*inch)))
	near(t, "5.5 in deep misses by, in", v.Best.Clearance/inch, -0.67, 0.005)
	if v.Passes || v.Why != passage.NotStill {
		t.Errorf("5.5 in deep: %+v", v)
	}
	v = door.Pass(body(t, 3.5*inch, ngon(6, 60*inch)))
	near(t, "60 in sides miss by, in", v.Best.Clearance/inch, -15.6, 0.06)
}

// Half of it, 41.6 x 96 in, passes on edge with room for both hands.
func TestHalfHexagonThroughADoor(t *testing.T) {
	s := 48 * inch
	half := geom.Polygon{{X: -s}, {X: s}, {X: s / 2, Y: s * math.Sqrt(3) / 2}, {X: -s / 2, Y: s * math.Sqrt(3) / 2}}
	v := passage.Door{Width: 34 * inch, Height: 79 * inch}.Pass(body(t, 3.5*inch, half))
	w := way(t, v, passage.OnEdge)
	near(t, "up, in", w.Slack.Up/inch, 79-41.57, 0.005)
	near(t, "across, in", w.Slack.Across/inch, 30.5, 1e-9)
	if w, ok := v.Easiest(30 * inch); !ok || w.Hold.Kind != passage.Upright {
		t.Errorf("easiest %+v", w) // it stands 41.6 in high as it is
	}
}

// A plate of h x t fits a rectangle a x b, h > a ≥ b, just when
// b ≥ (2 h t a + (h² - t²) √(h² + t² - a²)) / (h² + t²)
// (W. Carver, American Mathematical Monthly 64, 1957, p. 114; from memory).
func TestLeanAgainstCarver(t *testing.T) {
	for _, c := range []struct{ h, thick, a float64 }{{2110, 90, 2000}, {2500, 140, 2032}, {1500, 400, 1450}, {3000, 45, 2100}} {
		n := c.h*c.h + c.thick*c.thick
		b := (2*c.h*c.thick*c.a + (c.h*c.h-c.thick*c.thick)*math.Sqrt(n-c.a*c.a)) / n
		p := body(t, c.thick, rect(9000, c.h)) // so long that only its height can go up or across
		for d, want := range map[float64]bool{0.001: true, -0.001: false} {
			door := passage.Door{Width: b + d, Height: c.a + d}
			if v := door.Pass(p); v.Passes != want || door.Fits(p) != want {
				t.Errorf("%v with %+g: passes %v, clearance %g", c, d, v.Passes, v.Best.Clearance)
			}
		}
	}
}

// A stick without thickness goes round a right angle up to
// (a^(2/3) + b^(2/3))^(3/2): the astroid, a textbook problem of the calculus.
func TestStickRoundACorner(t *testing.T) {
	for _, c := range [][2]float64{{1000, 1000}, {900, 1500}, {700, 2400}} {
		want := math.Pow(math.Cbrt(c[0]*c[0])+math.Cbrt(c[1]*c[1]), 1.5)
		corner := passage.Corner{First: c[0], Second: c[1], Height: 100}
		for d, ok := range map[float64]bool{-0.1: true, 0.1: false} {
			if got := corner.Fits(body(t, 0.01, rect(want+d, 100))); got != ok {
				t.Errorf("%v: stick of %g passes: %v", c, want+d, got)
			}
		}
	}
}

// Between passages of one width w that turn by d the stick is 2 w / sin(d/2):
// it lies across the bend alike on both sides. (From about 127 degrees on a
// longer one passes by going into the corner with one end and out with the other.)
func TestStickRoundABend(t *testing.T) {
	for _, deg := range []float64{30, 45, 60, 90, 120} {
		turn := deg * math.Pi / 180
		want := 2 * 1000 / math.Sin(turn/2)
		corner := passage.Corner{First: 1000, Second: 1000, Height: 100, Turn: turn}
		for d, ok := range map[float64]bool{-0.2: true, 0.1: false} {
			if got := corner.Fits(body(t, 0.01, rect(want+d, 100))); got != ok {
				t.Errorf("%g degrees: stick of %g passes: %v", deg, want+d, got)
			}
		}
	}
}

// A rectangle l x w goes round when a cos t + b sin t - l sin t cos t ≥ w for
// every t: the longest is the least of (a cos t + b sin t - w) / (sin t cos t).
func TestRectangleRoundACorner(t *testing.T) {
	for _, c := range []struct{ a, b, w float64 }{{1000, 1000, 300}, {900, 1400, 150}, {1200, 800, 90}, {760, 915, 500}} {
		want := math.Inf(1)
		for i := 1; i < 200_000; i++ {
			s, k := math.Sincos(float64(i) * math.Pi / 400_000)
			want = math.Min(want, (c.a*k+c.b*s-c.w)/(s*k))
		}
		corner := passage.Corner{First: c.a, Second: c.b, Height: 2399}
		for d, ok := range map[float64]bool{-0.01: true, 0.01: false} {
			if got := corner.Pass(body(t, c.w, rect(want+d, 2399))); got.Passes != ok {
				t.Errorf("%v: %g x %g passes: %v with %g", c, want+d, c.w, got.Passes, got.Best.Clearance)
			}
		}
	}
}

// A square of side a turns in a passage of its own width without turning: it
// goes sideways.
func TestSidewaysRoundACorner(t *testing.T) {
	p := body(t, 10, rect(1000, 1000))
	v := passage.Corner{First: 1000, Second: 1000, Height: 20}.Pass(p)
	near(t, "clearance", v.Best.Clearance, 0, 1e-5)
	if v.Best.Hold.Kind != passage.Flat || !v.Passes {
		t.Errorf("%+v", v.Best)
	}
}

// Lift cars of ADA 407.4.1 (80 in wide by 51 in deep, door 42 x 80 in; figures
// second-hand) and 408.4.1 (42 wide, 54 deep, door 32 in).
func TestLifts(t *testing.T) {
	big := passage.Chamber{Length: 51 * inch, Width: 80 * inch, Height: 84 * inch, Door: passage.Door{Width: 42 * inch, Height: 80 * inch}}
	small := passage.Chamber{Length: 54 * inch, Width: 42 * inch, Height: 84 * inch, Door: passage.Door{Width: 32 * inch, Height: 80 * inch}}
	for _, c := range []struct {
		name     string
		w, h     float64
		in, tiny bool
	}{
		{"on its end", 50, 79, true, true},
		{"as wide as the small car is deep", 54, 79, false, true},
		{"longer than either is deep, higher than the doors", 82, 56, false, false},
		{"leaned over to one side", 50, 86, true, false},
	} {
		p := body(t, 4*inch, rect(c.w*inch, c.h*inch))
		for _, s := range []struct {
			spot passage.Spot
			want bool
		}{{big, c.in}, {small, c.tiny}} {
			if v := s.spot.Pass(p); v.Passes != s.want || s.spot.Fits(p) != s.want {
				t.Errorf("%s in %+v: %v, %+v", c.name, s.spot, v.Passes, v.Best)
			}
		}
	}
}

// A wall 2.30 m high on a base 0.45 m deep under a roof of 2.32 m: it stands,
// but on its way up it needs √(2.30² + 0.45²) = 2.344 m.
func TestUnderARoof(t *testing.T) {
	wall := passage.Stood{Height: 2300, Depth: 450}
	standing, rising := passage.Ceiling{Spot: 2320, Rising: 2320}.Clear(wall)
	near(t, "standing", standing, 20, 1e-9)
	near(t, "rising", rising, 2320-2343.608, 0.001)
	if s, r := (passage.Ceiling{}).Clear(wall); !math.IsInf(s, 1) || !math.IsInf(r, 1) {
		t.Errorf("no ceiling: %g, %g", s, r)
	}
}

// Flat round a half landing a square plate slides sideways twice.
func TestLanding(t *testing.T) {
	p := body(t, 40, rect(900, 900))
	l := passage.Landing{Up: 1000, Down: 1000, Depth: 1100, Length: 2100, Height: 2000}
	if v := l.Pass(p); !v.Passes || v.Best.Clearance < 100-1e-5 || !l.Fits(p) {
		t.Errorf("wide landing: %+v", v.Best)
	}
	l.Length = 850
	if l.Fits(p) || l.Pass(p).Passes {
		t.Error("the landing is shorter than the plate")
	}
}

func TestWrappingTakesBothSides(t *testing.T) {
	bare := passage.Piece{Outlines: []geom.Polygon{rect(1000, 2000)}, Thickness: 100}
	soft := bare
	soft.Wrap, soft.Fingers = 12, 30
	a, _ := bare.Body()
	b, _ := soft.Body()
	for _, s := range []passage.Spot{
		passage.Door{Width: 800, Height: 2100}, passage.Floor{Length: 3000, Width: 2500},
		passage.Chamber{Length: 3000, Width: 1300, Height: 1200, Door: passage.Door{Width: 1200, Height: 1100}},
		passage.Corner{First: 900, Second: 900, Height: 2100},
		passage.Landing{Up: 1000, Down: 1000, Depth: 1100, Length: 2100, Height: 2200},
	} {
		near(t, "both sides of both", s.Pass(a).Best.Clearance-s.Pass(b).Best.Clearance, 84, 1e-3)
	}
}

func TestRefused(t *testing.T) {
	for name, p := range map[string]passage.Piece{
		"nothing":   {Thickness: 20},
		"a line":    {Outlines: []geom.Polygon{{{}, {X: 5}, {X: 9}}}, Thickness: 20},
		"no depth":  {Outlines: []geom.Polygon{rect(1, 1)}},
		"not there": {Outlines: []geom.Polygon{{{X: math.NaN()}, {X: 5}, {Y: 9}}}, Thickness: 20},
		"wrap":      {Outlines: []geom.Polygon{rect(1, 1)}, Thickness: 2, Wrap: -1},
	} {
		if _, err := p.Body(); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
