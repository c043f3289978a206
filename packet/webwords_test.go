package packet

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"
)

// TestNamesOnThePageDiffer: who is read the tables and the boxes to tick by name
// can tell them apart.
func TestNamesOnThePageDiffer(t *testing.T) {
	for _, r := range examples(t) {
		p := screen(t, r)
		for _, re := range []string{`<caption class="hid">(.*?)</caption>`, `<legend>(.*?)</legend>`, `class="[a-z ]*scroll" role="group" tabindex="0" aria-label="(.*?)"`} {
			seen := map[string]bool{}
			for _, m := range regexp.MustCompile(re).FindAllStringSubmatch(p, -1) {
				if seen[m[1]] {
					t.Errorf("%s: %s stands twice", r.Job.Name, m[0])
				}
				seen[m[1]] = true
			}
		}
	}
}

func TestCaptions(t *testing.T) {
	w := &webWriter{title: "Dry lay", under: "In all"}
	got := []string{w.caption(""), w.caption(""), w.caption(""), w.caption("screws")}
	if want := []string{"In all", "Dry lay: In all", "Dry lay: In all, table 2", "In all, screws"}; !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	if a, b := w.legend("Frames"), w.legend("Frames"); a != "Frames" || b != "Dry lay: Frames" {
		t.Errorf("%q, %q", a, b)
	}
}

// TestWideTablesKeepTheirNames: on a phone a cell of a wide table stands under
// its column's name, and is still a cell to a reader.
func TestWideTablesKeepTheirNames(t *testing.T) {
	wide := []column{{"part", 20, false}, {"long point", 60, true}, {"", 10, false}}
	w := &webWriter{under: "Cut list"}
	w.all([]twin{webTable("", wide, [][]cell{{bold("A"), text("9 in"), text("x")}, {bold("B"), nil, nil}})})
	got := w.b.String()
	for _, want := range []string{`<table class="wide" role="table">`, `<th scope="row" role="rowheader" data-is="part" class="short">`,
		`<td role="cell" data-is="long point" class="fig">9`, `<td role="cell" class="short">x</td>`, `<td role="cell" class="fig"></td>`} {
		if !strings.Contains(got, want) {
			t.Errorf("%s is missing in\n%s", want, got)
		}
	}
	w = &webWriter{under: "Small"}
	w.all([]twin{webTable("", wide[:1], [][]cell{{bold("A")}})})
	if s := w.b.String(); strings.Contains(s, "role=") || strings.Contains(s, "data-is") {
		t.Errorf("a narrow table is set as a wide one: %s", s)
	}
}

// TestBuyingListIsTicked: each line has a box on the screen too.
func TestBuyingListIsTicked(t *testing.T) {
	r := planned(t)[0]
	for i, p := range build(r).papers {
		if p.title != "Buying list" {
			continue
		}
		if n := strings.Count(papersOf(screen(t, r))[i], `type="checkbox"`); n != r.Buying.Lines || n == 0 {
			t.Errorf("%d boxes for %d lines", n, r.Buying.Lines)
		}
		return
	}
	t.Error("no buying list")
}

// TestContentsSayWhatHeadsThePage: a line of the contents is a title or a
// heading of the page that it points to.
func TestContentsSayWhatHeadsThePage(t *testing.T) {
	for _, r := range examples(t) {
		b := build(r)
		doc := b.doc(r, made)
		for _, e := range b.entries {
			if !slices.Contains(drawing.Texts(doc.Pages[e.page-1].List), clean(e.text)) && !strings.HasPrefix(e.text, cardEntry) {
				t.Errorf("%s: page %d is not headed %q", r.Job.Name, e.page, e.text)
			}
		}
		for _, p := range b.papers {
			if p.entry != p.title {
				t.Errorf("%s: %q is called %q in the contents", r.Job.Name, p.title, p.entry)
			}
		}
	}
}

// TestSawnCountIsThatOfTheCutList: the head of the cutting paper counts what its
// table tells to saw.
func TestSawnCountIsThatOfTheCutList(t *testing.T) {
	r := job.Result{Timber: []job.TimberFacts{{Parts: []job.WantedFacts{{Need: 7, Spare: 1, Reject: 2, Saw: 10}, {Need: 2, Saw: 2}}}}}
	if got := sawnSays(r); got != "12 parts to saw, 3 of them to spare" {
		t.Errorf("%q", got)
	}
	r.Timber[0].Parts = r.Timber[0].Parts[1:]
	if got := sawnSays(r); got != "2 parts to saw" {
		t.Errorf("%q", got)
	}
}

func TestPacksAndPlacesInWords(t *testing.T) {
	l := job.BuyingLine{Packs: []job.PackFacts{{Pack: "each"}}, Instead: []job.PackFacts{
		{Pack: "10", Price: "8.99", Holds: job.Quantity{Measure: "pieces"}}, {Pack: "1 qt", Holds: job.Quantity{Measure: "volume"}}}}
	if got := alsoSold(l); got != "also in boxes of 10 at 8.99, 1 qt" {
		t.Errorf("%q", got)
	}
	b := job.BuyingFacts{Currency: "USD"}
	if got := placeWords(b, job.BuyingPlace{Lines: 9, Unpriced: 7, Subtotal: "4.00"}); got != "2 lines at 4.00 USD; 7 more without a price" {
		t.Errorf("%q", got)
	}
}
