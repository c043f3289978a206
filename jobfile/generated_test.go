package jobfile

import (
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var generate = flag.Bool("generate", false, "write the schemas and the reference")

// TestGenerated demands that what is made from the table of fields is current.
func TestGenerated(t *testing.T) {
	for name, text := range map[string][]byte{
		"schema/job.schema.json":      Schema(),
		"schema/shop.schema.json":     ShopSchema(),
		"schema/result.schema.json":   ResultSchema(),
		"schema/cut-list.schema.json": CutListSchema(),
		"schema/progress.schema.json": ProgressSchema(),
		"docs/job-file.md":            []byte(Reference()),
	} {
		path := filepath.Join("..", name)
		if *generate {
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if got, err := os.ReadFile(path); err != nil || string(got) != string(text) {
			t.Errorf("%s is not current: go generate ./jobfile (%v)", name, err)
		}
	}
}
