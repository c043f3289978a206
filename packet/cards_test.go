package packet

import (
	"math"
	"strings"
	"testing"

	"bowerwright/drawing"
	"bowerwright/job"

	"pgregory.net/rapid"
)

// shapeEar gathers shapes drawn with one pen.
type shapeEar struct {
	pen    drawing.Pen
	shapes [][]drawing.Point
}

func (e *shapeEar) Words(drawing.Words) {}
func (e *shapeEar) Shape(os []drawing.Outline, _ drawing.Tone, pen drawing.Pen) {
	if pen != e.pen {
		return
	}
	for _, o := range os {
		e.shapes = append(e.shapes, o.Flat(1))
	}
}
func (*shapeEar) Picture(drawing.Image)  {}
func (*shapeEar) Clip([]drawing.Outline) {}
func (*shapeEar) Unclip()                {}
func (*shapeEar) Link(drawing.Link)      {}

func shapesWith(pen drawing.Pen, items []drawing.Item) [][]drawing.Point {
	e := &shapeEar{pen: pen}
	drawing.Play(drawing.List{W: 300, H: 300, Items: items}, e)
	return e.shapes
}

func textsOf(blocks ...block) []string {
	var s sheet
	y := bodyTop + 1
	for _, b := range blocks {
		b.draw(&s, y)
		y += b.h
	}
	return drawing.Texts(drawing.List{W: 300, H: 300, Items: s.items})
}

// sawTask is a part with two settings and its stop.
func sawTask(first, second float64, way string) task {
	p := samplePart(400, first, second, 20, 1)
	p.Mark, p.Count, p.PerFrame, p.First.Way, p.Second.Way = "B", 12, 6, way, way
	p.Rough, p.Block = nil, nil
	return task{part: p, turn: "roll", stop: job.StopFacts{Parts: []job.StopPart{{Mark: "B", Count: 12}}, Stop: p.Tip, Point: "long point", Face: "outside face",
		First: p.First.Setting, Second: p.Second.Setting, Count: 12}}
}

// TestBladeStandsAtItsSetting: the angle of the blade's line on the page, from
// straight across, is the setting, whichever side the stop is on and whether
// the head swings or tilts; it passes through the part's two corners.
func TestBladeStandsAtItsSetting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-50, 50).Draw(t, "setting")
		way := rapid.SampledFrom([]string{"standing, head swung", "lying, head tilted"}).Draw(t, "way")
		r := job.Result{Saw: job.SawFacts{Stop: rapid.SampledFrom([]string{"left", "right"}).Draw(t, "stop")}}
		var s sheet
		b := fencePicture(r, sawTask(10, a, way), false, rapid.SampledFrom([]picSize{roomyPicture, smallPicture, tightPicture}).Draw(t, "size"))
		b.draw(&s, 30)
		blade := shapesWith(drawing.PenCut, s.items)
		if len(blade) != 1 {
			t.Fatalf("%d blades", len(blade))
		}
		u := blade[0][1].Sub(blade[0][0])
		if got := math.Atan2(abs(u.X), abs(u.Y)) * 180 / math.Pi; abs(got-abs(a)) > 1e-3 {
			t.Fatalf("the blade stands at %.3f degrees, set to %.3f", got, a)
		}
		part := shapesWith(drawing.PenOutline, s.items)[0]
		on := 0
		for _, p := range part {
			if d := u.Unit().Cross(p.Sub(blade[0][0])); abs(d) < 1e-6 {
				on++
			}
		}
		if on != 2 {
			t.Fatalf("the blade passes through %d corners of the part", on)
		}
		for _, p := range part {
			if p.X < 0 || p.X > fieldW || p.Y < 30 || p.Y > 30+b.h {
				t.Fatalf("the part leaves its block at %v", p)
			}
		}
	})
}

// TestPictureSaysBothPoints, with the long one at the fence.
func TestPictureSaysBothPoints(t *testing.T) {
	x := sawTask(30, 30, "standing, head swung")
	lines := textsOf(fencePicture(job.Result{Job: job.JobFacts{Show: "metric"}}, x, false, roomyPicture))
	mustSay(t, lines, "long point 400 mm, against the fence")
	mustSay(t, lines, "short point "+x.part.ShortPoint.Metric)
	mustSay(t, lines, "30°")
	mustSay(t, lines, "counted from along the board: 60°")
	mustSay(t, lines, "roll")

	tilted := sawTask(30, 30, "lying, head tilted")
	mustSay(t, textsOf(fencePicture(job.Result{}, tilted, true, roomyPicture)), "B: long point 15 3/4 in")
	tips := sawTask(30, -30, "standing, head swung")
	tips.stop.Point = "tip"
	mustSay(t, textsOf(fencePicture(job.Result{}, tips, false, roomyPicture)), "tip to tip "+tips.part.Tip.US)
}

// TestThreeFigures are on the face of a card with one part.
func TestThreeFigures(t *testing.T) {
	r := job.Result{Job: job.JobFacts{Show: "us"}}
	x := sawTask(30, 30, "standing, head swung")
	lines := textsOf(threeFigures(r, x))
	for _, want := range []string{"Swing saw to", "30°", "from straight across", "15 3/4 in", "long point · 400 mm", "12", "6 to a frame, all alike"} {
		mustSay(t, lines, want)
	}
	for way, want := range map[string]string{"lying, head tilted": "Tilt saw to", "not checked against a saw": "Set saw to"} {
		x.part.First.Way = way
		mustSay(t, textsOf(threeFigures(r, x)), want)
	}
	x.stop.First = sampleAngle(-30)
	mustSay(t, textsOf(threeFigures(r, x)), "inside longer")
}

// TestBigFigureIsLarge: what fits is set at the size read at a metre.
func TestBigFigureIsLarge(t *testing.T) {
	for _, c := range []struct {
		figure, unit string
		w            float64
		full         bool
	}{{"30°", "", 55, true}, {"16", "in", 75, true}, {"1263.5", "mm", 75, false}} {
		var s sheet
		bigFigure(&s, 0, 30, c.w, c.figure, c.unit)
		line := s.items[0].(drawing.Text)
		if (line.Size == drawing.Saw) != c.full || line.Width() > c.w {
			t.Errorf("%s %s: %.1f pt and %.1f mm wide", c.figure, c.unit, line.Size, line.Width())
		}
	}
}

// TestTickOffs: as many shapes as parts, every sixth numbered, marks never apart
// from their parts.
func TestTickOffs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var ts []task
		total := 0
		for range rapid.IntRange(1, 5).Draw(t, "parts") {
			x := sawTask(30, 30, "")
			x.part.Count = rapid.IntRange(1, 60).Draw(t, "count")
			total += x.part.Count
			ts = append(ts, x)
		}
		per := rapid.SampledFrom([]int{tickRow, 2 * tickRow}).Draw(t, "per")
		slots := slotsFor(ts, per)
		shapes := 0
		for i, sl := range slots {
			if sl.n > 0 {
				shapes++
			}
			if sl.n == 0 && (i%per == per-1 || slots[i+1].n != 1) {
				t.Fatalf("the mark in slot %d stands alone", i)
			}
		}
		if shapes != total {
			t.Fatalf("%d shapes for %d parts", shapes, total)
		}
		var s sheet
		y := 0.0
		for _, b := range tickOffs(ts, per, fieldW) {
			b.draw(&s, y)
			y += b.h
		}
		if drawn := len(shapesWith(drawing.PenEdge, s.items)); drawn != total {
			t.Fatalf("%d shapes drawn for %d parts", drawn, total)
		}
		numbers := 0
		for _, x := range ts {
			numbers += x.part.Count / tickEvery
		}
		if got := len(drawing.Texts(drawing.List{Items: s.items})) - 2; len(ts) == 1 && got != numbers {
			t.Fatalf("%d numbers, want %d", got, numbers)
		}
	})
}

// TestCardOrder: the stops stand in the timber's bench order, whatever the order
// of the parts.
func TestCardOrder(t *testing.T) {
	r := gateway().result()
	for _, k := range r.Kinds {
		last := -1
		tm, _ := timberOf(r, k)
		for _, x := range tasks(r, k) {
			at := -1
			for i, s := range tm.Stops {
				if s.Has(x.part.Mark) {
					at = i
				}
			}
			if at <= last {
				t.Errorf("%s: %s is out of order", k.Name, x.part.Mark)
			}
			last = at
		}
		if len(tasks(r, k)) != len(k.Parts) {
			t.Errorf("%s: parts are missing", k.Name)
		}
	}
	k := r.Kinds[0]
	r.Timber = nil
	if got := tasks(r, k); len(got) != len(k.Parts) || got[0].stop.Stop != k.Parts[0].LongPoint {
		t.Errorf("without stops: %v", got)
	}
}

// TestCardsNameEveryPartAndFrame of their kind, with a box for each spare.
func TestCardsNameEveryPartAndFrame(t *testing.T) {
	r := gateway().result()
	r.Kinds[1].Make += 2
	doc := Build(r, made)
	for _, k := range r.Kinds {
		card := says(doc, cardEntry+k.Letter+", "+k.Title)
		mustSay(t, card, "make "+itoa(k.Make))
		for _, p := range k.Parts {
			mustSay(t, card, p.Mark)
			if p.Rough != nil {
				mustSay(t, card, "Square to "+first(r.Job, *p.Rough))
			}
		}
		for _, f := range r.Frames {
			if f.Kind == k.Name {
				mustSay(t, card, f.Label)
			}
		}
	}
	spare := 0
	for _, l := range says(doc, "Bench card C, house") {
		if l == "spare" {
			spare++
		}
	}
	if spare != 2 {
		t.Errorf("%d spare boxes, want 2", spare)
	}
}

// TestTestCornerComesFirst on the card of its kind and on no other.
func TestTestCornerComesFirst(t *testing.T) {
	r := combWall().result()
	doc := Build(r, made)
	c := r.Tests[0]
	mustSay(t, says(doc, "Bench card B, large hexagon"), "Test corner first: two arms of scrap, "+c.Arms.US)
	for _, l := range says(doc, "Bench card C, medium hexagon") {
		if strings.Contains(l, "Test corner") {
			t.Errorf("another kind's card says %q", l)
		}
	}
	mustSay(t, says(doc, "The saw", "Cutting", "Cutting by stop"), "Test corner, cut first")
}

// TestUnlikePictures: a mirror pair shares one picture.
func TestUnlikePictures(t *testing.T) {
	ts := []task{sawTask(30, 45, ""), sawTask(45, 30, ""), sawTask(30, 30, ""), sawTask(30, 45, "")}
	if got := unlike(ts); len(got) != 2 || got[1].part.Second.Setting.Degrees != 30 {
		t.Errorf("%d pictures", len(got))
	}
}

// TestWayOutSaysBlocks only where an end needs one.
func TestWayOutSaysBlocks(t *testing.T) {
	x := sawTask(60, 30, "")
	rough := sawnSize(450)
	x.part.Rough, x.part.Block, x.part.WayOut = &rough, []job.Angle{sampleAngle(30), {}}, "never freehand"
	words := strings.Join(textsOf(wayOut(job.Result{Job: job.JobFacts{Show: "metric"}}, []task{x}, fieldW, form{})), " ")
	for _, want := range []string{"Square to 450 mm", "Block at the first end: 30°", "Never freehand."} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is missing in %q", want, words)
		}
	}
	if strings.Contains(words, "second end") {
		t.Errorf("names a block that is not needed: %q", words)
	}
}

// TestErrorSays which side opens, and speaks of feet where there is no last
// joint.
func TestErrorSays(t *testing.T) {
	r := combWall().result()
	k := r.Kinds[0]
	if s := errorSays(r, k); !strings.Contains(s, "0.25°") || !strings.Contains(s, "inside if too steep, outside if too shallow") || !strings.Contains(s, k.SawError.TrueTo.Text) {
		t.Errorf("%s", s)
	}
	k.SawError.Open = true
	if s := errorSays(r, k); strings.Contains(s, "last joint") || !strings.Contains(s, "feet") {
		t.Errorf("%s", s)
	}
}

// TestPictureOfTheMitre: where one picture must do, it is not that of a part
// sawn square.
func TestPictureOfTheMitre(t *testing.T) {
	r := job.Result{Job: job.JobFacts{Show: "metric"}}
	rough := sawnSize(450)
	a, b := sawTask(60, 60, ""), sawTask(30, 45, "")
	a.part.Mark, a.part.Rough = "A", &rough
	words := textsOf(cardBlocks(r, job.KindFacts{}, []task{a, b}, form{per: tickRow, measures: fewSizes, onFace: true, pictures: 1})...)
	mustSay(t, words, "B: long point")
	for _, l := range words {
		if strings.Contains(l, "A: square ends") {
			t.Errorf("the picture is of the square cut: %q", l)
		}
	}
}

// TestMirrorPairsShareAPanel, which names the end of each; parts that differ
// have their own.
func TestMirrorPairsShareAPanel(t *testing.T) {
	r := job.Result{Job: job.JobFacts{Show: "metric"}}
	rough, longer := sawnSize(450), sawnSize(460)
	part := func(mark string, z job.Size, block ...job.Angle) task {
		x := sawTask(60, 30, "")
		x.part.Mark, x.part.Rough, x.part.Block = mark, &z, block
		return x
	}
	ts := []task{part("Sa", rough, sampleAngle(30), job.Angle{}), part("Sb", rough, job.Angle{}, sampleAngle(30)), part("Sc", longer, sampleAngle(30))}
	out := waysOut(r, ts, fieldW, form{})
	if len(out) != 2 {
		t.Fatalf("%d panels, want 2", len(out))
	}
	words := strings.Join(textsOf(out[0]), " ")
	for _, want := range []string{"Parts Sa, Sb.", "Block at the first end of Sa and the second end of Sb: 30°"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is missing in %q", want, words)
		}
	}
}
