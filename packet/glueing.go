package packet

import "bowerwright/job"

// glueing are the papers of gluing up, sanding and finish.
func glueing(b *book, r job.Result) {}
