package price

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strings"
	"sync"

	"bowerwright/assume"
)

// A UsualPack is what a thing is mostly sold in, where no price list says.
type UsualPack struct {
	Thing  string // glue, tape, ...
	Metric bool   // in shops that sell by litres and metres
	Pack   Pack
	Status assume.Status
	Source string
}

//go:embed packs.csv
var packsCSV string

const packsHeader = "thing,system,pack,status,source"

// UsualPacks gives every usual pack, by thing, smallest first within a system.
var UsualPacks = sync.OnceValue(func() []UsualPack {
	packs, err := parsePacks(packsCSV)
	if err != nil {
		panic(err) // the file is part of the program and a test reads it
	}
	return packs
})

// Usual gives the usual packs of a thing in one system; none when the thing is
// not known.
func Usual(thing string, metric bool) []Pack {
	var out []Pack
	for _, u := range UsualPacks() {
		if u.Thing == thing && u.Metric == metric {
			out = append(out, u.Pack)
		}
	}
	return out
}

func parsePacks(text string) ([]UsualPack, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.FieldsPerRecord = 5
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("price: %w", err)
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != packsHeader {
		return nil, fmt.Errorf("price: the first line must be %s", packsHeader)
	}
	var out []UsualPack
	for _, row := range rows[1:] {
		u := UsualPack{Thing: row[0], Metric: row[1] == "metric", Status: assume.Status(row[3]), Source: row[4]}
		if u.Pack, err = ParsePack(row[2]); err != nil {
			return nil, fmt.Errorf("price: %s: %w", u.Thing, err)
		}
		if u.Thing == "" || row[1] != "metric" && row[1] != "us" || !u.Status.Known() || u.Source == "" {
			return nil, fmt.Errorf("price: row %q is not whole", row)
		}
		u.Pack.From = string(u.Status)
		if u.Source != string(u.Status)+", no source" {
			u.Pack.From += ": " + u.Source
		}
		out = append(out, u)
	}
	return out, nil
}
