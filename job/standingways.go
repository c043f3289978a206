package job

import (
	"cmp"
	"math"
	"slices"
	"strconv"

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
}

func (r reckoned) enough() bool { return r.word != stand.Over }

// waysOut tries changes where something is over, and gives them with their
// verdicts: what is enough first, the simplest before others, then what comes
// nearest. Of every kind the best is told.
func (s *stander) waysOut(t trial) []WayOutFacts {
	if !t.over() {
		return nil
	}
	before, _ := t.worst()
	var out []WayOutFacts
	for i, r := range told(s.reckon(s.proposals(t))) {
		out = append(out, WayOutFacts{Number: i + 1, Kind: r.kind, Says: r.says, Use: useOf(r.ratio, r.word), After: s.after(r.t), Units: r.t.plan.Units,
			Helps: r.ratio < before, Enough: r.enough(), Edits: r.edits})
	}
	return out
}

// reckon tries every proposal once; one that cannot be is left out.
func (s *stander) reckon(ps []proposal) (all []reckoned) {
	seen := map[string]bool{}
	for _, p := range ps {
		got := s.try(p.asked, triedWork)
		if len(got.badBase)+len(got.badDress)+len(got.rims) > 0 || seen[p.says] {
			continue
		}
		seen[p.says] = true
		r := reckoned{proposal: p, t: got}
		r.ratio, r.word = got.worst()
		all = append(all, r)
	}
	slices.SortStableFunc(all, func(a, b reckoned) int {
		switch {
		case a.enough() && b.enough():
			return 0
		case a.enough():
			return -1
		case b.enough():
			return 1
		}
		return cmp.Compare(a.ratio, b.ratio)
	})
	return all
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
		if taken[r.says] {
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
	s.findings(&f, t)
	_, says := s.verdict(&f, t)
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
