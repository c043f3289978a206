package stand

import (
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/statics"
)

// A pad is where a frame stands: on a board, a foot, a tip, or, held in the air
// by a post of the base, on its lowest side.
type pad struct {
	frame int
	mark  mark
	more  []mark // the ends of the board, for one held without give
	face  geom.Segment
	n     geom.Point // away from the frame
	held  bool
	grain bool // the end of a board: screws do not pull there
}

// pads asks for the nodes of all of them.
func (m *strengthModel) pads() []pad {
	l, held := m.in.Layout, m.in.held()
	down := geom.Point{Y: -1}
	var out []pad
	add := func(p pad) {
		p.held = slices.Contains(held, p.frame)
		out = append(out, p)
	}
	for _, s := range l.Standing {
		face := geom.Segment{A: geom.Point{X: s.From}, B: geom.Point{X: s.To}}
		add(pad{frame: s.Frame, mark: m.mark(s.Frame, s.Side, face.A.Lerp(face.B, 1.0/2)), face: face, n: down})
	}
	for _, s := range l.Feet {
		face := geom.Segment{A: geom.Point{X: s.From}, B: geom.Point{X: s.To}}
		add(pad{frame: s.Frame, mark: m.cornerMark(s.Frame, s.Corner), face: face, n: down, grain: true})
	}
	for _, f := range held {
		if !slices.ContainsFunc(out, func(p pad) bool { return p.frame == f }) {
			add(m.lowest(f))
		}
	}
	for _, s := range l.Tips {
		if !slices.Contains(held, s.Frame) {
			half := geom.Point{X: m.in.Frames[s.Frame].Boards.Depth().MM() / 2}
			at := geom.Point{X: s.X}
			add(pad{frame: s.Frame, mark: m.cornerMark(s.Frame, s.Corner), face: geom.Segment{A: at.Sub(half), B: at.Add(half)}, n: down})
		}
	}
	if m.in.Base.Method == clamped {
		for i, p := range out {
			if s := p.mark.side; !p.grain {
				out[i].more = []mark{{s, 0}, {s, s.line.Len()}}
			}
		}
	}
	return out
}

func (m *strengthModel) cornerMark(frame, corner int) mark {
	sides := m.sides[frame]
	if corner > len(sides) {
		s := sides[len(sides)-1]
		return mark{s, s.line.Len()}
	}
	return mark{sides[corner-1], 0}
}

// lowest is the lowest side of a frame, the first of equals.
func (m *strengthModel) lowest(frame int) pad {
	f := m.in.Layout.Frames[frame]
	best, low := 1, math.Inf(1)
	for k := 1; k <= f.Sides(); k++ {
		from, to, _ := f.Side(k)
		if y := (from.Y + to.Y) / 2; y < low-sameSpot {
			best, low = k, y
		}
	}
	from, to, out := f.Side(best)
	return pad{frame: frame, mark: m.mark(frame, best, from.Lerp(to, 1.0/2)), face: geom.Segment{A: from, B: to}, n: out}
}

// standOn joins the pads to the base: what presses, and what holds.
func (m *strengthModel) standOn(pads []pad) {
	none := len(m.in.held()) == 0
	for _, p := range pads {
		s := m.in.Frames[p.frame]
		rise := s.Boards.Rise().MM()
		back := s.Front + rise/2
		if p.held && m.in.Base.Method == clamped {
			for _, k := range append(p.more, p.mark) {
				m.Hold(k.node(), statics.HoldAll)
			}
			continue
		}
		middle := p.face.A.Lerp(p.face.B, 1.0/2)
		along := p.face.Vec().Unit()
		m.press(p.mark.node(), statics.Ground, middle, back, face{along: along, n: p.n, long: p.face.Len(), deep: rise, thick: s.Boards.Depth().MM(), e: m.section(p.frame).E})
		switch {
		case p.held:
			m.holdDown(p, back, rise)
		case none: // the floor's friction; whether it slides is asked elsewhere
			for _, t := range []float64{1.0 / 4, 1 - 1.0/4} {
				m.tie(tie{}, statics.Spring{A: p.mark.node(), B: statics.Ground, At: place(p.face.A.Lerp(p.face.B, t), back), Axis: direction(p.n), Across: m.rules.Slip})
			}
		}
	}
}

// most is how many fasteners along a held side are taken when nothing is said,
// and how many are proposed: common practice, no source.
const most = 4

// fasteners says how many are along a pad and where they are from front to back,
// as distances from the middle of the boards.
func (b BaseJoint) fasteners(long, rise float64, rules StrengthRules) (int, []float64) {
	n := b.Each
	if n <= 0 {
		n = min(most, 2+int(long/rules.BaseEvery))
	}
	off := math.Min(rules.Row, rise/3)
	rows := b.Rows
	if b.Method == Bracketed {
		off = rise / 2
		if rows == 0 {
			rows = 2
		}
		if rows == 1 { // behind, where nobody looks
			return n, []float64{off}
		}
	}
	if rows >= 2 {
		return n, []float64{-off, off}
	}
	return n, []float64{0}
}

func (m *strengthModel) holdDown(p pad, back, rise float64) {
	n, rows := m.in.Base.fasteners(p.face.Len(), rise, m.rules)
	t := tie{part: BasePart, number: p.frame, frames: [2]int{p.frame, p.frame}}
	d := m.baseDowel(p)
	m.allowBase(&t, d, p)
	for i := range n {
		t.at = p.face.A.Lerp(p.face.B, (float64(i)+1.0/2)/float64(n))
		for _, off := range rows {
			m.tie(t, m.shank(d, statics.Spring{A: p.mark.node(), B: statics.Ground, At: place(t.at, back+off), Axis: direction(p.n), Seam: "base of " + m.in.Layout.Frames[p.frame].ID}))
		}
	}
}

// What holds to the base when nothing is said: No. 8 (NDS 2018 Appendix L3), or
// a bolt of 1/4 in, through plywood of 18 mm; common practice, no source.
const (
	rootOfEight   = 0.131 * anInch
	usualBolt     = anInch / 4
	usualSheet    = 18
	endGrainSlide = 0.67 // NDS 2018 12.5.2.2: lateral, in end grain
)

func (m *strengthModel) baseDowel(p pad) Dowel {
	d, s := m.in.Base.Screw, m.in.Frames[p.frame]
	bolt := m.in.Base.Method == BoltedDown
	if d.Diameter == 0 {
		d = Dowel{Diameter: numberEight, Root: rootOfEight, Length: m.rules.BaseScrew}
		if bolt {
			d = Dowel{Diameter: usualBolt}
		}
	}
	d.Side, d.Bolt = m.in.Base.Sheet, bolt
	if d.Side == 0 {
		d.Side = usualSheet
	}
	d.Hold = s.Boards.Depth().MM()
	if !bolt {
		d.Hold = math.Max(0, math.Min(d.Hold, d.Length-d.Side))
	}
	d.HeadGravity, d.HoldGravity = m.rules.Plywood, s.Gravity
	return d
}

func (m *strengthModel) allowBase(t *tie, d Dowel, p pad) {
	if m.in.Base.Method == Bracketed {
		t.pull, t.slide = m.rules.Bracket*m.damp(), m.rules.BracketSide*m.damp()
		return
	}
	t.wood = true
	m.allow(t, d, false)
	if p.grain { // NDS 2018 12.2.1: no screw is to be pulled out of end grain
		t.pull, t.slide = 0, t.slide*endGrainSlide
	}
}

// brace adds a strut from the back of the piece down to the base.
func (m *strengthModel) brace(b Brace, top mark) {
	s := m.in.Frames[top.side.frame]
	at := top.at()
	back := s.Front + s.Boards.Rise().MM()
	head := statics.Vec{at[0], back, at[2]}
	foot := statics.Vec{at[0], back + b.Behind, 0}
	na, nb := m.Node(head, "brace"), m.Node(foot, "brace")
	sec := statics.Rectangle(b.Boards.Depth().MM(), b.Boards.Rise().MM(), m.section(top.side.frame).E, m.section(top.side.frame).G)
	m.Member(statics.Member{A: na, B: nb, Depth: statics.Vec{1}, Section: sec})
	m.sticks = append(m.sticks, stickOf{name: "brace", wide: b.Boards.Depth().MM(), deep: b.Boards.Rise().MM(), gravity: s.Gravity})
	t := tie{part: BracePart, number: top.side.frame, frames: [2]int{top.side.frame, top.side.frame}, at: geom.Point{X: at[0], Y: at[2]},
		pull: m.rules.Bracket * m.damp(), slide: m.rules.BracketSide * m.damp()}
	arm := b.Boards.Rise().MM() / 4
	rock := 2 * m.rules.Draw * arm * arm
	end := statics.Spring{At: head, Axis: statics.Vec{0, 1, 0}, Along: m.rules.Draw, Across: m.rules.Slip, Turn: rock, Rock: rock}
	end.A, end.B = top.node(), na
	m.tie(t, end)
	end.A, end.B, end.At, end.Axis = nb, statics.Ground, foot, statics.Vec{0, 0, -1}
	m.tie(t, end)
}

// nearest is the mark on the side nearest to a place.
func (m *strengthModel) nearest(at geom.Point) mark {
	var best *side
	near := math.Inf(1)
	for _, sides := range m.sides {
		for _, s := range sides {
			if d := (geom.Segment{A: at, B: at}).Dist(s.line); d < near-sameSpot {
				best, near = s, d
			}
		}
	}
	return m.mark(best.frame, best.number, at)
}

// A StrongbackList is one strongback for the lists.
type StrongbackList struct {
	Length float64 // mm
	Screws int
	Frames []int // that it is screwed to, in its own order
}

type crossing struct {
	mark mark
	at   geom.Point
	far  float64
}

// crossings are where a strongback crosses boards, from its start.
func (m *strengthModel) crossings(b Strongback) []crossing {
	line := geom.Segment{A: b.From, B: b.To}
	var out []crossing
	for _, sides := range m.sides {
		for _, s := range sides {
			if at, ok := line.Cross(s.line); ok {
				out = append(out, crossing{m.mark(s.frame, s.number, at), at, at.Dist(b.From)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b crossing) int {
		switch {
		case a.far < b.far-sameSpot:
			return -1
		case a.far > b.far+sameSpot:
			return 1
		}
		return a.mark.side.frame - b.mark.side.frame
	})
	return out
}

// batten screws a strongback to the back, two screws at every crossing.
func (m *strengthModel) batten(b Strongback, cross []crossing) {
	thick, wide := b.Boards.Thickness.MM(), b.Boards.Width.MM()
	dir := b.To.Sub(b.From).Unit()
	var before statics.Node
	for i, c := range cross {
		f := m.in.Frames[c.mark.side.frame]
		back := f.Front + f.Boards.Rise().MM()
		node := m.Node(place(c.at, back+thick/2), "strongback")
		if i > 0 && cross[i].far-cross[i-1].far > sameSpot {
			sec := statics.Rectangle(thick, wide, m.section(c.mark.side.frame).E, m.section(c.mark.side.frame).G)
			m.Member(statics.Member{A: before, B: node, Depth: direction(dir.Perp()), Section: sec})
			m.sticks = append(m.sticks, stickOf{name: "strongback", wide: thick, deep: wide, gravity: f.Gravity})
		} else if i > 0 {
			m.tie(tie{}, statics.Spring{A: before, B: node, At: place(c.at, back), Axis: statics.Vec{0, 1, 0}, Along: m.rules.Draw, Across: m.rules.Slip,
				Turn: m.rules.Draw * wide * wide, Rock: m.rules.Draw * wide * wide})
		}
		m.screwBatten(c, node, back, b, f.Gravity)
		before = node
	}
	m.battens = append(m.battens, b.list(cross))
}

// list is what a strongback takes: two screws at every crossing.
func (b Strongback) list(cross []crossing) StrongbackList {
	out := StrongbackList{Length: b.From.Dist(b.To), Screws: 2 * len(cross)}
	for _, c := range cross {
		if n := len(out.Frames); n == 0 || out.Frames[n-1] != c.mark.side.frame {
			out.Frames = append(out.Frames, c.mark.side.frame)
		}
	}
	return out
}

// StrongbackLists are the strongbacks of an input for the lists, in its order.
// They follow from its layout and boards alone, and are the same whether or not
// strength can be reckoned.
func (in StrengthInput) StrongbackLists() []StrongbackList {
	m := newStrengthModel(in, StrengthRules{}, false)
	out := make([]StrongbackList, len(in.Strongbacks))
	for i, b := range in.Strongbacks {
		out[i] = b.list(m.crossings(b))
	}
	return out
}

func (m *strengthModel) screwBatten(c crossing, node statics.Node, back float64, b Strongback, gravity float64) {
	thick, wide, d := b.Boards.Thickness.MM(), b.Boards.Width.MM(), b.Screw
	if d.Length == 0 {
		d = Dowel{Diameter: numberEight, Root: rootOfEight, Length: m.rules.Batten}
	}
	d.Side, d.Hold, d.HeadGravity, d.HoldGravity = thick, d.Length-thick, gravity, gravity
	along := c.mark.side.line.Vec().Unit()
	for _, k := range []float64{-1, 1} {
		t := tie{part: TiePart, number: c.mark.side.frame, frames: [2]int{c.mark.side.frame, c.mark.side.frame}, at: c.at.Add(along.Mul(k * wide / 4)), wood: true}
		m.allow(&t, d, false)
		m.tie(t, m.shank(d, statics.Spring{A: c.mark.node(), B: node, At: place(t.at, back), Axis: statics.Vec{0, 1, 0}}))
		m.Contact(statics.Contact{A: c.mark.node(), B: node, At: place(c.at.Add(along.Mul(k*wide/2)), back), Axis: statics.Vec{0, 1, 0},
			Stiff: m.rules.Press * m.section(c.mark.side.frame).E * c.mark.side.wide * wide / thick / 2})
	}
}
