package cut

import (
	"cmp"
	"context"
	"math"
	"reflect"
	"slices"

	"bowerwright/cut/internal/pack"
	"bowerwright/unit"
)

// Solve makes a plan. The error is an *Impossible when parts can never be cut,
// and says what is wrong with the order when it is none. A cancelled context
// gives the best plan so far, marked CutShort; a spent budget gives the best
// plan and bound.
func Solve(ctx context.Context, o Order, s Settings) (Plan, error) {
	if err := o.valid(); err != nil {
		return Plan{}, err
	}
	if e := o.impossible(); e != nil {
		return Plan{}, e
	}
	work := s.Work
	if work <= 0 {
		work = DefaultWork
	}
	ks := o.kinds()
	if len(ks) == 0 {
		return Plan{Proved: true, Proof: Proof{Kind: Multipliers, V: make([]int64, len(o.Parts))}}, nil
	}
	d := o.desk(ks)
	in, low := d.instance(up), d.instance(down)
	r := pack.Solve(ctx, in, work)
	proof := r.Proof
	if !reflect.DeepEqual(in, low) {
		proof = pack.Confirm(ctx, low, r.Proof, work)
	}
	p := Plan{CutShort: r.CutShort, Work: r.Work, AreaBound: o.areaBound(ks)}
	p.Boards = o.layOut(ks, pack.Gather(in, r.Plan))
	p.Proof = o.proof(ks, proof)
	p.Bound = p.Proof.Bound
	p.Proved = p.Bound == len(p.Boards)
	return p, nil
}

// impossible lists the parts that cannot be cut even alone on a board. A part
// that fits beside others fits alone, since whatever the others leave to hold
// is then left of the board.
func (o *Order) impossible() error {
	e := &Impossible{}
	for i, p := range o.Parts {
		if t := o.trouble(p); t.Why != 0 {
			t.Part, t.Name = i, p.Name
			e.Parts = append(e.Parts, t)
		}
	}
	if len(e.Parts) == 0 {
		return nil
	}
	return e
}

// trouble says why a part cannot be cut, if it cannot.
func (o *Order) trouble(p Part) Trouble {
	if p.Count == 0 {
		return Trouble{}
	}
	s := o.stick(p)
	if s.short <= whole {
		return Trouble{Why: NoFace, Has: unit.Length(down(s.short))}
	}
	rest := math.Inf(-1)
	takes := math.Inf(1)
	for _, w := range o.ways() {
		l := w.lying(s.ends)
		left, right := o.end(l[0]), o.end(l[1])
		at := float64(o.TrimFirst) + (math.Abs(left.slope)+math.Abs(right.slope))/2 + s.centre
		takes = min(takes, at+float64(o.TrimFar))
		rest = max(rest, float64(o.Board)-at-right.kerf)
	}
	switch {
	case up(takes) > int64(o.Board)+slip:
		return Trouble{Why: TooLong, Has: unit.Length(up(takes)), Needs: o.Board}
	case !o.holds(s) && down(rest) < int64(o.Hold)-slip:
		return Trouble{Why: NothingToHold, Has: unit.Length(down(max(rest, s.short))), Needs: o.Hold}
	}
	return Trouble{}
}

// areaBound gives the boards that the parts fill by length alone.
func (o *Order) areaBound(ks []kind) int {
	total := int64(0)
	for _, k := range ks {
		total += down(k.centre) * int64(k.count)
	}
	room := int64(o.Board - o.TrimFirst - o.TrimFar)
	return int((total + room - 1) / room)
}

// proof gives a proof about kinds as one about parts.
func (o *Order) proof(ks []kind, p pack.Proof) Proof {
	out := Proof{Kind: Multipliers, V: make([]int64, len(o.Parts)), Z: p.Most, Bound: p.Bound}
	if p.Cover {
		out.Kind = Cover
	}
	for i, k := range ks {
		for _, part := range k.parts {
			out.V[part] = p.Value[i]
		}
	}
	return out
}

// layOut places every board, the fullest first, boards alike together.
func (o *Order) layOut(ks []kind, plan []pack.Use) []Board {
	left := make([]int, len(o.Parts))
	for i, p := range o.Parts {
		left[i] = p.Count
	}
	var out []Board
	for _, u := range plan {
		for range u.Boards {
			out = append(out, o.place(deal(ks, u.Pattern, left)))
		}
	}
	slices.SortStableFunc(out, func(a, b Board) int {
		return cmp.Or(cmp.Compare(a.Offcut, b.Offcut), slices.Compare(names(a), names(b)))
	})
	count := map[string]int{}
	for _, b := range out {
		count[string(signature(b))]++
	}
	for i, b := range out {
		out[i].Alike = count[string(signature(b))]
	}
	return out
}

// deal takes the parts of a pattern from those left, in bench order.
func deal(ks []kind, p pack.Pattern, left []int) []int {
	var parts []int
	for _, it := range p {
		n := it.N
		for _, part := range ks[it.Kind].parts {
			for ; n > 0 && left[part] > 0; n-- {
				left[part]--
				parts = append(parts, part)
			}
		}
	}
	return parts
}

// names gives the parts of a board in order.
func names(b Board) []int {
	out := make([]int, len(b.Parts))
	for i, p := range b.Parts {
		out[i] = p.Part
	}
	return out
}

// signature gives the parts of a board as bytes.
func signature(b Board) []byte {
	var out []byte
	for _, n := range names(b) {
		out = append(out, byte(n), byte(n>>8), byte(n>>16))
	}
	return out
}
