package job

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// seamOf finds how the seam between two frames, by their ids, is fixed.
func seamOf(t testing.TB, r Result, a, b string) SeamFixing {
	t.Helper()
	want := []string{frameOf(t, r, a).Label, frameOf(t, r, b).Label}
	for _, s := range r.Fixing.Seams {
		if slices.Contains(s.Frames[:], want[0]) && slices.Contains(s.Frames[:], want[1]) {
			return s
		}
	}
	t.Fatalf("no seam between %s and %s", a, b)
	return SeamFixing{}
}

// fixings are jobs of every method, with hooks, site seams and mirrored frames.
func fixings() map[string]Spec {
	site := with(cluster(), func(s *Spec) {
		s.Fixing.Seams = []SeamAsked{{Key: "B1 and B2", Frames: [2]string{"B2", "B1"}, Site: true}}
		s.Fixing.Hooks = []HooksAsked{{Key: "B1 side 2", Frame: "B1", Side: 2, Count: 3}, {Key: "B1 side 2", Frame: "B1", Side: 2, Count: 1, Ties: true}}
	})
	flat := spec("Q = square: side 24, flat", "Q1 at 0 0", "Q2 side 1 on Q1 side 3", "Q3 side 4 on Q1 side 2, shifted -4")
	battens := flat
	battens.Fixing.Flat = "battens"
	bored := flat
	bored.Fixing.Flat = "counterbored bolts"
	often := cluster()
	often.Fixing.Often = true
	inserts := often
	inserts.Fixing.Inserts = true
	metric := cluster()
	metric.Show, metric.Fixing.Often = "metric", true
	rows := cluster()
	rows.Fixing.Rows = 2
	mirrored := spec("K = kite: width 20, top 12, bottom 18", "K1 at 0 0", "K2 at 60 0, mirrored", "B = square: side 10", "B1 side 1 on K1 side 2", "B2 side 1 on K2 side 2")
	return map[string]Spec{"cluster": cluster(), "site": site, "plates": flat, "battens": battens, "bored": bored, "often": often,
		"inserts": inserts, "metric": metric, "mirrored": mirrored, "rows": rows}
}

// What the bags hold is what is driven, what is bought is what the bags hold
// with the hooks, and every seam is on one drill sheet.
func TestFixingCounts(t *testing.T) {
	for name, s := range fixings() {
		r := worked(t, s)
		f := r.Fixing
		if len(f.Seams) != len(r.Seams) || len(f.Undone) != 0 {
			t.Errorf("%s: %d fixings of %d seams, undone %v", name, len(f.Seams), len(r.Seams), f.Undone)
		}
		bags, sheets := map[string]int{}, map[int]int{}
		for _, d := range f.Sheets {
			for _, n := range d.Seams {
				sheets[n] = d.Number
			}
		}
		for i, m := range f.Seams {
			in := map[string]int{}
			for _, item := range m.Bag {
				in[item.Thing] = item.Count
				bags[item.Thing] += item.Count
			}
			driven := map[string]int{}
			for _, d := range m.Fasteners {
				driven[d.Thing]++
			}
			for thing, n := range driven {
				if in[thing] != n {
					t.Errorf("%s: the bag of seam %d holds %d %s, %d are driven", name, m.Number, in[thing], thing, n)
				}
			}
			if m.Number != r.Seams[i].Number || sheets[m.Number] != m.Sheet || m.Count != len(m.Fasteners) || m.Count < 2 {
				t.Errorf("%s: seam %d is in place %d, on sheet %d and %d, with %d of %d", name, m.Number, i, m.Sheet, sheets[m.Number], m.Count, len(m.Fasteners))
			}
		}
		for _, h := range f.Hooks {
			bags[h.Thing]++
		}
		for _, x := range f.Totals {
			if bags[x.Thing] != x.Count || x.Boxes != (x.Count+x.Pack-1)/x.Pack {
				t.Errorf("%s: %d %s in the bags, %+v", name, bags[x.Thing], x.Thing, x)
			}
			delete(bags, x.Thing)
		}
		if len(bags) > 0 {
			t.Errorf("%s: not bought: %v", name, bags)
		}
	}
}

// Face down one looks along the screw from the heads' board: the corner that
// places are measured from is then at the left hand, and measuring along the
// outside from it, or along either side from its own corner, comes to the screw.
func TestPlacesFromTheLeft(t *testing.T) {
	for name, s := range fixings() {
		r := worked(t, s)
		frames := map[string]FrameFacts{}
		for _, f := range r.Frames {
			frames[f.Label] = f
		}
		for _, m := range r.Fixing.Seams {
			head := frames[m.Head]
			side := m.Sides[0]
			if m.Head == m.Frames[1] {
				side = m.Sides[1]
			}
			n := len(head.Outside)
			ends := [2]int{side, side%n + 1}
			other := ends[0] + ends[1] - m.Left
			if m.Left != ends[0] && m.Left != ends[1] {
				t.Fatalf("%s: corner %d is no end of side %d", name, m.Left, side)
			}
			from, to := point2(head.Outside[m.Left-1]), point2(head.Outside[other-1])
			for _, d := range m.Fasteners {
				at := from.Add(to.Sub(from).Unit().Mul(d.From.MM))
				if m.Arrow != (XY{}) {
					// Along the axis from the head: the sideways place of the head.
					axis := point2(m.Arrow)
					near(t, fmt.Sprintf("%s: seam %d, sideways", name, m.Number), point2(d.At).Sub(at).Dot(axis.Perp()), 0, 0.01)
					// From behind x is turned over: left of the way one looks.
					look, left := geom.Point{X: -axis.X, Y: axis.Y}, geom.Point{X: -(from.X - at.X), Y: from.Y - at.Y}
					if look.Cross(left) <= 0 {
						t.Errorf("%s: seam %d: corner %d is not at the left hand", name, m.Number, m.Left)
					}
				}
				for k, label := range m.Frames {
					f := frames[label]
					a, b := point2(f.Outside[m.Sides[k]-1]), point2(f.Outside[m.Sides[k]%len(f.Outside)])
					q := a.Add(b.Sub(a).Unit().Mul(d.Along[k].MM))
					near(t, fmt.Sprintf("%s: seam %d, along %s", name, m.Number, label), q.Sub(at).Dot(to.Sub(from).Unit()), 0, 0.01)
				}
			}
		}
	}
}

func point2(q XY) geom.Point { return geom.Point{X: q[0], Y: q[1]} }

// From behind left and right change places, up and down do not.
func TestWayFromBack(t *testing.T) {
	turned := strings.NewReplacer("left", "right", "right", "left")
	for name, s := range fixings() {
		for _, m := range worked(t, s).Fixing.Seams {
			if m.Arrow != (XY{}) && m.WayBack != turned.Replace(m.Way) {
				t.Errorf("%s: seam %d is driven %s, from behind %s", name, m.Number, m.Way, m.WayBack)
			}
		}
	}
}

// Seams on one sheet have the same figures on paper, and no two sheets of one
// kind of frame have all the same.
func TestSheetsAreAlike(t *testing.T) {
	for name, s := range fixings() {
		f := worked(t, s).Fixing
		first := map[int][]string{}
		for _, m := range f.Seams {
			var figures []string
			for _, d := range m.Fasteners {
				figures = append(figures, alike(d)...)
			}
			if was, ok := first[m.Sheet]; ok && !slices.Equal(was, figures) {
				t.Errorf("%s: seam %d is on sheet %d with other figures", name, m.Number, m.Sheet)
			}
			first[m.Sheet] = figures
		}
		for _, d := range f.Sheets {
			if !slices.IsSorted(d.Seams) || len(d.Axes) != f.Seams[d.Seams[0]-1].Count {
				t.Errorf("%s: sheet %d of seams %v has %d axes", name, d.Number, d.Seams, len(d.Axes))
			}
		}
	}
	if f := worked(t, cluster()).Fixing; len(f.Sheets) >= len(f.Seams) {
		t.Errorf("%d sheets for %d seams of like hexagons", len(f.Sheets), len(f.Seams))
	}
}

// Two boards of 3/4 in take a screw of 1 1/4 in, two of 18 mm one of 30 mm
// (common practice, no source): the length that holds and does not come out.
func TestUsualScrews(t *testing.T) {
	for _, c := range []struct{ board, show, thing string }{
		{"1x4", "us", "No. 8 x 1 1/4 in"}, {"18x95", "metric", "4 x 30 mm"},
	} {
		s := hexagons()
		s.Timber[0].Nominal, s.Show = c.board, c.show
		for _, m := range worked(t, s).Fixing.Seams {
			if m.Thing != c.thing || m.Method != "screws" {
				t.Errorf("%s: seam %d has %s %s, want %s", c.board, m.Number, m.Method, m.Thing, c.thing)
			}
		}
	}
}

// A seam is fixed as the job decides.
func TestChoices(t *testing.T) {
	ask := func(change func(*SeamAsked)) SeamFixing {
		s := hexagons()
		a := SeamAsked{Key: "B1 and B2", Frames: [2]string{"B1", "B2"}}
		change(&a)
		s.Fixing.Seams = []SeamAsked{a}
		return seamOf(t, worked(t, s), "B1", "B2")
	}
	if m := ask(func(a *SeamAsked) { a.One = true }); m.Count != 1 || !slices.Contains(m.NoteCodes, "pivot") || !strings.Contains(strings.Join(m.Warnings, " "), "pivot") {
		t.Errorf("one screw: %d, %v", m.Count, m.Warnings)
	}
	if m := ask(func(a *SeamAsked) { a.Bolts = true }); m.Method != "bolts" || m.Site || len(m.Pegs) != 0 || m.Tool != "spanner" {
		t.Errorf("bolts: %+v", m)
	}
	if m := ask(func(a *SeamAsked) { a.Rows = 2 }); m.Count != 4 || m.Rows != 2 || m.Fasteners[0].From != m.Fasteners[1].From || m.Fasteners[0].Depth.MM-m.Fasteners[1].Depth.MM < 12 {
		t.Errorf("two rows: %d in %d, %+v", m.Count, m.Rows, m.Fasteners)
	}
	site := ask(func(a *SeamAsked) { a.Site = true })
	if site.Method != "bolts" || !site.Site || len(site.Pegs) != 2 {
		t.Errorf("site seam: %+v", site)
	}
	if a, b := site.Pegs[0].Depth.MM, site.Pegs[1].Depth.MM; a == b {
		t.Errorf("both pegs are %g mm deep: it goes together both ways round", a)
	}
	if m := ask(func(a *SeamAsked) { a.Site, a.Screws = true, true }); m.Method != "screws" || !slices.Contains(m.NoteCodes, "redriven") || len(m.Pegs) != 2 {
		t.Errorf("site seam with screws: %+v", m)
	}
}

// What the job says of screws, of dressing and of eyes is heard.
func TestFixingAsked(t *testing.T) {
	plain := hexagons()
	base := seamOf(t, worked(t, plain), "B1", "B2")
	s := plain
	s.Fixing.Screws = []string{"No. 6"}
	if m := seamOf(t, worked(t, s), "B1", "B2"); !strings.HasPrefix(m.Thing, "No. 6 ") {
		t.Errorf("No. 6 asked for, %s", m.Thing)
	}
	s = plain
	s.Fixing.Lengths = []unit.Length{inches("1")}
	if m := seamOf(t, worked(t, s), "B1", "B2"); base.Thing != "No. 8 x 1 1/4 in" || m.Fixed || !strings.Contains(m.Cannot, "holds in the second board") {
		t.Errorf("with 1 in at hand alone: %s, %s", m.Thing, m.Cannot)
	}
	// One eye on the floor, right under the seam, sees heads that look down.
	s = plain
	s.Fixing.Eyes = []EyeAsked{{Name: "cat", Height: 0, Distance: ptr(inches("40")), Left: ptr(inches("10"))}}
	seen := seamOf(t, worked(t, s), "B1", "B2")
	if seen.Looks != 2 || len(worked(t, s).Fixing.Eyes) != 1 || worked(t, s).Fixing.Eyes[0].Name != "cat" {
		t.Errorf("one eye and two heads make %d looks", seen.Looks)
	}
	if seen.Way != "down" {
		t.Errorf("a cat looks up, and the seam is driven %s", seen.Way)
	}
	s.Fixing.DressedBelow = inches("90")
	if m := seamOf(t, worked(t, s), "B1", "B2"); m.Seen != 0 {
		t.Errorf("under the dressing %d heads are seen", m.Seen)
	}
}

// A driver that is too long for the frame on both sides leaves the seam undone:
// the job goes on, the seam is named, a right-angle head puts it right.
func TestUndoneSeam(t *testing.T) {
	s := spec("S = square: side 8", "S1 at 0 0", "S2 side 1 on S1 side 3")
	s.Driver = Driver{Length: inches("20"), Width: inches("10")}
	r := worked(t, s)
	if len(r.Fixing.Undone) != 1 || r.Fixing.Undone[0] != 1 || r.Fixing.Seams[0].Fixed || r.Fixing.Seams[0].Sheet != 0 || len(r.Fixing.Totals) != 0 {
		t.Fatalf("%+v", r.Fixing)
	}
	n := noted(r, "seam-cannot-be-fixed")
	if len(n) != 1 || !strings.Contains(n[0].Text, "seam 1 cannot be fixed as drawn") || !strings.Contains(n[0].Do, "right-angle head") {
		t.Errorf("%+v", n)
	}
	s.Driver.RightAngle = true
	if m := worked(t, s).Fixing.Seams[0]; !m.Fixed || m.Tool != "right-angle head" {
		t.Errorf("%+v", m)
	}
	s.Driver.RightAngle, s.Fixing.Often = false, true
	if m := worked(t, s).Fixing.Seams[0]; !m.Fixed || m.Method != "bolts" {
		t.Errorf("%+v", m)
	}
}

// Site seams above the reach of hands are told, others and low ones are not.
func TestStepsNote(t *testing.T) {
	s := spec("R = rectangle: width 24, height 80", "Q = square: side 20", "R1 at 0 0", "Q1 side 1 on R1 side 3")
	if n := noted(worked(t, s), "steps-needed"); len(n) != 0 {
		t.Errorf("%+v", n)
	}
	s.Fixing.Seams = []SeamAsked{{Frames: [2]string{"R1", "Q1"}, Site: true}}
	if n := noted(worked(t, s), "steps-needed"); len(n) != 1 || !strings.Contains(n[0].Text, "seam 1") {
		t.Errorf("%+v", n)
	}
	s.Kinds[0].Lengths["height"] = inches("60")
	if n := noted(worked(t, s), "steps-needed"); len(n) != 0 {
		t.Errorf("%+v", n)
	}
}

// What stands on an arch that people go through, or over their heads, by one
// seam alone is told; a second seam puts it right, and low things need none.
func TestOneFixingOverhead(t *testing.T) {
	gate := spec("A = arch on legs: width 60, legs 60, segments 2", "Q = square: side 20", "A1 at 0 0", "Q1 side 1 on A1 side 2")
	if n := noted(worked(t, gate), "one-fixing-overhead"); len(n) != 1 {
		t.Errorf("%+v", worked(t, gate).Notes)
	}
	tower := spec("R = rectangle: width 48, height 80", "Q = square: side 20", "R1 at 0 0", "Q1 side 1 on R1 side 3, flush at start")
	if n := noted(worked(t, tower), "one-fixing-overhead"); len(n) != 1 || !strings.Contains(n[0].Text, "Q1 by seam 1") {
		t.Errorf("%+v", n)
	}
	tower.read("Q2 side 1 on R1 side 3, flush at end")
	tower.Kinds[1].Lengths["side"] = inches("24")
	// Side by side they hold each other: three seams, no bridge.
	tower.Layout[2] = placeOf("Q2", "side 2 on Q1 side 4")
	r := worked(t, tower)
	if n := noted(r, "one-fixing-overhead"); len(r.Seams) != 3 || len(n) != 0 {
		t.Errorf("%d seams, %+v", len(r.Seams), n)
	}
	tower.Kinds[0].Lengths["height"], tower.Layout = inches("50"), tower.Layout[:2]
	if n := noted(worked(t, tower), "one-fixing-overhead"); len(n) != 0 {
		t.Errorf("at 50 in: %+v", n)
	}
}

// A tall chain hangs by each of its seams: the note stays short, and no seam is
// left out.
func TestTallChainIsToldBriefly(t *testing.T) {
	lines := []string{"Q = square: side 8", "Q1 at 0 0"}
	for i := 2; i <= 40; i++ {
		lines = append(lines, fmt.Sprintf("Q%d side 1 on Q%d side 3", i, i-1))
	}
	s := spec(lines...)
	n := noted(worked(t, s), "one-fixing-overhead")
	if len(n) != 1 || len(n[0].Text) > 500 || !strings.Contains(n[0].Text, "each of these seams: ") {
		t.Fatalf("%+v", n)
	}
	for _, want := range []string{"by seam 1;", "by seam 5;", " 6, 7, ", ", 30, 31"} {
		if !strings.Contains(n[0].Text+",", want) {
			t.Errorf("%q is not in %s", want, n[0].Text)
		}
	}
}

// The seams that alone carry something are those without which it is cut off
// from every frame on the floor: held to taking out each seam in turn.
func TestBridges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "frames")
		l := layout.Layout{Frames: make([]layout.Frame, n)}
		for range rapid.IntRange(1, 2).Draw(t, "standing") {
			l.Standing = append(l.Standing, layout.Standing{Frame: rapid.IntRange(0, n-1).Draw(t, "stands")})
		}
		for i := range rapid.IntRange(0, 14).Draw(t, "seams") {
			a, b := rapid.IntRange(0, n-1).Draw(t, "a"), rapid.IntRange(0, n-1).Draw(t, "b")
			if a != b {
				l.Seams = append(l.Seams, layout.Seam{Number: i + 1, Sides: [2]layout.SeamSide{{Frame: a}, {Frame: b}}})
			}
		}
		var want []bridge
		all := carriedWithout(l, -1)
		for i, s := range l.Seams {
			var lost []int
			for f, on := range carriedWithout(l, i) {
				if all[f] && !on {
					lost = append(lost, f)
				}
			}
			if lost != nil {
				want = append(want, bridge{s.Number, lost})
			}
		}
		got := bridges(l)
		for i := range got {
			slices.Sort(got[i].beyond)
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("got %v, want %v of %+v", got, want, l.Seams)
		}
	})
}

// carriedWithout says which frames hang together with one on the floor when a
// seam is taken out.
func carriedWithout(l layout.Layout, without int) []bool {
	on := make([]bool, len(l.Frames))
	for _, s := range l.Standing {
		on[s.Frame] = true
	}
	for range l.Frames {
		for i, s := range l.Seams {
			a, b := s.Sides[0].Frame, s.Sides[1].Frame
			if i != without && on[a] != on[b] {
				on[a], on[b] = true, true
			}
		}
	}
	return on
}

// A drill sheet's pictures agree with its figures: the screw crosses the seam
// where the figure says, at its depth, and its point stays in the far board.
func TestSheetPictures(t *testing.T) {
	for name, s := range fixings() {
		r := worked(t, s)
		for _, d := range r.Fixing.Sheets {
			m := r.Fixing.Seams[d.Seams[0]-1]
			for i, a := range d.Axes {
				f := m.Fasteners[i]
				near(t, fmt.Sprintf("%s, sheet %d: x", name, d.Number), a.Back[0][0], f.From.MM, 0.01)
				near(t, fmt.Sprintf("%s, sheet %d: depth of the head", name, d.Number), headIn(a, f), f.HeadDepth.MM, 0.01)
				if m.Arrow == (XY{}) {
					continue
				}
				far := d.Section[1]
				top := math.Max(far[0][0], far[1][0])
				if p := a.Section[1]; f.Kind != "bolt" && (p[0] > top || p[1] < 0 || p[1] > far[2][1]) || a.Section[0][0] > 0 {
					t.Errorf("%s, sheet %d: from %v to %v in %v", name, d.Number, a.Section[0], p, far)
				}
			}
		}
	}
}

// headIn is the depth of the board's face at the head: a plate lies on it.
func headIn(a AxisView, f Driven) float64 {
	if f.Side == "back" && f.Slant.Degrees == 0 {
		return a.Section[0][1] - f.Through.MM
	}
	return a.Section[0][1]
}

// Words for the driver carry what was given, and what was not is assumed.
func TestDriverWords(t *testing.T) {
	s := hexagons()
	s.Driver = Driver{Name: "the red one", Length: inches("5"), RightAngle: true, HeadLength: inches("2")}
	got := worked(t, s).Fixing.Driver
	want := []string{"the red one: 5 in long and 2 1/4 in wide, its bit 2 in out of the holder", "right-angle head: 2 in long and 1 1/2 in wide, its bit 1 in out of the holder"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

// Only assumptions that had a say are listed: no bolt's in a job of screws.
func TestRulesUsed(t *testing.T) {
	used := func(s Spec, id string) bool {
		return slices.ContainsFunc(worked(t, s).Assumed, func(a AssumedFacts) bool { return a.ID == id })
	}
	screws, bolts := hexagons(), hexagons()
	bolts.Fixing.Often = true
	for _, c := range []struct {
		id             string
		screwed, often bool
	}{{"fixing.edge", true, false}, {"fixing.bolt-edge", false, true}, {"driver.right-angle", false, false}, {"eye.seated", true, true}} {
		if used(screws, c.id) != c.screwed || used(bolts, c.id) != c.often {
			t.Errorf("%s: %v with screws, %v with bolts", c.id, used(screws, c.id), used(bolts, c.id))
		}
	}
	if alone := spec("B = hexagon: flats 18", "B1 at 0 0"); used(alone, "fixing.edge") {
		t.Error("a frame without seams rests on no rule for screws")
	}
}

// No word for joining flat frames but those of the job file is known.
func TestFlatFault(t *testing.T) {
	s := hexagons()
	s.Fixing.Flat = "string"
	if _, _, err := Plan(context.Background(), s, BuiltIn()); err == nil {
		t.Error("string joins flat frames")
	}
}

// Two runs over many seams give one text, and seams come by number.
func TestSeamNumbersInWords(t *testing.T) {
	for _, c := range []struct {
		ns   []int
		want string
	}{{[]int{3}, "seam 3"}, {[]int{3, 5}, "seams 3 and 5"}, {[]int{1, 2, 9}, "seams 1, 2 and 9"}} {
		if got := seamNumbers(c.ns); got != c.want {
			t.Errorf("%v is %q", c.ns, got)
		}
	}
	seams := worked(t, cluster()).Fixing.Seams
	if !slices.IsSortedFunc(seams, func(a, b SeamFixing) int { return cmp.Compare(a.Number, b.Number) }) {
		t.Error("seams out of order")
	}
}
