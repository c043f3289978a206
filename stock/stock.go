// Package stock is the catalogue of what is bought: stock sizes of boards,
// sheets of plywood, species of timber, the lengths that are sold, and the
// hardware that frames are fixed with.
//
// Sizes are real ones, as unit.Length, found by the name the trade uses: 1x4 is
// 3/4 in by 3 1/2 in. Every row carries a source and a status. A shop's or a
// job's own rows go over the built-in ones with Catalogue.With, and each row
// keeps where it came from; a Catalogue itself never changes.
//
// The package does not know prices, and not what one particular board measures:
// Measured makes a size of what a caliper says.
package stock

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"bowerwright/assume"
	"bowerwright/snag"
	"bowerwright/unit"
)

// Provenance says how well a row is known. A row that the shop or the job
// brought has no Status, and its Origin for a Source unless it names one.
type Provenance struct {
	Status assume.Status `json:"status,omitempty"`
	Source string        `json:"source"`
	Origin assume.Origin `json:"origin"`
}

// A Size is a stock size of boards: real thickness and width, and the name it
// is bought by, which is not a measure.
type Size struct {
	Name      string      `json:"name"`
	Thickness unit.Length `json:"thickness"`
	Width     unit.Length `json:"width"`
	Provenance
}

// A Sheet is plywood as bought. Thickness is what the label says; the sheet may
// measure from Thinnest to Thickest.
type Sheet struct {
	Name      string      `json:"name"`
	Thickness unit.Length `json:"thickness"`
	Thinnest  unit.Length `json:"thinnest"`
	Thickest  unit.Length `json:"thickest"`
	Width     unit.Length `json:"width"`
	Length    unit.Length `json:"length"`
	Provenance
	// Area says how well Width and Length are known; Provenance is about the
	// thickness.
	Area Provenance `json:"area"`
}

// A Species is a kind of timber or a group that is sold together. Gravity is
// the specific gravity of oven-dry mass over oven-dry volume.
type Species struct {
	Name    string   `json:"name"`
	Also    []string `json:"also,omitempty"` // other names it is found by
	Gravity float64  `json:"gravity"`
	Provenance
}

// A Sold is one length in which boards are sold in a region.
type Sold struct {
	Region Region      `json:"region"`
	Length unit.Length `json:"length"`
	Provenance
}

// A Region is where boards are bought.
type Region string

// The regions of the built-in lengths.
const (
	US Region = "US"
	EU Region = "EU"
)

// A Catalogue is a set of rows. The zero Catalogue is empty.
type Catalogue struct {
	sizes   table[Size]
	sheets  table[Sheet]
	species table[Species]
	sold    []Sold

	screws    table[Screw]
	fasteners table[Fastener]
}

// Lookup finds a stock size by name: 1x4, 1 x 4, 1×4, 1 by 4, 5/4 x 6, 20x145.
func (c Catalogue) Lookup(name string) (Size, bool) { return c.sizes.find(sizeKey(name)) }

// Sheet finds a sheet by name: 3/4 plywood, 3/4 in ply.
func (c Catalogue) Sheet(name string) (Sheet, bool) { return c.sheets.find(sheetKey(name)) }

// Species finds a species by one of its names; case and hyphens do not matter.
func (c Catalogue) Species(name string) (Species, bool) { return c.species.find(speciesKey(name)) }

// Sizes lists the stock sizes, built-in ones first, own ones as they came.
func (c Catalogue) Sizes() []Size { return slices.Clone(c.sizes.rows) }

// Sheets lists the sheets.
func (c Catalogue) Sheets() []Sheet { return slices.Clone(c.sheets.rows) }

// AllSpecies lists the species.
func (c Catalogue) AllSpecies() []Species { return slices.Clone(c.species.rows) }

// Lengths lists the lengths sold in a region, shortest first.
func (c Catalogue) Lengths(r Region) []Sold {
	var out []Sold
	for _, s := range c.sold {
		if s.Region == r {
			out = append(out, s)
		}
	}
	return out
}

// DidYouMean gives the name of a stock size that a wrong one was likely meant
// to be, or "": one of the same nominal thickness and the nearest width, else
// one that is spelled alike.
func (c Catalogue) DidYouMean(name string) string {
	key := sizeKey(name)
	best, least := "", math.Inf(1)
	for _, k := range c.sizes.keys() {
		if d, ok := widthsApart(key, k); ok && d < least {
			best, least = k, d
		}
	}
	if best == "" {
		best = snag.DidYouMean(key, c.sizes.keys())
	}
	s, _ := c.sizes.find(best)
	return s.Name
}

// widthsApart compares the widths of two nominal names of one thickness, such
// as 1x7 and 1x8; false when they are not that.
func widthsApart(a, b string) (float64, bool) {
	thickA, wideA, _ := strings.Cut(a, "x")
	thickB, wideB, _ := strings.Cut(b, "x")
	wa, errA := strconv.ParseFloat(wideA, 64)
	wb, errB := strconv.ParseFloat(wideB, 64)
	return math.Abs(wa - wb), thickA == thickB && errA == nil && errB == nil
}

// SheetDidYouMean gives the name of a sheet near a mistyped one, or "".
func (c Catalogue) SheetDidYouMean(name string) string {
	return near(sheetKey(name), c.sheets, func(s Sheet) string { return s.Name })
}

// SpeciesDidYouMean gives the name of a species near a mistyped one, or "".
func (c Catalogue) SpeciesDidYouMean(name string) string {
	return near(speciesKey(name), c.species, func(s Species) string { return s.Name })
}

func near[T any](key string, t table[T], name func(T) string) string {
	found := snag.DidYouMean(key, t.keys())
	if found == "" {
		return ""
	}
	row, _ := t.find(found)
	return name(row)
}

// Measured makes a size of what was measured on the boards themselves, named by
// its measures. Both must be over 0 and the width not under the thickness.
func Measured(thickness, width unit.Length, style unit.Style) (Size, error) {
	s := Size{
		Name:       unit.Format(thickness, style) + " x " + unit.Format(width, style),
		Thickness:  thickness,
		Width:      width,
		Provenance: Provenance{Source: "measured", Origin: assume.Job},
	}
	return s, s.check()
}

// Mass gives the mass of a board of this size, its edges square.
func (s Size) Mass(length unit.Length, d unit.Density) unit.Mass {
	cubicMetres := s.Thickness.MM() * s.Width.MM() * length.MM() * 1e-9
	return unit.Mass(cubicMetres * float64(d))
}

// water is the density of water in the formula of Density: 62.4 lb/ft3, as the
// NDS Supplement prints it (from memory). The exact figure at 4 °C is 0.04 %
// more; the printed one is kept so that weights agree with the standard's.
var water = unit.FromPoundsPerCubicFoot(62.4)

// GreatestMoisture is the moisture in percent up to which Density holds: near
// there the cell walls are full and timber swells no more (Wood Handbook
// chapter 4, from memory).
const GreatestMoisture = 30

// Density gives the density of timber of a specific gravity (oven-dry mass and
// volume) at a moisture content in percent:
//
//	water × G / (1 + 0.009 G m) × (1 + m/100)
//
// Source: NDS Supplement 3.1.3, from memory. The first factor lets the volume
// swell with moisture m, the second adds the water. A moisture outside 0 to
// GreatestMoisture is taken as the nearer end.
func Density(gravity, moisture float64) unit.Density {
	m := math.Min(math.Max(moisture, 0), GreatestMoisture)
	return unit.Density(float64(water) * gravity / (1 + 0.009*gravity*m) * (1 + m/100))
}

// Density gives the density at a moisture content in percent.
func (s Species) Density(moisture float64) unit.Density { return Density(s.Gravity, moisture) }

func (s Size) check() error {
	if s.Name == "" || s.Thickness <= 0 || s.Width < s.Thickness {
		return fmt.Errorf("stock: size %q needs a name, a thickness over 0 and a width no smaller", s.Name)
	}
	return nil
}

func (s Sheet) check() error {
	if s.Name == "" || s.Thickness <= 0 || s.Thinnest > s.Thickness || s.Thickest < s.Thickness {
		return fmt.Errorf("stock: sheet %q needs a name and a thickness over 0 between thinnest and thickest", s.Name)
	}
	if s.Width <= 0 || s.Length < s.Width {
		return fmt.Errorf("stock: sheet %q needs a width over 0 and a length no smaller", s.Name)
	}
	return nil
}

// The lightest and heaviest timbers known lie between these specific gravities:
// balsa about 0.16, lignum vitae about 1.05 (Wood Handbook chapter 5, from
// memory).
const (
	leastGravity    = 0.1
	greatestGravity = 1.3
)

func (s Species) check() error {
	if s.Name == "" || !(s.Gravity >= leastGravity && s.Gravity <= greatestGravity) {
		return fmt.Errorf("stock: species %q needs a name and a specific gravity from %g to %g", s.Name, leastGravity, greatestGravity)
	}
	return nil
}

func (s Sold) check() error {
	if s.Region == "" || s.Length <= 0 {
		return fmt.Errorf("stock: a length sold needs a region and a length over 0")
	}
	return nil
}
