package frame

import (
	"math"
	"slices"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// drawOutline draws a simple polygon round the origin, convex or not, with no
// corner too sharp to saw.
func drawOutline(t *rapid.T) Outline {
	n := rapid.IntRange(3, 14).Draw(t, "corners")
	var p geom.Polygon
	for i := range n {
		r := rapid.Float64Range(400, 1600).Draw(t, "radius")
		at := (float64(i) + rapid.Float64Range(0, 0.4).Draw(t, "bearing")) * 2 * math.Pi / float64(n)
		p = append(p, geom.Point{X: r}.Rot(at))
	}
	o, err := ByCorners(p)
	if err != nil {
		t.Skip(err)
	}
	return o
}

func TestSettingsDoubledAddToAFullTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOutline(t)
		f, err := Build(o, Settings{Boards: flat(20 * mm)})
		if err != nil {
			t.Skip(err)
		}
		sum := 0.0
		for i, p := range f.Parts {
			sum += p.Start.Degrees() + p.End.Degrees()
			next := f.Parts[(i+1)%len(f.Parts)]
			if p.End != next.Start {
				t.Fatalf("sides %d and %d share a corner and are set to %v and %v", p.Side, next.Side, p.End, next.Start)
			}
			re := o.InsideAngle(i+1) > math.Pi+1e-6
			if re != (p.Start < 0) {
				t.Fatalf("corner %d: inside angle %v, setting %v", i+1, o.InsideAngle(i+1), p.Start)
			}
		}
		if !near(sum, 360, 1e-6) {
			t.Fatalf("settings add to %g", sum)
		}
	})
}

func TestPartsAreTheirFaces(t *testing.T) { // lengths by formula and by corners agree
	rapid.Check(t, func(t *rapid.T) {
		f, err := Build(drawOutline(t), Settings{Boards: flat(45 * mm)})
		if err != nil {
			t.Skip(err)
		}
		area := 0.0
		for _, p := range f.Parts {
			if !near(p.Outside.MM(), p.Face.Side(0).Len(), 1e-4) || !near(p.Inside, p.Face.Side(2).Len(), 1e-4) {
				t.Fatalf("side %d: %g and %g by formula, %g and %g by corners", p.Side,
					p.Outside.MM(), p.Inside, p.Face.Side(0).Len(), p.Face.Side(2).Len())
			}
			u := p.Face.Side(0).Vec().Unit()
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, c := range p.Face {
				lo, hi = math.Min(lo, c.Dot(u)), math.Max(hi, c.Dot(u))
			}
			if !near(p.TipToTip, hi-lo, 1e-4) {
				t.Fatalf("side %d: tip to tip %g, by corners %g", p.Side, p.TipToTip, hi-lo)
			}
			area += p.Face.Area()
		}
		if !near(area, float64(f.OutsideArea-f.InsideArea), 0.1) {
			t.Fatalf("boards cover %g mm², the ring between the outlines %g", area, f.OutsideArea-f.InsideArea)
		}
		if !near(f.Volume, area*19, 5) {
			t.Fatalf("volume %g, want %g", f.Volume, area*19)
		}
	})
}

func TestMirroredOutlineGivesMirroredParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Settings{Boards: flat(30 * mm)}
		o := drawOutline(t)
		f, err := Build(o, s)
		if err != nil {
			t.Skip(err)
		}
		g, err := Build(o.Mirrored(), s)
		if err != nil {
			t.Fatal(err)
		}
		left := slices.Clone(g.Parts)
		for _, p := range f.Parts {
			i := slices.IndexFunc(left, func(q Part) bool {
				return near(p.Outside.MM(), q.Outside.MM(), 1e-5) && near(p.Inside, q.Inside, 1e-4) &&
					sameSetting(p.Start, q.End) && sameSetting(p.End, q.Start)
			})
			if i < 0 {
				t.Fatalf("no mirror image of side %d", p.Side)
			}
			left = slices.Delete(left, i, i+1)
		}
		if back := o.Mirrored().Mirrored(); len(back.Corners) != len(o.Corners) || back.Corners[0].Dist(o.Corners[0]) > 1e-6 {
			t.Fatalf("mirrored twice: %v, want %v", back.Corners, o.Corners)
		}
	})
}

func TestScaledOutlineScalesItsParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOutline(t)
		k := rapid.IntRange(2, 5).Draw(t, "times")
		big := must(ByCorners(o.Corners.Scale(float64(k))))
		f, err := Build(o, Settings{Boards: Boards{Thickness: 10 * mm, Width: 25 * mm}})
		if err != nil {
			t.Skip(err)
		}
		g := must2(Build(big, Settings{Boards: Boards{
			Thickness: unit.Length(k) * 10 * mm, Width: unit.Length(k) * 25 * mm}}))
		for i, p := range f.Parts {
			q := g.Parts[i]
			if !near(q.Inside, float64(k)*p.Inside, 1e-4) || !sameSetting(p.Start, q.Start) {
				t.Fatalf("side %d: %g and %v, scaled %g and %v", p.Side, p.Inside, p.Start, q.Inside, q.Start)
			}
		}
		if !near(g.Volume, math.Pow(float64(k), 3)*f.Volume, 1e-6*g.Volume) {
			t.Fatalf("volume %g, scaled %g", f.Volume, g.Volume)
		}
	})
}

func must2(f Frame, err error) Frame {
	if err != nil {
		panic(err)
	}
	return f
}

func TestOutlinesStandWhereTheyShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOutline(t)
		b := o.Corners.Box()
		if !near(b.Min.Y, 0, 1e-6) || !near(b.Centre().X, 0, 1e-6) || o.Corners.Area() <= 0 {
			t.Fatalf("box %v", b)
		}
		if o.Corners[0].Y > 1e-6 {
			t.Fatalf("corner 1 at %v is not on the floor", o.Corners[0])
		}
	})
}

func TestNumbering(t *testing.T) {
	want := []geom.Point{{X: -50}, {X: 50}, {X: 50, Y: 80}, {X: -50, Y: 80}}
	p := []geom.Point{{X: 100, Y: 180}, {X: 100, Y: 100}, {X: 0, Y: 100}, {X: 0, Y: 180}} // clockwise, elsewhere
	for i := range p {
		o := must(ByCorners(geom.Polygon(p).From(i)))
		for j, c := range want {
			if o.Corners[j].Dist(c) > 1e-9 {
				t.Errorf("from corner %d: corners %v", i, o.Corners)
			}
		}
	}
	// Two standing sides: side 1 is the longer one.
	table := must(ByCorners([]geom.Point{{X: 0}, {X: 10}, {X: 10, Y: 50}, {X: 60, Y: 50}, {X: 60}, {X: 80}, {X: 80, Y: 90}, {X: 0, Y: 90}}))
	if !near(table.Length(1), 20, 1e-9) {
		t.Errorf("side 1 is %g long", table.Length(1))
	}
	// Two equal standing sides: the left one.
	stool := must(ByCorners([]geom.Point{{X: 60}, {X: 70}, {X: 70, Y: 90}, {X: 0, Y: 90}, {X: 0}, {X: 10}, {X: 10, Y: 50}, {X: 60, Y: 50}}))
	if stool.Corners[0].X > -34.9 {
		t.Errorf("corner 1 at %v", stool.Corners[0])
	}
}

func TestRegularByEverySize(t *testing.T) {
	for n := 3; n <= MostRegular; n++ {
		for _, stance := range []Stance{OnSide, OnCorner} {
			o := must(Regular(n, Side, 500*mm, stance, 0))
			for _, s := range o.Sizes(20 * mm) {
				l, _ := unit.FromMM(s.MM, unit.Nanometre, unit.Nearest)
				again, err := Regular(n, s.Measure, l, stance, 20*mm)
				if err != nil {
					t.Fatalf("%d sides by %s: %v", n, s.Measure, err)
				}
				if !near(again.Length(1), 500, 1e-4) || again.Corners[0].Dist(o.Corners[0]) > 1e-4 {
					t.Errorf("%d sides by %s: side %g", n, s.Measure, again.Length(1))
				}
			}
			out := must(Ring(n, Outside, 1000*mm, stance, 0))
			if d := size(t, out, Outside, 0); !near(d, 1000, 1e-5) {
				t.Errorf("ring of %d: outside %g", n, d)
			}
		}
	}
}

func TestUnclearSizesAreRefusedWithTheirMeanings(t *testing.T) {
	for _, by := range []Measure{Flats, Points, InsideFlats, Diameter} {
		_, err := Regular(5, by, 1000*mm, OnSide, 0)
		r := refusal(t, err, NoSuchSize)
		if len(r.Meanings) != 3 || r.Meanings[0].Measure != CornerCircle ||
			r.Meanings[1].Measure != InscribedCircle || r.Meanings[2].Measure != Height {
			t.Fatalf("%s: meanings %v", by, r.Meanings)
		}
		for _, m := range r.Meanings { // each meaning's side leads back to the size
			side, _ := unit.FromMM(m.Side, unit.Nanometre, unit.Nearest)
			o := must(Regular(5, Side, side, OnSide, 0))
			want(t, m.Measure.String(), size(t, o, m.Measure, 0), 1000, 1e-4)
		}
	}
	_, err := Regular(6, Diameter, 1000*mm, OnSide, 0)
	if r := refusal(t, err, NoSuchSize); r.Meanings[0].Measure != Points || r.Meanings[1].Measure != Flats {
		t.Errorf("a hexagon's diameter: %v", r.Meanings)
	}
}

func TestRefusals(t *testing.T) {
	pts := func(xy ...float64) []geom.Point {
		var p []geom.Point
		for i := 0; i < len(xy); i += 2 {
			p = append(p, geom.Point{X: xy[i], Y: xy[i+1]})
		}
		return p
	}
	for _, c := range []struct {
		name string
		code Code
		make func() (Outline, error)
	}{
		{"two sides", BadCount, func() (Outline, error) { return Regular(2, Side, mm, OnSide, 0) }},
		{"25 sides", BadCount, func() (Outline, error) { return Regular(25, Side, 100*mm, OnSide, 0) }},
		{"no size", BadMeasure, func() (Outline, error) { return Regular(6, Side, 0, OnSide, 0) }},
		{"a mile", BadMeasure, func() (Outline, error) { return Regular(6, Side, 5280*unit.Foot, OnSide, 0) }},
		{"two corners", BadCount, func() (Outline, error) { return ByCorners(pts(0, 0, 1, 0)) }},
		{"a corner nowhere", BadMeasure, func() (Outline, error) { return ByCorners(pts(0, 0, 1, 0, math.NaN(), 5)) }},
		{"repeated corner", SideTooShort, func() (Outline, error) { return ByCorners(pts(0, 0, 9, 0, 9, 0, 0, 9)) }},
		{"bow tie", SidesCross, func() (Outline, error) { return ByCorners(pts(0, 0, 10, 10, 10, 0, 0, 10)) }},
		{"needle", CornerTooSharp, func() (Outline, error) { return ByCorners(pts(0, 0, 1000, -50, 1000, 50)) }},
		{"notch like a needle", CornerTooSharp, func() (Outline, error) {
			return ByCorners(pts(0, 0, 480, 0, 500, 900, 520, 0, 1000, 0, 1000, 1000, 0, 1000))
		}},
		{"feet not level", FeetNotOnFloor, func() (Outline, error) { return OpenByCorners(pts(0, 0, 50, 90, 100, 5), false) }},
		{"a belly below the feet", FeetNotOnFloor, func() (Outline, error) {
			return OpenByCorners(pts(0, 0, -50, -90, 50, 200, 100, 0), false)
		}},
		{"a foot that lies down", CornerTooSharp, func() (Outline, error) { return OpenByCorners(pts(0, 0, 1000, 50, 1000, 0), false) }},
		{"flat ridge", BadMeasure, func() (Outline, error) { return House(100*mm, 90*mm, 90*mm) }},
		{"no width", BadMeasure, func() (Outline, error) { return House(0, 90*mm, 95*mm) }},
		{"no height", BadMeasure, func() (Outline, error) { return Rectangle(100*mm, -mm) }},
		{"straight diamond", BadMeasure, func() (Outline, error) { return DiamondFromSide(100*mm, math.Pi) }},
		{"diamond without a side", BadMeasure, func() (Outline, error) { return DiamondFromSide(0, 1) }},
		{"kite without a top", BadMeasure, func() (Outline, error) { return Kite(100*mm, 50*mm, 0) }},
		{"uprights too long", BadMeasure, func() (Outline, error) { return LongHexagon(100*mm, 200*mm, 200*mm) }},
		{"uprights of nothing", BadMeasure, func() (Outline, error) { return LongHexagon(100*mm, 200*mm, 0) }},
		{"half hexagon by flats", NoSuchSize, func() (Outline, error) { return HalfHexagon(Flats, 200*mm, false) }},
		{"half hexagon of nothing", BadMeasure, func() (Outline, error) { return HalfHexagon(Side, 0, false) }},
		{"arch of one segment", BadCount, func() (Outline, error) { return HalfRound(1, 100*mm, CornersOn, false) }},
		{"arch of nothing", BadMeasure, func() (Outline, error) { return HalfRound(5, 0, CornersOn, false) }},
		{"arch without segments", BadCount, func() (Outline, error) { return ArchOnLegs(100*mm, 100*mm, 0, CornersOn) }},
		{"arch without legs", BadMeasure, func() (Outline, error) { return ArchOnLegs(100*mm, 0, 4, CornersOn) }},
	} {
		_, err := c.make()
		t.Run(c.name, func(t *testing.T) { refusal(t, err, c.code) })
	}
	_, err := RingSawnRound(8, 100*mm, 100*mm, 50*mm, 0, OnSide)
	refusal(t, err, BadMeasure)
	_, err = RingSawnRound(2, 100*mm, 90*mm, 50*mm, 0, OnSide)
	refusal(t, err, BadCount)
	_, err = RingSawnRound(8, 100*mm, 90*mm, 0, 0, OnSide)
	refusal(t, err, BadMeasure)
}

func TestBoardsThatFillTheShape(t *testing.T) {
	o := hexagon(Side, 100*mm) // inscribed radius 86.6
	_, err := Build(o, Settings{Boards: flat(90 * mm)})
	r := refusal(t, err, InsideCollapses)
	want(t, "deepest board", r.Most, 50*math.Sqrt(3), 1e-4)
	want(t, "times as large", r.Scale, 90/(50*math.Sqrt(3)), 1e-5)
	grown, _ := unit.FromMM(100*r.Scale*1.0001, unit.Nanometre, unit.Up)
	if _, err := Build(hexagon(Side, grown), Settings{Boards: flat(90 * mm)}); err != nil {
		t.Errorf("the size said to work does not: %v", err)
	}
	// A door frame's legs meet before any side vanishes.
	legs := must(OpenByCorners([]geom.Point{{}, {Y: 500}, {X: 100, Y: 500}, {X: 100}}, false))
	_, err = Build(legs, Settings{Boards: flat(60 * mm)})
	want(t, "deepest legs", refusal(t, err, InsideCollapses).Most, 50, 1e-4)
	_, err = Build(o, Settings{Boards: flat(0)})
	refusal(t, err, BadMeasure)
}

func TestArchesOnLegs(t *testing.T) {
	o := must(ArchOnLegs(1200*mm, 1500*mm, 6, CornersOn))
	b := o.Corners.Box()
	want(t, "width", b.Width(), 1200, 1e-6)
	want(t, "height", b.Height(), 2100, 1e-6)
	want(t, "leg", o.Length(1), 1500, 1e-6)
	want(t, "segment", o.Length(2), 2*600*math.Sin(math.Pi/12), 1e-6)
	for k, a := range []float64{0, 7.5, 15, 15, 15, 15, 15, 7.5, 0} {
		want(t, "setting", o.Setting(k+1).Degrees(), a, 1e-9)
	}
	o = must(ArchOnLegs(1200*mm, 1500*mm, 5, FlatsOn))
	b = o.Corners.Box()
	want(t, "width over flats", b.Width(), 1200, 1e-6)
	want(t, "height of an odd arch over flats", b.Height(), 1500-600*math.Tan(math.Pi/12)+600, 1e-6)
	want(t, "left leg", o.Length(7), 1500, 1e-6)
	for k, a := range []float64{0, 15, 15, 15, 15, 15, 15, 0} {
		want(t, "setting over flats", o.Setting(k+1).Degrees(), a, 1e-9)
	}
	door := must(ArchOnLegs(1200*mm, 1500*mm, 1, CornersOn))
	want(t, "door frame's corner", door.Setting(2).Degrees(), 45, 1e-9)
	if o.Corners[0].X < 0 || o.Corners[len(o.Corners)-1].X > 0 {
		t.Error("corner 1 is not the right foot")
	}
	if m := o.Mirrored(); m.Corners[0].Dist(o.Corners[0]) > 1e-6 || !m.Open {
		t.Errorf("a mirrored arch starts at %v", m.Corners[0])
	}
}

func TestNamedOutlines(t *testing.T) {
	k := must(Kite(800*mm, 900*mm, 300*mm))
	b := k.Corners.Box()
	want(t, "kite's width", b.Width(), 800, 1e-9)
	want(t, "kite's height", b.Height(), 1200, 1e-9)
	want(t, "kite's lower side", k.Length(1), math.Hypot(400, 900), 1e-9)
	want(t, "kite's upper side", k.Length(2), 500, 1e-9)
	d := must(Diamond(600*mm, 801*mm))
	want(t, "diamond's side", d.Length(3), math.Hypot(300, 400.5), 1e-9)
	r := must(Rectangle(300*mm, 400*mm))
	want(t, "rectangle's side 2", r.Length(2), 400, 1e-9)
	if r.Setting(1) != unit.Angle(math.Pi/4) {
		t.Errorf("a square corner is set to %v", r.Setting(1))
	}
	long := must(LongHexagon(900*mm, 2100*mm, 1200*mm))
	want(t, "uprights", long.Length(2), 1200, 1e-9)
}

func TestBySides(t *testing.T) {
	deg := func(ds ...float64) (as []unit.Angle) {
		for _, d := range ds {
			as = append(as, unit.FromDegrees(d))
		}
		return
	}
	house := []unit.Length{1200 * mm, 1500 * mm, in(848.528137 / 25.4), in(848.528137 / 25.4), 1500 * mm}
	open := append(slices.Clone(house[:4]), 0)
	for name, c := range map[string]struct {
		sides  []unit.Length
		angles []unit.Angle
	}{
		"all angles":                  {house, deg(90, 135, 90, 135, 90)},
		"last angle left out":         {house, deg(90, 135, 90, 135)},
		"last angle 0":                {house, deg(90, 135, 90, 135, 0)},
		"last side computed":          {open, deg(90, 135, 90)},
		"last side and angle 0":       {open, deg(90, 135, 90, 0)},
		"last side, an angle more":    {open, deg(90, 135, 90, 135)},
		"last two closed by lengths":  {house, deg(90, 135)},
		"closed by lengths, zeros in": {house, deg(90, 135, 0, 0)},
	} {
		o, err := BySides(c.sides, c.angles)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		b := o.Corners.Box()
		if !near(b.Width(), 1200, 1e-4) || !near(b.Height(), 2100, 1e-4) {
			t.Errorf("%s: %g x %g", name, b.Width(), b.Height())
		}
	}
	tri := must(BySides([]unit.Length{300 * mm, 400 * mm, 500 * mm}, nil))
	want(t, "right angle of a 3-4-5", tri.InsideAngle(2).Degrees(), 90, 1e-6)

	for name, c := range map[string]struct {
		code   Code
		sides  []unit.Length
		angles []unit.Angle
	}{
		"gap":                    {DoesNotClose, []unit.Length{100 * mm, 100 * mm, 100 * mm, 104 * mm}, deg(90, 90, 90)},
		"angles that do not add": {AnglesDisagree, house, deg(90, 135, 90, 135, 92)},
		"too few angles":         {BadCount, house, deg(90)},
		"too many angles":        {BadCount, house, deg(90, 135, 90, 135, 90, 90)},
		"n-2 angles, all sides":  {BadCount, house, deg(90, 135, 90)},
		"two sides":              {BadCount, house[:2], nil},
		"no length":              {BadMeasure, []unit.Length{100 * mm, 0, 100 * mm}, deg(60, 60)},
		"sides that cannot meet": {DoesNotClose, []unit.Length{100 * mm, 30 * mm, 40 * mm}, nil},
		"angle of 400":           {CornerTooSharp, house, deg(90, 400, 90, 135)},
	} {
		_, err := BySides(c.sides, c.angles)
		t.Run(name, func(t *testing.T) { refusal(t, err, c.code) })
	}
}

func TestBySidesWalksBackAnyOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := drawOutline(t)
		var sides []unit.Length
		var angles []unit.Angle
		for k := 1; k <= o.Sides(); k++ {
			l, _ := unit.FromMM(o.Length(k), unit.Nanometre, unit.Nearest)
			sides = append(sides, l)
			angles = append(angles, o.InsideAngle(k%o.Sides()+1))
		}
		again, err := BySides(sides, angles)
		if err != nil {
			t.Fatal(err)
		}
		if !near(again.Corners.Area(), o.Corners.Area(), 0.1) {
			t.Fatalf("area %g, want %g", again.Corners.Area(), o.Corners.Area())
		}
	})
}
