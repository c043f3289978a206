package price

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"bowerwright/unit"
)

// A Measure is what a quantity is counted in.
type Measure int

// The measures.
const (
	Pieces Measure = iota // whole numbers
	Length                // mm
	Area                  // mm²
	Volume                // ml
)

// String names a measure.
func (m Measure) String() string {
	names := [...]string{"pieces", "length", "area", "volume"}
	if m < 0 || int(m) >= len(names) {
		return fmt.Sprintf("measure %d", int(m))
	}
	return names[m]
}

// A Quantity is so many pieces, mm, mm² or ml.
type Quantity struct {
	Measure Measure
	N       float64
}

// grains are the steps in which packs are weighed against a need: one piece, a
// centimetre of tape, a square centimetre of sheet, a millilitre. Finer steps
// would decide nothing in a shop.
var grains = [...]float64{Pieces: 1, Length: 10, Area: 100, Volume: 1}

// dust is the part of a grain by which a quantity may be over a whole number of
// grains and still be that number: what floats leave of sums like 3 x 0.1.
const dust = 1e-6

// wanted is a need in grains, taken up.
func (q Quantity) wanted() int64 {
	n := q.N / grains[q.Measure]
	return int64(math.Ceil(n - dust))
}

// held is what a pack holds in grains, taken down, and at least one.
func (q Quantity) held() int64 {
	n := q.N / grains[q.Measure]
	return max(1, int64(math.Floor(n+dust)))
}

// less is what is left of a quantity when another of its measure is taken off.
func (q Quantity) less(have Quantity) Quantity {
	if have.Measure == q.Measure {
		q.N = max(0, q.N-have.N)
	}
	return q
}

// up makes pieces whole.
func (q Quantity) up() Quantity {
	if q.Measure == Pieces {
		q.N = float64(q.wanted())
	}
	return q
}

// A Pack is what a thing is sold in: what stands on it, and what it holds.
type Pack struct {
	Text  string // 16 oz
	Holds Quantity
	From  string // source and status, when the pack is an assumption
}

// A PackError is a pack that could not be read.
type PackError struct{ Text, Problem, Write string }

// Error says text, problem and remedy in one line.
func (e *PackError) Error() string {
	return fmt.Sprintf("%q: %s; write %s", e.Text, e.Problem, e.Write)
}

// ExamplePacks are how packs are written, for remedies.
const ExamplePacks = "100, 60 yd, 500 ml, 16 oz, 75 sq ft or 48 in x 96 in"

// The US gallon is 231 cubic inches exactly, the fluid ounce a 128th of it; a
// yard is 914.4 mm. Source: NIST SP 811, appendix B (from memory).
const (
	gallon     = 231 * 25.4 * 25.4 * 25.4 / 1000 // ml
	squareFoot = 304.8 * 304.8
)

// units of packs, besides those of lengths.
var units = map[string]Quantity{
	"": {Pieces, 1}, "each": {Pieces, 1}, "piece": {Pieces, 1}, "pieces": {Pieces, 1}, "pcs": {Pieces, 1}, "sheet": {Pieces, 1}, "sheets": {Pieces, 1},
	"yd": {Length, 914.4}, "yard": {Length, 914.4}, "yards": {Length, 914.4},
	"sq ft": {Area, squareFoot}, "ft2": {Area, squareFoot}, "ft²": {Area, squareFoot},
	"sq m": {Area, 1e6}, "m2": {Area, 1e6}, "m²": {Area, 1e6},
	"ml": {Volume, 1}, "cl": {Volume, 10}, "l": {Volume, 1000}, "litre": {Volume, 1000}, "litres": {Volume, 1000}, "liter": {Volume, 1000}, "liters": {Volume, 1000},
	"oz": {Volume, gallon / 128}, "fl oz": {Volume, gallon / 128}, "pt": {Volume, gallon / 8}, "pint": {Volume, gallon / 8}, "pints": {Volume, gallon / 8},
	"qt": {Volume, gallon / 4}, "quart": {Volume, gallon / 4}, "quarts": {Volume, gallon / 4}, "gal": {Volume, gallon}, "gallon": {Volume, gallon}, "gallons": {Volume, gallon},
}

// most is the largest pack that is read, in its measure's own units: a million
// pieces, a kilometre, 1000 m², a thousand litres.
var most = [...]float64{Pieces: 1e6, Length: 1e6, Area: 1e9, Volume: 1e6}

// ParsePack reads what a pack holds: 100, each, 60 yd, 500 ml, 16 oz (a US
// fluid ounce), 1 1/2 gal, 75 sq ft, 48 in x 96 in (a sheet). The error is a
// *PackError.
func ParsePack(text string) (Pack, error) {
	p := Pack{Text: strings.Join(strings.Fields(text), " ")}
	fail := func(problem string) (Pack, error) {
		return Pack{}, &PackError{text, problem, ExamplePacks}
	}
	if p.Text == "" {
		return fail("nothing says what a pack holds")
	}
	q, ok := parseSheet(p.Text)
	if !ok {
		q, ok = parseMeasured(p.Text)
	}
	switch {
	case !ok:
		return fail("this is no size of a pack that can be read")
	case !(q.N > 0):
		return fail("a pack holds more than nothing")
	case q.N > most[q.Measure]:
		return fail("no pack is so large")
	case q.Measure == Pieces && q.N != math.Trunc(q.N):
		return fail("pieces are whole")
	}
	p.Holds = q
	return p, nil
}

// parseSheet reads width x length.
func parseSheet(text string) (Quantity, bool) {
	a, b, two := strings.Cut(strings.ReplaceAll(text, "×", "x"), " x ")
	w, errW := unit.ParseLength(a, unit.NoUnit)
	l, errL := unit.ParseLength(b, unit.NoUnit)
	return Quantity{Area, w.MM() * l.MM()}, two && errW == nil && errL == nil && w > 0 && l > 0
}

// parseMeasured reads a number and its unit.
func parseMeasured(text string) (Quantity, bool) {
	if l, err := unit.ParseLength(text, unit.NoUnit); err == nil {
		return Quantity{Length, l.MM()}, true
	}
	at := strings.LastIndexAny(text, "0123456789") + 1
	name := strings.ToLower(strings.TrimSpace(text[at:]))
	if at > 0 && strings.HasPrefix(text[at:], ".") || at == 0 && name != "each" {
		return Quantity{}, false
	}
	for _, two := range []string{"ft2", "m2"} { // their last figure is not the number's
		if rest, ok := strings.CutSuffix(strings.ToLower(text), two); ok {
			name, at = two, len(rest)
		}
	}
	u, known := units[name]
	n, ok := parseNumber(strings.TrimSpace(text[:at]))
	return Quantity{u.Measure, n * u.N}, known && ok
}

// parseNumber reads 100, 2.5, 1/2 and 1 1/2; nothing is 1, as in "each".
func parseNumber(text string) (float64, bool) {
	if text == "" {
		return 1, true
	}
	total := 0.0
	for i, f := range strings.Fields(text) {
		top, bottom, broken := strings.Cut(f, "/")
		n, err := plainNumber(top)
		if err != nil || i > 1 || i == 1 && !broken {
			return 0, false
		}
		if broken {
			d, err := plainNumber(bottom)
			if err != nil || d == 0 {
				return 0, false
			}
			n /= d
		}
		total += n
	}
	return total, true
}

// plainNumber refuses signs, exponents, and what else ParseFloat takes.
func plainNumber(s string) (float64, error) {
	if s == "" || strings.Trim(s, "0123456789.") != "" {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(s, 64)
}

// ParseRate reads a rate of tax: 8.25 %, or 0. At most four decimals, 0 to
// 100 %.
func ParseRate(text string) (Rate, bool) {
	figures := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	_, decimals, _ := strings.Cut(figures, ".")
	n, err := plainNumber(figures)
	if err != nil || len(decimals) > 4 || n > 100 {
		return 0, false
	}
	return Rate(math.Round(n * whole / 100)), true
}

// String writes a rate: 8.25 %.
func (r Rate) String() string {
	return strconv.FormatFloat(float64(r)/(whole/100), 'f', -1, 64) + " %"
}
