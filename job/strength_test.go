package job

import (
	"encoding/json"
	"strings"
	"testing"

	"bowerwright/stand"
)

// outside is two hexagons on a plate in a gust, m/s.
func outside(gust float64, change func(*Spec)) Spec {
	s := hexagons()
	s.Base = plateOf(60, 60)
	s.Standing = StandingAsked{Where: "outdoors", Floor: "rough", Gust: gust, NoPush: true}
	if change != nil {
		change(&s)
	}
	return s
}

// hardest is the largest share of the cases whose name has a word.
func hardest(t *testing.T, s Spec, word string) float64 {
	t.Helper()
	worst := -1.0
	for _, c := range resultOf(t, s).Standing.Strength.Cases {
		if strings.Contains(c.Load, word) {
			worst = max(worst, c.Use.Ratio)
		}
	}
	if worst < 0 {
		t.Fatalf("no case is called %q", word)
	}
	return worst
}

// A harder gust is never better for its strength.
func TestHarderGustIsNeverBetter(t *testing.T) {
	last := 0.0
	for _, v := range []float64{4, 6, 8, 10} {
		now := hardest(t, outside(v, nil), "gust")
		if now < last {
			t.Errorf("%g m/s: %g, less before: %g", v, now, last)
		}
		last = now
	}
}

// One screw lets a frame turn, which is named and drawn by its corners; a second
// one gives its seam a share.
func TestOneScrewIsLoose(t *testing.T) {
	one := resultOf(t, outside(6, func(s *Spec) {
		s.Fixing.Seams = []SeamAsked{{Key: "B1 and B2", Frames: [2]string{"B1", "B2"}, One: true}}
	})).Standing.Strength
	two := resultOf(t, outside(6, nil)).Standing.Strength
	if len(one.Loose) == 0 || len(one.Loose[0].Moves) == 0 || !one.Over || len(one.Pivots) != 1 {
		t.Errorf("one screw: %+v", one)
	}
	if len(two.Loose) != 0 || len(two.Seams) != 1 || two.Seams[0].Use.Ratio <= 0 {
		t.Errorf("two screws: %+v", two)
	}
}

// A metric job says its gusts in km/h alone, and no force has a sign that is
// nothing.
func TestStrengthSpeaksTheJobsUnits(t *testing.T) {
	f := resultOf(t, outside(8, func(s *Spec) { s.Show = "metric" })).Standing.Strength
	for _, c := range f.Cases {
		if strings.Contains(c.Load, "mph") {
			t.Errorf("%s", c.Load)
		}
	}
	text, err := json.Marshal(f)
	if err != nil || strings.Contains(f.Says+f.MoveCase, "mph") || strings.Contains(string(text), `"-0`) {
		t.Errorf("%v %s", err, text)
	}
}

// Frames that turn about a single screw are told of before all else, and a second
// screw is the first change, alone or with others.
func TestLooseFramesComeFirst(t *testing.T) {
	s := spec("H = hexagon: flats 18", "H1 at 0 0", "H2 side 1 on H1 side 4", "H3 side 1 on H2 side 4")
	s.Base = plateOf(40, 30)
	s.Fixing.Seams = []SeamAsked{{Key: "H1 and H2", Frames: [2]string{"H1", "H2"}, One: true}, {Key: "H2 and H3", Frames: [2]string{"H2", "H3"}, One: true}}
	f := stood(t, s)
	if !strings.Contains(f.Says, "can move without resistance") || len(f.Strength.Loose) == 0 {
		t.Errorf("%s", f.Says)
	}
	if len(f.WaysOut) == 0 || !strings.HasPrefix(f.WaysOut[0].Says, "a second screw between ") || strings.Contains(f.WaysOut[0].After, "without resistance") {
		t.Errorf("%+v", f.WaysOut)
	}
	if two := stood(t, with(s, func(s *Spec) { s.Fixing.Seams = nil })); len(two.Strength.Loose) != 0 {
		t.Errorf("%+v", two.Strength.Loose)
	}
}

// A gust over the stop is over, however well the piece would stand: nothing stays
// up then.
func TestGustOverTheStop(t *testing.T) {
	for mph, over := range map[float64]bool{29: false, 31: true} {
		f := onFeet(t, box24(func(s *Spec) {
			firm(s)
			s.Standing.Where, s.Standing.Floor, s.Standing.Gust = "outdoors", "rough", float64(stand.FromMPH(mph))
		}))
		if tips(f) != over {
			t.Errorf("a gust of %g mph: %s", mph, f.Stays)
		}
	}
}
