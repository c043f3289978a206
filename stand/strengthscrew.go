package stand

import "math"

// The constants of the standard's formulas, in inches, pounds and psi, as it is
// printed: NDS 2018 equations 12.2-2 (withdrawal of a wood screw) and 12.2-6
// (pull-through of a head, both its cases), Table 12.3.3 (dowel bearing), Table
// 12.3.1B (reduction terms) and Table I1 (bending yield). Read in copies.
const (
	withdrawalOf   = 2850.0
	pullThrough    = 690.0
	pullThick      = 1725.0
	pullThickFrom  = 2.5 // diameters of the head
	bearingThin    = 16600.0
	bearingPower   = 1.84
	bearingAcross  = 6100.0
	acrossPower    = 1.45
	thickFrom      = 0.25 // in; from here a fastener is a bolt by the tables
	slimTo         = 0.17 // in
	reduceSlim     = 2.2
	reduceSlope    = 10.0
	reduceFrom     = 0.5
	reduceYield    = 3.6 // mode II
	reduceBend     = 3.2 // modes III and IV
	crossGrain     = 1.25
	fullLengths    = 10.0 // diameters from which the point needs no allowance
	standardLength = 6.0  // NDS 12.1.5.6: least penetration of the standard, in diameters, point included
	tipLength      = 2.0  // diameters of a screw's point
	threadShare    = 2.0 / 3
)

// yieldBands are the bending yield strengths by diameter, NDS 2018 Table I1: up
// to so many inches, psi.
var yieldBands = [...]struct{ to, psi float64 }{
	{bandOne, yieldOne}, {bandTwo, yieldTwo}, {bandThree, yieldThree}, {bandFour, yieldFour}, {bandFive, yieldFive}, {math.MaxFloat64, yieldBolt},
}

// The figures of that table.
const (
	bandOne, yieldOne     = 0.142, 100000.0
	bandTwo, yieldTwo     = 0.177, 90000.0
	bandThree, yieldThree = 0.236, 80000.0
	bandFour, yieldFour   = 0.273, 70000.0
	bandFive, yieldFive   = 0.344, 60000.0
	yieldBolt             = 45000.0
)

// A Dowel is a screw or a bolt through one piece of wood into another, by the
// sizes that decide what it bears. Lengths in mm, gravities without a unit.
type Dowel struct {
	Diameter, Root float64 // a Root of 0 is a smooth shank: a bolt
	Length         float64
	Side           float64 // wood under the head, along the axis
	Hold           float64 // in the second piece, point included
	HeadGravity    float64
	HoldGravity    float64
	Bolt           bool // right through, with a nut: mild steel
}

// A Yield is what a dowel bears across its axis by the yield modes of the
// standard: each in N by name, in the order of the standard, and the least.
type Yield struct {
	Modes [len(modeNames)]float64
	Mode  string
	Least float64
}

// modeNames in the order of Yield.Modes: crushing of the second piece and of the
// first; the dowel rotates; it bends in the second, in the first, in both.
var modeNames = [...]string{"Im", "Is", "II", "IIIm", "IIIs", "IV"}

// Withdrawal is what the thread allows along the axis in side grain, N: NDS
// 2018 12.2-2, 2850 G2 D for an inch of thread. All of the penetration counts,
// or what there is of thread, two thirds of the length.
func (d Dowel) Withdrawal() float64 {
	thread := math.Min(d.Hold, threadShare*d.Length)
	return withdrawalOf * d.HoldGravity * d.HoldGravity * (d.Diameter / anInch) * (thread / anInch) * poundForce
}

// PullThrough is what the wood under the head allows, N: NDS 2018 12.2-6, for a
// head of a width in mm.
func (d Dowel) PullThrough(head float64) float64 {
	wide, g := head/anInch, d.HeadGravity
	if d.Side <= pullThickFrom*head {
		return pullThrough * math.Pi * wide * g * g * (d.Side / anInch) * poundForce
	}
	return pullThick * math.Pi * wide * wide * g * g * poundForce
}

// shank is what bends: the root of a screw, all of a bolt; in.
func (d Dowel) shank() float64 {
	if d.Root > 0 {
		return d.Root / anInch
	}
	return d.Diameter / anInch
}

// bearing is what wood of a gravity bears under the dowel, psi. A thick one is
// taken across the grain, the lower of the two.
func (d Dowel) bearing(gravity float64) float64 {
	if wide := d.Diameter / anInch; wide >= thickFrom {
		return bearingAcross * math.Pow(gravity, acrossPower) / math.Sqrt(wide)
	}
	return bearingThin * math.Pow(gravity, bearingPower)
}

// reductions are the terms R_d of modes I, II and the rest.
func (d Dowel) reductions() [3]float64 {
	shank := d.shank()
	switch {
	case shank >= thickFrom:
		return [3]float64{4 * crossGrain, reduceYield * crossGrain, reduceBend * crossGrain}
	case shank <= slimTo:
		return [3]float64{reduceSlim, reduceSlim, reduceSlim}
	}
	k := reduceSlope*shank + reduceFrom
	if d.Diameter/anInch >= thickFrom { // a thick screw with a thin root
		k *= crossGrain
	}
	return [3]float64{k, k, k}
}

func (d Dowel) yieldStress() float64 {
	if d.Bolt {
		return yieldBolt
	}
	for _, b := range yieldBands {
		if d.Diameter/anInch <= b.to {
			return b.psi
		}
	}
	return yieldBolt
}

// Lateral is what the dowel bears across its axis in single shear, N: the yield
// modes of NDS 2018 Table 12.3.1A. A point shorter than ten diameters in the
// wood bears by one diameter less.
func (d Dowel) Lateral() Yield {
	shank, fyb := d.shank(), d.yieldStress()
	ls, lm := d.Side/anInch, d.Hold/anInch
	if !d.Bolt && d.Hold < fullLengths*d.Diameter {
		lm -= tipLength / 2 * d.Diameter / anInch
	}
	fm, fs, rd := d.bearing(d.HoldGravity), d.bearing(d.HeadGravity), d.reductions()
	if lm <= 0 || ls <= 0 {
		return Yield{Mode: modeNames[0]}
	}
	re, rt := fm/fs, lm/ls
	k1 := (math.Sqrt(re+2*re*re*(1+rt+rt*rt)+rt*rt*re*re*re) - re*(1+rt)) / (1 + re)
	k2 := -1 + math.Sqrt(2*(1+re)+2*fyb*(1+2*re)*shank*shank/(3*fm*lm*lm))
	k3 := -1 + math.Sqrt(2*(1+re)/re+2*fyb*(2+re)*shank*shank/(3*fm*ls*ls))
	y := Yield{Modes: [len(modeNames)]float64{
		shank * lm * fm / rd[0], shank * ls * fs / rd[0], k1 * shank * ls * fs / rd[1],
		k2 * shank * lm * fm / ((1 + 2*re) * rd[2]), k3 * shank * ls * fm / ((2 + re) * rd[2]),
		shank * shank / rd[2] * math.Sqrt(2*fm*fyb/(3*(1+re)))}}
	y.Least = math.Inf(1)
	for i := range y.Modes {
		y.Modes[i] *= poundForce
		if y.Modes[i] < y.Least {
			y.Least, y.Mode = y.Modes[i], modeNames[i]
		}
	}
	return y
}

// Outside says that the standard does not cover the dowel: a screw that holds by
// less than six diameters.
func (d Dowel) Outside() bool { return !d.Bolt && d.Hold < standardLength*d.Diameter }

// short is what is left of the lateral value of a screw outside the standard: in
// the measure of its penetration to six diameters. A choice of ours, as the
// standard gives none.
func (d Dowel) short() float64 {
	if !d.Outside() {
		return 1
	}
	return d.Hold / (standardLength * d.Diameter)
}

// together is the interaction of a pull and a slide, NDS 2018 12.4-1, as a ratio:
// (V2/Z + T2/W) / sqrt(T2 + V2). What bears nothing that is asked of it is
// infinitely over.
func together(pull, slide, w, z float64) float64 {
	size := math.Hypot(pull, slide)
	if size == 0 {
		return 0
	}
	part := func(f, holds float64) float64 {
		if f == 0 {
			return 0
		}
		return f * f / holds
	}
	return (part(slide, z) + part(pull, w)) / size
}
