package statics

import (
	"fmt"

	"bowerwright/statics/internal/ldl"
)

// A Case is one way of loading a model. The zero Case has no load.
type Case struct {
	Gravity Vec // what weights are multiplied with to give forces: (0, 0, -1) where z is up
	Nodal   []Nodal
	Spread  []Spread
	On      []int // the springs that are switched on, by number
}

// A Nodal load acts at the end of an arm from a node.
type Nodal struct {
	Node Node
	Arm  Vec
	Load
}

// A Spread load acts along the whole of a member, N per mm of its length, on the
// axes of the model.
type Spread struct {
	Member int
	Force  Vec
}

// loads are those of a case: at the nodes, and along the members, which are
// within the first already.
type loads struct {
	nodal  []Load
	spread []Vec
}

// spreadEnds brings a uniform load w along a stick to its ends: half the force
// at each, and moments ± L²/12 x̂ × w, which shear does not change, as the load
// is the same from either end.
func spreadEnds(along Vec, length float64, w Vec) [2]Load {
	half := w.Mul(length / 2)
	m := along.Cross(w).Mul(length * length / 12)
	return [2]Load{{half, m}, {half, m.Mul(-1)}}
}

func (p *Prepared) loads(c Case) (loads, error) {
	m := p.model
	l := loads{nodal: make([]Load, len(m.nodes)), spread: make([]Vec, len(m.members))}
	for _, n := range c.Nodal {
		if !m.has(n.Node) || !n.Arm.finite() || !n.Force.finite() || !n.Moment.finite() {
			return l, fmt.Errorf("statics: a load on node %d of %d: %+v on arm %v", n.Node, len(m.nodes), n.Load, n.Arm)
		}
		l.nodal[n.Node] = l.nodal[n.Node].Add(n.Load.from(n.Arm))
	}
	for _, w := range m.weights {
		l.nodal[w.Node] = l.nodal[w.Node].Add(Load{Force: c.Gravity.Mul(w.N)}.from(w.Arm))
	}
	for i, s := range m.members {
		l.spread[i] = c.Gravity.Mul(s.Section.Weight)
	}
	for _, s := range c.Spread {
		if s.Member < 0 || s.Member >= len(m.members) || !s.Force.finite() {
			return l, fmt.Errorf("statics: a load of %v along member %d of %d", s.Force, s.Member, len(m.members))
		}
		l.spread[s.Member] = l.spread[s.Member].Add(s.Force)
	}
	for i, s := range m.members {
		if l.spread[i] == (Vec{}) {
			continue
		}
		ends := spreadEnds(p.bars[i].axes[0], p.bars[i].length, l.spread[i])
		l.nodal[s.A] = l.nodal[s.A].Add(ends[0].from(s.ArmA))
		l.nodal[s.B] = l.nodal[s.B].Add(ends[1].from(s.ArmB))
	}
	return l, nil
}

// switches gives the terms that act before contacts are looked at, and whether
// each tie is there at all.
func (p *Prepared) switches(c Case) (on, there []bool, err error) {
	on = append([]bool(nil), p.on...)
	there = make([]bool, len(p.ties))
	for i, t := range p.ties {
		there[i] = t.term != none && !t.switched
	}
	for _, n := range c.On {
		if n < 0 || n >= len(p.springs) || !p.model.springs[n].Switched {
			return nil, nil, fmt.Errorf("statics: spring %d is not one that can be switched", n)
		}
		at := p.springs[n]
		if at.term != none {
			on[at.term] = true
		}
		if at.tie != none {
			there[at.tie] = p.ties[at.tie].term != none
		}
	}
	return on, there, nil
}

// vector gives the loads on the movements that are free, by block.
func (p *Prepared) vector(nodal []Load) []float64 {
	f := make([]float64, len(p.nodes)*ldl.Size)
	for b, n := range p.nodes {
		for i := range ldl.Size {
			if !p.model.nodes[n].held.holds(i) {
				f[b*ldl.Size+i] = nodal[n].entry(i)
			}
		}
	}
	return f
}

// entry is one of the three forces, then three moments.
func (l Load) entry(i int) float64 {
	if i < 3 {
		return l.Force[i]
	}
	return l.Moment[i-3]
}

func (l *Load) add(i int, v float64) {
	if i < 3 {
		l.Force[i] += v
	} else {
		l.Moment[i-3] += v
	}
}
