package cli

import (
	"fmt"

	"bowerwright/snag"
)

type checkCmd struct {
	source
}

// Run reads and plans the job without writing anything: what only shows when
// frames are laid out and boards are cut is found too.
func (c *checkCmd) Run(e *env) error {
	spec, file, snags, err := c.read(e)
	if err != nil {
		return err
	}
	if snags.Stops() {
		return e.putRight(withSense(e, spec, file, snags), file)
	}
	result, more, err := plan(e, spec, file)
	if err != nil {
		return err
	}
	if more.Stops() {
		return e.putRight(more, file)
	}
	fmt.Fprint(e.out, snag.Text(append(snags, more...), file.Source, snag.Width))
	for _, n := range result.Notes {
		fmt.Fprintf(e.out, "note: %s: %s. %s\n", n.Where, n.Text, n.Do)
	}
	fmt.Fprintf(e.out, "%s: nothing to put right\n", c.name())
	return over(result)
}
