package unit

import (
	"math/big"
	"strings"
	"unicode/utf8"
)

// MaxLength is the longest length that is read: 1 km. A set piece fits in a
// hall; what is longer is a slip of unit or of the decimal point.
const MaxLength = 1000 * Metre

// maxText is the longest text, in bytes, that is read as a quantity. The
// longest honest one, with feet, inches and a fraction in words, is near 30.
const maxText = 64

// ParseLength reads a length as people write it: 10 3/8 in, 10-3/8", 10⅜",
// 5' 6 1/2", 5 ft 6 1/2 in, 3/8in, 10.375 in, 264 mm, 26.4 cm, 2.4 m, -1/4 in.
// Spaces may be of any width; the decimal mark is a point.
//
// A number without a unit is taken in the unit bare, and refused when bare is
// NoUnit; 0 needs none. The value is computed exactly and rounded once to the
// nearest nanometre, ties away from zero. Lengths over MaxLength are refused.
// Every error is a *ParseError.
func ParseLength(s string, bare Unit) (Length, error) {
	r, err := newReader(s, "10 3/8 in, 264 mm or 5 ft 6 in")
	if err != nil {
		return 0, err
	}
	neg := r.sign()
	value, err := r.length(bare)
	if err != nil {
		return 0, err
	}
	if neg {
		value.Neg(value)
	}
	return r.toLength(value)
}

// A reader walks over one quantity's text. It works on a plain copy of the
// text (one kind of space, hyphen and slash) and keeps where each byte of the
// copy came from.
type reader struct {
	text    string // as written
	plain   string
	from    []int // from[i] is the offset in text of plain[i]; one more for the end
	at      int   // offset in plain
	example string
}

// plainRunes are the typographic forms that mean the same as a plain one.
var plainRunes = map[rune]string{
	'\t': " ", '\n': " ", '\r': " ", '\u00a0': " ", '\u2002': " ", '\u2003': " ", '\u2004': " ", '\u2005': " ",
	'\u2006': " ", '\u2007': " ", '\u2008': " ", '\u2009': " ", '\u200a': " ", '\u202f': " ",
	'\u2010': "-", '\u2011': "-", '\u2012': "-", '\u2013': "-", '\u2212': "-",
	'\u2044': "/", '\u2215': "/",
}

// glyphs are the ready-made fractions of Unicode, "Number Forms" and Latin-1.
var glyphs = map[rune]string{
	'¼': "1/4", '½': "1/2", '¾': "3/4", '⅐': "1/7", '⅑': "1/9", '⅒': "1/10",
	'⅓': "1/3", '⅔': "2/3", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '↉': "0/3",
}

func newReader(text, example string) (*reader, error) {
	r := &reader{text: text, example: example}
	if len(text) > maxText {
		return nil, r.fail(maxText, "this is too long to be a single measure", example)
	}
	var b strings.Builder
	put := func(s string, from int) {
		b.WriteString(s)
		for range len(s) {
			r.from = append(r.from, from)
		}
	}
	for i, c := range text {
		if c == utf8.RuneError {
			return nil, r.fail(i, "this is not text in UTF-8", example)
		}
		if f, ok := glyphs[c]; ok {
			if s := b.String(); s != "" && isDigit(s[len(s)-1]) {
				f = " " + f // 10⅜ is 10 3/8, not 103/8
			}
			put(f, i)
		} else if p, ok := plainRunes[c]; ok {
			put(p, i)
		} else {
			put(string(c), i)
		}
	}
	r.from = append(r.from, len(text))
	r.plain = b.String()
	r.space()
	if r.done() {
		return nil, r.fail(0, "nothing is written here", example)
	}
	return r, nil
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// fail makes the error at a byte of the text as written.
func (r *reader) fail(offset int, problem, write string) error {
	return &ParseError{Text: r.text, Offset: min(offset, len(r.text)), Problem: problem, Write: write}
}

// failAt makes the error at a byte of the plain copy.
func (r *reader) failAt(at int, problem, write string) error {
	return r.fail(r.from[min(at, len(r.plain))], problem, write)
}

func (r *reader) done() bool { return r.at >= len(r.plain) }

func (r *reader) peek() byte {
	if r.done() {
		return 0
	}
	return r.plain[r.at]
}

// space steps over spaces and says whether there were any.
func (r *reader) space() bool {
	from := r.at
	for r.peek() == ' ' {
		r.at++
	}
	return r.at > from
}

// sign reads a leading plus or minus; true is minus.
func (r *reader) sign() bool {
	c := r.peek()
	if c == '-' || c == '+' {
		r.at++
		r.space()
	}
	return c == '-'
}

// digits reads a run of digits, perhaps empty.
func (r *reader) digits() string {
	from := r.at
	for isDigit(r.peek()) {
		r.at++
	}
	return r.plain[from:r.at]
}

// decimal reads a number with at most a decimal point: 12, 12.5, .5.
func (r *reader) decimal() (*big.Rat, error) {
	from := r.at
	whole := r.digits()
	if whole != "" && r.peek() == ',' {
		return nil, r.comma(from)
	}
	places := ""
	if r.peek() == '.' {
		r.at++
		if places = r.digits(); places == "" {
			return nil, r.failAt(from, "no digit follows the decimal point", r.example)
		}
	}
	v, ok := new(big.Rat).SetString("0" + whole + "." + places + "0")
	if whole+places == "" || !ok {
		return nil, r.failAt(from, "a number is missing here", r.example)
	}
	return v, nil
}

// comma refuses a comma in a number that starts at from: whether it marks
// decimals or thousands cannot be told, and a factor of a thousand is at stake.
func (r *reader) comma(from int) error {
	rest := strings.TrimSpace(r.plain[from:])
	point := strings.Replace(rest, ",", ".", 1)
	none := strings.ReplaceAll(rest, ",", "")
	write := point
	_, behind, _ := strings.Cut(rest, ",")
	switch decimals := leadingDigits(behind); {
	case decimals == 0, strings.Contains(behind, ","):
		write = none
	case decimals == 3:
		write = none + " or " + point
	}
	return r.failAt(r.at, "a comma may mark decimals or thousands", write)
}

func leadingDigits(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// number reads a mixed number: a decimal, a fraction, or a whole number and a
// fraction joined by a space or a hyphen.
func (r *reader) number() (*big.Rat, error) {
	from := r.at
	v, err := r.decimal()
	if err != nil {
		return nil, err
	}
	if r.peek() == '/' {
		return r.fraction(v, from)
	}
	whole := r.at
	if !r.space() && r.peek() == '-' {
		r.at++
	}
	num := r.at
	second := r.digits()
	if r.at == whole || second == "" || r.peek() != '/' {
		r.at = whole // what follows is no fraction of this number
		return v, nil
	}
	if !v.IsInt() || strings.Contains(r.plain[from:whole], ".") {
		return nil, r.failAt(from, "a decimal and a fraction stand together", "10 3/8 in or 10.375 in")
	}
	top, _ := new(big.Rat).SetString(second)
	part, err := r.fraction(top, num)
	if err != nil {
		return nil, err
	}
	if part.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, r.failAt(num, "the fraction beside a whole number is one or more", "10 3/8 in")
	}
	return v.Add(v, part), nil
}

// fraction reads the slash and what is under it; top started at from.
func (r *reader) fraction(top *big.Rat, from int) (*big.Rat, error) {
	if strings.Contains(r.plain[from:r.at], ".") {
		return nil, r.failAt(from, "a fraction has a whole number on top", "3/8 in")
	}
	r.at++
	at := r.at
	bottom, ok := new(big.Rat).SetString(r.digits())
	if !ok {
		return nil, r.failAt(at, "a number is missing under the fraction", "3/8 in")
	}
	if bottom.Sign() == 0 {
		return nil, r.failAt(at, "a fraction over 0 has no value", "3/8 in")
	}
	return top.Quo(top, bottom), nil
}

// word reads what stands up to the next digit, space, sign or the end: a unit.
func (r *reader) word() string {
	from := r.at
	for !r.done() && !strings.ContainsRune(" -+0123456789", rune(r.peek())) {
		r.at++
	}
	return r.plain[from:r.at]
}
