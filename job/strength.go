package job

import (
	"cmp"
	"context"
	"slices"

	"bowerwright/base"
	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/stand"
	"bowerwright/unit"
)

// Ways of holding the frames to the base, by their words in the job file.
var heldWords = map[string]stand.BaseMethod{"screws": stand.ScrewedUp, "brackets": stand.Bracketed, "bolts": stand.BoltedDown, "nothing": stand.NotHeld}

// usualHeld is what is reckoned with where the job has a base and does not say
// how the frames are held to it: screws from below are what most makers drive
// first (common practice, no source). Without a base there is nothing to hold to.
const usualHeld = "screws"

// held is how the frames are held to the base, as a word of the job file.
func (a outfit) held(under bool) string {
	if !under {
		return "nothing"
	}
	return cmp.Or(a.at.Held, usualHeld)
}

// strong reckons the strength of a trial that has its footing.
func (s *stander) strong(t *trial) {
	if !t.footing || t.strength != nil || s.p.err != nil {
		return
	}
	plan, ok := s.fixedAs(t.asked.fixing)
	if !ok {
		return
	}
	in := s.strengthInput(*t, plan)
	// The budget of package stand is counted work: nothing cancels it half way.
	out, problems, err := stand.Strength(context.Background(), in, s.bears)
	if err != nil {
		s.p.fault("%v", err)
		return
	}
	t.strength, t.weak, t.input = &out, problems, in
}

// fixedAs is how seams are fixed if the job asks so; ok is false where it cannot
// be.
func (s *stander) fixedAs(a FixingAsked) (fixing.Plan, bool) {
	if s.p.sameFixing(a) {
		return s.p.fixed, true
	}
	q := *s.p
	q.spec.Fixing, q.snags, q.book = a, nil, s.p.book.Aside()
	choices := q.choices()
	if q.snags.Stops() {
		return fixing.Plan{}, false
	}
	plan, problems := fixing.Fix(q.built, q.fixingBoards(), q.fixingSettings(choices, q.hooksAsked()))
	return plan, !slices.ContainsFunc(problems, func(x fixing.Problem) bool { return x.Code == fixing.NoScrew })
}

func (p *planner) sameFixing(a FixingAsked) bool {
	return a.Often == p.spec.Fixing.Often && a.Rows == p.spec.Fixing.Rows && slices.Equal(a.Seams, p.spec.Fixing.Seams)
}

func (s *stander) strengthInput(t trial, plan fixing.Plan) stand.StrengthInput {
	in := stand.StrengthInput{Layout: s.piece.Layout, Fixing: plan, Bare: t.bare, States: t.states, Loads: t.loaded.StrengthLoads(),
		Lifted: t.setup.Stance.Lift, Lean: s.rules.Lean, Damp: t.asked.at.Where == outdoors}
	for i, f := range s.piece.Layout.Frames {
		at := s.p.kindAt[f.Kind]
		k := s.p.kinds[at]
		in.Frames = append(in.Frames, stand.StrengthFrame{Boards: k.boards, Gravity: k.board.speciesFrom.Gravity, Mass: s.piece.Frames[i].Mass,
			Corner: cornerWords[t.asked.corners[at]]})
	}
	in.Base = s.baseJoint(t)
	in.Braces = s.struts(t)
	in.Tethered = s.indices(t.asked.at.Lines)
	in.Strongbacks = s.strongbacks(t.asked.lift.Strongbacks)
	if !t.asked.lift.InPlace {
		in.Lift = &stand.LiftInput{Rules: s.rules.Lift, Lifts: s.lifts(t), People: t.asked.lift.People}
	}
	return in
}

func (t trial) under() bool {
	return slices.ContainsFunc(t.pieces, func(p base.Piece) bool { return p.Under })
}

func (s *stander) baseJoint(t trial) stand.BaseJoint {
	j := stand.BaseJoint{Method: heldWords[t.asked.held(t.under())], Each: t.asked.at.HeldEach}
	for _, p := range t.pieces {
		if p.Under {
			j.Sheet = max(j.Sheet, p.Thickness)
		}
	}
	if len(t.asked.at.HeldFrames) > 0 {
		j.Frames = s.indices(t.asked.at.HeldFrames)
	}
	return j
}

// indices are the places of frames in the layout, by their ids.
func (s *stander) indices(ids []string) []int {
	var out []int
	for _, id := range ids {
		out = append(out, slices.IndexFunc(s.piece.Layout.Frames, func(f layout.Frame) bool { return f.ID == id }))
	}
	return out
}

// struts are the braces of the base: from their height on the back down to their
// feet.
func (s *stander) struts(t trial) []stand.Brace {
	var out []stand.Brace
	for i, p := range t.pieces {
		if p.Kind != base.Brace {
			continue
		}
		a := t.asked.base[t.owners[i]]
		out = append(out, stand.Brace{At: geom.Point{X: p.At.X, Y: a.Fixed.MM()}, Behind: a.Behind.MM(), Boards: s.plainBoards()})
	}
	return out
}

// plainBoards are the first frame's: braces and strongbacks are made of what is
// there.
func (s *stander) plainBoards() frame.Boards {
	return s.p.kinds[s.p.kindAt[s.piece.Layout.Frames[0].Kind]].boards
}

// section is the whole piece without its base, undressed, as it is lifted.
func (s *stander) section(t trial) stand.Section {
	masses := make([]unit.Mass, len(s.piece.Frames))
	for i, f := range s.piece.Frames {
		masses[i] = f.Mass
	}
	return stand.Section{Layout: s.piece.Layout, Frames: masses, Mass: t.bare.Dry.Mass, Middle: t.bare.Dry.At, Back: t.bare.Dry.Back, Depth: s.deep, Lift: t.setup.Stance.Lift}
}

// lifts does not change with dressing and base, but for how high frames go when
// they are built up.
func (s *stander) lifts(t trial) stand.Lifts {
	lift := t.setup.Stance.Lift
	if l, ok := s.lifted[lift]; ok {
		return l
	}
	if s.lifted == nil {
		s.lifted = map[float64]stand.Lifts{}
	}
	s.lifted[lift] = s.rules.Lift.Lifts(s.section(t), carryWork)
	return s.lifted[lift]
}

// liftOver says whether some lift wants more people than there are, or than work
// as one team.
func (s *stander) liftOver(t trial) bool {
	x := s.lifts(t)
	crew := max(x.People, x.Tilt.People)
	over := x.People == 0 || x.Tilt.People == 0
	if t.asked.lift.InPlace {
		crew, over = 0, false
		for _, r := range x.Built {
			crew = max(crew, r.Crew.People)
			over = over || r.Crew.People == 0
		}
	}
	n := s.p.lifters()
	return over || n > 0 && crew > n
}

// lifters is how many people the job names who lift.
func (p *planner) lifters() int {
	n := 0
	for _, q := range p.spec.People {
		if q.Lifts {
			n++
		}
	}
	return n
}

// loose says whether frames can move without resistance.
func (t trial) loose() bool { return t.strength != nil && len(t.strength.Loose) > 0 }

// weakest is what strength uses of its limit, and its word; a piece that cannot
// be reckoned is over.
func (t trial) weakest() (ratio float64, word string) {
	if t.strength == nil {
		return 0, ""
	}
	ratio, word = t.strength.Governs.Ratio, t.strength.Word
	if word == stand.Over && ratio <= 1 {
		ratio = mostRatio
	}
	return ratio, word
}
