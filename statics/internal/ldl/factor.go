package ldl

import (
	"context"
	"fmt"
	"sync"
)

// lostPivot is the share of its diagonal entry below which a pivot counts as
// nothing. Rounding leaves some 1e-15 of an entry where a frame hangs loose; a
// frame a hundred sides high still has 1e-8.
const lostPivot = 1e-11

// A Factor is L and D of one matrix. It is read-only once made.
type Factor struct {
	plan  *Plan
	on    []bool
	diag  []float64 // of the matrix, by block
	parts []*numbers
	// Work is the number of multiplications it took.
	Work int64
}

// numbers are those of a front: L row by row, own unknowns first; D; and what
// is left for the parent.
type numbers struct {
	l, d   []float64
	left   []float64
	pinned []int // own unknowns whose pivot vanished
}

// Factor factors the sum of the terms that are on. What from, made of the same
// terms, has in common with it is taken over; from may be nil. A cancelled
// context gives its error.
func (p *Plan) Factor(ctx context.Context, terms []Term, on []bool, from *Factor) (*Factor, error) {
	if len(terms) != len(p.pairs) || len(on) != len(terms) {
		return nil, fmt.Errorf("ldl: planned for %d terms, given %d and %d switches", len(p.pairs), len(terms), len(on))
	}
	f := &Factor{plan: p, on: append([]bool(nil), on...), diag: Diagonal(p.blocks, terms, on), parts: make([]*numbers, len(p.fronts))}
	stale := p.stale(on, from)
	var todo []int
	for i := range p.fronts {
		if !stale[i] {
			f.parts[i] = from.parts[i]
			continue
		}
		todo = append(todo, i)
		f.Work += p.fronts[i].work()
	}
	return f, f.run(ctx, terms, todo, stale)
}

// stale marks the fronts whose terms, or those of a front below, differ.
func (p *Plan) stale(on []bool, from *Factor) []bool {
	s := make([]bool, len(p.fronts))
	for i := range p.fronts {
		f := &p.fronts[i]
		s[i] = s[i] || from == nil
		for _, t := range f.terms {
			s[i] = s[i] || on[t.term] != from.on[t.term]
		}
		if s[i] && f.parent != none {
			s[f.parent] = true
		}
	}
	return s
}

// aloneWork is the work below which a second worker costs more than it does.
const aloneWork = 2_000_000

// run computes fronts, children before parents, several at once.
func (f *Factor) run(ctx context.Context, terms []Term, todo []int, stale []bool) error {
	if f.Work < aloneWork || workers() == 1 {
		var b bench
		for _, i := range todo {
			if err := ctx.Err(); err != nil {
				return err
			}
			f.parts[i] = b.compute(f, &f.plan.fronts[i], terms)
		}
		return nil
	}
	return f.share(ctx, terms, todo, stale)
}

// share hands fronts whose children are done to several workers.
func (f *Factor) share(ctx context.Context, terms []Term, todo []int, stale []bool) error {
	waits := make([]int, len(f.plan.fronts))
	ready := make(chan int, len(todo))
	for _, i := range todo {
		for _, c := range f.plan.fronts[i].children {
			if stale[c] {
				waits[i]++
			}
		}
		if waits[i] == 0 {
			ready <- i
		}
	}
	var mu sync.Mutex
	left := len(todo)
	done := func(i int) {
		mu.Lock()
		defer mu.Unlock()
		if up := f.plan.fronts[i].parent; up != none {
			if waits[up]--; waits[up] == 0 {
				ready <- up
			}
		}
		if left--; left == 0 {
			close(ready)
		}
	}
	var all sync.WaitGroup
	for range workers() {
		all.Go(func() {
			var b bench
			for i := range ready {
				if ctx.Err() == nil {
					f.parts[i] = b.compute(f, &f.plan.fronts[i], terms)
				}
				done(i)
			}
		})
	}
	all.Wait()
	return ctx.Err()
}

// bench is the room a worker needs: L D before it is divided by D.
type bench struct{ ld []float64 }

// compute assembles a front from its terms and from what its children left, and
// eliminates its own unknowns.
func (b *bench) compute(f *Factor, fr *front, terms []Term) *numbers {
	p, q := fr.own(), fr.rest()
	n := &numbers{l: make([]float64, (p+q)*p), d: make([]float64, p), left: make([]float64, q*q)}
	if need := (p + q) * p; len(b.ld) < need {
		b.ld = make([]float64, need)
	}
	ld := b.ld[:(p+q)*p]
	clear(ld)
	to := assembly{own: p, rest: q, ld: ld, left: n.left}
	for _, t := range fr.terms {
		if f.on[t.term] {
			to.term(&terms[t.term], t)
		}
	}
	for _, c := range fr.children {
		to.child(&f.plan.fronts[c], f.parts[c])
	}
	n.eliminate(f, fr, ld)
	return n
}

// assembly is a front while it is put together: the rows of its own columns,
// and the square behind them, of which only the lower triangle is kept.
type assembly struct {
	own, rest int
	ld, left  []float64
}

// row gives the six entries in row i of the block of columns c.
func (a *assembly) row(i, c int) []float64 {
	at := c * Size
	if at < a.own {
		return a.ld[i*a.own+at:][:Size]
	}
	return a.left[(i-a.own)*a.rest+at-a.own:][:Size]
}

func (a *assembly) term(t *Term, at placed) {
	pa, pb := int(at.a), int(at.b)
	a.corner(t, pa, 0)
	if at.b == none {
		return
	}
	a.corner(t, pb, Size)
	for i := range Size {
		across := t.K[At(Size+i, 0):][:Size]
		if pb > pa {
			row := a.row(pb*Size+i, pa)
			for j, v := range across {
				row[j] += v
			}
			continue
		}
		for j, v := range across {
			a.row(pa*Size+j, pb)[i] += v
		}
	}
}

// corner adds a diagonal block of a term, whose first row is from.
func (a *assembly) corner(t *Term, place, from int) {
	for i := range Size {
		row := a.row(place*Size+i, place)
		for j := range i + 1 {
			row[j] += t.K[At(from+i, from+j)]
		}
	}
}

// child adds what a child left over.
func (a *assembly) child(c *front, n *numbers) {
	q := c.rest()
	for bi, ui := range c.up {
		for i := range Size {
			from := n.left[(bi*Size+i)*q:]
			for bj := range bi + 1 {
				row := a.row(int(ui)*Size+i, int(c.up[bj]))
				part := from[bj*Size:][:Size]
				for j, v := range part {
					row[j] += v
				}
			}
		}
	}
}
