package layout

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// All figures from plane geometry: with the big one's centre at the origin its
// right corner is (600, 0), the 400s are centred (+-800, 346.4), the 200s
// (+-700, -173.2).
func TestClusterOfFive(t *testing.T) {
	kinds, places := cluster()
	l := lay(t, kinds, places, Settings{})
	h := math.Sqrt(3) / 2
	origin := geom.Point{X: 1200, Y: 600 * h}
	wantPoint(t, "origin", l.Origin, origin, 1e-9)
	for id, c := range map[string]geom.Point{
		"B": {}, "M1": {X: -800, Y: 400 * h}, "M2": {X: 800, Y: 400 * h}, "S1": {X: -700, Y: -200 * h}, "S2": {X: 700, Y: -200 * h},
	} {
		wantPoint(t, id, l.frame(t, id).Centre, origin.Add(c), 1e-9)
	}
	wantNear(t, "width", l.Width, 2400, 1e-9)
	wantNear(t, "height", l.Height, 1212.4, 0.05)
	want := "B.2 S2.5 200.00\nB.3 M2.6 400.00\nB.5 M1.2 400.00\nB.6 S1.3 200.00\nM1.1 S1.4 200.00\nM2.1 S2.4 200.00"
	if got := seamList(l); got != want {
		t.Errorf("seams:\n%s\nwant:\n%s", got, want)
	}
	wantNear(t, "doubled", l.Doubled, 1600, 1e-6)
	meeting := origin.Add(geom.Point{X: 600})
	for _, id := range []string{"B", "M2", "S2"} {
		if d := nearestCorner(l.frame(t, id), meeting); d > 1e-9 {
			t.Errorf("%s has no corner where three meet: %g mm off", id, d)
		}
	}
	if len(l.Touches)+len(l.Misses)+len(l.Overlaps) != 0 {
		t.Errorf("touches %v, misses %v, overlaps %v: want none", l.Touches, l.Misses, l.Overlaps)
	}
	if len(l.Standing) != 1 || l.Standing[0].Side != 1 || len(l.Groups) != 1 {
		t.Fatalf("standing %+v, groups %v", l.Standing, l.Groups)
	}
	wantNear(t, "standing", l.Standing[0].To-l.Standing[0].From, 600, 1e-9)
	hang := map[string]float64{}
	for _, f := range l.Hanging {
		hang[l.Frames[f.Frame].ID] = f.Clearance
	}
	wantNear(t, "mediums above the floor", hang["M1"], 519.6, 0.05)
	wantNear(t, "smalls above the floor", hang["S2"], 173.2, 0.05)
}

func nearestCorner(f Frame, p geom.Point) float64 {
	d := math.Inf(1)
	for _, c := range f.Outside {
		d = min(d, c.Dist(p))
	}
	return d
}

func seamFrames(l Layout) []string {
	var out []string
	for _, s := range l.Seams {
		a, b := l.Frames[s.Sides[0].Frame].ID, l.Frames[s.Sides[1].Frame].ID
		out = append(out, fmt.Sprintf("%s %s %.1f", min(a, b), max(a, b), s.Length))
	}
	sort.Strings(out)
	return out
}

func TestCombWall(t *testing.T) {
	kinds, places, seams := combWall(t)
	l := lay(t, kinds, places, Settings{})
	if got := seamFrames(l); !slices.Equal(got, seams) {
		t.Errorf("seams:\n%s\nwant:\n%s", strings.Join(got, "\n"), strings.Join(seams, "\n"))
	}
	wantNear(t, "width in inches", l.Width/25.4, 124, 1e-3)
	wantNear(t, "height in inches", l.Height/25.4, 90.0666, 1e-3)
	if len(l.Groups) != 1 || len(l.Misses) != 0 || len(l.Overlaps) != 0 {
		t.Errorf("groups %v, misses %v, overlaps %v", l.Groups, l.Misses, l.Overlaps)
	}
}

// Reading order of the wall: rows of the honeycomb from the top, and the same
// whatever order the frames are listed in.
func TestNumbersDoNotHangOnTheList(t *testing.T) {
	kinds, places, _ := combWall(t)
	first := lay(t, kinds, places, Settings{})
	rapid.Check(t, func(r *rapid.T) {
		shuffled := rapid.Permutation(places).Draw(r, "places")
		l := lay(t, kinds, shuffled, Settings{})
		for _, f := range l.Frames {
			if want := first.frame(t, f.ID).Number; f.Number != want {
				r.Fatalf("%s is number %d, was %d", f.ID, f.Number, want)
			}
		}
		for i, s := range l.Seams {
			if s.Number != i+1 || s.Middle().Dist(first.Seams[i].Middle()) > 1e-6 {
				r.Fatalf("seam %d moved", s.Number)
			}
		}
	})
}

func TestTurningAJobChangesNoFigure(t *testing.T) {
	ck, cp := cluster()
	wk, wp, _ := combWall(t)
	for _, job := range []struct {
		kinds  []Kind
		places []Place
	}{{ck, cp}, {wk, wp}} {
		still := lay(t, job.kinds, job.places, Settings{Gap: 0})
		rapid.Check(t, func(r *rapid.T) {
			a := rapid.Float64Range(-math.Pi, math.Pi).Draw(r, "turn")
			l := lay(t, job.kinds, turned(job.places, a), Settings{})
			if got, want := seamList(l), seamList(still); got != want {
				r.Fatalf("seams:\n%s\nwant:\n%s", got, want)
			}
			if len(l.Touches) != len(still.Touches) || len(l.Misses)+len(l.Overlaps) != 0 {
				r.Fatalf("%d touches, was %d; misses %v", len(l.Touches), len(still.Touches), l.Misses)
			}
			wantNear(t, "doubled", l.Doubled, still.Doubled, 1e-6)
		})
	}
}

// A mirrored job is the job seen from the back.
func TestMirroredJobIsTheBack(t *testing.T) {
	kinds, places, _ := combWall(t)
	places[3].Turn, places[3].Mirror = 0.3, true
	l, _ := Build(kinds, places, Settings{})
	back := Back(l)
	m, _ := Build(kinds, mirrored(places), Settings{})
	for _, f := range m.Frames {
		b := back.frame(t, f.ID)
		for k := range f.Outside {
			wantPoint(t, fmt.Sprint(f.ID, " corner ", k+1), f.Outside[k], b.Outside[k], 1e-9)
			wantPoint(t, fmt.Sprint(f.ID, " inside ", k+1), f.Inside[k], b.Inside[k], 1e-9)
		}
		wantPoint(t, f.ID+" centre", f.Centre, b.Centre, 1e-9)
		wantPoint(t, f.ID+" up", f.Up, b.Up, 1e-9)
		wantPoint(t, f.ID+" moved", b.Move.Apply(geom.Point{X: 3, Y: 5}), f.Move.Apply(geom.Point{X: 3, Y: 5}), 1e-9)
		if f.TopSide != b.TopSide || f.Move.Mirror != b.Move.Mirror {
			t.Errorf("%s: top side %d and %d", f.ID, f.TopSide, b.TopSide)
		}
	}
	if got, want := seamList(m), seamList(back); got != want {
		t.Errorf("seams:\n%s\nwant:\n%s", got, want)
	}
	if len(m.Overlaps) == 0 || len(m.Overlaps) != len(back.Overlaps) || len(m.Misses) != len(back.Misses) {
		t.Errorf("overlaps %d and %d, misses %d and %d", len(m.Overlaps), len(back.Overlaps), len(m.Misses), len(back.Misses))
	}
	for i, c := range m.Clear {
		wantNear(t, "clear width", c.Width(), back.Clear[i].Width(), 1e-9)
		wantNear(t, "its left", c.Left, back.Clear[i].Left, 1e-9)
	}
}

// One touch, one near miss and one overlap, seen from both sides.
func TestBackOfWhatIsNoSeam(t *testing.T) {
	kinds := []Kind{regular("sq", 4, 300)}
	front, _ := Build(kinds, []Place{at("A", "sq", 0, 0), at("B", "sq", 300, 300), at("C", "sq", 605, 300), at("D", "sq", 900, 300)}, Settings{})
	back := Back(front)
	if len(back.Touches) != 1 || len(back.Misses) != 1 || len(back.Overlaps) != 1 {
		t.Fatalf("touches %v, misses %v, overlaps %v", back.Touches, back.Misses, back.Overlaps)
	}
	wantNear(t, "width", back.Width, 1200, 1e-9)
	wantPoint(t, "touch", back.Touches[0].At, geom.Point{X: 900, Y: 300}, 1e-9)
	wantPoint(t, "near miss", back.Misses[0].At, geom.Point{X: 597.5, Y: back.Misses[0].At.Y}, 1e-9)
	wantPoint(t, "towards", back.Misses[0].Towards, geom.Point{X: -1}, 1e-9)
	wantPoint(t, "overlap", back.Overlaps[0].At, geom.Point{X: 297.5, Y: 450}, 1e-9)
	wantPoint(t, "origin", back.Origin, geom.Point{X: 1050, Y: 150}, 1e-9)
}

func TestBackOfTheBackIsTheFront(t *testing.T) {
	kinds, places := cluster()
	kinds = append(kinds, archOf("arch", 900, 2000))
	places = append(places, at("A", "arch", 3000, -600*math.Sqrt(3)/2))
	l := lay(t, kinds, places, Settings{})
	if b := Back(l); !b.FromBack || b.Feet[0].From < 0 || b.Feet[1].To > l.Width/3 {
		t.Errorf("the arch stands right from the front, left from behind; feet %+v", b.Feet)
	}
	again := Back(Back(l))
	if got, want := rounded(t, again), rounded(t, l); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// rounded writes a layout out with its numbers to 1/1000 mm.
func rounded(t *testing.T, l Layout) string {
	t.Helper()
	text, err := json.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	number := regexp.MustCompile(`-?\d+\.?\d*(e[-+]\d+)?`)
	return number.ReplaceAllStringFunc(string(text), func(s string) string {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return fmt.Sprintf("%.3f", math.Round(v*1000)/1000+0) // + 0 takes the sign off a zero
	})
}

// Seven hexagons closed round one another, every seam a gap wider.
func TestHoneycombClosesWithGaps(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		side := rapid.Float64Range(60, 700).Draw(r, "side")
		gap := rapid.Float64Range(0, 3).Draw(r, "gap")
		kinds, places := honeycombRing(side)
		l := lay(t, kinds, places, Settings{Gap: gap, JointTolerance: 0.01})
		if len(l.Seams) != 12 || len(l.Touches)+len(l.Misses) > 0 {
			r.Fatalf("%d seams, touches %v, misses %v", len(l.Seams), l.Touches, l.Misses)
		}
		for _, s := range l.Seams {
			if !near(s.Gap, gap, 1e-9) || !near(s.Length, side, 1e-9) || !s.Flush {
				r.Fatalf("seam %+v", s)
			}
		}
		flats := side * math.Sqrt(3)
		wantNear(t, "height", l.Height, 3*flats+2*gap, 1e-6)
		wantNear(t, "width", l.Width, 2*side+2*(flats+gap)*math.Sqrt(3)/2, 1e-6)
	})
}

// honeycombRing lays six hexagons round one, and holds each to the next.
func honeycombRing(side float64) ([]Kind, []Place) {
	places := []Place{at("0", "hex", 0, 0)}
	for k := 1; k <= 6; k++ {
		opposite := (k+2)%6 + 1
		a := []Attach{{To: "0", Side: opposite, ToSide: k}}
		if k > 1 {
			a = append(a, Attach{To: fmt.Sprint(k - 1), Side: (k+3)%6 + 1, ToSide: k%6 + 1})
		}
		places = append(places, on(fmt.Sprint(k), "hex", a...))
	}
	return []Kind{regular("hex", 6, side)}, places
}

// Hexagon, six squares on its sides and six triangles between them close.
func TestTrianglesSquaresAndHexagon(t *testing.T) {
	kinds := []Kind{regular("hex", 6, 300), regular("sq", 4, 300), regular("tri", 3, 300)}
	places := []Place{at("H", "hex", 0, 0)}
	for k := 1; k <= 6; k++ {
		sq, next := fmt.Sprint("S", k), fmt.Sprint("S", k%6+1)
		places = append(places,
			on(fmt.Sprint("T", k), "tri", Attach{To: sq, Side: 1, ToSide: 4}, Attach{To: next, Side: 3, ToSide: 2}),
			on(sq, "sq", Attach{To: "H", Side: 1, ToSide: k}))
	}
	l, problems := Build(kinds, places, Settings{})
	if len(problems) > 0 || len(l.Seams) != 18 || len(l.Misses) > 0 {
		t.Fatalf("%v; %d seams, misses %v", codes(problems), len(l.Seams), l.Misses)
	}
	for _, s := range l.Seams {
		if !s.Flush || !near(s.Length, 300, 1e-9) {
			t.Errorf("seam %+v is not flush", s)
		}
	}
	wantNear(t, "doubled", l.Doubled, 18*300, 1e-6)
}

// Two rings of many short sides meet along one side: the sides beside it are
// near each other too, and are no near misses.
func TestManySidedRingsMeetOnce(t *testing.T) {
	kinds := []Kind{regular("ring", 24, 60)}
	l := lay(t, kinds, []Place{at("A", "ring", 0, 0), on("B", "ring", Attach{To: "A", Side: 19, ToSide: 7})}, Settings{})
	if len(l.Seams) != 1 || len(l.Touches)+len(l.Misses) != 0 {
		t.Errorf("%d seams, touches %v, misses %v", len(l.Seams), l.Touches, l.Misses)
	}
}

func TestUpAndTopSide(t *testing.T) {
	kinds := []Kind{regular("hex", 6, 300)}
	for _, c := range []struct {
		turn   float64
		mirror bool
		up     geom.Point
		top    int
	}{
		{0, false, geom.Point{Y: 1}, 4},
		{math.Pi / 3, false, geom.Point{X: math.Sqrt(3) / 2, Y: 0.5}, 3},
		{math.Pi / 3, true, geom.Point{X: -math.Sqrt(3) / 2, Y: 0.5}, 5},
		{math.Pi, true, geom.Point{Y: -1}, 1},
	} {
		p := at("A", "hex", 0, 0)
		p.Turn, p.Mirror = unit.Angle(c.turn), c.mirror
		f := lay(t, kinds, []Place{p}, Settings{}).Frames[0]
		wantPoint(t, "up", f.Up, c.up, 1e-9)
		if f.TopSide != c.top {
			t.Errorf("turned %.2f, mirrored %v: top side %d, want %d", c.turn, c.mirror, f.TopSide, c.top)
		}
		_, _, out := f.Side(c.top)
		wantPoint(t, "way out of the top side", out, geom.Point{Y: 1}, 1e-9)
	}
}

func TestMovedBetweenAskedAndBuilt(t *testing.T) {
	_, places := cluster()
	asked, _ := cluster()
	built := []Kind{regular("big", 6, 602), regular("mid", 6, 400), regular("small", 6, 200)}
	a, b := lay(t, asked, places, Settings{}), lay(t, built, places, Settings{})
	// Its corners go out 2 mm each way and its centre up by half of 2 sqrt 3; the
	// left end, a corner of M1, stays at 0.
	right := map[string]float64{"M1": 0, "S1": 0, "B": 2, "M2": 4, "S2": 4}
	for _, m := range Moved(a, b) {
		wantPoint(t, m.ID, m.By, geom.Point{X: right[m.ID], Y: math.Sqrt(3)}, 1e-9)
		wantNear(t, "turn", float64(m.Turn), 0, 1e-12)
	}
	if n := len(Moved(a, b)); n != 5 {
		t.Errorf("%d frames moved, want 5", n)
	}
}
