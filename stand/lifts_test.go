package stand

import (
	"math"
	"strings"
	"testing"

	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// two frames on each other, 1 x 1 m and 9 kg each.
func stacked(t testing.TB) Section {
	l, problems := layout.Build([]layout.Kind{{Name: "b", Outside: base.Rectangle(0, 0, 1000, 1000), Inside: base.Rectangle(40, 40, 920, 920)}},
		[]layout.Place{{ID: "A", Kind: "b", At: &geom.Point{}}, {ID: "B", Kind: "b", At: &geom.Point{Y: 1000}}}, layout.Settings{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return Section{Layout: l, Frames: []unit.Mass{9, 9}, Mass: 18, Middle: geom.Point{X: 500, Y: 1000}, Back: 45, Depth: 90, Lift: 18}
}

func TestLifts(t *testing.T) {
	l := rules().Lift
	got := l.Lifts(stacked(t), 5000)
	if len(got.Carry) != 4 || got.Carry[0].Found || !got.Carry[1].Found || got.People != 2 {
		t.Errorf("carried flat by %d: %+v", got.People, got.Carry)
	}
	want(t, "two carry half each", float64(got.Carry[1].Best.People[0]), 9, 1e-6)
	want(t, "swing", got.Swing, math.Hypot(2000, 90), 1e-9)
	w := float64(Weigh(18))
	want(t, "tilted up", float64(got.Tilt.Peak.Force), math.Max(w/2, w*(math.Hypot(1000, 45)-45)/2/l.Up), 1e-6)
	if len(got.Turn) != 4 || got.Turn[2].About != "left" || got.Turn[2].People == 0 {
		t.Fatalf("turned %+v", got.Turn)
	}
	easy, ok := got.Easiest()
	if !ok || easy.People > got.Turn[0].People {
		t.Errorf("easiest %+v", easy)
	}
	for i, r := range got.Built {
		if r.Frame != i || r.Crew.People != 1 {
			t.Errorf("built up %+v", r)
		}
	}
	want(t, "the upper one goes to", got.Built[1].Crew.Height, math.Nextafter(l.Zones[3].To, 1e9), 1e-6)

	heavy := stacked(t)
	heavy.Mass = 400
	got = l.Lifts(heavy, 5000)
	if _, ok := got.Easiest(); ok || got.People != 0 || got.Tilt.People != 0 || got.Turn[0].People != 0 {
		t.Errorf("400 kg: %d carry, %d tilt", got.People, got.Tilt.People)
	}
}

// The weight off the middle: each edge has its own lever, W d/L at the floor.
func TestTurnsHaveTheirOwnLevers(t *testing.T) {
	s := stacked(t)
	s.Middle = geom.Point{X: 300, Y: 700}
	l := rules().Lift
	w := float64(Weigh(18))
	turns := l.Lifts(s, 100).Turn
	for i, c := range []struct {
		about string
		share float64
	}{{"bottom", 0.35}, {"top", 0.65}, {"left", 0.3}, {"right", 0.7}} {
		if turns[i].About != c.about {
			t.Fatalf("turn %d is about the %s", i, turns[i].About)
		}
		want(t, c.about, float64(turns[i].Up.Steps[0].Force), c.share*w, 1e-9)
	}
}

// A turn that a team does one way only is not done: 100 kg with its weight far
// from the face that it lies on first.
func TestATurnNeedsBothWays(t *testing.T) {
	l := rules().Lift
	s := stacked(t)
	s.Layout.Height, s.Middle.Y = 4000, 2000 // so high that the hands walk down, where the thickness tells
	some := false
	for kg := unit.Mass(20); kg < 200; kg++ {
		s.Mass, s.Back, s.Depth = kg, 20, 900
		for _, turn := range l.Lifts(s, 1).Turn {
			if (turn.People == 0) != (turn.Up.People == 0 || turn.Down.People == 0) || turn.People > 0 && turn.People != max(turn.Up.People, turn.Down.People) {
				t.Fatalf("%g kg about the %s: %d up, %d down, %d in all", kg, turn.About, turn.Up.People, turn.Down.People, turn.People)
			}
			some = some || turn.Up.People == 0 != (turn.Down.People == 0)
		}
	}
	if !some {
		t.Error("no turn goes one way only: the test shows nothing")
	}
}

// Of turns that want as many people the one with least force; of none that can be
// done, none.
func TestEasiestTurn(t *testing.T) {
	turn := func(about string, people int, force unit.Force) Turn {
		return Turn{About: about, People: people, Up: Tilting{Peak: Step{Force: force}}, Down: Tilting{Peak: Step{Force: force / 2}}}
	}
	for _, c := range []struct {
		turns []Turn
		about string
	}{
		{[]Turn{turn("bottom", 2, 50), turn("top", 2, 40), turn("left", 2, 60)}, "top"},
		{[]Turn{turn("bottom", 3, 50), turn("top", 2, 90), turn("left", 0, 10)}, "top"},
		{[]Turn{turn("bottom", 2, 50), turn("top", 2, 50)}, "bottom"},
		{[]Turn{turn("bottom", 0, 50)}, ""},
		{[]Turn{turn("bottom", 2, 50), {About: "top", People: 2, Up: Tilting{Peak: Step{Force: 10}}, Down: Tilting{Peak: Step{Force: 60}}}}, "bottom"},
	} {
		got, ok := Lifts{Turn: c.turns}.Easiest()
		if got.About != c.about || ok != (c.about != "") {
			t.Errorf("easiest of %v is %q", c.turns, got.About)
		}
	}
}

func TestCautionsAreSaid(t *testing.T) {
	all := strings.Join(append(NotCovered(), NotChecked()...), "\n")
	for _, words := range []string{"not an engineer's certificate", "does not cover teams", "licensed engineer", "Local rules"} {
		if !strings.Contains(all, words) {
			t.Errorf("nothing says %q", words)
		}
	}
}

func BenchmarkLifts(b *testing.B) {
	_, piece, _ := twenty(b)
	s := Section{Layout: piece.Layout, Mass: 40, Middle: geom.Point{X: piece.Layout.Width / 2, Y: piece.Layout.Height / 2}, Back: 45, Depth: 90}
	for range piece.Frames {
		s.Frames = append(s.Frames, 2)
	}
	l := rules().Lift
	b.ReportAllocs()
	for b.Loop() {
		l.Lifts(s, 3000)
	}
}
