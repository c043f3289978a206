package frame

import (
	"math"

	"bowerwright/geom"
	"bowerwright/unit"
)

// ByCorners is any simple polygon by its corners in mm, in either sense, as it
// stands. It is numbered anew from the side it stands on.
func ByCorners(corners []geom.Point) (Outline, error) {
	return newOutline(corners, false, false)
}

// OpenByCorners is an open outline by its corners in mm from one foot to the
// other, in either sense. The feet are level and nothing is lower.
func OpenByCorners(corners []geom.Point, squareFeet bool) (Outline, error) {
	return newOutline(corners, true, squareFeet)
}

// Rectangle is a rectangle by its outside width and height.
func Rectangle(width, height unit.Length) (Outline, error) {
	if err := checkMeasures(measure{"width", width}, measure{"height", height}); err != nil {
		return Outline{}, err
	}
	w, h := width.MM(), height.MM()
	return ByCorners([]geom.Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}})
}

// Diamond is a diamond on its corner by its overall width and height.
func Diamond(width, height unit.Length) (Outline, error) {
	return Kite(width, height/2, height-height/2)
}

// DiamondFromSide is a diamond on its corner by its side and the inside angle
// at its foot, between 0 and 180°.
func DiamondFromSide(side unit.Length, foot unit.Angle) (Outline, error) {
	if err := checkMeasure("side", side); err != nil {
		return Outline{}, err
	}
	if foot <= 0 || foot >= math.Pi {
		return Outline{}, &Refusal{Code: BadMeasure, What: "the angle at the foot, in degrees,", Got: foot.Degrees(), Most: 180}
	}
	s, c := math.Sincos(float64(foot) / 2)
	return kite(side.MM()*s, side.MM()*c, side.MM()*c)
}

// Kite is a kite on its corner by its width, the height of its widest level
// over its foot (lower), and of its top over that level (upper).
func Kite(width, lower, upper unit.Length) (Outline, error) {
	err := checkMeasures(measure{"width", width}, measure{"lower height", lower}, measure{"upper height", upper})
	if err != nil {
		return Outline{}, err
	}
	return kite(width.MM()/2, lower.MM(), upper.MM())
}

func kite(half, lower, upper float64) (Outline, error) {
	return ByCorners([]geom.Point{{}, {X: half, Y: lower}, {Y: lower + upper}, {X: -half, Y: lower}})
}

// House is a house outline by its width, the height of its eaves and of its
// ridge over the floor.
func House(width, eaves, ridge unit.Length) (Outline, error) {
	err := checkMeasures(measure{"width", width}, measure{"eaves height", eaves}, measure{"ridge height", ridge})
	if err != nil {
		return Outline{}, err
	}
	if ridge <= eaves {
		return Outline{}, &Refusal{Code: BadMeasure, What: "ridge height", Got: ridge.MM(), Least: eaves.MM(), Most: MostMeasure.MM()}
	}
	w, e := width.MM()/2, eaves.MM()
	return ByCorners([]geom.Point{{X: -w}, {X: w}, {X: w, Y: e}, {Y: ridge.MM()}, {X: -w, Y: e}})
}

// HalfHexagon is the upper half of a hexagon on the floor, by its Side or its
// Width (two sides). Closed, its long side is a board; open, two slopes and a
// level top stand on feet cut to the floor.
func HalfHexagon(by Measure, size unit.Length, open bool) (Outline, error) {
	if err := checkMeasure(by.String(), size); err != nil {
		return Outline{}, err
	}
	side := size.MM()
	switch by {
	case Side:
	case Width:
		side /= 2
	default:
		return Outline{}, &Refusal{Code: NoSuchSize, What: by.String(), Got: size.MM(),
			Meanings: []Meaning{{Side, side}, {Width, side / 2}}}
	}
	rise := side * math.Sqrt(3) / 2
	p := geom.Polygon{{X: side}, {X: side / 2, Y: rise}, {X: -side / 2, Y: rise}, {X: -side}}
	return newOutline(p, open, false)
}

// LongHexagon is a hexagon on its corner drawn out in height: two uprights,
// four equal slopes, by its width, its height and the length of the uprights.
func LongHexagon(width, height, uprights unit.Length) (Outline, error) {
	err := checkMeasures(measure{"width", width}, measure{"height", height}, measure{"uprights", uprights})
	if err != nil {
		return Outline{}, err
	}
	if uprights >= height {
		return Outline{}, &Refusal{Code: BadMeasure, What: "uprights", Got: uprights.MM(), Most: height.MM()}
	}
	w, h, u := width.MM()/2, height.MM(), uprights.MM()
	slope := (h - u) / 2
	return ByCorners([]geom.Point{{}, {X: w, Y: slope}, {X: w, Y: slope + u}, {Y: h}, {X: -w, Y: slope + u}, {X: -w, Y: slope}})
}
