package job

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/cut"
	"bowerwright/unit"
)

// levels says how good the plan is, aim by aim.
func (k cutPlan) levels() LevelsFacts {
	p, r := k.w.plan, k.w.rechecked
	return LevelsFacts{
		Cost:   k.level(p.Cost, r.Cost, k.money, k.costSays),
		Boards: k.level(p.Bought, r.Bought, func(n int64) string { return counted(int(n), "board") }, k.boardsSay),
		Offcut: k.level(p.Offcut, r.Offcut, k.offcutText, k.offcutSays),
	}
}

func (k cutPlan) level(l cut.Level, followed bool, text func(int64) string, open func(cut.Level) (best, gap string)) LevelFacts {
	f := LevelFacts{Value: l.Value, Bound: l.Bound, Text: text(l.Value), BoundText: text(l.Bound), Proved: l.Proved(),
		Rechecked: l.Proved() && followed, Proof: string(l.Proof.Kind)}
	best, gap := open(l)
	switch {
	case !f.Proved:
		f.Says = gap
	case l.Value == 0 && l.Bound == 0:
		f.Says = best
	case f.Rechecked:
		f.Says = k.only() + best + ": proved, and the proof was followed by a second program"
	default:
		f.Says = k.only() + best + ": proved by search, not re-checked"
	}
	return f
}

// only says under what a proof holds, where it is not for whatever way of
// cutting.
func (k cutPlan) only() string {
	switch {
	case slices.Contains(k.w.rough, true):
		return "by saw setting and rough lengths, "
	case k.w.order.BySetting:
		return "by saw setting, "
	case k.s.facts.Turning && !k.w.order.Turning:
		return "without turning, "
	}
	return ""
}

func (k cutPlan) costSays(l cut.Level) (best, gap string) {
	switch {
	case k.s.currency == "":
		return "no prices are given", ""
	case l.Value == 0:
		return "nothing has to be paid for", ""
	}
	return "cheaper is impossible", fmt.Sprintf("at least %s is needed; up to %s less was not ruled out", k.money(l.Bound), k.money(l.Value-l.Bound))
}

func (k cutPlan) boardsSay(l cut.Level) (best, gap string) {
	best = "fewer is impossible"
	if l.Value == 0 {
		best = "no board has to be bought"
	} else if k.priced() {
		best = "fewer at that price is impossible"
	}
	if l.Bound <= 0 {
		return best, "whether fewer would do at that price was not found out"
	}
	return best, fmt.Sprintf("at least %d are needed; fewer than %d was not ruled out", l.Bound, l.Value)
}

// priced says whether cost chooses between boards: there are prices, and not
// one length only.
func (k cutPlan) priced() bool { return k.s.currency != "" && len(k.s.stocks) > 1 }

func (k cutPlan) offcutText(nm int64) string {
	if nm <= 0 {
		return "none"
	}
	return k.cutter.w.text(k.cutter.w.cut(unit.Length(nm).MM()))
}

func (k cutPlan) offcutSays(l cut.Level) (best, gap string) {
	best = "a longer one is impossible"
	if l.Value == 0 {
		best = "no offcut of a board bought can be worth keeping"
		if k.buy == 0 {
			best = "no board is bought"
		}
	}
	return best, fmt.Sprintf("one of up to %s was not ruled out", k.offcutText(l.Bound))
}

// claim says what is taken, and what is known about less: of the cost where it
// chooses, else of the boards.
func (k cutPlan) claim(stocks []StockFacts) string {
	l := k.levels()
	says, level := k.only()+"fewer is impossible", l.Boards
	if k.priced() && l.Cost.Value > 0 {
		says, level = k.only()+"cheaper is impossible", l.Cost
	}
	if level.Value == 0 {
		return k.taking(stocks) + "; nothing has to be bought"
	}
	if !level.Proved {
		return k.taking(stocks) + "; " + level.Says
	}
	if !level.Rechecked {
		says += ", proved by search, not re-checked"
	}
	return k.taking(stocks) + "; " + says
}

// taking says how many boards of which length.
func (k cutPlan) taking(stocks []StockFacts) string {
	var buy []string
	for _, s := range stocks {
		if s.Buy > 0 {
			buy = append(buy, fmt.Sprintf("%d of %s", s.Buy, s.Name))
		}
	}
	out := counted(k.buy, "board")
	switch {
	case len(buy) > 1:
		out += " (" + strings.Join(buy, ", ") + ")"
	case len(buy) == 1 && k.lengths() > 1:
		_, of, _ := strings.Cut(buy[0], " of ")
		out += " of " + of
	}
	if k.fromHand > 0 {
		out += fmt.Sprintf(", and %d on hand", k.fromHand)
	}
	if k.priced() && k.w.plan.Cost.Value > 0 {
		out += ", " + k.money(k.w.plan.Cost.Value)
	}
	return out
}

// lengths is in how many lengths boards are to be had.
func (k cutPlan) lengths() (n int) {
	for _, s := range k.s.stocks {
		if !s.OnHand {
			n++
		}
	}
	return n
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// wayFacts sets a way beside the one on paper.
func (c cutter) wayFacts(s stack, w, paper *way, chosen bool) WayFacts {
	f := WayFacts{Name: w.name, SameAs: w.sameAs, Closed: w.closed, Chosen: chosen}
	if w.closed != "" {
		f.Says = "not open: " + w.closed
		return f
	}
	k, on := c.book(s, w), c.book(s, paper)
	f.Buy, f.FromHand, f.CostMinor, f.Cost = k.buy, k.fromHand, w.plan.Cost.Value, k.money(w.plan.Cost.Value)
	f.StopSettings, f.SawSettings = w.session.StopSettings, w.session.SawSettings
	for i, q := range s.sticks {
		if w.rough[i] {
			f.Rough = append(f.Rough, q.mark)
		}
	}
	f.Levels = k.levels()
	if f.SameAs == "" && !chosen {
		f.Plan = exactPlan(s, w)
	}
	switch {
	case f.SameAs != "":
		f.Levels = LevelsFacts{}
		f.Says = "the same as " + f.SameAs
	case chosen:
		f.Says = "on paper"
	default:
		f.Says = k.against(on)
	}
	return f
}

// against says what a way takes more or less than another.
func (k cutPlan) against(on cutPlan) string {
	var out []string
	boards := k.buy - on.buy
	price := k.w.plan.Cost.Value - on.w.plan.Cost.Value
	more := func(n int, noun string) string {
		word := "more"
		if n < 0 {
			n, word = -n, "fewer"
		}
		return fmt.Sprintf("%s %s", counted(n, noun), word)
	}
	if boards != 0 {
		out = append(out, more(boards, "board"))
	}
	if hand := k.fromHand - on.fromHand; hand != 0 {
		out = append(out, more(hand, "board")+" from hand")
	}
	if price != 0 && k.s.currency != "" {
		word := "more"
		if price < 0 {
			price, word = -price, "less"
		}
		out = append(out, k.money(price)+" "+word)
	}
	if set := k.w.session.Settings() - on.w.session.Settings(); set != 0 {
		out = append(out, more(set, "setting"))
	}
	if len(out) == 0 {
		return "no more and no less"
	}
	return strings.Join(out, ", ")
}
