package job

import (
	"context"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"bowerwright/money"
	"bowerwright/price"
	"bowerwright/unit"
)

// priced adds prices to a job, a line each: "glue, 16 oz, 8.99 USD".
func priced(s Spec, from string, lines ...string) Spec {
	s.Buying.Prices = slices.Clone(s.Buying.Prices)
	for _, line := range lines {
		f := strings.Split(line, ", ")
		o := price.Offer{Name: f[0], From: from, Place: "prices." + f[0]}
		if f[1] != "" {
			p, err := price.ParsePack(f[1])
			if err != nil {
				panic(err)
			}
			o.Pack = p
		}
		a, err := money.Parse(f[2], "")
		if err != nil {
			panic(err)
		}
		o.Price = a
		s.Buying.Prices = append(s.Buying.Prices, o)
	}
	return s
}

// lines are all lines of a bill.
func lines(b BuyingFacts) []BuyingLine {
	var out []BuyingLine
	for _, s := range b.Sections {
		out = append(out, s.Lines...)
	}
	return out
}

func lineOf(t testing.TB, r Result, name string) BuyingLine {
	t.Helper()
	var names []string
	for _, l := range lines(r.Buying) {
		if l.Name == name {
			return l
		}
		names = append(names, l.Name)
	}
	t.Fatalf("no line %q among %q", name, names)
	return BuyingLine{}
}

// adds checks that a bill adds up, line by line, and to the last cent.
func adds(t testing.TB, b BuyingFacts) {
	t.Helper()
	if b.Lines != len(lines(b)) || b.Unpriced != len(b.UnpricedNames) {
		t.Errorf("%d lines, %d of them without a price: %q", b.Lines, b.Unpriced, b.UnpricedNames)
	}
	subtotal, unpriced, n := int64(0), 0, 0
	seen := map[string]bool{}
	for _, s := range b.Sections {
		section := int64(0)
		if s.Where == "" || len(s.Lines) == 0 {
			t.Errorf("section %q has no place or no lines", s.Name)
		}
		for _, l := range s.Lines {
			if n++; l.Number != n {
				t.Errorf("line %d is numbered %d", n, l.Number)
			}
			if seen[price.Key(l.Name)] || l.For == "" {
				t.Errorf("%q stands twice, or is for nothing", l.Name)
			}
			seen[price.Key(l.Name)] = true
			cost, gets := int64(0), 0.0
			for _, p := range l.Packs {
				if p.CostMinor != p.PriceMinor*int64(p.Count) || p.Count <= 0 || (p.Price != "") != l.Priced || p.From == "" && p.Pack != "each" {
					t.Errorf("%s: %+v", l.Name, p)
				}
				cost += p.CostMinor
				gets += p.Holds.Value * float64(p.Count)
			}
			for _, p := range l.Instead {
				if p.Count != 0 || p.CostMinor != 0 {
					t.Errorf("%s instead: %+v", l.Name, p)
				}
			}
			if cost != l.CostMinor || math.Abs(gets-l.Gets.Value) > 0.01 || gets+l.Have.Value < l.Want.Value-0.01 || l.Want.Value < l.Need.Value {
				t.Errorf("%s: %+v", l.Name, l)
			}
			section += cost
			if !l.Priced && l.Gets.Value > 0 {
				unpriced++
			}
		}
		if section != s.SubtotalMinor {
			t.Errorf("%s: %d, lines %d", s.Name, s.SubtotalMinor, section)
		}
		subtotal += section
	}
	at := map[string]int64{}
	for _, s := range b.Sections {
		at[s.Where] += s.SubtotalMinor
	}
	for _, p := range b.Places {
		if at[p.Where] != p.SubtotalMinor || p.Lines == 0 || p.Unpriced > p.Lines {
			t.Errorf("%+v, sections %d", p, at[p.Where])
		}
		n, unpriced = n-p.Lines, unpriced-p.Unpriced
	}
	if n != 0 || unpriced != 0 || len(at) != len(b.Places) {
		t.Errorf("places %+v: %d lines and %d without a price are left", b.Places, n, unpriced)
	}
	unpriced = b.Unpriced
	want := subtotal
	for _, x := range b.Taxes {
		if !b.TaxIncluded {
			want += x.TaxMinor
		}
	}
	if b.SubtotalMinor != subtotal || b.TotalMinor != want {
		t.Errorf("%d %d, want %d %d", b.SubtotalMinor, b.TotalMinor, subtotal, want)
	}
	if (b.Without != "") != (unpriced > 0 && b.Currency != "") || (b.Total != "") != (b.Currency != "") {
		t.Errorf("%q %q %q", b.Without, b.Total, b.Currency)
	}
}

// What is bought is what the other papers count.
func TestBuyingIsWhatIsCounted(t *testing.T) {
	for name, s := range variety() {
		r := worked(t, s)
		adds(t, r.Buying)
		boards := 0.0
		for _, l := range lines(r.Buying) {
			if strings.HasPrefix(l.Name, "pine ") {
				boards += l.Need.Value
			}
		}
		if int(boards) != r.Overall.BoardCount {
			t.Errorf("%s: %g boards to buy, %d on the cover", name, boards, r.Overall.BoardCount)
		}
		for _, h := range r.Fixing.Totals {
			if l := lineOf(t, r, h.Thing); l.Need.Value < float64(h.Count) || int(l.Packs[0].Holds.Value) != h.Pack {
				t.Errorf("%s: %+v for %+v", name, l, h)
			}
		}
	}
}

// Without prices there is a list and no sum.
func TestBuyingWithoutPrices(t *testing.T) {
	b := worked(t, hexagons()).Buying
	if b.Currency != "" || b.Total != "" || b.Subtotal != "" || b.Without != "" || b.Unpriced != b.Lines || b.TaxWords != "" {
		t.Errorf("%+v", b)
	}
	for _, want := range []string{"boards timber yard", "fixings hardware shop", "glue and tape hardware shop", "filling and finish paint shop", "consumables hardware shop"} {
		if !slices.ContainsFunc(b.Sections, func(s BuyingSection) bool { return s.Name+" "+s.Where == want }) {
			t.Errorf("no section %s", want)
		}
	}
}

// Two hexagons of 18 in flats: 2 boards; prices from three places.
func TestBuyingWithPrices(t *testing.T) {
	s := hexagons()
	s.Timber[0].PriceMinor, s.Timber[0].Currency = 449, "USD"
	s.Buying.Tax = TaxAsked{Given: true, Rate: 82500}
	s = priced(s, "shop file", "glue, 16 oz, $9.99", "glue, 8 oz, $5.49", "rope, 50 m, $7")
	s = priced(s, PriceList, "#8 x 1-1/4\", 100, $6.49", "glue, 8 oz, $4.99")
	r := worked(t, s)
	adds(t, r.Buying)
	if l := lineOf(t, r, "pine 8 ft"); l.Cost != "8.98" || l.Need.US != "2" || l.Packs[0].From != "job file" || l.Note == "" {
		t.Errorf("%+v", l)
	}
	if l := lineOf(t, r, "No. 8 x 1 1/4 in"); l.Cost != "6.49" || l.Packs[0].From != PriceList {
		t.Errorf("%+v", l)
	}
	if l := lineOf(t, r, "glue"); l.Cost != "4.99" || l.Packs[0].Pack != "8 oz" || len(l.Instead) != 1 || !slices.Contains(l.Rates, "glue.coverage") || !slices.Contains(l.Rates, "buying.spare-glue") {
		t.Errorf("%+v", l)
	}
	b := r.Buying
	// 8.98 + 6.49 + 4.99 = 20.46; 8.25 % of it is 1.688.
	if b.Subtotal != "20.46" || b.Total != "22.15" || len(b.Taxes) != 1 || b.Taxes[0].Tax != "1.69" || b.Taxes[0].Rate != "8.25 %" || b.Currency != "USD" {
		t.Errorf("%+v", b)
	}
	for _, n := range r.Notes {
		if n.Code == "price-unused" {
			t.Errorf("a shop's own list is no news: %+v", n)
		}
	}
}

// A board's price on the list is the one that boards are cut by; it goes over
// the job file's, as that goes over the shop's.
func TestBoardPrices(t *testing.T) {
	s := hexagons()
	s.Timber[0].Lengths = []StockLength{{Length: 8 * unit.Foot, PriceMinor: 500, Currency: "USD"}, {Length: 12 * unit.Foot}}
	s.Timber[0].Length = 0
	list := priced(s, PriceList, "pine 12 ft, each, $0.99", "pine 2438.4 mm, , $6")
	r := worked(t, list)
	if l := lineOf(t, r, "pine 12 ft"); l.Cost != "0.99" && l.Cost != "1.98" {
		t.Errorf("%+v", l)
	}
	for _, stock := range r.Timber[0].Stocks {
		if stock.Length.US == "12 ft" && stock.PriceMinor != 99 || stock.Length.US == "8 ft" && stock.PriceMinor != 600 {
			t.Errorf("%+v", stock)
		}
	}
	if u := r.Buying.Unbought; len(u) != 1 || u[0].Name != "pine 8 ft" || u[0].Price != "6.00" || u[0].Currency != "USD" {
		t.Errorf("%+v", u)
	}
	if slices.ContainsFunc(r.Notes, func(n Note) bool { return n.Code == "price-unused" }) {
		t.Errorf("%+v", r.Notes)
	}
	if s.Timber[0].Lengths[1].PriceMinor != 0 {
		t.Error("the job itself was changed")
	}
	by := func(from string, minor string) Spec { return priced(hexagons(), from, "pine 8 ft, each, "+minor) }
	two := by("shop file", "$3")
	two.Buying.Prices = append(two.Buying.Prices, by("job file", "$4").Buying.Prices...)
	if r := worked(t, two); r.Timber[0].Stocks[0].PriceMinor != 400 || lineOf(t, r, "pine 8 ft").Packs[0].PriceMinor != 400 {
		t.Errorf("%+v", r.Timber[0].Stocks)
	}
}

func TestBuyingMetric(t *testing.T) {
	s := hexagons()
	s.Show = "metric"
	s.Timber[0].Length = 2400 * unit.Millimetre
	r := worked(t, priced(s, PriceList, "pine 2.4 m, each, 5 EUR", "glue, 500 ml, 7.50 EUR"))
	adds(t, r.Buying)
	l := lineOf(t, r, "pine 2400 mm")
	if l.Cost != "10.00" || !slices.Contains(l.Also, "pine 2.4 m") {
		t.Errorf("%+v", l)
	}
	if tape := lineOf(t, r, "gluing tape"); tape.Note != "50.8 mm wide" || tape.Packs[0].Pack != "50 m" {
		t.Errorf("%+v", tape)
	}
}

// Splines are cut from thin plywood: their area, through the yield.
func TestSplinesAreBoughtBySheet(t *testing.T) {
	s := hexagons()
	s.Kinds[0].Corner = "spline"
	r := worked(t, s)
	l := lineOf(t, r, "1/8 in plywood")
	if l.Want.Value < l.Need.Value/0.75-1 || l.Want.Value > l.Need.Value/0.75+1 || l.Packs[0].Pack != "12 in x 24 in" || l.Need.Measure != "area" {
		t.Errorf("%+v", l)
	}
}

// What is sawn from the boards is not bought; brads and plates are.
func TestCornersAreBought(t *testing.T) {
	s := hexagons()
	s.Kinds[0].Corner = "corner block"
	for _, l := range lines(worked(t, s).Buying) {
		if strings.Contains(l.Name, "block") {
			t.Errorf("%+v", l)
		}
	}
	s.Kinds[0].Corner = "brads"
	found := false
	for _, l := range lines(worked(t, s).Buying) {
		if strings.Contains(l.Name, "brad") {
			found = true
			if l.Need.Value != 2*6*2 { // two frames of six corners, two brads to each
				t.Errorf("%+v", l)
			}
		}
	}
	if !found {
		t.Error("no brads")
	}
}

// The dust masks are for the people named.
func TestStandingList(t *testing.T) {
	s := hexagons()
	s.People = []Person{{Name: "Ida"}, {Name: "Sam"}, {Name: "Wren"}}
	if l := lineOf(t, worked(t, s), "dust mask"); l.Need.Value != 6 || l.Rates[0] != "buying.masks" {
		t.Errorf("%+v", l)
	}
	s.Assume = []Override{{ID: "buying.masks", Value: 0}, {ID: "buying.pencils", Value: 3}}
	r := worked(t, s)
	for _, l := range lines(r.Buying) {
		if l.Name == "dust mask" || l.Name == "pencil" && l.Need.Value != 3 {
			t.Errorf("%+v", l)
		}
	}
}

// Nothing in hand is written as nothing.
func TestNothingInHand(t *testing.T) {
	for _, section := range worked(t, hexagons()).Buying.Sections {
		for _, l := range section.Lines {
			if strings.Contains(l.Have.US+l.Have.Metric, "-") {
				t.Errorf("%s: %q, %q in hand", l.Name, l.Have.US, l.Have.Metric)
			}
		}
	}
}

// What is in hand is taken off what is bought; the job's word goes over the
// shop's.
func TestInHand(t *testing.T) {
	have := func(name, from string, measure price.Measure, n float64) InHand {
		return InHand{Name: name, Holds: price.Quantity{Measure: measure, N: n}, From: from, Place: "in hand." + name}
	}
	s := hexagons()
	s.Buying.InHand = []InHand{
		have("#8 x 1 1/4 in", "shop file", price.Pieces, 1000), have("dust mask", "shop file", price.Pieces, 1), have("glue", "shop file", price.Volume, 1e4),
		have("rope", "shop file", price.Length, 1), have("glue", "job file", price.Pieces, 0), have("gold leaf", "job file", price.Pieces, 25),
	}
	r := worked(t, s)
	adds(t, r.Buying)
	if l := lineOf(t, r, "No. 8 x 1 1/4 in"); len(l.Packs) != 0 || len(l.Instead) != 1 || l.Have.US != "1000" || l.Gets.Value != 0 {
		t.Errorf("%+v", l)
	}
	if l := lineOf(t, r, "glue"); len(l.Packs) != 1 || l.Have.Value != 0 {
		t.Errorf("%+v", l)
	}
	i := slices.IndexFunc(r.Notes, func(n Note) bool { return n.Code == "in-hand-unused" })
	if i < 0 || !strings.HasSuffix(r.Notes[i].Text, ": gold leaf") {
		t.Errorf("%+v", r.Notes)
	}
}

func TestTaxWords(t *testing.T) {
	for tax, want := range map[TaxAsked]string{
		{}:                            "No tax is added: the job names none.",
		{Given: true}:                 "No tax.",
		{Given: true, Included: true}: "Prices are taken to include tax.",
		{Given: true, Included: true, Rate: 190000}: "Prices include tax; what is in them is reckoned once",
		{Given: true, Rate: 82500}:                  "Tax is added for each rate, reckoned once",
	} {
		s := priced(hexagons(), "job file", "glue, 8 oz, $5.00")
		s.Buying.Tax = tax
		b := worked(t, s).Buying
		adds(t, b)
		if !strings.HasPrefix(b.TaxWords, want) {
			t.Errorf("%+v: %q", tax, b.TaxWords)
		}
	}
}

// Names on a list that nothing is called are one note, with what may be meant.
func TestUnusedPrices(t *testing.T) {
	names := []string{"rope, each, $1", "masking tap, 60 yd, $1", "No. 8 x 9 in, 100, $1", "a, , $1", "b, , $1", "c, , $1", "d, , $1"}
	r := worked(t, priced(hexagons(), PriceList, names...))
	i := slices.IndexFunc(r.Notes, func(n Note) bool { return n.Code == "price-unused" })
	if i < 0 {
		t.Fatal("no note")
	}
	want := "7 prices are for no line of this job: rope, masking tap (is masking tape meant?), No. 8 x 9 in, a, b, c and 1 more"
	if r.Notes[i].Text != want {
		t.Errorf("%q", r.Notes[i].Text)
	}
}

var dollar = money.Amount{Minor: 100, Currency: "USD"}

// The snags of prices, each with its remedy followed.
func init() {
	troubles = append(troubles, []trouble{
		{"price-currency", "prices.glue", priced(hexagons(), "job file", "pine 8 ft, each, $5", "glue, 8 oz, 4 EUR"), "one currency",
			func(s *Spec) { s.Buying.Prices[1].Price = dollar }},
		{"price-pack", "prices.glue", priced(hexagons(), "job file", "glue, , $5"), "write 5.00 USD per 8 oz",
			func(s *Spec) { s.Buying.Prices[0].Pack, _ = price.ParsePack("8 oz") }},
		{"price-pack", "prices.glue", priced(hexagons(), "job file", "glue, 100, $5"), "a pack such as 8 oz",
			func(s *Spec) { s.Buying.Prices[0].Pack, _ = price.ParsePack("8 oz") }},
		{"price-twice", "prices.Glue", priced(hexagons(), "job file", "glue, 8 oz, $5", "Glue, 8 fl oz, $6"), "keep one",
			func(s *Spec) { s.Buying.Prices = s.Buying.Prices[:1] }},
		{"in-hand", "in hand.glue", with(hexagons(), func(s *Spec) {
			s.Buying.InHand = []InHand{{Name: "glue", Holds: price.Quantity{N: 3}, From: "job file", Place: "in hand.glue"}}
		}), "such as 8 oz", func(s *Spec) { s.Buying.InHand[0].Holds.Measure = price.Volume }},
		{"in-hand", "in hand.pine 8 ft", with(hexagons(), func(s *Spec) {
			s.Buying.InHand = []InHand{{Name: "pine 8 ft", Holds: price.Quantity{N: 3}, From: "job file", Place: "in hand.pine 8 ft"}}
		}), "on hand: under", func(s *Spec) {
			s.Buying.InHand = nil
			s.Timber[0].OnHand = []HandBoard{{Count: 3, Length: 8 * unit.Foot}}
		}},
		{"price-too-large", "prices", with(hexagons(), func(s *Spec) {
			o := price.Offer{Name: "glue", Price: money.Amount{Minor: math.MaxInt64, Currency: "USD"}, From: "job file", Place: "prices.glue"}
			o.Pack, _ = price.ParsePack("8 oz")
			s.Buying.Prices = []price.Offer{o, {Name: "pencil", Price: dollar, From: "job file", Place: "prices.pencil"}}
		}), "as they are in the shop", func(s *Spec) { s.Buying.Prices = nil }},
	}...)
}

// Amounts as a shop speaks of them: needs taken up, packs to the nearest.
func TestQuantityText(t *testing.T) {
	var w scribe
	for _, c := range []struct {
		q          price.Quantity
		up         bool
		us, metric string
	}{
		{price.Quantity{Measure: price.Pieces, N: 93}, true, "93", "93"},
		{price.Quantity{Measure: price.Length, N: 54864}, false, "180 ft", "54.9 m"},
		{price.Quantity{Measure: price.Length, N: 54865}, true, "181 ft", "54.9 m"},
		{price.Quantity{Measure: price.Volume, N: 473.176473}, false, "16 oz", "473 ml"},
		{price.Quantity{Measure: price.Volume, N: 473.2}, true, "16.1 oz", "474 ml"},
		{price.Quantity{Measure: price.Volume, N: 3785.411784}, false, "1 gal", "3.79 L"},
		{price.Quantity{Measure: price.Volume, N: 1500}, true, "50.8 oz", "1.5 L"},
		{price.Quantity{Measure: price.Area, N: 1219.2 * 2438.4}, false, "32 sq ft", "2.97 m²"},
		{price.Quantity{Measure: price.Area, N: 1}, true, "0.1 sq ft", "0.01 m²"},
	} {
		round := math.Round
		if c.up {
			round = math.Ceil
		}
		if got := w.quantity(c.q, round); got.US != c.us || got.Metric != c.metric || got.Measure != c.q.Measure.String() {
			t.Errorf("%+v is %+v", c.q, got)
		}
	}
}

// The same job gives the same bill, and no price changes what else is planned.
func TestPricesChangeOnlyTheBill(t *testing.T) {
	a := worked(t, cluster())
	b := worked(t, priced(cluster(), PriceList, "glue, 8 oz, $5", "pencil, , $1"))
	a.Buying, b.Buying = BuyingFacts{}, BuyingFacts{}
	if !reflect.DeepEqual(a, b) {
		t.Error("the rest of the result differs")
	}
}

// TestSmallTax: 0.0825 is reckoned with as 0.0825 %, and pointed out.
func TestSmallTax(t *testing.T) {
	for rate, want := range map[price.Rate]bool{825: true, smallTaxBelow - 1: true, smallTaxBelow: false, 82500: false} {
		s := priced(hexagons(), "job file", "glue, 8 oz, $5.00")
		s.Buying.Tax = TaxAsked{Given: true, Rate: rate}
		r := worked(t, s)
		if got := slices.ContainsFunc(r.Notes, func(n Note) bool { return n.Code == "tax-small" }); got != want {
			t.Errorf("%v: %v", rate, got)
		}
	}
}

// TestMissingPriceOfTheList: where the list prices one length, it is the list
// that wants the others.
func TestMissingPriceOfTheList(t *testing.T) {
	s := priced(hexagons(), PriceList, "1x4 8 ft, each, $5.00")
	s.Timber[0].Lengths = []StockLength{{Length: 8 * unit.Foot}, {Length: 10 * unit.Foot}}
	s.Timber[0].Length = 0
	s.Buying.Prices[0].Name = s.Timber[0].Name + " 8 ft"
	_, snags, err := Plan(context.Background(), s, BuiltIn())
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range snags {
		if g.Code == "timber-price" && strings.Contains(g.Remedy, s.Timber[0].Name+" 10 ft") && strings.Contains(g.Remedy, "price list") {
			return
		}
	}
	t.Errorf("%v", snags)
}
