package packet

import (
	"fmt"
	"math"

	"bowerwright/drawing"
	"bowerwright/drawing/svg"
)

// cropAir is the white left round a picture on a screen, mm.
const cropAir = 1.5

// list is the picture's display list, cut to what is drawn: white that keeps
// blocks apart on paper would only be scrolled through on a phone.
func (p pictureTwin) list() drawing.List {
	var s sheet
	p.draw(&s)
	l := drawing.List{W: p.w, H: p.h, Items: s.items}
	e := &extentEar{box: extent(nil)}
	drawing.Play(l, e)
	b := e.box.grown(cropAir)
	b = box{max(b.x0, 0), max(b.y0, 0), min(b.x1, p.w), min(b.y1, p.h)}
	if b.x1 <= b.x0 || b.y1 <= b.y0 {
		return l
	}
	return drawing.List{W: b.x1 - b.x0, H: b.y1 - b.y0,
		Items: []drawing.Item{drawing.Group{Move: drawing.Shift(-b.x0, -b.y0), Items: s.items}}}
}

// An extentEar hears how far a drawing reaches.
type extentEar struct{ box }

func (e *extentEar) at(p drawing.Point) {
	e.box = box{min(e.x0, p.X), min(e.y0, p.Y), max(e.x1, p.X), max(e.y1, p.Y)}
}

// Shape counts what leaves a mark; white that covers something lies over it.
func (e *extentEar) Shape(os []drawing.Outline, fill drawing.Tone, pen drawing.Pen) {
	if fill == drawing.Sheet && !pen.Draws() {
		return
	}
	for _, o := range os {
		for _, p := range o.Flat(drawing.FlatMM) {
			e.at(p)
		}
	}
}

// Words reach from tails to capitals.
func (e *extentEar) Words(w drawing.Words) {
	if w.Plain == "" {
		return
	}
	high, low := 0.0, 0.0
	for _, r := range w.Runs {
		high, low = max(high, r.Rise+r.Size*drawing.MMPerPt), max(low, r.Size*drawing.MMPerPt*tailShare)
	}
	a := w.Turn * math.Pi / 180
	for _, q := range []drawing.Point{drawing.Pt(0, low), drawing.Pt(w.Width, low), drawing.Pt(w.Width, -high), drawing.Pt(0, -high)} {
		e.at(w.At.Add(q.Rot(-a)))
	}
}

// tailShare is how far letters reach below the line, in parts of their size
// (measured in the Go fonts, rounded up).
const tailShare = 0.25

func (e *extentEar) Picture(im drawing.Image) {
	e.at(im.At)
	e.at(im.At.Add(drawing.Pt(im.W, im.H)))
}
func (*extentEar) Clip([]drawing.Outline) {}
func (*extentEar) Unclip()                {}
func (*extentEar) Link(drawing.Link)      {}

// stripShare is how high, in parts of its width, a picture is that is looked at
// from end to end, such as a board: it scrolls, as fitted it would be a line.
const stripShare = 0.2

// write shows the picture in a box of its own, as large as its letters want.
func (p pictureTwin) write(w *webWriter) {
	w.pictures++
	name := w.under
	if name == "" {
		name = "Picture"
	}
	l := p.list()
	l.Title, l.Desc = name+", drawn", p.alt
	class := "pic"
	switch {
	case l.W < scrollFrom:
		w.put("<div class=\"pic\">\n")
	case l.H < l.W*stripShare:
		class = "pic strip scroll"
	default: // fitted to the screen, and larger when asked for
		w.put(`<label class="zoom"><input type="checkbox" autocomplete="off"> larger<span class="hid">: %s, picture %d</span></label>`+"\n", plainHTML(name), w.pictures)
		class = "pic fits scroll"
	}
	if class != "pic" {
		w.scroll(class, fmt.Sprintf("%s, picture %d", name, w.pictures))
	}
	w.put(`<div style="--w:%.1f">`+"\n", l.W)
	o := svg.Options{Palette: &drawing.Light, Variables: true, LiveType: true, ID: fmt.Sprintf("g%d", w.pictures)}
	if err := svg.Write(&w.b, l, o); err != nil && w.err == nil {
		w.err = fmt.Errorf("packet: a picture for the screen: %w", err)
	}
	w.put("</div>\n</div>\n")
}
