package statics

import (
	"context"
	"errors"
	"slices"

	"bowerwright/statics/internal/ldl"
)

// Limits bound the work on one case; both are counts, so that they bite at the
// same place on every machine. Zero means the usual.
type Limits struct {
	Steps int   // of the search for which contacts are closed; usually 40
	Work  int64 // multiplications of all factorisations; usually no limit
}

// usualSteps is several times what was ever needed: 3 to 8 steps are.
const usualSteps = 40

// A Prepared model has its order of elimination, and a factor of the stiffness
// with all contacts closed. It is read-only: cases may be solved at once.
type Prepared struct {
	model   *Model
	limits  Limits
	blocks  []int  // of each node, or none when it is held in every way
	nodes   []Node // of each block
	terms   []ldl.Term
	on      []bool // which terms act when nothing is switched on
	ties    []tieAt
	springs []springAt
	plan    *ldl.Plan
	base    *ldl.Factor
	bars    []bar   // of each member
	size    float64 // mean length of the sticks, to weigh turns against shifts
}

const none = -1

// tieAt is a tie with its term, and what it stands for.
type tieAt struct {
	tie
	term     int
	contact  int // or none
	spring   int // or none
	switched bool
}

// springAt is where a spring's terms are: its own when it is switched, and the
// tie of one that only pulls.
type springAt struct{ term, tie int }

// Prepare makes a model ready for cases. The model is copied. The error is that
// of the model, or of a cancelled context.
func Prepare(ctx context.Context, m *Model, limits Limits) (*Prepared, error) {
	if err := m.Err(); err != nil {
		return nil, err
	}
	if len(m.nodes) == 0 {
		return nil, errors.New("statics: a model without nodes")
	}
	if limits.Steps == 0 {
		limits.Steps = usualSteps
	}
	p := &Prepared{model: m.clone(), limits: limits}
	p.number()
	p.assemble()
	place := make([][3]float64, len(p.nodes))
	for b, n := range p.nodes {
		place[b] = m.nodes[n].at
	}
	var err error
	if p.plan, err = ldl.New(place, p.terms); err != nil {
		return nil, err
	}
	p.base, err = p.plan.Factor(ctx, p.terms, p.on, nil)
	return p, err
}

func (m *Model) clone() *Model {
	return &Model{
		nodes: slices.Clone(m.nodes), members: slices.Clone(m.members), springs: slices.Clone(m.springs),
		contacts: slices.Clone(m.contacts), weights: slices.Clone(m.weights),
	}
}

// Unknowns is the number of movements that are not held.
func (p *Prepared) Unknowns() int {
	n := 0
	for _, at := range p.nodes {
		for i := range ldl.Size {
			if !p.model.nodes[at].held.holds(i) {
				n++
			}
		}
	}
	return n
}

func (p *Prepared) number() {
	p.blocks = make([]int, len(p.model.nodes))
	for n, at := range p.model.nodes {
		if at.held == HoldAll {
			p.blocks[n] = none
			continue
		}
		p.blocks[n] = len(p.nodes)
		p.nodes = append(p.nodes, Node(n))
	}
}

func (p *Prepared) block(n Node) int {
	if n == Ground {
		return none
	}
	return p.blocks[n]
}

// assemble makes the terms: held movements, sticks, springs, then ties.
func (p *Prepared) assemble() {
	m := p.model
	most := len(p.nodes) + len(m.members) + 2*len(m.springs) + len(m.contacts)
	p.terms, p.on = make([]ldl.Term, 0, most), make([]bool, 0, most)
	for b, n := range p.nodes {
		if held := m.nodes[n].held; held != 0 {
			p.addTerm(restraint(b, held), true)
		}
	}
	p.size = 1
	total := 0.0
	for _, s := range m.members {
		b := m.bar(s)
		p.bars = append(p.bars, b)
		total += b.length
		k := b.stiffness(s)
		if t, nothing := p.term(s.A, s.B, &k); !nothing {
			p.addTerm(t, true)
		}
	}
	if len(m.members) > 0 {
		p.size = total / float64(len(m.members))
	}
	p.addSprings()
	for n, c := range m.contacts {
		p.addTie(tieAt{tie: tie{a: c.A, b: c.B, g: m.closing(c.A, c.B, c.At, c.Axis), stiff: c.Stiff, gap: c.Gap}, contact: n, spring: none})
	}
}

// restraint puts one on the diagonal of movements that are held: their loads
// and their other entries are left out.
func restraint(block int, held Hold) ldl.Term {
	t := ldl.Term{A: block, B: none}
	for i := range ldl.Size {
		if held.holds(i) {
			t.Add(i, i, 1)
		}
	}
	return t
}

// addSprings gathers the springs that always act on one pair of nodes in one
// term; those that are switched have their own.
func (p *Prepared) addSprings() {
	m := p.model
	shared := map[[2]Node]int{}
	for n, s := range m.springs {
		at := springAt{none, none}
		k := s.stiffness(m)
		pair := [2]Node{s.A, s.B}
		t, nothing := p.term(s.A, s.B, &k)
		known, again := shared[pair]
		switch {
		case nothing:
		case s.Switched:
			at.term = p.addTerm(t, false)
		case again:
			for i, v := range t.K {
				p.terms[known].K[i] += v
			}
		default:
			shared[pair] = p.addTerm(t, true)
		}
		if s.PullOnly && s.Along > 0 {
			at.tie = len(p.ties)
			g := m.closing(s.A, s.B, s.At, s.Axis.Mul(-1))
			p.addTie(tieAt{tie: tie{a: s.A, b: s.B, g: g, stiff: s.Along}, contact: none, spring: n, switched: s.Switched})
		}
		p.springs = append(p.springs, at)
	}
}

// addTie adds a tie; one between held nodes keeps no term.
func (p *Prepared) addTie(t tieAt) {
	k := t.stiffness()
	t.term = none
	if term, nothing := p.term(t.a, t.b, &k); !nothing {
		t.term = p.addTerm(term, t.gap <= 0 && !t.switched)
	}
	p.ties = append(p.ties, t)
}

func (p *Prepared) addTerm(t ldl.Term, on bool) int {
	p.terms = append(p.terms, t)
	p.on = append(p.on, on)
	return len(p.terms) - 1
}
