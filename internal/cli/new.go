package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"unicode"

	"bowerwright/jobfile"
)

type newCmd struct {
	Name string `arg:"" help:"What the job is called; the file is named after it."`
}

// Run writes a commented job file that plans as it stands. A file that is
// already there is never touched.
func (c *newCmd) Run(e *env) error {
	name := fileName(c.Name)
	if name == "" {
		return failf(exitUsage, "%q leaves nothing for a file name; write a name with letters or figures", c.Name)
	}
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return failf(exitIO, "%s is already there and was left as it is; choose another name", name)
	}
	if err != nil {
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	_, err = f.Write(jobfile.Starter(strings.TrimSpace(c.Name)))
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(name)
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	fmt.Fprintf(e.out, "Written to %s. Next: bowerwright plan %s\n", name, name)
	return nil
}

// fileName turns a job's name into a file name that is plain on every system:
// lower-case letters and figures joined by hyphens.
func fileName(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	if len(words) == 0 {
		return ""
	}
	return strings.Join(words, "-") + ".yaml"
}
