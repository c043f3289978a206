package job

import (
	"fmt"
	"slices"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/snag"
	"bowerwright/unit"
)

// FloorFacts are what is seen while frames are laid out: what follows from
// shapes and places alone. Nothing is cut, bought or reckoned.
type FloorFacts struct {
	Job    JobFacts    `json:"job"`
	Mark   Mark        `json:"mark"`
	Gap    float64     `json:"gap"`    // mm, between the faces of every seam
	Origin XY          `json:"origin"` // where the job file's 0, 0 lies
	Kinds  []FloorKind `json:"kinds"`  // every kind that can be made, placed or not
	Frames []Placed    `json:"frames"` // in the order of the job file, copies last
	Seams  []FloorSeam `json:"seams"`
	Near   []FloorPair `json:"near"`     // frames that nearly meet
	Over   []FloorPair `json:"overlaps"` // frames in the same place
	Width  Size        `json:"width"`
	Height Size        `json:"height"`
	Weight Weight      `json:"weight"` // timber of the placed frames
	Notes  []Note      `json:"notes"`

	// AsAsked says that sizes are those asked for: something stops the frames
	// from being taken to the tape.
	AsAsked bool `json:"as_asked"`
}

// A Mark is the finest mark on the tape.
type Mark struct {
	MM   float64 `json:"mm"`
	Text string  `json:"text"`
}

// A FloorKind is a kind of frame in its own coordinates.
type FloorKind struct {
	Name    string      `json:"name"`
	Letter  string      `json:"letter"`
	Title   string      `json:"title"`
	Shape   string      `json:"shape"`
	Open    bool        `json:"open"`
	Outline []XY        `json:"outline"`
	Inside  []XY        `json:"inside"`
	Placed  int         `json:"placed"`
	Spare   int         `json:"spare"`
	Sides   []FloorSide `json:"sides"`
}

// A FloorSide is a side that another frame can lie against.
type FloorSide struct {
	Number int  `json:"n"`
	Length Size `json:"length"`
}

// A Placed frame: Place is its line of the job file, that of a copy a position.
type Placed struct {
	Place   `json:"-"`
	Move    geom.Move `json:"-"` // from the kind's coordinates to the job file's
	CopyOf  string    `json:"copy_of"`
	Label   string    `json:"label"`
	Outline []XY      `json:"outline"`
	Inside  []XY      `json:"inside"`
	Centre  XY        `json:"centre"`
}

// A FloorSeam is a seam by the ids of its frames.
type FloorSeam struct {
	Number   int
	Frames   [2]string
	Sides    [2]int
	From, To XY
	Length   Size
}

// A FloorPair is something between two frames, in words.
type FloorPair struct {
	A   string `json:"a"`
	B   string `json:"b"`
	Say string `json:"say"`
}

// Floor works out what is seen of a job while it is laid out, in a time that
// nobody waits for. Unlike Plan it takes a Spec that is not whole, as Read gives
// with snags: what cannot be placed is left out. The snags are those that Plan
// would find up to there; snags of what is left out are the reader's.
func Floor(spec Spec, cat Catalogue) (FloorFacts, snag.List, error) {
	p := start(known(spec), cat)
	p.prepare()
	p.layAsked()
	whole := p.err == nil && !p.snags.Stops() && len(p.kinds) > 0
	if whole {
		p.layBuilt()
		whole = p.err == nil && !p.snags.Stops()
	}
	if whole {
		p.facts()
	}
	if p.err != nil {
		return FloorFacts{}, nil, p.err
	}
	out := FloorFacts{Notes: slices.Clone(p.result.Notes), AsAsked: !whole}
	l := p.built
	if !whole {
		l = p.seen()
	}
	p.floorFacts(&out, l, whole)
	p.snags.Sort()
	return out, p.snags, nil
}

// known leaves out of a Spec what names something that is not there.
func known(s Spec) Spec {
	timber, kinds, ids := map[string]bool{"": true}, map[string]bool{}, map[string]bool{}
	for _, t := range s.Timber {
		timber[t.Name] = true
	}
	s.Kinds = slices.DeleteFunc(slices.Clone(s.Kinds), func(k Kind) bool {
		_, ok := ShapeNamed(k.Shape)
		kinds[k.Name] = ok && timber[k.Timber]
		return !kinds[k.Name]
	})
	s.Layout = slices.Clone(s.Layout)
	for before := -1; before != len(s.Layout); { // what held on to what goes, goes too
		before = len(s.Layout)
		clear(ids)
		for _, p := range s.Layout {
			ids[p.ID] = true
		}
		s.Layout = slices.DeleteFunc(s.Layout, func(p Place) bool {
			return !kinds[p.Kind] || slices.ContainsFunc(p.Attach, func(a Attach) bool { return !ids[a.To] })
		})
	}
	s.Copies = slices.DeleteFunc(slices.Clone(s.Copies), func(c Copy) bool {
		if len(c.From) != len(c.As) || slices.ContainsFunc(c.From, func(id string) bool { return !ids[id] }) {
			return true
		}
		for _, id := range c.As {
			ids[id] = true
		}
		return false
	})
	var families [][]string
	for _, f := range s.Families {
		if !slices.ContainsFunc(f, func(name string) bool { return !kinds[name] }) {
			families = append(families, f)
		}
	}
	s.Families = families
	if s.Test != nil && !kinds[s.Test.Kind] {
		s.Test = nil
	}
	return s
}

// seen is the layout as asked with all that is wrong in it: copies stand in it
// even where something overlaps.
func (p *planner) seen() layout.Layout {
	var kinds []layout.Kind
	for _, s := range p.kinds {
		kinds = append(kinds, s.laid(s.outline.Corners, s.asked.Inside))
	}
	places := layoutPlaces(p.spec.Layout)
	set := layout.Settings{Gap: p.set.gap.MM(), JointTolerance: max(p.set.tolerance.MM(), closedGap),
		NearMiss: max(p.set.near.MM(), closedGap), Heights: p.set.heights}
	l, _ := layout.Build(kinds, places, set)
	if len(p.spec.Copies) > 0 {
		l, _ = layout.Build(kinds, append(places, copies(p.spec, l)...), set)
	}
	return l
}

func (p *planner) floorFacts(out *FloorFacts, l layout.Layout, whole bool) {
	if !whole {
		p.letters()
	}
	s := p.spec
	text, _, _ := unit.MarkName(p.set.mark)
	out.Job = JobFacts{Name: s.Name, For: s.For, Date: s.Date, Venue: s.Venue, Maker: s.Maker, Note: s.Note, Show: s.Show, Paper: s.Paper,
		Finest: text, Tolerance: p.w.fine(p.set.tolerance.MM()), Gap: p.w.fine(p.set.gap.MM())}
	out.Mark, out.Gap, out.Origin = Mark{p.set.mark.MM(), text}, micro(p.set.gap.MM()), p.w.xy(l.Origin)
	out.Width, out.Height = p.w.whole(l.Width), p.w.whole(l.Height)
	p.floorKinds(out, l, whole)
	p.floorFrames(out, l)
	for _, q := range l.Seams {
		seam := FloorSeam{Number: q.Number, From: p.w.xy(q.From), To: p.w.xy(q.To), Length: p.w.cut(q.Length)}
		for i, side := range q.Sides {
			seam.Frames[i], seam.Sides[i] = l.Frames[side.Frame].ID, side.Side
		}
		out.Seams = append(out.Seams, seam)
	}
	for _, m := range l.Misses {
		out.Near = append(out.Near, FloorPair{l.Frames[m.Frames[0]].ID, l.Frames[m.Frames[1]].ID, p.w.text(p.w.fine(m.Distance)) + " apart"})
	}
	for _, o := range l.Overlaps {
		out.Over = append(out.Over, FloorPair{l.Frames[o.Frames[0]].ID, l.Frames[o.Frames[1]].ID, p.w.text(p.w.fine(o.Depth)) + " into each other"})
	}
	empty(&out.Kinds)
	empty(&out.Frames)
	empty(&out.Seams)
	empty(&out.Near)
	empty(&out.Over)
	empty(&out.Notes)
}

func (p *planner) floorKinds(out *FloorFacts, l layout.Layout, whole bool) {
	placed := map[string]int{}
	for _, f := range l.Frames {
		placed[f.Kind]++
	}
	var mass unit.Mass
	for _, k := range p.kinds {
		corners, inside := k.outline.Corners, k.asked.Inside
		if whole {
			corners, inside = k.built.Built.Corners, k.built.Inside
			mass += k.mass() * unit.Mass(placed[k.Name])
		}
		kind := FloorKind{Name: k.Name, Letter: k.letter, Title: k.title(), Shape: k.def.Name, Open: k.outline.Open,
			Outline: p.w.outline(corners), Inside: p.w.outline(inside), Placed: placed[k.Name], Spare: k.Spare}
		for i := range k.outline.Sides() {
			kind.Sides = append(kind.Sides, FloorSide{i + 1, p.w.cut(corners[i].Dist(corners[(i+1)%len(corners)]))})
		}
		out.Kinds = append(out.Kinds, kind)
	}
	out.Weight = p.w.weight(mass)
}

func (p *planner) floorFrames(out *FloorFacts, l layout.Layout) {
	lines, originals := map[string]Place{}, map[string]string{}
	for _, q := range p.spec.Layout {
		lines[q.ID] = q
	}
	for _, c := range p.spec.Copies {
		for i, id := range c.As {
			originals[id] = c.From[i]
		}
	}
	moves, _ := movesAsTyped(l)
	for _, f := range l.Frames {
		q := lines[f.ID]
		if originals[f.ID] != "" {
			at := moves[f.ID].Shift
			q = Place{ID: f.ID, Kind: f.Kind, Mirror: f.Move.Mirror, Turn: unit.Angle(f.Move.Turn), At: &at}
		}
		k := p.kinds[p.kindAt[f.Kind]]
		out.Frames = append(out.Frames, Placed{Place: q, Move: moves[f.ID], CopyOf: originals[f.ID], Label: fmt.Sprintf("%s%d", k.letter, f.Number),
			Outline: p.w.outline(f.Outside), Inside: p.w.outline(f.Inside), Centre: p.w.xy(f.Centre)})
	}
}
