package drawing_test

import (
	"math"
	"testing"

	"bowerwright/drawing"

	"pgregory.net/rapid"
)

// dimensioned splits what a dimension draws: its line and ticks, and its figure.
func dimensioned(d drawing.Dimension) (line drawing.Outline, ticks []drawing.Outline, w drawing.Words) {
	s := sketched(d)
	for _, sh := range s.shapes {
		switch sh.pen {
		case drawing.PenDimension:
			line = sh.outlines[0]
		case drawing.PenTick:
			ticks = append(ticks, sh.outlines[0])
		}
	}
	return line, ticks, s.words[0]
}

// TestDimensionReads: at any angle the figure reads from below or from the
// right, stands above the line as one reads it, and is centred on it.
func TestDimensionReads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.Float64Range(-720, 720).Draw(t, "angle")
		off := rapid.Float64Range(-20, 20).Draw(t, "off")
		to := pt(50, 0).Rot(deg * math.Pi / 180)
		line, ticks, w := dimensioned(drawing.Along(pt(0, 0), to, off, "50 mm"))
		if w.Turn <= -90 || w.Turn > 90.001 {
			t.Fatalf("it reads at %g degrees", w.Turn)
		}
		read := pt(1, 0).Rot(-w.Turn * math.Pi / 180)
		up := pt(read.Y, -read.X)
		mid := line.Start.Lerp(line.End(), 0.5)
		foot := w.At.Add(read.Mul(w.Width / 2)).Sub(mid)
		if !near(foot.Dot(read), 0, 1e-6) || !near(foot.Dot(up), 1.3, 1e-6) {
			t.Fatalf("the middle of its foot lies %v off the middle of the line", foot)
		}
		if len(ticks) != 2 || !near(line.Start.Dist(line.End()), 50, 1e-9) {
			t.Fatalf("line %s, %d ticks", notation(line), len(ticks))
		}
	})
}

// TestTicksLean: saw-ticks are 45 degrees to their line, 6 pt long, and rise to
// the right on level and upright lines.
func TestTicksLean(t *testing.T) {
	for _, d := range []drawing.Dimension{
		drawing.Level(pt(10, 10), pt(80, 12), 20, "70 mm"),
		drawing.Upright(pt(10, 10), pt(12, 80), 20, "70 mm"),
	} {
		_, ticks, _ := dimensioned(d)
		for i, end := range []drawing.Point{d.LineFrom, d.LineTo} {
			v := ticks[i].End().Sub(ticks[i].Start)
			if ticks[i].Start.Lerp(ticks[i].End(), 0.5).Dist(end) > 1e-9 || !near(v.Len(), 6*drawing.MMPerPt, 1e-9) || !near(v.X, -v.Y, 1e-9) {
				t.Errorf("tick %s at %v", notation(ticks[i]), end)
			}
		}
	}
}

// TestUprightReadsFromTheRight, whichever end is named first.
func TestUprightReadsFromTheRight(t *testing.T) {
	for _, d := range []drawing.Dimension{
		drawing.Upright(pt(10, 10), pt(10, 80), 20, "7 ft 6 in"),
		drawing.Upright(pt(10, 80), pt(10, 10), 20, "7 ft 6 in"),
		drawing.Along(pt(20, 10), pt(20, 80), 0, "7 ft 6 in"),
	} {
		_, _, w := dimensioned(d)
		if !near(w.Turn, 90, 1e-6) || w.At.X >= 20 || w.At.Y <= 45 {
			t.Errorf("it starts at %v and turns %g", w.At, w.Turn)
		}
	}
}

// TestShortDimension: a figure with no room between the ticks stands past the
// end, on the line drawn on under it.
func TestShortDimension(t *testing.T) {
	d := drawing.Level(pt(10, 10), pt(14, 10), 20, "5/32 in")
	line, _, w := dimensioned(d)
	if w.At.X <= 14 {
		t.Errorf("the figure starts at %g, on the ticks", w.At.X)
	}
	if end := line.End(); !near(end.X, w.At.X+w.Width, 1e-9) || end.Y != 20 {
		t.Errorf("the line ends at %v, the figure at %g", end, w.At.X+w.Width)
	}
	if room := drawing.Level(pt(10, 10), pt(60, 10), 20, "5/32 in"); true {
		line, _, _ := dimensioned(room)
		if line.End() != pt(60, 20) {
			t.Errorf("with room the line ends at %v", line.End())
		}
	}
}

// TestReachLines: they leave a gap at the thing, and are left out where the
// dimension lies on it.
func TestReachLines(t *testing.T) {
	reaches := func(d drawing.Dimension) (out []string) {
		for _, s := range sketched(d).shapes {
			if s.pen == drawing.PenReachLine {
				out = append(out, notation(s.outlines[0]))
			}
		}
		return out
	}
	got := reaches(drawing.Level(pt(10, 10), pt(50, 19), 20, "40 mm"))
	if len(got) != 1 || got[0] != "10,10.8 10,20" {
		t.Errorf("reach lines %q", got)
	}
}

func TestDimensionAfter(t *testing.T) {
	d := drawing.Level(pt(0, 0), pt(90, 0), 10, "10 ft 4 in")
	d.After = " · 3150 mm"
	_, _, w := dimensioned(d)
	if w.Plain != "10 ft 4 in · 3150 mm" || w.Runs[len(w.Runs)-1].Tone != drawing.Pencil {
		t.Errorf("%q ends in %s", w.Plain, w.Runs[len(w.Runs)-1].Tone)
	}
}

// TestAlongIsOnTheLeft as one walks from the first point to the second.
func TestAlongIsOnTheLeft(t *testing.T) {
	d := drawing.Along(pt(0, 0), pt(10, 0), 4, "10 mm")
	if d.LineFrom != pt(0, -4) || d.LineTo != pt(10, -4) {
		t.Errorf("walking right, left is up the page; the line goes %v to %v", d.LineFrom, d.LineTo)
	}
}
