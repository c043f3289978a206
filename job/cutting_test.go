package job

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"

	"pgregory.net/rapid"
)

// A yardBoard is a stock of the brute force.
type yardBoard struct {
	long   float64 // mm
	price  int64
	limit  int
	onHand bool
}

// A bestCut is what the brute force finds: the least cost, then the fewest boards
// bought, then the longest offcut of a board bought.
type bestCut struct {
	cost   int64
	bought int
	offcut float64
}

func (b bestCut) betters(c bestCut) bool {
	if b.cost != c.cost {
		return b.cost < c.cost
	}
	if b.bought != c.bought {
		return b.bought < c.bought
	}
	return b.offcut > c.offcut
}

// A brute tries every way to deal sticks with two ends of 45 degrees to boards.
// Turned, neighbours share a cut, so that a board is as long as its sticks along
// the middle, a kerf between each, and half a slant at either end.
type brute struct {
	depth, kerf, hold, keep float64
	stocks                  []yardBoard
	sticks                  []float64 // outside, mm
	open                    [][]float64
	of                      []int // stock of each open board
	best                    bestCut
	found                   bool
}

// left is what is left of a board behind its last cut, and whether its sticks
// go on it at all.
func (b *brute) left(stock int, on []float64) (float64, bool) {
	wide := b.kerf * math.Sqrt2
	end := b.depth/2 - wide
	longest := 0.0
	for _, s := range on {
		end += wide + s - b.depth
		longest = max(longest, s)
	}
	end += b.depth / 2 // the furthest point of the last stick
	tail := 0.0
	if longest-2*b.depth < b.hold-1e-6 {
		tail = wide + b.hold
	}
	long := b.stocks[stock].long
	return max(long-end-wide, 0), end+tail <= long+1e-3
}

func (b *brute) deal(i int) {
	if i == len(b.sticks) {
		b.count()
		return
	}
	for k := range b.open {
		b.open[k] = append(b.open[k], b.sticks[i])
		b.deal(i + 1) // even where it does not fit: a longer stick may yet make it hold
		b.open[k] = b.open[k][:len(b.open[k])-1]
	}
	for stock, s := range b.stocks {
		used := 0
		for _, o := range b.of {
			if o == stock {
				used++
			}
		}
		if s.limit > 0 && used >= s.limit {
			continue
		}
		b.open, b.of = append(b.open, []float64{b.sticks[i]}), append(b.of, stock)
		b.deal(i + 1)
		b.open, b.of = b.open[:len(b.open)-1], b.of[:len(b.of)-1]
	}
}

func (b *brute) count() {
	var is bestCut
	for k, on := range b.open {
		left, fits := b.left(b.of[k], on)
		if !fits {
			return
		}
		s := b.stocks[b.of[k]]
		is.cost += s.price
		if !s.onHand {
			is.bought++
			if left >= b.keep-1e-6 {
				is.offcut = max(is.offcut, left)
			}
		}
	}
	if !b.found || is.betters(b.best) {
		b.best, b.found = is, true
	}
}

// The three levels of a Result are those of a brute force that tries every
// plan, on small jobs of rectangles from up to four lengths with prices, limits
// and what is on hand; and when nothing holds all parts, that is the snag.
func TestLevelsAreTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := func(low, high int, name string) float64 { return float64(rapid.IntRange(low, high).Draw(t, name)) }
		s := spec(fmt.Sprintf("R = rectangle: width %g, height %g", whole(10, 40, "width"), whole(10, 40, "height")), "R1 at 0 0")
		b := brute{depth: 0.75 * inch, kerf: inch / 8, hold: 8 * inch, keep: 12 * inch}
		u := &s.Timber[0]
		u.Length, u.TrimFirst, u.TrimFar = 0, ptr(inches("0")), ptr(inches("0"))
		u.SpareParts = rapid.IntRange(0, 1).Draw(t, "spare")
		for range rapid.IntRange(0, 2).Draw(t, "on hand") {
			h := HandBoard{Count: rapid.IntRange(1, 2).Draw(t, "count"), Length: inches(fmt.Sprint(whole(15, 60, "hand")))}
			if rapid.Bool().Draw(t, "priced") {
				h.PriceMinor, h.Currency = int64(whole(50, 150, "cents")), "USD"
			}
			u.OnHand = append(u.OnHand, h)
			b.stocks = append(b.stocks, yardBoard{h.Length.MM(), h.PriceMinor, h.Count, true})
		}
		for range rapid.IntRange(1, 2).Draw(t, "lengths") {
			l := StockLength{Length: inches(fmt.Sprint(whole(40, 90, "length"))), PriceMinor: int64(whole(200, 700, "price")), Currency: "USD"}
			if rapid.Bool().Draw(t, "limited") {
				l.Most = rapid.IntRange(1, 2).Draw(t, "most")
			}
			if slices.ContainsFunc(u.Lengths, func(m StockLength) bool { return m.Length == l.Length }) {
				continue
			}
			u.Lengths = append(u.Lengths, l)
			b.stocks = append(b.stocks, yardBoard{l.Length.MM(), l.PriceMinor, l.Most, false})
		}
		r, snags, err := Plan(context.Background(), s, BuiltIn())
		if err != nil {
			t.Fatal(err)
		}
		if r.Kinds == nil { // stopped: the parts are those of the sizes as asked, on the tape already
			r.Kinds = []KindFacts{{Parts: []PartFacts{{Count: 2, Outside: Size{MM: s.Kinds[0].Lengths["width"].MM()}},
				{Count: 2, Outside: Size{MM: s.Kinds[0].Lengths["height"].MM()}}}}}
			if s.Kinds[0].Lengths["width"] == s.Kinds[0].Lengths["height"] {
				r.Kinds[0].Parts = []PartFacts{{Count: 4, Outside: r.Kinds[0].Parts[0].Outside}}
			}
		}
		for _, p := range r.Kinds[0].Parts {
			for range p.Count + u.SpareParts {
				b.sticks = append(b.sticks, p.Outside.MM)
			}
		}
		b.deal(0)
		if snags.Stops() {
			for _, q := range snags {
				if b.found || q.Code != "boards-short" && q.Code != "part-uncuttable" {
					t.Fatalf("%v, and the brute force finds %+v", q, b.best)
				}
			}
			return
		}
		if !b.found {
			t.Fatalf("no plan is possible, and one is shown: %s", r.Timber[0].Claim)
		}
		l := r.Timber[0].Levels
		got := bestCut{l.Cost.Value, int(l.Boards.Value), float64(l.Offcut.Value) / 1e6}
		if got.cost != b.best.cost || got.bought != b.best.bought || math.Abs(got.offcut-b.best.offcut) > 0.01 {
			t.Fatalf("%+v, the brute force finds %+v; %+v", got, b.best, r.Timber[0].Boards)
		}
		if !l.Cost.Proved || !l.Boards.Proved || !l.Offcut.Proved {
			t.Fatalf("not proved: %+v", l)
		}
	})
}

// Spare parts are sawn of each part, and those for spoilt ones rounded up for
// each part; neither changes what the frames need.
func TestSpareAndReject(t *testing.T) {
	s := spec("B = hexagon: flats 18", "T = triangle: side 20", "B1 at 0 0", "B2 side 1 on B1 side 4", "T1 at 90 0")
	s.Timber[0].SpareParts, s.Timber[0].Reject = 2, 5
	r := worked(t, s)
	want := map[string]WantedFacts{"B": {Need: 12, Spare: 2, Reject: 1, Saw: 15}, "T": {Need: 3, Spare: 2, Reject: 1, Saw: 6}}
	for _, w := range r.Timber[0].Parts {
		if g := want[w.Mark]; w.Need != g.Need || w.Spare != g.Spare || w.Reject != g.Reject || w.Saw != g.Saw {
			t.Errorf("%+v, want %+v", w, g)
		}
	}
	if n := r.Kinds[0].Parts[0].Count; n != 12 {
		t.Errorf("the frames need %d", n)
	}
	s.Timber[0].Reject = 25 // of 12 exactly 3
	if w := worked(t, s).Timber[0].Parts[0]; w.Reject != 3 {
		t.Errorf("25 %% of 12 is %d", w.Reject)
	}
}

// Pieces that are no part of a frame are sawn with the parts: on the boards, at
// the stops, among what is wanted.
func TestPiecesAreSawnToo(t *testing.T) {
	s := hexagons()
	p := start(s, BuiltIn())
	p.prepare()
	p.layAsked()
	p.layBuilt()
	p.facts()
	p.pieces = append(p.pieces, piece{mark: "K", what: "corner blocks", timber: "pine", length: 9 * unit.Inch, count: 5})
	if err := p.cutAll(context.Background()); err != nil || p.snags.Stops() {
		t.Fatal(err, p.snags)
	}
	f := p.result.Timber[0]
	sawn, stopped := 0, 0
	for _, b := range f.Boards {
		for _, q := range b.Parts {
			if q.Mark == "K" {
				sawn += len(b.Numbers)
				if q.LeftSlope != 0 || q.RightSlope != 0 {
					t.Error("it is sawn with slanted ends")
				}
			}
		}
	}
	for _, q := range f.Stops {
		if q.Has("K") {
			stopped += q.Count
			if q.Point != "square end" || q.Stop.US != "9 in" {
				t.Errorf("its stop: %+v", q)
			}
		}
	}
	if w := f.Parts[len(f.Parts)-1]; sawn != 5 || stopped != 5 || w.Mark != "K" || w.What != "corner blocks" || w.Saw != 5 {
		t.Errorf("%d sawn, %d at a stop, %+v", sawn, stopped, w)
	}
}

// A board with spans is one board: what is sawn from it keeps clear of them by
// the margin, and what is left between them can be kept.
func TestSpansAreKeptClear(t *testing.T) {
	s := spec("Q = square: side 10", "Q1 at 0 0")
	s.Timber[0].OnHand = []HandBoard{{Count: 1, Length: inches("96"), Spans: [][2]unit.Length{{inches("31"), inches("33")}, {inches("60"), inches("61")}}}}
	r := worked(t, s)
	f := r.Timber[0]
	if f.Buy != 0 || f.FromHand != 1 || len(f.Boards) != 1 || f.Length.US != "96 in" {
		t.Fatalf("%s: %+v", f.Claim, f.Boards)
	}
	b := f.Boards[0]
	for _, q := range b.Parts {
		reach := max(math.Abs(q.LeftSlope), math.Abs(q.RightSlope)) / 2
		for _, u := range b.Spans {
			if q.Start-reach < u.OutTo.MM-1e-3 && q.End+reach > u.OutFrom.MM+1e-3 {
				t.Errorf("%s from %g to %g mm lies in what is sawn out from %s to %s", q.Mark, q.Start, q.End, u.OutFrom.US, u.OutTo.US)
			}
		}
	}
	if b.Spans[0].OutFrom.US != "30 1/2 in" || b.Spans[0].OutTo.US != "33 1/2 in" {
		t.Errorf("%+v", b.Spans[0])
	}
	if !b.Keep || b.Offcut.MM < 20*inch {
		t.Errorf("kept %s and %v", b.Offcut.US, b.More)
	}
}

// A board that its last part fills is pointed out.
func TestExactBoards(t *testing.T) {
	s := spec("Q = square: side 10", "Q1 at 0 0")
	s.Timber[0].TrimFirst, s.Timber[0].TrimFar = ptr(inches("0")), ptr(inches("0"))
	s.Timber[0].Length = 0
	s.Timber[0].Lengths = []StockLength{{Length: unit.Length(4*9.25*float64(unit.Inch)) + inches("0.75")}}
	s.Saw.Kerf = ptr(inches("0"))
	f := worked(t, s).Timber[0]
	if f.Buy != 1 || !f.Boards[0].Exact || f.Boards[0].Offcut.MM != 0 {
		t.Errorf("%s: %+v", f.Claim, f.Boards)
	}
	s.Timber[0].Lengths[0].Length += inches("0.25")
	if f := worked(t, s).Timber[0]; f.Boards[0].Exact {
		t.Errorf("with a quarter inch more: %+v", f.Boards)
	}
}

// The three ways stand beside each other with what they cost and how often stop
// and saw are set; the job's choice is on paper.
func TestWays(t *testing.T) {
	s := stocked()
	for _, choice := range []string{"", FewestBoards, FewestChanges} {
		s.Cutting = choice
		f := worked(t, s).Timber[0]
		var names []string
		for _, w := range f.Ways {
			names = append(names, w.Name)
			if w.Chosen && (w.Buy != f.Buy || w.CostMinor != f.CostMinor || w.StopSettings != f.Session.StopSettings || w.SawSettings != f.Session.SawSettings) {
				t.Errorf("%s: %+v is on paper, %+v", choice, w, f.Session)
			}
		}
		if strings.Join(names, ", ") != "fewest boards, by saw setting, fewest changes" {
			t.Errorf("%q", names)
		}
		least := f.Ways[2]
		for _, w := range f.Ways[:2] {
			if least.SameAs == "" && w.StopSettings+w.SawSettings < least.StopSettings+least.SawSettings {
				t.Errorf("%s changes less often than the fewest changes", w.Name)
			}
		}
		if choice != FewestChanges && !f.Ways[0].Chosen {
			t.Errorf("%q: %+v", choice, f.Ways)
		}
	}
}

// What turning saves: unturned it costs no less, and both are proved.
func TestUnturned(t *testing.T) {
	f := worked(t, stocked()).Timber[0]
	u := f.Unturned
	if u == nil || u.CostMinor < f.Ways[0].CostMinor || !u.Levels.Cost.Proved || !f.Ways[0].Levels.Cost.Proved {
		t.Fatalf("%+v", u)
	}
	if !strings.HasPrefix(u.Levels.Cost.Says, "without turning, ") {
		t.Errorf("it says %s", u.Levels.Cost.Says)
	}
	no := false
	s := stocked()
	s.Timber[0].Turning = &no
	g := worked(t, s).Timber[0]
	if g.Unturned != nil || g.CostMinor != u.CostMinor {
		t.Errorf("boards that may not be turned: %d, unturned %d", g.CostMinor, u.CostMinor)
	}
}

// The stops hold every part once: as many as are sawn, off boards that give as
// many.
func TestStopsHoldEveryPart(t *testing.T) {
	for name, s := range map[string]Spec{"stocked": stocked(), "cluster": cluster(), "changes": with(stocked(), func(s *Spec) { s.Cutting = FewestChanges })} {
		for _, f := range worked(t, s).Timber {
			sawn := map[string]int{}
			off := map[int]int{}
			for i, q := range f.Stops {
				parts, boards := 0, 0
				for _, p := range q.Parts {
					sawn[p.Mark] += p.Count
					parts += p.Count
				}
				for _, b := range q.Boards {
					boards += b.Count
					off[b.Board] += b.Count
				}
				if q.Number != i+1 || parts != q.Count || boards != q.Count {
					t.Errorf("%s: stop %d: %d parts, %d off boards, %d in all", name, q.Number, parts, boards, q.Count)
				}
			}
			for _, w := range f.Parts {
				if sawn[w.Mark] != w.Saw {
					t.Errorf("%s: %d of %s at the stops, %d are wanted", name, sawn[w.Mark], w.Mark, w.Saw)
				}
			}
			for _, b := range f.Boards {
				for _, n := range b.Numbers {
					if off[n] != len(b.Parts) {
						t.Errorf("%s: board %d gives %d at the stops and %d in its picture", name, n, off[n], len(b.Parts))
					}
				}
			}
		}
	}
}
