package base

import (
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

func drawOutline(t *rapid.T) geom.Polygon {
	n := rapid.IntRange(3, 9).Draw(t, "corners")
	at := geom.Point{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: rapid.Float64Range(-500, 500).Draw(t, "y")}
	return RegularFromPoints(at, n, rapid.Float64Range(300, 900).Draw(t, "across"), unit.Angle(rapid.Float64Range(-3, 3).Draw(t, "direction")))
}

// weighed sums a piece by points strewn evenly over the box round it, at steps of
// the two shares that spread best (Roberts' sequence), as no grid's lines then
// fall on those of the piece. Slack is a fiftieth of what a full box would weigh.
func weighed(p Piece, b Board) (mass, slack float64, middle geom.Point) {
	box := p.Footprint[0].Box()
	for _, f := range p.Footprint[1:] {
		box = box.Union(f.Box())
	}
	const points = 6000
	n := 0.0
	for k := range points {
		_, u := math.Modf(float64(k) * 0.7548776662466927)
		_, v := math.Modf(float64(k) * 0.5698402909980532)
		q := geom.Point{X: box.Min.X + u*box.Width(), Y: box.Min.Y + v*box.Height()}
		within := false
		for _, f := range p.Footprint {
			within = within || f.Contains(q)
		}
		if within && (len(p.Hole) == 0 || !p.Hole.Contains(q)) {
			n++
			middle = middle.Add(q)
		}
	}
	full := box.Width() * box.Height() * b.Thickness / 1e9 * float64(b.Density)
	return full * n / points, full / 50, middle.Mul(1 / n)
}

// The mass and the middle of every kind made of a sheet or of boards, against
// points strewn evenly.
func TestPiecesAgainstPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		outline := drawOutline(t)
		var p Piece
		switch rapid.IntRange(0, 3).Draw(t, "kind") {
		case 0:
			p = PlateOf(outline, ply)
		case 1:
			c, to := outline.Centroid(), rapid.Float64Range(0.2, 0.6).Draw(t, "hole")
			off := geom.Point{X: rapid.Float64Range(-40, 40).Draw(t, "off")}
			var hole geom.Polygon
			for _, q := range outline {
				hole = append(hole, c.Lerp(q, to).Add(off))
			}
			p = RingOf(outline, hole, ply)
		case 2:
			p = FeetAt([]float64{-300, 0, 420}, 12*float64(rapid.IntRange(2, 10).Draw(t, "wide")), -204, 504, ply)
		default:
			var err error
			if p, err = FrameOf(outline, rapid.Float64Range(30, 80).Draw(t, "deep"), ply); err != nil {
				t.Fatal(err)
			}
		}
		mass, slack, middle := weighed(p, ply)
		if math.Abs(float64(p.Mass)-mass) > slack || p.At.Dist(middle) > 60 {
			t.Fatalf("%s: %v at %v, by points %v at %v", p.Kind, p.Mass, p.At, mass, middle)
		}
		if p.Up <= 0 || p.Up != p.Thickness/2 || !p.Under {
			t.Fatalf("%s: its weight is %v up", p.Kind, p.Up)
		}
	})
}

// The two halves of a split piece weigh what it weighs, each by its own points,
// and lie to their side of the cut.
func TestHalvesAgainstPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := PlateOf(drawOutline(t), ply)
		box := p.Footprint[0].Box()
		x := box.Min.X + box.Width()*rapid.Float64Range(0.3, 0.7).Draw(t, "cut")
		p.SplitAt = &x
		halves := p.Split()
		if sum := float64(halves[0].Mass + halves[1].Mass); math.Abs(sum-float64(p.Mass)) > 1e-9*sum {
			t.Fatalf("halves weigh %v of %v", sum, p.Mass)
		}
		for i, h := range halves {
			mass, slack, _ := weighed(Piece{Footprint: h.Outlines}, ply)
			if math.Abs(float64(h.Mass)-mass) > slack {
				t.Fatalf("half %d weighs %v, by points %v", i, h.Mass, mass)
			}
		}
		if halves[0].Box.Max.X > x+1e-6 || halves[1].Box.Min.X < x-1e-6 {
			t.Fatalf("halves %v and %v at %v", halves[0].Box, halves[1].Box, x)
		}
	})
}

// More pieces on the floor never take anything off the hull; one that lies within
// it changes nothing; without a base the piece stands on its own lines.
func TestMorePiecesNeverNarrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := []Line{{-200, 200, 0, 90}}
		one := PlateOf(drawOutline(t), ply)
		more := BraceAt(rapid.Float64Range(-600, 600).Draw(t, "brace"), 40, 200, rapid.Float64Range(300, 1500).Draw(t, "to"), 90, 900, 2)
		a, _ := Base{Pieces: []Piece{one}}.Stand(lines)
		b, _ := Base{Pieces: []Piece{one, more}}.Stand(lines)
		for _, q := range a.Hull {
			if !b.Hull.Contains(q) && nearest(b.Hull, q) > 1e-6 {
				t.Fatalf("%v is off the hull with a brace", q)
			}
		}
		c := one.Footprint[0].Centroid()
		small := PlateOf(RegularFromPoints(c, 4, 5, 0), ply)
		if s, _ := (Base{Pieces: []Piece{one, small}}).Stand(lines); math.Abs(s.Hull.Area()-a.Hull.Area()) > 1e-6 {
			t.Fatal("a piece within the hull changes it")
		}
		bare, problems := Base{}.Stand(lines)
		if len(problems) > 0 || math.Abs(bare.Hull.Area()-400*90) > 1e-6 || bare.Lift != 0 {
			t.Fatalf("%v: %v", bare.Hull, problems)
		}
	})
}

// nearest is how far a point lies from the lines of an outline.
func nearest(p geom.Polygon, q geom.Point) float64 {
	least := math.Inf(1)
	for i := range p {
		s := p.Side(i)
		along := math.Max(0, math.Min(s.Len(), q.Sub(s.A).Dot(s.Vec().Unit())))
		least = math.Min(least, s.A.Add(s.Vec().Unit().Mul(along)).Dist(q))
	}
	return least
}
