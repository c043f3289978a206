// Package job is the one pipeline: a Spec in, a Result out.
//
// Plan walks the steps in the order of the work: the boards and the saw, an
// outline for every kind of frame, the layout as asked, lengths taken to the
// tape, the layout as built, how every part is sawn, boards cut with proof, and
// the figures of the papers. Whatever the user must put right is collected on
// the way and returned all at once, sorted by place; what is merely worth
// knowing becomes a Note of the Result.
//
// The package is pure: it reads no files and no clock. It knows nothing of
// paper or screens.
package job

import (
	"context"
	"fmt"
	"strings"

	"bowerwright/assume"
	"bowerwright/fixing"
	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/price"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A planner is one run of Plan.
type planner struct {
	spec   Spec
	cat    Catalogue
	w      scribe
	book   *assume.Reader
	set    settings
	snags  snag.List
	err    error // a fault of whoever made the Spec
	result Result

	timber         map[string]board
	speciesAssumed bool
	kinds          []*shape
	kindAt         map[string]int
	refusedKinds   map[string]bool // named in a snag already

	asked, built layout.Layout
	fixed        fixing.Plan   // of the layout as built
	bare         layout.Layout // as built, without gaps at the seams
	labels       []string      // of the frames, by their index in the layout
	saw          frame.Saw
	sawings      []sawn
	pieces       []piece
	done         *Progress     // what is sawn already, nil for nothing
	input        string        // what the papers before were made from, by its SHA-256
	making       making.Plan   // as makeUp leaves it
	offers       []price.Offer // what things cost, the strongest last
	ways         waysWanted
}

// Plan works a job out. With snags that stop it the Result is incomplete and
// must not be shown. The error is the context's, or a fault of the program: a
// Spec that no job file gives among them.
func Plan(ctx context.Context, spec Spec, cat Catalogue) (Result, snag.List, error) {
	return start(spec, cat).run(ctx)
}

// run walks the steps.
func (p *planner) run(ctx context.Context) (Result, snag.List, error) {
	// A shape that cannot be made does not hide what is wrong with the layout of
	// the others.
	p.prepare()
	p.layAsked()
	for _, step := range []func(){p.layBuilt, p.facts, p.fixAndMake} {
		if p.err != nil {
			return Result{}, nil, p.err
		}
		if p.snags.Stops() {
			return p.stopped(ctx)
		}
		step()
	}
	if p.err != nil {
		return Result{}, nil, p.err
	}
	if p.snags.Stops() {
		return p.stopped(ctx)
	}
	if err := p.cutAll(ctx); err != nil {
		return Result{}, nil, err
	}
	if p.snags.Stops() {
		return p.stopped(ctx)
	}
	p.buy()
	if p.snags.Stops() {
		return p.stopped(ctx)
	}
	p.finish()
	p.snags.Sort()
	return p.result, p.snags, nil
}

// fixAndMake comes before the boards are cut, since corner blocks, battens and
// strongbacks are sawn from them too.
func (p *planner) fixAndMake() {
	p.fix()
	p.makeUp()
	p.stands()
	p.sections()
	p.backPieces()
	p.basePieces()
}

// start fills in which units come first and which paper is used.
func start(spec Spec, cat Catalogue) *planner {
	if spec.Show == "" {
		spec.Show = "us"
	}
	if spec.Paper == "" {
		spec.Paper = map[string]string{"us": "letter", "metric": "a4"}[spec.Show]
	}
	return &planner{spec: spec, cat: cat, w: newScribe(spec)}
}

// prepare settles every figure that is given or assumed, and draws the shapes.
func (p *planner) prepare() {
	p.settle()
	p.spec.Mark = p.set.mark
	p.w = newScribe(p.spec)
	p.gatherOffers()
	p.boards()
	p.makeShapes()
	p.checkRound()
}

func (p *planner) stopped(ctx context.Context) (Result, snag.List, error) {
	p.snags.Sort()
	return Result{}, p.snags, ctx.Err()
}

// layAsked lays the frames out as asked.
func (p *planner) layAsked() {
	if p.err != nil || len(p.kinds) == 0 {
		return
	}
	var problems []layout.Problem
	p.asked, problems = p.lay(p.set.gap, func(s *shape) layout.Kind {
		return s.laid(s.outline.Corners, s.asked.Inside)
	}, nil)
	for _, problem := range problems {
		p.layoutSnag(problem)
	}
	p.checkCopies()
	p.checkFaces()
}

// layBuilt takes the sides to the tape and lays the frames out again as they
// will be.
func (p *planner) layBuilt() {
	p.families(p.asked)
	p.roundAll()
	if p.snags.Stops() {
		return
	}
	built := func(s *shape) layout.Kind { return s.laid(s.built.Built.Corners, s.built.Inside) }
	var problems []layout.Problem
	p.built, problems = p.lay(p.set.gap, built, &p.asked)
	for _, problem := range problems {
		p.builtNote(problem)
	}
	p.bare, _ = p.lay(0, built, &p.asked)
}

func (p *planner) lay(gap unit.Length, of func(*shape) layout.Kind, as *layout.Layout) (layout.Layout, []layout.Problem) {
	var kinds []layout.Kind
	for _, s := range p.kinds {
		kinds = append(kinds, of(s))
	}
	given := func(l unit.Length) float64 { return max(l.MM(), closedGap) } // 0 would be the layout's own default
	return build(p.spec, kinds, layout.Settings{
		Gap: gap.MM(), JointTolerance: given(p.set.tolerance), NearMiss: given(p.set.near), Heights: p.set.heights,
	}, as)
}

// layoutSnag says what is wrong with a line of the layout.
func (p *planner) layoutSnag(q layout.Problem) {
	path := "layout"
	if q.Frame != "" {
		path = "layout." + q.Frame
	}
	off := layout.Direction(q.Off, func(mm float64) string { return p.w.text(p.w.fine(mm)) })
	if off == "" {
		off = "less than can be measured"
	}
	if turn := q.OffTurn.Degrees(); turn > 0.01 || turn < -0.01 {
		off += fmt.Sprintf(", turned by %s", q.OffTurn)
	}
	switch q.Code {
	case layout.UnknownKind:
		if !p.refusedKinds[q.Name] {
			p.fault("layout of %q: no kind %q", q.Frame, q.Name)
		}
	case layout.UnknownSide, layout.UnknownCorner:
		p.snag(snagLayout, path, fmt.Sprint(q.Number), fmt.Sprintf("%s has no side or corner %d", q.Name, q.Number), fmt.Sprintf("write 1 to %d", q.Most))
	case layout.OpenSide:
		p.snag(snagLayout, path, fmt.Sprint(q.Number), fmt.Sprintf("side %d of %s is the floor: there is no board", q.Number, q.Name), "lie against another side")
	case layout.Cycle:
		p.snag(snagCycle, path, strings.Join(q.Frames, ", "), "these frames are attached to each other in a ring: "+strings.Join(q.Frames, ", "), "give one of them a position, such as: big at 0, 0")
	case layout.LoopOpen:
		p.snag(snagLoop, path, q.Frame, fmt.Sprintf("the loop does not close: %s lies %s from where it would meet %s", q.Frame, off, q.Name),
			"change a size, an alignment or a shift in the loop, or leave out one of the two attachments")
	case layout.Overlapping:
		p.snag(snagOverlap, path, q.Frame, fmt.Sprintf("%s and %s overlap by %s or more of their boards", q.Frame, q.Name, p.w.text(p.w.fine(q.Depth))), "move one of them clear of the other, such as side on side, or make it smaller")
	case layout.NothingPlaced:
		if len(p.spec.Layout) > 0 {
			return // what keeps each line from being placed is a problem of its own
		}
		p.snag(snagFrames, "frames", "", "no frame is placed", "write at least one line under layout, such as B1: big at 0, 0")
	default:
		p.fault("layout of %q: %s %s", q.Frame, q.Code, q.Name)
	}
}

// builtNote tells what taking lengths to the tape does to a layout that was
// right as asked: it does not stop the job, since a joint can be shimmed.
func (p *planner) builtNote(q layout.Problem) {
	fine := func(mm float64) string { return p.w.text(p.w.fine(mm)) }
	switch q.Code {
	case layout.LoopOpen:
		p.note("loop-after-rounding", "layout."+q.Frame,
			fmt.Sprintf("with lengths on the tape %s lies %s from where it would meet %s", q.Frame, layout.Direction(q.Off, fine), q.Name),
			"Name the frames of the loop a family, use a finer mark, or shim that seam.")
	case layout.Overlapping:
		p.note("overlap-after-rounding", "layout."+q.Frame,
			fmt.Sprintf("with lengths on the tape %s and %s press %s into each other", q.Frame, q.Name, fine(q.Depth)),
			"Name the frames a family or use a finer mark.")
	default:
		p.layoutSnag(q)
	}
}
