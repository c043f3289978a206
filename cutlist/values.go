package cutlist

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/unit"
)

// Ranges of values, both ends included.
const (
	leastLong = unit.Millimetre // of a part or a board
	mostLong  = 20 * unit.Metre // as far as cut plans
	mostCount = 200_000         // likewise
	mostName  = 40              // characters, what has room on a drawn board
	mostTurn  = 85.0            // degrees: beyond it a blade runs along the board
)

// grouped is a number whose comma may group thousands; figures with 0 before
// the comma are a decimal.
var grouped = regexp.MustCompile(`^[1-9][0-9]{0,2},[0-9]{3}$`)

// number matches the figures of a quantity with its marks.
var number = regexp.MustCompile(`[0-9][0-9.,]*`)

// decimal gives a cell's text with points for decimal commas.
func (r *reader) decimal(c cell) (string, bool) {
	ok := true
	out := number.ReplaceAllStringFunc(c.text, func(n string) string {
		at := strings.Index(c.text, n)
		points, commas := strings.Count(n, "."), strings.Count(n, ",")
		switch {
		case commas == 0:
			if points == 1 {
				r.uses(&r.point, c)
			}
			return n
		case commas > 1 || points > 0 || strings.HasSuffix(n, ","):
			r.badAt(badDecimal, c, at, n, n+" cannot be read as one number", "write it with one decimal mark, such as 1234.5")
			ok = false
		case grouped.MatchString(n):
			r.badAt(badDecimal, c, at, n, fmt.Sprintf("%s may be a decimal or %s", n, strings.ReplaceAll(n, ",", "")),
				"write "+plainly(n)+" or "+strings.ReplaceAll(n, ",", ""))
			ok = false
		default:
			r.uses(&r.comma, c)
		}
		return strings.ReplaceAll(n, ",", ".")
	})
	return out, ok
}

// plainly writes 1,250 as a decimal that cannot be taken for a thousand.
func plainly(n string) string {
	if short := strings.TrimRight(n, "0"); len(short) < len(n) {
		return strings.TrimSuffix(short, ",")
	}
	return n + "0"
}

// uses notes the first cell with a decimal mark.
func (r *reader) uses(mark **cell, c cell) {
	if *mark == nil {
		*mark = &c
	}
}

// oneMark refuses a file with decimal commas and points.
func (r *reader) oneMark() {
	if r.point == nil || r.comma == nil {
		return
	}
	later, earlier := *r.point, *r.comma
	if later.line < earlier.line || later.line == earlier.line && later.column < earlier.column {
		later, earlier = earlier, later
	}
	r.bad(badDecimal, later, fmt.Sprintf("this number and %s in line %d have different decimal marks", earlier.text, earlier.line), "use one decimal mark in a file")
}

// quantity turns an error of unit or money into a snag at its place.
func (r *reader) quantity(k snag.Kind, c cell, err error) bool {
	var u *unit.ParseError
	var m *money.ParseError
	switch {
	case err == nil:
		return true
	case errors.As(err, &u):
		r.badAt(k, c, u.Offset, c.text, u.Problem, "write "+u.Write)
	case errors.As(err, &m):
		r.badAt(k, c, m.Offset, c.text, m.Problem, "write "+m.Write)
	default:
		r.bad(k, c, err.Error(), "write it otherwise")
	}
	return false
}

// length reads a length of low to high.
func (r *reader) length(c cell, bare unit.Unit, low, high unit.Length) (unit.Length, bool) {
	if c.text == "" {
		r.bad(badLength, c, "the length is missing", "write it, such as 34 1/2 in or 876 mm")
		return 0, false
	}
	text, ok := r.decimal(c)
	if !ok {
		return 0, false
	}
	l, err := unit.ParseLength(text, bare)
	r.tally(text, bare)
	if !r.quantity(badLength, c, err) {
		return 0, false
	}
	if l < low || l > high {
		r.bad(outOfRange, c, fmt.Sprintf("%s is no length from %s to %s", c.text, said(low), said(high)), "write a length in that range")
		return 0, false
	}
	return l, true
}

// tally counts which system a length is written in.
func (r *reader) tally(text string, bare unit.Unit) {
	u := bare
	words := strings.FieldsFunc(text, func(c rune) bool { return unicode.IsNumber(c) || unicode.IsSpace(c) })
	if n := len(words); n > 0 {
		if named, ok := unit.UnitNamed(words[n-1]); ok {
			u = named
		}
	}
	switch u {
	case unit.NoUnit:
	case unit.Inches, unit.Feet:
		r.metric--
	default:
		r.metric++
	}
}

func said(l unit.Length) string {
	if l >= unit.Metre {
		return strconv.FormatFloat(l.MM()/1000, 'f', -1, 64) + " m"
	}
	return strconv.FormatFloat(l.MM(), 'f', -1, 64) + " mm"
}

// count reads a whole number from least on; an empty cell is missing.
func (r *reader) count(c cell, what string, least int) (int, bool) {
	v, err := strconv.Atoi(c.text)
	switch {
	case c.text == "":
		r.bad(badCount, c, what+" is missing", "write a whole number")
	case err != nil || strconv.Itoa(v) != c.text:
		r.bad(badCount, c, fmt.Sprintf("%s is no whole number", c.text), "write "+whole(c.text))
	case v < least:
		remedy := fmt.Sprintf("write %d or more", least)
		if least == 1 {
			remedy += ", or take the row out"
		}
		r.bad(badCount, c, what+" is "+c.text, remedy)
	case v > mostCount:
		r.bad(outOfRange, c, fmt.Sprintf("%s is over %d", c.text, mostCount), "write a smaller number")
	default:
		return v, true
	}
	return 0, false
}

// whole writes a count plainly where its figures leave no doubt: 4.0 is 4.
func whole(s string) string {
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimPrefix(s, "+"), ",", ".", 1), 64)
	if err == nil && v == math.Trunc(v) && v >= 1 && v <= mostCount {
		return strconv.Itoa(int(v))
	}
	return "a whole number, such as 4"
}

// angle reads degrees from straight across; an empty cell is 0.
func (r *reader) angle(c cell) (unit.Angle, bool) {
	if c.text == "" {
		return 0, true
	}
	text, ok := r.decimal(c)
	if !ok {
		return 0, false
	}
	a, err := unit.ParseAngle(text)
	if !r.quantity(badAngle, c, err) {
		return 0, false
	}
	if d := a.Degrees(); math.Abs(d) > mostTurn+1e-9 {
		r.bad(outOfRange, c, fmt.Sprintf("%s is no setting from -%g to %g degrees", c.text, mostTurn, mostTurn),
			"count from straight across the board, so that a square end is 0")
		return 0, false
	}
	return a, true
}

// text reads a name.
func (r *reader) text(c cell, what string) (string, bool) {
	switch n := utf8.RuneCountInString(c.text); {
	case n == 0:
		r.bad(badName, c, what+" has no name", "write one in every row")
	case n > mostName:
		r.bad(badName, c, fmt.Sprintf("the name has %d characters; at most %d have room", n, mostName), "write a shorter one")
	default:
		return c.text, true
	}
	return "", false
}

// oneOf reads one of a few words; the first group holds for an empty cell.
func (r *reader) oneOf(c cell, groups ...[]string) (int, bool) {
	w := normal(c.text)
	var usual []string
	for i, g := range groups {
		for _, word := range g {
			if w == word || w == "" {
				return i, true
			}
		}
		usual = append(usual, g[0])
	}
	remedy := "write " + either(usual)
	if near := snag.DidYouMean(w, usual); near != "" {
		remedy = fmt.Sprintf("did you mean %s?", near)
	}
	r.bad(badWord, c, fmt.Sprintf("%q is none of its words", c.text), remedy)
	return 0, false
}
