package packet

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"

	"bowerwright/job"
)

// drillListHead is the first row of drill-list.csv.
var drillListHead = []string{"seam", "sheet", "number", "method", "site seam", "thing", "heads in", "side", "into", "into side",
	"from left corner", "from left corner mm", "left corner", "inside from corner", "inside from corner mm", "into from left corner", "into from left corner mm", "into left corner",
	"behind the front edge at the head", "behind the front edge at the head mm", "driven, seen from the back", "driven, seen from the front", "slant degrees", "driven from", "tool",
	"clearance hole", "clearance hole mm", "pilot hole", "pilot hole mm", "countersink", "countersink mm", "counterbore depth", "counterbore depth mm", "drill stop", "drill stop mm",
	"thread", "goes in mm", "goes in diameters", "head over the floor", "head over the floor mm", "warnings"}

// DrillListCSV writes every screw, bolt and peg as a table: a head row, then one
// row for each, lengths in inches as built fractions and in mm to the micrometre.
// Places are from the left end of a board as one looks along the screw with the
// piece face down. Seams that cannot be fixed as drawn have a row that says so.
// The form is RFC 4180, as of cut-list.csv.
func DrillListCSV(w io.Writer, r job.Result) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	if err := c.Write(drillListHead); err != nil {
		return err
	}
	for _, s := range r.Fixing.Seams {
		if !s.Fixed {
			row := make([]string, len(drillListHead))
			row[0], row[3], row[6], row[8], row[len(row)-1] = itoa(s.Number), "cannot be fixed as drawn", s.Frames[0], s.Frames[1], s.Cannot+"; "+s.Helps
			if err := c.Write(row); err != nil {
				return err
			}
		}
		for _, d := range s.Fasteners {
			if err := c.Write(drillListRow(s, d)); err != nil {
				return err
			}
		}
		for i, g := range s.Pegs {
			if err := c.Write(pegRow(s, g, i+1)); err != nil {
				return err
			}
		}
	}
	c.Flush()
	return c.Error()
}

// pegRow is a peg of a site seam: its hole is bored in the board that holds the
// heads and marked across to the other.
func pegRow(s job.SeamFixing, g job.PegFacts, number int) []string {
	mm := func(x job.Size) string { return strconv.FormatFloat(x.MM, 'f', -1, 64) }
	row := make([]string, len(drillListHead))
	for column, cell := range map[string]string{"seam": itoa(s.Number), "sheet": itoa(s.Sheet), "number": itoa(number), "method": "peg", "site seam": "yes", "thing": g.Thing,
		"heads in": s.Head, "into": s.Into, "from left corner": g.From.US, "from left corner mm": mm(g.From), "left corner": itoa(s.Left),
		"behind the front edge at the head": g.Depth.US, "behind the front edge at the head mm": mm(g.Depth),
		"pilot hole": g.Hole.US, "pilot hole mm": mm(g.Hole), "drill stop": g.Into[0].US, "drill stop mm": mm(g.Into[0]), "goes in mm": mm(g.Into[1])} {
		row[slices.Index(drillListHead, column)] = cell
	}
	return row
}

func drillListRow(s job.SeamFixing, d job.Driven) []string {
	mm := func(x job.Size) string { return strconv.FormatFloat(x.MM, 'f', -1, 64) }
	site := "no"
	if s.Site {
		site = "yes"
	}
	head, into := headSide(s), s.Sides[0]+s.Sides[1]-headSide(s)
	warnings := ""
	for i, w := range s.Warnings {
		if i > 0 {
			warnings += " "
		}
		warnings += w
	}
	return []string{itoa(s.Number), itoa(s.Sheet), itoa(d.Number), s.Method, site, d.Thing, d.Head, itoa(head), s.Into, itoa(into),
		d.From.US, mm(d.From), itoa(s.Left), d.Face.US, mm(d.Face), d.IntoFrom.US, mm(d.IntoFrom), itoa(s.IntoLeft),
		d.HeadDepth.US, mm(d.HeadDepth), s.WayBack, s.Way, strconv.FormatFloat(d.Slant.Degrees, 'f', -1, 64), d.Side, d.Tool,
		d.Clearance.US, mm(d.Clearance), d.Pilot.US, mm(d.Pilot), d.Sink.US, mm(d.Sink), d.Bore.US, mm(d.Bore), d.Stop.US, mm(d.Stop),
		d.Thread, mm(d.Penetration), strconv.FormatFloat(d.Diameters, 'f', -1, 64), d.HeadHeight.US, mm(d.HeadHeight), warnings}
}
