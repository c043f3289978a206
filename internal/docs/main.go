// Command docs writes the pages of docs/ that are made from the code:
// assumptions.md, snags.md, result.md, sources.md and prices.md. go generate runs it; a
// test demands that the pages are current.
package main

import (
	"fmt"
	"os"
	"path/filepath"

	"bowerwright/assume"
	"bowerwright/cutlist"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
	"bowerwright/stock"
)

//go:generate go run . ../..

// pages are the generated pages by name. root is the folder of the module.
func pages(root string) (map[string]string, error) {
	kinds, err := snag.Merge(job.Snags, jobfile.Snags, cutlist.Snags)
	if err != nil {
		return nil, err
	}
	result, err := resultPage(filepath.Join(root, "job", "result*.go"))
	if err != nil {
		return nil, err
	}
	return map[string]string{
		"assumptions.md": made + assume.Markdown(assume.BuiltInBook()),
		"snags.md":       made + snag.Markdown(kinds),
		"result.md":      made + result,
		"sources.md":     made + sourcesPage(stock.BuiltIn()),
		"prices.md":      made + pricesPage(stock.BuiltIn()),
	}, nil
}

const made = "<!-- Made by go generate from the code; change the code. -->\n\n"

func write(root string) error {
	all, err := pages(root)
	if err != nil {
		return err
	}
	for name, text := range all {
		if err := os.WriteFile(filepath.Join(root, "docs", name), []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}

func main() {
	root := "."
	if len(os.Args) > 1 {
		root = os.Args[1]
	}
	if err := write(root); err != nil {
		fmt.Fprintln(os.Stderr, "docs:", err)
		os.Exit(1)
	}
}
