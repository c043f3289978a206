package statics

import (
	"context"
	"math"
	"reflect"
	"slices"
	"testing"
)

// look prepares a model and solves a case that may have no figures.
func look(t *testing.T, m *Model, c Case) (*Prepared, *Result) {
	t.Helper()
	p, err := Prepare(context.Background(), m, Limits{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := p.Solve(context.Background(), c)
	if err != nil {
		t.Fatal(err)
	}
	return p, r
}

func expect(t *testing.T, what string, got, want []string) {
	t.Helper()
	if !slices.Equal(got, want) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// TestFrameCutLoose: the screws between one frame and its neighbours are left
// out, with and without boards that still touch.
func TestFrameCutLoose(t *testing.T) {
	for _, touching := range []bool{false, true} {
		w := newCluster(acrossFlats, handPine(), flower(acrossFlats), func(seam string) seamKind {
			if seam == "1-5" || seam == "4-5" || seam == "5-6" {
				return seamKind{open: !touching}
			}
			return twoScrews
		})
		w.holdBottom(w.cells[1])
		p, r := look(t, &w.Model, w.pushed(20))
		unheld, err := p.Unheld(Case{})
		if err != nil {
			t.Fatal(err)
		}
		expect(t, "unheld", unheld, []string{"frame 5"})
		if r.Outcome != Loose || r.Members != nil || r.Moves != nil {
			t.Fatalf("outcome %v, with figures: %v", r.Outcome, r.Members != nil)
		}
		expect(t, "moving", r.Loose.Groups, []string{"frame 5"})
		if !r.Loose.Pushed {
			t.Error("the load pushes it")
		}
		if got := w.nodes[r.Loose.At].group; got != "frame 5" {
			t.Errorf("the free node is of %s", got)
		}
		if p.Mechanism() == nil {
			t.Error("loose before any load")
		}
	}
}

// TestSingleScrewStack: two frames one on the other by one screw turn about it.
func TestSingleScrewStack(t *testing.T) {
	w := newCluster(acrossFlats, handPine(), []Vec{{}, {0, acrossFlats}}, same(seamKind{screws: [][2]float64{{0, 0}}}))
	w.holdBottom(w.cells[0])
	p, r := look(t, &w.Model, Case{Gravity: Vec{0, -1}, Nodal: w.cells[1].topLoad(Vec{0, 0, 5})})
	expect(t, "pivots", p.Pivots(), []string{"1-2"})
	if unheld, _ := p.Unheld(Case{}); unheld != nil {
		t.Errorf("a screw holds it, if badly: %v", unheld)
	}
	if r.Outcome != Loose {
		t.Fatalf("outcome %v", r.Outcome)
	}
	expect(t, "moving", r.Loose.Groups, []string{"frame 2"})
	expect(t, "seams", r.Loose.Seams, []string{"1-2"})
	if r.Loose.Pushed {
		t.Error("a push in line with the screw does not turn it")
	}
	// The picture is a turn of the upper frame about the screw, its corners at
	// the ends of its middle furthest out.
	turn := r.Loose.Picture[w.cells[1].side[1]].Turn
	if math.Abs(turn[0]) > 1e-9 || math.Abs(turn[2]) > 1e-9 || turn[1] == 0 {
		t.Errorf("turns about %v", turn)
	}
	for k, n := range w.cells[1].corner {
		want := Motion{Turn: turn}.at(w.At(n).Sub(Vec{0, acrossFlats / 2}))
		if d := r.Loose.Picture[n].Shift.Sub(want).Len(); d > 1e-9 {
			t.Errorf("corner %d is off by %v", k, d)
		}
	}
	near(t, "greatest shift", r.Loose.Picture[w.cells[1].corner[0]].Shift.Len(), 1, 1e-9)
	// A twist of the load does drive it.
	c := Case{Nodal: []Nodal{{Node: w.cells[1].side[1], Load: Load{Moment: Vec{0, 3}}}}}
	if r, err := p.Solve(context.Background(), c); err != nil || r.Outcome != Loose || !r.Loose.Pushed {
		t.Errorf("%+v, %v", r, err)
	}
}

// TestOneScrewInACluster: neighbours hold what one screw does not.
func TestOneScrewInACluster(t *testing.T) {
	w := flowerWall(1, seamKind{screws: [][2]float64{{0, 0}}})
	p, r := look(t, &w.Model, w.pushed(5))
	if r.Outcome != Settled || len(p.Pivots()) != len(w.seams) || p.Mechanism() != nil {
		t.Errorf("outcome %v, %d pivots of %d seams", r.Outcome, len(p.Pivots()), len(w.seams))
	}
}

// TestPivotHeldByBracket: a spring that resists turning is no pivot.
func TestPivotHeldByBracket(t *testing.T) {
	var m Model
	a, b := m.Node(Vec{}, "base"), m.Node(Vec{0, 0, 10}, "post")
	m.Hold(a, HoldAll)
	m.Spring(Spring{A: a, B: b, Axis: Vec{0, 0, 1}, Along: 10, Across: 10, Turn: 5, Rock: 7, Seam: "foot"})
	p, r := look(t, &m, Case{Nodal: []Nodal{{Node: b, Load: Load{Vec{1}, Vec{2, 3, 4}}}}})
	if r.Outcome != Settled || len(p.Pivots()) != 0 {
		t.Fatalf("outcome %v, pivots %v", r.Outcome, p.Pivots())
	}
	// By hand: the spring acts at the origin, 10 below b. Rock about y carries
	// 3 and the lever of the force, 10 × 1; about x 2; turn about z 4.
	f := r.Springs[0]
	near(t, "across", f.Across[0], 1, 1e-12)
	near(t, "rock about y", f.Rock[1], 13, 1e-12)
	near(t, "rock about x", f.Rock[0], 2, 1e-12)
	near(t, "turn", f.Turn, 4, 1e-12)
	near(t, "shift", r.Moves[b].Shift[0], 1.0/10+13.0/7*10, 1e-12)
	near(t, "moment on the base", r.Reactions[a].Moment[1], -13, 1e-12)
}

// TestHinge: a portal whose four corners are all hinges sways.
func TestHinge(t *testing.T) {
	var m Model
	at := []Vec{{}, {0, 48}, {36, 48}, {36, 0}}
	var ends []Node
	for i := range 3 {
		group := []string{"left post", "beam", "right post"}[i]
		a, b := m.Node(at[i], group), m.Node(at[i+1], group)
		m.Member(Member{A: a, B: b, Depth: Vec{0, 0, 1}, Section: board})
		ends = append(ends, a, b)
	}
	hinge := func(a, b Node, seam string) {
		m.Spring(Spring{A: a, B: b, At: m.At(b), Axis: Vec{0, 0, 1}, Along: 1e5, Across: 1e5, Turn: 0, Rock: 1e6, Seam: seam})
	}
	hinge(Ground, ends[0], "left foot")
	hinge(ends[1], ends[2], "left knee")
	hinge(ends[3], ends[4], "right knee")
	hinge(Ground, ends[5], "right foot")
	_, r := look(t, &m, Case{Nodal: []Nodal{{Node: ends[1], Load: Load{Force: Vec{1}}}}})
	if r.Outcome != Loose || !r.Loose.Pushed {
		t.Fatalf("outcome %v", r.Outcome)
	}
	expect(t, "moving", r.Loose.Groups, []string{"beam", "left post", "right post"})
	expect(t, "seams", r.Loose.Seams, []string{"left foot", "left knee", "right foot", "right knee"})
	near(t, "sway of the beam's two ends", r.Loose.Picture[ends[2]].Shift[0], r.Loose.Picture[ends[3]].Shift[0], 1e-9)
}

// TestTurnAlone: a node that can only turn is pictured by its turn.
func TestTurnAlone(t *testing.T) {
	var m Model
	a := m.Node(Vec{}, "knob")
	m.Spring(Spring{A: Ground, B: a, Axis: Vec{0, 0, 1}, Along: 1, Across: 1, Rock: 1})
	_, r := look(t, &m, Case{})
	if r.Outcome != Loose || r.Loose.Unknown != 5 || math.Abs(r.Loose.Picture[a].Turn[2]) != 1 {
		t.Errorf("outcome %v, %+v", r.Outcome, r.Loose)
	}
}

// TestRestsOnTheGround: a frame on contacts alone stands under its weight, does
// not when lifted, and slides or not as it is held along the ground.
func TestRestsOnTheGround(t *testing.T) {
	build := func(grip float64) (*Model, []Node) {
		m, corners, _ := ring(6, 10, 0, handPine())
		for _, n := range corners {
			m.Contact(Contact{A: Ground, B: n, At: m.At(n), Axis: Vec{0, 0, 1}, Stiff: 1e4})
			if grip > 0 {
				m.Spring(Spring{A: Ground, B: n, At: m.At(n), Axis: Vec{0, 0, 1}, Across: grip})
			}
		}
		return m, corners
	}
	t.Run("stands", func(t *testing.T) {
		m, corners := build(10)
		_, r := look(t, m, Case{Gravity: Vec{0, 0, -1}})
		if r.Outcome != Settled {
			t.Fatalf("outcome %v", r.Outcome)
		}
		push := 0.0
		for _, c := range r.Contacts {
			push += c.Push
		}
		near(t, "ground", push, 6*10*0.0147*2.625, 1e-9)
		// A pull up at one corner, of less than the weight, tips it.
		r2 := solve(t, m, Case{Gravity: Vec{0, 0, -1}, Nodal: []Nodal{{Node: corners[0], Load: Load{Force: Vec{0, 0, 0.9}}}}})
		if r2.Contacts[0].Gap <= 0 || r2.Contacts[3].Push <= 0 {
			t.Errorf("contacts %+v", r2.Contacts)
		}
	})
	t.Run("lifted", func(t *testing.T) {
		m, _ := build(10)
		_, r := look(t, m, Case{Gravity: Vec{0, 0, 1}})
		if r.Outcome != Loose || !r.Loose.Pushed {
			t.Errorf("outcome %v", r.Outcome)
		}
	})
	t.Run("slides", func(t *testing.T) {
		m, _ := build(0)
		_, r := look(t, m, Case{Gravity: Vec{0, 0, -1}})
		if r.Outcome != Loose || r.Loose.Pushed {
			t.Fatalf("outcome %v", r.Outcome)
		}
		for _, v := range r.Loose.Picture {
			if math.Abs(v.Shift[2]) > 1e-6 {
				t.Errorf("nothing lifts: %+v", v)
			}
		}
	})
}

// TestFallsUntilItRests: a loose frame above the ground comes down on it.
func TestFallsUntilItRests(t *testing.T) {
	m, corners, _ := ring(4, 10, 0, handPine())
	for i, n := range corners {
		m.Contact(Contact{A: Ground, B: n, At: m.At(n), Axis: Vec{0, 0, 1}, Stiff: 1e4, Gap: 2 + float64(i)/10})
		m.Spring(Spring{A: Ground, B: n, At: m.At(n), Axis: Vec{0, 0, 1}, Across: 10})
	}
	r := solve(t, m, Case{Gravity: Vec{0, 0, -1}})
	down, push := 0, 0.0
	for _, c := range r.Contacts {
		push += c.Push
		if c.Push > 0 {
			down++
		}
	}
	if down < 2 {
		t.Errorf("rests on %d corners", down)
	}
	near(t, "ground", push, 4*10*0.0147*2.625, 1e-9)
	if z := r.Moves[corners[1]].Shift[2]; z > -2 {
		t.Errorf("corner 1 came down by %v", -z)
	}
}

func TestSwitchedSprings(t *testing.T) {
	build := func(switched bool) (*Model, []int) {
		m, corners, _ := ring(6, 10, 0, handPine())
		var hands []int
		for _, n := range corners {
			hands = append(hands, m.Spring(Spring{
				A: Ground, B: n, At: m.At(n), Axis: Vec{0, 0, 1}, Along: 1e3, Across: 1e3, Rock: 1e2, Switched: switched, PullOnly: n == corners[1],
			}))
		}
		return m, hands
	}
	m, hands := build(true)
	p, r := look(t, m, Case{Gravity: Vec{0, 0, -1}})
	if r.Outcome != Loose {
		t.Errorf("nobody holds it: outcome %v", r.Outcome)
	}
	if unheld, _ := p.Unheld(Case{}); len(unheld) != 1 {
		t.Errorf("unheld %v", unheld)
	}
	if unheld, _ := p.Unheld(Case{On: hands[:1]}); unheld != nil {
		t.Errorf("unheld %v", unheld)
	}
	c := Case{Gravity: Vec{0, 0, -1}}
	all, _ := build(false)
	want := solve(t, all, c)
	c.On = hands
	got, err := p.Solve(context.Background(), c)
	if err != nil || got.Outcome != Settled {
		t.Fatal(err, got.Outcome)
	}
	for i := range hands {
		near(t, "hand", got.Springs[i].Along, want.Springs[i].Along, 1e-9)
	}
	c.On = []int{hands[0], hands[2], hands[4]}
	three, err := p.Solve(context.Background(), c)
	if err != nil || three.Outcome != Settled {
		t.Fatal(err, three.Outcome)
	}
	near(t, "a third each", three.Springs[2].Along, -2*10*0.0147*2.625, 1e-9)
	if three.Springs[1] != (SpringForce{}) {
		t.Errorf("a hand that is not there bears %+v", three.Springs[1])
	}
	for _, on := range [][]int{{-1}, {99}} {
		if _, err := p.Solve(context.Background(), Case{On: on}); err == nil {
			t.Errorf("springs %v can be switched", on)
		}
		if _, err := p.Unheld(Case{On: on}); err == nil {
			t.Errorf("springs %v are there", on)
		}
	}
}

// TestSameBits: a result does not depend on what was solved before, nor on how
// often.
func TestSameBits(t *testing.T) {
	c, cases := wall(20)
	p, first := look(t, &c.Model, cases[3])
	for _, one := range []Case{cases[0], cases[7], c.pushed(20)} {
		if _, err := p.Solve(context.Background(), one); err != nil {
			t.Fatal(err)
		}
	}
	again, err := p.Solve(context.Background(), cases[3])
	if err != nil || !reflect.DeepEqual(first, again) {
		t.Errorf("differs after other cases: %v", err)
	}
	_, anew := look(t, &c.Model, cases[3])
	if !reflect.DeepEqual(first, anew) {
		t.Error("differs when prepared anew")
	}
}

func TestLimits(t *testing.T) {
	w := flowerWall(1, twoScrews)
	p, err := Prepare(context.Background(), &w.Model, Limits{Steps: 1})
	if err != nil {
		t.Fatal(err)
	}
	r, err := p.Solve(context.Background(), w.pushed(20))
	if err != nil || r.Outcome != Unsettled || r.Steps != 1 || r.Members != nil {
		t.Errorf("after one step: %v, %v", r.Outcome, err)
	}
	if p, err = Prepare(context.Background(), &w.Model, Limits{Work: 1}); err != nil {
		t.Fatal(err)
	}
	if r, err = p.Solve(context.Background(), w.pushed(20)); err != nil || r.Outcome != Unsettled || r.Work == 0 {
		t.Errorf("with no work: %v, %v", r.Outcome, err)
	}
	stopped, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Prepare(stopped, &w.Model, Limits{}); err == nil {
		t.Error("a stopped context prepares")
	}
	if p, err = Prepare(context.Background(), &w.Model, Limits{}); err != nil {
		t.Fatal(err)
	}
	if _, err := p.Solve(stopped, w.pushed(20)); err == nil {
		t.Error("a stopped context solves")
	}
}

func TestBadModels(t *testing.T) {
	nan := math.NaN()
	for name, spoil := range map[string]func(m *Model){
		"a node nowhere":               func(m *Model) { m.Node(Vec{nan}, "") },
		"a member to no node":          func(m *Model) { m.Member(Member{A: 0, B: 9, Depth: Vec{0, 0, 1}, Section: board}) },
		"a member of nothing":          func(m *Model) { m.Member(Member{A: 0, B: 1, Depth: Vec{0, 0, 1}}) },
		"a member without length":      func(m *Model) { m.Member(Member{A: 0, B: 2, Depth: Vec{0, 0, 1}, Section: board}) },
		"a member from a node to it":   func(m *Model) { m.Member(Member{A: 1, B: 1, Depth: Vec{0, 0, 1}, Section: board}) },
		"depth along the member":       func(m *Model) { m.Member(Member{A: 0, B: 1, Depth: Vec{2}, Section: board}) },
		"a spring from ground to it":   func(m *Model) { m.Spring(Spring{A: Ground, B: Ground, Axis: Vec{1}}) },
		"a spring along nothing":       func(m *Model) { m.Spring(Spring{A: 0, B: 1}) },
		"a spring that pushes":         func(m *Model) { m.Spring(Spring{A: 0, B: 1, Axis: Vec{1}, Along: -1}) },
		"a spring of no number":        func(m *Model) { m.Spring(Spring{A: 0, B: 1, Axis: Vec{1}, Turn: nan}) },
		"a contact without stiffness":  func(m *Model) { m.Contact(Contact{A: 0, B: 1, Axis: Vec{1}}) },
		"a contact to no node":         func(m *Model) { m.Contact(Contact{A: 0, B: 12, Axis: Vec{1}, Stiff: 1}) },
		"a contact with an odd gap":    func(m *Model) { m.Contact(Contact{A: 0, B: 1, Axis: Vec{1}, Stiff: 1, Gap: math.Inf(1)}) },
		"a support without a node":     func(m *Model) { m.Hold(7, HoldAll) },
		"a weight without a node":      func(m *Model) { m.Weight(Weight{Node: -1}) },
		"a weight of no number":        func(m *Model) { m.Weight(Weight{Node: 0, N: nan}) },
		"a node numbered below ground": func(m *Model) { m.Spring(Spring{A: -2, B: 1, Axis: Vec{1}}) },
	} {
		var m Model
		for _, at := range []Vec{{}, {10}, {}} {
			m.Node(at, "")
		}
		if m.Err() != nil {
			t.Fatal(m.Err())
		}
		spoil(&m)
		if _, err := Prepare(context.Background(), &m, Limits{}); err == nil || m.Err() == nil {
			t.Errorf("%s is taken", name)
		}
	}
	if _, err := Prepare(context.Background(), new(Model), Limits{}); err == nil {
		t.Error("nothing is taken")
	}
}

func TestBadCases(t *testing.T) {
	w := flowerWall(1, twoScrews)
	p, _ := look(t, &w.Model, Case{})
	for name, c := range map[string]Case{
		"a load on no node":     {Nodal: []Nodal{{Node: 999}}},
		"a load on the ground":  {Nodal: []Nodal{{Node: Ground}}},
		"a load of no number":   {Nodal: []Nodal{{Load: Load{Force: Vec{math.NaN()}}}}},
		"a load along nothing":  {Spread: []Spread{{Member: -1}}},
		"a load along no stick": {Spread: []Spread{{Member: 9999}}},
	} {
		if _, err := p.Solve(context.Background(), c); err == nil {
			t.Errorf("%s is taken", name)
		}
	}
}

// TestAllHeld: a model with nothing free has reactions and no movement.
func TestAllHeld(t *testing.T) {
	var m Model
	a, b := m.Node(Vec{}, ""), m.Node(Vec{30}, "")
	m.Member(Member{A: a, B: b, Depth: Vec{0, 0, 1}, Section: board})
	m.Hold(a, HoldAll)
	m.Hold(b, HoldAll)
	p, r := look(t, &m, Case{Spread: []Spread{{0, Vec{0, 0, -2}}}})
	if p.Unknowns() != 0 || r.Outcome != Settled {
		t.Fatalf("%d unknowns, outcome %v", p.Unknowns(), r.Outcome)
	}
	near(t, "half each", r.Reactions[b].Force[2], 30, 1e-12)
	near(t, "end moment", math.Abs(r.Reactions[a].Moment[1]), 2*30*30/12.0, 1e-12)
	near(t, "moment half way", math.Abs(r.Members[0].At(15).Moment[1]), 2*30*30/24.0, 1e-12)
}

// TestChangeAfterPrepare: a prepared model is a copy.
func TestChangeAfterPrepare(t *testing.T) {
	w := flowerWall(1, twoScrews)
	p, r := look(t, &w.Model, w.pushed(20))
	w.Hold(w.cells[4].side[1], HoldAll)
	w.springs[0].Across = 0
	again, err := p.Solve(context.Background(), w.pushed(20))
	if err != nil || !reflect.DeepEqual(r, again) {
		t.Errorf("changed with the model: %v", err)
	}
}

// TestHangsOnARow: a frame that hangs on a row of screws swings; one whose screws
// resist that a little does not, and they share its weight.
func TestHangsOnARow(t *testing.T) {
	for _, rock := range []float64{0, 50} {
		w := newCluster(acrossFlats, handPine(), []Vec{{}, {0, -acrossFlats}}, same(twoScrews))
		for i := range w.springs {
			w.springs[i].Rock = rock
		}
		h := w.cells[0]
		for _, n := range []Node{h.corner[1], h.side[1], h.corner[2]} {
			w.Hold(n, HoldAll)
		}
		_, r := look(t, &w.Model, Case{Gravity: Vec{0, -1}})
		if rock == 0 {
			if r.Outcome != Loose || r.Loose.Pushed {
				t.Fatalf("outcome %v", r.Outcome)
			}
			expect(t, "swings", r.Loose.Groups, []string{"frame 2"})
			expect(t, "at", r.Loose.Seams, []string{"1-2"})
			continue
		}
		if r.Outcome != Settled {
			t.Fatalf("outcome %v", r.Outcome)
		}
		for i := range w.springs {
			near(t, "half of the frame", r.Springs[i].Along, 18.01/7/2, 1e-3)
		}
	}
}
