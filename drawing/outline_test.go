package drawing_test

import (
	"math"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// TestArcsAreRound measures how far the cubics miss the circle: the textbook
// says 0.0273 % of the radius at worst for a quarter turn.
func TestArcsAreRound(t *testing.T) {
	const r = 10.0
	c := pt(50, 50)
	for _, turn := range []float64{30, 90, 180, 270, 360, -120} {
		worst := 0.0
		for _, p := range drawing.ArcAt(c, r, 15, 15+turn).Flat(1e-5) {
			worst = math.Max(worst, math.Abs(p.Dist(c)-r)/r)
		}
		if worst > 0.000273+1e-6 {
			t.Errorf("an arc of %g degrees misses by %g of its radius", turn, worst)
		}
	}
}

// TestArcsTurnAnticlockwise: 0 degrees is right, 90 is up, as seen on the page.
func TestArcsTurnAnticlockwise(t *testing.T) {
	a := drawing.ArcAt(pt(0, 0), 2, 0, 90)
	if a.Start.Dist(pt(2, 0)) > 1e-9 || a.End().Dist(pt(0, -2)) > 1e-9 {
		t.Errorf("the arc goes from %v to %v", a.Start, a.End())
	}
	if n := len(a.Steps); n != 1 {
		t.Errorf("a quarter takes %d curves, want 1", n)
	}
}

func TestAreasInClosedForm(t *testing.T) {
	for _, c := range []struct {
		name string
		o    drawing.Outline
		want float64
	}{
		{"ellipse", drawing.EllipseAt(pt(5, 5), 3, 2), math.Pi * 6},
		{"slot", drawing.SlotAt(0, 0, 20, 6, 3), 14*6 + math.Pi*9},
		{"rounded", drawing.SlotAt(1, 2, 20, 10, 1), 20*10 - (4-math.Pi)*1},
		{"ring", drawing.Ring(points("0,0 4,0 4,3")...), 6},
	} {
		if got := math.Abs(area(c.o)); !near(got, c.want, 0.001*c.want) {
			t.Errorf("%s covers %g, want %g", c.name, got, c.want)
		}
	}
}

// TestFlatKeepsItsTolerance compares a flattened curve with a far finer one.
func TestFlatKeepsItsTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawing.Lines(anyPoint(t, "a")).CurveTo(anyPoint(t, "c1"), anyPoint(t, "c2"), anyPoint(t, "b"))
		tol := rapid.Float64Range(0.01, 2).Draw(t, "tol")
		coarse := o.Flat(tol)
		for _, p := range o.Flat(tol / 400) {
			if d := distance(p, coarse); d > tol*1.01 {
				t.Fatalf("a point lies %g from the flat curve, more than %g", d, tol)
			}
		}
	})
}

func anyPoint(t *rapid.T, name string) drawing.Point {
	return pt(rapid.Float64Range(-100, 100).Draw(t, name+" x"), rapid.Float64Range(-100, 100).Draw(t, name+" y"))
}

// distance is from a point to an open chain of points.
func distance(p drawing.Point, chain []drawing.Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, d := chain[i-1], chain[i].Sub(chain[i-1])
		u := 0.0
		if d.Len() > 0 {
			u = math.Max(0, math.Min(1, p.Sub(a).Dot(d)/d.Dot(d)))
		}
		best = math.Min(best, p.Dist(a.Add(d.Mul(u))))
	}
	return best
}

func TestReversed(t *testing.T) {
	o := drawing.Lines(points("0,0 5,0")...).CurveTo(pt(6, 0), pt(7, 1), pt(7, 2)).LineTo(pt(7, 9))
	if got, want := notation(o.Reversed()), "7,9 7,2 (7,1 6,0) 5,0 0,0"; got != want {
		t.Errorf("reversed is %s, want %s", got, want)
	}
	if got := notation(o.Reversed().Reversed()); got != notation(o) {
		t.Errorf("twice reversed is %s", got)
	}
}

// TestOutlinesAreValues: going on from one outline in two ways leaves both as
// drawn.
func TestOutlinesAreValues(t *testing.T) {
	stem := drawing.Lines(points("0,0 1,0 2,0 3,0")...)
	a, b := stem.LineTo(pt(4, 1)), stem.LineTo(pt(4, -1))
	if notation(a) != "0,0 1,0 2,0 3,0 4,1" || notation(b) != "0,0 1,0 2,0 3,0 4,-1" {
		t.Errorf("the two are %s and %s", notation(a), notation(b))
	}
}

func TestAffine(t *testing.T) {
	if p := (drawing.Affine{}).Apply(pt(3, 4)); p != pt(3, 4) {
		t.Errorf("the zero map moves 3,4 to %v", p)
	}
	v := drawing.View(0.04, pt(20, 200))
	if p := v.Apply(pt(1000, 2500)); p.Dist(pt(60, 100)) > 1e-9 {
		t.Errorf("a point 1 m right and 2.5 m up at 1:25 is drawn at %v", p)
	}
	o := v.Outline(drawing.EllipseAt(pt(0, 0), 100, 100))
	if got := math.Abs(area(o)); !near(got, math.Pi*16, 0.02) {
		t.Errorf("a circle of 100 mm at 1:25 covers %g mm²", got)
	}
}
