package job

import (
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// wants checks how many of each thing the list wants before spare.
func wants(t *testing.T, r Result, of map[string]float64) {
	t.Helper()
	for name, n := range of {
		if l := lineOf(t, r, name); l.Need.Value != n {
			t.Errorf("%s: %v, want %v (%s; %s)", name, l.Need.Value, n, l.For, l.Note)
		}
	}
	adds(t, r.Buying)
}

func based(change func(s *Spec)) Spec {
	return box24(func(s *Spec) {
		s.Fixing.Seams = nil
		change(s)
	})
}

// without says that a job has no line of these names.
func without(t *testing.T, r Result, names ...string) {
	t.Helper()
	for _, l := range lines(r.Buying) {
		for _, n := range names {
			if strings.Contains(l.Name, n) {
				t.Errorf("%s is bought", l.Name)
			}
		}
	}
}

const sheet34 = "3/4 in plywood 48 in x 96 in"

// A plate of 30 by 40 in comes out of one sheet of 4 by 8 ft. The frame's lower
// side is 24 in: two screws and one for each whole foot are 4.
func TestPlateIsBought(t *testing.T) {
	r := worked(t, based(func(s *Spec) { s.Base[0].Name = "deck" }))
	wants(t, r, map[string]float64{sheet34: 1})
	l := lineOf(t, r, sheet34)
	if l.For != "deck" || l.Note != "deck: 1 x plate, 30 in by 40 in" || len(l.Packs) != 1 || l.Packs[0].Count != 1 || l.Packs[0].Pack != "each" {
		t.Errorf("%+v", l)
	}
	if n, of := boughtOf(r, "No. 8 x 1 1/4 in"); n != 4 || !strings.Contains(of, "frames to the base") {
		t.Errorf("%v screws for %q", n, of)
	}
	without(t, worked(t, spec("S = square: side 24", "S1 at 0 0")), "plywood", "bracket", "stake", "strap", "line")
}

// 120 by 40 in is longer than a sheet: two parts of 60 by 40, two sheets, and a
// strip over the joint. The joint is 40 in long: a screw every 6 in and one more
// are 8 on a side, 16.
func TestLargePlateIsSplit(t *testing.T) {
	r := worked(t, based(func(s *Spec) { s.Base[0].Width = ins(120) }))
	wants(t, r, map[string]float64{sheet34: 2, "No. 8 x 1 1/4 in": 4 + 16})
	if l := lineOf(t, r, sheet34); l.Note != "plate: 2 x part of it, 60 in by 40 in; 1 x strip over a joint, 40 in by 8 in" {
		t.Error(l.Note)
	}
}

// Three feet of 4 by 36 in and, 3 1/2 in high, as bars: 9 ft of them.
func TestFeetAreBought(t *testing.T) {
	feet := func(s *Spec) {
		s.Base = []BaseAsked{{Name: "feet", Kind: "feet", Width: ins(4), Depth: ins(36), Count: 3}}
	}
	wants(t, worked(t, based(feet)), map[string]float64{sheet34: 1})
	r := worked(t, based(func(s *Spec) { feet(s); s.Base[0].Thickness = ins(3.5) }))
	l := lineOf(t, r, "3 1/2 in x 4 in bar")
	if l.Need.US != "9 ft" || l.Note != "3 of 36 in" || l.For != "feet" {
		t.Errorf("%+v", l)
	}
	without(t, r, "plywood")
}

// A frame base of 40 by 30 in has four strips, halved over each other with four
// screws in each of its corners, which stay in the 3/4 in.
func TestFrameBaseIsBought(t *testing.T) {
	r := worked(t, based(func(s *Spec) {
		s.Base = []BaseAsked{{Name: "rim", Kind: "frame base", Width: ins(40), Depth: ins(30), Rim: ins(4)}}
	}))
	wants(t, r, map[string]float64{sheet34: 1})
	if n, of := boughtOf(r, "No. 8 x 5/8 in"); n != 16 || of != "corners of rim" {
		t.Errorf("%v for %q", n, of)
	}
	if l := lineOf(t, r, sheet34); l.Note != "rim: 2 x side, 40 in by 4 in; 2 x side, 30 in by 4 in" {
		t.Error(l.Note)
	}
}

// A brace 24 in behind and fixed 18 in up is a strut of 30 in. Three have six
// brackets with four screws each, and two screws in each foot.
func TestBracesAreBought(t *testing.T) {
	m := 5 * unit.Pound
	r := worked(t, based(func(s *Spec) {
		s.Base = append(s.Base, BaseAsked{Name: "struts", Kind: "brace", Count: 3, Behind: ins(24), Fixed: ins(18), Width: ins(4), Mass: &m})
	}))
	w, n := wantedOf(r, "brace+")
	if n != 1 || w.Need != 3 || w.Length.US != "30 in" || !strings.Contains(w.What, "struts") {
		t.Errorf("%d: %+v", n, w)
	}
	wants(t, r, map[string]float64{"angle bracket": 6, "No. 8 x 5/8 in": 24, "No. 8 x 1 1/4 in": 4 + 6, sheet34: 1})
	if l := lineOf(t, r, sheet34); !strings.Contains(l.Note, "struts: 3 x foot of a brace, 24 in by 4 in") {
		t.Error(l.Note)
	}
	long := worked(t, based(func(s *Spec) { // a strut of 150 in, from no board of 8 ft
		s.Base = append(s.Base, BaseAsked{Name: "struts", Kind: "brace", Count: 3, Behind: ins(120), Fixed: ins(90), Width: ins(4), Mass: &m})
	}))
	if l := lineOf(t, long, "3/4 in x 3 1/2 in bar"); l.Need.US != "38 ft" || l.Note != "3 of 150 in" {
		t.Errorf("%+v", l)
	}
	if _, n := wantedOf(long, "brace+"); n != 0 {
		t.Error("and sawn from boards")
	}
}

// Brackets stand in two rows: with three to a row six, and 24 screws. Bolts have
// a nut and two washers.
func TestWhatHoldsItIsBought(t *testing.T) {
	held := func(by string, more func(s *Spec)) Result {
		return worked(t, based(func(s *Spec) {
			s.Standing.Held, s.Standing.HeldEach = by, 3
			if more != nil {
				more(s)
			}
		}))
	}
	wants(t, held("brackets", nil), map[string]float64{"angle bracket": 6, "No. 8 x 5/8 in": 24})
	// Through 3/4 in of plywood and 3/4 in of board, with two washers of 1/16 in
	// and a nut of 7/32 in: 1.84 in, so 2 in.
	wants(t, held("bolts", nil), map[string]float64{"1/4 in bolt x 2 in": 3, "1/4 in nut": 3, "1/4 in washer": 6})
	without(t, held("nothing", nil), "bracket", "screw", "No. 8")
	wants(t, held("brackets", func(s *Spec) {
		s.Assume = append(s.Assume, Override{ID: string(assume.BaseBracketScrews), Value: 2})
	}), map[string]float64{"No. 8 x 5/8 in": 12})
}

// A frame held in the air stands on a post, with fasteners at its head and foot.
func TestPostsAreSawn(t *testing.T) {
	s := spec("S = square: side 24", "S1 at 0 0", "S2 side 1 on S1 side 3")
	s.Base = plateOf(30, 40)
	s.Standing.HeldFrames, s.Standing.HeldEach = []string{"S1", "S2"}, 2
	r := worked(t, s)
	w, n := wantedOf(r, "post+")
	if n != 1 || w.Need != 1 || w.Length.US != "24 in" {
		t.Errorf("%d: %+v", n, w)
	}
	if n, of := boughtOf(r, "No. 8 x 1 1/4 in"); n < 6 || !strings.Contains(of, "frames to the base") {
		t.Errorf("%v for %q", n, of)
	}
}

func TestStakesAndLinesAreBought(t *testing.T) {
	r := worked(t, based(func(s *Spec) {
		s.Base = append(s.Base, BaseAsked{Name: "pegs", Kind: "stakes", Pull: 300, Sideways: 300})
		s.Standing.Lines = []string{"S1"}
	}))
	wants(t, r, map[string]float64{"stake": 4, "retaining line": 1})
}

// Of units that are owned none is bought; where they are too few, those beyond
// them are; each heap has a strap.
func TestBallastBeyondTheOwned(t *testing.T) {
	job := func(owned int) Result {
		return worked(t, based(func(s *Spec) {
			s.Base = plateOf(60, 60)
			s.Standing.Ballast = []BallastAsked{{Name: "sandbag", Mass: 25 * unit.Pound, Length: ins(14), Width: ins(9), Height: ins(5), Owned: owned}}
		}))
	}
	all := job(50)
	n := all.Standing.Ballast.Units
	if !all.Standing.Ballast.Enough || n < 2 {
		t.Fatalf("%+v", all.Standing.Ballast)
	}
	without(t, all, "sandbag")
	wants(t, all, map[string]float64{"ballast strap": float64(len(all.Standing.Ballast.Stacks))})
	if ready := all.Buying.Ready; !strings.HasSuffix(ready[len(ready)-1].Name, "of the 50 units called sandbag") {
		t.Errorf("%+v", ready)
	}
	wants(t, job(1), map[string]float64{"sandbag": float64(n - 1)})
}

// What is in hand is not bought, and a price finds the sheet by its name.
func TestBaseHasPrices(t *testing.T) {
	s := priced(based(func(s *Spec) { s.Base[0].Width = ins(120) }), "price list", sheet34+", each, 52.00 USD")
	r := worked(t, s)
	if l := lineOf(t, r, sheet34); l.Cost != "104.00" {
		t.Errorf("%+v", l)
	}
}

// Whatever is laid lies on its sheets, on no other piece and a kerf away from it,
// and no fewer sheets than its area asks for.
func TestLaidOnSheets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheetSize{2440, 1220, 3}
		var cuts []cutOut
		area := 0.0
		for range rapid.IntRange(1, 12).Draw(t, "pieces") {
			c := cutOut{wide: rapid.Float64Range(40, 2440).Draw(t, "wide"), deep: rapid.Float64Range(40, 1220).Draw(t, "deep")}
			if rapid.Bool().Draw(t, "turned") {
				c.wide, c.deep = c.deep, c.wide
			}
			cuts, area = append(cuts, c), area+c.wide*c.deep
		}
		n, spots := s.lay(cuts)
		if len(spots) != len(cuts) || float64(n)*s.long*s.wide < area || n > len(cuts) {
			t.Fatalf("%d spots on %d sheets", len(spots), n)
		}
		for i, a := range spots {
			c := cuts[a.cut]
			if a.x < 0 || a.y < 0 || a.x+a.long > s.long+1e-3 || a.y+a.wide > s.wide+1e-3 || a.sheet >= n || max(a.long, a.wide) != max(c.wide, c.deep) || min(a.long, a.wide) != min(c.wide, c.deep) {
				t.Fatalf("%+v", a)
			}
			for _, b := range spots[i+1:] {
				apart := a.sheet != b.sheet || a.x+a.long+s.kerf <= b.x+1e-6 || b.x+b.long+s.kerf <= a.x+1e-6 || a.y+a.wide+s.kerf <= b.y+1e-6 || b.y+b.wide+s.kerf <= a.y+1e-6
				if !apart {
					t.Fatalf("%+v lies on %+v", a, b)
				}
			}
		}
	})
}

func TestSplit(t *testing.T) {
	s := sheetSize{96, 48, 0.125}
	for _, c := range []struct {
		wide, deep   float64
		halves       bool
		across, rows int
	}{
		{96, 48, false, 1, 1}, {48, 96, false, 1, 1}, {96, 48, true, 2, 1}, {97, 48, false, 2, 1},
		{90, 60, false, 2, 1}, {60, 60, false, 2, 1}, {200, 60, false, 5, 1}, {300, 100, true, 4, 3}, {40, 100, false, 1, 2},
	} {
		if a, r := s.split(c.wide, c.deep, c.halves); a != c.across || r != c.rows {
			t.Errorf("%g by %g: %d by %d, want %d by %d", c.wide, c.deep, a, r, c.across, c.rows)
		}
	}
}
