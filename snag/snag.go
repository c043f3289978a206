// Package snag says what the user must put right, and where.
//
// A Snag carries a stable code, a place, the value as written, what is wrong
// with it and what to write instead. Whoever finds snags collects them all in a
// List; the command line shows it with Text, and everything else takes it as
// data. Errors that are the program's own fault are no snags but Go errors.
//
// Lines and columns count from 1; a column counts code points of the line, not
// bytes and not cells of a terminal. The package reads no files: Text is given
// the source.
package snag

import (
	"cmp"
	"encoding/json"
	"slices"
)

// A Kind is one thing that can be wrong: a stable code in kebab case, and one
// sentence that says what it means. A package lists its kinds in an exported
// variable Snags, from which the docs are made.
type Kind struct {
	Code    string
	Meaning string
}

// A Severity says what a snag stops.
type Severity int

// The severities. Zero is the usual one.
const (
	Stop Severity = iota // nothing is made until it is put right
	Note                 // worth a look; the work goes on
)

// String gives the word used in data: stop or note.
func (s Severity) String() string {
	if s == Note {
		return "note"
	}
	return "stop"
}

// MarshalText writes the word.
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// A Place is where a snag lies. What is not known is left zero; a snag about
// the whole job has a zero Place.
type Place struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line,omitempty"`   // from 1; 0 is unknown
	Column int    `json:"column,omitempty"` // code points from 1; 0 is unknown
	Path   string `json:"path,omitempty"`   // in the job: layout.B3
}

// A Snag is one thing to put right. Problem and Remedy are plain phrases
// without a full stop: "there is no unit after 10", "write 10 in or 10 mm".
type Snag struct {
	Code     string   `json:"code"`
	Severity Severity `json:"severity"`
	Place    Place    `json:"place"`
	Value    string   `json:"value,omitempty"` // as written
	Problem  string   `json:"problem"`
	Remedy   string   `json:"remedy,omitempty"`
}

// At makes a snag of this kind.
func (k Kind) At(p Place, value, problem, remedy string) Snag {
	return Snag{Code: k.Code, Place: p, Value: value, Problem: problem, Remedy: remedy}
}

// A List is every snag found so far.
type List []Snag

// MarshalJSON writes an array, an empty one for no snags.
func (l List) MarshalJSON() ([]byte, error) {
	return json.Marshal(append([]Snag{}, l...))
}

// Add appends a snag.
func (l *List) Add(s ...Snag) { *l = append(*l, s...) }

// Stops tells whether any snag must be put right before work goes on.
func (l List) Stops() bool {
	return slices.ContainsFunc(l, func(s Snag) bool { return s.Severity == Stop })
}

// Sort orders the list by file, line and column, then path, code and text, so
// that one input always gives one order. Within a file, a snag without a line
// comes after those with one.
func (l List) Sort() { slices.SortStableFunc(l, compare) }

func compare(a, b Snag) int {
	return cmp.Or(
		cmp.Compare(a.Place.File, b.Place.File),
		cmp.Compare(unknownLast(a.Place.Line), unknownLast(b.Place.Line)),
		cmp.Compare(a.Place.Column, b.Place.Column),
		cmp.Compare(a.Place.Path, b.Place.Path),
		cmp.Compare(a.Code, b.Code),
		cmp.Compare(a.Value, b.Value),
		cmp.Compare(a.Problem, b.Problem),
	)
}

// unknownLast orders line 0 behind all others.
func unknownLast(line int) uint { return uint(line) - 1 }
