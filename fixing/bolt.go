package fixing

import (
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/stock"
	"bowerwright/unit"
)

// boltEdgeLeast is the least distance of a bolt from an edge: 1.5 D where it is
// loaded along the grain, l/D up to 6 (NDS 2018 Table 12.5.1C, second-hand).
const boltEdgeLeast Diameters = 1.5

// oversize is how much wider than the bolt its hole is drilled: 1/32 to 1/16 in
// by NDS 12.1.3 (second-hand); boltHole is rounded up to a drill that is sold.
const oversize = unit.Inch / 32

func boltHole(diameter unit.Length) unit.Length {
	step := drillStep(diameter)
	return (diameter + oversize + step - 1) / step * step
}

// bolts are what every bolted seam is made of.
type bolts struct {
	sold        []stock.Fastener
	nut, washer stock.Fastener
	insert      stock.Fastener
	whole       bool // the catalogue lacks no piece of it
}

// findBolts looks the hardware up: bolts of one thickness, that of the
// shortest, with what is of the same thickness.
func (w *work) findBolts() bolts {
	sold := w.hardware(stock.Bolt)
	if len(sold) == 0 {
		return bolts{}
	}
	thick := sold[0].Diameter
	of := func(k stock.Hardware) []stock.Fastener {
		return slices.DeleteFunc(w.hardware(k), func(f stock.Fastener) bool { return f.Diameter != thick })
	}
	first := func(k stock.Hardware) stock.Fastener {
		if all := of(k); len(all) > 0 {
			return all[0]
		}
		return stock.Fastener{}
	}
	b := bolts{sold: of(stock.Bolt), nut: first(stock.Nut), washer: first(stock.Washer), insert: first(stock.Insert)}
	b.whole = len(b.sold) > 0 && b.nut.Name != "" && b.washer.Name != "" && (b.insert.Name != "" || !w.s.Inserts)
	return b
}

func (w *work) boltNeed(d unit.Length) need {
	return need{diameter: d, edge: []Diameters{w.rules.BoltEdge, boltEdgeLeast}, ends: []Diameters{w.rules.BoltEnd, w.rules.BoltEndLeast},
		pitch: w.rules.BoltPitch, pitchAcross: w.rules.BoltPitch}
}

// bolt fixes a seam with bolts right through, or into threaded inserts where
// that is asked for or the second board is a flat one.
func (w *work) bolt(c contact, choice Choice, seam *Seam) *Problem {
	b := w.bolts
	bad := w.problem(NoBolt, c)
	if !b.whole {
		return bad
	}
	for _, as := range w.ways(choice) {
		t, p := w.choose(c, func(head int) (trial, *Problem) { return w.boltsFrom(c, b, head, as) })
		if p != nil {
			bad = farther(bad, p)
			continue
		}
		m := Bolted
		if t.fasteners[0].Kind == stock.Insert {
			m = Inserted
		}
		w.keep(seam, m, t, as)
		return nil
	}
	return bad
}

// boltsFrom tries bolts with their heads on one side.
func (w *work) boltsFrom(c contact, b bolts, head int, as count) (trial, *Problem) {
	into := w.s.Inserts || !c.sides[1-head].thin()
	bolt, f, ok := b.through(c, head)
	if into {
		bolt, f, ok = b.into(c, head, w.rules.Keep)
	}
	if !ok {
		p := w.problem(NoBolt, c)
		p.Need = b.grip(c)
		return trial{}, p
	}
	n := w.boltNeed(bolt.Diameter)
	n.h[head], n.h[1-head] = c.sides[head].thick, f.penetration
	a, p := w.arrange(c, n, as)
	if p != nil {
		return trial{}, p
	}
	return w.outOfTheWay(c, a, bolt.Diameter.MM(), func(a arrangement) (trial, *Problem) {
		return w.setBolts(c, b, bolt, f, head, into, a)
	})
}

// grip is what a bolt right through must be long: boards, gap, two washers and
// the nut.
func (b bolts) grip(c contact) float64 {
	return c.sides[0].thick + c.gap + c.sides[1].thick + 2*b.washer.Thickness.MM() + b.nut.Thickness.MM()
}

// through chooses the shortest bolt that fills its nut.
func (b bolts) through(c contact, head int) (stock.Fastener, fit, bool) {
	for _, bolt := range b.sold {
		if bolt.Length.MM() >= b.grip(c)-keepSlack {
			return bolt, fit{bolt, c.sides[head].thick, c.sides[1-head].thick, bolt.Length.MM() - b.grip(c)}, true
		}
	}
	return stock.Fastener{}, fit{}, false
}

// into chooses the longest bolt that stays in the insert, by at least its own
// diameter (common practice, no source); where none does, the shortest that
// stays in the second board, for which the hole is drilled deeper.
func (b bolts) into(c contact, head int, keep float64) (stock.Fastener, fit, bool) {
	first, second := c.sides[head].thick, c.sides[1-head].thick
	var best stock.Fastener
	var f fit
	if b.insert.Length.MM() > second-keep {
		return best, f, false
	}
	for _, bolt := range b.sold {
		in := bolt.Length.MM() - b.washer.Thickness.MM() - first
		if in > second-keep+keepSlack {
			break
		}
		if in-c.gap < bolt.Diameter.MM() {
			continue
		}
		if best.Name != "" && in-c.gap > b.insert.Length.MM() {
			break // it would stand on the bottom of the hole and not clamp
		}
		if in-c.gap > b.insert.Length.MM() && in+insertAir.MM() > second-keep+keepSlack {
			break
		}
		best, f = bolt, fit{bolt, first, in - c.gap, second - in}
	}
	return best, f, best.Name != ""
}

// insertAir is left behind a bolt that goes through its insert: common practice,
// no source.
const insertAir = unit.Millimetre

// setBolts puts a bolt at every spot. It is pushed in by hand: in front of the
// head there must be its own length, in front of the nut a spanner's room.
func (w *work) setBolts(c contact, b bolts, bolt stock.Fastener, f fit, head int, into bool, a arrangement) (trial, *Problem) {
	t := trial{a: a}
	for _, sp := range a.spots {
		fast := Fastener{Kind: stock.Bolt, Name: bolt.Name, Diameter: bolt.Diameter, Length: bolt.Length, Along: sp.s, Depth: sp.z, HeadIn: sp.z,
			Head: c.sides[head].frame, Tip: c.sides[1-head].frame, At: c.on(sp.s, head, c.sides[head].thick), Axis: c.into(1 - head),
			First: f.first, Penetration: f.penetration, Spare: f.spare, Tool: ByHand}
		fast.Way = direction(fast.Axis)
		hole := boltHole(bolt.Diameter)
		fast.Holes = Holes{Clearance: hole, Pilot: hole, Sink: b.washer.Width, Source: "NDS 12.1.3: 1/32 to 1/16 in wider than the bolt"}
		looks := []look{lookOf(fast)}
		wants := bolt.Length.MM()
		nut := lane{at: c.on(sp.s, 1-head, c.sides[1-head].thick), out: fast.Axis, dir: c.dir, z: sp.z}
		fast.Room = w.room(lane{at: fast.At, out: fast.Axis.Mul(-1), dir: c.dir, z: sp.z})
		short := fast.Room < wants
		if into {
			fast.Kind = stock.Insert
			fast.Holes.Pilot, fast.Holes.Source = b.insert.Width, "the insert maker's own figure comes first"
			// A bolt that goes through its insert needs air behind it.
			deep, _ := unit.FromMM(f.penetration, unit.Nanometre, unit.Nearest)
			if fast.Holes.Stop = b.insert.Length; deep > b.insert.Length {
				fast.Holes.Stop = deep + insertAir
			}
		} else {
			looks = append(looks, look{nut.at, sp.z, nut.out})
			short = short || w.room(nut) < w.rules.NutRoom
		}
		if short {
			p := w.problem(NoReach, c)
			p.Room, p.Need = fast.Room, wants
			return t, p
		}
		t.add(fast, looks[0], w.pathOf(fast, c))
		t.looks = append(t.looks, looks[1:]...)
	}
	return t, nil
}

// boreBolts joins two flat frames by bolts through both widths, head and nut
// sunk in counterbores of equal depth.
func (w *work) boreBolts(c contact, choice Choice, seam *Seam) *Problem {
	b := w.bolts
	if !b.whole {
		return w.problem(NoBolt, c)
	}
	if room, wants := c.rise(), b.washer.Width.MM()+2*w.rules.Bore; room < wants {
		p := w.problem(NoBore, c)
		p.Room, p.Need = room, wants
		return p
	}
	bolt, bore, ok := b.sunk(c)
	if !ok {
		p := w.problem(NoBolt, c)
		p.Need = b.grip(c)
		return p
	}
	bad := w.problem(NoBolt, c)
	for _, as := range w.ways(choice) {
		n := w.boltNeed(bolt.Diameter)
		n.h = [2]float64{c.sides[0].thick, c.sides[1].thick}
		n.edge = []Diameters{boltEdgeLeast}
		a, p := w.arrange(c, n, as)
		var t trial
		if p == nil {
			t, p = w.outOfTheWay(c, a, bolt.Diameter.MM(), func(a arrangement) (trial, *Problem) {
				return w.setBored(c, b, bolt, bore, a)
			})
		}
		if p != nil {
			bad = farther(bad, p)
			continue
		}
		t.seen = w.seenBy(t.looks)
		w.keep(seam, BoredBolts, t, as)
		return nil
	}
	return bad
}

// sunk chooses the longest bolt whose head and nut both disappear, and gives
// the depth of the two counterbores; no counterbore goes beyond half a width.
func (b bolts) sunk(c contact) (stock.Fastener, float64, bool) {
	wood := c.sides[0].thick + c.gap + c.sides[1].thick
	hidden := b.nut.Thickness.MM() + b.washer.Thickness.MM()
	for i := len(b.sold) - 1; i >= 0; i-- {
		grip := b.sold[i].Length.MM() - 2*b.washer.Thickness.MM() - b.nut.Thickness.MM()
		bore := (wood - grip) / 2
		if bore >= hidden && bore <= min(c.sides[0].thick, c.sides[1].thick)/2 {
			return b.sold[i], bore, true
		}
	}
	return stock.Fastener{}, 0, false
}

func (w *work) setBored(c contact, b bolts, bolt stock.Fastener, bore float64, a arrangement) (trial, *Problem) {
	head := 0
	t := trial{a: a}
	for _, sp := range a.spots {
		deep, _ := unit.FromMM(bore, unit.Nanometre, unit.Nearest)
		fast := Fastener{Kind: stock.Bolt, Name: bolt.Name, Diameter: bolt.Diameter, Length: bolt.Length, Along: sp.s, Depth: sp.z, HeadIn: sp.z,
			Head: c.sides[head].frame, Tip: c.sides[1-head].frame, At: c.on(sp.s, head, c.sides[head].thick), Axis: c.into(1 - head),
			First: c.sides[head].thick - bore, Penetration: c.sides[1-head].thick - bore, Spare: bore, Tool: Socket,
			Holes: Holes{Clearance: boltHole(bolt.Diameter), Pilot: boltHole(bolt.Diameter), Sink: b.washer.Width, Bore: deep,
				Source: "NDS 12.1.3: 1/32 to 1/16 in wider than the bolt"}}
		fast.Way = direction(fast.Axis)
		fast.Room = w.room(lane{at: fast.At, out: fast.Axis.Mul(-1), dir: c.dir, z: sp.z})
		if fast.Room < bolt.Length.MM() {
			p := w.problem(NoReach, c)
			p.Room, p.Need = fast.Room, bolt.Length.MM()
			return t, p
		}
		through := pathOf(c.on(sp.s, 0, c.sides[0].thick), c.on(sp.s, 1, c.sides[1].thick), sp.z, sp.z, b.washer.Width.MM(), c.seam.Number)
		t.add(fast, lookOf(fast), through)
		t.looks = append(t.looks, look{c.on(sp.s, 1, c.sides[1].thick), sp.z, fast.Axis})
	}
	return t, nil
}

// pegEnd is how near the end of a board a peg's hole is drilled, in diameters of
// the peg: it locates and carries little (common practice, no source).
const pegEnd Diameters = 2

// peg puts two locating pegs into a site seam, as far apart as its bolts leave
// room, one nearer the front and one nearer the back, so that the frames go
// together one way only.
func (w *work) peg(c contact, seam *Seam) {
	all := w.pegs
	if len(all) == 0 {
		seam.note(NoPegs)
		return
	}
	p := all[0]
	into := [2]float64{}
	for k, s := range c.sides {
		into[k] = min(p.Length.MM()/2, s.thick-w.rules.Keep-p.Diameter.MM()/4)
	}
	end := pegEnd.of(p.Diameter)
	wood := c.span(into)
	in := geom.Interval{From: wood.From + end, To: wood.To - end}
	rise := c.rise()
	first, ok1 := w.pegAt(c, p, into, in.From, in.To, rise/3)
	last, ok2 := w.pegAt(c, p, into, in.To, in.From, 2*rise/3)
	if !ok1 || !ok2 || math.Abs(first.Along-last.Along) < 4*p.Diameter.MM() {
		seam.note(NoPegs)
		return
	}
	seam.Pegs = []Peg{first, last}
	for _, q := range seam.Pegs {
		w.paths.add(w.pegPath(c, p, q))
	}
}

// pegTries is how finely a seam is looked through for the place of a peg.
const pegTries = 32

// pegAt finds the first free place on the way from one end to the other.
func (w *work) pegAt(c contact, p stock.Fastener, into [2]float64, from, to, z float64) (Peg, bool) {
	apart := p.Diameter.MM() / 2
	for i := range pegTries + 1 {
		s := from + (to-from)*float64(i)/pegTries
		q := Peg{Name: p.Name, Along: s, Depth: z, At: c.seam.From.Add(c.dir.Mul(s)), Into: into, Hole: p.Diameter}
		if d, _ := w.paths.clearance(w.pegPath(c, p, q), apart); d >= apart {
			return q, true
		}
	}
	return Peg{}, false
}

func (w *work) pegPath(c contact, p stock.Fastener, q Peg) path {
	return pathOf(c.on(q.Along, 0, q.Into[0]), c.on(q.Along, 1, q.Into[1]), q.Depth, q.Depth, p.Diameter.MM(), c.seam.Number)
}
