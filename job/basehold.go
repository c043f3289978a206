package job

import (
	"math"

	"bowerwright/assume"
	"bowerwright/fixing"
	"bowerwright/price"
	"bowerwright/stand"
	"bowerwright/stock"
	"bowerwright/unit"
)

// held are the places where the base holds the frames.
func (b *baseBuyer) held() []stand.HeldFrame {
	in := stand.StrengthInput{Layout: b.s.piece.Layout, Base: b.s.baseJoint(b.t)}
	if in.Base.Method == stand.NotHeld {
		return nil
	}
	for _, f := range b.s.piece.Layout.Frames {
		in.Frames = append(in.Frames, stand.StrengthFrame{Boards: b.p.kinds[b.p.kindAt[f.Kind]].boards})
	}
	return in.HeldFrames(b.s.bears)
}

// holdNeeds are what holds the frames to the base, as many as strength counts; a
// post takes as many again at its foot.
func (b *baseBuyer) holdNeeds(t *tally) {
	n := 0
	for _, h := range b.held() {
		n += h.Fasteners
		if length(h.Up) > b.p.set.mark {
			n += h.Fasteners
		}
	}
	if n == 0 {
		return
	}
	const of = "frames to the base"
	switch b.s.baseJoint(b.t).Method {
	case stand.Bracketed:
		b.brackets(t, n, of)
	case stand.BoltedDown:
		b.bolts(t, n, of)
	default:
		b.screws(t, 0, n, of, assume.StrengthBaseEvery)
	}
}

// brackets come with their screws, which stay in the plywood and in the board.
func (b *baseBuyer) brackets(t *tally, n int, of string) {
	t.add(need{of: of, rates: []assume.ID{assume.StrengthBaseEvery}, Line: price.Line{Name: "angle bracket", Class: price.Fixings, Need: pieces(n), Packs: []price.Pack{onePiece}}})
	thin := math.Min(b.s.mm(assume.BaseThickness), b.p.backKind().board.thickness.MM())
	b.screws(t, thin, n*b.number(assume.BaseBracketScrews), "brackets", assume.BaseBracketScrews)
}

// screws are as long as those up into the frames, or as stay in so much wood; a
// room of 0 is no limit.
func (b *baseBuyer) screws(t *tally, room float64, n int, of string, id assume.ID) {
	most := length(b.read(assume.StrengthBaseScrew))
	f, _ := b.p.screwUpTo(most)
	if room > 0 {
		f = b.p.screwWithin(min(most, length(room-fixing.RulesFrom(b.p.book.Aside()).Keep)), f)
	}
	q := b.p.hardware(f.Name, n, of)
	q.rates = []assume.ID{assume.StrengthBaseScrew, id}
	t.add(q)
}

// screwWithin is the longest that is no longer than said, of the thickness
// nearest to a No. 8 that has such a length; if none has, the one given.
func (p *planner) screwWithin(most unit.Length, otherwise stock.Fastener) stock.Fastener {
	eight, _ := p.cat.Stock.Screw("No. 8")
	best, off := otherwise, unit.Length(math.MaxInt64)
	for _, f := range p.cat.Stock.Fasteners(stock.WoodScrew) {
		s, ok := p.cat.Stock.Screw(f.Screw)
		if !ok || f.Length > most || unit.OnMark(s.Diameter, unit.Millimetre/10) != (p.w.show == unit.Metric) {
			continue
		}
		d := max(s.Diameter-eight.Diameter, eight.Diameter-s.Diameter)
		if d < off || d == off && f.Length > best.Length {
			best, off = f, d
		}
	}
	return best
}

// bolts go through the base and a board: the shortest that fills its nut, with a
// washer at either end.
func (b *baseBuyer) bolts(t *tally, n int, of string) {
	first := func(kind stock.Hardware) stock.Fastener {
		for _, f := range b.p.cat.Stock.Fasteners(kind) {
			if unit.OnMark(f.Diameter, unit.Millimetre) == (b.p.w.show == unit.Metric) {
				return f
			}
		}
		return stock.Fastener{}
	}
	nut, washer := first(stock.Nut), first(stock.Washer)
	grip := b.s.baseJoint(b.t).Sheet + b.p.backKind().boards.Depth().MM() + 2*washer.Thickness.MM() + nut.Thickness.MM()
	var bolt stock.Fastener
	for _, f := range b.p.cat.Stock.Fasteners(stock.Bolt) {
		if f.Diameter == nut.Diameter && f.Length.MM() >= grip && (bolt.Name == "" || f.Length < bolt.Length) {
			bolt = f
		}
	}
	for _, q := range []struct {
		name  string
		count int
	}{{bolt.Name, n}, {nut.Name, n}, {washer.Name, 2 * n}} {
		if q.name != "" {
			t.add(b.p.hardware(q.name, q.count, of))
		}
	}
}
