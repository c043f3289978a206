package job

import (
	"errors"
	"fmt"
	"slices"

	"bowerwright/cut"
	"bowerwright/unit"
)

// stackOf makes the stack again that the facts of a timber were written from.
func stackOf(f TimberFacts) (stack, error) {
	s := stack{
		facts: TimberFacts{
			Name: f.Name, Size: f.Size, Thickness: f.Thickness, Width: f.Width, Species: f.Species, Moisture: f.Moisture, Density: f.Density,
			Depth: f.Depth, Laid: f.Laid, Turning: f.Order.Turning, Kerf: f.Kerf, TrimFirst: f.TrimFirst, TrimFar: f.TrimFar,
			Hold: f.Hold, Clamp: f.Clamp, Keep: f.Keep, Margin: f.Margin, Currency: f.Currency,
		},
		currency: f.Currency, depth: f.Order.Depth, kerf: f.Order.Kerf, hold: f.Order.Hold, keep: f.Order.Keep, changes: f.Cutting == FewestChanges, bench: f.Bench,
	}
	if len(f.Parts) != len(f.Order.Parts) || len(f.Parts) == 0 {
		return s, fmt.Errorf("%d parts are wanted, the order has %d", len(f.Parts), len(f.Order.Parts))
	}
	for i, x := range f.Order.Parts {
		q := f.Parts[i]
		s.sticks = append(s.sticks, stick{mark: x.Mark, kind: q.Kind, what: q.What, outside: x.Outside, left: unit.FromDegrees(x.First), right: unit.FromDegrees(x.Second),
			rough: x.Rough, way: q.Way, fitted: q.Fitted, need: q.Need, spare: q.Spare, reject: q.Reject,
			sawn: q.Sawn, spoilt: q.Spoilt})
		if s.sticks[i].saw() != x.Count {
			return s, fmt.Errorf("%d of %s are sawn, the order has %d", s.sticks[i].saw(), x.Mark, x.Count)
		}
	}
	for _, x := range f.Order.Stocks {
		t := cut.Stock{Name: x.Name, Length: x.Length, TrimFirst: x.TrimFirst, TrimFar: x.TrimFar, Price: x.Price, Limit: x.Limit, OnHand: x.OnHand, Margin: x.Margin,
			Begun: x.Begun, Lean: unit.FromDegrees(x.Lean)}
		for _, p := range x.Spans {
			t.Spans = append(t.Spans, cut.Span{From: p[0], To: p[1]})
		}
		s.stocks = append(s.stocks, t)
	}
	return s, nil
}

// waysRead makes the ways again that the facts were written from, unlooked over.
func waysRead(s stack, f TimberFacts) (ways []*way, unturned *way, err error) {
	for _, x := range f.Ways {
		w, err := wayRead(s, f, x, ways)
		if err != nil {
			return nil, nil, err
		}
		ways = append(ways, w)
	}
	if len(ways) == 0 || ways[0].closed != "" {
		return nil, nil, errors.New("no way to cut it is told")
	}
	if f.Unturned != nil {
		unturned, err = wayRead(s, f, *f.Unturned, nil)
	}
	return ways, unturned, err
}

func wayRead(s stack, f TimberFacts, x WayFacts, before []*way) (*way, error) {
	w := &way{name: x.Name, closed: x.Closed}
	plan := x.Plan
	switch {
	case x.Closed != "":
		return w, nil
	case x.SameAs != "":
		at := slices.IndexFunc(before, func(v *way) bool { return v.name == x.SameAs && v.sameAs == "" && v.closed == "" })
		if at < 0 {
			return nil, fmt.Errorf("%s is the same as %q, which is not there", x.Name, x.SameAs)
		}
		same := *before[at]
		same.name, same.sameAs = x.Name, x.SameAs
		return &same, nil
	case x.Chosen:
		plan = &f.Plan
	case plan == nil:
		return nil, fmt.Errorf("%s has no plan", x.Name)
	}
	return w, w.read(s, *plan)
}

// read makes order, plan and session of a way again.
func (w *way) read(s stack, x ExactPlan) error {
	base := s.order()
	w.order, w.rough = s.order(), make([]bool, len(s.sticks))
	w.order.BySetting = x.BySetting
	if x.Unturned {
		w.order.Turning = false
	}
	if x.Rough != nil && len(x.Rough) != len(s.sticks) {
		return fmt.Errorf("%d rough lengths of %d parts", len(x.Rough), len(s.sticks))
	}
	for i, l := range x.Rough {
		if l == 0 {
			continue
		}
		if reach := s.tips(s.sticks[i]); l.MM() < reach {
			return fmt.Errorf("part %s is first sawn to %.3f mm and reaches %.3f mm", s.sticks[i].mark, l.MM(), reach)
		}
		w.rough[i] = true
		w.order.Parts[i] = cut.Part{Name: s.sticks[i].mark, Outside: l, Count: s.sticks[i].saw()}
	}
	w.plan = cut.Plan{Cost: levelRead(x.Cost), Bought: levelRead(x.Bought), Offcut: levelRead(x.Offcut), AreaBound: x.ByLength}
	if err := w.readBoards(s, x.Boards); err != nil {
		return err
	}
	if faults, err := w.look(); len(faults) > 0 || err != nil {
		return errors.Join(err, faultError(faults))
	}
	if x.Rough != nil {
		w.session = w.order.RoughSession(w.plan, base, w.rough)
	} else {
		w.session = w.order.Session(w.plan)
	}
	return nil
}

// look has the checker look a plan over that was read.
func (w *way) look() (faults []cut.Fault, err error) {
	defer func() {
		if r := recover(); r != nil { // no plan at all: the checker trips over it
			err = fmt.Errorf("the plan makes no sense: %v", r)
		}
	}()
	faults, w.rechecked = cut.Check(w.order, w.plan)
	return faults, nil
}

func faultError(faults []cut.Fault) error {
	var out []error
	for _, f := range faults {
		out = append(out, errors.New(f.String()))
	}
	return errors.Join(out...)
}

// mostRead is how many boards alike a plan that is read may tell of: more than
// there are parts in an order.
const mostRead = cut.MostParts

// readBoards makes the boards of a plan again.
func (w *way) readBoards(s stack, boards []ExactBoard) error {
	alike := map[string]int{}
	for _, x := range boards {
		if x.Stock < 0 || x.Stock >= len(s.stocks) || x.Times < 1 || len(w.plan.Boards)+x.Times > mostRead {
			return fmt.Errorf("%d boards of stock %d, which is none", x.Times, x.Stock)
		}
		b := cut.Board{Stock: x.Stock, Stretch: x.Stretch, From: x.From, Offcut: x.Offcut}
		for _, q := range x.Parts {
			if q.Part < 0 || q.Part >= len(s.sticks) {
				return fmt.Errorf("part %d is none of %d", q.Part, len(s.sticks))
			}
			b.Parts = append(b.Parts, cut.Placed{Part: q.Part, Rolled: q.Rolled, Swapped: q.Swapped, Start: q.Start, End: q.End,
				LeftSlope: q.Left, RightSlope: q.Right, SharesCut: q.Shares, Turn: cut.Turn(q.Turn), Held: cut.Held{What: cut.Hold(q.Held), Short: q.HeldShort}})
		}
		alike[partsOf(b)] += x.Times
		for range x.Times {
			w.plan.Boards = append(w.plan.Boards, b)
		}
	}
	for i, b := range w.plan.Boards {
		w.plan.Boards[i].Alike = alike[partsOf(b)]
	}
	return nil
}

// partsOf tells a board's stock and parts.
func partsOf(b cut.Board) string {
	out := fmt.Sprint(b.Stock)
	for _, q := range b.Parts {
		out += fmt.Sprint(" ", q.Part)
	}
	return out
}

func levelRead(x ExactLevel) cut.Level {
	l := cut.Level{Value: x.Value, Bound: x.Bound, Proof: cut.Proof{Kind: cut.ProofKind(x.Proof)}}
	for _, r := range x.Rulings {
		l.Proof.Rulings = append(l.Proof.Rulings, cut.Ruling{V: r.Worth, Z: r.Most, Counts: r.Counts})
	}
	return l
}
