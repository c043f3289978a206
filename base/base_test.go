package base

import (
	"math"
	"testing"

	"bowerwright/assume"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

const inch = 25.4

func want(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g", what, got, want)
	}
}

// ply weighs 34 lb/ft3 and is 3/4 in thick.
var ply = Board{Thickness: 0.75 * inch, Density: unit.FromPoundsPerCubicFoot(34)}

func stand(t testing.TB, b Base, lines ...Line) Stance {
	t.Helper()
	s, problems := b.Stand(lines)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return s
}

// The plate of the reference table: a hexagon 48 in point to point of 3/4 ply at
// 34 lb/ft3 is 1,496.5 in2 and 22.1 lb; its nearest edges are 20.785 in from the
// middle, not 24.
func TestHexagonPlate(t *testing.T) {
	p := PlateOf(RegularFromPoints(geom.Point{X: 600, Y: 44}, 6, 24*inch, 0), ply)
	want(t, "area in in2", p.Footprint[0].Area()/inch/inch, 1496.5, 0.05)
	want(t, "weight in lb", p.Mass.Pounds(), 22.083647796503186, 1e-9)
	s := stand(t, Base{Pieces: []Piece{p}}, Line{300, 900, 0, 88})
	want(t, "lift", s.Lift, 0.75*inch, 1e-12)
	if len(s.Hull) != 6 {
		t.Fatalf("hull %v", s.Hull)
	}
	for i := range s.Hull {
		want(t, "lever", s.Hull.Side(i).PointDist(geom.Point{X: 600, Y: 44})/inch, 20.784609690826528, 1e-9)
	}
	want(t, "heel", s.Heel, 88, 0)
	want(t, "heel with the base on", s.HeelBased, 88, 0)
	p.Fixed = true
	s = stand(t, Base{Pieces: []Piece{p}}, Line{300, 900, 0, 88})
	want(t, "heel with a fixed base", s.HeelBased, 44+24*inch*math.Sqrt(3)/2, 1e-9)
}

func TestRingWeighsLessAndSitsOff(t *testing.T) {
	b := Board{Thickness: 10, Density: 500}
	r := RingOf(Rectangle(0, 0, 1000, 600), Rectangle(600, 100, 300, 300), b)
	want(t, "mass", float64(r.Mass), (600000-90000)*10*500/1e9, 1e-12)
	want(t, "x", r.At.X, (600000*500-90000*750)/510000.0, 1e-9)
	want(t, "y", r.At.Y, (600000*300-90000*250)/510000.0, 1e-9)
	// Sliding a unit over the hole is refused, beside it not.
	u := Unit{Length: 200, Width: 150, Owned: 4}
	if r.takes(r.Footprint[0], u.around(geom.Point{X: 700, Y: 200})) || !r.takes(r.Footprint[0], u.around(geom.Point{X: 400, Y: 200})) {
		t.Error("the hole is not minded")
	}
	f, err := FrameOf(Rectangle(0, 0, 1000, 600), 40, Board{Thickness: 90, Density: 500})
	if err != nil || f.Kind != FrameBase || f.Carries {
		t.Fatal(f, err)
	}
	want(t, "frame base", float64(f.Mass), (600000-920*520)*90*500/1e9, 1e-9)
	if _, err := FrameOf(Rectangle(0, 0, 1000, 60), 40, b); err == nil {
		t.Error("boards wider than the frame are taken")
	}
}

// Without anything under it the piece stands on its own boards too.
func TestHullOfEachKind(t *testing.T) {
	line := Line{200, 800, 0, 90}
	for _, c := range []struct {
		name   string
		pieces []Piece
		area   float64
	}{
		{"bare", nil, 600 * 90},
		{"feet under", []Piece{FeetAt([]float64{300, 700}, 40, -250, 350, Board{40, 500})}, 440 * 600},
		// A trapezoid behind the standing line, down to a foot 100 wide.
		{"brace", []Piece{BraceAt(500, 100, 600, 700, 90, 1000, 2)}, 600*90 + (600+100)/2.0*610},
		{"two wings", []Piece{WingAt(geom.Point{X: 200, Y: 90}, math.Pi/2, 400, 30, 3, 900),
			WingAt(geom.Point{X: 800, Y: 90}, math.Pi/2, 400, 30, 3, 900)}, 630*490 - 30*90/2.0},
		{"plate smaller than the piece", []Piece{PlateOf(Rectangle(300, -100, 300, 300), ply)}, 300 * 300},
	} {
		s := stand(t, Base{Pieces: c.pieces}, line)
		want(t, c.name, s.Hull.Area(), c.area, 1e-6)
	}
	if s := FeetAt([]float64{300, 700}, 40, -250, 350, Board{40, 500}); s.At.Dist(geom.Point{X: 500, Y: 50}) > 1e-9 {
		t.Errorf("feet weigh at %v", s.At)
	}
	b := BraceAt(500, 100, 600, 700, 90, 1000, 2)
	if b.At.Dist(geom.Point{X: 500, Y: 370}) > 1e-9 || b.Up != 500 {
		t.Errorf("the brace weighs at %v, %g up", b.At, b.Up)
	}
}

// The corners of a hexagon standing on its tip, a board of a frame set back, the
// feet of an arch.
func TestLines(t *testing.T) {
	l := layout.Layout{
		Standing: []layout.Standing{{Frame: 1, Side: 1, From: 100, To: 400}},
		Feet:     []layout.Foot{{Frame: 0, Corner: 1, From: 600, To: 690}},
		Tips:     []layout.Tip{{Frame: 2, Corner: 3, X: 900}}}
	got := Lines(l, []Frame{{0, 90}, {20, 70}, {5, 60}})
	for i, w := range []Line{{100, 400, 20, 70}, {600, 690, 0, 90}, {900, 900, 5, 60}} {
		if got[i] != w {
			t.Errorf("line %d is %v, want %v", i, got[i], w)
		}
	}
	s := stand(t, Base{}, got...)
	want(t, "front", s.Front(), 0, 0)
	want(t, "back", s.Back(), 90, 0)
	if _, problems := (Base{}).Stand([]Line{{500, 500, 0, 90}}); len(problems) != 1 || problems[0].Code != NoFoot {
		t.Errorf("a single tip stands: %v", problems)
	}
	if _, problems := (Base{}).Stand(nil); len(problems) != 1 || problems[0].Code != NoFoot {
		t.Errorf("nothing stands: %v", problems)
	}
}

func drawPoints(t *rapid.T) []geom.Point {
	f := rapid.Float64Range(-1000, 1000)
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) geom.Point {
		return geom.Point{X: math.Round(f.Draw(t, "x")), Y: math.Round(f.Draw(t, "y"))}
	}), 0, 30).Draw(t, "points")
}

// A hull is convex, holds every point, has only their corners, and does not hang
// on their order.
func TestHull(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawPoints(t)
		hull := Hull(points)
		if hull == nil {
			if len(points) > 2 && !collinear(points) {
				t.Fatalf("%v have no hull", points)
			}
			return
		}
		for i := range hull {
			s, next := hull.Side(i), hull.Side((i+1)%len(hull))
			if s.Vec().Cross(next.Vec()) <= 0 {
				t.Fatalf("%v is not convex at %v", hull, s.B)
			}
			for _, p := range points {
				if s.Vec().Unit().Cross(p.Sub(s.A)) < -1e-6 {
					t.Fatalf("%v lies outside %v", p, hull)
				}
			}
		}
		shuffled := Hull(rapid.Permutation(points).Draw(t, "shuffled"))
		if len(shuffled) != len(hull) || shuffled[0] != hull[0] {
			t.Fatalf("another order gives %v, was %v", shuffled, hull)
		}
	})
}

func collinear(points []geom.Point) bool {
	for _, p := range points {
		for _, q := range points {
			if math.Abs(p.Sub(points[0]).Cross(q.Sub(points[0]))) > 1e-3*(1+p.Dist(points[0])+q.Dist(points[0])) {
				return false
			}
		}
	}
	return true
}

func TestHullTurnsWithItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points, turn := drawPoints(t), rapid.Float64Range(-4, 4).Draw(t, "turn")
		var turned []geom.Point
		for _, p := range points {
			turned = append(turned, p.Rot(turn))
		}
		a, b := Hull(points), Hull(turned)
		if math.Abs(a.Area()-b.Area()) > 1e-2 {
			t.Fatalf("area %g, turned %g", a.Area(), b.Area())
		}
	})
}

func TestHalves(t *testing.T) {
	hex := RegularFromPoints(geom.Point{}, 6, 600, 0)
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-700, 700).Draw(t, "x")
		left, right := Halves(hex, x)
		if sum := left.Area() + right.Area(); math.Abs(sum-hex.Area()) > 1e-3 {
			t.Fatalf("halves have %g of %g", sum, hex.Area())
		}
		if left != nil && left.Box().Max.X > x+1e-6 || right != nil && right.Box().Min.X < x-1e-6 {
			t.Fatal("a half lies beyond the line")
		}
	})
}

func TestFloors(t *testing.T) {
	floors := Floors(assume.BuiltInBook().Reader())
	for i, w := range []Floor{{Name: Hall, Friction: 0.3}, {Name: Polished, Friction: 0.2}, {Name: Rough, Friction: 0.4}, {Name: Grass, Soft: true}} {
		if floors[i] != w {
			t.Errorf("%v, want %v", floors[i], w)
		}
	}
}

func TestKindNames(t *testing.T) {
	if Plate.String() != "plate" || Brace.String() != "rear brace" || Kind(-1).String() != "" || Kind(6).String() != "" {
		t.Error("a kind has another name")
	}
}

// A ring 1000 x 600 with a hole on its right, split at 500 for the van.
func TestSplitForTheVan(t *testing.T) {
	r := RingOf(Rectangle(0, 0, 1000, 600), Rectangle(600, 100, 300, 300), Board{Thickness: 10, Density: 500})
	if r.Split() != nil {
		t.Error("a base in one piece is split")
	}
	x := 500.0
	r.SplitAt = &x
	got := r.Split()
	want(t, "left", float64(got[0].Mass), 300000*10*500/1e9, 1e-12)
	want(t, "right", float64(got[1].Mass), (300000-90000)*10*500/1e9, 1e-12)
	if b := got[1].Box; b.Width() != 500 || b.Height() != 600 || len(got[0].Outlines) != 1 {
		t.Errorf("right half %+v", got[1])
	}
	f := FeetAt([]float64{100, 300, 900}, 40, 0, 600, Board{40, 500})
	f.SplitAt = &x
	got = f.Split()
	want(t, "two feet of three", float64(got[0].Mass), float64(f.Mass)*2/3, 1e-9)
	if len(got[0].Outlines) != 2 || got[0].Box.Width() != 240 {
		t.Errorf("left half %+v", got[0])
	}
}
