package statics

import (
	"errors"
	"fmt"
)

// A Node is a point of a Model, by its number. Ground is all that does not move.
type Node int

// Ground can stand for either end of a spring or a contact.
const Ground Node = -1

// A Model is built up by its methods and then prepared. The zero Model is empty
// and ready. What is wrong with it Prepare says, all at once.
type Model struct {
	nodes    []node
	members  []Member
	springs  []Spring
	contacts []Contact
	weights  []Weight
	faults   []error
}

type node struct {
	at    Vec
	group string
	held  Hold
}

// A Member is a straight stick between the tips of two arms.
type Member struct {
	A, B       Node
	ArmA, ArmB Vec // from the node to the end of the stick
	Depth      Vec // the direction of the section's depth; what lies along the stick is taken off
	Section    Section
}

// A Spring joins two nodes at a point, or a node with the ground. It resists
// B's point moving away from A's along Axis, either point sliding past the
// other, and B turning against A.
type Spring struct {
	A, B   Node
	At     Vec     // the point, to which rigid arms reach
	Axis   Vec     // direction from A to B
	Along  float64 // N/mm along the axis
	Across float64 // N/mm across it, the same all round
	Turn   float64 // N mm a radian about the axis
	Rock   float64 // N mm a radian about any line across it

	// PullOnly springs do not resist A and B coming closer along Axis: a screw
	// whose boards are pressed together elsewhere.
	PullOnly bool
	// Switched springs act only in cases that name them.
	Switched bool
	// Seam names what the spring is part of. A seam held by one spring alone is
	// reported by Pivots.
	Seam string
}

// A Contact keeps two nodes apart at a point: B's point cannot come closer to
// A's along Axis without a push.
type Contact struct {
	A, B  Node
	At    Vec
	Axis  Vec     // direction from A to B
	Stiff float64 // N a mm of closing
	Gap   float64 // mm open before any load
}

// A Weight hangs on a node, at the end of an arm, and acts along the gravity of
// a case.
type Weight struct {
	Node Node
	Arm  Vec
	N    float64
}

// A Hold says which movements of a node are held.
type Hold uint8

// The six movements, those of a hinge in all directions, and all.
const (
	HoldX Hold = 1 << iota
	HoldY
	HoldZ
	HoldTurnX
	HoldTurnY
	HoldTurnZ
	HoldShift = HoldX | HoldY | HoldZ
	HoldAll   = HoldShift | HoldTurnX | HoldTurnY | HoldTurnZ
)

func (h Hold) holds(unknown int) bool { return h>>unknown&1 == 1 }

// Node adds a point that belongs to a named group, such as a frame.
func (m *Model) Node(at Vec, group string) Node {
	if !at.finite() {
		m.fault("node %d stands nowhere: %v", len(m.nodes), at)
	}
	m.nodes = append(m.nodes, node{at: at, group: group})
	return Node(len(m.nodes) - 1)
}

// At gives the place of a node.
func (m *Model) At(n Node) Vec { return m.nodes[n].at }

// Hold holds movements of a node, besides those already held.
func (m *Model) Hold(n Node, h Hold) {
	if !m.has(n) {
		m.fault("a support at node %d: there are %d", n, len(m.nodes))
		return
	}
	m.nodes[n].held |= h
}

// Member adds a stick and gives its number, from 0.
func (m *Model) Member(s Member) int {
	n := len(m.members)
	m.members = append(m.members, s)
	switch {
	case !m.has(s.A) || !m.has(s.B):
		m.fault("member %d joins nodes %d and %d: there are %d", n, s.A, s.B, len(m.nodes))
	case !s.Section.good():
		m.fault("member %d: a section needs every figure above 0: %+v", n, s.Section)
	case !s.ArmA.finite() || !s.ArmB.finite() || s.A == s.B:
		m.fault("member %d joins node %d with %d on arms %v and %v", n, s.A, s.B, s.ArmA, s.ArmB)
	default:
		if m.bar(s) == (bar{}) {
			m.fault("member %d has no length, or its depth lies along it", n)
		}
	}
	return n
}

// Spring adds a spring and gives its number, from 0.
func (m *Model) Spring(s Spring) int {
	n := len(m.springs)
	least := min(s.Along, s.Across, s.Turn, s.Rock)
	m.joint(fmt.Sprintf("spring %d", n), s.A, s.B, s.At, s.Axis)
	if !(least >= 0) || !(Vec{s.Along + s.Across, s.Turn, s.Rock}).finite() {
		m.fault("spring %d: stiffness is 0 or more", n)
	}
	s.Axis = s.Axis.Unit()
	m.springs = append(m.springs, s)
	return n
}

// Contact adds a contact and gives its number, from 0.
func (m *Model) Contact(c Contact) int {
	n := len(m.contacts)
	m.joint(fmt.Sprintf("contact %d", n), c.A, c.B, c.At, c.Axis)
	if !(c.Stiff > 0) || !(Vec{c.Stiff, c.Gap}).finite() {
		m.fault("contact %d: stiffness %v must be above 0, and the gap %v a number", n, c.Stiff, c.Gap)
	}
	c.Axis = c.Axis.Unit()
	m.contacts = append(m.contacts, c)
	return n
}

// Weight hangs a weight on a node.
func (m *Model) Weight(w Weight) {
	if !m.has(w.Node) || !w.Arm.finite() || !(Vec{w.N}).finite() {
		m.fault("a weight %+v: there are %d nodes", w, len(m.nodes))
		return
	}
	m.weights = append(m.weights, w)
}

func (m *Model) has(n Node) bool { return n >= 0 && int(n) < len(m.nodes) }

func (m *Model) joint(what string, a, b Node, at, axis Vec) {
	switch {
	case a != Ground && !m.has(a), b != Ground && !m.has(b), a == b:
		m.fault("%s joins nodes %d and %d: there are %d, and the ground", what, a, b, len(m.nodes))
	case !at.finite() || !axis.finite() || axis.Len() == 0:
		m.fault("%s acts at %v along %v", what, at, axis)
	}
}

func (m *Model) fault(format string, args ...any) {
	m.faults = append(m.faults, fmt.Errorf("statics: "+format, args...))
}

// Err gives everything that is wrong with the model so far, or nil.
func (m *Model) Err() error { return errors.Join(m.faults...) }

// arm is the rigid arm from a node to a point.
func (m *Model) arm(n Node, at Vec) Vec {
	if n == Ground {
		return Vec{}
	}
	return at.Sub(m.nodes[n].at)
}
