package packet

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
	"bowerwright/unit"
)

// bareList is a list of n kinds of part, named by name, on boards of several
// lengths, some on hand.
func bareList(n int, name string) job.CutSpec {
	in := unit.Inch
	s := job.CutSpec{Spec: job.Spec{Name: "Shelves for the long barn", Show: "us", Timber: []job.Timber{{Name: "pine", Nominal: "1x4", From: "job file",
		Lengths: []job.StockLength{{Length: 96 * in, PriceMinor: 449, Currency: "USD"}, {Length: 120 * in, PriceMinor: 580, Currency: "USD", Most: 2}},
		OnHand:  []job.HandBoard{{Count: 1, Length: 41 * in}, {Count: 1, Length: 96 * in, Spans: [][2]unit.Length{{31 * in, 33 * in}}}}}}}}
	for i := range n {
		s.Parts = append(s.Parts, job.ListPart{Name: fmt.Sprintf("%s %d", name, i+1), Outside: unit.Length(200+20*i) * in / 16,
			Left: unit.FromDegrees(float64(i%3) * 15), Right: unit.FromDegrees(float64(i%2) * 45), Count: 2 + i%4, Path: fmt.Sprintf("parts[%d]", i)})
	}
	return s
}

const bareHash = "3f2ab1c4d5e6"

// rounds are one in which boards are cut, begun, rejected, knotty and short.
func rounds(r job.Result) job.Progress {
	round := job.Round{Packet: job.PacketMark(bareHash)}
	for _, b := range r.Timber[0].Boards {
		for _, n := range b.Numbers {
			told := job.Sawn{From: n, To: n}
			switch n % 6 {
			case 0:
				told.Cut = true
			case 1:
				told.Parts = 1
			case 2:
				told.Spans = [][2]unit.Length{{10 * unit.Inch, 12 * unit.Inch}}
			case 3:
				told.Short = 30 * unit.Inch
			case 4:
				told.Rejected = true
			default:
				continue
			}
			round.Boards = append(round.Boards, told)
		}
	}
	return job.Progress{Rounds: []job.Round{round}}
}

// listResults are bare lists, whole and partly sawn.
func listResults(t *testing.T) map[string]job.Result {
	t.Helper()
	out, err := planLists()
	if err != nil {
		t.Fatal(err)
	}
	return maps.Clone(out)
}

// planLists plans them once for all tests.
var planLists = sync.OnceValues(func() (map[string]job.Result, error) {
	out := map[string]job.Result{}
	for name, s := range map[string]job.CutSpec{"one": bareList(1, "rail"), "some": bareList(6, "rail"), "many": bareList(14, "rail"),
		"long names": bareList(7, "a rail of the westernmost shelf, no.")} {
		r, snags, err := job.Cut(context.Background(), s, job.BuiltIn())
		if err != nil || snags.Stops() {
			return nil, fmt.Errorf("%s: %v %v", name, err, snags)
		}
		r.Mark = job.PacketMark(bareHash)
		out[name] = r
		again, snags, err := job.Recut(context.Background(), s, job.BuiltIn(), bareHash, rounds(r))
		if err != nil || snags.Stops() {
			return nil, fmt.Errorf("%s: %v %v", name, err, snags)
		}
		out[name+", partly sawn"] = again
	}
	return out, nil
})

func TestPagesOfAListAreClean(t *testing.T) {
	for name, r := range listResults(t) {
		for _, paper := range []string{"letter", "a4"} {
			r.Job.Paper = paper
			doc := Cutting(r, made)
			for i, p := range doc.Pages {
				if fs := faults(p); len(fs) > 0 {
					t.Errorf("%s, page %d (%s): %s", name, i+1, p.List.Title, strings.Join(fs[:min(len(fs), 6)], "\n"))
				}
			}
		}
	}
}

func wordsOf(doc pdf.Doc) string {
	var b strings.Builder
	for _, p := range doc.Pages {
		for _, l := range drawing.Texts(p.List) {
			b.WriteString(l + "\n")
		}
	}
	return b.String()
}

// The papers of a list say what is taken, every board, and as many boxes to
// strike as parts are sawn.
func TestPapersOfAListAreTheResult(t *testing.T) {
	for name, r := range listResults(t) {
		doc := Cutting(r, made)
		words := wordsOf(doc)
		for _, b := range r.Timber[0].Boards {
			if !strings.Contains(words, numbersSay(b.Numbers)) {
				t.Errorf("%s: no %s on paper", name, numbersSay(b.Numbers))
			}
			if b.Changed && !strings.Contains(words, ", changed") {
				t.Errorf("%s: board %v is changed, and no paper says so", name, b.Numbers)
			}
		}
		for _, want := range []string{plural(r.Overall.BoardCount, "board") + " to buy", plural(r.Overall.PartCount, "part"), "Cutting by stop"} {
			if !strings.Contains(words, want) {
				t.Errorf("%s: the papers do not say %q", name, want)
			}
		}
	}
}

// What is done stays on paper: each board touched with what became of it, and
// what is left of every part.
func TestDoneSoFar(t *testing.T) {
	results := listResults(t)
	for name, r := range results {
		words := wordsOf(Cutting(r, made))
		if r.Progress == nil {
			if strings.Contains(words, "Done so far") {
				t.Errorf("%s: nothing is done, and a paper says so", name)
			}
			continue
		}
		if !strings.Contains(words, "Done so far") {
			t.Fatalf("%s: no paper says what is done", name)
		}
		for _, d := range r.Timber[0].Bench.Done {
			if !strings.Contains(words, d.Says+"; packet "+d.Packet) {
				t.Errorf("%s: %q is not on paper", name, d.Says)
			}
		}
		for _, w := range r.Timber[0].Parts {
			row := strings.Join([]string{itoa(w.Need + w.Spare + w.Reject), itoa(w.Sawn), itoa(w.Spoilt), itoa(w.Saw)}, " ")
			if !strings.Contains(strings.Join(strings.Fields(words), " "), row) {
				t.Errorf("%s: %s is not on paper as %s", name, w.Mark, row)
			}
		}
	}
	r := results["some, partly sawn"]
	if got := benchScope(r); !strings.Contains(got, "for what is left") {
		t.Error(got)
	}
	if blocks := benchPaper(results["some"]).blocks; len(blocks) != 0 {
		t.Error("a paper of nothing done")
	}
}

// The page for screens says the same.
func TestDoneSoFarOnScreen(t *testing.T) {
	r := listResults(t)["some, partly sawn"]
	var b strings.Builder
	if err := HTML(&b, r, time.Time{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Done so far", r.Timber[0].Bench.Done[0].Says, "cut, and struck out"} {
		if !slices.ContainsFunc([]string{want, strings.ToUpper(want[:1]) + want[1:]}, func(s string) bool { return strings.Contains(b.String(), s) }) {
			t.Errorf("the page does not say %q", want)
		}
	}
}
