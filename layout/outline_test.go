package layout

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"

	"pgregory.net/rapid"
)

func areaOf(polygons []geom.Polygon) float64 {
	sum := 0.0
	for _, p := range polygons {
		sum += p.Area()
	}
	return sum
}

func frameArea(l Layout) float64 {
	sum := 0.0
	for _, f := range l.Frames {
		sum += math.Abs(f.Outside.Area())
	}
	return sum
}

// Going up the right of the cluster one passes the big one's bottom corner, five
// of the small one's (not the one where three meet), five of the medium's
// likewise, and the big one's top corner.
func TestOutlineOfTheCluster(t *testing.T) {
	kinds, places := cluster()
	l := lay(t, kinds, places, Settings{})
	if len(l.Outline) != 1 || len(l.Voids) != 0 {
		t.Fatalf("%d outlines, %d voids", len(l.Outline), len(l.Voids))
	}
	if n := len(l.Outline[0]); n != 2*(1+5+5+1) {
		t.Errorf("%d corners", n)
	}
	wantNear(t, "area", areaOf(l.Outline), frameArea(l), 1e-6)
	box := l.Outline[0].Box()
	wantPoint(t, "top right", box.Max, geom.Point{X: l.Width, Y: l.Height}, 1e-9)
}

// What the outline takes in is the frames and the voids, turned and mirrored.
func TestOutlineHoldsFramesAndVoids(t *testing.T) {
	kinds, places, _ := combWall(t)
	rapid.Check(t, func(r *rapid.T) {
		job := turned(places, rapid.Float64Range(-3, 3).Draw(r, "turn"))
		if rapid.Bool().Draw(r, "mirror") {
			job = mirrored(job)
		}
		job = rapid.Permutation(job).Draw(r, "places")
		l := lay(t, kinds, job[:rapid.IntRange(1, len(job)).Draw(r, "n")], Settings{})
		if got, want := areaOf(l.Outline)+areaOf(l.Voids), frameArea(l); !near(got, want, 1e-6*want) {
			r.Fatalf("outlines less voids hold %g mm2, the frames %g", got, want)
		}
		if len(l.Outline) != len(l.Groups) {
			r.Fatalf("%d outlines of %d groups", len(l.Outline), len(l.Groups))
		}
		back := Back(l)
		if got := areaOf(back.Outline) + areaOf(back.Voids); !near(got, frameArea(l), 1e-6*got) {
			r.Fatalf("%g mm2 from behind", got)
		}
	})
}

// A ring of six hexagons encloses a void of a seventh; with gaps it is larger.
func TestVoidInARing(t *testing.T) {
	for _, gap := range []float64{0, 2} {
		kinds, full := honeycombRing(300)
		l := lay(t, kinds, full, Settings{Gap: gap})
		if len(l.Outline) != 1 || len(l.Voids) != 0 {
			t.Fatalf("closed comb: %d outlines, %d voids", len(l.Outline), len(l.Voids))
		}
		corners := fmt.Sprint(len(l.Outline[0]))
		if want := map[float64]string{0: "18", 2: "24"}[gap]; corners != want {
			t.Errorf("gap %g: outline of %s corners, want %s", gap, corners, want)
		}
		var ring []Place
		for _, f := range l.Frames {
			if f.ID != "0" {
				ring = append(ring, at(f.ID, "hex", f.Move.Shift.X, f.Move.Shift.Y))
			}
		}
		l = lay(t, kinds, ring, Settings{Gap: gap})
		if len(l.Outline) != 1 || len(l.Voids) != 1 {
			t.Fatalf("ring: %d outlines, %d voids", len(l.Outline), len(l.Voids))
		}
		// The void's sides are a hexagon's sides moved out by the gap, and at
		// each corner the seam's slot reaches as far as the contact does.
		flats := 300*math.Sqrt(3) + 2*gap
		wantNear(t, "void", -areaOf(l.Voids), flats*flats*math.Sqrt(3)/2, 2*gap*gap+1e-6)
	}
}
