package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// closeMM is how far, in mm, typed sides may end from where they began: 1/16
// in, one mark of a common tape. The last side takes it up.
const closeMM = 25.4 / 16

// angleSumTol is how far typed inside angles may be from their sum: half a
// degree, angles being read off a protractor.
const angleSumTol = 0.5 * math.Pi / 180

// BySides is any simple polygon by its outside lengths and inside angles,
// walked anticlockwise with side 1 level and its inside above. angles[i] is
// the inside angle between side i+1 and the next. For n sides give
//
//   - n or n-1 angles: the walk must come back to its start within 1/16 in;
//   - n-1 or n-2 angles and a last length of 0: the last side is computed;
//   - n-3 angles (none for a triangle): the last two sides close it by their
//     lengths, outwards.
//
// An angle of 0 in the last two places counts as not given. The outline is
// numbered anew from the side it stands on.
func BySides(sides []unit.Length, angles []unit.Angle) (Outline, error) {
	n := len(sides)
	if n < 3 || n > MostSides {
		return Outline{}, &Refusal{Code: BadCount, Got: float64(n), Least: 3, Most: MostSides}
	}
	for len(angles) > n-3 && len(angles) > 0 && angles[len(angles)-1] == 0 {
		angles = angles[:len(angles)-1]
	}
	if err := checkRun(sides, angles); err != nil {
		return Outline{}, err
	}
	if len(angles) == n-3 {
		return closeByLengths(sides, angles)
	}
	return closeByWalk(sides, angles)
}

// checkRun looks at the counts and the ranges.
func checkRun(sides []unit.Length, angles []unit.Angle) error {
	n := len(sides)
	open := sides[n-1] == 0
	if len(angles) > n || len(angles) < n-3 || (len(angles) == n-2) != open && len(angles) < n-1 {
		return &Refusal{Code: BadCount, What: "inside angles", Got: float64(len(angles)), Least: float64(n - 3), Most: float64(n)}
	}
	for i, l := range sides {
		if i == n-1 && open {
			break
		}
		if err := checkMeasure("a side", l); err != nil {
			return err
		}
	}
	for i, a := range angles {
		if a <= 0 || a >= 2*math.Pi {
			return &Refusal{Code: CornerTooSharp, Corner: i + 2, Got: a.Degrees(), Most: 360}
		}
	}
	return nil
}

// walk gives the corners after each of the first m sides.
func walk(sides []unit.Length, angles []unit.Angle, m int) geom.Polygon {
	p := geom.Polygon{{}}
	heading := 0.0
	for i := range m {
		s, c := math.Sincos(heading)
		p = append(p, p[i].Add(geom.Point{X: c, Y: s}.Mul(sides[i].MM())))
		if i < len(angles) {
			heading += math.Pi - float64(angles[i])
		}
	}
	return p
}

func closeByWalk(sides []unit.Length, angles []unit.Angle) (Outline, error) {
	n := len(sides)
	if len(angles) == n {
		sum := 0.0
		for _, a := range angles {
			sum += float64(a)
		}
		if want := float64(n-2) * math.Pi; math.Abs(sum-want) > angleSumTol {
			return Outline{}, &Refusal{Code: AnglesDisagree, Got: unit.Angle(sum).Degrees(), Least: unit.Angle(want).Degrees()}
		}
	}
	if sides[n-1] == 0 {
		return ByCorners(walk(sides, angles, n-1))
	}
	p := walk(sides, angles, n)
	if gap := p[n].Dist(p[0]); gap > closeMM {
		return Outline{}, &Refusal{Code: DoesNotClose, Got: gap}
	}
	return ByCorners(p[:n])
}

// closeByLengths puts the last corner where the last two sides meet, to the
// right of the way back: outside for a counter-clockwise walk.
func closeByLengths(sides []unit.Length, angles []unit.Angle) (Outline, error) {
	n := len(sides)
	p := walk(sides, angles, n-2)
	back := geom.Segment{A: p[n-2], B: p[0]}
	d, a, b := back.Len(), sides[n-2].MM(), sides[n-1].MM()
	if d == 0 || a+b <= d || math.Abs(a-b) >= d {
		return Outline{}, &Refusal{Code: DoesNotClose, Got: math.Max(d-a-b, math.Abs(a-b)-d)}
	}
	along := (d*d + a*a - b*b) / (2 * d) // law of cosines
	out := math.Sqrt(math.Max(0, a*a-along*along))
	u := back.Vec().Unit()
	return ByCorners(append(p, back.A.Add(u.Mul(along)).Sub(u.Perp().Mul(out))))
}
