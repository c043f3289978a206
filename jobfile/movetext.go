package jobfile

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/snag"
)

// write gives the text with the lines of the move in it.
func (g *mover) write() ([]byte, error) {
	t, err := patchOf(string(g.source))
	if err != nil {
		return nil, cannot("put that right first", "%v", err)
	}
	w := &moveWriter{mover: g, patch: t}
	if err := errors.Join(w.layout(), w.copied(), w.fixed()); err != nil {
		return nil, cannot("change it by hand, or write it on a line of its own", "the line cannot be changed: %v", err)
	}
	text := w.text()
	// What was in order stays so: else something names a frame in a way that
	// only its owner can decide about.
	before := unread(g.source)
	for _, problem := range unread(text) {
		if !slices.Contains(before, problem) {
			return nil, cannot("change that by hand first", "the job would not be in order then: %s", problem)
		}
	}
	return text, nil
}

// unread is what cannot be read of a text, in words without places.
func unread(text []byte) (out []string) {
	_, _, snags := Read(text, "job file", nil, "")
	for _, s := range snags {
		if s.Severity == snag.Stop {
			out = append(out, s.Problem)
		}
	}
	return out
}

// patchOf makes a text one that can be changed.
func patchOf(text string) (*patch, error) {
	p := planter{scanner: scanner{name: "job file"}}
	root := p.parse([]byte(text))
	if root == nil || root.form != fields {
		return nil, errors.New("the file cannot be read")
	}
	t := &patch{lines: strings.SplitAfter(text, "\n"), root: root, ends: "\n"}
	if strings.Contains(text, "\r\n") {
		t.ends = "\r\n"
	}
	return t, nil
}

// A moveWriter gathers changes of whole lines, and makes them from the last to
// the first, so that places of the tree stay true meanwhile.
type moveWriter struct {
	*mover
	*patch
	swaps []swap
	tail  string // at the end of the file
}

// A swap puts lines in the place of others, from and to included; to is
// from - 1 where lines are only added.
type swap struct {
	from, to int
	with     string
}

func (w *moveWriter) text() []byte {
	slices.SortStableFunc(w.swaps, func(a, b swap) int { return cmp.Or(cmp.Compare(b.from, a.from), cmp.Compare(b.to, a.to)) })
	for _, s := range w.swaps {
		if before := s.from - 2; s.with != "" && before >= 0 && !strings.HasSuffix(w.patch.lines[before], "\n") {
			w.patch.lines[before] += w.ends
		}
		w.patch.lines = slices.Replace(w.patch.lines, s.from-1, s.to, s.with)
	}
	out := strings.Join(w.patch.lines, "")
	if w.tail != "" && out != "" && !strings.HasSuffix(out, "\n") {
		out += w.ends
	}
	return []byte(out + w.tail)
}

// alone tells what stands before an entry that has its lines for itself.
func (t *patch) alone(n *node) (indent string, err error) {
	before, _ := t.cut(n.place)
	if trimmed := strings.TrimSpace(before); trimmed != "" && trimmed != "-" && trimmed != `"` && trimmed != "'" {
		return "", fmt.Errorf("it stands inside line %d with others", n.place.Line)
	}
	return before, nil
}

// layout changes lines of the layout, and adds those of new frames at its end.
func (w *moveWriter) layout() error {
	var entries []entry
	group, there := w.at("layout")
	if there {
		entries = group.value.entries
	}
	written, left := map[string]bool{}, 0
	for _, e := range entries {
		ids := idsOf(e.key)
		for _, id := range ids {
			written[id] = true
		}
		stay, err := w.layoutEntry(e, ids)
		if err != nil {
			return err
		}
		left += stay
	}
	var more []string
	for _, f := range w.facts.Frames { // copies that go their own way
		if _, ok := w.now[f.ID]; ok && !written[f.ID] {
			more = append(more, f.ID)
		}
	}
	return w.more(group, there, left, append(more, w.fresh...))
}

// layoutEntry changes one line, and tells how many of its frames stay.
func (w *moveWriter) layoutEntry(e entry, ids []string) (int, error) {
	stay, changed := 0, false
	for _, id := range ids {
		_, now := w.now[id]
		changed = changed || now || w.gone[id]
		if !w.gone[id] {
			stay++
		}
	}
	switch {
	case !changed:
		return stay, nil
	case len(ids) == 1 && stay == 1:
		return stay, w.replace(e, w.mover.lines.place(w.now[ids[0]]))
	}
	indent, err := w.alone(e.key)
	if err != nil {
		return stay, err
	}
	end := w.ends // with what stands behind the value
	if v := e.value; v.exact {
		_, rest := w.cut(v.place)
		end = strings.TrimLeft(rest[len(v.text):], `"'`)
	}
	with := ""
	for _, id := range ids {
		if w.gone[id] {
			continue
		}
		if _, now := w.now[id]; !now && w.frames[id] == nil {
			return stay, fmt.Errorf("%s cannot be placed as the file stands", id)
		}
		with += indent + id + ": " + w.mover.lines.place(w.mover.place(id)) + end
		end = w.ends
	}
	w.swaps = append(w.swaps, swap{e.key.place.Line, max(e.key.place.Line, e.value.lastLine()), with})
	return stay, nil
}

// more adds lines at the end of the layout, which may be missing or empty; a
// layout in which nothing is left goes.
func (w *moveWriter) more(group entry, there bool, left int, ids []string) error {
	indent := "  "
	if there && len(group.value.entries) > 0 {
		var err error
		if indent, err = w.alone(group.value.entries[0].key); err != nil && len(ids) > 0 {
			return err
		}
	}
	with := ""
	for _, id := range ids {
		with += indent + id + ": " + w.mover.lines.place(w.now[id]) + w.ends
	}
	switch at := group.key; {
	case !there && with != "":
		w.tail = w.ends + "layout:" + w.ends + with
	case there && len(group.value.entries) == 0 && with != "":
		w.swaps = append(w.swaps, swap{at.place.Line, max(at.place.Line, group.value.lastLine()), "layout:" + w.ends + with})
	case there && with != "":
		last := group.value.entries[len(group.value.entries)-1]
		line := max(last.key.place.Line, last.value.lastLine())
		w.swaps = append(w.swaps, swap{line + 1, line, with})
	case there && left == 0 && len(group.value.entries) > 0:
		w.swaps = append(w.swaps, swap{at.place.Line, at.place.Line, ""})
	}
	return nil
}

// idsOf are the ids of a line or a row, nil when they are none.
func idsOf(key *node) []string {
	ids, _ := idReader().ids(key, key.text, 0)
	return ids
}

// idReader reads ids and nothing that rests on assumptions.
func idReader() *reader {
	return &reader{origin: assume.Job, d: &draft{ids: map[string]snag.Place{}}, at: &info{}}
}

// copied takes frames that are no copies any more out of the copies.
func (w *moveWriter) copied() error {
	group, there := w.at("copies")
	if !there {
		return nil
	}
	left := len(group.value.items)
	for _, n := range group.value.items {
		rest, changed := w.copyLine(n)
		switch {
		case !changed:
		case rest != "":
			if err := w.replace(entry{group.key, n}, rest); err != nil {
				return err
			}
		default:
			if _, err := w.alone(n); err != nil {
				return err
			}
			w.swaps = append(w.swaps, swap{n.place.Line, n.lastLine(), ""})
			left--
		}
	}
	if left == 0 {
		w.swaps = append(w.swaps, swap{group.key.place.Line, group.key.place.Line, ""})
	}
	return nil
}

// copyLine is a line of the copies without those that have gone their own way.
func (w *moveWriter) copyLine(n *node) (rest string, changed bool) {
	l := newLiner(idReader(), n, badCopy, exampleMove)
	of := l.list(exampleMirror, true, "as")
	l.expect(exampleMirror, "as")
	ids := l.list(exampleMirror, false, "mirrored", "moved")
	if l.failed || len(of) != len(ids) {
		return "", false
	}
	var from, as []string
	for i, id := range ids {
		if _, own := w.now[id]; own || w.gone[id] {
			changed = true
			continue
		}
		from, as = append(from, of[i]), append(as, id)
	}
	if len(as) == 0 {
		return "", changed
	}
	for _, q := range split(n.text) {
		if q.text = strings.ToLower(q.text); q.text == "mirrored" || q.text == "moved" {
			rest = n.text[q.at:]
			break
		}
	}
	return strings.Join(from, ", ") + " as " + strings.Join(as, ", ") + ", " + rest, changed
}

// fixed takes out what is asked for the seams, hooks and ties of frames that
// are gone.
func (w *moveWriter) fixed() error {
	fixing, there := w.at("fixing")
	if !there || len(w.gone) == 0 {
		return nil
	}
	empty := 0
	for _, name := range []string{"seams", "hooks"} {
		group, there := w.at("fixing." + name)
		if !there {
			continue
		}
		left := len(group.value.entries)
		for _, e := range group.value.entries {
			if !slices.ContainsFunc(split(e.key.text), func(q word) bool { return w.gone[q.text] }) {
				continue
			}
			if _, err := w.alone(e.key); err != nil {
				return err
			}
			left--
			w.swaps = append(w.swaps, swap{e.key.place.Line, max(e.key.place.Line, e.value.lastLine()), ""})
		}
		if left == 0 && len(group.value.entries) > 0 {
			empty++
			w.swaps = append(w.swaps, swap{group.key.place.Line, group.key.place.Line, ""})
		}
	}
	if empty > 0 && empty == len(fixing.value.entries) {
		w.swaps = append(w.swaps, swap{fixing.key.place.Line, fixing.key.place.Line, ""})
	}
	return nil
}
