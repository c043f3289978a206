package job

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"bowerwright/stand"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// plateOf is a base of one plate, inches.
func plateOf(width, depth float64) []BaseAsked {
	return []BaseAsked{{Name: "plate", Kind: "plate", Width: ins(width), Depth: ins(depth)}}
}

func ins(v float64) unit.Length { return unit.Length(v * float64(unit.Inch)) }

// standingTroubles are what dressing and base may ask for and cannot be.
var standingTroubles = []trouble{
	{"base-none", "base", with(spec("S = square: side 18, stands on corner", "S1 at 0 0"), func(s *Spec) {
		s.Base = []BaseAsked{{Name: "pegs", Kind: "stakes", Pull: 100, Sideways: 100}}
	}), "give it a base", func(s *Spec) { s.Base = plateOf(30, 30) }},
	{"base-overhang", "base", with(hexagons(), func(s *Spec) {
		s.Base = plateOf(2, 30)
		s.Base[0].Left = ptr(ins(-40))
	}), "make the base wider", func(s *Spec) { s.Base = plateOf(90, 30) }},
	{"base-rim", "base.rim.rim", with(hexagons(), func(s *Spec) {
		s.Base = []BaseAsked{{Name: "rim", Kind: "ring", Width: ins(90), Depth: ins(30), Rim: ins(15)}}
	}), "a smaller rim", func(s *Spec) { s.Base[0].Rim = ins(9) }},
	{"dressing-region", "dressing.draped.cloth", with(hexagons(), func(s *Spec) {
		s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1, From: ins(15), To: ins(5)}}}}
	}), "a band from below to above", func(s *Spec) { s.Dressing[0].Layers[0].From = 0 }},
	{"dressing-covers-none", "dressing.draped.cloth", with(hexagons(), func(s *Spec) {
		s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1, From: ins(500)}}}}
	}), "a place on the piece", func(s *Spec) { s.Dressing[0].Layers[0].From = 0 }},
}

// stood is how a job stands.
func stood(t testing.TB, s Spec) *StandingFacts {
	t.Helper()
	r, snags, err := Stand(context.Background(), s, BuiltIn())
	if err != nil || len(snags) > 0 || r.Standing == nil {
		t.Fatal(err, snags)
	}
	return r.Standing
}

// tips says whether it tips or slides, whatever its strength.
func tips(f *StandingFacts) bool { return strings.HasPrefix(f.Stays, stand.Over) }

// firm makes the box stand and hold: a wide base with weight on it, blocks in its
// corners, braces behind.
func firm(s *Spec) {
	s.Base = append(plateOf(90, 90), BaseAsked{Name: "struts", Kind: "brace", Count: 2, Fixed: ins(18), Behind: ins(12), Width: ins(4), Mass: ptr(unit.Mass(4))})
	s.Standing.Heap, s.Kinds[0].Corner = 500, "corner block"
}

// onFeet is how a job stands, without looking for what helps.
func onFeet(t testing.TB, s Spec) *StandingFacts {
	t.Helper()
	r, snags, err := standWith(context.Background(), s, BuiltIn(), noWays)
	if err != nil || len(snags) > 0 || r.Standing == nil {
		t.Fatal(err, snags)
	}
	return r.Standing
}

// A box of a square frame on a plate: the sums by hand.
func box24(change func(s *Spec)) Spec {
	s := spec("S = square: side 24", "S1 at 0 0")
	s.Base = plateOf(30, 40)
	if change != nil {
		change(&s)
	}
	return s
}

func close(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s is %g, want %g", what, got, want)
	}
}

// pounds of a plate by its size, at 34 lb a cubic foot, 3/4 in thick.
func platePounds(w, d float64) float64 { return w * d * 0.75 / 1728 * 34 }

// TestStandingByHand: a frame of 24 in on a plate of 30 by 40 in. Pushed with 20
// lb at its top, 24.75 in over the floor: tipping over the back edge holds 0.9 W
// 20, sliding 0.3 x 0.9 W; 1.5 is wanted of both. The exhibition load is 0.125
// kN/m2 on 24 by 24 in.
func TestStandingByHand(t *testing.T) {
	f := stood(t, box24(nil))
	w := f.Weights[0].Weight.KG/float64(unit.Pound) + platePounds(30, 40)
	push := f.Findings[1]
	if push.Load != "push at shoulder height" || push.Force.US != "20 lb" {
		t.Fatalf("%+v", push)
	}
	close(t, "height of the push", push.Height.MM, 24.75*25.4, 1e-9)
	back, front := push.Rose[9], push.Rose[27]
	close(t, "tipping backwards", back.Tip, 1.5*20*24.75/(0.9*w*20), 1e-3)
	close(t, "tipping forwards", front.Tip, back.Tip, 1e-3)
	close(t, "sliding", back.Slide, 1.5*20/(0.3*0.9*w), 1e-3)
	hall := f.Findings[0]
	area := 0.6096 * 0.6096
	close(t, "exhibition load", hall.Force.N, 125*area, 1e-3)
	close(t, "its sliding", hall.Rose[0].Slide, 1.5*125*area/float64(stand.PoundsForce(0.3*0.9*w)), 1e-3)
	close(t, "what stands in the middle of the base", f.Ballast.Heap.KG/float64(unit.Pound), (1.5*20/0.3-0.9*w)/1.0, 2e-3)
	whole := f.Ways[0].Whole
	close(t, "the whole", whole.Weight.KG/float64(unit.Pound), w, 1e-3)
	close(t, "its middle", whole.Up.MM, (f.Weights[0].Weight.KG*12.75+platePounds(30, 40)*float64(unit.Pound)*0.375)/whole.Weight.KG*25.4, 1e-3)
}

// TestGustLimitIsTheLimit: at the gust limit by calculation the share used is all
// of it, a little above it is over, and what is printed is not above it.
func TestGustLimitIsTheLimit(t *testing.T) {
	at := func(ms float64) *StandingFacts {
		return stood(t, box24(func(s *Spec) {
			s.Standing = StandingAsked{Where: "outdoors", Floor: "rough", Gust: ms, NoPush: true}
			s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1}}}}
		}))
	}
	for i, w := range at(5).Ways {
		if w.Stop {
			continue
		}
		close(t, "share at the limit of "+w.Name, at(w.Gust.MS).Findings[i].Use.Ratio, 1, 1e-3)
		if got := at(w.Gust.MS * 1.01).Findings[i].Use.Word; got != stand.Over {
			t.Errorf("%s above its limit is %q", w.Name, got)
		}
		var mph float64
		if _, err := fmt.Sscanf(w.Gust.US, "%f mph", &mph); err != nil || float64(stand.FromMPH(mph)) > w.Gust.MS {
			t.Errorf("%s is printed as %s", w.Name, w.Gust.US)
		}
	}
}

// TestStandingIsMonotone: more gust never improves a share, and more base,
// ballast or friction never worsens one.
func TestStandingIsMonotone(t *testing.T) {
	rapid.Check(t, func(q *rapid.T) {
		width, depth := rapid.Float64Range(28, 90).Draw(q, "width"), rapid.Float64Range(8, 90).Draw(q, "depth")
		gust, heap := rapid.Float64Range(2, 18).Draw(q, "gust"), rapid.Float64Range(0.1, 200).Draw(q, "heap")
		closes := rapid.Float64Range(0, 1).Draw(q, "closes")
		of := func(width, depth, gust, heap, closes float64) float64 {
			f := onFeet(t, box24(func(s *Spec) {
				s.Base = plateOf(width, depth)
				s.Base[0].Mass = ptr(unit.Mass(5))
				s.Standing = StandingAsked{Where: "outdoors", Floor: "rough", Gust: gust, Heap: unit.Mass(heap)}
				s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Closes: ptr(closes)}}}}
			}))
			worst := 0.0
			for _, x := range f.Findings {
				worst = max(worst, x.Use.Ratio)
			}
			return worst
		}
		now, more := of(width, depth, gust, heap, closes), rapid.Float64Range(1, 2).Draw(q, "more")
		for what, other := range map[string]float64{"ballast": of(width, depth, gust, heap*more, closes), "width": of(width*more, depth, gust, heap, closes), "depth": of(width, depth*more, gust, heap, closes)} {
			if other > now*(1+1e-4) {
				q.Errorf("more %s: %g becomes %g", what, now, other)
			}
		}
		for what, other := range map[string]float64{"gust": of(width, depth, gust*more, heap, closes), "closing": of(width, depth, gust, heap, min(1, closes*more))} {
			if other < now*(1-1e-4) {
				q.Errorf("more %s: %g becomes %g", what, now, other)
			}
		}
	})
}

// TestBallastMap: as few units as are enough, each on the base, none in another
// and none in the frames; with them nothing is over.
func TestBallastMap(t *testing.T) {
	bags := []BallastAsked{{Name: "bag", Mass: 10, Length: ins(18), Width: ins(10), Height: ins(5), Owned: 30}}
	f := stood(t, box24(func(s *Spec) {
		s.Base = plateOf(60, 40)
		s.Standing.Ballast = bags
	}))
	b := f.Ballast
	if tips(f) || !b.Needed || !b.Enough || b.Units == 0 {
		t.Fatalf("%s; %+v", f.Says, b)
	}
	sum := 0
	for i, k := range b.Stacks {
		sum += k.Count
		lo, hi := k.Outline[0], k.Outline[2]
		if hi[0]-lo[0] < 457 || lo[1] < f.Plan.Boards[0][2][1] {
			t.Errorf("place %d lies in the frames: %v", i+1, k.Outline)
		}
		for _, c := range k.Outline {
			if hull := f.Plan.Hull; c[0] < hull[0][0]-1e-3 || c[0] > hull[2][0]+1e-3 || c[1] < hull[0][1]-1e-3 || c[1] > hull[2][1]+1e-3 {
				t.Errorf("place %d hangs over the base: %v", i+1, c)
			}
		}
		for j, o := range b.Stacks[:i] {
			if lo[0] < o.Outline[2][0]-1e-3 && o.Outline[0][0] < hi[0]-1e-3 && lo[1] < o.Outline[2][1]-1e-3 && o.Outline[0][1] < hi[1]-1e-3 {
				t.Errorf("places %d and %d lie in each other", i+1, j+1)
			}
		}
	}
	if sum != b.Units {
		t.Errorf("%d units in stacks, %d said", sum, b.Units)
	}
	bags[0].Owned = b.Units - 1
	if f := stood(t, box24(func(s *Spec) { s.Base, s.Standing.Ballast = plateOf(60, 40), bags })); !tips(f) || f.Ballast.Enough {
		t.Errorf("one unit less is enough too: %s", f.Says)
	}
}

// TestSoakedFoam: what hangs in front and takes water makes it worse forwards.
func TestSoakedFoam(t *testing.T) {
	with := func(wet float64) FindingFacts {
		f := stood(t, box24(func(s *Spec) {
			s.Dressing = []WayAsked{{Name: "foam", Layers: []LayerAsked{{Name: "foam", Mass: 5, Wet: wet, Front: ptr(ins(30)), From: ins(20)}}}}
			s.Standing.Floor = "rough"
		}))
		return f.Findings[len(f.Findings)-1]
	}
	dry, wet := with(0), with(4)
	if wet.Rose[27].Tip <= dry.Rose[27].Tip {
		t.Errorf("dry %g, soaked %g", dry.Rose[27].Tip, wet.Rose[27].Tip)
	}
}

// TestWhatIsAssumedIsSaid, and only that.
func TestWhatIsAssumedIsSaid(t *testing.T) {
	bare := stood(t, spec("S = square: side 24", "S1 at 0 0"))
	if n := len(bare.Assumed); n != 3 {
		t.Errorf("%d sentences: %q", n, bare.Assumed)
	}
	said := stood(t, box24(func(s *Spec) {
		s.Dressing = []WayAsked{{Name: "draped", Layers: []LayerAsked{{Name: "cloth", Mass: 1}}}}
		s.Standing = StandingAsked{Where: "outdoors", Gust: 4, Held: "screws"}
	}))
	if n := len(said.Assumed); n != 0 {
		t.Errorf("%q", said.Assumed)
	}
	gust := stood(t, box24(func(s *Spec) { s.Standing.Where = "outdoors" }))
	if !strings.Contains(strings.Join(gust.Assumed, " "), "20 mph is tried") || gust.Findings[1].Load != "gust of 20 mph" {
		t.Errorf("%q, %q", gust.Assumed, gust.Findings[1].Load)
	}
	mean := stood(t, box24(func(s *Spec) { s.Standing = StandingAsked{Where: "outdoors", Mean: float64(stand.FromMPH(10))} }))
	if mean.Findings[1].Load != "gust of 16 mph" {
		t.Errorf("a mean of 10 mph is %q", mean.Findings[1].Load)
	}
}

// TestOnALine: a piece on a corner has no footing; that is no snag, and a base
// among what helps.
func TestOnALine(t *testing.T) {
	f := stood(t, spec("S = square: side 24, stands on corner", "S1 at 0 0"))
	if f.Word != Falls || !f.Over || f.Cannot == "" || len(f.Findings) != 0 {
		t.Errorf("%+v", f)
	}
	if len(f.WaysOut) == 0 || !f.WaysOut[0].Enough || !strings.HasPrefix(f.WaysOut[0].Says, "a plate ") {
		t.Errorf("%+v", f.WaysOut)
	}
}

// TestWaysOutAreSorted: what is enough comes first, every one is numbered, and
// nothing is offered where nothing is over.
func TestWaysOutAreSorted(t *testing.T) {
	f := stood(t, box24(func(s *Spec) { s.Base = nil }))
	enough := true
	for i, w := range f.WaysOut {
		if w.Number != i+1 || w.Enough && !enough || w.Enough != (w.Use.Word != stand.Over) || len(w.Edits) == 0 {
			t.Errorf("%+v", w)
		}
		enough = w.Enough
	}
	if f := stood(t, box24(firm)); f.Over || len(f.WaysOut) != 0 {
		t.Errorf("over %v, %+v", f.Over, f.WaysOut)
	}
}

// TestWings, braces, stakes and the side of the wind do what they are for.
func TestOtherBases(t *testing.T) {
	share := func(s Spec) float64 {
		f := stood(t, s)
		worst := 0.0
		for _, x := range f.Findings {
			for _, d := range x.Rose {
				worst = max(worst, d.Tip)
			}
		}
		return worst
	}
	bare := share(box24(func(s *Spec) { s.Base = nil }))
	m := unit.Mass(6)
	for name, b := range map[string]BaseAsked{
		"wing":       {Kind: "wing", Length: ins(30), Height: ins(24), Mass: &m},
		"one wing":   {Kind: "wing", Side: "left", Angle: ptr(unit.FromDegrees(60)), Length: ins(30), Height: ins(24), Mass: &m},
		"feet":       {Kind: "feet", Width: ins(4), Depth: ins(30), Count: 3},
		"frame base": {Kind: "frame base", Width: ins(30), Depth: ins(30), Rim: ins(4)},
		"hexagon":    {Kind: "plate", Shape: "hexagon", Across: ins(40)},
		"round ring": {Kind: "ring", Shape: "round", Across: ins(40), Rim: ins(16)},
	} {
		b.Name = name
		if got := share(box24(func(s *Spec) { s.Base = []BaseAsked{b} })); got >= bare {
			t.Errorf("%s: %g, bare %g", name, got, bare)
		}
	}
	grass := func(b ...BaseAsked) float64 {
		f := stood(t, box24(func(s *Spec) { s.Base = append(s.Base, b...); s.Standing = StandingAsked{Where: "outdoors"} }))
		return f.Findings[0].Rose[0].Slide
	}
	if grass() != mostRatio {
		t.Error("on wet grass something holds without stakes")
	}
	pegs := BaseAsked{Name: "pegs", Kind: "stakes", Count: 4, Pull: stand.PoundsForce(100), Sideways: stand.PoundsForce(100)}
	// On grass it leans by a degree too: 0.4 lb downhill.
	close(t, "four stakes of 100 lb against 20 lb", grass(pegs), 1.5*20.4/400, 1e-2)
}

// TestPlatesWhereTheyAreAsked: left and front move a plate, split does not.
func TestPlatesWhereTheyAreAsked(t *testing.T) {
	f := stood(t, box24(func(s *Spec) {
		s.Base[0].Left, s.Base[0].Front, s.Base[0].Split = ptr(ins(-2)), ptr(ins(10)), true
	}))
	want := []XY{{-2 * 25.4, -10 * 25.4}, {28 * 25.4, -10 * 25.4}, {28 * 25.4, 30 * 25.4}, {-2 * 25.4, 30 * 25.4}}
	for i, p := range want {
		if math.Abs(f.Plan.Hull[i][0]-p[0]) > 1e-3 || math.Abs(f.Plan.Hull[i][1]-p[1]) > 1e-3 {
			t.Errorf("hull %v, want %v", f.Plan.Hull, want)
			break
		}
	}
}

// TestLifting: weights of parts make the frame's; loads of the hands make the
// whole; who lifts is counted.
func TestLifting(t *testing.T) {
	s := spec("B = hexagon: flats 18", "B1 at 0 0", "B2 side 1 on B1 side 4", "B3 side 1 on B2 side 4")
	s.People = []Person{{Name: "Ida", Lifts: true}, {Name: "Sam"}}
	f := stood(t, s)
	sum := 0.0
	for _, h := range f.Lift.Carry.Holds {
		sum += h.Carries.KG
	}
	close(t, "what hands carry", sum, f.Lift.Weight.KG, 1e-2)
	close(t, "six parts", 6*f.Parts[0].Weight.KG, f.Weights[0].Weight.KG, 1e-2)
	if f.Lift.Helpers != 1 || !f.Lift.Short || f.Lift.Carry.People != 2 {
		t.Errorf("%+v", f.Lift)
	}
	if f.Lift.Carry.Most.KG > f.Lift.Carry.Worse.KG || f.Lift.Tilt.People < 1 || f.Lift.Turn == nil {
		t.Errorf("%+v", f.Lift)
	}
}

// TestStandingSaysNothingItMustNot: never safe, and the same twice.
func TestStandingWords(t *testing.T) {
	for name, s := range map[string]Spec{"cluster": cluster(), "box": box24(nil)} {
		a, b := stood(t, s), stood(t, s)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("%s differs from itself", name)
		}
		text, err := json.Marshal(a)
		if err != nil || strings.Contains(strings.ToLower(string(text)), "safe") {
			t.Errorf("%s: %v says safe", name, err)
		}
		if len(a.Findings) > 0 && len(a.Findings[0].Rose) != stand.Directions {
			t.Errorf("%s: %d directions", name, len(a.Findings[0].Rose))
		}
	}
}

// TestBannerSaysWhatIsOver, and that it is an estimate in any case; a pull test
// is proposed only where the sums pass.
func TestBannerSaysWhatIsOver(t *testing.T) {
	over, held := onFeet(t, box24(nil)), onFeet(t, box24(firm))
	if !over.Over || !strings.HasPrefix(banner(over), "OVER. ") || held.Over || strings.Contains(banner(held), "OVER") {
		t.Errorf("%q, %q", banner(over), banner(held))
	}
	for _, f := range []*StandingFacts{over, held} {
		if !strings.HasSuffix(banner(f), "A working estimate, not an engineer's certificate.") || f.Strength == nil || (f.PullTest == nil) != f.Over {
			t.Errorf("%q", banner(f))
		}
	}
}
