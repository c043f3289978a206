package packet

// A block is a strip across the field. The flow gives it its place; blocks
// know their height beforehand, so nothing is drawn twice.
type block struct {
	h    float64 // mm
	gap  float64 // white above it, dropped at the top of a page
	keep bool    // never the last on a page: it stays with the next block
	// again is drawn once more at the top when a page ends before this block:
	// the head of a table.
	again *block
	// split cuts a block that may run over pages to a height; ok is false when
	// not even its first row fits.
	split func(room float64) (now, later block, ok bool)
	// entry is the line of the contents that points here.
	entry string
	// alt says in words what a drawn block shows, for those who cannot see it.
	alt  string
	draw func(s *sheet, y float64)
	// twins are what the block says on the page for screens and readers; see
	// says in web.go. Nil means that nobody has thought of it: a test fails.
	twins []twin
}

// picture is a block that is drawn; alt says in words what it shows. Drawn at
// height 0 it is also the picture on the page for screens.
func picture(h float64, alt string, draw func(s *sheet, y float64)) block {
	return block{h: h, alt: alt, draw: draw}
}

// A paper is one of the packet's papers: a title for the head, two short lines
// at its right, and the blocks in their order.
type paper struct {
	title  string
	right  [2]string
	entry  string // its line in the contents
	blocks []block
	// joins lets it begin below the paper before it where there is room, so
	// that short papers share a page.
	joins bool
	// balance moves blocks on to its last page when that would be near empty;
	// it is for papers that none joins.
	balance bool
	// breakAt is the block that begins a page for that reason; 0 for none.
	breakAt int
}

// A page is one side of paper in the making.
type page struct {
	sheet
	title string
	right [2]string
	tab   int     // which step of the thumb tab
	y     float64 // where the flow has come to
	joins bool
}

// An entry is a line of the contents.
type entry struct {
	text string
	page int
}

// A book gathers pages and remembers what begins where.
type book struct {
	pages   []*page
	entries []entry
	tab     int
	papers  []webPaper // the same, for the page for screens
}

// begin starts a page.
func (b *book) begin(title string, right [2]string) *page {
	p := &page{title: title, right: right, tab: b.tab, y: bodyTop}
	b.pages = append(b.pages, p)
	return p
}

// note adds a line to the contents for the page that is open.
func (b *book) note(text string) {
	if text != "" {
		b.entries = append(b.entries, entry{text, len(b.pages)})
	}
}

// last is the page that is open, or nil.
func (b *book) last() *page {
	if len(b.pages) == 0 {
		return nil
	}
	return b.pages[len(b.pages)-1]
}

// flow lays a paper on as many pages as it takes.
func (b *book) flow(p paper) {
	if len(p.blocks) == 0 {
		return
	}
	b.shown(webPaper{p.title, p.right, p.entry, p.blocks})
	open := b.last()
	if joined := open != nil && open.joins && p.joins && open.y+joinGap+joinHead+max(joinLeast, run(p.blocks)) <= bodyFoot; joined {
		open.y += joinGap
		open.joinHead(p)
	} else {
		b.tab++
		open = b.begin(p.title, p.right)
	}
	b.note(p.entry)
	if p.balance {
		p.breakAt = p.balanced(open.y)
	}
	for i, k := range p.blocks {
		open = b.place(p, open, p.blocks[i:], k)
	}
	open.joins = p.joins
}

// place draws one block, on a new page when it or what it must stay with does
// not fit. What can be split is; what cannot and is higher than a page is drawn
// all the same, at the top of one.
func (b *book) place(p paper, open *page, rest []block, k block) *page {
	top := open.y == bodyTop
	gap := k.gap
	if top {
		gap = 0
	}
	room := bodyFoot - open.y - gap
	if k.split != nil && k.h > room {
		if now, later, ok := parted(k, room, len(rest) == 1); ok {
			open.draw(b, now, gap)
			return b.place(p, b.begin(p.title, p.right), rest, later)
		}
	}
	if !top && (run(rest) > room || p.breakAt > 0 && len(p.blocks)-len(rest) == p.breakAt) {
		open = b.begin(p.title, p.right)
		if k.again != nil {
			k.again.draw(&open.sheet, open.y)
			open.y += k.again.h
		}
		if k.split != nil {
			return b.place(p, open, rest, k)
		}
		gap = 0
	}
	open.draw(b, k, gap)
	return open
}

// parted splits a block at a room. The last of a paper takes so much with it to
// the next page that this is no near empty one, where it can spare it.
func parted(k block, room float64, last bool) (now, later block, ok bool) {
	now, later, ok = k.split(room)
	if short := tailLeast - later.h; ok && last && short > 0 {
		if n, l, well := k.split(now.h - short); well {
			return n, l, true
		}
	}
	return now, later, ok
}

// tailLeast is how much of the last page such a block fills, mm: a good quarter.
const tailLeast = 0.27 * (bodyFoot - bodyTop)

// lastLeast is how much of a balanced paper's last page is filled, mm, where
// what stands before can spare it: a third of a page.
const lastLeast = (bodyFoot - bodyTop) / 3

// balanced finds the block to begin the last page with, so that it is no near
// empty one: 0 when it is well filled as the blocks come, or cannot be.
func (p paper) balanced(y float64) int {
	starts, foot := p.dryRun(y)
	n := len(starts)
	if n < 2 || foot-bodyTop >= lastLeast {
		return 0
	}
	before, best := height(p.blocks[starts[n-2]:starts[n-1]]), 0
	if n == 2 { // the page may have begun with another paper
		before += y - bodyTop
	}
	for i := starts[n-1] - 1; i > starts[n-2]; i-- {
		tail := height(p.blocks[i:])
		if p.blocks[i].again != nil {
			tail += p.blocks[i].again.h
		}
		if tail > bodyFoot-bodyTop || before-height(p.blocks[i:starts[n-1]]) < lastLeast {
			break
		}
		if !p.blocks[i-1].keep {
			best = i
		}
		if best > 0 && tail >= lastLeast {
			break
		}
	}
	return best
}

// dryRun flows the paper's blocks without drawing them: the blocks that begin
// its pages, and how far down the last one is filled.
func (p paper) dryRun(y float64) (starts []int, foot float64) {
	blank := func(*sheet, float64) {}
	blocks := make([]block, len(p.blocks))
	for i, k := range p.blocks {
		k.draw = blank
		if k.again != nil {
			k.again = &block{h: k.again.h, draw: blank}
		}
		blocks[i] = k
	}
	p.blocks, p.breakAt = blocks, 0
	var b book
	open := b.begin(p.title, p.right)
	open.y = y
	starts = []int{0}
	for i, k := range blocks {
		was := len(b.pages)
		open = b.place(p, open, blocks[i:], k)
		for range len(b.pages) - was {
			starts = append(starts, i)
		}
	}
	return starts, open.y
}

// draw puts a block below what is there.
func (p *page) draw(b *book, k block, gap float64) {
	p.y += gap
	b.note(k.entry)
	k.draw(&p.sheet, p.y)
	p.y += k.h
}

// splitLeast is how much of a block that can be split must stand with the
// heading before it, mm.
const splitLeast = 26.0

// run is the height of a block and of all that it must stay with.
func run(rest []block) float64 {
	h := 0.0
	for i, k := range rest {
		if i > 0 {
			h += k.gap
		}
		if k.split != nil {
			return h + min(k.h, splitLeast)
		}
		h += k.h
		if !k.keep {
			break
		}
	}
	return h
}

// height is that of all blocks below each other.
func height(blocks []block) float64 {
	h := 0.0
	for _, k := range blocks {
		h += k.gap + k.h
	}
	return h
}
