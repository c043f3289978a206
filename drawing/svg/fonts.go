package svg

import (
	"encoding/base64"
	"fmt"
	"slices"
	"strings"

	"bowerwright/drawing"
	"bowerwright/drawing/internal/face"
)

// Fonts are the style sheet's rules that give a page the fonts for live type,
// carried in the page and cut down to the runes of a text; runes that a font
// lacks are left to the reader's own. The same text gives the same bytes.
func Fonts(text string, fonts ...drawing.Font) (string, error) {
	var b strings.Builder
	all := used(text)
	for _, f := range fonts {
		runes := had(all, f)
		data, err := face.WOFF(f.String(), runes)
		if err != nil {
			return "", fmt.Errorf("svg: %w", err)
		}
		family, weight := family(f)
		fmt.Fprintf(&b, "@font-face { font-family: %q; font-weight: %d; src: url(data:font/woff;base64,%s) format(\"woff\"); unicode-range: %s; }\n",
			family, weight, base64.StdEncoding.EncodeToString(data), ranges(runes))
	}
	return b.String(), nil
}

// family is a font's name and weight in a style sheet.
func family(f drawing.Font) (name string, weight int) {
	switch f {
	case drawing.Medium:
		return "Go", 500
	case drawing.Bold:
		return "Go", 700
	case drawing.Mono:
		return "Go Mono", 400
	case drawing.MonoBold:
		return "Go Mono", 700
	}
	return "Go", 400
}

// used are the runes of a text, sorted, each once, and those of a page in any
// case: space and its unbroken kind.
func used(text string) []rune {
	seen := map[rune]bool{' ': true, '\u00a0': true}
	for _, r := range text {
		seen[r] = true
	}
	var out []rune
	for r := range seen {
		out = append(out, r)
	}
	slices.Sort(out)
	return out
}

// had are those that a font has.
func had(runes []rune, f drawing.Font) []rune {
	var out []rune
	for _, r := range runes {
		if f.Has(r) {
			out = append(out, r)
		}
	}
	return out
}

// ranges writes runes as a style sheet does: U+20-3F, U+B0.
func ranges(rs []rune) string {
	var out []string
	for i := 0; i < len(rs); {
		j := i
		for j+1 < len(rs) && rs[j+1] == rs[j]+1 {
			j++
		}
		s := fmt.Sprintf("U+%X", rs[i])
		if j > i {
			s += fmt.Sprintf("-%X", rs[j])
		}
		out = append(out, s)
		i = j + 1
	}
	return strings.Join(out, ", ")
}
