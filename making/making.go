package making

import (
	"fmt"

	"bowerwright/assume"
	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A Kind is a kind of frame as built, how often it is made, and what was
// decided about it. The zero decisions leave the choice to the plan.
type Kind struct {
	Name   string
	Frame  frame.Frame
	Count  int // spares included
	Corner Corner
	Method Method // Chosen: the first that its limits allow
	Layers int    // of a ring glued up in layers, joints staggered; 0 and 1: a single one
	Ring   Ring   // sawn round when it is glued
	// OneFace says that the frame cannot change front and back: its boards have
	// one good face. With blocks or plates at its back no frame can.
	OneFace bool
}

// A Ring is what is left of a frame that is sawn round when it is glued, by its
// two diameters in mm; the zero Ring is none.
type Ring struct{ Outside, Inside float64 }

// A Shop is what there is to make with. The zero value is one person with the
// built-in rates and hardware, without a strap, and a bench that is as long as
// any row that is rolled.
type Shop struct {
	Rates       Rates
	Catalogue   *stock.Catalogue // nil: the built-in one
	Brads       []stock.Fastener // at hand, shortest first; nil: those of the catalogue
	Plates      []stock.Fastener // likewise
	People      int              // at the glue; 0 is 1
	Straps      []unit.Length    // owned, by length
	Bench       unit.Length      // length of the bench; 0: it limits nothing
	Kerf        float64          // width of the saw cut, mm, which splines fill; 0 is 1/8 in
	Mark        float64          // of the tape, mm, that places at corners lie on; 0 leaves them
	FinishFirst bool             // insides are finished before gluing, the mitres masked
	BareInside  bool             // insides are not finished at all
}

// A Plan is how the frames are made.
type Plan struct {
	Kinds   []KindPlan // in the order given
	Goes    []Go       // at the glue, by number
	Finish  Finishing
	Lay     Lay // zero when no frame is placed
	Amounts []Amount
}

// A KindPlan is how one kind is made.
type KindPlan struct {
	Name    string
	Count   int
	GlueUp  GlueUp
	Corners Corners // of one frame
	Areas   Areas   // of one frame
	Alike   []Symmetry
	Checks  []Check
}

// Make plans the making of the kinds that a layout places. It returns every
// problem there is: the shop's, then those of each kind in the order given,
// then those of the layout. An error says that a placed frame is of no kind
// given, or that a kind has no parts: a fault of the caller.
func Make(kinds []Kind, l layout.Layout, s Shop) (Plan, []Problem, error) {
	if err := whole(kinds, l); err != nil {
		return Plan{}, nil, err
	}
	s = s.withDefaults()
	m := maker{shop: s, kinds: kinds}
	if g := s.Rates.Glue; g.Shop < g.Least {
		m.fail(Problem{Code: TooCold, Room: g.Shop, Need: g.Least})
	}
	for _, k := range kinds {
		m.plan.Kinds = append(m.plan.Kinds, m.kind(k))
	}
	m.plan.Goes = goes(m.plan.Kinds, s)
	m.plan.Finish = m.finishing(l)
	if len(l.Frames) > 0 {
		m.plan.Lay = m.lay(l)
	}
	m.plan.Amounts = m.amounts(l)
	return m.plan, m.problems, nil
}

// A maker gathers the plan and its problems.
type maker struct {
	shop     Shop
	kinds    []Kind
	plan     Plan
	problems []Problem
}

// fail notes a problem. What is wrong with one corner of a kind is mostly wrong
// with all: the first speaks for them.
func (m *maker) fail(p Problem) {
	for _, q := range m.problems {
		if p.Corner > 0 && q.Kind == p.Kind && q.Code == p.Code {
			return
		}
	}
	m.problems = append(m.problems, p)
}

func (m *maker) kind(k Kind) KindPlan {
	p := KindPlan{Name: k.Name, Count: k.Count, Areas: areasOf(k)}
	p.Alike = m.alikeWays(k)
	p.GlueUp = m.glueUp(k)
	p.Checks = p.GlueUp.checks(k.Frame)
	p.Corners = m.corners(k, p.GlueUp)
	return p
}

func (s Shop) withDefaults() Shop {
	if s.Rates == (Rates{}) {
		s.Rates = RatesFrom(assume.BuiltInBook().Reader())
	}
	if s.Catalogue == nil {
		c := stock.BuiltIn()
		s.Catalogue = &c
	}
	if s.Brads == nil {
		s.Brads = s.Catalogue.Fasteners(stock.Brad)
	}
	if s.Plates == nil {
		s.Plates = s.Catalogue.Fasteners(stock.Plate)
	}
	if s.Kerf <= 0 {
		s.Kerf = commonKerf
	}
	s.People = max(s.People, 1)
	return s
}

func whole(kinds []Kind, l layout.Layout) error {
	known := map[string]bool{}
	for _, k := range kinds {
		if len(k.Frame.Parts) == 0 || k.Count < 0 {
			return fmt.Errorf("making: kind %q has no parts or is made %d times", k.Name, k.Count)
		}
		known[k.Name] = true
	}
	for _, f := range l.Frames {
		if !known[f.Kind] {
			return fmt.Errorf("making: frame %q is of kind %q, which is not given", f.ID, f.Kind)
		}
	}
	return nil
}

func (m *maker) kindOf(f layout.Frame) Kind {
	for _, k := range m.kinds {
		if k.Name == f.Kind {
			return k
		}
	}
	return Kind{}
}
