package section

// A hunt looks for any plan of so many sections. It always takes the unit with
// the fewest places to go, so that what cannot be shows early; the tree of what
// it tried is the refutation when nothing is found.
type hunt struct {
	w     *world
	most  int
	work  int // steps left
	tree  []int
	found []set
}

type verdict int

const (
	refuted verdict = iota
	planned
	tired
)

func (w *world) hunt(sections, work int) (*hunt, verdict) {
	w.begun()
	h := &hunt{w: w, most: sections, work: work}
	return h, h.fill(nil, w.all)
}

func (h *hunt) end() verdict {
	h.tree = append(h.tree, -1)
	return refuted
}

// fill puts the free units into the groups and new ones.
func (h *hunt) fill(groups []group, free set) verdict {
	if h.work--; h.work < 0 {
		return tired
	}
	for i := range groups {
		if !h.w.narrow(&groups[i], free) || groups[i].open == 0 && !h.w.bear(groups[i].frames) {
			if h.w.spent {
				return tired
			}
			return h.end()
		}
	}
	if free == 0 {
		h.found = sorted(groups)
		return planned
	}
	if h.tooMany(groups, free) {
		return h.end()
	}
	u := h.pick(groups, free)
	h.tree = append(h.tree, u)
	for i := range groups {
		v := refuted
		if groups[i].open.has(u) {
			v = h.fill(with(groups, i, h.w.add(groups[i], u)), free&^one(u))
		} else {
			h.end()
		}
		if v != refuted {
			return v
		}
	}
	if len(groups) == h.most {
		return refuted
	}
	return h.fill(append(with(groups, 0, group{}), h.w.start(u)), free&^one(u))
}

// with copies the groups, one of them replaced; an empty group replaces none.
func with(groups []group, i int, g group) []group {
	out := make([]group, len(groups), len(groups)+1)
	copy(out, groups)
	if g.units != 0 {
		out[i] = g
	}
	return out
}

// tooMany says whether what is left weighs more than there is room for.
func (h *hunt) tooMany(groups []group, free set) bool {
	limit := h.w.p.Limits.Mass
	if limit == 0 {
		return false
	}
	room := limit * float64(h.most)
	for _, g := range groups {
		room -= g.mass
	}
	for _, u := range free.list() {
		room -= h.w.units[u].mass
	}
	return room < -lighter*float64(h.most)
}

// pick takes the unit with the fewest places, of equals the one with the most
// seams to what is placed, then the first.
func (h *hunt) pick(groups []group, free set) int {
	var placed set
	for _, g := range groups {
		placed |= g.units
	}
	best, least, ties := -1, 0, 0
	for _, u := range free.list() {
		places, near := 0, 0
		for _, g := range groups {
			if g.open.has(u) {
				places++
			}
		}
		near = (h.w.near[u] & placed).size()
		if best < 0 || places < least || places == least && near > ties {
			best, least, ties = u, places, near
		}
	}
	return best
}
