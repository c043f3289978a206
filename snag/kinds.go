package snag

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Merge joins the kinds of several packages, sorted by code. It refuses a code
// that is used twice or is not in kebab case, and a meaning that is empty.
func Merge(sets ...[]Kind) ([]Kind, error) {
	all := slices.Concat(sets...)
	slices.SortFunc(all, func(a, b Kind) int { return cmp.Compare(a.Code, b.Code) })
	for i, k := range all {
		if !kebab(k.Code) || strings.TrimSpace(k.Meaning) == "" {
			return nil, fmt.Errorf("snag: kind %q has no proper code or no meaning", k.Code)
		}
		if i > 0 && all[i-1].Code == k.Code {
			return nil, fmt.Errorf("snag: code %q is used twice", k.Code)
		}
	}
	return all, nil
}

// kebab tells whether a code is words of a-z and 0-9 joined by single hyphens.
func kebab(code string) bool {
	for _, word := range strings.Split(code, "-") {
		if word == "" || strings.Trim(word, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

// Markdown writes the page that explains every kind, in the order given.
func Markdown(kinds []Kind) string {
	var b strings.Builder
	b.WriteString("# Snags\n\nWhat may have to be put right, by the code that stands behind each message. Codes never change their meaning.\n\n")
	b.WriteString("| code | what it means |\n|---|---|\n")
	for _, k := range kinds {
		fmt.Fprintf(&b, "| `%s` | %s |\n", k.Code, strings.ReplaceAll(k.Meaning, "|", `\|`))
	}
	return b.String()
}
