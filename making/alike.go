package making

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// A Symmetry is a way to put a frame back on its own place: turned so that
// corner 1 lies where corner 1+Shift was, or, Over, turned over back to front
// with corner 1 where corner 1+Shift was.
type Symmetry struct {
	Shift int
	Over  bool
	Turn  unit.Angle // anticlockwise, 0 to 360°; for Over: of the axis it is turned over about, 0 to 180°
}

// Symmetries lists the ways in which an outline lies on itself within a
// tolerance in mm, leaving it as it is first. Corners match when the distances
// between all of them do; an open outline keeps its feet on the floor.
func Symmetries(o frame.Outline, tolerance float64) []Symmetry {
	var out []Symmetry
	n := len(o.Corners)
	for _, over := range []bool{false, true} {
		for shift := range n {
			if o.Open && (!over && shift != 0 || over && shift != n-1) {
				continue
			}
			if matches(o.Corners, shift, over, tolerance) {
				out = append(out, Symmetry{shift, over, turnOf(o.Corners, shift, over)})
			}
		}
	}
	return out
}

// goesTo is where corner i comes to lie, both from 0.
func goesTo(i, shift, n int, over bool) int {
	if over {
		return (shift - i + n) % n
	}
	return (i + shift) % n
}

// alikeWays are the symmetries of a kind, those that bring its back to the front
// left out where the back is another one. Front edges are pressed level at the
// glue and differences in width go to the back: a frame that is turned over shows
// those, so whoever offers it says so.
func (m *maker) alikeWays(k Kind) []Symmetry {
	ways := Symmetries(k.Frame.Built, m.shop.Rates.Tolerance)
	if k.OneFace || k.Corner == Blocks || k.Corner == Plates {
		ways = slices.DeleteFunc(ways, func(s Symmetry) bool { return s.Over })
	}
	return ways
}

func matches(p geom.Polygon, shift int, over bool, tolerance float64) bool {
	n := len(p)
	for i := range p {
		for j := range i {
			a, b := goesTo(i, shift, n, over), goesTo(j, shift, n, over)
			if math.Abs(p[i].Dist(p[j])-p[a].Dist(p[b])) > tolerance {
				return false
			}
		}
	}
	return true
}

// turnOf compares the direction of side 1 with that of the side it comes to
// lie on. A mirror in an axis at angle a takes direction t to 2a - t.
func turnOf(p geom.Polygon, shift int, over bool) unit.Angle {
	n := len(p)
	from := p[1].Sub(p[0])
	to := p[goesTo(1, shift, n, over)].Sub(p[goesTo(0, shift, n, over)])
	t, u := math.Atan2(from.Y, from.X), math.Atan2(to.Y, to.X)
	if over {
		return unit.Angle(within((t+u)/2, math.Pi))
	}
	return unit.Angle(within(u-t, 2*math.Pi))
}

// within takes an angle round to 0 up to, not including, full; what is a hair
// under full is 0.
func within(a, full float64) float64 {
	a = math.Mod(a, full)
	if a < 0 {
		a += full
	}
	if full-a < 1e-9 {
		return 0
	}
	return a
}

// Alike are placed frames that may change places: made alike and, turned or
// turned over as Ways allows, of one outline. Try them in each other's spots
// before anything is numbered.
type Alike struct {
	Kind   string
	Frames []int // by number
	Ways   int   // in which each may lie in a spot
}

// alike groups the placed frames. A mirrored frame goes with the others when its
// kind lies on itself turned over.
func (m *maker) alike(l layout.Layout) []Alike {
	var out []Alike
	for i, k := range m.kinds {
		ways := m.plan.Kinds[i].Alike
		groups := map[bool][]int{}
		for j, f := range l.Frames {
			if f.Kind == k.Name {
				mirror := f.Move.Mirror != l.FromBack && !canTurnOver(ways)
				groups[mirror] = append(groups[mirror], j)
			}
		}
		for _, mirror := range []bool{false, true} {
			if g := groups[mirror]; len(g) > 0 {
				byNumber(l, g)
				out = append(out, Alike{Kind: k.Name, Frames: g, Ways: len(ways)})
			}
		}
	}
	return out
}

func canTurnOver(ways []Symmetry) bool {
	return slices.ContainsFunc(ways, func(s Symmetry) bool { return s.Over })
}

func byNumber(l layout.Layout, frames []int) {
	slices.SortFunc(frames, func(a, b int) int { return cmp.Compare(l.Frames[a].Number, l.Frames[b].Number) })
}

func sortBare(b []Bare) {
	slices.SortFunc(b, func(x, y Bare) int {
		return cmp.Or(cmp.Compare(x.Frame, y.Frame), cmp.Compare(x.Side, y.Side), cmp.Compare(x.From, y.From), cmp.Compare(x.Seam, y.Seam))
	})
}
