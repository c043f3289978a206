package stock

import (
	_ "embed" // the catalogue's files
	"fmt"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/unit"
)

//go:embed screws.csv
var screwsCSV string

//go:embed fasteners.csv
var fastenersCSV string

// A Screw is a thickness of wood screw: No. 8, or 4 mm. Diameter is the nominal
// one over the thread, Root the core between the threads, Head the width of a
// countersunk head, Yield the stress at which it bends.
type Screw struct {
	Name     string        `json:"name"`
	Also     []string      `json:"also,omitempty"`
	Diameter unit.Length   `json:"diameter"`
	Root     unit.Length   `json:"root"`
	Head     unit.Length   `json:"head"`
	Yield    unit.Pressure `json:"yield"`
	Provenance
}

// A Hardware is one thing that is sold to fix, join or hang with.
type Hardware string

// The kinds of hardware. What Width and Thickness of a Fastener mean differs:
// the washer's outside and its thickness, the nut's width across flats and its
// height, the hole an insert is put in, a plate's own measures.
const (
	WoodScrew Hardware = "screw"
	Bolt      Hardware = "bolt"
	Nut       Hardware = "nut"
	Washer    Hardware = "washer"
	Insert    Hardware = "insert"
	Plate     Hardware = "plate"
	Block     Hardware = "block"
	Brad      Hardware = "brad"
	Peg       Hardware = "peg"
	Hook      Hardware = "hook"
	Tie       Hardware = "tie"
)

// A Fastener is hardware as it is sold. Screw names the wood screw it is, or
// the one its holes take. Pack is how many come in a box.
type Fastener struct {
	Kind      Hardware    `json:"kind"`
	Name      string      `json:"name"`
	Screw     string      `json:"screw,omitempty"`
	Diameter  unit.Length `json:"diameter,omitempty"`
	Length    unit.Length `json:"length,omitempty"`
	Width     unit.Length `json:"width,omitempty"`
	Thickness unit.Length `json:"thickness,omitempty"`
	Pack      int         `json:"pack"`
	Provenance
}

// Screw finds a wood screw by its thickness: No. 8, #8, 4 mm.
func (c Catalogue) Screw(name string) (Screw, bool) { return c.screws.find(speciesKey(name)) }

// Screws lists the thicknesses of wood screw.
func (c Catalogue) Screws() []Screw { return slices.Clone(c.screws.rows) }

// Fastener finds hardware by the name it is sold by.
func (c Catalogue) Fastener(name string) (Fastener, bool) {
	return c.fasteners.find(speciesKey(name))
}

// Fasteners lists the hardware of a kind, shortest first where it has lengths.
func (c Catalogue) Fasteners(kind Hardware) []Fastener {
	var out []Fastener
	for _, f := range c.fasteners.rows {
		if f.Kind == kind {
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b Fastener) int { return int(a.Length - b.Length) })
	return out
}

func (s Screw) put(c *Catalogue, origin assume.Origin) {
	s.from(origin)
	keys := []string{speciesKey(s.Name)}
	for _, name := range s.Also {
		keys = append(keys, speciesKey(name))
	}
	c.screws = c.screws.put(s, func(s Screw) assume.Origin { return s.Origin }, keys...)
}

func (f Fastener) put(c *Catalogue, origin assume.Origin) {
	f.from(origin)
	c.fasteners = c.fasteners.put(f, func(f Fastener) assume.Origin { return f.Origin }, speciesKey(f.Name))
}

func (s Screw) check() error {
	if s.Name == "" || s.Root <= 0 || s.Diameter < s.Root || s.Head < s.Diameter || s.Yield <= 0 {
		return fmt.Errorf("stock: screw %q needs a name, a root over 0, a diameter and a head no smaller and a yield over 0", s.Name)
	}
	return nil
}

func (f Fastener) check() error {
	if f.Kind == "" || f.Name == "" || f.Pack < 1 || min(f.Diameter, f.Length, f.Width, f.Thickness) < 0 {
		return fmt.Errorf("stock: fastener %q needs a kind, a name, measures not under 0 and a pack of 1 or more", f.Name)
	}
	return nil
}

// psi is a pound-force per square inch: 0.45359237 kg x 9.80665 m/s2 over
// (25.4 mm)2, in MPa (NIST SP 811, appendix B).
const psi = 0.45359237 * 9.80665 / (25.4 * 25.4)

func screwOf(r *row) Item {
	s := Screw{Name: r.text(0), Diameter: r.length(2), Root: r.length(3), Head: r.length(4),
		Yield: unit.Pressure(r.number(5) * psi), Provenance: r.provenance(6)}
	for _, name := range strings.Split(r.text(1), ";") {
		s.Also = append(s.Also, strings.TrimSpace(name))
	}
	return s
}

func fastenerOf(r *row) Item {
	return Fastener{Kind: Hardware(r.text(0)), Name: r.text(1), Screw: r.text(2), Diameter: r.perhaps(3), Length: r.perhaps(4),
		Width: r.perhaps(5), Thickness: r.perhaps(6), Pack: int(r.number(7)), Provenance: r.provenance(8)}
}

// perhaps reads a length where an empty field means that there is none.
func (r *row) perhaps(i int) unit.Length {
	if r.text(i) == "" {
		return 0
	}
	return r.length(i)
}
