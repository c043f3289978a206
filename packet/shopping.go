package packet

import (
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/job"
)

// buyingPaper is everything to buy in one trip, by where it is bought, in whole
// packs, with what it costs where there are prices.
func buyingPaper(r job.Result) paper {
	b := r.Buying
	p := paper{title: "Buying list", entry: "Buying list", balance: true,
		right: [2]string{plural(b.Lines, "line") + " at " + plural(len(b.Places), "place"), costWords(b)}}
	for _, at := range b.Places {
		p.blocks = append(p.blocks, heading(capital(at.Where), placeWords(b, at), ""))
		gap := 0.0
		for _, s := range b.Sections {
			if s.Where == at.Where {
				rows := buyingTable(r, s)
				rows[0].gap, gap = gap, sectionGap
				p.blocks = append(p.blocks, rows...)
			}
		}
	}
	if len(p.blocks) > 0 {
		p.blocks[0].gap = 0
		p.blocks = append(p.blocks, readyBlocks(b)...)
		p.blocks = append(p.blocks, billBlocks(b)...)
	}
	return p
}

// costWords are the second line at the head of the list.
func costWords(b job.BuyingFacts) string {
	if b.Currency == "" {
		return "no prices yet"
	}
	return joined(", ", b.Total+" "+b.Currency+" in all", b.Without)
}

// toBuy heads what is bought on the cover: what all of it costs, if all has a
// price.
func toBuy(b job.BuyingFacts) string {
	if b.Currency == "" || b.Unpriced > 0 {
		return "To buy"
	}
	return "To buy: " + b.Total + " " + b.Currency + " in all"
}

func placeWords(b job.BuyingFacts, at job.BuyingPlace) string {
	words := plural(at.Lines, "line")
	if b.Currency == "" || at.Unpriced == at.Lines {
		return words
	}
	words = plural(at.Lines-at.Unpriced, "line") + " at " + at.Subtotal + " " + b.Currency
	if at.Unpriced > 0 {
		words += "; " + itoa(at.Unpriced) + " more without a price"
	}
	return words
}

// Columns of the list, mm; the box to tick stands left of them.
const (
	buyingBox  = 8.0
	buyingRow  = 8.2 // at least
	sectionGap = 3.5 // above the second section of a place
)

// buyingColumns names its second column after the section.
func buyingColumns(b job.BuyingFacts, s job.BuyingSection) []column {
	if b.Currency == "" {
		return []column{{"buy", 40, false}, {s.Name, 58, false}, {"for", 42, false}, {"wanted", 31, false}}
	}
	return []column{{"buy", 36, false}, {s.Name, 47, false}, {"for", 31, false}, {"wanted", 22, false}, {"each", 14, true}, {"cost, " + b.Currency, 16.5, true}}
}

// buyingTable is one section, a box to tick before each line.
func buyingTable(r job.Result, s job.BuyingSection) []block {
	cols := buyingColumns(r.Buying, s)
	var rows [][]cell
	for _, l := range s.Lines {
		rows = append(rows, buyingRowOf(r, l)[:len(cols)])
	}
	out := table(buyingBox, cols, rows)
	onScreen := &grid{cols: nameFirst(cols), name: s.Name, ticks: true}
	out[0] = out[0].says(rowTwin{onScreen, nil})
	for i, row := range rows {
		out[i+1] = ticked(out[i+1]).says(rowTwin{onScreen, nameFirst(row)})
	}
	return out
}

// nameFirst is the order on a screen, where the first column names the row.
func nameFirst[T any](row []T) []T {
	out := slices.Clone(row)
	out[0], out[1] = row[1], row[0]
	return out
}

// ticked draws a box to tick before a row.
func ticked(k block) block {
	row := k.draw
	k.h = max(k.h, buyingRow)
	k.draw = func(s *sheet, y float64) {
		s.add(drawing.TickBox(drawing.Pt(0.3, y+1.6)))
		row(s, y)
	}
	return k
}

func buyingRowOf(r job.Result, l job.BuyingLine) []cell {
	what := beside(bold(l.Name))
	if note := joined("; ", l.Note, alsoSold(l)); note != "" {
		what = append(what, quietLine(note))
	}
	var buy, each cell
	for _, p := range l.Packs {
		buy = append(buy, packLine(r.Job, p))
		each = append(each, beside(text(or(p.Price, "–")))[0])
	}
	if buy == nil {
		buy, each = beside(text("none")), beside(text("–"))
	}
	return []cell{buy, what, beside(quiet(l.For)), beside(wantedCell(r.Job, l)), each, beside(bold(or(l.Cost, "–")))}
}

// beside sets a cell's first line on one base line with the large count.
func beside(c cell) cell {
	c[0] = append(c[0], span("", drawing.Bold, drawing.Lead, drawing.Ink))
	return c
}

// packLine is a large count and what it is a count of.
func packLine(j job.JobFacts, p job.PackFacts) []drawing.Span {
	line := []drawing.Span{span(itoa(p.Count), drawing.Bold, drawing.Lead, drawing.Ink)}
	switch {
	case p.Pack == "": // just as much as is wanted
		line = append(line, span(" of "+own(j, p.Holds), drawing.Regular, rowSize, drawing.Ink))
	case p.Pack == "each":
	case p.Holds.Measure == "pieces":
		line = append(line, span(" × box of "+p.Pack, drawing.Regular, rowSize, drawing.Ink))
	default:
		line = append(line, span(" × "+p.Pack, drawing.Regular, rowSize, drawing.Ink))
	}
	return line
}

// wantedCell is how much is wanted, in both systems where that differs.
func wantedCell(j job.JobFacts, l job.BuyingLine) cell {
	out := text(own(j, l.Want))
	if l.Want.US != l.Want.Metric {
		out = append(out, quietLine(foreign(j, l.Want)))
	}
	if l.Have.Value > 0 {
		out = append(out, quietLine(own(j, l.Have)+" in hand"))
	}
	return out
}

// alsoSold names the packs that were not taken.
func alsoSold(l job.BuyingLine) string {
	var out []string
	for _, p := range l.Instead {
		if len(l.Packs) == 0 {
			continue // nothing is bought
		}
		pack := p.Pack
		if p.Holds.Measure == "pieces" && pack != "each" {
			pack = "boxes of " + pack
		}
		out = append(out, joined(" at ", pack, p.Price))
	}
	if out == nil {
		return ""
	}
	return "also in " + strings.Join(out, ", ")
}

// capital begins a heading.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func own(j job.JobFacts, q job.Quantity) string {
	if j.Show == "metric" {
		return q.Metric
	}
	return q.US
}

func foreign(j job.JobFacts, q job.Quantity) string {
	if j.Show == "metric" {
		return q.US
	}
	return q.Metric
}

func or(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

// readyBlocks are what the work wants and nobody buys for it.
func readyBlocks(b job.BuyingFacts) []block {
	if len(b.Ready) == 0 {
		return nil
	}
	out := []block{heading("Have ready", "not bought for this job", "")}
	for _, a := range b.Ready {
		out = append(out, para(capital(a.Name)+": "+a.For+".", fieldW, drawing.Text{}))
	}
	return out
}

// billBlocks are the sums, and what is missing in them.
func billBlocks(b job.BuyingFacts) []block {
	if b.Currency == "" {
		return []block{heading("Cost", "no prices yet", ""),
			para("Fill in the column price of buying.csv and plan again with --prices buying.csv: this list then has prices and a total. What packs hold is assumed until a price list says otherwise.", fieldW, drawing.Text{})}
	}
	rows := [][]cell{{text("All lines that have a price"), text(b.Subtotal)}}
	for _, t := range b.Taxes {
		word := "Tax, "
		if b.TaxIncluded {
			word = "In it, tax, "
		}
		rows = append(rows, []cell{text(word + t.Rate + " on " + t.On), text(t.Tax)})
	}
	total := cell{{span("In all", drawing.Bold, drawing.Lead, drawing.Ink)}}
	sum := cell{{span(b.Total, drawing.Bold, drawing.Lead, drawing.Ink)}}
	rows = append(rows, []cell{total, sum})
	out := []block{heading("Cost", b.Without, "")}
	out = append(out, whole(table(0, []column{{"", 100, false}, {b.Currency, 34, true}}, rows))...)
	out = append(out, para(b.TaxWords, fieldW, drawing.Text{}))
	if len(b.UnpricedNames) > 0 {
		out = append(out, para("No price: "+strings.Join(b.UnpricedNames, ", ")+".", fieldW, drawing.Text{}))
	}
	return out
}

// whole keeps blocks on one page.
func whole(blocks []block) []block {
	for i := range blocks {
		blocks[i].keep = true
	}
	return blocks
}
