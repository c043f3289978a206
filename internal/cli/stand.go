package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"bowerwright/internal/folder"
	"bowerwright/job"
	"bowerwright/jobfile"
)

type standCmd struct {
	source
	Gust     string `placeholder:"V" help:"Try this 3-second gust instead of the job's: 22 mph, 35 km/h or 10 m/s."`
	Dressing string `placeholder:"NAME" help:"Try this way of dressing alone; bare is the piece without any."`
	Ballast  string `placeholder:"W" help:"Put this weight, 60 lb or 30 kg, in the middle of what it stands on, instead of the units that the job names."`
	Than     string `placeholder:"OLD" help:"Say in one line what has changed since OLD, an earlier job file or the result.json of a packet. Without it, and without other changes, since the packet of this job where one is there."`
	JSON     bool   `name:"json" help:"Print what stands under standing in result.json, and nothing else."`
	Apply    int    `placeholder:"N" help:"Write change N of those listed into the job file; the file as it was is kept beside it."`
}

// Run says whether the set piece stays on its feet by calculation, and what
// helps. It writes no papers.
func (c *standCmd) Run(e *env) error {
	spec, file, snags, err := c.read(e)
	if err != nil {
		return err
	}
	if snags.Stops() {
		return e.putRight(snags, file)
	}
	if err := c.flags(&spec); err != nil {
		return err
	}
	result, err := c.stand(e, spec, file)
	if err != nil {
		return err
	}
	s := result.Standing
	switch {
	case c.Apply != 0:
		return c.apply(e, spec, file, s)
	case c.JSON:
		enc := json.NewEncoder(e.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(s); err != nil {
			return failf(exitIO, "cannot write: %s", plain(err))
		}
	default:
		fmt.Fprint(e.out, standText(result))
		if err := c.since(e, result, file); err != nil {
			return err
		}
	}
	return overStanding(s)
}

// flags put what is typed in place of what the job says.
func (c *standCmd) flags(spec *job.Spec) error {
	at := &spec.Standing
	if c.Gust != "" {
		v, err := jobfile.Speed(c.Gust)
		if err != nil {
			return failf(exitUsage, "--gust: %v", err)
		}
		at.Gust, at.Mean = v, 0
	}
	if c.Ballast != "" {
		m, err := jobfile.Weight(c.Ballast)
		if err != nil {
			return failf(exitUsage, "--ballast: %v", err)
		}
		at.Ballast, at.Heap = nil, m
	}
	if c.Dressing == "" {
		return nil
	}
	names := []string{}
	for _, w := range spec.Dressing {
		names = append(names, w.Name)
	}
	if c.Dressing != "bare" && !slices.Contains(names, c.Dressing) {
		return failf(exitUsage, "--dressing: the job has no way of dressing %q; it has: %s", c.Dressing, strings.Join(append([]string{"bare"}, names...), ", "))
	}
	at.Way = c.Dressing
	return nil
}

// stand runs the pipeline as far as standing and puts file and line to snags.
func (c *standCmd) stand(e *env, spec job.Spec, file *jobfile.File) (job.Result, error) {
	result, snags, err := job.Stand(e.ctx, spec, job.BuiltIn())
	if err != nil {
		return result, err
	}
	for i := range snags {
		snags[i].Place = file.Locate(snags[i].Place.Path)
	}
	snags.Sort()
	if snags.Stops() {
		return result, e.putRight(snags, file)
	}
	return result, nil
}

func overStanding(s *job.StandingFacts) error {
	if s.Over {
		return failf(exitOver, "%s", s.Says)
	}
	return nil
}

// apply writes one way out into the job file. It is tried as the file then
// says it before anything is written.
func (c *standCmd) apply(e *env, spec job.Spec, file *jobfile.File, s *job.StandingFacts) error {
	if c.File == "-" {
		return failf(exitUsage, "--apply needs a job file to write to, not standard input")
	}
	if c.Apply < 1 || c.Apply > len(s.WaysOut) {
		if len(s.WaysOut) == 0 {
			return failf(exitUsage, "nothing is over, so there is no change to write")
		}
		return failf(exitUsage, "there is no change %d; they are numbered 1 to %d", c.Apply, len(s.WaysOut))
	}
	way := s.WaysOut[c.Apply-1]
	text, err := jobfile.Edit(file.Bytes(), way.Edits)
	if err != nil {
		return failf(exitPutRight, "%v", err)
	}
	after, err := c.tried(e, text)
	if err != nil {
		return err
	}
	if after.Says != way.After {
		return fmt.Errorf("change %d, written into the file, gives %q and not %q", c.Apply, after.Says, way.After)
	}
	kept, err := keep(c.File, file.Bytes())
	if err != nil {
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	if err := folder.WriteFile(c.File, text); err != nil {
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	fmt.Fprintf(e.out, "Written into %s: %s. The file as it was is %s.\n\n", c.File, way.Says, kept)
	fmt.Fprint(e.out, diff(string(file.Bytes()), string(text)))
	fmt.Fprintf(e.out, "\nNow: %s.\n", after.Says)
	return overStanding(after)
}

// tried reads a changed job file with the same flags and shop file, and says how
// it stands then.
func (c *standCmd) tried(e *env, text []byte) (*job.StandingFacts, error) {
	shopName, shop, err := c.shop()
	if err != nil {
		return nil, err
	}
	spec, file, snags := jobfile.Read(text, c.name(), shop, shopName)
	if snags.Stops() {
		return nil, e.putRight(snags, file)
	}
	if err := c.flags(&spec); err != nil {
		return nil, err
	}
	result, err := c.stand(e, spec, file)
	return result.Standing, err
}

// keep writes the file as it was beside it, under a name that is free.
func keep(name string, text []byte) (string, error) {
	ext := filepath.Ext(name)
	stem := strings.TrimSuffix(name, ext)
	for i := 1; ; i++ {
		kept := stem + "-before" + ext
		if i > 1 {
			kept = stem + "-before-" + strconv.Itoa(i) + ext
		}
		f, err := os.OpenFile(kept, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if errors.Is(err, os.ErrExist) {
			continue
		}
		if err != nil {
			return "", err
		}
		_, err = f.Write(text)
		return kept, errors.Join(err, f.Close())
	}
}

// diff shows the lines that differ, with + and -, each run below the line that
// stands before it.
func diff(before, after string) string {
	a, b := strings.Split(before, "\n"), strings.Split(after, "\n")
	// longest[i][j] is how many lines a from i and b from j have in common.
	longest := make([][]int, len(a)+1)
	for i := range longest {
		longest[i] = make([]int, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if longest[i][j] = max(longest[i+1][j], longest[i][j+1]); a[i] == b[j] {
				longest[i][j] = longest[i+1][j+1] + 1
			}
		}
	}
	var out strings.Builder
	same := true
	for i, j := 0, 0; i < len(a) || j < len(b); {
		switch {
		case i < len(a) && j < len(b) && a[i] == b[j]:
			i, j, same = i+1, j+1, true
			continue
		case same && i > 0:
			fmt.Fprintf(&out, "  %s\n", strings.TrimRight(a[i-1], "\r"))
		}
		same = false
		if i < len(a) && (j == len(b) || longest[i+1][j] >= longest[i][j+1]) {
			fmt.Fprintf(&out, "- %s\n", strings.TrimRight(a[i], "\r"))
			i++
		} else {
			fmt.Fprintf(&out, "+ %s\n", strings.TrimRight(b[j], "\r"))
			j++
		}
	}
	return out.String()
}
