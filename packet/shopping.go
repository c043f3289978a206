package packet

import "bowerwright/job"

// buyingPaper is everything to buy, in whole packs, with what it costs.
func buyingPaper(r job.Result) paper { return paper{} }
