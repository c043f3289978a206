package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"bowerwright/drawing"
)

var (
	update = flag.Bool("update", false, "write the goldens anew")
	pt     = drawing.Pt
)

// small is a list with one of each thing.
func small() drawing.List {
	l := drawing.List{W: 80, H: 50, Title: "A part & its size", Desc: "A trapezoid, 10 3/8 in long."}
	l.Add(
		drawing.Polygon(drawing.PenOutline, drawing.Solid(drawing.Slip), pt(10, 20), pt(60, 20), pt(55, 27), pt(15, 27)),
		drawing.Level(pt(10, 20), pt(60, 20), 12, "10 3/8 in"),
		drawing.Rect(drawing.PenEdge, drawing.Hatched(drawing.Waste), 62, 20, 8, 7),
		drawing.Stroke(drawing.PenSiteSeam, pt(5, 35), pt(70, 35)),
		drawing.Stroke(drawing.PenDraped, pt(5, 38), pt(70, 38)),
		drawing.Label(pt(76, 45), drawing.Small, "M <1>").Mono().Turned(90),
		drawing.Group{Clip: []drawing.Outline{drawing.EllipseAt(pt(20, 42), 5, 4)}, Items: []drawing.Item{
			drawing.Circle(drawing.PenInHand, drawing.Solid(drawing.ChalkWash), pt(24, 42), 4),
		}},
		drawing.Link{At: pt(0, 0), W: 5, H: 5, URL: "https://example.org/?a=1&b=2"},
		drawing.Link{At: pt(0, 0), W: 5, H: 5, Page: 3},
		drawing.Image{At: pt(40, 40), W: 6, H: 4, PNG: []byte("not looked into"), Alt: "a \"stand\""},
	)
	return l
}

func written(t *testing.T, l drawing.List, o Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, l, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestGoldens: the file, read as text. A golden no case asks for fails.
func TestGoldens(t *testing.T) {
	cases := map[string]Options{
		"paper.svg": {},
		"live.svg":  {LiveType: true, Variables: true, Palette: &drawing.Light, ID: "part"},
	}
	for name, o := range cases {
		got, path := written(t, small(), o), filepath.Join("testdata", name)
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
	files, err := filepath.Glob("testdata/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if _, ok := cases[filepath.Base(f)]; !ok {
			t.Errorf("no case asks for %s", f)
		}
	}
}

// an element is what the tests look at in a file.
type element struct {
	name  string
	attrs map[string]string
	text  string
}

// parsed reads a file as XML, which also shows that it is.
func parsed(t *testing.T, file string) []element {
	t.Helper()
	var out []element
	var open []int
	dec := xml.NewDecoder(strings.NewReader(file))
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, file)
		}
		switch v := tok.(type) {
		case xml.StartElement:
			e := element{name: v.Name.Local, attrs: map[string]string{}}
			for _, a := range v.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			open = append(open, len(out))
			out = append(out, e)
		case xml.CharData:
			if len(open) > 0 {
				out[open[len(open)-1]].text += string(v)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}

func TestSameBytes(t *testing.T) {
	want := written(t, small(), Options{})
	for range 5 {
		if got := written(t, small(), Options{}); got != want {
			t.Fatal("one list, two files")
		}
	}
}

// TestTellsWhatItShows: role, title and description, tied together.
func TestTellsWhatItShows(t *testing.T) {
	es := parsed(t, written(t, small(), Options{ID: "p7"}))
	root := es[0].attrs
	if root["role"] != "img" || root["aria-labelledby"] != "p7-t p7-d" || root["width"] != "80mm" || root["viewBox"] != "0 0 80 50" {
		t.Errorf("root %v", root)
	}
	if es[1].name != "title" || es[1].text != "A part & its size" || es[1].attrs["id"] != "p7-t" || es[2].name != "desc" || es[2].attrs["id"] != "p7-d" {
		t.Errorf("then %v, %v", es[1], es[2])
	}
}

// TestIdentifiers: every one is used, defined once, and begins with the
// picture's own, so that two pictures fit on one page.
func TestIdentifiers(t *testing.T) {
	file := written(t, small(), Options{ID: "x9"})
	defined := map[string]bool{}
	for _, e := range parsed(t, file) {
		id := e.attrs["id"]
		if id == "" {
			continue
		}
		if defined[id] || !strings.HasPrefix(id, "x9-") {
			t.Errorf("identifier %q", id)
		}
		defined[id] = true
	}
	used := map[string]bool{"x9-t": true, "x9-d": true}
	for _, m := range regexp.MustCompile(`#(x9-[^")]+)`).FindAllStringSubmatch(file, -1) {
		used[m[1]] = true
		if !defined[m[1]] {
			t.Errorf("%q is nowhere defined", m[1])
		}
	}
	if len(used) != len(defined) {
		t.Errorf("%d identifiers are defined, %d used", len(defined), len(used))
	}
}

// TestWordsAreThere to be searched and read, in both ways of setting them.
func TestWordsAreThere(t *testing.T) {
	for _, o := range []Options{{}, {LiveType: true}} {
		var said []string
		for _, e := range parsed(t, written(t, small(), o)) {
			if e.name != "text" {
				continue
			}
			if l := e.attrs["aria-label"]; l != "" {
				said = append(said, l)
			} else {
				said = append(said, e.text)
			}
		}
		if o.LiveType {
			said = append(said, "M <1>") // its text is in a tspan, looked at below
		}
		for _, want := range []string{"10 3/8 in", "M <1>"} {
			if !strings.Contains(strings.Join(said, "|"), want) {
				t.Errorf("%+v: %q is not among %q", o, want, said)
			}
		}
	}
	var spans []string
	for _, e := range parsed(t, written(t, small(), Options{LiveType: true})) {
		if e.name == "tspan" {
			spans = append(spans, e.text)
		}
	}
	if got := strings.Join(spans, "|"); got != "10|3|⁄|8| in|M <1>" {
		t.Errorf("live type is set in the pieces %q", got)
	}
}

// TestNeedsNoFont: letters are outlines, and the text over them is not painted.
func TestNeedsNoFont(t *testing.T) {
	for _, e := range parsed(t, written(t, small(), Options{})) {
		if e.name == "text" && e.attrs["fill-opacity"] != "0" {
			t.Errorf("text %q is painted in whatever font is there", e.text)
		}
		if e.name == "style" || e.name == "script" {
			t.Errorf("there is a %s", e.name)
		}
	}
}

// TestColours: paper prints chalk as ink; a page's own variables come with what
// stands for them.
func TestColours(t *testing.T) {
	paper := written(t, small(), Options{})
	if strings.Contains(paper, "#1B4A8A") {
		t.Error("chalk is blue on paper")
	}
	for o, want := range map[Options]string{
		{Palette: &drawing.Light}:                  `stroke="#1B4A8A"`,
		{Palette: &drawing.Dark}:                   `stroke="#A3C6F2"`,
		{Palette: &drawing.Light, Variables: true}: `stroke="var(--chalk,#1B4A8A)"`,
	} {
		if !strings.Contains(written(t, small(), o), want) {
			t.Errorf("%+v: no %s", o, want)
		}
	}
}

func TestNumbers(t *testing.T) {
	for v, want := range map[float64]string{0: "0", -0.0001: "0", 1: "1", 1.2346: "1.235", -2.5: "-2.5", 100: "100", 0.0005: "0.001", 12345.6789: "12345.679"} {
		if got := num(v); got != want {
			t.Errorf("%g is written %s, want %s", v, got, want)
		}
	}
}

// TestGlyphsStandApart: letters are moved by their advances, in whole 1/2048
// em: a figure of Go Regular is 1139 wide.
func TestGlyphsStandApart(t *testing.T) {
	l := drawing.List{W: 50, H: 20, Items: []drawing.Item{drawing.Label(pt(5, 10), 12, "707")}}
	var xs []string
	for _, e := range parsed(t, written(t, l, Options{})) {
		if e.name == "use" {
			xs = append(xs, e.attrs["href"]+"@"+e.attrs["x"])
		}
	}
	if got, want := strings.Join(xs, " "), "#d-g0-0037@0 #d-g0-0030@1139 #d-g0-0037@2278"; got != want {
		t.Errorf("glyphs %s, want %s", got, want)
	}
}

// TestTurnedText turns clockwise by the negative, as SVG counts.
func TestTurnedText(t *testing.T) {
	for _, o := range []Options{{}, {LiveType: true}} {
		if f := written(t, small(), o); !strings.Contains(f, `transform="rotate(-90 76 45)"`) {
			t.Errorf("%+v: the turned line is not turned", o)
		}
	}
}

func TestNothing(t *testing.T) {
	for _, it := range []drawing.Item{drawing.Path(drawing.PenEdge, drawing.Black), drawing.Stroke(drawing.Pen{}, pt(0, 0), pt(1, 1)), drawing.Label(pt(1, 1), 9, "")} {
		l := drawing.List{W: 10, H: 10, Items: []drawing.Item{it}}
		if n := len(parsed(t, written(t, l, Options{}))); n != 3 {
			t.Errorf("%#v makes %d elements, want root, title and description", it, n)
		}
	}
}

func TestMissingRunesAreSquares(t *testing.T) {
	l := drawing.List{W: 50, H: 20, Items: []drawing.Item{drawing.Label(pt(5, 10), 12, "✓")}}
	if f := written(t, l, Options{}); !strings.Contains(f, fmt.Sprintf(`id="d-g0-%04x"`, '□')) {
		t.Error("a rune the font lacks is not drawn as a square")
	}
}

// TestDashesInMM: pt of the paper become mm of the picture.
func TestDashesInMM(t *testing.T) {
	want := math.Round(6*25.4/72*1000) / 1000
	if f := written(t, small(), Options{}); !strings.Contains(f, fmt.Sprintf(`stroke-dasharray="%g `, want)) {
		t.Errorf("no dash of %g mm", want)
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWriterFails(t *testing.T) {
	if err := Write(fullDisk{}, small(), Options{}); !errors.Is(err, errFull) {
		t.Errorf("error %v", err)
	}
}
