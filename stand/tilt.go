package stand

import (
	"math"

	"bowerwright/unit"
)

// A Rise is a piece that is turned up about its heel, an edge that stays on the
// floor, by hands that push square to it.
type Rise struct {
	Mass   unit.Mass
	Middle float64 // from the heel to the middle of the weight, along the piece, mm
	Off    float64 // of the middle of the weight above the face that lies on the floor, mm
	Hold   float64 // from the heel to where the hands take hold, along the piece, mm
}

// A Step of a rise.
type Step struct {
	Angle  unit.Angle // of the piece above the floor
	At     float64    // of the hands, from the heel along the piece, mm
	Height float64    // of the hands above the floor, mm
	Force  unit.Force // of all hands together; 0 past the balance
	Heel   unit.Force // what holds the heel where it is
	People int        // fewest at this height; 0 when no team is enough
}

// A Tilting is how a piece goes up.
type Tilting struct {
	Steps   []Step     // every 10 degrees and where the hands begin to walk down
	Peak    Step       // where most force is needed, found exactly
	Hardest Step       // where most people are needed, the one with the most force over what one lifts
	People  int        // fewest for the whole way; 0 when no team is enough
	Balance unit.Angle // from here it goes over to the other side by itself: catch it
	Grip    float64    // friction that the heel needs, at the worst; hold it where the floor has less
}

// force at an angle with the hands at a distance from the heel: the moment of
// the weight about the heel over the lever of the hands.
func (r Rise) force(angle, at float64) float64 {
	sin, cos := math.Sincos(angle)
	return math.Max(0, float64(Weigh(r.Mass))*(r.Middle*cos-r.Off*sin)/at)
}

// hands are at the hold until that is as high as people reach; then they walk
// down the piece and stay at that height.
func (r Rise) hands(angle, up float64) float64 {
	if sin := math.Sin(angle); r.Hold*sin > up {
		return up / sin
	}
	return r.Hold
}

// Tilt goes through a rise from the floor to the balance.
func (l LiftRules) Tilt(r Rise) Tilting {
	t := Tilting{Balance: unit.Angle(math.Atan2(r.Middle, r.Off))}
	walk := math.Pi / 2
	if r.Hold > l.Up {
		walk = math.Asin(l.Up / r.Hold)
	}
	for i := range Directions/4 + 1 {
		t.add(l, r, 2*math.Pi*float64(i)/Directions)
		if next := 2 * math.Pi * float64(i+1) / Directions; walk >= next-2*math.Pi/Directions && walk < next {
			t.add(l, r, walk)
		}
	}
	t.peak(l, r, walk)
	t.team(l, r)
	return t
}

func (t *Tilting) add(l LiftRules, r Rise, angle float64) {
	if n := len(t.Steps); n > 0 && float64(t.Steps[n-1].Angle) >= angle {
		return
	}
	t.Steps = append(t.Steps, l.step(r, angle))
}

func (l LiftRules) step(r Rise, angle float64) Step {
	at := r.hands(angle, l.Up)
	f := r.force(angle, at)
	s := Step{Angle: unit.Angle(angle), At: at, Height: at * math.Sin(angle), Force: unit.Force(f), Heel: unit.Force(f * math.Sin(angle))}
	s.People = l.fewest(s.Height, Mass(s.Force)).People
	return s
}

// peak is where most force is needed: at the floor, where the moment is largest
// and the lever longest; or while the hands walk down at one height, where
// sin a (m cos a - o sin a) is largest: at tan 2a = m/o, or where they begin.
func (t *Tilting) peak(l LiftRules, r Rise, walk float64) {
	t.Peak = l.step(r, 0)
	if walk >= math.Pi/2 {
		return
	}
	top := math.Max(walk, math.Atan2(r.Middle, r.Off)/2)
	if s := l.step(r, top); s.Force > t.Peak.Force {
		t.Peak = s
	}
}

// team finds the hardest step for those who lift, at every degree, and the
// friction that the heel needs.
func (t *Tilting) team(l LiftRules, r Rise) {
	worst := -1.0
	weight := float64(Weigh(r.Mass))
	for i := 0; i <= quarter; i++ {
		s := l.step(r, math.Pi/2*float64(i)/quarter)
		if f := float64(Mass(s.Force) / l.Alone(s.Height)); f > worst {
			worst, t.Hardest = f, s
		}
		down := weight - float64(s.Force)*math.Cos(float64(s.Angle))
		t.Grip = math.Max(t.Grip, over(float64(s.Heel), down))
	}
	t.People = t.Hardest.People
}

// quarter is a right angle in degrees.
const quarter = 90

// Turned is a piece turned from lying on one face to lying on the other: up
// about one edge and down about the opposite one of that side, which is a rise
// backwards. Depth is its thickness; Off is counted from the face it lies on
// first.
func (l LiftRules) Turned(r Rise, depth float64) (up, down Tilting) {
	up = l.Tilt(r)
	r.Off = depth - r.Off
	return up, l.Tilt(r)
}

// Swing is the room over the floor that a piece needs while it is tilted up on
// a base or by itself: from its heel to its opposite top edge.
func Swing(height, depth float64) float64 { return math.Hypot(height, depth) }
