package job

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"
	"strings"

	"bowerwright/cut"
	"bowerwright/money"
)

// A stack is the parts of one timber laid one way: they are cut together.
type stack struct {
	board board
	flat  bool
	parts []sawn
}

// cutAll plans the boards of every timber.
func (p *planner) cutAll(ctx context.Context) error {
	for _, s := range p.stacks() {
		facts, err := p.cutStack(ctx, s)
		if err != nil {
			return err
		}
		p.result.Timber = append(p.result.Timber, facts)
		p.result.Overall.BoardCount += facts.Buy
	}
	return nil
}

// stacks sorts the parts by timber, in the job's order, and by how they lie:
// boards on edge and flat boards slant across different depths, so they share
// no cuts.
func (p *planner) stacks() []stack {
	var out []stack
	for _, t := range p.spec.Timber {
		for _, flat := range []bool{false, true} {
			s := stack{board: p.timber[t.Name], flat: flat}
			for _, q := range p.sawings {
				if q.kind.board.Name == t.Name && q.kind.Flat == flat && q.count > 0 {
					s.parts = append(s.parts, q)
				}
			}
			if len(s.parts) > 0 {
				out = append(out, s)
			}
		}
	}
	return out
}

// order is what the solver is asked. Parts beyond the saw are planned as their
// rough lengths, square at both ends.
func (p *planner) order(s stack) cut.Order {
	o := cut.Order{
		Board: s.board.Length, TrimFirst: s.board.trimFirst, TrimFar: s.board.trimFar,
		Depth: s.parts[0].kind.boards.Depth(), Kerf: p.set.kerf, Hold: p.set.hold, Turning: s.board.turning,
	}
	for _, q := range s.parts {
		part := cut.Part{Name: q.mark, Outside: q.part.Outside, Left: q.part.Start, Right: q.part.End, Count: q.count}
		if q.sawing.Rough > 0 {
			part.Outside, part.Left, part.Right = q.sawing.Rough, 0, 0
		}
		o.Parts = append(o.Parts, part)
	}
	return o
}

func (p *planner) cutStack(ctx context.Context, s stack) (TimberFacts, error) {
	o := p.order(s)
	plan, err := cut.Solve(ctx, o, cut.Settings{})
	var impossible *cut.Impossible
	if errors.As(err, &impossible) {
		p.uncuttable(s, impossible)
		return TimberFacts{}, nil
	}
	if err != nil {
		return TimberFacts{}, err
	}
	if plan.CutShort {
		return TimberFacts{}, context.Cause(ctx)
	}
	// The checker shares nothing with the solver. A plan that breaks its own
	// rules is never shown.
	faults, rechecked := cut.Check(o, plan)
	if len(faults) > 0 {
		return TimberFacts{}, fmt.Errorf("the cutting plan of %s breaks its own rules: %v", s.board.Name, faults)
	}
	return p.timberFacts(s, o, plan, rechecked), nil
}

// uncuttable says which parts no board gives, and why.
func (p *planner) uncuttable(s stack, e *cut.Impossible) {
	for _, t := range e.Parts {
		q := s.parts[t.Part]
		path := "frames." + q.kind.Name
		has, needs := p.w.text(p.w.cut(t.Has.MM())), p.w.text(p.w.cut(t.Needs.MM()))
		switch t.Why {
		case cut.TooLong:
			p.snag(snagUncuttable, path, q.mark, fmt.Sprintf("part %s takes %s of a board, and %s boards have %s to give", q.mark, has, s.board.Name, needs),
				"buy longer boards, or make the frame smaller")
		case cut.NothingToHold:
			p.snag(snagUncuttable, path, q.mark, fmt.Sprintf("at the cut that frees part %s only %s is left to hold, and the hold length is %s", q.mark, has, needs),
				"buy longer boards, or use a hold-down clamp and say so: saw: clamp: yes")
		default:
			p.snag(snagUncuttable, path, q.mark, fmt.Sprintf("the ends of part %s meet before its shorter face", q.mark), "make the frame larger or the boards thinner")
		}
	}
}

func (p *planner) timberFacts(s stack, o cut.Order, plan cut.Plan, rechecked cut.Rechecked) TimberFacts {
	b := s.board
	f := TimberFacts{
		Name: b.Name, Size: b.size, Thickness: p.w.stock(b.thickness), Width: p.w.stock(b.width), Length: p.w.whole(b.Length.MM()),
		Species: b.Species, Moisture: b.moisture, Density: math.Round(float64(b.density)*10) / 10, Laid: laid(s.flat), Turning: b.turning,
		Depth: p.w.stock(o.Depth),
		Kerf:  p.w.fine(p.set.kerf.MM()), TrimFirst: p.w.fine(b.trimFirst.MM()), TrimFar: p.w.fine(b.trimFar.MM()),
		Hold: p.w.cut(p.set.hold.MM()), Clamp: p.set.clamp,
		Buy: len(plan.Boards), Bound: int(plan.Bought.Bound), ByLength: plan.AreaBound, Proved: plan.Bought.Proved(), Rechecked: plan.Bought.Proved() && rechecked.Bought,
		ProofKind: string(plan.Bought.Proof.Kind),
		Claim:     claim(len(plan.Boards), plan.Bought, rechecked.Bought),
	}
	for _, r := range plan.Bought.Proof.Rulings { // boards of one length: one set of worths
		f.Multipliers, f.MultiplierBoard = r.V, r.Z[0]
	}
	p.price(&f, b)
	f.Boards = p.boardFacts(s, o, plan)
	f.Stops = p.stops(s, o)
	f.Used = p.used(s, o, plan)
	return f
}

// claim says how many boards, and what is known about fewer.
func claim(n int, bought cut.Level, rechecked bool) string {
	boards := "boards"
	if n == 1 {
		boards = "board"
	}
	if bought.Proved() && !rechecked {
		return fmt.Sprintf("%d %s; fewer is impossible, proved by search, not re-checked", n, boards)
	}
	if bought.Proved() {
		return fmt.Sprintf("%d %s; fewer is impossible", n, boards)
	}
	return fmt.Sprintf("%d %s; at least %d are needed, fewer than %d was not ruled out", n, boards, bought.Bound, n)
}

func (p *planner) price(f *TimberFacts, b board) {
	if b.Currency == "" {
		return
	}
	each := money.Amount{Minor: b.PriceMinor, Currency: money.Currency(b.Currency)}
	all, err := each.Scale(int64(f.Buy), 1)
	if err != nil { // beyond 64 bits: no such price was meant
		return
	}
	f.Price, f.Cost, f.CostMinor, f.Currency = each.String(), all.String(), all.Minor, b.Currency
}

// used is the share of the timber bought that ends in frames.
func (p *planner) used(s stack, o cut.Order, plan cut.Plan) float64 {
	sum := 0.0
	for _, q := range s.parts {
		sum += (q.part.Outside.MM() + q.part.Inside) / 2 * float64(q.count)
	}
	return math.Round(sum/(o.Board.MM()*float64(len(plan.Boards)))*1000) / 1000
}

// boardFacts lists the boards; those sawn alike stand together.
func (p *planner) boardFacts(s stack, o cut.Order, plan cut.Plan) []BoardFacts {
	var out []BoardFacts
	at := map[string]int{}
	for i, b := range plan.Boards {
		facts := p.oneBoard(s, o, b)
		key := facts.Summary + "|" + fmt.Sprint(facts.Parts)
		if j, ok := at[key]; ok {
			out[j].Numbers = append(out[j].Numbers, i+1)
			continue
		}
		at[key] = len(out)
		facts.Numbers = []int{i + 1}
		out = append(out, facts)
	}
	p.renumber(out)
	return out
}

// renumber counts the boards in the order in which they are listed, so that
// alike boards have neighbouring numbers.
func (p *planner) renumber(boards []BoardFacts) {
	n := 0
	for i := range boards {
		for j := range boards[i].Numbers {
			n++
			boards[i].Numbers[j] = n
		}
	}
}

func (p *planner) oneBoard(s stack, o cut.Order, b cut.Board) BoardFacts {
	f := BoardFacts{Offcut: p.w.cut(b.Offcut.MM()), Keep: b.Offcut >= p.set.keep}
	var counts []string
	n := 0
	for i, q := range b.Parts {
		part := s.parts[q.Part]
		f.Parts = append(f.Parts, SawnFacts{
			Mark: part.mark, Rolled: q.Rolled, Swapped: q.Swapped, Start: micro(q.Start), End: micro(q.End),
			LeftSlope: micro(q.LeftSlope), RightSlope: micro(q.RightSlope), Shares: q.SharesCut,
			Turn: turns[q.Turn], Held: held[q.Held.What], HeldLength: p.w.cut(q.Held.Short),
		})
		n++
		if i+1 == len(b.Parts) || b.Parts[i+1].Part != q.Part {
			counts = append(counts, fmt.Sprintf("%d x %s at %s", n, part.mark, p.w.text(p.stopOf(part))))
			n = 0
		}
	}
	f.Summary = strings.Join(counts, ", ")
	f.Waste = p.w.cut(math.Max(0, b.Offcut.MM()))
	return f
}

var turns = map[cut.Turn]string{cut.None: "", cut.Roll: "roll", cut.SwapEnds: "swap ends", cut.RollAndSwap: "roll and swap ends"}
var held = map[cut.Hold]string{cut.TheBoard: "board", cut.ThePart: "part", cut.NoCut: ""}

// stops lists the settings of stop and saw in bench order: shortest first by
// the shorter face, as the boards are cut.
func (p *planner) stops(s stack, o cut.Order) []StopFacts {
	parts := append([]sawn(nil), s.parts...)
	short := func(q sawn) float64 {
		if q.sawing.Rough > 0 {
			return q.sawing.Rough.MM()
		}
		return q.part.ShortPoint()
	}
	sort.SliceStable(parts, func(i, j int) bool { return short(parts[i]) < short(parts[j]) })
	var out []StopFacts
	for _, q := range parts {
		f := StopFacts{Part: q.mark, Kind: q.kind.Name, Stop: p.stopOf(q), Count: q.count, First: p.w.angle(q.part.Start), Second: p.w.angle(q.part.End)}
		f.Point, f.Face = stopPoint(q)
		f.Way = q.sawing.Start.Way.String()
		if q.sawing.Rough > 0 {
			f.First, f.Second, f.Way = p.w.angle(0), p.w.angle(0), "square to rough length"
		}
		f.Short = p.w.cut(short(q))
		if q.part.Fitted && q.sawing.Rough == 0 {
			f.Short = p.fitted(short(q))
		}
		f.LongEnough = short(q) >= p.set.hold.MM()
		f.Held = p.heldText(f)
		out = append(out, f)
	}
	return out
}

// stopOf is the distance from tooth to stop: between the two points that reach
// furthest along the board.
func (p *planner) stopOf(q sawn) Size {
	switch {
	case q.sawing.Rough > 0:
		return p.w.cut(q.sawing.Rough.MM())
	case q.part.Fitted:
		return p.fitted(q.part.TipToTip)
	}
	return p.w.cut(q.part.TipToTip)
}

// stopPoint says which point of the part touches the stop, and on which face
// it lies.
func stopPoint(q sawn) (point, face string) {
	a, b := q.part.Start, q.part.End
	out, in := "outside face", "inside face"
	switch {
	case q.sawing.Rough > 0 || a == 0 && b == 0:
		return "square end", "whole end"
	case a >= 0 && b >= 0:
		return "long point", out
	case a <= 0 && b <= 0:
		return "long point", in
	}
	return "tip", "tip to tip, " + out + " to " + in
}

func (p *planner) heldText(f StopFacts) string {
	hold := p.w.text(p.w.cut(p.set.hold.MM()))
	with := "in the hand"
	if p.set.clamp {
		with = "under the clamp"
	}
	if f.LongEnough {
		return fmt.Sprintf("Hold the board; at the last cut of a board hold the part: its shorter face is %s (at least %s, %s).", p.w.text(f.Short), hold, with)
	}
	return fmt.Sprintf("Hold the board: at least %s, %s. The part is too short to hold: push up to a spacer at the stop, take the spacer away, then cut.", hold, with)
}
