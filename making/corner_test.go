package making

import (
	"math"
	"testing"

	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/stock"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// corners makes one frame with a choice of corner and gives what it takes.
func corners(t *testing.T, f frame.Frame, c Corner) []Piece {
	t.Helper()
	return plan(t, Shop{}, Kind{Name: "it", Frame: f, Count: 1, Corner: c}).Kinds[0].Corners.Pieces
}

func TestGlueAloneTakesNothing(t *testing.T) {
	if got := corners(t, hexagon(t, 18, oneByFour), GlueAlone); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// In 3/4 in boards the middle of a square mitre is 3/8 in from the tip, and the
// longest brad runs along inside the other part. A hexagon's is 3/8 x tan 30° =
// 0.217 in from it, and a brad comes out after (0.75 - 0.217 sin 60°) / cos 60° =
// 1.125 in: 1 in fits. A ring of twelve has 3/8 x tan 15° = 0.1 in: refused.
func TestBrads(t *testing.T) {
	for _, c := range []struct {
		f    frame.Frame
		at   float64
		name string
	}{{regular(t, 4, 12, oneByFour), 0.375, "18 gauge brad x 1 1/4 in"}, {hexagon(t, 18, oneByFour), 0.375 / math.Sqrt(3), "18 gauge brad x 1 in"}} {
		got := corners(t, c.f, Brads)
		if len(got) != len(c.f.Parts) {
			t.Fatalf("%+v", got)
		}
		for i, p := range got {
			if p.Corner != i+1 || p.Count != 2 || p.Name != c.name {
				t.Errorf("%+v", p)
			}
			wantNear(t, "from the tip", p.At, c.at*in, 1e-6)
		}
	}
	if got := codes(t, Shop{}, layout.Layout{}, Kind{Name: "ring", Frame: regular(t, 12, 7, oneByFour), Count: 1, Corner: Brads}); got != string(BradRoom) {
		t.Errorf("ring: %q", got)
	}
}

// Brute force: a walk along a brad through the parts as built, in steps of 0.01
// mm, crosses the mitre before its end and never comes out.
func TestBradsByWalking(t *testing.T) {
	r := builtIn()
	r.Corner.BradEnd = in / 8 // so that shallow mitres are walked too
	shapes := map[string]frame.Frame{
		"square": regular(t, 4, 12, oneByFour), "hexagon": hexagon(t, 18, oneByFour), "triangle": regular(t, 3, 14, oneByFour),
		"house": house(t, oneByFour), "five": regular(t, 5, 12, oneByFour), "thick": hexagon(t, 18, thick),
	}
	for name, f := range shapes {
		p, problems, err := Make([]Kind{{Name: name, Frame: f, Count: 1, Corner: Brads}}, layout.Layout{}, Shop{Rates: r})
		if err != nil || len(problems) > 0 || len(p.Kinds[0].Corners.Pieces) != len(f.Parts) {
			t.Fatalf("%s: %+v, %v", name, problems, err)
		}
		for _, piece := range p.Kinds[0].Corners.Pieces {
			before, after := partsAt(f, piece.Corner)
			corner := f.Built.Corners[piece.Corner-1]
			along := f.Built.Side(after.Side).Vec().Unit()
			from, into := corner.Add(along.Mul(piece.At)), along.Perp()
			beyond := 0.0
			for d := 0.01; d < piece.Length; d += 0.01 {
				q := from.Add(into.Mul(d))
				switch {
				case before.Face.Contains(q):
					beyond += 0.01
				case !after.Face.Contains(q) && before.Face.BoundaryDist(q) > 0.02:
					t.Fatalf("%s, corner %d: out after %.2f mm", name, piece.Corner, d)
				}
			}
			if beyond < r.Corner.BradHold-0.03 {
				t.Errorf("%s, corner %d: %.2f mm beyond the mitre", name, piece.Corner, beyond)
			}
			if tip := from.Add(into.Mul(piece.Length)); before.Face.BoundaryDist(tip) < r.Corner.Keep*0.5-0.02 {
				t.Errorf("%s, corner %d: the point is %.2f mm under a face", name, piece.Corner, before.Face.BoundaryDist(tip))
			}
		}
	}
}

// At a corner that turns inwards the tip is inside, and so is the brad.
func TestBradsTurnInwards(t *testing.T) {
	r := builtIn()
	r.Corner.BradEnd = in / 8
	p, _, err := Make([]Kind{{Name: "star", Frame: star(t, oneByFour), Count: 1, Corner: Brads}}, layout.Layout{}, Shop{Rates: r})
	if err != nil {
		t.Fatal(err)
	}
	for _, piece := range p.Kinds[0].Corners.Pieces {
		if want := star(t, oneByFour).Asked.Setting(piece.Corner) < 0; piece.Inner != want {
			t.Errorf("%+v", piece)
		}
	}
}

// A hexagon's corner is 120°: the block's edge is ripped 30° off square, 3 in
// long behind a front edge of 1/2 in. Of a bevelled block the wider face lies on
// the side only where the corner is under 90°.
func TestBlocks(t *testing.T) {
	for _, c := range []struct {
		f     frame.Frame
		bevel float64
		wider bool
	}{{hexagon(t, 18, oneByFour), 30, false}, {regular(t, 4, 12, oneByFour), 0, false}, {regular(t, 3, 14, oneByFour), 30, true}, {regular(t, 8, 8, oneByFour), 45, false}} {
		got := corners(t, c.f, Blocks)
		if len(got) != len(c.f.Parts) {
			t.Fatalf("%+v", got)
		}
		for _, p := range got {
			wantNear(t, "bevel", p.Bevel.Degrees(), c.bevel, 1e-9)
			wantNear(t, "length", p.Length, 3*in, 1e-9)
			wantNear(t, "thickness", p.Thickness, 0.75*in, 1e-9)
			if !p.Cut || p.Width > 1.5*in+1e-9 || p.Wider != c.wider {
				t.Errorf("%+v", p)
			}
		}
	}
}

// A side of 2 in inside takes two blocks of 1 in and no more; a corner that
// turns inwards takes none; a foot of an arch is no corner.
func TestBlocksFit(t *testing.T) {
	small := regular(t, 6, 2.5, oneByFour)
	for _, p := range corners(t, small, Blocks) {
		wantNear(t, "width", p.Width, small.Parts[0].Inside/2, 0.1)
		if p.Width > small.Parts[0].Inside/2 {
			t.Errorf("two blocks of %g mm do not go on %g mm", p.Width, small.Parts[0].Inside)
		}
	}
	inwards := star(t, oneByFour)
	r := builtIn()
	r.Corner.Bevel = unit.FromDegrees(60)
	p := plan(t, Shop{Rates: r}, Kind{Name: "star", Frame: inwards, Count: 1, Corner: Blocks}, Kind{Name: "arch", Frame: house(t, oneByFour), Count: 1, Corner: Blocks})
	for _, x := range p.Kinds[0].Corners.Pieces {
		if inwards.Asked.Setting(x.Corner) < 0 {
			t.Errorf("a block at corner %d", x.Corner)
		}
	}
	if got := len(p.Kinds[0].Corners.Pieces); got != 4 {
		t.Errorf("%d blocks in a star of 5 corners, one of them inwards", got)
	}
	if got := jointCorners(arch(t, oneByFour)); len(got) != 7 || got[0] != 2 || got[6] != 8 {
		t.Errorf("corners of an arch: %v", got)
	}
}

// The longest plate that lies on both boards: every corner of it is in one of
// the two, and a plate a little longer is not.
func TestPlatesLieOnTheBoards(t *testing.T) {
	for _, f := range []frame.Frame{hexagon(t, 18, flatFour), regular(t, 4, 16, flatFour), regular(t, 12, 8, flatFour)} {
		for _, p := range corners(t, f, Plates) {
			if p.Screws != 4 || p.Screw != "No. 6 x 3/4 in" {
				t.Errorf("3/4 in and the plate take a 3/4 in screw: %+v", p)
			}
			if !platedIn(f, p.Corner, p.Length, p.Width) {
				t.Errorf("plate %s at corner %d overhangs", p.Name, p.Corner)
			}
		}
		setting := float64(f.Asked.Setting(1))
		most := longestPlate(f.Boards.Depth().MM(), 0.625*in, setting)
		if !platedIn(f, 1, most-0.1, 0.625*in) || platedIn(f, 1, most+0.2, 0.625*in) {
			t.Errorf("setting %.1f°: %.1f mm is not the longest plate", setting*180/math.Pi, most)
		}
	}
	if !math.IsInf(longestPlate(90, 16, 0), 1) || longestPlate(10, 30, 0.5) != 0 {
		t.Error("a straight joint takes any plate, a narrow board none")
	}
}

func platedIn(f frame.Frame, corner int, length, width float64) bool {
	before, after := partsAt(f, corner)
	a, b := f.Built.Corners[corner-1], f.Inside[corner-1]
	mid, across := a.Lerp(b, 0.5), b.Sub(a).Unit()
	along := across.Perp()
	for _, x := range []float64{-1, 1} {
		for _, y := range []float64{-1, 1} {
			q := mid.Add(along.Mul(x * length / 2)).Add(across.Mul(y * width / 2))
			if !before.Face.Contains(q) && !after.Face.Contains(q) {
				return false
			}
		}
	}
	return true
}

// A slot stays in the wood and leaves a third of the mitre: from the tip to its
// bottom it is wood on both sides of the mitre, as wide as the blank less what it
// stands proud; and it takes no more than half of a side. On edge a corner takes
// two, as far from the front as from the back; flat boards take one in the middle
// of their thickness.
func TestSplines(t *testing.T) {
	slim := frame.Boards{Thickness: unit.Inch / 2, Width: 7 * unit.Inch / 2, OnEdge: true}
	for _, f := range []frame.Frame{hexagon(t, 18, oneByFour), regular(t, 4, 12, oneByFour), regular(t, 3, 14, oneByFour), regular(t, 12, 4, slim), hexagon(t, 18, flatFour), house(t, oneByFour)} {
		pieces := corners(t, f, Splines)
		if len(pieces) != len(f.Parts) {
			t.Fatalf("%d corners of %d", len(pieces), len(f.Parts))
		}
		for _, p := range pieces {
			tip, heel := f.Built.Corners[p.Corner-1], f.Inside[p.Corner-1]
			inwards := heel.Sub(tip).Unit()
			half, before, after := p.Length/2-splineProud, f.Parts[(p.Corner-2+len(f.Parts))%len(f.Parts)], f.Parts[p.Corner-1]
			for _, side := range []float64{-1, 1} {
				end := tip.Add(inwards.Mul(p.Slot)).Add(inwards.Perp().Mul(side * half))
				if d := min(before.Face.BoundaryDist(end), after.Face.BoundaryDist(end)); d > 0.6 { // the house's own angles are a little off its saw settings
					t.Errorf("%d sides, corner %d: the bottom of the slot ends %g mm from the outside", len(f.Parts), p.Corner, d)
				}
				if end.Dist(tip) > min(before.Outside, after.Outside).MM()/2+0.6 {
					t.Errorf("%d sides, corner %d: the slot takes %g mm of a side", len(f.Parts), p.Corner, end.Dist(tip))
				}
			}
			if left := tip.Dist(heel) - p.Slot; left < tip.Dist(heel)/3-0.1 || p.Slot < leastSlot {
				t.Errorf("%d sides, corner %d: a slot %g mm deep leaves %g", len(f.Parts), p.Corner, p.Slot, left)
			}
			rise := f.Boards.Rise().MM()
			wantNear(t, "front and back", p.Behind[0]+p.Behind[1], rise, 1e-9)
			if one := p.Count == 1; one != !f.Boards.OnEdge || one != (p.Behind[0] == rise/2) {
				t.Errorf("%+v", p)
			}
		}
	}
}

// Flat boards 3 1/2 in wide have a mitre of 4 in and more, of which a blade sees
// no more than 1 1/2 in; a square one in 3/4 in is 1.06 in long, two thirds of
// which are 11/16 in on the tape. The cradle's boards lie along the sides: 45° and
// 30° from the table. The spline fills what the blade saws away.
func TestSplineFigures(t *testing.T) {
	s := Shop{Kerf: 2.8, Mark: in / 16}
	flat := plan(t, s, Kind{Name: "it", Frame: hexagon(t, 18, flatFour), Count: 1, Corner: Splines}).Kinds[0].Corners.Pieces[0]
	square := plan(t, s, Kind{Name: "it", Frame: regular(t, 4, 12, oneByFour), Count: 1, Corner: Splines}).Kinds[0].Corners.Pieces[0]
	for what, x := range map[string][2]float64{
		"flat slot": {flat.Slot, 1.5 * in}, "flat middle": {flat.Behind[0], 0.375 * in}, "flat length": {flat.Length, (3*math.Sqrt(3) + 0.5) * in}, "flat cradle": {flat.Lean.Degrees(), 30},
		"slot": {square.Slot, 0.6875 * in}, "first": {square.Behind[0], 1.1875 * in}, "second": {square.Behind[1], 2.3125 * in}, "length": {square.Length, 1.875 * in},
		"width": {square.Width, 0.9375 * in}, "cradle": {square.Lean.Degrees(), 45}, "thickness": {square.Thickness, 2.8},
	} {
		wantNear(t, what, x[0], x[1], 1e-6)
	}
	if got := corners(t, star(t, oneByFour), Splines); len(got) != 4 {
		t.Errorf("a corner that turns inwards takes none: %+v", got)
	}
}

// Two brads cross no path: each has its own place from front to back.
func TestBradsHavePlaces(t *testing.T) {
	s := Shop{Mark: in / 16}
	for _, p := range plan(t, s, Kind{Name: "it", Frame: hexagon(t, 18, oneByFour), Count: 1, Corner: Brads}).Kinds[0].Corners.Pieces {
		wantNear(t, "from the tip", p.At, 0.1875*in, 1e-9)
		wantNear(t, "first", p.Behind[0], 1.1875*in, 1e-9)
		wantNear(t, "second", p.Behind[1], 2.3125*in, 1e-9)
	}
	// What holds on the mark holds: in any boards, the brad is no nearer to the tip
	// than allowed, and no shorter beyond the mitre.
	r := builtIn().Corner
	rapid.Check(t, func(t *rapid.T) {
		length, depth, setting := rapid.Float64Range(10, 60).Draw(t, "length"), rapid.Float64Range(10, 40).Draw(t, "depth"), rapid.Float64Range(0.1, 1.2).Draw(t, "setting")
		mark := rapid.SampledFrom([]float64{0, 1, in / 16}).Draw(t, "mark")
		at, ok := r.bradAt(length, depth, setting, mark)
		if !ok {
			return
		}
		if at < r.BradEnd-1e-6 || length-at/math.Tan(setting) < r.BradHold-1e-6 || mark > 0 && math.Abs(at/mark-math.Round(at/mark)) > 1e-6 {
			t.Fatalf("%g mm from the tip", at)
		}
	})
}

// What a brad leaves depends on the corner alone: at 45° it never comes out
// behind; at 30° a brad x from the tip comes out after (d - x sin 60°) / cos 60°.
func TestBradOut(t *testing.T) {
	if !math.IsInf(bradOut(5, 19, math.Pi/4), 1) {
		t.Error("a square corner")
	}
	wantNear(t, "hexagon", bradOut(5, 19, math.Pi/6), (19-5*math.Sqrt(3)/2)/0.5, 1e-9)
	wantNear(t, "triangle", bradOut(5, 19, math.Pi/3), 5*math.Sqrt(3), 1e-9)
}

func TestScrewThatStaysIn(t *testing.T) {
	s := Shop{}.withDefaults()
	m := maker{shop: s}
	for deep, want := range map[float64]string{0.2: "", 0.75: "No. 6 x 5/8 in", 0.8125: "No. 6 x 3/4 in", 9: "No. 6 x 2 in"} {
		if got := m.screw("No. 6", deep*in); got != want {
			t.Errorf("%g in deep: %q, want %q", deep, got, want)
		}
	}
}

// What is at hand goes for the catalogue: a plate or brad that the shop has not
// is not asked for.
func TestAtHand(t *testing.T) {
	k := Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1, Corner: Brads}
	for _, b := range stock.BuiltIn().Fasteners(stock.Brad) {
		p, problems, err := Make([]Kind{k}, layout.Layout{}, Shop{Brads: []stock.Fastener{b}})
		if err != nil {
			t.Fatal(err)
		}
		for _, piece := range p.Kinds[0].Corners.Pieces {
			if piece.Name != b.Name {
				t.Errorf("only %s is at hand, %s is driven", b.Name, piece.Name)
			}
		}
		if len(problems) == 0 && len(p.Kinds[0].Corners.Pieces) != 6 {
			t.Errorf("%s: %d corners", b.Name, len(p.Kinds[0].Corners.Pieces))
		}
	}
	if got := codes(t, Shop{Brads: []stock.Fastener{}}, layout.Layout{}, k); got != string(BradRoom) {
		t.Errorf("no brads at hand: %q", got)
	}
}
