package frame

import (
	"math"

	"bowerwright/unit"
)

// MostTimes is the greatest number of times the common length may go into a
// side of a family.
const MostTimes = 24

// A Family is a set of sides in whole-number ratio: side i is Times[i] x Unit,
// with Unit on the tape, so that sides of several frames fit together flush.
type Family struct {
	Unit  unit.Length
	Times []int
}

// Length is the tape length of side i.
func (f Family) Length(i int) unit.Length { return unit.Length(f.Times[i]) * f.Unit }

// FamilyOf finds the family of sides asked for in mm, in the smallest whole
// numbers that fit. The unit on the tape is the one with the least sum of
// squared changes, the smaller on a tie. Sides count as in ratio when each is
// within half a mark of its multiple, as sides already taken to the tape are;
// otherwise the error is a *Refusal with the nearest ratio.
func FamilyOf(sides []float64, mark unit.Length) (Family, error) {
	if mark <= 0 {
		mark = unit.Nanometre
	}
	for i, s := range sides {
		if !(s >= leastSide) {
			return Family{}, &Refusal{Code: SideTooShort, Sides: []int{i + 1}}
		}
	}
	if len(sides) == 0 {
		return Family{}, &Refusal{Code: NoFamily}
	}
	tol := math.Max(mark.MM()/2, sameMM)
	var nearest []int
	worst := math.Inf(1)
	for m := 1; m <= MostTimes; m++ {
		times, off := ratio(sides, m)
		if times == nil {
			continue
		}
		if off <= tol {
			return Family{Unit: unitFor(sides, times, mark), Times: times}, nil
		}
		if off < worst {
			nearest, worst = times, off
		}
	}
	return Family{}, &Refusal{Code: NoFamily, Ratio: nearest, Got: worst, Most: tol}
}

// ratio tries the shortest side as m units. It gives the multiples and the
// furthest that a side is from its own, in mm; nil when a side would be more
// than MostTimes units.
func ratio(sides []float64, m int) (times []int, off float64) {
	shortest := math.Inf(1)
	for _, s := range sides {
		shortest = math.Min(shortest, s)
	}
	for _, s := range sides {
		k := int(math.Round(s * float64(m) / shortest))
		if k > MostTimes {
			return nil, 0
		}
		times = append(times, k)
	}
	u := leastSquares(sides, times)
	for i, s := range sides {
		off = math.Max(off, math.Abs(s-float64(times[i])*u))
	}
	return times, off
}

// leastSquares is the u that makes the sum of (times u - side)² least.
func leastSquares(sides []float64, times []int) float64 {
	top, bottom := 0.0, 0.0
	for i, s := range sides {
		k := float64(times[i])
		top += k * s
		bottom += k * k
	}
	return top / bottom
}

// unitFor takes the best u to the tape. The sum of squares is a parabola in u,
// so the mark nearest to its lowest point is best.
func unitFor(sides []float64, times []int, mark unit.Length) unit.Length {
	u := leastSquares(sides, times)
	down, _ := unit.FromMM(u, mark, unit.Down)
	if down <= 0 || down.MM()+mark.MM()-u < u-down.MM()-sameMM {
		down += mark
	}
	return down
}
