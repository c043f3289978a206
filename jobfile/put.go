package jobfile

import (
	"errors"
	"fmt"
	"strings"

	"bowerwright/job"
)

// Put is Edit for whoever fills in forms: beside what Edit writes, a text may
// take the place of a whole group or list, as its lines stand under its key
// (see Written); a path that ends in [+] is one more item of its list; groups
// that are not there are made; and whatever stands on lines of its own, or in
// braces beside others, can be taken out. An empty value counts as not there.
func Put(source []byte, edits []job.EditTo) ([]byte, error) {
	text := string(source)
	for _, e := range edits {
		next, err := putOne(text, e)
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

func putOne(text string, e job.EditTo) (string, error) {
	t, err := patchOf(text)
	if err != nil {
		return "", err
	}
	value := strings.TrimRight(e.Text, " \r\n")
	at, there := t.at(strings.TrimSuffix(e.Path, "[+]"))
	switch {
	case strings.HasSuffix(e.Path, "[+]"):
		err = t.addItem(strings.TrimSuffix(e.Path, "[+]"), at, there, value)
	case value == "" && there:
		err = t.takeOut(e.Path, at)
	case value == "":
		err = nil // what is not there is out already
	case there && at.value.form == line && at.value.exact && !strings.Contains(value, "\n"):
		if _, ok := t.own(at); !ok || strings.HasSuffix(e.Path, "]") {
			value = inBraces(value)
		}
		err = t.replace(at, value)
	case there:
		err = t.replaceBlock(e.Path, at, value)
	default:
		err = t.addField(e.Path, value)
	}
	return strings.Join(t.lines, ""), err
}

// A block is the lines of one field or item: from its first line to the one
// before end, counted from 0, indented by indent.
type block struct{ first, end, indent int }

// blockOf finds the lines that a field written on lines of its own takes up:
// those that are indented further, and of a list also those that begin with a
// dash.
func (t *patch) blockOf(first, indent int, dashes bool) block {
	b := block{first, first + 1, indent}
	for i := first + 1; i < len(t.lines); i++ {
		text := strings.TrimSpace(t.lines[i])
		if text == "" {
			continue
		}
		deep := len(t.lines[i]) - len(strings.TrimLeft(t.lines[i], " "))
		if deep < indent || deep == indent && !(dashes && strings.HasPrefix(text, "-")) {
			if deep == indent && strings.HasPrefix(text, "#") {
				continue // it belongs to what follows, unless that is still in
			}
			break
		}
		b.end = i + 1
	}
	return b
}

// own finds the block of an entry; ok is false for one that shares its line.
func (t *patch) own(e entry) (b block, ok bool) {
	before, _ := t.cut(e.key.place)
	if strings.TrimSpace(before) != "" {
		return block{}, false
	}
	return t.blockOf(e.key.place.Line-1, len(before), e.value.form == list), true
}

// takeOut removes a field or an item of a list.
func (t *patch) takeOut(path string, e entry) error {
	if strings.HasSuffix(path, "]") {
		return t.takeItem(path, e)
	}
	b, ok := t.own(e)
	if !ok {
		return t.takeFromBraces(path, e)
	}
	group, grouped := t.at(parent(path))
	if grouped && len(group.value.entries) == 1 {
		// The last of a group: a group without fields says nothing, so it goes too.
		return t.takeOut(parent(path), group)
	}
	t.lines = append(t.lines[:b.first], t.lines[b.end:]...)
	return nil
}

// takeItem removes an item of a list that is written with dashes.
func (t *patch) takeItem(path string, e entry) error {
	listed, _ := t.at(path[:strings.LastIndexByte(path, '[')])
	first := e.value.place.Line - 1
	if len(listed.value.items) == 1 {
		return t.takeOut(path[:strings.LastIndexByte(path, '[')], listed)
	}
	text := t.lines[first]
	indent := len(text) - len(strings.TrimLeft(text, " "))
	if !strings.HasPrefix(text[indent:], "-") {
		return errors.New("it stands inside a line with others")
	}
	b := t.blockOf(first, indent, false)
	t.lines = append(t.lines[:b.first], t.lines[b.end:]...)
	return nil
}

// takeFromBraces removes a field from { } on one line.
func (t *patch) takeFromBraces(path string, e entry) error {
	up := parent(path)
	group, ok := t.at(up)
	if !ok || !e.value.exact {
		return errors.New("it stands inside a line with others")
	}
	if len(group.value.entries) == 1 {
		return t.takeOut(up, group)
	}
	at := e.key.place.Line - 1
	before, rest := t.cut(e.key.place)
	if e.value.place.Line != e.key.place.Line {
		return errors.New("it stands inside a line with others")
	}
	value, after := t.cut(e.value.place)
	end := after[len(e.value.text):]
	if q := quote(value, end); q != "" {
		end = end[len(q):]
	}
	_ = rest
	if next := strings.TrimLeft(end, " "); strings.HasPrefix(next, ",") {
		t.lines[at] = before + strings.TrimLeft(next[1:], " ")
		return nil
	}
	t.lines[at] = strings.TrimRight(strings.TrimRight(before, " "), ",") + end
	return nil
}

// replaceBlock writes a text in the place of a whole field.
func (t *patch) replaceBlock(path string, e entry, text string) error {
	if strings.HasSuffix(path, "]") {
		return errors.New("an item of a list is changed with its list")
	}
	b, ok := t.own(e)
	if !ok {
		return fmt.Errorf("%s is not written on lines of its own", e.key.text)
	}
	key, _, _ := strings.Cut(t.lines[b.first], ":")
	t.lines = append(t.lines[:b.first], append(t.written(key, b.indent, text), t.lines[b.end:]...)...)
	return nil
}

// written are the lines of a field; key comes with its indentation.
func (t *patch) written(key string, indent int, text string) []string {
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	first := key + ":"
	if lines[0] == "|" && len(lines) > 1 { // a text of several lines
		first, lines = first+" |", lines[1:]
	} else if len(lines) == 1 && !isItem(lines[0]) && !isField(lines[0]) {
		return []string{key + ": " + lines[0] + t.ends}
	}
	out := []string{first + t.ends}
	for _, l := range lines {
		if l = strings.TrimRight(l, " "); l != "" {
			l = strings.Repeat(" ", indent+2) + l
		}
		out = append(out, l+t.ends)
	}
	return out
}

// isItem and isField tell what a line of a block is.
func isItem(line string) bool { return strings.HasPrefix(line, "- ") }

func isField(line string) bool {
	return !strings.HasPrefix(line, "{") && !strings.HasPrefix(line, "[") && !strings.HasPrefix(line, `"`) && !strings.HasPrefix(line, "'") &&
		(strings.Contains(line, ": ") || strings.HasSuffix(line, ":"))
}

// addField writes a field that is not there, with the groups that it needs.
func (t *patch) addField(path, text string) error {
	up := parent(path)
	if up == "" {
		if end := t.lines[len(t.lines)-1]; end != "" {
			t.lines[len(t.lines)-1] = end + t.ends
		}
		t.lines = append(t.lines, t.ends)
		t.lines = append(t.lines, t.written(last(path), 0, text)...)
		return nil
	}
	group, ok := t.at(up)
	if !ok || group.value.form == empty {
		inner := last(path) + ": " + text
		if strings.Contains(text, "\n") || isItem(text) || isField(text) {
			inner = last(path) + ":\n  " + strings.ReplaceAll(text, "\n", "\n  ")
		}
		if ok {
			return t.replaceBlock(up, group, inner)
		}
		return t.addField(up, inner)
	}
	if group.value.form != fields || len(group.value.entries) == 0 {
		return fmt.Errorf("%s holds no fields", up)
	}
	return t.addBeside(group, last(path), text)
}

// addBeside writes a field behind the last of its group.
func (t *patch) addBeside(group entry, key, text string) error {
	n := len(group.value.entries)
	final := group.value.entries[n-1]
	b, ok := t.own(final)
	if ok {
		lines := t.written(strings.Repeat(" ", b.indent)+key, b.indent, text)
		if end := t.lines[b.end-1]; !strings.HasSuffix(end, "\n") {
			t.lines[b.end-1] = end + t.ends
		}
		t.lines = append(t.lines[:b.end], append(lines, t.lines[b.end:]...)...)
		return nil
	}
	if strings.Contains(text, "\n") || isItem(text) {
		return fmt.Errorf("%s is written on one line, which it does not fit into", group.key.text)
	}
	return t.insert(group, key+": "+inBraces(text))
}

// inBraces puts a value in quotes where a sign in it would end it: inside { }
// and [ ] a comma or a bracket does.
func inBraces(text string) string {
	if text == "" || strings.ContainsAny(text[:1], `{["'`) || !strings.ContainsAny(text, ",[]{}") {
		return text
	}
	if strings.Contains(text, `"`) {
		return "'" + strings.ReplaceAll(text, "'", "''") + "'"
	}
	return `"` + text + `"`
}

// addItem writes one more item of a list.
func (t *patch) addItem(path string, e entry, there bool, text string) error {
	item := "- " + strings.ReplaceAll(text, "\n", "\n  ")
	if !there {
		return t.addField(path, item)
	}
	if e.value.form == empty {
		return t.replaceBlock(path, e, item)
	}
	b, ok := t.own(e)
	if e.value.form != list || !ok || len(e.value.items) == 0 {
		return fmt.Errorf("%s is no list on lines of its own", last(path))
	}
	first := t.lines[e.value.items[0].place.Line-1]
	indent := len(first) - len(strings.TrimLeft(first, " "))
	if !strings.HasPrefix(first[indent:], "-") {
		return fmt.Errorf("%s is written on one line; change it as a whole", last(path))
	}
	if end := t.lines[b.end-1]; !strings.HasSuffix(end, "\n") {
		t.lines[b.end-1] = end + t.ends
	}
	var lines []string
	for _, l := range strings.Split(item, "\n") {
		lines = append(lines, strings.Repeat(" ", indent)+l+t.ends)
	}
	t.lines = append(t.lines[:b.end], append(lines, t.lines[b.end:]...)...)
	return nil
}
