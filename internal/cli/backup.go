package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"time"

	"bowerwright/internal/store"
)

type backupCmd struct {
	Dir string `arg:"" help:"The folder in which jobs are kept. It may be in use meanwhile."`
	Out string `short:"o" required:"" placeholder:"FILE" help:"The file to write. One that is there is not overwritten."`
}

// Run writes all jobs to one file, which has been looked over when it is there.
func (c *backupCmd) Run(e *env) error {
	a, err := store.Backup(e.ctx, c.Dir, c.Out)
	switch {
	case errors.Is(err, fs.ErrExist):
		return failf(exitIO, "%s is already there and was left as it is; choose another name", c.Out)
	case errors.Is(err, fs.ErrNotExist):
		return failf(exitIO, "%s holds no jobs: %s", c.Dir, plain(err))
	case err != nil:
		return cannotOpen(c.Dir, err)
	}
	fmt.Fprintf(e.out, "Written to %s: %s, %s, looked over. Keep it on another disk.\n", c.Out, counted(a.Jobs, "job"), counted(a.Revisions, "revision"))
	return nil
}

type restoreCmd struct {
	File string `arg:"" help:"A file that backup has written."`
	Dir  string `arg:"" help:"The folder for the jobs. What is in it is kept under another name."`
}

// Run puts a backup back in its place.
func (c *restoreCmd) Run(e *env) error {
	a, kept, err := store.Restore(e.ctx, c.File, c.Dir, time.Now)
	switch {
	case errors.Is(err, store.ErrDamaged), errors.Is(err, store.ErrForeign), errors.Is(err, store.ErrNewer):
		return failf(exitIO, "%v. Nothing was changed", err)
	case err != nil:
		return cannotOpen(c.Dir, err)
	}
	fmt.Fprintf(e.out, "%s now holds %s, %s.\n", c.Dir, counted(a.Jobs, "job"), counted(a.Revisions, "revision"))
	if kept != "" {
		fmt.Fprintf(e.out, "What was there before is kept as %s.\n", kept)
	}
	return nil
}
