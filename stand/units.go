package stand

import (
	"math"

	"bowerwright/unit"
)

// gravity is standard gravity in m/s2 (NIST SP 811, appendix B.8: exact by
// definition). A kilogram weighs so many newtons.
const gravity = 9.80665

// Exact by definition of the pound, the foot and the mile (NIST SP 811,
// appendix B), in N, mm, mm2 and m.
const (
	poundForce    = float64(unit.Pound) * gravity
	foot          = float64(unit.Foot) / float64(unit.Millimetre)
	squareFoot    = foot * foot
	metresInAMile = 5280 * float64(unit.Foot) / float64(unit.Metre)
	secondsInHour = 60 * 60
	squareMetre   = float64(unit.Metre/unit.Millimetre) * float64(unit.Metre/unit.Millimetre)
	kilo          = 1000
)

// A Speed is in metres a second. Gusts are 3-second gusts.
type Speed float64

// FromMPH makes a Speed of miles an hour, MPH gives it back; KMH and FromKMH
// are kilometres an hour.
func FromMPH(v float64) Speed { return Speed(v * metresInAMile / secondsInHour) }

// MPH gives the speed in miles an hour.
func (s Speed) MPH() float64 { return float64(s) / float64(FromMPH(1)) }

// FromKMH makes a Speed of kilometres an hour.
func FromKMH(v float64) Speed { return Speed(v * kilo / secondsInHour) }

// KMH gives the speed in kilometres an hour.
func (s Speed) KMH() float64 { return float64(s) / float64(FromKMH(1)) }

// DownTo is the speed on a whole number of marks that does not exceed it.
// limitGrain keeps a limit that is whole by calculation from losing a mark to
// the rounding of its own sums.
func (s Speed) DownTo(mark Speed) Speed {
	return Speed(math.Floor(float64(s/mark)+limitGrain)) * mark
}

// limitGrain is a share of a mark: far above the error of float64 sums, far
// below what an anemometer shows.
const limitGrain = 1e-9

// Weigh gives the weight of a mass, Mass the mass of a weight.
func Weigh(m unit.Mass) unit.Force { return unit.Force(float64(m) * gravity) }

// Mass of a weight.
func Mass(f unit.Force) unit.Mass { return unit.Mass(float64(f) / gravity) }

// PoundsForce makes a Force of pounds.
func PoundsForce(f float64) unit.Force { return unit.Force(f * poundForce) }
