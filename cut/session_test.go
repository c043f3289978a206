package cut

import (
	"context"
	"math"
	"math/rand"
	"slices"
	"testing"

	"bowerwright/unit"
)

// A hexagon's sides are one stop and one setting of the saw, and cut 0 is made
// at it too.
func TestSessionOfAHexagon(t *testing.T) {
	o := Order{Board: 2400 * mm, TrimFirst: 5 * mm, Depth: 18 * mm, Kerf: 3 * mm, Turning: true, Parts: []Part{polygon(400*mm, 30, 12)}}
	s := o.Session(plan(t, o))
	if s.StopSettings != 1 || s.SawSettings != 1 || len(s.Stops) != 1 || s.Stops[0].Count != 12 || len(s.Stops[0].Boards) != 2 ||
		!slices.Equal(s.Stops[0].Settings, []unit.Angle{unit.FromDegrees(30)}) {
		t.Errorf("%+v", s)
	}
}

// Three frames of 30, 45 and 30 degrees with sides longer each time: the saw is
// set three times shortest first, twice by setting.
func TestSessionBySetting(t *testing.T) {
	o := Order{Board: 2400 * mm, Depth: 18 * mm, Kerf: 3 * mm, Turning: true,
		Parts: []Part{polygon(300*mm, 30, 6), polygon(400*mm, 45, 4), polygon(500*mm, 30, 6)}}
	if s := o.Session(plan(t, o)); s.StopSettings != 3 || s.SawSettings != 3 {
		t.Errorf("%+v", s)
	}
	o.BySetting = true
	p := plan(t, o)
	if s := o.Session(p); s.StopSettings != 3 || s.SawSettings != 2 || !slices.Equal(s.Stops[1].Parts, []int{2}) {
		t.Errorf("%+v", s)
	}
}

// A part square at one end and at 45 degrees at the other: five share their
// cuts, swapped each time, and the saw is set anew at each of the six.
func TestUnlikeEndsSetTheSaw(t *testing.T) {
	o := Order{Board: 2400 * mm, Depth: 40 * mm, Kerf: 3 * mm, Turning: true,
		Parts: []Part{{Outside: 300 * mm, Left: 45 * deg, Count: 5}}}
	c, err := Choose(context.Background(), o, Settings{})
	if err != nil || c.BySettingErr != nil || c.ChangesErr != nil {
		t.Fatal(err, c.BySettingErr, c.ChangesErr)
	}
	if s := c.AsIs.Session; s.SawSettings != 6 || s.StopSettings != 1 {
		t.Errorf("as it is: %+v", s)
	}
	// Rough: all square, then both settings once. A rough length is what the
	// part reaches and a kerf at each end.
	few := c.FewestChanges
	if s := few.Session; s.SawSettings != 3 || s.StopSettings != 2 || len(s.TrimSettings) != 2 || !few.Rough[0] {
		t.Errorf("fewest changes: %+v", s)
	}
	if got, want := few.Order.Parts[0].Outside.MM(), 300+3+3*math.Sqrt2; math.Abs(got-want) > 1e-5 {
		t.Errorf("rough length %g mm, want %g", got, want)
	}
	plan(t, few.Order)
}

// Equal ends are never cut rough.
func TestChooseLeavesMitres(t *testing.T) {
	for _, turning := range []bool{true, false} {
		o := Order{Board: 2400 * mm, Depth: 18 * mm, Kerf: 3 * mm, Turning: turning, Parts: []Part{polygon(300*mm, 30, 6), square(200*mm, 3),
			{Outside: 300 * mm, Left: 20 * deg, Right: -20 * deg, Count: 2}}}
		c, err := Choose(context.Background(), o, Settings{})
		if err != nil || slices.Contains(c.FewestChanges.Rough, true) || len(c.FewestChanges.Session.TrimSettings) != 0 {
			t.Errorf("turning %v: %v, %+v", turning, err, c.FewestChanges)
		}
	}
	if _, err := Choose(context.Background(), Order{Board: mm, Parts: []Part{square(2*mm, 1)}}, Settings{}); err == nil {
		t.Error("an impossible order is chosen for")
	}
}

// The settings counted are those met on a walk along the boards, stop by stop,
// by what is seen there: slopes, and cuts that are shared.
func TestSessionWalk(t *testing.T) {
	r := rand.New(rand.NewSource(41))
	for range 200 {
		o := doable(r, 12)
		if o.Depth == 0 {
			continue // no slope is to be seen
		}
		o.BySetting = r.Intn(2) == 0
		p := plan(t, o)
		if got, want := o.Session(p).SawSettings, walk(o, p); got != want {
			t.Fatalf("%+v\n%+v\n%d settings, on the walk %d", o, p, got, want)
		}
	}
}

// walk counts saw settings by the slopes of the cuts.
func walk(o Order, p Plan) int {
	n, set := 0, math.NaN()
	saw := func(slope float64) {
		if o.Turning {
			slope = math.Abs(slope)
		}
		if math.Abs(slope-set) > 1e-6 || math.IsNaN(set) {
			set = slope
			n++
		}
	}
	all := singles(o)
	slices.SortStableFunc(all, func(a, b int) int { return slices.Index(order(o), a) - slices.Index(order(o), b) })
	done := map[int]bool{}
	for _, part := range all {
		for _, b := range p.Boards {
			for i, q := range b.Parts {
				if !alike(o, q.Part, part) || done[part] {
					continue
				}
				if i > 0 && !q.SharesCut || i == 0 && (q.LeftSlope != 0 || o.TrimFirst > 0) {
					saw(q.LeftSlope)
				}
				if q.Held.What != NoCut {
					saw(q.RightSlope)
				}
			}
		}
		for other := range o.Parts {
			if alike(o, other, part) {
				done[other] = true
			}
		}
	}
	return n
}

// order gives the parts as the kinds lie.
func order(o Order) (out []int) {
	for _, k := range o.kinds() {
		out = append(out, k.parts...)
	}
	return out
}

// alike says whether two parts are of one kind.
func alike(o Order, a, b int) bool {
	for _, k := range o.kinds() {
		if slices.Contains(k.parts, a) {
			return slices.Contains(k.parts, b)
		}
	}
	return false
}

// Another order on the board can save one: mitres of one setting that lie
// together share their cuts.
func TestAnotherOrderSaves(t *testing.T) {
	r := rand.New(rand.NewSource(42))
	saves, costs, rough := 0, 0, 0
	for range 150 {
		o := doable(r, 16)
		o.Depth = 60 * mm
		if o.impossible(o.stretches()) != nil {
			continue
		}
		c, err := Choose(context.Background(), o, Settings{})
		if err != nil || c.BySettingErr != nil {
			t.Fatal(err, c.BySettingErr)
		}
		if least := min(c.AsIs.Session.Settings(), c.BySetting.Session.Settings()); c.FewestChanges.Session.Settings() > least {
			t.Errorf("%+v: set %d times, and another way %d", o, c.FewestChanges.Session.Settings(), least)
		}
		if slices.Contains(c.FewestChanges.Rough, true) {
			rough++
		}
		for _, k := range []Choice{c.AsIs, c.BySetting, c.FewestChanges} {
			if faults, _ := Check(k.Order, k.Plan); len(faults) > 0 {
				t.Fatalf("%+v\n%v", k, faults)
			}
		}
		switch d := len(c.BySetting.Plan.Boards) - len(c.AsIs.Plan.Boards); {
		case d < 0:
			saves++
		case d > 0:
			costs++
		}
	}
	t.Logf("by setting saves boards %d times and costs some %d times; rough lengths change least %d times", saves, costs, rough)
	if saves == 0 || rough == 0 {
		t.Error("it never saves a board, or never cuts rough")
	}
}

// Longest first is open where the board left behind the last cut, which is then
// behind the shortest part, can be held.
func TestLongestFirst(t *testing.T) {
	o := Order{Board: 1000 * mm, Kerf: 3 * mm, Hold: 200 * mm, Parts: []Part{square(300*mm, 1), square(400*mm, 1)}}
	if s := o.Session(plan(t, o)); !s.LongestFirst {
		t.Errorf("1000 - 706 is held: %+v", s)
	}
	o.Hold = 295 * mm
	if s := o.Session(plan(t, o)); s.LongestFirst {
		t.Errorf("294 mm are left: %+v", s)
	}
	o.Parts[0].Outside, o.Hold = 100*mm, 600*mm
	o.Parts[1].Outside = 700 * mm
	if s := o.Session(plan(t, o)); s.LongestFirst {
		t.Errorf("behind the 100 mm part only 197 mm can be held: %+v", s)
	}
}
