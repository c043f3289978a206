package statics

import "math"

// A Vec is a place, a direction, a shift, a turn, a force or a moment: along x,
// y and z of a right-handed frame.
type Vec [3]float64

// Add, Sub and Mul are the vector operations.
func (v Vec) Add(w Vec) Vec     { return Vec{v[0] + w[0], v[1] + w[1], v[2] + w[2]} }
func (v Vec) Sub(w Vec) Vec     { return Vec{v[0] - w[0], v[1] - w[1], v[2] - w[2]} }
func (v Vec) Mul(k float64) Vec { return Vec{v[0] * k, v[1] * k, v[2] * k} }
func (v Vec) Dot(w Vec) float64 { return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] }
func (v Vec) Len() float64      { return math.Sqrt(v.Dot(v)) }

// Cross is the vector product.
func (v Vec) Cross(w Vec) Vec {
	return Vec{v[1]*w[2] - v[2]*w[1], v[2]*w[0] - v[0]*w[2], v[0]*w[1] - v[1]*w[0]}
}

// Unit is v scaled to length 1; the zero vector stays zero.
func (v Vec) Unit() Vec {
	if l := v.Len(); l > 0 {
		return v.Mul(1 / l)
	}
	return v
}

func (v Vec) finite() bool {
	return !math.IsNaN(v[0]+v[1]+v[2]) && !math.IsInf(v[0], 0) && !math.IsInf(v[1], 0) && !math.IsInf(v[2], 0)
}

// A Motion is a shift in mm and a turn in radians.
type Motion struct{ Shift, Turn Vec }

// at is the shift of a point on a rigid arm.
func (m Motion) at(arm Vec) Vec { return m.Shift.Add(m.Turn.Cross(arm)) }

// A Load is a force in N and a moment in N mm.
type Load struct{ Force, Moment Vec }

// Add sums two loads at one point.
func (l Load) Add(o Load) Load { return Load{l.Force.Add(o.Force), l.Moment.Add(o.Moment)} }

// Neg is the load that balances l.
func (l Load) Neg() Load { return Load{l.Force.Mul(-1), l.Moment.Mul(-1)} }

// from brings a load at the tip of an arm to its root.
func (l Load) from(arm Vec) Load { return Load{l.Force, l.Moment.Add(arm.Cross(l.Force))} }
