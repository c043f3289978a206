package jobfile_test

import (
	"context"
	"os"
	"reflect"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/jobfile"
)

func floorOf(t *testing.T, text string) (job.Spec, job.FloorFacts) {
	t.Helper()
	spec, _, _ := jobfile.Read([]byte(text), "job", nil, "")
	f, _, err := job.Floor(spec, job.BuiltIn())
	if err != nil {
		t.Fatal(err)
	}
	return spec, f
}

// What is seen on the floor is what the packet says.
func TestFloorIsWhatPlanSays(t *testing.T) {
	for _, name := range []string{"thistle-wall", "hop-lane", "lantern-gate"} {
		text, err := os.ReadFile("../examples/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		spec, f := floorOf(t, string(text))
		r, snags, err := job.Plan(context.Background(), spec, job.BuiltIn())
		if err != nil || snags.Stops() {
			t.Fatal(err, snags)
		}
		if f.Width != r.Overall.Width || f.Height != r.Overall.Height || f.Weight != r.Overall.Weight || f.AsAsked {
			t.Errorf("%s: %v by %v, %v; the plan says %v by %v, %v", name, f.Width, f.Height, f.Weight, r.Overall.Width, r.Overall.Height, r.Overall.Weight)
		}
		if len(f.Frames) != len(r.Frames) || len(f.Seams) != len(r.Seams) || len(f.Near) != len(r.Near) {
			t.Fatalf("%s: %d frames, %d seams", name, len(f.Frames), len(f.Seams))
		}
		label := map[string]string{}
		for _, q := range f.Frames {
			label[q.ID] = q.Label
			for _, w := range r.Frames {
				if w.ID == q.ID && (w.Label != q.Label || !reflect.DeepEqual(w.Outside, q.Outline) || !reflect.DeepEqual(w.Inside, q.Inside)) {
					t.Errorf("%s: %s is not where the plan has it", name, q.ID)
				}
			}
		}
		for i, s := range r.Seams {
			q := f.Seams[i]
			if got := [2]string{label[q.Frames[0]], label[q.Frames[1]]}; got != s.Frames || q.Sides != s.Sides || q.Length != s.Length {
				t.Errorf("%s: seam %d is %+v", name, s.Number, q)
			}
		}
		for _, k := range r.Kinds {
			for _, q := range f.Kinds {
				if q.Name == k.Name && (!reflect.DeepEqual(q.Outline, k.Outside) || q.Letter != k.Letter || q.Placed != k.Placed) {
					t.Errorf("%s: kind %s is %+v", name, k.Name, q)
				}
			}
		}
	}
}

const floorJob = `bowerwright: 1
name: Small
unit: in
timber:
  pine: {board: 1x4, length: 8 ft}
frames:
  big: {shape: hexagon, flats: 18}
  odd: {shape: square, side: 9}
layout:
  A: big at 0, 0
  B: big side 1 on A side 4
`

// A job with something to put right is seen as far as it goes.
func TestFloorShowsWhatIsThere(t *testing.T) {
	for _, c := range []struct {
		name, old, new string
		frames         string // ids, in order
		over           int
	}{
		{"whole", "", "", "A B", 0},
		{"two in one place", "  B:", "  C: big at 3, 0\n  B:", "A C B", 1},
		{"a copy beside two in one place", "", "  C: big at 3, 0\ncopies:\n  - A as D, moved by 90, 0\n", "A B C D", 1},
		{"a copy of one", "", "copies:\n  - A as D, moved by 90, 0\n", "A B D", 0},
		{"a kind that is none", "  B: big", "  B: bigg", "A", 0},
		{"held on to what is not there", "on A side", "on Z side", "A", 0},
		{"and what holds on to that", "side 4\n", "side 4\n  C: big side 1 on D side 1\n  D: big side 1 on Z side 1\n", "A B", 0},
		{"a shape that is none", "square, side: 9", "squid, side: 9", "A B", 0},
		{"boards too deep", "flats: 18", "flats: 1", "", 0},
		{"nothing placed", floorJob[strings.Index(floorJob, "layout"):], "", "", 0},
		{"nothing at all", floorJob, "", "", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := floorJob + c.new
			if c.old != "" {
				text = strings.Replace(floorJob, c.old, c.new, 1)
			}
			_, f := floorOf(t, text)
			var ids []string
			for _, q := range f.Frames {
				ids = append(ids, q.ID)
			}
			if got := strings.Join(ids, " "); got != c.frames || len(f.Over) != c.over {
				t.Errorf("seen: %q, over %v; want %q, %d", got, f.Over, c.frames, c.over)
			}
		})
	}
}

func TestFloorNamesTheRack(t *testing.T) {
	_, f := floorOf(t, floorJob)
	if len(f.Kinds) != 2 || f.Kinds[1].Name != "odd" || f.Kinds[1].Placed != 0 || len(f.Kinds[1].Sides) != 4 || f.Kinds[1].Sides[0].Length.US != "9 in" {
		t.Errorf("%+v", f.Kinds)
	}
	if f.Mark.Text != "1/16 in" || f.Mark.MM != 1.5875 {
		t.Errorf("mark %+v", f.Mark)
	}
}

func BenchmarkFloor(b *testing.B) {
	text, err := os.ReadFile("../examples/thistle-wall.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		spec, _, _ := jobfile.Read(text, "job", nil, "")
		if _, _, err := job.Floor(spec, job.BuiltIn()); err != nil {
			b.Fatal(err)
		}
	}
}
