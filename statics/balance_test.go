package statics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// outside sums what a case puts on a model, by hand: force, and moment about the
// origin. A uniform load acts in the middle of its stick.
func outside(m *Model, c Case) (sum Load, size float64) {
	add := func(at Vec, l Load) {
		sum.Force = sum.Force.Add(l.Force)
		sum.Moment = sum.Moment.Add(l.Moment).Add(at.Cross(l.Force))
		size += l.Force.Len() + (l.Moment.Len()+at.Cross(l.Force).Len())/100
	}
	for _, n := range c.Nodal {
		add(m.At(n.Node).Add(n.Arm), n.Load)
	}
	for _, w := range m.weights {
		add(m.At(w.Node).Add(w.Arm), Load{Force: c.Gravity.Mul(w.N)})
	}
	along := func(i int, w Vec) {
		s := m.members[i]
		a, b := m.At(s.A).Add(s.ArmA), m.At(s.B).Add(s.ArmB)
		add(a.Add(b).Mul(1.0/2), Load{Force: w.Mul(b.Sub(a).Len())})
	}
	for i, s := range m.members {
		along(i, c.Gravity.Mul(s.Section.Weight))
	}
	for _, s := range c.Spread {
		along(s.Member, s.Force)
	}
	return sum, size
}

// inside sums what comes from the ground: supports, springs and contacts.
func inside(m *Model, r *Result) (sum Load) {
	add := func(at Vec, l Load) {
		sum.Force = sum.Force.Add(l.Force)
		sum.Moment = sum.Moment.Add(l.Moment).Add(at.Cross(l.Force))
	}
	for n, l := range r.Reactions {
		add(m.At(Node(n)), l)
	}
	// What a tie does to A comes from the ground where B is it; where A is the
	// ground, it does the opposite to B.
	tie := func(a, b Node, at Vec, l Load) {
		switch {
		case b == Ground:
			add(at, l)
		case a == Ground:
			add(at, l.Neg())
		}
	}
	for i, s := range m.springs {
		f, axis := r.Springs[i], s.Axis.Unit()
		tie(s.A, s.B, s.At, Load{axis.Mul(f.Along).Add(f.Across), axis.Mul(f.Turn).Add(f.Rock)})
	}
	for i, c := range m.contacts {
		tie(c.A, c.B, c.At, Load{Force: c.Axis.Unit().Mul(-r.Contacts[i].Push)})
	}
	return sum
}

// TestReactionsAreTheLoads: forces and moments from the ground are those of the
// loads, summed by hand, with springs, contacts and arms.
func TestReactionsAreTheLoads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t, rapid.IntRange(0, 4).Draw(t, "contacts"))
		c := drawCase(t, m)
		r := settled1(t, prepare(t, m), c)
		put, size := outside(m, c)
		from := inside(m, r)
		off := put.Force.Add(from.Force).Len() + put.Moment.Add(from.Moment).Len()/100
		if !(off <= 1e-8*size) || math.IsNaN(off) {
			t.Fatalf("out of balance by %v of %v: %v put on, %v from the ground", off, size, put, from)
		}
	})
}
