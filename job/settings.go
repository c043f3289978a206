package job

import (
	"errors"
	"fmt"
	"strings"

	"bowerwright/assume"
	"bowerwright/snag"
	"bowerwright/stock"
	"bowerwright/unit"
)

// A Catalogue is what Plan knows before it reads a job.
type Catalogue struct {
	Stock stock.Catalogue
	Book  assume.Book
}

// BuiltIn is the catalogue that the program comes with.
func BuiltIn() Catalogue { return Catalogue{Stock: stock.BuiltIn(), Book: assume.BuiltInBook()} }

// settings are the job's own figures with every gap filled from the book.
type settings struct {
	mark, tolerance, gap, near unit.Length
	kerf, hold                 unit.Length
	clamp                      bool
	rough                      unit.Length
	sawError                   unit.Angle
	shows                      unit.Length
	heights                    []float64 // mm
}

// settle applies what the files and flags say to the book, then reads from it:
// built in < shop file < job file < flags.
func (p *planner) settle() {
	b := p.cat.Book
	for i, o := range p.spec.Assume {
		b = p.override(b, o, fmt.Sprintf("assume.%s", o.ID), i)
	}
	s := p.spec
	for _, f := range []struct {
		id   assume.ID
		l    *unit.Length
		path string
		from string
	}{
		{assume.JointTolerance, s.JointTolerance, "joint tolerance", ""},
		{assume.SeamGap, s.Gap, "seam gap", ""},
		{assume.NearMiss, s.NearMiss, "near miss", ""},
		{assume.Kerf, s.Saw.Kerf, "saw.kerf", s.Saw.From},
		{assume.Hold, s.Saw.Hold, "saw.hold", s.Saw.From},
		{assume.ClampHold, s.Saw.ClampHold, "saw.clamp hold", s.Saw.From},
	} {
		if f.l != nil {
			b = p.setLength(b, f.id, *f.l, f.path, f.from)
		}
	}
	p.book = b.Reader()
	p.set = settings{
		mark:      p.mark(),
		tolerance: p.length(assume.JointTolerance),
		gap:       p.length(assume.SeamGap),
		near:      p.length(assume.NearMiss),
		kerf:      p.length(assume.Kerf),
		clamp:     s.Saw.Clamp,
		rough:     p.length(assume.RoughAllowance),
		sawError:  unit.FromDegrees(p.book.Get(assume.SawError).Value),
		shows:     p.length(assume.TestCornerShow),
	}
	for _, id := range []assume.ID{assume.OpeningFoot, assume.OpeningHip, assume.OpeningShoulder, assume.OpeningHead} {
		p.set.heights = append(p.set.heights, p.length(id).MM())
	}
	if p.set.clamp {
		p.set.hold = p.length(assume.ClampHold)
	} else {
		p.set.hold = p.length(assume.Hold)
	}
}

// mark is the finest mark of the tape: the job's, else the usual one of its
// system.
func (p *planner) mark() unit.Length {
	switch {
	case p.spec.Mark > 0:
		return p.spec.Mark
	case p.spec.Show == "metric":
		return p.length(assume.MarkMetric)
	}
	return p.length(assume.Mark)
}

// length reads an assumption that is a length.
func (p *planner) length(id assume.ID) unit.Length {
	v := p.book.Get(id)
	u, _ := unit.UnitNamed(v.Unit)
	l, _ := unit.Of(v.Value, u)
	return l
}

var origins = map[string]assume.Origin{
	"shop file": assume.Shop, "job file": assume.Job, "flag": assume.Flags,
}

func origin(from string) assume.Origin {
	if o, ok := origins[from]; ok {
		return o
	}
	return assume.Job
}

func (p *planner) setLength(b assume.Book, id assume.ID, l unit.Length, path, from string) assume.Book {
	v, _ := b.Lookup(id)
	u, _ := unit.UnitNamed(v.Unit)
	return p.override(b, Override{ID: string(id), Value: l.In(u), From: from}, path, 0)
}

// override sets one value in the book, or says why not.
func (p *planner) override(b assume.Book, o Override, path string, _ int) assume.Book {
	next, err := b.With(origin(o.From), assume.ID(o.ID), o.Value)
	var unknown *assume.UnknownError
	var out *assume.RangeError
	switch {
	case errors.As(err, &unknown):
		p.snag(snagAssumeUnknown, path, o.ID, fmt.Sprintf("no assumption is called %q", o.ID), p.nearestAssumption(b, o.ID))
	case errors.As(err, &out):
		v := out.Value
		p.snag(snagAssumeRange, path, strings.TrimSpace(o.Text),
			fmt.Sprintf("%s is %s %s, out of range", v.Name, assume.Number(o.Value), v.Unit),
			fmt.Sprintf("write %s to %s %s", assume.Number(v.Low), assume.Number(v.High), v.Unit))
	}
	return next
}

func (p *planner) nearestAssumption(b assume.Book, id string) string {
	var ids []string
	for _, i := range b.IDs() {
		ids = append(ids, string(i))
	}
	if near := snag.DidYouMean(id, ids); near != "" {
		return fmt.Sprintf("did you mean %s? docs/assumptions.md lists them all", near)
	}
	return "docs/assumptions.md lists them all"
}

// A board is one Timber with every gap filled.
type board struct {
	Timber
	size               string
	thickness, width   unit.Length
	trimFirst, trimFar unit.Length
	density            unit.Density
	moisture           float64
	turning            bool
}

// assumedSpecies is what boards are taken for when the job does not say: the
// species group most sold as boards and studs (common practice, no source).
const assumedSpecies = "Spruce-Pine-Fir"

// boards fills in the timber by name.
func (p *planner) boards() {
	p.timber = map[string]board{}
	if len(p.spec.Timber) == 0 {
		p.snag(snagTimberMissing, "timber", "", "no timber is given", "write which boards are bought, under timber: board: 1x4, length: 8 ft")
	}
	for _, t := range p.spec.Timber {
		path := "timber." + t.Name
		b := board{Timber: t, size: t.Nominal, thickness: t.Thickness, width: t.Width, turning: t.Turning == nil || *t.Turning}
		p.sizeOf(&b, path)
		b.trimFirst, b.trimFar = p.trim(t.TrimFirst, assume.TrimFirst), p.trim(t.TrimFar, assume.TrimFar)
		p.weigh(&b, path)
		if t.Length <= 0 {
			p.snag(snagTimberLength, path, t.Name, "the boards have no length", "write how long they are bought, length: 8 ft")
		} else if b.trimFirst+b.trimFar >= t.Length {
			p.snag(snagTimberTrim, path+".trim", "", "the trim leaves nothing of a board", "write a shorter trim")
		}
		p.timber[t.Name] = b
	}
}

// sizeOf takes the real size from the catalogue where it was not measured.
func (p *planner) sizeOf(b *board, path string) {
	if b.Nominal != "" {
		size, ok := p.cat.Stock.Lookup(b.Nominal)
		if !ok && (b.thickness == 0 || b.width == 0) {
			remedy := "write a nominal size such as 1x4, or thickness and width as measured"
			if near := p.cat.Stock.DidYouMean(b.Nominal); near != "" {
				remedy = fmt.Sprintf("did you mean %s? Or %s", near, remedy)
			}
			p.snag(snagTimberSize, path+".board", b.Nominal, fmt.Sprintf("no stock size is called %q", b.Nominal), remedy)
			return
		}
		if ok {
			b.size = size.Name
			if b.thickness == 0 {
				b.thickness = size.Thickness
			}
			if b.width == 0 {
				b.width = size.Width
			}
		}
	}
	if b.thickness <= 0 || b.width <= 0 {
		p.snag(snagTimberSize, path, b.Name, "the boards have no thickness and width",
			"write a nominal size, board: 1x4, or thickness and width as measured")
	} else if b.thickness > b.width {
		p.snag(snagTimberSize, path, b.Name, "the boards are thicker than they are wide", "the smaller measure is the thickness")
	}
}

func (p *planner) trim(given *unit.Length, id assume.ID) unit.Length {
	if given != nil {
		return *given
	}
	return p.length(id)
}

// weigh finds the density from species and moisture.
func (p *planner) weigh(b *board, path string) {
	name := b.Species
	if name == "" {
		name = assumedSpecies
		p.speciesAssumed = true
	}
	s, ok := p.cat.Stock.Species(name)
	if !ok {
		remedy := "write one of the species of docs/sources.md, such as eastern white pine"
		if near := p.cat.Stock.SpeciesDidYouMean(name); near != "" {
			remedy = fmt.Sprintf("did you mean %s?", near)
		}
		p.snag(snagTimberSpecies, path+".species", name, fmt.Sprintf("no species is called %q", name), remedy)
		return
	}
	b.Species = s.Name
	b.moisture = b.Moisture
	if b.moisture == 0 {
		b.moisture = p.book.Get(assume.Moisture).Value
	}
	b.density = s.Density(b.moisture)
}
