package drawing

import (
	"math"
	"slices"
)

// A Hatch is a pattern of lines. A to H tell sections apart together with their
// letter, Waste is what falls off a board.
type Hatch uint8

// The hatchings; NoHatch is the zero Hatch.
const (
	NoHatch    Hatch = iota
	Rain             // A: lines 30 degrees off upright, leaning right
	LevelLines       // B
	SeedDots         // C
	BrokenRain       // D: broken lines leaning left
	SawTeeth         // E
	Lattice          // F
	Brick            // G
	Rings            // H
	Waste            // lines going left and down at 45 degrees
	hatches
)

var hatchNames = [hatches]string{"none", "rain", "level lines", "seed dots", "broken rain", "saw teeth", "lattice", "brick", "rings", "waste"}

// String is the hatching's name, as a key says it.
func (h Hatch) String() string { return hatchNames[h] }

// Section gives the letter, the hatching and the outline of the i-th section,
// counted from 0. After H letters go on and hatchings start again with a
// heavier outline; after Z letters double.
func Section(i int) (letter string, h Hatch, pen Pen) {
	letter = string(rune('A' + i%26))
	for n := i / 26; n > 0; n-- {
		letter += string(rune('A' + i%26))
	}
	pen = PenOutline
	if i >= 8 {
		pen = PenSeam
	}
	return letter, Hatch(1 + i%8), pen
}

// px is a pixel of the screen's patterns as mm on paper: 0.6 pt.
const px = 0.6 * MMPerPt

// hatchPen draws hatchings. 0.66 pt keeps above the 0.6 pt the house asks for.
var hatchPen = Pen{Weight: 0.66, Tone: Line}

// lines is a family of parallel lines: their direction, the distance between
// them, and a broken line's drawn and repeated length (zero is whole). All are
// anchored at the page's corner, so that neighbours' lines run on.
type lines struct {
	dir          Point
	gap          float64
	drawn, every float64
	stagger      float64 // each line starts this much later than the one before
	first        float64 // where the first line and its first stroke lie
	weight       float64 // pt; zero is the hatchPen's
}

// lean is a direction on the page, deg off upright; positive leans right.
func lean(deg float64) Point {
	s, c := math.Sincos(deg * math.Pi / 180)
	return Pt(-s, c)
}

// families of straight hatchings; sizes are those of the screen's patterns.
var families = map[Hatch][]lines{
	Rain:       {{dir: lean(30), gap: 9 * px}},
	LevelLines: {{dir: Pt(1, 0), gap: 9 * px}},
	BrokenRain: {{dir: lean(-30), gap: 9 * px, drawn: 6 * px, every: 9 * px, weight: 0.84}},
	Lattice:    {{dir: lean(30), gap: 11 * px}, {dir: lean(-60), gap: 11 * px}},
	Brick:      {{dir: Pt(1, 0), gap: 6 * px, drawn: 8 * px, every: 18 * px, stagger: 9 * px, weight: 0.84}},
	Waste:      {{dir: lean(45), gap: 6 * px, weight: 0.6}},
}

// hatchItems is a hatching cut to the inside of outlines: a shape of strokes for
// each family of lines, or one of dots. Curves are flattened first; the inside
// follows the nonzero rule.
func hatchItems(h Hatch, os []Outline) []Shape {
	region := newRegion(os)
	switch h {
	case NoHatch:
		return nil
	case SeedDots:
		return shapeOf(Pen{}, Solid(Line), region.dots())
	case SawTeeth:
		return shapeOf(hatchPen, Fill{}, region.chains(region.teeth()))
	case Rings:
		return shapeOf(hatchPen, Fill{}, region.chains(region.rings()))
	}
	var out []Shape
	for _, f := range families[h] {
		pen := hatchPen
		if f.weight > 0 {
			pen.Weight = f.weight
		}
		out = append(out, shapeOf(pen, Fill{}, region.ruled(f))...)
	}
	return out
}

// shapeOf is one shape of all the outlines, or none when there are none.
func shapeOf(pen Pen, fill Fill, os []Outline) []Shape {
	if len(os) == 0 {
		return nil
	}
	return []Shape{Path(pen, fill, os...)}
}

// A region is a flattened inside: edges, and the box round them.
type region struct {
	edges    [][2]Point
	min, max Point
}

func newRegion(os []Outline) *region {
	r := &region{min: Pt(math.Inf(1), math.Inf(1)), max: Pt(math.Inf(-1), math.Inf(-1))}
	for _, o := range os {
		pts := o.Flat(FlatMM)
		for i, p := range pts {
			q := pts[(i+1)%len(pts)]
			if p != q {
				r.edges = append(r.edges, [2]Point{p, q})
			}
			r.min = Pt(math.Min(r.min.X, p.X), math.Min(r.min.Y, p.Y))
			r.max = Pt(math.Max(r.max.X, p.X), math.Max(r.max.Y, p.Y))
		}
	}
	return r
}

// shortest is the shortest stroke of a hatching worth drawing, in mm: half a
// line's weight. Shorter ones are crumbs at a corner.
const shortest = 0.1

// ruled fills the region with a family of lines.
func (r *region) ruled(f lines) []Outline {
	norm := Pt(-f.dir.Y, f.dir.X)
	lo, hi := r.span(norm)
	var out []Outline
	for k := math.Ceil((lo-f.first)/f.gap - 0.5); (k+0.5)*f.gap+f.first <= hi; k++ {
		base := norm.Mul((k+0.5)*f.gap + f.first)
		from, to := r.span(f.dir)
		for _, piece := range f.strokes(k, from, to) {
			a, b := base.Add(f.dir.Mul(piece[0])), base.Add(f.dir.Mul(piece[1]))
			out = append(out, r.cut(a, b)...)
		}
	}
	return out
}

// strokes breaks a line's stretch into what is drawn of it.
func (f lines) strokes(k, from, to float64) [][2]float64 {
	if f.every == 0 {
		return [][2]float64{{from, to}}
	}
	var out [][2]float64
	shift := math.Mod(k*f.stagger, f.every)
	for j := math.Floor((from - shift) / f.every); j*f.every+shift <= to; j++ {
		out = append(out, [2]float64{j*f.every + shift, j*f.every + shift + f.drawn})
	}
	return out
}

// span is how far the region reaches along a direction.
func (r *region) span(dir Point) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, e := range r.edges {
		d := e[0].Dot(dir)
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	return lo, hi
}

// cut is what of a stroke lies inside.
func (r *region) cut(a, b Point) []Outline {
	var out []Outline
	for _, s := range r.inside(a, b) {
		if p, q := a.Lerp(b, s[0]), a.Lerp(b, s[1]); p.Dist(q) >= shortest {
			out = append(out, Lines(p, q))
		}
	}
	return out
}

// inside is the stretches of a to b inside the region, as parts of its length.
// It crosses the line with every edge and walks along, counting windings.
func (r *region) inside(a, b Point) [][2]float64 {
	type crossing struct {
		t    float64
		turn int
	}
	d := b.Sub(a)
	var cs []crossing
	for _, e := range r.edges {
		s0, s1 := d.Cross(e[0].Sub(a)), d.Cross(e[1].Sub(a))
		if (s0 < 0) == (s1 < 0) {
			continue
		}
		p := e[0].Lerp(e[1], s0/(s0-s1))
		turn := 1
		if s0 < 0 {
			turn = -1
		}
		cs = append(cs, crossing{p.Sub(a).Dot(d) / d.Dot(d), turn})
	}
	slices.SortFunc(cs, func(x, y crossing) int {
		if x.t < y.t {
			return -1
		}
		if x.t > y.t {
			return 1
		}
		return x.turn - y.turn
	})
	var out [][2]float64
	wind := 0
	for i, c := range cs {
		wind += c.turn
		if wind == 0 || i+1 == len(cs) {
			continue
		}
		if from, to := math.Max(c.t, 0), math.Min(cs[i+1].t, 1); from < to {
			out = join(out, from, to)
		}
	}
	return out
}

// join adds a stretch, running it on from the one before when they touch.
func join(out [][2]float64, from, to float64) [][2]float64 {
	if n := len(out); n > 0 && out[n-1][1] >= from-1e-12 {
		out[n-1][1] = to
		return out
	}
	return append(out, [2]float64{from, to})
}

// contains says whether a point is inside.
func (r *region) contains(p Point) bool {
	wind := 0
	for _, e := range r.edges {
		if (e[0].Y <= p.Y) == (e[1].Y <= p.Y) {
			continue
		}
		right := e[1].Sub(e[0]).Cross(p.Sub(e[0])) > 0
		if down := e[0].Y <= p.Y; down == right {
			if down {
				wind++
			} else {
				wind--
			}
		}
	}
	return wind != 0
}

// clear is the distance from a point to the nearest edge.
func (r *region) clear(p Point) float64 {
	best := math.Inf(1)
	for _, e := range r.edges {
		d := e[1].Sub(e[0])
		t := math.Max(0, math.Min(1, p.Sub(e[0]).Dot(d)/d.Dot(d)))
		best = math.Min(best, p.Dist(e[0].Lerp(e[1], t)))
	}
	return best
}

// grid is the points of a square lattice, of the given step and first point,
// that lie within the region's box.
func (r *region) grid(step, first float64) []Point {
	var out []Point
	for j := math.Floor((r.min.Y - first) / step); j*step+first <= r.max.Y+step; j++ {
		for i := math.Floor((r.min.X - first) / step); i*step+first <= r.max.X+step; i++ {
			out = append(out, Pt(i*step+first, j*step+first))
		}
	}
	return out
}

// dots are drawn only where the whole dot is inside.
func (r *region) dots() []Outline {
	const radius = 1.3 * px
	var seeds []Outline
	for _, first := range []float64{2.5 * px, 7 * px} {
		for _, p := range r.grid(9*px, first) {
			if r.contains(p) && r.clear(p) >= radius {
				seeds = append(seeds, EllipseAt(p, radius, radius))
			}
		}
	}
	return seeds
}

// teeth are zigzags from side to side of the box.
func (r *region) teeth() [][]Point {
	var out [][]Point
	for j := math.Floor(r.min.Y/(10*px)) - 1; j*10*px <= r.max.Y; j++ {
		var zig []Point
		for i := math.Floor(r.min.X/(8*px)) - 1; i*8*px <= r.max.X+8*px; i++ {
			zig = append(zig, Pt(i*8*px, (j*10+8)*px), Pt((i*8+4)*px, (j*10+2)*px))
		}
		out = append(out, zig)
	}
	return out
}

// rings are circles as 24-gons, which miss the circle by 1 % of its radius.
func (r *region) rings() [][]Point {
	var out [][]Point
	for _, c := range r.grid(13*px, 6.5*px) {
		var ring []Point
		for i := range 25 {
			ring = append(ring, c.Add(Pt(3*px, 0).Rot(float64(i%24)*math.Pi/12)))
		}
		out = append(out, ring)
	}
	return out
}

// chains cuts chains of points to the inside, keeping whole what runs on.
func (r *region) chains(chains [][]Point) []Outline {
	var out []Outline
	for _, c := range chains {
		var run []Point
		flush := func() {
			if len(run) > 1 {
				out = append(out, Lines(run...))
			}
			run = nil
		}
		for i := 1; i < len(c); i++ {
			for _, s := range r.inside(c[i-1], c[i]) {
				p, q := c[i-1].Lerp(c[i], s[0]), c[i-1].Lerp(c[i], s[1])
				if n := len(run); n == 0 || run[n-1].Dist(p) > 1e-9 {
					flush()
					run = append(run, p)
				}
				run = append(run, q)
			}
		}
		flush()
	}
	return out
}
