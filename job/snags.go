package job

import (
	"fmt"

	"bowerwright/snag"
)

// What Plan may find to put right: what only shows when shapes are drawn, laid
// out and cut. What can be told from the text alone is jobfile's.
var (
	snagTimberMissing = define("timber-missing", "The job names no boards.")
	snagTimberSize    = define("timber-size", "Boards are thicker than they are wide: the two measures are swapped.")
	snagTimberLength  = define("timber-length", "The boards have no length as bought.")
	snagTimberTrim    = define("timber-trim", "Trimming the ends leaves nothing of a board.")
	snagCurrency      = define("timber-currency", "The boards of one timber have prices in several currencies.")
	snagPrice         = define("timber-price", "Some boards of a timber have a price and others that would have to be bought have none.")
	snagShort         = define("boards-short", "The boards to be had do not hold all parts.")
	snagFrames        = define("frames-missing", "The job places no frame.")
	snagShape         = define("shape-refused", "A shape cannot be made from its measures.")
	snagBoardTooDeep  = define("board-too-deep", "The boards fill the shape: there is no inside left.")
	snagRingBoard     = define("ring-board-narrow", "The board is too narrow for a ring that is sawn round.")
	snagWrongFace     = define("wrong-face", "A mirrored frame of flat boards with one good face would show the other face.")
	snagRoundSide     = define("round-side", "A line of the layout uses a side of a ring that is sawn round.")
	snagFamily        = define("family-ratio", "Frames called a family are in no whole-number ratio.")
	snagFamilyTwice   = define("family-twice", "A kind of frame stands in two families.")
	snagLayout        = define("layout-side", "A line of the layout names a side or a corner that its frame has not.")
	snagCycle         = define("layout-cycle", "Frames are attached to each other in a ring, and none of them to a placed one.")
	snagLoop          = define("layout-loop-open", "A frame cannot lie against two others as the job says: the loop does not close.")
	snagOverlap       = define("layout-overlap", "Two frames are in the same place.")
	snagUncuttable    = define("part-uncuttable", "A part cannot be sawn from the boards, or not with enough left to hold.")
	snagMark          = define("tape-mark", "The finest mark of the tape is none that lengths are written to.")
	snagTestCorner    = define("test-corner-reading", "The reading of the test corner cannot be right.")
)

// Snags lists every kind of snag that Plan may return.
var Snags []snag.Kind

func define(code, meaning string) snag.Kind {
	k := snag.Kind{Code: code, Meaning: meaning}
	Snags = append(Snags, k)
	return k
}

// snag notes something to put right at a path of the job file.
func (p *planner) snag(k snag.Kind, path, value, problem, remedy string) {
	p.snags.Add(k.At(snag.Place{Path: path}, value, problem, remedy))
}

// fault notes that the Spec is not one that a job file can give: a name that
// nothing has, a measure that the shape lacks. Whoever made it should have
// refused it; it is our error and not the user's.
func (p *planner) fault(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf("job: "+format, args...)
	}
}

// note points something out that does not stop the job.
func (p *planner) note(code, where, text, do string) {
	p.result.Notes = append(p.result.Notes, Note{Code: code, Where: where, Text: text, Do: do})
}
