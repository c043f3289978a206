package fixing

import (
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

func coord(t *rapid.T, name string) float64 { return rapid.Float64Range(-50, 50).Draw(t, name) }

func drawPath(t *rapid.T, name string) path {
	return path{a: [3]float64{coord(t, name), coord(t, name), coord(t, name)}, b: [3]float64{coord(t, name), coord(t, name), coord(t, name)}}
}

// The distance of two axes is never over that of any two of their points, and
// is attained by the best of a fine grid to within the grid.
func TestPathDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawPath(t, "p"), drawPath(t, "q")
		const steps = 60
		least := math.Inf(1)
		for i := range steps + 1 {
			for j := range steps + 1 {
				least = min(least, norm(sub(p.point(float64(i)/steps), q.point(float64(j)/steps))))
			}
		}
		got := p.dist(q)
		grid := (norm(sub(p.a, p.b)) + norm(sub(q.a, q.b))) / steps
		if got > least+1e-9 || got < least-grid {
			t.Fatalf("distance %g, by sampling %g", got, least)
		}
		if d := q.dist(p); math.Abs(d-got) > 1e-9 {
			t.Fatalf("%g one way and %g the other", got, d)
		}
	})
}

// Closed forms: crossing lines, parallel ones, points.
func TestPathDistanceByHand(t *testing.T) {
	x := path{a: [3]float64{-1, 0, 0}, b: [3]float64{1, 0, 0}}
	for _, c := range []struct {
		q    path
		want float64
	}{
		{path{a: [3]float64{0, -1, 3}, b: [3]float64{0, 1, 3}}, 3},
		{path{a: [3]float64{-1, 4, 0}, b: [3]float64{1, 4, 0}}, 4},
		{path{a: [3]float64{4, 4, 0}, b: [3]float64{4, 4, 0}}, 5},
		{path{a: [3]float64{0, -1, 0}, b: [3]float64{0, 1, 0}}, 0},
	} {
		if got := x.dist(c.q); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v: %g, want %g", c.q, got, c.want)
		}
	}
}

// clearance finds what a search through all paths finds.
func TestClearanceIsThatOfAllPaths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := newPaths()
		n := rapid.IntRange(0, 12).Draw(t, "n")
		for i := range n {
			at := geom.Point{X: rapid.Float64Range(-300, 300).Draw(t, "x"), Y: rapid.Float64Range(-300, 300).Draw(t, "y")}
			g.add(pathOf(at, at.Add(geom.Point{X: coord(t, "dx"), Y: coord(t, "dy")}), 10, 20, 4, i+1))
		}
		at := geom.Point{X: rapid.Float64Range(-300, 300).Draw(t, "px"), Y: rapid.Float64Range(-300, 300).Draw(t, "py")}
		p := pathOf(at, at.Add(geom.Point{X: 30}), 15, 15, 6, 99)
		const reach = 40
		want := float64(reach)
		for _, q := range g.all {
			want = min(want, p.dist(q)-5)
		}
		if got, _ := g.clearance(p, reach); math.Abs(got-want) > 1e-9 {
			t.Fatalf("clearance %g, of all %g", got, want)
		}
	})
}

// in says whether a place is in wood: the plain way, by every board.
func (w *work) in(p geom.Point, z float64) bool {
	for _, s := range w.woods.solids {
		if z > 2*touch && z < s.rise-2*touch && s.outline.Contains(p) && s.outline.BoundaryDist(p) > 2*touch {
			return true
		}
	}
	return false
}

// firstWood walks along a ray in small steps.
func (w *work) firstWood(r ray, steps int) float64 {
	for i := range steps + 1 {
		t := float64(i) / float64(steps)
		if w.in(r.from.Lerp(r.to, t), r.z+t*r.dz) {
			return t
		}
	}
	return 1
}

// A ray is stopped where walking along it first stands in wood.
func TestHitIsFoundByWalking(t *testing.T) {
	m := &made{}
	m.regular("hex", 6, 12, oneByFour)
	m.regular("small", 6, 5, Board{oneByFour.Boards, 0})
	m.box("flat", 10, 9, flat)
	m.at("A", "hex", 0, 6)
	m.attach("B", "hex", "A", 1, 4)
	m.at("C", "small", 0, 3.25)
	m.at("F", "flat", -30, 0)
	l, b := m.build(t)
	w := newWork(l, b, Settings{})
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(-50, l.Width+50), rapid.Float64Range(-50, l.Height+50)
		r := ray{from: geom.Point{X: x.Draw(t, "x"), Y: y.Draw(t, "y")}, to: geom.Point{X: x.Draw(t, "x2"), Y: y.Draw(t, "y2")},
			z: rapid.Float64Range(-20, 100).Draw(t, "z"), dz: rapid.Float64Range(-100, 100).Draw(t, "dz")}
		const steps = 1000
		got, walked := w.woods.hit(r), w.firstWood(r, steps)
		grain := 2.0 / steps
		// Walking may step over a corner, never find wood too early.
		if walked < got-grain || walked > got+grain && w.long(r, got, 4.0/steps) {
			t.Fatalf("hit at %g, walking finds it at %g", got, walked)
		}
		if got < 1 && !w.on(r.from.Lerp(r.to, got), r.z+got*r.dz) {
			t.Fatalf("hit at %g, where there is no wood", got)
		}
	})
}

// on says whether a place is in wood or on its surface.
func (w *work) on(p geom.Point, z float64) bool {
	const near = 1e-6
	for _, s := range w.woods.solids {
		if z > -near && z < s.rise+near && (s.outline.Contains(p) || s.outline.BoundaryDist(p) < near) {
			return true
		}
	}
	return false
}

// A ray that comes out of a face by a hair passes by; one along a mitre does not
// pass between its boards; behind a shallow board the way is free.
func TestPassingBy(t *testing.T) {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.box("f", 20, 20, flat)
	m.at("A", "k", 0, 0)
	m.at("F", "f", 40, 0)
	l, b := m.build(t)
	w := newWork(l, b, Settings{})
	low := 0.75 * inch
	for _, c := range []struct {
		name string
		r    ray
		want bool
	}{
		{"along a mitre", ray{from: geom.Point{X: 40, Y: 40}, to: geom.Point{X: -40, Y: -40}, z: 30}, true},
		{"just over the floor of the opening", ray{from: geom.Point{X: 50, Y: low + 0.1}, to: geom.Point{X: 400, Y: low + 0.1}, z: 30}, false},
		{"just under it", ray{from: geom.Point{X: 50, Y: low - 0.1}, to: geom.Point{X: 400, Y: low - 0.1}, z: 30}, true},
		{"out of it by a hair", ray{from: geom.Point{X: 50, Y: low - 1e-4}, to: geom.Point{X: 50, Y: 400}, z: 30}, false},
		{"in front of everything", ray{from: geom.Point{X: -50, Y: 5}, to: geom.Point{X: 2000, Y: 5}, z: -1}, false},
		{"through both", ray{from: geom.Point{X: -50, Y: 5}, to: geom.Point{X: 2000, Y: 5}, z: 1}, true},
		{"behind the flat one", ray{from: geom.Point{X: 38 * inch, Y: 50}, to: geom.Point{X: 2000, Y: 50}, z: 20}, false},
		{"through the flat one", ray{from: geom.Point{X: 38 * inch, Y: 50}, to: geom.Point{X: 2000, Y: 50}, z: 18}, true},
	} {
		if got := w.woods.hit(c.r) < 1; got != c.want {
			t.Errorf("%s: hit %v", c.name, got)
		}
	}
}

// A driver of 7 1/2 in, its bit 2 in, 1 1/8 in to its outside, on the floor of
// a square opening of 18 1/2 in with a square standing on its corner above.
func TestDriverFits(t *testing.T) {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.regular("d", 4, 4.25, oneByFour)
	m.at("A", "k", 0, 0)
	m.places = append(m.places, layout.Place{ID: "D", Kind: "d", Turn: unit.FromDegrees(45), At: &geom.Point{X: 10 * inch, Y: 14 * inch}})
	l, b := m.build(t)
	w := newWork(l, b, Settings{})
	for _, c := range []struct {
		x, screw float64
		want     bool
	}{
		{5, 1.25, true},
		{0.75 + 1.2, 1.25, true},
		{0.75 + 1.0, 1.25, false}, // a flank is in the wall
		{10, 0.70, true},          // the corner is 10.245 in above the floor
		{10, 0.80, false},         // it is in front of the axis; both flanks pass under its sides
		{10, 1.00, false},
	} {
		l := lane{at: geom.Point{X: c.x * inch, Y: 0.75 * inch}, out: geom.Point{Y: 1}, dir: geom.Point{X: 1}, z: 40}
		if got := w.fits(l, w.rules.Driver, c.screw*inch, w.room(l)); got != c.want {
			t.Errorf("a screw of %.2f in at %g in: fits %v (room %.2f)", c.screw, c.x, got, w.room(l)/inch)
		}
	}
}

// long says whether a stretch of the ray from t on is in wood all the way.
func (w *work) long(r ray, t, share float64) bool {
	for i := 1; i <= 8; i++ {
		s := t + share*float64(i)/8
		if s > 1 || !w.in(r.from.Lerp(r.to, s), r.z+s*r.dz) {
			return false
		}
	}
	return true
}

// The driver is laid out as a rectangle, bit end at the head, and must pass
// between face and board opposite until it is out of the open side.
func TestSlantLeavesByTheOpenSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tool := Tool{Length: 190, Bit: rapid.Float64Range(10, 60).Draw(t, "bit"), Half: rapid.Float64Range(5, 35).Draw(t, "half")}
		a := unit.FromDegrees(rapid.Float64Range(5, 60).Draw(t, "slant"))
		depth, room := rapid.Float64Range(10, 80).Draw(t, "depth"), rapid.Float64Range(50, 400).Draw(t, "room")
		// out from the face is x, from the head towards the open side y.
		sin, cos := math.Sincos(float64(a))
		at := func(along, beside float64) (x, y float64) { return along*cos + beside*sin, along*sin - beside*cos }
		ok := true
		for i := range 2001 {
			along := float64(i)
			if x, y := at(along, tool.Half); y < depth && x > room {
				ok = false
			}
		}
		if x, _ := at(tool.Bit, -tool.Half); x < 0 {
			ok = false
		}
		if got := tool.leaves(a, depth, room); got != ok {
			// On the very edge walking by steps of 1 mm cannot tell.
			edge := (depth*cos + tool.Half) / sin
			if math.Abs(edge-room) > 2 && math.Abs(tool.Bit*cos-tool.Half*sin) > 1e-6 {
				t.Fatalf("leaves %v, walking %v", got, ok)
			}
		}
	})
}

func TestDirection(t *testing.T) {
	for want, degrees := range map[string][]float64{
		"up": {90, 89.5, 90.5}, "down": {-90, 270}, "to the right": {0, 0.5, -0.5}, "to the left": {180, -180, 179.5, 180.5},
		"up to the right": {30, 60, 2}, "up to the left": {150, 91.5}, "down to the left": {210, -120}, "down to the right": {-30, 330},
	} {
		for _, d := range degrees {
			s, c := math.Sincos(d * math.Pi / 180)
			if got := direction(geom.Point{X: c, Y: s}); got != want {
				t.Errorf("%g degrees: %s, want %s", d, got, want)
			}
		}
	}
}

func TestWayFromTheBack(t *testing.T) {
	l, p := stacked(6, 6, oneByFour).fix(t, Settings{})
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.at("L", "k", 0, 30)
	m.at("R", "k", 20, 30)
	_, q := m.fix(t, Settings{})
	up, level := p.Seams[0].Fasteners[0], q.Seams[0].Fasteners[0]
	if up.Way != "up, from the front" || up.WayFrom(Front) != up.Way || up.WayFrom(Back) != up.Way {
		t.Errorf("%s, from the back %s\n%s", up.Way, up.WayFrom(Back), text(l, p))
	}
	other := map[string]string{"to the left": "to the right", "to the right": "to the left"}
	if level.WayFrom(Front) != level.Way || level.WayFrom(Back) != other[level.Way] {
		t.Errorf("%s, from the back %s", level.Way, level.WayFrom(Back))
	}
	if f := (Fastener{Way: "from the back"}); f.WayFrom(Back) != "from the back" {
		t.Errorf("a plate's screw goes %s", f.WayFrom(Back))
	}
}
