package jobfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bowerwright/job"
	"bowerwright/unit"
)

// A lineWriter writes lines of the layout in one system of units.
type lineWriter struct{ metric bool }

// place is the line of a frame, without its id.
func (w lineWriter) place(p job.Place) string {
	text := p.Kind
	switch {
	case p.At != nil:
		text += " at " + w.spot(p.At.X) + ", " + w.spot(p.At.Y) + turned(p.Turn)
	case p.Attach[0].Corner != 0:
		a := p.Attach[0]
		text += fmt.Sprintf(" corner %d on %s corner %d%s", a.Corner, a.To, a.ToCorner, turned(p.Turn))
	default:
		for i, a := range p.Attach {
			text += [...]string{"", ", and"}[min(i, 1)] + w.seam(a)
		}
	}
	if p.Mirror {
		text += ", mirrored"
	}
	return text
}

func (w lineWriter) seam(a job.Attach) string {
	text := fmt.Sprintf(" side %d on %s side %d", a.Side, a.To, a.ToSide)
	if a.Align != "" && a.Align != "centred" {
		text += ", " + a.Align
	}
	if a.Shift != 0 {
		text += ", shifted " + w.length(a.Shift)
	}
	return text
}

func turned(a unit.Angle) string {
	d := math.Round(a.Degrees()*1e6) / 1e6
	if d == 0 {
		return ""
	}
	return ", turned " + strconv.FormatFloat(d, 'f', -1, 64)
}

// near is how near to a mark of a tape a computed position counts as on it, in
// mm: a tenth of what a gap may be off and still be closed, and far over what
// sums of floats leave.
const near = 0.002

// spot is a position. What lies on a mark is written so, else to a tenth of a
// micrometre: a frame that stays where it is keeps its seams.
func (w lineWriter) spot(mm float64) string {
	mark := unit.Inch / 64
	if w.metric {
		mark = unit.Millimetre / 10
	}
	if l, ok := unit.FromMM(mm, mark, unit.Nearest); ok && math.Abs(l.MM()-mm) <= near {
		return w.length(l)
	}
	l, _ := unit.FromMM(mm, unit.Micrometre/10, unit.Nearest)
	return w.length(l)
}

// length is a length to the nanometre, so that it reads back the same.
func (w lineWriter) length(l unit.Length) string {
	us, metric := unit.Style{System: unit.US, Mark: unit.Inch / 64}, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10}
	for _, s := range [...]unit.Style{{System: unit.US, Mark: unit.MarkUS}, {System: unit.US, Mark: unit.Inch / 32}, us, metric} {
		if s.Exact(l) && (s.System == unit.Metric) == w.metric {
			return unit.Format(l, s)
		}
	}
	whole, part := int64(l)/1_000_000, int64(l)%1_000_000
	sign := ""
	if l < 0 {
		sign, whole, part = "-", -whole, -part
	}
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%s%d.%06d", sign, whole, part), "0"), ".") + " mm"
}
