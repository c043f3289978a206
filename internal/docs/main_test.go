package main

import (
	"os"
	"path/filepath"
	"testing"
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
