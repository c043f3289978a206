package making

import (
	"math"

	"bowerwright/frame"
)

// A Check is a measure to take before the glue grabs, across a frame.
type Check struct {
	From, To int     // corners; To is 0 when it goes to the middle of a side
	Side     int     // that side
	MM       float64 // as built
	Equal    bool    // all checks of the frame are equal as built, within eyeTolerance
}

// eyeTolerance, in mm, is what two measures may differ by and still be read as
// one off a tape: half a millimetre. Common practice, no source.
const eyeTolerance = 0.5

// Checks lists the measures across a frame: from corner to opposite corner; with
// odd sides from each corner to the middle of the side opposite; of an open
// frame between its feet and from each foot to the corner before the other.
func Checks(f frame.Frame) []Check {
	c, n := f.Built.Corners, len(f.Built.Corners)
	var out []Check
	between := func(a, b int) { out = append(out, Check{From: a, To: b, MM: c[a-1].Dist(c[b-1])}) }
	switch {
	case f.Built.Open:
		between(1, n)
		between(1, n-1)
		between(n, 2)
	case n%2 == 0:
		for a := 1; a <= n/2; a++ {
			between(a, a+n/2)
		}
	default:
		for a := 1; a <= n; a++ {
			side := (a-1+n/2)%n + 1
			out = append(out, Check{From: a, Side: side, MM: c[a-1].Dist(f.Built.Side(side).Mid())})
		}
	}
	return markEqual(out, f.Built.Open)
}

// markEqual marks measures that ought to read the same. Of an open frame the
// first is between the feet and stands apart.
func markEqual(checks []Check, open bool) []Check {
	alike := checks
	if open {
		alike = checks[1:]
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range alike {
		low, high = min(low, c.MM), max(high, c.MM)
	}
	for i := range alike {
		alike[i].Equal = high-low <= eyeTolerance
	}
	return checks
}
