package cli

import (
	"strings"
	"testing"

	"bowerwright/stand"
)

// Two examples are within their limits by changes that the tool proposed, and
// one is over for the reason that it gives itself.
func TestHowExamplesEnd(t *testing.T) {
	ends := map[string]bool{"thistle-wall": false, "hop-lane": false, "lantern-gate": true}
	all := examples(t)
	if len(all) != len(ends) {
		t.Errorf("%d examples, %d known", len(all), len(ends))
	}
	for name, r := range all {
		name = strings.TrimSuffix(name, ".yaml")
		is, known := ends[name]
		if !known {
			t.Errorf("%s: nothing is said of how it ends", name)
			continue
		}
		s := r.Standing
		if err := over(r); s.Over != is || (err != nil) != is {
			t.Errorf("%s: over %v, %v; %s", name, s.Over, err, s.Says)
		}
		if s.Strength == nil || s.Strength.Over != is || s.Lift.Over || strings.HasPrefix(s.Stays, stand.Over) {
			t.Errorf("%s: only strength is to be over: %s; %s; %+v", name, s.Stays, s.Lift.Says, s.Strength)
		}
	}
}
