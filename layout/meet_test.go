package layout

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// Two squares a distance apart, side by side and corner to corner, at the
// thresholds: joint tolerance 1, gap 2, near miss under 10.
func TestWhatADistanceMeans(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	s := Settings{Gap: 2, JointTolerance: 1, NearMiss: 10}
	for _, c := range []struct {
		dx, dy float64 // between the nearest corners or faces
		want   string
	}{
		{-1.01, -300, "overlap"}, // faces
		{-0.99, -300, "seam"},
		{0, -300, "seam"},
		{2, -300, "seam"},
		{2.99, -300, "seam"},
		{3.01, -300, "miss 3.01"},
		{9.99, -300, "miss 9.99"},
		{10.01, -300, ""},
		{2, -12.8, "seam"}, // a contact just long enough
		{2, -12.6, "touch 2.00"},
		{0, 0, "touch 0.00"}, // corners
		{3, 3, "touch 4.24"},
		{3.6, 3.6, "miss 5.09"},
		{7, 7, "miss 9.90"},
		{7.2, 7.2, ""},
		{-0.9, -0.9, "touch 0.00"},
	} {
		l, _ := Build(kinds, []Place{at("A", "sq", 0, 0), at("B", "sq", 300+c.dx, 300+c.dy)}, s)
		if got := oneMeeting(l); got != c.want {
			t.Errorf("apart by (%g, %g): %q, want %q", c.dx, c.dy, got, c.want)
		}
	}
}

func oneMeeting(l Layout) string {
	text := ""
	for range l.Seams {
		text += "seam"
	}
	for _, t := range l.Touches {
		text += fmt.Sprintf("touch %.2f", t.Gap)
	}
	for _, m := range l.Misses {
		text += fmt.Sprintf("miss %.2f", m.Distance)
	}
	for range l.Overlaps {
		text += "overlap"
	}
	return text
}

func TestPlaceAndDirectionOfANearMiss(t *testing.T) {
	kinds := []Kind{rectangle("box", 300, 300), regular("hex", 6, 300)}
	// The hexagon's left corner is 8 mm right of the box, half way up.
	l := lay(t, kinds, []Place{at("A", "box", 0, 0), at("B", "hex", 608, 150)}, Settings{})
	if len(l.Misses) != 1 {
		t.Fatalf("misses %v", l.Misses)
	}
	m := l.Misses[0]
	a := l.frame(t, "A").Box
	wantNear(t, "distance", m.Distance, 8, 1e-9)
	wantPoint(t, "place", m.At, geom.Point{X: a.Max.X + 4, Y: a.Min.Y + 150}, 1e-9)
	way := m.Towards
	if l.Frames[m.Frames[0]].ID != "A" {
		way = way.Mul(-1)
	}
	wantPoint(t, "direction", way, geom.Point{X: 1}, 1e-9)
}

// A wedge that opens over a side is no seam, and a slightly turned one is while
// both its ends are within the tolerance.
func TestSeamOfSidesNotQuiteParallel(t *testing.T) {
	kinds := []Kind{rectangle("box", 300, 300)}
	for _, c := range []struct {
		degrees float64
		want    string
	}{{0.1, "seam"}, {0.3, "touch 0.00"}, {5, "touch 0.00"}} {
		b := at("B", "box", 300, 0)
		b.Turn = -unit.FromDegrees(c.degrees) // about its lower left corner, opening upwards
		b.At = &geom.Point{X: 300, Y: 0}
		l := lay(t, kinds, []Place{at("A", "box", 0, 0), b}, Settings{})
		if got := oneMeeting(l); got != c.want {
			t.Errorf("open by %g degrees: %q, want %q", c.degrees, got, c.want)
		}
		for _, s := range l.Seams {
			wantNear(t, "gap at the middle", s.Gap, 150*math.Tan(c.degrees*math.Pi/180), 1e-3)
		}
	}
}

// Two frames joined in one place can almost meet in another.
func TestNearMissBesideASeam(t *testing.T) {
	l := lay(t, []Kind{letterU(), rectangle("lid", 900, 200)}, []Place{at("U", "u", 0, 0), at("L", "lid", 0, 500)}, Settings{})
	if got := seamList(l); got != "L.1 U.7 200.00" {
		t.Errorf("seams %s", got)
	}
	if got := oneMeeting(l); got != "seammiss 5.00" {
		t.Errorf("got %q", got)
	}
}

// A small frame set in the opening of a big one lies against the inner face.
func TestFrameInsideAFrame(t *testing.T) {
	kinds := []Kind{rectangle("big", 1000, 800), rectangle("small", 300, 200)}
	for _, mirror := range []bool{false, true} {
		big := at("A", "big", 0, 0)
		x := 400.0
		if big.Mirror = mirror; mirror {
			x = -700
		}
		l := lay(t, kinds, []Place{big, at("B", "small", x, stock)}, Settings{})
		if got := seamList(l); got != "A.1i B.1 300.00" {
			t.Errorf("mirrored %v: seams %q", mirror, got)
		}
		if len(l.Misses)+len(l.Touches) != 0 || len(l.Hanging) != 1 {
			t.Errorf("misses %v, touches %v, hanging %v", l.Misses, l.Touches, l.Hanging)
		}
		if len(l.Outline) != 2 || len(l.Groups) != 1 {
			t.Errorf("%d outlines, groups %v", len(l.Outline), l.Groups)
		}
	}
	thin := kinds[0]
	thin.Inside = inset(thin.Outside, 9, false)
	l := lay(t, []Kind{thin, kinds[1]}, []Place{at("A", "big", 0, 0), at("B", "small", 1000, 0)}, Settings{})
	if len(l.Misses) != 0 {
		t.Errorf("a thin board's inner face answers to what lies behind it: %v", l.Misses)
	}
}

// shapes for the overlap test, not all of them convex.
func shapes() []Kind {
	return []Kind{
		regular("hex", 6, 200),
		regular("tri", 3, 350),
		kindOf("ell", geom.Point{}, geom.Point{X: 400}, geom.Point{X: 400, Y: 150}, geom.Point{X: 150, Y: 150}, geom.Point{X: 150, Y: 400}, geom.Point{Y: 400}),
		kindOf("dart", geom.Point{}, geom.Point{X: 300, Y: -150}, geom.Point{X: 200}, geom.Point{X: 300, Y: 150}),
		archOf("arch", 300, 400),
	}
}

// Overlaps against counting points of a fine grid that lie in the wood of both.
func TestOverlapsAgainstCountingPoints(t *testing.T) {
	kinds := shapes()
	rapid.Check(t, func(r *rapid.T) {
		pick := rapid.IntRange(0, len(kinds)-1)
		var places []Place
		for _, id := range []string{"A", "B"} {
			p := at(id, kinds[pick.Draw(r, "kind")].Name, rapid.Float64Range(-300, 300).Draw(r, "x"), rapid.Float64Range(-300, 300).Draw(r, "y"))
			p.Turn, p.Mirror = unit.Angle(rapid.Float64Range(-3, 3).Draw(r, "turn")), rapid.Bool().Draw(r, "mirror")
			places = append(places, p)
		}
		l, problems := Build(kinds, places, Settings{})
		const step = 2.0
		counted := countShared(l.Frames[0], l.Frames[1], step)
		if len(l.Overlaps) != len(problems) {
			r.Fatalf("%d overlaps, problems %v", len(l.Overlaps), codes(problems))
		}
		if len(l.Overlaps) == 0 {
			// What bites less than the tolerance may still show as a sliver along a board.
			if counted > 400*DefaultJointTolerance {
				r.Fatalf("no overlap found, about %.0f mm2 counted", counted)
			}
			return
		}
		o := l.Overlaps[0]
		if !near(o.Area, counted, 60+0.08*o.Area) {
			r.Fatalf("overlap of %.0f mm2, about %.0f counted", o.Area, counted)
		}
		if o.Depth <= DefaultJointTolerance {
			r.Fatalf("depth %g", o.Depth)
		}
		if !inWood(l.Frames[0], o.At) || !inWood(l.Frames[1], o.At) {
			r.Fatalf("%v is not in both frames", o.At)
		}
	})
}

func inWood(f Frame, p geom.Point) bool { return inside(f.Outside, p) && !inside(f.Inside, p) }

// inside adds up the angles under which the edges are seen (the winding number).
func inside(outline geom.Polygon, p geom.Point) bool {
	turn := 0.0
	for i, a := range outline {
		u, v := a.Sub(p), outline[(i+1)%len(outline)].Sub(p)
		turn += math.Atan2(u.Cross(v), u.Dot(v))
	}
	return math.Abs(turn) > math.Pi
}

// countShared lays a grid over the shared box, turned so that no board lies
// along its lines, and counts the points in the wood of both.
func countShared(f, g Frame, step float64) float64 {
	low := geom.Point{X: max(f.Box.Min.X, g.Box.Min.X), Y: max(f.Box.Min.Y, g.Box.Min.Y)}
	high := geom.Point{X: min(f.Box.Max.X, g.Box.Max.X), Y: min(f.Box.Max.Y, g.Box.Max.Y)}
	if low.X > high.X || low.Y > high.Y {
		return 0
	}
	count, half := 0.0, low.Dist(high)/2
	for v := -half; v < half; v += step {
		for u := -half; u < half; u += step {
			p := low.Lerp(high, 0.5).Add(geom.Point{X: u, Y: v}.Rot(0.3123))
			in := p.X > low.X && p.X < high.X && p.Y > low.Y && p.Y < high.Y
			if in && inWood(f, p) && inWood(g, p) {
				count++
			}
		}
	}
	return count * step * step
}

// The depth of two boards against trying a shift in many directions.
func TestDepthAgainstTryingDirections(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		quad := func() []geom.Point {
			w, h := rapid.Float64Range(5, 50).Draw(r, "w"), rapid.Float64Range(50, 200).Draw(r, "h")
			cut := rapid.Float64Range(0, 20).Draw(r, "mitre")
			turn, at := rapid.Float64Range(-3, 3).Draw(r, "turn"), geom.Point{X: rapid.Float64Range(-60, 60).Draw(r, "x")}
			c := []geom.Point{{}, {X: w, Y: cut}, {X: w, Y: h - cut}, {Y: h}}
			for i := range c {
				c[i] = c[i].Rot(turn).Add(at)
			}
			return c
		}
		a, b := quad(), quad()
		least := math.Inf(1)
		for i := range 3600 {
			way := geom.Point{X: 1}.Rot(2 * math.Pi * float64(i) / 3600)
			least = min(least, most(a, way)+most(b, way.Mul(-1)))
		}
		if d := depth(a, b); d > max(least, 0)+1e-9 || d < least-0.25 {
			r.Fatalf("depth %g, by trying %g", d, least)
		}
	})
}

func most(corners []geom.Point, way geom.Point) float64 {
	m := math.Inf(-1)
	for _, c := range corners {
		m = max(m, c.Dot(way))
	}
	return m
}

// Boards pressed into each other by 5 mm over 300, closed form: depth 5 and,
// the mitres' tips being inside, area 5 x 300 less nothing.
func TestDepthAndAreaOfAnOverlap(t *testing.T) {
	kinds := []Kind{rectangle("box", 300, 300)}
	l, problems := Build(kinds, []Place{at("A", "box", 0, 0), at("B", "box", 295, 0)}, Settings{})
	if codes(problems) != "frames-overlap:A:-1" {
		t.Fatalf("%+v", problems)
	}
	p := problems[0]
	wantNear(t, "depth", p.Depth, 5, 1e-9)
	wantNear(t, "area", p.Area, 1500, 1e-6)
	wantPoint(t, "place", p.At, geom.Point{X: 297.5, Y: 150}, 1e-6)
	if l.Overlaps[0].Depth != p.Depth || p.Name != "B" {
		t.Errorf("%+v", p)
	}
}

// The sweep finds the pairs that looking at all of them finds.
func TestSweepFindsAllPairs(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var l Layout
		n := rapid.IntRange(0, 30).Draw(r, "n")
		coord, size := rapid.Float64Range(0, 100), rapid.Float64Range(0, 40)
		for i := range n {
			low := geom.Point{X: coord.Draw(r, "x"), Y: coord.Draw(r, "y")}
			box := geom.Box{Min: low, Max: low.Add(geom.Point{X: size.Draw(r, "w"), Y: size.Draw(r, "h")})}
			l.Frames = append(l.Frames, Frame{Number: n - i, Box: box})
		}
		l.Width, l.Height = coord.Draw(r, "width"), 50
		want := map[[2]int]bool{}
		for i := range n {
			for j := range i {
				a, b := l.Frames[i].Box, l.Frames[j].Box
				dx := max(a.Min.X-b.Max.X, b.Min.X-a.Max.X)
				dy := max(a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y)
				if dx <= 3 && dy <= 3 {
					want[[2]int{i, j}] = true // the later one has the lower number
				}
			}
		}
		l.eachNearPair(3, func(a, b int) {
			if !want[[2]int{a, b}] {
				r.Fatalf("pair %d, %d twice or not near", a, b)
			}
			delete(want, [2]int{a, b})
		})
		if len(want) > 0 {
			r.Fatalf("missed %v", want)
		}
	})
}
