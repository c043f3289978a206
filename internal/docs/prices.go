package main

import (
	_ "embed" // the page's text
	"fmt"
	"strings"

	"bowerwright/job"
	"bowerwright/price"
	"bowerwright/stock"
)

//go:embed prices.md
var pricesIntro string

// pricesPage says how prices are written, and lists every name that can be
// priced, besides boards.
func pricesPage(c stock.Catalogue) string {
	var b strings.Builder
	b.WriteString(pricesIntro)
	b.WriteString("| name | for | usual packs, US | usual packs, metric |\n|---|---|---|---|\n")
	for _, t := range job.Buyables() {
		fmt.Fprintf(&b, "| %s | %s | %s | %s |\n", t.Name, t.For, packList(t.Kind, false), packList(t.Kind, true))
	}
	b.WriteString("\nHardware, with what a box is assumed to hold:\n\n| kind | names |\n|---|---|\n")
	for _, kind := range hardware {
		var names []string
		for _, f := range c.Fasteners(kind) {
			names = append(names, fmt.Sprintf("%s (%d)", f.Name, f.Pack))
		}
		fmt.Fprintf(&b, "| %s | %s |\n", kind, strings.Join(names, ", "))
	}
	return b.String()
}

func packList(thing string, metric bool) string {
	var out []string
	for _, p := range price.Usual(thing, metric) {
		out = append(out, p.Text)
	}
	return strings.Join(out, ", ")
}
