package making

import (
	"math"
	"testing"

	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// 18 in across flats has sides of 18/sqrt(3) = 10.39 in, 10 3/8 on the tape; 42
// in has 24.25 in, 24 1/4 on the tape. Six of them are the rows.
func TestRows(t *testing.T) {
	for flats, want := range map[float64]unit.Length{18: inches(62.25), 42: 12*unit.Foot + inches(1.5)} {
		p := plan(t, Shop{}, Kind{Name: "hex", Frame: hexagon(t, flats, oneByFour), Count: 1})
		if got := p.Kinds[0].GlueUp.RowLength(); got != want {
			t.Errorf("%g in: the row is %s, want %s", flats, unit.FormatOverall(got, unit.Style{}), unit.FormatOverall(want, unit.Style{}))
		}
	}
}

func TestMethodChosen(t *testing.T) {
	strap := []unit.Length{20 * unit.Foot}
	for _, c := range []struct {
		name  string
		frame frame.Frame
		shop  Shop
		kind  Kind
		want  Method
	}{
		{"a small hexagon", hexagon(t, 18, oneByFour), Shop{}, Kind{}, Rolled},
		{"a row of 8 ft", regular(t, 6, 16, oneByFour), Shop{}, Kind{}, Rolled},
		{"a row over 8 ft", regular(t, 6, 16.0625, oneByFour), Shop{}, Kind{}, Halves},
		{"a row longer than the bench", hexagon(t, 18, oneByFour), Shop{Bench: 5 * unit.Foot}, Kind{}, Halves},
		{"sides of 24 in", regular(t, 4, 24, oneByFour), Shop{}, Kind{}, Rolled},
		{"sides over 24 in", regular(t, 3, 24.0625, oneByFour), Shop{}, Kind{}, JointByJoint},
		{"thick boards", regular(t, 4, 20, thick), Shop{}, Kind{}, Halves},
		{"flat boards", hexagon(t, 18, flatFour), Shop{}, Kind{}, Halves},
		{"flat boards and a strap", hexagon(t, 18, flatFour), Shop{Straps: strap}, Kind{}, Strapped},
		{"a strap that is too short", hexagon(t, 18, flatFour), Shop{Straps: []unit.Length{5 * unit.Foot}}, Kind{}, Halves},
		{"flat, odd sides", regular(t, 5, 12, flatFour), Shop{}, Kind{}, JointByJoint},
		{"flat, mitres out of line", built(t, flatFour)(frame.Rectangle(inches(30), inches(18))), Shop{}, Kind{}, JointByJoint},
		{"a corner that turns inwards", star(t, oneByFour), Shop{Straps: strap}, Kind{}, JointByJoint},
		{"an open arch", arch(t, oneByFour), Shop{}, Kind{}, Rolled},
		{"an open arch, flat", arch(t, flatFour), Shop{Straps: strap}, Kind{}, JointByJoint},
		{"a ring in layers", regular(t, 12, 10, flatFour), Shop{}, Kind{Layers: 2}, InLayers},
		{"a ring of many joints", regular(t, 18, 5, oneByFour), Shop{}, Kind{}, Halves},
		{"the same with a helper", regular(t, 18, 5, oneByFour), Shop{People: 2}, Kind{}, Rolled},
		{"asked for", hexagon(t, 18, oneByFour), Shop{}, Kind{Method: JointByJoint}, JointByJoint},
	} {
		c.kind.Name, c.kind.Frame, c.kind.Count = "it", c.frame, 1
		g := plan(t, c.shop, c.kind).Kinds[0].GlueUp
		if g.Method != c.want {
			t.Errorf("%s: %s, want %s; tried %+v", c.name, g.Method, c.want, g.Tried)
		}
		if g.Why() == "" || !trial(t, g, g.Method).OK || !g.Possible {
			t.Errorf("%s: why %q, %+v", c.name, g.Why(), g)
		}
	}
}

// Every limit stands beside what the frame has, also for the methods not taken.
func TestLimitsAreShown(t *testing.T) {
	g := plan(t, Shop{}, Kind{Name: "big", Frame: hexagon(t, 42, oneByFour), Count: 1}).Kinds[0].GlueUp
	if len(g.Tried) != len(preference) {
		t.Fatalf("%d methods tried of %d", len(g.Tried), len(preference))
	}
	row, side := limit(t, g, Rolled, RowLength), limit(t, g, Rolled, LongestSide)
	wantNear(t, "row", row.Have, 145.5*in, 1e-6)
	wantNear(t, "most", row.Most, 96*in, 1e-6)
	wantNear(t, "side", side.Have, 24.25*in, 1e-6)
	wantNear(t, "most", side.Most, 24*in, 1e-6)
	if row.OK || side.OK || !limit(t, g, Rolled, Thickness).OK || !limit(t, g, Rolled, FlatBoards).OK {
		t.Errorf("%+v", trial(t, g, Rolled))
	}
}

// 10 min of open time over two faces at 20 s and 10 s to close is 12 joints;
// twice the hands take twice as many; at 30 °C half the time is left.
func TestJointsPerGo(t *testing.T) {
	for _, c := range []struct {
		people int
		shop   float64
		want   int
	}{{0, 20, 12}, {1, 20, 12}, {2, 20, 24}, {1, 30, 6}, {1, 12, 12}, {2, 30, 12}} {
		r := builtIn()
		r.Glue.Shop = c.shop
		p := plan(t, Shop{Rates: r, People: c.people}, Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1})
		if got := p.Kinds[0].GlueUp.PerGo; got != c.want {
			t.Errorf("%d people at %g °C: %d joints, want %d", c.people, c.shop, got, c.want)
		}
	}
}

// A ring of 18 goes in two halves for the open time alone: two people would roll
// it. What the shape forbids no helper mends, and what was asked for stays.
func TestWithHelp(t *testing.T) {
	ring := Kind{Name: "ring", Frame: regular(t, 18, 5, oneByFour), Count: 1}
	if m, hands, ok := plan(t, Shop{}, ring).Kinds[0].GlueUp.WithHelp(); m != Rolled || hands != 2 || !ok {
		t.Errorf("%s, %d, %t", m, hands, ok)
	}
	if m := plan(t, Shop{People: 2}, ring).Kinds[0].GlueUp.Method; m != Rolled {
		t.Errorf("with two people: %s", m)
	}
	ring.Method = Halves
	big := Kind{Name: "big", Frame: hexagon(t, 42, oneByFour), Count: 1}
	for _, k := range []Kind{ring, big, {Name: "small", Frame: hexagon(t, 18, oneByFour), Count: 1}} {
		if m, hands, ok := plan(t, Shop{}, k).Kinds[0].GlueUp.WithHelp(); ok {
			t.Errorf("%s: %s with %d", k.Name, m, hands)
		}
	}
}

// A mitre face takes longer than 20 s only when glue is spread so slowly that its
// area says so.
func TestLargeFacesTakeLonger(t *testing.T) {
	r := builtIn()
	r.Glue.Spread = 0.002e6 // mm² a minute
	f := hexagon(t, 18, oneByFour)
	g := plan(t, Shop{Rates: r}, Kind{Name: "hex", Frame: f, Count: 1}).Kinds[0].GlueUp
	face := 0.75 / math.Cos(math.Pi/6) * 3.5 * in * in
	wantNear(t, "minutes a joint", g.PerUnit, 2*face/2000+10.0/60, 1e-9)
}

// A segment of a layer is coated on both ends, 20 s each, and on its broad face,
// a tenth of a square metre a minute; 10 s to lay it.
func TestSegmentOfALayer(t *testing.T) {
	f := built(t, flatFour)(frame.LongHexagon(inches(20), inches(40), inches(20)))
	g := plan(t, Shop{}, Kind{Name: "ring", Frame: f, Count: 1, Layers: 3}).Kinds[0].GlueUp
	broad := 0.0
	for _, p := range f.Parts {
		broad = max(broad, (p.Outside.MM()+p.Inside)/2*3.5*in)
	}
	wantNear(t, "minutes", g.PerUnit, 50.0/60+broad/1e5, 1e-6)
	if len(g.Stages) != 2 || g.Stages[0] != (Stage{6, 1}) {
		t.Errorf("two layers on the first: %+v", g.Stages)
	}
}

// However many pieces there are, joint by joint closes every joint once, never
// two of one piece at a time, and a closed frame's last two together.
func TestPairwise(t *testing.T) {
	for n := 2; n <= frame.MostSides; n++ {
		for _, open := range []bool{false, true} {
			if n == 2 && !open {
				continue
			}
			want, got, pieces := n, 0, n
			if open {
				want--
			}
			for _, s := range pairwise(n, open) {
				got += s.Units * s.Joints
				if s.Joints == 1 && 2*s.Units > pieces {
					t.Errorf("%d pieces, open %t: %d joints at once of %d pieces", n, open, s.Units, pieces)
				}
				pieces -= s.Units * s.Joints
			}
			if got != want {
				t.Errorf("%d pieces, open %t: %d joints, want %d", n, open, got, want)
			}
		}
	}
}

func TestEveryMethodGluesEveryJoint(t *testing.T) {
	for _, f := range []frame.Frame{hexagon(t, 18, oneByFour), regular(t, 4, 10, oneByFour), regular(t, 12, 7, oneByFour)} {
		for _, method := range []Method{Rolled, Strapped, Halves, JointByJoint} {
			p := plan(t, Shop{Straps: []unit.Length{20 * unit.Foot}}, Kind{Name: "it", Frame: f, Count: 1, Method: method})
			got := 0
			for _, s := range p.Kinds[0].GlueUp.Stages {
				got += s.Units * s.Joints
			}
			if want := len(f.Parts); got != want {
				t.Errorf("%s: %d joints of %d sides", method, got, want)
			}
		}
	}
}

// Two halves of a hexagon, 1/32 in off each: 1/16 in is lost across the line of
// the two corners; the sides there, at 60° to it, lose 1/32 / sin 60°.
func TestTruing(t *testing.T) {
	f := hexagon(t, 42, oneByFour)
	g := plan(t, Shop{}, Kind{Name: "big", Frame: f, Count: 1}).Kinds[0].GlueUp
	if g.Truing == nil {
		t.Fatalf("no truing: %+v", g)
	}
	wantNear(t, "lost", g.Truing.Lost, in/16, 1e-9)
	for _, s := range g.Truing.Sides {
		wantNear(t, "side", s, in/32/(math.Sqrt(3)/2), 1e-4)
	}
	// By the polygon: take 1/32 in off the half above the line and measure.
	a, b := f.Built.Corners[g.Truing.Corners[0]-1], f.Built.Corners[g.Truing.Corners[1]-1]
	off := b.Sub(a).Unit().Perp().Mul(g.Truing.Off)
	met := 0
	for side := range f.Built.Corners {
		s := f.Built.Corners.Side(side)
		cut := geom.Segment{A: a.Sub(b.Sub(a)).Add(off), B: b.Add(b.Sub(a)).Add(off)}
		if x, ok := s.Cross(cut); ok {
			met++
			short := min(x.Dist(a), x.Dist(b))
			wantNear(t, "side by the polygon", short, g.Truing.Sides[0], 1e-4)
		}
	}
	if met != 2 {
		t.Errorf("the cut meets %d sides", met)
	}
}

// What the tape reads is what comes of the truing. A square's halves lose 1/16 in
// across their line, and 2 x 1/32 / tan 45° along it; a hexagon's lose 2 x 1/32 /
// tan 60° along it, and its other corners, which come straight nearer, 1/16 in x
// sin 60° of a measure that leans 60° to the line, to the first order.
func TestChecksAreAfterTruing(t *testing.T) {
	diagonal := 30 * math.Sqrt2 * in
	for _, c := range []struct {
		f    frame.Frame
		want []float64
	}{
		{regular(t, 4, 30, flatFour), []float64{diagonal - in/16, diagonal - in/16}},
		{regular(t, 6, 20, oneByFour), []float64{40*in - in/16/math.Sqrt(3), 40*in - in/16*math.Sqrt(3)/2, 40*in - in/16*math.Sqrt(3)/2}},
	} {
		k := plan(t, Shop{}, Kind{Name: "it", Frame: c.f, Count: 1, Method: Halves}).Kinds[0]
		if len(k.Checks) != len(c.want) || k.GlueUp.Truing.Corners[0] != 1 {
			t.Fatalf("%+v", k)
		}
		for i, x := range k.Checks {
			wantNear(t, "across", x.MM, c.want[i], 0.05)
			if x.Equal != k.Checks[0].Equal {
				t.Errorf("%+v", k.Checks)
			}
		}
		for _, p := range k.GlueUp.Truing.closed(c.f.Built).Corners { // and the tips still lie on the sides
			if d := c.f.Built.Corners.BoundaryDist(p); d > in/16 {
				t.Errorf("a corner is %g mm off its frame", d)
			}
		}
	}
}

// The mitres of a rectangle's opposite corners lie in one line only when it is
// square; those of a kite only at its two ends; a rhombus has both.
func TestTruingNeedsOneLine(t *testing.T) {
	// Like a kite about the line from its second corner to its fourth.
	b, d := geom.Point{X: 500}, geom.Point{X: 100, Y: 400}
	along := d.Sub(b).Unit()
	first := geom.Point{}.Sub(b)
	mirrored := b.Add(along.Mul(2 * first.Dot(along)).Sub(first))
	for _, c := range []struct {
		name string
		f    frame.Frame
		want [2]int
		ok   bool
	}{
		{"kite on its side", built(t, flatFour)(frame.ByCorners([]geom.Point{{}, b, mirrored, d})), [2]int{2, 4}, true},
		{"one mitre in line only", built(t, oneByFour)(frame.ByCorners([]geom.Point{{}, {X: 400, Y: -200}, {X: 600}, {X: 200, Y: 100}})), [2]int{}, false},
		{"square", built(t, flatFour)(frame.Rectangle(inches(20), inches(20))), [2]int{1, 3}, true},
		{"rectangle", built(t, flatFour)(frame.Rectangle(inches(20), inches(22))), [2]int{}, false},
		{"kite", built(t, flatFour)(frame.Kite(inches(20), inches(20), inches(12))), [2]int{1, 3}, true},
		{"diamond", built(t, flatFour)(frame.Diamond(inches(20), inches(30))), [2]int{1, 3}, true},
		{"house", house(t, flatFour), [2]int{}, false},
	} {
		ch := choosing{kind: Kind{Frame: c.f}, shop: Shop{Rates: builtIn()}, g: newGlueUp(Kind{Frame: c.f}, Shop{Rates: builtIn()})}
		got, ok := ch.truing()
		if ok != c.ok || ok && got.Corners != c.want {
			t.Errorf("%s: %v %t, want %v %t", c.name, got.Corners, ok, c.want, c.ok)
		}
	}
}

// The clear width of a hexagon inside is between its inside flats; of a
// rectangle its shorter inside side.
func TestClearAndWipe(t *testing.T) {
	six := hexagon(t, 6, oneByFour)
	g := plan(t, Shop{}, Kind{Name: "six", Frame: six, Count: 1}).Kinds[0].GlueUp
	side := six.Parts[0].Outside.MM()
	wantNear(t, "clear", g.Clear, side*math.Sqrt(3)-1.5*in, 1e-3)
	if !g.Wipe {
		t.Error("no chisel goes into a 6 in frame")
	}
	g = plan(t, Shop{}, Kind{Name: "box", Frame: built(t, oneByFour)(frame.Rectangle(inches(20), inches(12))), Count: 1}).Kinds[0].GlueUp
	wantNear(t, "clear", g.Clear, 10.5*in, 1e-6)
	if g.Wipe {
		t.Error("a chisel goes into 10 1/2 in")
	}
}

// By hand: feet that lean in by 60° leave the batten as long as they stand apart;
// those that lean out by 30° make it longer by 3 1/2 in x tan 30° at either end.
func TestBattenCoversTheFeet(t *testing.T) {
	frameOf := func(lean float64) frame.Frame {
		f := frame.Frame{Boards: oneByFour}
		f.Built = frame.Outline{Open: true, Corners: geom.Polygon{{X: 10 * in}, {X: 10*in + lean, Y: 10 * in}, {X: -10*in - lean, Y: 10 * in}, {X: -10 * in}}}
		return f
	}
	for _, c := range []struct{ lean, want float64 }{
		{0, 20 * in}, {-10 * in / math.Sqrt(3), 20 * in}, {10 * in / math.Sqrt(3), 20*in + 7*in/math.Sqrt(3)},
	} {
		wantNear(t, "across", acrossFeet(frameOf(c.lean)), c.want, 1e-9)
	}
}

func TestArchHasABatten(t *testing.T) {
	f := arch(t, oneByFour)
	g := plan(t, Shop{}, Kind{Name: "arch", Frame: f, Count: 1}).Kinds[0].GlueUp
	n := len(f.Inside)
	wantNear(t, "batten", g.Batten, f.Inside[0].X-f.Inside[n-1].X, 1e-9)
	out := f.Built.Corners
	if feet := out[0].X - out[n-1].X; g.Across < feet-1e-9 || g.Across > feet+7*in {
		t.Errorf("a batten of %g over feet of %g", g.Across, feet)
	}
	if g.Batten >= 40*in || g.Joints != 7 {
		t.Errorf("batten %g, %d joints", g.Batten, g.Joints)
	}
}

// Corner to corner across a hexagon is twice its side; across an odd polygon
// from a corner to the middle of the side opposite, (s/2) / tan(90°/n).
func TestChecks(t *testing.T) {
	hex := Checks(hexagon(t, 18, oneByFour))
	if len(hex) != 3 {
		t.Fatalf("%+v", hex)
	}
	for _, c := range hex {
		if c.To != c.From+3 || !c.Equal {
			t.Errorf("%+v", c)
		}
		wantNear(t, "across corners", c.MM, 2*10.375*in, 1e-3)
	}
	five := Checks(regular(t, 5, 12, oneByFour))
	if len(five) != 5 || five[0].Side != 3 || five[4].Side != 2 {
		t.Fatalf("%+v", five)
	}
	for _, c := range five {
		wantNear(t, "corner to side", c.MM, 6*in/math.Tan(math.Pi/10), 1e-2)
	}
	long := Checks(built(t, oneByFour)(frame.LongHexagon(inches(20), inches(40), inches(20))))
	if long[0].Equal {
		t.Errorf("a long hexagon is not equal across: %+v", long)
	}
	open := Checks(arch(t, oneByFour))
	if len(open) != 3 || !open[1].Equal || !open[2].Equal || open[0].Equal {
		t.Errorf("%+v", open)
	}
}

// Glue for a frame is four coats to a joint, two on either face.
func TestGlueAndTape(t *testing.T) {
	r := builtIn()
	f := hexagon(t, 18, oneByFour)
	c := plan(t, Shop{}, Kind{Name: "hex", Frame: f, Count: 1}).Kinds[0].Corners
	face := 0.75 / (math.Sqrt(3) / 2) * 3.5 * in * in
	wantNear(t, "glue", c.Glue, 6*4*face/6100*1.25, 1e-6)
	if c.Tape.Strips != 2 || c.Tape.Width != r.Glue.TapeWidth {
		t.Errorf("%+v", c.Tape)
	}
	wantNear(t, "tape", c.Tape.Length, (62.25+8)*in, 1e-6)
	if c := plan(t, Shop{}, Kind{Name: "hex", Frame: hexagon(t, 18, flatFour), Count: 1}).Kinds[0].Corners; c.Tape != (Tape{}) {
		t.Errorf("flat boards are taped: %+v", c.Tape)
	}
}

func TestCallersFaults(t *testing.T) {
	f := hexagon(t, 18, oneByFour)
	good := Kind{Name: "hex", Frame: f, Count: 1}
	l := lay(t, []Kind{good}, at("A", "hex", 0, 0))
	for name, kinds := range map[string][]Kind{
		"no such kind": {{Name: "other", Frame: f, Count: 1}}, "no parts": {{Name: "hex", Count: 1}}, "less than none": {{Name: "hex", Frame: f, Count: -1}},
	} {
		if _, _, err := Make(kinds, l, Shop{}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if _, _, err := Make([]Kind{good}, layout.Layout{}, Shop{}); err != nil {
		t.Error(err)
	}
}

// Whatever the polygon, its least width is what a turn of it in 3000 steps finds.
func TestClearWidthByTurning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 9).Draw(t, "n")
		var p geom.Polygon
		for i := range n {
			a := 2 * math.Pi * (float64(i) + 0.8*rapid.Float64Range(0, 1).Draw(t, "a")) / float64(n)
			p = append(p, geom.Point{X: 300 * math.Cos(a), Y: 200 * math.Sin(a)}) // on an ellipse: no corner turns inwards
		}
		least := math.Inf(1)
		for i := range 3000 {
			least = min(least, geom.Polygon(turned(p, math.Pi*float64(i)/3000)).Box().Width())
		}
		if got := clearWidth(p); got > least+1e-9 || got < least-600*math.Pi/3000 {
			t.Fatalf("clear width %g, by turning %g", got, least)
		}
	})
}

func turned(p geom.Polygon, a float64) geom.Polygon {
	var out geom.Polygon
	for _, q := range p {
		out = append(out, q.Rot(a))
	}
	return out
}
