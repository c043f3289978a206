package job

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/fixing"
	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/stock"
	"bowerwright/unit"
)

// makingFacts fills Result.Making from the plan; back is the layout from behind.
func (p *planner) makingFacts(plan making.Plan, shop making.Shop, back layout.Layout) {
	r := shop.Rates
	m := MakingFacts{Hands: max(1, p.spec.Making.Hands), Lay: p.layFacts(plan.Lay, r, back)}
	for _, s := range p.spec.Making.Straps {
		m.Straps = append(m.Straps, p.w.whole(s.MM()))
	}
	m.Glue = GlueFacts{Shop: p.w.warmth(r.Glue.Shop), Least: p.w.warmth(r.Glue.Least), OpenTime: p.w.lasts(math.Floor(r.Glue.OpenTime() + wholeTime)),
		Wait: p.w.lasts(r.Glue.SizeWait), Hold: p.w.lasts(r.Glue.Hold), Flat: p.w.lasts(r.Glue.Flat), Full: p.w.lasts(r.Glue.Full)}
	for _, k := range plan.Kinds {
		m.Kinds = append(m.Kinds, p.madeFacts(k, r))
	}
	for _, g := range plan.Goes {
		m.Goes = append(m.Goes, p.goFacts(plan, g))
	}
	m.Finish = p.finishFacts(plan.Finish, r, back)
	m.emptyLists()
	p.result.Making = m
}

func (p *planner) madeFacts(k making.KindPlan, r making.Rates) MadeFacts {
	s, g := p.kinds[p.kindAt[k.Name]], k.GlueUp
	f := MadeFacts{
		Kind: k.Name, Letter: s.letter, Title: s.title(), Count: k.Count,
		Method: string(g.Method), Why: g.Why(), Asked: g.Asked, Tried: p.tried(g), Help: helpText(g),
		Joints: g.Joints, Row: p.w.whole(g.Row), PerGo: g.PerGo, Strapped: g.Strapped, Layers: s.layers(),
		Clear: p.w.looked(g.Clear), Wipe: g.Wipe, Steps: p.w.steps(g.Steps),
		Corner: cornerName(k.Corners.Choice), CornerHow: k.Corners.How, Pieces: p.pieceFacts(s, k),
		Within: p.w.fine(r.Tolerance), Ways: len(k.Alike), Turns: p.turnsText(k.Alike), Areas: p.areas(k.Areas),
	}
	if t := k.Corners.Tape; t.Strips > 0 {
		f.Tape = &TapeFacts{t.Strips, p.w.looked(t.Width), p.w.whole(t.Length)}
	}
	for _, i := range g.Straps {
		f.Straps = append(f.Straps, i+1)
	}
	if g.Batten > 0 {
		batten := p.w.cut(g.Batten)
		f.Batten, f.Across = &batten, p.feetFacts(s, g)
	}
	if t := g.Truing; t != nil {
		f.Truing = &TruingFacts{t.Corners, p.w.fine(t.Off), p.w.fine(t.Lost), [2]Size{p.w.fine(t.Sides[0]), p.w.fine(t.Sides[1])}}
	}
	f.Equal = len(k.Checks) > 1
	for _, c := range k.Checks {
		f.Checks = append(f.Checks, CheckFacts{From: c.From, To: c.To, Side: c.Side, Size: p.w.cut(c.MM)})
		f.Equal = f.Equal && c.Equal
	}
	return f
}

// feetFacts are of the batten across the feet of an open frame: without a mark
// where it is not sawn from the boards.
func (p *planner) feetFacts(s *shape, g making.GlueUp) *BattenFacts {
	l, sawn := p.feetBatten(s, g)
	f := &BattenFacts{Length: p.w.cut(l.MM()), Width: p.w.stock(s.board.width)}
	if sawn {
		f.Mark = feetMark(s.letter)
	}
	return f
}

// cornerName is a choice in the words of the job file.
func cornerName(c making.Corner) string {
	if c == making.GlueAlone {
		return "glue"
	}
	return string(c)
}

// tried says of every way of gluing what it stays within or what stands against
// it.
func (p *planner) tried(g making.GlueUp) []TriedFacts {
	var out []TriedFacts
	for _, t := range g.Tried {
		var why []string
		for _, l := range t.Limits {
			if l.OK == t.OK {
				if text := p.limitText(l); text != "" {
					why = append(why, text)
				}
			}
		}
		out = append(out, TriedFacts{Method: string(t.Method), OK: t.OK, Why: strings.Join(why, "; ")})
	}
	return out
}

// limitText is a limit in words; one that is no figure says something only where
// it is not kept.
func (p *planner) limitText(l making.Limit) string {
	switch l.What {
	case making.RowLength, making.LongestSide, making.Thickness:
		return fmt.Sprintf("%s %s, at most %s", l.What, p.w.text(p.w.whole(l.Have)), p.w.text(p.w.whole(l.Most)))
	case making.JointsAtOnce:
		return fmt.Sprintf("%s %d, at most %d in the open time", l.What, int(l.Have), int(l.Most))
	case making.StrapsRound:
		if l.OK {
			return ""
		}
		return fmt.Sprintf("it takes %s long enough, there are %d", howMany(int(l.Have), "strap"), int(l.Most))
	}
	if l.OK {
		return ""
	}
	return string(l.What)
}

// helpText says what a helper would spare.
func helpText(g making.GlueUp) string {
	if m, hands, ok := g.WithHelp(); ok {
		return fmt.Sprintf("With %d people at the glue it closes in one go: %s.", hands, m)
	}
	return ""
}

// turnsText says in which ways a frame may lie in its place.
func (p *planner) turnsText(ways []making.Symmetry) string {
	turns, over := 0, 0
	for _, s := range ways {
		if s.Over {
			over++
		} else {
			turns++
		}
	}
	var out []string
	if turns > 1 {
		out = append(out, "turned by "+(unit.FromDegrees(360)/unit.Angle(turns)).String()+" at a time")
	}
	if over > 0 {
		out = append(out, "back to front where its back came out as level as its front")
	}
	if out == nil {
		return "as it lies only"
	}
	return strings.Join(out, ", or ")
}

func (p *planner) pieceFacts(s *shape, k making.KindPlan) []CornerPieceFacts {
	var out []CornerPieceFacts
	for i, group := range alikePieces(k.Corners.Pieces) {
		q := group[0]
		f := CornerPieceFacts{What: q.Name, Cut: q.Cut, Each: q.Count, Count: q.Count * len(group) * k.Count,
			Length: p.w.cut(q.Length), Width: p.w.stock(length(q.Width)), Thick: p.w.stock(length(q.Thickness)), Bevel: p.w.angle(q.Bevel),
			At: p.w.cut(q.At), FromBack: q.Inner, Lean: p.w.angle(q.Lean), Lies: p.liesText(k.Corners.Choice, q), Screw: q.Screw, Screws: q.Screws}
		if q.Slot > 0 {
			slot := p.w.cut(q.Slot)
			f.Slot, f.Width = &slot, p.w.cut(q.Width)
		}
		if k.Corners.Choice == making.Blocks {
			f.Mark = blockMark(s.letter, i)
			f.Rip = p.ripText(f.Mark)
		}
		if screw, ok := p.cat.Stock.Fastener(q.Screw); ok {
			f.Pilot, f.Stop = p.screwHole(s, screw)
		}
		for _, at := range q.Places() {
			f.Behind = append(f.Behind, p.w.cut(at))
		}
		for _, q := range group {
			f.Corners = append(f.Corners, q.Corner)
		}
		out = append(out, f)
	}
	return out
}

// screwHole is what is drilled for a screw through a plate into a frame's board.
func (p *planner) screwHole(s *shape, screw stock.Fastener) (pilot, stop *Size) {
	gauge, ok := p.cat.Stock.Screw(screw.Screw)
	if !ok {
		return nil, nil
	}
	a, b := p.w.stock(fixing.PilotDrill(gauge, s.board.speciesFrom.Gravity)), p.w.stock(screw.Length)
	return &a, &b
}

// liesText says how a block lies in its corner.
func (p *planner) liesText(c making.Corner, q making.Piece) string {
	wide := p.w.text(p.w.stock(length(q.Width)))
	switch {
	case c != making.Blocks:
		return ""
	case q.Bevel == 0:
		return fmt.Sprintf("a face, %s wide, on one side, its square edge on the other", wide)
	case q.Wider:
		return fmt.Sprintf("its wider face, %s wide, on one side, its bevelled edge on the other", wide)
	}
	return fmt.Sprintf("its narrower face, %s wide, on one side, its bevelled edge on the other", wide)
}

// ripText says how many pieces of board a mark stands for, and how blocks come
// out of one.
func (p *planner) ripText(mark string) string {
	for _, q := range p.pieces {
		if q.mark == mark {
			_, how, _ := strings.Cut(q.what, ": ")
			return fmt.Sprintf("%s of board %s long, marked %s: %s", howMany(q.count, "piece"), p.w.text(p.w.cut(q.length.MM())), mark, how)
		}
	}
	return ""
}

func (p *planner) areas(a making.Areas) AreasFacts {
	return AreasFacts{Inside: p.w.area(a.Inside), Outside: p.w.area(a.Outside), FrontBack: p.w.area(a.FrontBack),
		Mitres: p.w.area(a.Mitres), Feet: p.w.area(a.Feet), Sanded: p.w.area(a.Sanded())}
}

func (p *planner) goFacts(plan making.Plan, g making.Go) GoFacts {
	k := plan.Kinds[g.Kind]
	f := GoFacts{
		Number: g.Number, Kind: k.Name, Letter: p.kinds[p.kindAt[k.Name]].letter, Stage: g.Stage, Stages: g.Of, From: g.From, To: g.To, What: goWhat(k, g),
		Joints: g.Joints, Start: p.w.at(g.Start), Coat: p.w.at(g.Coat), By: p.w.by(g.By), Free: p.w.at(g.Free), Full: p.w.at(g.Full),
	}
	for _, i := range g.Straps {
		f.Straps = append(f.Straps, i+1)
	}
	return f
}

// goWhat says what is closed in a go: whole frames, halves, or single joints.
func goWhat(k making.KindPlan, g making.Go) string {
	frames := fmt.Sprintf("frame %d", g.From)
	if g.To > g.From {
		frames = fmt.Sprintf("frames %d to %d", g.From, g.To)
		if g.To == g.From+1 {
			frames = fmt.Sprintf("frames %d and %d", g.From, g.To)
		}
	}
	switch {
	case k.GlueUp.Method == making.InLayers:
		return fmt.Sprintf("layer %d on %d, %s", g.Stage+1, g.Stage, frames)
	case g.Of == 1:
		return frames
	case g.Stage == g.Of && k.GlueUp.Stages[g.Stage-1].Joints > 1:
		return "last joints, " + frames
	case k.GlueUp.Method == making.Halves && g.Units == 1:
		return "one half, " + frames
	case k.GlueUp.Method == making.Halves:
		return fmt.Sprintf("%d halves, %s", g.Units, frames)
	}
	return fmt.Sprintf("%s, %s", howMany(g.Units, "joint"), frames)
}

func (p *planner) finishFacts(f making.Finishing, r making.Rates, back layout.Layout) FinishFacts {
	out := FinishFacts{
		Inside: p.spec.Making.Inside, Grits: f.Grits, Between: f.Between, Coats: f.Coats, ADay: r.Finish.ADay, Recoat: p.w.lasts(r.Finish.Recoat),
		Set: p.w.lasts(f.Filler.Set), Sand: p.w.lasts(f.Filler.Sand), Paint: p.w.lasts(f.Filler.Paint),
		Total: p.areas(f.Total), Seams: p.w.area(f.Seams), Painted: p.w.area(f.Painted), Steps: p.w.steps(f.Steps),
	}
	if out.Inside == "" {
		out.Inside = "after gluing"
	}
	for _, b := range f.Bare {
		if p.kinds[p.kindAt[back.Frames[b.Frame].Kind]].round != nil {
			continue // a circle has no sides
		}
		from, to, _ := back.Frames[b.Frame].Side(b.Side)
		out.Bare = append(out.Bare, BareFacts{Frame: p.labels[b.Frame], Side: b.Side, Seam: b.Seam, From: p.w.cut(b.From), To: p.w.cut(b.To),
			Whole: b.From <= r.Tolerance && b.To >= from.Dist(to)-r.Tolerance})
	}
	return out
}
