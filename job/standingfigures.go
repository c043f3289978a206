package job

import (
	"fmt"
	"math"

	"bowerwright/stand"
	"bowerwright/unit"
)

// The scribe's words for what only standing needs. A load is rounded up and a
// limit down, so that no figure on paper is better than the sum.

// grain keeps a figure that is whole by calculation from losing a step to the
// rounding of its own sums.
const grain = 1e-9

func rounded(v, step float64, up bool) float64 {
	if up {
		return none(math.Ceil(v/step-grain) * step)
	}
	return none(math.Floor(v/step+grain) * step)
}

// none takes the sign off a nothing, which would be printed.
func none(v float64) float64 {
	if v == 0 {
		return 0
	}
	return v
}

// push is a force that pushes, holds is one that is held.
func (w scribe) push(f unit.Force) Force  { return w.force(f, true) }
func (w scribe) holds(f unit.Force) Force { return w.force(f, false) }

func (w scribe) force(f unit.Force, up bool) Force {
	lb := stand.Mass(f).Pounds()
	return Force{N: milli(float64(f)), US: fmt.Sprintf("%.0f lb", rounded(lb, 1, up)), Metric: fmt.Sprintf("%.0f N", rounded(float64(f), 5, up))}
}

// gust is a speed as given, limit one that is rounded down to whole mph and km/h.
func (w scribe) gust(v stand.Speed) Speed {
	return Speed{MS: milli(float64(v)), US: fmt.Sprintf("%.0f mph", v.MPH()), Metric: fmt.Sprintf("%.0f km/h", v.KMH())}
}

func (w scribe) limitOf(v stand.Speed) Speed {
	mph, kmh := v.DownTo(stand.FromMPH(1)), v.DownTo(stand.FromKMH(1))
	return Speed{MS: milli(float64(v)), US: fmt.Sprintf("%.0f mph", mph.MPH()), Metric: fmt.Sprintf("%.0f km/h", kmh.KMH())}
}

// say picks the job's own of two texts.
func (w scribe) say(us, metric string) string {
	if w.show == unit.Metric {
		return metric
	}
	return us
}

// most is where a ratio is cut off: JSON has no infinity, and beyond ten no
// figure is known.
const mostRatio = 100

func capped(ratio float64) float64 {
	if !(ratio < mostRatio) {
		return mostRatio
	}
	return math.Round(ratio*1e4) / 1e4
}

func useOf(ratio float64, word string) Use {
	return Use{Ratio: capped(ratio), Text: stand.TwoDigits(ratio), Word: word}
}

// held is a mass that must not be printed as more than it is.
func (w scribe) held(m unit.Mass) Weight {
	return Weight{KG: milli(float64(m)), US: fmt.Sprintf("%.0f lb", rounded(m.Pounds(), 1, false)), Metric: fmt.Sprintf("%.0f kg", rounded(float64(m), 1, false))}
}

// off is a place with its sign.
func (w scribe) off(mm float64) Size {
	s := w.looked(math.Abs(mm))
	s.MM = micro(mm)
	if mm < 0 {
		s.US, s.Metric = minus(s.US), minus(s.Metric)
	}
	return s
}

// next is a size up to the next whole inch, or to the next 10 mm.
func (w scribe) next(mm float64) Size {
	step := unit.Inch
	if w.show == unit.Metric {
		step = 10 * unit.Millimetre
	}
	return w.looked(rounded(mm, step.MM(), true))
}

// Own picks, of a text in both systems, the one that the job shows first.
func (r Result) Own(us, metric string) string {
	if r.Job.Show == "metric" {
		return metric
	}
	return us
}
