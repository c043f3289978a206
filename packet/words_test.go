package packet

import (
	"math"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"

	"pgregory.net/rapid"
)

// TestViewFits: the set piece lies in its box, stands on the box's foot in the
// middle, and touches the box on one axis.
func TestViewFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(50, 20000).Draw(t, "w"), rapid.Float64Range(50, 20000).Draw(t, "h")
		b := box{10, 20, 150, 130}
		r := job.Result{Overall: job.Overall{Width: job.Size{MM: w}, Height: job.Size{MM: h}}}
		for _, back := range []bool{false, true} {
			v := viewIn(r, b, back)
			e := extent(v.all([]job.XY{{0, 0}, {w, h}}))
			if !e.within(b.grown(1e-9)) || abs(e.y1-b.y1) > 1e-9 || abs(e.x0-b.x0-(b.x1-e.x1)) > 1e-9 {
				t.Fatalf("%v lies at %v", b, e)
			}
			if abs(e.x1-e.x0-(b.x1-b.x0)) > 1e-9 && abs(e.y1-e.y0-(b.y1-b.y0)) > 1e-9 {
				t.Fatalf("%v could be larger", e)
			}
		}
	})
}

// TestSeatIsTheNearest free place, and none when all are taken.
func TestSeatIsTheNearest(t *testing.T) {
	at := func(_, d float64) box { return around(drawing.Pt(50, 20+d), 4, 2) }
	p := newPlacer(box{0, 0, 100, 100})
	if b, ok := p.seat([]float64{0}, at); !ok || b != at(0, 0) {
		t.Errorf("an empty page: %v", b)
	}
	p.take(box{40, 10, 60, 22})
	if b, ok := p.seat([]float64{0}, at); !ok || b != at(0, 3) {
		t.Errorf("with the near ones taken: %v", b)
	}
	p.take(box{40, 10, 60, 60})
	if b, ok := p.seat([]float64{0}, at); ok {
		t.Errorf("with all taken: %v", b)
	}
}

// TestRest says what is left of a board.
func TestRest(t *testing.T) {
	r := single().result()
	for want, b := range map[string]job.BoardFacts{
		"keep 20 in":   {Keep: true, Offcut: sawnSize(508)},
		"left 2 in":    {Offcut: sawnSize(50.8)},
		"nothing left": {},
	} {
		if got := restSays(r, b); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestTurnsAreSaidOnce for runs of the same, and what is held at the last cut.
func TestTurnsAreSaidOnce(t *testing.T) {
	r := gateway().result()
	board := func(turns ...string) job.BoardFacts {
		var b job.BoardFacts
		for _, s := range turns {
			b.Parts = append(b.Parts, job.SawnFacts{Mark: "C", Turn: s, Held: "board", HeldLength: sawnSize(400)})
		}
		return b
	}
	for want, b := range map[string]job.BoardFacts{
		"No turning. At":     board("", ""),
		"No turning. ":       board("none", ""),
		"After cut 1 roll. ": board("roll", ""),
		"After cuts 1 to 3 roll; after cut 5 roll. ":  board("roll", "roll", "roll", "", "roll", ""),
		"hold the rest of the board, 400 mm (15 3/4 ": board("roll"),
	} {
		if got := turnsSay(r, b); !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
	if got := turnsSay(r, job.BoardFacts{}); got != "No turning." {
		t.Errorf("an empty board: %q", got)
	}
}

// TestTurnOf is the commonest, counted over all boards alike.
func TestTurnOf(t *testing.T) {
	tm := job.TimberFacts{Boards: []job.BoardFacts{
		{Numbers: []int{1}, Parts: []job.SawnFacts{{Mark: "B", Turn: "swap ends"}, {Mark: "B", Turn: "swap ends"}}},
		{Numbers: []int{2, 3, 4}, Parts: []job.SawnFacts{{Mark: "B", Turn: "roll"}, {Mark: "C", Turn: "none"}}},
	}}
	if got := turnOf(tm, "B"); got != "roll" {
		t.Errorf("%q", got)
	}
	if got := turnOf(tm, "C"); turns(got) {
		t.Errorf("no turn reads %q", got)
	}
	if got := turnOf(tm, "D"); got != "" {
		t.Errorf("a part that is not there: %q", got)
	}
}

// TestRulerFigures: the marks under the boards stand at their lengths.
func TestRulerFigures(t *testing.T) {
	for _, r := range []job.Result{combWall().result(), gateway().result()} {
		for _, tm := range r.Timber {
			d := newBoardScale(tm)
			var s sheet
			d.figures(&s, r, tm.Length.MM, 0)
			step, _, unit := division(r)
			for _, it := range s.items {
				x := it.(drawing.Text)
				var v float64
				for _, c := range strings.TrimSuffix(x.String(), " "+unit) {
					if c == '.' {
						v += 0.5
						break
					}
					v = v*10 + float64(c-'0')
				}
				mm := v * step
				if unit == "m" {
					mm *= 2
				}
				if at := d.x(mm); abs(at-x.At.X) > x.Width()/2+1e-6 {
					t.Errorf("%s: %q stands at %.2f, its mark at %.2f", tm.Name, x.String(), x.At.X, at)
				}
			}
		}
	}
}

// TestSlantsStayInTheField, however steep, and are never drawn smaller than
// they are.
func TestSlantsStayInTheField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		depth, a := rapid.Float64Range(10, 40).Draw(t, "depth"), rapid.Float64Range(-80, 80).Draw(t, "setting")
		s := depth * tanDeg(a)
		p := job.SawnFacts{Start: abs(s)/2 + 1, End: abs(s)/2 + 901, LeftSlope: s, RightSlope: -s}
		tm := job.TimberFacts{Thickness: job.Size{MM: depth}, Length: job.Size{MM: p.End + abs(s)/2 + 1}, Boards: []job.BoardFacts{{Parts: []job.SawnFacts{p}}}}
		d := newBoardScale(tm)
		e := extent(d.slanted(p, 0))
		if e.x0 < -1e-6 || e.x1 > fieldW+1e-6 {
			t.Fatalf("a part from %.2f to %.2f", e.x0, e.x1)
		}
		if d.slant < min(1, d.thick) {
			t.Fatalf("slants are drawn %.2f times", d.slant)
		}
	})
}

// TestFirstAndSecond: the job's own system comes first, everywhere.
func TestFirstAndSecond(t *testing.T) {
	z := job.Size{US: "10 3/8 in", Metric: "263.5 mm"}
	w := job.Weight{US: "62 lb", Metric: "28 kg"}
	us, metric := job.JobFacts{Show: "us"}, job.JobFacts{Show: "metric"}
	if both(us, z) != "10 3/8 in (263.5 mm)" || both(metric, z) != "263.5 mm (10 3/8 in)" {
		t.Errorf("%s; %s", both(us, z), both(metric, z))
	}
	if a, b := weigh(us, w); a != w.US || b != w.Metric {
		t.Errorf("%s, %s", a, b)
	}
	if a, b := weigh(metric, w); a != w.Metric || b != w.US {
		t.Errorf("%s, %s", a, b)
	}
	if d := sized(drawing.Dimension{}, metric, z); d.S != z.Metric || d.After != " · "+z.US {
		t.Errorf("%v", d)
	}
}

// TestCrossesAgreesWithSampling.
func TestCrossesAgreesWithSampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-10, 20)
		p, q := drawing.Pt(v.Draw(t, "x"), v.Draw(t, "y")), drawing.Pt(v.Draw(t, "x"), v.Draw(t, "y"))
		b := box{0, 0, 10, 6}
		hit := false
		for i := range 4001 {
			c := p.Lerp(q, float64(i)/4000)
			hit = hit || c.X > 0 && c.X < 10 && c.Y > 0 && c.Y < 6
		}
		// A corner grazed between two samples may be hit without being seen.
		deep := crosses(b.grown(-0.05), p, q)
		if hit && !crosses(b, p, q) || deep && !hit {
			t.Fatalf("%v to %v: sampled %v", p, q, hit)
		}
	})
	if !math.IsInf(extent(nil).x0, 1) {
		t.Error("nothing has an extent")
	}
}
