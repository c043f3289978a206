package fixing

import (
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/layout"

	"pgregory.net/rapid"
)

// drawn is a random set piece: a comb, a stack or a wall of rectangles, of
// boards of any size, on edge or flat, with the settings of any shop.
func drawn(t *rapid.T) (*made, Settings) {
	m := &made{gap: rapid.SampledFrom([]float64{0, 0, 0.5}).Draw(t, "gap")}
	b := rapid.SampledFrom([]Board{oneByFour, flat, board(0.75, 1.5, true), board(1.5, 3.5, true), board(1.5, 1.5, true), board(0.709, 5.7, true), board(1.5, 3.5, false), board(0.75, 1.8, true)}).Draw(t, "board")
	c := b
	if rapid.IntRange(0, 3).Draw(t, "mixed") == 0 {
		c = rapid.SampledFrom([]Board{oneByFour, flat}).Draw(t, "other board")
	}
	least := 2*max(b.Depth(), c.Depth()).Inches() + 1.2
	flats := rapid.Float64Range(least+2, least+30).Draw(t, "flats")
	switch rapid.IntRange(0, 5).Draw(t, "form") {
	case 0:
		m.regular("k", 6, flats, b)
		m.regular("m", 6, flats, c)
		m.at("A", "k", 0, flats/2)
		m.attach("B", "m", "A", 1, 4)
		m.attach("C", "k", "A", 5, 2)
		m.attach("D", "m", "A", 6, 3)
	case 1:
		m.regular("k", 4, flats, b)
		m.regular("m", 8, flats, c)
		m.at("A", "k", 0, flats/2)
		m.attach("B", "m", "A", 1, 3)
		m.attach("C", "k", "A", 2, 4)
	case 2:
		h := rapid.Float64Range(least, least+20).Draw(t, "height")
		flats += least
		m.box("k", flats, h, b)
		m.box("m", flats/2, h, c)
		m.at("A", "k", 0, 0)
		m.at("B", "m", 0, h)
		m.at("C", "m", flats/2, h)
		m.at("D", "k", flats, 0)
	case 3: // a corner that turns inwards, and the same mirrored
		f := (flats + 2*least) * inch
		m.kind("k", geom.Polygon{{}, {X: f}, {X: f, Y: f / 2}, {X: f / 2, Y: f / 2}, {X: f / 2, Y: f}, {Y: f}}, b)
		m.at("A", "k", 0, 0)
		m.box("m", f/2/inch, f/2/inch, c)
		m.at("B", "m", f/2/inch, f/2/inch)
		m.places = append(m.places, layout.Place{ID: "C", Kind: "k", Mirror: true, At: &geom.Point{}})
	case 4: // an arch beside a frame and with another on its head
		f := (flats + least) * inch
		w := b.Depth().MM()
		m.kind("k", geom.Polygon{{X: f}, {X: f, Y: f}, {Y: f}, {}}, b)
		m.kinds[0].Open = true
		m.kinds[0].Inside = geom.Polygon{{X: f - w}, {X: f - w, Y: f - w}, {X: w, Y: f - w}, {X: w}}
		m.box("m", flats+least, flats+least, c)
		m.at("A", "k", 0, 0)
		m.at("B", "m", -flats-least, 0)
		m.at("C", "m", 0, flats+least)
	case 5: // two on either face of one board
		m.box("k", 3*flats+2*least, 3*flats+2*least, b)
		m.box("m", flats, flats, c)
		m.at("A", "k", 0, 0)
		m.at("B", "m", flats, 3*flats+2*least)
		m.at("C", "m", flats, 2*flats+2*least-b.Depth().Inches())
	}
	s := Settings{HasRightAngle: rapid.Bool().Draw(t, "angle"), BothSides: rapid.Bool().Draw(t, "both"), Often: rapid.Bool().Draw(t, "often"),
		Inserts: rapid.Bool().Draw(t, "inserts"), Flat: FlatWay(rapid.IntRange(0, 2).Draw(t, "flat way")),
		Screws: rapid.SampledFrom([][]string{nil, {"No. 10", "No. 6"}, {"4 mm", "3.5 mm"}}).Draw(t, "screws"),
		Seams:  map[int]Choice{1: {Site: true}, 2: {One: rapid.Bool().Draw(t, "one")}}}
	return m, s
}

// The rules are read off the finished plan, with no help of the code that made
// it: distances in the plane by polygons, depths by the boards' sizes.
func TestNoFastenerBreaksARule(t *testing.T) {
	fixed := 0
	rapid.Check(t, func(t *rapid.T) {
		m, s := drawn(t)
		l, b := layoutOf(m)
		p, problems := Fix(l, b, s)
		if len(p.Seams)+len(problems) != len(l.Seams) {
			t.Fatalf("%d seams fixed, %d problems, %d seams", len(p.Seams), len(problems), len(l.Seams))
		}
		r := workWith(s).rules
		for _, seam := range p.Seams {
			fixed += len(seam.Fasteners)
			for i, f := range seam.Fasteners {
				checkFastener(t, l, b, r, seam, f)
				for _, g := range seam.Fasteners[:i] {
					checkPitch(t, r, seam, f, g)
				}
			}
		}
		checkApart(t, l, r, p)
	})
	if fixed < 500 && !testing.Short() { // rapid draws a fifth of the jobs with -short
		t.Errorf("only %d fasteners were looked at", fixed)
	}
}

// A triangle's mitres come in by 1.73 times the depth: a slanted screw, which is
// deeper than the straight one its place was found for, keeps clear of them.
func TestSteepMitres(t *testing.T) {
	slanted := 0
	rapid.Check(t, func(t *rapid.T) {
		m := &made{}
		flats := rapid.Float64Range(8.5, 14).Draw(t, "flats")
		m.regular("hex", 6, flats, oneByFour)
		m.regular("tri", 3, flats/3, oneByFour)
		m.at("A", "hex", 0, flats/2)
		m.attach("B", "tri", "A", 1, 4)
		l, b := layoutOf(m)
		p, _ := Fix(l, b, Settings{})
		for _, s := range p.Seams {
			for _, f := range s.Fasteners {
				checkFastener(t, l, b, workWith(Settings{}).rules, s, f)
				if f.Slant > 0 && l.Frames[f.Tip].ID == "B" {
					slanted++
				}
			}
		}
	})
	if slanted == 0 {
		t.Error("no slanted screw was looked at")
	}
}

const slack = 1e-4 // mm, of sums taken another way

// ends are the distances along the grain of side k's board, at a point in it,
// to the two mitres.
func ends(f layout.Frame, side int, p geom.Point) (float64, float64) {
	i, j := side-1, side%len(f.Outside)
	dir := f.Outside[j].Sub(f.Outside[i]).Unit()
	far := func(k int) float64 {
		// Where the line through p along the board meets the mitre's line.
		a, v := f.Outside[k], f.Inside[k].Sub(f.Outside[k])
		return math.Abs(a.Sub(p).Cross(v) / dir.Cross(v))
	}
	return far(i), far(j)
}

func checkFastener(t *rapid.T, l layout.Layout, b []Board, r Rules, seam Seam, f Fastener) {
	ls := l.Seams[seam.Index]
	headSide, tipSide := ls.Sides[0], ls.Sides[1]
	if headSide.Frame != f.Head {
		headSide, tipSide = tipSide, headSide
	}
	d := f.Diameter.MM()
	if f.Axis == (geom.Point{}) {
		checkFromBack(t, l, b, r, ls, f)
		return
	}
	end, edge := float64(r.EndLeast)*d, float64(r.Edge)*d
	if f.Root == 0 {
		end, edge = float64(r.BoltEndLeast)*d, float64(boltEdgeLeast)*d
	}
	sin, cos := math.Sincos(float64(f.Slant))
	tip := f.At.Add(f.Axis.Mul((f.First+f.Penetration)*cos + max(ls.Gap, 0)))
	near := f.At.Add(f.Axis.Mul(f.First * cos))
	for _, c := range []struct {
		ss layout.SeamSide
		at geom.Point
	}{{headSide, f.At}, {headSide, near}, {tipSide, near}, {tipSide, tip}} {
		if a, z := ends(l.Frames[c.ss.Frame], c.ss.Side, c.at); min(a, z) < end-slack-math.Abs(ls.Gap) {
			t.Fatalf("seam %d: %s is %.3f and %.3f in from the ends of %s, want %.3f", seam.Number, f.Name, a/inch, z/inch, l.Frames[c.ss.Frame].ID, end/inch)
		}
	}
	tipDepth := f.Depth - sin*f.Penetration
	if f.From == Front {
		tipDepth = f.Depth + sin*f.Penetration
	}
	for frame, z := range map[int]float64{f.Head: f.HeadIn, f.Tip: tipDepth} {
		if rise := b[frame].Rise().MM(); z < edge-slack || z > rise-edge+slack {
			t.Fatalf("seam %d: %s is %.3f deep in %.3f, want %.3f from the edges", seam.Number, f.Name, z/inch, rise/inch, edge/inch)
		}
	}
	if head := b[f.Head]; seam.Method != BoredBolts && head.Depth() > head.Rise() {
		t.Fatalf("seam %d: a %s through a width", seam.Number, f.Name)
	}
	if f.Root == 0 {
		return
	}
	wood := b[f.Head].Depth().MM() + b[f.Tip].Depth().MM()
	if left := wood - f.Length.MM()*cos - r.Sink; left < r.Keep-slack || math.Abs(left-f.Spare) > slack {
		t.Fatalf("seam %d: %s leaves %.3f in, says %.3f", seam.Number, f.Name, left/inch, f.Spare/inch)
	}
	if f.Penetration < float64(r.Hold)*d-slack {
		t.Fatalf("seam %d: %s goes in %.3f in", seam.Number, f.Name, f.Penetration/inch)
	}
}

// checkFromBack: a screw in the back of a flat board stays in it and clear of
// its ends.
func checkFromBack(t *rapid.T, l layout.Layout, b []Board, r Rules, ls layout.Seam, f Fastener) {
	ss := ls.Sides[0]
	if ss.Frame != f.Head {
		ss = ls.Sides[1]
	}
	if a, z := ends(l.Frames[f.Head], ss.Side, f.At); min(a, z) < float64(r.EndLeast)*f.Diameter.MM()-slack {
		t.Fatalf("seam %d: %s is %.3f and %.3f in from the ends", ls.Number, f.Name, a/inch, z/inch)
	}
	if left := b[f.Head].Rise().MM() - f.Penetration; left < r.Keep-slack || f.Penetration < float64(r.Hold)*f.Diameter.MM()-slack {
		t.Fatalf("seam %d: %s leaves %.3f in of the board", ls.Number, f.Name, left/inch)
	}
	if b[f.Head].Depth() <= b[f.Head].Rise() {
		t.Fatalf("seam %d: a plate on a board on edge", ls.Number)
	}
}

func checkPitch(t *rapid.T, r Rules, seam Seam, f, g Fastener) {
	d := f.Diameter.MM()
	pitch, acrossIt := float64(r.Pitch)*d, float64(r.PitchAcross)*d
	if f.Root == 0 {
		pitch, acrossIt = float64(r.BoltPitch)*d, float64(r.BoltPitch)*d
	}
	apart := math.Abs(f.Along - g.Along)
	if f.Axis == (geom.Point{}) {
		return // the holes of a plate are where its maker put them
	}
	if apart > slack && apart < pitch-slack || apart <= slack && math.Abs(f.Depth-g.Depth) < acrossIt-slack {
		t.Fatalf("seam %d: two %s are %.3f along and %.3f across", seam.Number, f.Name, apart/inch, math.Abs(f.Depth-g.Depth)/inch)
	}
}

// checkApart looks at every two fasteners of different seams.
func checkApart(t *rapid.T, l layout.Layout, r Rules, p Plan) {
	for i, s := range p.Seams {
		for _, u := range p.Seams[:i] {
			for _, f := range s.Fasteners {
				for _, g := range u.Fasteners {
					wood := axis(l, s, f).dist(axis(l, u, g)) - (f.Diameter+g.Diameter).MM()/2
					if wood < float64(r.Apart)*min(f.Diameter, g.Diameter).MM()-slack {
						t.Fatalf("seams %d and %d: fasteners with %.3f in between", s.Number, u.Number, wood/inch)
					}
				}
			}
		}
	}
}

func axis(l layout.Layout, s Seam, f Fastener) path {
	sin, cos := math.Sincos(float64(f.Slant))
	long := f.First + f.Penetration + max(l.Seams[s.Index].Gap, 0)/cos
	if f.Axis == (geom.Point{}) {
		return pathOf(f.At, f.At, f.HeadIn, f.HeadIn-f.Penetration, 0, 0)
	}
	way := -sin
	if f.From == Front {
		way = sin
	}
	return pathOf(f.At, f.At.Add(f.Axis.Mul(long*cos)), f.HeadIn, f.HeadIn+way*long, 0, 0)
}

func TestFixTwiceIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, s := drawn(t)
		l, b := layoutOf(m)
		p, _ := Fix(l, b, s)
		q, _ := Fix(l, b, s)
		if text(l, p) != text(l, q) {
			t.Fatalf("%s\nthen\n%s", text(l, p), text(l, q))
		}
	})
}
