package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/layout"
	"bowerwright/making"
	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// The words of the job file for what package making calls otherwise.
var (
	cornerWords = map[string]making.Corner{
		"": making.GlueAlone, "glue": making.GlueAlone, "brads": making.Brads, "corner block": making.Blocks, "plate": making.Plates, "spline": making.Splines,
	}
	glueWords = map[string]making.Method{
		"": making.Chosen, "rolled": making.Rolled, "strap": making.Strapped, "two halves": making.Halves, "joint by joint": making.JointByJoint, "in layers": making.InLayers,
	}
)

var snagLayers = define("layers-shape", "Layers are asked for of a frame that is not a ring sawn round.")

// makingSnags are the codes of package making that stop a job; the others only
// tell of a way round, which the papers go.
var makingSnags = adopt(making.Snags, func(code string) bool { return making.Problem{Code: making.Code(code)}.Stops() })

// adopt makes the codes of a lower package codes of the job.
func adopt(kinds []snag.Kind, take func(code string) bool) map[string]snag.Kind {
	out := map[string]snag.Kind{}
	for _, k := range kinds {
		if take(k.Code) {
			out[k.Code] = k
			Snags = append(Snags, k)
		}
	}
	return out
}

// makeUp fills Result.Making, and says what else is sawn from the boards.
func (p *planner) makeUp() {
	kinds := p.madeKinds()
	back := p.laidBack()
	shop := p.makingShop()
	plan, problems, err := making.Make(kinds, back, shop)
	if err != nil {
		p.fault("%v", err)
		return
	}
	for _, q := range problems {
		p.makingProblem(q)
	}
	for _, id := range plan.Used(shop) {
		p.book.Get(id)
	}
	p.making = plan
	p.blocks(plan, shop.Rates.Corner)
	p.feetBattens(plan)
	p.makingFacts(plan, shop, back)
}

// madeKinds are the kinds of which any are made. One of which none is cannot be
// placed either.
func (p *planner) madeKinds() []making.Kind {
	var out []making.Kind
	for _, s := range p.kinds {
		if s.make == 0 {
			continue
		}
		if s.Layers > 1 && s.round == nil {
			p.snag(snagLayers, "frames."+s.Name+".layers", fmt.Sprint(s.Layers),
				"only a ring that is sawn round is glued up in layers: the layers of another frame, turned half a segment, do not lie on each other",
				"give the ring by outside and inside, or take layers out")
		}
		k := making.Kind{Name: s.Name, Frame: s.built, Count: s.make, Corner: cornerWords[s.Corner], Method: glueWords[s.GlueUp],
			Layers: s.Layers, OneFace: s.Flat && !s.board.turning}
		if s.round != nil {
			k.Ring = making.Ring{Outside: s.round.Outside.MM(), Inside: s.round.Inside.MM()}
		}
		out = append(out, k)
	}
	return out
}

// laidBack is the layout from behind. A circle stands on no side, though the
// short bits that stand for it in the layout may.
func (p *planner) laidBack() layout.Layout {
	l := layout.Back(p.built)
	l.Standing = slices.DeleteFunc(l.Standing, func(s layout.Standing) bool { return p.kinds[p.kindAt[l.Frames[s.Frame].Kind]].round != nil })
	return l
}

// layers is how many boards lie on each other in a frame.
func (s *shape) layers() int { return max(1, s.Layers) }

// makingShop is what there is to make with. Its rates are read aside: which of
// them count is known when the plan is made.
func (p *planner) makingShop() making.Shop {
	m := p.spec.Making
	return making.Shop{
		Rates: making.RatesFrom(p.book.Aside()), Catalogue: &p.cat.Stock, People: m.Hands, Straps: m.Straps, Bench: m.Bench,
		Brads: p.atHand(stock.Brad, m.Brads), Plates: p.platesAtHand(m.Plates),
		Kerf: p.set.kerf.MM(), Mark: p.w.tapeMark(), FinishFirst: m.Inside == "before gluing", BareInside: m.Inside == "none",
	}
}

// platesAtHand are those given; else, of the catalogue's, those of the system
// that the job is shown in, as at the seams.
func (p *planner) platesAtHand(lengths []unit.Length) []stock.Fastener {
	if lengths != nil {
		return p.atHand(stock.Plate, lengths)
	}
	var out []stock.Fastener
	for _, f := range p.cat.Stock.Fasteners(stock.Plate) {
		if screw, ok := p.cat.Stock.Screw(f.Screw); ok && unit.OnMark(screw.Diameter, unit.Millimetre/10) == (p.w.show == unit.Metric) {
			out = append(out, f)
		}
	}
	return out
}

// atHand is hardware of the lengths given: the catalogue's where it has it, and
// else as the catalogue's nearest but for the length.
func (p *planner) atHand(kind stock.Hardware, lengths []unit.Length) []stock.Fastener {
	if lengths == nil {
		return nil
	}
	sold := p.cat.Stock.Fasteners(kind)
	out := []stock.Fastener{}
	for _, l := range lengths {
		best := stock.Fastener{Kind: kind}
		for _, f := range sold {
			if best.Name == "" || math.Abs((f.Length-l).MM()) < math.Abs((best.Length-l).MM()) {
				best = f
			}
		}
		if best.Length != l {
			best.Name = fmt.Sprintf("%s %s", kind, p.w.text(p.w.stock(l)))
			best.Length = l
		}
		out = append(out, best)
	}
	slices.SortFunc(out, func(a, b stock.Fastener) int { return cmp.Compare(a.Length, b.Length) })
	return out
}

// makingProblem is a snag of the job where it stops it. Of the others only a
// straight length that is too short is news: that nothing stands on a side, and
// that frames are in no seam, is said of the layout already.
func (p *planner) makingProblem(q making.Problem) {
	problem, remedy := q.Text(p.style())
	if k, ok := makingSnags[string(q.Code)]; ok {
		path, value := p.makingPlace(q)
		p.snag(k, path, value, problem, remedy)
		return
	}
	if q.Code == making.StraightShort {
		p.note(string(q.Code), "making", problem, asSentence(remedy))
	}
}

// makingPlace is where in the job file a problem is put right, and what stands
// there.
func (p *planner) makingPlace(q making.Problem) (path, value string) {
	i, ok := p.kindAt[q.Kind]
	switch {
	case q.Code == making.TooCold:
		return "making.shop temperature", p.w.warmth(q.Room)
	case !ok:
		return "making", ""
	case q.Corner > 0:
		return "frames." + q.Kind + ".corner", p.kinds[i].Corner
	}
	return "frames." + q.Kind + ".glue up", p.kinds[i].GlueUp
}

// style is how lengths are written in sentences.
func (p *planner) style() unit.Style {
	if p.w.show == unit.Metric {
		return p.w.sawn
	}
	return p.w.us
}

// asSentence makes a phrase a sentence.
func asSentence(phrase string) string {
	return strings.ToUpper(phrase[:1]) + phrase[1:] + "."
}

// blocks counts the pieces of board that corner blocks are made of, alike ones
// of a kind together.
func (p *planner) blocks(plan making.Plan, r making.CornerRates) {
	for _, k := range plan.Kinds {
		if k.Corners.Choice != making.Blocks {
			continue
		}
		s := p.kinds[p.kindAt[k.Name]]
		for i, group := range alikePieces(k.Corners.Pieces) {
			p.pieces = append(p.pieces, p.blockPiece(s, r, group[0], len(group)*k.Count, i))
		}
	}
}

// blockPiece: blocks are ripped as strips from a length of board and then sawn
// off the strip, since a block is too short to be ripped or to be held at the
// last cut.
func (p *planner) blockPiece(s *shape, r making.CornerRates, b making.Piece, wanted, group int) piece {
	kerf := p.set.kerf.MM()
	wide := b.Width + b.Thickness*math.Tan(float64(b.Bevel)) + kerf
	strips := max(1, int(math.Floor((s.board.width.MM()+kerf)/wide)))
	least, most := r.RipLeast, min(r.RipMost, (s.board.longest()-s.board.trimFirst-s.board.trimFar).MM())
	along := func(n int) float64 { return float64(n)*(b.Length+kerf) + p.set.hold.MM() }
	n := max(1, int(math.Floor((most-p.set.hold.MM())/(b.Length+kerf))))
	count := upTo(wanted, strips*n)
	n = upTo(wanted, strips*count)
	return piece{
		mark: blockMark(s.letter, group), timber: s.board.Name, flat: s.Flat, count: count, length: length(max(least, math.Ceil(along(n)))),
		what: fmt.Sprintf("corner blocks, %s: %s to a piece, %d blocks to a strip", s.title(), howMany(strips, "strip"), n),
	}
}

// longest is the longest that a timber's boards are bought.
func (b board) longest() unit.Length {
	out := b.Length
	for _, l := range b.Lengths {
		out = max(out, l.Length)
	}
	return out
}

// blockMark is the mark of what blocks are ripped from: no part's mark has a
// plus.
func blockMark(letter string, group int) string {
	if group == 0 {
		return letter + "+"
	}
	return fmt.Sprintf("%s+%d", letter, group+1)
}

// upTo is how many times n goes into a count, the last time perhaps not whole.
func upTo(count, n int) int { return (count + n - 1) / n }

// howMany is a number with its word.
func howMany(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return fmt.Sprintf("%d %s", n, word)
}

// alikePieces sorts the pieces of a kind's corners into groups that are alike but
// for the corner, in the order of their first corners.
func alikePieces(pieces []making.Piece) [][]making.Piece {
	var out [][]making.Piece
	at := map[making.Piece]int{}
	for _, q := range pieces {
		key := q
		key.Corner = 0
		key.At, key.Slot, key.Length, key.Width = micro(q.At), micro(q.Slot), micro(q.Length), micro(q.Width)
		key.Behind = [2]float64{micro(q.Behind[0]), micro(q.Behind[1])}
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], q)
	}
	return out
}
