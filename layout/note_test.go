package layout

import (
	"fmt"
	"math"
	"os"
	"sort"
	"strings"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A short notation for the tests: kinds are drawn with their first side on the
// floor, left to right, so that a hexagon's sides are 1 below, 2 and 3 on the
// right, 4 on top, 5 and 6 on the left.

const stock = 18.0 // mm, board thickness of the test kinds

// inset moves every side of a counter-clockwise outline inwards by w. The
// bottom of an open one stays where it is.
func inset(outline geom.Polygon, w float64, open bool) geom.Polygon {
	n := len(outline)
	line := func(k int) (geom.Point, geom.Point) {
		a, b := outline[k%n], outline[(k+1)%n]
		d := b.Sub(a).Unit()
		if open && k%n == n-1 {
			return a, d
		}
		return a.Add(d.Perp().Mul(w)), d
	}
	in := make(geom.Polygon, n)
	for k := range in {
		p, u := line(k + n - 1)
		q, v := line(k)
		in[k] = p.Add(u.Mul(q.Sub(p).Cross(v) / u.Cross(v)))
	}
	return in
}

func kindOf(name string, corners ...geom.Point) Kind {
	return Kind{Name: name, Outside: corners, Inside: inset(corners, stock, false)}
}

// regular has n sides of the given length, its centre at the origin.
func regular(name string, n int, side float64) Kind {
	r := side / 2 / math.Sin(math.Pi/float64(n))
	corners := make(geom.Polygon, n)
	for k := range corners {
		a := -math.Pi/2 - math.Pi/float64(n) + 2*math.Pi*float64(k)/float64(n)
		corners[k] = geom.Point{X: r}.Rot(a)
	}
	return kindOf(name, corners...)
}

// rectangle has its lower left corner at the origin.
func rectangle(name string, w, h float64) Kind {
	return kindOf(name, geom.Point{}, geom.Point{X: w}, geom.Point{X: w, Y: h}, geom.Point{Y: h})
}

// archOf stands on two feet; side 4, from the last corner to the first, is open.
func archOf(name string, w, h float64) Kind {
	c := geom.Polygon{{X: w}, {X: w, Y: h}, {Y: h}, {}}
	return Kind{Name: name, Outside: c, Inside: inset(c, stock, true), Open: true}
}

// letterU has two arms, the left one 500 high and the right one 495.
func letterU() Kind {
	return kindOf("u",
		geom.Point{}, geom.Point{X: 900}, geom.Point{X: 900, Y: 495}, geom.Point{X: 700, Y: 495},
		geom.Point{X: 700, Y: 200}, geom.Point{X: 200, Y: 200}, geom.Point{X: 200, Y: 500}, geom.Point{Y: 500})
}

func at(id, kind string, x, y float64) Place {
	return Place{ID: id, Kind: kind, At: &geom.Point{X: x, Y: y}}
}

func on(id, kind string, attach ...Attach) Place { return Place{ID: id, Kind: kind, Attach: attach} }

// lay builds what must have no problem.
func lay(t testing.TB, kinds []Kind, places []Place, s Settings) Layout {
	t.Helper()
	l, problems := Build(kinds, places, s)
	for _, p := range problems {
		t.Fatalf("unexpected problem: %+v", p)
	}
	return l
}

func (l Layout) frame(t testing.TB, id string) Frame {
	t.Helper()
	for _, f := range l.Frames {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("no frame %q", id)
	return Frame{}
}

// seamList writes seams as "A3 B6 200", sides by frame, sorted, so that layouts
// can be compared apart from their numbers.
func seamList(l Layout) string {
	var lines []string
	for _, s := range l.Seams {
		ends := []string{}
		for _, e := range s.Sides {
			inner := ""
			if e.Inner {
				inner = "i"
			}
			ends = append(ends, fmt.Sprintf("%s.%d%s", l.Frames[e.Frame].ID, e.Side, inner))
		}
		sort.Strings(ends)
		lines = append(lines, fmt.Sprintf("%s %s %.2f", ends[0], ends[1], s.Length))
	}
	sort.Strings(lines)
	return strings.Join(lines, "\n")
}

func codes(problems []Problem) string {
	var out []string
	for _, p := range problems {
		out = append(out, fmt.Sprintf("%s:%s:%d", p.Code, p.Frame, p.Attach))
	}
	return strings.Join(out, " ")
}

func near(a, b, within float64) bool { return math.Abs(a-b) <= within }

func wantNear(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !near(got, want, within) {
		t.Errorf("%s is %.4f, want %.4f", what, got, want)
	}
}

func wantPoint(t testing.TB, what string, got, want geom.Point, within float64) {
	t.Helper()
	if !(got.Dist(want) <= within) {
		t.Errorf("%s is (%.4f, %.4f), want (%.4f, %.4f)", what, got.X, got.Y, want.X, want.Y)
	}
}

// combWall reads the example wall: a kind and a place for each frame, in mm, and
// the seams that its drawing lists as "A B 406.40".
func combWall(t testing.TB) (kinds []Kind, places []Place, seams []string) {
	t.Helper()
	text, err := os.ReadFile("testdata/comb-wall.txt")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		head, rest, _ := strings.Cut(strings.TrimSpace(line), ": ")
		word := strings.Fields(head)
		switch word[0] {
		case "frame":
			var corners geom.Polygon
			for _, c := range strings.Fields(rest) {
				var p geom.Point
				if _, err := fmt.Sscanf(c, "%g,%g", &p.X, &p.Y); err != nil {
					t.Fatal(err)
				}
				corners = append(corners, p.Mul(25.4))
			}
			kinds = append(kinds, kindOf(word[1], corners...))
			places = append(places, at(word[1], word[1], 0, 0))
		case "seam":
			var inches float64
			if _, err := fmt.Sscanf(rest, "%g", &inches); err != nil {
				t.Fatal(err)
			}
			seams = append(seams, fmt.Sprintf("%s %s %.1f", min(word[1], word[2]), max(word[1], word[2]), inches*25.4))
		}
	}
	sort.Strings(seams)
	return kinds, places, seams
}

// cluster is five hexagons, one of 600 mm side, two of 400 on its upper slopes
// and two of 200 on its lower ones, all level with its left and right corners.
func cluster() ([]Kind, []Place) {
	kinds := []Kind{regular("big", 6, 600), regular("mid", 6, 400), regular("small", 6, 200)}
	return kinds, []Place{
		at("B", "big", 0, 0),
		on("M1", "mid", Attach{To: "B", Side: 2, ToSide: 5, Align: FlushEnd}),
		on("M2", "mid", Attach{To: "B", Side: 6, ToSide: 3, Align: FlushStart}),
		on("S1", "small", Attach{To: "B", Side: 3, ToSide: 6, Align: FlushStart}, Attach{To: "M1", Side: 4, ToSide: 1, Align: FlushEnd}),
		on("S2", "small", Attach{To: "B", Side: 5, ToSide: 2, Align: FlushEnd}, Attach{To: "M2", Side: 4, ToSide: 1, Align: FlushStart}),
	}
}

// turned turns a whole job about the origin by a radians.
func turned(places []Place, a float64) []Place {
	out := append([]Place(nil), places...)
	for i, p := range out {
		out[i].Turn += unit.Angle(a)
		if p.At != nil {
			q := p.At.Rot(a)
			out[i].At = &q
		}
	}
	return out
}

// mirrored turns a whole job left for right.
func mirrored(places []Place) []Place {
	out := append([]Place(nil), places...)
	for i, p := range out {
		out[i].Mirror, out[i].Turn = !p.Mirror, -p.Turn
		if p.At != nil {
			out[i].At = &geom.Point{X: -p.At.X, Y: p.At.Y}
		}
	}
	return out
}
