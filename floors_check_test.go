package bowerwright_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// topPure is the highest floor whose own files touch nothing outside the
// program.
const topPure = 9

// A source is one parsed Go file, named by its path in the tree.
type source struct {
	name string
	test bool
	file *ast.File
	fset *token.FileSet
}

// at names a place in the file for a message.
func (s source) at(p token.Pos) string {
	return fmt.Sprintf("%s:%d", s.name, s.fset.Position(p).Line)
}

var floorRow = regexp.MustCompile(`^\|\s*(\d+)\s*\|([^|]*)\|`)

// readFloors takes the table of "## Floors" out of the document: package path
// below the module to floor.
func readFloors(doc []byte) (map[string]int, error) {
	_, text, ok := strings.Cut(string(doc), "\n## Floors\n")
	if !ok {
		return nil, fmt.Errorf(`no section "## Floors"`)
	}
	text, _, _ = strings.Cut(text, "\n## ")
	table := map[string]int{}
	for line := range strings.Lines(text) {
		row := floorRow.FindStringSubmatch(line)
		if row == nil {
			continue
		}
		floor, err := strconv.Atoi(row[1])
		if err != nil {
			return nil, err
		}
		for _, name := range strings.FieldsFunc(row[2], func(r rune) bool { return strings.ContainsRune(" ,;`", r) }) {
			if _, twice := table[name]; twice {
				return nil, fmt.Errorf("%s is on two floors", name)
			}
			table[name] = floor
		}
	}
	if len(table) == 0 {
		return nil, fmt.Errorf("the table of floors is empty")
	}
	return table, nil
}

// neverBuilt says whether a file stands outside every package: a generator that
// is run by its name.
func neverBuilt(f *ast.File) bool {
	for _, group := range f.Comments {
		for _, c := range group.List {
			if c.Pos() < f.Package && c.Text == "//go:build ignore" {
				return true
			}
		}
	}
	return false
}

// readPackages parses every Go file of the module, by directory. What the go
// command ignores is ignored: nested modules, testdata, vendor, and names that
// begin with a dot or an underscore. The module's root holds tests only.
func readPackages(tree fs.FS) (map[string][]source, error) {
	pkgs := map[string][]source{}
	err := fs.WalkDir(tree, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != "." && ignoredDir(tree, name) {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") || strings.HasPrefix(d.Name(), ".") || strings.HasPrefix(d.Name(), "_") {
			return nil
		}
		src, err := parseSource(tree, name)
		if err != nil {
			return err
		}
		if neverBuilt(src.file) {
			return nil
		}
		dir := path.Dir(name)
		if dir != "." || !src.test {
			pkgs[dir] = append(pkgs[dir], src)
		}
		return nil
	})
	return pkgs, err
}

func ignoredDir(tree fs.FS, name string) bool {
	base := path.Base(name)
	if base == "testdata" || base == "vendor" || base == "node_modules" || base[0] == '.' || base[0] == '_' {
		return true
	}
	_, err := fs.Stat(tree, path.Join(name, "go.mod"))
	return err == nil
}

func parseSource(tree fs.FS, name string) (source, error) {
	text, err := fs.ReadFile(tree, name)
	if err != nil {
		return source{}, err
	}
	fset := token.NewFileSet()
	file, err := parser.ParseFile(fset, name, text, parser.SkipObjectResolution|parser.ParseComments)
	return source{name, strings.HasSuffix(name, "_test.go"), file, fset}, err
}

// owner is the package that may import the internal package p, or "" when p is
// not the internal package of another. A leading internal/ belongs to the
// module and is an ordinary place.
func owner(p string) string {
	i := strings.LastIndex("/"+p+"/", "/internal/")
	if i <= 0 {
		return ""
	}
	return p[:i-1]
}

// floorOf finds the floor of a package, its owner's for an internal one.
func floorOf(table map[string]int, p string) (int, bool) {
	for o := p; o != ""; o = owner(o) {
		if floor, ok := table[o]; ok {
			return floor, true
		}
	}
	return 0, false
}

var nameless = []string{"util", "utils", "common", "helper", "helpers", "model", "models", "manager", "types", "misc"}

// checkFloors gives one message for everything that breaks a rule, in the
// order of the paths.
func checkFloors(module string, table map[string]int, pkgs map[string][]source) []string {
	var faults []string
	dirs := make([]string, 0, len(pkgs))
	for dir := range pkgs {
		dirs = append(dirs, dir)
	}
	slices.Sort(dirs)
	for _, dir := range dirs {
		if slices.Contains(nameless, path.Base(dir)) {
			faults = append(faults, dir+": the name says nothing about what is in it")
		}
		floor, ok := floorOf(table, dir)
		if !ok {
			faults = append(faults, dir+": no floor in ARCHITECTURE.md")
			continue
		}
		for _, src := range pkgs[dir] {
			faults = append(faults, checkImports(module, table, dir, floor, src)...)
			if floor <= topPure && !src.test {
				faults = append(faults, checkPure(src)...)
			}
		}
	}
	return faults
}

// checkImports holds one file to the floors. A test may also look at its own
// package and at its neighbours, which are often the truth it is held against,
// but never up.
func checkImports(module string, table map[string]int, dir string, floor int, src source) []string {
	var faults []string
	say := func(spec *ast.ImportSpec, format string, args ...any) {
		faults = append(faults, src.at(spec.Pos())+": "+fmt.Sprintf(format, args...))
	}
	for _, spec := range src.file.Imports {
		target, ours := strings.CutPrefix(importPath(spec), module+"/")
		if !ours {
			continue
		}
		there, ok := floorOf(table, target)
		o := owner(target)
		switch {
		case !ok:
			say(spec, "%s has no floor", target)
		case o != "" && dir != o && !strings.HasPrefix(dir, o+"/"):
			say(spec, "%s belongs to %s alone", target, o)
		case there > floor:
			say(spec, "%s (floor %d) imports %s above it (floor %d)", dir, floor, target, there)
		case there == floor && !src.test && !oneHouse(dir, target):
			say(spec, "%s (floor %d) imports its neighbour %s", dir, floor, target)
		}
	}
	return faults
}

// oneHouse reports whether the target is an internal package of dir, or dir and
// the target are internal packages of one owner: these share a floor.
func oneHouse(dir, target string) bool {
	o := owner(target)
	return o != "" && (dir == o || strings.HasPrefix(dir, o+"/internal/"))
}

func importPath(spec *ast.ImportSpec) string {
	p, err := strconv.Unquote(spec.Path.Value)
	if err != nil {
		return spec.Path.Value // the parser has already refused it
	}
	return p
}
