package jobfile

import (
	"fmt"
	"slices"
	"strings"

	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// What can be wrong with a base.
var (
	baseMeasure = snag.Kind{Code: "base-measure", Meaning: "A base lacks a measure that its kind needs, or has one that belongs to another kind."}
)

// baseWide is what any measure of a base may be.
var baseWide = span{10 * unit.Millimetre, 20 * unit.Metre, "10 mm to 20 m"}

var baseTable = []field[job.BaseAsked]{
	wordField(info{Key: "kind", Doc: "What it is: " + kindsOfBase() + ".", Example: "plate", Need: true}, baseKindNames(), func(b *job.BaseAsked) *string { return &b.Kind }),
	wordField(info{Key: "shape", Doc: "Of a plate or a ring, seen from above; hexagon, octagon and round have across instead of width and depth.", Example: "hexagon", Usual: "rectangle"},
		[]string{"rectangle", "hexagon", "octagon", "round"}, func(b *job.BaseAsked) *string { return &b.Shape }),
	baseLength("width", "Along the set piece; of feet and braces, of one.", "72 in", "of a plate or ring, as wide as the set piece", func(b *job.BaseAsked) *unit.Length { return &b.Width }),
	baseLength("depth", "From front to back.", "30 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Depth }),
	baseLength("across", "Of a hexagon or octagon from corner to corner, two of them at the left and right; of a round one its diameter.", "48 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Across }),
	lengthField(info{Key: "thickness", Doc: "Of the sheet, or the height of feet and frame base; of a wing from face to face.", Example: "3/4 in", Usual: "assumption `base.thickness`, 3/4 in; of a wing, as deep as the frames"}, stockSize,
		func(b *job.BaseAsked) *unit.Length { return &b.Thickness }),
	baseLength("rim", "Of a ring or a frame base: how wide it is seen from above, round its opening.", "6 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Rim }),
	pointedField(info{Key: "left", Doc: "Where its left end is, from that of the set piece; to the right is more.", Example: "-6 in", Usual: "centred"}, positions, func(b *job.BaseAsked) **unit.Length { return &b.Left }),
	pointedField(info{Key: "front", Doc: "How far it reaches before the front edges of the frames.", Example: "12 in", Usual: "as far before the frames as behind them"}, span{-20 * unit.Metre, 20 * unit.Metre, "-20 m to 20 m"},
		func(b *job.BaseAsked) **unit.Length { return &b.Front }),
	countOfBase(info{Key: "count", Doc: "How many feet, braces or stakes.", Example: "2", Usual: "2; of stakes 4"}),
	baseLength("behind", "Of braces: from the back of the frames to the end of the foot. Ballast may stand on it.", "36 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Behind }),
	baseLength("fixed", "Of braces: height where they are fixed to the frames.", "48 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Fixed }),
	baseLength("length", "Of a wing: along it, from its hinge.", "30 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Length }),
	baseLength("height", "Of a wing.", "72 in", "", func(b *job.BaseAsked) *unit.Length { return &b.Height }),
	wordField(info{Key: "side", Doc: "Of a wing: at which end, seen from the front.", Example: "left", Usual: "both"}, []string{"left", "right", "both"}, func(b *job.BaseAsked) *string { return &b.Side }),
	baseAngle(info{Key: "angle", Doc: "Of a wing: from straight on along the set piece backwards, in degrees; 90 is a return.", Example: "60", Usual: "90"}),
	closesField(info{Key: "closes", Doc: "Of a wing: the share of it that stops the wind, boards and dressing.", Example: "35 %", Usual: "0 %"}, func(b *job.BaseAsked, share float64) { b.Closes = share }),
	massField(info{Key: "weight", Doc: "What it weighs in all, all feet, braces or wings together.", Example: "22 lb", Usual: "from its size, as plywood of the assumption `base.plywood`, 34 lb/ft3"}, func(b *job.BaseAsked, m unit.Mass) { b.Mass = &m }),
	switchField(info{Key: "split", Doc: "Whether a plate is in two pieces for the van.", Example: "yes", Usual: "no"}, func(b *job.BaseAsked, yes bool) { b.Split = yes }),
	forceField(info{Key: "pull", Doc: "Of stakes: the pull upwards that one like it held in that ground when it was tried.", Example: "50 lb"}, func(b *job.BaseAsked) *unit.Force { return &b.Pull }),
	forceField(info{Key: "sideways", Doc: "Of stakes: the push sideways that one held.", Example: "50 lb"}, func(b *job.BaseAsked) *unit.Force { return &b.Sideways }),
}

func baseLength(key, doc, example, usual string, at func(*job.BaseAsked) *unit.Length) field[job.BaseAsked] {
	return lengthField(info{Key: key, Doc: doc, Example: example, Usual: usual}, baseWide, at)
}

func baseKindNames() (out []string) {
	for _, k := range job.BaseKinds {
		out = append(out, k.Name)
	}
	return out
}

// kindsOfBase says what each kind is and which fields it needs.
func kindsOfBase() string {
	var out []string
	for _, k := range job.BaseKinds {
		needs := ""
		if len(k.Needs) > 0 {
			needs = " (needs " + strings.Join(k.Needs, ", ") + ")"
		}
		out = append(out, k.Name+", "+k.Doc+needs)
	}
	return strings.Join(out, "; ")
}

// baseField reads pieces of the base under names.
func baseField(i info) field[draft] {
	i.kind = kind{words: "fields under names", form: fields, named: true, sub: describe("base", baseTable)}
	return field[draft]{i, func(r *reader, n *node, d *draft) {
		if !r.is(n, fields) {
			return
		}
		d.spec.Base = nil
		for _, e := range r.entries(n) {
			if r.name(e.key, "piece of the base") && r.isItem(e, fields, "kind: plate") {
				b := job.BaseAsked{Name: e.key.text}
				before := len(r.list)
				readFields(r, e.value, "base "+b.Name, baseTable, &b)
				if len(r.list) == before {
					r.baseKind(e, &b)
				}
				d.spec.Base = append(d.spec.Base, b)
			}
		}
	}}
}

// baseKind demands the fields that the kind needs, and refuses those of others.
func (r *reader) baseKind(e entry, b *job.BaseAsked) {
	k := job.BaseKinds[slices.IndexFunc(job.BaseKinds, func(k job.BaseKind) bool { return k.Name == b.Kind })]
	needs, also := k.Needs, k.Also
	if b.Kind == "plate" || b.Kind == "ring" {
		if b.Shape == "" || b.Shape == "rectangle" {
			needs, also = append(slices.Clone(needs), "depth"), slices.DeleteFunc(slices.Clone(also), func(f string) bool { return f == "across" })
		} else {
			needs, also = append(slices.Clone(needs), "across"), slices.DeleteFunc(slices.Clone(also), func(f string) bool { return f == "width" || f == "depth" })
		}
	}
	name := a(b.Kind)
	switch {
	case b.Shape != "":
		name = a(b.Shape) + " " + b.Kind
	case b.Kind == "feet" || b.Kind == "stakes":
		name = "a base of " + b.Kind
	}
	also = slices.DeleteFunc(slices.Clone(also), func(f string) bool { return slices.Contains(needs, f) })
	for _, f := range needs {
		if e.value.get(f) == nil {
			r.bad(baseMeasure, e.key, fmt.Sprintf("%s needs %s", name, f), fmt.Sprintf("write %s: %s", f, find(baseTable, f).Example))
		}
	}
	for _, x := range e.value.entries {
		if f := x.key.text; f != "kind" && !slices.Contains(needs, f) && !slices.Contains(also, f) {
			r.bad(baseMeasure, x.key, fmt.Sprintf("%s has no %s", name, f), "take it out; it has: "+strings.Join(append(slices.Clone(needs), also...), ", "))
		}
	}
}

const mostPieces = 40

func countOfBase(i info) field[job.BaseAsked] {
	k := kind{words: fmt.Sprintf("a whole number, 1 to %d", mostPieces), form: line, schema: whole(1, mostPieces)}
	return anyField(i, k, func(r *reader, n *node, b *job.BaseAsked) {
		if v, ok := r.count(n, 1, mostPieces); ok {
			b.Count = v
		}
	})
}

func baseAngle(i info) field[job.BaseAsked] {
	k := kind{words: "an angle, 10 to 170 degrees", form: line, schema: ref("angle")}
	return anyField(i, k, func(r *reader, n *node, b *job.BaseAsked) {
		if v, ok := r.angle(n, 10, 170); ok {
			b.Angle = &v
		}
	})
}

// forceField reads a force: by what it would lift, in lb or kg, or in N.
func forceField[T any](i info, at func(*T) *unit.Force) field[T] {
	k := kind{words: fmt.Sprintf("a force, 0 to %g N; in lb, kg or N", mostForce), form: line, schema: object{"type": "string"}}
	return anyField(i, k, func(r *reader, n *node, into *T) {
		if f, ok := r.force(n); ok {
			*at(into) = f
		}
	})
}

// standardGravity in m/s2 (NIST SP 811, appendix B.8: exact by definition).
const standardGravity = 9.80665

func (r *reader) force(n *node) (unit.Force, bool) {
	text := strings.TrimSpace(n.text)
	newtons, inN := strings.CutSuffix(text, "N")
	if inN {
		text = strings.TrimSpace(newtons) + " kg"
	}
	text = strings.TrimSuffix(text, "f") // lbf
	if !r.plain(n, text, 0) {
		return 0, false
	}
	m, err := unit.ParseMass(text)
	if !r.quantity(badMass, n, 0, err) {
		return 0, false
	}
	f := float64(m)
	if !inN {
		f *= standardGravity
	}
	if f < 0 || f > mostForce {
		r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be 0 to %g N", r.at.Key, n.text, mostForce), "write what one held when it was tried")
		return 0, false
	}
	return unit.Force(f), true
}
