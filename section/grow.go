package section

import "slices"

// grown makes plans one section at a time, begun at every unit in turn, and
// gives the best after moving units about; nil when none comes out whole. It
// proves nothing, and is done once.
func (w *world) grown() []set {
	if !w.didGrow {
		w.didGrow, w.growth = true, w.grow()
	}
	return w.growth
}

func (w *world) grow() []set {
	var best []set
	var top score
	w.begun()
	for u := range w.units {
		plan := w.growFrom(u)
		if w.spent && best != nil {
			break
		}
		if plan == nil {
			continue
		}
		plan = w.better(plan)
		if s := w.score(plan); best == nil || s.better(top) {
			best, top = plan, s
		}
	}
	return best
}

func (w *world) growFrom(start int) []set {
	var plan []set
	for free := w.all; free != 0; {
		u := start
		if !free.has(u) {
			u = w.loneliest(free)
		}
		g, ok := w.longest(w.growOne(u, free))
		if !ok {
			return nil
		}
		plan = append(plan, g.frames)
		free &^= g.units
	}
	return plan
}

// loneliest is the unit with the fewest free neighbours: begun elsewhere, it
// would be left over.
func (w *world) loneliest(free set) int {
	us := free.list()
	return slices.MinFunc(us, func(a, b int) int { return (w.near[a] & free).size() - (w.near[b] & free).size() })
}

// longest takes the group as far as it can be a section: as grown, or else the
// longest that halving finds.
func (w *world) longest(stages []group) (group, bool) {
	lo, hi := -1, len(stages)-1
	for last := hi; lo < hi; last = (lo + hi + 1) / 2 {
		if w.whole(stages[last].frames) {
			lo = last
		} else {
			hi = last - 1
		}
	}
	if lo < 0 {
		return group{}, false
	}
	return stages[lo], true
}

// growOne adds the neighbour with most screws to the group, of equals the
// loneliest, until none passes, and gives every stage.
func (w *world) growOne(u int, free set) []group {
	g := w.start(u)
	stages := []group{g}
	for {
		best, most := -1, -1
		for _, v := range (free & g.open &^ g.units).list() {
			n := 0
			for _, x := range g.units.list() {
				n += w.cuts[v][x]
			}
			n = n*Most + Most - (w.near[v] & free &^ g.units).size()
			if w.near[v].meets(g.units) && n > most && w.keeps(g.frames|w.units[v].frames, g.mass+w.units[v].mass) {
				best, most = v, n
			}
		}
		if best < 0 {
			return stages
		}
		g = w.add(g, best)
		stages = append(stages, g)
	}
}

// better moves single units to a neighbouring section, changes two, or joins
// two sections, as long as the score improves.
func (w *world) better(plan []set) []set {
	now := w.score(plan)
	for {
		next, s := w.step(plan, now)
		if next == nil {
			return plan
		}
		plan, now = next, s
	}
}

// step gives the first change that improves.
func (w *world) step(plan []set, now score) ([]set, score) {
	for i := range plan {
		for j := range plan {
			if i == j {
				continue
			}
			for _, m := range w.changes(plan[i], plan[j]) {
				next := replaced(plan, i, j, m)
				if s := w.score(next); s.better(now) && w.good(m[0]) && w.good(m[1]) {
					return next, s
				}
			}
		}
	}
	return nil, now
}

// changes lists what two sections may become: one of the two, or one unit
// moved or two changed across the line between them.
func (w *world) changes(a, b set) [][2]set {
	out := [][2]set{{0, a | b}}
	var from, to []int
	for u := range w.units {
		f := w.units[u].frames
		switch {
		case f.within(a) && w.touches(f, b):
			from = append(from, u)
			out = append(out, [2]set{a &^ f, b | f})
		case f.within(b) && w.touches(f, a):
			to = append(to, u)
		}
	}
	for _, u := range from {
		for _, v := range to {
			f, g := w.units[u].frames, w.units[v].frames
			out = append(out, [2]set{a&^f | g, b&^g | f})
		}
	}
	return out
}

func (w *world) touches(f, g set) bool { return flood(f, f|g, w.frames) != f }

func replaced(plan []set, i, j int, m [2]set) []set {
	var out []set
	for k, s := range plan {
		switch k {
		case i:
			s = m[0]
		case j:
			s = m[1]
		}
		if s != 0 {
			out = append(out, s)
		}
	}
	slices.Sort(out)
	return out
}

// good says whether frames can be a section by themselves.
func (w *world) good(frames set) bool {
	if frames == 0 {
		return true
	}
	for _, q := range w.p.Apart {
		if frames.has(q[0]) && frames.has(q[1]) {
			return false
		}
	}
	return w.keeps(frames, w.massOf(frames)) && w.whole(frames)
}
