package bowerwright_test

import (
	"fmt"
	"go/ast"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// impure are the packages whose import alone reaches outside the program; what
// lies below one of them counts as well.
var impure = []string{"os", "net", "database", "syscall", "io/ioutil", "log", "plugin", "crypto/rand", "unsafe"}

// impureNames are the few names of otherwise harmless packages that read the
// clock or the machine's zone, or write to a standard stream.
var impureNames = map[string][]string{
	"time": {"Now", "Since", "Until", "After", "AfterFunc", "NewTimer", "NewTicker", "Sleep", "Tick", "Local", "LoadLocation"},
	"fmt":  {"Print", "Printf", "Println", "Scan", "Scanf", "Scanln"},
	"context": {"WithTimeout", "WithTimeoutCause",
		"WithDeadline", "WithDeadlineCause"},
}

// seeded are the names of math/rand and math/rand/v2 that need a seed from the
// caller, or are types: all others draw from the global generator.
var seeded = []string{"New", "NewSource", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "Source", "Source64", "PCG", "ChaCha8", "Zipf"}

// checkPure finds what a file of a pure floor may not touch.
func checkPure(src source) []string {
	var faults []string
	names := map[string]string{} // local name to import path
	for _, spec := range src.file.Imports {
		p := importPath(spec)
		local := localName(spec)
		switch {
		case isImpure(p):
			faults = append(faults, fmt.Sprintf("%s: a pure floor imports %s", src.at(spec.Pos()), p))
		case local == "." && watched(p):
			faults = append(faults, fmt.Sprintf("%s: a dot import hides what is used of %s", src.at(spec.Pos()), p))
		default:
			names[local] = p
		}
	}
	ast.Inspect(src.file, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if id, ok := sel.X.(*ast.Ident); ok && forbidden(names[id.Name], sel.Sel.Name) {
			faults = append(faults, fmt.Sprintf("%s: a pure floor uses %s.%s", src.at(sel.Pos()), names[id.Name], sel.Sel.Name))
		}
		return true
	})
	return faults
}

func isImpure(p string) bool {
	return slices.ContainsFunc(impure, func(bad string) bool { return p == bad || strings.HasPrefix(p, bad+"/") })
}

func watched(p string) bool { return impureNames[p] != nil || isRand(p) }

func isRand(p string) bool { return p == "math/rand" || p == "math/rand/v2" }

func forbidden(p, name string) bool {
	if isRand(p) {
		return !slices.Contains(seeded, name)
	}
	return slices.Contains(impureNames[p], name)
}

var majorVersion = regexp.MustCompile(`^v\d+$`)

// localName is the name an import has in its file: its own, or the last part of
// the path that is not a major version.
func localName(spec *ast.ImportSpec) string {
	if spec.Name != nil {
		return spec.Name.Name
	}
	p := importPath(spec)
	if majorVersion.MatchString(path.Base(p)) {
		p = path.Dir(p)
	}
	return path.Base(p)
}

// strictly quotes names for messages of the tests below.
func strictly(names []string) string {
	quoted := make([]string, len(names))
	for i, n := range names {
		quoted[i] = strconv.Quote(n)
	}
	return strings.Join(quoted, "\n\t")
}
