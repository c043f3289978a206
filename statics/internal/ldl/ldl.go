// Package ldl factors the symmetric stiffness matrix of a frame as L D Lᵀ.
//
// The matrix has blocks of six unknowns, one block a node, and is given as a
// sum of terms, each touching one block or two. Order, tree and dense fronts
// follow from the pairs of blocks alone (New) and serve every matrix of the
// same pairs; numbers come with Factor. Terms may be switched on and off, and a
// factor that differs from an earlier one in a few terms recomputes only the
// fronts above them: the numbers are the same, to the last bit, as if all had
// been computed anew, whatever the number of processors.
//
// The matrix is taken to be positive semi-definite, as energy is, so that no
// pivoting is needed. An unknown whose pivot vanishes is pinned: it can move
// freely once those before it follow. Solve says whether a load drives it and
// Free gives the movement.
//
// The method is the multifrontal one of Duff and Reid (1983), with geometric
// nested dissection after George (1973) and minimum degree in the small; cited
// from memory.
package ldl

import "fmt"

// Size is the number of unknowns in a block: three shifts and three turns.
const Size = 6

// packed is the number of entries of the lower triangle over two blocks.
const packed = 2 * Size * (2*Size + 1) / 2

// Term is a symmetric piece of the matrix over blocks A and B, or over A alone
// when B is negative: the lower triangle row by row, A's unknowns first.
type Term struct {
	A, B int
	K    [packed]float64
}

// At is the place in K of row i and column j <= i.
func At(i, j int) int { return i*(i+1)/2 + j }

// Add adds v at row i and column j, in either triangle.
func (t *Term) Add(i, j int, v float64) {
	if j > i {
		i, j = j, i
	}
	t.K[At(i, j)] += v
}

// side gives the rows a term has: six over one block, twelve over two.
func (t *Term) side() int {
	if t.B < 0 {
		return Size
	}
	return 2 * Size
}

// Multiply adds the product of the terms that are on with x to y.
func Multiply(y []float64, terms []Term, on []bool, x []float64) {
	for n := range terms {
		if on[n] {
			terms[n].multiply(y, x)
		}
	}
}

func (t *Term) multiply(y, x []float64) {
	var in, out [2 * Size]float64
	copy(in[:Size], x[t.A*Size:])
	if t.B >= 0 {
		copy(in[Size:], x[t.B*Size:t.B*Size+Size])
	}
	k := 0
	for i := range t.side() {
		for j := range i {
			out[i] += t.K[k] * in[j]
			out[j] += t.K[k] * in[i]
			k++
		}
		out[i] += t.K[k] * in[i]
		k++
	}
	for i := range Size {
		y[t.A*Size+i] += out[i]
		if t.B >= 0 {
			y[t.B*Size+i] += out[Size+i]
		}
	}
}

// Diagonal sums the diagonal entries of the terms that are on.
func Diagonal(blocks int, terms []Term, on []bool) []float64 {
	d := make([]float64, blocks*Size)
	for n := range terms {
		t := &terms[n]
		if !on[n] {
			continue
		}
		for i := range Size {
			d[t.A*Size+i] += t.K[At(i, i)]
			if t.B >= 0 {
				d[t.B*Size+i] += t.K[At(Size+i, Size+i)]
			}
		}
	}
	return d
}

// check finds terms that name blocks the matrix does not have.
func check(blocks int, terms []Term) error {
	for n := range terms {
		t := &terms[n]
		if t.A < 0 || t.A >= blocks || t.B >= blocks || t.A == t.B {
			return fmt.Errorf("ldl: term %d joins blocks %d and %d of %d", n, t.A, t.B, blocks)
		}
	}
	return nil
}
