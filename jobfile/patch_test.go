package jobfile

import (
	"context"
	"errors"
	"strings"
	"testing"

	"bowerwright/job"
)

// TestEdit: what is written stands where it belongs, and all else is as it was.
func TestEdit(t *testing.T) {
	for _, c := range []struct{ name, in, path, text, out string }{
		{"a new group", "name: A\n", "base.plate", "{kind: plate}", "name: A\n\nbase:\n  plate: {kind: plate}\n"},
		{"a new group after no line end", "name: A", "standing.floor", "rough", "name: A\n\nstanding:\n  floor: rough\n"},
		{"a new field first in its group", "base:\n  # the old one\n  ring: {kind: ring}\nname: A\n", "base.plate", "{kind: plate}",
			"base:\n  plate: {kind: plate}\n  # the old one\n  ring: {kind: ring}\nname: A\n"},
		{"a new field in braces", "standing: {floor: hall} # later\n", "standing.push", "no", "standing: {push: no, floor: hall} # later\n"},
		{"a value", "base:\n  plate: {kind: plate, depth: 30 in, width: 9 ft} # tried\n", "base.plate.depth", "42 in", "base:\n  plate: {kind: plate, depth: 42 in, width: 9 ft} # tried\n"},
		{"a value in quotes", "standing:\n  floor: \"hall\"  # waxed\n", "standing.floor", "rough", "standing:\n  floor: rough  # waxed\n"},
		{"behind letters of two bytes", "standing: {watch: Zoë Ångström, floor: hall}\n", "standing.floor", "rough", "standing: {watch: Zoë Ångström, floor: rough}\n"},
		{"in a list", "standing:\n  ballast:\n    - {name: bag, owned: 4}\n", "standing.ballast[0].owned", "12", "standing:\n  ballast:\n    - {name: bag, owned: 12}\n"},
		{"line ends of another system", "standing:\r\n  soft: yes\r\n", "standing.floor", "rough", "standing:\r\n  floor: rough\r\n  soft: yes\r\n"},
		{"out", "dressing:\n  greened:\n    moss: {weight: 3 lb}\n    # by the client\n    foam:\n      weight: 2 lb\n      wet: 3\nname: A\n", "dressing.greened.foam", "",
			"dressing:\n  greened:\n    moss: {weight: 3 lb}\n    # by the client\nname: A\n"},
		{"the only one out", "dressing:\n  greened:\n    moss: {weight: 3 lb}\nname: A\n", "dressing.greened.moss", "", "dressing:\n  greened: nothing\nname: A\n"},
	} {
		got, err := Edit([]byte(c.in), []job.EditTo{{Path: c.path, Text: c.text}})
		if err != nil || string(got) != c.out {
			t.Errorf("%s: %v\n%s\nwant\n%s", c.name, err, got, c.out)
		}
	}
}

// TestEditRefuses: what does not fit is told with what to write by hand.
func TestEditRefuses(t *testing.T) {
	for _, c := range []struct{ name, in, path, text, says string }{
		{"no YAML", "a: [\n", "a", "b", "cannot be read"},
		{"a group that is a line", "base: plate\n", "base.plate", "{kind: plate}", "by hand: plate: {kind: plate}"},
		{"a group without fields", "base:\nname: A\n", "base.plate", "{kind: plate}", "base is empty"},
		{"no such piece", "base:\n  ring: {kind: ring}\n", "base.plate.depth", "30 in", "there is no base.plate"},
		{"a value that is no line", "standing:\n  floor: [hall]\n", "standing.floor", "rough", "not written on one line"},
		{"not there", "name: A\n", "dressing.greened.moss", "", "it is not there"},
		{"in a line", "dressing: {greened: {moss: {weight: 3 lb}, foam: {weight: 1 lb}}}\n", "dressing.greened.moss", "", "inside a line"},
		{"a comment behind the key", "dressing:\n  greened: # by the client\n    moss: {weight: 3 lb}\n", "dressing.greened.moss", "", "behind its group's key"},
	} {
		_, err := Edit([]byte(c.in), []job.EditTo{{Path: c.path, Text: c.text}})
		var cannot *CannotEditError
		if !errors.As(err, &cannot) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// TestWaysOutAreWhatTheFileSays: each way out, written into the file and read
// again, gives the verdict that stood beside it.
func TestWaysOutAreWhatTheFileSays(t *testing.T) {
	files := map[string]string{
		"nothing said": lay,
		"metric": strings.ReplaceAll(lay, "unit: in", "unit: in\nshow: metric") +
			"standing:\n  where: outdoors\n  gust: 30 km/h\n",
		"a base and bags": lay + "base:\n  plate: {kind: plate, width: 40, depth: 36} # the old one\nstanding:\n  # weighed\n  ballast:\n    - {name: bag, weight: 20 lb, size: 12 in x 8 in x 4 in, owned: 2}\n" +
			"dressing:\n  draped:\n    cloth: {weight: 4 lb, closes: 100 %}\n    moss: {weight: 1 lb}\n",
		"draped outdoors": lay + "base:\n  plate: {kind: plate, width: 40, depth: 60}\nstanding:\n  where: outdoors\n  floor: rough\n  gust: 30 mph\n  push: no\ndressing:\n  draped:\n    cloth: {weight: 4 lb, closes: 100 %}\n    moss: {weight: 1 lb, closes: 5 %}\n",
		"seams over": top + timber + "frames:\n  big: {shape: hexagon, flats: 12, corner: corner block}\nlayout:\n  B1: big at 0, 0\n  B2: big side 1 on B1 side 4\n  B3: big side 1 on B2 side 4\n" +
			"fixing:\n  seams:\n    # as last year\n    B2 and B1: screws\nbase:\n  plate: {kind: plate, width: 60, depth: 60, weight: 120 lb}\nstanding: {floor: rough, held by: bolts, held at: 4}\nlifting: {in place: yes}\n",
		"outdoors on feet": lay + "base:\n  feet: {kind: feet, width: 4, depth: 12}\nstanding: {where: outdoors, gust: 25 mph}\n",
	}
	kinds := map[string]bool{}
	for name, src := range files {
		spec, _, snags := Read([]byte(src), "job.yaml", nil, "")
		if len(snags) > 0 {
			t.Fatal(name, snags)
		}
		r, snags, err := job.Stand(context.Background(), spec, job.BuiltIn())
		if err != nil || len(snags) > 0 || len(r.Standing.WaysOut) == 0 {
			t.Fatal(name, err, snags, r.Standing)
		}
		for _, w := range r.Standing.WaysOut {
			kinds[w.Kind] = true
			text, err := Edit([]byte(src), w.Edits)
			if err != nil {
				t.Errorf("%s, %s: %v", name, w.Says, err)
				continue
			}
			spec, _, snags := Read(text, "job.yaml", nil, "")
			if len(snags) > 0 {
				t.Errorf("%s, %s: %v\n%s", name, w.Says, snags, text)
				continue
			}
			after, snags, err := job.Stand(context.Background(), spec, job.BuiltIn())
			if err != nil || len(snags) > 0 {
				t.Errorf("%s, %s: %v %v", name, w.Says, err, snags)
				continue
			}
			if got := after.Standing; got.Over == w.Enough || got.Says != w.After || got.Ballast.Units != w.Units {
				t.Errorf("%s, %s: %q and %d units, promised %q and %d", name, w.Says, got.Says, got.Ballast.Units, w.After, w.Units)
			}
		}
	}
	for _, k := range []string{"base", "ballast", "wings", "brace", "stakes", "floor", "dressing", "barrier", "screws"} {
		if !kinds[k] {
			t.Errorf("no file is shown a way out by %s: %v", k, kinds)
		}
	}
}
