package dressing

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/geom"
)

// What an outline in the front view is the boundary of.
type boundary int

const (
	boardsOutside boundary = iota // of a frame
	boardsInside
	outlineOf // of a group of frames
	layerOf   // of what a layer covers
)

// An outline is one closed line of the front view; inside it, by the even-odd
// rule, is what it bounds. Of is the index of the frame or layer.
type outline struct {
	bounds boundary
	of     int
}

// An edge rises from low to high and belongs to an outline.
type edge struct {
	low, high geom.Point
	outline   int
}

// at is where the edge crosses a level; never beyond its ends, so that an edge
// nearly level is not drawn out by a rounding error in y.
func (e edge) at(y float64) float64 {
	t := (y - e.low.Y) / (e.high.Y - e.low.Y)
	return e.low.X + min(1, max(0, t))*(e.high.X-e.low.X)
}

// A tally is an area with its first moments: mm2, mm3.
type tally struct{ area, x, y float64 }

func (t *tally) add(c cell, share float64) {
	t.area += share * c.area()
	t.x += share * c.momentX()
	t.y += share * c.momentY()
}

func (t tally) centre() geom.Point {
	if t.area <= 0 {
		return geom.Point{}
	}
	return geom.Point{X: t.x / t.area, Y: t.y / t.area}
}

// A cell is a piece of a slab between two edges that follow each other.
type cell struct{ slab, left, right Strip }

func (c cell) strip() Strip {
	return Strip{c.slab.From, c.slab.To, c.right.AtFrom - c.left.AtFrom, c.right.AtTo - c.left.AtTo}
}
func (c cell) area() float64    { return c.strip().area() }
func (c cell) momentY() float64 { return c.strip().moment() }

// momentX is half the difference of the integrals of x2 along both edges.
func (c cell) momentX() float64 {
	square := func(s Strip) float64 { return s.AtFrom*s.AtFrom + s.AtFrom*s.AtTo + s.AtTo*s.AtTo }
	return (c.slab.To - c.slab.From) * (square(c.right) - square(c.left)) / 6
}

// A view is the front view being measured.
type view struct {
	outlines []outline
	edges    []edge
	levels   []float64
	layers   []Layer

	in     []bool // by outline: is the sweep inside it
	out    []bool // by frame: inside its outside, inside its opening
	hole   []bool
	wood   int   // frames whose boards the sweep is in
	groups int   // outlines of groups it is in
	over   []int // by layer: outlines of it that it is in

	gross, solid Profile
	stops        tally
	covers       []tally   // by layer
	alone        []float64 // by layer: solid area that goes with it
}

func newView(p Piece, layers []Layer) *view {
	n := len(p.Layout.Frames)
	v := &view{layers: layers, out: make([]bool, n), hole: make([]bool, n), over: make([]int, len(layers)),
		covers: make([]tally, len(layers)), alone: make([]float64, len(layers))}
	for i, f := range p.Layout.Frames {
		v.draw(f.Outside, outline{boardsOutside, i})
		v.draw(f.Inside, outline{boardsInside, i})
	}
	for _, o := range p.Layout.Outline {
		v.draw(o, outline{outlineOf, 0})
	}
	for i, l := range layers {
		for _, o := range p.region(l.On) {
			v.draw(o, outline{layerOf, i})
		}
		v.levels = append(v.levels, l.On.From, l.On.top())
	}
	v.in = make([]bool, len(v.outlines))
	return v
}

// region lists the closed lines of a region; overlapping ones count once.
func (p Piece) region(r Region) []geom.Polygon {
	if len(r.Frames) == 0 && len(r.Shapes) == 0 {
		return p.Layout.Outline
	}
	lines := slices.Clone(r.Shapes)
	for _, f := range r.Frames {
		lines = append(lines, p.Layout.Frames[f].Outside)
	}
	return lines
}

func (r Region) top() float64 {
	if r.To == 0 {
		return math.MaxFloat64
	}
	return r.To
}

// draw adds a closed line. Level edges bound nothing between levels.
func (v *view) draw(p geom.Polygon, o outline) {
	v.outlines = append(v.outlines, o)
	for i := range p {
		s := p.Side(i)
		v.levels = append(v.levels, s.A.Y)
		if s.A.Y > s.B.Y {
			s.A, s.B = s.B, s.A
		}
		if s.B.Y-s.A.Y > geom.Eps {
			v.edges = append(v.edges, edge{s.A, s.B, len(v.outlines) - 1})
		}
	}
}

// sweep cuts the view into slabs at every corner and crossing and measures them.
func (v *view) sweep() {
	slices.SortStableFunc(v.edges, func(a, b edge) int { return cmp.Compare(a.low.Y, b.low.Y) })
	v.cross()
	slices.Sort(v.levels)
	var active []edge
	next := 0
	for i, last := 1, 0; i < len(v.levels); i++ {
		lo, hi := v.levels[last], v.levels[i]
		if hi-lo <= geom.Eps || hi == math.MaxFloat64 {
			continue
		}
		last = i
		mid := (lo + hi) / 2
		for ; next < len(v.edges) && v.edges[next].low.Y < mid; next++ {
			active = append(active, v.edges[next])
		}
		active = slices.DeleteFunc(active, func(e edge) bool { return e.high.Y <= mid })
		if len(active) == 0 {
			continue
		}
		slices.SortStableFunc(active, func(a, b edge) int { return cmp.Compare(a.at(mid), b.at(mid)) })
		v.slab(active, lo, hi)
	}
}

// cross adds the levels at which edges cross.
func (v *view) cross() {
	for i, e := range v.edges {
		for _, f := range v.edges[i+1:] {
			if f.low.Y >= e.high.Y {
				break
			}
			if max(f.low.X, f.high.X) < min(e.low.X, e.high.X) || min(f.low.X, f.high.X) > max(e.low.X, e.high.X) {
				continue
			}
			if c, ok := (geom.Segment{A: e.low, B: e.high}).Cross(geom.Segment{A: f.low, B: f.high}); ok {
				v.levels = append(v.levels, c.Y)
			}
		}
	}
}

// outside puts the sweep outside everything. Every outline is closed, so it is
// there behind the last edge of a slab anyhow, but for edges lower than geom.Eps
// that were left out: their error must not outlast its slab.
func (v *view) outside() {
	clear(v.in)
	clear(v.out)
	clear(v.hole)
	clear(v.over)
	v.wood, v.groups = 0, 0
}

// slab walks from left to right over the edges of one slab.
func (v *view) slab(active []edge, lo, hi float64) {
	v.outside()
	gross, solid := Strip{From: lo, To: hi}, Strip{From: lo, To: hi}
	mid := (lo + hi) / 2
	for k, e := range active {
		v.pass(e.outline)
		if k+1 == len(active) {
			break
		}
		c := cell{slab: gross, left: e.across(lo, hi), right: active[k+1].across(lo, hi)}
		if c.strip().AtFrom == 0 && c.strip().AtTo == 0 {
			continue
		}
		closed, within := v.measure(c, mid)
		if within {
			gross.widen(c.strip(), 1)
		}
		solid.widen(c.strip(), closed)
		v.stops.add(c, closed)
	}
	v.gross, v.solid = append(v.gross, gross), append(v.solid, solid)
}

func (e edge) across(lo, hi float64) Strip { return Strip{lo, hi, e.at(lo), e.at(hi)} }

func (s *Strip) widen(by Strip, share float64) {
	s.AtFrom += share * by.AtFrom
	s.AtTo += share * by.AtTo
}

// pass steps over an edge of an outline.
func (v *view) pass(i int) {
	v.in[i] = !v.in[i]
	by := -1
	if v.in[i] {
		by = 1
	}
	switch o := v.outlines[i]; o.bounds {
	case outlineOf:
		v.groups += by
	case layerOf:
		v.over[o.of] += by
	default:
		was := v.boards(o.of)
		if o.bounds == boardsOutside {
			v.out[o.of] = v.in[i]
		} else {
			v.hole[o.of] = v.in[i]
		}
		v.wood += v.boards(o.of) - was
	}
}

// boards is 1 inside the boards of a frame, 0 elsewhere.
func (v *view) boards(frame int) int {
	if v.out[frame] && !v.hole[frame] {
		return 1
	}
	return 0
}

// measure tells which share of a cell is closed and whether it belongs to the
// gross area, and books what each layer covers there and closes alone.
func (v *view) measure(c cell, mid float64) (closed float64, within bool) {
	within = v.wood > 0 || v.groups > 0
	open := 1.0
	if v.wood > 0 {
		open = 0
	}
	for i := range v.layers {
		if v.covered(i, mid) {
			within = true
			v.covers[i].add(c, 1)
			v.alone[i] += c.area() * open * v.layers[i].Closes * v.leftOpen(i, mid)
		}
	}
	return 1 - open*v.leftOpen(-1, mid), within
}

// leftOpen is the share that the layers here leave open, but for one.
func (v *view) leftOpen(but int, mid float64) float64 {
	open := 1.0
	for i, l := range v.layers {
		if i != but && v.covered(i, mid) {
			open *= 1 - l.Closes
		}
	}
	return open
}

func (v *view) covered(layer int, y float64) bool {
	on := v.layers[layer].On
	return v.over[layer] > 0 && y > on.From && y < on.top()
}
