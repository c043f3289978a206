package base

import (
	"math"

	"bowerwright/geom"
	"bowerwright/layout"
	"bowerwright/unit"
)

// A Kind says what a piece of the base is.
type Kind int

// The kinds. Plates, rings, feet and frame bases may go under the piece; braces
// and wings stand beside it.
const (
	Plate Kind = iota // a sheet
	Ring              // a sheet with an opening
	Feet              // bars across, from front to back
	FrameBase
	Brace // a strut from the back down to a foot
	Wing  // frames hinged to an end that stand at an angle
)

var kindNames = [...]string{"plate", "ring", "feet", "frame base", "rear brace", "wing"}

// String is the name of the kind as it is written on paper.
func (k Kind) String() string {
	if k < 0 || int(k) >= len(kindNames) {
		return ""
	}
	return kindNames[k]
}

// A Piece of the base. Make one with a function of the kind's name, or by hand.
type Piece struct {
	Name      string
	Kind      Kind
	Footprint []geom.Polygon // where it is on the floor; pieces may lie apart
	Hole      geom.Polygon   // an opening in all of them, or none
	Under     bool           // the piece stands on it
	Thickness float64        // mm that it lifts what stands on it
	Mass      unit.Mass
	At        geom.Point // where its weight is
	Up        float64    // height of its weight above the floor, mm
	Carries   bool       // ballast can stand on its footprint
	Fixed     bool       // it does not come off for the van
	SplitAt   *float64   // x where a base in two pieces is joined; nil is one piece
}

// A Board is what a sheet or the boards of a base are like.
type Board struct {
	Thickness float64 // mm
	Density   unit.Density
}

// cubicMetre in mm3: a definition.
const cubicMetre = 1e9

func (b Board) mass(area float64) unit.Mass {
	return unit.Mass(area * b.Thickness / cubicMetre * float64(b.Density))
}

// PlateOf is a plate of a sheet under the piece.
func PlateOf(outline geom.Polygon, b Board) Piece {
	o := outline.CCW()
	return Piece{Kind: Plate, Footprint: []geom.Polygon{o}, Under: true, Thickness: b.Thickness,
		Mass: b.mass(o.Area()), At: o.Centroid(), Up: b.Thickness / 2, Carries: true}
}

// RingOf is a plate with an opening.
func RingOf(outline, hole geom.Polygon, b Board) Piece {
	p := PlateOf(outline, b)
	o, h := p.Footprint[0], hole.CCW()
	p.Kind, p.Hole, p.Mass = Ring, h, b.mass(o.Area()-h.Area())
	p.At = o.Centroid().Mul(o.Area()).Sub(h.Centroid().Mul(h.Area())).Mul(1 / (o.Area() - h.Area()))
	return p
}

// FeetAt are bars under the piece that run from one y to another, each width
// wide about its x; b is their height and density.
func FeetAt(xs []float64, width, from, to float64, b Board) Piece {
	p := Piece{Kind: Feet, Under: true, Thickness: b.Thickness, Up: b.Thickness / 2, Carries: true}
	for _, x := range xs {
		foot := Rectangle(x-width/2, from, width, to-from)
		p.Footprint = append(p.Footprint, foot)
		p.Mass += b.mass(foot.Area())
		p.At = p.At.Add(foot.Centroid().Mul(1 / float64(len(xs))))
	}
	return p
}

// FrameOf is a frame of boards under the piece, deep in plan as given and as
// high as the board is thick; ballast does not stand on it unless it is decked.
func FrameOf(outline geom.Polygon, deep float64, b Board) (Piece, error) {
	hole, err := outline.CCW().Offset(deep)
	if err != nil {
		return Piece{}, err
	}
	p := RingOf(outline, hole, b)
	p.Kind, p.Carries = FrameBase, false
	return p, nil
}

// BraceAt is a strut behind the piece with its foot on the floor: a rectangle
// width wide about x, from one y to another. Its weight sits half way along
// from where it is fixed, at a height on the piece's back at y.
func BraceAt(x, width, from, to, fixedY, fixedUp float64, mass unit.Mass) Piece {
	foot := Rectangle(x-width/2, from, width, to-from)
	return Piece{Kind: Brace, Footprint: []geom.Polygon{foot}, Mass: mass,
		At: geom.Point{X: x, Y: (foot.Centroid().Y + fixedY) / 2}, Up: fixedUp / 2, Carries: true}
}

// WingAt is a plane hinged at a point: length long along the direction, depth
// deep to the left of it, its weight up above the floor.
func WingAt(hinge geom.Point, direction unit.Angle, length, depth float64, mass unit.Mass, up float64) Piece {
	along := geom.Point{X: length}.Rot(float64(direction))
	across := along.Unit().Perp().Mul(depth)
	foot := geom.Polygon{hinge, hinge.Add(along), hinge.Add(along).Add(across), hinge.Add(across)}.CCW()
	return Piece{Kind: Wing, Footprint: []geom.Polygon{foot}, Mass: mass, At: foot.Centroid(), Up: up}
}

// Rectangle is width by depth from its left front corner.
func Rectangle(x, y, width, depth float64) geom.Polygon {
	return geom.Polygon{{X: x, Y: y}, {X: x + width, Y: y}, {X: x + width, Y: y + depth}, {X: x, Y: y + depth}}
}

// RegularFromPoints is a regular outline with n corners, across from the middle
// to each of them, one of them in the direction given.
func RegularFromPoints(middle geom.Point, n int, across float64, direction unit.Angle) geom.Polygon {
	p := make(geom.Polygon, n)
	for i := range p {
		p[i] = middle.Add(geom.Point{X: across}.Rot(float64(direction) + float64(i)*fullTurn/float64(n)))
	}
	return p
}

// A Frame is what the layout does not know of one: how far its front edges lie
// behind the foremost ones, and how deep it is.
type Frame struct{ Front, Depth float64 } // mm

// A Line is where a standing board, a foot or a tip meets the floor or the base.
type Line struct{ From, To, Front, Depth float64 } // mm

func (l Line) rectangle() geom.Polygon {
	return Rectangle(l.From, l.Front, l.To-l.From, l.Depth)
}

// Lines lists where a layout stands, from left to right as its own lists do:
// boards, feet of arches, single corners. Frames are in the layout's order.
func Lines(l layout.Layout, frames []Frame) []Line {
	var out []Line
	add := func(frame int, from, to float64) {
		f := frames[frame]
		out = append(out, Line{from, to, f.Front, f.Depth})
	}
	for _, s := range l.Standing {
		add(s.Frame, s.From, s.To)
	}
	for _, f := range l.Feet {
		add(f.Frame, f.From, f.To)
	}
	for _, t := range l.Tips {
		add(t.Frame, t.X, t.X)
	}
	return out
}

// A Stake holds the base to the ground: sideways, and against being pulled up,
// as much as one like it held in that ground when it was tried.
type Stake struct {
	At             geom.Point
	Sideways, Pull unit.Force
}

// A Base is all that the piece stands on.
type Base struct {
	Pieces []Piece
	Stakes []Stake
}

// A Weight of the base, in plan, Up above the floor.
type Weight struct {
	What string
	Mass unit.Mass
	At   geom.Point
	Up   float64
}

// A Stance is how the whole stands.
type Stance struct {
	Hull    geom.Polygon // the convex hull of all that touches the floor, counter-clockwise
	Lift    float64      // mm that the base lifts the piece
	Weights []Weight     // of the base's pieces, in their order
	Stakes  []Stake
	Lines   []Line
	Deck    []Piece // pieces on which ballast can stand

	// The lines across the floor, as y in mm, on which the piece turns when it
	// is tilted up from lying on its back: Heel by itself, HeelBased with all of
	// the base on that stays on.
	Heel, HeelBased float64
}

// Front is the foremost place of the piece's own feet, as y in mm.
func (s Stance) Front() float64 {
	front := math.Inf(1)
	for _, l := range s.Lines {
		front = min(front, l.Front)
	}
	return front
}

// Back is the rearmost place of the piece's own feet, as y in mm.
func (s Stance) Back() float64 {
	back := math.Inf(-1)
	for _, l := range s.Lines {
		back = max(back, l.Front+l.Depth)
	}
	return back
}

// Stand puts the piece, by the lines on which it stands, on its base. Pieces of
// the base without a sound outline are left out of the Stance.
func (b Base) Stand(lines []Line) (Stance, []Problem) {
	problems := b.check(lines)
	s := Stance{Lines: lines, Stakes: b.Stakes}
	var points geom.Polygon
	under := false
	for _, p := range b.Pieces {
		if !p.sound() {
			continue
		}
		under = under || p.Under
		s.Weights = append(s.Weights, Weight{p.Name, p.Mass, p.At, p.Up})
		for _, f := range p.Footprint {
			points = append(points, f...)
		}
		if p.Under {
			s.Lift = max(s.Lift, p.Thickness)
		}
		if p.Carries {
			s.Deck = append(s.Deck, p)
		}
	}
	s.Heel = s.Back()
	s.HeelBased = s.heelBased(b)
	if !under {
		for _, l := range lines {
			points = append(points, l.rectangle()...)
		}
	}
	s.Hull = Hull(points)
	if len(s.Hull) < 3 {
		problems = append(problems, Problem{Code: NoFoot})
	}
	return s, problems
}

func (s Stance) heelBased(b Base) float64 {
	y := s.Heel
	for _, p := range b.Pieces {
		if p.Fixed {
			for _, f := range p.Footprint {
				y = max(y, f.Box().Max.Y)
			}
		}
	}
	return y
}
