package ldl

import "math"

// A Freedom is an unknown that nothing holds once those before it follow.
type Freedom struct {
	Block, Unknown int
	front, own     int
}

// Freedoms lists the pinned unknowns, in the order of elimination.
func (f *Factor) Freedoms() []Freedom {
	var out []Freedom
	for i, n := range f.parts {
		for _, k := range n.pinned {
			out = append(out, Freedom{int(f.plan.seq[f.plan.fronts[i].first+k/Size]), k % Size, i, k})
		}
	}
	return out
}

// drivenShare is the share of the work of a load's pieces along a free movement
// above which the load drives it: below, the pieces cancel but for rounding.
const drivenShare = 1e-9

// Solve gives x of least energy under load b. Unknowns that are free stay
// where they are; when the load drives some, drive is a movement along which
// its work is positive and the matrix does nothing, and x is nil.
func (f *Factor) Solve(b []float64) (x, drive []float64) {
	y := f.gather(b)
	f.forward(y)
	if drive := f.driven(y, b); drive != nil {
		return nil, drive
	}
	for i, n := range f.parts {
		own := y[f.plan.fronts[i].first*Size:][:len(n.d)]
		for k, d := range n.d {
			if d == 0 {
				own[k] = 0
				continue
			}
			own[k] /= d
		}
	}
	f.backward(y)
	return f.scatter(y), nil
}

// driven gives the steepest free movement for a load whose forward substitution
// is y, or nil where the load does no work on any.
func (f *Factor) driven(y, b []float64) []float64 {
	free := f.Freedoms()
	if len(free) == 0 {
		return nil
	}
	z := make([]float64, len(y))
	for _, p := range free {
		at := f.plan.fronts[p.front].first*Size + p.own
		z[at] = y[at]
	}
	f.backward(z)
	z = f.scatter(z)
	work, pieces := 0.0, 0.0
	for i, v := range z {
		work += v * b[i]
		pieces += math.Abs(v * b[i])
	}
	if work <= drivenShare*pieces {
		return nil
	}
	return z
}

// Free gives the movement that goes with a free unknown: one there, and what
// follows elsewhere, other free unknowns at rest.
func (f *Factor) Free(p Freedom) []float64 {
	z := make([]float64, f.plan.blocks*Size)
	z[f.plan.fronts[p.front].first*Size+p.own] = 1
	f.backward(z)
	return f.scatter(z)
}

// gather brings a vector into the order of elimination, scatter back.
func (f *Factor) gather(b []float64) []float64 {
	y := make([]float64, len(b))
	for k, v := range f.plan.seq {
		copy(y[k*Size:(k+1)*Size], b[int(v)*Size:])
	}
	return y
}

func (f *Factor) scatter(y []float64) []float64 {
	x := make([]float64, len(y))
	for k, v := range f.plan.seq {
		copy(x[int(v)*Size:(int(v)+1)*Size], y[k*Size:])
	}
	return x
}

// forward divides by L.
func (f *Factor) forward(y []float64) {
	for i, n := range f.parts {
		fr := &f.plan.fronts[i]
		p := fr.own()
		own := y[fr.first*Size:][:p]
		for r := range p {
			own[r] -= dot(n.l[r*p:][:r], own)
		}
		for b, r := range fr.rows {
			to := y[int(r)*Size:][:Size]
			for j := range Size {
				to[j] -= dot(n.l[(p+b*Size+j)*p:][:p], own)
			}
		}
	}
}

// backward divides by Lᵀ.
func (f *Factor) backward(y []float64) {
	for i := len(f.parts) - 1; i >= 0; i-- {
		n, fr := f.parts[i], &f.plan.fronts[i]
		p := fr.own()
		own := y[fr.first*Size:][:p]
		for b, r := range fr.rows {
			from := y[int(r)*Size:][:Size]
			for j, v := range from {
				takeAway(own, n.l[(p+b*Size+j)*p:][:p], v)
			}
		}
		for r := p - 1; r > 0; r-- {
			takeAway(own, n.l[r*p:][:r], own[r])
		}
	}
}

func dot(a, b []float64) float64 {
	b = b[:len(a)]
	s := 0.0
	for i, v := range a {
		s += v * b[i]
	}
	return s
}

// takeAway subtracts v times b from a, over b's length.
func takeAway(a, b []float64, v float64) {
	a = a[:len(b)]
	for i, w := range b {
		a[i] -= v * w
	}
}
