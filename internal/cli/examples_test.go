package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"bowerwright/drawing/pdf"
	"bowerwright/job"
	"bowerwright/jobfile"
	"bowerwright/packet"
)

// examples plans every example job, by file name.
func examples(t testing.TB) map[string]job.Result {
	t.Helper()
	names, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal("no examples", err)
	}
	out := map[string]job.Result{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		spec, _, snags := jobfile.Read(text, name, nil, "")
		r, more, err := job.Plan(context.Background(), spec, job.BuiltIn())
		if err != nil || snags.Stops() || more.Stops() {
			t.Fatal(name, err, snags, more)
		}
		out[filepath.Base(name)] = r
	}
	return out
}

// Together the examples show what the program is for.
func TestExamplesCoverWhatTheyShould(t *testing.T) {
	shows, lengths := map[string]bool{}, map[float64]bool{} // mm
	for name, r := range examples(t) {
		if n := r.Overall.FrameCount; n < 12 || n > 40 {
			t.Errorf("%s has %d frames", name, n)
		}
		for _, b := range r.Timber {
			if !b.Levels.Cost.Rechecked || !b.Levels.Boards.Rechecked {
				t.Errorf("%s: %s %s: %s", name, b.Name, b.Laid, b.Claim)
			}
			shows["more than lengths alone"] = shows["more than lengths alone"] || b.ByLength < b.Buy+b.FromHand
			shows[b.Laid] = true
			for _, t := range b.Stocks {
				if t.Buy > 0 {
					lengths[t.Length.MM] = true
				}
				shows["offcut on hand"] = shows["offcut on hand"] || t.OnHand && t.Used > 0
				shows["knot"] = shows["knot"] || len(t.Spans) > 0 && t.Used > 0
			}
			shows["turning saves"] = shows["turning saves"] || b.Unturned != nil && (b.Unturned.Buy > b.Buy || b.Unturned.CostMinor > b.CostMinor)
		}
		for _, k := range r.Kinds {
			shows["odd"] = shows["odd"] || k.Sides%2 == 1 && !k.Open
			shows[k.Shape] = true
			for _, p := range k.Parts {
				shows["beyond the saw"] = shows["beyond the saw"] || p.Rough != nil
			}
			for _, c := range k.Corners {
				shows["non-convex"] = shows["non-convex"] || c.Setting.Degrees < 0
			}
		}
		for _, s := range r.Seams {
			shows["shared"] = shows["shared"] || s.FlushBoth
			shows["shifted"] = shows["shifted"] || !s.FlushBoth
		}
		shows["corner only"] = shows["corner only"] || len(r.Touches) > 0
		// More seams than a tree of frames has: a loop that closes.
		shows["loop"] = shows["loop"] || len(r.Seams) >= r.Overall.FrameCount
		shows[r.Job.Show] = true
		for _, s := range r.Fixing.Seams {
			shows[s.Method], shows["site seam"] = true, shows["site seam"] || s.Site
		}
		shows["hooks"] = shows["hooks"] || len(r.Fixing.Hooks) > 0
		shows["a driver fits one side only"] = shows["a driver fits one side only"] || oneSided(r)
	}
	if len(lengths) < 3 {
		t.Errorf("boards of %d lengths are bought, %v", len(lengths), lengths)
	}
	for _, want := range []string{"a driver fits one side only", "more than lengths alone", "offcut on hand", "knot", "turning saves", "beyond the saw", "screws", "bolts", "site seam", "hooks", "on edge", "flat", "odd", "non-convex", "arch on legs", "ring", "shared", "shifted", "corner only", "loop", "us", "metric"} {
		if !shows[want] {
			t.Errorf("no example shows: %s", want)
		}
	}
}

// oneSided says whether some seam is driven straight from one frame, while in
// frames like the other, room for room, no head is reached straight.
func oneSided(r job.Result) bool {
	kind := map[string]string{}
	for _, f := range r.Frames {
		kind[f.Label] = f.Kind
	}
	tight := map[string]bool{}
	for _, s := range r.Fixing.Seams {
		if s.Tool == "driver at a slant" || s.Tool == "right-angle head" {
			tight[kind[s.Head]] = true
		}
	}
	for _, s := range r.Fixing.Seams {
		if s.Tool == "driver" && tight[kind[s.Into]] && !tight[kind[s.Head]] {
			return true
		}
	}
	return false
}

// result.json fits the schema that is published for it.
func TestResultFitsItsSchema(t *testing.T) {
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(jobfile.ResultSchema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("result.json", doc); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile("result.json")
	if err != nil {
		t.Fatal(err)
	}
	for name, r := range examples(t) {
		r.MadeBy, r.InputSHA256 = "bowerwright test", "0000000000000000000000000000000000000000000000000000000000000000"
		data, err := marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		instance, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(instance); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		// It can fail: a result without its format is refused.
		var broken map[string]any
		if err := json.Unmarshal(data, &broken); err != nil {
			t.Fatal(err)
		}
		delete(broken, "format")
		if schema.Validate(broken) == nil {
			t.Error("a result without a format passes")
		}
	}
}

// The boards of every example hold exactly the parts that its frames need, by
// counting what is printed.
func TestBoardsHoldTheParts(t *testing.T) {
	for name, r := range examples(t) {
		need, have := map[string]int{}, map[string]int{}
		for _, k := range r.Kinds {
			for _, p := range k.Parts {
				need[p.Mark] += p.PerFrame * k.Make
			}
		}
		for _, b := range r.Timber {
			for _, p := range b.Parts {
				need[p.Mark] += p.Spare + p.Reject
				if p.What != "" { // blocks and battens are no parts of frames
					need[p.Mark] += p.Need
				}
			}
			for _, board := range b.Boards {
				for _, p := range board.Parts {
					have[p.Mark] += len(board.Numbers)
				}
				last := board.Parts[len(board.Parts)-1]
				if last.End > b.Length.MM {
					t.Errorf("%s: board %v ends at %.1f of %.1f mm", name, board.Numbers, last.End, b.Length.MM)
				}
			}
		}
		for mark, n := range need {
			if have[mark] != n {
				t.Errorf("%s: %d of %s on boards, %d in frames", name, have[mark], mark, n)
			}
		}
		if math.Abs(float64(len(need)-len(have))) > 0 {
			t.Errorf("%s: boards hold parts that no frame has", name)
		}
	}
}

// BenchmarkPacket draws the whole packet of an example, pictures and all. The
// issue asks for under a second at 20 frames.
func BenchmarkPacket(b *testing.B) {
	for name, r := range examples(b) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := pdf.Write(io.Discard, packet.Build(r, time.Time{})); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
