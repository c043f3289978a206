package stand

import (
	"math"
	"testing"

	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// spotsAt are places for stacks of up to most units.
func spotsAt(most int, xy ...float64) []base.Spot {
	var out []base.Spot
	for i := 0; i < len(xy); i += 2 {
		out = append(out, base.Spot{At: geom.Point{X: xy[i], Y: xy[i+1]}, Most: most})
	}
	return out
}

func bag(kg float64, owned int) base.Unit {
	return base.Unit{Name: "bag", Mass: unit.Mass(kg), Height: 100, Owned: owned}
}

// By hand: a pane of 10 kg in the middle of a plate 2 x 1 m, 20 lb at 60 in,
// friction 1: tipping alone asks for ballast. One edge needs (1.5 x 20 lb x 60 in
// - 0.9 W 500)/e: bags in front hold the back edge and bags behind the front
// one, so both sides want as many.
func TestBallastStandsOnBothSides(t *testing.T) {
	s := on(t, rules(), pane(2000, 2000, 1, 0, 10), 1, Loads{Push: true}, slab(0, -500, 2000, 1000))
	m := s.Missing()
	lacks := 1.5*float64(PoundsForce(20))*60*inch - 0.9*10*9.80665*500
	for _, e := range m.Edges {
		if e.Edge.Vec().Y == 0 {
			want(t, "missing", e.Moment, lacks, 1e-6)
		}
	}
	front, back := m.Heap(geom.Point{X: 1000, Y: -400}), m.Heap(geom.Point{X: 1000, Y: 400})
	want(t, "in front", float64(front.Mass()), lacks/100/9.80665, 1e-9)
	want(t, "behind", float64(back.Mass()), float64(front.Mass()), 1e-6)
	if front.Over.A.Y != -500 || back.Over.A.Y != 500 {
		t.Errorf("over %v and %v", front.Over, back.Over)
	}
	want(t, "in the middle", float64(m.Heap(geom.Point{X: 1000}).Mass()), lacks/500/9.80665, 1e-6)
	if !math.IsInf(float64(m.Heap(geom.Point{X: 1000, Y: 500}).Tip), 1) {
		t.Error("on the edge it holds that edge")
	}
	plan := m.Fewest([]Store{{bag(6, 12), spotsAt(3, 1000, -400, 1000, 400, 200, -400, 200, 400)}}, 0, 1e6)
	each := math.Ceil(lacks / 1000 / 9.80665 / 6) // a pair of bags has levers of 900 and 100
	if !plan.Enough || !plan.Fewest || plan.Units != int(2*each) {
		t.Fatalf("plan %+v, want %g on each side", plan, each)
	}
	sides := map[bool]int{}
	for _, k := range plan.Stacks {
		sides[k.Spot.At.Y < 0] += k.Count
	}
	if sides[true] != sides[false] {
		t.Errorf("sides %v", sides)
	}
}

func drawStores(t *rapid.T, hull geom.Polygon) []Store {
	var stores []Store
	for range rapid.IntRange(1, 2).Draw(t, "stores") {
		var spots []base.Spot
		for range rapid.IntRange(1, 3).Draw(t, "spots") {
			i := rapid.IntRange(0, len(hull)-1).Draw(t, "corner")
			at := hull.Centroid().Lerp(hull[i], rapid.Float64Range(0, 0.95).Draw(t, "out"))
			spots = append(spots, base.Spot{At: at, Most: rapid.IntRange(1, 3).Draw(t, "stack")})
		}
		stores = append(stores, Store{bag(rapid.Float64Range(2, 30).Draw(t, "kg"), rapid.IntRange(0, 4).Draw(t, "owned")), spots})
	}
	return stores
}

// bruteFewest tries every way of putting bags down and checks each by the
// findings; -1 when none is enough.
func bruteFewest(s Setup, stores []Store) int {
	type place struct{ store, spot int }
	var places []place
	for i, st := range stores {
		for j := range st.Spots {
			places = append(places, place{i, j})
		}
	}
	best := -1
	var walk func(i, used int, left []int, p Plan)
	walk = func(i, used int, left []int, p Plan) {
		if best >= 0 && used >= best {
			return
		}
		if i == len(places) {
			for _, f := range s.With(p).Check() {
				if f.Worst.Ratio > 1+1e-9 {
					return
				}
			}
			best = used
			return
		}
		st := stores[places[i].store]
		spot := st.Spots[places[i].spot]
		taken, room := 0, 0 // at this very place, by any store
		for _, k := range p.Stacks {
			if k.Spot.At == spot.At {
				taken += k.Count
			}
		}
		for _, o := range places {
			if at := stores[o.store].Spots[o.spot]; at.At == spot.At {
				room = max(room, at.Most)
			}
		}
		for n := 0; n <= min(spot.Most, left[places[i].store], room-taken); n++ {
			rest := append([]int(nil), left...)
			rest[places[i].store] -= n
			next := p
			next.Stacks = append(append([]Stack(nil), p.Stacks...), Stack{st.Unit, spot, n})
			walk(i+1, used+n, rest, next)
		}
	}
	var owned []int
	for _, st := range stores {
		owned = append(owned, st.Unit.Owned)
	}
	walk(0, 0, owned, Plan{})
	return best
}

// The fewest units are as few as trying everything finds, and they do. On a hard
// floor, where the height of a bag does not matter.
func TestFewestAgainstTryingEverything(t *testing.T) {
	done := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t, Loads{Push: true, Gusts: []Speed{Speed(rapid.Float64Range(2, 12).Draw(t, "gust"))}})
		s.Floor.Soft, s.Floor.Slope = false, 0
		stores := drawStores(t, s.Stance.Hull)
		plan := s.Missing().Fewest(stores, s.Stance.Lift, 1e6)
		brute := bruteFewest(s, stores)
		done[plan.Enough && plan.Units > 0]++
		if plan.Enough != (brute >= 0) || plan.Enough && plan.Units != brute || !plan.Fewest {
			t.Fatalf("plan %+v, by trying everything %d", plan, brute)
		}
	})
	if !testing.Short() && (done[true] < 5 || done[false] < 5) {
		t.Errorf("plans with bags that do, and without: %v", done)
	}
}

// On any floor a plan that is enough leaves nothing over.
func TestAPlanHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSetup(t, Loads{Hall: true, Push: true})
		hull := s.Stance.Hull
		var spots []base.Spot
		for i := range hull {
			spots = append(spots, base.Spot{At: hull.Centroid().Lerp(hull[i], 0.7), Most: 4})
		}
		plan := s.Missing().Fewest([]Store{{bag(20, 30), spots}}, s.Stance.Lift, 20000)
		if !plan.Enough {
			return
		}
		total := 0
		for _, k := range plan.Stacks {
			if k.Count > k.Spot.Most {
				t.Fatalf("%d on each other", k.Count)
			}
			total += k.Count
		}
		if total != plan.Units || math.Abs(float64(plan.Mass)-20*float64(total)) > 1e-9 {
			t.Fatalf("%+v", plan)
		}
		for _, f := range s.With(plan).Check() {
			if f.Worst.Ratio > 1+1e-8 {
				t.Fatalf("%v: %+v with %+v", f.Load, f.Worst, plan)
			}
		}
	})
}

func TestNothingIsMissing(t *testing.T) {
	s := on(t, rules(), pane(1000, 1000, 1, 0, 200), 0.8, Loads{Push: true}, slab(0, -500, 1000, 1000))
	m := s.Missing()
	if !m.Nothing() {
		t.Errorf("missing %+v", m)
	}
	if p := m.Fewest(nil, 0, 10); !p.Enough || p.Units != 0 {
		t.Errorf("plan %+v", p)
	}
	if h := m.Heap(geom.Point{}); h.Mass() != 0 {
		t.Errorf("heap %+v", h)
	}
}

// Too little owned, or a floor without friction: not enough, and said so.
func TestNotEnough(t *testing.T) {
	s := on(t, rules(), pane(1000, 2000, 1, 0, 5), 0.3, Loads{Push: true}, slab(0, -300, 1000, 600))
	p := s.Missing().Fewest([]Store{{bag(5, 2), spotsAt(2, 500, 200)}}, 0, 1e6)
	if p.Enough || p.Units != 2 {
		t.Errorf("plan %+v", p)
	}
	s.Floor.Friction = 0
	if h := s.Missing().Heap(geom.Point{X: 500}); !math.IsInf(float64(h.Slide), 1) {
		t.Errorf("on ice %v", h)
	}
	p = s.Missing().Fewest([]Store{{bag(50, 20), spotsAt(20, 500, 0)}}, 0, 1000)
	if p.Enough {
		t.Errorf("on ice %+v", p)
	}
}

// A spent budget gives the plan found first and does not call it the fewest.
func TestBudgetOfBallast(t *testing.T) {
	s := on(t, rules(), pane(2000, 2000, 1, 0, 10), 1, Loads{Push: true}, slab(0, -500, 2000, 1000))
	stores := []Store{{bag(6, 12), spotsAt(3, 1000, -400, 1000, 400, 200, -400, 200, 400)}}
	p := s.Missing().Fewest(stores, 0, 1)
	if !p.Enough || p.Fewest || p.Units == 0 {
		t.Errorf("plan %+v", p)
	}
}

func TestWidthOfAPieceThatNoBaseHolds(t *testing.T) {
	s := on(t, rules(), pane(1000, 2000, 1, 0, 0), 0.3, Loads{Push: true}, slab(0, -300, 1000, 600))
	w := s.Width()
	if !math.IsInf(w.Scale, 1) || w.Hull != nil || !w.Slide {
		t.Errorf("a piece without weight: %+v", w)
	}
}

// Bags alone, irons alone and both at shared places: the fewest units win, and a
// place that both may take holds no more than one stack.
func TestBestOfSeveralKinds(t *testing.T) {
	s := on(t, rules(), pane(2000, 2000, 1, 0, 10), 1, Loads{Push: true}, slab(0, -700, 2000, 1400))
	room := base.Room{Gap: 20, Stack: 2, InFront: true}
	small := base.Unit{Name: "bag", Mass: 6, Length: 400, Width: 250, Height: 100, Owned: 20}
	iron := base.Unit{Name: "iron", Mass: 10, Length: 250, Width: 250, Height: 60, Owned: 1}
	m := s.Missing()
	alone := m.Best(s.Stance, []base.Unit{small}, room, 1e5)
	both := m.Best(s.Stance, []base.Unit{small, iron}, room, 1e5)
	if !alone.Enough || !both.Enough || both.Units > alone.Units || alone.Units == 0 {
		t.Errorf("bags %+v, both %+v", alone, both)
	}
	for _, f := range s.With(both).Check() {
		if f.Worst.Ratio > 1+1e-9 {
			t.Errorf("%+v", f.Worst)
		}
	}
	if p := m.Best(s.Stance, nil, room, 100); p.Enough {
		t.Errorf("without units %+v", p)
	}
	shared := spotsAt(2, 1000, -600)
	one := m.Fewest([]Store{{bag(1, 9), shared}, {bag(2, 9), shared}}, 0, 1e5)
	if one.Units > 2 || one.Enough {
		t.Errorf("two stacks in one place: %+v", one)
	}
}

// A plate 2 x 1 m is wide enough: only its depth has to grow, to where
// 0.9 W e = 1.5 F h.
func TestDeepEnough(t *testing.T) {
	s := on(t, rules(), pane(2000, 2000, 1, 0, 30), 1, Loads{Push: true}, slab(0, -500, 2000, 1000))
	e := 1.5 * float64(PoundsForce(20)) * 60 * inch / (0.9 * 30 * 9.80665)
	w := s.Width()
	want(t, "deep", w.Deep*500, e, 0.06)
	if w.Slide || w.Scale < w.Deep-1e-4 {
		t.Errorf("%+v", w)
	}
	narrow := on(t, rules(), pane(2000, 2000, 1, 0, 30), 1, Loads{Push: true}, slab(900, -500, 200, 1000)).Width()
	if !math.IsInf(narrow.Deep, 1) || math.IsInf(narrow.Scale, 1) {
		t.Errorf("a narrow one: %+v", narrow)
	}
}

// What hangs far in front pulls the piece over without any load: ballast behind
// holds it.
func TestItStandsByItself(t *testing.T) {
	s := on(t, rules(), pane(1000, 2000, 1, -500, 10), 0.5, Loads{}, slab(0, -400, 1000, 800))
	m := s.Missing()
	h := m.Heap(geom.Point{X: 500, Y: 300})
	want(t, "behind", float64(h.Mass()), 1.1*10*100/700, 1e-9)
	if m.Nothing() || h.Over.A.Y != -400 {
		t.Errorf("%+v", h)
	}
}

// Which plan is preferred: one that is enough, then fewer units, then less mass;
// of two that are not enough the heavier.
func TestWhichPlanComesFirst(t *testing.T) {
	plan := func(enough bool, units int, kg unit.Mass) Plan { return Plan{Enough: enough, Units: units, Mass: kg} }
	for _, c := range []struct{ first, second Plan }{
		{plan(true, 9, 90), plan(false, 1, 5)}, {plan(true, 2, 40), plan(true, 3, 30)}, {plan(true, 2, 30), plan(true, 2, 40)},
		{plan(false, 1, 30), plan(false, 3, 20)},
	} {
		if !c.first.before(c.second) || c.second.before(c.first) {
			t.Errorf("%+v and %+v", c.first, c.second)
		}
	}
}
