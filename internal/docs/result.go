package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
)

// resultPage describes result.json from the comments of the types that it is
// written from, so that page and program cannot differ.
func resultPage(pattern string) (string, error) {
	paths, err := filepath.Glob(pattern) // in the order of their names, Result's own file first
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(resultIntro)
	for _, path := range paths {
		if strings.HasSuffix(path, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments)
		if err != nil {
			return "", err
		}
		resultSections(&b, f)
	}
	return b.String(), nil
}

func resultSections(b *strings.Builder, f *ast.File) {
	for _, d := range f.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.TYPE {
			continue
		}
		for _, s := range g.Specs {
			t := s.(*ast.TypeSpec)
			if st, ok := t.Type.(*ast.StructType); ok {
				typeSection(b, t.Name.Name, g.Doc.Text(), st)
			}
		}
	}
}

const resultIntro = `# result.json

What ` + "`plan`" + ` writes beside the packet, and ` + "`plan --json`" + ` prints. Every paper reads it: a figure that stands twice on paper is one field here. Its JSON
Schema is [schema/result.schema.json](../schema/result.schema.json), printed by ` + "`bowerwright schema result`" + `. Lengths carry their number and both texts; coordinates
are millimetres in the front view, x from the left end, y up from the floor. A list that is empty is there and empty.
`

func typeSection(b *strings.Builder, name, doc string, st *ast.StructType) {
	fmt.Fprintf(b, "\n## %s\n\n%s\n\n| field | holds | |\n|---|---|---|\n", name, strings.Join(strings.Fields(doc), " "))
	for _, f := range st.Fields.List {
		tag := ""
		if f.Tag != nil {
			raw, _ := strconv.Unquote(f.Tag.Value)
			tag = reflect.StructTag(raw).Get("json")
		}
		key, option, _ := strings.Cut(tag, ",")
		if key == "-" {
			continue
		}
		note := strings.TrimSpace(f.Comment.Text())
		if option == "omitempty" {
			note = strings.TrimPrefix(note+"; left out when there is none", "; ")
		}
		for _, n := range f.Names {
			shown := key
			if shown == "" {
				shown = n.Name
			}
			fmt.Fprintf(b, "| `%s` | %s | %s |\n", shown, typeText(f.Type), strings.ReplaceAll(note, "|", `\|`))
		}
	}
}

// typeText says a Go type in plain words.
func typeText(e ast.Expr) string {
	switch t := e.(type) {
	case *ast.Ident:
		switch t.Name {
		case "string":
			return "text"
		case "int", "int64":
			return "whole number"
		case "float64":
			return "number"
		case "bool":
			return "true or false"
		}
		return t.Name
	case *ast.StarExpr:
		return typeText(t.X)
	case *ast.ArrayType:
		if t.Len != nil {
			return typeText(t.Elt) + " x " + t.Len.(*ast.BasicLit).Value
		}
		return "list of " + typeText(t.Elt)
	}
	return ""
}
