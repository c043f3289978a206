package layout

import (
	"fmt"
	"math"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"

	"pgregory.net/rapid"
)

// A box 400 wide and 200 high over one 1000 wide and 300 high. Side 3 of the
// wide one is its top and runs from right to left.
func TestSnapOnABox(t *testing.T) {
	kinds := []Kind{rectangle("wide", 1000, 300), rectangle("box", 400, 200)}
	frames := lay(t, kinds, []Place{at("A", "wide", 0, 0)}, Settings{}).Frames
	for _, c := range []struct {
		name        string
		x, y, turn  float64 // of the box's lower left corner; degrees
		want        string
		left, under float64
	}{
		{"over the middle", 310, 330, 0, "1 on A 3 centred 0", 300, 300.5},
		{"sunk in a little", 285, 262, 0, "1 on A 3 centred 0", 300, 300.5},
		{"near the right end", 612, 310, 0, "1 on A 3 start 0", 600, 300.5},
		{"near the left end", -9, 310, 0, "1 on A 3 end 0", 0, 300.5},
		{"between two places", 411, 310, 0, "1 on A 3 centred -112", 412, 300.5},
		{"beyond the left end", -299, 310, 0, "1 on A 3 end 300", -300, 300.5},
		{"too little on it for a seam", -391, 310, 0, "corner 2 on A 4", -400, 300},
		{"too high", 310, 341, 0, "nothing", 0, 0},
		{"beside it", 1021, 12, 0, "4 on A 2 start 0", 1000.5, 0},
		{"on its end beside it", 1221, 12, 90, "3 on A 2 start 0", 1000.5, 0},
		{"turned a little", 300, 310, 8, "1 on A 3 centred 0", 300, 300.5},
		{"upside down", 710, 520, 180, "3 on A 3 centred 0", 300, 300.5},
		{"corner to corner", 1013, 311, 0, "corner 1 on A 3", 1000, 300},
		{"on the floor", 2001, 35, 0, "floor 2000,0", 2000, 0},
		{"under the floor", 2003.2, -35, 3, "floor", 0, 0},
	} {
		floor := 0.0
		set := SnapSettings{Gap: 0.5, Capture: 40, Mark: 4, Floor: &floor}
		held := geom.Move{Turn: c.turn * math.Pi / 180, Shift: pt(c.x, c.y)}
		got, ok := Snap(frames, kinds[1], held, set)
		if text := snapText(got, ok); text != c.want && (c.want != "floor" || got.To != -1) {
			t.Errorf("%s: %s, want %s", c.name, text, c.want)
		} else if ok && c.want != "floor" {
			box := got.Outside.Box()
			wantNear(t, c.name+": left", box.Min.X, c.left, 1e-9)
			wantNear(t, c.name+": under edge", box.Min.Y, c.under, 1e-9)
		}
	}
}

func snapText(s Snapped, ok bool) string {
	align := map[Align]string{Centred: "centred", FlushStart: "start", FlushEnd: "end"}
	switch {
	case !ok:
		return "nothing"
	case s.To < 0:
		return fmt.Sprintf("floor %g,%g", s.Place.At.X, s.Place.At.Y)
	}
	a := s.Place.Attach[0]
	if a.Corner > 0 {
		return fmt.Sprintf("corner %d on %s %d", a.Corner, a.To, a.ToCorner)
	}
	return fmt.Sprintf("%d on %s %d %s %g", a.Side, a.To, a.ToSide, align[a.Align], a.Shift)
}

// A place that is taken is passed over for the next nearest: between two boxes
// that stand 410 apart a box of 400 leans on the nearer, and one of 412, which
// would press into the other, finds nothing but the top of neither.
func TestSnapPassesOverWhatIsTaken(t *testing.T) {
	kinds := []Kind{rectangle("post", 100, 300), rectangle("fits", 400, 300), rectangle("wide", 412, 300)}
	frames := lay(t, kinds, []Place{at("A", "post", 0, 0), at("B", "post", 510, 0)}, Settings{}).Frames
	set := SnapSettings{Gap: 1, Capture: 30, Mark: 1}
	held := geom.Move{Shift: pt(107, 4)}
	if got := snapText(Snap(frames, kinds[1], held, set)); got != "2 on B 4 centred 0" {
		t.Error(got)
	}
	if got := snapText(Snap(frames, kinds[2], held, set)); got != "nothing" {
		t.Error(got)
	}
}

// On the floor a frame takes the nearer of its own stance and its sides.
func TestSnapToTheFloor(t *testing.T) {
	diamond := kindOf("diamond", pt(0, 0), pt(200, 300), pt(0, 600), pt(-200, 300))
	square := Kind{Name: "square feet", Open: true,
		Outside: geom.Polygon{pt(500, 9), pt(400, 800), pt(-400, 800), pt(-500, 9)},
		Inside:  geom.Polygon{pt(482, 0), pt(380, 782), pt(-380, 782), pt(-482, 0)}}
	ring := sawnRound(60, 30)
	for _, c := range []struct {
		name       string
		kind       Kind
		turn, want float64 // degrees
	}{
		{"hexagon", regular("hex", 6, 300), 7, 0},
		{"hexagon on its second side", regular("hex", 6, 300), -55, -60},
		{"hexagon on its corner", regular("hex", 6, 300), 25, 25},
		{"diamond on its foot", diamond, 9, 0},
		{"diamond on a side", diamond, -50, -math.Atan2(300, 200) * 180 / math.Pi},
		{"arch", archOf("arch", 900, 700), -12, 0},
		{"arch on its side", archOf("arch", 900, 700), -80, -90},
		{"arch with square feet", square, 5, 0},
		{"letter on the end of its longer arm", letterU(), 171, 180},
		{"ring sawn round", ring, 33, 33},
		{"ring sawn round, nearly as drawn", ring, 3, 0},
	} {
		for _, mirror := range []bool{false, true} {
			turn, want := c.turn, c.want
			if mirror {
				turn, want = -turn, -want
			}
			floor := 40.0
			held := geom.Move{Mirror: mirror, Turn: turn * math.Pi / 180}
			low := newFrame(0, Place{}, &c.kind, held).Box.Min.Y
			held.Shift = pt(1000.3, floor-low+11)
			got, ok := Snap(nil, c.kind, held, SnapSettings{Capture: 20, Mark: 5, Floor: &floor, Origin: pt(2, 3)})
			if !ok {
				t.Fatalf("%s: nothing", c.name)
			}
			wantNear(t, c.name+": turn", math.Remainder(got.Place.Turn.Degrees()-want, 360), 0, 1e-9)
			wantNear(t, c.name+": lowest", newFrame(0, Place{}, &c.kind, got.Move).Box.Min.Y, floor, 1e-9)
			wantNear(t, c.name+": off the marks", math.Remainder(got.Place.At.X, 5), 0, 1e-9)
			wantPoint(t, c.name+": origin", got.Move.Shift, got.Place.At.Add(pt(2, 3)), 1e-9)
			if d := newFrame(0, Place{}, &c.kind, got.Move).Centre.X - newFrame(0, Place{}, &c.kind, held).Centre.X; math.Abs(d) > 2.5+1e-6 {
				t.Errorf("%s: moved along by %g", c.name, d)
			}
		}
	}
}

// sawnRound is a ring sawn round, in facets too short for a seam.
func sawnRound(outside, inside float64) Kind {
	circle := func(r float64) geom.Polygon {
		p := make(geom.Polygon, 80)
		for i := range p {
			p[i] = pt(0, -r).Rot(2 * math.Pi * float64(i) / float64(len(p))).Add(pt(0, outside))
		}
		return p
	}
	return Kind{Name: "round", Outside: circle(outside), Inside: circle(inside)}
}

// A ring sawn round has no sides and no corners: it lies on the floor or nowhere.
func TestRoundRingOnlyStands(t *testing.T) {
	ring := sawnRound(70, 60)
	frames := lay(t, []Kind{rectangle("box", 400, 300)}, []Place{at("A", "box", 0, 0)}, Settings{}).Frames
	if got, ok := Snap(frames, ring, geom.Move{Shift: pt(200, 303)}, SnapSettings{Capture: 30, Mark: 1}); ok {
		t.Errorf("on the box: %s", snapText(got, ok))
	}
	rings := lay(t, []Kind{ring}, []Place{at("R", "round", 0, 0)}, Settings{}).Frames
	if got, ok := Snap(rings, regular("hex", 6, 40), geom.Move{Shift: pt(rings[0].Centre.X, 180)}, SnapSettings{Capture: 30, Mark: 1}); ok {
		t.Errorf("on the ring: %s", snapText(got, ok))
	}
}

// A scene is frames in their places and one in hand near them.
type scene struct {
	kinds  []Kind
	places []Place
	layout Layout
	held   geom.Move
	kind   Kind
	set    SnapSettings
}

// drawScene grows a tree of frames that do not overlap, with one in hand
// somewhere about a side or a corner of it.
func drawScene(r *rapid.T) scene {
	s := scene{kinds: []Kind{
		regular("tri", 3, 340), regular("sq", 4, 260), regular("hex", 6, 200), regular("big", 6, 400), regular("ring", 18, 90),
		rectangle("post", 120, 700), archOf("arch", 700, 500), letterU(),
	}}
	s.set = SnapSettings{
		Gap:     rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(r, "gap"),
		Capture: rapid.Float64Range(5, 60).Draw(r, "capture"),
		Mark:    rapid.SampledFrom([]float64{1, 25.4 / 16}).Draw(r, "mark"),
	}
	first := at("0", rapid.SampledFrom(s.kinds).Draw(r, "kind").Name, 0, 0)
	first.Turn = unit.Angle(rapid.Float64Range(-3, 3).Draw(r, "turn"))
	first.Mirror = rapid.Bool().Draw(r, "mirror")
	s.add(first)
	for i := range rapid.IntRange(0, 4).Draw(r, "more") {
		p := s.drawOn(r)
		p.ID = fmt.Sprint(i + 1)
		s.add(p)
	}
	s.kind = rapid.SampledFrom(s.kinds).Draw(r, "in hand")
	near := s.drawOn(r)
	near.ID, near.Kind = "hand", s.kind.Name
	near.Attach[0].Side = rapid.IntRange(1, s.kind.sides()).Draw(r, "its side")
	with, _ := Build(s.kinds, append(s.places[:len(s.places):len(s.places)], near), Settings{Gap: s.set.Gap})
	f := with.Frames[len(with.Frames)-1]
	s.held = f.Move
	s.held.Shift = f.Move.Shift.Sub(with.Origin).Add(s.layout.Origin)
	spot := s.held.Apply(s.kind.Outside[0])
	s.held.Turn += rapid.Float64Range(-0.3, 0.3).Draw(r, "turned")
	away := pt(rapid.Float64Range(-40, 40).Draw(r, "right"), rapid.Float64Range(-40, 40).Draw(r, "up"))
	s.held.Shift = s.held.Shift.Add(spot.Sub(s.held.Apply(s.kind.Outside[0]))).Add(away)
	s.set.Origin = s.layout.Origin
	return s
}

// drawOn is a frame on a random side of the scene.
func (s *scene) drawOn(r *rapid.T) Place {
	kind := rapid.SampledFrom(s.kinds).Draw(r, "kind")
	to := rapid.SampledFrom(s.layout.Frames).Draw(r, "to")
	p := on("", kind.Name, Attach{
		To: to.ID, Side: rapid.IntRange(1, kind.sides()).Draw(r, "side"), ToSide: rapid.IntRange(1, to.Sides()).Draw(r, "their side"),
		Align: Align(rapid.IntRange(0, 2).Draw(r, "align")), Shift: rapid.SampledFrom([]float64{0, 0, -60, 37}).Draw(r, "shift"),
	})
	p.Mirror = rapid.Bool().Draw(r, "mirror")
	return p
}

// add places a frame where it overlaps nothing.
func (s *scene) add(p Place) {
	places := append(s.places[:len(s.places):len(s.places)], p)
	if l, problems := Build(s.kinds, places, Settings{Gap: s.set.Gap}); len(problems) == 0 {
		s.places, s.layout = places, l
	}
}

func (s scene) snap() (Snapped, bool) { return Snap(s.layout.Frames, s.kind, s.held, s.set) }

// built lays the scene out with one more frame and gives where that comes to
// lie in the scene's own coordinates.
func (s scene) built(p Place) (Layout, Frame, []Problem) {
	p.ID = "hand"
	l, problems := Build(s.kinds, append(s.places[:len(s.places):len(s.places)], p), Settings{Gap: s.set.Gap})
	f := l.Frames[len(l.Frames)-1]
	f.shift(s.layout.Origin.Sub(l.Origin))
	return l, f, problems
}

// What snaps is a place of the job file: built, the frame lies there, with the
// gap asked for at its seam, and overlaps nothing.
func TestSnappedIsAsBuilt(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawScene(r)
		got, ok := s.snap()
		if !ok {
			return
		}
		l, f, problems := s.built(got.Place)
		if len(problems) > 0 {
			r.Fatalf("%s: %+v", snapText(got, ok), problems)
		}
		for k, p := range got.Outside {
			if p.Dist(f.Outside[k]) > 1e-6 {
				r.Fatalf("%s: corner %d at %v, built at %v", snapText(got, ok), k+1, p, f.Outside[k])
			}
		}
		a := got.Place.Attach[0]
		seam, found := seamBetween(l, "hand", a.Side, a.To, a.ToSide)
		if found != (a.Corner == 0) || found && !near(seam.Gap, s.set.Gap, 1e-6) {
			r.Fatalf("%s: seam %v, %+v", snapText(got, ok), found, seam)
		}
	})
}

func TestSnappedStays(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawScene(r)
		floor := rapid.Float64Range(-100, 0).Draw(r, "floor")
		s.set.Floor = &floor
		first, ok := s.snap()
		if !ok {
			return
		}
		s.held = first.Move
		second, ok := s.snap()
		if !ok {
			r.Fatalf("%s, then nothing", snapText(first, true))
		}
		for k, p := range first.Outside {
			if p.Dist(second.Outside[k]) > 1e-5 {
				r.Fatalf("%s, then %s", snapText(first, true), snapText(second, ok))
			}
		}
	})
}

// Moving the whole, or seeing it in a mirror, changes no attachment.
func TestSnapDoesNotHangOnThePlace(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawScene(r)
		was, okWas := s.snap()
		all := geom.Move{Mirror: rapid.Bool().Draw(r, "all mirrored"), Turn: rapid.Float64Range(-3, 3).Draw(r, "all turned"),
			Shift: pt(rapid.Float64Range(-5e3, 5e3).Draw(r, "all right"), rapid.Float64Range(-5e3, 5e3).Draw(r, "all up"))}
		s.held = s.held.Then(all)
		for i, f := range s.layout.Frames {
			s.layout.Frames[i] = newFrame(f.Place, s.places[f.Place], s.kindOf(f.Kind), f.Move.Then(all))
		}
		is, okIs := s.snap()
		if snapText(was, okWas) != snapText(is, okIs) {
			r.Fatalf("%s became %s", snapText(was, okWas), snapText(is, okIs))
		}
		for k, p := range was.Outside {
			if all.Apply(p).Dist(is.Outside[k]) > 1e-6 {
				r.Fatalf("corner %d at %v, want %v", k+1, is.Outside[k], all.Apply(p))
			}
		}
	})
}

func (s scene) kindOf(name string) *Kind {
	for i := range s.kinds {
		if s.kinds[i].Name == name {
			return &s.kinds[i]
		}
	}
	return nil
}

// Trying every side against every side, each by Build, finds the same.
func TestSnapAgainstTryingAll(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := drawScene(r)
		s.set.JointTolerance = DefaultJointTolerance
		got, how := snapOnce(s.layout.Frames, s.kind, s.held, s.set)
		least, by := math.Inf(1), ""
		for _, f := range s.layout.Frames {
			for toSide := 1; toSide <= f.Sides(); toSide++ {
				for side := 1; side <= s.kind.sides(); side++ {
					p, off := s.try(f, side, toSide)
					if off >= least {
						continue
					}
					if l, _, problems := s.built(p); len(problems) > 0 || !seamedIn(l, side, f.ID, toSide) {
						continue
					}
					least, by = off, fmt.Sprintf("%d on %s %d", side, f.ID, toSide)
				}
			}
		}
		if (how == bySide) != (by != "") || how == bySide && !near(got.Off, least, 1e-5) {
			r.Fatalf("%s, off %g; trying all: %s, off %g", snapText(got, how < byNothing), got.Off, by, least)
		}
	})
}

func seamedIn(l Layout, side int, to string, toSide int) bool {
	_, found := seamBetween(l, "hand", side, to, toSide)
	return found
}

// try builds a side in the three named places, reads off how far its middle is
// from each, builds it where it belongs, and says how far it went; off is
// infinite when the side is too far away or turned too much.
func (s scene) try(to Frame, side, toSide int) (Place, float64) {
	held := newFrame(0, Place{}, &s.kind, s.held)
	from, till, mine := held.Side(side)
	middle, half := from.Lerp(till, 0.5), from.Dist(till)/2
	p := on("hand", s.kind.Name, Attach{To: to.ID, Side: side, ToSide: toSide})
	p.Mirror = s.held.Mirror
	if _, _, theirs := to.Side(toSide); mine.Dot(theirs) > -math.Cos(0.4) {
		return p, math.Inf(1) // over 20 degrees: spare the building
	}
	var beyond [3]float64
	var there Frame
	for align := range beyond {
		p.Attach[0].Align = Align(align)
		_, there, _ = s.built(p)
		a, b, _ := to.Side(toSide)
		beyond[align] = middle.Sub(sideMiddle(there, side)).Dot(b.Sub(a).Unit())
	}
	_, _, out := there.Side(side)
	away := middle.Sub(sideMiddle(there, side)).Dot(out)
	turn := math.Abs(wrap(there.Move.Turn - s.held.Turn))
	if math.Abs(away) > s.set.Capture+snapSame || turn > 20*math.Pi/180+snapSame {
		return p, math.Inf(1)
	}
	p.Attach[0].Align, p.Attach[0].Shift = s.settled(beyond)
	_, there, _ = s.built(p)
	return p, math.Hypot(sideMiddle(there, side).Dist(middle), turn*half)
}

// settled finds the place along a side that stays what it is, from how far the
// middle is beyond the three named ones.
func (s scene) settled(beyond [3]float64) (Align, float64) {
	most := math.Floor(s.set.Capture/2/s.set.Mark + 1e-6) // marks that a named place draws from
	var marks [3]float64
	fewest, nearest := math.Inf(1), math.Inf(1)
	for a, mm := range beyond {
		marks[a] = math.Floor(mm/s.set.Mark + 0.5 + 1e-6)
		if math.Abs(marks[a]) <= most {
			marks[a] = 0
			nearest = min(nearest, math.Abs(mm))
		}
		fewest = min(fewest, math.Abs(marks[a]))
	}
	for a, mm := range beyond {
		if math.Abs(marks[a]) > fewest || fewest == 0 && math.Abs(mm) > nearest+1e-6 {
			continue
		}
		by := marks[a]*s.set.Mark - mm
		if fewest == 0 || math.Abs(by) < 1e-6 {
			return Align(a), marks[a] * s.set.Mark
		}
		return s.settled([3]float64{beyond[0] + by, beyond[1] + by, beyond[2] + by})
	}
	panic("no fewest")
}

func sideMiddle(f Frame, side int) geom.Point {
	from, to, _ := f.Side(side)
	return from.Lerp(to, 0.5)
}

func TestSnapOfNothing(t *testing.T) {
	floor := 0.0
	set := SnapSettings{Capture: 50, Mark: 1, Floor: &floor}
	if _, ok := Snap(nil, Kind{Name: "none"}, geom.Move{}, set); ok {
		t.Error("a kind without corners snapped")
	}
	if got, ok := Snap(nil, regular("hex", 6, 200), geom.Move{Shift: pt(0, 900)}, set); ok {
		t.Errorf("high over the floor: %s", snapText(got, ok))
	}
}

// Forty frames, one of them in hand: what a drag does at each movement.
func BenchmarkSnap(b *testing.B) {
	kinds, places := comb(40)
	l, _ := Build(kinds, places, Settings{Gap: 0.5})
	held := l.Frames[20].Move
	held.Shift = held.Shift.Add(pt(9, -7))
	frames := append(l.Frames[:20:20], l.Frames[21:]...)
	floor := 0.0
	set := SnapSettings{Gap: 0.5, Capture: 40, Mark: 1, Floor: &floor}
	for b.Loop() {
		Snap(frames, kinds[0], held, set)
	}
}
