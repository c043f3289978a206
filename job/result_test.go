package job

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"

	"pgregory.net/rapid"
)

// samples has one kind for every shape; the boards are 1 1/2 in wide, so that
// each fits on edge and flat.
var samples = map[string]string{
	"triangle":          "triangle: side 30",
	"square":            "square: height 24, stands on corner",
	"pentagon":          "pentagon: width 26",
	"hexagon":           "hexagon: flats 18",
	"heptagon":          "heptagon: corner circle 28",
	"octagon":           "octagon: inside flats 25",
	"regular":           "regular: sides 12, points 40",
	"rectangle":         "rectangle: width 20, height 33.3",
	"diamond":           "diamond: side 21, angle 70",
	"kite":              "kite: width 20, top 8, bottom 18",
	"house":             "house: width 30, eaves 33, ridge 50",
	"half hexagon":      "half hexagon: width 40, open yes",
	"elongated hexagon": "elongated hexagon: width 24, height 50, uprights 30",
	"arch":              "arch: segments 5, outside 50, feet square",
	"arch on legs":      "arch on legs: width 40, legs 33, segments 4, circle flats",
	"ring":              "ring: segments 9, inside 30",
	"corners":           "corners: corners 0 0 / 30 0 / 30 25 / 15 12 / 0 28",
	"sides":             "sides: sides 24 90 / 18 90 / 24 90 / 18",
}

// variety is a job of every shape twice, on edge and flat, one of the two
// spare, from boards that the given length suits.
func variety() map[string]Spec {
	out := map[string]Spec{"cluster": cluster(), "family": sixths("family B M S")}
	for name, kind := range samples {
		s := spec("E = "+kind+", spare 1", "E1 at 0 0", "E2 at 90 0, mirrored")
		s.Timber[0].Nominal = "1x2"
		s.read("F = " + kind + ", flat")
		s.read("F1 at 180 0")
		out[name] = s
	}
	return out
}

// Every shape has a sample, and the samples have no other.
func TestEveryShapeHasASample(t *testing.T) {
	for _, d := range Shapes {
		if samples[d.Name] == "" {
			t.Errorf("no sample of a %s", d.Name)
		}
	}
	if len(samples) != len(Shapes) {
		t.Errorf("%d samples of %d shapes", len(samples), len(Shapes))
	}
}

func TestVariety(t *testing.T) {
	for name, s := range variety() {
		t.Run(name, func(t *testing.T) {
			metric := s
			metric.Show, metric.Mark = "metric", unit.Millimetre
			for _, s := range []Spec{s, metric} {
				r := worked(t, s)
				full(t, reflect.ValueOf(r), "Result")
				sizes(t, reflect.ValueOf(r), "Result")
				counts(t, r)
				refers(t, r)
				a, b := text(t, r), text(t, worked(t, s))
				if a != b {
					t.Error("two runs differ")
				}
				if strings.Contains(a, "null") {
					t.Error("result.json has a null")
				}
				var back Result
				if err := json.NewDecoder(bytes.NewBufferString(a)).Decode(&back); err != nil || text(t, back) != a {
					t.Errorf("it does not read back: %v", err)
				}
			}
		})
	}
}

// full checks that no list is nil that result.json always has, and that every
// number is one.
func full(t *testing.T, v reflect.Value, path string) {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) || f == 0 && math.Signbit(f) {
			t.Errorf("%s is %g", path, f)
		}
	case reflect.Slice:
		if v.IsNil() {
			t.Errorf("%s is nil", path)
		}
		for i := range v.Len() {
			full(t, v.Index(i), path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); !strings.Contains(f.Tag.Get("json"), "omitempty") || !v.Field(i).IsZero() {
				full(t, v.Field(i), path+"."+f.Name)
			}
		}
	}
}

// sizes checks that the text of every Size reads back to within half of the
// coarsest mark it may be written to: 1/16 in and 1 mm.
func sizes(t *testing.T, v reflect.Value, path string) {
	if s, ok := v.Interface().(Size); ok {
		reads(t, path, s.US, s.MM, unit.Inch/16)
		reads(t, path, s.Metric, s.MM, unit.Millimetre)
		return
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			sizes(t, v.Index(i), path)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			sizes(t, v.Elem(), path)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			sizes(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	}
}

func reads(t *testing.T, path, text string, mm float64, mark unit.Length) {
	if least, ok := strings.CutPrefix(text, "under "); ok {
		if l, err := unit.ParseLength(least, unit.NoUnit); err != nil || math.Abs(mm) >= l.MM() {
			t.Errorf("%s: %g mm is %q", path, mm, text)
		}
		return
	}
	l, err := unit.ParseLength(text, unit.NoUnit)
	if err != nil || math.Abs(l.MM()-mm) > mark.MM()/2+0.001 {
		t.Errorf("%s: %g mm is %q, which reads %g mm (%v)", path, mm, text, l.MM(), err)
	}
}

// counts checks parts against frames and boards: sides times frames made, and
// each part on exactly as many places of the boards as it is wanted.
func counts(t *testing.T, r Result) {
	t.Helper()
	wanted, all := map[string]int{}, 0
	for _, k := range r.Kinds {
		sides := 0
		for _, p := range k.Parts {
			if p.Count != len(p.Sides)*k.Make || p.PerFrame != len(p.Sides) {
				t.Errorf("%d of %s, %d to a frame of %d", p.Count, p.Mark, p.PerFrame, k.Make)
			}
			if wanted[p.Mark] != 0 {
				t.Errorf("two parts are marked %s", p.Mark)
			}
			wanted[p.Mark] += p.Count
			sides += len(p.Sides)
			all += p.Count
		}
		if sides != k.Sides {
			t.Errorf("%s has %d parts for %d sides", k.Name, sides, k.Sides)
		}
	}
	if all != r.Overall.PartCount {
		t.Errorf("%d parts, the cover says %d", all, r.Overall.PartCount)
	}
	for _, k := range r.Making.Kinds {
		if k.Across != nil && k.Across.Mark != "" {
			wanted[k.Across.Mark] += k.Count
		}
	}
	sawn, boards := map[string]int{}, 0
	for _, f := range r.Timber {
		n := 0
		for _, b := range f.Boards {
			for _, p := range b.Parts {
				sawn[p.Mark] += len(b.Numbers)
			}
			for _, number := range b.Numbers {
				if n++; number != n {
					t.Errorf("board %d is numbered %d", n, number)
				}
			}
		}
		if n != f.Buy || f.Buy < int(f.Levels.Boards.Bound) || f.Levels.Boards.Proved != (f.Buy == int(f.Levels.Boards.Bound)) {
			t.Errorf("%d boards to saw, %d to buy, at least %d, proved: %v", n, f.Buy, f.Levels.Boards.Bound, f.Levels.Boards.Proved)
		}
		boards += n
	}
	if !reflect.DeepEqual(sawn, wanted) {
		t.Errorf("sawn %v, wanted %v", sawn, wanted)
	}
	if boards != r.Overall.BoardCount {
		t.Errorf("%d boards, the cover says %d", boards, r.Overall.BoardCount)
	}
}

// refers checks that labels are unique and that whatever names a frame names
// one that is there.
func refers(t *testing.T, r Result) {
	t.Helper()
	known := map[string]FrameFacts{}
	for i, f := range r.Frames {
		if _, twice := known[f.Label]; twice || f.Number != i+1 {
			t.Errorf("frame %s is number %d in place %d", f.Label, f.Number, i+1)
		}
		known[f.Label] = f
	}
	var named []string
	for _, s := range r.Seams {
		named = append(named, s.Frames[:]...)
		for i, label := range s.Frames {
			if n := len(known[label].Outside); s.Sides[i] < 1 || s.Sides[i] > n {
				t.Errorf("seam %d: %s has no side %d", s.Number, label, s.Sides[i])
			}
		}
	}
	for _, q := range r.Touches {
		named = append(named, q.Frames[:]...)
	}
	for _, q := range r.Near {
		named = append(named, q.Frames[:]...)
	}
	for _, q := range r.Moved {
		named = append(named, q.Frame)
	}
	named = append(append(named, r.Overall.Standing...), r.Overall.Hanging...)
	inGroups := 0
	for _, g := range r.Overall.Groups {
		named = append(named, g...)
		inGroups += len(g)
	}
	for _, label := range named {
		if _, ok := known[label]; !ok {
			t.Errorf("no frame is labelled %q", label)
		}
	}
	if inGroups != len(r.Frames) || r.Overall.FrameCount != len(r.Frames) || r.Overall.SeamCount != len(r.Seams) {
		t.Errorf("%d frames, %d in groups; %d seams; the cover says %d and %d", len(r.Frames), inGroups, len(r.Seams), r.Overall.FrameCount, r.Overall.SeamCount)
	}
}

// Frames of the 25th kind and of the first never share a label.
func TestManyKinds(t *testing.T) {
	p := &planner{}
	for i := range 900 {
		p.kinds = append(p.kinds, &shape{Kind: Kind{Name: "a" + num64(float64(i))}})
	}
	p.letters()
	seen := map[string]bool{}
	for _, k := range p.kinds {
		if seen[k.letter] || strings.Trim(k.letter, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
			t.Fatalf("a kind is lettered %q", k.letter)
		}
		seen[k.letter] = true
	}
}

// Kinds get letters of their own however they are called, and parts of
// different kinds never share a mark, for up to a hundred kinds.
func TestLetters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := rapid.SliceOfNDistinct(rapid.StringMatching(`[a-zA-Z][a-zA-Z0-9_-]{0,3}`), 1, 100, rapid.ID[string]).Draw(t, "names")
		p := &planner{}
		for _, name := range names {
			p.kinds = append(p.kinds, &shape{Kind: Kind{Name: name}})
		}
		p.letters()
		var letters []string
		for _, k := range p.kinds {
			letters = append(letters, k.letter)
		}
		slices.Sort(letters)
		if len(slices.Compact(slices.Clone(letters))) != len(names) || letters[0] == "" {
			t.Fatalf("%q", letters)
		}
	})
}

// Suffixes of part marks: a to z, then aa; all different, none in capitals.
func TestSuffixes(t *testing.T) {
	seen := map[string]bool{}
	for i := range 800 {
		s := suffix(i)
		if seen[s] || s == "" || s != strings.ToLower(s) {
			t.Fatalf("suffix %d is %q", i, s)
		}
		seen[s] = true
	}
	for i, want := range map[int]string{0: "a", 25: "z", 26: "aa", 27: "ab", 51: "az", 52: "ba"} {
		if got := suffix(i); got != want {
			t.Errorf("suffix %d is %q, want %q", i, got, want)
		}
	}
}
