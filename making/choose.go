package making

import (
	"math"

	"bowerwright/frame"
	"bowerwright/geom"
)

// choosing holds one kind against every method.
type choosing struct {
	kind Kind
	shop Shop
	g    GlueUp
}

func (c choosing) try(m Method) Trial {
	t := Trial{Method: m, Limits: c.limits(m), Hands: c.hands(m)}
	t.Limits = append(t.Limits, atMost(JointsAtOnce, float64(c.atOnce(m)), float64(c.perGo(m))))
	t.OK = true
	for _, l := range t.Limits {
		t.OK = t.OK && l.OK
	}
	return t
}

// limits lists what a method asks of a frame, apart from the open time.
func (c choosing) limits(m Method) []Limit {
	if m != InLayers && c.kind.Layers > 1 {
		return []Limit{{What: Layered}}
	}
	f, r := c.kind.Frame, c.shop.Rates.Glue
	closed, outward := Limit{What: OpenFrame, OK: !f.Built.Open}, Limit{What: TurnsInwards, OK: !turnsInwards(f)}
	switch m {
	case InLayers:
		return []Limit{{What: SingleLayer, OK: c.kind.Layers > 1}}
	case Rolled:
		row := r.Row
		if b := c.shop.Bench.MM(); b > 0 {
			row = min(row, b)
		}
		return []Limit{{What: FlatBoards, OK: f.Boards.OnEdge}, outward, atMost(RowLength, c.g.Row, row),
			atMost(LongestSide, longestSide(f), r.Side), atMost(Thickness, f.Boards.Thickness.MM(), r.Stock)}
	case Strapped:
		want, long := c.straps()
		return []Limit{closed, outward, {What: StrapsRound, Have: float64(want), Most: float64(len(long)), OK: len(long) >= want}}
	case Halves:
		even := f.Built.Sides()%2 == 0
		_, inLine := c.truing()
		return []Limit{closed, {What: OddSides, OK: even}, {What: Uneven, OK: !even || inLine}}
	}
	return nil
}

func atMost(what Measured, have, most float64) Limit {
	return Limit{What: what, Have: have, Most: most, OK: have <= most+geom.Eps}
}

func longestSide(f frame.Frame) float64 {
	longest := 0.0
	for _, p := range f.Parts {
		longest = max(longest, p.LongPoint())
	}
	return longest
}

func turnsInwards(f frame.Frame) bool {
	for _, k := range jointCorners(f) {
		if f.Asked.Setting(k) < 0 {
			return true
		}
	}
	return false
}

// straps says how many straps go round the frame at once, one to each pitch of
// its depth from front to back, and which of the shop's are long enough.
func (c choosing) straps() (want int, long []int) {
	want = max(1, int(math.Ceil(c.kind.Frame.Boards.Rise().MM()/c.shop.Rates.Glue.Pitch-geom.Eps)))
	round := c.kind.Frame.Built.Corners.Perimeter()
	for i, s := range c.shop.Straps {
		if s.MM() >= round {
			long = append(long, i)
		}
	}
	return want, long
}

// truing finds the two opposite corners whose mitres lie in one line best. The
// ends of a half can be taken down in one plane only where they do.
func (c choosing) truing() (Truing, bool) {
	f := c.kind.Frame
	n, off := len(f.Built.Corners), c.shop.Rates.Glue.Truing
	best, out := math.Inf(1), Truing{}
	for a := 1; a <= n/2 && n%2 == 0 && !f.Built.Open; a++ {
		b := a + n/2
		line := geom.Segment{A: f.Built.Corners[a-1], B: f.Built.Corners[b-1]}
		miss := max(offLine(line, f.Inside[a-1]), offLine(line, f.Inside[b-1]))
		if miss < best-geom.Eps {
			best = miss
			out = Truing{Corners: [2]int{a, b}, Off: off, Lost: 2 * off, Sides: [2]float64{shorter(f, a, off), shorter(f, b, off)}}
		}
	}
	return out, best <= c.shop.Rates.Tolerance
}

// offLine is the distance of a point from the line through a segment.
func offLine(s geom.Segment, p geom.Point) float64 {
	return math.Abs(p.Sub(s.A).Cross(s.Vec().Unit()))
}

// shorter is how much of a side's length goes when off is taken square to the
// mitre: the mitre stands at half the inside angle to the side.
func shorter(f frame.Frame, corner int, off float64) float64 {
	return off / math.Sin(float64(f.Built.InsideAngle(corner))/2)
}

// stages lists what is glued one after the other. Joint by joint, every other
// joint of what is loose is closed at a time, so that pieces halve in number
// and no part is in two joints at once; the last two of a closed frame close
// together, since neither closes without the other.
func (c choosing) stages(m Method) []Stage {
	n, open := c.g.Joints, c.kind.Frame.Built.Open
	switch m {
	case InLayers:
		var out []Stage
		for range max(c.kind.Layers, 2) - 1 {
			out = append(out, Stage{len(c.kind.Frame.Parts), 1})
		}
		return out
	case Halves:
		if n > 3 {
			return []Stage{{2, n/2 - 1}, {1, 2}}
		}
	case JointByJoint:
		return pairwise(len(c.kind.Frame.Parts), open)
	}
	return []Stage{{1, n}}
}

func pairwise(pieces int, open bool) []Stage {
	var out []Stage
	last := 2
	if open {
		last = 1
	}
	for pieces > last {
		out = append(out, Stage{pieces / 2, 1})
		pieces -= pieces / 2
	}
	if !open {
		out = append(out, Stage{1, 2})
	}
	return out
}

// atOnce is the most joints that a method closes without a break.
func (c choosing) atOnce(m Method) int {
	most := 0
	for _, s := range c.stages(m) {
		most = max(most, s.Joints)
	}
	return most
}

// minutes are for one joint and one pair of hands: both faces coated and the
// joint closed. A segment of a layer is coated on its broad face and both ends.
func (c choosing) minutes(m Method) float64 {
	r, f := c.shop.Rates.Glue, c.kind.Frame
	mitre := 0.0
	for _, k := range jointCorners(f) {
		mitre = max(mitre, mitreArea(f, k))
	}
	face := max(r.Face, mitre/r.Spread)
	if m != InLayers {
		return 2*face + r.Close
	}
	broad := 0.0
	for _, p := range f.Parts {
		broad = max(broad, math.Abs(p.Face.Area()))
	}
	return 2*face + broad/r.Spread + r.Close
}

// perGo is open time over the time for one joint, whole joints only, all hands
// at it. It is at least 0.
func (c choosing) perGo(m Method) int {
	return int(math.Floor(c.shop.Rates.Glue.OpenTime()*float64(c.shop.People)/c.minutes(m) + wholeJoint))
}

// hands is how many people close what must be closed at once in time.
func (c choosing) hands(m Method) int {
	return max(1, int(math.Ceil(float64(c.atOnce(m))*c.minutes(m)/c.shop.Rates.Glue.OpenTime()-wholeJoint)))
}

// wholeJoint, in joints, keeps a sum that is a whole number of joints but for
// the last digit of a float from losing one: a billionth of a joint is less
// than a microsecond of work.
const wholeJoint = 1e-9

// fill writes what follows from the method.
func (c choosing) fill(g *GlueUp) {
	g.PerGo, g.Stages, g.PerUnit = c.perGo(g.Method), c.stages(g.Method), c.minutes(g.Method)
	g.Sizing = 2 * c.shop.Rates.Glue.SizeFace
	switch g.Method {
	case Strapped:
		g.Strapped, g.Straps = c.straps()
	case Halves:
		if t, ok := c.truing(); ok {
			g.Truing = &t
		}
	}
}
