package pack

import (
	"cmp"
	"context"
	"slices"
)

// Confirm gives the bound that the multipliers of a proof have on another
// instance of the same kinds, within a budget of work. What it cannot confirm
// it takes back.
func Confirm(ctx context.Context, in *Instance, p Proof, work int64) Proof {
	pr := newPricer(ctx, in)
	pr.limit = work
	total := worth(p.Value, in.needs())
	f := pr.search(p.Value, p.Most, 0)
	if !f.sure {
		return lengths(in)
	}
	q := Proof{Value: p.Value, Most: f.value, Bound: bound(total, f.value)}
	if !p.Cover {
		return q
	}
	s := &solver{ctx: ctx, in: in, need: in.needs(), limit: work, boards: p.Bound}
	if plan, sure := s.cover(q.Value, q.Most, p.Bound-1); plan == nil && sure {
		q.Bound, q.Cover = p.Bound, true
	}
	return q
}

// lengths is the proof by lengths alone: no board holds more than its own.
func lengths(in *Instance) Proof {
	p := Proof{Value: make([]int64, len(in.Kinds)), Most: in.Room}
	for k, kind := range in.Kinds {
		p.Value[k] = kind.Length
	}
	p.Bound = bound(worth(p.Value, in.needs()), p.Most)
	return p
}

// Gather moves parts off the board to be bought that has most left, or swaps
// them for shorter ones, as long as that lessens what it takes: it gathers the
// waste into one offcut. The boards stay as they are otherwise.
func Gather(supplies []Supply, plan []Cut) []Cut {
	g := gatherer{}
	rel := make([]relaxed, len(supplies))
	for k, u := range supplies {
		rel[k] = u.Plan.relax()
	}
	for _, c := range plan {
		for range c.Boards {
			g.boards = append(g.boards, gathered{supplies[c.Supply].Plan, &rel[c.Supply], c.Supply, c.Pattern})
		}
	}
	if len(g.boards) < 2 || len(g.boards) > mostGathered {
		return plan
	}
	slices.SortStableFunc(g.boards, func(a, b gathered) int { return cmp.Compare(b.left(), a.left()) })
	first := slices.IndexFunc(g.boards, func(b gathered) bool { return supplies[b.supply].Weight > 0 })
	if first < 0 {
		return plan
	}
	b := g.boards[first]
	g.boards = append([]gathered{b}, slices.Delete(g.boards, first, first+1)...)
	for g.once() {
	}
	out := make([]Cut, len(g.boards))
	for i, b := range g.boards {
		out[i] = Cut{b.supply, b.pattern, 1}
	}
	return out
}

// mostGathered is the number of boards up to which Gather is worth its time.
const mostGathered = 400

// A gathered is one board.
type gathered struct {
	in      *Instance
	rel     *relaxed
	supply  int
	pattern Pattern
}

func (b gathered) left() int64 { return b.in.Room - b.in.Used(b.pattern) }

// takes says whether a part of kind k might go on the board in place of one of
// another kind, or of none when that is negative: by widths alone, which is
// quick.
func (b gathered) takes(k, off int) bool {
	room := b.rel.room - b.rel.out[b.in.start()] - b.rel.width[k]
	if off >= 0 {
		room += b.rel.width[off]
	}
	for _, it := range b.pattern {
		room -= b.rel.width[it.Kind] * int64(it.N)
	}
	return room >= 0
}

// A gatherer empties boards[0].
type gatherer struct{ boards []gathered }

// once makes the first move or swap that helps.
func (g *gatherer) once() bool {
	first := g.boards[0]
	used := first.in.Used(first.pattern)
	for _, it := range slices.Backward(first.pattern) {
		less := first.pattern.with(it.Kind, -1)
		if len(less) == 0 {
			continue
		}
		for i, b := range g.boards[1:] {
			if b.takes(it.Kind, -1) {
				if more := b.pattern.with(it.Kind, 1); b.in.Fits(more) && first.in.Used(less) < used {
					g.boards[0].pattern, g.boards[i+1].pattern = less, more
					return true
				}
			}
			if g.swap(i+1, it.Kind, less, used) {
				return true
			}
		}
	}
	return false
}

// swap gives a part of kind k to board i for a shorter one.
func (g *gatherer) swap(i, k int, less Pattern, used int64) bool {
	in, other := g.boards[0].in, g.boards[i].in
	for _, it := range g.boards[i].pattern {
		if in.Kinds[it.Kind].Length >= in.Kinds[k].Length || !g.boards[i].takes(k, it.Kind) {
			continue
		}
		there, here := g.boards[i].pattern.with(it.Kind, -1).with(k, 1), less.with(it.Kind, 1)
		if in.Used(here) < used && in.Fits(here) && other.Fits(there) {
			g.boards[0].pattern, g.boards[i].pattern = here, there
			return true
		}
	}
	return false
}

// with gives the pattern with n more parts of kind k.
func (p Pattern) with(k, n int) Pattern {
	out := make(Pattern, 0, len(p)+1)
	done := false
	for _, it := range p {
		if !done && it.Kind >= k {
			done = true
			if it.Kind == k {
				if it.N += n; it.N == 0 {
					continue
				}
			} else {
				out = append(out, Item{k, n})
			}
		}
		out = append(out, it)
	}
	if !done {
		out = append(out, Item{k, n})
	}
	return out
}
