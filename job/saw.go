package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"bowerwright/assume"
	"bowerwright/frame"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A sawn is one set of parts that are sawn alike, on its way to the boards.
type sawn struct {
	kind   *shape
	part   frame.Part
	mark   string
	sawing frame.Sawing
	count  int
}

// reachGiven says whether the files describe the saw's reach at all.
func (s Saw) reachGiven() bool {
	return s.SwingLeft != 0 || s.SwingRight != 0 || s.TiltLeft != 0 || s.TiltRight != 0 || len(s.Takes) > 0
}

// sawRecord is the user's saw; what it does not tell of its reach is a common
// saw's, so that steep ends are flagged before the timber is bought.
func (p *planner) sawRecord() frame.Saw {
	s := p.spec.Saw
	saw := frame.Saw{
		SwingLeft: s.SwingLeft, SwingRight: s.SwingRight, TiltLeft: s.TiltLeft, TiltRight: s.TiltRight,
		Detents: s.Detents, Kerf: p.set.kerf, Hold: p.set.hold, ClampHold: p.set.hold, Clamp: s.Clamp,
	}
	if s.Scale == "along" {
		saw.Scale = frame.FromAlong
	}
	for _, t := range s.Takes {
		saw.Takes = append(saw.Takes, frame.Capacity(t))
	}
	// A reach that is not told is assumed, so that telling one of the two never
	// takes a caution away.
	if saw.SwingLeft == 0 && saw.SwingRight == 0 {
		swing := unit.FromDegrees(p.book.Get(assume.Swing).Value)
		saw.SwingLeft, saw.SwingRight = swing, swing
	}
	if saw.TiltLeft == 0 && saw.TiltRight == 0 {
		tilt := unit.FromDegrees(p.book.Get(assume.Tilt).Value)
		saw.TiltLeft, saw.TiltRight = tilt, tilt
	}
	return saw
}

// sawFor is the saw as it serves boards of a kind. Boards that may not be turned
// need the head on both sides for the two ends of a part, so that the shorter
// reach counts.
func (p *planner) sawFor(k *shape) frame.Saw {
	s := p.saw
	if k.board.turning {
		return s
	}
	even := func(a, b *unit.Angle) {
		if *a > 0 && *b > 0 {
			*a = min(*a, *b)
			*b = *a
		}
	}
	even(&s.SwingLeft, &s.SwingRight)
	even(&s.TiltLeft, &s.TiltRight)
	return s
}

// trims says how parts beyond the saw are trimmed against a block.
func (p *planner) trims() frame.Trim {
	return frame.Trim{Allowance: p.set.rough, Least: p.length(assume.RoughLeast), Greatest: p.length(assume.RoughGreatest)}
}

// sawFacts says what the papers are reckoned with, and what to test first.
func (p *planner) sawFacts() {
	s := p.spec.Saw
	f := SawFacts{Name: s.Name, Given: s.reachGiven(), From: s.From, Scale: s.Scale, Stop: s.Stop, Kerf: p.w.fine(p.set.kerf.MM()),
		Hold: p.w.cut(p.set.hold.MM()), Clamp: p.set.clamp}
	if f.From == "" {
		f.From = assume.BuiltIn.String()
	}
	if f.Scale == "" {
		f.Scale = "across"
	}
	if f.Stop == "" {
		f.Stop = "left"
	}
	f.Reading = p.reading()
	p.result.Saw = f
	p.testCorners()
	if p.set.hold < 6*unit.Inch && !p.set.clamp {
		p.note("hold-short", "saw.hold", "the hold length is under 6 in without a clamp: fingers come into the blade's path",
			"Use a hold-down clamp and say so (clamp: yes), or hold more.")
	}
}

// testCorners makes one for every setting in the job, in the order of the kinds.
func (p *planner) testCorners() {
	seen := map[int64]bool{}
	for _, k := range p.kinds {
		for n := range k.asked.Asked.Corners {
			a := k.asked.Asked.Setting(n + 1)
			// Only what is made, and what the saw can cut, is tested.
			if k.make == 0 || p.sawFor(k).End(k.boards, a).Way == frame.RoughThenBlock {
				continue
			}
			key := int64(math.Round(math.Abs(a.Degrees()) * 1000))
			if key == 0 || seen[key] || k.asked.Asked.IsFoot(n+1) {
				continue
			}
			seen[key] = true
			p.testCorner(k, a)
		}
	}
}

func (p *planner) testCorner(k *shape, a unit.Angle) {
	t := frame.NewTestCorner(a, p.set.sawError, p.set.shows)
	facts := TestCorner{Kind: k.Name, Title: k.title(), Setting: p.w.angle(t.Setting), Arms: p.w.cut(t.Arm.MM()), Across: p.fitted(t.Tips),
		Shows: p.w.fine(t.Shows.MM()), Error: p.w.angle(t.Error)}
	if t.Coarse {
		facts.Coarse = "Arms that long bend: saw a whole ring of scrap instead and read its last gap."
	}
	p.result.Tests = append(p.result.Tests, facts)
}

// reading turns the test corner's measures into the saw's true setting.
func (p *planner) reading() *ReadingFacts {
	t := p.spec.Test
	if t == nil {
		return nil
	}
	i, ok := p.kindAt[t.Kind]
	if !ok {
		p.fault("no kind of frame is called %q", t.Kind)
		return nil
	}
	setting, r, ok := nearestCorner(p.kinds[i].asked.Asked, t.Arms, t.Across)
	if !ok || math.Abs(r.Error.Degrees()) > believable {
		p.snag(snagTestCorner, "test corner.across", p.w.text(p.w.cut(t.Across.MM())),
			fmt.Sprintf("two arms of %s closed at %s do not come to %s across the tips", p.w.text(p.w.cut(t.Arms.MM())), setting, p.w.text(p.w.cut(t.Across.MM()))),
			"measure both arms along the outside, from the corner to the tip, and across the tips")
		return nil
	}
	return &ReadingFacts{Kind: t.Kind, Arms: p.w.cut(t.Arms.MM()), Across: p.fitted(t.Across.MM()),
		True: p.w.angle(r.True), Error: p.w.angle(r.Error), SetTo: p.w.angle(r.SetTo)}
}

// nearestCorner reads a test corner for the corner of the outline that it comes
// closest to: a house has two settings, and the arms say which was tried.
func nearestCorner(o frame.Outline, arms, across unit.Length) (setting unit.Angle, best frame.Reading, ok bool) {
	for k := range o.Corners {
		a := o.Setting(k + 1)
		if a == 0 || o.IsFoot(k+1) {
			continue
		}
		r, read := frame.Read(a, arms, across)
		if !ok && !read {
			setting = a // for the message
		}
		if read && (!ok || math.Abs(float64(r.Error)) < math.Abs(float64(best.Error))) {
			setting, best, ok = a, r, true
		}
	}
	return setting, best, ok
}

// believable is the saw error in degrees above which a reading is taken for a
// slip of the tape: no scale is that far out.
const believable = 5

// finish lists the assumptions used and whatever needs all of the above.
func (p *planner) finish() {
	p.result.emptyLists()
	for _, v := range p.book.Used() {
		p.result.Assumed = append(p.result.Assumed, AssumedFacts{
			ID: string(v.ID), Name: v.Name, Value: p.assumed(v.Value, v.Unit), Range: p.assumed(v.Low, v.Unit) + " to " + p.assumed(v.High, v.Unit),
			Source: v.Source, Status: string(v.Status), From: v.Origin.String(),
		})
	}
	p.timberAssumed()
	if p.speciesAssumed {
		p.result.Assumed = append(p.result.Assumed, AssumedFacts{ID: "board.species", Name: "species of boards that name none", Value: assumedSpecies,
			Range: "any of the catalogue", Source: "common practice, no source", Status: string(assume.CommonPractice), From: assume.BuiltIn.String()})
	}
	slices.SortFunc(p.result.Assumed, func(a, b AssumedFacts) int { return cmp.Compare(a.ID, b.ID) })
}

// timberAssumed lists what the catalogue said of the timber that is used: the
// real sizes behind nominal names, and the specific gravity behind the weight.
func (p *planner) timberAssumed() {
	for _, t := range p.spec.Timber {
		b := p.timber[t.Name]
		if !p.inUse(t.Name) {
			continue
		}
		if b.sizeFrom != nil {
			p.catalogued("timber."+t.Name+".thickness, width", "real size of "+b.size,
				p.w.text(p.w.stock(b.thickness))+" x "+p.w.text(p.w.stock(b.width)), "as measured", b.sizeFrom.Provenance)
		}
		if b.speciesFrom != nil {
			p.catalogued("timber."+t.Name+".species", "specific gravity of "+b.Species, assume.Number(b.speciesFrom.Gravity),
				"another species", b.speciesFrom.Provenance)
		}
	}
}

func (p *planner) inUse(timber string) bool {
	for _, t := range p.result.Timber {
		if t.Name == timber {
			return true
		}
	}
	return false
}

func (p *planner) catalogued(id, name, value, span string, from stock.Provenance) {
	p.result.Assumed = append(p.result.Assumed, AssumedFacts{ID: id, Name: name, Value: value, Range: span,
		Source: from.Source, Status: string(from.Status), From: from.Origin.String()})
}

// assumed writes an assumption's value as people would: lengths in the job's
// own units, and in millimetres where inches would not come to a sixty-fourth.
func (p *planner) assumed(v float64, u string) string {
	named, ok := unit.UnitNamed(u)
	l, fits := unit.Of(v, named)
	switch {
	case u == "deg":
		return assume.Number(v) + "°"
	case (!ok || !fits) && v == 1 && singulars[u] != "":
		return "1 " + singulars[u]
	case !ok || !fits:
		return assume.Number(v) + " " + u
	case p.w.show == unit.US && unit.OnMark(l, unit.Inch/64):
		return unit.FormatOverall(l, unit.Style{System: unit.US, Mark: unit.Inch / 64})
	}
	return unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10})
}

// singulars are one of what assumptions count.
var singulars = map[string]string{"brushes": "brush", "masks": "mask", "coats": "coat", "people": "person", "pencils": "pencil"}
