package fixing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"bowerwright/frame"
	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

const (
	inch   = 25.4
	inches = unit.Inch
)

// oneByFour lies on edge: 3/4 in in the plane, 3 1/2 in from front to back.
var oneByFour = Board{frame.Boards{Thickness: 3 * inches / 4, Width: 7 * inches / 2, OnEdge: true}, 0.36}

// flat is the same board lying flat.
var flat = Board{frame.Boards{Thickness: 3 * inches / 4, Width: 7 * inches / 2}, 0.36}

// A made is a layout under construction, all kinds of one board each.
type made struct {
	kinds  []layout.Kind
	places []layout.Place
	boards map[string]Board // by kind
	gap    float64          // of every seam, mm
}

// regular makes a kind of n sides that stands on one, across flats in inches.
func (m *made) regular(name string, n int, flats float64, b Board) {
	r := flats * inch / 2 / math.Cos(math.Pi/float64(n))
	var out geom.Polygon
	for i := range n {
		a := -math.Pi/2 - math.Pi/float64(n) + 2*math.Pi*float64(i)/float64(n)
		out = append(out, geom.Point{X: r * math.Cos(a), Y: r * math.Sin(a)})
	}
	m.kind(name, out, b)
}

// box makes an upright rectangle, in inches.
func (m *made) box(name string, width, height float64, b Board) {
	w, h := width*inch, height*inch
	m.kind(name, geom.Polygon{{}, {X: w}, {X: w, Y: h}, {Y: h}}, b)
}

func (m *made) kind(name string, out geom.Polygon, b Board) {
	in, err := out.Offset(b.Depth().MM())
	if err != nil {
		panic(err)
	}
	if m.boards == nil {
		m.boards = map[string]Board{}
	}
	m.kinds = append(m.kinds, layout.Kind{Name: name, Outside: out, Inside: in})
	m.boards[name] = b
}

// at places a frame, in inches.
func (m *made) at(id, kind string, x, y float64) {
	m.places = append(m.places, layout.Place{ID: id, Kind: kind, At: &geom.Point{X: x * inch, Y: y * inch}})
}

func (m *made) attach(id, kind, to string, side, toSide int) {
	m.places = append(m.places, layout.Place{ID: id, Kind: kind, Attach: []layout.Attach{{To: to, Side: side, ToSide: toSide}}})
}

func (m *made) build(t testing.TB) (layout.Layout, []Board) {
	t.Helper()
	l, boards := layoutOf(m)
	return l, boards
}

func (m *made) fix(t testing.TB, s Settings) (layout.Layout, Plan) {
	t.Helper()
	l, boards := m.build(t)
	p, problems := Fix(l, boards, s)
	for _, bad := range problems {
		t.Errorf("seam %d: %s, room %.2f in, need %.2f in", bad.Seam, bad.Code, bad.Room/inch, bad.Need/inch)
	}
	return l, p
}

// stacked is two frames of one kind, B on A.
func stacked(n int, flats float64, b Board) *made {
	m := &made{}
	m.regular("k", n, flats, b)
	m.at("A", "k", 0, flats/2)
	m.at("B", "k", 0, 3*flats/2)
	return m
}

// text writes a plan in inches, short enough to be read.
func text(l layout.Layout, p Plan) string {
	var b strings.Builder
	for _, s := range p.Seams {
		fmt.Fprintf(&b, "%d %s seen %d/%d %v\n", s.Number, s.Method, s.Seen, s.Looks, s.Notes)
		for _, f := range s.Fasteners {
			fmt.Fprintf(&b, "  %s %s>%s %s along %.3f off %.3f depth %.3f pen %.3f spare %.3f room %.2f %s slant %.0f\n", f.Name, l.Frames[f.Head].ID, l.Frames[f.Tip].ID, f.Way,
				f.Along/inch, f.Off/inch, f.Depth/inch, f.Penetration/inch, f.Spare/inch, f.Room/inch, f.Tool, f.Slant.Degrees())
		}
		for _, q := range s.Pegs {
			fmt.Fprintf(&b, "  %s along %.3f depth %.3f into %.3f %.3f\n", q.Name, q.Along/inch, q.Depth/inch, q.Into[0]/inch, q.Into[1]/inch)
		}
		for _, q := range s.Plates {
			fmt.Fprintf(&b, "  %s along %.3f length %.3f\n", q.Name, q.Along/inch, q.Length/inch)
		}
		for _, i := range s.Bag {
			fmt.Fprintf(&b, "  bag %d %s\n", i.Count, i.Name)
		}
	}
	for _, t := range p.Totals {
		fmt.Fprintf(&b, "total %d %s, %d of %d\n", t.Count, t.Name, t.Boxes, t.Pack)
	}
	return b.String()
}

// layoutOf builds without a test at hand.
func layoutOf(m *made) (layout.Layout, []Board) {
	l, problems := layout.Build(m.kinds, m.places, layout.Settings{Gap: m.gap})
	if len(problems) > 0 {
		panic(problems)
	}
	var boards []Board
	for _, f := range l.Frames {
		boards = append(boards, m.boards[f.Kind])
	}
	return l, boards
}

// board makes one of a thickness and width in inches.
func board(thickness, width float64, onEdge bool) Board {
	in := func(x float64) unit.Length { return unit.Length(math.Round(x * float64(inches))) }
	return Board{frame.Boards{Thickness: in(thickness), Width: in(width), OnEdge: onEdge}, 0.42}
}
