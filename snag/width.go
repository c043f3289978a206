package snag

import "unicode"

// wide lists the ranges of code points that take two cells: East Asian Wide and
// Fullwidth, and the pictographs. Source: Unicode Standard Annex 11, ranges
// from memory and taken whole where they are almost so.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{0x1100, 0x115f, 1}, {0x231a, 0x231b, 1}, {0x23e9, 0x23ec, 1}, {0x2e80, 0x303e, 1},
		{0x3041, 0x33ff, 1}, {0x3400, 0x4dbf, 1}, {0x4e00, 0x9fff, 1}, {0xa000, 0xa4cf, 1},
		{0xa960, 0xa97f, 1}, {0xac00, 0xd7a3, 1}, {0xf900, 0xfaff, 1}, {0xfe10, 0xfe19, 1},
		{0xfe30, 0xfe6f, 1}, {0xff00, 0xff60, 1}, {0xffe0, 0xffe6, 1},
	},
	R32: []unicode.Range32{
		{0x16fe0, 0x18aff, 1}, {0x1b000, 0x1b2ff, 1}, {0x1f300, 0x1f64f, 1},
		{0x1f680, 0x1f6ff, 1}, {0x1f900, 0x1f9ff, 1}, {0x1fa70, 0x1faff, 1},
		{0x20000, 0x3fffd, 1},
	},
}

// runeWidth gives the cells that a code point takes: 0 for marks that sit on
// the letter before and for joiners, 2 for wide ones, else 1. Pictographs
// joined into one count as many; terminals do not agree on those.
func runeWidth(r rune) int {
	switch {
	case printable(r) != r:
		return 1 // it is shown as a mark of its own
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) && r != 0x00ad:
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}
