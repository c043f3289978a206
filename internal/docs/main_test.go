package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowerwright/cutlist"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/snag"
)

func TestPagesAreCurrent(t *testing.T) {
	const root = "../.."
	all, err := pages(root)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range all {
		got, err := os.ReadFile(filepath.Join(root, "docs", name))
		if err != nil {
			t.Error(err)
		} else if string(got) != want {
			t.Errorf("docs/%s is not what the code says: run make generate", name)
		}
	}
}

// Every code that a user may meet is demanded by a test or stands in a golden
// or a script. A test that only lists codes does not count: the code must stand
// in quotes or in the brackets that messages end with.
func TestEverySnagIsTested(t *testing.T) {
	kinds, err := snag.Merge(job.Snags, jobfile.Snags, cutlist.Snags)
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, dir := range []string{"job", "jobfile", "cutlist", "internal/cli"} {
		err := filepath.WalkDir(filepath.Join("../..", dir), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, "_test.go") && !strings.Contains(path, "testdata") {
				return err
			}
			b, err := os.ReadFile(path)
			all.Write(b)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, k := range kinds {
		if !strings.Contains(all.String(), "["+k.Code+"]") && !strings.Contains(all.String(), `"`+k.Code+`"`) {
			t.Errorf("no test shows %s", k.Code)
		}
	}
}
