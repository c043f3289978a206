package job

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"sort"
	"strings"

	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/unit"
)

// sameSide is the difference in mm below which two sides of one kind are meant
// to be equal: the dust of trigonometry on typed lengths.
const sameSide = 1e-4

// A sideClass is all sides of one kind that are equally long.
type sideClass struct {
	kind  int
	sides []int
	mm    float64
}

// classes lists the sides of a kind by length, in the order of their first side.
func (p *planner) classes(kind int) []sideClass {
	var out []sideClass
	for _, part := range p.kinds[kind].asked.Parts {
		i := 0
		for i < len(out) && math.Abs(out[i].mm-part.Asked) > sameSide {
			i++
		}
		if i == len(out) {
			out = append(out, sideClass{kind: kind, mm: part.Asked})
		}
		out[i].sides = append(out[i].sides, part.Side)
	}
	return out
}

func (p *planner) pin(c sideClass, l unit.Length) {
	for _, side := range c.sides {
		p.kinds[c.kind].pins[side] = l
	}
}

// families settles the sides that must keep their ratio on the tape: those the
// job calls a family, then those that meet flush at both ends.
func (p *planner) families(asked layout.Layout) {
	in := map[string]bool{}
	for i, names := range p.spec.Families {
		p.family(fmt.Sprintf("families[%d]", i), names, in)
	}
	p.flushSides(asked)
}

// family pins the sides of the kinds of one family to whole multiples of one
// length on the tape.
func (p *planner) family(path string, names []string, in map[string]bool) {
	var classes []sideClass
	var sides []float64
	var kinds []string
	for _, name := range names {
		i, ok := p.kindAt[name]
		switch {
		case !ok:
			p.fault("no kind of frame is called %q", name)
			return
		case in[name]:
			p.snag(snagFamilyTwice, path, name, fmt.Sprintf("%q stands in a family already", name), "put all frames that fit together into one family")
			return
		}
		in[name] = true
		for _, c := range p.classes(i) {
			classes = append(classes, c)
			sides = append(sides, c.mm)
			kinds = append(kinds, name)
		}
	}
	f, err := frame.FamilyOf(sides, p.set.mark)
	if err != nil {
		p.noFamily(path, names, sides, err)
		return
	}
	for i, c := range classes {
		p.pin(c, f.Length(i))
	}
	p.result.Families = append(p.result.Families, FamilyFacts{Unit: p.w.cut(f.Unit.MM()), Kinds: kinds, Times: f.Times, Why: namedFamily})
}

// namedFamily is why the sides of a family that the job names have one unit.
const namedFamily = "named in the job"

func (p *planner) noFamily(path string, names []string, sides []float64, err error) {
	var list []string
	for _, s := range sides {
		list = append(list, p.w.text(p.w.cut(s)))
	}
	remedy := "change a size so that the sides are whole multiples of one length, or leave the frame out of the family"
	var r *frame.Refusal
	if errors.As(err, &r) && len(r.Ratio) > 0 {
		remedy = fmt.Sprintf("the nearest ratio is %s; %s", ratioText(r.Ratio), remedy)
	}
	p.snag(snagFamily, path, strings.Join(names, ", "), "the sides ("+strings.Join(list, ", ")+") are in no whole-number ratio", remedy)
}

func ratioText(times []int) string {
	var out []string
	for _, t := range times {
		out = append(out, fmt.Sprint(t))
	}
	return strings.Join(out, " : ")
}

// flushSides gives sides that meet flush at both ends one length on the tape,
// so that they still do when sawn.
func (p *planner) flushSides(asked layout.Layout) {
	groups := newGroups()
	for _, s := range asked.Seams {
		if !s.Flush || s.Sides[0].Inner || s.Sides[1].Inner {
			continue
		}
		a, b := p.classKey(asked, s.Sides[0]), p.classKey(asked, s.Sides[1])
		if a != b {
			groups.join(a, b)
		}
	}
	for _, g := range groups.lists() {
		p.oneLength(g)
	}
}

// A classKey names a side class: the kind and the first side of the class.
type classKey struct{ kind, side int }

func (p *planner) classKey(l layout.Layout, s layout.SeamSide) classKey {
	kind := p.kindAt[l.Frames[s.Frame].Kind]
	for _, c := range p.classes(kind) {
		for _, side := range c.sides {
			if side == s.Side {
				return classKey{kind, c.sides[0]}
			}
		}
	}
	return classKey{kind, s.Side}
}

// oneLength pins all classes of a group to the length of the one that a family
// has settled, else to the mark nearest to their mean.
func (p *planner) oneLength(group []classKey) {
	var classes []sideClass
	var settled unit.Length
	sum := 0.0
	for _, key := range group {
		for _, c := range p.classes(key.kind) {
			if c.sides[0] != key.side {
				continue
			}
			classes = append(classes, c)
			sum += c.mm
			if l, ok := p.kinds[c.kind].pins[c.sides[0]]; ok && settled == 0 {
				settled = l
			}
		}
	}
	if settled == 0 {
		settled, _ = unit.FromMM(sum/float64(len(classes)), p.set.mark, unit.Nearest)
	}
	facts := FamilyFacts{Unit: p.w.cut(settled.MM()), Why: "meet flush at both ends"}
	for _, c := range classes {
		if _, ok := p.kinds[c.kind].pins[c.sides[0]]; !ok {
			p.pin(c, settled)
		}
		facts.Kinds = append(facts.Kinds, p.kinds[c.kind].Name)
		facts.Times = append(facts.Times, 1)
	}
	p.result.Families = append(p.result.Families, facts)
}

// roundAll takes every kind to the tape.
func (p *planner) roundAll() {
	for _, s := range p.kinds {
		set := frame.Settings{Boards: s.boards, Mark: p.set.mark, JointTolerance: p.set.tolerance, Density: s.board.density, Pinned: s.pins}
		built, err := frame.Build(s.outline, set)
		var r *frame.Refusal
		if errors.As(err, &r) && r.Code == frame.PinnedDoNotClose {
			// Lengths shared with neighbours cannot all be kept: the frame must
			// close first, and the maker is told.
			p.note("shared-length-dropped", "frames."+s.Name,
				fmt.Sprintf("%s cannot keep the lengths of the sides it shares and still close", s.title()),
				"Its own lengths are kept; look at its seams in the list of near misses.")
			p.leaveFamilies(s.Name)
			set.Pinned = nil
			built, err = frame.Build(s.outline, set)
		}
		if err != nil {
			p.refused(s, "frames."+s.Name, err)
			continue
		}
		s.built = p.alikeSides(s, set, built)
	}
}

// mostClasses is of how many lengths of side at the most all ways of rounding
// are tried.
const mostClasses = 4

// alikeSides builds a kind again with one length on the tape for sides that are
// asked for as equally long, where it was rounded to several to close better: so
// long as the last joint closes within the tolerance fewer stops and parts that
// may be swapped are worth more. The marks nearest to what is asked come first.
func (p *planner) alikeSides(s *shape, set frame.Settings, built frame.Frame) frame.Frame {
	var free []sideClass
	uneven := false
	for _, c := range p.classes(p.kindAt[s.Name]) {
		if _, pinned := set.Pinned[c.sides[0]]; pinned {
			continue
		}
		free = append(free, c)
		for _, side := range c.sides {
			uneven = uneven || built.Parts[side-1].Outside != built.Parts[c.sides[0]-1].Outside
		}
	}
	if !uneven || len(free) > mostClasses {
		return built
	}
	for _, steps := range nearSteps(len(free)) {
		try := set
		try.Pinned = maps.Clone(set.Pinned)
		if try.Pinned == nil {
			try.Pinned = map[int]unit.Length{}
		}
		for i, c := range free {
			l, _ := unit.FromMM(c.mm, set.Mark, unit.Nearest)
			for _, side := range c.sides {
				try.Pinned[side] = l + unit.Length(steps[i])*set.Mark
			}
		}
		if b, err := frame.Build(s.outline, try); err == nil && len(b.Closing.Fitted) == 0 {
			return b
		}
	}
	return built
}

// nearSteps are all ways to go a mark less, none or one more for each of n, the
// fewest marks first.
func nearSteps(n int) [][]int {
	out := [][]int{nil}
	for range n {
		var longer [][]int
		for _, o := range out {
			for _, step := range []int{0, -1, 1} {
				longer = append(longer, append(slices.Clone(o), step))
			}
		}
		out = longer
	}
	away := func(steps []int) (n int) {
		for _, s := range steps {
			n += max(s, -s)
		}
		return n
	}
	slices.SortStableFunc(out, func(a, b []int) int { return away(a) - away(b) })
	return out
}

// leaveFamilies takes a kind out of the families: its sides keep no ratio. A
// family needs two kinds.
func (p *planner) leaveFamilies(kind string) {
	var out []FamilyFacts
	for _, f := range p.result.Families {
		left := FamilyFacts{Unit: f.Unit, Why: f.Why}
		for i, k := range f.Kinds {
			if k != kind {
				left.Kinds, left.Times = append(left.Kinds, k), append(left.Times, f.Times[i])
			}
		}
		if len(left.Kinds) == len(f.Kinds) || slices.ContainsFunc(left.Kinds, func(k string) bool { return k != left.Kinds[0] }) {
			out = append(out, left)
		}
	}
	p.result.Families = out
}

// title is what people call the kind.
func (s *shape) title() string {
	switch {
	case s.Title != "":
		return s.Title
	case strings.HasPrefix(s.def.Name, s.Name): // "hex" for a hexagon
		return s.def.Name
	case s.def.Name == "corners" || s.def.Name == "sides":
		return s.Name
	case s.def.Name == "regular":
		return fmt.Sprintf("%s, %d sides", s.Name, s.Counts["sides"])
	}
	return s.Name + " " + s.def.Name
}

// groups joins keys that belong together.
type groups struct {
	to   map[classKey]classKey
	keys []classKey
}

func newGroups() *groups { return &groups{to: map[classKey]classKey{}} }

func (g *groups) root(k classKey) classKey {
	if _, ok := g.to[k]; !ok {
		g.to[k] = k
		g.keys = append(g.keys, k)
	}
	for g.to[k] != k {
		k = g.to[k]
	}
	return k
}

func (g *groups) join(a, b classKey) { g.to[g.root(b)] = g.root(a) }

// lists gives the groups of two and more, each in order of kind and side.
func (g *groups) lists() [][]classKey {
	by := map[classKey][]classKey{}
	var roots []classKey
	for _, k := range g.keys {
		r := g.root(k)
		if by[r] == nil {
			roots = append(roots, r)
		}
		by[r] = append(by[r], k)
	}
	less := func(a, b classKey) bool { return a.kind < b.kind || a.kind == b.kind && a.side < b.side }
	var out [][]classKey
	for _, r := range roots {
		l := by[r]
		sort.Slice(l, func(i, j int) bool { return less(l[i], l[j]) })
		out = append(out, l)
	}
	sort.Slice(out, func(i, j int) bool { return less(out[i][0], out[j][0]) })
	return out
}
