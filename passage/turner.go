package passage

import (
	"math"
	"slices"

	"bowerwright/geom"
)

// A turner decides whether a convex footprint goes round a corner.
//
// Seen from above, the outer walls meet at the origin. Let X be the distance
// from the first outer wall and Y that from the second: the first passage is
// 0 ≤ X ≤ a, the second 0 ≤ Y ≤ b, and what is forbidden beyond the walls is
// X > a with Y > b. Moving a footprint towards either outer wall never takes it
// into that wedge. So at each turn the place against both outer walls is as
// good as any, the inner corner must not lie inside the footprint there, and
// sliding along both walls while turning is as good as any way round. The
// piece comes from where its spread in X is at most a and goes where that in Y
// is at most b. (The same argument for a rectangle gives
// a cos t + b sin t - l sin t cos t ≥ w for every t.)
type turner struct {
	hull   geom.Polygon
	normal []geom.Point // of each side, outward
	off    []float64    // how far each side lies along its normal
	m1, m2 geom.Point   // into the passages from the outer walls
	det    float64
	a, b   float64
	bend   float64 // most that any gap curves, mm per radian²
}

func newTurner(hull geom.Polygon, c Corner) *turner {
	t := &turner{hull: hull, a: c.First, b: c.Second}
	s, k := math.Sincos(math.Pi - c.bend())
	t.m1, t.m2 = geom.Point{X: s, Y: -k}, geom.Point{Y: 1}
	t.det = t.m1.Cross(t.m2)
	var r float64
	for i, p := range hull {
		n := hull.Side(i).Vec().Unit().Perp().Mul(-1)
		t.normal = append(t.normal, n)
		t.off = append(t.off, n.Dot(p))
		r = math.Max(r, p.Len())
	}
	// A gap is λ(a + x) + μ(b + y) - h, where λ and μ are sinusoids no larger than
	// 1/det and x and y no larger than r; a product of two curves at most fourfold.
	t.bend = (math.Abs(t.a) + math.Abs(t.b) + 8*r) / t.det
	return t
}

// A gap is how far the inner corner is outside one side, and how fast that
// grows with the turn.
type gap struct{ at, slope float64 }

// gaps lists those of all sides with the footprint turned by angle and pushed
// against both outer walls. Two corners are against the walls; they are those
// in the middle of the stretch of turns that is asked about.
func (t *turner) gaps(angle float64, v1, v2 geom.Point, out []gap) []gap {
	m1, m2 := t.m1.Rot(-angle), t.m2.Rot(-angle)
	d1, d2 := m1.Perp().Mul(-1), m2.Perp().Mul(-1)
	x, y := t.a+m1.Dot(v1), t.b+m2.Dot(v2)
	dx, dy := d1.Dot(v1), d2.Dot(v2)
	out = out[:0]
	for i, n := range t.normal {
		l, m := n.Cross(m2)/t.det, m1.Cross(n)/t.det
		dl, dm := n.Cross(d2)/t.det, d1.Cross(n)/t.det
		out = append(out, gap{l*x + m*y - t.off[i], dl*x + l*dx + dm*y + m*dy})
	}
	return out
}

// against gives the corners that touch the outer walls.
func (t *turner) against(angle float64) (v1, v2 geom.Point) {
	m1, m2 := t.m1.Rot(-angle), t.m2.Rot(-angle)
	v1, v2 = t.hull[0], t.hull[0]
	for _, p := range t.hull[1:] {
		if p.Dot(m1) < v1.Dot(m1) {
			v1 = p
		}
		if p.Dot(m2) < v2.Dot(m2) {
			v2 = p
		}
	}
	return v1, v2
}

// finest is the half stretch of turns, in radians, at which halving stops: a
// gap there is known to bend·finest²/2, about 1e-9 mm for a piece of 10 m. A footprint thinner than 0.001 mm could slip
// through between two turns so near each other.
const finest = 1e-7

// A stretch is what is known of the turns between two events.
type stretch struct {
	open    bool
	tight   float64 // the least gap seen
	tightAt float64
}

// sweep says whether the footprint is clear of the inner corner at every turn
// of a stretch. A half stretch d about its middle is clear when some side's
// gap stays above nothing by value, slope and greatest bend.
func (t *turner) sweep(from, to float64) stretch {
	v1, v2 := t.against((from + to) / 2)
	s := stretch{open: true, tight: math.Inf(1)}
	scratch := make([]gap, 0, len(t.normal))
	var look func(lo, hi float64) bool
	look = func(lo, hi float64) bool {
		mid, d := (lo+hi)/2, (hi-lo)/2
		most, floor := math.Inf(-1), math.Inf(-1)
		scratch = t.gaps(mid, v1, v2, scratch)
		for _, g := range scratch {
			most = math.Max(most, g.at)
			floor = math.Max(floor, g.at-math.Abs(g.slope)*d-t.bend*d*d/2)
		}
		if most < s.tight {
			s.tight, s.tightAt = most, mid
		}
		switch {
		case floor >= 0:
			return true
		case most < -Snug/16:
			return false
		case d < finest:
			return true
		}
		return look(lo, mid) && look(mid, hi)
	}
	s.open = look(from, to)
	return s
}

// events are the turns at which a side of the footprint lies along a wall, all
// the way round.
func (t *turner) events() []float64 {
	var es []float64
	for _, n := range t.normal {
		for _, m := range []geom.Point{t.m1, t.m2} {
			e := math.Atan2(m.Y, m.X) - math.Atan2(n.Y, n.X)
			for _, e := range []float64{e, e + math.Pi} {
				es = append(es, e-2*math.Pi*math.Floor(e/(2*math.Pi)))
			}
		}
	}
	slices.Sort(es)
	return slices.CompactFunc(es, func(a, b float64) bool { return math.Abs(b-a) < sameTurn })
}

// A route is whether there is a way round, and three poses on it.
type route struct {
	ok    bool
	poses []Pose
}

// run walks from every turn at which the footprint comes along the first
// passage, both ways round, until it goes along the second. Both spreads are
// concave between events, so it is enough to look at those.
func (t *turner) run() route {
	es := t.events()
	for _, step := range []int{1, -1} {
		for i, e := range es {
			if t.spread(t.m1, e) > t.a+Snug/16 {
				continue
			}
			if r, ok := t.walk(es, i, step); ok {
				return r
			}
		}
	}
	return route{}
}

func (t *turner) spread(m geom.Point, angle float64) float64 {
	return spread(t.hull, m.Rot(-angle))
}

func (t *turner) walk(es []float64, i, step int) (route, bool) {
	n := len(es)
	tightest := stretch{tight: math.Inf(1), tightAt: es[i]}
	for k := range n {
		j := ((i+k*step)%n + n) % n
		if t.spread(t.m2, es[j]) <= t.b+Snug/16 {
			return route{true, []Pose{t.pose(es[i]), t.pose(tightest.tightAt), t.pose(es[j])}}, true
		}
		if k > 0 && t.spread(t.m1, es[j]) <= t.a+Snug/16 {
			return route{}, false // walked from there as well
		}
		lo, hi := es[j], es[((j+step)%n+n)%n]
		if step < 0 {
			lo, hi = hi, lo
		}
		if hi <= lo {
			hi += 2 * math.Pi
		}
		s := t.sweep(lo, hi)
		if !s.open {
			return route{}, false
		}
		if s.tight < tightest.tight {
			tightest = s
		}
	}
	return route{}, false
}

// pose puts the footprint against both outer walls at a turn.
func (t *turner) pose(angle float64) Pose {
	v1, v2 := t.against(angle)
	v1, v2 = v1.Rot(angle), v2.Rot(angle)
	x, y := t.m1.Dot(v1), t.m2.Dot(v2)
	// The shift d has m1·d = -x and m2·d = -y; m2 is upright.
	d := geom.Point{X: (-x + t.m1.Y*y) / t.m1.X, Y: -y}
	return Pose{angle, geom.Move{Turn: angle, Shift: d}.Polygon(t.hull)}
}
