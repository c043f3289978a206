package making

import (
	"math"

	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/unit"
)

// A Method is a way of gluing a frame up.
type Method string

// The methods; Chosen leaves it to the plan.
const (
	Chosen       Method = ""
	InLayers     Method = "in layers"
	Rolled       Method = "laid on tape and rolled"
	Strapped     Method = "strap with corner blocks"
	Halves       Method = "two halves"
	JointByJoint Method = "joint by joint"
)

// preference is the order in which methods are tried: the ones that close a
// whole frame in one go come first, since every later joint has to meet what is
// already hard.
var preference = []Method{InLayers, Rolled, Strapped, Halves, JointByJoint}

// A GlueUp is how one frame of a kind is glued.
type GlueUp struct {
	Method   Method
	Tried    []Trial // every method in order of preference, the one taken too
	Asked    bool    // the method was asked for, not chosen
	Possible bool    // the glue stays open long enough; otherwise it is in no Go

	Joints  int     // of one frame
	Row     float64 // all outside lengths end to end
	PerGo   int     // joints that are closed within the open time, all hands at it
	Stages  []Stage // one after the other, each when the last one holds
	PerUnit float64 // minutes for one joint, one pair of hands
	Sizing  float64 // minutes to size one joint, one pair of hands

	Straps   []int   // straps of the shop, by index, that go round it
	Strapped int     // how many of them at once
	Batten   float64 // open: between the inside of the feet, where a batten keeps them apart
	Truing   *Truing // two halves

	Clear float64 // narrowest way across the inside
	Wipe  bool    // too narrow for a chisel: squeezed-out glue is wiped while it is wet

	Hold, Flat, Full float64 // minutes: until it may be moved, under weight, until full strength
	Steps            []Step
}

// A Stage is what is glued of one frame at a time: Units of Joints joints, each
// unit closed without a break.
type Stage struct{ Units, Joints int }

// A Trial is a method held against its limits.
type Trial struct {
	Method Method
	Limits []Limit
	OK     bool
	Hands  int // people it takes to close within the open time
}

// A Limit is one figure of a frame and the most it may be for a method. Limits
// that are no figures, such as odd sides, have neither.
type Limit struct {
	What       Measured
	Have, Most float64 // mm, or a count
	OK         bool
}

// Measured is what a Limit is about.
type Measured string

// What limits a method.
const (
	RowLength    Measured = "the row"
	LongestSide  Measured = "the longest side"
	Thickness    Measured = "the boards' thickness"
	JointsAtOnce Measured = "joints closed at once"
	StrapsRound  Measured = "straps that are too few or too short:"
	FlatBoards   Measured = "boards lie flat"
	TurnsInwards Measured = "a corner turns inwards"
	OpenFrame    Measured = "the frame is open"
	OddSides     Measured = "odd sides"
	Uneven       Measured = "opposite mitres out of line"
	SingleLayer  Measured = "a single layer"
)

func (m Measured) count() bool { return m == JointsAtOnce || m == StrapsRound }

func (m Measured) measure() bool { return m == RowLength || m == LongestSide || m == Thickness }

// Truing is how two halves are made to meet: the joints at two opposite corners
// stay dry, both ends of each half are taken down together, in one plane.
type Truing struct {
	Corners [2]int
	Off     float64    // taken off each half
	Lost    float64    // by so much the frame is smaller across the line of the two corners
	Sides   [2]float64 // by so much each side at the two corners is shorter
}

// joints is how many corners of a frame are glued.
func joints(f frame.Frame) int {
	if f.Built.Open {
		return len(f.Parts) - 1
	}
	return len(f.Parts)
}

// jointCorners lists the corners where two parts meet, from the first.
func jointCorners(f frame.Frame) []int {
	var out []int
	for k := range f.Built.Corners {
		if !f.Built.IsFoot(k + 1) {
			out = append(out, k+1)
		}
	}
	return out
}

// mitreArea is the area of one mitre face at a corner.
func mitreArea(f frame.Frame, corner int) float64 {
	return frame.JointFace(f.Boards.Depth(), f.Asked.Setting(corner)) * f.Boards.Rise().MM()
}

// glueUp chooses how a kind is glued and says why.
func (m *maker) glueUp(k Kind) GlueUp {
	g := newGlueUp(k, m.shop)
	c := choosing{kind: k, shop: m.shop, g: g}
	for _, method := range preference {
		g.Tried = append(g.Tried, c.try(method))
	}
	taken := m.taken(k, g.Tried)
	g.Method, g.Asked = taken.Method, k.Method != Chosen
	g.Possible = taken.Hands <= m.shop.People
	if !g.Possible {
		m.fail(Problem{Code: OpenShort, Kind: k.Name, Method: g.Method, Room: m.shop.Rates.Glue.OpenTime(),
			Need: float64(c.atOnce(g.Method)) * c.minutes(g.Method) / float64(m.shop.People), Hands: taken.Hands})
	}
	c.fill(&g)
	g.Steps = steps(g, k)
	return g
}

// taken is the trial of the method asked for, or else of the first that its
// limits allow; joint by joint, when the open time allows none.
func (m *maker) taken(k Kind, tried []Trial) Trial {
	for _, t := range tried {
		switch {
		case t.Method == k.Method:
			m.refuse(k, t)
			return t
		case k.Method == Chosen && t.OK:
			return t
		}
	}
	return tried[len(tried)-1]
}

// refuse names the limits that a method asked for is beyond. Too many joints at
// once are named apart: more hands help there.
func (m *maker) refuse(k Kind, t Trial) {
	for _, l := range t.Limits {
		switch {
		case l.OK || l.What == JointsAtOnce:
		case l.What == Uneven:
			m.fail(Problem{Code: NoTruing, Kind: k.Name, Method: t.Method, What: l.What})
		default:
			m.fail(Problem{Code: BeyondLimit, Kind: k.Name, Method: t.Method, What: l.What, Room: l.Have, Need: l.Most})
		}
	}
}

func newGlueUp(k Kind, s Shop) GlueUp {
	r, f := s.Rates.Glue, k.Frame
	g := GlueUp{Joints: joints(f), Hold: r.Hold, Flat: r.Flat, Full: r.Full, Clear: clearWidth(f.Inside)}
	for _, p := range f.Parts {
		g.Row += p.Outside.MM()
	}
	g.Wipe = g.Clear < r.Chisel
	if f.Built.Open {
		g.Batten = f.Inside[0].Dist(f.Inside[len(f.Inside)-1])
	}
	return g
}

// clearWidth is the narrowest way across an outline: the least, over its
// sides, of the farthest corner from the side. For a shape without corners that
// turn inwards this is its least width (rotating calipers: the least width is
// taken up along a side).
func clearWidth(p geom.Polygon) float64 {
	least := math.Inf(1)
	for i := range p {
		a, across := p[i], p.Side(i).Vec().Unit().Perp()
		far := 0.0
		for _, q := range p {
			far = max(far, math.Abs(q.Sub(a).Dot(across)))
		}
		least = min(least, far)
	}
	return least
}

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

// Hands is how many people the method takes to close in time.
func (g GlueUp) Hands() int {
	for _, t := range g.Tried {
		if t.Method == g.Method {
			return t.Hands
		}
	}
	return 1
}

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

// RowLength is the frame's row as a length, up to the nanometre.
func (g GlueUp) RowLength() unit.Length {
	l, _ := unit.FromMM(g.Row, unit.Nanometre, unit.Nearest)
	return l
}
