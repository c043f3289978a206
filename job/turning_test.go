package job

import (
	"encoding/json"
	"math"
	"slices"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// cluster has seams of several lengths, a mirrored frame of a shape that has
// no axis upright, a loop, and frames placed in all three ways.
func cluster() Spec {
	return spec(
		"B = hexagon: flats 18", "S = hexagon: flats 6", "R = corners: corners 0 0 / 14 0 / 10 9 / 0 6", "T = triangle: side 8",
		"B1 at 0 0", "B2 side 2 on B1 side 5", "B3 side 1 on B1 side 4, and side 6 on B2 side 3",
		"S1 side 1 on B3 side 4, flush at start", "R1 side 1 on B1 side 2, shifted 1", "R2 side 1 on B2 side 5, mirrored",
		"T1 corner 2 on B1 corner 1, turned 20")
}

// text is a value as result.json holds it.
func text(t testing.TB, v any) string {
	t.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// sameTimber checks that two results ask for the same kinds, parts and boards
// and have seams of the same lengths.
func sameTimber(t testing.TB, got, want Result) {
	t.Helper()
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"kinds", got.Kinds, want.Kinds}, {"timber", got.Timber, want.Timber}, {"families", got.Families, want.Families},
		{"tests", got.Tests, want.Tests}, {"weight", got.Overall.Weight, want.Overall.Weight}, {"parts", got.Overall.PartCount, want.Overall.PartCount},
	} {
		if g, w := text(t, c.got), text(t, c.want); g != w {
			t.Errorf("%s differ:\n%s\n%s", c.what, g, w)
		}
	}
	sameLengths(t, "seam", seamLengths(got), seamLengths(want))
}

// outlines are the corners of every frame by its id, from the middle of the
// first frame's outline.
func outlines(t testing.TB, r Result, first string) map[string]geom.Polygon {
	t.Helper()
	from := frameOf(t, r, first).Centre
	out := map[string]geom.Polygon{}
	for _, f := range r.Frames {
		for _, c := range f.Outside {
			out[f.ID] = append(out[f.ID], geom.Point{X: c[0] - from[0], Y: c[1] - from[1]})
		}
	}
	return out
}

// sameOutlines checks every corner of every frame, moved by a function of it.
func sameOutlines(t testing.TB, got, want map[string]geom.Polygon, moved func(geom.Point) geom.Point) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d frames, want %d", len(got), len(want))
	}
	for id, p := range want {
		for i, c := range p {
			if d := got[id][i].Sub(moved(c)).Len(); !(d < 0.005) { // two figures to the micrometre, turned
				t.Errorf("corner %d of %s is %.4f mm off", i+1, id, d)
				return
			}
		}
	}
}

// Turning the whole job changes nothing that is sawn, and every corner goes
// where a turn takes it.
func TestTurnedJob(t *testing.T) {
	want := worked(t, cluster())
	for _, degrees := range []float64{7, 30, 90, 180, -41.5} {
		a := unit.FromDegrees(degrees)
		turn := geom.Move{Turn: float64(a)}
		s := cluster()
		s.Layout[0].At = ptr(turn.Apply(*s.Layout[0].At))
		for i := range s.Layout { // what lies on a side turns with it
			if q := &s.Layout[i]; q.At != nil || q.Attach[0].Corner > 0 {
				q.Turn += a
			}
		}
		got := worked(t, s)
		sameTimber(t, got, want)
		sameOutlines(t, outlines(t, got, "B1"), outlines(t, want, "B1"), turn.Apply)
	}
}

// A mirrored job has mirrored frames, and the same seams on the same sides. In
// a mirror the sides of a frame run clockwise, so what was flush at the start
// of a side of B still is: its numbers are mirrored with it.
func TestMirroredJob(t *testing.T) {
	s := cluster()
	for i := range s.Layout {
		q := &s.Layout[i]
		q.Mirror, q.Turn = !q.Mirror, -q.Turn
	}
	got, want := worked(t, s), worked(t, cluster())
	sameTimber(t, got, want)
	sameOutlines(t, outlines(t, got, "B1"), outlines(t, want, "B1"), func(p geom.Point) geom.Point { return geom.Point{X: -p.X, Y: p.Y} })
	near(t, "width", got.Overall.Width.MM, want.Overall.Width.MM, 0.002)
	near(t, "height", got.Overall.Height.MM, want.Overall.Height.MM, 0.002)
	if g, w := seamSides(got), seamSides(want); !slices.Equal(g, w) {
		t.Errorf("seams %v, want %v", g, w)
	}
}

// seamSides names the sides of every seam by frames' ids, sorted.
func seamSides(r Result) []string {
	ids := map[string]string{}
	for _, f := range r.Frames {
		ids[f.Label] = f.ID
	}
	var out []string
	for _, s := range r.Seams {
		ends := []string{ids[s.Frames[0]] + "." + num64(float64(s.Sides[0])), ids[s.Frames[1]] + "." + num64(float64(s.Sides[1]))}
		slices.Sort(ends)
		out = append(out, ends[0]+"-"+ends[1])
	}
	slices.Sort(out)
	return out
}

// The order of the lines in the file changes no figure: only numbers could
// change, and they follow the places.
func TestOrderOfLines(t *testing.T) {
	want := worked(t, cluster())
	s := cluster()
	slices.Reverse(s.Layout)
	got := worked(t, s)
	sameTimber(t, got, want)
	sameOutlines(t, outlines(t, got, "B1"), outlines(t, want, "B1"), func(p geom.Point) geom.Point { return p })
	if g, w := seamSides(got), seamSides(want); !slices.Equal(g, w) {
		t.Errorf("seams %v, want %v", g, w)
	}
}

// A mirrored copy: every frame's image stands as far right of the line as the
// frame stands left of it, seams come twice, boards for twice the frames.
func TestMirroredCopy(t *testing.T) {
	one := worked(t, cluster())
	s := cluster()
	s.read("copy B1 B2 B3 S1 R1 R2 T1 as C1 C2 C3 C4 C5 C6 C7, mirrored at 60")
	r := worked(t, s)
	as := map[string]string{"B1": "C1", "B2": "C2", "B3": "C3", "S1": "C4", "R1": "C5", "R2": "C6", "T1": "C7"}
	all := outlines(t, r, "B1")
	back := map[string]geom.Polygon{}
	originals := map[string]geom.Polygon{}
	for from, to := range as {
		back[from], originals[from] = all[to], all[from]
		if a, b := frameOf(t, r, from), frameOf(t, r, to); a.Kind != b.Kind || a.Mirror == b.Mirror {
			t.Errorf("%s is a %s, mirrored %v; its copy a %s, mirrored %v", from, a.Kind, a.Mirror, b.Kind, b.Mirror)
		}
	}
	// B1's foot stands at x = 0 in the file, its middle over it.
	sameOutlines(t, back, originals, func(p geom.Point) geom.Point { return geom.Point{X: 120*inch - p.X, Y: p.Y} })
	sameLengths(t, "seams twice", seamLengths(r), twice(seamLengths(one)))
	for i, k := range r.Kinds {
		if k.Make != 2*one.Kinds[i].Make {
			t.Errorf("%d of %s", k.Make, k.Name)
		}
	}
}

func twice(v []float64) []float64 {
	out := append(slices.Clone(v), v...)
	slices.Sort(out)
	return out
}

// A copy of a copy: mirrored at 60 in and again at 200 in is moved by 280 in.
func TestCopyOfACopy(t *testing.T) {
	s, moved := cluster(), cluster()
	s.read("copy B1 R2 as C1 C2, mirrored at 60")
	s.read("copy C1 C2 as D1 D2, mirrored at 200")
	moved.read("copy B1 R2 as C1 C2, mirrored at 60")
	moved.read("copy B1 R2 as D1 D2, moved by 280 0")
	got, want := worked(t, s), worked(t, moved)
	sameOutlines(t, outlines(t, got, "B1"), outlines(t, want, "B1"), func(p geom.Point) geom.Point { return p })
}

// Mirrored twice at one line a frame lands exactly on its original: the two are
// in one place, and that is to be put right.
func TestMirroredTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(-5000, 5000)
		m := geom.Move{Mirror: rapid.Bool().Draw(t, "mirror"), Turn: rapid.Float64Range(-4, 4).Draw(t, "turn"), Shift: geom.Point{X: f.Draw(t, "x"), Y: f.Draw(t, "y")}}
		c := Copy{MirrorAt: ptr(unit.Length(rapid.Int64Range(-5e9, 5e9).Draw(t, "line")))}
		back := c.move(c.move(m))
		p := geom.Point{X: f.Draw(t, "px"), Y: f.Draw(t, "py")}
		if d := back.Apply(p).Sub(m.Apply(p)).Len(); d > 1e-8 {
			t.Fatalf("%g mm off", d)
		}
		q, line := c.move(m).Apply(p), c.MirrorAt.MM()
		if o := m.Apply(p); math.Abs(q.X+o.X-2*line) > 1e-8 || math.Abs(q.Y-o.Y) > 1e-8 {
			t.Fatalf("%v is no mirror image of %v in x = %g", q, o, line)
		}
	})
	s := hexagons()
	s.read("copy B1 as C1, mirrored at 60")
	s.read("copy C1 as D1, mirrored at 60")
	if snags := refusals(t, s); snags[0].Code != "layout-overlap" {
		t.Errorf("%+v", snags)
	}
}
