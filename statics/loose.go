package statics

import (
	"fmt"
	"math"
	"slices"
)

// A Mechanism is a way a frame can move without resistance.
type Mechanism struct {
	// Groups move, by name, sorted; Seams are those across which they move
	// against another group or the ground.
	Groups, Seams []string
	// At and Unknown name the movement found to be free: a shift along x, y, z
	// (0 to 2) or a turn about them (3 to 5). Another of the same mechanism
	// would do as well.
	At      Node
	Unknown int
	// Picture is how every node moves, the greatest shift being 1 mm, or the
	// greatest turn 1 where nothing shifts.
	Picture []Motion
	// Pushed is true where the load drives the movement.
	Pushed bool
}

// restShare is the share of the greatest movement below which a node counts as
// at rest.
const restShare = 1e-6

func (p *Prepared) mechanism(end settled) *Mechanism {
	m := &Mechanism{Pushed: end.pushed, Picture: p.motions(end.drive)}
	shift, turn := 0.0, 0.0
	for _, v := range m.Picture {
		shift, turn = max(shift, v.Shift.Len()), max(turn, v.Turn.Len())
	}
	greatest := shift
	if shift <= restShare*turn*p.size {
		greatest = turn
	}
	for i, v := range m.Picture {
		m.Picture[i] = Motion{v.Shift.Mul(1 / greatest), v.Turn.Mul(1 / greatest)}
	}
	most := 0.0
	for n, v := range m.Picture {
		for i, e := range append(v.Shift[:], v.Turn[:]...) {
			if i >= 3 {
				e *= p.size
			}
			if e = math.Abs(e); e > most*(1+restShare) {
				most, m.At, m.Unknown = e, Node(n), i
			}
		}
	}
	for n, v := range m.Picture {
		if p.model.moving(v, p.size) > restShare*most {
			m.Groups = append(m.Groups, p.model.nodes[n].group)
		}
	}
	m.Groups = sorted(m.Groups)
	m.Seams = p.opening(m.Picture, restShare*most)
	return m
}

// moving is the size of a movement in mm, turns taken over the length of a stick.
func (m *Model) moving(v Motion, size float64) float64 { return v.Shift.Len() + size*v.Turn.Len() }

// opening lists the seams whose two sides move unlike.
func (p *Prepared) opening(picture []Motion, rest float64) []string {
	var out []string
	for _, s := range p.model.springs {
		a, b := p.model.moved(s.A, s.At, picture), p.model.moved(s.B, s.At, picture)
		apart := Motion{b.Shift.Sub(a.Shift), b.Turn.Sub(a.Turn)}
		if s.Seam != "" && p.model.moving(apart, p.size) > rest {
			out = append(out, s.Seam)
		}
	}
	return sorted(out)
}

func sorted(names []string) []string {
	slices.Sort(names)
	return slices.Compact(names)
}

// Unheld names the groups with a part that no chain of sticks and springs joins
// to the ground or a support, sorted. Contacts do not count: they may open. Nor
// do springs that are switched off.
func (p *Prepared) Unheld(c Case) ([]string, error) {
	on := make([]bool, len(p.model.springs))
	for _, n := range c.On {
		if n < 0 || n >= len(on) {
			return nil, fmt.Errorf("statics: there is no spring %d", n)
		}
		on[n] = true
	}
	ground := len(p.model.nodes)
	u := newUnion(ground + 1)
	for n, at := range p.model.nodes {
		if at.held != 0 {
			u.join(n, ground)
		}
	}
	for _, s := range p.model.members {
		u.join(int(s.A), int(s.B))
	}
	for i, s := range p.model.springs {
		if s.Switched && !on[i] || s.Along+s.Across+s.Turn+s.Rock == 0 {
			continue
		}
		ends := [2]int{int(s.A), int(s.B)}
		for e, n := range ends {
			if Node(n) == Ground {
				ends[e] = ground
			}
		}
		u.join(ends[0], ends[1])
	}
	var out []string
	for n, at := range p.model.nodes {
		if u.root(n) != u.root(ground) {
			out = append(out, at.group)
		}
	}
	return sorted(out), nil
}

// Pivots names the seams that one spring alone holds, without resisting a turn
// about its own axis: neighbours may hold them, nothing at the seam does.
// Switched springs count as there.
func (p *Prepared) Pivots() []string {
	count := map[string]int{}
	var names []string
	for _, s := range p.model.springs {
		if s.Seam == "" {
			continue
		}
		count[s.Seam]++
		if s.Turn > 0 {
			count[s.Seam]++
		}
		names = append(names, s.Seam)
	}
	return slices.DeleteFunc(sorted(names), func(s string) bool { return count[s] > 1 })
}

// Mechanism is the check without loads: how the frame can move with every
// contact closed that has no gap, and every switched spring off; nil if it
// cannot.
func (p *Prepared) Mechanism() *Mechanism {
	free := p.base.Freedoms()
	if len(free) == 0 {
		return nil
	}
	return p.mechanism(settled{outcome: Loose, drive: p.base.Free(free[0])})
}

// union is a set of sets, joined by the smaller number.
type union []int

func newUnion(n int) union {
	u := make(union, n)
	for i := range u {
		u[i] = i
	}
	return u
}

func (u union) root(i int) int {
	for u[i] != i {
		u[i] = u[u[i]]
		i = u[i]
	}
	return i
}

func (u union) join(a, b int) {
	a, b = u.root(a), u.root(b)
	u[max(a, b)] = min(a, b)
}
