package face

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"math/bits"
	"slices"
)

// WOFF is a font cut down to the outlines of some runes, as WOFF 1.0 (W3C
// Recommendation, 13 December 2012), for a page that carries its fonts. Numbers
// of glyphs stay as they are, those not asked for are blank: say beside it which
// runes it is for, so that others are taken from elsewhere.
func WOFF(name string, runes []rune) ([]byte, error) {
	ttf := TTF(name)
	if ttf == nil {
		return nil, fmt.Errorf("face: no font %q", name)
	}
	f, err := Open(name)
	if err != nil {
		return nil, err
	}
	t := tables(ttf)
	keep, err := f.glyphs(runes)
	if err != nil {
		return nil, err
	}
	t.trim(keep)
	return t.woff()
}

// glyphs are the numbers of the glyphs of some runes, with the one for a missing
// rune; runes that the font lacks are left out.
func (f *Face) glyphs(runes []rune) (map[int]bool, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	keep := map[int]bool{0: true}
	for _, r := range runes {
		g, err := f.f.GlyphIndex(&f.buf, r)
		if err != nil {
			return nil, fmt.Errorf("face: %q: %w", r, err)
		}
		keep[int(g)] = true
	}
	return keep, nil
}

// A fontFile is a font's tables by tag (OpenType 1.9, "Font file").
type fontFile map[string][]byte

func tables(ttf []byte) fontFile {
	t := fontFile{}
	for i := range int(binary.BigEndian.Uint16(ttf[4:])) {
		r := ttf[12+16*i:]
		at, n := binary.BigEndian.Uint32(r[8:]), binary.BigEndian.Uint32(r[12:])
		t[string(r[:4])] = ttf[at : at+n]
	}
	return t
}

// trim blanks all glyphs but those to keep and what these are put together of,
// and drops the names of glyphs and of the font.
func (t fontFile) trim(keep map[int]bool) {
	places := t.places()
	glyph := func(g int) []byte { return t["glyf"][places[g]:places[g+1]] }
	for queue := keys(keep); len(queue) > 0; {
		for _, c := range components(glyph(queue[0])) {
			if !keep[c] {
				keep[c] = true
				queue = append(queue, c)
			}
		}
		queue = queue[1:]
	}
	var glyf []byte
	cut := make([]int, len(places))
	for g := range len(places) - 1 {
		if keep[g] {
			glyf = append(glyf, glyph(g)...)
		}
		cut[g+1] = len(glyf)
	}
	t.place(cut)
	t["glyf"] = glyf
	t["post"] = append([]byte{0, 3, 0, 0}, t["post"][4:32]...) // version 3: without names
	t["name"] = []byte{0, 0, 0, 0, 0, 6}
}

// long says whether a font writes where its glyphs are in full, or half of it
// in two bytes (OpenType 1.9, "head", indexToLocFormat).
func (t fontFile) long() bool { return t["head"][51] != 0 }

// places are where each glyph begins in the table of outlines, and where the
// last ends.
func (t fontFile) places() []int {
	var out []int
	for p := t["loca"]; len(p) >= 2; {
		if t.long() {
			out, p = append(out, int(binary.BigEndian.Uint32(p))), p[4:]
		} else {
			out, p = append(out, 2*int(binary.BigEndian.Uint16(p))), p[2:]
		}
	}
	return out
}

// place writes them anew.
func (t fontFile) place(places []int) {
	var loca []byte
	for _, v := range places {
		if t.long() {
			loca = binary.BigEndian.AppendUint32(loca, uint32(v))
		} else {
			loca = binary.BigEndian.AppendUint16(loca, uint16(v/2))
		}
	}
	t["loca"] = loca
}

func keys(m map[int]bool) []int {
	var out []int
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// Flags of a part of a glyph (OpenType 1.9, "glyf", component glyph flags).
const (
	argsAreWords = 0x0001
	haveScale    = 0x0008
	moreParts    = 0x0020
	haveTwo      = 0x0040
	haveFour     = 0x0080
)

// components are the glyphs that a glyph is put together of.
func components(g []byte) []int {
	if len(g) == 0 || int16(binary.BigEndian.Uint16(g)) >= 0 {
		return nil
	}
	var out []int
	for at, more := 10, true; more; {
		flags := binary.BigEndian.Uint16(g[at:])
		out = append(out, int(binary.BigEndian.Uint16(g[at+2:])))
		at += 6
		if flags&argsAreWords != 0 {
			at += 2
		}
		at += 2*bits.OnesCount16(flags&haveScale) + 4*bits.OnesCount16(flags&haveTwo) + 8*bits.OnesCount16(flags&haveFour)
		more = flags&moreParts != 0
	}
	return out
}

// woff packs the tables, each by itself.
func (t fontFile) woff() ([]byte, error) {
	var tags []string
	for tag := range t {
		tags = append(tags, tag)
	}
	slices.Sort(tags)
	const head, entry = 44, 20
	size := 12 + 16*len(tags) // of the font unpacked
	var dir, body []byte
	for _, tag := range tags {
		data := t[tag]
		packed, err := deflate(data)
		if err != nil {
			return nil, err
		}
		dir = append(dir, tag...)
		for _, v := range []int{head + entry*len(tags) + len(body), len(packed), len(data)} {
			dir = binary.BigEndian.AppendUint32(dir, uint32(v))
		}
		dir = binary.BigEndian.AppendUint32(dir, checksum(data))
		body = append(body, padded(packed)...)
		size += len(padded(data))
	}
	out := append([]byte("wOFF"), 0, 1, 0, 0)
	out = binary.BigEndian.AppendUint32(out, uint32(head+len(dir)+len(body)))
	out = binary.BigEndian.AppendUint16(out, uint16(len(tags)))
	out = append(out, 0, 0)
	out = binary.BigEndian.AppendUint32(out, uint32(size))
	out = append(out, make([]byte, head-len(out))...)
	return append(append(out, dir...), body...), nil
}

// deflate packs a table, or leaves it as it is where that is no longer.
func deflate(data []byte) ([]byte, error) {
	var b bytes.Buffer
	z, err := zlib.NewWriterLevel(&b, zlib.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(data); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	if b.Len() >= len(data) {
		return data, nil
	}
	return b.Bytes(), nil
}

// padded is data filled up with zeros to whole words of four bytes.
func padded(b []byte) []byte { return append(slices.Clone(b), make([]byte, -len(b)&3)...) }

// checksum is the sum of a table's words.
func checksum(b []byte) uint32 {
	sum := uint32(0)
	for p := padded(b); len(p) > 0; p = p[4:] {
		sum += binary.BigEndian.Uint32(p)
	}
	return sum
}
