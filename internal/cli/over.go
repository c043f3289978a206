package cli

import "bowerwright/job"

// over tells, after the work is done, what is over its limit: the papers are
// written all the same, and say so where it matters.
func over(r job.Result) error {
	if n := len(r.Fixing.Undone); n > 0 {
		return failf(exitOver, "%s cannot be fixed as drawn: see the notes", counted(n, "seam"))
	}
	return nil
}
