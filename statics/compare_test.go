package statics

import (
	"context"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"

	"bowerwright/statics/internal/ldl"
)

// banded is a matrix in gonum's band form, its blocks in reverse Cuthill-McKee
// order, which keeps the band narrow.
type banded struct {
	place []int // of each block in the order
	k     *mat.SymBandDense
}

func (p *Prepared) banded(on []bool) banded {
	near := make([][]int, len(p.nodes))
	for _, t := range p.terms {
		if t.B >= 0 {
			near[t.A], near[t.B] = append(near[t.A], t.B), append(near[t.B], t.A)
		}
	}
	seq := cuthillMcKee(near)
	b := banded{place: make([]int, len(seq))}
	for k, v := range seq {
		b.place[v] = k
	}
	half := 0
	for _, t := range p.terms {
		if t.B >= 0 {
			d := b.place[t.A] - b.place[t.B]
			half = max(half, d, -d)
		}
	}
	b.k = mat.NewSymBandDense(len(seq)*ldl.Size, (half+1)*ldl.Size-1, nil)
	for n, t := range p.terms {
		if on[n] {
			b.add(t)
		}
	}
	return b
}

func (b banded) add(t ldl.Term) {
	at := func(i int) int {
		if i < ldl.Size {
			return b.place[t.A]*ldl.Size + i
		}
		return b.place[t.B]*ldl.Size + i - ldl.Size
	}
	side := ldl.Size
	if t.B >= 0 {
		side *= 2
	}
	for i := range side {
		for j := range i + 1 {
			b.k.SetSymBand(at(i), at(j), b.k.At(at(i), at(j))+t.K[ldl.At(i, j)])
		}
	}
}

// cuthillMcKee walks every piece of a net from a far end, nearest first.
func cuthillMcKee(near [][]int) []int {
	seen := make([]bool, len(near))
	var out []int
	walk := func(from int) []int {
		queue, in := []int{from}, map[int]bool{from: true}
		for i := 0; i < len(queue); i++ {
			next := slices.Clone(near[queue[i]])
			slices.SortStableFunc(next, func(a, b int) int { return len(near[a]) - len(near[b]) })
			for _, v := range next {
				if !in[v] {
					in[v] = true
					queue = append(queue, v)
				}
			}
		}
		return queue
	}
	for v := range near {
		if seen[v] {
			continue
		}
		piece := walk(v)
		piece = walk(piece[len(piece)-1])
		for _, u := range piece {
			seen[u] = true
		}
		out = append(out, piece...)
	}
	slices.Reverse(out)
	return out
}

// TestAgainstGonumBands: the matrix of a whole wall, with seams, by gonum's band
// Cholesky.
func TestAgainstGonumBands(t *testing.T) {
	c, cases := wall(20)
	p, err := Prepare(context.Background(), &c.Model, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	b := p.banded(p.on)
	var chol mat.BandCholesky
	if !chol.Factorize(b.k) {
		t.Fatal("gonum finds no factors")
	}
	l, err := p.loads(cases[0])
	if err != nil {
		t.Fatal(err)
	}
	f := p.vector(l.nodal)
	turned := make([]float64, len(f))
	for v, k := range b.place {
		copy(turned[k*ldl.Size:(k+1)*ldl.Size], f[v*ldl.Size:])
	}
	var x mat.VecDense
	if err := chol.SolveVecTo(&x, mat.NewVecDense(len(f), turned)); err != nil {
		t.Fatal(err)
	}
	got, _ := p.base.Solve(f)
	most := mat.Norm(&x, math.Inf(1))
	for v, k := range b.place {
		for i := range ldl.Size {
			if want := x.AtVec(k*ldl.Size + i); math.Abs(got[v*ldl.Size+i]-want) > 1e-9*most {
				t.Fatalf("block %d, unknown %d: %v, gonum has %v", v, i, got[v*ldl.Size+i], want)
			}
		}
	}
}
