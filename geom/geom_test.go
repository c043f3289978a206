package geom

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// poly reads a short notation: x, y, x, y, ...
func poly(xy ...float64) Polygon {
	var p Polygon
	for i := 0; i < len(xy); i += 2 {
		p = append(p, Point{xy[i], xy[i+1]})
	}
	return p
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

func want(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !near(got, want, tol) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// ell is an L of two 10 x 30 arms: area 500, re-entrant at (10, 10).
var ell = poly(0, 0, 30, 0, 30, 10, 10, 10, 10, 30, 0, 30)

// drawStar draws a simple counter-clockwise polygon round the origin: corners
// at rising bearings, so that no two sides can cross, convex or not.
func drawStar(t *rapid.T, name string) Polygon {
	n := rapid.IntRange(3, 12).Draw(t, name+" corners")
	var p Polygon
	for i := range n {
		r := rapid.Float64Range(100, 1000).Draw(t, name+" radius")
		at := (float64(i) + rapid.Float64Range(0, 0.4).Draw(t, name+" bearing")) * 2 * math.Pi / float64(n)
		p = append(p, Point{r, 0}.Rot(at))
	}
	return p
}

func drawMove(t *rapid.T, name string) Move {
	f := rapid.Float64Range(-2000, 2000)
	return Move{
		Mirror: rapid.Bool().Draw(t, name+" mirror"),
		Turn:   rapid.Float64Range(-7, 7).Draw(t, name+" turn"),
		Shift:  Point{f.Draw(t, name+" x"), f.Draw(t, name+" y")},
	}
}

func drawPoint(t *rapid.T, name string) Point {
	f := rapid.Float64Range(-1500, 1500)
	return Point{f.Draw(t, name+" x"), f.Draw(t, name+" y")}
}

func TestMeasuresOfAnL(t *testing.T) {
	want(t, "area", ell.Area(), 500, 1e-9)
	want(t, "area reversed", ell.Reverse().Area(), -500, 1e-9)
	want(t, "perimeter", ell.Perimeter(), 120, 1e-9)
	// Two rectangles: 30 x 10 with centre (15, 5) and 10 x 20 with centre (5, 20).
	c := ell.Centroid()
	want(t, "centroid x", c.X, (300*15+200*5)/500.0, 1e-9)
	want(t, "centroid y", c.Y, (300*5+200*20)/500.0, 1e-9)
	want(t, "inside angle at the notch", ell.InsideAngle(3), 1.5*math.Pi, 1e-12)
	want(t, "inside angle at corner 0", ell.InsideAngle(0), math.Pi/2, 1e-12)
	if b := ell.Box(); b.Width() != 30 || b.Height() != 30 || b.Centre() != (Point{15, 15}) {
		t.Errorf("box = %v", b)
	}
}

func TestEmptyPolygons(t *testing.T) {
	var none Polygon
	if none.Area() != 0 || none.Perimeter() != 0 || none.Centroid() != (Point{}) || none.Box() != (Box{}) {
		t.Error("an outline without corners has measures")
	}
	if none.IsSimple() || poly(0, 0, 1, 0).IsSimple() {
		t.Error("fewer than three corners count as simple")
	}
	line := poly(0, 0, 10, 0, 20, 0)
	if c := line.Centroid(); c != (Point{10, 0}) {
		t.Errorf("centroid of a line = %v, want the mean of its corners", c)
	}
}

func TestReverseKeepsTheFirstCorner(t *testing.T) {
	r := ell.Reverse()
	if r[0] != ell[0] || r[1] != ell[5] || r[5] != ell[1] {
		t.Errorf("reversed %v", r)
	}
	if !slices.Equal(r.CCW(), ell) || !slices.Equal(ell.CCW(), ell) {
		t.Error("CCW does not bring the L back")
	}
	if f := ell.From(2); f[0] != ell[2] || f[5] != ell[1] {
		t.Errorf("from corner 2: %v", f)
	}
}

func TestCrossings(t *testing.T) {
	for _, c := range []struct {
		name string
		p    Polygon
		want [][2]int
	}{
		{"L", ell, nil},
		{"triangle", poly(0, 0, 10, 0, 0, 10), nil},
		{"straight corner", poly(0, 0, 5, 0, 10, 0, 5, 10), nil},
		{"bow tie", poly(0, 0, 10, 10, 10, 0, 0, 10), [][2]int{{0, 2}}},
		{"corner on a side", poly(0, 0, 10, 0, 10, 10, 5, 0, 0, 10), [][2]int{{0, 2}, {0, 3}}},
		{"spike", poly(0, 0, 10, 0, 5, 0, 5, 10), [][2]int{{0, 1}, {0, 2}}},
		{"repeated corner", poly(0, 0, 10, 0, 10, 0, 0, 10), [][2]int{{0, 1}, {0, 2}, {1, 2}}},
	} {
		if got := c.p.Crossings(); !slices.Equal(got, c.want) {
			t.Errorf("%s: crossings %v, want %v", c.name, got, c.want)
		}
	}
}

func TestStarsAreSimple(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawStar(t, "star")
		if !p.IsSimple() || p.Area() <= 0 {
			t.Fatalf("%v: crossings %v, area %g", p, p.Crossings(), p.Area())
		}
	})
}

func TestSwappedCornersCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 12).Draw(t, "n")
		var p Polygon
		for i := range n {
			p = append(p, Point{1000, 0}.Rot(float64(i)*2*math.Pi/float64(n)))
		}
		i := rapid.IntRange(0, n-1).Draw(t, "swap")
		j := (i + 1) % n
		p[i], p[j] = p[j], p[i]
		if p.IsSimple() {
			t.Fatalf("%v counts as simple", p)
		}
	})
}

func TestContains(t *testing.T) {
	for _, c := range []struct {
		x, y float64
		in   bool
	}{
		{5, 5, true}, {20, 5, true}, {20, 20, false}, {5, 29, true}, {-1, 5, false},
		{0, 0, true}, {30, 5, true}, {10, 20, true}, {10.001, 20, false}, {30, 10 + 1e-7, true},
		{15, 10, true}, {-5, 10, false}, {-5, 0, false}, // level with corners
	} {
		if got := ell.Contains(Point{c.x, c.y}); got != c.in {
			t.Errorf("(%g, %g) inside the L: %v, want %v", c.x, c.y, got, c.in)
		}
	}
}

func TestOffsetOfAnL(t *testing.T) {
	in, err := ell.Offset(2)
	if err != nil {
		t.Fatal(err)
	}
	for i, q := range poly(2, 2, 28, 2, 28, 8, 8, 8, 8, 28, 2, 28) {
		if in[i].Dist(q) > 1e-9 {
			t.Errorf("corner %d at %v, want %v", i, in[i], q)
		}
	}
	_, err = ell.Offset(6) // the arms are 10 wide
	var c *CollapseError
	if !errors.As(err, &c) {
		t.Fatalf("offset by 6: error %v", err)
	}
	want(t, "most", c.Most, 5, 1e-5)
	if c.Error() == "" || c.Side != 1 {
		t.Errorf("collapse at side %d: %v", c.Side+1, c)
	}
}

func TestOffsetWhereDistantSidesMeet(t *testing.T) {
	// An hourglass with a waist 4 wide: no side vanishes, but they run into
	// each other.
	p := poly(0, 0, 40, 0, 22, 50, 40, 100, 0, 100, 18, 50)
	if _, err := p.Offset(1.5); err != nil {
		t.Fatal(err)
	}
	_, err := p.Offset(3)
	var c *CollapseError
	if !errors.As(err, &c) {
		t.Fatalf("offset by 3: error %v", err)
	}
	half := 2 * 50 / math.Hypot(18, 50) // the waist measured square to a side
	want(t, "most", c.Most, half, 0.01)
}

// Steiner's formula for an offset with mitred corners: area falls by w times
// the mean of the two perimeters.
func TestOffsetKeepsTheTrapezoidRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawStar(t, "star")
		w := rapid.Float64Range(-20, 20).Draw(t, "w")
		in, err := p.Offset(w)
		if err != nil {
			return
		}
		if got, want := p.Area()-in.Area(), w*(p.Perimeter()+in.Perimeter())/2; !near(got, want, 1e-3) {
			t.Fatalf("area lost %g, want %g", got, want)
		}
		for i := range p {
			if d := p.Side(i).Offset(in.Side(i)); !near(d, w, 1e-6) {
				t.Fatalf("side %d moved by %g, want %g", i, d, w)
			}
		}
	})
}

func TestMeetOffsetTakesTwoDepths(t *testing.T) {
	a, b := Segment{Point{0, 0}, Point{10, 0}}, Segment{Point{10, 0}, Point{10, 10}}
	if got := MeetOffset(a, b, 3, 1); got.Dist(Point{9, 3}) > 1e-9 {
		t.Errorf("corner at %v, want (9, 3)", got)
	}
	straight := Segment{Point{10, 0}, Point{20, 0}}
	if got := MeetOffset(a, straight, 2, 2); got.Dist(Point{10, 2}) > 1e-9 {
		t.Errorf("corner in a straight side at %v, want (10, 2)", got)
	}
}
