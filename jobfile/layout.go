package jobfile

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"bowerwright/geom"
	"bowerwright/job"
	"bowerwright/unit"
)

// Examples of lines, for remedies.
const (
	exampleAt     = "big at 0 in, 0 in"
	exampleSide   = "big side 1 on B1 side 4"
	exampleCorner = "big corner 3 on B1 corner 2, turned 30"
	exampleRow    = "R1..R4: big side 6 on previous side 3"
	exampleMirror = "B1..B6 as C1..C6, mirrored at 60 in"
	exampleMove   = "B1, S1 as D1, D2, moved by 40 in, 0 in"
)

// maxFrames is how many frames a layout may have, copies and all. The whole
// pipeline is held to 2,000.
const maxFrames = 5000

// layoutField reads the lines of the layout under ids.
func layoutField(i info) field[draft] {
	k := kind{words: "lines under ids", form: fields, schema: object{"type": "object", "additionalProperties": ref("text")}}
	return anyField(i, k, func(r *reader, n *node, d *draft) {
		for _, e := range r.entries(n) {
			r.layoutLine(e, d)
		}
	})
}

// layoutLine reads one line and adds the frame, or the row of frames, that it
// places.
func (r *reader) layoutLine(e entry, d *draft) {
	ids, ok := r.ids(e.key, e.key.text, 0)
	for _, id := range ids {
		ok = r.claim(id, e.key, 0) && ok
	}
	if !r.isItem(e, line, exampleAt) {
		return
	}
	l := newLiner(r, e.value, badLayout, exampleAt)
	p := l.place()
	if l.failed || !ok {
		return
	}
	if len(ids) > 1 && (len(p.Attach) == 0 || p.Attach[0].To != "previous") {
		r.bad(badRow, e.value, "the frames of a row lie each against the one before", "write "+exampleRow)
		return
	}
	for _, id := range ids {
		placed, ok := r.resolve(p, id, e.value, d)
		if !ok {
			return
		}
		d.spec.Layout = append(d.spec.Layout, placed)
	}
}

// resolve gives the frame its id, and "previous" the id of the frame before.
func (r *reader) resolve(p job.Place, id string, n *node, d *draft) (job.Place, bool) {
	p.ID = id
	p.Attach = append([]job.Attach(nil), p.Attach...)
	for i := range p.Attach {
		to := &p.Attach[i].To
		if *to == "previous" && len(d.spec.Layout) == 0 {
			r.bad(badRow, n, "there is no frame before this one", "place the first frame by a line of its own, such as B1: "+exampleAt)
			return p, false
		}
		if *to == "previous" {
			*to = d.spec.Layout[len(d.spec.Layout)-1].ID
		}
		if *to == id {
			r.bad(badLayout, n, fmt.Sprintf("%s would lie against itself", id), "name another frame")
			return p, false
		}
	}
	return p, true
}

// place reads a whole line of the layout.
func (l *liner) place() job.Place {
	p := job.Place{Kind: l.name(toKind, "kind of frame", exampleAt)}
	switch l.expect(exampleSide, "at", "side", "corner") {
	case "at":
		p.At = l.position()
		l.options(&p, "turned", "mirrored")
	case "side":
		p.Attach = append(p.Attach, l.seam())
		for l.comma("and"); l.accept("and") != ""; l.comma("and") {
			l.expect(exampleSide, "side")
			p.Attach = append(p.Attach, l.seam())
		}
		l.options(&p, "mirrored")
	case "corner":
		a := job.Attach{Corner: l.number("corner", exampleCorner)}
		l.expect(exampleCorner, "on")
		a.To = l.name(toFrame, "frame", exampleCorner)
		l.expect(exampleCorner, "corner")
		a.ToCorner = l.number("corner", exampleCorner)
		p.Attach = append(p.Attach, a)
		l.options(&p, "turned", "mirrored")
	}
	return p
}

// comma steps over a comma that stands before the word.
func (l *liner) comma(before string) {
	if l.peek() == "," && l.at+1 < len(l.words) && strings.EqualFold(l.words[l.at+1].text, before) {
		l.at++
	}
}

// options reads turned and mirrored, each once, to the end of the line.
func (l *liner) options(p *job.Place, allowed ...string) {
	turned := false
	for !l.failed && l.at < len(l.words) {
		l.accept(",")
		switch {
		case p.At == nil && p.Attach[0].Side > 0 && l.peek() == "turned":
			l.fail("a frame on a seam is turned by the seam", "take out turned, or name another side")
		case !turned && slices.Contains(allowed, "turned") && l.accept("turned") != "":
			l.accept("by")
			p.Turn, turned = l.angle(), true
		case !p.Mirror && l.accept("mirrored") != "":
			p.Mirror = true
		default:
			l.unexpected(exampleOf(*p), allowed...)
		}
	}
}

func exampleOf(p job.Place) string {
	switch {
	case p.At != nil:
		return exampleAt + ", turned 30, mirrored"
	case p.Attach[0].Corner > 0:
		return exampleCorner
	}
	return exampleSide + ", flush at start, mirrored"
}

// seam reads "1 on B1 side 4, flush at start, shifted 2 in": the word side is
// read already.
func (l *liner) seam() job.Attach {
	a := job.Attach{Side: l.number("side", exampleSide), Align: "centred"}
	l.expect(exampleSide, "on")
	a.To = l.name(toFrame, "frame", exampleSide)
	l.expect(exampleSide, "side")
	a.ToSide = l.number("side", exampleSide)
	aligned, shifted := false, false
	for !l.failed {
		before := l.at
		l.accept(",")
		switch {
		case !aligned && l.accept("centred", "centered") != "":
			aligned = true
		case !aligned && l.accept("flush") != "":
			l.accept("at")
			a.Align, aligned = "flush at "+l.expect(exampleSide+", flush at start", "start", "end"), true
		case !shifted && l.accept("shifted") != "":
			l.accept("by")
			a.Shift, shifted = l.length(), true
		case l.peek() == "and", l.peek() == "mirrored", l.peek() == "turned":
			l.at = before
			return a
		case l.at < len(l.words):
			l.unexpected(exampleSide+", flush at start", "centred", "flush", "shifted", "mirrored", "and")
		case l.at > before:
			l.fail("the line ends with a comma", "take the comma out")
		default:
			return a
		}
	}
	return a
}

// lengthIn shows a length in a line, by the line's usual form.
var lengthIn = map[string]string{exampleAt: exampleSide + ", shifted 2 in", exampleMove: exampleMirror}

func (l *liner) length() unit.Length {
	text, at := l.measure("a length", lengthIn[l.usual])
	if l.failed {
		return 0
	}
	v, ok := l.r.lengthIn(l.n, text, at)
	l.failed = !ok || !l.r.fits(l.n, v, positions)
	return v
}

func (l *liner) angle() unit.Angle {
	text, at := l.measure("an angle", exampleAt+", turned 30")
	if l.failed {
		return 0
	}
	v, ok := l.r.angleIn(l.n, text, at)
	l.failed = !ok
	return v
}

// position reads "x, y".
func (l *liner) position() *geom.Point {
	x, atX := l.measure("x, to the right,", l.usual)
	if !l.failed && l.accept(",") == "" {
		remedy := "write " + l.usual
		if l.peek() == "" { // within braces YAML ends the value at the comma
			remedy += `; between { and } put the line in quotes, "` + l.usual + `"`
		}
		l.fail("a comma and y, up from the floor, are expected here", remedy)
	}
	y, atY := l.measure("y, up from the floor,", l.usual)
	if l.failed {
		return &geom.Point{}
	}
	p, ok := l.r.point(l.n, x, atX, y, atY)
	l.failed = !ok
	return &p
}

// point reads two lengths in a node's text.
func (r *reader) point(n *node, x string, atX int, y string, atY int) (geom.Point, bool) {
	a, okX := r.lengthIn(n, x, atX)
	b, okY := r.lengthIn(n, y, atY)
	if !okX || !okY || !r.fits(n, a, positions) || !r.fits(n, b, positions) {
		return geom.Point{}, false
	}
	return geom.Point{X: a.MM(), Y: b.MM()}, true
}

// row matches a row of ids: R1..R4.
var row = regexp.MustCompile(`^([\pL][\pL0-9_-]*?)([0-9]+)\.\.([\pL][\pL0-9_-]*?)([0-9]+)$`)

// ids reads one id or a row of them, at a byte of the node's text.
func (r *reader) ids(n *node, text string, offset int) ([]string, bool) {
	if !strings.Contains(text, "..") {
		if !isName(text) || slices.Contains(reserved, text) {
			r.badAt(badName, n.within(offset), text, fmt.Sprintf("%q is no id for a frame", text),
				"write one word such as B1, or a row such as R1..R4")
			return nil, false
		}
		return []string{text}, true
	}
	m := row.FindStringSubmatch(text)
	if m == nil || m[1] != m[3] {
		r.badAt(badRow, n.within(offset), text, fmt.Sprintf("%q is no row of ids", text), "write the first and the last id, such as R1..R4")
		return nil, false
	}
	from, errA := strconv.Atoi(m[2])
	to, errB := strconv.Atoi(m[4])
	if errA != nil || errB != nil || from >= to || to-from >= maxFrames {
		r.badAt(badRow, n.within(offset), text, "a row counts up from the first number to the last",
			fmt.Sprintf("write the smaller number first, and not more than %d frames", maxFrames))
		return nil, false
	}
	var out []string
	for i := from; i <= to; i++ {
		out = append(out, fmt.Sprintf("%s%0*d", m[1], len(m[2])*zeroed(m[2]), i))
	}
	return out, true
}

// zeroed is 1 for a number written with leading zeros, which a row keeps.
func zeroed(number string) int {
	if len(number) > 1 && number[0] == '0' {
		return 1
	}
	return 0
}
