package cli

import (
	"encoding/json"
	"maps"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"bowerwright/job"
)

// wrongWith is what is found wrong with a result that is written as a tree; the
// seal over the whole is not asked, so that what is found is found by itself.
func wrongWith(t *testing.T, tree any) string {
	t.Helper()
	text, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	r, err := readResult(text)
	if err != nil {
		return err.Error()
	}
	verdicts, wrong := job.Verify(r)
	for _, v := range verdicts {
		wrong = append(wrong, v.Wrong...)
	}
	return strings.Join(wrong, "; ")
}

func treeOf(t *testing.T, r job.Result) map[string]any {
	t.Helper()
	text, err := marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var tree map[string]any
	if err := json.Unmarshal(text, &tree); err != nil {
		t.Fatal(err)
	}
	return tree
}

// at walks down a tree by keys and list places.
func at(tree any, path ...any) any {
	for _, p := range path {
		switch p := p.(type) {
		case string:
			tree = tree.(map[string]any)[p]
		case int:
			tree = tree.([]any)[p]
		}
	}
	return tree
}

// What is changed in an example's result is found, each change by a rule that
// does not ask the seals: these are taken out of what was found.
func TestVerifyFindsChanges(t *testing.T) {
	add := func(n float64, path ...any) func(tree any) {
		return func(tree any) {
			last := len(path) - 1
			in := at(tree, path[:last]...)
			switch key := path[last].(type) {
			case string:
				m := in.(map[string]any)
				m[key] = m[key].(float64) + n
			case int:
				l := in.([]any)
				l[key] = l[key].(float64) + n
			}
		}
	}
	drop := func(key string, path ...any) func(tree any) {
		return func(tree any) {
			m := at(tree, path...).(map[string]any)
			m[key] = m[key].([]any)[1:]
		}
	}
	changes := map[string]func(tree any){
		"a count of parts of a frame":   add(1, "kinds", 0, "parts", 0, "count"),
		"a count in the order":          add(1, "timber", 0, "order", "parts", 0, "count"),
		"a count at a stop":             add(1, "timber", 0, "stops", 0, "count"),
		"a count that is wanted":        add(1, "timber", 0, "parts", 0, "need"),
		"a length of a part":            add(1, "kinds", 0, "parts", 0, "outside", "mm"),
		"a length in the order":         add(1e6, "timber", 0, "order", "parts", 0, "outside_nm"),
		"a setting of a part":           add(1, "kinds", 0, "parts", 0, "first_end", "setting", "degrees"),
		"a setting in the order":        add(1, "timber", 0, "order", "parts", 0, "first_end_degrees"),
		"the length of the boards":      add(1e6, "timber", 0, "order", "stocks", 0, "length_nm"),
		"the kerf":                      add(1e5, "timber", 0, "order", "kerf_nm"),
		"the hold":                      add(1e8, "timber", 0, "order", "hold_nm"),
		"a place on a board":            add(1, "timber", 0, "plan", "boards", 0, "parts", 0, "start_mm"),
		"a place in the picture":        add(1, "timber", 0, "boards", 0, "parts", 0, "start_mm"),
		"an offcut":                     add(1e6, "timber", 0, "plan", "boards", 0, "offcut_nm"),
		"boards alike":                  add(1, "timber", 0, "plan", "boards", 0, "times"),
		"a board dropped from the plan": drop("boards", "timber", 0, "plan"),
		"a board dropped from paper":    drop("boards", "timber", 0),
		"a part dropped from a board":   drop("parts", "timber", 0, "plan", "boards", 0),
		"a stop dropped":                drop("stops", "timber", 0),
		"a way dropped":                 drop("ways", "timber", 0),
		"the boards to buy":             add(-1, "timber", 0, "buy"),
		"the boards of the cover":       add(1, "overall", "board_count"),
		"the parts of the cover":        add(1, "overall", "part_count"),
		"the cost":                      add(-1, "timber", 0, "cost_minor"),
		"the price":                     add(-1, "timber", 0, "order", "stocks", 0, "price_minor"),
		"a bound raised":                add(1, "timber", 0, "plan", "bought", "bound"),
		"a bound lowered":               add(-1, "timber", 0, "plan", "bought", "bound"),
		"a bound on paper":              add(1, "timber", 0, "levels", "boards", "bound"),
		"the cost's bound":              add(1, "timber", 0, "plan", "cost", "bound"),
		"the offcut's bound":            add(-1e6, "timber", 0, "plan", "offcut", "bound"),
		"a worth":                       add(1, "timber", 0, "plan", "bought", "rulings", 0, "worth", 0),
		"the worth of all":              add(1, "timber", 0, "plan", "bought", "rulings", 0, "all"),
		"the most of a board":           add(-1, "timber", 0, "plan", "bought", "rulings", 0, "most", 0),
		"a proof dropped":               drop("rulings", "timber", 0, "plan", "bought"),
		"stop settings":                 add(1, "timber", 0, "session", "stop_settings"),
		"settings of another way":       add(1, "timber", 0, "ways", 1, "saw_settings"),
		"what it takes unturned":        add(1, "timber", 0, "unturned", "buy"),
		"a frame placed":                add(1, "kinds", 0, "placed"),
	}
	for name, r := range examples(t) {
		if wrong := wrongWith(t, treeOf(t, r)); wrong != "" {
			t.Errorf("%s as it is: %s", name, wrong)
		}
		for _, what := range slices.Sorted(maps.Keys(changes)) {
			tree := treeOf(t, r)
			changes[what](tree)
			wrong := strings.Split(wrongWith(t, tree), "; ")
			wrong = slices.DeleteFunc(wrong, func(s string) bool { return s == "" || strings.Contains(s, ".seal is ") })
			if len(wrong) == 0 {
				t.Errorf("%s: %s is not found", name, what)
			}
		}
	}
}

// Any number of the whole file, changed by itself, is found by the command.
func TestVerifyFindsAnyNumber(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for name, r := range examples(t) {
		tree := treeOf(t, r)
		var numbers []func(float64)
		gather(tree, &numbers)
		for range 15 {
			i := rng.Intn(len(numbers))
			numbers[i](1)
			text, _ := json.Marshal(tree)
			numbers[i](-1)
			if read, err := readResult(text); err == nil && read.Seal == job.Seal(read) && wrongWith(t, tree) == "" {
				t.Errorf("%s: the change of number %d is not found", name, i)
			}
		}
		text, _ := json.Marshal(tree)
		if read, err := readResult(text); err != nil || read.Seal != job.Seal(read) {
			t.Errorf("%s: put back, it is not what it was: %v", name, err)
		}
	}
}

// gather gives a change for every number of a tree.
func gather(tree any, out *[]func(float64)) {
	switch tree := tree.(type) {
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(tree)) {
			if v, ok := tree[k].(float64); ok {
				*out = append(*out, func(d float64) { tree[k] = v + max(d, 0) })
			}
			gather(tree[k], out)
		}
	case []any:
		for i := range tree {
			if v, ok := tree[i].(float64); ok {
				*out = append(*out, func(d float64) { tree[i] = v + max(d, 0) })
			}
			gather(tree[i], out)
		}
	}
}

// A proof that the checker has not the budget for is no mistake: the verdict
// names it.
func TestVerdictOfOpenProofs(t *testing.T) {
	for _, c := range []struct {
		v    job.Verdict
		want string
	}{
		{job.Verdict{Name: "pine", Laid: "flat", Boards: 2, Parts: 9, Open: []string{"cost 3 USD"}}, "not followed to the end: cost 3 USD"},
		{job.Verdict{Name: "pine", Wrong: []string{"x"}}, "something is wrong"},
	} {
		var b strings.Builder
		(&env{out: &b}).verdict(c.v)
		if !strings.Contains(b.String(), c.want) {
			t.Errorf("%+v reads %q", c.v, b.String())
		}
	}
	if got := are(1, "thing") + ", " + are(2, "thing"); got != "1 thing is, 2 things are" {
		t.Errorf("%q", got)
	}
}
