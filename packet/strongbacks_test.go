package packet

import (
	"fmt"
	"strings"
	"testing"
)

// Strongbacks have a bag of their own with all their screws, counted in the sum
// of the bags, and their mark is on the cutting paper.
func TestStrongbacksHaveABag(t *testing.T) {
	plain := plannedFrom(t, strings.Replace(standTop, "NAME", "row", 1))
	r := plannedFrom(t, strings.Replace(standTop, "NAME", "row", 1)+"lifting:\n  strongbacks: upright\n")
	mustBeClean(t, "row", r)
	backs := r.Standing.Lift.Backs
	n := 0
	for _, b := range backs {
		n += b.Screws
	}
	if len(backs) != 2 || n == 0 {
		t.Fatalf("%+v", backs)
	}
	bag := fmt.Sprintf("%d × %s, 2 × strongback back+", n, backs[0].Thing)
	mustSay(t, says(Build(r, made)), bag)
	if text := strings.Join(says(Build(plain, made)), "\n"); strings.Contains(text, "strongback back+") {
		t.Error("a bag for strongbacks that are not asked for")
	}
	for _, b := range totalsTable(r) {
		if strings.Contains(strings.Join(b.drawnText(), " "), fmt.Sprint(n)) && strings.Contains(strings.Join(b.drawnText(), " "), "strongbacks") {
			return
		}
	}
	t.Error("the sum of all bags leaves them out")
}
