package packet

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/drawing/pdf"
	"bowerwright/job"
	"bowerwright/jobfile"
)

// withPrices plans an example again with a price list over it, whose bare prices
// are in a currency.
func withPrices(t testing.TB, file, currency, list string) job.Result {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../examples", file))
	if err != nil {
		t.Fatal(err)
	}
	for key, value := range map[string]string{"currency": currency, "tax": "8.25 %"} {
		if currency != "" && !bytes.Contains(text, []byte("\n"+key+":")) {
			text = append(text, "\n"+key+": "+value+"\n"...)
		}
	}
	spec, f, snags := jobfile.Read(text, file, nil, "")
	if list != "" {
		snags.Add(f.Prices(&spec, []byte(list), "prices.csv")...)
	}
	r, more, err := job.Plan(context.Background(), spec, job.BuiltIn())
	if err != nil || len(snags) > 0 || more.Stops() {
		t.Fatal(snags, more, err)
	}
	return r
}

func buyingCSV(t testing.TB, r job.Result) string {
	t.Helper()
	var b bytes.Buffer
	if err := BuyingCSV(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// filled writes a price into every row that has none, as by hand.
func filledIn(t testing.TB, table string) string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.Index(rows[0], "price")
	for i, row := range rows[1:] {
		if row[at] == "" {
			row[at] = fmt.Sprintf("%d.%02d", 2+i, i*37%100)
		}
	}
	var b bytes.Buffer
	if err := csv.NewWriter(&b).WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// buyingExamples are the example jobs with all prices, some, and none.
func buyingExamples(t testing.TB) []job.Result {
	t.Helper()
	var out []job.Result
	files, _ := filepath.Glob("../examples/*.yaml")
	for _, f := range files {
		name := filepath.Base(f)
		some := withPrices(t, name, "", "")
		out = append(out, some, withPrices(t, name, some.Buying.Currency, filledIn(t, buyingCSV(t, some))))
	}
	return out
}

// TestBuyingSaysTheResult: every line, count, price and sum on paper is the
// Result's, and each line has its box.
func TestBuyingSaysTheResult(t *testing.T) {
	for _, r := range buyingExamples(t) {
		doc := Build(r, made)
		for i, p := range doc.Pages {
			if fs := faults(p); p.List.Title == "Buying list" && (len(fs) > 0 || filled(p.List) < leastFilled) {
				t.Errorf("%s, page %d is filled to %.0f %%: %v", r.Job.Name, i+1, filled(p.List)*100, fs)
			}
		}
		text := says(doc, "Buying list")
		all := strings.Join(text, "\n")
		for _, s := range r.Buying.Sections {
			for _, l := range s.Lines {
				for _, word := range plainWords(l.Name) {
					mustSay(t, text, word)
				}
				if l.Priced {
					mustSay(t, text, l.Cost)
				}
				for _, p := range l.Packs {
					mustSay(t, text, itoa(p.Count))
				}
			}
		}
		for _, p := range r.Buying.Places {
			mustSay(t, text, capital(p.Where))
		}
		if r.Buying.Currency != "" {
			mustSay(t, text, r.Buying.Total+" "+r.Buying.Currency+" in all")
			mustSay(t, text, r.Buying.Subtotal)
			mustSay(t, text, r.Buying.Without)
		}
		for _, x := range r.Buying.Taxes {
			mustSay(t, text, x.Tax)
		}
		mustSay(t, drawing.Texts(doc.Pages[0].List), toBuy(r.Buying))
		if n := boxes(doc.Pages, "Buying list"); n != r.Buying.Lines {
			t.Errorf("%s: %d boxes to tick for %d lines\n%s", r.Job.Name, n, r.Buying.Lines, all)
		}
	}
}

// TestBuyingTableIsAPriceList: filled in and given back, the table prices every
// line, and what comes of it is the same table again.
func TestBuyingTableIsAPriceList(t *testing.T) {
	files, _ := filepath.Glob("../examples/*.yaml")
	for _, f := range files {
		name := filepath.Base(f)
		bare := withPrices(t, name, "", "")
		first := withPrices(t, name, bare.Buying.Currency, filledIn(t, buyingCSV(t, bare)))
		if b := first.Buying; b.Unpriced > 0 || b.Lines != bare.Buying.Lines || len(first.Notes) > len(bare.Notes) {
			t.Errorf("%s: %d of %d lines have no price: %q, %+v", name, b.Unpriced, b.Lines, b.UnpricedNames, first.Notes)
		}
		for i, s := range first.Buying.Sections {
			for j, l := range s.Lines {
				if was := bare.Buying.Sections[i].Lines[j]; was.Name != l.Name || was.Want != l.Want {
					t.Errorf("%s: %+v was %+v", name, l, was)
				}
			}
		}
		table := buyingCSV(t, first)
		second := withPrices(t, name, bare.Buying.Currency, table)
		if second.Buying.TotalMinor != first.Buying.TotalMinor || buyingCSV(t, second) != table {
			t.Errorf("%s: %s, then %s; the tables differ: %v", name, first.Buying.Total, second.Buying.Total, buyingCSV(t, second) != table)
		}
	}
}

// TestBuyingTableForm: RFC 4180, one row for each pack.
func TestBuyingTableForm(t *testing.T) {
	for _, r := range buyingExamples(t) {
		table := buyingCSV(t, r)
		if strings.Count(table, "\n") != strings.Count(table, "\r\n") || strings.HasPrefix(table, "\ufeff") {
			t.Error("lines end in LF alone, or there is a mark")
		}
		rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
		if err != nil || strings.Join(rows[0], ",") != strings.Join(buyingHead, ",") {
			t.Fatal(rows[0], err)
		}
		packs := 0
		for _, s := range r.Buying.Sections {
			for _, l := range s.Lines {
				packs += len(l.Packs) + len(l.Instead)
			}
		}
		if packs += len(r.Buying.Unbought); len(rows) != packs+1 {
			t.Errorf("%d rows for %d packs and boards", len(rows)-1, packs)
		}
	}
	if err := BuyingCSV(failing{}, buyingExamples(t)[0]); err == nil {
		t.Error("no error where nothing can be written")
	}
}

// plainWords are the words of a name that stand on paper as they are: a long
// name runs over lines, and fractions are built of smaller figures.
func plainWords(name string) []string {
	return slices.DeleteFunc(strings.Fields(name), func(w string) bool { return strings.Contains(w, "/") })
}

// boxes counts the boxes to tick on the pages of a title.
func boxes(pages []pdf.Page, title string) int {
	n := 0
	for _, p := range pages {
		if p.List.Title == title {
			ear := &boxEar{}
			drawing.Play(p.List, ear)
			n += ear.n
		}
	}
	return n
}

// A boxEar counts the squares of a box to tick.
type boxEar struct {
	fieldEar
	n int
}

func (*boxEar) Words(drawing.Words) {}

func (e *boxEar) Shape(os []drawing.Outline, _ drawing.Tone, pen drawing.Pen) {
	for _, o := range os {
		p := o.Flat(1)
		lo, hi := p[0], p[0]
		for _, q := range p {
			lo, hi = drawing.Pt(min(lo.X, q.X), min(lo.Y, q.Y)), drawing.Pt(max(hi.X, q.X), max(hi.Y, q.Y))
		}
		if pen.Weight > 0 && abs(hi.X-lo.X-drawing.BoxMM) < 1e-6 && abs(hi.Y-lo.Y-drawing.BoxMM) < 1e-6 {
			e.n++
		}
	}
}
