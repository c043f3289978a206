package job

// A MakingAsked is what the job says about gluing, sanding, finish and the dry
// lay. The zero value leaves everything to package making.
type MakingAsked struct{}
