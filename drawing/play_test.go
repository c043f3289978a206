package drawing_test

import (
	"testing"

	"bowerwright/drawing"
)

var pt = drawing.Pt

// TestPlay shows, in one readable golden, what a maker hears of each item.
func TestPlay(t *testing.T) {
	square := drawing.Ring(points("0,0 10,0 10,10 0,10")...)
	s := sketched(
		drawing.Stroke(drawing.PenHidden, points("1,1 9,1 9,5")...),
		drawing.Polygon(drawing.PenOutline, drawing.Hatched(drawing.LevelLines), points("0,0 8,0 0,8")...),
		drawing.Holed(drawing.Pen{}, drawing.Black, square, drawing.Ring(points("2,2 4,2 4,4 2,4")...)),
		drawing.Label(pt(50, 20), drawing.Body, "left 10 3/8 in").RightAligned(),
		drawing.LabelOf(pt(50, 30), drawing.Lead, drawing.B("Board 7"), drawing.Q(" keep")).Turned(90),
		drawing.Level(pt(20, 40), pt(60, 42), 50, "40 mm"),
		drawing.Group{Move: drawing.View(0.1, pt(10, 90)), Clip: []drawing.Outline{square}, Items: []drawing.Item{
			drawing.Circle(drawing.PenInHand, drawing.Solid(drawing.ChalkWash), pt(100, 50), 20),
			drawing.Group{Move: drawing.Shift(100, 0), Items: []drawing.Item{
				drawing.Label(pt(0, 200), drawing.Small, "up"),
				drawing.Image{At: pt(0, 100), W: 5, H: 4, Alt: "a stand"},
				drawing.Link{At: pt(0, 0), W: 5, H: 4, Page: 2},
			}},
		}},
		drawing.Stroke(drawing.PenGround, points("0,95 100,95")...),
	)
	golden(t, "play.txt", s.log.String())
}

func TestGroupsNest(t *testing.T) {
	inner := drawing.Group{Move: drawing.View(0.5, pt(10, 20)), Items: []drawing.Item{drawing.Stroke(drawing.PenEdge, pt(4, 6), pt(0, 0))}}
	s := sketched(drawing.Group{Move: drawing.Shift(100, 200), Items: []drawing.Item{inner}})
	if got, want := notation(s.shapes[0].outlines[0]), "112,217 110,220"; got != want {
		t.Errorf("nested groups draw %s, want %s", got, want)
	}
}

// TestScaleKeepsPensAndType: a view at 1:25 thins no line and shrinks no word.
func TestScaleKeepsPensAndType(t *testing.T) {
	s := sketched(drawing.Group{Move: drawing.View(0.04, pt(0, 0)), Items: []drawing.Item{
		drawing.Stroke(drawing.PenSeam, pt(0, 0), pt(100, 0)),
		drawing.Label(pt(0, 0), drawing.Body, "seam 7"),
	}})
	if s.shapes[0].pen != drawing.PenSeam {
		t.Errorf("the pen became %v", s.shapes[0].pen)
	}
	if got := s.words[0].Runs[0].Size; got != drawing.Body {
		t.Errorf("type of %g pt became %g", drawing.Body, got)
	}
}

func TestAlignment(t *testing.T) {
	l := drawing.Label(pt(50, 50), drawing.Body, "keep for the next job")
	w := l.Width()
	for _, c := range []struct {
		text drawing.Text
		want drawing.Point
	}{
		{l, pt(50, 50)},
		{l.Centred(), pt(50-w/2, 50)},
		{l.RightAligned(), pt(50-w, 50)},
		{l.RightAligned().Turned(90), pt(50, 50+w)},
		{l.Centred().Turned(180), pt(50+w/2, 50)},
		{l.RightAligned().Turned(-90), pt(50, 50-w)},
	} {
		if got := sketched(c.text).words[0].At; got.Dist(c.want) > 1e-9 {
			t.Errorf("align %d turned %g starts at %v, want %v", c.text.Align, c.text.Turn, got, c.want)
		}
	}
}

// TestPlaceOfRuns: a raised run of a line that reads upwards lies to its left.
func TestPlaceOfRuns(t *testing.T) {
	w := sketched(drawing.Label(pt(30, 80), drawing.Body, "5/8 in").Turned(90)).words[0]
	num := w.Runs[0]
	if got, want := w.Place(num), pt(30-num.Rise, 80); got.Dist(want) > 1e-9 {
		t.Errorf("the numerator stands at %v, want %v", got, want)
	}
	den := w.Runs[2]
	if got, want := w.Place(den), pt(30, 80-den.X); got.Dist(want) > 1e-9 {
		t.Errorf("the denominator stands at %v, want %v", got, want)
	}
}

// TestHoles: a hole counts however it is given.
func TestHoles(t *testing.T) {
	outer := drawing.Ring(points("0,0 10,0 10,10 0,10")...)
	hole := drawing.Ring(points("2,2 4,2 4,4 2,4")...)
	for _, o := range []drawing.Outline{outer, outer.Reversed()} {
		for _, h := range []drawing.Outline{hole, hole.Reversed()} {
			s := drawing.Holed(drawing.Pen{}, drawing.Black, o, h)
			if area(s.Outlines[0])*area(s.Outlines[1]) >= 0 {
				t.Errorf("hole and outline both run one way: %s, %s", notation(s.Outlines[0]), notation(s.Outlines[1]))
			}
		}
	}
}

// area is the signed area of an outline's points, positive when it runs
// clockwise as seen.
func area(o drawing.Outline) float64 {
	pts := o.Flat(0.001)
	sum := 0.0
	for i, p := range pts {
		sum += p.Cross(pts[(i+1)%len(pts)]) / 2
	}
	return sum
}

// TestLegendReads: the house's own page of marks breaks none of its rules.
func TestLegendReads(t *testing.T) {
	l := drawing.List{W: drawing.FieldW, H: drawing.LegendH, Items: drawing.Legend()}
	if got := drawing.Check(l); got != nil {
		t.Errorf("runes no font has: %q", got)
	}
	if got := drawing.Outside(l); got != nil {
		t.Errorf("words off the field: %q", got)
	}
	if got := drawing.Crowded(l); got != nil {
		t.Errorf("words over words: %q", got)
	}
	if got := drawing.Thin(l); got != nil {
		t.Errorf("lines too thin to copy: %v", got)
	}
}
