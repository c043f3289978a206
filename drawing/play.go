package drawing

import "math"

// A Surface is what a maker of files has to be able to do; Play does the rest.
// All places are on the page, in mm.
type Surface interface {
	// Shape fills outlines (None leaves them empty; nonzero rule) and then
	// strokes them, when the pen draws, with mitred corners (limit 4).
	Shape(os []Outline, fill Tone, pen Pen)
	// Words sets one line of text.
	Words(w Words)
	// Picture shows a PNG in its box.
	Picture(im Image)
	// Clip keeps what follows inside outlines until the Unclip that belongs
	// to it; clips nest.
	Clip(os []Outline)
	Unclip()
	// Link makes a box lead somewhere, where the format can.
	Link(l Link)
}

// Words is a line of text laid out: its runs start at At, on the baseline, and
// turn about it by Turn degrees anticlockwise. Plain is what it says.
type Words struct {
	At    Point
	Turn  float64
	Runs  []Run
	Width float64
	Plain string
	Built bool // it holds a built fraction, so the runs read otherwise than Plain
}

// Play draws a list on a surface.
func Play(l List, s Surface) { play(l.Items, Affine{}, s) }

func play(items []Item, a Affine, s Surface) {
	for _, it := range items {
		switch v := it.(type) {
		case Shape:
			playShape(v, a, s)
		case Text:
			v.At = a.Apply(v.At)
			s.Words(v.words())
		case Dimension:
			play(v.moved(a).items(), Affine{}, s)
		case Image:
			v.At = a.Apply(v.At)
			s.Picture(v)
		case Link:
			v.At = a.Apply(v.At)
			s.Link(v)
		case Group:
			playGroup(v, a, s)
		}
	}
}

func playGroup(g Group, a Affine, s Surface) {
	a = a.after(g.Move)
	if len(g.Clip) > 0 {
		s.Clip(a.outlines(g.Clip))
		defer s.Unclip()
	}
	play(g.Items, a, s)
}

// playShape fills, hatches and strokes, in that order, so that the outline lies
// over the ends of its hatching.
func playShape(v Shape, a Affine, s Surface) {
	os := a.outlines(v.Outlines)
	if v.Fill.Hatch == NoHatch {
		s.Shape(os, v.Fill.Tone, v.Pen)
		return
	}
	if v.Fill.Tone != None {
		s.Shape(os, v.Fill.Tone, Pen{})
	}
	for _, h := range hatchItems(v.Fill.Hatch, os) {
		s.Shape(h.Outlines, h.Fill.Tone, h.Pen)
	}
	if v.Pen.Draws() {
		s.Shape(os, None, v.Pen)
	}
}

// words lays a text out from where its line starts.
func (t Text) words() Words {
	runs, w := t.runs()
	back := 0.0
	switch t.Align {
	case Centre:
		back = w / 2
	case Right:
		back = w
	}
	built := false
	for _, r := range runs {
		built = built || r.Rise != 0
	}
	return Words{At: t.At.Sub(heading(t.Turn).Mul(back)), Turn: t.Turn, Runs: runs, Width: w, Plain: t.String(), Built: built}
}

// heading is the direction a line of text runs in when turned by deg.
func heading(deg float64) Point { return Pt(1, 0).Rot(-deg * degree) }

// degree is one degree in radians.
const degree = math.Pi / 180

// Place is where a run starts on the page.
func (w Words) Place(r Run) Point {
	return w.At.Add(Pt(r.X, -r.Rise).Rot(-w.Turn * degree))
}
