package stand

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A number of the code: a constant by its name, or a number by itself.
type number struct{ pkg, name string }

// listed reads the table of what is no assumption and says why.
func listed(t *testing.T) map[number]string {
	t.Helper()
	text, err := os.ReadFile("testdata/numbers.txt")
	if err != nil {
		t.Fatal(err)
	}
	kinds := []string{"definition", "published", "counted", "rounding", "practice"}
	out := map[number]string{}
	for line := range strings.Lines(string(text)) {
		f := strings.Fields(line)
		if len(f) == 0 || f[0] == "#" {
			continue
		}
		if len(f) != 3 || !slices.Contains(kinds, f[2]) {
			t.Fatalf("not a line of the table: %s", line)
		}
		out[number{f[0], f[1]}] = f[2]
	}
	return out
}

// geometric are the numbers of geometry: halves, quarters, squares, three unknowns.
var geometric = []string{"0", "1", "2", "3", "4", "0.0", "1.0", "2.0", "3.0", "4.0"}

// numbersOf lists every number of a file that is not plain geometry, those in
// constants by the names of the constants.
func numbersOf(set *token.FileSet, file *ast.File, pkg string) map[number]token.Position {
	out := map[number]token.Position{}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl:
			if n.Tok != token.CONST {
				return true
			}
			for _, s := range n.Specs {
				constants(set, s.(*ast.ValueSpec), pkg, out)
			}
			return false
		case *ast.BasicLit:
			if isNumber(n) && !slices.Contains(geometric, n.Value) {
				out[number{pkg, n.Value}] = set.Position(n.Pos())
			}
		}
		return true
	})
	return out
}

// constants adds those that have a number in them, plain or not: a constant has a
// meaning, so that 4 may be a tolerance there.
func constants(set *token.FileSet, s *ast.ValueSpec, pkg string, out map[number]token.Position) {
	for i, v := range s.Values {
		ast.Inspect(v, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && isNumber(lit) {
				out[number{pkg, s.Names[i].Name}] = set.Position(s.Pos())
			}
			return true
		})
	}
}

func isNumber(l *ast.BasicLit) bool { return l.Kind == token.INT || l.Kind == token.FLOAT }

// numbersIn is numbersOf for all files of a package that are not tests.
func numbersIn(t *testing.T, pkg string) map[number]token.Position {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", filepath.FromSlash(pkg), "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	out := map[number]token.Position{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for n, at := range numbersOf(set, file, pkg) {
			out[n] = at
		}
	}
	return out
}

// TestEveryNumberIsListed: what standing, strength and fixing are reckoned from
// is geometry, an assumption that can be edited, or stands in a table that says
// what else it is. A new number fails until it is one of them; so does a line of
// the table that nothing needs any more.
func TestEveryNumberIsListed(t *testing.T) {
	table := listed(t)
	for _, pkg := range []string{"stand", "statics", "statics/internal/ldl", "fixing"} {
		found := numbersIn(t, pkg)
		if len(found) < 5 {
			t.Fatalf("%s: only %d numbers: the test looks in the wrong place", pkg, len(found))
		}
		for n, at := range found {
			if table[n] == "" {
				t.Errorf("%s: %s is neither geometry nor an assumption, and not in testdata/numbers.txt", at, n.name)
			}
		}
		for n := range table {
			if _, ok := found[n]; n.pkg == pkg && !ok {
				t.Errorf("testdata/numbers.txt lists %s of %s, which is not there", n.name, pkg)
			}
		}
	}
}

// TestNumbersAreFound: each way to write a number is found, geometry is not.
func TestNumbersAreFound(t *testing.T) {
	const code = `package p
const factor = 1.5
const ( third, word = 1.0 / 3, "x" )
var reach = []float64{0.62, 2}
func f(x float64) float64 {
	const local = 7
	if x > 1e3 { return -0x1F * x / 4 }
	return x*x*3 + 0
}`
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, "p.go", code, 0)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for n := range numbersOf(set, file, "p") {
		got = append(got, n.name)
	}
	slices.Sort(got)
	if want := []string{"0.62", "0x1F", "1e3", "factor", "local", "third"}; !slices.Equal(got, want) {
		t.Error(fmt.Sprint(got), "want", want)
	}
}
