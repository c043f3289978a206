package money

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A ParseError is a sum that could not be read.
type ParseError struct {
	Text    string // as the user wrote it
	Offset  int    // byte in Text where the trouble starts; at most len(Text)
	Problem string // what is wrong, in words
	Write   string // what to write instead
}

// Error says text, problem and remedy in one line.
func (e *ParseError) Error() string {
	return fmt.Sprintf("%q: %s; write %s", e.Text, e.Problem, e.Write)
}

// signs are the currency signs that are read, each with its currencies. The
// first is meant unless the default currency is another of them.
var signs = []struct {
	Sign       string
	Currencies []Currency
}{
	{"$", []Currency{"USD", "AUD", "CAD", "CLP", "COP", "HKD", "MXN", "NZD", "SGD", "TWD"}},
	{"€", []Currency{"EUR"}},
	{"£", []Currency{"GBP", "EGP"}},
	{"¥", []Currency{"JPY", "CNY"}},
	{"₹", []Currency{"INR"}},
	{"₪", []Currency{"ILS"}},
	{"₩", []Currency{"KRW"}},
}

const example = "4.49 USD"

// maxText is the longest text, in bytes, that is read as a sum.
const maxText = 48

// Parse reads a sum: $4.49, 4.49 USD, EUR 12, 12.00 €, -4.49 USD. A number
// alone is in the currency bare, and refused when bare is empty. Decimal places
// are at most those of the currency; commas are refused, since they mean
// thousands to some and decimals to others. Every error is a *ParseError.
func Parse(s string, bare Currency) (Amount, error) {
	t := token{text: s}
	if len(s) > maxText || !utf8.ValidString(s) {
		return Amount{}, t.fail(0, "this is no sum of money", example)
	}
	t.split()
	if !strings.ContainsAny(t.figures, "0123456789") {
		return Amount{}, t.fail(t.at, "a number is missing here", example)
	}
	if i := strings.IndexByte(t.figures, ','); i >= 0 {
		return Amount{}, t.fail(t.at+i, "a comma may mark decimals or thousands", t.withoutComma())
	}
	c, err := t.currency(bare)
	if err != nil {
		return Amount{}, err
	}
	return t.amount(c)
}

// A token is a sum taken apart: minus, what stands before the figures, the
// figures, what stands behind.
type token struct {
	text                   string
	minus                  bool
	before, figures, after string
	at                     int // offset of the figures
}

func (t *token) fail(at int, problem, write string) error {
	return &ParseError{Text: t.text, Offset: min(at, len(t.text)), Problem: problem, Write: write}
}

func (t *token) split() {
	isFigure := func(r rune) bool { return r >= '0' && r <= '9' || r == '.' || r == ',' }
	t.at = strings.IndexFunc(t.text, isFigure)
	if t.at < 0 {
		t.at = len(t.text)
	}
	t.before = t.text[:t.at]
	end := t.at
	for end < len(t.text) && isFigure(rune(t.text[end])) {
		end++
	}
	t.figures, t.after = t.text[t.at:end], strings.TrimSpace(t.text[end:])
	t.before, t.minus = cutMinus(strings.TrimSpace(t.before))
}

// cutMinus takes one minus off either end of what stands before the figures:
// -$4 and $-4 are the same sum.
func cutMinus(before string) (rest string, minus bool) {
	for _, sign := range []string{"-", "\u2212"} {
		if rest, ok := strings.CutPrefix(before, sign); ok {
			return strings.TrimSpace(rest), true
		}
		if rest, ok := strings.CutSuffix(before, sign); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return before, false
}

// withoutComma writes the sum as it was most likely meant: a lone comma with
// other than three digits behind it marks decimals, any other thousands.
func (t *token) withoutComma() string {
	before, behind, _ := strings.Cut(t.figures, ",")
	mark := "."
	if strings.Contains(before, ".") { // 1.234,50: the points part thousands
		meant := strings.ReplaceAll(before, ".", "") + "." + strings.NewReplacer(",", "", ".", "").Replace(behind)
		return t.text[:t.at] + meant + t.text[t.at+len(t.figures):]
	}
	if len(behind) == 3 || behind == "" || strings.ContainsAny(behind, ".,") {
		mark = ""
	}
	meant := strings.ReplaceAll(t.figures, ",", mark)
	return t.text[:t.at] + meant + t.text[t.at+len(t.figures):]
}

func (t *token) currency(bare Currency) (Currency, error) {
	names := t.before + t.after
	switch {
	case t.before != "" && t.after != "":
		return "", t.fail(0, "a currency stands before and behind the number", t.figures+" "+t.after)
	case names != "":
		return t.named(names, bare)
	case bare != "" && !bare.Known():
		return "", t.fail(len(t.text), fmt.Sprintf("%q is no currency that is known here", string(bare)), example)
	case bare == "":
		return "", t.fail(len(t.text), "there is no currency after "+t.figures, t.figures+" USD or "+t.figures+" EUR")
	}
	return bare, nil
}

func (t *token) named(name string, bare Currency) (Currency, error) {
	for _, s := range signs {
		if s.Sign != name {
			continue
		}
		for _, c := range s.Currencies {
			if c == bare {
				return c, nil
			}
		}
		return s.Currencies[0], nil
	}
	if c := Currency(strings.ToUpper(name)); c.Known() {
		return c, nil
	}
	return "", t.fail(strings.Index(t.text, name), fmt.Sprintf("%q is no currency that is known here", name), example)
}

// nearest is the sum nearest to digits of which so many are decimals; half goes
// up.
func nearest(digits string, decimals int, c Currency) string {
	drop := decimals - c.Places()
	kept := digits[:len(digits)-drop]
	if minor, err := strconv.ParseInt("0"+kept, 10, 64); err == nil && digits[len(kept)] >= '5' {
		kept = fmt.Sprintf("%0*d", len(kept), minor+1)
	}
	point := len(kept) - c.Places()
	if whole := kept[:point]; whole == "" {
		kept, point = "0"+kept, 1
	}
	return strings.TrimSuffix(kept[:point]+"."+kept[point:], ".")
}

func (t *token) amount(c Currency) (Amount, error) {
	whole, decimals, point := strings.Cut(t.figures, ".")
	switch {
	case point && decimals == "", strings.Contains(decimals, "."):
		return Amount{}, t.fail(t.at, "this is no decimal number", example)
	case len(decimals) > c.Places():
		return Amount{}, t.fail(t.at, fmt.Sprintf("%s has %d decimal places", c, c.Places()),
			nearest(whole+decimals, len(decimals), c)+" "+string(c))
	}
	digits := whole + decimals + strings.Repeat("0", c.Places()-len(decimals))
	minor, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		return Amount{}, t.fail(t.at, "this sum is too large", "a smaller sum")
	}
	if t.minus {
		minor = -minor
	}
	return Amount{minor, c}, nil
}
