package job

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/fixing"
	"bowerwright/geom"
	"bowerwright/layout"
)

// A seamView is a seam as the maker has it before him: the piece face down, the
// eyes along the screws, so that the heads' board is near and the other one
// beyond it. Seen from behind, left is then the screws' direction turned a
// quarter anticlockwise of the front view's, and right its opposite.
type seamView struct {
	p     *planner
	seam  layout.Seam
	order [2]int     // of the seam's sides: the heads' first
	up    geom.Point // from the heads' board to the other, front view
	right geom.Point // as seen from behind with up going up, front view
	ends  [2]faceEnds
}

// faceEnds are the ends of a board on its seam face and on the one behind it,
// the left one first, with the corners they belong to.
type faceEnds struct {
	seam, back [2]geom.Point
	corner     [2]int
}

func (f *fixer) view(s layout.Seam, plan fixing.Seam) seamView {
	v := seamView{p: f.p, seam: s, order: [2]int{0, 1}}
	if plan.Fasteners[0].Head == s.Sides[1].Frame {
		v.order = [2]int{1, 0}
	}
	dir := s.To.Sub(s.From).Unit()
	v.up = dir.Perp()
	if v.up.Dot(v.outOf(v.order[0])) < 0 {
		v.up = v.up.Mul(-1)
	}
	// From behind, x is turned over: what is a quarter to the right there is a
	// quarter to the left here.
	v.right = v.up.Perp()
	for i, k := range v.order {
		v.ends[i] = v.endsOf(k)
	}
	return v
}

// outOf is the way out of side k's wood into the seam.
func (v seamView) outOf(k int) geom.Point {
	side := v.seam.Sides[k]
	_, _, out := v.p.built.Frames[side.Frame].Side(side.Side)
	if side.Inner {
		return out.Mul(-1)
	}
	return out
}

func (v seamView) endsOf(k int) faceEnds {
	side := v.seam.Sides[k]
	f := v.p.built.Frames[side.Frame]
	i, j := side.Side-1, side.Side%len(f.Outside)
	if f.Outside[i].Sub(f.Outside[j]).Dot(v.right) > 0 {
		i, j = j, i
	}
	e := faceEnds{seam: [2]geom.Point{f.Outside[i], f.Outside[j]}, back: [2]geom.Point{f.Inside[i], f.Inside[j]}, corner: [2]int{i + 1, j + 1}}
	if side.Inner {
		e.seam, e.back = e.back, e.seam
	}
	return e
}

// label is that of the near frame, which holds the heads, and of the far one.
func (v seamView) label(i int) string { return v.p.labels[v.seam.Sides[v.order[i]].Frame] }

// crossing is the point so far along the seam from its left end.
func (v seamView) crossing(along float64) geom.Point {
	return v.seam.From.Add(v.seam.To.Sub(v.seam.From).Unit().Mul(along))
}

// x is how far right of the left corner of the heads' board a point lies, on
// its seam face; intoX likewise on the other board.
func (v seamView) x(q geom.Point) float64     { return q.Sub(v.ends[0].seam[0]).Dot(v.right) }
func (v seamView) intoX(q geom.Point) float64 { return q.Sub(v.ends[1].seam[0]).Dot(v.right) }

// onFace is the same for the head, on the face that it sits in.
func (v seamView) onFace(f fixing.Fastener) float64 {
	if f.Axis == (geom.Point{}) { // in a plate on the back
		return v.x(f.At)
	}
	return f.At.Sub(v.ends[0].back[0]).Dot(v.right)
}

// off is how far a screw from the back stands from the seam.
func (v seamView) off(f fixing.Fastener) float64 { return math.Abs(f.Off) }

// along is where a point lies on side k, from the corner with its number.
func (v seamView) along(k int, q geom.Point) float64 {
	side := v.seam.Sides[k]
	f := v.p.built.Frames[side.Frame]
	on := f.Outside
	if side.Inner {
		on = f.Inside
	}
	from, to := on[side.Side-1], on[side.Side%len(on)]
	return q.Sub(from).Dot(to.Sub(from).Unit())
}

// at takes a point of the front view into the picture.
func (v seamView) at(q geom.Point) geom.Point {
	return geom.Point{X: v.x(q), Y: q.Sub(v.seam.From).Dot(v.up)}
}

func (v seamView) xy(q geom.Point) XY { return v.p.w.xy(v.at(q)) }

// picture draws the two boards and what joins them, from behind and cut across.
func (v seamView) picture(plan fixing.Seam) DrillSheet {
	s := DrillSheet{Axes: []AxisView{}, Pegs: []AxisView{}, Pieces: [][]XY{}}
	for i := range v.order {
		e := v.ends[i]
		for _, q := range []geom.Point{e.seam[0], e.seam[1], e.back[1], e.back[0]} {
			s.Boards[i] = append(s.Boards[i], v.xy(q))
		}
		s.Section[i] = v.section(i)
	}
	for _, f := range plan.Fasteners {
		s.Axes = append(s.Axes, v.axis(f))
	}
	for _, g := range plan.Pegs {
		s.Pegs = append(s.Pegs, v.pegAxis(g))
	}
	for _, q := range plan.Plates {
		s.Pieces = append(s.Pieces, v.piece(plan.Method, q))
	}
	return s
}

// boards are the measures of one board: in the plane, and from front to back.
func (v seamView) boards(i int) (thick, rise float64) {
	k := v.p.kinds[v.p.kindAt[v.p.built.Frames[v.seam.Sides[v.order[i]].Frame].Kind]]
	return k.boards.Depth().MM(), k.boards.Rise().MM()
}

func (v seamView) section(i int) [4]XY {
	thick, rise := v.boards(i)
	near := max(v.seam.Gap, 0) / 2
	if i == 0 {
		near, thick = -near, -thick
	}
	return [4]XY{{micro(near), 0}, {micro(near + thick), 0}, {micro(near + thick), micro(rise)}, {micro(near), micro(rise)}}
}

// axis is a screw or bolt from its head to its point or to the nut.
func (v seamView) axis(f fixing.Fastener) AxisView {
	head := v.at(f.At)
	if f.Axis == (geom.Point{}) {
		to := XY{micro(head.Y), micro(f.HeadIn - f.Penetration)}
		return AxisView{Back: [2]XY{v.xy(f.At), v.xy(f.At)}, Section: [2]XY{{micro(head.Y), micro(f.HeadIn + f.First)}, to}}
	}
	sin, cos := math.Sincos(float64(f.Slant))
	long := f.First + f.Penetration + max(v.seam.Gap, 0)/cos
	forward := -sin * long
	if f.From == fixing.Front {
		forward = -forward
	}
	end := v.at(f.At.Add(f.Axis.Mul(long * cos)))
	return AxisView{
		Back:    [2]XY{v.p.w.xy(head), v.p.w.xy(end)},
		Section: [2]XY{{micro(head.Y), micro(f.HeadIn)}, {micro(end.Y), micro(f.HeadIn + forward)}},
	}
}

func (v seamView) pegAxis(g fixing.Peg) AxisView {
	at, half := v.at(v.crossing(g.Along)), max(v.seam.Gap, 0)/2
	low, high := at.Y-half-g.Into[v.order[0]], at.Y+half+g.Into[v.order[1]]
	return AxisView{
		Back:    [2]XY{{micro(at.X), micro(low)}, {micro(at.X), micro(high)}},
		Section: [2]XY{{micro(low), micro(g.Depth)}, {micro(high), micro(g.Depth)}},
	}
}

// piece is the outline of a plate, which lies across the seam, or of a batten,
// which lies along it.
func (v seamView) piece(m fixing.Method, q fixing.Piece) []XY {
	at := v.at(v.crossing(q.Along))
	w, h := q.Width/2, q.Length/2
	if m == fixing.Battened {
		w, h = h, w
	}
	return []XY{{micro(at.X - w), micro(at.Y - h)}, {micro(at.X + w), micro(at.Y - h)}, {micro(at.X + w), micro(at.Y + h)}, {micro(at.X - w), micro(at.Y + h)}}
}

// inOrder lists fasteners from left to right, and of those in line the nearer
// to the back first: as one drills them with the piece face down.
func (v seamView) inOrder(fs []fixing.Fastener) []fixing.Fastener {
	out := slices.Clone(fs)
	slices.SortStableFunc(out, func(a, b fixing.Fastener) int {
		pa, pb := v.at(a.At), v.at(b.At)
		switch {
		case math.Abs(pa.X-pb.X) > sameSpot:
			return cmp.Compare(pa.X, pb.X)
		case math.Abs(a.Depth-b.Depth) > sameSpot:
			return cmp.Compare(b.Depth, a.Depth)
		}
		return cmp.Compare(pa.Y, pb.Y)
	})
	return out
}

// sameSpot, in mm, is a distance below which two places count as one: what is
// lost in turning a seam about.
const sameSpot = 0.01
