package jobfile

import (
	"fmt"
	"strings"

	"bowerwright/assume"
	"bowerwright/snag"
)

// An info is what the reader, the schema and the reference say about a field.
type info struct {
	Key     string
	Doc     string    // one sentence or two
	Example string    // a value; for a list or fields, what stands in it
	Usual   string    // what holds when it is not given, in words
	Assume  assume.ID // the assumption that holds when it is not given
	Need    bool      // must be given
	JobOnly bool      // not in a shop file
	kind    kind
}

// A kind is what a field takes.
type kind struct {
	words  string // "a length"
	form   form
	schema object   // JSON Schema of the value
	sub    *section // of the fields in it, if it has any
	named  bool     // sub is repeated under names of the user's
	ways   bool     // and those under names again; a line "nothing" has none
}

// A section is a group of fields as the schema and the reference see it.
type section struct {
	name   string
	fields []info
}

// remedy says what to write for the field.
func (i info) remedy() string {
	switch i.kind.form {
	case list:
		return fmt.Sprintf("write %s: and under it lines such as - %s", i.Key, i.Example)
	case fields:
		return fmt.Sprintf("write %s: and under it, indented, such as %s", i.Key, i.Example)
	}
	return fmt.Sprintf("write %s: %s", i.Key, i.Example)
}

// A field is one row of the table: what it is, and how it is read into a T.
type field[T any] struct {
	info
	read func(r *reader, n *node, into *T)
}

// describe takes the reading off a table.
func describe[T any](name string, table []field[T]) *section {
	s := &section{name: name}
	for _, f := range table {
		s.fields = append(s.fields, f.info)
	}
	return s
}

// readFields reads fields by their table; what names the group in messages.
func readFields[T any](r *reader, n *node, what string, table []field[T], into *T) {
	var keys []string
	for _, f := range table {
		if !(f.JobOnly && r.origin == assume.Shop) {
			keys = append(keys, f.Key)
		}
	}
	given := map[string]bool{}
	for _, e := range r.entries(n) {
		f := find(table, e.key.text)
		if f == nil {
			r.unknown(e, what, keys)
			continue
		}
		given[f.Key] = true
		if f.JobOnly && r.origin == assume.Shop {
			r.bad(otherFile, e.key, e.key.text+" belongs into the job file", "take it out of the shop file")
			continue
		}
		r.within(&f.info, func() { f.read(r, e.value, into) })
	}
	for _, f := range table {
		if f.Need && !given[f.Key] {
			r.bad(missingField, n, fmt.Sprintf("%s has no %s", what, f.Key), f.remedy())
		}
	}
}

func find[T any](table []field[T], key string) *field[T] {
	for i := range table {
		if table[i].Key == key {
			return &table[i]
		}
	}
	return nil
}

// unknown refuses a key that is none of keys.
func (r *reader) unknown(e entry, what string, keys []string) {
	key := e.key
	remedy := "write one of: " + strings.Join(keys, ", ")
	if e.value.form == empty && len(strings.Fields(key.text)) > 0 && strings.ContainsAny(key.text[:1], "0123456789.-") {
		// No field begins with a figure: it is the rest of a value that a comma
		// inside { } has cut.
		r.bad(unknownField, key, fmt.Sprintf("%q is no field of %s: a comma inside { } ends a value", key.text, what),
			"put a value that has a comma in quotes, such as swing: '50 left, 60 right'")
		return
	}
	if near := snag.DidYouMean(key.text, keys); near != "" {
		remedy = fmt.Sprintf("did you mean %s?", near)
	}
	r.bad(unknownField, key, fmt.Sprintf("%s has no field %q", what, key.text), remedy)
}

// entries gives the fields that stand in a node, each key once.
func (r *reader) entries(n *node) []entry {
	first := map[string]int{}
	var out []entry
	for _, e := range n.entries {
		if at, twice := first[e.key.text]; twice {
			r.bad(duplicateField, e.key, fmt.Sprintf("%q is given twice; the first is in line %d", e.key.text, at),
				"keep one of them")
			continue
		}
		first[e.key.text] = e.key.place.Line
		out = append(out, e)
	}
	return out
}

// within reads with a field in mind, which messages then name.
func (r *reader) within(i *info, read func()) {
	before := r.at
	r.at = i
	read()
	r.at = before
}

// isItem checks the form of what stands under a name of the user's.
func (r *reader) isItem(e entry, want form, example string) (ok bool) {
	r.within(&info{Key: e.key.text, Example: example, kind: kind{form: want}}, func() { ok = r.is(e.value, want) })
	return ok
}
