package job

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"

	"bowerwright/unit"
)

// A Verdict is what came of looking over one timber of a Result that was read.
type Verdict struct {
	Name, Laid string
	Boards     int      // bought and on hand
	Parts      int      // on them
	Wrong      []string // what is not as it should be, with its place in the file
	Followed   []string // levels whose proof was followed to its end
	Open       []string // levels that claim something whose proof could not be followed
}

// Verify looks the cutting of a Result over that was read from a file: every
// order against parts and counts elsewhere in it, every plan and its proofs by
// the checker, which did not make them, and every figure of the papers by
// working it out again from order and plan. wrong lists what is not right
// outside the timbers. It trusts nothing that the Result says of itself.
func Verify(r Result) (verdicts []Verdict, wrong []string) {
	for i, f := range r.Timber {
		v := VerifyTimber(f, fmt.Sprintf("timber[%d]", i), r.Job.Show, r.Job.Finest)
		v.Wrong = append(v.Wrong, r.kindsAgree(f)...)
		v.Wrong = append(v.Wrong, benchAgrees(fmt.Sprintf("timber[%d]", i), f)...)
		if r.Saw.Kerf != f.Kerf || r.Saw.Hold != f.Hold || r.Saw.Clamp != f.Clamp {
			v.Wrong = append(v.Wrong, "saw: kerf, hold or clamp are not those of the boards")
		}
		verdicts = append(verdicts, v)
	}
	return verdicts, append(r.countsAgree(), sizesRead(r)...)
}

// VerifyTimber looks over one timber, whose place in its file is path; show and
// finest are the job's, which its texts are written by.
func VerifyTimber(f TimberFacts, path, show, finest string) Verdict {
	v := Verdict{Name: f.Name, Laid: f.Laid, Boards: f.Buy + f.FromHand}
	bad := func(err error) Verdict {
		for _, line := range strings.Split(err.Error(), "\n") {
			v.Wrong = append(v.Wrong, path+": "+line)
		}
		return v
	}
	s, err := stackOf(f)
	if err != nil {
		return bad(err)
	}
	ways, unturned, err := waysRead(s, f)
	if err != nil {
		return bad(err)
	}
	mark, _ := unit.ParseLength(finest, unit.NoUnit)
	c := cutter{newScribe(Spec{Show: show, Mark: mark})}
	if f.Cutting != FewestBoards && f.Cutting != FewestChanges {
		return bad(fmt.Errorf("cutting is %q", f.Cutting))
	}
	again := c.facts(s, ways, unturned)
	differ(path, reflect.ValueOf(f), reflect.ValueOf(again), &v.Wrong)
	for _, q := range s.sticks {
		v.Parts += q.saw()
	}
	v.levels(f.Levels)
	return v
}

// levels sorts the levels by whether their proof was followed.
func (v *Verdict) levels(l LevelsFacts) {
	for _, x := range []struct {
		name string
		LevelFacts
	}{{"cost", l.Cost}, {"boards", l.Boards}, {"longest offcut", l.Offcut}} {
		switch {
		case x.Rechecked:
			v.Followed = append(v.Followed, x.name+" "+x.Text+": "+x.Says)
		case x.Proof != noProof:
			v.Open = append(v.Open, x.name+" "+x.Text+": "+x.Says)
		}
	}
}

// noProof is the proof of a bound that says nothing.
const noProof = "none"

// differ says where what was read is not what comes of working it out again.
// It stops after a few: one change may move much.
func differ(path string, read, again reflect.Value, out *[]string) {
	if len(*out) >= mostWrong {
		return
	}
	switch read.Kind() {
	case reflect.Struct:
		for i := range read.NumField() {
			name, _, _ := strings.Cut(read.Type().Field(i).Tag.Get("json"), ",")
			differ(path+"."+name, read.Field(i), again.Field(i), out)
		}
	case reflect.Slice:
		if read.Len() != again.Len() {
			*out = append(*out, fmt.Sprintf("%s has %d entries; order and plan give %d", path, read.Len(), again.Len()))
			return
		}
		for i := range read.Len() {
			differ(fmt.Sprintf("%s[%d]", path, i), read.Index(i), again.Index(i), out)
		}
	case reflect.Pointer:
		if read.IsNil() || again.IsNil() {
			if read.IsNil() != again.IsNil() {
				*out = append(*out, path+" is there and should not be, or the other way round")
			}
			return
		}
		differ(path, read.Elem(), again.Elem(), out)
	case reflect.Array:
		for i := range read.Len() {
			differ(fmt.Sprintf("%s[%d]", path, i), read.Index(i), again.Index(i), out)
		}
	default:
		if !read.Equal(again) {
			*out = append(*out, fmt.Sprintf("%s is %v; order and plan give %v", path, read, again))
		}
	}
}

// mostWrong is how many differences of a timber are told.
const mostWrong = 12

// kindsAgree checks the parts of a timber against those of the frames: each
// part once, as often as it is counted there, as long and with the same ends.
func (r Result) kindsAgree(f TimberFacts) (wrong []string) {
	type seen struct{ order, frames bool }
	marks := map[string]*seen{}
	exact := map[string]ExactPart{}
	need := map[string]int{}
	for i, x := range f.Order.Parts {
		if i < len(f.Parts) && f.Parts[i].Kind != "" {
			marks[x.Mark], exact[x.Mark], need[x.Mark] = &seen{order: true}, x, f.Parts[i].Need
		}
	}
	for i, k := range r.Kinds {
		if k.Timber != f.Name || k.Laid != f.Laid {
			continue
		}
		for j, q := range k.Parts {
			path := fmt.Sprintf("kinds[%d].parts[%d]", i, j)
			x, ok := exact[q.Mark]
			if !ok {
				wrong = append(wrong, fmt.Sprintf("%s: no part %s is in the order of %s", path, q.Mark, f.Name))
				continue
			}
			marks[q.Mark].frames = true
			wrong = append(wrong, partAgrees(path, q, x, need[q.Mark], k)...)
		}
	}
	for mark, s := range marks {
		if s.order && !s.frames {
			wrong = append(wrong, fmt.Sprintf("part %s of %s belongs to no frame", mark, f.Name))
		}
	}
	return wrong
}

func partAgrees(path string, q PartFacts, x ExactPart, need int, k KindFacts) (wrong []string) {
	say := func(ok bool, format string, args ...any) {
		if !ok {
			wrong = append(wrong, path+": "+fmt.Sprintf(format, args...))
		}
	}
	w := scribe{}
	say(q.Count == need, "%d of %s are wanted, %d are sawn for use", q.Count, q.Mark, need)
	say(q.PerFrame == len(q.Sides) && q.Count == q.PerFrame*k.Make, "%d of %s, %d sides of %d frames", q.Count, q.Mark, len(q.Sides), k.Make)
	say(q.Outside.MM == micro(x.Outside.MM()), "outside %g mm, in the order %g mm", q.Outside.MM, micro(x.Outside.MM()))
	say(q.First.Setting == w.angle(unit.FromDegrees(x.First)), "first end %s, in the order %g degrees", q.First.Setting.Text, x.First)
	say(q.Second.Setting == w.angle(unit.FromDegrees(x.Second)), "second end %s, in the order %g degrees", q.Second.Setting.Text, x.Second)
	rough := 0.0
	if q.Rough != nil {
		rough = q.Rough.MM
	}
	say(rough == micro(x.Rough.MM()), "rough length %g mm, in the order %g mm", rough, x.Rough.MM())
	return wrong
}

// countsAgree checks the counts of the whole job.
func (r Result) countsAgree() (wrong []string) {
	say := func(ok bool, format string, args ...any) {
		if !ok {
			wrong = append(wrong, fmt.Sprintf(format, args...))
		}
	}
	boards, parts, placed := 0, 0, map[string]int{}
	for _, f := range r.Timber {
		boards += f.Buy
		for _, q := range f.Parts {
			if len(r.Kinds) == 0 { // a bare list: its parts are counted as sawn
				parts += q.Saw
			}
		}
	}
	for _, f := range r.Frames {
		placed[f.Kind]++
	}
	for i, k := range r.Kinds {
		for _, q := range k.Parts {
			parts += q.Count
		}
		say(k.Placed == placed[k.Name] && k.Make >= k.Placed, "kinds[%d]: %d placed, the list of frames has %d", i, k.Placed, placed[k.Name])
		cut := 0
		for _, f := range r.Timber {
			if f.Name == k.Timber && f.Laid == k.Laid {
				cut++
			}
		}
		say(cut == 1, "kinds[%d]: %s laid %s is cut %d times over", i, k.Timber, k.Laid, cut)
	}
	say(boards == r.Overall.BoardCount, "overall.board_count is %d; %d are bought", r.Overall.BoardCount, boards)
	say(parts == r.Overall.PartCount, "overall.part_count is %d; the frames have %d", r.Overall.PartCount, parts)
	say(len(r.Frames) == r.Overall.FrameCount, "overall.frame_count is %d; %d are listed", r.Overall.FrameCount, len(r.Frames))
	say(len(r.Seams) == r.Overall.SeamCount, "overall.seam_count is %d; %d are listed", r.Overall.SeamCount, len(r.Seams))
	return wrong
}

// sizesRead checks of every length of the Result that what is written is what
// it measures, to half the coarsest mark that lengths are written to.
func sizesRead(r Result) (wrong []string) {
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		if s, ok := v.Interface().(Size); ok {
			if s != (Size{}) && len(wrong) < mostWrong && !(readsBack(s.US, s.MM, unit.Inch/16) && readsBack(s.Metric, s.MM, unit.Millimetre)) {
				wrong = append(wrong, fmt.Sprintf("%s: %g mm is written %q and %q", path, s.MM, s.US, s.Metric))
			}
			return
		}
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
				walk(v.Field(i), strings.TrimPrefix(path+"."+name, "."))
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i), fmt.Sprintf("%s[%d]", path, i))
			}
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem(), path)
			}
		}
	}
	walk(reflect.ValueOf(r), "")
	return wrong
}

// readsBack says whether a text is a length in mm to half a mark, or less when
// it says so. A limit is written on the side that works, up to a mark away.
func readsBack(text string, mm float64, mark unit.Length) bool {
	least, under := strings.CutPrefix(text, "under ")
	l, err := unit.ParseLength(least, unit.NoUnit)
	if err != nil {
		return false
	}
	if under {
		return math.Abs(mm) < l.MM()
	}
	return math.Abs(l.MM()-mm) <= mark.MM()+1e-3
}

// Seal tells a Result apart from any other: a changed digit shows even where
// nothing follows from it. It is set when the Result is written.
func Seal(r Result) string {
	r.Seal = ""
	return sealOf(r)
}

// seal does the same for the facts of a timber.
func seal(f TimberFacts) string {
	f.Seal = ""
	return sealOf(f)
}

func sealOf(v any) string {
	data, err := json.Marshal(v)
	if err != nil {
		return "" // a number that is none: nothing that was made here
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
