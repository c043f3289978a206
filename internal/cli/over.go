package cli

import (
	"strings"

	"bowerwright/job"
	"bowerwright/stand"
)

// overLine says what is over, whatever word the verdict starts with.
func overLine(s *job.StandingFacts) string {
	return stand.Over + ": " + strings.TrimPrefix(s.Says, stand.Over+": ")
}

// over tells, after the work is done, what is over its limit: the papers are
// written all the same, and say so where it matters.
func over(r job.Result) error {
	var says []string
	if s := r.Standing; s != nil && s.Over {
		says = append(says, overLine(s))
	}
	if n := len(r.Fixing.Undone); n > 0 {
		says = append(says, counted(n, "seam")+" cannot be fixed as drawn: see the notes")
	}
	if s := r.Sections; s != nil && s.Over {
		says = append(says, "on the way: "+strings.TrimPrefix(s.Says, "over: "))
	}
	if says == nil {
		return nil
	}
	return failf(exitOver, "%s", strings.Join(says, "; "))
}
