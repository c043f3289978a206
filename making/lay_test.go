package making

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

func layOf(t testing.TB, kinds []Kind, l layout.Layout) Lay {
	t.Helper()
	p, problems, err := Make(kinds, l, Shop{})
	if err != nil || len(problems) > 0 {
		t.Fatalf("%+v, %v", problems, err)
	}
	return p.Lay
}

// Three hexagons: B is lower right of A and stands, A lies against its upper
// left, C above B against both.
func TestOrder(t *testing.T) {
	kinds, l := comb(t)
	got := layOf(t, kinds, l)
	if text, want := orderOf(l, got.Order), "B floor, A 3, C 1 2"; text != want {
		t.Errorf("order %q, want %q", text, want)
	}
	if got.Straight.From < 0 || fmt.Sprint(got.Straight.Frames) != "[1]" {
		t.Errorf("%+v", got.Straight)
	}
	wantNear(t, "straight", got.Straight.Length(), 10.375*in, 1e-3)
	if got.FromBack || len(got.Steps) == 0 || !slices.ContainsFunc(got.Steps, func(s Step) bool { return s.Do[:5] == "Clamp" }) {
		t.Errorf("%+v", got)
	}
}

// From behind left is right: the same order, the chalk mirrored, the straight
// length where it then is.
func TestBackIsAMirror(t *testing.T) {
	kinds, l := comb(t)
	front, back := layOf(t, kinds, l), layOf(t, kinds, layout.Back(l))
	if !back.FromBack || orderOf(l, front.Order) != orderOf(l, back.Order) {
		t.Errorf("order from behind: %s", orderOf(l, back.Order))
	}
	wantNear(t, "straight", back.Straight.From, l.Width-front.Straight.To, 1e-9)
	for i, c := range front.Chalk {
		for k, p := range c.Corners {
			q := back.Chalk[i].Corners[k]
			wantNear(t, "x", q.X, -p.X, 1e-9)
			wantNear(t, "y", q.Y, p.Y, 1e-9)
		}
	}
	if fmt.Sprint(front.Alike) != fmt.Sprint(back.Alike) {
		t.Errorf("alike %v, from behind %v", front.Alike, back.Alike)
	}
}

// Two arches side by side stand on four feet; a frame on its corner starts on
// the base line without the straight length.
func TestStraightOverFeet(t *testing.T) {
	a := arch(t, oneByFour)
	kinds := []Kind{{Name: "arch", Frame: a, Count: 2}}
	l := lay(t, kinds, at("A", "arch", 0, 0), at("B", "arch", a.Built.Corners.Box().Width()+200, 0))
	p, problems, err := Make(kinds, l, Shop{})
	if err != nil || len(problems) != 0 {
		t.Fatalf("%+v %v", problems, err)
	}
	if got := p.Lay.Straight; len(got.Frames) != 2 || math.Abs(got.Length()-l.Width) > 1e-3 {
		t.Errorf("%+v, width %g", got, l.Width)
	}
	if text := orderOf(l, p.Lay.Order); text != "A floor, B floor" {
		t.Errorf("order %q", text)
	}
	onCorner := []Kind{{Name: "hex", Frame: built(t, oneByFour)(frame.Regular(6, frame.Flats, inches(18), frame.OnCorner, oneByFour.Depth())), Count: 1}}
	l = lay(t, onCorner, at("A", "hex", 0, 0))
	if got := codes(t, Shop{}, l, onCorner...); got != string(NoneStands) {
		t.Errorf("on its corner: %q", got)
	}
	if p, _, _ = Make(onCorner, l, Shop{}); slices.ContainsFunc(p.Amounts, func(a Amount) bool { return a.Item == "known-straight length" }) {
		t.Error("a straight length is listed that nothing stands on")
	}
}

// What is joined by no seam is laid by the chalk plan, and said so.
func TestLaysApart(t *testing.T) {
	kinds := []Kind{{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 3}}
	l := lay(t, kinds, at("A", "hex", 0, 0), at("B", "hex", 900, 900), on("C", "hex", 6, "B", 3))
	p, problems, err := Make(kinds, l, Shop{})
	if err != nil || len(problems) != 1 || problems[0].Code != LaysApart || problems[0].Frame != "B" || problems[0].Stops() {
		t.Fatalf("%+v %v", problems, err)
	}
	if text := orderOf(l, p.Lay.Order); text != "A floor, B chalk, C 1" {
		t.Errorf("order %q", text)
	}
}

// Two that lie apart are two problems.
func TestEachApartIsNamed(t *testing.T) {
	kinds := []Kind{{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 3}}
	l := lay(t, kinds, at("A", "hex", 0, 0), at("B", "hex", 900, 900), at("C", "hex", 2000, 900))
	if got := codes(t, Shop{}, l, kinds...); got != "making-lays-apart making-lays-apart" {
		t.Errorf("%q", got)
	}
}

// Diagonals of a single hexagon that stands on a side: from lower left to upper
// right corner, twice the side, both ways.
func TestDiagonals(t *testing.T) {
	kinds := []Kind{{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}}
	got := layOf(t, kinds, lay(t, kinds, at("A", "hex", 0, 0)))
	for _, d := range got.Diagonals {
		wantNear(t, "diagonal", d.MM, 2*10.375*in, 0.05)
		wantNear(t, "by its ends", d.From.At.Dist(d.To.At), d.MM, 1e-9)
		if d.From.Corner == d.To.Corner {
			t.Errorf("%+v", d)
		}
	}
	if got.Diagonals[0].From.At.X >= got.Diagonals[0].To.At.X || got.Diagonals[1].From.At.X <= got.Diagonals[1].To.At.X || !got.EqualDiagonals() {
		t.Errorf("%+v", got.Diagonals)
	}
	lean := layOf(t, kinds, lay(t, kinds, at("A", "hex", 0, 0), on("B", "hex", 6, "A", 3)))
	if lean.EqualDiagonals() || lean.Diagonals[0].MM < lean.Diagonals[1].MM {
		t.Errorf("a piece that leans to the right: %+v", lean.Diagonals)
	}
}

// A hexagon on its side has a side that is up, one on its corner a corner: its two
// highest sides are as good as each other. Frames of a kind that stand alike have
// the same up, wherever they are.
func TestWhatIsUp(t *testing.T) {
	flat := []Kind{{Name: "it", Frame: hexagon(t, 18, oneByFour), Count: 1}}
	tip := []Kind{{Name: "it", Frame: built(t, oneByFour)(frame.Regular(6, frame.Flats, inches(18), frame.OnCorner, oneByFour.Depth())), Count: 3}}
	l := lay(t, flat, at("A", "it", 0, 0))
	if c := layOf(t, flat, l).Chalk[0]; c.Up != l.Frames[0].TopSide || c.Up != 4 || c.Top != 0 {
		t.Errorf("on its side: %+v", c)
	}
	m := maker{shop: Shop{}.withDefaults(), kinds: tip, plan: Plan{Kinds: make([]KindPlan, 1)}}
	for _, c := range m.lay(lay(t, tip, at("A", "it", 0, 0), on("B", "it", 4, "A", 1), on("C", "it", 5, "B", 2))).Chalk {
		if c.Up != 0 || c.Top != 4 {
			t.Errorf("on its corner: %+v", c)
		}
	}
}

// A gap 1/16 in wider than planned takes four pieces of 1/64, whatever it is
// planned with; up to 1/32 nothing is done.
func TestShims(t *testing.T) {
	s := Shims{Planned: in / 32, Over: in / 32, Each: in / 64}
	for gap, want := range map[float64]int{-1: 0, 0: 0, in / 32: 0, in / 16: 4, in/16 + 0.1: 4, 3 * in / 32: 6} {
		if got := s.Count(gap); got != want {
			t.Errorf("%g mm: %d pieces, want %d", gap, got, want)
		}
	}
	if (Shims{}).Count(5) != 0 {
		t.Error("shims of no thickness")
	}
	kinds, l := comb(t)
	wantNear(t, "planned", layOf(t, kinds, l).Shims.Planned, in/32, 1e-3)
	if planned(layout.Layout{}) != 0 {
		t.Error("no seams, no gap")
	}
}

// Symmetries by the book: a regular polygon has 2n, a square 8, and so on down
// to one for a shape that has none.
func TestSymmetries(t *testing.T) {
	for _, c := range []struct {
		name        string
		f           frame.Frame
		turns, over int
	}{
		{"hexagon", hexagon(t, 18, oneByFour), 6, 6},
		{"five", regular(t, 5, 12, oneByFour), 5, 5},
		{"square", regular(t, 4, 12, oneByFour), 4, 4},
		{"rectangle", built(t, oneByFour)(frame.Rectangle(inches(20), inches(12))), 2, 2},
		{"diamond", built(t, oneByFour)(frame.Diamond(inches(20), inches(30))), 2, 2},
		{"kite", built(t, oneByFour)(frame.Kite(inches(20), inches(20), inches(12))), 1, 1},
		{"long hexagon", built(t, oneByFour)(frame.LongHexagon(inches(20), inches(40), inches(20))), 2, 2},
		{"house", house(t, oneByFour), 1, 1},
		{"arch", arch(t, oneByFour), 1, 1},
		{"crooked", built(t, oneByFour)(frame.ByCorners([]geom.Point{{X: 0}, {X: 600}, {X: 520, Y: 400}, {X: 100, Y: 350}})), 1, 0},
	} {
		turns, over := 0, 0
		for i, s := range Symmetries(c.f.Built, in/32) {
			if s.Over {
				over++
			} else {
				turns++
			}
			if i == 0 && s != (Symmetry{}) {
				t.Errorf("%s: the first is not to leave it: %+v", c.name, s)
			}
			liesOnItself(t, c.name, c.f.Built, s)
		}
		if turns != c.turns || over != c.over {
			t.Errorf("%s: %d turns and %d over, want %d and %d", c.name, turns, over, c.turns, c.over)
		}
	}
}

// liesOnItself carries a symmetry out about the middle of the corners.
func liesOnItself(t testing.TB, name string, o frame.Outline, s Symmetry) {
	t.Helper()
	var mid geom.Point
	for _, c := range o.Corners {
		mid = mid.Add(c.Mul(1 / float64(len(o.Corners))))
	}
	for i, c := range o.Corners {
		q := c.Sub(mid)
		if s.Over {
			axis := geom.Point{X: 1}.Rot(float64(s.Turn))
			q = axis.Mul(2 * q.Dot(axis)).Sub(q)
		} else {
			q = q.Rot(float64(s.Turn))
		}
		if d := q.Add(mid).Dist(o.Corners[goesTo(i, s.Shift, len(o.Corners), s.Over)]); d > in/16 {
			t.Errorf("%s: by %+v corner %d comes %g mm beside its place", name, s, i+1, d)
		}
	}
}

// A mirrored house may change places with the others, since it lies on itself
// turned over; a mirrored crooked frame may not.
func TestAlikeWithMirrored(t *testing.T) {
	crooked := built(t, oneByFour)(frame.ByCorners([]geom.Point{{X: 0}, {X: 600}, {X: 520, Y: 400}, {X: 100, Y: 350}}))
	for _, c := range []struct {
		f    frame.Frame
		want string
	}{{house(t, oneByFour), "[{it [0 1 2] 2}]"}, {crooked, "[{it [0 2] 1} {it [1] 1}]"}} {
		kinds := []Kind{{Name: "it", Frame: c.f, Count: 3}}
		mirrored := at("B", "it", 1000, 0)
		mirrored.Mirror = true
		l := lay(t, kinds, at("A", "it", 0, 0), mirrored, at("C", "it", 2000, 0))
		for _, seen := range []layout.Layout{l, layout.Back(l)} {
			p, _, err := Make(kinds, seen, Shop{Rates: longStraight()})
			if got := fmt.Sprint(p.Lay.Alike); err != nil || got != c.want {
				t.Errorf("alike %s, want %s", got, c.want)
			}
		}
	}
}

func longStraight() Rates {
	r := builtIn()
	r.Laying.Straight = 40 * 12 * in
	return r
}

// Whatever is laid out: each frame once; each against one that lies, or on the
// floor, or named; every seam closes in exactly one step; what is chalked from
// two lines is the layout again; and the marks are the layout's.
func TestLayOfAnything(t *testing.T) {
	hex := hexagon(t, 18, oneByFour)
	kinds := []Kind{{Name: "hex", Frame: hex, Count: 9}}
	rapid.Check(t, func(t *rapid.T) {
		places := []layout.Place{at("F0", "hex", 0, 0)}
		for i := range rapid.IntRange(0, 8).Draw(t, "frames") {
			to := rapid.IntRange(0, i).Draw(t, "to")
			side := rapid.IntRange(1, 6).Draw(t, "side")
			places = append(places, on(fmt.Sprintf("F%d", i+1), "hex", (side+2)%6+1, fmt.Sprintf("F%d", to), side))
		}
		l, problems := layout.Build([]layout.Kind{{Name: "hex", Outside: hex.Built.Corners, Inside: hex.Inside}}, places, layout.Settings{Gap: in / 32})
		if len(problems) > 0 {
			t.Skip("frames overlap")
		}
		if rapid.Bool().Draw(t, "back") {
			l = layout.Back(l)
		}
		p, found, err := Make(kinds, l, Shop{Rates: longStraight()})
		if err != nil {
			t.Fatal(err)
		}
		apart := map[string]bool{}
		for _, x := range found {
			if x.Code == LaysApart {
				apart[x.Frame] = true
			}
		}
		laid, closed := map[int]bool{}, map[int]bool{}
		for i, s := range p.Lay.Order {
			id := l.Frames[s.Frame].ID
			if laid[s.Frame] || (len(s.Against) == 0 && !s.OnFloor && !apart[id] && i > 0) {
				t.Fatalf("%s: %+v", id, s)
			}
			laid[s.Frame] = true
			for _, n := range s.Against {
				seam := l.Seams[n-1]
				if closed[n] || !laid[seam.Sides[0].Frame] || !laid[seam.Sides[1].Frame] {
					t.Fatalf("seam %d at %s", n, id)
				}
				closed[n] = true
			}
			c := p.Lay.Chalk[i]
			f := l.Frames[s.Frame]
			if c.Number != f.Number || (c.Up == 0) == (c.Top == 0) || c.Up != 0 && c.Up != f.TopSide || len(c.Corners) != len(f.Outside) {
				t.Fatalf("%+v", c)
			}
			for k, q := range c.Corners {
				if (geom.Point{X: q.X + l.Width/2, Y: q.Y}).Dist(f.Outside[k]) > 1e-9 {
					t.Fatalf("%s corner %d is chalked at %v", id, k+1, q)
				}
			}
		}
		if len(laid) != len(l.Frames) || len(closed) != len(l.Seams) {
			t.Fatalf("%d of %d frames, %d of %d seams", len(laid), len(l.Frames), len(closed), len(l.Seams))
		}
	})
}

func TestSameEveryTime(t *testing.T) {
	kinds, l := comb(t)
	kinds[0].Corner = Splines
	first := fmt.Sprintf("%+v", must(Make(kinds, l, Shop{FinishFirst: true})))
	for range 5 {
		if again := fmt.Sprintf("%+v", must(Make(kinds, l, Shop{FinishFirst: true}))); again != first {
			t.Fatal("the plan differs when made again")
		}
	}
}

func must(p Plan, _ []Problem, err error) Plan {
	if err != nil {
		panic(err)
	}
	for i := range p.Kinds {
		p.Kinds[i].GlueUp.Truing = nil // a pointer prints as an address
	}
	return p
}

func BenchmarkMake(b *testing.B) {
	hex := hexagon(b, 18, oneByFour)
	kinds := []Kind{{Name: "hex", Frame: hex, Count: 2000}}
	places := []layout.Place{at("0", "hex", 0, 0)}
	for i := 1; i < 2000; i++ {
		to, side := i-1, 2+i%2
		if i%40 == 0 {
			to, side = i-40, 4
		}
		places = append(places, on(fmt.Sprint(i), "hex", (side+2)%6+1, fmt.Sprint(to), side))
	}
	l, _ := layout.Build([]layout.Kind{{Name: "hex", Outside: hex.Built.Corners, Inside: hex.Inside}}, places, layout.Settings{Gap: in / 32})
	b.Logf("%d frames, %d seams", len(l.Frames), len(l.Seams))
	for b.Loop() {
		if _, _, err := Make(kinds, l, Shop{Rates: longStraight(), Straps: []unit.Length{unit.Metre}}); err != nil {
			b.Fatal(err)
		}
	}
}

// A frame with one good face, or with blocks or plates at its back, is turned
// but never turned over.
func TestNotTurnedOver(t *testing.T) {
	hex := Kind{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 1}
	for name, c := range map[string]struct {
		change func(*Kind)
		ways   int
	}{
		"glue": {func(*Kind) {}, 12}, "one good face": {func(k *Kind) { k.OneFace = true }, 6},
		"blocks": {func(k *Kind) { k.Corner = Blocks }, 6}, "brads": {func(k *Kind) { k.Corner = Brads }, 12},
	} {
		k := hex
		c.change(&k)
		if got := len(plan(t, Shop{}, k).Kinds[0].Alike); got != c.ways {
			t.Errorf("%s: %d ways, want %d", name, got, c.ways)
		}
	}
}
