package job

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/base"
	"bowerwright/stand"
	"bowerwright/unit"
)

// A proposal is a change of the job: what it would say then, and how the file
// says it. What helps is found by trying.
type proposal struct {
	kind, says string
	asked      outfit
	edits      []EditTo
}

// mostWays is how many ways out are told: more are not read.
const mostWays = 8

// mostBags is how many units of one kind are proposed at the most: more is no
// longer a base with ballast but a heap.
const mostBags = 60

// A reckoned is a proposal with what came of it.
type reckoned struct {
	proposal
	t     trial
	ratio float64
	word  string
	left  float64  // by how much all that is over is over
	steps []string // of several changes together
}

func (r reckoned) enough() bool { return r.word != stand.Over }

// betters says whether it is better than before: nothing is loose, it stands, which it did not, or
// tips later, or less is left of what is over.
func (r reckoned) betters(before reckoned) bool {
	if before.t.loose() != r.t.loose() {
		return before.t.loose()
	}
	was, wasWord := before.t.worst()
	is, isWord := r.t.worst()
	switch {
	case wasWord == stand.Over && isWord == stand.Over:
		return is < was-sameLeft
	case wasWord == stand.Over || isWord == stand.Over:
		return wasWord == stand.Over
	}
	return r.left < before.left-sameLeft
}

// judge looks at everything: standing, strength and lifting.
func (s *stander) judge(t *trial) (ratio float64, word string, left float64) {
	ratio, word = t.worst()
	if !t.footing {
		return ratio, word, math.Inf(1)
	}
	s.strong(t)
	left = t.left()
	if r, w := t.weakest(); r > ratio || w == stand.Over {
		ratio = max(r, ratio)
		if w == stand.Over || word != stand.Over {
			word = w
		}
	}
	if s.liftOver(*t) {
		word, left = stand.Over, left+math.Log(2)
	}
	return ratio, word, left
}

// left sums up what is over: each finding by the logarithm of its share.
func (t trial) left() float64 {
	sum := 0.0
	for _, f := range t.findings {
		sum += math.Log(max(1, min(f.Worst.Ratio, mostRatio)))
	}
	for _, l := range t.leans {
		sum += math.Log(max(1, min(l.By.Ratio, mostRatio)))
	}
	if t.strength != nil {
		sum += t.strength.Left()
	}
	return sum
}

// waysOut tries changes where something is over, and gives them with their
// verdicts: what is enough first, the simplest before others, then what comes
// nearest. Of every kind the best is told. Where no change is enough by itself,
// the first is several together, when the work for that is wanted.
func (s *stander) waysOut(t trial) []WayOutFacts {
	if s.ways == noWays {
		return nil
	}
	now := reckoned{proposal: proposal{asked: t.asked}, t: t}
	if now.ratio, now.word, now.left = s.judge(&now.t); now.enough() {
		return nil
	}
	all := s.reckon(now.t)
	if s.ways == waysTogether && !slices.ContainsFunc(all, reckoned.enough) {
		if r, ok := s.combined(now); ok {
			all = append([]reckoned{r}, all...)
		}
	}
	if slices.ContainsFunc(all, func(r reckoned) bool { return r.betters(now) }) {
		all = slices.DeleteFunc(all, func(r reckoned) bool { return !r.betters(now) })
	}
	var out []WayOutFacts
	for i, r := range all {
		out = append(out, WayOutFacts{Number: i + 1, Kind: r.kind, Says: r.says, Use: useOf(r.ratio, r.word), After: s.after(r.t), Units: r.t.plan.Units, Steps: r.steps,
			Helps: r.betters(now), Enough: r.enough(), Edits: r.edits})
	}
	return out
}

// sameLeft is the difference that is noise of the sums.
const sameLeft = 1e-6

// singles are the changes worth trying: while it tips or slides, what keeps it
// from that, and what keeps loose frames; then what makes it hold together and what makes it easier to lift.
func (s *stander) singles(t trial) []proposal {
	switch {
	case t.over() && t.loose():
		return append(s.secondScrews(t), s.proposals(t)...)
	case t.over():
		return s.proposals(t)
	}
	return s.strengthProposals(t)
}

// mostTogether is how many changes are proposed at once: more is another design.
const mostTogether = 8

// madeTwice are the kinds of change that may be made a second time: more of the rest
// is another design. Braces may stand in two rows.
var madeTwice = map[string]int{"brace": 1}

// combined makes the best change, then the best on top of it, and so on: first
// what keeps it from tipping and sliding, then what makes it hold together. It is
// ok when that is better than before.
func (s *stander) combined(cur reckoned) (reckoned, bool) {
	var says []string
	used := map[string]int{}
	for len(says) < mostTogether && !cur.enough() {
		all := slices.DeleteFunc(s.reckon(cur.t), func(r reckoned) bool { return used[r.kind] > madeTwice[r.kind] || slices.Contains(says, r.says) })
		if len(all) == 0 || !all[0].betters(cur) {
			break
		}
		next := all[0]
		used[next.kind]++
		says = append(says, next.says)
		next.edits = append(slices.Clone(cur.edits), next.edits...)
		cur = next
	}
	cur.kind, cur.says, cur.steps = "together", strings.Join(says, "; "), says
	return cur, len(says) > 1
}

// reckon tries every proposal once; one that cannot be is left out. Of changes
// that are to keep it from tipping only those that are told are judged whole.
func (s *stander) reckon(before trial) []reckoned {
	seen := map[string]bool{}
	var all []reckoned
	for _, p := range s.singles(before) {
		got := s.try(p.asked, triedWork)
		if len(got.badBase)+len(got.badDress)+len(got.rims) > 0 || seen[p.says] || s.cannot(p, got, before) {
			continue
		}
		seen[p.says] = true
		r := reckoned{proposal: p, t: got}
		r.ratio, r.word = got.worst()
		all = append(all, r)
	}
	if before.over() {
		slices.SortStableFunc(all, func(a, b reckoned) int { return compare(a, b, a.ratio, b.ratio) })
		all = told(all)
	}
	for i := range all {
		r := &all[i]
		r.ratio, r.word, r.left = s.judge(&r.t)
	}
	slices.SortStableFunc(all, func(a, b reckoned) int { return compare(a, b, a.left, b.left) })
	return told(all)
}

// compare puts what is enough first, the simplest before others, then what
// stands before what tips, then what has less left.
func compare(a, b reckoned, left, right float64) int {
	yes := func(x, y bool) int {
		switch {
		case x == y:
			return 0
		case x:
			return -1
		}
		return 1
	}
	if a.enough() && b.enough() {
		return 0
	}
	return cmp.Or(yes(a.enough(), b.enough()), yes(!a.t.loose(), !b.t.loose()), yes(!a.t.over(), !b.t.over()), cmp.Compare(left, right))
}

// told picks the best of every kind, and then of all, and keeps their order.
func told(all []reckoned) (out []reckoned) {
	kinds, taken := map[string]bool{}, map[string]bool{}
	for _, r := range all {
		if !kinds[r.kind] {
			kinds[r.kind], taken[r.says] = true, true
		}
	}
	for _, r := range all {
		if len(taken) >= mostWays {
			break
		}
		taken[r.says] = true
	}
	for _, r := range all {
		if taken[r.says] && len(out) < mostWays {
			out = append(out, r)
		}
	}
	return out
}

// after is what governs a trial, in a line.
func (s *stander) after(t trial) string {
	if !t.footing {
		return "it still has no footing"
	}
	var f StandingFacts
	f.Governs = -1
	f.Lift = s.lift(t)
	s.findings(&f, t)
	_, f.Stays = s.verdict(&f, t)
	_, says := s.total(&f, t)
	return says
}

// proposals are the changes worth trying, the simplest first.
func (s *stander) proposals(t trial) []proposal {
	a := t.asked
	var out []proposal
	add := func(p ...proposal) { out = append(out, p...) }
	hasBase := slices.ContainsFunc(t.pieces, func(p base.Piece) bool { return p.Under })
	if hasBase {
		add(s.withBags(proposal{kind: "ballast", asked: a}))
		add(s.wider(a)...)
	} else {
		add(s.plates(a)...)
		add(s.feet(a)...)
	}
	add(s.wing(a)...)
	add(s.braces(a)...)
	add(s.otherFloor(a)...)
	add(s.stakes(a, hasBase)...)
	add(s.takeDown(t)...)
	if !a.at.NoPush {
		b := a.clone()
		b.at.NoPush = true
		add(proposal{"barrier", "a rope or flowers that keep people out of reach", b, []EditTo{{"standing.push", "no"}}})
	}
	return slices.DeleteFunc(out, func(p proposal) bool { return p.says == "" })
}

// grid are sizes that are proposed: whole feet and halves, or 100 mm.
func (s *stander) grid(from, to float64) []unit.Length {
	step := 6 * unit.Inch
	if s.p.w.show == unit.Metric {
		step = 150 * unit.Millimetre
	}
	var out []unit.Length
	for l := step * unit.Length(math.Ceil(from/step.MM())); l.MM() <= to; l += step {
		out = append(out, l)
	}
	return out
}

// typed is a length as a job file says it.
func (s *stander) typed(l unit.Length) string {
	if s.p.w.show == unit.Metric {
		return unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 2})
	}
	return unit.Format(l, unit.Style{System: unit.US, Mark: unit.Inch / 64})
}

func (s *stander) typedMass(m unit.Mass) string {
	if s.p.w.show == unit.Metric {
		return strconv.FormatFloat(math.Round(float64(m)*10)/10, 'f', -1, 64) + " kg"
	}
	return strconv.FormatFloat(math.Round(m.Pounds()*10)/10, 'f', -1, 64) + " lb"
}

// typable is a mass as it is when a job file has said it.
func (s *stander) typable(m unit.Mass) unit.Mass {
	if s.p.w.show == unit.Metric {
		return unit.Mass(math.Round(float64(m)*10) / 10)
	}
	return unit.Mass(math.Round(m.Pounds()*10)/10) * unit.Pound
}

// gridUp is the next length of the grid.
func (s *stander) gridUp(mm float64) unit.Length { return s.grid(mm, mm+1e4)[0] }

// Bases that are proposed reach from here to there, front to back, mm: less is
// no base, and more is in the way of everybody.
const (
	leastDeep = 450.0
	mostDeep  = 1850.0
)

// first takes, of sizes that grow, the first that is enough; of none the last.
func (s *stander) first(ps []proposal) []proposal {
	for _, p := range ps {
		if !s.try(p.asked, triedWork).over() {
			return []proposal{p}
		}
	}
	if len(ps) == 0 {
		return nil
	}
	return ps[len(ps)-1:]
}

// bagged takes, of sizes that grow, the first that is enough with ballast.
func (s *stander) bagged(ps []proposal) []proposal {
	for _, p := range ps {
		if q := s.withBags(p); q.says != "" && !s.try(q.asked, triedWork).over() {
			return []proposal{q}
		}
	}
	return nil
}

func freeName(a outfit, name string) string {
	for i := 1; ; i++ {
		n := name
		if i > 1 {
			n += strconv.Itoa(i)
		}
		if !slices.ContainsFunc(a.base, func(b BaseAsked) bool { return b.Name == n }) {
			return n
		}
	}
}
