// Package drawing is a display list: what is to be seen on a page, in mm, and
// nothing of how it gets there.
//
// A List is a sheet of a given size with Items on it: Shape (lines, polygons
// with holes, curves), Text, Dimension, Image, Link and Group. Makers hear it
// through Play, which turns a list into the few calls of a Surface: hatchings
// are already lines, dimensions already strokes and figures, fractions already
// built, groups already placed. So PDF, SVG and PNG show the same, and each
// maker is short.
//
// Units: mm on the page, x to the right, y down, from the top left corner.
// Weights of pens and sizes of type are in pt of the paper and stay so within a
// scaled Group. Angles are degrees, anticlockwise as seen.
//
// Promise: the same list gives the same calls in the same order. Widths of text
// are those of the Go fonts, from a table a test compares with the fonts.
//
// What it does not know: timber, jobs, units of length (a dimension's figure is
// given as text), and whether a page reads well; Check, Outside and Crowded tell
// of runes the fonts lack, words off the page and words over words.
package drawing

// A List is a sheet of W by H mm and what is drawn on it, in order: later items
// lie over earlier ones. Title and Desc say in words what it shows.
type List struct {
	W, H        float64
	Title, Desc string
	Items       []Item
}

// Add puts items on the sheet.
func (l *List) Add(items ...Item) { l.Items = append(l.Items, items...) }

// An Item is one thing on the sheet.
type Item interface{ item() }

func (Shape) item()     {}
func (Text) item()      {}
func (Dimension) item() {}
func (Image) item()     {}
func (Link) item()      {}
func (Group) item()     {}

// A Fill is a tone, a hatching over it, or both. The zero Fill is empty: what
// lies below shows.
type Fill struct {
	Tone  Tone
	Hatch Hatch
}

// The commonest fills.
var (
	White = Fill{Tone: Sheet}
	Black = Fill{Tone: Ink}
)

// Solid is a plain fill; Hatched is a hatching over white.
func Solid(t Tone) Fill { return Fill{Tone: t} }

// Hatched is a hatching over white.
func Hatched(h Hatch) Fill { return Fill{Tone: Sheet, Hatch: h} }

// A Shape is filled and then stroked. Where outlines overlap, the fill follows
// the nonzero rule: a hole runs the other way round than what it is in, which
// Holed sees to. Open outlines are filled as if closed.
type Shape struct {
	Outlines []Outline
	Fill     Fill
	Pen      Pen
}

// Stroke is a line through points.
func Stroke(pen Pen, pts ...Point) Shape { return Shape{Outlines: []Outline{Lines(pts...)}, Pen: pen} }

// Polygon is a closed shape by its corners.
func Polygon(pen Pen, fill Fill, pts ...Point) Shape { return Path(pen, fill, Ring(pts...)) }

// Path is a shape of any outlines.
func Path(pen Pen, fill Fill, os ...Outline) Shape { return Shape{Outlines: os, Fill: fill, Pen: pen} }

// Holed is a shape with holes, whichever way round they are given.
func Holed(pen Pen, fill Fill, outer Outline, holes ...Outline) Shape {
	os := []Outline{outer}
	for _, h := range holes {
		if (h.area() > 0) == (outer.area() > 0) {
			h = h.Reversed()
		}
		os = append(os, h)
	}
	return Path(pen, fill, os...)
}

// Rect is an upright rectangle by its top left corner and its size.
func Rect(pen Pen, fill Fill, x, y, w, h float64) Shape {
	return Polygon(pen, fill, Pt(x, y), Pt(x+w, y), Pt(x+w, y+h), Pt(x, y+h))
}

// Circle is a circle about a centre.
func Circle(pen Pen, fill Fill, c Point, r float64) Shape { return Path(pen, fill, EllipseAt(c, r, r)) }

// Arc is part of a circle, in degrees anticlockwise from the right.
func Arc(pen Pen, c Point, r, from, to float64) Shape {
	return Path(pen, Fill{}, ArcAt(c, r, from, to))
}

// An Image is a picture as PNG bytes, in a box on the page. Alt says in words
// what it shows. In a Group its corner is moved, its size is kept.
type Image struct {
	At   Point // top left
	W, H float64
	PNG  []byte
	Alt  string
}

// A Link is a box that leads to a page of the same document (1 is the first)
// or, when URL is given, out of it.
type Link struct {
	At   Point // top left
	W, H float64
	Page int
	URL  string
}

// A Group draws its items moved by Move and, when Clip is not empty, only
// inside it (Clip is in the group's own coordinates). Points move; weights of
// pens, sizes and turns of text, and sizes of images do not.
type Group struct {
	Move  Affine
	Clip  []Outline
	Items []Item
}
