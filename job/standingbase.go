package job

import (
	"cmp"
	"math"
	"slices"

	"bowerwright/assume"
	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/stand"
	"bowerwright/unit"
)

// piecesOf makes the pieces of the base that one entry of the job file asks for.
func (s *stander) piecesOf(b BaseAsked) (out []base.Piece, ok bool) {
	w, mid := s.p.built.Width, s.deep/2
	thick := cmp.Or(b.Thickness.MM(), s.mm(assume.BaseThickness))
	board := base.Board{Thickness: thick, Density: s.plywood()}
	centred := func(size float64, at *unit.Length, middle, sign float64) float64 {
		if at != nil {
			return sign * at.MM()
		}
		return middle - size/2
	}
	box := func() geom.Polygon {
		wide := cmp.Or(b.Width.MM(), w)
		return base.Rectangle(centred(wide, b.Left, w/2, 1), centred(b.Depth.MM(), b.Front, mid, -1), wide, b.Depth.MM())
	}
	one := func(p base.Piece, err error) ([]base.Piece, bool) {
		return []base.Piece{p}, err == nil
	}
	switch b.Kind {
	case "plate", "ring":
		outline := box()
		if n, regular := corners[b.Shape]; regular {
			a := b.Across.MM()
			middle := geom.Point{X: centred(a, b.Left, w/2, 1) + a/2, Y: centred(a, b.Front, mid, -1) + a/2}
			outline = base.RegularFromPoints(middle, n, a/2, 0)
		}
		if b.Kind == "plate" {
			p := base.PlateOf(outline, board)
			if b.Split {
				at := outline.Centroid().X
				p.SplitAt = &at
			}
			return one(p, nil)
		}
		hole, err := outline.CCW().Offset(b.Rim.MM())
		if err != nil {
			return nil, false
		}
		return one(base.RingOf(outline, hole, board), nil)
	case "frame base":
		return one(base.FrameOf(box(), b.Rim.MM(), board))
	case "feet":
		from := centred(b.Depth.MM(), b.Front, mid, -1)
		return one(base.FeetAt(spread(s.lines, w, b.Width.MM(), cmp.Or(b.Count, 2)), b.Width.MM(), from, from+b.Depth.MM(), board), nil)
	case "brace":
		n := cmp.Or(b.Count, 2)
		each := *b.Mass / unit.Mass(n)
		for _, x := range spreadBeside(s.p.passages(), w, b.Width.MM(), n) {
			if b.Left != nil && n == 1 {
				x = b.Left.MM()
			}
			out = append(out, base.BraceAt(x, b.Width.MM(), s.deep, s.deep+b.Behind.MM(), s.deep, b.Fixed.MM(), each))
		}
		return out, true
	case "wing":
		return s.wings(b), true
	}
	s.p.fault("no base is called %q", b.Kind)
	return nil, false
}

// corners of the shapes that a plate may have; a round one is drawn inside its
// circle, so that its levers are not taken too long.
var corners = map[string]int{"hexagon": 6, "octagon": 8, "round": 36}

// spread puts n bars under what stands on the floor, the outer two at its ends.
func spread(lines []base.Line, w, wide float64, n int) []float64 {
	from, to := w, 0.0
	for _, l := range lines {
		from, to = min(from, l.From), max(to, l.To)
	}
	if n == 1 || to-from <= wide {
		return []float64{(from + to) / 2}
	}
	xs := make([]float64, n)
	for i := range xs {
		xs[i] = from + wide/2 + (to-from-wide)*float64(i)/float64(n-1)
	}
	return xs
}

// wings stand at the ends, hinged at the front; their thickness lies inwards.
func (s *stander) wings(b BaseAsked) (out []base.Piece) {
	w := s.p.built.Width
	turn := unit.FromDegrees(90)
	if b.Angle != nil {
		turn = *b.Angle
	}
	thick := cmp.Or(b.Thickness.MM(), s.deep)
	sides := []string{"left", "right"}
	if b.Side == "left" || b.Side == "right" {
		sides = []string{b.Side}
	}
	mass := *b.Mass / unit.Mass(len(sides))
	for _, side := range sides {
		if side == "right" {
			out = append(out, base.WingAt(geom.Point{X: w}, turn, b.Length.MM(), thick, mass, b.Height.MM()/2))
			continue
		}
		away := unit.Angle(math.Pi - float64(turn))
		hinge := geom.Point{}.Sub(geom.Point{X: 1}.Rot(float64(away)).Perp().Mul(thick))
		out = append(out, base.WingAt(hinge, away, b.Length.MM(), thick, mass, b.Height.MM()/2))
	}
	return out
}

// mm reads an assumption that is a length.
func (s *stander) mm(id assume.ID) float64 {
	v := s.book.Get(id)
	u, _ := unit.UnitNamed(v.Unit)
	return v.Value * u.Length().MM()
}

// plywood is the density of a base.
func (s *stander) plywood() unit.Density {
	const perCubicFoot = float64(unit.Pound) / (0.3048 * 0.3048 * 0.3048) // exact by definition of the pound and the foot
	return unit.Density(s.book.Get(assume.BasePlywood).Value * perCubicFoot)
}

// base builds what it stands on. Stakes stand at the corners of the rest.
func (s *stander) base(t *trial) {
	var b base.Base
	var stakes []BaseAsked
	for i, a := range t.asked.base {
		if a.Kind == "stakes" {
			stakes = append(stakes, a)
			continue
		}
		pieces, ok := s.piecesOf(a)
		if !ok {
			t.rims = append(t.rims, i)
			continue
		}
		for _, p := range pieces {
			p.Name = a.Name
			if a.Mass != nil && a.Kind != "brace" && a.Kind != "wing" {
				p.Mass = *a.Mass
			}
			b.Pieces, t.owners = append(b.Pieces, p), append(t.owners, i)
			if a.Kind == "brace" && !slices.Contains(t.inWay, i) && s.p.inTheWay(p.At.X, a.Width.MM()) {
				t.inWay = append(t.inWay, i)
			}
		}
		if a.Kind == "wing" {
			t.setup.Faces = append(t.setup.Faces, faces(a, len(pieces))...)
		}
	}
	t.pieces = b.Pieces
	stance, problems := b.Stand(s.lines)
	if len(stance.Hull) >= 3 {
		t.footing = true
		for _, a := range stakes {
			for _, at := range round(stance.Hull, cmp.Or(a.Count, 4)) {
				b.Stakes = append(b.Stakes, base.Stake{At: at, Sideways: a.Sideways, Pull: a.Pull})
			}
		}
		stance, problems = b.Stand(s.lines)
	}
	if len(t.asked.base) == 0 {
		problems = nil // as drawn, it may have no footing; the facts tell
	}
	t.badBase, t.setup.Stance = problems, stance
}

func faces(a BaseAsked, n int) []stand.Face {
	gross := a.Length.MM() * a.Height.MM()
	return slices.Repeat([]stand.Face{{Name: a.Name, Gross: gross, Solid: gross * a.Closes, Height: a.Height.MM() / 2}}, n)
}

// round gives n places spread round a hull, from its corner at the left front.
func round(hull geom.Polygon, n int) []geom.Point {
	start, best := 0, math.Inf(1)
	for i, c := range hull {
		if v := c.X + c.Y; v < best {
			start, best = i, v
		}
	}
	if n == len(hull) {
		return slices.Clone(hull.From(start))
	}
	var out []geom.Point
	whole := hull.Perimeter()
	for k := range n {
		out = append(out, alongHull(hull.From(start), whole*float64(k)/float64(n)))
	}
	return out
}

func alongHull(hull geom.Polygon, far float64) geom.Point {
	for i := range hull {
		side := hull.Side(i)
		if far <= side.Len() {
			return side.A.Lerp(side.B, far/side.Len())
		}
		far -= side.Len()
	}
	return hull[0]
}
