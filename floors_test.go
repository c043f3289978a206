// Package bowerwright_test holds the tests of the tree as a whole.
package bowerwright_test

import (
	"bytes"
	"io/fs"
	"os"
	"testing"
)

// TestFloors holds every package of the module to the table of floors in
// ARCHITECTURE.md. The files are parsed here rather than listed by the go
// command, because the test cache only notices files that the test itself
// opens.
func TestFloors(t *testing.T) {
	tree := os.DirFS(".")
	doc, err := fs.ReadFile(tree, "ARCHITECTURE.md")
	if err != nil {
		t.Fatal(err)
	}
	table, err := readFloors(doc)
	if err != nil {
		t.Fatal(err)
	}
	pkgs, err := readPackages(tree)
	if err != nil {
		t.Fatal(err)
	}
	if len(pkgs) == 0 {
		t.Fatal("no packages found: the test looks in the wrong place")
	}
	for _, f := range checkFloors("bowerwright", table, pkgs) {
		t.Error(f)
	}
}

// TestCommandStaysSmall keeps the command a door: what it does is in
// internal/cli, where it can be tested.
func TestCommandStaysSmall(t *testing.T) {
	const most = 40 // lines, the figure of the table of floors
	files, err := fs.Glob(os.DirFS("."), "cmd/*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) == 0 {
		t.Fatal("no command found under cmd")
	}
	for _, name := range files {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(src, []byte("\n")); n >= most {
			t.Errorf("%s has %d lines; it stays under %d", name, n, most)
		}
	}
}
