package section_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"bowerwright/section"
)

var rates = section.Rates{Lay: 1, Put: 2, Screw: 0.5, Unscrew: 0.25, Tilt: 5, Ballast: 1, Undress: 20, Take: 1, Sweep: 10,
	Strangers: [2]float64{3, 4}}

// arch is two feet, 0 and 1, and a bridge, 2, over them; each frame a unit.
func arch(way section.Way) section.Assembly {
	p := grid(4, 2)
	return section.Assembly{
		Frames: p.Frames[:3],
		Seams:  []section.Seam{{A: 0, B: 2, Screws: 2}, {A: 1, B: 2, Screws: 3}},
		Units:  [][]int{{2}, {0}, {1}}, Way: way, Ballast: 4, Rates: rates,
	}
}

// told is an order in short.
func told(o section.Order) string {
	var out []string
	for _, s := range o.Steps {
		line := s.Do.String()
		if len(s.Frames) > 0 {
			line += " " + strings.Trim(fmt.Sprint(s.Frames), "[]")
		}
		if len(s.Seams) > 0 {
			line += fmt.Sprintf(" (seams %s, %d screws)", strings.Trim(fmt.Sprint(s.Seams), "[]"), s.Screws)
		}
		out = append(out, line)
	}
	return strings.Join(out, "; ")
}

func TestOrders(t *testing.T) {
	stuffy := func(j section.Assembly) section.Assembly { // seam 1 only before frame 0 is there
		j.Reach = [][]section.Reach{nil, {{From: "from the left", Blocks: []int{0}, Lying: true, Standing: true}}}
		return j
	}
	for _, c := range []struct {
		name, build, strike string
		j                   section.Assembly
	}{
		{"built up", "put up and hold 0; ballast on 0; let go 0; put up and hold 2; drive 2 (seams 0, 2 screws); let go 0 2; " +
			"put up and hold 1; drive 1 (seams 1, 3 screws); let go 0 1 2",
			"undress 0 1 2; hold 1; undo 1 (seams 1, 3 screws); take off 1; hold 2; undo 2 (seams 0, 2 screws); take off 2; hold 0; take off 0; ballast off; sweep",
			arch(section.BuiltUp)},
		{"tilted up", "lay down 0; lay down 2; drive 2 (seams 0, 2 screws); lay down 1; drive 1 (seams 1, 3 screws); tilt up and hold 0 1 2; ballast on 0 1 2; let go 0 1 2",
			"undress 0 1 2; hold 1; undo 1 (seams 1, 3 screws); take off 1; hold 2; undo 2 (seams 0, 2 screws); take off 2; hold 0; take off 0; ballast off; sweep",
			arch(section.Tilted)},
		{"a seam closed before it is built in", "put up and hold 1; ballast on 1; let go 1; put up and hold 2; drive 2 (seams 1, 3 screws); let go 1 2; " +
			"put up and hold 0; drive 0 (seams 0, 2 screws); let go 0 1 2",
			"undress 0 1 2; hold 0; undo 0 (seams 0, 2 screws); take off 0; hold 2; undo 2 (seams 1, 3 screws); take off 2; hold 1; take off 1; ballast off; sweep",
			stuffy(arch(section.BuiltUp))},
	} {
		o, err := c.j.Arrange()
		if err != nil || told(o) != c.build {
			t.Errorf("%s: %v\n got %s\nwant %s", c.name, err, told(o), c.build)
		}
		o, err = c.j.Strike()
		if err != nil || told(o) != c.strike {
			t.Errorf("%s, strike: %v\n got %s\nwant %s", c.name, err, told(o), c.strike)
		}
	}
}

// What can only be parted lying is held, cleared of ballast and let down whole.
func TestStrikeLying(t *testing.T) {
	j := arch(section.Tilted)
	j.Reach = [][]section.Reach{{{From: "from behind", Lying: true}}, nil}
	o, err := j.Strike()
	want := "undress 0 1 2; hold 0 1 2; ballast off 0 1 2; lower 0 1 2; undo 1 (seams 1, 3 screws); take off 1; undo 2 (seams 0, 2 screws); take off 2; take off 0; sweep"
	if err != nil || told(o) != want {
		t.Errorf("%v\n got %s\nwant %s", err, told(o), want)
	}
}

func TestShopOrder(t *testing.T) {
	j := arch(section.BuiltUp)
	o, err := j.Within([]int{0, 2}).Arrange()
	want := "lay down 0; lay down 2; drive 2 (seams 0, 2 screws)"
	if err != nil || told(o) != want {
		t.Errorf("%v: %s", err, told(o))
	}
	if _, err := j.Within([]int{0, 0}).Arrange(); err == nil {
		t.Error("a frame twice was accepted")
	}
}

func TestTimesAndPeople(t *testing.T) {
	j := arch(section.BuiltUp)
	j.Crew = func(d section.Doing, frames []int) int { return len(frames) }
	o, err := j.Arrange()
	if err != nil {
		t.Fatal(err)
	}
	// Three units put up, five screws, four units of ballast.
	makers, least, most := o.Minutes(rates)
	if makers != 3*2+5*0.5+4 || least != 3*makers || most != 4*makers || o.Screws() != 5 {
		t.Errorf("%g, %g to %g minutes, %d screws", makers, least, most, o.Screws())
	}
	for _, s := range o.Steps {
		if s.People != len(s.Frames) {
			t.Errorf("%v: %d people", s.Do, s.People)
		}
	}
}

func TestBlocked(t *testing.T) {
	way := func(blocks0, blocks1 []int, lying bool) [][]section.Reach {
		return [][]section.Reach{
			{{From: "from the right", Blocks: blocks0, Standing: true, Lying: lying}},
			{{From: "from the left", Blocks: blocks1, Standing: true, Lying: lying}},
		}
	}
	for _, c := range []struct {
		name  string
		j     func() section.Assembly
		seam  int
		by    []int
		helps []section.Help
	}{
		{"each in the other's way", func() section.Assembly {
			j := arch(section.BuiltUp)
			j.Reach = way([]int{1}, []int{0}, true)
			return j
		}, 0, []int{1}, []section.Help{section.OpenReach}},
		{"nowhere to reach it standing", func() section.Assembly {
			j := arch(section.BuiltUp)
			j.Reach = [][]section.Reach{nil, {{From: "from behind", Lying: true}}}
			return j
		}, 1, nil, []section.Help{section.OtherWay, section.KeepTogether, section.OpenReach}},
		{"nothing has a foot", func() section.Assembly {
			j := arch(section.Tilted)
			j.Frames = slices.Clone(j.Frames)
			j.Frames[0].Foot, j.Frames[1].Foot = false, false
			return j
		}, -1, nil, nil},
		{"goes over half built", func() section.Assembly {
			j := arch(section.BuiltUp)
			j.Stands = func(frames []int) bool { return len(frames) != 2 }
			return j
		}, -1, nil, []section.Help{section.OtherWay}},
	} {
		_, err := c.j().Arrange()
		var b *section.Blocked
		if !errors.As(err, &b) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if b.Seam != c.seam || !slices.Equal(b.By, c.by) || !slices.Equal(b.Helps, c.helps) || b.Seam < 0 && len(b.Frames) == 0 || b.Tired {
			t.Errorf("%s: %+v", c.name, b)
		}
	}
	j := arch(section.BuiltUp)
	j.Reach, j.Work = way([]int{1}, []int{0}, true), 1
	var b *section.Blocked
	if _, err := j.Arrange(); !errors.As(err, &b) || !b.Tired {
		t.Errorf("with hardly any work: %v", err)
	}
}

// jumble is a small assembly whose seams are hard to reach.
func jumble(r *rand.Rand) section.Assembly {
	p := grid(4+r.IntN(4), 2+r.IntN(2))
	j := section.Assembly{Frames: p.Frames, Seams: p.Seams, Way: section.Way(r.IntN(3)), Ballast: r.IntN(2), Rates: rates}
	n := len(p.Frames)
	for range p.Seams {
		var reach []section.Reach
		for range 1 + r.IntN(2) {
			x := section.Reach{Lying: r.IntN(5) > 0, Standing: r.IntN(5) > 0}
			for range r.IntN(3) {
				x.Blocks = append(x.Blocks, r.IntN(n))
			}
			reach = append(reach, x)
		}
		j.Reach = append(j.Reach, reach)
	}
	for f := 0; f < n; {
		u := []int{f}
		if f++; f < n && r.IntN(3) == 0 {
			u = append(u, f)
			f++
		}
		j.Units = append(j.Units, u)
	}
	if odd := 3 + r.IntN(3); r.IntN(3) == 0 {
		j.Stands = func(fs []int) bool { return len(fs)%odd != 0 || len(fs) == n }
	}
	return j
}

// every tries all orders of the units by the bare rules.
func every(j section.Assembly, there []int, left [][]int) bool {
	if len(left) == 0 {
		return j.Way != section.Tilted || footed(j, there)
	}
	for i, u := range left {
		after := append(slices.Clone(there), u...)
		rest := append(slices.Clone(left[:i]), left[i+1:]...)
		if joins(j, there, u, after) && every(j, after, rest) {
			return true
		}
	}
	return false
}

func footed(j section.Assembly, there []int) bool {
	return slices.ContainsFunc(there, func(f int) bool { return j.Frames[f].Foot })
}

func joins(j section.Assembly, there, u, after []int) bool {
	held := footed(j, u)
	for i, s := range j.Seams {
		ab := slices.Contains(there, s.A) && slices.Contains(u, s.B)
		ba := slices.Contains(there, s.B) && slices.Contains(u, s.A)
		if !ab && !ba {
			continue
		}
		held = true
		if !slices.ContainsFunc(j.Reach[i], func(r section.Reach) bool {
			if j.Way == section.BuiltUp && !r.Standing || j.Way != section.BuiltUp && !r.Lying {
				return false
			}
			return !slices.ContainsFunc(r.Blocks, func(f int) bool { return f != s.A && f != s.B && slices.Contains(after, f) })
		}) {
			return false
		}
	}
	if j.Way != section.BuiltUp {
		return true
	}
	slices.Sort(after)
	return held && footed(j, after) && (j.Stands == nil || j.Stands(after))
}

// There is an order just when trying them all finds one; each help helps; and
// what can be built up can be struck.
func TestOrdersAgainstEveryOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	built, helped := 0, 0
	for i := range 600 {
		j := jumble(r)
		o, err := j.Arrange()
		if want := every(j, nil, j.Units); want != (err == nil) {
			t.Fatalf("assembly %d, %v: %v; all orders say %v", i, j.Way, err, want)
		}
		if err == nil {
			built++
			if _, e := j.Strike(); e != nil && j.Way != section.Lying {
				t.Fatalf("assembly %d: built (%s) and not struck: %v", i, told(o), e)
			}
			continue
		}
		var b *section.Blocked
		if !errors.As(err, &b) {
			t.Fatalf("assembly %d: %v", i, err)
		}
		if b.Seam >= 0 && slices.Contains(b.Helps, section.OpenReach) {
			helped++
			j.Reach = slices.Clone(j.Reach)
			j.Reach[b.Seam] = []section.Reach{{Lying: true, Standing: true}}
			if !every(j, nil, j.Units) {
				t.Fatalf("assembly %d: seam %d made open does not help", i, b.Seam)
			}
		}
	}
	if built < 100 || helped < 50 {
		t.Errorf("%d built, %d helped: too few to tell", built, helped)
	}
}

func TestReplayRefuses(t *testing.T) {
	for _, way := range []section.Way{section.BuiltUp, section.Tilted} {
		j := arch(way)
		j.Reach = [][]section.Reach{nil, {{From: "from the left", Blocks: []int{0}, Lying: true, Standing: true}}}
		build, err := j.Arrange()
		if err != nil {
			t.Fatal(err)
		}
		strike, err := j.Strike()
		if err != nil {
			t.Fatal(err)
		}
		for _, o := range []section.Order{build, strike} {
			for i, s := range o.Steps {
				short := section.Order{Way: o.Way, Steps: slices.Delete(slices.Clone(o.Steps), i, i+1)}
				// Letting go of the first, laying the whole hold aside: each is needed but
				// for one let go that another follows before anything is missed.
				if s.Do == section.LetGo && i < len(o.Steps)-1 {
					continue
				}
				if s.Do == section.Hold && len(s.Frames) == 1 && i == len(o.Steps)-4 {
					// the last unit, without screws: taken off, it must still be held
					if j.Check(short) == nil {
						t.Errorf("%v: the last was not held", o.Way)
					}
					continue
				}
				if j.Check(short) == nil {
					t.Errorf("%v without step %d (%v) passed: %s", o.Way, i+1, s.Do, told(o))
				}
			}
			back := section.Order{Way: o.Way, Steps: slices.Clone(o.Steps)}
			slices.Reverse(back.Steps)
			if j.Check(back) == nil {
				t.Errorf("%v backward passed", o.Way)
			}
		}
		other := arch(way)
		other.Reach = [][]section.Reach{nil, {{From: "from the left", Blocks: []int{2}, Lying: true, Standing: true}}}
		other.Reach[0] = []section.Reach{{Blocks: []int{1}}} // never
		if other.Check(build) == nil {
			t.Errorf("%v: screws that cannot be reached passed", way)
		}
	}
}

func BenchmarkArrange(b *testing.B) {
	p := wall(60, 10)
	j := section.Assembly{Frames: p.Frames, Seams: p.Seams, Way: section.BuiltUp, Ballast: 4, Rates: rates}
	for f := range p.Frames {
		j.Units = append(j.Units, []int{f})
	}
	for b.Loop() {
		if _, err := j.Arrange(); err != nil {
			b.Fatal(err)
		}
	}
}
