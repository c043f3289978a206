package drawing_test

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"os"
	"testing"

	"bowerwright/drawing/internal/face"
)

var update = flag.Bool("update", false, "write the goldens and the table of widths anew")

// TestWidthsAreTheFonts compares the table in widths.go, whole, with the font
// files; -update writes it from them.
func TestWidthsAreTheFonts(t *testing.T) {
	want, err := format.Source(widthsSource(t))
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("widths.go", want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("widths.go")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("widths.go is not what the Go fonts say; run go test ./drawing -run Widths -update")
	}
}

func widthsSource(t *testing.T) []byte {
	var b bytes.Buffer
	b.WriteString("// Code generated from the Go fonts by go test ./drawing -run Widths -update. DO NOT EDIT.\n\npackage drawing\n\n")
	b.WriteString("// advances is the width of each rune in 1/2048 em, by font; 0 where a font lacks it.\n")
	b.WriteString("var advances = map[rune][Fonts]uint16{\n")
	for r := rune(' '); r <= 0xFFFF; r++ {
		ws, any := advancesOf(t, r)
		if any {
			fmt.Fprintf(&b, "%q: {%d, %d, %d, %d, %d},\n", r, ws[0], ws[1], ws[2], ws[3], ws[4])
		}
	}
	b.WriteString("}\n")
	return b.Bytes()
}

func advancesOf(t *testing.T, r rune) (ws [5]int, any bool) {
	for i, name := range face.Names {
		f, err := face.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		w, ok := f.Advance(r)
		if ok {
			ws[i], any = w, true
		}
	}
	return ws, any
}
