package jobfile

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"bowerwright/assume"
	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/unit"
)

// found are the snags of one file, at most maxSnags of them.
type found struct {
	list snag.List
	more int // how many are left out
}

// maxSnags is how many snags are shown at once. Beyond it nobody reads on, and
// guessing at what was meant would take long.
const maxSnags = 200

func (f *found) add(s snag.Snag) {
	if len(f.list) >= maxSnags {
		f.more++
		return
	}
	f.list.Add(s)
}

// all gives the snags, and says how many are left out.
func (f *found) all(file string) snag.List {
	if f.more > 0 {
		return append(f.list, tooManySnags.At(snag.Place{File: file}, "", fmt.Sprintf("%d more are not shown", f.more), "put these right first"))
	}
	return f.list
}

// full tells whether another snag would be left out.
func (f *found) full() bool { return len(f.list) >= maxSnags }

// A reader reads one file's nodes. It goes on after a snag, so that all are
// found at once.
type reader struct {
	origin assume.Origin // Shop or Job
	book   assume.Book
	found
	at    *info // the field that is read
	d     *draft
	refs  []reference
	first *node // the key that names the file
}

func (r *reader) bad(k snag.Kind, n *node, problem, remedy string) {
	r.badAt(k, n.place, n.text, problem, remedy)
}

func (r *reader) badAt(k snag.Kind, at snag.Place, value, problem, remedy string) {
	r.add(k.At(at, shorten(value), problem, remedy))
}

// shorten keeps a value to what is worth repeating.
func shorten(s string) string {
	const most = 80
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most]) + "…"
}

// is checks the form of what stands in a field. what is the field itself or,
// in a list, one item of it.
func (r *reader) is(n *node, want form) bool {
	switch {
	case n.form == want:
		return true
	case n.comment != "":
		r.badAt(hashValue, n.place, n.comment, "nothing is left of the value: # starts a comment",
			fmt.Sprintf("if it is the value, put it in quotes: '%s'; else take the field out", shorten(n.comment)))
	case n.form == empty:
		r.bad(emptyValue, n, r.at.Key+" has no value", r.at.remedy()+", or take it out")
	default:
		r.bad(wrongType, n, fmt.Sprintf("%s takes %s, not %s", r.at.Key, want, n.form), r.at.remedy())
	}
	return false
}

// strange matches numbers that YAML, or a reader of the paper, may take for
// others: octal, hexadecimal, grouped, with an exponent, not finite.
var strange = regexp.MustCompile(`^[+-]?(0[0-9]|0[xXoObB]|[0-9]+_|[0-9.]+[eE][+-]?[0-9]|\.(?i:inf|nan))`)

// number gives the text of a quantity, refusing strange numbers.
func (r *reader) number(n *node) (string, bool) {
	return n.text, r.is(n, line) && r.plain(n, n.text, 0)
}

// plain refuses a strange number in a part of the node's text.
func (r *reader) plain(n *node, text string, offset int) bool {
	if !strange.MatchString(text) {
		return true
	}
	r.badAt(strangeNumber, n.within(offset), text, text+" may be taken for another number",
		"write "+plainly(text))
	return false
}

// plainly rewrites a strange number where its digits leave no doubt; elsewhere
// it says only how numbers are written.
func plainly(s string) string {
	switch f, err := strconv.ParseFloat(s, 64); {
	case strings.ContainsAny(s, "xXoObB"):
	case strings.Contains(s, "_"):
		return strings.ReplaceAll(s, "_", "")
	case len(s) > 1 && s[0] == '0' && isDigit(s[1]):
		if t := strings.TrimLeft(s, "0"); t != "" && isDigit(t[0]) {
			return t
		}
	case err == nil && math.Abs(f) < 1e6 && math.Abs(f) > 1e-3:
		return strconv.FormatFloat(f, 'f', -1, 64)
	}
	return "it in plain figures, such as 16 or 0.5"
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// A span is what a length may be.
type span struct {
	low, high unit.Length // both included
	words     string      // "0 to 12 in"
}

// length reads a length.
func (r *reader) length(n *node, s span) (unit.Length, bool) {
	if !r.is(n, line) {
		return 0, false
	}
	l, ok := r.lengthIn(n, n.text, 0)
	if !ok {
		return 0, false
	}
	return l, r.fits(n, l, s)
}

func (r *reader) fits(n *node, l unit.Length, s span) bool {
	if l >= s.low && l <= s.high {
		return true
	}
	r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be %s", r.at.Key, n.text, s.words),
		"write a length from "+s.words)
	return false
}

// lengthIn reads a length in a part of the node's text that begins at offset.
func (r *reader) lengthIn(n *node, text string, offset int) (unit.Length, bool) {
	if !r.plain(n, text, offset) {
		return 0, false
	}
	l, err := unit.ParseLength(text, r.d.unit)
	r.tally(text)
	return l, r.quantity(badLength, n, offset, err)
}

// tally counts which system a length is written in; bare numbers say nothing.
func (r *reader) tally(text string) {
	if r.origin != assume.Job {
		return
	}
	fields := strings.FieldsFunc(text, func(c rune) bool { return unicode.IsNumber(c) || unicode.IsSpace(c) })
	if len(fields) == 0 {
		return
	}
	u, ok := unit.UnitNamed(fields[len(fields)-1])
	switch {
	case !ok:
	case u == unit.Inches || u == unit.Feet:
		r.d.metric--
	default:
		r.d.metric++
	}
}

// angleIn reads an angle likewise.
func (r *reader) angleIn(n *node, text string, offset int) (unit.Angle, bool) {
	if !r.plain(n, text, offset) {
		return 0, false
	}
	a, err := unit.ParseAngle(text)
	return a, r.quantity(badAngle, n, offset, err)
}

// quantity turns an error of unit into a snag at its very place.
func (r *reader) quantity(k snag.Kind, n *node, offset int, err error) bool {
	var e *unit.ParseError
	if !errors.As(err, &e) {
		return err == nil
	}
	r.badAt(k, n.within(offset+e.Offset), e.Text, e.Problem, "write "+e.Write)
	return false
}

// angle reads an angle of low to high degrees.
func (r *reader) angle(n *node, low, high float64) (unit.Angle, bool) {
	if !r.is(n, line) {
		return 0, false
	}
	return r.angleWithin(n, n.text, 0, low, high)
}

func (r *reader) angleWithin(n *node, text string, offset int, low, high float64) (unit.Angle, bool) {
	a, ok := r.angleIn(n, text, offset)
	if !ok {
		return 0, false
	}
	// Degrees go through radians: a billionth is dust.
	if d := a.Degrees(); d < low-1e-9 || d > high+1e-9 {
		r.badAt(outOfRange, n.within(offset), text, fmt.Sprintf("%s is %s degrees; it must be %g to %g", r.at.Key, text, low, high),
			fmt.Sprintf("write an angle from %g to %g", low, high))
		return 0, false
	}
	return a, true
}

// count reads a whole number from low to high.
func (r *reader) count(n *node, low, high int) (int, bool) {
	text, ok := r.number(n)
	if !ok {
		return 0, false
	}
	v, err := strconv.Atoi(strings.TrimSpace(text))
	switch {
	case err != nil:
		r.bad(badNumber, n, fmt.Sprintf("%q is no whole number", text), r.at.remedy())
	case v < low || v > high:
		r.bad(outOfRange, n, fmt.Sprintf("%s is %d; it must be %d to %d", r.at.Key, v, low, high),
			fmt.Sprintf("write a whole number from %d to %d", low, high))
	default:
		return v, true
	}
	return 0, false
}

// percent reads a share from low to high per cent.
func (r *reader) percent(n *node, low, high float64) (float64, bool) {
	text, ok := r.number(n)
	if !ok {
		return 0, false
	}
	p, ok := r.share(n)
	if !ok {
		return 0, false
	}
	if p < low || p > high {
		r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be %g to %g %%", r.at.Key, text, low, high),
			fmt.Sprintf("write a share from %g to %g %%", low, high))
		return 0, false
	}
	return p, true
}

// share reads a number of per cent; the sign may be left out.
func (r *reader) share(n *node) (float64, bool) {
	p, err := unit.ParsePercent(strings.TrimSuffix(strings.TrimSpace(n.text), "%") + "%")
	return p, r.quantity(badPercent, n, 0, err)
}

// price reads a sum of money that is not negative.
func (r *reader) price(n *node) (money.Amount, bool) {
	text, ok := r.number(n)
	if !ok {
		return money.Amount{}, false
	}
	a, err := money.Parse(text, r.d.currency)
	return r.priced(n, 0, a, err)
}

// priced refuses what is no price, read from offset on.
func (r *reader) priced(n *node, offset int, a money.Amount, err error) (money.Amount, bool) {
	var e *money.ParseError
	switch {
	case errors.As(err, &e):
		r.badAt(badPrice, n.within(offset+e.Offset), e.Text, e.Problem, "write "+e.Write)
	case err != nil:
		r.badAt(badPrice, n.within(offset), n.text, "the price cannot be read", r.at.remedy())
	case a.Minor < 0:
		r.bad(outOfRange, n, r.at.Key+" is below nothing", "write a price of 0 or more")
	case a.Minor > maxPrice*100:
		r.bad(outOfRange, n, r.at.Key+" is beyond any price", fmt.Sprintf("write a price of at most %d", maxPrice))
	default:
		return a, true
	}
	return money.Amount{}, false
}

// yes reads a switch.
func (r *reader) yes(n *node) (bool, bool) {
	if !r.is(n, line) {
		return false, false
	}
	switch strings.ToLower(n.text) {
	case "yes", "true", "on":
		return true, true
	case "no", "false", "off":
		return false, true
	}
	r.bad(badSwitch, n, fmt.Sprintf("%q is neither yes nor no", n.text), fmt.Sprintf("write %s: yes or %s: no", r.at.Key, r.at.Key))
	return false, false
}

// word reads one of a few words.
func (r *reader) word(n *node, words []string) (string, bool) {
	if !r.is(n, line) {
		return "", false
	}
	w := strings.ToLower(n.text)
	if slices.Contains(words, w) {
		return w, true
	}
	remedy := "write " + either(words)
	if near := snag.DidYouMean(n.text, words); near != "" {
		remedy = fmt.Sprintf("did you mean %s? %s", near, remedy)
	}
	r.bad(badWord, n, fmt.Sprintf("%s cannot be %q", r.at.Key, n.text), remedy)
	return "", false
}

// either lists words as a choice.
func either(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}

// Longest texts, in characters: a line of a paper, and half a page.
const (
	maxLine = 120
	maxNote = 2000
)

// text reads free text; block allows line breaks.
func (r *reader) text(n *node, most int, block bool) (string, bool) {
	if !r.is(n, line) {
		return "", false
	}
	s := strings.TrimSpace(n.text)
	switch count := utf8.RuneCountInString(s); {
	case s == "":
		r.bad(emptyValue, n, r.at.Key+" has no value", r.at.remedy()+", or take it out")
	case count > most:
		r.bad(badText, n, fmt.Sprintf("%s has %d characters; at most %d fit", r.at.Key, count, most), "write less")
	case !block && strings.ContainsRune(s, '\n'):
		r.bad(badText, n, r.at.Key+" is one line", "write it on one line")
	default:
		return s, true
	}
	return "", false
}

// date reads a day as year, month, day.
func (r *reader) date(n *node) (string, bool) {
	if !r.is(n, line) {
		return "", false
	}
	if _, err := time.Parse(time.DateOnly, n.text); err != nil {
		r.bad(badDate, n, fmt.Sprintf("%q is no day of the calendar", n.text), "write year, month and day, such as 2027-05-22")
		return "", false
	}
	return n.text, true
}

// reserved are the words of layout lines: a name that is one of them could
// not be told from it.
var reserved = []string{"and", "as", "at", "by", "centered", "centred", "corner", "end", "flush", "mirrored", "moved", "on", "previous", "shifted", "side", "start", "turned"}

// isName tells whether s is one word: a letter, then letters, figures, - or _.
func isName(s string) bool {
	for i, c := range s {
		if !unicode.IsLetter(c) && (i == 0 || !unicode.IsDigit(c) && c != '-' && c != '_') {
			return false
		}
	}
	return s != "" && utf8.RuneCountInString(s) <= 40
}

// name checks a name that the user gives to something.
func (r *reader) name(n *node, what string) bool {
	switch {
	case slices.Contains(reserved, n.text):
		r.bad(badName, n, fmt.Sprintf("%q is a word of layout lines", n.text), "choose another name for the "+what)
	case !isName(n.text):
		r.bad(badName, n, fmt.Sprintf("%q is no name for a %s", n.text, what),
			"write one word: a letter, then letters, figures, - or _")
	default:
		return true
	}
	return false
}
