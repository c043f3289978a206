package packet

import "bowerwright/job"

// drilling are the papers of the seams: what is drilled and driven, and the bags.
func drilling(b *book, r job.Result) {}
