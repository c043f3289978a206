package job

import (
	"context"
	"math/rand"
	"reflect"
	"slices"
	"strings"
	"testing"

	"bowerwright/unit"
)

// inLong is an inch as a Length.
const inLong = unit.Inch

// shelves is a bare cut list to try things on.
func shelves() CutSpec {
	return CutSpec{
		Spec: Spec{Name: "Shelves", Show: "us", Timber: []Timber{{Name: "pine", Nominal: "1x4", From: "job file",
			Lengths: []StockLength{{Length: 96 * inLong, PriceMinor: 449, Currency: "USD"}, {Length: 120 * inLong, PriceMinor: 580, Currency: "USD", Most: 2}},
			OnHand:  []HandBoard{{Count: 1, Length: 41 * inLong}, {Count: 1, Length: 96 * inLong, Spans: [][2]unit.Length{{31 * inLong, 33 * inLong}}}}}}},
		Parts: []ListPart{
			{Name: "rail", Outside: 345 * inLong / 10, Left: unit.FromDegrees(45), Right: unit.FromDegrees(45), Count: 6, Path: "parts[0]"},
			{Name: "post", Outside: 20 * inLong, Count: 9, Path: "parts[1]"},
			{Name: "stay", Outside: 83 * inLong / 8, Left: unit.FromDegrees(30), Right: unit.FromDegrees(-30), Count: 4, Spare: 1, Path: "parts[2]"},
		},
	}
}

func cutOf(t *testing.T, s CutSpec) Result {
	t.Helper()
	r, snags, err := Cut(context.Background(), s, BuiltIn())
	if err != nil || snags.Stops() {
		t.Fatal(err, snags)
	}
	return r
}

func TestCutCutsEveryPart(t *testing.T) {
	r := cutOf(t, shelves())
	got := map[string]int{}
	for _, b := range r.Timber[0].Boards {
		for _, p := range b.Parts {
			got[p.Mark] += len(b.Numbers)
		}
	}
	if want := map[string]int{"rail": 6, "post": 9, "stay": 5}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if r.Overall.PartCount != 20 || r.Banner != OnlyCut || r.Frames == nil || r.Kinds == nil {
		t.Errorf("%+v", r.Overall)
	}
	for _, a := range r.Assumed {
		if strings.HasPrefix(a.ID, "opening.") || strings.HasPrefix(a.ID, "layout.") || strings.HasSuffix(a.ID, ".species") {
			t.Errorf("a bare list does not rest on %s", a.ID)
		}
	}
	if !slices.ContainsFunc(r.Assumed, func(a AssumedFacts) bool { return a.ID == "cut.kerf" }) {
		t.Error("the kerf is assumed, and not listed")
	}
	l := r.Timber[0].Levels
	if !l.Cost.Rechecked || !l.Boards.Rechecked || l.Cost.Value != r.Timber[0].CostMinor {
		t.Errorf("%+v", l)
	}
}

// The order of the parts, and parts told in several rows, change nothing.
func TestCutOrderChangesNothing(t *testing.T) {
	want := cutOf(t, shelves())
	r := rand.New(rand.NewSource(3))
	for range 8 {
		s := shelves()
		var split []ListPart
		for _, p := range s.Parts {
			n := 1 + r.Intn(p.Count)
			q := p
			p.Count, q.Count = n, p.Count-n
			q.Spare = 0
			split = append(split, p)
			if q.Count > 0 {
				split = append(split, q)
			}
		}
		r.Shuffle(len(split), func(a, b int) { split[a], split[b] = split[b], split[a] })
		s.Parts = split
		if got := cutOf(t, s); !reflect.DeepEqual(got, want) {
			t.Fatalf("with the parts as %+v it is another plan", split)
		}
	}
}

func TestPartsWithoutNames(t *testing.T) {
	s := shelves()
	for i := range s.Parts {
		s.Parts[i].Name = ""
	}
	var marks []string
	for _, p := range cutOf(t, s).Timber[0].Parts {
		marks = append(marks, p.Mark)
	}
	if strings.Join(marks, " ") != "P1 P2 P3" {
		t.Errorf("%v", marks)
	}
}

// Parts without a timber mean the list's own boards before the shop's.
func TestTimberOfParts(t *testing.T) {
	s := shelves()
	s.Timber = append(s.Timber, Timber{Name: "oak", Nominal: "1x6", Length: 96 * inLong, From: "shop file"})
	if r := cutOf(t, s); len(r.Timber) != 1 || r.Timber[0].Name != "pine" {
		t.Errorf("%+v", r.Timber)
	}
	s.Timber[1].From = "job file"
	s.Parts[0].Timber, s.Parts[1].Timber = "pine", "pin"
	_, snags, err := Cut(context.Background(), s, BuiltIn())
	if err != nil || len(snags) != 2 {
		t.Fatal(err, snags)
	}
	for i, want := range []struct{ path, remedy string }{{"parts[1]", "did you mean pine?"}, {"parts[2]", "write the timber: pine, oak"}} {
		if snags[i].Code != "list-timber" || snags[i].Place.Path != want.path || snags[i].Remedy != want.remedy {
			t.Errorf("%+v", snags[i])
		}
	}
}

func TestCutWithoutBoards(t *testing.T) {
	s := shelves()
	s.Timber = nil
	_, snags, err := Cut(context.Background(), s, BuiltIn())
	if err != nil || len(snags) != 1 || snags[0].Code != "timber-missing" || snags[0].Place.Path != "timber" {
		t.Error(err, snags)
	}
}

// An end beyond the saw's reach is planned as a rough length, and said.
func TestSteepEndsOfAList(t *testing.T) {
	s := shelves()
	s.Parts = []ListPart{{Name: "brace", Outside: 20 * inLong, Left: unit.FromDegrees(60), Right: unit.FromDegrees(60), Count: 2, Path: "parts[0]"}}
	r := cutOf(t, s)
	if !r.Timber[0].Stops[0].Rough || len(r.Notes) == 0 || r.Notes[0].Code != "saw-reach" || r.Notes[0].Where != "parts[0]" {
		t.Errorf("%+v, %+v", r.Timber[0].Stops, r.Notes)
	}
}
