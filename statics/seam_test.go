package statics

import (
	"math"
	"testing"
)

// The worked seams: two hexagons, 20 in across, one on the other; and a flower
// of seven, pushed with 20 lb at the top, held at one frame or at three. Pull
// and slide are those of the worst screw; the figures come from a throw-away
// solver that shares no code with this one, and the first also by hand.
type workedSeams struct {
	Plain    worked `json:"twoHex_af20_push5_noWeight"`
	Weighted worked `json:"twoHex_af20_push5_weight"`
	Wall     struct {
		Weight  float64
		HeldAt1 worked
		HeldAt3 worked
	} `json:"wall7_af20_2screws"`
}

type worked struct {
	THand         float64 `json:"T_hand"`
	TOther        float64 `json:"T_other"`
	V, T, Ratio   float64
	TopDeflection float64
	CornerOut     float64
	CornerTorsion float64
}

const acrossFlats = 20.0

func handPine() Section { return pine(1.1e6, 1.1e6/16) }

func TestTwoFramesByHand(t *testing.T) {
	var want workedSeams
	readJSON(t, "seam-examples", &want)
	for _, c := range []struct {
		name    string
		gravity float64
		want    worked
	}{{"no weight", 0, want.Plain}, {"with weight", -1, want.Weighted}} {
		t.Run(c.name, func(t *testing.T) {
			w := newCluster(acrossFlats, handPine(), []Vec{{}, {0, acrossFlats}}, same(twoScrews))
			w.holdBottom(w.cells[0])
			r := solve(t, &w.Model, Case{Gravity: Vec{0, c.gravity}, Nodal: w.cells[1].topLoad(Vec{0, 0, 5})})
			pull, slide, ratio := w.worst(r)
			near(t, "pull by hand", pull, c.want.THand, 5e-6)
			near(t, "pull of the other solver", pull, c.want.TOther, 5e-5)
			near(t, "slide", slide, c.want.V, 1e-6)
			near(t, "ratio", ratio, c.want.Ratio, 1e-4)
		})
	}
}

// flowerWall is the wall of seven, held at its lowest frame or at three.
func flowerWall(held int, kind seamKind) *cluster {
	c := newCluster(acrossFlats, handPine(), flower(acrossFlats), same(kind))
	c.holdBottom(c.cells[1])
	if held == 3 {
		c.holdBottom(c.cells[2])
		c.holdBottom(c.cells[6])
	}
	return c
}

func (c *cluster) pushed(f float64) Case {
	return Case{Gravity: Vec{0, -1}, Nodal: c.cells[4].topLoad(Vec{0, 0, f})}
}

func TestFlowerWall(t *testing.T) {
	var want workedSeams
	readJSON(t, "seam-examples", &want)
	for _, c := range []struct {
		name string
		held int
		want worked
	}{{"one held", 1, want.Wall.HeldAt1}, {"three held", 3, want.Wall.HeldAt3}} {
		t.Run(c.name, func(t *testing.T) {
			w := flowerWall(c.held, twoScrews)
			r := solve(t, &w.Model, w.pushed(20))
			pull, slide, ratio := w.worst(r)
			near(t, "pull", pull, c.want.T, 2e-4)
			near(t, "slide", slide, c.want.V, 2e-4)
			near(t, "ratio", ratio, c.want.Ratio, 3e-4)
			near(t, "top", r.Moves[w.cells[4].side[1]].Shift[2], c.want.TopDeflection, 5e-4)
			out, twist := 0.0, 0.0
			for _, s := range r.Members {
				for _, e := range []Load{s.A, s.B} {
					out, twist = max(out, math.Abs(e.Moment[1])), max(twist, math.Abs(e.Moment[0]))
				}
			}
			near(t, "out-of-plane moment", out, c.want.CornerOut, 5e-4)
			near(t, "torsion", twist, c.want.CornerTorsion, 5e-4)
			total := 0.0
			for _, f := range r.Reactions {
				total += f.Force[1]
			}
			near(t, "weight", total, want.Wall.Weight, 5e-4)
		})
	}
}

// TestScrewsCount holds the wall to the table of the notes: one screw a seam,
// two, and four in two rows; and its own weight alone.
func TestScrewsCount(t *testing.T) {
	one := seamKind{screws: [][2]float64{{0, 0}}}
	var four seamKind
	for _, x := range []float64{-0.25, 0.25} {
		for _, z := range []float64{-1, 1} {
			four.screws = append(four.screws, [2]float64{x, z})
		}
	}
	for _, c := range []struct {
		name               string
		kind               seamKind
		push               float64
		pull, slide, ratio float64
		share              float64
	}{
		{"own weight", twoScrews, 0, 0, 2.9, 0.15, 0.02},
		{"one screw", one, 20, 220, 70, 8.02, 0.01},
		{"two screws", twoScrews, 20, 56.6, 54.6, 3.30, 0.01},
		{"four screws", four, 20, 34.6, 30.0, 1.88, 0.01},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := flowerWall(1, c.kind)
			r := solve(t, &w.Model, w.pushed(c.push))
			pull, slide, ratio := w.worst(r)
			if math.Abs(pull-c.pull) > c.share*c.pull+0.05 {
				t.Errorf("pull %v, want %v", pull, c.pull)
			}
			near(t, "slide", slide, c.slide, c.share)
			near(t, "ratio", ratio, c.ratio, c.share)
		})
	}
}

// TestMirror: a wall and its mirror image, the load on one side and on the
// other, bear the same.
func TestMirror(t *testing.T) {
	w := flowerWall(1, twoScrews)
	push := func(x float64) (pull, slide float64) {
		c := Case{Gravity: Vec{0, -1}, Nodal: w.cells[4].topLoad(Vec{x, 0, 12})}
		pull, slide, _ = w.worst(solve(t, &w.Model, c))
		return pull, slide
	}
	p1, s1 := push(3)
	p2, s2 := push(-3)
	near(t, "pull", p1, p2, 1e-9)
	near(t, "slide", s1, s2, 1e-9)
}

// TestPullOnlyScrews: boards that press take over what screws would push, so
// that screws that only pull change next to nothing.
func TestPullOnlyScrews(t *testing.T) {
	kind := twoScrews
	kind.pullOnly = true
	a, b := flowerWall(1, twoScrews), flowerWall(1, kind)
	ra, rb := solve(t, &a.Model, a.pushed(20)), solve(t, &b.Model, b.pushed(20))
	pa, _, qa := a.worst(ra)
	pb, _, qb := b.worst(rb)
	near(t, "pull", pb, pa, 1e-3)
	near(t, "ratio", qb, qa, 1e-3)
	for i, f := range rb.Springs {
		if f.Along < 0 {
			t.Errorf("screw %d pushes with %v", i, -f.Along)
		}
	}
}
