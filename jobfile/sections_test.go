package jobfile

import (
	"context"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/unit"
)

// The example under Tight spots and sections is a job that plans; each kind of
// spot stands in it.
func TestSectionsExample(t *testing.T) {
	_, rest, _ := strings.Cut(intro, "## Tight spots and sections")
	_, rest, _ = strings.Cut(rest, "```yaml\n")
	example, _, ok := strings.Cut(rest, "```")
	if !ok || !strings.Contains(example, "tight spots:") {
		t.Fatal("the section has no example")
	}
	src := lay + "  B3: big side 1 on B2 side 4\n  B4: big side 6 on B1 side 3\n  B5: big side 1 on B4 side 4\n" + example
	spec, _, snags := Read([]byte(src), "job.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	kinds := map[string]bool{}
	for _, s := range spec.TightSpots {
		kinds[s.Kind] = true
	}
	if len(kinds) != len(job.SpotKinds) {
		t.Errorf("the example has %d kinds of spot of %d", len(kinds), len(job.SpotKinds))
	}
	r, snags, err := job.Plan(context.Background(), spec, job.BuiltIn())
	if err != nil || snags.Stops() {
		t.Fatal(err, snags)
	}
	f := r.Sections
	if f == nil || f.Over || len(f.Sections) != 2 || f.Build.By != "strangers" || f.Build.Window == nil || f.Build.Window.Minutes != 180 {
		t.Fatal(f.Says, len(f.Sections), f.Build)
	}
}

// What a file says is in the Spec, in both systems.
func TestSectionsRead(t *testing.T) {
	spec, _, snags := Read([]byte(lay+`tight spots:
  van: {kind: vehicle, length: 3 m, width: 50, height: 54, door width: 48, door height: 50, payload: 500 kg, measured by: Sam}
  turn: {kind: corridor, width: 48, width after: 42, height: 90, turn: 60}
  beams: {kind: ceiling, height: 10 ft, tilting height: 9 ft}
sections:
  together:
    - B1, B2
  apart:
    - B1..B2
  put up by: strangers
  window: 1.5 h
  strike window: 45 min
  wrap: 1 in
`), "job.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	in := unit.Inch
	van, turn, beams := spec.TightSpots[0], spec.TightSpots[1], spec.TightSpots[2]
	if van.Name != "van" || van.Length != 3*unit.Metre || van.DoorWidth != 48*in || van.DoorHeight != 50*in || van.Payload != 500 || van.By != "Sam" {
		t.Errorf("%+v", van)
	}
	if turn.After != 42*in || turn.Turn.String() != "60°" || turn.By != "" || beams.Tilting != 9*unit.Foot {
		t.Errorf("%+v %+v", turn, beams)
	}
	s := spec.Sections
	if s.By != "strangers" || s.Window != 90 || s.Strike != 45 || len(s.Together) != 1 || strings.Join(s.Apart[0], " ") != "B1 B2" {
		t.Errorf("%+v", s)
	}
	if o := spec.Assume[len(spec.Assume)-1]; o.ID != string(assume.SectionsWrap) || o.Value != 1 {
		t.Errorf("%+v", o)
	}
}

// Every field of a kind is a field of the table, and every measure of the table
// belongs to a kind.
func TestSpotKinds(t *testing.T) {
	used := map[string]bool{"kind": true, "measured by": true}
	for _, k := range job.SpotKinds {
		for _, f := range append(append([]string{}, k.Needs...), k.Also...) {
			if used[f] = true; find(spotTable, f) == nil {
				t.Errorf("%s has a field %q that is not read", k.Name, f)
			}
		}
	}
	for _, f := range spotTable {
		if !used[f.Key] {
			t.Errorf("no kind of tight spot has %s", f.Key)
		}
	}
}
