package statics

import (
	"context"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"bowerwright/statics/internal/ldl"
)

// span draws a number between two, not too near their middle's zero.
func span(t *rapid.T, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, "number") }

func drawVec(t *rapid.T, size float64) Vec {
	return Vec{span(t, -size, size), span(t, -size, size), span(t, -size, size)}
}

func drawAxis(t *rapid.T) Vec {
	v := drawVec(t, 1)
	if v.Len() < 0.1 {
		return Vec{0, 0, 1}
	}
	return v
}

func drawLoad(t *rapid.T) Load { return Load{drawVec(t, 50), drawVec(t, 2000)} }

// drawModel makes a frame of a few nodes in space, in one piece and held at its
// first node, with springs and contacts across it and to the ground.
func drawModel(t *rapid.T, contacts int) *Model {
	var m Model
	n := rapid.IntRange(2, 7).Draw(t, "nodes")
	for i := range n {
		m.Node(drawVec(t, 50).Add(Vec{200 * float64(i%3), 150 * float64(i/3), 60 * float64(i%2)}), "frame")
		if i == 0 {
			continue
		}
		drawMember(t, &m, Node(rapid.IntRange(0, i-1).Draw(t, "from")), Node(i))
	}
	m.Hold(0, HoldAll)
	m.Hold(Node(rapid.IntRange(0, n-1).Draw(t, "held")), Hold(rapid.IntRange(0, 62).Draw(t, "movements")))
	other := func(a Node) Node { // another node, or the ground
		if b := Node(rapid.IntRange(-1, n-1).Draw(t, "to")); b != a {
			return b
		}
		return Ground
	}
	for range rapid.IntRange(0, 2).Draw(t, "springs") {
		a := Node(rapid.IntRange(0, n-1).Draw(t, "spring"))
		m.Spring(Spring{
			A: a, B: other(a), At: m.At(a).Add(drawVec(t, 20)), Axis: drawAxis(t), Along: span(t, 0, 900), Across: span(t, 0, 900),
			Turn: span(t, 0, 1e5), Rock: span(t, 0, 1e5), PullOnly: contacts > 0 && rapid.Bool().Draw(t, "pulls"),
		})
	}
	for range contacts {
		a := Node(rapid.IntRange(0, n-1).Draw(t, "contact"))
		gap := rapid.SampledFrom([]float64{0, 0, 0.05, 0.5, -0.1}).Draw(t, "gap")
		m.Contact(Contact{A: a, B: other(a), At: m.At(a).Add(drawVec(t, 30)), Axis: drawAxis(t), Stiff: span(t, 100, 1e5), Gap: gap})
	}
	m.Weight(Weight{Node(n - 1), drawVec(t, 40), span(t, 0, 20)})
	return &m
}

func drawMember(t *rapid.T, m *Model, a, b Node) {
	s := Rectangle(span(t, 10, 25), span(t, 30, 90), 8000, 500)
	s.Weight = 0.005
	mem := Member{A: a, B: b, Depth: drawAxis(t), Section: s}
	if rapid.Bool().Draw(t, "arms") {
		mem.ArmA, mem.ArmB = drawVec(t, 10), drawVec(t, 10)
	}
	if m.bar(mem) == (bar{}) {
		mem.Depth = Vec{1, 0, 0}
	}
	if m.bar(mem) == (bar{}) {
		mem.Depth = Vec{0, 1, 0}
	}
	m.Member(mem)
}

func drawCase(t *rapid.T, m *Model) Case {
	c := Case{Gravity: drawVec(t, 1)}
	for range rapid.IntRange(1, 3).Draw(t, "loads") {
		at := Node(rapid.IntRange(0, len(m.nodes)-1).Draw(t, "at"))
		c.Nodal = append(c.Nodal, Nodal{Node: at, Arm: drawVec(t, 10), Load: drawLoad(t)})
	}
	c.Spread = []Spread{{rapid.IntRange(0, len(m.members)-1).Draw(t, "along"), drawVec(t, 0.2)}}
	return c
}

func prepare(t *rapid.T, m *Model) *Prepared {
	p, err := Prepare(context.Background(), m, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func settled1(t *rapid.T, p *Prepared, c Case) *Result {
	r, err := p.Solve(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	if r.Outcome != Settled {
		t.Fatalf("outcome %v", r.Outcome)
	}
	return r
}

// dense is the matrix of the terms that are on, put together without the solver.
func (p *Prepared) dense(on []bool) *mat.SymDense {
	k := mat.NewSymDense(len(p.nodes)*ldl.Size, nil)
	for n, t := range p.terms {
		if !on[n] {
			continue
		}
		at := func(i int) int {
			if i < ldl.Size {
				return t.A*ldl.Size + i
			}
			return t.B*ldl.Size + i - ldl.Size
		}
		side := 2 * ldl.Size
		if t.B < 0 {
			side = ldl.Size
		}
		for i := range side {
			for j := range i + 1 {
				k.SetSym(at(i), at(j), k.At(at(i), at(j))+t.K[ldl.At(i, j)])
			}
		}
	}
	return k
}

// TestAgainstGonum: the same matrix by another library's Cholesky factors.
func TestAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t, 0)
		p, c := prepare(t, m), drawCase(t, m)
		r := settled1(t, p, c)
		l, err := p.loads(c)
		if err != nil {
			t.Fatal(err)
		}
		f := p.vector(l.nodal)
		var chol mat.Cholesky
		if !chol.Factorize(p.dense(p.on)) {
			t.Fatal("the other library finds no factors")
		}
		var x mat.VecDense
		if err := chol.SolveVecTo(&x, mat.NewVecDense(len(f), f)); err != nil {
			t.Fatal(err)
		}
		most := mat.Norm(&x, math.Inf(1))
		for b, n := range p.nodes {
			got := append(r.Moves[n].Shift[:], r.Moves[n].Turn[:]...)
			for i, v := range got {
				if want := x.AtVec(b*ldl.Size + i); math.Abs(v-want) > 1e-9*most {
					t.Fatalf("movement %d of node %d: %v, want %v", i, n, v, want)
				}
			}
		}
	})
}

// work is what a case's loads do on the movements of another's result.
func work(p *Prepared, t *rapid.T, c Case, r *Result) float64 {
	l, err := p.loads(c)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for n, f := range l.nodal {
		sum += f.Force.Dot(r.Moves[n].Shift) + f.Moment.Dot(r.Moves[n].Turn)
	}
	return sum
}

// TestReciprocity is Maxwell and Betti's: the loads of one case do as much work
// on the movements of another as the other way round.
func TestReciprocity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t, 0)
		p, a, b := prepare(t, m), drawCase(t, m), drawCase(t, m)
		ra, rb := settled1(t, p, a), settled1(t, p, b)
		ab, ba := work(p, t, a, rb), work(p, t, b, ra)
		scale := math.Sqrt(work(p, t, a, ra) * work(p, t, b, rb))
		if math.Abs(ab-ba) > 1e-9*scale {
			t.Fatalf("%v against %v", ab, ba)
		}
	})
}

// strain is the energy in sticks, springs and contacts, from their forces alone.
// A stick is cut and its bending, stretch, twist and shear summed by Gauss's
// rule, exact for the fourth degree that a uniform load brings.
func strain(m *Model, r *Result) float64 {
	const inner, outer = 0.774596669241483377, 5.0 / 18 // √(3/5), weights 5/18, 8/18
	sum := 0.0
	for i, s := range m.members {
		st, sec := r.Members[i], s.Section
		for _, g := range [][2]float64{{-inner, outer}, {0, 4.0 / 9}, {inner, outer}} {
			at := st.At(st.Length * (1 + g[0]) / 2)
			f, q := at.Force, at.Moment
			shear := sec.Shear * sec.G * sec.Area
			sum += g[1] * st.Length / 2 * (f[0]*f[0]/(sec.E*sec.Area) + (f[1]*f[1]+f[2]*f[2])/shear +
				q[0]*q[0]/(sec.G*sec.Twist) + q[1]*q[1]/(sec.E*sec.Deep) + q[2]*q[2]/(sec.E*sec.Wide))
		}
	}
	over := func(f, k float64) float64 {
		if k == 0 {
			return 0
		}
		return f * f / k / 2
	}
	for i, s := range m.springs {
		f := r.Springs[i]
		sum += over(f.Along, s.Along) + over(f.Across.Len(), s.Across) + over(f.Turn, s.Turn) + over(f.Rock.Len(), s.Rock)
	}
	for i, c := range m.contacts {
		sum += over(r.Contacts[i].Push, c.Stiff)
	}
	return sum
}

// TestEnergyIsWork: what is stored, summed from the section forces, is half the
// work of the loads at nodes. It ties movements, forces and stiffness together.
func TestEnergyIsWork(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t, 0)
		c := drawCase(t, m)
		c.Spread, c.Gravity = nil, Vec{} // along a stick, the work between its ends is not seen at nodes
		p := prepare(t, m)
		r := settled1(t, p, c)
		if stored, done := strain(m, r), work(p, t, c, r)/2; math.Abs(stored-done) > 1e-9*done {
			t.Fatalf("stored %v, done %v", stored, done)
		}
	})
}

// TestContactsAgainstEveryState tries all 2ᵏ states of the contacts and springs
// that only pull, by dense factors. Convexity says that exactly one movement is
// right; it must be the one found.
func TestContactsAgainstEveryState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t, rapid.IntRange(1, 8).Draw(t, "contacts"))
		p, c := prepare(t, m), drawCase(t, m)
		r := settled1(t, p, c)
		for i, f := range r.Contacts {
			if f.Push < 0 || f.Gap < 0 || f.Push*f.Gap != 0 {
				t.Fatalf("contact %d: %+v", i, f)
			}
		}
		want := everyState(t, p, c)
		most := slices.MaxFunc(want, func(a, b float64) int { return int(math.Copysign(1, math.Abs(a)-math.Abs(b))) })
		for b, n := range p.nodes {
			got := append(r.Moves[n].Shift[:], r.Moves[n].Turn[:]...)
			for i, v := range got {
				if math.Abs(v-want[b*ldl.Size+i]) > 1e-7*math.Abs(most)+touching {
					t.Fatalf("movement %d of node %d: %v, want %v", i, n, v, want[b*ldl.Size+i])
				}
			}
		}
	})
}

// touching is what a tie may pull, a billionth of the load, over the stiffness of
// the softest; where nothing else moves, that is seen.
const touching = 1e-8 // mm

// everyState finds the movement whose closed ties push and whose open ones gape:
// the state that is least wrong, which must be right to rounding.
func everyState(t *rapid.T, p *Prepared, c Case) (best []float64) {
	l, err := p.loads(c)
	if err != nil {
		t.Fatal(err)
	}
	f := p.vector(l.nodal)
	least := math.Inf(1)
	for state := range 1 << len(p.ties) {
		on, b := slices.Clone(p.on), slices.Clone(f)
		for i, tie := range p.ties {
			closed := state>>i&1 == 1
			if tie.term == none {
				continue
			}
			on[tie.term] = closed
			if closed {
				p.spread(b, &tie.tie, tie.stiff*tie.gap)
			}
		}
		var chol mat.Cholesky
		var x mat.VecDense
		if !chol.Factorize(p.dense(on)) || chol.SolveVecTo(&x, mat.NewVecDense(len(b), b)) != nil {
			continue
		}
		wrong := 0.0
		for i, tie := range p.ties {
			if tie.term == none {
				continue
			}
			over := p.closes(x.RawVector().Data, &tie.tie) - tie.gap
			if state>>i&1 == 1 {
				over = -over
			}
			wrong = max(wrong, over)
		}
		if wrong < least {
			least, best = wrong, x.RawVector().Data
		}
	}
	if least > 1e-9 {
		t.Fatalf("no state is right: the best is out by %v", least)
	}
	return best
}

// TestTurned: a model turned in space with its loads moves as before.
func TestTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawModel(t, rapid.IntRange(0, 4).Draw(t, "contacts"))
		for i := range m.nodes {
			if m.nodes[i].held != HoldAll {
				m.nodes[i].held = 0 // a support along an axis would not turn with it
			}
		}
		c := drawCase(t, m)
		turn := turning(drawAxis(t), span(t, -3, 3))
		r := settled1(t, prepare(t, m), c)
		turned, tc := turnAll(m, c, turn)
		got := settled1(t, prepare(t, turned), tc)
		most := 0.0
		for _, v := range r.Moves {
			most = max(most, v.Shift.Len())
		}
		if a, b := strain(m, r), strain(turned, got); math.Abs(a-b) > 1e-9*a {
			t.Fatalf("energy %v, turned %v", a, b)
		}
		for n, v := range r.Moves {
			if d := got.Moves[n].Shift.Sub(turn(v.Shift)).Len(); d > 1e-7*most {
				t.Fatalf("node %d is off by %v of %v", n, d, most)
			}
		}
	})
}

// turning is Rodrigues' rotation about an axis.
func turning(axis Vec, angle float64) func(Vec) Vec {
	k := axis.Unit()
	sin, cos := math.Sincos(angle)
	return func(v Vec) Vec {
		return v.Mul(cos).Add(k.Cross(v).Mul(sin)).Add(k.Mul(k.Dot(v) * (1 - cos)))
	}
}

func turnAll(m *Model, c Case, turn func(Vec) Vec) (*Model, Case) {
	out := m.clone()
	for i := range out.nodes {
		out.nodes[i].at = turn(m.nodes[i].at)
	}
	for i, s := range m.members {
		out.members[i].ArmA, out.members[i].ArmB, out.members[i].Depth = turn(s.ArmA), turn(s.ArmB), turn(s.Depth)
	}
	for i, s := range m.springs {
		out.springs[i].At, out.springs[i].Axis = turn(s.At), turn(s.Axis)
	}
	for i, s := range m.contacts {
		out.contacts[i].At, out.contacts[i].Axis = turn(s.At), turn(s.Axis)
	}
	for i, w := range m.weights {
		out.weights[i].Arm = turn(w.Arm)
	}
	d := Case{Gravity: turn(c.Gravity)}
	for _, l := range c.Nodal {
		d.Nodal = append(d.Nodal, Nodal{l.Node, turn(l.Arm), Load{turn(l.Force), turn(l.Moment)}})
	}
	for _, s := range c.Spread {
		d.Spread = append(d.Spread, Spread{s.Member, turn(s.Force)})
	}
	return out, d
}
