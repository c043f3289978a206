package layout

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
)

// LeastSeam, in mm, is the shortest contact called a seam: 1/2 in, under which
// no screw finds room clear of both mitre tips (common practice, no source).
const LeastSeam = 12.7

// seamAngle is how far two sides may be from parallel, in radians: 2 degrees,
// which over the shortest seam opens less than half a millimetre. A longer seam
// is ruled by its gap at both ends.
const seamAngle = 2 * math.Pi / 180

// meet finds seams, touches, near misses and overlaps between all frames.
func (l *Layout) meet(s Settings) {
	boards := make([][]board, len(l.Frames))
	for i, f := range l.Frames {
		boards[i] = boardsOf(f)
	}
	l.eachNearPair(s.nearReach(), func(a, b int) {
		o, deep := overlapOf(boards[a], boards[b], s.JointTolerance)
		if deep {
			o.Frames = [2]int{a, b}
			l.Overlaps = append(l.Overlaps, o)
		}
		for _, z := range zonesBetween(l.Frames, a, b, s) {
			l.record(z, deep, s)
		}
	})
	l.numberSeams()
	byFrames(l.Touches, l.Frames, func(t Touch) [2]int { return t.Frames })
	byFrames(l.Misses, l.Frames, func(m Miss) [2]int { return m.Frames })
	byFrames(l.Overlaps, l.Frames, func(o Overlap) [2]int { return o.Frames })
	for _, seam := range l.Seams {
		l.Doubled += seam.Length
	}
}

// record sorts a zone into seams, touch or near miss. Where two frames overlap
// only their seams are told: their other distances mean nothing.
func (l *Layout) record(z zone, overlapping bool, s Settings) {
	l.Seams = append(l.Seams, z.seams...)
	if len(z.seams) > 0 || overlapping {
		return
	}
	c := z.closest
	d := c.distance()
	switch {
	case d <= s.seamReach() || c.corners && !z.facing && d <= s.cornerReach():
		l.Touches = append(l.Touches, Touch{Frames: z.frames, At: c.a.Lerp(c.b, 0.5), Gap: d})
	case d < s.NearMiss:
		l.Misses = append(l.Misses, Miss{Frames: z.frames, At: c.a.Lerp(c.b, 0.5), Distance: d, Towards: c.b.Sub(c.a).Unit()})
	}
}

// eachNearPair calls f once for every two frames whose boxes are within reach,
// the lower number first. It sweeps along the longer way of the set piece, so
// that the frames looked at together are those of one narrow strip.
func (l *Layout) eachNearPair(reach float64, f func(a, b int)) {
	span := func(i int) (float64, float64) {
		box := l.Frames[i].Box
		if l.Width >= l.Height {
			return box.Min.X, box.Max.X
		}
		return box.Min.Y, box.Max.Y
	}
	order := make([]int, len(l.Frames))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		sa, _ := span(a)
		sb, _ := span(b)
		return cmp.Or(cmp.Compare(sa, sb), cmp.Compare(a, b))
	})
	var open []int
	for _, i := range order {
		start, _ := span(i)
		open = slices.DeleteFunc(open, func(j int) bool {
			_, end := span(j)
			return end+reach < start
		})
		for _, j := range open {
			if l.Frames[i].Box.Within(l.Frames[j].Box, reach) {
				f(l.inOrder(i, j))
			}
		}
		open = append(open, i)
	}
}

func (l *Layout) inOrder(a, b int) (int, int) {
	if l.Frames[a].Number > l.Frames[b].Number {
		return b, a
	}
	return a, b
}

// A zone is one place where two frames come near: all pairs of faces that are
// near and follow each other without the frames parting in between.
type zone struct {
	frames  [2]int
	seams   []Seam
	facing  bool // some two faces look at each other over the length of a seam
	closest approach
}

// An approach is where two faces are nearest to each other.
type approach struct {
	a, b    geom.Point
	corners bool // both points are corners
}

func (c approach) distance() float64 { return c.a.Dist(c.b) }

// A loop is the outline of a frame, or of its opening, as faces. An open
// frame's is a chain.
type loop struct {
	frame  int
	inner  bool
	closed bool
	faces  []face
}

func loopOf(frames []Frame, i int, inner bool) loop {
	f := frames[i]
	lp := loop{frame: i, inner: inner, closed: !f.Open, faces: make([]face, f.Sides())}
	for k := range lp.faces {
		lp.faces[k] = f.face(k+1, inner)
	}
	return lp
}

// facing picks the outlines by which two frames can meet: the outer ones, or
// when one frame sits in the other's opening, the inner face of that opening.
func facing(frames []Frame, a, b int) (loop, loop) {
	inA := frames[a].Inside.Contains(frames[b].Centre) && smaller(frames[b], frames[a])
	inB := frames[b].Inside.Contains(frames[a].Centre) && smaller(frames[a], frames[b])
	return loopOf(frames, a, inA), loopOf(frames, b, inB)
}

func smaller(f, g Frame) bool {
	return math.Abs(f.Outside.Area()) < math.Abs(g.Outside.Area())
}

// nearby is a pair of faces within reach of each other.
type nearby struct {
	i, j int
	approach
	zone int
}

func zonesBetween(frames []Frame, a, b int, s Settings) []zone {
	la, lb := facing(frames, a, b)
	pairs := nearFaces(la, lb, frames, s.nearReach())
	joinPairs(la, lb, pairs, s.nearReach())
	var zones []zone
	for n, p := range pairs {
		if p.zone == n {
			zones = append(zones, collect(la, lb, pairs, n, s))
		}
	}
	return zones
}

func nearFaces(la, lb loop, frames []Frame, reach float64) []nearby {
	var pairs []nearby
	near := facesNear(lb, frames[la.frame].Box, reach)
	for _, i := range facesNear(la, frames[lb.frame].Box, reach) {
		for _, j := range near {
			fa, fb := la.faces[i], lb.faces[j]
			if !fa.box().Within(fb.box(), reach) {
				continue
			}
			c := approachOf(fa, fb)
			if c.distance() < reach {
				pairs = append(pairs, nearby{i: i, j: j, approach: c, zone: len(pairs)})
			}
		}
	}
	return pairs
}

func facesNear(lp loop, box geom.Box, reach float64) []int {
	var near []int
	for i, f := range lp.faces {
		if f.box().Within(box, reach) {
			near = append(near, i)
		}
	}
	return near
}

// joinPairs gives pairs of faces that run on into each other one zone: the
// index of the first of them.
func joinPairs(la, lb loop, pairs []nearby, reach float64) {
	for n := range pairs {
		for m := range n {
			p, q := pairs[m], pairs[n]
			if !runsOn(la, p.i, q.i, lb, p.j, q.j, reach) && !runsOn(lb, p.j, q.j, la, p.i, q.i, reach) {
				continue
			}
			from, to := max(p.zone, q.zone), min(p.zone, q.zone)
			for k := range pairs {
				if pairs[k].zone == from {
					pairs[k].zone = to
				}
			}
		}
	}
}

// runsOn says whether faces i1 and i2 of one outline meet in a corner that is
// within reach of the one face, j1 = j2, of the other.
func runsOn(l loop, i1, i2 int, other loop, j1, j2 int, reach float64) bool {
	if j1 != j2 {
		return false
	}
	for range 2 {
		next := i1 + 1
		if l.closed {
			next %= len(l.faces)
		}
		if next == i2 {
			corner := l.faces[i2].from
			return other.faces[j1].near(corner).Dist(corner) < reach
		}
		i1, i2 = i2, i1
	}
	return false
}

// collect makes the zone that the n-th pair of faces starts.
func collect(la, lb loop, pairs []nearby, n int, s Settings) zone {
	z := zone{frames: [2]int{la.frame, lb.frame}, closest: pairs[n].approach}
	for _, p := range pairs[n:] {
		if p.zone != n {
			continue
		}
		if p.distance() < z.closest.distance() {
			z.closest = p.approach
		}
		fa, fb := la.faces[p.i], lb.faces[p.j]
		from, to, ok := facingStretch(fa, fb)
		if !ok {
			continue
		}
		z.facing = true
		if seam, ok := seamOf(fa, fb, from, to, s); ok {
			seam.Sides[0].Frame, seam.Sides[0].Side, seam.Sides[0].Inner = la.frame, p.i+1, la.inner
			seam.Sides[1].Frame, seam.Sides[1].Side, seam.Sides[1].Inner = lb.frame, p.j+1, lb.inner
			z.seams = append(z.seams, seam)
		}
	}
	return z
}

// facingStretch is the part of face a, from and to in mm along it, that looks
// straight at face b; it must be long enough for a seam.
func facingStretch(a, b face) (from, to float64, ok bool) {
	if a.out.Dot(b.out) > -math.Cos(seamAngle) {
		return 0, 0, false
	}
	start, end := a.along(b.to), a.along(b.from)
	from, to = max(min(start, end), 0), min(max(start, end), a.length())
	return from, to, to-from >= LeastSeam
}

// seamOf makes the seam of two faces along a's stretch. Faces nearer than the
// gap asked for are still a seam, down to pressing into each other by the joint
// tolerance: they will be fixed together, with the gap missing.
func seamOf(a, b face, from, to float64, s Settings) (Seam, bool) {
	a1, a2 := a.from.Add(a.dir.Mul(from)), a.from.Add(a.dir.Mul(to))
	b1, b2 := b.near(a1), b.near(a2)
	g1, g2 := b1.Sub(a1).Dot(a.out), b2.Sub(a2).Dot(a.out)
	if min(g1, g2) < -s.JointTolerance || max(g1, g2) > s.seamReach() {
		return Seam{}, false
	}
	onB1, onB2 := b.along(b1), b.along(b2)
	seam := Seam{
		Sides:  [2]SeamSide{{From: from, To: to}, {From: min(onB1, onB2), To: max(onB1, onB2)}},
		From:   a1.Lerp(b1, 0.5),
		To:     a2.Lerp(b2, 0.5),
		Length: to - from,
		Gap:    (g1 + g2) / 2,
		Flush:  sameEnds(a, b, s.JointTolerance),
	}
	seam.From, seam.To = leftFirst(seam.From, seam.To)
	return seam, true
}

// sameEnds says whether two faces end level with each other at both ends.
func sameEnds(a, b face, tolerance float64) bool {
	start, end := a.along(b.to), a.along(b.from)
	if start > end {
		start, end = end, start
	}
	return math.Abs(start) <= tolerance && math.Abs(end-a.length()) <= tolerance
}

// leftFirst puts the left end of a contact first, the lower one when it is upright.
func leftFirst(p, q geom.Point) (geom.Point, geom.Point) {
	if math.Abs(p.X-q.X) > sameSpot && p.X > q.X || math.Abs(p.X-q.X) <= sameSpot && p.Y > q.Y {
		return q, p
	}
	return p, q
}
