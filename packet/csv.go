package packet

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"bowerwright/job"
)

// cutListHead is the first row of cut-list.csv.
var cutListHead = []string{"timber", "kind", "title", "part", "count", "per frame", "sides",
	"outside", "outside mm", "inside", "inside mm", "tip to tip", "tip to tip mm",
	"long point", "long point mm", "short point", "short point mm", "first end degrees", "second end degrees", "first end", "second end",
	"hand", "mirror of", "fitted", "rough length", "rough length mm", "way out", "spare", "for spoilt ones", "saw in all"}

// CutListCSV writes the cut list as a table: a head row, then one row for each
// kind of part, lengths in inches as built fractions and in mm to the
// micrometre, settings in degrees from straight across. The form is RFC 4180:
// commas, CRLF, UTF-8 without a mark, quotes where needed.
func CutListCSV(w io.Writer, r job.Result) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	if err := c.Write(cutListHead); err != nil {
		return err
	}
	for _, k := range r.Kinds {
		t, _ := timberOf(r, k)
		for _, p := range k.Parts {
			if err := c.Write(append(cutListRow(k, p), countCells(wantedOf(t, p.Mark), p.Count)...)); err != nil {
				return err
			}
		}
	}
	for _, t := range r.Timber {
		for _, w := range t.Parts {
			if w.Kind != "" {
				continue
			}
			if err := c.Write(pieceCells(t, w)); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
}

// countCells are how many parts are sawn beyond those used, and in all.
func countCells(w job.WantedFacts, count int) []string {
	if w.Saw == 0 {
		w.Saw = count
	}
	return []string{itoa(w.Spare), itoa(w.Reject), itoa(w.Saw)}
}

// pieceCells are the row of what is sawn and is no part of a frame.
func pieceCells(t job.TimberFacts, w job.WantedFacts) []string {
	mm := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	row := make([]string, len(cutListHead)-3)
	for i, cell := range map[int]string{0: t.Name, 2: w.What, 3: w.Mark, 4: itoa(w.Need), 7: w.Length.US, 8: mm(w.Length.MM),
		13: w.Long.US, 14: mm(w.Long.MM), 15: w.Short.US, 16: mm(w.Short.MM), 17: mm(w.First.Degrees), 18: mm(w.Second.Degrees), 19: w.Way, 20: w.Way, 23: "no"} {
		row[i] = cell
	}
	return append(row, countCells(w, w.Saw)...)
}

// boardsHead is the first row of boards.csv.
var boardsHead = []string{"timber", "laid", "board", "from", "length", "length mm", "on hand", "price", "parts", "order of parts",
	"unusable", "offcut", "offcut mm", "keep"}

// BoardsCSV writes the boards as a table: a head row, then one row for each
// board that is sawn, in the numbers of the papers, those on hand first. The
// form is that of CutListCSV.
func BoardsCSV(w io.Writer, r job.Result) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	if err := c.Write(boardsHead); err != nil {
		return err
	}
	for _, t := range r.Timber {
		for _, b := range t.Boards {
			for _, n := range b.Numbers {
				if err := c.Write(boardCells(t, b, n)); err != nil {
					return err
				}
			}
		}
	}
	c.Flush()
	return c.Error()
}

func boardCells(t job.TimberFacts, b job.BoardFacts, number int) []string {
	mm := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	yes := map[bool]string{true: "yes", false: "no"}
	price := ""
	for _, s := range t.Stocks {
		if s.Name == b.Stock {
			price = s.Price
		}
	}
	var marks, spans []string
	for _, p := range b.Parts {
		marks = append(marks, p.Mark)
	}
	for _, s := range b.Spans {
		spans = append(spans, s.From.US+" to "+s.To.US)
	}
	return []string{t.Name, t.Laid, itoa(number), b.Stock, b.Length.US, mm(b.Length.MM), yes[b.OnHand], price, b.Summary, strings.Join(marks, " "),
		strings.Join(spans, "; "), b.Offcut.US, mm(b.Offcut.MM), yes[b.Keep]}
}

func cutListRow(k job.KindFacts, p job.PartFacts) []string {
	mm := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	rough, roughMM := "", ""
	if p.Rough != nil {
		rough, roughMM = p.Rough.US, mm(p.Rough.MM)
	}
	fitted := "no"
	if p.Fitted {
		fitted = "yes"
	}
	list := ""
	for i, n := range p.Sides {
		if i > 0 {
			list += " "
		}
		list += itoa(n)
	}
	return []string{k.Timber, k.Name, k.Title, p.Mark, itoa(p.Count), itoa(p.PerFrame), list,
		p.Outside.US, mm(p.Outside.MM), p.InsideLength.US, mm(p.InsideLength.MM), p.Tip.US, mm(p.Tip.MM),
		p.LongPoint.US, mm(p.LongPoint.MM), p.ShortPoint.US, mm(p.ShortPoint.MM), mm(p.First.Setting.Degrees), mm(p.Second.Setting.Degrees), p.First.Way, p.Second.Way,
		p.Hand, p.MirrorOf, fitted, rough, roughMM, p.WayOut}
}
