package job

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bowerwright/assume"
	"bowerwright/making"
	"bowerwright/unit"
)

// asked changes the first kind of a job.
func asked(s Spec, change func(k *Kind)) Spec {
	change(&s.Kinds[0])
	return s
}

func corner(name string) func(*Kind) { return func(k *Kind) { k.Corner = name } }
func gluedUp(how string) func(*Kind) { return func(k *Kind) { k.GlueUp = how } }
func flatBoards() Spec               { return spec("B = hexagon: flats 24, flat", "B1 at 0 0") }
func assuming(id assume.ID, v float64) Override {
	return Override{ID: string(id), Value: v, From: "job file"}
}

// What package making finds reaches the user as a snag of the job, at the field
// that is to be put right.
func init() {
	warm := func(c float64) func(*Spec) {
		return func(s *Spec) { s.Assume = []Override{assuming(assume.ShopTemperature, c)} }
	}
	thin := func(s *Spec) {
		s.Timber[0].Nominal, s.Timber[0].Thickness, s.Timber[0].Width = "", inches("1/4"), inches("3")
	}
	narrow := func(s *Spec) {
		s.Timber[0].Nominal, s.Timber[0].Thickness, s.Timber[0].Width = "", inches("3/4"), inches("2")
	}
	twelve := spec("B = regular: sides 12, side 7", "B1 at 0 0")
	troubles = append(troubles, []trouble{
		{"layers-shape", "frames.B.layers", asked(flatBoards(), func(k *Kind) { k.Layers = 2 }), "take layers out", func(s *Spec) { s.Kinds[0].Layers, s.Kinds[0].GlueUp = 0, "" }},
		{"making-glue-cold", "making.shop temperature", with(hexagons(), warm(6)), "warm the shop", warm(12)},
		{"making-open-short", "frames.B.glue up", with(hexagons(), func(s *Spec) { s.Assume = []Override{assuming(assume.GlueOpen, 1)} }), "have 2 people", func(s *Spec) { s.Making.Hands = 2 }},
		{"making-method-limit", "frames.B.glue up", asked(flatBoards(), gluedUp("rolled")), "leave the choice open", func(s *Spec) { s.Kinds[0].GlueUp = "" }},
		{"making-method-limit", "frames.B.glue up", asked(flatBoards(), gluedUp("strap")), "another way", func(s *Spec) { s.Kinds[0].GlueUp = "two halves" }},
		{"making-halves-uneven", "frames.B.glue up", asked(spec("B = rectangle: width 30, height 18, flat", "B1 at 0 0"), gluedUp("two halves")), "another way", func(s *Spec) { s.Kinds[0].GlueUp = "joint by joint" }},
		{"making-brad-room", "frames.B.corner", asked(twelve, corner("brads")), "use splines", func(s *Spec) { s.Kinds[0].Corner = "spline" }},
		{"making-block-flat", "frames.B.corner", asked(flatBoards(), corner("corner block")), "use plates", func(s *Spec) { s.Kinds[0].Corner = "plate" }},
		{"making-block-bevel", "frames.B.corner", asked(spec("B = regular: sides 12, side 7", "B1 at 0 0"), corner("corner block")), "splines", func(s *Spec) { s.Kinds[0].Corner = "spline" }},
		{"making-plate-room", "frames.B.corner", with(asked(hexagons(), corner("plate")), narrow), "corner blocks", func(s *Spec) { s.Kinds[0].Corner = "corner block" }},
		{"making-spline-room", "frames.B.corner", with(asked(hexagons(), corner("spline")), thin), "glue alone", func(s *Spec) { s.Kinds[0].Corner = "" }},
		{"making-corner-round", "frames.B.corner", asked(spec("B = ring: segments 16, outside 40, inside 36, flat", "B1 at 0 0"), corner("spline")), "plates", func(s *Spec) { s.Kinds[0].Corner = "plate" }},
	}...)
}

// madeOf finds what is said of the making of a kind.
func madeOf(t testing.TB, r Result, kind string) MadeFacts {
	t.Helper()
	for _, k := range r.Making.Kinds {
		if k.Kind == kind {
			return k
		}
	}
	t.Fatalf("nothing is said of making %s", kind)
	return MadeFacts{}
}

// Every joint of every frame is glued once, on the papers as in the plan: each
// frame stands in one go of each stage, or in several whose joints add up.
func TestGoesAddUp(t *testing.T) {
	for name, s := range variety() {
		r := worked(t, s)
		joints, seen := map[string]int{}, map[string]map[[2]int]int{}
		for i, g := range r.Making.Goes {
			if g.Number != i+1 || g.Start.Minutes > g.Coat.Minutes || g.Coat.Minutes >= g.By.Minutes || g.Free.Minutes <= g.Coat.Minutes {
				t.Errorf("%s: go %+v", name, g)
			}
			joints[g.Kind] += g.Joints
			if seen[g.Kind] == nil {
				seen[g.Kind] = map[[2]int]int{}
			}
			for f := g.From; f <= g.To; f++ {
				seen[g.Kind][[2]int{f, g.Stage}]++
			}
		}
		for _, k := range r.Making.Kinds {
			if joints[k.Kind] != k.Joints*k.Count {
				t.Errorf("%s: %d joints of %s are glued of %d", name, joints[k.Kind], k.Title, k.Joints*k.Count)
			}
			stages := 0
			for key := range seen[k.Kind] {
				stages = max(stages, key[1])
			}
			if len(seen[k.Kind]) != k.Count*stages {
				t.Errorf("%s: %d frames of %s in %d stages: %v", name, k.Count, k.Title, stages, seen[k.Kind])
			}
		}
	}
}

// The chalk marks put every frame where the layout has it: a kind's outline laid
// on its two marks, by their text in either system, comes within half a
// millimetre, or a mark of the tape, of the corners of the drawing.
func TestChalkMarksGiveTheLayout(t *testing.T) {
	for name, s := range variety() {
		r := worked(t, s)
		frames := map[string]FrameFacts{}
		for _, f := range r.Frames {
			frames[f.Label] = f
		}
		if len(r.Making.Lay.Chalk) != len(r.Frames) {
			t.Fatalf("%s: %d frames are chalked of %d", name, len(r.Making.Lay.Chalk), len(r.Frames))
		}
		for _, c := range r.Making.Lay.Chalk {
			f := frames[c.Frame]
			delete(frames, c.Frame)
			for _, q := range c.Corners {
				x, y := q.behind(r)
				if q.Corner > 0 {
					want := f.Outside[q.Corner-1]
					near(t, name+": x of "+c.Frame, x, want[0], 0.002)
					near(t, name+": y of "+c.Frame, y, want[1], 0.002)
				}
				for _, show := range []string{"us", "metric"} {
					reads(t, c.Frame, textOf(q.Across.Size, show), q.Across.Size.MM, unit.Inch/16)
					reads(t, c.Frame, textOf(q.Up, show), q.Up.MM, unit.Inch/16)
				}
			}
			marksHold(t, name, r, c, f)
		}
	}
}

// behind turns a spot of the back view into one of the front view.
func (s SpotFacts) behind(r Result) (x, y float64) {
	off := s.Across.Size.MM
	if s.Across.Side == "left" {
		off = -off
	}
	return r.Overall.Width.MM/2 - off, s.Up.MM
}

func textOf(s Size, show string) string {
	if show == "metric" {
		return s.Metric
	}
	return s.US
}

// marksHold lays the frame's own outline by its two marks alone.
func marksHold(t *testing.T, name string, r Result, c ChalkFacts, f FrameFacts) {
	t.Helper()
	a, b := c.Corners[c.Marks[0]], c.Corners[c.Marks[1]]
	if a.Corner == 0 {
		return
	}
	ax, ay := a.behind(r)
	bx, by := b.behind(r)
	p, q := f.Outside[a.Corner-1], f.Outside[b.Corner-1]
	turn := math.Atan2(by-ay, bx-ax) - math.Atan2(q[1]-p[1], q[0]-p[0])
	sin, cos := math.Sincos(turn)
	for i, v := range f.Outside {
		x, y := ax+(v[0]-p[0])*cos-(v[1]-p[1])*sin, ay+(v[0]-p[0])*sin+(v[1]-p[1])*cos
		if math.Hypot(x-v[0], y-v[1]) > 0.5 {
			t.Errorf("%s: corner %d of %s would lie %.3f mm off", name, i+1, c.Frame, math.Hypot(x-v[0], y-v[1]))
		}
	}
}

// Both diagonals, the straight length and the gaps are those of the layout.
func TestLayIsTheLayout(t *testing.T) {
	r := worked(t, cluster())
	l := r.Making.Lay
	near(t, "width", l.Width.MM, r.Overall.Width.MM, 1e-9)
	near(t, "height", l.Height.MM, r.Overall.Height.MM, 1e-9)
	for _, d := range l.Diagonals {
		ax, ay := d.From.behind(r)
		bx, by := d.To.behind(r)
		near(t, "diagonal", d.Size.MM, math.Hypot(ax-bx, ay-by), 0.01)
		if (d.From.Across.Side == d.To.Across.Side) || d.From.Up.MM >= d.To.Up.MM {
			t.Errorf("it does not cross the whole: %+v", d)
		}
	}
	if len(l.Gaps) != len(r.Seams) {
		t.Errorf("%d gaps of %d seams", len(l.Gaps), len(r.Seams))
	}
	for i, g := range l.Gaps {
		if g.Seam != r.Seams[i].Number || g.Frames != r.Seams[i].Frames {
			t.Errorf("%+v is not seam %+v", g, r.Seams[i])
		}
	}
	laid := map[string]bool{}
	for _, s := range l.Order {
		for _, n := range s.Against {
			other := r.Seams[n-1].Frames[0]
			if other == s.Frame {
				other = r.Seams[n-1].Frames[1]
			}
			if !laid[other] {
				t.Errorf("%s is laid against %s, which does not lie yet", s.Frame, other)
			}
		}
		laid[s.Frame] = true
	}
}

// The straight length runs along all that stands, from the left of somebody
// behind, who has the last frame of the front view first.
func TestStraightLength(t *testing.T) {
	l := worked(t, spec("B = square: side 20", "B1 at 0 0", "B2 side 4 on B1 side 2", "B3 side 1 on B1 side 3")).Making.Lay.Straight
	if l == nil || !slices.Equal(l.Frames, []string{"B3", "B2"}) || l.Short || l.From.Side != "left" || l.To.Side != "right" {
		t.Fatalf("%+v", l)
	}
	near(t, "length", l.Length.MM, 40*inch+inch/32, 0.01)
	near(t, "from", l.From.Size.MM+l.To.Size.MM, l.Length.MM, 0.01)
}

// Corner blocks: as many are ripped as are glued in, from boards that leave the
// hold length at the last cut, and the saw may be told of them.
func TestBlocksAreRipped(t *testing.T) {
	s := asked(hexagons(), corner("corner block"))
	p := start(s, BuiltIn())
	p.prepare()
	p.layAsked()
	p.layBuilt()
	p.facts()
	p.makeUp()
	if p.err != nil || p.snags.Stops() {
		t.Fatal(p.err, p.snags)
	}
	f := p.result.Making.Kinds[0]
	if len(f.Pieces) != 1 || f.Pieces[0].Count != 2*6 || f.Pieces[0].Mark != "B+" || len(f.Pieces[0].Corners) != 6 {
		t.Fatalf("%+v", f.Pieces)
	}
	// A block is 3 1/2 in less 1/2 in long and 1 1/2 in wide, its edge at 30
	// degrees from square: 3/4 in x tan 30 is 0.433 in. With a kerf of 1/8 in one
	// strip takes 2.058 in of the board's 3 1/2: there is one.
	near(t, "length", f.Pieces[0].Length.MM, 3*inch, 1e-6)
	near(t, "bevel", f.Pieces[0].Bevel.Degrees, 30, 1e-9)
	q := p.pieces
	if len(q) != 1 || q[0].count != 1 || q[0].timber != "pine" || q[0].flat || q[0].mark != "B+" || !strings.Contains(q[0].what, "1 strip to a piece, 12 blocks to a strip") {
		t.Fatalf("%+v", q)
	}
	if f.Pieces[0].Rip != "1 piece of board 45 1/2 in long, marked B+: 1 strip to a piece, 12 blocks to a strip" {
		t.Error(f.Pieces[0].Rip)
	}
	near(t, "board ripped", q[0].length.MM(), math.Ceil(12*3.125*inch+8*inch), 1e-6)
	// Whatever is wanted, there are enough and not a board too many.
	k := p.kinds[0]
	block := p.making.Kinds[0].Corners.Pieces[0]
	for wanted := 1; wanted < 200; wanted += 7 {
		q := p.blockPiece(k, making.RatesFrom(p.book.Aside()).Corner, block, wanted, 0)
		long := int(math.Floor((q.length.MM() - p.set.hold.MM()) / (block.Length + p.set.kerf.MM())))
		if q.count*long < wanted || (q.count-1)*12 >= wanted && wanted > 12 {
			t.Errorf("%d wanted: %d boards of %s, %d from each", wanted, q.count, unit.Format(q.length, unit.Style{}), long)
		}
		if q.length < 12*unit.Inch || q.length > 48*unit.Inch {
			t.Errorf("%d wanted: a board of %s is ripped", wanted, unit.Format(q.length, unit.Style{}))
		}
	}
}

// A ring in layers takes boards, weight and depth for every layer, and is glued
// layer by layer.
func TestRingInLayers(t *testing.T) {
	one := spec("R = ring: segments 16, outside 40, inside 36, flat", "R1 at 0 0")
	one.Timber[0].Nominal, one.Timber[0].Thickness, one.Timber[0].Width = "", inches("3/4"), inches("5 1/2")
	two := asked(with(one, func(s *Spec) { s.Kinds = slices.Clone(s.Kinds) }), func(k *Kind) { k.Layers = 2 })
	a, b := worked(t, one), worked(t, two)
	if p, q := a.Kinds[0].Parts[0], b.Kinds[0].Parts[0]; q.Count != 2*p.Count || q.PerFrame != 2*p.PerFrame || b.Overall.PartCount != 2*a.Overall.PartCount {
		t.Errorf("%+v, in two layers %+v", p, q)
	}
	near(t, "rise", b.Kinds[0].Rise.MM, 2*a.Kinds[0].Rise.MM, 1e-9)
	near(t, "weight", b.Kinds[0].Weight.KG, 2*a.Kinds[0].Weight.KG, 0.0015) // both to the gram
	f := madeOf(t, b, "R")
	if f.Method != string(making.InLayers) || f.Layers != 2 || f.Areas.Inside.MM2 < 1.99*madeOf(t, a, "R").Areas.Inside.MM2 {
		t.Errorf("%+v", f)
	}
	for _, g := range b.Making.Goes {
		if !strings.HasPrefix(g.What, "layer 2 on 1, frame 1") {
			t.Errorf("a go is %q", g.What)
		}
	}
	for _, c := range b.Making.Lay.Chalk {
		if len(c.Corners) != 2 || c.Corners[0].Corner != 0 || c.Corners[1].Up.MM-c.Corners[0].Up.MM < 39.9*inch {
			t.Errorf("a circle is chalked by its lowest and highest point, not %+v", c.Corners)
		}
	}
}

// The shop's straps, helpers and habits change the plan, and each is said.
func TestWhatTheShopHas(t *testing.T) {
	s := flatBoards()
	s.Making = MakingAsked{Hands: 2, Straps: []unit.Length{12 * unit.Foot}, Inside: "before gluing"}
	r := worked(t, s)
	f := madeOf(t, r, "B")
	if f.Method != string(making.Strapped) || !slices.Equal(f.Straps, []int{1}) || !slices.Equal(r.Making.Goes[0].Straps, []int{1}) || r.Making.Hands != 2 {
		t.Errorf("%+v", f)
	}
	if r.Making.Finish.Inside != "before gluing" || !strings.Contains(stepsText(r.Making.Finish.Steps), "Mask every mitre face and finish the insides") {
		t.Errorf("%+v", r.Making.Finish)
	}
	s = hexagons()
	s.Kinds[0].Corner, s.Making.Brads = "brads", []unit.Length{20 * unit.Millimetre}
	if p := madeOf(t, worked(t, s), "B").Pieces[0]; p.What != "brad 25/32 in" || p.Length.Metric != "20 mm" || p.Each != 2 || p.Count != 24 {
		t.Errorf("%+v", p)
	}
	s.Making.Brads = []unit.Length{unit.Inch}
	if p := madeOf(t, worked(t, s), "B").Pieces[0]; p.What != "18 gauge brad x 1 in" {
		t.Errorf("%+v", p)
	}
}

func stepsText(steps []StepFacts) string {
	var out []string
	for _, s := range steps {
		out = append(out, s.Do)
	}
	return strings.Join(out, "\n")
}

// Only the assumptions behind what is done are listed.
func TestAssumptionsOfMaking(t *testing.T) {
	listed := func(s Spec, id assume.ID) bool {
		return slices.ContainsFunc(worked(t, s).Assumed, func(a AssumedFacts) bool { return a.ID == string(id) })
	}
	glue, brads, blocks := hexagons(), asked(hexagons(), corner("brads")), asked(hexagons(), corner("corner block"))
	bare := with(hexagons(), func(s *Spec) { s.Assume = []Override{assuming(assume.FinishCoats, 0)} })
	for _, c := range []struct {
		s    Spec
		id   assume.ID
		want bool
	}{
		{glue, assume.GlueOpen, true}, {glue, assume.RollWidth, true}, {glue, assume.CornerBrads, false}, {glue, assume.CornerBlock, false},
		{glue, assume.GlueTruing, false}, {glue, assume.GlueWarm, false}, {brads, assume.CornerBrads, true}, {blocks, assume.CornerBlock, true},
		{blocks, assume.CornerRipMost, true}, {brads, assume.CornerRipMost, false}, {flatBoards(), assume.GlueTruing, true}, {flatBoards(), assume.RollWidth, false},
		{glue, assume.FinishRecoat, true}, {bare, assume.FinishRecoat, false}, {glue, assume.LayStraight, true},
	} {
		if got := listed(c.s, c.id); got != c.want {
			t.Errorf("%s, %s: listed %v", c.s.Kinds[0].Corner, c.id, got)
		}
	}
}

// A straight length that is too short does not stop the job: two are laid end to
// end, and the papers say so.
func TestShortStraightIsANote(t *testing.T) {
	r := worked(t, with(hexagons(), func(s *Spec) {
		s.Assume = []Override{assuming(assume.LayStraight, 1)}
		s.Kinds[0].Lengths["flats"] = inches("30")
	}))
	n := noted(r, "making-straight-short")
	if len(n) != 1 || !strings.HasPrefix(n[0].Do, "Lay two straight lengths") || !strings.HasSuffix(n[0].Do, ".") || !r.Making.Lay.Straight.Short {
		t.Errorf("%+v, %+v", n, r.Making.Lay.Straight)
	}
}

// Times are written without seconds, on the side that keeps the glue open.
func TestTimesInWords(t *testing.T) {
	w := newScribe(Spec{})
	for minutes, want := range map[float64]string{0.5: "1 min", 20: "20 min", 20.2: "21 min", 119: "119 min", 120: "2 h", 220: "3 h 40 min",
		1440: "24 h", 1560: "26 h", 2880: "2 days", 2940: "49 h"} {
		if got := w.lasts(minutes).Text; got != want {
			t.Errorf("%g min lasts %s, want %s", minutes, got, want)
		}
	}
	for minutes, want := range map[float64][2]string{0: {"0:00", "0:00"}, 9: {"0:09", "0:09"}, 34.2: {"0:35", "0:34"}, 61: {"1:01", "1:01"}, 600.9999999: {"10:01", "10:01"}} {
		if at, by := w.at(minutes).Text, w.by(minutes).Text; at != want[0] || by != want[1] {
			t.Errorf("%g min is at %s, by %s, want %v", minutes, at, by, want)
		}
	}
	if got := w.warmth(18); got != "64.4 °F (18 °C)" {
		t.Error(got)
	}
}
