package statics

import "bowerwright/statics/internal/ldl"

// matrix is a stiffness over the two ends of an element: three shifts and three
// turns at A, then at B.
type matrix [12][12]float64

// A bar is where a member lies: its own axes as rows, along it, across it (the
// width), and its depth, right-handed; and its length.
type bar struct {
	axes   [3]Vec
	length float64
}

// bar is the zero bar for a member that has no length, or no depth across it.
func (m *Model) bar(s Member) bar {
	along := m.nodes[s.B].at.Add(s.ArmB).Sub(m.nodes[s.A].at.Add(s.ArmA))
	length := along.Len()
	x := along.Unit()
	z := s.Depth.Sub(x.Mul(s.Depth.Dot(x)))
	if length == 0 || !(z.Len() > leastAcross*s.Depth.Len()) {
		return bar{}
	}
	z = z.Unit()
	return bar{[3]Vec{x, z.Cross(x), z}, length}
}

// local brings a direction to the axes of the bar, global back.
func (b bar) local(v Vec) Vec { return Vec{b.axes[0].Dot(v), b.axes[1].Dot(v), b.axes[2].Dot(v)} }

func (b bar) global(v Vec) Vec {
	return b.axes[0].Mul(v[0]).Add(b.axes[1].Mul(v[1])).Add(b.axes[2].Mul(v[2]))
}

// leastAcross is the share of the direction of the depth that must lie across
// the stick: with less, its sense would be rounding.
const leastAcross = 1e-6

// beam is the stiffness of a stick on its own axes. With Φ = 12EI/(κGAL²) the
// end stiffnesses are those of Przemieniecki (1968), equation 5.116.
func (s Section) beam(length float64) matrix {
	var k matrix
	pair := func(i, j int, v float64) { k[i][j], k[j][i] = v, v }
	spring := func(i int, v float64) {
		k[i][i], k[i+6][i+6] = v, v
		pair(i, i+6, -v)
	}
	spring(0, s.E*s.Area/length)
	spring(3, s.G*s.Twist/length)
	bend := func(shift, turn int, second, sign float64) {
		phi := 12 * s.E * second / (s.Shear * s.G * s.Area * length * length)
		c := s.E * second / (length * length * length * (1 + phi))
		spring(shift, 12*c)
		k[turn][turn], k[turn+6][turn+6] = (4+phi)*length*length*c, (4+phi)*length*length*c
		pair(turn, turn+6, (2-phi)*length*length*c)
		for _, t := range []int{turn, turn + 6} {
			pair(shift, t, sign*6*length*c)
			pair(shift+6, t, -sign*6*length*c)
		}
	}
	bend(1, 5, s.Wide, 1)
	bend(2, 4, s.Deep, -1)
	return k
}

// turned brings a stiffness on local axes to those of the model.
func (k *matrix) turned(r [3]Vec) matrix {
	var out matrix
	for i := 0; i < 12; i += 3 {
		for j := 0; j <= i; j += 3 {
			var half [3][3]float64 // local by global
			for a := range 3 {
				for b := range 3 {
					half[a][b] = k[i+a][j]*r[0][b] + k[i+a][j+1]*r[1][b] + k[i+a][j+2]*r[2][b]
				}
			}
			for a := range 3 {
				for b := range 3 {
					v := r[0][a]*half[0][b] + r[1][a]*half[1][b] + r[2][a]*half[2][b]
					out[i+a][j+b], out[j+b][i+a] = v, v
				}
			}
		}
	}
	return out
}

// onArms brings a stiffness at the tips of two arms to their roots: the shift of
// a tip is that of the root and turn × arm, the moment at the root that at the
// tip and arm × force.
func (k *matrix) onArms(arms [2]Vec) {
	for end, a := range arms {
		if a == (Vec{}) {
			continue
		}
		s, t := 6*end, 6*end+3
		for i := range 12 { // columns: what a turn of the root brings
			f := Vec{k[i][s], k[i][s+1], k[i][s+2]}
			c := a.Cross(f)
			for d := range 3 {
				k[i][t+d] += c[d]
			}
		}
		for j := range 12 {
			f := Vec{k[s][j], k[s+1][j], k[s+2][j]}
			c := a.Cross(f)
			for d := range 3 {
				k[t+d][j] += c[d]
			}
		}
	}
}

// stiffness is a member's, at its nodes, on the axes of the model.
func (b bar) stiffness(s Member) matrix {
	local := s.Section.beam(b.length)
	k := local.turned(b.axes)
	k.onArms([2]Vec{s.ArmA, s.ArmB})
	return k
}

// stiffness is a spring's, at its nodes; along it nothing if it only pulls.
func (s Spring) stiffness(m *Model) matrix {
	along := s.Along
	if s.PullOnly {
		along = 0
	}
	var k matrix
	for i := range 3 {
		for j := range 3 {
			n := s.Axis[i] * s.Axis[j]
			shift, turn := (along-s.Across)*n, (s.Turn-s.Rock)*n
			if i == j {
				shift, turn = shift+s.Across, turn+s.Rock
			}
			k[i][j], k[i+6][j+6], k[i][j+6], k[i+6][j] = shift, shift, -shift, -shift
			k[i+3][j+3], k[i+9][j+9], k[i+3][j+9], k[i+9][j+3] = turn, turn, -turn, -turn
		}
	}
	k.onArms([2]Vec{m.arm(s.A, s.At), m.arm(s.B, s.At)})
	return k
}

// A tie is a resistance to closing only, of a contact or, turned round, of a
// spring that only pulls. With g it closes by g·u - gap, u the movements of its
// two nodes, and resists with stiff times that, if it is above 0.
type tie struct {
	a, b       Node
	g          [12]float64
	stiff, gap float64
}

// closing gives g for A's point coming closer to B's along an axis: the axis
// for a shift of A, arm × axis for its turn, and the opposite for B.
func (m *Model) closing(a, b Node, at, axis Vec) (g [12]float64) {
	ta, tb := m.arm(a, at).Cross(axis), m.arm(b, at).Cross(axis)
	for d := range 3 {
		g[d], g[d+3], g[d+6], g[d+9] = axis[d], ta[d], -axis[d], -tb[d]
	}
	return g
}

func (t *tie) stiffness() matrix {
	var k matrix
	for i := range 12 {
		for j := range 12 {
			k[i][j] = t.stiff * t.g[i] * t.g[j]
		}
	}
	return k
}

// term gives a stiffness to the solver, without the movements that are held.
// nothing is true when no free movement is left.
func (p *Prepared) term(a, b Node, k *matrix) (t ldl.Term, nothing bool) {
	var from []int // rows of k that count, end by end
	ends := []int{p.block(a), p.block(b)}
	switch {
	case ends[0] < 0 && ends[1] < 0:
		return t, true
	case ends[0] < 0:
		t.A, t.B, from = ends[1], -1, []int{6}
	case ends[1] < 0:
		t.A, t.B, from = ends[0], -1, []int{0}
	default:
		t.A, t.B, from = ends[0], ends[1], []int{0, 6}
	}
	held := func(row int) bool {
		n := a
		if row >= 6 {
			n = b
		}
		return p.model.nodes[n].held.holds(row % 6)
	}
	for x, fx := range from {
		for i := range 6 {
			for y := 0; y <= x; y++ {
				for j := 0; j < 6 && (y < x || j <= i); j++ {
					if !held(fx+i) && !held(from[y]+j) {
						t.Add(6*x+i, 6*y+j, k[fx+i][from[y]+j])
					}
				}
			}
		}
	}
	return t, false
}
