package stock

import (
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

func TestWith(t *testing.T) {
	built := BuiltIn()
	own := size(t, "1 x 4", "18.5 mm, 88 mm")
	c, err := built.With(assume.Shop, own,
		size(t, "1x4 rough", "7/8 in, 3 3/4 in"),
		Species{Name: "Paulownia", Also: []string{"empress", "SPF"}, Gravity: 0.26},
		Sold{Region: US, Length: 7 * unit.Foot},
		Sheet{Name: "12 mm birch ply", Thickness: 12 * unit.Millimetre, Thinnest: 11500 * unit.Micrometre,
			Thickest: 12500 * unit.Micrometre, Width: 1250 * unit.Millimetre, Length: 2500 * unit.Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	got, _ := c.Lookup("1x4")
	if got.Width != 88*unit.Millimetre || got.Origin != assume.Shop || got.Source != "shop file" || got.Status != "" {
		t.Errorf("the shop's 1x4 is %+v", got)
	}
	if old, _ := built.Lookup("1x4"); old.Width != 7*unit.Inch/2 || old.Origin != assume.BuiltIn {
		t.Errorf("the built-in 1x4 changed: %+v", old)
	}
	if got, ok := c.Lookup("1x4 rough"); !ok || got.Origin != assume.Shop {
		t.Errorf("the shop's own name is %+v", got)
	}
	if len(c.Sizes()) != len(built.Sizes())+1 {
		t.Errorf("%d sizes after one new and one changed, before %d", len(c.Sizes()), len(built.Sizes()))
	}
	if got, _ := c.Species("empress"); got.Gravity != 0.26 || got.Origin != assume.Shop {
		t.Errorf("the shop's species is %+v", got)
	}
	if got, _ := c.Species("SPF"); got.Name != "Spruce-Pine-Fir" {
		t.Errorf("another name took over SPF: %+v", got)
	}
	if got, ok := c.Sheet("12 mm birch plywood"); !ok || got.Area.Origin != assume.Shop {
		t.Errorf("the shop's sheet is %+v", got)
	}
	var sold []float64
	for _, s := range c.Lengths(US) {
		sold = append(sold, s.Length.Inches()/12)
	}
	if want := []float64{6, 7, 8, 10, 12, 14, 16}; !slices.Equal(sold, want) {
		t.Errorf("sold are %v ft, want %v", sold, want)
	}
}

func TestWithKeepsTheLaterOrigin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := BuiltIn()
		top, want := assume.BuiltIn, 7*unit.Inch/2
		for range rapid.IntRange(0, 6).Draw(t, "overrides") {
			o := assume.Origin(rapid.IntRange(int(assume.Shop), int(assume.Flags)).Draw(t, "origin"))
			w := unit.Length(rapid.IntRange(20, 300).Draw(t, "width")) * unit.Millimetre
			next, err := c.With(o, Size{Name: "1x4", Thickness: 19 * unit.Millimetre, Width: w})
			if err != nil {
				t.Fatal(err)
			}
			if c = next; o >= top {
				top, want = o, w
			}
		}
		if got, _ := c.Lookup("1x4"); got.Width != want || got.Origin != top {
			t.Fatalf("width %v from %v, want %v from %v", got.Width, got.Origin, want, top)
		}
	})
}

// What the job says of a sheet or a species stays when the shop speaks later.
func TestEarlierOriginDoesNotReplace(t *testing.T) {
	sheet := Sheet{Name: "3/4 plywood", Thickness: 18 * unit.Millimetre, Thinnest: 18 * unit.Millimetre,
		Thickest: 18 * unit.Millimetre, Width: unit.Metre, Length: unit.Metre}
	c, err := BuiltIn().With(assume.Job, sheet, Species{Name: "red oak", Gravity: 0.7})
	if err != nil {
		t.Fatal(err)
	}
	sheet.Width = unit.Metre / 2
	c, err = c.With(assume.Shop, sheet, Species{Name: "Red Oak", Gravity: 0.6})
	if err != nil {
		t.Fatal(err)
	}
	if s, _ := c.Sheet("3/4 ply"); s.Width != unit.Metre || s.Origin != assume.Job {
		t.Errorf("the sheet is %+v", s)
	}
	if s, _ := c.Species("Red-Oak"); s.Gravity != 0.7 || s.Origin != assume.Job {
		t.Errorf("the species is %+v", s)
	}
}

func TestSoldTwiceStandsOnce(t *testing.T) {
	c, err := BuiltIn().With(assume.Job, Sold{Region: US, Length: 8 * unit.Foot})
	if err == nil {
		c, err = c.With(assume.Shop, Sold{Region: US, Length: 8 * unit.Foot})
	}
	if err != nil {
		t.Fatal(err)
	}
	got := c.Lengths(US)
	if len(got) != 6 || got[1].Origin != assume.Job || got[1].Length != 8*unit.Foot {
		t.Errorf("sold are %+v", got)
	}
}

func TestWithRefusals(t *testing.T) {
	in := unit.Inch
	built := BuiltIn()
	for name, item := range map[string]Item{
		"no name":           Size{Thickness: in, Width: in},
		"no thickness":      Size{Name: "a", Width: in},
		"thicker than wide": Size{Name: "a", Thickness: 2 * in, Width: in},
		"no gravity":        Species{Name: "a"},
		"lead":              Species{Name: "a", Gravity: 11},
		"unnamed species":   Species{Gravity: 0.5},
		"unnamed sheet":     Sheet{Thickness: in, Thinnest: in, Thickest: in, Width: in, Length: in},
		"thin label":        Sheet{Name: "a", Thickness: in, Thinnest: 2 * in, Thickest: 2 * in, Width: in, Length: in},
		"thick label":       Sheet{Name: "a", Thickness: in, Thinnest: in / 2, Thickest: in / 2, Width: in, Length: in},
		"no sheet width":    Sheet{Name: "a", Thickness: in, Thinnest: in, Thickest: in, Length: in},
		"short sheet":       Sheet{Name: "a", Thickness: in, Thinnest: in, Thickest: in, Width: 2 * in, Length: in},
		"nowhere":           Sold{Length: in},
		"no length":         Sold{Region: US},
	} {
		c, err := built.With(assume.Shop, size(t, "1x4", "1 in, 2 in"), item)
		if err == nil {
			t.Errorf("%s is accepted", name)
		}
		if got, _ := c.Lookup("1x4"); got.Origin != assume.BuiltIn {
			t.Errorf("%s: half of the items were taken", name)
		}
	}
}

func TestReadRefusals(t *testing.T) {
	const header = "name,thickness,width,status,source"
	good := "a,1 in,2 in,memory,a book"
	if items, err := read(header+"\n"+good, header, sizeOf); err != nil || len(items) != 1 {
		t.Fatalf("a good row: %v", err)
	}
	for name, text := range map[string]string{
		"empty":     "",
		"header":    "name,width,thickness,status,source\n" + good,
		"columns":   header + "\na,1 in",
		"length":    header + "\n" + strings.Replace(good, "1 in", "1", 1),
		"status":    header + "\n" + strings.Replace(good, "memory", "rumour", 1),
		"no source": header + "\n" + strings.Replace(good, "a book", "", 1),
	} {
		if _, err := read(text, header, sizeOf); err == nil {
			t.Errorf("%s is read", name)
		}
	}
	if _, err := read("name,also,gravity,status,source\na,,heavy,memory,b", "name,also,gravity,status,source", speciesOf); err == nil {
		t.Error("a gravity in words is read")
	}
}
