package statics

import (
	"context"
	"fmt"
	"math"

	"bowerwright/statics/internal/ldl"
)

// An Outcome says whether a result has figures.
type Outcome int

// Only a Settled result has figures.
const (
	Settled   Outcome = iota // in balance
	Loose                    // something can move without resistance: see Result.Loose
	Unsettled                // contacts still changed, or the work was used up, at the limit
)

// A Result is what a case does to a model.
type Result struct {
	Outcome Outcome
	Loose   *Mechanism // when Loose

	Moves     []Motion // of each node
	Members   []Stick
	Springs   []SpringForce
	Contacts  []ContactForce
	Reactions []Load // on each node by its support; zero where it has none

	// Residual is the part of the load that nodes are out of balance by, and
	// Balance that by which loads and reactions together are, moments taken
	// about the middle of the nodes.
	Residual, Balance float64

	Steps int   // of the search for closed contacts
	Work  int64 // multiplications of its factorisations
}

// A Stick is what a member bears, on its own axes: along it, across it, and
// along its depth.
type Stick struct {
	Axes   [3]Vec
	Length float64
	A, B   Load // on its ends by what it is joined to
	Spread Vec  // along it, N/mm
}

// At is what one part of a stick does to the part before it, at a distance from
// end A: a force along it above 0 is a pull.
func (s Stick) At(x float64) Load {
	f, w := s.A.Force, s.Spread
	lever := func(v Vec) Vec { return Vec{0, -v[2], v[1]} } // x̂ × v
	return Load{
		Force:  f.Add(w.Mul(x)).Mul(-1),
		Moment: lever(f).Mul(x).Add(lever(w).Mul(x * x / 2)).Sub(s.A.Moment),
	}
}

// A SpringForce is what a spring does to A, and with the opposite sign to B.
type SpringForce struct {
	Along  float64 // N along the axis, above 0 where A and B are pulled together
	Across Vec     // N across the axis
	Turn   float64 // N mm about the axis
	Rock   Vec     // N mm about lines across it
}

// A ContactForce has a push or a gap, never both.
type ContactForce struct {
	Push float64 // N
	Gap  float64 // mm
}

// A result may be out of balance by balanceLimit of the loads, and at the nodes
// by what rounding the movements does to them: stiffness times movement times
// roundingLimit, some fifty times the step of a float64. More is wrong.
const (
	balanceLimit  = 1e-8
	roundingLimit = 1e-14
)

// Solve works out a case. The error is that of a case which does not fit the
// model, of a cancelled context, or a fault of this package.
func (p *Prepared) Solve(ctx context.Context, c Case) (*Result, error) {
	l, err := p.loads(c)
	if err != nil {
		return nil, err
	}
	on, there, err := p.switches(c)
	if err != nil {
		return nil, err
	}
	s := p.settling(p.vector(l.nodal), on, there)
	end, err := s.run(ctx)
	if err != nil {
		return nil, err
	}
	r := &Result{Outcome: end.outcome, Steps: s.steps, Work: s.work}
	switch end.outcome {
	case Loose:
		r.Loose = p.mechanism(end)
	case Settled:
		err = p.fill(r, s, l, c)
	}
	return r, err
}

// tally gathers what the parts of a frame do to its nodes.
type tally struct {
	p     *Prepared
	nodal []Load
	gauge float64 // sum of the squares of stiffness times movement
	from  Load    // from the ground, about the middle
	mid   Vec
}

// add puts a load at the end of an arm from a node; n may be Ground.
func (t *tally) add(n Node, arm Vec, l Load) {
	if n == Ground {
		return
	}
	t.nodal[n] = t.nodal[n].Add(l.from(arm))
}

// weigh counts what rounding the movements of two nodes does to a part.
func (t *tally) weigh(stiff float64, a, b Node, moves []Motion) {
	for _, n := range []Node{a, b} {
		if n != Ground {
			v := stiff * t.p.model.moving(moves[n], t.p.size)
			t.gauge += v * v
		}
	}
}

// pair puts a load at a point on A and its opposite on B, counting what comes
// from the ground.
func (t *tally) pair(a, b Node, at Vec, l Load) {
	m := t.p.model
	t.add(a, m.arm(a, at), l)
	t.add(b, m.arm(b, at), l.Neg())
	switch {
	case a == Ground:
		t.from = t.from.Add(l.Neg().from(at.Sub(t.mid)))
	case b == Ground:
		t.from = t.from.Add(l.from(at.Sub(t.mid)))
	}
}

// fill works out every force from the movements, and checks the balance.
func (p *Prepared) fill(r *Result, s *settling, l loads, c Case) error {
	m := p.model
	r.Moves = p.motions(s.u)
	t := &tally{p: p, nodal: make([]Load, len(m.nodes)), mid: p.middle()}
	for i, mem := range m.members {
		st := p.bars[i].stick(mem, r.Moves, l.spread[i])
		r.Members = append(r.Members, st)
		t.weigh(mem.Section.stiffest(st.Length), mem.A, mem.B, r.Moves)
		t.add(mem.A, mem.ArmA, st.global(st.A).Neg())
		t.add(mem.B, mem.ArmB, st.global(st.B).Neg())
	}
	r.Springs = p.springForces(r.Moves, c, t)
	for _, con := range m.contacts {
		f := con.force(m, r.Moves)
		r.Contacts = append(r.Contacts, f)
		t.weigh(con.Stiff, con.A, con.B, r.Moves)
		t.pair(con.A, con.B, con.At, Load{Force: con.Axis.Mul(-f.Push)})
	}
	applied := p.react(r, t, p.outer(l))
	limit := balanceLimit*applied + roundingLimit*math.Sqrt(t.gauge)
	if !(r.Residual*applied <= limit) || !(r.Balance*applied <= limit) {
		return fmt.Errorf("statics: out of balance by %.1g of the load at nodes and %.1g in all", r.Residual, r.Balance)
	}
	return nil
}

func (p *Prepared) motions(u []float64) []Motion {
	out := make([]Motion, len(p.model.nodes))
	for b, n := range p.nodes {
		v := u[b*ldl.Size:]
		out[n] = Motion{Vec(v[:3]), Vec(v[3:6])}
	}
	return out
}

func (p *Prepared) middle() Vec {
	var sum Vec
	for _, n := range p.model.nodes {
		sum = sum.Add(n.at)
	}
	return sum.Mul(1 / float64(len(p.model.nodes)))
}

// outer gives the loads at nodes without those along members, which the sticks
// count themselves.
func (p *Prepared) outer(l loads) []Load {
	out := append([]Load(nil), l.nodal...)
	for i, s := range p.model.members {
		if l.spread[i] == (Vec{}) {
			continue
		}
		ends := spreadEnds(p.bars[i].axes[0], p.bars[i].length, l.spread[i])
		out[s.A] = out[s.A].Add(ends[0].from(s.ArmA).Neg())
		out[s.B] = out[s.B].Add(ends[1].from(s.ArmB).Neg())
	}
	return out
}

// stick works out the end loads of a member from how its end B moves as seen
// from end A, so that they are in balance whatever the movements are rounded to.
func (at bar) stick(s Member, moves []Motion, spread Vec) Stick {
	length, local := at.length, at.local
	a, b := moves[s.A], moves[s.B]
	tip := local(b.at(s.ArmB)).Sub(local(a.at(s.ArmA))).Sub(local(a.Turn).Cross(Vec{length}))
	turn := local(b.Turn.Sub(a.Turn))
	d := [6]float64{tip[0], tip[1], tip[2], turn[0], turn[1], turn[2]}
	k := s.Section.beam(length)
	var f [6]float64 // on end B, as end A stays
	for i := range f {
		for j, v := range d {
			f[i] += k[6+i][6+j] * v
		}
	}
	end := Load{Vec(f[:3]), Vec(f[3:])}
	st := Stick{Axes: at.axes, Length: length, Spread: local(spread)}
	ends := spreadEnds(Vec{1}, length, st.Spread)
	st.A = end.from(Vec{length}).Add(ends[0]).Neg()
	st.B = end.Add(ends[1].Neg())
	return st
}

// global brings a load on a stick's axes to those of the model.
func (s Stick) global(l Load) Load {
	b := bar{axes: s.Axes}
	return Load{b.global(l.Force), b.global(l.Moment)}
}

func (p *Prepared) springForces(moves []Motion, c Case, t *tally) []SpringForce {
	acts := make([]bool, len(p.model.springs))
	for i, s := range p.model.springs {
		acts[i] = !s.Switched
	}
	for _, n := range c.On {
		acts[n] = true
	}
	out := make([]SpringForce, len(acts))
	for i, s := range p.model.springs {
		if acts[i] {
			out[i] = s.force(p.model, moves)
			t.weigh(max(s.Along, s.Across), s.A, s.B, moves)
			f := out[i]
			t.pair(s.A, s.B, s.At, Load{s.Axis.Mul(f.Along).Add(f.Across), s.Axis.Mul(f.Turn).Add(f.Rock)})
		}
	}
	return out
}

// moved gives the movement of a point fixed to a node.
func (m *Model) moved(n Node, at Vec, moves []Motion) Motion {
	if n == Ground {
		return Motion{}
	}
	return Motion{moves[n].at(m.arm(n, at)), moves[n].Turn}
}

func (s Spring) force(m *Model, moves []Motion) SpringForce {
	a, b := m.moved(s.A, s.At, moves), m.moved(s.B, s.At, moves)
	apart, turned := b.Shift.Sub(a.Shift), b.Turn.Sub(a.Turn)
	along, about := s.Axis.Dot(apart), s.Axis.Dot(turned)
	f := SpringForce{
		Along:  s.Along * along,
		Across: apart.Sub(s.Axis.Mul(along)).Mul(s.Across),
		Turn:   s.Turn * about,
		Rock:   turned.Sub(s.Axis.Mul(about)).Mul(s.Rock),
	}
	if s.PullOnly {
		f.Along = max(0, f.Along)
	}
	return f
}

func (c Contact) force(m *Model, moves []Motion) ContactForce {
	a, b := m.moved(c.A, c.At, moves), m.moved(c.B, c.At, moves)
	open := c.Gap + c.Axis.Dot(b.Shift.Sub(a.Shift))
	if open > 0 {
		return ContactForce{Gap: open}
	}
	return ContactForce{Push: -open * c.Stiff}
}

// react splits what is left at the nodes into reactions and residual, and adds
// up the balance of everything that comes from outside. It gives the size of the
// loads, moments taken over the length of a stick.
func (p *Prepared) react(r *Result, t *tally, outer []Load) float64 {
	r.Reactions = make([]Load, len(outer))
	sum, left, applied := t.from, 0.0, 0.0
	size := p.size
	square := func(l Load) float64 { return l.Force.Dot(l.Force) + l.Moment.Dot(l.Moment)/(size*size) }
	for n, at := range p.model.nodes {
		over := t.nodal[n].Add(outer[n])
		var free, held Load
		for i := range ldl.Size {
			if at.held.holds(i) {
				held.add(i, -over.entry(i))
			} else {
				free.add(i, over.entry(i))
			}
		}
		r.Reactions[n] = held
		left += square(free)
		applied += square(outer[n])
		sum = sum.Add(held.Add(outer[n]).from(at.at.Sub(t.mid)))
	}
	for i, s := range p.model.members {
		st := r.Members[i]
		if st.Spread == (Vec{}) {
			continue
		}
		w := st.global(Load{Force: st.Spread.Mul(st.Length)})
		applied += square(w)
		half := p.model.nodes[s.A].at.Add(s.ArmA).Add(st.Axes[0].Mul(st.Length / 2))
		sum = sum.Add(w.from(half.Sub(t.mid)))
	}
	if applied = math.Sqrt(applied); applied > 0 {
		r.Residual = math.Sqrt(left) / applied
		r.Balance = math.Sqrt(square(sum)) / applied
	}
	return applied
}
