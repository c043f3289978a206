package jobfile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// The rows of the tables that take more than one plain value.

func textOf(i info, at func(*job.Spec) *string) field[draft] {
	return textField(i, func(d *draft) *string { return at(&d.spec) })
}

func assumedOf(i info, at func(*job.Spec) **unit.Length) field[draft] {
	return assumedField(i, func(d *draft) **unit.Length { return at(&d.spec) })
}

func dateField(i info) field[draft] {
	return anyField(i, kind{words: "a day", form: line, schema: ref("date")}, func(r *reader, n *node, d *draft) {
		if day, ok := r.date(n); ok {
			d.spec.Date = day
		}
	})
}

// bareUnits are the units that a file may name for bare numbers.
var bareUnits = map[string]unit.Unit{
	"in": unit.Inches, "ft": unit.Feet, "mm": unit.Millimetres, "cm": unit.Centimetres, "m": unit.Metres,
}

func unitField(i info) field[draft] {
	words := []string{"in", "ft", "mm", "cm", "m"}
	return anyField(i, kind{words: either(words), form: line, schema: object{"enum": words}}, func(r *reader, n *node, d *draft) {
		if w, ok := r.word(n, words); ok {
			d.unit = bareUnits[w]
		}
	})
}

func currencyField(i info) field[draft] {
	return anyField(i, kind{words: "a currency, three letters", form: line, schema: ref("text")}, func(r *reader, n *node, d *draft) {
		c := money.Currency(strings.ToUpper(n.text))
		if !c.Known() {
			r.bad(badPrice, n, fmt.Sprintf("%q is no currency that is known here", n.text), "write its three letters, such as USD or EUR")
			return
		}
		d.currency = c
	})
}

// marks are the tapes there are: 1/2 to 1/64 in, 1 and 0.5 mm.
const marks = "1/2, 1/4, 1/8, 1/16, 1/32 or 1/64 in, 1 or 0.5 mm"

func markField(i info) field[draft] {
	return anyField(i, kind{words: marks, form: line, schema: ref("length")}, func(r *reader, n *node, d *draft) {
		l, ok := r.length(n, positions)
		if !ok {
			return
		}
		if _, _, known := unit.MarkName(l); !known || l == unit.Millimetre/10 {
			r.bad(badWord, n, fmt.Sprintf("no tape has marks of %s", n.text), "write one of: "+marks)
			return
		}
		d.spec.Mark = l
	})
}

// reachField reads "50 left, 60 right", or one angle for both.
func reachField(i info, at func(*job.Saw) (left, right *unit.Angle)) field[job.Saw] {
	k := kind{words: "degrees left and right, 0 to 90", form: line, schema: ref("angles")}
	return anyField(i, k, func(r *reader, n *node, s *job.Saw) {
		left, right := at(s)
		a, b, at, two := cutPair(n.text, ",")
		if !two {
			if both, ok := r.angle(n, 0, quarter); ok {
				*left, *right = both, both
			}
			return
		}
		first, okA := strings.CutSuffix(a, " left")
		second, okB := strings.CutSuffix(b, " right")
		if !okA || !okB {
			r.bad(badPair, n, r.at.Key+" is an angle to the left and one to the right", r.at.remedy())
			return
		}
		l, okA := r.angleWithin(n, first, 0, 0, quarter)
		m, okB := r.angleWithin(n, second, at, 0, quarter)
		if okA && okB {
			*left, *right = l, m
		}
	})
}

func detentsField(i info) field[job.Saw] {
	k := kind{words: "a list of degrees, 0 to 90", form: list, schema: listOf(ref("angle"))}
	return anyField(i, k, func(r *reader, n *node, s *job.Saw) {
		s.Detents = nil
		for _, item := range n.items {
			if a, ok := r.angle(item, 0, quarter); ok {
				s.Detents = append(s.Detents, a)
			}
		}
	})
}

// ways are the rows of the saw's capacity.
var ways = []struct {
	key              string
	standing, tilted bool
}{{"lying", false, false}, {"standing", true, false}, {"lying tilted", false, true}, {"standing tilted", true, true}}

func takesField(i info) field[job.Saw] {
	var keys []string
	props := object{}
	for _, w := range ways {
		keys = append(keys, w.key)
		props[w.key] = object{"type": "object", "additionalProperties": ref("pair"), "propertyNames": object{"pattern": "^[0-9.]+°?$"}}
	}
	k := kind{words: "under lying, standing, lying tilted and standing tilted: degrees: width x thickness", form: fields,
		schema: object{"type": "object", "properties": props, "additionalProperties": false}}
	return anyField(i, k, func(r *reader, n *node, s *job.Saw) {
		s.Takes = nil
		for _, e := range r.entries(n) {
			w := slices.Index(keys, e.key.text)
			if w < 0 {
				r.unknown(e, "takes", keys)
			} else if r.is(e.value, fields) {
				r.takes(e.value, ways[w].standing, ways[w].tilted, s)
			}
		}
	})
}

func (r *reader) takes(n *node, standing, tilted bool, s *job.Saw) {
	for _, e := range r.entries(n) {
		at, ok := r.angle(e.key, 0, quarter)
		if !r.is(e.value, line) || !ok {
			continue
		}
		a, b, offset, two := cutPair(e.value.text, " x ", "×")
		if !two {
			r.bad(badPair, e.value, "a width and a thickness are expected", "write widest x thickest, such as 12 in x 3 1/2 in")
			continue
		}
		w, okA := r.lengthIn(e.value, a, 0)
		t, okB := r.lengthIn(e.value, b, offset)
		if okA && okB && r.fits(e.value, w, stockSize) && r.fits(e.value, t, stockSize) {
			s.Takes = append(s.Takes, job.Capacity{Standing: standing, Tilted: tilted, At: at, Widest: w, Thickest: t})
		}
	}
}

func boardField(i info) field[job.Timber] {
	k := kind{words: "a stock size", form: line, schema: ref("text")}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		size, ok := stock.BuiltIn().Lookup(n.text)
		if !ok {
			remedy := "write a size such as 1x4 or 2x4, or give thickness and width as measured"
			if near := stock.BuiltIn().DidYouMean(n.text); near != "" {
				remedy = fmt.Sprintf("did you mean %s? Otherwise give thickness and width as measured", near)
			}
			r.bad(unknownBoard, n, fmt.Sprintf("%q is not in the catalogue of boards", n.text), remedy)
			return
		}
		t.Nominal = size.Name
	})
}

func speciesField(i info) field[job.Timber] {
	k := kind{words: "a species", form: line, schema: ref("text")}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		s, ok := stock.BuiltIn().Species(n.text)
		if !ok {
			var names []string
			for _, s := range stock.BuiltIn().AllSpecies() {
				names = append(names, s.Name)
			}
			remedy := "write one of: " + strings.Join(names, ", ")
			if near := stock.BuiltIn().SpeciesDidYouMean(n.text); near != "" {
				remedy = fmt.Sprintf("did you mean %s?", near)
			}
			r.bad(unknownSpecies, n, fmt.Sprintf("%q is not in the catalogue of species", n.text), remedy)
			return
		}
		t.Species = s.Name
	})
}

func moistureField(i info) field[job.Timber] {
	v, _ := assume.BuiltInBook().Lookup(assume.Moisture)
	k := kind{words: fmt.Sprintf("a share, %g to %g %%", v.Low, v.High), form: line, schema: ref("text")}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		if p, ok := r.percent(n, v.Low, v.High); ok {
			t.Moisture = p
		}
	})
}

// trimField reads "1/4 in first, 0 in far", or one length for both.
func trimField(i info) field[job.Timber] {
	k := kind{words: "a length, or one first and one far", form: line, schema: ref("length")}
	span := assumedSpan(assume.TrimFirst)
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		a, b, at, two := cutPair(n.text, ",")
		if !two {
			if l, ok := r.length(n, span); ok {
				far := l
				t.TrimFirst, t.TrimFar = &l, &far
			}
			return
		}
		first, okA := strings.CutSuffix(a, " first")
		second, okB := strings.CutSuffix(b, " far")
		if !okA || !okB {
			r.bad(badPair, n, "trim is a length first and one far", r.at.remedy())
			return
		}
		l, okA := r.lengthIn(n, first, 0)
		m, okB := r.lengthIn(n, second, at)
		if okA && okB && r.fits(n, l, span) && r.fits(n, m, span) {
			t.TrimFirst, t.TrimFar = &l, &m
		}
	})
}

func priceField(i info) field[job.Timber] {
	k := kind{words: "a price", form: line, schema: ref("price")}
	return anyField(i, k, func(r *reader, n *node, t *job.Timber) {
		if a, ok := r.price(n); ok {
			t.PriceMinor, t.Currency = a.Minor, string(a.Currency)
		}
	})
}

// timbersField reads timber under names. What a file says of a timber goes
// over what the file under it says, field by field.
func timbersField(i info) field[draft] {
	i.kind = kind{words: "fields under names", form: fields, named: true, sub: describe("timber", timberTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, fields) {
			return
		}
		for _, e := range r.entries(n) {
			if r.name(e.key, "timber") && r.isItem(e, fields, "board: 1x4") {
				r.timber(e, d)
			}
		}
	}}
}

func (r *reader) timber(e entry, d *draft) {
	at := slices.IndexFunc(d.spec.Timber, func(t job.Timber) bool { return t.Name == e.key.text })
	if at < 0 {
		at = len(d.spec.Timber)
		d.spec.Timber = append(d.spec.Timber, job.Timber{Name: e.key.text})
	}
	t := &d.spec.Timber[at]
	for _, other := range []string{"length", "price"} {
		if n := e.value.get(other); n != nil && e.value.get("lengths") != nil {
			r.bad(twoLengths, n, other+" and lengths are both given", "keep lengths, with a price behind each, or length and price")
		}
	}
	if e.value.get("length") != nil { // it goes over lengths of the file under this one
		t.Lengths = nil
	}
	if e.value.get("board") != nil { // another board has another measured size
		t.Thickness, t.Width = 0, 0
	}
	t.From = r.origin.String()
	before := len(r.list)
	readFields(r, e.value, "timber "+t.Name, timberTable, t)
	if len(r.list) == before && t.Nominal == "" && (t.Thickness == 0 || t.Width == 0) {
		r.bad(noStockSize, e.key, fmt.Sprintf("timber %s has no size", t.Name),
			"write board: 1x4, or thickness: and width: as measured")
	}
}

func kindNameField(i info) field[job.TestReading] {
	k := kind{words: "a kind of frame", form: line, schema: ref("text")}
	return anyField(i, k, func(r *reader, n *node, t *job.TestReading) {
		t.Kind = n.text
		r.refer(toKind, n, n.text, 0)
	})
}

func familiesField(i info) field[draft] {
	k := kind{words: "a list of lines, each with names of kinds", form: list, schema: listOf(ref("text"))}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		for _, item := range n.items {
			if r.is(item, line) {
				r.family(item, d)
			}
		}
	})
}

func (r *reader) family(n *node, d *draft) {
	var names []string
	offset := 0
	for _, part := range strings.Split(n.text, ",") {
		name := strings.TrimSpace(part)
		at := offset + strings.Index(part, name)
		offset += len(part) + 1
		if name == "" || slices.Contains(names, name) {
			r.badAt(badFamily, n.within(at), n.text, "a family names each kind once, with commas between", "write "+r.at.Example)
			return
		}
		r.refer(toKind, n, name, at)
		names = append(names, name)
	}
	if len(names) < 2 {
		r.bad(badFamily, n, "a family has two kinds or more", "write "+r.at.Example)
		return
	}
	d.spec.Families = append(d.spec.Families, names)
}

func testField(i info) field[draft] {
	i.kind = kind{words: "fields", form: fields, sub: describe("test corner", testTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if r.is(n, fields) {
			d.spec.Test = &job.TestReading{}
			readFields(r, n, "test corner", testTable, d.spec.Test)
		}
	}}
}

// peopleField reads a list of people; a line alone is a name.
func peopleField(i info) field[draft] {
	i.kind = kind{words: "a list of fields", form: list, sub: describe("people", personTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, list) {
			return
		}
		d.spec.People = nil
		for _, item := range n.items {
			if r.is(item, fields) {
				var p job.Person
				readFields(r, item, "a person", personTable, &p)
				d.spec.People = append(d.spec.People, p)
			}
		}
	}}
}

func assumeField(i info) field[draft] {
	k := kind{words: "values under ids", form: fields,
		schema: object{"type": "object", "additionalProperties": ref("length"), "propertyNames": object{"enum": assumptionIDs()}}}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		for _, e := range r.entries(n) {
			r.assumption(e, d)
		}
	})
}

func assumptionIDs() []string {
	var ids []string
	for _, id := range assume.BuiltInBook().IDs() {
		ids = append(ids, string(id))
	}
	return ids
}

func (r *reader) assumption(e entry, d *draft) {
	v, ok := r.book.Lookup(assume.ID(e.key.text))
	if !ok {
		remedy := "docs/assumptions.md lists them"
		if near := snag.DidYouMean(e.key.text, assumptionIDs()); near != "" {
			remedy = fmt.Sprintf("did you mean %s?", near)
		}
		r.bad(unknownAssumption, e.key, fmt.Sprintf("there is no assumption %q", e.key.text), remedy)
		return
	}
	text, ok := r.number(e.value)
	if !ok {
		return
	}
	x, ok := r.inUnit(e.value, text, v.Unit)
	if !ok {
		return
	}
	if slices.Contains(wholeUnits, v.Unit) && x != math.Trunc(x) {
		r.bad(badNumber, e.value, fmt.Sprintf("%s is counted in %s, and %s is no whole number", v.ID, v.Unit, text), fmt.Sprintf("write %s or %s", assume.Number(math.Floor(x)), assume.Number(math.Ceil(x))))
		return
	}
	var outside *assume.RangeError
	if _, err := r.book.With(r.origin, v.ID, x); errors.As(err, &outside) {
		r.bad(outOfRange, e.value, fmt.Sprintf("%s is %s; it must be %s to %s %s", v.ID, text, assume.Number(v.Low), assume.Number(v.High), v.Unit),
			fmt.Sprintf("write a value from %s to %s %s", assume.Number(v.Low), assume.Number(v.High), v.Unit))
		return
	}
	d.spec.Assume = append(d.spec.Assume, job.Override{ID: string(v.ID), Value: x, Text: text, From: r.origin.String()})
}

// inUnit reads an assumption's value; a bare number is in the unit it is
// listed with.
func (r *reader) inUnit(n *node, text, name string) (float64, bool) {
	switch u, isLength := unit.UnitNamed(name); {
	case isLength:
		l, err := unit.ParseLength(text, u)
		return l.In(u), r.quantity(badLength, n, 0, err)
	case name == "%":
		return r.share(n)
	case name == "deg":
		a, err := unit.ParseAngle(text)
		return exactly(a.Degrees()), r.quantity(badAngle, n, 0, err)
	}
	figures := strings.TrimSpace(strings.TrimSuffix(text, name))
	x, err := strconv.ParseFloat(figures, 64)
	if err != nil || strings.Trim(figures, "-.0123456789") != "" {
		r.bad(badNumber, n, fmt.Sprintf("%q is no number of %s", text, name), "write a number, such as 10 or 10 "+name)
		return 0, false
	}
	return x, true
}

// wholeUnits are what assumptions count in pieces.
var wholeUnits = []string{"brads", "brushes", "coats", "grit", "masks", "pencils", "people", "units"}
