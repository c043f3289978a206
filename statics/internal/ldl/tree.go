package ldl

import (
	"slices"
)

// front is a dense piece of the factor: a run of blocks eliminated together,
// and the later blocks they touch.
type front struct {
	first, count int     // own blocks, in elimination order
	rows         []int32 // later blocks touched, ascending
	parent       int     // front that takes what is left over, or none
	children     []int
	up           []int32  // where each of rows stands in the parent's front
	terms        []placed // terms whose first block is an own one
}

const none = -1

// placed says where in a front the blocks of a term stand.
type placed struct {
	term int
	a, b int32
}

func (f *front) own() int  { return f.count * Size }
func (f *front) rest() int { return len(f.rows) * Size }

// place finds a block of this front, by its elimination number.
func (f *front) place(block int32) int32 {
	if int(block) < f.first+f.count {
		return block - int32(f.first)
	}
	at, _ := slices.BinarySearch(f.rows, block)
	return int32(f.count + at)
}

// work counts the multiplications of a front.
func (f *front) work() int64 {
	p, m := int64(f.own()), int64(f.own()+f.rest())
	return p*m*m/2 - p*p*m/2 + p*p*p/6
}

// parents gives the elimination tree (Liu 1986, from memory): the first later
// block that each block is joined to once those before are gone.
func parents(g graph, num []int32, seq []int32) []int32 {
	parent := make([]int32, len(seq))
	top := make([]int32, len(seq)) // shortcut towards the root
	for k := range seq {
		parent[k], top[k] = none, none
		for _, u := range g[seq[k]] {
			at := num[u]
			if at >= int32(k) {
				continue
			}
			for top[at] != none && top[at] != int32(k) {
				top[at], at = int32(k), top[at]
			}
			if top[at] == none {
				top[at], parent[at] = int32(k), int32(k)
			}
		}
	}
	return parent
}

// postorder renumbers so that every subtree is a run ending in its root.
func postorder(parent []int32) []int32 {
	n := len(parent)
	kids := make([][]int32, n+1)
	for k, p := range parent {
		if p == none {
			p = int32(n)
		}
		kids[p] = append(kids[p], int32(k))
	}
	out := make([]int32, 0, n)
	type frame struct{ at, next int }
	stack := []frame{{n, 0}}
	for len(stack) > 0 {
		f := &stack[len(stack)-1]
		if f.next < len(kids[f.at]) {
			f.next++
			stack = append(stack, frame{int(kids[f.at][f.next-1]), 0})
			continue
		}
		if f.at < n {
			out = append(out, int32(f.at))
		}
		stack = stack[:len(stack)-1]
	}
	return out
}

// structures gives the later blocks that each block touches when it goes.
func structures(g graph, num, seq, parent []int32) [][]int32 {
	rows := make([][]int32, len(seq))
	kids := make([][]int32, len(seq))
	mark := make([]int32, len(seq))
	for k, p := range parent {
		if p != none {
			kids[p] = append(kids[p], int32(k))
		}
	}
	for k := range seq {
		mark[k] = int32(k) + 1
		longest := []int32(nil)
		for _, c := range kids[k] {
			if r := rows[c][1:]; len(r) > len(longest) {
				longest = r
			}
		}
		for _, r := range longest {
			mark[r] = int32(k) + 1
		}
		var more []int32
		add := func(r int32) {
			if r > int32(k) && mark[r] != int32(k)+1 {
				mark[r] = int32(k) + 1
				more = append(more, r)
			}
		}
		for _, c := range kids[k] {
			for _, r := range rows[c] {
				add(r)
			}
		}
		for _, u := range g[seq[k]] {
			add(num[u])
		}
		rows[k] = longest
		if len(more) > 0 {
			slices.Sort(more)
			rows[k] = merge(longest, more, none, none)
		}
	}
	return rows
}

const (
	// joinBlocks is the number of blocks up to which a front joins its parent
	// however much of it is then zero: small fronts cost more than their sums.
	joinBlocks = 4

	// joinZeros is the share of zeros a larger front may take on by joining.
	joinZeros = 0.15
)

// fronts gathers blocks into fronts: a block joins the next one when that is
// its parent and what they touch is the same, or nearly.
func fronts(parent []int32, rows [][]int32) []front {
	var out []front
	for k := range rows {
		f := front{first: k, count: 1, rows: rows[k], parent: none}
		for len(out) > 0 && f.absorbs(&out[len(out)-1], parent) {
			last := out[len(out)-1]
			f.first, f.count = last.first, last.count+f.count
			out = out[:len(out)-1]
		}
		out = append(out, f)
	}
	return out
}

// absorbs tells whether the front before, whose last block must be a child of
// this one's first, is better joined to it.
func (f *front) absorbs(before *front, parent []int32) bool {
	last := before.first + before.count - 1
	if last != f.first-1 || parent[last] != int32(f.first) {
		return false
	}
	side := before.count + f.count + len(f.rows)
	zeros := before.count * (f.count + len(f.rows) - len(before.rows))
	held := before.count*(before.count+2*len(before.rows)) + f.count*(f.count+2*len(f.rows))
	if zeros == 0 || before.count+f.count <= joinBlocks {
		return true
	}
	return side > 0 && float64(2*zeros) <= joinZeros*float64(held)
}

// link makes the tree of fronts.
func link(fs []front, blocks int) {
	of := make([]int, blocks)
	for i := range fs {
		for k := range fs[i].count {
			of[fs[i].first+k] = i
		}
	}
	for i := range fs {
		f := &fs[i]
		if len(f.rows) == 0 {
			continue
		}
		f.parent = of[f.rows[0]]
		up := &fs[f.parent]
		up.children = append(up.children, i)
		f.up = make([]int32, len(f.rows))
		for n, r := range f.rows {
			f.up[n] = up.place(r)
		}
	}
}
