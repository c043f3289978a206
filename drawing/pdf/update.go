package pdf

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
)

// wanted is what the library cannot put into the catalogue: that the document
// is to be printed at its own size (ISO 32000-1, table 150; the entry is of PDF
// 1.6, hence the version).
const wanted = "/Version /1.7\n/ViewerPreferences << /PrintScaling /None >>\n"

var (
	startXref = regexp.MustCompile(`startxref\n(\d+)\n%%EOF\s*$`)
	rootRef   = regexp.MustCompile(`/Root (\d+) 0 R`)
	infoRef   = regexp.MustCompile(`/Info (\d+) 0 R`)
	sizeOf    = regexp.MustCompile(`/Size (\d+)`)
)

// unscaled adds the wish to print unscaled by an incremental update (ISO
// 32000-1, 7.5.6): a newer catalogue, a cross-reference section for it alone and
// a trailer that points back to the first, all after the document's end.
func unscaled(pdf []byte) ([]byte, error) {
	start := startXref.FindSubmatch(pdf)
	if start == nil {
		return nil, fmt.Errorf("pdf: the document has no end")
	}
	tail := pdf[bytes.LastIndex(pdf, []byte("trailer")):]
	root, info, size := rootRef.FindSubmatch(tail), infoRef.FindSubmatch(tail), sizeOf.FindSubmatch(tail)
	if root == nil || info == nil || size == nil {
		return nil, fmt.Errorf("pdf: the document's trailer lacks its root, information or size")
	}
	catalogue, err := object(pdf, string(root[1]))
	if err != nil {
		return nil, err
	}
	end := bytes.LastIndex(catalogue, []byte(">>"))
	if end < 0 {
		return nil, fmt.Errorf("pdf: the catalogue is no dictionary")
	}
	var b bytes.Buffer
	b.Write(bytes.TrimRight(pdf, "\n"))
	b.WriteByte('\n')
	at := b.Len()
	fmt.Fprintf(&b, "%s 0 obj\n%s%s>>\nendobj\n", root[1], catalogue[:end], wanted)
	xref := b.Len()
	fmt.Fprintf(&b, "xref\n%s 1\n%010d 00000 n \n", root[1], at)
	fmt.Fprintf(&b, "trailer\n<<\n/Size %s\n/Root %s 0 R\n/Info %s 0 R\n/Prev %s\n>>\nstartxref\n%d\n%%%%EOF\n", size[1], root[1], info[1], start[1], xref)
	return b.Bytes(), nil
}

// object is the body of an object by its number.
func object(pdf []byte, number string) ([]byte, error) {
	if _, err := strconv.Atoi(number); err != nil {
		return nil, err
	}
	head := []byte("\n" + number + " 0 obj\n")
	i := bytes.LastIndex(pdf, head)
	if i < 0 {
		return nil, fmt.Errorf("pdf: object %s is not there", number)
	}
	body := pdf[i+len(head):]
	n := bytes.Index(body, []byte("\nendobj"))
	if n < 0 {
		return nil, fmt.Errorf("pdf: object %s has no end", number)
	}
	return body[:n], nil
}
