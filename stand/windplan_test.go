package stand

import (
	"testing"

	"bowerwright/base"
	"bowerwright/dressing"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// framed is a frame of 2 x 2.4 m with a drape over its opening, ivy on its upper
// half and a garland on a strip.
func framed(t testing.TB) (dressing.Piece, dressing.Way) {
	l, problems := layout.Build([]layout.Kind{{Name: "big", Outside: base.Rectangle(0, 0, 2000, 2400), Inside: base.Rectangle(90, 90, 1820, 2220)}},
		[]layout.Place{{ID: "A", Kind: "big", At: &geom.Point{}}}, layout.Settings{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	p := dressing.Piece{Layout: l, Frames: []dressing.Frame{{Mass: 18, Depth: 90}}}
	return p, dressing.Way{Name: "dressed", Layers: []dressing.Layer{
		{Name: "garland", Mass: 1, Closes: 0.4, Front: 60, On: dressing.Region{From: 2200}},
		{Name: "drape", PerArea: 0.3, Closes: 1, On: dressing.Region{To: 1800}},
		{Name: "ivy", Mass: 4, Closes: 0.5, Front: 80, On: dressing.Region{From: 1200}}}}
}

func framedSetup(t testing.TB) (Setup, dressing.Piece, dressing.Way) {
	p, way := framed(t)
	bare, _ := p.Dress(dressing.Way{Name: "bare"})
	state, _ := p.Dress(way)
	plate := base.PlateOf(base.Rectangle(0, -600, 2000, 1290), base.Board{Thickness: 18, Density: 550})
	stance, problems := base.Base{Pieces: []base.Piece{plate}}.Stand(base.Lines(p.Layout, []base.Frame{{Depth: 90}}))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return Setup{Rules: rules(), Stance: stance, Floor: base.Floor{Friction: 0.4}, Bare: bare, States: []dressing.State{bare, state}}, p, way
}

// The drape comes down first, and each step raises the limit.
func TestWindPlan(t *testing.T) {
	s, p, way := framedSetup(t)
	plan := s.WindPlan(p, way)
	want(t, "watch", float64(plan.Watch), 0.6*float64(plan.Limit.Gust), 1e-9)
	want(t, "act", float64(plan.Act), 0.8*float64(plan.Limit.Gust), 1e-9)
	if len(plan.Down) != 3 || plan.Down[0].Layer != "drape" {
		t.Fatalf("plan %+v", plan)
	}
	last := plan.Limit.Gust
	for _, d := range plan.Down {
		if d.Then < last || d.Calc < d.Then {
			t.Errorf("%+v after %v", d, last)
		}
		last = d.Then
	}
	if bare := s.GustLimit(s.Bare).Gust; last != bare {
		t.Errorf("with all down %v, bare %v", last, bare)
	}
	if got := s.GustLimits(); got[0].Way != "bare" || got[1].Way != "dressed" || got[0].Gust < got[1].Gust || got[1] != plan.Limit {
		t.Errorf("limits %+v", got)
	}
}

// Soaked dressing in front: forwards it is worse wet than dry.
func TestSoakedFoamInFront(t *testing.T) {
	p, _ := framed(t)
	state, _ := p.Dress(dressing.Way{Name: "foam", Layers: []dressing.Layer{{Name: "foam", Mass: 5, Wet: 3, Front: 900, On: dressing.Region{From: 1500}}}})
	s, _, _ := framedSetup(t)
	s.States, s.Loads = []dressing.State{state}, Loads{Push: true}
	s.Floor.Friction = 2 // nothing slides
	f := s.Check()[0]
	if !f.Worst.Wet || !f.Square.Wet || Towards(f.Worst.Toward) != "forwards" {
		t.Errorf("worst %+v", f.Worst)
	}
	dry := state
	dry.Wet.Mass = dry.Dry.Mass
	s.States = []dressing.State{dry}
	if g := s.Check()[0]; g.Worst.Ratio >= f.Worst.Ratio || g.Worst.Wet {
		t.Errorf("dry %g, wet %g", g.Worst.Ratio, f.Worst.Ratio)
	}
	if l := s.Leans()[0]; l.By.Wet {
		t.Errorf("lean %+v", l)
	}
	s.States = []dressing.State{state}
	if l := s.Leans()[0]; !l.By.Wet || Towards(l.By.Toward) != "forwards" {
		t.Errorf("lean %+v", l)
	}
}

func BenchmarkTwentyFrames(b *testing.B) {
	s, piece, ways := twenty(b)
	b.ReportAllocs()
	for b.Loop() {
		states, _ := piece.Build(ways)
		s.States, s.Bare = states, states[0]
		s.Check()
		s.GustLimits()
	}
}

func BenchmarkFewestBallast(b *testing.B) {
	s, piece, ways := twenty(b)
	s.States, _ = piece.Build(ways)
	s.Bare = s.States[0]
	u := base.Unit{Name: "bag", Mass: 10, Length: 400, Width: 250, Height: 120, Owned: 60}
	spots := s.Stance.Spots(u, base.Room{Gap: 30, Stack: 2, InFront: true})
	for b.Loop() {
		p := s.Missing().Fewest([]Store{{u, spots}}, s.Stance.Lift, 200000)
		if !p.Enough {
			b.Fatal(p)
		}
	}
}

func BenchmarkWindPlan(b *testing.B) {
	s, piece, ways := twenty(b)
	states, _ := piece.Build(ways)
	s.Bare = states[0]
	for b.Loop() {
		s.WindPlan(piece, ways[2])
	}
}

// twenty hexagons in columns of four, four ways of dressing, every load.
func twenty(b testing.TB) (Setup, dressing.Piece, []dressing.Way) {
	const side, flats = 300, 519.6152422706632
	hex := base.RegularFromPoints(geom.Point{}, 6, side, 0)
	in, err := hex.Offset(19)
	if err != nil {
		b.Fatal(err)
	}
	var places []layout.Place
	for i := range 20 {
		c, r := i/4, i%4
		places = append(places, layout.Place{ID: string(rune('A' + i)), Kind: "hex", At: &geom.Point{X: 450 * float64(c), Y: flats * (float64(r) + float64(c%2)/2)}})
	}
	l, problems := layout.Build([]layout.Kind{{Name: "hex", Outside: hex, Inside: in}}, places, layout.Settings{})
	if len(problems) > 0 {
		b.Fatal(problems)
	}
	p := dressing.Piece{Layout: l}
	var lines []base.Frame
	for range l.Frames {
		p.Frames = append(p.Frames, dressing.Frame{Mass: 2, Depth: 90})
		lines = append(lines, base.Frame{Depth: 90})
	}
	plate := base.PlateOf(base.Rectangle(0, -500, l.Width, 1100), base.Board{Thickness: 18, Density: 550})
	stance, wrong := base.Base{Pieces: []base.Piece{plate}}.Stand(base.Lines(l, lines))
	if len(wrong) > 0 {
		b.Fatal(wrong)
	}
	ivy := dressing.Layer{Name: "ivy", Mass: 5, Wet: 1.5, Closes: 0.6, Front: 60, On: dressing.Region{From: 600}}
	drape := dressing.Layer{Name: "drape", PerArea: 0.3, Closes: 1, On: dressing.Region{Frames: []int{0, 1, 5}}}
	ways := []dressing.Way{{Name: "bare"}, {Name: "part", Layers: []dressing.Layer{ivy}},
		{Name: "dressed", Layers: []dressing.Layer{ivy, drape}}, {Name: "draped", Layers: []dressing.Layer{drape}}}
	return Setup{Rules: rules(), Stance: stance, Floor: base.Floor{Friction: 0.3},
		Loads: Loads{Hall: true, Push: true, Crowd: true, Gusts: []Speed{FromMPH(15), FromMPH(20)}}}, p, ways
}

func TestTwentyFramesAreAlikeEachTime(t *testing.T) {
	s, piece, ways := twenty(t)
	s.States, _ = piece.Build(ways)
	s.Bare = s.States[0]
	a, b := s.Check(), s.Check()
	if len(a) != 4*5 {
		t.Fatalf("%d findings", len(a))
	}
	for i := range a {
		if a[i] != b[i] {
			t.Fatalf("%+v, then %+v", a[i], b[i])
		}
	}
	var total unit.Mass
	for _, w := range s.States[0].Weights {
		total += w.Mass
	}
	want(t, "mass", float64(total), 40, 1e-9)
}
