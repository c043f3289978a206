package fixing

import (
	"bowerwright/geom"
	"bowerwright/snag"
	"bowerwright/unit"
)

// A Code names what is wrong with a seam; it never changes once published.
type Code string

// The codes, with the fields of Problem that go with each.
const (
	NoScrew  Code = "fixing-screw-missing" // no screw of the thicknesses asked for is at hand
	TooShort Code = "fixing-seam-short"    // Room is there between the mitres, Need is wanted
	TooThin  Code = "fixing-edge-near"     // Room is there between front and back, Need is wanted
	NoLength Code = "fixing-no-length"     // no length both holds and stays in; Room between first board and keeping
	NoReach  Code = "fixing-no-reach"      // no driver reaches the head on either side; Room, Need
	Crossing Code = "fixing-paths-meet"    // its path would meet another seam's wherever it is put; Other
	Uneven   Code = "fixing-flat-uneven"   // flat frames of unlike thickness: the plate does not lie; Room is the step
	NoPlate  Code = "fixing-plate-wide"    // no plate or batten is narrow enough; Room
	NoBore   Code = "fixing-bore-wide"     // too thin for a counterbore; Room, Need
	NoBolt   Code = "fixing-bolt-missing"  // no bolt of a fitting length; Need
	NoRows   Code = "fixing-rows"          // two rows are asked for where plates or battens lie on the backs
	NoFrame  Code = "fixing-hook-frame"    // a hook is asked for at a frame or side that is not there
	NoHook   Code = "fixing-hook-room"     // hooks asked for at a side that has no room for them, or, with Room and Need, too thin for their thread
)

// Snags lists the codes for the docs.
var Snags = []snag.Kind{
	{Code: string(NoScrew), Meaning: "No screw of the thicknesses asked for is at hand."},
	{Code: string(TooShort), Meaning: "A seam is too short for two screws clear of the mitres."},
	{Code: string(TooThin), Meaning: "The boards of a seam are too narrow from front to back for the fastener."},
	{Code: string(NoLength), Meaning: "No screw at hand holds in the second board without coming out of it."},
	{Code: string(NoReach), Meaning: "No driver reaches the heads of a seam from either side."},
	{Code: string(Crossing), Meaning: "The screws of a seam would meet those of another."},
	{Code: string(Uneven), Meaning: "Two flat frames differ in thickness, so that no plate lies flat on both."},
	{Code: string(NoPlate), Meaning: "The boards of a flat frame are too narrow for a plate or a batten."},
	{Code: string(NoBore), Meaning: "The boards of a flat frame are too thin for counterbored bolts."},
	{Code: string(NoBolt), Meaning: "No bolt at hand has a fitting length."},
	{Code: string(NoRows), Meaning: "Two rows of screws are asked for at a seam of two flat frames, which has plates or battens."},
	{Code: string(NoFrame), Meaning: "A hook is asked for at a frame or side that is not there."},
	{Code: string(NoHook), Meaning: "A side cannot take the hooks asked for."},
}

// A Problem is a seam that cannot be fixed, or a hook that cannot be put in.
// Unused fields are zero.
type Problem struct {
	Code   Code
	Seam   int       // its number; 0 for a hook
	Frames [2]string // IDs of its frames; only the first for a hook
	Side   int       // of a hook
	Bolts  bool      // it was to be bolts
	Flat   bool      // of two flat frames
	Rows   bool      // in two rows
	At     geom.Point
	Other  int // the number of another seam
	Room   float64
	Need   float64
}

// Text says what is wrong and what helps, as phrases without a full stop. Style
// is that of its lengths.
func (p Problem) Text(style unit.Style) (problem, remedy string) {
	room, need := words(p.Room, style), words(p.Need, style)
	switch p.Code {
	case NoScrew:
		return "no screw of the thicknesses asked for is at hand", "name a thickness that is in the catalogue, or add lengths"
	case TooShort:
		return "there is " + room + " between the mitres and two " + p.things() + " want " + need, p.shorter()
	case TooThin:
		return "the boards share " + room + " from front to back and the fastener wants " + need, p.thinner()
	case NoLength:
		return "no screw at hand holds in the second board without coming out", "add a length between those at hand, or use bolts"
	case NoReach:
		return p.unreached(room, need)
	case Crossing:
		return "the screws or plates would meet those of another seam", "use thinner screws, or move one of the frames"
	case Uneven:
		return "the backs of the two frames are " + room + " apart", "pack the thinner one out, or use counterbored bolts"
	case NoPlate:
		return "the narrower frame gives " + room + " beside the seam and a plate or batten wants " + need, "use wider boards or counterbored bolts"
	case NoBore:
		return "the boards are " + room + " thick and a counterbore wants " + need, "use plates or battens"
	case NoBolt:
		return "no bolt at hand is about " + need + " long", "add one to the catalogue, or use screws"
	case NoRows:
		return "two flat frames are joined on their backs, where there are no rows through the depth", "leave two rows out, or take bolts"
	case NoFrame:
		return "there is no such side", "name a frame of the layout and one of its sides"
	}
	if p.Need > 0 {
		return "the boards are " + room + " from front to back and the thread of a hook wants " + need, "hang from a frame of wider boards, or of boards on edge"
	}
	return "the side has no room for the hooks asked for", "ask for fewer, or for another side"
}

// things are what was to be driven.
func (p Problem) things() string {
	if p.Bolts {
		return "bolts"
	}
	return "screws"
}

// instead is what there is instead of bolts.
func (p Problem) instead() string {
	if p.Flat {
		return "plates or battens"
	}
	return "screws"
}

func (p Problem) shorter() string {
	switch {
	case p.Rows:
		return "leave two rows out, or lay a longer side here"
	case p.Bolts:
		return "choose one bolt for this seam, or " + p.instead()
	case p.Flat:
		return "use a thinner screw or counterbored bolts, or lay a longer side here"
	}
	return "use a thinner screw, or choose a single screw for this seam"
}

func (p Problem) thinner() string {
	switch {
	case p.Rows:
		return "leave two rows out, or use wider boards"
	case p.Bolts:
		return "use " + p.instead() + ", or wider boards"
	}
	return "use a thinner screw or wider boards"
}

func (p Problem) unreached(room, need string) (problem, remedy string) {
	if p.Bolts {
		return "there is " + room + " in front of the head or the nut, and the bolt wants " + need + " to be pushed in",
			"fix this seam before the frame inside goes in, or use " + p.instead()
	}
	return "the heads have " + room + " in front of them and the shortest driver wants " + need,
		"use a shorter bit or a right-angle head, fix this seam before the frame inside goes in, or use bolts"
}

func words(mm float64, style unit.Style) string {
	l, _ := unit.FromMM(mm, unit.Nanometre, unit.Nearest)
	return unit.Format(l, style)
}

// A Note is a warning that goes with a fixed seam.
type Note string

// The notes.
const (
	Pivot      Note = "pivot"            // a single screw is a pivot
	Outside    Note = "outside-standard" // penetration under 6 diameters
	NearMitre  Note = "near-mitre"       // nearer to the mitre than advised
	NearEdge   Note = "near-edge"        // a bolt nearer to the edge than advised
	TwoAcross  Note = "two-across"       // the side is too short for two along
	Thinner    Note = "thinner-screw"    // not the thickness preferred
	Slanted    Note = "slanted"
	NeedsAngle Note = "right-angle-head"
	Visible    Note = "visible"  // some eye sees a head
	Mixed      Note = "mixed"    // a flat board beside one on edge
	Redriven   Note = "redriven" // screws in a seam that is closed anew
	NoPegs     Note = "no-pegs"  // no room for two locating pegs
	Moved      Note = "moved"    // moved out of the way of others, or to where a driver reaches
)

// Text says a note as a sentence.
func (n Note) Text() string { return noteTexts[n] }

var noteTexts = map[Note]string{
	Pivot:      "A single screw or bolt is a pivot: the frames can turn about it.",
	Outside:    "Outside the standard: NDS wants a penetration of 6 diameters (second-hand).",
	NearMitre:  "Nearer to the mitre than advised where it is pulled along the board: drill the full pilot, drive slowly.",
	NearEdge:   "The bolt is nearer to the edge than advised where it is loaded towards it.",
	TwoAcross:  "The side is too short for two screws along it: they sit one behind the other, which holds about 0.85 of two along.",
	Thinner:    "A thinner screw than preferred, so that it keeps clear of edges and mitres.",
	Slanted:    "Driven at a slant: start the hole square, then tip the drill; check the point.",
	NeedsAngle: "Takes a right-angle head.",
	Visible:    "Some heads are seen: fill them or dress over them.",
	Mixed:      "The screw goes through the board on edge into the edge of the flat one.",
	Redriven:   "A screw driven again into its old hole holds less: take bolts or inserts where the piece goes up often.",
	NoPegs:     "No room for two locating pegs: mark both sides.",
	Moved:      "Not where it would usually be: moved clear of another seam's fasteners, or to where the driver reaches.",
}
