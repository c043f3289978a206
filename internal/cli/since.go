package cli

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"

	"bowerwright/job"
	"bowerwright/jobfile"
)

// since prints in one line what came of changes: since the file or packet named,
// else since the job's own packet. What is tried by flags is tried of an older
// job file too; a packet is as it was written, so that without --than it is
// left out while something is tried.
func (c *standCmd) since(e *env, now job.Result, file *jobfile.File) error {
	if c.Than != "" {
		was, err := c.older(e)
		if err != nil {
			return err
		}
		fmt.Fprintf(e.out, "\nSince %s: %s.\n", c.Than, job.Since(was, now))
		return nil
	}
	if c.Gust+c.Dressing+c.Ballast == "" {
		e.sincePacket(c.stem()+"-packet", now, file.SHA256(), "\n")
	}
	return nil
}

// sincePacket says what came of changes since a packet was written; nothing
// where there is none that can be read, or it is of the same input.
func (e *env) sincePacket(dir string, now job.Result, input, before string) {
	text, err := readUpTo(filepath.Join(dir, "result.json"), mostResult, "result")
	if err != nil {
		return
	}
	was, err := standingOf(text)
	if err != nil || was.InputSHA256 == input || was.Standing == nil || now.Standing == nil {
		return
	}
	fmt.Fprintf(e.out, "%sSince the packet in %s: %s.\n", before, dir, job.Since(was, now))
}

// standingOf reads a result for what is compared, not strictly: that of an older
// program lacks what came later.
func standingOf(text []byte) (r job.Result, err error) {
	if err := json.Unmarshal(text, &r); err != nil {
		return r, fmt.Errorf("it is no result.json: %s", jsonSays(text, err))
	}
	if r.Standing == nil {
		return r, fmt.Errorf("nothing in it says how a set piece stands")
	}
	return r, nil
}

// older is how the job of --than stands.
func (c *standCmd) older(e *env) (job.Result, error) {
	if strings.HasSuffix(c.Than, ".json") {
		text, err := readUpTo(c.Than, mostResult, "result")
		if err != nil {
			return job.Result{}, err
		}
		was, err := standingOf(text)
		if err != nil {
			return was, failf(exitPutRight, "%s: %v", c.Than, err)
		}
		return was, nil
	}
	old := *c
	old.File = c.Than
	spec, file, snags, err := old.read(e)
	if err != nil {
		return job.Result{}, err
	}
	if snags.Stops() {
		return job.Result{}, e.putRight(snags, file)
	}
	if err := old.flags(&spec); err != nil {
		return job.Result{}, fmt.Errorf("%s: %w", c.Than, err)
	}
	was, snags, err := job.StandAsItIs(e.ctx, spec, job.BuiltIn())
	if err != nil {
		return was, err
	}
	for i := range snags {
		snags[i].Place = file.Locate(snags[i].Place.Path)
	}
	if snags.Stops() {
		return was, e.putRight(snags, file)
	}
	return was, nil
}
