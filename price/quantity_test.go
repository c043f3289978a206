package price

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParsePack(t *testing.T) {
	for text, want := range map[string]Quantity{
		"100":             {Pieces, 100},
		"each":            {Pieces, 1},
		"1 each":          {Pieces, 1},
		" 25  pcs ":       {Pieces, 25},
		"10 sheets":       {Pieces, 10},
		"60 yd":           {Length, 54864},
		"180 ft":          {Length, 54864},
		"50 m":            {Length, 50000},
		"500 ml":          {Volume, 500},
		"2.5 L":           {Volume, 2500},
		"16 oz":           {Volume, 473.176473},
		"16 fl oz":        {Volume, 473.176473},
		"1 gal":           {Volume, 3785.411784},
		"1/2 gal":         {Volume, 1892.705892},
		"1 1/2 qt":        {Volume, 1419.529419},
		"75 sq ft":        {Area, 75 * 92903.04},
		"75 ft2":          {Area, 75 * 92903.04},
		"8 m²":            {Area, 8e6},
		"8 m2":            {Area, 8e6},
		"48 in x 96 in":   {Area, 1219.2 * 2438.4},
		"4 ft × 8 ft":     {Area, 1219.2 * 2438.4},
		"610 mm x 1.22 m": {Area, 610 * 1220},
	} {
		p, err := ParsePack(text)
		if err != nil || p.Holds.Measure != want.Measure || math.Abs(p.Holds.N-want.N) > 1e-6*want.N {
			t.Errorf("%q holds %+v, %v; want %+v", text, p.Holds, err, want)
		}
	}
}

func TestParsePackRefusals(t *testing.T) {
	for _, text := range []string{"", " ", "0", "-5", "1e3", "0x10", "2.5", "100 things", "5 kg", "ml", "oz", "3/0 l", "1 2 l", "1/2 1 l", "1 1/2 1/2 l",
		"12 in x", "x 3 ft", "0 in x 3 ft", "48 x 96", "2000000", "2 km", "99999999 l", "1.2.3 l", "4 yd 3 ft", "100.", "NaN", "inf l", "5 l."} {
		p, err := ParsePack(text)
		var e *PackError
		if !errors.As(err, &e) || e.Problem == "" || e.Write == "" || e.Text != text {
			t.Errorf("%q: %+v, %v", text, p, err)
		}
	}
}

// Every example in the remedy can be typed.
func TestExamplePacks(t *testing.T) {
	for _, text := range strings.Split(strings.ReplaceAll(ExamplePacks, " or ", ", "), ", ") {
		if _, err := ParsePack(text); err != nil {
			t.Error(err)
		}
	}
}

func FuzzParsePack(f *testing.F) {
	for _, s := range []string{"100", "60 yd", "16 oz", "48 in x 96 in", "1 1/2 gal", "m2", "×", "5 ft2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := ParsePack(s)
		if err != nil {
			return
		}
		if !(p.Holds.N > 0) || p.Holds.N > most[p.Holds.Measure] {
			t.Fatalf("%q holds %+v", s, p.Holds)
		}
		if q, err := ParsePack(p.Text); err != nil || q != p {
			t.Fatalf("%q is kept as %q, which is %+v, %v", s, p.Text, q, err)
		}
	})
}

// A need is taken up and a pack down, so that what is bought is never short; a
// whole number of grains stays itself though floats made it.
func TestGrains(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Measure(rapid.IntRange(0, 3).Draw(t, "measure"))
		n := rapid.Int64Range(1, 1e9).Draw(t, "grains")
		exact := Quantity{m, float64(n) * grains[m]}
		if exact.wanted() != n || exact.held() != n {
			t.Fatalf("%+v: %d wanted, %d held, want %d", exact, exact.wanted(), exact.held(), n)
		}
		more := Quantity{m, (float64(n) + rapid.Float64Range(0.01, 0.99).Draw(t, "more")) * grains[m]}
		if more.wanted() != n+1 || more.held() != n {
			t.Fatalf("%+v: %d wanted, %d held", more, more.wanted(), more.held())
		}
	})
	if third := (Quantity{Pieces, 0.1 + 0.2}); third.wanted() != 1 {
		t.Error(third.wanted())
	}
	if sum := (Quantity{Length, 3 * 0.1 * 100}); sum.wanted() != 3 {
		t.Error(sum.wanted())
	}
}

func TestParseRate(t *testing.T) {
	for text, want := range map[string]Rate{"8.25 %": 82500, "8.25%": 82500, "0": 0, "19": 190000, "100 %": 1000000, "7.3751 %": 73751} {
		r, ok := ParseRate(text)
		if !ok || r != want {
			t.Errorf("%q is %d, %v", text, r, ok)
		}
		if back, ok := ParseRate(r.String()); !ok || back != r {
			t.Errorf("%v is written %q", r, r.String())
		}
	}
	for _, text := range []string{"", "%", "-5 %", "101 %", "8,25 %", "1e1", "8.12345 %", "VAT"} {
		if r, ok := ParseRate(text); ok {
			t.Errorf("%q is %v", text, r)
		}
	}
}

func TestNames(t *testing.T) {
	for c := Boards; c <= Consumables; c++ {
		if strings.HasPrefix(c.String(), "class") {
			t.Errorf("class %d has no name", int(c))
		}
	}
	for m := Pieces; m <= Volume; m++ {
		if strings.HasPrefix(m.String(), "measure") {
			t.Errorf("measure %d has no name", int(m))
		}
	}
	if Class(99).String() != "class 99" || Measure(-1).String() != "measure -1" {
		t.Error("names beyond the last")
	}
}
