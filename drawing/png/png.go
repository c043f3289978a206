// Package png makes PNG pictures of drawings, in pure Go, at a given number of
// pixels to the mm. Edges are smooth: a pixel is as dark as its share that is
// covered.
//
// Promise: the same list and Options give the same bytes on one architecture;
// elsewhere the last bit of a pixel may differ. What it does not do: links.
package png

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"math"

	"bowerwright/drawing"
	"bowerwright/drawing/internal/face"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/vector"
)

// Options say how large and in which colours. The zero Options give 8 pixels
// to the mm, which is 203 to the inch, on paper.
type Options struct {
	PxPerMM float64
	Palette *drawing.Palette // nil is drawing.Paper
	// Clear leaves the sheet transparent; else it is painted.
	Clear bool
}

// MostPixels is the most pixels a picture may have; it bounds the memory a
// drawing can ask for (4 bytes a pixel).
const MostPixels = 100_000_000

// Write makes a picture of a list. It fails when the picture would have no
// pixels or more than MostPixels, or when an image in it is no PNG.
func Write(w io.Writer, l drawing.List, o Options) error {
	im, err := Picture(l, o)
	if err != nil {
		return err
	}
	if err := png.Encode(w, im); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// Picture is Write's picture before it is encoded.
func Picture(l drawing.List, o Options) (*image.RGBA, error) {
	if o.PxPerMM == 0 {
		o.PxPerMM = 8
	}
	if o.Palette == nil {
		o.Palette = &drawing.Paper
	}
	w, h := math.Ceil(l.W*o.PxPerMM-1e-9), math.Ceil(l.H*o.PxPerMM-1e-9)
	if !(w >= 1 && h >= 1 && w*h <= MostPixels) {
		return nil, fmt.Errorf("png: %g by %g pixels", w, h)
	}
	s := &surface{o: o, im: image.NewRGBA(image.Rect(0, 0, int(w), int(h)))}
	if !o.Clear {
		draw.Draw(s.im, s.im.Bounds(), s.ink(drawing.Sheet), image.Point{}, draw.Src)
	}
	drawing.Play(l, s)
	return s.im, s.err
}

// A surface paints into one image. Paths are gathered in pixels.
type surface struct {
	o     Options
	im    *image.RGBA
	clips []*image.Alpha // the last is what is open, the ones before contain it
	err   error
}

func (s *surface) ink(t drawing.Tone) *image.Uniform {
	c := s.o.Palette.Of(t)
	return image.NewUniform(color.RGBA{c.R, c.G, c.B, 255}) // it has no edge, so its corner is anywhere
}

func (s *surface) px(p drawing.Point) drawing.Point { return p.Mul(s.o.PxPerMM) }

// Shape fills the outlines and then the outlines of their strokes.
func (s *surface) Shape(os []drawing.Outline, fill drawing.Tone, pen drawing.Pen) {
	var rings, strokes [][]drawing.Point
	for _, o := range os {
		pts := o.Flat(0.1 / s.o.PxPerMM)
		for i := range pts {
			pts[i] = s.px(pts[i])
		}
		rings = append(rings, pts)
		if pen.Draws() {
			strokes = append(strokes, stroke(pts, o.Closed, pen, s.o.PxPerMM)...)
		}
	}
	if fill != drawing.None {
		s.fill(rings, fill)
	}
	s.fill(strokes, pen.Tone)
}

// fill paints rings, by the nonzero rule, in a tone.
func (s *surface) fill(rings [][]drawing.Point, t drawing.Tone) {
	box := bounds(rings).Intersect(s.im.Bounds())
	if box.Empty() {
		return
	}
	s.paint(cover(rings, box), box, s.ink(t))
}

// paint lays a source through a mask over a box, inside the open clip. The
// corners of mask and source lie on the box's.
func (s *surface) paint(mask *image.Alpha, box image.Rectangle, src image.Image) {
	if n := len(s.clips); n > 0 {
		mask = both(mask, box, s.clips[n-1])
	}
	draw.DrawMask(s.im, box, src, src.Bounds().Min, mask, image.Point{}, draw.Over)
}

// cover is how far rings cover each pixel of a box.
func cover(rings [][]drawing.Point, box image.Rectangle) *image.Alpha {
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	x := func(p drawing.Point) (float32, float32) {
		return float32(p.X - float64(box.Min.X)), float32(p.Y - float64(box.Min.Y))
	}
	for _, ring := range rings {
		for i, p := range ring {
			px, py := x(p)
			if i == 0 {
				r.MoveTo(px, py)
			} else {
				r.LineTo(px, py)
			}
		}
		r.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	r.Draw(mask, mask.Bounds(), image.Opaque, image.Point{})
	return mask
}

// both is a mask over a box and what a clip of the whole picture leaves of it.
func both(mask *image.Alpha, box image.Rectangle, clip *image.Alpha) *image.Alpha {
	out := image.NewAlpha(mask.Bounds())
	for y := range box.Dy() {
		for x := range box.Dx() {
			a, b := uint32(mask.AlphaAt(x, y).A), uint32(clip.AlphaAt(x+box.Min.X, y+box.Min.Y).A)
			out.SetAlpha(x, y, color.Alpha{A: uint8((a*b + 127) / 255)})
		}
	}
	return out
}

// bounds is the whole pixels that rings touch.
func bounds(rings [][]drawing.Point) image.Rectangle {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, ring := range rings {
		for _, p := range ring {
			x0, y0, x1, y1 = math.Min(x0, p.X), math.Min(y0, p.Y), math.Max(x1, p.X), math.Max(y1, p.Y)
		}
	}
	const far = 1 << 20 // beyond any picture, within any int
	lim := func(v float64) int { return int(math.Max(-far, math.Min(far, v))) }
	if x0 > x1 {
		return image.Rectangle{}
	}
	return image.Rect(lim(math.Floor(x0)), lim(math.Floor(y0)), lim(math.Ceil(x1)), lim(math.Ceil(y1)))
}

// Words fills the outlines of the letters.
func (s *surface) Words(w drawing.Words) {
	for _, r := range w.Runs {
		rings, err := s.letters(w, r)
		if err != nil {
			s.err = err
			return
		}
		s.fill(rings, r.Tone)
	}
}

// letters is the contours of a run's glyphs, in pixels.
func (s *surface) letters(w drawing.Words, r drawing.Run) ([][]drawing.Point, error) {
	ft, err := face.Open(r.Font.String())
	if err != nil {
		return nil, err
	}
	size := r.Size * drawing.MMPerPt
	start, turn := w.Place(r), -w.Turn*math.Pi/180
	var rings [][]drawing.Point
	x := 0.0
	for _, c := range r.Font.Printable(r.S) {
		steps, err := ft.Outline(c)
		if err != nil {
			return nil, err
		}
		rings = append(rings, contours(steps, func(p [2]float64) drawing.Point {
			return s.px(start.Add(drawing.Pt(p[0]*size+x, p[1]*size).Rot(turn)))
		})...)
		a, _ := r.Font.Advance(c)
		x += float64(a) / face.UnitsPerEm * size
	}
	return rings, nil
}

// quadPieces is how many straight pieces a curve of a letter is drawn with; a
// letter has some ten curves, so at 75 pt and 8 px to the mm a piece misses by
// under a tenth of a pixel.
const quadPieces = 8

func contours(steps []face.Step, place func([2]float64) drawing.Point) [][]drawing.Point {
	var rings [][]drawing.Point
	for _, t := range steps {
		if t.Op == 'M' {
			rings = append(rings, []drawing.Point{place(t.P[0])})
			continue
		}
		ring := &rings[len(rings)-1]
		if t.Op == 'L' {
			*ring = append(*ring, place(t.P[0]))
			continue
		}
		a, b, c := (*ring)[len(*ring)-1], place(t.P[0]), place(t.P[1])
		for i := 1; i <= quadPieces; i++ {
			u := float64(i) / quadPieces
			*ring = append(*ring, a.Lerp(b, u).Lerp(b.Lerp(c, u), u))
		}
	}
	return rings
}

// Picture scales an image into its box.
func (s *surface) Picture(im drawing.Image) {
	src, err := png.Decode(bytes.NewReader(im.PNG))
	if err != nil {
		s.err = fmt.Errorf("png: image %q: %w", im.Alt, err)
		return
	}
	a, b := s.px(im.At), s.px(im.At.Add(drawing.Pt(im.W, im.H)))
	box := image.Rect(int(math.Round(a.X)), int(math.Round(a.Y)), int(math.Round(b.X)), int(math.Round(b.Y)))
	if box.Empty() || box.Dx()*box.Dy() > MostPixels {
		return
	}
	scaled := image.NewRGBA(image.Rect(0, 0, box.Dx(), box.Dy()))
	xdraw.CatmullRom.Scale(scaled, scaled.Bounds(), src, src.Bounds(), draw.Src, nil)
	seen := box.Intersect(s.im.Bounds())
	if seen.Empty() {
		return
	}
	mask := image.NewAlpha(image.Rect(0, 0, seen.Dx(), seen.Dy()))
	draw.Draw(mask, mask.Bounds(), image.Opaque, image.Point{}, draw.Src)
	s.paint(mask, seen, scaled.SubImage(seen.Sub(box.Min)))
}

// Clip makes a mask of the whole picture, inside the one that is open.
func (s *surface) Clip(os []drawing.Outline) {
	var rings [][]drawing.Point
	for _, o := range os {
		pts := o.Flat(0.1 / s.o.PxPerMM)
		for i := range pts {
			pts[i] = s.px(pts[i])
		}
		rings = append(rings, pts)
	}
	mask := cover(rings, s.im.Bounds())
	if n := len(s.clips); n > 0 {
		mask = both(mask, s.im.Bounds(), s.clips[n-1])
	}
	s.clips = append(s.clips, mask)
}

// Unclip forgets the last clip.
func (s *surface) Unclip() { s.clips = s.clips[:len(s.clips)-1] }

// Link does nothing: a picture of pixels leads nowhere.
func (s *surface) Link(drawing.Link) {}
