package layout

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// A 400 wide box on a 1000 wide one, side 1 on side 3, which runs from right to
// left: its start is the right end.
func TestAlignments(t *testing.T) {
	kinds := []Kind{rectangle("wide", 1000, 300), rectangle("box", 400, 200)}
	for _, c := range []struct {
		align    Align
		shift    float64
		mirror   bool
		left     float64 // of the box
		from, to float64 // contact along the wide one's side
	}{
		{Centred, 0, false, 300, 300, 700},
		{FlushStart, 0, false, 600, 0, 400},
		{FlushEnd, 0, false, 0, 600, 1000},
		{FlushStart, 50, false, 550, 50, 450},
		{FlushEnd, -120.5, false, 120.5, 479.5, 879.5},
		{FlushEnd, 150, false, -150, 750, 1000},
		{Centred, -25, true, 325, 275, 675},
		{FlushStart, 10, true, 590, 10, 410},
	} {
		p := on("B", "box", Attach{To: "A", Side: 1, ToSide: 3, Align: c.align, Shift: c.shift})
		p.Mirror = c.mirror
		l := lay(t, kinds, []Place{at("A", "wide", 0, 0), p}, Settings{Gap: 0.5})
		name := fmt.Sprintf("%+v", c)
		a, b := l.frame(t, "A"), l.frame(t, "B")
		wantNear(t, name+": left", b.Box.Min.X-a.Box.Min.X, c.left, 1e-9)
		wantNear(t, name+": height", b.Box.Min.Y, 300.5, 1e-9)
		if len(l.Seams) != 1 {
			t.Fatalf("%s: %d seams", name, len(l.Seams))
		}
		for _, side := range l.Seams[0].Sides {
			if l.Frames[side.Frame].ID == "A" {
				wantNear(t, name+": from", side.From, c.from, 1e-9)
				wantNear(t, name+": to", side.To, c.to, 1e-9)
			}
		}
		if l.Seams[0].Flush {
			t.Errorf("%s: flush", name)
		}
	}
}

// On a mirrored frame a side still starts at the corner with its number.
func TestFlushStartOfAMirroredFrame(t *testing.T) {
	kinds := []Kind{rectangle("wide", 1000, 300), rectangle("box", 400, 200)}
	a := at("A", "wide", 0, 0)
	a.Mirror = true // lies from -1000 to 0; side 3 runs from left to right
	l := lay(t, kinds, []Place{a, on("B", "box", Attach{To: "A", Side: 1, ToSide: 3, Align: FlushStart})}, Settings{})
	wantNear(t, "left end of the box", l.frame(t, "B").Box.Min.X, 0, 1e-9)
	if got := seamList(l); got != "A.3 B.1 400.00" {
		t.Error(got)
	}
}

func TestCornerOnCorner(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	p := on("B", "sq", Attach{To: "A", Corner: 1, ToCorner: 3})
	p.Turn = unit.FromDegrees(10)
	l := lay(t, kinds, []Place{at("A", "sq", 0, 0), p}, Settings{Gap: 1})
	wantPoint(t, "corner", l.frame(t, "B").Outside[0], l.frame(t, "A").Outside[2], 1e-9)
	if len(l.Touches) != 1 || len(l.Seams)+len(l.Misses)+len(l.Overlaps) != 0 {
		t.Fatalf("touches %v, misses %v, overlaps %v", l.Touches, l.Misses, l.Overlaps)
	}
	wantPoint(t, "touch", l.Touches[0].At, l.frame(t, "A").Outside[2], 1e-9)
	if len(l.Groups) != 2 {
		t.Errorf("a corner joins nothing: groups %v", l.Groups)
	}
}

// A tree of regular polygons, each on a side of an earlier one: the contact is
// what two intervals on a line have in common, all by hand.
func TestContactOfRandomTrees(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		gap := rapid.Float64Range(0, 2).Draw(r, "gap")
		kinds := []Kind{}
		for n := 3; n <= 8; n++ {
			kinds = append(kinds, regular(fmt.Sprint("k", n), n, rapid.Float64Range(150, 600).Draw(r, "side")))
		}
		places := []Place{at("0", "k6", 0, 0)}
		places[0].Mirror = rapid.Bool().Draw(r, "mirror")
		places[0].Turn = unit.Angle(rapid.Float64Range(-3, 3).Draw(r, "turn"))
		want := []float64{0}
		sidesOf := []int{6}
		for i := 1; i < 6; i++ {
			n := rapid.IntRange(3, 8).Draw(r, "n")
			to := rapid.IntRange(0, i-1).Draw(r, "to")
			a := Attach{
				To:     fmt.Sprint(to),
				Side:   rapid.IntRange(1, n).Draw(r, "side no"),
				ToSide: rapid.IntRange(1, sidesOf[to]).Draw(r, "their side"),
				Align:  Align(rapid.IntRange(0, 2).Draw(r, "align")),
				Shift:  rapid.Float64Range(-200, 200).Draw(r, "shift"),
			}
			p := on(fmt.Sprint(i), fmt.Sprint("k", n), a)
			p.Mirror = rapid.Bool().Draw(r, "mirror")
			places, sidesOf = append(places, p), append(sidesOf, n)
			want = append(want, common(sideLength(kinds[n-3]), sideLength(kinds[sidesOf[to]-3]), a))
		}
		l, _ := Build(kinds, places, Settings{Gap: gap})
		for i := 1; i < len(places); i++ {
			a := places[i].Attach[0]
			s, found := seamBetween(l, places[i].ID, a.Side, a.To, a.ToSide)
			if found != (want[i] >= LeastSeam) {
				r.Fatalf("seam of %d found: %v, contact by hand %g", i, found, want[i])
			}
			if found && (!near(s.Length, want[i], 1e-6) || !near(s.Gap, gap, 1e-6)) {
				r.Fatalf("seam of %d is %g long with gap %g, want %g and %g", i, s.Length, s.Gap, want[i], gap)
			}
		}
	})
}

func sideLength(k Kind) float64 { return k.Outside[0].Dist(k.Outside[1]) }

// common is the overlap of [0, theirs] with the interval the attachment puts ours on.
func common(ours, theirs float64, a Attach) float64 {
	start := a.Shift
	switch a.Align {
	case Centred:
		start += (theirs - ours) / 2
	case FlushEnd:
		start += theirs - ours
	}
	return min(start+ours, theirs) - max(start, 0)
}

func seamBetween(l Layout, id string, side int, to string, toSide int) (Seam, bool) {
	for _, s := range l.Seams {
		a, b := s.Sides[0], s.Sides[1]
		if l.Frames[a.Frame].ID != id {
			a, b = b, a
		}
		if l.Frames[a.Frame].ID == id && a.Side == side && l.Frames[b.Frame].ID == to && b.Side == toSide {
			return s, true
		}
	}
	return Seam{}, false
}

func TestLoopThatDoesNotClose(t *testing.T) {
	kinds, places := cluster()
	places[3].Attach[1].Shift = 3.2 // along the medium's side 1, to the right
	_, problems := Build(kinds, places, Settings{})
	if len(problems) != 1 || problems[0].Code != LoopOpen || problems[0].Frame != "S1" || problems[0].Attach != 1 || problems[0].Name != "M1" {
		t.Fatalf("%+v", problems)
	}
	wantPoint(t, "the frame lies off by", problems[0].Off, geom.Point{X: -3.2}, 1e-9)
	wantNear(t, "turned by", float64(problems[0].OffTurn), 0, 1e-12)
}

func TestLoopOpenByAVectorAndATurn(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	b := at("B", "sq", 305, -2)
	b.Turn = unit.FromDegrees(0.5)
	b.Attach = []Attach{{To: "A", Side: 4, ToSide: 2}}
	_, problems := Build(kinds, []Place{b, at("A", "sq", 0, 0)}, Settings{})
	if len(problems) != 1 || problems[0].Code != LoopOpen {
		t.Fatalf("%+v", problems)
	}
	// The middle of side 4 is 150 left of B's centre, before the turn.
	s, c := math.Sincos(0.5 * math.Pi / 180)
	wantPoint(t, "off", problems[0].Off, geom.Point{X: 5 + 150*(1-c), Y: -2 - 150*s}, 1e-9)
	wantNear(t, "turn in degrees", problems[0].OffTurn.Degrees(), 0.5, 1e-9)
}

// A loop is open from just over the joint tolerance on, not before.
func TestLoopTolerance(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	for _, c := range []struct {
		off  float64
		open bool
		turn float64 // degrees about B's lower left corner, where side 4 ends
	}{{0.99, false, 0}, {1.01, true, 0}, {-0.99, false, 0}, {-1.01, true, 0}, {0, false, -0.18}, {0, true, -0.2}} {
		b := at("B", "sq", 300, c.off)
		b.Turn = unit.FromDegrees(c.turn)
		corner := geom.Point{X: -150, Y: -150}
		b.At = &geom.Point{X: 300, Y: c.off}
		*b.At = b.At.Add(corner).Sub(corner.Rot(float64(b.Turn)))
		b.Attach = []Attach{{To: "A", Side: 4, ToSide: 2}}
		_, problems := Build(kinds, []Place{at("A", "sq", 0, 0), b}, Settings{JointTolerance: 1})
		if open := len(problems) == 1; open != c.open {
			t.Errorf("off by %g, turned by %g: open %v", c.off, c.turn, open)
		}
	}
}

func TestDirection(t *testing.T) {
	tenth := func(mm float64) string { return fmt.Sprintf("%.4g mm", math.Round(mm*10)/10) }
	for want, off := range map[string]geom.Point{
		"3.2 mm to the right and 1 mm down": {X: 3.2, Y: -1},
		"0.5 mm to the left":                {X: -0.5, Y: 0.04},
		"12 mm up":                          {X: 0.01, Y: 12},
		"":                                  {X: 0.01, Y: -0.01},
	} {
		if got := Direction(off, tenth); got != want {
			t.Errorf("%v is %q, want %q", off, got, want)
		}
	}
}

// One run finds everything that is wrong, and lays out the rest.
func TestProblemsAllAtOnce(t *testing.T) {
	nan := math.NaN()
	kinds := []Kind{
		regular("hex", 6, 300), archOf("arch", 900, 2000), regular("hex", 4, 10),
		{Name: "line", Outside: make(geom.Polygon, 2), Inside: make(geom.Polygon, 2)},
		{Name: "odd", Outside: make(geom.Polygon, 4), Inside: make(geom.Polygon, 3)},
	}
	gone := at("G", "hex", nan, 0)
	corner := on("O", "hex", Attach{To: "A", Corner: 7, ToCorner: 1})
	places := []Place{
		at("A", "hex", 0, 0),
		at("A", "hex", 5000, 0),
		at("C", "circle", 0, 0),
		on("D", "hex", Attach{To: "nobody", Side: 1, ToSide: 1}),
		on("E", "hex", Attach{To: "A", Side: 7, ToSide: 0}),
		{ID: "F", Kind: "hex"},
		gone,
		on("H", "hex", Attach{To: "I", Side: 1, ToSide: 1}),
		on("I", "hex", Attach{To: "H", Side: 1, ToSide: 1}),
		on("J", "hex", Attach{To: "I", Side: 1, ToSide: 2}),
		on("K", "hex", Attach{To: "K", Side: 1, ToSide: 2}),
		on("L", "arch", Attach{To: "A", Side: 4, ToSide: 1}),
		on("M", "hex", Attach{To: "A", Side: 1, ToSide: 4, Shift: nan}),
		at("N", "odd", 0, 0),
		corner,
		on("P", "hex", Attach{To: "A", Side: 1, ToSide: 4}),
	}
	l, problems := Build(kinds, places, Settings{})
	want := "kind-twice::-1 kind-shape::-1 kind-shape::-1 frame-twice:A:-1 kind-unknown:C:-1 frame-unknown:D:0 " +
		"side-unknown:E:0 side-unknown:E:0 frame-unplaced:F:-1 number-bad:G:-1 side-open:L:0 number-bad:M:0 " +
		"corner-unknown:O:0 attach-cycle:H:0 attach-cycle:K:0"
	if got := codes(problems); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if len(l.Frames) != 2 || l.Frames[1].ID != "P" || l.Frames[1].Place != 15 {
		t.Errorf("%d frames laid out, want A and P", len(l.Frames))
	}
	if e := problems[6]; e.Number != 7 || e.Most != 6 || e.Name != "E" {
		t.Errorf("%+v", e)
	}
}

func TestNothingPlaced(t *testing.T) {
	l, problems := Build(nil, nil, Settings{})
	if codes(problems) != "nothing-placed::-1" || len(l.Frames) != 0 {
		t.Errorf("%v", problems)
	}
}

// What hangs on a ring is not reported again, and a ring once.
func TestRingOfThree(t *testing.T) {
	kinds := []Kind{regular("hex", 6, 300)}
	a := func(id, to string) Place { return on(id, "hex", Attach{To: to, Side: 1, ToSide: 4}) }
	_, problems := Build(kinds, []Place{a("T", "C"), a("A", "B"), a("B", "C"), a("C", "A"), at("Z", "hex", 0, 0)}, Settings{})
	if len(problems) != 1 || fmt.Sprint(problems[0].Frames) != "[C A B]" {
		t.Errorf("%+v", problems)
	}
}

// Two squares side by side on a board of twice their width, one flush at each
// end: the gap of the seam between them is no open loop, three gaps would be.
func TestLoopTakesUpGaps(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300), {Name: "long", Outside: geom.Polygon{{X: 0}, {X: 600}, {X: 600, Y: 200}, {X: 0, Y: 200}},
		Inside: geom.Polygon{{X: 10, Y: 10}, {X: 590, Y: 10}, {X: 590, Y: 190}, {X: 10, Y: 190}}}}
	for shift, open := range map[float64]bool{0: false, 1: false, 3: true} {
		_, problems := Build(kinds, []Place{at("L", "long", 0, 0),
			{ID: "A", Kind: "sq", Attach: []Attach{{To: "L", Side: 1, ToSide: 3, Align: FlushEnd}}},
			{ID: "B", Kind: "sq", Attach: []Attach{{To: "A", Side: 4, ToSide: 2}, {To: "L", Side: 1, ToSide: 3, Align: FlushStart, Shift: shift}}},
		}, Settings{Gap: 1, JointTolerance: 1})
		if got := len(problems) > 0; got != open {
			t.Errorf("shifted by %g: %v", shift, problems)
		}
	}
}
