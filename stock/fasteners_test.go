package stock

import (
	"math"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/unit"
)

// NDS 2018 Appendix L, Table L3, rolled thread, and the bending yield of Table
// I1; second-hand.
func TestWoodScrewsOfTheStandard(t *testing.T) {
	c := BuiltIn()
	for name, want := range map[string][4]float64{
		"No. 6": {0.138, 0.113, 0.262, 100000}, "No. 7": {0.151, 0.122, 0.287, 90000}, "#8": {0.164, 0.131, 0.312, 90000},
		"9": {0.177, 0.142, 0.337, 90000}, "no. 10": {0.190, 0.152, 0.363, 80000}, "No. 12": {0.216, 0.171, 0.414, 80000},
		"No. 14": {0.242, 0.196, 0.480, 70000},
	} {
		s, ok := c.Screw(name)
		got := [4]float64{s.Diameter.Inches(), s.Root.Inches(), s.Head.Inches(), float64(s.Yield) / psi}
		for i := range got {
			if !ok || math.Abs(got[i]-want[i]) > 1e-6 {
				t.Errorf("%s: %v, want %v", name, got, want)
				break
			}
		}
		if s.Status != assume.SecondHand {
			t.Errorf("%s: status %s", name, s.Status)
		}
	}
	// The published factor of the conversion: 1 psi = 6.894757 kPa (NIST SP 811).
	if math.Abs(psi-6.894757e-3) > 1e-9 {
		t.Errorf("psi is %g MPa", psi)
	}
}

func TestEveryScrewSoldHasItsThickness(t *testing.T) {
	c := BuiltIn()
	kinds := []Hardware{WoodScrew, Bolt, Nut, Washer, Insert, Plate, Block, Brad, Peg, Hook, Tie}
	n := 0
	for _, kind := range kinds {
		sold := c.Fasteners(kind)
		n += len(sold)
		if len(sold) == 0 {
			t.Errorf("no %s", kind)
		}
		for i, f := range sold {
			if i > 0 && f.Length < sold[i-1].Length {
				t.Errorf("%s comes after a longer one", f.Name)
			}
			if s, ok := c.Screw(f.Screw); f.Screw != "" && (!ok || kind == WoodScrew && s.Diameter != f.Diameter) {
				t.Errorf("%s: no screw %q of its diameter", f.Name, f.Screw)
			}
			if got, ok := c.Fastener(strings.ToUpper(f.Name)); !ok || got.Name != f.Name {
				t.Errorf("%q is not found by its name", f.Name)
			}
		}
	}
	if n != len(c.fasteners.rows) {
		t.Errorf("%d of %d rows are of a known kind", n, len(c.fasteners.rows))
	}
}

func TestOwnHardware(t *testing.T) {
	own := Fastener{Kind: WoodScrew, Name: "no. 8 x 1 1/4 in", Screw: "No. 8", Length: unit.Inch, Pack: 200}
	c, err := BuiltIn().With(assume.Shop, own)
	if err != nil {
		t.Fatal(err)
	}
	if f, ok := c.Fastener("No. 8 x 1 1/4 in"); !ok || f.Pack != 200 || f.Origin != assume.Shop || f.Source != "shop file" {
		t.Errorf("the shop's row is %+v", f)
	}
	if len(c.Fasteners(WoodScrew)) != len(BuiltIn().Fasteners(WoodScrew)) {
		t.Error("the shop's row stands beside the built-in one")
	}
	for _, bad := range []Item{
		Fastener{Kind: Bolt, Name: "x"}, Fastener{Name: "x", Pack: 1}, Fastener{Kind: Bolt, Pack: 1},
		Fastener{Kind: Bolt, Name: "x", Pack: 1, Length: -1},
		Screw{Name: "x", Diameter: 1, Root: 2, Head: 3, Yield: 1}, Screw{Name: "x", Diameter: 2, Root: 1, Head: 3},
		Screw{Diameter: 2, Root: 1, Head: 3, Yield: 1}, Screw{Name: "x", Diameter: 4, Root: 1, Head: 3, Yield: 1},
	} {
		if _, err := c.With(assume.Shop, bad); err == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
}
