package cli

import (
	"fmt"

	"bowerwright/jobfile"
)

type schemaCmd struct {
	Of string `arg:"" enum:"job,result" help:"job or result."`
}

// Run prints a published JSON Schema.
func (c *schemaCmd) Run(e *env) error {
	data := jobfile.Schema()
	if c.Of == "result" {
		data = jobfile.ResultSchema()
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
