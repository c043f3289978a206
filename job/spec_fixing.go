package job

// A FixingAsked is what the job says about how seams are fixed, dressed and
// looked at. The zero value leaves everything to package fixing.
type FixingAsked struct{}
