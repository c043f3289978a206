package drawing_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowerwright/drawing"
)

// A sketch is a Surface that keeps what it hears, and writes it down in a short
// notation: one line a call, points as x,y rounded to a hundredth.
type sketch struct {
	log    strings.Builder
	shapes []drawnShape
	words  []drawing.Words
	depth  int
}

type drawnShape struct {
	outlines []drawing.Outline
	fill     drawing.Tone
	pen      drawing.Pen
}

func sketched(items ...drawing.Item) *sketch {
	s := &sketch{}
	drawing.Play(drawing.List{W: 100, H: 100, Items: items}, s)
	return s
}

func (s *sketch) say(format string, args ...any) {
	s.log.WriteString(strings.Repeat("  ", s.depth))
	fmt.Fprintf(&s.log, format+"\n", args...)
}

func (s *sketch) Shape(os []drawing.Outline, fill drawing.Tone, pen drawing.Pen) {
	s.shapes = append(s.shapes, drawnShape{os, fill, pen})
	line := "shape"
	if fill != drawing.None {
		line += " fill " + fill.String()
	}
	if pen.Draws() {
		line += fmt.Sprintf(" pen %g pt %s", pen.Weight, pen.Tone)
		if pen.DashMM() != nil {
			line += fmt.Sprintf(" dash %v", pen.Dash)
		}
	}
	s.say("%s", line)
	for _, o := range os {
		s.say("  %s", notation(o))
	}
}

func (s *sketch) Words(w drawing.Words) {
	s.words = append(s.words, w)
	s.say("words %q at %s turn %s wide %.2f", w.Plain, xy(w.At), dot(w.Turn), w.Width)
	for _, r := range w.Runs {
		s.say("  %q %s %g pt %s x %.2f up %.2f", r.S, r.Font, r.Size, r.Tone, r.X, r.Rise)
	}
}

func (s *sketch) Picture(im drawing.Image) {
	s.say("picture %q at %s, %g by %g", im.Alt, xy(im.At), im.W, im.H)
}

func (s *sketch) Clip(os []drawing.Outline) {
	s.say("clip %s", notation(os[0]))
	s.depth++
}

func (s *sketch) Unclip() {
	s.depth--
	s.say("unclip")
}

func (s *sketch) Link(l drawing.Link) { s.say("link at %s to page %d %s", xy(l.At), l.Page, l.URL) }

func dot(v float64) string {
	return fmt.Sprintf("%g", math.Round(v*100)/100+0)
}

func xy(p drawing.Point) string { return dot(p.X) + "," + dot(p.Y) }

func notation(o drawing.Outline) string {
	out := xy(o.Start)
	for _, t := range o.Steps {
		if t.Bent {
			out += " (" + xy(t.C1) + " " + xy(t.C2) + ")"
		}
		out += " " + xy(t.To)
	}
	if o.Closed {
		out += " z"
	}
	return out
}

// points reads "x,y x,y ..." into points.
func points(s string) []drawing.Point {
	var out []drawing.Point
	for _, f := range strings.Fields(s) {
		var p drawing.Point
		if _, err := fmt.Sscanf(f, "%g,%g", &p.X, &p.Y); err != nil {
			panic(f + ": " + err.Error())
		}
		out = append(out, p)
	}
	return out
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// golden compares text with a file under testdata, which -update writes; a file
// no test asks for fails the run.
func golden(t *testing.T, name, got string) {
	t.Helper()
	asked[name] = true
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got:\n%s", name, got)
	}
}

var asked = map[string]bool{}

// TestMain looks for orphans after the tests, when all of them ran.
func TestMain(m *testing.M) {
	code := m.Run()
	if code == 0 && wholeRun() {
		code = orphans()
	}
	os.Exit(code)
}

func wholeRun() bool {
	for _, a := range os.Args {
		if strings.HasPrefix(a, "-test.run") || strings.HasPrefix(a, "-test.bench=") || strings.HasPrefix(a, "-test.list") || strings.HasPrefix(a, "-test.skip") {
			return false
		}
	}
	return true
}

func orphans() int {
	files, _ := filepath.Glob(filepath.Join("testdata", "*.txt"))
	for _, f := range files {
		if !asked[filepath.Base(f)] {
			fmt.Fprintln(os.Stderr, "no test asks for", f)
			return 1
		}
	}
	return 0
}
