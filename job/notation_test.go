package job

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/snag"
	"bowerwright/unit"
)

// The tests say a job in a short notation, a line a thing:
//
//	B = hexagon: flats 18, spare 2            a kind of frame; bare lengths are inches
//	B1 at 0 0, turned 30, mirrored            a frame of kind B: the letters of its id
//	B2 side 1 on B1 side 4, flush at start, shifted 2, and side 3 on B7 side 1
//	T1 corner 3 on B1 corner 2, turned 30
//	family B M
//	copy B1 B2 as C1 C2, mirrored at 60       or: moved by 40 0
//
// The boards are 1x4s of 8 ft until a test says otherwise. A line that cannot
// be read panics: it is a slip in the test.
func spec(lines ...string) Spec {
	s := Spec{Name: "Test", Timber: []Timber{{Name: "pine", Nominal: "1x4", Length: 8 * unit.Foot, Species: "Eastern White Pine"}}}
	for _, line := range lines {
		s.read(line)
	}
	return s
}

func (s *Spec) read(line string) {
	first, rest, _ := strings.Cut(line, " ")
	switch name, shape, isKind := strings.Cut(line, " = "); {
	case isKind:
		s.Kinds = append(s.Kinds, kindOf(name, shape))
	case first == "family":
		s.Families = append(s.Families, strings.Fields(rest))
	case first == "copy":
		s.Copies = append(s.Copies, copyOf(rest))
	default:
		s.Layout = append(s.Layout, placeOf(first, rest))
	}
}

func kindOf(name, text string) Kind {
	shape, measures, _ := strings.Cut(text, ": ")
	k := Kind{Name: name, Shape: shape, Lengths: map[string]unit.Length{}, Angles: map[string]unit.Angle{}, Counts: map[string]int{}, Words: map[string]string{}}
	def, _ := ShapeNamed(shape)
	for _, m := range strings.Split(measures, ", ") {
		switch key, value := keyOf(def, m); key {
		case "":
		case "flat":
			k.Flat = true
		case "spare":
			k.Spare = int(num(value))
		case "timber":
			k.Timber = value
		default:
			k.take(def, key, value)
		}
	}
	return k
}

// keyOf splits "inside flats 18": the longest key of the shape that fits.
func keyOf(def ShapeDef, m string) (key, value string) {
	for _, q := range def.Measures {
		if strings.HasPrefix(m, q.Key+" ") && len(q.Key) > len(key) {
			key = q.Key
		}
	}
	if key == "" {
		key, value, _ = strings.Cut(m, " ")
		return key, value
	}
	return key, m[len(key)+1:]
}

func (k *Kind) take(def ShapeDef, key, value string) {
	m, ok := def.Measure(key)
	if !ok {
		k.Lengths[key] = inches(value) // a measure the shape has not
		return
	}
	switch m.Is {
	case LengthMeasure:
		k.Lengths[key] = inches(value)
	case AngleMeasure:
		k.Angles[key] = unit.FromDegrees(num(value))
	case CountMeasure:
		k.Counts[key] = int(num(value))
	case WordMeasure, SwitchMeasure:
		k.Words[key] = value
	case CornerList:
		for _, c := range strings.Split(value, " / ") {
			k.Corners = append(k.Corners, *point(strings.Fields(c)))
		}
	case SideList:
		for _, c := range strings.Split(value, " / ") {
			run := RunSide{Length: inches(strings.Fields(c)[0])}
			if f := strings.Fields(c); len(f) > 1 {
				run.Inside = unit.FromDegrees(num(f[1]))
			}
			k.Run = append(k.Run, run)
		}
	}
}

func placeOf(id, text string) Place {
	p := Place{ID: id, Kind: strings.TrimRight(id, "0123456789")}
	for _, clause := range strings.Split(text, ", ") {
		f := strings.Fields(strings.TrimPrefix(clause, "and "))
		last := len(p.Attach) - 1
		switch f[0] {
		case "at":
			p.At = point(f[1:])
		case "turned":
			p.Turn = unit.FromDegrees(num(f[1]))
		case "mirrored":
			p.Mirror = true
		case "side":
			p.Attach = append(p.Attach, Attach{Side: int(num(f[1])), To: f[3], ToSide: int(num(f[5]))})
		case "corner":
			p.Attach = append(p.Attach, Attach{Corner: int(num(f[1])), To: f[3], ToCorner: int(num(f[5]))})
		case "flush":
			p.Attach[last].Align = strings.Join(f, " ")
		case "shifted":
			p.Attach[last].Shift = inches(f[1])
		default:
			panic("notation: " + clause)
		}
	}
	return p
}

func copyOf(text string) Copy {
	ids, how, _ := strings.Cut(text, ", ")
	from, as, _ := strings.Cut(ids, " as ")
	c := Copy{From: strings.Fields(from), As: strings.Fields(as)}
	switch f := strings.Fields(how); f[0] {
	case "mirrored":
		c.MirrorAt = ptr(inches(f[2]))
	case "moved":
		c.By = *point(f[2:])
	default:
		panic("notation: " + how)
	}
	return c
}

func ptr[T any](v T) *T { return &v }

func num(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("notation: " + err.Error())
	}
	return v
}

func num64(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func inches(text string) unit.Length {
	l, err := unit.ParseLength(text, unit.Inches)
	if err != nil {
		panic("notation: " + err.Error())
	}
	return l
}

func point(xy []string) *geom.Point {
	return &geom.Point{X: num(xy[0]) * inch, Y: num(xy[1]) * inch}
}

const inch = 25.4

// worked plans a job that must be in order.
func worked(t testing.TB, s Spec) Result {
	t.Helper()
	r, snags, err := Plan(context.Background(), s, BuiltIn())
	if err != nil {
		t.Fatal(err)
	}
	if len(snags) > 0 {
		t.Fatalf("to put right:\n%s", snag.Text(snags, nil, 0))
	}
	return r
}

// refusals plans a job that must have something to put right.
func refusals(t testing.TB, s Spec) snag.List {
	t.Helper()
	_, snags, err := Plan(context.Background(), s, BuiltIn())
	if err != nil {
		t.Fatal(err)
	}
	if !snags.Stops() {
		t.Fatal("nothing is to be put right")
	}
	return snags
}

// near checks a figure against another within a tolerance.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s is %.5f, want %.5f within %g", what, got, want, tol)
	}
}

// noted finds the notes of one code.
func noted(r Result, code string) []Note {
	var out []Note
	for _, n := range r.Notes {
		if n.Code == code {
			out = append(out, n)
		}
	}
	return out
}

// frameOf finds a placed frame by its id.
func frameOf(t testing.TB, r Result, id string) FrameFacts {
	t.Helper()
	i := slices.IndexFunc(r.Frames, func(f FrameFacts) bool { return f.ID == id })
	if i < 0 {
		t.Fatalf("no frame %s", id)
	}
	return r.Frames[i]
}

// seamLengths are the lengths of all seams in mm, sorted.
func seamLengths(r Result) []float64 {
	var out []float64
	for _, s := range r.Seams {
		out = append(out, s.Length.MM)
	}
	slices.Sort(out)
	return out
}

func sameLengths(t testing.TB, what string, got, want []float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %v, want %v", what, got, want)
		return
	}
	for i := range got {
		near(t, fmt.Sprintf("%s %d", what, i+1), got[i], want[i], 0.002)
	}
}
