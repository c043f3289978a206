package packet

import "bowerwright/job"

// laying are the papers of the dry lay: the chalk plan, gaps and shims, numbers.
func laying(b *book, r job.Result) {}
