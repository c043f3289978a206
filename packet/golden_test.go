package packet

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"
)

var update = flag.Bool("update", false, "write the goldens anew")

// goldens are what the papers of the samples say, a line of text a line, page by
// page: to be read when they change.
func goldens() map[string]job.Result {
	return map[string]job.Result{"octagon.txt": single().result(), "gateway.txt": gateway().result()}
}

// script is a packet's words, with the page each stands on.
func script(r job.Result) string {
	var b strings.Builder
	for i, p := range Build(r, made).Pages {
		fmt.Fprintf(&b, "== page %d, %s\n", i+1, p.List.Title)
		for _, l := range drawing.Texts(p.List) {
			fmt.Fprintln(&b, strings.TrimRight(l, " "))
		}
	}
	return b.String()
}

func TestGoldens(t *testing.T) {
	for name, r := range goldens() {
		file, got := filepath.Join("testdata", name), script(r)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s: %s (go test ./packet -update writes it anew)", name, firstChange(string(want), got))
		}
	}
}

// firstChange is the first line that differs.
func firstChange(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range w {
		if i >= len(g) || w[i] != g[i] {
			return fmt.Sprintf("line %d was %q, is %q", i+1, w[i], append(g, make([]string, len(w))...)[i])
		}
	}
	return fmt.Sprintf("%d lines more", len(g)-len(w))
}

// TestNoOrphans: a golden that no test writes fails.
func TestNoOrphans(t *testing.T) {
	files, err := os.ReadDir("testdata")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if _, ok := goldens()[f.Name()]; !ok && f.Name() != standingGolden {
			t.Errorf("testdata/%s belongs to no sample", f.Name())
		}
	}
}
