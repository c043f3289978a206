package jobfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/unit"
)

// The rows of a timber that say in which lengths it is bought, what is on hand,
// and how many parts are sawn more than are needed.

// Examples of lines, for remedies.
const (
	exampleLength = "8 ft at $4.49, at most 6"
	exampleHand   = "3 of 41 in"
	exampleSpans  = "96 in, unusable 31 in to 33 in and 60 in to 61 in"
)

// How much of a timber may be told.
const (
	maxStocks = 40      // lengths, and lines of what is on hand
	maxBoards = 10_000  // of one line
	maxSpare  = 1_000   // spare parts of each part
	maxReject = 50.0    // per cent; beyond it other boards are wanted
	maxSpans  = 20      // of one board
	maxPrice  = 1000000 // of a board, in whole units of the currency
)

func boardLengthsField(i info) field[job.Timber] {
	k := kind{words: "a list of lines: a length, then perhaps at and its price, then perhaps at most and how many there are",
		form: list, schema: listOf(ref("text"))}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		t.Length, t.PriceMinor, t.Currency, t.Lengths = 0, 0, "", nil
		for _, item := range r.few(n) {
			if l, ok := r.stockLength(item); ok {
				t.Lengths = append(t.Lengths, l)
			}
		}
	})
}

func handField(i info) field[job.Timber] {
	k := kind{words: "a list of lines: perhaps how many and of, a length, then perhaps at and a price, or unusable and lengths from the first end",
		form: list, schema: listOf(ref("text"))}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		t.OnHand = nil
		for _, item := range r.few(n) {
			if h, ok := r.handBoard(item); ok {
				t.OnHand = append(t.OnHand, h)
			}
		}
	})
}

func spareEachField(i info) field[job.Timber] {
	k := kind{words: fmt.Sprintf("a whole number, 0 to %d", maxSpare), form: line, schema: whole(0, maxSpare)}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		if v, ok := r.count(n, 0, maxSpare); ok {
			t.SpareParts = v
		}
	})
}

func rejectField(i info) field[job.Timber] {
	k := kind{words: fmt.Sprintf("a share, 0 to %g %%", maxReject), form: line, schema: ref("text")}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		if p, ok := r.percent(n, 0, maxReject); ok {
			t.Reject = p
		}
	})
}

// few gives the items of a list that are lines, as many as are taken.
func (r *reader) few(n *node) (out []*node) {
	for i, item := range n.items {
		if i == maxStocks {
			r.bad(outOfRange, item, fmt.Sprintf("%s has %d lines; at most %d are taken", r.at.Key, len(n.items), maxStocks), "leave out what will not be used")
			break
		}
		if r.is(item, line) {
			out = append(out, item)
		}
	}
	return out
}

var (
	countWords  = regexp.MustCompile(`^([^ ]+) +(?i:of)( +|$)`)
	priceWords  = regexp.MustCompile(`(?i) +at( +|$)`)
	mostWords   = regexp.MustCompile(`(?i),? +at +most( +|$)`)
	uselessWord = regexp.MustCompile(`(?i),? +unusable( +|$)`)
	toWord      = regexp.MustCompile(`(?i) +to( +|$)`)
	andWords    = regexp.MustCompile(`(?i) +and( +|$)|, +`)
	tornWords   = regexp.MustCompile(`(?i)^(at +most|unusable)\b`)
)

// cutAt splits text at the first match; at is where what follows begins.
func cutAt(re *regexp.Regexp, text string) (before, after string, at int, ok bool) {
	m := re.FindStringIndex(text)
	if m == nil {
		return text, "", len(text), false
	}
	return text[:m[0]], text[m[1]:], m[1], true
}

// stockLength reads a line such as "8 ft at $4.49, at most 6".
func (r *reader) stockLength(n *node) (l job.StockLength, ok bool) {
	head, most, at, limited := cutAt(mostWords, n.text)
	if limited {
		if l.Most, ok = r.countIn(n, most, at, "at most", exampleLength); !ok {
			return l, false
		}
	}
	length, amount, ok := r.lengthAt(n, head, 0, exampleLength)
	l.Length, l.PriceMinor, l.Currency = length, amount.Minor, string(amount.Currency)
	return l, ok
}

// handBoard reads a line such as "3 of 41 in" or "96 in, unusable 31 in to 33 in".
func (r *reader) handBoard(n *node) (h job.HandBoard, ok bool) {
	h.Count = 1
	head, spans, at, spoilt := cutAt(uselessWord, n.text)
	begin := 0
	if m := countWords.FindStringSubmatch(head); m != nil {
		begin = len(m[0])
		if h.Count, ok = r.countIn(n, m[1], 0, "how many", exampleHand); !ok {
			return h, false
		}
	}
	if _, _, most, limited := cutAt(mostWords, head); limited {
		r.badAt(badStock, n.within(most), n.text, "what is on hand is counted, not limited", "write how many there are in front, such as "+exampleHand)
		return h, false
	}
	length, amount, ok := r.lengthAt(n, head[begin:], begin, exampleHand)
	h.Length, h.PriceMinor, h.Currency = length, amount.Minor, string(amount.Currency)
	if !ok || !spoilt {
		return h, ok
	}
	if h.Count > 1 || amount.Minor > 0 {
		r.bad(badStock, n, "a board of which something is unusable has a line of its own, and no price", "write "+exampleSpans)
		return h, false
	}
	h.Spans, ok = r.spans(n, spans, at, length)
	return h, ok
}

// countIn reads a whole number in a part of the node's text.
func (r *reader) countIn(n *node, text string, at int, what, example string) (int, bool) {
	v, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || v < 1 || v > maxBoards {
		r.badAt(badStock, n.within(at), text, fmt.Sprintf("%s is a whole number, 1 to %d", what, maxBoards), "write a line such as "+example)
		return 0, false
	}
	return v, true
}

// lengthAt reads a length and, behind at, its price.
func (r *reader) lengthAt(n *node, text string, begin int, example string) (l unit.Length, price money.Amount, ok bool) {
	length, amount, at, priced := cutAt(priceWords, text)
	switch comma := strings.Index(length, ", "); {
	case tornWords.MatchString(text):
		r.badAt(badStock, n.within(begin), n.text, "a comma inside [ ] ends a line", "put each line on one of its own behind a dash, or in quotes, such as '"+example+"'")
		return l, price, false
	case comma >= 0:
		r.badAt(badStock, n.within(begin+comma), n.text, "a line is about one length", "write the other on a line of its own, such as "+example)
		return l, price, false
	}
	if strings.TrimSpace(length) == "" || priced && strings.TrimSpace(amount) == "" {
		r.badAt(badStock, n.within(begin), n.text, "the line is not whole", "write a line such as "+example)
		return l, price, false
	}
	if l, ok = r.lengthIn(n, length, begin); !ok || !r.fits(n, l, boardLong) {
		return l, price, false
	}
	if !priced {
		return l, price, true
	}
	price, ok = r.priceIn(n, amount, begin+at)
	return l, price, ok
}

// priceIn reads a price in a part of the node's text.
func (r *reader) priceIn(n *node, text string, at int) (money.Amount, bool) {
	if !r.plain(n, text, at) {
		return money.Amount{}, false
	}
	a, err := money.Parse(text, r.d.currency)
	return r.priced(n, at, a, err)
}

// spans reads "31 in to 33 in and 60 in to 61 in", on a board of a length.
func (r *reader) spans(n *node, text string, at int, length unit.Length) (out [][2]unit.Length, ok bool) {
	for {
		one, rest, next, more := cutAt(andWords, text)
		span, ok := r.span(n, one, at, length)
		if !ok {
			return nil, false
		}
		out = append(out, span)
		if len(out) > maxSpans {
			r.badAt(badStock, n.within(at), n.text, fmt.Sprintf("a board has at most %d unusable lengths", maxSpans), "leave the board out")
			return nil, false
		}
		if !more {
			return out, true
		}
		text, at = rest, at+next
	}
}

func (r *reader) span(n *node, text string, at int, length unit.Length) (s [2]unit.Length, ok bool) {
	from, to, next, two := cutAt(toWord, text)
	if !two {
		r.badAt(badStock, n.within(at), n.text, "an unusable length goes from one place to another, from the first end", "write "+exampleSpans)
		return s, false
	}
	var okTo bool
	s[0], ok = r.lengthIn(n, from, at)
	s[1], okTo = r.lengthIn(n, to, at+next)
	if !ok || !okTo {
		return s, false
	}
	if s[0] < 0 || s[1] <= s[0] || s[1] > length {
		r.badAt(badStock, n.within(at), text, "an unusable length begins before it ends, and lies on the board", "write "+exampleSpans)
		return s, false
	}
	return s, true
}
