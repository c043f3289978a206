package jobfile

import (
	"reflect"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/unit"
)

// Every form of a line about lengths and about what is on hand.
func TestStockLines(t *testing.T) {
	const in, ft, mm = unit.Inch, unit.Foot, unit.Millimetre
	long := func(l unit.Length, cents int64, currency string, most int) job.StockLength {
		return job.StockLength{Length: l, PriceMinor: cents, Currency: currency, Most: most}
	}
	for line, want := range map[string]job.StockLength{
		"8 ft":                         long(8*ft, 0, "", 0),
		"8 ft at $4.49":                long(8*ft, 449, "USD", 0),
		"10 ft at $5.80, at most 6":    long(10*ft, 580, "USD", 6),
		"10 ft AT $5.80 at  most 6":    long(10*ft, 580, "USD", 6),
		"10 ft, at most 1":             long(10*ft, 0, "", 1),
		"2.4 m at EUR 3.95":            long(2400*mm, 395, "EUR", 0),
		"2.4 m at 3.95 EUR, at most 2": long(2400*mm, 395, "EUR", 2),
		"96 at 4":                      long(96*in, 400, "USD", 0),
		"8 ft at $0":                   long(8*ft, 0, "USD", 0),
	} {
		s, _ := clean(t, "bowerwright: 1\nname: A\nunit: in\ncurrency: USD\ntimber:\n  a:\n    board: 1x4\n    lengths:\n      - "+line+"\nframes: {a: {shape: square, side: 10 in}}\nlayout: {A1: \"a at 0, 0\"}\n")
		if len(s.Timber) != 1 || !reflect.DeepEqual(s.Timber[0].Lengths, []job.StockLength{want}) {
			t.Errorf("%s: %+v", line, s.Timber)
		}
	}
	for line, want := range map[string]job.HandBoard{
		"41 in":                     {Count: 1, Length: 41 * in},
		"3 of 28 1/2 in":            {Count: 3, Length: 28*in + in/2},
		"12 of 41 in at $1":         {Count: 12, Length: 41 * in, PriceMinor: 100, Currency: "USD"},
		"60 in at $1":               {Count: 1, Length: 60 * in, PriceMinor: 100, Currency: "USD"},
		"96 in, unusable 31 to 33":  {Count: 1, Length: 96 * in, Spans: [][2]unit.Length{{31 * in, 33 * in}}},
		"1 of 8 ft unusable 0 to 2": {Count: 1, Length: 8 * ft, Spans: [][2]unit.Length{{0, 2 * in}}},
		"96 in, unusable 31 in to 33 in and 60 in to 61 in": {Count: 1, Length: 96 * in, Spans: [][2]unit.Length{{31 * in, 33 * in}, {60 * in, 61 * in}}},
		"2.4 m, unusable 31 cm to 0.33 m, 60 cm to 610 mm":  {Count: 1, Length: 2400 * mm, Spans: [][2]unit.Length{{310 * mm, 330 * mm}, {600 * mm, 610 * mm}}},
	} {
		s, _ := clean(t, "bowerwright: 1\nname: A\nunit: in\ncurrency: USD\ncutting: fewest changes\ntimber:\n  a:\n    board: 1x4\n    spare parts: 2\n    reject: 5 %\n    on hand:\n      - "+line+
			"\nframes: {a: {shape: square, side: 10 in}}\nlayout: {A1: \"a at 0, 0\"}\n")
		if len(s.Timber) != 1 || !reflect.DeepEqual(s.Timber[0].OnHand, []job.HandBoard{want}) {
			t.Errorf("%s: %+v", line, s.Timber)
		}
		if u := s.Timber[0]; u.SpareParts != 2 || u.Reject != 5 || s.Cutting != job.FewestChanges {
			t.Errorf("%d spare, %g %% reject, %s", u.SpareParts, u.Reject, s.Cutting)
		}
	}
}

// What the job says of lengths goes over what the shop file says of them,
// whichever way either says it.
func TestLengthsGoOverTheShops(t *testing.T) {
	const job = "bowerwright: 1\nname: A\ntimber: {a: {%}}\nframes: {a: {shape: square, side: 10 in}}\nlayout: {A1: \"a at 0, 0\"}\n"
	const shop = "bowerwright-shop: 1\ntimber: {a: {board: 1x4, %}}\n"
	for _, c := range []struct {
		shop, job string
		want      []unit.Length
	}{
		{"lengths: [8 ft at $4, 10 ft at $5]", "length: 6 ft", []unit.Length{6 * unit.Foot}},
		{"length: 6 ft, price: $3", "lengths: [8 ft, 10 ft]", []unit.Length{8 * unit.Foot, 10 * unit.Foot}},
		{"lengths: [8 ft at $4, 10 ft at $5]", "lengths: [12 ft at $7]", []unit.Length{12 * unit.Foot}},
		{"lengths: [8 ft at $4, 10 ft at $5]", "reject: 1 %", []unit.Length{8 * unit.Foot, 10 * unit.Foot}},
	} {
		fill := func(text, with string) []byte { return []byte(strings.Replace(text, "%", with, 1)) }
		s, _, snags := Read(fill(job, c.job), "job.yaml", fill(shop, c.shop), "shop.yaml")
		if snags.Stops() || len(s.Timber) != 1 {
			t.Fatalf("%s over %s: %v", c.job, c.shop, snags)
		}
		var got []unit.Length
		for _, l := range s.Timber[0].Lengths {
			got = append(got, l.Length)
		}
		if s.Timber[0].Length > 0 {
			got = append(got, s.Timber[0].Length)
		}
		if !reflect.DeepEqual(got, c.want) || s.Timber[0].Length > 0 && len(s.Timber[0].Lengths) > 0 {
			t.Errorf("%s over %s: %+v", c.job, c.shop, s.Timber[0])
		}
	}
}
