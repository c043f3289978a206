package cutlist

import (
	"fmt"
	"strings"

	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A List is a cut list as it was read.
type List struct {
	Parts  []job.ListPart // in the order of the rows
	Metric bool           // most lengths are written in mm, cm or m
	file
}

// A file is a table's text, and where its rows lie.
type file struct {
	source []byte
	name   string
	places map[string]snag.Place
}

// Locate gives the place of a path of a part or a timber, such as parts[3].
func (f *file) Locate(path string) snag.Place {
	for short := path; short != ""; short = short[:max(0, strings.LastIndexAny(short, ".["))] {
		if at, ok := f.places[short]; ok {
			at.Path = path
			return at
		}
	}
	return snag.Place{File: f.name, Path: path}
}

// Source gives the text of the file by its name, for showing snags.
func (f *file) Source(name string) (string, bool) {
	return strings.TrimPrefix(string(f.source), "\ufeff"), name == f.name
}

// Bytes are the file's, as they came.
func (f *file) Bytes() []byte { return f.source }

// Read reads a cut list; the name is for messages, and bare is the unit of
// numbers without one where the column names none. When snags stop it the list
// is not whole.
func Read(source []byte, name string, bare unit.Unit) (*List, snag.List) {
	l := &List{file: file{source: source, name: name, places: map[string]snag.Place{}}}
	r := &reader{name: name}
	h, rows := r.table(source, Columns, bare, "")
	names := map[string]job.ListPart{}
	for _, cells := range rows {
		p, ok := r.part(h, cells)
		if !ok {
			continue
		}
		p.Path = fmt.Sprintf("parts[%d]", len(l.Parts))
		at := h.of(cells, lengthColumn)
		l.places[p.Path] = snag.Place{File: name, Line: at.line, Column: at.column}
		if q, twice := names[p.Name]; twice && p.Name != "" && !alike(p, q) {
			r.bad(badName, h.of(cells, partColumn), fmt.Sprintf("%s in line %d is another part of this name", q.Name, l.places[q.Path].Line),
				"name them apart, such as "+p.Name+" 2")
			continue
		}
		names[p.Name] = p
		l.Parts = append(l.Parts, p)
	}
	r.oneMark()
	l.Metric = r.metric > 0
	return l, r.all()
}

// alike tells whether two parts are sawn alike.
func alike(p, q job.ListPart) bool {
	p.Count, p.Spare, p.Path = q.Count, q.Spare, q.Path
	return p == q
}

// part reads one row; all that is wrong with it is told.
func (r *reader) part(h *head, cells row) (p job.ListPart, whole bool) {
	whole = true
	also := func(ok bool) { whole = whole && ok }
	var ok bool
	if h.has(partColumn) {
		p.Name, ok = r.text(h.of(cells, partColumn), "the part")
		also(ok)
	}
	if h.has(timberColumn) {
		if c := h.of(cells, timberColumn); c.text != "" {
			p.Timber, ok = r.text(c, "the timber")
			also(ok)
		}
	}
	if h.has(lengthColumn) {
		p.Outside, ok = r.length(h.of(cells, lengthColumn), h.unit[lengthColumn], leastLong, mostLong)
		also(ok)
	}
	if h.has(countColumn) {
		p.Count, ok = r.count(h.of(cells, countColumn), "the count", 1)
		also(ok)
	}
	p.Left, ok = r.angle(h.of(cells, leftColumn))
	also(ok)
	p.Right, ok = r.angle(h.of(cells, rightColumn))
	also(ok)
	laid, ok := r.oneOf(h.of(cells, laidColumn), []string{"on edge", "edge"}, []string{"flat"})
	also(ok)
	p.Flat = laid == 1
	if c := h.of(cells, spareColumn); c.text != "" {
		p.Spare, ok = r.count(c, "the spare", 0)
		also(ok)
	}
	return p, whole
}

// NoParts is the snag of a list that has none.
func NoParts(at snag.Place) snag.Snag {
	return noRows.At(at, "", "the list has no parts", "write parts: and under it a line for each, such as rail: 6 of 34 1/2 in, 45 and 45")
}
