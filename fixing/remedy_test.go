package fixing

import (
	"strings"
	"testing"

	"bowerwright/unit"
)

// What helps is never what is there already: bolts are not mended with bolts,
// nor are boards on edge with plates.
func TestRemedyIsAnotherWay(t *testing.T) {
	for _, code := range []Code{TooShort, TooThin, NoReach} {
		for _, c := range []struct {
			bolts, flat bool
			not         []string
		}{
			{true, false, []string{"or use bolts", "shorter bit", "thinner screw", "plates"}}, {true, true, []string{"or use bolts", "shorter bit", "thinner screw"}},
			{false, false, []string{"plates", "battens"}}, {false, true, []string{"use plates", "use battens"}},
		} {
			_, help := Problem{Code: code, Bolts: c.bolts, Flat: c.flat}.Text(unit.Style{})
			for _, not := range c.not {
				if help == "" || strings.Contains(help, not) {
					t.Errorf("%s, bolts %t, flat %t: %q", code, c.bolts, c.flat, help)
				}
			}
		}
	}
	// A spanner that has no room is a matter of bolts.
	l, b := stacked(6, 4.6, oneByFour).build(t)
	_, bad := Fix(l, b, Settings{Often: true, Seams: map[int]Choice{1: {One: true}}, Rules: spanner(6)})
	if len(bad) != 1 || !bad[0].Bolts || bad[0].Flat {
		t.Errorf("%+v", bad)
	}
}

// Of two ways the straight one is taken although a little more of it is seen; one
// from the front only where much less is.
func TestFromTheFrontCounts(t *testing.T) {
	w := workWith(Settings{}) // nine eyes
	w.eyes = make([]Eye, 9)
	way := func(seen int, from Side) trial {
		return trial{fasteners: []Fastener{{From: from}, {From: from}}, looks: make([]look, 2), seen: seen, tool: Straight}
	}
	if w.better(way(0, Front), way(5, NoSide)) || !w.better(way(5, NoSide), way(0, Front)) {
		t.Error("5 of 18 looks outweigh the front")
	}
	if !w.better(way(0, Front), way(7, NoSide)) {
		t.Error("7 of 18 looks do not")
	}
	if !w.better(way(0, Back), way(1, NoSide)) {
		t.Error("from the back is counted as from the front")
	}
}

// The drill is the nearest that is sold in steps of 1/64 in; a hook's is half its
// thread.
func TestPilotDrill(t *testing.T) {
	w := workWith(Settings{})
	for _, g := range w.screws {
		d, exact := PilotDrill(g.Screw, 0.36), Pilot(g.Root, 0.36)
		if off := d - exact; off < -unit.Inch/128 || off > unit.Inch/128 || d%(unit.Inch/64) != 0 {
			t.Errorf("%s: %g mm for %g", g.Name, d.MM(), exact.MM())
		}
	}
	if got := hookHole(unit.Inch / 8); got != unit.Inch/16 {
		t.Errorf("a thread of 1/8 in: %g mm", got.MM())
	}
	if got := hookHole(3 * unit.Millimetre); got != 3*unit.Millimetre/2 {
		t.Errorf("a thread of 3 mm: %g mm", got.MM())
	}
}
