package stock

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/unit"
)

// size builds a Size from the short notation "3/4 in, 3 1/2 in".
func size(t *testing.T, name, measures string) Size {
	t.Helper()
	thick, wide, _ := strings.Cut(measures, ",")
	return Size{Name: name, Thickness: length(t, thick), Width: length(t, wide)}
}

func length(t *testing.T, s string) unit.Length {
	t.Helper()
	l, err := unit.ParseLength(s, unit.NoUnit)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// Source: PS 20 dressed dry sizes, second-hand (a public table of lumber
// dimensions; 1x6 and 4x4 agree with a grading bureau's page). The thickness of
// 5/4 is PS 20-20 Table 3 from memory, European sizes are trade practice from
// memory. The millimetres are those the table prints.
func TestNominalSizes(t *testing.T) {
	c := BuiltIn()
	for _, want := range []struct {
		name, measures string
		mm             [2]float64
	}{
		{"1x2", "3/4 in, 1 1/2 in", [2]float64{19, 38}},
		{"1x3", "3/4 in, 2 1/2 in", [2]float64{19, 64}},
		{"1x4", "3/4 in, 3 1/2 in", [2]float64{19, 89}},
		{"1x5", "3/4 in, 4 1/2 in", [2]float64{19, 114}},
		{"1x6", "3/4 in, 5 1/2 in", [2]float64{19, 140}},
		{"1x8", "3/4 in, 7 1/4 in", [2]float64{19, 184}},
		{"1x10", "3/4 in, 9 1/4 in", [2]float64{19, 235}},
		{"1x12", "3/4 in, 11 1/4 in", [2]float64{19, 286}},
		{"2x2", "1 1/2 in, 1 1/2 in", [2]float64{38, 38}},
		{"2x3", "1 1/2 in, 2 1/2 in", [2]float64{38, 64}},
		{"2x4", "1 1/2 in, 3 1/2 in", [2]float64{38, 89}},
		{"2x6", "1 1/2 in, 5 1/2 in", [2]float64{38, 140}},
		{"2x8", "1 1/2 in, 7 1/4 in", [2]float64{38, 184}},
		{"2x10", "1 1/2 in, 9 1/4 in", [2]float64{38, 235}},
		{"2x12", "1 1/2 in, 11 1/4 in", [2]float64{38, 286}},
		{"5/4x6", "1 in, 5 1/2 in", [2]float64{25, 140}},
		{"20x145", "20 mm, 145 mm", [2]float64{20, 145}},
		{"20.5x94", "20.5 mm, 94 mm", [2]float64{21, 94}},
	} {
		got, ok := c.Lookup(want.name)
		w := size(t, want.name, want.measures)
		if !ok || got.Thickness != w.Thickness || got.Width != w.Width || got.Name != want.name {
			t.Errorf("%s is %+v, want %s", want.name, got, want.measures)
		}
		if math.Round(got.Thickness.MM()) != want.mm[0] || math.Round(got.Width.MM()) != want.mm[1] {
			t.Errorf("%s is %v by %v mm, want %v", want.name, got.Thickness.MM(), got.Width.MM(), want.mm)
		}
	}
}

func TestLookupSpellings(t *testing.T) {
	c := BuiltIn()
	for text, want := range map[string]string{
		"1x4": "1x4", "1 x 4": "1x4", "1X4": "1x4", "1×4": "1x4", "1\u00a0×\u00a04": "1x4", " 1 by 4 ": "1x4",
		"5/4 x 6": "5/4x6", "20 x 145": "20x145",
	} {
		if got, ok := c.Lookup(text); !ok || got.Name != want {
			t.Errorf("%q finds %q, want %q", text, got.Name, want)
		}
	}
	for text, want := range map[string]string{
		"1x7": "1x6", "1x44": "1x12", "20 x 154": "20x145", "5/4x5": "5/4x4", "3x4": "1x4", "plank": "", "": "", "1x": "1x2",
	} {
		if _, ok := c.Lookup(text); ok {
			t.Errorf("%q is found", text)
		}
		if got := c.DidYouMean(text); got != want {
			t.Errorf("%q is taken for %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string]string{
		"3/4 plywood": "3/4 plywood", `3/4" ply`: "3/4 plywood", "3/4 in Plywood": "3/4 plywood", "1-1/8 plywood": "1 1/8 plywood",
	} {
		if got, ok := c.Sheet(text); !ok || got.Name != want {
			t.Errorf("%q finds %q, want %q", text, got.Name, want)
		}
	}
	if got := c.SheetDidYouMean("3/4 plywod"); got != "3/4 plywood" {
		t.Errorf("a mistyped sheet is taken for %q", got)
	}
	for text, want := range map[string]string{
		"EWP": "Eastern White Pine", "eastern white pine": "Eastern White Pine", "spf": "Spruce-Pine-Fir", "Spruce Pine Fir": "Spruce-Pine-Fir",
		"SPF-S": "Spruce-Pine-Fir (South)", "poplar": "Yellow Poplar",
	} {
		if got, ok := c.Species(text); !ok || got.Name != want {
			t.Errorf("%q finds %q, want %q", text, got.Name, want)
		}
	}
	if got := c.SpeciesDidYouMean("ponderossa pine"); got != "Ponderosa Pine" {
		t.Errorf("a mistyped species is taken for %q", got)
	}
}

// Every row says where it comes from and how well it is known.
func TestEveryRowHasASource(t *testing.T) {
	c := BuiltIn()
	var all []Provenance
	for _, s := range c.Sizes() {
		all = append(all, s.Provenance)
	}
	for _, s := range c.Sheets() {
		all = append(all, s.Provenance, s.Area)
	}
	for _, s := range c.AllSpecies() {
		all = append(all, s.Provenance)
	}
	for _, s := range slices.Concat(c.Lengths(US), c.Lengths(EU)) {
		all = append(all, s.Provenance)
	}
	for i, p := range all {
		if p.Source == "" || !p.Status.Known() || p.Origin != assume.BuiltIn {
			t.Errorf("row %d: %+v", i, p)
		}
	}
	if len(c.Sizes()) != 36 || len(c.Sheets()) != 12 || len(c.AllSpecies()) != 26 {
		t.Errorf("%d sizes, %d sheets, %d species", len(c.Sizes()), len(c.Sheets()), len(c.AllSpecies()))
	}
}

// Every row is found by its own name: no name hides another.
func TestEveryRowIsFound(t *testing.T) {
	c := BuiltIn()
	for _, s := range c.Sizes() {
		if got, ok := c.Lookup(s.Name); !ok || got != s {
			t.Errorf("%s finds %s", s.Name, got.Name)
		}
	}
	for _, s := range c.Sheets() {
		if got, ok := c.Sheet(s.Name); !ok || got != s {
			t.Errorf("%s finds %s", s.Name, got.Name)
		}
	}
	for _, s := range c.AllSpecies() {
		for _, name := range append([]string{s.Name}, s.Also...) {
			if got, ok := c.Species(name); !ok || got.Name != s.Name {
				t.Errorf("%s finds %s", name, got.Name)
			}
		}
	}
}

// Source: PS 1 performance categories, APA table (seen): least and greatest in
// inches, and the tolerance it states, 1/32 in up to 13/16, 5 percent above,
// about the nominal category.
func TestPlywood(t *testing.T) {
	c := BuiltIn()
	for _, want := range []struct {
		name               string
		least, most, label float64
	}{
		{"1/4", 0.219, 0.281, 0.225},
		{"15/32", 0.438, 0.500, 0.451},
		{"1/2", 0.469, 0.531, 0.483},
		{"23/32", 0.688, 0.750, 0.703},
		{"3/4", 0.719, 0.781, 0.734},
		{"1-1/8", 1.069, 1.181, 1.091},
	} {
		s, ok := c.Sheet(want.name + " plywood")
		if !ok || s.Thinnest.Inches() != want.least || s.Thickest.Inches() != want.most || s.Thickness.Inches() != want.label {
			t.Errorf("%s plywood is %+v", want.name, s)
		}
	}
	for _, s := range c.Sheets() {
		nominal := length(t, strings.TrimSuffix(s.Name, " plywood")+" in")
		tolerance := unit.Inch / 32
		if nominal > unit.Inch*13/16 {
			tolerance = nominal / 20
		}
		// The table prints thousandths of an inch: half of one is lost.
		slack := unit.Inch / 2000
		// Its row 7/8 allows 0.044, its rows over 1 in 0.050 and 0.056.
		if (s.Thickest-nominal-tolerance).MM() > slack.MM() || (nominal-tolerance-s.Thinnest).MM() > slack.MM() {
			t.Errorf("%s: %v to %v in is wider than the tolerance", s.Name, s.Thinnest.Inches(), s.Thickest.Inches())
		}
		if s.Width != 4*unit.Foot || s.Length != 8*unit.Foot { // PS 1, from memory
			t.Errorf("%s is %v by %v in", s.Name, s.Width.Inches(), s.Length.Inches())
		}
	}
}

func TestLengthsSold(t *testing.T) {
	// Boards in the United States, trade pages (from memory); Finland, standard
	// sawn lengths, puuinfo.fi (seen).
	for region, want := range map[Region][]float64{
		US: {1829, 2438, 3048, 3658, 4267, 4877},
		EU: {2700, 3000, 3300, 3600, 3900, 4200, 4500, 4800, 5100, 5400},
	} {
		var got []float64
		for _, s := range BuiltIn().Lengths(region) {
			got = append(got, math.Round(s.Length.MM()))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s sells %v mm, want %v", region, got, want)
		}
	}
}

func TestMeasured(t *testing.T) {
	s, err := Measured(18200*unit.Micrometre, 89*unit.Millimetre, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 10})
	if err != nil || s.Name != "18.2 mm x 89 mm" || s.Source != "measured" {
		t.Errorf("got %+v, %v", s, err)
	}
	for _, bad := range [][2]unit.Length{{0, unit.Inch}, {-1, unit.Inch}, {unit.Inch, 0}, {2 * unit.Inch, unit.Inch}} {
		if _, err := Measured(bad[0], bad[1], unit.Style{}); err == nil {
			t.Errorf("%v by %v nm is a size", bad[0], bad[1])
		}
	}
}
