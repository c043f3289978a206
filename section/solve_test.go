package section_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/passage"
	"bowerwright/section"
)

// grid is a wall of frames in rows of a width, joined to their neighbours with
// two screws, each weighing a kilogram.
func grid(n, width int) section.Problem {
	var p section.Problem
	for i := range n {
		x, y := i%width, i/width
		p.Frames = append(p.Frames, section.Frame{Mass: 1, Centre: geom.Point{X: float64(x) * 500, Y: float64(y) * 500}, Foot: y == 0})
		if x > 0 {
			p.Seams = append(p.Seams, section.Seam{A: i - 1, B: i, Screws: 2})
		}
		if y > 0 {
			p.Seams = append(p.Seams, section.Seam{A: i - width, B: i, Screws: 2})
		}
	}
	return p
}

// said is a plan in short: "A 0 1 | B 2 3; 2 screws; fewest".
func said(p section.Plan) string {
	var parts []string
	for _, s := range p.Sections {
		parts = append(parts, s.Letter+" "+strings.Trim(fmt.Sprint(s.Frames), "[]"))
	}
	out := fmt.Sprintf("%s; %d screws", strings.Join(parts, " | "), p.Screws)
	if p.Fewest() {
		out += "; fewest"
	}
	if p.BestOfTies {
		out += ", best of its ties"
	}
	return out
}

func solve(t testing.TB, p section.Problem) section.Plan {
	t.Helper()
	plan, err := section.Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

func TestPlans(t *testing.T) {
	row := func(change func(*section.Problem)) section.Problem {
		p := grid(6, 6)
		change(&p)
		return p
	}
	for _, c := range []struct {
		name, want string
		p          section.Problem
	}{
		{"nothing stands against one", "A 0 1 2 3 4 5; 0 screws; fewest, best of its ties", row(func(*section.Problem) {})},
		{"evenest of all halves", "A 0 1 2 | B 3 4 5; 2 screws; fewest, best of its ties", row(func(p *section.Problem) { p.Limits.Mass = 5 })},
		{"fewest screws before evenest", "A 0 | B 1 2 3 4 5; 1 screws; fewest, best of its ties", row(func(p *section.Problem) {
			p.Limits.Mass, p.Seams[0].Screws = 5, 1
		})},
		{"kept together", "A 0 1 2 3 | B 4 5; 2 screws; fewest, best of its ties", row(func(p *section.Problem) {
			p.Limits.Mass, p.Together = 5, [][2]int{{1, 3}}
		})},
		{"kept apart", "A 0 | B 1 2 3 4 5; 2 screws; fewest, best of its ties", row(func(p *section.Problem) {
			p.Apart = [][2]int{{0, 1}}
		})},
		{"a seam of the shop", "A 0 1 | B 2 3 4 5; 2 screws; fewest, best of its ties", row(func(p *section.Problem) {
			p.Limits.Mass, p.Seams[2].Shop, p.Seams[3].Shop = 5, true, true
		})},
		{"does not bear three", "A 0 1 | B 2 3 | C 4 5; 4 screws; fewest, best of its ties", row(func(p *section.Problem) {
			p.Limits.Bear = func(fs []int) bool { return len(fs) != 3 && len(fs) < 4 }
		})},
	} {
		if got := said(solve(t, c.p)); got != c.want {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestStuck(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*section.Problem)
		frames []int
	}{
		{"one is too heavy", func(p *section.Problem) { p.Limits.Mass = 3; p.Frames[2].Mass = 4 }, []int{2}},
		{"together and apart", func(p *section.Problem) { p.Together = [][2]int{{0, 1}, {1, 2}}; p.Apart = [][2]int{{0, 2}} }, []int{0, 1, 2}},
		{"nothing bears", func(p *section.Problem) { p.Limits.Bear = func([]int) bool { return false } }, []int{0, 1, 2, 3}},
		{"together without a seam between", func(p *section.Problem) { p.Together = [][2]int{{0, 3}}; p.Apart = [][2]int{{0, 1}} }, []int{0, 1, 2, 3}},
	} {
		p := grid(4, 4)
		c.change(&p)
		_, err := section.Solve(p)
		var stuck *section.Stuck
		if !errors.As(err, &stuck) || !slices.Equal(stuck.Frames, c.frames) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, p := range []section.Problem{{}, {Frames: make([]section.Frame, 65)}, {Frames: make([]section.Frame, 2), Seams: []section.Seam{{A: 1, B: 1}}},
		{Frames: make([]section.Frame, 2), Apart: [][2]int{{0, 2}}}} {
		if _, err := section.Solve(p); err == nil {
			t.Errorf("accepted %+v", p)
		}
	}
}

// random is a cluster of frames, seams between those that are near, and limits
// that bite.
func random(r *rand.Rand, n int) section.Problem {
	var p section.Problem
	for len(p.Frames) < n {
		at := geom.Point{X: r.Float64() * 2000, Y: r.Float64() * 1500}
		p.Frames = append(p.Frames, section.Frame{Mass: 1 + math.Round(r.Float64()*40)/8, Centre: at})
	}
	reach := 500 + r.Float64()*700
	for i := range n {
		for j := range i {
			d := p.Frames[i].Centre.Dist(p.Frames[j].Centre)
			if d < reach || i == j+1 && r.IntN(2) == 0 {
				p.Seams = append(p.Seams, section.Seam{A: j, B: i, Screws: r.IntN(4), Shop: r.IntN(25) == 0})
			}
		}
	}
	pair := func() [2]int { a := r.IntN(n); return [2]int{a, (a + 1 + r.IntN(n-1)) % n} }
	if n > 2 && r.IntN(3) == 0 {
		p.Together = append(p.Together, pair())
	}
	if n > 2 && r.IntN(3) == 0 {
		p.Apart = append(p.Apart, pair())
	}
	wide, high := 900+r.Float64()*1500, 900+r.Float64()*1500
	p.Limits.Pass = func(fs []int) bool { return boxed(p.Frames, fs, wide, high) }
	if r.IntN(2) == 0 {
		p.Limits.Mass = 8 + r.Float64()*20
	}
	if r.IntN(3) == 0 {
		k := 2 + r.IntN(4)
		p.Limits.Bear = func(fs []int) bool { return len(fs) < 2 || (fs[0]+fs[len(fs)-1])%k != 0 }
	}
	return p
}

func boxed(frames []section.Frame, fs []int, wide, high float64) bool {
	var b geom.Box
	for i, f := range fs {
		at := geom.Box{Min: frames[f].Centre, Max: frames[f].Centre}
		if i == 0 {
			b = at
		}
		b = b.Union(at)
	}
	return b.Width() <= wide && b.Height() <= high
}

// brute looks at every partition: the fewest sections, then screws, then
// squares of masses; no sections when there is none.
func brute(p section.Problem) (count, screws int, squares float64) {
	home := make([]int, len(p.Frames))
	found := false
	// By their bits: a partition asks about the same sections as another.
	judged := map[int]bool{}
	var place func(i, used int)
	place = func(i, used int) {
		if found && used > count {
			return
		}
		if i < len(home) {
			for s := range used + 1 {
				home[i] = s
				if s == used || fitting(p, home[:i+1], s) {
					place(i+1, max(used, s+1))
				}
			}
			return
		}
		c, q, ok := tally(p, home, used, judged)
		if ok && (!found || used < count || c < screws || c == screws && q < squares) {
			found, count, screws, squares = true, used, c, q
		}
	}
	place(0, 0)
	return count, screws, squares
}

// fitting holds what is placed so far to what only gets worse.
func fitting(p section.Problem, home []int, s int) bool {
	var fs []int
	var mass float64
	for f, h := range home {
		if h == s {
			fs = append(fs, f)
			mass += p.Frames[f].Mass
		}
	}
	return (p.Limits.Mass == 0 || mass <= p.Limits.Mass+1e-9) && p.Limits.Pass(fs)
}

func tally(p section.Problem, home []int, used int, judged map[int]bool) (screws int, squares float64, ok bool) {
	for _, q := range p.Together {
		if home[q[0]] != home[q[1]] {
			return 0, 0, false
		}
	}
	for _, q := range p.Apart {
		if home[q[0]] == home[q[1]] {
			return 0, 0, false
		}
	}
	for _, s := range p.Seams {
		if home[s.A] != home[s.B] {
			screws += s.Screws
			if s.Shop {
				return 0, 0, false
			}
		}
	}
	for s := range used {
		bits, mass := 0, 0.0
		for f, h := range home {
			if h == s {
				bits |= 1 << f
				mass += p.Frames[f].Mass
			}
		}
		good, known := judged[bits]
		if !known {
			good = sound(p, bits)
			judged[bits] = good
		}
		if !good {
			return 0, 0, false
		}
		squares += mass * mass
	}
	return screws, squares, true
}

func sound(p section.Problem, bits int) bool {
	var fs []int
	var mass float64
	for f := range p.Frames {
		if bits>>f&1 != 0 {
			fs = append(fs, f)
			mass += p.Frames[f].Mass
		}
	}
	reached := bits & -bits
	for range fs {
		for _, s := range p.Seams {
			if a, b := 1<<s.A, 1<<s.B; bits&a != 0 && bits&b != 0 && reached&(a|b) != 0 {
				reached |= a | b
			}
		}
	}
	return reached == bits && p.Limits.Pass(fs) && (p.Limits.Mass == 0 || mass <= p.Limits.Mass+1e-9) &&
		(p.Limits.Bear == nil || p.Limits.Bear(fs))
}

func TestAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 25))
	rounds := 2000
	if testing.Short() {
		rounds = 200
	}
	plans := 0
	for i := range rounds {
		n := 2 + r.IntN(8)
		if i%40 == 0 {
			n = 10 + r.IntN(3)
		}
		p := random(r, n)
		p.Work, p.Limits.Asks = 10_000_000, 1_000_000
		count, screws, squares := brute(p)
		plan, err := section.Solve(p)
		var stuck *section.Stuck
		if errors.As(err, &stuck) {
			if count != 0 {
				t.Fatalf("cluster %d: stuck (%v), %d sections are possible", i, err, count)
			}
			continue
		}
		if err != nil {
			t.Fatalf("cluster %d: %v", i, err)
		}
		plans++
		got := 0.0
		for _, s := range plan.Sections {
			got += s.Mass * s.Mass
		}
		if len(plan.Sections) != count || plan.Screws != screws || math.Abs(got-squares) > 1e-6*squares || !plan.Fewest() || !plan.BestOfTies {
			t.Fatalf("cluster %d of %d: %s (%g); brute force %d sections, %d screws, %g", i, n, said(plan), got, count, screws, squares)
		}
	}
	if plans < rounds/2 {
		t.Errorf("only %d of %d clusters had a plan", plans, rounds)
	}
}

// A refutation that claims more, is cut short or is altered does not pass.
func TestCheckerRefuses(t *testing.T) {
	p := grid(12, 4)
	p.Limits.Mass = 5
	plan := solve(t, p)
	if len(plan.Sections) != 3 {
		t.Fatal(said(plan))
	}
	p.Limits.Mass, p.Limits.Pass = 0, func(fs []int) bool { return boxed(p.Frames, fs, 600, 600) }
	plan = solve(t, p)
	for name, spoil := range map[string]func(*section.Plan){
		"one more claimed":     func(q *section.Plan) { q.AtLeast++; q.Refutation.Sections++ },
		"broken off":           func(q *section.Plan) { q.Refutation.Tree = q.Refutation.Tree[:len(q.Refutation.Tree)-1] },
		"gone on":              func(q *section.Plan) { q.Refutation.Tree = append(q.Refutation.Tree, -1) },
		"ended at once":        func(q *section.Plan) { q.Refutation.Tree = []int{-1} },
		"units that are not":   func(q *section.Plan) { q.Refutation.Units[0] = []int{0, 1}; q.Refutation.Units[1] = nil },
		"a frame in two":       func(q *section.Plan) { q.Sections[0].Frames = append([]int{}, q.Sections[1].Frames...) },
		"a screw too many":     func(q *section.Plan) { q.Screws++ },
		"a site seam left out": func(q *section.Plan) { q.SiteSeams = q.SiteSeams[1:] },
	} {
		bad := plan
		bad.Sections = slices.Clone(plan.Sections)
		bad.Refutation.Tree = slices.Clone(plan.Refutation.Tree)
		bad.Refutation.Units = slices.Clone(plan.Refutation.Units)
		spoil(&bad)
		if p.Check(bad) == nil {
			t.Errorf("%s: passed", name)
		}
	}
	if err := p.Check(plan); err != nil {
		t.Error(err)
	}
	loose := p
	loose.Limits.Pass = nil
	if loose.Check(plan) == nil {
		t.Error("a refutation by a door passed without the door")
	}
}

// The same problem with its frames listed in another order has as good a plan.
func TestOrderOfFramesChangesNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 30 {
		p := random(r, 9)
		p.Limits.Bear = nil // asks for the frames by number
		to := r.Perm(len(p.Frames))
		q := p
		q.Frames = make([]section.Frame, len(to))
		for i, j := range to {
			q.Frames[j] = p.Frames[i]
		}
		q.Seams, q.Together, q.Apart = nil, nil, nil
		for _, s := range p.Seams {
			s.A, s.B = to[s.A], to[s.B]
			q.Seams = append(q.Seams, s)
		}
		for _, x := range p.Together {
			q.Together = append(q.Together, [2]int{to[x[0]], to[x[1]]})
		}
		for _, x := range p.Apart {
			q.Apart = append(q.Apart, [2]int{to[x[0]], to[x[1]]})
		}
		back := make([]int, len(to))
		for i, j := range to {
			back[j] = i
		}
		q.Limits.Pass = func(fs []int) bool {
			var old []int
			for _, f := range fs {
				old = append(old, back[f])
			}
			slices.Sort(old)
			return p.Limits.Pass(old)
		}
		a, errA := section.Solve(p)
		b, errB := section.Solve(q)
		if (errA == nil) != (errB == nil) || len(a.Sections) != len(b.Sections) || a.Screws != b.Screws {
			t.Fatalf("%s (%v)\n%s (%v)", said(a), errA, said(b), errB)
		}
	}
}

// wall is hexagons in a honeycomb, and what passes is asked of a door and the
// turn of a corridor.
func wall(n, width int, spots ...passage.Spot) section.Problem {
	const side = 300.0
	var p section.Problem
	var outlines []geom.Polygon
	for i := range n {
		col, row := i%width, i/width
		at := geom.Point{X: 1.5 * side * float64(col), Y: math.Sqrt(3) * side * (float64(row) + 0.5*float64(col%2))}
		var hex geom.Polygon
		for k := range 6 {
			s, c := math.Sincos(float64(k) * math.Pi / 3)
			hex = append(hex, at.Add(geom.Point{X: side * c, Y: side * s}))
		}
		outlines = append(outlines, hex)
		p.Frames = append(p.Frames, section.Frame{Mass: 3 + float64(i%4)/4, Centre: at, Foot: row == 0})
		for j := range i {
			if at.Dist(p.Frames[j].Centre) < side*1.8 {
				p.Seams = append(p.Seams, section.Seam{A: j, B: i, Screws: 2})
			}
		}
	}
	p.Limits.Pass = func(fs []int) bool {
		piece := passage.Piece{Thickness: 90}
		for _, f := range fs {
			piece.Outlines = append(piece.Outlines, outlines[f])
		}
		b, err := piece.Body()
		if err != nil {
			return false
		}
		return !slices.ContainsFunc(spots, func(s passage.Spot) bool { return !s.Fits(b) })
	}
	return p
}

var tight = []passage.Spot{
	passage.Door{Width: 860, Height: 2000}, passage.Corner{First: 1100, Second: 1000, Height: 2200},
	passage.Chamber{Length: 2400, Width: 1250, Height: 1250, Door: passage.Door{Width: 1200, Height: 1200}},
}

func TestWallThroughTightSpots(t *testing.T) {
	p := wall(20, 5, tight...)
	p.Limits.Mass = 40
	plan := solve(t, p)
	if !plan.Fewest() {
		t.Errorf("not proved: %s, at least %d", said(plan), plan.AtLeast)
	}
	p = wall(60, 10, tight...)
	p.Limits.Mass = 40
	plan = solve(t, p)
	if plan.AtLeast < 5 || len(plan.Sections) > 2*plan.AtLeast {
		t.Errorf("%s; at least %d", said(plan), plan.AtLeast)
	}
}

// With little work allowed a plan still comes out whole, and says what it has
// not shown.
func TestTiredPlanKeepsToEverything(t *testing.T) {
	p := wall(60, 10, tight...)
	p.Limits.Mass, p.Work = 0, 30
	plan := solve(t, p)
	if plan.Fewest() || plan.BestOfTies || plan.AtLeast < 2 || len(plan.Sections) < 5 {
		t.Errorf("%s; at least %d", said(plan), plan.AtLeast)
	}
	again := solve(t, p)
	if said(again) != said(plan) {
		t.Errorf("two answers: %s\n%s", said(plan), said(again))
	}
}

// Strength may take milliseconds to judge: it is asked of few sections.
func TestBearingIsAskedSeldom(t *testing.T) {
	p := wall(20, 5, tight...)
	p.Limits.Mass = 40
	for most, gap := range map[int]int{9: 0, 6: 1, 3: 4} {
		asked := map[string]bool{}
		p.Limits.Bear = func(fs []int) bool { asked[fmt.Sprint(fs)] = true; return len(fs) <= most }
		plan := solve(t, p)
		if len(asked) > 4*section.Asks {
			t.Errorf("with at most %d frames: asked about %d sections", most, len(asked))
		}
		if len(plan.Sections) > plan.AtLeast+gap {
			t.Errorf("with at most %d frames: %s, at least %d", most, said(plan), plan.AtLeast)
		}
	}
}

func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 53: "BB"} {
		if got := section.Letter(i); got != want {
			t.Errorf("%d: %s", i, got)
		}
	}
}

func BenchmarkTwentyFramesProved(b *testing.B) {
	for b.Loop() {
		p := wall(20, 5, tight...)
		p.Limits.Mass = 40
		solve(b, p)
	}
}

func BenchmarkSixtyFrames(b *testing.B) {
	for b.Loop() {
		p := wall(60, 10, tight...)
		p.Limits.Mass = 40
		solve(b, p)
	}
}
