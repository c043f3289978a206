package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"bowerwright/assume"
	"bowerwright/making"
	"bowerwright/price"
	"bowerwright/unit"
)

// A tally gathers needs; those of one name are one line.
type tally struct{ needs []need }

func (t *tally) add(n need) {
	if n.Need.N <= 0 {
		return
	}
	for i := range t.needs {
		o := &t.needs[i]
		if o.Name != n.Name || o.Need.Measure != n.Need.Measure {
			continue
		}
		o.Need.N += n.Need.N
		if !slices.Contains(strings.Split(o.of, ", "), n.of) {
			o.of += ", " + n.of
		}
		return
	}
	t.needs = append(t.needs, n)
}

// needs are all lines of the buying list, by class.
func (p *planner) needs() []need {
	var t tally
	p.boardNeeds(&t)
	p.fixingNeeds(&t)
	for _, a := range p.making.Amounts {
		if n, ok := p.makingNeed(a); ok {
			t.add(n)
		}
	}
	p.standingNeeds(&t)
	p.baseNeeds(&t)
	slices.SortStableFunc(t.needs, func(a, b need) int { return int(a.Class) - int(b.Class) })
	return t.needs
}

// boardNeeds are the boards that the cutting plan buys.
func (p *planner) boardNeeds(t *tally) {
	for _, f := range p.result.Timber {
		for _, s := range f.Stocks {
			if s.OnHand {
				continue
			}
			names := p.boardNames(f.Name, length(s.Length.MM))
			n := need{of: p.kindsOf(f.Name), Line: price.Line{Name: names[0], Also: names[1:], Class: price.Boards,
				Need: price.Quantity{Measure: price.Pieces, N: float64(s.Buy)}, Packs: []price.Pack{onePiece}}}
			n.note = f.Size + ", " + f.Species
			if f.Size == "" || f.Size == "measured" {
				n.note = p.w.text(f.Thickness) + " x " + p.w.text(f.Width) + ", " + f.Species
			}
			t.add(n)
		}
	}
}

// kindsOf names the kinds that are made of a timber.
func (p *planner) kindsOf(timber string) string {
	var out []string
	for _, k := range p.kinds {
		if k.board.Name == timber && k.make > 0 {
			out = append(out, k.title())
		}
	}
	if len(out) > 2 {
		return counted(len(out), "kind") + " of frame"
	}
	return strings.Join(out, ", ")
}

// fixingUses say what each kind of hardware is for.
var fixingUses = map[string]string{
	"screw": "seams", "bolt": "seams", "nut": "bolts", "washer": "bolts", "insert": "bolts", "plate": "seams, on the back",
	"peg": "site seams", "hook": "dressing", "tie": "dressing",
}

// fixingNeeds are what the bags and the hooks take.
func (p *planner) fixingNeeds(t *tally) {
	for _, h := range p.result.Fixing.Totals {
		t.add(p.hardware(h.Thing, h.Count, fixingUses[h.Kind]))
	}
	if name, n := p.feetScrews(); name != "" {
		t.add(p.hardware(name, n, "battens across feet"))
	}
	if name, n := p.backScrews(); name != "" {
		t.add(p.hardware(name, n, "strongbacks"))
	}
}

// hardware is a line of the catalogue.
func (p *planner) hardware(name string, count int, of string) need {
	n := need{of: of, Line: price.Line{Name: name, Class: price.Fixings, Need: price.Quantity{Measure: price.Pieces, N: float64(count)}, Packs: []price.Pack{onePiece}}}
	if f, ok := p.cat.Stock.Fastener(name); ok && f.Pack > 1 {
		n.Packs = []price.Pack{{Text: fmt.Sprint(f.Pack), Holds: price.Quantity{Measure: price.Pieces, N: float64(f.Pack)}, From: string(f.Status) + ": " + f.Source}}
	}
	return n
}

// A Buyable is a thing that a buying list may hold, besides boards and the
// hardware of the catalogue.
type Buyable struct {
	Name string // as a price list names it; N stands for a number
	For  string
	Kind string // as price.Usual names its packs
}

// Buyables lists them in the order of their names.
func Buyables() []Buyable {
	out := []Buyable{
		{"brush", "finish", "brush"}, {"glue brush", "joints", "brush"}, {"dust mask", "saw, sanding", "masks"}, {"pencil", "marks", "pencil"},
		{"1/8 in plywood, by its thickness", "splines", "plywood"},
		{"3/4 in plywood 48 in x 96 in, a sheet by its thickness and size", "base", ""},
		{"3 1/2 in x 4 in bar, by its thickness and width", "thick feet and frame bases, long struts", ""},
		{"angle bracket", "frames to the base, braces", ""}, {"stake", "base", ""}, {"ballast strap", "ballast", ""}, {"retaining line", "frames over heads", ""},
	}
	for name, a := range articles {
		if name == "abrasive" {
			name = "abrasive N grit"
		}
		out = append(out, Buyable{name, a.of, a.thing})
	}
	slices.SortFunc(out, func(a, b Buyable) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// An article is how one line of making is bought. Thing is what its usual
// packs go by; what is not an article is sawn from the boards, or is in the
// shop.
type article struct {
	thing string
	class price.Class
	of    string
	rates []assume.ID
}

var articles = map[string]article{
	"glue":         {"glue", price.GlueAndTape, "joints", []assume.ID{assume.GlueCoverage, assume.GlueWaste}},
	"gluing tape":  {"tape", price.GlueAndTape, "rolling up frames", []assume.ID{assume.RollPitch, assume.RollLap, assume.RollWidth}},
	"waxed sheet":  {"waxed sheet", price.GlueAndTape, "under pressed frames", []assume.ID{assume.LaySheet}},
	"filler":       {"filler", price.FillingAndFinish, "mitres", []assume.ID{assume.FillerJoint}},
	"abrasive":     {"abrasive", price.FillingAndFinish, "sanding", []assume.ID{assume.SandSheet}},
	"finish":       {"finish", price.FillingAndFinish, "faces that show", []assume.ID{assume.FinishCoverage, assume.FinishCoats, assume.FinishWaste}},
	"masking tape": {"tape", price.FillingAndFinish, "bare seam faces", nil},
	"blankets":     {"blanket", price.Consumables, "under the dry lay", []assume.ID{assume.LayBlanket, assume.LayMargin}},
}

// makingNeed turns a line of making into one to buy.
func (p *planner) makingNeed(a making.Amount) (need, bool) {
	switch a.Item {
	case "brads", "plates", "screws", "corner blocks":
		if a.Name == "" { // sawn from the boards
			return need{}, false
		}
		return p.hardware(a.Name, int(math.Ceil(a.Quantity)), "corners"), true
	case "splines":
		return p.splines(a), true
	}
	r, ok := articles[a.Item]
	if !ok {
		return need{}, false
	}
	n := need{of: r.of, rates: r.rates, Line: price.Line{Name: a.Item, Class: r.class, Need: quantityOf(a), Packs: price.Usual(r.thing, p.w.show == unit.Metric)}}
	switch {
	case a.Item == "abrasive":
		n.Name = "abrasive " + a.Name
	case a.Item == "gluing tape":
		n.note = p.w.text(p.w.stock(length(a.Width))) + " wide"
	case a.Item == "blankets":
		n.note = "or as many as are there"
	}
	return n, true
}

// splines are cut from thin plywood: by their area.
func (p *planner) splines(a making.Amount) need {
	t := p.w.stock(length(a.Thick))
	us, metric := t.US+" plywood", t.Metric+" plywood"
	n := need{of: "splines", rates: []assume.ID{assume.BuySheetYield}, Line: price.Line{Name: us, Also: []string{metric}, Class: price.Sheets,
		Need:  price.Quantity{Measure: price.Area, N: a.Quantity * a.Length * a.Width},
		Packs: price.Usual("plywood", p.w.show == unit.Metric)}}
	if p.w.show == unit.Metric {
		n.Name, n.Also = metric, []string{us}
	}
	return n
}

// quantityOf is the amount of a line of making in this list's measures.
func quantityOf(a making.Amount) price.Quantity {
	switch a.Unit {
	case "ml":
		return price.Quantity{Measure: price.Volume, N: a.Quantity}
	case "L":
		return price.Quantity{Measure: price.Volume, N: a.Quantity * 1000}
	case "m":
		return price.Quantity{Measure: price.Length, N: a.Quantity * 1000}
	case "m2":
		return price.Quantity{Measure: price.Area, N: a.Quantity * 1e6}
	}
	return price.Quantity{Measure: price.Pieces, N: math.Ceil(a.Quantity)}
}

// standingNeeds are what every job takes, however large.
func (p *planner) standingNeeds(t *tally) {
	people := float64(max(1, len(p.spec.People)))
	glued, finished := false, false
	for _, a := range p.making.Amounts {
		glued, finished = glued || a.Item == "glue", finished || a.Item == "finish"
	}
	for _, s := range []struct {
		wanted      bool
		name, thing string
		class       price.Class
		of          string
		id          assume.ID
		times       float64
	}{
		{glued, "glue brush", "brush", price.Consumables, "joints", assume.BuyGlueBrushes, 1},
		{finished, "brush", "brush", price.Consumables, "finish", assume.BuyBrushes, 1},
		{true, "dust mask", "masks", price.Consumables, "saw, sanding", assume.BuyMasks, people},
		{true, "pencil", "pencil", price.Consumables, "marks", assume.BuyPencils, 1},
	} {
		if !s.wanted {
			continue
		}
		t.add(need{of: s.of, rates: []assume.ID{s.id}, Line: price.Line{Name: s.name, Class: s.class, Packs: price.Usual(s.thing, p.w.show == unit.Metric),
			Need: price.Quantity{Measure: price.Pieces, N: math.Ceil(p.book.Get(s.id).Value * s.times)}}})
	}
}

// readyFacts are what the work wants and is in the shop, or is worth keeping
// there.
func (p *planner) readyFacts() {
	for _, a := range p.making.Amounts {
		if a.Item == "known-straight length" {
			p.result.Buying.Ready = append(p.result.Buying.Ready, ReadyFacts{Name: "a known-straight length of " + p.w.text(p.w.looked(a.Length)) + " or more", For: "the base line of the dry lay"})
		}
	}
}
