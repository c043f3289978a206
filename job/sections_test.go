package job

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// travels is how a job travels.
func travels(t testing.TB, s Spec) *SectionsFacts {
	t.Helper()
	r, snags, err := Sections(context.Background(), s, BuiltIn())
	if err != nil || snags.Stops() || r.Sections == nil {
		t.Fatal(err, snags)
	}
	return r.Sections
}

// through is a job that must pass spots, without wrapping and fingers, measured
// by somebody.
func through(s Spec, spots ...SpotAsked) Spec {
	for _, id := range []assume.ID{assume.SectionsWrap, assume.SectionsFingers} {
		s.Assume = append(s.Assume, Override{ID: string(id), Value: 0, Text: "0", From: "job file"})
	}
	for i := range spots {
		spots[i].Name, spots[i].By = fmt.Sprintf("spot%d", i+1), "Ida"
	}
	s.TightSpots = spots
	return s
}

func door(w, h float64) SpotAsked { return SpotAsked{Kind: "door", Width: ins(w), Height: ins(h)} }

// boards are another stock size.
func boards(s Spec, nominal string) Spec {
	s.Timber[0].Nominal = nominal
	return s
}

// A hexagon of 48 in sides at a door of 34 x 79 in, boards 3 1/2 and 5 1/2 in
// wide, and one of 60 in sides: the notes' own figures, rounded here to the side
// that promises less.
func TestHexagonAtADoor(t *testing.T) {
	at := door(34, 79)
	f := travels(t, through(spec("B = hexagon: side 48", "B1 at 0 0"), at))
	p := f.Sections[0].Passes[0]
	if !p.Passes || p.Hold != "leaned" || math.Abs(p.Lean.Degrees-21.5) > 0.3 || p.Clearance.US != "5/16 in" || math.Abs(p.Clearance.MM-0.34*25.4) > 0.2 {
		t.Errorf("3 1/2 in deep: %+v", p)
	}
	for _, c := range []struct {
		job   Spec
		lacks float64
		text  string
	}{
		{boards(spec("B = hexagon: side 48", "B1 at 0 0"), "1x6"), 0.67, "11/16 in"},
		{spec("B = hexagon: side 60", "B1 at 0 0"), 15.6, "15"},
	} {
		f := travels(t, through(c.job, at))
		if f.Stuck == nil || !f.Over || len(f.Stuck.Passes) != 1 {
			t.Fatalf("%+v passes", f.Says)
		}
		q := f.Stuck.Passes[0]
		if q.Passes || math.Abs(q.Clearance.MM+c.lacks*25.4) > 1.6 || !strings.Contains(q.Says, c.text) || !strings.Contains(q.Says, "does not pass held still; threading is not considered") {
			t.Errorf("misses by %g: %+v", c.lacks, q)
		}
		if !strings.Contains(f.Says, q.Says) {
			t.Errorf("the line %q does not say where", f.Says)
		}
	}
}

// A wall of 2.30 m, 0.45 m deep, stands under 2.32 m and is not tilted up there:
// √(2.30² + 0.45²) = 2.344. It is built up instead.
func TestNoRoomToTilt(t *testing.T) {
	mm := func(x float64) float64 { return x / 25.4 }
	s := spec(fmt.Sprintf("R = rectangle: width %g, height %g", mm(600), mm(2300)), "R1 at 0 0")
	s.Timber[0] = Timber{Name: "pine", Thickness: 20 * unit.Millimetre, Width: 450 * unit.Millimetre, Length: 3 * unit.Metre, Species: "Eastern White Pine"}
	s.Show = "metric"
	s.Assume = []Override{{ID: string(assume.LiftTeamMost), Value: 20, Text: "20", From: "job file"}} // weight is not what this asks
	for _, c := range []struct {
		high float64
		way  string
		over bool
	}{{2400, "laid flat and tilted up", false}, {2320, "built up from the base", false}, {2290, "built up from the base", true}} {
		f := travels(t, through(s, SpotAsked{Kind: "ceiling", Height: unit.Length(c.high) * unit.Millimetre}))
		if f.Way != c.way || f.Over != c.over {
			t.Errorf("under %g mm: %s (%s), over %v: %s", c.high, f.Way, f.Because, f.Over, f.Says)
		}
		rises := f.Spots[0].Tilting.MM
		if want := c.high - math.Hypot(2300, 450); math.Abs(rises-want) > 0.6 {
			t.Errorf("under %g mm %g is left while it is tilted up, want %g", c.high, rises, want)
		}
	}
}

// Three or four times as long for strangers, against the window: 12 person-hours
// of makers are 36 to 48 of strangers, as a quarter of them here.
func TestWindow(t *testing.T) {
	s := through(hexagons(), door(34, 79))
	makers := travels(t, s)
	o := makers.Build
	if math.Abs(o.Least.Minutes-3*o.Makers.Minutes) > 1e-3 || math.Abs(o.Most.Minutes-4*o.Makers.Minutes) > 1e-3 || o.Window != nil || !o.Fits {
		t.Fatalf("%+v", o)
	}
	s.Sections.Window = o.Makers.Minutes
	if f := travels(t, s); f.Over || f.Build.By != "makers" || !f.Build.Fits {
		t.Errorf("makers: %s", f.Says)
	}
	s.Sections.By = "strangers"
	if f := travels(t, s); !f.Over || f.Build.Fits || !strings.Contains(f.Says, "putting it up takes strangers "+o.Most.Text) {
		t.Errorf("strangers: %s", f.Says)
	}
	s.Sections.Window = o.Most.Minutes
	if f := travels(t, s); f.Over {
		t.Errorf("with the time they take: %s", f.Says)
	}
}

// Together, apart and site seams are kept to, and stand among what the number
// rests on.
func TestWishes(t *testing.T) {
	s := through(hexagons(), door(60, 90))
	if f := travels(t, s); len(f.Sections) != 1 || f.Says != "it travels in one" || len(f.Site) != 0 {
		t.Fatalf("as it is: %s", f.Says)
	}
	first, last := s.Layout[0].ID, s.Layout[1].ID
	s.Sections.Apart = [][]string{{first, last}}
	f := travels(t, s)
	if len(f.Sections) != 2 || !f.Proved || !slices.ContainsFunc(f.Rests, func(x string) bool { return strings.HasPrefix(x, "kept apart: ") }) {
		t.Errorf("apart: %s, %v", f.Says, f.Rests)
	}
	s.Sections.Together = [][]string{{first, last}}
	if f := travels(t, s); !f.Over || f.Stuck == nil {
		t.Errorf("both: %s", f.Says)
	}
	s.Sections = SectionsAsked{}
	s.Fixing.Seams = []SeamAsked{{Key: first + " and " + last, Frames: [2]string{first, last}, Site: true}}
	if f := travels(t, s); len(f.Sections) != 2 || len(f.Site) == 0 || !strings.Contains(f.Says, "bolts in") {
		t.Errorf("a site seam: %s", f.Says)
	}
}

// Every frame is in one section, each step's seams are of the job, and what is
// driven on site is undone at the strike, whatever the door.
func TestSectionsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "frames")
		lines := []string{"B = hexagon: side 10", "B1 at 0 0"}
		for i := 2; i <= n; i++ {
			lines = append(lines, fmt.Sprintf("B%d side 4 on B%d side 1", i, i-1))
		}
		s := through(spec(lines...), door(rapid.Float64Range(18, 40).Draw(t, "wide"), rapid.Float64Range(30, 90).Draw(t, "high")))
		r, snags, err := Sections(context.Background(), s, BuiltIn())
		if err != nil || snags.Stops() {
			t.Fatal(err, snags)
		}
		f := r.Sections
		if f.Stuck != nil || f.Blocked != nil {
			t.Fatal(f.Says)
		}
		var in []string
		mass := 0.0
		for _, x := range f.Sections {
			in = append(in, x.Frames...)
			mass += x.Weight.KG
			for _, p := range x.Passes {
				if !p.Passes || p.Clearance.MM < 0 {
					t.Fatalf("%s does not pass: %s", x.Letter, p.Says)
				}
			}
		}
		slices.Sort(in)
		if len(in) != n || len(slices.Compact(in)) != n {
			t.Fatalf("%v in sections, of %d", in, n)
		}
		if math.Abs(mass-r.Overall.Weight.KG) > 0.01 {
			t.Fatalf("sections weigh %g, the whole %g", mass, r.Overall.Weight.KG)
		}
		count := 0
		for _, x := range f.Site {
			count += x.Count
		}
		shop := 0
		for _, x := range f.Shop {
			shop += x.Count
		}
		all := 0
		for _, x := range r.Fixing.Seams {
			all += x.Count
		}
		if count != f.Screws || f.Build.Count != count || f.Strike.Count != count || shop+count != all {
			t.Fatalf("screws: %d at site seams, %d, %d driven, %d undone, %d in the shop, %d in all", count, f.Screws, f.Build.Count, f.Strike.Count, shop, all)
		}
	})
}

// A spot that nobody measured is said to be unverified, on the papers too.
func TestUnverified(t *testing.T) {
	s := through(hexagons(), door(40, 90), door(41, 90))
	s.TightSpots[1].By = ""
	r, _, err := Plan(context.Background(), s, BuiltIn())
	if err != nil || r.Sections == nil {
		t.Fatal(err)
	}
	if a, b := r.Sections.Spots[0], r.Sections.Spots[1]; !a.Verified || a.By != "Ida" || b.Verified {
		t.Errorf("%+v %+v", a, b)
	}
	if !slices.ContainsFunc(r.Notes, func(n Note) bool {
		return n.Code == "tight-spot-unverified" && strings.Contains(n.Text, "spot2") && !strings.Contains(n.Text, "spot1")
	}) {
		t.Error("no note says so")
	}
}

// A vehicle that carries less than all weighs is over; one that carries less
// than a section parts it.
func TestPayload(t *testing.T) {
	van := SpotAsked{Kind: "vehicle", Length: ins(120), Width: ins(80), Height: ins(80), Payload: 500}
	whole := travels(t, through(hexagons(), van))
	if whole.Over || len(whole.Sections) != 1 {
		t.Fatal(whole.Says)
	}
	kg := whole.Sections[0].Weight.KG
	van.Payload = unit.Mass(kg * 0.9)
	f := travels(t, through(hexagons(), van))
	if !f.Over || !strings.Contains(f.Says, "all together weighs") || len(f.Sections) < 2 {
		t.Errorf("%s, %d sections", f.Says, len(f.Sections))
	}
	lift := SpotAsked{Kind: "lift", Depth: ins(120), Width: ins(80), Height: ins(80), Payload: unit.Mass(kg * 0.9)}
	if f := travels(t, through(hexagons(), lift)); f.Over || len(f.Sections) < 2 {
		t.Errorf("a lift goes twice: %s", f.Says)
	}
}

// A job without tight spots is as it was.
func TestNoSpotsNoSections(t *testing.T) {
	r, _, err := Plan(context.Background(), hexagons(), BuiltIn())
	if err != nil || r.Sections != nil {
		t.Error(err, r.Sections)
	}
	for _, a := range r.Assumed {
		if strings.HasPrefix(a.ID, "sections.") {
			t.Errorf("%s is listed", a.ID)
		}
	}
}

// More room never makes more sections.
func TestMoreRoomNeverMoreSections(t *testing.T) {
	wall := spec("B = hexagon: side 10", "B1 at 0 0", "B2 side 4 on B1 side 1", "B3 side 4 on B1 side 3", "B4 side 4 on B3 side 1")
	last := math.MaxInt
	for wide := 6.0; wide <= 54; wide += 6 {
		f := travels(t, through(wall, door(wide, 18)))
		n := len(f.Sections)
		if f.Stuck != nil {
			n = math.MaxInt
		}
		if n > last {
			t.Errorf("a door of %g in: %d sections, narrower %d", wide, n, last)
		}
		last = n
	}
	if last != 1 {
		t.Errorf("at the end %d sections", last)
	}
}

func BenchmarkSections(b *testing.B) {
	s := through(hexagons(), door(24, 79), SpotAsked{Kind: "corridor", Width: ins(40), Height: ins(90)})
	for b.Loop() {
		travels(b, s)
	}
}
