package base

import (
	"fmt"
	"math"

	"bowerwright/geom"
	"bowerwright/snag"
)

// A Code names what is wrong with a base; it never changes once published.
type Code string

// The codes.
const (
	NoFoot    Code = "base-none"     // nothing reaches the floor on more than a line
	BadPiece  Code = "base-shape"    // a footprint whose sides cross, or numbers that are none
	BadMass   Code = "base-mass"     // a piece lighter than nothing
	Overhangs Code = "base-overhang" // a standing board that no piece under it reaches
	BadSplit  Code = "base-split"    // the line of a base in two pieces misses it
	BadStake  Code = "base-stake"    // a stake that holds less than nothing, or away from the base
)

// Snags lists the codes for the docs.
var Snags = []snag.Kind{
	{Code: string(NoFoot), Meaning: "The piece touches the floor on a line only, so that nothing keeps it from going over."},
	{Code: string(BadPiece), Meaning: "A piece of the base has no simple outline."},
	{Code: string(BadMass), Meaning: "A piece of the base weighs less than nothing."},
	{Code: string(Overhangs), Meaning: "A board that the piece stands on has no base under it."},
	{Code: string(BadSplit), Meaning: "The line along which a base is split for the van misses it."},
	{Code: string(BadStake), Meaning: "A stake has no sensible place or hold."},
}

// A Problem is something the user must put right. Piece is the name of a piece
// of the base; Index counts pieces, lines or stakes from 0.
type Problem struct {
	Code  Code
	Piece string
	Index int
	At    geom.Point
}

// Text says what is wrong and what helps, as phrases without a full stop.
func (p Problem) Text() (problem, remedy string) {
	switch p.Code {
	case NoFoot:
		return "the piece touches the floor on a line only", "give it a base, feet, a brace behind it or wings"
	case BadPiece:
		return fmt.Sprintf("the outline of %q is no simple shape", p.Piece), "write its corners in order round it"
	case BadMass:
		return fmt.Sprintf("the weight of %q is no sensible number", p.Piece), "write a weight of 0 or more"
	case Overhangs:
		return "a board that the piece stands on has no base under it", "make the base wider or move it under the board"
	case BadSplit:
		return fmt.Sprintf("the line that splits %q misses it", p.Piece), "write a place between its left and its right end"
	}
	return fmt.Sprintf("stake %d has no sensible place or hold", p.Index+1), "write where it is, and what one like it held when it was tried"
}

func (b Base) check(lines []Line) (problems []Problem) {
	for i, p := range b.Pieces {
		problems = append(problems, p.check(i)...)
	}
	for i, l := range lines {
		if b.hasUnder() && !b.carries(l) {
			problems = append(problems, Problem{Code: Overhangs, Index: i, At: l.rectangle().Centroid()})
		}
	}
	for i, s := range b.Stakes {
		if !(s.Pull >= 0 && s.Sideways >= 0) || !finite(s.At.X+s.At.Y+float64(s.Pull+s.Sideways)) {
			problems = append(problems, Problem{Code: BadStake, Index: i, At: s.At})
		}
	}
	return problems
}

func (p Piece) check(i int) (problems []Problem) {
	fail := func(c Code) { problems = append(problems, Problem{Code: c, Piece: p.Name, Index: i, At: p.At}) }
	if !p.sound() {
		fail(BadPiece)
		return problems
	}
	if !(p.Mass >= 0) || !finite(float64(p.Mass)) {
		fail(BadMass)
	}
	if p.SplitAt != nil && !p.splits(*p.SplitAt) {
		fail(BadSplit)
	}
	return problems
}

func (p Piece) splits(x float64) bool {
	for _, f := range p.Footprint {
		if left, right := Halves(f, x); left != nil && right != nil {
			return true
		}
	}
	return false
}

func (p Piece) sound() bool {
	if len(p.Footprint) == 0 || !finite(p.At.X+p.At.Y+p.Up+p.Thickness) {
		return false
	}
	for _, f := range p.Footprint {
		for _, c := range f {
			if !finite(c.X + c.Y) {
				return false
			}
		}
		if !f.IsSimple() {
			return false
		}
	}
	return true
}

func (b Base) hasUnder() bool {
	for _, p := range b.Pieces {
		if p.Under {
			return true
		}
	}
	return false
}

// carries says whether some piece under the set piece lies under a part of a
// standing line; a tip needs it at its own place.
func (b Base) carries(l Line) bool {
	const tip = 1 // mm: a corner on the floor is taken to be so wide
	if l.To-l.From < tip {
		mid := (l.From + l.To) / 2
		l.From, l.To = mid-tip/2.0, mid+tip/2.0
	}
	for _, p := range b.Pieces {
		for _, f := range p.Footprint {
			if p.Under && p.sound() && meet(f, l.rectangle()) {
				return true
			}
		}
	}
	return false
}

func finite(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }
