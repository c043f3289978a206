package money

import (
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func usd(minor int64) Amount { return Amount{minor, "USD"} }

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text string
		bare Currency
		want Amount
	}{
		{"$4.49", "", usd(449)},
		{"$ 4.49", "", usd(449)},
		{"4.49 USD", "", usd(449)},
		{"4.49usd", "", usd(449)},
		{"USD\u00a04.49", "", usd(449)},
		{"$.5", "", usd(50)},
		{"$4", "", usd(400)},
		{"-$4.49", "", usd(-449)},
		{"$-4.49", "", usd(-449)},
		{"−4.49 USD", "", usd(-449)},
		{"$4.49", "EUR", usd(449)}, // what is written wins
		{"$4.49", "CAD", Amount{449, "CAD"}},
		{"EUR 12", "", Amount{1200, "EUR"}},
		{"12.00 EUR", "", Amount{1200, "EUR"}},
		{"12.5 €", "", Amount{1250, "EUR"}},
		{"£3", "", Amount{300, "GBP"}},
		{"¥300", "", Amount{300, "JPY"}},
		{"¥300", "CNY", Amount{30000, "CNY"}},
		{"1.234 KWD", "", Amount{1234, "KWD"}},
		{"4.49", "USD", usd(449)},
		{"0", "USD", usd(0)},
		{"92233720368547758.07 USD", "", usd(math.MaxInt64)},
	} {
		if got, err := Parse(c.text, c.bare); err != nil || got != c.want {
			t.Errorf("%q in %q is %v, %v; want %v", c.text, c.bare, got, err, c.want)
		}
	}
}

func TestParseRefusals(t *testing.T) {
	for _, c := range []struct {
		text   string
		bare   Currency
		offset int
		part   string
	}{
		{"", "USD", 0, "number is missing"},
		{"USD", "", 3, "number is missing"},
		{"4.49", "", 4, "no currency after 4.49"},
		{"4.49", "XYZ", 4, `"XYZ" is no currency`},
		{"4.49 XYZ", "", 5, `"XYZ" is no currency`},
		{"4.49 USD each", "", 5, "no currency that is known"},
		{"$4.49 USD", "", 0, "before and behind"},
		{"U-SD 4.49", "", 0, "no currency that is known"},
		{"--4.49", "USD", 0, "no currency that is known"},
		{"1,250.00 USD", "", 1, "comma"},
		{"4,49 EUR", "", 1, "comma"},
		{"4.499 USD", "", 0, "2 decimal places"},
		{"4.5 JPY", "", 0, "0 decimal places"},
		{"$4.", "", 1, "no decimal number"},
		{"$1.2.3", "", 1, "no decimal number"},
		{"$.", "", 1, "number is missing"},
		{",", "USD", 0, "number is missing"},
		{"92233720368547758.08 USD", "", 0, "too large"},
		{"4.49 \xff", "", 0, "no sum of money"},
		{strings.Repeat("9", 60), "USD", 0, "no sum of money"},
	} {
		_, err := Parse(c.text, c.bare)
		var e *ParseError
		if !errors.As(err, &e) || e.Text != c.text || e.Offset != c.offset || !strings.Contains(e.Problem, c.part) || e.Write == "" {
			t.Errorf("%q: %v (%+v); want %q at %d", c.text, err, e, c.part, c.offset)
		}
	}
}

func TestParseErrorText(t *testing.T) {
	for text, want := range map[string]string{
		"4.499 USD":    `"4.499 USD": USD has 2 decimal places; write 4.50 USD`,
		"4.5 JPY":      `"4.5 JPY": JPY has 0 decimal places; write 5 JPY`,
		"€ 4,49":       `"€ 4,49": a comma may mark decimals or thousands; write € 4.49`,
		"1.234,50 EUR": `"1.234,50 EUR": a comma may mark decimals or thousands; write 1234.50 EUR`,
		"$4.999":       `"$4.999": USD has 2 decimal places; write 5.00 USD`,
		"$4.994":       `"$4.994": USD has 2 decimal places; write 4.99 USD`,
		"$.999":        `"$.999": USD has 2 decimal places; write 1.00 USD`,
		"$.001":        `"$.001": USD has 2 decimal places; write 0.00 USD`,
		"$1,250":       `"$1,250": a comma may mark decimals or thousands; write $1250`,
		"$1,250.50":    `"$1,250.50": a comma may mark decimals or thousands; write $1250.50`,
		"1,2,3 USD":    `"1,2,3 USD": a comma may mark decimals or thousands; write 123 USD`,
		"12":           `"12": there is no currency after 12; write 12 USD or 12 EUR`,
	} {
		if _, err := Parse(text, ""); err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		a    Amount
		want string
	}{
		{usd(449), "4.49 USD"},
		{usd(5), "0.05 USD"},
		{usd(-5), "-0.05 USD"},
		{usd(0), "0.00 USD"},
		{usd(125000), "1250.00 USD"},
		{Amount{300, "JPY"}, "300 JPY"},
		{Amount{1, "KWD"}, "0.001 KWD"},
		{usd(math.MinInt64), "-92233720368547758.08 USD"},
		{Amount{}, "0"},
	} {
		if got := c.a.String(); got != c.want {
			t.Errorf("%#v is %q, want %q", c.a, got, c.want)
		}
	}
}

func TestAdd(t *testing.T) {
	if got, err := Sum(Amount{}, usd(449), usd(-50), Amount{}); err != nil || got != usd(399) {
		t.Errorf("the sum is %v, %v", got, err)
	}
	var mismatch *MismatchError
	if _, err := Sum(usd(1), Amount{1, "EUR"}); !errors.As(err, &mismatch) || mismatch.A != "USD" || mismatch.B != "EUR" || !strings.Contains(err.Error(), "USD and EUR") {
		t.Errorf("dollars and euros: %v", err)
	}
	for _, pair := range [][2]int64{{math.MaxInt64, 1}, {math.MinInt64, -1}, {math.MinInt64, math.MinInt64}} {
		if got, err := usd(pair[0]).Add(usd(pair[1])); !errors.Is(err, ErrTooLarge) {
			t.Errorf("%d + %d is %v, %v", pair[0], pair[1], got, err)
		}
	}
	if got, err := usd(math.MaxInt64).Add(usd(math.MinInt64)); err != nil || got != usd(-1) {
		t.Errorf("the ends add to %v, %v", got, err)
	}
}

func TestScale(t *testing.T) {
	for _, c := range []struct{ minor, num, den, want int64 }{
		{449, 1, 2, 225}, // 224.5 goes away from zero
		{-449, 1, 2, -225},
		{449, -1, 2, -225},
		{449, 1, -2, -225},
		{100, 1, 3, 33},
		{200, 1, 3, 67},
		{100, 3, 1, 300},
		{0, 7, 9, 0},
		{math.MaxInt64, math.MaxInt64, math.MaxInt64, math.MaxInt64},
	} {
		if got, err := usd(c.minor).Scale(c.num, c.den); err != nil || got != usd(c.want) {
			t.Errorf("%d × %d / %d is %v, %v; want %d", c.minor, c.num, c.den, got, err, c.want)
		}
	}
	for _, c := range []struct{ num, den int64 }{{1, 0}, {math.MaxInt64, 1}} {
		if _, err := usd(449).Scale(c.num, c.den); !errors.Is(err, ErrTooLarge) {
			t.Errorf("× %d / %d: %v", c.num, c.den, err)
		}
	}
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		sum     int64
		weights []int64
		want    []int64
	}{
		{100, []int64{1, 1, 1}, []int64{34, 33, 33}}, // the first on a tie
		{-100, []int64{1, 1, 1}, []int64{-34, -33, -33}},
		{10, []int64{6, 1, 0}, []int64{9, 1, 0}}, // 8 4/7 and 1 3/7
		{1, []int64{0, 5}, []int64{0, 1}},
		{5, []int64{3}, []int64{5}},
		{math.MinInt64, []int64{math.MaxInt64, math.MaxInt64}, []int64{math.MinInt64 / 2, math.MinInt64 / 2}},
	} {
		got, err := usd(c.sum).Split(c.weights...)
		if err != nil || len(got) != len(c.want) {
			t.Fatalf("%d by %v: %v, %v", c.sum, c.weights, got, err)
		}
		for i := range got {
			if got[i] != usd(c.want[i]) {
				t.Errorf("%d by %v is %v, want %v", c.sum, c.weights, got, c.want)
				break
			}
		}
	}
	for _, weights := range [][]int64{nil, {0, 0}, {1, -1}} {
		if got, err := usd(5).Split(weights...); err == nil {
			t.Errorf("5 by %v is %v", weights, got)
		}
	}
}

// Shares add up to the sum, and none is a whole minor unit off its exact part.
func TestSplitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sum := rapid.Int64().Draw(t, "sum")
		weights := rapid.SliceOfN(rapid.Int64Range(0, math.MaxInt64), 1, 9).Draw(t, "weights")
		total := new(big.Int)
		for _, w := range weights {
			total.Add(total, big.NewInt(w))
		}
		if total.Sign() == 0 {
			t.Skip("nothing to share by")
		}
		shares, err := usd(sum).Split(weights...)
		if err != nil {
			t.Fatal(err)
		}
		back := new(big.Int)
		for i, s := range shares {
			back.Add(back, big.NewInt(s.Minor))
			// |share × total - sum × weight| < total
			off := new(big.Int).Mul(big.NewInt(s.Minor), total)
			off.Sub(off, new(big.Int).Mul(big.NewInt(sum), big.NewInt(weights[i])))
			if off.CmpAbs(total) >= 0 {
				t.Fatalf("%d by %v: share %d is %d", sum, weights, i, s.Minor)
			}
		}
		if back.Cmp(big.NewInt(sum)) != 0 {
			t.Fatalf("%d by %v adds up to %v", sum, weights, back)
		}
	})
}

func TestParseRoundTrip(t *testing.T) {
	var codes []Currency
	for _, c := range []Currency{"USD", "EUR", "JPY", "KWD", "SEK"} {
		if !c.Known() {
			t.Fatalf("%s is not known", c)
		}
		codes = append(codes, c)
	}
	rapid.Check(t, func(t *rapid.T) {
		a := Amount{rapid.Int64Range(-math.MaxInt64, math.MaxInt64).Draw(t, "minor"), rapid.SampledFrom(codes).Draw(t, "code")}
		if got, err := Parse(a.String(), ""); err != nil || got != a {
			t.Fatalf("%v is read as %v, %v", a, got, err)
		}
	})
}

// Whatever is typed, the answer is a sum that is read back from its own text,
// or a ParseError with a place and a remedy.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"$4.49", "-4.49 USD", "EUR 12", "¥300", "1,250.00", "4.499 USD", "-$.", "\xff", "$−1"} {
		f.Add(s, "")
		f.Add(s, "USD")
	}
	f.Fuzz(func(t *testing.T, s, bare string) {
		a, err := Parse(s, Currency(bare))
		if err != nil {
			e, ok := err.(*ParseError)
			if !ok || e.Text != s || e.Offset < 0 || e.Offset > len(s) || e.Problem == "" || e.Write == "" {
				t.Fatalf("%q: %#v", s, err)
			}
			return
		}
		if back, err := Parse(a.String(), ""); err != nil || back != a {
			t.Fatalf("%q is %v, read back as %v, %v", s, a, back, err)
		}
	})
}

func TestCodes(t *testing.T) {
	for c, places := range exponents {
		if len(c) != 3 || strings.ToUpper(string(c)) != string(c) || places < 0 || places > 3 {
			t.Errorf("%q with %d places is no code of ISO 4217", c, places)
		}
	}
	for _, s := range signs {
		for _, c := range s.Currencies {
			if !c.Known() {
				t.Errorf("%s stands for %s, which is not known", s.Sign, c)
			}
		}
	}
	if Currency("XYZ").Known() || Currency("").Known() {
		t.Error("an unknown currency is known")
	}
}
