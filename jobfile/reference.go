package jobfile

import (
	_ "embed"
	"fmt"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
)

//go:embed intro.md
var intro string

// made heads every page that is generated.
const made = "<!-- Made by go generate from the table of fields; change jobfile, not this page. -->\n\n"

// Reference is the page that explains the job file: how it is written, every
// field and every shape.
func Reference() string {
	var b strings.Builder
	head := strings.Replace(intro, "STARTER", string(Starter("Orchard wall")), 1)
	b.WriteString(made + strings.Replace(head, "RESERVED", strings.Join(reserved, ", "), 1))
	b.WriteString("\n## Fields\n\n")
	writeFields(&b, describe("", jobTable))
	for _, f := range jobTable {
		if s := f.kind.sub; s != nil && s.name != "frames" {
			writeSection(&b, f.Key, f.info)
		}
	}
	fmt.Fprintf(&b, "\n### frames\n\nEach kind of frame has these fields and the measures of its shape.\n\n")
	writeFields(&b, describe("frames", kindTable))
	b.WriteString("\n## Shapes\n\nMeasures are outside measures unless they say otherwise. \"Diameter\" is never read: it could mean several sizes.\n")
	for _, d := range job.Shapes {
		writeShape(&b, d)
	}
	return b.String()
}

// writeSection explains a group of fields, and the groups in it.
func writeSection(b *strings.Builder, name string, i info) {
	fmt.Fprintf(b, "\n### %s\n\n%s\n\n", name, i.Doc)
	writeFields(b, i.kind.sub)
	for _, f := range i.kind.sub.fields {
		if f.kind.sub != nil {
			writeSection(b, name+", "+f.Key, f)
		}
	}
}

func writeFields(b *strings.Builder, s *section) {
	b.WriteString("| field | takes | what it says | not given |\n|---|---|---|---|\n")
	for _, i := range s.fields {
		doc := i.Doc
		if i.JobOnly {
			doc += " *Job file only.*"
		}
		fmt.Fprintf(b, "| `%s` | %s; `%s` | %s | %s |\n", i.Key, cell(i.kind.words), cell(i.Example), cell(doc), cell(i.usual()))
	}
}

// usual says what holds when the field is not given.
func (i info) usual() string {
	if i.Need {
		return "**needed**"
	}
	if v, ok := assume.BuiltInBook().Lookup(i.Assume); ok {
		return fmt.Sprintf("assumption `%s`, %s %s", v.ID, assume.Number(v.Value), v.Unit)
	}
	return i.Usual
}

func writeShape(b *strings.Builder, d job.ShapeDef) {
	fmt.Fprintf(b, "\n### %s\n\n%s", d.Name, d.Doc)
	if len(d.Also) > 0 {
		fmt.Fprintf(b, " Also read: %s.", strings.Join(d.Also, ", "))
	}
	if len(d.OneOf) > 0 {
		fmt.Fprintf(b, " Give exactly one: %s.", sizesOf(d, &node{}))
	}
	b.WriteString("\n\n")
	writeFields(b, describe(d.Name, measureFields(d)))
	example := "shape: " + d.Name + "\n" + d.Example
	fmt.Fprintf(b, "\n```yaml\nframes:\n  mine:\n    %s\n```\n", strings.ReplaceAll(example, "\n", "\n    "))
}

// cell keeps a text from ending its cell of a table.
func cell(s string) string { return strings.ReplaceAll(s, "|", "\\|") }
