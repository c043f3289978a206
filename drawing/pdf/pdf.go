// Package pdf makes PDF documents of drawings: sheets at full size, to the
// hundredth of a point, with the Go fonts inside and text that can be searched
// and copied ("10 3/8 in", though its fraction is built).
//
// Promise: the same Doc gives the same bytes; the time in it is the caller's.
// Every document asks the viewer to print without scaling, so that 1:1 pages
// measure true. Its limit: a viewer may ignore that, so pages carry check bars.
package pdf

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"strings"
	"time"
	"unicode/utf16"

	"bowerwright/drawing"
	"bowerwright/drawing/internal/face"

	"codeberg.org/go-pdf/fpdf"
)

// A Size is a sheet of paper in mm, upright.
type Size struct{ W, H float64 }

// The sheets. The zero Size is as large as the list drawn on it.
var (
	Letter = Size{215.9, 279.4} // 8 1/2 by 11 in (ANSI/ASME Y14.1, from memory)
	A4     = Size{210, 297}     // ISO 216
)

// A Page is a list on a sheet. A list of another width is centred across; it
// keeps its place from the top, so that a longer sheet has its rest at the foot.
// What belongs to an edge (a thumb tab, fold marks) wants a list as wide as the
// sheet.
// A Bookmark, when given, is listed in the viewer at Level (0 is outermost).
type Page struct {
	List     drawing.List
	Size     Size
	Bookmark string
	Level    int
}

// A Doc is a document. Made is written into it as the time of making; a zero
// Made writes the start of the year 2000, so that the same document has the
// same bytes whenever it is written.
type Doc struct {
	Title, Author, Subject string
	Made                   time.Time
	Pages                  []Page
}

// Write makes the document. It fails on a document without pages, on an image
// that is no PNG, and when w does.
func Write(w io.Writer, doc Doc) error {
	if len(doc.Pages) == 0 {
		return fmt.Errorf("pdf: %q has no pages", doc.Title)
	}
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 612, Ht: 792}})
	f.SetCatalogSort(true)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetLang("en")
	f.SetTitle(doc.Title, true)
	f.SetAuthor(doc.Author, true)
	f.SetSubject(doc.Subject, true)
	f.SetCreator("bowerwright", true)
	if doc.Made.IsZero() { // the library would take the clock's time
		doc.Made = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	f.SetCreationDate(doc.Made.UTC())
	f.SetModificationDate(doc.Made.UTC())
	s := &surface{f: f, fonts: map[drawing.Font]bool{}, images: map[string]bool{}}
	for range doc.Pages {
		s.pages = append(s.pages, f.AddLink())
	}
	for i, p := range doc.Pages {
		s.page(p, i)
	}
	if err := s.failure(); err != nil {
		return err
	}
	return finish(w, f)
}

func finish(w io.Writer, f *fpdf.Fpdf) error {
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	out, err := unscaled(b.Bytes())
	if err != nil {
		return err
	}
	if _, err := w.Write(out); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

// A surface writes the operators of one document. Its paths are written raw:
// the library has no nonzero fill of several outlines.
type surface struct {
	f      *fpdf.Fpdf
	fonts  map[drawing.Font]bool
	images map[string]bool
	pages  []int // the library's link of each page
	dx     float64
	height float64 // of the page, pt
	err    error
}

const ptPerMM = 72 / 25.4

func (s *surface) failure() error {
	if s.err != nil {
		return s.err
	}
	if err := s.f.Error(); err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	return nil
}

func (s *surface) page(p Page, i int) {
	size := p.Size
	if size == (Size{}) {
		size = Size{p.List.W, p.List.H}
	}
	s.dx, s.height = (size.W-p.List.W)/2, size.H*ptPerMM
	s.f.AddPageFormat("P", fpdf.SizeType{Wd: size.W * ptPerMM, Ht: size.H * ptPerMM})
	s.f.SetLink(s.pages[i], 0, -1)
	s.font(drawing.Regular, drawing.Body) // a bookmark is in the encoding of the font set
	if p.Bookmark != "" {
		s.f.Bookmark(p.Bookmark, p.Level, 0)
	}
	s.raw("4 M")
	drawing.Play(p.List, s)
}

func (s *surface) raw(format string, args ...any) {
	s.f.RawWriteStr(fmt.Sprintf(format, args...))
}

// at is a point in the page's own measure: pt from the foot.
func (s *surface) at(p drawing.Point) string {
	return fmt.Sprintf("%.3f %.3f", (p.X+s.dx)*ptPerMM, s.height-p.Y*ptPerMM)
}

func (s *surface) path(os []drawing.Outline) {
	var b strings.Builder
	for _, o := range os {
		fmt.Fprintf(&b, "%s m\n", s.at(o.Start))
		for _, t := range o.Steps {
			if t.Bent {
				fmt.Fprintf(&b, "%s %s %s c\n", s.at(t.C1), s.at(t.C2), s.at(t.To))
			} else {
				fmt.Fprintf(&b, "%s l\n", s.at(t.To))
			}
		}
		if o.Closed {
			b.WriteString("h\n")
		}
	}
	s.raw("%s", strings.TrimSuffix(b.String(), "\n"))
}

func colour(t drawing.Tone) string {
	c := drawing.Paper.Of(t)
	return fmt.Sprintf("%.3f %.3f %.3f", float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
}

func (s *surface) pen(p drawing.Pen) {
	var dash []string
	for _, d := range p.DashMM() {
		dash = append(dash, fmt.Sprintf("%.3f", d*ptPerMM))
	}
	round := 0
	if p.Round {
		round = 1
	}
	s.raw("%s RG %.3f w %d J %d j [%s] 0 d", colour(p.Tone), p.Weight, round, round, strings.Join(dash, " "))
}

// Shape fills and strokes a path.
func (s *surface) Shape(os []drawing.Outline, fill drawing.Tone, pen drawing.Pen) {
	op := map[[2]bool]string{{true, true}: "B", {true, false}: "f", {false, true}: "S"}[[2]bool{fill != drawing.None, pen.Draws()}]
	if op == "" || len(os) == 0 {
		return
	}
	if fill != drawing.None {
		s.raw("%s rg", colour(fill))
	}
	if pen.Draws() {
		s.pen(pen)
	}
	s.path(os)
	s.raw("%s", op)
}

// font sets a font, which joins the document the first time. It is set anew for
// every run, as the end of a clip gives the page its older font back.
func (s *surface) font(font drawing.Font, size float64) {
	name := strings.ReplaceAll(font.String(), " ", "")
	if !s.fonts[font] {
		s.fonts[font] = true
		s.f.AddUTF8FontFromBytes(name, "", bytes.Clone(face.TTF(font.String())))
	}
	s.f.SetFont(name, "", size)
}

// Words sets the runs one by one. A line with a built fraction says beside it
// how it reads, by marked content with ActualText (ISO 32000-1, 14.9.4).
func (s *surface) Words(w drawing.Words) {
	if w.Plain == "" {
		return
	}
	if w.Built {
		s.raw("/Span <</ActualText %s>> BDC", utf16Hex(w.Plain))
	}
	for _, r := range w.Runs {
		s.run(w, r)
	}
	if w.Built {
		s.raw("EMC")
	}
}

func (s *surface) run(w drawing.Words, r drawing.Run) {
	p := w.Place(r)
	x, y := (p.X+s.dx)*ptPerMM, p.Y*ptPerMM
	s.font(r.Font, r.Size)
	s.raw("%s rg", colour(r.Tone))
	if w.Turn == 0 {
		s.f.Text(x, y, r.Font.Printable(r.S))
		return
	}
	s.f.TransformBegin()
	s.f.TransformRotate(w.Turn, x, y)
	s.f.Text(x, y, r.Font.Printable(r.S))
	s.f.TransformEnd()
}

func utf16Hex(s string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04X", u)
	}
	return b.String() + ">"
}

// Picture embeds each different image once, as 8 bits a channel, which is what
// the library reads.
func (s *surface) Picture(im drawing.Image) {
	name := fmt.Sprintf("%x", sha256.Sum256(im.PNG))
	opt := fpdf.ImageOptions{ImageType: "PNG"}
	if !s.images[name] {
		plain, err := plainPNG(im.PNG)
		if err != nil {
			s.err = fmt.Errorf("pdf: image %q: %w", im.Alt, err)
			return
		}
		s.images[name] = true
		s.f.RegisterImageOptionsReader(name, opt, bytes.NewReader(plain))
	}
	s.f.ImageOptions(name, (im.At.X+s.dx)*ptPerMM, im.At.Y*ptPerMM, im.W*ptPerMM, im.H*ptPerMM, false, opt, 0, "")
}

func plainPNG(data []byte) ([]byte, error) {
	im, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	flat := image.NewNRGBA(im.Bounds())
	draw.Draw(flat, flat.Bounds(), im, im.Bounds().Min, draw.Src)
	var b bytes.Buffer
	err = png.Encode(&b, flat)
	return b.Bytes(), err
}

// Clip opens a state that Unclip closes.
func (s *surface) Clip(os []drawing.Outline) {
	s.raw("q")
	s.path(os)
	s.raw("W n")
}

// Unclip closes the state the last Clip opened.
func (s *surface) Unclip() { s.raw("Q") }

// Link leads to a page of the document or out of it; a page that is not there
// is our mistake.
func (s *surface) Link(l drawing.Link) {
	x, y, w, h := (l.At.X+s.dx)*ptPerMM, l.At.Y*ptPerMM, l.W*ptPerMM, l.H*ptPerMM
	switch {
	case l.URL != "":
		s.f.LinkString(x, y, w, h, l.URL)
	case l.Page >= 1 && l.Page <= len(s.pages):
		s.f.Link(x, y, w, h, s.pages[l.Page-1])
	default:
		s.err = fmt.Errorf("pdf: a link leads to page %d of %d", l.Page, len(s.pages))
	}
}
