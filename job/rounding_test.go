package job

import (
	"context"
	"fmt"
	"testing"

	"bowerwright/unit"
)

// A kite rounds to two lengths, not four: its halves stay mirror images, and the
// last joint still closes within the tolerance.
func TestKiteStaysAlike(t *testing.T) {
	s := spec("K = kite: width 14, top 6, bottom 16", "K1 at 0 0")
	p := start(s, BuiltIn())
	if _, _, err := p.run(context.Background()); err != nil {
		t.Fatal(err)
	}
	b := p.kinds[0].built
	// By hand: √(7² + 6²) = 9.22 in and √(7² + 16²) = 17.46 in.
	lengths := map[unit.Length]int{}
	for _, q := range b.Parts {
		lengths[q.Outside]++
		if off := q.Outside.MM() - q.Asked; off > 25.4/16 || off < -25.4/16 {
			t.Errorf("side %d is %.2f mm off", q.Side, off)
		}
	}
	if len(lengths) != 2 || b.Closing.Left > p.set.tolerance.MM() || len(b.Closing.Fitted) > 0 {
		t.Errorf("%v, %+v", lengths, b.Closing)
	}
	// A pinned side stays as it is pinned.
	set := p.kinds[0]
	set.pins = map[int]unit.Length{1: set.built.Parts[0].Outside}
	p.roundAll()
	if set.built.Parts[0].Outside != set.pins[1] {
		t.Error("a pin is lost")
	}
}

// Every step of a mark either way is tried once, the fewest first.
func TestNearSteps(t *testing.T) {
	all := nearSteps(3)
	seen := map[string]bool{}
	last := 0
	for _, s := range all {
		n := 0
		for _, x := range s {
			n += max(x, -x)
		}
		if n < last {
			t.Errorf("%v comes after %d marks", s, last)
		}
		last = n
		seen[fmt.Sprint(s)] = true
	}
	if len(all) != 27 || len(seen) != 27 || fmt.Sprint(all[0]) != "[0 0 0]" {
		t.Errorf("%d ways, %d unlike, first %v", len(all), len(seen), all[0])
	}
}
