package job

import (
	"fmt"

	"bowerwright/fixing"
	"bowerwright/making"
	"bowerwright/stock"
	"bowerwright/unit"
)

// seamBattens has the battens over seams of flat frames sawn from the boards of
// the frame that each is as wide as, alike ones under one mark; it gives the
// marks by seam.
func (p *planner) seamBattens(plan fixing.Plan) map[int]string {
	type batten struct {
		timber string
		flat   bool
		length unit.Length
	}
	out := map[int]string{}
	at := map[batten]int{}
	seams := map[int][]int{}
	for _, s := range plan.Seams {
		if s.Method != fixing.Battened {
			continue
		}
		for _, q := range s.Plates {
			k := p.kinds[p.kindAt[p.built.Frames[q.Of].Kind]]
			b := batten{k.board.Name, k.Flat, length(q.Length)}
			i, ok := at[b]
			if !ok {
				i = len(p.pieces)
				at[b] = i
				p.pieces = append(p.pieces, piece{mark: battenMark(len(at)), timber: b.timber, flat: b.flat, length: b.length})
			}
			p.pieces[i].count++
			seams[i] = append(seams[i], s.Number)
			p.pieces[i].what = "batten across the backs at " + seamNumbers(seams[i])
			out[s.Number] = p.pieces[i].mark
		}
	}
	return out
}

// battenMark is the mark of battens over seams, as blockMark.
func battenMark(n int) string {
	if n == 1 {
		return "bat+"
	}
	return fmt.Sprintf("bat+%d", n)
}

// feetMark is that of what keeps the feet of a kind apart.
func feetMark(letter string) string { return letter + "+feet" }

// feetBattens has a batten sawn for the feet of every open frame: all are glued
// before the first is fixed in its place. Where no board is so long, a straight
// length of the shop's does it.
func (p *planner) feetBattens(plan making.Plan) {
	for _, k := range plan.Kinds {
		if k.GlueUp.Batten <= 0 {
			continue
		}
		s := p.kinds[p.kindAt[k.Name]]
		if l, ok := p.feetBatten(s, k.GlueUp); ok {
			p.pieces = append(p.pieces, piece{mark: feetMark(s.letter), what: "batten across the feet, " + s.title(), timber: s.board.Name, flat: s.Flat, length: l, count: k.Count})
		}
	}
}

// feetBatten is its length, what there is from outside to outside, down to the
// tape's mark; and whether the kind's boards give it.
func (p *planner) feetBatten(s *shape, g making.GlueUp) (unit.Length, bool) {
	l, _ := unit.FromMM(g.Across, p.set.mark, unit.Down)
	return l, l+p.set.hold <= s.board.longest()-s.board.trimFirst-s.board.trimFar
}

// feetScrews are what those battens are screwed on with: two at either foot, of
// the screw that most seams take.
func (p *planner) feetScrews() (name string, count int) {
	for _, k := range p.making.Kinds {
		if k.GlueUp.Batten > 0 {
			count += 4 * k.Count
		}
	}
	most := 0
	for _, t := range p.result.Fixing.Totals {
		if t.Kind == string(stock.WoodScrew) && t.Count > most {
			name, most = t.Thing, t.Count
		}
	}
	return name, count
}
