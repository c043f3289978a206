package jobfile_test

import (
	"errors"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bowerwright/job"
	"bowerwright/jobfile"
)

func floorSeen(t testing.TB, text []byte) job.FloorFacts {
	t.Helper()
	spec, _, _ := jobfile.Read(text, "job", nil, "")
	f, _, err := job.Floor(spec, job.BuiltIn())
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return f
}

func moved(t testing.TB, text []byte, m jobfile.Move) jobfile.Moved {
	t.Helper()
	out, err := jobfile.MoveFrames(text, floorSeen(t, text), m)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

const moveJob = `bowerwright: 1
name: Small
unit: in
timber:
  pine: {board: 1x4, length: 8 ft}
frames:
  big: {shape: hexagon, flats: 18}
  odd: {shape: square, side: 9}
layout:
  # the two that stand
  A: big at 0, 0   # first
  B1: big side 1 on A side 4
  R1..R3: odd side 1 on previous side 3   # a row
  C: big side 6 on A side 3, and side 5 on B1 side 2
copies:
  - A, B1 as D1, D2, moved by 100, 0
fixing:
  hooks:
    B1 side 3: 1 tie
`

func TestMovesInText(t *testing.T) {
	hold := func(side int, to string, toSide int, align string, shift float64) *jobfile.Hold {
		return &jobfile.Hold{Side: side, To: to, ToSide: toSide, Align: align, Shift: shift}
	}
	ids := func(s string) []string { return strings.Fields(s) }
	for _, c := range []struct {
		name string
		move jobfile.Move
		gone string // lines of moveJob that are gone, by what they hold
		new  []string
	}{
		{"a new one against a side", jobfile.Move{Do: "set", Kind: "odd", Hold: hold(1, "A", 6, "flush at end", 3.175)}, "",
			[]string{"  R4: odd side 1 on A side 6, flush at end, shifted 1/8 in"}},
		{"a new one at a place", jobfile.Move{Do: "set", Kind: "odd", At: &[2]float64{1000, 0}, Turn: 30, Mirror: true}, "",
			[]string{"  R4: odd at 29 in, 0 in, turned 30, mirrored"}},
		{"an old one against a side", jobfile.Move{Do: "set", ID: "A", Kind: "big", At: &[2]float64{-25.4, 0}}, "",
			[]string{"  A: big at -11 3/8 in, 0 in   # first"}},
		{"nudged", jobfile.Move{Do: "nudge", IDs: ids("A"), Marks: [2]int{3, 0}}, "",
			[]string{"  A: big at 3/16 in, 0 in   # first"}},
		{"nudged along a side, its loop is given up", jobfile.Move{Do: "nudge", IDs: ids("C"), Marks: [2]int{0, 2}}, "",
			[]string{"  C: big side 6 on A side 3, shifted 1/8 in"}},
		{"turned", jobfile.Move{Do: "turn", IDs: ids("B1"), Steps: -1}, "",
			[]string{"  B1: big side 6 on A side 4", "  C: big side 6 on A side 3"}},
		{"mirrored", jobfile.Move{Do: "mirror", IDs: ids("C")}, "", []string{"  C: big side 6 on A side 3, mirrored"}},
		{"copied", jobfile.Move{Do: "copy", IDs: ids("B1 R1"), By: &[2]float64{254, 0}}, "",
			[]string{"  B2: big at 10 in, 457.2", "  R4: odd side 1 on B2 side 3"}},
		{"a copy goes its own way", jobfile.Move{Do: "nudge", IDs: ids("D2"), Marks: [2]int{16, 0}}, "D1, D2",
			[]string{"  D2: big at 101 in", "  - A as D1, moved by 100, 0"}},
		{"one of a row is taken", jobfile.Move{Do: "takeaway", IDs: ids("R2")}, "R1..R3",
			[]string{"  R1: odd side 1 on B1 side 3   # a row", "  R3: odd at "}},
		{"one with hooks, a loop and a copy is taken", jobfile.Move{Do: "takeaway", IDs: ids("B1")}, "B1 B1, R1..R3 fixing hooks",
			[]string{"  R1: odd at ", "  R2: odd side 1 on R1 side 3", "  R3: odd side 1 on R2 side 3", "  C: big side 6 on A side 3", "  D2: big at 100 in", "  - A as D1, moved by 100, 0"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := moved(t, []byte(moveJob), c.move)
			have := strings.Split(string(got.Text), "\n")
			for _, want := range c.new {
				if !slices.ContainsFunc(have, func(l string) bool { return strings.HasPrefix(l, want) }) {
					t.Errorf("no line %q", want)
				}
			}
			if t.Failed() {
				t.Logf("%s", got.Text)
			}
		})
	}
}

func TestMovesThatCannotBe(t *testing.T) {
	for name, m := range map[string]jobfile.Move{
		"no such move":     {Do: "juggle"},
		"none chosen":      {Do: "turn"},
		"none there":       {Do: "turn", IDs: []string{"Z"}},
		"no kind":          {Do: "set", Kind: "none", At: &[2]float64{}},
		"nowhere":          {Do: "set", Kind: "odd"},
		"not there":        {Do: "set", ID: "Z", Kind: "odd", At: &[2]float64{}},
		"on to itself":     {Do: "set", ID: "A", Hold: &jobfile.Hold{Side: 1, To: "A", ToSide: 1}},
		"on to its own":    {Do: "set", ID: "A", Hold: &jobfile.Hold{Side: 1, To: "R3", ToSide: 1}},
		"another kind":     {Do: "set", ID: "A", Kind: "odd", At: &[2]float64{}},
		"no such side":     {Do: "set", Kind: "odd", Hold: &jobfile.Hold{Side: 5, To: "A", ToSide: 1}},
		"nor there":        {Do: "set", Kind: "odd", Hold: &jobfile.Hold{Side: 1, To: "A", ToSide: 7}},
		"no such way":      {Do: "set", Kind: "odd", Hold: &jobfile.Hold{Side: 1, To: "A", ToSide: 2, Align: "near"}},
		"too far":          {Do: "set", Kind: "odd", At: &[2]float64{1e12, 0}},
		"no number":        {Do: "set", Kind: "odd", At: &[2]float64{math.NaN(), 0}},
		"shifted too far":  {Do: "set", Kind: "odd", Hold: &jobfile.Hold{Side: 1, To: "A", ToSide: 2, Shift: 1e15}},
		"nudged too far":   {Do: "nudge", IDs: []string{"A"}, Marks: [2]int{math.MinInt, 0}},
		"into the side":    {Do: "nudge", IDs: []string{"B1"}, Marks: [2]int{0, 1}},
		"copied too far":   {Do: "copy", IDs: []string{"A"}, By: &[2]float64{1e9, 0}},
		"all in one place": {Do: "set", Kind: "odd", Hold: &jobfile.Hold{Side: 1, To: "", ToSide: 2}},
	} {
		_, err := jobfile.MoveFrames([]byte(moveJob), floorSeen(t, []byte(moveJob)), m)
		var c *jobfile.CannotMoveError
		if !errors.As(err, &c) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The last frame can be taken, and another set down where none is.
func TestEmptyFloor(t *testing.T) {
	text := []byte(strings.ReplaceAll(moveJob, "\n", "\r\n"))
	f := floorSeen(t, text)
	var all []string
	for _, q := range f.Frames {
		all = append(all, q.ID)
	}
	text = moved(t, text, jobfile.Move{Do: "takeaway", IDs: all}).Text
	if f = floorSeen(t, text); len(f.Frames) != 0 {
		t.Fatalf("left: %+v", f.Frames)
	}
	if strings.Contains(string(text), "layout:") || strings.Contains(string(text), "copies:") || strings.Contains(string(text), "fixing:") {
		t.Errorf("groups of nothing are left:\n%s", text)
	}
	for range 2 {
		text = moved(t, text, jobfile.Move{Do: "set", Kind: "odd", At: &[2]float64{500, 0}}).Text
	}
	if f = floorSeen(t, text); len(f.Frames) != 2 || strings.Count(string(text), "\r\n") != strings.Count(string(text), "\n") {
		t.Errorf("%d frames:\n%q", len(f.Frames), text)
	}
}

func exampleTexts(t testing.TB) [][]byte {
	t.Helper()
	out := [][]byte{[]byte(moveJob)}
	for _, name := range []string{"thistle-wall", "hop-lane", "lantern-gate"} {
		text, err := os.ReadFile("../examples/" + name + ".yaml")
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, text)
	}
	return out
}

// anyMove draws a move that makes sense as far as names go.
func anyMove(t *rapid.T, f job.FloorFacts) jobfile.Move {
	var ids []string
	for _, q := range f.Frames {
		ids = append(ids, q.ID)
	}
	some := rapid.SliceOfNDistinct(rapid.SampledFrom(ids), 1, min(4, len(ids)), rapid.ID[string])
	far := rapid.Float64Range(-3000, 3000)
	switch m := (jobfile.Move{Do: rapid.SampledFrom(jobfile.Moves).Draw(t, "do")}); m.Do {
	case "set":
		k := rapid.SampledFrom(f.Kinds).Draw(t, "kind")
		m.Kind = k.Name
		if rapid.Bool().Draw(t, "old") {
			q := rapid.SampledFrom(f.Frames).Draw(t, "frame")
			m.ID, m.Kind = q.ID, q.Kind
		}
		if m.Mirror = rapid.Bool().Draw(t, "mirror"); rapid.Bool().Draw(t, "hold") {
			m.Hold = &jobfile.Hold{Side: rapid.IntRange(1, len(k.Sides)).Draw(t, "side"), To: rapid.SampledFrom(ids).Draw(t, "to"),
				ToSide: rapid.IntRange(1, 3).Draw(t, "toSide"), Align: rapid.SampledFrom([]string{"", "flush at start", "flush at end"}).Draw(t, "align"), Shift: far.Draw(t, "shift") / 30}
			return m
		}
		m.At, m.Turn = &[2]float64{far.Draw(t, "x"), far.Draw(t, "y")}, rapid.Float64Range(-400, 400).Draw(t, "turn")
		return m
	case "nudge":
		m.IDs, m.Marks = some.Draw(t, "ids"), [2]int{rapid.IntRange(-20, 20).Draw(t, "dx"), rapid.IntRange(-20, 20).Draw(t, "dy")}
		return m
	case "turn":
		m.IDs, m.Steps = some.Draw(t, "ids"), rapid.IntRange(-13, 13).Draw(t, "steps")
		return m
	case "copy":
		m.IDs = some.Draw(t, "ids")
		if rapid.Bool().Draw(t, "by") {
			m.By = &[2]float64{far.Draw(t, "bx"), far.Draw(t, "by")}
		}
		return m
	default:
		m.IDs = some.Draw(t, "ids")
		return m
	}
}

// unchanged tells which lines of a text are about none of the frames: they must be
// in the new text, in order.
func unchanged(old []byte, ids []string) []string {
	var out []string
	for line := range strings.Lines(string(old)) {
		mine := false
		words := strings.FieldsFunc(line, func(c rune) bool { return strings.ContainsRune(" ,:[]{}\n\r", c) })
		for _, w := range words {
			mine = mine || slices.Contains(ids, w) || strings.Contains(w, "..")
		}
		switch strings.TrimSpace(line) { // may be left empty
		case "layout:", "copies:", "fixing:", "hooks:", "seams:":
			mine = true
		}
		if !mine {
			out = append(out, line)
		}
	}
	return out
}

// After any row of moves the file still reads, every frame is there once, and
// lines about other frames are as they were.
func TestAnyMoves(t *testing.T) {
	texts := append(exampleTexts(t), slices.Repeat([][]byte{[]byte(moveJob)}, 9)...) // the small one is quick
	rapid.Check(t, func(rt *rapid.T) {
		text := slices.Clone(rapid.SampledFrom(texts).Draw(rt, "text"))
		for range 3 {
			f := floorSeen(t, text)
			if len(f.Frames) == 0 {
				return
			}
			m := anyMove(rt, f)
			out, err := jobfile.MoveFrames(text, f, m)
			var c *jobfile.CannotMoveError
			if errors.As(err, &c) {
				continue
			}
			if err != nil {
				rt.Fatal(err)
			}
			if _, _, snags := jobfile.Read(out.Text, "job", nil, ""); snags.Stops() {
				rt.Fatalf("%+v: %v\n%s", m, snags, out.Text)
			}
			at := 0
			for _, line := range unchanged(text, out.IDs) {
				i := strings.Index(string(out.Text[at:]), line)
				if i < 0 {
					rt.Fatalf("%+v changes %v, and the line %q is not as it was:\n%s", m, out.IDs, line, out.Text)
				}
				at += i + len(line)
			}
			after := floorSeen(t, out.Text)
			want := len(f.Frames) + len(out.New)
			if m.Do == "takeaway" {
				want -= len(m.IDs)
			}
			if len(after.Frames) != want {
				rt.Fatalf("%+v: %d frames, want %d\n%s", m, len(after.Frames), want, out.Text)
			}
			text = out.Text
		}
	})
}

// where is where frames are in the job file's own coordinates.
func where(f job.FloorFacts) map[string]string {
	out := map[string]string{}
	for _, q := range f.Frames {
		s := ""
		for _, p := range q.Outline {
			s += fmt.Sprintf(" %.2f,%.2f", p[0]-f.Origin[0]+0.001, p[1]-f.Origin[1]+0.001)
		}
		out[q.ID] = s
	}
	return out
}

// A nudge and a nudge back give the layout that was.
func TestNudgeAndBack(t *testing.T) {
	texts := append(exampleTexts(t), slices.Repeat([][]byte{[]byte(moveJob)}, 9)...) // the small one is quick
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(rt, "text")
		f := floorSeen(t, text)
		m := anyMove(rt, f)
		if m.Do = "nudge"; len(m.IDs) == 0 {
			m.IDs = []string{f.Frames[0].ID}
		}
		m.Marks = [2]int{rapid.IntRange(-20, 20).Draw(rt, "mx"), rapid.IntRange(-20, 20).Draw(rt, "my")}
		there, err := jobfile.MoveFrames(text, f, m)
		if err != nil {
			return
		}
		m.Marks = [2]int{-m.Marks[0], -m.Marks[1]}
		back, err := jobfile.MoveFrames(there.Text, floorSeen(t, there.Text), m)
		if err != nil {
			rt.Fatal(err)
		}
		before, after := where(f), where(floorSeen(t, back.Text))
		for id, at := range before {
			if after[id] != at {
				rt.Fatalf("%v nudged by %v and back: %s is at%s, was at%s", m.IDs, m.Marks, id, after[id], at)
			}
		}
	})
}

// What held on to a frame that is taken stays where it was.
func TestTakenAwayLeavesTheOthers(t *testing.T) {
	for _, text := range exampleTexts(t) {
		f := floorSeen(t, text)
		for _, q := range f.Frames {
			out, err := jobfile.MoveFrames(text, f, jobfile.Move{Do: "takeaway", IDs: []string{q.ID}})
			var c *jobfile.CannotMoveError
			if errors.As(err, &c) {
				continue // named by the dressing
			}
			if err != nil {
				t.Fatal(err)
			}
			after := floorSeen(t, out.Text)
			if len(after.Frames) != len(f.Frames)-1 {
				t.Fatalf("%s taken: %d of %d are left", q.ID, len(after.Frames), len(f.Frames))
			}
			before := map[string]job.XY{}
			for _, r := range f.Frames {
				before[r.ID] = job.XY{r.Centre[0] - f.Origin[0], r.Centre[1] - f.Origin[1]}
			}
			for _, r := range after.Frames {
				dx, dy := r.Centre[0]-after.Origin[0]-before[r.ID][0], r.Centre[1]-after.Origin[1]-before[r.ID][1]
				if off := math.Hypot(dx, dy); off > 2*f.Gap+2 { // a loop may be off by two gaps and the joint tolerance, a shift by half a mark
					t.Errorf("%s taken: %s is %.3f mm off", q.ID, r.ID, off)
				}
			}
		}
	}
}
