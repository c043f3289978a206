package jobfile

import (
	"fmt"
	"math"
	"strings"

	"bowerwright/assume"
	"bowerwright/unit"
)

// The makers of fields: each gives a row of a table for one kind of value,
// with at saying where in a T it goes.

func textField[T any](i info, at func(*T) *string) field[T] {
	i.kind = kind{words: "text on one line", form: line, schema: ref("text")}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if s, ok := r.text(n, maxLine, false); ok {
			*at(into) = s
		}
	}}
}

func noteField[T any](i info, at func(*T) *string) field[T] {
	i.kind = kind{words: "text", form: line, schema: ref("text")}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if s, ok := r.text(n, maxNote, true); ok {
			*at(into) = s
		}
	}}
}

func wordField[T any](i info, words []string, at func(*T) *string) field[T] {
	i.kind = kind{words: either(words), form: line, schema: object{"enum": words}}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if w, ok := r.word(n, words); ok {
			*at(into) = w
		}
	}}
}

func switchField[T any](i info, set func(*T, bool)) field[T] {
	i.kind = kind{words: "yes or no", form: line, schema: ref("switch")}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if yes, ok := r.yes(n); ok {
			set(into, yes)
		}
	}}
}

func lengthField[T any](i info, s span, at func(*T) *unit.Length) field[T] {
	i.kind = kind{words: "a length, " + s.words, form: line, schema: ref("length")}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if l, ok := r.length(n, s); ok {
			*at(into) = l
		}
	}}
}

// assumedField is a length that an assumption stands in for; its range is the
// assumption's.
func assumedField[T any](i info, at func(*T) **unit.Length) field[T] {
	s := assumedSpan(i.Assume)
	i.kind = kind{words: "a length, " + s.words, form: line, schema: ref("length")}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if l, ok := r.length(n, s); ok {
			*at(into) = &l
			if r.d.spec.Said == nil {
				r.d.spec.Said = map[string]string{}
			}
			r.d.spec.Said[string(i.Assume)] = r.origin.String()
		}
	}}
}

// assumedSpan is the range of a built-in assumption that is a length.
func assumedSpan(id assume.ID) span {
	v, _ := assume.BuiltInBook().Lookup(id)
	u, _ := unit.UnitNamed(v.Unit)
	low, _ := unit.Of(v.Low, u)
	high, _ := unit.Of(v.High, u)
	return span{low, high, fmt.Sprintf("%s to %s %s", assume.Number(v.Low), assume.Number(v.High), v.Unit)}
}

// anyField is a row for a value with a form of its own.
func anyField[T any](i info, k kind, read func(r *reader, n *node, into *T)) field[T] {
	i.kind = k
	return field[T]{i, func(r *reader, n *node, into *T) {
		if r.is(n, k.form) {
			read(r, n, into)
		}
	}}
}

// groupField is a group of fields that go into one U.
func groupField[T, U any](i info, table []field[U], at func(*T) *U) field[T] {
	i.kind = kind{words: "fields", form: fields, sub: describe(i.Key, table)}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if r.is(n, fields) {
			readFields(r, n, i.Key, table, at(into))
		}
	}}
}

// cutPair splits "a SEP b" and gives the offset of b; spaces round both go.
func cutPair(text string, seps ...string) (a, b string, at int, ok bool) {
	for _, sep := range seps {
		if i := strings.Index(text, sep); i >= 0 {
			rest := text[i+len(sep):]
			b = strings.TrimLeft(rest, " ")
			return strings.TrimSpace(text[:i]), strings.TrimSpace(b), len(text) - len(b), true
		}
	}
	return "", "", 0, false
}

// wide is what any outside measure of a frame may be; frame has narrower
// rules of its own. positions may lie to the left and below.
var (
	wide      = span{unit.Millimetre, 100 * unit.Metre, "1 mm to 100 m"}
	positions = span{-500 * unit.Metre, 500 * unit.Metre, "-500 m to 500 m"}
	stockSize = span{unit.Millimetre, unit.Metre, "1 mm to 1 m"}
	boardLong = span{50 * unit.Millimetre, 20 * unit.Metre, "50 mm to 20 m"}
	toolSize  = span{unit.Millimetre, 2 * unit.Metre, "1 mm to 2 m"}
)

// quarter is the largest swing or tilt, in degrees.
const quarter = 90.0

// exactly keeps a number typed in degrees free of the dust of radians.
func exactly(degrees float64) float64 { return math.Round(degrees*1e9) / 1e9 }
