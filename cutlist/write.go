package cutlist

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"bowerwright/job"
	"bowerwright/unit"
)

// Write writes a cut list that Read reads back as it is, with sep (a comma, a
// semicolon or a tab) between cells. Lengths are exact and carry their units.
func Write(w io.Writer, parts []job.ListPart, sep rune) error {
	c := csv.NewWriter(w)
	c.Comma, c.UseCRLF = sep, true
	head := make([]string, len(Columns))
	for i, column := range Columns {
		head[i] = column.Names[0]
	}
	if !haveNames(parts) {
		head = head[1:]
	}
	if err := c.Write(head); err != nil {
		return err
	}
	for _, p := range parts {
		cells := []string{p.Name, exactly(p.Outside), strconv.Itoa(p.Count), degreesOf(p.Left), degreesOf(p.Right), p.Timber, laid(p.Flat), strconv.Itoa(p.Spare)}
		if err := c.Write(cells[len(cells)-len(head):]); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// haveNames tells whether the parts have names.
func haveNames(parts []job.ListPart) bool { return len(parts) == 0 || parts[0].Name != "" }

// exactly writes a length without loss: in inches where a tape shows it, else in
// millimetres to the nanometre.
func exactly(l unit.Length) string {
	style := unit.Style{System: unit.US, Mark: unit.Inch / 64}
	if style.Exact(l) {
		return unit.Format(l, style)
	}
	return strconv.FormatFloat(l.MM(), 'f', -1, 64) + " mm"
}

// degreesOf writes an angle free of the dust of radians.
func degreesOf(a unit.Angle) string {
	return strconv.FormatFloat(math.Round(a.Degrees()*1e9)/1e9+0, 'f', -1, 64)
}

func laid(flat bool) string {
	if flat {
		return "flat"
	}
	return "on edge"
}
