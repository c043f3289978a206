package making

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
	"bowerwright/layout"
)

// A Lay is how the set piece is laid out dry. It is laid face down: give Make
// the layout from behind (layout.Back) and everything here is as the maker
// kneeling on the floor sees it.
type Lay struct {
	FromBack      bool
	Width, Height float64
	Straight      Straight
	Order         []Laid
	Diagonals     [2]Diagonal // lower left to upper right, lower right to upper left
	Centre        float64     // the centre line, from the left end
	Chalk         []Chalked   // in the order of laying
	Alike         []Alike
	Shims         Shims
	Steps         []Step
}

// A Straight is the known-straight length that is clamped to all standing sides
// first. From and To are mm from the left end, along the base line.
type Straight struct {
	From, To float64
	Frames   []int // clamped to it, from the left
}

// Length of it.
func (s Straight) Length() float64 { return s.To - s.From }

// A Laid is one step of the laying.
type Laid struct {
	Frame   int
	OnFloor bool  // starts on the straight length or the base line
	ByChalk bool  // starts a piece of its own, by the chalk plan alone
	Against []int // seams, by number, that close as it is laid
}

// A Diagonal is measured right across the whole, corner to corner.
type Diagonal struct {
	From, To Spot
	MM       float64
}

// A Spot is a corner of a placed frame.
type Spot struct {
	Frame, Corner int
	At            geom.Point
}

// A Chalked frame is marked by its corners: X to the right of the centre line, Y
// up from the base line. The arrow goes on the back, beside the frame's number,
// where the frame is up: at side Up, or, where no side lies level there, at corner
// Top; the other is 0.
type Chalked struct {
	Frame, Number int
	Corners       []geom.Point
	Up, Top       int
}

// Shims say what to do where a seam stands open: more than Over mm beyond the gap
// that it is planned with, it is filled with pieces each Each mm thick, never
// pulled in with screws. Planned is the gap that most seams have.
type Shims struct{ Planned, Over, Each float64 }

// Count is how many pieces go into a gap that is so many mm wider than its seam is
// planned with: what fits, none up to Over.
func (s Shims) Count(beyond float64) int {
	if beyond > s.Over+geom.Eps && s.Each > 0 {
		return int(math.Floor(beyond/s.Each + wholeShim))
	}
	return 0
}

// wholeShim, in pieces, keeps a gap of exactly so many pieces from losing one to
// the last digit of a float.
const wholeShim = 1e-9

func (m *maker) lay(l layout.Layout) Lay {
	out := Lay{FromBack: l.FromBack, Width: l.Width, Height: l.Height, Centre: l.Width / 2}
	out.Straight = m.straight(l)
	out.Order = m.order(l)
	for _, s := range out.Order {
		out.Chalk = append(out.Chalk, chalked(l.Frames[s.Frame], s.Frame, out.Centre))
	}
	out.Diagonals = diagonals(l)
	out.Alike = m.alike(l)
	out.Shims = Shims{Planned: planned(l), Over: m.shop.Rates.Laying.ShimOver, Each: m.shop.Rates.Laying.Shim}
	out.Steps = laySteps(out)
	return out
}

// straight reaches along all standing boards and feet.
func (m *maker) straight(l layout.Layout) Straight {
	s := Straight{From: math.Inf(1), To: math.Inf(-1)}
	add := func(frame int, from, to float64) {
		s.From, s.To = min(s.From, from), max(s.To, to)
		if !slices.Contains(s.Frames, frame) {
			s.Frames = append(s.Frames, frame)
		}
	}
	for _, b := range l.Standing {
		add(b.Frame, b.From, b.To)
	}
	for _, f := range l.Feet {
		add(f.Frame, f.From, f.To)
	}
	if s.Frames == nil {
		m.fail(Problem{Code: NoneStands})
		return Straight{}
	}
	fromLeft(l, s.Frames)
	if most := m.shop.Rates.Laying.Straight; s.Length() > most+geom.Eps {
		m.fail(Problem{Code: StraightShort, Room: most, Need: s.Length()})
	}
	return s
}

// fromLeft sorts frames by their left end, the lower first, then by number.
func fromLeft(l layout.Layout, frames []int) {
	slices.SortFunc(frames, func(a, b int) int {
		f, g := l.Frames[a], l.Frames[b]
		return cmp.Or(cmp.Compare(f.Box.Min.X, g.Box.Min.X), cmp.Compare(f.Box.Min.Y, g.Box.Min.Y), cmp.Compare(f.Number, g.Number))
	})
}

// upwards sorts frames by their lowest point, then from the left.
func upwards(l layout.Layout, frames []int) {
	slices.SortFunc(frames, func(a, b int) int {
		f, g := l.Frames[a], l.Frames[b]
		return cmp.Or(cmp.Compare(f.Box.Min.Y, g.Box.Min.Y), cmp.Compare(f.Box.Min.X, g.Box.Min.X), cmp.Compare(f.Number, g.Number))
	})
}

// order goes out from the frames on the floor by their seams, breadth first:
// the frames against those, upwards, then the frames against these.
func (m *maker) order(l layout.Layout) []Laid {
	o := laying{l: l, laid: make([]bool, len(l.Frames)), seams: make([][]layout.Seam, len(l.Frames))}
	for _, s := range l.Seams {
		for _, side := range s.Sides {
			o.seams[side.Frame] = append(o.seams[side.Frame], s)
		}
	}
	o.start(onFloor(l), Laid{OnFloor: true})
	for {
		o.grow()
		rest := o.rest()
		if len(rest) == 0 {
			return o.out
		}
		if len(o.out) > 0 {
			m.fail(Problem{Code: LaysApart, Frame: l.Frames[rest[0]].ID})
		}
		o.start(rest[:1], Laid{ByChalk: true})
	}
}

// onFloor lists the frames that reach the floor, from the left.
func onFloor(l layout.Layout) []int {
	hanging := map[int]bool{}
	for _, h := range l.Hanging {
		hanging[h.Frame] = true
	}
	var out []int
	for i := range l.Frames {
		if !hanging[i] {
			out = append(out, i)
		}
	}
	fromLeft(l, out)
	return out
}

// laying is a lay in progress.
type laying struct {
	l     layout.Layout
	laid  []bool
	seams [][]layout.Seam // of each frame, by number
	out   []Laid
	done  int // of out, whose neighbours are all laid
}

func (o *laying) start(frames []int, as Laid) {
	for _, f := range frames {
		as.Frame = f
		o.put(as)
	}
}

func (o *laying) put(s Laid) {
	for _, seam := range o.seams[s.Frame] {
		if o.laid[across(seam, s.Frame)] {
			s.Against = append(s.Against, seam.Number)
		}
	}
	o.laid[s.Frame] = true
	o.out = append(o.out, s)
}

// grow lays everything that seams join to what lies.
func (o *laying) grow() {
	for o.done < len(o.out) {
		var ring []int
		for _, s := range o.out[o.done:] {
			for _, seam := range o.seams[s.Frame] {
				if other := across(seam, s.Frame); !o.laid[other] {
					ring = append(ring, other)
				}
			}
		}
		o.done = len(o.out)
		upwards(o.l, ring)
		ring = slices.Compact(ring)
		o.start(ring, Laid{})
	}
}

func (o *laying) rest() []int {
	var out []int
	for i, laid := range o.laid {
		if !laid {
			out = append(out, i)
		}
	}
	upwards(o.l, out)
	return out
}

// across is the other frame of a seam that a frame is in.
func across(s layout.Seam, f int) int {
	if f == s.Sides[0].Frame {
		return s.Sides[1].Frame
	}
	return s.Sides[0].Frame
}

func chalked(f layout.Frame, i int, centre float64) Chalked {
	c := Chalked{Frame: i, Number: f.Number, Up: f.TopSide}
	for _, p := range f.Outside {
		c.Corners = append(c.Corners, geom.Point{X: p.X - centre, Y: p.Y})
	}
	if from, to, _ := f.Side(f.TopSide); math.Abs(to.Y-from.Y) > levelSlope*from.Dist(to) {
		c.Up, c.Top = 0, highest(f.Outside)
	}
	return c
}

// levelSlope is the rise over the length of a side up to which it counts as level:
// 1 in 50, which an eye sees as level. A frame that stands on a corner mostly has
// two highest sides, and no more reason for the one than for the other. Common
// practice, no source.
const levelSlope = 1.0 / 50

// highest is the number of the highest corner, the first of several.
func highest(corners []geom.Point) int {
	best := 0
	for i, p := range corners {
		if p.Y > corners[best].Y+geom.Eps {
			best = i
		}
	}
	return best + 1
}

// diagonals run between the corners that reach farthest to the lower left and
// upper right, and to the lower right and upper left. Of two that reach equally
// far the first, by frame and corner, counts.
func diagonals(l layout.Layout) [2]Diagonal {
	var out [2]Diagonal
	for i, right := range []float64{1, -1} {
		from, to := farthest(l, geom.Point{X: -right, Y: -1}), farthest(l, geom.Point{X: right, Y: 1})
		out[i] = Diagonal{from, to, from.At.Dist(to.At)}
	}
	return out
}

func farthest(l layout.Layout, way geom.Point) Spot {
	best, out := math.Inf(-1), Spot{}
	for i, f := range l.Frames {
		for k, p := range f.Outside {
			if d := p.Dot(way); d > best+geom.Eps {
				best, out = d, Spot{i, k + 1, p}
			}
		}
	}
	return out
}

// EqualDiagonals says whether both diagonals read the same off a tape when the lay is
// true.
func (l Lay) EqualDiagonals() bool {
	return math.Abs(l.Diagonals[0].MM-l.Diagonals[1].MM) <= eyeTolerance
}

// planned is the gap that most seams were laid out with: the median.
func planned(l layout.Layout) float64 {
	if len(l.Seams) == 0 {
		return 0
	}
	var gaps []float64
	for _, s := range l.Seams {
		gaps = append(gaps, s.Gap)
	}
	slices.Sort(gaps)
	return max(0, gaps[len(gaps)/2])
}

func laySteps(l Lay) []Step {
	first := "Clamp the known-straight length to all standing sides first, front edges down on the sheet: a floor is not straight."
	if l.Straight.Frames == nil {
		first = "Nothing stands on a side: begin at the chalked base line."
	}
	return []Step{
		{Do: "Chalk one base line and one centre line, square to it, and mark every frame's corners from these two alone."},
		{Do: first},
		{Do: "Build up from there in the order given, every frame against those that lie."},
		{Do: "Measure both diagonals across the whole and push until they agree with the plan."},
		{Do: "Look at every seam. Turn the frames and try those of a kind in each other's places until the gaps are smallest."},
		{Do: "Fill with shims what stands open by more than the set size; never pull it in with screws."},
		{Do: "Only then write the number and the arrow on the back of every frame, by the arrow the side or corner that is up."},
	}
}
