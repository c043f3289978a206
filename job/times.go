package job

import (
	"fmt"
	"math"

	"bowerwright/making"
	"bowerwright/unit"
)

// wholeTime, in minutes, is what a sum of times may lie beyond a minute and
// still be written as that minute: a thousandth of a second, far under any
// clock.
const wholeTime = 1e-5

// lasts is a stretch of time, up to its next minute, from two hours on in hours
// and from two days on in days.
func (w scribe) lasts(minutes float64) Time {
	n := int(math.Ceil(minutes - wholeTime))
	text := fmt.Sprintf("%d min", n)
	h, m := n/60, n%60
	switch {
	case n >= 48*60 && n%(24*60) == 0:
		text = fmt.Sprintf("%d days", n/(24*60))
	case n >= 120 && m == 0:
		text = fmt.Sprintf("%d h", h)
	case n >= 120:
		text = fmt.Sprintf("%d h %d min", h, m)
	}
	return Time{milli(minutes), text}
}

// at and by are times on a clock that starts with the first go: at is the first
// minute that is not before, by the last that is not after.
func (w scribe) at(minutes float64) Time { return clock(minutes, math.Ceil(minutes-wholeTime)) }
func (w scribe) by(minutes float64) Time { return clock(minutes, math.Floor(minutes+wholeTime)) }

func clock(minutes, shown float64) Time {
	n := int(shown)
	return Time{milli(minutes), fmt.Sprintf("%d:%02d", n/60, n%60)}
}

// warmth is a temperature of so many °C in both scales, the job's own first.
func (w scribe) warmth(c float64) string {
	tenth := func(x float64) string { return fmt.Sprintf("%g", math.Round(x*10)/10+0) }
	own, other := tenth(c)+" °C", tenth(c*9/5+32)+" °F"
	if w.show == unit.US {
		own, other = other, own
	}
	return own + " (" + other + ")"
}

// steps are things to do, with how long to wait.
func (w scribe) steps(in []making.Step) []StepFacts {
	out := make([]StepFacts, len(in))
	for i, s := range in {
		out[i].Do, out[i].After = s.Do, s.After
		if s.Wait > 0 {
			t := w.lasts(s.Wait)
			out[i].Wait = &t
		}
	}
	return out
}
