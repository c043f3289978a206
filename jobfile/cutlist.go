package jobfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// listHeader is the first field of a bare cut list.
const listHeader = "bowerwright-cut-list"

// listKeys are the fields of the job file that a bare cut list has too.
var listKeys = []string{"name", "for", "maker", "note", "unit", "currency", "show", "paper", "mark", "saw", "timber", "cutting", "assume"}

// Most parts in a list, and of one: as far as the solver plans.
const (
	mostListParts = 1000
	mostOfPart    = 200_000
	mostPartName  = 40
	mostSetting   = 85.0 // degrees: beyond it a blade runs along the board
)

// listLong is what a part or a board of a list may measure.
var listLong = span{unit.Millimetre, 20 * unit.Metre, "1 mm to 20 m"}

const listExample = "rail: 6 of 34 1/2 in, 45 and 45"

// listTable is the fields of a bare cut list; its parts go into parts.
func listTable(parts *[]job.ListPart) []field[draft] {
	var out []field[draft]
	for _, f := range jobTable {
		if slices.Contains(listKeys, f.Key) {
			f.Need = false
			out = append(out, f)
		}
	}
	return append(out, partsField(info{Key: "parts", Doc: "What is cut, under names of your own: a line for each part, or fields.", Example: listExample}, parts))
}

// ReadCutList reads a bare cut list in YAML, or a stock without parts, with a
// shop file under it unless shop is nil. The parts have paths such as
// parts.rail. When snags stop it the list is not whole; whether there are parts
// is the caller's to ask.
func ReadCutList(source []byte, name string, shop []byte, shopName string) (job.CutSpec, *File, snag.List) {
	f := &File{Name: name, source: source, places: map[string]snag.Place{}}
	d := &draft{ids: map[string]snag.Place{}}
	var all snag.List
	if shop != nil {
		f.shop = &File{Name: shopName, source: shop, places: map[string]snag.Place{}}
		all.Add(f.shop.read(d, assume.Shop)...)
	}
	var parts []job.ListPart
	all.Add(f.readList(d, &parts)...)
	all.Sort()
	return job.CutSpec{Spec: d.spec, Parts: parts}, f, all
}

func (f *File) readList(d *draft, parts *[]job.ListPart) snag.List {
	p := planter{scanner: scanner{name: f.Name}}
	root := p.parse(f.source)
	if root == nil {
		return p.all(f.Name)
	}
	f.index(root)
	r := &reader{origin: assume.Job, book: assume.BuiltInBook(), d: d, at: &info{}}
	if r.headed(root, listHeader, "the cut list") {
		r.fieldsOf(root, "the cut list", listTable(parts))
		r.settle()
		r.usual()
	}
	return r.all(f.Name)
}

// headed checks that the first field of a file is header, with a version.
func (r *reader) headed(n *node, header, what string) bool {
	remedy := fmt.Sprintf("write %s: %d as the first line", header, Version)
	switch {
	case n.form == empty:
		r.bad(emptyFile, n, "the file is empty", remedy)
		return false
	case n.form != fields:
		r.bad(wrongType, n, fmt.Sprintf("a file has fields, not %s", n.form), remedy)
		return false
	}
	first := n.entries[0]
	if first.key.text != header && slices.Contains([]string{jobHeader, shopHeader, listHeader, progressHeader}, first.key.text) {
		r.bad(wrongFile, first.key, fmt.Sprintf("this is no file for %s", what), remedy+" in the file that is meant")
		return false
	}
	if n.get(header) == nil {
		r.bad(versionMissing, n, "the file does not say what it is", remedy)
		return true // the rest has its snags, too
	}
	if first.key.text != header {
		r.bad(versionMissing, first.key, header+" is not the first field", "move it to the first line")
	}
	for _, e := range n.entries {
		if e.key.text == header {
			r.first = e.key
			return r.version(e.value, remedy)
		}
	}
	return true
}

// fieldsOf reads the fields of a file behind its first. Unit and currency are
// read before the others, which they say how to read.
func (r *reader) fieldsOf(n *node, what string, table []field[draft]) {
	r.d.unit, r.d.currency = unit.NoUnit, ""
	for _, key := range []string{"unit", "currency"} {
		if v, f := n.get(key), find(table, key); v != nil && f != nil {
			before := r.list
			r.within(&f.info, func() { f.read(r, v, r.d) })
			r.list = before
		}
	}
	body := *n
	body.entries = slices.DeleteFunc(slices.Clone(n.entries), func(e entry) bool { return e.key == r.first })
	readFields(r, &body, what, table, r.d)
	if n.get("saw") != nil {
		r.d.spec.Saw.From = r.origin.String()
	}
}

// partTable are the fields of a part that is written as fields.
var partTable = []field[job.ListPart]{
	partCountField(info{Key: "count", Doc: "How many.", Example: "6", Need: true}, 1, func(p *job.ListPart) *int { return &p.Count }),
	lengthField(info{Key: "length", Doc: "Along the outside: the long point to the long point where both ends are positive.", Example: "34 1/2 in", Need: true}, listLong,
		func(p *job.ListPart) *unit.Length { return &p.Outside }),
	settingField(info{Key: "left", Doc: "Setting of its first end, in degrees from straight across; positive makes the inside shorter, negative longer.", Example: "45", Usual: "0"},
		func(p *job.ListPart) *unit.Angle { return &p.Left }),
	settingField(info{Key: "right", Doc: "The same for its second end.", Example: "45", Usual: "0"}, func(p *job.ListPart) *unit.Angle { return &p.Right }),
	partTimberField(info{Key: "timber", Doc: "A name under `timber`.", Example: "pine", Usual: "the only one"}),
	lyingField(info{Key: "laid", Doc: "Whether the thickness (on edge) or the width (flat) lies in the plane that the ends slant across.", Example: "flat", Usual: "on edge"}),
	partCountField(info{Key: "spare", Doc: "How many more are sawn.", Example: "1", Usual: "0"}, 0, func(p *job.ListPart) *int { return &p.Spare }),
}

func partCountField(i info, least int, at func(*job.ListPart) *int) field[job.ListPart] {
	k := kind{words: fmt.Sprintf("a whole number, %d to %d", least, mostOfPart), form: line, schema: whole(least, mostOfPart)}
	return anyField(i, k, func(r *reader, n *node, p *job.ListPart) {
		v, err := strconv.Atoi(n.text)
		if err != nil || strconv.Itoa(v) != n.text || v < least || v > mostOfPart {
			r.bad(badNumber, n, fmt.Sprintf("%s is no whole number from %d to %d", n.text, least, mostOfPart), r.at.remedy())
			return
		}
		*at(p) = v
	})
}

func settingField(i info, at func(*job.ListPart) *unit.Angle) field[job.ListPart] {
	k := kind{words: fmt.Sprintf("degrees, -%g to %g", mostSetting, mostSetting), form: line, schema: ref("angle")}
	return anyField(i, k, func(r *reader, n *node, p *job.ListPart) {
		if a, ok := r.angle(n, -mostSetting, mostSetting); ok {
			*at(p) = a
		}
	})
}

func partTimberField(i info) field[job.ListPart] {
	return anyField(i, kind{words: "a timber", form: line, schema: ref("text")}, func(r *reader, n *node, p *job.ListPart) {
		p.Timber = n.text
		r.refer(toTimber, n, n.text, 0)
	})
}

func lyingField(i info) field[job.ListPart] {
	words := []string{"on edge", "flat"}
	return anyField(i, kind{words: either(words), form: line, schema: object{"enum": words}}, func(r *reader, n *node, p *job.ListPart) {
		if w, ok := r.word(n, words); ok {
			p.Flat = w == "flat"
		}
	})
}

// partsField reads parts under their names.
func partsField(i info, into *[]job.ListPart) field[draft] {
	i.kind = kind{words: "lines or fields under names", form: fields,
		schema: object{"type": "object", "additionalProperties": object{"anyOf": []any{object{"type": "string"}, groupSchema(describe("parts", partTable))}}},
		sub:    nil}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, fields) {
			return
		}
		for _, e := range r.entries(n) {
			if len(*into) == mostListParts {
				r.bad(outOfRange, e.key, fmt.Sprintf("there are more than %d parts", mostListParts), "join parts that are alike, or cut in two lists")
				return
			}
			*into = append(*into, r.listPart(e))
		}
	}}
}

func (r *reader) listPart(e entry) job.ListPart {
	p := job.ListPart{Name: strings.TrimSpace(e.key.text), Path: e.key.place.Path}
	if n := len([]rune(p.Name)); n == 0 || n > mostPartName || strings.ContainsRune(p.Name, '\n') {
		r.bad(badName, e.key, fmt.Sprintf("a part's name has 1 to %d characters on one line", mostPartName), "write a shorter name")
	}
	switch e.value.form {
	case fields:
		readFields(r, e.value, "part "+p.Name, partTable, &p)
	default:
		r.within(&info{Key: e.key.text, Example: strings.TrimPrefix(listExample, "rail: "), kind: kind{form: line}}, func() {
			if r.is(e.value, line) {
				r.partLine(e.value, &p)
			}
		})
	}
	return p
}

// partLine reads a part in one line: 6 of 34 1/2 in, 45 and 45, flat, of pine,
// 1 spare. What follows the length may stand in any order.
func (r *reader) partLine(n *node, p *job.ListPart) {
	l := newLiner(r, n, badPart, listExample)
	p.Count = l.howMany("how many", listExample)
	l.expect(listExample, "of")
	if text, at := l.until(","); !l.failed {
		var ok bool
		if p.Outside, ok = r.lengthIn(n, text, at); ok {
			r.longEnough(n, at, text, p.Outside, listLong)
		}
	}
	said := map[string]bool{}
	for l.peek() == "," {
		l.at++
		what := r.partOption(l, n, p)
		if said[what] && !l.failed {
			l.fail("this is told twice", "write it once")
		}
		said[what] = true
	}
	l.end()
}

// longEnough checks a length that stands within a line.
func (r *reader) longEnough(n *node, at int, text string, l unit.Length, s span) {
	if l < s.low || l > s.high {
		r.badAt(outOfRange, n.within(at), text, fmt.Sprintf("the length is %s; it must be %s", text, s.words), "write a length from "+s.words)
	}
}

// partOption reads one thing behind a comma, and says what it was.
func (r *reader) partOption(l *liner, n *node, p *job.ListPart) string {
	switch l.accept("of", "flat", "on") {
	case "of":
		w, at := l.until(",")
		p.Timber = w
		if !l.failed {
			r.refer(toTimber, n, w, at)
		}
		return "timber"
	case "flat":
		p.Flat = true
		return "laid"
	case "on":
		l.expect("on edge", "edge")
		return "laid"
	}
	if l.at+1 < len(l.words) && l.words[l.at+1].text == "spare" {
		p.Spare = l.howMany("how many spare ones", "1 spare")
		l.expect("1 spare", "spare")
		return "spare"
	}
	p.Left = r.setting(l, n)
	l.expect("45 and 45", "and")
	p.Right = r.setting(l, n)
	return "ends"
}

func (r *reader) setting(l *liner, n *node) (a unit.Angle) {
	text, at := l.until(",", "and")
	if l.failed {
		return 0
	}
	r.within(&info{Key: "an end"}, func() { a, _ = r.angleWithin(n, text, at, -mostSetting, mostSetting) })
	return a
}

// howMany reads a count.
func (l *liner) howMany(what, example string) int {
	v, err := strconv.Atoi(l.peek())
	if l.failed {
		return 0
	}
	if err != nil || v < 1 || v > mostOfPart || strconv.Itoa(v) != l.peek() {
		l.fail(fmt.Sprintf("%s is expected here, 1 to %d", what, mostOfPart), "write "+example)
		return 0
	}
	l.at++
	return v
}

// until gives the text up to one of these words, and where it begins.
func (l *liner) until(words ...string) (string, int) {
	from := l.at
	for w := l.peek(); w != "" && !slices.Contains(words, strings.ToLower(w)); w = l.peek() {
		l.at++
	}
	if from == l.at {
		l.fail("a value is expected here", "write a line such as "+l.usual)
		return "", 0
	}
	begin, last := l.words[from].at, l.words[l.at-1]
	return l.n.text[begin : last.at+len(last.text)], begin
}

var badPart = snag.Kind{Code: "bad-part", Meaning: "A part of a cut list cannot be read."}

// IsShop tells whether a YAML text is a shop file by its first field.
func IsShop(source []byte) bool {
	p := planter{scanner: scanner{}}
	root := p.parse(source)
	return root != nil && root.form == fields && root.get(shopHeader) != nil
}
