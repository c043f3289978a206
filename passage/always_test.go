package passage_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"bowerwright/geom"
	"bowerwright/passage"
	"pgregory.net/rapid"
)

// cluster draws a few polygons that belong together.
func cluster(t *rapid.T) []geom.Polygon {
	var ps []geom.Polygon
	for range rapid.IntRange(1, 4).Draw(t, "frames") {
		n := rapid.IntRange(3, 8).Draw(t, "sides")
		p := ngon(n, rapid.Float64Range(100, 700).Draw(t, "side"))
		m := geom.Move{Turn: rapid.Float64Range(0, 6).Draw(t, "turn"), Shift: geom.Point{
			X: rapid.Float64Range(-800, 800).Draw(t, "x"), Y: rapid.Float64Range(-800, 800).Draw(t, "y")}}
		ps = append(ps, m.Polygon(p))
	}
	return ps
}

func spots(t *rapid.T) []passage.Spot {
	l := func(name string) float64 { return rapid.Float64Range(300, 3000).Draw(t, name) }
	return []passage.Spot{
		passage.Door{Width: l("w"), Height: l("h")},
		passage.Floor{Length: l("l"), Width: l("w")},
		passage.Chamber{Length: l("l"), Width: l("w"), Height: l("h"), Door: passage.Door{Width: l("dw"), Height: l("dh")}},
		passage.Corner{First: l("a"), Second: l("b"), Height: l("h"), Turn: rapid.Float64Range(0.4, 2.6).Draw(t, "turn")},
		passage.Landing{Up: l("a"), Down: l("b"), Depth: l("d"), Length: l("l"), Height: l("h")},
	}
}

// one keeps a check short: a spot of one kind.
func one(t *rapid.T) []passage.Spot {
	i := rapid.IntRange(0, 4).Draw(t, "spot")
	return spots(t)[i : i+1]
}

func made(t *rapid.T, thick float64, ps []geom.Polygon) *passage.Body {
	b, err := passage.Piece{Outlines: ps, Thickness: thick}.Body()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// fuzzy is how near nothing a clearance may be, in mm, for the two ways of
// asking to differ by rounding.
const fuzzy = 1e-4

func TestFitsIsPass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := made(t, rapid.Float64Range(10, 200).Draw(t, "thick"), cluster(t))
		for _, s := range one(t) {
			v := s.Pass(b)
			if math.Abs(v.Best.Clearance) > fuzzy && v.Passes != s.Fits(b) {
				t.Fatalf("%+v: clearance %g, fits %v", s, v.Best.Clearance, s.Fits(b))
			}
		}
	})
}

// A piece turned or mirrored in its own plane, or moved, has the same best
// clearance: nothing but Upright depends on how it is drawn. A corner that is
// turned the other way is the mirrored one with its passages changed round.
func TestTurnAndMirrorChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps, thick := cluster(t), rapid.Float64Range(10, 200).Draw(t, "thick")
		m := geom.Move{Mirror: rapid.Bool().Draw(t, "mirror"), Turn: rapid.Float64Range(0, 6).Draw(t, "by"), Shift: geom.Point{X: 77, Y: -31}}
		var moved []geom.Polygon
		for _, p := range ps {
			moved = append(moved, m.Polygon(p))
		}
		a, b := made(t, thick, ps), made(t, thick, moved)
		for _, s := range one(t) {
			if x, y := s.Pass(a).Best.Clearance, s.Pass(b).Best.Clearance; math.Abs(x-y) > fuzzy {
				t.Fatalf("%+v: %g and %g", s, x, y)
			}
		}
		c := spots(t)[3].(passage.Corner)
		back := passage.Corner{First: c.Second, Second: c.First, Height: c.Height, Turn: c.Turn}
		if x, y := c.Pass(a).Best.Clearance, back.Pass(a).Best.Clearance; math.Abs(x-y) > fuzzy {
			t.Fatalf("there and back: %g and %g", x, y)
		}
	})
}

// More room, a thinner piece or fewer frames never leave less.
func TestMoreRoomNeverHurts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps, thick := cluster(t), rapid.Float64Range(10, 200).Draw(t, "thick")
		more := rapid.Float64Range(0, 300).Draw(t, "more")
		a := made(t, thick, ps)
		thin, few := made(t, thick*0.7, ps), made(t, thick, ps[:1])
		for _, s := range one(t) {
			was := s.Pass(a).Best.Clearance
			if got := s.Pass(thin).Best.Clearance; got < was-fuzzy {
				t.Fatalf("%+v: thinner %g, before %g", s, got, was)
			}
			if got := s.Pass(few).Best.Clearance; got < was-fuzzy {
				t.Fatalf("%+v: fewer %g, before %g", s, got, was)
			}
			for i := range 5 {
				if got := wider(s, i, more).Pass(a).Best.Clearance; got < was-fuzzy {
					t.Fatalf("%+v: measure %d larger by %g: %g, before %g", s, i, more, got, was)
				}
			}
		}
	})
}

// wider lets one measure of a spot grow.
func wider(s passage.Spot, i int, d float64) passage.Spot {
	at := func(fs ...*float64) { *fs[i%len(fs)] += d }
	switch s := s.(type) {
	case passage.Door:
		at(&s.Width, &s.Height)
		return s
	case passage.Floor:
		at(&s.Length, &s.Width)
		return s
	case passage.Chamber:
		at(&s.Length, &s.Width, &s.Height, &s.Door.Width, &s.Door.Height)
		return s
	case passage.Corner:
		at(&s.First, &s.Second, &s.Height)
		return s
	case passage.Landing:
		at(&s.Up, &s.Down, &s.Depth, &s.Length, &s.Height)
		return s
	}
	panic("a spot without measures")
}

// No hold tried at random leaves more than the one that is given, and the one
// that is given takes what it says.
func TestNoHoldAtRandomIsBetter(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	rapid.Check(t, func(t *rapid.T) {
		ps, thick := cluster(t), rapid.Float64Range(10, 200).Draw(t, "thick")
		b := made(t, thick, ps)
		for _, s := range spots(t)[:3] {
			best := s.Pass(b).Best
			free := best.Slack
			free.Along += best.Takes.Along
			free.Across += best.Takes.Across
			free.Up += best.Takes.Up
			for range 300 {
				turn, lean := r.Float64()*math.Pi, r.Float64()*math.Pi/2
				if _, laid := s.(passage.Floor); laid {
					lean = math.Pi / 2
				}
				if got := left(ps, thick, turn, lean, free); got > best.Clearance+fuzzy {
					t.Fatalf("%+v: turned %g, leaned %g leaves %g; given %+v", s, turn, lean, got, best)
				}
			}
			if best.Hold.Kind != passage.Broadside {
				if got := left(ps, thick, best.Hold.Turn, best.Hold.Lean, free); math.Abs(got-best.Clearance) > fuzzy {
					t.Fatalf("%+v leaves %g", best, got)
				}
			}
		}
	})
}

// left reckons in space what a hold leaves: every corner of both faces, turned,
// stood up edge first and leaned.
func left(ps []geom.Polygon, thick, turn, lean float64, free passage.Room) float64 {
	lo, hi := [3]float64{1e9, 1e9, 1e9}, [3]float64{-1e9, -1e9, -1e9}
	for _, p := range ps {
		for _, v := range p {
			for _, z := range []float64{-thick / 2, thick / 2} {
				along := v.X*math.Cos(turn) - v.Y*math.Sin(turn)
				up := v.X*math.Sin(turn) + v.Y*math.Cos(turn)
				at := [3]float64{along, up*math.Sin(lean) - z*math.Cos(lean), up*math.Cos(lean) + z*math.Sin(lean)}
				for k, x := range at {
					lo[k], hi[k] = math.Min(lo[k], x), math.Max(hi[k], x)
				}
			}
		}
	}
	least := math.Inf(1)
	for k, f := range []float64{free.Along, free.Across, free.Up} {
		least = math.Min(least, f-(hi[k]-lo[k]))
	}
	return least
}

// Flat round a corner against a sweep of small steps that shares no code: the
// footprint pushed against both outer walls, the inner corner in it or not.
func TestCornerAgainstSmallSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	shapes := rapid.Custom(cluster)
	for i := range 60 {
		b := body(t, 20, shapes.Example(i)...)
		c := passage.Corner{First: 400 + 2100*r.Float64(), Second: 400 + 2100*r.Float64(), Height: 1e5, Turn: 0.4 + 2*r.Float64()}
		flat := c.Pass(b).Ways[1]
		hull := b.Hull()
		if flat.Hold.FaceDown {
			hull = geom.Move{Mirror: true}.Polygon(hull).CCW()
		}
		for _, d := range []float64{-10, 10} { // a step moves a corner by up to 4 mm
			s := flat.Clearance - d
			if got := stepRound(hull, c.First-s, c.Second-s, c.Turn); got != (d > 0) {
				t.Errorf("%d: %+v with %g less: small steps say %v, clearance %g", i, c, s, got, flat.Clearance)
			}
		}
	}
}

func stepRound(hull geom.Polygon, a, b, turn float64) bool {
	if a <= 0 || b <= 0 {
		return false
	}
	const steps = 2880
	ok, first, second := make([]bool, steps), make([]bool, steps), make([]bool, steps)
	sin, tan := math.Sin(turn), math.Tan(turn)
	for i := range steps {
		p := geom.Move{Turn: 2 * math.Pi * float64(i) / steps}.Polygon(hull)
		// The first outer wall runs up and back from the origin at the turn.
		x := func(q geom.Point) float64 { return q.X*sin + q.Y*math.Cos(turn) }
		loX, hiX, loY, hiY := 1e9, -1e9, 1e9, -1e9
		for _, q := range p {
			loX, hiX = math.Min(loX, x(q)), math.Max(hiX, x(q))
			loY, hiY = math.Min(loY, q.Y), math.Max(hiY, q.Y)
		}
		inY := loY + b
		in := geom.Point{X: (loX+a)/sin - inY/tan, Y: inY}
		ok[i] = !p.Contains(in) || p.BoundaryDist(in) < 0.5
		first[i], second[i] = hiX-loX <= a, hiY-loY <= b
	}
	for i := range steps {
		if !first[i] {
			continue
		}
		for _, d := range []int{1, steps - 1} {
			for k, j := 0, i; k < steps && (ok[j] || first[j] || second[j]); k, j = k+1, (j+d)%steps {
				if second[j] {
					return true
				}
			}
		}
	}
	return false
}

// The poses lie in the passages: none past an outer wall, the inner corner in
// none, the first in the first passage and the last in the second.
func TestPosesLieInThePassages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := made(t, rapid.Float64Range(10, 200).Draw(t, "thick"), cluster(t))
		c := spots(t)[3].(passage.Corner)
		v := c.Pass(b)
		if !v.Passes {
			return
		}
		sin, cos := math.Sincos(c.Turn)
		outer, inner := c.Walls(3000)
		in := inner[1]
		if math.Abs(in.X*sin+in.Y*cos-c.First) > fuzzy || math.Abs(in.Y-c.Second) > fuzzy || outer[1] != (geom.Point{}) {
			t.Fatalf("walls %v, %v", outer, inner)
		}
		for i, far := range []float64{-c.First, c.Second} { // parallel, and as far apart as the passage is wide
			o, n := outer[2*i].Sub(outer[1]).Unit(), inner[2*i].Sub(in).Unit()
			if o.Dist(n) > fuzzy || math.Abs(o.Cross(in)-far) > fuzzy {
				t.Fatalf("passage %d: walls %v, %v", i, outer, inner)
			}
		}
		if len(v.Best.Poses) != 3 {
			t.Fatalf("%d poses", len(v.Best.Poses))
		}
		for i, p := range v.Best.Poses {
			wideX, wideY := -1e9, -1e9
			for _, q := range p.Outline {
				x := q.X*sin + q.Y*cos
				if x < -fuzzy || q.Y < -fuzzy {
					t.Fatalf("pose %d is beyond a wall: %v", i, q)
				}
				wideX, wideY = math.Max(wideX, x), math.Max(wideY, q.Y)
			}
			if p.Outline.Contains(in) && p.Outline.BoundaryDist(in) > fuzzy {
				t.Fatalf("pose %d runs into the inner corner", i)
			}
			if i == 0 && wideX > c.First+fuzzy || i == 2 && wideY > c.Second+fuzzy {
				t.Fatalf("pose %d is not in its passage", i)
			}
		}
	})
}

func BenchmarkDoorFits(b *testing.B) {
	p := body(b, 90, ngon(6, 600), ngon(8, 300), ngon(12, 200))
	for b.Loop() {
		passage.Door{Width: 900, Height: 1500}.Fits(p)
	}
}

func BenchmarkCornerFits(b *testing.B) {
	p := body(b, 90, ngon(6, 600), ngon(8, 300), ngon(12, 200))
	for b.Loop() {
		passage.Corner{First: 900, Second: 1000, Height: 2200}.Fits(p)
	}
}

func BenchmarkCornerPass(b *testing.B) {
	p := body(b, 90, ngon(6, 600), ngon(8, 300), ngon(12, 200))
	for b.Loop() {
		passage.Corner{First: 900, Second: 1000, Height: 2200}.Pass(p)
	}
}
