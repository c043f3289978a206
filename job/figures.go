package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A scribe writes lengths the way this job wants them: it is the one place
// where a computed millimetre becomes the text that stands on every paper.
type scribe struct {
	us, metric unit.Style // what is looked at
	sawn       unit.Style // metric, to half a millimetre: what is sawn
	show       unit.System
}

func newScribe(s Spec) scribe {
	// Text is never coarser than a usual tape: a coarse mark is for parts, which
	// lie on it, and not for what is only measured.
	fine := unit.MarkUS
	if s.Mark > 0 && s.Mark < fine {
		fine = s.Mark
	}
	w := scribe{
		us:     unit.Style{System: unit.US, Mark: fine},
		metric: unit.Style{System: unit.Metric},
		sawn:   unit.Style{System: unit.Metric, Mark: unit.Millimetre / 2},
		show:   unit.US,
	}
	if s.Show == "metric" {
		w.show = unit.Metric
	}
	return w
}

// looked is a length to look at: to the mark in inches, whole millimetres.
func (w scribe) looked(mm float64) Size {
	l := length(mm)
	return Size{MM: micro(mm), US: unit.Format(l, w.us), Metric: unit.Format(l, w.metric)}
}

// cut is a length to saw or measure by: half millimetres.
func (w scribe) cut(mm float64) Size {
	l := length(mm)
	return Size{MM: micro(mm), US: unit.Format(l, w.us), Metric: unit.Format(l, w.sawn)}
}

// fine is a small gap: sixty-fourths and tenths of a millimetre, whatever the
// job's mark. What rounds to nothing there is written as "under" the mark.
func (w scribe) fine(mm float64) Size {
	us := unit.Style{System: unit.US, Mark: unit.Inch / 64}
	metric := unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10}
	return Size{MM: micro(mm), US: atLeast(mm, us, "1/64 in"), Metric: atLeast(mm, metric, "0.1 mm")}
}

func atLeast(mm float64, s unit.Style, least string) string {
	l := length(mm)
	text := unit.Format(l, s)
	if mm > closedGap && text == unit.Format(0, s) {
		return "under " + least
	}
	return text
}

// closedGap is under what a gap is written as none, in mm: a hundredth of the
// thinnest paint film, far below any saw.
const closedGap = 1e-4

// whole is the size of the whole set piece: feet from six feet up.
func (w scribe) whole(mm float64) Size {
	l := length(mm)
	return Size{MM: micro(mm), US: unit.FormatOverall(l, w.us), Metric: unit.FormatOverall(l, w.metric)}
}

// lightest is the least weight, lb or kg, that is written in whole ones.
const lightest = 10

// weight is a mass, each unit up to its next whole, or tenth while it is light.
func (w scribe) weight(m unit.Mass) Weight {
	up := func(v float64, u string) string {
		if v < lightest { // a small frame's share of the whole would be lost
			return strconv.FormatFloat(math.Ceil(v*10-1e-9)/10+0, 'f', -1, 64) + " " + u
		}
		return strconv.Itoa(int(math.Ceil(v-1e-9))) + " " + u
	}
	return Weight{KG: milli(float64(m)), US: up(m.Pounds(), "lb"), Metric: up(float64(m), "kg")}
}

// area is an area, in square feet and square metres to two decimals.
func (w scribe) area(a unit.Area) Area {
	const squareFoot = 304.8 * 304.8 // mm2, NIST SP 811
	return Area{MM2: math.Round(float64(a)), US: fmt.Sprintf("%.2f sq ft", float64(a)/squareFoot), Metric: fmt.Sprintf("%.2f m²", float64(a)/1e6)}
}

// angle is an angle in degrees.
func (w scribe) angle(a unit.Angle) Angle {
	return Angle{Degrees: math.Round(a.Degrees()*1e4) / 1e4, Text: a.String()}
}

// fineAngle keeps three decimals, for how true a saw must be.
func (w scribe) fineAngle(a unit.Angle) Angle {
	d := math.Round(a.Degrees()*1e3) / 1e3
	return Angle{Degrees: math.Round(a.Degrees()*1e6) / 1e6, Text: strconv.FormatFloat(d, 'f', -1, 64) + "°"}
}

func (w scribe) xy(p geom.Point) XY { return XY{micro(p.X), micro(p.Y)} }

func (w scribe) outline(p geom.Polygon) []XY {
	out := make([]XY, len(p))
	for i, q := range p {
		out[i] = w.xy(q)
	}
	return out
}

// text is a size in the job's own system, for sentences.
func (w scribe) text(s Size) string {
	if w.show == unit.Metric {
		return s.Metric
	}
	return s.US
}

// length brings a computed millimetre to the nearest nanometre.
func length(mm float64) unit.Length {
	l, _ := unit.FromMM(mm, unit.Nanometre, unit.Nearest)
	return l
}

// micro rounds mm to the micrometre, and milli kg to the gram, so that the last
// bits of floating point never reach result.json.
func micro(mm float64) float64 { return math.Round(mm*1e3)/1e3 + 0 }
func milli(kg float64) float64 { return math.Round(kg*1e3)/1e3 + 0 }

// stock is a stock dimension, which is sold in thirty-seconds and sixty-fourths.
func (w scribe) stock(l unit.Length) Size {
	return Size{MM: micro(l.MM()), US: unit.Format(l, unit.Style{System: unit.US, Mark: unit.Inch / 64}),
		Metric: unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10})}
}

// up is a least size and down a greatest one: to the mark, and to half
// millimetres, on the side that still works.
func (w scribe) up(mm float64) Size   { return w.limit(mm, unit.Up) }
func (w scribe) down(mm float64) Size { return w.limit(mm, unit.Down) }

func (w scribe) limit(mm float64, to unit.Rounding) Size {
	mark := w.us.Mark
	if _, system, ok := unit.MarkName(mark); !ok || system != unit.US {
		mark = unit.MarkUS // the one Format writes to then
	}
	us, _ := unit.FromMM(mm, mark, to)
	metric, _ := unit.FromMM(mm, unit.Millimetre/2, to)
	return Size{MM: micro(mm), US: unit.Format(us, w.us), Metric: unit.Format(metric, w.sawn)}
}

// tapeMark is what places are rounded to that are measured with the tape, in mm:
// the mark in inches, whole millimetres.
func (w scribe) tapeMark() float64 {
	if w.show == unit.Metric {
		return 1
	}
	return w.us.Mark.MM()
}

// signed is a small shift with its sign; what is under the finest mark has none.
func (w scribe) signed(mm float64) Size {
	s := w.fine(math.Abs(mm))
	s.MM = micro(mm)
	if mm < 0 {
		s.US, s.Metric = minus(s.US), minus(s.Metric)
	}
	return s
}

func minus(text string) string {
	if text == "0 in" || text == "0 mm" || strings.HasPrefix(text, "under ") {
		return text
	}
	return "-" + text
}
