package jobfile

import (
	"fmt"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// What can be wrong with weights, forces and winds.
var (
	badMass  = snag.Kind{Code: "bad-weight", Meaning: "A weight or a force cannot be read."}
	badSpeed = snag.Kind{Code: "bad-speed", Meaning: "The speed of a wind cannot be read."}
)

// Limits of what is read: heavier is no dressing, no ballast and no base.
const (
	mostKG    = 5000.0
	mostForce = 50_000.0 // N
)

var layerTable = []field[job.LayerAsked]{
	massPerField(info{Key: "weight", Doc: "What it weighs dry: in all, or to a square foot or square metre of what it covers.", Example: "0.4 lb per sq ft", Need: true}),
	idsField(info{Key: "on", Doc: "Frames that it hangs on, by their ids, with commas between, or rows.", Example: "B1, B4..B7", Usual: "all"},
		func(l *job.LayerAsked) *[]string { return &l.Frames }),
	lengthField(info{Key: "from", Doc: "Height over the foot of the set piece where it begins.", Example: "48 in", Usual: "the foot"}, span{0, 100 * unit.Metre, "0 to 100 m"},
		func(l *job.LayerAsked) *unit.Length { return &l.From }),
	lengthField(info{Key: "to", Doc: "Height where it ends.", Example: "72 in", Usual: "the top"}, wide,
		func(l *job.LayerAsked) *unit.Length { return &l.To }),
	closesField(info{Key: "closes", Doc: "How much of what it covers it closes to the wind: the frames' boards are closed already.", Example: "60 %", Assume: assume.DressCloses},
		func(l *job.LayerAsked, share float64) { l.Closes = &share }),
	pointedField(info{Key: "in front", Doc: "How far its middle hangs before the front edges of the frames; below 0 behind them.", Example: "4 in", Assume: assume.DressFront},
		span{-2 * unit.Metre, 2 * unit.Metre, "-2 m to 2 m"}, func(l *job.LayerAsked) **unit.Length { return &l.Front }),
	wetField(info{Key: "wet", Doc: "How many times its dry weight it weighs soaked, as foam and flowers are.", Example: "2.5", Usual: "it takes no water"}),
	textField(info{Key: "flame", Doc: "What shows that it is hard to set alight: a paper, a treatment with its date. It goes on the flame list as it is written.",
		Example: "certificate with the bolt, treated 12 May"}, func(l *job.LayerAsked) *string { return &l.Flame }),
}

// nothing is what stands under a way of dressing without layers.
const nothing = "nothing"

// dressingField reads ways of dressing under names, each with layers under names.
func dressingField(i info) field[draft] {
	i.kind = kind{words: "layers under names, under names of the ways; or nothing", form: fields, named: true, ways: true, sub: describe("layer", layerTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, fields) {
			return
		}
		d.spec.Dressing = nil
		for _, e := range r.entries(n) {
			if !r.name(e.key, "way of dressing") {
				continue
			}
			w := job.WayAsked{Name: e.key.text}
			if e.value.form == line && !strings.EqualFold(e.value.text, nothing) {
				r.bad(badWord, e.value, fmt.Sprintf("%s takes layers, or nothing", e.key.text), "write layers under it, such as greenery: {weight: 8 lb, closes: 60 %}, or write nothing")
				continue
			}
			if e.value.form == line && strings.EqualFold(e.value.text, nothing) {
				d.spec.Dressing = append(d.spec.Dressing, w)
				continue
			}
			if r.isItem(e, fields, "greenery: {weight: 8 lb, closes: 60 %}") {
				w.Layers = r.layers(e.value)
				d.spec.Dressing = append(d.spec.Dressing, w)
			}
		}
	}}
}

func (r *reader) layers(n *node) (out []job.LayerAsked) {
	for _, e := range r.entries(n) {
		if r.name(e.key, "layer of dressing") && r.isItem(e, fields, "weight: 8 lb") {
			l := job.LayerAsked{Name: e.key.text}
			readFields(r, e.value, "layer "+l.Name, layerTable, &l)
			out = append(out, l)
		}
	}
	return out
}

// perArea are the ends of a weight to an area, with the square metres of it.
var perArea = []struct {
	text string
	area float64
}{{"per sq ft", 0.3048 * 0.3048}, {"per square foot", 0.3048 * 0.3048}, {"per ft2", 0.3048 * 0.3048}, {"per sq m", 1}, {"per square metre", 1}, {"per m2", 1}, {"per m²", 1}}

func massPerField(i info) field[job.LayerAsked] {
	k := kind{words: fmt.Sprintf("a weight up to %g kg, or one per sq ft or per sq m", mostKG), form: line, schema: object{"type": "string"}}
	return anyField(i, k, func(r *reader, n *node, l *job.LayerAsked) {
		text := strings.TrimSpace(n.text)
		for _, p := range perArea {
			if before, ok := strings.CutSuffix(text, p.text); ok {
				if m, ok := r.mass(n, strings.TrimSpace(before)); ok {
					l.PerArea = float64(m) / p.area
				}
				return
			}
		}
		if m, ok := r.mass(n, text); ok {
			l.Mass = m
		}
	})
}

// mass reads a weight that is not below nothing.
func (r *reader) mass(n *node, text string) (unit.Mass, bool) {
	if !r.plain(n, text, 0) {
		return 0, false
	}
	m, err := unit.ParseMass(text)
	if !r.quantity(badMass, n, 0, err) {
		return 0, false
	}
	if m < 0 || float64(m) > mostKG {
		r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be 0 to %g kg", r.at.Key, text, mostKG), fmt.Sprintf("write a weight from 0 to %g kg", mostKG))
		return 0, false
	}
	return m, true
}

func massField[T any](i info, set func(*T, unit.Mass)) field[T] {
	k := kind{words: fmt.Sprintf("a weight, 0 to %g kg; in lb or kg", mostKG), form: line, schema: object{"type": "string"}}
	return anyField(i, k, func(r *reader, n *node, into *T) {
		if m, ok := r.mass(n, n.text); ok {
			set(into, m)
		}
	})
}

// idsField reads ids and rows of ids.
func idsField[T any](i info, at func(*T) *[]string) field[T] {
	k := kind{words: "ids of frames with commas between", form: line, schema: ref("text")}
	return anyField(i, k, func(r *reader, n *node, into *T) {
		*at(into) = nil
		for offset, part := range offsets(strings.Split(n.text, ",")) {
			ids, ok := r.ids(n, strings.TrimSpace(part), offset)
			if !ok {
				return
			}
			for _, id := range ids {
				r.refer(toPlaced, n, id, offset)
			}
			*at(into) = append(*at(into), ids...)
		}
	})
}

func closesField[T any](i info, set func(*T, float64)) field[T] {
	k := kind{words: "a share, 0 to 100 %", form: line, schema: object{"type": []string{"string", "number"}}}
	return anyField(i, k, func(r *reader, n *node, into *T) {
		if p, ok := r.percent(n, 0, 100); ok {
			set(into, p/100)
		}
	})
}

// mostWet is how many times its dry weight anything weighs soaked.
const mostWet = 50

func wetField(i info) field[job.LayerAsked] {
	k := kind{words: fmt.Sprintf("a number of times, 1 to %d", mostWet), form: line, schema: object{"type": []string{"string", "number"}}}
	return anyField(i, k, func(r *reader, n *node, l *job.LayerAsked) {
		text, ok := r.number(n)
		if !ok {
			return
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(text, "times")), 64)
		switch {
		case err != nil:
			r.bad(badNumber, n, fmt.Sprintf("%q is no number of times", text), r.at.remedy())
		case v < 1 || v > mostWet:
			r.bad(outOfRange, n, fmt.Sprintf("wet is %s; it must be 1 to %d", text, mostWet), fmt.Sprintf("write how many times the dry weight, 1 to %d", mostWet))
		default:
			l.Wet = v
		}
	})
}
