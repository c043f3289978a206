package fixing

import (
	"math"
	"testing"

	"bowerwright/layout"
)

// Two hexagons of 3/4 in boards on edge, one on the other. By hand: a side is
// flats / sqrt 3, its mitres come in 0.75 tan 30 = 0.433 in over the thickness
// of the board, and a No. 8 wants 10 x 0.164 = 1.64 in (at the least 0.82) from
// there, 1.64 in between two, 0.41 from the edges. 1 1/4 in of screw, 3/4 in of
// board and a gap of 0 leave 1/2 in.
func TestHexagonsByHand(t *testing.T) {
	for _, c := range []struct {
		flats          float64
		angle          bool
		along, depth   []float64
		tool           Reach
		slant          float64
		across, nearer bool
	}{
		// 10.392: 2.073 to 8.319; quarter points. 16 1/2 in of room for 7 1/2 + 2 + 1 1/4.
		{flats: 18, along: []float64{2.598, 7.794}, depth: []float64{1.75, 1.75}, tool: Straight},
		// 6.928: 2.073 to 4.855; the quarter points are outside. 10 1/2 in of room are
		// 1/4 in short; a right-angle head wants 2 1/4 + 1 + 1 1/4.
		{flats: 12, angle: true, along: []float64{2.073, 4.855}, depth: []float64{1.75, 1.75}, tool: Angled},
		// Slanted: at 10 degrees the far flank leaves (1.618 cos 10 + 1.125) / sin 10 = 15.6
		// in out, at 15 (1.549 cos 15 + 1.125) / sin 15 = 10.13, with 10.5 there.
		{flats: 12, along: []float64{2.073, 4.855}, depth: []float64{1.75, 1.75}, tool: AtASlant, slant: 15},
		// 5.196: 10 D leave 1.05 in, 5 D 1.253 to 3.943.
		{flats: 9, angle: true, along: []float64{1.299, 3.897}, depth: []float64{1.75, 1.75}, tool: Angled, nearer: true},
		// 3.464: 5 D leave 0.958 in: no two along; a quarter of 3 1/2 in from either edge.
		// From the front: at 20 degrees (0.602 cos 20 + 1.125) / sin 20 = 4.94, at 25
		// (0.525 cos 25 + 1.125) / sin 25 = 3.79, with 4.5 there.
		{flats: 6, along: []float64{1.732, 1.732}, depth: []float64{0.875, 2.625}, tool: AtASlant, slant: 25, across: true, nearer: true},
	} {
		l, p := stacked(6, c.flats, oneByFour).fix(t, Settings{HasRightAngle: c.angle})
		s := p.Seams[0]
		ok := len(s.Fasteners) == 2 && s.Across == c.across && has(s, NearMitre) == c.nearer
		for i, f := range s.Fasteners {
			ok = ok && near(f.Along/inch, c.along[i], 5e-4) && near(f.Depth/inch, c.depth[i], 5e-4) && f.Tool == c.tool && near(f.Slant.Degrees(), c.slant, 1e-9)
		}
		if !ok {
			t.Errorf("%g in across flats:\n%s", c.flats, text(l, p))
		}
	}
}

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance }

func has(s Seam, n Note) bool {
	for _, m := range s.Notes {
		if m == n {
			return true
		}
	}
	return false
}

// One whole plan as it is read. Three in of plate would do; the widths take 4
// in, so four holes at 3/8 and 1 5/8 in from the seam.
func TestPlansAsText(t *testing.T) {
	l, p := stacked(6, 18, oneByFour).fix(t, Settings{})
	wantText(t, text(l, p), `1 screws seen 0/18 [outside-standard]
  No. 8 x 1 1/4 in A>B up along 2.598 off 0.000 depth 1.750 pen 0.500 spare 0.250 room 16.50 driver slant 0
  No. 8 x 1 1/4 in A>B up along 7.794 off 0.000 depth 1.750 pen 0.500 spare 0.250 room 16.50 driver slant 0
  bag 2 No. 8 x 1 1/4 in
total 2 No. 8 x 1 1/4 in, 1 of 100
`)
	// Bolts: 3/4 + 3/4 + 2 x 1/16 + 7/32 = 1 27/32 in take one of 2 in. Pegs: 3/8 in
	// with 3/4 in to the end beyond 0.5 tan 30 = 0.289, front and back third.
	l, p = stacked(6, 24, oneByFour).fix(t, Settings{Seams: map[int]Choice{1: {Site: true}}})
	wantText(t, text(l, p), `1 bolts seen 18/36 [visible]
  1/4 in bolt x 2 in B>A down along 3.464 off 0.000 depth 1.750 pen 0.750 spare 0.156 room 22.50 spanner slant 0
  1/4 in bolt x 2 in B>A down along 10.392 off 0.000 depth 1.750 pen 0.750 spare 0.156 room 22.50 spanner slant 0
  3/8 in peg x 1 in along 1.039 depth 1.167 into 0.500 0.500
  3/8 in peg x 1 in along 12.818 depth 2.333 into 0.500 0.500
  bag 2 1/4 in bolt x 2 in
  bag 2 1/4 in nut
  bag 4 1/4 in washer
  bag 2 3/8 in peg x 1 in
total 2 1/4 in bolt x 2 in, 1 of 25
total 2 1/4 in nut, 1 of 100
total 2 3/8 in peg x 1 in, 1 of 50
total 4 1/4 in washer, 1 of 100
`)
	l, p = stacked(6, 24, flat).fix(t, Settings{})
	if s := p.Seams[0]; s.Method != Plated || len(s.Plates) != 2 || s.Plates[0].Length != 4*inch || len(s.Fasteners) != 8 ||
		!near(math.Abs(s.Fasteners[0].Off), 3*inch/8, 1e-9) || !near(math.Abs(s.Fasteners[1].Off), 13*inch/8, 1e-9) {
		t.Errorf("plates:\n%s", text(l, p))
	}
	for _, f := range p.Seams[0].Fasteners {
		if second := l.Seams[0].Sides[1].Frame; (f.Off > 0) != (f.Head == second) {
			t.Errorf("a screw in %s is %.3f in towards the second side", l.Frames[f.Head].ID, f.Off/inch)
		}
	}
	// Counterbores: 7 in of wood, a 6 in bolt grips 5 21/32 between two washers and
	// its nut: 43/64 in deep each.
	l, p = stacked(6, 24, flat).fix(t, Settings{Flat: CounterboredBolts})
	if f := p.Seams[0].Fasteners[0]; f.Name != "1/4 in bolt x 6 in" || f.Holes.Bore != 43*inches/64 || f.Depth != 3*inch/8 || has(p.Seams[0], NearEdge) {
		t.Errorf("counterbores:\n%s", text(l, p))
	}
	// Inserts of 1/2 in: 1 1/4 in less 1/16 and 3/4 goes 7/16 in deep; 1 1/2 in would
	// go 11/16 and stand on the bottom of the hole.
	l, p = stacked(6, 24, oneByFour).fix(t, Settings{Often: true, Inserts: true})
	if f := p.Seams[0].Fasteners[0]; p.Seams[0].Method != Inserted || f.Name != "1/4 in bolt x 1 1/4 in" || !near(f.Penetration, 7*inch/16, 1e-9) || f.Holes.Stop != inches/2 || p.Seams[0].Seen != 0 {
		t.Errorf("inserts:\n%s", text(l, p))
	}
}

func wantText(t *testing.T, got, want string) {
	t.Helper()
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
}

// A long seam: 60 in takes ceil(60 / 12) = 5 screws, at the middles of five
// equal stretches.
func TestLongSeam(t *testing.T) {
	m := &made{}
	m.box("k", 60, 24, oneByFour)
	m.at("A", "k", 0, 0)
	m.at("B", "k", 0, 24)
	l, p := m.fix(t, Settings{})
	for i, f := range p.Seams[0].Fasteners {
		if !near(f.Along/inch, 6+12*float64(i), 1e-6) || len(p.Seams[0].Fasteners) != 5 {
			t.Fatalf("\n%s", text(l, p))
		}
	}
}

// A flat frame on one of boards on edge: the head is in the thin board, the
// screw a No. 6 (2.5 x 0.138 in is within half of 3/4 in, 2.5 x 0.164 is not),
// 3/8 in behind the front, and 1.38 in deep or more since there is wood enough.
func TestMixed(t *testing.T) {
	m := &made{}
	m.box("edge", 24, 24, oneByFour)
	m.box("flat", 24, 24, flat)
	m.at("E", "edge", 0, 0)
	m.at("F", "flat", 0, 24)
	l, p := m.fix(t, Settings{})
	s := p.Seams[0]
	for _, f := range s.Fasteners {
		if f.Gauge != "No. 6" || l.Frames[f.Head].ID != "E" || f.Depth != 3*inch/8 || f.Penetration < 1.25*inch-1e-6 || f.Way != "up" {
			t.Fatalf("\n%s", text(l, p))
		}
	}
	if !has(s, Mixed) || !has(s, Thinner) {
		t.Errorf("notes %v", s.Notes)
	}
}

// The same, put up often: a bolt through a width is not to be, so an insert goes
// into the edge of the flat board, nearer to its faces than advised.
func TestMixedOften(t *testing.T) {
	m := &made{}
	m.box("edge", 24, 24, oneByFour)
	m.box("flat", 24, 24, flat)
	m.at("E", "edge", 0, 0)
	m.at("F", "flat", 0, 24)
	l, p := m.fix(t, Settings{Often: true})
	if s := p.Seams[0]; s.Method != Inserted || l.Frames[s.Fasteners[0].Head].ID != "E" || !has(s, NearEdge) || !has(s, Mixed) {
		t.Errorf("\n%s", text(l, p))
	}
}

// A small frame on the floor of a big one's opening: the head cannot be on the
// big one's outside unless a driver is there, and there it is: nothing is
// under it on the bench.
func TestFrameInside(t *testing.T) {
	m := &made{}
	m.box("big", 40, 40, oneByFour)
	m.box("small", 12, 12, oneByFour)
	m.at("B", "big", 0, 0)
	m.at("S", "small", 14, 0.75)
	l, p := m.fix(t, Settings{})
	f := p.Seams[0].Fasteners[0]
	if l.Frames[f.Head].ID != "B" || f.Way != "up" || f.Tool != Straight || p.Seams[0].Seen != 0 || !near(f.At.Y, 0, 1e-6) || f.Room != Horizon {
		t.Errorf("\n%s", text(l, p))
	}
}

// The same board carries the screws of two seams, one from outside, one from
// inside: the second pair is moved out of the way of the first.
func TestPathsAreMovedApart(t *testing.T) {
	m := &made{}
	m.box("big", 40, 40, oneByFour)
	m.box("small", 20, 18, oneByFour)
	m.at("B", "big", 0, 0)
	m.at("U", "small", 10, 40)
	m.at("D", "small", 10, 40-0.75-18)
	l, p := m.fix(t, Settings{})
	if len(p.Seams) != 2 || has(p.Seams[0], Moved) == has(p.Seams[1], Moved) {
		t.Fatalf("\n%s", text(l, p))
	}
	a, b := p.Seams[0].Fasteners[0], p.Seams[1].Fasteners[0]
	if near(a.Along, b.Along, 0.01) && math.Abs(a.Depth-b.Depth) < 3*0.164*inch {
		t.Errorf("%s goes into %s\n%s", a.Name, b.Name, text(l, p))
	}
}

// Every figure agrees with the layout: the head of every screw is on the face
// of its frame away from the seam, and its axis meets the seam at Along.
func TestHeadsLieOnTheirFaces(t *testing.T) {
	gapped := &made{gap: 0.6}
	gapped.regular("hex", 6, 12, oneByFour)
	gapped.at("A", "hex", 0, 6)
	gapped.attach("B", "hex", "A", 1, 4)
	gapped.attach("C", "hex", "A", 5, 2)
	for _, m := range []*made{comb(30), gapped} {
		l, b := m.build(t)
		p, problems := Fix(l, b, Settings{})
		if len(problems) > 0 || len(p.Seams) != len(l.Seams) {
			t.Fatal(problems)
		}
		for _, s := range p.Seams {
			headsOnFaces(t, l, s)
		}
	}
}

func headsOnFaces(t *testing.T, l layout.Layout, s Seam) {
	ls := l.Seams[s.Index]
	for _, f := range s.Fasteners {
		if d := l.Frames[f.Head].Inside.BoundaryDist(f.At); d > 1e-6 {
			t.Errorf("seam %d: a head %g mm off the inside of its frame", s.Number, d)
		}
		at := ls.From.Lerp(ls.To, f.Along/ls.Length)
		if off := math.Abs(at.Sub(f.At).Cross(f.Axis)); off > 1e-6 {
			t.Errorf("seam %d: the axis passes %g mm beside its place", s.Number, off)
		}
	}
}

// What nobody sees is decided by the room in front of the heads: 38 1/2 in
// above the seam, 18 1/2 in below it.
func TestMoreRoomDecidesUnseen(t *testing.T) {
	m := &made{}
	m.box("low", 20, 20, oneByFour)
	m.box("high", 20, 40, oneByFour)
	m.at("L", "low", 0, 0)
	m.at("H", "high", 0, 20)
	l, p := m.fix(t, Settings{DressedBelow: 200 * inches})
	if f := p.Seams[0].Fasteners[0]; f.Way != "down" || l.Frames[f.Head].ID != "H" {
		t.Errorf("\n%s", text(l, p))
	}
}

// With all else equal both seams have their heads towards the middle.
func TestLikeHalvesAreFixedAlike(t *testing.T) {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.at("L", "k", 0, 0)
	m.at("M", "k", 20, 0)
	m.at("R", "k", 40, 0)
	l, p := m.fix(t, Settings{DressedBelow: 200 * inches})
	for _, s := range p.Seams {
		if l.Frames[s.Fasteners[0].Head].ID != "M" {
			t.Errorf("\n%s", text(l, p))
		}
	}
}

// Screws not bored for want 15 D between two: 2.46 in. In a side of 4 in the
// quarter points are 2 in apart, so both go outwards by 0.23 in, clear of the
// 0.82 in at either end.
func TestPushedApartToThePitch(t *testing.T) {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.box("s", 4.2, 20, oneByFour)
	m.at("A", "k", 0, 0)
	m.at("B", "s", 8, 20)
	r := workWith(Settings{}).rules
	r.Pitch = 15
	r.EndLeast = 0.5
	l, p := m.fix(t, Settings{Rules: r})
	f := p.Seams[0].Fasteners
	if len(f) != 2 || !near((f[1].Along-f[0].Along)/inch, 2.46, 1e-9) || !near((f[1].Along+f[0].Along)/inch, 4.2, 1e-9) {
		t.Errorf("\n%s", text(l, p))
	}
}

// 0.6 in boards: a 1 1/4 in bolt would go 1.25 - 1/16 - 0.6 = 0.5875 in deep and
// leave less than 1/16 in; 1 in goes 0.3375 in, over a diameter.
func TestInsertInThinBoards(t *testing.T) {
	l, p := stacked(6, 24, board(0.6, 3.5, true)).fix(t, Settings{Often: true, Inserts: true})
	if f := p.Seams[0].Fasteners[0]; f.Name != "1/4 in bolt x 1 in" || !near(f.Penetration/inch, 0.3375, 1e-9) {
		t.Errorf("\n%s", text(l, p))
	}
}

// Boards of 1 1/2 in leave 0.34 in across for a No. 8, two diameters: too
// little to pass another, so the second pair moves along the seam.
func TestNarrowBoardsMoveAlong(t *testing.T) {
	m := &made{}
	narrow := board(0.75, 1.5, true)
	m.box("big", 40, 40, narrow)
	m.box("small", 20, 18, narrow)
	m.at("B", "big", 0, 0)
	m.at("U", "small", 10, 40)
	m.at("D", "small", 10, 40-0.75-18)
	l, p := m.fix(t, Settings{})
	a, b := p.Seams[0].Fasteners[0], p.Seams[1].Fasteners[0]
	if a.Depth != 0.75*inch || b.Depth != 0.75*inch || math.Abs(a.Along-b.Along) < 4*0.164*inch-1e-9 {
		t.Errorf("\n%s", text(l, p))
	}
}

// With 4 D = 0.656 in to the edges of a board 2.2 in wide, two across the depth
// are 0.444 in from its middle and not a quarter of the width.
func TestTwoAcrossKeepFromTheEdges(t *testing.T) {
	r := workWith(Settings{}).rules
	r.Edge = 4
	l, p := stacked(6, 6, board(0.75, 2.2, true)).fix(t, Settings{Rules: r, HasRightAngle: true, RightAngle: Tool{Length: inch, Half: inch / 2}})
	f := p.Seams[0].Fasteners
	if !p.Seams[0].Across || !near(f[0].Depth/inch, 0.656, 1e-9) || !near(f[1].Depth/inch, 1.544, 1e-9) {
		t.Errorf("\n%s", text(l, p))
	}
}
