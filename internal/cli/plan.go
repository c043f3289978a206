package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"bowerwright/internal/folder"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

type planCmd struct {
	source
	doneFlag
	Out   string `short:"o" placeholder:"DIR" help:"The folder for the packet. Without it: NAME-packet in this folder, or none with --json."`
	JSON  bool   `name:"json" help:"Print result.json on standard output."`
	Units string `placeholder:"in|mm" enum:",in,mm" default:"" help:"Which units come first on paper: in or mm. Without it, what the job file says."`
}

// Run works out the job and writes its packet.
func (c *planCmd) Run(e *env) error {
	spec, file, snags, err := c.source.read(e)
	if err != nil {
		return err
	}
	done, err := c.doneFlag.read(e)
	if err != nil {
		return err
	}
	if snags.Stops() {
		return e.tell(done.with(withSense(e, spec, file, snags)), done.source(file.Source))
	}
	if done.stops() {
		return e.tell(done.snags, done.file.Source)
	}
	switch c.Units {
	case "in":
		spec.Show = "us"
	case "mm":
		spec.Show = "metric"
	}
	result, more, err := planAfter(e, spec, file, done)
	if err != nil {
		return err
	}
	if more.Stops() {
		return e.tell(more, done.source(file.Source))
	}
	if err := c.deliver(e, result); err != nil {
		return err
	}
	return over(result)
}

// plan runs the pipeline and puts file and line to what it finds.
func plan(e *env, spec job.Spec, file *jobfile.File) (job.Result, snag.List, error) {
	result, snags, err := job.Plan(e.ctx, spec, job.BuiltIn())
	if err != nil {
		return result, nil, err
	}
	result.MadeBy = "bowerwright " + e.version
	result.InputSHA256 = file.SHA256()
	result.Mark = strings.ToUpper(result.InputSHA256[:4])
	for i := range snags {
		snags[i].Place = file.Locate(snags[i].Place.Path)
	}
	snags.Sort()
	e.log.Debug("planned", "frames", len(result.Frames), "seams", len(result.Seams), "snags", len(snags))
	return result, snags, nil
}

// withSense adds what is wrong with the sense of a job whose text has snags
// already, so that all is told at once. What could follow from those snags is
// left out: the same kind, line or timber, and everything when the job cannot
// be worked out without what is missing.
func withSense(e *env, spec job.Spec, file *jobfile.File, snags snag.List) snag.List {
	if len(spec.Kinds) == 0 || len(spec.Timber) == 0 || len(spec.Layout) == 0 {
		return snags
	}
	_, more, err := plan(e, spec, file)
	if err != nil {
		return snags
	}
	told := map[string]bool{}
	for _, s := range snags {
		told[group(s.Place.Path)] = true
	}
	for _, s := range more {
		if !told[group(s.Place.Path)] {
			snags.Add(s)
		}
	}
	snags.Sort()
	return snags
}

// group is the part of a path that names one kind, line or timber.
func group(path string) string {
	parts := strings.SplitN(path, ".", 3)
	return strings.Join(parts[:min(2, len(parts))], ".")
}

// deliver prints the result or writes the packet, or both.
func (c *planCmd) deliver(e *env, r job.Result) error {
	data, err := marshal(r)
	if err != nil {
		return err
	}
	if c.JSON {
		if _, err := e.out.Write(data); err != nil {
			return failf(exitIO, "cannot write: %s", plain(err))
		}
	}
	dir := c.Out
	if dir == "" {
		if c.JSON {
			return nil
		}
		dir = c.stem() + "-packet"
	}
	// Asked before the papers are drawn: a refusal should be quick.
	if err := folder.Check(dir); err != nil {
		return failf(exitIO, "%v. Name an empty folder, or one with an earlier packet, with -o", err)
	}
	files, err := papers(r, data)
	if err != nil {
		return err
	}
	if err := e.ctx.Err(); err != nil {
		return err
	}
	edited, _ := folder.Changed(dir, files) // Write tells what is wrong with the folder
	if err := folder.Write(dir, files); err != nil {
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	for _, name := range edited {
		fmt.Fprintf(e.errOut, "bowerwright: %s had been changed by hand; it is kept as %s.kept\n", name, name)
	}
	if !c.JSON {
		e.summary(r, dir, files)
	}
	return nil
}

// marshal writes result.json: indented, so that two of them can be compared by
// eye, and without escapes for < and >.
func marshal(r job.Result) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	r.Seal = job.Seal(r)
	err := enc.Encode(r)
	return b.Bytes(), err
}

// summary says in a few lines what was found, on standard output.
func (e *env) summary(r job.Result, dir string, files []folder.File) {
	size := func(s job.Size) string {
		if r.Job.Show == "metric" {
			return s.Metric
		}
		return s.US
	}
	fmt.Fprintf(e.out, "%s: %s, %s, %s wide, %s high\n", r.Job.Name,
		counted(r.Overall.FrameCount, "frame"), counted(r.Overall.SeamCount, "seam"), size(r.Overall.Width), size(r.Overall.Height))
	for _, t := range r.Timber {
		long := ""
		if len(t.Stocks) == 1 {
			long = ", " + size(t.Length) + " long"
		}
		fmt.Fprintf(e.out, "  %s, %s%s: %s\n", t.Name, t.Laid, long, t.Claim)
	}
	fmt.Fprintf(e.out, "  to buy: %s\n", toBuy(r.Buying))
	if r.Progress != nil {
		fmt.Fprintf(e.out, "  %s\n", r.Progress.Says)
	}
	for _, n := range r.Notes {
		fmt.Fprintf(e.out, "  note: %s. %s\n", n.Text, n.Do)
	}
	fmt.Fprintf(e.out, "  %s\n", r.Banner)
	fmt.Fprintf(e.out, "Written to %s:", dir)
	for _, f := range files {
		fmt.Fprintf(e.out, " %s", f.Name)
	}
	fmt.Fprintln(e.out)
}

// toBuy is the buying list in a line.
func toBuy(b job.BuyingFacts) string {
	words := counted(b.Lines, "line")
	if b.Currency == "" {
		return words + ", no prices yet"
	}
	words += ", " + b.Total + " " + b.Currency + " in all"
	if b.Without != "" {
		words += ", " + b.Without
	}
	return words
}
