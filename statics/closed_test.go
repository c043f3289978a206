package statics

import (
	"fmt"
	"math"
	"testing"
)

// closedShare is what the element may differ from a closed form by: both are
// exact, so that only rounding is left.
const closedShare = 1e-8

// board is the section of the closed forms: 3/4 by 3-1/2, unequal in every way.
var board = Rectangle(0.75, 3.5, 1.2e6, 6e5)

// shearTerm is the flexibility of shear over a length.
func shearTerm(s Section) float64 { return 1 / (s.Shear * s.G * s.Area) }

func TestCantileverBothWays(t *testing.T) {
	const long, load = 36.0, 10.0
	for _, c := range []struct {
		name string
		dir  Vec
		i    float64
	}{{"deep", Vec{0, 0, 1}, board.Deep}, {"wide", Vec{0, 1, 0}, board.Wide}} {
		t.Run(c.name, func(t *testing.T) {
			var m Model
			a, b := m.Node(Vec{}, ""), m.Node(Vec{long}, "")
			m.Member(Member{A: a, B: b, Depth: Vec{0, 0, 1}, Section: board})
			m.Hold(a, HoldAll)
			r := solve(t, &m, Case{Nodal: []Nodal{{Node: b, Load: Load{Force: c.dir.Mul(load)}}}})
			want := load*long*long*long/(3*board.E*c.i) + load*long*shearTerm(board)
			near(t, "tip", c.dir.Dot(r.Moves[b].Shift), want, closedShare)
			near(t, "moment at the support", r.Reactions[a].Moment.Len(), load*long, closedShare)
			near(t, "moment half way", r.Members[0].At(long/2).Moment.Len(), load*long/2, closedShare)
		})
	}
}

func TestStretchAndTwist(t *testing.T) {
	var m Model
	a, b := m.Node(Vec{}, ""), m.Node(Vec{0, 20}, "")
	m.Member(Member{A: a, B: b, Depth: Vec{1, 0, 0}, Section: board})
	m.Hold(a, HoldAll)
	r := solve(t, &m, Case{Nodal: []Nodal{{Node: b, Load: Load{Force: Vec{0, 7}, Moment: Vec{0, 30}}}}})
	near(t, "stretch", r.Moves[b].Shift[1], 7*20/(board.E*board.Area), closedShare)
	near(t, "twist", r.Moves[b].Turn[1], 30*20/(board.G*board.Twist), closedShare)
	near(t, "pull", r.Members[0].At(5).Force[0], 7, closedShare)
	near(t, "torsion", r.Members[0].At(5).Moment[0], 30, closedShare)
}

// TestElbow loads the end of an L at right angles to its plane: bending of both
// legs, twist of the first, shear of both.
func TestElbow(t *testing.T) {
	const l1, l2, load = 24.0, 18.0, 5.0
	var m Model
	a, b, c := m.Node(Vec{}, ""), m.Node(Vec{l1}, ""), m.Node(Vec{l1, l2}, "")
	m.Member(Member{A: a, B: b, Depth: Vec{0, 0, 1}, Section: board})
	m.Member(Member{A: b, B: c, Depth: Vec{0, 0, 1}, Section: board})
	m.Hold(a, HoldAll)
	r := solve(t, &m, Case{Nodal: []Nodal{{Node: c, Load: Load{Force: Vec{0, 0, load}}}}})
	ei := board.E * board.Deep
	want := load*(l1*l1*l1+l2*l2*l2)/(3*ei) + load*l2*l2*l1/(board.G*board.Twist) + load*(l1+l2)*shearTerm(board)
	near(t, "tip", r.Moves[c].Shift[2], want, closedShare)
}

// slender is a section that hardly shears or stretches, so that textbook frames
// which leave both out come close: by slenderShare. A stiffer one would be worse,
// as what it leaves for rounding is less.
func slender(i float64) Section {
	return Section{E: 1e6, G: 1e6, Area: 2e4, Deep: i, Wide: i, Twist: i, Shear: 1}
}

const slenderShare = 1e-5

// TestPortal holds a portal with fixed feet to the formulas of Kleinlogel's kind
// (from memory): k = (I_beam/I_post)(h/l).
func TestPortal(t *testing.T) {
	const h, l, share = 48.0, 36.0, slenderShare
	for _, ratio := range []float64{0.5, 1, 3} {
		k := ratio * h / l
		var m Model
		a, b := m.Node(Vec{}, ""), m.Node(Vec{0, h}, "")
		c, d := m.Node(Vec{l, h}, ""), m.Node(Vec{l}, "")
		for i, s := range []Member{{A: a, B: b}, {A: b, B: c}, {A: c, B: d}} {
			s.Depth, s.Section = Vec{0, 0, 1}, slender(0.125)
			if i == 1 {
				s.Section = slender(0.125 * ratio)
			}
			m.Member(s)
		}
		m.Hold(a, HoldAll)
		m.Hold(d, HoldAll)
		t.Run(fmt.Sprintf("sway, beam %v", ratio), func(t *testing.T) {
			const push = 10.0
			r := solve(t, &m, Case{Nodal: []Nodal{{Node: b, Load: Load{Force: Vec{push}}}}})
			near(t, "foot", math.Abs(r.Reactions[a].Moment[2]), push*h/2*(3*k+1)/(6*k+1), share)
			near(t, "knee", math.Abs(r.Members[1].A.Moment[2]), push*h/2*3*k/(6*k+1), share)
			near(t, "sway", r.Moves[b].Shift[0], push*h*h*h*(3*k+2)/(12*1e6*0.125*(6*k+1)), share)
		})
		t.Run(fmt.Sprintf("spread, beam %v", ratio), func(t *testing.T) {
			const w = 1.5
			r := solve(t, &m, Case{Spread: []Spread{{1, Vec{0, -w}}}})
			near(t, "foot", math.Abs(r.Reactions[a].Moment[2]), w*l*l/(12*(k+2)), share)
			near(t, "knee", math.Abs(r.Members[1].A.Moment[2]), w*l*l/(6*(k+2)), share)
			mid := w*l*l/8 - w*l*l/(6*(k+2))
			near(t, "middle", math.Abs(r.Members[1].At(l / 2).Moment[2]), mid, share)
		})
	}
}

// ring makes a polygon frame of n sides in the plane of x and y, its first
// corner at an angle, with a node in the middle of every side.
func ring(n int, side, first float64, s Section) (m *Model, corners, middles []Node) {
	m = new(Model)
	radius := side / (2 * math.Sin(math.Pi/float64(n)))
	for k := range n {
		sin, cos := math.Sincos(first + 2*math.Pi*float64(k)/float64(n))
		corners = append(corners, m.Node(Vec{radius * cos, radius * sin}, "ring"))
	}
	for k := range n {
		a, b := corners[k], corners[(k+1)%n]
		mid := m.Node(m.At(a).Add(m.At(b)).Mul(0.5), "ring")
		middles = append(middles, mid)
		m.Member(Member{A: a, B: mid, Depth: Vec{0, 0, 1}, Section: s})
		m.Member(Member{A: mid, B: b, Depth: Vec{0, 0, 1}, Section: s})
	}
	return m, corners, middles
}

// squeeze pulls a ring apart at top and bottom and gives its change of diameter
// and the moment under the load. The bottom is held: by symmetry it does not
// turn.
func squeeze(t *testing.T, m *Model, top, bottom Node, load float64) (change, moment float64) {
	t.Helper()
	m.Hold(bottom, HoldAll)
	r := solve(t, m, Case{Nodal: []Nodal{{Node: top, Load: Load{Force: Vec{0, load}}}}})
	for i, s := range m.members {
		if s.A == top {
			moment = math.Abs(r.Members[i].A.Moment[2])
		}
		if s.B == top {
			moment = math.Abs(r.Members[i].B.Moment[2])
		}
	}
	return r.Moves[top].Shift[1], moment
}

// TestHexagonRing holds to the forms derived by symmetry and energy.
func TestHexagonRing(t *testing.T) {
	const a, load = 12.0, 10.0
	ei := board.E * board.Wide
	rest := 0.75*load*a/(board.E*board.Area) + 0.75*load*a*shearTerm(board)
	t.Run("vertex to vertex", func(t *testing.T) {
		m, corners, _ := ring(6, a, math.Pi/2, board)
		change, moment := squeeze(t, m, corners[0], corners[3], load)
		near(t, "change", change, load*a*a*a/(8*ei)+rest, closedShare)
		near(t, "moment", moment, load*a/(2*math.Sqrt(3)), closedShare)
	})
	t.Run("flat to flat", func(t *testing.T) {
		m, _, middles := ring(6, a, 0, board)
		change, moment := squeeze(t, m, middles[1], middles[4], load)
		near(t, "change", change, 11*load*a*a*a/(96*ei)+rest, closedShare)
		near(t, "moment", moment, 7*load*a/24, closedShare)
	})
}

// TestEvenRings holds rings of any even number of sides, pulled corner to
// corner, to M(s) = M0 - P x(s)/2 with M0 the mean of P x/2 over a quarter, and
// change = 4/EI ∫ M dM/dP ds: sums over straight pieces, without a matrix.
func TestEvenRings(t *testing.T) {
	const a, load = 10.0, 8.0
	s := slender(0.2)
	for n := 4; n <= 24; n += 2 {
		radius := a / (2 * math.Sin(math.Pi/float64(n)))
		x := func(k float64) float64 { return radius * math.Sin(2*math.Pi*k/float64(n)) }
		mean, square := 0.0, 0.0 // of x over a quarter of the way round, from the top
		quarter := float64(n) / 4
		for k := 0.0; k < quarter; k++ {
			x0, x1, share := x(k), x(k+1), min(1, quarter-k)
			x1 = x0 + (x1-x0)*share
			mean += share * (x0 + x1) / 2 / quarter
			square += share * (x0*x0 + x0*x1 + x1*x1) / 3 / quarter
		}
		change := 4 / (s.E * s.Wide) * quarter * a * load / 4 * (square - mean*mean)
		m, corners, _ := ring(n, a, math.Pi/2, s)
		got, moment := squeeze(t, m, corners[0], corners[n/2], load)
		near(t, fmt.Sprintf("change of %d sides", n), got, change, slenderShare)
		near(t, fmt.Sprintf("moment of %d sides", n), moment, load/2*mean, slenderShare)
	}
}

// TestRingLimit: with many sides a ring is a circle, whose diameter changes by
// (π/4 - 2/π) P R³/EI, moment P R/π under the load (Roark, table 9.2 case 1;
// from memory, and in closed form).
func TestRingLimit(t *testing.T) {
	const n, radius, load = 240, 20.0, 6.0
	s := slender(0.3)
	m, corners, _ := ring(n, 2*radius*math.Sin(math.Pi/n), math.Pi/2, s)
	change, moment := squeeze(t, m, corners[0], corners[n/2], load)
	near(t, "change", change, (math.Pi/4-2/math.Pi)*load*radius*radius*radius/(s.E*s.Wide), 3e-4)
	near(t, "moment", moment, load*radius/math.Pi, 3e-4)
}

// TestSection: published torsion factors of rectangles, c2 in J = c2 a b³
// (Timoshenko and Goodier, section 109, from memory), and the constant of the
// reference models.
func TestSection(t *testing.T) {
	for _, c := range []struct{ ratio, factor float64 }{{1, 0.1406}, {1.5, 0.196}, {2, 0.229}, {3, 0.263}, {4, 0.281}, {10, 0.312}} {
		if got := RectangleTwist(1, c.ratio) / c.ratio; math.Abs(got-c.factor) > 6e-4 {
			t.Errorf("sides 1 to %v: %v, want %v", c.ratio, got, c.factor)
		}
	}
	near(t, "3/4 by 3-1/2", RectangleTwist(0.75, 3.5), 0.42571599630207524, 1e-8)
	near(t, "either way up", RectangleTwist(3.5, 0.75), 0.42571599630207524, 1e-8)
	near(t, "deep", board.Deep, 2.6796875, 1e-12)
	near(t, "wide", board.Wide, 0.123046875, 1e-12)
	if RectangleTwist(0, 3) != 0 {
		t.Error("nothing has no stiffness")
	}
}

// TestRigidArms: arms do what very stiff sticks do, to within their stretch.
func TestRigidArms(t *testing.T) {
	stiff := slender(10)
	stiff.E, stiff.G, stiff.Area = 1e10, 1e10, 10
	arm := Vec{2, 3, -1.5}
	build := func(arms bool) (*Model, Node) {
		var m Model
		a, b := m.Node(Vec{}, ""), m.Node(Vec{30, 4, 2}, "")
		m.Hold(a, HoldAll)
		if arms {
			m.Member(Member{A: a, B: b, ArmA: arm, ArmB: arm.Mul(-2), Depth: Vec{0, 0, 1}, Section: board})
			return &m, b
		}
		a2, b2 := m.Node(arm, ""), m.Node(m.At(b).Add(arm.Mul(-2)), "")
		m.Member(Member{A: a, B: a2, Depth: Vec{0, 0, 1}, Section: stiff})
		m.Member(Member{A: a2, B: b2, Depth: Vec{0, 0, 1}, Section: board})
		m.Member(Member{A: b2, B: b, Depth: Vec{0, 0, 1}, Section: stiff})
		return &m, b
	}
	load := []Nodal{{Node: 1, Load: Load{Vec{3, -4, 5}, Vec{20, 10, -30}}}}
	m, b := build(true)
	got := solve(t, m, Case{Nodal: load}).Moves[b]
	m, b = build(false)
	want := solve(t, m, Case{Nodal: load}).Moves[b]
	for i := range 3 {
		near(t, "shift", got.Shift[i], want.Shift[i], 1e-3)
		near(t, "turn", got.Turn[i], want.Turn[i], 1e-3)
	}
}

// TestSpreadMatchesPieces: a uniform load on one stick, in any direction, moves
// its ends as it does when the stick is cut in pieces, and its moments along the
// way are those at the ends of the pieces.
func TestSpreadMatchesPieces(t *testing.T) {
	const long, pieces = 30.0, 6
	w := Vec{0.3, -0.7, 0.4}
	build := func(n int) (*Model, Case) {
		var m Model
		var c Case
		m.Hold(m.Node(Vec{}, ""), HoldAll)
		for k := 1; k <= n; k++ {
			at := m.Node(Vec{0, long * float64(k) / float64(n)}, "")
			c.Spread = append(c.Spread, Spread{m.Member(Member{A: at - 1, B: at, Depth: Vec{0, 0, 1}, Section: board}), w})
		}
		return &m, c
	}
	m, c := build(1)
	one := solve(t, m, c)
	m, c = build(pieces)
	many := solve(t, m, c)
	for i := range 3 {
		near(t, "tip", one.Moves[1].Shift[i], many.Moves[pieces].Shift[i], closedShare)
	}
	for k := 1; k < pieces; k++ {
		at := one.Members[0].At(long * float64(k) / pieces)
		end := many.Members[k-1].B
		for i := range 3 {
			near(t, "force", at.Force[i], end.Force[i], closedShare)
			if i > 0 {
				near(t, "moment", at.Moment[i], end.Moment[i], closedShare)
			}
		}
	}
}
