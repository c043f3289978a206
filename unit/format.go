package unit

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A System of units to write in.
type System int

// The systems: inches and feet, or millimetres.
const (
	US System = iota
	Metric
)

// The marks that a tape is read to when nothing else is asked. Common practice,
// no source.
const (
	MarkUS     = Inch / 16
	MarkMetric = Millimetre
)

// OverallFeet is where overall sizes go over from inches to feet and inches.
const OverallFeet = 6 * Foot

// noBreak keeps a figure and its unit on one line.
const noBreak = "\u00a0"

// A Style says how a length is written. The zero writes inches to a sixteenth.
type Style struct {
	System System
	// Mark is the fineness: 1/2 to 1/64 in for US, 1, 0.5 or 0.1 mm for Metric.
	// Any other, such as 0 or a mark of the other system, is the system's usual
	// one, MarkUS or MarkMetric.
	Mark Length
	// FeetFrom is the size from which feet are written; 0 is never. US only.
	FeetFrom Length
	// NoBreak writes spaces that do not break a line.
	NoBreak bool
}

// marks are the fineness that a Style may have, each with its name.
var marks = []struct {
	Mark   Length
	Name   string
	System System
}{
	{Inch / 2, "1/2 in", US}, {Inch / 4, "1/4 in", US}, {Inch / 8, "1/8 in", US},
	{Inch / 16, "1/16 in", US}, {Inch / 32, "1/32 in", US}, {Inch / 64, "1/64 in", US},
	{Millimetre, "1 mm", Metric}, {Millimetre / 2, "0.5 mm", Metric}, {Millimetre / 10, "0.1 mm", Metric},
}

// MarkName gives the name of a mark, such as 1/16 in or 0.5 mm, and its system;
// false when it is none of the marks that a Style may have.
func MarkName(mark Length) (string, System, bool) {
	for _, m := range marks {
		if m.Mark == mark {
			return m.Name, m.System, true
		}
	}
	return "", US, false
}

// mark gives the mark in force.
func (s Style) mark() Length {
	if _, system, ok := MarkName(s.Mark); ok && system == s.System {
		return s.Mark
	}
	if s.System == Metric {
		return MarkMetric
	}
	return MarkUS
}

// OnMark tells whether l is a whole number of marks, so that nothing is lost in
// writing it. A mark of zero or less is a nanometre.
func OnMark(l, mark Length) bool { return mark <= 0 || l%mark == 0 }

// Exact tells whether Format writes l itself and not a rounded value.
func (s Style) Exact(l Length) bool { return OnMark(l, s.mark()) }

// Round gives the nearest whole number of marks, ties away from zero.
func Round(l, mark Length) Length {
	if mark <= 0 {
		return l
	}
	half := mark / 2
	if l < 0 {
		half = -half
	}
	return (l + half) / mark * mark
}

// Format writes a length to the style's mark: 10 3/8 in, never with decimals;
// 264 mm; 263.5 mm. What is not on the mark is rounded to the nearest.
// ParseLength reads the text back to the same rounded length.
func Format(l Length, s Style) string {
	mark := s.mark()
	l = Round(l, mark)
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	text := sign + metricText(l)
	if s.System == US {
		text = sign + usText(l, mark, s.FeetFrom)
	}
	if s.NoBreak {
		text = strings.ReplaceAll(text, " ", noBreak)
	}
	return text
}

// FormatOverall writes the size of something whole, with feet from 6 ft up:
// 7 ft 6 1/16 in, 2288 mm.
func FormatOverall(l Length, s Style) string {
	s.FeetFrom = OverallFeet
	return Format(l, s)
}

// metricText writes a length of 0 or more; l is on a mark of 0.1 mm or coarser.
func metricText(l Length) string {
	return strconv.FormatFloat(l.MM(), 'f', -1, 64) + " mm"
}

// usText writes a length of 0 or more that is a whole number of marks.
func usText(l, mark, feetFrom Length) string {
	if feetFrom <= 0 || l < feetFrom {
		return inchText(l, mark)
	}
	feet := strconv.FormatInt(int64(l/Foot), 10) + " ft"
	if l%Foot == 0 {
		return feet
	}
	return feet + " " + inchText(l%Foot, mark)
}

// inchText writes a mixed number of inches, its fraction in lowest terms.
func inchText(l, mark Length) string {
	whole, top, bottom := l/Inch, l%Inch/mark, Inch/mark
	for top > 0 && top%2 == 0 { // bottom is a power of two
		top, bottom = top/2, bottom/2
	}
	switch {
	case top == 0:
		return fmt.Sprintf("%d in", whole)
	case whole == 0:
		return fmt.Sprintf("%d/%d in", top, bottom)
	}
	return fmt.Sprintf("%d %d/%d in", whole, top, bottom)
}

// String writes the angle in degrees with two decimals at most: 30°, 22.5°,
// 25.71°.
func (a Angle) String() string {
	d := math.Round(a.Degrees()*100) / 100
	return strconv.FormatFloat(d+0, 'f', -1, 64) + "°" // +0 turns -0 into 0
}

// massNoise is the part of a pound or kilogram that is noise of float
// arithmetic and does not lift a mass to the next whole.
const massNoise = 1e-9

// FormatMass writes a mass in whole pounds and kilograms, each taken up to the
// next whole, the system's own first: 62 lb (28 kg).
func FormatMass(m Mass, s System) string {
	up := func(v float64) float64 { return math.Ceil(v-massNoise) + 0 }
	lb, kg := up(m.Pounds()), up(float64(m))
	if s == Metric {
		return fmt.Sprintf("%.0f kg (%.0f lb)", kg, lb)
	}
	return fmt.Sprintf("%.0f lb (%.0f kg)", lb, kg)
}
