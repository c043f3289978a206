package bowerwright_test

import (
	"strings"
	"testing"
	"testing/fstest"
)

const smallTable = `# x

## Floors

| floor | packages | |
|---|---|---|
| 11 | internal/cli | |
| 10 | internal/web | |
| 3 | drawing/pdf | |
| 2 | ` + "`cut`, `drawing`" + ` | |
| 1 | drawing/ink | |
| 1 | geom | |
| 0 | unit | |

## Next

| 3 | not/read | |
`

// Each case is a tree of one or more files, "path: source", and a part of the
// one message it must give; "" means that it must pass.
var floorCases = []struct {
	name, want string
	tree       []string
}{
	{"down", "", []string{`cut/a.go: package cut; import "m/unit"`}},
	{"two down", "", []string{`cut/a.go: package cut; import ("m/unit"; "m/geom")`}},
	{"up", "geom (floor 1) imports cut above it (floor 2)", []string{`geom/a.go: package geom; import "m/cut"`}},
	{"neighbour", "cut (floor 2) imports its neighbour drawing", []string{`cut/a.go: package cut; import "m/drawing"`}},
	{"a test looks at a neighbour", "", []string{`cut/a_test.go: package cut_test; import ("m/cut"; "m/drawing")`}},
	{"a test looks up", "above it", []string{`cut/a_test.go: package cut; import "m/internal/web"`}},
	{"no floor", "rope: no floor", []string{`rope/a.go: package rope`}},
	{"no floor below a floor", "cut/fast: no floor", []string{`cut/fast/a.go: package fast`}},
	{"import without a floor", "rope has no floor", []string{`cut/a.go: package cut; import "m/rope"`}},
	{"root has no package", ".: no floor", []string{`a.go: package x`}},
	{"root has tests", "", []string{`a_test.go: package x_test; import "m/internal/cli"`}},
	{"own internal", "", []string{`cut/a.go: package cut; import "m/cut/internal/lp"`, `cut/internal/lp/a.go: package lp; import "m/geom"`}},
	{"internal of internal", "", []string{`cut/internal/lp/a.go: package lp; import "m/cut/internal/num"`}},
	{"somebody's internal", "cut/internal/lp belongs to cut alone", []string{`internal/cli/a.go: package cli; import "m/cut/internal/lp"`}},
	{"a neighbour's internal", "cut/internal/lp belongs to cut alone", []string{`drawing/a.go: package drawing; import "m/cut/internal/lp"`}},
	{"below its owner", "", []string{`drawing/pdf/a.go: package pdf; import "m/drawing/internal/face"`}},
	{"below its owner on a lower floor", "above it", []string{`drawing/ink/a.go: package ink; import "m/drawing/internal/face"`}},
	{"internal looks sideways", "neighbour drawing", []string{`cut/internal/lp/a.go: package lp; import "m/drawing"`}},
	{"module's internal", "", []string{`internal/cli/a.go: package cli; import "m/internal/web"`}},
	{"internal of the module's internal", "", []string{`internal/web/a.go: package web; import "m/internal/web/internal/page"`}},
	{"nameless", "the name says nothing", []string{`cut/internal/util/a.go: package util`}},
	{"os", "imports os", []string{`cut/a.go: package cut; import "os"`}},
	{"below os", "imports os/exec", []string{`cut/a.go: package cut; import "os/exec"`}},
	{"os in a test", "", []string{`cut/a_test.go: package cut; import "os"`}},
	{"a generator is no package", "", []string{"odd/gen.go: //go:build ignore\n\npackage main; import \"m/internal/web\""}},
	{"os on an adapter", "", []string{`internal/web/a.go: package web; import ("os"; "net/http"; "time"); var _ = time.Now`}},
	{"os in an internal package", "imports os", []string{`cut/internal/lp/a.go: package lp; import "os"`}},
	{"like os", "", []string{`cut/a.go: package cut; import "ostrich"`}},
	{"net", "imports net/url", []string{`cut/a.go: package cut; import "net/url"`}},
	{"sql", "imports database/sql", []string{`cut/a.go: package cut; import "database/sql"`}},
	{"syscall", "imports syscall", []string{`cut/a.go: package cut; import "syscall"`}},
	{"clock", "uses time.Now", []string{`cut/a.go: package cut; import "time"; var _ = time.Now()`}},
	{"clock by another name", "uses time.Since", []string{`cut/a.go: package cut; import clock "time"; var _ = clock.Since`}},
	{"clock by dot", "dot import hides what is used of time", []string{`cut/a.go: package cut; import . "time"; var _ = Now`}},
	{"a date", "", []string{`cut/a.go: package cut; import "time"; var _ = time.UTC; func f(now time.Time) {}`}},
	{"not the clock", "", []string{`cut/a.go: package cut; import "m/unit"; type t struct{ Now int }; var time t; var _ = time.Now`}},
	{"deadline", "uses context.WithTimeout", []string{`cut/a.go: package cut; import "context"; var _ = context.WithTimeout`}},
	{"global random", "uses math/rand.Intn", []string{`cut/a.go: package cut; import "math/rand"; var _ = rand.Intn(3)`}},
	{"global random, newer", "uses math/rand/v2.IntN", []string{`cut/a.go: package cut; import "math/rand/v2"; var _ = rand.IntN(3)`}},
	{"seeded random", "", []string{`cut/a.go: package cut; import "math/rand/v2"; func f(r *rand.Rand) {}; var _ = rand.New(rand.NewPCG(1, 2))`}},
	{"standard output", "uses fmt.Println", []string{`cut/a.go: package cut; import "fmt"; func f() { fmt.Println() }`}},
	{"a writer", "", []string{`cut/a.go: package cut; import ("fmt"; "io"); func f(w io.Writer) { fmt.Fprintln(w) }`}},
	{"not ours to read", "", []string{`tools/go.mod: module t`, `tools/a.go: package main; import "os"`,
		`cut/testdata/a.go: package x; import "os"`, `_old/a.go: package x`, `.cache/a.go: package x`}},
}

func TestFloorsCanFail(t *testing.T) {
	table, err := readFloors([]byte(smallTable))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range floorCases {
		t.Run(c.name, func(t *testing.T) {
			tree := fstest.MapFS{}
			for _, f := range c.tree {
				name, text, _ := strings.Cut(f, ": ")
				tree[name] = &fstest.MapFile{Data: []byte(text)}
			}
			pkgs, err := readPackages(tree)
			if err != nil {
				t.Fatal(err)
			}
			got := checkFloors("m", table, pkgs)
			want := c.want
			switch {
			case want == "" && len(got) > 0:
				t.Errorf("refused:\n\t%s", strictly(got))
			case want != "" && (len(got) != 1 || !strings.Contains(got[0], want)):
				t.Errorf("want one message with %q, got:\n\t%s", want, strictly(got))
			}
		})
	}
}

func TestReadFloors(t *testing.T) {
	table, err := readFloors([]byte(smallTable))
	if err != nil {
		t.Fatal(err)
	}
	if len(table) != 8 || table["internal/cli"] != 11 || table["drawing"] != 2 || table["unit"] != 0 {
		t.Errorf("read %v", table)
	}
	for name, doc := range map[string]string{
		"no section": "# x\n| 1 | geom |\n",
		"empty":      "# x\n\n## Floors\n\nNone.\n",
		"twice":      "\n## Floors\n| 1 | geom | |\n| 2 | geom | |\n",
	} {
		if _, err := readFloors([]byte(doc)); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
