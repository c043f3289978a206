package stand

import (
	"math"
	"testing"

	"bowerwright/base"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// us is the equation in its US form: 51 lb, 10/H, 1 - 0.0075 |V - 30|,
// 0.82 + 1.8/D, 1 - 0.0032 A (DHHS (NIOSH) 94-110, as retold in a table).
func us(frequency, grip float64) Equation {
	return Equation{Constant: kilos(51), Reach: 10 * inch, ReachMost: 25 * inch, Height: 30 * inch, HeightLoss: 0.0075 / inch,
		HeightMost: 70 * inch, TravelShare: 0.82, Travel: 1.8 * inch, TravelLeast: 10 * inch, TravelMost: 70 * inch,
		Twist: 0.0032, TwistMost: unit.FromDegrees(135), Frequency: frequency, Grip: grip}
}

// The manual's example 4, package inspection (second-hand): origin 34.9 lb by
// rounded multipliers, 34.8 in full; destination 15.2 and 15.3. Example 1, punch
// press stock (from memory, arithmetic computed): 16.03 lb.
func TestNIOSHExamples(t *testing.T) {
	for _, c := range []struct {
		name     string
		e        Equation
		h, v, to float64
		pounds   float64
	}{
		{"package, origin", us(0.88, 0.95), 10, 22, 59, 34.8},
		{"package, destination", us(0.88, 1), 20, 59, 22, 15.3},
		{"punch press, origin", us(1, 0.95), 23, 15, 63, 16.03},
	} {
		got := c.e.Recommended(Lift{Reach: c.h * inch, From: c.v * inch, To: c.to * inch}).Pounds()
		want(t, c.name, got, c.pounds, 0.05)
	}
}

// A textbook's sum in metric: H 25 cm, V 55, D 95, frequency 0.88, grip 0.95:
// 15.7 kg, and 12 kg is 0.76 of it.
func TestNIOSHMetric(t *testing.T) {
	e := rules().Lift.NIOSH
	e.Frequency = 0.88
	got := float64(e.Recommended(Lift{Reach: 250, From: 550, To: 1500}))
	want(t, "limit", got, 15.7, 0.05)
	want(t, "index", 12/got, 0.76, 0.006)
}

func TestNIOSHLimits(t *testing.T) {
	e := us(1, 1)
	best := Lift{Reach: 10 * inch, From: 30 * inch, To: 40 * inch}
	want(t, "best", e.Recommended(best).Pounds(), 51, 1e-9)
	for _, c := range []struct {
		name   string
		l      Lift
		pounds float64
	}{
		{"nearer than 10 in", Lift{5 * inch, 30 * inch, 40 * inch, 0}, 51},
		{"hardly raised", Lift{10 * inch, 30 * inch, 31 * inch, 0}, 51},
		{"beyond 25 in", Lift{25.1 * inch, 30 * inch, 40 * inch, 0}, 0},
		{"above 70 in", Lift{10 * inch, 70.1 * inch, 60 * inch, 0}, 0},
		{"below the floor", Lift{10 * inch, -1, 60 * inch, 0}, 0},
		{"raised by more than 70 in", Lift{10 * inch, 0, 70.1 * inch, 0}, 0},
		{"turned beyond 135 degrees", Lift{10 * inch, 30 * inch, 40 * inch, unit.FromDegrees(136)}, 0},
		{"turned by 90 degrees", Lift{10 * inch, 30 * inch, 40 * inch, unit.FromDegrees(90)}, 51 * (1 - 0.288)},
		{"20 in out", Lift{20 * inch, 30 * inch, 40 * inch, 0}, 25.5},
	} {
		want(t, c.name, e.Recommended(c.l).Pounds(), c.pounds, 1e-9)
	}
}

// HSE L23 paragraph 120: two thirds of the sum for two, one half for three; more
// than four are unlikely to work. Two men at 25 kg: 33.3 kg, three: 37.5; two at
// 51 lb: 68 lb.
func TestTeams(t *testing.T) {
	l := rules().Lift
	at := l.Zones[2].To // between knuckles and elbow, 25 kg
	want(t, "one", float64(l.Team(1, at)), 25, 1e-9)
	want(t, "two", float64(l.Team(2, at)), 33.3, 0.05)
	want(t, "three", float64(l.Team(3, at)), 37.5, 1e-9)
	want(t, "four", float64(l.Team(4, at)), 50, 1e-9)
	want(t, "two at 51 lb", 2*51*l.TeamShare(2), 68, 0.001)
	if l.TeamShare(5) != 0 || l.TeamShare(0) != 0 {
		t.Error("five work as one team")
	}
}

// The guideline weights by zone; the boundary belongs to the lower zone.
func TestZones(t *testing.T) {
	l := rules().Lift
	for _, c := range []struct{ height, kg float64 }{
		{0, 10}, {14, 10}, {14.1, 20}, {29, 20}, {30, 25}, {42, 25}, {43, 20}, {56, 20}, {57, 10}, {90, 10},
	} {
		want(t, "alone", float64(l.Alone(c.height*inch)), c.kg, 1e-9)
	}
	l.Person = 0.64
	want(t, "women", float64(l.Alone(40*inch)), 16, 1e-9)
	if (LiftRules{}).Alone(100) != 0 {
		t.Error("without zones something is lifted")
	}
}

func TestCrew(t *testing.T) {
	l := rules().Lift
	for _, c := range []struct {
		name     string
		h        Heave
		people   int
		hardest  float64
		hasSteps bool
	}{
		{"off the bench to the chest", Heave{20, 30 * inch, 42 * inch}, 1, 30, false},
		{"off the floor", Heave{12, 0, 42 * inch}, 2, 0, false},
		{"over the head", Heave{12, 30 * inch, 80 * inch}, 2, 56, true},
		{"down from over the head", Heave{12, 60 * inch, 30 * inch}, 2, 56, false},
		{"heavy", Heave{45, 30 * inch, 40 * inch}, 4, 30, false},
		{"too heavy", Heave{60, 30 * inch, 40 * inch}, 0, 30, false},
	} {
		got := l.Crew(c.h)
		if got.People != c.people || math.Abs(got.Height-c.hardest*inch) > 1e-6 || got.Steps != c.hasSteps {
			t.Errorf("%s: %+v, want %d at %g in", c.name, got, c.people, c.hardest)
		}
		if c.people > 0 && got.Ratio > 1 || c.people == 0 && got.Ratio <= 1 {
			t.Errorf("%s: ratio %g", c.name, got.Ratio)
		}
	}
	e := l.NIOSH
	low := float64(e.Constant) * (1 - 0.003*75) * (0.82 + 4.5/75) * 0.95
	want(t, "NIOSH beside it", float64(l.Crew(Heave{12, 0, 750}).Single), low, 1e-9)
}

func TestHeavierNeverWantsFewer(t *testing.T) {
	l := rules().Lift
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.Float64Range(0.1, 40).Draw(t, "mass")
		from, to := rapid.Float64Range(0, 2000).Draw(t, "from"), rapid.Float64Range(0, 2000).Draw(t, "to")
		a, b := l.Crew(Heave{unit.Mass(m), from, to}), l.Crew(Heave{unit.Mass(m * 1.3), from, to})
		if a.People == 0 && b.People != 0 || b.People != 0 && b.People < a.People {
			t.Fatalf("%+v, heavier %+v", a, b)
		}
		brute := math.Inf(1)
		for i := range 2001 {
			at := math.Min(from, to) + math.Abs(to-from)*float64(i)/2000
			brute = math.Min(brute, float64(l.Alone(at)))
		}
		if got := float64(l.Alone(a.Height)); got > brute {
			t.Fatalf("hardest at %g lifts %g, on the way %g", a.Height, got, brute)
		}
	})
}

// Closed form: a lever. A board's end carries by the distances.
func TestTwoHands(t *testing.T) {
	got, err := Hands(points(0, 0, 1000, 0), points(250, 0)[0], 100, 25)
	if err != nil {
		t.Fatal(err)
	}
	want(t, "near", float64(got[0]), 75, 1e-6)
	want(t, "far", float64(got[1]), 25, 1e-6)
	one, err := Hands(points(300, 200), points(310, 190)[0], 100, 25)
	if err != nil || math.Abs(float64(one[0])-100) > 1e-9 {
		t.Errorf("one hand under the weight: %v, %v", one, err)
	}
}

// Closed form: four springs at the corners of a rectangle: a quarter each, and
// x/2a, y/2b of a quarter more or less.
func TestFourHands(t *testing.T) {
	hands := points(-600, -400, 600, -400, 600, 400, -600, 400)
	got, err := Hands(hands, points(150, -80)[0], 200, 25)
	if err != nil {
		t.Fatal(err)
	}
	for i, h := range hands {
		want(t, "corner", float64(got[i]), 50*(1+150*h.X/600/600+-80*h.Y/400/400), 1e-6)
	}
	// Near one corner the opposite hand lets go; three hands are statics alone.
	far := points(500, -300)[0]
	got, err = Hands(hands, far, 200, 25)
	if err != nil {
		t.Fatal(err)
	}
	want(t, "let go", float64(got[3]), 0, 0)
	want(t, "right side", float64(got[1]+got[2]), 200*(600+500)/1200.0, 1e-6)
	want(t, "upper side", float64(got[2]), 200*(400-300)/800.0, 1e-6)
}

func TestHandsThatCannot(t *testing.T) {
	for _, c := range []struct {
		name  string
		hands []float64
		x, y  float64
		want  error
	}{
		{"nobody", nil, 0, 0, NoHands},
		{"outside", []float64{0, 0, 1000, 0, 500, 800}, 900, 700, HandsOut},
		{"beyond the end", []float64{0, 0, 1000, 0}, 1100, 0, HandsOut},
		{"beside the line", []float64{0, 0, 500, 10, 1000, 0}, 500, 60, HandsLine},
		{"one far off", []float64{0, 0}, 100, 0, HandsOut},
	} {
		if _, err := Hands(points(c.hands...), points(c.x, c.y)[0], 100, 25); err != c.want {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
	if HandsLine.Error() == "" {
		t.Error("no words")
	}
}

// The hands' loads balance the weight, none pulls, and they are those of equal
// springs: one plane gives the load of each that carries, and is not above 0 at
// one that does not. Of all loads that balance, their sum of squares is least.
func TestHandsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-1500, 1500)
		var xy []float64
		n := rapid.IntRange(3, 8).Draw(t, "hands")
		for range n {
			xy = append(xy, math.Round(f.Draw(t, "x")), math.Round(f.Draw(t, "y")))
		}
		hands := points(xy...)
		middle := points(0, 0)[0]
		sum := 0.0
		for _, h := range hands { // some place within their hull
			w := rapid.Float64Range(0, 1).Draw(t, "share")
			middle, sum = middle.Add(h.Mul(w)), sum+w
		}
		if sum == 0 {
			t.Skip("no place")
		}
		middle = middle.Mul(1 / sum)
		loads, err := Hands(hands, middle, 100, 1)
		if hull := base.Hull(hands); err != nil && (hull == nil || hull.BoundaryDist(middle) < 0.1) {
			t.Skip("at the very edge")
		}
		if err != nil {
			t.Fatalf("a place among the hands is refused: %v", err)
		}
		total, at := 0.0, points(0, 0)[0]
		for i, l := range loads {
			if l < 0 {
				t.Fatalf("a hand pulls: %v", loads)
			}
			total, at = total+float64(l), at.Add(hands[i].Mul(float64(l)/100))
		}
		if math.Abs(total-100) > 1e-4 || at.Dist(middle) > 2+1e-3 { // in one line hands and weight may each be 1 mm off it
			t.Fatalf("loads %v sum to %g about %v, the weight is at %v", loads, total, at, middle)
		}
		// Moving a little load among any four hands, in balance, never lessens the
		// squares: that is what least means.
		for range 20 {
			d := balancedChange(t, hands)
			if d == nil {
				continue
			}
			slope := 0.0
			ok := true
			for i := range d {
				slope += float64(loads[i]) * d[i]
				ok = ok && (loads[i] > 1e-6 || d[i] >= 0)
			}
			if ok && slope < -1e-4 {
				t.Fatalf("squares fall along %v: %g, loads %v", d, slope, loads)
			}
		}
	})
}

// balancedChange is a change of load at four of the hands that adds neither
// force nor moment: the signed areas of the triangles of the others.
func balancedChange(t *rapid.T, hands []point) []float64 {
	if len(hands) < 4 {
		return nil
	}
	pick := rapid.Permutation(indices(len(hands))).Draw(t, "four")[:4]
	d := make([]float64, len(hands))
	most := 0.0
	for k, i := range pick {
		var tri []point
		for j, o := range pick {
			if j != k {
				tri = append(tri, hands[o])
			}
		}
		d[i] = tri[1].Sub(tri[0]).Cross(tri[2].Sub(tri[0])) * float64(1-2*(k%2))
		most = math.Max(most, math.Abs(d[i]))
	}
	if most < 1 {
		return nil
	}
	sign := 1.0
	if rapid.Bool().Draw(t, "other way") {
		sign = -1
	}
	for i := range d {
		d[i] *= sign / most
	}
	return d
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
