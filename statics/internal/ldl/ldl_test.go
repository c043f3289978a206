package ldl

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"testing"
)

// grid is a net of w by h blocks, each joined to the next along and above by a
// spring of its own, with one block in the corner held.
func grid(w, h int, rng *rand.Rand) (place [][3]float64, terms []Term) {
	for y := range h {
		for x := range w {
			place = append(place, [3]float64{float64(x), 0, float64(y)})
			at := y*w + x
			if x > 0 {
				terms = append(terms, spring(at-1, at, rng))
			}
			if y > 0 {
				terms = append(terms, spring(at-w, at, rng))
			}
		}
	}
	return place, append(terms, hold(0))
}

// spring joins two blocks by six springs, mixed by a random change of axes so
// that the term is full.
func spring(a, b int, rng *rand.Rand) Term {
	t := Term{A: a, B: b}
	for range Size {
		var g [2 * Size]float64
		for i := range Size {
			g[i] = rng.NormFloat64()
			g[i+Size] = -g[i]
		}
		stiff := 1 + rng.Float64()
		for i := range g {
			for j := range i + 1 {
				t.Add(i, j, stiff*g[i]*g[j])
			}
		}
	}
	return t
}

func hold(a int) Term {
	t := Term{A: a, B: none}
	for i := range Size {
		t.Add(i, i, 3)
	}
	return t
}

func all(terms []Term) []bool {
	on := make([]bool, len(terms))
	for i := range on {
		on[i] = true
	}
	return on
}

func factor(t testing.TB, p *Plan, terms []Term, on []bool, from *Factor) *Factor {
	t.Helper()
	f, err := p.Factor(context.Background(), terms, on, from)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func random(n int, rng *rand.Rand) []float64 {
	b := make([]float64, n)
	for i := range b {
		b[i] = rng.NormFloat64()
	}
	return b
}

// residual is the greatest entry of b - K x over that of b.
func residual(terms []Term, on []bool, x, b []float64) float64 {
	y := make([]float64, len(b))
	Multiply(y, terms, on, x)
	worst, most := 0.0, 0.0
	for i := range y {
		worst, most = max(worst, math.Abs(y[i]-b[i])), max(most, math.Abs(b[i]))
	}
	return worst / most
}

func TestSolves(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, size := range [][2]int{{1, 1}, {2, 1}, {9, 1}, {5, 5}, {17, 13}, {40, 30}} {
		place, terms := grid(size[0], size[1], rng)
		for i := range place { // places only steer the order
			if size[0] == 5 {
				place[i] = [3]float64{}
			}
		}
		p, err := New(place, terms)
		if err != nil {
			t.Fatal(err)
		}
		f := factor(t, p, terms, all(terms), nil)
		b := random(len(place)*Size, rng)
		x, drive := f.Solve(b)
		if drive != nil || len(f.Freedoms()) > 0 {
			t.Fatalf("%v: a net that is held is loose", size)
		}
		if r := residual(terms, all(terms), x, b); r > 1e-11 {
			t.Errorf("%v: residual %v", size, r)
		}
	}
}

// TestOrder: every block goes once, whatever the net, and the fill stays near
// that of the best known order: for a square net of n blocks, nested dissection
// leaves under 8 n log₂ n (George 1973: 31/4 n log₂ n).
func TestOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{1, 3, 10, 33, 64} {
		place, terms := grid(n, n, rng)
		seq := order(newGraph(n*n, terms), place)
		sorted := slices.Clone(seq)
		slices.Sort(sorted)
		for k, v := range sorted {
			if int(v) != k {
				t.Fatalf("%d by %d: block %d goes at place %d of the sorted list", n, n, v, k)
			}
		}
		p, err := New(place, terms)
		if err != nil {
			t.Fatal(err)
		}
		_, entries := p.Work()
		blocks := float64(entries) / (Size * Size)
		if most := 8*float64(n*n)*math.Log2(float64(n*n)) + float64(4*n*n); blocks > most {
			t.Errorf("%d by %d: %v blocks of fill, over %v", n, n, blocks, most)
		}
		t.Logf("%d by %d: %.1f blocks a column", n, n, blocks/float64(n*n))
	}
}

// TestDenseLump: blocks that are all joined, or all in one place, are ordered
// without halving for ever.
func TestDenseLump(t *testing.T) {
	const n = 90
	rng := rand.New(rand.NewPCG(5, 6))
	var terms []Term
	for i := range n {
		for j := range i {
			if (i+j)%3 != 0 {
				terms = append(terms, spring(j, i, rng))
			}
		}
	}
	terms = append(terms, hold(n-1))
	p, err := New(make([][3]float64, n), terms)
	if err != nil {
		t.Fatal(err)
	}
	b := random(n*Size, rng)
	x, _ := factor(t, p, terms, all(terms), nil).Solve(b)
	if r := residual(terms, all(terms), x, b); r > 1e-11 {
		t.Errorf("residual %v", r)
	}
}

// TestCover tries every set of blocks against the cover found, on small halves.
func TestCover(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		const side = 6
		var joints [][2]int32
		m, place := newMatching(), make([]int32, 2*side)
		for l := range int32(side) {
			for h := range int32(side) {
				if rng.Float64() < 0.3 {
					joints = append(joints, [2]int32{l, side + h})
					m.join(l, side+h, place)
				}
			}
		}
		covered := func(set uint) bool {
			return !slices.ContainsFunc(joints, func(j [2]int32) bool { return set>>j[0]&1 == 0 && set>>j[1]&1 == 0 })
		}
		least := 2 * side
		for set := range uint(1) << (2 * side) {
			if n := bitCount(set); n < least && covered(set) {
				least = n
			}
		}
		got := uint(0)
		cover := m.cover()
		for _, v := range cover {
			got |= 1 << v
		}
		if !covered(got) || len(cover) != least {
			t.Fatalf("%v: cover %v, least %d", joints, cover, least)
		}
	}
}

func bitCount(v uint) (n int) {
	for ; v > 0; v &= v - 1 {
		n++
	}
	return n
}

// TestPartAnew: a factor made from another is the same, bit for bit, as one made
// from nothing, whatever the number of processors, and costs less.
func TestPartAnew(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	place, terms := grid(40, 40, rng)
	p, err := New(place, terms)
	if err != nil {
		t.Fatal(err)
	}
	on := all(terms)
	from := factor(t, p, terms, on, nil)
	if from.Work < aloneWork {
		t.Fatalf("only %d multiplications: too few to be shared out", from.Work)
	}
	on = slices.Clone(on)
	on[57], on[len(on)/2] = false, false
	part, whole := factor(t, p, terms, on, from), factor(t, p, terms, on, nil)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	alone := factor(t, p, terms, on, nil)
	if !reflect.DeepEqual(part.parts, whole.parts) || !reflect.DeepEqual(alone.parts, whole.parts) {
		t.Error("the numbers differ")
	}
	if 4*part.Work > 3*whole.Work {
		t.Errorf("two terms of %d took %d of %d multiplications", len(terms), part.Work, whole.Work)
	}
	if b := random(len(place)*Size, rng); !reflect.DeepEqual(first(part.Solve(b)), first(alone.Solve(b))) {
		t.Error("the solutions differ")
	}
	on3 := slices.Clone(on)
	on3[57], on3[90] = true, false
	third := factor(t, p, terms, on3, nil)
	again, err := part.Again(context.Background(), terms, on3, from)
	if err != nil || !reflect.DeepEqual(again.parts, third.parts) {
		t.Errorf("the numbers differ in used room: %v", err)
	}
	if !reflect.DeepEqual(from.parts, factor(t, p, terms, all(terms), nil).parts) {
		t.Error("what was to be kept was written over")
	}
}

func first(x, _ []float64) []float64 { return x }

// TestFree: a net that nothing holds has six free movements, each of which the
// matrix does nothing to; a load drives it, unless it is in balance.
func TestFree(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	place, terms := grid(8, 7, rng)
	terms = terms[:len(terms)-1]
	on := all(terms)
	p, err := New(place, terms)
	if err != nil {
		t.Fatal(err)
	}
	f := factor(t, p, terms, on, nil)
	free := f.Freedoms()
	if len(free) != Size {
		t.Fatalf("%d free unknowns: %v", len(free), free)
	}
	for _, one := range free {
		z := f.Free(one)
		if z[one.Block*Size+one.Unknown] != 1 {
			t.Errorf("%v moves by %v", one, z[one.Block*Size+one.Unknown])
		}
		y := make([]float64, len(z))
		Multiply(y, terms, on, z)
		for i, v := range y {
			if math.Abs(v) > 1e-10 {
				t.Fatalf("%v: row %d resists with %v", one, i, v)
			}
		}
	}
	b := random(len(place)*Size, rng)
	x, drive := f.Solve(b)
	if x != nil || drive == nil || dot(b, drive) <= 0 {
		t.Error("a load does not drive a free net")
	}
	for i := range Size { // in balance: springs that are alike at both ends
		sum := 0.0
		for k := i; k < len(b); k += Size {
			sum += b[k]
		}
		b[i] -= sum
	}
	if x, drive = f.Solve(b); drive != nil {
		t.Fatal("a load in balance drives it")
	}
	if r := residual(terms, on, x, b); r > 1e-10 {
		t.Errorf("residual %v", r)
	}
}

func TestRefuses(t *testing.T) {
	for name, terms := range map[string][]Term{
		"block below":  {{A: -1, B: 1}},
		"block beyond": {{A: 0, B: 2}},
		"one block":    {{A: 1, B: 1}},
	} {
		if _, err := New(make([][3]float64, 2), terms); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
	p, err := New(make([][3]float64, 1), []Term{hold(0)})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Factor(context.Background(), nil, nil, nil); err == nil {
		t.Error("other terms than planned are taken")
	}
	rng := rand.New(rand.NewPCG(13, 14))
	place, terms := grid(40, 40, rng)
	if p, err = New(place, terms); err != nil {
		t.Fatal(err)
	}
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	for _, on := range [][]bool{all(terms), make([]bool, len(terms))} {
		if _, err := p.Factor(stopped, terms, on, nil); err == nil {
			t.Error("a stopped context gives a factor")
		}
	}
}

func TestMultiplyAndDiagonal(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	place, terms := grid(3, 2, rng)
	on := all(terms)
	on[1] = false
	d := Diagonal(len(place), terms, on)
	for i := range d {
		e, y := make([]float64, len(d)), make([]float64, len(d))
		e[i] = 1
		Multiply(y, terms, on, e)
		if math.Abs(y[i]-d[i]) > 1e-12*d[i] {
			t.Errorf("row %d: %v on the diagonal, %v by multiplying", i, d[i], y[i])
		}
	}
}

func BenchmarkFactor(b *testing.B) {
	rng := rand.New(rand.NewPCG(17, 18))
	for _, n := range []int{20, 60, 150} {
		place, terms := grid(n, n, rng)
		p, err := New(place, terms)
		if err != nil {
			b.Fatal(err)
		}
		on := all(terms)
		b.Run(fmt.Sprintf("net=%dx%d", n, n), func(b *testing.B) {
			for b.Loop() {
				factor(b, p, terms, on, nil)
			}
			work, _ := p.Work()
			b.ReportMetric(float64(work)*1e-6, "Mmul")
		})
	}
}
