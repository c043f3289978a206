package stock

import (
	_ "embed" // the catalogue's files
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"bowerwright/assume"
	"bowerwright/unit"
)

//go:embed boards.csv
var boardsCSV string

//go:embed sheets.csv
var sheetsCSV string

//go:embed species.csv
var speciesCSV string

//go:embed lengths.csv
var lengthsCSV string

// BuiltIn gives the catalogue that the program comes with. It is read once: a
// Catalogue never changes.
func BuiltIn() Catalogue { return builtIn() }

var builtIn = sync.OnceValue(readBuiltIn)

func readBuiltIn() Catalogue {
	var c Catalogue
	for _, f := range []struct {
		text   string
		header string
		item   func(*row) Item
	}{
		{boardsCSV, "name,thickness,width,status,source", sizeOf},
		{sheetsCSV, "name,thickness,thinnest,thickest,status,source,width,length,size status,size source", sheetOf},
		{speciesCSV, "name,also,gravity,status,source", speciesOf},
		{lengthsCSV, "region,length,status,source", soldOf},
		{screwsCSV, "name,also,diameter,root,head,yield psi,status,source", screwOf},
		{fastenersCSV, "kind,name,screw,diameter,length,width,thickness,pack,status,source", fastenerOf},
	} {
		items, err := read(f.text, f.header, f.item)
		if err == nil {
			c, err = c.With(assume.BuiltIn, items...)
		}
		if err != nil {
			panic(err) // the files are part of the program and a test reads them
		}
	}
	return c
}

// A row is one line of a catalogue file; it keeps the first error.
type row struct {
	fields []string
	err    error
}

func (r *row) text(i int) string { return strings.TrimSpace(r.fields[i]) }

func (r *row) length(i int) unit.Length {
	l, err := unit.ParseLength(r.text(i), unit.NoUnit)
	r.keep(err)
	return l
}

func (r *row) number(i int) float64 {
	n, err := strconv.ParseFloat(r.text(i), 64)
	r.keep(err)
	return n
}

// provenance reads a status and the source behind it; neither may be missing.
func (r *row) provenance(i int) Provenance {
	p := Provenance{Status: assume.Status(r.text(i)), Source: r.text(i + 1)}
	if !p.Status.Known() || p.Source == "" {
		r.keep(fmt.Errorf("status %q is unknown or the source is empty", p.Status))
	}
	return p
}

func (r *row) keep(err error) {
	if r.err == nil {
		r.err = err
	}
}

// read turns a file into items.
func read(text, header string, item func(*row) Item) ([]Item, error) {
	in := csv.NewReader(strings.NewReader(text))
	in.FieldsPerRecord = strings.Count(header, ",") + 1
	rows, err := in.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("stock: %w", err)
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != header {
		return nil, fmt.Errorf("stock: the first line must be %s", header)
	}
	var items []Item
	for _, fields := range rows[1:] {
		r := &row{fields: fields}
		items = append(items, item(r))
		if r.err != nil {
			return nil, fmt.Errorf("stock: %s: %w", fields[0], r.err)
		}
	}
	return items, nil
}

func sizeOf(r *row) Item {
	return Size{Name: r.text(0), Thickness: r.length(1), Width: r.length(2), Provenance: r.provenance(3)}
}

func sheetOf(r *row) Item {
	return Sheet{Name: r.text(0), Thickness: r.length(1), Thinnest: r.length(2), Thickest: r.length(3),
		Provenance: r.provenance(4), Width: r.length(6), Length: r.length(7), Area: r.provenance(8)}
}

func speciesOf(r *row) Item {
	s := Species{Name: r.text(0), Gravity: r.number(2), Provenance: r.provenance(3)}
	for _, name := range strings.Split(r.text(1), ";") {
		if name = strings.TrimSpace(name); name != "" {
			s.Also = append(s.Also, name)
		}
	}
	return s
}

func soldOf(r *row) Item {
	return Sold{Region: Region(r.text(0)), Length: r.length(1), Provenance: r.provenance(2)}
}
