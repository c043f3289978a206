// Package folder writes a packet's files to disk so that each appears whole or
// not at all: a temporary beside it, synced, then renamed.
//
// A folder of ours holds manifest.json, which names every file we wrote with
// its hash. Files that are not in the manifest belong to somebody else and are
// kept; a folder that is neither empty nor ours is refused.
package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
)

// Manifest is the name of the file that makes a folder ours.
const Manifest = "manifest.json"

// A File is one file of a packet: a plain name, no folders in it.
type File struct {
	Name string
	Data []byte
}

// list is what manifest.json holds.
type list struct {
	Format  string  `json:"format"`
	Version int     `json:"version"`
	Files   []entry `json:"files"`
}

type entry struct {
	Name   string `json:"name"`
	Bytes  int    `json:"bytes"`
	SHA256 string `json:"sha256"`
}

const format = "bowerwright manifest"

// ErrNotOurs says that a folder holds files and no manifest of ours.
var ErrNotOurs = errors.New("the folder is not empty and holds no packet")

// Check tells whether Write would accept the folder, without touching it.
func Check(dir string) error {
	_, err := read(dir)
	return err
}

// Write puts the files into dir, making it if need be, and takes away files of
// an earlier packet that the new one no longer has. A file that somebody
// changed since we wrote it is kept under NAME.kept rather than lost. The
// manifest is written last: a crash leaves an old or a new manifest, and whole
// files.
func Write(dir string, files []File) error {
	old, err := read(dir)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	defer os.Remove(dir) // only takes away an empty folder: nothing could be written
	if err := keepChanged(dir, old, files); err != nil {
		return err
	}
	now := list{Format: format, Version: 1}
	for _, f := range files {
		if f.Name != filepath.Base(f.Name) || f.Name == Manifest {
			return fmt.Errorf("%q is no name for a packet file", f.Name)
		}
		if err := whole(dir, f.Name, f.Data); err != nil {
			return err
		}
		now.Files = append(now.Files, entry{f.Name, len(f.Data), hash(f.Data)})
	}
	sort.Slice(now.Files, func(i, j int) bool { return now.Files[i].Name < now.Files[j].Name })
	data, err := json.MarshalIndent(now, "", "  ")
	if err != nil {
		return err
	}
	if err := whole(dir, Manifest, append(data, '\n')); err != nil {
		return err
	}
	return dropOld(dir, old, now)
}

// read gives the manifest of a folder; an empty or missing folder has an empty
// one.
func read(dir string) (list, error) {
	var l list
	names, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) || (err == nil && len(names) == 0) {
		return l, nil
	}
	if err != nil {
		return l, err
	}
	data, err := os.ReadFile(filepath.Join(dir, Manifest))
	if errors.Is(err, fs.ErrNotExist) {
		return l, fmt.Errorf("%s: %w", dir, ErrNotOurs)
	}
	if err != nil {
		return l, err
	}
	if err := json.Unmarshal(data, &l); err != nil || l.Format != format {
		return l, fmt.Errorf("%s: %w", filepath.Join(dir, Manifest), ErrNotOurs)
	}
	return l, nil
}

// Changed lists the files in dir that Write will set aside as NAME.kept before
// it writes: those that somebody edited since we wrote them, and those of
// somebody else's that have the name of a new one.
func Changed(dir string, files []File) ([]string, error) {
	old, err := read(dir)
	if err != nil {
		return nil, err
	}
	return changed(dir, old, files)
}

func changed(dir string, old list, files []File) ([]string, error) {
	was := map[string]string{}
	for _, e := range old.Files {
		was[e.Name] = e.SHA256
	}
	var names []string
	for _, f := range files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		if h := hash(data); h != was[f.Name] && h != hash(f.Data) {
			names = append(names, f.Name)
		}
	}
	return names, nil
}

// keepChanged sets those files aside.
func keepChanged(dir string, old list, files []File) error {
	names, err := changed(dir, old, files)
	if err != nil {
		return err
	}
	for _, name := range names {
		if err := os.Rename(filepath.Join(dir, name), filepath.Join(dir, name+".kept")); err != nil {
			return err
		}
	}
	return nil
}

// dropOld removes files of the old manifest that the new one no longer names,
// if they are still as we wrote them.
func dropOld(dir string, old, now list) error {
	still := map[string]bool{}
	for _, e := range now.Files {
		still[e.Name] = true
	}
	for _, e := range old.Files {
		// A manifest is a file that anybody may have edited: only plain names
		// are ever removed.
		if still[e.Name] || e.Name != filepath.Base(e.Name) {
			continue
		}
		path := filepath.Join(dir, e.Name)
		if data, err := os.ReadFile(path); err == nil && hash(data) == e.SHA256 {
			if err := os.Remove(path); err != nil {
				return err
			}
		}
	}
	return nil
}

// WriteFile writes one file so that it appears whole or not at all; a link is
// followed.
func WriteFile(name string, data []byte) error {
	name, err := filepath.EvalSymlinks(name)
	if err != nil {
		return err
	}
	return whole(filepath.Dir(name), filepath.Base(name), data)
}

// whole writes one file so that it appears whole or not at all.
func whole(dir, name string, data []byte) (err error) {
	f, err := os.CreateTemp(dir, "."+name+".*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	if _, err = f.Write(data); err != nil {
		return err
	}
	if err = f.Chmod(0o644); err != nil {
		return err
	}
	if err = f.Sync(); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), filepath.Join(dir, name))
}

func hash(b []byte) string {
	h := sha256.Sum256(b)
	return hex.EncodeToString(h[:])
}
