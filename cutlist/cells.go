package cutlist

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"bowerwright/snag"
)

// Limits of a table. They keep a slip from holding the machine.
const (
	// MaxBytes is the largest table that is read.
	MaxBytes = 1 << 20
	// MaxRows is the most rows: more kinds of part than any shop saws at once.
	MaxRows = 1000
	// maxSnags is how many snags are shown; nobody reads on beyond them.
	maxSnags = 200
)

// A cell is one value with its place.
type cell struct {
	text   string
	line   int
	column int // of the text's first letter, in code points from 1
	quoted bool
}

// A row is the cells of one line.
type row []cell

// blank tells whether nothing stands in a row.
func (r row) blank() bool {
	for _, c := range r {
		if c.text != "" || c.quoted {
			return false
		}
	}
	return true
}

// A reader reads one table and gathers what is wrong with it.
type reader struct {
	name  string
	sep   rune
	list  snag.List
	more  int   // snags left out
	point *cell // the first with a decimal point
	comma *cell
	// metric counts lengths in mm, cm or m, less those in inches and feet.
	metric int
}

func (r *reader) bad(k snag.Kind, c cell, problem, remedy string) {
	r.badAt(k, c, 0, c.text, problem, remedy)
}

// badAt makes a snag at a byte of a cell's text.
func (r *reader) badAt(k snag.Kind, c cell, offset int, value, problem, remedy string) {
	if len(r.list) >= maxSnags {
		r.more++
		return
	}
	column := c.column + utf8.RuneCountInString(c.text[:min(max(offset, 0), len(c.text))])
	r.list.Add(k.At(snag.Place{File: r.name, Line: c.line, Column: column}, value, problem, remedy))
}

// all gives the snags in order, and says how many are left out.
func (r *reader) all() snag.List {
	if r.more > 0 {
		r.list.Add(tooBig.At(snag.Place{File: r.name}, "", fmt.Sprintf("%d more are not shown", r.more), "put these right first"))
	}
	r.list.Sort()
	return r.list
}

// lines gives the lines of a file, without a byte order mark; nil with a snag
// when it is no text.
func (r *reader) lines(source []byte) []string {
	at := cell{line: 1, column: 1}
	if len(source) > MaxBytes {
		r.bad(tooBig, at, fmt.Sprintf("the file has %d bytes; at most %d are read", len(source), MaxBytes), "look whether this is a cut list at all")
		return nil
	}
	if bytes.HasPrefix(source, []byte{0xff, 0xfe}) || bytes.HasPrefix(source, []byte{0xfe, 0xff}) {
		r.bad(notText, at, "the file is text in UTF-16", "save it as CSV UTF-8")
		return nil
	}
	text := strings.TrimPrefix(string(source), "\ufeff")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	out := strings.Split(text, "\n")
	for i, l := range out {
		column := 0
		for at, c := range l {
			column++
			if _, size := utf8.DecodeRuneInString(l[at:]); c == utf8.RuneError && size == 1 {
				r.bad(notText, cell{line: i + 1, column: column}, "the file is not text in UTF-8", "save it as CSV UTF-8")
				return nil
			}
			if refused(c) {
				r.bad(notText, cell{line: i + 1, column: column}, fmt.Sprintf("there is a control character, U+%04X", c), "take it out")
				return nil
			}
		}
	}
	return out
}

// refused tells whether a character is none of text.
func refused(c rune) bool {
	return c < ' ' && c != '\t' || c >= 0x7f && c < 0xa0 || c == '\u2028' || c == '\u2029' || c == '\ufeff'
}

// rows splits a file into rows; blank lines and comments are left out. The
// first is the one that names the columns.
func (r *reader) rows(source []byte) []row {
	var out []row
	for i, l := range r.lines(source) {
		text := strings.TrimLeft(l, " \u00a0")
		if strings.TrimSpace(text) == "" || strings.HasPrefix(text, "#") {
			continue
		}
		if r.sep == 0 {
			if named, ok := named(text); ok {
				r.sep = named
				continue
			}
			r.sep = separator(l)
		}
		cells, ok := r.split(l, i+1)
		if !ok || cells.blank() {
			continue
		}
		if out = append(out, cells); len(out) > MaxRows+1 {
			r.bad(tooBig, cell{line: i + 1, column: 1}, fmt.Sprintf("there are more than %d rows", MaxRows), "join parts that are alike, or cut in two lists")
			return nil
		}
	}
	return out
}

// named reads a line sep=; which some spreadsheets write first.
func named(l string) (rune, bool) {
	s, ok := strings.CutPrefix(strings.ToLower(strings.TrimSpace(strings.Trim(l, `"`))), "sep=")
	if ok && (s == ";" || s == ",") {
		return rune(s[0]), true
	}
	return 0, false
}

// separator finds what stands between the cells of the row that names the
// columns: a semicolon if there is one, else a tab, else a comma.
func separator(l string) rune {
	quoted, seen := false, map[rune]bool{}
	for _, c := range l {
		if c == '"' {
			quoted = !quoted
		}
		seen[c] = seen[c] || !quoted
	}
	for _, c := range ";\t" {
		if seen[c] {
			return c
		}
	}
	return ','
}

// split takes a line apart. A quote that is not first in its cell is an inch
// mark.
func (r *reader) split(l string, line int) (row, bool) {
	s := splitter{reader: r, runes: []rune(l), line: line}
	var out row
	for {
		c, ok := s.cell()
		if !ok {
			return nil, false
		}
		out = append(out, c)
		if s.at >= len(s.runes) {
			return out, true
		}
		s.at++ // over the separator
		if s.at == len(s.runes) {
			return append(out, cell{line: line, column: s.at + 1}), true
		}
	}
}

type splitter struct {
	*reader
	runes    []rune
	at, line int
}

func (s *splitter) space() {
	for s.at < len(s.runes) && (s.runes[s.at] == ' ' || s.runes[s.at] == '\u00a0' || s.runes[s.at] == '\t' && s.sep != '\t') {
		s.at++
	}
}

// cell reads up to the next separator.
func (s *splitter) cell() (cell, bool) {
	s.space()
	if s.at < len(s.runes) && s.runes[s.at] == '"' {
		return s.quoted()
	}
	from := s.at
	for s.at < len(s.runes) && s.runes[s.at] != s.sep {
		s.at++
	}
	return cell{text: strings.TrimRight(string(s.runes[from:s.at]), " \t\u00a0"), line: s.line, column: from + 1}, true
}

func (s *splitter) quoted() (cell, bool) {
	open := cell{line: s.line, column: s.at + 1}
	s.at++
	from := s.at
	var text []rune
	for {
		switch {
		case s.at >= len(s.runes):
			s.bad(badQuote, open, "this quote is not closed in its line", `close it; an inch mark in quotes is written twice, as in "10 3/8"""; without quotes, once`)
			return cell{}, false
		case s.runes[s.at] != '"':
			text = append(text, s.runes[s.at])
			s.at++
		case s.at+1 < len(s.runes) && s.runes[s.at+1] == '"':
			text = append(text, '"')
			s.at += 2
		default:
			s.at++
			s.space()
			if s.at < len(s.runes) && s.runes[s.at] != s.sep {
				s.bad(badQuote, cell{line: s.line, column: s.at + 1}, "something stands behind the closing quote",
					`put the whole cell in quotes; an inch mark in quotes is written twice, as in "10 3/8"""`)
				return cell{}, false
			}
			return cell{text: strings.TrimSpace(string(text)), line: s.line, column: from + 1, quoted: true}, true
		}
	}
}
