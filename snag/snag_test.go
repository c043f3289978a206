package snag

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var testKind = Kind{"unknown-frame", "A name that no frame of the job has."}

func at(file string, line, column int, path string) Snag {
	return testKind.At(Place{file, line, column, path}, "hexgon", "no frame has this name", "write hexagon")
}

func TestKindAt(t *testing.T) {
	s := at("a.yaml", 3, 5, "layout.B3")
	if s.Code != "unknown-frame" || s.Severity != Stop || s.Value != "hexgon" || s.Place.Path != "layout.B3" {
		t.Errorf("got %+v", s)
	}
}

func TestSort(t *testing.T) {
	want := List{
		at("a.yaml", 1, 9, ""),
		at("a.yaml", 2, 1, ""),
		at("a.yaml", 2, 4, "a"),
		at("a.yaml", 2, 4, "b"),
		at("a.yaml", 0, 0, "layout.A"), // no line: after those with one
		at("a.yaml", 0, 0, "layout.B"),
		at("b.yaml", 1, 1, ""),
	}
	rapid.Check(t, func(t *rapid.T) {
		got := List(rapid.Permutation(want).Draw(t, "order"))
		got.Sort()
		if !slices.Equal(got, want) {
			t.Fatalf("sorted to %+v", got)
		}
	})
}

func TestStops(t *testing.T) {
	var l List
	if l.Stops() {
		t.Error("an empty list stops")
	}
	note := at("a.yaml", 1, 1, "")
	note.Severity = Note
	if l.Add(note); l.Stops() {
		t.Error("a note stops")
	}
	if l.Add(at("a.yaml", 2, 1, ""), note); !l.Stops() || len(l) != 3 {
		t.Error("a snag among notes does not stop")
	}
}

func TestJSON(t *testing.T) {
	note := Snag{Code: "near-miss", Severity: Note, Problem: "two sides nearly touch"}
	for _, c := range []struct {
		l    List
		want string
	}{
		{nil, `[]`},
		{List{at("a.yaml", 3, 5, "layout.B3")}, `[{"code":"unknown-frame","severity":"stop","place":{"file":"a.yaml","line":3,"column":5,"path":"layout.B3"},"value":"hexgon","problem":"no frame has this name","remedy":"write hexagon"}]`},
		{List{note}, `[{"code":"near-miss","severity":"note","place":{},"problem":"two sides nearly touch"}]`},
	} {
		got, err := json.Marshal(c.l)
		if err != nil || string(got) != c.want {
			t.Errorf("got %s, %v; want %s", got, err, c.want)
		}
	}
}

func TestMerge(t *testing.T) {
	a, b := Kind{"a-1", "First."}, Kind{"b", "Second | of two."}
	got, err := Merge([]Kind{b}, nil, []Kind{a})
	if err != nil || !slices.Equal(got, []Kind{a, b}) {
		t.Fatalf("merged to %v, %v", got, err)
	}
	page := Markdown(got)
	if i, j := strings.Index(page, "| `a-1` | First. |\n"), strings.Index(page, "| `b` | Second \\| of two. |\n"); i < 0 || j < i {
		t.Errorf("the page lacks a row or its order:\n%s", page)
	}
	for _, bad := range [][]Kind{
		{a, a}, {{"", "No code."}}, {{"Upper-Case", "m"}}, {{"two--hyphens", "m"}}, {{"-lead", "m"}}, {{"a_b", "m"}}, {{"no-meaning", " "}},
	} {
		if _, err := Merge(bad); err == nil {
			t.Errorf("%v is accepted", bad)
		}
	}
}

func TestDidYouMean(t *testing.T) {
	words := []string{"hexagon", "house", "kite", "diamond", "on", "flats", "points"}
	for word, want := range map[string]string{
		"hexagon":  "hexagon",
		"hexgon":   "hexagon", // a letter missing
		"hexaggon": "hexagon", // one too many
		"hexegon":  "hexagon", // one wrong
		"heaxgon":  "hexagon", // two swapped
		"HEXAGON":  "hexagon",
		"ihexagno": "hexagon", // two slips in eight letters
		"hxgn":     "",        // three slips
		"kit":      "kite",
		"ki":       "", // two letters missing of two
		"no":       "on",
		"n":        "",
		"":         "",
		"octagon":  "",
		"flat":     "flats",
	} {
		if got := DidYouMean(word, words); got != want {
			t.Errorf("%q is taken for %q, want %q", word, got, want)
		}
	}
	if got := DidYouMean("cat", []string{"car", "bat", "cat"}); got != "cat" {
		t.Errorf("the exact word loses to %q", got)
	}
	if got := DidYouMean("cat", []string{"car", "bat"}); got != "car" {
		t.Errorf("of equals the earlier loses to %q", got)
	}
}

// slipsSlowly is the definition itself, without a table: the oracle of slips.
func slipsSlowly(a, b []rune) int {
	switch {
	case len(a) == 0:
		return len(b)
	case len(b) == 0:
		return len(a)
	}
	i, j := len(a)-1, len(b)-1
	wrong := 1
	if a[i] == b[j] {
		wrong = 0
	}
	best := min(slipsSlowly(a[:i], b)+1, slipsSlowly(a, b[:j])+1, slipsSlowly(a[:i], b[:j])+wrong)
	if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
		best = min(best, slipsSlowly(a[:i-1], b[:j-1])+1)
	}
	return best
}

func TestSlipsAgainstDefinition(t *testing.T) {
	word := rapid.StringMatching(`[abc]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := []rune(word.Draw(t, "a")), []rune(word.Draw(t, "b"))
		if got, want := slips(a, b), slipsSlowly(a, b); got != want {
			t.Fatalf("%q to %q is %d, want %d", string(a), string(b), got, want)
		}
	})
}
