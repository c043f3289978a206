package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"
)

// readBack is a Result as whoever reads the file gets it.
func readBack(t *testing.T, data []byte) (r Result, ok bool) {
	t.Helper()
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	return r, d.Decode(&r) == nil
}

// found says whether Verify finds anything wrong.
func found(r Result) (out []string) {
	verdicts, out := Verify(r)
	for _, v := range verdicts {
		out = append(out, v.Wrong...)
	}
	return out
}

// Whatever job is worked out, its Result stands up when it is read back, with
// every proof that is called re-checked followed again.
func TestVerifyFindsNothingWrong(t *testing.T) {
	specs := variety()
	specs["stocks"] = stocked()
	changes := stocked()
	changes.Cutting = FewestChanges
	specs["changes"] = changes
	for name, s := range specs {
		t.Run(name, func(t *testing.T) {
			r, ok := readBack(t, []byte(text(t, worked(t, s))))
			if !ok {
				t.Fatal("it does not read back")
			}
			verdicts, wrong := Verify(r)
			for i, v := range verdicts {
				wrong = append(wrong, v.Wrong...)
				if l := r.Timber[i].Levels; l.Boards.Rechecked && len(v.Followed) == 0 {
					t.Errorf("%+v", v)
				}
				if v.Boards != r.Timber[i].Buy+r.Timber[i].FromHand || v.Parts == 0 {
					t.Errorf("%d boards, %d parts", v.Boards, v.Parts)
				}
			}
			for _, w := range wrong {
				t.Error(w)
			}
		})
	}
}

// stocked is a job with two kinds, one of unlike ends, from two lengths and what
// is on hand.
func stocked() Spec {
	s := spec("H = house: width 30, eaves 33, ridge 50", "Q = square: side 14, spare 1", "H1 at 0 0", "Q1 at 90 0")
	usd := func(foot int, cents int64, most int) StockLength {
		return StockLength{Length: unit.Length(foot) * unit.Foot, PriceMinor: cents, Currency: "USD", Most: most}
	}
	s.Timber[0].Length = 0
	s.Timber[0].Lengths = []StockLength{usd(8, 449, 0), usd(10, 580, 1)}
	s.Timber[0].OnHand = []HandBoard{{Count: 2, Length: 41 * unit.Inch},
		{Count: 1, Length: 60 * unit.Inch, Spans: [][2]unit.Length{{20 * unit.Inch, 22 * unit.Inch}}}}
	s.Timber[0].SpareParts, s.Timber[0].Reject = 1, 5
	return s
}

// Every number that is changed in what a timber is cut from and how, and every
// count of parts, is found: each kind of field several times over.
func TestVerifyFindsAChangedNumber(t *testing.T) {
	data := []byte(text(t, worked(t, stocked())))
	var tree map[string]any
	if err := json.Unmarshal(data, &tree); err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewSource(1))
	places := map[string][]leaf{}
	for _, root := range []string{"timber"} {
		leaves(tree[root], root, places)
	}
	tried := 0
	for _, field := range slices.Sorted(maps.Keys(places)) {
		for range 1 + strings.Count(field, ".plan.") {
			l := places[field][rng.Intn(len(places[field]))]
			old := l.get()
			l.set(changed(old))
			out, err := json.Marshal(tree)
			if err != nil {
				t.Fatal(err)
			}
			l.set(old)
			tried++
			if r, ok := readBack(t, out); ok && len(found(r)) == 0 {
				t.Errorf("%s from %v to %v is not found", field, old, changed(old))
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d changes were tried", tried)
	}
	for _, w := range found(mustRead(t, tree)) {
		t.Errorf("put back, it has still: %s", w)
	}
}

func mustRead(t *testing.T, tree any) Result {
	t.Helper()
	data, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	r, ok := readBack(t, data)
	if !ok {
		t.Fatal("it does not read back")
	}
	return r
}

// A leaf is a place of a tree that holds a number, a text or a switch.
type leaf struct {
	get func() any
	set func(any)
}

// leaves gathers the leaves under a value by field, list places left out.
func leaves(v any, path string, out map[string][]leaf) {
	add := func(path string, child any, get func() any, set func(any)) {
		switch child.(type) {
		case map[string]any, []any:
			leaves(child, path, out)
		case nil:
		default:
			out[path] = append(out[path], leaf{get, set})
		}
	}
	switch v := v.(type) {
	case map[string]any:
		for k, child := range v {
			add(path+"."+k, child, func() any { return v[k] }, func(x any) { v[k] = x })
		}
	case []any:
		for i, child := range v {
			add(path, child, func() any { return v[i] }, func(x any) { v[i] = x })
		}
	}
}

func changed(v any) any {
	switch v := v.(type) {
	case float64:
		return v + 1
	case bool:
		return !v
	}
	return fmt.Sprint(v, "x")
}
