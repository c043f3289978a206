package passage

import (
	"math"

	"bowerwright/geom"
)

// A Corner is a turn of a passage: its width before and after, how high it is
// and by how much it turns, in radians; zero is a right angle. Both passages go on
// for as long as the piece needs. It is pictured turning to the right; where it
// turns to the left the pictures are to be mirrored and the face changed.
// Wrapping and fingers are taken off both widths, which at the inner corner is
// a little more than they need.
type Corner struct{ First, Second, Height, Turn float64 }

// Walls are the lines to draw about poses: the outer walls and the inner ones,
// each from the first passage to the second, and so far along either.
func (c Corner) Walls(far float64) (outer, inner []geom.Point) {
	s, k := math.Sincos(c.bend())
	back, on := geom.Point{X: -k * far, Y: s * far}, geom.Point{X: far}
	in := c.inner()
	return []geom.Point{back, {}, on}, []geom.Point{in.Add(back), in, in.Add(on)}
}

// bend is the turn in radians.
func (c Corner) bend() float64 {
	if c.Turn == 0 {
		return math.Pi / 2
	}
	return c.Turn
}

// inner lies First from the first outer wall and Second from the second.
func (c Corner) inner() geom.Point {
	s, k := math.Sincos(c.bend())
	return geom.Point{X: (c.First - c.Second*k) / s, Y: c.Second}
}

// A Landing is a half landing between two flights side by side: their widths,
// how deep the landing is, how long it is across both flights, and the
// headroom. It is taken as two right angles with the landing as the passage
// between, and the piece must lie wholly along the landing between them.
type Landing struct{ Up, Down, Depth, Length, Height float64 }

func (l Landing) turns() [2]Corner {
	return [2]Corner{{First: l.Up, Second: l.Depth, Height: l.Height}, {First: l.Depth, Second: l.Down, Height: l.Height}}
}

// A foot is what a hold covers of the floor while it turns.
type foot struct {
	hold    Hold
	outline geom.Polygon
	up      float64 // how high it is
	along   float64 // how long it is in its longest direction
}

// upright is the shortest footprint under a ceiling: the piece turned in its
// plane until it is as short as it gets. With every height given, the shortest
// is the best, since a shorter stick of the same thickness lies within it.
func (b *Body) upright(height float64) (foot, bool) {
	turn, along, ok := b.flattest(height)
	if !ok {
		return foot{}, false
	}
	// flattest lays the wide side level; the length wanted level is its height.
	turn += math.Pi / 2
	if turn > math.Pi-sameTurn {
		turn -= math.Pi
	}
	if wide, high := b.Size(0); wide <= along+Snug && high <= height {
		turn = 0 // as it stands is as good
	}
	_, up := b.Size(turn)
	kind := OnEdge
	if turn < sameTurn {
		kind = Upright
	}
	return foot{Hold{Kind: kind, Turn: turn}, rectangle(along, b.thick), up, along}, true
}

// A carry is one of the positions in which a corner is tried. A piece that is
// not its own mirror image goes round differently face up and face down.
type carry int

const (
	standing carry = iota
	faceUp
	faceDown
)

func (b *Body) flat(down bool) foot {
	var along float64
	for _, p := range b.hull {
		for _, q := range b.hull {
			along = math.Max(along, p.Dist(q))
		}
	}
	middle := b.hull.Shift(b.hull.Box().Centre().Mul(-1))
	if down {
		middle = geom.Move{Mirror: true}.Polygon(middle).CCW()
	}
	return foot{Hold{Kind: Flat, Lean: math.Pi / 2, FaceDown: down}, middle, b.thick, along}
}

// Pass looks at the piece upright and flat.
func (c Corner) Pass(b *Body) Verdict {
	return verdict([]Way{c.best(b, standing), better(c.best(b, faceUp), c.best(b, faceDown))})
}

// Fits says whether either goes round.
func (c Corner) Fits(b *Body) bool {
	s := c.shrink(b.room - Snug)
	return s.goes(b, standing) || s.goes(b, faceUp) || s.goes(b, faceDown)
}

// Pass looks at the piece upright and flat round both corners.
func (l Landing) Pass(b *Body) Verdict {
	return verdict([]Way{l.best(b, standing), better(l.best(b, faceUp), l.best(b, faceDown))})
}

// Fits says whether either goes round.
func (l Landing) Fits(b *Body) bool {
	s := l.shrink(b.room - Snug)
	return s.goes(b, standing) || s.goes(b, faceUp) || s.goes(b, faceDown)
}

func (c Corner) shrink(d float64) Corner {
	return Corner{c.First - d, c.Second - d, c.Height - d, c.Turn}
}

func (l Landing) shrink(d float64) Landing {
	return Landing{l.Up - d, l.Down - d, l.Depth - d, l.Length - d, l.Height - d}
}

func (c Corner) foot(b *Body, how carry) (foot, bool) {
	if how != standing {
		return b.flat(how == faceDown), b.thick <= c.Height
	}
	return b.upright(c.Height)
}

func (c Corner) goes(b *Body, how carry) bool {
	f, ok := c.foot(b, how)
	return ok && c.First > 0 && c.Second > 0 && newTurner(f.outline, c).run().ok
}

func (l Landing) goes(b *Body, how carry) bool {
	if f, ok := (Corner{Height: l.Height}).foot(b, how); !ok || f.along > l.Length {
		return false
	}
	turns := l.turns()
	return turns[0].goes(b, how) && turns[1].goes(b, how)
}

func better(a, b Way) Way {
	if b.Clearance > a.Clearance+Snug {
		return b
	}
	return a
}

// slackOf is the greatest amount by which all measures of a spot may shrink
// and the piece still goes; negative when they must grow.
func slackOf(size float64, goes func(d float64) bool) float64 {
	lo, hi := -size, size
	for range halvings {
		mid := (lo + hi) / 2
		if goes(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func (c Corner) best(b *Body, how carry) Way {
	c = c.shrink(b.room)
	size := c.First + c.Second + c.Height + 2*b.diameter() + b.thick
	s := slackOf(size, func(d float64) bool { return c.shrink(d).goes(b, how) })
	tight := c.shrink(s - Snug)
	f, _ := tight.foot(b, how)
	w := Way{Hold: f.hold, Takes: b.Takes(f.hold), Clearance: s}
	w.Slack = Room{Along: math.Inf(1), Across: s, Up: c.Height - f.up}
	w.Poses = newTurner(f.outline, tight).run().poses
	return w
}

func (l Landing) best(b *Body, how carry) Way {
	free := l.shrink(b.room)
	size := free.Up + free.Down + free.Depth + free.Length + free.Height + 2*b.diameter() + b.thick
	s := slackOf(size, func(d float64) bool { return free.shrink(d).goes(b, how) })
	// The picture is of the worse of the two corners.
	turns := l.turns()
	w, other := turns[0].best(b, how), turns[1].best(b, how)
	if other.Clearance < w.Clearance {
		w = other
	}
	f, _ := turns[0].shrink(b.room+w.Clearance-Snug).foot(b, how)
	w.Slack.Along, w.Slack.Across, w.Clearance = free.Length-f.along, w.Clearance, s
	return w
}
