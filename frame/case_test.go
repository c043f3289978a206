package frame

import (
	"errors"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"
)

const (
	mm   = unit.Millimetre
	inch = unit.Inch
)

// in reads inches that are no whole mark.
func in(x float64) unit.Length { return unit.Length(math.Round(x * float64(inch))) }

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

func want(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !near(got, want, tol) {
		t.Errorf("%s = %.6g, want %.6g", what, got, want)
	}
}

// flat and onEdge are boards with the given depth in the plane.
func flat(depth unit.Length) Boards   { return Boards{Thickness: 19 * mm, Width: depth} }
func onEdge(depth unit.Length) Boards { return Boards{Thickness: depth, Width: 89 * mm, OnEdge: true} }

// asked builds with no tape, so that the figures are those of geometry.
func asked(t *testing.T, o Outline, err error) func(Boards) Frame {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return func(b Boards) Frame {
		t.Helper()
		return build(t, o, Settings{Boards: b, JointTolerance: mm})
	}
}

func build(t *testing.T, o Outline, s Settings) Frame {
	t.Helper()
	f, err := Build(o, s)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// must takes an outline that is known to be a shape.
func must(o Outline, err error) Outline {
	if err != nil {
		panic(err)
	}
	return o
}

func refusal(t *testing.T, err error, code Code) *Refusal {
	t.Helper()
	var r *Refusal
	if !errors.As(err, &r) {
		t.Fatalf("error %v, want a refusal %q", err, code)
	}
	if r.Code != code {
		t.Fatalf("refused as %q (%v), want %q", r.Code, r, code)
	}
	if r.Error() == string(code) || r.Error() == "" {
		t.Errorf("refusal %q has no words", code)
	}
	return r
}

func size(t *testing.T, o Outline, m Measure, depth unit.Length) float64 {
	t.Helper()
	v, ok := o.Size(m, depth)
	if !ok {
		t.Fatalf("no size %q", m)
	}
	return v
}

func hexagon(by Measure, l unit.Length) Outline { return must(Regular(6, by, l, OnSide, 0)) }

// Table of regular polygons, Machinery's Handbook, 31st ed., p. 82 (seen):
// area by side², by corner radius² and by inscribed radius², then ratios of
// corner radius R, inscribed radius r and side S.
var handbook = []struct {
	n                                            int
	setting, byS, byR, byr, rToS, sToR, rr, sToI float64
}{
	{3, 60, 0.4330, 1.2990, 5.1962, 0.5774, 1.7321, 2.0000, 3.4641},
	{4, 45, 1.0000, 2.0000, 4.0000, 0.7071, 1.4142, 1.4142, 2.0000},
	{5, 36, 1.7205, 2.3776, 3.6327, 0.8507, 1.1756, 1.2361, 1.4531},
	{6, 30, 2.5981, 2.5981, 3.4641, 1.0000, 1.0000, 1.1547, 1.1547},
	{7, 25.714, 3.6339, 2.7364, 3.3710, 1.1524, 0.8678, 1.1099, 0.9631},
	{8, 22.5, 4.8284, 2.8284, 3.3137, 1.3066, 0.7654, 1.0824, 0.8284},
	{9, 20, 6.1818, 2.8925, 3.2757, 1.4619, 0.6840, 1.0642, 0.7279},
	{10, 18, 7.6942, 2.9389, 3.2492, 1.6180, 0.6180, 1.0515, 0.6498},
	{12, 15, 11.196, 3.0000, 3.2154, 1.9319, 0.5176, 1.0353, 0.5359},
	{16, 11.25, 20.109, 3.0615, 3.1826, 2.5629, 0.3902, 1.0196, 0.3978},
}

func TestRegularPolygonsAgainstTheHandbook(t *testing.T) {
	const long = 1000 * mm
	for _, h := range handbook {
		o := must(Regular(h.n, Side, long, OnSide, 0))
		s := size(t, o, Side, 0)
		R, r := size(t, o, CornerCircle, 0)/2, size(t, o, InscribedCircle, 0)/2
		area := o.Corners.Area()
		digit := 5.1e-5 // the table's last digit
		want(t, "area by side", area/s/s, h.byS, math.Max(digit, h.byS*5e-5))
		want(t, "area by R", area/R/R, h.byR, digit)
		want(t, "area by r", area/r/r, h.byr, digit)
		want(t, "R by S", R/s, h.rToS, digit)
		want(t, "S by R", s/R, h.sToR, digit)
		want(t, "R by r", R/r, h.rr, digit)
		want(t, "S by r", s/r, h.sToI, digit)
		for k := 1; k <= h.n; k++ {
			want(t, "setting", o.Setting(k).Degrees(), h.setting, 5e-4)
			want(t, "inside angle", o.InsideAngle(k).Degrees(), 180-2*h.setting, 1e-3)
		}
		if h.n%2 == 0 {
			want(t, "across points by flats", size(t, o, Points, 0)/size(t, o, Flats, 0), h.rr, digit)
		}
	}
}

// Outside less inside is 2 w tan(180/n), and a joint face w / cos(180/n):
// plane trigonometry, figures computed apart from this code.
func TestInsideAndJointFaceByDepth(t *testing.T) {
	for _, c := range []struct {
		n          int
		less, face float64
	}{{3, 3.4641, 7.000}, {4, 2.0, 4.950}, {5, 1.4531, 4.326}, {6, 1.1547, 4.041}, {8, 0.8284, 3.788}, {12, 0, 3.623}} {
		o, err := Regular(c.n, Side, 40*inch, OnSide, 0)
		f := asked(t, o, err)(flat(in(3.5)))
		p := f.Parts[0]
		if c.less > 0 {
			want(t, "outside less inside", (p.Outside.MM()-p.Inside)/25.4/3.5, c.less, 1e-4)
		}
		want(t, "joint face", JointFace(in(3.5), p.Start)/25.4, c.face, 6e-4)
	}
}

func TestHexagonOfTwoFeet(t *testing.T) { // computed figures of the same section
	f := asked(t, hexagon(Side, 24*inch), nil)(flat(in(3.5)))
	want(t, "inside", f.Parts[0].Inside/25.4, 19.9585, 1e-4)
	want(t, "flats", size(t, f.Built, Flats, 0)/25.4, 41.569, 1e-3)
	want(t, "points", size(t, f.Built, Points, 0)/25.4, 48, 1e-6)
}

func TestCase1GiantHexagon(t *testing.T) { // public maker's report
	for _, c := range []struct{ w, short float64 }{{3.5, 43.96}, {1.5, 46.27}} {
		f := asked(t, hexagon(Side, 48*inch), nil)(flat(in(c.w)))
		want(t, "across flats", size(t, f.Built, Flats, 0)/25.4, 83.1, 0.05)
		want(t, "points", size(t, f.Built, Points, 0)/25.4, 96, 1e-6)
		want(t, "short point", f.Parts[0].ShortPoint()/25.4, c.short, 0.005)
		want(t, "long point", f.Parts[0].LongPoint()/25.4, 48, 1e-6)
		want(t, "tip to tip", f.Parts[0].TipToTip/25.4, 48, 1e-6)
	}
}

func TestCase2PineHexagon(t *testing.T) { // public maker's report: 435 across
	f := asked(t, hexagon(Side, 250*mm), nil)(onEdge(22 * mm))
	want(t, "flats", size(t, f.Built, Flats, 0), 433.0, 0.05)
	want(t, "points", size(t, f.Built, Points, 0), 500, 1e-6)
	want(t, "short point", f.Parts[0].ShortPoint(), 224.6, 0.05)
	want(t, "inside flats", size(t, f.Built, InsideFlats, 22*mm), 389.0, 0.05)
}

func TestCase3BoxedInRound(t *testing.T) {
	o, err := Regular(6, Inside, 860*mm, OnSide, 21*mm)
	f := asked(t, o, err)(onEdge(21 * mm))
	want(t, "inside length", f.Parts[0].Inside, 496.5, 0.05)
	want(t, "outside length", f.Parts[0].Outside.MM(), 520.8, 0.05)
	want(t, "inside circle", size(t, o, Inside, 21*mm), 860, 1e-6)
}

func TestCase4SizesMustBeNamed(t *testing.T) {
	for _, c := range []struct {
		by          Measure
		size, s, fl float64
	}{{Points, 18, 9, 15.6}, {Points, 12, 6, 10.4}, {Flats, 18, 10.39, 18}, {Flats, 12, 6.93, 12}} {
		o := hexagon(c.by, in(c.size))
		want(t, "side", size(t, o, Side, 0)/25.4, c.s, 0.005)
		want(t, "flats", size(t, o, Flats, 0)/25.4, c.fl, 0.05)
	}
}

// Common practice, no source: a hexagon about 42 in across flats is 48 in
// across points, is set to 30 degrees, and those of 18, 12 and 6 in flats have
// sides of which the largest is about 10 1/2 in.
func TestWhatMakersSay(t *testing.T) {
	want(t, "flats", size(t, hexagon(Points, 48*inch), Flats, 0)/25.4, 42, 0.5)
	want(t, "setting", hexagon(Side, inch).Setting(1).Degrees(), 30, 1e-9)
	want(t, "side", size(t, hexagon(Flats, 18*inch), Side, 0)/25.4, 10.5, 0.125)
}

func TestCase7LongHexagon(t *testing.T) {
	o, err := LongHexagon(900*mm, 2100*mm, 1200*mm)
	f := asked(t, o, err)(flat(70 * mm))
	want(t, "slope", f.Parts[0].Outside.MM(), 636.4, 0.05)
	for k, a := range []float64{45, 22.5, 22.5, 45, 22.5, 22.5} {
		want(t, "setting", f.Asked.Setting(k+1).Degrees(), a, 1e-9)
	}
	want(t, "upright's short point", f.Parts[1].ShortPoint(), 1142.0, 0.05)
	want(t, "slope's short point", f.Parts[0].ShortPoint(), 537.4, 0.05)
	want(t, "perimeter", f.Built.Corners.Perimeter(), 4945.6, 0.05)
	kinds := f.Kinds()
	if len(kinds) != 3 {
		t.Fatalf("%d kinds, want uprights and two mirror-handed slopes", len(kinds))
	}
	if kinds[0].MirrorOf != 2 || kinds[2].MirrorOf != 0 || kinds[1].MirrorOf != -1 ||
		len(kinds[0].Sides) != 2 || len(kinds[2].Sides) != 2 || kinds[0].Part.Hand == kinds[2].Part.Hand {
		t.Errorf("kinds %+v", kinds)
	}
}

func TestCase8DiamondAndTriangle(t *testing.T) {
	o, err := DiamondFromSide(600*mm, unit.FromDegrees(60))
	f := asked(t, o, err)(flat(40 * mm))
	b := f.Built.Corners.Box()
	want(t, "width", b.Width(), 600, 1e-5)
	want(t, "height", b.Height(), 1039.2, 0.05)
	want(t, "setting at the sharp foot", f.Asked.Setting(1).Degrees(), 60, 1e-9)
	want(t, "setting at the blunt corner", f.Asked.Setting(2).Degrees(), 30, 1e-9)
	want(t, "short point", f.Parts[0].ShortPoint(), 507.6, 0.05)
	tri, err := Regular(3, Side, 600*mm, OnSide, 0)
	f = asked(t, tri, err)(flat(40 * mm))
	want(t, "triangle's setting", f.Parts[0].Start.Degrees(), 60, 1e-9)
	want(t, "triangle's short point", f.Parts[0].ShortPoint(), 461.4, 0.05)
}

func TestCase9House(t *testing.T) {
	o, err := House(1200*mm, 1500*mm, 2100*mm)
	f := asked(t, o, err)(flat(45 * mm))
	for k, a := range []float64{45, 45, 22.5, 45, 22.5} {
		want(t, "setting", f.Asked.Setting(k+1).Degrees(), a, 1e-9)
	}
	want(t, "roof", f.Parts[2].Outside.MM(), 848.5, 0.05)
	want(t, "wall's short point", f.Parts[1].ShortPoint(), 1436.4, 0.05)
	want(t, "roof's short point", f.Parts[2].ShortPoint(), 784.9, 0.05)
	want(t, "sill's short point", f.Parts[0].ShortPoint(), 1110.0, 0.05)
}

func TestCase10SquaresOnACorner(t *testing.T) { // public maker's report
	for h, side := range map[float64]float64{8: 5.66, 7.5: 5.30, 7: 4.95, 6.5: 4.60, 6: 4.24} {
		o := must(Regular(4, Height, in(12*h), OnCorner, 0))
		want(t, "side in feet", size(t, o, Side, 0)/304.8, side, 0.005)
		want(t, "height", o.Corners.Box().Height()/304.8, h, 1e-6)
		if o.Corners[0].X > 1e-6 || o.Corners[1].X < 1 {
			t.Errorf("side 1 does not go up to the right from the lowest corner: %v", o.Corners)
		}
	}
}

func TestCase11ShortPoints(t *testing.T) {
	for _, s := range []float64{600, 400, 200} {
		f := asked(t, hexagon(Side, in(s/25.4)), nil)(Boards{Thickness: 18 * mm, Width: 145 * mm, OnEdge: true})
		want(t, "short point", f.Parts[0].ShortPoint(), s-20.8, 0.05)
	}
}

func TestCase12RingSawnRound(t *testing.T) { // reported 9 1/2
	r, err := RingSawnRound(8, 22*inch, 14*inch, 5*inch, 0, OnSide)
	if err != nil {
		t.Fatal(err)
	}
	want(t, "least board", r.LeastBoard/25.4, 4.53, 0.005)
	want(t, "segment of the whole width", r.WholeWidth/25.4, 9.50, 0.005)
	want(t, "least segment", r.Blanks.Length(1)/25.4, 22*math.Tan(math.Pi/8), 1e-6)
	_, err = RingSawnRound(8, 22*inch, 14*inch, in(4.5), 0, OnSide)
	want(t, "least board refused with", refusal(t, err, BoardTooNarrow).Least/25.4, 4.53, 0.005)
}

func TestCase13PlyRings(t *testing.T) {
	for _, c := range []struct {
		n             int
		width, length float64
	}{{12, 180.7, 562.7}, {8, 218.5, 869.8}, {16, 167.3, 417.7}} {
		r, err := RingSawnRound(c.n, 2100*mm, 1800*mm, 300*mm, 0, OnSide)
		if err != nil {
			t.Fatal(err)
		}
		want(t, "blank width", r.LeastBoard, c.width, 0.05)
		least, _ := unit.FromMM(r.LeastBoard, unit.Nanometre, unit.Up)
		r, err = RingSawnRound(c.n, 2100*mm, 1800*mm, least, 0, OnSide)
		if err != nil {
			t.Fatal(err)
		}
		want(t, "blank length", r.Blanks.Length(1), c.length, 0.06)
		const layers, perM3 = 2 * 18, 600
		if c.n == 12 {
			want(t, "kg", float64(r.Area)*layers/1e9*perM3, 19.8, 0.06)
		}
	}
	want(t, "inside the circle", Sagitta(12, 2100*mm), 36, 0.5)
}

func TestCase14HalfCircle(t *testing.T) {
	for fit, side := range map[Fit]float64{FlatsOn: 5.97, CornersOn: 5.85} {
		for _, square := range []bool{false, true} {
			o := must(HalfRound(8, 30*inch, fit, square))
			want(t, "outside length", o.Length(1)/25.4, side, 0.005)
			if o.Sides() != 8 {
				t.Errorf("%d segments", o.Sides())
			}
			for k := 2; k <= 8; k++ {
				want(t, "joint", o.Setting(k).Degrees(), 11.25, 1e-9)
			}
			foot := 11.25
			if square {
				foot = 0
			}
			want(t, "right foot", o.Setting(1).Degrees(), foot, 1e-9)
			want(t, "left foot", o.Setting(9).Degrees(), foot, 1e-9)
		}
	}
}

func TestCase15HalfHexagon(t *testing.T) {
	for _, o := range []Outline{must(HalfHexagon(Side, 48*inch, false)), must(HalfHexagon(Width, 96*inch, true))} {
		b := o.Corners.Box()
		want(t, "width", b.Width()/25.4, 96, 1e-6)
		want(t, "height", b.Height()/25.4, 41.6, 0.05)
	}
	open := must(HalfHexagon(Side, 48*inch, true))
	if open.Sides() != 3 {
		t.Fatalf("%d boards", open.Sides())
	}
	// A leg at 60 to the floor is cut to it at 30; the joints are a hexagon's.
	for k := 1; k <= 4; k++ {
		want(t, "setting", open.Setting(k).Degrees(), 30, 1e-9)
	}
}

func TestFeetCutToTheFloor(t *testing.T) {
	// An A: 800 wide, 1000 high, boards 100 deep.
	o := must(OpenByCorners([]geom.Point{{X: -400}, {Y: 1000}, {X: 400}}, false))
	f := build(t, o, Settings{Boards: flat(100 * mm), JointTolerance: mm})
	lean := math.Atan2(400, 1000) // from upright
	want(t, "foot", float64(f.Parts[0].Start), lean, 1e-9)
	want(t, "inside foot on the floor", f.Inside[0].Y, 0, 1e-9)
	want(t, "its width on the floor", f.Built.Corners[0].X-f.Inside[0].X, 100/math.Cos(lean), 1e-6)
	if !f.Parts[0].StartFoot || f.Parts[0].EndFoot || !f.Parts[1].EndFoot {
		t.Error("feet not marked")
	}
	want(t, "inside length", f.Parts[0].Inside, f.Inside.Side(0).Len(), 1e-6)
}

func TestFeetSawnSquareStandOnTheirLowestEdge(t *testing.T) {
	o := must(HalfRound(8, 1000*mm, CornersOn, true))
	f := build(t, o, Settings{Boards: flat(100 * mm), JointTolerance: mm})
	low := math.Min(f.Inside.Box().Min.Y, f.Built.Corners.Box().Min.Y)
	want(t, "lowest wood", low, 0, 1e-9)
	want(t, "outside corner over the floor", f.Built.Corners[0].Y, 100*math.Sin(math.Pi/16), 1e-6)
	want(t, "inside length", f.Parts[0].Inside, f.Parts[0].Outside.MM()-100*math.Tan(math.Pi/16), 1e-6)
}
