package job

import (
	"strings"
	"testing"

	"bowerwright/unit"
)

// backed is a row of four hexagons with strongbacks.
func backed(way string) Spec {
	s := spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 2 on B1 side 5", "B3 side 1 on B1 side 4", "B4 side 1 on B2 side 4")
	s.Lifting.Strongbacks = way
	return s
}

// boughtOf is how many of a thing the buying list wants, and for what.
func boughtOf(r Result, thing string) (n float64, uses string) {
	for _, c := range r.Buying.Sections {
		for _, l := range c.Lines {
			if l.Name == thing {
				return l.Need.Value, l.For
			}
		}
	}
	return 0, ""
}

// Strongbacks are in the cut list under one mark, as long as the piece is wide
// or high, on boards, and their screws are bought: two wherever one crosses a
// board.
func TestStrongbacksAreInTheLists(t *testing.T) {
	for _, way := range []string{"level", "upright"} {
		plain, r := worked(t, backed("")), worked(t, backed(way))
		backs := r.Standing.Lift.Backs
		if len(backs) != 2 || len(plain.Standing.Lift.Backs) != 0 {
			t.Fatalf("%s: %+v", way, backs)
		}
		long := r.Overall.Width.MM
		if way == "upright" {
			long = r.Overall.Height.MM
		}
		near(t, way+", length", backs[0].Length.MM, long, 1.6) // a mark of the tape, downwards
		w, n := wantedOf(r, "back+")
		if n != 1 || w.Need != 2 || w.Length != backs[0].Length || !strings.Contains(w.What, way) {
			t.Errorf("%s: %d times, %+v", way, n, w)
		}
		placed := 0
		for _, f := range r.Timber {
			for _, b := range f.Boards {
				for _, q := range b.Parts {
					if q.Mark == "back+" {
						placed += len(b.Numbers)
					}
				}
			}
		}
		if placed != 2 {
			t.Errorf("%s: %d on boards", way, placed)
		}
		screws := 0
		for i, b := range backs {
			cross := crossedBy(r, b)
			if b.Screws != 2*cross || cross < 4 || b.Thing != "No. 8 x 2 in" || b.Mark != "back+" {
				t.Errorf("%s: strongback %d crosses %d boards: %+v", way, i, cross, b)
			}
			screws += b.Screws
		}
		if got, of := boughtOf(r, "No. 8 x 2 in"); int(got) != screws || !strings.Contains(of, "strongbacks") {
			t.Errorf("%s: %d screws driven, %v bought for %q", way, screws, got, of)
		}
		if _, of := boughtOf(plain, "No. 8 x 2 in"); strings.Contains(of, "strongbacks") {
			t.Errorf("%s: bought for strongbacks that are not asked for", way)
		}
	}
}

// crossedBy counts the boards that a strongback crosses, by the outlines: those
// of which its line passes from the one edge to the other.
func crossedBy(r Result, b BackFacts) (n int) {
	from, to := point2(b.From), point2(b.To)
	for _, f := range r.Frames {
		for k := range f.Outside {
			next := (k + 1) % len(f.Outside)
			p := point2(f.Outside[k]).Lerp(point2(f.Inside[k]), 0.5)
			q := point2(f.Outside[next]).Lerp(point2(f.Inside[next]), 0.5)
			if from.Sub(p).Cross(q.Sub(p))*to.Sub(p).Cross(q.Sub(p)) < 0 && p.Sub(from).Cross(to.Sub(from))*q.Sub(from).Cross(to.Sub(from)) < 0 {
				n++
			}
		}
	}
	return n
}

// One that no board gives is not sawn, not bought and not reckoned with, and is
// not proposed either: a note says what helps.
func TestStrongbacksLongerThanTheBoards(t *testing.T) {
	short := func(way string, boards unit.Length) Spec {
		s := spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 6 on B1 side 3", "B3 side 6 on B2 side 3")
		s.Lifting.Strongbacks, s.Timber[0].Length = way, boards
		return s
	}
	whole := worked(t, short("level", 8*unit.Foot))
	if whole.Overall.Width.MM < 1.4*whole.Overall.Height.MM {
		t.Fatalf("%s wide and %s high", whole.Overall.Width.US, whole.Overall.Height.US)
	}
	for _, c := range []struct {
		way   string
		short unit.Length
		help  string
	}{{"level", 54 * unit.Inch, "strongbacks: upright"}, {"upright", 32 * unit.Inch, "longer boards"}} {
		s := short(c.way, c.short)
		r := worked(t, s)
		if _, n := wantedOf(r, "back+"); n != 0 || len(r.Standing.Lift.Backs) != 0 {
			t.Errorf("%s: sawn from boards of %v", c.way, c.short)
		}
		if _, of := boughtOf(r, "No. 8 x 2 in"); strings.Contains(of, "strongbacks") {
			t.Errorf("%s: screws for what is not sawn", c.way)
		}
		do := ""
		for _, n := range r.Notes {
			if n.Code == "strongback-long" {
				do = n.Do
			}
		}
		if !strings.Contains(do, c.help) || !strings.Contains(do, "spliced") {
			t.Errorf("%s: %q", c.way, do)
		}
		for _, w := range r.Standing.WaysOut {
			if w.Kind == "strongbacks" && strings.Contains(w.Says, c.way) {
				t.Errorf("%s is proposed: %s", c.way, w.Says)
			}
		}
		s.Timber[0].OnHand = []HandBoard{{Count: 2, Length: 8 * unit.Foot}}
		if w, _ := wantedOf(worked(t, s), "back+"); w.Need != 2 {
			t.Errorf("%s: two long boards on hand do not give two strongbacks", c.way)
		}
		s.Timber[0].OnHand[0].Count = 1
		if w, _ := wantedOf(worked(t, s), "back+"); w.Need != 0 {
			t.Errorf("%s: one long board gives two strongbacks", c.way)
		}
	}
}

// No screw of a strongback comes out of the front: on thin frames a shorter one
// is taken; a metric job takes metric screws. Built up in place nothing is sawn.
func TestStrongbackScrews(t *testing.T) {
	s := spec("Q = square: side 24, flat", "Q1 at 0 0", "Q2 side 4 on Q1 side 2")
	s.Lifting.Strongbacks = "upright"
	if b := worked(t, s).Standing.Lift.Backs[0]; b.Thing != "No. 8 x 1 1/4 in" {
		t.Errorf("through 3/4 in and 3/4 in: %s", b.Thing)
	}
	m := backed("level")
	m.Show = "metric"
	if b := worked(t, m).Standing.Lift.Backs[0]; b.Thing != "4.5 x 50 mm" {
		t.Errorf("metric: %s", b.Thing)
	}
	p := backed("level")
	p.Lifting.InPlace = true
	r := worked(t, p)
	if _, n := wantedOf(r, "back+"); n != 0 || len(r.Standing.Lift.Backs) != 0 {
		t.Error("strongbacks of a piece that is never lifted in one")
	}
}
