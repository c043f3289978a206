package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/price"
	"bowerwright/unit"
)

// A baseBuyer reckons what the base is made of and what holds the frames to it.
// It asks the same functions for pieces and fasteners as standing and strength
// do, so that what is bought is what was reckoned with.
type baseBuyer struct {
	p     *planner
	s     *stander
	t     trial // the base and nothing else
	sheet sheetSize
	cuts  map[unit.Length][]cutOut // by the thickness of the sheet
	bars  []bar
}

// A bar is what no sheet gives: feet and frame bases that are thick, and struts
// that are longer than any board.
type bar struct {
	of                string
	thick, wide, long float64 // mm
	count             int
	instead           string // of what
}

// baseBuyer is nil where the job has no base.
func (p *planner) baseBuyer() *baseBuyer {
	if len(p.spec.Base) == 0 || len(p.built.Frames) == 0 {
		return nil
	}
	s := p.stander()
	s.book = p.book.Aside()
	b := &baseBuyer{p: p, s: s, t: trial{asked: p.outfit()}, cuts: map[unit.Length][]cutOut{}}
	s.base(&b.t)
	return b
}

// read takes an assumption of lengths, and lists it.
func (b *baseBuyer) read(id assume.ID) float64 {
	v := b.p.book.Get(id)
	u, _ := unit.UnitNamed(v.Unit)
	return v.Value * u.Length().MM()
}

func (b *baseBuyer) number(id assume.ID) int { return int(math.Ceil(b.p.book.Get(id).Value)) }

// basePieces has struts sawn from the boards of the first frame, as strength
// reckons them, square and long enough for slanted ends; and the posts that hold
// a frame which does not stand on the base.
func (p *planner) basePieces() {
	b := p.baseBuyer()
	if b == nil {
		return
	}
	k := p.backKind()
	saw := func(q piece) {
		if k.board.gives(q.length+p.set.hold, q.count) {
			q.timber, q.flat = k.board.Name, k.Flat
			p.pieces = append(p.pieces, q)
		}
	}
	for i, q := range b.struts() {
		q.mark = numbered("brace+", i+1)
		saw(q)
	}
	for i, q := range b.posts() {
		q.mark = numbered("post+", i+1)
		saw(q)
	}
}

// numbered is a mark, with a number from the second on.
func numbered(mark string, n int) string {
	if n == 1 {
		return mark
	}
	return fmt.Sprintf("%s%d", mark, n)
}

// struts are one length for each entry of braces: from the back of the piece
// down to the end of its foot.
func (b *baseBuyer) struts() []piece {
	var out []piece
	for _, a := range b.p.spec.Base {
		if a.Kind == "brace" {
			l, _ := unit.FromMM(math.Hypot(a.Behind.MM(), a.Fixed.MM()), b.p.set.mark, unit.Up)
			out = append(out, piece{what: a.Name + ": strut of a brace, its ends slanted when it is fitted", length: l, count: cmp.Or(a.Count, 2)})
		}
	}
	return out
}

// posts are as long as the place that they hold is high over the base; lower
// ones than the saw may hold are blocks, for the offcuts.
func (b *baseBuyer) posts() []piece {
	var out []piece
	for _, h := range b.held() {
		l, _ := unit.FromMM(h.Up, b.p.set.mark, unit.Down)
		if l < b.p.set.hold {
			continue
		}
		name := b.p.labels[h.Frame]
		if i := slices.IndexFunc(out, func(q piece) bool { return q.length == l }); i >= 0 {
			out[i].count++
			out[i].what += ", " + name
			continue
		}
		out = append(out, piece{what: "post from the base to " + name, length: l, count: 1})
	}
	return out
}

// baseNeeds are the lines for what it stands on.
func (p *planner) baseNeeds(t *tally) {
	p.lineNeeds(t)
	p.ballastNeeds(t)
	b := p.baseBuyer()
	if b == nil {
		return
	}
	b.sheet = sheetSize{b.read(assume.BaseSheetLength), b.read(assume.BaseSheetWidth), p.set.kerf.MM()}
	for _, a := range p.spec.Base {
		b.make(t, a)
	}
	b.sheetNeeds(t)
	b.barNeeds(t)
	b.holdNeeds(t)
}

// make takes one entry of the base apart into what it is sawn from.
func (b *baseBuyer) make(t *tally, a BaseAsked) {
	thick := cmp.Or(a.Thickness.MM(), b.s.mm(assume.BaseThickness))
	switch a.Kind {
	case "plate", "ring":
		for i, p := range b.t.pieces {
			if b.t.asked.base[b.t.owners[i]].Name == a.Name {
				b.plate(t, a, p, thick)
			}
		}
	case "feet":
		b.strips(t, a.Name, "foot", a.Depth.MM(), a.Width.MM(), thick, cmp.Or(a.Count, 2))
	case "frame base":
		b.strips(t, a.Name, "side", a.Width.MM(), a.Rim.MM(), thick, 2)
		b.strips(t, a.Name, "side", a.Depth.MM(), a.Rim.MM(), thick, 2)
		b.screws(t, thick, 4*b.number(assume.BaseCornerScrews), "corners of "+a.Name, assume.BaseCornerScrews)
	case "brace":
		b.brace(t, a)
	case "stakes":
		t.add(need{of: a.Name, Line: price.Line{Name: "stake", Class: price.Standing, Packs: []price.Pack{onePiece}, Need: pieces(cmp.Or(a.Count, 4))},
			note: "each as the one that was tried there"})
	}
}

// layers are how many sheets of which thickness make up a thickness.
func (b *baseBuyer) layers(thick float64) (n int, each unit.Length) {
	n = int(math.Ceil(thick/b.read(assume.BaseSheetThickest) - sawSlack))
	return n, length(thick / float64(n))
}

// plate is sawn from the box round it; larger than a sheet it is split into
// equal parts, and strips of the same sheet join them from above.
func (b *baseBuyer) plate(t *tally, a BaseAsked, p base.Piece, thick float64) {
	box := p.Footprint[0].Box()
	n, each := b.layers(thick)
	across, rows := b.sheet.split(box.Width(), box.Height(), a.Split)
	what := a.Kind
	if across*rows > 1 {
		what = "part of it"
	}
	for range n * across * rows {
		b.cut(each, cutOut{a.Name, what, box.Width() / float64(across), box.Height() / float64(rows)})
	}
	b.joints(t, a.Name, each, box.Height(), across-1)
	b.joints(t, a.Name, each, box.Width(), rows-1)
}

// joints are strips along the joints of a split plate, screwed down on either
// side.
func (b *baseBuyer) joints(t *tally, of string, thick unit.Length, long float64, n int) {
	if n == 0 {
		return
	}
	parts := math.Ceil(long/b.sheet.long - sawSlack)
	for range n * int(parts) {
		b.cut(thick, cutOut{of, "strip over a joint", long / parts, b.read(assume.BaseJointStrip)})
	}
	every := b.read(assume.BaseJointEvery)
	side := int(math.Ceil(long/every-sawSlack)) + 1
	b.screws(t, 2*thick.MM(), 2*n*side, "joints of "+of, assume.BaseJointEvery)
}

// strips are rectangles of a sheet; thicker than a sheet they are bars.
func (b *baseBuyer) strips(t *tally, of, what string, long, wide, thick float64, count int) {
	if thick > b.read(assume.BaseSheetThickest)+sawSlack {
		b.bars = append(b.bars, bar{of: of, thick: thick, wide: wide, long: long, count: count, instead: what})
		return
	}
	across, rows := b.sheet.split(long, wide, false)
	for range count * across * rows {
		b.cut(length(thick), cutOut{of, what, long / float64(across), wide / float64(rows)})
	}
	for range count {
		b.joints(t, of, length(thick), wide, across-1)
		b.joints(t, of, length(thick), long, rows-1)
	}
}

func (b *baseBuyer) cut(thick unit.Length, c cutOut) { b.cuts[thick] = append(b.cuts[thick], c) }

// brace is a strut, which the boards give if they are long enough, and a foot on
// the floor, with a bracket at either end of the strut: strength counts on one
// there.
func (b *baseBuyer) brace(t *tally, a BaseAsked) {
	n, foot := cmp.Or(a.Count, 2), b.s.mm(assume.BaseThickness)
	b.strips(t, a.Name, "foot of a brace", a.Behind.MM(), a.Width.MM(), foot, n)
	b.brackets(t, 2*n, "both ends of "+a.Name)
	b.screws(t, 0, n*b.number(assume.BaseBraceScrews), "feet of "+a.Name, assume.BaseBraceScrews)
	for _, q := range b.struts() {
		k := b.p.backKind()
		if of, _, _ := strings.Cut(q.what, ":"); of == a.Name && !k.board.gives(q.length+b.p.set.hold, q.count) {
			b.bars = append(b.bars, bar{of: a.Name, thick: k.board.thickness.MM(), wide: k.board.width.MM(), long: q.length.MM(), count: n, instead: "strut"})
		}
	}
}

// sheetNeeds are whole sheets, by thickness.
func (b *baseBuyer) sheetNeeds(t *tally) {
	var thicks []unit.Length
	for k := range b.cuts {
		thicks = append(thicks, k)
	}
	slices.Sort(thicks)
	for _, thick := range thicks {
		cuts := b.cuts[thick]
		n, _ := b.sheet.lay(cuts)
		us, metric := b.sheetNames(thick)
		if b.p.w.show == unit.Metric {
			us, metric = metric, us
		}
		t.add(need{of: forNames(cuts), note: b.cutText(cuts), rates: []assume.ID{assume.BaseThickness, assume.BaseSheetLength, assume.BaseSheetWidth},
			Line: price.Line{Name: us, Also: []string{metric}, Class: price.Sheets, Need: pieces(n), Packs: []price.Pack{onePiece}}})
	}
}

// sheetNames are what a price list calls a sheet: its thickness and its size.
func (b *baseBuyer) sheetNames(thick unit.Length) (us, metric string) {
	w := b.p.w
	t, wide, long := w.stock(thick), w.looked(b.sheet.wide), w.looked(b.sheet.long)
	return t.US + " plywood " + wide.US + " x " + long.US, t.Metric + " plywood " + wide.Metric + " x " + long.Metric
}

func forNames(cuts []cutOut) string {
	var out []string
	for _, c := range cuts {
		if !slices.Contains(out, c.of) {
			out = append(out, c.of)
		}
	}
	return listed(out, mostNamed)
}

// cutText says what is sawn: "8 x foot of a brace, 30 in by 4 in".
func (b *baseBuyer) cutText(cuts []cutOut) string {
	counts := map[cutOut]int{}
	var order []cutOut
	for _, c := range cuts {
		if counts[c]++; counts[c] == 1 {
			order = append(order, c)
		}
	}
	var out []string
	for i, c := range order {
		of := ""
		if i == 0 || order[i-1].of != c.of {
			of = c.of + ": "
		}
		out = append(out, fmt.Sprintf("%s%d x %s, %s by %s", of, counts[c], c.what, b.text(c.wide), b.text(c.deep)))
	}
	return strings.Join(out, "; ")
}

func (b *baseBuyer) text(mm float64) string { return b.p.w.text(b.p.w.looked(mm)) }

// barNeeds are bought by their length, since no board of the job gives them.
func (b *baseBuyer) barNeeds(t *tally) {
	for _, x := range b.bars {
		w := b.p.w
		name := func(of func(Size) string) string {
			return of(w.stock(length(x.thick))) + " x " + of(w.stock(length(x.wide))) + " bar"
		}
		us, metric := name(func(s Size) string { return s.US }), name(func(s Size) string { return s.Metric })
		if w.show == unit.Metric {
			us, metric = metric, us
		}
		t.add(need{of: x.of, note: fmt.Sprintf("%d of %s", x.count, b.text(x.long)), rates: []assume.ID{assume.BaseSheetThickest},
			Line: price.Line{Name: us, Also: []string{metric}, Class: price.Boards, Need: price.Quantity{Measure: price.Length, N: float64(x.count) * x.long}}})
	}
}

func pieces(n int) price.Quantity { return price.Quantity{Measure: price.Pieces, N: float64(n)} }

// lineNeeds are a retaining line for each frame that has one.
func (p *planner) lineNeeds(t *tally) {
	t.add(need{of: "frames over heads", note: "a second hold that depends on no seam; rated by its maker", Line: price.Line{
		Name: "retaining line", Class: price.Standing, Need: pieces(len(p.spec.Standing.Lines)), Packs: []price.Pack{onePiece}}})
}

// mostOwned is more units than any base has room for.
const mostOwned = 1000

// ballastNeeds are the units beyond those that are owned, where the owned are
// not enough, and what ties every heap to the base.
func (p *planner) ballastNeeds(t *tally) {
	f := p.result.Standing
	if f == nil || !f.Ballast.Needed {
		return
	}
	heaps := len(f.Ballast.Stacks)
	if !f.Ballast.Enough && len(p.spec.Standing.Ballast) > 0 {
		heaps = max(heaps, p.unowned(t))
	}
	t.add(need{of: "ballast, each heap to the base", rates: []assume.ID{assume.BaseStraps}, Line: price.Line{
		Name: "ballast strap", Class: price.Standing, Need: pieces(heaps * int(math.Ceil(p.straps(heaps)))), Packs: []price.Pack{onePiece}}})
}

func (p *planner) straps(heaps int) float64 {
	if heaps == 0 {
		return 0
	}
	return p.book.Get(assume.BaseStraps).Value
}

// unowned looks for the fewest units again, as if there were any number of each
// kind, and buys what is beyond the owned ones. Where no number is enough,
// nothing is bought: the ways out say what helps. It gives the heaps.
func (p *planner) unowned(t *tally) int {
	s := p.stander()
	s.book = p.book.Aside()
	a := p.outfit().clone()
	for i := range a.at.Ballast {
		a.at.Ballast[i].Owned = mostOwned
	}
	again := s.try(a, triedWork)
	if !again.plan.Enough {
		return 0
	}
	for _, b := range p.spec.Standing.Ballast {
		n := -b.Owned
		for _, k := range again.plan.Stacks {
			if k.Unit.Name == b.Name {
				n += k.Count
			}
		}
		t.add(need{of: "ballast beyond what is owned", note: p.w.say(p.w.held(b.Mass).US, p.w.held(b.Mass).Metric) + " each", Line: price.Line{
			Name: b.Name, Class: price.Standing, Need: pieces(n), Packs: []price.Pack{onePiece}}})
	}
	return len(again.plan.Stacks)
}

// baseReady are units that are owned, and wings, which are made as frames of
// their own are.
func (p *planner) baseReady() {
	ready := &p.result.Buying.Ready
	if f := p.result.Standing; f != nil {
		counts := map[string]int{}
		for _, k := range f.Ballast.Stacks {
			counts[k.Unit] += k.Count
		}
		for _, b := range p.spec.Standing.Ballast {
			if n := counts[b.Name]; n > 0 {
				*ready = append(*ready, ReadyFacts{Name: fmt.Sprintf("%d of the %s called %s", n, howMany(b.Owned, "unit"), b.Name), For: "ballast; where each stands is on the stand sheet"})
			}
		}
	}
	for _, a := range p.spec.Base {
		if a.Kind == "wing" {
			*ready = append(*ready, ReadyFacts{Name: "the wing called " + a.Name + " with its hinges", For: "what it stands on; its boards are in no list of this job"})
		}
	}
}
