package jobfile

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowerwright/job"
)

// TestPut: what a form writes stands where it belongs, and all else is as it was.
func TestPut(t *testing.T) {
	for _, c := range []struct{ name, in, path, text, out string }{
		{"a line", "name: A # ours\nfor: B\n", "name", "C", "name: C # ours\nfor: B\n"},
		{"a new field", "name: A\n", "tax", "8 %", "name: A\n\ntax: 8 %\n"},
		{"a field at the top goes", "name: A\ntax: 8 %\n# whom\nfor: B\n", "tax", "", "name: A\n# whom\nfor: B\n"},
		{"what is not there is out", "name: A\n", "tax", "", "name: A\n"},
		{"a list as a whole", "timber:\n  pine:\n    lengths:\n      - 8 ft\n      # dear\n      - 10 ft\n    trim: 0 in\n", "timber.pine.lengths", "- 8 ft at $4\n- 12 ft at $9",
			"timber:\n  pine:\n    lengths:\n      - 8 ft at $4\n      - 12 ft at $9\n    trim: 0 in\n"},
		{"a list in brackets", "saw:\n  detents: [0, 45]\n", "saw.detents", "[0, 30, 45]", "saw:\n  detents: [0, 30, 45]\n"},
		{"a list with dashes under its key", "families:\n- a, b\nname: A\n", "families", "- a, c", "families:\n  - a, c\nname: A\n"},
		{"groups that are not there", "name: A\n", "fixing.seams", "B1 and B2: site seam", "name: A\n\nfixing:\n  seams:\n    B1 and B2: site seam\n"},
		{"a kind of frame", "frames:\n  big: {shape: hexagon, flats: 18}\n\nunit: in\n", "frames.hoop", "{shape: ring, segments: 12}",
			"frames:\n  big: {shape: hexagon, flats: 18}\n  hoop: {shape: ring, segments: 12}\n\nunit: in\n"},
		{"last in braces", "frames:\n  big: {shape: hexagon, flats: 18}\n", "frames.big.flats", "", "frames:\n  big: {shape: hexagon}\n"},
		{"first in braces", "frames:\n  big: {spare: 2, shape: hexagon}\n", "frames.big.spare", "", "frames:\n  big: {shape: hexagon}\n"},
		{"the only field goes with its group", "saw:\n  kerf: 3 mm\nname: A\n", "saw.kerf", "", "name: A\n"},
		{"one more item", "people:\n  - {name: Ida}\nname: A\n", "people[+]", "{name: Sam}", "people:\n  - {name: Ida}\n  - {name: Sam}\nname: A\n"},
		{"a first item", "name: A\n", "people[+]", "{name: Sam}", "name: A\n\npeople:\n  - {name: Sam}\n"},
		{"an item goes", "people:\n  - {name: Ida}\n  - name: Sam\n    does: saws\n  - {name: Mo}\n", "people[1]", "", "people:\n  - {name: Ida}\n  - {name: Mo}\n"},
		{"the only item goes with its list", "people:\n  - {name: Ida}\nname: A\n", "people[0]", "", "name: A\n"},
		{"in an item", "people:\n  - name: Ida\n    does: saws\n", "people[0].does", "carries", "people:\n  - name: Ida\n    does: carries\n"},
		{"an empty group", "saw:\nname: A\n", "saw.kerf", "3 mm", "saw:\n  kerf: 3 mm\nname: A\n"},
		{"line ends of another system", "name: A\r\nsaw:\r\n  kerf: 3 mm\r\n", "saw.hold", "8 in", "name: A\r\nsaw:\r\n  kerf: 3 mm\r\n  hold: 8 in\r\n"},
		{"a comma in braces", "saw: {kerf: 3 mm, swing: 50}\n", "saw.swing", "50 left, 60 right", "saw: {kerf: 3 mm, swing: \"50 left, 60 right\"}\n"},
		{"a comma in new braces", "saw: {kerf: 3 mm}\n", "saw.swing", "50 left, 60 right", "saw: {swing: \"50 left, 60 right\", kerf: 3 mm}\n"},
		{"a text of several lines", "name: A\nnote: old\nunit: in\n", "note", "|\nOne.\nTwo: three.", "name: A\nnote: |\n  One.\n  Two: three.\nunit: in\n"},
		{"no line end at the last line", "saw:\n  kerf: 3 mm", "saw.hold", "8 in", "saw:\n  kerf: 3 mm\n  hold: 8 in\n"},
	} {
		got, err := Put([]byte(c.in), []job.EditTo{{Path: c.path, Text: c.text}})
		if err != nil || string(got) != c.out {
			t.Errorf("%s: %v\n%s\nwant\n%s", c.name, err, got, c.out)
		}
	}
}

// TestWrittenGoesBack: every group and list of the examples, taken as it stands
// and put in its own place, leaves the file saying the same.
func TestWrittenGoesBack(t *testing.T) {
	files, _ := filepath.Glob("../examples/*.yaml")
	if len(files) < 3 {
		t.Fatal("no examples")
	}
	for _, name := range files {
		source, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		places := Written(source)
		if len(places) < 40 {
			t.Fatalf("%s: %d places", name, len(places))
		}
		for _, s := range places {
			if s.Text == "" || strings.HasSuffix(s.Path, "]") {
				continue
			}
			got, err := Put(source, []job.EditTo{{Path: s.Path, Text: s.Text}})
			if err != nil {
				t.Errorf("%s %s: %v", name, s.Path, err)
				continue
			}
			if a, b := Written(source), Written(got); !sameSaid(a, b) {
				t.Errorf("%s: putting back %s changes what the file says", name, s.Path)
			}
		}
	}
}

func sameSaid(a, b []Said) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// TestFormsAreTheTable: a form asks for every field of the schema.
func TestFormsAreTheTable(t *testing.T) {
	fields, shapes := Forms()
	if len(fields) != len(jobTable) || len(shapes) != len(job.Shapes) {
		t.Fatalf("%d fields of %d, %d shapes of %d", len(fields), len(jobTable), len(shapes), len(job.Shapes))
	}
	var look func(fs []FormField, at string)
	look = func(fs []FormField, at string) {
		for _, f := range fs {
			if f.Doc == "" || f.Takes == "" || f.Form == "" || f.Example == "" {
				t.Errorf("%s.%s lacks something a form shows: %+v", at, f.Key, f)
			}
			look(f.Fields, at+"."+f.Key)
		}
	}
	look(fields, "job")
	for _, s := range shapes {
		look(s.Fields, s.Name)
	}
	var schema struct{ Properties map[string]any }
	source, err := os.ReadFile("../schema/job.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(source, &schema); err != nil {
		t.Fatal(err)
	}
	asked := map[string]bool{"bowerwright": true}
	for _, f := range fields {
		asked[f.Key] = true
	}
	for key := range schema.Properties {
		if !asked[key] {
			t.Errorf("no form asks for %s", key)
		}
	}
}
