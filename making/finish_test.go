package making

import (
	"math"
	"strings"
	"testing"

	"bowerwright/unit"
)

// A hexagon of side s from boards t thick and b wide: outside 6 s b, inside
// 6 (s - 2 t tan 30°) b, front and back each the area between two hexagons,
// mitres 12 faces of t / cos 30° by b.
func TestHexagonAreas(t *testing.T) {
	s, th, b := 10.375*in, 0.75*in, 3.5*in
	tan := 1 / math.Sqrt(3)
	inner := s - 2*th*tan
	hex := func(s float64) float64 { return 3 * math.Sqrt(3) / 2 * s * s }
	a := areasOf(Kind{Frame: hexagon(t, 18, oneByFour), Layers: 0})
	for what, x := range map[string][2]float64{
		"outside": {float64(a.Outside), 6 * s * b}, "inside": {float64(a.Inside), 6 * inner * b},
		"front and back": {float64(a.FrontBack), 2 * (hex(s) - hex(inner))}, "mitres": {float64(a.Mitres), 12 * th / (math.Sqrt(3) / 2) * b}, "feet": {float64(a.Feet), 0},
		"sanded": {float64(a.Sanded()), 6*(s+inner)*b + 2*(hex(s)-hex(inner))},
	} {
		wantNear(t, what, x[0], x[1], 1)
	}
	flat := areasOf(Kind{Frame: hexagon(t, 18, flatFour), Layers: 0})
	inner = s - 2*b*tan
	wantNear(t, "flat: front and back", float64(flat.FrontBack), 2*(hex(s)-hex(inner)), 5)
	wantNear(t, "flat: outside", float64(flat.Outside), 6*s*th, 1e-6)
	three := areasOf(Kind{Frame: hexagon(t, 18, flatFour), Layers: 3})
	if three.Outside != 3*flat.Outside || three.FrontBack != flat.FrontBack {
		t.Errorf("three layers: %+v of %+v", three, flat)
	}
}

// Both ends of an arch stand on the floor: t / cos(setting) by b each.
func TestFeet(t *testing.T) {
	f := arch(t, oneByFour)
	a := areasOf(Kind{Frame: f, Layers: 1})
	want := 0.0
	for _, k := range []int{1, 9} {
		want += 0.75 * in / math.Cos(float64(f.Asked.Setting(k))) * 3.5 * in
	}
	wantNear(t, "feet", float64(a.Feet), want, 1e-6)
	wantNear(t, "mitres", float64(a.Mitres), 14*0.75*in/math.Cos(math.Pi/16)*3.5*in, 1e-6)
}

// The faces of all parts as sticks: inside, outside, front, back and ends are the
// surface of the prisms they are.
func TestAreasAreTheSurfaceOfTheParts(t *testing.T) {
	for _, f := range []Kind{{Frame: hexagon(t, 18, oneByFour)}, {Frame: house(t, oneBySix)}, {Frame: arch(t, flatFour)}, {Frame: star(t, oneByFour)}} {
		want := 0.0
		for _, p := range f.Frame.Parts {
			want += 2*math.Abs(p.Face.Area()) + p.Face.Perimeter()*f.Frame.Boards.Rise().MM()
		}
		a := areasOf(Kind{Frame: f.Frame, Layers: 1})
		got := float64(a.Sanded() + a.Mitres + a.Feet)
		wantNear(t, "surface", got, want, want*1e-3) // rounding turns ends a little
	}
}

// Three hexagons, three seams of a side each: six faces are bare.
func TestSeamFacesStayBare(t *testing.T) {
	kinds, l := comb(t)
	p, problems, err := Make(kinds, l, Shop{})
	if err != nil || len(problems) > 0 {
		t.Fatal(problems, err)
	}
	f := p.Finish
	if len(l.Seams) != 3 || len(f.Bare) != 6 {
		t.Fatalf("%d seams, bare %+v", len(l.Seams), f.Bare)
	}
	face := 10.375 * in * 3.5 * in
	wantNear(t, "seams", float64(f.Seams), 6*face, 6)
	wantNear(t, "painted", float64(f.Painted), 3*float64(areasOf(Kind{Frame: kinds[0].Frame, Layers: 1}).Sanded())-6*face, 6)
	for i, b := range f.Bare {
		if i > 0 && b.Frame < f.Bare[i-1].Frame {
			t.Errorf("not by frame: %+v", f.Bare)
		}
		wantNear(t, "stretch", b.To-b.From, 10.375*in, 0.1)
	}
}

// A shallow frame against a deep one: they touch as far back as the shallow one
// goes.
func TestBareToTheShallower(t *testing.T) {
	kinds := []Kind{{Name: "deep", Frame: hexagon(t, 18, oneBySix), Count: 1}, {Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}}
	l := lay(t, kinds, at("A", "deep", 0, 0), on("B", "hex", 1, "A", 4))
	p, _, err := Make(kinds, l, Shop{})
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range p.Finish.Bare {
		wantNear(t, "area", float64(b.Area), (b.To-b.From)*3.5*in, 1e-6)
	}
	kinds[1].Layers = 2
	p, _, _ = Make(kinds, l, Shop{})
	wantNear(t, "two layers", float64(p.Finish.Bare[0].Area), (p.Finish.Bare[0].To-p.Finish.Bare[0].From)*5.5*in, 1e-6)
}

// A small frame in the middle of a big one's side keeps that stretch bare and no
// more, and the tape masks that stretch.
func TestBareStretch(t *testing.T) {
	kinds := []Kind{{Name: "big", Frame: hexagon(t, 42, oneByFour), Count: 1}, {Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}}
	l := lay(t, kinds, at("A", "big", 0, 0), on("B", "hex", 1, "A", 4))
	p, _, err := Make(kinds, l, Shop{})
	if err != nil || len(p.Finish.Bare) != 2 {
		t.Fatal(p.Finish.Bare, err)
	}
	big := p.Finish.Bare[0]
	wantNear(t, "from", big.From, (24.25-10.375)/2*in, 0.01)
	wantNear(t, "to", big.To, (24.25+10.375)/2*in, 0.01)
	wantNear(t, "area", float64(big.Area), 10.375*in*3.5*in, 1)
	mitres := float64(areasOf(Kind{Frame: kinds[0].Frame, Layers: 1}).Mitres + areasOf(Kind{Frame: kinds[1].Frame, Layers: 1}).Mitres)
	wantNear(t, "mitres of both", float64(p.Finish.Total.Mitres), mitres, 1e-6)
	for _, a := range p.Amounts {
		if a.Item == "masking tape" {
			wantNear(t, "tape", a.Quantity, 4*10.375*in/1000, 1e-4)
		}
	}
}

func TestDry(t *testing.T) {
	r := FinishRates{ADay: 2, Recoat: 120}
	for coats, want := range map[int]float64{-1: 0, 0: 0, 1: 120, 2: 240, 3: 1440 + 120, 4: 1440 + 240, 5: 2880 + 120} {
		if got := r.Dry(coats); got != want {
			t.Errorf("%d coats: %g min, want %g", coats, got, want)
		}
	}
}

func stepText(s []Step) string {
	var out []string
	for _, x := range s {
		out = append(out, x.Do)
	}
	return strings.Join(out, "\n")
}

// Insides are sanded before gluing and mitres never; what is finished first
// moves its drying before the glue.
func TestOrderOfFinishing(t *testing.T) {
	kind := Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}
	after, first := plan(t, Shop{}, kind).Finish, plan(t, Shop{FinishFirst: true}, kind).Finish
	dry := builtIn().Finish.Dry(3)
	glueAt := func(f Finishing) (at int, before float64) {
		for i, s := range f.Steps {
			if s.Do == "Glue up." {
				return i, before
			}
			before += s.Wait
		}
		return -1, 0
	}
	if at, before := glueAt(after); at != 2 || before != 0 {
		t.Errorf("finished after: glue at step %d, after %g min", at, before)
	}
	if at, before := glueAt(first); at != 3 || before != dry {
		t.Errorf("finished first: glue at step %d, after %g min, want %g", at, before, dry)
	}
	for name, f := range map[string]Finishing{"after": after, "first": first} {
		text := stepText(f.Steps)
		inside, glue := strings.Index(text, "Sand the inside faces"), strings.Index(text, "Glue up.")
		if inside < 0 || inside > glue || !strings.Contains(text[:glue], "Never touch a mitre") || !strings.Contains(text, "edges of every seam face sharp") {
			t.Errorf("%s:\n%s", name, text)
		}
	}
	if !first.First || after.First || !strings.Contains(stepText(first.Steps), "Mask every mitre face") {
		t.Error("masking of mitres")
	}
	if last := first.Steps[len(first.Steps)-1].Do; !strings.HasPrefix(last, "Finish the outside") {
		t.Errorf("insides are finished twice: %s", last)
	}
	if last := after.Steps[len(after.Steps)-1].Do; !strings.HasPrefix(last, "Finish all") {
		t.Errorf("insides are left: %s", last)
	}
}

// The inside of a ring that is sawn round is not there before it is sawn: nobody
// sands or finishes it before gluing. Beside other frames only the rings are left
// out.
func TestRingsAreSandedWhenSawn(t *testing.T) {
	ring := Kind{Name: "hoop", Frame: regular(t, 12, 10, flatFour), Count: 1, Layers: 2, Ring: Ring{Outside: 36 * in, Inside: 32 * in}}
	hex := Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}
	alone, beside := stepText(plan(t, Shop{FinishFirst: true}, ring).Finish.Steps), stepText(plan(t, Shop{FinishFirst: true}, ring, hex).Finish.Steps)
	if glue := strings.Index(alone, "Glue up."); strings.Contains(alone[:glue], "nside") || !strings.Contains(alone[glue:], "sand their insides") || !strings.Contains(alone, "insides of the rings") {
		t.Errorf("a ring alone:\n%s", alone)
	}
	glue := strings.Index(beside, "Glue up.")
	if strings.Count(beside[:glue], "but of rings that are sawn round") != 2 || !strings.Contains(beside[glue:], "sand their insides") {
		t.Errorf("beside a hexagon:\n%s", beside)
	}
	if how := howOf(ring); strings.Contains(how, "end grain") || how == howOf(hex) {
		t.Errorf("layers hold by %q", how)
	}
}

// The three times of the filler follow each other and add up to the last.
func TestFillerWaits(t *testing.T) {
	f := plan(t, Shop{}, Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}).Finish
	if f.Filler.Set != 20 || f.Filler.Sand != 240 || f.Filler.Paint != 1440 {
		t.Errorf("%+v", f.Filler)
	}
	sum := 0.0
	for _, s := range f.Steps[:len(f.Steps)-1] {
		sum += s.Wait
	}
	if sum != f.Filler.Paint {
		t.Errorf("waits before the finish add up to %g min", sum)
	}
}

func TestBareWood(t *testing.T) {
	kind := Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 2}
	r := builtIn()
	r.Finish.Coats = 0
	p := plan(t, Shop{Rates: r, FinishFirst: true}, kind)
	if p.Finish.Painted != 0 || p.Finish.Between != 0 || strings.Contains(stepText(p.Finish.Steps), "inish the") {
		t.Errorf("%+v", p.Finish)
	}
	inside := plan(t, Shop{BareInside: true, FinishFirst: true}, kind).Finish
	if inside.First || math.Abs(float64(inside.Painted-(inside.Total.Sanded()-inside.Total.Inside))) > 1e-6 {
		t.Errorf("bare inside: %+v", inside)
	}
	r = builtIn()
	r.Sanding.Last = r.Sanding.First
	if got := plan(t, Shop{Rates: r}, kind).Finish.Grits; len(got) != 1 {
		t.Errorf("one grit twice: %v", got)
	}
	if inside.Total.Outside != 2*areasOf(Kind{Frame: kind.Frame, Layers: 1}).Outside || unit.Area(0) != inside.Seams {
		t.Errorf("%+v", inside.Total)
	}
}

// A ring that is sawn round is sanded on what is left of it: two circles'
// walls, and the ring between the circles twice.
func TestAreasOfARingSawnRound(t *testing.T) {
	f := regular(t, 12, 10, flatFour)
	k := Kind{Name: "hoop", Frame: f, Count: 1, Layers: 2, Ring: Ring{Outside: 900, Inside: 760}}
	a := areasOf(k)
	wantNear(t, "outside", float64(a.Outside), math.Pi*900*1.5*in, 1e-6)
	wantNear(t, "inside", float64(a.Inside), math.Pi*760*1.5*in, 1e-6)
	wantNear(t, "front and back", float64(a.FrontBack), math.Pi/2*(900*900-760*760), 1e-6)
	if blanks := areasOf(Kind{Frame: f, Layers: 2}); a.Mitres != blanks.Mitres {
		t.Errorf("glued are the blanks' ends: %g and %g", a.Mitres, blanks.Mitres)
	}
	if steps := stepText(plan(t, Shop{}, k).Kinds[0].GlueUp.Steps); !strings.Contains(steps, "saw the ring round") {
		t.Errorf("nobody saws it round:\n%s", steps)
	}
}
