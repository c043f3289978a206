package section

import (
	"errors"
	"fmt"
	"slices"

	"bowerwright/geom"
	"bowerwright/section/internal/check"
)

// An arranger looks for an order in which to add units. Screws are driven as
// soon as both frames are there: what comes later can only be in the way. So
// whether a unit can come next depends on which are there and not on how they
// came, and a set of units from which no way leads on is tried once.
type arranger struct {
	j       Assembly
	units   []set        // frames of each
	all     set          // of units
	middles []geom.Point // of each
	dead    map[set]bool
	work    int
	order   []int
	snags   map[int]set // seams that could not be reached, and what was in the way
	fallen  set         // frames that would not have stood
}

func (j Assembly) arranger() (*arranger, error) {
	a := &arranger{j: j, dead: map[set]bool{}, snags: map[int]set{}, work: j.Work}
	if a.work == 0 {
		a.work = Steps
	}
	if len(j.Frames) > Most || len(j.Units) == 0 || len(j.Units) > Most || j.Reach != nil && len(j.Reach) != len(j.Seams) {
		return nil, errors.New("section: an assembly has 1 to 64 units of up to 64 frames, and a list of reaches for every seam or none")
	}
	var seen set
	for i, u := range j.Units {
		var frames set
		for _, f := range u {
			if f < 0 || f >= len(j.Frames) || (seen | frames).has(f) {
				return nil, fmt.Errorf("section: frame %d is in two units or is none", f)
			}
			frames |= one(f)
		}
		if frames == 0 {
			return nil, fmt.Errorf("section: unit %d is empty", i)
		}
		seen |= frames
		a.units = append(a.units, frames)
		a.all |= one(i)
		a.middles = append(a.middles, middle(j.Frames, frames))
	}
	return a, nil
}

// Arrange finds the order in which an assembly is put together. The error is a
// *[Blocked] when there is none.
func (j Assembly) Arrange() (Order, error) {
	a, err := j.arranger()
	if err != nil {
		return Order{}, err
	}
	if !a.from(0) {
		return Order{}, a.blocked()
	}
	o := a.steps()
	if err := j.Check(o); err != nil {
		return Order{}, fmt.Errorf("section: our order is wrong: %w", err)
	}
	return o, nil
}

// from adds the rest to what is there.
func (a *arranger) from(there set) bool {
	if there == a.all {
		return a.j.Way != Tilted || a.stays(a.frames(there))
	}
	if a.dead[there] {
		return false
	}
	if a.work--; a.work < 0 {
		return false
	}
	for _, u := range a.next(there) {
		if !a.comes(there, u) {
			continue
		}
		a.order = append(a.order, u)
		if a.from(there | one(u)) {
			return true
		}
		a.order = a.order[:len(a.order)-1]
	}
	a.dead[there] = true
	return false
}

func (a *arranger) frames(units set) set {
	var f set
	for _, u := range units.list() {
		f |= a.units[u]
	}
	return f
}

// next lists the units to come, those with a seam to what is there first, then
// the lowest, then the leftmost.
func (a *arranger) next(there set) []int {
	placed := a.frames(there)
	rest := (a.all &^ there).list()
	near := make([]bool, len(a.units))
	beside := a.beside(placed)
	for _, u := range rest {
		near[u] = a.units[u].meets(beside)
	}
	slices.SortStableFunc(rest, func(u, v int) int {
		p, q := a.middles[u], a.middles[v]
		switch {
		case near[u] != near[v] && near[u], near[u] == near[v] && p.Y < q.Y, near[u] == near[v] && p.Y == q.Y && p.X < q.X:
			return -1
		case near[u] == near[v] && p == q:
			return 0
		}
		return 1
	})
	return rest
}

// beside is the frames that have a seam to some.
func (a *arranger) beside(frames set) set {
	var out set
	for _, s := range a.j.Seams {
		if frames.has(s.A) {
			out |= one(s.B)
		}
		if frames.has(s.B) {
			out |= one(s.A)
		}
	}
	return out
}

// seams lists those between two lots of frames.
func (a *arranger) seams(f, g set) []int {
	var out []int
	for i, s := range a.j.Seams {
		if f.has(s.A) && g.has(s.B) || f.has(s.B) && g.has(s.A) {
			out = append(out, i)
		}
	}
	return out
}

// comes says whether a unit can be the next: its seams are reached, and
// standing, it has a foot or a seam to hold it and the whole stays up.
func (a *arranger) comes(there set, u int) bool {
	before := a.frames(there)
	after := before | a.units[u]
	seams := a.seams(before, a.units[u])
	for _, s := range seams {
		if _, by, ok := a.reach(s, after); !ok {
			a.snags[s] |= by
			return false
		}
	}
	if a.j.Way != BuiltUp {
		return true
	}
	if !a.footed(a.units[u]) && len(seams) == 0 {
		a.fallen |= a.units[u]
		return false
	}
	return a.stays(after)
}

func (a *arranger) footed(frames set) bool {
	return slices.ContainsFunc(frames.list(), func(f int) bool { return a.j.Frames[f].Foot })
}

func (a *arranger) stays(frames set) bool {
	if a.footed(frames) && (a.j.Stands == nil || a.j.Stands(frames.list())) {
		return true
	}
	a.fallen |= frames
	return false
}

// reach gives the first place from which a seam is reached past frames that
// are there, and when there is none, what is in the way of all.
func (a *arranger) reach(s int, there set) (from int, by set, ok bool) {
	if a.j.Reach == nil || a.j.Reach[s] == nil {
		return -1, 0, true
	}
	own := one(a.j.Seams[s].A) | one(a.j.Seams[s].B)
	for i, r := range a.j.Reach[s] {
		if a.j.Way == BuiltUp && !r.Standing || a.j.Way != BuiltUp && !r.Lying {
			continue
		}
		var blocks set
		for _, f := range r.Blocks {
			blocks |= one(f) & there &^ own
		}
		if blocks == 0 {
			return i, 0, true
		}
		by |= blocks
	}
	return 0, by, false
}

// blocked names what is in the way and tries what would help.
func (a *arranger) blocked() *Blocked {
	b := &Blocked{Seam: -1, Frames: a.fallen.list(), Tired: a.work < 0}
	if b.Tired {
		return b
	}
	seams := make([]int, 0, len(a.snags))
	for s := range a.snags {
		seams = append(seams, s)
	}
	slices.Sort(seams)
	for _, s := range seams {
		if helps := a.j.helps(s); b.Seam < 0 || len(helps) > len(b.Helps) {
			b.Seam, b.By, b.Helps = s, a.snags[s].list(), helps
		}
	}
	if b.Seam >= 0 && (len(b.Helps) > 0 || a.fallen == 0) {
		b.Frames = nil
		return b
	}
	b.Seam, b.By = -1, nil
	if a.j.Way != Lying && a.j.works(func(j *Assembly) { j.Way = other(j.Way) }) {
		b.Helps = []Help{OtherWay}
	}
	return b
}

func other(w Way) Way {
	switch w {
	case Tilted:
		return BuiltUp
	case BuiltUp:
		return Tilted
	}
	return w
}

// helps lists the changes about a seam after which there is an order.
func (j Assembly) helps(s int) []Help {
	var out []Help
	if j.Way != Lying && j.works(func(j *Assembly) { j.Way = other(j.Way) }) {
		out = append(out, OtherWay)
	}
	if j.Way != Lying && j.works(func(j *Assembly) { j.Units = joined(j.Units, j.Seams[s]) }) {
		out = append(out, KeepTogether)
	}
	if j.works(func(j *Assembly) { j.Reach = slices.Clone(j.Reach); j.Reach[s] = nil }) {
		out = append(out, OpenReach)
	}
	return out
}

func (j Assembly) works(change func(*Assembly)) bool {
	change(&j)
	a, err := j.arranger()
	return err == nil && a.from(0)
}

// joined makes one unit of the two that a seam joins.
func joined(units [][]int, s Seam) [][]int {
	var both []int
	var out [][]int
	for _, u := range units {
		if slices.Contains(u, s.A) || slices.Contains(u, s.B) {
			both = append(both, u...)
		} else {
			out = append(out, u)
		}
	}
	slices.Sort(both)
	return append(out, both)
}

// Check replays an order, to build or to strike, with a program that shares no
// code with what made it.
func (j Assembly) Check(o Order) error {
	in := check.Assembly{Frames: len(j.Frames), Units: j.Units, Ballast: j.Ballast > 0, Stands: j.Stands, Tilts: o.Way == Tilted, Stays: o.Way == Lying}
	for _, f := range j.Frames {
		in.Foot = append(in.Foot, f.Foot)
	}
	for i, s := range j.Seams {
		c := check.Joint{A: s.A, B: s.B, Screws: s.Screws, Always: j.Reach == nil || j.Reach[i] == nil}
		if !c.Always {
			for _, r := range j.Reach[i] {
				c.Reach = append(c.Reach, check.Reach{Blocks: r.Blocks, Lying: r.Lying, Standing: r.Standing})
			}
		}
		in.Joints = append(in.Joints, c)
	}
	for _, s := range o.Steps {
		in.Steps = append(in.Steps, check.Step{Do: s.Do.String(), Frames: s.Frames, Seams: s.Seams, From: s.From, Screws: s.Screws})
	}
	return in.Replay()
}
