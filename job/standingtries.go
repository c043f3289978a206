package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/stand"
	"bowerwright/unit"
)

// plates are a plate as wide as the piece, alone and with ballast.
func (s *stander) plates(a outfit) []proposal {
	wide := s.gridUp(s.p.built.Width)
	name := freeName(a, "plate")
	var ps []proposal
	for _, deep := range s.grid(leastDeep, mostDeep) {
		b := a.clone()
		b.base = append(b.base, BaseAsked{Name: name, Kind: "plate", Width: wide, Depth: deep})
		ps = append(ps, proposal{"base", fmt.Sprintf("a plate %s wide and %s deep under it", s.typed(wide), s.typed(deep)), b,
			[]EditTo{{"base." + name, fmt.Sprintf("{kind: plate, width: %s, depth: %s}", s.typed(wide), s.typed(deep))}}})
	}
	return append(s.bagged(ps), s.first(ps)...)
}

// feet are two bars under it.
func (s *stander) feet(a outfit) []proposal {
	name := freeName(a, "feet")
	wide := 4 * unit.Inch
	if s.p.w.show == unit.Metric {
		wide = 100 * unit.Millimetre
	}
	wide *= 3 // room for a bag on each
	var ps []proposal
	for _, deep := range s.grid(leastDeep, mostDeep) {
		b := a.clone()
		b.base = append(b.base, BaseAsked{Name: name, Kind: "feet", Width: wide, Depth: deep, Count: 2})
		ps = append(ps, proposal{"base", fmt.Sprintf("two feet under it, each %s wide and %s from front to back", s.typed(wide), s.typed(deep)), b,
			[]EditTo{{"base." + name, fmt.Sprintf("{kind: feet, width: %s, depth: %s}", s.typed(wide), s.typed(deep))}}})
	}
	if len(s.lines) == 0 || len(spread(s.lines, s.p.built.Width, wide.MM(), 2)) < 2 {
		return nil
	}
	return append(s.bagged(ps), s.first(ps)...)
}

// wider is the first piece of the base that has a depth, deeper.
func (s *stander) wider(a outfit) []proposal {
	i := slices.IndexFunc(a.base, func(b BaseAsked) bool { return b.Depth > 0 || b.Across > 0 })
	if i < 0 {
		return nil
	}
	b := a.base[i]
	field, size := "depth", b.Depth
	if b.Across > 0 {
		field, size = "across", b.Across
	}
	var ps []proposal
	for _, to := range s.grid(size.MM()+1, max(mostDeep, 2*size.MM())) {
		c := a.clone()
		if field == "depth" {
			c.base[i].Depth = to
		} else {
			c.base[i].Across = to
		}
		ps = append(ps, proposal{"base", fmt.Sprintf("%s with a %s of %s", b.Name, field, s.typed(to)), c, []EditTo{{"base." + b.Name + "." + field, s.typed(to)}}})
	}
	return append(s.bagged(ps), s.first(ps)...)
}

// wing are returns at both ends at a quarter turn, built as the piece is: as
// heavy for their width.
func (s *stander) wing(a outfit) []proposal {
	if slices.ContainsFunc(a.base, func(b BaseAsked) bool { return b.Kind == "wing" }) {
		return nil
	}
	name := freeName(a, "returns")
	high := s.gridUp(s.p.built.Height)
	mass := unit.Mass(0)
	for _, f := range s.piece.Frames {
		mass += f.Mass
	}
	var ps []proposal
	for _, long := range s.grid(leastDeep, mostDeep) {
		each := mass * unit.Mass(2*long.MM()/s.p.built.Width)
		m := s.typable(each)
		b := a.clone()
		b.base = append(b.base, BaseAsked{Name: name, Kind: "wing", Length: long, Height: high, Mass: &m, Side: "both", Closes: 0.35})
		ps = append(ps, proposal{"wings", fmt.Sprintf("returns of %s at both ends, as heavy for their width as the piece", s.typed(long)), b,
			[]EditTo{{"base." + name, fmt.Sprintf("{kind: wing, length: %s, height: %s, weight: %s, closes: 35 %%}", s.typed(long), s.typed(high), s.typedMass(m))}}})
	}
	return append(s.first(ps), s.bagged(ps)...)
}

// braces are two struts behind it, alone and with ballast on their feet.
func (s *stander) braces(a outfit) []proposal {
	if slices.ContainsFunc(a.base, func(b BaseAsked) bool { return b.Kind == "brace" }) {
		return nil
	}
	name := freeName(a, "braces")
	mass, wide := 10*unit.Pound, 12*unit.Inch
	if s.p.w.show == unit.Metric {
		mass, wide = 5, 300*unit.Millimetre
	}
	fixed := s.gridUp(0.6 * s.p.built.Height)
	var ps []proposal
	for _, behind := range s.grid(leastDeep, mostDeep) {
		b := a.clone()
		m := mass
		b.base = append(b.base, BaseAsked{Name: name, Kind: "brace", Behind: behind, Fixed: fixed, Width: wide, Mass: &m})
		ps = append(ps, proposal{"brace", fmt.Sprintf("two braces behind it, their feet to %s behind the frames", s.typed(behind)), b,
			[]EditTo{{"base." + name, fmt.Sprintf("{kind: brace, behind: %s, fixed: %s, width: %s, weight: %s}", s.typed(behind), s.typed(fixed), s.typed(wide), s.typedMass(m))}}})
	}
	return append(s.bagged(ps), s.first(ps)...)
}

// otherFloor is one with more friction, indoors.
func (s *stander) otherFloor(a outfit) []proposal {
	if f := s.floor(a.at).Name; a.at.Where == outdoors || f == base.Rough || f == base.Grass {
		return nil
	}
	b := a.clone()
	b.at.Floor = base.Rough
	p := proposal{"floor", "carpet or a rough mat under it", b, []EditTo{{"standing.floor", base.Rough}}}
	return []proposal{p, s.withBags(p)}
}

// stakes hold outdoors; by what is tried of one, so the figure is asked for.
func (s *stander) stakes(a outfit, hasBase bool) []proposal {
	if a.at.Where != outdoors || slices.ContainsFunc(a.base, func(b BaseAsked) bool { return b.Kind == "stakes" }) {
		return nil
	}
	name := freeName(a, "stakes")
	var ps []proposal
	for _, held := range s.stakeHolds() {
		f, text := held.force, held.text
		b := a.clone()
		b.base = append(b.base, BaseAsked{Name: name, Kind: "stakes", Count: 4, Pull: f, Sideways: f})
		says := fmt.Sprintf("four stakes that each hold %s up and sideways when tried there", s.loadText(f))
		if !hasBase {
			continue
		}
		ps = append(ps, proposal{"stakes", says, b, []EditTo{{"base." + name, "{kind: stakes, count: 4, pull: " + text + ", sideways: " + text + "}"}}})
	}
	if !hasBase {
		return s.staked(a, name)
	}
	return s.first(ps)
}

// A hold is a force and how the job file says it.
type hold struct {
	force unit.Force
	text  string
}

// stakeHolds are what a stake may have held when it was tried, in round figures
// of the job's own units.
func (s *stander) stakeHolds() []hold {
	var out []hold
	for _, lb := range []float64{25, 50, 100, 200, 400} {
		if s.p.w.show == unit.Metric {
			n := lb * 4 // 100 N and up
			out = append(out, hold{unit.Force(n), fmt.Sprintf("%g N", n)})
			continue
		}
		out = append(out, hold{stand.PoundsForce(lb), fmt.Sprintf("%g lb", lb)})
	}
	return out
}

func (s *stander) loadText(f unit.Force) string {
	w := s.p.w.push(f)
	return s.p.w.say(w.US, w.Metric)
}

// staked is a plate with stakes, where there is no base to stake down.
func (s *stander) staked(a outfit, name string) []proposal {
	wide, deep := s.gridUp(s.p.built.Width), s.gridUp(900)
	plate := freeName(a, "plate")
	var ps []proposal
	for _, held := range s.stakeHolds() {
		f, text := held.force, held.text
		b := a.clone()
		b.base = append(b.base, BaseAsked{Name: plate, Kind: "plate", Width: wide, Depth: deep}, BaseAsked{Name: name, Kind: "stakes", Count: 4, Pull: f, Sideways: f})
		ps = append(ps, proposal{"stakes", fmt.Sprintf("a plate %s wide and %s deep under it, with four stakes that each hold %s up and sideways when tried there", s.typed(wide), s.typed(deep), s.loadText(f)), b,
			[]EditTo{{"base." + plate, fmt.Sprintf("{kind: plate, width: %s, depth: %s}", s.typed(wide), s.typed(deep))}, {"base." + name, "{kind: stakes, count: 4, pull: " + text + ", sideways: " + text + "}"}}})
	}
	return s.first(ps)
}

// takeDown leaves the layer out that helps most in the way that governs.
func (s *stander) takeDown(t trial) []proposal {
	if !t.footing {
		return nil
	}
	way, worst := "", -1.0
	for _, f := range t.findings {
		if f.Worst.Ratio > worst {
			way, worst = f.Way, f.Worst.Ratio
		}
	}
	i := slices.IndexFunc(t.asked.ways, func(w WayAsked) bool { return w.Name == way })
	if i < 0 {
		return nil
	}
	best, at := math.Inf(1), -1
	for k := range t.asked.ways[i].Layers {
		if r, _ := s.try(s.without(t.asked, i, k), triedWork).worst(); r < best {
			best, at = r, k
		}
	}
	if at < 0 {
		return nil
	}
	layer := t.asked.ways[i].Layers[at].Name
	return []proposal{{"dressing", fmt.Sprintf("%s without %s", way, layer), s.without(t.asked, i, at), []EditTo{{"dressing." + way + "." + layer, ""}}}}
}

func (s *stander) without(a outfit, way, layer int) outfit {
	b := a.clone()
	b.ways[way].Layers = slices.Delete(b.ways[way].Layers, layer, layer+1)
	return b
}

// withBags adds the fewest units of ballast that are enough: of the first kind
// owned, or sandbags of the usual size. It is empty when none is needed or finds
// room.
func (s *stander) withBags(p proposal) proposal {
	b := p.asked.clone()
	own := len(b.at.Ballast) > 0
	if !own {
		b.at.Ballast = []BallastAsked{s.bag()}
	}
	first := &b.at.Ballast[0]
	had := first.Owned
	if !own {
		had = 0
	}
	first.Owned = max(mostBags, had)
	t := s.try(b, triedWork)
	if !t.footing || len(t.badBase) > 0 || t.lack.Nothing() || t.plan.Units == 0 {
		return proposal{}
	}
	need := 0
	for _, k := range t.plan.Stacks {
		if k.Unit.Name == first.Name {
			need += k.Count
		}
	}
	if need <= had && p.kind == "ballast" {
		return proposal{}
	}
	first.Owned = max(need, had)
	q := proposal{kind: p.kind, asked: b, edits: slices.Clone(p.edits)}
	bags := fmt.Sprintf("%s of %s", howMany(need, first.Name), s.typedMass(first.Mass))
	if first.Name == bagName && need != 1 {
		bags = fmt.Sprintf("%d sandbags of %s", need, s.typedMass(first.Mass))
	}
	q.says = p.says + " and " + bags + " on it"
	if p.says == "" {
		q.says = bags + " on the base"
	}
	switch {
	case !own:
		q.edits = append(q.edits, EditTo{"standing.ballast", fmt.Sprintf("[{name: %s, weight: %s, size: %s x %s x %s, owned: %d}]", first.Name, s.typedMass(first.Mass),
			s.typed(first.Length), s.typed(first.Width), s.typed(first.Height), first.Owned)})
	case first.Owned > had:
		q.edits = append(q.edits, EditTo{"standing.ballast[0].owned", strconv.Itoa(first.Owned)})
	}
	return q
}

const bagName = "sandbag"

// bag is the usual unit, in whole units of the job's own system.
func (s *stander) bag() BallastAsked {
	size := func(id assume.ID) unit.Length {
		v := s.book.Get(id)
		u, _ := unit.UnitNamed(v.Unit)
		l, _ := unit.Of(v.Value, u)
		if s.p.w.show == unit.Metric {
			l, _ = unit.FromMM(l.MM(), 10*unit.Millimetre, unit.Nearest)
		}
		return l
	}
	m := unit.Mass(s.book.Get(assume.BallastBag).Value) * unit.Pound
	if s.p.w.show == unit.Metric {
		m = unit.Mass(math.Floor(float64(m)))
	}
	return BallastAsked{Name: bagName, Mass: m, Length: size(assume.BallastBagLength), Width: size(assume.BallastBagWidth), Height: size(assume.BallastBagHeight)}
}
