package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/unit"
)

// facts fills in what is known once the frames are built and laid out.
func (p *planner) facts() {
	p.letters()
	p.counts()
	p.saw = p.sawRecord()
	r := &p.result
	r.Format, r.Version = "bowerwright result", 1
	s := p.spec
	mark, _, _ := unit.MarkName(p.set.mark)
	r.Job = JobFacts{Name: s.Name, For: s.For, Date: s.Date, Venue: s.Venue, Maker: s.Maker, Note: s.Note,
		Show: s.Show, Paper: s.Paper, Finest: mark, Tolerance: p.w.fine(p.set.tolerance.MM()), Gap: p.w.fine(p.set.gap.MM())}
	for _, k := range p.kinds {
		if k.make == 0 {
			p.note("kind-unused", "frames."+k.Name, fmt.Sprintf("%s is described and not placed", k.title()),
				"Place it in the layout, make some spare, or take it out.")
			continue
		}
		r.Kinds = append(r.Kinds, p.kindFacts(k))
	}
	p.frameFacts()
	p.meetings()
	p.openings()
	p.moved()
	p.overall()
	p.sawFacts()
	r.Cautions = cautions()
}

// letters gives every kind a mark for its parts: its first letter, or the first
// of its letters that is still free, or a letter that is, or two letters.
func (p *planner) letters() {
	taken := map[string]bool{}
	for _, k := range p.kinds {
		for _, r := range strings.ToUpper(k.Name) + "ABCDEFGHJKLMNPQRSTUVWXYZ" {
			if l := string(r); l >= "A" && l <= "Z" && !taken[l] {
				k.letter = l
				break
			}
		}
		if k.letter == "" { // two letters, and no figure: A24 and 1 would read as A and 241
			k.letter = strings.ToUpper(suffix(26 + len(taken)))
		}
		taken[k.letter] = true
	}
}

// counts says how many frames of each kind are made.
func (p *planner) counts() {
	for _, f := range p.built.Frames {
		p.kinds[p.kindAt[f.Kind]].placed++
	}
	for _, k := range p.kinds {
		k.make = k.placed + k.Spare
	}
}

func laid(flat bool) string {
	if flat {
		return "flat"
	}
	return "on edge"
}

func (p *planner) kindFacts(k *shape) KindFacts {
	f := k.built
	facts := KindFacts{
		Name: k.Name, Letter: k.letter, Title: k.title(), Shape: k.def.Name, Sides: f.Built.Sides(), Open: f.Built.Open,
		Make: k.make, Placed: k.placed, Timber: k.board.Name, Laid: laid(k.Flat),
		Depth: p.w.stock(k.boards.Depth()), Rise: p.w.stock(k.rise()),
		Sizes: p.sizes(k), Corners: p.corners(f),
		Outside: p.w.outline(f.Built.Corners), Inside: p.w.outline(f.Inside),
		OutsideArea: p.w.area(k.outsideArea()), InsideArea: p.w.area(k.insideArea()),
		Weight: p.w.weight(k.mass()), Parts: p.parts(k), Closing: p.w.fine(f.Closing.Gap), Closes: p.closes(f),
		SawError: p.sawError(f), FamilyOf: p.familyOf(k.Name), SawnRound: p.sawnRound(k),
	}
	if k.named {
		facts.Given = sizeName(k.given)
	}
	return facts
}

// sizeName is a measure as it stands on paper.
func sizeName(m frame.Measure) string {
	names := map[frame.Measure]string{
		frame.Side: "side, outside", frame.Flats: "across flats, outside", frame.Points: "across points, outside",
		frame.InsideFlats: "across flats, inside", frame.CornerCircle: "circle through the corners",
		frame.InscribedCircle: "circle inside the outline", frame.Height: "height as it stands",
		frame.Width: "width as it stands", frame.Outside: "circle through the corners", frame.Inside: "largest circle that fits inside",
	}
	return names[m]
}

func (p *planner) sizes(k *shape) []NamedSize {
	var out []NamedSize
	if k.round != nil {
		return p.roundSizes(k)
	}
	for _, a := range k.built.AskedSizes {
		b := a.MM
		for _, q := range k.built.BuiltSizes {
			if q.Measure == a.Measure {
				b = q.MM
			}
		}
		out = append(out, NamedSize{Name: sizeName(a.Measure), Asked: p.w.cut(a.MM), Built: p.w.cut(b),
			Given: k.named && sizeName(k.given) == sizeName(a.Measure)})
	}
	return out
}

// roundSizes are those of a ring that is sawn round: what it is in the end, and
// the blanks that it is glued up from.
func (p *planner) roundSizes(k *shape) []NamedSize {
	same := func(name string, mm float64, given bool) NamedSize {
		return NamedSize{Name: name, Asked: p.w.cut(mm), Built: p.w.cut(mm), Given: given}
	}
	blank := same("side of a blank, outside", k.built.Parts[0].Asked, false)
	blank.Built = p.w.cut(k.built.Parts[0].Outside.MM())
	return []NamedSize{
		same("outside, sawn round", k.round.Outside.MM(), true), same("inside, sawn round", k.round.Inside.MM(), true), blank,
	}
}

func (p *planner) corners(f frame.Frame) []Corner {
	var out []Corner
	for i := range f.Built.Corners {
		n := i + 1
		out = append(out, Corner{Number: n, Inside: p.w.angle(f.Asked.InsideAngle(n)), Setting: p.w.angle(f.Asked.Setting(n)), Foot: f.Asked.IsFoot(n)})
	}
	return out
}

// closes says how the frame closes after its lengths went to the tape.
func (p *planner) closes(f frame.Frame) string {
	c := f.Closing
	gap := p.w.text(p.w.fine(c.Gap))
	switch {
	case len(c.Fitted) > 0:
		return fmt.Sprintf("Tape lengths alone leave %s at the last joint: the sides marked fitted are sawn a little long and cut to fit.", gap)
	case c.Gap < closedGap && f.Built.Open:
		return "The feet stand level."
	case c.Gap < closedGap:
		return "It closes with every length on the tape."
	case f.Built.Open:
		return fmt.Sprintf("The feet are %s out of level, within the joint tolerance.", gap)
	}
	return fmt.Sprintf("Lengths on the tape leave %s at the last joint, within the joint tolerance.", gap)
}

// familyOf says which multiples of its family's length the sides of a kind are.
func (p *planner) familyOf(kind string) string {
	for _, f := range p.result.Families {
		var times []string
		for i, k := range f.Kinds {
			if t := fmt.Sprint(f.Times[i]); k == kind && f.Why == namedFamily && !slices.Contains(times, t) {
				times = append(times, t)
			}
		}
		if len(times) > 0 {
			return fmt.Sprintf("%s times %s", strings.Join(times, " and "), p.w.text(f.Unit))
		}
	}
	return ""
}

func (p *planner) sawnRound(k *shape) string {
	if k.round == nil {
		return ""
	}
	blanks := "The blanks are the shortest that cover it: their outside faces touch the outside circle."
	if n := k.round.Blanks.Sides(); k.round.Blanks.Length(1) > k.round.Outside.MM()*math.Tan(math.Pi/float64(n))+p.set.mark.MM() {
		blanks = "The boards are so wide that shorter blanks, which would cover it too, would leave next to no inside edge to lay them out by."
	}
	return fmt.Sprintf("Glued up from straight blanks, then sawn round: outside %s, inside %s. %s The boards must be at least %s wide.",
		p.w.text(p.w.cut(k.round.Outside.MM())), p.w.text(p.w.cut(k.round.Inside.MM())), blanks, p.w.text(p.w.up(k.round.LeastBoard)))
}

// parts lists the parts of a kind that are sawn alike.
func (p *planner) parts(k *shape) []PartFacts {
	kinds := k.built.Kinds()
	mark := func(i int) string {
		if len(kinds) == 1 {
			return k.letter
		}
		return k.letter + suffix(i)
	}
	var out []PartFacts
	for i, q := range kinds {
		sawing := p.sawFor(k).Cut(k.boards, q.Part, p.trims())
		facts := PartFacts{
			Mark: mark(i), Sides: q.Sides, PerFrame: len(q.Sides) * k.layers(), Count: len(q.Sides) * k.make * k.layers(),
			Outside: p.w.cut(q.Part.Outside.MM()), InsideLength: p.w.cut(q.Part.Inside), Tip: p.w.cut(q.Part.TipToTip),
			LongPoint: p.w.cut(q.Part.LongPoint()), ShortPoint: p.w.cut(q.Part.ShortPoint()), Asked: p.w.cut(q.Part.Asked),
			First: p.end(sawing.Start), Second: p.end(sawing.End), Hand: q.Part.Hand.String(), Fitted: q.Part.Fitted,
		}
		if q.MirrorOf >= 0 {
			facts.MirrorOf = mark(q.MirrorOf)
		}
		if q.Part.Fitted {
			facts.InsideLength, facts.Tip = p.fitted(q.Part.Inside), p.fitted(q.Part.TipToTip)
			facts.Outside, facts.LongPoint, facts.ShortPoint = p.fitted(q.Part.Outside.MM()), p.fitted(q.Part.LongPoint()), p.fitted(q.Part.ShortPoint())
		}
		p.wayOut(k, sawing, &facts)
		p.sawings = append(p.sawings, sawn{kind: k, part: q.Part, mark: facts.Mark, sawing: sawing, count: facts.Count})
		out = append(out, facts)
	}
	return out
}

// fitted is a length off the tape's marks: to a sixty-fourth and half a
// millimetre.
func (p *planner) fitted(mm float64) Size { return p.w.fitted(mm) }

func (w scribe) fitted(mm float64) Size {
	l := length(mm)
	return Size{MM: micro(mm), US: unit.Format(l, unit.Style{System: unit.US, Mark: unit.Inch / 64}), Metric: unit.Format(l, w.sawn)}
}

// suffix counts a, b, ... z, aa.
func suffix(i int) string {
	if i < 26 {
		return string(rune('a' + i))
	}
	return suffix(i/26-1) + suffix(i%26)
}

// oneWay says that the head reaches a setting to one side only.
var oneWay = map[int]string{-1: ", only to the left", 1: ", only to the right"}

func (p *planner) end(e frame.EndCut) EndFacts {
	along := unit.FromDegrees(90) - unit.Angle(math.Abs(float64(e.Setting)))
	return EndFacts{Setting: p.w.angle(e.Setting), Along: p.w.angle(along), Way: e.Way.String() + oneWay[e.OneWay],
		Reach: e.Way != frame.RoughThenBlock, Detent: e.Detent}
}

// wayOut says what to do about a part that the saw cannot mitre.
func (p *planner) wayOut(k *shape, s frame.Sawing, facts *PartFacts) {
	if s.WayOut == frame.NoneNeeded {
		return
	}
	rough := p.w.cut(s.Rough.MM())
	facts.Rough = &rough
	for _, e := range []frame.EndCut{s.Start, s.End} {
		if e.Way == frame.RoughThenBlock {
			facts.Block = append(facts.Block, p.w.angle(e.Block))
		} else {
			facts.Block = append(facts.Block, Angle{})
		}
	}
	reason := s.Start.Reason
	if reason == frame.Reaches {
		reason = s.End.Reason
	}
	facts.WayOut = fmt.Sprintf("Out of reach: %s. Saw it square to %s, then trim each such end clamped to a square block; never freehand.", reason, p.w.text(rough))
	for _, e := range []frame.EndCut{s.Start, s.End} {
		if e.Way != frame.RoughThenBlock && e.Setting != 0 {
			facts.WayOut += fmt.Sprintf(" Its other end is sawn at %s on the saw.", unit.Angle(math.Abs(float64(e.Setting))))
		}
	}
	do := "Follow the card: rough length first, then trimmed against a block; or choose another shape."
	if s.WayOut == frame.AnotherShape {
		facts.WayOut = fmt.Sprintf("Out of reach: %s, and too short, too long or too big to be trimmed against a block. Choose another shape or other boards.", reason)
		do = "Choose another shape, other boards or another saw."
	}
	p.reachNote("frames."+k.Name, facts.Mark, reason.String(), do)
}

// reachNote names a part that the saw cannot cut, in one note with others of
// its kind that fail for the same reason.
func (p *planner) reachNote(where, mark, reason, do string) {
	if n := len(p.result.Notes); n > 0 {
		last := &p.result.Notes[n-1]
		if last.Code == "saw-reach" && last.Where == where && last.Do == do && strings.HasSuffix(last.Text, ": "+reason) {
			marks := strings.TrimPrefix(strings.TrimSuffix(last.Text, ": "+reason), "the saw cannot cut ")
			marks = strings.TrimPrefix(strings.TrimPrefix(marks, "parts "), "part ")
			last.Text = fmt.Sprintf("the saw cannot cut parts %s, %s: %s", marks, mark, reason)
			return
		}
	}
	p.note("saw-reach", where, fmt.Sprintf("the saw cannot cut part %s: %s", mark, reason), do)
}

func (p *planner) sawError(f frame.Frame) SawErrorFacts {
	e := f.SawError(p.set.sawError, p.set.tolerance)
	return SawErrorFacts{
		Error: p.w.angle(p.set.sawError), LastGap: p.w.fine(e.LastGap), EachGap: p.w.fine(e.EachGap), TrueTo: p.w.fineAngle(e.TrueTo),
		TooSteep: frame.OpensInside.String(), TooShallow: frame.OpensOutside.String(), Open: e.OpenEnds,
	}
}

// frameFacts lists the placed frames by number.
func (p *planner) frameFacts() {
	l := p.built
	facts := make([]FrameFacts, len(l.Frames))
	stands := standing(l)
	lowest := map[int]float64{}
	for _, h := range l.Hanging {
		lowest[h.Frame] = h.Clearance
	}
	p.labels = make([]string, len(l.Frames))
	for i, f := range l.Frames {
		k := p.kinds[p.kindAt[f.Kind]]
		p.labels[i] = fmt.Sprintf("%s%d", k.letter, f.Number)
		facts[f.Number-1] = FrameFacts{
			ID: f.ID, Kind: f.Kind, Number: f.Number, Label: p.labels[i], Mirror: f.Move.Mirror,
			Turn: p.w.angle(unit.Angle(f.Move.Turn)), Centre: p.w.xy(f.Centre), Outside: p.w.outline(f.Outside), Inside: p.w.outline(f.Inside),
			Open: f.Open, Round: k.round != nil, Stands: stands[i], Lowest: p.w.looked(lowest[i]), Up: p.w.xy(f.Up), TopSide: f.TopSide,
		}
	}
	p.result.Frames = facts
}

// standing says which frames have a board or feet on the floor.
func standing(l layout.Layout) map[int]bool {
	out := map[int]bool{}
	for _, s := range l.Standing {
		out[s.Frame] = true
	}
	for _, f := range l.Feet {
		out[f.Frame] = true
	}
	return out
}

// meetings lists seams, touches and near misses.
func (p *planner) meetings() {
	l := p.built
	for _, s := range l.Seams {
		facts := SeamFacts{Number: s.Number, Length: p.w.cut(s.Length), From: p.w.xy(s.From), To: p.w.xy(s.To),
			Height: p.w.looked(s.Middle().Y), FlushBoth: s.Flush}
		for i, side := range s.Sides {
			facts.Frames[i], facts.Sides[i], facts.Along[i] = p.labels[side.Frame], side.Side, p.w.cut(side.From)
		}
		p.result.Seams = append(p.result.Seams, facts)
	}
	for _, t := range l.Touches {
		p.result.Touches = append(p.result.Touches, TouchFacts{Frames: p.pair(t.Frames), At: p.w.xy(t.At)})
	}
	for _, m := range l.Misses {
		near := NearFacts{Frames: p.pair(m.Frames), Distance: p.w.fine(m.Distance), At: p.w.xy(m.At)}
		p.result.Near = append(p.result.Near, near)
		p.note("near-miss", "layout."+l.Frames[m.Frames[1]].ID,
			fmt.Sprintf("%s and %s nearly meet: %s apart", p.named(m.Frames[0]), p.named(m.Frames[1]), p.w.text(near.Distance)),
			"Close the gap or leave more than "+p.w.text(p.w.fine(p.set.near.MM()))+".")
	}
	if len(l.Groups) > 1 {
		p.note("groups", "layout", fmt.Sprintf("no seam joins the frames into one piece: there are %d groups", len(l.Groups)),
			"Lay a side of one against a side of another, or treat them as separate set pieces.")
		p.hangingGroups()
	}
}

// hangingGroups names groups of frames that nothing carries.
func (p *planner) hangingGroups() {
	carried := standing(p.built)
	for _, t := range p.built.Tips {
		carried[t.Frame] = true
	}
	for _, g := range p.built.Groups {
		stands := slices.ContainsFunc(g, func(i int) bool { return carried[i] })
		if !stands {
			var names []string
			for _, i := range g {
				names = append(names, p.named(i))
			}
			p.note("hanging", "layout."+p.built.Frames[g[0]].ID, "nothing carries "+strings.Join(names, ", "),
				"Lay a side against a frame that stands, or put it on the floor.")
		}
	}
}

// named is a frame's label, with its id in the job file where that differs.
func (p *planner) named(i int) string {
	if id := p.built.Frames[i].ID; id != p.labels[i] {
		return p.labels[i] + " (" + id + " in the job file)"
	}
	return p.labels[i]
}

func (p *planner) pair(f [2]int) [2]string { return [2]string{p.labels[f[0]], p.labels[f[1]]} }

func (p *planner) openings() {
	var arches []int
	for i, f := range p.built.Frames {
		if f.Open {
			arches = append(arches, i)
		}
	}
	for _, c := range p.built.Clear {
		if c.Height >= p.built.Height {
			continue // above the set piece there is nothing to pass
		}
		if len(arches) == 0 {
			p.opening(c.Height, c.Left, c.Right, c.Found, fmt.Sprintf("the widest there is, from %s to %s from the left end",
				p.w.text(p.w.looked(c.Left)), p.w.text(p.w.looked(c.Right))))
		}
		for _, i := range arches {
			p.through(c, i)
		}
	}
}

// through is the clear width of an arch at a height: the stretch free of boards
// round its middle. Above the arch there is none.
func (p *planner) through(c layout.Clear, frame int) {
	f := p.built.Frames[frame]
	if c.Height >= f.Box.Max.Y {
		return
	}
	middle := (f.Box.Min.X + f.Box.Max.X) / 2
	for _, i := range c.All {
		if i.From < middle && middle < i.To {
			p.opening(c.Height, i.From, i.To, true, "through "+p.labels[frame])
			return
		}
	}
	p.opening(c.Height, 0, 0, false, "through "+p.labels[frame])
}

func (p *planner) opening(height, from, to float64, found bool, where string) {
	p.result.Openings = append(p.result.Openings, OpeningFacts{Height: p.w.whole(height), Clear: p.w.looked(to - from),
		From: micro(from), To: micro(to), Bounded: found, Where: where})
}

// moved lists the frames whose place is not where the asked sizes put it.
func (p *planner) moved() {
	label := map[string]string{}
	for i, f := range p.built.Frames {
		label[f.ID] = p.labels[i]
	}
	// Measured from where the job file's 0, 0 lies: growth on the left is not
	// movement of everything.
	origin := p.built.Origin.Sub(p.asked.Origin)
	for _, m := range layout.Moved(p.asked, p.built) {
		m.By = m.By.Sub(origin)
		if m.By.Len() < movedLeast {
			continue
		}
		p.result.Moved = append(p.result.Moved, MovedFacts{Frame: label[m.ID], By: p.w.fine(m.By.Len()), Right: p.w.signed(m.By.X), Up: p.w.signed(m.By.Y)})
	}
}

// movedLeast is the shift in mm below which a frame counts as not moved: no
// tape shows a twentieth of a millimetre.
const movedLeast = 0.05

func (p *planner) overall() {
	l := p.built
	o := Overall{
		Width: p.w.whole(l.Width), Height: p.w.whole(l.Height), AskedWidth: p.w.whole(p.asked.Width), AskedHeight: p.w.whole(p.asked.Height),
		GapsInWidth: p.w.fine(math.Max(0, l.Width-p.bare.Width)), FrameCount: len(l.Frames), SeamCount: len(l.Seams), DoubledLength: p.w.whole(l.Doubled),
	}
	stands, length := standing(l), 0.0
	for _, s := range l.Standing {
		if p.kinds[p.kindAt[l.Frames[s.Frame].Kind]].round == nil { // a circle stands on a line
			length += s.To - s.From
		}
	}
	for _, f := range l.Feet {
		length += f.To - f.From
	}
	o.StandingLength = p.w.looked(length)
	for _, f := range p.result.Frames {
		for i := range l.Frames {
			if l.Frames[i].Number == f.Number && stands[i] {
				o.Standing = append(o.Standing, f.Label)
			}
		}
		if f.Lowest.MM > 0 {
			o.Hanging = append(o.Hanging, f.Label)
		}
	}
	if len(l.Standing)+len(l.Feet) == 0 {
		p.note("stands-on-corner", "layout", "no side and no foot stands on the floor: the set piece stands on a corner",
			"Turn it so that a side lies on the floor, or reckon with a base that holds it.")
	}
	for _, g := range l.Groups {
		var labels []string
		for _, i := range g {
			labels = append(labels, p.labels[i])
		}
		o.Groups = append(o.Groups, labels)
	}
	var mass unit.Mass
	for _, k := range p.kinds {
		mass += k.mass() * unit.Mass(k.placed)
		o.PartCount += len(k.built.Parts) * k.make * k.layers()
	}
	o.Weight = p.w.weight(mass)
	p.result.Overall = o
}
