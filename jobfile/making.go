package jobfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/job"
	"bowerwright/unit"
)

// Words for the two choices of a kind of frame.
var (
	cornerWords = []string{"glue", "brads", "corner block", "plate", "spline"}
	glueWords   = []string{"rolled", "strap", "two halves", "joint by joint", "in layers"}
)

// makingKindTable are the fields of a kind of frame about how it is put together.
var makingKindTable = []field[job.Kind]{
	wordField(info{Key: "corner", Doc: "What holds its corners beside glue: brads driven across the joint, a corner block glued inside, a plate screwed on the back, or a spline in the mitre.",
		Example: "spline", Usual: "glue alone"}, cornerWords, func(k *job.Kind) *string { return &k.Corner }),
	wordField(info{Key: "glue up", Doc: "How it is glued up: laid on tape in a row and rolled, closed with a strap, in two halves, joint by joint, or in layers with staggered joints. A way that the frame is too big or not made for is refused with its limit.",
		Example: "two halves", Usual: "the first way that its limits allow; the papers say why"}, glueWords, func(k *job.Kind) *string { return &k.GlueUp }),
	layersField(info{Key: "layers", Doc: "How many layers of boards lie on each other, joints staggered, in a ring that is sawn round.", Example: "2", Usual: "1"}),
}

// makingTable are the fields of making: what there is to glue, sand and lay out
// with. Most are assumptions by an easier name.
var makingTable = []field[job.MakingAsked]{
	handsField(info{Key: "hands", Doc: "How many people are at the glue.", Example: "2", Usual: "1"}),
	ownedField(info{Key: "straps", Doc: "Band straps owned: the length of each.", Example: "12 ft, 12 ft, 20 ft", Usual: "none"},
		span{300 * unit.Millimetre, 30 * unit.Metre, "300 mm to 30 m"}, func(m *job.MakingAsked) *[]unit.Length { return &m.Straps }),
	lengthField(info{Key: "bench", Doc: "Length of the bench that rows are laid on.", Example: "8 ft", Usual: "as long as any row"},
		span{300 * unit.Millimetre, 30 * unit.Metre, "300 mm to 30 m"}, func(m *job.MakingAsked) *unit.Length { return &m.Bench }),
	ownedField(info{Key: "brads", Doc: "Brads at hand for the corners of frames: the lengths of them.", Example: "3/4 in, 1 in", Usual: "any of the catalogue"},
		span{6 * unit.Millimetre, 100 * unit.Millimetre, "6 to 100 mm"}, func(m *job.MakingAsked) *[]unit.Length { return &m.Brads }),
	ownedField(info{Key: "plates", Doc: "Plates at hand for the corners of frames: the lengths of them. Plates over the seams of flat frames are the catalogue's.", Example: "2 in, 3 in", Usual: "any of the catalogue"},
		span{20 * unit.Millimetre, 500 * unit.Millimetre, "20 to 500 mm"}, func(m *job.MakingAsked) *[]unit.Length { return &m.Plates }),
	wordField(info{Key: "inside finish", Doc: "When the inside faces are finished: before gluing, with the mitres masked; after gluing, with all the rest; or none, when they stay bare.",
		Example: "before gluing", Usual: "after gluing"}, []string{"before gluing", "after gluing", "none"}, func(m *job.MakingAsked) *string { return &m.Inside }),
	valueField(info{Key: "shop temperature", Doc: "Where the boards and the glue lie, in °C or °F.", Example: "18 C", Assume: assume.ShopTemperature}),
	valueField(info{Key: "open time", Doc: "Of the glue at 20 °C, by its label.", Example: "10 min", Assume: assume.GlueOpen}),
	valueField(info{Key: "least temperature", Doc: "Least that the glue allows, by its label.", Example: "50 F", Assume: assume.GlueTemperature}),
	valueField(info{Key: "clamp time", Doc: "Until a glued frame may be moved, by the label.", Example: "60 min", Assume: assume.GlueHold}),
	valueField(info{Key: "full strength", Doc: "Until the glue has it, by the label.", Example: "24 h", Assume: assume.GlueFull}),
	valueField(info{Key: "filler coat", Doc: "Until the next thin coat of filler, by its label.", Example: "20 min", Assume: assume.FillerSet}),
	valueField(info{Key: "filler sand", Doc: "Until the filler is sanded, by its label.", Example: "4 h", Assume: assume.FillerSand}),
	valueField(info{Key: "filler paint", Doc: "Until the filler is painted, by its label.", Example: "24 h", Assume: assume.FillerPaint}),
	gritsField(info{Key: "grits", Doc: "Grits of abrasive, from the first to the last: two numbers, or one.", Example: "120, 180", Usual: "assumptions `sand.first` and `sand.last`, 120 and 180"}),
	valueField(info{Key: "coats", Doc: "Coats of finish; 0 leaves the wood bare.", Example: "3", Assume: assume.FinishCoats}),
	valueField(info{Key: "recoat", Doc: "Finish until the next coat, by its label.", Example: "2 h", Assume: assume.FinishRecoat}),
	valueField(info{Key: "known-straight length", Doc: "The longest thing in the shop that is known to be straight.", Example: "8 ft", Assume: assume.LayStraight}),
}

// mostLayers is how many layers a ring may have: more is no ring of boards.
const mostLayers = 6

func layersField(i info) field[job.Kind] {
	k := kind{words: fmt.Sprintf("a whole number, 1 to %d", mostLayers), form: line, schema: whole(1, mostLayers)}
	return anyField(i, k, func(r *reader, n *node, k *job.Kind) {
		if v, ok := r.count(n, 1, mostLayers); ok {
			k.Layers = v
		}
	})
}

// mostHands is how many people find room round a bench.
const mostHands = 20

func handsField(i info) field[job.MakingAsked] {
	k := kind{words: fmt.Sprintf("a whole number, 1 to %d", mostHands), form: line, schema: whole(1, mostHands)}
	return anyField(i, k, func(r *reader, n *node, m *job.MakingAsked) {
		if v, ok := r.count(n, 1, mostHands); ok {
			m.Hands = v
		}
	})
}

// mostListed is how many lengths a line may list.
const mostListed = 50

// ownedField reads lengths on one line, with commas between; none means that
// there is none.
func ownedField(i info, s span, at func(*job.MakingAsked) *[]unit.Length) field[job.MakingAsked] {
	k := kind{words: fmt.Sprintf("lengths with commas between, %s each, or none", s.words), form: line, schema: object{"type": []string{"string", "number"}}}
	return anyField(i, k, func(r *reader, n *node, m *job.MakingAsked) {
		if strings.EqualFold(n.text, "none") {
			*at(m) = []unit.Length{}
			return
		}
		parts := strings.Split(n.text, ",")
		if len(parts) > mostListed {
			r.bad(badList, n, fmt.Sprintf("%s lists %d lengths; at most %d fit", r.at.Key, len(parts), mostListed), "write those that matter")
			return
		}
		var out []unit.Length
		for offset, part := range offsets(parts) {
			part = strings.TrimSpace(part)
			l, ok := r.lengthIn(n, part, offset)
			if !ok {
				return
			}
			if l < s.low || l > s.high {
				r.badAt(outOfRange, n.within(offset), part, fmt.Sprintf("%s in %s is none that is read: each is %s", part, r.at.Key, s.words), "write lengths from "+s.words)
				return
			}
			out = append(out, l)
		}
		*at(m) = out
	})
}

// offsets gives each part of a line with commas between, and where it begins
// when the blanks before it are left out.
func offsets(parts []string) func(func(int, string) bool) {
	return func(yield func(int, string) bool) {
		at := 0
		for _, part := range parts {
			if !yield(at+len(part)-len(strings.TrimLeft(part, " ")), part) {
				return
			}
			at += len(part) + 1
		}
	}
}

// gritsField sets two assumptions: the first grit and the last.
func gritsField(i info) field[job.MakingAsked] {
	k := kind{words: "one or two whole numbers, the coarser first", form: line, schema: object{"type": []string{"string", "integer"}}}
	return anyField(i, k, func(r *reader, n *node, _ *job.MakingAsked) {
		first, last, offset, two := cutPair(n.text, ",")
		if !two {
			first, last = strings.TrimSpace(n.text), strings.TrimSpace(n.text)
		}
		a, okA := r.grit(n, assume.SandFirst, first, 0, two)
		b, okB := r.grit(n, assume.SandLast, last, offset, two)
		switch {
		case !okA || !okB:
		case a > b:
			r.bad(badList, n, fmt.Sprintf("grit %g comes before %g: it is finer", a, b), "write the coarser first, such as 120, 180")
		default:
			r.assumed(assume.SandFirst, a, first)
			r.assumed(assume.SandLast, b, last)
		}
	})
}

// grit reads one grit; of one alone, both assumptions must allow it.
func (r *reader) grit(n *node, id assume.ID, text string, offset int, two bool) (float64, bool) {
	if !r.plain(n, text, offset) {
		return 0, false
	}
	g, err := strconv.Atoi(text)
	if err != nil {
		r.badAt(badNumber, n.within(offset), text, fmt.Sprintf("%q is no grit", text), r.at.remedy())
		return 0, false
	}
	return float64(g), r.allows(n, id, float64(g), text)
}

// valueField is a number that is an assumption by an easier name; it stands for
// the one under assume.
func valueField(i info) field[job.MakingAsked] {
	v, _ := assume.BuiltInBook().Lookup(i.Assume)
	k := kind{words: valueWords(v), form: line, schema: object{"type": []string{"string", "number"}}}
	return anyField(i, k, func(r *reader, n *node, _ *job.MakingAsked) {
		if text, ok := r.number(n); ok {
			if x, ok := r.valueIn(n, text, v.Unit); ok && r.allows(n, i.Assume, x, text) {
				r.assumed(i.Assume, x, text)
			}
		}
	})
}

// valueWords says what an assumption's field takes.
func valueWords(v assume.Value) string {
	low, high := assume.Number(v.Low), assume.Number(v.High)
	switch v.Unit {
	case "min", "h":
		return fmt.Sprintf("a time, %s to %s %s; in min, h or days", low, high, v.Unit)
	case "C":
		return fmt.Sprintf("a temperature, %s to %s °C; in C or F", low, high)
	case "coats":
		return fmt.Sprintf("a whole number, %s to %s", low, high)
	}
	return fmt.Sprintf("a length, %s to %s %s", low, high, v.Unit)
}

// valueIn reads a time, a temperature, a count or a length in an assumption's
// unit.
func (r *reader) valueIn(n *node, text, name string) (float64, bool) {
	switch name {
	case "min", "h":
		return r.inUnits(n, text, "a time", minutesOf, minutesOf[name])
	case "C":
		return r.temperature(n, text)
	case "coats":
		v, err := strconv.Atoi(text)
		if err != nil {
			r.bad(badNumber, n, fmt.Sprintf("%q is no whole number", text), r.at.remedy())
		}
		return float64(v), err == nil
	}
	return r.lengthValue(n, text, name)
}

func (r *reader) lengthValue(n *node, text, name string) (float64, bool) {
	l, ok := r.lengthIn(n, text, 0)
	if !ok {
		return 0, false
	}
	u, _ := unit.UnitNamed(name)
	return l.In(u), true
}

// minutesOf are the units of time, by the names they may be written with.
var minutesOf = map[string]float64{
	"min": 1, "minute": 1, "minutes": 1, "h": 60, "hr": 60, "hour": 60, "hours": 60, "day": 24 * 60, "days": 24 * 60,
}

// inUnits reads a figure and a unit, and gives it in a unit of so many.
func (r *reader) inUnits(n *node, text, what string, units map[string]float64, in float64) (float64, bool) {
	figures := strings.TrimRight(text, "abcdefghijklmnopqrstuvwxyz")
	each, known := units[text[len(figures):]]
	x, err := strconv.ParseFloat(strings.TrimSpace(figures), 64)
	switch {
	case err != nil || strings.Trim(strings.TrimSpace(figures), ".0123456789") != "":
		r.bad(badNumber, n, fmt.Sprintf("%q is not %s", text, what), r.at.remedy())
		return 0, false
	case !known:
		r.bad(badNumber, n, fmt.Sprintf("%q is in no unit of time", text), "write min, h or days behind the figure, such as "+r.at.Example)
		return 0, false
	}
	return exactly(x * each / in), true
}

// temperature reads °C or °F.
func (r *reader) temperature(n *node, text string) (float64, bool) {
	figures, scale := strings.TrimSpace(text), ""
	for _, s := range []string{"C", "F"} {
		if f, ok := strings.CutSuffix(figures, s); ok {
			figures, scale = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(f), "°")), s
			break
		}
	}
	x, err := strconv.ParseFloat(figures, 64)
	if err != nil || scale == "" || strings.Trim(figures, "-.0123456789") != "" {
		r.bad(badNumber, n, fmt.Sprintf("%q is no temperature with C or F behind it", text), r.at.remedy())
		return 0, false
	}
	if scale == "F" {
		x = (x - 32) * 5 / 9
	}
	return math.Round(x*1e6) / 1e6, true
}

// allows checks a value against its assumption's range.
func (r *reader) allows(n *node, id assume.ID, x float64, text string) bool {
	v, _ := r.book.Lookup(id)
	if x >= v.Low && x <= v.High {
		return true
	}
	r.bad(outOfRange, n, fmt.Sprintf("%s is %s; it must be %s to %s %s", r.at.Key, text, assume.Number(v.Low), assume.Number(v.High), v.Unit),
		fmt.Sprintf("write a value from %s to %s %s", assume.Number(v.Low), assume.Number(v.High), v.Unit))
	return false
}

// assumed sets an assumption as assume: does.
func (r *reader) assumed(id assume.ID, x float64, text string) {
	r.d.spec.Assume = append(r.d.spec.Assume, job.Override{ID: string(id), Value: x, Text: text, From: r.origin.String()})
}
