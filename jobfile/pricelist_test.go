package jobfile

import (
	"fmt"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/money"
	"bowerwright/price"
	"bowerwright/snag"
)

// listed reads a price list over a job.
func listed(src, csv string) (job.Spec, *File, snag.List) {
	spec, f, l := Read([]byte(src), "job.yaml", nil, "")
	l.Add(f.Prices(&spec, []byte(csv), "prices.csv")...)
	return spec, f, l
}

var badLists = []struct{ name, src string }{
	{"prices-empty", " \n\n"},
	{"prices-no-columns", "glue,16 oz,$8.99\n"},
	{"prices-prise", "name,prise\nglue,$8.99\n"},
	{"prices-pak", "name,pak,price\nglue,16 oz,$8.99\n"},
	{"prices-twice", "name,price,Name\nglue,$8.99,glue\n"},
	{"prices-rows", "name,pack,unit,price,tax,currency\n" +
		"glue,16 oz,,8.99,,\n" + // no currency
		"filler,16,kg,$8.99,,\n" +
		",16 oz,,$8.99,,\n" +
		"finish,1 gal,,-$8.99,,\n" +
		"finish,1 gal,,$8.999,,\n" +
		"finish,1 gal,,\"8,99 USD\",,\n" +
		"finish,1 gal,,8.99,,DUB\n" +
		"finish,1 gal,,$8.99,a lot,\n" +
		"finish,0,gal,$8.99,,\n" +
		"café wax 宴会,a tin,,$8.99,,\n" +
		"finish,1 gal,,$99999999999,,\n"},
	{"prices-commas", "name,pack,price\nglue,8 oz,5,49\nfinish,1 qt,10,000 USD\nfiller,8 oz,$4.99,,\n"},
	{"prices-quotes", "name,price\n\"glue,$8.99\n"},
	{"prices-not-utf8", "name,price\ncaf\xe9,$8.99\n"},
	{"prices-nul", "name,price\na\x00b,$8.99\n"},
	{"prices-too-big", strings.Repeat("name,price\n", 100_000)},
	{"prices-too-many", "name,price\n" + strings.Repeat("glue,$1\n", mostPrices+1)},
}

func TestBadPriceLists(t *testing.T) {
	for _, c := range badLists {
		t.Run(c.name, func(t *testing.T) {
			_, f, l := listed(lay, c.src)
			if !l.Stops() {
				t.Fatal("nothing to put right was found")
			}
			golden(t, c.name, snag.Text(l, f.Source, snag.Width))
		})
	}
}

// row is what the tests say of an offer: name, pack, price, tax.
func rows(offers []price.Offer) string {
	var out []string
	for _, o := range offers {
		s := o.Name + "|" + o.Pack.Text + "|" + o.Price.String() + "|" + o.From
		if o.Tax != nil {
			s += "|" + o.Tax.String()
		}
		out = append(out, s)
	}
	return strings.Join(out, "\n")
}

// Columns come in any order, under any case; what is not known is passed over,
// as are rows without a price.
func TestPriceListForms(t *testing.T) {
	want := "glue|16 oz|8.99 USD|price list\nNo. 8 x 1 1/4 in|100|6.49 USD|price list|5 %"
	for name, csv := range map[string]string{
		"plain":          "name,pack,price,tax\nglue,16 oz,$8.99,\nNo. 8 x 1 1/4 in,100,6.49 USD,5 %\n",
		"other order":    "Tax,PRICE,where,Pack,name\n,$8.99,yard,16 oz,glue\n5,$6.49,yard,100,No. 8 x 1 1/4 in\n",
		"unit apart":     "name,pack,unit,price,currency,tax\nglue,16,oz,8.99,usd,\nNo. 8 x 1 1/4 in,100,pieces,6.49,USD,5.0 %\n",
		"semicolons":     "name;pack;price;tax\nglue;16 oz;8,99 USD;\nNo. 8 x 1 1/4 in;100;$6,49;5,0 %\n",
		"tabs":           "name\tpack\tprice\ttax\nglue\t16 oz\t$8.99\t\nNo. 8 x 1 1/4 in\t100\t$6.49\t5%\n",
		"a spreadsheet":  "\ufeffname,pack,price,tax\r\n\"glue\",\"16 oz\",\"$8.99\",\"\"\r\n\r\n,,,\r\nfiller,8 oz,,\r\nNo. 8 x 1 1/4 in,100,$6.49,5 %\r\n",
		"ragged, blanks": "name, pack ,price,tax\n glue ,16  oz, $8.99\nrope,,\nNo. 8 x 1 1/4 in,100,$6.49,5 %,,\n",
	} {
		spec, _, l := listed(lay, csv)
		got := strings.ReplaceAll(strings.ReplaceAll(rows(spec.Buying.Prices), "16 oz", "16 oz"), "100 pieces", "100")
		if len(l) > 0 || got != want {
			t.Errorf("%s: %v\n%s", name, l, got)
		}
	}
}

// A unit alone is one of it; without pack and unit the usual pack is meant.
func TestPriceListPacks(t *testing.T) {
	spec, _, l := listed(lay, "name,pack,unit,price\nrope,,m,$2\nfinish,1 1/2,gal,$20\nsheet,48 in x 96 in,,$30\npencil,,,$1\n")
	want := "rope|1 m|2.00 USD|price list\nfinish|1 1/2 gal|20.00 USD|price list\nsheet|48 in x 96 in|30.00 USD|price list\npencil||1.00 USD|price list"
	if got := rows(spec.Buying.Prices); len(l) > 0 || got != want {
		t.Errorf("%v\n%s", l, got)
	}
}

// A bare price is in the currency of the job file, or the shop file's.
func TestPriceListCurrency(t *testing.T) {
	csv := "name,price\nglue,8.99\n"
	if spec, _, l := listed(lay+"currency: EUR\n", csv); len(l) > 0 || spec.Buying.Prices[0].Price != (money.Amount{Minor: 899, Currency: "EUR"}) {
		t.Errorf("%v %+v", l, spec.Buying.Prices)
	}
	spec, f, l := Read([]byte(lay), "job.yaml", []byte("bowerwright-shop: 1\ncurrency: CHF\n"), "shop.yaml")
	l.Add(f.Prices(&spec, []byte(csv), "prices.csv")...)
	if len(l) > 0 || spec.Buying.Prices[0].Price.Currency != "CHF" {
		t.Errorf("%v %+v", l, spec.Buying.Prices)
	}
}

// Places of rows are told by line and column, in code points; the list's bytes
// are in the hash.
func TestPriceListPlaces(t *testing.T) {
	spec, f, l := listed(lay, "name,price\n\"a\nb\",$1\ncafé,$2\n")
	if len(l) > 0 {
		t.Fatal(l)
	}
	if at := f.Locate(spec.Buying.Prices[1].Place); at.File != "prices.csv" || at.Line != 4 || at.Column != 6 {
		t.Errorf("%+v", at)
	}
	if src, ok := f.Source("prices.csv"); !ok || !strings.HasPrefix(src, "name,") {
		t.Error("the list's text is not known")
	}
	_, g, _ := listed(lay, "name,price\n")
	_, h, _ := Read([]byte(lay), "job.yaml", nil, "")
	if f.SHA256() == g.SHA256() || g.SHA256() == h.SHA256() {
		t.Error("the list is not in the hash")
	}
}

func TestPricesField(t *testing.T) {
	spec, f := clean(t, lay+`prices:
  No. 8 x 1 1/4 in: $6.49 per 100
  glue: [$5.49 per 8 oz, 8.99 USD per 16 oz]
  pine 8 ft: $4.49 each
  finish: "$23.99 per qt, tax 5 %"
  masking tape: $7
  1/8 in plywood:
    - $12.50 per 24 in x 48 in
tax: 8.25 %
`)
	want := `No. 8 x 1 1/4 in|100|6.49 USD|job file
glue|8 oz|5.49 USD|job file
glue|16 oz|8.99 USD|job file
pine 8 ft|each|4.49 USD|job file
finish|1 qt|23.99 USD|job file|5 %
masking tape||7.00 USD|job file
1/8 in plywood|24 in x 48 in|12.50 USD|job file`
	if got := rows(spec.Buying.Prices); got != want {
		t.Errorf("%s", got)
	}
	if at := f.Locate(spec.Buying.Prices[2].Place); at.Line == 0 || !strings.HasPrefix(at.Path, "prices.glue") {
		t.Errorf("%+v", at)
	}
	if tax := spec.Buying.Tax; tax != (job.TaxAsked{Given: true, Rate: 82500}) {
		t.Errorf("%+v", tax)
	}
}

func TestInHandField(t *testing.T) {
	spec, _, l := Read([]byte(lay+"in hand: {glue: 8 oz, dust mask: none, pencil: 0, blankets: 6}\n"), "job.yaml",
		[]byte("bowerwright-shop: 1\nin hand: {masking tape: 60 yd}\n"), "shop.yaml")
	var got []string
	for _, h := range spec.Buying.InHand {
		got = append(got, fmt.Sprintf("%s %s %.1f %s", h.Name, h.Holds.Measure, h.Holds.N, h.From))
	}
	want := "masking tape length 54864.0 shop file; glue volume 236.6 job file; dust mask pieces 0.0 job file; pencil pieces 0.0 job file; blankets pieces 6.0 job file"
	if len(l) > 0 || strings.Join(got, "; ") != want {
		t.Errorf("%v %q", l, got)
	}
}

func TestTaxField(t *testing.T) {
	for text, want := range map[string]job.TaxAsked{
		"8.25 %":         {Given: true, Rate: 82500},
		"8.25":           {Given: true, Rate: 82500},
		"8.25 % added":   {Given: true, Rate: 82500},
		"19 % included":  {Given: true, Rate: 190000, Included: true},
		"included":       {Given: true, Included: true},
		"none":           {Given: true},
		"0":              {Given: true},
		"0.0725 %":       {Given: true, Rate: 725},
		"'100 %'":        {Given: true, Rate: 1000000},
		"20% included  ": {Given: true, Rate: 200000, Included: true},
	} {
		if spec, _ := clean(t, lay+"tax: "+text+"\n"); spec.Buying.Tax != want {
			t.Errorf("%q: %+v", text, spec.Buying.Tax)
		}
	}
}

// The job file's prices come after the shop file's, so that they go.
func TestPricesOfTheShop(t *testing.T) {
	spec, _, l := Read([]byte(lay+"prices: {glue: $8 per 16 oz}\ntax: none\n"), "job.yaml",
		[]byte("bowerwright-shop: 1\nprices: {glue: $9 per 16 oz}\ntax: 8 %\n"), "shop.yaml")
	want := "glue|16 oz|9.00 USD|shop file\nglue|16 oz|8.00 USD|job file"
	if got := rows(spec.Buying.Prices); len(l) > 0 || got != want || spec.Buying.Tax.Rate != 0 {
		t.Errorf("%v\n%s\n%+v", l, got, spec.Buying.Tax)
	}
}

func FuzzPriceList(f *testing.F) {
	for _, c := range badLists {
		if len(c.src) < 1000 {
			f.Add(c.src)
		}
	}
	f.Add("name;pack;price\nglue;16 oz;8,99 USD\n")
	f.Fuzz(func(t *testing.T, csv string) {
		spec, file, l := listed(lay, csv)
		for _, s := range l {
			if s.Problem == "" || s.Remedy == "" || s.Place.Line < 1 || s.Place.Column < 1 {
				t.Fatalf("%+v", s)
			}
		}
		for _, o := range spec.Buying.Prices {
			if at := file.Locate(o.Place); at.Line < 2 || o.Price.Minor < 0 || o.Price.Currency == "" || o.Name == "" {
				t.Fatalf("%+v at %+v", o, at)
			}
		}
		snag.Text(l, file.Source, snag.Width)
	})
}
