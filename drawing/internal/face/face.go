// Package face opens the Go fonts for the makers of drawings: their bytes, for
// a document that carries them, and the outlines and advance widths of their
// glyphs, for one that does not.
//
// Fonts go by name ("Go Regular", "Go Medium", "Go Bold", "Go Mono", "Go Mono
// Bold"). Outlines are in em, y down, the origin on the baseline at the left
// of the glyph. The package knows nothing of pages.
package face

import (
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Names lists the fonts in the order of their use.
var Names = []string{"Go Regular", "Go Medium", "Go Bold", "Go Mono", "Go Mono Bold"}

// UnitsPerEm is the grid the Go fonts are drawn on: their widths are whole
// numbers of 1/2048 em.
const UnitsPerEm = 2048

// TTF is the whole font file of a name, or nil when there is no such font.
func TTF(name string) []byte {
	switch name {
	case "Go Regular":
		return goregular.TTF
	case "Go Medium":
		return gomedium.TTF
	case "Go Bold":
		return gobold.TTF
	case "Go Mono":
		return gomono.TTF
	case "Go Mono Bold":
		return gomonobold.TTF
	}
	return nil
}

// A Face is an opened font. It may be used by several goroutines.
type Face struct {
	mu  sync.Mutex
	f   *sfnt.Font
	buf sfnt.Buffer
}

// A Step is one piece of a glyph's outline, in em: M moves to P[0], L draws a
// line to it, Q a quadratic curve by P[0] to P[1]. Every contour is closed.
type Step struct {
	Op byte // 'M', 'L' or 'Q'
	P  [2][2]float64
}

var (
	openMu sync.Mutex
	opened = map[string]*Face{}
)

// Open opens a font by name, once.
func Open(name string) (*Face, error) {
	openMu.Lock()
	defer openMu.Unlock()
	if f := opened[name]; f != nil {
		return f, nil
	}
	ttf := TTF(name)
	if ttf == nil {
		return nil, fmt.Errorf("face: no font %q", name)
	}
	f, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, fmt.Errorf("face: %s: %w", name, err)
	}
	opened[name] = &Face{f: f}
	return opened[name], nil
}

// ppem asks the font for its own grid, so that no hinting or rounding enters.
const ppem = fixed.Int26_6(UnitsPerEm << 6)

// Advance is the width of a rune in 1/2048 em, and whether the font has it.
func (f *Face) Advance(r rune) (int, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	g, err := f.f.GlyphIndex(&f.buf, r)
	if err != nil || g == 0 {
		return 0, false
	}
	a, err := f.f.GlyphAdvance(&f.buf, g, ppem, font.HintingNone)
	return a.Round(), err == nil
}

// Outline is the outline of a rune; a rune the font lacks gives the font's own
// sign for a missing one.
func (f *Face) Outline(r rune) ([]Step, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	g, err := f.f.GlyphIndex(&f.buf, r)
	if err != nil {
		return nil, fmt.Errorf("face: %q: %w", r, err)
	}
	segs, err := f.f.LoadGlyph(&f.buf, g, ppem, nil)
	if err != nil {
		return nil, fmt.Errorf("face: %q: %w", r, err)
	}
	steps := make([]Step, len(segs))
	for i, s := range segs {
		steps[i] = step(s)
	}
	return steps, nil
}

// step turns a segment of a TrueType outline, which has no cubic curves, to em.
func step(s sfnt.Segment) Step {
	ops := map[sfnt.SegmentOp]byte{sfnt.SegmentOpMoveTo: 'M', sfnt.SegmentOpLineTo: 'L', sfnt.SegmentOpQuadTo: 'Q'}
	t := Step{Op: ops[s.Op]}
	for i := range t.P {
		t.P[i] = [2]float64{float64(s.Args[i].X) / float64(ppem), float64(s.Args[i].Y) / float64(ppem)}
	}
	return t
}
