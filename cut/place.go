package cut

import (
	"math"

	"bowerwright/unit"
)

// A trail is the cheapest way of laying the parts up to one, the last lying
// some way: nanometres rounded up as in the solver, then turns.
type trail struct {
	length int64
	turns  int
	before int // way of the part before
}

func (t trail) better(u trail) bool {
	return t.length < u.length || t.length == u.length && t.turns < u.turns
}

// place lays parts on a stretch in the order given, the ways of lying chosen for
// the least length and then for the fewest turns.
func (o *Order) place(parts []int, t stretch) Board {
	ways := o.ways()
	trails := make([][]trail, len(parts))
	for i, part := range parts {
		s := o.stick(o.Parts[part])
		trails[i] = make([]trail, len(ways))
		for w := range ways {
			left := o.end(ways[w].lying(s.ends)[0])
			trails[i][w] = trail{length: up(o.before(t, left))}
			if i > 0 {
				trails[i][w] = o.cheapest(trails[i-1], parts[i-1], left, w)
			}
			trails[i][w].length += up(s.centre)
		}
	}
	return o.measure(parts, o.chosen(trails, parts, t), t)
}

// cheapest extends the trails up to the part before by one to a left end.
func (o *Order) cheapest(trails []trail, before int, left end, w int) trail {
	ways := o.ways()
	ends := o.stick(o.Parts[before]).ends
	best := trail{length: math.MaxInt64}
	for v, t := range trails {
		t.length += up(gap(o.end(ways[v].lying(ends)[1]), left))
		t.before = v
		if ways[v] != ways[w] {
			t.turns++
		}
		if t.better(best) {
			best = t
		}
	}
	return best
}

// chosen gives the ways of the best trail, the end of the board charged.
func (o *Order) chosen(trails [][]trail, parts []int, on stretch) []way {
	ways, n := o.ways(), len(parts)
	s := o.stick(o.Parts[parts[n-1]])
	best, at := trail{length: math.MaxInt64}, 0
	for w, t := range trails[n-1] {
		right := o.end(ways[w].lying(s.ends)[1])
		tail := float64(on.trimFar)
		if !o.holds(s, on) {
			tail = max(tail, right.kerf+float64(o.Hold))
		}
		t.length += up(math.Abs(right.slope)/2 + tail)
		if t.better(best) {
			best, at = t, w
		}
	}
	out := make([]way, n)
	for i := n - 1; i >= 0; i-- {
		out[i] = ways[at]
		at = trails[i][at].before
	}
	return out
}

// measure works the places out, each part as near the first end as it may lie.
func (o *Order) measure(parts []int, lie []way, t stretch) Board {
	const mm = float64(unit.Millimetre)
	b := Board{Stock: t.stock, Stretch: t.number, From: t.from, Parts: make([]Placed, len(parts))}
	var last end
	at := 0.0
	for i, part := range parts {
		s := o.stick(o.Parts[part])
		leans := lie[i].lying(s.ends)
		left, right := o.end(leans[0]), o.end(leans[1])
		p := Placed{Part: part, Rolled: lie[i].rolled, Swapped: lie[i].swapped}
		if i == 0 {
			at = o.before(t, left)
			p.SharesCut = t.begun && math.Abs(o.end(t.lean).slope-left.slope) < 1
		} else {
			at += gap(last, left)
			p.SharesCut = math.Abs(last.slope-left.slope) < 1
			p.Turn = turn(lie[i-1], lie[i])
		}
		p.Start, p.LeftSlope, p.RightSlope = at/mm, left.slope/mm, right.slope/mm
		at += s.centre
		p.End = at / mm
		rest := t.length.MM() - (at+right.kerf+math.Abs(right.slope)/2)/mm
		p.Held = t.held(p, rest, s.short/mm, i == len(parts)-1)
		b.Parts[i], last = p, right
	}
	end := at + last.kerf + math.Abs(last.slope)/2
	b.Offcut = max(t.length-t.trimFar-unit.Length(up(end)), 0)
	return b
}

// turn gives what takes one way of lying to another.
func turn(from, to way) Turn {
	t := None
	if from.rolled != to.rolled {
		t += Roll
	}
	if from.swapped != to.swapped {
		t += SwapEnds
	}
	return t
}

// held says what is held at the cut that ends a part: the rest of the board,
// or at the last cut the part, if that is longer.
func (t stretch) held(p Placed, rest, short float64, last bool) Held {
	switch {
	case last && p.RightSlope == 0 && t.trimFar == 0 && float64(t.length)-p.End*float64(unit.Millimetre) < slip:
		return Held{NoCut, 0}
	case last && short > rest:
		return Held{ThePart, short}
	}
	return Held{TheBoard, rest}
}
