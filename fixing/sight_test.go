package fixing

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// tower is square frames of 20 in on top of each other.
func tower(n int) *made {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	for i := range n {
		m.at(fmt.Sprint("F", i), "k", 0, 20*float64(i))
	}
	return m
}

// By hand, with eyes at 46 (seated), 60 (camera) and 63 in (standing): the
// seams lie at 20, 40, 60 and 80 in. A head on a floor is seen from above it,
// one on a ceiling from below it. At 20 and 40 all eyes are above: drive
// upward, unseen. At 60 the ceiling, at 59 1/4, is seen by the seated eyes
// alone, the floor, at 60 3/4, by the standing ones alone; then at 80 all eyes
// are below: drive down.
func TestBelowTheEyeUpAboveItDown(t *testing.T) {
	l, p := tower(5).fix(t, Settings{})
	want := map[float64]string{20: "up", 40: "up", 80: "down"}
	for _, s := range p.Seams {
		y := l.Seams[s.Index].Middle().Y / inch
		if way, ok := want[math.Round(y)]; ok && (s.Seen != 0 || s.Fasteners[0].Way != way) {
			t.Errorf("seam at %.1f: %s, seen %d, want %s, unseen", y, s.Fasteners[0].Way, s.Seen, way)
		}
		if math.Round(y) == 60 && (s.Seen != 6 || s.Looks != 18) {
			t.Errorf("seam at 60: seen %d of %d, want 2 heads by 3 eyes", s.Seen, s.Looks)
		}
	}
}

func TestOneEyeDecides(t *testing.T) {
	m := tower(5)
	for height, way := range map[float64]string{5: "down", 200: "up"} {
		l, p := m.fix(t, Settings{Eyes: []Eye{{Name: "balcony", X: 100, Height: height * inch, Distance: 3000}}})
		for _, s := range p.Seams {
			if s.Fasteners[0].Way != way || s.Seen != 0 {
				t.Errorf("eye at %g in:\n%s", height, text(l, p))
			}
		}
	}
}

// Upright seam of two squares side by side: who stands before the left end
// sees the faces that look left, the right-hand wall of the left frame's
// opening. Unseen is the head that looks right, away from them.
func TestUprightSeam(t *testing.T) {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.at("L", "k", 0, 30)
	m.at("R", "k", 20, 30)
	for x, way := range map[float64]string{-2000: "to the left", 3000: "to the right"} {
		l, p := m.fix(t, Settings{Eyes: []Eye{{X: x, Height: 1000, Distance: 3000}}})
		f := p.Seams[0].Fasteners[0]
		if f.Way != way || p.Seams[0].Seen != 0 {
			t.Errorf("eye at %g: head in %s, driven %s", x, l.Frames[f.Head].ID, f.Way)
		}
	}
}

// From the front and straight ahead, a head is hidden behind a board that
// stands in front of it: here the frame set inside.
func TestAFrameInsideHides(t *testing.T) {
	m := &made{}
	m.box("k", 20, 20, oneByFour)
	m.box("s", 4, 4, oneByFour)
	m.at("A", "k", 0, 0)
	m.at("S", "s", 8, 0.75)
	l, b := m.build(t)
	w := newWork(l, b, Settings{})
	eye := Eye{X: 10 * inch, Height: 60 * inch, Distance: 1000}
	behindIt := look{geom.Point{X: 10 * inch, Y: 19.25 * inch}, 50, geom.Point{Y: -1}}
	if w.sees(eye, behindIt) {
		t.Error("a ceiling is seen from above")
	}
	low := Eye{X: 10 * inch, Height: -200, Distance: 100}
	if w.sees(low, look{geom.Point{X: 10 * inch, Y: 4.75*inch + 5}, 80, geom.Point{Y: -1}}) {
		t.Error("seen through the frame inside")
	}
	low.Behind = true
	if !w.sees(low, look{geom.Point{X: 10 * inch, Y: 19.25 * inch}, 87, geom.Point{Y: -1}}) {
		t.Error("a head at the very back of a ceiling is not seen from behind and below")
	}
	low.Distance = 10
	if w.sees(low, look{geom.Point{X: 10 * inch, Y: 19.25 * inch}, 2, geom.Point{Y: -1}}) {
		t.Error("a head at the front of a ceiling is seen from behind through the frame inside")
	}
	low.Behind, low.Distance = false, 100
	if !w.sees(low, look{geom.Point{X: 10 * inch, Y: 19.25 * inch}, 2, geom.Point{Y: -1}}) {
		t.Error("a head at the very front of a ceiling is not seen from below")
	}
}

func TestDressingHides(t *testing.T) {
	m := tower(5)
	l, p := m.fix(t, Settings{DressedBelow: 61 * inches, DressedAbove: 75 * inches, BothSides: true})
	for _, s := range p.Seams {
		if s.Seen != 0 {
			t.Errorf("heads under the dressing are seen:\n%s", text(l, p))
		}
	}
	_, bare := m.fix(t, Settings{DressedBelow: 30 * inches})
	seen := 0
	for _, s := range bare.Seams {
		seen += s.Seen
	}
	if seen != 6 {
		t.Errorf("dressing at the foot covers the heads at 60 in: %d seen", seen)
	}
}

// Behind counts as much as in front: a piece seen from both sides has twice
// the looks, and plates on its back are seen from there alone.
func TestBothSides(t *testing.T) {
	_, front := stacked(6, 24, flat).fix(t, Settings{})
	_, both := stacked(6, 24, flat).fix(t, Settings{BothSides: true})
	if s := front.Seams[0]; s.Seen != 0 || s.Looks != 72 {
		t.Errorf("front: %d of %d", s.Seen, s.Looks)
	}
	if s := both.Seams[0]; s.Seen != 72 || s.Looks != 144 {
		t.Errorf("both: %d of %d", s.Seen, s.Looks)
	}
}

// sawBy is the plain way to say what sees does: walk from the head to the eye
// and look whether one stands in wood.
func (w *work) sawBy(e Eye, h look) bool {
	z := -e.Distance
	if e.Behind {
		z = w.woods.deepest + e.Distance
	}
	eye := geom.Point{X: e.X, Y: e.Height}
	if eye.Sub(h.at).Dot(h.out) <= offFace {
		return false
	}
	// Only the stretch among the boards needs walking.
	share := math.Min(1, (w.woods.deepest+1)/math.Abs(z-h.z))
	r := ray{from: h.at.Add(h.out.Mul(2 * offFace)), to: h.at.Lerp(eye, share), z: h.z, dz: (z - h.z) * share}
	return w.firstWood(r, 200) == 1
}

// On small layouts every head side on which screws can be put is tried, seen
// by walking, and none of them is seen less than the one that was chosen.
func TestChosenSideIsSeenLeast(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		m := &made{}
		flats := rapid.Float64Range(8, 26).Draw(t, "flats")
		n := rapid.SampledFrom([]int{4, 6, 8}).Draw(t, "sides")
		lift := rapid.Float64Range(0, 70).Draw(t, "lift")
		m.regular("k", n, flats, oneByFour)
		m.box("foot", 12, lift+2, oneByFour)
		m.at("foot", "foot", -80, 0)
		m.at("A", "k", 0, lift+flats/2)
		m.attach("B", "k", "A", 1, n/2+1)
		if n == 6 {
			m.attach("C", "k", "A", 5, 2)
		}
		s := Settings{HasRightAngle: rapid.Bool().Draw(t, "angle"), BothSides: rapid.Bool().Draw(t, "both"),
			DressedAbove: unit.Length(rapid.IntRange(0, 90).Draw(t, "dressed")) * inches}
		l, b := layoutOf(m)
		p, _ := Fix(l, b, s)
		w := newWork(l, b, s)
		for _, seam := range p.Seams {
			c := w.contact(seam.Index)
			as := along
			if seam.Across {
				as = across
			}
			g, _ := w.gauge(seam.Fasteners[0].Gauge)
			for head := range c.sides {
				other, bad := w.screwsFrom(c, head, g, as)
				if bad != nil {
					continue
				}
				tried++
				seen := 0
				for _, h := range other.looks {
					for _, e := range w.eyes {
						covered := h.at.Y < s.DressedBelow.MM() || s.DressedAbove > 0 && h.at.Y > s.DressedAbove.MM()
						if !covered && w.sawBy(e, h) {
							seen++
						}
					}
				}
				if seen < seam.Seen {
					t.Fatalf("seam %d: seen %d with its heads in %s, %d in the other\n%s", seam.Number, seam.Seen,
						l.Frames[seam.Fasteners[0].Head].ID, seen, text(l, p))
				}
			}
		}
	})
	if tried < 150 && !testing.Short() { // rapid draws a fifth of the jobs with -short
		t.Errorf("only %d sides were tried", tried)
	}
}

// The piece seen in a mirror is fixed in a mirror: the same screws, as high, as
// deep, as far from the other end, and as much seen.
func TestMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := &made{}
		flats := rapid.Float64Range(8, 26).Draw(t, "flats")
		m.regular("k", 6, flats, oneByFour)
		m.regular("q", 4, flats*0.7, oneByFour)
		m.at("A", "k", 0, flats/2)
		m.attach("B", "k", "A", 5, 2)
		m.attach("C", "q", "A", 1, 4)
		m.attach("D", "q", "B", 1, 3)
		s := Settings{HasRightAngle: rapid.Bool().Draw(t, "angle"), Often: rapid.Bool().Draw(t, "often")}
		l, b := layoutOf(m)
		p, _ := Fix(l, b, s)
		mirrored := layout.Back(l)
		q, _ := Fix(mirrored, b, s)
		if len(p.Seams) != len(q.Seams) {
			t.Fatalf("%d seams, in the mirror %d", len(p.Seams), len(q.Seams))
		}
		for i, seam := range p.Seams {
			other := q.Seams[i]
			if other.Number != seam.Number || other.Seen != seam.Seen || other.Method != seam.Method || len(other.Fasteners) != len(seam.Fasteners) {
				t.Fatalf("%s\nin the mirror\n%s", text(l, p), text(mirrored, q))
			}
			if !mirrors(l, seam, other) {
				t.Fatalf("seam %d\n%s\nin the mirror\n%s", seam.Number, text(l, p), text(mirrored, q))
			}
		}
	})
}

// mirrors says whether every fastener has one at its mirrored place.
func mirrors(l layout.Layout, s, other Seam) bool {
	for _, f := range s.Fasteners {
		found := false
		for _, g := range other.Fasteners {
			at := geom.Point{X: l.Width - g.At.X, Y: g.At.Y}
			found = found || at.Dist(f.At) < 0.01 && math.Abs(f.HeadIn-g.HeadIn) < 0.01 && f.Head == g.Head && f.Name == g.Name && f.Tool == g.Tool
		}
		if !found {
			return false
		}
	}
	return true
}
