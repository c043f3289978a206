package job

// FixingFacts are how every seam is fixed: what is drilled and driven where, and
// what goes into the bags.
type FixingFacts struct{}
