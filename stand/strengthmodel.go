package stand

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/statics"
)

// The model stands as base says: x to the right as seen from the front, y
// backwards, z up. A place of the front view with a depth is so put there.
func place(p geom.Point, back float64) statics.Vec { return statics.Vec{p.X, back, p.Y} }

func direction(p geom.Point) statics.Vec { return statics.Vec{p.X, 0, p.Y} }

// A side is one board of a frame as a row of sticks on its centre line.
type side struct {
	frame, number int // number from 1
	line          geom.Segment
	out           geom.Point // away from the frame
	back          float64    // of the centre line
	wide, rise    float64    // in the plane; from front to back
	spots         []spot     // sorted along it
	first         int        // number of its first stick
}

// A spot is a node on a side, so far along it.
type spot struct {
	along float64
	node  statics.Node
}

// sameSpot, in mm, is how near two nodes of a side are made one: far less than a
// board is thick, and loads and screws keep their own places by rigid arms.
const sameSpot = 1.0

// A mark asks for a node.
type mark struct {
	side  *side
	along float64
}

// A strengthModel is a piece as sticks, screws and contacts, with what each of
// them stands for.
type strengthModel struct {
	statics.Model
	in      StrengthInput
	rules   StrengthRules
	sides   [][]*side // by frame
	soft    bool      // mitres give
	ends    []mitre
	sticks  []stickOf // by member
	ties    []tie     // by spring
	battens []StrongbackList
	twists  map[[2]float64]float64 // twist modulus by the sides of a face, as it is a long sum
}

// stickOf says what a member is: a stretch of a side, a batten or a brace.
type stickOf struct {
	side           *side // nil for others
	name           string
	wide, deep     float64
	gravity        float64
	aCorner, bEdge int // corner of the frame at its ends, from 1; 0 for none
}

// A mitre has two ends of sticks.
type mitre struct {
	frame, corner int
	face          float64 // long across the plane's board, mm
	rise          float64
	sticks        [2]int // the one that ends there and the one that begins
}

func newStrengthModel(in StrengthInput, rules StrengthRules, soft bool) *strengthModel {
	m := &strengthModel{in: in, rules: rules, soft: soft, twists: map[[2]float64]float64{}}
	for i := range in.Layout.Frames {
		m.sides = append(m.sides, m.sidesOf(i))
	}
	return m
}

// corner is the place of a corner on the centre lines, from 0.
func (m *strengthModel) corner(frame, k int) geom.Point {
	f := m.in.Layout.Frames[frame]
	k %= len(f.Outside)
	return f.Outside[k].Lerp(f.Inside[k], 1.0/2)
}

func (m *strengthModel) sidesOf(i int) []*side {
	f, s := m.in.Layout.Frames[i], m.in.Frames[i]
	var out []*side
	for k := range f.Sides() {
		_, _, away := f.Side(k + 1)
		rise := s.Boards.Rise().MM()
		d := &side{frame: i, number: k + 1, out: away, back: s.Front + rise/2, wide: s.Boards.Depth().MM(), rise: rise,
			line: geom.Segment{A: m.corner(i, k), B: m.corner(i, k+1)}}
		d.spots = []spot{{along: 0}, {along: d.line.Len()}}
		out = append(out, d)
	}
	return out
}

// mark asks for a node of a side nearest to a place.
func (m *strengthModel) mark(frame, number int, at geom.Point) mark {
	s := m.sides[frame][number-1]
	along := at.Sub(s.line.A).Dot(s.line.Vec().Unit())
	along = math.Max(0, math.Min(s.line.Len(), along))
	for _, p := range s.spots {
		if math.Abs(p.along-along) < sameSpot {
			return mark{s, p.along}
		}
	}
	s.spots = append(s.spots, spot{along: along})
	return mark{s, along}
}

// node of a mark; frames must have been made.
func (k mark) node() statics.Node {
	for _, p := range k.side.spots {
		if p.along == k.along {
			return p.node
		}
	}
	return statics.Ground
}

func (k mark) at() statics.Vec {
	return place(k.side.line.A.Add(k.side.line.Vec().Unit().Mul(k.along)), k.side.back)
}

// frames makes nodes and sticks of all frames, once all marks are known.
func (m *strengthModel) frames() {
	for i, sides := range m.sides {
		section := m.section(i)
		for _, s := range sides {
			slices.SortFunc(s.spots, func(a, b spot) int { return cmp.Compare(a.along, b.along) })
		}
		corners := m.cornerNodes(i, sides)
		for k, s := range sides {
			m.run(s, section, corners[k])
		}
		m.mitres(i)
	}
}

// cornerNodes gives the nodes at the two ends of every side: one for both boards
// of a mitre, or two where mitres give.
func (m *strengthModel) cornerNodes(i int, sides []*side) [][2]statics.Node {
	f := m.in.Layout.Frames[i]
	out := make([][2]statics.Node, len(sides))
	for k, s := range sides {
		if k > 0 && !m.soft {
			out[k][0] = out[k-1][1]
		} else {
			out[k][0] = m.Node(place(s.line.A, s.back), f.ID)
		}
		if closed := !f.Open && k == len(sides)-1; closed && !m.soft {
			out[k][1] = out[0][0]
		} else {
			out[k][1] = m.Node(place(s.line.B, s.back), f.ID)
		}
	}
	return out
}

// section of the boards of a frame; all of its mass is on its centre lines.
func (m *strengthModel) section(i int) statics.Section {
	s := m.in.Frames[i]
	e := s.Stiff
	if e == 0 {
		e = m.rules.Stiff * s.Gravity
	}
	sec := statics.Rectangle(s.Boards.Depth().MM(), s.Boards.Rise().MM(), e, e/m.rules.ShearStiff)
	long := 0.0
	for _, d := range m.sides[i] {
		long += d.line.Len()
	}
	sec.Weight = float64(Weigh(s.Mass)) / long
	return sec
}

// run makes the sticks of a side between its nodes.
func (m *strengthModel) run(s *side, section statics.Section, ends [2]statics.Node) {
	id, n := m.in.Layout.Frames[s.frame].ID, len(s.spots)
	s.spots[0].node, s.spots[n-1].node = ends[0], ends[1]
	for i := 1; i < n-1; i++ {
		s.spots[i].node = m.Node(mark{s, s.spots[i].along}.at(), id)
	}
	for i := range n - 1 {
		number := m.Member(statics.Member{A: s.spots[i].node, B: s.spots[i+1].node, Depth: statics.Vec{0, 1, 0}, Section: section})
		if i == 0 {
			s.first = number
		}
		m.sticks = append(m.sticks, stickOf{side: s, wide: s.wide, deep: s.rise, gravity: m.in.Frames[s.frame].Gravity})
	}
}

func (s *side) last() int { return s.first + len(s.spots) - 2 }

// mitres lists the corners of a frame, and makes those that give.
func (m *strengthModel) mitres(i int) {
	f, sides := m.in.Layout.Frames[i], m.sides[i]
	for k := range f.Outside {
		if f.Open && (k == 0 || k == len(f.Outside)-1) {
			continue
		}
		before, after := sides[(k+len(sides)-1)%len(sides)], sides[k]
		c := mitre{frame: i, corner: k + 1, face: f.Outside[k].Dist(f.Inside[k]), rise: after.rise, sticks: [2]int{before.last(), after.first}}
		m.sticks[before.last()].bEdge, m.sticks[after.first].aCorner = k+1, k+1
		m.ends = append(m.ends, c)
		if m.soft {
			m.giveMitre(c, f.Inside[k].Sub(f.Outside[k]).Unit(), before, after)
		}
	}
}

// giveMitre joins the two boards over the face of the mitre by four springs,
// where those of a plate on an even bed have its first and second moments; across
// the face it gives three times as much.
func (m *strengthModel) giveMitre(c mitre, along geom.Point, before, after *side) {
	normal := direction(along.Perp())
	if normal.Dot(direction(before.line.Vec())) < 0 {
		normal = normal.Mul(-1)
	}
	stiff := m.rules.MitreSoft * c.face * c.rise / 4
	at := place(after.line.A, after.back)
	for _, t := range []float64{-1, 1} {
		for _, z := range []float64{-1, 1} {
			p := at.Add(direction(along).Mul(t * c.face / 2 / math.Sqrt(3))).Add(statics.Vec{0, z * c.rise / 2 / math.Sqrt(3), 0})
			m.tie(tie{}, statics.Spring{A: before.spots[len(before.spots)-1].node, B: after.spots[0].node, At: p, Axis: normal, Along: stiff, Across: stiff / 3})
		}
	}
}
