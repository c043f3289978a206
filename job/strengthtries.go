package job

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/fixing"
	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/stand"
	"bowerwright/unit"
)

// strengthProposals are the changes worth trying where seams, corners, boards or
// the joint to the base are over, or the lift is; the simplest first.
func (s *stander) strengthProposals(t trial) []proposal {
	a := t.asked
	var out []proposal
	add := func(p ...proposal) { out = append(out, p...) }
	if t.strength != nil && t.strength.Over() {
		add(s.secondScrews(t)...)
		add(s.twoRows(t)...)
		add(s.bolts(t)...)
		add(s.reinforced(a)...)
		add(s.heldBetter(t)...)
		add(s.heldHigher(t)...)
		add(s.rearBraces(t)...)
	}
	add(s.lifting(t)...)
	return slices.DeleteFunc(out, func(p proposal) bool { return p.says == "" })
}

// seamsOver are the seams that are over, as pairs of ids.
func (s *stander) seamsOver(t trial) [][2]string {
	var out [][2]string
	for _, d := range t.strength.Seams {
		if d.Ratio <= 1 {
			continue
		}
		for _, seam := range s.piece.Layout.Seams {
			if seam.Number == d.Seam {
				out = append(out, [2]string{s.piece.Layout.Frames[seam.Sides[0].Frame].ID, s.piece.Layout.Frames[seam.Sides[1].Frame].ID})
			}
		}
	}
	return out
}

// secondScrews takes single screws back: without the line a seam has two.
func (s *stander) secondScrews(t trial) []proposal {
	b := t.asked.clone()
	var edits []EditTo
	var names []string
	for i, a := range b.fixing.Seams {
		if !a.One {
			continue
		}
		b.fixing.Seams[i].One = false
		edits = append(edits, EditTo{"fixing.seams." + a.Key, b.fixing.Seams[i].words()})
		names = append(names, s.pairText(a.Frames))
	}
	if len(edits) == 0 {
		return nil
	}
	b.fixing.Seams = slices.DeleteFunc(b.fixing.Seams, func(a SeamAsked) bool { return a.words() == "" })
	return []proposal{{"screws", "a second screw between " + strings.Join(names, ", "), b, edits}}
}

// twoRows are as many screws or bolts again in a second row: where seams are
// over, and everywhere.
func (s *stander) twoRows(t trial) []proposal {
	if t.asked.fixing.Rows == 2 {
		return nil
	}
	all := t.asked.clone()
	all.fixing.Rows = 2
	out := []proposal{{"screws", "two rows of screws at every seam with room for them", all, []EditTo{{"fixing.rows", "2"}}}}
	pairs := s.rowsGained(t, s.seamsOver(t))
	if len(pairs) == 0 || len(pairs) > mostSeamsNamed {
		return out
	}
	b := t.asked.clone()
	var names []string
	var edits []EditTo
	for _, ids := range pairs {
		a := s.p.twoRowsAt(&b.fixing, ids)
		names, edits = append(names, s.pairText(ids)), append(edits, EditTo{"fixing.seams." + a.Key, a.words()})
	}
	return append([]proposal{{"screws", "two rows of screws between " + strings.Join(names, ", "), b, edits}}, out...)
}

// twoRowsAt asks for two rows between two frames, in their line if they have one.
func (p *planner) twoRowsAt(f *FixingAsked, ids [2]string) SeamAsked {
	i := slices.IndexFunc(f.Seams, func(a SeamAsked) bool { return p.samePair(a.Frames, ids) })
	if i < 0 {
		i = len(f.Seams)
		f.Seams = append(f.Seams, SeamAsked{Key: ids[0] + " and " + ids[1], Frames: ids})
	}
	f.Seams[i].One, f.Seams[i].Rows = false, 2
	return f.Seams[i]
}

// rowsGained are those pairs, each once, whose seams can all have two rows.
func (s *stander) rowsGained(t trial, pairs [][2]string) [][2]string {
	f := t.asked.clone().fixing
	var once [][2]string
	for _, ids := range pairs {
		if !slices.ContainsFunc(once, func(o [2]string) bool { return s.p.samePair(o, ids) }) {
			once = append(once, ids)
			s.p.twoRowsAt(&f, ids)
		}
	}
	plan, ok := s.fixedAs(f)
	if len(once) == 0 || !ok {
		return nil
	}
	return slices.DeleteFunc(once, func(ids [2]string) bool {
		return slices.ContainsFunc(s.piece.Layout.Seams, func(m layout.Seam) bool {
			i := slices.IndexFunc(plan.Seams, func(q fixing.Seam) bool { return q.Number == m.Number })
			return s.p.joins(m, ids) && (i < 0 || plan.Seams[i].Rows != 2)
		})
	})
}

// words are what the job file says of a seam, "" for nothing.
func (a SeamAsked) words() string {
	var out []string
	for _, w := range []struct {
		on   bool
		word string
	}{
		{a.One && a.Bolts, "one bolt"}, {a.One && !a.Bolts, "one screw"}, {a.Rows == 1, "one row"}, {a.Rows == 2, "two rows"},
		{a.Site, "site seam"}, {a.Bolts && !a.One, "bolts"}, {a.Screws, "screws"},
	} {
		if w.on {
			out = append(out, w.word)
		}
	}
	return strings.Join(out, ", ")
}

// bolts with washers: where seams are over, and everywhere.
func (s *stander) bolts(t trial) []proposal {
	if t.asked.fixing.Often {
		return nil
	}
	all := t.asked.clone()
	all.fixing.Often = true
	out := []proposal{{"bolts", "bolts with washers at every seam", all, []EditTo{{"fixing.often", "yes"}}}}
	pairs := s.seamsOver(t)
	if len(pairs) == 0 || len(pairs) > mostSeamsNamed {
		return out
	}
	b := t.asked.clone()
	var names []string
	var edits []EditTo
	for _, ids := range pairs {
		if slices.ContainsFunc(b.fixing.Seams, func(a SeamAsked) bool { return s.p.samePair(a.Frames, ids) }) {
			continue
		}
		key := ids[0] + " and " + ids[1]
		b.fixing.Seams = append(b.fixing.Seams, SeamAsked{Key: key, Frames: ids, Bolts: true})
		names, edits = append(names, s.pairText(ids)), append(edits, EditTo{"fixing.seams." + key, "bolts"})
	}
	if len(edits) == 0 {
		return out
	}
	return append([]proposal{{"bolts", "bolts with washers between " + strings.Join(names, ", "), b, edits}}, out...)
}

// pairText names two frames as the papers do.
func (s *stander) pairText(ids [2]string) string { return andList(s.labelled(s.indices(ids[:]))) }

func (p *planner) samePair(a, b [2]string) bool { return a == b || a == [2]string{b[1], b[0]} }

// mostSeamsNamed is how many seams are named one by one.
const mostSeamsNamed = 8

// reinforced are blocks in the corners of frames of boards on edge, plates on
// those of flat ones, where glue alone holds them and there is room.
func (s *stander) reinforced(a outfit) []proposal {
	b := a.clone()
	var edits []EditTo
	said := map[string][]string{}
	for i, k := range s.p.kinds {
		if k.make == 0 || k.round != nil || cornerWords[a.corners[i]] != making.GlueAlone && cornerWords[a.corners[i]] != making.Brads {
			continue
		}
		word := "corner block"
		if k.Flat {
			word = "plate"
		}
		if !s.p.cornerFits(i, word) {
			continue
		}
		b.corners[i] = word
		edits = append(edits, EditTo{"frames." + k.Name + ".corner", word})
		said[word] = append(said[word], k.title())
	}
	if len(edits) == 0 {
		return nil
	}
	var says []string
	for _, word := range []string{"corner block", "plate"} {
		if names := said[word]; names != nil {
			says = append(says, "a "+word+" in every corner of the "+andList(names))
		}
	}
	return []proposal{{"corners", strings.Join(says, ", "), b, edits}}
}

// cornerFits says whether the corners of a kind can be made so.
func (p *planner) cornerFits(kind int, word string) bool {
	q := *p
	q.kinds = slices.Clone(p.kinds)
	k := *q.kinds[kind]
	k.Corner = word
	q.kinds[kind], q.book, q.snags = &k, p.book.Aside(), nil
	_, problems, err := making.Make(q.madeKinds(), q.laidBack(), q.makingShop())
	return err == nil && len(problems) == 0
}

// heldBetter are brackets, and bolts, between the frames and their base.
func (s *stander) heldBetter(t trial) []proposal {
	if !t.under() {
		return nil
	}
	var out []proposal
	for _, x := range []struct {
		word, says string
		each       int
	}{{"brackets", "brackets at the base", 0}, {"brackets", "four brackets at every frame on the base", 4}, {"bolts", "four bolts with washers at every frame on the base", 4}} {
		if t.asked.held(true) == x.word && t.asked.at.HeldEach >= x.each {
			continue
		}
		b := t.asked.clone()
		b.at.Held, b.at.HeldEach = x.word, x.each
		edits := []EditTo{{"standing.held by", x.word}}
		if x.each > 0 {
			edits = append(edits, EditTo{"standing.held at", strconv.Itoa(x.each)})
		}
		out = append(out, proposal{"base joint", x.says, b, edits})
	}
	return out
}

// heldHigher holds the lowest frames at the base that stand on none.
func (s *stander) heldHigher(t trial) []proposal {
	if !t.under() || len(t.asked.at.HeldFrames) > 0 {
		return nil
	}
	more := t.input.NextHeld()
	if len(more) == 0 {
		return nil
	}
	b := t.asked.clone()
	var ids []string
	for _, i := range append(t.input.Held(), more...) {
		ids = append(ids, s.piece.Layout.Frames[i].ID)
	}
	b.at.HeldFrames = ids
	if b.at.Held == "" {
		b.at.Held = usualHeld
	}
	return []proposal{{"held frames", andList(s.labelled(more)) + " held at the base as well, by a post or a block", b,
		[]EditTo{{"standing.held frames", strconv.Quote(strings.Join(ids, ", "))}}}}
}

// rearBraces are struts from high on the back down to the base, half as far
// behind as they are high.
func (s *stander) rearBraces(t trial) []proposal {
	a := t.asked
	lines := 0
	for _, b := range a.base {
		if b.Kind == "brace" {
			lines++
		}
	}
	if lines >= mostBraceLines {
		return nil
	}
	name := freeName(a, "struts")
	mass, wide := 5*unit.Pound, 4*unit.Inch
	if s.p.w.show == unit.Metric {
		mass, wide = 2.5, 100*unit.Millimetre
	}
	var out []proposal
	for _, share := range []float64{0.5, 0.75, 1} {
		for _, n := range []int{2, 4, 6} {
			fixed := s.gridDown(share * s.p.built.Height)
			behind := s.gridUp(fixed.MM() / 2)
			m := s.typable(mass * unit.Mass(n))
			b := a.clone()
			b.base = append(b.base, BaseAsked{Name: name, Kind: "brace", Count: n, Behind: behind, Fixed: fixed, Width: wide, Mass: &m})
			out = append(out, proposal{"brace", fmt.Sprintf("%d braces behind it, fixed %s up, their feet %s behind the frames", n, s.typed(fixed), s.typed(behind)), b,
				[]EditTo{{"base." + name, fmt.Sprintf("{kind: brace, count: %d, behind: %s, fixed: %s, width: %s, weight: %s}", n, s.typed(behind), s.typed(fixed), s.typed(wide), s.typedMass(m))}}})
		}
	}
	return out
}

// mostBraceLines is how many lines of braces, one above the other, are proposed.
const mostBraceLines = 2

// gridDown is the size of the grid below.
func (s *stander) gridDown(mm float64) unit.Length {
	step := s.grid(1, 1000)[0]
	return step * unit.Length(max(1, math.Floor(mm/step.MM())))
}

// lifting is more people, strongbacks, and not lifting it in one at all.
func (s *stander) lifting(t trial) []proposal {
	if t.asked.lift.InPlace || !(s.liftOver(t) || t.strength != nil && liftsOver(*t.strength)) {
		return nil
	}
	var out []proposal
	if t.asked.lift.Strongbacks == "" || t.asked.lift.Strongbacks == "none" {
		for _, way := range []string{"level", "upright"} {
			if !s.p.backsFit(way) {
				continue
			}
			b := t.asked.clone()
			b.lift.Strongbacks = way
			out = append(out, proposal{"strongbacks", "two strongbacks across its back on the way, " + way, b, []EditTo{{"lifting.strongbacks", way}}})
		}
	}
	x := s.lifts(t)
	for n := 1; n <= len(x.Carry); n++ {
		if n > max(x.People, t.asked.lift.People) && x.Carry[n-1].Found && (s.p.lifters() == 0 || n <= s.p.lifters()) {
			b := t.asked.clone()
			b.lift.People = n
			out = append(out, proposal{"people", fmt.Sprintf("%d people to carry it", n), b, []EditTo{{"lifting.people", strconv.Itoa(n)}}})
			break
		}
	}
	b := t.asked.clone()
	b.lift.InPlace = true
	return append(out, proposal{"in place", "build it up frame by frame where it stands, and never lift it in one", b, []EditTo{{"lifting.in place", "yes"}}})
}

func liftsOver(p stand.StrengthPlan) bool {
	return slices.ContainsFunc(p.Cases, func(c stand.CaseResult) bool { return c.Lift && c.Governs.Ratio > 1 })
}
