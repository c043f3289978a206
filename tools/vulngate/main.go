// Command vulngate reads the JSON stream of govulncheck on its standard input,
// prints what was found, and exits 1 when a module that the product imports has
// a known vulnerability. Findings in the standard library are printed only: they
// are put right by the Go release, not by this repository.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
)

// A message is the part of govulncheck's output that the gate reads; the rest
// (its settings, the list of packages, progress) is passed over.
type message struct {
	Config  *struct{}
	Finding *finding
	OSV     *struct {
		ID      string
		Summary string
	}
}

// A finding is one vulnerability in one place. The first frame of its trace is
// the vulnerable code; a frame without a package means that the module is in the
// graph of requirements but that nothing of ours imports the package at fault.
type finding struct {
	OSV   string `json:"osv"`
	Fixed string `json:"fixed_version"`
	Trace []struct {
		Module, Version, Package, Function string
	}
}

// A verdict is one printed line.
type verdict struct {
	line string
	bars bool // closes the gate
}

// judge reads the stream to its end. It refuses a stream without the opening
// message: an empty one would otherwise look like a clean bill.
func judge(r io.Reader) ([]verdict, error) {
	dec := json.NewDecoder(r)
	summaries := map[string]string{}
	var found []finding
	opened := false
	for {
		var m message
		err := dec.Decode(&m)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		switch {
		case m.Config != nil:
			opened = true
		case m.OSV != nil:
			summaries[m.OSV.ID] = m.OSV.Summary
		case m.Finding != nil && len(m.Finding.Trace) > 0:
			found = append(found, *m.Finding)
		}
	}
	if !opened {
		return nil, errors.New("this is not the JSON output of govulncheck")
	}
	return verdicts(found, summaries), nil
}

// verdicts gives one line for each vulnerability of a module, the nearest to the
// product's own code winning: called, then imported, then only required.
func verdicts(found []finding, summaries map[string]string) []verdict {
	reach := func(f finding) string {
		switch at := f.Trace[0]; {
		case at.Function != "":
			return "called"
		case at.Package != "":
			return "imported"
		}
		return "required only"
	}
	rank := []string{"called", "imported", "required only"}
	best := map[string]finding{}
	for _, f := range found {
		key := f.Trace[0].Module + " " + f.OSV
		old, ok := best[key]
		if !ok || slices.Index(rank, reach(f)) < slices.Index(rank, reach(old)) {
			best[key] = f
		}
	}
	var out []verdict
	for _, f := range best {
		at := f.Trace[0]
		fixed := "no fix yet"
		if f.Fixed != "" {
			fixed = "fixed in " + f.Fixed
		}
		out = append(out, verdict{
			line: fmt.Sprintf("%s %s %s (%s, %s): %s", at.Module, at.Version, f.OSV, reach(f), fixed, summaries[f.OSV]),
			bars: at.Module != "stdlib" && reach(f) != "required only",
		})
	}
	slices.SortFunc(out, func(a, b verdict) int {
		if a.line < b.line {
			return -1
		}
		return 1
	})
	return out
}

func main() {
	out, err := judge(os.Stdin)
	if err != nil {
		fmt.Fprintln(os.Stderr, "vulngate:", err)
		os.Exit(1)
	}
	barred := 0
	for _, v := range out {
		mark := "  note  "
		if v.bars {
			mark, barred = "  STOP  ", barred+1
		}
		fmt.Println(mark + v.line)
	}
	fmt.Printf("%d to put right, %d to know about\n", barred, len(out)-barred)
	if barred > 0 {
		os.Exit(1)
	}
}
