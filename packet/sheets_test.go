package packet

import (
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
)

// TestCheckBars: on every page of both papers stand a bar of 100 mm and one of
// 4 in, at true length.
func TestCheckBars(t *testing.T) {
	for _, show := range []string{"letter", "a4"} {
		r := single().result()
		r.Job.Paper = show
		for i, p := range Build(r, made).Pages {
			found := map[float64]bool{}
			for _, s := range shapesWith(drawing.PenDimension.At(0.7), p.List.Items) {
				if len(s) == 2 && s[0].Y == s[1].Y {
					for _, l := range []float64{100, 101.6} {
						found[l] = found[l] || abs(s[0].Dist(s[1])-l) < 1e-9
					}
				}
			}
			if !found[100] || !found[101.6] {
				t.Errorf("%s, page %d: no true bars", show, i+1)
			}
		}
	}
}

// TestPaperSizes: the field is the same on both papers, centred across.
func TestPaperSizes(t *testing.T) {
	r := single().result()
	for paper, size := range map[string]pdf.Size{"letter": pdf.Letter, "a4": pdf.A4, "": pdf.Letter} {
		r.Job.Paper = paper
		for _, p := range Build(r, made).Pages {
			if p.Size != size || p.List.W != size.W || p.List.H != size.H {
				t.Errorf("%q: a page of %v", paper, p.Size)
			}
		}
	}
	r.Job.Paper = "letter"
	a := Build(r, made)
	r.Job.Paper = "a4"
	b := Build(r, made)
	for i := range a.Pages {
		if x, y := drawing.Texts(a.Pages[i].List), drawing.Texts(b.Pages[i].List); strings.Join(x, "|") != strings.Join(y, "|") {
			t.Errorf("page %d says other things on A4", i+1)
		}
	}
}

// TestThumbTabs go one step lower for each paper, and stay for its pages.
func TestThumbTabs(t *testing.T) {
	b := &book{tab: 1}
	for range 3 {
		b.flow(paper{title: "p", blocks: []block{{h: 200, draw: func(*sheet, float64) {}}, {h: 200, draw: func(*sheet, float64) {}}}})
	}
	want := []int{2, 2, 3, 3, 4, 4}
	for i, p := range b.pages {
		if p.tab != want[i] {
			t.Errorf("page %d has tab %d, want %d", i+1, p.tab, want[i])
		}
	}
}

// TestCover says whose job it is, the four facts, and what is not checked.
func TestCover(t *testing.T) {
	r := combWall().result()
	lines := drawing.Texts(Build(r, made).Pages[0].List)
	for _, want := range []string{"Comb wall", "Maren Tallis and Joss Overby, Saturday 12 June 2027", "Walled garden, Fennimore House",
		"21 frames", "41 seams, 112 parts", itoa(r.Overall.BoardCount) + " boards", r.Overall.Weight.US, "5 ft 6", "3 ft 6",
		first(r.Job, r.Overall.Width), "Not yet checked", "Front drawing", "Cutting", "fewer is impossible"} {
		mustSay(t, lines, want)
	}
	r.Timber[0].Levels.Boards.Proved = false
	for _, l := range drawing.Texts(Build(r, made).Pages[0].List) {
		if strings.Contains(l, "impossible") {
			t.Errorf("says %q though nothing is proved", l)
		}
	}
}

// TestPeopleAreToScale with the set piece: the dimensions give the scale.
func TestPeopleAreToScale(t *testing.T) {
	for _, r := range []job.Result{combWall().result(), single().result()} {
		l := Build(r, made).Pages[0].List
		d := drawing.Dimensions(l)[0]
		scale := d.To.Dist(d.From) / r.Overall.Width.MM
		tallest := 0.0
		for _, s := range shapesWith(drawing.PenPerson, l.Items) {
			b := extent(s)
			tallest = max(tallest, b.y1-b.y0)
		}
		// The body reaches from the floor to the neck, 873 thousandths up.
		if want := drawing.Adult.Height() * scale * 0.873; abs(tallest-want) > 0.02*want {
			t.Errorf("%s: the adult's body is %.2f mm, want %.2f", r.Job.Name, tallest, want)
		}
	}
}

// TestBoxesForBoards: one box for each board sawn alike.
func TestBoxesForBoards(t *testing.T) {
	r := single().result()
	tm := r.Timber[0]
	d := newBoardScale(tm)
	for _, n := range []int{1, 5, 12, 13, 31, 32, 100} {
		b := tm.Boards[0]
		b.Numbers = nil
		for i := range n {
			b.Numbers = append(b.Numbers, i+1)
		}
		var s sheet
		k := boardBlock(r, tm, b, d, true)
		k.draw(&s, 0)
		boxes := 0
		for _, q := range shapesWith(drawing.PenEdge, s.items) {
			if e := extent(q); abs(e.x1-e.x0-drawing.BoxMM) < 1e-9 && abs(e.y1-e.y0-drawing.BoxMM) < 1e-9 {
				boxes++
			}
			if e := extent(q); e.x1 > fieldW || e.y1 > k.h {
				t.Errorf("%d boards: a shape leaves its block: %v", n, e)
			}
		}
		if boxes != n {
			t.Errorf("%d boxes for %d boards", boxes, n)
		}
	}
}

// TestBuyingSaysHowGoodThePlanIs.
func TestBuyingSaysHowGoodThePlanIs(t *testing.T) {
	r := combWall().result()
	tm := r.Timber[0]
	say := func() string { return strings.Join(textsOf(buying(r, tm)), " ") }
	for _, want := range []string{itoa(tm.Buy), "boards", "fewer is impossible", "worked out again", "$4.49 a board", "laid on edge"} {
		if !strings.Contains(say(), want) {
			t.Errorf("%q is missing in %q", want, say())
		}
	}
	tm.Levels.Boards.Rechecked = false
	if !strings.Contains(say(), "not checked again") {
		t.Errorf("a proof not rechecked reads %q", say())
	}
	tm.Levels.Boards.Proved, tm.Levels.Boards.Bound = false, int64(tm.Buy-1)
	tm.Levels.Boards.BoundText = itoa(tm.Buy-1) + " boards"
	if !strings.Contains(say(), "At least "+itoa(int(tm.Levels.Boards.Bound))+" boards are needed") {
		t.Errorf("a plan without proof reads %q", say())
	}
	tm.Cost = ""
	if strings.Contains(say(), "$") {
		t.Errorf("a price that was not given: %q", say())
	}
}

// TestSizesSayAskedAndBuilt, what moved, openings, contacts that are no seams.
func TestSizesSayAskedAndBuilt(t *testing.T) {
	r := combWall().result()
	r.Near = []job.NearFacts{{Frames: [2]string{"B1", "D9"}, Distance: fineSize(5)}}
	r.Touches = []job.TouchFacts{{Frames: [2]string{"B2", "D8"}}}
	r.Families = []job.FamilyFacts{{Unit: sawnSize(88), Kinds: []string{"large", "small"}, Times: []int{2, 1}, Why: "named in the job"}}
	lines := []string{strings.Join(says(Build(r, made)), " ")}
	for _, k := range r.Kinds {
		for _, z := range k.Sizes {
			mustSay(t, lines, z.Name)
			mustSay(t, lines, first(r.Job, z.Built))
			mustSay(t, lines, second(r.Job, z.Asked))
		}
	}
	for _, want := range []string{"side, outside, as given", "B1 and D9", "B2 and D8", "touch at a corner only", "2 times: large, 1 times: small",
		r.Moved[0].By.US, first(r.Job, r.Openings[1].Clear), "boards on both sides", "Set turning: no"} {
		mustSay(t, lines, want)
	}
	r.Openings[1].Bounded = false
	mustSay(t, says(Build(r, made)), "no opening between boards")
}

// TestEmptyListsLeaveNoHeadings.
func TestEmptyListsLeaveNoHeadings(t *testing.T) {
	r := single().result()
	r.Notes, r.Moved, r.Openings, r.Tests, r.Assumed, r.Cautions = nil, nil, nil, nil, nil, nil
	for _, l := range says(Build(r, made)) {
		for _, h := range []string{"To look at", "What moved", "Widest clear opening", "Test corner, cut first", "Assumptions", "Cautions", "Seams"} {
			if l == h {
				t.Errorf("a heading with nothing below: %s", h)
			}
		}
	}
}

// TestSeamIsExplainedOnce on the front, where it first appears, and heads its
// table.
func TestSeamIsExplainedOnce(t *testing.T) {
	r := combWall().result()
	words := strings.Join(says(Build(r, made), "Front drawing"), " ")
	if n := strings.Count(words, seamIs); n != 1 {
		t.Errorf("explained %d times", n)
	}
	none := single().result()
	if words := strings.Join(says(Build(none, made)), " "); strings.Contains(words, "heavy lines") {
		t.Error("speaks of seams where there are none")
	}
}

// TestSeamNumbers: every seam's number stands on the drawing, or the key says
// that some do not.
func TestSeamNumbers(t *testing.T) {
	for _, r := range samples() {
		count := map[string]int{}
		words := says(Build(r, made), "Front drawing")
		for _, s := range drawing.Texts(Front(r)) {
			count[s]++
		}
		bare := 0
		for _, m := range r.Seams {
			if count[itoa(m.Number)] == 0 {
				bare++
			}
			if count[itoa(m.Number)] > 2 {
				t.Errorf("%s: number %d stands %d times", r.Job.Name, m.Number, count[itoa(m.Number)])
			}
		}
		if says := strings.Contains(strings.Join(words, " "), "too close to number"); says != (bare > 0) {
			t.Errorf("%s: %d seams without a number, and the key says so: %v", r.Job.Name, bare, says)
		}
	}
}

// TestHeightsStandAtTheirHeight: a height written at the edge lies level with
// the frame that begins there, to the scale of the dimensions.
func TestHeightsStandAtTheirHeight(t *testing.T) {
	r := combWall().result()
	l := Front(r)
	d := drawing.Dimensions(l)[1]
	floor, scale := max(d.From.Y, d.To.Y), d.To.Dist(d.From)/r.Overall.Height.MM
	found := 0
	for _, s := range shapesWith(drawing.PenReach, l.Items) {
		up := (floor - s[0].Y) / scale
		for _, f := range r.Frames {
			if abs(f.Lowest.MM-up) < 0.5 {
				found++
				break
			}
		}
	}
	if n := len(shapesWith(drawing.PenReach, l.Items)); n == 0 || found != n {
		t.Errorf("%d of %d heights belong to a frame", found, n)
	}
}

// TestSawSaysWhatItIs.
func TestSawSaysWhatItIs(t *testing.T) {
	r := single().result()
	r.Saw.Given, r.Saw.Scale, r.Saw.Name = false, "along", ""
	r.Saw.Reading = &job.ReadingFacts{Kind: "eight", Across: sawnSize(630), True: sampleAngle(22.5), Error: sampleAngle(0.2), SetTo: sampleAngle(22.3)}
	words := strings.Join(textsOf(sawFacts(r)...), " ")
	for _, want := range []string{"No saw is described", "counts from along the board", "out by 0.2°", "set it to 22.3°", "left of the blade"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is missing in %q", want, words)
		}
	}
}

// TestNotesAlike: parts of one note are named together; what differs in more
// than that, or tells two parts apart, stays as it is.
func TestNotesAlike(t *testing.T) {
	in := []job.Note{{Code: "a", Where: "frames.star", Text: "cannot saw part Sa: too steep", Do: "see the card"},
		{Code: "b", Where: "layout", Text: "two groups"},
		{Code: "a", Where: "frames.star", Text: "cannot saw parts Sb, Sc: too steep", Do: "see the card"},
		{Code: "a", Where: "frames.kite", Text: "cannot saw part K: too steep", Do: "see the card"},
		{Code: "a", Where: "frames.kite", Text: "cannot saw part K: too long", Do: "see the card"},
		{Code: "c", Where: "x", Text: "part A is not part B"}, {Code: "c", Where: "x", Text: "part C is not part D"}}
	var got []string
	for _, n := range alike(in) {
		got = append(got, n.Where+": "+n.Text)
	}
	want := []string{"frames.star, frames.kite: cannot saw parts Sa, Sb, Sc, K: too steep", "layout: two groups",
		"frames.kite: cannot saw part K: too long", "x: part A is not part B", "x: part C is not part D"}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
}

// TestMeasuresAlike: sizes that read alike are one row; on a card, where only
// the built size stands, the asked one does not part them.
func TestMeasuresAlike(t *testing.T) {
	z := func(name string, asked, built float64, given bool) job.NamedSize {
		return job.NamedSize{Name: name, Asked: sawnSize(asked), Built: sawnSize(built), Given: given}
	}
	sizes := []job.NamedSize{z("flats", 500, 502, false), z("points", 600, 602, true), z("circle", 500, 502, false), z("height", 501, 502, false)}
	say := func(asked bool) string {
		var out []string
		for _, m := range measures(sizes, asked) {
			out = append(out, strings.Join(m.names, "; ")+" "+m.built.Metric)
		}
		return strings.Join(out, " | ")
	}
	if got, want := say(true), "flats; circle 502 mm | points, as given 602 mm | height 502 mm"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := say(false), "flats; circle; height 502 mm | points 602 mm"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// TestMovedAlike: frames moved by the same stand in one row.
func TestMovedAlike(t *testing.T) {
	r := single().result()
	m := func(f string, right float64) job.MovedFacts {
		return job.MovedFacts{Frame: f, By: fineSize(abs(right)), Right: fineSize(right), Up: fineSize(0)}
	}
	r.Moved = []job.MovedFacts{m("S3", 1), m("S4", -1), m("S6", 1), m("S10", 1)}
	words := strings.Join(textsOf(moved(r)...), " ")
	mustSay(t, []string{words}, "S3, S6, S10 ")
	if n := strings.Count(words, fineSize(1).US); n != 4 { // by and to the right, in two rows
		t.Errorf("the figure stands %d times in %q", n, words)
	}
}

// TestContentsLead to the pages they name.
func TestContentsLead(t *testing.T) {
	var to []int
	doc := Build(combWall().result(), made)
	for _, it := range doc.Pages[0].List.Items {
		if g, ok := it.(drawing.Group); ok {
			for _, it := range g.Items {
				if l, ok := it.(drawing.Link); ok {
					to = append(to, l.Page)
				}
			}
		}
	}
	if len(to) < 6 || to[0] != 2 || to[len(to)-1] > len(doc.Pages) {
		t.Errorf("links to %v of %d pages", to, len(doc.Pages))
	}
}
