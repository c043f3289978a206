package ldl

import (
	"cmp"
	"slices"
)

// graph holds the neighbours of every block, ascending, without itself. While
// an order is sought, a block that goes leaves its neighbours joined.
type graph [][]int32

func newGraph(blocks int, terms []Term) graph {
	g := make(graph, blocks)
	for n := range terms {
		if t := &terms[n]; t.B >= 0 {
			g[t.A] = append(g[t.A], int32(t.B))
			g[t.B] = append(g[t.B], int32(t.A))
		}
	}
	for v := range g {
		slices.Sort(g[v])
		g[v] = slices.Compact(g[v])
	}
	return g
}

func (g graph) clone() graph {
	c := make(graph, len(g))
	for v := range g {
		c[v] = slices.Clone(g[v])
	}
	return c
}

// eliminate takes v out and joins its neighbours with one another. The lists of
// those already placed are left as they are: nobody asks for them again.
func (g graph) eliminate(v int32, part []int32) {
	around := g[v]
	for _, u := range around {
		if part[u] != gone {
			g[u] = merge(g[u], around, u, v)
		}
	}
	g[v] = nil
}

// merge gives the union of two ascending lists without u and v.
func merge(a, b []int32, u, v int32) []int32 {
	out := make([]int32, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		var next int32
		switch {
		case len(b) == 0 || len(a) > 0 && a[0] < b[0]:
			next, a = a[0], a[1:]
		case len(a) == 0 || b[0] < a[0]:
			next, b = b[0], b[1:]
		default:
			next, a, b = a[0], a[1:], b[1:]
		}
		if next != u && next != v {
			out = append(out, next)
		}
	}
	return out
}

const (
	// chainDegree is the most neighbours of a block that goes before all
	// others: taking it out joins at most two blocks, so that it costs no fill
	// that another order would save. Corners between the middles of sides go.
	chainDegree = 2

	// leafSize is the number of blocks below which halving gains nothing over
	// minimum degree; found by trial between 30 and 200, and flat there.
	leafSize = 60

	// flatShare is the share of the greatest extent below which a direction is
	// not worth cutting across: the halves would hardly be apart.
	flatShare = 0.25
)

// order gives the blocks in the order of their elimination: chains first, then
// halves before the blocks that part them. Ties go to the smaller number.
func order(full graph, place [][3]float64) []int32 {
	d := dissection{g: full.clone(), place: place, part: make([]int32, len(full)), spot: make([]int32, len(full))}
	d.takeChains()
	var rest []int32
	for v := range d.g {
		if d.part[v] == 0 {
			rest = append(rest, int32(v))
		}
	}
	d.halve(rest)
	return d.out
}

type dissection struct {
	g     graph
	place [][3]float64
	part  []int32 // 0 undecided, gone once ordered or parting, else a half's own number
	spot  []int32 // scratch: where a block stands in a list
	parts int32
	out   []int32
}

const gone = -1

func (d *dissection) take(v int32) {
	d.part[v] = gone
	d.out = append(d.out, v)
}

func (d *dissection) takeChains() {
	var queue []int32
	for v := range d.g {
		if len(d.g[v]) <= chainDegree {
			queue = append(queue, int32(v))
		}
	}
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		if d.part[v] == gone || len(d.g[v]) > chainDegree {
			continue
		}
		around := d.g[v]
		d.g.eliminate(v, d.part)
		d.take(v)
		for _, u := range around {
			if len(d.g[u]) <= chainDegree {
				queue = append(queue, u)
			}
		}
	}
}

// halve orders the blocks of one part: two halves, then what parts them.
func (d *dissection) halve(blocks []int32) {
	if len(blocks) <= leafSize {
		d.smallest(blocks)
		return
	}
	var best cut
	for _, key := range d.directions(blocks) {
		c := d.cutAcross(blocks, key)
		if best.between == nil || c.cost() < best.cost() {
			best = c
		}
	}
	if len(best.low) == 0 || len(best.high) == 0 { // one dense lump: nothing to halve
		d.smallest(blocks)
		return
	}
	for _, v := range best.between {
		d.part[v] = gone
	}
	d.halve(best.low)
	d.halve(best.high)
	d.out = append(d.out, best.between...)
}

// smallest orders blocks by minimum degree. Neighbours outside count.
func (d *dissection) smallest(blocks []int32) {
	left := slices.Clone(blocks)
	for len(left) > 0 {
		at := 0
		for i, v := range left {
			if len(d.g[v]) < len(d.g[left[at]]) {
				at = i
			}
		}
		v := left[at]
		left = slices.Delete(left, at, at+1)
		d.g.eliminate(v, d.part)
		d.take(v)
	}
}

// cut is a division of blocks in two halves and those that part them.
type cut struct{ low, high, between []int32 }

// cost grows with the cube of what parts the halves, as the work on it does,
// and with the work on an uneven half.
func (c cut) cost() float64 {
	s, l, h := float64(len(c.between)), float64(len(c.low)), float64(len(c.high))
	all := s + l + h
	return s * s * s * (1 + (l-h)*(l-h)/(all*all))
}

// directions gives the axes, and the diagonals between them, along which the
// blocks reach far.
func (d *dissection) directions(blocks []int32) [][3]float64 {
	var reach [3]float64
	most := 0.0
	for a := range reach {
		lo, hi := d.place[blocks[0]][a], d.place[blocks[0]][a]
		for _, v := range blocks {
			lo, hi = min(lo, d.place[v][a]), max(hi, d.place[v][a])
		}
		reach[a] = hi - lo
		most = max(most, reach[a])
	}
	var far []int
	for a := range reach {
		if reach[a] >= flatShare*most {
			far = append(far, a)
		}
	}
	var keys [][3]float64
	for i, a := range far {
		var key [3]float64
		key[a] = 1
		keys = append(keys, key)
		for _, b := range far[:i] {
			key[b] = 1
			keys = append(keys, key)
			key[b] = -1
			keys = append(keys, key)
			key[b] = 0
		}
	}
	return keys
}

type ranked struct {
	key float64
	v   int32
}

// cutAcross halves the blocks at the median along a direction, and parts the
// halves by as few blocks as cover all joints between them.
func (d *dissection) cutAcross(blocks []int32, along [3]float64) cut {
	list := make([]ranked, len(blocks))
	for i, v := range blocks {
		p := d.place[v]
		list[i] = ranked{p[0]*along[0] + p[1]*along[1] + p[2]*along[2], v}
	}
	slices.SortFunc(list, func(a, b ranked) int { return cmp.Or(cmp.Compare(a.key, b.key), cmp.Compare(a.v, b.v)) })
	d.parts += 2
	lowPart, highPart := d.parts-1, d.parts
	half := len(list) / 2
	for i, r := range list {
		d.part[r.v] = lowPart
		if i >= half {
			d.part[r.v] = highPart
		}
	}
	joints := newMatching()
	for _, r := range list[:half] {
		for _, u := range d.g[r.v] {
			if d.part[u] == highPart {
				joints.join(r.v, u, d.spot)
			}
		}
	}
	c := cut{between: joints.cover()}
	if c.between == nil {
		c.between = []int32{}
	}
	for _, v := range c.between {
		d.part[v] = 0
	}
	for i, r := range list {
		switch {
		case d.part[r.v] == 0:
		case i < half:
			c.low = append(c.low, r.v)
		default:
			c.high = append(c.high, r.v)
		}
	}
	return c
}
