package jobfile

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// kindTable are the fields that every kind of frame has beside the measures
// of its shape.
var kindTable = append([]field[job.Kind]{
	shapeField(info{Key: "shape", Doc: "One of the shapes below.", Example: "hexagon", Need: true}),
	textField(info{Key: "title", Doc: "What people call it.", Example: "big hexagon"}, func(k *job.Kind) *string { return &k.Title }),
	timberNameField(info{Key: "timber", Doc: "What it is made of, by its name under timber.", Example: "pine", Usual: "the first timber"}),
	layField(info{Key: "boards", Doc: "How the boards lie: on edge, with the thickness in the plane of the frame, or flat, with the width in it.",
		Example: "on edge", Usual: "on edge"}),
	spareField(info{Key: "spare", Doc: "How many are made beside those in the layout.", Example: "1", Usual: "0"}),
}, makingKindTable...)

// framesField reads kinds of frame under names.
func framesField(i info) field[draft] {
	i.kind = kind{words: "fields under names", form: fields, named: true, sub: describe("frames", kindTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, fields) {
			return
		}
		for _, e := range r.entries(n) {
			if r.name(e.key, "kind of frame") && r.isItem(e, fields, "shape: hexagon") {
				d.spec.Kinds = append(d.spec.Kinds, r.kind(e))
			}
		}
	}}
}

// kind reads one kind of frame: its shape first, since that says what else
// may be given.
func (r *reader) kind(e entry) job.Kind {
	k := job.Kind{Name: e.key.text, Lengths: map[string]unit.Length{}, Angles: map[string]unit.Angle{},
		Counts: map[string]int{}, Words: map[string]string{}}
	table := kindTable
	def, known := job.ShapeDef{}, false
	if s := e.value.get("shape"); s != nil {
		def, known = job.ShapeNamed(strings.ToLower(s.text))
	}
	if !known { // the shape is the snag; its measures cannot be judged
		readFields(r, r.without(e.value), "frame "+k.Name, table, &k)
		return k
	}
	table = append(slices.Clone(table), measureFields(def)...)
	readFields(r, r.measured(e.value, def), "frame "+k.Name, table, &k)
	r.sizes(e, def)
	return k
}

// without leaves out what is a measure of any shape, and diameter.
func (r *reader) without(n *node) *node {
	out := *n
	out.entries = slices.DeleteFunc(slices.Clone(n.entries), func(e entry) bool {
		return e.key.text == "diameter" || len(shapesWith(e.key.text)) > 0
	})
	return &out
}

// measured leaves out, with its snag, what is a measure of other shapes only.
func (r *reader) measured(n *node, def job.ShapeDef) *node {
	out := *n
	out.entries = nil
	for _, e := range n.entries {
		_, own := def.Measure(e.key.text)
		switch {
		case e.key.text == "diameter":
			r.bad(unclearDiameter, e.key, fmt.Sprintf("diameter could mean several sizes of %s", a(def.Name)), meanings(def, n))
		case isEvenSize(e.key.text) && oddSided(def, n):
			r.bad(noSuchMeasure, e.key, "with an odd number of sides no two sides or corners are opposite", meanings(def, n))
		case !own && len(shapesWith(e.key.text)) > 0:
			r.bad(noSuchMeasure, e.key, fmt.Sprintf("%s is not given by %s", a(def.Name), e.key.text), "it is given by "+measuresOf(def, n))
		default:
			out.entries = append(out.entries, e)
		}
	}
	return &out
}

// isEvenSize tells whether a size needs an even number of sides.
func isEvenSize(key string) bool { return key == "flats" || key == "points" || key == "inside flats" }

// shapesWith names the shapes that have a measure.
func shapesWith(key string) []string {
	var out []string
	for _, d := range job.Shapes {
		if _, ok := d.Measure(key); ok {
			out = append(out, d.Name)
		}
	}
	return out
}

// oddSided tells whether a regular polygon that stands in n has an odd number
// of sides.
func oddSided(def job.ShapeDef, n *node) bool {
	if def.Name == "regular" {
		if s := n.get("sides"); s != nil && s.text != "" {
			return strings.ContainsAny(s.text[len(s.text)-1:], "13579")
		}
	}
	return def.Regular && def.Sides%2 == 1
}

// meanings says what diameter, or a size that only even shapes have, may mean.
func meanings(def job.ShapeDef, n *node) string {
	switch {
	case def.Name == "ring":
		return "write outside or inside, whichever is meant"
	case def.Name == "arch":
		return "write outside, for the circle that its outside corners or flats are on"
	case def.Regular && oddSided(def, n):
		return "write corner circle, inscribed circle or height, whichever is meant"
	case def.Regular:
		return "write points (between opposite corners), flats (between opposite sides) or height, whichever is meant"
	}
	return "it is given by " + measuresOf(def, n)
}

// sizesOf lists the groups of sizes of which a shape is given exactly one.
func sizesOf(def job.ShapeDef, n *node) string {
	var groups []string
	odd, paired := oddSided(def, n), false
	for _, g := range def.OneOf {
		if !odd || !isEvenSize(g[0]) {
			groups = append(groups, strings.Join(g, " and "))
			paired = paired || len(g) > 1
		}
	}
	if paired {
		return strings.Join(groups, "; or ")
	}
	return either(groups)
}

// measuresOf says what a shape is given by: what it needs, and its sizes.
func measuresOf(def job.ShapeDef, n *node) string {
	need, sizes := strings.Join(def.Need, ", "), sizesOf(def, n)
	if need != "" && sizes != "" {
		return need + ", and one of " + sizes
	}
	return need + sizes
}

// a puts the article before a shape's name.
func a(shape string) string {
	switch {
	case shape == "corners" || shape == "sides" || shape == "regular":
		return "a shape given by " + shape
	case strings.ContainsAny(shape[:1], "aeio"):
		return "an " + shape
	}
	return "a " + shape
}

// sizes demands exactly one of the shape's groups of sizes.
func (r *reader) sizes(e entry, def job.ShapeDef) {
	if len(def.OneOf) == 0 {
		return
	}
	var given []string
	for _, k := range e.value.entries {
		for _, group := range def.OneOf {
			if slices.Contains(group, k.key.text) && !slices.Contains(given, k.key.text) {
				given = append(given, k.key.text)
			}
		}
		if k.key.text == "diameter" || isEvenSize(k.key.text) && oddSided(def, e.value) {
			return // has its own snag
		}
	}
	for _, group := range def.OneOf {
		if len(group) == len(given) && !slices.ContainsFunc(group, func(k string) bool { return !slices.Contains(given, k) }) {
			return
		}
	}
	problem := fmt.Sprintf("frame %s has no size", e.key.text)
	if len(given) > 0 {
		problem = fmt.Sprintf("the size of frame %s is not given by %s", e.key.text, strings.Join(given, " and "))
	}
	r.bad(oneSize, e.key, problem, "give exactly one: "+sizesOf(def, e.value))
}

// measureFields makes rows of the table from a shape's measures.
func measureFields(def job.ShapeDef) []field[job.Kind] {
	var out []field[job.Kind]
	for _, m := range def.Measures {
		f := measureField(m)
		f.Need = slices.Contains(def.Need, m.Key)
		out = append(out, f)
	}
	return out
}

func measureField(m job.Measure) field[job.Kind] {
	i := info{Key: m.Key, Doc: m.Doc, Example: m.Example}
	switch m.Is {
	case job.AngleMeasure:
		return anyField(i, kind{words: "degrees, over 0 and under 180", form: line, schema: ref("angle")},
			func(r *reader, n *node, k *job.Kind) {
				if v, ok := r.angle(n, 1, 179); ok {
					k.Angles[m.Key] = v
				}
			})
	case job.CountMeasure:
		return anyField(i, kind{words: fmt.Sprintf("a whole number, %d to %d", m.Low, m.High), form: line, schema: whole(m.Low, m.High)},
			func(r *reader, n *node, k *job.Kind) {
				if v, ok := r.count(n, m.Low, m.High); ok {
					k.Counts[m.Key] = v
				}
			})
	case job.WordMeasure:
		i.Usual = m.Words[0]
		return anyField(i, kind{words: either(m.Words), form: line, schema: object{"enum": m.Words}}, func(r *reader, n *node, k *job.Kind) {
			if w, ok := r.word(n, m.Words); ok {
				k.Words[m.Key] = w
			}
		})
	case job.SwitchMeasure:
		i.Usual = "no"
		return switchField(i, func(k *job.Kind, yes bool) {
			if yes {
				k.Words[m.Key] = "yes"
			}
		})
	case job.CornerList:
		return cornersField(i)
	case job.SideList:
		return sidesField(i)
	}
	return anyField(i, kind{words: "a length, " + wide.words, form: line, schema: ref("length")}, func(r *reader, n *node, k *job.Kind) {
		if l, ok := r.length(n, wide); ok {
			k.Lengths[m.Key] = l
		}
	})
}

func cornersField(i info) field[job.Kind] {
	i.Example = strings.TrimPrefix(i.Example, "- ")
	return anyField(i, kind{words: "a list of lines: x, y", form: list, schema: listOf(ref("pair"))}, func(r *reader, n *node, k *job.Kind) {
		for _, item := range n.items {
			if !r.is(item, line) {
				continue
			}
			x, y, at, ok := cutPair(item.text, ",")
			if !ok || strings.Contains(y, ",") {
				r.bad(badPair, item, "a corner has two measures, x to the right and y up", r.at.remedy())
				continue
			}
			if p, ok := r.point(item, x, 0, y, at); ok {
				k.Corners = append(k.Corners, p)
			}
		}
	})
}

func sidesField(i info) field[job.Kind] {
	i.Example = strings.TrimPrefix(i.Example, "- ")
	return anyField(i, kind{words: "a list of lines: length, inside angle", form: list, schema: listOf(ref("length"))},
		func(r *reader, n *node, k *job.Kind) {
			for j, item := range n.items {
				if r.is(item, line) {
					r.side(item, j == len(n.items)-1, k)
				}
			}
		})
}

// side reads one line of a run of sides.
func (r *reader) side(n *node, last bool, k *job.Kind) {
	length, angle, at, two := cutPair(n.text, ",")
	if !two && !last {
		r.bad(badPair, n, "every side but the last has its length and the inside angle at its far end", "write "+r.at.Example)
		return
	}
	if !two {
		length = n.text
	}
	l, ok := r.lengthIn(n, length, 0)
	side := job.RunSide{Length: l}
	if two {
		v, okAngle := r.angleWithin(n, angle, at, 1, 359)
		side.Inside, ok = v, ok && okAngle
	}
	if ok && r.fits(n, l, wide) {
		k.Run = append(k.Run, side)
	}
}

func shapeField(i info) field[job.Kind] {
	var names []string
	for _, d := range job.Shapes {
		names = append(append(names, d.Name), d.Also...)
	}
	return anyField(i, kind{words: "the name of a shape", form: line, schema: object{"enum": names}}, func(r *reader, n *node, k *job.Kind) {
		def, ok := job.ShapeNamed(strings.ToLower(n.text))
		if !ok {
			remedy := "write one of: " + strings.Join(names, ", ")
			if near := snag.DidYouMean(n.text, names); near != "" {
				remedy = fmt.Sprintf("did you mean %s?", near)
			}
			r.bad(unknownShape, n, fmt.Sprintf("there is no shape %q", n.text), remedy)
			return
		}
		k.Shape = def.Name
	})
}

func timberNameField(i info) field[job.Kind] {
	return anyField(i, kind{words: "the name of a timber", form: line, schema: ref("text")}, func(r *reader, n *node, k *job.Kind) {
		k.Timber = n.text
		r.refer(toTimber, n, n.text, 0)
	})
}

func layField(i info) field[job.Kind] {
	words := []string{"on edge", "flat"}
	return anyField(i, kind{words: either(words), form: line, schema: object{"enum": words}}, func(r *reader, n *node, k *job.Kind) {
		if w, ok := r.word(n, words); ok {
			k.Flat = w == "flat"
		}
	})
}

// mostSpare is far above what anybody keeps; more is a slip.
const mostSpare = 500

func spareField(i info) field[job.Kind] {
	k := kind{words: fmt.Sprintf("a whole number, 0 to %d", mostSpare), form: line, schema: whole(0, mostSpare)}
	return anyField(i, k, func(r *reader, n *node, k *job.Kind) {
		if v, ok := r.count(n, 0, mostSpare); ok {
			k.Spare = v
		}
	})
}
