package cli

import (
	"fmt"

	"bowerwright/jobfile"
)

type schemaCmd struct {
	Of string `arg:"" name:"job, result, cut-list or progress" enum:"job,result,cut-list,progress" help:"Which schema."`
}

// Run prints a published JSON Schema.
func (c *schemaCmd) Run(e *env) error {
	data := jobfile.Schema()
	switch c.Of {
	case "result":
		data = jobfile.ResultSchema()
	case "cut-list":
		data = jobfile.CutListSchema()
	case "progress":
		data = jobfile.ProgressSchema()
	}
	if _, err := e.out.Write(data); err != nil {
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	return nil
}

type versionCmd struct{}

// Run prints the version.
func (versionCmd) Run(e *env) error {
	fmt.Fprintln(e.out, "bowerwright", e.version)
	return nil
}
