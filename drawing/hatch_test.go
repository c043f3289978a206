package drawing_test

import (
	"math"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

var allHatches = []drawing.Hatch{drawing.Rain, drawing.LevelLines, drawing.SeedDots, drawing.BrokenRain, drawing.SawTeeth, drawing.Lattice, drawing.Brick, drawing.Rings, drawing.Waste}

// hatched is what a hatching puts inside outlines, without fill or outline.
func hatched(h drawing.Hatch, os ...drawing.Outline) []drawnShape {
	return sketched(drawing.Path(drawing.Pen{}, drawing.Fill{Hatch: h}, os...)).shapes
}

// winding is how often rings run round a point, by summing angles: slow, and
// nothing like the code under test.
func winding(p drawing.Point, os []drawing.Outline) int {
	sum := 0.0
	for _, o := range os {
		pts := o.Flat(0.01)
		for i, q := range pts {
			a, b := q.Sub(p), pts[(i+1)%len(pts)].Sub(p)
			sum += math.Atan2(a.Cross(b), a.Dot(b))
		}
	}
	return int(math.Round(sum / (2 * math.Pi)))
}

func edgeDistance(p drawing.Point, os []drawing.Outline) float64 {
	best := math.Inf(1)
	for _, o := range os {
		pts := o.Flat(0.01)
		best = math.Min(best, distance(p, append(pts, pts[0])))
	}
	return best
}

// star draws a star-shaped polygon, which may be sharp, dented and thin.
func star(t *rapid.T, name string, c drawing.Point, least, most float64) drawing.Outline {
	n := rapid.IntRange(3, 9).Draw(t, name+" corners")
	var pts []drawing.Point
	for i := range n {
		r := rapid.Float64Range(least, most).Draw(t, name+" radius")
		pts = append(pts, c.Add(pt(r, 0).Rot(2*math.Pi*float64(i)/float64(n))))
	}
	return drawing.Ring(pts...)
}

// TestHatchStaysInside: whatever the polygon and its hole, every point of every
// stroke is inside or within a hundredth of a mm of the edge.
func TestHatchStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SampledFrom(allHatches).Draw(t, "hatch")
		outer := star(t, "outer", pt(50, 50), 6, 25)
		s := drawing.Holed(drawing.Pen{}, drawing.Fill{}, outer, star(t, "hole", pt(50, 50), 1, 3))
		for _, d := range hatched(h, s.Outlines...) {
			for _, o := range d.outlines {
				strokeInside(t, h, o, s.Outlines)
			}
		}
	})
}

func strokeInside(t *rapid.T, h drawing.Hatch, o drawing.Outline, region []drawing.Outline) {
	pts := o.Flat(0.01)
	for i := 1; i < len(pts); i++ {
		for _, u := range []float64{0, 0.5, 1} {
			p := pts[i-1].Lerp(pts[i], u)
			if winding(p, region) == 0 && edgeDistance(p, region) > 0.01 {
				t.Fatalf("%s: %v is outside", h, p)
			}
		}
	}
}

// TestHatchFills: lines a gap apart, all their lengths together, times the gap,
// are the area they cover. Held to 3 % over a polygon far larger than the gap.
func TestHatchFills(t *testing.T) {
	big := drawing.Ring(points("3,4 190,11 160,170 90,60 10,180")...)
	hole := drawing.Ring(points("20,20 60,20 60,50 20,50")...)
	s := drawing.Holed(drawing.Pen{}, drawing.Fill{}, big, hole)
	covered := math.Abs(area(big)) - math.Abs(area(hole))
	px := 0.6 * drawing.MMPerPt
	for _, c := range []struct {
		h    drawing.Hatch
		want float64 // mm of line to a mm²
	}{
		{drawing.Rain, 1 / (9 * px)},
		{drawing.LevelLines, 1 / (9 * px)},
		{drawing.BrokenRain, 6.0 / 9 / (9 * px)},
		{drawing.Lattice, 2 / (11 * px)},
		{drawing.Brick, 8.0 / 18 / (6 * px)},
		{drawing.Waste, 1 / (6 * px)},
		{drawing.SawTeeth, 4 * math.Hypot(4, 6) / (16 * 10 * px)},
		{drawing.Rings, 48 * 3 * math.Sin(math.Pi/24) / (13 * 13 * px)},
	} {
		sum := 0.0
		for _, d := range hatched(c.h, s.Outlines...) {
			sum += inked(d)
		}
		if got := sum / covered; !near(got, c.want, 0.03*c.want) {
			t.Errorf("%s: %.4f mm of line to a mm², want %.4f", c.h, got, c.want)
		}
	}
}

// inked is the length of a shape's lines, in mm.
func inked(d drawnShape) float64 {
	sum := 0.0
	for _, o := range d.outlines {
		pts := o.Flat(0.01)
		for i := 1; i < len(pts); i++ {
			sum += pts[i].Dist(pts[i-1])
		}
	}
	return sum
}

// TestSeedDotsAreWhole: no dot is cut, and they are as many as their lattice
// puts into the area.
func TestSeedDotsAreWhole(t *testing.T) {
	square := drawing.Ring(points("0,0 90,0 90,90 0,90")...)
	dots := hatched(drawing.SeedDots, square)[0].outlines
	r := 1.3 * 0.6 * drawing.MMPerPt
	for _, o := range dots {
		if a := math.Abs(area(o)); !near(a, math.Pi*r*r, 0.01) {
			t.Fatalf("a dot covers %g mm², want %g", a, math.Pi*r*r)
		}
	}
	cell := 9 * 0.6 * drawing.MMPerPt
	if want := 2 * 90 * 90 / (cell * cell); !near(float64(len(dots)), want, 0.05*want) {
		t.Errorf("%d dots, want about %.0f", len(dots), want)
	}
}

// TestHatchRunsOn: neighbours of one section share their lines, as the pattern
// is anchored to the page.
func TestHatchRunsOn(t *testing.T) {
	left := hatched(drawing.LevelLines, drawing.Ring(points("0,0 10,0 10,20 0,20")...))[0].outlines
	right := hatched(drawing.LevelLines, drawing.Ring(points("10,0 30,0 30,20 10,20")...))[0].outlines
	if len(left) != len(right) || len(left) == 0 {
		t.Fatalf("%d and %d lines", len(left), len(right))
	}
	for i := range left {
		if left[i].Start.Y != right[i].Start.Y {
			t.Errorf("line %d at %g and %g", i, left[i].Start.Y, right[i].Start.Y)
		}
	}
}

// TestHatchLeans: rain leans right, broken rain left, waste runs left and down.
func TestHatchLeans(t *testing.T) {
	square := drawing.Ring(points("0,0 40,0 40,40 0,40")...)
	for h, deg := range map[drawing.Hatch]float64{drawing.Rain: 60, drawing.BrokenRain: 120, drawing.Waste: 45, drawing.LevelLines: 0} {
		o := hatched(h, square)[0].outlines[3]
		d := o.End().Sub(o.Start)
		got := math.Mod(math.Atan2(-d.Y, d.X)*180/math.Pi+360, 180)
		if !near(got, deg, 1e-6) {
			t.Errorf("%s stands at %g degrees, want %g", h, got, deg)
		}
	}
}

func TestNothingToHatch(t *testing.T) {
	for _, h := range allHatches {
		for _, o := range []drawing.Outline{drawing.Lines(pt(1, 1)), drawing.Ring(points("0,0 10,0")...), drawing.Ring(points("5,5 5,5 5,5")...)} {
			for _, d := range hatched(h, o) {
				if n := inked(d); n > 0 {
					t.Errorf("%s draws %g mm in nothing", h, n)
				}
			}
		}
	}
}

func TestSections(t *testing.T) {
	for i, want := range map[int]string{0: "A rain", 2: "C seed dots", 7: "H rings", 8: "I rain", 25: "Z level lines", 26: "AA seed dots", 53: "BBB lattice"} {
		letter, h, pen := drawing.Section(i)
		if got := letter + " " + h.String(); got != want {
			t.Errorf("section %d is %s, want %s", i, got, want)
		}
		if heavy := pen.Weight > drawing.PenOutline.Weight; heavy != (i >= 8) {
			t.Errorf("section %d has an outline of %g pt", i, pen.Weight)
		}
	}
	seen := map[string]bool{}
	for i := range 60 {
		letter, _, _ := drawing.Section(i)
		if seen[letter] {
			t.Errorf("two sections are %s", letter)
		}
		seen[letter] = true
	}
}
