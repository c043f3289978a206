package stand

import (
	"math"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// A Section is frames that travel as one, rigid, in the front view of their
// layout.
type Section struct {
	Layout layout.Layout
	Frames []unit.Mass // one for each of Layout.Frames
	Mass   unit.Mass   // of all of it
	Middle geom.Point  // of the weight, in the front view
	Back   float64     // of the weight behind the foremost front edges, mm
	Depth  float64     // from the foremost front edges to the rearmost, mm
	Lift   float64     // mm that its base is high, when it is built up in place
}

// Lifts is how a section is handled, in the order of the day.
type Lifts struct {
	Carry  []Grips  // flat, by 1, 2, 3... people
	People int      // fewest whose best grip is not over; 0 when no team is enough
	Turn   []Turn   // from its front on to its back, about each edge of its box
	Tilt   Tilting  // up from lying on its back, about the heel, held at its top
	Swing  float64  // room over the floor while it is tilted up, mm
	Built  []Raised // each frame lifted to its place, when it is built up there
}

// A Turn is a section turned over about one edge.
type Turn struct {
	About    string // bottom, top, left, right
	Up, Down Tilting
	People   int // fewest for both; 0 when no team is enough
}

// A Raised is one frame lifted to its place.
type Raised struct {
	Frame int // index in the layout
	Crew  Crew
}

// Lifts works out every way to lift a section. Work is how many choices of
// places each number of people may look at.
func (l LiftRules) Lifts(s Section, work int) Lifts {
	out := Lifts{Swing: Swing(s.Layout.Height, s.Depth)}
	holders := l.Holders(s.Layout)
	for n := 1; n <= l.Most; n++ {
		g := l.CarryFlat(holders, n, s.Middle, s.Mass, work)
		out.Carry = append(out.Carry, g)
		if out.People == 0 && g.Found && g.Best.Ratio <= 1 {
			out.People = n
		}
	}
	out.Tilt = l.Tilt(Rise{Mass: s.Mass, Middle: s.Middle.Y, Off: s.Depth - s.Back, Hold: s.Layout.Height})
	out.Turn = l.turns(s)
	for i, f := range s.Layout.Frames {
		h := Heave{Mass: s.Frames[i], From: l.Carry, To: f.Centre.Y + s.Lift}
		out.Built = append(out.Built, Raised{i, l.Crew(h)})
	}
	return out
}

// turns are about the four edges of the box; it lies on its front, where the
// weight is Back above the floor.
func (l LiftRules) turns(s Section) []Turn {
	w, h := s.Layout.Width, s.Layout.Height
	var out []Turn
	for _, e := range []struct {
		about        string
		middle, hold float64
	}{{"bottom", s.Middle.Y, h}, {"top", h - s.Middle.Y, h}, {"left", s.Middle.X, w}, {"right", w - s.Middle.X, w}} {
		up, down := l.Turned(Rise{Mass: s.Mass, Middle: e.middle, Off: s.Back, Hold: e.hold}, s.Depth)
		t := Turn{About: e.about, Up: up, Down: down, People: max(up.People, down.People)}
		if up.People == 0 || down.People == 0 {
			t.People = 0
		}
		out = append(out, t)
	}
	return out
}

// Easiest is the turn that wants fewest people, then least force; false when
// none can be done by a team.
func (l Lifts) Easiest() (Turn, bool) {
	var best Turn
	found := false
	for _, t := range l.Turn {
		if t.People > 0 && (!found || t.People < best.People || t.People == best.People && t.force() < best.force()*(1-sameLoad)) {
			best, found = t, true
		}
	}
	return best, found
}

func (t Turn) force() float64 {
	return math.Max(float64(t.Up.Peak.Force), float64(t.Down.Peak.Force))
}

// NotCovered is what must stand beside any figure on lifting.
func NotCovered() []string {
	return []string{
		"The NIOSH lifting equation is for one person; it does not cover teams or carrying.",
		"The HSE's figures are guidelines for fit people and loads held close; a team lifts less than the sum of its members.",
		"Weight only: no jerk, no step missed, no wind on the way.",
	}
}

// NotChecked is what must stand beside any figure on standing.
func NotChecked() []string {
	return []string{
		"A working estimate, not an engineer's certificate: a venue or a public place outdoors may ask for one.",
		"Not checked: knots, splits and bad glue; children who climb; cloth that flaps; what is hung on later.",
		"Local rules and the venue come first. Anything over people's heads, and anything over its limit, is for a licensed engineer.",
	}
}
