package statics

import "math"

// A Section is what a member is made of. Its depth is the direction a Member
// names, its width lies across.
type Section struct {
	E, G   float64 // moduli along the grain and in shear, MPa
	Area   float64 // mm²
	Deep   float64 // second moment against bending in the plane of the depth, mm⁴
	Wide   float64 // second moment against bending in the plane of the width, mm⁴
	Twist  float64 // St Venant's torsion constant, mm⁴
	Shear  float64 // shear factor: the shear area is Shear times Area
	Weight float64 // N per mm of length
}

// RectangleShear is the shear factor of a rectangle, after Reissner: shear
// stress over the section as a parabola. Cowper (1966) gives 10(1+ν)/(12+11ν),
// the same for ν = 0. From memory.
const RectangleShear = 5.0 / 6

// Rectangle is a section of a width and a depth in mm, moduli in MPa. It has no
// Weight yet.
func Rectangle(width, depth, e, g float64) Section {
	return Section{
		E: e, G: g, Area: width * depth,
		Deep:  width * depth * depth * depth / 12,
		Wide:  depth * width * width * width / 12,
		Twist: RectangleTwist(width, depth),
		Shear: RectangleShear,
	}
}

// twistTerms of the series leave an error under one part in 10¹⁰: the n-th term
// falls with the fifth power of n.
const twistTerms = 60

// RectangleTwist is St Venant's torsion constant of a rectangle, in mm⁴ for
// sides in mm: a b³/3 (1 - 192 b/(π⁵ a) Σ tanh(nπa/2b)/n⁵), n odd, a the longer
// side (Timoshenko and Goodier, Theory of Elasticity, section 109; from memory).
func RectangleTwist(width, depth float64) float64 {
	a, b := max(width, depth), min(width, depth)
	if b <= 0 {
		return 0
	}
	sum := 0.0
	for n := 1.0; n < 2*twistTerms; n += 2 {
		sum += math.Tanh(n*math.Pi*a/(2*b)) / (n * n * n * n * n)
	}
	return a * b * b * b / 3 * (1 - 192*b/(math.Pow(math.Pi, 5)*a)*sum)
}

func (s Section) good() bool {
	for _, v := range []float64{s.E, s.G, s.Area, s.Deep, s.Wide, s.Twist, s.Shear} {
		if !(v > 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return s.Weight >= 0 && !math.IsInf(s.Weight, 0)
}

// stiffest is the greatest force a shift of one end takes, N/mm.
func (s Section) stiffest(length float64) float64 {
	shear := s.Shear * s.G * s.Area / length // bending adds to what shear gives
	return max(s.E*s.Area/length, shear)
}
