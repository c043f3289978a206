package packet

import (
	"fmt"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"

	"pgregory.net/rapid"
)

// legs is a gate of two upright boards with a beam, its opening in the middle.
func legs(w, h, board float64) job.Result {
	upright := func(x float64) job.FrameFacts {
		return job.FrameFacts{Outside: []job.XY{{x, 0}, {x + board, 0}, {x + board, h}, {x, h}}}
	}
	return job.Result{Frames: []job.FrameFacts{upright(0), upright(w/3 - board), upright(w * 2 / 3), upright(w - board)}}
}

// TestNobodyStandsBeforeALeg where there is an opening to stand in.
func TestNobodyStandsBeforeALeg(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(6000, 12000).Draw(t, "w"), rapid.Float64Range(1900, 4000).Draw(t, "h")
		r := legs(w, h, rapid.Float64Range(18, 90).Draw(t, "board"))
		a, c := stands(r, w, personGap)
		if hides(r, drawing.Adult, a) > 0 || hides(r, drawing.Child, c) > 0 {
			t.Fatalf("%.0f mm wide: an adult at %.0f hides %v, a child at %.0f hides %v", w, a, hides(r, drawing.Adult, a), c, hides(r, drawing.Child, c))
		}
		if abs(abs(a-c)-personGap) > 1e-9 || min(a, c) < 0 || max(a, c) > w {
			t.Fatalf("they stand at %.0f and %.0f", a, c)
		}
	})
}

// TestPeopleStayWhereNothingIsWon: before a wall that is alike everywhere they
// stand at a third of its width.
func TestPeopleStayWhereNothingIsWon(t *testing.T) {
	if a, c := stands(job.Result{}, 4800, personGap); abs(a-0.36*4800) > 4800/48 || abs(c-a) != personGap {
		t.Errorf("%.0f and %.0f", a, c)
	}
	if hides(legs(6000, 2000, 40), drawing.Adult, 20) == 0 {
		t.Error("who stands before a leg hides nothing")
	}
}

func TestLettersThatTheFontsLack(t *testing.T) {
	r := single().result()
	if got := lettersSay(r); got != "" {
		t.Errorf("all letters print, yet: %s", got)
	}
	r.Job.Venue, r.Kinds[0].Title = "オランジェリー", "🌸 ring"
	got := lettersSay(r)
	for _, want := range []string{"the venue", "the title of " + r.Kinds[0].Letter} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not name %s", got, want)
		}
	}
	if strings.Contains(got, "name, ") {
		t.Errorf("names what prints: %q", got)
	}
	doc := Build(r, made)
	mustSay(t, drawing.Texts(doc.Pages[0].List), "stands for a letter")
	if p := screen(t, r); !strings.Contains(p, "オランジェリー") || strings.Contains(p, "stands for a letter") {
		t.Error("the page for screens lacks the letters, or says that it does")
	}
}

// TestContentsOfManyPapers: two dozen lines leave the cover in order, with what
// is above them.
func TestContentsOfManyPapers(t *testing.T) {
	for _, n := range []int{1, 3, 14, 21, 30} {
		var es []entry
		for i := range n {
			es = append(es, entry{fmt.Sprint("Paper number ", i+1), i + 2})
		}
		var b book
		p := b.begin("cover", [2]string{})
		r := combWall().result()
		r.Banner = strings.Repeat("Nothing of this has been checked by anybody. ", 6)
		cover(p, r, es)
		doc := b.doc(job.Result{}, made)
		for len(doc.Pages) < n+1 { // pages that the links lead to
			doc.Pages = append(doc.Pages, doc.Pages[0])
		}
		if fs := faults(doc.Pages[0]); len(fs) > 0 {
			t.Errorf("%d lines: %v", n, fs)
		}
		text := strings.Join(drawing.Texts(doc.Pages[0].List), "\n")
		if want := fmt.Sprint("number ", min(n, contentsCols*contentsRows)); !strings.Contains(text, want) {
			t.Errorf("%d lines: %q is missing", n, want)
		}
	}
}

// TestAssumptionsOnPaper: those that were changed stand with range and source,
// the others with value and name; on the screen all stand in full.
func TestAssumptionsOnPaper(t *testing.T) {
	r := single().result()
	r.Assumed = nil
	for i, from := range []string{builtIn, "job file", "shop file", "flag", builtIn} {
		n := fmt.Sprint(i)
		r.Assumed = append(r.Assumed, job.AssumedFacts{ID: "saw.n" + n, Name: "thing " + n, Value: "7" + n + " mm", Range: "1 to 8" + n,
			Source: "tables, page 9" + n, Status: "seen", From: from})
	}
	r.Assumed[4].ID = "novel.n4"
	paper, web := strings.ReplaceAll(strings.Join(says(Build(r, made)), "\n"), "\u00a0", " "), strings.ReplaceAll(heard(screen(t, r)), "\u00a0", " ")
	for i, a := range r.Assumed {
		full := a.From != builtIn
		for _, s := range []string{a.Value, a.Name, a.ID} {
			if !strings.Contains(paper, s) || !strings.Contains(web, s) {
				t.Errorf("%d: %q is missing", i, s)
			}
		}
		for _, s := range []string{a.Range, a.Source} {
			if strings.Contains(paper, s) != full {
				t.Errorf("%d, %s: %q on paper %v", i, a.From, s, !full)
			}
			if !strings.Contains(web, s) {
				t.Errorf("%d: %q is not on the screen", i, s)
			}
		}
	}
	for _, s := range []string{"The saw", "novel"} {
		if !strings.Contains(paper, s) {
			t.Errorf("the group %q has no heading", s)
		}
	}
}
