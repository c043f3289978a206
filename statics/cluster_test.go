package statics

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// pine is the board of the worked examples: 3/4 by 3-1/2 in, 25.4 lb/ft³.
func pine(e, g float64) Section {
	s := Rectangle(0.75, 3.5, e, g)
	s.Weight = 0.0147 * s.Area
	return s
}

// cluster is a comb of hexagon frames standing on a side, in inches and pounds,
// with a screwed seam wherever two lie against each other. x runs along the
// wall, y up, z out of it.
type cluster struct {
	Model
	cells  []*cell
	across float64 // across flats, outside
	seams  []string
}

type cell struct {
	mid          Vec
	corner, side [6]Node // side k, its outward normal at 30 + 60 k degrees, follows corner k
}

// seamKind says how frames are fixed to one another.
type seamKind struct {
	screws   [][2]float64 // along the side, as a share of its length, and through the depth, in
	pullOnly bool
	open     bool // no contacts
}

// twoScrews is a row at mid depth, a quarter of the side off its middle.
var twoScrews = seamKind{screws: [][2]float64{{-0.25, 0}, {0.25, 0}}}

const (
	screwAlong, screwAcross = 10_000, 4_000 // lb/in
	pressE                  = 1.2e6         // psi: the contacts of the worked seams had this one
)

func newCluster(across float64, sec Section, mids []Vec, kind func(seam string) seamKind) *cluster {
	c := &cluster{across: across}
	for i, mid := range mids {
		c.cells = append(c.cells, c.hexagon(mid, sec, fmt.Sprintf("frame %d", i+1)))
	}
	c.joinAll(kind)
	return c
}

// joinAll makes a seam wherever two frames lie against each other.
func (c *cluster) joinAll(kind func(seam string) seamKind) {
	for i, a := range c.cells {
		for j, b := range c.cells[i+1:] {
			d := b.mid.Sub(a.mid)
			if math.Abs(d.Len()-c.across) > 1e-6*c.across {
				continue
			}
			side := int(math.Round((math.Atan2(d[1], d[0])*180/math.Pi-30)/60)+6) % 6
			name := fmt.Sprintf("%d-%d", i+1, i+j+2)
			c.seams = append(c.seams, name)
			c.seam(a.side[side], b.side[(side+3)%6], a.mid.Add(b.mid).Mul(0.5), d.Unit(), name, kind(name))
		}
	}
}

func (c *cluster) hexagon(mid Vec, sec Section, group string) *cell {
	h := &cell{mid: mid}
	radius := (c.across - 0.75) / math.Sqrt(3)
	for k := range 6 {
		s, co := math.Sincos(float64(k) * math.Pi / 3)
		h.corner[k] = c.Node(mid.Add(Vec{radius * co, radius * s}), group)
	}
	for k := range 6 {
		a, b := h.corner[k], h.corner[(k+1)%6]
		h.side[k] = c.Node(c.At(a).Add(c.At(b)).Mul(0.5), group)
		for _, ends := range [][2]Node{{a, h.side[k]}, {h.side[k], b}} {
			c.Member(Member{A: ends[0], B: ends[1], Depth: Vec{0, 0, 1}, Section: sec})
		}
	}
	return h
}

// seam fixes two middles of sides at the face between them: screws that pull and
// slide, four contacts near the corners of the face.
func (c *cluster) seam(a, b Node, at, axis Vec, name string, kind seamKind) {
	const depth = 3.5
	long := c.across / math.Sqrt(3)
	along := axis.Cross(Vec{0, 0, 1})
	spot := func(t, z float64) Vec { return at.Add(along.Mul(t)).Add(Vec{0, 0, z}) }
	for _, s := range kind.screws {
		c.Spring(Spring{
			A: a, B: b, At: spot(s[0]*long, s[1]), Axis: axis, Seam: name,
			Along: screwAlong, Across: screwAcross, PullOnly: kind.pullOnly,
		})
	}
	if kind.open {
		return
	}
	press := 0.05 * pressE * long * depth / 0.75
	for _, t := range []float64{-1, 1} {
		for _, z := range []float64{-1, 1} {
			c.Contact(Contact{A: a, B: b, At: spot(t*(long/2-0.1), z*(depth/2-0.05)), Axis: axis, Stiff: press / 4})
		}
	}
}

// holdBottom holds the lowest side of a frame, topLoad shares a load out over
// the highest.
func (c *cluster) holdBottom(h *cell) {
	for _, n := range []Node{h.corner[4], h.side[4], h.corner[5]} {
		c.Hold(n, HoldAll)
	}
}

func (h *cell) topLoad(f Vec) []Nodal {
	var out []Nodal
	for _, n := range []Node{h.corner[1], h.side[1], h.corner[2]} {
		out = append(out, Nodal{Node: n, Load: Load{Force: f.Mul(1.0 / 3)}})
	}
	return out
}

// flower is one frame with six around it, the first below.
func flower(across float64) []Vec {
	mids := []Vec{{}}
	for k := range 6 {
		s, c := math.Sincos((-90 + 60*float64(k)) * math.Pi / 180)
		mids = append(mids, Vec{across * c, across * s})
	}
	return mids
}

// honeycomb gives the middles of so many frames, nearest to the middle first.
func honeycomb(across float64, frames int) []Vec {
	var all []Vec
	reach := int(math.Sqrt(float64(frames))) + 3
	for i := -reach; i <= reach; i++ {
		for j := -reach; j <= reach; j++ {
			x, y := float64(i), float64(j)
			all = append(all, Vec{across * x * math.Sqrt(3) / 2, across * (y + x/2)})
		}
	}
	key := func(v Vec) float64 { return math.Round(v.Len()*1e6) / 1e6 }
	slices.SortFunc(all, func(a, b Vec) int {
		return cmp.Or(cmp.Compare(key(a), key(b)), cmp.Compare(math.Round(a[1]), math.Round(b[1])), cmp.Compare(a[0], b[0]))
	})
	return all[:frames]
}

func same(k seamKind) func(string) seamKind { return func(string) seamKind { return k } }

// worst gives the pull and the slide of the screw whose ratio, after NDS 12.4.1,
// is greatest: (V²/Z + T²/W) / √(T²+V²) with the W and Z of the worked seam.
func (c *cluster) worst(r *Result) (pull, slide, ratio float64) {
	const w, z = 30.29, 19.33
	for i, f := range r.Springs {
		if c.springs[i].Seam == "" {
			continue
		}
		t, v := max(0, f.Along), f.Across.Len()
		if q := (v*v/z + t*t/w) / math.Hypot(t, v); q > ratio {
			pull, slide, ratio = t, v, q
		}
	}
	return pull, slide, ratio
}
