package stand

import (
	"math"
	"strconv"

	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/statics"
	"bowerwright/stock"
)

// A Part is what may govern.
type Part string

// The parts. A tie is a screw of a strongback or the bolt of a brace.
const (
	SeamPart   Part = "seam"
	CornerPart Part = "corner"
	BoardPart  Part = "board"
	BasePart   Part = "joint to the base"
	TiePart    Part = "screws of a strongback"
	BracePart  Part = "brace"
)

// A tie is what a spring stands for: what it allows, and where it is. One without
// a part is not judged.
type tie struct {
	part        Part
	number      int // of the seam; index of the frame at a base
	frames      [2]int
	at          geom.Point
	pull, slide float64 // N
	rock        float64 // N mm; 0: not judged
	wood        bool    // time counts: what wood allows for minutes is more
	short       bool    // counts for nothing
	outside     bool
}

func (m *strengthModel) tie(t tie, s statics.Spring) int {
	m.ties = append(m.ties, t)
	return m.Spring(s)
}

// A joint is a seam with its marks and its figures.
type joint struct {
	seam  layout.Seam
	fixed *fixing.Seam
	marks [2]mark
	n, t  geom.Point // from the first frame to the second; along
	front float64
	deep  float64
}

// seams asks for the nodes of all seams.
func (m *strengthModel) seams() []joint {
	fixed := map[int]*fixing.Seam{}
	for i := range m.in.Fixing.Seams {
		fixed[m.in.Fixing.Seams[i].Index] = &m.in.Fixing.Seams[i]
	}
	var out []joint
	for i, s := range m.in.Layout.Seams {
		j := joint{seam: s, fixed: fixed[i], t: s.To.Sub(s.From).Unit(), front: math.Inf(-1)}
		back := math.Inf(1)
		for k, e := range s.Sides {
			j.marks[k] = m.mark(e.Frame, e.Side, s.Middle())
			f := m.in.Frames[e.Frame]
			j.front, back = math.Max(j.front, f.Front), math.Min(back, f.Front+f.Boards.Rise().MM())
		}
		j.deep = back - j.front
		j.n = j.marks[0].side.out
		if s.Sides[0].Inner {
			j.n = j.n.Mul(-1)
		}
		out = append(out, j)
	}
	return out
}

// Where contacts lie off the edges of a face: those of the worked examples, 0.1
// in along and 0.05 in across; nearer to the edge a corner is crushed.
const (
	contactEnd  = anInch / 10
	contactEdge = anInch / 20
)

// join makes a seam: a spring for each screw or plate, contacts near the four
// corners of its face.
func (m *strengthModel) join(j joint) {
	if j.fixed != nil {
		for _, t := range m.tiesOf(j) {
			m.tie(t.tie, t.spring)
		}
	}
	if j.deep <= 0 {
		return
	}
	a, b := j.marks[0].node(), j.marks[1].node()
	m.press(a, b, j.seam.Middle(), j.front+j.deep/2, face{along: j.t, n: j.n, long: j.seam.Length, deep: j.deep,
		thick: (j.marks[0].side.wide + j.marks[1].side.wide) / 2, e: m.section(j.seam.Sides[0].Frame).E})
}

// A face presses: long by deep, of boards so thick.
type face struct {
	along, n          geom.Point
	long, deep, thick float64
	e                 float64
}

// press adds the four contacts of a face.
func (m *strengthModel) press(a, b statics.Node, middle geom.Point, back float64, f face) {
	stiff := m.rules.Press * f.e * f.long * f.deep / f.thick / 4
	for _, t := range []float64{-1, 1} {
		for _, z := range []float64{-1, 1} {
			at := place(middle.Add(f.along.Mul(t*math.Max(f.long/2-contactEnd, f.long/4))), back+z*math.Max(f.deep/2-contactEdge, f.deep/4))
			m.Contact(statics.Contact{A: a, B: b, At: at, Axis: direction(f.n), Stiff: stiff})
		}
	}
}

type tied struct {
	tie    tie
	spring statics.Spring
}

// tiesOf are the screws, bolts or plates of a seam as springs.
func (m *strengthModel) tiesOf(j joint) []tied {
	switch j.fixed.Method {
	case fixing.Plated, fixing.Battened:
		return m.plated(j)
	}
	var out []tied
	for _, f := range j.fixed.Fasteners {
		out = append(out, m.driven(j, f))
	}
	return out
}

func (m *strengthModel) seamTie(j joint, along, off float64) tie {
	s := j.seam
	return tie{part: SeamPart, number: s.Number, frames: [2]int{s.Sides[0].Frame, s.Sides[1].Frame}, at: s.From.Add(j.t.Mul(along)).Add(j.n.Mul(off)), wood: true}
}

// driven is a screw or a bolt from one board into the other.
func (m *strengthModel) driven(j joint, f fixing.Fastener) tied {
	axis := direction(f.Axis).Mul(math.Cos(float64(f.Slant)))
	switch f.From {
	case fixing.Front:
		axis = axis.Add(statics.Vec{0, math.Sin(float64(f.Slant)), 0})
	case fixing.Back:
		axis = axis.Sub(statics.Vec{0, math.Sin(float64(f.Slant)), 0})
	}
	a, b := j.marks[0].node(), j.marks[1].node()
	if f.Head == j.seam.Sides[1].Frame {
		a, b = b, a
	}
	t := m.seamTie(j, f.Along, 0)
	d := m.dowelOf(f)
	m.allow(&t, d, m.redriven(j))
	if f.Kind != stock.WoodScrew && j.fixed.Method == fixing.Inserted {
		t.pull = m.rules.Insert * m.damp()
	}
	return tied{t, m.shank(d, statics.Spring{A: a, B: b, At: place(t.at, j.front+f.Depth), Axis: axis, Seam: "seam " + strconv.Itoa(t.number)})}
}

func (m *strengthModel) redriven(j joint) bool {
	for _, n := range j.fixed.Notes {
		if n == fixing.Redriven {
			return true
		}
	}
	return false
}

func (m *strengthModel) damp() float64 {
	if m.in.Damp {
		return m.rules.Damp
	}
	return 1
}

func (m *strengthModel) dowelOf(f fixing.Fastener) Dowel {
	bolt := f.Kind != stock.WoodScrew
	return Dowel{Diameter: f.Diameter.MM(), Root: f.Root.MM(), Length: f.Length.MM(), Side: f.First, Hold: f.Penetration, Bolt: bolt,
		HeadGravity: m.in.Frames[f.Head].Gravity, HoldGravity: m.in.Frames[f.Tip].Gravity}
}

// numberEight is the diameter for which stiffness is given, mm: NDS 2018
// Appendix L3.
const numberEight = 0.164 * anInch

// shank gives a spring the stiffness of a screw. A bolt fills its hole through
// both boards: twice that of a short screw.
func (m *strengthModel) shank(d Dowel, s statics.Spring) statics.Spring {
	k := d.Diameter / numberEight
	if d.Bolt {
		k *= 2
	}
	s.Along, s.Across, s.Rock = m.rules.Draw*k, m.rules.Slip*k, m.rules.Rock*k
	return s
}

// allow sets what a screw or bolt bears.
func (m *strengthModel) allow(t *tie, d Dowel, again bool) {
	damp := m.damp()
	t.slide = d.Lateral().Least * d.short() * damp
	if d.Bolt {
		wide := m.rules.Washer * d.Diameter
		t.pull = m.rules.Crush * math.Pi / 4 * (wide*wide - d.Diameter*d.Diameter) * damp
		return
	}
	if d.Hold < m.rules.Least*d.Diameter {
		t.short, t.pull, t.slide = true, 0, 0
		return
	}
	t.outside = d.Outside()
	t.pull = d.Withdrawal() * damp
	if again {
		t.pull *= m.rules.Redriven
	}
	t.pull = math.Min(t.pull, d.PullThrough(m.rules.Head*d.Diameter))
}

// plated takes the screws of a seam's plates together: a plate is a spring over
// the seam in the plane of the back; it pulls by the screws of one frame and
// rocks by their hold in the wood.
func (m *strengthModel) plated(j joint) []tied {
	type row struct {
		along, off, rise float64
		screws           int
		d                Dowel
	}
	var rows []*row
	for _, f := range j.fixed.Fasteners {
		if f.Tip != j.seam.Sides[0].Frame {
			continue
		}
		var r *row
		for _, o := range rows {
			if math.Abs(o.along-f.Along) < sameSpot {
				r = o
			}
		}
		if r == nil {
			r = &row{along: f.Along, rise: f.Depth, d: m.dowelOf(f)}
			rows = append(rows, r)
		}
		r.screws++
		r.off = math.Max(r.off, math.Abs(f.Off))
	}
	var out []tied
	for _, r := range rows {
		t := m.seamTie(j, r.along, 0)
		m.allow(&t, r.d, m.redriven(j))
		n := float64(r.screws)
		t.rock = t.pull * r.off
		t.pull, t.slide = t.slide*n, t.slide*n
		k := r.d.Diameter / numberEight * n / 2
		out = append(out, tied{t, statics.Spring{A: j.marks[0].node(), B: j.marks[1].node(), At: place(t.at, j.front+r.rise), Axis: direction(j.n),
			Along: m.rules.Slip * k, Across: m.rules.Slip * k, Rock: m.rules.Draw * k * r.off * r.off, Seam: "seam " + strconv.Itoa(t.number)}})
	}
	return out
}
