package job

import (
	"cmp"

	"bowerwright/assume"
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
	keep                       unit.Length // least offcut worth keeping
	margin                     unit.Length // left beside what cannot be used of a board
	sawError                   unit.Angle
	shows                      unit.Length
	heights                    []float64 // mm
}

// settle applies what the files and flags say to the book, then reads from it:
// built in < shop file < job file < flags.
func (p *planner) settle() {
	b := p.cat.Book
	for _, o := range p.spec.Assume {
		b = p.override(b, o)
	}
	s := p.spec
	for _, f := range []struct {
		id assume.ID
		l  *unit.Length
	}{
		{assume.JointTolerance, s.JointTolerance},
		{assume.SeamGap, s.Gap},
		{assume.NearMiss, s.NearMiss},
		{assume.Kerf, s.Saw.Kerf},
		{assume.Hold, s.Saw.Hold},
		{assume.ClampHold, s.Saw.ClampHold},
	} {
		if f.l != nil {
			b = p.setLength(b, f.id, *f.l, s.Said[string(f.id)])
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
		keep:      p.length(assume.Keep),
		margin:    p.length(assume.KnotMargin),
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
// system. Parts go to it and are written to it, so it must be one of those
// that lengths are written to.
func (p *planner) mark() unit.Length {
	mark, path := p.spec.Mark, "mark"
	if mark <= 0 {
		id := assume.Mark
		if p.spec.Show == "metric" {
			id = assume.MarkMetric
		}
		mark, path = p.length(id), "assume."+string(id)
	}
	if _, _, ok := unit.MarkName(mark); !ok {
		p.snag(snagMark, path, unit.Format(mark, p.w.us), "no tape is marked so", "write 1/2, 1/4, 1/8, 1/16, 1/32 or 1/64 in, or 1 or 0.5 mm")
	}
	return mark
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

func (p *planner) setLength(b assume.Book, id assume.ID, l unit.Length, from string) assume.Book {
	v, _ := b.Lookup(id)
	u, _ := unit.UnitNamed(v.Unit)
	return p.override(b, Override{ID: string(id), Value: l.In(u), From: from})
}

// override sets one value in the book. The job file has checked id and range.
func (p *planner) override(b assume.Book, o Override) assume.Book {
	next, err := b.With(origin(o.From), assume.ID(o.ID), o.Value)
	if err != nil {
		p.fault("%v", err)
	}
	return next
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
	sizeFrom           *stock.Size    // the catalogue's row, nil when measured
	speciesFrom        *stock.Species // likewise
}

// assumedSpecies is what boards are taken for when the job does not say: the
// species group most sold as boards and studs (common practice, no source).
const assumedSpecies = "Spruce-Pine-Fir"

// boards fills in the timber by name.
func (p *planner) boards() {
	p.timber = map[string]board{}
	if len(p.spec.Timber) == 0 {
		p.snag(snagTimberMissing, "frames", "", "the frames have no timber: no boards are described", "write timber: and under it a name with its boards, such as pine: {board: 1x4, length: 8 ft}")
	}
	for _, t := range p.spec.Timber {
		path := "timber." + t.Name
		b := board{Timber: t, size: t.Nominal, thickness: t.Thickness, width: t.Width, turning: t.Turning == nil || *t.Turning}
		p.sizeOf(&b, path)
		b.trimFirst, b.trimFar = p.trim(t.TrimFirst, assume.TrimFirst), p.trim(t.TrimFar, assume.TrimFar)
		p.weigh(&b)
		p.checkStocks(b)
		p.timber[t.Name] = b
	}
}

// sizeOf takes the real size from the catalogue where it was not measured.
func (p *planner) sizeOf(b *board, path string) {
	if size, ok := p.cat.Stock.Lookup(b.Nominal); ok {
		b.size = size.Name
		if b.thickness == 0 || b.width == 0 {
			b.sizeFrom = &size
		}
		b.thickness = cmp.Or(b.thickness, size.Thickness)
		b.width = cmp.Or(b.width, size.Width)
	}
	switch {
	case b.thickness <= 0 || b.width <= 0:
		p.fault("boards %q have no size", b.Name)
	case b.thickness > b.width:
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
func (p *planner) weigh(b *board) {
	name := b.Species
	if name == "" {
		name = assumedSpecies
		p.speciesAssumed = true
	}
	s, ok := p.cat.Stock.Species(name)
	if !ok {
		p.fault("no species is called %q", name)
		return
	}
	b.Species, b.speciesFrom = s.Name, &s
	b.moisture = b.Moisture
	if b.moisture == 0 {
		b.moisture = p.book.Get(assume.Moisture).Value
	}
	b.density = s.Density(b.moisture)
}
