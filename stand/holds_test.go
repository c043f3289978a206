package stand

import (
	"math"
	"testing"

	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

type point = geom.Point

func points(xy ...float64) []geom.Point {
	var out []geom.Point
	for i := 0; i < len(xy); i += 2 {
		out = append(out, geom.Point{X: xy[i], Y: xy[i+1]})
	}
	return out
}

// two boxes side by side, 600 wide and 1800 high: the sides at the seam are not
// free, the long ones take two people each.
func TestHolders(t *testing.T) {
	l, problems := layout.Build([]layout.Kind{{Name: "b", Outside: base.Rectangle(0, 0, 600, 1800), Inside: base.Rectangle(40, 40, 520, 1720)}},
		[]layout.Place{{ID: "A", Kind: "b", At: &geom.Point{}}, {ID: "B", Kind: "b", At: &geom.Point{X: 600}}}, layout.Settings{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	holders := rules().Lift.Holders(l)
	count := map[[2]int]int{}
	for _, h := range holders {
		count[[2]int{h.Frame, h.Side}]++
		if d := h.Hands[0].Dist(h.Hands[1]); d > 30*inch+1e-6 {
			t.Errorf("%+v: hands %g apart", h, d)
		}
		from, to, _ := l.Frames[h.Frame].Side(h.Side)
		if (geom.Segment{A: from, B: to}).PointDist(h.Hands[0]) > 1e-6 {
			t.Errorf("%+v holds beside its side", h)
		}
	}
	if len(holders) != 8 || count[[2]int{0, 2}] != 0 || count[[2]int{1, 4}] != 0 || count[[2]int{0, 4}] != 2 || count[[2]int{1, 1}] != 1 {
		t.Errorf("holders %v", count)
	}
}

// ringHolders are people round a circle, each with both hands together as far
// apart as given.
func ringHolders(n int, radius, apart float64) []Holder {
	out := make([]Holder, n)
	for i := range out {
		at := geom.Point{X: radius}.Rot(2 * math.Pi * float64(i) / float64(n))
		side := at.Unit().Perp().Mul(apart / 2)
		out[i] = Holder{Frame: i, Side: 1, Hands: [2]geom.Point{at.Sub(side), at.Add(side)}}
	}
	return out
}

// Round a hexagon two carry best from opposite sides, half each, and worst from
// places that hardly hold the middle.
func TestBestAndWorstGrip(t *testing.T) {
	l := rules().Lift
	g := l.CarryFlat(ringHolders(6, 500, 400), 2, geom.Point{X: 20}, 20, 1000)
	if !g.Found || g.Tried != 15 {
		t.Fatalf("%+v", g)
	}
	a, b := g.Best.Holders[0].Frame, g.Best.Holders[1].Frame
	if (b-a+6)%6 != 3 {
		t.Errorf("best from %d and %d", a, b)
	}
	want(t, "all of it", float64(g.Best.People[0]+g.Best.People[1]), 20, 1e-6)
	most := math.Max(float64(g.Best.People[0]), float64(g.Best.People[1]))
	want(t, "ratio", g.Best.Ratio, most/(float64(l.Alone(l.Carry))*2/3), 1e-5)
	if g.Worst.Ratio < g.Best.Ratio || most < 10 {
		t.Errorf("best %+v, worst %+v", g.Best, g.Worst)
	}
	if g := l.CarryFlat(ringHolders(6, 500, 100), 1, geom.Point{}, 20, 1000); g.Found {
		t.Errorf("one alone carries it from its rim: %+v", g.Best)
	}
	if g := l.CarryFlat(nil, 2, geom.Point{}, 20, 1000); g.Found || g.Tried != 0 {
		t.Errorf("without places: %+v", g)
	}
	if g := l.CarryFlat(ringHolders(6, 500, 100), 0, geom.Point{}, 20, 1000); g.Found {
		t.Errorf("nobody carries it: %+v", g)
	}
}

// The choices looked at are all of them, or those of an even thinning within the
// budget.
func TestChoicesKeepTheBudget(t *testing.T) {
	l := rules().Lift
	g := l.CarryFlat(ringHolders(40, 800, 300), 4, geom.Point{}, 60, 5000)
	if !g.Found || g.Tried > 5000 || g.Tried < 3000 {
		t.Errorf("tried %d, found %v", g.Tried, g.Found)
	}
	for _, m := range g.Best.People {
		want(t, "a quarter each", float64(m), 15, 1)
	}
	for n := range 7 {
		for k := 1; k <= n; k++ {
			count := 0
			choose(n, k, func([]int) { count++ })
			if float64(count) != choices(n, k) {
				t.Errorf("%d of %d: %d choices, want %g", k, n, count, choices(n, k))
			}
		}
	}
}

// No choice beats the best or is worse than the worst.
func TestBestIsBest(t *testing.T) {
	l := rules().Lift
	rapid.Check(t, func(t *rapid.T) {
		holders := ringHolders(rapid.IntRange(3, 8).Draw(t, "places"), 700, 350)
		middle := geom.Point{X: rapid.Float64Range(-200, 200).Draw(t, "x"), Y: rapid.Float64Range(-200, 200).Draw(t, "y")}
		g := l.CarryFlat(holders, 3, middle, 30, 10000)
		choose(len(holders), 3, func(pick []int) {
			grip, ok := l.grip(holders, pick, middle, 30)
			if ok && (!g.Found || grip.Ratio < g.Best.Ratio*(1-1e-5) || grip.Ratio > g.Worst.Ratio*(1+1e-5)) {
				t.Fatalf("%v: %g, best %g, worst %g", pick, grip.Ratio, g.Best.Ratio, g.Worst.Ratio)
			}
		})
	})
}

// Closed forms of a piece tilted up: at the floor W d/L; with the hands at the
// height they reach, W (sqrt(d2 + t2) - t)/2h at the worst.
func TestTiltClosedForms(t *testing.T) {
	l := rules().Lift
	w := float64(Weigh(30))
	short := l.Tilt(Rise{Mass: 30, Middle: 700, Off: 45, Hold: 1400})
	want(t, "short, at the floor", float64(short.Peak.Force), w*700/1400, 1e-9)
	want(t, "and its height", short.Peak.Height, 0, 1e-9)
	want(t, "balance", float64(short.Balance), math.Atan2(700, 45), 1e-12)
	long := l.Tilt(Rise{Mass: 30, Middle: 2000, Off: 45, Hold: 4000})
	up := 66 * inch
	want(t, "long, hands walking down", float64(long.Peak.Force), w*(math.Hypot(2000, 45)-45)/2/up, 1e-6)
	want(t, "at the height of the hands", long.Peak.Height, up, 1e-9)
	if got := long.Peak.Angle.Degrees(); math.Abs(got-math.Atan2(2000, 45)/2*180/math.Pi) > 1e-6 {
		t.Errorf("peak at %g degrees", got)
	}
	if long.Balance < unit.FromDegrees(88) || short.Balance >= unit.FromDegrees(90) {
		t.Errorf("balances %v, %v", long.Balance, short.Balance)
	}
}

// The steps hold moment about the heel, the peak is the most of a fine walk, and
// nothing but the weight's own share stands on the heel.
func TestTiltAgainstAWalk(t *testing.T) {
	l := rules().Lift
	rapid.Check(t, func(t *rapid.T) {
		r := Rise{Mass: unit.Mass(rapid.Float64Range(2, 80).Draw(t, "mass")), Hold: rapid.Float64Range(600, 5000).Draw(t, "hold")}
		r.Middle = r.Hold * rapid.Float64Range(0.2, 0.8).Draw(t, "middle")
		r.Off = rapid.Float64Range(0, 100).Draw(t, "off")
		got := l.Tilt(r)
		w := float64(r.Mass) * 9.80665
		most, grip := 0.0, 0.0
		for i := range 9001 {
			a := math.Pi / 2 * float64(i) / 9000
			at := r.Hold
			if at*math.Sin(a) > l.Up {
				at = l.Up / math.Sin(a)
			}
			f := math.Max(0, w*(r.Middle*math.Cos(a)-r.Off*math.Sin(a))/at)
			most = math.Max(most, f)
			grip = math.Max(grip, f*math.Sin(a)/(w-f*math.Cos(a)))
		}
		if p := float64(got.Peak.Force); p < most*(1-1e-9) || p > most*(1+1e-4) {
			t.Fatalf("peak %g, walking %g", p, most)
		}
		if got.Grip > grip*(1+1e-9) || got.Grip < grip*0.99 {
			t.Fatalf("grip %g, walking %g", got.Grip, grip)
		}
		last := -1.0
		for _, s := range got.Steps {
			if float64(s.Angle) <= last || s.Height > l.Up+1e-9 || s.At > r.Hold+1e-9 {
				t.Fatalf("step %+v", s)
			}
			last = float64(s.Angle)
			if n := s.People; n > 0 && Mass(s.Force) > l.Team(n, s.Height)*(1+1e-9) || n > 1 && Mass(s.Force) <= l.Team(n-1, s.Height) {
				t.Fatalf("%d people at %+v", n, s)
			}
			if got.People != 0 && (s.People == 0 || s.People > got.People) {
				t.Fatalf("%d people in all, at %+v", got.People, s)
			}
		}
		if r.Hold > l.Up {
			walk := math.Asin(l.Up / r.Hold)
			found := false
			for _, s := range got.Steps {
				found = found || math.Abs(float64(s.Angle)-walk) < 1e-9
			}
			if !found {
				t.Fatalf("no step where the hands begin to walk down, at %g", walk)
			}
		}
		if n := len(got.Steps); n < 10 || n > 11 || got.Steps[0].Angle != 0 {
			t.Fatalf("%d steps", n)
		}
	})
}

// Turned over, a piece goes up about one edge of its thickness and comes down
// about the other.
func TestTurnedOver(t *testing.T) {
	l := rules().Lift
	up, down := l.Turned(Rise{Mass: 20, Middle: 600, Off: 30, Hold: 1200}, 90)
	want(t, "up", float64(up.Balance), math.Atan2(600, 30), 1e-12)
	want(t, "down", float64(down.Balance), math.Atan2(600, 60), 1e-12)
	want(t, "alike at the floor", float64(up.Peak.Force), float64(down.Peak.Force), 1e-9)
}

// Case 16: a wall 2.30 m high on a base 0.45 m deep needs 2.344 m to be tilted
// up.
func TestSwing(t *testing.T) {
	want(t, "swing", Swing(2300, 450), 2344, 0.5)
}
