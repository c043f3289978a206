package png_test

import (
	"bytes"
	"fmt"
	"image"
	gopng "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/drawing/png"
	"bowerwright/drawing/svg"
)

func pt(x, y float64) drawing.Point { return drawing.Pt(x, y) }

// agreePx is the scale the makers are compared at, in pixels to the mm.
const agreePx = 4

// specimen holds every kind of item: the page of marks, and a clipped, turned
// and scaled corner.
func specimen() drawing.List {
	l := drawing.List{W: 200, H: 250, Title: "Specimen", Items: []drawing.Item{
		drawing.Rect(drawing.Pen{}, drawing.White, 0, 0, 200, 250),
		drawing.Group{Move: drawing.Shift(5, 5), Items: drawing.Legend()},
		drawing.Group{Clip: []drawing.Outline{drawing.EllipseAt(pt(170, 210), 20, 14)}, Items: []drawing.Item{
			drawing.Rect(drawing.PenCut, drawing.Hatched(drawing.Waste), 150, 200, 40, 30),
			drawing.Label(pt(150, 215), drawing.Bench, "clip").Bold(),
		}},
		drawing.Group{Move: drawing.View(0.05, pt(150, 180)), Items: []drawing.Item{
			drawing.Polygon(drawing.PenOutline, drawing.Solid(drawing.Boxwood), pt(0, 0), pt(400, 0), pt(350, 70), pt(50, 70)),
			drawing.Upright(pt(400, 0), pt(400, 70), 560, "2 3/4 in"),
			drawing.Along(pt(0, 0), pt(50, 70), -100, "3 1/2 in"),
		}},
	}}
	return l
}

// TestMakersAgree renders one list as PDF, SVG and PNG and compares the
// pictures by blocks of 2 mm: programs smooth edges each in their own way, but
// none may have ink where another has none.
func TestMakersAgree(t *testing.T) {
	l := specimen()
	own, err := png.Picture(l, png.Options{PxPerMM: agreePx})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	t.Run("pdf", func(t *testing.T) { compare(t, own, renderPDF(t, dir, l)) })
	t.Run("svg", func(t *testing.T) { compare(t, own, renderSVG(t, dir, l)) })
}

func renderPDF(t *testing.T, dir string, l drawing.List) image.Image {
	var b bytes.Buffer
	doc := pdf.Doc{Title: "Specimen", Made: time.Unix(0, 0), Pages: []pdf.Page{{List: l}}}
	if err := pdf.Write(&b, doc); err != nil {
		t.Fatal(err)
	}
	file, out := filepath.Join(dir, "l.pdf"), filepath.Join(dir, "p")
	keep(t, file, b.Bytes())
	run(t, "pdftoppm", "-r", fmt.Sprint(agreePx*25.4), "-png", "-singlefile", file, out)
	return load(t, out+".png")
}

func renderSVG(t *testing.T, dir string, l drawing.List) image.Image {
	var b bytes.Buffer
	if err := svg.Write(&b, l, svg.Options{}); err != nil {
		t.Fatal(err)
	}
	w, h := int(l.W*agreePx), int(l.H*agreePx)
	page := fmt.Sprintf(`<body style="margin:0;background:#fff"><img src="l.svg" style="display:block;width:%dpx;height:%dpx">`, w, h)
	keep(t, filepath.Join(dir, "l.svg"), b.Bytes())
	keep(t, filepath.Join(dir, "l.html"), []byte(page))
	out := filepath.Join(dir, "s.png")
	run(t, "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--force-device-scale-factor=1",
		"--user-data-dir="+filepath.Join(dir, "profile"), fmt.Sprintf("--window-size=%d,%d", w, h), "--screenshot="+out, "file://"+filepath.Join(dir, "l.html"))
	return load(t, out)
}

// run runs a program. Where all are wanted (BOWERWRIGHT_NEED_TOOLS=1) a missing
// one fails the test, else the test says that it was skipped.
func run(t *testing.T, name string, args ...string) {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil && os.Getenv("BOWERWRIGHT_NEED_TOOLS") == "1" {
		t.Fatalf("%s is wanted and not here", name)
	}
	if err != nil {
		t.Skipf("%s is not here; set BOWERWRIGHT_NEED_TOOLS=1 to demand it", name)
	}
	if out, err := exec.Command(path, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
}

func keep(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

func load(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	im, err := gopng.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return im
}

// The makers' pictures may differ by so much grey, of 1, in the mean over all
// blocks and in any one. Text is the worst: a renderer may hint it by a part of
// a pixel, which is a tenth of the ink of a small letter in its block.
const (
	meanGrey  = 0.010
	worstGrey = 0.12
)

func compare(t *testing.T, a, b image.Image) {
	t.Helper()
	mean, worst, where := differ(t, a, b)
	t.Logf("mean %.5f, worst %.4f at %v mm", mean, worst, where)
	if mean > meanGrey || worst > worstGrey {
		t.Errorf("the pictures differ by %.4f in the mean, by %.3f at %v mm", mean, worst, where)
	}
}

// TestAgreeTells: the comparison sees a heading left out, and a shift of 0.5 mm.
func TestAgreeTells(t *testing.T) {
	picture := func(l drawing.List) image.Image {
		im, err := png.Picture(l, png.Options{PxPerMM: agreePx})
		if err != nil {
			t.Fatal(err)
		}
		return im
	}
	whole, short, moved := specimen(), specimen(), specimen()
	g := short.Items[1].(drawing.Group)
	g.Items = g.Items[2:] // without the first heading
	short.Items[1] = g
	moved.Items = []drawing.Item{moved.Items[0], drawing.Group{Move: drawing.Shift(0.5, 0), Items: moved.Items[1:]}}
	for name, l := range map[string]drawing.List{"left out": short, "moved": moved} {
		if mean, worst, _ := differ(t, picture(whole), picture(l)); mean <= meanGrey && worst <= worstGrey {
			t.Errorf("%s: the pictures pass as one, mean %g, worst %g", name, mean, worst)
		}
	}
}

// differ compares two pictures by the grey of blocks of 2 mm.
func differ(t *testing.T, a, b image.Image) (mean, worst float64, where image.Point) {
	t.Helper()
	const block = 2 * agreePx
	if d := a.Bounds().Size().Sub(b.Bounds().Size()); d.X < -1 || d.X > 1 || d.Y < -1 || d.Y > 1 {
		t.Fatalf("sizes %v and %v", a.Bounds().Size(), b.Bounds().Size())
	}
	n := 0
	for y := 0; y+block <= a.Bounds().Dy(); y += block {
		for x := 0; x+block <= a.Bounds().Dx(); x += block {
			d := math.Abs(grey(a, x, y, block) - grey(b, x, y, block))
			if d > worst {
				worst, where = d, image.Pt(x/agreePx, y/agreePx)
			}
			mean += d
			n++
		}
	}
	return mean / float64(n), worst, where
}

func grey(im image.Image, x0, y0, block int) float64 {
	sum := 0.0
	for y := y0; y < y0+block; y++ {
		for x := x0; x < x0+block; x++ {
			r, g, b, _ := im.At(x, y).RGBA()
			sum += float64(r+g+b) / (3 * 65535)
		}
	}
	return sum / float64(block*block)
}
