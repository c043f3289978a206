package layout

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"bowerwright/geom"
	"bowerwright/unit"
)

var update = flag.Bool("update", false, "write testdata/snap.json anew")

const snapFile = "testdata/snap.json"

// The vectors are for Snap in any language: kinds, scenes of placed frames, and
// cases of one frame held somewhere in a scene. Lengths are mm, turns degrees.
type vectors struct {
	About  []string           `json:"about"`
	Kinds  map[string]vecKind `json:"kinds"`
	Scenes map[string][]vecAt `json:"scenes"`
	Cases  []vecCase          `json:"cases"`
}

type vecKind struct {
	Outside []vecPoint `json:"outside"`
	Inside  []vecPoint `json:"inside"`
	Open    bool       `json:"open"`
}

type vecPoint [2]float64

// vecAt is a frame at a move: mirrored, then turned, then shifted.
type vecAt struct {
	ID     string   `json:"id,omitempty"`
	Kind   string   `json:"kind"`
	Mirror bool     `json:"mirror"`
	Turn   float64  `json:"turn"`
	At     vecPoint `json:"at"`
}

type vecCase struct {
	Scene     string   `json:"scene"`
	Held      vecAt    `json:"held"`
	Gap       float64  `json:"gap"`
	Tolerance float64  `json:"tolerance"`
	Capture   float64  `json:"capture"`
	Mark      float64  `json:"mark"`
	Floor     *float64 `json:"floor"`
	Origin    vecPoint `json:"origin"`
	Want      *vecWant `json:"want"`
}

type vecWant struct {
	On       string     `json:"on"` // side, corner or floor
	To       string     `json:"to,omitempty"`
	Side     int        `json:"side,omitempty"`
	ToSide   int        `json:"toSide,omitempty"`
	Align    string     `json:"align,omitempty"`
	Shift    *float64   `json:"shift,omitempty"`
	Corner   int        `json:"corner,omitempty"`
	ToCorner int        `json:"toCorner,omitempty"`
	At       *vecPoint  `json:"at,omitempty"` // from the origin
	Turn     float64    `json:"turn"`
	Outline  []vecPoint `json:"outline"`
	Off      float64    `json:"off"`
}

var aboutVectors = []string{
	"Where a frame in hand comes to lie: package layout, Snap. Made by: go test ./layout -run SnapVectors -update",
	"Lengths in mm, turns in degrees, anticlockwise. A move mirrors (x to -x), then turns, then shifts.",
	"Kinds and scenes are to be taken as written; what is wanted is rounded to 1e-6.",
	"want is null where nothing is near enough. Sides and corners count from 1, in the kind's order.",
}

// written is what a number becomes in the file: the nearest to so many places.
func written(v float64, places int) float64 {
	grid := math.Pow10(places)
	return math.Round(v*grid)/grid + 0
}

func vecPoints(p geom.Polygon, places int) []vecPoint {
	out := make([]vecPoint, len(p))
	for i, q := range p {
		out[i] = vecPoint{written(q.X, places), written(q.Y, places)}
	}
	return out
}

func (k vecKind) kind(name string) Kind {
	polygon := func(list []vecPoint) geom.Polygon {
		out := make(geom.Polygon, len(list))
		for i, p := range list {
			out[i] = geom.Point{X: p[0], Y: p[1]}
		}
		return out
	}
	return Kind{Name: name, Outside: polygon(k.Outside), Inside: polygon(k.Inside), Open: k.Open}
}

func (v vecAt) move() geom.Move {
	return geom.Move{Mirror: v.Mirror, Turn: v.Turn * math.Pi / 180, Shift: geom.Point{X: v.At[0], Y: v.At[1]}}
}

// snap runs one case, with the held frame moved by a hair.
func (v vectors) snap(c vecCase, hair geom.Point) (Snapped, []Frame, bool) {
	var frames []Frame
	for i, f := range v.Scenes[c.Scene] {
		kind := v.Kinds[f.Kind].kind(f.Kind)
		frames = append(frames, newFrame(i, Place{ID: f.ID, Kind: f.Kind}, &kind, f.move()))
	}
	held := c.Held.move()
	held.Shift = held.Shift.Add(hair)
	got, ok := Snap(frames, v.Kinds[c.Held.Kind].kind(c.Held.Kind), held, SnapSettings{
		Gap: c.Gap, JointTolerance: c.Tolerance, Capture: c.Capture, Mark: c.Mark, Floor: c.Floor,
		Origin: geom.Point{X: c.Origin[0], Y: c.Origin[1]},
	})
	return got, frames, ok
}

// answer is what Snap says to a case, as the file has it.
func (v vectors) answer(c vecCase, hair geom.Point) *vecWant {
	const places = 6
	got, frames, ok := v.snap(c, hair)
	if !ok {
		return nil
	}
	w := &vecWant{On: "floor", Turn: written(unit.Angle(wrap(got.Move.Turn)).Degrees(), places), Outline: vecPoints(got.Outside, places), Off: written(got.Off, places)}
	if got.To < 0 {
		w.At = &vecPoint{written(got.Place.At.X, places), written(got.Place.At.Y, places)}
		return w
	}
	a := got.Place.Attach[0]
	w.To = frames[got.To].ID
	if a.Corner > 0 {
		w.On, w.Corner, w.ToCorner = "corner", a.Corner, a.ToCorner
		return w
	}
	shift := written(a.Shift, places)
	w.On, w.Side, w.ToSide, w.Shift = "side", a.Side, a.ToSide, &shift
	w.Align = map[Align]string{Centred: "centred", FlushStart: "flush at start", FlushEnd: "flush at end"}[a.Align]
	return w
}

// snapKinds are the kinds of the vectors.
func snapKinds() []Kind {
	squareFeet := Kind{Name: "square feet", Open: true,
		Outside: geom.Polygon{pt(450, 7), pt(430, 500), pt(0, 720), pt(-430, 500), pt(-450, 7)},
		Inside:  geom.Polygon{pt(432, 0), pt(413, 489), pt(0, 700), pt(-413, 489), pt(-432, 0)}}
	house := kindOf("house", pt(-240, 0), pt(240, 0), pt(240, 700), pt(0, 880), pt(-240, 700))
	kite := kindOf("kite", pt(0, 0), pt(240, 180), pt(0, 630), pt(-240, 180))
	ring := sawnRound(40, 28)
	ring.Name = "round ring"
	return []Kind{
		regular("triangle", 3, 300), regular("square", 4, 240), regular("hexagon", 6, 200), regular("large hexagon", 6, 400), regular("ring of 18", 18, 80),
		rectangle("post", 90, 700), house, kite, archOf("arch", 800, 600), squareFeet, letterU(), ring,
	}
}

// snapScenes are the places of the vectors' scenes, each standing on y = 0.
func snapScenes() map[string][]Place {
	at := func(id, kind string, x, y, degrees float64) Place {
		return Place{ID: id, Kind: kind, At: &geom.Point{X: x, Y: y}, Turn: unit.FromDegrees(degrees)}
	}
	side := func(id, kind string, side int, to string, toSide int, a Align, shift float64) Place {
		return on(id, kind, Attach{To: to, Side: side, ToSide: toSide, Align: a, Shift: shift})
	}
	mirror := func(p Place) Place { p.Mirror = true; return p }
	return map[string][]Place{
		"nothing else": nil,
		"cluster": {
			at("L", "large hexagon", 0, 0, 0), side("H1", "hexagon", 1, "L", 3, FlushStart, 0),
			mirror(side("H2", "hexagon", 2, "L", 5, FlushEnd, 0)), side("T", "triangle", 2, "L", 4, Centred, 0),
		},
		"row of houses": {
			at("A", "house", 0, 0, 0), side("B", "house", 5, "A", 2, Centred, 0), side("C", "house", 5, "B", 2, Centred, 0),
			side("K", "kite", 4, "A", 3, FlushEnd, 0),
		},
		"arch": {
			at("A", "arch", 0, 0, 0), side("P", "post", 4, "A", 1, FlushStart, 0), side("S", "square", 1, "A", 2, Centred, -120),
			mirror(at("Q", "square feet", -900, 0, 0)),
		},
		"turned": {
			at("A", "hexagon", 0, 0, 17), mirror(side("B", "ring of 18", 4, "A", 2, Centred, 20)),
			side("C", "kite", 1, "A", 6, Centred, 0), mirror(side("D", "u", 1, "A", 4, FlushStart, 0)),
		},
		"on corners": {
			at("K1", "kite", 0, 0, 0), at("K2", "kite", 480, 0, 0), at("S", "square", 1000, 169.70562748, 45), at("R", "round ring", 1500, 0, 0),
		},
	}
}

// newVectors makes the cases: about every side and every corner of every scene
// a few frames, held a little off a place that is right, and some anywhere.
func newVectors(t *testing.T) vectors {
	v := vectors{About: aboutVectors, Kinds: map[string]vecKind{}, Scenes: map[string][]vecAt{}}
	var kinds []Kind
	for _, k := range snapKinds() {
		v.Kinds[k.Name] = vecKind{vecPoints(k.Outside, 9), vecPoints(k.Inside, 9), k.Open}
		kinds = append(kinds, v.Kinds[k.Name].kind(k.Name))
	}
	rnd := rand.New(rand.NewPCG(26, 11))
	for _, name := range []string{"nothing else", "cluster", "row of houses", "arch", "turned", "on corners"} {
		places := snapScenes()[name]
		v.Scenes[name] = []vecAt{}
		if len(places) > 0 {
			for _, f := range lay(t, kinds, places, Settings{Gap: 1}).Frames {
				v.Scenes[name] = append(v.Scenes[name], vecOf(f.ID, f.Kind, f.Move))
			}
		}
		for range 45 {
			v.Cases = append(v.Cases, v.drawCase(rnd, name, kinds))
		}
	}
	return v
}

func vecOf(id, kind string, m geom.Move) vecAt {
	return vecAt{ID: id, Kind: kind, Mirror: m.Mirror, Turn: written(wrap(m.Turn)*180/math.Pi, 9), At: vecPoint{written(m.Shift.X, 9), written(m.Shift.Y, 9)}}
}

// drawCase holds a frame somewhere in a scene where a hair more or less changes
// nothing, so that every program that rounds a little differently agrees.
func (v vectors) drawCase(rnd *rand.Rand, scene string, kinds []Kind) vecCase {
	for {
		c := vecCase{
			Scene: scene, Gap: pick(rnd, 0, 0.5, 1, 1), Tolerance: 0.79375, Origin: vecPoint{pick(rnd, 0, 0, 12.5), pick(rnd, 0, 3.25)},
			Capture: pick(rnd, 12.0, 20, 30, 45), Mark: pick(rnd, 1, 1, 1.5875, 5),
		}
		if floor := 0.0; rnd.IntN(5) > 0 {
			c.Floor = &floor
		}
		kind := kinds[rnd.IntN(len(kinds))]
		c.Held = vecOf("", kind.Name, v.drawHeld(rnd, scene, kind, c.Gap))
		if rnd.IntN(8) > 0 { // else exactly there
			c.Held.Turn = written(c.Held.Turn+28*(rnd.Float64()-0.5)*pick(rnd, 0, 1, 1), 1)
			for i := range c.Held.At {
				c.Held.At[i] = written(c.Held.At[i]+2*c.Capture*(rnd.Float64()-0.5)*pick(rnd, 0.3, 1), 1)
			}
		}
		c.Want = v.answer(c, geom.Point{})
		if few := c.Want == nil || c.Want.On == "floor"; few && rnd.IntN(12) > 0 {
			continue // most places are nowhere
		}
		if v.firm(c) {
			return c
		}
	}
}

func pick(rnd *rand.Rand, from ...float64) float64 { return from[rnd.IntN(len(from))] }

// drawHeld puts a frame on a side, with its first corner on a corner, on the
// floor, or anywhere.
func (v vectors) drawHeld(rnd *rand.Rand, scene string, kind Kind, gap float64) geom.Move {
	m := geom.Move{Mirror: rnd.IntN(2) == 0, Turn: math.Pi / 6 * float64(rnd.IntN(12)), Shift: pt(float64(rnd.IntN(1800)), float64(rnd.IntN(900)))}
	what := rnd.IntN(20)
	if placed := v.Scenes[scene]; len(placed) > 0 && what < 16 {
		f := placed[rnd.IntN(len(placed))]
		other := v.Kinds[f.Kind].kind(f.Kind)
		if what < 12 {
			at := Attach{Side: 1 + rnd.IntN(kind.sides()), Align: Align(rnd.IntN(3)), Shift: pick(rnd, 0, 0, -80, 45)}
			return lieOn(kind.Outside, m.Mirror, at, sideOf(other.Outside, 1+rnd.IntN(other.sides()), f.move()), gap)
		}
		m.Shift = pt(0, 0)
		m.Shift = f.move().Apply(other.Outside[rnd.IntN(len(other.Outside))]).Sub(m.Apply(kind.Outside[0]))
		return m
	}
	if what < 19 {
		m.Turn *= float64(rnd.IntN(2))
		m.Shift.Y -= newFrame(0, Place{}, &kind, m).Box.Min.Y
	}
	return m
}

// hair is a shift, in mm, that no answer may hang on: a fifth of snapSame.
const hair = snapSame / 5

// firm says whether the answer to a case stays the same a hair further on.
func (v vectors) firm(c vecCase) bool {
	for _, way := range []geom.Point{pt(hair, hair), pt(-hair, hair), pt(hair, -hair), pt(-hair, -hair)} {
		if w := v.answer(c, way); !sameAnswer(c.Want, w, 10*hair) {
			return false
		}
	}
	return true
}

// sameAnswer compares two answers, their places within so many mm.
func sameAnswer(a, b *vecWant, within float64) bool {
	if a == nil || b == nil {
		return a == b
	}
	names := func(w vecWant) string {
		return fmt.Sprint(w.On, w.To, w.Side, w.ToSide, w.Align, w.Corner, w.ToCorner, len(w.Outline), w.Shift != nil, w.At != nil)
	}
	if names(*a) != names(*b) || !near(a.Off, b.Off, within) || !near(a.Turn, b.Turn, within) {
		return false
	}
	if a.Shift != nil && !near(*a.Shift, *b.Shift, within) || a.At != nil && math.Hypot(a.At[0]-b.At[0], a.At[1]-b.At[1]) > within {
		return false
	}
	for k, p := range a.Outline {
		if math.Hypot(p[0]-b.Outline[k][0], p[1]-b.Outline[k][1]) > within {
			return false
		}
	}
	return true
}

// text writes the vectors, a line for each kind, placed frame and case.
func (v vectors) text() []byte {
	var b bytes.Buffer
	line := func(indent, key string, value any, last bool) {
		text, err := json.Marshal(value)
		if err != nil {
			panic(err)
		}
		fmt.Fprintf(&b, "%s%s%s", indent, key, text)
		if !last {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
	}
	b.WriteString("{\n")
	line("  ", `"about": `, v.About, false)
	b.WriteString("  \"kinds\": {\n")
	names := slices.Sorted(maps.Keys(v.Kinds))
	for i, name := range names {
		line("    ", fmt.Sprintf("%q: ", name), v.Kinds[name], i == len(names)-1)
	}
	b.WriteString("  },\n  \"scenes\": {\n")
	names = slices.Sorted(maps.Keys(v.Scenes))
	for i, name := range names {
		line("    ", fmt.Sprintf("%q: ", name), v.Scenes[name], i == len(names)-1)
	}
	b.WriteString("  },\n  \"cases\": [\n")
	for i, c := range v.Cases {
		line("    ", "", c, i == len(v.Cases)-1)
	}
	b.WriteString("  ]\n}\n")
	return b.Bytes()
}

// Snap answers every case of the file, and a hair aside as well. The cases are
// of all sorts, so that a twin which passes them does everything.
func TestSnapVectors(t *testing.T) {
	if *update {
		if err := os.WriteFile(snapFile, newVectors(t).text(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(snapFile)
	if err != nil {
		t.Fatal(err)
	}
	var v vectors
	if err := json.Unmarshal(text, &v); err != nil {
		t.Fatal(err)
	}
	sorts := map[string]int{}
	for i, c := range v.Cases {
		if got := v.answer(c, geom.Point{}); !sameAnswer(c.Want, got, 2e-6) {
			t.Errorf("case %d: %+v, want %+v", i, got, c.Want)
		} else if !v.firm(c) {
			t.Errorf("case %d hangs on less than %g mm", i, hair)
		}
		for _, sort := range c.sorts() {
			sorts[sort]++
		}
	}
	t.Log(len(v.Cases), sorts)
	for sort, least := range map[string]int{
		"side": 100, "corner": 15, "floor": 25, "nothing": 15, "centred": 25, "flush at start": 20, "flush at end": 20, "shifted": 20,
		"mirrored": 60, "no floor": 20, "already there": 10, "no seam gap": 20,
	} {
		if sorts[sort] < least {
			t.Errorf("%d cases of %q, want %d", sorts[sort], sort, least)
		}
	}
	if len(v.Cases) < 200 {
		t.Errorf("%d cases", len(v.Cases))
	}
}

// sorts says what a case tries.
func (c vecCase) sorts() []string {
	var out []string
	note := func(is bool, what string) {
		if is {
			out = append(out, what)
		}
	}
	note(c.Floor == nil, "no floor")
	note(c.Gap == 0, "no seam gap")
	if c.Want == nil {
		return append(out, "nothing")
	}
	note(c.Held.Mirror, "mirrored")
	note(c.Want.Off < 1e-5, "already there")
	note(c.Want.Shift != nil && *c.Want.Shift != 0, "shifted")
	note(c.Want.Align != "", c.Want.Align)
	return append(out, c.Want.On)
}
