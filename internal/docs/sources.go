package main

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/assume"
	"bowerwright/price"
	"bowerwright/stock"
	"bowerwright/unit"
)

// sourcesPage says where figures come from: what is written here by hand, then
// the rows of the catalogue, each with its own.
func sourcesPage(c stock.Catalogue) string {
	var b strings.Builder
	b.WriteString(sourcesIntro)
	us := unit.Style{System: unit.US, Mark: unit.Inch / 64}
	metric := unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10}
	b.WriteString("\n## Stock sizes\n\n| name | thickness | width | | status | source |\n|---|---|---|---|---|---|\n")
	for _, s := range c.Sizes() {
		fmt.Fprintf(&b, "| %s | %s | %s | %s x %s | %s | %s |\n", s.Name, unit.Format(s.Thickness, us), unit.Format(s.Width, us),
			unit.Format(s.Thickness, metric), unit.Format(s.Width, metric), s.Status, s.Source)
	}
	b.WriteString("\n## Species\n\nSpecific gravity is oven-dry mass over oven-dry volume.\n\n| name | also | specific gravity | status | source |\n|---|---|---|---|---|\n")
	for _, s := range c.AllSpecies() {
		fmt.Fprintf(&b, "| %s | %s | %.2f | %s | %s |\n", s.Name, strings.Join(s.Also, ", "), s.Gravity, s.Status, s.Source)
	}
	b.WriteString("\n## Sheets\n\n| name | label thickness | least and greatest | status | source |\n|---|---|---|---|---|\n")
	for _, s := range c.Sheets() {
		fmt.Fprintf(&b, "| %s | %s | %s to %s | %s | %s |\n", s.Name, unit.Format(s.Thickness, metric), unit.Format(s.Thinnest, metric), unit.Format(s.Thickest, metric), s.Status, s.Source)
	}
	hardwareSources(&b, c)
	packSources(&b)
	return b.String()
}

// hardwareSources lists screws, and what is fixed, joined and hung with; rows
// of one source are one line of names.
func hardwareSources(b *strings.Builder, c stock.Catalogue) {
	b.WriteString("\n## Wood screws\n\n| name | over the thread | core | head | status | source |\n|---|---|---|---|---|---|\n")
	for _, s := range c.Screws() {
		mm := func(l unit.Length) string { return assume.Number(math.Round(l.MM()*1000)/1000) + " mm" }
		fmt.Fprintf(b, "| %s | %s | %s | %s | %s | %s |\n", s.Name, mm(s.Diameter), mm(s.Root), mm(s.Head), s.Status, s.Source)
	}
	b.WriteString("\n## Hardware\n\nWhat a box holds stands behind the name; it is an assumption, and a price list says better.\n\n| kind | as sold, and in a box | status | source |\n|---|---|---|---|\n")
	for _, kind := range hardware {
		var names []string
		rows := c.Fasteners(kind)
		for i, f := range rows {
			names = append(names, fmt.Sprintf("%s (%d)", f.Name, f.Pack))
			if i+1 < len(rows) && rows[i+1].Provenance == f.Provenance {
				continue
			}
			fmt.Fprintf(b, "| %s | %s | %s | %s |\n", kind, strings.Join(names, ", "), f.Status, f.Source)
			names = nil
		}
	}
}

// hardware is every kind of the catalogue.
var hardware = []stock.Hardware{stock.WoodScrew, stock.Bolt, stock.Nut, stock.Washer, stock.Insert, stock.Plate, stock.Block, stock.Brad, stock.Peg, stock.Hook, stock.Tie}

// packSources lists what things are sold in where no price list says.
func packSources(b *strings.Builder) {
	b.WriteString("\n## Usual packs\n\nWhere no price list says what a thing is sold in.\n\n| thing | system | pack | status | source |\n|---|---|---|---|---|\n")
	for _, u := range price.UsualPacks() {
		system := "US"
		if u.Metric {
			system = "metric"
		}
		fmt.Fprintf(b, "| %s | %s | %s | %s | %s |\n", u.Thing, system, u.Pack.Text, u.Status, u.Source)
	}
}

const sourcesIntro = `# Sources

Every figure that is not geometry carries a status: **seen** (read in the source itself), **second-hand** (read in a copy of it), **computed** (arithmetic
from a formula whose own status is given), **memory** (recalled, not read), **common practice** (a habit of the trade, no source). Only the first two are shown
as facts; all others are assumptions that the user sees and can change ([assumptions.md](assumptions.md)).

| what | source | status | checked in |
|---|---|---|---|
| inch, foot, pound | NIST SP 811, appendix B | memory | ` + "`unit`" + ` |
| constants of regular polygons, n 3 to 12 and 16 | Machinery's Handbook, 31st edition, p. 82, Table of Regular Polygons | seen | ` + "`frame`" + ` |
| saw setting 180/n; signed settings doubled add to 360 degrees | follows from the inside angles; no published table found | computed | ` + "`frame`" + ` |
| a hexagon's setting is 30 degrees; 18, 12 and 6 in flats fit side to side; about 42 in across flats is 48 in across points | common practice, no source | common practice | ` + "`frame`" + ` |
| density from specific gravity and moisture | NDS Supplement 3.1.3 | memory | ` + "`stock`" + ` |
| air-dry densities as a cross-check | Oregon State University, relative working and physical properties of woods | seen | ` + "`stock`" + ` |
| cutting stock, 5600 mm roll, 13 sizes: 73 rolls | cutting-stock article in a public mathematics collection | seen | ` + "`cut`" + ` |
| cutting stock, 100 in roll: 453 rolls | Gilmore and Gomory's data; Chvatal, Linear Programming, ch. 13 | memory; optimum proved in the test | ` + "`cut`" + ` |
| bin packing sets with known optima | Falkenauer 1996; Scholl, Klein, Juergens 1997; Schwerin and Waescher 1997; Waescher and Gau 1996; Schoenfield 2002; Beasley's OR-Library 1990; ESICUP data sets (CC0) | seen | ` + "`cut`" + `, read from ../shared/cutting |
| column generation; bounds from whole multipliers | Gilmore and Gomory, Operations Research 9 (1961) and 11 (1963); Farley, Operations Research 38 (1990) | memory | ` + "`cut`" + ` |
`
