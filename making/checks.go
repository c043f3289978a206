package making

import (
	"math"

	"bowerwright/frame"
	"bowerwright/geom"
)

// A Check is a measure to take before the glue grabs, across a frame. Of a frame
// in two halves it is what the tape reads when they are trued and closed.
type Check struct {
	From, To int     // corners; To is 0 when it goes to the middle of a side
	Side     int     // that side
	MM       float64 // as built, less what truing takes
	Equal    bool    // all checks of the frame are equal, within eyeTolerance
}

// eyeTolerance, in mm, is what two measures may differ by and still be read as
// one off a tape: half a millimetre. Common practice, no source.
const eyeTolerance = 0.5

// Checks lists the measures across a frame: from corner to opposite corner; with
// odd sides from each corner to the middle of the side opposite; of an open
// frame between its feet and from each foot to the corner before the other.
func Checks(f frame.Frame) []Check { return checks(f.Built) }

func checks(o frame.Outline) []Check {
	c, n := o.Corners, len(o.Corners)
	var out []Check
	between := func(a, b int) { out = append(out, Check{From: a, To: b, MM: c[a-1].Dist(c[b-1])}) }
	switch {
	case o.Open:
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
			out = append(out, Check{From: a, Side: side, MM: c[a-1].Dist(o.Side(side).Mid())})
		}
	}
	return markEqual(out, o.Open)
}

// checks are the measures to take when the last joints of a frame are closed.
func (g GlueUp) checks(f frame.Frame) []Check {
	if g.Truing == nil {
		return Checks(f)
	}
	return checks(g.Truing.closed(f.Built))
}

// closed is the outline of two halves that are trued and pushed together: all
// corners of a half come nearer to the line of the two corners by what is taken
// off, and the tips there go back along their sides (plane trigonometry).
func (t Truing) closed(o frame.Outline) frame.Outline {
	c, n := o.Corners, len(o.Corners)
	at := func(corner int) geom.Point { return c[(corner-1+n)%n] }
	a, b := t.Corners[0], t.Corners[1]
	out := make(geom.Polygon, n)
	across := at(b).Sub(at(a)).Unit().Perp()
	for i := range c {
		nearer := across.Mul(-t.Off)
		if at(i+1).Sub(at(a)).Dot(across) < 0 {
			nearer = across.Mul(t.Off)
		}
		out[i] = c[i].Add(nearer)
	}
	for _, tip := range [][2]int{{a, a - 1}, {b, b + 1}} { // a corner of the two and its neighbour in the same half
		along := at(tip[1]).Sub(at(tip[0])).Unit()
		out[tip[0]-1] = at(tip[0]).Add(along.Mul(t.Off / math.Abs(along.Dot(across)))).Add(across.Mul(-t.Off * sign(along.Dot(across))))
	}
	o.Corners = out
	return o
}

func sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
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

// agree says whether all measures ought to read the same.
func agree(checks []Check) bool {
	for _, c := range checks {
		if !c.Equal {
			return false
		}
	}
	return true
}
