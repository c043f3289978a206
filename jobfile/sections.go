package jobfile

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// What can be wrong with a tight spot.
var spotMeasure = snag.Kind{Code: "tight-spot-measure", Meaning: "A tight spot lacks a measure that its kind needs, or has one that belongs to another kind."}

// spotWide is what any measure of a tight spot may be: a cat flap to a hall.
var spotWide = span{100 * unit.Millimetre, 100 * unit.Metre, "100 mm to 100 m"}

// mostSpots is how many tight spots there may be on one way.
const mostSpots = 40

// Turns of a corridor: less is no turn, more is a hairpin with its two passages
// in one.
const (
	leastTurn = 10.0
	mostTurn  = 150.0
)

var spotTable = []field[job.SpotAsked]{
	wordField(info{Key: "kind", Doc: "What it is: " + kindsOfSpot() + ".", Example: "door", Need: true}, spotKindNames(), func(s *job.SpotAsked) *string { return &s.Kind }),
	spotLength("width", "Clear, at its narrowest: of a door past leaf and stop, of a vehicle between the wheel arches, of a corridor before the turn, of a landing the flight that one comes by.", "34 in", "", func(s *job.SpotAsked) *unit.Length { return &s.Width }),
	spotLength("width after", "Of a corridor after the turn, of a landing the flight that one leaves by.", "42 in", "as before", func(s *job.SpotAsked) *unit.Length { return &s.After }),
	spotLength("height", "Clear, at its lowest: under closer, beam or lamp.", "79 in", "", func(s *job.SpotAsked) *unit.Length { return &s.Height }),
	spotLength("length", "Of a vehicle from its door to the far end, of a lay-out floor, of a landing across both flights.", "10 ft", "", func(s *job.SpotAsked) *unit.Length { return &s.Length }),
	spotLength("depth", "Of a lift from its door to its back, of a landing from the flights to the wall.", "54 in", "", func(s *job.SpotAsked) *unit.Length { return &s.Depth }),
	spotLength("tilting height", "Of a ceiling, over where the set piece is tilted up, where that is lower.", "92 in", "as height", func(s *job.SpotAsked) *unit.Length { return &s.Tilting }),
	spotLength("door width", "Of a vehicle or a lift: its door.", "48 in", "as width", func(s *job.SpotAsked) *unit.Length { return &s.DoorWidth }),
	spotLength("door height", "Of a vehicle or a lift: its door.", "67 in", "as height", func(s *job.SpotAsked) *unit.Length { return &s.DoorHeight }),
	spotTurn(info{Key: "turn", Doc: "Of a corridor: by how many degrees it turns.", Example: "90", Usual: "90"}),
	massField(info{Key: "payload", Doc: "Of a vehicle or a lift: what it may carry.", Example: "1400 lb"}, func(s *job.SpotAsked, m unit.Mass) { s.Payload = m }),
	textField(info{Key: "measured by", Doc: "Who measured it, and when. Without it the papers say that it is unverified.", Example: "Ida, 3 May", Usual: "nobody: unverified"}, func(s *job.SpotAsked) *string { return &s.By }),
}

var sectionsTable = []field[job.SectionsAsked]{
	lotsField(info{Key: "together", Doc: "Frames that travel as one, by their ids; a line for each lot.", Example: "B1, B2"}, func(s *job.SectionsAsked) *[][]string { return &s.Together }),
	lotsField(info{Key: "apart", Doc: "Frames, no two of which travel as one; a line for each lot.", Example: "B1, B9"}, func(s *job.SectionsAsked) *[][]string { return &s.Apart }),
	wordField(info{Key: "put up by", Doc: "Who puts it up and takes it down: makers, who know it, or strangers, who take the assumptions `sections.strangers-least` to `sections.strangers-most` times as long.", Example: "strangers", Usual: "makers"},
		[]string{"makers", "strangers"}, func(s *job.SectionsAsked) *string { return &s.By }),
	minutesField(info{Key: "window", Doc: "How long the venue gives to put it up.", Example: "90 min"}, func(s *job.SectionsAsked) *float64 { return &s.Window }),
	minutesField(info{Key: "strike window", Doc: "How long the venue gives to take it down.", Example: "45 min"}, func(s *job.SectionsAsked) *float64 { return &s.Strike }),
	assumedSection(info{Key: "wrap", Doc: "Blanket or foam on every face while it is carried.", Example: "1/4 in", Assume: assume.SectionsWrap}),
	assumedSection(info{Key: "fingers", Doc: "Room for hands on every side at a tight spot.", Example: "1/2 in", Assume: assume.SectionsFingers}),
}

func spotLength(key, doc, example, usual string, at func(*job.SpotAsked) *unit.Length) field[job.SpotAsked] {
	return lengthField(info{Key: key, Doc: doc, Example: example, Usual: usual}, spotWide, at)
}

func spotKindNames() (out []string) {
	for _, k := range job.SpotKinds {
		out = append(out, k.Name)
	}
	return out
}

// kindsOfSpot says what each kind is and which fields it needs.
func kindsOfSpot() string {
	var out []string
	for _, k := range job.SpotKinds {
		out = append(out, fmt.Sprintf("%s, %s (needs %s)", k.Name, k.Doc, strings.Join(k.Needs, ", ")))
	}
	return strings.Join(out, "; ")
}

func spotTurn(i info) field[job.SpotAsked] {
	k := kind{words: fmt.Sprintf("an angle, %g to %g degrees", leastTurn, mostTurn), form: line, schema: ref("angle")}
	return anyField(i, k, func(r *reader, n *node, s *job.SpotAsked) {
		if v, ok := r.angle(n, leastTurn, mostTurn); ok {
			s.Turn = v
		}
	})
}

// spotsField reads tight spots under names, in the order in which they are met.
func spotsField(i info) field[draft] {
	i.kind = kind{words: "fields under names", form: fields, named: true, sub: describe("tight spot", spotTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, fields) {
			return
		}
		d.spec.TightSpots = nil
		for _, e := range r.entries(n) {
			if !r.name(e.key, "tight spot") || !r.isItem(e, fields, "kind: door") {
				continue
			}
			if len(d.spec.TightSpots) == mostSpots {
				r.bad(outOfRange, e.key, fmt.Sprintf("there are more than %d tight spots", mostSpots), "keep the tightest")
				return
			}
			s := job.SpotAsked{Name: e.key.text}
			before := len(r.list)
			readFields(r, e.value, "tight spot "+s.Name, spotTable, &s)
			if len(r.list) == before {
				r.spotKind(e, s.Kind)
			}
			d.spec.TightSpots = append(d.spec.TightSpots, s)
		}
	}}
}

// spotKind demands the measures that the kind needs, and refuses those of
// others.
func (r *reader) spotKind(e entry, kind string) {
	k := job.SpotKinds[slices.IndexFunc(job.SpotKinds, func(k job.SpotKind) bool { return k.Name == kind })]
	for _, f := range k.Needs {
		if e.value.get(f) == nil {
			r.bad(spotMeasure, e.key, fmt.Sprintf("%s needs %s", a(kind), f), fmt.Sprintf("write %s: %s", f, find(spotTable, f).Example))
		}
	}
	has := append(slices.Clone(k.Needs), k.Also...)
	for _, x := range e.value.entries {
		if f := x.key.text; f != "kind" && f != "measured by" && !slices.Contains(has, f) {
			r.bad(spotMeasure, x.key, fmt.Sprintf("%s has no %s", a(kind), f), "take it out; it has: "+strings.Join(append(has, "measured by"), ", "))
		}
	}
}

// lotsField reads a list of lines, each with ids and rows of ids: two frames or
// more.
func lotsField(i info, at func(*job.SectionsAsked) *[][]string) field[job.SectionsAsked] {
	k := kind{words: "a list of lines, each with ids of frames", form: list, schema: listOf(ref("text"))}
	return anyField(i, k, func(r *reader, n *node, s *job.SectionsAsked) {
		*at(s) = nil
		for _, item := range n.items {
			if lot, ok := r.lot(item); ok {
				*at(s) = append(*at(s), lot)
			}
		}
	})
}

func (r *reader) lot(item *node) ([]string, bool) {
	if !r.is(item, line) {
		return nil, false
	}
	var lot []string
	for offset, part := range offsets(strings.Split(item.text, ",")) {
		ids, ok := r.ids(item, strings.TrimSpace(part), offset)
		if !ok {
			return nil, false
		}
		for _, id := range ids {
			r.refer(toPlaced, item, id, offset)
		}
		lot = append(lot, ids...)
	}
	if slices.Sort(lot); len(lot) < 2 || len(slices.Compact(slices.Clone(lot))) < len(lot) {
		r.bad(badList, item, "a lot is two frames or more, each named once", "write "+r.at.Example)
		return nil, false
	}
	return lot, true
}

// mostWindow is a week in minutes: no venue gives more.
const mostWindow = 7 * 24 * 60

func minutesField(i info, at func(*job.SectionsAsked) *float64) field[job.SectionsAsked] {
	k := kind{words: "a time, 1 min to 7 days; in min, h or days", form: line, schema: object{"type": "string"}}
	return anyField(i, k, func(r *reader, n *node, s *job.SectionsAsked) {
		x, ok := r.inUnits(n, n.text, "a time", minutesOf, 1)
		if ok && (x < 1 || x > mostWindow) {
			r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be 1 min to 7 days", r.at.Key, n.text), r.at.remedy())
			return
		}
		*at(s) = x
	})
}

// assumedSection is a length that is an assumption by another name.
func assumedSection(i info) field[job.SectionsAsked] {
	s := assumedSpan(i.Assume)
	k := kind{words: "a length, " + s.words, form: line, schema: ref("length")}
	return anyField(i, k, func(r *reader, n *node, _ *job.SectionsAsked) {
		l, ok := r.length(n, s)
		if !ok {
			return
		}
		v, _ := r.book.Lookup(i.Assume)
		u, _ := unit.UnitNamed(v.Unit)
		r.assumed(i.Assume, l.In(u), n.text)
	})
}

func sectionsField() field[draft] {
	return groupField(info{Key: "sections", Doc: "How it is to be parted for the way, who puts it up and how long the venue gives; see *Tight spots and sections* above.", Example: "put up by: strangers", JobOnly: true},
		sectionsTable, func(d *draft) *job.SectionsAsked { return &d.spec.Sections })
}
