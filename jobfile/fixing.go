package jobfile

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// What can be wrong under fixing.
var (
	badFixing    = snag.Kind{Code: "bad-fixing", Meaning: "A line under fixing, such as B1 and B2: one screw, or B3 side 2: 3 hooks, cannot be read."}
	unknownScrew = snag.Kind{Code: "unknown-screw", Meaning: "The thickness of screw is not in the catalogue."}
)

// Examples of lines, for remedies.
const (
	exampleSeam  = "B1 and B2: one screw"
	exampleHooks = "B3 side 2: 3 hooks"
)

// eyeHigh is where eyes may be: from a child's on the floor to a gallery's.
var eyeHigh = span{0, 20 * unit.Metre, "0 to 20 m"}

// eyeFar is how far off somebody may stand.
var eyeFar = span{300 * unit.Millimetre, 100 * unit.Metre, "300 mm to 100 m"}

// screwLong is how long a screw may be.
var screwLong = span{6 * unit.Millimetre, 300 * unit.Millimetre, "6 mm to 300 mm"}

var eyeTable = []field[job.EyeAsked]{
	textField(info{Key: "name", Doc: "Who looks.", Example: "child in the aisle", Need: true},
		func(e *job.EyeAsked) *string { return &e.Name }),
	lengthField(info{Key: "height", Doc: "Height of the eyes over the floor.", Example: "40 in", Need: true}, eyeHigh,
		func(e *job.EyeAsked) *unit.Length { return &e.Height }),
	pointedField(info{Key: "distance", Doc: "How far off.", Example: "6 ft", Usual: "assumption `eye.distance`, 10 ft"}, eyeFar,
		func(e *job.EyeAsked) **unit.Length { return &e.Distance }),
	pointedField(info{Key: "left", Doc: "How far from the left end, seen from the front.", Example: "24 in",
		Usual: "before either end and before the middle"}, positions, func(e *job.EyeAsked) **unit.Length { return &e.Left }),
	switchField(info{Key: "behind", Doc: "Whether it looks from behind.", Example: "yes", Usual: "no"},
		func(e *job.EyeAsked, yes bool) { e.Behind = yes }),
}

var fixingTable = []field[job.FixingAsked]{
	screwsField(info{Key: "screws", Doc: "Thicknesses of wood screw, the preferred first; a thinner one is taken where the thicker has no room.",
		Example: "No. 8", Usual: "No. 8, then No. 6; for metric 4 mm, then 3.5 mm"}),
	screwLengthsField(info{Key: "lengths", Doc: "Lengths of screw at hand.", Example: "1 1/4 in", Usual: "all that are sold"}),
	switchField(info{Key: "often", Doc: "Whether the set piece goes up and down often, as for hire: then seams have bolts or inserts and no screws.",
		Example: "yes", Usual: "no"}, func(f *job.FixingAsked, yes bool) { f.Often = yes }),
	switchField(info{Key: "inserts", Doc: "Whether bolts go into threaded inserts, and not right through to a nut.",
		Example: "yes", Usual: "no"}, func(f *job.FixingAsked, yes bool) { f.Inserts = yes }),
	countField(info{Key: "rows", Doc: "How many rows of screws or bolts a seam has, one behind the other through the depth of the boards. Two are taken wherever boards are deep enough, one elsewhere; a line under `seams` decides for its own.",
		Example: "2", Usual: "1"}, 1, 2, func(f *job.FixingAsked) *int { return &f.Rows }),
	wordField(info{Key: "flat", Doc: "How two frames of flat boards are joined: plates or battens across their backs, or bolts through both widths, head and nut sunk.",
		Example: "battens", Usual: "plates"}, []string{"plates", "battens", "counterbored bolts"}, func(f *job.FixingAsked) *string { return &f.Flat }),
	seenField(info{Key: "seen from", Doc: "From where the set piece is looked at: heads go where fewer eyes see them.", Example: "both sides", Usual: "front"}),
	eyesField(info{Key: "eyes", Doc: "Who looks, instead of a standing guest, a seated guest and a camera.", Example: "{name: child, height: 40 in}"}),
	lengthField(info{Key: "dressed below", Doc: "Heads lower than this are covered by greenery or cloth, and nobody sees them.", Example: "20 in", JobOnly: true}, wide,
		func(f *job.FixingAsked) *unit.Length { return &f.DressedBelow }),
	lengthField(info{Key: "dressed above", Doc: "Heads higher than this are covered likewise.", Example: "7 ft", JobOnly: true}, wide,
		func(f *job.FixingAsked) *unit.Length { return &f.DressedAbove }),
	seamsField(info{Key: "seams", Doc: "What is decided for the seams between two frames; see *Fixing lines* above.", Example: exampleSeam, JobOnly: true}),
	hooksField(info{Key: "hooks", Doc: "Hooks and ties for dressing, on the back edge of a side; see *Fixing lines* above.", Example: exampleHooks, JobOnly: true}),
}

// fixingField is the group in a job or shop file.
func fixingField() field[draft] {
	return groupField(info{Key: "fixing", Doc: "How frames are fixed to each other, who looks at the heads, and what hangs on the frames.", Example: "often: yes"},
		fixingTable, func(d *draft) *job.FixingAsked { return &d.spec.Fixing })
}

// pointedField is a length where 0 can be meant.
func pointedField[T any](i info, s span, at func(*T) **unit.Length) field[T] {
	i.kind = kind{words: "a length, " + s.words, form: line, schema: ref("length")}
	return field[T]{i, func(r *reader, n *node, into *T) {
		if l, ok := r.length(n, s); ok {
			*at(into) = &l
		}
	}}
}

func screwsField(i info) field[job.FixingAsked] {
	k := kind{words: "a list of thicknesses", form: list, schema: listOf(ref("text"))}
	return anyField(i, k, func(r *reader, n *node, f *job.FixingAsked) {
		f.Screws = nil
		for _, item := range n.items {
			if s, ok := r.screw(item); ok && !slices.Contains(f.Screws, s) {
				f.Screws = append(f.Screws, s)
			}
		}
	})
}

func (r *reader) screw(n *node) (string, bool) {
	if !r.is(n, line) {
		return "", false
	}
	s, ok := stock.BuiltIn().Screw(n.text)
	if !ok {
		var names []string
		for _, s := range stock.BuiltIn().Screws() {
			names = append(names, s.Name)
		}
		r.bad(unknownScrew, n, fmt.Sprintf("%q is no thickness of wood screw in the catalogue", n.text), "write one of: "+either(names))
	}
	return s.Name, ok
}

func screwLengthsField(i info) field[job.FixingAsked] {
	k := kind{words: "a list of lengths, " + screwLong.words, form: list, schema: listOf(ref("length"))}
	return anyField(i, k, func(r *reader, n *node, f *job.FixingAsked) {
		f.Lengths = nil
		for _, item := range n.items {
			if l, ok := r.length(item, screwLong); ok {
				f.Lengths = append(f.Lengths, l)
			}
		}
	})
}

func seenField(i info) field[job.FixingAsked] {
	words := []string{"front", "both sides"}
	return anyField(i, kind{words: either(words), form: line, schema: object{"enum": words}}, func(r *reader, n *node, f *job.FixingAsked) {
		if w, ok := r.word(n, words); ok {
			f.BothSides = w == "both sides"
		}
	})
}

func eyesField(i info) field[job.FixingAsked] {
	i.kind = kind{words: "a list of fields", form: list, sub: describe("eyes", eyeTable)}
	return field[job.FixingAsked]{i, func(r *reader, n *node, f *job.FixingAsked) {
		if !r.is(n, list) {
			return
		}
		f.Eyes = nil
		for _, item := range n.items {
			if r.is(item, fields) {
				var e job.EyeAsked
				readFields(r, item, "an eye", eyeTable, &e)
				f.Eyes = append(f.Eyes, e)
			}
		}
	}}
}

var linesByKey = kind{form: fields, schema: object{"type": "object", "additionalProperties": ref("text")}}

// seamsField reads lines such as "B1 and B2: one screw".
func seamsField(i info) field[job.FixingAsked] {
	k := linesByKey
	k.words = "lines under two frames"
	return anyField(i, k, func(r *reader, n *node, f *job.FixingAsked) {
		taken := map[[2]string]bool{}
		for _, e := range r.entries(n) {
			if a, ok := r.seamLine(e); ok {
				pair := a.Frames
				slices.Sort(pair[:])
				if taken[pair] {
					r.bad(duplicateField, e.key, fmt.Sprintf("the seams between %s and %s are decided twice", pair[0], pair[1]), "keep one of the lines")
					continue
				}
				taken[pair] = true
				f.Seams = append(f.Seams, a)
			}
		}
	})
}

func (r *reader) seamLine(e entry) (job.SeamAsked, bool) {
	a := job.SeamAsked{Key: e.key.text}
	k := newLiner(r, e.key, badFixing, exampleSeam)
	a.Frames[0] = k.name(toPlaced, "frame", exampleSeam)
	k.accept("and", ",")
	a.Frames[1] = k.name(toPlaced, "frame", exampleSeam)
	k.end()
	if !k.failed && a.Frames[0] == a.Frames[1] {
		k.at = 0
		k.fail("a frame has no seam with itself", "write two frames, such as "+exampleSeam)
	}
	if !r.isItem(e, line, "one screw") {
		return a, false
	}
	l := newLiner(r, e.value, badFixing, exampleSeam)
	l.choices(&a)
	return a, !k.failed && !l.failed
}

// choices reads "site seam", "one screw", "one bolt", "one row", "two rows",
// "bolts" and "screws", several with commas or and between.
func (l *liner) choices(a *job.SeamAsked) {
	for first := true; first || l.peek() != "" && !l.failed; first = false {
		if !first {
			l.expect(exampleSeam, ",", "and")
			l.accept("and")
		}
		if w := l.peek(); w == "inserts" || w == "insert" || w == "threaded" {
			l.fail("a seam by itself has no inserts: they are for all bolts of the job", "write bolts here, and inserts: yes under fixing")
			return
		}
		switch l.expect("one screw, or site seam, screws", "one", "two", "site", "bolts", "screws") {
		case "one":
			switch l.expect("one screw", "screw", "bolt", "row") {
			case "row":
				a.Rows = 1
			case "bolt":
				a.One, a.Bolts = true, true
			default:
				a.One = true
			}
		case "two":
			if w := l.peek(); w == "screws" || w == "bolts" {
				l.fail("two or more are what a seam has by itself", "take the line out, or write two rows for twice as many")
				return
			}
			l.expect("two rows", "rows")
			a.Rows = 2
		case "site":
			l.expect("site seam", "seam")
			a.Site = true
		case "bolts":
			a.Bolts = true
		case "screws":
			a.Screws = true
		}
	}
	if a.Screws && a.Bolts {
		l.at = 0
		l.fail("a seam has screws or bolts, not both", "keep one of the two")
	}
	if a.One && a.Rows == 2 {
		l.at = 0
		l.fail("two rows have two screws or more, and one is asked for", "keep one of the two")
	}
}

// hooksField reads lines such as "B3 side 2: 3 hooks".
func hooksField(i info) field[job.FixingAsked] {
	k := linesByKey
	k.words = "lines under a frame and its side"
	return anyField(i, k, func(r *reader, n *node, f *job.FixingAsked) {
		for _, e := range r.entries(n) {
			f.Hooks = append(f.Hooks, r.hookLine(e)...)
		}
	})
}

func (r *reader) hookLine(e entry) []job.HooksAsked {
	k := newLiner(r, e.key, badFixing, exampleHooks)
	h := job.HooksAsked{Key: e.key.text, Frame: k.name(toPlaced, "frame", exampleHooks)}
	k.accept(",")
	k.expect(exampleHooks, "side")
	h.Side = k.number("side", exampleHooks)
	k.end()
	if !r.isItem(e, line, "3 hooks") {
		return nil
	}
	l := newLiner(r, e.value, badFixing, exampleHooks)
	var out []job.HooksAsked
	for first := true; first || l.peek() != "" && !l.failed; first = false {
		if !first {
			l.expect("3 hooks and 1 tie", ",", "and")
			l.accept("and")
		}
		one := h
		one.Count = l.hookCount()
		one.Ties = strings.HasPrefix(l.expect("3 hooks", "hook", "hooks", "tie", "ties"), "tie")
		out = append(out, one)
	}
	if k.failed || l.failed {
		return nil
	}
	return out
}

// mostHooks is how many hooks one side may be asked for.
const mostHooks = 50

// hookCount reads a count; none is one.
func (l *liner) hookCount() int {
	v, err := strconv.Atoi(l.peek())
	if err != nil || l.failed {
		return 1
	}
	if v < 1 || v > mostHooks || strconv.Itoa(v) != l.peek() {
		l.fail(fmt.Sprintf("a count from 1 to %d is expected here", mostHooks), "write "+exampleHooks)
		return 0
	}
	l.at++
	return v
}
