package job

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"

	"bowerwright/cut"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A cutter cuts stacks, and writes what comes of it.
type cutter struct{ w scribe }

// The names of the ways to cut a timber, as on paper.
const (
	wayAsIs      = "fewest boards"
	wayBySetting = "by saw setting"
	wayChanges   = "fewest changes"
	wayUnturned  = "without turning"
)

// A way is one way to cut a stack, looked over by the checker.
type way struct {
	name      string
	sameAs    string // an earlier way that it comes to
	closed    string // why it is not open
	order     cut.Order
	plan      cut.Plan
	session   cut.Session
	rough     []bool // by stick: sawn square to a rough length first
	rechecked cut.Rechecked
}

// cut plans the boards of a stack. With snags that stop it the facts are empty.
// The error is the context's, or a fault of the program: a plan that breaks its
// own rules is never shown.
func (c cutter) cut(ctx context.Context, s stack) (TimberFacts, snag.List, error) {
	o := s.order()
	choices, err := cut.Choose(ctx, o, cut.Settings{})
	if snags, ok := c.refused(s, err); ok {
		return TimberFacts{}, snags, nil
	}
	if err != nil {
		return TimberFacts{}, nil, err
	}
	ways := waysOf(choices)
	unturned, err := c.unturned(ctx, s, o)
	if err != nil {
		return TimberFacts{}, nil, err
	}
	for _, w := range append(slices.Clone(ways), unturned) {
		if w == nil {
			continue
		}
		if w.plan.CutShort {
			return TimberFacts{}, nil, context.Cause(ctx)
		}
		tidy(w.plan.Boards)
		if err := w.check(); err != nil {
			return TimberFacts{}, nil, fmt.Errorf("the cutting plan of %s, %s, breaks its own rules: %w", s.facts.Name, w.name, err)
		}
	}
	return c.facts(s, ways, unturned), nil, nil
}

// order is what the solver is asked. Parts beyond the saw are planned as their
// rough lengths, square at both ends. Angles go through degrees, which is how
// they are written, so that what is read back is what was asked.
func (s stack) order() cut.Order {
	o := cut.Order{Stocks: s.stocks, Keep: s.keep, Depth: s.depth, Kerf: s.kerf, Hold: s.hold, Turning: s.facts.Turning}
	for _, q := range s.sticks {
		part := cut.Part{Name: q.mark, Outside: q.outside, Left: asWritten(q.left), Right: asWritten(q.right), Count: q.saw()}
		if q.rough > 0 {
			part.Outside, part.Left, part.Right = q.rough, 0, 0
		}
		o.Parts = append(o.Parts, part)
	}
	return o
}

func asWritten(a unit.Angle) unit.Angle { return unit.FromDegrees(degrees(a)) }

// degrees writes an angle to the ten-thousand-millionth of a degree: free of the
// dust of radians, and over any board far below a nanometre.
func degrees(a unit.Angle) float64 { return math.Round(a.Degrees()*1e10)/1e10 + 0 }

// waysOf lists the choices, those that come to an earlier one by its name.
func waysOf(c cut.Choices) []*way {
	list := []struct {
		name string
		cut.Choice
		err error
	}{{wayAsIs, c.AsIs, nil}, {wayBySetting, c.BySetting, c.BySettingErr}, {wayChanges, c.FewestChanges, nil}}
	var out []*way
	for _, l := range list {
		w := &way{name: l.name, order: l.Order, plan: l.Plan, session: l.Session, rough: l.Rough}
		if l.err != nil {
			w.closed = closedSays(l.err)
		}
		for _, v := range out {
			if w.closed == "" && v.closed == "" && v.sameAs == "" && w.same(v) {
				w.sameAs = v.name
				break
			}
		}
		out = append(out, w)
	}
	return out
}

// same says whether two ways saw the same boards in the same order.
func (w *way) same(v *way) bool {
	return reflect.DeepEqual(w.plan.Boards, v.plan.Boards) && slices.Equal(w.rough, v.rough) && reflect.DeepEqual(w.session, v.session)
}

func closedSays(err error) string {
	var short *cut.Short
	if errors.As(err, &short) {
		return "there are not boards enough for it"
	}
	return "no board gives the parts so"
}

// unturned is the way without turning boards: what turning saves. It is nil
// where boards are not turned, or no end is slanted.
func (c cutter) unturned(ctx context.Context, s stack, o cut.Order) (*way, error) {
	slanted := slices.ContainsFunc(o.Parts, func(p cut.Part) bool { return p.Left != 0 || p.Right != 0 })
	if !o.Turning || !slanted {
		return nil, nil
	}
	o.Turning = false
	w := &way{name: wayUnturned, order: o, rough: make([]bool, len(o.Parts))}
	var err error
	w.plan, err = cut.Solve(ctx, o, cut.Beside())
	var impossible *cut.Impossible
	var short *cut.Short
	if errors.As(err, &impossible) || errors.As(err, &short) {
		w.closed = closedSays(err)
		return w, nil
	}
	w.session = o.Session(w.plan)
	return w, err
}

// check has the checker, which shares nothing with the solver, look a way over.
func (w *way) check() error {
	if w == nil || w.closed != "" || w.sameAs != "" {
		return nil
	}
	faults, rechecked := cut.Check(w.order, w.plan)
	w.rechecked = rechecked
	if len(faults) > 0 {
		return fmt.Errorf("%v", faults)
	}
	return nil
}

// refused turns what the solver cannot do into snags.
func (c cutter) refused(s stack, err error) (snag.List, bool) {
	var impossible *cut.Impossible
	if errors.As(err, &impossible) {
		return c.uncuttable(s, impossible), true
	}
	var short *cut.Short
	if !errors.As(err, &short) {
		return nil, false
	}
	problem := "the boards of " + s.facts.Name + " cannot hold all parts"
	if !short.Proved {
		problem = "no way was found to get all parts out of the boards of " + s.facts.Name
	}
	return snag.List{snagShort.At(snag.Place{Path: "timber." + s.facts.Name}, s.facts.Name, problem,
		"name a length to buy, or raise how many are to be had (at most), or make fewer parts")}, true
}

// uncuttable says which parts no board gives, and why.
func (c cutter) uncuttable(s stack, e *cut.Impossible) (out snag.List) {
	for _, t := range e.Parts {
		q := s.sticks[t.Part]
		has, needs := c.w.text(c.w.cut(t.Has.MM())), c.w.text(c.w.cut(t.Needs.MM()))
		problem, remedy := "", ""
		smaller, larger := "frame smaller", "frame larger"
		if q.kind == "" {
			smaller, larger = "part shorter", "part longer"
		}
		switch t.Why {
		case cut.TooLong:
			problem = fmt.Sprintf("part %s takes %s of a board, and %s boards have %s to give", q.mark, has, s.facts.Name, needs)
			remedy = "buy longer boards, or make the " + smaller
		case cut.NothingToHold:
			problem = fmt.Sprintf("at the cut that frees part %s only %s is left to hold, and the hold length is %s", q.mark, has, needs)
			remedy = "buy longer boards, or use a hold-down clamp and say so: saw: clamp: yes"
		default:
			problem = fmt.Sprintf("the ends of part %s meet before its shorter face", q.mark)
			remedy = "make the " + larger + " or the boards thinner"
		}
		out.Add(snagUncuttable.At(snag.Place{Path: q.path}, q.mark, problem, remedy))
	}
	return out
}
