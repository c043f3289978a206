package statics

import (
	"cmp"
	"context"
	"math"
	"slices"

	"bowerwright/statics/internal/ldl"
)

// settling is the search for the movements of least energy
//
//	½ uᵀK₀u - fᵀu + Σ ½ k max(0, g·u - gap)²
//
// with one term a tie. The energy is convex, once differentiable, and quadratic
// as long as the same ties are closed.
type settling struct {
	p      *Prepared
	f      []float64
	always []bool // terms that act whatever the ties do
	there  []bool // ties that are part of this case
	closed []bool
	force  float64 // the greatest force of the case, by which rounding is judged
	u      []float64
	factor *ldl.Factor
	steps  int
	work   int64
}

// outcome of the search; drive is set where the frame is loose.
type settled struct {
	outcome Outcome
	drive   []float64
	pushed  bool
}

// A tie that pulls with less than touchForce of the greatest load is taken to
// touch, and stays as it is; so is one whose closing is within touchRounding of
// the greatest movement, which is rounding. Otherwise ties that carry nothing
// would open and close by chance.
const (
	touchForce    = 1e-9
	touchRounding = 1e-14
)

func (p *Prepared) settling(f []float64, on, there []bool) *settling {
	s := &settling{p: p, f: f, always: on, there: there, closed: make([]bool, len(p.ties)), u: make([]float64, len(f))}
	for i, t := range p.ties {
		if t.term != none {
			s.always[t.term] = false
		}
		s.closed[i] = there[i] && t.gap <= 0
	}
	for i, v := range f {
		if i%ldl.Size < 3 {
			s.force = max(s.force, math.Abs(v))
		} else {
			s.force = max(s.force, math.Abs(v)/p.size)
		}
	}
	s.factor = p.base
	return s
}

// run steps until the ties that are closed stay the same.
func (s *settling) run(ctx context.Context) (settled, error) {
	for s.steps < s.p.limits.Steps {
		s.steps++
		if err := s.refactor(ctx); err != nil {
			return settled{}, err
		}
		if s.p.limits.Work > 0 && s.work > s.p.limits.Work {
			break
		}
		x, drive := s.factor.Solve(s.right())
		if drive != nil {
			far, ok := s.along(drive, true)
			if !ok {
				return settled{Loose, drive, true}, nil
			}
			s.advance(drive, far)
			continue
		}
		if slices.Equal(s.status(x), s.closed) {
			s.u = s.refined(x)
			if free := s.factor.Freedoms(); len(free) > 0 {
				return settled{Loose, s.factor.Free(free[0]), false}, nil
			}
			return settled{outcome: Settled}, nil
		}
		for i, v := range s.u {
			x[i] -= v
		}
		far, ok := s.along(x, false)
		if !ok {
			far = 1 // only rounding makes a step that ends seem endless
		}
		s.advance(x, far)
	}
	return settled{outcome: Unsettled}, nil
}

// refactor brings the factor up to the ties that are closed.
func (s *settling) refactor(ctx context.Context) (err error) {
	var f *ldl.Factor
	on := s.acting()
	if s.factor == s.p.base {
		f, err = s.p.plan.Factor(ctx, s.p.terms, on, s.factor)
	} else {
		f, err = s.factor.Again(ctx, s.p.terms, on, s.p.base)
	}
	if err == nil {
		s.factor, s.work = f, s.work+f.Work
	}
	return err
}

// acting gives the terms that act while the same ties are closed.
func (s *settling) acting() []bool {
	on := slices.Clone(s.always)
	for i, t := range s.p.ties {
		if s.closed[i] {
			on[t.term] = true
		}
	}
	return on
}

// right is the load, and what closed ties push for the gaps they had.
func (s *settling) right() []float64 {
	b := slices.Clone(s.f)
	for i := range s.p.ties {
		if t := &s.p.ties[i]; s.closed[i] && t.gap != 0 {
			s.p.spread(b, &t.tie, t.stiff*t.gap)
		}
	}
	return b
}

// refined takes rounding off a solution by solving once for what is left over.
func (s *settling) refined(x []float64) []float64 {
	b := s.right()
	left := make([]float64, len(b))
	ldl.Multiply(left, s.p.terms, s.acting(), x)
	for i := range left {
		left[i] = b[i] - left[i]
	}
	more, drive := s.factor.Solve(left)
	if drive != nil {
		return x
	}
	for i, v := range more {
		x[i] += v
	}
	return x
}

func (s *settling) advance(d []float64, far float64) {
	for i, v := range d {
		s.u[i] += far * v
	}
	s.closed = s.status(s.u)
}

// status tells which ties are closed at u.
func (s *settling) status(u []float64) []bool {
	most := 0.0
	for i, v := range u {
		if i%ldl.Size < 3 {
			most = max(most, math.Abs(v))
		}
	}
	out := make([]bool, len(s.closed))
	for i := range s.p.ties {
		if !s.there[i] {
			continue
		}
		t := &s.p.ties[i]
		touch := touchForce*s.force/t.stiff + touchRounding*most
		if s.closed[i] {
			touch = -touch
		}
		c := s.p.closes(u, &t.tie) - t.gap
		out[i] = c > touch || c == 0 && s.closed[i]
	}
	return out
}

// closes gives g·u of a tie.
func (p *Prepared) closes(u []float64, t *tie) float64 {
	sum := 0.0
	for end, n := range []Node{t.a, t.b} {
		b := p.block(n)
		if b < 0 {
			continue
		}
		g, v := t.g[6*end:][:6], u[b*ldl.Size:][:6]
		for i := range g {
			sum += g[i] * v[i]
		}
	}
	return sum
}

// spread adds k g of a tie to b, but for movements that are held.
func (p *Prepared) spread(b []float64, t *tie, k float64) {
	for end, n := range []Node{t.a, t.b} {
		at := p.block(n)
		if at < 0 {
			continue
		}
		for i, g := range t.g[6*end:][:6] {
			if !p.model.nodes[n].held.holds(i) {
				b[at*ldl.Size+i] += k * g
			}
		}
	}
}

// bend is where a tie opens or closes along a step, and by how much the slope of
// the energy then changes more.
type bend struct {
	far, curve float64
	tie        int
}

// along finds the least energy from u along d: the slope is piecewise linear and
// never falls. ok is false where it stays below zero for ever.
func (s *settling) along(d []float64, free bool) (far float64, ok bool) {
	slope, curve, bends := s.slope(d, free)
	for _, b := range bends {
		if slope >= 0 {
			return far, true
		}
		next := slope + curve*(b.far-far)
		if next >= 0 {
			return far - slope/curve, true
		}
		slope, far, curve = next, b.far, curve+b.curve
	}
	if slope >= 0 {
		return far, true
	}
	if curve <= 0 {
		return far, false
	}
	return far - slope/curve, true
}

// slope gives the slope and curvature of the energy at u along d, and where the
// curvature changes, nearest first. Along a free movement nothing resists but
// ties that close on the way.
func (s *settling) slope(d []float64, free bool) (slope, curve float64, bends []bend) {
	kd := make([]float64, len(d))
	ldl.Multiply(kd, s.p.terms, s.always, d)
	still := 0.0
	for i, v := range d {
		slope += s.u[i]*kd[i] - s.f[i]*v
		curve += v * kd[i]
		still = max(still, stillShare*math.Abs(v))
	}
	if free {
		curve = 0
	} else {
		still = 0
	}
	for i := range s.p.ties {
		if !s.there[i] {
			continue
		}
		t := &s.p.ties[i]
		c, v := s.p.closes(s.u, &t.tie)-t.gap, s.p.closes(d, &t.tie)
		bent := t.stiff * v * v
		now := c > 0 || c == 0 && v > 0
		if now {
			slope += t.stiff * c * v
		}
		switch {
		case math.Abs(v) <= still:
		case now && v < 0:
			curve += bent
			bends = append(bends, bend{-c / v, -bent, i})
		case now:
			curve += bent
		case v > 0:
			bends = append(bends, bend{-c / v, bent, i})
		}
	}
	slices.SortFunc(bends, func(a, b bend) int { return cmp.Or(cmp.Compare(a.far, b.far), cmp.Compare(a.tie, b.tie)) })
	return slope, curve, bends
}

// stillShare is the share of a free movement below which the closing of a tie
// along it is rounding: such a tie neither resists nor comes to.
const stillShare = 1e-9
