package jobfile

import (
	"fmt"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
)

// A FormField is one field of the job file as a form asks for it.
type FormField struct {
	Key     string   `json:"key"`
	Doc     string   `json:"doc"`
	Takes   string   `json:"takes"` // "a length, 0 to 24 in"
	Example string   `json:"example"`
	Usual   string   `json:"usual"`             // what holds when nothing is written
	Source  string   `json:"source"`            // of an assumption that holds then
	Choices []string `json:"choices,omitempty"` // the only words that may stand there
	Need    bool     `json:"need"`

	// Form is "line" for a value on one line, "list" and "fields" for what stands
	// on several. Fields of a list are those of each item. Under tells that the
	// fields stand under names of the user's: 1, or 2 for names under names.
	Form   string      `json:"form"`
	Fields []FormField `json:"fields,omitempty"`
	Under  int         `json:"under,omitempty"`
}

// A FormShape is a shape with the fields that only it has.
type FormShape struct {
	Name    string      `json:"name"`
	Doc     string      `json:"doc"`
	Example string      `json:"example"` // the fields of one, a line each
	Fields  []FormField `json:"fields"`
	Need    []string    `json:"need"`
	OneOf   [][]string  `json:"one_of"` // of these groups exactly one is given
}

// Forms are all fields of a job file and the shapes of frames, in the order of
// the reference.
func Forms() ([]FormField, []FormShape) {
	var shapes []FormShape
	for _, d := range job.Shapes {
		s := FormShape{Name: d.Name, Doc: d.Doc, Example: d.Example, Need: d.Need, OneOf: d.OneOf}
		for _, f := range measureFields(d) {
			s.Fields = append(s.Fields, formField(f.info))
		}
		shapes = append(shapes, s)
	}
	return formFields(describe("", jobTable)), shapes
}

func formFields(s *section) []FormField {
	if s == nil {
		return nil
	}
	var out []FormField
	for _, i := range s.fields {
		out = append(out, formField(i))
	}
	return out
}

func formField(i info) FormField {
	f := FormField{Key: i.Key, Doc: i.Doc, Takes: i.kind.words, Example: i.Example, Usual: i.Usual, Need: i.Need,
		Form: map[form]string{line: "line", list: "list", fields: "fields"}[i.kind.form], Fields: formFields(i.kind.sub)}
	if v, ok := assume.BuiltInBook().Lookup(i.Assume); ok {
		f.Usual = fmt.Sprintf("%s %s", assume.Number(v.Value), v.Unit)
		f.Source = fmt.Sprintf("%s: %s (%s)", v.ID, v.Source, v.Status)
	}
	if words, ok := i.kind.schema["enum"].([]string); ok {
		f.Choices = words
	}
	switch {
	case i.kind.words == "yes or no":
		f.Choices = []string{"yes", "no"}
	case i.kind.ways:
		f.Under = 2
	case i.kind.named:
		f.Under = 1
	}
	return f
}

// A Said is one place of a job file and what stands there.
type Said struct {
	Path string `json:"path"` // as Edit and Put take it
	Form string `json:"form"` // "line", "list", "fields" or "nothing"
	Text string `json:"text"` // of a line its value; else its lines, without the indentation
}

// Written lists every place of a job file, a group before what is in it. It is
// nil for a text that cannot be read as YAML. A key that has a point in it, such
// as a row of frames, has no path: its line stands in the text of its group.
func Written(source []byte) []Said {
	t, err := patchOf(string(source))
	if err != nil {
		return nil
	}
	var out []Said
	t.gather(t.root, "", &out)
	return out
}

func (t *patch) gather(n *node, path string, out *[]Said) {
	for _, e := range n.entries {
		if !strings.Contains(e.key.text, ".") {
			t.gatherOne(e, join(path, e.key.text), out)
		}
	}
	for i, item := range n.items {
		at := fmt.Sprintf("%s[%d]", path, i)
		if item.form == line {
			*out = append(*out, Said{at, "line", item.text})
			continue
		}
		*out = append(*out, Said{at, formWords[item.form], ""})
		t.gather(item, at, out)
	}
}

var formWords = map[form]string{empty: "nothing", line: "line", list: "list", fields: "fields"}

func (t *patch) gatherOne(e entry, path string, out *[]Said) {
	s := Said{path, formWords[e.value.form], e.value.text}
	if e.value.form == list || e.value.form == fields {
		s.Text = t.textOf(e)
	}
	*out = append(*out, s)
	t.gather(e.value, path, out)
}

// textOf is what stands under a key, comments among it.
func (t *patch) textOf(e entry) string {
	b, ok := t.own(e)
	if !ok {
		return ""
	}
	_, behind, _ := strings.Cut(t.lines[b.first], ":")
	if behind = strings.TrimSpace(behind); behind != "" && !strings.HasPrefix(behind, "#") {
		return strings.TrimSpace(behind + "\n" + strings.Join(t.lines[b.first+1:b.end], ""))
	}
	lines := t.lines[b.first+1 : b.end]
	least := -1
	for _, l := range lines {
		if strings.TrimSpace(l) != "" {
			if deep := len(l) - len(strings.TrimLeft(l, " ")); least < 0 || deep < least {
				least = deep
			}
		}
	}
	var text strings.Builder
	for _, l := range lines {
		l = strings.TrimRight(l, "\r\n")
		text.WriteString(l[min(max(least, 0), len(l)):] + "\n")
	}
	return strings.TrimRight(text.String(), "\n")
}
