package packet

import (
	"time"

	"bowerwright/drawing/pdf"
	"bowerwright/job"
)

// Cutting lays out the papers of a bare cut list: what to take and how to saw
// it, and what was assumed.
func Cutting(r job.Result, made time.Time) pdf.Doc {
	b := &book{tab: 1}
	b.flow(benchPaper(r))
	p := cuttingPaper(r)
	p.joins = false
	b.flow(p)
	b.flow(stopsPaper(r))
	b.flow(sawPaper(r))
	b.flow(assumedPaper(r))
	b.pages[0].head()
	d := b.doc(r, made)
	d.Subject = "Cutting of a bare list"
	return d
}
