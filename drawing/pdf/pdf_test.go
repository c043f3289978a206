package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"bowerwright/drawing"
)

var (
	pt   = drawing.Pt
	made = time.Date(2027, 5, 3, 10, 42, 0, 0, time.FixedZone("away", 5*3600))
)

// sample is a document that uses everything a maker is asked for.
func sample() Doc {
	one := drawing.List{W: Letter.W, H: Letter.H, Title: "Bench card"}
	one.Add(
		drawing.Label(pt(15, 20), drawing.Title, "L, large hexagon").Bold(),
		drawing.Label(pt(15, 30), drawing.Body, "long point 10 3/8 in, against the fence"),
		drawing.Label(pt(15, 40), drawing.Body, "27 11/16 in").Medium().Turned(90),
		drawing.Label(pt(15, 50), drawing.Body, "18:40").Mono(),
		drawing.Group{Clip: []drawing.Outline{drawing.EllipseAt(pt(100, 100), 20, 20)}, Items: []drawing.Item{
			drawing.Rect(drawing.PenOutline, drawing.Hatched(drawing.Rain), 80, 80, 40, 20),
			drawing.Label(pt(85, 100), drawing.Bench, "clipped").Bold(),
		}},
		drawing.Label(pt(15, 60), drawing.Body, "after the clip"),
		drawing.Image{At: pt(150, 60), W: 20, H: 10, PNG: tinyPNG(), Alt: "two colours"},
		drawing.Link{At: pt(15, 55), W: 30, H: 6, Page: 2},
		drawing.Link{At: pt(15, 65), W: 30, H: 6, URL: "https://example.org/"},
	)
	one.Add(drawing.CheckBars(pt(60, 260))...)
	two := drawing.List{W: Letter.W, H: Letter.H, Items: []drawing.Item{drawing.Label(pt(15, 20), drawing.Body, "second page")}}
	return Doc{Title: "Comb wall", Author: "Ines", Made: made, Pages: []Page{
		{List: one, Size: Letter, Bookmark: "Bench cards"}, {List: two, Size: A4, Bookmark: "L – large", Level: 1}, {List: drawing.List{W: 100, H: 50}},
	}}
}

func tinyPNG() []byte {
	im := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	im.Set(0, 0, color.NRGBA{200, 0, 0, 255})
	im.Set(1, 0, color.NRGBA{0, 0, 200, 128})
	var b bytes.Buffer
	if err := png.Encode(&b, im); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func written(t *testing.T, d Doc) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestSameBytes: nothing but the Doc goes in, neither the clock nor the order
// of a map nor the zone.
func TestSameBytes(t *testing.T) {
	want := written(t, sample())
	for range 5 {
		if !bytes.Equal(written(t, sample()), want) {
			t.Fatal("one document, two files")
		}
	}
	utc := sample()
	utc.Made = made.UTC()
	if !bytes.Equal(written(t, utc), want) {
		t.Error("the zone of the clock changes the file")
	}
	later := sample()
	later.Made = made.Add(time.Minute)
	if bytes.Equal(written(t, later), want) {
		t.Error("the time of making is not in the file")
	}
}

// TestCrossReferences follows both cross-reference sections: every entry has to
// lead to the object it names, and the newer has to lead to the older.
func TestCrossReferences(t *testing.T) {
	file := written(t, sample())
	starts := regexp.MustCompile(`startxref\n(\d+)\n%%EOF`).FindAllSubmatch(file, -1)
	if len(starts) != 2 {
		t.Fatalf("%d ends of the file, want the first and the update's", len(starts))
	}
	prev := regexp.MustCompile(`/Prev (\d+)`).FindSubmatch(file)
	if prev == nil || !bytes.Equal(prev[1], starts[0][1]) {
		t.Errorf("the update does not point back to the first section: %q", prev)
	}
	for _, s := range starts {
		at, _ := strconv.Atoi(string(s[1]))
		checkSection(t, file, at)
	}
}

func checkSection(t *testing.T, file []byte, at int) {
	t.Helper()
	lines := strings.Split(string(file[at:]), "\n")
	var first, n int
	if _, err := fmt.Sscanf(lines[1], "%d %d", &first, &n); lines[0] != "xref" || err != nil {
		t.Fatalf("no section at %d: %q", at, lines[:2])
	}
	for i := range n {
		line := lines[2+i]
		if len(line) != 19 {
			t.Fatalf("entry %q is not 20 bytes with its line feed", line)
		}
		if line[17] == 'f' {
			continue
		}
		off, _ := strconv.Atoi(line[:10])
		if want := fmt.Sprintf("%d 0 obj", first+i); !bytes.HasPrefix(file[off:], []byte(want)) {
			t.Errorf("entry %d leads to %q", first+i, file[off:off+12])
		}
	}
}

func TestAsksForFullSize(t *testing.T) {
	file := written(t, sample())
	last := file[bytes.LastIndex(file, []byte("/Type /Catalog")):]
	for _, want := range []string{"/PrintScaling /None", "/Outlines", "/Version /1.7", "/Lang (en)"} {
		if !bytes.Contains(last, []byte(want)) {
			t.Errorf("the last catalogue lacks %s", want)
		}
	}
	if bytes.Count(file, []byte("/MediaBox [0 0 595.28 841.89]")) != 1 {
		t.Error("the second page is not A4")
	}
}

// TestBookmarks: each leads to its page, and the second lies under the first.
func TestBookmarks(t *testing.T) {
	file := written(t, sample())
	marks := regexp.MustCompile(`(?s)/Title (\([^\n]*\)|<[^\n]*>)\n/Parent (\d+) 0 R.*?/Dest \[(\d+) 0 R`).FindAllSubmatch(file, -1)
	if len(marks) != 2 {
		t.Fatalf("%d bookmarks, want 2", len(marks))
	}
	if bytes.Equal(marks[0][2], marks[1][2]) || bytes.Equal(marks[0][3], marks[1][3]) {
		t.Errorf("both have the parent %s or lead to the page %s", marks[0][2], marks[0][3])
	}
	// The dash of the second's name, in UTF-16.
	if !bytes.Contains(marks[1][1], []byte{0x20, 0x13}) {
		t.Errorf("the second is called %q", marks[1][1])
	}
}

func TestUnscaledRefusesWhatIsNoDocument(t *testing.T) {
	for name, s := range map[string]string{
		"nothing":      "",
		"no end":       "%PDF-1.4\n1 0 obj\n<<>>\nendobj\n",
		"no root":      "trailer\n<< /Size 3 >>\nstartxref\n9\n%%EOF\n",
		"root missing": "trailer\n<< /Size 3 /Root 7 0 R /Info 2 0 R >>\nstartxref\n9\n%%EOF\n",
		"root endless": "\n7 0 obj\n<<>>\ntrailer\n<< /Size 3 /Root 7 0 R /Info 2 0 R >>\nstartxref\n9\n%%EOF\n",
		"root a name":  "\n7 0 obj\n/Nought\nendobj\ntrailer\n<< /Size 3 /Root 7 0 R /Info 2 0 R >>\nstartxref\n9\n%%EOF\n",
	} {
		if out, err := unscaled([]byte(s)); err == nil {
			t.Errorf("%s: made %q of it", name, out)
		}
	}
}

func TestRefusals(t *testing.T) {
	page := func(it drawing.Item) Doc {
		return Doc{Title: "x", Made: made, Pages: []Page{{List: drawing.List{W: 100, H: 100, Items: []drawing.Item{it}}}}}
	}
	for name, d := range map[string]Doc{
		"no pages":      {Title: "x"},
		"no image":      page(drawing.Image{W: 1, H: 1, PNG: []byte("GIF89a"), Alt: "a rose"}),
		"no such page":  page(drawing.Link{Page: 2}),
		"page nought":   page(drawing.Link{}),
		"negative page": page(drawing.Link{Page: -1}),
	} {
		var b bytes.Buffer
		if err := Write(&b, d); err == nil || b.Len() > 0 {
			t.Errorf("%s: error %v after %d bytes", name, err, b.Len())
		}
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWriterFails(t *testing.T) {
	if err := Write(fullDisk{}, sample()); !errors.Is(err, errFull) {
		t.Errorf("error %v", err)
	}
}

// TestImageOnce: one picture on many pages is in the file once.
func TestImageOnce(t *testing.T) {
	im := drawing.Image{W: 10, H: 10, PNG: tinyPNG()}
	d := Doc{Title: "x", Made: made}
	for range 3 {
		d.Pages = append(d.Pages, Page{List: drawing.List{W: 100, H: 100, Items: []drawing.Item{im, im}}})
	}
	if n := bytes.Count(written(t, d), []byte("/ColorSpace /DeviceRGB")); n != 1 {
		t.Errorf("the picture is in the file %d times", n)
	}
}

// tool finds a program; where all are wanted (BOWERWRIGHT_NEED_TOOLS=1) its
// absence fails, else it is said.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("BOWERWRIGHT_NEED_TOOLS") == "1" {
			t.Fatalf("%s is wanted and not here", name)
		}
		t.Skipf("%s is not here; set BOWERWRIGHT_NEED_TOOLS=1 to demand it", name)
	}
	return path
}

// run runs a program that has to stay silent on its error stream.
func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(tool(t, name), args...)
	var out, complaints bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaints
	if err := cmd.Run(); err != nil || complaints.Len() > 0 {
		t.Fatalf("%s: %v: %s", name, err, complaints.String())
	}
	return out.String()
}

func saved(t *testing.T, d Doc) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "doc.pdf")
	if err := os.WriteFile(path, written(t, d), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestTextComesOut as it is read: fractions in one piece, turned lines too.
func TestTextComesOut(t *testing.T) {
	out := run(t, "pdftotext", "-layout", saved(t, sample()), "-")
	for _, want := range []string{"L, large hexagon", "long point 10 3/8 in, against the fence", "27 11/16 in", "18:40", "after the clip", "second page", "100 mm", "4 in"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q does not come out of\n%s", want, out)
		}
	}
}

// TestFontAfterClip: a clip gives the page its older font back; text after it
// must not come out in that one.
func TestFontAfterClip(t *testing.T) {
	big, small := drawing.Label(pt(10, 30), 30, "big").Bold(), drawing.Label(pt(10, 60), 10, "small")
	clip := []drawing.Outline{drawing.Ring(pt(0, 0), pt(90, 0), pt(90, 90), pt(0, 90))}
	l := drawing.List{W: 100, H: 100, Items: []drawing.Item{
		big, drawing.Group{Clip: clip, Items: []drawing.Item{small}}, drawing.Label(pt(10, 80), 10, "after"),
	}}
	out := run(t, "pdftotext", "-bbox", saved(t, Doc{Title: "x", Made: made, Pages: []Page{{List: l}}}), "-")
	m := regexp.MustCompile(`yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">after<`).FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("no such word in %s", out)
	}
	lo, _ := strconv.ParseFloat(m[1], 64)
	hi, _ := strconv.ParseFloat(m[2], 64)
	if h := hi - lo; h < 9 || h > 14 {
		t.Errorf("a word of 10 pt is %g pt high", h)
	}
}

// TestBarsMeasureTrue prints the first page to pixels, 10 to the mm, and
// measures the 100 mm bar and the 4 in bar.
func TestBarsMeasureTrue(t *testing.T) {
	dir := t.TempDir()
	run(t, "pdftoppm", "-r", "254", "-f", "1", "-l", "1", "-png", "-singlefile", saved(t, sample()), filepath.Join(dir, "p"))
	f, err := os.Open(filepath.Join(dir, "p.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	im, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	for y, want := range map[int]int{2595: 1000, 2605: 1016} {
		if got := longestRun(im, y); got < want-3 || got > want+3 {
			t.Errorf("the bar at %d measures %d tenths of a mm, want %d", y, got, want)
		}
	}
}

// longestRun is the most dark pixels side by side in a row.
func longestRun(im image.Image, y int) int {
	best, n := 0, 0
	for x := range im.Bounds().Dx() {
		if r, _, _, _ := im.At(x, y).RGBA(); r < 0x8000 {
			n++
		} else {
			n = 0
		}
		best = max(best, n)
	}
	return best
}

func TestNoRuneBreaksTheFile(t *testing.T) {
	l := drawing.List{W: 100, H: 100, Items: []drawing.Item{drawing.Label(pt(10, 10), 10, "✓ ☐ 😀 (a\\b) é\n\x00"), drawing.Label(pt(10, 20), 10, "")}}
	out := run(t, "pdftotext", saved(t, Doc{Title: "(x\\)", Made: made, Pages: []Page{{List: l, Bookmark: "(é\\"}}}), "-")
	if !strings.Contains(out, `(a\b) é`) {
		t.Errorf("got %q", out)
	}
}
