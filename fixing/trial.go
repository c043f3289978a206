package fixing

import (
	"math"
	"slices"
)

// A trial is one way to fix a seam, ready to be compared.
type trial struct {
	fasteners []Fastener
	looks     []look
	paths     []path
	a         arrangement
	seen      int
	tool      Reach
	moved     bool
}

// reaches in order of preference.
var reaches = []Reach{Straight, FromAbove, ByHand, Socket, Angled, AtASlant}

func (t *trial) add(f Fastener, l look, p path) {
	t.fasteners, t.looks, t.paths = append(t.fasteners, f), append(t.looks, l), append(t.paths, p)
	if t.tool == "" || slices.Index(reaches, f.Tool) > slices.Index(reaches, t.tool) {
		t.tool = f.Tool
	}
}

// room is the least in front of a head.
func (t trial) room() float64 {
	least := math.Inf(1)
	for _, f := range t.fasteners {
		least = min(least, f.Room)
	}
	return least
}

// sameRoom, in mm, is the difference below which two rooms, or two distances
// from the middle, count as equal: mirrored sums differ in their last bits.
const sameRoom = 0.01

// fromFront, a share of all looks, is what driving at a slant from the open front
// counts for beside being seen: such a seam is closed before the piece is laid
// face down, or when it is turned over again. A straight way is left for it only
// where that is seen from much more than the front would have to be reached from
// (common practice, no source).
const fromFront = 1.0 / 3

// cost is how often heads are seen, and what comes on top.
func (w *work) cost(t trial) float64 {
	seen := float64(t.seen)
	if slices.ContainsFunc(t.fasteners, func(f Fastener) bool { return f.From == Front }) {
		seen += fromFront * float64(len(t.looks)*len(w.eyes))
	}
	return seen
}

// better says whether t is to be taken before u, which holds its heads on the
// other side: the fewer eyes see it, one from the front counting for more; then the better the driver reaches; then
// the more room there is; then the nearer the heads are to the middle line, so
// that a piece with two like halves is fixed alike in both; then the frame with
// the lower number holds them.
func (w *work) better(t, u trial) bool {
	if a, b := w.cost(t), w.cost(u); math.Abs(a-b) > sameRoom {
		return a < b
	}
	if t.tool != u.tool {
		return slices.Index(reaches, t.tool) < slices.Index(reaches, u.tool)
	}
	if a, b := t.room(), u.room(); math.Abs(a-b) > sameRoom {
		return a > b
	}
	off := func(t trial) float64 { return math.Abs(t.fasteners[0].At.X - w.l.Width/2) }
	if a, b := off(t), off(u); math.Abs(a-b) > sameRoom {
		return a < b
	}
	number := func(t trial) int { return w.l.Frames[t.fasteners[0].Head].Number }
	return number(t) < number(u)
}

// choose makes the trial with the heads on either side and takes the better
// one. A side through which nothing may be driven is left out.
func (w *work) choose(c contact, try func(head int) (trial, *Problem)) (trial, *Problem) {
	var best *trial
	var worst *Problem
	for head := range c.sides {
		if !c.sides[head].thin() {
			continue
		}
		t, p := try(head)
		if p != nil {
			worst = farther(worst, p)
			continue
		}
		t.seen = w.seenBy(t.looks)
		if best == nil || w.better(t, *best) {
			best = &t
		}
	}
	if best == nil {
		return trial{}, worst
	}
	return *best, nil
}

// progress orders the problems by how far the fixing had come: the farthest
// says best what helps.
var progress = []Code{NoScrew, NoBolt, NoBore, NoLength, TooThin, TooShort, NoReach, Crossing}

func farther(p, q *Problem) *Problem {
	if p == nil || q != nil && slices.Index(progress, q.Code) > slices.Index(progress, p.Code) {
		return q
	}
	return p
}

func (w *work) problem(code Code, c contact) *Problem {
	p := Problem{Code: code, Seam: c.seam.Number, At: c.seam.Middle()}
	for k, s := range c.sides {
		p.Frames[k] = w.l.Frames[s.frame].ID
	}
	return &p
}

// mostMoves is how many diameters a set of fasteners is moved out of the way
// of others, at most.
const mostMoves = 16

// outOfTheWay makes a trial of an arrangement, displaced by as few diameters as
// keep it clear of the paths already there and within reach of a driver: across
// the depth or along the seam, and of two equal ways the clearer one.
func (w *work) outOfTheWay(c contact, a arrangement, diameter float64, try func(arrangement) (trial, *Problem)) (trial, *Problem) {
	apart := float64(w.rules.Apart) * diameter
	first, bad := try(a)
	if bad == nil {
		room, other := w.clearance(first, apart)
		if room >= apart {
			return first, nil
		}
		bad = w.problem(Crossing, c)
		bad.Other, bad.Room, bad.Need = other, max(room, 0), apart
	}
	for _, k := range moves(bad) {
		if t, ok := w.movedBy(a, k, diameter, apart, try); ok {
			return t, nil
		}
	}
	return first, bad
}

// A move is so many diameters across the depth and along the seam, either way.
type move struct{ across, along float64 }

// moves are those to try, least first. Where a path is in the way a diameter
// more may do; where a driver does not reach, only a good way along the seam
// helps.
func moves(bad *Problem) []move {
	var out []move
	if bad.Code == NoReach {
		for k := 2; k <= mostMoves; k *= 2 {
			out = append(out, move{along: float64(k)})
		}
		return out
	}
	for k := 1; k <= mostMoves; k++ {
		out = append(out, move{across: float64(k)}, move{along: float64(k)})
	}
	return out
}

// movedBy tries a move both ways and takes the clearer one that is clear
// enough.
func (w *work) movedBy(a arrangement, m move, diameter, apart float64, try func(arrangement) (trial, *Problem)) (trial, bool) {
	var best trial
	most, found := apart, false
	for _, way := range []float64{1, -1} {
		b, ok := a.moved(way*m.along*diameter, way*m.across*diameter)
		if !ok {
			continue
		}
		t, p := try(b)
		if p != nil {
			continue
		}
		if room, _ := w.clearance(t, 2*apart); room >= most && (!found || room > most+sameRoom) {
			best, most, found = t, room, true
		}
	}
	best.moved = true
	return best, found
}

func (w *work) clearance(t trial, reach float64) (float64, int) {
	least, other := reach, 0
	for _, p := range t.paths {
		if d, seam := w.paths.clearance(p, reach); d < least {
			least, other = d, seam
		}
	}
	return least, other
}
