package making

import (
	"math"
	"testing"

	"bowerwright/frame"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// Six hexagons of six joints, twelve to a go: three goes of two frames. A go is
// 12 x 20 s of sizing, 5 min, and 12 x 50 s of coating and closing.
func TestClock(t *testing.T) {
	p := plan(t, Shop{}, Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 6})
	if len(p.Goes) != 3 {
		t.Fatalf("%+v", p.Goes)
	}
	for i, g := range p.Goes {
		start := float64(i) * 19
		if g.Number != i+1 || g.From != 2*i+1 || g.To != 2*i+2 || g.Joints != 12 {
			t.Errorf("%+v", g)
		}
		for what, x := range map[string][2]float64{
			"start": {g.Start, start}, "coat": {g.Coat, start + 9}, "close": {g.Close, start + 19}, "by": {g.By, start + 19},
			"free": {g.Free, start + 19 + 60}, "full": {g.Full, start + 19 + 24*60},
		} {
			wantNear(t, what, x[0], x[1], 1e-9)
		}
	}
}

// The second stage of two halves waits until the first holds.
func TestHalvesWait(t *testing.T) {
	p := plan(t, Shop{}, Kind{Name: "big", Frame: hexagon(t, 42, oneByFour), Count: 1})
	if len(p.Goes) != 2 || p.Goes[0].Joints != 4 || p.Goes[1].Joints != 2 || p.Goes[0].Stage != 1 || p.Goes[1].Stage != 2 || p.Goes[1].Of != 2 || p.Goes[1].Start != math.Ceil(p.Goes[0].Free) {
		t.Errorf("%+v", p.Goes)
	}
}

// Two halves are two pieces: with an open time for one of them only, the second
// is coated as soon as hands are free, and both hold before they meet.
func TestHalvesDoNotWaitForEachOther(t *testing.T) {
	r := builtIn()
	r.Glue.Open20 = 3
	p := plan(t, Shop{Rates: r}, Kind{Name: "hex", Frame: hexagon(t, 42, oneByFour), Count: 1, Method: Halves})
	if len(p.Goes) != 3 || p.Goes[1].Stage != 1 || p.Goes[1].Start != math.Ceil(p.Goes[0].Close) || p.Goes[2].Start != math.Ceil(p.Goes[1].Free) {
		t.Errorf("%+v", p.Goes)
	}
}

// One strap is one frame at a time, and the next waits for it.
func TestStrapsAreWaitedFor(t *testing.T) {
	k := Kind{Name: "flat", Frame: hexagon(t, 18, flatFour), Count: 3}
	p := plan(t, Shop{Straps: []unit.Length{6 * unit.Foot}}, k)
	if len(p.Goes) != 3 || p.Goes[1].Start != p.Goes[0].Free {
		t.Errorf("one strap: %+v", p.Goes)
	}
	p = plan(t, Shop{Straps: []unit.Length{6 * unit.Foot, 7 * unit.Foot, unit.Foot}}, k)
	if len(p.Goes) != 2 || p.Goes[0].To != 2 || p.Goes[1].Start != p.Goes[0].Free {
		t.Errorf("two straps and a short one: %+v", p.Goes)
	}
	if last := p.Goes[1].Straps; len(last) != 1 || last[0] == 2 {
		t.Errorf("one frame takes one strap that is long enough, not %v", last)
	}
	// Straps every 3 in: two go round 3 1/2 in, so that two straps hold one frame.
	r := builtIn()
	r.Glue.Pitch = 3 * in
	k = Kind{Name: "deep", Frame: hexagon(t, 18, oneByFour), Count: 2, Method: Strapped}
	p = plan(t, Shop{Rates: r, Straps: []unit.Length{6 * unit.Foot, 7 * unit.Foot}}, k)
	if len(p.Goes) != 2 || p.Kinds[0].GlueUp.Strapped != 2 || len(p.Goes[0].Straps) != 2 {
		t.Errorf("two to a frame: %+v", p.Goes)
	}
}

// Whatever is glued in whatever shop: no go is closed after its open time, hands
// are in one go at a time, no frame is touched before it holds, no strap is in
// two places, and every joint of every frame is closed once.
func TestGoes(t *testing.T) {
	shapes := []frame.Frame{hexagon(t, 18, oneByFour), hexagon(t, 42, oneByFour), hexagon(t, 18, flatFour), regular(t, 5, 12, flatFour),
		regular(t, 18, 5, oneByFour), regular(t, 24, 4, oneBySix), arch(t, oneByFour), arch(t, flatFour), house(t, oneByFour), star(t, oneByFour)}
	rapid.Check(t, func(t *rapid.T) {
		r := builtIn()
		r.Glue.Open20 = rapid.Float64Range(1, 40).Draw(t, "open")
		r.Glue.Shop = rapid.Float64Range(10, 35).Draw(t, "shop")
		s := Shop{Rates: r, People: rapid.IntRange(0, 3).Draw(t, "people")}
		for range rapid.IntRange(0, 3).Draw(t, "straps") {
			s.Straps = append(s.Straps, inches(rapid.Float64Range(40, 120).Draw(t, "strap")))
		}
		var kinds []Kind
		for i := range rapid.IntRange(1, 3).Draw(t, "kinds") {
			k := Kind{Name: string(rune('a' + i)), Frame: shapes[rapid.IntRange(0, len(shapes)-1).Draw(t, "shape")], Count: rapid.IntRange(0, 7).Draw(t, "count")}
			if rapid.Bool().Draw(t, "layers") && !k.Frame.Built.Open {
				k.Layers = 3
			}
			kinds = append(kinds, k)
		}
		p, problems, err := Make(kinds, layout.Layout{}, s)
		if err != nil {
			t.Fatal(err)
		}
		short := map[string]bool{}
		for _, x := range problems {
			if x.Code != OpenShort {
				t.Fatalf("%+v", x)
			}
			if s.People >= x.Hands || x.Need <= x.Room {
				t.Fatalf("it is short for %d people: %+v", s.People, x)
			}
			short[x.Kind] = true
		}
		checkGoes(t, p, s, short)
	})
}

func checkGoes(t *rapid.T, p Plan, s Shop, short map[string]bool) {
	glued, hands := make([]int, len(p.Kinds)), 0.0
	free, strap := map[[3]int]float64{}, map[int]float64{}
	for i, g := range p.Goes {
		switch {
		case g.Number != i+1 || g.Start < hands:
			t.Fatalf("go %d starts at %g, hands are free at %g", g.Number, g.Start, hands)
		case g.Close > g.By+1e-9:
			t.Fatalf("go %d is closed at %g, by %g", g.Number, g.Close, g.By)
		}
		for f := g.From; f <= g.To; f++ {
			if before := [3]int{g.Kind, f, g.Stage - 1}; g.Start < free[before]-1e-9 {
				t.Fatalf("frame %v is touched at %g, what it builds on holds at %g", before, g.Start, free[before])
			}
			at := [3]int{g.Kind, f, g.Stage}
			free[at] = max(free[at], g.Free)
		}
		for _, x := range g.Straps {
			if g.Start < strap[x] {
				t.Fatalf("strap %d is in two places", x)
			}
			strap[x] = g.Free
		}
		if k := p.Kinds[g.Kind].GlueUp; len(g.Straps) != k.Strapped*(g.To-g.From+1) {
			t.Fatalf("%d straps for frames %d to %d", len(g.Straps), g.From, g.To)
		}
		hands = g.Close
		glued[g.Kind] += g.Joints
	}
	for i, k := range p.Kinds {
		want := k.GlueUp.Joints * k.Count
		if k.GlueUp.Method == InLayers {
			want = k.Count * 2 * k.GlueUp.Joints
		}
		if short[k.Name] {
			want = 0
		}
		if glued[i] != want {
			t.Fatalf("kind %s: %d joints are glued of %d", k.Name, glued[i], want)
		}
	}
}
