package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// A module is one linked into the program, with the files that state its terms.
type module struct {
	Path, Version string
	Files         []file
}

// A file states terms: a licence, a notice, a grant of patents. Its name is
// relative to the module's folder.
type file struct {
	Name, Text string
}

// systems are those the program is released for; the packages linked differ.
var systems = []string{"darwin", "linux", "windows"}

// A listed package is the part of `go list -json` that is read here.
type listed struct {
	Dir      string
	Standard bool
	Module   *struct {
		Path, Version, Dir string
		Main               bool
	}
}

// linked asks the go command for the packages of the command, and reads the
// files of terms at the top of each module and beside each package that is
// linked. The Go distribution itself, whose standard library and runtime are
// linked into everything, comes first, without a version: which release builds
// the program is not this file's business.
func linked(dir, command string) ([]module, error) {
	folders := map[[2]string]map[string]bool{} // path and version to folders
	roots := map[[2]string]string{}
	for _, system := range systems {
		pkgs, err := list(dir, command, system)
		if err != nil {
			return nil, err
		}
		for _, p := range pkgs {
			if p.Standard || p.Module == nil || p.Module.Main {
				continue
			}
			key := [2]string{p.Module.Path, p.Module.Version}
			if folders[key] == nil {
				folders[key], roots[key] = map[string]bool{p.Module.Dir: true}, p.Module.Dir
			}
			folders[key][p.Dir] = true
		}
	}
	goFiles, err := goTerms()
	if err != nil {
		return nil, err
	}
	modules := []module{{Path: "Go standard library and runtime", Files: goFiles}}
	for key, in := range folders {
		files, err := terms(roots[key], in)
		if err != nil {
			return nil, err
		}
		modules = append(modules, module{key[0], key[1], files})
	}
	slices.SortFunc(modules[1:], func(a, b module) int { return strings.Compare(a.Path, b.Path) })
	return modules, nil
}

func list(dir, command, system string) ([]listed, error) {
	cmd := exec.Command("go", "list", "-deps", "-json=Dir,Standard,Module", command)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH=amd64")
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go list for %s: %w", system, err)
	}
	var pkgs []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			return pkgs, nil
		}
		if err != nil {
			return nil, err
		}
		pkgs = append(pkgs, p)
	}
}

func goTerms() ([]file, error) {
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, err
	}
	root := strings.TrimSpace(string(out))
	return terms(root, map[string]bool{root: true})
}

var statesTerms = regexp.MustCompile(`(?i)^((un)?licen[cs]e|copying|notice|patents|[a-z0-9]+-licen[cs]e)([.-].*)?$`)

// terms reads the files that state terms in the folders of one module, in the
// order of their names. Go sources are code whatever they are called.
func terms(root string, folders map[string]bool) ([]file, error) {
	var files []file
	for folder := range folders {
		entries, err := os.ReadDir(folder)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if e.IsDir() || filepath.Ext(e.Name()) == ".go" || !statesTerms.MatchString(e.Name()) {
				continue
			}
			text, err := os.ReadFile(filepath.Join(folder, e.Name()))
			if err != nil {
				return nil, err
			}
			name, err := filepath.Rel(root, filepath.Join(folder, e.Name()))
			if err != nil {
				return nil, err
			}
			files = append(files, file{filepath.ToSlash(name), string(text)})
		}
	}
	slices.SortFunc(files, func(a, b file) int { return strings.Compare(a.Name, b.Name) })
	return files, nil
}
