package packet

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"

	"pgregory.net/rapid"
)

// strips are plain blocks that note where they were drawn.
type laid struct {
	page int
	y, h float64
}

func stripBlocks(b *book, hs []float64, keeps []bool, seen *[]laid) []block {
	var out []block
	for i, h := range hs {
		out = append(out, block{h: h, gap: 2, keep: keeps[i] && i+1 < len(hs), draw: func(_ *sheet, y float64) {
			*seen = append(*seen, laid{len(b.pages), y, h})
		}})
	}
	return out
}

// TestFlow: blocks come once each, in order, never over each other, never past
// the foot, and a block that keeps stays with the next.
func TestFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hs := rapid.SliceOfN(rapid.Float64Range(1, 60), 1, 40).Draw(t, "heights")
		keeps := make([]bool, len(hs))
		for i := range keeps {
			keeps[i] = i%5 == 0 && rapid.Bool().Draw(t, "keep")
		}
		b := &book{}
		var seen []laid
		b.flow(paper{title: "one", blocks: stripBlocks(b, hs, keeps, &seen)})
		if len(seen) != len(hs) {
			t.Fatalf("%d blocks drawn of %d", len(seen), len(hs))
		}
		for i, s := range seen {
			if s.h != hs[i] || s.y < bodyTop || s.y+s.h > bodyFoot+1e-9 {
				t.Fatalf("block %d at %v", i, s)
			}
			if i > 0 && s.page == seen[i-1].page && s.y < seen[i-1].y+seen[i-1].h {
				t.Fatalf("block %d lies over the one before", i)
			}
			if i > 0 && keeps[i-1] && s.page != seen[i-1].page {
				t.Fatalf("block %d has left the one that keeps it", i)
			}
		}
	})
}

// TestShortPapersShareAPage, and long ones or those that do not join begin
// their own.
func TestShortPapersShareAPage(t *testing.T) {
	for _, c := range []struct {
		h     float64
		joins bool
		pages int
	}{{40, true, 1}, {200, true, 2}, {40, false, 2}} {
		b := &book{}
		var seen []laid
		for _, title := range []string{"one", "two"} {
			b.flow(paper{title: title, entry: title, joins: c.joins, blocks: stripBlocks(b, []float64{c.h}, []bool{false}, &seen)})
		}
		if len(b.pages) != c.pages {
			t.Errorf("%v: %d pages", c, len(b.pages))
		}
		if got := b.entries[1]; got != (entry{"two", c.pages}) {
			t.Errorf("%v: contents say %v", c, got)
		}
	}
}

// TestTableHeadComesAgain on every page that a table runs to, and every row
// once.
func TestTableHeadComesAgain(t *testing.T) {
	var rows [][]cell
	for i := range 120 {
		rows = append(rows, []cell{bold(fmt.Sprint("row ", i))})
	}
	b := &book{}
	b.flow(paper{title: "rows", blocks: table(0, []column{{"the head", 60, false}}, rows)})
	all := map[string]int{}
	for _, p := range b.pages {
		for _, s := range drawing.Texts(drawing.List{W: 200, H: 300, Items: p.items}) {
			all[s]++
		}
	}
	if len(b.pages) < 3 || all["the head"] != len(b.pages) {
		t.Errorf("%d pages, the head %d times", len(b.pages), all["the head"])
	}
	for i := range rows {
		if n := all[fmt.Sprint("row ", i)]; n != 1 {
			t.Errorf("row %d stands %d times", i, n)
		}
	}
}

// TestColumnsSplit: a list split between pages loses and doubles no row.
func TestColumnsSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 400).Draw(t, "rows")
		var rows [][]cell
		for i := range n {
			rows = append(rows, []cell{quiet(fmt.Sprint("row ", i))})
		}
		b := &book{}
		b.flow(paper{title: "list", blocks: []block{heading("Above", "", ""),
			{h: rapid.Float64Range(1, 200).Draw(t, "above"), draw: func(*sheet, float64) {}},
			columnsOf(rapid.IntRange(1, 4).Draw(t, "columns"), []column{{"no", 30, false}}, rows)}})
		seen := map[string]int{}
		for _, p := range b.pages {
			if p.y > bodyFoot+1e-9 {
				t.Fatalf("a page is filled to %.1f", p.y)
			}
			for _, s := range drawing.Texts(drawing.List{W: 200, H: 300, Items: p.items}) {
				seen[s]++
			}
		}
		for i := range n {
			if seen[fmt.Sprint("row ", i)] != 1 {
				t.Fatalf("row %d stands %d times", i, seen[fmt.Sprint("row ", i)])
			}
		}
	})
}

func TestWrapAndFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text")
		w := rapid.Float64Range(8, 120).Draw(t, "width")
		for _, l := range wrap(s, drawing.Bold, drawing.Body, w) {
			if got := drawing.Width(l, drawing.Bold, drawing.Body); got > w+1e-6 {
				t.Fatalf("%q is %.2f mm wide, more than %.2f", l, got, w)
			}
		}
		f := fitted(drawing.Label(drawing.Point{}, drawing.Title, s).Bold(), w, drawing.Small)
		if f.Width() > w+1e-6 || f.Size < drawing.Small {
			t.Fatalf("%q fitted to %.2f mm is %.2f wide at %.1f pt", s, w, f.Width(), f.Size)
		}
		for _, r := range clean(s) {
			if r != '\u00a0' && !drawing.Regular.Has(r) {
				t.Fatalf("%q is left in", r)
			}
		}
	})
	if got := fitted(drawing.Label(drawing.Point{}, drawing.Title, "short"), 90, drawing.Small); plain(got) != "short" || got.Size != drawing.Title {
		t.Errorf("what fits is changed: %v", got)
	}
}

// TestPlacerHoldsApart: what the placer calls free touches nothing it was told
// of. The check samples points and shares nothing with the grid or the clip.
func TestPlacerHoldsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := newPlacer(box{0, 0, 100, 100})
		at := func(name string) drawing.Point {
			return drawing.Pt(rapid.Float64Range(-20, 120).Draw(t, name), rapid.Float64Range(-20, 120).Draw(t, name))
		}
		var lines [][2]drawing.Point
		var boxes []box
		for range 6 {
			a, b := at("a"), at("b")
			p.line(a, b)
			lines = append(lines, [2]drawing.Point{a, b})
			c := around(at("box"), 9, 4)
			p.take(c)
			boxes = append(boxes, c)
		}
		for range 10 {
			c := around(at("place"), 12, 5)
			hit := !c.within(p.bound)
			for _, b := range boxes {
				hit = hit || math.Min(b.x1, c.x1)-math.Max(b.x0, c.x0) > 0 && math.Min(b.y1, c.y1)-math.Max(b.y0, c.y0) > 0
			}
			for _, l := range lines {
				for i := 0; i <= 2000; i++ {
					q := l[0].Lerp(l[1], float64(i)/2000)
					hit = hit || q.X > c.x0 && q.X < c.x1 && q.Y > c.y0 && q.Y < c.y1
				}
			}
			if hit && p.free(c) {
				t.Fatalf("%v is called free", c)
			}
		}
	})
	p := newPlacer(box{0, 0, 100, 100})
	p.line(drawing.Pt(0, 50), drawing.Pt(100, 50))
	if !p.free(box{10, 10, 20, 20}) || !p.free(box{10, 51, 20, 60}) || p.free(box{10, 45, 20, 55}) {
		t.Error("an empty place is refused, or a crossed one called free")
	}
}

func TestInside(t *testing.T) {
	l := []drawing.Point{drawing.Pt(0, 0), drawing.Pt(10, 0), drawing.Pt(10, 4), drawing.Pt(4, 4), drawing.Pt(4, 10), drawing.Pt(0, 10)}
	for p, want := range map[drawing.Point]bool{drawing.Pt(2, 8): true, drawing.Pt(8, 2): true, drawing.Pt(8, 8): false, drawing.Pt(-1, 5): false} {
		if inside(l, p) != want {
			t.Errorf("%v: %v", p, !want)
		}
	}
}

// TestViewMirrors: from behind, what was as far from the left end is as far
// from the right one, at the same height.
func TestViewMirrors(t *testing.T) {
	r := combWall().result()
	b := box{0, 0, 150, 150}
	front, back := viewIn(r, b, false), viewIn(r, b, true)
	for _, f := range r.Frames {
		for _, c := range f.Outside {
			p, q := front.at(c), back.at(c)
			if abs(p.X-front.left()-(back.right()-q.X)) > 1e-9 || p.Y != q.Y {
				t.Fatalf("%s: %v and %v", f.Label, p, q)
			}
		}
	}
}

// TestEveryFrameHasOneLabel on the drawing, in the frame it belongs to where
// that has room.
func TestEveryFrameHasOneLabel(t *testing.T) {
	for _, r := range samples() {
		count := map[string]int{}
		for _, s := range drawing.Texts(Front(r)) {
			count[s]++
		}
		for _, f := range r.Frames {
			if count[f.Label] != 1 {
				t.Errorf("%s: label %s stands %d times", r.Job.Name, f.Label, count[f.Label])
			}
		}
	}
}

func TestTrapezoid(t *testing.T) {
	width := func(a, b drawing.Point) float64 { return abs(a.X - b.X) }
	rapid.Check(t, func(t *rapid.T) {
		l, r := rapid.Float64Range(-20, 20).Draw(t, "l"), rapid.Float64Range(-20, 20).Draw(t, "r")
		q := trapezoid(0, 100, 0, 10, l, r, false)
		// Outside less inside is what both ends lean in: the rule of the cut list.
		if d := width(q[0], q[1]) - width(q[2], q[3]) - (l + r); abs(d) > 1e-9 {
			t.Fatalf("%v, %v: the faces differ by %v too much", l, r, d)
		}
		for _, p := range q {
			if p.X < -1e-9 || p.X > 100+1e-9 {
				t.Fatalf("%v, %v: %v lies outside", l, r, q)
			}
		}
		if q[0].Y != 10 || trapezoid(0, 100, 0, 10, l, r, true)[0].Y != 0 {
			t.Fatal("the outside is on the wrong side")
		}
	})
}

func TestWords(t *testing.T) {
	for got, want := range map[string]string{
		numbersSay([]int{3}):                 "Board 3",
		numbersSay([]int{5, 3, 4}):           "Boards 3 to 5, all alike",
		numbersSay([]int{1, 3, 8}):           "Boards 1, 3 and 8, all alike",
		plural(1, "seam"):                    "1 seam",
		plural(0, "seam"):                    "0 seams",
		sentence("a thing"):                  "A thing.",
		sentence("Done."):                    "Done.",
		day("2027-06-12"):                    "Saturday 12 June 2027",
		day("in June"):                       "in June",
		unsigned(job.Angle{Text: "-41.63°"}): "41.63°",
		joined(", ", "", "a", "", "b"):       "a, b",
		times(4.93):                          "4.9 times",
		times(1.01):                          "just",
		way(job.PartFacts{First: job.EndFacts{Way: "x"}, Second: job.EndFacts{Way: "x"}}): "x",
		way(job.PartFacts{First: job.EndFacts{Way: "x"}, Second: job.EndFacts{Way: "y"}}): "first end x; second end y",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if f, u := split("10 3/8 in"); f != "10 3/8" || u != "in" {
		t.Errorf("%q %q", f, u)
	}
	r := single().result()
	turns := turnsSay(r, job.BoardFacts{Parts: []job.SawnFacts{{Turn: "roll"}, {Turn: "roll"}, {Turn: "swap ends"},
		{Mark: "B", Held: "part", HeldLength: sawnSize(254)}}})
	if want := "After cuts 1 to 2 roll; after cut 3 swap ends. At the last cut hold part B, 10 in (254 mm) on its shorter face."; turns != want {
		t.Errorf("%s", turns)
	}
}

// TestBoardsToScale: on paper a part is as long along the middle of the board as
// the Result says, and neighbours never lie over each other.
func TestBoardsToScale(t *testing.T) {
	for _, r := range planned(t) {
		for _, tm := range r.Timber {
			d := newBoardScale(tm)
			for _, b := range tm.Boards {
				low, high := math.Inf(-1), math.Inf(-1) // where the part before ends, on both faces
				for _, p := range b.Parts {
					q := d.slanted(p, 0)
					mid := (q[1].X + q[2].X - q[0].X - q[3].X) / 2
					if abs(mid-(p.End-p.Start)*d.along) > 1e-9 {
						t.Fatalf("%s, board %v: %s is drawn %.3f mm long", r.Job.Name, b.Numbers, p.Mark, mid)
					}
					if q[0].X < low-1e-9 || q[3].X < high-1e-9 { // they may touch: less is rounding
						t.Fatalf("%s, board %v: %s lies over the part before", r.Job.Name, b.Numbers, p.Mark)
					}
					low, high = q[1].X, q[2].X
				}
			}
		}
	}
}

// TestLongContentsAreShortened to what the cover has room for.
func TestLongContentsAreShortened(t *testing.T) {
	es := []entry{{"Front drawing", 2}}
	for i := range 30 {
		es = append(es, entry{cardEntry + fmt.Sprint(i), 5 + i})
	}
	got := shortened(es, 12)
	if len(got) != 2 || got[1] != (entry{"Bench cards, from", 5}) {
		t.Errorf("%v", got)
	}
	if kept := shortened(es[:12], 12); len(kept) != 12 || !strings.HasPrefix(kept[11].text, cardEntry) {
		t.Errorf("what fits is shortened: %v", kept)
	}
}
