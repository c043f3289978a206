package cli

import (
	"context"
	"io"

	"bowerwright/internal/web"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

var _ web.Desk = desk{}

// A desk works jobs out for the pages as the commands do it.
type desk struct {
	env      *env
	shop     []byte
	shopName string
}

// jobName is what messages call the file of a job that is kept in the store.
const jobName = "job file"

// Read implements web.Desk.
func (d desk) Read(text []byte) (job.Spec, *jobfile.File, snag.List) {
	return jobfile.Read(text, jobName, d.shop, d.shopName)
}

// Stand implements web.Desk.
func (d desk) Stand(ctx context.Context, spec job.Spec, file *jobfile.File) (job.Result, snag.List, error) {
	r, snags, err := job.Stand(ctx, spec, job.BuiltIn())
	for i := range snags {
		snags[i].Place = file.Locate(snags[i].Place.Path)
	}
	snags.Sort()
	return r, snags, err
}

// Plan implements web.Desk.
func (d desk) Plan(ctx context.Context, spec job.Spec, file *jobfile.File) (job.Result, snag.List, error) {
	e := *d.env
	e.ctx = ctx
	return plan(&e, spec, file)
}

// Paper implements web.Desk.
func (d desk) Paper(w io.Writer, r job.Result, name string) (bool, error) {
	if name == "result.json" {
		data, err := marshal(r)
		if err == nil {
			_, err = w.Write(data)
		}
		return true, err
	}
	for _, p := range packetPapers {
		if p.name == name {
			return true, p.draw(w, r)
		}
	}
	return false, nil
}
