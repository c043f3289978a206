package price

import (
	"errors"
	"math/big"
	"testing"

	"bowerwright/money"

	"pgregory.net/rapid"
)

func pack(t testing.TB, text string) Pack {
	t.Helper()
	p, err := ParsePack(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func usd(minor int64) money.Amount { return money.Amount{Minor: minor, Currency: "USD"} }

func offer(t testing.TB, name, in string, minor int64) Offer {
	o := Offer{Name: name, Price: usd(minor), From: "price list"}
	if in != "" {
		o.Pack = pack(t, in)
	}
	return o
}

// shelf is what a small job needs.
func shelf(t testing.TB) []Line {
	return []Line{
		{Name: "pine 8 ft", Also: []string{"pine 2438 mm"}, Class: Boards, Need: Quantity{Pieces, 7}, Packs: []Pack{pack(t, "each")}},
		{Name: "No. 8 x 1 1/4 in", Class: Fixings, Need: Quantity{Pieces, 93}, Packs: []Pack{pack(t, "100")}},
		{Name: "glue", Class: GlueAndTape, Need: Quantity{Volume, 230}, Packs: Usual("glue", false)},
		{Name: "masking tape", Class: FillingAndFinish, Need: Quantity{Length, 60000}, Packs: Usual("tape", false)},
	}
}

func reckon(t testing.TB, lines []Line, list []Offer, s Settings) Bill {
	t.Helper()
	b, problems, err := Reckon(lines, list, s)
	if err != nil || stops(problems) {
		t.Fatal(problems, err)
	}
	return b
}

func TestBill(t *testing.T) {
	spare := map[Class]float64{Fixings: 0.10, GlueAndTape: 0.10}
	list := []Offer{
		offer(t, "pine 2438 mm", "each", 449),
		offer(t, "#8 × 1-1/4\"", "100", 649),
		offer(t, "glue", "8 oz", 549), offer(t, "glue", "16 oz", 899),
	}
	b := reckon(t, shelf(t), list, Settings{Spare: spare, Tax: 82500})
	// 93 screws and a tenth are 103: two boxes. 230 ml and a tenth are 253: one of
	// 8 oz (236.6 ml) is not enough, two are 10.98, one of 16 oz is 8.99.
	for i, want := range []struct {
		packs, cost int64
		text        string
	}{{7, 3143, "each"}, {2, 1298, "100"}, {1, 899, "16 oz"}, {2, 0, "60 yd"}} {
		l := b.Lines[i]
		if p := l.Packs[0]; p.Count != want.packs || l.Cost.Minor != want.cost || p.Pack.Text != want.text {
			t.Errorf("%s: %+v", l.Line.Name, l)
		}
	}
	if b.Lines[1].Want.N != 103 || len(b.Lines[2].Packs) != 2 || b.Lines[2].Packs[1].Count != 0 {
		t.Errorf("%+v", b.Lines)
	}
	// 31.43 + 12.98 + 8.99 = 53.40; 8.25 % of it is 4.4055, so 4.41.
	if b.Subtotal != usd(5340) || b.Total != usd(5781) || b.Unpriced != 1 || b.Currency != "USD" {
		t.Errorf("%v %v %d", b.Subtotal, b.Total, b.Unpriced)
	}
	if len(b.Taxes) != 1 || b.Taxes[0] != (Tax{82500, usd(5340), usd(441)}) {
		t.Errorf("%+v", b.Taxes)
	}
}

// Tax is rounded once for each rate on the sum, half up; included tax is the
// part of what is paid. 19 % in 119.00 is 19.00.
func TestTax(t *testing.T) {
	seven, none := Rate(70000), Rate(0)
	lines := []Line{
		{Name: "a", Need: Quantity{Pieces, 1}}, {Name: "b", Need: Quantity{Pieces, 1}}, {Name: "c", Need: Quantity{Pieces, 1}}, {Name: "d", Need: Quantity{Pieces, 1}},
	}
	at := func(name string, minor int64, r *Rate) Offer {
		o := offer(t, name, "each", minor)
		o.Tax = r
		return o
	}
	for _, c := range []struct {
		name     string
		list     []Offer
		tax      Rate
		included bool
		taxes    []int64
		total    int64
	}{
		{"on the sum and not line by line", []Offer{at("a", 10, nil), at("b", 10, nil), at("c", 10, nil)}, 50000, false, []int64{2}, 32},
		{"half goes up", []Offer{at("a", 10, nil)}, 50000, false, []int64{1}, 11},
		{"under half goes down", []Offer{at("a", 9, nil)}, 50000, false, nil, 9},
		{"included", []Offer{at("a", 11900, nil)}, 190000, true, []int64{1900}, 11900},
		{"two rates", []Offer{at("a", 1000, nil), at("b", 1000, &seven)}, 190000, false, []int64{70, 190}, 2260},
		{"an untaxed line", []Offer{at("a", 1000, nil), at("b", 1000, &none)}, 100000, false, []int64{100}, 2100},
		{"no tax", []Offer{at("a", 1000, nil)}, 0, false, nil, 1000},
	} {
		b := reckon(t, lines, c.list, Settings{Tax: c.tax, Included: c.included})
		var got []int64
		for _, x := range b.Taxes {
			if x.Tax.Minor > 0 {
				got = append(got, x.Tax.Minor)
			}
		}
		if b.Total.Minor != c.total || len(got) != len(c.taxes) {
			t.Errorf("%s: %+v", c.name, b)
			continue
		}
		for i := range got {
			if got[i] != c.taxes[i] {
				t.Errorf("%s: %v, want %v", c.name, got, c.taxes)
			}
		}
	}
}

// The total is the sum of the lines and of the taxes, each tax within half a
// cent of its share, and every line holds what is wanted.
func TestBillAddsUp(t *testing.T) {
	packs := []string{"each", "7", "10", "100"}
	rapid.Check(t, func(t *rapid.T) {
		var lines []Line
		var list []Offer
		for i := range rapid.IntRange(0, 8).Draw(t, "lines") {
			name := string(rune('a' + i))
			lines = append(lines, Line{Name: name, Class: Class(rapid.IntRange(0, 5).Draw(t, "class")),
				Need: Quantity{Pieces, float64(rapid.IntRange(0, 500).Draw(t, "need"))}, Have: Quantity{Pieces, float64(rapid.IntRange(0, 300).Draw(t, "have"))}})
			for _, p := range packs {
				if rapid.Bool().Draw(t, "offered") {
					o := Offer{Name: name, Price: usd(rapid.Int64Range(0, 5000).Draw(t, "price"))}
					o.Pack, _ = ParsePack(p)
					if rapid.Bool().Draw(t, "own tax") {
						r := Rate(rapid.Int64Range(0, whole).Draw(t, "rate"))
						o.Tax = &r
					}
					list = append(list, o)
				}
			}
		}
		s := Settings{Spare: map[Class]float64{Fixings: 0.1, Consumables: 0.5}, Yield: 0.8,
			Tax: Rate(rapid.Int64Range(0, whole).Draw(t, "tax")), Included: rapid.Bool().Draw(t, "included")}
		b, problems, err := Reckon(lines, list, s)
		if err != nil || len(problems) > 0 {
			t.Fatal(problems, err)
		}
		lineSum, onSum, unpriced := int64(0), int64(0), 0
		for _, l := range b.Lines {
			packSum, holds := int64(0), 0.0
			for _, p := range l.Packs {
				packSum += p.Cost.Minor
				holds += float64(p.Count) * p.Pack.Holds.N
				if p.Cost.Minor != p.Count*p.Price.Minor {
					t.Fatalf("%+v", p)
				}
			}
			if packSum != l.Cost.Minor || holds+l.Line.Have.N < l.Want.N || l.Want.N < l.Line.Need.N || holds != l.Gets.N {
				t.Fatalf("%+v", l)
			}
			if !l.Priced && holds > 0 {
				unpriced++
			}
			lineSum += l.Cost.Minor
		}
		want := lineSum
		for _, x := range b.Taxes {
			of := int64(whole)
			if s.Included {
				of += int64(x.Rate)
			}
			share := big.NewRat(x.On.Minor*int64(x.Rate), of)
			off := new(big.Rat).Sub(big.NewRat(x.Tax.Minor, 1), share)
			if off.Cmp(big.NewRat(1, 2)) > 0 || off.Cmp(big.NewRat(-1, 2)) <= 0 {
				t.Fatalf("%+v is off by %v", x, off)
			}
			onSum += x.On.Minor
			if !s.Included {
				want += x.Tax.Minor
			}
		}
		if b.Subtotal.Minor != lineSum || b.Total.Minor != want || b.Unpriced != unpriced || onSum > lineSum {
			t.Fatalf("%+v", b)
		}
	})
}

// A sheet's area: 2 m² of pieces at a yield of 80 % are 2.5 m², one sheet of
// 4 x 8 ft (2.97 m²); 2.5 m² are 3.125 and two.
func TestSheets(t *testing.T) {
	line := Line{Name: "1/8 in plywood", Class: Sheets, Packs: []Pack{pack(t, "48 in x 96 in")}}
	for need, want := range map[float64]int64{2e6: 1, 2.5e6: 2} {
		line.Need = Quantity{Area, need}
		b := reckon(t, []Line{line}, nil, Settings{Yield: 0.8})
		if l := b.Lines[0]; l.Packs[0].Count != want || l.Want.N != need/0.8 {
			t.Errorf("%g: %+v", need, l)
		}
	}
}

// What is in hand is not bought; of what is in hand enough, nothing.
func TestInHand(t *testing.T) {
	line := Line{Name: "glue", Class: GlueAndTape, Need: Quantity{Volume, 400}, Packs: Usual("glue", true)}
	for have, want := range map[float64]string{0: "500 ml", 200: "250 ml", 250.5: "250 ml", 500: ""} {
		line.Have = Quantity{Volume, have}
		b := reckon(t, []Line{line}, nil, Settings{Spare: map[Class]float64{GlueAndTape: 0.25}})
		got := ""
		if p := b.Lines[0].Packs[0]; p.Count == 1 {
			got = p.Pack.Text
		}
		if want == "" && b.Lines[0].Gets.N != 0 || got != want && have != 200 || b.Lines[0].Want.N != 500 {
			t.Errorf("%g ml in hand: %+v", have, b.Lines[0])
		}
	}
	line.Have = Quantity{Pieces, 500} // not its measure: nothing is taken off
	if b := reckon(t, []Line{line}, nil, Settings{}); b.Lines[0].Gets.N < 400 {
		t.Errorf("%+v", b.Lines[0])
	}
}

// Without prices the least amount is bought that covers the need; without packs
// just as much as is wanted, to the centimetre.
func TestWithoutPrices(t *testing.T) {
	b := reckon(t, []Line{
		{Name: "glue", Need: Quantity{Volume, 300}, Packs: Usual("glue", false)},
		{Name: "rope", Need: Quantity{Length, 1234}},
		{Name: "nothing", Need: Quantity{Pieces, 0}, Packs: []Pack{pack(t, "10")}},
	}, nil, Settings{Tax: 82500})
	if p := b.Lines[0].Packs[0]; p.Count != 1 || p.Pack.Text != "16 oz" {
		t.Errorf("%+v", b.Lines[0])
	}
	if l := b.Lines[1]; l.Gets.N != 1240 || l.Packs[0].Count != 1 {
		t.Errorf("%+v", l)
	}
	if l := b.Lines[2]; l.Gets.N != 0 || l.Packs[0].Count != 0 {
		t.Errorf("%+v", l)
	}
	if b.Total != (money.Amount{}) || b.Unpriced != 2 || b.Currency != "" || b.Taxes != nil {
		t.Errorf("%+v", b)
	}
}

func TestSumTooLarge(t *testing.T) {
	lines := []Line{{Name: "a", Need: Quantity{Pieces, 3}}, {Name: "b", Need: Quantity{Pieces, 1}}}
	for _, list := range [][]Offer{
		{offer(t, "a", "each", 1<<62)},
		{offer(t, "a", "7", 1<<62), offer(t, "b", "each", 1<<62)},
	} {
		if _, _, err := Reckon(lines, list, Settings{}); !errors.Is(err, money.ErrTooLarge) {
			t.Errorf("%v", err)
		}
	}
	if _, _, err := Reckon(lines, []Offer{offer(t, "b", "each", 1<<62)}, Settings{Tax: whole}); !errors.Is(err, money.ErrTooLarge) {
		t.Errorf("with tax: %v", err)
	}
}
