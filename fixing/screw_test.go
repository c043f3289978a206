package fixing

import (
	"math"
	"testing"

	"bowerwright/stock"
	"bowerwright/unit"
)

const (
	mm  = unit.Millimetre
	ply = 71875 * unit.Inch / 100000 // real 23/32 in plywood
)

// Common practice, no source, and plain arithmetic: two 3/4 in boards take 1
// 1/4 in, 1 5/8 comes out 1/8; two of real 23/32 ply let 1 1/2 poke out 1/16.
func TestPointOut(t *testing.T) {
	for _, c := range []struct{ length, sink, first, second, want unit.Length }{
		{13 * inches / 8, 0, 3 * inches / 4, 3 * inches / 4, inches / 8},
		{3 * inches / 2, 0, ply, ply, inches / 16},
		{5 * inches / 4, 0, 3 * inches / 4, 3 * inches / 4, -inches / 4},
		{5 * inches / 4, inches / 16, 3 * inches / 4, 3 * inches / 4, -3 * inches / 16},
		{30 * mm, 0, 18 * mm, 18 * mm, -6 * mm},
	} {
		if got := PointOut(c.length, c.sink, c.first, c.second); got != c.want {
			t.Errorf("%v into %v and %v: %v out, want %v", c.length, c.first, c.second, got, c.want)
		}
	}
}

// workWith is a run without a layout.
func workWith(s Settings) *work {
	m := stacked(6, 24, oneByFour)
	l, p := layoutOf(m)
	return newWork(l, p, s)
}

func boards(first, second float64) contact {
	var c contact
	c.sides[0].thick, c.sides[1].thick = first, second
	return c
}

func TestLengthOfScrew(t *testing.T) {
	for _, c := range []struct {
		name, screw   string
		first, second float64
		gap           float64
		rules         func(*Rules)
		want          string
		penetration   float64
	}{
		{name: "18 + 18 mm takes 30 (public makers' rule)", screw: "4 mm", first: 18, second: 18, want: "4 x 30 mm", penetration: 12},
		{name: "3/4 + 3/4 in takes 1 1/4 (common practice)", screw: "No. 8", first: .75 * inch, second: .75 * inch, want: "No. 8 x 1 1/4 in", penetration: .5 * inch},
		{name: "the gap counts against the hold", screw: "No. 8", first: .75 * inch, second: .75 * inch, gap: inch / 16, want: "No. 8 x 1 1/4 in", penetration: 7 * inch / 16},
		{name: "and not for the point", screw: "No. 8", first: .75 * inch, second: .75 * inch, gap: inch / 8, want: "No. 8 x 1 1/4 in", penetration: 3 * inch / 8},
		{name: "a real 23/32 board", screw: "No. 8", first: ply.MM(), second: ply.MM(), want: "No. 8 x 1 1/4 in", penetration: 1.25*inch - ply.MM()},
		{name: "a sunk head brings the point on", screw: "No. 8", first: .75 * inch, second: .75 * inch, rules: func(r *Rules) { r.Sink = inch / 4 }, want: "No. 8 x 1 in", penetration: .5 * inch},
		{name: "a thick second board takes 10 D and no more", screw: "No. 8", first: .75 * inch, second: 3.5 * inch, want: "No. 8 x 2 1/2 in", penetration: 1.75 * inch},
		{name: "2 x 1 1/2", screw: "No. 8", first: 1.5 * inch, second: 1.5 * inch, want: "No. 8 x 2 1/2 in", penetration: inch},
		{name: "nothing holds in 1/4 in", screw: "No. 8", first: .75 * inch, second: .25 * inch, want: ""},
		{name: "just two diameters", screw: "No. 8", first: .75 * inch, second: .33 * inch, rules: func(r *Rules) { r.Keep = 0; r.Hold = .25 / .164 }, want: "No. 8 x 1 in", penetration: .25 * inch},
	} {
		w := workWith(Settings{})
		if c.rules != nil {
			c.rules(&w.rules)
		}
		g, ok := w.gauge(c.screw)
		if !ok {
			t.Fatal(c.screw)
		}
		b := boards(c.first, c.second)
		b.gap = c.gap
		f, ok := w.fit(g, b, 0, 0)
		if f.Name != c.want || ok != (c.want != "") {
			t.Errorf("%s: %q, want %q", c.name, f.Name, c.want)
		}
		if ok && math.Abs(f.penetration-c.penetration) > 1e-6 {
			t.Errorf("%s: penetration %.4f in, want %.4f", c.name, f.penetration/inch, c.penetration/inch)
		}
	}
}

// By hand: at 30 degrees a 1 1/2 in screw through 3/4 in of board has
// 1.5 - 0.75/cos 30 = 0.634 in left, and its point is 1.5 cos 30 = 1.299 deep,
// 0.201 short of the far face of two boards.
func TestSlantedLength(t *testing.T) {
	w := workWith(Settings{})
	g, _ := w.gauge("No. 8")
	f, ok := w.fit(g, boards(.75*inch, .75*inch), 0, unit.FromDegrees(30))
	if !ok || f.Name != "No. 8 x 1 5/8 in" {
		t.Fatalf("got %q", f.Name)
	}
	// 1 5/8: 1.625 cos 30 = 1.4073, 0.0927 left of 1.5, and 1.625 - 0.8660 in.
	if math.Abs(f.spare/inch-.0927) > 1e-4 || math.Abs(f.penetration/inch-.7590) > 1e-4 || math.Abs(f.first/inch-.8660) > 1e-4 {
		t.Errorf("spare %.4f, penetration %.4f, first %.4f", f.spare/inch, f.penetration/inch, f.first/inch)
	}
}

// Diameters computed from the roots of NDS Appendix L3 (second-hand): 70 % and
// 90 % of the root.
func TestPilots(t *testing.T) {
	c := stock.BuiltIn()
	for name, want := range map[string][2]float64{"No. 6": {.079, .102}, "No. 8": {.092, .118}, "No. 10": {.106, .137}} {
		s, _ := c.Screw(name)
		soft, hard := Pilot(s.Root, 0.36).Inches(), Pilot(s.Root, 0.67).Inches()
		if math.Abs(soft-want[0]) > .0005 || math.Abs(hard-want[1]) > .0005 {
			t.Errorf("%s: %.4f and %.4f, want %v", name, soft, hard, want)
		}
		if Pilot(s.Root, 0) != Pilot(s.Root, 0.6) {
			t.Errorf("%s: timber of unknown gravity is taken as hard", name)
		}
	}
}

// Drills as sold: a No. 8 takes an 11/64 clearance and a 3/32 pilot (common
// practice, no source), a 4 mm screw 4.5 mm and 2 mm: it is sold by the
// outside of its thread, which binds in 4 mm.
func TestHoles(t *testing.T) {
	w := workWith(Settings{})
	for _, c := range []struct {
		screw            string
		gravity          float64
		clearance, pilot unit.Length
		thread           string
	}{
		{"No. 8", 0.36, 11 * inches / 64, 3 * inches / 32, "coarse"},
		{"No. 8", 0.67, 11 * inches / 64, 8 * inches / 64, "fine"},
		{"No. 6", 0.42, 9 * inches / 64, 5 * inches / 64, "coarse"},
		{"No. 10", 0.55, 13 * inches / 64, 7 * inches / 64, "coarse"},
		{"4 mm", 0.42, 9 * mm / 2, 2 * mm, "coarse"},
		{"3.5 mm", 0.42, 4 * mm, 3 * mm / 2, "coarse"},
	} {
		g, _ := w.gauge(c.screw)
		f, _ := w.fit(g, boards(19, 19), 0, 0)
		h := w.holes(g.Screw, f, c.gravity)
		if h.Clearance != c.clearance || h.Pilot != c.pilot || h.Thread != c.thread || h.Sink != g.Head || h.Stop != f.Length {
			t.Errorf("%s at %g: %+v", c.screw, c.gravity, h)
		}
		if h.Clearance < g.Diameter || h.Pilot >= g.Root || h.Source == "" {
			t.Errorf("%s: clearance under the diameter, pilot over the root or no source: %+v", c.screw, h)
		}
	}
}

// 1 in holds by 1/4 in, under two diameters; 1 1/2 in comes out flush.
func TestLengthsAtHand(t *testing.T) {
	m := stacked(6, 24, oneByFour)
	l, b := m.build(t)
	plan, problems := Fix(l, b, Settings{Lengths: []unit.Length{inches, 3 * inches / 2}})
	if len(plan.Seams) != 0 || len(problems) != 1 || problems[0].Code != NoLength {
		t.Errorf("%v\n%s", problems, text(l, plan))
	}
	_, plan = m.fix(t, Settings{Lengths: []unit.Length{9 * inches / 8, 5 * inches / 4, 3 * inches / 2}})
	if got := plan.Seams[0].Fasteners[0].Name; got != "No. 8 x 1 1/4 in" {
		t.Errorf("took %s", got)
	}
}

func TestDrillStep(t *testing.T) {
	if drillStep(4*mm) != mm/2 || drillStep(164*inches/1000) != inches/64 {
		t.Error("drills of the wrong system")
	}
}
