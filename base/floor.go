package base

import (
	"bowerwright/assume"
	"bowerwright/unit"
)

// A Floor is what the whole stands on.
type Floor struct {
	Name     string
	Friction float64    // level force over weight at which it begins to slide
	Soft     bool       // it gives, or it is uneven
	Slope    unit.Angle // steepest fall
}

// The names of the floors that can be chosen.
const (
	Hall     = "hall"
	Polished = "polished"
	Rough    = "rough"
	Grass    = "grass"
)

// Floors lists the floors that can be chosen, the usual one first, with their
// friction from a book of assumptions. Grass is soft.
func Floors(r *assume.Reader) []Floor {
	return []Floor{
		{Name: Hall, Friction: r.Get(assume.StandFriction).Value},
		{Name: Polished, Friction: r.Get(assume.StandFrictionPolished).Value},
		{Name: Rough, Friction: r.Get(assume.StandFrictionRough).Value},
		{Name: Grass, Friction: r.Get(assume.StandFrictionGrass).Value, Soft: true},
	}
}
