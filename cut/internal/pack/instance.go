// Package pack shares out counted kinds of parts over boards of one length:
// as few boards as possible, with a bound that whole numbers alone vouch for.
//
// It knows no timber. A kind has a length, and ways of lying on the board; a
// way enters by one state and leaves by another, and what lies between two
// neighbours depends on the state left and the state entered. Kinds always lie
// on a board in the order of the list, so the length a pattern takes is the
// cheapest walk through its kinds' ways in that order. All numbers are whole,
// in any one unit.
//
// The method is column generation (Gilmore and Gomory, Operations Research 9,
// 1961, and 11, 1963) in floating point, with every bound taken from whole
// multipliers and an exact search over patterns (Farley, Operations Research
// 38, 1990, for a board count: a weak multiplier weakens a bound and never
// falsifies it). Nothing is ever given up because a linear program called it
// infeasible. What the bound leaves open is settled, if the budget allows, by
// listing all patterns that a better plan could use and searching for a cover.
//
// The package promises the same answer for the same instance and budget.
package pack

import "math"

// A Way is one way a kind may lie: the state at its first end and at its last.
type Way struct{ In, Out int }

// A Kind is a length wanted Need times.
type Kind struct {
	Length int64
	Ways   []Way
	Need   int
}

// An Instance is one board length and what is to be had from it.
type Instance struct {
	Room int64 // length of a board
	// Gap[out][in] is the length between neighbours. The last row stands for
	// the start of the board.
	Gap [][]int64
	// End[out] is the length that must be left behind a last part that leaves
	// by out.
	End   []int64
	Kinds []Kind // in the order in which they lie on a board
}

// An Item is N parts of one kind.
type Item struct{ Kind, N int }

// A Pattern is the parts of one board, kinds ascending, every N above 0.
type Pattern []Item

// A Use is a pattern cut on Boards boards.
type Use struct {
	Pattern Pattern
	Boards  int
}

// never is a length that no board reaches, small enough to add up.
const never = math.MaxInt64 / 4

// start gives the state before the first part.
func (in *Instance) start() int { return len(in.Gap) - 1 }

// empty gives the least lengths of a board with nothing on it, by state left.
func (in *Instance) empty() []int64 {
	at := make([]int64, len(in.Gap))
	for s := range at {
		at[s] = never
	}
	at[in.start()] = 0
	return at
}

// add puts one more part of kind k behind what is there: at holds the least
// length by state left, next receives it.
func (in *Instance) add(at, next []int64, k int) {
	for s := range next {
		next[s] = never
	}
	kind := &in.Kinds[k]
	for s, l := range at {
		if l >= never {
			continue
		}
		for _, w := range kind.Ways {
			if n := l + in.Gap[s][w.In] + kind.Length; n < next[w.Out] {
				next[w.Out] = n
			}
		}
	}
}

// used gives the least length of at with its end charged.
func (in *Instance) used(at []int64) int64 {
	least := int64(never)
	for s := range in.End {
		if at[s] < never {
			least = min(least, at[s]+in.End[s])
		}
	}
	if at[in.start()] == 0 {
		least = 0
	}
	return least
}

// Used gives the length that a pattern takes of a board, ends included.
func (in *Instance) Used(p Pattern) int64 {
	at, next := in.empty(), make([]int64, len(in.Gap))
	for _, it := range p {
		for range it.N {
			in.add(at, next, it.Kind)
			at, next = next, at
		}
	}
	return in.used(at)
}

// Fits says whether a pattern goes on one board.
func (in *Instance) Fits(p Pattern) bool { return in.Used(p) <= in.Room }

// needs copies the counts wanted.
func (in *Instance) needs() []int {
	d := make([]int, len(in.Kinds))
	for i, k := range in.Kinds {
		d[i] = k.Need
	}
	return d
}

// restrict gives the instance of the kinds still needed, and the kind that
// each of its kinds was.
func (in *Instance) restrict(need []int) (*Instance, []int) {
	sub := &Instance{Room: in.Room, Gap: in.Gap, End: in.End}
	var was []int
	for i, n := range need {
		if n > 0 {
			k := in.Kinds[i]
			k.Need = n
			sub.Kinds = append(sub.Kinds, k)
			was = append(was, i)
		}
	}
	return sub, was
}

// A relaxed instance forgets the states: every part of kind k takes at least
// width[k], whatever lies beside it.
type relaxed struct {
	width []int64 // by kind
	out   []int64 // by state left: least length behind it that belongs to it
	room  int64   // of a board, what the widths must share after out is paid
}

// relax halves each gap between its neighbours: a gap is at least half the
// least gap its left state can have and half the least its right can.
func (in *Instance) relax() relaxed {
	ins, outs := in.reachable()
	halfIn, halfOut := make([]int64, len(in.Gap)), make([]int64, len(in.Gap))
	for t := range ins {
		least := int64(never)
		for s := range outs {
			if outs[s] {
				least = min(least, in.Gap[s][t])
			}
		}
		halfIn[t] = least / 2
	}
	for s := range outs {
		least := int64(never)
		for t := range ins {
			if ins[t] {
				least = min(least, in.Gap[s][t])
			}
		}
		halfOut[s] = least / 2
	}
	first := int64(never)
	for t := range ins {
		if ins[t] {
			first = min(first, in.Gap[in.start()][t]-halfIn[t])
		}
	}
	halfOut[in.start()] = first
	r := relaxed{width: make([]int64, len(in.Kinds)), out: halfOut, room: in.Room}
	tail := int64(never)
	for s := range outs {
		if outs[s] {
			tail = min(tail, in.End[s]-halfOut[s])
		}
	}
	r.room -= tail
	for k, kind := range in.Kinds {
		r.width[k] = never
		for _, w := range kind.Ways {
			r.width[k] = min(r.width[k], kind.Length+halfIn[w.In]+halfOut[w.Out])
		}
	}
	return r
}

// reachable says which states some kind enters and leaves by.
func (in *Instance) reachable() (ins, outs []bool) {
	ins, outs = make([]bool, len(in.Gap[0])), make([]bool, len(in.End))
	for _, k := range in.Kinds {
		for _, w := range k.Ways {
			ins[w.In], outs[w.Out] = true, true
		}
	}
	return ins, outs
}
