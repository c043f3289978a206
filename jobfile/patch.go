package jobfile

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"bowerwright/job"
	"bowerwright/snag"
)

// A CannotEditError says that a change cannot be written into the text of a job
// file as it stands: by its path, what would be written, and why.
type CannotEditError struct{ Path, Text, Why string }

// Error says it with what can be done by hand.
func (e *CannotEditError) Error() string {
	if e.Text == "" {
		return fmt.Sprintf("%s cannot be taken out of the file: %s", e.Path, e.Why)
	}
	return fmt.Sprintf("%s cannot be written into the file: %s; by hand: %s: %s", e.Path, e.Why, last(e.Path), e.Text)
}

// Edit writes changes into the text of a job file: a field gets a text, or with
// an empty text goes. All else stays as it is, comments, order and line ends
// among it. The error is a *CannotEditError; a change that cannot be written
// leaves nothing half done.
//
// A new field stands first in its group, a new group at the end of the file.
func Edit(source []byte, edits []job.EditTo) ([]byte, error) {
	text := string(source)
	for _, e := range edits {
		next, err := edit(text, e)
		if err == nil {
			err = sound(next)
		}
		if err != nil {
			return nil, &CannotEditError{e.Path, e.Text, err.Error()}
		}
		text = next
	}
	return []byte(text), nil
}

// sound says whether a text is still YAML.
func sound(text string) error {
	p := planter{scanner: scanner{name: "job file"}}
	if p.parse([]byte(text)) == nil {
		return errors.New("the file is written in a way that it does not fit into")
	}
	return nil
}

// A patch is a text in lines, with the tree that they make.
type patch struct {
	lines []string // with their ends
	root  *node
	ends  string // of a line
}

func edit(text string, e job.EditTo) (string, error) {
	t, err := patchOf(text)
	if err != nil {
		return "", err
	}
	if e.Text == "" {
		err = t.drop(e.Path)
	} else {
		err = t.put(e.Path, e.Text)
	}
	return strings.Join(t.lines, ""), err
}

// last is the last key of a path.
func last(path string) string { return path[strings.LastIndexByte(path, '.')+1:] }

// parent is the path of the group that a key stands in.
func parent(path string) string { return path[:max(0, strings.LastIndexByte(path, '.'))] }

// at finds the entry of a path; items of a list are numbered, as in
// ballast[0].owned.
func (t *patch) at(path string) (e entry, ok bool) {
	n := t.root
	for _, key := range strings.Split(path, ".") {
		key, number, listed := strings.Cut(key, "[")
		ok = false
		for _, x := range n.entries {
			if x.key.text == key {
				e, n, ok = x, x.value, true
				break
			}
		}
		if !ok {
			return e, false
		}
		if listed {
			i, err := strconv.Atoi(strings.TrimSuffix(number, "]"))
			if err != nil || i >= len(n.items) {
				return e, false
			}
			n = n.items[i]
			e = entry{e.key, n}
		}
	}
	return e, ok
}

// startsAlone are groups inside groups that may begin with any one field; a
// piece of the base, say, needs its kind first.
var startsAlone = map[string]bool{"fixing.seams": true}

// put gives a field its text.
func (t *patch) put(path, text string) error {
	if e, ok := t.at(path); ok {
		return t.replace(e, text)
	}
	up := parent(path)
	if up == "" {
		return t.append(last(path) + ": " + text)
	}
	e, ok := t.at(up)
	switch {
	case !ok && parent(up) == "":
		return t.append(up + ":" + t.ends + "  " + last(path) + ": " + text)
	case !ok && startsAlone[up]:
		return t.put(up, "{"+last(path)+": "+text+"}")
	case !ok:
		return fmt.Errorf("there is no %s", up)
	case e.value.form == empty:
		return fmt.Errorf("%s is empty", up)
	case e.value.form != fields || len(e.value.entries) == 0:
		return fmt.Errorf("%s holds no fields", up)
	}
	return t.insert(e, last(path)+": "+text)
}

// replace changes the value of a field that is a plain line.
func (t *patch) replace(e entry, text string) error {
	v := e.value
	if v.form != line || !v.exact {
		return fmt.Errorf("%s is not written on one line", e.key.text)
	}
	before, rest := t.cut(v.place)
	after := rest[len(v.text):]
	if q := quote(before, after); q != "" {
		before, after = strings.TrimSuffix(before, q), strings.TrimPrefix(after, q)
	}
	t.lines[v.place.Line-1] = before + text + after
	return nil
}

// quote is the quote mark that a value stands in, or "".
func quote(before, after string) string {
	for _, q := range []string{`"`, "'"} {
		if strings.HasSuffix(before, q) && strings.HasPrefix(after, q) {
			return q
		}
	}
	return ""
}

// cut parts a line at a place.
func (t *patch) cut(at snag.Place) (before, rest string) {
	text := t.lines[at.Line-1]
	runes := []rune(text)
	i := len(string(runes[:min(len(runes), at.Column-1)]))
	return text[:i], text[i:]
}

// insert puts a field first in a group: in braces before the first field, else
// on a line of its own below the group's key.
func (t *patch) insert(e entry, text string) error {
	first := e.value.entries[0].key
	before, rest := t.cut(first.place)
	if lead := strings.TrimRight(before, " "); strings.HasSuffix(lead, "{") || first.place.Line == e.key.place.Line {
		t.lines[first.place.Line-1] = before + text + ", " + rest
		return nil
	}
	if strings.TrimSpace(before) != "" {
		return errors.New("its group is not written a field to a line")
	}
	at := e.key.place.Line
	t.lines = append(t.lines[:at], append([]string{before + text + t.ends}, t.lines[at:]...)...)
	return nil
}

// append adds to the end of the file.
func (t *patch) append(text string) error {
	if end := t.lines[len(t.lines)-1]; end != "" {
		t.lines[len(t.lines)-1] = end + t.ends
	}
	t.lines = append(t.lines, t.ends+text+t.ends)
	return nil
}

// drop takes a field out; a way of dressing that has no other says nothing
// then.
func (t *patch) drop(path string) error {
	e, ok := t.at(path)
	group, okUp := t.at(parent(path))
	if !ok || !okUp {
		return errors.New("it is not there")
	}
	if e.key.place.Line == group.key.place.Line {
		return errors.New("it stands inside a line with others")
	}
	if len(group.value.entries) == 1 {
		at := group.key.place.Line
		indented := strings.TrimRight(t.lines[at-1], "\r\n")
		if !strings.HasSuffix(indented, ":") {
			return errors.New("more stands behind its group's key")
		}
		t.lines[at-1] = indented + " " + nothing + t.ends
	}
	from, to := e.key.place.Line, e.value.lastLine()
	t.lines = append(t.lines[:from-1], t.lines[max(from, to):]...)
	return nil
}

// lastLine is where the last of a node stands.
func (n *node) lastLine() int {
	out := n.place.Line
	for _, e := range n.entries {
		out = max(out, e.key.place.Line, e.value.lastLine())
	}
	for _, i := range n.items {
		out = max(out, i.lastLine())
	}
	return out
}
