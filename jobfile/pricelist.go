package jobfile

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/price"
	"bowerwright/snag"
)

// PriceListColumns are the columns of a price list that are read. Others are
// passed over.
var PriceListColumns = []string{"name", "pack", "unit", "price", "currency", "tax"}

// Prices reads a price list, a table with a first row of column names, and puts
// its prices over those of the files. A row without a price is passed over, so
// that a list may be filled in bit by bit. The file is kept, so that Locate and
// Source know it. All that is to be put right is returned, with line and column.
func (f *File) Prices(spec *job.Spec, source []byte, name string) snag.List {
	f.prices = &File{Name: name, source: source, places: map[string]snag.Place{}}
	t := priceTable{file: f.prices, bare: f.currency, at: map[string]int{}}
	t.read(source)
	for i := range t.offers {
		t.offers[i].From = job.PriceList
	}
	spec.Buying.Prices = append(spec.Buying.Prices, t.offers...)
	return t.all(name)
}

// A priceTable is a price list in the reading.
type priceTable struct {
	found
	file   *File
	lines  []string
	bare   money.Currency
	comma  rune
	csv    *csv.Reader
	at     map[string]int // which column each name is
	row    []string
	offers []price.Offer
}

func (t *priceTable) read(source []byte) {
	text, ok := t.text(source)
	if !ok {
		return
	}
	t.lines = strings.Split(text, "\n")
	t.comma = separator(text)
	t.csv = csv.NewReader(strings.NewReader(text))
	t.csv.Comma, t.csv.FieldsPerRecord = t.comma, -1
	if !t.next() {
		if len(t.list) == 0 {
			t.fail(emptyFile, 1, 1, "", "the file is empty", "write a first row with the columns name, pack, price")
		}
		return
	}
	if !t.columns() {
		return
	}
	wide := len(t.row)
	for t.next() {
		if len(t.row) > wide && strings.Join(t.row[wide:], "") != "" {
			t.failAt(priceRow, wide, fmt.Sprintf("the row has %d cells and the first row %d columns: a comma in a price or a name would do that", len(t.row), wide),
				"put what has the comma in quotes, or save the list with semicolons")
			continue
		}
		if len(t.offers) >= mostPrices {
			t.cell(tooManyPrices, "name", "there are too many prices", "split the list")
			return
		}
		t.offer()
	}
}

// text checks that the file is text, and drops the mark that spreadsheets put
// before it.
func (t *priceTable) text(source []byte) (string, bool) {
	switch {
	case len(source) > MaxBytes:
		t.fail(fileTooBig, 1, 1, "", "the file is over 1 MB", "name the right file")
	case !utf8.Valid(source):
		t.fail(notUTF8, 1, 1, "", "the file is not text in UTF-8", "save it as CSV in UTF-8")
	case slices.Contains(source, 0):
		t.fail(controlCharacter, 1, 1, "", "the file has a character in it that is no text", "save it as CSV in UTF-8")
	default:
		return strings.TrimPrefix(string(source), string(byteOrderMark)), true
	}
	return "", false
}

// separator is what stands most often in the first line: comma, semicolon or
// tab.
func separator(text string) rune {
	head, _, _ := strings.Cut(strings.TrimLeft(text, "\r\n"), "\n")
	best := ','
	for _, c := range ";\t" {
		if strings.Count(head, string(c)) > strings.Count(head, string(best)) {
			best = c
		}
	}
	return best
}

// next reads a row that has something in it; false at the end, or where the
// table cannot be read on.
func (t *priceTable) next() bool {
	for {
		row, err := t.csv.Read()
		var e *csv.ParseError
		switch {
		case err == io.EOF:
			return false
		case errors.As(err, &e):
			t.fail(priceRow, e.Line, e.Column, "", "the row cannot be read: "+e.Err.Error(), "close the quotes; a quote inside quotes is written twice")
			return false
		}
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
		}
		if strings.Join(row, "") != "" {
			t.row = row
			return true
		}
	}
}

// columns finds the columns by the first row.
func (t *priceTable) columns() bool {
	for i, head := range t.row {
		head = strings.ToLower(strings.Join(strings.Fields(head), " "))
		if _, twice := t.at[head]; twice && slices.Contains(PriceListColumns, head) {
			t.failAt(priceColumns, i, fmt.Sprintf("there are two columns %s", head), "take one of them out")
			return false
		}
		t.at[head] = i
	}
	for _, need := range []string{"name", "price"} {
		if _, ok := t.at[need]; ok {
			continue
		}
		remedy := "write a first row such as name,pack,price"
		for i, head := range t.row {
			if snag.DidYouMean(head, []string{need}) != "" {
				t.failAt(priceColumns, i, "no column is called "+need, fmt.Sprintf("did you mean %s?", need))
				return false
			}
		}
		t.failAt(priceColumns, 0, "no column is called "+need, remedy)
		return false
	}
	for i, head := range t.row {
		head = strings.ToLower(head)
		if slices.Contains(PriceListColumns, head) || head == "packs" {
			continue
		}
		if near := snag.DidYouMean(head, PriceListColumns); near != "" && len(near) > 3 {
			t.failAt(priceColumns, i, fmt.Sprintf("there is no column %q", head), fmt.Sprintf("did you mean %s? Otherwise give it a name of another kind", near))
			return false
		}
	}
	return true
}

// get is a cell of the row, "" where the row or the table has none.
func (t *priceTable) get(column string) string {
	if i, ok := t.at[column]; ok && i < len(t.row) {
		return t.row[i]
	}
	return ""
}

// offer reads a row.
func (t *priceTable) offer() {
	name, sum := t.get("name"), t.get("price")
	if sum == "" {
		return
	}
	if name == "" {
		t.cell(priceRow, "price", "a price has no name", "write what it is the price of, or take the price out")
		return
	}
	before := len(t.list) + t.more
	o := price.Offer{Name: name, Place: fmt.Sprintf("prices.%d.%s", len(t.offers), name)}
	o.Price = t.sum(sum)
	o.Pack = t.pack()
	if tax := t.get("tax"); tax != "" {
		rate, ok := price.ParseRate(t.decimal(tax))
		if !ok {
			t.cell(badTax, "tax", fmt.Sprintf("%q is no rate of tax", tax), "write a rate such as 5 %, or leave it empty")
		}
		o.Tax = &rate
	}
	if len(t.list)+t.more == before {
		t.file.places[o.Place] = t.place("price")
		t.offers = append(t.offers, o)
	}
}

// sum reads the price, in the row's currency where it has none of its own.
func (t *priceTable) sum(text string) money.Amount {
	bare := t.bare
	if c := t.get("currency"); c != "" {
		bare = money.Currency(strings.ToUpper(c))
		if !bare.Known() {
			t.cell(badPrice, "currency", fmt.Sprintf("%q is no currency that is known here", c), "write its three letters, such as USD or EUR")
			return money.Amount{}
		}
	}
	a, s := readSum(t.decimal(text), bare)
	if s.Code != "" {
		remedy := s.Remedy
		if bare == "" && strings.Contains(s.Problem, "no currency") {
			remedy += ", or currency: USD in the job file"
		}
		s.Place, s.Remedy = t.place("price"), remedy
		t.add(s)
	}
	return a
}

// decimal reads a comma as a decimal mark where it cannot part columns or
// thousands: in a table parted by semicolons or tabs, with one or two figures
// behind it.
func (t *priceTable) decimal(text string) string {
	at := strings.IndexByte(text, ',')
	if t.comma == ',' || at < 0 || strings.ContainsAny(text[at+1:], ",.") || strings.Contains(text[:at], ".") {
		return text
	}
	behind := strings.TrimRight(text[at+1:], " €$£%ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	if len(behind) < 1 || len(behind) > 2 {
		return text
	}
	return text[:at] + "." + text[at+1:]
}

// pack reads what the price is for: "500 ml", or 500 with ml in the column
// unit. Without either it is the usual pack.
func (t *priceTable) pack() price.Pack {
	text := t.decimal(t.get("pack"))
	if text == "" && t.get("unit") == "" {
		return price.Pack{}
	}
	if strings.Trim(text, "0123456789./ ") == "" {
		text = strings.TrimSpace(text + " " + t.get("unit"))
	}
	p, err := price.ParsePack(text)
	if err != nil && t.get("pack") == "" {
		p, err = price.ParsePack("1 " + text)
	}
	var e *price.PackError
	if errors.As(err, &e) {
		t.cell(badPack, "pack", e.Problem, "write "+e.Write)
	}
	return p
}

// place is where a cell of the row stands.
func (t *priceTable) place(column string) snag.Place {
	i, ok := t.at[column]
	if !ok || i >= len(t.row) {
		i = 0
	}
	return t.placeAt(i)
}

func (t *priceTable) placeAt(i int) snag.Place {
	line, column := t.csv.FieldPos(min(i, len(t.row)-1))
	return snag.Place{File: t.file.Name, Line: line, Column: t.points(line, column), Path: "prices"}
}

// points turns a byte of a line into a code point.
func (t *priceTable) points(line, column int) int {
	text := t.lines[min(line, len(t.lines))-1]
	return utf8.RuneCountInString(text[:min(max(column-1, 0), len(text))]) + 1
}

func (t *priceTable) cell(k snag.Kind, column, problem, remedy string) {
	t.add(k.At(t.place(column), shorten(t.get(column)), problem, remedy))
}

func (t *priceTable) failAt(k snag.Kind, i int, problem, remedy string) {
	t.add(k.At(t.placeAt(i), shorten(t.row[min(i, len(t.row)-1)]), problem, remedy))
}

func (t *priceTable) fail(k snag.Kind, line, column int, value, problem, remedy string) {
	t.add(k.At(snag.Place{File: t.file.Name, Line: line, Column: column, Path: "prices"}, value, problem, remedy))
}
