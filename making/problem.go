package making

import (
	"fmt"
	"math"

	"bowerwright/snag"
	"bowerwright/unit"
)

// A Code names what is wrong; it never changes once published.
type Code string

// The codes, with the fields of Problem that go with each.
const (
	TooCold       Code = "making-glue-cold"      // Room °C in the shop, Need °C wanted by the glue
	OpenShort     Code = "making-open-short"     // Kind: Room minutes of open time, Need to close what must be closed together; Hands would do
	BeyondLimit   Code = "making-method-limit"   // Kind: Method asked for, What is Room and may be Need
	NoTruing      Code = "making-halves-uneven"  // Kind: halves asked for; no two opposite mitres lie in one line
	BradRoom      Code = "making-brad-room"      // Kind, Corner: no brad of those at hand sits in both parts
	BlockFlat     Code = "making-block-flat"     // Kind, Corner: Room thick, a block wants Need
	BlockBevel    Code = "making-block-bevel"    // Kind, Corner: the bevel would be Room degrees, Need at the most
	PlateRoom     Code = "making-plate-room"     // Kind, Corner: Room long is what fits, the shortest plate is Need
	SplineRoom    Code = "making-spline-room"    // Kind, Corner: Room there is, front to back or in from the tip by What, a spline wants Need
	CornerRound   Code = "making-corner-round"   // Kind: Choice in a ring that is sawn round
	StraightShort Code = "making-straight-short" // Room is at hand, Need wanted
	NoneStands    Code = "making-none-stands"    // no side of any frame is on the floor
	LaysApart     Code = "making-lays-apart"     // Frame: no seam joins it to what lies already
)

// Snags lists the codes for the docs.
var Snags = []snag.Kind{
	{Code: string(TooCold), Meaning: "The shop is colder than the glue allows."},
	{Code: string(OpenShort), Meaning: "The glue's open time is over before the joints that must be closed together are closed."},
	{Code: string(BeyondLimit), Meaning: "A way of gluing was asked for that the frame is too big or not made for."},
	{Code: string(NoTruing), Meaning: "Two halves were asked for, but no two opposite mitres of the frame lie in one line."},
	{Code: string(BradRoom), Meaning: "No brad sits in both parts of a corner without splitting the tip or coming out."},
	{Code: string(BlockFlat), Meaning: "A frame is too thin from front to back for corner blocks."},
	{Code: string(BlockBevel), Meaning: "A corner block would need a bevel that is steeper than is ripped."},
	{Code: string(PlateRoom), Meaning: "The boards are too narrow for a plate across the corner."},
	{Code: string(SplineRoom), Meaning: "A corner has no room for a spline: the frame is too thin from front to back, or its sides are too short."},
	{Code: string(CornerRound), Meaning: "Brads, corner blocks or splines are asked for in a ring that is sawn round, where the saw would go through them."},
	{Code: string(StraightShort), Meaning: "The standing sides are longer than the longest known-straight length in the shop."},
	{Code: string(NoneStands), Meaning: "No side stands on the floor, so that no straight length can be clamped to it."},
	{Code: string(LaysApart), Meaning: "No seam joins a frame to those that lie already."},
}

// A Problem is something to put right. Unused fields are zero.
type Problem struct {
	Code   Code
	Kind   string // name of the kind
	Frame  string // ID of a placed frame
	Corner int
	Method Method
	What   Measured
	Choice Corner
	Room   float64 // what there is: mm, minutes, °C or degrees
	Need   float64
	Hands  int
}

// Stops says whether the frames cannot be made until it is put right; the
// others have a way round, which is in the text.
func (p Problem) Stops() bool {
	switch p.Code {
	case StraightShort, NoneStands, LaysApart:
		return false
	}
	return true
}

// Text says what is wrong and what helps, as phrases without a full stop. Style
// is that of its lengths.
func (p Problem) Text(style unit.Style) (problem, remedy string) {
	room, need := words(p.Room, style), words(p.Need, style)
	switch p.Code {
	case TooCold:
		return fmt.Sprintf("the shop is at %s and the glue wants %s", degreesC(p.Room), degreesC(p.Need)),
			"warm the shop, the boards and the glue, or take a glue for the cold"
	case OpenShort:
		return fmt.Sprintf("the glue stays open for %s min and what must be closed together takes %s min", tenth(p.Room), tenth(p.Need)),
			fmt.Sprintf("have %d people at the glue, take a slower glue, or choose another way of gluing", p.Hands)
	case BeyondLimit:
		return p.beyond(style), "choose another way of gluing, or leave the choice open"
	case NoTruing:
		return "no two opposite mitres lie in one line, so that two halves cannot be trued", "choose another way of gluing, or leave the choice open"
	case BradRoom:
		return "no brad at hand sits in both parts of the corner without splitting its tip or coming out", "use splines, corner blocks, or glue alone"
	case BlockFlat:
		return "the frame is " + room + " from front to back and a corner block wants " + need, "use plates or splines"
	case BlockBevel:
		return fmt.Sprintf("a corner block would be bevelled by %s° and %s° is the most", tenth(p.Room), tenth(p.Need)), "use plates or splines"
	case PlateRoom:
		return "there is room for a plate " + room + " long across the corner and the shortest is " + need, "use corner blocks or splines"
	case SplineRoom:
		return fmt.Sprintf("a spline has %s %s and wants %s", room, p.What, need), "use plates, corner blocks, or glue alone"
	case CornerRound:
		return fmt.Sprintf("a ring that is sawn round takes no %s: the saw goes through them", itemOf(p.Choice)), "use plates, layers, or glue alone"
	case StraightShort:
		return "the standing sides are " + need + " long and the longest straight length is " + room,
			"lay two straight lengths end to end against a taut string, or make one of two sheets' factory edges"
	case NoneStands:
		return "no side stands on the floor", "start from the chalked base line instead of a straight length"
	}
	return "no seam joins it to what lies already", "place it by the chalk plan"
}

func (p Problem) beyond(style unit.Style) string {
	if p.What.count() {
		return fmt.Sprintf("%s: %s %d, at most %d", p.Method, p.What, int(p.Room), int(p.Need))
	}
	if !p.What.measure() {
		return fmt.Sprintf("%s: %s", p.Method, p.What)
	}
	return fmt.Sprintf("%s: %s %s, at most %s", p.Method, p.What, words(p.Room, style), words(p.Need, style))
}

func words(mm float64, style unit.Style) string {
	l, _ := unit.FromMM(mm, unit.Nanometre, unit.Nearest)
	return unit.Format(l, style)
}

func tenth(x float64) string { return fmt.Sprintf("%g", math.Round(x*10)/10) }

func degreesC(t float64) string { return tenth(t) + " °C (" + tenth(t*9/5+32) + " °F)" }
