package ldl

import (
	"context"
	"fmt"
	"slices"
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
	return p.factor(ctx, terms, on, from, func(int) *numbers { return nil })
}

// Again is Factor from f, in the room of f, which is not to be used again but
// for what it shares with keep: fresh memory costs as much as the sums.
func (f *Factor) Again(ctx context.Context, terms []Term, on []bool, keep *Factor) (*Factor, error) {
	return f.plan.factor(ctx, terms, on, f, func(i int) *numbers {
		if f.parts[i] == keep.parts[i] {
			return nil
		}
		return f.parts[i]
	})
}

func (p *Plan) factor(ctx context.Context, terms []Term, on []bool, from *Factor, room func(int) *numbers) (*Factor, error) {
	if len(terms) != len(p.pairs) || len(on) != len(terms) {
		return nil, fmt.Errorf("ldl: planned for %d terms, given %d and %d switches", len(p.pairs), len(terms), len(on))
	}
	f := &Factor{plan: p, on: slices.Clone(on), diag: Diagonal(p.blocks, terms, on), parts: make([]*numbers, len(p.fronts))}
	stale := p.stale(on, from)
	var todo []int
	for i := range p.fronts {
		if !stale[i] {
			f.parts[i] = from.parts[i]
			continue
		}
		f.parts[i] = room(i)
		todo = append(todo, i)
		f.Work += p.fronts[i].work()
	}
	return f, f.run(ctx, terms, todo)
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
func (f *Factor) run(ctx context.Context, terms []Term, todo []int) error {
	if f.Work < aloneWork || workers() == 1 {
		var b bench
		for _, i := range todo {
			if err := ctx.Err(); err != nil {
				return err
			}
			f.parts[i] = b.compute(f, i, terms)
		}
		return nil
	}
	return f.share(ctx, terms, todo)
}

// share hands fronts, gathered in tasks, to several workers as soon as those
// below are done.
func (f *Factor) share(ctx context.Context, terms []Term, todo []int) error {
	tasks := f.plan.tasks(todo, f.Work/int64(tasksEach*workers()))
	ready := make(chan *task, len(tasks))
	for _, t := range tasks {
		if t.waits == 0 {
			ready <- t
		}
	}
	var mu sync.Mutex
	left := len(tasks)
	done := func(t *task) {
		mu.Lock()
		defer mu.Unlock()
		if t.next != nil {
			if t.next.waits--; t.next.waits == 0 {
				ready <- t.next
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
			for t := range ready {
				for _, i := range t.fronts {
					if ctx.Err() == nil {
						f.parts[i] = b.compute(f, i, terms)
					}
				}
				done(t)
			}
		})
	}
	all.Wait()
	return ctx.Err()
}

// task is fronts computed one after the other: a small subtree, or one front
// above such.
type task struct {
	fronts []int
	waits  int // tasks below that are not done
	next   *task
}

// tasksEach is how many subtrees a worker gets, so that none waits long for
// another to finish its last.
const tasksEach = 8

// tasks gathers the fronts to do: subtrees of no more work than small, and each
// front above them by itself.
func (p *Plan) tasks(todo []int, small int64) []*task {
	work := make([]int64, len(p.fronts)) // of a front and all below
	for _, i := range todo {
		work[i] += p.fronts[i].work()
		if up := p.fronts[i].parent; up != none {
			work[up] += work[i]
		}
	}
	of := make([]*task, len(p.fronts))
	var out []*task
	for _, i := range slices.Backward(todo) {
		up := p.fronts[i].parent
		if up != none && work[up] <= small {
			of[i] = of[up]
			continue
		}
		of[i] = &task{}
		out = append(out, of[i])
		if up != none {
			of[i].next = of[up]
			of[up].waits++
		}
	}
	for _, i := range todo {
		of[i].fronts = append(of[i].fronts, i)
	}
	return out
}

// bench is the room a worker needs: L D before it is divided by D, and a chunk
// that the numbers of small fronts are cut from, as there are many.
type bench struct{ ld, chunk []float64 }

const chunkSize = 1 << 15

// take cuts n zeros off the chunk.
func (b *bench) take(n int) []float64 {
	if n > chunkSize/4 {
		return make([]float64, n)
	}
	if len(b.chunk) < n {
		b.chunk = make([]float64, chunkSize)
	}
	out := b.chunk[:n:n]
	b.chunk = b.chunk[n:]
	return out
}

// compute assembles a front from its terms and from what its children left, and
// eliminates its own unknowns. It writes in the room given for it, if any.
func (b *bench) compute(f *Factor, i int, terms []Term) *numbers {
	fr, n := &f.plan.fronts[i], f.parts[i]
	p, q := fr.own(), fr.rest()
	if n == nil {
		n = &numbers{l: b.take((p + q) * p), d: b.take(p), left: b.take(q * q)}
	} else {
		clear(n.left)
		n.pinned = nil
	}
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

// block gives the block of rows r and columns c, from its first entry on, and how
// far apart its rows are.
func (a *assembly) block(r, c int) (from []float64, apart int) {
	if c *= Size; c < a.own {
		return a.ld[r*Size*a.own+c:], a.own
	}
	return a.left[(r*Size-a.own)*a.rest+c-a.own:], a.rest
}

func (a *assembly) term(t *Term, at placed) {
	pa, pb := int(at.a), int(at.b)
	a.corner(t, pa, 0)
	if at.b == none {
		return
	}
	a.corner(t, pb, Size)
	to, apart := a.block(max(pa, pb), min(pa, pb))
	for i := range Size {
		for j, v := range t.K[At(Size+i, 0):][:Size] {
			if pb > pa {
				to[i*apart+j] += v
			} else {
				to[j*apart+i] += v
			}
		}
	}
}

// corner adds a diagonal block of a term, whose first row is from.
func (a *assembly) corner(t *Term, place, from int) {
	to, apart := a.block(place, place)
	for i := range Size {
		row := to[i*apart:][:i+1]
		for j, v := range t.K[At(from+i, from):][:i+1] {
			row[j] += v
		}
	}
}

// child adds what a child left over.
func (a *assembly) child(c *front, n *numbers) {
	q := c.rest()
	for bi, ui := range c.up {
		for bj, uj := range c.up[:bi+1] {
			from := n.left[bi*Size*q+bj*Size:]
			to, apart := a.block(int(ui), int(uj))
			for i := range Size {
				row := to[i*apart:][:Size]
				for j, v := range from[i*q:][:Size] {
					row[j] += v
				}
			}
		}
	}
}
