package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

// source is the job file and the shop file that a command works on.
type source struct {
	File   string `arg:"" name:"file" help:"The job file; - reads standard input."`
	Shop   string `placeholder:"FILE" help:"The shop file: saw, timber, prices, people, driver, tape. Without it, shop.yaml in the user's bowerwright config folder is used if it is there."`
	Prices string `placeholder:"FILE" help:"A price list, CSV with the columns name, pack and price: a packet's buying.csv filled in is one. Its prices go over those of the files."`
}

// A job file larger than this is refused before it is read into memory; jobfile
// refuses what is over its own, smaller limit with a proper message.
const mostBytes = 4 << 20

// read gives the job as asked, with whatever is to be put right.
func (s source) read(e *env) (job.Spec, *jobfile.File, snag.List, error) {
	text, err := readFile(s.File)
	if err != nil {
		return job.Spec{}, nil, nil, err
	}
	shopName, shop, err := s.shop()
	if err != nil {
		return job.Spec{}, nil, nil, err
	}
	e.log.Debug("read", "job", s.File, "bytes", len(text), "shop", shopName)
	spec, file, snags := jobfile.Read(text, s.name(), shop, shopName)
	if s.Prices != "" {
		list, err := readFile(s.Prices)
		if err != nil {
			return job.Spec{}, nil, nil, err
		}
		snags.Add(file.Prices(&spec, list, s.Prices)...)
		snags.Sort()
	}
	return spec, file, snags, nil
}

// name is what messages call the job file.
func (s source) name() string {
	if s.File == "-" {
		return "standard input"
	}
	return s.File
}

// stem is the job file's name without folder and ending.
func (s source) stem() string {
	if s.File == "-" {
		return "job"
	}
	base := filepath.Base(s.File)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// shop finds the shop file: the one named, else the user's own, else none.
func (s source) shop() (string, []byte, error) {
	if s.Shop != "" {
		text, err := readFile(s.Shop)
		return s.Shop, text, err
	}
	dir, err := os.UserConfigDir()
	if err != nil { // no home: nothing to read there
		return "", nil, nil
	}
	name := filepath.Join(dir, "bowerwright", "shop.yaml")
	text, err := readFile(name)
	var f failure
	if errors.As(err, &f) && f.missing {
		return "", nil, nil
	}
	return name, text, err
}

func readFile(name string) ([]byte, error) { return readUpTo(name, mostBytes, "job file") }

// readUpTo reads a file of some kind that is never larger than most.
func readUpTo(name string, most int64, what string) ([]byte, error) {
	if name == "-" {
		return readAll("standard input", os.Stdin, most, what)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, failure{code: exitIO, text: "cannot read: " + plain(err), missing: errors.Is(err, fs.ErrNotExist)}
	}
	defer f.Close()
	return readAll(name, f, most, what)
}

func readAll(name string, r io.Reader, most int64, what string) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, most+1))
	if err != nil {
		return nil, failf(exitIO, "cannot read: %s", plain(err))
	}
	if int64(len(text)) > most {
		return nil, failure{code: exitPutRight, text: fmt.Sprintf("%s is over %d MB: no %s is; name the right file", name, most>>20, what)}
	}
	return text, nil
}

// plain drops the name of the system call that Go puts before a path.
func plain(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return fmt.Sprintf("%s: %v", p.Path, p.Err)
	}
	return err.Error()
}
