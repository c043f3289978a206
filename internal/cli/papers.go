package cli

import (
	"bytes"
	"io"
	"time"

	"bowerwright/drawing/pdf"
	"bowerwright/drawing/png"
	"bowerwright/drawing/svg"
	"bowerwright/internal/folder"
	"bowerwright/job"
	"bowerwright/packet"
)

// pngDots is how many dots a millimetre of front.png has: 150 to the inch,
// enough for a mail and for a print the size of a hand.
const pngDots = 150 / 25.4

// papers draws every file of the packet. The papers carry no time, so that one
// job gives the same bytes whenever it is planned; the mark tells versions
// apart.
func papers(r job.Result, result []byte) ([]folder.File, error) {
	front := packet.Front(r)
	files := []folder.File{{Name: "result.json", Data: result}}
	for _, f := range []struct {
		name string
		draw func(io.Writer) error
	}{
		{"packet.pdf", func(w io.Writer) error { return pdf.Write(w, packet.Build(r, time.Time{})) }},
		{"packet.html", func(w io.Writer) error { return packet.HTML(w, r, time.Time{}) }},
		{"front.svg", func(w io.Writer) error { return svg.Write(w, front, svg.Options{}) }},
		{"front.png", func(w io.Writer) error { return png.Write(w, front, png.Options{PxPerMM: pngDots}) }},
		{"drill-list.csv", func(w io.Writer) error { return packet.DrillListCSV(w, r) }},
		{"cut-list.csv", func(w io.Writer) error { return packet.CutListCSV(w, r) }},
		{"boards.csv", func(w io.Writer) error { return packet.BoardsCSV(w, r) }},
		{"buying.csv", func(w io.Writer) error { return packet.BuyingCSV(w, r) }},
	} {
		var b bytes.Buffer
		if err := f.draw(&b); err != nil {
			return nil, err
		}
		files = append(files, folder.File{Name: f.name, Data: b.Bytes()})
	}
	return files, nil
}
