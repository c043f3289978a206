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
	Strapped     Method = "closed with a strap"
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
	Across   float64 // open: how long that batten is, from outside to outside
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
	Layered      Measured = "several layers"
	FrontToBack  Measured = "from front to back" // of a spline's room
	FromTheTip   Measured = "in from the tip"    // likewise
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
	return mitreLength(f, corner) * f.Boards.Rise().MM()
}

// mitreLength is from the outside to the inside end of the mitre at a corner.
func mitreLength(f frame.Frame, corner int) float64 {
	return frame.JointFace(f.Boards.Depth(), f.Asked.Setting(corner))
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
		g.Across = acrossFeet(f)
	}
	return g
}

// acrossFeet is how long a batten is that lies over the backs of an open frame's
// feet, a board's width high: the width of the frame at the batten's lower or its
// upper edge, whichever is more. It comes off again, so that its square ends may
// stand out beside feet that lean.
func acrossFeet(f frame.Frame) float64 {
	out := f.Built.Corners
	n := len(out)
	feet := out[0].Sub(out[n-1])
	along := feet.Unit()
	high := f.Boards.Width.MM()
	lean := func(foot, next geom.Point, outwards geom.Point) float64 {
		d := next.Sub(foot)
		up := math.Abs(d.Cross(along))
		if up < geom.Eps {
			return 0
		}
		return d.Dot(outwards) / up
	}
	return feet.Len() + max(0, high*(lean(out[0], out[1], along)+lean(out[n-1], out[n-2], along.Mul(-1))))
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

// WithHelp names a method that would have come first but for the open time, and
// how many people it takes: a helper spares the goes of the one taken.
func (g GlueUp) WithHelp() (Method, int, bool) {
	for _, t := range g.Tried {
		if t.Method == g.Method || g.Asked {
			break
		}
		if t.wantsOnlyHands() {
			return t.Method, t.Hands, true
		}
	}
	return Chosen, 0, false
}

// wantsOnlyHands says whether the open time alone stands against a method.
func (t Trial) wantsOnlyHands() bool {
	for _, l := range t.Limits {
		if l.OK == (l.What == JointsAtOnce) {
			return false
		}
	}
	return true
}

// RowLength is the frame's row as a length, up to the nanometre.
func (g GlueUp) RowLength() unit.Length {
	l, _ := unit.FromMM(g.Row, unit.Nanometre, unit.Nearest)
	return l
}
