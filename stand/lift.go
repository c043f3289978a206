package stand

import (
	"math"

	"bowerwright/unit"
)

// An Equation is the revised NIOSH lifting equation (DHHS (NIOSH) 94-110): the
// weight that nearly all healthy workers can lift with both hands, one person at
// a time, as a constant times a multiplier for each thing that makes it harder.
// It does not cover teams, one hand, unstable loads or carrying.
type Equation struct {
	Constant                unit.Mass
	Reach, ReachMost        float64 // hands before the ankles: without loss; at the most, mm
	Height, HeightLoss      float64 // best height of the hands; loss per mm off it
	HeightMost              float64
	TravelShare, Travel     float64 // what is left however far; mm over the travel that is added
	TravelLeast, TravelMost float64
	Twist                   float64 // loss per degree
	TwistMost               unit.Angle
	Frequency, Grip         float64 // multipliers
}

// A Lift is how one person lifts: the hands so far before the ankles, from one
// height to another, turned out of the middle.
type Lift struct {
	Reach, From, To float64 // mm
	Twist           unit.Angle
}

// Recommended is the recommended weight limit where the lift begins; for where
// it ends, turn From and To round. It is 0 outside the equation's limits.
func (e Equation) Recommended(l Lift) unit.Mass {
	travel := math.Abs(l.To - l.From)
	if l.Reach > e.ReachMost || l.From > e.HeightMost || l.From < 0 || travel > e.TravelMost || l.Twist > e.TwistMost {
		return 0
	}
	reach := e.Reach / math.Max(l.Reach, e.Reach)
	height := 1 - e.HeightLoss*math.Abs(l.From-e.Height)
	raised := math.Min(1, e.TravelShare+e.Travel/math.Max(travel, e.TravelLeast))
	twist := 1 - e.Twist*l.Twist.Degrees()
	return e.Constant * unit.Mass(reach*height*raised*twist*e.Frequency*e.Grip)
}

// Alone gives what one person of the crew lifts with the hands at a height.
func (l LiftRules) Alone(height float64) unit.Mass {
	for _, z := range l.Zones {
		if height <= z.To {
			return z.Mass * unit.Mass(l.Person)
		}
	}
	return 0
}

// TeamShare is the share of the sum of what its members lift alone that a team
// lifts; 0 for a team that is too large to work as one.
func (l LiftRules) TeamShare(people int) float64 {
	switch {
	case people < 1 || people > l.Most:
		return 0
	case people == 1:
		return 1
	case people == 1+1:
		return l.Two
	}
	return l.Three
}

// Team gives what a team lifts with the hands at a height.
func (l LiftRules) Team(people int, height float64) unit.Mass {
	return l.Alone(height) * unit.Mass(float64(people)*l.TeamShare(people))
}

// A Heave is something lifted from one height of the hands to another.
type Heave struct {
	Mass     unit.Mass
	From, To float64 // mm
}

// A Crew is how many people a lift wants.
type Crew struct {
	People int       // the fewest; 0 when no team that works as one is enough
	Ratio  float64   // what is lifted over what that team lifts, or the largest one
	Height float64   // of the hands where it is hardest
	Single unit.Mass // what the NIOSH equation recommends for one person at this lift, with the load close
	Steps  bool      // the hands go above what is reached from the floor
}

// Crew finds the fewest people for a lift; the hardest height on the way counts.
func (l LiftRules) Crew(h Heave) Crew {
	at := l.hardest(h)
	c := l.fewest(at, h.Mass)
	there := l.NIOSH.Recommended(Lift{Reach: l.NIOSH.Reach, From: h.From, To: h.To})
	back := l.NIOSH.Recommended(Lift{Reach: l.NIOSH.Reach, From: h.To, To: h.From})
	c.Single, c.Steps = min(there, back), h.To > l.Up
	return c
}

// fewest people for a mass with the hands at a height.
func (l LiftRules) fewest(height float64, mass unit.Mass) Crew {
	c := Crew{Height: height}
	for n := 1; n <= l.Most; n++ {
		c.Ratio = float64(mass / l.Team(n, height))
		if c.Ratio <= 1 {
			c.People = n
			return c
		}
	}
	return c
}

// hardest is the height of the hands, on the way of a heave, where one lifts
// least; the lowest of equals.
func (l LiftRules) hardest(h Heave) float64 {
	lo, hi := math.Min(h.From, h.To), math.Max(h.From, h.To)
	at, least := lo, l.Alone(lo)
	for _, z := range l.Zones {
		if next := math.Nextafter(z.To, math.Inf(1)); z.To >= lo && z.To < hi && l.Alone(next) < least {
			at, least = next, l.Alone(next)
		}
	}
	return at
}
