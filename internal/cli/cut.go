package cli

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"path/filepath"
	"strings"

	"bowerwright/cutlist"
	"bowerwright/internal/folder"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/unit"
)

type cutCmd struct {
	List  string `arg:"" name:"list" help:"The cut list, as CSV or YAML; - reads standard input."`
	Stock string `placeholder:"FILE" help:"The boards that a CSV list is cut from, as CSV or YAML."`
	Shop  string `placeholder:"FILE" help:"The shop file: saw, timber, prices. Without it, shop.yaml in the user's bowerwright config folder is used if it is there."`
	stockFlags
	doneFlag
	Out   string `short:"o" placeholder:"DIR" help:"The folder for the papers. Without it, and without --json, the plan is printed."`
	JSON  bool   `name:"json" help:"Print result.json on standard output."`
	Units string `placeholder:"in|mm" enum:",in,mm" default:"" help:"Which units come first: in or mm. Without it, those of the list."`
}

// Run reads a bare cut list, plans its boards, and prints the plan or writes
// its papers.
func (c *cutCmd) Run(e *env) error {
	in, err := c.read(e)
	if err != nil {
		return err
	}
	done, err := c.doneFlag.read(e)
	if err != nil {
		return err
	}
	if in.snags.Stops() || done.stops() {
		return e.tell(done.with(in.snags), done.source(in.source))
	}
	switch c.Units {
	case "in":
		in.spec.Show = "us"
	case "mm":
		in.spec.Show = "metric"
	}
	result, snags, err := cutAfter(e, in, done)
	if err != nil {
		return err
	}
	done.seal(e, &result, in.hash(), snags, in.locate)
	if snags.Stops() {
		return e.tell(snags, done.source(in.source))
	}
	return c.deliver(e, result)
}

func cutAfter(e *env, in *cutInput, done *sawnSoFar) (job.Result, snag.List, error) {
	if done == nil {
		return job.Cut(e.ctx, in.spec, job.BuiltIn())
	}
	return job.Recut(e.ctx, in.spec, job.BuiltIn(), in.hash(), done.Progress)
}

func (c *cutCmd) deliver(e *env, r job.Result) error {
	data, err := marshal(r)
	if err != nil {
		return err
	}
	switch {
	case c.JSON:
		if _, err := e.out.Write(data); err != nil {
			return failf(exitIO, "cannot write: %s", plain(err))
		}
	case c.Out == "":
		cutText(e.out, r)
	}
	if c.Out == "" {
		return nil
	}
	if err := folder.Check(c.Out); err != nil {
		return failf(exitIO, "%v. Name an empty folder, or one with earlier papers, with -o", err)
	}
	files, err := cutPapers(r, data)
	if err != nil {
		return err
	}
	if err := e.ctx.Err(); err != nil {
		return err
	}
	edited, _ := folder.Changed(c.Out, files)
	if err := folder.Write(c.Out, files); err != nil {
		return failf(exitIO, "cannot write: %s", plain(err))
	}
	for _, name := range edited {
		fmt.Fprintf(e.errOut, "bowerwright: %s had been changed by hand; it is kept as %s.kept\n", name, name)
	}
	if !c.JSON {
		cutSummary(e.out, r)
		fmt.Fprintf(e.out, "Written to %s:", c.Out)
		for _, f := range files {
			fmt.Fprintf(e.out, " %s", f.Name)
		}
		fmt.Fprintln(e.out)
	}
	return nil
}

// A cutInput is a bare cut list and its stock as read from all files.
type cutInput struct {
	spec   job.CutSpec
	snags  snag.List
	bytes  [][]byte // of all files, in order
	tables []table
	file   *jobfile.File
}

// A table is a file of cells.
type table interface {
	Locate(path string) snag.Place
	Source(name string) (string, bool)
}

// source finds the text that a snag lies in.
func (in *cutInput) source(name string) (string, bool) {
	for _, t := range in.tables {
		if s, ok := t.Source(name); ok {
			return s, true
		}
	}
	return in.file.Source(name)
}

func (in *cutInput) locate(path string) snag.Place {
	for _, t := range in.tables {
		if at := t.Locate(path); at.Line > 0 {
			return at
		}
	}
	return in.file.Locate(path)
}

// hash is that of all files, each with its length before it.
func (in *cutInput) hash() string {
	h := sha256.New()
	for _, b := range in.bytes {
		fmt.Fprintf(h, "%d\n", len(b))
		h.Write(b)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// read reads the list and everything that says what it is cut from.
func (c *cutCmd) read(e *env) (*cutInput, error) {
	text, err := readUpTo(c.List, mostBytes, "cut list")
	if err != nil {
		return nil, err
	}
	shopName, shop, err := source{Shop: c.Shop}.shop()
	if err != nil {
		return nil, err
	}
	e.log.Debug("read", "list", c.List, "bytes", len(text), "shop", shopName)
	in := &cutInput{bytes: [][]byte{text, shop}}
	if isYAML(c.List, text) {
		if c.Stock != "" || c.stockFlags.any() {
			return nil, failf(exitUsage, "a list in YAML says itself what it is cut from; --stock and the flags for boards and saw go with a list in CSV")
		}
		in.spec, in.file, in.snags = jobfile.ReadCutList(text, inputName(c.List), shop, shopName)
		if len(in.spec.Parts) == 0 && !in.snags.Stops() {
			in.snags.Add(cutlist.NoParts(snag.Place{File: inputName(c.List)}))
		}
	} else if err := c.table(in, text, shop, shopName); err != nil {
		return nil, err
	}
	if in.spec.Name == "" {
		in.spec.Name = "Cut list"
		if c.List != "-" {
			base := filepath.Base(c.List)
			in.spec.Name = strings.TrimSuffix(base, filepath.Ext(base))
		}
	}
	in.snags.Sort()
	return in, nil
}

// table reads a list of cells, its stock, and the flags, which go over both.
func (c *cutCmd) table(in *cutInput, text, shop []byte, shopName string) error {
	bare := bareUnit(c.Unit)
	list, snags := cutlist.Read(text, inputName(c.List), bare)
	in.tables = append(in.tables, list)
	in.snags.Add(snags...)
	var boards *cutlist.Stock
	if c.Stock != "" {
		if c.stockFlags.boards() {
			return failf(exitUsage, "--stock names the boards already; take it or --size, --thickness, --width, --length and --on-hand out")
		}
		data, err := readUpTo(c.Stock, mostBytes, "stock file")
		if err != nil {
			return err
		}
		in.bytes = append(in.bytes, data)
		switch {
		case !isYAML(c.Stock, data):
			boards, snags = cutlist.ReadStock(data, inputName(c.Stock), bare, money.Currency(strings.ToUpper(c.Currency)))
			in.tables = append(in.tables, boards)
			in.snags.Add(snags...)
		case jobfile.IsShop(data):
			shop, shopName = data, c.Stock
		default:
			in.spec, in.file, snags = jobfile.ReadCutList(data, c.Stock, shop, shopName)
			in.snags.Add(snags...)
			if len(in.spec.Parts) > 0 {
				return failf(exitUsage, "%s has parts of its own; it cannot be the stock of another list", c.Stock)
			}
		}
	}
	flags := []byte(c.stockFlags.text())
	in.bytes = append(in.bytes, flags)
	over, flagFile, snags := jobfile.ReadCutList(flags, flagsName, shopUnder(in.file, shop), shopName)
	in.snags.Add(snags...)
	if in.file == nil {
		in.spec, in.file = over, flagFile
	} else {
		in.tables = append(in.tables, flagFile)
		c.stockFlags.lay(&in.spec.Spec, over.Spec)
	}
	if boards != nil {
		in.spec.Timber = boards.Timber
	}
	c.stockFlags.trims(&in.spec.Spec, over.Spec)
	in.spec.Parts = list.Parts
	in.spec.Show, in.spec.Paper = "us", "letter"
	if list.Metric {
		in.spec.Show, in.spec.Paper = "metric", "a4"
	}
	return nil
}

// shopUnder is the shop file that lies under the flags: none when it lies under
// a stock file already.
func shopUnder(stock *jobfile.File, shop []byte) []byte {
	if stock != nil {
		return nil
	}
	return shop
}

// isYAML tells a YAML file from a table: by its ending, else by its first line.
func isYAML(name string, text []byte) bool {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".yaml", ".yml":
		return true
	case ".csv", ".tsv":
		return false
	}
	for _, l := range bytes.Split(bytes.TrimPrefix(text, []byte("\ufeff")), []byte("\n")) {
		if l = bytes.TrimSpace(l); len(l) > 0 && l[0] != '#' {
			return bytes.HasPrefix(l, []byte("bowerwright"))
		}
	}
	return false
}

func inputName(name string) string { return source{File: name}.name() }

var bareUnits = map[string]unit.Unit{"in": unit.Inches, "ft": unit.Feet, "mm": unit.Millimetres, "cm": unit.Centimetres, "m": unit.Metres}

func bareUnit(name string) unit.Unit { return bareUnits[name] }
