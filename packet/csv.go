package packet

import (
	"encoding/csv"
	"io"
	"strconv"

	"bowerwright/job"
)

// cutListHead is the first row of cut-list.csv.
var cutListHead = []string{"timber", "kind", "title", "part", "count", "per frame", "sides",
	"outside", "outside mm", "inside", "inside mm", "tip to tip", "tip to tip mm",
	"long point", "long point mm", "short point", "short point mm", "first end degrees", "second end degrees", "first end", "second end",
	"hand", "mirror of", "fitted", "rough length", "rough length mm", "way out"}

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
		for _, p := range k.Parts {
			if err := c.Write(cutListRow(k, p)); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
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
