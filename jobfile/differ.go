package jobfile

import (
	"slices"
	"strings"
)

// Differ lists the paths of lines that two texts do not have alike, and of
// groups and lists that only one of them has, sorted. A row of frames counts as each
// of its frames. A text that cannot be read differs in everything: the path is
// "" then.
func Differ(a, b []byte) []string {
	if string(a) == string(b) {
		return nil
	}
	mine, okA := leaves(a)
	theirs, okB := leaves(b)
	if !okA || !okB {
		return []string{""}
	}
	var out []string
	for path, text := range theirs {
		if was, there := mine[path]; !there || was != text {
			out = append(out, rowPaths(path)...)
		}
		delete(mine, path)
	}
	for path := range mine {
		out = append(out, rowPaths(path)...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// leaves are what stands in a text by path: lines with their text, all else
// with its form.
func leaves(source []byte) (map[string]string, bool) {
	t, err := patchOf(string(source))
	if err != nil {
		return nil, false
	}
	out := map[string]string{}
	var walk func(n *node, path string)
	walk = func(n *node, path string) {
		out[path] = n.form.String() + ": " + n.text
		for _, e := range n.entries {
			walk(e.value, e.key.place.Path)
		}
		for _, i := range n.items {
			walk(i, i.place.Path)
		}
	}
	for _, e := range t.root.entries {
		walk(e.value, e.key.place.Path)
	}
	return out, true
}

func rowPaths(path string) []string {
	row, ok := strings.CutPrefix(path, "layout.")
	if !ok || !strings.Contains(row, "..") {
		return []string{path}
	}
	out := []string{path}
	for _, id := range idsOf(&node{text: row}) {
		out = append(out, "layout."+id)
	}
	return out
}

// Clash gives the first of some paths that lies at, in or round one of others;
// false when they can be changed apart.
func Clash(mine, theirs []string) (path string, clash bool) {
	for _, m := range mine {
		for _, t := range theirs {
			if m == t || t == "" || inside(m, t) || inside(t, m) {
				return m, true
			}
		}
	}
	return "", false
}

// inside tells whether a path lies in another.
func inside(path, group string) bool {
	rest, ok := strings.CutPrefix(path, group)
	return ok && rest != "" && (rest[0] == '.' || rest[0] == '[')
}

// At is what stands at a path, as it is written: "" for nothing.
func At(source []byte, path string) string {
	t, err := patchOf(string(source))
	if err != nil {
		return ""
	}
	e, ok := t.at(path)
	switch {
	case !ok:
		return ""
	case e.value.form == line:
		return e.value.text
	}
	return t.textOf(e)
}
