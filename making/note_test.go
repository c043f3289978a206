package making

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// Boards of the tests: 1x4, 1x6 and 5/4x4 by the real sizes of the catalogue.
var (
	oneByFour = frame.Boards{Thickness: 3 * unit.Inch / 4, Width: 7 * unit.Inch / 2, OnEdge: true}
	oneBySix  = frame.Boards{Thickness: 3 * unit.Inch / 4, Width: 11 * unit.Inch / 2, OnEdge: true}
	flatFour  = frame.Boards{Thickness: 3 * unit.Inch / 4, Width: 7 * unit.Inch / 2}
	thick     = frame.Boards{Thickness: unit.Inch + unit.Inch/16, Width: 7 * unit.Inch / 2, OnEdge: true}
)

const in = 25.4

func inches(n float64) unit.Length {
	l, _ := unit.Of(n, unit.Inches)
	return l
}

// built makes a frame of an outline, with lengths to 1/16 in.
func built(t testing.TB, b frame.Boards) func(o frame.Outline, err error) frame.Frame {
	return func(o frame.Outline, err error) frame.Frame {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		f, err := frame.Build(o, frame.Settings{Boards: b, Mark: unit.MarkUS, JointTolerance: unit.Inch / 32})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
}

func hexagon(t testing.TB, flats float64, b frame.Boards) frame.Frame {
	return built(t, b)(frame.Regular(6, frame.Flats, inches(flats), frame.OnSide, b.Depth()))
}

func regular(t testing.TB, n int, side float64, b frame.Boards) frame.Frame {
	return built(t, b)(frame.Regular(n, frame.Side, inches(side), frame.OnSide, b.Depth()))
}

func house(t testing.TB, b frame.Boards) frame.Frame {
	return built(t, b)(frame.House(inches(18), inches(14), inches(22)))
}

// arch is a half round of 8 segments, 40 in between its corners.
func arch(t testing.TB, b frame.Boards) frame.Frame {
	return built(t, b)(frame.HalfRound(8, inches(40), frame.CornersOn, false))
}

// star turns inwards at a corner.
func star(t testing.TB, b frame.Boards) frame.Frame {
	return built(t, b)(frame.ByCorners([]geom.Point{{X: 0}, {X: 500}, {X: 500, Y: 400}, {X: 250, Y: 260}, {X: 0, Y: 400}}))
}

// plan makes kinds without a layout and fails on any problem.
func plan(t testing.TB, s Shop, kinds ...Kind) Plan {
	t.Helper()
	p, problems, err := Make(kinds, layout.Layout{}, s)
	if err != nil || len(problems) > 0 {
		t.Fatalf("problems %+v, error %v", problems, err)
	}
	return p
}

// codes makes kinds and lists the codes of the problems.
func codes(t testing.TB, s Shop, l layout.Layout, kinds ...Kind) string {
	t.Helper()
	_, problems, err := Make(kinds, l, s)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, p := range problems {
		out = append(out, string(p.Code))
	}
	return strings.Join(out, " ")
}

func builtIn() Rates { return RatesFrom(assume.BuiltInBook().Reader()) }

func wantNear(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.6g, want %.6g within %g", what, got, want, within)
	}
}

// a place in the notation "ID kind" at x, y in mm, or attached: "B side to A side".
func at(id, kind string, x, y float64) layout.Place {
	return layout.Place{ID: id, Kind: kind, At: &geom.Point{X: x, Y: y}}
}

func on(id, kind string, side int, to string, toSide int) layout.Place {
	return layout.Place{ID: id, Kind: kind, Attach: []layout.Attach{{To: to, Side: side, ToSide: toSide}}}
}

func lay(t testing.TB, kinds []Kind, places ...layout.Place) layout.Layout {
	t.Helper()
	var ks []layout.Kind
	for _, k := range kinds {
		ks = append(ks, layout.Kind{Name: k.Name, Outside: k.Frame.Built.Corners, Inside: k.Frame.Inside, Open: k.Frame.Built.Open})
	}
	l, problems := layout.Build(ks, places, layout.Settings{Gap: in / 32})
	if len(problems) > 0 {
		t.Fatalf("layout: %+v", problems)
	}
	return l
}

// comb is three hexagons round one point; B stands, see TestOrder.
func comb(t testing.TB) ([]Kind, layout.Layout) {
	kinds := []Kind{{Name: "hex", Frame: hexagon(t, 18, oneByFour), Count: 3}}
	return kinds, lay(t, kinds, at("A", "hex", 0, 0), on("B", "hex", 5, "A", 2), on("C", "hex", 6, "A", 3))
}

// orderOf writes a laying order: "A floor", "B chalk", "C 1 2" with seams.
func orderOf(l layout.Layout, order []Laid) string {
	var out []string
	for _, s := range order {
		text := l.Frames[s.Frame].ID
		if s.OnFloor {
			text += " floor"
		}
		if s.ByChalk {
			text += " chalk"
		}
		if len(s.Against) > 0 {
			text += " " + strings.Trim(fmt.Sprint(s.Against), "[]")
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

// trial finds the trial of a method and the limit of a measured thing in it.
func trial(t testing.TB, g GlueUp, m Method) Trial {
	t.Helper()
	i := slices.IndexFunc(g.Tried, func(x Trial) bool { return x.Method == m })
	if i < 0 {
		t.Fatalf("%s was not tried", m)
	}
	return g.Tried[i]
}

func limit(t testing.TB, g GlueUp, m Method, what Measured) Limit {
	t.Helper()
	tr := trial(t, g, m)
	i := slices.IndexFunc(tr.Limits, func(l Limit) bool { return l.What == what })
	if i < 0 {
		t.Fatalf("%s has no limit of %s", m, what)
	}
	return tr.Limits[i]
}
