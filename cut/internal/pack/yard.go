package pack

import (
	"context"
	"slices"
)

// A Supply is one length of board: what goes on it, what a board of it weighs
// in the choice, and how many there are.
type Supply struct {
	Plan   *Instance // lengths rounded up, for a plan
	Bound  *Instance // and down, for a bound; may be the same
	Weight int64     // nothing is lost by using a board of weight 0
	Limit  int
}

// A Cut is a pattern cut on Boards boards of one supply.
type Cut struct {
	Supply  int
	Pattern Pattern
	Boards  int
}

// A Ruling rules out counts of boards, one count a supply. Value gives each
// kind a worth; no board of supply k holds more than Most[k]. Boards that hold
// less together than all parts are worth are ruled out. A ruling with Counts
// rules out those and any fewer: they might be worth as much as all parts, but
// their patterns can then lose no more than the difference, and the patterns
// that lose so little cover the parts in no way.
type Ruling struct {
	Value, Most []int64
	Counts      []int
}

// A Sharing is the best plan found over several lengths, and the best bound.
type Sharing struct {
	Plan     []Cut
	Weight   int64
	Bound    int64 // least weight that Rulings leave
	Rulings  []Ruling
	None     bool // no plan was found
	Short    bool // and there is none, with as many boards as there are
	CutShort bool
	Work     int64
}

// A sharer holds one search over several lengths. It asks for the least weight
// of boards that no ruling forbids, then tries to cut the parts from just
// those: which gives a plan, and then it is a best one; or a new ruling
// (Benders, Numerische Mathematik 4, 1962: cuts from the dual of what is left
// when some variables are fixed; here they are the counts of boards).
type sharer struct {
	ctx      context.Context
	supplies []Supply
	need     []int
	pool     []Cut // patterns met, Boards 0
	have     map[string]bool
	rulings  []Ruling
	skipped  [][]int // counts neither cut nor ruled out
	plan     []Cut
	weight   int64
	bound    int64
	found    bool
	work     int64
	limit    int64
}

// Share shares the kinds out over the boards of several supplies, at the least
// weight it can within a budget of counted work. Every kind must fit a board
// of some supply alone. The supplies' instances differ in Room, End and the
// first row of Gap only.
func Share(ctx context.Context, supplies []Supply, work int64) Sharing {
	s := newSharer(ctx, supplies, work)
	s.offer(s.greedy(s.need, s.limits()))
	s.root()
	s.bound = s.floor()
	short := s.search()
	return Sharing{Plan: s.plan, Weight: s.weight, Bound: s.bound, Rulings: s.rulings, None: !s.found, Short: short,
		CutShort: ctx.Err() != nil, Work: s.work}
}

func newSharer(ctx context.Context, supplies []Supply, work int64) *sharer {
	return &sharer{ctx: ctx, supplies: supplies, need: supplies[0].Plan.needs(), have: map[string]bool{}, limit: work}
}

// mostSkipped is how many counts are left undecided before the search ends:
// each has cost all dives.
const mostSkipped = 12

// search raises the bound until a plan meets it. It says whether it has shown
// that there is no plan.
func (s *sharer) search() (short bool) {
	for !s.spent() && len(s.skipped) < mostSkipped {
		counts, weight, sure := s.least(s.target())
		if !sure {
			if counts != nil { // better than what is had, if not known to be best
				s.settle(counts)
			}
			return false
		}
		if counts == nil {
			if len(s.skipped) == 0 {
				s.bound = s.target()
			}
			return !s.found && len(s.skipped) == 0
		}
		if len(s.skipped) == 0 {
			s.bound = max(s.bound, weight)
		}
		s.settle(counts)
	}
	return false
}

// settle cuts the parts from boards of some counts, or rules them out, or
// skips them.
func (s *sharer) settle(counts []int) {
	plan, ruling := s.try(counts)
	switch {
	case plan != nil:
		s.offer(plan)
	case ruling != nil:
		s.rulings = append(s.rulings, *ruling)
	default:
		s.skipped = append(s.skipped, counts)
	}
}

// try looks for a plan from boards of some counts, and for a ruling against
// them.
func (s *sharer) try(counts []int) ([]Cut, *Ruling) {
	if plan := s.greedy(s.need, counts); plan != nil {
		return plan, nil
	}
	if r := s.relaxed(counts); r != nil {
		return nil, r
	}
	for _, d := range dives {
		if s.spent() {
			return nil, nil
		}
		if plan := s.dive(counts, d); plan != nil {
			return plan, nil
		}
	}
	return s.cover(counts)
}

// target is the weight that a better plan stays under.
func (s *sharer) target() int64 {
	if s.found {
		return s.weight
	}
	return never
}

func (s *sharer) spent() bool { return s.work >= s.limit || s.ctx.Err() != nil }

// limits gives the boards there are, by supply.
func (s *sharer) limits() []int {
	out := make([]int, len(s.supplies))
	for k, u := range s.supplies {
		out[k] = u.Limit
	}
	return out
}

// offer takes a plan if it is better than the one there is.
func (s *sharer) offer(plan []Cut) {
	if plan == nil {
		return
	}
	w := int64(0)
	for _, c := range plan {
		w += s.supplies[c.Supply].Weight * int64(c.Boards)
	}
	if !s.found || w < s.weight {
		s.plan, s.weight, s.found = plan, w, true
	}
}

// keep adds a pattern to the pool, once.
func (s *sharer) keep(supply int, p Pattern) {
	key := string(rune(supply)) + p.key()
	if !s.have[key] {
		s.have[key] = true
		s.pool = append(s.pool, Cut{Supply: supply, Pattern: p})
	}
}

// greedy fills board after board, of the supply that weighs least for the
// length of the parts on it, the longest part that still fits first. It gives
// nil when the boards do not do.
func (s *sharer) greedy(need, boards []int) []Cut {
	need, boards = slices.Clone(need), slices.Clone(boards)
	plan := []Cut{}
	for sum(need) > 0 {
		best, rate := Cut{}, 0.0
		for k, u := range s.supplies {
			if boards[k] == 0 {
				continue
			}
			p, times := s.fill(k, need)
			length := u.Plan.lengthOf(p)
			s.work += int64(len(need))
			// A light board that holds more is better, and one of no weight
			// better than any other.
			if r := (float64(u.Weight) + 1e-6) / float64(length); len(p) > 0 && (len(best.Pattern) == 0 || r < rate) {
				best, rate = Cut{k, p, min(times, boards[k])}, r
			}
		}
		if len(best.Pattern) == 0 {
			return nil
		}
		boards[best.Supply] -= best.Boards
		best.Pattern.from(need, best.Boards)
		plan = append(plan, best)
	}
	return plan
}

// fill fills a board of supply k with parts needed, and says how often it can
// be cut.
func (s *sharer) fill(k int, need []int) (Pattern, int) {
	in := s.supplies[k].Plan
	return trim(newFiller(in).fill(in.longestFirst(), need), need)
}

// from takes a pattern's parts off the counts so many times.
func (p Pattern) from(need []int, times int) {
	for _, it := range p {
		need[it.Kind] -= it.N * times
	}
}

// lengthOf gives the length of the parts of a pattern.
func (in *Instance) lengthOf(p Pattern) int64 {
	l := int64(0)
	for _, it := range p {
		l += in.Kinds[it.Kind].Length * int64(it.N)
	}
	return l
}

func sum(counts []int) int {
	n := 0
	for _, c := range counts {
		n += c
	}
	return n
}
