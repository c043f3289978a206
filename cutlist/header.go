package cutlist

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A Column is one thing that a table says, under any of its names.
type Column struct {
	Names []string // the first is the usual one
	Doc   string
	Need  bool
	takes takes
}

// takes says what may stand beside a column's name: a unit of length, degrees,
// a currency, or nothing.
type takes int

const (
	plain takes = iota
	lengths
	degrees
	prices
)

// Columns are the columns of a cut list.
var Columns = []Column{
	{Names: []string{"part", "name", "mark", "label"}, Doc: "What the part is called. Without the column parts are P1, P2 and so on, the shortest first."},
	{Names: []string{"length", "outside", "outside length"}, Need: true, takes: lengths,
		Doc: "Its length along the outside face: the long point to the long point where both ends are positive. A unit may stand with the name: length (in), length mm."},
	{Names: []string{"count", "qty", "quantity", "number", "pieces", "pcs"}, Need: true, Doc: "How many, a whole number of 1 or more."},
	{Names: []string{"left", "left end", "first", "first end"}, takes: degrees,
		Doc: "The setting of its first end in degrees from straight across; positive makes the inside shorter, negative longer. Empty is 0."},
	{Names: []string{"right", "right end", "second", "second end"}, takes: degrees, Doc: "The same for its second end."},
	{Names: []string{"timber", "stock", "material"}, Doc: "The name of its boards in the stock; needed where the stock has several."},
	{Names: []string{"laid", "lies"}, Doc: "`on edge`, where the thickness lies in the plane that the ends slant across, or `flat`, where the width does. Empty is on edge."},
	{Names: []string{"spare", "spares"}, Doc: "How many more of it are sawn, a whole number. Empty is 0."},
}

// The places of the columns in Columns.
const (
	partColumn = iota
	lengthColumn
	countColumn
	leftColumn
	rightColumn
	timberColumn
	laidColumn
	spareColumn
)

// A head is the row that names the columns, read.
type head struct {
	columns  []Column
	at       []int // by column, its place in a row; -1 when it is not there
	cells    row
	unit     []unit.Unit      // by column, of bare numbers
	currency []money.Currency // likewise
}

// has tells whether a column is there.
func (h *head) has(column int) bool { return h.at[column] >= 0 }

// of gives the cell of a column, an empty one when it is not there.
func (h *head) of(r row, column int) cell {
	if h.at[column] < 0 {
		return cell{line: r[0].line, column: r[0].column}
	}
	return r[h.at[column]]
}

// head reads the row that names the columns. bare and currency hold for numbers
// that neither cell nor column gives a unit.
func (r *reader) head(cells row, columns []Column, bare unit.Unit, currency money.Currency) *head {
	h := &head{columns: columns, cells: cells}
	for range columns {
		h.at, h.unit, h.currency = append(h.at, -1), append(h.unit, bare), append(h.currency, currency)
	}
	if !slices.ContainsFunc(cells, func(c cell) bool { return h.knows(c) }) {
		r.bad(noColumn, cells[0], "this row names no column", "write a row above it that does: the columns are "+all(usual(columns))+", of which "+all(needed(columns))+" must be there")
		return h
	}
	for i, c := range cells {
		if c.text != "" {
			r.column(h, i, c)
		}
	}
	for i, c := range columns {
		if c.Need && h.at[i] < 0 && len(r.list) == 0 {
			r.bad(noColumn, cell{line: cells[0].line, column: 1, text: ""}, fmt.Sprintf("no column is called %s", c.Names[0]),
				fmt.Sprintf("name a column %s", either(c.Names)))
		}
	}
	return h
}

// knows tells whether a cell is the name of a column.
func (h *head) knows(c cell) bool {
	return slices.ContainsFunc(h.columns, func(column Column) bool {
		_, ok := column.called(normal(c.text))
		return ok || snag.DidYouMean(normal(c.text), column.Names) != ""
	})
}

// needed are the usual names of the columns that must be there.
func needed(columns []Column) (out []string) {
	for _, c := range columns {
		if c.Need {
			out = append(out, c.Names[0])
		}
	}
	return out
}

// column reads one name of a column, with the unit beside it.
func (r *reader) column(h *head, i int, c cell) {
	words := normal(c.text)
	for n, column := range h.columns {
		beside, ok := column.called(words)
		if !ok {
			continue
		}
		if h.at[n] >= 0 {
			r.bad(twiceColumn, c, fmt.Sprintf("%q and %q are the same column", h.cells[h.at[n]].text, c.text), "keep one of them")
			return
		}
		h.at[n] = i
		if !h.beside(n, beside) {
			r.bad(unknownColumn, c, fmt.Sprintf("%q is no unit that a column %s can have", beside, column.Names[0]), "write "+column.example())
		}
		return
	}
	remedy := "the columns that are read are " + all(usual(h.columns)) + "; take any other out"
	if near := snag.DidYouMean(words, names(h.columns)); near != "" {
		remedy = fmt.Sprintf("did you mean %s?", near)
	}
	r.bad(unknownColumn, c, fmt.Sprintf("a column %q is not read", c.text), remedy)
}

// normal writes a name in lower case, with one space between words and units
// out of their brackets.
func normal(s string) string {
	s = strings.NewReplacer("_", " ", "(", " ", ")", " ", "[", " ", "]", " ", ",", " ", "\u00a0", " ").Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), " ")
}

// called tells whether words are one of the column's names, and what stands
// beside it.
func (c Column) called(words string) (beside string, ok bool) {
	if slices.Contains(c.Names, words) {
		return "", true
	}
	if c.takes == plain {
		return "", false
	}
	for _, n := range c.Names {
		if rest, cut := strings.CutPrefix(words, n+" "); cut && !strings.Contains(rest, " ") {
			return rest, true
		}
	}
	return "", false
}

// beside takes in what stands beside a column's name.
func (h *head) beside(column int, word string) bool {
	if word == "" {
		return true
	}
	switch h.columns[column].takes {
	case lengths:
		u, ok := unit.UnitNamed(word)
		h.unit[column] = u
		return ok
	case degrees:
		return word == "deg" || word == "degrees" || word == "°"
	case prices:
		c := money.Currency(strings.ToUpper(word))
		h.currency[column] = c
		return c.Known()
	}
	return false
}

func (c Column) example() string {
	switch c.takes {
	case lengths:
		return c.Names[0] + " (in)"
	case degrees:
		return c.Names[0] + " (deg)"
	case prices:
		return c.Names[0] + " (USD)"
	}
	return c.Names[0]
}

// usual are the usual names of columns.
func usual(columns []Column) (out []string) {
	for _, c := range columns {
		out = append(out, c.Names[0])
	}
	return out
}

// names are all names of columns, the usual ones first.
func names(columns []Column) []string {
	out := usual(columns)
	for _, c := range columns {
		out = append(out, c.Names[1:]...)
	}
	return out
}

// all lists words.
func all(words []string) string {
	n := len(words) - 1
	if n == 0 {
		return words[0]
	}
	return strings.Join(words[:n], ", ") + " and " + words[n]
}

// either lists words as a choice.
func either(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}

// table splits a file and reads its head; nil when there is nothing to read
// below it.
func (r *reader) table(source []byte, columns []Column, bare unit.Unit, currency money.Currency) (*head, []row) {
	rows := r.rows(source)
	if len(rows) == 0 {
		if len(r.list) == 0 {
			r.bad(noRows, cell{line: 1, column: 1}, "there is nothing in the file", "write a row that names the columns, such as part,length (in),count, and a row for each part")
		}
		return nil, nil
	}
	h := r.head(rows[0], columns, bare, currency)
	if len(rows) == 1 && len(r.list) == 0 {
		r.bad(noRows, rows[0][0], "nothing stands under the row that names the columns", "write a row for each part")
	}
	if slices.Max(h.at) < 0 { // what follows cannot be told
		return nil, nil
	}
	var out []row
	for _, cells := range rows[1:] {
		if r.fits(h, cells) {
			out = append(out, cells)
		}
	}
	return h, out
}

// fits checks that a row has a cell for each column. A spreadsheet's empty
// columns behind the last are let be.
func (r *reader) fits(h *head, cells row) bool {
	have, want := len(cells), len(h.cells)
	if have == want {
		for i, c := range cells {
			if h.cells[i].text == "" && c.text != "" {
				r.bad(wrongCells, c, "this cell stands under no name of a column", "name its column, or empty the cell")
				return false
			}
		}
		return true
	}
	first := cells[0]
	problem := fmt.Sprintf("this row has %s, the row that names the columns has %d", counted(have, "cell"), want)
	remedy := fmt.Sprintf("write %d cells, empty ones too", want)
	if have > want && r.sep == ',' {
		remedy = `write a decimal comma in quotes ("1,5"), or with a point, or put semicolons between the cells`
	}
	r.bad(wrongCells, cell{line: first.line, column: 1}, problem, remedy)
	return false
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
