package job

import (
	"context"
	"strings"
	"testing"
)

// resultOf is a job as far as standing.
func resultOf(t *testing.T, s Spec) Result {
	t.Helper()
	r, snags, err := StandAsItIs(context.Background(), s, BuiltIn())
	if err != nil || len(snags) > 0 {
		t.Fatal(err, snags)
	}
	return r
}

// One line says what a drape, a second screw and ballast do; what did not change
// is not in it.
func TestSince(t *testing.T) {
	out := func(s *Spec) { s.Standing = StandingAsked{Where: "outdoors", Floor: "rough", Gust: 6, NoPush: true} }
	one := func(s *Spec) {
		out(s)
		s.Fixing.Seams = []SeamAsked{{Key: "B1 and B2", Frames: [2]string{"B1", "B2"}, One: true}}
	}
	for _, c := range []struct {
		name          string
		before, after func(s *Spec)
		has, lacks    []string
	}{
		{"drape", out, func(s *Spec) {
			out(s)
			s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1, Closes: ptr(1.0)}}}}
		}, []string{"with draped", "standing 0.", "lowest gust limit by calculation 30 mph (bare) to ", "mph (draped)"}, []string{"seam", "ballast", "lifting"}},
		{"one screw to two", one, out, []string{"seam 1 (B1 and B2), 1 screw to 2 screws: "}, []string{"draped", "gust limit", "seam 2", "standing"}},
		{"two screws to one", out, one, []string{"seam 1 (B1 and B2), 2 screws to 1 screw: ", "strength now over: B1 can move without resistance"}, []string{"gust limit", "seam 2", "standing"}},
		{"nothing", out, out, []string{"as they were"}, []string{";"}},
		{"ballast", func(s *Spec) { s.Base = nil }, func(s *Spec) {
			s.Standing.Ballast = []BallastAsked{{Name: "bag", Mass: 10, Length: ins(18), Width: ins(10), Height: ins(5), Owned: 30}}
		}, []string{" of ballast"}, []string{"with", "seam"}},
	} {
		base := func(change func(*Spec)) Spec {
			s := hexagons()
			s.Base = plateOf(60, 60)
			change(&s)
			return s
		}
		got := Since(resultOf(t, base(c.before)), resultOf(t, base(c.after)))
		t.Log(c.name, "|", got)
		for _, h := range c.has {
			if !strings.Contains(got, h) {
				t.Errorf("%s: %q does not say %q", c.name, got, h)
			}
		}
		for _, h := range c.lacks {
			if strings.Contains(got, h) {
				t.Errorf("%s: %q says %q", c.name, got, h)
			}
		}
		if strings.Contains(got, "\n") || strings.Contains(got, "safe") {
			t.Errorf("%s: %q", c.name, got)
		}
	}
	if Since(Result{}, resultOf(t, hexagons())) != "" {
		t.Error("a bare list has something to say")
	}
}
