package job

import (
	"fmt"
	"math"

	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/stand"
	"bowerwright/stock"
	"bowerwright/unit"
)

// strongbackCount is how many strongbacks there are, and strongbackMark is the
// mark of both in the cut list: they are alike.
const (
	strongbackCount = 2
	strongbackMark  = "back+"
)

// strongbacks are two battens a third of the way from either end, as long as the
// piece is wide or high. None where the boards do not give that length: one
// spliced from two is not reckoned.
func (s *stander) strongbacks(way string) []stand.Strongback {
	if !s.p.backsFit(way) {
		return nil
	}
	w, h := s.piece.Layout.Width, s.piece.Layout.Height
	screw := s.p.backDowel()
	var out []stand.Strongback
	for k := 1; k <= strongbackCount; k++ {
		share := float64(k) / (strongbackCount + 1)
		b := stand.Strongback{Boards: s.plainBoards(), Lift: true, Screw: screw}
		switch way {
		case "level":
			b.From, b.To = geom.Point{Y: h * share}, geom.Point{X: w, Y: h * share}
		case "upright":
			b.From, b.To = geom.Point{X: w * share}, geom.Point{X: w * share, Y: h}
		default:
			return nil
		}
		out = append(out, b)
	}
	return out
}

// backLists count their screws: that needs no more than the layout.
func (s *stander) backLists(backs []stand.Strongback) []stand.StrongbackList {
	in := stand.StrengthInput{Layout: s.piece.Layout, Strongbacks: backs}
	for _, f := range s.piece.Layout.Frames {
		in.Frames = append(in.Frames, stand.StrengthFrame{Boards: s.p.kinds[s.p.kindAt[f.Kind]].boards})
	}
	return in.StrongbackLists()
}

// backLength is what one is sawn to, down to the tape's mark, so that it does
// not stand out.
func (p *planner) backLength(way string) unit.Length {
	long := map[string]float64{"level": p.built.Width, "upright": p.built.Height}[way]
	l, _ := unit.FromMM(long, p.set.mark, unit.Down)
	return l
}

// backKind is the kind of whose boards they are sawn: the first frame's.
func (p *planner) backKind() *shape { return p.kinds[p.kindAt[p.built.Frames[0].Kind]] }

// backsFit says whether the boards to be had give both.
func (p *planner) backsFit(way string) bool {
	return p.backKind().board.gives(p.backLength(way)+p.set.hold, strongbackCount)
}

// gives says whether so many lengths come out of whole boards, each from its
// own: of boards to buy there are as many as wanted.
func (b board) gives(l unit.Length, n int) bool {
	l += b.trimFirst + b.trimFar
	if l <= b.longest() {
		return true
	}
	for _, h := range b.OnHand {
		if l <= h.Length && len(h.Spans) == 0 {
			n -= h.Count
		}
	}
	return n <= 0
}

// backPieces has the strongbacks of the job sawn from the frames' boards; where
// they cannot be, a note says so.
func (p *planner) backPieces() {
	way := p.spec.Lifting.Strongbacks
	if way != "level" && way != "upright" || p.spec.Lifting.InPlace || len(p.built.Frames) == 0 {
		return
	}
	k, l := p.backKind(), p.backLength(way)
	if p.backsFit(way) {
		p.pieces = append(p.pieces, piece{mark: strongbackMark, what: "strongback, " + way + " across the backs; off again when it stands",
			timber: k.board.Name, flat: k.Flat, length: l, count: strongbackCount})
		return
	}
	do := "Name longer boards, or build it up in place"
	if way == "level" && p.backsFit("upright") {
		do = "Write strongbacks: upright, or name longer boards"
	}
	p.note("strongback-long", "lifting.strongbacks", fmt.Sprintf("%s strongbacks are %s long, and no board of %s is: none are sawn, and lifting is reckoned without them", way, p.w.text(p.w.cut(l.MM())), k.board.Name),
		do+". One spliced from two boards is not reckoned.")
}

// backScrew is the screw of strongbacks: the thinnest of the job's system that
// is no thinner than a No. 8; the longest that is no longer than the assumption
// says and does not come near the front of the thinnest frame.
func (p *planner) backScrew() (stock.Fastener, stock.Screw) { return p.screwUpTo(p.backScrewMost()) }

// screwUpTo is the longest screw that is no longer than said, or else the
// shortest, of the thickness that strongbacks take.
func (p *planner) screwUpTo(most unit.Length) (stock.Fastener, stock.Screw) {
	var best stock.Fastener
	var of stock.Screw
	eight, _ := p.cat.Stock.Screw("No. 8")
	metric := p.w.show == unit.Metric
	for _, f := range p.cat.Stock.Fasteners(stock.WoodScrew) {
		s, ok := p.cat.Stock.Screw(f.Screw)
		if !ok || s.Diameter < eight.Diameter || unit.OnMark(s.Diameter, unit.Millimetre/10) != metric {
			continue
		}
		switch {
		case best.Name == "" || s.Diameter < of.Diameter,
			s.Diameter == of.Diameter && f.Length <= most && f.Length > best.Length,
			s.Diameter == of.Diameter && best.Length > most && f.Length < best.Length:
			best, of = f, s
		}
	}
	return best, of
}

// backScrewMost is the longest screw that may be: head sunk flush, so much wood
// left over the point as at a seam.
func (p *planner) backScrewMost() unit.Length {
	thin := math.Inf(1)
	for _, f := range p.built.Frames {
		thin = min(thin, p.kinds[p.kindAt[f.Kind]].rise().MM())
	}
	book := p.book.Aside()
	through := p.backKind().board.thickness.MM() + thin - fixing.RulesFrom(book).Keep
	return length(min(stand.StrengthRulesFrom(book).Batten, through))
}

// backDowel is that screw as the sums take it.
func (p *planner) backDowel() stand.Dowel {
	f, s := p.backScrew()
	return stand.Dowel{Diameter: s.Diameter.MM(), Root: s.Root.MM(), Length: f.Length.MM()}
}

// backScrews are what the strongbacks are screwed on with.
func (p *planner) backScrews() (name string, count int) {
	if p.result.Standing == nil || p.result.Standing.Lift.InPlace {
		return "", 0
	}
	for _, b := range p.result.Standing.Lift.Backs {
		name, count = b.Thing, count+b.Screws
	}
	return name, count
}
