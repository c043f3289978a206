package stand

import (
	"math"

	"bowerwright/base"
	"bowerwright/geom"
	"bowerwright/unit"
)

// A HandsProblem says why hands cannot carry.
type HandsProblem string

// The problems.
const (
	HandsOut  HandsProblem = "the weight lies outside the hands"
	HandsLine HandsProblem = "the hands are in one line and the weight is not: it turns over"
	NoHands   HandsProblem = "nobody holds it"
)

// Error makes a problem an error.
func (p HandsProblem) Error() string { return string(p) }

// Hands shares the weight of a rigid, level piece among hands that all give
// alike: N for each, none of them below 0. The middle of the weight must lie
// within the hull of the hands; when they are all in one line, or one is alone,
// within even mm of it. At the very edge, within a tenth of a millimetre, it may
// be refused.
//
// The hands' loads are those of equal springs under a rigid plate, which are the
// ones with the least sum of squares: load = a + b x + c y at each hand that
// carries, and where that would be below 0, nothing.
func Hands(hands []geom.Point, middle geom.Point, weight unit.Force, even float64) ([]unit.Force, error) {
	if len(hands) == 0 {
		return nil, NoHands
	}
	p := newPlate(hands, middle, even)
	if p.flat() {
		p.straighten()
	}
	if err := p.holds(); err != nil {
		return nil, err
	}
	plane, ok := p.rest()
	if !ok {
		return nil, HandsOut
	}
	return p.loads(plane, weight), nil
}

// A plate has its hands about the middle of their own, along the axes of their
// spread, u the long one, in units of that spread.
type plate struct {
	hands  []geom.Point
	middle geom.Point // of the weight
	even   float64    // how far off a line counts as on it
	line   bool       // all hands are in one line along u
}

func newPlate(hands []geom.Point, middle geom.Point, even float64) *plate {
	var at geom.Point
	for _, h := range hands {
		at = at.Add(h.Mul(1 / float64(len(hands))))
	}
	xx, xy, yy := 0.0, 0.0, 0.0
	for _, h := range hands {
		d := h.Sub(at)
		xx, xy, yy = xx+d.X*d.X, xy+d.X*d.Y, yy+d.Y*d.Y
	}
	turn, size := -math.Atan2(xy+xy, xx-yy)/2, math.Sqrt(xx+yy)
	if size == 0 {
		size = 1
	}
	p := &plate{even: even / size, middle: middle.Sub(at).Rot(turn).Mul(1 / size)}
	for _, h := range hands {
		p.hands = append(p.hands, h.Sub(at).Rot(turn).Mul(1/size))
	}
	return p
}

// flat says whether all hands are within even of the long axis.
func (p *plate) flat() bool {
	for _, h := range p.hands {
		if math.Abs(h.Y) > p.even {
			return false
		}
	}
	return true
}

func (p *plate) straighten() {
	p.line = true
	for i := range p.hands {
		p.hands[i].Y = 0
	}
}

func (p *plate) holds() error {
	if !p.line {
		if hull := base.Hull(p.hands); hull == nil || !hull.Contains(p.middle) {
			return HandsOut
		}
		return nil
	}
	if math.Abs(p.middle.Y) > p.even {
		return HandsLine
	}
	p.middle.Y = 0
	left, right := p.hands[0].X, p.hands[0].X
	for _, h := range p.hands {
		left, right = math.Min(left, h.X), math.Max(right, h.X)
	}
	if p.middle.X < left-p.even || p.middle.X > right+p.even {
		return HandsOut
	}
	p.middle.X = math.Min(right, math.Max(left, p.middle.X))
	return nil
}

// rest finds the plane a + b u + c v, as shares of the weight, whose positive
// part at the hands balances it. That plane makes
//
//	1/2 sum of (positive part)2 - (a + b u + c v at the middle of the weight)
//
// least, which is convex and once differentiable: Newton steps over the hands
// that carry, each with an exact line search, do not cycle. It is false when the
// loads do not come to balance, as with a weight a hair outside the hands.
func (p *plate) rest() (plane triple, ok bool) {
	plane = triple{1 / float64(len(p.hands))}
	for range maxSteps {
		slope, bend := p.slopes(plane)
		if slope.dot(slope) < balanced*balanced {
			return plane, true
		}
		step := bend.solve(slope.times(-1))
		plane = plane.plus(step.times(p.along(plane, step)))
	}
	slope, _ := p.slopes(plane)
	return plane, slope.dot(slope) < nearly*nearly
}

func (p *plate) loads(plane triple, weight unit.Force) []unit.Force {
	out := make([]unit.Force, len(p.hands))
	for i, h := range p.hands {
		out[i] = weight * unit.Force(math.Max(0, plane.dot(triple{1, h.X, h.Y})))
	}
	return out
}

// maxSteps is far above the handful that the search takes; balanced is a share
// of the weight above the rounding of its sums; nearly is what is taken when two
// hands are so near each other that rounding does not come so far: a hundredth
// of a gram on ten kilograms.
const (
	maxSteps = 100
	balanced = 1e-11
	nearly   = 1e-6
)

// slopes are the first and second derivatives.
func (p *plate) slopes(plane triple) (triple, matrix) {
	slope := triple{-1, -p.middle.X, -p.middle.Y}
	bend := matrix{}
	for i := range bend { // an axis that no hand holds, as across a line of them
		bend[i][i] = balanced
	}
	for _, h := range p.hands {
		at := triple{1, h.X, h.Y}
		if load := plane.dot(at); load > 0 {
			slope = slope.plus(at.times(load))
			for i := range bend {
				bend[i] = bend[i].plus(at.times(at[i]))
			}
		}
	}
	return slope, bend
}

// along is how far to go along a step: where the slope along it is 0. The slope
// rises, so doubling brackets the place and halving finds it.
func (p *plate) along(plane, step triple) float64 {
	rises := func(t float64) bool {
		slope, _ := p.slopes(plane.plus(step.times(t)))
		return slope.dot(step) > balanced*balanced
	}
	if !rises(1) {
		return 1
	}
	lo, hi := 0.0, 1.0
	for range maxSteps / 2 { // to a float's grain
		if mid := (lo + hi) / 2; rises(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

type triple [3]float64
type matrix [3]triple

func (a triple) dot(b triple) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a triple) plus(b triple) triple { return triple{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a triple) times(k float64) triple {
	return triple{a[0] * k, a[1] * k, a[2] * k}
}
func (a triple) cross(b triple) triple {
	return triple{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// solve by Cramer's rule; the matrix is symmetric and positive.
func (m matrix) solve(b triple) triple {
	det := m[0].dot(m[1].cross(m[2]))
	return triple{b.dot(m[1].cross(m[2])), m[0].dot(b.cross(m[2])), m[0].dot(m[1].cross(b))}.times(1 / det)
}
