package cut

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/cut/internal/pack"
	"bowerwright/unit"
)

const (
	// sameSetting is the difference in radians under which two settings are
	// one: over a depth of 300 mm it is 0.3 nm.
	sameSetting = 1e-9
	// whole is the distance in nanometres under which a computed length is the
	// whole number beside it: float64 carries 20 m to 4e-6 nm, and 45 degrees
	// would otherwise lose a length that fits exactly.
	whole = 1e-4
	// slip is the length in nanometres by which a board may be overrun, in plan
	// and bound alike. Parts that fill a board exactly are common, since a
	// slanted end gives back what it takes; summed from whole nanometres they
	// come out a few too long. No tape and no saw shows a micrometre.
	slip = 1000
)

// up and down round nanometres to whole ones.
func up(nm float64) int64   { return int64(math.Ceil(nm - whole)) }
func down(nm float64) int64 { return int64(math.Floor(nm + whole)) }

// An end is a slanted end: its setting as a slope over the depth and the kerf
// there, in nanometres.
type end struct{ slope, kerf float64 }

// end gives the end whose line leans by an angle, positive to the far end.
func (o *Order) end(lean unit.Angle) end {
	return end{float64(o.Depth) * math.Tan(float64(lean)), float64(o.Kerf) / math.Cos(float64(lean))}
}

// gap gives the least centre-line distance between neighbours, in nanometres:
// the ends may not come closer at either face than the wider kerf.
func gap(right, left end) float64 {
	return max(right.kerf, left.kerf) + math.Abs(right.slope-left.slope)/2
}

// A stick is a part of the order in nanometres.
type stick struct {
	centre, short, long float64
	ends                [2]unit.Angle // leans, as given
}

// before gives the least centre-line distance from the first end of a stretch to
// a part's left end.
func (o *Order) before(t stretch, left end) float64 {
	if t.begun {
		return gap(o.end(t.lean), left)
	}
	return float64(t.trimFirst) + math.Abs(left.slope)/2
}

// stick works out a part's lengths.
func (o *Order) stick(p Part) stick {
	l, r := o.end(p.Left).slope, o.end(-p.Right).slope
	outside := float64(p.Outside)
	inside := outside - l + r
	return stick{outside - (l-r)/2, min(outside, inside), max(outside, inside), [2]unit.Angle{p.Left, -p.Right}}
}

// long says whether the part is long enough to be held at its cut.
func (o *Order) long(s stick) bool { return s.short >= float64(o.Hold)-whole }

// uncut says whether the part is a whole stretch and needs no cut.
func (s stick) uncut(t stretch) bool {
	return !t.begun && s.ends == [2]unit.Angle{} && s.centre == float64(t.length) && t.trimFirst == 0 && t.trimFar == 0
}

// holds says whether the part can be held at its cut, or needs none.
func (o *Order) holds(s stick, t stretch) bool { return s.uncut(t) || o.long(s) }

// A way is how a part lies.
type way struct{ rolled, swapped bool }

// ways gives the ways of lying that the order allows, the plainest first.
func (o *Order) ways() []way {
	if !o.Turning {
		return []way{{false, false}}
	}
	return []way{{false, false}, {true, false}, {false, true}, {true, true}}
}

// lying gives the leans of a part's left and right end when it lies some way.
func (w way) lying(ends [2]unit.Angle) [2]unit.Angle {
	l, r := ends[0], ends[1]
	if w.swapped {
		l, r = r, l
	}
	if w.rolled {
		l, r = -l, -r
	}
	return [2]unit.Angle{l + 0, r + 0} // plus 0 makes 0 of -0, which prints
}

// A kind is parts of the order that are the same stick.
type kind struct {
	stick
	parts []int // ascending
	count int
}

// kinds groups the parts of the order by stick, in bench order: by saw setting
// if so ordered, then by the shorter face, then the longer, then the first part.
func (o *Order) kinds() []kind {
	var ks []kind
	for i, p := range o.Parts {
		if p.Count == 0 {
			continue
		}
		s := o.stick(p)
		at := slices.IndexFunc(ks, func(k kind) bool { return o.same(k.stick, s) })
		if at < 0 {
			at = len(ks)
			ks = append(ks, kind{stick: s})
		}
		ks[at].parts = append(ks[at].parts, i)
		ks[at].count += p.Count
	}
	slices.SortStableFunc(ks, func(a, b kind) int {
		return cmp.Or(o.compareSettings(a, b), cmp.Compare(math.Round(a.short), math.Round(b.short)),
			cmp.Compare(math.Round(a.long), math.Round(b.long)), cmp.Compare(a.parts[0], b.parts[0]))
	})
	return ks
}

// compareSettings compares the larger settings of two kinds, then the smaller,
// where parts lie by setting.
func (o *Order) compareSettings(a, b kind) int {
	if !o.BySetting {
		return 0
	}
	steps := func(k kind, most bool) float64 {
		l, r := math.Abs(float64(k.ends[0])), math.Abs(float64(k.ends[1]))
		if most {
			return math.Round(max(l, r) / sameSetting)
		}
		return math.Round(min(l, r) / sameSetting)
	}
	return cmp.Or(cmp.Compare(steps(a, true), steps(b, true)), cmp.Compare(steps(a, false), steps(b, false)))
}

// same says whether a stick turned some allowed way is another.
func (o *Order) same(a, b stick) bool {
	if math.Abs(a.centre-b.centre) >= 0.5 {
		return false
	}
	for _, w := range o.ways() {
		if l := w.lying(b.ends); equal(l[0], a.ends[0]) && equal(l[1], a.ends[1]) {
			return true
		}
	}
	return false
}

func equal(a, b unit.Angle) bool { return math.Abs(float64(a-b)) < sameSetting }

// A desk turns kinds into the solver's states. Where parts may be turned, a
// whole board may be rolled behind any cut, so that only the size of a lean
// counts; otherwise its sign does too. A part that can be held leaves by a
// state of its own: in bench order the last part tells whether any can. So does
// one that can only be a whole stretch.
type desk struct {
	o         *Order
	kinds     []kind
	stretches []stretch
	leans     []unit.Angle
	wholes    []int // kinds too short to hold that are some whole stretch
}

func (o *Order) desk(ks []kind, ts []stretch) *desk {
	d := &desk{o: o, kinds: ks, stretches: ts}
	for i, k := range ks {
		d.lean(k.ends[0])
		d.lean(k.ends[1])
		d.lean(-k.ends[0])
		d.lean(-k.ends[1])
		if !o.long(k.stick) && slices.ContainsFunc(ts, k.uncut) {
			d.wholes = append(d.wholes, i)
		}
	}
	return d
}

// lean gives the number of a lean, a new one if need be.
func (d *desk) lean(a unit.Angle) int {
	if d.o.Turning {
		a = unit.Angle(math.Abs(float64(a)))
	}
	at := slices.IndexFunc(d.leans, func(b unit.Angle) bool { return equal(a, b) })
	if at < 0 {
		at = len(d.leans)
		d.leans = append(d.leans, a)
	}
	return at
}

// instance gives the solver's instance of a stretch with lengths rounded by
// round: up for a plan, down for a bound. The tail gives what must be left
// behind a last part that leaves by an end, its lean aside.
func (d *desk) instance(t stretch, round func(float64) int64, tail func(e end, held bool) float64) *pack.Instance {
	o, n, states := d.o, len(d.leans), 2*len(d.leans)+len(d.wholes)
	if o.Turning { // a board begun may be rolled first
		t.lean = unit.Angle(math.Abs(float64(t.lean)))
	}
	in := &pack.Instance{Room: int64(t.length) + slip, Gap: make([][]int64, states+1), End: make([]int64, states)}
	for s := range in.Gap {
		in.Gap[s] = make([]int64, n)
		for i, a := range d.leans {
			left := o.end(a)
			length := o.before(t, left)
			if s < states {
				length = gap(d.left(s), left)
			}
			in.Gap[s][i] = round(length)
		}
	}
	for s := range in.End {
		e := d.left(s)
		held := s >= n && s < 2*n || s >= 2*n && d.kinds[d.wholes[s-2*n]].uncut(t)
		in.End[s] = round(math.Abs(e.slope)/2 + tail(e, held))
	}
	for i, k := range d.kinds {
		in.Kinds = append(in.Kinds, pack.Kind{Length: round(k.centre), Ways: d.ways(i), Need: k.count})
	}
	return in
}

// left gives the end by which a state is left.
func (d *desk) left(state int) end {
	if n := len(d.leans); state < 2*n {
		return d.o.end(d.leans[state%n])
	}
	return d.o.end(0)
}

// tail is what must be left behind the last part: the far trim, or what is
// held.
func (d *desk) tail(t stretch) func(e end, held bool) float64 {
	return func(e end, held bool) float64 {
		if held {
			return float64(t.trimFar)
		}
		return max(float64(t.trimFar), e.kerf+float64(d.o.Hold))
	}
}

// tailWith is what must be left behind the last part when an offcut of some
// length is to be.
func (d *desk) tailWith(t stretch, offcut float64) func(e end, held bool) float64 {
	return func(e end, held bool) float64 {
		behind := float64(t.trimFar) + offcut
		if !held {
			behind = max(behind, float64(d.o.Hold))
		}
		return e.kerf + behind
	}
}

// ways gives the states by which a kind is entered and left.
func (d *desk) ways(i int) []pack.Way {
	k, n := d.kinds[i], len(d.leans)
	var out []pack.Way
	for _, w := range d.o.ways() {
		l := w.lying(k.ends)
		pw := pack.Way{In: d.lean(l[0]), Out: d.lean(l[1])}
		if at := slices.Index(d.wholes, i); at >= 0 {
			pw.Out = 2*n + at
		} else if d.o.long(k.stick) {
			pw.Out += n
		}
		if !slices.Contains(out, pw) {
			out = append(out, pw)
		}
	}
	return out
}
