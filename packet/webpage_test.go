package packet

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// TestPageIsWellFormed: every element is closed where it belongs, whatever the
// names say, and no identifier stands twice.
func TestPageIsWellFormed(t *testing.T) {
	for _, r := range examples(t) {
		r.Job.Name, r.Job.Venue = `<script>alert("x")</script>`, `</title></style>&amp;'"`
		p := screen(t, r)
		if fault := unbalanced(p); fault != "" {
			t.Errorf("%s: %s", r.Job.Note, fault)
		}
		if strings.Contains(p, "<script") {
			t.Error("a name has become a script")
		}
		seen := map[string]bool{}
		for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(p, -1) {
			if seen[m[1]] {
				t.Errorf("the identifier %s stands twice", m[1])
			}
			seen[m[1]] = true
		}
		for _, m := range regexp.MustCompile(`(?:href="#|aria-labelledby=")([^" ]*)(?: ([^"]*))?"`).FindAllStringSubmatch(p, -1) {
			for _, id := range m[1:] {
				if id != "" && !seen[id] {
					t.Errorf("nothing has the identifier %q", id)
				}
			}
		}
	}
}

// unbalanced is the first tag that closes what is not open, or "".
func unbalanced(p string) string {
	void := []string{"meta", "input", "br"}
	var open []string
	body := regexp.MustCompile(`(?s)<style>.*?</style>`).ReplaceAllString(p, "")
	for _, m := range regexp.MustCompile(`<(/?)([a-zA-Z0-9]+)[^>]*?(/?)>`).FindAllStringSubmatch(body, -1) {
		switch {
		case slices.Contains(void, m[2]) || m[3] == "/":
		case m[1] == "":
			open = append(open, m[2])
		case len(open) == 0 || open[len(open)-1] != m[2]:
			return fmt.Sprintf("</%s> closes %v", m[2], open)
		default:
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		return fmt.Sprintf("still open: %v", open)
	}
	return ""
}

func TestUnbalancedIsFound(t *testing.T) {
	for p, well := range map[string]bool{"<p>a<br>b</p>": true, "<p><b></p></b>": false, "<div>": false, "</p>": false, `<path d="M0 0"/>`: true} {
		if (unbalanced(p) == "") != well {
			t.Errorf("%s: %q", p, unbalanced(p))
		}
	}
}

// TestHeadingsAreInOrder: one h1, then no level is left out.
func TestHeadingsAreInOrder(t *testing.T) {
	for _, r := range examples(t) {
		last := byte('0')
		for i, m := range regexp.MustCompile(`<h([1-6])`).FindAllStringSubmatch(screen(t, r), -1) {
			if n := m[1][0]; n > last+1 || n == '1' && i > 0 {
				t.Fatalf("%s: h%c after h%c", r.Job.Name, n, last)
			}
			last = m[1][0]
		}
	}
}

// TestPageIsAlone: it asks for nothing outside itself.
func TestPageIsAlone(t *testing.T) {
	for _, m := range regexp.MustCompile(`(?:href|src|url)[=(]["']?([^"') ]*)`).FindAllStringSubmatch(screen(t, gateway().result()), -1) {
		if !strings.HasPrefix(m[1], "#") && !strings.HasPrefix(m[1], "data:") {
			t.Errorf("it asks for %s", m[1])
		}
	}
}

func TestPageTwice(t *testing.T) {
	r := combWall().result()
	if one, other := screen(t, r), screen(t, r); one != other {
		t.Error("two pages of one result differ")
	}
	var b bytes.Buffer
	if err := HTML(&b, r, time.Date(2027, 5, 3, 10, 42, 0, 0, time.UTC)); err != nil || !strings.Contains(b.String(), "made 3 May 2027, 10:42") {
		t.Errorf("the time is not on the page: %v", err)
	}
	if err := HTML(failing{}, r, time.Time{}); !errors.Is(err, os.ErrClosed) {
		t.Errorf("a page that cannot be written: %v", err)
	}
}

// TestRichReadsPlain: with its tags taken off, text is what it was, and no tag
// comes from it.
func TestRichReadsPlain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.SampledFrom([]string{"10", "3/8", "in", "<b>", "&", "5/16", "ft", "×", "roll", "-1/4", "½"}), 1, 9).Draw(t, "words")
		s := strings.Join(words, " ")
		if got := strings.ReplaceAll(heard(rich(s)), "\u00a0", " "); got != s {
			t.Fatalf("%q reads %q", s, got)
		}
	})
	if got := rich("10 3/8 in"); !strings.Contains(got, `<span class="num">3</span>`) {
		t.Errorf("not built: %s", got)
	}
	if got, want := rich("of 9 7/16 in and 240 mm"), `of <span class="mixed">9<span class="gap"> </span><span class="frac"><span class="num">7</span>/<span class="den">16</span></span></span>`+"\u00a0in and 240\u00a0mm"; got != want {
		t.Errorf("a figure may break over a line: %s", got)
	}
	if got := plainHTML("a\nb\x00c\xffd <"); got != "a b c\ufffdd &lt;" {
		t.Errorf("%q", got)
	}
}

// TestTables: a head where columns have names, rows named by their first cell,
// one table for rows of one grid, closed before what follows.
func TestTables(t *testing.T) {
	cols := []column{{"part", 20, false}, {"count", 10, true}}
	rows := [][]cell{{bold("A"), text("3")}, {nil, text("4")}}
	w := &webWriter{id: "x"}
	w.all(append(twinsOf(append([]block{heading("Cut list", "", "")}, table(0, cols, rows)...)...), webPara("after")))
	got := w.b.String()
	for _, want := range []string{`<caption class="hid">Cut list</caption>`, `<th scope="col" class="short">part</th><th scope="col" class="fig">count</th>`,
		`<tr><th scope="row" class="short"><b>A</b></th><td class="fig">3</td></tr>`, `<tr><td class="short"></td><td class="fig">4</td></tr>`, "</tbody></table>\n<p>after</p>"} {
		if !strings.Contains(got, want) {
			t.Errorf("%s is missing in\n%s", want, got)
		}
	}
	if n := strings.Count(got, "<table>"); n != 1 {
		t.Errorf("%d tables", n)
	}
	w = &webWriter{}
	w.all([]twin{webTable("No heads", []column{{"", 20, false}, {"", 90, true}}, rows)})
	if s := w.b.String(); strings.Contains(s, "<thead>") || !strings.Contains(s, `tabindex="0"`) {
		t.Errorf("columns without names, wider than a phone: %s", s)
	}
}

// TestPicturesAreCropped to what is drawn, and say it in words.
func TestPicturesAreCropped(t *testing.T) {
	p := webPicture("a bar & a word", 187, 100, func(s *sheet) {
		s.add(drawing.Rect(drawing.PenEdge, drawing.White, 50, 40, 20, 10), drawing.Rect(drawing.Pen{}, drawing.White, 0, 0, 187, 100))
		s.say(drawing.Label(drawing.Pt(60, 60), drawing.Body, "word"))
	}).(pictureTwin)
	l := p.list()
	if l.W < 20+2*cropAir || l.W > 27 || l.H < 20 || l.H > 28 {
		t.Errorf("%.1f by %.1f", l.W, l.H)
	}
	if out := drawing.Outside(l); len(out) > 0 {
		t.Errorf("cut off: %v", out)
	}
	w := &webWriter{}
	w.all([]twin{p})
	if s := w.b.String(); !strings.Contains(s, `role="img"`) || !strings.Contains(s, "a bar &amp; a word") {
		t.Error(s)
	}
	if l := webPicture("nothing", 50, 20, func(*sheet) {}).(pictureTwin).list(); l.W != 50 || l.H != 20 {
		t.Errorf("an empty picture is %.0f by %.0f", l.W, l.H)
	}
}

func TestTicksAndLists(t *testing.T) {
	w := &webWriter{}
	w.all([]twin{webTicks("Sawn", "B1", "B2"), webSteps("one", "two"), webList("a"), webFacts([2]string{"Kerf", "1/8 in"}), webLoud("BACK", ""), webCaution("mind")})
	got := w.b.String()
	for _, want := range []string{"<fieldset><legend>Sawn</legend>", `<label><input type="checkbox" autocomplete="off"> B2</label>`, "<ol>\n<li>one</li>",
		"<ul>\n<li>a</li>", "<dt>Kerf</dt>", `<p class="loud"><b>BACK</b></p>`, `<p class="boxed">mind</p>`} {
		if !strings.Contains(got, want) {
			t.Errorf("%s is missing in\n%s", want, got)
		}
	}
}
