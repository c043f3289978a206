package section

import "slices"

// A score is what plans of as many sections are compared by.
type score struct {
	sections, screws int
	squares          float64 // of masses, kg²
}

func (s score) better(o score) bool {
	switch {
	case s.sections != o.sections:
		return s.sections < o.sections
	case s.screws != o.screws:
		return s.screws < o.screws
	}
	return s.squares < o.squares*(1-lighter)
}

func (w *world) score(sections []set) score {
	s := score{sections: len(sections)}
	for _, seam := range w.p.Seams {
		if !slices.ContainsFunc(sections, func(f set) bool { return f.has(seam.A) && f.has(seam.B) }) {
			s.screws += seam.Screws
		}
	}
	for _, f := range sections {
		m := w.massOf(f)
		s.squares += m * m
	}
	return s
}

// A tie looks through all plans of as many sections for the best.
type tie struct {
	w     *world
	most  int
	work  int
	order []int
	best  []set
	score score
}

// settle improves on a plan; false when the work ran out before all plans of
// as many sections had been looked at.
func (w *world) settle(plan []set, work int) ([]set, int, bool) {
	w.begun()
	t := &tie{w: w, most: len(plan), work: work, best: plan, score: w.score(plan)}
	t.order = w.byNearness()
	t.fill(nil, w.all, 0)
	return t.best, work - max(t.work, 0), t.work >= 0 && !w.spent
}

// byNearness is an order in which each unit has the most screws to those
// before it, so that what is cut shows early.
func (w *world) byNearness() []int {
	var order []int
	for free := w.all; free != 0; {
		best, most := -1, -1
		for _, u := range free.list() {
			n := 0
			for _, v := range order {
				n += w.cuts[u][v]
			}
			if n > most {
				best, most = u, n
			}
		}
		order = append(order, best)
		free &^= one(best)
	}
	return order
}

func (t *tie) fill(groups []group, free set, cut int) {
	if t.work--; t.work < 0 || t.w.spent || t.hopeless(groups, free, cut) {
		return
	}
	for i := range groups {
		if !t.w.narrow(&groups[i], free) {
			return
		}
	}
	if free == 0 {
		t.take(groups)
		return
	}
	u := t.order[len(t.order)-free.size()]
	rest := free &^ one(u)
	toAll := 0
	for _, g := range groups {
		toAll += t.toward(g, u)
	}
	for _, i := range t.preferred(groups, u) {
		t.fill(with(groups, i, t.w.add(groups[i], u)), rest, cut+toAll-t.toward(groups[i], u))
	}
	if len(groups) < t.most {
		t.fill(append(with(groups, 0, group{}), t.w.start(u)), rest, cut+toAll)
	}
}

// take keeps a plan that is better. Only then is it asked whether its sections
// bear being carried, since that may be slow.
func (t *tie) take(groups []group) {
	plan := sorted(groups)
	s := t.w.score(plan)
	if s.better(t.score) && !slices.ContainsFunc(plan, func(f set) bool { return !t.w.bear(f) }) {
		t.best, t.score = plan, s
	}
}

// toward counts the screws between a unit and a group.
func (t *tie) toward(g group, u int) int {
	n := 0
	for _, v := range (g.units & t.w.near[u]).list() {
		n += t.w.cuts[u][v]
	}
	return n
}

// preferred lists the groups that a unit can join, the one it has most screws
// to first.
func (t *tie) preferred(groups []group, u int) []int {
	var out []int
	for i, g := range groups {
		if g.open.has(u) {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return t.toward(groups[b], u) - t.toward(groups[a], u) })
	return out
}

// hopeless says whether no way of placing the rest beats the best: every unit
// left cuts at least its screws to all groups but one, and the masses are no
// evener than if the rest were poured in.
func (t *tie) hopeless(groups []group, free set, cut int) bool {
	for _, u := range free.list() {
		all, most := 0, 0
		for _, g := range groups {
			n := t.toward(g, u)
			all += n
			if g.open.has(u) {
				most = max(most, n)
			}
		}
		cut += all - most
	}
	if cut != t.score.screws {
		return cut > t.score.screws
	}
	return t.poured(groups, free) >= t.score.squares*(1-lighter)
}

// poured is the least sum of squares that the masses can come to: what is left
// runs into the lightest sections like water.
func (t *tie) poured(groups []group, free set) float64 {
	masses := make([]float64, t.most)
	for i, g := range groups {
		masses[i] = g.mass
	}
	slices.Sort(masses)
	var rest, sum float64
	for _, u := range free.list() {
		rest += t.w.units[u].mass
	}
	sum = rest
	for i, m := range masses {
		sum += m
		level := sum / float64(i+1)
		if i+1 == len(masses) || level <= masses[i+1] {
			total := level * level * float64(i+1)
			for _, m := range masses[i+1:] {
				total += m * m
			}
			return total
		}
	}
	return 0
}
