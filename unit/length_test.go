package unit

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// in gives a length in sixty-fourths of an inch, the finest mark of a tape.
func in64(n int64) Length { return Length(n) * (Inch / 64) }

func TestParseLengthAsPeopleWrite(t *testing.T) {
	for text, want := range map[string]Length{
		"10 3/8 in":               in64(664),
		"10-3/8 in":               in64(664),
		`10-3/8"`:                 in64(664),
		"10⅜”":                    in64(664),
		"10 ⅜ in":                 in64(664),
		"10-⅜ in":                 in64(664),
		"10\u00a03/8\u00a0in":     in64(664),
		"10\u20093\u20448\u202f″": in64(664),
		"10.375 in":               in64(664),
		"10.375inches":            in64(664),
		"  10 3/8  in.  ":         in64(664),
		"3/8in":                   in64(24),
		"⅜ in":                    in64(24),
		"9/8 in":                  in64(72),
		".5 in":                   in64(32),
		"0010 in":                 10 * Inch,
		"1/064 in":                in64(1),
		"-1/4 in":                 in64(-16),
		"−1 1/4 in":               -Inch - in64(16),
		"- 2 in":                  -2 * Inch,
		"+2 in":                   2 * Inch,
		"1'":                      Foot,
		"1' ":                     Foot,
		"1’":                      Foot,
		"5′6″":                    66 * Inch,
		`5' 6 1/2"`:               66*Inch + in64(32),
		"5 ft 6 1/2 in":           66*Inch + in64(32),
		"5 Feet 6 1/2 Inches":     66*Inch + in64(32),
		`5'-6"`:                   66 * Inch,
		`5' - 6 1/2"`:             66*Inch + in64(32),
		"5' 6''":                  66 * Inch,
		"5 ft 0 in":               5 * Foot,
		"-5 ft 6 in":              -66 * Inch,
		"2.5 ft":                  30 * Inch,
		"264 mm":                  264 * Millimetre,
		"26.4 cm":                 264 * Millimetre,
		"2.4 m":                   2400 * Millimetre,
		"263.5mm":                 263*Millimetre + 500*Micrometre,
		"2 MM":                    2 * Millimetre,
		"1 millimeter":            Millimetre,
		"1000 m":                  MaxLength,
		"0":                       0,
		"0 in":                    0,
		"0.0000001 mm":            0, // under half a nanometre
		"0.0000005 mm":            1, // half a nanometre: away from zero
		"-0.0000005 mm":           -1,
		"1/3 in":                  8_466_667, // 8 466 666 2/3 nm
		"⅔ in":                    16_933_333,
	} {
		got, err := ParseLength(text, NoUnit)
		if err != nil || got != want {
			t.Errorf("%q is %d nm, %v; want %d nm", text, got, err, want)
		}
	}
}

func TestEveryFractionGlyph(t *testing.T) {
	for glyph, plain := range glyphs {
		a, errA := ParseLength("2"+string(glyph)+" in", NoUnit)
		b, errB := ParseLength("2 "+plain+" in", NoUnit)
		if errA != nil || errB != nil || a != b {
			t.Errorf("2%c in is %d (%v), 2 %s in is %d (%v)", glyph, a, errA, plain, b, errB)
		}
	}
}

func TestParseLengthBareNumber(t *testing.T) {
	for _, c := range []struct {
		text string
		bare Unit
		want Length
	}{
		{"10 3/8", Inches, in64(664)},
		{"264", Millimetres, 264 * Millimetre},
		{"26.4", Centimetres, 264 * Millimetre},
		{"-2.4 ", Metres, -2400 * Millimetre},
		{"5", Feet, 5 * Foot},
		{"5 in", Millimetres, 5 * Inch}, // a unit that is written wins
		{"0", Inches, 0},
	} {
		if got, err := ParseLength(c.text, c.bare); err != nil || got != c.want {
			t.Errorf("%q in %v is %d, %v; want %d", c.text, c.bare, got, err, c.want)
		}
	}
}

// Each mistake is refused at the byte where it starts, with what to write.
func TestParseLengthRefusals(t *testing.T) {
	for _, c := range []struct {
		text   string
		offset int
		part   string // of the problem
		write  string // part of the remedy
	}{
		{"", 0, "nothing", "10 3/8 in"},
		{"   ", 0, "nothing", "264 mm"},
		{"10", 2, "no unit after 10", "10 in or 10 mm"},
		{"-10 3/8", 7, "no unit", "-10 3/8 in or -10 3/8 mm"},
		{"½", 2, "no unit", "1/2 in"},
		{"5'6", 3, "no unit after 6", "5' 6 in"},
		{"5 ft -6", 7, "no unit", "5 ft 6 in"},
		{"10,5 in", 2, "comma", "10.5 in"},
		{"1,000 mm", 1, "comma", "1000 mm or 1.000 mm"},
		{"1,000,000 mm", 1, "comma", "1000000 mm"},
		{"10 furlongs", 3, `"furlongs" is no unit`, "10 in or 10 mm"},
		{"10⅜ ells", 6, `"ells" is no unit`, "10 3/8 in"},
		{"in", 0, "number is missing", "10 3/8 in"},
		{"ten in", 0, "number is missing", "10 3/8 in"},
		{"- in", 2, "number is missing", "10 3/8 in"},
		{"--2 in", 1, "number is missing", "10 3/8 in"},
		{"5. in", 0, "decimal point", "10 3/8 in"},
		{"1.2.3 in", 3, "no unit of length", "1.2 in"},
		{"3/ in", 2, "under the fraction", "3/8 in"},
		{"3/0 in", 2, "over 0", "3/8 in"},
		{"1.5/8 in", 0, "whole number on top", "3/8 in"},
		{"1 9/8 in", 2, "one or more", "10 3/8 in"},
		{"1 8/8 in", 2, "one or more", "10 3/8 in"},
		{"1.5 1/2 in", 0, "stand together", "10.375 in"},
		{"1.0 1/2 in", 0, "stand together", "10.375 in"},
		{"10 - 3/8 in", 3, "does not belong", "10 3/8 in"},
		{"10 12 in", 3, "does not belong", "10 3/8 in"},
		{"10 in 3", 6, "more stands behind", "10 in alone"},
		{"2 m 40 cm", 4, "more stands behind", "2 m alone"},
		{`5' 6" 2`, 6, "more stands behind", `5' 6" alone`},
		{"5 ft 14 in", 5, "12 in or more", "5 ft 6 in"},
		{"5.5 ft 2 in", 0, "stand together", "5 ft 6 1/2 in"},
		{"5 ft x", 5, "number is missing", "10 3/8 in"},
		{"5 ft - 1/0 in", 9, "over 0", "3/8 in"},
		{"1 3/0 in", 4, "over 0", "3/8 in"},
		{"1 3/x in", 4, "under the fraction", "3/8 in"},
		{"5 ft 20 mm", 5, "only inches", "5 ft 6 1/2 in"},
		{"1000.001 m", 0, "longer than a kilometre", "1000 m"},
		{"-4000 ft", 0, "longer than a kilometre", "1000 m"},
		{"1e3 mm", 1, "no unit", "1 in"},
		{"1_000 mm", 1, "no unit", "1 in"},
		{"0x10 mm", 1, "no unit", "0 in"},
		{"10, in", 2, "comma", "10 in"},
		{",5 in", 0, "number is missing", "10 3/8 in"},
		{"10 \xff in", 3, "UTF-8", "10 3/8 in"},
		{strings.Repeat("9", 65) + " in", 64, "too long", "10 3/8 in"},
	} {
		_, err := ParseLength(c.text, NoUnit)
		var e *ParseError
		if !errors.As(err, &e) {
			t.Errorf("%q: error %v is no *ParseError", c.text, err)
			continue
		}
		if e.Text != c.text || e.Offset != c.offset || !strings.Contains(e.Problem, c.part) || !strings.Contains(e.Write, c.write) {
			t.Errorf("%q: offset %d, %q, write %q; want %d, %q, %q", c.text, e.Offset, e.Problem, e.Write, c.offset, c.part, c.write)
		}
	}
}

func TestParseErrorText(t *testing.T) {
	_, err := ParseLength("10", NoUnit)
	if want := `"10": there is no unit after 10; write 10 in or 10 mm`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// Any decimal of millimetres is read to the nanometre that exact arithmetic
// over a different route, shifting the digits by hand, gives.
func TestParseLengthDecimalIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := rapid.Int64Range(0, 999_999).Draw(t, "whole")
		digits := rapid.StringMatching(`[0-9]{1,12}`).Draw(t, "digits")
		got, err := ParseLength(new(big.Int).SetInt64(whole).String()+"."+digits+" mm", NoUnit)
		if err != nil {
			t.Fatal(err)
		}
		nm := digits + "0000000"
		want := whole * int64(Millimetre)
		for i, place := 0, int64(100_000); i < 6; i, place = i+1, place/10 {
			want += int64(nm[i]-'0') * place
		}
		if nm[6] >= '5' {
			want++
		}
		if int64(got) != want {
			t.Fatalf("%d.%s mm is %d nm, want %d", whole, digits, got, want)
		}
	})
}

// Whatever is typed, the answer is a length within bounds or a ParseError that
// points into the text at a whole rune and says what to write.
func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"10 3/8 in", `5' 6 1/2"`, "5'-6\"", "⅜ in", "-10⅜″", "1,000 mm", "26.4 cm", "10 - 3/8 in", "½", "1/0 in", "5 ft 6", "\xff", "٣ in"} {
		f.Add(s, 0)
		f.Add(s, 1)
	}
	f.Fuzz(func(t *testing.T, s string, bare int) {
		l, err := ParseLength(s, Unit(bare))
		if err == nil {
			if l > MaxLength || l < -MaxLength {
				t.Fatalf("%q is %d nm", s, l)
			}
			return
		}
		e, ok := err.(*ParseError)
		if !ok || e.Text != s || e.Problem == "" || e.Write == "" {
			t.Fatalf("%q: %#v", s, err)
		}
		if e.Offset < 0 || e.Offset > len(s) {
			t.Fatalf("%q: offset %d", s, e.Offset)
		}
		if utf8.ValidString(s) && len(s) <= maxText && e.Offset < len(s) && !utf8.RuneStart(s[e.Offset]) {
			t.Fatalf("%q: offset %d is inside a rune", s, e.Offset)
		}
	})
}

func TestUnits(t *testing.T) {
	for _, u := range []Unit{Inches, Millimetres, Centimetres, Metres, Feet} {
		named, ok := UnitNamed(" " + strings.ToUpper(u.String()) + " ")
		if !ok || named != u {
			t.Errorf("%v is named back as %v, %v", u, named, ok)
		}
		if l, ok := Of(3, u); !ok || l != 3*u.Length() || l.In(u) != 3 {
			t.Errorf("3 %v is %d nm, %v", u, l, ok)
		}
	}
	if _, ok := UnitNamed("cubit"); ok {
		t.Error("a cubit is read")
	}
	for _, u := range []Unit{NoUnit, -1, 99} {
		if u.String() != "" || u.Length() != 0 || Inch.In(u) != 0 {
			t.Errorf("unit %d has a name or a length", int(u))
		}
		if _, ok := Of(1, u); ok {
			t.Errorf("1 of unit %d is a length", int(u))
		}
	}
	if _, ok := Of(1001, Metres); ok {
		t.Error("1001 m is a length")
	}
}

// spellings writes one length, feet, inches and sixty-fourths, in many ways.
func spellings(t *rapid.T, feet, inches, sixtyFourths int64) []string {
	space := rapid.SampledFrom([]string{" ", "  ", "\u00a0", "\u2009", "\t"}).Draw(t, "space")
	inchWord := rapid.SampledFrom([]string{"in", "in.", "inch", "inches", "IN", `"`, "″", "”", "''"}).Draw(t, "inch")
	footWord := rapid.SampledFrom([]string{"ft", "ft.", "foot", "feet", "Ft", "'", "′", "’"}).Draw(t, "foot")
	slash := rapid.SampledFrom([]string{"/", "\u2044", "\u2215"}).Draw(t, "slash")
	join := rapid.SampledFrom([]string{space, "-", "\u2010", "\u2011", "\u2013"}).Draw(t, "join")
	mixed := func(whole int64) string {
		if sixtyFourths == 0 {
			return fmt.Sprint(whole)
		}
		fraction := fmt.Sprintf("%d%s64", sixtyFourths, slash)
		if whole == 0 {
			return fraction
		}
		return fmt.Sprint(whole) + join + fraction
	}
	decimal := new(big.Rat).SetFrac64((feet*12+inches)*64+sixtyFourths, 64).FloatString(6)
	return []string{
		mixed(feet*12+inches) + space + inchWord,
		mixed(feet*12+inches) + inchWord,
		decimal + space + inchWord,
		fmt.Sprint(feet) + footWord + space + mixed(inches) + inchWord,
		fmt.Sprint(feet) + space + footWord + "-" + mixed(inches) + space + inchWord,
	}
}

// However a length is spelled it is the same length, and its negative with a
// minus before it.
func TestSpellingsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet := rapid.Int64Range(0, 40).Draw(t, "feet")
		inches := rapid.Int64Range(0, 11).Draw(t, "inches")
		part := rapid.Int64Range(0, 63).Draw(t, "sixty-fourths")
		want := Length(feet)*Foot + Length(inches)*Inch + in64(part)
		for _, text := range spellings(t, feet, inches, part) {
			if got, err := ParseLength(text, NoUnit); err != nil || got != want {
				t.Fatalf("%q is %d, %v; want %d", text, got, err, want)
			}
			if got, err := ParseLength("-"+text, NoUnit); err != nil || got != -want {
				t.Fatalf("-%q is %d, %v; want %d", text, got, err, -want)
			}
		}
	})
}

// A remedy that is a length can be typed as it stands and is then read.
func TestRemediesCanBeTyped(t *testing.T) {
	for _, text := range []string{"10", "-10 3/8", "½", "5'6", "10,5 in", "1,000 mm", "1,000,000 mm", "1.5 1/2 in", "1 9/8 in", "3/0 in", "10 furlongs", "x"} {
		_, err := ParseLength(text, NoUnit)
		var e *ParseError
		if !errors.As(err, &e) {
			t.Errorf("%q is not refused", text)
			continue
		}
		for _, write := range strings.FieldsFunc(strings.ReplaceAll(e.Write, " or ", ";"), func(r rune) bool { return r == ';' || r == ',' }) {
			if _, err := ParseLength(write, NoUnit); err != nil {
				t.Errorf("%q: the remedy %q is refused: %v", text, write, err)
			}
		}
	}
}

func BenchmarkParseLength(b *testing.B) {
	for b.Loop() {
		if _, err := ParseLength(`5' 6 1/2"`, NoUnit); err != nil {
			b.Fatal(err)
		}
	}
}
