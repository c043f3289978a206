package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// A Fit says how straight segments follow a circle.
type Fit int

// The fits.
const (
	CornersOn Fit = iota // outside corners on the circle
	FlatsOn              // outside flats touch the circle from outside
)

// HalfRound is a half-circle arch of n equal segments on the floor. size is
// the circle's diameter; with CornersOn the feet stand that far apart. Every
// joint is set to 90/n degrees; feet cut to the floor come to the same.
func HalfRound(n int, size unit.Length, fit Fit, squareFeet bool) (Outline, error) {
	if err := checkCount(n, 2); err != nil {
		return Outline{}, err
	}
	if err := checkMeasure("diameter of the circle", size); err != nil {
		return Outline{}, err
	}
	r := size.MM() / 2
	if fit == FlatsOn {
		r /= math.Cos(math.Pi / float64(2*n))
	}
	return newOutline(halfCircle(n, r, 0), true, squareFeet)
}

// halfCircle gives n+1 corners from right to left at radius r about a centre
// y mm over the floor.
func halfCircle(n int, r, y float64) geom.Polygon {
	p := make(geom.Polygon, n+1)
	for i := range p {
		s, c := math.Sincos(math.Pi * float64(i) / float64(n))
		p[i] = geom.Point{X: r * c, Y: y + r*s}
	}
	p[0].Y, p[n].Y = y, y // the sine of π is not quite 0
	return p
}

// ArchOnLegs is an arch of n equal segments on two upright legs, by its
// outside width and the outside length of a leg. With CornersOn the corners
// lie on the half circle over the legs: the joints at the legs are set to
// 45/n, the others to 90/n degrees. With FlatsOn the legs run into the circle
// as its first flats: every joint is set to 90/(n+1) degrees.
func ArchOnLegs(width, leg unit.Length, n int, fit Fit) (Outline, error) {
	if err := checkCount(n, 1); err != nil {
		return Outline{}, err
	}
	if err := checkMeasures(measure{"width", width}, measure{"leg", leg}); err != nil {
		return Outline{}, err
	}
	r, h := width.MM()/2, leg.MM()
	p := geom.Polygon{{X: r}}
	if fit == CornersOn {
		p = append(p, halfCircle(n, r, h)...)
	} else {
		p = append(p, flatsOver(n, r, h)...)
	}
	return newOutline(append(p, geom.Point{X: -r}), true, false)
}

// flatsOver gives the n+1 corners of n flats touching a circle of radius r
// that upright legs touch too; the first corner is h mm over the floor.
func flatsOver(n int, r, h float64) geom.Polygon {
	step := math.Pi / float64(n+1)
	centre := h - r*math.Tan(step/2)
	far := r / math.Cos(step/2)
	p := make(geom.Polygon, n+1)
	for i := range p {
		s, c := math.Sincos(step * (float64(i) + 0.5))
		p[i] = geom.Point{X: far * c, Y: centre + far*s}
	}
	p[0], p[n] = geom.Point{X: r, Y: h}, geom.Point{X: -r, Y: h}
	return p
}

// A RoundRing is a ring of straight blanks that is sawn round afterwards.
type RoundRing struct {
	Blanks          Outline     // the segments before sawing round, Board wide in the plane
	Outside, Inside unit.Length // diameters as sawn round
	Board           unit.Length // width of the blanks
	LeastBoard      float64     // the narrowest board that holds the ring, mm
	WholeWidth      float64     // outside length of a blank that uses all of the board outwards, mm
	Area            unit.Area   // of the ring as sawn round
}

// RingSawnRound is a ring of n segments sawn from boards of the given width,
// by its diameters after sawing. The outside arc's middle and the inside arc's
// ends bound a segment, so a board must be at least R - r cos(π/n) wide. The
// shortest blank that covers touches the outside circle: its outside length is
// 2 R tan(π/n), taken up to the mark, so that a rounded one covers too. One with
// its inside corners on the inside circle uses all of the board outwards and is
// the longest, 2 (r cos(π/n) + board) tan(π/n) (plane trigonometry). Of very
// wide boards the blanks end half way in, see halfIn.
func RingSawnRound(n int, outside, inside, board, mark unit.Length, stance Stance) (RoundRing, error) {
	if err := checkCount(n, 3); err != nil {
		return RoundRing{}, err
	}
	err := checkMeasures(measure{"outside diameter", outside}, measure{"inside diameter", inside}, measure{"board width", board})
	if err != nil {
		return RoundRing{}, err
	}
	if inside >= outside {
		return RoundRing{}, &Refusal{Code: BadMeasure, What: "inside diameter", Got: inside.MM(), Most: outside.MM()}
	}
	R, r, c := outside.MM()/2, inside.MM()/2, math.Cos(math.Pi/float64(n))
	ring := RoundRing{
		Outside: outside, Inside: inside, Board: board, LeastBoard: R - r*c,
		Area: unit.Area(math.Pi * (R*R - r*r)),
	}
	if board.MM() < ring.LeastBoard-sameMM {
		return RoundRing{}, &Refusal{Code: BoardTooNarrow, Got: board.MM(), Least: ring.LeastBoard}
	}
	t := 2 * math.Tan(math.Pi/float64(n))
	ring.WholeWidth = (r*c + board.MM()) * t
	least := max(R*t, (r*c*halfIn+board.MM())*t)
	if up, ok := unit.FromMM(least, mark, unit.Up); ok {
		least = up.MM()
	}
	ring.Blanks, err = newOutline(regularCorners(n, min(least, ring.WholeWidth)/t/c, stance), false, false)
	return ring, err
}

// halfIn, a share of the way from the middle to where the hole must be, is how
// far in blanks go at the most: nearer to the middle boards would fill the ring,
// and blanks have no inside edge to be laid out by.
const halfIn = 0.5

// Sagitta is how far inside its corner circle the middle of each side of a
// regular polygon of n sides lies, mm: what the eye sees of a ring left
// straight-sided.
func Sagitta(n int, diameter unit.Length) float64 {
	return diameter.MM() / 2 * (1 - math.Cos(math.Pi/float64(n)))
}
