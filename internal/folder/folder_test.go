package folder

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func content(t *testing.T, dir, name string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(dir, name))
	must(t, err)
	return string(b)
}

func TestWriteNamesEveryFileWithItsHash(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	must(t, Write(dir, []File{{"b.csv", []byte("b")}, {"a.pdf", []byte("a")}}))
	var l list
	must(t, json.Unmarshal([]byte(content(t, dir, Manifest)), &l))
	if len(l.Files) != 2 || l.Files[0].Name != "a.pdf" || l.Files[0].SHA256 != hash([]byte("a")) {
		t.Errorf("manifest: %+v", l)
	}
	names, _ := os.ReadDir(dir)
	if len(names) != 3 {
		t.Errorf("left behind: %v", names)
	}
}

func TestSecondWriteReplacesOursAndKeepsTheirs(t *testing.T) {
	dir := t.TempDir()
	must(t, Write(dir, []File{{"a.pdf", []byte("1")}, {"old.csv", []byte("x")}, {"edited.csv", []byte("x")}}))
	must(t, os.WriteFile(filepath.Join(dir, "photo.jpg"), []byte("theirs"), 0o600))
	must(t, os.WriteFile(filepath.Join(dir, "edited.csv"), []byte("by hand"), 0o600))
	must(t, Write(dir, []File{{"a.pdf", []byte("2")}, {"edited.csv", []byte("y")}}))
	for name, want := range map[string]string{"a.pdf": "2", "photo.jpg": "theirs", "edited.csv": "y", "edited.csv.kept": "by hand"} {
		if got := content(t, dir, name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "old.csv")); err == nil {
		t.Error("a file of the old packet that the new one lacks is still there")
	}
}

func TestStrangersFolderIsRefused(t *testing.T) {
	dir := t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, "taxes.txt"), []byte("x"), 0o600))
	if err := Write(dir, []File{{"a", nil}}); !errors.Is(err, ErrNotOurs) {
		t.Errorf("got %v", err)
	}
	must(t, os.WriteFile(filepath.Join(dir, Manifest), []byte(`{"format":"somebody else's"}`), 0o600))
	if err := Check(dir); !errors.Is(err, ErrNotOurs) {
		t.Errorf("a foreign manifest: %v", err)
	}
	if names, _ := os.ReadDir(dir); len(names) != 2 {
		t.Errorf("something was written: %v", names)
	}
}

func TestFailedFirstWriteLeavesNoFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	if err := Write(dir, []File{{"a/b", nil}}); err == nil {
		t.Fatal("no error")
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("an empty folder is left")
	}
}

func TestNamesStayInsideTheFolder(t *testing.T) {
	for _, name := range []string{"../x", "a/b", Manifest} {
		if err := Write(t.TempDir(), []File{{name, nil}}); err == nil {
			t.Errorf("%q was written", name)
		}
	}
	// A manifest edited to name a file outside must not get it removed.
	dir := t.TempDir()
	outside := filepath.Join(filepath.Dir(dir), "outside.txt")
	must(t, os.WriteFile(outside, []byte("x"), 0o600))
	must(t, Write(dir, []File{{"a", []byte("a")}}))
	edited := strings.Replace(content(t, dir, Manifest), `"files": [`,
		`"files": [ {"name": "../outside.txt", "bytes": 1, "sha256": "`+hash([]byte("x"))+`"},`, 1)
	must(t, os.WriteFile(filepath.Join(dir, Manifest), []byte(edited), 0o600))
	must(t, Write(dir, []File{{"a", []byte("a")}}))
	if _, err := os.Stat(outside); err != nil {
		t.Error("a file outside the folder was removed")
	}
}

func TestFailedWriteLeavesNoHalfFile(t *testing.T) {
	dir := t.TempDir()
	must(t, Write(dir, []File{{"a", []byte("whole")}}))
	// A folder in the way of the rename stands for any failing rename.
	must(t, os.Mkdir(filepath.Join(dir, "b"), 0o755))
	must(t, os.WriteFile(filepath.Join(dir, "b", "in"), nil, 0o600))
	if err := Write(dir, []File{{"b", []byte("new")}, {"a", []byte("new")}}); err == nil {
		t.Fatal("no error")
	}
	if got := content(t, dir, "a"); got != "whole" {
		t.Errorf("a is %q", got)
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".b.*")); len(left) != 0 {
		t.Errorf("temporaries left: %v", left)
	}
}
