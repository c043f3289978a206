package job

import (
	"reflect"
	"testing"
)

// What is asked of a seam is written as the job file reads it.
func TestSeamWords(t *testing.T) {
	for want, a := range map[string]SeamAsked{
		"": {}, "one screw": {One: true}, "one bolt": {One: true, Bolts: true}, "two rows": {Rows: 2}, "one row": {Rows: 1},
		"two rows, site seam, screws": {Rows: 2, Site: true, Screws: true}, "site seam, bolts": {Site: true, Bolts: true},
	} {
		if got := a.words(); got != want {
			t.Errorf("%+v: %q, want %q", a, got, want)
		}
	}
}

// Two rows are proposed where every seam of two frames can have them, for a pair
// once: not where plates lie on flat boards, nor where boards are too thin.
func TestRowsAreProposedWhereTheyCanBe(t *testing.T) {
	edge := hexagons()
	thin := with(hexagons(), func(s *Spec) {
		s.Timber[0].Nominal, s.Timber[0].Thickness, s.Timber[0].Width = "", inches("3/4"), inches("1")
	})
	for _, c := range []struct {
		name string
		job  Spec
		want int
	}{{"on edge", edge, 1}, {"flat", spec("B = square: side 24, flat", "B1 at 0 0", "B2 side 1 on B1 side 3"), 0}, {"thin", thin, 0}} {
		p := start(c.job, BuiltIn())
		p.prepare()
		p.layAsked()
		for _, step := range []func(){p.layBuilt, p.facts, p.fix} {
			step()
		}
		if p.err != nil || p.snags.Stops() {
			t.Fatal(c.name, p.err, p.snags)
		}
		got := p.stander().rowsGained(trial{asked: p.outfit()}, [][2]string{{"B1", "B2"}, {"B2", "B1"}})
		if len(got) != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// A line that there is for two frames is the one that is changed.
func TestRowsInTheirLine(t *testing.T) {
	p := start(hexagons(), BuiltIn())
	f := FixingAsked{Seams: []SeamAsked{{Key: "B2, B1", Frames: [2]string{"B2", "B1"}, One: true, Site: true}}}
	a := p.twoRowsAt(&f, [2]string{"B1", "B2"})
	if want := (SeamAsked{Key: "B2, B1", Frames: [2]string{"B2", "B1"}, Rows: 2, Site: true}); a != want || !reflect.DeepEqual(f.Seams, []SeamAsked{want}) {
		t.Errorf("%+v, %+v", a, f.Seams)
	}
	if a = p.twoRowsAt(&f, [2]string{"B1", "B3"}); a.Key != "B1 and B3" || a.words() != "two rows" || len(f.Seams) != 2 {
		t.Errorf("%+v", a)
	}
}
