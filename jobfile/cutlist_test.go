package jobfile

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

const listTop = "bowerwright-cut-list: 1\nunit: in\ntimber:\n  pine: {board: 1x4, length: 8 ft}\n  oak: {board: 1x6, length: 8 ft}\n"

func TestPartsOfACutList(t *testing.T) {
	deg, in := unit.FromDegrees, unit.Inch
	spec, f, snags := ReadCutList([]byte(listTop+`parts:
  rail: 6 of 34 1/2 in, 45 and -22.5, flat, of pine, 1 spare
  post: 9 of 20
  "short, thin": {count: 4, length: 10-3/8", left: 30, right: 30, timber: oak, laid: flat, spare: 2}
  brace: 2 of 2 ft 6 in, on edge, 2 spare, 0 and 45, of oak
`), "list.yaml", nil, "")
	if len(snags) > 0 {
		t.Fatal(snag.Text(snags, f.Source, 96))
	}
	want := []job.ListPart{
		{Name: "rail", Timber: "pine", Flat: true, Outside: 345 * in / 10, Left: deg(45), Right: deg(-22.5), Count: 6, Spare: 1, Path: "parts.rail"},
		{Name: "post", Outside: 20 * in, Count: 9, Path: "parts.post"},
		{Name: "short, thin", Timber: "oak", Flat: true, Outside: 83 * in / 8, Left: deg(30), Right: deg(30), Count: 4, Spare: 2, Path: "parts.short, thin"},
		{Name: "brace", Timber: "oak", Outside: 30 * in, Right: deg(45), Count: 2, Spare: 2, Path: "parts.brace"},
	}
	if !reflect.DeepEqual(spec.Parts, want) {
		t.Errorf("%+v\nwant %+v", spec.Parts, want)
	}
	if spec.Show != "us" || len(spec.Timber) != 2 {
		t.Errorf("%+v", spec.Spec)
	}
	if at := f.Locate("parts.brace"); at.Line != 10 {
		t.Errorf("%+v", at)
	}
}

// A stock is a cut list without parts, and lies over a shop file.
func TestStockWithoutParts(t *testing.T) {
	spec, _, snags := ReadCutList([]byte("bowerwright-cut-list: 1\nsaw: {kerf: 3 mm}\n"), "stock.yaml", []byte(shop), "shop.yaml")
	if len(snags) > 0 || len(spec.Parts) > 0 || len(spec.Timber) == 0 || *spec.Saw.Kerf != 3*unit.Millimetre {
		t.Errorf("%+v, %v", spec, snags)
	}
	if !IsShop([]byte(shop)) || IsShop([]byte(listTop)) || IsShop([]byte("- a\n")) {
		t.Error("a shop file is told by its first field")
	}
}

func TestProgressIsRead(t *testing.T) {
	got, f, snags := ReadProgress([]byte(`bowerwright-progress: 1
unit: in
rounds:
  - packet: 3f2a
    boards:
      1..3: cut
      4: 5 parts cut, knot 31 to 33 and 60 to 61 1/2
      pine 8: short 90
      pine flat 9..10: rejected
      oak on edge 2: 1 part, short 2 ft, split 3 to 4
    spoilt:
      B: 2
  - packet: 00B1
`), "done.yaml")
	if len(snags) > 0 {
		t.Fatal(snag.Text(snags, f.Source, 96))
	}
	in := unit.Inch
	want := job.Progress{Rounds: []job.Round{
		{Packet: "3F2A", Path: "rounds[0]", Boards: []job.Sawn{
			{From: 1, To: 3, Cut: true, Path: "rounds[0].boards.1..3"},
			{From: 4, To: 4, Parts: 5, Spans: [][2]unit.Length{{31 * in, 33 * in}, {60 * in, 123 * in / 2}}, Path: "rounds[0].boards.4"},
			{Timber: "pine", From: 8, To: 8, Short: 90 * in, Path: "rounds[0].boards.pine 8"},
			{Timber: "pine", Laid: "flat", From: 9, To: 10, Rejected: true, Path: "rounds[0].boards.pine flat 9..10"},
			{Timber: "oak", Laid: "on edge", From: 2, To: 2, Parts: 1, Short: 24 * in, Spans: [][2]unit.Length{{3 * in, 4 * in}}, Path: "rounds[0].boards.oak on edge 2"},
		}, Spoilt: []job.Spoilt{{Mark: "B", Count: 2, Path: "rounds[0].spoilt.B"}}},
		{Packet: "00B1", Path: "rounds[1]"},
	}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v\nwant %+v", got, want)
	}
	if at := f.Locate("rounds[0].boards.4"); at.Line != 7 {
		t.Errorf("%+v", at)
	}
}

const progressTop = "bowerwright-progress: 1\nrounds:\n  - packet: 3F2A\n    boards:\n"

// Bad cut lists and progress files, each with what reads it.
var badCutFiles = []struct {
	name, src string
	read      func(string) (*File, snag.List)
}{
	{"list-empty", "", readsList},
	{"list-of-another-file", "bowerwright: 1\nname: x\n", readsList},
	{"list-no-header", "parts:\n  rail: 6 of 34 in\n", readsList},
	{"list-not-fields", "- a\n", readsList},
	{"list-brackets", "a: [", readsList},
	{"list-newer", "bowerwright-cut-list: 9\n", readsList},
	{"list-fields", listTop + "frames: {}\nlayout: {}\npartz: {}\n", readsList},
	{"list-parts", listTop + "parts:\n  a: 6 34 in\n  b: six of 34\n  c: 6 of\n  d: 6 of 34, 45\n  e: 6 of 34, 45 and 45, 30 and 30\n  f: 6 of 34, of elm\n  g: 6 of 34, on flat\n  h: 6 of 34, 99 and 0\n" +
		"  i: 6 of 34 yd\n  j: 6 of 99999 mm\n  k: 6 of 34, x spare\n  l: 6 of 34,\n  m: [6]\n  n:\n  o: 0 of 3\n  " + "ppppppppppppppppppppppppppppppppppppppppppp: 1 of 3\n", readsList},
	{"list-part-fields", listTop + "parts:\n  a: {count: 6}\n  b: {count: 1.5, length: 3, left: 90, laid: upright, timber: elm, spare: -1}\n  c: {count: 1, length: 3, wide: 2}\n", readsList},
	{"progress-empty", "", readsProgress},
	{"progress-of-another-file", "bowerwright: 1\n", readsProgress},
	{"progress-brackets", "a: [", readsProgress},
	{"progress-no-rounds", "bowerwright-progress: 1\n", readsProgress},
	{"progress-rounds", "bowerwright-progress: 1\nrounds:\n  - {boards: {1: cut}}\n  - {packet: 3F2, board: {1: cut}}\n  - {packet: GGGG}\n  - cut\n", readsProgress},
	{"progress-boards", progressTop + "      0: cut\n      3..1: cut\n      pine: cut\n      pine upright 3: cut\n      pine 1..: cut\n      1000000: cut\n", readsProgress},
	{"progress-happened", progressTop + "      1: sawn\n      2: 5\n      3: 5 bits\n      4: cut, 3 parts cut\n      5..6: 5 parts cut\n      7: knot 31\n      8: knot 31 in to 30 in\n" +
		"      9: short\n      10: short 90\n      11: short 40 m\n      12: rejected, short 3 in\n      13: cut, cut\n      14: cut now\n      15: 0 parts cut\n      16: knot 1 in to 2 in and\n      17:\n      18: {a: b}\n    spoilt:\n      B: none\n      C: 1.5\n      D: [1]\n", readsProgress},
}

func readsList(src string) (*File, snag.List) {
	_, f, l := ReadCutList([]byte(src), "list.yaml", nil, "")
	return f, l
}

func readsProgress(src string) (*File, snag.List) {
	_, f, l := ReadProgress([]byte(src), "done.yaml")
	return f, l
}

func TestBadListsAndProgress(t *testing.T) {
	for _, c := range badCutFiles {
		t.Run(c.name, func(t *testing.T) {
			f, l := c.read(c.src)
			if !l.Stops() {
				t.Fatal("nothing to put right was found")
			}
			got, path := snag.Text(l, f.Source, snag.Width), filepath.Join("testdata", "lists", c.name+".txt")
			if *update {
				if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if want, err := os.ReadFile(path); err != nil || string(want) != got {
				t.Errorf("%s is another (%v); it is now:\n%s", path, err, got)
			}
		})
	}
}

// blocks are the examples of a page in a language.
func blocks(t *testing.T, page, language string) (out []string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "docs", page))
	if err != nil {
		t.Fatal(err)
	}
	for i, part := range strings.Split(string(text), "```") {
		if body, ok := strings.CutPrefix(part, language+"\n"); ok && i%2 == 1 {
			out = append(out, body)
		}
	}
	return out
}

// The examples of the pages are read with nothing to put right, and the schemas
// take them; a wrong one they refuse.
func TestExamplesOfThePages(t *testing.T) {
	lists, progress := compile(t, CutListSchema()), compile(t, ProgressSchema())
	list := blocks(t, "cut-list.md", "yaml")
	if len(list) != 1 {
		t.Fatalf("%d examples", len(list))
	}
	spec, f, snags := ReadCutList([]byte(list[0]), "list.yaml", nil, "")
	if len(snags) > 0 || len(spec.Parts) != 4 {
		t.Error(snag.Text(snags, f.Source, 96))
	}
	if err := lists.Validate(asJSON(t, list[0])); err != nil {
		t.Error(err)
	}
	if lists.Validate(asJSON(t, strings.Replace(list[0], "parts:", "partz:", 1))) == nil {
		t.Error("the schema takes a field that there is not")
	}
	done := blocks(t, "progress.md", "yaml")
	if len(done) != 2 {
		t.Fatalf("%d examples", len(done))
	}
	done[1] = "bowerwright-progress: 1\n" + done[1]
	for i, src := range done {
		p, f, snags := ReadProgress([]byte(src), "done.yaml")
		if len(snags) > 0 || len(p.Rounds) != i+1 {
			t.Error(snag.Text(snags, f.Source, 96))
		}
		if err := progress.Validate(asJSON(t, src)); err != nil {
			t.Error(err)
		}
	}
	if progress.Validate(asJSON(t, "bowerwright-progress: 1\nrounds:\n  - {boards: {1: cut}}\n")) == nil {
		t.Error("the schema takes a round without its packet")
	}
}
