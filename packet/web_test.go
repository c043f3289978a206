package packet

import (
	"bytes"
	"fmt"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"bowerwright/drawing"
	"bowerwright/job"
)

// page is a job's page for screens.
func screen(t testing.TB, r job.Result) string {
	t.Helper()
	var b bytes.Buffer
	if err := HTML(&b, r, time.Time{}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// drawnText is what a block prints.
func (k block) drawnText() []string {
	var s sheet
	k.draw(&s, 0)
	return drawing.Texts(drawing.List{W: fieldW, H: max(k.h, 1), Items: s.items})
}

// TestEveryBlockHasATwin: whatever is printed is there for screens and readers.
func TestEveryBlockHasATwin(t *testing.T) {
	for _, r := range examples(t) {
		for _, p := range build(r).papers {
			for _, k := range p.blocks {
				if k.said() == nil {
					t.Errorf("%s, %s: a block has no twin; it prints %q", r.Job.Name, p.title, k.drawnText())
				}
			}
		}
	}
}

// TestATwinThatLacksIsFound makes sure that the test above can fail.
func TestATwinThatLacksIsFound(t *testing.T) {
	draw := func(s *sheet, y float64) {}
	if (block{draw: draw}).said() != nil {
		t.Error("a block without a twin has one")
	}
	if (block{draw: draw}).says().said() == nil {
		t.Error("what is said elsewhere counts as forgotten")
	}
	if len(picture(10, "a saw", draw).said()) != 1 {
		t.Error("a picture with an alt has no twin")
	}
}

var (
	tagOf    = regexp.MustCompile(`<[^>]*>`)
	svgOf    = regexp.MustCompile(`(?s)<svg.*?</svg>`)
	descOf   = regexp.MustCompile(`(?s)<desc[^>]*>(.*?)</desc>`)
	stepsOf  = regexp.MustCompile(`(?s)<ol>.*?</ol>`)
	itemOf   = regexp.MustCompile(`<li>`)
	textOf   = regexp.MustCompile(`(?s)<text([^>]*)>(.*?)</text>`)
	labelOf  = regexp.MustCompile(`aria-label="([^"]*)"`)
	boxOf    = regexp.MustCompile(`(?i)<(/?(td|th|li|p|dd|dt|h[1-6]|label|legend|div)|br)\b[^>]*>`)
	numberOf = regexp.MustCompile(`\d+(?:[.,/]\d+)*`)
)

// heard is what a reader hears of a stretch of the page: its text, and of a
// picture its description. Seen is that and what is written in the pictures.
func heard(s string) string {
	return words(svgOf.ReplaceAllStringFunc(s, func(p string) string { return " " + firstOf(descOf, p) + " " }))
}

func seen(s string) string {
	return words(svgOf.ReplaceAllStringFunc(s, func(p string) string {
		all := []string{firstOf(descOf, p)}
		for _, m := range textOf.FindAllStringSubmatch(p, -1) {
			line := m[2]
			if label := firstOf(labelOf, m[1]); label != "" {
				line = label
			}
			all = append(all, line)
		}
		return " " + strings.Join(all, " ; ") + " "
	}))
}

func firstOf(re *regexp.Regexp, s string) string {
	if m := re.FindStringSubmatch(s); m != nil {
		return m[1]
	}
	return ""
}

// words is text without its tags; what stands in boxes of its own is apart, and
// steps have the numbers that a browser gives them.
func words(s string) string {
	s = stepsOf.ReplaceAllStringFunc(s, func(ol string) string {
		n := 0
		return itemOf.ReplaceAllStringFunc(ol, func(string) string { n++; return fmt.Sprintf("<li>%d ", n) })
	})
	return html.UnescapeString(tagOf.ReplaceAllString(boxOf.ReplaceAllString(s, " "), ""))
}

// figures counts the numbers in a text: "10 3/8 in" holds 10 and 3/8.
func figures(s string) map[string]int {
	out := map[string]int{}
	for _, n := range numberOf.FindAllString(s, -1) {
		out[n]++
	}
	return out
}

// papersOf are the sections of the page, in order.
func papersOf(p string) []string {
	return strings.Split(p, "<section ")[1:]
}

// printed is all that the blocks of a paper print, or only those of them that
// hold no picture. A list that goes on from a drawing stands whole with that.
func printed(p webPaper, pictures bool) string {
	var all []string
	for _, k := range p.blocks {
		further := k.split != nil && len(k.said()) == 0
		if k.draw != nil && !further && (pictures || !k.shows()) {
			all = append(all, k.drawnText()...)
		}
	}
	return strings.Join(all, "\n")
}

// shows says whether there is a picture in a block.
func (k block) shows() bool {
	return slices.ContainsFunc(k.said(), func(t twin) bool { _, ok := t.(pictureTwin); return ok })
}

// TestEveryFigureIsOnThePage: what a paper prints in figures is on the page for
// screens as often at least, and can be heard where it is no part of a picture.
func TestEveryFigureIsOnThePage(t *testing.T) {
	for _, r := range examples(t) {
		b := build(r)
		sections := papersOf(screen(t, r))
		if len(sections) != len(b.papers) {
			t.Fatalf("%s: %d sections for %d papers", r.Job.Name, len(sections), len(b.papers))
		}
		for i, p := range b.papers {
			if lost := missingFigures(printed(p, true), seen(sections[i])); len(lost) > 0 {
				t.Errorf("%s, %s: printed but not on the page: %s", r.Job.Name, p.title, strings.Join(lost, ", "))
			}
			if lost := missingFigures(printed(p, false), heard(sections[i])); len(lost) > 0 {
				t.Errorf("%s, %s: printed but not to be heard: %s", r.Job.Name, p.title, strings.Join(lost, ", "))
			}
		}
	}
}

// missingFigures are the numbers that one text has more often than another.
func missingFigures(printed, page string) []string {
	have := figures(page)
	var lost []string
	for n, want := range figures(printed) {
		if have[n] < want {
			lost = append(lost, fmt.Sprintf("%s (%d of %d)", n, have[n], want))
		}
	}
	slices.Sort(lost)
	return lost
}

func TestMissingFiguresAreFound(t *testing.T) {
	if got := missingFigures("10 3/8 in, twice 7 and 7", "10 in and 7"); fmt.Sprint(got) != "[3/8 (0 of 1) 7 (1 of 2)]" {
		t.Errorf("%v", got)
	}
	if got := heard(`<td>10<span class="gap"> </span><span class="frac"><span>3</span>/<span>8</span></span> in</td><td>4</td>`); strings.TrimSpace(got) != "10 3/8 in  4" {
		t.Errorf("%q", got)
	}
}
