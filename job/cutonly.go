package job

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/frame"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A CutSpec is a bare cut list as asked: parts that belong to no frame, and
// what of a Spec concerns boards and the saw. Its Kinds and Layout stay empty.
type CutSpec struct {
	Spec
	Parts []ListPart
}

// A ListPart is a stick wanted Count times, and Spare more. Outside is its
// length along the outside; Left and Right are its ends, from straight across,
// positive when the inside comes out shorter.
type ListPart struct {
	Name        string // "": Cut names it, P1 the shortest
	Timber      string // "" for the only one
	Flat        bool   // the width lies in the plane that the ends slant across
	Outside     unit.Length
	Left, Right unit.Angle
	Count       int
	Spare       int
	Path        string // where it stands, for snags
}

// OnlyCut is the banner of a bare cut list.
const OnlyCut = "This is a bare cut list: only the cutting was worked out. Nothing here says what the parts are for, or that anything built of them stands."

// Cut works out how a bare list of parts is cut: a Result that has timber, the
// saw and what was assumed, and no frames. The order of the parts changes
// nothing: they are cut as their lengths have it. Snags and error are Plan's.
func Cut(ctx context.Context, spec CutSpec, cat Catalogue) (Result, snag.List, error) {
	return startCut(spec, cat).runCut(ctx, spec)
}

// runCut cuts a list once its boards are settled.
func (p *planner) runCut(ctx context.Context, spec CutSpec) (Result, snag.List, error) {
	if p.err != nil || p.snags.Stops() {
		p.snags.Sort()
		return Result{}, p.snags, p.err
	}
	return p.cutList(ctx, p.listStacks(merged(p.onBoards(spec.Parts))))
}

// startCut settles what the boards and the saw are.
func startCut(spec CutSpec, cat Catalogue) *planner {
	p := start(spec.Spec, cat)
	p.settle()
	p.spec.Mark = p.set.mark
	p.w = newScribe(p.spec)
	if len(p.spec.Timber) == 0 {
		p.snag(snagTimberMissing, "timber", "", "no boards are described to cut the parts from",
			"write timber: and under it a name with its boards, or name a stock file with --stock")
		return p
	}
	p.boards()
	for _, q := range spec.Parts {
		p.checkListPart(q)
	}
	return p
}

// own gives the names of the boards that parts without a timber may mean: those
// of the list and its stock, else those of the shop file.
func (p *planner) own() (names []string) {
	for _, from := range []bool{false, true} {
		for _, t := range p.spec.Timber {
			if (t.From == assume.Shop.String()) == from {
				names = append(names, t.Name)
			}
		}
		if len(names) > 0 {
			break
		}
	}
	return names
}

// onBoards gives the parts with their boards named.
func (p *planner) onBoards(parts []ListPart) []ListPart {
	parts = slices.Clone(parts)
	for i := range parts {
		if parts[i].Timber == "" {
			parts[i].Timber = p.own()[0]
		}
	}
	return parts
}

// cutList cuts stacks and fills in what else stands on the papers.
func (p *planner) cutList(ctx context.Context, stacks []stack) (Result, snag.List, error) {
	r := &p.result
	s := p.spec
	mark, _, _ := unit.MarkName(p.set.mark)
	r.Format, r.Version, r.Banner = "bowerwright result", 1, OnlyCut
	r.Job = JobFacts{Name: s.Name, For: s.For, Date: s.Date, Venue: s.Venue, Maker: s.Maker, Note: s.Note, Show: s.Show, Paper: s.Paper,
		Finest: mark, Tolerance: p.w.fine(p.set.tolerance.MM()), Gap: p.w.fine(p.set.gap.MM())}
	p.sawFacts()
	r.Cautions = cautions()
	if p.err != nil || p.snags.Stops() {
		p.snags.Sort()
		return Result{}, p.snags, p.err
	}
	if err := p.cutStacks(ctx, stacks); err != nil {
		return Result{}, nil, err
	}
	if p.snags.Stops() {
		return p.stopped(ctx)
	}
	for _, t := range r.Timber {
		for _, q := range t.Parts {
			r.Overall.PartCount += q.Saw
		}
	}
	p.finish()
	r.Assumed = slices.DeleteFunc(r.Assumed, func(a AssumedFacts) bool { return !sawing(a.ID) })
	empty(&r.Kinds)
	empty(&r.Frames)
	p.snags.Sort()
	return p.result, p.snags, nil
}

// sawing tells whether an assumption bears on how boards are sawn; a bare list
// rests on no other.
func sawing(id string) bool {
	for _, group := range []string{"cut.", "saw.", "rough.", "tape."} {
		if strings.HasPrefix(id, group) {
			return true
		}
	}
	return strings.HasPrefix(id, "timber.") && strings.HasSuffix(id, ".thickness, width")
}

// checkListPart says when a part has no boards.
func (p *planner) checkListPart(q ListPart) {
	names := p.own()
	_, known := p.timber[q.Timber]
	switch {
	case q.Timber == "" && len(names) > 1:
		p.snag(snagListTimber, q.Path, q.Name, "the part does not say from which boards, and there are several", "write the timber: "+strings.Join(names, ", "))
	case q.Timber != "" && !known:
		remedy := "write one of: " + strings.Join(names, ", ")
		if near := snag.DidYouMean(q.Timber, names); near != "" {
			remedy = fmt.Sprintf("did you mean %s?", near)
		}
		p.snag(snagListTimber, q.Path, q.Timber, fmt.Sprintf("no boards are called %q", q.Timber), remedy)
	}
}

var snagListTimber = define("list-timber", "A part of a cut list names boards that are not there, or none where there are several.")

// merged gives the parts in the order of their lengths, those of one name
// together, and names those that have none.
func merged(parts []ListPart) []ListPart {
	parts = slices.Clone(parts)
	slices.SortStableFunc(parts, func(a, b ListPart) int {
		return cmp.Or(cmp.Compare(a.Outside, b.Outside), cmp.Compare(a.Left, b.Left), cmp.Compare(a.Right, b.Right),
			cmp.Compare(a.Name, b.Name), cmp.Compare(a.Timber, b.Timber), cmp.Compare(laid(a.Flat), laid(b.Flat)), cmp.Compare(a.Count, b.Count), cmp.Compare(a.Spare, b.Spare))
	})
	var out []ListPart
	for _, q := range parts {
		if n := len(out) - 1; n >= 0 && q.sawnAs(out[n]) {
			out[n].Count += q.Count
			out[n].Spare += q.Spare
			continue
		}
		out = append(out, q)
	}
	for i := range out {
		if out[i].Name == "" {
			out[i].Name = fmt.Sprintf("P%d", i+1)
		}
	}
	return out
}

// sawnAs says whether two rows of a list are one part.
func (q ListPart) sawnAs(o ListPart) bool {
	q.Count, q.Spare, q.Path = o.Count, o.Spare, o.Path
	return q == o
}

// listStacks sorts the parts of a list by timber and by how they lie.
func (p *planner) listStacks(parts []ListPart) []stack {
	p.saw = p.sawRecord()
	var out []stack
	for _, t := range p.spec.Timber {
		for _, flat := range []bool{false, true} {
			s := p.newStack(p.timber[t.Name], flat)
			if t.Species == "" { // nothing is weighed: no species is assumed
				s.facts.Species, p.speciesAssumed = "", false
			}
			for _, q := range parts {
				if q.Timber == t.Name && q.Flat == flat {
					s.add(p.listStick(q, p.timber[t.Name]), t)
				}
			}
			if len(s.sticks) > 0 {
				out = append(out, s)
			}
		}
	}
	return out
}

// listStick is a part of a list as it is wanted from the boards.
func (p *planner) listStick(q ListPart, b board) stick {
	on := frame.Boards{Thickness: b.thickness, Width: b.width, OnEdge: !q.Flat}
	s := stick{mark: q.Name, path: q.Path, outside: q.Outside, left: q.Left, right: q.Right, need: q.Count, spare: q.Spare}
	tips := stack{depth: on.Depth()}.tips(s)
	sawing := p.sawFor(&shape{board: b}).Cut(on, frame.Part{Outside: q.Outside, TipToTip: tips, Start: q.Left, End: q.Right}, p.trims())
	s.rough, s.way = sawing.Rough, sawing.Start.Way.String()
	if sawing.End.Way != sawing.Start.Way && q.Left == 0 {
		s.way = sawing.End.Way.String()
	}
	if sawing.WayOut != frame.NoneNeeded {
		reason := sawing.Start.Reason
		if reason == frame.Reaches {
			reason = sawing.End.Reason
		}
		p.reachNote(q.Path, q.Name, reason.String(), "Saw it square to its rough length, then trim each such end clamped to a square block, never freehand; or choose other ends.")
	}
	return s
}
