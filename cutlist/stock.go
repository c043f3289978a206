package cutlist

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// StockColumns are the columns of a stock: a row is boards of one length, to be
// bought or on hand.
var StockColumns = []Column{
	{Names: []string{"timber", "name", "stock", "material"}, Doc: "What the boards are called. Without the column all are one timber, called boards."},
	{Names: []string{"size", "board"}, Doc: "Stock size by its name in the catalogue, such as 1x4; or else thickness and width."},
	{Names: []string{"thickness"}, takes: lengths, Doc: "As measured."},
	{Names: []string{"width"}, takes: lengths, Doc: "As measured."},
	{Names: []string{"length"}, Need: true, takes: lengths, Doc: "Of a board."},
	{Names: []string{"price", "price each"}, takes: prices, Doc: "Of a board, such as $4.49 or 12 EUR; a currency may stand with the name: price (EUR). Empty is none; boards on hand then cost nothing."},
	{Names: []string{"at most", "most", "limit"}, Doc: "How many can be bought. Empty is as many as wanted."},
	{Names: []string{"on hand", "have"}, Doc: "How many are there already: such a row is no board to buy."},
	{Names: []string{"unusable", "knots"}, takes: lengths, Doc: "Of one board on hand, what cannot be used, from its first end: `31 in to 33 in and 60 in to 61 in`."},
	{Names: []string{"trim first"}, takes: lengths, Doc: "Cut off the first end, at least. Empty is the assumption cut.trim-first."},
	{Names: []string{"trim far"}, takes: lengths, Doc: "Cut off the far end, at least. Empty is the assumption cut.trim-far."},
	{Names: []string{"turning"}, Doc: "`yes` or `no`: whether a board may be rolled or swapped end for end between cuts. Empty is yes."},
}

// The places of the columns in StockColumns.
const (
	stockTimber = iota
	stockSize
	stockThickness
	stockWidth
	stockLength
	stockPrice
	stockMost
	stockHand
	stockUnusable
	stockTrimFirst
	stockTrimFar
	stockTurning
)

// oneTimber is what boards are called in a stock that names none.
const oneTimber = "boards"

// A Stock is boards as they were read from a table.
type Stock struct {
	Timber []job.Timber // in the order in which they are first named
	file
}

// ReadStock reads a stock; bare and currency hold for numbers that neither cell
// nor column gives a unit or a currency. When snags stop it the stock is not
// whole.
func ReadStock(source []byte, name string, bare unit.Unit, currency money.Currency) (*Stock, snag.List) {
	s := &Stock{file: file{source: source, name: name, places: map[string]snag.Place{}}}
	r := &reader{name: name}
	h, rows := r.table(source, StockColumns, bare, currency)
	shared := map[string]map[int]cell{}
	for _, cells := range rows {
		r.stockRow(h, cells, s, shared)
	}
	for _, t := range s.Timber {
		if len(r.list) == 0 && t.Nominal == "" && (t.Thickness == 0 || t.Width == 0) {
			at := s.places["timber."+t.Name]
			r.bad(badLength, cell{line: at.Line, column: at.Column, text: t.Name}, fmt.Sprintf("the boards %s have no size", t.Name),
				"fill the columns thickness and width, or size with a name such as 1x4")
		}
	}
	r.oneMark()
	return s, r.all()
}

// stockRow reads one row into the timber that it names. What all boards of a
// timber share may stand in one of its rows or in each.
func (r *reader) stockRow(h *head, cells row, s *Stock, shared map[string]map[int]cell) {
	name, ok := oneTimber, true
	if h.has(stockTimber) {
		name, ok = r.text(h.of(cells, stockTimber), "the timber")
	}
	at := slices.IndexFunc(s.Timber, func(t job.Timber) bool { return t.Name == name })
	if at < 0 {
		at = len(s.Timber)
		s.Timber = append(s.Timber, job.Timber{Name: name, From: "job file"})
		first := h.of(cells, stockTimber)
		s.places["timber."+name] = snag.Place{File: r.name, Line: first.line, Column: first.column}
		shared[name] = map[int]cell{}
	}
	t := &s.Timber[at]
	for _, column := range []int{stockSize, stockThickness, stockWidth, stockTrimFirst, stockTrimFar, stockTurning} {
		c := h.of(cells, column)
		if c.text == "" {
			continue
		}
		if before, given := shared[name][column]; given {
			if normal(before.text) != normal(c.text) {
				r.bad(twoTimbers, c, fmt.Sprintf("%s of %s is %s in line %d", h.columns[column].Names[0], name, before.text, before.line), "write the same, or another name for the timber")
			}
			continue
		}
		shared[name][column] = c
		r.sharedCell(h, column, c, t)
	}
	if h.has(stockLength) && ok {
		r.boards(h, cells, t)
	}
}

// sharedCell reads what all boards of a timber have in common.
func (r *reader) sharedCell(h *head, column int, c cell, t *job.Timber) {
	length := func(low, high unit.Length) *unit.Length {
		l, ok := r.length(c, h.unit[column], low, high)
		if !ok {
			return nil
		}
		return &l
	}
	switch column {
	case stockSize:
		size, ok := stock.BuiltIn().Lookup(c.text)
		if !ok {
			remedy := "fill the columns thickness and width"
			if near := stock.BuiltIn().DidYouMean(c.text); near != "" {
				remedy = "did you mean " + near + "? Otherwise " + remedy
			}
			r.bad(badWord, c, fmt.Sprintf("%q is not in the catalogue of boards", c.text), remedy)
			return
		}
		t.Nominal = size.Name
	case stockThickness, stockWidth:
		if l := length(unit.Millimetre, unit.Metre); l != nil && column == stockThickness {
			t.Thickness = *l
		} else if l != nil {
			t.Width = *l
		}
	case stockTrimFirst:
		t.TrimFirst = length(0, mostTrim)
	case stockTrimFar:
		t.TrimFar = length(0, mostTrim)
	case stockTurning:
		if word, ok := r.oneOf(c, []string{"yes", "true", "on"}, []string{"no", "false", "off"}); ok {
			yes := word == 0
			t.Turning = &yes
		}
	}
}

// mostTrim is the most that is cut off an end as a matter of course.
const mostTrim = 300 * unit.Millimetre

// boards reads the boards of one row.
func (r *reader) boards(h *head, cells row, t *job.Timber) {
	length, ok := r.length(h.of(cells, stockLength), h.unit[stockLength], leastBoard, mostLong)
	price := r.price(h.of(cells, stockPrice), h.currency[stockPrice])
	most, hand, knots := h.of(cells, stockMost), h.of(cells, stockHand), h.of(cells, stockUnusable)
	if hand.text == "" {
		l := job.StockLength{Length: length, PriceMinor: price.Minor, Currency: string(price.Currency)}
		if most.text != "" {
			var whole bool
			l.Most, whole = r.count(most, "the most", 1)
			ok = ok && whole
		}
		if knots.text != "" {
			r.bad(badSpan, knots, "boards to be bought have nothing unusable yet", "write under on hand that there is 1")
		}
		if ok {
			t.Lengths = append(t.Lengths, l)
		}
		return
	}
	if most.text != "" {
		r.bad(badCount, most, "this row tells both what can be bought and what is on hand", "write two rows")
	}
	n, whole := r.count(hand, "the number on hand", 1)
	b := job.HandBoard{Count: n, Length: length, PriceMinor: price.Minor, Currency: string(price.Currency)}
	if knots.text != "" {
		b.Spans = r.spans(knots, h.unit[stockUnusable], length)
		if whole && n != 1 {
			r.bad(badSpan, knots, fmt.Sprintf("%d boards cannot have the same knots", n), "write each in a row of its own, with 1 on hand")
		}
		if price.Minor > 0 {
			r.bad(badPrice, h.of(cells, stockPrice), "a board with something unusable has a price", "leave the price out: it is on hand and paid for")
		}
	}
	if ok && whole {
		t.OnHand = append(t.OnHand, b)
	}
}

// leastBoard is the shortest board that is read.
const leastBoard = 50 * unit.Millimetre

// price reads a price; an empty cell is none.
func (r *reader) price(c cell, currency money.Currency) (a money.Amount) {
	if c.text == "" {
		return a
	}
	text, ok := r.decimal(c)
	if !ok {
		return a
	}
	a, err := money.Parse(text, currency)
	if r.quantity(badPrice, c, err) && a.Minor < 0 {
		r.bad(badPrice, c, "the price is below nothing", "write a price of 0 or more")
	}
	return a
}

// spans reads what is unusable of a board: 31 in to 33 in and 60 in to 61 in.
func (r *reader) spans(c cell, bare unit.Unit, board unit.Length) (out [][2]unit.Length) {
	offset := 0
	for _, part := range strings.SplitAfter(c.text, " and ") {
		from, to, ok := strings.Cut(strings.TrimSuffix(part, " and "), " to ")
		if !ok {
			r.badAt(badSpan, c, offset, c.text, "this does not say from where to where", "write 31 in to 33 in, with and before another")
			return nil
		}
		at := func(text string, offset int) cell {
			d := c
			d.text = strings.TrimSpace(text)
			d.column += len([]rune(c.text[:offset]))
			return d
		}
		a, okA := r.length(at(from, offset), bare, 0, mostLong)
		b, okB := r.length(at(to, offset+len(from)+len(" to ")), bare, 0, mostLong)
		if !okA || !okB {
			return nil
		}
		if a >= b || board > 0 && b > board {
			r.badAt(badSpan, c, offset, c.text, "a length that is unusable lies within the board, its nearer end first", "measure from the first end of the board")
			return nil
		}
		out = append(out, [2]unit.Length{a, b})
		offset += len(part)
	}
	return out
}
