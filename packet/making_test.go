package packet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"
)

// pagesOf are the texts of all pages that have something of a paper, by its title.
func pagesOf(r job.Result, title string) []string {
	var out []string
	for _, p := range Build(r, made).Pages[1:] { // the cover names all papers
		if texts := drawing.Texts(p.List); p.List.Title == title || slices.Contains(texts, title) {
			out = append(out, texts...)
		}
	}
	return out
}

func countOf(texts []string, s string) int {
	n := 0
	for _, t := range texts {
		if strings.TrimSpace(t) == s {
			n++
		}
	}
	return n
}

// Every go of the Result stands on paper once, with its times.
func TestGoesOnPaper(t *testing.T) {
	for _, r := range examples(t) {
		texts := strings.Join(pagesOf(r, "Glue-up"), "\n")
		for _, g := range r.Making.Goes {
			row := strings.Join(goCells(r, g), "\n")
			if n := strings.Count(texts, row); n != 1 {
				t.Errorf("%s: go %d stands %d times: %q", r.Job.Name, g.Number, n, row)
			}
		}
		for _, k := range r.Making.Kinds {
			if !strings.Contains(texts, fmt.Sprintf("%d × %s, %s", k.Count, k.Letter, k.Title)) {
				t.Errorf("%s: %s is not on the paper", r.Job.Name, k.Title)
			}
			if k.Tape != nil && !strings.Contains(texts, first(r.Job, k.Tape.Length)) {
				t.Errorf("%s: no tape for %s", r.Job.Name, k.Title)
			}
		}
	}
}

// The chalk plan has a row for every frame, in the order of laying, with its two
// marks; it and the dry lay say BACK.
func TestChalkPlanOnPaper(t *testing.T) {
	for _, r := range examples(t) {
		texts := pagesOf(r, "Chalk plan")
		all, from := strings.Join(texts, "\n"), 0
		for i, c := range r.Making.Lay.Chalk {
			row := strings.Join(chalkCells(r, i)[:5], "\n")
			at := strings.Index(all[from:], row)
			if at < 0 {
				t.Fatalf("%s: %s does not stand after the frame before it: %q", r.Job.Name, c.Frame, row)
			}
			from += at + 1
			for _, m := range c.Marks {
				if q := c.Corners[m]; !strings.Contains(row, first(r.Job, q.Up)) || q.Across.Side != "" && !strings.Contains(row, q.Across.Side+" "+first(r.Job, q.Across.Size)) {
					t.Errorf("%s: the row of %s lacks a mark: %q", r.Job.Name, c.Frame, row)
				}
			}
		}
		for _, title := range []string{"Dry lay", "Chalk plan"} {
			if countOf(pagesOf(r, title), "BACK") < 1 {
				t.Errorf("%s: %s does not say BACK", r.Job.Name, title)
			}
		}
	}
}

// The dry lay shows the back: a frame at the left of the front is at the right.
func TestDryLayIsTheBack(t *testing.T) {
	r := combWall().result()
	v := viewIn(r, box{0, 0, 150, 150}, true)
	for _, c := range r.Making.Lay.Chalk {
		for _, q := range c.Corners {
			mid := (v.left() + v.right()) / 2
			if x := v.at(q.At).X; abs(v.signed(mid, q.Across)-x) > 0.01 {
				t.Fatalf("%s corner %d is drawn at %.2f and chalked at %.2f", c.Frame, q.Corner, x, v.signed(mid, q.Across))
			}
		}
	}
}

// Every frame has one label, spares too; the numbers round a label's outline are
// the frame's seams.
func TestLabelsToCutOut(t *testing.T) {
	for _, r := range examples(t) {
		texts := pagesOf(r, "Labels")
		frames := 0
		for _, k := range r.Kinds {
			frames += k.Make
		}
		if got := countOf(texts, "BACK"); got != frames {
			t.Errorf("%s: %d labels for %d frames", r.Job.Name, got, frames)
		}
		seams := map[string]int{}
		for _, f := range r.Frames {
			if countOf(texts, f.Label) != 1 {
				t.Errorf("%s: label %s stands %d times", r.Job.Name, f.Label, countOf(texts, f.Label))
			}
			for _, m := range seamsOf(r, f.Label) {
				seams[itoa(m.Number)]++
			}
		}
		for _, text := range texts {
			for _, n := range strings.Split(text, ", ") {
				seams[n]--
			}
		}
		for _, m := range r.Seams {
			// The page's own number may be one of them.
			if left := seams[itoa(m.Number)]; left > 0 {
				t.Errorf("%s: seam %d is missing on %d labels", r.Job.Name, m.Number, left)
			}
		}
	}
}

// Every seam has a row with its planned gap and two lines to write on.
func TestGapListOnPaper(t *testing.T) {
	for _, r := range examples(t) {
		texts := pagesOf(r, "Fit, gaps and shims")
		if got := countOf(texts, blankLine); got != 2*len(r.Seams) {
			t.Errorf("%s: %d lines to write on for %d seams", r.Job.Name, got, len(r.Seams))
		}
		for _, g := range r.Making.Lay.Gaps {
			if countOf(texts, g.Frames[0]+"/"+g.Frames[1]) < 1 {
				t.Errorf("%s: seam %d is not in the list", r.Job.Name, g.Seam)
			}
		}
	}
}

// What is masked on paper is what the Result says: whole sides and stretches
// together are all of it.
func TestMasksOnPaper(t *testing.T) {
	for _, r := range examples(t) {
		texts := append(pagesOf(r, "Sanding and finish"), pagesOf(r, "Glue-up")...)
		for _, b := range byFrame(r.Making.Finish.Bare) {
			if whole := wholeSides(b); whole != "" && !slices.Contains(texts, whole) {
				t.Errorf("%s: sides %s of %s are not masked", r.Job.Name, whole, b[0].Frame)
			}
		}
		for _, b := range r.Making.Finish.Bare {
			if !b.Whole && countOf(texts, first(r.Job, b.From)+" to "+first(r.Job, b.To)) < 1 {
				t.Errorf("%s: %s/%d is not masked", r.Job.Name, b.Frame, b.Side)
			}
		}
	}
}

// Steps of kinds glued in one way are said once; what holds of some says of
// which, and a step that comes twice stays twice.
func TestMergedSteps(t *testing.T) {
	kind := func(title string, do ...string) job.MadeFacts {
		k := job.MadeFacts{Title: title}
		for _, s := range do {
			k.Steps = append(k.Steps, job.StepFacts{Do: s, After: strings.HasPrefix(s, "Press")})
		}
		return k
	}
	kinds := []job.MadeFacts{kind("big", "Coat.", "Close.", "Coat.", "Tape.", "Press."), kind("small", "Coat.", "Close.", "Coat.", "Wipe.", "Tape.", "Press.")}
	var got []string
	for _, s := range mergedSteps(kinds, false) {
		got = append(got, s.do)
	}
	if want := []string{"Coat.", "Close.", "Coat.", "Small: wipe.", "Tape."}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if after := mergedSteps(kinds, true); len(after) != 1 || after[0].do != "Press." {
		t.Errorf("after closing: %v", after)
	}
}

// Few labels are made large, and no size runs over its page before it must.
func TestLabelSizes(t *testing.T) {
	for n, across := range map[int]int{1: 2, 6: 2, 7: 3, 12: 3, 13: 4, 24: 4, 200: 4} {
		if z := sizeFor(n); z.across != across {
			t.Errorf("%d labels are %d across, want %d", n, z.across, across)
		}
	}
}

// Why a way was taken is said once for kinds of which it holds alike.
func TestWhyLines(t *testing.T) {
	a := job.MadeFacts{Title: "big", Method: "two halves", Why: "Its sides are even.", Tried: []job.TriedFacts{{Method: "rolled", Why: "the row is long"}, {Method: "two halves", OK: true}, {Method: "joint by joint", OK: true}}}
	b := a
	b.Title, b.Help = "wide", "With 2 people it is rolled."
	if got := whyLines([]job.MadeFacts{a, a}); len(got) != 1 || got[0] != "Why: its sides are even. Not rolled: the row is long." {
		t.Errorf("%q", got)
	}
	if got := whyLines([]job.MadeFacts{a, b}); len(got) != 2 || !strings.HasSuffix(got[1], "With 2 people it is rolled.") || !strings.HasPrefix(got[1], "Wide. Why: ") {
		t.Errorf("%q", got)
	}
}
