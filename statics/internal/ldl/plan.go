package ldl

import "runtime"

// A Plan is the order, the tree and the fronts for matrices with the same pairs
// of blocks. It is read-only once made and may be shared.
type Plan struct {
	blocks int
	seq    []int32 // seq[k] is the k-th block to go
	fronts []front
	pairs  [][2]int32 // of the terms, to hold callers to them
}

// New plans for matrices over so many blocks whose terms join what these terms
// join, in this order; their numbers are not read. Places are the points the
// blocks stand at, and only steer the order.
func New(place [][3]float64, terms []Term) (*Plan, error) {
	if err := check(len(place), terms); err != nil {
		return nil, err
	}
	g := newGraph(len(place), terms)
	seq := order(g, place)
	num := inverse(seq)
	after := postorder(parents(g, num, seq))
	for k, old := range after {
		after[k] = seq[old]
	}
	seq, num = after, inverse(after)
	parent := parents(g, num, seq)
	p := &Plan{blocks: len(place), seq: seq, fronts: fronts(parent, structures(g, num, seq, parent))}
	link(p.fronts, p.blocks)
	p.spread(terms, num)
	return p, nil
}

func inverse(seq []int32) []int32 {
	num := make([]int32, len(seq))
	for k, v := range seq {
		num[v] = int32(k)
	}
	return num
}

// spread gives every term to the front in which its first block goes.
func (p *Plan) spread(terms []Term, num []int32) {
	of := make([]int, p.blocks)
	for i := range p.fronts {
		for k := range p.fronts[i].count {
			of[p.fronts[i].first+k] = i
		}
	}
	for n := range terms {
		a, b := num[terms[n].A], int32(none)
		first := a
		if terms[n].B >= 0 {
			b = num[terms[n].B]
			first = min(a, b)
		}
		f := &p.fronts[of[first]]
		at := placed{term: n, a: f.place(a), b: none}
		if b != none {
			at.b = f.place(b)
		}
		f.terms = append(f.terms, at)
		p.pairs = append(p.pairs, [2]int32{int32(terms[n].A), int32(terms[n].B)})
	}
}

// Work is the number of multiplications of a whole factorisation, and Entries
// the number of entries of the factor.
func (p *Plan) Work() (work, entries int64) {
	for i := range p.fronts {
		f := &p.fronts[i]
		work += f.work()
		entries += int64(f.own()) * int64(f.own()+f.rest())
	}
	return work, entries
}

// workers is how many fronts are computed at once. The numbers do not depend
// on it.
func workers() int { return runtime.GOMAXPROCS(0) }
