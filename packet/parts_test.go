package packet

import (
	"fmt"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"

	"pgregory.net/rapid"
)

// TestCellsStayInTheirColumns, left or right aligned, whatever they say, and the
// row is as high as its highest cell.
func TestCellsStayInTheirColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cols := []column{{"one", 30, false}, {"two", 25, true}, {"three", 40, false}}
		said := rapid.StringMatching(`[a-z0-9/ ]{0,60}`)
		cells := []cell{over(said.Draw(t, "a"), said.Draw(t, "b")), pair(said.Draw(t, "c"), said.Draw(t, "d")), small(said.Draw(t, "e"))}
		row := tableRow(0, cols, cells, nil)
		var s sheet
		row.draw(&s, 100)
		at := 0.0
		edges := [][2]float64{}
		for _, c := range cols {
			edges = append(edges, [2]float64{at, at + c.w})
			at += c.w + colGap
		}
		for _, it := range s.items {
			x, ok := it.(drawing.Text)
			if !ok {
				continue
			}
			from, to := x.At.X, x.At.X+x.Width()
			if x.Align == drawing.Right {
				from, to = x.At.X-x.Width(), x.At.X
			}
			inside := false
			for _, e := range edges {
				inside = inside || from >= e[0]-1e-6 && to <= e[1]+1e-6
			}
			if !inside {
				t.Fatalf("%q runs from %.2f to %.2f", x.String(), from, to)
			}
			if x.At.Y > 100+row.h || x.At.Y-capHeight(x.Size) < 100 {
				t.Fatalf("%q leaves its row", x.String())
			}
		}
	})
}

// TestTablesFitTheField: no table of the packet is wider than the field.
func TestTablesFitTheField(t *testing.T) {
	for _, r := range examples(t) {
		for i, p := range Build(r, made).Pages {
			left := (p.List.W - fieldW) / 2
			for _, l := range shapesWith(drawing.PenHair, p.List.Items) {
				if e := extent(l); e.x0 < left-1e-6 || e.x1 > left+fieldW+1e-6 {
					t.Errorf("%s, page %d: a rule from %.1f to %.1f", r.Job.Name, i+1, e.x0-left, e.x1-left)
				}
			}
		}
	}
}

// TestTags: the larger the frame, the larger its label; a tiny one is named
// beside, with a line to it.
func TestTags(t *testing.T) {
	for _, c := range []struct {
		side  float64 // page mm
		size  float64 // pt of the label
		lines int     // to a label beside
	}{{40, drawing.Lead, 0}, {16, drawing.Body, 0}, {11, drawing.Small, 0}, {4, drawing.Small, 1}} {
		square := func(d float64) []drawing.Point {
			return []drawing.Point{drawing.Pt(50-d, 50-d), drawing.Pt(50+d, 50-d), drawing.Pt(50+d, 50+d), drawing.Pt(50-d, 50+d)}
		}
		p := placed{f: job.FrameFacts{Label: "B12"}, out: square(c.side / 2), in: square(c.side/2 - 0.3)}
		p.box = extent(p.out)
		pl := newPlacer(box{0, 0, 100, 100})
		p.block(pl)
		var s sheet
		if left := (view{scale: 1}).labels(&s, []placed{p}, pl); len(left) > 0 {
			t.Errorf("%v mm: no label", c.side)
			continue
		}
		for _, it := range s.items {
			if x, ok := it.(drawing.Text); ok && (x.Size != c.size || x.String() != "B12") {
				t.Errorf("%v mm: %q at %v pt, want %v", c.side, x.String(), x.Size, c.size)
			}
		}
		if got := len(shapesWith(drawing.PenEdge, s.items)); got != c.lines {
			t.Errorf("%v mm: %d lines to the label", c.side, got)
		}
	}
}

// TestOwnerIsTheSmallest frame a point lies in.
func TestOwnerIsTheSmallest(t *testing.T) {
	square := func(x, d float64) placed {
		p := placed{out: []drawing.Point{drawing.Pt(x-d, -d), drawing.Pt(x+d, -d), drawing.Pt(x+d, d), drawing.Pt(x-d, d)}}
		p.box = extent(p.out)
		return p
	}
	ps := []placed{square(0, 10), square(0, 2), square(30, 5)}
	for x, want := range map[float64]int{0: 1, 5: 0, 30: 2, 20: -1} {
		if got := owner(ps, drawing.Pt(x, 0)); got != want {
			t.Errorf("at %v: frame %d, want %d", x, got, want)
		}
	}
}

// TestOpenFramesStandOpen: an arch is drawn without a board along the floor.
func TestOpenFramesStandOpen(t *testing.T) {
	r := gateway().result()
	v := viewIn(r, box{0, 0, 150, 150}, false)
	for _, p := range v.placed(r.Frames) {
		var s sheet
		p.boards(&s)
		rings := shapesWith(drawing.PenEdge, s.items)
		if want := 2; !p.f.Open && len(rings) != want {
			t.Errorf("%s: %d outlines", p.f.Label, len(rings))
		}
		if p.f.Open && (len(rings) != 1 || len(rings[0]) != 2*len(p.out)) {
			t.Errorf("%s: an open frame of %d outlines", p.f.Label, len(rings))
		}
		// One joint at each corner where two boards meet: not at feet.
		joints := len(p.out)
		if p.f.Open {
			joints -= 2
		}
		if got := len(shapesWith(drawing.PenHair.In(drawing.Ink), s.items)); got != joints {
			t.Errorf("%s: %d joints, want %d", p.f.Label, got, joints)
		}
	}
}

// TestFarViewsAreOutlines: where both edges of a board would run into one line,
// one is drawn.
func TestFarViewsAreOutlines(t *testing.T) {
	r := combWall().result()
	v := viewIn(r, box{0, 0, 30, 30}, false)
	var s sheet
	p := v.placed(r.Frames)[0]
	p.boards(&s)
	if got := len(shapesWith(drawing.PenOutline, s.items)); p.depth() >= finest || got != 1 {
		t.Errorf("a board %.2f mm wide: %d outlines", p.depth(), got)
	}
}

// TestLowPiecesLeaveRoomForTheirHeight: the figure goes past the top and must
// not run into the head.
func TestLowPiecesLeaveRoomForTheirHeight(t *testing.T) {
	s := single()
	s.frames[0].corners = scaled(1, 0, 0, 2200, 0, 2200, 120, 0, 120)
	r := s.result()
	mustBeClean(t, "low", r)
	mustStandAlone(t, r)
	d := drawing.Dimensions(Front(r))[1]
	if length := d.From.Dist(d.To); length > 10 {
		t.Errorf("the piece is not low on paper: %.1f mm", length)
	}
}

// TestKeySaysWhatIsMissing on a drawing.
func TestKeySaysWhatIsMissing(t *testing.T) {
	r := combWall().result()
	if s := key(r, "Words.", drawn{}); strings.Contains(s, "too close") || strings.Contains(s, "No room") {
		t.Errorf("nothing is missing: %s", s)
	}
	if s := key(r, "", drawn{bare: 2, unlabeled: []string{"B1", "B2"}}); !strings.Contains(s, "2 seams too close") || !strings.Contains(s, "the labels of B1, B2.") {
		t.Errorf("%s", s)
	}
	if s := key(r, "", drawn{unlabeled: make([]string, 9)}); !strings.Contains(s, "the labels of 9 frames") {
		t.Errorf("%s", s)
	}
}

// TestListsGoOnElsewhere: a list too long for its drawing's page goes on in the
// next paper, under a heading that says so.
func TestListsGoOnElsewhere(t *testing.T) {
	var rows [][]cell
	for i := range 90 {
		rows = append(rows, []cell{quiet(fmt.Sprint(i))})
	}
	all := section{heading("Seams", "", ""), columnsOf(3, []column{{"seam", 30, false}}, rows)}
	for _, c := range []struct {
		room       float64
		now, later int
	}{{300, 2, 0}, {60, 2, 2}, {20, 0, 2}} {
		now, later := all.fitting(c.room, "Seams")
		if len(now) != c.now || len(later) != c.later || height(now) > c.room {
			t.Errorf("%v mm: %d now in %.1f mm, %d later", c.room, len(now), height(now), len(later))
		}
	}
	_, later := all.fitting(60, "Seams")
	mustSay(t, textsOf(later...), "Seams, continued")
}

// TestCardForms: a kind with few parts fits one page, one with many tick-offs
// is set closer before it runs on, and whatever is drawn stays in the field.
func TestCardForms(t *testing.T) {
	for _, c := range []struct{ frames, pages int }{{1, 1}, {8, 1}, {40, 2}} {
		s := single()
		for i := 1; i < c.frames; i++ {
			s.frames = append(s.frames, sampleFrame{"eight", regular(8, 18*inch, 1200*float64(i), 0)})
		}
		r := s.result()
		n := 0
		for _, p := range Build(r, made).Pages {
			if p.List.Title == cardEntry+"B, octagon" {
				n++
			}
		}
		if n != c.pages {
			t.Errorf("%d frames: a card of %d pages, want %d", c.frames, n, c.pages)
		}
		mustBeClean(t, fmt.Sprint(c.frames, " octagons"), r)
	}
}
