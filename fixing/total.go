package fixing

import (
	"cmp"
	"maps"
	"slices"

	"bowerwright/stock"
)

// An Item is so many of one thing.
type Item struct {
	Name  string
	Count int
}

// A Total is what is bought of one thing: so many, in so many boxes.
type Total struct {
	Item
	Kind  stock.Hardware
	Pack  int // in a box: an assumption of the catalogue
	Boxes int
}

// tally counts by name.
type tally map[string]int

func (t tally) items() []Item {
	var out []Item
	for _, name := range slices.Sorted(maps.Keys(t)) {
		out = append(out, Item{name, t[name]})
	}
	return out
}

// bag counts the hardware of one seam. A batten is timber and not in the bag.
func (w *work) bag(s Seam) []Item {
	t := tally{}
	for _, f := range s.Fasteners {
		t[f.Name]++
		if f.Kind == stock.WoodScrew {
			continue
		}
		b := w.bolts
		t[b.washer.Name]++
		if f.Kind == stock.Insert {
			t[b.insert.Name]++
		} else {
			t[b.washer.Name]++
			t[b.nut.Name]++
		}
	}
	for _, p := range s.Pegs {
		t[p.Name]++
	}
	if s.Method == Plated {
		for _, p := range s.Plates {
			t[p.Name]++
		}
	}
	return t.items()
}

// totals adds up all bags and hooks, in whole boxes.
func totals(p Plan, cat stock.Catalogue) []Total {
	t := tally{}
	for _, s := range p.Seams {
		for _, i := range s.Bag {
			t[i.Name] += i.Count
		}
	}
	for _, h := range p.Hooks {
		t[h.Name]++
	}
	var out []Total
	for _, i := range t.items() {
		f, _ := cat.Fastener(i.Name)
		pack := max(f.Pack, 1)
		out = append(out, Total{i, f.Kind, pack, (i.Count + pack - 1) / pack})
	}
	slices.SortStableFunc(out, func(a, b Total) int { return cmp.Compare(a.Kind, b.Kind) })
	return out
}
