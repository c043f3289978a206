package jobfile

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/unit"
)

// Version is the version of job files and shop files that is written; all
// from 1 up to it are read.
const Version = 1

// The first fields of the two files.
const (
	jobHeader  = "bowerwright"
	shopHeader = "bowerwright-shop"
)

// A File is a job file as it was read, with the shop file under it. Its bytes
// are kept as they came.
type File struct {
	Name   string
	source []byte
	places map[string]snag.Place
	shop   *File
	prices *File // a price list, by Prices

	currency money.Currency // of a bare price in it
}

// Read reads a job file, and a shop file under it unless shop is nil; the
// names are for messages. All that is to be put right is in the list, sorted;
// when List.Stops, the Spec is not whole. The File is never nil.
func Read(source []byte, name string, shop []byte, shopName string) (job.Spec, *File, snag.List) {
	f := &File{Name: name, source: source, places: map[string]snag.Place{}}
	d := &draft{ids: map[string]snag.Place{}}
	var all snag.List
	if shop != nil {
		f.shop = &File{Name: shopName, source: shop, places: map[string]snag.Place{}}
		all.Add(f.shop.read(d, assume.Shop)...)
		f.currency = d.currency
	}
	all.Add(f.read(d, assume.Job)...)
	f.currency = cmp.Or(d.currency, f.currency)
	for id, at := range d.ids {
		if _, ok := f.places["layout."+id]; !ok {
			f.places["layout."+id] = at
		}
	}
	all.Sort()
	return d.spec, f, all
}

// read reads one file into the draft.
func (f *File) read(d *draft, origin assume.Origin) snag.List {
	p := planter{scanner: scanner{name: f.Name}}
	root := p.parse(f.source)
	if root == nil {
		return p.all(f.Name)
	}
	f.index(root)
	r := &reader{origin: origin, book: assume.BuiltInBook(), d: d, at: &info{}}
	if r.header(root) {
		r.root(root)
	}
	return r.all(f.Name)
}

// root reads the fields of a file whose first is in order.
func (r *reader) root(n *node) {
	r.d.unit, r.d.currency = unit.NoUnit, ""
	for _, key := range []string{"unit", "currency"} { // they say how the others are read
		if v := n.get(key); v != nil {
			before := r.list
			f := find(jobTable, key)
			r.within(&f.info, func() { f.read(r, v, r.d) })
			r.list = before
		}
	}
	body := *n
	body.entries = slices.DeleteFunc(slices.Clone(n.entries), func(e entry) bool { return e.key == r.first })
	what := "the job"
	if r.origin == assume.Shop {
		what = "the shop file"
	}
	readFields(r, &body, what, r.table(), r.d)
	s := &r.d.spec
	if n.get("saw") != nil {
		s.Saw.From = r.origin.String()
	}
	if r.origin == assume.Job {
		s.Timber = jobFirst(s.Timber)
		r.settle()
		r.usual()
	}
}

// table is the job's, with nothing needed in a shop file.
func (r *reader) table() []field[draft] {
	if r.origin == assume.Job {
		return jobTable
	}
	t := append([]field[draft](nil), jobTable...)
	for i := range t {
		t[i].Need = false
	}
	return t
}

// usual fills in the units and the paper, which follow from how the file is
// written.
func (r *reader) usual() {
	s := &r.d.spec
	if s.Show == "" {
		s.Show = "us"
		switch r.d.unit {
		case unit.Millimetres, unit.Centimetres, unit.Metres:
			s.Show = "metric"
		case unit.NoUnit:
			if r.d.metric > 0 {
				s.Show = "metric"
			}
		}
	}
	if s.Paper == "" {
		s.Paper = "letter"
		if s.Show == "metric" {
			s.Paper = "a4"
		}
	}
	if s.Saw.From == "" {
		s.Saw.From = assume.BuiltIn.String()
	}
}

// header checks that the first field names the file and its version, and
// tells whether the rest can be read.
func (r *reader) header(n *node) bool {
	want, other, what := jobHeader, shopHeader, "a shop file; it is given with --shop"
	if r.origin == assume.Shop {
		want, other, what = shopHeader, jobHeader, "a job file, not a shop file"
	}
	remedy := fmt.Sprintf("write %s: %d as the first line", want, Version)
	switch {
	case n.form == empty:
		r.bad(emptyFile, n, "the file is empty", remedy+", then the job")
		return false
	case n.form != fields:
		r.bad(wrongType, n, fmt.Sprintf("a file has fields, not %s", n.form), remedy+", then fields such as name: Orchard wall")
		return false
	}
	switch first := n.entries[0]; {
	case first.key.text == other:
		r.bad(wrongFile, first.key, "this is "+what, remedy+" in the file that is meant")
		return false
	case n.get(want) == nil:
		r.bad(versionMissing, n, "the file does not say what it is", remedy)
		return true // go on as if it did: the rest has its snags, too
	case first.key.text != want:
		r.bad(versionMissing, first.key, fmt.Sprintf("%s is not the first field", want), "move it to the first line")
	}
	for _, e := range n.entries {
		if e.key.text == want {
			r.first = e.key
			return r.version(e.value, remedy)
		}
	}
	return true
}

func (r *reader) version(n *node, remedy string) bool {
	v, err := strconv.Atoi(n.text)
	switch {
	case n.form != line || err != nil || v < 1 || strconv.Itoa(v) != n.text:
		r.bad(versionUnknown, n, "the first line gives the version, a whole number", remedy)
	case v > Version:
		r.bad(versionNewer, n, fmt.Sprintf("this file is of version %d; this program reads up to version %d", v, Version), "use a newer bowerwright")
		return false
	}
	return true
}

// index notes where every path lies: a line at its value, anything else at its
// key.
func (f *File) index(n *node) {
	for _, e := range n.entries {
		at := e.value.place
		if e.value.form != line {
			at.Line, at.Column = e.key.place.Line, e.key.place.Column
		}
		if _, twice := f.places[at.Path]; !twice {
			f.places[at.Path] = at
		}
		f.index(e.value)
	}
	for _, item := range n.items {
		f.places[item.place.Path] = item.place
		f.index(item)
	}
}

// Locate gives the place of a path such as frames.big.flats, layout.B3 or
// families[0]: in the job file, else in the shop file, else that of the
// nearest group round it in the job file. The path is kept.
func (f *File) Locate(path string) snag.Place {
	for _, in := range []*File{f.prices, f, f.shop} {
		if in != nil {
			if at, ok := in.places[path]; ok {
				at.Path = path
				return at
			}
		}
	}
	for short := path; short != ""; {
		short = short[:max(0, strings.LastIndexAny(short, ".["))]
		if at, ok := f.places[short]; ok {
			at.Path = path
			return at
		}
	}
	return snag.Place{File: f.Name, Path: path}
}

// Bytes are the file's, as they came.
func (f *File) Bytes() []byte { return f.source }

// Source gives the text of the job file, the shop file or the price list by its name, for
// showing snags. A byte order mark is left out, so that columns count from the
// first letter.
func (f *File) Source(name string) (string, bool) {
	for _, in := range []*File{f, f.shop, f.prices} {
		if in != nil && in.Name == name {
			return strings.TrimPrefix(string(in.source), string(byteOrderMark)), true
		}
	}
	return "", false
}

// SHA256 is the hash, in hex, of the job file's bytes with the shop file's and
// the price list's behind them.
func (f *File) SHA256() string {
	h := sha256.New()
	h.Write(f.source)
	if f.shop != nil {
		h.Write(f.shop.source)
	}
	if f.prices != nil {
		h.Write(f.prices.source)
	}
	return hex.EncodeToString(h.Sum(nil))
}
