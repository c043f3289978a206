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

// A paper is one file of the packet and how it is drawn. result.json is none:
// it is what they are drawn from.
type paper struct {
	name string
	draw func(io.Writer, job.Result) error
}

// packetPapers are the papers in the order in which they are written. They
// carry no time, so that one job gives the same bytes whenever it is planned;
// the mark tells versions apart.
var packetPapers = []paper{
	{"packet.pdf", func(w io.Writer, r job.Result) error { return pdf.Write(w, packet.Build(r, time.Time{})) }},
	{"packet.html", func(w io.Writer, r job.Result) error { return packet.HTML(w, r, time.Time{}) }},
	{"front.svg", func(w io.Writer, r job.Result) error { return svg.Write(w, packet.Front(r), svg.Options{}) }},
	{"front.png", func(w io.Writer, r job.Result) error {
		return png.Write(w, packet.Front(r), png.Options{PxPerMM: pngDots})
	}},
	{"drill-list.csv", packet.DrillListCSV},
	{"cut-list.csv", packet.CutListCSV},
	{"boards.csv", packet.BoardsCSV},
	{"buying.csv", packet.BuyingCSV},
}

// papers draws every file of the packet.
func papers(r job.Result, result []byte) ([]folder.File, error) {
	files := []folder.File{{Name: "result.json", Data: result}}
	for _, p := range packetPapers {
		var b bytes.Buffer
		if err := p.draw(&b, r); err != nil {
			return nil, err
		}
		files = append(files, folder.File{Name: p.name, Data: b.Bytes()})
	}
	return files, nil
}
