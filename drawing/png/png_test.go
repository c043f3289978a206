package png

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

var pt = drawing.Pt

// black is a palette in which a grey value is a share covered.
var black = drawing.Palette{drawing.Ink: {}, drawing.Sheet: {R: 255, G: 255, B: 255}, drawing.Chalk: {R: 0, G: 0, B: 255}}

func picture(t interface{ Fatal(...any) }, k float64, items ...drawing.Item) *image.RGBA {
	im, err := Picture(drawing.List{W: 20, H: 10, Items: items}, Options{PxPerMM: k, Palette: &black})
	if err != nil {
		t.Fatal(err)
	}
	return im
}

// covered is how dark a pixel is, from 0 to 1.
func covered(im *image.RGBA, x, y int) float64 { return 1 - float64(im.RGBAAt(x, y).R)/255 }

// inked is how much a picture is covered in all, in mm².
func inked(im *image.RGBA, k float64) float64 {
	sum := 0.0
	for y := range im.Bounds().Dy() {
		for x := range im.Bounds().Dx() {
			sum += covered(im, x, y)
		}
	}
	return sum / (k * k)
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// TestRectangle: a rectangle that ends in the middle of pixels covers them by
// half, at its corners by a quarter.
func TestRectangle(t *testing.T) {
	im := picture(t, 2, drawing.Rect(drawing.Pen{}, drawing.Black, 2.25, 3, 5, 4.25))
	if b := im.Bounds(); b.Dx() != 40 || b.Dy() != 20 {
		t.Fatalf("the picture is %v", b)
	}
	for _, c := range []struct {
		x, y int
		want float64
	}{{3, 10, 0}, {4, 10, 0.5}, {5, 10, 1}, {13, 10, 1}, {14, 10, 0.5}, {15, 10, 0}, {8, 5, 0}, {8, 6, 1}, {8, 13, 1}, {8, 14, 0.5}, {8, 15, 0}, {4, 14, 0.25}, {14, 14, 0.25}} {
		if got := covered(im, c.x, c.y); !near(got, c.want, 0.01) {
			t.Errorf("pixel %d,%d is covered %g, want %g", c.x, c.y, got, c.want)
		}
	}
}

func TestHole(t *testing.T) {
	im := picture(t, 4, drawing.Holed(drawing.Pen{}, drawing.Black, drawing.Ring(pt(1, 1), pt(9, 1), pt(9, 9), pt(1, 9)), drawing.Ring(pt(3, 3), pt(7, 3), pt(7, 7), pt(3, 7))))
	if covered(im, 20, 20) != 0 || covered(im, 8, 20) != 1 {
		t.Error("the hole is filled, or what is round it is not")
	}
	if got := inked(im, 4); !near(got, 48, 0.1) {
		t.Errorf("%g mm² are covered, want 48", got)
	}
}

// TestStrokeAreas in closed form: length times weight, with butt or round ends,
// mitred corners, and a dash's share.
func TestStrokeAreas(t *testing.T) {
	const k, w = 20.0, 1.0 // a line 1 mm wide
	pen := drawing.Pen{Weight: w / drawing.MMPerPt, Tone: drawing.Ink}
	round, dashed := pen, pen
	round.Round = true
	dashed.Dash = [4]float64{1 / drawing.MMPerPt, 0.5 / drawing.MMPerPt}
	square := drawing.Ring(pt(3, 2), pt(9, 2), pt(9, 8), pt(3, 8))
	for _, c := range []struct {
		name string
		it   drawing.Item
		want float64
	}{
		{"level", drawing.Stroke(pen, pt(2, 5), pt(12, 5)), 10},
		{"slanted", drawing.Stroke(pen, pt(2, 2), pt(8, 8)), math.Hypot(6, 6)},
		{"round ends", drawing.Stroke(round, pt(2, 5), pt(12, 5)), 10 + math.Pi/4},
		{"corner", drawing.Stroke(pen, pt(2, 2), pt(10, 2), pt(10, 8)), 14},
		{"square", drawing.Path(pen, drawing.Fill{}, square), 24},
		{"square the other way", drawing.Path(pen, drawing.Fill{}, square.Reversed()), 24},
		{"circle", drawing.Circle(pen, drawing.Fill{}, pt(9, 5), 3), 6 * math.Pi},
		{"dashed", drawing.Stroke(dashed, pt(2, 5), pt(14, 5)), 8},
		{"dashed corner", drawing.Stroke(dashed, pt(2, 2), pt(11, 2), pt(11, 8)), 10},
		{"there and back", drawing.Stroke(pen, pt(2, 5), pt(12, 5), pt(2, 5)), 10},
		{"a point", drawing.Stroke(pen, pt(5, 5), pt(5, 5)), 0},
	} {
		if got := inked(picture(t, k, c.it), k); !near(got, c.want, 0.005*c.want+1e-9) {
			t.Errorf("%s covers %g mm², want %g", c.name, got, c.want)
		}
	}
}

// TestMitreLimit: a corner of 30 degrees keeps its tip (3.9 weights long), one
// of 25 is cut off (it would be 4.6).
func TestMitreLimit(t *testing.T) {
	pen := drawing.Pen{Weight: 1 / drawing.MMPerPt, Tone: drawing.Ink}
	for deg, sharp := range map[float64]bool{60: true, 30: true, 25: false, 5: false} {
		a := deg * math.Pi / 180
		tip := pt(12, 5)
		im := picture(t, 20, drawing.Stroke(pen, tip.Sub(pt(8, 0)), tip, tip.Sub(pt(8*math.Cos(a), 8*math.Sin(a)))))
		far := 0.0
		for y := range im.Bounds().Dy() {
			for x := range im.Bounds().Dx() {
				if covered(im, x, y) > 0.5 {
					far = math.Max(far, pt((float64(x)+0.5)/20, (float64(y)+0.5)/20).Sub(tip).Dot(pt(math.Cos(a/2), math.Sin(a/2))))
				}
			}
		}
		if reach := 0.5 / math.Sin(a/2); sharp != (far > reach-0.15) {
			t.Errorf("a corner of %g degrees reaches %g mm past its point; a mitre would reach %g", deg, far, reach)
		}
	}
}

// TestDashesAddUp: whatever the line and the dash, drawn and left out pieces
// are as long together as the line, and none is longer than its dash.
func TestDashesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var line []drawing.Point
		for range rapid.IntRange(2, 6).Draw(t, "points") {
			line = append(line, pt(rapid.Float64Range(0, 50).Draw(t, "x"), rapid.Float64Range(0, 50).Draw(t, "y")))
		}
		on, off := rapid.Float64Range(0.5, 9).Draw(t, "on"), rapid.Float64Range(0.5, 9).Draw(t, "off")
		drawn, whole := 0.0, length(line)
		for _, p := range dashes(line, []float64{on, off}) {
			l := length(p)
			if l > on+1e-9 {
				t.Fatalf("a dash of %g is %g long", on, l)
			}
			drawn += l
		}
		n := math.Floor(whole / (on + off))
		want := n*on + math.Min(on, whole-n*(on+off))
		if !near(drawn, want, 1e-6) {
			t.Fatalf("%g of %g is drawn, want %g", drawn, whole, want)
		}
	})
}

func length(pts []drawing.Point) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		sum += pts[i].Dist(pts[i-1])
	}
	return sum
}

func TestDashOfNothing(t *testing.T) {
	line := []drawing.Point{pt(0, 0), pt(5, 0)}
	if got := dashes(line, []float64{0, 0}); len(got) != 1 || length(got[0]) != 5 {
		t.Errorf("a dash of nothing draws %v", got)
	}
	if got := dashes(line, []float64{1}); len(got) != 3 {
		t.Errorf("an odd dash draws %v, want 1 on, 1 off, in turn", got)
	}
}

// TestClip: clips nest, and end.
func TestClip(t *testing.T) {
	all := drawing.Rect(drawing.Pen{}, drawing.Black, 0, 0, 20, 10)
	box := func(x, y, w, h float64) []drawing.Outline {
		return []drawing.Outline{drawing.Ring(pt(x, y), pt(x+w, y), pt(x+w, y+h), pt(x, y+h))}
	}
	inner := drawing.Group{Clip: box(5, 5, 10, 10), Items: []drawing.Item{all}}
	im := picture(t, 4, drawing.Group{Clip: box(2, 2, 6, 6), Items: []drawing.Item{inner}})
	if got := inked(im, 4); !near(got, 9, 0.05) {
		t.Errorf("nested clips leave %g mm², want 9", got)
	}
	im = picture(t, 4, drawing.Group{Clip: box(2, 2, 6, 6)}, all)
	if got := inked(im, 4); !near(got, 200, 0.05) {
		t.Errorf("after a clip %g mm² are painted, want 200", got)
	}
	if im := picture(t, 4, drawing.Group{Clip: []drawing.Outline{drawing.EllipseAt(pt(10, 5), 3, 3)}, Items: []drawing.Item{all}}); !near(inked(im, 4), 9*math.Pi, 0.3) {
		t.Errorf("a round clip leaves %g mm²", inked(im, 4))
	}
}

// TestTextStands where its metrics say: cap height over the baseline, between
// the start and the start plus its width, and turned about its place.
func TestTextStands(t *testing.T) {
	const k = 20
	l := drawing.Label(pt(2, 6), 10, "HEH")
	w, cap := l.Width(), l.Size*drawing.CapHeight*drawing.MMPerPt
	lo, hi := box(picture(t, k, l), k)
	if lo.X < 2 || hi.X > 2+w || !near(hi.Y, 6, 0.06) || !near(lo.Y, 6-cap, 0.1) {
		t.Errorf("the letters stand from %v to %v; from 2 to %g and %g to 6 was wanted", lo, hi, 2+w, 6-cap)
	}
	up := drawing.Label(pt(12, 9.5), 10, "HEH").Turned(90)
	ulo, uhi := box(picture(t, k, up), k)
	if !near(uhi.X, 12, 0.06) || !near(ulo.X, 12-(hi.Y-lo.Y), 0.06) || !near(uhi.Y-ulo.Y, hi.X-lo.X, 0.06) || uhi.Y > 9.5 {
		t.Errorf("turned, they stand from %v to %v", ulo, uhi)
	}
}

// box is round the pixels more than half covered, in mm.
func box(im *image.RGBA, k float64) (lo, hi drawing.Point) {
	lo, hi = pt(1e9, 1e9), pt(-1, -1)
	for y := range im.Bounds().Dy() {
		for x := range im.Bounds().Dx() {
			if covered(im, x, y) > 0.5 {
				lo, hi = pt(min(lo.X, float64(x)/k), min(lo.Y, float64(y)/k)), pt(max(hi.X, float64(x+1)/k), max(hi.Y, float64(y+1)/k))
			}
		}
	}
	return lo, hi
}

// TestLettersHaveHoles: an O is open in the middle.
func TestLettersHaveHoles(t *testing.T) {
	l := drawing.Label(pt(2, 8), 20, "O")
	im := picture(t, 10, l)
	cap := l.Size * drawing.CapHeight * drawing.MMPerPt
	x, y := int((2+l.Width()/2)*10), int((8-cap/2)*10)
	if covered(im, x, y) != 0 {
		t.Error("the O is filled")
	}
}

func TestImage(t *testing.T) {
	src := image.NewNRGBA(image.Rect(0, 0, 2, 1))
	src.Set(0, 0, color.NRGBA{0, 0, 0, 255})
	src.Set(1, 0, color.NRGBA{0, 0, 255, 255})
	var b bytes.Buffer
	if err := png.Encode(&b, src); err != nil {
		t.Fatal(err)
	}
	im := picture(t, 4, drawing.Image{At: pt(-1, 2), W: 6, H: 4, PNG: b.Bytes()})
	if c := im.RGBAAt(1, 16); c.R > 30 || c.B > 30 {
		t.Errorf("the left half is %v", c)
	}
	if c := im.RGBAAt(17, 16); c.B < 200 || c.R > 30 {
		t.Errorf("the right half is %v", c)
	}
	if covered(im, 22, 16) != 0 || covered(im, 8, 6) != 0 || covered(im, 8, 26) != 0 {
		t.Error("the image leaves its box")
	}
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		l drawing.List
		o Options
	}{
		"nothing":   {drawing.List{}, Options{}},
		"too large": {drawing.List{W: 1e4, H: 1e4}, Options{PxPerMM: 10}},
		"endless":   {drawing.List{W: math.Inf(1), H: 1}, Options{}},
		"no number": {drawing.List{W: math.NaN(), H: 1}, Options{}},
		"negative":  {drawing.List{W: 10, H: 10}, Options{PxPerMM: -3}},
		"no image":  {drawing.List{W: 10, H: 10, Items: []drawing.Item{drawing.Image{W: 1, H: 1, PNG: []byte("x")}}}, Options{}},
	} {
		var b bytes.Buffer
		if err := Write(&b, c.l, c.o); err == nil || b.Len() > 0 {
			t.Errorf("%s: error %v after %d bytes", name, err, b.Len())
		}
	}
}

// TestFarAway: shapes off the sheet, however far, paint nothing and do no harm.
func TestFarAway(t *testing.T) {
	im := picture(t, 4,
		drawing.Circle(drawing.PenSeam, drawing.Black, pt(1e12, 5), 3),
		drawing.Circle(drawing.PenSeam, drawing.Black, pt(-40, -40), 3),
		drawing.Label(pt(300, 5), 20, "far"))
	if got := inked(im, 4); got != 0 {
		t.Errorf("%g mm² are covered", got)
	}
}

func TestClearAndPaper(t *testing.T) {
	l := drawing.List{W: 2, H: 2}
	clear, err := Picture(l, Options{Clear: true})
	if err != nil {
		t.Fatal(err)
	}
	paper, err := Picture(l, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if clear.RGBAAt(1, 1).A != 0 || paper.RGBAAt(1, 1) != (color.RGBA{255, 255, 255, 255}) {
		t.Errorf("clear %v, paper %v", clear.RGBAAt(1, 1), paper.RGBAAt(1, 1))
	}
	if b := paper.Bounds(); b.Dx() != 16 {
		t.Errorf("2 mm are %d pixels unless told, want 16", b.Dx())
	}
}

func TestSameBytes(t *testing.T) {
	l := drawing.List{W: drawing.FieldW, H: drawing.LegendH, Items: drawing.Legend()}
	var a, b bytes.Buffer
	if err := errors.Join(Write(&a, l, Options{PxPerMM: 3}), Write(&b, l, Options{PxPerMM: 3})); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("one list, two files")
	}
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestWriterFails(t *testing.T) {
	if err := Write(fullDisk{}, drawing.List{W: 1, H: 1}, Options{}); !errors.Is(err, errFull) {
		t.Errorf("error %v", err)
	}
}

func BenchmarkLegend(b *testing.B) {
	l := drawing.List{W: drawing.FieldW, H: drawing.LegendH, Items: drawing.Legend()}
	for b.Loop() {
		if _, err := Picture(l, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
