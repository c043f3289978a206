package packet

import (
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"bowerwright/drawing/pdf"
	"bowerwright/job"
)

// Cutting lays out the papers of a bare cut list: what to take and how to saw
// it, and what was assumed.
func Cutting(r job.Result, made time.Time) pdf.Doc {
	b := &book{tab: 1}
	p := cuttingPaper(r)
	p.joins = false
	b.flow(p)
	b.pages[0].head()
	return b.doc(r, made)
}

// boardListHead is the first row of boards.csv.
var boardListHead = []string{"timber", "laid", "board", "stock", "length", "length mm", "on hand", "part", "count", "offcut", "offcut mm", "keep"}

// BoardListCSV writes the boards as a table, in the form of CutListCSV: a row
// for each part on each board, in the order in which they are sawn.
func BoardListCSV(w io.Writer, r job.Result) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	if err := c.Write(boardListHead); err != nil {
		return err
	}
	for _, t := range r.Timber {
		for _, b := range t.Boards {
			for _, n := range b.Numbers {
				for _, run := range runsOf(b.Parts) {
					if err := c.Write([]string{t.Name, t.Laid, itoa(n), b.Stock, b.Length.US, csvMM(b.Length), csvYes(b.OnHand),
						run.mark, itoa(run.count), b.Offcut.US, csvMM(b.Offcut), csvYes(b.Keep)}); err != nil {
						return err
					}
				}
			}
		}
	}
	c.Flush()
	return c.Error()
}

// A markRun is parts of one mark that lie side by side on a board.
type markRun struct {
	mark  string
	count int
}

func runsOf(parts []job.SawnFacts) []markRun {
	var out []markRun
	for _, p := range parts {
		if n := len(out) - 1; n >= 0 && out[n].mark == p.Mark {
			out[n].count++
			continue
		}
		out = append(out, markRun{p.Mark, 1})
	}
	return out
}

func csvMM(s job.Size) string { return strconv.FormatFloat(s.MM, 'f', -1, 64) }

func csvYes(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
