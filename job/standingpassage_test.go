package job

import (
	"math"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// What is spread beside passages stands in none of them, in order, evenly; with
// none, and where there is no room beside them, as if they were not there.
func TestBeside(t *testing.T) {
	for i, x := range spreadBeside(nil, 120, 12, 3) {
		if want := []float64{20, 60, 100}[i]; math.Abs(x-want) > 1e-9 {
			t.Errorf("%g, want %g", x, want)
		}
	}
	if xs := spreadBeside([]geom.Interval{{From: 2, To: 118}}, 120, 12, 2); xs[0] != 30 || xs[1] != 90 {
		t.Errorf("no room: %v", xs)
	}
	rapid.Check(t, func(t *rapid.T) {
		from := rapid.Float64Range(10, 50).Draw(t, "from")
		way := geom.Interval{From: from, To: from + rapid.Float64Range(1, 40).Draw(t, "wide")}
		wide, n := rapid.Float64Range(1, 10).Draw(t, "foot"), rapid.IntRange(1, 7).Draw(t, "n")
		last := -1.0
		xs := spreadBeside([]geom.Interval{way}, 100, wide, n)
		if len(xs) != n {
			t.Fatalf("%d of %d", len(xs), n)
		}
		for _, x := range xs {
			if x <= last || x < 0 || x > 100 || x+wide/2 > way.From+1e-9 && x-wide/2 < way.To-1e-9 {
				t.Fatalf("%g, %g wide, in the way from %g to %g", x, wide, way.From, way.To)
			}
			last = x
		}
	})
}

// gate is an arch with a box on each side, so that there is room beside the way
// through.
func gate(change func(*Spec)) Spec {
	s := spec("A = arch: segments 7, outside 110", "S = square: side 18", "A1 at 0 0", "S1 at -66 0", "S2 at 66 0")
	s.Base = plateOf(190, 48)
	if change != nil {
		change(&s)
	}
	return s
}

// Braces keep clear of an arch's opening when they are spread and when they are
// proposed; one that the job puts there is noted. No bolts go up into end grain.
func TestBracesKeepTheWayClear(t *testing.T) {
	brace := BaseAsked{Name: "struts", Kind: "brace", Count: 2, Behind: ins(24), Fixed: ins(48), Width: ins(2), Mass: ptr(unit.Mass(5))}
	clear := resultOf(t, gate(func(s *Spec) { s.Base = append(s.Base, brace) }))
	if n := noted(clear, "brace-in-the-way"); len(n) != 0 {
		t.Errorf("%+v", n)
	}
	from, to := clear.Openings[0].From, clear.Openings[0].To
	for _, p := range clear.Standing.Plan.Pieces {
		if x := p.On[0][0][0] + 25.4; p.Name == "struts" && x > from && x < to {
			t.Errorf("a brace at %g stands between %g and %g", x, from, to)
		}
	}
	one := brace
	one.Count, one.Left = 1, ptr(ins(30))
	if n := noted(resultOf(t, gate(func(s *Spec) { s.Base = append(s.Base, one) })), "brace-in-the-way"); len(n) != 1 || n[0].Where != "base.struts" {
		t.Errorf("%+v", n)
	}
	alone := spec("A = arch: segments 7, outside 110", "A1 at 0 0")
	alone.Base = append(plateOf(110, 48), brace)
	if n := noted(resultOf(t, alone), "brace-in-the-way"); len(n) != 1 {
		t.Errorf("no room beside the way, and no note: %+v", n)
	}
	f := stood(t, gate(nil))
	for _, w := range f.WaysOut {
		if strings.Contains(w.Says, "bolts with washers at every frame on the base") {
			t.Errorf("bolts into end grain: %s", w.Says)
		}
	}
}
